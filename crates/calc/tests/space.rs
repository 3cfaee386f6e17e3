//! Boxes, openings, skin, doors and outlines as they occur in a conversion.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used)]

use std::f64::consts::{FRAC_PI_2, FRAC_PI_6, PI};

use calc::space::{
    BELGIAN_EXIT, BUS_EXIT, Cuboid, ExitGauge, LEISURE_VEHICLE_EXIT, Opening, Outline, Plan, Reach, SLEEPER_EXIT, Side,
    Skin, SpaceError, Swing, Turning, height_above_standing, is_above, is_below, largest_scale, passes, same_side,
    within_reach,
};

fn cuboid(from: [f64; 3], size: [f64; 3]) -> Cuboid {
    Cuboid::new(from, size).expect("usable")
}

fn point(at: [f64; 3]) -> Cuboid {
    Cuboid::point(at).expect("usable")
}

fn window(side: Side, sill: [f64; 3], width: f64, height: f64) -> Opening {
    Opening::on_sill(side, sill, Outline::rectangle(width, height).expect("usable")).expect("usable")
}

#[track_caller]
fn close(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-9, "{found} against {expected}");
}

#[test]
fn a_battery_below_a_tank_in_its_locker() {
    let locker = cuboid([4.3, -0.89, 0.0], [0.7, 0.54, 0.42]);
    let battery = cuboid([4.32, -0.87, 0.02], [0.52, 0.27, 0.23]);
    let tank = cuboid([4.6, -0.8, 0.5], [0.7, 0.4, 0.26]);
    assert!(locker.contains(&battery, 0.0));
    assert!(!locker.contains(&tank, 0.0));
    assert!(tank.is_over(&battery, 0.0), "a leak drips on the battery");
    close(tank.plan().overlap(&battery.plan()), 0.24 * 0.20);
    close(tank.vertical_gap(&battery), 0.25);
    assert!(!tank.intersects(&battery, 0.0) && !battery.is_over(&tank, 0.0));
    // A battery drawn 5 mm through the locker's wall: within a centimetre it is the drawing, not the locker.
    let pushed = cuboid([4.295, -0.87, 0.02], [0.52, 0.27, 0.23]);
    assert!(!locker.contains(&pushed, 0.0) && locker.contains(&pushed, 0.01));
}

#[test]
fn boxes_that_share_a_face_do_not_intersect_and_a_point_in_a_box_does() {
    let bench = cuboid([2.0, -0.9, 0.0], [1.0, 0.5, 0.45]);
    let galley = cuboid([3.0, -0.9, 0.0], [1.0, 0.5, 0.9]);
    assert!(!bench.intersects(&galley, 0.0));
    close(bench.distance(&galley), 0.0);
    assert!(cuboid([2.98, -0.9, 0.0], [1.0, 0.5, 0.9]).intersects(&bench, 0.0));
    assert!(!cuboid([2.98, -0.9, 0.0], [1.0, 0.5, 0.9]).intersects(&bench, 0.03));
    assert!(point([2.5, -0.6, 0.2]).intersects(&bench, 0.1) && !point([2.05, -0.6, 0.2]).intersects(&bench, 0.1));
    // A panel thinner than the tolerance still goes through the bench.
    assert!(cuboid([1.0, -0.7, 0.0], [3.0, 0.012, 1.9]).intersects(&bench, 0.02));
}

