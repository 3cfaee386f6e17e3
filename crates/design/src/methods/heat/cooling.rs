//! The heat that comes into a space on the hottest day, and what air conditioners take out.

use super::room::{of_space, whole_faces};
use super::shell::{self, FaceOf};
use super::{listed, used_in, whole};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::battery::both;
use crate::methods::{brief, celsius, no_solution, show, sum};
use crate::reader::Reader;
use crate::working::Step;
use calc::heat::{Gain, RoofColour};
use quantity::Dimension;
use vocabulary::{fact as f, fact::brief as b, fact::zone as z, kind};

/// The sun at noon in summer, W/m²: on a level roof, on the mean of the sides, and on windows (the assumptions of the fact book).
const ON_ROOF: f64 = 900.0;
const ON_SIDES: f64 = 300.0;
const ON_WINDOWS: f64 = 350.0;

/// The film outside in summer, W/(m²·K) (ASHRAE, from memory).
const FILM: f64 = 17.0;

/// Humidity of the air outside on the hottest day and inside (chosen).
const HUMID_OUTSIDE: f64 = 0.4;
const HUMID_INSIDE: f64 = 0.5;

/// The colour of a roof by its word.
pub fn colour(word: &str) -> RoofColour {
    match word {
        "white" => RoofColour::White,
        "light" => RoofColour::Light,
        "medium" => RoofColour::Medium,
        _ => RoofColour::Dark,
    }
}

