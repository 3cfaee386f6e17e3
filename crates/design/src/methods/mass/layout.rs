//! What a vehicle stands on, and the base vehicle by what was weighed on it.

use super::burden::{ANY, Burden, Sort, vehicle};
use crate::fact::Outcome;
use crate::known::{Gap, Gaps, PartId};
use crate::methods::{battery::both, no_solution};
use crate::part::Build;
use crate::reader::Reader;
use calc::mass::{AxleLayout, Evidence, FLEET_TOLERANCE, Filling, Mass};
use vocabulary::{FactId, fact as f, kind};

/// Each axle of a tandem carries half of it: equal springs with a rocker (common practice).
const EVEN: f64 = 0.5;

/// Whether the vehicle is a trailer.
pub fn is_trailer(reader: &mut Reader<'_>, vehicle: PartId) -> Outcome<bool> {
    Ok(reader.need_word(vehicle, f::vehicle::CLASS, ANY)? == "trailer")
}

/// The axles and the coupling from front to rear, and where they stand.
pub fn of(reader: &mut Reader<'_>) -> (Vec<PartId>, Outcome<AxleLayout>) {
    match parts(reader) {
        Ok((supports, places, trailer)) => {
            let layout = layout(reader, &supports, &places, trailer);
            (supports, layout)
        }
        Err(gaps) => (reader.build().of_kind(kind::AXLE).members.to_vec(), Err(gaps)),
    }
}

fn parts(reader: &mut Reader<'_>) -> Outcome<(Vec<PartId>, Vec<f64>, bool)> {
    let build = reader.build();
    let vehicle = vehicle(build)?;
    let trailer = is_trailer(reader, vehicle)?;
    let axles = build.inside(vehicle, kind::AXLE);
    if !axles.complete {
        return Err(Gaps::one(Gap::Unread(vehicle)));
    }
    let mut placed: Vec<(f64, PartId)> = Vec::new();
    let mut gaps = Gaps::default();
    for &axle in axles.members.iter() {
        match reader.need(axle, f::axle::AT, ANY) {
            Ok(at) => placed.push((at, axle)),
            Err(more) => gaps.add(&more),
        }
    }
    placed.sort_by(|one, other| one.0.total_cmp(&other.0));
    if trailer {
        match build.inside(vehicle, kind::COUPLING).members.first() {
            Some(&coupling) => match reader.need(coupling, f::coupling::AT, ANY) {
                Ok(at) => placed.insert(0, (at, coupling)),
                Err(more) => gaps.add(&more),
            },
            None => gaps.add(&Gaps::one(Gap::Absent(vehicle, kind::COUPLING))),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let (places, supports) = placed.into_iter().unzip();
    Ok((supports, places, trailer))
}

fn layout(reader: &Reader<'_>, supports: &[PartId], places: &[f64], trailer: bool) -> Outcome<AxleLayout> {
    let build = reader.build();
    match (places, trailer) {
        (&[coupling, axle], true) => Ok(AxleLayout::Trailer { coupling, axle }),
        (&[coupling, first, second], true) => {
            Ok(AxleLayout::TandemTrailer { coupling, first, second, first_share: EVEN })
        }
        (&[front, rear], false) => Ok(AxleLayout::TwoAxles { front, rear }),
        (&[front, first, second], false) => Ok(AxleLayout::FrontAndTandem { front, first, second, first_share: EVEN }),
        // One axle is not enough to stand on, and more than three share their load in ways that springs decide.
        ([] | [_], _) => Err(Gaps::one(Gap::Absent(vehicle(build)?, kind::AXLE))),
        _ => no_solution(supports.first().copied().unwrap_or(Build::ROOT), f::axle::AT),
    }
}

/// The mass that was weighed on a support.
pub fn measured(build: &Build, support: PartId) -> FactId {
    if build.part(support).kind == kind::COUPLING { f::coupling::MEASURED } else { f::axle::MEASURED }
}

/// The block that says how the vehicle was weighed; nothing where there is certainly none.
fn scale(reader: &Reader<'_>) -> Outcome<Option<PartId>> {
    let found = reader.build().of_kind(kind::WEIGHED);
    match found.members.first() {
        Some(scale) => Ok(Some(*scale)),
        None if found.complete => Ok(None),
        None => Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))),
    }
}

/// The base vehicle as a mass on each of its supports. A mass that no scale has shown may be off by what makers may be off.
pub fn base(reader: &mut Reader<'_>, supports: &[PartId]) -> Vec<Burden> {
    let build = reader.build();
    let mut all = Vec::new();
    for &support in supports {
        let fact = measured(build, support);
        let place = if build.part(support).kind == kind::COUPLING { f::coupling::AT } else { f::axle::AT };
        let scale = scale(reader);
        let tolerance = match scale.clone() {
            Ok(Some(scale)) if !reader.silent(scale, f::weighed::TOLERANCE) => {
                reader.need(scale, f::weighed::TOLERANCE, ANY).map(Some)
            }
            Ok(_) => Ok(None),
            Err(gaps) => Err(gaps),
        };
        let mass = both(reader.need(support, fact, ANY), tolerance).and_then(|(value, tolerance)| {
            let share = match (tolerance, scale?) {
                (Some(tolerance), _) if value > 0.0 => Some((tolerance / value).min(1.0)),
                (_, Some(_)) => None,
                (_, None) => Some(FLEET_TOLERANCE),
            };
            Mass::new(value, share, Evidence::Measured).map_err(|_| Gaps::one(Gap::Entry(support, fact)))
        });
        all.push(Burden {
            part: support,
            title: format!("the base vehicle on {}", build.part(support).title).into(),
            sort: Sort::Base,
            mass,
            at: reader.need(support, place, ANY).map(|x| [x, 0.0, 0.0]),
            filling: Filling::Always,
            driver: false,
            assumed: None,
        });
    }
    all
}

/// The part of the fuel that a mass in running order counts.
const PAPER_FUEL: f64 = 0.9;

/// How full the vehicle's own fuel tank was when it was weighed, 0 to 1.
pub fn fuel_when_weighed(reader: &mut Reader<'_>) -> Outcome<f64> {
    match scale(reader)? {
        Some(scale) => Ok(reader.need(scale, f::weighed::FUEL, ANY)?.min(1.0)),
        // A mass from papers is that in running order, with nine tenths of the fuel (1230/2012 Article 2, read).
        None => Ok(PAPER_FUEL),
    }
}

/// Whether the driver was aboard when it was weighed.
pub fn driver_when_weighed(reader: &mut Reader<'_>) -> Outcome<bool> {
    match scale(reader)? {
        Some(scale) => reader.need_flag(scale, f::weighed::DRIVER, ANY),
        // A mass from papers is that in running order, with the driver (1230/2012 Article 2, read).
        None => Ok(true),
    }
}
