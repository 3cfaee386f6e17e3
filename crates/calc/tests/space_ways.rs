//! Ways out of furnished vehicles.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used)]

use calc::space::way::{Exit, Floor, Person, Place, Ways};
use calc::space::{Cuboid, Opening, Outline, Plan, Side, SpaceError};

const CELL: f64 = 0.025;

fn cuboid(from: [f64; 3], size: [f64; 3]) -> Cuboid {
    Cuboid::new(from, size).expect("usable")
}

fn plan(from: [f64; 2], size: [f64; 2]) -> Plan {
    Plan::new(from, size).expect("usable")
}

fn exit(side: Side, sill: [f64; 3], width: f64, height: f64) -> Exit {
    Exit::through(&Opening::on_sill(side, sill, Outline::rectangle(width, height).expect("usable")).expect("usable"))
}

/// A living floor of 3.7 × 1.78 m, a berth across the rear left, a sliding door on the right in front.
struct Van {
    floor: Floor,
    berth: Cuboid,
    exit: Exit,
    person: Person,
}

fn van() -> Van {
    Van {
        floor: Floor::new(&[plan([1.5, -0.89], [3.7, 1.78])], 0.0).expect("a floor"),
        berth: cuboid([3.3, -0.89, 0.0], [1.9, 0.75, 0.5]),
        exit: exit(Side::Right, [2.0, 0.89, 0.0], 0.82, 1.6),
        person: Person::new(1.88, 0.05).expect("usable"),
    }
}

impl Van {
    fn ways(&self, furniture: &[Cuboid]) -> Ways {
        let place = Place::new(self.berth, 0.9).expect("usable");
        Ways::new(&self.floor, furniture, &place, &self.exit, &self.person, CELL).expect("a usable floor")
    }

    fn width(&self, furniture: &[Cuboid]) -> Option<f64> {
        self.ways(furniture).widest().map(|route| route.clear_width)
    }
}

#[track_caller]
fn is(found: Option<f64>, expected: f64) {
    assert!(found.is_some_and(|found| (found - expected).abs() < 1e-9), "{found:?} against {expected}");
}

/// Two rows of cupboards that leave an aisle of this width between berth and door.
fn aisle(width: f64) -> [Cuboid; 2] {
    let left = cuboid([2.5, -0.89, 0.0], [0.8, 0.6, 0.9]);
    let right = cuboid([2.6, -0.29 + width, 0.0], [1.2, 1.18 - width, 1.9]);
    [left, right]
}

#[test]
fn an_aisle_is_as_wide_as_it_is_drawn_whatever_the_grid() {
    let mut van = van();
    is(van.width(&[]), 0.82);
    for width in [0.330, 0.4501, 0.45, 0.5273] {
        let furniture = aisle(width);
        is(van.width(&furniture), width);
        let ways = van.ways(&furniture);
        let route = ways.shortest(width).expect("wide enough").expect("it fits exactly");
        assert!((route.clear_width - width).abs() < 1e-9);
        assert!(route.narrowest.is_some_and(|[x, y]| (2.5..=3.8).contains(&x) && (-0.29..=-0.29 + width).contains(&y)));
        assert_eq!(ways.shortest(width + 1e-4).expect("wide enough"), None);
    }
    // An exit that is narrower than the aisle is what counts.
    van.exit = exit(Side::Right, [2.0, 0.89, 0.0], 0.4, 1.6);
    is(van.width(&aisle(0.45)), 0.4);
}

#[test]
fn what_is_above_the_head_or_not_higher_than_a_step_is_not_in_the_way() {
    let van = van();
    let across = |z: f64, height: f64| van.width(&[cuboid([2.6, -0.89, z], [0.4, 1.78, height])]);
    is(across(1.88, 0.2), 0.82);
    is(across(0.0, 0.05), 0.82);
    assert_eq!(across(1.85, 0.2), None, "the person would have to stoop");
    assert_eq!(across(0.0, 0.06), None, "too high for a step");
}

