//! What is assumed of masses where nothing is said of them.
//!
//! Densities: water 1,000 kg/m³; diesel 820 to 845 (EN 590) and petrol 720 to 775 kg/m³ (EN 228) at 15 °C, both from memory. Small
//! things and the walls of tanks: chosen ranges, wide enough for what is sold.

use super::burden::ANY;
use crate::fact::{Fact, Outcome};
use crate::known::{Gap, Gaps, PartId};
use crate::reader::Reader;
use calc::heat::{Material, material};
use calc::mass::{Evidence, Mass};
use vocabulary::{PartKind, fact as f, kind};

/// The source of what is assumed, for the working.
pub const ASSUMED: &str = "assumption of this project: small things and empty tanks (chosen)";

/// Density kg/m³ of what a tank holds and the share by which it may differ.
pub fn density(holds: &str) -> (f64, f64) {
    match holds {
        "diesel" => (832.0, 0.02),
        "petrol" => (748.0, 0.04),
        _ => (1_000.0, 0.01),
    }
}

/// Mass of an empty tank for each m³ that it holds, kg/m³: a tenth of the water in it.
pub const TANK_WALL: f64 = 100.0;

/// The share by which it may differ.
pub const TANK_WALL_TOLERANCE: f64 = 0.5;

/// Mass kg of small things, and the share by which it may differ. What is heavier must be said.
const SMALL: [(PartKind, f64, f64); 11] = [
    (kind::LAMP, 0.5, 0.8),
    (kind::MONITOR, 0.3, 0.7),
    (kind::CONTROLLER, 0.5, 0.7),
    (kind::CHARGING_PLACE, 0.5, 0.7),
    (kind::FAN, 4.0, 0.5),
    (kind::EXTINGUISHER, 3.0, 0.6),
    (kind::PUMP, 2.0, 0.5),
    (kind::CHARGER, 2.5, 0.7),
    (kind::CONVERTER, 1.0, 0.8),
    (kind::SOLAR_CONTROLLER, 1.5, 0.7),
    (kind::TRANSFER_SWITCH, 1.5, 0.7),
];

/// What a small thing of this kind is assumed to weigh.
pub fn small(kind: PartKind) -> Option<(f64, f64)> {
    SMALL.iter().find(|(small, ..)| *small == kind).map(|(_, mass, share)| (*mass, *share))
}

/// What the first layer of a shell is made of when it is the base vehicle's own skin.
const SKINS: [&str; 5] = ["steel", "stainless-steel", "aluminium", "aluminium-alloy", "glass-fibre"];

/// The mass of the layers of a shell, without the base vehicle's own skin.
pub fn layers(reader: &mut Reader<'_>, shell: PartId) -> Outcome<Mass> {
    let layers = reader.build().inside(shell, kind::LAYER);
    if !layers.complete {
        return Err(Gaps::one(Gap::Unread(shell)));
    }
    let own = || Gaps::one(Gap::Entry(shell, f::shell::MASS));
    let (mut least, mut most) = (0.0, 0.0);
    for (place, &layer) in layers.members.iter().enumerate() {
        let Fact::Text(name) = reader.fact(layer, f::layer::MATERIAL, ANY)? else { return Err(own()) };
        if place == 0 && SKINS.iter().any(|skin| name.starts_with(skin)) {
            continue;
        }
        let Some(density) = material(&name).and_then(|row: &Material| row.density) else { return Err(own()) };
        let area = reader.need(shell, f::shell::AREA, ANY)?;
        let volume = area * reader.need(layer, f::layer::THICKNESS, ANY)?;
        least += density.least() * volume;
        most += density.most() * volume;
    }
    let middle = f64::midpoint(least, most);
    // Laths, glue and offcuts differ by more than an exact density.
    const LEAST_SHARE: f64 = 0.1;
    let share = if middle > 0.0 { ((most - middle) / middle).max(LEAST_SHARE) } else { 0.0 };
    Mass::new(middle, Some(share), Evidence::Estimated).map_err(|_| own())
}
