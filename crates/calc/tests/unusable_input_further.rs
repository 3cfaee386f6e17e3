//! Unusable numbers for energy, solar, ventilation, mains and devices: no value, never a panic, never a comfortable answer.

use calc::{ChargeStage, Chemistry, ConductorSize::Area, CordEntry, DropPurpose};

const NUMBERS: [f64; 13] = [
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    0.0,
    -0.0,
    -1.0,
    f64::MIN_POSITIVE,
    5e-324,
    f64::MAX,
    -f64::MAX,
    1e-9,
    0.5,
    300.0,
];

/// Whatever comes, a value that is given is a finite number not below zero.
#[test]
fn values_are_finite() {
    for a in NUMBERS {
        let single = [
            calc::free_opening_area(a),
            calc::alternator_hot_output(a),
            calc::alternator_idle_output(a),
            calc::largest_alternator_protection(a),
            calc::alternator_continuous_limit(a),
            calc::smallest_protective_conductor(a),
            calc::supply_lead_area(a).map(|found| found.0),
            calc::small_conductor_limit(Area(a)).map(|found| found.0),
            calc::park_trailer_limit(Area(a)).map(|found| found.0),
            calc::next_size_up(a, false),
            calc::next_size_up(a, true),
            calc::smallest_rating_for_load(true, a, true),
            calc::largest_rating_within(false, a),
            calc::inverter_idle_power(a).map(|found| found.0),
            calc::cord_length_limits(CordEntry::Rear, a).map(|found| found.0),
            calc::breaker_capacity_by_cranking(a).map(|found| found.main),
            calc::cold_capacity_factor(Chemistry::Agm, a).map(|found| found.0),
            calc::source_circuit_rating(a, u32::MAX),
        ];
        for (place, value) in single.into_iter().enumerate() {
            assert!(value.is_none_or(|value| value.is_finite() && value >= 0.0), "{place}: {a} gives {value:?}");
        }
        for b in NUMBERS {
            let double = [
                calc::hydrogen_ventilation_flow(u32::MAX, a, b),
                calc::spark_distance(a, b),
                calc::hydrogen_released(u32::MAX, a, b),
                calc::air_to_dilute(a, b),
                calc::days_of_autonomy(a, b),
                calc::largest_device_boat(a, b),
                calc::string_cold_voltage(a, u32::MAX, None, b).map(|found| found.volts),
            ];
            assert!(double.into_iter().flatten().all(|value| value.is_finite() && value >= 0.0), "{a} {b}: {double:?}");
            assert!(calc::charger_output(a, b).is_none() || (a > 0.0 && b > 0.0));
            assert!(calc::large_bank_need(Some(a), None, Some(b)).is_none() || a > 0.0);
            for c in NUMBERS {
                let triple = [
                    calc::energy_per_day(a, b, c),
                    calc::usable_energy(a, b, c, 0.9, 0.8),
                    calc::discharge_seconds(a, b, c, 1.2),
                    calc::discharge_seconds(a, b, 5.0, c),
                    calc::smallest_fault_current(a, b, c),
                    calc::string_cold_voltage(a, 1, Some(b), c).map(|found| found.volts),
                    calc::area_for_drop(a, b, c, 0.2),
                    calc::ladder_sharing(3, a, b, c).map(|shares| shares[0]),
                    calc::bar_sharing(a, &[b, c], 100.0).map(|shares| shares[0]),
                ];
                assert!(
                    triple.into_iter().flatten().all(|value| value.is_finite() && value >= 0.0),
                    "{a} {b} {c}: {triple:?}"
                );
            }
        }
    }
}

/// Nothing, below nothing and no number get no answer.
#[test]
fn no_value_without_a_quantity() {
    for unusable in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0, -1.0] {
        assert_eq!(calc::hydrogen_ventilation_flow(6, 20.0, unusable), None);
        assert_eq!(calc::spark_distance(20.0, unusable), None);
        assert_eq!(calc::charger_output(unusable, 12.0), None);
        assert_eq!(calc::charger_output(10.0, unusable), None);
        assert_eq!(calc::usable_energy(unusable, 360_000.0, 0.8, 0.95, 1.0), None);
        assert_eq!(calc::usable_energy(12.0, 360_000.0, 0.8, 0.95, unusable), None);
        assert_eq!(calc::days_of_autonomy(1e6, unusable), None);
        assert_eq!(calc::smallest_fault_current(unusable, 1e-3, 1e-3), None);
        assert_eq!(calc::string_cold_voltage(unusable, 1, None, 260.0), None);
        assert_eq!(calc::supply_lead_area(unusable), None);
        assert_eq!(calc::next_size_up(unusable, false), None);
        assert_eq!(calc::alternator_hot_output(unusable), None);
        assert_eq!(calc::ladder_sharing(4, unusable, 1e-3, 100.0), None);
        assert_eq!(calc::large_bank_need(Some(unusable), None, None), None);
        assert_eq!(calc::drop_limit(DropPurpose::SmallCraftOther).volts(unusable), None);
    }
    assert_eq!(calc::hydrogen_ventilation_flow(0, 20.0, 360_000.0), None);
    assert_eq!(calc::string_cold_voltage(22.0, 0, None, 260.0), None);
    assert_eq!(calc::source_circuit_current(10.0, 0), None);
    assert_eq!(calc::smallest_fault_current(12.0, 0.0, 0.0), None);
    assert_eq!(calc::energy_per_day(100.0, 86_401.0, 1.0), None);
    assert_eq!(calc::energy_per_day(100.0, 3_600.0, 1.01), None);
    assert_eq!(calc::ladder_sharing(0, 1e-3, 1e-3, 100.0), None);
    assert_eq!(calc::ladder_sharing(u32::MAX, 1e-3, 1e-3, 100.0), None);
    assert_eq!(calc::bar_sharing(1e-3, &[], 100.0), None);
    assert_eq!(
        calc::gas_current_milliamperes_per_ampere_hour(Chemistry::LithiumIronPhosphate, ChargeStage::Float),
        None
    );
}
