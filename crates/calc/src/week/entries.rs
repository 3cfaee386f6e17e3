//! What the calculation is told.

use super::profile::{DAYS, DayProfile, WeekProfile};
use crate::battery::Chemistry;

/// A limit that may not exist.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Limit {
    /// There is none.
    None,
    /// It is this.
    Known(f64),
    /// There is one, or may be one, of unknown size.
    Unknown,
}

/// The exponent of Peukert's law and the time of the rating that it belongs to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Peukert {
    /// Exponent, 1 and above.
    pub exponent: f64,
    /// Time of the rated discharge, s: 20 h for a usual lead battery.
    pub rated_seconds: f64,
}

/// The batteries of a bank together.
#[derive(Debug, Clone, PartialEq)]
pub struct Battery {
    /// What they are made of.
    pub chemistry: Option<Chemistry>,
    /// Nominal voltage, V.
    pub nominal_volts: Option<f64>,
    /// Rated capacity, C.
    pub capacity_coulombs: Option<f64>,
    /// Share of the capacity that is used, above 0 and at most 1: at its end the loads are cut ([`crate::usable_fraction`]).
    pub usable: Option<f64>,
    /// Energy given over energy taken out of the store, above 0 and at most 1 ([`crate::discharge_efficiency`]).
    pub discharge_efficiency: Option<f64>,
    /// Energy stored over energy given to it below the taper, above 0 and at most 1 ([`super::assumed_charge`]).
    pub charge_efficiency: Option<f64>,
    /// The same within the taper, where lead batteries gas.
    pub taper_efficiency: Option<f64>,
    /// State of charge from which the accepted current falls, 0 to 1; 1 for no taper.
    pub taper_from: Option<f64>,
    /// Largest charging current that they take, A.
    pub charge_limit: Limit,
    /// Peukert's law; an exponent of 1 for no loss by heavy currents.
    pub peukert: Option<Peukert>,
    /// Temperature over the day, K.
    pub kelvin: Option<DayProfile>,
    /// State of charge at the beginning, 0 to 1.
    pub start: Option<f64>,
}

impl Battery {
    /// A battery full at the beginning, whose shares and efficiencies are those to assume for its chemistry. All of them are to be shown as
    /// assumed: [`crate::usable_fraction`], [`crate::discharge_efficiency`] and [`super::assumed_charge`] give their sources. The
    /// temperature and Peukert's law stay unknown. `None` for a chemistry without such values.
    #[must_use]
    pub fn assumed(chemistry: Chemistry, nominal_volts: f64, capacity_coulombs: f64) -> Option<Self> {
        let charge = super::assumed_charge(chemistry)?;
        Some(Battery {
            chemistry: Some(chemistry),
            nominal_volts: Some(nominal_volts),
            capacity_coulombs: Some(capacity_coulombs),
            usable: Some(crate::usable_fraction(chemistry)?.0),
            discharge_efficiency: Some(crate::discharge_efficiency(chemistry)?.0),
            charge_efficiency: Some(charge.efficiency),
            taper_efficiency: Some(charge.taper_efficiency),
            taper_from: Some(charge.taper_from),
            charge_limit: Limit::Known(charge.rate * capacity_coulombs),
            peukert: None,
            kelvin: None,
            start: Some(1.0),
        })
    }
}

/// How a load is joined to the battery.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Supply {
    /// Directly.
    Direct,
    /// Through a converter with this efficiency, above 0 and at most 1.
    Converter(Option<f64>),
    /// Through the inverter of this index.
    Inverter(usize),
}

/// A load.
#[derive(Debug, Clone, PartialEq)]
pub struct Load {
    /// Power while it runs, W.
    pub watts: Option<f64>,
    /// Share of the time in which it runs, by time of the day, 0 to 1.
    pub running: Option<DayProfile>,
    /// How it is joined to the battery.
    pub supply: Supply,
}

