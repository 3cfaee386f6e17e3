//! What devices, contacts and joints add to a circuit.

#![allow(clippy::expect_used)]

use calc::{
    DeviceClass, closed_contact_resistance, device_resistance, metal_joint_resistance, metal_strap_resistance,
    shunt_resistance,
};

#[track_caller]
fn same(value: f64, expected: f64) {
    assert!((value - expected).abs() <= 1e-12 * expected.abs().max(1.0), "{value} against {expected}");
}

#[test]
fn a_device_loses_its_usual_voltage_at_its_rating() {
    for (class, rating, usual, most) in [
        (Some(DeviceClass::Blade), 10.0, 0.010, 0.020),
        (None, 20.0, 0.005, 0.010),
        (Some(DeviceClass::ClassT), 200.0, 0.4e-3, 0.8e-3),
        (Some(DeviceClass::Strip), 80.0, 1e-3, 2e-3),
        (Some(DeviceClass::BreakerDcThermal), 30.0, 5e-3, 10e-3),
        // IEC 60898: 3.5 W at 16 A are 13.7 mΩ, half of it is usual.
        (Some(DeviceClass::Breaker60898), 16.0, 3.5 / 256.0 / 2.0, 3.5 / 256.0),
    ] {
        let found = device_resistance(class, rating).expect("it has one");
        same(found.usual, usual);
        same(found.most, most);
    }
    for rating in [0.0, -5.0, f64::NAN, f64::INFINITY] {
        assert!(device_resistance(Some(DeviceClass::Blade), rating).is_none());
    }
    // Beyond the table of the standard nothing is known.
    assert!(device_resistance(Some(DeviceClass::Breaker60898Direct), 200.0).is_none());
}

#[test]
fn contacts_shunts_and_metal() {
    same(closed_contact_resistance(Some(100.0)).usual, 0.5e-3);
    same(closed_contact_resistance(None).usual, 0.5e-3);
    same(closed_contact_resistance(Some(0.0)).most, 1e-3);
    same(shunt_resistance(Some(500.0)).usual, 0.1e-3);
    same(shunt_resistance(None).usual, closed_contact_resistance(None).usual);
    assert!(metal_joint_resistance().usual < metal_strap_resistance().usual);
}
