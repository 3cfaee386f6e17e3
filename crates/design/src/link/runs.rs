//! Circuits, ways and shore cables as runs between nodes, with worked parts for the run, its ends, conductors and devices.

use super::names;
use crate::circuitry::{Circuitry, OpenEnd, Piece, Run, Terminal};
use crate::known::{Gap, PartId};
use crate::methods::run_end::is_source;
use crate::part::{Build, Part, Reference, id};
use spec::{Incomplete, Slip, Span, Value};
use std::collections::HashMap;
use std::sync::Arc;
use vocabulary::{FactId, PartKind, fact, kind};

/// Connects every run of the build.
pub fn connect(build: &mut Build) {
    let things = names::things(build);
    let mut wiring =
        Wiring { build, things, joints: Joints::default(), circuitry: Circuitry::default(), slips: Vec::new() };
    wiring.circuits();
    wiring.ways();
    wiring.shores();
    wiring.alternators();
    let Wiring { joints, mut circuitry, mut slips, .. } = wiring;
    joints.settle(&mut circuitry);
    let attached = circuitry.attached.iter().enumerate();
    let sources = attached
        .flat_map(|(node, terminals)| terminals.iter().map(move |terminal| (node, *terminal)))
        .filter(|(_, terminal)| is_source(build, *terminal))
        .collect();
    circuitry.find_groups(sources);
    build.circuitry = circuitry;
    build.slips.append(&mut slips);
}

/// Nodes that grow together where things are joined without a conductor.
#[derive(Default)]
struct Joints {
    terminals: Vec<Terminal>,
    numbers: HashMap<Terminal, usize>,
    leader: Vec<usize>,
}

impl Joints {
    fn node(&mut self, terminal: Terminal) -> usize {
        let next = self.terminals.len();
        let number = *self.numbers.entry(terminal).or_insert(next);
        if number == next {
            self.terminals.push(terminal);
            self.leader.push(next);
        }
        number
    }

    fn lead(&self, mut node: usize) -> usize {
        while let Some(&leader) = self.leader.get(node) {
            if leader == node {
                break;
            }
            node = leader;
        }
        node
    }

    fn join(&mut self, one: usize, other: usize) {
        let (one, other) = (self.lead(one), self.lead(other));
        if one != other
            && let Some(leader) = self.leader.get_mut(other)
        {
            *leader = one;
        }
    }

    /// Numbers the nodes anew, one for each group, and writes them into the runs.
    fn settle(self, circuitry: &mut Circuitry) {
        let mut numbers: HashMap<usize, usize> = HashMap::new();
        for (index, terminal) in self.terminals.iter().enumerate() {
            let next = numbers.len();
            let number = *numbers.entry(self.lead(index)).or_insert(next);
            if number == circuitry.attached.len() {
                circuitry.attached.push(Vec::new());
            }
            circuitry.attached[number].push(*terminal);
            circuitry.node_at.insert(*terminal, number);
        }
        circuitry.meeting = vec![Vec::new(); circuitry.attached.len()];
        let renumber = |node: Option<usize>| node.and_then(|node| numbers.get(&self.lead(node)).copied());
        for (index, run) in circuitry.runs.iter_mut().enumerate() {
            run.nodes = [renumber(run.nodes[0]), renumber(run.nodes[1])];
            for node in run.nodes.into_iter().flatten() {
                circuitry.meeting[node].push(index);
            }
        }
        for end in &mut circuitry.open_ends {
            end.node = renumber(end.node);
        }
    }
}

/// A run before its worked parts are made.
struct Draft {
    written: PartId,
    pieces: Vec<Draught>,
    complete: bool,
    alternating: bool,
    nodes: [Option<usize>; 2],
}

/// A piece before its worked part is made: what it is, by which part it is written, and where.
struct Draught {
    kind: PartKind,
    written: PartId,
    at: Span,
    title: String,
    suffix: &'static str,
}

struct Wiring<'a> {
    build: &'a mut Build,
    /// The things by name.
    things: HashMap<Arc<str>, PartId>,
    joints: Joints,
    circuitry: Circuitry,
    slips: Vec<Slip>,
}

