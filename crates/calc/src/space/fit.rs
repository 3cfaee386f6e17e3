//! Does a body's outline pass through an opening?
//!
//! All outlines here are convex and look the same when turned by half a turn. If such an outline fits into another at all, it fits with
//! both centres together (it fits as much to one side as to the other, hence in the middle), so that only the turning is to be found.
//!
//! * Rectangle in rectangle: exact. The condition is Carver's (Solution to Problem E 1225, American Mathematical Monthly 64, 1957,
//!   114–116; second-hand, as quoted from Wetzel, "Rectangles in Rectangles", Mathematics Magazine 73, 2000, 204–211): with p ≥ q in
//!   a ≥ b, either p ≤ a and q ≤ b, or q ≤ b and b ≥ (2pqa + (p² − q²)·√(p² + q² − a²))/(p² + q²). Its limit is the turning at which
//!   both pairs of sides are met at once, which also gives the largest scale.
//! * Ellipse in rectangle: exact. Turned by θ, half axes u ≥ v reach √(u²cos²θ + v²sin²θ) and √(u²sin²θ + v²cos²θ); the squares add
//!   up to u² + v², so that a θ exists where v ≤ b and u² + v² ≤ a² + b².
//! * Rectangle or ellipse in ellipse: exact, long axis along long axis.
//! * Anything in a rectangle with rounded corners: by search over the turning, to [`FIT_TOLERANCE`].

use glam::DVec2;

use super::Outline;
use super::outline::Form;
use super::rounded;

/// How an outline may be turned on its way through an opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Turning {
    /// In any direction.
    Any,
    /// Not at all: its width stays along the opening's width.
    Level,
}

/// Part of the scale by which the search for openings with rounded corners may fall short; it never exceeds the truth by more than
/// rounding. The other cases are exact.
pub const FIT_TOLERANCE: f64 = 1e-6;

/// What is equal in the drawing may differ by this part in binary numbers: 600 mm passes through 600 mm. Chosen.
const ROUNDING: f64 = 1e-9;

/// True where the outline `body` passes through the opening.
#[must_use]
pub fn passes(body: &Outline, opening: &Outline, turning: Turning) -> bool {
    let fits = |opening: &Outline, turning| largest_scale(body, opening, turning) >= 1.0 - ROUNDING;
    if turning == Turning::Level || fits(opening, Turning::Level) {
        return fits(opening, Turning::Level);
    }
    // What does not pass while the corners are sharp needs no search with rounded ones.
    let sharp = match opening.form {
        Form::Rectangle { .. } => Outline { form: Form::Rectangle { radius: 0.0 }, ..*opening },
        Form::Ellipse => *opening,
    };
    fits(&sharp, Turning::Any) && (sharp == *opening || fits(opening, Turning::Any))
}

/// The greatest factor by which `body` could be enlarged and still pass through the opening; below 1 where it does not pass.
#[must_use]
pub fn largest_scale(body: &Outline, opening: &Outline, turning: Turning) -> f64 {
    let level = turning == Turning::Level;
    match (body.form, opening.form) {
        (Form::Rectangle { radius }, Form::Rectangle { radius: of_opening }) if radius > 0.0 || of_opening > 0.0 => {
            rounded::largest_scale(body, opening.half, of_opening, level)
        }
        (Form::Ellipse, Form::Rectangle { radius }) if radius > 0.0 => {
            rounded::largest_scale(body, opening.half, radius, level)
        }
        (Form::Rectangle { radius }, Form::Ellipse) if radius > 0.0 => rounded::in_ellipse(body, opening.half, level),
        (_, Form::Rectangle { .. }) if level => (opening.half / body.half).min_element(),
        (Form::Rectangle { .. }, Form::Rectangle { .. }) => {
            rectangle_in_rectangle(long_first(body.half), long_first(opening.half))
        }
        (Form::Ellipse, Form::Rectangle { .. }) => {
            let (axes, room) = (long_first(body.half), long_first(opening.half));
            (room.y / axes.y).min(room.length() / axes.length())
        }
        (form, Form::Ellipse) => {
            let order = |half: DVec2| if level { half } else { long_first(half) };
            let share = order(body.half) / order(opening.half);
            match form {
                Form::Rectangle { .. } => share.length().recip(),
                Form::Ellipse => share.max_element().recip(),
            }
        }
    }
}

fn long_first(half: DVec2) -> DVec2 {
    DVec2::new(half.max_element(), half.min_element())
}

/// Half sides, the longer first.
fn rectangle_in_rectangle(body: DVec2, room: DVec2) -> f64 {
    // Turned by θ the body reaches p·cos θ + q·sin θ and p·sin θ + q·cos θ. Lying straight it meets one pair of sides first; turned it
    // is largest where it meets both at once: a·(p·sin θ + q·cos θ) = b·(p·cos θ + q·sin θ).
    let straight = (room / body).min_element();
    let turn = DVec2::new(room.x * body.x - room.y * body.y, room.y * body.x - room.x * body.y);
    if turn.x <= 0.0 || turn.y <= 0.0 {
        return straight;
    }
    let turn = turn.normalize();
    straight.max(room.x / body.dot(turn))
}
