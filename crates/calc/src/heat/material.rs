//! Materials of walls by the trade's plain names.

use crate::citation::{Citation, Mark};
use crate::interval::Interval;
use crate::tables::conductivity::MATERIALS;

/// Properties of a material. The maker's declared value goes before the table's range.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Material {
    /// Plain name, words joined by hyphens, for example `sheep-wool`.
    pub name: &'static str,
    /// Thermal conductivity, W/(m·K).
    pub conductivity: Interval,
    /// Density, kg/m³, where known.
    pub density: Option<Interval>,
    /// Specific heat, J/(kg·K), where known.
    pub specific_heat: Option<f64>,
    /// Water vapour resistance factor µ (no unit: times as much as still air), where known.
    pub vapour_resistance: Option<Interval>,
    /// True for batts and wools, which hold less when they are pressed.
    pub fibrous: bool,
    /// Source of the conductivity; the head of the table tells the sources of the rest.
    pub citation: &'static Citation,
}

/// The material of that name; `None` for a name that the table does not have.
#[must_use]
pub fn material(name: &str) -> Option<&'static Material> {
    MATERIALS.iter().find(|row| row.name == name)
}

/// All materials of the table.
#[must_use]
pub fn materials() -> &'static [Material] {
    MATERIALS
}

/// Factor from declared to design conductivity for goods that carry the CE mark only, in Germany, with its source; 1 for goods under outside
/// control.
pub static DECLARED_TO_DESIGN: (f64, Citation) = (
    1.2,
    Citation {
        document: "DIN V 4108-4",
        place: "design value from the declared value, category I",
        edition: "as quoted in a handbook",
        mark: Mark::Read,
        address: "",
    },
);
