//! Converters in their compartment: the heat that they give off, the air that it warms, and what they still give in it.

use super::battery::both;
use super::space::{self, Space};
use super::{bank, brief, celsius, charging, fact_of, heat, is_said, no_solution, show, sum};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::heat::{Compartment, Derating, Settled};
use quantity::Dimension;
use vocabulary::{FactId, PartKind, fact as f, fact::brief as b, fact::zone as z, kind};

/// What gives off heat in a compartment.
const DEVICES: [PartKind; 5] =
    [kind::INVERTER, kind::INVERTER_CHARGER, kind::CONVERTER, kind::CHARGER, kind::SOLAR_CONTROLLER];

/// Output over input of chargers, and of solar controllers (common practice: 85 to 93 %, and 96 to 98 %).
const CHARGER: f64 = 0.88;
const CONTROLLER: f64 = 0.97;

/// The part of the height of a compartment between its low and its high openings (chosen: they stand near floor and ceiling).
const BETWEEN_OPENINGS: f64 = 0.8;

/// A fact of a part by its name, as a number.
fn number(reader: &mut Reader<'_>, part: PartId, name: &str, case: CaseId) -> Outcome<f64> {
    match fact_of(reader.build(), part, name) {
        Some(fact) => reader.need(part, fact, case),
        None => Err(Gaps::default()),
    }
}

/// Whether something is said of a part by the name of its fact.
fn says(reader: &Reader<'_>, part: PartId, name: &str) -> Outcome<bool> {
    fact_of(reader.build(), part, name).map_or(Ok(false), |fact| is_said(reader, part, fact))
}

/// The largest output of a device, W.
fn full(reader: &mut Reader<'_>, device: PartId, case: CaseId) -> Outcome<f64> {
    match reader.build().part(device).kind {
        kind::INVERTER | kind::INVERTER_CHARGER => number(reader, device, "power", case),
        _ => {
            let current = number(reader, device, "output", case);
            both(current, number(reader, device, "voltage", case)).map(|(current, voltage)| current * voltage)
        }
    }
}

/// The output that is asked of a device for hours, W.
fn for_long(reader: &mut Reader<'_>, device: PartId, case: CaseId) -> Outcome<f64> {
    if says(reader, device, "long-load")? {
        number(reader, device, "long-load", case)
    } else {
        full(reader, device, case)
    }
}

/// What a device gives off for each watt that it gives.
fn lossy(reader: &mut Reader<'_>, device: PartId, case: CaseId) -> Outcome<f64> {
    let efficiency = match reader.build().part(device).kind {
        kind::CHARGER => CHARGER,
        kind::SOLAR_CONTROLLER => CONTROLLER,
        _ => number(reader, device, "efficiency", case)?,
    };
    Ok((1.0 / efficiency - 1.0).max(0.0))
}

/// The heat that a device gives off at its load for hours, W.
fn heat_of(reader: &mut Reader<'_>, device: PartId, case: CaseId) -> Outcome<f64> {
    let (load, lossy) = both(for_long(reader, device, case), lossy(reader, device, case))?;
    let title = reader.build().part(device).title.clone();
    reader.step(|| {
        let power = |value: f64| show(value, Dimension::POWER);
        Step::of(format!("{title}: {} for hours, {} of it as heat", power(load), power(load * lossy)))
    });
    Ok(load * lossy)
}

/// The devices in a zone.
fn devices(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<Vec<PartId>> {
    let (found, gaps) = space::standing_in(reader, Space::Zone(zone), &DEVICES, case);
    if gaps.is_empty() { Ok(found) } else { Err(gaps) }
}

fn warm_devices(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = space::standing_in(reader, Space::Zone(zone), &DEVICES, case);
    heat::listed(found, &gaps)
}

fn device_heat(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let mut each = Vec::new();
    for device in devices(reader, zone, case)? {
        each.push(heat_of(reader, device, case));
    }
    each.push(batteries_heat(reader, zone, case));
    Ok(Fact::Number(sum(each)?))
}

/// The heat that the batteries of a zone give off while they feed inverters at their loads for hours, W; the base vehicle's, and those whose
/// resistance is not said, are left out.
fn batteries_heat(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<f64> {
    let batteries = reader.build().of_kind(kind::BATTERY).clone();
    let mut each = Vec::new();
    if !batteries.complete {
        each.push(Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))));
    }
    for &battery in batteries.members.iter() {
        if reader.need_flag(battery, f::battery::BASE_VEHICLE, case)?
            || !is_said(reader, battery, f::battery::INTERNAL_RESISTANCE)?
        {
            continue;
        }
        match space::of(reader, battery, case) {
            Ok(Space::Zone(own)) if own == zone => each.push(battery_heat(reader, battery, case)),
            Ok(_) => {}
            Err(more) if !space::placeless(reader, battery) => each.push(Err(more)),
            Err(_) => {}
        }
    }
    sum(each)
}

