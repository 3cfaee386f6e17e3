//! Circuits, ways and shore cables as runs between nodes, with worked parts for the run, its ends, conductors and devices.

use super::joints::Joints;
use super::names;
use super::terminals::{self, Joined};
use crate::circuitry::{Circuitry, OpenEnd, Piece, Run};
use crate::known::{Gap, PartId};
use crate::methods::source::is_source;
use crate::part::{Build, Part, Reference, id};
use rustc_hash::FxHashMap;
use spec::{Incomplete, Slip, Span, Value};
use std::sync::Arc;
use vocabulary::{FactId, PartKind, fact, kind};

/// The pieces of a circuit that open it.
const SWITCHES: [PartKind; 3] = [kind::DISCONNECT, kind::SWITCH, kind::RELAY];

/// The pieces of a circuit that the current only passes through.
const PASSED_THROUGH: [PartKind; 2] = [kind::SHUNT, kind::CONNECTOR];

/// Sources that are there even when nothing is joined to them: what leads to somewhere unknown may lead to them.
const SOURCES: [PartKind; 10] = [
    kind::BATTERY,
    kind::CHARGER,
    kind::CONVERTER,
    kind::INVERTER,
    kind::INVERTER_CHARGER,
    kind::SOLAR,
    kind::SOLAR_CONTROLLER,
    kind::GENERATOR,
    kind::TRAILER_PLUG,
    kind::ISOLATING_TRANSFORMER,
];

/// Connects every run of the build.
pub fn connect(build: &mut Build) {
    let things = names::things(build);
    let mut wiring = Wiring {
        build,
        things,
        joints: Joints::default(),
        circuitry: Circuitry::default(),
        slips: Vec::new(),
        feeds: FxHashMap::default(),
    };
    wiring.circuits();
    wiring.ways();
    wiring.shores();
    wiring.alternators();
    let Wiring { joints, mut circuitry, mut slips, .. } = wiring;
    joints.settle(&mut circuitry);
    let attached = circuitry.attached.iter().enumerate();
    let sources = attached
        .flat_map(|(node, terminals)| terminals.iter().map(move |terminal| (node, *terminal)))
        .filter(|(_, terminal)| is_source(build.part(terminal.thing).kind, terminal.side))
        .collect();
    circuitry.find_groups(sources);
    build.circuitry = circuitry;
    build.slips.append(&mut slips);
}

/// A run before its worked parts are made.
pub(super) struct Draft {
    pub(super) written: PartId,
    pub(super) pieces: Vec<Draught>,
    pub(super) complete: bool,
    pub(super) alternating: bool,
    pub(super) nodes: [Option<usize>; 2],
}

/// A piece before its worked part is made: what it is, by which part it is written, and where.
pub(super) struct Draught {
    pub(super) kind: PartKind,
    pub(super) written: PartId,
    pub(super) at: Span,
    pub(super) title: String,
    pub(super) suffix: String,
}

pub(super) struct Wiring<'a> {
    pub(super) build: &'a mut Build,
    /// The things by name.
    pub(super) things: FxHashMap<Arc<str>, PartId>,
    pub(super) joints: Joints,
    circuitry: Circuitry,
    pub(super) slips: Vec<Slip>,
    /// How many runs feed each board and each transfer switch.
    pub(super) feeds: FxHashMap<PartId, usize>,
}

