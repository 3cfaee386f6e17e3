//! Current-carrying capacity against the printed tables.

// The helper below stands outside a test function, where the lint does not see that it serves tests.
#![allow(clippy::expect_used)]

use calc::{
    AmpacityTable,
    ConductorSize::{self, Area, Awg},
    Mark, TableValue, engine_space_factor_boat, table_ampacity,
};

const TABLES: [AmpacityTable; 5] = [
    AmpacityTable::BoatLaw,
    AmpacityTable::Bs7671MethodB70,
    AmpacityTable::Bs7671MethodB90,
    AmpacityTable::NecRaceway,
    AmpacityTable::FlexibleCord,
];

fn celsius(value: f64) -> f64 {
    value + 273.15
}

fn mm2(value: f64) -> ConductorSize {
    Area(value * 1e-6)
}

#[track_caller]
fn value(table: AmpacityTable, size: ConductorSize, insulation_celsius: f64) -> TableValue {
    table_ampacity(table, size, celsius(insulation_celsius)).expect("the table has a value")
}

/// 33 CFR 183.425 Table 5, all rows and columns: 60, 75, 80, 90, 105, 125, 200 °C.
const BOAT: [(i8, [f64; 7]); 15] = [
    (18, [10.0, 10.0, 15.0, 20.0, 20.0, 25.0, 25.0]),
    (16, [15.0, 15.0, 20.0, 25.0, 25.0, 30.0, 35.0]),
    (14, [20.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0]),
    (12, [25.0, 25.0, 35.0, 40.0, 45.0, 50.0, 55.0]),
    (10, [40.0, 40.0, 50.0, 55.0, 60.0, 70.0, 70.0]),
    (8, [55.0, 65.0, 70.0, 70.0, 80.0, 90.0, 100.0]),
    (6, [80.0, 95.0, 100.0, 100.0, 120.0, 125.0, 135.0]),
    (4, [105.0, 125.0, 130.0, 135.0, 160.0, 170.0, 180.0]),
    (3, [120.0, 145.0, 150.0, 155.0, 180.0, 195.0, 210.0]),
    (2, [140.0, 170.0, 175.0, 180.0, 210.0, 225.0, 240.0]),
    (1, [165.0, 195.0, 210.0, 210.0, 245.0, 265.0, 280.0]),
    (0, [195.0, 230.0, 245.0, 245.0, 285.0, 305.0, 325.0]),
    (-1, [225.0, 265.0, 285.0, 285.0, 330.0, 355.0, 370.0]),
    (-2, [260.0, 310.0, 330.0, 330.0, 385.0, 410.0, 430.0]),
    (-3, [300.0, 360.0, 385.0, 385.0, 445.0, 475.0, 510.0]),
];

#[test]
fn boat_table_whole() {
    for (gauge, amperes) in BOAT {
        for (insulation, printed) in [60.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0].into_iter().zip(amperes) {
            let found = value(AmpacityTable::BoatLaw, Awg(gauge), insulation);
            assert_eq!(found.amperes, printed, "{gauge} AWG, {insulation} °C");
            assert!(!found.scaled);
            assert_eq!(found.citation.mark, Mark::Read);
        }
    }
}

/// A distributor's printed wiring guide, 105 °C insulation in an engine space: Table 5 × 0.85, printed in whole amperes.
#[test]
fn engine_space_column_as_printed() {
    let printed = [
        (18, 17.0),
        (16, 21.0),
        (14, 30.0),
        (12, 38.0),
        (10, 51.0),
        (8, 68.0),
        (6, 102.0),
        (4, 136.0),
        (3, 153.0),
        (2, 178.0),
        (1, 208.0),
        (0, 242.0),
        (-1, 280.0),
        (-2, 327.0),
        (-3, 378.0),
    ];
    let (factor, citation) = engine_space_factor_boat(celsius(105.0)).expect("105 °C has a factor");
    assert_eq!(factor, 0.85);
    assert_eq!(citation.mark, Mark::SecondHand);
    for (gauge, amperes) in printed {
        let found = value(AmpacityTable::BoatLaw, Awg(gauge), 105.0).amperes * factor;
        // Printed in whole amperes; a half goes to the even number (178.5 is printed 178, 29.75 is printed 30).
        assert!((found - amperes).abs() <= 0.5 + 1e-9, "{gauge} AWG: {found} against {amperes}");
    }
}

