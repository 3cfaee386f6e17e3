//! Doors, hatches, windows and vents as openings in a side of the vehicle.

use super::Scene;
use super::given::{flag, number, opening, word};
use crate::fact::Outcome;
use crate::known::{Gap, Gaps, PartId};
use crate::part::Build;
use calc::space::{Cuboid, Opening, Outline, Side, Skin};
use vocabulary::{FactId, fact as f, kind};

/// An opening through which air comes in.
#[derive(Clone, Debug)]
pub enum Hole {
    /// A door, hatch or window with its outline.
    Outlined(Opening),
    /// A vent or fan, of which only the middle is known.
    Point(Cuboid),
}

impl Hole {
    /// The box around it.
    #[must_use]
    pub fn bounds(&self) -> Cuboid {
        match self {
            Self::Outlined(opening) => opening.bounds(),
            Self::Point(point) => *point,
        }
    }

    /// The way from a point to the opening along the skin, m, and not shorter than the straight line.
    #[must_use]
    pub fn distance(&self, skin: &Skin, point: [f64; 3]) -> Option<f64> {
        let from = skin.onto(point).ok()?;
        let (along, straight) = match self {
            Self::Outlined(opening) => (skin.distance_to_opening(&from, opening)?, opening.distance(point).ok()?),
            Self::Point(hole) => {
                let to = skin.onto(hole.centre()).ok()?;
                (skin.distance(&from, &to), Cuboid::point(point).ok()?.distance(hole))
            }
        };
        Some(along.max(straight))
    }
}

/// The side that a word means.
pub fn side(word: &str) -> Option<Side> {
    match word {
        "left" => Some(Side::Left),
        "right" => Some(Side::Right),
        "front" => Some(Side::Front),
        "rear" => Some(Side::Rear),
        "roof" => Some(Side::Roof),
        "floor" => Some(Side::Under),
        _ => None,
    }
}

/// The facts of an opening of one kind.
struct Facts {
    clear: FactId,
    side: FactId,
    outline: FactId,
    radius: FactId,
    /// Whether its place is the middle of its lower edge.
    by_sill: bool,
}

fn facts(build: &Build, part: PartId) -> Option<Facts> {
    match build.part(part).kind {
        kind::EXIT => Some(Facts {
            clear: f::exit::CLEAR,
            side: f::exit::SIDE,
            outline: f::exit::OUTLINE,
            radius: f::exit::CORNER_RADIUS,
            by_sill: true,
        }),
        kind::WINDOW => Some(Facts {
            clear: f::window::CLEAR,
            side: f::window::SIDE,
            outline: f::window::OUTLINE,
            radius: f::window::CORNER_RADIUS,
            by_sill: false,
        }),
        _ => None,
    }
}

fn due<T>(written: Outcome<Option<T>>, part: PartId, fact: FactId) -> Outcome<T> {
    written?.ok_or_else(|| Gaps::one(Gap::Entry(part, fact)))
}

/// Two outcomes, the gaps of both.
pub(crate) fn both<A, B>(one: Outcome<A>, other: Outcome<B>) -> Outcome<(A, B)> {
    crate::methods::battery::both(one, other)
}

impl Scene {
    /// The clear outline of an exit or window.
    ///
    /// # Errors
    /// What would settle it.
    pub fn outline(&self, build: &Build, part: PartId) -> Outcome<Outline> {
        let Some(facts) = facts(build, part) else { return Err(Gaps::one(Gap::Unread(part))) };
        let clear = due(opening(build, part, facts.clear), part, facts.clear);
        let shape = both(word(build, part, Some(facts.outline)), number(build, part, Some(facts.radius)));
        let ([width, height], (form, radius)) = both(clear, shape)?;
        let outline = match form {
            Some("ellipse") => Outline::ellipse(width, height),
            _ => Outline::rounded(width, height, radius.unwrap_or_default()),
        };
        outline.map_err(|_| Gaps::one(Gap::Entry(part, facts.clear)))
    }

