//! The sources of alternating current, each with a worked part that stands for all that it can feed; and the sets of things
//! that run together.

use super::names;
use super::runs::open;
use crate::circuitry::{Side, Supply, Terminal};
use crate::known::PartId;
use crate::part::Build;
use rustc_hash::FxHashMap;
use spec::Value;
use std::sync::Arc;
use vocabulary::{PartKind, fact, kind};

/// What gives alternating current, and on which side.
const GIVE: [(PartKind, Side); 5] = [
    (kind::SHORE, Side::Input),
    (kind::GENERATOR, Side::Input),
    (kind::INVERTER, Side::Output),
    (kind::INVERTER_CHARGER, Side::Output),
    (kind::ISOLATING_TRANSFORMER, Side::Output),
];

/// Adds a part for each source, and settles what the sets name.
pub fn add(build: &mut Build) {
    let sources: Vec<PartId> = build
        .parts()
        .filter(|(_, part)| GIVE.iter().any(|(kind, _)| *kind == part.kind))
        .map(|(number, _)| number)
        .collect();
    for thing in sources {
        let Some((_, side)) = GIVE.iter().find(|(kind, _)| *kind == build.part(thing).kind) else { continue };
        let number = super::stand_in(build, thing, kind::SUPPLY, "supply");
        build.circuitry.mains.push(Supply { part: number, source: Terminal { thing, side: *side } });
    }
    sets(build);
}

/// Settles which things each set names.
fn sets(build: &mut Build) {
    let things: FxHashMap<Arc<str>, PartId> = names::things(build);
    let mut slips = Vec::new();
    for &set in build.of_kind(kind::TOGETHER).members.clone().iter() {
        let named = match build.part(set).given(fact::together::THINGS).map(|given| &given.value) {
            Some(Value::Names(list)) => {
                let mut members = Some(Vec::new());
                for (name, at) in list {
                    match things.get(name) {
                        Some(thing) => members.iter_mut().for_each(|members| members.push(*thing)),
                        None => {
                            members = None;
                            slips.extend(names::unknown_thing(build, name, at, &open(build)));
                        }
                    }
                }
                members
            }
            Some(_) => None,
            None => Some(Vec::new()),
        };
        let named = if build.part(set).unread { None } else { named };
        build.circuitry.sets.insert(set, named);
    }
    build.slips.append(&mut slips);
}
