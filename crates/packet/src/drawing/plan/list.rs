//! The list of names below a view: number, name, and what is good to know of it.

use super::super::Element;
use super::super::text::{Anchor, Label};
use super::outline::{Mark, PAGE};
use crate::desk::Desk;
use crate::show;
use vocabulary::kind;

/// Columns of the list.
const COLUMNS: usize = 3;
/// Height of a line, mm.
const LINE: f64 = 4.4;
/// Height of the letters, mm.
const TYPE: f64 = 2.8;
/// Room for the number, mm.
const NUMBER: f64 = 8.0;

/// Writes the list from a height on; gives the height of the sheet.
pub fn list(desk: &mut Desk<'_, '_>, marks: &[Mark], top: f64, elements: &mut Vec<Element>) -> f64 {
    let lines = marks.len().div_ceil(COLUMNS).max(1);
    let count = |number: usize| u32::try_from(number).map_or(0.0, f64::from);
    let width = PAGE / count(COLUMNS);
    for (index, mark) in marks.iter().enumerate() {
        let x = count(index / lines) * width + 2.0;
        let y = top + (count(index % lines) + 1.0) * LINE;
        let mut element = Element::of(Some(desk.named(mark.part)));
        element.labels.push(Label::bold(&mark.number.to_string(), [x, y], TYPE, Anchor::Start, NUMBER));
        let text = told(desk, mark);
        element.labels.push(Label::fitted(&text, [x + NUMBER, y], TYPE, Anchor::Start, width - NUMBER - 4.0));
        elements.push(element);
    }
    top + (count(lines) + 2.0) * LINE
}

fn told(desk: &mut Desk<'_, '_>, mark: &Mark) -> String {
    let title = desk.build.part(mark.part).title.to_string();
    let name = match desk.build.part(mark.part).kind {
        kind::EXIT => "clear",
        kind::VENT => "free-area",
        kind::TANK => "volume",
        kind::BATTERY => "capacity",
        kind::EXHAUST => "opening-distance",
        kind::ALARM => "senses",
        _ => "mass",
    };
    let cell = desk.said(mark.part, name);
    if cell.is_empty() { title } else { format!("{title}, {}", show::shown(&cell, desk.review.units)) }
}
