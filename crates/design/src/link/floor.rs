//! What stands on a floor: a worked part for each thing whose mass is said, which stands where the thing is written.

use crate::known::PartId;
use crate::part::{Build, Part};
use vocabulary::kind;

/// Adds a part for each thing that stands somewhere and whose mass, or volume, is said.
pub fn add(build: &mut Build) {
    let things: Vec<PartId> = build.parts().filter(|(_, part)| stands(part)).map(|(number, _)| number).collect();
    for thing in things {
        super::stand_in(build, thing, kind::FLOOR_THING, "on-floor");
    }
}

/// What an allowance stands for is spread over the vehicle, and a shell is the vehicle.
fn stands(part: &Part) -> bool {
    let spec = vocabulary::part(part.kind);
    let said = |name: &str| spec.fact(name).is_some_and(|one| part.given(one.id).is_some());
    let weighs = spec.fact("mass").is_some() && (said("mass") || part.kind == kind::TANK && said("volume"));
    weighs && spec.fact("size").is_some() && !matches!(part.kind, kind::ALLOWANCE | kind::SHELL)
}
