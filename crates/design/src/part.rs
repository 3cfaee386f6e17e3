//! A linked build: every part in one list, with its place, its key and what is given on it.

use crate::cases::Cases;
use crate::circuitry::Circuitry;
use crate::known::{PartId, Parts};
use crate::modes::Mode;
use crate::regions::Regions;
use rustc_hash::FxHashMap;
use spec::{File, Given, Incomplete, RuleFile, Slip, Span, Value, Via};
use std::sync::Arc;
use vocabulary::{FactId, PartKind};

/// One part of a linked build.
#[derive(Clone, PartialEq, Debug)]
pub struct Part {
    /// Its kind.
    pub kind: PartKind,
    /// Its name.
    pub name: Option<Arc<str>>,
    /// How it is called in findings: `circuit "house main"`, `wire 2 in circuit "house main"`.
    pub title: Arc<str>,
    /// Its identity: kinds with names, or with ordinals for parts without one, from the outside in.
    pub key: Arc<str>,
    /// The part that it stands in.
    pub outer: Option<PartId>,
    /// The parts that stand in it, in the order of the text.
    pub inside: Vec<PartId>,
    /// Its first line, where findings point.
    pub head: Span,
    /// The whole of it.
    pub whole: Span,
    /// Where a new property can be written.
    pub room: Span,
    /// How it came here.
    pub via: Vec<Via>,
    /// Whether its own line could not be read.
    pub unread: bool,
    /// Of which kinds it may hold parts that could not be read.
    pub incomplete: Incomplete,
    /// What is given on it, ordered by fact.
    pub given: Vec<Given>,
}

impl Part {
    /// Whether something of it, or in it, could not be read.
    pub(crate) fn leaves_open(&self) -> bool {
        self.unread || self.incomplete.is_any()
    }

    /// What is given for this fact.
    pub fn given(&self, fact: FactId) -> Option<&Given> {
        self.given.binary_search_by_key(&fact, |given| given.fact).ok().and_then(|index| self.given.get(index))
    }
}

/// A linked build.
#[derive(Clone, Debug)]
pub struct Build {
    /// The files that were read; the first is the build itself.
    pub files: Vec<File>,
    /// The files of house rules that it names.
    pub rule_files: Vec<RuleFile>,
    /// What is wrong in the text and in its names.
    pub slips: Vec<Slip>,
    /// The regions of its basis.
    pub regions: Regions,
    /// The modes, climates and fills among which its facts may differ; the modes are those of `modes`, in the same order.
    pub cases: Cases,
    pub(crate) parts: Vec<Part>,
    pub(crate) by_kind: Vec<Parts>,
    pub(crate) references: FxHashMap<(PartId, FactId), Reference>,
    pub(crate) circuitry: Circuitry,
    pub(crate) systems: Vec<(PartId, usize)>,
    /// The modes; the first is `parked`.
    pub(crate) modes: Vec<Mode>,
    /// The open air, where a part names it and nobody describes it.
    pub(crate) outside: Option<PartId>,
    /// The climates that its facts may differ by; none where nothing depends on one.
    pub(crate) climates: Vec<String>,
    /// The first part that could not be read whole; the build itself where each was.
    pub(crate) first_unread: PartId,
}

/// What a given name refers to.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) enum Reference {
    /// This part.
    To(PartId),
    /// Nothing that is known.
    Nothing,
}

/// What is given for a fact, when it is not written.
#[derive(Clone, PartialEq, Debug)]
pub(crate) enum Said<'a> {
    /// Written so.
    Written(&'a Value),
    /// Not written, and its absence means this.
    Meant(Value),
    /// Not written, and assumed to be this, with source and mark.
    Assumed(Value, &'static str, &'static str),
    /// Not known: not written, written as unknown, or written so that it could not be read.
    Unknown,
    /// The part's own line could not be read.
    Unread,
}

impl Build {
    /// The part that stands for the build as a whole; every build has one.
    pub const ROOT: PartId = PartId(0);

    /// The same build if these values were given: for what is only asked, and not yet written. Values that are written stand
    /// at their old places; what is new stands at the head of its part.
    #[must_use]
    pub fn with(&self, values: &[(PartId, FactId, Value)]) -> Self {
        let mut other = self.clone();
        for (part, fact, value) in values {
            let Some(part) = other.parts.get_mut(index(*part)) else { continue };
            let given = Given { fact: *fact, value: value.clone(), at: part.head.clone(), via: None };
            match part.given.binary_search_by_key(fact, |given| given.fact) {
                Ok(known) => part.given[known].value = given.value,
                Err(place) => part.given.insert(place, given),
            }
        }
        other
    }

    /// A part by its number. A number that is no part's gives the build as a whole.
    pub fn part(&self, id: PartId) -> &Part {
        self.parts.get(index(id)).unwrap_or_else(|| &self.parts[0])
    }

    /// Every part.
    pub fn parts(&self) -> impl Iterator<Item = (PartId, &Part)> {
        self.parts.iter().enumerate().map(|(number, part)| (id(number), part))
    }

    /// Every part of one kind, in the order of the text.
    pub fn of_kind(&self, kind: PartKind) -> &Parts {
        &self.by_kind[usize::from(kind.0)]
    }

    /// The first part of a kind of which a build has one (vehicle, brief).
    pub fn only(&self, kind: PartKind) -> Option<PartId> {
        self.of_kind(kind).members.first().copied()
    }

    /// The circuits as a network.
    pub fn circuitry(&self) -> &Circuitry {
        &self.circuitry
    }

    /// The modes, the representative one first.
    pub fn modes(&self) -> &[Mode] {
        &self.modes
    }

    /// The parts of one kind that stand in a part, and whether these are certainly all.
    pub fn inside(&self, outer: PartId, kind: PartKind) -> Parts {
        let part = self.part(outer);
        let members: Vec<PartId> = part.inside.iter().copied().filter(|inner| self.part(*inner).kind == kind).collect();
        Parts { members: members.into(), complete: !part.unread && !part.incomplete.concerns(kind) }
    }

    /// Parts by their name, for those who ask by name; in the order of the text.
    pub fn called<'a>(&'a self, name: &'a str) -> impl Iterator<Item = (PartId, &'a Part)> {
        self.parts().filter(move |(_, part)| part.name.as_deref() == Some(name))
    }

    /// The system number of a part of kind `system`.
    pub(crate) fn system(&self, part: PartId) -> Option<usize> {
        self.systems.iter().find(|(id, _)| *id == part).map(|(_, system)| *system)
    }

    pub(crate) fn said(&self, part: PartId, fact: FactId) -> Said<'_> {
        let part = self.part(part);
        match part.given(fact) {
            Some(Given { value: Value::Unknown, .. }) => return Said::Unknown,
            Some(given) => return Said::Written(&given.value),
            None => {}
        }
        if part.unread {
            return Said::Unread;
        }
        let spec = vocabulary::fact_spec(fact);
        match (spec.absent, spec::implied_value(spec)) {
            (vocabulary::Absent::Assume { source, mark, .. }, Some(value)) => Said::Assumed(value, source, mark),
            (_, Some(value)) => Said::Meant(value),
            (_, None) => Said::Unknown,
        }
    }
}

/// A part's index from its number.
pub(crate) fn index(id: PartId) -> usize {
    usize::try_from(id.0).unwrap_or(usize::MAX)
}

/// A part's number from its index.
pub(crate) fn id(index: usize) -> PartId {
    PartId(u32::try_from(index).unwrap_or(u32::MAX))
}
