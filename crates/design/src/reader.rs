//! Answers for any part, fact and case; remembers what it worked out, and can say how.

use crate::binding::{self, Method};
use crate::cases::Cases;
use crate::circuitry::{End, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId, Parts, Tri};
use crate::methods::drop::{self, Toward, WayBack};
use crate::methods::mains_walk::{self, Walk};
use crate::methods::mass::{Burdens, Loads};
use crate::methods::solved::Memory;
use crate::methods::{AlwaysOn, FaultNetwork, ModeState, Strength, WaysOut, Week, load, modes, run_end};
use crate::part::{Build, Reference, Said, index};
use crate::scene::Scene;
use crate::working::{Step, Working};
use rustc_hash::FxHashMap;
use spec::Value;
use std::sync::Arc;
use vocabulary::{Axes, FactId, kind};

/// The least device rating in each run, A, and what is not known in which run.
type Ratings = (Vec<f64>, FxHashMap<usize, Gaps>);

/// What is remembered of masses.
#[derive(Clone, Debug, Default)]
struct Masses {
    burdens: Option<Arc<Burdens>>,
    loads: FxHashMap<usize, Arc<Loads>>,
}

/// What is remembered of one part, fact and case.
#[derive(Clone, Debug)]
enum Slot {
    Empty,
    Busy,
    Number(f64),
    Flag(bool),
    Choice(u16),
    ChoiceSet(u64),
    Part(PartId),
    Other(Arc<Fact>),
    Unknown(Arc<Gaps>),
}

/// How many facts may wait for one another: far more than any build needs, and few enough for a small stack (chosen).
const DEEPEST: u8 = 100;

/// Reads the facts of one build.
#[derive(Debug)]
pub struct Reader<'a> {
    build: &'a Build,
    cases: Cases,
    slots: Vec<Slot>,
    /// Where the slots of each part begin.
    bases: Vec<u32>,
    /// Where the slots of each fact begin among those of its part.
    offsets: Vec<u32>,
    recording: Option<Working>,
    /// How many facts are being worked out for one another.
    depth: u8,
    /// The networks for fault currents: the strongest batteries first, then the weakest.
    faults: [Option<Arc<FaultNetwork>>; 2],
    /// The solved networks of direct current.
    pub(crate) networks: Memory,
    /// What each source of alternating current can feed.
    walks: Option<Arc<[Walk]>>,
    /// The least device rating in each run.
    ratings: FxHashMap<(CaseId, bool), Arc<Ratings>>,
    /// What is live in each mode.
    mode_states: FxHashMap<usize, Arc<ModeState>>,
    /// What is always on and not cut off in storage.
    always_on: Option<Arc<[AlwaysOn]>>,
    /// The design weeks, each in each climate.
    weeks: FxHashMap<(PartId, CaseId), Arc<Week>>,
    /// Where everything stands.
    scene: Option<Arc<Scene>>,
    /// The most that the sources behind each end of a run can drive to it, A; infinite where nothing limits it.
    upstream: FxHashMap<(PartId, CaseId), Outcome<f64>>,
    /// The lowest of the voltages of the sources of each group of nodes, V, and what is not known of them.
    lowest_joined: FxHashMap<(usize, CaseId), (Option<f64>, Gaps)>,
    /// Where batteries, and what charges them, stand in the network.
    charged_places: Option<Arc<[usize]>>,
    /// The ways back from the ends of runs to what feeds them.
    ways_back: FxHashMap<(usize, End, Toward), Option<Arc<WayBack>>>,
    /// The ways out of each berth and seat.
    ways: FxHashMap<PartId, Arc<WaysOut>>,
    /// What weighs, and what it loads in each fill.
    masses: Masses,
    /// The whole spaces for people.
    living: Option<Arc<Outcome<Vec<PartId>>>>,
}

impl<'a> Reader<'a> {
    /// A reader that remembers nothing yet.
    pub fn new(build: &'a Build) -> Self {
        Self::with_cases(build, build.cases.clone())
    }

