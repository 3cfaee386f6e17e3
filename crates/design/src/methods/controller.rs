//! Controllers: what each of their contacts works, carries and does for those aboard.

use super::{fact_of, no_solution};
use crate::binding::{Bindings, Method};
use crate::circuitry::{Piece, Side};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::{Build, Reference};
use crate::reader::Reader;
use vocabulary::{PartKind, fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::operates::THING, Each(thing)),
        (f::operates::TASK, Each(task)),
        (f::operates::CARRIES_LOAD, Each(carries_load)),
        (f::operates::THING_CURRENT, Each(thing_current)),
        (f::operates::STARTING_CURRENT, Each(starting_current)),
        (f::relay::RUN, Each(super::run::of_piece)),
        (f::switch::RUN, Each(super::run::of_piece)),
    ]
}

/// What a thing of a kind does for those aboard, where the kind says it.
const TASKS: [(PartKind, &str); 5] =
    [(kind::HEATER, "heat"), (kind::LAMP, "light"), (kind::FAN, "air"), (kind::PUMP, "water"), (kind::COOKER, "heat")];

/// The word for what does nothing that those aboard depend on.
const OTHER: &str = "other";

/// The thing that a contact works.
fn named(reader: &Reader<'_>, operates: PartId) -> Outcome<PartId> {
    match reader.build().references.get(&(operates, f::operates::THING)) {
        Some(Reference::To(thing)) => Ok(*thing),
        _ => Err(Gaps::one(Gap::Unread(operates))),
    }
}

fn thing(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    named(reader, part).map(Fact::Part)
}

fn task(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if !reader.silent(part, f::operates::WORKS) {
        return reader.fact(part, f::operates::WORKS, case);
    }
    let kind = reader.build().part(named(reader, part)?).kind;
    let word = TASKS.iter().find(|(known, _)| *known == kind).map_or(OTHER, |(_, word)| *word);
    let words = vocabulary::fact_spec(f::operates::TASK).choices();
    match words.iter().position(|known| *known == word).and_then(|index| u16::try_from(index).ok()) {
        Some(index) => Ok(Fact::Choice(index)),
        None => no_solution(part, f::operates::TASK),
    }
}

/// Whether no relay that a controller works stands in a run that leads to the thing.
fn carries_load(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let thing = named(reader, part)?;
    let circuitry = reader.build().circuitry();
    let runs = circuitry.node_of(thing, Side::Input).and_then(|node| circuitry.meeting.get(node));
    // A circuit of which it is not known where it leads may hold the relay.
    let mut gaps = super::doubt::of_unreached(reader);
    for run in runs.into_iter().flatten().filter_map(|run| circuitry.runs.get(*run)) {
        if !run.complete {
            gaps.add(&Gaps::one(Gap::Unread(run.written)));
        }
        for piece in &run.pieces {
            let Piece::Switch(switch) = piece else { continue };
            if reader.build().part(*switch).kind != kind::RELAY {
                continue;
            }
            match reader.need_word(*switch, f::relay::WORKED_BY, case) {
                Ok("controller") => return Ok(Fact::Flag(false)),
                Ok(_) => {}
                Err(more) => gaps.add(&more),
            }
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(true)) } else { Err(gaps) }
}

fn thing_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let thing = named(reader, part)?;
    match fact_of(reader.build(), thing, "load-current") {
        Some(fact) => reader.fact(thing, fact, case),
        None => no_solution(part, f::operates::THING_CURRENT),
    }
}

fn starting_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let thing = named(reader, part)?;
    Ok(Fact::Number(of_start(reader, thing, case)?))
}

/// The current that a thing takes while it starts, A: as said; of what is no motor, what it takes anyway.
pub fn of_start(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<f64> {
    let build = reader.build();
    let (Some(surge), Some(load)) = (fact_of(build, thing, "surge"), fact_of(build, thing, "load-current")) else {
        return match fact_of(build, thing, "load-current") {
            Some(load) => reader.need(thing, load, case),
            None => no_solution(thing, f::operates::STARTING_CURRENT),
        };
    };
    let steady = reader.need(thing, load, case);
    if !reader.silent(thing, surge) {
        let (surge, steady) = super::battery::both(reader.need(thing, surge, case), steady)?;
        return Ok(surge.max(steady));
    }
    if is_motor(reader, build, thing, case)? { Err(Gaps::one(Gap::Entry(thing, surge))) } else { steady }
}

/// Whether a thing is a motor: as said, else only a pump is certain to be one.
fn is_motor(reader: &mut Reader<'_>, build: &Build, thing: PartId, case: CaseId) -> Outcome<bool> {
    match fact_of(build, thing, "motor") {
        Some(motor) if !reader.silent(thing, motor) => reader.need_flag(thing, motor, case),
        _ => Ok(build.part(thing).kind == kind::PUMP),
    }
}
