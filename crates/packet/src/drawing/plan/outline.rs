//! The sheet of a view: its scale, the vehicle's outline, the axles, the things and their numbers.

use super::super::spread::spread;
use super::super::text::{Anchor, Label};
use super::super::{Bounds, Element, Stroke};
use super::{Standing, View};
use crate::desk::Desk;
use crate::show;
use crate::words::drawings as words;
use design::PartId;
use quantity::Dimension;
use vocabulary::{fact, kind};

/// Width of the sheet, mm: that of A3 across, less its margins.
pub const PAGE: f64 = 390.0;
/// Height left for the view itself, mm.
const TALLEST: f64 = 190.0;
/// Free around the view for numbers, mm.
const AROUND: f64 = 16.0;
/// Height of the letters, mm.
const TYPE: f64 = 2.8;
/// How near to the edge of the sheet an axle is still drawn, mm: its name needs as much on either side.
const EDGE: f64 = 20.0;
/// A number's box, mm.
const NUMBER: [f64; 2] = [7.0, 5.0];
/// Half of the cross of a point, mm.
const CROSS: f64 = 1.6;
/// The scales that drawings of vehicles have, the largest first: millimetres of the vehicle to one on A3 (common practice).
const SCALES: [f64; 7] = [10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0];
const MILLIMETRES: f64 = 1000.0;

/// A view's sheet.
pub struct Sheet {
    view: View,
    /// What is seen, m.
    seen: Bounds,
    /// Millimetres of the vehicle to one on paper.
    scale: f64,
    /// The body, m, where its length and width are given.
    body: Option<Body>,
}

/// A thing's number and what it is.
pub struct Mark {
    /// The part.
    pub part: PartId,
    /// Its number on this sheet.
    pub number: usize,
}

impl Sheet {
    /// A sheet on which all things and the body find room.
    pub fn of(desk: &mut Desk<'_, '_>, view: View, shown: &[Standing]) -> Self {
        let body = body(desk, view);
        let mut boxes: Vec<Bounds> = shown.iter().map(|one| one.seen(view)).collect();
        boxes.extend(body.as_ref().map(|body| body.outline));
        let seen = around(&boxes);
        let fits = |scale: &f64| {
            seen.width * MILLIMETRES / scale <= PAGE - 2.0 * AROUND && seen.height * MILLIMETRES / scale <= TALLEST
        };
        let wanted = (seen.width * MILLIMETRES / (PAGE - 2.0 * AROUND)).max(seen.height * MILLIMETRES / TALLEST);
        let scale = SCALES.into_iter().find(fits).unwrap_or(wanted);
        Self { view, seen, scale, body }
    }

    /// A point of the view, m, on paper, mm.
    fn paper(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let left = (PAGE - self.seen.width * MILLIMETRES / self.scale) / 2.0;
        [left + (x - self.seen.x) * MILLIMETRES / self.scale, AROUND + (y - self.seen.y) * MILLIMETRES / self.scale]
    }

    fn on_paper(&self, of: Bounds) -> Bounds {
        let [x, y] = self.paper([of.x, of.y]);
        let size = MILLIMETRES / self.scale;
        Bounds { x, y, width: of.width * size, height: of.height * size }
    }

    /// Where the view ends and the list begins, mm.
    pub fn bottom(&self) -> f64 {
        2.0 * AROUND + self.seen.height * MILLIMETRES / self.scale + 12.0
    }

    /// The scale in words.
    pub fn scale_title(&self) -> String {
        format!("1 : {:.0}", self.scale)
    }

    /// The body, the axles, the floor, where the front is, and a bar for the scale.
    pub fn frame(&self, desk: &mut Desk<'_, '_>) -> Vec<Element> {
        let mut elements = Vec::new();
        let mut body = Element::of(desk.build.only(kind::VEHICLE).map(|vehicle| desk.named(vehicle)));
        if let Some(of) = &self.body {
            let outline = self.on_paper(of.outline);
            body.rectangle(outline, Stroke::Dashed);
            if let Some(road) = of.road {
                // The road, and the living floor above it.
                for (height, stroke) in [(road, Stroke::Line), (0.0, Stroke::Fine)] {
                    let y = self.paper([0.0, height])[1];
                    body.line(&[[outline.x, y], [outline.x + outline.width, y]], stroke);
                }
            }
        }
        elements.push(body);
        let axles: Vec<PartId> = desk.of_kind(kind::AXLE).to_vec();
        for axle in axles {
            let Some(at) = desk.number(axle, fact::axle::AT).filter(|at| at.abs() <= super::FARTHEST) else { continue };
            let mut element = Element::of(Some(desk.named(axle)));
            let x = self.paper(self.view.project([at, 0.0, 0.0]))[0];
            // An axle beside all that is shown has no place on this sheet.
            if !(EDGE..=PAGE - EDGE).contains(&x) {
                continue;
            }
            let (top, low) = (AROUND - 3.0, self.bottom() - AROUND - 9.0);
            element.line(&[[x, top], [x, low]], Stroke::Dashed);
            let name = format!("{} {}", words::AXLE, desk.name(axle));
            element.labels.push(Label::fitted(&name, [x, low + 4.0], TYPE, Anchor::Middle, 2.0 * EDGE));
            elements.push(element);
        }
        elements.push(self.front());
        elements.push(self.bar(desk));
        elements
    }

