//! Everything that weighs, with its mass, its place and what makes it come and go.

use super::{layout, people, tables};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::methods::{battery::both, fact_of, space};
use crate::part::Build;
use crate::reader::Reader;
use calc::mass::{AxleLayout, Evidence, Filling, Mass};
use std::sync::Arc;
use vocabulary::{FactId, fact as f, kind};

/// The case in which masses and places are read: neither differs by case.
pub const ANY: CaseId = CaseId(0);

/// What a burden is to the conversion.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Sort {
    /// The base vehicle on one of its supports.
    Base,
    /// A thing that was built in.
    BuiltIn,
    /// What fills a tank or a cylinder.
    Content,
    /// A person.
    Person,
    /// Cargo, and the load of a trailer.
    Cargo,
}

/// Something that weighs.
#[derive(Clone, Debug)]
pub struct Burden {
    /// The part that it is, or that holds it.
    pub part: PartId,
    /// How the working calls it.
    pub title: Arc<str>,
    /// What it is.
    pub sort: Sort,
    /// Its mass when full.
    pub mass: Outcome<Mass>,
    /// Its place: x and y as everywhere, z above the living floor, m.
    pub at: Outcome<[f64; 3]>,
    /// What makes it come and go.
    pub filling: Filling,
    /// Whether it is the driver.
    pub driver: bool,
    /// What is assumed of it, for the working.
    pub assumed: Option<&'static str>,
}

/// All that weighs, and what it stands on.
#[derive(Clone, Debug)]
pub struct Burdens {
    /// The burdens, in the order of the text; the base vehicle first.
    pub all: Vec<Burden>,
    /// Axles and coupling from front to rear.
    pub supports: Vec<PartId>,
    /// Where they stand.
    pub layout: Outcome<AxleLayout>,
    /// What could not be read and may weigh.
    pub unread: Gaps,
}

impl Burdens {
    /// Gathers them.
    pub fn of(reader: &mut Reader<'_>) -> Self {
        let build = reader.build();
        let (supports, layout) = layout::of(reader);
        let mut all = layout::base(reader, &supports);
        for (part, described) in build.parts() {
            match described.kind {
                kind::PERSONS | kind::ALARM => {}
                kind::SHELL => all.push(shell(reader, part)),
                _ if fact_of(build, part, "mass").is_some() => thing(reader, part, &mut all),
                kind::TOW_BAR => all.extend(towed(reader, part)),
                _ => {}
            }
        }
        all.extend(people::burdens(reader));
        let weighs =
            vocabulary::parts().iter().filter(|part| part.kind == kind::PERSONS || part.fact("mass").is_some());
        let mut unread = Gaps::default();
        if weighs.into_iter().any(|part| !build.of_kind(part.kind).complete) {
            unread.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
        }
        Self { all, supports, layout, unread }
    }
}

/// Whether a thing is the base vehicle's own and was weighed with it.
fn original(reader: &mut Reader<'_>, part: PartId) -> Outcome<bool> {
    let build = reader.build();
    match build.part(part).kind {
        kind::BATTERY => reader.need_flag(part, f::battery::BASE_VEHICLE, ANY),
        kind::TANK => reader.need_flag(part, f::tank::ORIGINAL, ANY),
        kind::SEAT if reader.silent(part, f::seat::ORIGINAL) => Ok(false),
        kind::SEAT => reader.need_flag(part, f::seat::ORIGINAL, ANY),
        _ => Ok(false),
    }
}

/// A thing with what it holds.
fn thing(reader: &mut Reader<'_>, part: PartId, all: &mut Vec<Burden>) {
    let build = reader.build();
    let title = build.part(part).title.clone();
    let kind = build.part(part).kind;
    let at = centre(reader, part);
    let own = original(reader, part);
    let stays = |mass: Outcome<Mass>, assumed| Burden {
        part,
        title: title.clone(),
        sort: Sort::BuiltIn,
        mass,
        at: at.clone(),
        filling: Filling::Always,
        driver: false,
        assumed,
    };
    match &own {
        Ok(true) => {}
        Ok(false) => match kind {
            kind::CARGO => {
                let (mass, assumed) = own_mass(reader, part);
                all.push(Burden { sort: Sort::Cargo, filling: Filling::Cargo, ..stays(mass, assumed) });
            }
            kind::CYLINDER => cylinder(reader, part, stays, all),
            _ => {
                let (mass, assumed) = own_mass(reader, part);
                all.push(stays(mass, assumed));
            }
        },
        Err(gaps) => all.push(stays(Err(gaps.clone()), None)),
    }
    if kind == kind::TANK {
        content(reader, part, own, at, all);
    }
}

