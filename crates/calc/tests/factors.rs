//! Factors for warmth and for company against the printed tables.

use calc::{
    Mark, ambient_factor, bundling_factor_boat_50v, bundling_factor_nec, engine_space_factor_boat,
    grouping_factor_bs7671,
};

fn celsius(value: f64) -> f64 {
    value + 273.15
}

/// IRC 2021 Table E3705.2 (NEC 310.15(B)(1)), base 30 °C; each row by the warm end of its range. Below zero: no entry.
#[test]
fn ambient_factor_gives_every_printed_entry() {
    let printed = [
        (10.0, [1.29, 1.20, 1.15]),
        (15.0, [1.22, 1.15, 1.12]),
        (20.0, [1.15, 1.11, 1.08]),
        (25.0, [1.08, 1.05, 1.04]),
        (30.0, [1.00, 1.00, 1.00]),
        (35.0, [0.91, 0.94, 0.96]),
        (40.0, [0.82, 0.88, 0.91]),
        (45.0, [0.71, 0.82, 0.87]),
        (50.0, [0.58, 0.75, 0.82]),
        (55.0, [0.41, 0.67, 0.76]),
        (60.0, [-1.0, 0.58, 0.71]),
        (65.0, [-1.0, 0.47, 0.65]),
        (70.0, [-1.0, 0.33, 0.58]),
        (75.0, [-1.0, -1.0, 0.50]),
        (80.0, [-1.0, -1.0, 0.41]),
        (85.0, [-1.0, -1.0, 0.29]),
    ];
    for (ambient, factors) in printed {
        for (insulation, expected) in [60.0, 75.0, 90.0].into_iter().zip(factors) {
            let found = ambient_factor(celsius(insulation), celsius(ambient), celsius(30.0));
            if expected < 0.0 {
                assert!(ambient >= insulation && found.is_none(), "{insulation} °C in {ambient} °C");
            } else {
                let found = found.expect("below the insulation's temperature");
                assert!((found - expected).abs() <= 0.01, "{insulation} °C in {ambient} °C: {found}");
            }
        }
    }
}

/// NEC Table 310.15(B)(2)(b), base 40 °C, the columns for hot places: 150, 200, 250 °C.
#[test]
fn ambient_factor_with_another_base() {
    let printed = [(80.0, 0.80, 0.87, 0.90), (100.0, 0.67, 0.79, 0.85), (140.0, 0.30, 0.61, 0.72)];
    for (ambient, at_150, at_200, at_250) in printed {
        for (insulation, expected) in [(150.0, at_150), (200.0, at_200), (250.0, at_250)] {
            let found =
                ambient_factor(celsius(insulation), celsius(ambient), celsius(40.0)).expect("below the insulation");
            assert!((found - expected).abs() <= 0.01, "{insulation} °C in {ambient} °C: {found}");
        }
    }
}

/// 33 CFR 183.425 Table 5 note 1 (remembered, confirmed by the NEC row for 50 °C); where no text was seen, the formula.
#[test]
fn engine_space_factors() {
    for (insulation, factor) in [(60.0, 0.58), (75.0, 0.75), (90.0, 0.82), (105.0, 0.85)] {
        assert_eq!(engine_space_factor_boat(celsius(insulation)).expect("has a factor").0, factor);
    }
    let (factor, citation) = engine_space_factor_boat(celsius(200.0)).expect("has a factor");
    assert!((factor - 0.939).abs() < 0.001, "the remembered 1.00 is not used");
    assert_eq!(citation.mark, Mark::Computed);
    assert_eq!(engine_space_factor_boat(celsius(55.0)), None);
}

/// NEC 310.15(C)(1).
#[test]
fn bundling_nec() {
    let printed = [
        (0, 1.0),
        (1, 1.0),
        (3, 1.0),
        (4, 0.80),
        (6, 0.80),
        (7, 0.70),
        (9, 0.70),
        (10, 0.50),
        (20, 0.50),
        (21, 0.45),
        (30, 0.45),
        (31, 0.40),
        (40, 0.40),
        (41, 0.35),
        (u32::MAX, 0.35),
    ];
    for (count, factor) in printed {
        assert_eq!(bundling_factor_nec(count).0, factor, "{count} conductors");
    }
}

/// 33 CFR 183.425 Table 5 note 2, circuits of 50 V and above (reprint of the Coast Guard guideline).
#[test]
fn bundling_boat() {
    let printed =
        [(0, 1.0), (2, 1.0), (3, 0.70), (4, 0.60), (6, 0.60), (7, 0.50), (24, 0.50), (25, 0.40), (u32::MAX, 0.40)];
    for (count, factor) in printed {
        assert_eq!(bundling_factor_boat_50v(count).0, factor, "{count} conductors");
    }
}

/// BS 7671:1992, grouping of bunched or enclosed circuits.
#[test]
fn grouping_bs7671() {
    let printed = [1.0, 0.80, 0.70, 0.65, 0.60, 0.57, 0.54, 0.52, 0.50, 0.48];
    for (circuits, factor) in (1..).zip(printed) {
        let found = grouping_factor_bs7671(circuits);
        assert_eq!(found.0, factor, "{circuits} circuits");
        assert_eq!(found.1.mark, Mark::Read);
    }
    assert_eq!(grouping_factor_bs7671(0).0, 1.0);
    assert_eq!(grouping_factor_bs7671(12).1.mark, Mark::Memory);
    assert_eq!(grouping_factor_bs7671(30).1.mark, Mark::Computed);
    for circuits in 0..200 {
        assert!(grouping_factor_bs7671(circuits + 1).0 <= grouping_factor_bs7671(circuits).0, "{circuits} circuits");
        assert!(grouping_factor_bs7671(circuits + 1).0 > 0.0);
    }
}