    /// An exit or window as an opening of a side.
    ///
    /// # Errors
    /// What would settle it.
    pub fn opening(&self, build: &Build, part: PartId) -> Outcome<Opening> {
        let Some(facts) = facts(build, part) else { return Err(Gaps::one(Gap::Unread(part))) };
        let said = due(word(build, part, Some(facts.side)), part, facts.side);
        let (outline, (said, shape)) = both(self.outline(build, part), both(said, self.shape(part)))?;
        let place = if facts.by_sill { Opening::on_sill } else { Opening::new };
        let opening = side(said).and_then(|side| place(side, shape.centre(), outline).ok());
        opening.ok_or_else(|| Gaps::one(Gap::Entry(part, facts.side)))
    }

    /// Every opening through which air comes into the space in which people are: exits, windows that open, vents of it that lead
    /// to the open air, and fans in its skin.
    ///
    /// # Errors
    /// What would settle which there are and where.
    pub fn holes(&self, build: &Build, skin: &Skin) -> Outcome<Vec<(PartId, Hole)>> {
        let mut holes = Vec::new();
        let mut gaps = Gaps::default();
        for kind in [kind::EXIT, kind::WINDOW, kind::VENT, kind::FAN] {
            let parts = build.of_kind(kind);
            if !parts.complete {
                gaps.add(&Gaps::one(Gap::Unread(Build::ROOT)));
            }
            for &part in parts.members.iter() {
                match self.hole(build, skin, part) {
                    Ok(Some(hole)) => holes.push((part, hole)),
                    Ok(None) => {}
                    Err(more) => gaps.add(&more),
                }
            }
        }
        if gaps.is_empty() { Ok(holes) } else { Err(gaps) }
    }

    fn hole(&self, build: &Build, skin: &Skin, part: PartId) -> Outcome<Option<Hole>> {
        match build.part(part).kind {
            kind::EXIT => self.opening(build, part).map(|opening| Some(Hole::Outlined(opening))),
            kind::WINDOW => match flag(build, part, f::window::OPENS)? {
                Some(true) => self.opening(build, part).map(|opening| Some(Hole::Outlined(opening))),
                Some(false) => Ok(None),
                None => Err(Gaps::one(Gap::Entry(part, f::window::OPENS))),
            },
            kind::VENT => self.vent(build, part),
            _ => self.fan(build, skin, part),
        }
    }

    /// A vent, where it leads from a space in which people are to the open air.
    fn vent(&self, build: &Build, vent: PartId) -> Outcome<Option<Hole>> {
        let Some(zone) = build.part(vent).outer else { return Ok(None) };
        let living = match word(build, zone, Some(f::zone::KIND))? {
            Some(word) => matches!(word, "living" | "cab"),
            None => return Err(Gaps::one(Gap::Entry(zone, f::zone::KIND))),
        };
        if !living {
            return Ok(None);
        }
        match super::given::part(build, vent, Some(f::vent::TO))? {
            Some(to) if Some(to) != build.outside && word(build, to, Some(f::zone::KIND))? != Some("outside") => {
                Ok(None)
            }
            Some(_) => Ok(Some(Hole::Point(self.shape(vent)?))),
            None => Err(Gaps::one(Gap::Entry(vent, f::vent::TO))),
        }
    }

    /// A fan, where it stands in the skin.
    fn fan(&self, build: &Build, skin: &Skin, fan: PartId) -> Outcome<Option<Hole>> {
        // A fan of which nothing is said but its zone stands somewhere in the vehicle, not in its skin.
        let Some(stand) = self.stand(fan) else { return Ok(None) };
        if !stand.said && build.part(fan).given(f::fan::ZONE).is_some() {
            return Ok(None);
        }
        let shape = self.shape(fan)?;
        let on = skin.onto(shape.centre()).ok();
        Ok(on.filter(|on| on.off() <= IN_SKIN).map(|_| Hole::Point(shape)))
    }
}

/// A fan within this distance of the skin is in it, m. Chosen: the thickness of a lined roof.
pub(crate) const IN_SKIN: f64 = 0.15;
