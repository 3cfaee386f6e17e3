//! What follows from a battery's chemistry, voltage and capacity.

use super::{amperes, no_solution, ohms, volts};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, PartId};
use crate::reader::{Reader, either};
use crate::working::Step;
use calc::{AssumedStrength, Chemistry};
use vocabulary::fact::battery as b;

/// Its chemistry.
pub fn chemistry(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Chemistry> {
    let word = reader.need_word(part, b::CHEMISTRY, case)?;
    match Chemistry::from_word(word) {
        Some(chemistry) => Ok(chemistry),
        None => no_solution(part, b::CHEMISTRY),
    }
}

/// Its voltage when fully charged, V: as said, else cells in series × the charge voltage of a cell.
pub fn highest_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if !reader.silent(part, b::CHARGE_VOLTAGE) {
        let said = reader.need(part, b::CHARGE_VOLTAGE, case)?;
        reader.step(|| Step::of(format!("charged to {}, as said", volts(said))));
        return Ok(Fact::Number(said));
    }
    let (chemistry, nominal) = (chemistry(reader, part, case), reader.need(part, b::VOLTAGE, case));
    let (chemistry, nominal) = both(chemistry, nominal)?;
    let Some((full, cells)) = calc::full_charge_voltage(chemistry, nominal) else {
        return no_solution(part, b::HIGHEST_VOLTAGE);
    };
    reader.step(|| {
        Step::cited(
            format!("{cells} {} cells in series, fully charged: {}", chemistry.word(), volts(full)),
            calc::full_charge_citation(chemistry),
        )
    });
    Ok(Fact::Number(full))
}

/// The lowest voltage that it works at, V.
pub fn lowest_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (chemistry, nominal) = (chemistry(reader, part, case), reader.need(part, b::VOLTAGE, case));
    let (chemistry, nominal) = both(chemistry, nominal)?;
    let Some((low, citation)) = calc::discharged_voltage(chemistry, nominal) else {
        return no_solution(part, b::LOWEST_VOLTAGE);
    };
    reader.step(|| {
        Step::cited(format!("discharged {} at {}: {}", chemistry.word(), volts(nominal), volts(low)), citation)
    });
    Ok(Fact::Number(low))
}

/// The least that its internal resistance can be, Ω: as said, else assumed from chemistry and capacity.
pub fn resistance(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    said_or_assumed(reader, part, case, AssumedStrength::Most)
}

/// The most that its internal resistance can be, Ω: as said, else assumed from chemistry and capacity.
pub fn resistance_at_most(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    said_or_assumed(reader, part, case, AssumedStrength::Least)
}

fn said_or_assumed(reader: &mut Reader<'_>, part: PartId, case: CaseId, strength: AssumedStrength) -> Outcome {
    if !reader.silent(part, b::INTERNAL_RESISTANCE) {
        let said = reader.need(part, b::INTERNAL_RESISTANCE, case)?;
        reader.step(|| Step::of(format!("internal resistance {}, as said", ohms(said))));
        return Ok(Fact::Number(said));
    }
    let capacity =
        reader.need(part, b::CAPACITY, case).map_err(|_| either((part, b::INTERNAL_RESISTANCE), (part, b::CAPACITY)));
    let (chemistry, nominal) = (chemistry(reader, part, case), reader.need(part, b::VOLTAGE, case));
    let (chemistry, nominal) = both(chemistry, nominal)?;
    let capacity = capacity?;
    let Some((assumed, citation)) = calc::assumed_internal_resistance(chemistry, nominal, capacity, strength) else {
        return no_solution(part, b::RESISTANCE);
    };
    reader.step(|| Step {
        assumed: true,
        ..Step::cited(format!("internal resistance not said: {} from chemistry and capacity", ohms(assumed)), citation)
    });
    Ok(Fact::Number(assumed))
}

/// The current into a dead short at its terminals, A: full voltage over internal resistance. The management's switches
/// are not relied on.
pub fn short_circuit_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (voltage, resistance) = (reader.need(part, b::HIGHEST_VOLTAGE, case), reader.need(part, b::RESISTANCE, case));
    let (voltage, resistance) = both(voltage, resistance)?;
    let current = calc::short_circuit_current(voltage, resistance);
    reader.step(|| Step::of(format!("{} ÷ {} = {}", volts(voltage), ohms(resistance), amperes(current))));
    Ok(Fact::Number(current))
}

/// Two values that are both due; the gaps of both when both are unknown.
pub fn both<A, B>(one: Outcome<A>, other: Outcome<B>) -> Outcome<(A, B)> {
    match (one, other) {
        (Ok(one), Ok(other)) => Ok((one, other)),
        (Err(mut gaps), Err(more)) => {
            gaps.add(&more);
            Err(gaps)
        }
        (Err(gaps), Ok(_)) | (Ok(_), Err(gaps)) => Err(gaps),
    }
}
