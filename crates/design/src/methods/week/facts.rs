//! The facts of the design week.

use super::told::{Known, Sort, Told};
use super::{End, Week, heating, loads, shares, sky, sources, store, words};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{brief as the_brief, no_solution, show};
use crate::reader::Reader;
use crate::working::Step;
use calc::week::{Cause, DAYS, Recharge};
use quantity::Dimension;
use std::sync::Arc;
use vocabulary::{FactId, fact as f, fact::brief, fact::week as w, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    let mut all = vec![
        (w::SEASON, Each(season)),
        (w::BATTERIES, Each(batteries)),
        (w::CHARGED, Each(charged)),
        (w::OFF_GRID_ASKED, Each(off_grid_asked)),
        (w::OFF_GRID, Each(off_grid)),
        (w::USABLE_ENERGY, Each(usable_energy)),
        (w::ENERGY_A_DAY, Each(energy_a_day)),
        (w::IDLE_ENERGY_A_DAY, Each(idle_energy_a_day)),
        (w::SUN_A_DAY, Each(|reader, part, case| a_day(reader, part, case, w::SUN_A_DAY, &[Sort::Sun]))),
        (w::DRIVING_A_DAY, Each(|reader, part, case| a_day(reader, part, case, w::DRIVING_A_DAY, &[Sort::Driving]))),
        (
            w::MAINS_A_DAY,
            Each(|reader, part, case| a_day(reader, part, case, w::MAINS_A_DAY, &[Sort::Shore, Sort::Generator])),
        ),
        (w::BROUGHT_AT_BEST, Each(brought_at_best)),
        (w::AUTONOMY, Each(autonomy)),
        (w::AUTONOMY_AT_BEST, Each(autonomy_at_best)),
        (w::LASTS, Each(lasts)),
        (w::LOWEST, Each(lowest)),
        (w::LOWEST_AT_BEST, Each(lowest_at_best)),
        (w::LOWEST_AT_BEST_WHEN, Each(lowest_when)),
        (w::LOWEST_CHARGE, Each(lowest_charge)),
        (w::UNSERVED, Each(unserved)),
        (w::SUSTAINED, Each(sustained)),
        (w::DEFICIT_AT_BEST, Each(deficit_a_day)),
        (w::DECIDING, Each(deciding)),
        (w::WITHOUT_DECIDING, Each(without_deciding)),
        (w::NEVER_STOP, Each(never_stop)),
        (w::ELECTRIC_HEAT, Each(electric_heat)),
        (w::RECHARGE_BY_SUN, Each(|reader, part, case| recharge(reader, part, case, w::RECHARGE_BY_SUN, Sort::Sun))),
        (
            w::RECHARGE_BY_DRIVING,
            Each(|reader, part, case| recharge(reader, part, case, w::RECHARGE_BY_DRIVING, Sort::Driving)),
        ),
        (
            w::RECHARGE_BY_SHORE,
            Each(|reader, part, case| recharge(reader, part, case, w::RECHARGE_BY_SHORE, Sort::Shore)),
        ),
        (
            w::RECHARGE_BY_GENERATOR,
            Each(|reader, part, case| recharge(reader, part, case, w::RECHARGE_BY_GENERATOR, Sort::Generator)),
        ),
        (brief::RECKONED_SEASON, Each(reckoned_season)),
        (brief::SUN_SAID, Each(sun_said)),
        (brief::SUN_POSSIBLE, Each(sun_possible)),
        (brief::SAID_SUN, Each(said_sun)),
        (brief::MOST_SUN, Each(most_sun)),
    ];
    all.extend(heating::bindings());
    all
}

/// What is known while a fact of the season is worked out.
fn known(reader: &Reader<'_>, part: PartId, case: CaseId) -> Known {
    Known::of(reader, part, case)
}

fn season(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    place_of_season(reader, w::SEASON, case)
}

