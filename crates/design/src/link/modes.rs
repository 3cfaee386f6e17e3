//! The modes of a build: those that it has by itself, each only where the build has what it needs, and those that it
//! describes. One that is described under the name of another takes its place.

use crate::circuitry::{Piece, Side};
use crate::known::{Gap, Gaps, PartId};
use crate::modes::{Mode, Sort};
use crate::part::{Build, Part, id};
use rustc_hash::FxHashSet;
use spec::text::write_name;
use spec::{Incomplete, Slip, Span, Value};
use std::sync::Arc;
use vocabulary::{PartKind, fact, kind};

/// How many modes are judged: chosen, several times what any vehicle has, so that a text with thousands of disconnects does
/// not cost the square of its length.
const MOST_MODES: usize = 64;

/// The word for the connection to the mains, which has no name.
const SHORE: &str = "shore";

/// What can feed, or pass on what feeds it.
const FEEDS: [PartKind; 13] = [
    kind::BATTERY,
    kind::ALTERNATOR,
    kind::SHORE,
    kind::GENERATOR,
    kind::SOLAR,
    kind::TRAILER_PLUG,
    kind::CHARGER,
    kind::CONVERTER,
    kind::INVERTER,
    kind::INVERTER_CHARGER,
    kind::SOLAR_CONTROLLER,
    kind::ISOLATING_TRANSFORMER,
    kind::TRANSFER_SWITCH,
];

/// What can be open or closed.
const SWITCHES: [PartKind; 3] = [kind::DISCONNECT, kind::SWITCH, kind::RELAY];

/// Settles the modes of a build.
pub fn add(build: &mut Build, incomplete: &Incomplete) {
    let mut modes = Modes { build, modes: Vec::new(), places: Vec::new(), left_out: None };
    modes.by_themselves();
    modes.described(incomplete);
    modes.stand_for_each();
    let Modes { build, modes, left_out, .. } = modes;
    if let Some(at) = left_out {
        let told = format!("there are more modes than {MOST_MODES}: those behind are not judged");
        build.slips.push(
            Slip::new("mode/too-many", at, told)
                .help("judge a part of the build at a time: a file for each vehicle or trailer"),
        );
    }
    build.modes = modes;
}

struct Modes<'a> {
    build: &'a mut Build,
    modes: Vec<Mode>,
    /// The part at which each of them is shown.
    places: Vec<PartId>,
    /// Where the first mode stands that is left out.
    left_out: Option<Span>,
}

