//! Drawings as data: shapes and labels in millimetres, each element with the part that it stands for.
//!
//! Lengths are those on paper of size A3. A label knows the box that its text fills, reckoned wide, so that a test can see
//! that none lies over another.

mod charge;
mod plan;
mod single_line;
mod spread;
mod symbols;
mod text;

pub use text::{Anchor, Label};

use crate::LeftOut;
use crate::desk::Desk;
use crate::sheet::Part;

/// A box.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Bounds {
    /// Left edge.
    pub x: f64,
    /// Upper edge.
    pub y: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

impl Bounds {
    /// Whether two boxes share an area.
    pub fn overlaps(&self, other: &Self) -> bool {
        /// Boxes that only touch do not overlap; rounding is far below this, mm.
        const TOUCH: f64 = 1e-6;
        self.x + self.width > other.x + TOUCH
            && other.x + other.width > self.x + TOUCH
            && self.y + self.height > other.y + TOUCH
            && other.y + other.height > self.y + TOUCH
    }
}

/// How a line is drawn.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stroke {
    /// A fine line: leaders, grids.
    Fine,
    /// The usual line.
    Line,
    /// A thick line: busbars, ways out.
    Thick,
    /// A dashed line: what is not part of the conversion, spaces.
    Dashed,
    /// A filled shape.
    Filled,
}

/// A shape.
#[derive(Clone, PartialEq, Debug)]
pub enum Shape {
    /// A line through points; closed or open.
    Line {
        /// The points.
        points: Vec<[f64; 2]>,
        /// Whether the last is joined to the first.
        closed: bool,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// A circle.
    Circle {
        /// Its centre.
        centre: [f64; 2],
        /// Its radius.
        radius: f64,
        /// How it is drawn.
        stroke: Stroke,
    },
}

/// What stands for one part, or for nothing (frames, scales).
#[derive(Clone, PartialEq, Debug)]
pub struct Element {
    /// The part.
    pub part: Option<Part>,
    /// Where it stands on the grid of the drawing: column and row; drawings to scale have none.
    pub grid: Option<(usize, usize)>,
    /// Its shapes.
    pub shapes: Vec<Shape>,
    /// Its texts.
    pub labels: Vec<Label>,
}

impl Element {
    /// An element of a part without shapes yet.
    fn of(part: Option<Part>) -> Self {
        Self { part, grid: None, shapes: Vec::new(), labels: Vec::new() }
    }

    fn line(&mut self, points: &[[f64; 2]], stroke: Stroke) {
        self.shapes.push(Shape::Line { points: points.to_vec(), closed: false, stroke });
    }

    fn outline(&mut self, points: &[[f64; 2]], stroke: Stroke) {
        self.shapes.push(Shape::Line { points: points.to_vec(), closed: true, stroke });
    }

    fn rectangle(&mut self, at: Bounds, stroke: Stroke) {
        let (right, low) = (at.x + at.width, at.y + at.height);
        self.outline(&[[at.x, at.y], [right, at.y], [right, low], [at.x, low]], stroke);
    }

    fn circle(&mut self, centre: [f64; 2], radius: f64, stroke: Stroke) {
        self.shapes.push(Shape::Circle { centre, radius, stroke });
    }
}

/// One drawing.
#[derive(Clone, PartialEq, Debug)]
pub struct Drawing {
    /// Its name in files and links, stable: `floor-plan`, `single-line-2`.
    pub id: String,
    /// The drawing that it belongs to: those of one title follow each other.
    pub title: &'static str,
    /// What of it this one shows.
    pub part_title: String,
    /// Who reads it and for what, in a sentence.
    pub purpose: &'static str,
    /// Its width, mm on A3.
    pub width: f64,
    /// Its height, mm on A3.
    pub height: f64,
    /// A step of its grid, mm; drawings to scale have none.
    pub step: Option<(f64, f64)>,
    /// Its elements.
    pub elements: Vec<Element>,
    /// What a reader must know.
    pub notes: Vec<String>,
}

/// Every drawing, and what is left out.
pub fn all(desk: &mut Desk<'_, '_>) -> (Vec<Drawing>, Vec<LeftOut>) {
    let mut drawings = Vec::new();
    let mut left_out = Vec::new();
    let single = single_line::drawings(desk);
    if single.is_empty() {
        left_out.push(out(crate::words::drawings::SINGLE_LINE, crate::words::drawings::NO_CIRCUIT));
    }
    drawings.extend(single);
    let (curves, more) = charge::drawings(desk);
    drawings.extend(curves);
    left_out.extend(more);
    for view in plan::View::ALL {
        match plan::drawing(desk, view) {
            Some(drawing) => drawings.push(drawing),
            None => left_out.push(out(view.title(), crate::words::drawings::NO_POSITION)),
        }
    }
    (drawings, left_out)
}

fn out(title: &str, why: &str) -> LeftOut {
    LeftOut { title: title.to_owned(), why: why.to_owned() }
}