impl Wiring<'_> {
    pub(super) fn members(&self, kind: PartKind) -> Arc<[PartId]> {
        self.build.of_kind(kind).members.clone()
    }

    /// The node at which a run meets a thing.
    pub(super) fn node(&mut self, thing: PartId, joined: Joined) -> usize {
        let mut supply = 0;
        if !joined.from && self.build.part(thing).kind == kind::TRANSFER_SWITCH {
            let feeds = self.feeds.entry(thing).or_insert(0);
            supply = u8::try_from(*feeds).unwrap_or(u8::MAX);
            *feeds += 1;
        }
        self.joints.node(terminals::terminal(self.build, thing, joined, supply))
    }

    fn referred(&self, user: PartId, fact: FactId) -> Option<PartId> {
        match self.build.references.get(&(user, fact)) {
            Some(Reference::To(thing)) => Some(*thing),
            _ => None,
        }
    }

    fn circuits(&mut self) {
        for &circuit in self.members(kind::CIRCUIT).iter() {
            let (from, to) = (self.referred(circuit, fact::circuit::FROM), self.referred(circuit, fact::circuit::TO));
            let (served, unsaid) = self.served(circuit);
            let ends: Vec<PartId> = to.into_iter().chain(served).collect();
            let alternating = terminals::alternating(self.build, from, &ends);
            let start = from.map(|thing| self.node(thing, Joined { from: true, alternating }));
            let mut finish = None;
            for &thing in &ends {
                let node = self.node(thing, Joined { from: false, alternating });
                match finish {
                    Some(finish) => self.joints.join(finish, node),
                    None => finish = Some(node),
                }
            }
            // What is not written at all is joined to nothing yet; what is written and cannot be told may be anything.
            for (fact, node) in [(fact::circuit::FROM, finish), (fact::circuit::TO, start)] {
                if self.build.part(circuit).given(fact).is_some() && self.referred(circuit, fact).is_none() {
                    self.open_end(node, Gap::Entry(circuit, fact), alternating);
                }
            }
            for serves in unsaid {
                self.open_end(finish.or(start), Gap::Entry(serves, fact::serves::THINGS), alternating);
            }
            let part = self.build.part(circuit);
            let mut pieces: Vec<Draught> = part
                .inside
                .iter()
                .filter_map(|inner| {
                    let piece = self.build.part(*inner);
                    let kind = match piece.kind {
                        kind::WIRE => kind::CONDUCTOR,
                        kind::FUSE | kind::BREAKER => kind::DEVICE,
                        own if SWITCHES.contains(&own) || PASSED_THROUGH.contains(&own) => own,
                        _ => return None,
                    };
                    Some(Draught {
                        kind,
                        written: *inner,
                        at: piece.head.clone(),
                        title: piece.title.to_string(),
                        suffix: String::new(),
                    })
                })
                .collect();
            let mut complete = !part.unread
                && ![kind::WIRE, kind::FUSE, kind::BREAKER].iter().any(|kind| part.incomplete.concerns(*kind));
            if let Some(&board) = ends.iter().find(|thing| self.build.part(**thing).kind == kind::AC_BOARD) {
                complete &= !self.build.part(board).unread;
                pieces.extend(self.main_device(board));
            }
            self.run(Draft { written: circuit, pieces, complete, alternating, nodes: [start, finish] });
        }
    }

    pub(super) fn open_end(&mut self, node: Option<usize>, gap: Gap, alternating: bool) {
        self.circuitry.open_ends.push(OpenEnd { node, gap, alternating });
    }

    /// The things that a circuit serves, with slips for those that are not there; and the lines of which it cannot be told.
    fn served(&mut self, circuit: PartId) -> (Vec<PartId>, Vec<PartId>) {
        let (mut things, mut unsaid) = (Vec::new(), Vec::new());
        for &inner in &self.build.part(circuit).inside {
            let part = self.build.part(inner);
            let Some(given) = part.given(fact::serves::THINGS) else { continue };
            let Value::Names(list) = &given.value else {
                unsaid.push(inner);
                continue;
            };
            for (name, at) in list {
                match self.things.get(name) {
                    Some(thing) => things.push(*thing),
                    None => {
                        unsaid.push(inner);
                        self.slips.extend(names::unknown_thing(self.build, name, at, &open(self.build)));
                    }
                }
            }
        }
        (things, unsaid)
    }

    fn ways(&mut self) {
        for &way in self.members(kind::WAY).iter() {
            let part = self.build.part(way);
            let Some(board) = part.outer else { continue };
            let alternating = self.build.part(board).kind == kind::AC_BOARD;
            let title = part.title.to_string();
            let head = part.head.clone();
            let unread = part.unread;
            let name = part.name.clone();
            let mut pieces = Vec::new();
            for (rating, word) in [(fact::way::FUSE, "fuse"), (fact::way::BREAKER, "breaker")] {
                if let Some(given) = part.given(rating) {
                    pieces.push(Draught {
                        kind: kind::DEVICE,
                        written: way,
                        at: given.at.clone(),
                        title: format!("{word} of {title}"),
                        suffix: word.to_owned(),
                    });
                }
            }
            // A way always has a conductor; when its size is not said, the size is unknown.
            let at = part.given(fact::way::WIRE).map_or(head, |given| given.at.clone());
            pieces.push(Draught {
                kind: kind::CONDUCTOR,
                written: way,
                at,
                title: format!("wire of {title}"),
                suffix: "wire".to_owned(),
            });
            let start = Some(self.node(board, Joined { from: true, alternating }));
            let finish = match &name {
                Some(name) => match self.things.get(name).copied() {
                    Some(thing) => Some(self.node(thing, Joined { from: false, alternating })),
                    None => {
                        let at = self.build.part(way).head.clone();
                        self.open_end(start, Gap::Unread(way), alternating);
                        self.slips.extend(names::unknown_thing(self.build, name, &at, &open(self.build)));
                        None
                    }
                },
                None => {
                    // What it feeds is not said, and may be anything.
                    self.open_end(start, Gap::Unread(way), alternating);
                    None
                }
            };
            if alternating {
                self.fed_by(way, board);
            }
            self.run(Draft { written: way, pieces, complete: !unread, alternating, nodes: [start, finish] });
        }
    }

    /// Joins the inverters and generators that can feed a way to its board: what they can drive may reach every way.
    fn fed_by(&mut self, way: PartId, board: PartId) {
        let Some(given) = self.build.part(way).given(fact::way::FED_BY) else { return };
        let at = given.at.clone();
        let gap = Gap::Entry(way, fact::way::FED_BY);
        let joined = Joined { from: true, alternating: true };
        let board = self.node(board, joined);
        let Value::Text(list) =
            self.build.part(way).given(fact::way::FED_BY).map_or(Value::Unknown, |given| given.value.clone())
        else {
            self.open_end(Some(board), gap, true);
            return;
        };
        for name in list.split(',').map(str::trim).filter(|name| !name.is_empty() && *name != "shore") {
            match self.things.get(name).copied() {
                Some(source) => {
                    let source = self.node(source, joined);
                    self.joints.join(board, source);
                }
                None => {
                    self.open_end(Some(board), gap.clone(), true);
                    self.slips.extend(names::unknown_thing(self.build, name, &at, &open(self.build)));
                }
            }
        }
    }

    /// An alternator is joined to the battery that it charges in the base vehicle.
    fn alternators(&mut self) {
        for &alternator in self.members(kind::ALTERNATOR).iter() {
            let joined = Joined { from: true, alternating: false };
            let node = self.node(alternator, joined);
            if let Some(battery) = self.referred(alternator, fact::alternator::FROM) {
                let battery = self.node(battery, joined);
                self.joints.join(battery, node);
            } else if self.build.part(alternator).given(fact::alternator::FROM).is_some() {
                self.open_end(Some(node), Gap::Entry(alternator, fact::alternator::FROM), false);
            }
        }
        for kind in SOURCES {
            for &source in self.members(kind).iter() {
                for alternating in [false, true] {
                    self.node(source, Joined { from: true, alternating });
                }
            }
        }
    }

    pub(super) fn run(&mut self, draft: Draft) {
        let index = self.circuitry.runs.len();
        let written = self.build.part(draft.written).clone();
        let part =
            self.worked(&written, kind::RUN, draft.written, written.head.clone(), written.title.to_string(), "run");
        let ends = [("start", draft.nodes[0]), ("finish", draft.nodes[1])].map(|(word, node)| {
            let thing = node
                .and_then(|node| self.joints.terminals.get(node))
                .map_or("its open end".to_owned(), |terminal| self.build.part(terminal.thing).title.to_string());
            self.worked(
                &written,
                kind::RUN_END,
                draft.written,
                written.head.clone(),
                format!("{}, at {thing}", written.title),
                word,
            )
        });
        let pieces: Vec<Piece> = draft
            .pieces
            .into_iter()
            .map(|piece| {
                if SWITCHES.contains(&piece.kind) {
                    return Piece::Switch(piece.written);
                }
                if PASSED_THROUGH.contains(&piece.kind) {
                    return Piece::Through(piece.written);
                }
                let from = self.build.part(piece.written).clone();
                let part = self.worked(&from, piece.kind, piece.written, piece.at, piece.title, &piece.suffix);
                if piece.kind == kind::DEVICE { Piece::Device(part) } else { Piece::Conductor(part) }
            })
            .collect();
        let own = pieces.iter().map(|piece| piece.part());
        self.circuitry.run_of.extend(own.chain([part]).chain(ends).map(|part| (part, index)));
        self.circuitry.runs.push(Run {
            part,
            written: draft.written,
            pieces,
            complete: draft.complete,
            alternating: draft.alternating,
            ends,
            nodes: draft.nodes,
        });
    }

    /// Makes a worked part that stands for something written.
    fn worked(
        &mut self,
        from: &Part,
        kind: PartKind,
        written: PartId,
        head: Span,
        title: String,
        suffix: &str,
    ) -> PartId {
        let number = id(self.build.parts.len());
        let key = if suffix.is_empty() { from.key.clone() } else { format!("{}/{suffix}", from.key).into() };
        self.build.parts.push(Part {
            kind,
            name: from.name.clone(),
            title: title.into(),
            key,
            outer: Some(written),
            inside: Vec::new(),
            head,
            whole: from.whole.clone(),
            room: from.room.clone(),
            via: from.via.clone(),
            unread: from.unread,
            incomplete: from.incomplete.clone(),
            given: Vec::new(),
        });
        self.circuitry.written.insert(number, written);
        number
    }
}

pub(super) fn open(build: &Build) -> Incomplete {
    let mut open = Incomplete::default();
    for (number, parts) in build.by_kind.iter().enumerate() {
        if !parts.complete {
            open.kinds.insert(PartKind(u16::try_from(number).unwrap_or(u16::MAX)));
        }
    }
    open
}
