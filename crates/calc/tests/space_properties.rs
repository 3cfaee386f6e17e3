//! What must hold of space whatever the numbers: random cases from fixed starts.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used)]

use calc::space::way::{Exit, Floor, Person, Place, Ways};
use calc::space::{
    Cuboid, Opening, Outline, Plan, Reach, Side, Skin, Swing, Turning, is_above, is_below, largest_scale, passes,
};
use fastrand::Rng;

fn between(random: &mut Rng, low: f64, high: f64) -> f64 {
    low + random.f64() * (high - low)
}

fn point(random: &mut Rng) -> [f64; 3] {
    std::array::from_fn(|_| between(random, -3.0, 3.0))
}

fn thing(random: &mut Rng) -> Cuboid {
    let size = std::array::from_fn(|_| between(random, 0.0, 2.0));
    Cuboid::new(point(random), size).expect("usable")
}

fn moved(thing: &Cuboid, by: [f64; 3]) -> Cuboid {
    Cuboid::new(std::array::from_fn(|axis| thing.least()[axis] + by[axis]), thing.size()).expect("usable")
}

fn outline(random: &mut Rng) -> Outline {
    let (width, height) = (between(random, 0.2, 1.5), between(random, 0.2, 1.5));
    match random.u8(0..3) {
        0 => Outline::rectangle(width, height),
        1 => Outline::rounded(width, height, between(random, 0.01, 0.5) * width.min(height)),
        _ => Outline::ellipse(width, height),
    }
    .expect("usable")
}

#[track_caller]
fn close(one: f64, other: f64) {
    assert!((one - other).abs() <= 1e-9 * (1.0 + other.abs()), "{one} against {other}");
}

#[test]
fn distances_are_symmetric_and_do_not_change_when_all_is_moved() {
    let mut random = Rng::with_seed(1);
    for _ in 0..2_000 {
        let (one, other, by) = (thing(&mut random), thing(&mut random), point(&mut random));
        close(one.distance(&other), other.distance(&one));
        close(moved(&one, by).distance(&moved(&other, by)), one.distance(&other));
        close(one.plan().overlap(&other.plan()), other.plan().overlap(&one.plan()));
        close(one.height_over(&other), -other.height_over(&one));
        assert_eq!(one.intersects(&other, 0.01), other.intersects(&one, 0.01));
        if one.intersects(&other, 0.0) {
            close(one.distance(&other), 0.0);
            let shared = one.shared(&other).expect("they share space");
            assert!(one.contains(&shared, 1e-12) && other.contains(&shared, 1e-12));
        }
        assert!(one.horizontal_gap(&other) <= one.distance(&other) + 1e-12);
        // What lies above the other has the other below it; a wider reach loses nothing.
        for reach in [0.0, 0.3, 1.0] {
            let reach = Reach::Horizontal(reach);
            assert_eq!(is_above(&one, &other, reach), is_below(&other, &one, reach));
        }
        for cone in [Reach::Cone, Reach::Horizontal] {
            assert!(!is_above(&one, &other, cone(0.2)) || is_above(&one, &other, cone(0.7)));
        }
    }
}

#[test]
fn along_the_skin_is_never_shorter_than_straight() {
    let mut random = Rng::with_seed(2);
    for _ in 0..1_000 {
        let size = [between(&mut random, 1.0, 7.0), between(&mut random, 1.0, 2.5), between(&mut random, 1.0, 2.8)];
        let body = Cuboid::new(point(&mut random), size).expect("usable");
        let walls = Skin::new(body).expect("it has an extent");
        let whole = walls.clone().with_underside();
        let on = |random: &mut Rng| {
            let share: [f64; 3] = std::array::from_fn(|_| random.f64());
            walls.onto(std::array::from_fn(|axis| body.least()[axis] + share[axis] * size[axis])).expect("usable")
        };
        let (one, other, third) = (on(&mut random), on(&mut random), on(&mut random));
        let straight = Cuboid::point(one.at()).expect("usable").distance(&Cuboid::point(other.at()).expect("usable"));
        let along = walls.distance(&one, &other);
        close(along, walls.distance(&other, &one));
        assert!(along >= straight - 1e-9, "{along} below {straight}");
        assert!(along <= walls.distance(&one, &third) + walls.distance(&third, &other) + 1e-9);
        assert!(whole.distance(&one, &other) <= along + 1e-9, "a way below the vehicle can only shorten");
        let opening = Opening::new(other.side(), other.at(), outline(&mut random)).expect("usable");
        let to_opening = walls.distance_to_opening(&one, &opening).expect("it is in a wall or the roof");
        assert!(to_opening <= along + 1e-9, "the opening is around that point");
        assert!(to_opening >= opening.distance(one.at()).expect("usable") - 1e-9);
    }
}

