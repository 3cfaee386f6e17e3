//! What controllers operate and gas lines feed, by name.

use super::names;
use super::runs::open;
use crate::part::{Build, Reference};
use vocabulary::{FactId, PartKind, fact, kind};

/// The pieces that name a thing, with the fact that it becomes.
const NAMING: [(PartKind, FactId); 2] = [(kind::OPERATES, fact::operates::THING), (kind::FEEDS, fact::feeds::THING)];

/// Resolves the names behind `operates` and `feeds`.
pub fn resolve(build: &mut Build) {
    let things = names::things(build);
    let mut slips = Vec::new();
    for (kind, named) in NAMING {
        for &naming in build.of_kind(kind).members.clone().iter() {
            let part = build.part(naming);
            let Some(name) = part.name.clone() else { continue };
            let head = part.head.clone();
            match things.get(&name) {
                Some(thing) => {
                    build.references.insert((naming, named), Reference::To(*thing));
                }
                None => {
                    build.references.insert((naming, named), Reference::Nothing);
                    slips.extend(names::unknown_thing(build, &name, &head, &open(build)));
                }
            }
        }
    }
    build.slips.append(&mut slips);
}