    /// An arrow that says where the front is.
    fn front(&self) -> Element {
        let mut element = Element::of(None);
        let is_right = self.view == View::Right;
        let (tip, tail) = if is_right { (PAGE - 3.0, PAGE - 11.0) } else { (3.0, 11.0) };
        let y = 4.0;
        element.line(&[[tail, y], [tip, y]], Stroke::Line);
        let back = if is_right { tip - 3.0 } else { tip + 3.0 };
        element.line(&[[back, y - 1.5], [tip, y], [back, y + 1.5]], Stroke::Line);
        let at = if is_right { [PAGE - 34.0, y + 1.0] } else { [13.0, y + 1.0] };
        element.labels.push(Label::fitted(words::FRONT, at, TYPE, Anchor::Start, 20.0));
        element
    }

    /// A bar of one metre, or of one foot for readers of feet.
    fn bar(&self, desk: &Desk<'_, '_>) -> Element {
        const FOOT: f64 = 0.3048;
        let length = if desk.review.units == quantity::System::Metric { 1.0 } else { 3.0 * FOOT };
        let (y, left) = (4.0, PAGE / 2.0);
        let mut element = Element::of(None);
        let right = left + length * MILLIMETRES / self.scale;
        element.line(&[[left, y - 1.2], [left, y + 1.2]], Stroke::Line);
        element.line(&[[left, y], [right, y]], Stroke::Thick);
        element.line(&[[right, y - 1.2], [right, y + 1.2]], Stroke::Line);
        let text = show::number(length, Dimension::LENGTH, desk.review.units);
        element.labels.push(Label::fitted(&text, [right + 2.0, y + 1.0], TYPE, Anchor::Start, 20.0));
        element
    }

    /// Draws the things and gives each a number; numbers never lie over one another.
    pub fn marks(&self, desk: &mut Desk<'_, '_>, shown: &[Standing], elements: &mut Vec<Element>) -> Vec<Mark> {
        let mut taken: Vec<Bounds> = elements.iter().flat_map(|element| &element.labels).map(Label::bounds).collect();
        // Nor on the sign of a point.
        taken.extend(shown.iter().filter(|one| one.size.is_none()).map(|one| {
            let seen = self.on_paper(one.seen(self.view));
            Bounds { x: seen.x - CROSS, y: seen.y - CROSS, width: 2.0 * CROSS, height: 2.0 * CROSS }
        }));
        let anchors: Vec<[f64; 2]> = shown.iter().map(|one| self.anchor(desk, one)).collect();
        let page = Bounds { x: 1.0, y: 8.0, width: PAGE - 2.0, height: self.bottom() - 14.0 };
        let places = spread(&anchors, NUMBER, &taken, page);
        let heavy = super::heavy(desk);
        let mut marks = Vec::new();
        for (index, ((one, anchor), place)) in shown.iter().zip(&anchors).zip(places).enumerate() {
            let number = index + 1;
            let mut element = Element::of(Some(desk.named(one.part)));
            self.thing(desk, one, heavy.contains(&one.part), &mut element);
            if let Some(place) = place {
                // A number that had to move away has a line to its thing.
                let away = (place[0] - anchor[0]).abs().max((place[1] - anchor[1]).abs());
                if away > NUMBER[1] {
                    element.line(&[*anchor, place], Stroke::Fine);
                }
                let text = number.to_string();
                element.labels.push(Label::bold(&text, [place[0], place[1] + 1.0], TYPE, Anchor::Middle, NUMBER[0]));
            }
            elements.push(element);
            marks.push(Mark { part: one.part, number });
        }
        marks
    }

    /// Where a thing's number would best stand.
    fn anchor(&self, desk: &Desk<'_, '_>, one: &Standing) -> [f64; 2] {
        let seen = self.on_paper(one.seen(self.view));
        match (one.size, desk.build.part(one.part).kind) {
            // Numbers of spaces stand in a corner, where they leave room for what is in them.
            (Some(_), kind::ZONE | kind::KEPT_FREE) => [seen.x + NUMBER[0] / 2.0 + 1.0, seen.y + NUMBER[1] / 2.0 + 1.0],
            // A number does not stand on a line: openings are seen from the edge.
            (Some(_), _) if seen.height < NUMBER[1] => [seen.x + seen.width / 2.0, seen.y - NUMBER[1] / 2.0 - 1.0],
            (Some(_), _) if seen.width < NUMBER[0] => [seen.x - NUMBER[0] / 2.0 - 1.0, seen.y + seen.height / 2.0],
            (Some(_), _) => [seen.x + seen.width / 2.0, seen.y + seen.height / 2.0],
            (None, _) => [seen.x + CROSS + NUMBER[0] / 2.0, seen.y - CROSS - NUMBER[1] / 2.0],
        }
    }