fn reckoned_season(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    place_of_season(reader, brief::RECKONED_SEASON, case)
}

/// The season of a case among the words of a fact.
fn place_of_season(reader: &Reader<'_>, fact: FactId, case: CaseId) -> Outcome {
    let words = vocabulary::fact_spec(fact).choices();
    let own = words.iter().position(|word| *word == reader.cases().climate(case)).unwrap_or(0);
    Ok(Fact::Choice(u16::try_from(own).unwrap_or(0)))
}

fn batteries(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(crate::methods::all(super::told::batteries(reader, part, case)?))
}

fn charged(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    let told = told(&week)?;
    // One of them only stands for what the text leaves open.
    if !told.doubt.is_empty() && told.sources.len() == 1 {
        return Err(told.doubt.clone());
    }
    Ok(Fact::Flag(!told.sources.is_empty()))
}

fn off_grid_asked(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    the_brief::says(reader, f::brief::OFF_GRID)
}

fn off_grid(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(super::told::of_brief(reader, f::brief::OFF_GRID, case)?))
}

fn usable_energy(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let known = known(reader, part, case);
    let batteries = super::told::batteries(reader, part, case)?;
    let mut each = Vec::new();
    for battery in batteries {
        let energy = store::usable(reader, battery, &known).and_then(|usable| {
            let kelvin = store::temperature(reader, battery, &known)?;
            crate::methods::energy::from_full(reader, battery, usable, kelvin, case)
        });
        if let Ok(energy) = energy {
            let title = reader.build().part(battery).title.clone();
            reader.step(|| Step::of(format!("{title}: {}", show(energy, Dimension::ENERGY))));
        }
        each.push(energy);
    }
    if each.is_empty() {
        return no_solution(part, w::USABLE_ENERGY);
    }
    Ok(Fact::Number(crate::methods::sum(each)?))
}

/// What the week is told, or what would settle its batteries.
fn told(week: &Week) -> Outcome<&Told> {
    week.told.as_ref().map_err(Clone::clone)
}

