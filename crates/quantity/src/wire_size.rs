//! Conductor sizes: American wire gauge and square millimetres, two systems compared by copper area.
//!
//! Geometry of the gauge: ASTM B258, d = 0.127 mm · 92^((36 − n)/39) with n = 0, −1, −2, −3 for 1/0, 2/0, 3/0, 4/0 (formula
//! from memory; it agrees with the circular mils of NEC chapter 9 table 8 within 0.1 %). The area is that of the copper,
//! π d²/4.

use std::cmp::Ordering;

use crate::Misread;
use crate::misread::settle;
use crate::read::content;
use crate::wire_reading::{self, CORES_HINT, SIZE_HINT};

/// The diameter of 36 AWG in metres (ASTM B258).
const GAUGE_36_DIAMETER: f64 = 0.127e-3;
/// The ratio of the diameters of 4/0 AWG and 36 AWG, 39 steps apart (ASTM B258).
const GAUGE_RATIO: f64 = 92.0;
const GAUGE_STEPS: f64 = 39.0;
const SQUARE_MILLIMETRE: f64 = 1e-6;

/// The size of a conductor.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum WireSize {
    /// American wire gauge: 18 and so on; 0 = 1/0, -1 = 2/0, -2 = 3/0, -3 = 4/0.
    Awg(i8),
    /// Copper cross-section.
    Metric {
        /// Square millimetres of copper.
        mm2: f64,
    },
}

impl WireSize {
    /// The area of copper in square metres.
    pub fn area(self) -> f64 {
        match self {
            Self::Awg(gauge) => {
                let diameter = GAUGE_36_DIAMETER * GAUGE_RATIO.powf((36.0 - f64::from(gauge)) / GAUGE_STEPS);
                std::f64::consts::PI * diameter * diameter / 4.0
            }
            Self::Metric { mm2 } => mm2 * SQUARE_MILLIMETRE,
        }
    }

    /// The order by area of copper.
    pub fn compare(self, other: Self) -> Ordering {
        self.area().total_cmp(&other.area())
    }
}

/// The conductors of a cable.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Cores {
    /// How many conductors.
    pub count: u16,
    /// The size of each.
    pub size: WireSize,
}

/// Reads a conductor size: "35 mm2", "6 AWG", "2/0 AWG".
///
/// # Errors
/// A `Misread` for anything that leaves the copper area open: a bare number, a diameter in mm (auto cable), an SAE or
/// unnamed gauge; and for sizes at or below 0.
pub fn read_wire_size(text: &str) -> Result<WireSize, Misread> {
    let once = |text: &str| {
        let within = content(text, || SIZE_HINT.to_owned())?;
        wire_reading::size_in(text, within)
    };
    once(text).map_err(|misread| settle(misread, |mended| once(mended).err()))
}

/// Reads the conductors of a cable: "3 x 2.5 mm2", "2 x 10 AWG".
///
/// # Errors
/// Those of `read_wire_size`, and a missing or impossible count.
pub fn read_cores(text: &str) -> Result<Cores, Misread> {
    let once = |text: &str| {
        let within = content(text, || CORES_HINT.to_owned())?;
        wire_reading::cores_in(text, within)
    };
    once(text).map_err(|misread| settle(misread, |mended| once(mended).err()))
}