#[test]
fn a_way_leads_over_the_own_berth_and_its_base_but_not_over_another() {
    let van = van();
    let base = cuboid([3.25, -0.89, 0.0], [1.95, 0.8, 0.48]);
    let other_berth = cuboid([2.6, -0.89, 0.0], [0.7, 1.78, 0.5]);
    is(van.width(&[van.berth, base]), 0.82);
    assert_eq!(van.width(&[van.berth, other_berth]), None);
    // A partition of 12 mm along the open sides of the berth, at its very edge, shuts it in.
    let along = cuboid([3.3, -0.14, 0.0], [1.9, 0.012, 1.9]);
    let foot = cuboid([3.288, -0.89, 0.0], [0.012, 0.762, 1.9]);
    // Left by its foot it is 0.75 m wide; what is so close to the place is known to two diagonals of a cell, and never too wide.
    let width = van.width(&[along]).expect("by the foot");
    assert!((0.75 - 2.0 * CELL * 2.0_f64.sqrt()..=0.75).contains(&width), "{width}");
    assert_eq!(van.width(&[along, foot]), None);
    // So does one without any thickness.
    let sheets = [cuboid([3.3, -0.14, 0.0], [1.9, 0.0, 1.9]), cuboid([3.3, -0.89, 0.0], [0.0, 0.75, 1.9])];
    assert_eq!(van.width(&sheets), None);
}

#[test]
fn an_exit_behind_furniture_is_no_way_out_and_beside_the_berth_the_shortest() {
    let mut van = van();
    assert_eq!(van.width(&[cuboid([1.5, 0.6, 0.0], [1.2, 0.29, 0.9])]), None, "the door is covered");
    // Rear doors at the foot of the berth.
    van.exit = exit(Side::Rear, [5.2, 0.0, 0.0], 1.5, 1.65);
    let route = van.ways(&[]).shortest(0.45).expect("wide enough").expect("it is at the door");
    assert!(route.length < 0.1, "{}", route.length);
    is(van.width(&[]), 1.5);
}

#[test]
fn a_roof_hatch_and_a_window_are_reached_from_inside() {
    let mut van = van();
    let hatch =
        Opening::new(Side::Roof, [2.2, 0.2, 1.92], Outline::rectangle(0.6, 0.7).expect("usable")).expect("usable");
    van.exit = Exit::through(&hatch);
    let route = van.ways(&[]).shortest(0.4).expect("wide enough").expect("nothing is in the way");
    let [x, y] = route.points.last().copied().expect("it ends somewhere");
    assert!((1.85..=2.55).contains(&x) && (-0.1..=0.5).contains(&y), "below the hatch, not at {x}, {y}");
    let table = cuboid([1.5, -0.89, 0.0], [1.3, 1.78, 0.7]);
    assert_eq!(van.width(&[table]), None, "nobody climbs");

    // A window over a worktop of 0.6 m: reached over the worktop, which is lower than its sill, but not through a cupboard.
    let window = exit(Side::Left, [2.5, -0.89, 1.0], 0.7, 0.5);
    let worktop = cuboid([2.0, -0.89, 0.0], [1.0, 0.6, 0.9]);
    van.exit = window;
    assert_eq!(van.width(&[worktop]), None, "the opening itself is beyond the worktop");
    van.exit = window.within(0.7).expect("usable");
    assert!(van.width(&[worktop]).is_some());
    let cupboards = cuboid([2.0, -0.89, 1.2], [1.0, 0.35, 0.6]);
    assert_eq!(van.width(&[worktop, cupboards]), None);
    // From a berth along the window one need not walk at all.
    van.berth = cuboid([2.0, -0.89, 0.0], [1.9, 0.75, 0.5]);
    let route = van.ways(&[]).widest().expect("the window is beside the berth");
    assert!(route.length == 0.0 && route.clear_width.is_infinite());
}