/// What a tank holds when it is full; of the base vehicle's own what was not in it when it was weighed.
fn content(
    reader: &mut Reader<'_>,
    tank: PartId,
    original: Outcome<bool>,
    at: Outcome<[f64; 3]>,
    all: &mut Vec<Burden>,
) {
    let title: Arc<str> = format!("what fills {}", reader.build().part(tank).title).into();
    let holds = reader.need_word(tank, f::tank::HOLDS, ANY);
    let volume = reader.need(tank, f::tank::VOLUME, ANY);
    let filling = match holds.as_deref() {
        Ok("grey") => Filling::GreyWater,
        Ok("black") => Filling::ToiletWaste,
        Ok("diesel" | "petrol") => Filling::Fuel,
        Ok(_) => Filling::FreshWater,
        // It may be full in any fill.
        Err(_) => Filling::Always,
    };
    let mass = both(holds, volume).and_then(|(holds, volume)| {
        let (density, tolerance) = tables::density(holds);
        let weighed = match original? {
            true => layout::fuel_when_weighed(reader)?,
            false => 0.0,
        };
        Mass::new(density * volume * (1.0 - weighed).max(0.0), Some(tolerance), Evidence::DataSheet)
            .map_err(|_| Gaps::one(Gap::Entry(tank, f::tank::VOLUME)))
    });
    let sort = Sort::Content;
    all.push(Burden { part: tank, title, sort, mass, at, filling, driver: false, assumed: None });
}

