//! Values in words for a reader, in the units of the build.

use crate::sheet::{Cell, Value};
use crate::words;
use design::{Build, PartId};
use quantity::{Dimension, Quantity, System};
use spec::Value as Written;
use vocabulary::FactId;

/// A number that a method gives where nothing limits a value.
const NO_LIMIT: f64 = f64::MAX;

/// The value of a cell in words; empty for what is filled in by hand.
pub fn shown(cell: &Cell, units: System) -> String {
    match &cell.value {
        Value::Empty | Value::ByHand => String::new(),
        Value::Text(text) => text.clone(),
        Value::Quantity(quantity) => self::quantity(*quantity, units),
        Value::Size { shown, .. } => shown.clone(),
        Value::Count(count) => format!("{count}"),
        Value::Flag(flag) => if *flag { words::YES } else { words::NO }.to_owned(),
        Value::Parts { parts, complete } => {
            let mut titles: Vec<&str> = parts.iter().map(|part| part.title.as_str()).collect();
            if !complete {
                titles.push(words::PERHAPS_MORE);
            }
            if titles.is_empty() { words::NONE.to_owned() } else { titles.join(", ") }
        }
        Value::Unknown { settle } if settle.is_empty() => words::NOT_WORKED_OUT.to_owned(),
        Value::Unknown { .. } => words::NOT_KNOWN.to_owned(),
    }
}

/// A quantity in the units of the build.
pub fn quantity(quantity: Quantity, units: System) -> String {
    if quantity.value >= NO_LIMIT || quantity.value.is_infinite() {
        return words::NO_LIMIT.to_owned();
    }
    quantity::show(quantity, units)
}

/// A number of a dimension in the units of the build.
pub fn number(value: f64, dimension: Dimension, units: System) -> String {
    quantity(Quantity { value, dimension, currency: None }, units)
}

/// Lengths in a row.
pub fn lengths(lengths: &[f64], between: &str, units: System) -> String {
    lengths.iter().map(|length| number(*length, Dimension::LENGTH, units)).collect::<Vec<_>>().join(between)
}

/// A conductor size as the builder wrote it, in the reader's system.
pub fn written_size(build: &Build, part: PartId, fact: FactId, units: System) -> Option<String> {
    match &build.part(part).given(fact)?.value {
        Written::WireSize(size) => Some(quantity::show_wire_size(*size, units)),
        Written::Cores(cores) => Some(format!("{} × {}", cores.count, quantity::show_wire_size(cores.size, units))),
        _ => None,
    }
}
