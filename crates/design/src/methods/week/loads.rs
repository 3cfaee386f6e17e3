//! The loads and inverters of the week.

use super::told::{Known, belongs};
use crate::circuitry::Side;
use crate::fact::Outcome;
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::bank::is_base;
use crate::methods::battery::both;
use crate::methods::modes::power_factor;
use crate::methods::{doubt, fact_of, no_solution, show};
use crate::part::Build;
use crate::reader::{Reader, either};
use crate::working::Step;
use calc::week::{DayProfile, Entry, Inverter, Load, Supply};
use quantity::Dimension;
use vocabulary::{FactId, fact as f, kind};

/// The loads and inverters as entries, with the part of each.
#[derive(Default)]
pub(super) struct Drawn {
    pub loads: Vec<Load>,
    pub things: Vec<PartId>,
    pub inverters: Vec<Inverter>,
    pub inverting: Vec<PartId>,
}

/// How the fitted batteries feed a node.
struct Fed {
    /// What gives current there: a battery, a converter or an inverter.
    source: PartId,
    /// The fact of its voltage.
    voltage: FactId,
    /// The fact of its efficiency; none of a battery.
    efficiency: Option<FactId>,
}

/// How the fitted batteries feed a node; nothing when they do not.
fn fed(reader: &mut Reader<'_>, node: usize, known: &Known) -> Outcome<Option<Fed>> {
    let case = known.case;
    let build = reader.build();
    let mut gaps = doubt::of_sources(reader, node);
    let mut found = None;
    let mut own = None;
    for terminal in build.circuitry().sources_joined(&[Some(node)]) {
        let source = terminal.thing;
        let (voltage, efficiency) = match (build.part(source).kind, terminal.side) {
            // Of the batteries of another bank nothing need be known.
            (kind::BATTERY, _) if !*own.get_or_insert_with(|| belongs(reader, node, known.week)) => continue,
            (kind::BATTERY, _) => match is_base(reader, source, case) {
                Ok(true) => continue,
                Ok(false) => (f::battery::VOLTAGE, None),
                Err(more) => {
                    gaps.add(&more);
                    continue;
                }
            },
            (kind::CONVERTER, Side::Output) => (f::converter::VOLTAGE, Some(f::converter::EFFICIENCY)),
            (kind::INVERTER, Side::Output) => (f::inverter::MAINS_VOLTAGE, Some(f::inverter::EFFICIENCY)),
            (kind::INVERTER_CHARGER, Side::Output) => {
                (f::inverter_charger::VOLTAGE, Some(f::inverter_charger::EFFICIENCY))
            }
            _ => continue,
        };
        // A converter or an inverter belongs to the bank on its input.
        if efficiency.is_some() {
            let at = build.circuitry().node_of(source, Side::Input);
            if !at.is_some_and(|at| belongs(reader, at, known.week)) {
                continue;
            }
        }
        found = found.or(Some(Fed { source, voltage, efficiency }));
    }
    if gaps.is_empty() { Ok(found) } else { Err(gaps) }
}

/// The parts of the day: the hours of each word of `when`, by the order of its words. Chosen.
const PARTS_OF_DAY: [&[usize]; 4] =
    [&[6, 7, 8, 9], &[10, 11, 12, 13, 14, 15, 16], &[17, 18, 19, 20, 21], &[22, 23, 0, 1, 2, 3, 4, 5]];

/// Hours of a day.
const HOURS: usize = 24;

/// The share of the time in which a thing runs, by time of the day: its duty spread over the parts of the day that are set in `bits`. What
/// these cannot hold is spread over the rest. `None` for a duty above all day.
pub(super) fn running(duty: f64, bits: Option<u64>) -> Option<DayProfile> {
    if !(0.0..=1.0).contains(&duty) {
        return None;
    }
    let mut within = [bits.is_none(); HOURS];
    for (place, hours) in PARTS_OF_DAY.iter().enumerate() {
        for hour in hours.iter().filter(|_| bits.is_some_and(|bits| bits & (1 << place) != 0)) {
            if let Some(within) = within.get_mut(*hour) {
                *within = true;
            }
        }
    }
    let all = HOURS as f64;
    let inside = within.iter().filter(|within| **within).count() as f64;
    let wanted = duty * all;
    let (in_share, out_share) = if inside > 0.0 && wanted <= inside {
        (wanted / inside, 0.0)
    } else if inside < all {
        (1.0, (wanted - inside) / (all - inside))
    } else {
        (1.0, 0.0)
    };
    Some(DayProfile::by_hour(within.map(|within| if within { in_share } else { out_share })))
}