    /// A reader with these cases.
    pub fn with_cases(build: &'a Build, cases: Cases) -> Self {
        let mut bases = Vec::with_capacity(build.parts.len());
        let mut next = 0_u32;
        let (offsets, sizes) = layout(&cases);
        for part in &build.parts {
            bases.push(next);
            next = next.saturating_add(sizes.get(usize::from(part.kind.0)).copied().unwrap_or(0));
        }
        let slots = vec![Slot::Empty; usize::try_from(next).unwrap_or(0)];
        Self {
            build,
            cases,
            slots,
            bases,
            offsets,
            recording: None,
            depth: 0,
            faults: [None, None],
            ratings: FxHashMap::default(),
            mode_states: FxHashMap::default(),
            always_on: None,
            walks: None,
            networks: Memory::default(),
            weeks: FxHashMap::default(),
            scene: None,
            upstream: FxHashMap::default(),
            lowest_joined: FxHashMap::default(),
            charged_places: None,
            ways_back: FxHashMap::default(),
            ways: FxHashMap::default(),
            masses: Masses::default(),
            living: None,
        }
    }

    /// The build.
    pub fn build(&self) -> &'a Build {
        self.build
    }

    /// The cases.
    pub fn cases(&self) -> &Cases {
        &self.cases
    }

    /// Where a value is remembered; nothing when the part has no such fact.
    fn slot(&self, part: PartId, fact: FactId, case: CaseId) -> Option<usize> {
        let kind = self.build.parts.get(index(part))?.kind;
        let spec = vocabulary::part(kind);
        fact.0.checked_sub(spec.first_fact).filter(|local| *local < spec.fact_count)?;
        let begin = self.bases.get(index(part))?.checked_add(*self.offsets.get(usize::from(fact.0))?)?;
        Some(usize::try_from(begin).ok()? + self.cases.place(case, vocabulary::fact_spec(fact).axes))
    }

    /// Makes sure that the value is remembered, and gives its slot.
    fn settled(&mut self, part: PartId, fact: FactId, case: CaseId) -> Slot {
        let Some(slot) = self.slot(part, fact, case) else {
            return Slot::Unknown(Arc::new(Gaps::one(Gap::NoSolution(part, fact))));
        };
        if let Some(recording) = &mut self.recording
            && !recording.read.contains(&(part, fact))
        {
            recording.read.push((part, fact));
        }
        match &self.slots[slot] {
            Slot::Empty => {}
            Slot::Busy => return Slot::Unknown(Arc::new(Gaps::one(Gap::Circular(part, fact)))),
            known => return known.clone(),
        }
        if self.depth >= DEEPEST {
            return Slot::Unknown(Arc::new(Gaps::one(Gap::NoSolution(part, fact))));
        }
        self.slots[slot] = Slot::Busy;
        self.depth += 1;
        // What is read on the way belongs to the working of the value that is asked for, one level down.
        let outer = self.recording.take();
        let outcome = self.work_out(part, fact, case);
        self.recording = outer;
        self.depth -= 1;
        let settled = match outcome {
            Ok(Fact::Number(value)) if value.is_finite() => Slot::Number(value),
            Ok(Fact::Number(_)) => Slot::Unknown(Arc::new(Gaps::one(Gap::NoSolution(part, fact)))),
            Ok(Fact::Flag(value)) => Slot::Flag(value),
            Ok(Fact::Choice(value)) => Slot::Choice(value),
            Ok(Fact::ChoiceSet(value)) => Slot::ChoiceSet(value),
            Ok(Fact::Part(value)) => Slot::Part(value),
            Ok(other) => Slot::Other(Arc::new(other)),
            Err(gaps) => Slot::Unknown(Arc::new(gaps)),
        };
        self.slots[slot] = settled.clone();
        settled
    }

    fn work_out(&mut self, part: PartId, fact: FactId, case: CaseId) -> Outcome {
        let spec = vocabulary::fact_spec(fact);
        if spec.given {
            return self.given(part, fact);
        }
        // In which case a fact is asked first must not matter to one that does not differ by it.
        let case = self.cases.project(case, spec.axes);
        match binding::method(fact) {
            Some(Method::Each(method)) => method(self, part, case),
            None => Err(Gaps::one(Gap::NoSolution(part, fact))),
        }
    }

    /// What the builder says of this fact.
    fn given(&mut self, part: PartId, fact: FactId) -> Outcome {
        let build = self.build;
        match build.said(part, fact) {
            Said::Written(value) => self.value(part, fact, value),
            Said::Meant(value) => self.value(part, fact, &value),
            Said::Assumed(value, source, mark) => {
                let spec = vocabulary::fact_spec(fact);
                self.step(|| {
                    let vocabulary::Absent::Assume { value, .. } = spec.absent else { return Step::of("") };
                    Step::assumed(format!("{} assumed {value}", spec.name), format!("{source} ({mark})"))
                });
                self.value(part, fact, &value)
            }
            Said::Unknown => Err(Gaps::one(Gap::Entry(part, fact))),
            Said::Unread => Err(Gaps::one(Gap::Unread(part))),
        }
    }

    fn value(&self, part: PartId, fact: FactId, value: &Value) -> Outcome {
        Ok(match value {
            Value::Quantity(quantity) => Fact::Number(quantity.value),
            Value::WireSize(size) => Fact::Number(size.area()),
            Value::Cores(cores) => Fact::Number(cores.size.area()),
            Value::Point(point) => Fact::Lengths(*point),
            Value::Box(size) => Fact::Lengths(*size),
            Value::Opening(size) => Fact::Opening(*size),
            Value::Flag(flag) => Fact::Flag(*flag),
            Value::Choice(choice) => Fact::Choice(*choice),
            Value::ChoiceSet(set) => Fact::ChoiceSet(*set),
            Value::Text(text) => Fact::Text(text.clone()),
            Value::Date(date) => Fact::Text(date.to_string().into()),
            Value::Name(_) => match self.build.references.get(&(part, fact)) {
                Some(Reference::To(other)) => Fact::Part(*other),
                _ => return Err(Gaps::one(Gap::Entry(part, fact))),
            },
            // What else the line names could not be read.
            Value::Names(_) if self.build.part(part).unread => return Err(Gaps::one(Gap::Unread(part))),
            Value::Names(names) => {
                Fact::Text(names.iter().map(|(name, _)| &**name).collect::<Vec<_>>().join(", ").into())
            }
            Value::Unknown => return Err(Gaps::one(Gap::Entry(part, fact))),
        })
    }

    /// The value of a fact in a case.
    ///
    /// # Errors
    /// What would settle it.
    pub fn fact(&mut self, part: PartId, fact: FactId, case: CaseId) -> Outcome {
        match self.settled(part, fact, case) {
            Slot::Number(value) => Ok(Fact::Number(value)),
            Slot::Flag(value) => Ok(Fact::Flag(value)),
            Slot::Choice(value) => Ok(Fact::Choice(value)),
            Slot::ChoiceSet(value) => Ok(Fact::ChoiceSet(value)),
            Slot::Part(value) => Ok(Fact::Part(value)),
            Slot::Other(value) => Ok((*value).clone()),
            Slot::Unknown(gaps) => Err((*gaps).clone()),
            Slot::Empty | Slot::Busy => Err(Gaps::one(Gap::NoSolution(part, fact))),
        }
    }

    /// A number in coherent SI units; NaN when unknown.
    pub fn number(&mut self, part: PartId, fact: FactId, case: CaseId) -> f64 {
        if self.recording.is_none()
            && let Some(slot) = self.slot(part, fact, case)
            && let Slot::Number(value) = self.slots[slot]
        {
            return value;
        }
        match self.settled(part, fact, case) {
            Slot::Number(value) => value,
            _ => f64::NAN,
        }
    }

    /// A flag.
    pub fn flag(&mut self, part: PartId, fact: FactId, case: CaseId) -> Tri {
        match self.settled(part, fact, case) {
            Slot::Flag(value) => Tri::from_bool(value),
            _ => Tri::Unknown,
        }
    }

    /// A choice, by the index of its word.
    pub fn choice(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<u16> {
        match self.settled(part, fact, case) {
            Slot::Choice(value) => Some(value),
            _ => None,
        }
    }

    /// A set of choices, as bits over the list of words.
    pub fn choice_set(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<u64> {
        match self.settled(part, fact, case) {
            Slot::ChoiceSet(value) => Some(value),
            _ => None,
        }
    }

    /// Another part.
    pub fn part(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<PartId> {
        match self.settled(part, fact, case) {
            Slot::Part(value) => Some(value),
            _ => None,
        }
    }

    /// A list of parts; when it is not known at all, an empty list that may be incomplete.
    pub fn parts(&mut self, part: PartId, fact: FactId, case: CaseId) -> Parts {
        match self.settled(part, fact, case) {
            Slot::Other(value) => match &*value {
                Fact::Parts(parts) => parts.clone(),
                _ => Parts { members: Arc::from([]), complete: false },
            },
            _ => Parts { members: Arc::from([]), complete: false },
        }
    }

    /// A text.
    pub fn text(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<Arc<str>> {
        match self.settled(part, fact, case) {
            Slot::Other(value) => match &*value {
                Fact::Text(text) => Some(text.clone()),
                _ => None,
            },
            _ => None,
        }
    }

    /// What would settle a fact; for a list that may be incomplete, the part that could not be read.
    pub fn gaps(&mut self, part: PartId, fact: FactId, case: CaseId) -> Gaps {
        match self.fact(part, fact, case) {
            Ok(Fact::Parts(parts)) if !parts.complete => self.gaps_of_list(part, fact, case),
            Ok(_) => Gaps::default(),
            Err(gaps) => gaps,
        }
    }

    /// What would settle a list that may be incomplete: what is not known of the facts that it was made from, else the part
    /// that could not be read.
    fn gaps_of_list(&mut self, part: PartId, fact: FactId, case: CaseId) -> Gaps {
        let outer = self.recording.take();
        let read = self.working(part, fact, case).read;
        let mut gaps = Gaps::default();
        for (part, fact) in read {
            if let Err(more) = self.fact(part, fact, case) {
                gaps.add(&more);
            }
        }
        self.recording = outer;
        if gaps.is_empty() { Gaps::one(Gap::Unread(self.unread_part(part))) } else { gaps }
    }

    /// The part whose unread text makes a list incomplete: this one, else the first that could not be read.
    pub(crate) fn unread_part(&self, part: PartId) -> PartId {
        let written = self.build.circuitry.written(part);
        if self.build.part(written).leaves_open() { written } else { self.build.first_unread }
    }

    /// A number, or what would settle it.
    ///
    /// # Errors
    /// What would settle it.
    pub fn need(&mut self, part: PartId, fact: FactId, case: CaseId) -> Outcome<f64> {
        match self.fact(part, fact, case)? {
            Fact::Number(value) => Ok(value),
            _ => Err(Gaps::one(Gap::NoSolution(part, fact))),
        }
    }

    /// A flag, or what would settle it.
    ///
    /// # Errors
    /// What would settle it.
    pub fn need_flag(&mut self, part: PartId, fact: FactId, case: CaseId) -> Outcome<bool> {
        match self.fact(part, fact, case)? {
            Fact::Flag(value) => Ok(value),
            _ => Err(Gaps::one(Gap::NoSolution(part, fact))),
        }
    }

    /// The chosen word, or what would settle it.
    ///
    /// # Errors
    /// What would settle it.
    pub fn need_word(&mut self, part: PartId, fact: FactId, case: CaseId) -> Outcome<&'static str> {
        match self.fact(part, fact, case)? {
            Fact::Choice(value) => vocabulary::fact_spec(fact)
                .choices()
                .get(usize::from(value))
                .copied()
                .ok_or_else(|| Gaps::one(Gap::NoSolution(part, fact))),
            _ => Err(Gaps::one(Gap::NoSolution(part, fact))),
        }
    }

    /// The value as it is written, with its unit system, when it is written.
    pub fn written(&mut self, part: PartId, fact: FactId) -> Option<&'a Value> {
        let build = self.build;
        match build.said(part, fact) {
            Said::Written(value) => Some(value),
            _ => None,
        }
    }

    /// Whether nothing at all is written of a fact, on a part that could be read. A fact that is written as unknown, or so
    /// that it cannot be understood, is not silence: what holds in its absence does not hold for it.
    pub(crate) fn silent(&self, part: PartId, fact: FactId) -> bool {
        let part = self.build.part(part);
        part.given(fact).is_none() && !part.unread
    }

    /// Adds a step to the working, when one is recorded.
    pub fn step(&mut self, step: impl FnOnce() -> Step) {
        if let Some(recording) = &mut self.recording {
            recording.steps.push(step());
        }
    }

    /// How a fact is worked out: the same method, run again with recording on.
    pub fn working(&mut self, part: PartId, fact: FactId, case: CaseId) -> Working {
        self.recording = Some(Working::default());
        let _ = self.work_out(part, fact, case);
        self.recording.take().unwrap_or_default()
    }

    /// Whether the working is recorded: what only the working tells need not be worked out otherwise.
    pub(crate) fn is_recording(&self) -> bool {
        self.recording.is_some()
    }

    /// Works something out that is remembered for several facts, with nothing recorded.
    pub(crate) fn silently<T>(&mut self, work: impl FnOnce(&mut Self) -> T) -> T {
        let outer = self.recording.take();
        let done = work(self);
        self.recording = outer;
        done
    }

    /// The cases among which facts of these axes differ.
    pub fn cases_among(&self, axes: Axes) -> Vec<CaseId> {
        self.cases.among(axes)
    }

    /// The least device rating in each run, A, made once for each case; what is not known counts as none or, when `least`
    /// is not asked for, as no limit.
    pub(crate) fn least_ratings(&mut self, case: CaseId, least: bool) -> Arc<Ratings> {
        if let Some(ratings) = self.ratings.get(&(case, least)) {
            return ratings.clone();
        }
        let outer = self.recording.take();
        let ratings = Arc::new(run_end::least_ratings(self, case, if least { 0.0 } else { f64::INFINITY }));
        self.recording = outer;
        self.ratings.insert((case, least), ratings.clone());
        ratings
    }

    /// Whether the working of a value is recorded.
    pub(crate) fn records(&self) -> bool {
        self.recording.is_some()
    }

    /// A design week in a case's climate, made once for each.
    pub(crate) fn week(&mut self, part: PartId, case: CaseId) -> Arc<Week> {
        let climate = self.cases.project(case, Axes::CLIMATE);
        if let Some(week) = self.weeks.get(&(part, climate)) {
            return week.clone();
        }
        let outer = self.recording.take();
        let week = Arc::new(Week::of(self, part, climate));
        self.recording = outer;
        self.weeks.insert((part, climate), week.clone());
        week
    }

    /// What each source of alternating current can feed, made once.
    pub(crate) fn walks(&mut self) -> Arc<[Walk]> {
        if let Some(walks) = &self.walks {
            return walks.clone();
        }
        let outer = self.recording.take();
        let walks: Arc<[Walk]> = mains_walk::walks(self).into();
        self.recording = outer;
        self.walks = Some(walks.clone());
        walks
    }

    /// What is closed, what feeds and what is live in the mode of a case, made once for each mode.
    pub(crate) fn mode_state(&mut self, case: CaseId) -> Arc<ModeState> {
        let mode = self.cases.mode(case);
        if let Some(state) = self.mode_states.get(&mode) {
            return state.clone();
        }
        let outer = self.recording.take();
        let state = Arc::new(ModeState::of(self, mode));
        self.recording = outer;
        self.mode_states.insert(mode, state.clone());
        state
    }

    /// What is always on and not cut off in storage, made once.
    pub(crate) fn always_on(&mut self) -> Arc<[AlwaysOn]> {
        if let Some(on) = &self.always_on {
            return on.clone();
        }
        let outer = self.recording.take();
        let on: Arc<[AlwaysOn]> = modes::always_on(self).into();
        self.recording = outer;
        self.always_on = Some(on.clone());
        on
    }

    /// Where everything stands, made once.
    pub fn scene(&mut self) -> Arc<Scene> {
        let build = self.build;
        self.scene.get_or_insert_with(|| Arc::new(Scene::of(build))).clone()
    }

    /// The most that the sources behind an end of a run can drive to it, A; found once.
    pub(crate) fn upstream(&mut self, part: PartId, case: CaseId) -> Outcome<f64> {
        if let Some(known) = self.upstream.get(&(part, case)) {
            return known.clone();
        }
        let found = run_end::upstream(self, part, case);
        self.upstream.insert((part, case), found.clone());
        found
    }

    /// Where batteries, and what charges them, stand in the network; found once.
    pub(crate) fn charged_places(&mut self) -> Arc<[usize]> {
        let build = self.build;
        let charged = |terminal: Terminal| {
            matches!(build.part(terminal.thing).kind, kind::BATTERY | kind::ALTERNATOR | kind::CHARGER)
        };
        self.charged_places.get_or_insert_with(|| build.circuitry().places_of_sources(charged).into()).clone()
    }

    /// The lowest of the voltages of the sources that are joined to a node, V, and what is not known of them; found once for all
    /// nodes that are joined, but while a working is recorded, which names what it reads.
    pub(crate) fn lowest_joined(&mut self, node: usize, case: CaseId) -> (Option<f64>, Gaps) {
        let Some(&group) = self.build.circuitry().group.get(node).filter(|_| self.recording.is_none()) else {
            return load::lowest_joined(self, node, case);
        };
        if let Some(known) = self.lowest_joined.get(&(group, case)) {
            return known.clone();
        }
        let found = load::lowest_joined(self, node, case);
        self.lowest_joined.insert((group, case), found.clone());
        found
    }

    /// The shortest way from an end of a run back to what feeds it, found once.
    pub(crate) fn way_back(&mut self, run: usize, end: End, toward: Toward) -> Option<Arc<WayBack>> {
        let build = self.build;
        self.ways_back
            .entry((run, end, toward))
            .or_insert_with(|| drop::way_back(build, run, end, toward).map(Arc::new))
            .clone()
    }

    /// The ways out of a berth or seat, found once.
    pub(crate) fn ways_out(&mut self, from: PartId, case: CaseId) -> Arc<WaysOut> {
        if let Some(ways) = self.ways.get(&from) {
            return ways.clone();
        }
        let ways = Arc::new(WaysOut::of(self, from, case));
        self.ways.insert(from, ways.clone());
        ways
    }

    /// The whole spaces for people, found once.
    pub(crate) fn living_spaces(&mut self, case: CaseId) -> Arc<Outcome<Vec<PartId>>> {
        if let Some(living) = &self.living {
            return living.clone();
        }
        let living = Arc::new(self.silently(|reader| crate::methods::heat::find_living_spaces(reader, case)));
        self.living = Some(living.clone());
        living
    }

    /// Everything that weighs, made once.
    pub(crate) fn burdens(&mut self) -> Arc<Burdens> {
        if let Some(burdens) = &self.masses.burdens {
            return burdens.clone();
        }
        let burdens = Arc::new(Burdens::of(self));
        self.masses.burdens = Some(burdens.clone());
        burdens
    }

    /// What everything that weighs loads in a fill, made once for each.
    pub(crate) fn loads(&mut self, fill: usize) -> Arc<Loads> {
        if let Some(loads) = self.masses.loads.get(&fill) {
            return loads.clone();
        }
        let burdens = self.burdens();
        let loads = Arc::new(Loads::of(&burdens, fill));
        self.masses.loads.insert(fill, loads.clone());
        loads
    }

    /// The network for fault currents, made once for each strength.
    pub(crate) fn fault_network(&mut self, strength: Strength) -> Arc<FaultNetwork> {
        let place = usize::from(strength == Strength::Least);
        if let Some(faults) = &self.faults[place] {
            return faults.clone();
        }
        let outer = self.recording.take();
        let faults = Arc::new(FaultNetwork::of(self, strength));
        self.recording = outer;
        self.faults[place] = Some(faults.clone());
        faults
    }
}

/// Where the slots of each fact begin among those of its part, and how many each part kind needs: one for each case that the
/// fact differs among, so that modes cost nothing where they make no difference.
fn layout(cases: &Cases) -> (Vec<u32>, Vec<u32>) {
    let mut offsets = vec![0; vocabulary::facts().len()];
    let mut sizes = Vec::with_capacity(vocabulary::parts().len());
    for part in vocabulary::parts() {
        let mut size = 0_u32;
        for fact in part.facts() {
            if let Some(offset) = offsets.get_mut(usize::from(fact.id.0)) {
                *offset = size;
            }
            size += u32::try_from(cases.count_among(fact.axes)).unwrap_or(1);
        }
        sizes.push(size);
    }
    (offsets, sizes)
}

/// Either of two entries settles the question.
pub fn either(one: (PartId, FactId), other: (PartId, FactId)) -> Gaps {
    Gaps(vec![AnyOf(vec![Gap::Entry(one.0, one.1), Gap::Entry(other.0, other.1)])])
}
