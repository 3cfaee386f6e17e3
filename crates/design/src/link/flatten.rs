//! All parts in one list, with their titles and keys.

use super::lengths;
use crate::PartId;
use crate::part::{Part, id};
use rustc_hash::FxHashMap;
use spec::{File, Incomplete, Slip, Span, Via};
use std::fmt::Write as _;
use std::sync::Arc;
use vocabulary::{Naming, PartKind, kind};

/// The list while it grows.
#[derive(Default)]
pub struct Flat {
    /// The parts; the build as a whole is the first.
    pub parts: Vec<Part>,
    /// What does not fit together.
    pub slips: Vec<Slip>,
    /// How many parts of one kind stand in one part so far, for ordinals.
    counts: FxHashMap<(PartId, PartKind), usize>,
}

impl Flat {
    /// Takes in the top-level parts. `hidden` says that a block whose word could not be told may hide any part.
    pub fn take(&mut self, parts: Vec<spec::Part>, files: &[File], hidden: bool) {
        let mut others = Vec::new();
        let mut build = None;
        for part in parts {
            if part.kind != kind::BUILD {
                others.push(part);
            } else if build.is_none() {
                build = Some(part);
            } else {
                self.slips.push(further_build(&part));
            }
        }
        match build {
            Some(build) => self.add(build, None),
            None => self.add_missing_build(files, hidden),
        };
        for part in others {
            self.add(part, None);
        }
    }

    /// Stands in for a build that is not described.
    fn add_missing_build(&mut self, files: &[File], hidden: bool) -> PartId {
        let at = Span { file: 0, bytes: 0..0 };
        if !hidden && files.first().is_some_and(|file| !file.text.trim().is_empty()) {
            self.slips.push(
                Slip::new("names/no-build", at.clone(), "this file does not say which build it describes")
                    .help("begin with: build Name { stage draft; basis eu; }"),
            );
        }
        self.parts.push(Part {
            kind: kind::BUILD,
            name: None,
            title: "the build".into(),
            key: "build".into(),
            outer: None,
            inside: Vec::new(),
            head: at.clone(),
            whole: at.clone(),
            room: at,
            via: Vec::new(),
            unread: hidden,
            incomplete: Incomplete { every: hidden, ..Incomplete::default() },
            given: Vec::new(),
        });
        PartId(0)
    }

    fn add(&mut self, mut part: spec::Part, outer: Option<PartId>) -> PartId {
        self.slips.extend(lengths::agree(&mut part));
        let number = id(self.parts.len());
        let spec = vocabulary::part(part.kind);
        let place = (outer.unwrap_or(PartId(u32::MAX)), part.kind);
        let ordinal = self.counts.entry(place).or_insert(0);
        *ordinal += 1;
        let ordinal = *ordinal;
        let name: Option<Arc<str>> = part.name.map(|name| name.text);
        let outer_part = outer.and_then(|outer| self.parts.get(crate::part::index(outer)));
        let own_key = match &name {
            Some(name) if spec.naming != Naming::Refers => format!("{}:{name}", spec.word),
            Some(name) => format!("{}:{name}:{ordinal}", spec.word),
            None if part.kind == kind::BUILD => spec.word.to_owned(),
            None => format!("{}:{ordinal}", spec.word),
        };
        let key = match outer_part {
            Some(outer) if outer.kind != kind::BUILD => format!("{}/{own_key}", outer.key),
            _ => own_key,
        };
        let mut title = String::new();
        match &name {
            Some(name) => {
                let _ = write!(title, "{} \"{name}\"", spec.word);
            }
            None if part.kind == kind::BUILD => title.push_str("the build"),
            None if outer.is_none() => title.push_str(spec.word),
            None => {
                let _ = write!(title, "{} {ordinal}", spec.word);
            }
        }
        if let Some(outer) = outer_part
            && outer.kind != kind::BUILD
            && (name.is_none() || spec.naming == Naming::Refers)
        {
            let _ = write!(title, " in {}", outer.title);
        }
        self.parts.push(Part {
            kind: part.kind,
            name,
            title: title.into(),
            key: key.into(),
            outer,
            inside: Vec::new(),
            head: part.head,
            whole: part.at,
            room: part.room,
            via: part.via,
            unread: part.unread,
            incomplete: part.incomplete,
            given: part.given,
        });
        // The text layer bounds the depth of what it reads, so this recursion is bounded too.
        let inside: Vec<PartId> = part.inside.into_iter().map(|inner| self.add(inner, Some(number))).collect();
        if let Some(part) = self.parts.get_mut(crate::part::index(number)) {
            part.inside = inside;
        }
        number
    }
}

/// What to say of a build behind the first: in the same file it is one too many, in an included one it does not count.
fn further_build(part: &spec::Part) -> Slip {
    let included = part.via.iter().rev().find_map(|via| match via {
        Via::Include(at) => Some(at),
        _ => None,
    });
    match included {
        None => Slip::new("names/second-build", part.head.clone(), "this file describes a second build")
            .help("one build to a file; share parts by include"),
        Some(include) => {
            Slip::new("names/build-in-include", part.head.clone(), "the included file describes a build of its own")
                .help("move what both builds use into a file without a build, and include that")
                .related(include.clone(), "taken in here")
        }
    }
}
