//! The edges of a design week: nothing to carry, nothing to store in, no source, the polar night, entries that are not known and numbers that are
//! not usable.

#![allow(clippy::expect_used)]

mod week_cases;

use calc::Chemistry::{Agm, LithiumIronPhosphate as Lfp, LithiumNickelManganeseCobalt as Nmc};
use calc::sun::{Array, Plane, Transposition, array_day, clear_day, on_plane};
use calc::week::{
    Battery, DayProfile, Entries, Entry, Lasting, Limit, Link, Load, Mains, MainsKind, Outcome, Peukert, Reason,
    Recharge, Source, SourceEntry, Supply, Unusable, WeekProfile, assumed_charge, charging_allowed, simulate,
};
use week_cases::{DAY, HOUR, celsius, close, drive, ideal, inverter, shore, steady, sun, told, week};

#[test]
fn nothing_to_carry() {
    for loads in [vec![], vec![steady(0.0, 1.0)], vec![steady(100.0, 0.0)]] {
        let report = told(&week(ideal(Lfp, 12.8, 100.0), loads, vec![sun(100.0)]));
        assert_eq!((report.autonomy, report.deciding), (Lasting::Endless, None));
        assert_eq!((report.unserved_seconds, report.least_usable_left, report.stored), (0.0, 1.0, 0.0));
        assert_eq!(report.sources[0].used, [0.0; 7]);
    }
}

#[test]
fn no_source_and_an_empty_battery() {
    let report = told(&week(ideal(Lfp, 12.8, 100.0), vec![steady(10.0, 1.0)], vec![]));
    assert!(report.recharge.is_empty() && report.sources.is_empty());
    close(report.autonomy.seconds(), 128.0 * HOUR, 1e-9);
    // Empty at the beginning: nothing is served all week, while autonomy is reckoned from full.
    let empty = Battery { start: Some(0.0), ..ideal(Lfp, 12.8, 100.0) };
    let report = told(&week(empty, vec![steady(10.0, 1.0)], vec![]));
    close(report.unserved_seconds, 7.0 * DAY, 1e-12);
    close(report.autonomy.seconds(), 128.0 * HOUR, 1e-9);
    assert_eq!(report.loads[0], [0.0; 7]);
}

/// An empty battery with half of what is wanted from a source: without a level for reconnection half of the time is served. With one the loads
/// stay off, and a battery of LFP in the frost is not charged meanwhile.
#[test]
fn empty_with_a_weak_source() {
    let battery = |temperature: f64| Battery {
        start: Some(0.0),
        kelvin: Some(DayProfile::constant(celsius(temperature))),
        ..ideal(Lfp, 12.8, 100.0)
    };
    let Source::Sun(mut panels) = sun(0.0) else { unreachable!() };
    panels.watts = Some(DayProfile::constant(5.0));
    let mut entries = week(battery(20.0), vec![steady(10.0, 1.0)], vec![Source::Sun(panels)]);
    let report = told(&entries);
    close(report.unserved_seconds, 3.5 * DAY, 1e-9);
    close(report.unserved_joules, 3.5 * DAY * 10.0, 1e-9);
    close(report.loads[0][3], 0.5 * DAY * 10.0, 1e-9);
    entries.reconnects = 0.9;
    let report = told(&entries);
    close(report.unserved_seconds, 7.0 * DAY, 1e-9);
    close(report.stored, 7.0 * DAY * 5.0, 1e-9);
    entries.battery = battery(-3.0);
    let report = told(&entries);
    assert_eq!((report.stored, report.sources[0].used), (0.0, [0.0; 7]));
}

/// An inverter that is switched off still idles while a load of its runs: three hours of 20 W.
#[test]
fn an_inverter_is_on_with_its_loads() {
    let running = DayProfile::between(18.0 * HOUR, 21.0 * HOUR, 1.0);
    let load = Load { watts: Some(90.0), running, supply: Supply::Inverter(0) };
    let mut entries = week(ideal(Lfp, 12.8, 1_000.0), vec![load], vec![]);
    entries.inverters = vec![inverter(20.0, 0.9)];
    entries.inverters[0].on = Some(DayProfile::constant(0.0));
    let report = told(&entries);
    close(report.idle[0][0] / 3_600.0, 60.0, 1e-9);
    close(report.conversion_loss / 3_600.0, 7.0 * 30.0, 1e-9);
}

