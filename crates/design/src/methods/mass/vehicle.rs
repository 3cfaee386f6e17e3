//! The vehicle as a whole: what it weighs in each fill, how that lies, and what stands on its roof or beyond its ends.

use super::axle::{judged, kilograms, loads};
use super::burden::{ANY, Sort, centre, own_mass};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{battery::both, brief, fact_of, no_solution, parts, show, space, sum};
use crate::reader::Reader;
use crate::working::Step;
use calc::mass::{AxleLayout, CentreOfGravity, Item, SideLoads};
use quantity::Dimension;
use vocabulary::{fact as f, fact::vehicle as v, kind};

/// Whether anything was weighed.
fn masses_known(reader: &mut Reader<'_>, vehicle: PartId, _: CaseId) -> Outcome {
    let axles = reader.build().inside(vehicle, kind::AXLE);
    let mut gaps = Gaps::default();
    for &axle in axles.members.iter() {
        match crate::methods::is_said(reader, axle, f::axle::MEASURED) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !axles.complete {
        gaps.add(&Gaps::one(Gap::Unread(vehicle)));
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn layout(reader: &mut Reader<'_>) -> Outcome<AxleLayout> {
    reader.burdens().layout.clone()
}

/// The front support and the middle of the rear ones, m.
fn rests(layout: &AxleLayout) -> (f64, f64) {
    match *layout {
        AxleLayout::TwoAxles { front, rear } => (front, rear),
        AxleLayout::Trailer { coupling, axle } => (coupling, axle),
        AxleLayout::FrontAndTandem { front, first, second, first_share } => {
            (front, first * first_share + second * (1.0 - first_share))
        }
        AxleLayout::TandemTrailer { coupling, first, second, first_share } => {
            (coupling, first * first_share + second * (1.0 - first_share))
        }
    }
}

fn wheelbase(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let (front, rear) = rests(&layout(reader)?);
    Ok(Fact::Number(rear - front))
}

/// From the middle of the rear axles to the rearmost point, m. A trailer's ends are not told by its length alone.
fn rear_overhang(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let (length, front) = both(reader.need(vehicle, v::LENGTH, case), reader.need(vehicle, v::FRONT_OVERHANG, case))?;
    let (_, rear) = rests(&layout(reader)?);
    Ok(Fact::Number(length - front - rear))
}

fn axles_described(reader: &mut Reader<'_>, vehicle: PartId, _: CaseId) -> Outcome {
    let axles = reader.build().inside(vehicle, kind::AXLE);
    if axles.members.is_empty() && !axles.complete {
        return Err(Gaps::one(Gap::Unread(vehicle)));
    }
    Ok(Fact::Flag(!axles.members.is_empty()))
}

fn axle_limits(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let axles = reader.build().inside(vehicle, kind::AXLE);
    if !axles.complete {
        return Err(Gaps::one(Gap::Unread(vehicle)));
    }
    if axles.members.is_empty() {
        return Err(Gaps::one(Gap::Absent(vehicle, kind::AXLE)));
    }
    let limits: Vec<_> = axles.members.iter().map(|axle| reader.need(*axle, f::axle::LIMIT, case)).collect();
    Ok(Fact::Number(sum(limits)?))
}

fn laden(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let loads = loads(reader, case);
    let burdens = reader.burdens();
    for aboard in &loads.aboard {
        let Some(burden) = burdens.all.get(aboard.burden) else { continue };
        reader.step(|| {
            let mass = aboard.mass.map_or_else(|| "not known".to_owned(), kilograms);
            let text = format!("{}: {mass}", burden.title);
            burden.assumed.map_or_else(|| Step::of(text.clone()), |source| Step::assumed(text.clone(), source))
        });
    }
    let limit = reader.need(vehicle, v::GROSS_MASS, case);
    Ok(Fact::Number(judged(&loads.total, limit)?))
}

fn laden_at_most(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(loads(reader, case).total.value.clone()?.bounds.most()))
}

fn payload_left(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let (gross, laden) = both(reader.need(vehicle, v::GROSS_MASS, case), reader.need(vehicle, v::LADEN, case))?;
    reader.step(|| Step::of(format!("{} − {}", kilograms(gross), kilograms(laden))));
    Ok(Fact::Number(gross - laden))
}

fn sides(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome<SideLoads> {
    let items = loads(reader, case).items.clone();
    let (items, track) = both(items, reader.need(vehicle, v::TRACK, case))?;
    calc::mass::side_loads(&items, track).or_else(|_| no_solution(vehicle, v::SIDE_DIFFERENCE))
}

fn left_load(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(sides(reader, vehicle, case)?.left.value))
}

fn right_load(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(sides(reader, vehicle, case)?.right.value))
}

fn side_difference(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let sides = sides(reader, vehicle, case)?;
    let (left, right) = (sides.left.value, sides.right.value);
    reader.step(|| Step::of(format!("left {}, right {}", kilograms(left), kilograms(right))));
    if left + right > 0.0 {
        Ok(Fact::Number((left - right).abs() / (left + right)))
    } else {
        no_solution(vehicle, v::SIDE_DIFFERENCE)
    }
}

/// The front axle's load and the whole mass, kg.
fn front(reader: &mut Reader<'_>, case: CaseId) -> Outcome<(f64, f64)> {
    let loads = loads(reader, case);
    let total = loads.total.value.clone()?.value;
    let front = loads.supports.first().map(|front| front.value.clone());
    match front {
        Some(front) => Ok((front?.value, total)),
        None => Err(layout(reader).err().unwrap_or_default()),
    }
}

fn front_share(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let (front, total) = front(reader, case)?;
    reader.step(|| Step::of(format!("{} of {}", kilograms(front), kilograms(total))));
    if total > 0.0 { Ok(Fact::Number(front / total)) } else { no_solution(vehicle, v::FRONT_SHARE) }
}

/// The part of the front axle's load that what was built in behind the rear axles lifts off.
fn overhang_relief(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let (front, _) = front(reader, case)?;
    let burdens = reader.burdens();
    let loads = loads(reader, case);
    let mut relief = 0.0;
    for aboard in &loads.aboard {
        let own = burdens.all.get(aboard.burden).is_some_and(|burden| burden.sort != Sort::Base);
        let part = aboard.parts.as_ref().and_then(|parts| parts.first()).copied().unwrap_or(0.0);
        if own && part < 0.0 {
            relief -= aboard.mass.unwrap_or(0.0) * part;
        }
    }
    reader.step(|| Step::of(format!("{} lifted off, {} left", kilograms(relief), kilograms(front))));
    if front > 0.0 { Ok(Fact::Number(relief / front)) } else { no_solution(vehicle, v::OVERHANG_RELIEF) }
}

fn gravity_centre(reader: &mut Reader<'_>, case: CaseId, shift: Option<(f64, f64)>) -> Outcome<CentreOfGravity> {
    let loads = loads(reader, case);
    let mut items: Vec<Item> = loads.items.clone()?;
    if let Some((floor, base)) = shift {
        for (item, is_base) in items.iter_mut().zip(&loads.base) {
            item.at[2] = if *is_base { base } else { item.at[2] + floor };
        }
    }
    calc::mass::centre_of_gravity(&items)
        .map_err(|_| Gaps::one(Gap::NoSolution(crate::Build::ROOT, v::CENTRE_BEHIND_FRONT)))
}

fn centre_behind_front(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(gravity_centre(reader, case, None)?.x.value))
}

