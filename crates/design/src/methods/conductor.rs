//! What is said of a length of conductor, wherever it is written: a wire, a way, a cord or a shore wire.

use super::{fact_of, no_solution, ohms};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use calc::{ConductorSize, Stranding};
use quantity::WireSize;
use spec::Value;
use vocabulary::{FactId, fact as f, kind};

/// A conductor where the current comes back beside it.
const OUT_AND_BACK: f64 = 2.0;

/// The air temperature at which the ampacity tables are printed: 30 °C (33 CFR 183.425 Table 5, BS 7671, NEC 310.16).
pub const TABLE_AMBIENT: f64 = 303.15;

/// The air of an engine's space, K: 50 °C (33 CFR 183.425 Table 5, note 1).
const ENGINE_SPACE: f64 = 323.15;

/// The insulation class that is taken for a flexible cord and for mains wiring when none is said: 60 °C rubber or PVC cord
/// (BS 7671 Table 4F3A) and 70 °C PVC (BS 7671 Table 4D1A), the lowest that is sold.
const CORD_INSULATION: f64 = 333.15;
const MAINS_INSULATION: f64 = 343.15;

/// The fact of this name where the conductor is written.
pub(super) fn said(reader: &Reader<'_>, part: PartId, name: &str) -> Option<(PartId, FactId)> {
    let written = reader.build().circuitry().written(part);
    fact_of(reader.build(), written, name).map(|fact| (written, fact))
}

/// Where the size is written: its fact has another name on each kind.
fn size_fact(reader: &Reader<'_>, part: PartId) -> Option<(PartId, FactId)> {
    ["size", "wire", "cores"].into_iter().find_map(|name| said(reader, part, name))
}

/// The size as written.
pub fn size(reader: &mut Reader<'_>, part: PartId) -> Outcome<WireSize> {
    let Some((written, fact)) = size_fact(reader, part) else {
        return no_solution(part, f::conductor::AREA);
    };
    match reader.written(written, fact) {
        Some(Value::WireSize(size)) => Ok(*size),
        Some(Value::Cores(cores)) => Ok(cores.size),
        _ if reader.build().part(written).unread => Err(Gaps::one(Gap::Unread(written))),
        _ => Err(Gaps::one(Gap::Entry(written, fact))),
    }
}

/// Its copper area, m².
pub fn area(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let size = size(reader, part)?;
    Ok(Fact::Number(size.area()))
}

/// Its length along the run, m; half of a length that is given out and back.
pub fn one_way(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let Some((written, fact)) = said(reader, part, "one-way") else {
        return no_solution(part, f::conductor::ONE_WAY);
    };
    match reader.need(written, fact, case) {
        Ok(length) => Ok(Fact::Number(length)),
        Err(gaps) => match said(reader, part, "loop") {
            Some((written, around)) => match reader.need(written, around, case) {
                Ok(length) => {
                    reader.step(|| Step::of("half of the length that is given out and back"));
                    Ok(Fact::Number(length / OUT_AND_BACK))
                }
                Err(_) => Err(gaps),
            },
            None => Err(gaps),
        },
    }
}

/// Highest temperature that its insulation stands, K.
pub fn insulation(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let written = reader.build().circuitry().written(part);
    let kind = reader.build().part(written).kind;
    let alternating = reader.build().circuitry().run(part).is_some_and(|run| run.alternating);
    if let Some((written, fact)) = said(reader, part, "insulation") {
        match reader.need(written, fact, case) {
            Ok(said) => return Ok(Fact::Number(said)),
            Err(gaps) if !alternating || !reader.silent(written, fact) => return Err(gaps),
            Err(_) => {}
        }
    }
    let (assumed, what) = if kind == kind::CORD {
        (CORD_INSULATION, "flexible cord, insulation not said: 60 °C")
    } else {
        (MAINS_INSULATION, "insulation not said: 70 °C")
    };
    reader.step(|| Step::assumed(what, "the lowest class in the tables for it, BS 7671 Tables 4F3A and 4D1A (read)"));
    Ok(Fact::Number(assumed))
}

/// The temperature of the air around it, K: as said, else of its route or the zone of it, else the tables' own.
pub fn ambient(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if let Some((written, fact)) = said(reader, part, "ambient") {
        if !reader.silent(written, fact) {
            return reader.fact(written, fact, case);
        }
        let route = route(reader, part, case)?;
        if let Some(route) = route
            && !reader.silent(route, f::route::AMBIENT)
        {
            return reader.fact(route, f::route::AMBIENT, case);
        }
        let own = said(reader, part, "zone");
        let of_route = route.map(|route| (route, f::route::ZONE));
        for (place, fact) in own.into_iter().chain(of_route) {
            if !reader.silent(place, fact)
                && let Fact::Part(zone) = reader.fact(place, fact, case)?
                && let Some(ambient) = of_zone(reader, zone, case)?
            {
                return Ok(Fact::Number(ambient));
            }
        }
    }
    reader.step(|| Step::assumed("air temperature not said: 30 °C", "the base of the ampacity tables (read)"));
    Ok(Fact::Number(TABLE_AMBIENT))
}