impl Modes<'_> {
    fn members(&self, kind: PartKind) -> Arc<[PartId]> {
        self.build.of_kind(kind).members.clone()
    }

    /// The modes that a build of its kind has.
    fn by_themselves(&mut self) {
        self.add("parked", Sort::Parked, Build::ROOT);
        let first = |modes: &Self, kinds: &[PartKind]| {
            kinds.iter().find_map(|kind| modes.build.of_kind(*kind).members.first().copied())
        };
        if let Some(at) = first(self, &[kind::ALTERNATOR, kind::TRAILER_PLUG]) {
            self.add("driving", Sort::Driving, at);
        }
        if let Some(at) = first(self, &[kind::SHORE]) {
            self.add(SHORE, Sort::Shore, at);
        }
        let generators = self.members(kind::GENERATOR);
        for &generator in generators.iter() {
            let name = match &self.build.part(generator).name {
                Some(name) if generators.len() > 1 => format!("generator {name}"),
                _ => "generator".to_owned(),
            };
            self.add(&name, Sort::Generator(Some(generator)), generator);
        }
        if let Some(at) = first(self, &[kind::SOLAR]) {
            self.add("solar charge", Sort::Solar, at);
        }
        if first(self, &[kind::BATTERY]).is_some() {
            self.add("storage", Sort::Storage, Build::ROOT);
        }
        for &disconnect in self.members(kind::DISCONNECT).iter() {
            let name = format!("{} open", self.switch_name(disconnect));
            self.add(&name, Sort::Opened(disconnect), disconnect);
        }
        for batteries in self.managed_banks() {
            let Some(&first) = batteries.first() else { continue };
            let titles: Vec<&str> =
                batteries.iter().map(|one| self.build.part(*one).name.as_deref().unwrap_or("battery")).collect();
            let name = format!("management of {} tripped", listed(&titles));
            self.add(&name, Sort::Tripped(batteries), first);
        }
    }

    /// What a switch is called in the name of a mode: its name, with its circuit's where that alone does not tell.
    fn switch_name(&self, switch: PartId) -> String {
        let part = self.build.part(switch);
        let circuit = part.outer.and_then(|outer| self.build.part(outer).name.clone());
        let word = vocabulary::part(part.kind).word;
        let same = |own: &str| {
            let named = self.build.of_kind(part.kind).members.iter();
            named.filter(|other| self.build.part(**other).name.as_deref() == Some(own)).count()
        };
        match (&part.name, circuit) {
            (Some(name), _) if same(name) == 1 => name.to_string(),
            (Some(name), Some(circuit)) => format!("{name} of {circuit}"),
            (Some(name), None) => name.to_string(),
            (None, Some(circuit)) => format!("{word} of {circuit}"),
            (None, None) => word.to_owned(),
        }
    }

    /// The batteries whose management cuts off, those of one bank together: what trips one of them, an empty or a cold bank,
    /// trips its neighbours too.
    fn managed_banks(&self) -> Vec<Vec<PartId>> {
        let build = &*self.build;
        let circuitry = build.circuitry();
        let words = vocabulary::fact_spec(fact::management::CUTS).choices();
        let cuts = |battery: PartId| {
            build.inside(battery, kind::MANAGEMENT).members.iter().any(|management| {
                match build.part(*management).given(fact::management::CUTS).map(|given| &given.value) {
                    Some(Value::Choice(choice)) => words.get(usize::from(*choice)) != Some(&"none"),
                    _ => true,
                }
            })
        };
        let relay = |run: &crate::circuitry::Run| {
            run.pieces.iter().any(|piece| matches!(piece, Piece::Switch(part) if build.part(*part).kind == kind::RELAY))
        };
        let mut seen: FxHashSet<PartId> = FxHashSet::default();
        let mut banks = Vec::new();
        for &battery in build.of_kind(kind::BATTERY).members.iter() {
            if seen.contains(&battery) {
                continue;
            }
            let nodes = circuitry
                .node_of(battery, Side::Input)
                .map_or_else(Vec::new, |node| crate::methods::bank::reached(circuitry, node, |run| !relay(run)));
            let mut bank: Vec<PartId> = circuitry
                .terminals(&nodes)
                .map(|terminal| terminal.thing)
                .filter(|thing| build.part(*thing).kind == kind::BATTERY)
                .chain([battery])
                .filter(|battery| seen.insert(*battery))
                .collect();
            bank.retain(|battery| cuts(*battery));
            bank.sort_unstable();
            if !bank.is_empty() {
                banks.push(bank);
            }
        }
        banks
    }

    /// Adds a mode that stands at a part; nothing when there are too many.
    fn add(&mut self, name: &str, sort: Sort, at: PartId) -> Option<usize> {
        if self.modes.len() >= MOST_MODES {
            self.left_out.get_or_insert_with(|| self.build.part(at).head.clone());
            return None;
        }
        let taken = |name: &str| self.modes.iter().any(|mode| &*mode.name == name);
        let mut own = name.to_owned();
        for number in 2..=MOST_MODES {
            if !taken(&own) {
                break;
            }
            own = format!("{name} ({number})");
        }
        self.places.push(at);
        self.modes.push(Mode {
            name: own.into(),
            part: Build::ROOT,
            written: None,
            sort,
            feeding: Vec::new(),
            not_feeding: Vec::new(),
            open: Vec::new(),
            closed: Vec::new(),
            gaps: Gaps::default(),
        });
        Some(self.modes.len() - 1)
    }

    /// Makes the worked part of each mode.
    fn stand_for_each(&mut self) {
        for (mode, &at) in self.modes.iter_mut().zip(&self.places) {
            let place = self.build.part(at).clone();
            mode.part = id(self.build.parts.len());
            self.build.parts.push(Part {
                kind: kind::OPERATING_MODE,
                // Asked for by name, `shore` is the connection and not the mode.
                name: mode.written.map(|_| mode.name.clone()),
                title: format!("mode \"{}\"", mode.name).into(),
                key: format!("operating-mode:{}", mode.name).into(),
                outer: Some(at),
                inside: Vec::new(),
                given: Vec::new(),
                unread: false,
                incomplete: Incomplete::default(),
                ..place
            });
            self.build.circuitry.written.insert(mode.part, at);
        }
    }

    /// The modes that the build describes.
    fn described(&mut self, incomplete: &Incomplete) {
        for &written in self.members(kind::MODE).iter() {
            let part = self.build.part(written).clone();
            let Some(name) = part.name.clone() else { continue };
            let sort = self.base(written);
            let place = match self.modes.iter().position(|mode| mode.name == name) {
                Some(place) if self.modes.get(place).is_some_and(|mode| mode.written.is_some()) => {
                    self.build.slips.push(
                        Slip::new(
                            "names/name-twice",
                            part.head.clone(),
                            format!("the mode `{name}` is described twice"),
                        )
                        .help("give one of them another name"),
                    );
                    continue;
                }
                Some(place) => place,
                None => match self.add(&name, sort.clone(), written) {
                    Some(place) => place,
                    None => continue,
                },
            };
            // One that is there by itself keeps its sort unless another is said, and stands where it is described.
            let said = part.given(fact::mode::AS).is_some();
            let lists = [kind::FEEDING, kind::NOT_FEEDING, kind::OPEN, kind::CLOSED]
                .map(|list| self.list(written, list, incomplete));
            if let Some(at) = self.places.get_mut(place) {
                *at = written;
            }
            let Some(mode) = self.modes.get_mut(place) else { continue };
            mode.written = Some(written);
            if said {
                mode.sort = sort;
            }
            let [feeding, not_feeding, open, closed] = lists;
            for list in [&feeding, &not_feeding, &open, &closed] {
                mode.gaps.add(&list.1);
            }
            if part.leaves_open() {
                mode.gaps.add(&Gaps::one(Gap::Unread(written)));
            }
            (mode.feeding, mode.not_feeding) = (feeding.0, not_feeding.0);
            (mode.open, mode.closed) = (open.0, closed.0);
            self.contradictions(place, &part.head);
        }
    }

    fn base(&self, written: PartId) -> Sort {
        let words = vocabulary::fact_spec(fact::mode::AS).choices();
        let word = match self.build.part(written).given(fact::mode::AS).map(|given| &given.value) {
            Some(Value::Choice(choice)) => words.get(usize::from(*choice)).copied(),
            _ => None,
        };
        match word {
            Some("driving") => Sort::Driving,
            Some("shore") => Sort::Shore,
            Some("generator") => Sort::Generator(None),
            Some("solar") => Sort::Solar,
            Some("storage") => Sort::Storage,
            _ => Sort::Parked,
        }
    }

    /// The parts that one sort of line of a mode names, and what cannot be told of them.
    fn list(&mut self, mode: PartId, list: PartKind, incomplete: &Incomplete) -> (Vec<PartId>, Gaps) {
        let (mut parts, mut gaps) = (Vec::new(), Gaps::default());
        let switches = list == kind::OPEN || list == kind::CLOSED;
        let (kinds, said) = match list {
            kind::FEEDING => (&FEEDS[..], fact::feeding::THINGS),
            kind::NOT_FEEDING => (&FEEDS[..], fact::not_feeding::THINGS),
            kind::OPEN => (&SWITCHES[..], fact::open::SWITCHES),
            _ => (&SWITCHES[..], fact::closed::SWITCHES),
        };
        for &line in self.build.inside(mode, list).members.iter() {
            let part = self.build.part(line);
            let names = match part.given(said).map(|given| &given.value) {
                Some(Value::Names(names)) => names.clone(),
                Some(_) => {
                    gaps.add(&Gaps::one(Gap::Entry(line, said)));
                    continue;
                }
                None => continue,
            };
            for (name, at) in names {
                let found: Vec<PartId> = self
                    .build
                    .parts()
                    .filter(|(_, part)| kinds.contains(&part.kind))
                    .filter(|(_, part)| match &part.name {
                        Some(own) => *own == name,
                        None => !switches && part.kind == kind::SHORE && &*name == SHORE,
                    })
                    .map(|(number, _)| number)
                    .collect();
                if found.is_empty() {
                    gaps.add(&Gaps::one(Gap::Entry(line, said)));
                    let slip = unknown(self.build, kinds, &name, &at, incomplete);
                    self.build.slips.extend(slip);
                }
                parts.extend(found);
            }
        }
        (parts, gaps)
    }

    /// Reports what a mode says both ways.
    fn contradictions(&mut self, place: usize, at: &Span) {
        let Some(mode) = self.modes.get(place) else { return };
        let mut slips = Vec::new();
        for (one, other, words) in [
            (&mode.feeding, &mode.not_feeding, ["feeding", "not feeding"]),
            (&mode.open, &mode.closed, ["open", "closed"]),
        ] {
            for part in one.iter().filter(|part| other.contains(part)) {
                let title = &self.build.part(*part).title;
                let message = format!("the mode says of {title} that it is {}, and that it is {}", words[0], words[1]);
                slips.push(Slip::new("mode/said-both-ways", at.clone(), message).help(format!(
                    "leave it out of `{}` or of `{}`",
                    words[0],
                    words[1].replace(' ', "-")
                )));
            }
        }
        self.build.slips.append(&mut slips);
    }
}

