//! Symbols in the manner of IEC 60617, drawn by us: what a thing is shows by its shape, never by colour alone.
//!
//! Each is drawn around a point; the line of its circuit comes from the left and goes on to the right.

use super::text::{Anchor, Label};
use super::{Bounds, Element, Stroke};
use vocabulary::{PartKind, kind};

/// Half of the width of a symbol, mm.
pub const HALF: f64 = 4.0;
/// Half of the height of a symbol, mm.
pub const HALF_HEIGHT: f64 = 3.4;
/// Height of the letters inside a symbol, mm.
const LETTER: f64 = 2.6;

/// Draws what stands for a part of this kind around a point.
pub fn draw(element: &mut Element, of: PartKind, [x, y]: [f64; 2]) {
    match of {
        kind::BATTERY => battery(element, [x, y]),
        kind::FUSE => fuse(element, [x, y]),
        kind::BREAKER => breaker(element, [x, y]),
        kind::DISCONNECT | kind::SWITCH => switch(element, [x, y], false),
        kind::RELAY => switch(element, [x, y], true),
        kind::SHUNT => shunt(element, [x, y]),
        kind::CONNECTOR | kind::TRAILER_PLUG | kind::INLET | kind::SHORE => plug(element, [x, y]),
        kind::LAMP => lamp(element, [x, y]),
        kind::PUMP => letter(element, [x, y], "M", true),
        kind::FAN => letter(element, [x, y], "M", true),
        kind::ALTERNATOR | kind::GENERATOR => letter(element, [x, y], "G", true),
        kind::HEATER | kind::COOKER => heater(element, [x, y]),
        kind::CHARGER => converter(element, [x, y], "~", "="),
        kind::CONVERTER => converter(element, [x, y], "=", "="),
        kind::INVERTER => converter(element, [x, y], "=", "~"),
        kind::INVERTER_CHARGER => converter(element, [x, y], "≈", "="),
        kind::SOLAR_CONTROLLER => converter(element, [x, y], "=", "="),
        kind::SOLAR => solar(element, [x, y]),
        kind::OUTLETS => outlet(element, [x, y]),
        kind::ISOLATING_TRANSFORMER => transformer(element, [x, y]),
        kind::ALARM => letter(element, [x, y], "A", false),
        kind::TRANSFER_SWITCH => letter(element, [x, y], "1|2", false),
        _ => letter(element, [x, y], "", false),
    }
}

fn block(element: &mut Element, [x, y]: [f64; 2]) {
    let at = Bounds { x: x - HALF, y: y - HALF_HEIGHT, width: 2.0 * HALF, height: 2.0 * HALF_HEIGHT };
    element.rectangle(at, Stroke::Line);
}

fn letter(element: &mut Element, [x, y]: [f64; 2], text: &str, round: bool) {
    if round {
        element.circle([x, y], HALF_HEIGHT, Stroke::Line);
        tails(element, [x, y], HALF_HEIGHT);
    } else {
        block(element, [x, y]);
    }
    if !text.is_empty() {
        inner(element, [x, y], text);
    }
}

fn inner(element: &mut Element, [x, y]: [f64; 2], text: &str) {
    element.labels.push(Label {
        at: [x, y + 0.35 * LETTER],
        text: text.to_owned(),
        size: LETTER,
        anchor: Anchor::Middle,
        bold: false,
    });
}

/// The line from the cell's symbol width to a narrower shape.
fn tails(element: &mut Element, [x, y]: [f64; 2], half: f64) {
    if half < HALF {
        element.line(&[[x - HALF, y], [x - half, y]], Stroke::Line);
        element.line(&[[x + half, y], [x + HALF, y]], Stroke::Line);
    }
}

fn battery(element: &mut Element, [x, y]: [f64; 2]) {
    // Two cells: the longer plate of each is the positive one.
    for (place, half, stroke) in
        [(-1.8, 1.6, Stroke::Thick), (-0.6, 3.2, Stroke::Line), (0.6, 1.6, Stroke::Thick), (1.8, 3.2, Stroke::Line)]
    {
        element.line(&[[x + place, y - half], [x + place, y + half]], stroke);
    }
    tails(element, [x, y], 1.8);
}

fn fuse(element: &mut Element, [x, y]: [f64; 2]) {
    element.rectangle(Bounds { x: x - HALF, y: y - 1.4, width: 2.0 * HALF, height: 2.8 }, Stroke::Line);
    element.line(&[[x - HALF, y], [x + HALF, y]], Stroke::Line);
}

