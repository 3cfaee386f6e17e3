//! Outlines: of an opening, and of what has to pass through it.

use glam::DVec2;

use super::error::{extent, size};
use super::{SpaceError, ellipse};

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Form {
    /// A rectangle whose corners have this radius, m; zero for sharp corners.
    Rectangle {
        radius: f64,
    },
    Ellipse,
}

/// A rectangle (its corners sharp or rounded) or an ellipse, with a width and a height, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outline {
    /// Half the width and half the height, m.
    pub(super) half: DVec2,
    pub(super) form: Form,
}

impl Outline {
    /// A rectangle, m.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`], [`SpaceError::Negative`] and [`SpaceError::Zero`].
    pub fn rectangle(width: f64, height: f64) -> Result<Self, SpaceError> {
        Outline::rounded(width, height, 0.0)
    }

    /// A rectangle with rounded corners, m.
    ///
    /// # Errors
    /// As [`Outline::rectangle`]; [`SpaceError::RadiusTooLarge`].
    pub fn rounded(width: f64, height: f64, radius: f64) -> Result<Self, SpaceError> {
        let half = halves(width, height)?;
        let radius = size(radius, "corner radius")?;
        let largest = half.min_element();
        if radius > largest {
            return Err(SpaceError::RadiusTooLarge { largest });
        }
        Ok(Outline { half, form: Form::Rectangle { radius } })
    }

    /// An ellipse by its two axes, m.
    ///
    /// # Errors
    /// As [`Outline::rectangle`].
    pub fn ellipse(width: f64, height: f64) -> Result<Self, SpaceError> {
        Ok(Outline { half: halves(width, height)?, form: Form::Ellipse })
    }

    /// Its width, m.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.half.x * 2.0
    }

    /// Its height, m.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.half.y * 2.0
    }

    /// Its clear area, m².
    #[must_use]
    pub fn area(&self) -> f64 {
        let box_area = self.half.element_product() * 4.0;
        match self.form {
            // Each corner loses a square of its radius and keeps a quarter of a circle.
            Form::Rectangle { radius } => box_area - (4.0 - std::f64::consts::PI) * radius * radius,
            Form::Ellipse => box_area * std::f64::consts::FRAC_PI_4,
        }
    }

    /// The point of the filled outline, seen from its centre, that is nearest to a point.
    pub(super) fn nearest(&self, point: DVec2) -> DVec2 {
        match self.form {
            Form::Rectangle { radius } => {
                let inner = self.half - radius;
                let core = point.clamp(-inner, inner);
                core + (point - core).clamp_length_max(radius)
            }
            Form::Ellipse => ellipse::nearest(self.half, point),
        }
    }
}

fn halves(width: f64, height: f64) -> Result<DVec2, SpaceError> {
    Ok(DVec2::new(extent(width, "width")?, extent(height, "height")?) / 2.0)
}
