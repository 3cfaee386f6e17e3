//! Fuses and cables of a draft: a start that is on the safe side, for the builder to change.

/// A fuse with the copper that it protects.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Size {
    /// The fuse's rating, A.
    pub fuse: u32,
    /// The cable where sizes are metric.
    pub metric: &'static str,
    /// The cable where sizes are American.
    pub american: &'static str,
}

/// Ratings of class T fuses with a cable whose ampacity is above each: 105 °C insulation in air of 50 °C or less, not
/// bundled, by 33 CFR 183.425 Table 5 (read; American sizes; metric ones by copper area). The sizes are chosen.
const SIZES: &[Size] = &[
    Size { fuse: 30, metric: "6 mm2", american: "8 AWG" },
    Size { fuse: 40, metric: "10 mm2", american: "8 AWG" },
    Size { fuse: 60, metric: "16 mm2", american: "6 AWG" },
    Size { fuse: 80, metric: "25 mm2", american: "4 AWG" },
    Size { fuse: 100, metric: "35 mm2", american: "2 AWG" },
    Size { fuse: 125, metric: "35 mm2", american: "2 AWG" },
    Size { fuse: 150, metric: "50 mm2", american: "1 AWG" },
    Size { fuse: 200, metric: "70 mm2", american: "2/0 AWG" },
    Size { fuse: 250, metric: "95 mm2", american: "3/0 AWG" },
    Size { fuse: 300, metric: "95 mm2", american: "4/0 AWG" },
    Size { fuse: 400, metric: "120 mm2", american: "4/0 AWG" },
];

/// A fuse is not loaded with more than this part of its rating for long: fact of the trade, no source.
const LOADED: f64 = 0.8;

/// The smallest size for a current, A; the largest when none is large enough, which the limits of the answers rule out.
pub fn size(current: f64) -> Size {
    let fits = SIZES.iter().find(|size| current <= LOADED * f64::from(size.fuse));
    fits.or(SIZES.last()).copied().unwrap_or(Size { fuse: 0, metric: "unknown", american: "unknown" })
}

/// What an inverter takes from the battery at its full power, A.
pub fn inverter_current(power: f64, voltage: f64) -> f64 {
    /// The lowest working voltage over the nominal one: 10.5 V of 12 V (lead), 11.2 V of 12.8 V (LFP). Chosen.
    const LOWEST: f64 = 0.875;
    /// Fact of the trade: 90 to 94 % near 30 to 60 % load (common practice, no source).
    const EFFICIENCY: f64 = 0.9;
    power / (voltage * LOWEST * EFFICIENCY)
}
