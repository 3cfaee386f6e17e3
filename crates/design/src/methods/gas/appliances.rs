//! What burns gas: how much it takes, and at which pressure.

use super::super::{fact_of, no_solution, show};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::{Build, Reference};
use crate::reader::{Reader, either};
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{PartKind, fact as f, kind};

/// The kinds that may burn gas.
pub const BURNERS: [PartKind; 4] = [kind::HEATER, kind::COOKER, kind::GENERATOR, kind::ABSORPTION_FRIDGE];

/// The appliance behind `feeds`.
pub fn named(build: &Build, feeds: PartId) -> Option<PartId> {
    match build.references.get(&(feeds, f::feeds::THING)) {
        Some(Reference::To(thing)) => Some(*thing),
        _ => None,
    }
}

fn need_named(reader: &Reader<'_>, feeds: PartId) -> Outcome<PartId> {
    named(reader.build(), feeds).ok_or_else(|| Gaps::one(Gap::Unread(feeds)))
}

fn thing(reader: &mut Reader<'_>, feeds: PartId, _: CaseId) -> Outcome {
    need_named(reader, feeds).map(Fact::Part)
}

/// The fuel of a part in its word.
pub fn fuel(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<&'static str> {
    match fact_of(reader.build(), part, "fuel") {
        Some(fact) => reader.need_word(part, fact, case),
        None => Ok("none"),
    }
}

/// Everything that burns gas, and what would settle of the rest whether it does.
pub fn burning_gas(reader: &mut Reader<'_>, case: CaseId) -> (Vec<PartId>, Gaps) {
    let build = reader.build();
    let mut found = Vec::new();
    let mut gaps = Gaps::default();
    for kind in BURNERS {
        let list = build.of_kind(kind);
        if !list.complete {
            gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
        }
        for &part in list.members.iter() {
            match fuel(reader, part, case) {
                Ok("gas") => found.push(part),
                Ok(_) => {}
                Err(more) => gaps.add(&more),
            }
        }
    }
    found.sort_unstable();
    (found, gaps)
}

/// Whether anything burns gas.
fn burns_gas(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = burning_gas(reader, case);
    match (found.is_empty(), gaps.is_empty()) {
        (false, _) => Ok(Fact::Flag(true)),
        (true, true) => Ok(Fact::Flag(false)),
        (true, false) => Err(gaps),
    }
}

/// The gross heat that an appliance takes, W: as said; of a cooker its output, of a heater its output over the usual
/// efficiency.
pub fn input(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<f64> {
    let build = reader.build();
    let Some(input) = fact_of(build, part, "input") else { return Err(Gaps::one(Gap::Unread(part))) };
    if !reader.silent(part, input) {
        return reader.need(part, input, case);
    }
    let Some(output) = fact_of(build, part, "output").filter(|_| build.part(part).kind != kind::GENERATOR) else {
        return reader.need(part, input, case);
    };
    if reader.silent(part, output) {
        return Err(either((part, input), (part, output)));
    }
    let watts = reader.need(part, output, case)?;
    if build.part(part).kind == kind::COOKER {
        return Ok(watts);
    }
    let Some(taken) = calc::gas::input_from_output(watts, calc::gas::ROUGH_EFFICIENCY) else {
        return no_solution(part, input);
    };
    let title = build.part(part).title.clone();
    reader.step(|| Step {
        assumed: true,
        ..Step::cited(
            format!(
                "{title}: {} given ÷ {:.0} % = {} taken",
                show(watts, Dimension::POWER),
                calc::gas::ROUGH_EFFICIENCY * 100.0,
                show(taken, Dimension::POWER)
            ),
            &calc::gas::APPLIANCE_EFFICIENCY,
        )
    });
    Ok(taken)
}

fn gas_load(reader: &mut Reader<'_>, feeds: PartId, case: CaseId) -> Outcome {
    let thing = need_named(reader, feeds)?;
    if !BURNERS.contains(&reader.build().part(thing).kind) {
        return no_solution(feeds, f::feeds::GAS_LOAD);
    }
    Ok(Fact::Number(input(reader, thing, case)?))
}

fn rated_pressure(reader: &mut Reader<'_>, feeds: PartId, case: CaseId) -> Outcome {
    let thing = need_named(reader, feeds)?;
    match fact_of(reader.build(), thing, "pressure") {
        Some(fact) => Ok(Fact::Number(reader.need(thing, fact, case)?)),
        None => no_solution(feeds, f::feeds::RATED_PRESSURE),
    }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::feeds::THING, Each(thing)),
        (f::feeds::GAS_LOAD, Each(gas_load)),
        (f::feeds::RATED_PRESSURE, Each(rated_pressure)),
        (f::build::BURNS_GAS, Each(burns_gas)),
    ]
}