impl Wiring<'_> {
    fn members(&self, kind: PartKind) -> Arc<[PartId]> {
        self.build.of_kind(kind).members.clone()
    }

    /// The node of a thing, on the side where it gives (`output`) or takes current; only converters have two sides.
    fn node(&mut self, thing: PartId, output: bool) -> usize {
        let converter = [kind::CHARGER, kind::INVERTER].contains(&self.build.part(thing).kind);
        self.joints.node(Terminal { thing, output: converter && output })
    }

    fn referred(&self, user: PartId, fact: FactId) -> Option<PartId> {
        match self.build.references.get(&(user, fact)) {
            Some(Reference::To(thing)) => Some(*thing),
            _ => None,
        }
    }

    fn circuits(&mut self) {
        for &circuit in self.members(kind::CIRCUIT).iter() {
            let start = self.referred(circuit, fact::circuit::FROM).map(|thing| self.node(thing, true));
            let mut finish = self.referred(circuit, fact::circuit::TO).map(|thing| self.node(thing, false));
            let (served, unsaid) = self.served(circuit);
            for thing in served {
                let node = self.node(thing, false);
                match finish {
                    Some(finish) => self.joints.join(finish, node),
                    None => finish = Some(node),
                }
            }
            // What is not written at all is joined to nothing yet; what is written and cannot be told may be anything.
            for (fact, node) in [(fact::circuit::FROM, finish), (fact::circuit::TO, start)] {
                if self.build.part(circuit).given(fact).is_some() && self.referred(circuit, fact).is_none() {
                    self.open_end(node, Gap::Entry(circuit, fact), false);
                }
            }
            for serves in unsaid {
                self.open_end(finish.or(start), Gap::Entry(serves, fact::serves::THINGS), false);
            }
            let part = self.build.part(circuit);
            let pieces = part
                .inside
                .iter()
                .filter_map(|inner| {
                    let piece = self.build.part(*inner);
                    let kind = match piece.kind {
                        kind::WIRE => kind::CONDUCTOR,
                        kind::FUSE | kind::BREAKER => kind::DEVICE,
                        kind::DISCONNECT => kind::DISCONNECT,
                        _ => return None,
                    };
                    Some(Draught {
                        kind,
                        written: *inner,
                        at: piece.head.clone(),
                        title: piece.title.to_string(),
                        suffix: "",
                    })
                })
                .collect();
            let complete = !part.unread
                && ![kind::WIRE, kind::FUSE, kind::BREAKER].iter().any(|kind| part.incomplete.concerns(*kind));
            self.run(Draft { written: circuit, pieces, complete, alternating: false, nodes: [start, finish] });
        }
    }

    fn open_end(&mut self, node: Option<usize>, gap: Gap, alternating: bool) {
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
                        suffix: word,
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
                suffix: "wire",
            });
            let start = Some(self.node(board, true));
            let finish = match &name {
                Some(name) => match self.things.get(name).copied() {
                    Some(thing) => Some(self.node(thing, false)),
                    None => {
                        let at = self.build.part(way).head.clone();
                        self.open_end(start, Gap::Unread(way), alternating);
                        self.slips.extend(names::unknown_thing(self.build, name, &at, &open(self.build)));
                        None
                    }
                },
                None => None,
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
        let board = self.node(board, true);
        let Value::Text(list) =
            self.build.part(way).given(fact::way::FED_BY).map_or(Value::Unknown, |given| given.value.clone())
        else {
            self.open_end(Some(board), gap, true);
            return;
        };
        for name in list.split(',').map(str::trim).filter(|name| !name.is_empty() && *name != "shore") {
            match self.things.get(name).copied() {
                Some(source) => {
                    let source = self.node(source, true);
                    self.joints.join(board, source);
                }
                None => {
                    self.open_end(Some(board), gap.clone(), true);
                    self.slips.extend(names::unknown_thing(self.build, name, &at, &open(self.build)));
                }
            }
        }
    }

    fn shores(&mut self) {
        for &shore in self.members(kind::SHORE).iter() {
            let mut pieces = Vec::new();
            let mut finish = None;
            let part = self.build.part(shore);
            let mut complete = !part.unread && part.incomplete == Incomplete::default();
            for inner in part.inside.clone() {
                let piece = self.build.part(inner);
                let (kind, at, title) = (piece.kind, piece.head.clone(), piece.title.to_string());
                if kind == kind::CORD {
                    pieces.push(Draught { kind: kind::CONDUCTOR, written: inner, at, title, suffix: "" });
                } else if kind == kind::TO {
                    pieces.push(Draught { kind: kind::CONDUCTOR, written: inner, at: at.clone(), title, suffix: "" });
                    let Some(name) = piece.name.clone() else { continue };
                    match self.things.get(&name).copied() {
                        Some(board) => {
                            finish = Some(self.node(board, false));
                            // A board whose line could not be read may say its main breaker there.
                            complete &= !self.build.part(board).unread;
                            pieces.extend(self.main_device(board));
                        }
                        None => {
                            let node = self.node(shore, true);
                            complete = false;
                            self.open_end(Some(node), Gap::Unread(inner), true);
                            self.slips.extend(names::unknown_thing(self.build, &name, &at, &open(self.build)));
                        }
                    }
                }
            }
            let start = Some(self.node(shore, true));
            self.run(Draft { written: shore, pieces, complete, alternating: true, nodes: [start, finish] });
        }
    }

    /// The main breaker of a board, where it is described.
    fn main_device(&self, board: PartId) -> Option<Draught> {
        let part = self.build.part(board);
        let given = part.given(fact::ac_board::MAIN)?;
        Some(Draught {
            kind: kind::DEVICE,
            written: board,
            at: given.at.clone(),
            title: format!("main breaker of {}", part.title),
            suffix: "main",
        })
    }

    /// An alternator is joined to the battery that it charges in the base vehicle.
    fn alternators(&mut self) {
        for &alternator in self.members(kind::ALTERNATOR).iter() {
            let node = self.node(alternator, true);
            if let Some(battery) = self.referred(alternator, fact::alternator::FROM) {
                let battery = self.node(battery, true);
                self.joints.join(battery, node);
            } else if self.build.part(alternator).given(fact::alternator::FROM).is_some() {
                self.open_end(Some(node), Gap::Entry(alternator, fact::alternator::FROM), false);
            }
        }
        // Sources that nothing is joined to are there all the same: what leads to somewhere unknown may lead to them.
        for kind in [kind::BATTERY, kind::CHARGER, kind::INVERTER] {
            for &source in self.members(kind).iter() {
                self.node(source, true);
            }
        }
    }

    fn run(&mut self, draft: Draft) {
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
                if piece.kind == kind::DISCONNECT {
                    return Piece::Disconnect(piece.written);
                }
                let from = self.build.part(piece.written).clone();
                let part = self.worked(&from, piece.kind, piece.written, piece.at, piece.title, piece.suffix);
                if piece.kind == kind::DEVICE { Piece::Device(part) } else { Piece::Conductor(part) }
            })
            .collect();
        let own = pieces.iter().map(|piece| match piece {
            Piece::Conductor(part) | Piece::Device(part) | Piece::Disconnect(part) => *part,
        });
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

