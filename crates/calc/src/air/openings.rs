//! Fixed openings that a space with open flames needs, by region.
//!
//! * EN 721:2004 (2019 is current): by overall length × width of the vehicle; a high opening in a wall instead of the roof is doubled.
//!   Roof and low areas on two or three pages, wall areas on two. Mark: second-hand. Areas of exactly 5, 10, 15 and 20 m² count in
//!   the lower row: the pages leave the edge undefined.
//! * Australia: max(4,000, 610·U + 650·P) mm², U in MJ/h of all appliances that are not room-sealed, P sleeping places; EnergySafe Magazine 42,
//!   page 22 (a regulator). Mark: read.
//! * United States: 24 CFR 3280.710(e), duct of at least 12.5 in² and 2 in., or a listed fan, within 10 ft of the cooker. Mark: read. The
//!   fan's 100 cfm is 3280.103(c)(2).

use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative, positive};

/// Where [`en_721_open`] comes from.
pub static EN_721_OPEN: Citation = Citation {
    document: "EN 721",
    place: "least openings with appliances that are not room-sealed",
    edition: "2004, quoted on several pages; 2019 is current",
    mark: Mark::SecondHand,
    address: "https://mon-fourgon-amenage.fr/homologation-vasp/aeration-ventilation",
};

/// Where [`en_721_sealed`] comes from.
pub static EN_721_SEALED: Citation = Citation {
    document: "EN 721",
    place: "least openings without open flames, to 10 m²",
    edition: "2004, quoted in an inspector's leaflet; 2019 is current",
    mark: Mark::SecondHand,
    address: "",
};

/// Where [`australian_openings`] comes from.
pub static AUSTRALIAN_OPENINGS: Citation = Citation {
    document: "EnergySafe Magazine 42",
    place: "page 22 (on AS/NZS 5601.2)",
    edition: "summer 2016",
    mark: Mark::Read,
    address: "https://view.joomag.com/energysafe-magazine-summer-2016-issue-42",
};

/// Where the duct over a cooker comes from.
pub static US_COOKING_DUCT: Citation = Citation {
    document: "24 CFR 3280.710",
    place: "(e), duct or listed fan at the range",
    edition: "eCFR text of about April 2023",
    mark: Mark::Read,
    address: "",
};

/// Free area of the duct over a cooker, m²: 12.5 in².
pub const US_COOKING_OPENING: f64 = 12.5 * 0.0254 * 0.0254;

/// Flow of the fan over a cooker, m³/s: 100 cfm.
pub const US_COOKING_FAN: f64 = 100.0 * 0.028_316_846_592 / 60.0;

/// Free areas that a space needs, m².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FixedOpenings {
    /// High, in the roof.
    pub roof: f64,
    /// High, in a wall, where none is in the roof.
    pub wall: f64,
    /// Low.
    pub low: f64,
}

const MM2: f64 = 1e-6;

/// Plan area up to, m²; roof and low openings, mm².
static OPEN_ROWS: [(f64, f64, f64); 5] = [
    (5.0, 7_500.0, 1_000.0),
    (10.0, 10_000.0, 1_500.0),
    (15.0, 12_500.0, 2_000.0),
    (20.0, 15_000.0, 3_000.0),
    (f64::INFINITY, 20_000.0, 5_000.0),
];
/// A high opening in a wall counts half.
const WALL_FACTOR: f64 = 2.0;
/// Areas this close to a row's edge are the edge.
const AT_THE_EDGE: f64 = 1e-9;

/// Openings by EN 721 with open-flued or flueless appliances, hobs among them, from the vehicle's plan area (overall length × width), m².
#[must_use]
pub fn en_721_open(plan_area: f64) -> Option<FixedOpenings> {
    if !positive(plan_area) {
        return None;
    }
    let row = OPEN_ROWS.iter().find(|row| plan_area <= row.0 * (1.0 + AT_THE_EDGE))?;
    Some(FixedOpenings { roof: row.1 * MM2, wall: WALL_FACTOR * row.1 * MM2, low: row.2 * MM2 })
}

/// Openings by EN 721 without open flames, to 10 m² of plan.
pub const EN_721_SEALED_TO_10: FixedOpenings =
    FixedOpenings { roof: 1_500.0 * MM2, wall: WALL_FACTOR * 1_500.0 * MM2, low: 500.0 * MM2 };

/// Openings by EN 721 without open flames, from the vehicle's plan area, m²: at the least these, and at the most those. Above 10 m² no copy
/// of the row was found. It asks no less than the row below it, and no more than with open flames.
#[must_use]
pub fn en_721_sealed(plan_area: f64) -> Option<[FixedOpenings; 2]> {
    const LARGEST_PLAN: f64 = 10.0;
    let most = en_721_open(plan_area)?;
    let known = plan_area <= LARGEST_PLAN * (1.0 + AT_THE_EDGE);
    Some([EN_721_SEALED_TO_10, if known { EN_721_SEALED_TO_10 } else { most }])
}

/// Total free area by the Australian formula, m²: from the gross input of appliances that are not room-sealed, W, and the sleeping places.
#[must_use]
pub fn australian_openings(input_watts: f64, sleeping_places: f64) -> Option<f64> {
    const LEAST_MM2: f64 = 4_000.0;
    const MM2_PER_MEGAJOULE_AN_HOUR: f64 = 610.0;
    const MM2_PER_SLEEPER: f64 = 650.0;
    /// 1 MJ/h, W.
    const MEGAJOULE_AN_HOUR: f64 = 1e6 / 3_600.0;
    if !(not_negative(input_watts) && not_negative(sleeping_places)) {
        return None;
    }
    let megajoules = input_watts / MEGAJOULE_AN_HOUR;
    let asked = MM2_PER_MEGAJOULE_AN_HOUR * megajoules + MM2_PER_SLEEPER * sleeping_places;
    finite(asked.max(LEAST_MM2) * MM2)
}
