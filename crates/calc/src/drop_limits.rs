//! How much voltage may be lost on the way, by text and purpose.

use crate::citation::Citation;
use crate::number::positive;
use crate::tables::drop_limits as table;

/// A text that limits voltage drop, and for what.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DropPurpose {
    /// US small-craft guidance: main feeders, electronics, navigation lights, blowers.
    SmallCraftCritical,
    /// US small-craft guidance: all other circuits.
    SmallCraftOther,
    /// EN 1648-2: the line from the vehicle that charges the habitation battery.
    MotorCaravanCharging,
    /// EN 1648-2: other habitation lines.
    MotorCaravanOther,
    /// AS/NZS 3001.2: extra-low voltage.
    AustraliaExtraLow,
    /// NEC: an alternating-current branch circuit.
    NecBranch,
    /// NEC: feeder and branch together.
    NecTotal,
    /// IEC 60364-5-52: lighting on public supply.
    IecLighting,
    /// IEC 60364-5-52: other uses on public supply.
    IecOther,
    /// Exterior lamps of a vehicle, engine running.
    VehicleLamps,
}

/// How a limit is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DropAmount {
    /// A share of the nominal (for lamps: the design) voltage.
    Share(f64),
    /// Volts, written for a nominal voltage of 12 V.
    VoltsAtTwelve(f64),
}

/// A limit on voltage drop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DropLimit {
    /// How much may be lost.
    pub amount: DropAmount,
    /// The text.
    pub citation: &'static Citation,
}

/// Nominal voltages that count as a 12 V system, V. Chosen: 12.0 to 12.8 V are written, and six lead or four LFP cells reach no further.
const TWELVE_VOLTS: std::ops::RangeInclusive<f64> = 10.0..=15.0;

impl DropLimit {
    /// What may be lost at a nominal voltage V, V.
    ///
    /// `None` for a voltage that is not positive and finite, and where the text is written for 12 V and the system has another voltage.
    #[must_use]
    pub fn volts(&self, nominal_volts: f64) -> Option<f64> {
        if !positive(nominal_volts) {
            return None;
        }
        match self.amount {
            DropAmount::Share(share) => Some(share * nominal_volts),
            DropAmount::VoltsAtTwelve(volts) => TWELVE_VOLTS.contains(&nominal_volts).then_some(volts),
        }
    }
}

/// The limit of a text for a purpose.
#[must_use]
pub const fn drop_limit(purpose: DropPurpose) -> DropLimit {
    let (amount, citation) = match purpose {
        DropPurpose::SmallCraftCritical => (DropAmount::Share(0.03), &table::SMALL_CRAFT_CRITICAL),
        DropPurpose::SmallCraftOther => (DropAmount::Share(0.10), &table::SMALL_CRAFT_OTHER),
        DropPurpose::MotorCaravanCharging => (DropAmount::VoltsAtTwelve(0.2), &table::MOTOR_CARAVAN_CHARGING),
        DropPurpose::MotorCaravanOther => (DropAmount::VoltsAtTwelve(0.8), &table::MOTOR_CARAVAN_OTHER),
        DropPurpose::AustraliaExtraLow => (DropAmount::Share(0.05), &table::AUSTRALIA),
        DropPurpose::NecBranch => (DropAmount::Share(0.03), &table::NEC),
        DropPurpose::NecTotal => (DropAmount::Share(0.05), &table::NEC),
        DropPurpose::IecLighting => (DropAmount::Share(0.03), &table::IEC),
        DropPurpose::IecOther => (DropAmount::Share(0.05), &table::IEC),
        DropPurpose::VehicleLamps => (DropAmount::Share(0.15), &table::VEHICLE_LAMPS),
    };
    DropLimit { amount, citation }
}

/// Smallest copper area that keeps a voltage drop within a limit, m², by a text's own resistivity: ρ·L·I/ΔU with the length there **and**
/// back, m, and the current, A.
///
/// Only for comparing with a text; the drop of a real conductor comes from [`crate::resistance_per_metre`] at its temperature. Published
/// resistivities differ by 21 %: [`EN_1648_2_RESISTIVITY`] is stated for 50 °C, that of ISO 10133 (1.64e-8 Ω·m) is copper at 7.6 °C and too
/// low for every real cable, so it is not offered. `None` where a number is not positive and finite.
#[must_use]
pub fn area_for_drop(resistivity: f64, loop_metres: f64, amperes: f64, drop_volts: f64) -> Option<f64> {
    let usable = positive(resistivity) && positive(loop_metres) && positive(amperes) && positive(drop_volts);
    let area = resistivity * loop_metres * amperes / drop_volts;
    (usable && area.is_finite()).then_some(area)
}

/// Resistivity that EN 1648-2 reckons with, Ω·m (second-hand, [`DropPurpose::MotorCaravanCharging`]'s text).
pub const EN_1648_2_RESISTIVITY: f64 = 1.989e-8;