fn open(build: &Build) -> Incomplete {
    let mut open = Incomplete::default();
    for (number, parts) in build.by_kind.iter().enumerate() {
        if !parts.complete {
            open.kinds.insert(PartKind(u16::try_from(number).unwrap_or(u16::MAX)));
        }
    }
    open
}

/// Reports things that need a run and have none.
pub fn find_unfed(build: &mut Build, incomplete: &Incomplete) {
    if incomplete.every || !incomplete.kinds.is_empty() {
        // The run may stand in what could not be read.
        return;
    }
    let mut slips = Vec::new();
    for (number, part) in build.parts() {
        let spec = vocabulary::part(part.kind);
        let says = |name: &str| spec.fact(name).is_some_and(|fact| fact.given && part.given(fact.id).is_some());
        let has_load = spec.fact("load-current").is_some() && (says("power") || says("current"));
        let always = [kind::LAMP, kind::OUTLETS, kind::CHARGER, kind::INVERTER, kind::PANEL, kind::AC_BOARD];
        if !(has_load || always.contains(&part.kind)) {
            continue;
        }
        let fed = [false, true].into_iter().any(|output| {
            build
                .circuitry
                .node_of(number, output)
                .is_some_and(|node| build.circuitry.meeting.get(node).is_some_and(|runs| !runs.is_empty()))
        });
        if !fed {
            slips.push(
                Slip::new("names/thing-without-run", part.head.clone(), format!("nothing feeds {}", part.title)).help(
                    format!(
                        "name it on a way of a panel, or write a circuit to={}",
                        names::written(part.name.as_deref().unwrap_or("…"))
                    ),
                ),
            );
        }
    }
    build.slips.append(&mut slips);
}
