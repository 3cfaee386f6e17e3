//! How the current of an element follows from the voltage across it.

use super::input::{Load, Part};
use super::{JOINT_OHMS, LEAST_INNER_OHMS};

/// Conductance of a source or a one-way element beyond its bounds, S, so that every node hangs on something: 12 V drive 0.12 µA through it.
/// It is not part of the currents that are told. Chosen.
pub(super) const LEAK: f64 = 1e-8;

/// A constant current is drawn in full from this share of the largest source voltage up, and from this many volts. Chosen: far below what
/// any load runs at.
const FULL_AT: f64 = 1e-3;
const LEAST_FULL_AT: f64 = 1e-6;

/// A law of current over voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Law {
    /// Conductance, S.
    Conductance(f64),
    /// siemens·(u − volts), held between the two bounds, A.
    Held { siemens: f64, volts: f64, least: f64, most: f64 },
    /// Constant current, A, from `full_at` volts up; below it falls with the voltage to nothing, so that no load can drive the network.
    Current { amperes: f64, full_at: f64 },
    /// Constant power, W.
    Power(f64),
    /// Nothing.
    Off,
}

impl Law {
    /// The law of a part, where the largest voltage of a source is `scale`, V.
    pub(super) fn of(part: &Part, scale: f64) -> Law {
        let full_at = (FULL_AT * scale).max(LEAST_FULL_AT);
        match *part {
            Part::Open => Law::Off,
            Part::Conductor { ohms } => Law::Conductance(1.0 / ohms),
            Part::OneWay { forward_volts, ohms } => Law::Held {
                siemens: 1.0 / ohms.max(LEAST_INNER_OHMS),
                volts: forward_volts,
                least: 0.0,
                most: f64::INFINITY,
            },
            Part::Source { volts, ohms, limit, gives_only } => Law::Held {
                siemens: 1.0 / ohms.max(LEAST_INNER_OHMS),
                volts,
                least: limit.map_or(f64::NEG_INFINITY, |limit| -limit),
                most: if gives_only { 0.0 } else { f64::INFINITY },
            },
            Part::Load { load: Load::Resistance(ohms), .. } => Law::Conductance(1.0 / ohms.max(JOINT_OHMS)),
            Part::Load { load: Load::Current(amperes), .. } => Law::Current { amperes, full_at },
            // No power is no current at any voltage, below zero too.
            Part::Load { load: Load::Power(0.0), .. } => Law::Current { amperes: 0.0, full_at },
            Part::Load { load: Load::Power(watts), .. } => Law::Power(watts),
        }
    }

    /// The current at a voltage, A, without the leak.
    pub(super) fn current(self, volts: f64) -> f64 {
        match self {
            Law::Conductance(siemens) => siemens * volts,
            Law::Held { siemens, volts: at, least, most } => (siemens * (volts - at)).clamp(least, most),
            Law::Current { amperes, full_at } => amperes * (volts / full_at).clamp(0.0, 1.0),
            Law::Power(watts) => watts / volts,
            Law::Off => 0.0,
        }
    }

    /// The current at a voltage, with the leak beyond the bounds, A, and the slope for the matrix, S.
    pub(super) fn respond(self, volts: f64) -> (f64, f64) {
        let current = self.current(volts);
        match self {
            Law::Conductance(siemens) => (current, siemens),
            Law::Held { siemens, volts: at, .. } => {
                // Zero between the bounds.
                let beyond = siemens * (volts - at) - current;
                let slope = if beyond == 0.0 { siemens } else { LEAK };
                (current + LEAK / siemens * beyond, slope)
            }
            Law::Current { .. } if volts <= 0.0 => (LEAK * volts, LEAK),
            Law::Current { amperes, full_at } if volts < full_at => (current, (amperes / full_at).max(LEAK)),
            // The leak stands in the matrix alone, so that it moves no result.
            Law::Current { .. } | Law::Off => (current, LEAK),
            Law::Power(_) => (current, -current / volts),
        }
    }

    /// The line that the first step takes for the law: its conductance and its current at no voltage.
    pub(super) fn first_line(self) -> (f64, f64) {
        match self {
            Law::Conductance(siemens) => (siemens, 0.0),
            Law::Held { siemens, volts, .. } => (siemens, -siemens * volts),
            Law::Current { amperes, .. } => (LEAK, amperes),
            Law::Power(_) | Law::Off => (LEAK, 0.0),
        }
    }

    /// How large the numbers are of which the current is the difference, A: what rounding is reckoned from.
    pub(super) fn size(self, one: f64, other: f64) -> f64 {
        match self {
            Law::Conductance(siemens) => siemens * (one.abs() + other.abs()),
            Law::Held { siemens, volts, .. } => siemens * (one.abs() + other.abs() + volts),
            Law::Current { amperes, full_at } => amperes * (1.0 + (one.abs() + other.abs()) / full_at),
            // The voltage is a difference, whose rounding the power passes on.
            Law::Power(watts) => {
                let across = (one - other).abs();
                watts / across * (1.0 + (one.abs() + other.abs()) / across)
            }
            Law::Off => 0.0,
        }
    }
}