#[test]
fn a_way_past_the_cooker() {
    let van = van();
    // The galley stands on the right behind the door; the aisle between it and the bench is 0.5 m wide.
    let galley = cuboid([2.6, 0.29, 0.0], [1.2, 0.6, 0.9]);
    let bench = cuboid([2.5, -0.89, 0.0], [0.7, 0.68, 0.45]);
    let cooker = cuboid([2.8, 0.35, 0.9], [0.45, 0.45, 0.05]);
    let ways = van.ways(&[galley, bench]);
    let route = ways.shortest(0.45).expect("wide enough").expect("the aisle is wide enough");
    assert!(route.distance(&cooker) < 0.35, "{}", route.distance(&cooker));
    // No way of 0.45 m keeps farther from it than the aisle lets it: the middle line is 0.225 m from the bench at least.
    let kept = ways.farthest_from(&[cooker], 0.45).expect("wide enough").expect("there is a way");
    assert!((0.30..=0.335 + 1e-9).contains(&kept), "{kept}");
    assert!(route.distance(&cooker) <= kept + 0.02);
    // Without the bench one can keep away.
    let kept = van.ways(&[galley]).farthest_from(&[cooker], 0.45).expect("wide enough").expect("there is a way");
    assert!(kept > 0.9, "{kept}");
    assert_eq!(ways.farthest_from(&[cooker], 0.6).expect("wide enough"), None);
    assert_eq!(ways.farthest_from(&[], 0.45).expect("wide enough"), Some(f64::INFINITY));
}

#[test]
fn a_length_is_that_of_a_straightened_way() {
    let mut van = van();
    van.berth = cuboid([4.6, -0.89, 0.0], [0.6, 1.78, 0.5]);
    van.exit = exit(Side::Front, [1.5, 0.5, 0.0], 0.7, 1.6);
    let route = van.ways(&[]).shortest(0.6).expect("wide enough").expect("an empty floor");
    assert!((route.length - 3.1).abs() < 2.0 * CELL, "{}", route.length);
    // Around a cupboard: 0.3 m from its corners at (3, 0.2) and (3.5, 0.2).
    let cupboard = cuboid([3.0, 0.2, 0.0], [0.5, 0.69, 1.9]);
    let route = van.ways(&[cupboard]).shortest(0.6).expect("wide enough").expect("there is room");
    assert!((3.1..3.5).contains(&route.length), "{}", route.length);
    assert!(route.distance(&cupboard) >= 0.3 - CELL, "{}", route.distance(&cupboard));
}

#[test]
fn a_cab_joined_to_the_living_floor_and_one_behind_a_bulkhead() {
    let mut van = van();
    van.exit = exit(Side::Left, [0.6, -0.7, 0.0], 0.7, 1.3);
    let living = plan([1.5, -0.89], [3.7, 1.78]);
    van.floor = Floor::new(&[living, plan([0.0, -0.7], [1.5, 1.4])], 0.0).expect("a floor");
    is(van.width(&[]), 0.7);
    // The gap between the seats is 300 mm.
    let seats = [cuboid([0.9, -0.7, 0.0], [0.5, 0.55, 1.1]), cuboid([0.9, 0.15, 0.0], [0.5, 0.55, 1.1])];
    is(van.width(&seats), 0.3);
    van.floor = Floor::new(&[living, plan([0.0, -0.7], [1.48, 1.4])], 0.0).expect("a floor");
    assert_eq!(van.width(&[]), None, "a bulkhead of 20 mm");
}