/// A cylinder: its mass is that of the full one.
fn cylinder(
    reader: &mut Reader<'_>,
    part: PartId,
    stays: impl Fn(Outcome<Mass>, Option<&'static str>) -> Burden,
    all: &mut Vec<Burden>,
) {
    let (mass, assumed) = own_mass(reader, part);
    let content = match reader.silent(part, f::cylinder::CONTENT) {
        true => Ok(0.0),
        false => reader.need(part, f::cylinder::CONTENT, ANY),
    };
    let gap = || Gaps::one(Gap::Entry(part, f::cylinder::CONTENT));
    let split = both(mass, content).and_then(|(mass, content)| {
        let content = content.min(mass.value());
        let tolerance = Some(share_of(mass));
        let piece = |value: f64| Mass::new(value, tolerance, mass.evidence()).map_err(|_| gap());
        Ok((piece(mass.value() - content)?, piece(content)?))
    });
    match split {
        Ok((empty, gas)) => {
            all.push(stays(Ok(empty), assumed));
            let title = format!("the gas in {}", reader.build().part(part).title).into();
            all.push(Burden { title, sort: Sort::Content, filling: Filling::Gas, ..stays(Ok(gas), None) });
        }
        Err(gaps) => all.push(stays(Err(gaps), assumed)),
    }
}

/// A mass's tolerance as a share of it.
fn share_of(mass: Mass) -> f64 {
    if mass.value() > 0.0 { ((mass.bounds().most() - mass.value()) / mass.value()).clamp(0.0, 1.0) } else { 0.0 }
}

/// The mass of a thing without what it holds: as said, else what small things and tanks are assumed to weigh.
pub fn own_mass(reader: &mut Reader<'_>, part: PartId) -> (Outcome<Mass>, Option<&'static str>) {
    let build = reader.build();
    let (Some(fact), Some(from), Some(tolerance)) =
        (fact_of(build, part, "mass"), fact_of(build, part, "mass-from"), fact_of(build, part, "mass-tolerance"))
    else {
        return (Err(Gaps::one(Gap::Unread(part))), None);
    };
    if reader.silent(part, fact) {
        let assumed = match build.part(part).kind {
            kind::TANK => {
                let volume = reader.need(part, f::tank::VOLUME, ANY);
                Some(volume.map(|volume| (volume * tables::TANK_WALL, tables::TANK_WALL_TOLERANCE)))
            }
            other => tables::small(other).map(Ok),
        };
        if let Some(assumed) = assumed {
            let mass = assumed.and_then(|(value, share)| {
                Mass::new(value, Some(share), Evidence::Estimated).map_err(|_| Gaps::one(Gap::Entry(part, fact)))
            });
            return (mass, Some(tables::ASSUMED));
        }
    }
    (said(reader, part, fact, from, tolerance), None)
}

fn said(reader: &mut Reader<'_>, part: PartId, fact: FactId, from: FactId, tolerance: FactId) -> Outcome<Mass> {
    let (value, from) = both(reader.need(part, fact, ANY), reader.need_word(part, from, ANY))?;
    let evidence = match from {
        "measured" => Evidence::Measured,
        "data-sheet" => Evidence::DataSheet,
        _ => Evidence::Estimated,
    };
    let share = match reader.silent(part, tolerance) {
        true => None,
        false if value > 0.0 => Some((reader.need(part, tolerance, ANY)? / value).min(1.0)),
        false => Some(0.0),
    };
    Mass::new(value, share, evidence).map_err(|_| Gaps::one(Gap::Entry(part, fact)))
}

/// What is built onto a face of the vehicle: as said, else its layers without the base vehicle's own skin.
fn shell(reader: &mut Reader<'_>, part: PartId) -> Burden {
    let build = reader.build();
    let (mass, assumed) = if reader.silent(part, f::shell::MASS) {
        (tables::layers(reader, part), Some("layers by thickness and density (ranges of the table of materials)"))
    } else {
        own_mass(reader, part)
    };
    Burden {
        part,
        title: build.part(part).title.clone(),
        sort: Sort::BuiltIn,
        mass,
        at: match space::placeless(reader, part) {
            true => in_living_space(reader).and_then(|middle| middle.map_or_else(|| centre(reader, part), Ok)),
            false => centre(reader, part),
        },
        filling: Filling::Always,
        driver: false,
        assumed,
    }
}

/// The load of a trailer on the bar that it is towed by.
fn towed(reader: &mut Reader<'_>, bar: PartId) -> Option<Burden> {
    let load = both(reader.need(bar, f::tow_bar::LOAD, ANY), reader.need(bar, f::tow_bar::AT, ANY));
    let (mass, at) = match load {
        Ok((load, at)) => (
            Mass::new(load, None, Evidence::DataSheet).map_err(|_| Gaps::one(Gap::Entry(bar, f::tow_bar::LOAD))),
            Ok([at, 0.0, 0.0]),
        ),
        Err(gaps) => (Err(gaps.clone()), Err(gaps)),
    };
    Some(Burden {
        part: bar,
        title: "the load of the trailer".into(),
        sort: Sort::Cargo,
        mass,
        at,
        filling: Filling::Cargo,
        driver: false,
        assumed: None,
    })
}

/// Where a thing's mass is reckoned: the middle of its box, its point, else the middle of its zone; a small thing of which
/// nothing is said stands in the middle of the living space.
pub fn centre(reader: &mut Reader<'_>, part: PartId) -> Outcome<[f64; 3]> {
    let build = reader.build();
    if let Some([least, most]) = space::extent(reader, part, ANY)? {
        return Ok([0, 1, 2].map(|axis| f64::midpoint(least[axis], most[axis])));
    }
    if space::placeless(reader, part)
        && tables::small(build.part(part).kind).is_some()
        && let Some(middle) = in_living_space(reader)?
    {
        return Ok(middle);
    }
    let entries: Vec<Gap> = ["from", "at"]
        .into_iter()
        .filter_map(|name| fact_of(build, part, name))
        .map(|fact| Gap::Entry(part, fact))
        .collect();
    let own = || if entries.is_empty() { Gaps::one(Gap::Unread(part)) } else { Gaps(vec![AnyOf(entries.clone())]) };
    if space::placeless(reader, part) {
        return Err(own());
    }
    match space::of(reader, part, ANY) {
        Ok(space::Space::Zone(zone)) => middle(reader, zone).ok_or_else(own),
        _ => Err(own()),
    }
}

/// The middle of a zone's box.
fn middle(reader: &mut Reader<'_>, zone: PartId) -> Option<[f64; 3]> {
    match (reader.fact(zone, f::zone::FROM, ANY), reader.fact(zone, f::zone::SIZE, ANY)) {
        (Ok(Fact::Lengths(from)), Ok(Fact::Lengths(size))) => Some([0, 1, 2].map(|axis| from[axis] + size[axis] / 2.0)),
        _ => None,
    }
}

/// The middle of the largest living space; nothing where none has a place.
fn in_living_space(reader: &mut Reader<'_>) -> Outcome<Option<[f64; 3]>> {
    let zones = reader.build().of_kind(kind::ZONE).clone();
    if !zones.complete {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    let mut largest: Option<(f64, PartId)> = None;
    for &zone in zones.members.iter() {
        if reader.need_word(zone, f::zone::KIND, ANY)? != "living" {
            continue;
        }
        for fact in [f::zone::FROM, f::zone::SIZE] {
            if !reader.silent(zone, fact) {
                reader.fact(zone, fact, ANY)?;
            }
        }
        if let Ok(Fact::Lengths(size)) = reader.fact(zone, f::zone::SIZE, ANY) {
            let volume: f64 = size.iter().product();
            if largest.is_none_or(|(most, _)| volume > most) {
                largest = Some((volume, zone));
            }
        }
    }
    Ok(largest.and_then(|(_, zone)| middle(reader, zone)))
}

/// What would give the vehicle.
pub fn vehicle(build: &Build) -> Outcome<PartId> {
    build.only(kind::VEHICLE).ok_or_else(|| Gaps::one(Gap::Absent(Build::ROOT, kind::VEHICLE)))
}
