//! Entries that the tests of the design week share.

// Each test file uses its own part of these.
#![allow(dead_code)]
#![allow(clippy::expect_used, clippy::panic)]

use calc::Chemistry;
use calc::week::{
    Battery, DayProfile, Driving, Entries, Inverter, Limit, Link, Load, Mains, MainsKind, Outcome, Peukert, Report,
    Source, Sun, Supply, WeekProfile, simulate,
};

pub const HOUR: f64 = 3_600.0;
pub const WATT_HOUR: f64 = 3_600.0;
pub const AMPERE_HOUR: f64 = 3_600.0;
pub const DAY: f64 = 86_400.0;

pub fn celsius(value: f64) -> f64 {
    value + 273.15
}

#[track_caller]
pub fn close(value: f64, expected: f64, relative: f64) {
    assert!((value - expected).abs() <= relative * expected.abs(), "{value} against {expected}");
}

/// A battery without any loss, all of it usable, at 26.7 °C, full at the beginning, without limit or taper.
pub fn ideal(chemistry: Chemistry, volts: f64, ampere_hours: f64) -> Battery {
    Battery {
        chemistry: Some(chemistry),
        nominal_volts: Some(volts),
        capacity_coulombs: Some(ampere_hours * AMPERE_HOUR),
        usable: Some(1.0),
        discharge_efficiency: Some(1.0),
        charge_efficiency: Some(1.0),
        taper_efficiency: Some(1.0),
        taper_from: Some(1.0),
        charge_limit: Limit::None,
        peukert: Some(Peukert { exponent: 1.0, rated_seconds: 20.0 * HOUR }),
        kelvin: Some(DayProfile::constant(celsius(26.7))),
        start: Some(1.0),
    }
}

/// A load all day at a duty.
pub fn steady(watts: f64, duty: f64) -> Load {
    Load { watts: Some(watts), running: Some(DayProfile::constant(duty)), supply: Supply::Direct }
}

/// A load from one hour to another.
pub fn between(watts: f64, from: f64, to: f64) -> Load {
    let running = DayProfile::between(from * HOUR, to * HOUR, 1.0);
    Load { watts: Some(watts), running, supply: Supply::Direct }
}

/// Sun from 8 to 16 h with a power, the same every day, on a controller without limit.
pub fn sun(watts: f64) -> Source {
    Source::Sun(Box::new(Sun {
        watts: DayProfile::between(8.0 * HOUR, 16.0 * HOUR, watts),
        by_day: Some([1.0; 7]),
        controller: Limit::None,
    }))
}

/// A drive every day from one hour to another, an alternator of amperes at 13.8 V without vehicle load behind a relay.
pub fn drive(amperes: f64, from: f64, to: f64) -> Driving {
    let hours = DayProfile::between(from * HOUR, to * HOUR, 1.0).expect("hours of a day");
    Driving {
        amperes: Some(amperes),
        idle_amperes: Some(0.35 * amperes),
        vehicle_amperes: Some(0.0),
        volts: Some(13.8),
        link: Link::SplitCharge(Limit::None),
        driving: Some(WeekProfile::every_day(&hours)),
        idling: Some(WeekProfile::never()),
    }
}

/// A charger on a site's mains on some nights from 18 to 8 h.
pub fn shore(amperes: f64, volts: f64, nights: [bool; 7]) -> Mains {
    Mains {
        kind: MainsKind::Shore,
        output_amperes: Some(amperes),
        output_volts: Some(volts),
        efficiency: Some(0.88),
        supply: Limit::None,
        connected: WeekProfile::nights(nights, 18.0 * HOUR, 8.0 * HOUR),
        feeds_alternating: false,
    }
}

/// An inverter that is on all day.
pub fn inverter(idle: f64, efficiency: f64) -> Inverter {
    Inverter { idle_watts: Some(idle), efficiency: Some(efficiency), on: Some(DayProfile::constant(1.0)) }
}

/// A week from midnight.
pub fn week(battery: Battery, loads: Vec<Load>, sources: Vec<Source>) -> Entries {
    Entries { battery, loads, inverters: Vec::new(), sources, begins: 0.0, reconnects: 0.0 }
}

/// The report of entries that are all known.
#[track_caller]
pub fn told(entries: &Entries) -> Report {
    match simulate(entries) {
        Ok(Outcome::Told(report)) => *report,
        other => panic!("{other:?}"),
    }
}

/// Energy that comes in less energy that goes out, is lost or stays, J, and the sum of what comes in.
pub fn imbalance(report: &Report) -> (f64, f64) {
    let sum = |days: &[f64; 7]| days.iter().sum::<f64>();
    let into: f64 = report.sources.iter().map(|source| sum(&source.used)).sum();
    let out: f64 = report.loads.iter().chain(&report.idle).map(sum).sum();
    let lost = report.conversion_loss + report.charge_loss + report.discharge_loss;
    (into - out - lost - report.stored, into + out + lost + report.stored.abs())
}
