//! The batteries of the week as one store.

use super::told::Known;
use crate::fact::Outcome;
use crate::known::{Gap, Gaps, PartId};
use crate::methods::battery::chemistry;
use crate::methods::{amperes, celsius, no_solution, show};
use crate::reader::Reader;
use crate::working::Step;
use calc::Chemistry;
use calc::week::{Battery, DayProfile, Entry, Limit, Peukert};
use quantity::Dimension;
use vocabulary::fact::battery as b;

/// The temperature that a heated battery is kept at, K: 5 °C (chosen; from there on makers of LFP cells allow their full charge).
const HEATED: f64 = 278.15;

/// The part of its capacity that is used: as said, else of its chemistry.
pub(super) fn usable(reader: &mut Reader<'_>, battery: PartId, known: &Known) -> Outcome<f64> {
    if !reader.silent(battery, b::USABLE) {
        return reader.need(battery, b::USABLE, known.case);
    }
    match calc::usable_fraction(chemistry(reader, battery, known.case)?) {
        Some((usable, citation)) => {
            reader.step(|| Step {
                assumed: true,
                ..Step::cited(format!("usable part not said: {}", show(usable, Dimension::RATIO)), citation)
            });
            Ok(usable)
        }
        None => Err(Gaps::one(Gap::Entry(battery, b::USABLE))),
    }
}

/// The temperature of a battery in the season, K: its coldest in winter, its hottest in summer, all day long.
pub(super) fn temperature(reader: &mut Reader<'_>, battery: PartId, known: &Known) -> Outcome<f64> {
    let case = known.case;
    if known.is_summer() {
        return reader.need(battery, b::HOTTEST_IN_USE, case);
    }
    let coldest = reader.need(battery, b::COLDEST_IN_USE, case);
    if !reader.silent(battery, b::HEATING)
        && matches!(reader.need_word(battery, b::HEATING, case), Ok("pad" | "heated-space"))
        && coldest.as_ref().map_or(true, |coldest| *coldest < HEATED)
    {
        reader.step(|| {
            Step::assumed(format!("heated: kept at {}", celsius(HEATED)), "temperature of a heated battery (chosen)")
        });
        return Ok(HEATED);
    }
    coldest
}

/// The largest charging current of a battery, A; none outside the temperatures at which it may be charged.
fn charging(reader: &mut Reader<'_>, battery: PartId, kelvin: Option<f64>, known: &Known) -> Outcome<f64> {
    /// Temperatures are compared within this, K: chosen, far below what a sensor tells.
    const SAME_KELVIN: f64 = 1e-6;
    let case = known.case;
    if let Some(kelvin) = kelvin {
        let above = reader.need(battery, b::CHARGE_ABOVE, case);
        let below = reader.need(battery, b::CHARGE_BELOW, case);
        let cold = above.is_ok_and(|above| kelvin < above - SAME_KELVIN);
        if cold || below.is_ok_and(|below| kelvin > below + SAME_KELVIN) {
            let word = if cold { "cold" } else { "hot" };
            reader.step(|| Step::of(format!("at {} it is too {word} to be charged", celsius(kelvin))));
            return Ok(0.0);
        }
    }
    let stated = reader.need_flag(battery, b::CHARGE_LIMIT_STATED, case)?;
    reader.need(battery, if stated { b::CHARGE_LIMIT } else { b::USUAL_CHARGE_CURRENT }, case)
}

/// Peukert's exponent: as said, else the worst of its chemistry.
fn exponent(reader: &mut Reader<'_>, battery: PartId, own: Chemistry, known: &Known) -> Outcome<f64> {
    if !reader.silent(battery, b::PEUKERT) {
        return reader.need(battery, b::PEUKERT, known.case);
    }
    match calc::peukert_exponent(own) {
        Some(range) => {
            reader.step(|| Step {
                assumed: true,
                ..Step::cited(
                    format!("Peukert's exponent not said: {}, the worst of its kind", range.most),
                    range.citation,
                )
            });
            Ok(range.most)
        }
        None => Err(Gaps::one(Gap::Entry(battery, b::PEUKERT))),
    }
}

