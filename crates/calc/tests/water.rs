//! Water: worked examples of the fact books, each named, and the rows of their tables.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used)]

use calc::water::{self, FilledPipe, Insulation, Pump, Route, Water};

const ZERO: f64 = 273.15;
const LITRE_PER_MINUTE: f64 = 1e-3 / 60.0;

#[track_caller]
fn near(value: f64, expected: f64, absolute: f64) {
    assert!((value - expected).abs() <= absolute, "{value} against {expected}");
}

fn cold() -> Water {
    water::water(ZERO + 10.0).expect("10 °C is within the table")
}

/// Thermal book, worked example 30: 8 L/min through 5 m of 12.7 mm with K 4: 1.053 m/s, Re 10,233, f 0.0315, 9.1 kPa. The book's own formula is
/// Haaland's, which differs by 1 %.
#[test]
fn friction_of_a_pipe() {
    let flow = 8.0 * LITRE_PER_MINUTE;
    let moving = water::pipe_flow(flow, 0.0127, &cold()).unwrap();
    near(moving.speed, 1.053, 1e-3);
    near(moving.reynolds, 10_233.0, 5.0);
    near(water::friction_factor(moving.reynolds, 7e-6 / 0.0127).unwrap().middle(), 0.03154, 4e-4);
    let lost = water::friction_loss(flow, 0.0127, 5.0, water::PLASTIC_ROUGHNESS, 4.0, &cold()).unwrap();
    near(lost.middle() / 1e3, 9.1, 0.1);
    near(water::static_pressure(1.0, &cold()).unwrap(), 9_804.0, 1.0);
}

/// Thermal book, table of friction in kPa for a metre at 10 °C, turbulent rows within 2 %; Hazen and Williams 15 to 25 % below.
#[test]
fn friction_by_size_and_flow() {
    for (litres, diameter, expected) in [
        (6.0, 9.5, 3.33),
        (8.0, 9.5, 5.54),
        (10.0, 11.6, 3.15),
        (10.0, 12.7, 2.04),
        (12.0, 12.7, 2.81),
        (15.0, 12.7, 4.18),
        (20.0, 15.9, 2.37),
    ] {
        let flow = litres * LITRE_PER_MINUTE;
        let lost = water::friction_loss(flow, diameter / 1e3, 1.0, water::PLASTIC_ROUGHNESS, 0.0, &cold()).unwrap();
        near(lost.middle() / 1e3 / expected, 1.0, 0.02);
        let old = water::friction_loss_hazen_williams(flow, diameter / 1e3, 1.0, 150.0, &cold()).unwrap();
        assert!((0.70..0.90).contains(&(old / lost.middle())), "{}", old / lost.middle());
    }
    // Between Re 2,300 and 4,000 nobody knows: 2.4 L/min in 12.7 mm is Re 3,070, where turbulent flow takes twice as much.
    let unsure = water::friction_loss(2.4 * LITRE_PER_MINUTE, 0.0127, 1.0, 7e-6, 0.0, &cold()).unwrap();
    assert!(unsure.most() > 1.9 * unsure.least(), "{unsure:?}");
    assert_eq!(water::friction_loss(0.0, 0.0127, 1.0, 7e-6, 0.0, &cold()).unwrap().most(), 0.0);
}

/// A pump of 10 L/min and 2.8 bar: less comes through a longer pipe, nothing 30 m up; what is left at the tap closes the balance.
#[test]
fn pump_and_tap() {
    let pump = Pump { open_flow: 10.0 * LITRE_PER_MINUTE, cut_out: 2.8e5 };
    let route = |length, rise| Route { diameter: 0.0127, length, roughness: 7e-6, fittings: 6.0, rise };
    let flow = |length, rise| water::pump_working_point(&pump, &route(length, rise), 0.0, &cold()).unwrap().flow.most();
    assert!(flow(3.0, 1.0) > flow(12.0, 1.0) && flow(12.0, 1.0) > 0.5 * pump.open_flow);
    assert!(flow(3.0, 30.0) < 1e-12);
    // A trickle through a tap that is nearly shut may run quietly or not: the flow is a range.
    let weak = Pump { open_flow: 3.0 * LITRE_PER_MINUTE, cut_out: 0.4e5 };
    let long = Route { diameter: 0.0127, length: 60.0, roughness: 7e-6, fittings: 0.0, rise: 0.0 };
    let trickle = water::pump_working_point(&weak, &long, 0.0, &cold()).unwrap().flow;
    assert!(trickle.most() > 1.05 * trickle.least(), "{trickle:?}");
    let working = water::pump_working_point(&pump, &route(5.0, 1.0), 3e12, &cold()).unwrap();
    let left =
        water::pressure_at_outlet(working.pump_pressure, &route(5.0, 1.0), working.flow.most(), &cold()).unwrap();
    near(left.middle(), 3e12 * working.flow.most().powi(2), 1.0);
}