fn heights_known(reader: &mut Reader<'_>, vehicle: PartId, _: CaseId) -> Outcome {
    let said = [v::FLOOR_HEIGHT, v::CENTRE_HEIGHT].map(|fact| crate::methods::is_said(reader, vehicle, fact));
    match said {
        [Ok(false), _] | [_, Ok(false)] => Ok(Fact::Flag(false)),
        [floor, centre] => {
            both(floor, centre)?;
            Ok(Fact::Flag(true))
        }
    }
}

fn centre_above_road(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let heights = both(reader.need(vehicle, v::FLOOR_HEIGHT, case), reader.need(vehicle, v::CENTRE_HEIGHT, case))?;
    let raised = raised(reader, vehicle, case)?;
    let centre = gravity_centre(reader, case, Some((heights.0 + raised, heights.1 + raised)))?;
    Ok(Fact::Number(centre.z.value))
}

/// By how much lift kits raise the body, m.
fn raised(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome<f64> {
    let lifts = reader.build().inside(vehicle, kind::LIFT);
    if !lifts.complete {
        return Err(Gaps::one(Gap::Unread(vehicle)));
    }
    let said: Vec<PartId> =
        lifts.members.iter().copied().filter(|lift| !reader.silent(*lift, f::lift::RAISES)).collect();
    let raised: Vec<_> = said.into_iter().map(|lift| reader.need(lift, f::lift::RAISES, case)).collect();
    sum(raised)
}

fn factor(reader: &mut Reader<'_>, vehicle: PartId, height: f64, case: CaseId) -> Outcome {
    let track = reader.need(vehicle, v::TRACK, case)?;
    reader.step(|| Step::of(format!("{} ÷ (2 × {})", show(track, Dimension::LENGTH), show(height, Dimension::LENGTH))));
    match calc::mass::static_stability_factor(track, height) {
        Ok(factor) => Ok(Fact::Number(factor)),
        Err(_) => no_solution(vehicle, v::STABILITY_FACTOR),
    }
}

fn stability_factor(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let height = reader.need(vehicle, v::CENTRE_ABOVE_ROAD, case)?;
    factor(reader, vehicle, height, case)
}

fn base_stability_factor(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let height = reader.need(vehicle, v::CENTRE_HEIGHT, case)?;
    factor(reader, vehicle, height, case)
}

/// Whether a thing stands on the roof: its zone is of that kind, as said or by its place.
pub fn on_roof(reader: &mut Reader<'_>, thing: PartId) -> Outcome<bool> {
    let zone = fact_of(reader.build(), thing, "zone");
    if zone.is_some_and(|zone| !reader.silent(thing, zone)) {
        let space = space::of(reader, thing, ANY)?;
        return Ok(space::word(reader, space, ANY)? == "roof");
    }
    let Some([least, most]) = space::extent(reader, thing, ANY)? else { return Ok(false) };
    let zones = reader.build().of_kind(kind::ZONE).clone();
    if !zones.complete {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(thing))));
    }
    let middle = [0, 1, 2].map(|axis| f64::midpoint(least[axis], most[axis]));
    for &zone in zones.members.iter() {
        if reader.need_word(zone, f::zone::KIND, ANY)? != "roof" {
            continue;
        }
        match (reader.fact(zone, f::zone::FROM, ANY), reader.fact(zone, f::zone::SIZE, ANY)) {
            (Ok(Fact::Lengths(from)), Ok(Fact::Lengths(size)))
                if [0, 1, 2].into_iter().all(|axis| (from[axis]..=from[axis] + size[axis]).contains(&middle[axis])) =>
            {
                return Ok(true);
            }
            // A roof without a place holds what says so; one whose place is not understood may hold this.
            (Err(gaps), _) if !reader.silent(zone, f::zone::FROM) => return Err(gaps),
            (_, Err(gaps)) if !reader.silent(zone, f::zone::SIZE) => return Err(gaps),
            _ => {}
        }
    }
    Ok(false)
}

