//! Batteries, loads, adiabatic withstand and devices against published and worked values.

use calc::{
    AssumedStrength, CableInsulation, Chemistry, DeviceClass, Mark, adiabatic_k, adiabatic_k_by_class,
    adiabatic_k_from_temperatures, alternating_input_current, assumed_internal_resistance, charger_input_power,
    class_rating, constant_power_current, converter_input_current, discharged_voltage, full_charge_citation,
    full_charge_voltage, inverter_input_current, minimum_rating, next_standard_rating, short_circuit_current,
    smallest_area, standard_ratings,
};

fn celsius(value: f64) -> f64 {
    value + 273.15
}

#[track_caller]
fn close(value: f64, expected: f64, relative: f64) {
    assert!((value - expected).abs() <= relative * expected.abs(), "{value} against {expected}");
}

/// 3.65 V per LFP cell gives 14.6, 29.2 and 58.4 V, whichever way the nominal voltage is written.
#[test]
fn full_charge_of_lfp() {
    for (nominal, volts, cells) in [
        (12.0, 14.6, 4),
        (12.8, 14.6, 4),
        (13.2, 14.6, 4),
        (24.0, 29.2, 8),
        (25.6, 29.2, 8),
        (36.0, 43.8, 12),
        (38.4, 43.8, 12),
        (48.0, 58.4, 16),
        (51.2, 58.4, 16),
        (3.2, 3.65, 1),
    ] {
        let found = full_charge_voltage(Chemistry::LithiumIronPhosphate, nominal).expect("a usual voltage");
        close(found.0, volts, 1e-12);
        assert_eq!(found.1, cells, "{nominal} V");
    }
}

#[test]
fn full_charge_of_the_others() {
    for chemistry in [Chemistry::FloodedLead, Chemistry::Agm, Chemistry::Gel] {
        for (nominal, cells) in
            [(2.0, 1), (6.0, 3), (8.0, 4), (12.0, 6), (12.8, 6), (24.0, 12), (25.6, 12), (48.0, 24), (51.2, 24)]
        {
            let (volts, found) = full_charge_voltage(chemistry, nominal).expect("a usual voltage");
            assert_eq!(found, cells, "{nominal} V");
            // Absorption of lead cells lies between 2.40 and 2.45 V.
            let per_cell = volts / f64::from(cells);
            assert!((2.40 - 1e-9..=2.45 + 1e-9).contains(&per_cell));
        }
    }
    // EN 50272-2: boost of vented nickel-cadmium cells at 1.55 V; 20 cells make 24 V.
    let (volts, cells) = full_charge_voltage(Chemistry::NickelCadmium, 24.0).expect("a usual voltage");
    close(volts, 31.0, 1e-12);
    assert_eq!(cells, 20);
    assert_eq!(full_charge_voltage(Chemistry::LithiumNickelManganeseCobalt, 25.9).map(|found| found.1), Some(7));
    // Twelve volts do not say whether there are three or four such cells.
    for nominal in [12.0, 24.0, 48.0] {
        assert_eq!(full_charge_voltage(Chemistry::LithiumNickelManganeseCobalt, nominal), None);
    }
    for nominal in [10.0, 14.0, 17.0, 1e9] {
        assert_eq!(full_charge_voltage(Chemistry::LithiumIronPhosphate, nominal), None, "{nominal} V");
    }
}

#[test]
fn every_chemistry_has_its_word_and_its_order_of_voltages() {
    for chemistry in Chemistry::ALL {
        assert_eq!(Chemistry::from_word(chemistry.word()), Some(chemistry));
        assert_eq!(Chemistry::from_word(&chemistry.word().to_lowercase()), Some(chemistry));
        assert!(!full_charge_citation(chemistry).document.is_empty());
        let nominal = if chemistry == Chemistry::LithiumNickelManganeseCobalt { 14.8 } else { 12.0 };
        let (full, _) = full_charge_voltage(chemistry, nominal).expect("a usual voltage");
        let (empty, _) = discharged_voltage(chemistry, nominal).expect("a usual voltage");
        assert!(empty < nominal && nominal < full, "{chemistry:?}");
    }
    assert_eq!(Chemistry::from_word("lead"), None);
}

