//! Air for flames against the published tables and worked values.

use calc::air::{
    AlarmStandard, CARBON_MONOXIDE_EXPOSURE, US_COOKING_FAN, US_COOKING_OPENING, alarm_answers, australian_openings,
    carbon_dioxide_of_flame, carbon_monoxide_after, carbon_monoxide_of_flame, carbon_monoxide_steady, combustion_air,
    effective_area, en_721_open, en_721_sealed, fan_suction, stack_flow, time_to_carbon_monoxide,
};

const HOUR: f64 = 3_600.0;
const MM2: f64 = 1e-6;
const MEGAJOULE_AN_HOUR: f64 = 1e6 / 3_600.0;

#[track_caller]
fn close(value: Option<f64>, expected: f64, relative: f64) {
    let found = value.is_some_and(|value| (value - expected).abs() <= relative * expected.abs());
    assert!(found, "{value:?} against {expected}");
}

/// EN 721, row by row as two pages print it, the edges in the lower row, and the three worked vehicles.
#[test]
fn en_721_row_by_row() {
    for (plan, roof, wall, low) in [
        (4.0, 7_500.0, 15_000.0, 1_000.0),
        (5.0, 7_500.0, 15_000.0, 1_000.0),
        (5.1, 10_000.0, 20_000.0, 1_500.0),
        (10.0, 10_000.0, 20_000.0, 1_500.0),
        (10.1, 12_500.0, 25_000.0, 2_000.0),
        (15.0, 12_500.0, 25_000.0, 2_000.0),
        (15.1, 15_000.0, 30_000.0, 3_000.0),
        (20.0, 15_000.0, 30_000.0, 3_000.0),
        (20.1, 20_000.0, 40_000.0, 5_000.0),
        (5.99 * 2.05, 12_500.0, 25_000.0, 2_000.0),
        (4.90 * 1.90, 10_000.0, 20_000.0, 1_500.0),
        (7.00 * 2.30, 15_000.0, 30_000.0, 3_000.0),
    ] {
        let found = en_721_open(plan);
        close(found.map(|found| found.roof), roof * MM2, 1e-12);
        close(found.map(|found| found.wall), wall * MM2, 1e-12);
        close(found.map(|found| found.low), low * MM2, 1e-12);
    }
    for bound in [0, 1] {
        let sealed = en_721_sealed(10.0).map(|bounds| bounds[bound]);
        close(sealed.map(|found| found.roof), 1_500.0 * MM2, 1e-12);
        close(sealed.map(|found| found.wall), 3_000.0 * MM2, 1e-12);
        close(sealed.map(|found| found.low), 500.0 * MM2, 1e-12);
    }
    // Beyond 10 m² the row without flames is not known: no less than the row below, no more than with flames.
    assert_eq!(en_721_sealed(12.0).map(|[least, _]| Some(least)), Some(en_721_sealed(10.0).map(|[least, _]| least)));
    assert_eq!(en_721_sealed(12.0).map(|[_, most]| Some(most)), Some(en_721_open(12.0)));
    assert_eq!(en_721_sealed(-1.0), None);
    assert_eq!(en_721_open(f64::NAN), None);
}

/// The Australian formula: a cooker of 29 MJ/h and two berths need 18,990 mm²; with sealed appliances alone the floor of 4,000 mm² holds.
#[test]
fn australian_openings_as_published() {
    close(australian_openings(29.0 * MEGAJOULE_AN_HOUR, 2.0), 18_990.0 * MM2, 1e-9);
    close(australian_openings(0.0, 2.0), 4_000.0 * MM2, 1e-12);
    assert_eq!(australian_openings(-1.0, 2.0), None);
}

/// 24 CFR 3280.710(e) and 3280.103(c)(2): 12.5 in² is 8,065 mm², 100 cfm is 47.2 L/s.
#[test]
fn what_is_due_over_a_cooker_in_the_united_states() {
    close(Some(US_COOKING_OPENING), 8_065.0 * MM2, 1e-4);
    close(Some(US_COOKING_FAN), 47.2e-3, 1e-3);
}

/// Worked: 12,500 and 2,000 mm² let through as 1,975 mm²; at 1.8 m and 20 K (20 and 0 °C) that is 6.7 m³/h.
#[test]
fn the_smaller_opening_governs() {
    close(effective_area(12_500.0 * MM2, 2_000.0 * MM2), 1_975.0 * MM2, 1e-3);
    close(stack_flow(2_000.0 * MM2, 12_500.0 * MM2, 1.8, 293.15, 273.15).map(|flow| flow * HOUR), 6.7, 6e-3);
    assert_eq!(stack_flow(2_000.0 * MM2, 0.0, 1.8, 293.15, 273.15), Some(0.0));
    assert_eq!(stack_flow(2_000.0 * MM2, 0.01, 1.8, 283.15, 293.15), Some(0.0));
    assert_eq!(effective_area(-1.0, 1.0), None);
    // 25 m³/min through 100 cm²: by hand v = 0.41667/(0.6·0.01) = 69.44 m/s, 0.602·v² = 2,903 Pa.
    close(fan_suction(25.0 / 60.0, 0.01), 2_903.0, 1e-3);
    assert_eq!(fan_suction(0.1, 0.0), None);
}

