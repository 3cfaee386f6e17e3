//! Moisture of a night: what sleepers give to the air, what fresh air takes away, and which faces get wet.

use super::battery::both;
use super::heat::{self, layers::Laid, shell};
use super::{brief, celsius, no_solution, show};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::heat::{HeatFlow, SURFACE_RESISTANCE_OUTSIDE, WORST_CORNER, inner_surface_resistance};
use calc::moisture::SourceAmount;
use quantity::Dimension;
use vocabulary::{FactId, fact as f, fact::brief as b, fact::shell as s, fact::window as w, fact::zone as z};

/// Humidity of the air outside in a cold night (chosen by the fact book: 85 to 90 %).
const OUTSIDE_HUMIDITY: f64 = 0.9;

/// How many people sleep in a space: all who sleep aboard where it is the only one.
fn sleepers_here(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    if heat::living_spaces(reader, case)?[..] == [zone] {
        return reader.fact(Build::ROOT, f::build::SLEEPERS, case);
    }
    let berths = reader.build().of_kind(vocabulary::kind::BERTH).clone();
    if !berths.complete {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    let mut count = 0.0;
    for &berth in berths.members.iter() {
        if heat::belongs(reader, berth, zone, case)? {
            count += reader.need(berth, f::berth::SLEEPS, case)?;
        }
    }
    Ok(Fact::Number(count))
}

fn night_asked(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let asked = reader.need_flag(zone, z::WHOLE_LIVING_SPACE, case)?
        && heat::winter_nights(reader, case)?
        && heat::layered(reader, zone, case)?
        && reader.need(zone, z::SLEEPERS_HERE, case)? > 0.0;
    Ok(Fact::Flag(asked))
}

fn vapour_a_night(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let people = reader.need(zone, z::SLEEPERS_HERE, case)?;
    match calc::moisture::moisture_source("person-asleep").map(|source| (source.amount, source.citation)) {
        Some((SourceAmount::Rate(each), citation)) => {
            reader.step(|| {
                let text = format!("{people:.0} asleep × {}", show(each.most(), Dimension::MASS_FLOW));
                Step::cited(text, citation)
            });
            Ok(Fact::Number(people * each.most()))
        }
        _ => no_solution(zone, z::VAPOUR_A_NIGHT),
    }
}

/// Temperatures inside, while people sleep, and outside in the coldest night, K.
fn night(reader: &mut Reader<'_>, case: CaseId) -> Outcome<(f64, f64)> {
    let brief = brief::due(reader)?;
    both(reader.need(brief, b::ASLEEP, case), reader.need(brief, b::COLDEST_NIGHT, case))
}

/// The vapour pressure in a space in the coldest night, Pa.
fn vapour(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<f64> {
    let flow = reader.need(zone, z::FRESH_AIR, case);
    let ((flow, given), (inside, outside)) =
        both(both(flow, reader.need(zone, z::VAPOUR_A_NIGHT, case)), night(reader, case))?;
    let pressure = calc::moisture::vapour_pressure(outside, OUTSIDE_HUMIDITY)
        .and_then(|outer| calc::moisture::inside_vapour_pressure(outside, outer, given, flow, inside));
    match pressure {
        Ok(pressure) => {
            reader.step(|| Step {
                assumed: true,
                ..Step::cited(
                    format!(
                        "{} of fresh air at {} and {:.0} %, {} given to it: {pressure:.0} Pa",
                        show(flow, Dimension::FLOW),
                        celsius(outside),
                        OUTSIDE_HUMIDITY * 100.0,
                        show(given, Dimension::MASS_FLOW)
                    ),
                    &calc::moisture::ISO_13788,
                )
            });
            Ok(pressure)
        }
        Err(_) => Err(Gaps::one(Gap::Entry(zone, z::FRESH_AIR))),
    }
}

fn night_humidity(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (pressure, (inside, _)) = both(vapour(reader, zone, case), night(reader, case))?;
    match calc::moisture::relative_humidity(inside, pressure) {
        Ok(humidity) => Ok(Fact::Number(humidity)),
        Err(_) => no_solution(zone, z::NIGHT_HUMIDITY),
    }
}

fn dew_point(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let pressure = vapour(reader, zone, case)?;
    match calc::moisture::dew_point(pressure) {
        Ok(kelvin) => Ok(Fact::Number(kelvin)),
        Err(_) => no_solution(zone, z::DEW_POINT),
    }
}

fn carbon_dioxide(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (people, flow) = both(reader.need(zone, z::SLEEPERS_HERE, case), reader.need(zone, z::FRESH_AIR, case))?;
    let (each, source) = &calc::moisture::CARBON_DIOXIDE_ASLEEP;
    let outside = calc::moisture::OUTSIDE_CARBON_DIOXIDE;
    match calc::moisture::carbon_dioxide_share(people * each.most(), flow, outside) {
        Ok(share) => {
            reader.step(|| {
                let text = format!("{people:.0} asleep, {}: {:.0} ppm", show(flow, Dimension::FLOW), share * 1e6);
                Step::cited(text, source)
            });
            Ok(Fact::Number(share))
        }
        Err(_) => Err(Gaps::one(Gap::Entry(zone, z::FRESH_AIR))),
    }
}

/// The space of a face or window in which people sleep in winter, where its fresh air is said and takes their breath away: where it
/// does not, everything is wet, whatever the face.
fn known_night(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Option<PartId>> {
    let spaces = heat::living_spaces(reader, case)?;
    for zone in spaces {
        if heat::belongs(reader, part, zone, case)? {
            let asked = reader.need_flag(zone, z::NIGHT_ASKED, case)?
                && super::is_said(reader, zone, z::FRESH_AIR)?
                && reader.silently(|reader| reader.need(zone, z::NIGHT_HUMIDITY, case))? < 1.0;
            return Ok(asked.then_some(zone));
        }
    }
    Ok(None)
}

fn night_air_known(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(known_night(reader, part, case)?.is_some()))
}

fn dew_point_beside(reader: &mut Reader<'_>, part: PartId, answer: FactId, case: CaseId) -> Outcome {
    match known_night(reader, part, case)? {
        Some(zone) => reader.fact(zone, z::DEW_POINT, case),
        None => no_solution(part, answer),
    }
}

fn shell_dew_point(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    dew_point_beside(reader, part, s::DEW_POINT, case)
}

fn window_dew_point(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    dew_point_beside(reader, part, w::DEW_POINT, case)
}

/// Temperature of an inner surface by its factor, K, with its step.
fn at(
    reader: &mut Reader<'_>,
    part: PartId,
    factor: Result<f64, calc::InputError>,
    answer: FactId,
    case: CaseId,
) -> Outcome {
    let (inside, outside) = night(reader, case)?;
    let Ok(factor) = factor else { return no_solution(part, answer) };
    match calc::moisture::surface_temperature(factor, inside, outside) {
        Ok(kelvin) => {
            reader.step(|| {
                Step::of(format!(
                    "surface factor {factor:.2} between {} and {}: {}",
                    celsius(inside),
                    celsius(outside),
                    celsius(kelvin)
                ))
            });
            Ok(Fact::Number(kelvin))
        }
        Err(_) => no_solution(part, answer),
    }
}

/// The layers of a face; how each of them is taken stands with its heat transfer.
fn laid(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Vec<Laid>> {
    reader.silently(|reader| shell::laid(reader, part, case))
}

/// The resistance behind the inner surface of a face away from ribs, m²·K/W.
fn behind(laid: &[Laid]) -> Result<f64, calc::InputError> {
    let mut sum = SURFACE_RESISTANCE_OUTSIDE;
    for layer in laid {
        sum += layer.resistance()?.least();
    }
    Ok(sum)
}

fn inside_temperature(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (corner, source) = &WORST_CORNER;
    reader.step(|| Step::cited(format!("surface resistance inside {corner:.2} m²K/W, as behind furniture"), source));
    let factor = if reader.silent(part, s::U) {
        let laid = laid(reader, part, case)?;
        let behind = behind(&laid);
        if let Ok(behind) = behind {
            reader.step(|| Step::of(format!("layers and outer surface: {behind:.2} m²K/W")));
        }
        behind.and_then(|behind| calc::moisture::surface_factor_of_layers(*corner, behind))
    } else {
        // A given heat transfer was found with the usual surface.
        let u = reader.need(part, s::U, case)?;
        let rest = (1.0 / u - inner_surface_resistance(HeatFlow::Horizontal)).max(0.0);
        calc::moisture::surface_factor_of_layers(*corner, rest)
    };
    at(reader, part, factor, s::INSIDE_TEMPERATURE, case)
}

fn ribbed(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if super::is_said(reader, part, s::U)? {
        return Ok(Fact::Flag(false));
    }
    let laid = laid(reader, part, case)?;
    let ribs = shell::ribs(reader, part, &laid, case)?;
    // Ribs that are only assumed are told of by a rule of their own.
    Ok(Fact::Flag(!matches!(ribs, shell::Ribs::None | shell::Ribs::Share { assumed: true, .. })))
}

fn rib_temperature(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let laid = laid(reader, part, case)?;
    let over = shell::over_ribs(reader, part, &laid, case)?;
    let (corner, source) = &WORST_CORNER;
    let behind = shell::inside_of_rib(&laid, over).map(|inside| inside.least() + SURFACE_RESISTANCE_OUTSIDE);
    reader.step(|| {
        let text = format!("{} of insulation over the ribs, {corner:.2} m²K/W inside", show(over, Dimension::LENGTH));
        Step::cited(text, source)
    });
    let factor = behind.and_then(|behind| calc::moisture::surface_factor_of_layers(*corner, behind));
    at(reader, part, factor, s::RIB_TEMPERATURE, case)
}

fn mould_humidity(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let Some(zone) = known_night(reader, part, case)? else { return no_solution(part, s::MOULD_HUMIDITY) };
    let pressure = reader.silently(|reader| vapour(reader, zone, case));
    let (pressure, surface) = both(pressure, reader.need(part, s::INSIDE_TEMPERATURE, case))?;
    match calc::moisture::surface_humidity(pressure, surface) {
        Ok(humidity) => {
            reader.step(|| Step::of(format!("{pressure:.0} Pa of vapour at a face of {}", celsius(surface))));
            Ok(Fact::Number(humidity))
        }
        Err(_) => no_solution(part, s::MOULD_HUMIDITY),
    }
}

fn pane_temperature(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    // Behind a cover the pane is colder still; by day it is bare.
    let u = shell::pane(reader, part, false, case)?;
    let factor = calc::moisture::surface_factor(u, inner_surface_resistance(HeatFlow::Horizontal));
    at(reader, part, factor, w::INSIDE_TEMPERATURE, case)
}

/// The place of an insulation that lets vapour through, on a skin of metal.
fn open_layer(laid: &[Laid]) -> Option<usize> {
    if !laid.first().is_some_and(|skin| skin.metal) {
        return None;
    }
    laid.iter().rposition(|layer| layer.insulates && layer.fibrous)
}

fn vapour_open(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if reader.build().inside(part, vocabulary::kind::LAYER).members.is_empty() && super::is_said(reader, part, s::U)? {
        return Ok(Fact::Flag(false));
    }
    let laid = laid(reader, part, case)?;
    Ok(Fact::Flag(open_layer(&laid).is_some()))
}

fn vapour_thickness(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let laid = laid(reader, part, case)?;
    let Some(place) = open_layer(&laid) else { return no_solution(part, s::VAPOUR_THICKNESS) };
    let layers = reader.build().inside(part, vocabulary::kind::LAYER);
    let mut sum = 0.0;
    let mut gaps = Gaps::default();
    for (layer, laid) in layers.members.iter().zip(&laid).skip(place + 1) {
        match laid.vapour {
            Some(thickness) => sum += thickness.least(),
            None => gaps.add(&Gaps::one(Gap::Entry(*layer, f::layer::HOLDS_VAPOUR))),
        }
    }
    if gaps.is_empty() { Ok(Fact::Number(sum)) } else { Err(gaps) }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (z::SLEEPERS_HERE, Each(sleepers_here)),
        (z::NIGHT_ASKED, Each(night_asked)),
        (z::VAPOUR_A_NIGHT, Each(vapour_a_night)),
        (z::NIGHT_HUMIDITY, Each(night_humidity)),
        (z::DEW_POINT, Each(dew_point)),
        (z::CARBON_DIOXIDE_ASLEEP, Each(carbon_dioxide)),
        (s::NIGHT_AIR_KNOWN, Each(night_air_known)),
        (w::NIGHT_AIR_KNOWN, Each(night_air_known)),
        (s::DEW_POINT, Each(shell_dew_point)),
        (w::DEW_POINT, Each(window_dew_point)),
        (s::INSIDE_TEMPERATURE, Each(inside_temperature)),
        (s::RIBBED, Each(ribbed)),
        (s::RIB_TEMPERATURE, Each(rib_temperature)),
        (s::MOULD_HUMIDITY, Each(mould_humidity)),
        (w::INSIDE_TEMPERATURE, Each(pane_temperature)),
        (s::VAPOUR_OPEN, Each(vapour_open)),
        (s::VAPOUR_THICKNESS, Each(vapour_thickness)),
    ]
}
