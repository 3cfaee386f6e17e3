//! Where one part stands: by coordinates, at a wall of its zone and at a height, or beside something else.

use super::Scene;
use super::given::{Places, lengths, number, part as other_part, places, word};
use crate::fact::Outcome;
use crate::known::{AnyOf, Gap, Gaps, PartId};
use crate::part::Build;
use calc::space::Cuboid;
use vocabulary::FactId;

/// Where a part stands.
#[derive(Clone, Debug)]
pub struct Stand {
    /// Its box, or its point where no size is given.
    pub shape: Option<Cuboid>,
    /// The heights of its underside and its top above the living floor, m; they may be known where the place is not.
    pub heights: Option<[f64; 2]>,
    /// The zone that it is said to stand in.
    pub zone: Outcome<Option<PartId>>,
    /// Whether anything is written of where it stands, beside its zone.
    pub said: bool,
    /// What would give it a place; empty where it has one.
    pub gaps: Gaps,
}

/// Where a part stands, remembered in the scene.
pub fn remembered(build: &Build, scene: &mut Scene, part: PartId) -> Stand {
    if let Some(known) = scene.stands.get(&part) {
        return known.clone();
    }
    // What stands beside itself, by however many others, has no place.
    let circle = places(build.part(part).kind).and_then(|places| places.beside);
    let busy = Gaps::one(circle.map_or(Gap::Unread(part), |beside| Gap::Entry(part, beside)));
    scene.stands.insert(part, Stand { shape: None, heights: None, zone: Ok(None), said: true, gaps: busy });
    let stand = stand(build, scene, part);
    scene.stands.insert(part, stand.clone());
    stand
}

/// Where a part stands.
pub fn stand(build: &Build, scene: &mut Scene, part: PartId) -> Stand {
    let nowhere = |said: bool, gaps: Gaps| Stand { shape: None, heights: None, zone: Ok(None), said, gaps };
    let Some(places) = places(build.part(part).kind) else { return nowhere(false, Gaps::one(Gap::Unread(part))) };
    let zone = other_part(build, part, places.zone).map(|zone| zone.filter(|zone| Some(*zone) != build.outside));
    let placed = by_coordinates(build, part, places);
    let placed = match placed {
        Ok(None) => by_words(build, scene, part, places, &zone),
        other => other.map(|shape| shape.map(|shape| (Some(shape), heights(&shape), Gaps::default()))),
    };
    match placed {
        Ok(Some((shape, heights, gaps))) => Stand { shape, heights: Some(heights), zone, said: true, gaps },
        Ok(None) => Stand { zone, ..nowhere(false, Gaps(vec![AnyOf(entries(part, places))])) },
        Err(gaps) => Stand { zone, ..nowhere(true, gaps) },
    }
}

/// The entries that give a part a place, the usual one first: a corner for what has a size.
fn entries(part: PartId, places: &Places) -> Vec<Gap> {
    [places.from, places.at].into_iter().flatten().map(|fact| Gap::Entry(part, fact)).collect()
}

fn heights(shape: &Cuboid) -> [f64; 2] {
    [shape.least()[2], shape.most()[2]]
}

/// By its corner and its size, or by its middle.
fn by_coordinates(build: &Build, part: PartId, places: &Places) -> Outcome<Option<Cuboid>> {
    let broken = |fact: Option<FactId>| Gaps::one(fact.map_or(Gap::Unread(part), |fact| Gap::Entry(part, fact)));
    if let Some(corner) = lengths(build, part, places.from)? {
        let size = lengths(build, part, places.size)?.unwrap_or_default();
        return Cuboid::new(corner, size).map(Some).map_err(|_| broken(places.from));
    }
    let Some(middle) = lengths(build, part, places.at)? else { return Ok(None) };
    Cuboid::point(middle).map(Some).map_err(|_| broken(places.at))
}

/// What is worked out of a place in words: the box, the heights, and what is missing of the box.
type Worked = (Option<Cuboid>, [f64; 2], Gaps);

