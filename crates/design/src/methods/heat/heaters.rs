//! What the heaters of a space give, and the fuel that they burn.

use super::listed;
use super::room::{belongs, living_spaces};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::methods::battery::both;
use crate::methods::{brief, gas, no_solution, show, sum};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::Interval;
use calc::heat::Fuel;
use quantity::Dimension;
use vocabulary::{FactId, fact as f, fact::brief as b, fact::heater as h, fact::zone as z, kind};

/// The heaters that warm a space, and what is not known of the others.
fn of_space(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> (Vec<PartId>, Gaps) {
    let heaters = reader.build().of_kind(kind::HEATER).clone();
    let mut found = Vec::new();
    let mut gaps = Gaps::default();
    if !heaters.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    let alone = living_spaces(reader, case).is_ok_and(|spaces| spaces[..] == [zone]);
    for &heater in heaters.members.iter() {
        let warms = reader.need_flag(heater, h::WARMS_SPACE, case);
        if warms == Ok(false) {
            continue;
        }
        // Where there is one space, whatever warms a space warms it, wherever it hangs.
        let here = if alone { Ok(true) } else { belongs(reader, heater, zone, case) };
        match both(warms, here) {
            Ok((true, true)) => found.push(heater),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    (found, gaps)
}

fn space_heaters(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = of_space(reader, zone, case);
    listed(found, &gaps)
}

/// The sum of one fact over heaters that warm by air, by water, and by what water feeds.
fn by_way(reader: &mut Reader<'_>, zone: PartId, fact: FactId, case: CaseId) -> Outcome<[Option<f64>; 3]> {
    let (found, gaps) = of_space(reader, zone, case);
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let mut ways: [Vec<Outcome<f64>>; 3] = Default::default();
    for heater in found {
        let way = match reader.need_word(heater, h::KIND, case)? {
            "water" => 1,
            "radiator" | "floor" => 2,
            _ => 0,
        };
        if way == 2 && fact != h::OUTPUT {
            continue;
        }
        // Ducts lose some of warm air on its way.
        let fact = if way == 0 && fact == h::OUTPUT { h::DELIVERED } else { fact };
        let value = reader.need(heater, fact, case);
        if let Some(own) = ways.get_mut(way) {
            own.push(value);
        }
    }
    let mut sums = [None; 3];
    let mut all = Gaps::default();
    for (into, way) in sums.iter_mut().zip(ways) {
        if way.is_empty() {
            continue;
        }
        match sum(way) {
            Ok(value) => *into = Some(value),
            Err(more) => all.add(&more),
        }
    }
    if all.is_empty() { Ok(sums) } else { Err(all) }
}

fn heating(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let [air, water, emitters] = by_way(reader, zone, h::OUTPUT, case)?;
    let wet = match (water, emitters) {
        (Some(water), Some(emitters)) => water.min(emitters),
        // The engine may feed them.
        (None, Some(emitters)) => emitters,
        // Without anything to give its heat off it warms taps alone.
        (_, None) => 0.0,
    };
    let all = air.unwrap_or(0.0) + wet;
    reader.step(|| {
        let power = |value: f64| show(value, Dimension::POWER);
        Step::of(format!("by air {}, by water through radiators and floors {}", power(air.unwrap_or(0.0)), power(wet)))
    });
    Ok(Fact::Number(all))
}

fn least_heating(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let [air, water, _] = by_way(reader, zone, h::LEAST_OUTPUT, case)?;
    Ok(Fact::Number(air.unwrap_or(0.0) + water.unwrap_or(0.0)))
}

fn heaters_run(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (loss, heating) = both(reader.need(zone, z::HEAT_LOSS, case), reader.need(zone, z::HEATING, case))?;
    if heating <= 0.0 {
        return no_solution(zone, z::HEATERS_RUN);
    }
    Ok(Fact::Number((loss / heating).min(1.0)))
}

/// The space that a heater warms, where its heat loss is asked.
fn asked_space(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome<Option<PartId>> {
    for zone in living_spaces(reader, case)? {
        let heaters = reader.parts(zone, z::SPACE_HEATERS, case);
        if heaters.members.contains(&heater) {
            return Ok(reader.need_flag(zone, z::HEAT_TOLD, case)?.then_some(zone));
        }
        if !heaters.complete {
            return Err(reader.gaps(zone, z::SPACE_HEATERS, case));
        }
    }
    Ok(None)
}

fn duty_asked(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(reader.need_flag(heater, h::BURNS, case)? && asked_space(reader, heater, case)?.is_some()))
}

fn needed_duty(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    match asked_space(reader, heater, case)? {
        Some(zone) => reader.fact(zone, z::HEATERS_RUN, case),
        None => no_solution(heater, h::NEEDED_DUTY),
    }
}

/// The heaters of a space that burn fuel, with their fuels.
fn burning(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<Vec<(PartId, &'static str)>> {
    let (found, gaps) = of_space(reader, zone, case);
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let mut burning = Vec::new();
    for heater in found {
        // What hangs on a water heater burns nothing itself.
        if matches!(reader.need_word(heater, h::KIND, case)?, "radiator" | "floor") {
            continue;
        }
        burning.push((heater, gas::appliances::fuel(reader, heater, case)?));
    }
    Ok(burning)
}

fn heated_by_gas(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let burning = burning(reader, zone, case)?;
    Ok(Fact::Flag(!burning.is_empty() && burning.iter().all(|(_, fuel)| *fuel == "gas")))
}

fn fuel_a_day(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let burning = burning(reader, zone, case)?;
    let first = burning.first().map(|(_, fuel)| *fuel);
    let fuel = match first.filter(|first| burning.iter().all(|(_, fuel)| fuel == first)) {
        Some("diesel") => Fuel::Diesel,
        Some("petrol") => Fuel::Petrol,
        Some("gas") => Fuel::Propane,
        Some("alcohol") => Fuel::Ethanol,
        // Of electric heat, of solid fuel and of two fuels together nothing can be told.
        _ => return no_solution(zone, z::FUEL_A_DAY),
    };
    let mut efficiency: f64 = 1.0;
    for (heater, _) in &burning {
        efficiency = efficiency.min(reader.need(*heater, h::EFFICIENCY, case)?);
    }
    let loss = reader.need(zone, z::HEAT_LOSS, case)?;
    let heat = loss * calc::DAY_SECONDS;
    let mass = Interval::exact(heat).and_then(|heat| calc::heat::fuel_mass_for(heat, efficiency, fuel));
    let Ok(mass) = mass else { return no_solution(zone, z::FUEL_A_DAY) };
    reader.step(|| {
        let text = format!(
            "{} for a day, {} of the heat of the fuel used: {}",
            show(heat, Dimension::ENERGY),
            show(efficiency, Dimension::RATIO),
            show(mass.most(), Dimension::MASS)
        );
        Step::cited(text, calc::heat::heating_value(fuel).citation)
    });
    Ok(Fact::Number(mass.most()))
}

fn gas_lasts(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let cylinders = reader.build().of_kind(kind::CYLINDER).clone();
    if !cylinders.complete {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    if cylinders.members.is_empty() {
        return Err(Gaps(vec![AnyOf(vec![Gap::Absent(Build::ROOT, kind::CYLINDER)])]));
    }
    let contents: Vec<_> =
        cylinders.members.iter().map(|cylinder| reader.need(*cylinder, f::cylinder::CONTENT, case)).collect();
    let (content, a_day) = both(sum(contents), reader.need(zone, z::FUEL_A_DAY, case))?;
    if a_day <= 0.0 {
        return no_solution(zone, z::GAS_LASTS);
    }
    Ok(Fact::Number(content / a_day * calc::DAY_SECONDS))
}

fn off_grid_asked(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    brief::says(reader, b::OFF_GRID)
}

fn off_grid(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let brief = brief::due(reader)?;
    reader.fact(brief, b::OFF_GRID, case)
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (z::SPACE_HEATERS, Each(space_heaters)),
        (z::HEATING, Each(heating)),
        (z::LEAST_HEATING, Each(least_heating)),
        (z::HEATERS_RUN, Each(heaters_run)),
        (h::DUTY_ASKED, Each(duty_asked)),
        (h::NEEDED_DUTY, Each(needed_duty)),
        (z::HEATED_BY_GAS, Each(heated_by_gas)),
        (z::FUEL_A_DAY, Each(fuel_a_day)),
        (z::GAS_LASTS, Each(gas_lasts)),
        (z::OFF_GRID_ASKED, Each(off_grid_asked)),
        (z::OFF_GRID, Each(off_grid)),
    ]
}
