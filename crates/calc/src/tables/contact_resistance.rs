//! What protective devices, contacts and joints add to a circuit, where nobody says it.
//!
//! * Fuses: the voltage across them at their rated current. Blade 0.1 V: the sheets of such fuses lie between 0.08 and 0.13 V from 30 A down to
//!   5 A (memory). Bolted, cartridge and class T fuses 0.08 V (memory).
//! * Breakers of IEC 60898: the largest power that a pole may turn into heat at its rated current, table of the standard as remembered; the
//!   usual one is taken as half of it (chosen).
//! * Other breakers 0.15 V, contacts of switches, relays and connectors 0.05 V at their rated current (common practice, no source).
//! * Shunts: 50 mV at their rated current; 75 and 100 mV are sold too (common practice, no source).
//! * A contact whose rating is not said: 0.5 mΩ (common practice, no source).
//! * The joint of a bond on the vehicle's metal 0.2 mΩ, and the strap between a base vehicle's battery and its metal 0.5 mΩ (common practice,
//!   no source).
//!
//! The most is taken as twice the usual value (chosen) where no limit is remembered.

use crate::citation::{Citation, Mark};

pub(crate) static BLADE: Citation = Citation {
    document: "data sheets of blade fuses",
    place: "0.1 V at rated current, as remembered",
    edition: "",
    mark: Mark::Memory,
    address: "",
};

pub(crate) static OTHER_FUSE: Citation = Citation {
    document: "data sheets of bolted and cartridge fuses",
    place: "0.08 V at rated current, as remembered",
    edition: "",
    mark: Mark::Memory,
    address: "",
};

pub(crate) static BREAKER_60898: Citation = Citation {
    document: "IEC 60898-1",
    place: "largest power loss of a pole, as remembered; half of it is usual (chosen)",
    edition: "",
    mark: Mark::Memory,
    address: "",
};

pub(crate) static OTHER_BREAKER: Citation = Citation {
    document: "common practice, no source",
    place: "0.15 V across a breaker at rated current",
    edition: "",
    mark: Mark::CommonPractice,
    address: "",
};

pub(crate) static CONTACT: Citation = Citation {
    document: "common practice, no source",
    place: "0.05 V across a contact at rated current, 0.5 mΩ where no rating is said",
    edition: "",
    mark: Mark::CommonPractice,
    address: "",
};

pub(crate) static SHUNT: Citation = Citation {
    document: "common practice, no source",
    place: "50 mV across a shunt at rated current",
    edition: "",
    mark: Mark::CommonPractice,
    address: "",
};

pub(crate) static METAL: Citation = Citation {
    document: "common practice, no source",
    place: "0.2 mΩ in a joint on the vehicle's metal, 0.5 mΩ in a base vehicle's own strap",
    edition: "",
    mark: Mark::CommonPractice,
    address: "",
};

/// Voltage at rated current, V.
pub(crate) const BLADE_VOLTS: f64 = 0.1;
pub(crate) const OTHER_FUSE_VOLTS: f64 = 0.08;
pub(crate) const OTHER_BREAKER_VOLTS: f64 = 0.15;
pub(crate) const CONTACT_VOLTS: f64 = 0.05;
pub(crate) const SHUNT_VOLTS: f64 = 0.05;

/// Resistances, Ω.
pub(crate) const CONTACT_OHMS: f64 = 5e-4;
pub(crate) const JOINT_ON_METAL_OHMS: f64 = 2e-4;
pub(crate) const STRAP_OHMS: f64 = 5e-4;

/// The most over the usual value. Chosen.
pub(crate) const MOST: f64 = 2.0;

/// Largest power of a pole of IEC 60898 up to a rated current: (A, W).
pub(crate) const POLE_WATTS: [(f64, f64); 10] = [
    (10.0, 3.0),
    (16.0, 3.5),
    (25.0, 4.5),
    (32.0, 6.0),
    (40.0, 7.5),
    (50.0, 9.0),
    (63.0, 13.0),
    (80.0, 15.0),
    (100.0, 15.0),
    (125.0, 20.0),
];
