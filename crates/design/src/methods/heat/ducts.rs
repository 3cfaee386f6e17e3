//! Warm air in its ducts: what a blower moves through them, what each outlet gets, and what is lost in the cold.

use super::winter_nights;
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::battery::both;
use crate::methods::space::{self, Space};
use crate::methods::{all, brief, celsius, frost, is_said, no_solution, place, show, sum};
use crate::reader::Reader;
use crate::working::Step;
use calc::heat::{Blower, DuctPath};
use quantity::Dimension;
use vocabulary::{fact::brief as b, fact::heater as h, fact::warm_air as w, kind};

/// Friction factors of smooth pipe and of stretched corrugated hose (from memory: 0.02, and 0.05 to 0.08).
const SMOOTH: f64 = 0.02;
const CORRUGATED: f64 = 0.06;

/// Loss coefficients of leaving the heater and of the grille with the open end (from memory: a sharp entry, and one head of speed).
const ENTRY: f64 = 0.5;
const OUTLET: f64 = 1.0;

/// Air at 20 °C, kg/m³: denser than in the warm duct, so that the flow is told rather too small.
const AIR_DENSITY: f64 = 1.2;

/// Foam or wool round ducts, W/(m·K), and the film outside in still air and in the wind of the road, W/(m²·K) (from memory).
const DUCT_INSULATION: f64 = 0.04;
const STILL: f64 = 8.0;
const WIND: f64 = 20.0;

/// Where the warm air of a heater blows out.
fn outlets(reader: &Reader<'_>, heater: PartId) -> Outcome<Vec<PartId>> {
    let outlets = reader.build().inside(heater, kind::WARM_AIR);
    if outlets.complete { Ok(outlets.members.to_vec()) } else { Err(Gaps::one(Gap::Unread(heater))) }
}

/// The heater that an outlet belongs to.
fn heater_of(reader: &Reader<'_>, outlet: PartId) -> Outcome<PartId> {
    reader.build().part(outlet).outer.ok_or_else(|| Gaps::one(Gap::Unread(outlet)))
}

fn air_outlets(reader: &mut Reader<'_>, heater: PartId, _: CaseId) -> Outcome {
    Ok(all(outlets(reader, heater)?))
}

fn is_told(reader: &Reader<'_>, heater: PartId) -> Outcome<bool> {
    let outlets = outlets(reader, heater)?;
    let mut told = !outlets.is_empty() && is_said(reader, heater, h::AIR_FLOW)?;
    for outlet in outlets {
        told &= is_said(reader, outlet, w::DUCT)? && is_said(reader, outlet, w::BORE)?;
    }
    Ok(told)
}

fn ducts_told(reader: &mut Reader<'_>, heater: PartId, _: CaseId) -> Outcome {
    is_told(reader, heater).map(Fact::Flag)
}

fn throttle_asked(reader: &mut Reader<'_>, heater: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(is_told(reader, heater)? && is_said(reader, heater, h::BLOW_PRESSURE)?))
}

fn ducted(reader: &mut Reader<'_>, outlet: PartId, _: CaseId) -> Outcome {
    let heater = heater_of(reader, outlet)?;
    is_told(reader, heater).map(Fact::Flag)
}