/// Worked: 2 kW take 2.02 m³/h of air at least, 4.0 with 100 % excess; 1 kWh leaves 127 L of carbon dioxide.
#[test]
fn what_a_flame_takes_and_leaves() {
    close(combustion_air(2_000.0, 0.0).map(|flow| flow * HOUR), 2.02, 5e-3);
    // Printed to one decimal: half of the last digit is 0.05 m³/h.
    close(combustion_air(2_000.0, 1.0).map(|flow| flow * HOUR), 4.0, 0.05 / 4.0);
    close(carbon_dioxide_of_flame(1_000.0).map(|flow| flow * HOUR), 0.127, 5e-3);
    assert_eq!(combustion_air(f64::INFINITY, 0.0), None);
}

/// Worked: 10 m³, 5 m³/h, a hob of 2 kW with 1 % of carbon monoxide to carbon dioxide: 508 ppm in the end; 35, 70, 150 and 400 ppm after 8.6, 17.8,
/// 41.9 and 185 min. Without fresh air 70 ppm after 16.5 and 1,200 after 283 min.
#[test]
fn carbon_monoxide_of_a_fault() {
    let production = carbon_monoxide_of_flame(2_000.0, 0.01).unwrap_or(f64::NAN);
    close(Some(production * HOUR), 0.00254, 5e-3);
    close(carbon_monoxide_steady(production, 5.0 / HOUR), 508e-6, 5e-3);
    for (parts_per_million, minutes) in [(35.0, 8.6), (70.0, 17.8), (150.0, 41.9), (400.0, 185.0)] {
        let limit = parts_per_million * 1e-6;
        let time = time_to_carbon_monoxide(production, 5.0 / HOUR, 10.0, limit);
        close(time.map(|seconds| seconds / 60.0), minutes, 0.02);
        close(carbon_monoxide_after(production, 5.0 / HOUR, 10.0, time.unwrap_or(f64::NAN)), limit, 1e-9);
    }
    for (parts_per_million, minutes) in [(70.0, 16.5), (1_200.0, 283.0)] {
        let time = time_to_carbon_monoxide(production, 0.0, 10.0, parts_per_million * 1e-6);
        close(time.map(|seconds| seconds / 60.0), minutes, 5e-3);
    }
    // Never reached, and never steady.
    assert_eq!(time_to_carbon_monoxide(production, 5.0 / HOUR, 10.0, 600e-6), None);
    assert_eq!(carbon_monoxide_steady(production, 0.0), None);
    assert_eq!(carbon_monoxide_after(production, 0.0, 0.0, 1.0), None);
    // A generator's 500 g/h (0.429 m³/h) in 10 m³: 1,200 ppm after 1.7 min.
    close(time_to_carbon_monoxide(0.429 / HOUR, 0.0, 10.0, 1_200e-6).map(|seconds| seconds / 60.0), 1.7, 0.02);
}

/// UL 2034 and EN 50291 as printed; NIOSH, OSHA, NRC and WHO limits.
#[test]
fn exposure_and_alarms() {
    use AlarmStandard::{En50291, Ul2034};
    let minutes = |standard, parts| {
        alarm_answers(standard, parts).map(|(not, by)| (not.map(|time| time / 60.0), by.map(|time| time / 60.0)))
    };
    for (standard, parts, not_before, by) in [
        (Ul2034, 30, Some(43_200.0), None),
        (Ul2034, 70, Some(60.0), Some(240.0)),
        (Ul2034, 150, Some(10.0), Some(50.0)),
        (Ul2034, 400, Some(4.0), Some(15.0)),
        (En50291, 30, Some(120.0), None),
        (En50291, 50, Some(60.0), Some(90.0)),
        (En50291, 100, Some(10.0), Some(40.0)),
        (En50291, 300, None, Some(3.0)),
    ] {
        assert_eq!(minutes(standard, parts), Some((not_before, by)), "{standard:?} {parts}");
    }
    assert_eq!(alarm_answers(Ul2034, 100), None);
    let of = |body: &str, seconds: f64| {
        let limit =
            CARBON_MONOXIDE_EXPOSURE.iter().find(|limit| limit.body == body && (limit.seconds - seconds).abs() < 1.0);
        limit.map(|limit| limit.share * 1e6)
    };
    close(of("NIOSH, time-weighted", 10.0 * HOUR), 35.0, 1e-9);
    close(of("OSHA", 8.0 * HOUR), 50.0, 1e-9);
    close(of("WHO Europe 2000", HOUR), 25.0, 1e-9);
    close(of("NRC emergency", HOUR), 400.0, 1e-9);
}
