//! What holds of every design week: energy is kept, more load and more cold never help, more sun never hurts; and of entries that are
//! not known the truth lies between the ends.

#![allow(clippy::expect_used)]

mod week_cases;

use calc::Chemistry::{Agm, FloodedLead, Gel, LithiumIronPhosphate};
use calc::week::{
    Battery, Cause, DayProfile, Entries, Inverter, Limit, Link, Load, MainsKind, Outcome, Peukert, Report, Source,
    Supply, WeekProfile, simulate,
};
use week_cases::{HOUR, celsius, drive, imbalance, shore, sun, told, week};

/// A small generator of numbers (D. Lehmer, modulus 2³¹ − 1, multiplier 48271), so that a failure can be repeated.
struct Numbers(u64);

impl Numbers {
    fn part(&mut self) -> f64 {
        self.0 = self.0 * 48_271 % 0x7fff_ffff;
        self.0 as f64 / f64::from(0x7fff_ffff_u32)
    }

    fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.part()
    }

    fn yes(&mut self) -> bool {
        self.part() < 0.5
    }

    fn hours(&mut self, value: f64) -> DayProfile {
        let (from, to) = (self.between(0.0, 24.0), self.between(0.0, 24.0));
        DayProfile::between(from * HOUR, to * HOUR, value).expect("hours of a day")
    }
}

fn load(numbers: &mut Numbers) -> Load {
    let supply = match (numbers.yes(), numbers.yes()) {
        (true, true) => Supply::Inverter(0),
        (true, false) => Supply::Converter(Some(numbers.between(0.8, 1.0))),
        _ => Supply::Direct,
    };
    let duty = numbers.part();
    Load { watts: Some(numbers.between(0.0, 300.0)), running: Some(numbers.hours(duty)), supply }
}

/// Any entries, all of them known.
fn any(numbers: &mut Numbers) -> Entries {
    let chemistry = [FloodedLead, Agm, Gel, LithiumIronPhosphate][(numbers.part() * 3.99) as usize];
    let coldest = numbers.between(-6.0, 20.0);
    let mut kelvin = [celsius(coldest); 24];
    kelvin[8..20].fill(celsius(coldest + numbers.between(0.0, 12.0)));
    let coulombs = numbers.between(50.0, 400.0) * 3_600.0;
    let battery = Battery {
        peukert: Some(Peukert { exponent: numbers.between(1.0, 1.4), rated_seconds: 20.0 * HOUR }),
        kelvin: Some(DayProfile::by_hour(kelvin)),
        start: Some(numbers.part()),
        ..Battery::assumed(chemistry, 12.0, coulombs).expect("the chemistry has values")
    };
    let loads = (0..5).map(|_| load(numbers)).collect();
    let Source::Sun(mut panels) = sun(numbers.between(0.0, 400.0)) else { unreachable!() };
    panels.by_day = Some(std::array::from_fn(|_| numbers.between(0.0, 1.5)));
    panels.controller = if numbers.yes() { Limit::Known(300.0) } else { Limit::None };
    let mut driving = drive(numbers.between(0.0, 120.0), 9.0, numbers.between(9.0, 12.0));
    if numbers.yes() {
        driving.link = Link::Converter { output_amperes: Some(30.0), output_volts: Some(14.2), efficiency: Some(0.9) };
    }
    let mut site = shore(numbers.between(0.0, 40.0), 14.2, std::array::from_fn(|_| numbers.part() < 0.2));
    site.feeds_alternating = numbers.yes();
    let mut generator = shore(30.0, 14.4, [false; 7]);
    generator.kind = MainsKind::Generator;
    generator.connected =
        Some(WeekProfile::on_days(&numbers.hours(1.0), [false, false, true, false, false, true, false]));
    let mut entries = week(
        battery,
        loads,
        vec![Source::Sun(panels), Source::Driving(driving), Source::Mains(site), Source::Mains(generator)],
    );
    entries.inverters = vec![Inverter { idle_watts: Some(15.0), efficiency: Some(0.9), on: Some(numbers.hours(1.0)) }];
    entries.begins = numbers.between(0.0, 24.0) * HOUR * 0.999;
    entries.reconnects = if numbers.yes() { 0.0 } else { numbers.part() * 0.8 };
    entries
}

const RUNS: u64 = 300;

/// Rounding of some thousand sums.
const ROUNDING: f64 = 1e-9;