/// The ducts of a heater, in the order of its outlets.
fn paths(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome<Vec<DuctPath>> {
    let mut paths = Vec::new();
    let mut gaps = Gaps::default();
    for outlet in outlets(reader, heater)? {
        let size = both(reader.need(outlet, w::DUCT, case), reader.need(outlet, w::BORE, case));
        let shape = both(reader.need(outlet, w::BENDS, case), reader.need_word(outlet, w::HOSE, case));
        match both(size, shape) {
            Ok(((length, diameter), (bends, hose))) => paths.push(DuctPath {
                diameter,
                length,
                friction: if hose == "smooth" { SMOOTH } else { CORRUGATED },
                losses: ENTRY + OUTLET + bends * calc::heat::SMOOTH_BEND,
            }),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(paths) } else { Err(gaps) }
}

fn air_moved(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    let open_flow = reader.need(heater, h::AIR_FLOW, case)?;
    if reader.silent(heater, h::BLOW_PRESSURE) {
        reader.step(|| Step::of("what its blower gives against ducts is not said: taken as without ducts".to_owned()));
        return Ok(Fact::Number(open_flow));
    }
    let (shut_off, paths) = both(reader.need(heater, h::BLOW_PRESSURE, case), paths(reader, heater, case))?;
    let resistance = calc::heat::parallel_resistance(&paths, AIR_DENSITY);
    let moved = resistance
        .and_then(|resistance| Ok((resistance, calc::heat::blower_flow(&Blower { open_flow, shut_off }, resistance)?)));
    match moved {
        Ok((resistance, moved)) => {
            reader.step(|| {
                let text = format!(
                    "from {} against nothing to nothing at {}; ducts take {} at that flow: {}",
                    show(open_flow, Dimension::FLOW),
                    show(shut_off, Dimension::PRESSURE),
                    show(resistance * moved * moved, Dimension::PRESSURE),
                    show(moved, Dimension::FLOW)
                );
                Step::assumed(text, "friction 0.06 of corrugated hose, 0.02 of smooth pipe; a bend 0.3 (memory)")
            });
            Ok(Fact::Number(moved))
        }
        Err(_) => no_solution(heater, h::AIR_MOVED),
    }
}

fn air_kept(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    let (moved, open) = both(reader.need(heater, h::AIR_MOVED, case), reader.need(heater, h::AIR_FLOW, case))?;
    Ok(Fact::Number(moved / open))
}

/// The temperature of the room that the heater draws its air from, K.
fn room(reader: &mut Reader<'_>, case: CaseId) -> Outcome<f64> {
    let brief = brief::due(reader)?;
    reader.need(brief, b::WARM, case)
}

fn blown_at(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    let of_heater = both(reader.need(heater, h::OUTPUT, case), reader.need(heater, h::AIR_MOVED, case));
    let ((output, moved), room) = both(of_heater, room(reader, case))?;
    match calc::heat::volumetric_heat_capacity(room) {
        Ok(carries) if moved > 0.0 => Ok(Fact::Number(room + output / (carries * moved))),
        _ => no_solution(heater, h::BLOWN_AT),
    }
}

/// The share of the air that comes out of an outlet.
fn share(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome<f64> {
    let heater = heater_of(reader, outlet)?;
    let paths = paths(reader, heater, case)?;
    let place = outlets(reader, heater)?.iter().position(|one| *one == outlet);
    let shares = calc::heat::duct_flow_shares(&paths).unwrap_or_default();
    match place.and_then(|place| shares.get(place)) {
        Some(share) => Ok(*share),
        None => no_solution(outlet, w::AIR_SHARE),
    }
}

fn air_share(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    let heater = heater_of(reader, outlet)?;
    let (share, moved) = both(share(reader, outlet, case), reader.need(heater, h::AIR_MOVED, case))?;
    Ok(Fact::Number(share * moved))
}

fn sent(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    let heater = heater_of(reader, outlet)?;
    let (share, output) = both(share(reader, outlet, case), reader.need(heater, h::OUTPUT, case))?;
    Ok(Fact::Number(share * output))
}

/// What lies round a duct: its temperature in the coldest night K, whether that is cold, and the film outside.
fn round(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome<(f64, bool, f64)> {
    let warm = room(reader, case);
    if reader.silent(outlet, w::THROUGH) || !winter_nights(reader, case)? {
        return Ok((warm?, false, STILL));
    }
    let through = space::named(reader, outlet, w::THROUGH, case)?;
    if frost::is_warm(reader, through, case)? {
        return Ok((warm?, false, STILL));
    }
    let night = super::coldest_night(reader, case)?;
    let film = if space::airy(space::word(reader, through, case)?) { WIND } else { STILL };
    Ok((night, true, film))
}

fn arrives(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    let heater = heater_of(reader, outlet)?;
    let blown = both(reader.need(heater, h::BLOWN_AT, case), reader.need(outlet, w::AIR_SHARE, case));
    let duct = both(reader.need(outlet, w::DUCT, case), reader.need(outlet, w::BORE, case));
    let wrapped = both(reader.need(outlet, w::INSULATION, case), round(reader, outlet, case));
    let (((blown, share), (length, bore)), ((insulation, (round, _, film)), room)) =
        both(both(blown, duct), both(wrapped, room(reader, case)))?;
    // The same air takes more room where it is hot.
    let flow = share * blown / room;
    let found = calc::heat::duct_loss_per_kelvin_metre(bore, insulation, DUCT_INSULATION, film)
        .and_then(|loss| calc::heat::duct_outlet_temperature(blown, round, loss, length, flow));
    match found {
        Ok(end) => {
            reader.step(|| {
                Step::assumed(
                    format!(
                        "{} of duct, {} round it: from {} to {}",
                        show(length, Dimension::LENGTH),
                        celsius(round),
                        celsius(blown),
                        celsius(end)
                    ),
                    "insulation 0.04 W/mK, film in still air 8, in the wind of the road 20 W/m²K (memory)",
                )
            });
            Ok(Fact::Number(end))
        }
        Err(_) => no_solution(outlet, w::ARRIVES),
    }
}

fn lost(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    let (_, cold, _) = round(reader, outlet, case)?;
    if !cold {
        return Ok(Fact::Number(0.0));
    }
    let heater = heater_of(reader, outlet)?;
    let ends = both(reader.need(heater, h::BLOWN_AT, case), reader.need(outlet, w::ARRIVES, case));
    let ((blown, end), (room, sent)) = both(ends, both(room(reader, case), reader.need(outlet, w::SENT, case)))?;
    if blown > room { Ok(Fact::Number(sent * (blown - end) / (blown - room))) } else { no_solution(outlet, w::LOST) }
}

fn lost_share(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    let (lost, sent) = both(reader.need(outlet, w::LOST, case), reader.need(outlet, w::SENT, case))?;
    if sent > 0.0 { Ok(Fact::Number(lost / sent)) } else { no_solution(outlet, w::LOST_SHARE) }
}

/// The space that an outlet warms: as said, else where it stands.
fn warmed(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome<Space> {
    if !reader.silent(outlet, w::WARMS) {
        return space::named(reader, outlet, w::WARMS, case);
    }
    let either = || super::any_of([(outlet, w::WARMS), (outlet, w::AT)]);
    match reader.fact(outlet, w::AT, case) {
        Ok(Fact::Lengths(point)) => place::smallest_holding(reader, point, case)?.map(Space::Zone).ok_or_else(either),
        _ => Err(either()),
    }
}

fn warmed_zone(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    match warmed(reader, outlet, case)? {
        Space::Zone(zone) => Ok(Fact::Part(zone)),
        Space::Outside => no_solution(outlet, w::WARMED_ZONE),
    }
}

fn warms_kind(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    let space = warmed(reader, outlet, case)?;
    let word = space::word(reader, space, case)?;
    let place = vocabulary::fact_spec(w::WARMS_KIND).choices().iter().position(|choice| *choice == word);
    match place.and_then(|place| u16::try_from(place).ok()) {
        Some(place) => Ok(Fact::Choice(place)),
        None => no_solution(outlet, w::WARMS_KIND),
    }
}

fn longest_said(reader: &mut Reader<'_>, outlet: PartId, _: CaseId) -> Outcome {
    let heater = heater_of(reader, outlet)?;
    is_said(reader, heater, h::LONGEST_DUCT).map(Fact::Flag)
}

fn longest(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    let heater = heater_of(reader, outlet)?;
    reader.fact(heater, h::LONGEST_DUCT, case)
}

/// What reaches the spaces where people are.
fn delivered(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    let output = reader.need(heater, h::OUTPUT, case)?;
    if !is_told(reader, heater)? {
        return Ok(Fact::Number(output));
    }
    let mut each = Vec::new();
    for outlet in outlets(reader, heater)? {
        let lives = warmed(reader, outlet, case).and_then(|space| Ok(space::word(reader, space, case)? == "living"));
        let heat = both(reader.need(outlet, w::SENT, case), reader.need(outlet, w::LOST, case));
        each.push(both(lives, heat).map(|(lives, (sent, lost))| if lives { (sent - lost).max(0.0) } else { 0.0 }));
    }
    let delivered = sum(each)?;
    reader.step(|| {
        let power = |value: f64| show(value, Dimension::POWER);
        Step::of(format!("of {} its ducts bring {}", power(output), power(delivered)))
    });
    Ok(Fact::Number(delivered))
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (h::AIR_OUTLETS, Each(air_outlets)),
        (h::DUCTS_TOLD, Each(ducts_told)),
        (h::THROTTLE_ASKED, Each(throttle_asked)),
        (h::AIR_MOVED, Each(air_moved)),
        (h::AIR_KEPT, Each(air_kept)),
        (h::BLOWN_AT, Each(blown_at)),
        (h::DELIVERED, Each(delivered)),
        (w::WARMED_ZONE, Each(warmed_zone)),
        (w::WARMS_KIND, Each(warms_kind)),
        (w::DUCTED, Each(ducted)),
        (w::LONGEST_SAID, Each(longest_said)),
        (w::LONGEST, Each(longest)),
        (w::AIR_SHARE, Each(air_share)),
        (w::SENT, Each(sent)),
        (w::LOST, Each(lost)),
        (w::LOST_SHARE, Each(lost_share)),
        (w::ARRIVES, Each(arrives)),
    ]
}
