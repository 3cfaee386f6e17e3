//! What cannot be reckoned with, and the checks of numbers.

use std::fmt;

/// Coordinates and sizes beyond this are refused, m. Chosen: a thousand kilometres, far above any vehicle and far below what would
/// overflow.
pub const FARTHEST: f64 = 1e6;

/// Why a question about space has no answer.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum SpaceError {
    /// The named value is not a finite number, or is beyond [`FARTHEST`].
    NotFinite(&'static str),
    /// The named size is below zero.
    Negative(&'static str),
    /// The named size is zero where something must have an extent.
    Zero(&'static str),
    /// A corner's radius is more than half of the shorter side; `largest` is the most it can be, m.
    RadiusTooLarge {
        /// Half of the shorter side, m.
        largest: f64,
    },
    /// The floor has no part.
    NoFloor,
    /// A way out that is not in a wall of the floor; `distance` to the nearest wall along which it runs, m (infinite: no such wall).
    NotInWall {
        /// How far off it is, m.
        distance: f64,
    },
    /// The grid would have more cells than `most`.
    TooManyCells {
        /// Cells that the floor would need.
        cells: f64,
        /// Cells that are allowed.
        most: f64,
    },
    /// Cells times obstacles are more than `most`.
    TooMuchWork {
        /// Cells times obstacles.
        work: f64,
        /// The most that is allowed.
        most: f64,
    },
    /// A clear width that the grid is too coarse for; `least` is the smallest width it can tell, m.
    TooCoarse {
        /// The smallest width that this grid can tell, m.
        least: f64,
    },
}

impl fmt::Display for SpaceError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SpaceError::NotFinite(what) => write!(out, "the {what} is not a number that a vehicle can have"),
            SpaceError::Negative(what) => write!(out, "the {what} is below zero"),
            SpaceError::Zero(what) => write!(out, "the {what} is zero"),
            SpaceError::RadiusTooLarge { largest } => {
                write!(out, "the corner radius is more than half of the shorter side, {largest} m")
            }
            SpaceError::NoFloor => write!(out, "there is no floor to walk on"),
            SpaceError::NotInWall { distance } => {
                write!(out, "the way out is not in a wall of the floor; the nearest is {distance} m away")
            }
            SpaceError::TooManyCells { cells, most } => {
                write!(out, "the floor would need {cells} cells, more than {most}: take a coarser grid")
            }
            SpaceError::TooMuchWork { work, most } => {
                write!(out, "{work} cells times obstacles are more than {most}: take a coarser grid")
            }
            SpaceError::TooCoarse { least } => write!(out, "this grid tells clear widths from {least} m on only"),
        }
    }
}

impl std::error::Error for SpaceError {}

/// A coordinate that can be reckoned with.
pub(super) fn coordinate(value: f64, what: &'static str) -> Result<f64, SpaceError> {
    // Zero is added so that -0.0 becomes 0.0.
    if value.abs() <= FARTHEST { Ok(value + 0.0) } else { Err(SpaceError::NotFinite(what)) }
}

/// A size of zero or more.
pub(super) fn size(value: f64, what: &'static str) -> Result<f64, SpaceError> {
    if coordinate(value, what)? < 0.0 { Err(SpaceError::Negative(what)) } else { Ok(value + 0.0) }
}

/// A size above zero.
pub(super) fn extent(value: f64, what: &'static str) -> Result<f64, SpaceError> {
    if size(value, what)? > 0.0 { Ok(value) } else { Err(SpaceError::Zero(what)) }
}