/// Thermal book, worked example 31: 0.75 L charged to 1.4 bar gives 0.192 L between 1.7 and 2.8 bar.
#[test]
fn vessel_beside_the_pump() {
    near(water::accumulator_drawdown(0.75e-3, 1.4e5, 1.7e5, 2.8e5).unwrap() * 1e3, 0.192, 1e-3);
    // Charged above cut-in only the part above the charge counts: 0.75 × (1 − 3.013/3.813).
    near(water::accumulator_drawdown(0.75e-3, 2.0e5, 1.7e5, 2.8e5).unwrap() * 1e3, 0.1574, 1e-3);
    assert_eq!(water::accumulator_drawdown(0.75e-3, 3.0e5, 1.7e5, 2.8e5).unwrap(), 0.0);
}

/// Thermal book, pump side: filling with 20 L/min pushes air through a vent of 12.7 mm at 2.6 m/s; a vent of 3 mm would swell the tank.
#[test]
fn vents_while_filling() {
    let filling = 20.0 * LITRE_PER_MINUTE;
    let area = |millimetres: f64| std::f64::consts::PI / 4.0 * (millimetres / 1e3).powi(2);
    near(water::vent_speed(filling, area(12.7)).unwrap(), 2.63, 0.01);
    assert!(water::tank_overpressure(filling, area(12.7), 1.5).unwrap() < 10.0);
    let small = water::tank_overpressure(filling, area(3.0), 1.5).unwrap();
    assert!(small > 1_900.0, "{small}");
    near(water::least_vent_diameter(filling, 1.5, small).unwrap(), 0.003, 1e-9);
    near(water::tank_mass(0.1, 0.5, 8.0, &cold()).unwrap(), 57.985, 1e-3);
}

/// Thermal book, worked example 36: 2.083 % is 1.19°; 800 mm at 3° are 42 mm; a tray of 2 % stops at 1.15°.
#[test]
fn falls_and_traps() {
    near(water::DRAIN_SLOPE * 100.0, 2.083, 1e-3);
    near(water::DRAIN_SLOPE.atan().to_degrees(), 1.19, 5e-3);
    near(water::DRAIN_SLOPE_WITH_CLEAN_OUT.atan().to_degrees(), 0.60, 5e-3);
    near(water::drain_fall(0.8, 3.0_f64.to_radians().tan()).unwrap(), 0.042, 5e-4);
    near(water::slope_when_tilted(0.02, 1.1458_f64.to_radians()).unwrap(), 0.0, 1e-6);
    assert!(water::slope_when_tilted(0.02, 2.0_f64.to_radians()).unwrap() < 0.0);
    // A seal of 20 mm between legs 60 mm apart is gone at 33.7°, where the slope is 2/3.
    near(water::trap_seal_when_tilted(0.020, 0.060, 0.0).unwrap(), 0.020, 1e-12);
    near(water::trap_seal_when_tilted(0.020, 0.060, (2.0_f64 / 3.0).atan()).unwrap(), 0.0, 1e-12);
    assert_eq!(water::trap_seal_when_tilted(0.020, 0.060, 1.0).unwrap(), 0.0);
}

/// Thermal book, worked example 25 and the table of tanks: 100 L in 1.50 m².
#[test]
fn freezing_tank() {
    let (capacity, mass) = water::tank_contents(0.1).unwrap();
    // The book prints tenths of an hour below thirty hours and whole hours above.
    let printed = |hours: f64| if hours < 30.0 { 0.06 } else { 0.6 };
    let foam = |millimetres: f64| Insulation { thickness: millimetres / 1e3, conductivity: 0.034 };
    for (cover, film, outside, frost, tenth, solid, hold) in [
        (0.0, 8.0, -5.0, 10.7, 26.1, 165.0, 84.0),
        (0.0, 8.0, -20.0, 3.9, 7.8, 43.0, 264.0),
        (0.0, 20.0, -10.0, 2.7, 5.8, 34.0, 360.0),
        (25.0, 8.0, -10.0, 46.3, 99.0, 578.0, 21.0),
        (50.0, 8.0, -20.0, 50.0, 99.0, 544.0, 21.0),
    ] {
        let loss = water::tank_loss(1.5, foam(cover), film).unwrap();
        let outside = ZERO + outside;
        let zero = water::seconds_to_freezing_point(capacity, loss, ZERO + 10.0, outside).unwrap().unwrap() / 3_600.0;
        let ice = |share| water::seconds_to_freeze(mass, loss, outside, share).unwrap().unwrap() / 3_600.0;
        near(zero, frost, printed(frost));
        near(zero + ice(0.1), tenth, printed(tenth));
        near(zero + ice(1.0), solid, printed(solid));
        near(water::holding_power(loss, ZERO + 2.0, outside).unwrap(), hold, 0.5);
    }
    assert_eq!(water::seconds_to_freezing_point(capacity, 12.0, ZERO + 10.0, ZERO + 1.0).unwrap(), None);
    assert_eq!(water::seconds_to_freezing_point(capacity, 12.0, ZERO - 1.0, ZERO - 5.0).unwrap(), Some(0.0));
    assert_eq!(water::seconds_to_freeze(mass, 12.0, ZERO, 1.0).unwrap(), None);
}

