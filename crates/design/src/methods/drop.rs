//! The voltage that is lost on the way from a source to the things at the end of a run, and what is left of it while they
//! start. Conductors are reckoned at 70 °C, for which BS 7671 prints its tables of voltage drop (4D1B and 4E1B, read).

use super::run::{number, run};
use super::run_end::open_end;
use super::{doubt, fact_of, no_solution, ohms, show, sum, volts};
use crate::binding::{Bindings, Method};
use crate::circuitry::{End, Run, Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use rustc_hash::FxHashMap;
use std::collections::VecDeque;
use std::collections::hash_map::Entry;
use std::sync::Arc;
use vocabulary::{FactId, PartKind, fact as f, kind};

/// The temperature of a conductor at work, K: 70 °C.
const AT_WORK: f64 = 343.15;

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::conductor::HOT_RESISTANCE, Each(of_conductor)),
        (f::run::HOT_RESISTANCE, Each(of_run)),
        (f::run::LENGTH, Each(length)),
        (f::run::SHEATHED, Each(sheathed)),
        (f::run::DROP, Each(drop_along)),
        (f::run::SUPPLY_DROP, Each(supply_drop)),
        (f::run::NOMINAL_VOLTAGE, Each(nominal_voltage)),
        (f::run::FEEDS_LOAD, Each(feeds_load)),
        (f::run::CRITICAL, Each(critical)),
        (f::run::CHARGES, Each(charges)),
        (f::run::OF_MODULES, Each(of_modules)),
        (f::run::START_DROP, Each(start_drop)),
        (f::run::STARTING_VOLTAGE, Each(starting_voltage)),
        (f::run::MINIMUM_ASKED, Each(minimum_asked)),
        (f::run::MINIMUM_VOLTAGE, Each(minimum_voltage)),
    ]
}

/// The resistance of a conductor at work, Ω.
fn of_conductor(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let cold = reader.need(part, f::conductor::RESISTANCE, case)?;
    let hot = calc::at_temperature(cold, AT_WORK);
    reader.step(|| Step::of(format!("{} at 20 °C, {} at 70 °C (0.00393 /K)", ohms(cold), ohms(hot))));
    if super::conductor::carried(reader, part, case)? < 2.0 {
        let source = "metal of the body has far more section than a wire (common practice)";
        reader.step(|| Step::assumed("the vehicle's metal on the way back: taken as nothing", source));
    }
    Ok(Fact::Number(hot))
}

/// The conductors of a run that must have some.
pub(super) fn conductors(run: &Run) -> Outcome<Vec<PartId>> {
    if !run.complete {
        return Err(Gaps::one(Gap::Unread(run.written)));
    }
    let conductors: Vec<PartId> = run.conductors().collect();
    if conductors.is_empty() { Err(Gaps::one(Gap::Absent(run.written, kind::WIRE))) } else { Ok(conductors) }
}

fn summed(reader: &mut Reader<'_>, part: PartId, own: FactId, of: FactId, case: CaseId) -> Outcome<f64> {
    let run = run(reader, part, own)?;
    let values: Vec<_> = conductors(run)?.into_iter().map(|conductor| reader.need(conductor, of, case)).collect();
    sum(values)
}

/// The resistance of the conductors of a run at work, Ω.
fn of_run(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(summed(reader, part, f::run::HOT_RESISTANCE, f::conductor::HOT_RESISTANCE, case)?))
}

/// The length of a run, m, out only.
fn length(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(summed(reader, part, f::run::LENGTH, f::conductor::ONE_WAY, case)?))
}

/// Whether all of a run lies in sheaths, conduits or enclosures. Ways and shore wires do not say it.
fn sheathed(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::run::SHEATHED)?;
    let mut gaps = Gaps::default();
    for conductor in conductors(run)? {
        let written = reader.build().circuitry().written(conductor);
        if reader.build().part(written).kind != kind::WIRE {
            return Ok(Fact::Flag(false));
        }
        match reader.need_flag(written, f::wire::ENCLOSED, case) {
            Ok(true) => {}
            Ok(false) => return Ok(Fact::Flag(false)),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(true)) } else { Err(gaps) }
}

/// A run of direct current: of alternating current the losses are another matter.
pub(super) fn direct<'a>(reader: &Reader<'a>, part: PartId, fact: FactId) -> Outcome<&'a Run> {
    let run = run(reader, part, fact)?;
    if run.alternating { no_solution(part, fact) } else { Ok(run) }
}

/// The voltage lost along a run, V: I·R.
fn drop_along(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    direct(reader, part, f::run::DROP)?;
    let current = reader.need(part, f::run::DESIGN_CURRENT, case);
    let (current, resistance) = super::battery::both(current, reader.need(part, f::run::HOT_RESISTANCE, case))?;
    let lost = current * resistance;
    reader.step(|| Step::of(format!("{} × {} = {}", super::amperes(current), ohms(resistance), volts(lost))));
    Ok(Fact::Number(lost))
}

