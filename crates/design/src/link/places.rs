//! What is wrong with places and sizes: solids in each other, things outside, openings larger than their wall, wrong units.

use crate::known::PartId;
use crate::part::{Build, Part};
use crate::scene::{Scene, Stand};
use calc::space::Cuboid;
use rustc_hash::FxHashSet;
use spec::{Slip, Span, Value};
use vocabulary::{FactId, PartKind, fact as f, kind};

/// What is solid: two of these cannot be in one place.
const SOLIDS: [PartKind; 14] = [
    kind::FURNISHING,
    kind::BERTH,
    kind::TABLE,
    kind::SEAT,
    kind::COOKER,
    kind::HEATER,
    kind::APPLIANCE,
    kind::BATTERY,
    kind::TANK,
    kind::TOILET,
    kind::CYLINDER,
    kind::INVERTER,
    kind::INVERTER_CHARGER,
    kind::GENERATOR,
];

/// What is drawn into another by no more than this only touches it, m. Chosen: the accuracy of a sketch.
const SKETCH: f64 = 0.02;

/// What sticks out of the vehicle by no more than this is a mirror, a step or an exhaust, m. Chosen.
const OUT: f64 = 0.3;

/// No vehicle is longer than this, m. Chosen: a coach of 15 m and its trailer.
const LONGEST: f64 = 30.0;

/// No zone, furniture, berth or way out is smaller than this along its longest side, m. Chosen.
const SMALLEST: f64 = 0.02;

/// The factor between the units that are mixed up.
const THOUSAND: f64 = 1_000.0;

/// What of these kinds is never tiny.
const NEVER_TINY: [PartKind; 5] = [kind::ZONE, kind::FURNISHING, kind::BERTH, kind::TABLE, kind::EXIT];

/// Finds what is wrong.
pub fn find(build: &mut Build) {
    let scene = Scene::of(build);
    let mut slips = Vec::new();
    let mut odd: FxHashSet<PartId> = FxHashSet::default();
    for (number, part) in build.parts() {
        if let Some(slip) = wrong_unit(number, part, &scene).or_else(|| in_a_circle(build, number, part, &scene)) {
            slips.push(slip);
            odd.insert(number);
        }
    }
    let sound: Vec<(PartId, &Part, &Stand)> = build
        .parts()
        .filter(|(number, _)| !odd.contains(number))
        .filter_map(|(number, part)| Some((number, part, scene.stand(number)?)))
        .collect();
    for (number, part, stand) in &sound {
        let Some(shape) = &stand.shape else { continue };
        let slip = outside(build, part, shape)
            .or_else(|| not_in_its_zone(build, &scene, part, stand, shape))
            .or_else(|| berth_in_no_zone(build, &scene, *number, part))
            .or_else(|| exit_at_fault(build, &scene, *number, part));
        slips.extend(slip);
    }
    slips.extend(overlaps(&sound));
    build.slips.append(&mut slips);
}

/// Where a place is written: the first of these properties that is given, else the head of the part.
fn place_of(part: &Part) -> Span {
    let spec = vocabulary::part(part.kind);
    let given = ["from", "at", "wall", "beside"].into_iter().find_map(|name| part.given(spec.fact(name)?.id));
    given.map_or_else(|| part.head.clone(), |given| given.at.clone())
}

/// A length as it is said of a vehicle.
fn metres(value: f64) -> String {
    crate::methods::show(value, quantity::Dimension::LENGTH)
}

/// A coordinate or a size that is a thousand times too large or too small.
fn wrong_unit(number: PartId, part: &Part, scene: &Scene) -> Option<Slip> {
    scene.stand(number)?;
    for given in &part.given {
        let lengths: &[f64] = match &given.value {
            Value::Point(lengths) | Value::Box(lengths) => lengths,
            Value::Opening(lengths) => lengths,
            _ => continue,
        };
        let name = vocabulary::fact_spec(given.fact).name;
        let most = lengths.iter().fold(0.0_f64, |most, length| most.max(length.abs()));
        if most > LONGEST {
            let slip = Slip::new(
                "place/factor-of-thousand",
                given.at.clone(),
                format!("`{name}` of {} is {}: no vehicle is as large", part.title, metres(most)),
            );
            return Some(if most / THOUSAND <= LONGEST {
                slip.help(format!(
                    "millimetres were meant, it seems: {} instead of {}",
                    metres(most / THOUSAND),
                    metres(most)
                ))
            } else {
                slip.help("coordinates count from the front axle, the centre line and the living floor")
            });
        }
        let is_size = !matches!(given.value, Value::Point(_));
        if is_size && most < SMALLEST && NEVER_TINY.contains(&part.kind) {
            return Some(
                Slip::new(
                    "place/factor-of-thousand",
                    given.at.clone(),
                    format!("`{name}` of {} is {} at the most: nothing is as small", part.title, metres(most)),
                )
                .help(format!(
                    "metres were meant, it seems: {} instead of {}",
                    metres(most * THOUSAND),
                    metres(most)
                )),
            );
        }
    }
    None
}