#[test]
fn energy_is_kept() {
    let (mut cut, mut full) = (0, 0);
    for seed in 1..=RUNS {
        let report = told(&any(&mut Numbers(seed * 7_919)));
        let (difference, whole) = imbalance(&report);
        assert!(difference.abs() <= ROUNDING * whole, "{seed}: {difference} of {whole}");
        assert!(report.charge_loss >= -ROUNDING * whole && report.discharge_loss >= -ROUNDING * whole);
        assert!(report.conversion_loss >= -ROUNDING * whole);
        assert!(report.state_of_charge.iter().chain(&report.usable_left).all(|share| (0.0..=1.0).contains(share)));
        for source in &report.sources {
            for (used, offered) in source.used.iter().zip(source.offered) {
                assert!(*used <= offered * (1.0 + ROUNDING) + ROUNDING, "{seed}: {used} of {offered}");
            }
        }
        cut += u32::from(report.unserved_seconds > 0.0);
        full += u32::from(report.state_of_charge.iter().any(|&share| share > 0.98));
    }
    // The cases are worth something only if both ends of the battery are met in many.
    assert!(cut > 50 && full > 50, "{cut} cut, {full} full");
}

/// Pairs of reports, the second of which must not be better.
fn each_pair(change: impl Fn(&mut Entries, &mut Numbers), check: impl Fn(&Report, &Report, u64)) {
    for seed in 1..=RUNS {
        let mut numbers = Numbers(seed * 104_729);
        let mut entries = any(&mut numbers);
        let before = told(&entries);
        change(&mut entries, &mut numbers);
        check(&before, &told(&entries), seed);
    }
}

#[track_caller]
fn no_better(before: &Report, after: &Report, seed: u64) {
    assert!(after.least_usable_left <= before.least_usable_left + ROUNDING, "{seed}");
    assert!(after.autonomy.seconds() <= before.autonomy.seconds() * (1.0 + ROUNDING), "{seed}");
}

#[test]
fn more_load_never_helps() {
    each_pair(|entries, numbers| entries.loads.push(load(numbers)), no_better);
}

/// The cut lies at one state of charge as long as the temperature stays; where it changes, an earlier cut in the cold may leave more.
#[test]
fn more_load_never_raises_the_least_state_of_charge() {
    for seed in 1..=RUNS {
        let mut numbers = Numbers(seed * 611_953);
        let mut entries = any(&mut numbers);
        entries.battery.kelvin = Some(DayProfile::constant(celsius(numbers.between(-6.0, 25.0))));
        let before = told(&entries);
        entries.loads.push(load(&mut numbers));
        let after = told(&entries);
        no_better(&before, &after, seed);
        assert!(after.least_state_of_charge <= before.least_state_of_charge + ROUNDING, "{seed}");
    }
}

#[test]
fn colder_never_helps() {
    each_pair(
        |entries, numbers| {
            let by = numbers.between(0.0, 0.6);
            let colder =
                entries.battery.kelvin.as_ref().map(|kelvin| DayProfile::by_step(kelvin.steps().map(|k| k - by)));
            entries.battery.kelvin = colder;
        },
        no_better,
    );
}

/// The load that decides, against taking each away in turn. The inverter is on all day, so that its idle power does not hang on its loads.
#[test]
fn the_load_that_decides_by_trial() {
    let mut by_idle = 0;
    for seed in 1..=RUNS {
        let mut entries = any(&mut Numbers(seed * 32_452_843 % 0x7fff_ffff));
        entries.inverters[0].on = Some(DayProfile::constant(1.0));
        let deciding = told(&entries).deciding.expect("the inverter draws");
        let without = |change: &dyn Fn(&mut Entries)| {
            let mut entries = entries.clone();
            change(&mut entries);
            told(&entries).autonomy.seconds()
        };
        let mut trials: Vec<(Cause, f64)> = (0..entries.loads.len())
            .map(|index| (Cause::Load(index), without(&|entries| entries.loads[index].watts = Some(0.0))))
            .collect();
        trials.push((Cause::Idle(0), without(&|entries| entries.inverters[0].idle_watts = Some(0.0))));
        let longest = trials.iter().map(|trial| trial.1).fold(0.0, f64::max);
        let found = deciding.without.seconds();
        assert!((found - longest).abs() <= 1e-6 * longest, "{seed}: {found} of {trials:?}");
        let own = trials.iter().find(|trial| trial.0 == deciding.cause).expect("it was tried").1;
        assert!((own - longest).abs() <= 1e-6 * longest, "{seed}: {deciding:?} of {trials:?}");
        by_idle += u32::from(deciding.cause == Cause::Idle(0));
    }
    assert!((1..RUNS as u32).contains(&by_idle), "{by_idle}");
}

