//! What differs between two revisions of a build: parts, effects, findings, and the documents to issue again.
//!
//! [`changes`] compares two linked builds with their reviews and packets. Parts are matched by what they are called, and those
//! without a name by what is said of them, so that a wire put before another does not make all of them look altered.

mod documents;
mod effects;
mod findings;
mod pairs;
mod parts;

pub use documents::{Document, Issue};
pub use effects::{Effect, Field};
pub use findings::{Turn, Turned};
pub use parts::{Entry, PartChange, Sort};

use crate::Packet;
use crate::desk::Desk;
use design::{Build, Reader};
use quantity::System;

/// One of the two revisions.
#[derive(Clone, Copy, Debug)]
pub struct Side<'a> {
    /// The build; of the older revision in the units of the newer one.
    pub build: &'a Build,
    /// Its packet.
    pub packet: &'a Packet,
}

/// What a revision is called.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Version {
    /// As it was named: a file, or a git revision with a path.
    pub named: String,
    /// The build's name.
    pub build: String,
    /// Revision, its day and who made it.
    pub revision: String,
    /// The mark of its text, in hexadecimal digits.
    pub hash: String,
}

/// Everything that differs.
#[derive(Clone, PartialEq, Debug)]
pub struct Changes {
    /// The older revision.
    pub old: Version,
    /// The newer revision.
    pub new: Version,
    /// Parts added, removed, renamed, altered.
    pub parts: Vec<PartChange>,
    /// What it does to masses, energy and cost.
    pub effects: Vec<Effect>,
    /// Findings that came, went or turned.
    pub findings: Vec<Turned>,
    /// Documents that differ.
    pub documents: Vec<Document>,
}

impl Changes {
    /// Whether nothing differs.
    pub fn is_empty(&self) -> bool {
        self.parts.is_empty() && self.effects.is_empty() && self.findings.is_empty() && self.documents.is_empty()
    }

    /// The findings with this turn.
    pub fn turned(&self, turn: Turn) -> impl Iterator<Item = &Turned> {
        self.findings.iter().filter(move |finding| finding.turn == turn)
    }
}

/// Compares two revisions; they are named as the reader knows them. `written` are the units in which each is written.
pub fn changes(old: Side<'_>, new: Side<'_>, named: [&str; 2], written: [System; 2]) -> Changes {
    let version = |side: Side<'_>, named: &str| Version {
        named: named.to_owned(),
        build: side.packet.head.build.clone(),
        revision: side.packet.head.revision.clone(),
        hash: side.packet.head.hash.clone(),
    };
    let (mut old_reader, mut new_reader) = (Reader::new(old.build), Reader::new(new.build));
    let mut before = Desk::new(&mut old_reader, &old.packet.review, &old.packet.marks);
    let mut after = Desk::new(&mut new_reader, &new.packet.review, &new.packet.marks);
    let mut parts = parts::changes(&mut before, &mut after);
    if written[0] != written[1] {
        parts.push(units(&after, written));
    }
    Changes {
        old: version(old, named[0]),
        new: version(new, named[1]),
        parts,
        effects: effects::effects(&mut before, &mut after),
        findings: findings::turned(&old.packet.review, &new.packet.review),
        documents: documents::documents(old.packet, new.packet),
    }
}

/// Both are told in the same units, so that this entry is compared by itself.
fn units(desk: &Desk<'_, '_>, written: [System; 2]) -> PartChange {
    let [old, new] = written.map(|system| Some(if system == System::Metric { "metric" } else { "us" }.to_owned()));
    let name = vocabulary::fact_spec(vocabulary::fact::build::UNITS).name;
    let entries = vec![Entry { name, old, new }];
    PartChange { sort: Sort::Altered, part: desk.named(Build::ROOT), was: None, entries }
}
