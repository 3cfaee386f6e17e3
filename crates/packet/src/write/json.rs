//! A packet as JSON by our own schema, `schema/packet.schema.json`: what is written is borrowed from the packet, and goes
//! into the text once.

use super::files::FORM;
use crate::drawing::{Anchor, Drawing, Element, Label, Shape, Stroke};
use crate::head::{Approved, Head};
use crate::sheet::{Cell, Column, Form, Kind, Part, Row, RowKind, Sheet, Value};
use crate::units::{column_unit, copper_unit};
use crate::{LeftOut, Packet, show};
use quantity::System;
use report::{ByWord, ReviewJson};
use serde::Serialize;

/// The version of the schema. A new number when a reader of the old one could be misled.
pub const VERSION: u32 = 1;

/// A packet as JSON.
pub fn json(packet: &Packet) -> PacketJson<'_> {
    let units = packet.head.units;
    PacketJson {
        form: FORM,
        version: VERSION,
        head: HeadJson::of(&packet.head),
        sheets: packet.sheets.iter().map(|sheet| SheetJson::of(sheet, units)).collect(),
        drawings: packet.drawings.iter().map(DrawingJson::of).collect(),
        left_out: packet.left_out.iter().map(LeftOutJson::of).collect(),
        files: packet.files.iter().map(|(name, _)| name.as_str()).collect(),
        review: report::json(&packet.review, packet.head.held.at),
    }
}

/// A packet as it is written; made by [`json`].
#[derive(Serialize, Debug)]
#[serde(rename_all = "kebab-case")]
pub struct PacketJson<'a> {
    form: &'static str,
    version: u32,
    head: HeadJson<'a>,
    sheets: Vec<SheetJson<'a>>,
    drawings: Vec<DrawingJson<'a>>,
    left_out: Vec<LeftOutJson<'a>>,
    files: Vec<&'a str>,
    review: ReviewJson<'a>,
}

#[derive(Serialize, Debug)]
struct LeftOutJson<'a> {
    title: &'a str,
    why: &'a str,
}

impl<'a> LeftOutJson<'a> {
    fn of(out: &'a LeftOut) -> Self {
        Self { title: &out.title, why: &out.why }
    }
}

#[derive(Serialize, Debug)]
#[serde(rename_all = "kebab-case")]
struct HeadJson<'a> {
    build: &'a str,
    purpose: &'a str,
    vehicle: &'a str,
    revision: &'a str,
    stage: &'static str,
    date: String,
    program: &'a str,
    packs: Vec<PackJson<'a>>,
    hash: &'a str,
    approved: Option<ApprovedJson<'a>>,
    failed: ByWord,
    undecided: ByWord,
    waived: usize,
    held: HeldJson<'a>,
    not_for_construction: bool,
    units: &'static str,
    caution: &'static str,
    not_a_certificate: &'static str,
}

#[derive(Serialize, Debug)]
struct PackJson<'a> {
    name: &'a str,
    edition: &'a str,
}

#[derive(Serialize, Debug)]
struct ApprovedJson<'a> {
    mark: &'a str,
    told: &'a str,
    commit: &'a str,
    stands: bool,
}

impl<'a> ApprovedJson<'a> {
    fn of(approved: &'a Approved) -> Self {
        Self { mark: &approved.mark, told: &approved.told, commit: &approved.commit, stands: approved.stands }
    }
}

#[derive(Serialize, Debug)]
struct HeldJson<'a> {
    held: bool,
    reason: &'a str,
}

impl<'a> HeadJson<'a> {
    fn of(head: &'a Head) -> Self {
        Self {
            build: &head.build,
            purpose: &head.purpose,
            vehicle: &head.vehicle,
            revision: &head.revision,
            stage: head.stage,
            date: head.date.to_string(),
            program: &head.program,
            packs: head.packs.iter().map(|pack| PackJson { name: &pack.name, edition: &pack.edition }).collect(),
            hash: &head.hash,
            approved: head.approved.as_ref().map(ApprovedJson::of),
            failed: ByWord::of(head.failed),
            undecided: ByWord::of(head.undecided),
            waived: head.waived,
            held: HeldJson { held: head.held.held, reason: &head.held.reason },
            not_for_construction: head.not_for_construction,
            units: if head.units == System::Metric { "metric" } else { "us" },
            caution: report::CAUTION,
            not_a_certificate: crate::words::page::NOT_A_CERTIFICATE,
        }
    }
}

