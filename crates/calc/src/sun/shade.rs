//! Shade of what stands beside modules, by plane geometry.

/// How high the sun has to stand above the horizon, rad, to shine over an edge that is `height` m above the modules and `distance` m
/// from them in plan: the arc tangent of one over the other; 0 where the edge is no higher than they are. `None` for a distance below zero
/// and for what is no finite number.
#[must_use]
pub fn clearing_angle(height: f64, distance: f64) -> Option<f64> {
    (height.is_finite() && distance.is_finite() && distance >= 0.0).then(|| height.max(0.0).atan2(distance))
}
