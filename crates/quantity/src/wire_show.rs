//! Printing of conductor sizes in the reader's system.
//!
//! Standard sizes: IEC 60228 nominal cross-sections 0.5 to 300 mm² (from memory); AWG sizes of NEC chapter 9 table 8 from 18
//! to 4/0, with the thinner even ones.

use std::cmp::Ordering;

use crate::numeral::{print, tidy, to_digits};
use crate::{System, WireSize};

const METRIC_SIZES: [f64; 19] =
    [0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0, 95.0, 120.0, 150.0, 185.0, 240.0, 300.0];
const GAUGES: [i8; 18] = [24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3];
const MM2_PER_SQUARE_METRE: f64 = 1e6;
/// Sizes this near are called equal (chosen; drawing tolerances of wire are larger).
const EQUAL_RATIO: f64 = 1.005;
/// An area this near to a gauge is that gauge: texts give the gauges' areas to two or three digits.
const GAUGE_RATIO: f64 = 1.01;
/// The digits of an area that was worked out.
const AREA_DIGITS: usize = 3;
/// A size further off than this is no help to a reader (chosen: more than a step between standard sizes).
const NEAR_RATIO: f64 = 1.5;

fn mm2(size: WireSize) -> String {
    match size {
        WireSize::Metric { mm2 } => format!("{} mm²", print(tidy(mm2))),
        WireSize::Awg(_) => {
            const DIGITS: usize = 3;
            format!("{} mm²", print(to_digits(size.area() * MM2_PER_SQUARE_METRE, DIGITS)))
        }
    }
}

fn own_name(size: WireSize) -> String {
    match size {
        WireSize::Awg(gauge) if gauge <= 0 => format!("{}/0 AWG", 1 - i16::from(gauge)),
        WireSize::Awg(gauge) => format!("{gauge} AWG"),
        WireSize::Metric { .. } => mm2(size),
    }
}

/// How far two sizes are apart, as a ratio of their areas that is 1 or more.
fn ratio(one: WireSize, other: WireSize) -> f64 {
    let ratio = one.area() / other.area();
    ratio.max(1.0 / ratio)
}

/// Prints the area of a conductor that was worked out or is asked for, in square metres: by its gauge where the reader's
/// system names it so and a gauge has this area, else in mm², which every market reads: "16 AWG", "1.2 mm²".
pub fn show_conductor_area(area: f64, system: System) -> String {
    let own = WireSize::Metric { mm2: to_digits(area * MM2_PER_SQUARE_METRE, AREA_DIGITS) };
    let gauge = GAUGES.map(WireSize::Awg).into_iter().find(|gauge| ratio(*gauge, own) <= GAUGE_RATIO);
    match (system, gauge) {
        (System::UsCustomary, Some(gauge)) => own_name(gauge),
        _ => own_name(own),
    }
}

/// A conductor size as a specification has it: "2.5 mm2", "2/0 AWG".
pub fn write_wire_size(size: WireSize) -> String {
    own_name(size).replace('²', "2")
}

/// The standard sizes of the same system with more copper than a size has, the smallest first.
pub fn larger_sizes(size: WireSize) -> impl Iterator<Item = WireSize> {
    let (gauges, metric) = match size {
        WireSize::Awg(_) => (&GAUGES[..], &[][..]),
        WireSize::Metric { .. } => (&[][..], &METRIC_SIZES[..]),
    };
    let all =
        gauges.iter().map(|gauge| WireSize::Awg(*gauge)).chain(metric.iter().map(|mm2| WireSize::Metric { mm2: *mm2 }));
    all.filter(move |larger| larger.compare(size) == Ordering::Greater)
}

/// Prints a conductor size. In a reader's other system the nearest standard size follows, and whether it has less copper:
/// "35 mm² (nearest AWG: 2 AWG, 33.6 mm², smaller)".
pub fn show_wire_size(size: WireSize, system: System) -> String {
    let (named, candidates): (&str, Vec<WireSize>) = match (size, system) {
        (WireSize::Awg(_), System::UsCustomary) | (WireSize::Metric { .. }, System::Metric) => {
            return own_name(size);
        }
        (WireSize::Metric { .. }, System::UsCustomary) => ("nearest AWG", GAUGES.map(WireSize::Awg).to_vec()),
        (WireSize::Awg(_), System::Metric) => {
            ("nearest metric size", METRIC_SIZES.map(|mm2| WireSize::Metric { mm2 }).to_vec())
        }
    };
    let nearest = candidates
        .into_iter()
        .min_by(|one, other| ratio(*one, size).total_cmp(&ratio(*other, size)))
        .filter(|candidate| ratio(*candidate, size) <= NEAR_RATIO);
    let own = match size {
        WireSize::Awg(_) => format!("{}, {}", own_name(size), mm2(size)),
        WireSize::Metric { .. } => own_name(size),
    };
    let Some(nearest) = nearest else {
        return format!("{own} (no standard size near it in the other system)");
    };
    let relation = if ratio(nearest, size) <= EQUAL_RATIO {
        "as large"
    } else {
        match nearest.compare(size) {
            Ordering::Less => "smaller",
            _ => "larger",
        }
    };
    match nearest {
        WireSize::Awg(_) => format!("{own} ({named}: {}, {}, {relation})", own_name(nearest), mm2(nearest)),
        WireSize::Metric { .. } => format!("{own} ({named}: {}, {relation})", own_name(nearest)),
    }
}
