//! The things that have to be held in a crash, batteries and strapped gas cylinders apart: each with a worked part that stands where it is written.

use crate::known::PartId;
use crate::part::{Build, Part};
use spec::Value;
use vocabulary::{fact, kind};

/// Adds a part for each thing that a restraint can hold and whose mass is said. Batteries and
/// gas cylinders that something holds have rules of their own.
pub fn add(build: &mut Build) {
    let things: Vec<PartId> = build
        .parts()
        .filter(|(_, part)| part.kind != kind::BATTERY && holdable(part))
        .map(|(number, _)| number)
        .collect();
    for thing in things {
        super::stand_in(build, thing, kind::HEAVY_THING, "heavy");
    }
}

fn holdable(part: &Part) -> bool {
    let spec = vocabulary::part(part.kind);
    let said = |name: &str| spec.fact(name).is_some_and(|one| part.given(one.id).is_some());
    spec.contains.contains(&kind::RESTRAINT) && (said("mass") || said("volume")) && !strapped_cylinder(part)
}

/// A gas cylinder that something holds; whether that is enough is judged among the rules on gas.
fn strapped_cylinder(part: &Part) -> bool {
    let fixings = (part.kind == kind::CYLINDER).then(|| part.given(fact::cylinder::FIXINGS)).flatten();
    fixings.is_some_and(|given| matches!(given.value, Value::Quantity(count) if count.value > 0.0))
}
