//! What controllers operate, by name.

use super::names;
use super::runs::open;
use crate::part::{Build, Reference};
use vocabulary::{fact, kind};

/// Resolves the names behind `operates`.
pub fn resolve(build: &mut Build) {
    let things = names::things(build);
    let mut slips = Vec::new();
    for &operates in build.of_kind(kind::OPERATES).members.clone().iter() {
        let part = build.part(operates);
        let Some(name) = part.name.clone() else { continue };
        let head = part.head.clone();
        match things.get(&name) {
            Some(thing) => {
                build.references.insert((operates, fact::operates::THING), Reference::To(*thing));
            }
            None => {
                build.references.insert((operates, fact::operates::THING), Reference::Nothing);
                slips.extend(names::unknown_thing(build, &name, &head, &open(build)));
            }
        }
    }
    build.slips.append(&mut slips);
}
