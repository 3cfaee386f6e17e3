//! Outlines with rounded corners: the largest scale by search over the turning.
//!
//! A convex outline fits into another about the same centre where it reaches no farther in any direction (its support function is nowhere
//! greater). The support of a rectangle with corners of radius r is (a − r)·|cos φ| + (b − r)·|sin φ| + r.

use std::f64::consts::{FRAC_PI_2, PI};

use glam::DVec2;

use super::Outline;
use super::outline::Form;

/// Directions and turnings that are tried before refining: one for each half degree. Chosen; tests compare with a denser search.
const TRIES: u32 = 180;
/// Steps of golden section; each leaves 0.618 of the interval, so that 48 leave less than 1e-9 of it.
const STEPS: u32 = 48;
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// How far an outline reaches in a direction.
fn support(outline: &Outline, direction: DVec2) -> f64 {
    match outline.form {
        Form::Rectangle { radius } => (outline.half - radius).dot(direction.abs()) + radius,
        Form::Ellipse => (outline.half * direction).length(),
    }
}

/// The least of a function over [from, to]: dense tries, each valley refined.
fn least(from: f64, to: f64, function: impl Fn(f64) -> f64) -> f64 {
    let step = (to - from) / f64::from(TRIES);
    let at = |index: u32| from + step * f64::from(index);
    let values: Vec<f64> = (0..=TRIES).map(|index| function(at(index))).collect();
    let mut best = values.iter().copied().fold(f64::INFINITY, f64::min);
    for index in 0..=TRIES {
        let value = |index: u32| values.get(index as usize).copied().unwrap_or(f64::INFINITY);
        let before = index.checked_sub(1).map_or(f64::INFINITY, value);
        if value(index) <= before && value(index) <= value(index + 1) {
            best = best.min(refined(at(index.saturating_sub(1)), at((index + 1).min(TRIES)), &function));
        }
    }
    best
}

/// The least of a function with one valley, by golden section.
fn refined(mut from: f64, mut to: f64, function: &impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (to - GOLDEN * (to - from), from + GOLDEN * (to - from));
    let (mut at_low, mut at_high) = (function(low), function(high));
    let mut best = at_low.min(at_high);
    for _ in 0..STEPS {
        if at_low <= at_high {
            (to, high, at_high) = (high, low, at_low);
            low = to - GOLDEN * (to - from);
            at_low = function(low);
        } else {
            (from, low, at_low) = (low, high, at_high);
            high = from + GOLDEN * (to - from);
            at_high = function(high);
        }
        best = best.min(at_low.min(at_high));
    }
    best
}

/// The greatest of a function of the turning. A quarter turn to one side covers all: turning to the other side is its mirror image, and half a
/// turn changes nothing.
fn over_turnings(level: bool, function: impl Fn(DVec2) -> f64) -> f64 {
    if level { function(DVec2::X) } else { -least(0.0, FRAC_PI_2, |angle| -function(DVec2::from_angle(angle))) }
}

/// The largest scale at which `body` fits into a rectangle of these half sides with rounded corners.
pub(super) fn largest_scale(body: &Outline, half: DVec2, radius: f64, level: bool) -> f64 {
    let room = Outline { half, form: Form::Rectangle { radius } };
    match body.form {
        // Sharp corners: they alone decide, and the way from the centre to the edge is known.
        Form::Rectangle { radius: 0.0 } => over_turnings(level, |turn| {
            let corners = [body.half, DVec2::new(body.half.x, -body.half.y)];
            corners
                .into_iter()
                .map(|corner| along_ray(half, radius, turn.rotate(corner).abs()))
                .fold(f64::INFINITY, f64::min)
        }),
        _ => by_support(body, &room, level),
    }
}

/// The largest scale at which a rectangle with rounded corners fits into an ellipse of these half axes.
pub(super) fn in_ellipse(body: &Outline, half: DVec2, level: bool) -> f64 {
    by_support(body, &Outline { half, form: Form::Ellipse }, level)
}

fn by_support(body: &Outline, room: &Outline, level: bool) -> f64 {
    over_turnings(level, |turn| {
        least(0.0, PI, |angle| {
            let direction = DVec2::from_angle(angle);
            // The body turned one way meets what the direction turned the other way meets.
            support(room, direction) / support(body, DVec2::new(turn.x, -turn.y).rotate(direction))
        })
    })
}

/// The factor at which a point of the first quarter meets the edge of a rectangle of these half sides with rounded corners.
fn along_ray(half: DVec2, radius: f64, point: DVec2) -> f64 {
    let straight = (half / point).min_element();
    let core = half - radius;
    if (point * straight).cmpgt(core).all() {
        // |s·point − core| = radius, the farther of its two answers.
        let (a, half_b, c) = (point.length_squared(), point.dot(core), core.length_squared() - radius * radius);
        return (half_b + (half_b * half_b - a * c).max(0.0).sqrt()) / a;
    }
    straight
}
