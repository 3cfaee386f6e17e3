//! Copper conductors: the American wire gauge, and resistance by size, build and temperature.

use std::f64::consts::FRAC_PI_4;

use crate::citation::Citation;
use crate::tables::{iec_60228, nec_chapter9_table8};
use crate::temperature::CELSIUS_ZERO;

/// Resistivity of annealed copper at 20 °C, Ω·m (100 % IACS, textbook value, from memory; it reproduces NEC chapter 9 table 8).
pub(crate) const COPPER_RESISTIVITY_20C: f64 = 1.7241e-8;

/// Temperature coefficient of the resistance of copper from 20 °C, 1/K (100 % IACS, textbook value, from memory).
pub(crate) const COPPER_COEFFICIENT_20C: f64 = 0.003_93;

/// Reference temperature of both constants, K.
const REFERENCE_KELVIN: f64 = 20.0 + CELSIUS_ZERO;

/// A given area counts as a table row within this part of the row's area. Chosen: the steps of every table are above 10 %.
pub(crate) const SAME_AREA: f64 = 0.005;

/// Square millimetres in a square metre.
pub(crate) const MM2_PER_M2: f64 = 1e6;

/// Circular mils to m²: the square of 25.4 µm times π/4.
pub(crate) const M2_PER_CIRCULAR_MIL: f64 = 25.4e-6 * 25.4e-6 * FRAC_PI_4;

// ASTM B258: d = 0.127 mm × 92^((36 − n)/39).
const AWG_36_DIAMETER: f64 = 0.127e-3;
const AWG_RATIO: f64 = 92.0;
const AWG_STEPS: f64 = 39.0;
const AWG_BASE: f64 = 36.0;

/// Diameter of a solid wire of gauge `n`, m; 1/0 is 0, 2/0 is −1, 3/0 is −2, 4/0 is −3.
///
/// d = 0.127 mm · 92^((36 − n)/39), ASTM B258 (formula from memory, agrees with the circular mils of NEC chapter 9 table 8).
/// Finite for every `n`; a gauge that nobody makes gets the number the formula gives.
#[must_use]
pub fn awg_diameter(n: i8) -> f64 {
    AWG_36_DIAMETER * AWG_RATIO.powf((AWG_BASE - f64::from(n)) / AWG_STEPS)
}

/// Copper area of gauge `n`, m²: π d²/4 with the diameter of [`awg_diameter`].
#[must_use]
pub fn awg_area(n: i8) -> f64 {
    let diameter = awg_diameter(n);
    FRAC_PI_4 * diameter * diameter
}

/// How a conductor is built (the classes of IEC 60228).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Stranding {
    /// Class 1: one wire.
    Solid,
    /// Class 2: stranded for fixed wiring.
    Stranded,
    /// Class 5: flexible.
    Flexible,
}

/// A conductor's size, in the system in which it was written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ConductorSize {
    /// American wire gauge; 1/0 is 0, 4/0 is −3.
    Awg(i8),
    /// Nominal copper area, m².
    Area(f64),
}

impl ConductorSize {
    /// Copper area, m². An area that was given is returned as it is, even where it is no usable number.
    #[must_use]
    pub fn area(self) -> f64 {
        match self {
            ConductorSize::Awg(n) => awg_area(n),
            ConductorSize::Area(area) => area,
        }
    }
}

/// Resistance of one conductor (not of the pair).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Resistance {
    /// Ω/m at 20 °C. Not a number where the area is not a positive finite number.
    pub ohm_per_metre_20c: f64,
    /// How it was found, in one line for the working.
    pub how: &'static str,
    /// The table behind it.
    pub citation: &'static Citation,
}

/// Direct-current resistance of a copper conductor, Ω/m at 20 °C.
///
/// * An area in m²: the largest permitted resistance of IEC 60228 (plain copper; class 1/2 for solid and stranded, class 5/6 for
///   flexible). Between the rows: R = ρ·f/A with ρ = 1.7241e-8 Ω·m and the lay factor f interpolated over the logarithm of the
///   area; outside them with the factor of the end row.
/// * A gauge: NEC chapter 9 table 8 at 75 °C, brought to 20 °C with 0.00393 /K; flexible cores take the stranded values, a few
///   percent low for rope-lay cable. Gauges that the table lacks: ρ·f/A from the area of ASTM B258 in the same way.
#[must_use]
pub fn resistance_per_metre(size: ConductorSize, stranding: Stranding) -> Resistance {
    match size {
        ConductorSize::Awg(n) => by_gauge(n, stranding),
        ConductorSize::Area(area) => by_area(area, stranding),
    }
}