/// Recharging counts from the lowest cut of the day, that of the warm hours: from 20 % to 98 % of 1,280 Wh by 138 W.
#[test]
fn recharge_from_the_lowest_cut() {
    let mut kelvin = [celsius(25.0); 24];
    kelvin[..8].fill(celsius(0.0));
    let battery = Battery { usable: Some(0.8), kelvin: Some(DayProfile::by_hour(kelvin)), ..ideal(Lfp, 12.8, 100.0) };
    let report = told(&week(battery, vec![], vec![Source::Driving(drive(10.0, 9.0, 10.0))]));
    assert!(
        matches!(report.recharge[0], Recharge::Seconds(found) if (found / HOUR - 0.78 * 1_280.0 / 138.0).abs() < 1e-6)
    );
}

/// In the polar night the sun of a real array brings nothing, and the report says so.
#[test]
fn polar_night() {
    let sky = clear_day(71_f64.to_radians(), 0.0, 355.0, 2.0).expect("usable numbers");
    let plane = on_plane(&sky, &Plane::LEVEL, Transposition::HayDavies).expect("usable numbers");
    let array = Array { rated_watts: 400.0, power_coefficient: -0.0037, rise: 0.0342, left: 0.8 };
    let Source::Sun(mut panels) = sun(0.0) else { unreachable!() };
    panels.watts = array_day(&array, &plane, celsius(-15.0));
    let battery = Battery { kelvin: Some(DayProfile::constant(celsius(10.0))), ..ideal(Lfp, 12.8, 100.0) };
    let report = told(&week(battery, vec![steady(20.0, 1.0)], vec![Source::Sun(panels)]));
    assert_eq!(report.recharge, [Recharge::Nothing]);
    assert_eq!(report.sources[0].offered, [0.0; 7]);
    assert_eq!(report.least_usable_left, 0.0);
}