#[test]
fn what_cannot_be_reckoned_is_refused() {
    let van = van();
    let place = Place::new(van.berth, 0.9).expect("usable");
    let ways = |exit: &Exit, furniture: &[Cuboid], cell: f64| {
        Ways::new(&van.floor, furniture, &place, exit, &van.person, cell).map(|_| ())
    };
    assert!(matches!(ways(&van.exit, &[], 0.001), Err(SpaceError::TooManyCells { cells, most }) if cells > most));
    assert!(matches!(ways(&van.exit, &[], 1e-300), Err(SpaceError::TooManyCells { .. })));
    let many = vec![cuboid([2.0, 0.0, 0.0], [0.1, 0.1, 1.0]); 3_000];
    assert!(matches!(ways(&van.exit, &many, CELL), Err(SpaceError::TooMuchWork { .. })));
    assert!(matches!(ways(&van.exit, &many[..1_500], 0.003), Err(SpaceError::TooMuchWork { .. })));
    for bad in [f64::NAN, f64::INFINITY] {
        assert_eq!(ways(&van.exit, &[], bad), Err(SpaceError::NotFinite("cell of the grid")));
    }
    assert_eq!(ways(&van.exit, &[], 0.0), Err(SpaceError::Zero("cell of the grid")));
    assert_eq!(ways(&van.exit, &[], -1.0), Err(SpaceError::Negative("cell of the grid")));
    // Drawn 110 mm off the wall it is still that wall's; half a metre off it is none.
    assert_eq!(ways(&exit(Side::Right, [2.0, 1.0, 0.0], 0.8, 1.6), &[], CELL), Ok(()));
    let off = ways(&exit(Side::Right, [2.0, 1.39, 0.0], 0.8, 1.6), &[], CELL);
    assert!(matches!(off, Err(SpaceError::NotInWall { distance }) if (distance - 0.5).abs() < 1e-9));
    let beside = ways(&exit(Side::Right, [9.0, 0.89, 0.0], 0.8, 1.6), &[], CELL);
    assert!(matches!(beside, Err(SpaceError::NotInWall { distance }) if distance.is_infinite()));
    assert_eq!(Floor::new(&[plan([0.0; 2], [1.0, 0.0])], 0.0), Err(SpaceError::NoFloor));
    assert_eq!(Person::new(-1.8, 0.0), Err(SpaceError::Negative("height of the person")));
    let found = van.ways(&[]);
    assert_eq!(found.shortest(0.01), Err(SpaceError::TooCoarse { least: found.least_width() }));
    assert_eq!(found.shortest(f64::NAN), Err(SpaceError::NotFinite("clear width")));
    // A grid coarser than the vehicle, a berth beside the floor: no way, and no trouble.
    assert_eq!(ways(&van.exit, &[], 10.0), Ok(()));
    let elsewhere = Place::new(cuboid([50.0, 0.0, 0.0], [1.0; 3]), 0.9).expect("usable");
    let ways = Ways::new(&van.floor, &[], &elsewhere, &van.exit, &van.person, CELL).expect("usable");
    assert_eq!(ways.widest(), None);
    assert_eq!(ways.shortest(0.3), Ok(None));
}

#[test]
fn odd_drawings_give_an_answer() {
    let mut random = fastrand::Rng::with_seed(7);
    // Numbers that meet, that are tiny, and that are far away.
    let numbers =
        [0.0, 0.0, 1.0, 1.0, 1.0, 2.0, 2.0, 0.5, 0.7, 1.3, 1e-12, 0.05, 1e-300, 3.0, -1.0, 1.8, 0.0, 2.5, 0.2, 1e6];
    let mut answers = [0; 3];
    for _ in 0..3_000 {
        let mut number = || numbers[random.usize(0..numbers.len())];
        let mut any = || {
            Cuboid::new([number(), number(), 0.0], [number().abs(), number().abs(), number().abs()]).expect("usable")
        };
        let things: Vec<_> = (0..6).map(|_| any()).collect();
        let parts: Vec<_> = things[..3].iter().map(Cuboid::plan).collect();
        let Ok(floor) = Floor::new(&parts, 0.0) else { continue };
        let place = Place::new(things[3], 0.9).expect("usable");
        let [x, y, _] = things[4].most().map(|value| value.min(1e6));
        let way_out = exit([Side::Right, Side::Rear, Side::Roof][random.usize(0..3)], [x, y, 0.0], 0.6, 1.0);
        let way_out = if random.bool() { way_out.within(0.4).expect("usable") } else { way_out };
        let person = Person::new(1.8, 0.01).expect("usable");
        let Ok(ways) = Ways::new(&floor, &things[5..], &place, &way_out, &person, 0.07) else {
            answers[0] += 1;
            continue;
        };
        let least = ways.least_width() * 1.01;
        let shortest = ways.shortest(least).expect("wide enough");
        match ways.widest() {
            Some(route) => {
                answers[1] += 1;
                assert!(!route.clear_width.is_nan() && route.length.is_finite() && !route.points.is_empty());
                assert!(shortest.is_none_or(|shortest| shortest.length <= route.length * 1.0824 + 0.2));
            }
            None => {
                answers[2] += 1;
                assert_eq!(shortest, None);
                assert_eq!(ways.farthest_from(&things, least), Ok(None));
            }
        }
    }
    assert!(answers.iter().all(|count| *count > 50), "{answers:?}");
}