    fn thing(&self, desk: &mut Desk<'_, '_>, one: &Standing, is_heavy: bool, element: &mut Element) {
        let of = desk.build.part(one.part).kind;
        let seen = self.on_paper(one.seen(self.view));
        let (right, low) = (seen.x + seen.width, seen.y + seen.height);
        match one.size {
            Some(_) => {
                let stroke = match of {
                    kind::ZONE | kind::KEPT_FREE | kind::AWNING => Stroke::Dashed,
                    kind::EXIT => Stroke::Thick,
                    _ => Stroke::Line,
                };
                element.rectangle(seen, stroke);
                if is_heavy {
                    element.line(&[[seen.x, low], [right, seen.y]], Stroke::Fine);
                }
            }
            None if of == kind::EXIT => {
                element.line(&[[seen.x - CROSS, seen.y], [seen.x + CROSS, seen.y]], Stroke::Thick)
            }
            None if matches!(of, kind::ALARM | kind::EXTINGUISHER) => {
                element.circle([seen.x, seen.y], CROSS, Stroke::Filled);
            }
            None if matches!(of, kind::VENT | kind::EXHAUST | kind::INTAKE) => {
                element.circle([seen.x, seen.y], CROSS, Stroke::Line);
                element.circle([seen.x, seen.y], CROSS / 2.0, Stroke::Line);
            }
            None => {
                element.line(&[[seen.x - CROSS, seen.y], [seen.x + CROSS, seen.y]], Stroke::Line);
                element.line(&[[seen.x, seen.y - CROSS], [seen.x, seen.y + CROSS]], Stroke::Line);
                if is_heavy {
                    element.line(&[[seen.x - CROSS, seen.y + CROSS], [seen.x + CROSS, seen.y - CROSS]], Stroke::Fine);
                }
            }
        }
        if of == kind::EXHAUST
            && let Some(radius) = desk.number(one.part, fact::exhaust::OPENING_DISTANCE)
        {
            self.ring([seen.x, seen.y], radius * MILLIMETRES / self.scale, element);
        }
    }

    /// A dashed circle, as far as the sheet reaches.
    fn ring(&self, centre: [f64; 2], radius: f64, element: &mut Element) {
        /// Corners of the circle: finer than the eye sees at this size.
        const CORNERS: u32 = 90;
        let (top, low) = (9.0, self.bottom() - 8.0);
        let mut arc: Vec<[f64; 2]> = Vec::new();
        for corner in 0..=CORNERS {
            let angle = std::f64::consts::TAU * f64::from(corner) / f64::from(CORNERS);
            let point = [centre[0] + radius * angle.cos(), centre[1] + radius * angle.sin()];
            if (1.0..=PAGE - 1.0).contains(&point[0]) && (top..=low).contains(&point[1]) {
                arc.push(point);
            } else {
                draw(&mut arc, element);
            }
        }
        draw(&mut arc, element);
    }
}

fn draw(arc: &mut Vec<[f64; 2]>, element: &mut Element) {
    if arc.len() > 1 {
        element.line(arc, Stroke::Dashed);
    }
    arc.clear();
}

/// What is drawn of the body in a view.
struct Body {
    /// Its outline, m.
    outline: Bounds,
    /// Of a view from the side: how far the road is below the living floor, m.
    road: Option<f64>,
}

/// The body in the plane of a view, m, as far as it is given.
fn body(desk: &mut Desk<'_, '_>, view: View) -> Option<Body> {
    let vehicle = desk.build.only(kind::VEHICLE)?;
    let mut length_of = |fact| desk.number(vehicle, fact).filter(|length| length.abs() <= super::FARTHEST);
    let length = length_of(fact::vehicle::LENGTH)?;
    let front = length_of(fact::vehicle::FRONT_OVERHANG)?;
    if view == View::Plan {
        let width = length_of(fact::vehicle::WIDTH)?;
        return Some(Body { outline: Bounds { x: -front, y: -width / 2.0, width: length, height: width }, road: None });
    }
    let height = length_of(fact::vehicle::HEIGHT)?;
    let floor = length_of(fact::vehicle::FLOOR_HEIGHT)?;
    // From the right the front is at the right.
    let x = if view == View::Right { front - length } else { -front };
    Some(Body { outline: Bounds { x, y: floor - height, width: length, height }, road: Some(floor) })
}

/// The box around all boxes, never without extent.
fn around(boxes: &[Bounds]) -> Bounds {
    let edge = |of: fn(&Bounds) -> f64, pick: fn(f64, f64) -> f64, start: f64| boxes.iter().map(of).fold(start, pick);
    let left = edge(|one| one.x, f64::min, f64::INFINITY);
    let top = edge(|one| one.y, f64::min, f64::INFINITY);
    let right = edge(|one| one.x + one.width, f64::max, f64::NEG_INFINITY);
    let low = edge(|one| one.y + one.height, f64::max, f64::NEG_INFINITY);
    /// A view of a single point still has an extent, m.
    const LEAST: f64 = 0.5;
    if boxes.is_empty() {
        return Bounds { x: 0.0, y: 0.0, width: LEAST, height: LEAST };
    }
    Bounds { x: left, y: top, width: (right - left).max(LEAST), height: (low - top).max(LEAST) }
}