/// A thing that stands beside itself, by however many others.
fn in_a_circle(build: &Build, number: PartId, part: &Part, scene: &Scene) -> Option<Slip> {
    let stand = scene.stand(number)?;
    let spec = vocabulary::part(part.kind).fact("beside")?;
    let given = part.given(spec.id)?;
    if stand.shape.is_some() {
        return None;
    }
    let mut at = number;
    let mut met = vec![number];
    while let Some(crate::part::Reference::To(next)) = {
        let beside = vocabulary::part(build.part(at).kind).fact("beside")?;
        build.references.get(&(at, beside.id))
    } {
        if *next == number {
            return Some(
                Slip::new(
                    "place/beside-itself",
                    given.at.clone(),
                    format!("{} stands beside something that stands beside it", part.title),
                )
                .help("give one of them coordinates: from=\"…\""),
            );
        }
        if met.contains(next) {
            return None;
        }
        met.push(*next);
        at = *next;
    }
    None
}

/// A number of the vehicle in SI units.
fn of_vehicle(build: &Build, fact: FactId) -> Option<f64> {
    match &build.part(build.only(kind::VEHICLE)?).given(fact)?.value {
        Value::Quantity(quantity) => Some(quantity.value),
        _ => None,
    }
}

fn outside(build: &Build, part: &Part, shape: &Cuboid) -> Option<Slip> {
    if matches!(part.kind, kind::RACK | kind::LADDER | kind::AWNING | kind::RAMP | kind::KEPT_FREE | kind::ZONE) {
        return None;
    }
    let (least, most) = (shape.least(), shape.most());
    let length = of_vehicle(build, f::vehicle::LENGTH);
    let overhang = of_vehicle(build, f::vehicle::FRONT_OVERHANG);
    let half = of_vehicle(build, f::vehicle::WIDTH).map(|width| width / 2.0);
    let mut out: Vec<(f64, &str, &str)> = Vec::new();
    if let (Some(length), Some(overhang)) = (length, overhang) {
        out.push((-overhang - least[0], "before the foremost point", "x counts rearward of the front axle"));
        out.push((
            most[0] - (length - overhang),
            "behind the rearmost point",
            "x counts rearward of the front axle, not of the bumper",
        ));
    }
    if let Some(half) = half {
        let help = "y counts from the centre line: the left half is below 0, the right half above";
        out.push((-half - least[1], "to the left", help));
        out.push((most[1] - half, "to the right", help));
    }
    let (by, side, help) = out.into_iter().max_by(|one, other| one.0.total_cmp(&other.0))?;
    (by > OUT).then(|| {
        Slip::new(
            "place/outside-vehicle",
            place_of(part),
            format!("{} sticks out of the vehicle by {} {side}", part.title, metres(by)),
        )
        .help(help)
    })
}

fn not_in_its_zone(build: &Build, scene: &Scene, part: &Part, stand: &Stand, shape: &Cuboid) -> Option<Slip> {
    if part.kind == kind::EXIT {
        return None;
    }
    let zone = stand.zone.as_ref().ok().copied().flatten()?;
    let room = scene.stand(zone)?.shape?;
    let middle = Cuboid::point(shape.centre()).ok()?;
    let off = room.distance(&middle);
    (off > SKETCH).then(|| {
        let zone = build.part(zone);
        Slip::new(
            "place/not-in-its-zone",
            place_of(part),
            format!("{} is said to stand in {}, and its middle is {} outside it", part.title, zone.title, metres(off)),
        )
        .help("mend its coordinates, or leave the zone out: it is worked out from them")
        .related(zone.head.clone(), "the zone")
    })
}

fn berth_in_no_zone(build: &Build, scene: &Scene, number: PartId, part: &Part) -> Option<Slip> {
    if part.kind != kind::BERTH || scene.zones().is_empty() || scene.zone(build, number) != Ok(None) {
        return None;
    }
    Some(
        Slip::new("place/berth-in-no-zone", place_of(part), format!("no zone holds {}", part.title))
            .help("mend its coordinates, or draw the zone that it stands in"),
    )
}

