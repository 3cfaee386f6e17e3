//! Resistance of the air films on surfaces and of still air between them.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_not_negative, need_positive, need_within, outcome};

/// Direction of the heat flow through a face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HeatFlow {
    /// Through a wall.
    Horizontal,
    /// Through a roof in winter.
    Upward,
    /// Through a floor in winter.
    Downward,
}

/// Conventional surface resistances.
pub static ISO_6946: Citation = Citation {
    document: "ISO 6946",
    place: "surface resistances: inside 0.13 horizontal, 0.10 upward, 0.17 downward; outside 0.04 m²·K/W",
    edition: "2017, quoted on two pages",
    mark: Mark::SecondHand,
    address: "",
};

/// The inside resistance to assume in corners and behind furniture, m²·K/W, with its source.
pub static WORST_CORNER: (f64, Citation) = (
    0.25,
    Citation {
        document: "ISO 13788",
        place: "inside surface resistance for the risk of mould, opaque surfaces",
        edition: "quoted on a page",
        mark: Mark::SecondHand,
        address: "",
    },
);

/// Outside surface resistance, m²·K/W: what a wind of about 4 m/s leaves ([`ISO_6946`]).
pub const SURFACE_RESISTANCE_OUTSIDE: f64 = 0.04;

/// Inside surface resistance, m²·K/W ([`ISO_6946`]).
#[must_use]
pub const fn inner_surface_resistance(flow: HeatFlow) -> f64 {
    match flow {
        HeatFlow::Horizontal => 0.13,
        HeatFlow::Upward => 0.10,
        HeatFlow::Downward => 0.17,
    }
}

/// Stefan-Boltzmann constant, W/(m²·K⁴) (CODATA 2018, rounded).
pub(crate) const STEFAN_BOLTZMANN: f64 = 5.670_374e-8;

/// The radiative part of a film, W/(m²·K): 4·ε·σ·T³.
fn radiative(emissivity: f64, mean_kelvin: f64) -> Result<f64, InputError> {
    let emissivity = need_within("emissivity", emissivity, 0.0, 1.0)?;
    let mean = need_positive("mean temperature", mean_kelvin)?;
    outcome("radiative coefficient", 4.0 * emissivity * STEFAN_BOLTZMANN * mean.powi(3))
}

/// Inside surface resistance of another surface or temperature, m²·K/W: 1/(hc + 4·ε·σ·T³) with hc 2.5 (horizontal), 5.0 (upward) or
/// 0.7 (downward) W/(m²·K), ISO 6946:2017 annex C, from memory. A bright metal lining (ε 0.05) holds far more film than a painted one.
///
/// # Errors
/// An emissivity outside 0 to 1; a temperature that is not above 0 K.
pub fn inner_surface_resistance_from(flow: HeatFlow, emissivity: f64, mean_kelvin: f64) -> Result<f64, InputError> {
    let convective = match flow {
        HeatFlow::Horizontal => 2.5,
        HeatFlow::Upward => 5.0,
        HeatFlow::Downward => 0.7,
    };
    Ok(1.0 / (convective + radiative(emissivity, mean_kelvin)?))
}

// ISO 6946:2017 annex C, from memory: hc outside = 4 + 4·v, W/(m²·K), v in m/s.
const OUTSIDE_CALM: f64 = 4.0;
const OUTSIDE_PER_WIND: f64 = 4.0;

/// Outside surface resistance by wind (or driving) speed m/s, m²·K/W: 1/(4 + 4·v + 4·ε·σ·T³), ISO 6946:2017 annex C, from memory.
///
/// # Errors
/// A speed below zero; an emissivity outside 0 to 1; a temperature that is not above 0 K.
pub fn outer_surface_resistance(wind: f64, emissivity: f64, mean_kelvin: f64) -> Result<f64, InputError> {
    let wind = need_not_negative("wind speed", wind)?;
    let coefficient = OUTSIDE_CALM + OUTSIDE_PER_WIND * wind + radiative(emissivity, mean_kelvin)?;
    Ok(1.0 / outcome("outside film", coefficient)?)
}

/// (thickness m; resistance horizontal, upward, downward in m²·K/W) of unventilated cavities, ISO 6946:2017 Table 8, from memory.
static CAVITY: [(f64, [f64; 3]); 9] = [
    (0.000, [0.00, 0.00, 0.00]),
    (0.005, [0.11, 0.11, 0.11]),
    (0.007, [0.13, 0.13, 0.13]),
    (0.010, [0.15, 0.15, 0.15]),
    (0.015, [0.17, 0.16, 0.17]),
    (0.025, [0.18, 0.16, 0.19]),
    (0.050, [0.18, 0.16, 0.21]),
    (0.100, [0.18, 0.16, 0.22]),
    (0.300, [0.18, 0.16, 0.23]),
];

/// Resistance of an unventilated air cavity of 0 to 300 mm between ordinary surfaces, m²·K/W, and where it comes from: straight lines
/// between the rows of ISO 6946 Table 8.
///
/// # Errors
/// A thickness outside 0 to 0.3 m.
pub fn still_air_cavity(thickness: f64, flow: HeatFlow) -> Result<(f64, &'static Citation), InputError> {
    static SOURCE: Citation = Citation {
        document: "ISO 6946",
        place: "Table 8, unventilated air layers with surfaces of high emissivity",
        edition: "2017, not seen",
        mark: Mark::Memory,
        address: "",
    };
    let thickness = need_within("cavity thickness", thickness, 0.0, 0.3)?;
    let value = |row: &[f64; 3]| match flow {
        HeatFlow::Horizontal => row[0],
        HeatFlow::Upward => row[1],
        HeatFlow::Downward => row[2],
    };
    let (mut below, mut found) = ((0.0, 0.0), 0.0);
    for (upper, row) in &CAVITY {
        found = value(row);
        if *upper >= thickness {
            let width = upper - below.0;
            let part = if width > 0.0 { (thickness - below.0) / width } else { 0.0 };
            found = below.1 + (found - below.1) * part;
            break;
        }
        below = (*upper, found);
    }
    Ok((found, &SOURCE))
}
