//! The fills of a build: how full its tanks are, and who and what is aboard.

use crate::methods::mass::FILLS;
use crate::part::Build;
use vocabulary::{fact, kind};

/// The names of the fills; none where nothing was weighed, since then no load can be reckoned in any.
pub fn names(build: &Build) -> Vec<String> {
    let axles = build.of_kind(kind::AXLE).members.iter();
    let weighed = axles.clone().any(|axle| build.part(*axle).given(fact::axle::MEASURED).is_some());
    if weighed { FILLS.iter().map(|fill| fill.name.to_owned()).collect() } else { Vec::new() }
}
