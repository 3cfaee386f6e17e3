//! From the entries of the sources to what each can give through the week.

use std::borrow::Cow;

use super::entries::{Driving, Link, Mains, Source, Sun};
use super::outcome::{Entry, Reason, SourceEntry as S, Unusable};
use super::picker::{Picker, Range, times};
use super::profile::{DAYS, STEPS, STEPS_PER_DAY, WeekProfile};

/// Shares of the time that add up to more than 1 by this are still taken as 1: sums of binary numbers. Chosen.
const SAME_SHARE: f64 = 1e-9;

/// A source as numbers.
pub(crate) struct SettledSource {
    /// What it can give at the battery's terminals through the week, W.
    pub(crate) watts: Box<[f64; STEPS]>,
    /// Share of the time in which it feeds the loads behind inverters itself.
    pub(crate) feeds: Option<WeekProfile>,
    /// What it gives while it works, W; none for the sun, which follows the day.
    pub(crate) working: Option<f64>,
}

impl SettledSource {
    /// True where every power is a number.
    pub(crate) fn is_bounded(&self) -> bool {
        self.watts.iter().all(|watts| watts.is_finite())
    }
}

/// Every source as numbers.
pub(crate) fn sources(picker: &mut Picker, sources: &[Source]) -> Result<Vec<SettledSource>, Unusable> {
    sources
        .iter()
        .enumerate()
        .map(|(index, source)| match source {
            Source::Sun(entries) => sun(picker, entries, index),
            Source::Driving(entries) => driving(picker, entries, index),
            Source::Mains(entries) => mains(picker, entries, index),
        })
        .collect()
}

fn sun(picker: &mut Picker, sun: &Sun, index: usize) -> Result<SettledSource, Unusable> {
    let at = |entry| Entry::Source(index, entry);
    let bounds = (0.0, f64::INFINITY);
    let day = picker.day(sun.watts.as_ref(), at(S::Power), Range::NotNegative, bounds)?;
    let mut factors = [0.0; DAYS];
    match sun.by_day {
        Some(given) => {
            for (factor, value) in factors.iter_mut().zip(given) {
                *factor = Picker::check(value, at(S::ByDay), Range::NotNegative)?;
            }
        }
        None => {
            picker.missing.push(at(S::ByDay));
            factors = [picker.by_side(0.0, f64::INFINITY); DAYS];
        }
    }
    let limit = picker.limit(sun.controller, at(S::Controller))?;
    let mut watts = Box::new([0.0; STEPS]);
    for (steps, factor) in watts.chunks_exact_mut(STEPS_PER_DAY).zip(factors) {
        for (step, &value) in steps.iter_mut().zip(day.steps()) {
            *step = times(value, factor).min(limit);
        }
    }
    Ok(SettledSource { watts, feeds: None, working: None })
}

fn driving(picker: &mut Picker, entries: &Driving, index: usize) -> Result<SettledSource, Unusable> {
    let at = |entry| Entry::Source(index, entry);
    let driving = picker.week(entries.driving.as_ref(), at(S::Driving), (0.0, 1.0))?;
    // Driving gives more than idling, so unknown idling counts as none at either end where driving is unknown too.
    let idling_best = if entries.driving.is_none() { 0.0 } else { 1.0 };
    let mut idling = picker.week(entries.idling.as_ref(), at(S::Idling), (0.0, idling_best))?;
    if entries.idling.is_none() && idling_best > 0.0 {
        idling = Cow::Owned(rest_of(&idling, &driving));
    }
    let known = entries.driving.is_some() && entries.idling.is_some();
    if known && driving.steps().iter().zip(idling.steps()).any(|(one, other)| one + other > 1.0 + SAME_SHARE) {
        return Err(Unusable { entry: at(S::Idling), reason: Reason::OutOfRange });
    }
    let most = (0.0, f64::INFINITY);
    let mut current = |value: Option<f64>, entry, matters: bool| match value {
        None if !matters => Ok(0.0),
        value => picker.number(value, at(entry), Range::NotNegative, most),
    };
    let drives = !driving.is_never();
    let idles = !idling.is_never();
    let hot = current(entries.amperes, S::Amperes, drives)?;
    let idle = current(entries.idle_amperes, S::IdleAmperes, idles)?;
    let vehicle = match entries.vehicle_amperes {
        None if !drives && !idles => 0.0,
        value => picker.number(value, at(S::VehicleAmperes), Range::NotNegative, (f64::INFINITY, 0.0))?,
    };
    let volts = match entries.volts {
        None if !drives && !idles => 0.0,
        value => picker.number(value, at(S::Volts), Range::Positive, most)?,
    };
    let spare = [hot, idle].map(|amperes| if vehicle.is_infinite() { 0.0 } else { (amperes - vehicle).max(0.0) });
    let [at_speed, at_idle] = match entries.link {
        Link::SplitCharge(limit) => {
            let limit = picker.limit(limit, at(S::LinkLimit))?;
            spare.map(|amperes| times(amperes.min(limit), volts))
        }
        Link::Converter { output_amperes, output_volts, efficiency } => {
            let amperes = picker.number(output_amperes, at(S::OutputAmperes), Range::NotNegative, most)?;
            let out_volts = picker.number(output_volts, at(S::OutputVolts), Range::Positive, most)?;
            let efficiency = picker.number(efficiency, at(S::Efficiency), Range::Share, (0.0, 1.0))?;
            spare.map(|spare| times(amperes, out_volts).min(times(times(spare, volts), efficiency)))
        }
    };
    let mut watts = Box::new([0.0; STEPS]);
    for ((step, &drive), &idle) in watts.iter_mut().zip(driving.steps()).zip(idling.steps()) {
        *step = times(at_speed, drive) + times(at_idle, idle);
    }
    // What idles only is filled by idling.
    let working = if drives { at_speed } else { at_idle };
    Ok(SettledSource { watts, feeds: None, working: Some(working) })
}

/// The share of the time that is left beside another.
fn rest_of(most: &WeekProfile, other: &WeekProfile) -> WeekProfile {
    most.map_with(other, |most, other| (most - other).max(0.0))
}

fn mains(picker: &mut Picker, mains: &Mains, index: usize) -> Result<SettledSource, Unusable> {
    let at = |entry| Entry::Source(index, entry);
    let most = (0.0, f64::INFINITY);
    let connected = picker.week(mains.connected.as_ref(), at(S::Connected), (0.0, 1.0))?;
    let amperes = picker.number(mains.output_amperes, at(S::OutputAmperes), Range::NotNegative, most)?;
    let volts = picker.number(mains.output_volts, at(S::OutputVolts), Range::Positive, most)?;
    let supply = picker.limit(mains.supply, at(S::Supply))?;
    // The efficiency only matters where the supply is limited.
    let limit = match mains.efficiency {
        None if supply.is_infinite() => supply,
        efficiency => times(supply, picker.number(efficiency, at(S::Efficiency), Range::Share, (0.0, 1.0))?),
    };
    let working = times(amperes, volts).min(limit);
    let mut watts = Box::new([0.0; STEPS]);
    for (step, &share) in watts.iter_mut().zip(connected.steps()) {
        *step = times(working, share);
    }
    let feeds = mains.feeds_alternating.then(|| connected.into_owned());
    Ok(SettledSource { watts, feeds, working: Some(working) })
}
