//! Mass: worked examples of the fact books, each named.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used)]

use calc::mass::{
    self, Anchorage, AxleLayout, BoltClass, BoltSize, Evidence, Filling, Item, LoadState, Mass, RoofZone, StatedItem,
    Support,
};
use calc::{InputError, Mark};

#[track_caller]
fn near(value: f64, expected: f64, absolute: f64) {
    assert!((value - expected).abs() <= absolute, "{value} against {expected}");
}

fn known(kilograms: f64) -> Mass {
    Mass::new(kilograms, Some(0.0), Evidence::Measured).expect("a usable mass")
}

fn item(kilograms: f64, at: [f64; 3]) -> Item {
    Item { mass: known(kilograms), at }
}

/// Thermal book, worked examples 43 and 46: 100 lb at 133 of 214 in: rear 62.15, front 37.85; 100 kg one metre behind the rear axle of a
/// wheelbase of 3.665 m: +127.3 and −27.3 kg.
#[test]
fn axle_shares() {
    let inches = AxleLayout::TwoAxles { front: 0.0, rear: 214.0 };
    let loads = mass::axle_loads(&inches, &[item(100.0, [133.0, 0.0, 0.0])]).unwrap();
    near(loads.supports[0].load.value, 37.85, 5e-3);
    near(loads.supports[1].load.value, 62.15, 5e-3);
    let van = AxleLayout::TwoAxles { front: 0.0, rear: 3.665 };
    let effect = mass::option_effect(&van, known(100.0), 4.665).unwrap();
    near(effect[0].load.value, -27.3, 0.05);
    near(effect[1].load.value, 127.3, 0.05);
    assert_eq!((effect[0].support, effect[1].support), (Support::Axle(1), Support::Axle(2)));
}

/// An option of 50 kg ± 20 % behind the rear axle: the front gains least where the option is heaviest.
#[test]
fn bounds_turn_round_behind_the_axle() {
    let van = AxleLayout::TwoAxles { front: 0.0, rear: 4.0 };
    let option = Mass::new(50.0, None, Evidence::Estimated).unwrap();
    let effect = mass::option_effect(&van, option, 5.0).unwrap();
    // 50 kg × (1 − 5/4) = −12.5 kg, with 40 to 60 kg −10 to −15 kg.
    near(effect[0].load.value, -12.5, 1e-9);
    near(effect[0].load.bounds.least(), -15.0, 1e-9);
    near(effect[0].load.bounds.most(), -10.0, 1e-9);
}

/// A base vehicle enters by its weighings; a tandem and a trailer share by hand.
#[test]
fn weighed_vehicle_tandem_and_trailer() {
    let van = AxleLayout::TwoAxles { front: 0.0, rear: 4.0 };
    let mut items = mass::weighed(&van, &[known(1_200.0), known(900.0)], 0.9).unwrap();
    items.push(item(200.0, [3.0, 0.0, 1.0]));
    let loads = mass::axle_loads(&van, &items).unwrap();
    near(loads.supports[0].load.value, 1_250.0, 1e-9);
    near(loads.supports[1].load.value, 1_050.0, 1e-9);
    near(loads.total.value, 2_300.0, 1e-9);
    assert!(matches!(mass::weighed(&van, &[known(1.0)], 0.9), Err(InputError::OutOfRange { .. })));
    // Tandem at 4.0 and 5.0 m, six tenths on the first: it turns at 4.4 m. 1,100 kg at 2.2 m rest half on it.
    let tandem = AxleLayout::FrontAndTandem { front: 0.0, first: 4.0, second: 5.0, first_share: 0.6 };
    let loads = mass::axle_loads(&tandem, &[item(1_100.0, [2.2, 0.0, 0.0])]).unwrap();
    for (support, expected) in loads.supports.iter().zip([550.0, 330.0, 220.0]) {
        near(support.load.value, expected, 1e-9);
    }
    // A trailer of 750 kg, 50 mm before its axle at 2.5 m from the ball: 15 kg on the ball, half of what Germany asks.
    let trailer = AxleLayout::Trailer { coupling: 0.0, axle: 2.5 };
    let loads = mass::axle_loads(&trailer, &[item(750.0, [2.45, 0.0, 0.0])]).unwrap();
    assert_eq!((loads.supports[0].support, loads.supports[1].support), (Support::Coupling, Support::Axle(1)));
    near(loads.supports[0].load.value, 15.0, 1e-9);
    assert!(loads.supports[0].load.value < mass::least_coupling_load_germany(750.0).unwrap());
}

