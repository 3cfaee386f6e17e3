//! The order of a gas line: what stands before and behind each piece, and what the line as a whole takes.

use super::super::{all, parts, sum};
use super::appliances;
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::gas::Gas;
use quantity::Dimension;
use vocabulary::{fact as f, fact::gas_line as l, kind};

/// The pieces before a piece, nearest first: those of its own branch, then those of the line before the branch.
pub fn before(build: &Build, piece: PartId) -> Vec<PartId> {
    let mut found = Vec::new();
    let mut at = piece;
    while let Some(outer) = build.part(at).outer {
        let inside = &build.part(outer).inside;
        let place = inside.iter().position(|own| *own == at).unwrap_or(0);
        found.extend(inside.iter().take(place).rev().filter(|own| build.part(**own).kind != kind::BRANCH));
        if build.part(outer).kind != kind::BRANCH {
            break;
        }
        at = outer;
    }
    found
}

/// What a part feeds from its n-th piece on, branches included. The reader bounds how deep branches go.
fn fed_from(build: &Build, outer: PartId, first: usize, found: &mut Vec<PartId>) {
    for &piece in build.part(outer).inside.iter().skip(first) {
        match build.part(piece).kind {
            kind::FEEDS => found.push(piece),
            kind::BRANCH => fed_from(build, piece, 0, found),
            _ => {}
        }
    }
}

/// What stands behind a piece in its line.
pub fn fed_behind(build: &Build, piece: PartId) -> Vec<PartId> {
    let mut found = Vec::new();
    if let Some(outer) = build.part(piece).outer {
        let place = build.part(outer).inside.iter().position(|own| *own == piece).unwrap_or(0);
        fed_from(build, outer, place, &mut found);
    }
    found
}

/// The line that a piece stands in.
pub fn of_piece(build: &Build, piece: PartId) -> Option<PartId> {
    let mut at = piece;
    while let Some(outer) = build.part(at).outer {
        match build.part(outer).kind {
            kind::BRANCH => at = outer,
            kind::GAS_LINE => return Some(outer),
            _ => return None,
        }
    }
    None
}

/// What of a line could not be read, so that its order is not known.
pub fn unread(build: &Build, line: PartId) -> Gaps {
    let mut gaps = Gaps::default();
    let mut open = vec![line];
    while let Some(part) = open.pop() {
        let own = build.part(part);
        if own.leaves_open() {
            gaps.add(&Gaps::one(Gap::Unread(part)));
        }
        open.extend(&own.inside);
    }
    gaps
}

/// Nothing, where the whole line could be read.
pub fn whole(build: &Build, piece: PartId) -> Outcome<()> {
    let gaps = match build.part(piece).kind {
        kind::GAS_LINE => unread(build, piece),
        _ => of_piece(build, piece).map_or_else(Gaps::default, |line| unread(build, line)),
    };
    if gaps.is_empty() { Ok(()) } else { Err(gaps) }
}

/// Everything that a line feeds.
pub fn fed(build: &Build, line: PartId) -> Vec<PartId> {
    let mut found = Vec::new();
    fed_from(build, line, 0, &mut found);
    found
}

fn fed_parts(reader: &mut Reader<'_>, line: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    Ok(parts(fed(build, line), unread(build, line).is_empty()))
}

/// The gross heat of some of what a line feeds, W.
pub fn load(reader: &mut Reader<'_>, fed: &[PartId], case: CaseId) -> Outcome<f64> {
    let loads: Vec<_> = fed.iter().map(|own| reader.need(*own, f::feeds::GAS_LOAD, case)).collect();
    sum(loads)
}

fn connected_load(reader: &mut Reader<'_>, line: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    whole(build, line)?;
    for own in fed(build, line) {
        if let Ok(watts) = reader.need(own, f::feeds::GAS_LOAD, case) {
            let title = build.part(own).name.clone().unwrap_or_default();
            reader.step(|| Step::of(format!("{title}: {}", super::super::show(watts, Dimension::POWER))));
        }
    }
    Ok(Fact::Number(load(reader, &fed(build, line), case)?))
}

/// The gas in a line: of its cylinder; a tank's and a mixture count as propane, whose heating value is within 2 %.
pub fn gas_of(reader: &mut Reader<'_>, line: PartId, case: CaseId) -> Outcome<Gas> {
    let Fact::Part(from) = reader.fact(line, l::FROM, case)? else {
        return super::super::no_solution(line, l::FROM);
    };
    if reader.build().part(from).kind != kind::CYLINDER {
        return Ok(Gas::Propane);
    }
    Ok(if reader.need_word(from, f::cylinder::GAS, case)? == "butane" { Gas::Butane } else { Gas::Propane })
}

/// The gas that some heat takes, kg/s, with its step.
pub fn flow_of(reader: &mut Reader<'_>, line: PartId, watts: f64, case: CaseId) -> Outcome {
    let gas = gas_of(reader, line, case)?;
    match calc::gas::gas_flow(gas, watts) {
        Some(flow) => {
            reader.step(|| {
                let text = format!(
                    "{} of gross heat ÷ {:.2} MJ/kg = {}",
                    super::super::show(watts, Dimension::POWER),
                    calc::gas::gross_heat(gas) / 1e6,
                    super::super::show(flow, Dimension::MASS_FLOW)
                );
                Step::cited(text, &calc::gas::GROSS_HEAT)
            });
            Ok(Fact::Number(flow))
        }
        None => super::super::no_solution(line, l::GAS_FLOW),
    }
}