#[test]
fn an_exhaust_near_a_window() {
    // The outlet stands 40 mm out of the wall, 0.2 m below the sill and 0.3 m beside the window's edge.
    let skin = Skin::new(cuboid([1.4, -0.95, -0.5], [3.8, 1.9, 2.5])).expect("a body");
    let opening = window(Side::Left, [2.6, -0.95, 1.1], 0.6, 0.5);
    let outlet = [2.0, -0.99, 0.9];
    close(opening.distance(outlet).expect("usable"), (0.3_f64.powi(2) + 0.2_f64.powi(2) + 0.04_f64.powi(2)).sqrt());
    let on_skin = skin.onto(outlet).expect("usable");
    assert_eq!(on_skin.side(), Side::Left);
    close(on_skin.off(), 0.04);
    close(skin.distance_to_opening(&on_skin, &opening).expect("it is in a wall"), 0.3_f64.hypot(0.2));
    // Around the corner to the rear: 3.2 m along the wall, 0.4 m into the rear wall, at the same height.
    let rear = window(Side::Rear, [5.2, -0.25, 0.7], 0.6, 0.5);
    close(skin.distance_to_opening(&on_skin, &rear).expect("it is in a wall"), 3.2 + 0.4);
    // Over the roof to a hatch: 1.1 m up the wall and 0.55 m across.
    let hatch =
        Opening::new(Side::Roof, [2.0, 0.0, 2.0], Outline::rectangle(0.8, 0.4).expect("usable")).expect("usable");
    close(skin.distance_to_opening(&on_skin, &hatch).expect("it is in the roof"), 1.1 + 0.55);
    // To the other wall around the front, 0.6 m away; below the floor there is a shorter way, and only there a drop-out can be met.
    let across = skin.onto([2.0, 0.95, -0.4]).expect("usable");
    let low = skin.onto([2.0, -0.95, -0.4]).expect("usable");
    close(skin.distance(&low, &across), 0.6 + 1.9 + 0.6);
    close(skin.clone().with_underside().distance(&low, &across), 0.1 + 1.9 + 0.1);
    let drop_out =
        Opening::new(Side::Under, [2.0, 0.0, -0.5], Outline::ellipse(0.1, 0.1).expect("usable")).expect("usable");
    assert_eq!(skin.distance_to_opening(&low, &drop_out), None);
    close(skin.with_underside().distance_to_opening(&low, &drop_out).expect("it has one"), 0.1 + 0.95 - 0.05);
}

#[test]
fn what_stands_before_an_opening() {
    let opening = window(Side::Right, [2.0, 0.89, 0.9], 0.6, 0.4);
    let inside = opening.space_inside(0.3).expect("usable");
    let wardrobe = cuboid([1.8, 0.4, 0.0], [0.5, 0.49, 1.9]);
    let worktop = cuboid([1.0, 0.29, 0.0], [2.0, 0.6, 0.9]);
    assert!(inside.intersects(&wardrobe, 0.001) && !inside.intersects(&worktop, 0.001));
    let carrier = cuboid([2.2, 0.95, 0.5], [0.3, 0.2, 1.0]);
    let outside = opening.space_outside(0.1).expect("usable");
    assert!(outside.intersects(&carrier, 0.001) && !inside.intersects(&carrier, 0.001));
    assert_eq!(opening.space_inside(-0.1), Err(SpaceError::Negative("depth")));
}

#[test]
fn the_spider_and_the_fly() {
    // Dudeney's room of 30 x 12 x 12 ft: the spider 1 ft below the ceiling in the middle of an end wall, the fly 1 ft above the floor in the
    // middle of the other. The shortest way is 40 ft, over five of the six faces (H. E. Dudeney, The Canterbury Puzzles, 1907;
    // from memory).
    let skin = Skin::new(cuboid([0.0, 0.0, 0.0], [30.0, 12.0, 12.0])).expect("a room").with_underside();
    let (spider, fly) = (skin.onto([0.0, 6.0, 11.0]).expect("usable"), skin.onto([30.0, 6.0, 1.0]).expect("usable"));
    close(skin.distance(&spider, &fly), 40.0);
}

#[test]
fn where_one_lies_relative_to_another() {
    let skin = Skin::new(cuboid([0.0, -1.0, -0.5], [6.0, 2.0, 2.5])).expect("a body");
    let flue = point([3.0, 1.03, 0.4]);
    let opening = window(Side::Right, [3.2, 1.0, 0.9], 0.3, 0.4);
    let sash = opening.bounds();
    close(opening.sill(), 0.9);
    close(opening.head(), 1.3);
    assert!(is_above(&sash, &flue, Reach::Horizontal(0.06)) && !is_above(&sash, &flue, Reach::Horizontal(0.05)));
    assert!(is_below(&flue, &sash, Reach::Horizontal(0.06)) && !is_above(&flue, &sash, Reach::Horizontal(9.0)));
    // 0.058 m aside, up to 0.9 m above: in a cone of 4 degrees, not in one of 3.
    assert!(is_above(&sash, &flue, Reach::Cone(4.0_f64.to_radians())));
    assert!(!is_above(&sash, &flue, Reach::Cone(3.0_f64.to_radians())));
    assert!(!is_above(&sash, &flue, Reach::Cone(f64::NAN)) && !is_above(&sash, &flue, Reach::Horizontal(f64::NAN)));
    close(sash.height_over(&flue), 0.7);
    assert_eq!(same_side(&skin, &flue, &sash), Some(Side::Right));
    assert_eq!(same_side(&skin, &flue, &point([3.0, -1.0, 0.4])), None);
    assert_eq!(skin.side_of(&point([3.0, 0.2, -0.6])), Side::Under);
    assert_eq!(Side::Right.opposite(), Side::Left);
}