/// By words: at a wall, at a height, beside something.
fn by_words(
    build: &Build,
    scene: &mut Scene,
    part: PartId,
    places: &Places,
    zone: &Outcome<Option<PartId>>,
) -> Outcome<Option<Worked>> {
    let (wall, beside) = (word(build, part, places.wall)?, other_part(build, part, places.beside)?);
    let floor = number(build, part, places.raised)?;
    let ceiling = number(build, part, places.below_ceiling)?;
    if wall.is_none() && beside.is_none() && floor.is_none() && ceiling.is_none() {
        return Ok(None);
    }
    let size = lengths(build, part, places.size)?.unwrap_or_default();
    let mut least: [Option<f64>; 3] = [None; 3];
    let mut missing = Vec::new();
    if let Some(beside) = beside {
        let other = remembered(build, scene, beside);
        let Some(shape) = other.shape else { return Err(other.gaps) };
        match word(build, part, places.toward)? {
            Some(toward) => least = next_to(&shape, toward, size).map(Some),
            None => missing.extend(places.toward.map(|toward| Gap::Entry(part, toward))),
        }
    }
    let room = match zone.clone()? {
        Some(zone) => scene.stand(zone).and_then(|stand| stand.shape),
        None => only_room(build, scene),
    };
    if let Some(wall) = wall {
        let along = number(build, part, places.along)?;
        match room {
            Some(room) => at_wall(&mut least, &room, wall, size, along),
            None => missing.extend(places.zone.map(|zone| Gap::Entry(part, zone))),
        }
        let unplaced = if matches!(wall, "left" | "right") { least[0] } else { least[1] };
        if unplaced.is_none() && room.is_some() {
            missing.extend(places.along.map(|along| Gap::Entry(part, along)));
        }
    }
    // Heights count from the floor of the zone, which is that of the living space unless a step is drawn.
    if let Some(floor) = floor {
        least[2] = Some(room.map_or(0.0, |room| room.least()[2]) + floor);
    } else if let Some(ceiling) = ceiling {
        match room {
            Some(room) => least[2] = Some(room.most()[2] - ceiling - size[2]),
            None => missing.extend(places.zone.map(|zone| Gap::Entry(part, zone))),
        }
    }
    let [x, y, z] = least;
    if let (Some(x), Some(y), Some(z)) = (x, y, z) {
        let shape = Cuboid::new([x, y, z], size).map_err(|_| Gaps(vec![AnyOf(entries(part, places))]))?;
        return Ok(Some((Some(shape), heights(&shape), Gaps::default())));
    }
    if missing.is_empty() {
        missing = entries(part, places);
    }
    let gaps = Gaps(vec![AnyOf(missing)]);
    match z {
        Some(z) => Ok(Some((None, [z, z + size[2]], gaps))),
        None => Err(gaps),
    }
}

/// The one zone in which people live, where there is one only.
fn only_room(build: &Build, scene: &Scene) -> Option<Cuboid> {
    let kind = Some(vocabulary::fact::zone::KIND);
    let mut rooms = scene.zones.iter().filter(|(zone, _)| {
        word(build, *zone, kind) == Ok(Some("living"))
            && build.part(*zone).given(vocabulary::fact::zone::INSIDE).is_none()
    });
    let first = rooms.next()?.1;
    rooms.next().is_none().then_some(first)
}

/// The least corner of what touches a box on one side, with the other edges along its own.
fn next_to(shape: &Cuboid, toward: &str, size: [f64; 3]) -> [f64; 3] {
    let [mut x, mut y, mut z] = shape.least();
    match toward {
        "front" => x -= size[0],
        "rear" => x = shape.most()[0],
        "left" => y -= size[1],
        "right" => y = shape.most()[1],
        "below" => z -= size[2],
        _ => z = shape.most()[2],
    }
    [x, y, z]
}

/// Puts the least corner at a wall, and along it as far as that is said.
fn at_wall(least: &mut [Option<f64>; 3], room: &Cuboid, wall: &str, size: [f64; 3], along: Option<f64>) {
    let (near, far) = (room.least(), room.most());
    let (across, lengthwise) = if matches!(wall, "left" | "right") { (1, 0) } else { (0, 1) };
    least[across] = Some(if matches!(wall, "left" | "front") { near[across] } else { far[across] - size[across] });
    if let Some(along) = along {
        least[lengthwise] = Some(near[lengthwise] + along);
    }
}
