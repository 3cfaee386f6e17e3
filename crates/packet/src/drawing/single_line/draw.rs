//! From places on the grid to shapes and labels.

use super::super::symbols::{self, HALF, HALF_HEIGHT};
use super::super::text::{Anchor, Label};
use super::super::{Drawing, Element, Stroke};
use super::layout::{Layout, Leaves, Placed, What};
use crate::desk::Desk;
use crate::show;
use crate::words::drawings as words;
use design::{PartId, Piece};
use vocabulary::{PartKind, fact, kind};

/// Width of a cell, mm on A3.
const COLUMN: f64 = 30.0;
/// Height of a cell, mm on A3.
const ROW: f64 = 19.0;
/// The margin around everything, mm.
const MARGIN: f64 = 4.0;
/// Height of names, mm: about seven points.
const TYPE: f64 = 2.5;
/// Height of the name of a run, mm.
const SMALL: f64 = 2.2;
/// What a label leaves free at either side of its cell, mm.
const FREE: f64 = 1.0;
/// The base line of a run's name above the line of its row, mm.
const NAME_LINE: f64 = -8.0;
/// The base line of the label above a symbol, mm.
const ABOVE: f64 = -4.4;
/// The base line of the first label below a symbol, mm.
const BELOW: f64 = 6.4;

/// How far the line down beside a symbol stands from the edge of its cell, mm.
const SIDE: f64 = 2.0;

/// Draws a block.
pub fn drawing(
    desk: &mut Desk<'_, '_>,
    layout: &Layout,
    id: String,
    part_title: String,
    purpose: &'static str,
) -> Drawing {
    let elements = layout.placed.iter().map(|placed| element(desk, placed)).collect();
    // Rows and columns of a page are far fewer than what a double counts exactly.
    let count = |number: usize| u32::try_from(number).map_or(0.0, f64::from);
    Drawing {
        id,
        title: words::SINGLE_LINE,
        part_title,
        purpose,
        width: 2.0 * MARGIN + count(layout.columns) * COLUMN,
        height: 2.0 * MARGIN + count(layout.rows) * ROW,
        step: Some((COLUMN, ROW)),
        elements,
        notes: Vec::new(),
    }
}

/// The middle of a cell.
fn centre(column: usize, row: usize) -> [f64; 2] {
    let count = |number: usize| u32::try_from(number).map_or(0.0, f64::from);
    [MARGIN + (count(column) + 0.5) * COLUMN, MARGIN + (count(row) + 0.5) * ROW]
}

fn element(desk: &mut Desk<'_, '_>, placed: &Placed) -> Element {
    let [x, y] = centre(placed.column, placed.row);
    let (left, right) = (x - COLUMN / 2.0, x + COLUMN / 2.0);
    let named = |desk: &Desk<'_, '_>, part: PartId| Some(desk.named(desk.circuitry().written(part)));
    let mut made = match &placed.what {
        What::Node { thing, bar, last, elsewhere } => {
            let mut made = Element::of(thing.and_then(|thing| named(desk, thing)));
            let low = centre(placed.column, *last)[1];
            node(desk, &mut made, *thing, *bar, [x, y], low);
            if *elsewhere {
                made.labels.pop_if(|label| label.at[1] > y);
                made.labels.push(cell_label(words::ELSEWHERE, [x, y + BELOW]));
            }
            if placed.column > 0 {
                made.line(&[[left, y], [if *bar || thing.is_none() { x } else { x - HALF }, y]], Stroke::Line);
            }
            made
        }
        What::Name { run, cells, leaves, bare } => {
            let mut made = Element::of(named(desk, *run));
            let cells = u32::try_from(*cells).map_or(1.0, f64::from);
            let name = desk.build.part(*run).title.to_string();
            let width = cells * COLUMN - 2.0 * FREE;
            made.labels.push(Label::fitted(&name, [left + FREE, y + NAME_LINE], SMALL, Anchor::Start, width));
            let from = match leaves {
                Leaves::Middle => left - COLUMN / 2.0,
                Leaves::Symbol => left - COLUMN / 2.0 + HALF,
                Leaves::Side => left - SIDE,
            };
            made.line(&[[from, y], [if *bare { right } else { left }, y]], Stroke::Line);
            made
        }
        What::Piece(piece) => {
            let mut made = Element::of(named(desk, piece.part()));
            self::piece(desk, &mut made, *piece, [x, y]);
            made
        }
        What::Thing(thing) => {
            let mut made = Element::of(named(desk, *thing));
            made.line(&[[left - COLUMN / 2.0, y], [x - HALF, y]], Stroke::Line);
            symbol(desk, &mut made, *thing, [x, y]);
            made
        }
        What::Onward(things) => {
            let mut made = Element::of(things.first().and_then(|thing| named(desk, *thing)));
            made.line(&[[left, y], [x - 4.0, y]], Stroke::Line);
            made.outline(&[[x - 4.0, y - 1.6], [x, y], [x - 4.0, y + 1.6]], Stroke::Line);
            let names: Vec<String> = things.iter().map(|thing| desk.name(*thing)).collect();
            made.labels.push(cell_label(words::CONTINUES, [x, y + ABOVE]));
            made.labels.push(cell_label(&names.join(", "), [x, y + BELOW]));
            made
        }
        What::Nowhere => {
            let mut made = Element::of(None);
            made.line(&[[left, y], [x - 3.0, y]], Stroke::Dashed);
            made.labels.push(cell_label(words::OPEN_END, [x, y + BELOW]));
            made
        }
    };
    made.grid = Some((placed.column, placed.row));
    made
}

/// A label that stays inside its cell.
fn cell_label(text: &str, at: [f64; 2]) -> Label {
    Label::fitted(text, at, TYPE, Anchor::Middle, COLUMN - 2.0 * FREE)
}