#[test]
fn a_door_meets_what_stands_in_its_sweep() {
    // Hinged at (2, 0), closed toward +x, 0.6 m wide, opening toward +y by a right angle. Its free edge meets the stool's near side, 0.3 m
    // away, where sin = 0.3/0.6.
    let door = Swing::new([2.0, 0.0], [2.6, 0.0], FRAC_PI_2, 0.0, 1.8).expect("usable");
    let stool = cuboid([2.3, 0.3, 0.0], [0.3, 0.3, 0.45]);
    close(door.first_contact(&stool, 0.0).expect("it stands in the way"), FRAC_PI_6);
    close(door.opens_by(&[stool], 0.0), FRAC_PI_6);
    assert_eq!(door.first_contact(&cuboid([2.5, 0.5, 0.0], [0.3, 0.3, 0.45]), 0.0), None, "beyond its free edge");
    assert_eq!(door.first_contact(&cuboid([2.3, 0.3, 1.8], [0.3, 0.3, 0.2]), 0.0), None, "above it");
    assert_eq!(door.first_contact(&cuboid([2.3, -0.4, 0.0], [0.3, 0.3, 0.4]), 0.0), None, "on the other side");
    assert_eq!(
        door.first_contact(&cuboid([2.5, -0.1, 0.0], [0.3, 0.3, 0.4]), 0.0),
        Some(0.0),
        "it does not even close"
    );
    // A cupboard flush with the closed door is not in the way.
    let flush = cuboid([2.0, -0.5, 0.0], [0.6, 0.5, 0.9]);
    assert_eq!(door.first_contact(&flush, 0.001), None);
    close(door.opens_by(&[flush], 0.001), FRAC_PI_2);
    close(door.distance_in_plan([2.3, 0.3]), 0.0);
    close(door.distance_in_plan([2.0, 1.0]), 0.4);
    close(door.distance_in_plan([2.3, -0.2]), 0.2);
}

#[test]
fn heights_above_what_one_stands_on() {
    let bed = cuboid([4.0, -0.7, 0.0], [1.4, 1.4, 0.6]);
    let step = cuboid([3.6, -0.3, 0.0], [0.4, 0.6, 0.2]);
    let sill = point([4.5, 0.9, 1.3]);
    close(height_above_standing(&sill, 0.0, &[bed, step], 0.3), 0.7);
    close(height_above_standing(&sill, 0.0, &[bed, step], 0.1), 1.3);
    close(height_above_standing(&point([4.5, 0.9, 0.3]), 0.0, &[bed], 0.3), 0.3);
    let stand = Plan::new([2.0, -0.3], [0.6, 0.6]).expect("usable");
    let latch = point([2.3, 0.8, 1.3]);
    assert!(within_reach(&latch, &stand, 0.0, 0.6, 0.4, 1.372) && !within_reach(&latch, &stand, 0.0, 0.4, 0.4, 1.372));
    assert!(!within_reach(&latch, &stand, -0.1, 0.6, 0.4, 1.372), "from a lower floor it is too high");
}

/// Sizes in millimetres: width, height, radius of the corners (below 0: an ellipse).
fn opening(width: f64, height: f64, radius: f64) -> Outline {
    let (width, height) = (width / 1e3, height / 1e3);
    if radius < 0.0 { Outline::ellipse(width, height) } else { Outline::rounded(width, height, radius / 1e3) }
        .expect("usable")
}

