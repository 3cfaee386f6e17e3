//! Busbars and panels: the current that the devices around them let pass along them, and the bond to the vehicle's metal.

use super::run_end::open_end;
use super::{amperes, doubt, fact_of, no_solution};
use crate::binding::{Bindings, Method};
use crate::circuitry::{End, Run, Side};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::busbar::LIVE, Each(live)),
        (f::busbar::MAY_CARRY_KNOWN, Each(may_carry_known)),
        (f::busbar::MAY_CARRY, Each(may_carry)),
        (f::panel::MAY_CARRY_KNOWN, Each(may_carry_known)),
        (f::panel::MAY_CARRY, Each(may_carry)),
        (f::busbar::BONDED, Each(bonded)),
        (f::busbar::STUDS_COUNTED, Each(studs_counted)),
        (f::busbar::JOINT_SAID, Each(joint_said)),
        (f::busbar::CHASSIS_LEADS, Each(chassis_leads)),
        (f::busbar::LARGEST_CHASSIS_LEAD, Each(largest_chassis_lead)),
    ]
}

/// What a run at a bar brings to it and takes from it.
struct Branch {
    /// What the sources behind it can drive to the bar for long, A.
    brings: f64,
    /// What its own devices let away from the bar, A.
    takes: f64,
    /// Whether a battery stands behind it.
    store: bool,
    /// Whether a source that is no battery stands behind it.
    source: bool,
    /// Whether something that takes current stands behind it.
    load: bool,
}

/// A run seen from a bar.
fn branch(reader: &mut Reader<'_>, index: usize, run: &Run, far: End, case: CaseId) -> Outcome<Branch> {
    let own: Vec<_> = run.devices().map(|device| reader.need(device, f::device::RATING, case)).collect();
    let own = super::least(own)?.unwrap_or(f64::INFINITY);
    let end = run.ends[usize::from(far == End::Finish)];
    let fed = reader.need_flag(end, f::run_end::FED, case)?;
    let brings = if !fed {
        0.0
    } else if reader.need_flag(end, f::run_end::LIMITED_UPSTREAM, case)? {
        own.min(reader.need(end, f::run_end::UPSTREAM_RATING, case)?)
    } else {
        own
    };
    let build = reader.build();
    let kinds: Vec<_> =
        build.circuitry().sources_behind(index, far).map(|(_, source)| build.part(source.thing).kind).collect();
    let nodes = build.circuitry().behind(index, far);
    let things: Vec<_> = build.circuitry().terminals(&nodes).collect();
    let load = things.into_iter().any(|terminal| super::flow::taken(reader, terminal, case).is_some());
    Ok(Branch {
        brings,
        takes: own,
        store: kinds.contains(&kind::BATTERY),
        source: kinds.iter().any(|kind| *kind != kind::BATTERY),
        load,
    })
}

