//! Unusable numbers give no value, an infinite bound or no number; they never give a panic or a comfortable answer.

use calc::{
    AmpacityTable, Branch, CableInsulation, Chemistry,
    ConductorSize::{Area, Awg},
    Network, Source, Stranding,
};

const NUMBERS: [f64; 12] = [
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
    300.0,
];

const TABLES: [AmpacityTable; 5] = [
    AmpacityTable::BoatLaw,
    AmpacityTable::Bs7671MethodB70,
    AmpacityTable::Bs7671MethodB90,
    AmpacityTable::NecRaceway,
    AmpacityTable::FlexibleCord,
];

#[test]
fn conductors_and_tables() {
    for gauge in i8::MIN..=i8::MAX {
        assert!(calc::awg_area(gauge).is_finite() && calc::awg_area(gauge) > 0.0);
        for build in [Stranding::Solid, Stranding::Stranded, Stranding::Flexible] {
            assert!(calc::resistance_per_metre(Awg(gauge), build).ohm_per_metre_20c > 0.0);
        }
        for table in TABLES {
            if let Some(found) = calc::table_ampacity(table, Awg(gauge), 400.0) {
                assert!(found.amperes > 0.0 && !found.row.is_empty());
            }
        }
    }
    for area in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0, -1.0] {
        assert!(calc::resistance_per_metre(Area(area), Stranding::Flexible).ohm_per_metre_20c.is_nan());
        for table in TABLES {
            assert_eq!(calc::table_ampacity(table, Area(area), 400.0), None);
        }
    }
    for kelvin in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -1.0] {
        assert_eq!(calc::table_ampacity(AmpacityTable::BoatLaw, Area(6e-6), kelvin), None);
        assert_eq!(calc::ambient_factor(kelvin, 303.15, 303.15), None);
        assert_eq!(calc::engine_space_factor_boat(kelvin), None);
        assert_eq!(calc::adiabatic_k_by_class(kelvin), None);
    }
    assert_eq!(calc::ambient_factor(363.15, f64::NAN, 303.15), None);
    assert_eq!(calc::ambient_factor(363.15, 363.15, 303.15), None);
    assert!(calc::at_temperature(1.0, f64::NAN).is_nan());
    assert_eq!(calc::at_temperature(1.0, -1e9), 0.0);
    assert!(calc::voltage_drop(10.0, 1e-3, -5.0, 293.15).is_nan());
    assert!(calc::voltage_drop(10.0, f64::NAN, 5.0, 293.15).is_nan());
}

#[test]
fn batteries_loads_and_devices() {
    for a in NUMBERS {
        for chemistry in Chemistry::ALL {
            if let Some((volts, cells)) = calc::full_charge_voltage(chemistry, a) {
                assert!(volts.is_finite() && cells > 0);
            }
            if !(a.is_finite() && a > 0.0) {
                assert_eq!(calc::full_charge_voltage(chemistry, a), None);
                assert_eq!(calc::discharged_voltage(chemistry, a), None);
                assert_eq!(
                    calc::assumed_internal_resistance(chemistry, a, 360_000.0, calc::AssumedStrength::Most),
                    None
                );
                assert_eq!(calc::assumed_internal_resistance(chemistry, 12.0, a, calc::AssumedStrength::Least), None);
                assert_eq!(calc::inverter_input_current(a, 0.9, 12.0), None);
                assert_eq!(calc::inverter_input_current(1_000.0, 0.9, a), None);
                assert_eq!(calc::inverter_input_current(1_000.0, a, 12.0), None);
            }
        }
        for b in NUMBERS {
            for c in NUMBERS {
                let results = [
                    calc::inverter_input_current(a, b, c),
                    calc::charger_input_power(a, b, c),
                    calc::alternating_input_current(a, b, c),
                    calc::converter_input_current(a, b, c, a),
                    calc::smallest_area(a, b, c),
                    calc::constant_power_current(a, b, c),
                    calc::two_point_short_circuit(a, b, c, a),
                ];
                assert!(results.into_iter().flatten().all(f64::is_finite), "{a} {b} {c}");
            }
            if let Some(k) = calc::adiabatic_k_from_temperatures(a, b) {
                assert!(k.is_finite() && k >= 0.0);
            }
        }
        let rating = calc::next_standard_rating(true, a);
        assert!(a.is_finite() || rating.is_none());
        assert!(calc::adiabatic_k(CableInsulation::Thermoplastic70, a).0 >= 103e6);
    }
    assert_eq!(calc::short_circuit_current(12.0, 0.0), f64::INFINITY);
    assert_eq!(calc::short_circuit_current(12.0, -1.0), f64::INFINITY);
    assert!(calc::short_circuit_current(12.0, f64::NAN).is_nan());
}

/// What cannot be known may only make the bound larger.
#[test]
fn fault_currents() {
    let known = |ohms: f64, inside: f64, volts: f64, limit: Option<f64>| {
        let network = Network {
            branches: vec![Branch { from: 1, to: 2, ohms, tag: 0 }, Branch { from: 2, to: 2, ohms: 1.0, tag: 1 }],
            sources: vec![Source { node: 1, volts, ohms: inside, limit }],
        };
        network.largest_fault_current(2, None).amperes
    };
    let plain = known(1e-3, 1e-3, 12.0, None);
    assert!((plain - 6_000.0).abs() < 1e-6);
    for unknown in [f64::NAN, 0.0, -1.0] {
        assert!(known(unknown, 1e-3, 12.0, None) > plain);
        assert!(known(1e-3, unknown, 12.0, None) > plain);
    }
    assert_eq!(known(1e-3, 1e-3, f64::NAN, None), f64::INFINITY);
    assert_eq!(known(1e-3, 1e-3, f64::NAN, Some(30.0)), 30.0);
    assert_eq!(known(1e-3, 1e-3, 12.0, Some(f64::NAN)), plain);
    assert_eq!(known(1e-3, 1e-3, 12.0, Some(-5.0)), 0.0);
    for a in NUMBERS {
        for b in NUMBERS {
            for c in NUMBERS {
                for limit in [None, Some(c), Some(30.0)] {
                    let amperes = known(a, b, c, limit);
                    assert!(amperes >= 0.0, "{a} {b} {c} {limit:?}: {amperes}");
                }
            }
        }
    }
    assert_eq!(Network::default().largest_fault_current(0, None).amperes, 0.0);
}
