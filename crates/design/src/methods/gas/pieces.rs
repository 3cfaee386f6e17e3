//! The pieces of a gas line: what each carries, loses and stands.

use super::super::battery::both;
use super::super::{no_solution, show};
use super::line::{before, fed_behind, flow_of, load, of_piece, sections, whole};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{FactId, PartKind, fact as f, kind};

/// The nearest piece of a kind before another.
fn nearest(reader: &Reader<'_>, piece: PartId, kind: PartKind) -> Outcome<Option<PartId>> {
    let build = reader.build();
    whole(build, piece)?;
    Ok(before(build, piece).into_iter().find(|own| build.part(*own).kind == kind))
}

fn has_valve(reader: &mut Reader<'_>, feeds: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(nearest(reader, feeds, kind::VALVE)?.is_some()))
}

fn has_regulator(reader: &mut Reader<'_>, feeds: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(nearest(reader, feeds, kind::REGULATOR)?.is_some()))
}

fn valve_reach(reader: &mut Reader<'_>, feeds: PartId, case: CaseId) -> Outcome {
    match nearest(reader, feeds, kind::VALVE)? {
        Some(valve) => Ok(Fact::Number(reader.need(valve, f::valve::REACH, case)?)),
        None => no_solution(feeds, f::feeds::VALVE_REACH),
    }
}

fn supply_pressure(reader: &mut Reader<'_>, feeds: PartId, case: CaseId) -> Outcome {
    match nearest(reader, feeds, kind::REGULATOR)? {
        Some(regulator) => Ok(Fact::Number(reader.need(regulator, f::regulator::PRESSURE, case)?)),
        None => no_solution(feeds, f::feeds::SUPPLY_PRESSURE),
    }
}

fn pressure_ratio(reader: &mut Reader<'_>, feeds: PartId, case: CaseId) -> Outcome {
    let supply = reader.need(feeds, f::feeds::SUPPLY_PRESSURE, case);
    let rated = reader.need(feeds, f::feeds::RATED_PRESSURE, case);
    let (supply, rated) = both(supply, rated)?;
    if rated > 0.0 { Ok(Fact::Number(supply / rated)) } else { no_solution(feeds, f::feeds::PRESSURE_RATIO) }
}

/// The inside diameter of a hose or pipe, m.
fn inside(reader: &mut Reader<'_>, section: PartId, case: CaseId) -> Outcome<f64> {
    if reader.build().part(section).kind == kind::HOSE {
        return reader.need(section, f::hose::BORE, case);
    }
    let size = reader.need(section, f::pipe::SIZE, case);
    let wall = reader.need(section, f::pipe::WALL, case);
    let (size, wall) = both(size, wall)?;
    let inside = size - 2.0 * wall;
    if inside > 0.0 { Ok(inside) } else { no_solution(section, f::pipe::GAS_CAPACITY) }
}

/// What hoses and pipes lose on the way, each with the load of everything behind it.
fn pressure_lost(reader: &mut Reader<'_>, feeds: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    whole(build, feeds)?;
    let mut lost = Vec::new();
    for section in sections(build, feeds) {
        let watts = load(reader, &fed_behind(build, section), case);
        let length = super::line::length(reader, section, case);
        let inside = inside(reader, section, case);
        let found = both(watts, length).and_then(|(watts, length)| Ok((watts, length, inside?)));
        let loss = match found {
            Ok((watts, length, inside)) => match calc::gas::pipe_pressure_drop(inside, length, watts) {
                Some(loss) => {
                    let title = build.part(section).title.clone();
                    reader.step(|| {
                        let text = format!(
                            "{title}: {} through {} inside over {} loses {}",
                            show(watts, Dimension::POWER),
                            show(inside, Dimension::LENGTH),
                            show(length, Dimension::LENGTH),
                            show(loss, Dimension::PRESSURE)
                        );
                        Step::cited(text, &calc::gas::PIPE_FORMULA)
                    });
                    Ok(loss)
                }
                None => no_solution(feeds, f::feeds::PRESSURE_LOST),
            },
            Err(gaps) => Err(gaps),
        };
        lost.push(loss);
    }
    Ok(Fact::Number(super::super::sum(lost)?))
}

fn carries_gas(reader: &mut Reader<'_>, pipe: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(of_piece(reader.build(), pipe).is_some()))
}

fn gas_load(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    whole(build, pipe)?;
    Ok(Fact::Number(load(reader, &fed_behind(build, pipe), case)?))
}

