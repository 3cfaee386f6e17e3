//! Windows: single and double panes, published acrylic values, and covers.

use crate::citation::{Citation, Mark};
use crate::heat::air::air_properties;
use crate::heat::surface::STEFAN_BOLTZMANN;
use crate::input::{InputError, need_not_negative, need_positive, need_share, outcome};

/// Emissivity of uncoated acrylic in the far infrared, from memory.
pub const DOUBLE_ACRYLIC_EMISSIVITY: f64 = 0.86;

/// Standard acceleration of gravity, m/s² (ISO 80000-3).
pub(crate) const GRAVITY: f64 = 9.806_65;

/// Heat transfer of a single pane, W/(m²·K): one over surface resistances m²·K/W and thickness m over conductivity W/(m·K).
///
/// # Errors
/// A thickness below zero; a conductivity or a sum of surface resistances that is not above zero.
pub fn single_pane_u(thickness: f64, conductivity: f64, inner: f64, outer: f64) -> Result<f64, InputError> {
    let pane = need_not_negative("pane thickness", thickness)? / need_positive("pane conductivity", conductivity)?;
    let films = need_not_negative("inside surface resistance", inner)?
        + need_not_negative("outside surface resistance", outer)?;
    outcome("heat transfer", 1.0 / (need_positive("surface resistances", films)? + pane))
}

// EN 673 for vertical glazing (formula read in the fact book, constants from memory): Nu = 0.035·(Gr·Pr)^0.38, not below 1.
const NUSSELT_FACTOR: f64 = 0.035;
const NUSSELT_EXPONENT: f64 = 0.38;

/// Heat transfer of the air gap between two upright panes, W/(m²·K): convection by EN 673 and radiation between equal surfaces.
///
/// `gap` m; `warm` and `cold` the temperatures of the facing surfaces K (−40 to 80 °C); `emissivity` of both surfaces.
///
/// # Errors
/// A gap or temperature outside its range; an emissivity outside 0 to 1.
pub fn pane_gap_coefficient(gap: f64, warm: f64, cold: f64, emissivity: f64) -> Result<f64, InputError> {
    let gap = need_positive("gap", gap)?;
    let emissivity = need_share("emissivity", emissivity)?;
    let difference = (need_positive("warm pane", warm)? - need_positive("cold pane", cold)?).abs();
    let mean = f64::midpoint(warm, cold);
    let air = air_properties(mean)?;
    let grashof = GRAVITY / mean * difference * gap.powi(3) * (air.density / air.viscosity).powi(2);
    let prandtl = air.specific_heat * air.viscosity / air.conductivity;
    let nusselt = (NUSSELT_FACTOR * (grashof * prandtl).powf(NUSSELT_EXPONENT)).max(1.0);
    let radiative = 4.0 * STEFAN_BOLTZMANN * mean.powi(3) / (2.0 / emissivity - 1.0);
    outcome("gap", nusselt * air.conductivity / gap + radiative)
}

/// Heat transfer of two equal panes, W/(m²·K), from the gap of [`pane_gap_coefficient`], the pane's thickness m and conductivity W/(m·K), and
/// the sum of the surface resistances m²·K/W. Frame and edge are not in it.
///
/// # Errors
/// A number that is not above zero.
pub fn double_pane_u(gap_coefficient: f64, thickness: f64, conductivity: f64, films: f64) -> Result<f64, InputError> {
    let gap = 1.0 / need_positive("gap coefficient", gap_coefficient)?;
    let panes =
        2.0 * need_not_negative("pane thickness", thickness)? / need_positive("pane conductivity", conductivity)?;
    outcome("heat transfer", 1.0 / (need_positive("surface resistances", films)? + panes + gap))
}

/// Heat transfer of a window behind a cover, W/(m²·K): the window's own and the resistance that cover and still air add, m²·K/W.
/// An air gap that is open at the edge adds nothing: leave its resistance out.
///
/// # Errors
/// A heat transfer that is not above zero; a resistance below zero.
pub fn with_cover(window_u: f64, cover: f64) -> Result<f64, InputError> {
    let own = 1.0 / need_positive("heat transfer of the window", window_u)?;
    outcome("heat transfer", 1.0 / (own + need_not_negative("resistance of the cover", cover)?))
}

/// Published heat transfer of a single acrylic pane, upright, in winter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AcrylicRow {
    /// Thickness, m.
    pub thickness: f64,
    /// Heat transfer, W/(m²·K).
    pub u: f64,
}

/// Source of [`single_acrylic`].
pub static SINGLE_ACRYLIC: Citation = Citation {
    document: "sheet maker's table of U factors",
    place: "single acrylic, upright, winter: 1.06 Btu/(h·ft²·°F) at 3.0 mm to 0.81 at 12.0 mm",
    edition: "undated",
    mark: Mark::Read,
    address: "",
};

/// Published single acrylic panes from 3 to 12 mm ([`SINGLE_ACRYLIC`]).
#[must_use]
pub const fn single_acrylic() -> &'static [AcrylicRow] {
    &[
        AcrylicRow { thickness: 0.003, u: 6.02 },
        AcrylicRow { thickness: 0.0045, u: 5.79 },
        AcrylicRow { thickness: 0.006, u: 5.51 },
        AcrylicRow { thickness: 0.0095, u: 5.05 },
        AcrylicRow { thickness: 0.012, u: 4.60 },
    ]
}