/// Thermal book, worked example 45: 38.7 kg·m to one side at a track of 1.79 m: 1,523.6 against 1,480.4 kg.
#[test]
fn left_and_right() {
    let items = [item(1_504.0, [1.0, 0.0, 0.0]), item(1_500.0, [2.0, -38.7 / 1_500.0, 0.0])];
    let sides = mass::side_loads(&items, 1.79).unwrap();
    near(sides.left.value, 1_523.6, 0.1);
    near(sides.right.value, 1_480.4, 0.1);
    // 100 kg half a metre to the right over the rear axle: 50 ± 100·0.5/1.8 there, nothing in front.
    let van = AxleLayout::TwoAxles { front: 0.0, rear: 4.0 };
    let wheels = mass::wheel_loads(&van, &[item(100.0, [4.0, 0.5, 1.0])], &[1.8, 1.8]).unwrap();
    near(wheels[0].sides.right.value, 0.0, 1e-9);
    near(wheels[1].sides.right.value, 77.8, 0.05);
    near(wheels[1].sides.left.value, 22.2, 0.05);
    assert!(mass::wheel_loads(&van, &[item(100.0, [4.0, 0.5, 1.0])], &[1.8]).is_err());
}

/// Thermal book, worked example 48: 60 kg at 2.7 m on 3,000 kg at 0.95 m: height 0.984 m, factor 0.942 down to 0.909.
#[test]
fn height_and_tipping() {
    let items = [item(3_000.0, [1.8, 0.0, 0.95]), item(60.0, [1.8, 0.0, 2.7])];
    let height = mass::centre_of_gravity(&items).unwrap().z.value;
    near(height, 0.984, 5e-4);
    near(mass::static_stability_factor(1.79, 0.95).unwrap(), 0.942, 5e-4);
    near(mass::static_stability_factor(1.79, height).unwrap(), 0.909, 6e-4);
    near(mass::static_tilt_angle(1.79, 0.95, 0.0).unwrap().to_degrees(), 43.3, 0.05);
    assert!(mass::static_tilt_angle(1.79, 0.95, 0.05).unwrap() < mass::static_tilt_angle(1.79, 0.95, 0.0).unwrap());
    near(mass::braking_transfer(3_000.0, 0.8, 0.95, 3.665).unwrap(), 622.1, 0.1);
    // Moments by hand: lifted by 0.2 rad, a centre at 1.0 m over wheels of 0.35 m brings M·0.65·tan(0.2)/WB to the front.
    let gain = 3_000.0 * 0.65 * 0.2_f64.tan() / 3.665;
    near(mass::height_from_lifted_axle(3.665, 3_000.0, gain, 0.2, 0.35).unwrap(), 1.0, 1e-9);
}

/// States of one van: the water moves from the fresh to the grey tank, and with it the load of the axles.
#[test]
fn states_of_loading() {
    let stated = |kilograms, x, filling| StatedItem { item: item(kilograms, [x, 0.0, 0.5]), filling };
    let all = [
        stated(2_600.0, 1.7, Filling::Always),
        stated(100.0, 1.0, Filling::FreshWater),
        stated(90.0, 4.5, Filling::GreyWater),
        stated(75.0, 0.5, Filling::Person),
        stated(60.0, 2.0, Filling::Fuel),
    ];
    let van = AxleLayout::TwoAxles { front: 0.0, rear: 4.0 };
    let rear = |state: &LoadState| {
        let items = mass::items_in_state(&all, state).unwrap();
        let loads = mass::axle_loads(&van, &items).unwrap();
        (loads.total.value, loads.supports[1].load.value)
    };
    near(rear(&LoadState::EMPTY).0, 2_600.0, 1e-9);
    near(rear(&LoadState::SETTING_OUT).0, 2_835.0, 1e-9);
    near(rear(&LoadState::COMING_HOME).0, 2_825.0, 1e-9);
    near(rear(&LoadState::ALL_FULL).0, 2_925.0, 1e-9);
    // 100 kg × 1.0/4 leave the rear axle, 90 kg × 4.5/4 come.
    near(rear(&LoadState::COMING_HOME).1 - rear(&LoadState::SETTING_OUT).1, 76.25, 1e-9);
    assert!(mass::items_in_state(&all, &LoadState { fuel: 1.5, ..LoadState::EMPTY }).is_err());
}

/// Verification of codes, T12: load indices, each within 1.8 % of 45·10^(LI/80); the two that pages misprint.
#[test]
fn tyres() {
    for index in 60..=150_u16 {
        let (kilograms, source) = mass::tyre_load(index).unwrap();
        near(kilograms / (45.0 * 10_f64.powf(f64::from(index) / 80.0)), 1.0, 0.018);
        assert_eq!(source.mark, if index == 135 { Mark::Memory } else { Mark::Read });
    }
    for (index, kilograms) in [(61, 257.0), (62, 265.0), (103, 875.0), (121, 1_450.0), (124, 1_600.0), (150, 3_350.0)] {
        assert_eq!(mass::tyre_load(index).unwrap().0, kilograms);
    }
    assert_eq!(mass::axle_tyre_capacity(121, 2).unwrap(), 2_900.0);
    assert_eq!(mass::axle_tyre_capacity(110, 4).unwrap(), 4_240.0);
    assert!(mass::tyre_load(59).is_err() && mass::tyre_load(151).is_err() && mass::axle_tyre_capacity(121, 3).is_err());
}

