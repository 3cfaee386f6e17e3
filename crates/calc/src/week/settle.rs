//! From entries to numbers: what the run reckons with, for one side where something is not known.

use super::assumed::charging_allowed;
use super::entries::{Battery, Entries, Supply};
use super::outcome::{Entry, Reason, Unusable};
use super::picker::{Picker, Range, Side, times};
use super::profile::{STEP_SECONDS, STEPS_PER_DAY};
use super::settle_sources::{SettledSource, sources};
use super::store::Store;
use crate::energy::{DAY_SECONDS, cold_capacity_factor, peukert_exponent};

/// What an unknown rated time of Peukert's law counts as at the worst, s: 20 h, the longest usual rating, gives the smallest rated current.
const LONGEST_RATING: f64 = 20.0 * 3_600.0;

/// A load, W through the day.
pub(crate) struct SettledLoad {
    /// What it takes of the battery's terminals.
    pub(crate) at_battery: [f64; STEPS_PER_DAY],
    /// What it takes itself.
    pub(crate) at_load: [f64; STEPS_PER_DAY],
    /// Energy lost in its converter or inverter over what it takes itself.
    pub(crate) lost: f64,
    /// The inverter that feeds it.
    pub(crate) inverter: Option<usize>,
}

/// Everything as numbers.
pub(crate) struct Settled {
    pub(crate) store: Store,
    /// State of charge below which nothing is given, through the day.
    pub(crate) floor: [f64; STEPS_PER_DAY],
    /// Whether charging is allowed, through the day.
    pub(crate) charges: [bool; STEPS_PER_DAY],
    pub(crate) start: f64,
    /// The step of the day at which the week begins.
    pub(crate) begins: usize,
    pub(crate) reconnects: f64,
    pub(crate) loads: Vec<SettledLoad>,
    /// Idle power of each inverter through the day, W.
    pub(crate) idle: Vec<[f64; STEPS_PER_DAY]>,
    /// Sum of what is taken of the battery's terminals directly, W.
    pub(crate) direct: [f64; STEPS_PER_DAY],
    /// The same through inverters, their idle power included, W.
    pub(crate) alternating: [f64; STEPS_PER_DAY],
    pub(crate) sources: Vec<SettledSource>,
}

/// The numbers of one side, if it has a bound, and the entries that were missing.
pub(crate) fn settle(entries: &Entries, side: Side) -> Result<(Option<Settled>, Vec<Entry>), Unusable> {
    let mut picker = Picker::new(side);
    let battery = battery(&mut picker, &entries.battery)?;
    let reconnects = Picker::check(entries.reconnects, Entry::Reconnects, Range::Part)?;
    let begins = Picker::check(entries.begins, Entry::Begins, Range::NotNegative)?;
    if begins >= DAY_SECONDS {
        return Err(Unusable { entry: Entry::Begins, reason: Reason::OutOfRange });
    }
    let loads = loads(&mut picker, entries)?;
    let idle = idle(&mut picker, entries, &loads)?;
    let sources = sources(&mut picker, &entries.sources)?;

    let (mut direct, mut alternating) = ([0.0; STEPS_PER_DAY], [0.0; STEPS_PER_DAY]);
    for load in &loads {
        add(if load.inverter.is_some() { &mut alternating } else { &mut direct }, &load.at_battery);
    }
    for idle in &idle {
        add(&mut alternating, idle);
    }
    let bounded = direct.iter().chain(&alternating).all(|watts| watts.is_finite())
        && sources.iter().all(|source| source.is_bounded());
    let missing = picker.missing;
    let settled = battery.filter(|_| bounded && !picker.unbounded).map(|(store, floor, charges, start)| Settled {
        store,
        floor,
        charges,
        start,
        // Below a day's seconds, as checked above.
        begins: ((begins / STEP_SECONDS) as usize).min(STEPS_PER_DAY - 1),
        reconnects,
        loads,
        idle,
        direct,
        alternating,
        sources,
    });
    Ok((settled, missing))
}

/// Adds a course to a sum.
fn add(sum: &mut [f64; STEPS_PER_DAY], course: &[f64; STEPS_PER_DAY]) {
    for (sum, value) in sum.iter_mut().zip(course) {
        *sum += value;
    }
}

type SettledBattery = (Store, [f64; STEPS_PER_DAY], [bool; STEPS_PER_DAY], f64);