/// What a way back leads to.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Toward {
    /// Whatever holds up the voltage of its node by itself.
    Voltage,
    /// A battery.
    Battery,
}

impl Toward {
    fn counts(self, kind: PartKind, side: Side) -> bool {
        match self {
            Self::Voltage => holds_voltage(kind, side),
            Self::Battery => kind == kind::BATTERY,
        }
    }
}

/// The runs on the way from an end of a run back to a source, nearest first, and the source.
pub type WayBack = (Vec<PartId>, Terminal);

/// Whether a thing of this kind holds up the voltage of its node by itself.
pub(super) fn holds_voltage(kind: PartKind, side: Side) -> bool {
    match kind {
        kind::BATTERY | kind::TRAILER_PLUG => true,
        kind::CONVERTER => side == Side::Output,
        _ => false,
    }
}

/// The way to the source that feeds a run.
pub(super) struct Supply {
    /// The end of the run at which it is fed.
    pub end: End,
    /// The runs before it, nearest first, and the source.
    way: Arc<WayBack>,
}

impl Supply {
    /// The runs before it, nearest first.
    pub fn runs(&self) -> &[PartId] {
        &self.way.0
    }

    /// The source.
    pub fn source(&self) -> Terminal {
        self.way.1
    }
}

/// The shortest way from an end of a run back to a source that counts as one.
pub fn way_back(build: &Build, index: usize, end: End, toward: Toward) -> Option<WayBack> {
    let circuitry = build.circuitry();
    let start = circuitry.runs.get(index)?.node(end)?;
    // How each node was reached: by which run, and from which node.
    let mut came: FxHashMap<usize, Option<(PartId, usize)>> = FxHashMap::from_iter([(start, None)]);
    let mut open = VecDeque::from([start]);
    while let Some(node) = open.pop_front() {
        let found =
            circuitry.terminals(&[node]).find(|terminal| toward.counts(build.part(terminal.thing).kind, terminal.side));
        if let Some(source) = found {
            let mut way = Vec::new();
            let mut here = node;
            while let Some(Some((run, before))) = came.get(&here) {
                way.push(*run);
                here = *before;
            }
            way.reverse();
            return Some((way, source));
        }
        for &next in circuitry.toward_sources(node).iter().filter(|next| **next != index) {
            let Some(run) = circuitry.runs.get(next).filter(|run| !run.alternating) else { continue };
            for other in run.nodes.into_iter().flatten() {
                if let Entry::Vacant(entry) = came.entry(other) {
                    entry.insert(Some((run.part, node)));
                    open.push_back(other);
                }
            }
        }
    }
    None
}

/// What feeds a run: the source behind its start, else behind its finish.
pub(super) fn supply_if_any(reader: &mut Reader<'_>, part: PartId, fact: FactId) -> Outcome<Option<Supply>> {
    let run = direct(reader, part, fact)?;
    let index = number(reader, part);
    let mut gaps = Gaps::default();
    for end in End::BOTH {
        match run.node(end) {
            Some(node) => gaps.add(&doubt::of_sources(reader, node)),
            None => gaps.add(&open_end(reader, run, end).unwrap_or_default()),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    for end in End::BOTH {
        if let Some(way) = reader.way_back(index, end, Toward::Voltage) {
            return Ok(Some(Supply { end, way }));
        }
    }
    Ok(None)
}

fn supply(reader: &mut Reader<'_>, part: PartId, fact: FactId) -> Outcome<Supply> {
    supply_if_any(reader, part, fact)?.ok_or_else(|| Gaps::one(Gap::Absent(Build::ROOT, kind::BATTERY)))
}

/// The voltage lost from the source to the far end of a run, V.
fn supply_drop(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let supply = supply(reader, part, f::run::SUPPLY_DROP)?;
    let mut lost = Vec::new();
    for run in supply.runs().iter().rev().copied().chain([part]) {
        let drop = reader.need(run, f::run::DROP, case);
        if let Ok(drop) = &drop {
            let (title, drop) = (reader.build().part(run).title.clone(), *drop);
            reader.step(|| Step::of(format!("{title}: {}", volts(drop))));
        }
        lost.push(drop);
    }
    Ok(Fact::Number(sum(lost)?))
}

/// The nominal voltage of what feeds a run, V.
fn nominal_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let source = supply(reader, part, f::run::NOMINAL_VOLTAGE)?.source();
    let fact = match reader.build().part(source.thing).kind {
        kind::BATTERY => f::battery::VOLTAGE,
        kind::CONVERTER => f::converter::VOLTAGE,
        _ => f::trailer_plug::VOLTAGE,
    };
    Ok(Fact::Number(reader.need(source.thing, fact, case)?))
}

/// The kinds that take current and say no load of their own.
const CONVERTERS: [PartKind; 2] = [kind::INVERTER, kind::INVERTER_CHARGER];

/// The things that take direct current at the far end of a run.
pub(super) fn things(reader: &mut Reader<'_>, part: PartId, fact: FactId) -> Outcome<Vec<PartId>> {
    let run = run(reader, part, fact)?;
    if run.alternating {
        return Ok(Vec::new());
    }
    // What hangs on the sun alone has no voltage of which a part could be lost.
    let Some(supply) = supply_if_any(reader, part, fact)? else { return Ok(Vec::new()) };
    let end = supply.end.other();
    let Some(node) = run.node(end) else { return Err(open_end(reader, run, end).unwrap_or_default()) };
    let build = reader.build();
    let takes = |thing: &PartId| {
        fact_of(build, *thing, "load-current").is_some() || CONVERTERS.contains(&build.part(*thing).kind)
    };
    Ok(build.circuitry().terminals(&[node]).map(|terminal| terminal.thing).filter(takes).collect())
}

fn feeds_load(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(!things(reader, part, f::run::FEEDS_LOAD)?.is_empty()))
}