/// The assumption: 100 Ah of lead 4.0 kA, 280 Ah of LFP 18.2 kA, 60 Ah of LFP 3.9 kA (published for that cell: 3.73 kA).
#[test]
fn assumed_short_circuit() {
    for (chemistry, nominal, ampere_hours, amperes) in [
        (Chemistry::FloodedLead, 12.0, 100.0, 4_000.0),
        (Chemistry::LithiumIronPhosphate, 12.8, 280.0, 18_200.0),
        (Chemistry::LithiumIronPhosphate, 12.8, 60.0, 3_900.0),
    ] {
        let (ohms, citation) =
            assumed_internal_resistance(chemistry, nominal, ampere_hours * 3_600.0, AssumedStrength::Most)
                .expect("an assumption exists");
        close(short_circuit_current(nominal, ohms), amperes, 1e-9);
        assert_eq!(citation.mark, Mark::Chosen);
    }
    assert_eq!(assumed_internal_resistance(Chemistry::NickelCadmium, 12.0, 360_000.0, AssumedStrength::Most), None);
}

/// Worked example: 3,000 W at 0.90 and 11, 22, 44 V: 303, 151.5, 75.8 A; 379, 189, 94.7 A at 125 %.
#[test]
fn inverter_current() {
    for (volts, amperes, rating) in [(11.0, 303.0, 379.0), (22.0, 151.5, 189.4), (44.0, 75.8, 94.7)] {
        let found = inverter_input_current(3_000.0, 0.90, volts).expect("usable numbers");
        close(found, amperes, 1e-3);
        close(minimum_rating(found, true), rating, 1e-3);
        assert_eq!(minimum_rating(found, false), found);
    }
}

/// Worked example: 100 A at 14.4 V, 0.88, power factor 0.98: 1,636 W; 7.26 A at 230 V, 13.9 A at 120 V.
#[test]
fn charger_current() {
    let watts = charger_input_power(100.0, 14.4, 0.88).expect("usable numbers");
    close(watts, 1_636.0, 0.005);
    close(alternating_input_current(watts, 230.0, 0.98).expect("usable numbers"), 7.26, 0.005);
    close(alternating_input_current(watts, 120.0, 0.98).expect("usable numbers"), 13.9, 0.005);
    close(converter_input_current(25.0, 28.4, 0.9, 12.0).expect("usable numbers"), 710.0 / 10.8, 1e-12);
}

/// Worked with a power-flow program: 3,000 W at the end of a 25 m three-core cord, 230 V, 20 °C, by IEC 60228 class 5:
/// 2.5 mm² 13.35 A and 224.67 V, 1.5 mm² 13.58 A and 220.97 V, 4 mm² 13.23 A and 226.73 V.
#[test]
fn constant_power_behind_a_cord() {
    for (ohm_per_km, amperes, volts) in [(7.98, 13.35, 224.67), (13.3, 13.58, 220.97), (4.95, 13.23, 226.73)] {
        let ohms = ohm_per_km / 1e3 * 50.0;
        let found = constant_power_current(3_000.0, 230.0, ohms).expect("the cord carries the load");
        close(found, amperes, 0.001);
        close(230.0 - found * ohms, volts, 0.001);
    }
    // A quarter of 12²/2 mΩ is the most that can come through, 18 kW.
    assert!(constant_power_current(17_999.0, 12.0, 2e-3).is_some());
    assert_eq!(constant_power_current(18_001.0, 12.0, 2e-3), None);
    close(constant_power_current(1_200.0, 12.0, 0.0).expect("nothing in the way"), 100.0, 1e-12);
}