fn breaker(element: &mut Element, [x, y]: [f64; 2]) {
    switch(element, [x, y], false);
    let cross = [x - 2.2, y];
    element.line(&[[cross[0] - 0.9, y - 0.9], [cross[0] + 0.9, y + 0.9]], Stroke::Line);
    element.line(&[[cross[0] - 0.9, y + 0.9], [cross[0] + 0.9, y - 0.9]], Stroke::Line);
}

fn switch(element: &mut Element, [x, y]: [f64; 2], worked: bool) {
    element.line(&[[x - HALF, y], [x - 2.2, y]], Stroke::Line);
    element.line(&[[x + 2.2, y], [x + HALF, y]], Stroke::Line);
    element.line(&[[x + 2.2, y], [x - 2.0, y - 2.6]], Stroke::Line);
    element.circle([x + 2.2, y], 0.5, Stroke::Filled);
    if worked {
        // The coil that works the contact.
        element.rectangle(Bounds { x: x - 1.4, y: y + 1.2, width: 2.8, height: 1.8 }, Stroke::Line);
    }
}

fn shunt(element: &mut Element, [x, y]: [f64; 2]) {
    element.rectangle(Bounds { x: x - 3.0, y: y - 1.2, width: 6.0, height: 2.4 }, Stroke::Line);
    element.line(&[[x - 1.8, y + 1.2], [x - 1.8, y + 3.0]], Stroke::Line);
    element.line(&[[x + 1.8, y + 1.2], [x + 1.8, y + 3.0]], Stroke::Line);
    tails(element, [x, y], 3.0);
}

fn plug(element: &mut Element, [x, y]: [f64; 2]) {
    element.line(&[[x - HALF, y], [x - 1.4, y]], Stroke::Line);
    element.line(&[[x + 1.0, y - 2.0], [x - 1.4, y], [x + 1.0, y + 2.0]], Stroke::Line);
    element.line(&[[x + 2.6, y - 2.0], [x + 0.2, y], [x + 2.6, y + 2.0]], Stroke::Line);
    element.line(&[[x + 0.2, y], [x + HALF, y]], Stroke::Line);
}

fn lamp(element: &mut Element, [x, y]: [f64; 2]) {
    let (radius, across) = (3.0, 2.12);
    element.circle([x, y], radius, Stroke::Line);
    element.line(&[[x - across, y - across], [x + across, y + across]], Stroke::Line);
    element.line(&[[x - across, y + across], [x + across, y - across]], Stroke::Line);
    tails(element, [x, y], radius);
}

fn heater(element: &mut Element, [x, y]: [f64; 2]) {
    element.rectangle(Bounds { x: x - HALF, y: y - 1.8, width: 2.0 * HALF, height: 3.6 }, Stroke::Line);
    for place in [-2.0, 0.0, 2.0] {
        element.line(&[[x + place, y - 1.8], [x + place, y + 1.8]], Stroke::Line);
    }
}

fn converter(element: &mut Element, [x, y]: [f64; 2], from: &str, to: &str) {
    block(element, [x, y]);
    element.line(&[[x - HALF, y + HALF_HEIGHT], [x + HALF, y - HALF_HEIGHT]], Stroke::Line);
    inner(element, [x - 1.9, y - 1.5], from);
    inner(element, [x + 1.9, y + 1.5], to);
}

fn solar(element: &mut Element, [x, y]: [f64; 2]) {
    block(element, [x, y]);
    element.line(&[[x - HALF, y - HALF_HEIGHT], [x, y], [x - HALF, y + HALF_HEIGHT]], Stroke::Line);
}

fn outlet(element: &mut Element, [x, y]: [f64; 2]) {
    let radius = 2.8;
    // A half circle, open to the right, by its chords.
    let points: Vec<[f64; 2]> = (0..=12)
        .map(|step| {
            let angle = std::f64::consts::FRAC_PI_2 + std::f64::consts::PI * f64::from(step) / 12.0;
            [x + 1.0 + radius * angle.cos(), y + radius * angle.sin()]
        })
        .collect();
    element.line(&points, Stroke::Line);
    element.line(&[[x - HALF, y], [x + 1.0 - radius, y]], Stroke::Line);
    element.line(&[[x + 1.0, y - radius - 0.6], [x + 1.0, y + radius + 0.6]], Stroke::Thick);
}

fn transformer(element: &mut Element, [x, y]: [f64; 2]) {
    element.circle([x - 1.4, y], 2.4, Stroke::Line);
    element.circle([x + 1.4, y], 2.4, Stroke::Line);
    tails(element, [x, y], 3.8);
}