/// The air conditioners of a space: what says how much it cools.
fn of_zone(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> (Vec<PartId>, Gaps) {
    let appliances = reader.build().of_kind(kind::APPLIANCE).clone();
    let mut found = Vec::new();
    let mut gaps = Gaps::default();
    if !appliances.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(crate::part::Build::ROOT))));
    }
    for &appliance in appliances.members.iter() {
        match crate::methods::is_said(reader, appliance, f::appliance::COOLING) {
            Ok(false) => continue,
            Ok(true) => {}
            Err(more) => {
                gaps.add(&more);
                continue;
            }
        }
        // It may hang on the roof or in the wall: where there is one space, it cools that.
        let spaces = super::living_spaces(reader, case);
        let here = match spaces {
            Ok(spaces) if spaces[..] == [zone] => Ok(true),
            _ => super::belongs(reader, appliance, zone, case),
        };
        match here {
            Ok(true) => found.push(appliance),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    (found, gaps)
}

fn coolers(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = of_zone(reader, zone, case);
    listed(found, &gaps)
}

fn cooling_asked(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    if !whole(reader, zone, case)? || !used_in(reader, "summer", case)? || !super::layered(reader, zone, case)? {
        return Ok(Fact::Flag(false));
    }
    if !reader.need_flag(zone, z::SHELL_WHOLE, case)? {
        return Ok(Fact::Flag(false));
    }
    let (found, gaps) = of_zone(reader, zone, case);
    match (found.is_empty(), gaps.is_empty()) {
        (false, _) => Ok(Fact::Flag(true)),
        (true, true) => Ok(Fact::Flag(false)),
        (true, false) => Err(gaps),
    }
}

fn cooling(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = of_zone(reader, zone, case);
    let mut each: Vec<Outcome<f64>> =
        found.into_iter().map(|cooler| reader.need(cooler, f::appliance::COOLING, case)).collect();
    if !gaps.is_empty() {
        each.push(Err(gaps));
    }
    Ok(Fact::Number(sum(each)?))
}

/// The part of the sun that roof and sides take up: by the colour of the roof; of a medium colour where nobody says.
fn absorbed(reader: &mut Reader<'_>, case: CaseId) -> Outcome<f64> {
    let vehicle = reader.build().only(kind::VEHICLE);
    let said = match vehicle {
        Some(vehicle) if !reader.silent(vehicle, f::vehicle::ROOF_COLOUR) => {
            Some(reader.need_word(vehicle, f::vehicle::ROOF_COLOUR, case)?)
        }
        _ => None,
    };
    let (share, source) = calc::heat::roof_absorptance(colour(said.unwrap_or("medium")));
    reader.step(|| {
        let text = format!("{} outside: {:.2} of the sun", said.unwrap_or("medium"), share.most());
        Step { assumed: said.is_none(), ..Step::cited(text, source) }
    });
    Ok(share.most())
}

fn cooling_load(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let wrong = |_| Gaps::one(Gap::NoSolution(zone, z::COOLING_LOAD));
    let brief = brief::due(reader)?;
    let (inside, outside) = both(reader.need(brief, b::COOL, case), reader.need(brief, b::HOTTEST_DAY, case))?;
    let absorbed = absorbed(reader, case)?;
    let (shells, mut gaps) = of_space(reader, kind::SHELL, zone, case);
    let (windows, more) = of_space(reader, kind::WINDOW, zone, case);
    gaps.add(&more);
    if let Err(more) = whole_faces(reader, zone, case) {
        gaps.add(&more);
    }
    let mut sensible = Vec::new();
    for one in shells {
        let face = shell::face(reader, one, case);
        let through = reader.silently(|reader| shell::through(reader, one, case));
        match both(both(reader.need(one, f::shell::AREA, case), through), face) {
            Ok(((area, through), face)) => {
                let (sun, level) = match face {
                    FaceOf::Roof => (ON_ROOF, true),
                    FaceOf::Floor => (0.0, false),
                    FaceOf::Wall | FaceOf::Door | FaceOf::Cab => (ON_SIDES, false),
                };
                let sol_air = calc::heat::sol_air_temperature(outside, absorbed, sun, FILM, level).map_err(wrong)?;
                let gain = calc::heat::transmitted_gain(through.likely, area, sol_air, inside).map_err(wrong)?;
                sensible.push(gain);
                let title = reader.build().part(one).title.clone();
                reader.step(|| {
                    let power = show(gain, Dimension::POWER);
                    Step::of(format!("{title}, as at {} outside: {power}", celsius(sol_air)))
                });
            }
            Err(more) => gaps.add(&more),
        }
    }
    for one in windows {
        let of = both(reader.need(one, f::window::AREA, case), shell::pane(reader, one, false, case));
        match both(of, reader.need(one, f::window::LETS_SUN, case)) {
            Ok(((area, u), share)) => {
                let gain = calc::heat::transmitted_gain(u, area, outside, inside)
                    .and_then(|through| Ok(through + calc::heat::solar_gain(area, share, ON_WINDOWS)?))
                    .map_err(wrong)?;
                sensible.push(gain);
                let title = reader.build().part(one).title.clone();
                reader.step(|| Step::of(format!("{title}: {}", show(gain, Dimension::POWER))));
            }
            Err(more) => gaps.add(&more),
        }
    }
    let flow = reader.need(zone, z::AIR_RECKONED, case);
    let people = reader.need(zone, z::SLEEPERS_HERE, case);
    let (flow, people) = match both(flow, people) {
        Ok(known) => known,
        Err(more) => {
            gaps.add(&more);
            return Err(gaps);
        }
    };
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let air = calc::moisture::vapour_pressure(outside, HUMID_OUTSIDE)
        .and_then(|outer| Ok((outer, calc::moisture::vapour_pressure(inside, HUMID_INSIDE)?)))
        .and_then(|(outer, inner)| calc::heat::fresh_air_gain(flow, (outside, outer), (inside, inner)))
        .map_err(wrong)?;
    let each = calc::heat::people_gain(1);
    let bodies = Gain { sensible: people * each.sensible, latent: people * each.latent };
    let load = calc::heat::cooling_load(&sensible, &[air, bodies]).map_err(wrong)?;
    reader.step(|| {
        Step::cited(
            format!(
                "people ({people:.0}) {}, {} of fresh air {}",
                show(bodies.total(), Dimension::POWER),
                show(flow, Dimension::FLOW),
                show(air.total(), Dimension::POWER)
            ),
            &calc::heat::ASHRAE_PEOPLE,
        )
    });
    if load.total() > 0.0 { Ok(Fact::Number(load.total())) } else { no_solution(zone, z::COOLING_LOAD) }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (z::COOLERS, Each(coolers)),
        (z::COOLING_ASKED, Each(cooling_asked)),
        (z::COOLING, Each(cooling)),
        (z::COOLING_LOAD, Each(cooling_load)),
    ]
}