fn critical(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let mut gaps = Gaps::default();
    for thing in things(reader, part, f::run::CRITICAL)? {
        let Some(fact) = fact_of(reader.build(), thing, "critical") else { continue };
        match reader.need_flag(thing, fact, case) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn charges(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let run = run(reader, part, f::run::CHARGES)?;
    let direct = !run.alternating;
    let given = gives_into(reader, run, |kind, side| {
        matches!(kind, kind::CHARGER | kind::SOLAR_CONTROLLER) && side == Side::Output
    })?;
    Ok(Fact::Flag(given && direct))
}

fn of_modules(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let run = run(reader, part, f::run::OF_MODULES)?;
    Ok(Fact::Flag(gives_into(reader, run, |kind, _| kind == kind::SOLAR)?))
}

/// Whether a thing of such a kind, with such a side, stands at an end of a run.
fn gives_into(reader: &Reader<'_>, run: &Run, gives: impl Fn(PartKind, Side) -> bool) -> Outcome<bool> {
    let mut gaps = Gaps::default();
    for end in End::BOTH {
        let Some(node) = run.node(end) else {
            gaps.add(&open_end(reader, run, end).unwrap_or_default());
            continue;
        };
        let node = [node];
        let mut at = reader.build().circuitry().terminals(&node);
        if at.any(|terminal| gives(reader.build().part(terminal.thing).kind, terminal.side)) {
            return Ok(true);
        }
    }
    if gaps.is_empty() { Ok(false) } else { Err(gaps) }
}

/// The voltage lost on the way while the thing at the far end starts, V.
fn start_drop(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let supply = supply(reader, part, f::run::START_DROP)?;
    let steady = reader.need(part, f::run::DESIGN_CURRENT, case);
    let (start, steady) = super::battery::both(reader.need(part, f::run::STARTING_CURRENT, case), steady)?;
    let lost = reader.need(part, f::run::SUPPLY_DROP, case)?;
    let ways = supply.runs().iter().copied().chain([part]);
    let resistances: Vec<_> = ways.map(|run| reader.need(run, f::run::HOT_RESISTANCE, case)).collect();
    let resistance = sum(resistances)?;
    let more = (start - steady).max(0.0);
    reader.step(|| {
        Step::of(format!(
            "{} in use, and {} more over {}",
            volts(lost),
            show(more, quantity::Dimension::CURRENT),
            ohms(resistance)
        ))
    });
    Ok(Fact::Number(lost + more * resistance))
}

/// The voltage left at the far end while the thing there starts, V; the battery at its nominal voltage (chosen: a 12 V lead
/// battery at rest is then about half full).
fn starting_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let lost = reader.need(part, f::run::START_DROP, case);
    let (nominal, lost) = super::battery::both(reader.need(part, f::run::NOMINAL_VOLTAGE, case), lost)?;
    reader.step(|| Step::of(format!("{} − {} = {}", volts(nominal), volts(lost), volts(nominal - lost))));
    Ok(Fact::Number(nominal - lost))
}

/// The things at the far end that say the lowest voltage at which they start.
fn asking(reader: &mut Reader<'_>, part: PartId, fact: FactId) -> Outcome<Vec<(PartId, FactId)>> {
    let mut asking = Vec::new();
    for thing in things(reader, part, fact)? {
        if let Some(minimum) = fact_of(reader.build(), thing, "minimum-voltage")
            && super::is_said(reader, thing, minimum)?
        {
            asking.push((thing, minimum));
        }
    }
    Ok(asking)
}

fn minimum_asked(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(!asking(reader, part, f::run::MINIMUM_ASKED)?.is_empty()))
}

fn minimum_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let asking = asking(reader, part, f::run::MINIMUM_VOLTAGE)?;
    let mut most = 0.0_f64;
    let mut gaps = Gaps::default();
    for (thing, minimum) in &asking {
        match reader.need(*thing, *minimum, case) {
            Ok(volts) => most = most.max(volts),
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    if asking.is_empty() { no_solution(part, f::run::MINIMUM_VOLTAGE) } else { Ok(Fact::Number(most)) }
}