/// NEC 310.16 copper (IRC Table E3705.1), 60, 75, 90 °C.
#[test]
fn raceway_table_whole() {
    let printed: [(i8, [f64; 3]); 13] = [
        (14, [15.0, 20.0, 25.0]),
        (12, [20.0, 25.0, 30.0]),
        (10, [30.0, 35.0, 40.0]),
        (8, [40.0, 50.0, 55.0]),
        (6, [55.0, 65.0, 75.0]),
        (4, [70.0, 85.0, 95.0]),
        (3, [85.0, 100.0, 115.0]),
        (2, [95.0, 115.0, 130.0]),
        (1, [110.0, 130.0, 145.0]),
        (0, [125.0, 150.0, 170.0]),
        (-1, [145.0, 175.0, 195.0]),
        (-2, [165.0, 200.0, 225.0]),
        (-3, [195.0, 230.0, 260.0]),
    ];
    let thousand_circular_mils = [
        (250.0, [215.0, 255.0, 290.0]),
        (300.0, [240.0, 285.0, 320.0]),
        (350.0, [260.0, 310.0, 350.0]),
        (400.0, [280.0, 335.0, 380.0]),
        (500.0, [320.0, 380.0, 430.0]),
    ];
    // 1 kcmil = 0.506707 mm².
    let large = thousand_circular_mils.map(|(kcmil, amperes)| (mm2(kcmil * 0.506_707), amperes));
    for (size, amperes) in printed.into_iter().map(|(gauge, amperes)| (Awg(gauge), amperes)).chain(large) {
        for (insulation, expected) in [60.0, 75.0, 90.0].into_iter().zip(amperes) {
            assert_eq!(
                value(AmpacityTable::NecRaceway, size, insulation).amperes,
                expected,
                "{size:?}, {insulation} °C"
            );
        }
    }
}

/// BS 7671 Tables 4D1A and 4E1A, method B, two cables; Table 4F3A, flexible cords.
#[test]
fn bs7671_tables_whole() {
    let method_b = [
        (1.0, 13.5, 17.0),
        (1.5, 17.5, 23.0),
        (2.5, 24.0, 31.0),
        (4.0, 32.0, 42.0),
        (6.0, 41.0, 54.0),
        (10.0, 57.0, 75.0),
        (16.0, 76.0, 100.0),
        (25.0, 101.0, 133.0),
        (35.0, 125.0, 164.0),
        (50.0, 151.0, 198.0),
        (70.0, 192.0, 253.0),
        (95.0, 232.0, 306.0),
        (120.0, 269.0, 354.0),
    ];
    for (size, thermoplastic, thermosetting) in method_b {
        assert_eq!(value(AmpacityTable::Bs7671MethodB70, mm2(size), 70.0).amperes, thermoplastic, "{size} mm²");
        assert_eq!(value(AmpacityTable::Bs7671MethodB90, mm2(size), 90.0).amperes, thermosetting, "{size} mm²");
    }
    assert_eq!(value(AmpacityTable::Bs7671MethodB90, mm2(150.0), 90.0).amperes, 393.0);
    for (size, amperes) in [(0.5, 3.0), (0.75, 6.0), (1.0, 10.0), (1.25, 13.0), (1.5, 16.0), (2.5, 25.0), (4.0, 32.0)] {
        assert_eq!(value(AmpacityTable::FlexibleCord, mm2(size), 60.0).amperes, amperes, "{size} mm²");
    }
}

/// A size of the other system takes the largest row that has no more copper, and the row says so.
#[test]
fn sizes_of_the_other_system() {
    let cases = [
        (AmpacityTable::BoatLaw, mm2(35.0), 90.0, 180.0, "2 AWG (33.6 mm²), nearest row not above 35 mm²"),
        (AmpacityTable::BoatLaw, mm2(50.0), 105.0, 245.0, "1 AWG (42.4 mm²), nearest row not above 50 mm²"),
        (AmpacityTable::BoatLaw, mm2(95.0), 105.0, 385.0, "3/0 AWG (85 mm²), nearest row not above 95 mm²"),
        (AmpacityTable::BoatLaw, mm2(1.5), 105.0, 25.0, "16 AWG (1.31 mm²), nearest row not above 1.5 mm²"),
        (AmpacityTable::BoatLaw, mm2(33.5), 105.0, 210.0, "2 AWG"),
        (AmpacityTable::BoatLaw, Awg(0), 105.0, 285.0, "1/0 AWG"),
        (AmpacityTable::BoatLaw, Awg(0), 100.0, 245.0, "1/0 AWG, 90 °C column"),
        (
            AmpacityTable::NecRaceway,
            mm2(150.0),
            105.0,
            290.0,
            "250 kcmil (127 mm²), nearest row not above 150 mm², 90 °C column",
        ),
        (AmpacityTable::Bs7671MethodB70, Awg(10), 70.0, 32.0, "4 mm², nearest row not above 10 AWG (5.26 mm²)"),
        (AmpacityTable::Bs7671MethodB90, Awg(-1), 90.0, 198.0, "50 mm², nearest row not above 2/0 AWG (67.4 mm²)"),
    ];
    for (table, size, insulation, amperes, row) in cases {
        let found = value(table, size, insulation);
        assert_eq!((found.amperes, found.row.as_str()), (amperes, row));
        assert!(!found.scaled);
    }
}