/// BS 7671 Tables 43.1 and 54.2, printed k, and the formula with their temperatures (0.5 %).
#[test]
fn k_as_printed() {
    let printed = [
        (CableInsulation::Thermoplastic70, 70.0, 160.0, 115.0),
        (CableInsulation::Thermosetting90, 90.0, 250.0, 143.0),
        (CableInsulation::Thermoplastic90, 90.0, 160.0, 100.0),
        (CableInsulation::Thermosetting60, 60.0, 200.0, 141.0),
        (CableInsulation::Thermosetting85, 85.0, 220.0, 134.0),
        (CableInsulation::ProtectiveThermoplastic70, 30.0, 160.0, 143.0),
        (CableInsulation::ProtectiveThermosetting90, 30.0, 250.0, 176.0),
    ];
    for (insulation, initial, end, k) in printed {
        close(adiabatic_k(insulation, 6e-6).0, k * 1e6, 1e-12);
        let formula = adiabatic_k_from_temperatures(celsius(initial), celsius(end)).expect("rising temperature");
        close(formula, k * 1e6, 0.005);
    }
    close(adiabatic_k(CableInsulation::Thermoplastic70, 400e-6).0, 103e6, 1e-12);
    close(adiabatic_k(CableInsulation::Thermoplastic90, 400e-6).0, 86e6, 1e-12);
    // Where only the class is known the end temperature is that of thermoplastic insulation: 90 °C gives 99.7.
    close(adiabatic_k_by_class(celsius(90.0)).expect("below 160 °C").0, 99.7e6, 1e-3);
    assert_eq!(adiabatic_k_by_class(celsius(260.0)), None);
}

/// Published in a wiring discussion: 328 A and 120 A for 0.4 s, k 115: 1.80 and 0.66 mm². Worked: 6.8 kA.
#[test]
fn smallest_conductor_for_a_fault() {
    for (amperes, seconds, k, mm2) in [
        (328.0, 0.4, 115.0, 1.80),
        (120.0, 0.4, 115.0, 0.66),
        (6_800.0, 0.1, 143.0, 15.0),
        (6_800.0, 0.008, 143.0, 4.25),
        (6_800.0, 0.1, 115.0, 18.7),
    ] {
        let area = smallest_area(amperes, seconds, k * 1e6).expect("within five seconds");
        close(area * 1e6, mm2, 0.005);
    }
    assert_eq!(smallest_area(100.0, 5.1, 115e6), None);
}

/// Scopes of ISO 8820-3:2015, -4:2016, -5:2015, -6:2019: direct voltage, breaking current, largest rating.
#[test]
fn device_classes() {
    for (word, volts, amperes, largest) in [
        ("blade", 32.0, 1_000.0, Some(100.0)),
        ("cartridge", 32.0, 1_000.0, Some(140.0)),
        ("bolt-down", 32.0, 2_000.0, Some(500.0)),
        ("single-bolt", 58.0, 2_000.0, Some(300.0)),
        ("T", 125.0, 20_000.0, None),
        ("nh", 250.0, 25_000.0, None),
    ] {
        let class = DeviceClass::from_word(word).expect("a word of the specification");
        let rating = class_rating(class);
        assert_eq!((rating.direct_voltage, rating.interrupting), (Some(volts), Some(amperes)), "{word}");
        assert_eq!(rating.largest_rating, largest, "{word}");
        assert!(class.is_fuse() && !class.is_alternating_only());
    }
    let breaker = DeviceClass::from_word("mcb").expect("a word of the specification");
    assert!(breaker.is_alternating_only() && !breaker.is_fuse());
    assert_eq!(class_rating(breaker).direct_voltage, None);
    assert_eq!(class_rating(DeviceClass::BreakerDcHydraulicMagnetic).interrupting, None);
    for class in DeviceClass::ALL {
        assert_eq!(DeviceClass::from_word(class.word()), Some(class));
        assert_eq!(DeviceClass::ALL.iter().filter(|other| other.word() == class.word()).count(), 1);
    }
    for word in ["", "fuse", "C", "TT", "blade "] {
        assert_eq!(DeviceClass::from_word(word), None);
    }
}

/// NEC 240.6(A); published example of the next size up: 65 A (6 AWG, 75 °C) goes to 70 A.
#[test]
fn standard_sizes() {
    let printed = [
        15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 110.0, 125.0, 150.0, 175.0,
        200.0, 225.0, 250.0, 300.0, 350.0, 400.0, 450.0, 500.0, 600.0,
    ];
    let from_15: Vec<f64> = standard_ratings(true).iter().copied().filter(|&rating| rating >= 15.0).collect();
    assert_eq!(from_15, printed);
    assert_eq!(next_standard_rating(true, 65.0), Some(70.0));
    assert_eq!(next_standard_rating(true, 70.0), Some(70.0));
    assert_eq!(next_standard_rating(true, 601.0), None);
    for nec in [true, false] {
        assert!(standard_ratings(nec).windows(2).all(|pair| pair[0] < pair[1]));
    }
}
