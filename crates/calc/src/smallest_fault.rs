//! The smallest fault current at the end of a run, and what a device needs to open on it.

use crate::citation::Citation;
use crate::number::{finite, not_negative, positive};
use crate::protection::DeviceClass;
use crate::tables::opening_multiples as table;

/// Smallest current of a dead short at the end of a run, A: U/(R_i + R_run) (Ohm).
///
/// `discharged_volts` of the empty battery, V ([`crate::discharged_voltage`]); `largest_internal_ohms`, the most its resistance can be, Ω
/// ([`crate::assumed_internal_resistance`]); `hot_run_ohms`, there and back at the conductor's working temperature, Ω
/// ([`crate::loop_resistance`]). A fault with a resistance of its own gives less. `None` where a number is not usable or nothing resists.
#[must_use]
pub fn smallest_fault_current(discharged_volts: f64, largest_internal_ohms: f64, hot_run_ohms: f64) -> Option<f64> {
    if !(positive(discharged_volts) && not_negative(largest_internal_ohms) && not_negative(hot_run_ohms)) {
        return None;
    }
    finite(discharged_volts / (largest_internal_ohms + hot_run_ohms))
}

/// Tripping curve of a breaker, IEC 60898-1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BreakerCurve {
    /// At once between 3 and 5 times the rating.
    B,
    /// At once between 5 and 10 times the rating.
    C,
    /// At once between 10 and 20 times the rating.
    D,
}

impl BreakerCurve {
    /// Every curve, rising.
    pub const ALL: [BreakerCurve; 3] = [BreakerCurve::B, BreakerCurve::C, BreakerCurve::D];

    /// The word a specification uses.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            BreakerCurve::B => "B",
            BreakerCurve::C => "C",
            BreakerCurve::D => "D",
        }
    }

    /// The curve of a specification's word, in upper or lower case; `None` for a word that names none.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|curve| curve.word().eq_ignore_ascii_case(word))
    }

    /// The multiples of the rating between which the breaker trips at once: below the first it surely does not, from the second it does.
    #[must_use]
    pub const fn instantaneous_range(self) -> (f64, f64) {
        match self {
            BreakerCurve::B => (3.0, 5.0),
            BreakerCurve::C => (5.0, 10.0),
            BreakerCurve::D => (10.0, 20.0),
        }
    }
}

/// The multiple of its rating at which a device of a class surely opens within ten seconds.
///
/// Blade fuses 3 (chosen), large blade 3.17 (computed between two points of a data sheet), IEC 60898 breakers the upper end of their
/// curve's instantaneous range. `None` for a breaker whose curve is not known and for classes of which no time-current data were seen.
#[must_use]
pub fn opening_multiple(class: DeviceClass, curve: Option<BreakerCurve>) -> Option<(f64, &'static Citation)> {
    match class {
        DeviceClass::Blade | DeviceClass::BladeSmall => Some((table::BLADE_MULTIPLE, &table::BLADE)),
        DeviceClass::BladeLarge => Some((table::LARGE_BLADE_MULTIPLE, &table::LARGE_BLADE)),
        DeviceClass::Breaker60898 | DeviceClass::Breaker60898Direct => {
            curve.map(|curve| (curve.instantaneous_range().1, &table::BREAKER))
        }
        DeviceClass::Cartridge
        | DeviceClass::Strip
        | DeviceClass::SingleBolt
        | DeviceClass::FlatPlate
        | DeviceClass::HighVoltageBoltDown
        | DeviceClass::ClassT
        | DeviceClass::ClassC
        | DeviceClass::Nh
        | DeviceClass::Cylindrical
        | DeviceClass::GlassTube
        | DeviceClass::BreakerMouldedCase
        | DeviceClass::BreakerDcHydraulicMagnetic
        | DeviceClass::BreakerDcThermal => None,
    }
}