/// The largest current that the devices around a bar let pass along it for long, A; infinite where nothing limits it. What
/// flows in flows out again: batteries feed loads, sources charge batteries, or one battery feeds the others.
fn along(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<f64> {
    let circuitry = reader.build().circuitry();
    let Some(node) = circuitry.node_of(part, Side::Input) else { return Ok(0.0) };
    let mut gaps = doubt::of_anything(reader, node);
    let mut branches = Vec::new();
    for &index in circuitry.meeting.get(node).into_iter().flatten() {
        let Some(run) = circuitry.runs.get(index) else { continue };
        let far = if run.nodes[0] == Some(node) { End::Finish } else { End::Start };
        gaps.add(&open_end(reader, run, far).unwrap_or_default());
        if !run.complete {
            gaps.add(&Gaps::one(Gap::Unread(run.written)));
        }
        match branch(reader, index, run, far, case) {
            Ok(branch) => branches.push(branch),
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let passes = |into: &dyn Fn(usize, &Branch) -> bool| {
        let (mut brought, mut taken) = (0.0, 0.0);
        for (number, branch) in branches.iter().enumerate() {
            if into(number, branch) {
                brought += branch.brings;
            } else {
                taken += branch.takes;
            }
        }
        f64::min(brought, taken)
    };
    let only_gives = |branch: &Branch| branch.source && !branch.load;
    let mut most = passes(&|_, branch| branch.store || only_gives(branch));
    most = most.max(passes(&|_, branch| branch.source && !branch.store));
    for store in (0..branches.len()).filter(|number| branches.get(*number).is_some_and(|branch| branch.store)) {
        most = most.max(passes(&|number, branch| number == store || (only_gives(branch) && !branch.store)));
        most = most.max(passes(&|number, branch| number == store || (branch.source && !branch.store)));
    }
    Ok(most)
}

fn may_carry_known(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let most = along(reader, part, case)?;
    Ok(Fact::Flag(most.is_finite() && most > 0.0))
}

fn may_carry(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let most = along(reader, part, case)?;
    if most.is_infinite() {
        return no_solution(part, f::busbar::MAY_CARRY);
    }
    reader.step(|| Step::of(format!("the devices around it let {} pass along it", amperes(most))));
    Ok(Fact::Number(most))
}

/// Whether a run joins a busbar to a source.
fn live(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let circuitry = reader.build().circuitry();
    let Some(node) = circuitry.node_of(part, Side::Input) else {
        let gaps = doubt::of_unreached(reader);
        return if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) };
    };
    if circuitry.sources_joined(&[Some(node)]).next().is_some() {
        return Ok(Fact::Flag(true));
    }
    let gaps = doubt::of_sources(reader, node);
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// The conductors that come back by the vehicle's metal, the starter's cables left out.
fn by_chassis(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<PartId>> {
    let build = reader.build();
    let mut found = Vec::new();
    let mut gaps = Gaps::default();
    for run in build.circuitry().runs.iter().filter(|run| !run.alternating) {
        match reader.need_word(run.part, f::run::PURPOSE, case) {
            Ok("starting") => continue,
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
        if !run.complete {
            gaps.add(&Gaps::one(Gap::Unread(run.written)));
        }
        for conductor in run.conductors() {
            let written = build.circuitry().written(conductor);
            let Some(fact) = fact_of(build, written, "return").filter(|fact| !reader.silent(written, *fact)) else {
                continue;
            };
            match reader.need_word(written, fact, case) {
                Ok("chassis") => found.push(conductor),
                Ok(_) => {}
                Err(more) => gaps.add(&more),
            }
        }
    }
    if !super::complete(reader, &[kind::CIRCUIT, kind::WIRE, kind::WAY, kind::PANEL]) {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(crate::part::Build::ROOT))));
    }
    if gaps.is_empty() { Ok(found) } else { Err(gaps) }
}

fn chassis_leads(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(!by_chassis(reader, case)?.is_empty()))
}

/// The largest conductor that comes back by the vehicle's metal, m².
fn largest_chassis_lead(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let mut largest: Option<f64> = None;
    let mut gaps = Gaps::default();
    for conductor in by_chassis(reader, case)? {
        match reader.need(conductor, f::conductor::AREA, case) {
            Ok(area) => largest = Some(largest.map_or(area, |largest: f64| largest.max(area))),
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    largest.map_or_else(|| no_solution(part, f::busbar::LARGEST_CHASSIS_LEAD), |largest| Ok(Fact::Number(largest)))
}

fn studs_counted(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(super::is_said(reader, part, f::busbar::LARGEST_ON_STUD)?))
}

fn joint_said(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(super::is_said(reader, part, f::busbar::JOINT)?))
}

/// Whether a bar is said to be joined to the vehicle's metal: by the bond's size or by what it goes to.
fn bonded(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(super::is_said(reader, part, f::busbar::BOND)? || super::is_said(reader, part, f::busbar::TO)?))
}
