//! What is stored in the batteries over the design week, as a curve for each season.

use super::text::{Anchor, Label};
use super::{Bounds, Drawing, Element, Stroke};
use crate::LeftOut;
use crate::desk::Desk;
use crate::sheets::{Season, seasons};
use crate::words::week as words;
use design::WeekCurve;

/// Width and height of the sheet, mm.
const PAGE: [f64; 2] = [330.0, 140.0];
/// The field of the curve, mm.
const FIELD: Bounds = Bounds { x: 22.0, y: 16.0, width: 300.0, height: 102.0 };
/// Height of the letters, mm.
const TYPE: f64 = 3.0;
/// Hours of the week.
const HOURS: f64 = 168.0;
const HOURS_OF_DAY: f64 = 24.0;
const SECONDS_OF_HOUR: f64 = 3_600.0;
/// Lines across the field stand at these shares.
const SHARES: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];
/// Curves that differ by less than this are one: a line's width.
const SAME: f64 = 0.004;

/// The curve of every season, and what is left out.
pub fn drawings(desk: &mut Desk<'_, '_>) -> (Vec<Drawing>, Vec<LeftOut>) {
    let mut drawings = Vec::new();
    let mut left_out = Vec::new();
    let seasons = seasons(desk);
    if seasons.is_empty() {
        left_out.push(super::out(words::CURVE, words::NO_WEEK));
    }
    for season in seasons {
        match desk.reader.week_curve(season.week, season.case) {
            Ok([Some(worst), best]) => drawings.push(drawing(&season, &worst, best.as_ref())),
            // Without a bound at the worst only the best is told, and that would mislead.
            _ => left_out.push(super::out(&format!("{}: {}", words::CURVE, season.title), words::CURVE_UNKNOWN)),
        }
    }
    (drawings, left_out)
}

fn drawing(season: &Season, worst: &WeekCurve, best: Option<&WeekCurve>) -> Drawing {
    let climate = if worst.season.is_empty() { "year" } else { &worst.season };
    let id = match season.bank {
        0 => format!("charge-{climate}"),
        bank => format!("charge-{climate}-{}", bank + 1),
    };
    let best = best.filter(|best| differs(worst, best));
    let mut elements = vec![grid(), days(worst.begins)];
    let title = if best.is_some() { words::WORST_OF_TWO } else { words::WORST };
    elements.push(curve(&worst.state_of_charge, Stroke::Thick, title, 0));
    if let Some(best) = best {
        elements.push(curve(&best.state_of_charge, Stroke::Line, words::BEST, 1));
    }
    if let Some(floor) = floor(worst) {
        elements.push(cut(floor));
    }
    Drawing {
        id,
        title: words::CURVE,
        part_title: season.title.clone(),
        purpose: words::CURVE_PURPOSE,
        width: PAGE[0],
        height: PAGE[1],
        step: None,
        elements,
        notes: vec![words::CURVE_NOTE.to_owned()],
    }
}

fn differs(one: &WeekCurve, other: &WeekCurve) -> bool {
    let pairs = one.state_of_charge.iter().zip(&other.state_of_charge);
    pairs.into_iter().any(|(one, other)| (one - other).abs() > SAME)
}

fn x(hour: f64) -> f64 {
    FIELD.x + FIELD.width * hour / HOURS
}

fn y(share: f64) -> f64 {
    FIELD.y + FIELD.height * (1.0 - share.clamp(0.0, 1.0))
}

/// The field, with lines at the quarters.
fn grid() -> Element {
    let mut element = Element::of(None);
    element.rectangle(FIELD, Stroke::Line);
    for share in SHARES {
        if share > 0.0 && share < 1.0 {
            element.line(&[[FIELD.x, y(share)], [FIELD.x + FIELD.width, y(share)]], Stroke::Fine);
        }
        let text = format!("{:.0} %", share * 100.0);
        element.labels.push(Label::fitted(&text, [4.0, y(share) + 1.0], TYPE, Anchor::Start, FIELD.x - 5.0));
    }
    element
}

/// The midnights, and the days between them.
fn days(begins: f64) -> Element {
    let mut element = Element::of(None);
    let first = HOURS_OF_DAY - begins / SECONDS_OF_HOUR;
    let low = FIELD.y + FIELD.height;
    for day in 0..7 {
        let midnight = first + f64::from(day) * HOURS_OF_DAY;
        if midnight <= 0.0 || midnight >= HOURS {
            continue;
        }
        element.line(&[[x(midnight), FIELD.y], [x(midnight), low]], Stroke::Fine);
        let noon = (midnight + HOURS_OF_DAY / 2.0).min(HOURS - HOURS_OF_DAY / 4.0);
        let text = format!("{} {}", words::DAY, day + 2);
        element.labels.push(Label::fitted(&text, [x(noon), low + 6.0], TYPE, Anchor::Middle, 30.0));
    }
    element
}

/// A curve, told above the field with a piece of its line.
fn curve(shares: &[f64], stroke: Stroke, title: &str, place: u8) -> Element {
    let mut element = Element::of(None);
    let steps = u32::try_from(shares.len().saturating_sub(1)).map_or(1.0, f64::from).max(1.0);
    let points: Vec<[f64; 2]> = shares
        .iter()
        .filter(|share| share.is_finite())
        .zip(0_u32..)
        .map(|(share, number)| [x(f64::from(number) * HOURS / steps), y(*share)])
        .collect();
    element.line(&points, stroke);
    let left = FIELD.x + f64::from(place) * 160.0;
    element.line(&[[left, 8.0], [left + 12.0, 8.0]], stroke);
    element.labels.push(Label::fitted(title, [left + 15.0, 9.0], TYPE, Anchor::Start, 140.0));
    element
}

/// The state of charge at which nothing usable is left: by the two measures at the hour at which least is left.
fn floor(curve: &WeekCurve) -> Option<f64> {
    /// Nearer to full than this the two measures say nothing of the floor.
    const NEAR_FULL: f64 = 0.95;
    let pairs = curve.state_of_charge.iter().zip(&curve.usable_left);
    let (charge, usable) = pairs.min_by(|one, other| one.1.total_cmp(other.1))?;
    let floor = (charge - usable) / (1.0 - usable);
    (*usable < NEAR_FULL && floor > SAME && floor < 1.0).then_some(floor)
}

/// Where loads are cut off.
fn cut(floor: f64) -> Element {
    let mut element = Element::of(None);
    let line = y(floor);
    element.line(&[[FIELD.x, line], [FIELD.x + FIELD.width, line]], Stroke::Dashed);
    let low = FIELD.y + FIELD.height;
    element.line(&[[FIELD.x + 2.0, low + 10.0], [FIELD.x + 14.0, low + 10.0]], Stroke::Dashed);
    let text = format!("{} ({:.0} %)", words::CUT, floor * 100.0);
    element.labels.push(Label::fitted(&text, [FIELD.x + 17.0, low + 11.0], TYPE, Anchor::Start, 120.0));
    element
}
