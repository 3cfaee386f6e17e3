//! The voltage that is lost on the way of alternating current. Conductors are reckoned at 70 °C as those of direct current; their
//! reactance is left out, which below 25 mm² is small beside their resistance (BS 7671 prints one figure for both up to
//! 16 mm², from memory). On two legs the current of the fuller one is taken to come back by the neutral alone.

use super::drop::conductors;
use super::run::{number, run};
use super::supply::unread_sources;
use super::{amperes, fact_of, no_solution, ohms, source, volts};
use crate::binding::{Bindings, Method};
use crate::circuitry::Terminal;
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{FactId, fact as f, fact::run as r, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (r::MAINS_LOAD, Each(mains_load)),
        (r::MAINS_VOLTAGE, Each(mains_voltage)),
        (r::MAINS_DROP, Each(mains_drop)),
        (r::MAINS_DROP_SHARE, Each(mains_drop_share)),
        (r::MAINS_RUNNING, Each(mains_running)),
        (r::MAINS_LEFT, Each(mains_left)),
        (r::MAINS_MINIMUM_ASKED, Each(minimum_asked)),
        (r::MAINS_MINIMUM, Each(minimum)),
        (r::MAINS_MOTOR, Each(motor)),
    ]
}

/// A way from a source to the far end of a run.
struct Way {
    source: Terminal,
    far: usize,
    /// The runs on it, nearest to the source first; the last is the run itself.
    runs: Vec<usize>,
}

/// The ways by which alternating current comes through a run, one for each source that can feed it.
fn ways(reader: &mut Reader<'_>, part: PartId, fact: FactId) -> Outcome<Vec<Way>> {
    let own = run(reader, part, fact)?;
    if !own.alternating {
        return Ok(Vec::new());
    }
    let index = number(reader, part);
    let walks = reader.walks();
    let mut gaps = unread_sources(reader);
    let mut ways = Vec::new();
    for walk in walks.iter() {
        let through = own.nodes.into_iter().flatten().find_map(|far| {
            let runs = walk.runs_to(walk.stop_of(far)?);
            (runs.last() == Some(&index)).then_some(Way { source: walk.supply.source, far, runs })
        });
        match through {
            Some(way) => ways.push(way),
            None => gaps.add(&walk.gaps),
        }
    }
    if gaps.is_empty() { Ok(ways) } else { Err(gaps) }
}

/// The things that take alternating current at the far end of a run.
fn things(reader: &mut Reader<'_>, part: PartId, fact: FactId) -> Outcome<Vec<PartId>> {
    let mut things = Vec::new();
    for way in ways(reader, part, fact)? {
        let build = reader.build();
        let there = build.circuitry().attached.get(way.far).into_iter().flatten();
        things.extend(there.map(|met| met.thing).filter(|met| fact_of(build, *met, "load-current").is_some()));
    }
    things.sort_unstable();
    things.dedup();
    Ok(things)
}

fn mains_load(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(!things(reader, part, r::MAINS_LOAD)?.is_empty()))
}

/// The voltage of a source at the far end of a run, V: of one leg, or between the two that a thing there is joined to.
fn brought(reader: &mut Reader<'_>, things: &[PartId], source: Terminal, case: CaseId) -> Outcome<f64> {
    let mut legs = 1.0_f64;
    for thing in things {
        if let Some(fact) = fact_of(reader.build(), *thing, "legs") {
            legs = legs.max(reader.need(*thing, fact, case)?);
        }
    }
    let one = source::highest_voltage(reader, source, case);
    Ok(legs * one.unwrap_or_else(|| no_solution(source.thing, r::MAINS_VOLTAGE))?)
}