#[test]
fn below_the_smallest_row_the_value_is_scaled_by_copper_area() {
    let found = value(AmpacityTable::BoatLaw, mm2(0.5), 105.0);
    // 18 AWG is 0.823 mm² and carries 20 A.
    assert!((found.amperes - 20.0 * 0.5 / 0.823).abs() < 0.01);
    assert!(found.scaled);
    assert_eq!(found.citation.mark, Mark::Computed);
    assert_eq!(found.row, "18 AWG (0.823 mm²), scaled by copper area to 0.5 mm²");
    assert!(value(AmpacityTable::NecRaceway, Awg(18), 90.0).scaled);
}

#[test]
fn no_value_above_the_table_or_below_its_insulation() {
    assert_eq!(table_ampacity(AmpacityTable::BoatLaw, mm2(120.0), celsius(105.0)), None);
    assert_eq!(table_ampacity(AmpacityTable::Bs7671MethodB70, mm2(150.0), celsius(70.0)), None);
    assert_eq!(table_ampacity(AmpacityTable::BoatLaw, Awg(10), celsius(59.0)), None);
    assert_eq!(table_ampacity(AmpacityTable::Bs7671MethodB90, mm2(6.0), celsius(85.0)), None);
}

#[test]
fn capacity_never_falls_with_area_or_insulation() {
    for table in TABLES {
        for insulation in [60.0, 70.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0] {
            let mut before = 0.0;
            let mut area = 0.05e-6;
            while area < 300e-6 {
                if let Some(found) = table_ampacity(table, Area(area), celsius(insulation)) {
                    assert!(found.amperes >= before, "{table:?}, {insulation} °C, {area} m²");
                    before = found.amperes;
                    if let Some(warmer) = table_ampacity(table, Area(area), celsius(insulation + 20.0)) {
                        assert!(warmer.amperes >= found.amperes, "{table:?}, {insulation} °C, {area} m²");
                    }
                }
                area *= 1.01;
            }
        }
    }
}

/// BS 7671 Table 4F1A (read at the address in the table's file) and NEC 400.5(A)(1) column B (12 AWG and smaller second-hand, the
/// rest from memory).
#[test]
fn flexible_cables_and_cords_have_their_own_tables() {
    let cases = [
        (AmpacityTable::FlexibleCable, ConductorSize::Area(6.0e-6), 39.0),
        (AmpacityTable::FlexibleCable, ConductorSize::Area(25.0e-6), 97.0),
        (AmpacityTable::NecFlexibleCord, ConductorSize::Awg(12), 25.0),
        (AmpacityTable::NecFlexibleCord, ConductorSize::Awg(6), 55.0),
    ];
    for (table, size, amperes) in cases {
        let found = table_ampacity(table, size, 333.15).map(|value| value.amperes);
        assert_eq!(found, Some(amperes), "{table:?} {size:?}");
    }
    // Above its largest row a table has no value.
    assert!(table_ampacity(AmpacityTable::NecFlexibleCord, ConductorSize::Awg(-3), 333.15).is_none());
}

/// NEC 110.14(C)(1) (second-hand) on the columns of NEC 310.16 (read): 12 AWG 20 A and 2 AWG 95 A at 60 °C, 1/0 AWG 150 A at 75 °C.
#[test]
fn terminals_hold_a_conductor_to_a_cooler_column() {
    for (size, amperes) in [(Awg(12), 20.0), (Awg(2), 95.0), (Awg(0), 150.0)] {
        assert_eq!(calc::terminal_limit(size).map(|(limit, _)| limit), Some(amperes), "{size:?}");
    }
}