fn battery(picker: &mut Picker, battery: &Battery) -> Result<Option<SettledBattery>, Unusable> {
    let volts = picker.needed(battery.nominal_volts, Entry::NominalVolts, Range::Positive)?;
    let coulombs = picker.needed(battery.capacity_coulombs, Entry::Capacity, Range::Positive)?;
    let usable = picker.needed(battery.usable, Entry::Usable, Range::Share)?;
    let discharge = picker.needed(battery.discharge_efficiency, Entry::DischargeEfficiency, Range::Share)?;
    let charge = picker.needed(battery.charge_efficiency, Entry::ChargeEfficiency, Range::Share)?;
    let taper = picker.needed(battery.taper_efficiency, Entry::TaperEfficiency, Range::Share)?;
    let taper_from = picker.needed(battery.taper_from, Entry::TaperFrom, Range::Part)?;
    let limit = picker.limit(battery.charge_limit, Entry::ChargeLimit)?;
    let start = picker.number(battery.start, Entry::Start, Range::Part, (0.0, 1.0))?;
    let peukert = match battery.peukert {
        Some(peukert) => {
            Picker::check(peukert.exponent, Entry::Peukert, Range::OneAndAbove)?;
            Picker::check(peukert.rated_seconds, Entry::Peukert, Range::Positive)?;
            (peukert.exponent, peukert.rated_seconds)
        }
        None => {
            picker.missing.push(Entry::Peukert);
            match battery.chemistry.and_then(peukert_exponent) {
                Some(range) => (picker.by_side(range.most, 1.0), LONGEST_RATING),
                None => {
                    picker.unbounded |= picker.side == Side::Worst;
                    (1.0, LONGEST_RATING)
                }
            }
        }
    };
    if battery.chemistry.is_none() {
        picker.missing.push(Entry::Chemistry);
        picker.unbounded = true;
    }
    let temperature = match &battery.kelvin {
        Some(_) => Some(picker.day(battery.kelvin.as_ref(), Entry::Temperature, Range::Positive, (0.0, 0.0))?),
        None => {
            picker.missing.push(Entry::Temperature);
            picker.unbounded = true;
            None
        }
    };
    let (Some(chemistry), Some(temperature), Some(usable)) = (battery.chemistry, temperature, usable) else {
        return Ok(None);
    };
    let (mut floor, mut charges) = ([0.0; STEPS_PER_DAY], [false; STEPS_PER_DAY]);
    for ((floor, charges), &kelvin) in floor.iter_mut().zip(&mut charges).zip(temperature.steps()) {
        let Some(allowed) = charging_allowed(chemistry, kelvin) else {
            picker.missing.push(Entry::Chemistry);
            picker.unbounded = true;
            return Ok(None);
        };
        let Some((factor, _)) = cold_capacity_factor(chemistry, kelvin) else {
            picker.missing.push(Entry::Temperature);
            picker.unbounded = true;
            return Ok(None);
        };
        *floor = 1.0 - usable * factor;
        *charges = allowed;
    }
    let (Some(volts), Some(coulombs), Some(discharge), Some(charge), Some(taper), Some(taper_from)) =
        (volts, coulombs, discharge, charge, taper, taper_from)
    else {
        return Ok(None);
    };
    let joules = volts * coulombs;
    // The largest and the smallest numbers have products that are no longer numbers.
    if !joules.is_finite() || joules <= 0.0 {
        return Err(Unusable { entry: Entry::Capacity, reason: Reason::OutOfRange });
    }
    let store = Store {
        joules,
        discharge_efficiency: discharge,
        exponent: peukert.0,
        rated_watts: joules / peukert.1,
        limit: limit / coulombs,
        taper: 1.0 - taper_from,
        charge_efficiency: charge,
        taper_efficiency: taper,
    };
    Ok(Some((store, floor, charges, start)))
}

fn loads(picker: &mut Picker, entries: &Entries) -> Result<Vec<SettledLoad>, Unusable> {
    let mut settled = Vec::with_capacity(entries.loads.len());
    for (index, load) in entries.loads.iter().enumerate() {
        let running = picker.day(load.running.as_ref(), Entry::LoadRunning(index), Range::Part, (1.0, 0.0))?;
        let never = load.running.is_some() && running.steps().iter().all(|&share| share == 0.0);
        // What never runs needs no power; its number is still checked.
        let watts = match load.watts {
            None if never => 0.0,
            watts => picker.number(watts, Entry::LoadPower(index), Range::NotNegative, (f64::INFINITY, 0.0))?,
        };
        let (efficiency, inverter) = match load.supply {
            Supply::Direct => (1.0, None),
            Supply::Converter(efficiency) => {
                (picker.number(efficiency, Entry::LoadConverter(index), Range::Share, (0.0, 1.0))?, None)
            }
            Supply::Inverter(inverter) => {
                let Some(entry) = entries.inverters.get(inverter) else {
                    return Err(Unusable { entry: Entry::LoadInverter(index), reason: Reason::NoSuchInverter });
                };
                // Its own entry is named once, with the inverters.
                (entry.efficiency.unwrap_or(picker.by_side(0.0, 1.0)), Some(inverter))
            }
        };
        let at_load = running.steps().map(|share| times(watts, share));
        // Without bound where the efficiency is not known; nothing taken stays nothing.
        let over = 1.0 / efficiency;
        let at_battery = at_load.map(|watts| times(watts, over));
        settled.push(SettledLoad { at_battery, at_load, lost: over - 1.0, inverter });
    }
    Ok(settled)
}

fn idle(picker: &mut Picker, entries: &Entries, loads: &[SettledLoad]) -> Result<Vec<[f64; STEPS_PER_DAY]>, Unusable> {
    let mut settled = Vec::with_capacity(entries.inverters.len());
    for (index, inverter) in entries.inverters.iter().enumerate() {
        let serves = loads.iter().any(|load| load.inverter == Some(index) && load.at_load.iter().any(|&w| w > 0.0));
        match inverter.efficiency {
            None if !serves => {}
            efficiency => {
                picker.number(efficiency, Entry::InverterEfficiency(index), Range::Share, (0.0, 1.0))?;
            }
        }
        let on = picker.day(inverter.on.as_ref(), Entry::InverterOn(index), Range::Part, (1.0, 0.0))?;
        let mut on = *on.steps();
        for (load, entry) in loads.iter().zip(&entries.loads) {
            if load.inverter != Some(index) {
                continue;
            }
            let unknown = picker.by_side(1.0, 0.0);
            for (step, on) in on.iter_mut().enumerate() {
                let running = entry.running.as_ref().map(|running| running.steps());
                let share = running.and_then(|steps| steps.get(step).copied()).unwrap_or(unknown);
                *on = on.max(share);
            }
        }
        let off = on.iter().all(|&share| share == 0.0);
        let watts = match inverter.idle_watts {
            None if off && inverter.on.is_some() => 0.0,
            watts => picker.number(watts, Entry::InverterIdle(index), Range::NotNegative, (f64::INFINITY, 0.0))?,
        };
        settled.push(on.map(|share| times(watts, share)));
    }
    Ok(settled)
}