#[test]
fn exits_by_the_outlines_of_the_law() {
    // Gauge, opening, does it pass.
    let table: [(&ExitGauge, [f64; 3], bool); 17] = [
        // 49 CFR 571.217: an ellipse of 508 x 330 mm, level.
        (&BUS_EXIT, [508.0, 330.0, 0.0], true),
        (&BUS_EXIT, [507.9, 330.0, 0.0], false),
        (&BUS_EXIT, [508.0, 329.9, 0.0], false),
        (&BUS_EXIT, [355.0, 355.0, 0.0], false),
        // Corners that an ellipse does not need may be rounded; upright the ellipse must not be.
        (&BUS_EXIT, [508.0, 330.0, 90.0], true),
        (&BUS_EXIT, [330.0, 508.0, 0.0], false),
        (&BUS_EXIT, [508.0, 330.0, -1.0], true),
        // Belgium: 400 x 600 mm, either way round.
        (&BELGIAN_EXIT, [400.0, 600.0, 0.0], true),
        (&BELGIAN_EXIT, [600.0, 400.0, 0.0], true),
        (&BELGIAN_EXIT, [600.0, 400.0, 20.0], false),
        (&BELGIAN_EXIT, [360.0, 360.0, 0.0], false),
        (&BELGIAN_EXIT, [700.0, 399.0, 0.0], false),
        // Too short by a millimetre, and slanting it would need far more height.
        (&BELGIAN_EXIT, [599.0, 500.0, 0.0], false),
        // United States, leisure vehicles: an ellipse of 610 x 432 mm; slanted it passes a square of 529 mm: √((610² + 432²)/2) = 528.5.
        (&LEISURE_VEHICLE_EXIT, [610.0, 432.0, 0.0], true),
        (&LEISURE_VEHICLE_EXIT, [529.0, 529.0, 0.0], true),
        (&LEISURE_VEHICLE_EXIT, [528.0, 528.0, 0.0], false),
        // 49 CFR 393.76: 914 x 457 mm, lying.
        (&SLEEPER_EXIT, [457.0, 914.0, 0.0], false),
    ];
    for (gauge, [width, height, radius], expected) in table {
        let outline = gauge.outline().expect("its sizes are usable");
        let found = passes(&outline, &opening(width, height, radius), gauge.turning);
        assert_eq!(found, expected, "{} x {} through {width} x {height}, radius {radius}", gauge.width, gauge.height);
    }
}

#[test]
fn how_much_is_missing_for_an_outline_to_pass() {
    let body = opening(600.0, 400.0, 0.0);
    close(largest_scale(&body, &opening(300.0, 400.0, 0.0), Turning::Level), 0.5);
    close(largest_scale(&body, &opening(300.0, 400.0, 0.0), Turning::Any), 2.0 / 3.0);
    // In a square it does best lying straight: slanted it would need (600 + 400)/√2 = 707 mm.
    close(largest_scale(&body, &opening(500.0, 500.0, 0.0), Turning::Any), 5.0 / 6.0);
    close(opening(400.0, 300.0, 50.0).area(), 0.12 - (4.0 - PI) * 0.0025);
    close(opening(400.0, 300.0, -1.0).area(), PI * 0.03);
}

#[test]
fn unusable_numbers_say_what_is_wrong() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, 1e7] {
        assert_eq!(Cuboid::point([0.0, bad, 0.0]), Err(SpaceError::NotFinite("y coordinate")));
        assert_eq!(Cuboid::new([0.0; 3], [1.0, 1.0, bad]), Err(SpaceError::NotFinite("height")));
        assert_eq!(Plan::new([bad, 0.0], [1.0, 1.0]), Err(SpaceError::NotFinite("x coordinate")));
        assert_eq!(Outline::rectangle(bad, 1.0), Err(SpaceError::NotFinite("width")));
        assert_eq!(Outline::rounded(1.0, 1.0, bad), Err(SpaceError::NotFinite("corner radius")));
        assert!(Swing::new([0.0; 2], [1.0, 0.0], bad, 0.0, 1.0).is_err());
        assert!(Opening::new(Side::Left, [bad; 3], Outline::ellipse(1.0, 1.0).expect("usable")).is_err());
        let body = cuboid([0.0; 3], [1.0; 3]);
        assert!(Skin::new(body).expect("a body").onto([bad, 0.0, 0.0]).is_err());
    }
    assert_eq!(Cuboid::new([0.0; 3], [1.0, -1e-9, 1.0]), Err(SpaceError::Negative("width")));
    assert_eq!(Outline::ellipse(0.5, 0.0), Err(SpaceError::Zero("height")));
    assert_eq!(Outline::rounded(0.4, 0.6, 0.21), Err(SpaceError::RadiusTooLarge { largest: 0.2 }));
    assert_eq!(Swing::new([1.0, 1.0], [1.0, 1.0], 1.0, 0.0, 1.0), Err(SpaceError::Zero("width of the leaf")));
    assert_eq!(Skin::new(cuboid([0.0; 3], [1.0, 1.0, 0.0])), Err(SpaceError::Zero("height of the body")));
    assert_eq!(SpaceError::Negative("width").to_string(), "the width is below zero");
    // Far away and tiny still give numbers.
    let far = cuboid([-1e6; 3], [0.0; 3]);
    assert!(far.distance(&cuboid([1e6; 3], [1e6; 3])).is_finite());
    let thin = Outline::ellipse(1e-300, 1e6).expect("usable");
    assert!(!passes(&Outline::rectangle(1.0, 1.0).expect("usable"), &thin, Turning::Any));
    let slot = Opening::new(Side::Left, [0.0; 3], thin).expect("usable");
    assert!(slot.distance([1e6; 3]).is_ok_and(|distance| distance > 1e6));
}