/// Thermal book, worked examples 27 and 28 and the table of pipes of 15 × 2 mm: foam only delays.
#[test]
fn freezing_pipe() {
    let pipe = FilledPipe { outside: 0.015, inside: 0.011, wall_conductivity: 0.4, wall_heat: 940.0 * 2_300.0 };
    let (capacity, mass) = water::pipe_contents(&pipe).unwrap();
    for (foam, outside, frost, blocked, solid, hold) in [
        (0.0, -5.0, 0.39, 0.59, 4.4, 4.5),
        (0.0, -10.0, 0.25, 0.35, 2.2, 6.7),
        (13.0, -10.0, 0.59, 0.83, 5.3, 2.8),
        (13.0, -20.0, 0.35, 0.46, 2.7, 4.7),
        (25.0, -10.0, 0.79, 1.10, 7.0, 2.1),
    ] {
        let insulation = Insulation { thickness: foam / 1e3, conductivity: 0.036 };
        let resistance = water::pipe_resistance(&pipe, insulation, 10.0).unwrap();
        if foam == 13.0 {
            near(resistance, 5.35, 5e-3);
        }
        let (loss, outside) = (1.0 / resistance, ZERO + outside);
        let zero = water::seconds_to_freezing_point(capacity, loss, ZERO + 10.0, outside).unwrap().unwrap() / 3_600.0;
        let ice = |share| water::seconds_to_freeze(mass, loss, outside, share).unwrap().unwrap() / 3_600.0;
        near(zero, frost, 6e-3);
        near(zero + ice(water::BLOCKED_PIPE_ICE_SHARE), blocked, 0.011);
        near(zero + ice(1.0), solid, 0.06);
        near(water::holding_power(loss, ZERO + 5.0, outside).unwrap(), hold, 0.06);
    }
}

/// Thermal book, worked example 32: 10 L at 60 °C with cold of 10 °C give 17.9 L at 38 °C; 0.523 kWh from 15 to 60 °C; growth of 1.68 %.
#[test]
fn hot_water() {
    let (hot, cold, mixed) = (ZERO + 60.0, ZERO + 10.0, ZERO + 38.0);
    near(water::mixed_volume(10.0, hot, cold, mixed).unwrap(), 17.86, 0.01);
    near(water::mixed_temperature(28.0, hot, 22.0, cold).unwrap() - ZERO, 38.0, 1e-9);
    let heat = water::heating_energy(0.010, ZERO + 15.0, hot).unwrap();
    near(heat / 3.6e6, 0.523, 1e-3);
    near(water::recharge_seconds(0.010, ZERO + 15.0, hot, 800.0, 1.0, 30.0).unwrap().unwrap(), heat / 770.0, 1e-6);
    assert_eq!(water::recharge_seconds(0.010, ZERO + 15.0, hot, 30.0, 1.0, 30.0).unwrap(), None);
    near(water::closed_expansion(1.0, cold, hot).unwrap(), 0.0168, 1e-4);
    assert!(water::LEGIONELLA_GROWTH.1 < water::LEGIONELLA_STORAGE);
}

/// Thermal book, scalds: five minutes at 48.9 °C, three seconds at 60 °C, between two rows the hotter one; care premises' limits lie below all.
#[test]
fn scalds() {
    for (celsius, seconds) in [
        (45.0, None),
        (48.9, Some(300.0)),
        (50.0, Some(90.0)),
        (54.4, Some(30.0)),
        (59.0, Some(3.0)),
        (60.0, Some(3.0)),
        (71.1, Some(0.5)),
        (85.0, Some(0.0)),
    ] {
        assert_eq!(water::scald_seconds(ZERO + celsius).unwrap(), seconds, "{celsius}");
    }
    for limit in &water::MIXED_OUTLET {
        assert_eq!(water::scald_seconds(limit.temperature).unwrap(), None, "{}", limit.outlet);
    }
    near(water::ANTI_SCALD.0, ZERO + 48.9, 1e-9);
}