#[test]
fn what_passes_still_passes_when_it_is_smaller_or_the_opening_larger() {
    let mut random = Rng::with_seed(3);
    for _ in 0..300 {
        let (body, opening) = (outline(&mut random), outline(&mut random));
        let any = largest_scale(&body, &opening, Turning::Any);
        assert!(any >= largest_scale(&body, &opening, Turning::Level) - 1e-9, "turning cannot hurt");
        // By area and by the shorter side nothing larger can pass.
        assert!(any * any * body.area() <= opening.area() * (1.0 + 1e-6));
        assert!(any * body.width().min(body.height()) <= opening.width().min(opening.height()) * (1.0 + 1e-6));
        let (width, height) = (between(&mut random, 0.2, 1.2), between(&mut random, 0.2, 1.2));
        let rectangle = |width, height| Outline::rectangle(width, height).expect("usable");
        let scale = |body: &Outline, opening: &Outline| largest_scale(body, opening, Turning::Any);
        let before = scale(&rectangle(width, height), &opening);
        assert!(scale(&rectangle(width, height * 0.9), &opening) >= before * (1.0 - 1e-6));
        assert!(
            scale(&body, &rectangle(width * 1.1, height)) >= scale(&body, &rectangle(width, height)) * (1.0 - 1e-6)
        );
        close(before, scale(&rectangle(height, width), &opening));
    }
}

/// Carver's condition for a rectangle in a rectangle (1957), second-hand as quoted from Wetzel (Mathematics Magazine 73, 2000).
#[test]
fn rectangle_in_rectangle_by_the_published_condition() {
    let mut random = Rng::with_seed(4);
    let (mut turned, mut not) = (0, 0);
    for _ in 0..20_000 {
        let mut sides = || {
            let (one, other) = (between(&mut random, 0.1, 1.0), between(&mut random, 0.1, 1.0));
            (one.max(other), one.min(other))
        };
        let ((p, q), (a, b)) = (sides(), sides());
        let by_turning = q <= b
            && b * (p * p + q * q) >= 2.0 * p * q * a + (p * p - q * q) * (p * p + q * q - a * a).max(0.0).sqrt();
        let expected = (p <= a && q <= b) || (p > a && by_turning);
        let rectangle = |width, height| Outline::rectangle(width, height).expect("usable");
        assert_eq!(passes(&rectangle(p, q), &rectangle(a, b), Turning::Any), expected, "{p} x {q} in {a} x {b}");
        turned += usize::from(expected && p > a);
        not += usize::from(!expected);
    }
    assert!(turned > 50 && not > 5_000, "{turned} pass only turned, {not} do not pass");
}

#[test]
fn a_leaf_that_opens_less_meets_no_more() {
    let mut random = Rng::with_seed(5);
    for _ in 0..1_000 {
        let [x, y, _] = point(&mut random);
        let (dx, dy) = (between(&mut random, 0.2, 1.0), between(&mut random, -1.0, 1.0));
        let angle = between(&mut random, -3.0, 3.0);
        let leaf = |angle| Swing::new([x, y], [x + dx, y + dy], angle, -3.0, 6.0).expect("usable");
        let thing = thing(&mut random);
        match leaf(angle).first_contact(&thing, 0.0) {
            Some(contact) => {
                assert!((0.0..=angle.abs()).contains(&contact));
                assert_eq!(leaf(angle * 1.02).first_contact(&thing, 0.0), Some(contact));
            }
            None => assert_eq!(leaf(angle / 2.0).first_contact(&thing, 0.0), None),
        }
        assert!(leaf(angle).opens_by(&[thing], 0.0) <= angle.abs());
    }
}

struct Room {
    floor: Floor,
    place: Place,
    door: Exit,
    person: Person,
}