/// The temperature of the air in a zone, K: as said; in an engine's space that of the boat law; else nothing.
fn of_zone(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<Option<f64>> {
    if !reader.silent(zone, f::zone::AMBIENT) {
        return reader.need(zone, f::zone::AMBIENT, case).map(Some);
    }
    if reader.silent(zone, f::zone::KIND) || reader.need_word(zone, f::zone::KIND, case)? != "engine" {
        return Ok(None);
    }
    reader.step(|| Step::assumed("air in the engine's space not said: 50 °C", "33 CFR 183.425 Table 5, note 1 (read)"));
    Ok(Some(ENGINE_SPACE))
}

/// The route that it takes, when one is said.
pub fn route(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Option<PartId>> {
    let Some((written, fact)) = said(reader, part, "route") else { return Ok(None) };
    if reader.silent(written, fact) {
        return Ok(None);
    }
    match reader.fact(written, fact, case)? {
        Fact::Part(route) => Ok(Some(route)),
        _ => Ok(None),
    }
}

/// How many current-carrying conductors it brings: two where the current comes back beside it, else one.
pub fn carried(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<f64> {
    let Some((written, fact)) = said(reader, part, "return") else { return Ok(OUT_AND_BACK) };
    match reader.need_word(written, fact, case) {
        Ok("chassis") => Ok(1.0),
        Ok(_) => Ok(OUT_AND_BACK),
        // On a panel's way, silence means a pair: it is the way without a conductor of its own that is said.
        Err(_) if reader.silent(written, fact) => Ok(OUT_AND_BACK),
        Err(gaps) => Err(gaps),
    }
}

/// The length that conductors may lie together without counting as bundled, m: 24 in (NEC 310.15(C)(1), read for the other
/// tables too, which do not say it).
const TOGETHER: f64 = 0.6096;

/// Whether it lies far enough with others to count in a bundle. A length that is not said counts as far enough.
pub fn runs_beside(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<bool> {
    let unsaid = ["one-way", "loop"]
        .into_iter()
        .filter_map(|name| said(reader, part, name))
        .all(|(written, fact)| reader.silent(written, fact));
    Ok(unsaid || reader.need(part, f::conductor::ONE_WAY, case)? > TOGETHER)
}

/// The current-carrying conductors that lie together with it.
pub fn bundled(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let own = carried(reader, part, case)?;
    let count = match route(reader, part, case)? {
        Some(route) if runs_beside(reader, part, case)? => reader.need(route, f::route::CURRENT_CARRYING, case)?,
        _ => own,
    };
    Ok(Fact::Number(count))
}

/// How it is made.
pub fn stranding(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Stranding> {
    let Some((written, fact)) = said(reader, part, "strands") else { return Ok(Stranding::Flexible) };
    match reader.need_word(written, fact, case) {
        Ok("solid") => Ok(Stranding::Solid),
        Ok("stranded") => Ok(Stranding::Stranded),
        Ok(_) => Ok(Stranding::Flexible),
        Err(_) if reader.silent(written, fact) => {
            reader.step(|| {
                Step::assumed(
                    "strands not said: flexible",
                    "stranded copper is asked for in vehicles (common practice)",
                )
            });
            Ok(Stranding::Flexible)
        }
        Err(gaps) => Err(gaps),
    }
}

/// A size for `calc`.
pub fn conductor_size(size: WireSize) -> ConductorSize {
    match size {
        WireSize::Awg(number) => ConductorSize::Awg(number),
        WireSize::Metric { .. } => ConductorSize::Area(size.area()),
    }
}

/// Its resistance to direct current at 20 °C, Ω, out and back where it comes back beside itself.
pub fn resistance(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let sized = size(reader, part);
    let length = reader.need(part, f::conductor::ONE_WAY, case);
    let (size, length) = super::battery::both(sized, length)?;
    let legs = carried(reader, part, case)?;
    let strands = stranding(reader, part, case)?;
    let per_metre = calc::resistance_per_metre(conductor_size(size), strands);
    let resistance = per_metre.ohm_per_metre_20c * length * legs;
    reader.step(|| {
        Step::cited(
            format!(
                "{} per metre ({}) × {} × {legs} = {}",
                ohms(per_metre.ohm_per_metre_20c),
                per_metre.how,
                super::show(length, quantity::Dimension::LENGTH),
                ohms(resistance)
            ),
            per_metre.citation,
        )
    });
    Ok(Fact::Number(resistance))
}

/// What it passes through, as said on the wire itself; what its route passes through is asked of the route, once for all.
pub fn passes(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let Some((written, fact)) = said(reader, part, "passes") else { return Ok(Fact::Choice(0)) };
    if reader.build().part(written).given(fact).is_none() && !reader.build().part(written).unread {
        return Ok(Fact::Choice(0));
    }
    reader.fact(written, fact, case)
}

/// What protects it at the edge: as said, else as its route says, else nothing.
pub fn edge(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let Some((written, fact)) = said(reader, part, "edge") else { return Ok(Fact::Choice(0)) };
    if reader.build().part(written).given(fact).is_some() || reader.build().part(written).unread {
        return reader.fact(written, fact, case);
    }
    match route(reader, part, case)? {
        // The lists of words are the same on wires and routes, so the index carries over.
        Some(route) => reader.fact(route, f::route::EDGE, case),
        None => Ok(Fact::Choice(0)),
    }
}