/// The energies that the entries of the loads and inverters come to in a day, J: of all, and of the inverters for being switched on.
fn drawn(told: &Told) -> Outcome<[f64; 2]> {
    let mut gaps = Gaps::default();
    let (mut all, mut idle) = (0.0, 0.0);
    for share in shares::of(told) {
        match share.taken {
            Ok(energy) => {
                all += energy;
                idle += if share.idle { energy } else { 0.0 };
            }
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok([all, idle]) } else { Err(gaps) }
}

fn energy_a_day(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    if reader.records() {
        let mut known = known(reader, part, case);
        loads::gather(reader, &mut known);
    }
    let [all, _] = drawn(told(&week)?)?;
    Ok(Fact::Number(all))
}

fn idle_energy_a_day(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    let told = told(&week)?;
    for (inverter, entry) in told.inverters.iter().zip(&told.entries().inverters) {
        let title = reader.build().part(*inverter).title.clone();
        reader.step(|| {
            let figures = entry.idle_watts.zip(entry.on.as_ref());
            Step::of(figures.map_or(format!("{title}: not all of it is known"), |(watts, on)| {
                let share = on.over_day() / calc::DAY_SECONDS;
                format!("{title}: {} × {} a day", show(watts, Dimension::POWER), loads::hours(share))
            }))
        });
    }
    let [_, idle] = drawn(told)?;
    Ok(Fact::Number(idle))
}

/// Numbers closer than this part of themselves are one.
const SAME: f64 = 1e-9;

/// What would settle a week that is not known.
fn open<T>(week: &Week, fact: FactId) -> Outcome<T> {
    if let Err(gaps) = &week.told {
        return Err(gaps.clone());
    }
    if week.gaps.is_empty() { no_solution(week.part, fact) } else { Err(week.gaps.clone()) }
}

/// A number on which both ends agree.
fn agreed(week: &Week, fact: FactId, of: impl Fn(&End) -> f64) -> Outcome<f64> {
    match (&week.worst, &week.best) {
        (Some(worst), Some(best)) => {
            let (worst, best) = (of(worst), of(best));
            let same = worst == best || (worst - best).abs() <= SAME * worst.abs().max(best.abs());
            if same { Ok(worst) } else { open(week, fact) }
        }
        _ => open(week, fact),
    }
}

/// A number of the end at which whatever is not known is at its best.
fn at_best<T>(week: &Week, fact: FactId, of: impl Fn(&End) -> T) -> Outcome<T> {
    week.best.as_ref().map_or_else(|| open(week, fact), |best| Ok(of(best)))
}

/// A question that is settled when both ends answer alike: `yes` at the worst is always yes, `no` at the best always no.
fn settled(week: &Week, fact: FactId, of: impl Fn(&End) -> bool) -> Outcome {
    if week.worst.as_ref().is_some_and(&of) {
        return Ok(Fact::Flag(true));
    }
    if week.best.as_ref().is_some_and(|best| !of(best)) {
        return Ok(Fact::Flag(false));
    }
    open(week, fact)
}

/// The mean of the energies of a week's days.
fn mean(days: &[f64; DAYS]) -> f64 {
    days.iter().sum::<f64>() / DAYS as f64
}

/// What the sources of some sorts offer in a day, J.
fn offered(told: &Told, end: &End, sorts: &[Sort]) -> f64 {
    let of_sorts = told.sources.iter().zip(&end.report.sources).filter(|(sort, _)| sorts.contains(sort));
    of_sorts.map(|(_, source)| mean(&source.offered)).sum()
}

fn a_day(reader: &mut Reader<'_>, part: PartId, case: CaseId, fact: FactId, sorts: &[Sort]) -> Outcome {
    let week = reader.week(part, case);
    let told = told(&week)?;
    if reader.records() && told.sources.iter().any(|sort| sorts.contains(sort)) {
        record_sources(reader, told, part, case);
    }
    if !told.doubt.is_empty() {
        return Err(told.doubt.clone());
    }
    if !told.sources.iter().any(|sort| sorts.contains(sort)) {
        return Ok(Fact::Number(0.0));
    }
    Ok(Fact::Number(agreed(&week, fact, |end| offered(told, end, sorts))?))
}

/// Records how the sources were found.
fn record_sources(reader: &mut Reader<'_>, told: &Told, part: PartId, case: CaseId) {
    let mut known = known(reader, part, case);
    sources::gather(reader, &told.batteries, told.entries().battery.nominal_volts, &mut known);
}

fn brought_at_best(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    let told = told(&week)?;
    if reader.records() {
        record_sources(reader, told, part, case);
    }
    let every = [Sort::Sun, Sort::Driving, Sort::Shore, Sort::Generator];
    Ok(Fact::Number(at_best(&week, w::BROUGHT_AT_BEST, |end| offered(told, end, &every))?))
}

/// Records the batteries and the loads of the week.
fn record_drawn(reader: &mut Reader<'_>, week: &Week, part: PartId, case: CaseId) {
    if !reader.records() {
        return;
    }
    let Ok(told) = &week.told else { return };
    let mut known = known(reader, part, case);
    if let Some(first) = told.batteries.first() {
        let _ = store::pool(reader, &told.batteries, *first, &mut known);
    }
    loads::gather(reader, &mut known);
}

/// A time without end counts as that of no draw: a century.
const ENDLESS: f64 = 100.0 * 365.25 * calc::DAY_SECONDS;

fn time(end: &End) -> f64 {
    end.report.autonomy.seconds().min(ENDLESS)
}

fn autonomy(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    record_drawn(reader, &week, part, case);
    Ok(Fact::Number(agreed(&week, w::AUTONOMY, time)?))
}

fn autonomy_at_best(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    record_drawn(reader, &week, part, case);
    Ok(Fact::Number(at_best(&week, w::AUTONOMY_AT_BEST, time)?))
}

fn lasts(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let asked = reader.need(part, w::OFF_GRID, case)?;
    let week = reader.week(part, case);
    settled(&week, w::LASTS, |end| time(end) >= asked * (1.0 - SAME))
}

fn lowest(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    words::days(reader, &week);
    Ok(Fact::Number(agreed(&week, w::LOWEST, |end| end.report.least_usable_left)?))
}

fn lowest_at_best(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    words::days(reader, &week);
    Ok(Fact::Number(at_best(&week, w::LOWEST_AT_BEST, |end| end.report.least_usable_left)?))
}

fn lowest_when(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    at_best(&week, w::LOWEST_AT_BEST_WHEN, |end| Fact::Text(Arc::from(words::moment(end.report.least_at))))
}

fn lowest_charge(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    Ok(Fact::Number(agreed(&week, w::LOWEST_CHARGE, |end| end.report.least_state_of_charge)?))
}

fn unserved(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    Ok(Fact::Number(agreed(&week, w::UNSERVED, |end| end.report.unserved_seconds)?))
}

fn sustained(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    settled(&week, w::SUSTAINED, |end| end.sustained)
}

fn deficit_a_day(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let week = reader.week(part, case);
    Ok(Fact::Number(at_best(&week, w::DEFICIT_AT_BEST, |end| end.deficit)?))
}

/// The deciding load of the end at which whatever is not known is at its best.
fn decides(reader: &mut Reader<'_>, part: PartId, case: CaseId, fact: FactId) -> Outcome<(PartId, f64)> {
    let week = reader.week(part, case);
    let told = told(&week)?;
    let Some(deciding) = (match (&week.worst, &week.best) {
        (Some(worst), Some(best)) if worst.report.deciding == best.report.deciding => best.report.deciding,
        _ => return open(&week, fact),
    }) else {
        return no_solution(part, fact);
    };
    let load = match deciding.cause {
        Cause::Load(place) => told.loads.get(place),
        Cause::Idle(place) => told.inverters.get(place),
    };
    let Some(&load) = load else { return no_solution(part, fact) };
    let without = deciding.without.seconds().min(ENDLESS);
    let title = reader.build().part(load).title.clone();
    reader.step(|| {
        let idle = if matches!(deciding.cause, Cause::Idle(_)) { ", for being switched on" } else { "" };
        Step::of(format!("without {title}{idle} they would last {}", show(without, Dimension::TIME)))
    });
    Ok((load, without))
}

fn deciding(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Part(decides(reader, part, case, w::DECIDING)?.0))
}