fn room(random: &mut Rng, by: [f64; 3]) -> (Room, Vec<Cuboid>) {
    let (length, width) = (4.0, 1.8);
    let floor = Floor::new(&[Plan::new([by[0], by[1]], [length, width]).expect("usable")], by[2]).expect("a floor");
    let berth = Cuboid::new([by[0], by[1], by[2]], [1.8, 0.7, 0.5]).expect("usable");
    let door = Opening::on_sill(
        Side::Right,
        [by[0] + 3.0, by[1] + width, by[2]],
        Outline::rectangle(0.8, 1.6).expect("usable"),
    )
    .expect("usable");
    let furniture = (0..5)
        .map(|_| {
            let size = [between(random, 0.2, 1.0), between(random, 0.2, 0.7), between(random, 0.6, 1.9)];
            let from = [between(random, 0.0, 3.5), between(random, 0.0, 1.4), 0.0];
            Cuboid::new(std::array::from_fn(|axis| from[axis] + by[axis]), size).expect("usable")
        })
        .collect();
    let place = Place::new(berth, 0.9).expect("usable");
    (Room { floor, place, door: Exit::through(&door), person: Person::new(1.8, 0.05).expect("usable") }, furniture)
}

fn ways(room: &Room, furniture: &[Cuboid]) -> Ways {
    Ways::new(&room.floor, furniture, &room.place, &room.door, &room.person, 0.05).expect("a small grid")
}

#[test]
fn more_furniture_never_makes_a_way_wider_shorter_or_farther_from_a_hazard() {
    let mut random = Rng::with_seed(6);
    let mut compared = 0;
    for _ in 0..150 {
        let (room, furniture) = room(&mut random, [0.0; 3]);
        // Where two obstacles limit the width it is exact; else it is short by up to two diagonals of a cell.
        let short = 2.0 * 0.05 * std::f64::consts::SQRT_2;
        let mut before: Option<(f64, f64, f64)> = Some((f64::INFINITY, 0.0, f64::INFINITY));
        for count in 0..=furniture.len() {
            let ways = ways(&room, &furniture[..count]);
            let widest = ways.widest();
            let (shortest, kept) = (ways.shortest(0.3).expect("wide enough"), ways.farthest_from(&furniture[4..], 0.3));
            let kept = kept.expect("wide enough");
            assert_eq!(shortest.is_some(), kept.is_some(), "both ask for the same way");
            let Some((width, length, distance)) = before else {
                assert!(widest.is_none() && shortest.is_none(), "furniture made a way");
                continue;
            };
            if let Some(route) = &widest {
                assert!(route.clear_width <= width + 1e-9, "{} after {width}", route.clear_width);
            }
            if let (Some(route), Some(kept)) = (&shortest, kept) {
                // Straightened ways differ by up to the eight per cent that steps over cells lead farther.
                assert!(route.length >= length / 1.0824 - 0.1, "{} after {length}", route.length);
                assert!(kept <= distance + 1e-12, "{kept} after {distance}");
                assert!(route.clear_width >= 0.3 * (1.0 - 1e-9));
                assert!(widest.as_ref().is_some_and(|widest| widest.clear_width >= 0.3 - short));
                compared += 1;
            }
            before = widest.map(|route| {
                let length = shortest.map_or(length, |route| route.length);
                let width = route.clear_width + if route.narrowest.is_some() { 0.0 } else { short };
                (width, length, kept.unwrap_or(distance))
            });
        }
    }
    assert!(compared > 200, "{compared}");
}

#[test]
fn ways_do_not_change_when_all_is_moved_and_widths_not_with_the_grid() {
    let mut compared = 0;
    for seed in 0..60 {
        let (here, furniture) = room(&mut Rng::with_seed(seed), [0.0; 3]);
        let (there, furniture_there) = room(&mut Rng::with_seed(seed), [-1.5, 0.75, 0.5]);
        let (one, other) = (ways(&here, &furniture).widest(), ways(&there, &furniture_there).widest());
        assert_eq!(one.is_some(), other.is_some());
        if let (Some(one), Some(other)) = (one, other) {
            close(one.clear_width, other.clear_width);
            let fine = Ways::new(&here.floor, &furniture, &here.place, &here.door, &here.person, 0.02).expect("small");
            if let Some(fine) = fine.widest().filter(|fine| fine.narrowest.is_some() && one.narrowest.is_some()) {
                compared += 1;
                assert!(
                    (fine.clear_width - one.clear_width).abs() < 1e-6,
                    "{} and {}",
                    fine.clear_width,
                    one.clear_width
                );
            }
        }
    }
    assert!(compared > 20, "{compared}");
}
