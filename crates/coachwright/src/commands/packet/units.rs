//! The units in which documents are printed.

use clap::ValueEnum;
use design::Build;
use quantity::System;
use spec::Value;
use vocabulary::fact;

/// The units of documents.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub enum Units {
    /// Metres, kilograms, degrees Celsius
    Metric,
    /// Feet, pounds, degrees Fahrenheit
    Us,
}

impl Units {
    /// The system of units.
    pub const fn system(self) -> System {
        match self {
            Self::Metric => System::Metric,
            Self::Us => System::UsCustomary,
        }
    }
}

/// The same build, printed in these units whatever it says itself.
pub fn in_units(build: Build, system: System) -> Build {
    let word = if system == System::Metric { "metric" } else { "us" };
    let choices = vocabulary::fact_spec(fact::build::UNITS).choices();
    match choices.iter().position(|choice| *choice == word).and_then(|place| u16::try_from(place).ok()) {
        Some(place) => build.with(&[(Build::ROOT, fact::build::UNITS, Value::Choice(place))]),
        None => build,
    }
}