#[derive(Serialize, Debug)]
struct SheetJson<'a> {
    id: &'static str,
    title: &'static str,
    purpose: &'static str,
    form: &'static str,
    columns: Vec<ColumnJson>,
    rows: Vec<RowJson<'a>>,
    notes: &'a [String],
    sources: &'a [String],
}

impl<'a> SheetJson<'a> {
    fn of(sheet: &'a Sheet, units: System) -> Self {
        Self {
            id: sheet.id,
            title: sheet.title,
            purpose: sheet.purpose,
            form: match sheet.form {
                Form::Table => "table",
                Form::Card => "card",
            },
            columns: sheet.columns.iter().map(|column| ColumnJson::of(column, units)).collect(),
            rows: sheet.rows.iter().map(|row| RowJson::of(row, units)).collect(),
            notes: &sheet.notes,
            sources: &sheet.sources,
        }
    }
}

#[derive(Serialize, Debug)]
struct ColumnJson {
    key: &'static str,
    title: &'static str,
    kind: &'static str,
    dimension: Option<String>,
    unit: Option<&'static str>,
}

impl ColumnJson {
    fn of(column: &Column, units: System) -> Self {
        let (kind, dimension, unit) = match column.kind {
            Kind::Text => ("text", None, None),
            Kind::Quantity(dimension) => ("quantity", Some(dimension.name()), column_unit(dimension, units)),
            Kind::Size => ("size", None, copper_unit()),
            Kind::Count => ("count", None, None),
            Kind::Flag => ("flag", None, None),
            Kind::Part => ("part", None, None),
            Kind::ByHand => ("by-hand", None, None),
        };
        Self { key: column.key, title: column.title, kind, dimension, unit: unit.map(|unit| unit.symbol) }
    }
}

#[derive(Serialize, Debug)]
struct RowJson<'a> {
    kind: &'static str,
    group: &'a str,
    system: &'static str,
    signal: Option<&'static str>,
    finding: Option<usize>,
    part: Option<PartJson<'a>>,
    cells: Vec<CellJson<'a>>,
}

impl<'a> RowJson<'a> {
    fn of(row: &'a Row, units: System) -> Self {
        Self {
            kind: match row.kind {
                RowKind::Item => "item",
                RowKind::Total => "total",
            },
            group: &row.group,
            system: row.system.word(),
            signal: row.signal.map(rules::Signal::word),
            finding: row.finding,
            part: row.part.as_ref().map(PartJson::of),
            cells: row.cells.iter().map(|cell| CellJson::of(cell, units)).collect(),
        }
    }
}

#[derive(Serialize, Debug)]
struct PartJson<'a> {
    number: u32,
    title: &'a str,
    key: &'a str,
    line: Option<u32>,
}

impl<'a> PartJson<'a> {
    fn of(part: &'a Part) -> Self {
        Self { number: part.number, title: &part.title, key: &part.key, line: part.line.map(|(_, line)| line) }
    }
}

#[derive(Serialize, Debug)]
struct CellJson<'a> {
    #[serde(flatten)]
    value: ValueJson<'a>,
    #[serde(skip_serializing_if = "is_false")]
    assumed: bool,
    #[serde(skip_serializing_if = "str::is_empty")]
    case: &'a str,
}

/// As the library asks for it.
#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands over references")]
const fn is_false(flag: &bool) -> bool {
    !*flag
}

