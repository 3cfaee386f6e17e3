//! Gas that no line holds: spare cartridges and the cargo of work vehicles.

use super::super::space::{self, Space};
use super::super::{no_solution, show};
use super::locker::fixed;
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, PartId};
use crate::reader::Reader;
use crate::working::Step;
use calc::gas::Gas;
use quantity::Dimension;
use vocabulary::{fact as f, fact::cartridge, fact::hazardous_cargo};

/// How far a cartridge that empties brings its space to the explosive limit.
fn share_of_limit(reader: &mut Reader<'_>, own: PartId, case: CaseId) -> Outcome {
    let Space::Zone(zone) = space::of(reader, own, case)? else { return Ok(Fact::Number(0.0)) };
    // A mixture lies between propane and butane; propane fills more of the air.
    let gas = if reader.need_word(own, cartridge::GAS, case)? == "butane" { Gas::Butane } else { Gas::Propane };
    let content = reader.need(own, cartridge::CONTENT, case)?;
    let Fact::Lengths(size) = reader.fact(zone, f::zone::SIZE, case)? else {
        return no_solution(own, cartridge::SHARE_OF_LIMIT);
    };
    let room: f64 = size.iter().product();
    let Some(share) = calc::gas::share_of_lower_limit(gas, content, room) else {
        return no_solution(own, cartridge::SHARE_OF_LIMIT);
    };
    reader.step(|| {
        let text = format!(
            "{} of vapour in {} of space, well mixed: {} of the lower explosive limit",
            show(content, Dimension::MASS),
            show(room, Dimension::VOLUME),
            show(share, Dimension::RATIO)
        );
        Step::cited(text, &calc::gas::LOWER_LIMIT)
    });
    Ok(Fact::Number(share))
}

fn flammable(reader: &mut Reader<'_>, own: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(reader.need_word(own, hazardous_cargo::HOLDS, case)? != "oxygen"))
}

/// Whether a fixed opening at these heights leads from its space to the open air.
fn aired(reader: &mut Reader<'_>, own: PartId, heights: &[&str], case: CaseId) -> Outcome {
    match space::of(reader, own, case)? {
        Space::Outside => Ok(Fact::Flag(true)),
        Space::Zone(zone) => Ok(Fact::Flag(fixed(reader, zone, heights, case)? > 0.0)),
    }
}

fn aired_low(reader: &mut Reader<'_>, own: PartId, case: CaseId) -> Outcome {
    aired(reader, own, &["low"], case)
}

fn aired_high(reader: &mut Reader<'_>, own: PartId, case: CaseId) -> Outcome {
    aired(reader, own, &["high", "roof"], case)
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use super::super::ventilation::{enclosed, in_living_space};
    use Method::Each;
    vec![
        (cartridge::IN_LIVING_SPACE, Each(in_living_space)),
        (cartridge::SHARE_OF_LIMIT, Each(share_of_limit)),
        (hazardous_cargo::FLAMMABLE, Each(flammable)),
        (hazardous_cargo::ENCLOSED, Each(enclosed)),
        (hazardous_cargo::AIRED_LOW, Each(aired_low)),
        (hazardous_cargo::AIRED_HIGH, Each(aired_high)),
    ]
}
