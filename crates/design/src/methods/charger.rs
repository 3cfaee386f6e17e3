//! What a mains charger takes from the inlet that feeds it.

use super::{amperes, no_solution, volts};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{fact as f, fact::charger as c, kind};

/// The inlets that can feed a charger, through boards and transfer switches, and what would settle whether these are all.
fn inlets(reader: &mut Reader<'_>, charger: PartId) -> (Vec<PartId>, Gaps) {
    let build = reader.build();
    let walks = reader.walks();
    let supplies = match super::supply::supplies_of(reader, charger) {
        Ok(supplies) => supplies,
        Err(gaps) => return (Vec::new(), gaps),
    };
    let mut gaps = Gaps::default();
    let mut found = Vec::new();
    for shore in supplies.iter().filter_map(|(number, _)| walks.get(*number)).map(|walk| walk.supply.source.thing) {
        if build.part(shore).kind != kind::SHORE {
            continue;
        }
        match build.inside(shore, kind::INLET).members.first() {
            Some(inlet) => found.push(*inlet),
            None => gaps.add(&Gaps::one(Gap::Absent(shore, kind::INLET))),
        }
    }
    (found, gaps)
}

/// Whether an inlet feeds it.
pub fn on_mains(reader: &mut Reader<'_>, charger: PartId, _: CaseId) -> Outcome {
    match inlets(reader, charger) {
        (found, _) if !found.is_empty() => Ok(Fact::Flag(true)),
        (_, gaps) if gaps.is_empty() => Ok(Fact::Flag(false)),
        (_, gaps) => Err(gaps),
    }
}

/// The least rating of the inlets that feed it, A.
pub fn inlet_rating(reader: &mut Reader<'_>, charger: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = inlets(reader, charger);
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let ratings: Vec<_> = found.iter().map(|inlet| reader.need(*inlet, f::inlet::RATING, case)).collect();
    match super::least(ratings)? {
        Some(least) => Ok(Fact::Number(least)),
        None => no_solution(charger, c::INLET_RATING),
    }
}

/// What it takes from the mains, A.
pub fn mains_current(reader: &mut Reader<'_>, charger: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = inlets(reader, charger);
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let voltages: Vec<_> = found.iter().map(|inlet| reader.need(*inlet, f::inlet::VOLTAGE, case)).collect();
    let (power, voltage) = super::battery::both(reader.need(charger, c::DRAW, case), super::least(voltages))?;
    match voltage {
        Some(voltage) => {
            let current = power / voltage;
            reader.step(|| {
                let power = super::show(power, quantity::Dimension::POWER);
                Step::of(format!("{power} ÷ {} = {}", volts(voltage), amperes(current)))
            });
            Ok(Fact::Number(current))
        }
        None => no_solution(charger, c::MAINS_CURRENT),
    }
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![(c::ON_MAINS, Each(on_mains)), (c::INLET_RATING, Each(inlet_rating)), (c::MAINS_CURRENT, Each(mains_current))]
}
