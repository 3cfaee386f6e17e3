//! Cylinders: what they give in the cold, where they stand, and whether a crash shuts them off.

use super::super::{brief, no_solution, show};
use super::line::lines_from;
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, PartId};
use crate::reader::Reader;
use crate::working::Step;
use calc::gas::Gas;
use quantity::Dimension;
use vocabulary::{fact as f, fact::cylinder as c, kind};

/// How full a cylinder is for the question what it gives: half (chosen).
const HALF_EMPTY: f64 = 0.5;

/// What the cylinder of a line gives in the coldest night of the brief.
fn cylinder_gives(reader: &mut Reader<'_>, line: PartId, case: CaseId) -> Outcome {
    let Fact::Part(cylinder) = reader.fact(line, f::gas_line::FROM, case)? else {
        return no_solution(line, f::gas_line::CYLINDER_GIVES);
    };
    if reader.build().part(cylinder).kind != kind::CYLINDER {
        return no_solution(line, f::gas_line::CYLINDER_GIVES);
    }
    let gas = match reader.need_word(cylinder, c::GAS, case)? {
        "propane" => Gas::Propane,
        "butane" => Gas::Butane,
        // No table is known for mixtures.
        _ => return no_solution(line, f::gas_line::CYLINDER_GIVES),
    };
    let content = reader.need(cylinder, c::CONTENT, case)?;
    let brief = brief::due(reader)?;
    let coldest = reader.need(brief, f::brief::COLDEST_NIGHT, case)?;
    let Some(watts) = calc::gas::vaporisation(gas, content, HALF_EMPTY, coldest) else {
        return no_solution(line, f::gas_line::CYLINDER_GIVES);
    };
    let source = if gas == Gas::Butane { &calc::gas::BOILING_POINT } else { &calc::gas::VAPORISATION };
    reader.step(|| Step {
        assumed: true,
        ..Step::cited(
            format!(
                "{} of content, half empty, at {}: {}",
                show(content, Dimension::MASS),
                super::super::celsius(coldest),
                show(watts, Dimension::POWER)
            ),
            source,
        )
    });
    Ok(Fact::Number(watts))
}

/// Whether a line starts from a cylinder.
fn from_cylinder(reader: &mut Reader<'_>, line: PartId, case: CaseId) -> Outcome {
    match reader.fact(line, f::gas_line::FROM, case)? {
        Fact::Part(supply) => Ok(Fact::Flag(reader.build().part(supply).kind == kind::CYLINDER)),
        _ => no_solution(line, f::gas_line::FROM),
    }
}

/// Whether a line from the cylinder is shut off in a crash.
fn stops_in_crash(reader: &mut Reader<'_>, cylinder: PartId, case: CaseId) -> Outcome {
    let (lines, mut gaps) = lines_from(reader, cylinder, case);
    for line in lines {
        match reader.need_flag(line, f::gas_line::STOPS_IN_CRASH, case) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use super::super::ventilation::sealed_from_living;
    use Method::Each;
    vec![
        (f::gas_line::FROM_CYLINDER, Each(from_cylinder)),
        (f::gas_line::CYLINDER_GIVES, Each(cylinder_gives)),
        (c::SEALED_FROM_LIVING, Each(sealed_from_living)),
        (c::STOPS_IN_CRASH, Each(stops_in_crash)),
        (f::generator::SEALED_FROM_LIVING, Each(sealed_from_living)),
    ]
}
