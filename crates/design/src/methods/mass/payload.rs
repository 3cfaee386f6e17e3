//! What is left to load, by the rules of regions.

use super::axle::kilograms;
use super::burden::Sort;
use super::fills::{AS_BUILT, RUNNING_ORDER};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{battery::both, no_solution, sum};
use crate::reader::Reader;
use crate::working::Step;
use calc::mass::{EU_PASSENGER, EU_PAYLOAD, Filling, Mass, US_CAPACITY, US_LABEL, US_OCCUPANT};
use vocabulary::{fact::vehicle as v, kind};

/// Its mass with driver and fuel and all that is built in, kg.
fn running_order(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Number(reader.loads(RUNNING_ORDER).total.value.clone()?.value))
}

fn travellers(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome<u32> {
    // More people than any vehicle holds are a slip of the pen elsewhere.
    const MOST: f64 = 1_000.0;
    let count = reader.need(vehicle, v::TRAVELLERS, case)?;
    if (0.0..=MOST).contains(&count) { Ok(count as u32) } else { no_solution(vehicle, v::TRAVELLERS) }
}

fn payload_beside_people(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let (gross, order) = both(reader.need(vehicle, v::GROSS_MASS, case), reader.need(vehicle, v::RUNNING_ORDER, case))?;
    let persons = travellers(reader, vehicle, case)?;
    reader.step(|| {
        let others = persons.saturating_sub(1);
        let text = format!("{} − {} − {others} × {EU_PASSENGER} kg", kilograms(gross), kilograms(order));
        Step::cited(text, &EU_PAYLOAD)
    });
    match calc::mass::eu_payload_left(gross, order, 0.0, persons) {
        Ok(left) => Ok(Fact::Number(left)),
        Err(_) => no_solution(vehicle, v::PAYLOAD_BESIDE_PEOPLE),
    }
}

fn least_payload(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let length = reader.need(vehicle, v::LENGTH, case)?;
    let persons = travellers(reader, vehicle, case)?;
    reader.step(|| Step::cited(format!("10 kg × ({persons} + {length:.2})"), &EU_PAYLOAD));
    match calc::mass::eu_minimum_payload(persons, length) {
        Ok(least) => Ok(Fact::Number(least)),
        Err(_) => no_solution(vehicle, v::LEAST_PAYLOAD),
    }
}

/// The mass with fluids and all that is built in, without people, water and cargo, kg.
fn unloaded(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let built = reader.loads(AS_BUILT).total.value.clone()?.value;
    let burdens = reader.burdens();
    let fuel = burdens.all.iter().filter(|burden| burden.filling == Filling::Fuel && burden.sort == Sort::Content);
    let fuel = sum(fuel.map(|burden| burden.mass.clone().map(Mass::value)))?;
    reader.step(|| Step::of(format!("{} as built and {} of fuel", kilograms(built), kilograms(fuel))));
    Ok(Fact::Number(built + fuel))
}

fn propane(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let burdens = reader.burdens();
    let gas = burdens.all.iter().filter(|burden| burden.filling == Filling::Gas);
    Ok(Fact::Number(sum(gas.map(|burden| burden.mass.clone().map(Mass::value)))?))
}

fn carrying_capacity(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let (gross, unloaded) = both(reader.need(vehicle, v::GROSS_MASS, case), reader.need(vehicle, v::UNLOADED, case))?;
    let propane = reader.need(vehicle, v::PROPANE, case)?;
    reader.step(|| {
        let text = format!("{} − {} − {}", kilograms(gross), kilograms(unloaded), kilograms(propane));
        Step::cited(text, &US_CAPACITY)
    });
    match calc::mass::us_occupant_and_cargo_capacity(gross, unloaded, propane) {
        Ok(left) => Ok(Fact::Number(left)),
        Err(_) => no_solution(vehicle, v::CARRYING_CAPACITY),
    }
}

fn seats_mass(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let persons = f64::from(travellers(reader, vehicle, case)?);
    reader.step(|| Step::of(format!("{persons} × {US_OCCUPANT} kg")));
    Ok(Fact::Number(persons * US_OCCUPANT))
}

fn labelled(reader: &mut Reader<'_>, vehicle: PartId, _: CaseId) -> Outcome {
    let labels = reader.build().inside(vehicle, kind::CAPACITY_LABEL);
    match (labels.members.is_empty(), labels.complete) {
        (true, false) => Err(Gaps::one(Gap::Unread(vehicle))),
        (none, _) => Ok(Fact::Flag(!none)),
    }
}

/// What may be built in before the first sale without a new label, kg.
fn untold_mass(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let gross = reader.need(vehicle, v::GROSS_MASS, case)?;
    reader.step(|| Step::cited(format!("the lesser of 1.5 % of {} and 45.4 kg", kilograms(gross)), &US_LABEL));
    calc::mass::us_relabel_limit(gross).map(Fact::Number).or_else(|_| no_solution(vehicle, v::UNTOLD_MASS))
}

fn label_due(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let class = reader.need_word(vehicle, v::CLASS, case)?;
    if matches!(class, "motor-caravan" | "trailer") {
        return Ok(Fact::Flag(true));
    }
    if reader.silent(vehicle, v::ALTERED_BEFORE_FIRST_SALE)
        || !reader.need_flag(vehicle, v::ALTERED_BEFORE_FIRST_SALE, case)?
    {
        return Ok(Fact::Flag(false));
    }
    let (built, untold) = both(reader.need(vehicle, v::BUILT_IN, case), reader.need(vehicle, v::UNTOLD_MASS, case))?;
    Ok(Fact::Flag(built > untold))
}

/// What occupants and cargo may weigh, on the label's side.
fn on_label(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let vehicle = super::burden::vehicle(reader.build())?;
    reader.fact(vehicle, v::CARRYING_CAPACITY, case)
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (v::RUNNING_ORDER, Each(running_order)),
        (v::PAYLOAD_BESIDE_PEOPLE, Each(payload_beside_people)),
        (v::LEAST_PAYLOAD, Each(least_payload)),
        (v::UNLOADED, Each(unloaded)),
        (v::PROPANE, Each(propane)),
        (v::CARRYING_CAPACITY, Each(carrying_capacity)),
        (v::SEATS_MASS, Each(seats_mass)),
        (v::LABELLED, Each(labelled)),
        (v::LABEL_DUE, Each(label_due)),
        (v::UNTOLD_MASS, Each(untold_mass)),
        (vocabulary::fact::capacity_label::LEFT, Each(on_label)),
    ]
}