/// Thermal book, worked examples 49, 50, 51, 54 and 55.
#[test]
fn payloads_by_region() {
    near(mass::eu_minimum_payload(4, 7.0).unwrap(), 110.0, 1e-9);
    let left = mass::eu_payload_left(3_500.0, 2_900.0, 150.0, 4).unwrap();
    near(left, 225.0, 1e-9);
    assert!(left >= mass::eu_minimum_payload(4, 6.0).unwrap());
    let real = mass::running_order_bounds(3_050.0).unwrap();
    near(real.least(), 2_897.5, 1e-9);
    near(real.most(), 3_202.5, 1e-9);
    near(mass::us_relabel_limit(4_000.0).unwrap(), 45.4, 1e-9);
    near(mass::us_relabel_limit(2_000.0).unwrap(), 30.0, 1e-9);
    near(mass::least_coupling_load_germany(600.0).unwrap(), 24.0, 1e-9);
    near(mass::least_coupling_load_germany(2_000.0).unwrap(), 25.0, 1e-9);
    near(mass::us_occupant_and_cargo_capacity(4_990.0, 4_300.0, 20.0).unwrap(), 670.0, 1e-9);
    near(mass::us_least_gross_rating(2_900.0, 300.0, 4).unwrap(), 3_472.0, 1e-9);
    // The heaviest vehicle leaves the least.
    let laden = mass::axle_loads(
        &AxleLayout::TwoAxles { front: 0.0, rear: 4.0 },
        &[Item { mass: Mass::new(3_300.0, Some(0.05), Evidence::DataSheet).unwrap(), at: [2.0, 0.0, 0.0] }],
    )
    .unwrap();
    let payload = mass::payload_left(3_500.0, laden.total).unwrap();
    near(payload.value, 200.0, 1e-9);
    near(payload.bounds.least(), 35.0, 1e-9);
    near(payload.bounds.most(), 365.0, 1e-9);
}

/// Thermal book, worked examples 56 and 58, and its 30 kg battery of 5.9 kN in a crash.
#[test]
fn restraint() {
    let pounds = 0.453_592_37;
    let (light, source) = mass::battery_pull_test(25.0 * pounds).unwrap();
    near(light, 50.0 * 4.448_222, 0.1);
    assert_eq!(source.mark, Mark::Read);
    near(mass::battery_pull_test(60.0 * pounds).unwrap().0, 400.3, 0.1);
    let case = |name: &str| mass::load_cases().iter().find(|case| case.name == name).copied().unwrap();
    near(mass::restraint_force(95.0, &case("us-cargo-breaking")).unwrap().forward, 745.0, 0.5);
    let crash = mass::restraint_force(30.0, &case("crash-m1-n1")).unwrap();
    near(crash.forward, 5_884.0, 1.0);
    near(crash.sideways, 2_353.6, 1.0);
    near(crash.greatest(), crash.forward, 1e-9);
    assert_eq!(crash.upward, None);
    // Fixings of 1.5 kN with a factor of 1.5: 5.9 of them, so 6; a fixing too many is not asked for.
    let anchorage = |capacity, safety| Anchorage { capacity, safety };
    assert_eq!(mass::fixings_needed(crash.forward, &anchorage(1_500.0, 1.5)).unwrap(), 6);
    assert_eq!(mass::fixings_needed(0.1 + 0.2, &anchorage(0.1, 1.0)).unwrap(), 3);
    assert_eq!(mass::fixings_needed(0.301, &anchorage(0.1, 1.0)).unwrap(), 4);
    assert_eq!(mass::fixings_needed(0.0, &anchorage(1_500.0, 1.5)).unwrap(), 1);
    assert!(mass::fixings_needed(1.0, &anchorage(1_500.0, 0.5)).is_err());
    near(mass::bolt_proof_load(BoltSize::M8, BoltClass::C8_8).0, 21_200.0, 50.0);
}

/// Thermal book, worked examples 59 and 61: 1,086 N under 1.7 m² at 130 km/h; 0.958, 1.436 and 1.915 kPa of roof load.
#[test]
fn roofs() {
    near(mass::wind_uplift(1.7, 130.0 / 3.6, 0.8).unwrap(), 1_086.0, 1.0);
    for (zone, expected) in [(RoofZone::South, 958.0), (RoofZone::Middle, 1_436.0), (RoofZone::North, 1_915.0)] {
        near(zone.live_load(), expected, 0.6);
    }
    near(mass::snow_mass(RoofZone::South.live_load(), 1.0).unwrap(), 97.6, 0.1);
    let panel = Mass::new(25.0, Some(0.2), Evidence::DataSheet).unwrap();
    let margin = mass::roof_margin(150.0, &[panel; 5]).unwrap();
    near(margin.value, 25.0, 1e-9);
    near(margin.bounds.least(), 0.0, 1e-9);
    near(margin.bounds.most(), 50.0, 1e-9);
}
