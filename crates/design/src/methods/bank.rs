//! Batteries that are joined on direct current: their bank, what stands between them, and how they share a load.

use super::battery::both;
use super::{doubt, no_solution, show};
use crate::circuitry::{Circuitry, Piece, Run, Side};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use rustc_hash::{FxHashMap, FxHashSet};
use spec::Value;
use vocabulary::{fact as f, kind};

/// Whether a battery belongs to the base vehicle.
pub fn base_vehicle(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(is_base(reader, battery, case)?))
}

/// Whether a battery belongs to the base vehicle or to a trailer's brakes: its role says so, or an alternator names it. One of which neither is said
/// is the conversion's.
pub fn is_base(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome<bool> {
    let mut gaps = Gaps::default();
    if !reader.silent(battery, f::battery::ROLE) {
        match reader.need_word(battery, f::battery::ROLE, case) {
            Ok(word) => return Ok(word != "house"),
            Err(more) => gaps.add(&more),
        }
    }
    let alternators = reader.build().of_kind(kind::ALTERNATOR);
    for &alternator in alternators.members.iter() {
        if reader.silent(alternator, f::alternator::FROM) {
            continue;
        }
        match reader.fact(alternator, f::alternator::FROM, case) {
            Ok(Fact::Part(named)) if named == battery => return Ok(true),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !alternators.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    if gaps.is_empty() { Ok(false) } else { Err(gaps) }
}

/// Whether a relay parts the two ends of a run at times.
pub fn parted(build: &Build, run: &Run) -> bool {
    run.pieces.iter().any(|piece| matches!(piece, Piece::Switch(part) if build.part(*part).kind == kind::RELAY))
}

/// The nodes that are reached from a node over runs that a test lets pass.
pub fn reached(circuitry: &Circuitry, start: usize, passes: impl Fn(&Run) -> bool) -> Vec<usize> {
    let mut seen = FxHashSet::from_iter([start]);
    let mut order = vec![start];
    let mut next = 0;
    while let Some(&node) = order.get(next) {
        next += 1;
        for run in circuitry.meeting.get(node).into_iter().flatten().filter_map(|run| circuitry.runs.get(*run)) {
            if passes(run) {
                order.extend(run.nodes.into_iter().flatten().filter(|other| seen.insert(*other)));
            }
        }
    }
    order
}

/// What is joined with a battery without a relay between: the nodes, and what would settle whether these are all.
pub fn joined(reader: &Reader<'_>, battery: PartId) -> (Vec<usize>, Gaps) {
    let build = reader.build();
    let circuitry = build.circuitry();
    let Some(node) = circuitry.node_of(battery, Side::Input) else { return (Vec::new(), Gaps::default()) };
    let nodes = reached(circuitry, node, |run| !parted(build, run));
    let mut gaps = doubt::of_anything(reader, node);
    for run in circuitry.runs.iter().filter(|run| !run.complete) {
        if run.nodes.iter().flatten().any(|node| nodes.contains(node)) {
            gaps.add(&Gaps::one(Gap::Unread(run.written)));
        }
    }
    (nodes, gaps)
}

/// The batteries of the bank of a battery, itself among them, in the order of the text; and what would settle whether these
/// are all.
pub fn members(reader: &Reader<'_>, battery: PartId) -> (Vec<PartId>, Gaps) {
    let build = reader.build();
    let (nodes, gaps) = joined(reader, battery);
    let mut members: Vec<PartId> = build
        .circuitry()
        .terminals(&nodes)
        .map(|terminal| terminal.thing)
        .filter(|thing| build.part(*thing).kind == kind::BATTERY)
        .collect();
    if members.is_empty() {
        members.push(battery);
    }
    members.sort_unstable();
    (members, gaps)
}

/// The batteries of a bank, when these are certainly all.
pub fn certain(reader: &Reader<'_>, battery: PartId) -> Outcome<Vec<PartId>> {
    let (members, gaps) = members(reader, battery);
    if gaps.is_empty() { Ok(members) } else { Err(gaps) }
}

/// The bank of a battery.
pub fn bank(reader: &mut Reader<'_>, battery: PartId, _: CaseId) -> Outcome {
    let (members, gaps) = members(reader, battery);
    Ok(super::parts(members, gaps.is_empty()))
}

/// The battery that stands for the bank.
pub fn first(reader: &mut Reader<'_>, battery: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Part(certain(reader, battery)?.first().copied().unwrap_or(battery)))
}

/// The capacity of a bank, C.
pub fn total_capacity(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome<f64> {
    let members = certain(reader, battery)?;
    let capacities: Vec<_> = members.iter().map(|member| reader.need(*member, f::battery::CAPACITY, case)).collect();
    super::sum(capacities)
}

/// The capacity of its bank.
pub fn capacity(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(total_capacity(reader, battery, case)?))
}

/// The part of what its bank takes and gives that falls to a battery, by capacity: 1 where it is alone.
pub fn part_of_bank(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome<f64> {
    if certain(reader, battery)?.len() == 1 {
        return Ok(1.0);
    }
    let (own, all) = both(reader.need(battery, f::battery::CAPACITY, case), total_capacity(reader, battery, case))?;
    let share = own / all;
    reader.step(|| Step::of(format!("{:.0} % of its bank by capacity", share * 100.0)));
    if share.is_finite() { Ok(share) } else { no_solution(battery, f::battery::BANK_CAPACITY) }
}

/// Seconds of a day.
const DAY: f64 = calc::DAY_SECONDS;

/// By how much the ages of the bank's batteries differ, s.
pub fn age_spread(reader: &mut Reader<'_>, battery: PartId, _: CaseId) -> Outcome {
    let members = certain(reader, battery)?;
    let mut dates = Vec::new();
    let mut gaps = Gaps::default();
    for member in members {
        match reader.written(member, f::battery::MADE) {
            Some(Value::Date(date)) => dates.push(*date),
            _ => gaps.add(&Gaps::one(Gap::Entry(member, f::battery::MADE))),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let (Some(oldest), Some(newest)) = (dates.iter().min(), dates.iter().max()) else {
        return no_solution(battery, f::battery::BANK_AGE_SPREAD);
    };
    match oldest.until(*newest) {
        Ok(span) => {
            reader.step(|| Step::of(format!("made between {oldest} and {newest}")));
            Ok(Fact::Number(f64::from(span.get_days()) * DAY))
        }
        Err(_) => no_solution(battery, f::battery::BANK_AGE_SPREAD),
    }
}

/// Whether a device stands between a battery and every other of its bank.
pub fn device_between(reader: &mut Reader<'_>, battery: PartId, _: CaseId) -> Outcome {
    let members = certain(reader, battery)?;
    let build = reader.build();
    let circuitry = build.circuitry();
    let Some(node) = circuitry.node_of(battery, Side::Input) else { return Ok(Fact::Flag(true)) };
    let bare = reached(circuitry, node, |run| !parted(build, run) && run.devices().next().is_none());
    let met = circuitry.terminals(&bare).any(|terminal| terminal.thing != battery && members.contains(&terminal.thing));
    Ok(Fact::Flag(!met))
}

/// More nodes than a bank of a vehicle has. Chosen, so that nonsense gets no answer.
const MOST_NODES: usize = 500;

/// The resistance of a run without conductors, Ω: a joint. Chosen, far below that of any lead.
const JOINT: f64 = 1e-7;

/// The largest current of a battery of the bank over the smallest, all at one voltage, into the place where the load is
/// drawn. For equal voltages the part of each battery is its transfer conductance to that place (reciprocity), which the
/// fault network of `calc` gives.
pub fn share_spread(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let fact = f::battery::SHARE_SPREAD;
    let members = certain(reader, battery)?;
    if members.len() < 2 {
        return no_solution(battery, fact);
    }
    let build = reader.build();
    let circuitry = build.circuitry();
    let (nodes, _) = joined(reader, battery);
    if nodes.len() > MOST_NODES {
        return no_solution(battery, fact);
    }
    let runs: Vec<usize> = (0..circuitry.runs.len())
        .filter(|run| {
            circuitry.runs.get(*run).is_some_and(|run| {
                !parted(build, run)
                    && run.nodes.iter().all(|node| node.is_some_and(|node| nodes.contains(&node)))
                    && run.nodes[0] != run.nodes[1]
            })
        })
        .collect();
    let (kept, place) = take_off(reader, battery, &members, &nodes, runs, case)?;
    let mut network = calc::Network::default();
    let mut gaps = Gaps::default();
    for run in kept.iter().filter_map(|run| circuitry.runs.get(*run)) {
        let ohms: Vec<_> = run.conductors().map(|one| reader.need(one, f::conductor::RESISTANCE, case)).collect();
        let [Some(from), Some(to)] = run.nodes.map(|node| node.and_then(number)) else { continue };
        match super::sum(ohms) {
            Ok(ohms) => network.branches.push(calc::Branch { from, to, ohms: ohms.max(JOINT), tag: 0 }),
            Err(more) => gaps.add(&more),
        }
    }
    for member in &members {
        let Some(node) = circuitry.node_of(*member, Side::Input).and_then(number) else { continue };
        match reader.need(*member, f::battery::RESISTANCE, case) {
            Ok(ohms) => network.sources.push(calc::Source { node, volts: 1.0, ohms, limit: None }),
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let Some(place) = number(place) else { return no_solution(battery, fact) };
    let shares = network.largest_fault_current(place, None).contributions;
    let currents: Vec<f64> = shares.iter().map(|part| part.1).collect();
    let all: f64 = currents.iter().sum();
    let most = currents.iter().copied().fold(0.0, f64::max);
    let least = currents.iter().copied().fold(f64::INFINITY, f64::min);
    if currents.len() != members.len() || !(least > 0.0 && all.is_finite()) {
        return no_solution(battery, fact);
    }
    for (index, current, _) in &shares {
        if let Some(member) = members.get(*index) {
            let title = build.part(*member).title.clone();
            reader.step(|| Step::of(format!("{title} gives {}", show(current / all, Dimension::RATIO))));
        }
    }
    Ok(Fact::Number(most / least))
}

fn number(node: usize) -> Option<u32> {
    u32::try_from(node).ok()
}

/// The runs that lie between the batteries of a bank, and the node among them at which the rest of the network draws the
/// most.
fn take_off(
    reader: &mut Reader<'_>,
    battery: PartId,
    members: &[PartId],
    nodes: &[usize],
    mut runs: Vec<usize>,
    case: CaseId,
) -> Outcome<(Vec<usize>, usize)> {
    let build = reader.build();
    let circuitry = build.circuitry();
    let mut drawn: FxHashMap<usize, f64> = FxHashMap::default();
    let mut gaps = Gaps::default();
    for &node in nodes {
        let mut sum = 0.0;
        for terminal in circuitry.terminals(&[node]) {
            match super::flow::taken(reader, terminal, case) {
                Some(Ok(current)) if current.is_finite() => sum += current,
                Some(Err(more)) => gaps.add(&more),
                _ => {}
            }
        }
        drawn.insert(node, sum);
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let holds_battery: FxHashSet<usize> =
        members.iter().filter_map(|member| circuitry.node_of(*member, Side::Input)).collect();
    let ends = |run: usize| circuitry.runs.get(run).map(|run| run.nodes.map(|node| node.unwrap_or(usize::MAX)));
    // Whatever hangs on by one run alone and holds no battery draws at the node that it hangs on.
    while let Some((node, run)) = nodes.iter().copied().filter(|node| !holds_battery.contains(node)).find_map(|node| {
        let mut meeting = runs.iter().copied().filter(|run| ends(*run).is_some_and(|ends| ends.contains(&node)));
        match (meeting.next(), meeting.next()) {
            (Some(run), None) => Some((node, run)),
            _ => None,
        }
    }) {
        let Some([start, finish]) = ends(run) else { break };
        let other = if start == node { finish } else { start };
        let moved = drawn.remove(&node).unwrap_or(0.0);
        *drawn.entry(other).or_insert(0.0) += moved;
        runs.retain(|kept| *kept != run);
    }
    let kept: FxHashSet<usize> = runs.iter().filter_map(|run| ends(*run)).flatten().chain(holds_battery).collect();
    let most = kept.into_iter().max_by(|one, other| {
        let of = |node: &usize| drawn.get(node).copied().unwrap_or(0.0);
        of(one).total_cmp(&of(other)).then(other.cmp(one))
    });
    match most {
        Some(node) if drawn.get(&node).copied().unwrap_or(0.0) > 0.0 => Ok((runs, node)),
        // Nothing is drawn yet: what will be is not described.
        _ => {
            Err(Gaps(vec![AnyOf(vec![Gap::Absent(Build::ROOT, kind::APPLIANCE), Gap::Absent(battery, kind::CIRCUIT)])]))
        }
    }
}

/// The batteries that the conversion fits.
pub fn fitted(reader: &mut Reader<'_>, case: CaseId) -> (Vec<PartId>, Gaps) {
    let batteries = reader.build().of_kind(kind::BATTERY);
    let mut fitted = Vec::new();
    let mut gaps = Gaps::default();
    for &battery in batteries.members.iter() {
        match is_base(reader, battery, case) {
            Ok(true) => {}
            Ok(false) => fitted.push(battery),
            Err(more) => gaps.add(&more),
        }
    }
    if !batteries.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    (fitted, gaps)
}

/// The batteries that the conversion fits, as a list.
pub fn fitted_batteries(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let (fitted, gaps) = fitted(reader, case);
    Ok(super::parts(fitted, gaps.is_empty()))
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (f::battery::BASE_VEHICLE, Each(base_vehicle)),
        (f::battery::BANK, Each(bank)),
        (f::battery::BANK_FIRST, Each(first)),
        (f::battery::BANK_CAPACITY, Each(capacity)),
        (f::battery::BANK_AGE_SPREAD, Each(age_spread)),
        (f::battery::DEVICE_BETWEEN, Each(device_between)),
        (f::battery::SHARE_SPREAD, Each(share_spread)),
        (f::build::FITTED_BATTERIES, Each(fitted_batteries)),
    ]
}
