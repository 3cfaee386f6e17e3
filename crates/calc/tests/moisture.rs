//! Moisture: worked examples of the fact books, each named.

use calc::Mark;
use calc::heat::Fuel;
use calc::moisture::{self, GlaserLayer, SourceAmount};

const ZERO: f64 = 273.15;
const PER_HOUR: f64 = 1.0 / 3_600.0;

#[track_caller]
fn near(value: f64, expected: f64, absolute: f64) {
    assert!((value - expected).abs() <= absolute, "{value} against {expected}");
}

/// Thermal book, worked examples 1, 2, 4 and rows of the table of dew points by ISO 13788.
#[test]
fn dew_points() {
    for (celsius, humidity, expected) in [
        (20.0, 0.50, 9.27),
        (15.0, 0.80, 11.58),
        (10.0, 0.40, -2.63),
        (18.0, 0.60, 10.13),
        (30.0, 0.80, 26.17),
        (20.0, 1.0, 20.0),
        (-10.0, 1.0, -10.0),
    ] {
        let pressure = moisture::vapour_pressure(ZERO + celsius, humidity).unwrap();
        near(moisture::dew_point(pressure).unwrap() - ZERO, expected, 0.02);
    }
}

/// Thermal book, worked example 5: 2,337.0 Pa at 20 °C by ISO 13788; the mass of vapour in saturated air.
#[test]
fn saturation() {
    for (celsius, expected) in [(20.0, 2_337.0), (0.0, 610.5), (-20.0, 102.7), (35.0, 5_619.2)] {
        near(moisture::saturation_pressure(ZERO + celsius).unwrap(), expected, 0.05);
    }
    let saturated = moisture::saturation_pressure(ZERO + 20.0).unwrap();
    near(moisture::vapour_density(ZERO + 20.0, saturated).unwrap() * 1e3, 17.29, 0.03);
    near(moisture::relative_humidity(ZERO + 20.0, saturated / 2.0).unwrap(), 0.5, 1e-12);
}

/// Thermal book, worked example 19: two sleepers, 12 m³/h, outside 0 °C and 90 %: 1,466 Pa, 86 %, dew point 12.7 °C.
#[test]
fn a_night_with_two_sleepers() {
    let outside = moisture::vapour_pressure(ZERO, 0.9).unwrap();
    let (production, flow, inside) = (0.080 * PER_HOUR, 12.0 * PER_HOUR, ZERO + 15.0);
    let pressure = moisture::inside_vapour_pressure(ZERO, outside, production, flow, inside).unwrap();
    near(pressure, 1_466.0, 1.0);
    near(moisture::inside_relative_humidity(ZERO, outside, production, flow, inside).unwrap(), 0.86, 5e-3);
    near(moisture::dew_point(pressure).unwrap() - ZERO, 12.7, 0.05);
}

/// Thermal book, worked example 20: dry double acrylic at −10 °C needs 16 m³/h at a pane of 5.9 °C; with single glass 54 m³/h.
#[test]
fn air_to_keep_panes_dry() {
    for (factor, surface, flow) in [(0.636, 5.9, 16.0), (0.257, -3.6, 54.0)] {
        let (outside, inside) = (ZERO - 10.0, ZERO + 15.0);
        let pane = moisture::surface_temperature(factor, inside, outside).unwrap();
        near(pane - ZERO, surface, 0.05);
        let outside_pressure = moisture::vapour_pressure(outside, 0.9).unwrap();
        let limit = moisture::saturation_pressure(pane).unwrap();
        let found = moisture::flow_to_keep_dry(outside, outside_pressure, 0.080 * PER_HOUR, inside, limit).unwrap();
        near(found.unwrap() * 3_600.0, flow, 0.6);
        assert_eq!(moisture::flow_to_keep_dry(inside, limit * 2.0, 0.08, inside, limit).unwrap(), None);
    }
}

/// Thermal book, table of surfaces: factor, temperature at 18 °C in and 0 °C out, humidity of condensation and of mould.
#[test]
fn cold_surfaces() {
    for (resistance, inner, factor, surface, condensation, mould) in [
        // Steel rib against 6 mm of plywood, single glass of 5 mm, 50 mm of foam behind furniture.
        (0.006 / 0.13 + 0.04, 0.25, 0.256, 4.6, 0.41, 0.33),
        (0.005 + 0.04, 0.13, 0.257, 4.6, 0.41, 0.33),
        (2.22, 0.25, 0.90, 16.2, 0.89, 0.71),
    ] {
        let found = moisture::surface_factor_of_layers(inner, resistance).unwrap();
        near(found, factor, 2e-3);
        near(moisture::surface_temperature(found, ZERO + 18.0, ZERO).unwrap() - ZERO, surface, 0.06);
        let limit = |humidity| moisture::humidity_limit(found, ZERO + 18.0, ZERO, humidity).unwrap();
        near(limit(moisture::CONDENSATION_HUMIDITY), condensation, 6e-3);
        near(limit(moisture::MOULD_HUMIDITY.0), mould, 6e-3);
        // At that humidity of the room the surface stands exactly at the threshold.
        let room = limit(0.8) * moisture::saturation_pressure(ZERO + 18.0).unwrap();
        let at = moisture::surface_temperature(found, ZERO + 18.0, ZERO).unwrap();
        near(moisture::surface_humidity(room, at).unwrap(), 0.8, 1e-9);
    }
    // A surface warmed by a hot day never bars more than saturated air.
    assert_eq!(moisture::humidity_limit(0.5, ZERO + 18.0, ZERO + 40.0, 1.0).unwrap(), 1.0);
    // Double acrylic of 2.8.
    near(moisture::surface_factor(2.8, 0.13).unwrap(), 0.636, 1e-9);
    assert_eq!(moisture::SURFACE_FACTOR_LIMIT.least, 0.75);
}