fn gas_flow(reader: &mut Reader<'_>, line: PartId, case: CaseId) -> Outcome {
    let watts = reader.need(line, l::CONNECTED_LOAD, case)?;
    flow_of(reader, line, watts, case)
}

/// Whether a regulator stands before everything that the line feeds.
fn regulated(reader: &mut Reader<'_>, line: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    whole(build, line)?;
    let has = |own: &PartId| before(build, *own).iter().any(|piece| build.part(*piece).kind == kind::REGULATOR);
    Ok(Fact::Flag(fed(build, line).iter().all(has)))
}

fn test_recorded(reader: &mut Reader<'_>, line: PartId, _: CaseId) -> Outcome {
    super::super::is_said(reader, line, l::TESTED).map(Fact::Flag)
}

/// The pieces with a length between the regulator and a piece, nearest first.
pub fn sections(build: &Build, own: PartId) -> Vec<PartId> {
    before(build, own)
        .into_iter()
        .take_while(|piece| build.part(*piece).kind != kind::REGULATOR)
        .filter(|piece| matches!(build.part(*piece).kind, kind::PIPE | kind::HOSE))
        .collect()
}

/// The length of a hose or pipe, m.
pub fn length(reader: &mut Reader<'_>, section: PartId, case: CaseId) -> Outcome<f64> {
    match super::super::fact_of(reader.build(), section, "one-way") {
        Some(fact) => reader.need(section, fact, case),
        None => Err(Gaps::one(Gap::Unread(section))),
    }
}

fn longest(reader: &mut Reader<'_>, line: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    whole(build, line)?;
    let mut most = 0.0_f64;
    for own in fed(build, line) {
        let lengths: Vec<_> = sections(build, own).into_iter().map(|section| length(reader, section, case)).collect();
        most = most.max(sum(lengths)?);
    }
    Ok(Fact::Number(most))
}

/// Whether a regulator of the line stops the gas in a crash.
pub fn stops_in_crash(reader: &mut Reader<'_>, line: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let mut open = vec![line];
    let mut gaps = unread(build, line);
    while let Some(part) = open.pop() {
        if build.part(part).kind == kind::REGULATOR {
            match reader.need_flag(part, f::regulator::CRASH_STOP, case) {
                Ok(true) => return Ok(Fact::Flag(true)),
                Ok(false) => {}
                Err(more) => gaps.add(&more),
            }
        }
        open.extend(&build.part(part).inside);
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// How the line is tested, in words, by the texts of the build's regions.
fn tightness_test(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let regions = super::super::regions(reader, case)?;
    let mut words = Vec::new();
    for region in regions.words() {
        for test in calc::gas::tightness_tests(region) {
            let text = format!(
                "air at {}, {}{} for {}",
                super::super::show(test.pressure, Dimension::PRESSURE),
                if test.rest > 0.0 {
                    format!("{} of rest, ", super::super::show(test.rest, Dimension::TIME))
                } else {
                    String::new()
                },
                if test.largest_loss > 0.0 {
                    format!("at most {} lost", super::super::show(test.largest_loss, Dimension::PRESSURE))
                } else {
                    "nothing lost".to_owned()
                },
                super::super::show(test.duration, Dimension::TIME),
            );
            reader.step(|| Step::cited(format!("{region}: {text}"), &test.citation));
            if !words.contains(&text) {
                words.push(text);
            }
        }
    }
    let text =
        if words.is_empty() { "as the local code says (no text of it was read)".to_owned() } else { words.join("; ") };
    Ok(Fact::Text(text.into()))
}

/// Every gas line from a cylinder or tank, and what could not be read.
pub fn lines_from(reader: &mut Reader<'_>, supply: PartId, case: CaseId) -> (Vec<PartId>, Gaps) {
    let lines = reader.build().of_kind(kind::GAS_LINE);
    let mut found = Vec::new();
    let mut gaps = Gaps::default();
    if !lines.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    for &line in lines.members.iter() {
        let joined = !reader.silent(line, l::ALSO_FROM)
            && matches!(reader.fact(line, l::ALSO_FROM, case), Ok(Fact::Part(own)) if own == supply);
        match reader.fact(line, l::FROM, case) {
            Ok(Fact::Part(own)) if own == supply || joined => found.push(line),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    (found, gaps)
}

/// What burns gas and is fed by no line.
fn unpiped(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let feeds = build.of_kind(kind::FEEDS);
    let named: Vec<Option<PartId>> = feeds.members.iter().map(|own| appliances::named(build, *own)).collect();
    let understood = named.iter().all(Option::is_some);
    let fed: Vec<PartId> = named.into_iter().flatten().collect();
    let (burning, gaps) = appliances::burning_gas(reader, case);
    let left = burning.into_iter().filter(|own| !fed.contains(own));
    if understood && feeds.complete && build.of_kind(kind::GAS_LINE).complete {
        Ok(parts(left, gaps.is_empty()))
    } else if left.count() == 0 && gaps.is_empty() {
        Ok(all([]))
    } else {
        // A line that could not be read may feed any of them.
        Ok(parts([], false))
    }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (l::FED, Each(fed_parts)),
        (l::CONNECTED_LOAD, Each(connected_load)),
        (l::GAS_FLOW, Each(gas_flow)),
        (l::REGULATED, Each(regulated)),
        (l::LONGEST, Each(longest)),
        (l::STOPS_IN_CRASH, Each(stops_in_crash)),
        (l::TIGHTNESS_TEST, Each(tightness_test)),
        (l::TEST_RECORDED, Each(test_recorded)),
        (f::build::UNPIPED, Each(unpiped)),
    ]
}
