//! A packet as JSON by our own schema, `schema/packet.schema.json`.

use super::files::FORM;
use crate::drawing::{Anchor, Drawing, Element, Label, Shape, Stroke};
use crate::head::Head;
use crate::sheet::{Cell, Column, Form, Kind, Part, Row, RowKind, Sheet, Value};
use crate::units::{column_unit, copper_unit};
use crate::{Packet, show};
use quantity::System;
use serde_json::{Value as Json, json};

/// The version of the schema. A new number when a reader of the old one could be misled.
pub const VERSION: u32 = 1;

/// A packet as JSON.
pub fn json(packet: &Packet) -> Json {
    let units = packet.head.units;
    json!({
        "form": FORM,
        "version": VERSION,
        "head": head(&packet.head),
        "sheets": packet.sheets.iter().map(|one| sheet(one, units)).collect::<Vec<_>>(),
        "drawings": packet.drawings.iter().map(drawing).collect::<Vec<_>>(),
        "left-out": packet.left_out.iter().map(|out| json!({ "title": out.title, "why": out.why })).collect::<Vec<_>>(),
        "files": packet.files.iter().map(|(name, _)| name).collect::<Vec<_>>(),
        "review": packet.review,
    })
}

fn head(head: &Head) -> Json {
    let by_word = |counts: [usize; 4]| {
        let words = rules::Signal::ALL.iter().rev();
        let pairs = words.map(|signal| (signal.word().to_owned(), Json::from(counts[*signal as usize])));
        Json::Object(pairs.collect())
    };
    json!({
        "build": head.build,
        "purpose": head.purpose,
        "vehicle": head.vehicle,
        "revision": head.revision,
        "stage": head.stage,
        "date": head.date.to_string(),
        "program": head.program,
        "packs": head.packs.iter().map(|pack| json!({ "name": pack.name, "edition": pack.edition })).collect::<Vec<_>>(),
        "hash": head.hash,
        "approved": head.approved.as_ref().map(|approved| json!({
            "mark": approved.mark, "told": approved.told, "commit": approved.commit, "stands": approved.stands,
        })),
        "failed": by_word(head.failed),
        "undecided": by_word(head.undecided),
        "waived": head.waived,
        "held": { "held": head.held.held, "reason": head.held.reason },
        "not-for-construction": head.not_for_construction,
        "units": if head.units == System::Metric { "metric" } else { "us" },
        "caution": report::CAUTION,
        "not-a-certificate": crate::words::page::NOT_A_CERTIFICATE,
    })
}

fn sheet(sheet: &Sheet, units: System) -> Json {
    json!({
        "id": sheet.id,
        "title": sheet.title,
        "purpose": sheet.purpose,
        "form": match sheet.form { Form::Table => "table", Form::Card => "card" },
        "columns": sheet.columns.iter().map(|one| column(one, units)).collect::<Vec<_>>(),
        "rows": sheet.rows.iter().map(|one| row(one, units)).collect::<Vec<_>>(),
        "notes": sheet.notes,
        "sources": sheet.sources,
    })
}

fn column(column: &Column, units: System) -> Json {
    let (kind, dimension, unit) = match column.kind {
        Kind::Text => ("text", None, None),
        Kind::Quantity(dimension) => ("quantity", Some(dimension.name()), column_unit(dimension, units)),
        Kind::Size => ("size", None, copper_unit()),
        Kind::Count => ("count", None, None),
        Kind::Flag => ("flag", None, None),
        Kind::Part => ("part", None, None),
        Kind::ByHand => ("by-hand", None, None),
    };
    json!({
        "key": column.key,
        "title": column.title,
        "kind": kind,
        "dimension": dimension,
        "unit": unit.map(|unit| unit.symbol),
    })
}

fn row(row: &Row, units: System) -> Json {
    json!({
        "kind": match row.kind { RowKind::Item => "item", RowKind::Total => "total" },
        "group": row.group,
        "system": row.system.word(),
        "signal": row.signal.map(rules::Signal::word),
        "finding": row.finding,
        "part": row.part.as_ref().map(part),
        "cells": row.cells.iter().map(|one| cell(one, units)).collect::<Vec<_>>(),
    })
}

fn part(part: &Part) -> Json {
    json!({ "number": part.number, "title": part.title, "key": part.key, "line": part.line.map(|(_, line)| line) })
}

fn cell(cell: &Cell, units: System) -> Json {
    let mut made = match &cell.value {
        Value::Empty => json!({ "type": "empty" }),
        Value::ByHand => json!({ "type": "by-hand" }),
        Value::Text(text) => json!({ "type": "text", "text": text }),
        // A number that has no place in JSON is told in words only.
        Value::Quantity(quantity) => json!({
            "type": "quantity",
            "si": Some(quantity.value).filter(|value| value.is_finite() && *value < f64::MAX),
            "dimension": quantity.dimension.name(),
            "currency": quantity.currency.map(|currency| currency.code().to_owned()),
            "shown": show::shown(cell, units),
        }),
        Value::Size { shown, area } => {
            json!({ "type": "size", "si": Some(*area).filter(|area| area.is_finite()), "shown": shown })
        }
        Value::Count(count) => json!({ "type": "count", "count": Some(*count).filter(|count| count.is_finite()) }),
        Value::Flag(flag) => json!({ "type": "flag", "flag": flag }),
        Value::Parts { parts, complete } => {
            json!({ "type": "parts", "parts": parts.iter().map(part).collect::<Vec<_>>(), "complete": complete })
        }
        Value::Unknown { settle } => json!({ "type": "unknown", "settle": settle }),
    };
    if let Json::Object(members) = &mut made {
        if cell.assumed {
            members.insert("assumed".to_owned(), Json::Bool(true));
        }
        if !cell.case.is_empty() {
            members.insert("case".to_owned(), Json::from(cell.case.as_str()));
        }
    }
    made
}

fn drawing(drawing: &Drawing) -> Json {
    json!({
        "id": drawing.id,
        "title": drawing.title,
        "shows": drawing.part_title,
        "purpose": drawing.purpose,
        "width": drawing.width,
        "height": drawing.height,
        "elements": drawing.elements.iter().map(element).collect::<Vec<_>>(),
        "notes": drawing.notes,
    })
}

fn element(element: &Element) -> Json {
    json!({
        "part": element.part.as_ref().map(part),
        "grid": element.grid.map(|(column, row)| json!([column, row])),
        "shapes": element.shapes.iter().map(shape).collect::<Vec<_>>(),
        "labels": element.labels.iter().map(label).collect::<Vec<_>>(),
    })
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

fn shape(shape: &Shape) -> Json {
    match shape {
        Shape::Line { points, closed, stroke: of } => {
            json!({ "type": "line", "points": points, "closed": closed, "stroke": stroke(*of) })
        }
        Shape::Circle { centre, radius, stroke: of } => {
            json!({ "type": "circle", "centre": centre, "radius": radius, "stroke": stroke(*of) })
        }
    }
}

fn label(label: &Label) -> Json {
    json!({
        "text": label.text,
        "at": label.at,
        "size": label.size,
        "anchor": match label.anchor { Anchor::Start => "start", Anchor::Middle => "middle" },
        "bold": label.bold,
    })
}