/// Without a level for reconnection, after which a battery that was cut earlier may stand higher, more sun is never worse at any hour.
#[test]
fn more_sun_never_hurts() {
    for seed in 1..=RUNS {
        let mut entries = any(&mut Numbers(seed * 15_485_863 % 0x7fff_ffff));
        entries.reconnects = 0.0;
        let before = told(&entries);
        entries.sources.push(sun(150.0));
        let after = told(&entries);
        assert!(after.unserved_joules <= before.unserved_joules * (1.0 + ROUNDING) + ROUNDING, "{seed}");
        for (before, after) in before.state_of_charge.iter().zip(&after.state_of_charge) {
            assert!(*after >= before - ROUNDING, "{seed}");
        }
        assert_eq!(before.autonomy, after.autonomy);
    }
}

/// Each entry taken away in turn: the truth lies between the ends that there are, and the entry is named.
#[test]
fn the_truth_lies_between_the_ends() {
    type Hide = fn(&mut Entries);
    let hidden: [(&str, Hide); 14] = [
        ("load's power", |entries| entries.loads[0].watts = None),
        ("load's time", |entries| entries.loads[0].running = None),
        ("converter", |entries| entries.loads[0].supply = Supply::Converter(None)),
        ("inverter's idle power", |entries| entries.inverters[0].idle_watts = None),
        ("inverter's time", |entries| entries.inverters[0].on = None),
        ("inverter's efficiency", |entries| entries.inverters[0].efficiency = None),
        ("start", |entries| entries.battery.start = None),
        ("Peukert", |entries| entries.battery.peukert = None),
        ("charge limit", |entries| entries.battery.charge_limit = Limit::Unknown),
        ("sun", |entries| with_sun(entries, |sun| sun.watts = None)),
        ("controller", |entries| with_sun(entries, |sun| sun.controller = Limit::Unknown)),
        ("alternator", |entries| with_drive(entries, |drive| drive.amperes = None)),
        ("vehicle", |entries| with_drive(entries, |drive| drive.vehicle_amperes = None)),
        ("driving", |entries| with_drive(entries, |drive| drive.driving = None)),
    ];
    let (mut worst, mut best) = (0, 0);
    for seed in 1..=40 {
        for (name, hide) in &hidden {
            let mut entries = any(&mut Numbers(seed * 7_907));
            entries.reconnects = 0.0;
            // Peukert's exponent is known by chemistry; the truth must be one of it.
            entries.battery.peukert = Some(Peukert { exponent: 1.05, rated_seconds: 20.0 * HOUR });
            if *name == "Peukert" && entries.battery.chemistry != Some(Agm) {
                continue;
            }
            let mut known = entries.clone();
            if *name == "converter" {
                known.loads[0].supply = Supply::Converter(Some(0.9));
            }
            let truth = told(&known);
            hide(&mut entries);
            let Ok(Outcome::Between { at_worst, at_best, missing }) = simulate(&entries) else {
                // What makes no difference is not missed: an inverter that serves nothing, an engine that never runs.
                assert!(matches!(simulate(&entries), Ok(Outcome::Told(_))), "{name}: {seed}");
                continue;
            };
            assert_eq!(missing.len(), 1, "{name}: {missing:?}");
            if let Some(report) = at_worst {
                worst += 1;
                no_better(&truth, &report, seed);
                assert!(
                    report.unserved_joules >= truth.unserved_joules * (1.0 - ROUNDING) - ROUNDING,
                    "{name}: {seed}"
                );
            }
            if let Some(report) = at_best {
                best += 1;
                no_better(&report, &truth, seed);
                assert!(
                    report.unserved_joules <= truth.unserved_joules * (1.0 + ROUNDING) + ROUNDING,
                    "{name}: {seed}"
                );
            }
        }
    }
    assert!(worst > 200 && best > 200, "{worst} at worst, {best} at best");
}

fn with_sun(entries: &mut Entries, change: impl Fn(&mut calc::week::Sun)) {
    for source in &mut entries.sources {
        if let Source::Sun(sun) = source {
            change(sun);
        }
    }
}

fn with_drive(entries: &mut Entries, change: impl Fn(&mut calc::week::Driving)) {
    for source in &mut entries.sources {
        if let Source::Driving(drive) = source {
            change(drive);
        }
    }
}