fn by_area(area: f64, stranding: Stranding) -> Resistance {
    let (rows, how_row, how_between): (&[(f64, f64)], _, _) = match stranding {
        Stranding::Solid | Stranding::Stranded => (
            &iec_60228::CLASS_1_2,
            "largest resistance at 20 °C, class 1/2, plain copper",
            "copper at 20 °C with the class 1/2 lay factor between the rows of the table",
        ),
        Stranding::Flexible => (
            &iec_60228::CLASS_5_6,
            "largest resistance at 20 °C, class 5/6, plain copper",
            "copper at 20 °C with the class 5 lay factor between the rows of the table",
        ),
    };
    let points = rows.iter().map(|&(mm2, ohm_per_km)| (mm2 / MM2_PER_M2, ohm_per_km / 1e3));
    let (value, in_table) = from_rows(area, points);
    if in_table {
        Resistance { ohm_per_metre_20c: value, how: how_row, citation: &iec_60228::CITATION }
    } else {
        Resistance { ohm_per_metre_20c: value, how: how_between, citation: &iec_60228::BETWEEN }
    }
}

fn by_gauge(n: i8, stranding: Stranding) -> Resistance {
    let (rows, how_row): (&[(i8, f64)], _) = match stranding {
        Stranding::Solid => (&nec_chapter9_table8::SOLID, "solid copper at 75 °C, brought to 20 °C"),
        Stranding::Stranded => (&nec_chapter9_table8::STRANDED, "stranded copper at 75 °C, brought to 20 °C"),
        Stranding::Flexible => (
            &nec_chapter9_table8::STRANDED,
            "stranded copper at 75 °C, brought to 20 °C; rope-lay flexible cable a few percent above",
        ),
    };
    let hot = 1.0 + COPPER_COEFFICIENT_20C * (nec_chapter9_table8::CELSIUS - 20.0);
    if let Some(&(_, ohm_per_kft)) = rows.iter().find(|row| row.0 == n) {
        let ohm_per_metre_20c = ohm_per_kft / nec_chapter9_table8::METRES_PER_1000_FEET / hot;
        return Resistance { ohm_per_metre_20c, how: how_row, citation: &nec_chapter9_table8::CITATION };
    }
    let area = awg_area(n);
    let (value, how) = match stranding {
        // A single wire has no lay: the formula is exact, and gives the table's solid rows within 0.3 %.
        Stranding::Solid => (COPPER_RESISTIVITY_20C / area, "solid copper at 20 °C over the area of the gauge"),
        Stranding::Stranded | Stranding::Flexible => {
            let points =
                rows.iter().map(|&(n, ohm)| (awg_area(n), ohm / nec_chapter9_table8::METRES_PER_1000_FEET / hot));
            (
                from_rows(area, points).0,
                "copper at 20 °C over the area of the gauge, with the lay factor of the nearest rows",
            )
        }
    };
    Resistance { ohm_per_metre_20c: value, how, citation: &nec_chapter9_table8::BETWEEN }
}

/// Resistance at `area` from rows (area, Ω/m) in rising order of area, and whether a row was met.
fn from_rows(area: f64, rows: impl Iterator<Item = (f64, f64)>) -> (f64, bool) {
    if !(area.is_finite() && area > 0.0) {
        return (f64::NAN, false);
    }
    let mut below: Option<(f64, f64)> = None;
    for (row_area, ohm_per_metre) in rows {
        if (area - row_area).abs() <= SAME_AREA * row_area {
            return (ohm_per_metre, true);
        }
        let factor = ohm_per_metre * row_area / COPPER_RESISTIVITY_20C;
        if row_area > area {
            let lay_factor = match below {
                None => factor,
                Some((low_area, low_factor)) => {
                    let share = (area / low_area).ln() / (row_area / low_area).ln();
                    low_factor + (factor - low_factor) * share
                }
            };
            return (COPPER_RESISTIVITY_20C * lay_factor / area, false);
        }
        below = Some((row_area, factor));
    }
    let lay_factor = below.map_or(1.0, |(_, factor)| factor);
    (COPPER_RESISTIVITY_20C * lay_factor / area, false)
}

/// Resistance of copper at another temperature: R = R20·(1 + 0.00393·(T − 293.15 K)), in the unit of `r20`.
///
/// Linear and meant for −50 to 250 °C; below about 39 K it would turn negative and 0 is returned. Not a number stays so.
#[must_use]
pub fn at_temperature(r20: f64, kelvin: f64) -> f64 {
    let factor = 1.0 + COPPER_COEFFICIENT_20C * (kelvin - REFERENCE_KELVIN);
    if factor < 0.0 { 0.0 } else { r20 * factor }
}