fn node(desk: &mut Desk<'_, '_>, made: &mut Element, thing: Option<PartId>, bar: bool, [x, y]: [f64; 2], low: f64) {
    let right = x + COLUMN / 2.0;
    match thing {
        Some(thing) if bar => {
            let reach = HALF_HEIGHT;
            made.line(&[[x, y - reach], [x, low + reach]], Stroke::Thick);
            let name = desk.name(thing);
            made.labels.push(Label::bold(&name, [x, y + ABOVE], TYPE, Anchor::Middle, COLUMN - 2.0 * FREE));
            // Below the bar's lower end, which stands in the last row that hangs on it.
            let values = values(desk, thing);
            if !values.is_empty() {
                made.labels.push(cell_label(&values, [x, low + BELOW]));
            }
        }
        Some(thing) => {
            symbol(desk, made, thing, [x, y]);
            if low > y {
                made.line(&[[right - SIDE, y], [right - SIDE, low]], Stroke::Line);
            }
        }
        None => {
            made.circle([x, y], 0.8, Stroke::Filled);
            if low > y {
                made.line(&[[x, y], [x, low]], Stroke::Line);
            }
        }
    }
}

fn symbol(desk: &mut Desk<'_, '_>, made: &mut Element, thing: PartId, [x, y]: [f64; 2]) {
    // A charger that direct current feeds is drawn as what it is: a converter.
    let of = match desk.build.part(thing).kind {
        kind::CHARGER if desk.is(thing, "kind", "dc-to-dc") => kind::CONVERTER,
        of => of,
    };
    symbols::draw(made, of, [x, y]);
    let name = desk.name(thing);
    made.labels.push(Label::bold(&name, [x, y + ABOVE], TYPE, Anchor::Middle, COLUMN - 2.0 * FREE));
    let values = values(desk, thing);
    if !values.is_empty() {
        made.labels.push(cell_label(&values, [x, y + BELOW]));
    }
}

fn piece(desk: &mut Desk<'_, '_>, made: &mut Element, piece: Piece, [x, y]: [f64; 2]) {
    let (left, right) = (x - COLUMN / 2.0, x + COLUMN / 2.0);
    let units = desk.review.units;
    match piece {
        Piece::Conductor(conductor) => {
            made.line(&[[left, y], [right, y]], Stroke::Line);
            // The stroke across that tells a conductor with its size from a bare joint.
            made.line(&[[x - 0.8, y + 1.4], [x + 0.8, y - 1.4]], Stroke::Fine);
            let size = crate::sheets::conductor_size(desk, conductor);
            made.labels.push(cell_label(&show::shown(&size, units), [x, y + ABOVE]));
            let length = desk.fact(conductor, fact::conductor::ONE_WAY);
            made.labels.push(cell_label(&show::shown(&length, units), [x, y + BELOW]));
        }
        Piece::Device(device) => {
            made.line(&[[left, y], [x - HALF, y]], Stroke::Line);
            made.line(&[[x + HALF, y], [right, y]], Stroke::Line);
            let is_breaker =
                matches!(desk.fact(device, fact::device::IS_BREAKER).value, crate::sheet::Value::Flag(true));
            symbols::draw(made, if is_breaker { kind::BREAKER } else { kind::FUSE }, [x, y]);
            let title = crate::sheets::device_title(desk, device);
            let (rating, class) = title.split_once(", ").unwrap_or((&title, ""));
            made.labels.push(cell_label(rating, [x, y + ABOVE]));
            if !class.is_empty() {
                made.labels.push(cell_label(class, [x, y + BELOW]));
            }
        }
        Piece::Switch(part) | Piece::Through(part) => {
            made.line(&[[left, y], [x - HALF, y]], Stroke::Line);
            made.line(&[[x + HALF, y], [right, y]], Stroke::Line);
            symbols::draw(made, desk.build.part(part).kind, [x, y]);
            let name = desk.name(part);
            made.labels.push(cell_label(&name, [x, y + ABOVE]));
            let rating = desk.said(part, "rating");
            if !rating.is_empty() {
                made.labels.push(cell_label(&show::shown(&rating, units), [x, y + BELOW]));
            }
        }
    }
}

/// The values that a symbol shows of its thing, by kind; of a load its current or its power.
const VALUES: &[(PartKind, &[&str])] = &[
    (kind::BATTERY, &["chemistry", "voltage", "capacity"]),
    (kind::BUSBAR, &["rating"]),
    (kind::PANEL, &["rating"]),
    (kind::AC_BOARD, &["main", "rcd"]),
    (kind::CHARGER, &["voltage", "output"]),
    (kind::CONVERTER, &["voltage", "output"]),
    (kind::INVERTER, &["power", "voltage"]),
    (kind::INVERTER_CHARGER, &["power", "charge"]),
    (kind::SOLAR_CONTROLLER, &["voltage", "output"]),
    (kind::SOLAR, &["modules", "power"]),
    (kind::OUTLETS, &["count", "voltage"]),
    (kind::ALTERNATOR, &["output"]),
];

fn values(desk: &mut Desk<'_, '_>, thing: PartId) -> String {
    let of = desk.build.part(thing).kind;
    let listed = VALUES.iter().find(|(kind, _)| *kind == of).map(|(_, names)| *names);
    let mut told = Vec::new();
    for name in listed.unwrap_or(&["current", "power", "rating"]) {
        let cell = desk.said(thing, name);
        if cell.is_empty() {
            continue;
        }
        let shown = show::shown(&cell, desk.review.units);
        told.push(if matches!(*name, "modules" | "count") { format!("{shown} ×") } else { shown });
        if listed.is_none() {
            break;
        }
    }
    told.join(" ")
}
