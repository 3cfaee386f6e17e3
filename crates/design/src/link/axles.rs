//! Axles that stand in one place, so that no load can be shared among them.

use crate::part::Build;
use spec::{Slip, Value};
use vocabulary::{fact, kind};

/// Wheels that do not overlap stand farther apart than this, m (chosen).
const LEAST_DISTANCE: f64 = 0.3;

/// Reports axles that stand in one place.
pub fn check(build: &mut Build) {
    let mut placed = Vec::new();
    for &axle in build.of_kind(kind::AXLE).members.iter() {
        if let Some(given) = build.part(axle).given(fact::axle::AT)
            && let Value::Quantity(at) = &given.value
        {
            placed.push((at.value, axle, given.at.clone()));
        }
    }
    placed.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut slips = Vec::new();
    for pair in placed.windows(2) {
        let [(first, before, _), (second, after, at)] = pair else { continue };
        if build.part(*before).outer == build.part(*after).outer && second - first < LEAST_DISTANCE {
            let (before, after) = (build.part(*before), build.part(*after));
            let millimetres = ((second - first) * 1_000.0).round();
            let message = format!("{} and {} stand {millimetres} mm apart", before.title, after.title);
            slips.push(
                Slip::new("names/axles-in-one-place", at.clone(), message)
                    .help("write how far each axle is from the front one, for example at=\"4035 mm\"; 4.035 is in m")
                    .related(before.head.clone(), "the other axle"),
            );
        }
    }
    build.slips.append(&mut slips);
}