/// An inverter.
#[derive(Debug, Clone, PartialEq)]
pub struct Inverter {
    /// What it draws without load, W ([`crate::inverter_idle_power`]).
    pub idle_watts: Option<f64>,
    /// Output over what it draws above its idle power, above 0 and at most 1.
    pub efficiency: Option<f64>,
    /// Share of the time in which it is switched on. While a load of its runs, it counts as on at least for that share.
    pub on: Option<DayProfile>,
}

/// Solar modules with their controller.
#[derive(Debug, Clone, PartialEq)]
pub struct Sun {
    /// Power at the battery's terminals through a day, W ([`crate::sun::array_day`]).
    pub watts: Option<DayProfile>,
    /// Factor of each day of the week, not below zero: dull and bright days; all 1 for a week of the same day.
    pub by_day: Option<[f64; DAYS]>,
    /// Largest output of the controller, W.
    pub controller: Limit,
}

/// What joins the alternator to the battery.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Link {
    /// A relay or the like, with the largest current that wires and fuses let through, A.
    SplitCharge(Limit),
    /// A converter that limits its current.
    Converter {
        /// Largest output, A.
        output_amperes: Option<f64>,
        /// Output voltage, V.
        output_volts: Option<f64>,
        /// Output over input power, above 0 and at most 1.
        efficiency: Option<f64>,
    },
}

/// The engine's alternator.
#[derive(Debug, Clone, PartialEq)]
pub struct Driving {
    /// Current that it gives while driving, hot, A ([`crate::alternator_hot_output`]).
    pub amperes: Option<f64>,
    /// Current that it gives at idle, hot, A ([`crate::alternator_idle_output`]).
    pub idle_amperes: Option<f64>,
    /// Current that the vehicle itself takes of it, A.
    pub vehicle_amperes: Option<f64>,
    /// Its voltage, V.
    pub volts: Option<f64>,
    /// What joins it to the battery.
    pub link: Link,
    /// Share of the time in which the vehicle drives, by time of the week, 0 to 1.
    pub driving: Option<WeekProfile>,
    /// Share of the time in which the engine idles, 0 to 1; together with driving at most 1.
    pub idling: Option<WeekProfile>,
}

/// Which supply feeds a mains charger.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MainsKind {
    /// The mains of a site.
    Shore,
    /// A generator.
    Generator,
}

/// A supply of alternating current with a charger.
#[derive(Debug, Clone, PartialEq)]
pub struct Mains {
    /// Which supply it is.
    pub kind: MainsKind,
    /// Largest output of the charger, A.
    pub output_amperes: Option<f64>,
    /// Output voltage of the charger, V.
    pub output_volts: Option<f64>,
    /// Output over input power of the charger, above 0 and at most 1.
    pub efficiency: Option<f64>,
    /// Largest power that the supply gives the charger, W.
    pub supply: Limit,
    /// Share of the time in which it is connected or runs, by time of the week, 0 to 1 ([`WeekProfile::nights`]).
    pub connected: Option<WeekProfile>,
    /// Whether it feeds the loads behind inverters while it is connected, so that neither they nor the inverters take anything from the
    /// battery. Its power for them is not limited here.
    pub feeds_alternating: bool,
}

/// A source of energy.
#[derive(Debug, Clone, PartialEq)]
pub enum Source {
    /// Solar modules.
    Sun(Box<Sun>),
    /// The engine's alternator.
    Driving(Driving),
    /// The mains of a site or a generator.
    Mains(Mains),
}

/// Everything that the calculation is told.
#[derive(Debug, Clone, PartialEq)]
pub struct Entries {
    /// The battery.
    pub battery: Battery,
    /// The loads.
    pub loads: Vec<Load>,
    /// The inverters that loads name by index.
    pub inverters: Vec<Inverter>,
    /// The sources in the order in which they are used: what costs nothing first.
    pub sources: Vec<Source>,
    /// Time of the first day at which the week begins, s after midnight, below a day's seconds; autonomy is reckoned from it too. It counts
    /// from the quarter hour that it lies in.
    pub begins: f64,
    /// Share of the usable energy at which loads that were cut come on again, 0 to 1; at 0 they take whatever comes.
    pub reconnects: f64,
}