fn without_deciding(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(decides(reader, part, case, w::WITHOUT_DECIDING)?.1))
}

/// How long the sources of a sort take to fill the batteries, the fastest of them alone.
fn recharge(reader: &mut Reader<'_>, part: PartId, case: CaseId, fact: FactId, sort: Sort) -> Outcome {
    let week = reader.week(part, case);
    let told = told(&week)?;
    let of_sort = |end: &End| -> Option<Recharge> {
        let own = told.sources.iter().zip(&end.report.recharge).filter(|(own, _)| **own == sort);
        let fastest = |one: &Recharge, other: &Recharge| hours(one).total_cmp(&hours(other));
        own.map(|(_, recharge)| *recharge).min_by(|one, other| fastest(one, other))
    };
    if !told.sources.contains(&sort) {
        reader.step(|| Step::of(format!("no {} charges the batteries", sort.word())));
        return no_solution(part, fact);
    }
    let seconds = agreed(&week, fact, |end| of_sort(end).map_or(f64::INFINITY, |recharge| hours(&recharge)))?;
    if let Some(recharge) = week.best.as_ref().and_then(of_sort) {
        reader.step(|| {
            Step::of(match recharge {
                Recharge::Seconds(_) => {
                    format!("from the cut to {} full, without loads", show(calc::week::RECHARGED, Dimension::RATIO))
                }
                Recharge::NotWithinFortnight => "not within a fortnight".to_owned(),
                Recharge::WrongTemperature => "the batteries are too cold or too hot to be charged".to_owned(),
                Recharge::Nothing => "it brings nothing".to_owned(),
            })
        });
    }
    if seconds.is_finite() { Ok(Fact::Number(seconds)) } else { no_solution(part, fact) }
}