/// Names in a row: `a`, `a and b`, `a, b and c`.
fn listed(names: &[&str]) -> String {
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        Some((last, _)) => (*last).to_owned(),
        None => String::new(),
    }
}

/// What to say of a name that none of these parts has; nothing, where what could not be read may hold one.
fn unknown(build: &Build, kinds: &[PartKind], name: &str, at: &Span, incomplete: &Incomplete) -> Option<Slip> {
    if incomplete.every || kinds.iter().any(|kind| incomplete.concerns(*kind)) {
        return None;
    }
    let mut known: Vec<&str> = build
        .parts()
        .filter(|(_, part)| kinds.contains(&part.kind))
        .filter_map(|(_, part)| if part.kind == kind::SHORE { Some(SHORE) } else { part.name.as_deref() })
        .collect();
    known.sort_unstable();
    known.dedup();
    let what = if kinds.contains(&kind::RELAY) { "disconnect, switch or relay" } else { "source" };
    let slip = Slip::new("names/unknown-name", at.clone(), format!("no {what} is called `{name}`"));
    Some(match vocabulary::nearest(name, known.iter().copied()) {
        Some(near) => {
            let written = write_name(near);
            slip.help(format!("did you mean `{near}`?")).mend(format!("write {written}"), at.clone(), written)
        }
        None if known.is_empty() => slip.help(format!("the build has no {what} with a name: give it one")),
        None => slip.help(format!("those of the build are: {}", known.join(", "))),
    })
}
