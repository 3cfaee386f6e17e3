//! Resistances of protective devices, contacts and joints, to be assumed where nobody says them.

use crate::citation::Citation;
use crate::number::positive;
use crate::protection::DeviceClass;
use crate::tables::contact_resistance as table;

/// A resistance to assume, with its upper bound.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AssumedResistance {
    /// What is usual, Ω.
    pub usual: f64,
    /// The most that is to be reckoned with, Ω.
    pub most: f64,
    /// Where it comes from.
    pub citation: &'static Citation,
}

fn twice(usual: f64, citation: &'static Citation) -> AssumedResistance {
    AssumedResistance { usual, most: table::MOST * usual, citation }
}

/// Resistance of a fuse or breaker of a class and rated current, Ω: the voltage across it at its rated current over that current, or for breakers
/// of IEC 60898 their power over its square. Without a class that of a blade fuse, the largest of the fuses. `None` for a rating that is not usable.
#[must_use]
pub fn device_resistance(class: Option<DeviceClass>, rating: f64) -> Option<AssumedResistance> {
    if !positive(rating) {
        return None;
    }
    let (volts, citation) = match class {
        None
        | Some(
            DeviceClass::Blade
            | DeviceClass::BladeSmall
            | DeviceClass::BladeLarge
            | DeviceClass::GlassTube
            | DeviceClass::Cylindrical,
        ) => (table::BLADE_VOLTS, &table::BLADE),
        Some(DeviceClass::Breaker60898 | DeviceClass::Breaker60898Direct) => {
            let &(_, watts) = table::POLE_WATTS.iter().find(|(up_to, _)| rating <= *up_to)?;
            let most = watts / rating / rating;
            return Some(AssumedResistance { usual: most / table::MOST, most, citation: &table::BREAKER_60898 });
        }
        Some(
            DeviceClass::BreakerMouldedCase | DeviceClass::BreakerDcHydraulicMagnetic | DeviceClass::BreakerDcThermal,
        ) => (table::OTHER_BREAKER_VOLTS, &table::OTHER_BREAKER),
        Some(
            DeviceClass::Cartridge
            | DeviceClass::Strip
            | DeviceClass::SingleBolt
            | DeviceClass::FlatPlate
            | DeviceClass::HighVoltageBoltDown
            | DeviceClass::ClassT
            | DeviceClass::ClassC
            | DeviceClass::Nh,
        ) => (table::OTHER_FUSE_VOLTS, &table::OTHER_FUSE),
    };
    Some(twice(volts / rating, citation))
}

/// Resistance of a closed contact or of a plug and socket, Ω; of one whose rating is not said (or not usable) a value for all.
#[must_use]
pub fn closed_contact_resistance(rating: Option<f64>) -> AssumedResistance {
    let usual = match rating {
        Some(rating) if positive(rating) => table::CONTACT_VOLTS / rating,
        _ => table::CONTACT_OHMS,
    };
    twice(usual, &table::CONTACT)
}

/// Resistance of a measuring resistor, Ω: 50 mV over its rated current; as a contact where that is not said (or not usable).
#[must_use]
pub fn shunt_resistance(rating: Option<f64>) -> AssumedResistance {
    match rating {
        Some(rating) if positive(rating) => twice(table::SHUNT_VOLTS / rating, &table::SHUNT),
        _ => closed_contact_resistance(None),
    }
}

/// Resistance of the joint of a bond on the vehicle's metal, Ω.
#[must_use]
pub fn metal_joint_resistance() -> AssumedResistance {
    twice(table::JOINT_ON_METAL_OHMS, &table::METAL)
}

/// Resistance of the strap by which a base vehicle's own battery is joined to its metal, Ω.
#[must_use]
pub fn metal_strap_resistance() -> AssumedResistance {
    twice(table::STRAP_OHMS, &table::METAL)
}