/// Everything that may have a mass.
pub fn weighing(reader: &Reader<'_>) -> Vec<PartId> {
    reader
        .build()
        .parts()
        .filter(|(_, part)| vocabulary::part(part.kind).fact("mass").is_some())
        .map(|(id, _)| id)
        .collect()
}

fn roof_things(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let mut found = Vec::new();
    let mut complete = reader.burdens().unread.is_empty();
    for thing in weighing(reader) {
        match on_roof(reader, thing) {
            Ok(true) => found.push(thing),
            Ok(false) => {}
            Err(_) => complete = false,
        }
    }
    Ok(parts(found, complete))
}

fn roof_load(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let found = reader.parts(vehicle, v::ROOF_THINGS, case);
    let mut masses = Vec::new();
    for &thing in found.members.iter() {
        let mass = own_mass(reader, thing).0;
        if let Ok(mass) = &mass {
            let title = reader.build().part(thing).title.clone();
            let value = mass.value();
            reader.step(|| Step::of(format!("{title}: {}", kilograms(value))));
        }
        masses.push(mass.map(calc::mass::Mass::value));
    }
    let load = sum(masses)?;
    if found.complete { Ok(Fact::Number(load)) } else { Err(reader.gaps(vehicle, v::ROOF_THINGS, case)) }
}