/// What the sources that feed a run make of some sum over their ways: the one that `better` prefers.
fn over_ways(
    reader: &mut Reader<'_>,
    part: PartId,
    fact: FactId,
    better: fn(f64, f64) -> f64,
    mut of: impl FnMut(&mut Reader<'_>, &Way, &[PartId]) -> Outcome<f64>,
) -> Outcome<f64> {
    let things = things(reader, part, fact)?;
    let mut found: Option<f64> = None;
    let mut gaps = Gaps::default();
    for way in ways(reader, part, fact)? {
        match of(reader, &way, &things) {
            Ok(value) => found = Some(found.map_or(value, |so_far| better(so_far, value))),
            Err(more) => gaps.add(&more),
        }
    }
    match found {
        _ if !gaps.is_empty() => Err(gaps),
        Some(found) => Ok(found),
        None => Err(Gaps::one(Gap::Absent(Build::ROOT, kind::SHORE))),
    }
}

/// The resistance of a run at work, Ω; that of the shore's cord only where it counts.
fn resistance(reader: &mut Reader<'_>, run: usize, with_cord: bool, case: CaseId) -> Outcome<f64> {
    let circuitry = reader.build().circuitry();
    let Some(run) = circuitry.runs.get(run) else { return Ok(0.0) };
    let counts = |piece: &PartId| with_cord || reader.build().part(circuitry.written(*piece)).kind != kind::CORD;
    let counted: Vec<PartId> = conductors(run)?.into_iter().filter(counts).collect();
    let each: Vec<_> =
        counted.into_iter().map(|piece| reader.need(piece, f::conductor::HOT_RESISTANCE, case)).collect();
    super::sum(each)
}

/// The largest current of a run, A: no more than its devices let through for long.
fn let_through(reader: &mut Reader<'_>, run: usize, part: PartId, case: CaseId) -> Outcome<f64> {
    let current = reader.need(part, r::DESIGN_CURRENT, case);
    let devices: Vec<PartId> =
        reader.build().circuitry().runs.get(run).into_iter().flat_map(|run| run.devices()).collect();
    let ratings: Vec<_> = devices.into_iter().map(|device| reader.need(device, f::device::RATING, case)).collect();
    let (current, rating) = super::battery::both(current, super::least(ratings))?;
    Ok(rating.map_or(current, |rating| current.min(rating)))
}

/// The voltage lost on a way, V: of each run its largest current, no more than its devices let through, × its resistance.
fn lost(reader: &mut Reader<'_>, way: &Way, with_cord: bool, case: CaseId) -> Outcome<f64> {
    let mut each = Vec::new();
    let from = reader.build().part(way.source.thing).title.clone();
    reader.step(|| Step::of(format!("fed from {from}:")));
    for &run in &way.runs {
        let Some(part) = reader.build().circuitry().runs.get(run).map(|run| run.part) else { continue };
        let current = let_through(reader, run, part, case);
        let lost = super::battery::both(current, resistance(reader, run, with_cord, case));
        if let Ok((current, resistance)) = lost {
            let title = reader.build().part(part).title.clone();
            reader.step(|| {
                Step::of(format!(
                    "{title}: {} × {} = {}",
                    amperes(current),
                    ohms(resistance),
                    volts(current * resistance)
                ))
            });
        }
        each.push(lost.map(|(current, resistance)| current * resistance));
    }
    super::sum(each)
}

fn mains_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let voltage = over_ways(reader, part, r::MAINS_VOLTAGE, f64::min, |reader, way, things| {
        brought(reader, things, way.source, case)
    })?;
    Ok(Fact::Number(voltage))
}

fn mains_drop(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let drop = over_ways(reader, part, r::MAINS_DROP, f64::max, |reader, way, _| lost(reader, way, false, case))?;
    Ok(Fact::Number(drop))
}

fn mains_drop_share(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let share = over_ways(reader, part, r::MAINS_DROP_SHARE, f64::max, |reader, way, things| {
        let (lost, voltage) =
            super::battery::both(lost(reader, way, false, case), brought(reader, things, way.source, case))?;
        let share = lost / voltage;
        reader.step(|| {
            let share = super::show(share, quantity::Dimension::RATIO);
            Step::of(format!("{} of {} = {share}", volts(lost), volts(voltage)))
        });
        Ok(share)
    })?;
    Ok(Fact::Number(share))
}

/// The voltage of a way's source less what is lost to its end, V.
fn left(reader: &mut Reader<'_>, way: &Way, things: &[PartId], case: CaseId) -> Outcome<f64> {
    let (lost, voltage) =
        super::battery::both(lost(reader, way, true, case), brought(reader, things, way.source, case))?;
    reader.step(|| Step::of(format!("{} − {} = {}", volts(voltage), volts(lost), volts(voltage - lost))));
    Ok(voltage - lost)
}

fn mains_running(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let running =
        over_ways(reader, part, r::MAINS_RUNNING, f64::min, |reader, way, things| left(reader, way, things, case))?;
    Ok(Fact::Number(running))
}

/// The voltage left while the thing at the end starts, V; the source is taken to hold its own voltage.
fn mains_left(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let steady = reader.need(part, r::DESIGN_CURRENT, case);
    let (start, steady) = super::battery::both(reader.need(part, r::STARTING_CURRENT, case), steady)?;
    let more = (start - steady).max(0.0);
    let least = over_ways(reader, part, r::MAINS_LEFT, f64::min, |reader, way, things| {
        let left = left(reader, way, things, case);
        let each: Vec<_> = way.runs.iter().map(|run| resistance(reader, *run, true, case)).collect();
        let (left, resistance) = super::battery::both(left, super::sum(each))?;
        reader.step(|| Step::of(format!("starting takes {} more over {}", amperes(more), ohms(resistance))));
        Ok(left - more * resistance)
    })?;
    Ok(Fact::Number(least))
}

/// The things at the far end that say the lowest voltage at which they start and work.
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
    Ok(Fact::Flag(!asking(reader, part, r::MAINS_MINIMUM_ASKED)?.is_empty()))
}

fn minimum(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let asking = asking(reader, part, r::MAINS_MINIMUM)?;
    let each: Vec<_> = asking.into_iter().map(|(thing, minimum)| reader.need(thing, minimum, case)).collect();
    let mut most: Option<f64> = None;
    for asked in each {
        let asked = asked?;
        most = Some(most.map_or(asked, |so_far| so_far.max(asked)));
    }
    most.map_or_else(|| no_solution(part, r::MAINS_MINIMUM), |most| Ok(Fact::Number(most)))
}

/// Whether a thing at the far end is said to be a motor.
fn motor(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let mut gaps = Gaps::default();
    for thing in things(reader, part, r::MAINS_MOTOR)? {
        let Some(motor) = fact_of(reader.build(), thing, "motor") else { continue };
        if !super::is_said(reader, thing, motor)? {
            continue;
        }
        match reader.need_flag(thing, motor, case) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}
