//! The floor plan and the two sides: whatever has a position, to scale, numbered, with a list of names.
//!
//! Axes of a specification: x rearward of the front axle, y to the right of the centre line, z above the living floor.

mod list;
mod outline;

use super::{Bounds, Drawing, Element};
use crate::desk::Desk;
use crate::words::drawings as words;
use design::{CaseId, Fact, PartId};
use vocabulary::{Family, fact, kind};

/// How the vehicle is looked at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum View {
    /// From above.
    Plan,
    /// From outside on the left.
    Left,
    /// From outside on the right.
    Right,
}

impl View {
    /// Every view, in the order of the packet.
    pub const ALL: [Self; 3] = [Self::Plan, Self::Left, Self::Right];

    /// The name in files and links.
    const fn id(self) -> &'static str {
        match self {
            Self::Plan => "floor-plan",
            Self::Left => "left-side",
            Self::Right => "right-side",
        }
    }

    /// The title.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Plan => words::FLOOR_PLAN,
            Self::Left => words::LEFT_SIDE,
            Self::Right => words::RIGHT_SIDE,
        }
    }

    const fn purpose(self) -> &'static str {
        match self {
            Self::Plan => words::FLOOR_PLAN_PURPOSE,
            Self::Left => words::LEFT_SIDE_PURPOSE,
            Self::Right => words::RIGHT_SIDE_PURPOSE,
        }
    }

    /// A point of the vehicle, m, in the plane of the view, m: across and downward. From above the front is at the left and
    /// the vehicle's right at the top; from the right the front is at the right.
    const fn project(self, [x, y, z]: [f64; 3]) -> [f64; 2] {
        match self {
            Self::Plan => [x, -y],
            Self::Left => [x, -z],
            Self::Right => [-x, -z],
        }
    }

    /// Whether a thing whose middle lies there is shown.
    fn shows(self, middle: [f64; 3]) -> bool {
        match self {
            Self::Plan => true,
            Self::Left => middle[1] <= 0.0,
            Self::Right => middle[1] >= 0.0,
        }
    }
}

/// A thing with its place, m.
#[derive(Clone, PartialEq, Debug)]
struct Standing {
    part: PartId,
    least: [f64; 3],
    /// Nothing for a thing of which only a point is known.
    size: Option<[f64; 3]>,
}

impl Standing {
    fn middle(&self) -> [f64; 3] {
        let size = self.size.unwrap_or_default();
        [self.least[0] + size[0] / 2.0, self.least[1] + size[1] / 2.0, self.least[2] + size[2] / 2.0]
    }

    /// The box in the plane of a view, m.
    fn seen(&self, view: View) -> Bounds {
        let size = self.size.unwrap_or_default();
        let far = [self.least[0] + size[0], self.least[1] + size[1], self.least[2] + size[2]];
        let (one, other) = (view.project(self.least), view.project(far));
        Bounds {
            x: one[0].min(other[0]),
            y: one[1].min(other[1]),
            width: (one[0] - other[0]).abs(),
            height: (one[1] - other[1]).abs(),
        }
    }
}

/// The farthest that a position may lie from the front axle and still be drawn, m: longer than any vehicle on the road. A
/// slip of a thousand would leave nothing of the rest to see.
const FARTHEST: f64 = 30.0;

/// Draws a view; nothing when no part has a position.
pub fn drawing(desk: &mut Desk<'_, '_>, view: View) -> Option<Drawing> {
    let (standing, without) = standing(desk);
    let shown: Vec<Standing> = standing.into_iter().filter(|one| view.shows(one.middle())).collect();
    if shown.iter().all(|one| desk.build.part(one.part).kind == kind::ZONE) {
        return None;
    }
    let sheet = outline::Sheet::of(desk, view, &shown);
    let mut elements: Vec<Element> = sheet.frame(desk);
    let marks = sheet.marks(desk, &shown, &mut elements);
    let height = list::list(desk, &marks, sheet.bottom(), &mut elements);
    let mut notes = vec![words::LEGEND.to_owned()];
    if view == View::Plan && !without.is_empty() {
        let names: Vec<String> = without.iter().map(|part| desk.build.part(*part).title.to_string()).collect();
        notes.push(format!("{} {}.", words::WITHOUT, names.join(", ")));
    }
    Some(Drawing {
        id: view.id().to_owned(),
        title: view.title(),
        part_title: sheet.scale_title(),
        purpose: view.purpose(),
        width: outline::PAGE,
        height,
        step: None,
        elements,
        notes,
    })
}

/// The parts that stand somewhere, and the things that do not.
fn standing(desk: &mut Desk<'_, '_>) -> (Vec<Standing>, Vec<PartId>) {
    let mut standing = Vec::new();
    let mut without = Vec::new();
    let scene = desk.reader.scene();
    let is_near = |least: [f64; 3], size: [f64; 3]| least.iter().chain(&size).all(|length| length.abs() <= FARTHEST);
    for (part, of) in desk.build.parts() {
        let spec = vocabulary::part(of.kind);
        if spec.family == Family::Worked || spec.kind == kind::AXLE {
            continue;
        }
        // An opening is as wide and as high as it is clear, in the side that it is in.
        let opening = match of.kind {
            kind::EXIT | kind::WINDOW => scene.opening(desk.build, part).ok().map(|opening| opening.bounds()),
            _ => None,
        };
        let shape = opening.or_else(|| scene.shape(part).ok());
        match shape.map(|shape| (shape.least(), shape.size())) {
            Some((least, size)) if is_near(least, size) => {
                let size = size.iter().any(|length| *length > 0.0).then_some(size);
                standing.push(Standing { part, least, size });
            }
            _ if spec.family == Family::Thing && (spec.fact("at").is_some() || spec.fact("from").is_some()) => {
                without.push(part);
            }
            _ => {}
        }
    }
    (standing, without)
}

/// What is heavy: stores, batteries, and whatever has to be held in a crash.
pub(super) fn heavy(desk: &mut Desk<'_, '_>) -> Vec<PartId> {
    let mut heavy = Vec::new();
    for of in [kind::BATTERY, kind::CYLINDER, kind::TANK] {
        heavy.extend(desk.of_kind(of));
    }
    for &thing in desk.of_kind(kind::HEAVY_THING) {
        if let Ok(Fact::Part(part)) = desk.reader.fact(thing, fact::heavy_thing::THING, CaseId(0)) {
            heavy.push(part);
        }
    }
    heavy
}