/// An exit that is larger than its wall, or in no wall.
fn exit_at_fault(build: &Build, scene: &Scene, number: PartId, part: &Part) -> Option<Slip> {
    if !matches!(part.kind, kind::EXIT | kind::WINDOW) {
        return None;
    }
    let around = scene.interior(build).ok()?.around;
    let opening = scene.opening(build, number).ok()?;
    let bounds = opening.bounds();
    let (size, wall) = (bounds.size(), around.size());
    let larger = (0..3).map(|axis| size[axis] - wall[axis]).fold(f64::NEG_INFINITY, f64::max);
    if larger > OUT {
        let spec = vocabulary::part(part.kind).fact("clear")?;
        let at = part.given(spec.id).map_or_else(|| part.head.clone(), |given| given.at.clone());
        return Some(
            Slip::new(
                "place/opening-larger-than-wall",
                at,
                format!("{} is larger than the wall that it is in, by {}", part.title, metres(larger)),
            )
            .help("an opening is written as width x height"),
        );
    }
    if !opening.side().is_wall() {
        return None;
    }
    let off = bounds.distance(&around);
    let depth = around.contains(&bounds, SKETCH).then(|| {
        let (least, most, at) = (around.least(), around.most(), bounds.centre());
        match opening.side() {
            calc::space::Side::Left => at[1] - least[1],
            calc::space::Side::Right => most[1] - at[1],
            calc::space::Side::Front => at[0] - least[0],
            _ => most[0] - at[0],
        }
    });
    let off = depth.unwrap_or(off).max(off);
    (off > OUT).then(|| {
        Slip::new(
            "place/not-in-its-wall",
            place_of(part),
            format!("{} is {} away from the wall that it is said to be in", part.title, metres(off)),
        )
        .help("`side` and `at` must say the same wall (on the left y is below 0, on the right above), and the space behind it must be drawn: a door of the cab needs a zone of kind cab")
    })
}

/// Whether two solids may share space: one is built into the other, or one folds away.
fn may_share(one: (&Part, &Cuboid), other: (&Part, &Cuboid)) -> bool {
    let folds = |part: &Part| {
        let fact = if part.kind == kind::BERTH { f::berth::FOLDS } else { f::table::FOLDS };
        matches!(part.kind, kind::BERTH | kind::TABLE)
            && part.given(fact).is_some_and(|given| given.value != Value::Flag(false))
    };
    let built_in = |(outer, room): (&Part, &Cuboid), (_, thing): (&Part, &Cuboid)| {
        // A hob is let into its worktop, and a battery stands in its bench.
        let plan = outer.kind == kind::FURNISHING
            && (0..2).all(|axis| {
                thing.least()[axis] >= room.least()[axis] - SKETCH && thing.most()[axis] <= room.most()[axis] + SKETCH
            });
        plan || room.contains(thing, SKETCH)
    };
    folds(one.0) || folds(other.0) || built_in(one, other) || built_in(other, one)
}

fn overlaps(sound: &[(PartId, &Part, &Stand)]) -> Vec<Slip> {
    let mut solids: Vec<(&Part, Cuboid)> = sound
        .iter()
        .filter(|(_, part, _)| SOLIDS.contains(&part.kind))
        .filter_map(|(_, part, stand)| Some((*part, stand.shape?)))
        .filter(|(_, shape)| shape.size().iter().all(|size| *size > 0.0))
        .collect();
    solids.sort_by(|one, other| one.1.least()[0].total_cmp(&other.1.least()[0]));
    let mut slips = Vec::new();
    for (index, (part, shape)) in solids.iter().enumerate() {
        let near = solids.iter().skip(index + 1).take_while(|(_, other)| other.least()[0] < shape.most()[0]);
        for (other, its) in near {
            if !shape.intersects(its, SKETCH) || may_share((part, shape), (other, its)) {
                continue;
            }
            let shared = shape.shared(its).map_or([0.0; 3], |shared| shared.size());
            let (later, first) =
                if part.head.bytes.start > other.head.bytes.start { (part, other) } else { (other, part) };
            slips.push(
                Slip::new(
                    "place/solids-overlap",
                    place_of(later),
                    format!(
                        "{} and {} are in each other: {} × {} × {}",
                        later.title,
                        first.title,
                        metres(shared[0]),
                        metres(shared[1]),
                        metres(shared[2])
                    ),
                )
                .help(
                    "mend the place or the size of one; `from` is the corner with the least x, y and z, not the middle",
                )
                .related(first.head.clone(), "the other"),
            );
        }
    }
    slips
}