/// What is said to stand beyond the ends of the vehicle. Ends are known from length and front overhang; of a trailer, whose x begins
/// at its axle, from the overhang before that.
fn beyond_ends(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let (length, front) = both(reader.need(vehicle, v::LENGTH, case), reader.need(vehicle, v::FRONT_OVERHANG, case))?;
    // Things may touch the ends; what a scale of drawing rounds does not count.
    const SLACK: f64 = 0.05;
    let mut beyond = Vec::new();
    let mut complete = reader.burdens().unread.is_empty();
    for thing in weighing(reader) {
        match space::extent(reader, thing, ANY) {
            Ok(Some([least, most])) if least[0] < -front - SLACK || most[0] > length - front + SLACK => {
                beyond.push(thing);
            }
            Ok(_) => {}
            Err(_) => complete = false,
        }
    }
    Ok(parts(beyond, complete))
}

/// The mass of all people, or of all cargo, kg.
fn of_sort(reader: &mut Reader<'_>, sort: Sort) -> Outcome<f64> {
    let burdens = reader.burdens();
    let masses = burdens.all.iter().filter(|burden| burden.sort == sort).map(|burden| burden.mass.clone());
    sum(masses.map(|mass| mass.map(calc::mass::Mass::value)))
}

fn persons_mass(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Number(of_sort(reader, Sort::Person)?))
}

fn cargo_mass(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Number(of_sort(reader, Sort::Cargo)?))
}

fn built_in(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Number(of_sort(reader, Sort::BuiltIn)?))
}

fn licence_said(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    brief::says(reader, f::brief::LICENCE_MASS)
}

fn licence_limit(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let brief = brief::due(reader)?;
    reader.fact(brief, f::brief::LICENCE_MASS, case)
}

/// The middle of a thing, for those who ask for its height.
pub fn height(reader: &mut Reader<'_>, thing: PartId) -> Outcome<f64> {
    Ok(centre(reader, thing)?[2])
}

/// The methods of the vehicle as a whole.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (v::MASSES_KNOWN, Each(masses_known)),
        (v::WHEELBASE, Each(wheelbase)),
        (v::REAR_OVERHANG, Each(rear_overhang)),
        (v::AXLE_LIMITS, Each(axle_limits)),
        (v::AXLES_DESCRIBED, Each(axles_described)),
        (v::LADEN, Each(laden)),
        (v::LADEN_AT_MOST, Each(laden_at_most)),
        (v::PAYLOAD_LEFT, Each(payload_left)),
        (v::LEFT_LOAD, Each(left_load)),
        (v::RIGHT_LOAD, Each(right_load)),
        (v::SIDE_DIFFERENCE, Each(side_difference)),
        (v::FRONT_SHARE, Each(front_share)),
        (v::OVERHANG_RELIEF, Each(overhang_relief)),
        (v::CENTRE_BEHIND_FRONT, Each(centre_behind_front)),
        (v::HEIGHTS_KNOWN, Each(heights_known)),
        (v::CENTRE_ABOVE_ROAD, Each(centre_above_road)),
        (v::STABILITY_FACTOR, Each(stability_factor)),
        (v::BASE_STABILITY_FACTOR, Each(base_stability_factor)),
        (v::ROOF_LOAD, Each(roof_load)),
        (v::ROOF_THINGS, Each(roof_things)),
        (v::PERSONS_MASS, Each(persons_mass)),
        (v::CARGO_MASS, Each(cargo_mass)),
        (v::TRAVELLERS, Each(super::people::travellers)),
        (v::BUILT_IN, Each(built_in)),
        (v::BEYOND_ENDS, Each(beyond_ends)),
        (v::LICENCE_LIMIT_SAID, Each(licence_said)),
        (v::LICENCE_LIMIT, Each(licence_limit)),
    ]
}
