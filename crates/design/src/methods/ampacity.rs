//! The current that a conductor carries where it lies: table value × temperature × bundling, by the table of its region.

use super::conductor::{TABLE_AMBIENT, conductor_size, size};
use super::{amperes, celsius, no_solution};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::regions::Regions;
use crate::working::Step;
use calc::{AmpacityTable, Citation, ConductorSize};
use vocabulary::{fact as f, kind};

/// Where PVC insulation of mains wiring ends and thermosetting insulation begins: 90 °C (BS 7671 Tables 4D1A and 4E1A).
const THERMOSETTING: f64 = 363.15;

/// The voltage from which boat law applies its own bundling factors: 50 V (33 CFR 183.425 note 2 and 183.435).
const BOAT_BUNDLING_FROM: f64 = 50.0;

/// The largest size of the table for flexible cords, m²: 4 mm² (BS 7671 Table 4F3A), and a little for rounding.
const LARGEST_CORD: f64 = 4.0e-6 * 1.001;

/// Which bundling factor belongs to a table and a region.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Bundling {
    /// NEC 310.15(C)(1), by current-carrying conductors.
    Nec,
    /// 33 CFR 183.425 note 2, by current-carrying conductors of 50 V and above.
    BoatFrom50Volts,
    /// BS 7671 Table 4C1, by circuits.
    Bs7671,
}

/// The ampacity, A: the least by the tables of the build's regions.
pub fn ampacity(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let insulation = reader.need(part, f::conductor::INSULATION, case);
    let (size, _) = super::battery::both(size(reader, part), insulation)?;
    Ok(Fact::Number(of_size(reader, part, conductor_size(size), case)?))
}

/// What the tables give a conductor before temperature and bundling, A: the least by the tables of the build's regions.
pub fn in_table(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let insulation = reader.need(part, f::conductor::INSULATION, case);
    let (size, insulation) = super::battery::both(size(reader, part), insulation)?;
    let written = reader.build().circuitry().written(part);
    let size = conductor_size(size);
    let cord = (reader.build().part(written).kind == kind::CORD).then_some(size.area());
    let alternating = reader.build().circuitry().run(part).is_some_and(|run| run.alternating);
    let mut least = f64::INFINITY;
    for (region, table, _) in tables(reader.build().regions, alternating, cord, insulation) {
        let Some(value) = calc::table_ampacity(table, size, insulation) else {
            return no_solution(part, f::conductor::TABLE_AMPACITY);
        };
        reader.step(|| Step::cited(format!("{region}: {}, row {}", amperes(value.amperes), value.row), value.citation));
        least = least.min(value.amperes);
    }
    Ok(Fact::Number(least))
}

/// What a conductor of another size would carry in the place of this one, A. The tables are for copper: of another metal
/// nothing is known.
pub fn of_size(reader: &mut Reader<'_>, part: PartId, size: ConductorSize, case: CaseId) -> Outcome<f64> {
    let insulation = reader.need(part, f::conductor::INSULATION, case)?;
    if reader.need_word(part, f::conductor::MATERIAL, case)? != "copper" {
        return match super::conductor::said(reader, part, "material") {
            Some((written, fact)) => Err(Gaps::one(Gap::Entry(written, fact))),
            None => no_solution(part, f::conductor::AMPACITY),
        };
    }
    let ambient = reader.need(part, f::conductor::AMBIENT, case)?;
    let bundled = reader.need(part, f::conductor::BUNDLED, case)?;
    let written = reader.build().circuitry().written(part);
    let cord = reader.build().part(written).kind == kind::CORD;
    let alternating = reader.build().circuitry().run(part).is_some_and(|run| run.alternating);
    let mut least: Option<f64> = None;
    for (region, table, bundling) in
        tables(reader.build().regions, alternating, cord.then_some(size.area()), insulation)
    {
        let voltage = if bundling == Bundling::BoatFrom50Volts {
            let run = reader.build().circuitry().run(part).map(|run| run.part);
            run.map_or(f64::NAN, |run| reader.number(run, f::run::HIGHEST_VOLTAGE, case))
        } else {
            f64::NAN
        };
        let Some(value) = by_table(reader, region, table, bundling, size, insulation, ambient, bundled, voltage) else {
            return no_solution(part, f::conductor::AMPACITY);
        };
        least = Some(least.map_or(value, |so_far: f64| so_far.min(value)));
    }
    least.map_or_else(|| no_solution(part, f::conductor::AMPACITY), Ok)
}

