//! What the calculation answers.

use super::profile::DAYS;

/// An entry of a source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SourceEntry {
    /// Power of the sun through the day.
    Power,
    /// Factor of each day.
    ByDay,
    /// Largest output of the controller.
    Controller,
    /// Current of the alternator while driving.
    Amperes,
    /// Current of the alternator at idle.
    IdleAmperes,
    /// Current that the vehicle takes.
    VehicleAmperes,
    /// Voltage of the alternator.
    Volts,
    /// Limit of the split charge.
    LinkLimit,
    /// Output current of a converter or charger.
    OutputAmperes,
    /// Output voltage of a converter or charger.
    OutputVolts,
    /// Efficiency of a converter or charger.
    Efficiency,
    /// Share of the time in which the vehicle drives.
    Driving,
    /// Share of the time in which the engine idles.
    Idling,
    /// Largest power of the supply.
    Supply,
    /// Share of the time in which it is connected.
    Connected,
}

/// An entry, by name; loads, inverters and sources by index.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Entry {
    /// The battery's chemistry; also where the chemistry is one of which too little is known.
    Chemistry,
    /// The battery's nominal voltage.
    NominalVolts,
    /// The battery's capacity.
    Capacity,
    /// The share of it that is used.
    Usable,
    /// The efficiency of discharge.
    DischargeEfficiency,
    /// The efficiency of charge below the taper.
    ChargeEfficiency,
    /// The efficiency of charge within the taper.
    TaperEfficiency,
    /// Where the taper begins.
    TaperFrom,
    /// The largest charging current.
    ChargeLimit,
    /// Peukert's exponent or its rated time.
    Peukert,
    /// The battery's temperature; also where it lies below the temperatures for which its capacity is known.
    Temperature,
    /// The state of charge at the beginning.
    Start,
    /// The time at which the week begins.
    Begins,
    /// The level at which cut loads come on again.
    Reconnects,
    /// A load's power.
    LoadPower(usize),
    /// When a load runs.
    LoadRunning(usize),
    /// The efficiency of a load's converter.
    LoadConverter(usize),
    /// The inverter that a load names.
    LoadInverter(usize),
    /// What an inverter draws without load.
    InverterIdle(usize),
    /// An inverter's efficiency.
    InverterEfficiency(usize),
    /// When an inverter is switched on.
    InverterOn(usize),
    /// An entry of a source.
    Source(usize, SourceEntry),
}

/// Why an entry is not usable.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Reason {
    /// Not a finite number.
    NotFinite,
    /// Below zero.
    BelowZero,
    /// Zero or below where something is needed.
    NotAboveZero,
    /// Outside its range.
    OutOfRange,
    /// It names an inverter that is not there.
    NoSuchInverter,
}

/// An entry that is not usable.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Unusable {
    /// Which entry.
    pub entry: Entry,
    /// Why.
    pub reason: Reason,
}

impl std::fmt::Display for Unusable {
    fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let reason = match self.reason {
            Reason::NotFinite => "is not a finite number",
            Reason::BelowZero => "is below zero",
            Reason::NotAboveZero => "is not above zero",
            Reason::OutOfRange => "is outside its range",
            Reason::NoSuchInverter => "names an inverter that is not there",
        };
        write!(to, "{:?} {reason}", self.entry)
    }
}

impl std::error::Error for Unusable {}

/// How long the battery lasts from full without any source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lasting {
    /// Until the cut, s.
    Seconds(f64),
    /// Nothing draws on it.
    Endless,
}

impl Lasting {
    /// The time in s, infinite without a draw.
    #[must_use]
    pub const fn seconds(self) -> f64 {
        match self {
            Lasting::Seconds(seconds) => seconds,
            Lasting::Endless => f64::INFINITY,
        }
    }
}

/// What a source needs to fill the battery from the cut to [`super::RECHARGED`], alone and without loads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Recharge {
    /// This long, s: of driving, of connection or of the generator running; of the sun, from its first light with the nights between.
    Seconds(f64),
    /// More than a fortnight, or never.
    NotWithinFortnight,
    /// The battery is too cold or too hot to be charged at any time of the day.
    WrongTemperature,
    /// The source brings nothing.
    Nothing,
}

/// What draws on the battery.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cause {
    /// The load of this index.
    Load(usize),
    /// The inverter of this index, for being switched on.
    Idle(usize),
}

/// The load that decides: without it the battery would last longest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deciding {
    /// Which it is.
    pub cause: Cause,
    /// How long the battery would last without it.
    pub without: Lasting,
}

/// Energy of a source, J, in each 24 hours from the beginning.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SourceUse {
    /// What it could give.
    pub offered: [f64; DAYS],
    /// What was taken of it, by loads and battery.
    pub used: [f64; DAYS],
}

/// The week.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// Share of the rated capacity that is stored, at the beginning and after each of the 168 hours.
    pub state_of_charge: Vec<f64>,
    /// Share of the usable energy that is left, at the same times: 0 at the cut, in the cold earlier.
    pub usable_left: Vec<f64>,
    /// The least state of charge.
    pub least_state_of_charge: f64,
    /// The least share of the usable energy.
    pub least_usable_left: f64,
    /// When the usable energy is least, s from the beginning.
    pub least_at: f64,
    /// How long the battery lasts from full without any source.
    pub autonomy: Lasting,
    /// The load that decides; none without any.
    pub deciding: Option<Deciding>,
    /// What each source needs to fill the battery.
    pub recharge: Vec<Recharge>,
    /// Energy of each source.
    pub sources: Vec<SourceUse>,
    /// Energy that each load got, J at its own terminals, in each 24 hours.
    pub loads: Vec<[f64; DAYS]>,
    /// Energy that each inverter took for being switched on, J, in each 24 hours.
    pub idle: Vec<[f64; DAYS]>,
    /// Energy lost in inverters and converters, J.
    pub conversion_loss: f64,
    /// Energy lost in charging, J.
    pub charge_loss: f64,
    /// Energy lost in discharging, J.
    pub discharge_loss: f64,
    /// Energy in the store at the end over that at the beginning, J; below zero where it fell.
    pub stored: f64,
    /// Time in which loads wanted energy and got none, s.
    pub unserved_seconds: f64,
    /// Energy that loads and inverters wanted of the battery's terminals and did not get, J.
    pub unserved_joules: f64,
}

/// What can be told.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// Everything was known.
    Told(Box<Report>),
    /// Something was not known; the truth lies between the worst and the best that it may be. An end that has no bound is not there.
    Between {
        /// With every unknown entry at its worst.
        at_worst: Option<Box<Report>>,
        /// With every unknown entry at its best.
        at_best: Option<Box<Report>>,
        /// The entries that are not known.
        missing: Vec<Entry>,
    },
    /// Nothing can be told without these entries.
    CannotTell(Vec<Entry>),
}
