//! What is kept free around exhausts and intakes, and how many ways out a bus needs.

use calc::gas::{ENGINE_EXHAUST, FAN_INTAKE};
use calc::space::exits_for_people;

/// UN R107 Annex 3, 7.6.1, every row at both of its ends.
#[test]
fn exits_of_a_bus_row_by_row() {
    let rows = [
        (1, 8, 2),
        (9, 16, 3),
        (17, 30, 4),
        (31, 45, 5),
        (46, 60, 6),
        (61, 75, 7),
        (76, 90, 8),
        (91, 110, 9),
        (111, 130, 10),
        (131, 300, 11),
    ];
    for (fewest, most, exits) in rows {
        assert_eq!(exits_for_people(fewest), exits, "{fewest} people");
        assert_eq!(exits_for_people(most), exits, "{most} people");
    }
}

/// DVGW G 607: 300 mm above, 250 mm to the side. 24 CFR 3280.710(d): 3 ft above within 10 ft.
#[test]
fn what_is_kept_free_ends_at_its_distances() {
    assert!(ENGINE_EXHAUST.holds(0.249, 0.299));
    assert!(!ENGINE_EXHAUST.holds(0.250, 0.0));
    assert!(!ENGINE_EXHAUST.holds(0.0, 0.300));
    let (inch, foot) = (0.0254, 0.3048);
    assert!(FAN_INTAKE.holds(119.0 * inch, 35.0 * inch));
    assert!(!FAN_INTAKE.holds(10.0 * foot, 0.0));
    assert!(!FAN_INTAKE.holds(0.0, 3.0 * foot));
    // A flue that ends below the intake is in the way of its air.
    assert!(FAN_INTAKE.holds(1.0, -2.0));
}
