//! Space against well-known libraries: `reference/make_space_reference.py` makes the values (versions in
//! `reference/requirements-space.txt`) and writes `reference/space.json`, which is read here.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used, clippy::panic)]

use calc::space::way::{Exit, Floor, Person, Place, Ways};
use calc::space::{Cuboid, Opening, Outline, Plan, Side, Skin, Swing, Turning, largest_scale};
use serde_json::Value;

const REFERENCE: &str = include_str!("reference/space.json");

fn cases(kind: &str, at_least: usize) -> Vec<Value> {
    let all: Value = serde_json::from_str(REFERENCE).expect("the script writes JSON");
    let found = all[kind].as_array().expect("a list of cases").clone();
    assert!(found.len() >= at_least, "{} cases of {kind}", found.len());
    found
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("a number, not {value}"))
}

fn numbers<const N: usize>(value: &Value) -> [f64; N] {
    std::array::from_fn(|index| number(&value[index]))
}

fn side(value: &Value) -> Side {
    match value.as_str() {
        Some("front") => Side::Front,
        Some("rear") => Side::Rear,
        Some("left") => Side::Left,
        Some("right") => Side::Right,
        Some("roof") => Side::Roof,
        Some("under") => Side::Under,
        _ => panic!("no side: {value}"),
    }
}

fn outline(value: &Value) -> Outline {
    let (width, height) = (number(&value[1]), number(&value[2]));
    match value[0].as_str() {
        Some("rectangle") => Outline::rectangle(width, height),
        Some("rounded") => Outline::rounded(width, height, number(&value[3])),
        _ => Outline::ellipse(width, height),
    }
    .expect("usable sizes")
}

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64, case: &Value) {
    assert!((found - expected).abs() <= tolerance, "{found} against {expected} in {case}");
}

/// scipy, bounded least squares; shapely in plan; trimesh for the shared space.
#[test]
fn boxes() {
    for case in cases("boxes", 80) {
        let thing = |key: &str| Cuboid::new(numbers(&case[key][0]), numbers(&case[key][1])).expect("usable");
        let (one, other) = (thing("one"), thing("other"));
        near(one.distance(&other), number(&case["distance"]), 1e-6, &case);
        near(one.horizontal_gap(&other), number(&case["plan_distance"]), 1e-12, &case);
        near(one.plan().distance(&other.plan()), number(&case["plan_distance"]), 1e-12, &case);
        near(one.plan().overlap(&other.plan()), number(&case["plan_overlap"]), 1e-12, &case);
        if let Some(shared) = case["shared"].as_array() {
            assert_eq!(one.intersects(&other, 0.0), !shared.is_empty(), "{case}");
            if let ([least, most], Some(found)) = (&shared[..], one.shared(&other)) {
                for axis in 0..3 {
                    near(found.least()[axis], number(&least[axis]), 1e-12, &case);
                    near(found.most()[axis], number(&most[axis]), 1e-12, &case);
                }
            }
        }
    }
}

/// shapely, polygons of 4,096 sides.
#[test]
fn from_a_point_to_an_opening() {
    for case in cases("openings", 72) {
        let opening = Opening::new(side(&case["side"]), numbers(&case["centre"]), outline(&case["outline"]));
        let found = opening.expect("usable").distance(numbers(&case["point"])).expect("usable");
        near(found, number(&case["distance"]), 1e-6, &case);
    }
}

/// scipy, SLSQP: the crossing points on the edges moved until the line is shortest, for each row of faces.
#[test]
fn along_the_skin() {
    for case in cases("skin", 60) {
        let body = Cuboid::new(numbers(&case["least"]), numbers(&case["size"])).expect("usable");
        let skin = Skin::new(body).expect("it has an extent");
        let skin = if case["underside"] == true { skin.with_underside() } else { skin };
        let [start, end] = ["start", "end"].map(|key| skin.onto(numbers(&case[key])).expect("usable"));
        assert!(start.off() < 1e-9 && end.off() < 1e-9, "{case}");
        near(skin.distance(&start, &end), number(&case["distance"]), 1e-6, &case);
        let at = side(&case["opening_side"]);
        let (least, most): ([f64; 3], [f64; 3]) = (numbers(&case["opening"][0]), numbers(&case["opening"][1]));
        let size: [f64; 3] = std::array::from_fn(|axis| most[axis] - least[axis]);
        let centre = std::array::from_fn(|axis| f64::midpoint(least[axis], most[axis]));
        let (width, height) = match at {
            Side::Front | Side::Rear => (size[1], size[2]),
            Side::Left | Side::Right => (size[0], size[2]),
            Side::Roof | Side::Under => (size[1], size[0]),
        };
        let opening = Opening::new(at, centre, Outline::rectangle(width, height).expect("usable")).expect("usable");
        let found = skin.distance_to_opening(&start, &opening).expect("the side is part of the skin");
        near(found, number(&case["to_opening"]), 1e-6, &case);
    }
}