/// Gathers what draws on the fitted batteries.
pub(super) fn gather(reader: &mut Reader<'_>, known: &mut Known) -> Drawn {
    let build = reader.build();
    let mut drawn = Drawn::default();
    for kind in [kind::INVERTER, kind::INVERTER_CHARGER] {
        let inverters = build.of_kind(kind);
        for &inverter in inverters.members.iter() {
            add_inverter(reader, inverter, known, &mut drawn);
        }
        if !inverters.complete {
            let gaps = Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)));
            add_unknown(reader.unread_part(Build::ROOT), gaps, known, &mut drawn);
        }
    }
    for spec in vocabulary::parts().iter().filter(|spec| spec.fact("duty").is_some()) {
        let things = build.of_kind(spec.kind);
        for &thing in things.members.iter() {
            add_load(reader, thing, known, &mut drawn);
        }
        if !things.complete {
            let part = reader.unread_part(Build::ROOT);
            add_unknown(part, Gaps::one(Gap::Unread(part)), known, &mut drawn);
        }
    }
    drawn
}

/// A load of which nothing is known.
fn add_unknown(part: PartId, gaps: Gaps, known: &mut Known, drawn: &mut Drawn) {
    let place = drawn.loads.len();
    known.take::<()>(Err(gaps), Entry::LoadPower(place));
    drawn.loads.push(Load { watts: None, running: Some(DayProfile::constant(1.0)), supply: Supply::Direct });
    drawn.things.push(part);
}

fn add_inverter(reader: &mut Reader<'_>, inverter: PartId, known: &mut Known, drawn: &mut Drawn) {
    let build = reader.build();
    let facts = ["idle", "on", "power", "efficiency"].map(|name| fact_of(build, inverter, name));
    let [Some(idle), Some(on), Some(power), Some(efficiency)] = facts else { return };
    let Some(node) = build.circuitry().node_of(inverter, Side::Input) else { return };
    let place = drawn.inverters.len();
    let case = known.case;
    let watts = match fed(reader, node, known) {
        Ok(None) => return,
        Ok(Some(_)) => idle_power(reader, inverter, [idle, power], case),
        Err(gaps) => Err(gaps),
    };
    let share = reader.need(inverter, on, case).and_then(|share| part_of_day(inverter, on, share));
    let efficiency = reader.need(inverter, efficiency, case);
    if let (Ok(watts), Ok(share)) = (&watts, &share) {
        let title = &build.part(inverter).title;
        reader.step(|| {
            Step::of(format!(
                "{title}, idle: {} × {} a day = {}",
                show(*watts, Dimension::POWER),
                hours(*share),
                show(watts * share * calc::DAY_SECONDS, Dimension::ENERGY)
            ))
        });
    }
    let inverter_entry = Inverter {
        idle_watts: known.take(watts, Entry::InverterIdle(place)),
        efficiency: known.take(efficiency, Entry::InverterEfficiency(place)),
        on: known.take(share, Entry::InverterOn(place)).map(DayProfile::constant),
    };
    drawn.inverters.push(inverter_entry);
    drawn.inverting.push(inverter);
}

/// A share of the day, when it is one.
fn part_of_day(part: PartId, fact: FactId, share: f64) -> Outcome<f64> {
    if (0.0..=1.0).contains(&share) { Ok(share) } else { no_solution(part, fact) }
}

/// What an inverter takes without a load, W: as said, else from its power.
fn idle_power(reader: &mut Reader<'_>, inverter: PartId, [idle, power]: [FactId; 2], case: CaseId) -> Outcome<f64> {
    if !reader.silent(inverter, idle) {
        return reader.need(inverter, idle, case);
    }
    match calc::inverter_idle_power(reader.need(inverter, power, case)?) {
        Some((watts, citation)) => {
            reader.step(|| Step {
                assumed: true,
                ..Step::cited(format!("idle power not said: {}", show(watts, Dimension::POWER)), citation)
            });
            Ok(watts)
        }
        None => no_solution(inverter, idle),
    }
}

/// Hours of a share of the day, in words.
pub(super) fn hours(share: f64) -> String {
    format!("{:.1} h", share * HOURS as f64)
}