#[derive(Serialize, Debug)]
#[serde(tag = "type", rename_all = "kebab-case")]
enum ValueJson<'a> {
    Empty,
    ByHand,
    Text { text: &'a str },
    Quantity { si: Option<f64>, dimension: String, currency: Option<String>, shown: String },
    Size { si: Option<f64>, shown: &'a str },
    Count { count: Option<f64> },
    Flag { flag: bool },
    Parts { parts: Vec<PartJson<'a>>, complete: bool },
    Unknown { settle: &'a [String] },
}

impl<'a> CellJson<'a> {
    fn of(cell: &'a Cell, units: System) -> Self {
        let value = match &cell.value {
            Value::Empty => ValueJson::Empty,
            Value::ByHand => ValueJson::ByHand,
            Value::Text(text) => ValueJson::Text { text },
            // A number that has no place in JSON is told in words only.
            Value::Quantity(quantity) => ValueJson::Quantity {
                si: Some(quantity.value).filter(|value| value.is_finite() && *value < f64::MAX),
                dimension: quantity.dimension.name(),
                currency: quantity.currency.map(|currency| currency.code().to_owned()),
                shown: show::shown(cell, units),
            },
            Value::Size { shown, area } => ValueJson::Size { si: Some(*area).filter(|area| area.is_finite()), shown },
            Value::Count(count) => ValueJson::Count { count: Some(*count).filter(|count| count.is_finite()) },
            Value::Flag(flag) => ValueJson::Flag { flag: *flag },
            Value::Parts { parts, complete } => {
                ValueJson::Parts { parts: parts.iter().map(PartJson::of).collect(), complete: *complete }
            }
            Value::Unknown { settle } => ValueJson::Unknown { settle },
        };
        Self { value, assumed: cell.assumed, case: &cell.case }
    }
}

#[derive(Serialize, Debug)]
struct DrawingJson<'a> {
    id: &'a str,
    title: &'static str,
    shows: &'a str,
    purpose: &'static str,
    width: f64,
    height: f64,
    elements: Vec<ElementJson<'a>>,
    notes: &'a [String],
}

impl<'a> DrawingJson<'a> {
    fn of(drawing: &'a Drawing) -> Self {
        Self {
            id: &drawing.id,
            title: drawing.title,
            shows: &drawing.part_title,
            purpose: drawing.purpose,
            width: drawing.width,
            height: drawing.height,
            elements: drawing.elements.iter().map(ElementJson::of).collect(),
            notes: &drawing.notes,
        }
    }
}

#[derive(Serialize, Debug)]
struct ElementJson<'a> {
    part: Option<PartJson<'a>>,
    grid: Option<(usize, usize)>,
    shapes: Vec<ShapeJson<'a>>,
    labels: Vec<LabelJson<'a>>,
}

impl<'a> ElementJson<'a> {
    fn of(element: &'a Element) -> Self {
        Self {
            part: element.part.as_ref().map(PartJson::of),
            grid: element.grid,
            shapes: element.shapes.iter().map(ShapeJson::of).collect(),
            labels: element.labels.iter().map(LabelJson::of).collect(),
        }
    }
}

#[derive(Serialize, Debug)]
#[serde(tag = "type", rename_all = "kebab-case")]
enum ShapeJson<'a> {
    Line { points: &'a [[f64; 2]], closed: bool, stroke: &'static str },
    Circle { centre: [f64; 2], radius: f64, stroke: &'static str },
}

impl<'a> ShapeJson<'a> {
    fn of(shape: &'a Shape) -> Self {
        match shape {
            Shape::Line { points, closed, stroke: of } => Self::Line { points, closed: *closed, stroke: stroke(*of) },
            Shape::Circle { centre, radius, stroke: of } => {
                Self::Circle { centre: *centre, radius: *radius, stroke: stroke(*of) }
            }
        }
    }
}

const fn stroke(stroke: Stroke) -> &'static str {
    match stroke {
        Stroke::Fine => "fine",
        Stroke::Line => "line",
        Stroke::Thick => "thick",
        Stroke::Dashed => "dashed",
        Stroke::Filled => "filled",
    }
}

#[derive(Serialize, Debug)]
struct LabelJson<'a> {
    text: &'a str,
    at: [f64; 2],
    size: f64,
    anchor: &'static str,
    bold: bool,
}

impl<'a> LabelJson<'a> {
    fn of(label: &'a Label) -> Self {
        Self {
            text: &label.text,
            at: label.at,
            size: label.size,
            anchor: match label.anchor {
                Anchor::Start => "start",
                Anchor::Middle => "middle",
            },
            bold: label.bold,
        }
    }
}
