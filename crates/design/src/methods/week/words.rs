//! The week in words: a line for each day.

use super::told::{BEGINS, HOUR, Told};
use super::{End, Week};
use crate::methods::show;
use crate::reader::Reader;
use crate::working::Step;
use calc::week::DAYS;
use quantity::Dimension;

/// Hours of a day.
const HOURS: usize = 24;

/// A time of the week: the day, counted from 1, and the time of the clock.
pub(super) fn moment(seconds: f64) -> String {
    let since_midnight = BEGINS + seconds;
    let day = (since_midnight / calc::DAY_SECONDS).floor() + 1.0;
    let of_day = since_midnight.rem_euclid(calc::DAY_SECONDS);
    let minutes = (of_day / 60.0).round();
    format!("day {day}, {:02}:{:02}", (minutes / 60.0).floor(), minutes.rem_euclid(60.0))
}

/// Records the days of the week: both ends where they differ.
pub(super) fn days(reader: &mut Reader<'_>, week: &Week) {
    if !reader.records() {
        return;
    }
    let Ok(told) = &week.told else { return };
    let both = matches!((&week.worst, &week.best), (Some(worst), Some(best)) if worst != best);
    for (end, word) in [(&week.worst, "at worst"), (&week.best, "at best")] {
        let Some(end) = end else { continue };
        if both || word == "at worst" || week.worst.is_none() {
            if both || week.worst.is_none() {
                reader.step(|| Step::of(format!("with whatever is not known {word}:")));
            }
            for day in 0..DAYS {
                let line = line(told, end, day);
                reader.step(|| Step::of(line));
            }
        }
    }
}

/// A day of the week, of 24 hours from its beginning.
fn line(told: &Told, end: &End, day: usize) -> String {
    let report = &end.report;
    let of_day = |sums: &[f64; DAYS]| sums.get(day).copied().unwrap_or(0.0);
    let energy = |joules: f64| show(joules, Dimension::ENERGY);
    let loads: f64 = report.loads.iter().chain(&report.idle).map(of_day).sum();
    let mut brought: Vec<(&'static str, f64)> = Vec::new();
    for (sort, source) in told.sources.iter().zip(&report.sources) {
        let used = of_day(&source.used);
        match brought.iter_mut().find(|(word, _)| *word == sort.word()) {
            Some((_, sum)) => *sum += used,
            None => brought.push((sort.word(), used)),
        }
    }
    let brought: Vec<String> = brought.iter().map(|(word, joules)| format!("{word} {}", energy(*joules))).collect();
    let hours = day * HOURS..=(day + 1) * HOURS;
    let mut left = hours.filter_map(|hour| Some((hour, *report.usable_left.get(hour)?)));
    let least = left.clone().min_by(|one, other| one.1.total_cmp(&other.1)).unwrap_or((0, 0.0));
    let at_end = left.next_back().map_or(0.0, |(_, left)| left);
    let percent = |share: f64| format!("{:.0} %", share * 100.0);
    format!(
        "{}: loads {}; used of {}; least {} left at {}; {} at the end",
        moment(day as f64 * calc::DAY_SECONDS),
        energy(loads),
        if brought.is_empty() { "no source".to_owned() } else { brought.join(", ") },
        percent(least.1),
        moment(least.0 as f64 * HOUR),
        percent(at_end)
    )
}

#[cfg(test)]
mod tests {
    use super::moment;

    #[test]
    fn a_moment_is_a_day_and_a_time_of_the_clock() {
        for (hours, words) in
            [(0.0, "day 1, 18:00"), (6.0, "day 2, 00:00"), (13.25, "day 2, 07:15"), (168.0, "day 8, 18:00")]
        {
            assert_eq!(moment(hours * 3_600.0), words);
        }
    }
}