/// shapely: the leaf turned in 20,000 steps.
#[test]
fn swinging_leaves() {
    let mut met = 0;
    for case in cases("swings", 40) {
        let swing = Swing::new(numbers(&case["hinge"]), numbers(&case["edge"]), number(&case["angle"]), 0.0, 2.0);
        let [x0, y0, x1, y1] = numbers(&case["thing"]);
        let thing = Cuboid::new([x0, y0, 0.5], [x1 - x0, y1 - y0, 0.5]).expect("usable");
        let found = swing.expect("usable").first_contact(&thing, 0.0);
        match (found, case["first"].as_f64()) {
            (Some(found), Some(expected)) => {
                met += 1;
                assert!(
                    found <= expected + 1e-9 && found >= expected - number(&case["step"]) - 1e-9,
                    "{found}: {case}"
                );
            }
            (found, expected) => assert_eq!(found, expected, "{case}"),
        }
    }
    assert!(met >= 10, "{met} leaves met something");
}

/// numpy: the largest scale by dense turning. Fewer directions can only find too much, fewer turnings only too little; both by less than
/// the tolerance.
#[test]
fn outlines_in_outlines() {
    for case in cases("fits", 110) {
        let (body, opening) = (outline(&case["body"]), outline(&case["opening"]));
        near(largest_scale(&body, &opening, Turning::Level), number(&case["level"]), 2e-6, &case);
        near(largest_scale(&body, &opening, Turning::Any), number(&case["any"]), 2e-5, &case);
    }
}

/// shapely and networkx on floors with random furniture. The grid of 25 mm finds widths to a tenth of a millimetre; what is left is shapely's
/// arcs of 64 sides.
#[test]
fn ways_out() {
    const CELL: f64 = 0.025;
    let slack = CELL * std::f64::consts::SQRT_2;
    let (mut none, mut some, mut exact, mut lengths) = (0, 0, 0, 0);
    for case in cases("ways", 48) {
        let (length, width) = (number(&case["length"]), number(&case["width"]));
        let floor = Floor::new(&[Plan::new([0.0, 0.0], [length, width]).expect("usable")], 0.0).expect("a floor");
        let standing = |plan: &Value, height: f64| {
            let [x0, y0, x1, y1] = numbers(plan);
            Cuboid::new([x0, y0, 0.0], [x1 - x0, y1 - y0, height]).expect("usable")
        };
        let height = |piece: &Value| if piece[4] == true { 1.9 } else { 0.4 };
        let pieces = case["pieces"].as_array().expect("a list");
        let furniture: Vec<_> = pieces.iter().map(|piece| standing(piece, height(piece))).collect();
        let place = Place::new(standing(&case["berth"], 0.5), 0.9).expect("usable");
        let (at, door) = (number(&case["at"]), number(&case["door"]));
        let (side, sill) =
            if case["side"] == "right" { (Side::Right, [at, width, 0.0]) } else { (Side::Rear, [length, at, 0.0]) };
        let door = Opening::on_sill(side, sill, Outline::rectangle(door, 1.6).expect("usable")).expect("usable");
        let person = Person::new(1.8, 0.05).expect("usable");
        let ways = Ways::new(&floor, &furniture, &place, &Exit::through(&door), &person, CELL).expect("a small grid");

        let (expected, found) = (number(&case["widest"]), ways.widest());
        match &found {
            None => {
                none += 1;
                assert!(expected < ways.least_width() + 1e-3, "no way against {expected} in {case}");
            }
            Some(route) => {
                some += 1;
                if route.narrowest.is_some() {
                    exact += 1;
                    near(route.clear_width, expected, 1e-4, &case);
                } else {
                    // What is close to the place or the exit limits it: a lower bound.
                    let short = expected - route.clear_width;
                    assert!(
                        (-1e-4..2.0 * slack + 1e-4).contains(&short),
                        "{} against {expected} in {case}",
                        route.clear_width
                    );
                }
            }
        }
        let asked = number(&case["asked"]);
        let shortest = ways.shortest(asked).expect("the grid can tell this width");
        if let (Some(route), Some(over_cells)) = (shortest, case["shortest_over_cells"].as_f64()) {
            lengths += 1;
            // Steps over cells lead at most 8.2 % farther than straight lines; the way here may cut corners by the slack.
            assert!(route.length <= over_cells + slack, "{} against {over_cells} in {case}", route.length);
            assert!(
                route.length >= 0.9 * over_cells / 1.0824 - 2.0 * slack,
                "{} against {over_cells} in {case}",
                route.length
            );
            assert!(route.clear_width >= asked * (1.0 - 1e-9));
        }
    }
    assert!(
        none >= 10 && some >= 30 && exact >= 25 && lengths >= 15,
        "{none} without a way, {some} with one, {exact} exact, {lengths} lengths"
    );
}