/// All batteries as one: their energies are added, and the weakest temperature, exponent and rated time hold for all. Batteries of two
/// chemistries are no store that this can reckon with.
pub(super) fn pool(
    reader: &mut Reader<'_>,
    batteries: &[PartId],
    first: PartId,
    known: &mut Known,
) -> Outcome<Battery> {
    let own = chemistry(reader, first, known.case);
    for &battery in batteries {
        let other = chemistry(reader, battery, known.case);
        if let (Ok(own), Ok(other)) = (&own, &other)
            && own != other
        {
            return no_solution(battery, b::CHEMISTRY);
        }
        known.take(other, Entry::Chemistry);
    }
    let case = known.case;
    let (mut joules, mut used, mut limit) = (Some(0.0), Some(0.0), Some(0.0));
    let mut kelvin: Option<f64> = None;
    let mut kelvin_known = true;
    let mut peukert: Option<Peukert> = None;
    let mut peukert_known = true;
    for &battery in batteries {
        let volts = known.take(reader.need(battery, b::VOLTAGE, case), Entry::NominalVolts);
        let capacity = known.take(reader.need(battery, b::CAPACITY, case), Entry::Capacity);
        let usable = usable(reader, battery, known);
        let usable = known.take(usable, Entry::Usable);
        let energy = volts.zip(capacity).map(|(volts, capacity)| volts * capacity);
        let temperature = temperature(reader, battery, known);
        let temperature = known.take(temperature, Entry::Temperature);
        if let (Some(kelvin), Ok(own)) = (temperature, &own)
            && calc::cold_capacity_factor(*own, kelvin).is_none()
        {
            // Colder than the published rows nothing is known; a battery that is kept warmer can say so.
            known.take::<()>(Err(Gaps::one(Gap::Entry(battery, b::COLDEST))), Entry::Temperature);
        }
        let charging = charging(reader, battery, temperature, known);
        let charging = known.take(charging, Entry::ChargeLimit);
        let add = |sum: Option<f64>, more: Option<f64>| sum.zip(more).map(|(sum, more)| sum + more);
        joules = add(joules, energy);
        used = add(used, energy.zip(usable).map(|(energy, usable)| energy * usable));
        limit = add(limit, volts.zip(charging).map(|(volts, amperes)| volts * amperes));
        match temperature {
            Some(own) if known.is_summer() => kelvin = Some(kelvin.map_or(own, |most: f64| most.max(own))),
            Some(own) => kelvin = Some(kelvin.map_or(own, |least: f64| least.min(own))),
            None => kelvin_known = false,
        }
        let rated = reader.need(battery, b::RATED_HOURS, case);
        let exponent =
            own.as_ref().map_err(Clone::clone).copied().and_then(|own| exponent(reader, battery, own, known));
        match known.take(exponent, Entry::Peukert).zip(known.take(rated, Entry::Peukert)) {
            Some((exponent, rated_seconds)) => {
                let worse = |other: Peukert| other.exponent < exponent;
                if peukert.is_none_or(worse) {
                    peukert = Some(Peukert { exponent, rated_seconds });
                }
            }
            None => peukert_known = false,
        }
        let title = reader.build().part(battery).title.clone();
        reader.step(|| {
            let figure =
                |value: Option<f64>, dimension| value.map_or("unknown".to_owned(), |value| show(value, dimension));
            Step::of(format!(
                "{title}: {} stored at most, {} of it used; at {} it takes up to {}",
                figure(energy, Dimension::ENERGY),
                figure(usable, Dimension::RATIO),
                temperature.map_or("an unknown temperature".to_owned(), celsius),
                charging.map_or("an unknown current".to_owned(), amperes)
            ))
        });
    }
    let volts = reader.need(first, b::VOLTAGE, case).ok();
    let assumed = own.as_ref().ok().and_then(|own| Some((*own, calc::week::assumed_charge(*own)?)));
    let discharge = own.as_ref().ok().and_then(|own| calc::discharge_efficiency(*own));
    if let (Some((_, charge)), Some((discharge, citation))) = (assumed, discharge) {
        reader.step(|| Step {
            assumed: true,
            ..Step::cited(format!("efficiency of discharge: {}", show(discharge, Dimension::RATIO)), citation)
        });
        reader.step(|| Step {
            assumed: true,
            ..Step::cited(
                format!(
                    "efficiency of charge: {}, above {} full {}",
                    show(charge.efficiency, Dimension::RATIO),
                    show(charge.taper_from, Dimension::RATIO),
                    show(charge.taper_efficiency, Dimension::RATIO)
                ),
                charge.efficiency_citation,
            )
        });
    }
    Ok(Battery {
        chemistry: own.ok(),
        nominal_volts: volts,
        capacity_coulombs: joules.zip(volts).map(|(joules, volts)| joules / volts),
        usable: used.zip(joules).map(|(used, joules)| used / joules),
        discharge_efficiency: discharge.map(|(efficiency, _)| efficiency),
        charge_efficiency: assumed.map(|(_, charge)| charge.efficiency),
        taper_efficiency: assumed.map(|(_, charge)| charge.taper_efficiency),
        taper_from: assumed.map(|(_, charge)| charge.taper_from),
        charge_limit: limit.zip(volts).map_or(Limit::Unknown, |(watts, volts)| Limit::Known(watts / volts)),
        peukert: peukert.filter(|_| peukert_known),
        kelvin: kelvin.filter(|_| kelvin_known).map(DayProfile::constant),
        // The week begins with full batteries.
        start: Some(1.0),
    })
}