fn add_load(reader: &mut Reader<'_>, thing: PartId, known: &mut Known, drawn: &mut Drawn) {
    let build = reader.build();
    let facts = ["power", "current", "duty", "when", "season"].map(|name| fact_of(build, thing, name));
    let [Some(power), Some(current), Some(duty), Some(when), Some(season)] = facts else { return };
    let case = known.case;
    // The words of the season are those of the climates; a load of the other season is none of this one.
    if !reader.silent(thing, season)
        && !known.season.is_empty()
        && reader.need_word(thing, season, case).is_ok_and(|word| word != known.season)
    {
        return;
    }
    let Some(node) = build.circuitry().node_of(thing, Side::Input) else { return };
    let fed = match fed(reader, node, known) {
        Ok(Some(fed)) => fed,
        Ok(None) => return,
        Err(gaps) => return add_unknown(thing, gaps, known, drawn),
    };
    let place = drawn.loads.len();
    let watts = if !reader.silent(thing, power) {
        reader.need(thing, power, case)
    } else if !reader.silent(thing, current) {
        let apparent = both(reader.need(thing, current, case), reader.need(fed.source, fed.voltage, case));
        both(apparent, power_factor(reader, thing, case)).map(|((current, voltage), factor)| current * voltage * factor)
    } else {
        Err(either((thing, power), (thing, current)))
    };
    let bits = if reader.silent(thing, when) { Ok(None) } else { chosen(reader, thing, when, case).map(Some) };
    let share = both(reader.need(thing, duty, case), bits).and_then(|(share, bits)| {
        running(share, bits).map_or_else(|| no_solution(thing, duty), |day| Ok((share, day)))
    });
    let efficiency = fed.efficiency.map_or(Ok(1.0), |fact| reader.need(fed.source, fact, case));
    record(reader, thing, [watts.as_ref().ok().copied(), share.as_ref().ok().map(|(share, _)| *share)], &efficiency);
    let supply = match drawn.inverting.iter().position(|inverter| *inverter == fed.source) {
        Some(inverter) => Supply::Inverter(inverter),
        None if fed.efficiency.is_none() => Supply::Direct,
        None => Supply::Converter(known.take(efficiency, Entry::LoadConverter(place))),
    };
    drawn.loads.push(Load {
        watts: known.take(watts, Entry::LoadPower(place)),
        running: known.take(share, Entry::LoadRunning(place)).map(|(_, day)| day),
        supply,
    });
    drawn.things.push(thing);
}

/// The words of a set, as bits.
fn chosen(reader: &mut Reader<'_>, thing: PartId, when: FactId, case: CaseId) -> Outcome<u64> {
    match reader.fact(thing, when, case)? {
        crate::fact::Fact::ChoiceSet(bits) => Ok(bits),
        _ => no_solution(thing, when),
    }
}

/// Writes down what a load takes in a day.
fn record(reader: &mut Reader<'_>, thing: PartId, [watts, share]: [Option<f64>; 2], efficiency: &Outcome<f64>) {
    let title = reader.build().part(thing).title.clone();
    reader.step(|| {
        let (Some(watts), Some(share), Ok(efficiency)) = (watts, share, efficiency) else {
            return Step::of(format!("{title}: not all of it is known"));
        };
        let through = if *efficiency < 1.0 { format!(" ÷ {:.0} %", efficiency * 100.0) } else { String::new() };
        Step::of(format!(
            "{title}: {} × {} a day{through} = {}",
            show(watts, Dimension::POWER),
            hours(share),
            show(watts * share * calc::DAY_SECONDS / efficiency, Dimension::ENERGY)
        ))
    });
}

#[cfg(test)]
mod tests {
    use super::running;

    const EVENING: u64 = 1 << 2;

    #[test]
    fn a_duty_lies_in_its_part_of_the_day_as_far_as_that_holds_it() {
        for (duty, bits, at_noon, at_eight) in [
            (4.0, None, 4.0 / 24.0, 4.0 / 24.0),
            (4.0, Some(EVENING), 0.0, 0.8),
            (5.0, Some(EVENING), 0.0, 1.0),
            // Ten hours do not go into five: the rest is spread over the other nineteen.
            (10.0, Some(EVENING), 5.0 / 19.0, 1.0),
            (24.0, Some(EVENING), 1.0, 1.0),
            (0.0, Some(EVENING), 0.0, 0.0),
        ] {
            let day = running(duty / 24.0, bits).map(|day| *day.steps()).unwrap_or([f64::NAN; 96]);
            for (hour, expected) in [(12, at_noon), (20, at_eight)] {
                let share = day[hour * 4];
                assert!((share - expected).abs() < 1e-12, "{duty} h, {hour}: {share}");
            }
            let sum: f64 = day.iter().sum::<f64>() / 4.0;
            assert!((sum - duty).abs() < 1e-9, "{duty} h come to {sum}");
        }
        assert!(running(1.01, None).is_none());
    }
}