/// The tables that the regions ask for; `cord` is the copper area of a flexible cord, m². For direct current no verified table of the other regions was at hand, so boat
/// law's is read everywhere, by analogy; the regions differ in bundling and in what a device may exceed.
fn tables(
    regions: Regions,
    alternating: bool,
    cord: Option<f64>,
    insulation: f64,
) -> Vec<(&'static str, AmpacityTable, Bundling)> {
    let mut tables = Vec::new();
    if regions.outside_us() {
        let (table, bundling) = match (alternating, cord) {
            (_, Some(area)) if area > LARGEST_CORD => (AmpacityTable::FlexibleCable, Bundling::Bs7671),
            (_, Some(_)) => (AmpacityTable::FlexibleCord, Bundling::Bs7671),
            (true, None) if insulation >= THERMOSETTING => (AmpacityTable::Bs7671MethodB90, Bundling::Bs7671),
            (true, None) => (AmpacityTable::Bs7671MethodB70, Bundling::Bs7671),
            (false, None) => (AmpacityTable::BoatLaw, Bundling::Nec),
        };
        tables.push(("outside the United States", table, bundling));
    }
    if regions.us {
        let (table, bundling) = match (alternating, cord) {
            (_, Some(_)) => (AmpacityTable::NecFlexibleCord, Bundling::Nec),
            (true, None) => (AmpacityTable::NecRaceway, Bundling::Nec),
            (false, None) => (AmpacityTable::BoatLaw, Bundling::BoatFrom50Volts),
        };
        tables.push(("in the United States", table, bundling));
    }
    tables
}

#[expect(clippy::too_many_arguments, reason = "the terms of one product, each named")]
fn by_table(
    reader: &mut Reader<'_>,
    region: &str,
    table: AmpacityTable,
    bundling: Bundling,
    size: ConductorSize,
    insulation: f64,
    ambient: f64,
    bundled: f64,
    voltage: f64,
) -> Option<f64> {
    let value = calc::table_ampacity(table, size, insulation)?;
    let temperature = calc::ambient_factor(insulation, ambient, TABLE_AMBIENT)?;
    let (together, citation, what) = bundling_factor(bundling, bundled, voltage);
    let derated = value.amperes * temperature * together;
    let terminals = if table == AmpacityTable::NecRaceway { calc::terminal_limit(size) } else { None };
    let ampacity = terminals.map_or(derated, |(limit, _)| derated.min(limit));
    reader.step(|| {
        Step::cited(
            format!(
                "{region}: table value {} at {} insulation, row {}",
                amperes(value.amperes),
                celsius(insulation),
                value.row
            ),
            value.citation,
        )
    });
    if (ambient - TABLE_AMBIENT).abs() > f64::EPSILON {
        reader.step(|| Step::cited(format!("× {temperature:.2} for {}", celsius(ambient)), &calc::AMBIENT_FACTOR));
    }
    match citation {
        Some(citation) if together < 1.0 => {
            reader.step(|| Step::cited(format!("× {together:.2} for {what}"), citation))
        }
        _ => {}
    }
    reader.step(|| Step::of(format!("= {}", amperes(derated))));
    if let Some((limit, citation)) = terminals.filter(|(limit, _)| *limit < derated) {
        reader.step(|| Step::cited(format!("no more than {} for the terminals at its ends", amperes(limit)), citation));
    }
    Some(ampacity)
}

/// The factor, its citation and what lies together.
fn bundling_factor(bundling: Bundling, conductors: f64, voltage: f64) -> (f64, Option<&'static Citation>, String) {
    // A count of conductors is a small whole number; a pair makes a circuit.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a count of conductors is small and not negative"
    )]
    let count = conductors.round().max(0.0) as u32;
    let by_conductors = format!("{count} current-carrying conductors together");
    match bundling {
        Bundling::Nec => {
            let (factor, citation) = calc::bundling_factor_nec(count);
            (factor, Some(citation), by_conductors)
        }
        Bundling::BoatFrom50Volts if voltage >= BOAT_BUNDLING_FROM => {
            let (factor, citation) = calc::bundling_factor_boat_50v(count);
            (factor, Some(citation), by_conductors)
        }
        Bundling::BoatFrom50Volts => (1.0, None, by_conductors),
        Bundling::Bs7671 => {
            let circuits = count.div_ceil(2);
            let (factor, citation) = calc::grouping_factor_bs7671(circuits);
            (factor, Some(citation), format!("{circuits} circuits together"))
        }
    }
}