/// The heat of one battery at the current of its inverters, W: I²·R.
fn battery_heat(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome<f64> {
    let (inverters, gaps) = charging::inverters_of(reader, battery);
    let mut taken = Vec::new();
    if !gaps.is_empty() {
        taken.push(Err(gaps));
    }
    for inverter in inverters {
        let load = for_long(reader, inverter, case);
        taken.push(both(load, number(reader, inverter, "efficiency", case)).map(|(load, share)| load / share));
    }
    let own = both(reader.need(battery, f::battery::VOLTAGE, case), bank::part_of_bank(reader, battery, case));
    let resistance = reader.need(battery, f::battery::INTERNAL_RESISTANCE, case);
    let ((taken, resistance), (voltage, part)) = both(both(sum(taken), resistance), own)?;
    let current = taken / voltage * part;
    let heat = current * current * resistance;
    let title = reader.build().part(battery).title.clone();
    reader.step(|| {
        Step::of(format!("{title}: {} for hours, {} of heat", super::amperes(current), show(heat, Dimension::POWER)))
    });
    Ok(heat)
}

/// Whether a space by its word is a compartment for devices and stores, and not a room or the open air.
fn is_compartment(word: &str) -> bool {
    matches!(word, "battery" | "gas" | "garage" | "locker")
}

/// The temperature of the hottest day, K.
fn hottest_day(reader: &mut Reader<'_>, case: CaseId) -> Outcome<f64> {
    let brief = brief::due(reader)?;
    reader.need(brief, b::HOTTEST_DAY, case)
}

/// The low and the high openings of a zone, m².
fn openings(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<(f64, f64)> {
    let vents = reader.build().inside(zone, kind::VENT);
    if !vents.complete {
        return Err(Gaps::one(Gap::Unread(zone)));
    }
    let (mut low, mut high) = (Vec::new(), Vec::new());
    for &vent in vents.members.iter() {
        let area = reader.need(vent, f::vent::FREE_AREA, case);
        match reader.need_word(vent, f::vent::HEIGHT, case)? {
            "low" => low.push(area),
            _ => high.push(area),
        }
    }
    both(sum(low), sum(high))
}

/// A compartment on the hottest day.
fn compartment(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<Compartment> {
    let size = match reader.fact(zone, z::SIZE, case) {
        Ok(Fact::Lengths(size)) => Ok(size),
        Ok(_) => no_solution(zone, z::AIR_INSIDE),
        Err(gaps) => Err(gaps),
    };
    let walls = both(size, reader.need(zone, z::WALLS, case));
    let outside = both(openings(reader, zone, case), hottest_day(reader, case));
    let (([length, width, tall], u), ((low, high), surroundings)) = both(walls, outside)?;
    let (fans, gaps) = space::standing_in(reader, Space::Zone(zone), &[kind::FAN], case);
    let mut each: Vec<_> = fans.into_iter().map(|fan| reader.need(fan, f::fan::FLOW, case)).collect();
    if !gaps.is_empty() {
        each.push(Err(gaps));
    }
    let driven = sum(each)?;
    let area = 2.0 * (length * width + length * tall + width * tall);
    let made = calc::heat::effective_opening(low, high)
        .and_then(|opening| Ok((opening, calc::heat::volumetric_heat_capacity(surroundings)? * driven)));
    let Ok((opening, carried)) = made else { return no_solution(zone, z::AIR_INSIDE) };
    reader.step(|| {
        Step::assumed(
            format!(
                "{} of walls with {}, openings {} low and {} high, fans {}; {} outside",
                show(area, Dimension::AREA),
                show(u, Dimension::U_VALUE),
                show(low, Dimension::AREA),
                show(high, Dimension::AREA),
                show(driven, Dimension::FLOW),
                celsius(surroundings)
            ),
            "four fifths of the height between the openings (chosen); standing air without wind",
        )
    });
    Ok(Compartment { wall_loss: u * area + carried, opening, height: BETWEEN_OPENINGS * tall, surroundings })
}

fn air_inside(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (heat, within) = both(reader.need(zone, z::DEVICE_HEAT, case), compartment(reader, zone, case))?;
    let Compartment { wall_loss, opening, height, surroundings } = within;
    match calc::heat::compartment_temperature(heat, wall_loss, opening, height, surroundings) {
        Ok(Some(kelvin)) => {
            reader.step(|| Step::of(format!("{} of heat: {}", show(heat, Dimension::POWER), celsius(kelvin))));
            Ok(Fact::Number(kelvin))
        }
        _ => no_solution(zone, z::AIR_INSIDE),
    }
}

fn warmth_asked(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    if !is_said(reader, zone, z::AMBIENT)? || !is_compartment(reader.need_word(zone, z::KIND, case)?) {
        return Ok(Fact::Flag(false));
    }
    if !heat::summer_days(reader, case)? {
        return Ok(Fact::Flag(false));
    }
    let (found, gaps) = space::standing_in(reader, Space::Zone(zone), &DEVICES, case);
    for device in found {
        if says(reader, device, "long-load")? {
            return Ok(Fact::Flag(true));
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn derating_asked(reader: &mut Reader<'_>, device: PartId, case: CaseId) -> Outcome {
    let said = says(reader, device, "full-until")? && !space::placeless(reader, device);
    Ok(Fact::Flag(said && heat::summer_days(reader, case)?))
}

fn asked_for_long(reader: &mut Reader<'_>, device: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(for_long(reader, device, case)?))
}

/// What a device settles at, and all of its power W.
fn settled(reader: &mut Reader<'_>, device: PartId, fact: FactId, case: CaseId) -> Outcome<(Settled, f64)> {
    let points = both(number(reader, device, "hot-share", case), number(reader, device, "hot-at", case));
    let (full_until, (low_share, low_at)) = both(number(reader, device, "full-until", case), points)?;
    let derating = Derating { full_until, low_share, low_at };
    let ((full, asked), lossy) =
        both(both(full(reader, device, case), for_long(reader, device, case)), lossy(reader, device, case))?;
    if full <= 0.0 {
        return no_solution(device, fact);
    }
    let wanted = (asked / full).min(1.0);
    let space = space::of(reader, device, case)?;
    let found = match space {
        Space::Zone(zone) if is_compartment(reader.need_word(zone, z::KIND, case)?) => {
            let mut beside = Vec::new();
            for other in devices(reader, zone, case)? {
                if other != device {
                    beside.push(heat_of(reader, other, case));
                }
            }
            beside.push(batteries_heat(reader, zone, case));
            let (beside, within) = both(sum(beside), compartment(reader, zone, case))?;
            calc::heat::settled_share(&within, full * lossy, beside, wanted, &derating)
        }
        // A room or the open air is too large to be warmed by it.
        _ => {
            let around = hottest_day(reader, case)?;
            calc::heat::derated_share(&derating, around)
                .map(|share| Some(Settled { share: share.min(wanted), temperature: around }))
        }
    };
    let Ok(Some(settled)) = found else { return no_solution(device, fact) };
    reader.step(|| {
        Step::of(format!(
            "all of its {} up to {}, {} of it at {}: it settles at {} in air of {}",
            show(full, Dimension::POWER),
            celsius(full_until),
            show(low_share, Dimension::RATIO),
            celsius(low_at),
            show(settled.share * full, Dimension::POWER),
            celsius(settled.temperature)
        ))
    });
    Ok((settled, full))
}

fn given(reader: &mut Reader<'_>, device: PartId, fact: FactId, case: CaseId) -> Outcome {
    let (settled, full) = settled(reader, device, fact, case)?;
    Ok(Fact::Number(settled.share * full))
}

fn around(reader: &mut Reader<'_>, device: PartId, fact: FactId, case: CaseId) -> Outcome {
    Ok(Fact::Number(settled(reader, device, fact, case)?.0.temperature))
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    use f::{inverter as i, inverter_charger as c};
    vec![
        (z::WARM_DEVICES, Each(warm_devices)),
        (z::WARMTH_ASKED, Each(warmth_asked)),
        (z::DEVICE_HEAT, Each(device_heat)),
        (z::AIR_INSIDE, Each(air_inside)),
        (i::DERATING_ASKED, Each(derating_asked)),
        (c::DERATING_ASKED, Each(derating_asked)),
        (i::ASKED_FOR_LONG, Each(asked_for_long)),
        (c::ASKED_FOR_LONG, Each(asked_for_long)),
        (i::GIVEN_IN_WARMTH, Each(|reader, part, case| given(reader, part, i::GIVEN_IN_WARMTH, case))),
        (c::GIVEN_IN_WARMTH, Each(|reader, part, case| given(reader, part, c::GIVEN_IN_WARMTH, case))),
        (i::AIR_AROUND, Each(|reader, part, case| around(reader, part, i::AIR_AROUND, case))),
        (c::AIR_AROUND, Each(|reader, part, case| around(reader, part, c::AIR_AROUND, case))),
    ]
}