fn gas_capacity(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome {
    let Some(line) = of_piece(reader.build(), pipe) else { return no_solution(pipe, f::pipe::GAS_CAPACITY) };
    let (inside, longest) = both(inside(reader, pipe, case), reader.need(line, f::gas_line::LONGEST, case))?;
    let Some((watts, citation)) = calc::gas::table_or_formula_capacity(inside, longest) else {
        return no_solution(pipe, f::pipe::GAS_CAPACITY);
    };
    reader.step(|| {
        let text = format!(
            "{} inside over {}, the way to the farthest appliance: {}",
            show(inside, Dimension::LENGTH),
            show(longest, Dimension::LENGTH),
            show(watts, Dimension::POWER)
        );
        Step::cited(text, citation)
    });
    Ok(Fact::Number(watts))
}

/// The material of a pipe by its word.
fn material(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome<calc::gas::PipeMaterial> {
    let Fact::Text(word) = reader.fact(pipe, f::pipe::MATERIAL, case)? else {
        return Err(Gaps::one(Gap::Entry(pipe, f::pipe::MATERIAL)));
    };
    calc::gas::pipe_material(&word).ok_or_else(|| Gaps::one(Gap::Entry(pipe, f::pipe::MATERIAL)))
}

fn stands_fire(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(material(reader, pipe, case)?.carries_gas()))
}

fn is_copper(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(material(reader, pipe, case)? == calc::gas::PipeMaterial::Copper))
}

fn wall_share(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome {
    let size = reader.need(pipe, f::pipe::SIZE, case);
    let wall = reader.need(pipe, f::pipe::WALL, case);
    let (size, wall) = both(size, wall)?;
    if size > 0.0 { Ok(Fact::Number(wall / size)) } else { no_solution(pipe, f::pipe::WALL_SHARE) }
}

fn regulator_flow(reader: &mut Reader<'_>, regulator: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    whole(build, regulator)?;
    let Some(line) = of_piece(build, regulator) else { return no_solution(regulator, f::regulator::GAS_FLOW) };
    let watts = load(reader, &fed_behind(build, regulator), case)?;
    flow_of(reader, line, watts, case)
}

/// Whether the newest revision of the design is later than a date on a part.
pub fn past(reader: &mut Reader<'_>, part: PartId, date: FactId, case: CaseId) -> Outcome {
    let on_label = reader.fact(part, date, case)?;
    match on_label {
        // Dates are written year first, so that their order is that of their text.
        Fact::Text(on_label) => Ok(Fact::Flag(newest_revision(reader, case)? > on_label)),
        _ => no_solution(part, date),
    }
}

/// The date of the newest revision of the design, year first.
pub fn newest_revision(reader: &mut Reader<'_>, case: CaseId) -> Outcome<std::sync::Arc<str>> {
    let build = reader.build();
    let revisions = build.inside(crate::part::Build::ROOT, kind::REVISION);
    if !revisions.complete {
        return Err(Gaps::one(Gap::Unread(crate::part::Build::ROOT)));
    }
    let mut newest = None;
    let mut gaps = Gaps::default();
    for &revision in revisions.members.iter() {
        match reader.fact(revision, f::revision::DATE, case) {
            Ok(Fact::Text(own)) => newest = newest.max(Some(own)),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    newest.ok_or_else(|| Gaps::one(Gap::Absent(crate::part::Build::ROOT, kind::REVISION)))
}

fn hose_past_its_date(reader: &mut Reader<'_>, hose: PartId, case: CaseId) -> Outcome {
    past(reader, hose, f::hose::REPLACE_BY, case)
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::feeds::HAS_REGULATOR, Each(has_regulator)),
        (f::feeds::HAS_VALVE, Each(has_valve)),
        (f::feeds::VALVE_REACH, Each(valve_reach)),
        (f::feeds::SUPPLY_PRESSURE, Each(supply_pressure)),
        (f::feeds::PRESSURE_RATIO, Each(pressure_ratio)),
        (f::feeds::PRESSURE_LOST, Each(pressure_lost)),
        (f::pipe::CARRIES_GAS, Each(carries_gas)),
        (f::pipe::STANDS_FIRE, Each(stands_fire)),
        (f::pipe::IS_COPPER, Each(is_copper)),
        (f::pipe::GAS_LOAD, Each(gas_load)),
        (f::pipe::GAS_CAPACITY, Each(gas_capacity)),
        (f::pipe::WALL_SHARE, Each(wall_share)),
        (f::regulator::GAS_FLOW, Each(regulator_flow)),
        (f::hose::PAST_ITS_DATE, Each(hose_past_its_date)),
    ]
}
