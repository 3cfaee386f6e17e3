//! Facts of a run as a whole.

use super::{least, no_solution, parts, volts};
use crate::circuitry::Run;
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{FactId, fact as f, kind};

/// The run that a worked part belongs to.
pub fn run<'a>(reader: &Reader<'a>, part: PartId, fact: FactId) -> Outcome<&'a Run> {
    match reader.build().circuitry().run(part) {
        Some(run) => Ok(run),
        None => no_solution(part, fact),
    }
}

/// The number of the run that a worked part belongs to.
pub fn number(reader: &Reader<'_>, part: PartId) -> usize {
    reader.build().circuitry().run_of.get(&part).copied().unwrap_or(usize::MAX)
}

/// The run of a piece or an end.
pub fn of_piece(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Part(run(reader, part, f::run_end::RUN)?.part))
}

/// Its title.
pub fn title(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Text(reader.build().part(part).title.clone()))
}

/// Direct or alternating current.
pub fn current_kind(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Choice(u16::from(run(reader, part, f::run::CURRENT_KIND)?.alternating)))
}

/// What it is for.
pub fn purpose(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::run::PURPOSE)?;
    if reader.build().part(run.written).kind == kind::CIRCUIT {
        return reader.fact(run.written, f::circuit::PURPOSE, case);
    }
    Ok(Fact::Choice(0))
}

/// Its two ends.
pub fn ends(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(super::all(run(reader, part, f::run::ENDS)?.ends))
}

/// Its conductors.
pub fn conductors(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let run = run(reader, part, f::run::CONDUCTORS)?;
    Ok(parts(run.conductors(), run.complete))
}

/// Its protective devices.
pub fn devices(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let run = run(reader, part, f::run::DEVICES)?;
    Ok(parts(run.devices(), run.complete))
}

/// The ampacity of its weakest conductor, A.
pub fn ampacity(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::run::AMPACITY)?;
    if !run.complete {
        return Err(Gaps::one(Gap::Unread(run.written)));
    }
    let values: Vec<_> =
        run.conductors().map(|conductor| reader.need(conductor, f::conductor::AMPACITY, case)).collect();
    let weakest = least(values)?;
    match weakest {
        Some(weakest) => {
            reader.step(|| Step::of(format!("the least of its conductors: {}", super::amperes(weakest))));
            Ok(Fact::Number(weakest))
        }
        None => Err(Gaps::one(Gap::Absent(run.written, kind::WIRE))),
    }
}

/// The highest voltage on it, V: full charge of every battery and charger that it is joined to.
pub fn highest_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::run::HIGHEST_VOLTAGE)?;
    let mut highest: Option<f64> = None;
    let mut gaps = Gaps::default();
    for node in run.nodes.into_iter().flatten() {
        gaps.add(&super::doubt::of_sources(reader, node));
    }
    for terminal in reader.build().circuitry().sources_joined(&run.nodes) {
        let thing = reader.build().part(terminal.thing);
        let Some(voltage) = super::source::highest_voltage(reader, terminal, case) else { continue };
        match voltage {
            Ok(voltage) => {
                reader.step(|| Step::of(format!("{} up to {}", thing.title, volts(voltage))));
                highest = Some(highest.map_or(voltage, |so_far: f64| so_far.max(voltage)));
            }
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    highest.map_or_else(
        || Err(Gaps::one(Gap::Absent(crate::part::Build::ROOT, kind::BATTERY))),
        |highest| Ok(Fact::Number(highest)),
    )
}
