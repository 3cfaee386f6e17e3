//! Where one thing lies relative to another.

use super::{Cuboid, Side, Skin};

/// How far to the side something may be and still count as above or below.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reach {
    /// Within this horizontal distance, m. Zero: straight above or below in part.
    Horizontal(f64),
    /// Within a cone that widens by this angle from the vertical, rad, measured from what is reached from. An angle that is not between 0 and
    /// a right angle reaches straight up only (below 0) or everything above (a right angle and more).
    Cone(f64),
}

/// True where `upper` lies above `lower` (its underside is not lower than the top of `lower`) within reach of it. A number in the reach
/// that is not a number reaches nothing.
#[must_use]
pub fn is_above(upper: &Cuboid, lower: &Cuboid, reach: Reach) -> bool {
    if upper.least.z < lower.most.z {
        return false;
    }
    let aside = upper.horizontal_gap(lower);
    match reach {
        Reach::Horizontal(most) => aside <= most.max(0.0) && !most.is_nan(),
        Reach::Cone(angle) if angle >= std::f64::consts::FRAC_PI_2 => true,
        Reach::Cone(angle) if angle.is_nan() => false,
        Reach::Cone(angle) => {
            // What is above reaches up to its own top: the cone is as wide as it gets there.
            let rise = upper.most.z - lower.most.z;
            aside <= rise * angle.max(0.0).tan()
        }
    }
}

/// True where `lower` lies below `upper` within reach of it: [`is_above`] with the cone opening downward from `upper`.
#[must_use]
pub fn is_below(lower: &Cuboid, upper: &Cuboid, reach: Reach) -> bool {
    let turned = |of: &Cuboid| Cuboid { least: of.least.with_z(-of.most.z), most: of.most.with_z(-of.least.z) };
    is_above(&turned(lower), &turned(upper), reach)
}

/// The side of the body that both stand at (or stick out of), where it is the same; `None` where they are at different sides.
///
/// A thing stands at the side whose plane is nearest to its middle.
#[must_use]
pub fn same_side(body: &Skin, one: &Cuboid, other: &Cuboid) -> Option<Side> {
    let side = body.side_of(one);
    (side == body.side_of(other)).then_some(side)
}