/// Thermal book, worked examples 22 and 23: 17.4 cfm for a van of 7.56 m² (the rounded metric form of the standard gives 8.13 L/s, this 8.23); 44.8 m³/h keep two sleepers below 1,000 parts per million.
#[test]
fn fresh_air() {
    near(moisture::dwelling_air_flow(7.56, 1).unwrap() / 0.000_471_947, 17.4, 0.05);
    let two = 2.0 * moisture::CARBON_DIOXIDE_ASLEEP.0.most();
    let flow = moisture::flow_for_carbon_dioxide(two, 1_000e-6, moisture::OUTSIDE_CARBON_DIOXIDE).unwrap().unwrap();
    near(flow * 3_600.0, 44.8, 0.05);
    near(moisture::carbon_dioxide_share(two, flow, 420e-6).unwrap(), 1_000e-6, 1e-12);
    assert_eq!(moisture::flow_for_carbon_dioxide(two, 400e-6, 420e-6).unwrap(), None);
}

/// Thermal book, worked example 24: a kilogram of propane burns to 1.634 kg of water, a flame of 1 kW gives 127 g/h.
#[test]
fn water_of_flames() {
    near(moisture::combustion_water(Fuel::Propane).middle(), 1.634, 5e-4);
    near(moisture::combustion_water(Fuel::Butane).middle(), 1.550, 5e-4);
    near(moisture::flame_water(1_000.0, Fuel::Propane, 1.0).unwrap().middle() * 3_600e3, 127.0, 0.3);
    for name in ["person-asleep", "cooking", "shower"] {
        let source = moisture::moisture_source(name).unwrap();
        assert_eq!(source.citation.mark, Mark::Read);
        assert!(matches!(source.amount, SourceAmount::Rate(rate) if rate.least() > 0.0));
    }
    assert_eq!(moisture::moisture_source("aquarium"), None);
}

/// Wool on a tight skin collects water behind a plain lining, far less behind a retarder; the water lies on the skin.
#[test]
fn water_behind_the_lining() {
    let skin = GlaserLayer { resistance: 2e-5, vapour_thickness: 1_000.0 };
    let wool = GlaserLayer { resistance: 1.25, vapour_thickness: 0.075 };
    let retarder = GlaserLayer { resistance: 0.0, vapour_thickness: 50.0 };
    let lining = GlaserLayer { resistance: 0.046, vapour_thickness: 0.6 };
    let outside = (ZERO - 10.0, moisture::vapour_pressure(ZERO - 10.0, 0.85).unwrap());
    let inside = (ZERO + 18.0, moisture::vapour_pressure(ZERO + 18.0, 0.6).unwrap());
    let reckon = |layers: &[GlaserLayer]| moisture::glaser(layers, (0.04, 0.13), outside, inside).unwrap();
    let bare = reckon(&[skin, wool, lining]);
    let held = reckon(&[skin, wool, retarder, lining]);
    assert_eq!(bare.condensates.len(), 1);
    assert_eq!((bare.condensates[0].layer, bare.condensates[0].within), (0, false));
    // The dry stretch of 0.675 m by hand: 2e-10 × (1,238 − 264 Pa) / 0.675 m = 289 µg/(m²·s), a gram in an hour.
    near(bare.total_rate() * 3_600e3, 1.03, 0.05);
    assert!(held.total_rate() < bare.total_rate() / 50.0, "{held:?}");
    // The retarder on the cold side of the wool does not help.
    assert!(reckon(&[skin, retarder, wool, lining]).total_rate() > held.total_rate() * 10.0);
    for (pressure, saturation) in bare.vapour_pressures.iter().zip(&bare.saturation_pressures) {
        assert!(*pressure <= saturation * (1.0 + 1e-9));
    }
    assert_eq!(bare.temperatures.len(), 4);
}

/// A whole wall of one wool in a room as humid as a shower: the water lies inside the wool, not at a face of it.
#[test]
fn water_within_a_layer() {
    let wool = GlaserLayer { resistance: 3.0, vapour_thickness: 0.12 };
    let outside = (ZERO - 10.0, moisture::vapour_pressure(ZERO - 10.0, 0.95).unwrap());
    let inside = (ZERO + 20.0, moisture::vapour_pressure(ZERO + 20.0, 0.9).unwrap());
    let found = moisture::glaser(&[wool], (0.04, 0.13), outside, inside).unwrap();
    assert!(!found.condensates.is_empty());
    for place in &found.condensates {
        assert!(place.within && place.layer == 0 && place.temperature > outside.0 && place.temperature < inside.0);
    }
}