/// Without these nothing can be told; all of them are named at once.
#[test]
fn what_nothing_can_be_told_without() {
    let known = || week(ideal(Lfp, 12.8, 100.0), vec![steady(10.0, 1.0)], vec![sun(50.0)]);
    let told_without = |change: &dyn Fn(&mut Entries)| {
        let mut entries = known();
        change(&mut entries);
        match simulate(&entries) {
            Ok(Outcome::CannotTell(missing)) => missing,
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(told_without(&|entries| entries.battery.capacity_coulombs = None), [Entry::Capacity]);
    assert_eq!(told_without(&|entries| entries.battery.kelvin = None), [Entry::Temperature]);
    assert_eq!(told_without(&|entries| entries.battery.chemistry = None), [Entry::Chemistry]);
    assert_eq!(told_without(&|entries| entries.battery.usable = None), [Entry::Usable]);
    // Too little is known of the chemistry, and of any chemistry in such cold.
    assert_eq!(told_without(&|entries| entries.battery.chemistry = Some(Nmc)), [Entry::Chemistry]);
    let arctic = Some(DayProfile::constant(celsius(-30.0)));
    assert_eq!(told_without(&|entries| entries.battery.kelvin = arctic.clone()), [Entry::Temperature]);
    let missing = told_without(&|entries| {
        entries.battery.nominal_volts = None;
        entries.battery.capacity_coulombs = None;
        entries.loads[0].watts = None;
    });
    assert_eq!(missing, [Entry::NominalVolts, Entry::Capacity, Entry::LoadPower(0)]);
    // One load without power and a sun without size bound neither end.
    let missing = told_without(&|entries| {
        entries.loads[0].watts = None;
        let Some(Source::Sun(panels)) = entries.sources.first_mut() else { unreachable!() };
        panels.watts = None;
    });
    assert_eq!(missing, [Entry::LoadPower(0), Entry::Source(0, SourceEntry::Power)]);
}

/// What is not known but makes no difference is not asked for: a load that never runs, an engine that never idles, the efficiency of a
/// charger on an ample supply, an inverter that serves nothing and is off.
#[test]
fn what_makes_no_difference_is_not_missing() {
    let mut entries = week(ideal(Lfp, 12.8, 100.0), vec![], vec![]);
    entries.loads = vec![Load { watts: None, ..steady(0.0, 0.0) }];
    let mut driving = drive(50.0, 9.0, 10.0);
    driving.idle_amperes = None;
    let mut parked = drive(50.0, 9.0, 10.0);
    (parked.driving, parked.amperes, parked.volts, parked.vehicle_amperes) =
        (Some(WeekProfile::never()), None, None, None);
    let site = Mains { efficiency: None, ..shore(20.0, 14.4, [true; 7]) };
    entries.sources = vec![Source::Driving(driving), Source::Driving(parked), Source::Mains(site)];
    let mut off = inverter(0.0, 0.9);
    (off.idle_watts, off.efficiency, off.on) = (None, None, Some(DayProfile::constant(0.0)));
    entries.inverters = vec![off];
    let report = told(&entries);
    assert_eq!(report.recharge[1], Recharge::Nothing);
}

/// An unknown load leaves the best end, an unknown sun the worst; each says what it can.
#[test]
fn one_end_is_left() {
    let mut entries = week(ideal(Lfp, 12.8, 100.0), vec![steady(10.0, 1.0), steady(5.0, 1.0)], vec![sun(50.0)]);
    entries.loads[1].watts = None;
    let Ok(Outcome::Between { at_worst: None, at_best: Some(best), missing }) = simulate(&entries) else {
        panic!("the load has no upper bound");
    };
    assert_eq!(missing, [Entry::LoadPower(1)]);
    close(best.autonomy.seconds(), 128.0 * HOUR, 1e-9);
    entries.loads[1].watts = Some(5.0);
    let Some(Source::Sun(panels)) = entries.sources.first_mut() else { unreachable!() };
    panels.watts = None;
    let Ok(Outcome::Between { at_worst: Some(worst), at_best: None, missing }) = simulate(&entries) else {
        panic!("the sun has no upper bound");
    };
    assert_eq!(missing, [Entry::Source(0, SourceEntry::Power)]);
    assert_eq!(worst.sources[0].offered, [0.0; 7]);
    // Where its controller is known, there is one.
    let Some(Source::Sun(panels)) = entries.sources.first_mut() else { unreachable!() };
    panels.controller = Limit::Known(300.0);
    let Ok(Outcome::Between { at_worst: Some(_), at_best: Some(best), .. }) = simulate(&entries) else {
        panic!("the controller bounds the sun");
    };
    assert_eq!(best.unserved_seconds, 0.0);
}

type Change = fn(&mut Entries, f64);

/// Every entry that takes a number.
const NUMBERS: [(Entry, Change); 24] = [
    (Entry::NominalVolts, |e, x| e.battery.nominal_volts = Some(x)),
    (Entry::Capacity, |e, x| e.battery.capacity_coulombs = Some(x)),
    (Entry::Usable, |e, x| e.battery.usable = Some(x)),
    (Entry::DischargeEfficiency, |e, x| e.battery.discharge_efficiency = Some(x)),
    (Entry::ChargeEfficiency, |e, x| e.battery.charge_efficiency = Some(x)),
    (Entry::TaperEfficiency, |e, x| e.battery.taper_efficiency = Some(x)),
    (Entry::TaperFrom, |e, x| e.battery.taper_from = Some(x)),
    (Entry::ChargeLimit, |e, x| e.battery.charge_limit = Limit::Known(x)),
    (Entry::Peukert, |e, x| e.battery.peukert = Some(Peukert { exponent: 1.2, rated_seconds: x })),
    (Entry::Peukert, |e, x| e.battery.peukert = Some(Peukert { exponent: x, rated_seconds: 72_000.0 })),
    (Entry::Temperature, |e, x| e.battery.kelvin = Some(DayProfile::constant(x))),
    (Entry::Start, |e, x| e.battery.start = Some(x)),
    (Entry::Begins, |e, x| e.begins = x),
    (Entry::Reconnects, |e, x| e.reconnects = x),
    (Entry::LoadPower(1), |e, x| e.loads[1].watts = Some(x)),
    (Entry::LoadRunning(0), |e, x| e.loads[0].running = Some(DayProfile::constant(x))),
    (Entry::LoadConverter(0), |e, x| e.loads[0].supply = Supply::Converter(Some(x))),
    (Entry::InverterIdle(0), |e, x| e.inverters[0].idle_watts = Some(x)),
    (Entry::InverterEfficiency(0), |e, x| e.inverters[0].efficiency = Some(x)),
    (Entry::InverterOn(0), |e, x| e.inverters[0].on = Some(DayProfile::constant(x))),
    (Entry::Source(0, SourceEntry::ByDay), |e, x| {
        if let Some(Source::Sun(panels)) = e.sources.first_mut() {
            panels.by_day = Some([x; 7]);
        }
    }),
    (Entry::Source(1, SourceEntry::VehicleAmperes), |e, x| {
        if let Some(Source::Driving(driving)) = e.sources.get_mut(1) {
            driving.vehicle_amperes = Some(x);
        }
    }),
    (Entry::Source(1, SourceEntry::LinkLimit), |e, x| {
        if let Some(Source::Driving(driving)) = e.sources.get_mut(1) {
            driving.link = Link::SplitCharge(Limit::Known(x));
        }
    }),
    (Entry::Source(2, SourceEntry::OutputVolts), |e, x| {
        if let Some(Source::Mains(site)) = e.sources.get_mut(2) {
            site.output_volts = Some(x);
        }
    }),
];

fn whole() -> Entries {
    let battery = Battery {
        peukert: Some(Peukert { exponent: 1.1, rated_seconds: 72_000.0 }),
        kelvin: Some(DayProfile::constant(celsius(10.0))),
        ..Battery::assumed(Agm, 12.0, 100.0 * 3_600.0).expect("the chemistry has values")
    };
    let mut generator = shore(30.0, 14.4, [true; 7]);
    generator.kind = MainsKind::Generator;
    let mut entries = week(
        battery,
        vec![steady(20.0, 0.5), Load { supply: Supply::Inverter(0), ..steady(100.0, 0.1) }],
        vec![sun(100.0), Source::Driving(drive(60.0, 9.0, 10.0)), Source::Mains(generator)],
    );
    entries.inverters = vec![inverter(10.0, 0.9)];
    entries
}

/// A number that is not finite or below zero is an error that names its entry. The whole entries without it are told.
#[test]
fn unusable_numbers_are_named() {
    told(&whole());
    for (entry, change) in NUMBERS {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let mut entries = whole();
            change(&mut entries, value);
            assert_eq!(simulate(&entries), Err(Unusable { entry, reason: Reason::NotFinite }), "{value}");
        }
        let mut entries = whole();
        change(&mut entries, -1.0);
        let found = simulate(&entries).expect_err("it is below zero");
        assert_eq!(found.entry, entry);
        assert!(!found.to_string().is_empty());
    }
    // No capacity is no battery.
    let mut entries = whole();
    entries.battery.capacity_coulombs = Some(0.0);
    assert_eq!(simulate(&entries), Err(Unusable { entry: Entry::Capacity, reason: Reason::NotAboveZero }));
    entries = whole();
    entries.loads[1].supply = Supply::Inverter(7);
    assert_eq!(simulate(&entries), Err(Unusable { entry: Entry::LoadInverter(1), reason: Reason::NoSuchInverter }));
    entries = whole();
    entries.begins = DAY;
    assert_eq!(simulate(&entries), Err(Unusable { entry: Entry::Begins, reason: Reason::OutOfRange }));
    // An engine cannot drive and idle all of the time.
    entries = whole();
    let mut driving = drive(60.0, 9.0, 10.0);
    driving.idling.clone_from(&driving.driving);
    entries.sources[1] = Source::Driving(driving);
    let entry = Entry::Source(1, SourceEntry::Idling);
    assert_eq!(simulate(&entries), Err(Unusable { entry, reason: Reason::OutOfRange }));
}

/// The largest and the smallest numbers give a report of numbers or an error, never a panic or what is no number.
#[test]
fn extreme_numbers() {
    let extremes = [0.0, -0.0, 5e-324, f64::MIN_POSITIVE, 1e-12, 1e-9, 1e-6, 1.0, 1e6, 1e12, 1e13, f64::MAX];
    let mut reports = 0;
    for (_, change) in NUMBERS {
        for value in extremes {
            for (_, other) in NUMBERS {
                for second in [1e-9, 1e12] {
                    let mut entries = whole();
                    change(&mut entries, value);
                    other(&mut entries, second);
                    let Ok(Outcome::Told(report)) = simulate(&entries) else { continue };
                    reports += 1;
                    let finite = [report.stored, report.charge_loss, report.discharge_loss, report.conversion_loss];
                    assert!(finite.iter().all(|value| value.is_finite()), "{report:?}");
                    assert!(!report.autonomy.seconds().is_nan() && report.unserved_joules.is_finite());
                    assert!(report.usable_left.iter().all(|share| (0.0..=1.0).contains(share)), "{report:?}");
                    let used = report.sources.iter().flat_map(|source| source.used);
                    assert!(used.chain(report.loads.concat()).all(|joules| joules.is_finite() && joules >= 0.0));
                }
            }
        }
    }
    assert!(reports > 1_000, "{reports}");
}

/// Profiles: over midnight, parts of a step, whole days; what lies outside the day is none.
#[test]
fn profiles() {
    let hours = |from: f64, to: f64| DayProfile::between(from * HOUR, to * HOUR, 1.0).map(|day| day.over_day() / HOUR);
    for (from, to, expected) in
        [(8.0, 16.0, 8.0), (22.0, 6.0, 8.0), (8.1, 8.2, 0.1), (0.0, 24.0, 24.0), (9.0, 9.0, 24.0), (23.9, 0.1, 0.2)]
    {
        close(hours(from, to).expect("hours of a day"), expected, 1e-9);
    }
    assert_eq!(hours(-1.0, 3.0).or(hours(3.0, 24.1)).or(hours(f64::NAN, 3.0)), None);
    assert_eq!(DayProfile::between(0.0, HOUR, f64::INFINITY), None);
    // A night belongs to the day on which it begins; the last ends on the first morning.
    let nights = WeekProfile::nights([false, false, false, false, false, false, true], 18.0 * HOUR, 8.0 * HOUR);
    let steps = *nights.expect("hours of a day").steps();
    let on = |day: usize, hour: usize| steps[(day * 24 + hour) * 4];
    assert_eq!(
        (on(6, 17), on(6, 18), on(6, 23), on(0, 0), on(0, 7), on(0, 8), on(1, 0)),
        (0.0, 1.0, 1.0, 1.0, 1.0, 0.0, 0.0)
    );
    let all_day = WeekProfile::nights([true; 7], 0.0, 0.0).expect("hours of a day");
    assert!(all_day.steps().iter().all(|&share| share == 1.0));
    assert_eq!(WeekProfile::nights([true; 7], 18.0 * HOUR, -1.0), None);
    assert_eq!(WeekProfile::nights([true; 7], 25.0 * HOUR, HOUR), None);
}

/// Published: LFP is charged from 0 to 60 °C. What is assumed of charging keeps a whole cycle within its remembered range: lead 0.80 to 0.85,
/// LFP 0.92 to 0.97.
#[test]
fn assumptions_of_charging() {
    let allowed = [-0.1, 0.0, 20.0, 60.0, 60.1].map(|temperature| charging_allowed(Lfp, celsius(temperature)));
    assert_eq!(allowed, [Some(false), Some(true), Some(true), Some(true), Some(false)]);
    assert_eq!((charging_allowed(Agm, celsius(-20.0)), charging_allowed(Nmc, celsius(20.0))), (Some(true), None));
    for (chemistry, least, most) in [(Agm, 0.80, 0.85), (Lfp, 0.92, 0.97)] {
        let charge = assumed_charge(chemistry).expect("has values");
        let cycle = charge.efficiency * calc::discharge_efficiency(chemistry).expect("has a value").0;
        assert!((least..=most).contains(&cycle), "{cycle}");
    }
    assert!(assumed_charge(Nmc).is_none());
}
