//! The energy that a battery gives. What loads take and sources bring of it stands in the design week.

use super::battery::both;
use super::{no_solution, show};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use vocabulary::fact::battery as b;

/// The energy that a battery gives from full, J.
pub fn of_battery(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let chemistry = super::battery::chemistry(reader, battery, case);
    both(reader.need(battery, b::VOLTAGE, case), reader.need(battery, b::CAPACITY, case))?;
    let chemistry = chemistry?;
    let usable = if reader.silent(battery, b::USABLE) {
        match calc::usable_fraction(chemistry) {
            Some((usable, citation)) => {
                reader.step(|| Step {
                    assumed: true,
                    ..Step::cited(format!("usable: {}", show(usable, Dimension::RATIO)), citation)
                });
                usable
            }
            None => return Err(Gaps::one(Gap::Entry(battery, b::USABLE))),
        }
    } else {
        reader.need(battery, b::USABLE, case)?
    };
    let coldest = reader.need(battery, b::COLDEST_IN_USE, case)?;
    Ok(Fact::Number(from_full(reader, battery, usable, coldest, case)?))
}

/// The energy that a battery gives from full at a temperature, J.
pub fn from_full(reader: &mut Reader<'_>, battery: PartId, usable: f64, kelvin: f64, case: CaseId) -> Outcome<f64> {
    let chemistry = super::battery::chemistry(reader, battery, case)?;
    let (nominal, capacity) = both(reader.need(battery, b::VOLTAGE, case), reader.need(battery, b::CAPACITY, case))?;
    let Some((efficiency, efficiency_from)) = calc::discharge_efficiency(chemistry) else {
        return no_solution(battery, b::USABLE_ENERGY);
    };
    // Colder than the published rows nothing is known; a battery that is kept warmer can say so.
    let Some((cold, cold_from)) = calc::cold_capacity_factor(chemistry, kelvin) else {
        return Err(Gaps::one(Gap::Entry(battery, b::COLDEST)));
    };
    let Some(energy) = calc::usable_energy(nominal, capacity, usable, efficiency, cold) else {
        return no_solution(battery, b::USABLE_ENERGY);
    };
    reader.step(|| {
        Step::cited(format!("efficiency of discharge: {}", show(efficiency, Dimension::RATIO)), efficiency_from)
    });
    reader.step(|| {
        let text = format!("at {} it gives {}", super::celsius(kelvin), show(cold, Dimension::RATIO));
        Step::cited(text, cold_from)
    });
    Ok(energy)
}

/// Whether it is said which part of its capacity is used.
fn usable_said(reader: &mut Reader<'_>, battery: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(super::is_said(reader, battery, b::USABLE)?))
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![(b::USABLE_ENERGY, Each(of_battery)), (b::USABLE_SAID, Each(usable_said))]
}
