//! What follows from the data of solar modules.

use super::{amperes, celsius, volts};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{fact as f, kind};

/// The temperature at which modules are measured, K: 25 °C (IEC 60904-3 standard test conditions; from memory).
const TEST_TEMPERATURE: f64 = 298.15;

/// By how much the sun may exceed the test conditions: 1.25 (NEC 690.8(A); from memory).
const BRIGHTER_SUN: f64 = 1.25;

/// The lowest temperature in daylight, K: as said, else the brief's winter.
pub fn coldest(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<f64> {
    if !reader.silent(part, f::solar::COLDEST) {
        return reader.need(part, f::solar::COLDEST, case);
    }
    match reader.build().only(kind::BRIEF) {
        Some(brief) => reader.need(brief, f::brief::WINTER, case).map_err(|_| {
            Gaps(vec![AnyOf(vec![Gap::Entry(part, f::solar::COLDEST), Gap::Entry(brief, f::brief::WINTER)])])
        }),
        None => {
            Err(Gaps(vec![AnyOf(vec![Gap::Entry(part, f::solar::COLDEST), Gap::Absent(Build::ROOT, kind::BRIEF)])]))
        }
    }
}

/// The highest voltage of a string, V: open, on the coldest day.
pub fn highest_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let open = reader.need(part, f::solar::OPEN_VOLTAGE, case);
    let per_kelvin = reader.need(part, f::solar::VOLTAGE_PER_KELVIN, case);
    let (open, per_kelvin) = super::battery::both(open, per_kelvin)?;
    let series = reader.need(part, f::solar::SERIES, case)?;
    let coldest = coldest(reader, part, case)?;
    let colder = (TEST_TEMPERATURE - coldest).max(0.0);
    let highest = series * open * (1.0 + per_kelvin.abs() * colder);
    reader.step(|| {
        Step::of(format!(
            "{series} × {} × (1 + {:.2} %/K × {colder:.0} K) at {} = {}",
            volts(open),
            per_kelvin.abs() * 100.0,
            celsius(coldest),
            volts(highest)
        ))
    });
    Ok(Fact::Number(highest))
}

/// The most current that it gives, A: every string, in a sun brighter than the test's.
pub fn short_circuit_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (modules, series) =
        super::battery::both(reader.need(part, f::solar::MODULES, case), reader.need(part, f::solar::SERIES, case))?;
    let one = reader.need(part, f::solar::SHORT_CURRENT, case)?;
    let strings = modules / series;
    let most = strings * one * BRIGHTER_SUN;
    reader.step(|| {
        Step::of(format!(
            "{strings} strings × {} × {BRIGHTER_SUN} for a brighter sun = {}",
            amperes(one),
            amperes(most)
        ))
    });
    Ok(Fact::Number(most))
}
