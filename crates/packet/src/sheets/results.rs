//! What tests of the finished vehicle showed, as it is written back into the specification, and whether it is what was expected.

use super::jobs::by_name;
use crate::desk::Desk;
use crate::sheet::{Cell, Value};
use crate::show;
use crate::words::tests as words;
use design::{Build, PartId};
use quantity::Quantity;
use vocabulary::{fact, kind};

/// The properties in which a result has its number.
const NUMBERS: [&str; 7] = ["scale", "voltage", "current", "resistance", "time", "volume", "lost"];

/// One result.
#[derive(Clone, PartialEq, Debug)]
pub struct ResultOf {
    /// The entry.
    pub part: PartId,
    /// The test.
    pub test: String,
    /// What was tested, as it is named.
    pub named: String,
    /// The part that was tested; nothing where no part has its name, or none is named.
    pub on: Option<PartId>,
    /// The side of a wheel.
    pub side: String,
    /// The number that it showed.
    pub number: Option<Quantity>,
    /// Whether somebody said that it passed.
    pub passed: Option<bool>,
    /// Whether a row of the test sheet shows it.
    pub shown: bool,
}

/// Every result that is written.
pub fn results(desk: &mut Desk<'_, '_>) -> Vec<ResultOf> {
    let mut results = Vec::new();
    for &part in desk.of_kind(kind::MEASURED) {
        let text = |desk: &mut Desk<'_, '_>, name: &str| match desk.said(part, name).value {
            Value::Text(text) => text,
            _ => String::new(),
        };
        let on = text(desk, "on");
        let number = NUMBERS.iter().find_map(|name| match desk.said(part, name).value {
            Value::Quantity(quantity) => Some(quantity),
            _ => None,
        });
        let passed = match desk.said(part, "passed").value {
            Value::Flag(passed) => Some(passed),
            _ => None,
        };
        results.push(ResultOf {
            part,
            test: text(desk, "test"),
            on: if on.is_empty() { None } else { by_name(desk.build, &on) },
            named: on,
            side: text(desk, "side"),
            number,
            passed,
            shown: false,
        });
    }
    results
}

/// The last result of a test on a part; it is shown then. A part is meant by its name or its title.
pub fn of<'s>(build: &Build, results: &'s mut [ResultOf], test: &str, on: Option<PartId>) -> Option<&'s ResultOf> {
    let meant = |result: &ResultOf| match on {
        Some(part) => {
            let part = build.part(part);
            let whole = result.named.is_empty() && part.kind == kind::VEHICLE;
            whole || part.name.as_deref() == Some(result.named.as_str()) || *part.title == *result.named
        }
        None => result.named.is_empty(),
    };
    // A later line is a later test; the earlier ones are history.
    let mut found = None;
    for result in results.iter_mut().filter(|result| result.test == test) {
        if meant(result) {
            result.shown = true;
            found = Some(result);
        }
    }
    found.map(|result| &*result)
}

impl ResultOf {
    /// Whether it is what was expected; by hand where that cannot be told.
    pub fn judged(&self, desk: &mut Desk<'_, '_>) -> Cell {
        match desk.fact(self.part, fact::measured::AS_EXPECTED).value {
            Value::Flag(passed) => Cell::of(Value::Flag(passed)),
            _ => Cell::by_hand(),
        }
    }

    /// What was measured, with day, who and by what.
    pub fn cell(&self, desk: &mut Desk<'_, '_>) -> Cell {
        let units = desk.review.units;
        let mut told = Vec::new();
        if let Some(number) = self.number {
            told.push(show::quantity(number, units));
        } else if let Some(passed) = self.passed {
            told.push(if passed { words::PASSED_TOLD } else { words::NOT_PASSED }.to_owned());
        }
        for name in ["date", "by", "instrument", "note"] {
            let cell = desk.said(self.part, name);
            if !cell.is_empty() {
                told.push(show::shown(&cell, units));
            }
        }
        if told.is_empty() { Cell::empty() } else { Cell::text(told.join(", ")) }
    }
}
