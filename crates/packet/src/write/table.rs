//! Table files: comma-separated values of RFC 4180, numbers as numbers in the unit of their column.
//!
//! What a builder typed could be taken for a formula by a spreadsheet program: a text that begins with one of the signs that
//! such programs act on gets an apostrophe before it, which they read as 'this is text'.

use crate::head::Head;
use crate::sheet::{Cell, Kind, Sheet, Value};
use crate::show;
use crate::units::{column_unit, copper_unit, in_unit};
use crate::words::page as words;
use crate::{Column, Packet, RowKind};
use quantity::System;

/// A sheet as a table file.
///
/// # Errors
/// In words: the table could not be written, which is a fault of the program.
pub fn csv(sheet: &Sheet, packet: &Packet) -> Result<String, String> {
    let units = packet.head.units;
    let mut writer = csv::Writer::from_writer(Vec::new());
    let mut heads: Vec<String> = sheet.columns.iter().map(|column| heading(column, units)).collect();
    let has_money = sheet.columns.iter().any(is_money);
    if has_money {
        heads.push("currency".to_owned());
    }
    heads.extend(["group", "row", "system", "signal", "line", "assumed"].map(str::to_owned));
    if packet.head.not_for_construction {
        heads.push(words::STATUS.to_lowercase());
    }
    let failed = |error: csv::Error| error.to_string();
    writer.write_record(&heads).map_err(failed)?;
    for row in &sheet.rows {
        let mut fields: Vec<String> =
            row.cells.iter().zip(&sheet.columns).map(|(cell, column)| field(cell, column, units)).collect();
        if has_money {
            fields.push(currency(row.cells.iter()));
        }
        fields.push(defused(&row.group));
        fields.push(if row.kind == RowKind::Total { "total" } else { "item" }.to_owned());
        fields.push(row.system.word().to_owned());
        let signal = row.signal.or_else(|| packet.marks.worst_open(row.part.as_ref()?.number));
        fields.push(signal.map_or("", rules::Signal::word).to_owned());
        fields.push(row.part.as_ref().map_or_else(String::new, |part| defused(&place(part, packet))));
        let assumed: Vec<&str> = row
            .cells
            .iter()
            .zip(&sheet.columns)
            .filter(|(cell, _)| cell.assumed)
            .map(|(_, column)| column.key)
            .collect();
        fields.push(assumed.join(" "));
        if packet.head.not_for_construction {
            fields.push(words::NOT_FOR_CONSTRUCTION.to_owned());
        }
        writer.write_record(&fields).map_err(failed)?;
    }
    let bytes = writer.into_inner().map_err(|error| error.to_string())?;
    String::from_utf8(bytes).map_err(|error| error.to_string())
}

/// What every sheet carries, as a table of names and values.
///
/// # Errors
/// As [`csv()`].
pub fn about(head: &Head) -> Result<String, String> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let counts = format!(
        "{} {}, {} {}, {} {}",
        head.failed_in_all(),
        words::FAILED,
        head.undecided_in_all(),
        words::UNDECIDED,
        head.waived,
        words::WAIVED
    );
    let status = if head.not_for_construction { words::NOT_FOR_CONSTRUCTION } else { "" };
    for (name, value) in [
        (words::PACKET, head.build.as_str()),
        (words::STATUS, status),
        (words::VEHICLE, &head.vehicle),
        (words::REVISION, &head.revision),
        (words::STAGE, head.stage),
        (words::DATE, &head.date.to_string()),
        (words::PACKS, &head.packs_in_a_line()),
        (words::HASH, &head.hash),
        (words::APPROVED, &super::front::approved(head)),
        (words::COUNTS, &counts),
        (words::PROGRAM, &head.program),
        (words::CAUTION, &format!("{} {}", words::NOT_A_CERTIFICATE, report::CAUTION)),
    ] {
        writer.write_record([defused(name), defused(value)]).map_err(|error| error.to_string())?;
    }
    let bytes = writer.into_inner().map_err(|error| error.to_string())?;
    String::from_utf8(bytes).map_err(|error| error.to_string())
}

fn is_money(column: &Column) -> bool {
    column.kind == Kind::Quantity(quantity::Dimension::MONEY)
}

fn currency<'a>(mut cells: impl Iterator<Item = &'a Cell>) -> String {
    let code = cells.find_map(|cell| match &cell.value {
        Value::Quantity(quantity) if quantity.dimension == quantity::Dimension::MONEY => quantity.currency,
        _ => None,
    });
    code.map_or_else(String::new, |code| code.code().to_owned())
}

/// A column's name with its unit: `rating [A]`.
pub fn heading(column: &Column, units: System) -> String {
    match column.kind {
        Kind::Quantity(dimension) => match column_unit(dimension, units) {
            Some(unit) => format!("{} [{}]", column.key, unit.symbol),
            None => column.key.to_owned(),
        },
        Kind::Size => format!("{} [{}]", column.key, copper_unit().map_or("", |unit| unit.symbol)),
        _ => column.key.to_owned(),
    }
}

fn field(cell: &Cell, column: &Column, units: System) -> String {
    match (&cell.value, column.kind) {
        (Value::Quantity(quantity), Kind::Quantity(dimension)) if quantity.dimension == dimension => {
            if quantity.value >= f64::MAX {
                return show::shown(cell, units);
            }
            in_unit(quantity.value, column_unit(dimension, units))
        }
        (Value::Size { area, .. }, Kind::Size) => in_unit(*area, copper_unit()),
        (Value::Count(count), _) => in_unit(*count, None),
        (Value::Parts { parts, complete: true }, _) if parts.is_empty() => String::new(),
        _ => defused(&show::shown(cell, units)),
    }
}

/// Where a part is written: `bramble.build.kdl:45`.
pub fn place(part: &crate::Part, packet: &Packet) -> String {
    let Some((file, line)) = part.line else { return String::new() };
    let name = packet.files.get(file as usize).map_or("", |(name, _)| name.as_str());
    format!("{}:{line}", name.rsplit(['/', '\\']).next().unwrap_or_default())
}

/// A text that no spreadsheet program takes for a formula, and that holds nothing hidden.
fn defused(text: &str) -> String {
    let text = report::visible(text);
    let first = text.trim_start().chars().next();
    // Full-width forms of the same signs are acted on too by some programs.
    if first.is_some_and(|first| matches!(first, '=' | '+' | '-' | '@' | '|' | '%' | '＝' | '＋' | '－' | '＠')) {
        format!("'{text}")
    } else {
        text.into_owned()
    }
}
