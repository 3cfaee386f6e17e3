//! What the heating of the coldest days takes from the batteries of a week.

use super::told::Told;
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, PartId};
use crate::methods::{battery::both, doubt, plumbing, show, sum};
use crate::reader::Reader;
use crate::working::Step;
use calc::week::{Entry, Supply};
use quantity::Dimension;
use vocabulary::fact::week as w;

/// A night, as a share of the day: twelve hours (chosen, as for tanks that freeze).
const NIGHT: f64 = 0.5;

/// Days of a week.
const WEEK: f64 = 7.0;

/// A load that heats: what it takes from the batteries while it runs, and for how much of the time it must run and is said to.
struct Heating {
    part: PartId,
    /// W, the losses of converters included.
    watts: Outcome<f64>,
    needed: f64,
    counted: Outcome<f64>,
}

/// The loads of a week that heat; none in summer.
fn loads(reader: &mut Reader<'_>, week: PartId, case: CaseId) -> Outcome<Vec<Heating>> {
    if reader.cases().climate(case) != "winter" {
        return Ok(Vec::new());
    }
    let own = reader.week(week, case);
    let told = own.told.as_ref().map_err(Clone::clone)?;
    let mut found = Vec::new();
    // A run that may lead anywhere may feed what heats.
    let mut gaps = doubt::of_unreached(reader);
    for (place, part) in told.loads.iter().enumerate() {
        match plumbing::heating_share(reader, *part, case) {
            Ok(Some(needed)) => found.push(heating(told, place, *part, needed)),
            Ok(None) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(found) } else { Err(gaps) }
}

/// The load of a place among those of the week.
fn heating(told: &Told, place: usize, part: PartId, needed: f64) -> Heating {
    let entries = told.entries();
    let load = entries.loads.get(place);
    let efficiency = load.and_then(|load| match load.supply {
        Supply::Direct => Some(1.0),
        Supply::Converter(efficiency) => efficiency,
        Supply::Inverter(inverter) => entries.inverters.get(inverter).and_then(|inverter| inverter.efficiency),
    });
    let watts = match (load.and_then(|load| load.watts), efficiency) {
        (Some(watts), Some(efficiency)) => Ok(watts / efficiency),
        (None, _) => Err(told.missing(Entry::LoadPower(place))),
        (_, None) => Err(told.missing(Entry::LoadConverter(place))),
    };
    let running = load.and_then(|load| load.running.as_ref());
    let counted = running.map(|running| running.over_day() / calc::DAY_SECONDS);
    let counted = counted.ok_or_else(|| told.missing(Entry::LoadRunning(place)));
    Heating { part, watts, needed, counted }
}

fn heating_asked(reader: &mut Reader<'_>, week: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(!loads(reader, week, case)?.is_empty()))
}

fn heating_things(reader: &mut Reader<'_>, week: PartId, case: CaseId) -> Outcome {
    Ok(crate::methods::all(loads(reader, week, case)?.into_iter().map(|load| load.part)))
}

/// The sum of what each load that heats takes in a day, J; nothing in summer.
fn a_day(reader: &mut Reader<'_>, week: PartId, case: CaseId, share: fn(&Heating) -> Outcome<f64>) -> Outcome<f64> {
    let mut each = Vec::new();
    for load in loads(reader, week, case)? {
        let taken = both(load.watts.clone(), share(&load));
        if let Ok((watts, share)) = &taken {
            let title = reader.build().part(load.part).title.clone();
            reader.step(|| {
                let (power, share) = (show(*watts, Dimension::POWER), show(*share, Dimension::RATIO));
                Step::of(format!("{title}: {power} × {share} of the time"))
            });
        }
        each.push(taken.map(|(watts, share)| watts * share * calc::DAY_SECONDS));
    }
    sum(each)
}

fn heating_a_night(reader: &mut Reader<'_>, week: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(NIGHT * a_day(reader, week, case, |load| Ok(load.needed))?))
}

fn heating_a_week(reader: &mut Reader<'_>, week: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(WEEK * a_day(reader, week, case, |load| Ok(load.needed))?))
}

fn heating_counted(reader: &mut Reader<'_>, week: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(a_day(reader, week, case, |load| load.counted.clone())?))
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (w::HEATING_ASKED, Each(heating_asked)),
        (w::HEATING_THINGS, Each(heating_things)),
        (w::HEATING_A_NIGHT, Each(heating_a_night)),
        (w::HEATING_A_WEEK, Each(heating_a_week)),
        (w::HEATING_COUNTED, Each(heating_counted)),
    ]
}