/// The time of a recharge, s; without end where it does not come about.
fn hours(recharge: &Recharge) -> f64 {
    match recharge {
        Recharge::Seconds(seconds) => *seconds,
        _ => f64::INFINITY,
    }
}

/// The loads of the week that a test picks; those of which it is not known leave the list open.
fn picked(
    reader: &mut Reader<'_>,
    part: PartId,
    case: CaseId,
    pick: impl Fn(&mut Reader<'_>, PartId) -> Outcome<bool>,
) -> Outcome {
    let week = reader.week(part, case);
    let mut gaps = Gaps::default();
    let mut members = Vec::new();
    for &load in &told(&week)?.loads {
        match pick(reader, load) {
            Ok(true) => members.push(load),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if members.is_empty() && !gaps.is_empty() { Err(gaps) } else { Ok(crate::methods::parts(members, gaps.is_empty())) }
}

/// The motors that are said to run all day. What does not say that it is a motor is none.
fn never_stop(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    picked(reader, part, case, |reader, load| {
        // Fans and pumps may well run all day: only what cools in cycles is an appliance with a motor.
        if reader.build().part(load).kind != kind::APPLIANCE
            || reader.silent(load, f::appliance::MOTOR)
            || !reader.need_flag(load, f::appliance::MOTOR, case)?
        {
            return Ok(false);
        }
        Ok(reader.need(load, f::appliance::DUTY, case)? >= 1.0 - SAME)
    })
}

/// From this power, W, and this share of a day on, heat is a heavy load of a battery: 300 W for half an hour (chosen).
const HEAVY_HEAT: (f64, f64) = (300.0, 0.5 / 24.0);

/// What makes heat from the batteries.
fn electric_heat(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    picked(reader, part, case, |reader, load| {
        let (fuel, power, duty) = match reader.build().part(load).kind {
            kind::HEATER => (f::heater::FUEL, f::heater::POWER, f::heater::DUTY),
            kind::COOKER => (f::cooker::FUEL, f::cooker::POWER, f::cooker::DUTY),
            _ => return Ok(false),
        };
        // A current instead of a power is that of a fan or an igniter.
        if reader.silent(load, power) || reader.need_word(load, fuel, case)? != "none" {
            return Ok(false);
        }
        let (watts, share) = HEAVY_HEAT;
        if reader.need(load, power, case)? <= watts {
            return Ok(false);
        }
        Ok(reader.need(load, duty, case)? > share * (1.0 + SAME))
    })
}

fn sun_said(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let known = known(reader, part, case);
    the_brief::says(reader, sky::of_season(&known))
}

fn sun_possible(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (said, most) = crate::methods::battery::both(
        reader.need(part, brief::SAID_SUN, case),
        reader.need(part, brief::MOST_SUN, case),
    )?;
    Ok(Fact::Flag(said <= most))
}

fn said_sun(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let known = known(reader, part, case);
    match sky::said(reader, &known)? {
        Some(share) => Ok(Fact::Number(share * calc::DAY_SECONDS)),
        None => match reader.build().only(kind::BRIEF) {
            Some(brief) => Err(Gaps::one(Gap::Entry(brief, sky::of_season(&known)))),
            None => no_solution(part, brief::SAID_SUN),
        },
    }
}

fn most_sun(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let known = known(reader, part, case);
    Ok(Fact::Number(sky::clearest(reader, &known)? * calc::DAY_SECONDS))
}
