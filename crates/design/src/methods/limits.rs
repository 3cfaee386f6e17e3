//! What a battery bears: the limits of its maker, its temperatures, and the management that keeps them.

use super::battery::both;
use super::charging::sources;
use super::{amperes, brief, fact_of, no_solution};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{FactId, fact as f, fact::battery as b, kind};

/// The block in which a battery's limits or its management stand; nothing when there is certainly none.
pub fn block(reader: &Reader<'_>, battery: PartId, kind: vocabulary::PartKind) -> Outcome<Option<PartId>> {
    let found = reader.build().inside(battery, kind);
    match found.members.first() {
        Some(block) => Ok(Some(*block)),
        None if found.complete => Ok(None),
        None => Err(Gaps::one(Gap::Unread(battery))),
    }
}

/// A value of the limits or the management; nothing when it is not said.
fn said_in(
    reader: &mut Reader<'_>,
    battery: PartId,
    kind: vocabulary::PartKind,
    fact: FactId,
    case: CaseId,
) -> Outcome<Option<f64>> {
    match block(reader, battery, kind)? {
        Some(block) if !reader.silent(block, fact) => reader.need(block, fact, case).map(Some),
        _ => Ok(None),
    }
}

/// What would be written for a value of the limits or the management to be known.
fn entry_in(reader: &Reader<'_>, battery: PartId, kind: vocabulary::PartKind, fact: FactId) -> Gap {
    match reader.build().inside(battery, kind).members.first() {
        Some(block) => Gap::Entry(*block, fact),
        None => Gap::Absent(battery, kind),
    }
}

fn limit(reader: &mut Reader<'_>, battery: PartId, fact: FactId, case: CaseId) -> Outcome {
    match said_in(reader, battery, kind::LIMITS, fact, case)? {
        Some(limit) => Ok(Fact::Number(limit)),
        None => Err(Gaps::one(entry_in(reader, battery, kind::LIMITS, fact))),
    }
}

/// The largest charging current of its limits, A.
pub fn charge_limit(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    limit(reader, battery, f::limits::CHARGE, case)
}

/// The largest discharge current of its limits, A.
pub fn discharge_limit(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    limit(reader, battery, f::limits::DISCHARGE, case)
}

fn stated(reader: &mut Reader<'_>, battery: PartId, fact: FactId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(said_in(reader, battery, kind::LIMITS, fact, case)?.is_some()))
}

/// Whether its largest charging current is said.
pub fn charge_limit_stated(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    stated(reader, battery, f::limits::CHARGE, case)
}

/// Whether its largest discharge current is said.
pub fn discharge_limit_stated(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    stated(reader, battery, f::limits::DISCHARGE, case)
}

/// Usual largest charging current as a part of the capacity in one hour, by chemistry: flooded 0.25, AGM 0.3, gel 0.2, LFP
/// 0.5 (memory; 10 to 30 % for lead second-hand from a seller's page, undated).
fn usual_rate(chemistry: &str) -> Option<f64> {
    match chemistry {
        "flooded" => Some(0.25),
        "AGM" => Some(0.3),
        "gel" => Some(0.2),
        "LFP" => Some(0.5),
        _ => None,
    }
}

const HOUR: f64 = 3_600.0;

/// The usual largest charging current, A.
pub fn usual_charge_current(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let (chemistry, capacity) =
        both(reader.need_word(battery, b::CHEMISTRY, case), reader.need(battery, b::CAPACITY, case))?;
    let Some(rate) = usual_rate(chemistry) else { return no_solution(battery, b::USUAL_CHARGE_CURRENT) };
    let current = rate * capacity / HOUR;
    reader.step(|| {
        Step::assumed(
            format!("{chemistry}: {:.0} % of the capacity an hour = {}", rate * 100.0, amperes(current)),
            "usual charge rates by chemistry (memory)",
        )
    });
    Ok(Fact::Number(current))
}

/// The lowest temperature that it reaches, K. A vehicle that stands unheated gets as cold as the night.
pub fn coldest_in_use(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    brief::own_or_said(reader, battery, b::COLDEST, f::brief::COLDEST_NIGHT, case).map(Fact::Number)
}

/// The highest temperature that it reaches, K.
pub fn hottest_in_use(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    if reader.silent(battery, b::HOTTEST)
        && let Ok(super::space::Space::Zone(zone)) = super::space::of(reader, battery, case)
        && !reader.silent(zone, f::zone::AMBIENT)
    {
        return Ok(Fact::Number(reader.need(zone, f::zone::AMBIENT, case)?));
    }
    brief::own_or_said(reader, battery, b::HOTTEST, f::brief::HOTTEST_DAY, case).map(Fact::Number)
}

/// 0 °C and 45 °C: between these LFP cells are charged (0 °C read in a published cell sheet, undated; 45 °C chosen, below the 60 °C of
/// that sheet, where ageing is said to set in), K.
const LITHIUM_CHARGE: [f64; 2] = [273.15, 318.15];
/// No lead battery of a vehicle is kept from charging by cold; above 50 °C its charge runs away (common practice, no source), K.
const LEAD_CHARGE: [f64; 2] = [233.15, 323.15];

fn charge_bound(reader: &mut Reader<'_>, battery: PartId, fact: FactId, upper: bool, case: CaseId) -> Outcome {
    if let Some(said) = said_in(reader, battery, kind::LIMITS, fact, case)? {
        return Ok(Fact::Number(said));
    }
    let chemistry = reader.need_word(battery, b::CHEMISTRY, case)?;
    let [low, high] = if chemistry == "LFP" { LITHIUM_CHARGE } else { LEAD_CHARGE };
    let bound = if upper { high } else { low };
    reader.step(|| {
        Step::assumed(
            format!("not said in its limits: {} for {chemistry}", super::celsius(bound)),
            "usual bounds of charging by chemistry (memory)",
        )
    });
    Ok(Fact::Number(bound))
}

/// The lowest temperature at which it may be charged, K.
pub fn charge_above(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    charge_bound(reader, battery, f::limits::CHARGE_ABOVE, false, case)
}

/// The highest temperature at which it may be charged, K.
pub fn charge_below(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    charge_bound(reader, battery, f::limits::CHARGE_BELOW, true, case)
}

/// Temperatures are compared within this, K: chosen, far below what a sensor tells.
const SAME_KELVIN: f64 = 1e-6;

/// Whether something keeps it from being charged when too cold.
pub fn stops_charge_cold(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let mut gaps = Gaps::default();
    let below = f::management::STOPS_CHARGE_BELOW;
    let bound = reader.need(battery, b::CHARGE_ABOVE, case);
    match said_in(reader, battery, kind::MANAGEMENT, below, case) {
        Ok(Some(stops)) if stops >= bound.clone()? - SAME_KELVIN => return Ok(Fact::Flag(true)),
        Ok(Some(_)) => {}
        Ok(None) => gaps.add(&Gaps::one(entry_in(reader, battery, kind::MANAGEMENT, below))),
        Err(more) => gaps.add(&more),
    }
    match reader.need_word(battery, b::HEATING, case) {
        Ok("pad" | "heated-space") => return Ok(Fact::Flag(true)),
        Ok(_) => {}
        Err(more) => gaps.add(&more),
    }
    let (sources, more) = sources(reader, battery);
    let mut by_chargers = Gaps::default();
    let mut every = true;
    for source in sources {
        match fact_of(reader.build(), source.thing, "stops-when-cold") {
            Some(fact) => match reader.need_flag(source.thing, fact, case) {
                Ok(stops) => every &= stops,
                Err(more) => by_chargers.add(&more),
            },
            None => every = false,
        }
    }
    if every {
        by_chargers.add(&more);
        if by_chargers.is_empty() {
            return Ok(Fact::Flag(true));
        }
        gaps.add(&by_chargers);
    }
    if gaps.is_empty() {
        return Ok(Fact::Flag(false));
    }
    // Any one of them that says yes settles it.
    Err(Gaps(vec![AnyOf(gaps.0.into_iter().flat_map(|any| any.0).collect())]))
}

/// What its management can interrupt; nothing when none is described.
fn cuts(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome<Option<&'static str>> {
    match block(reader, battery, kind::MANAGEMENT)? {
        Some(block) => reader.need_word(block, f::management::CUTS, case).map(Some),
        None => Ok(None),
    }
}

/// Whether management cuts off both charge and discharge.
pub fn managed(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(cuts(reader, battery, case)? == Some("both")))
}

/// Whether management can cut off the charge.
pub fn cuts_charge(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(matches!(cuts(reader, battery, case)?, Some("both" | "charge"))))
}

/// Whether management fills capacitors gently.
pub fn pre_charges(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let inverters = super::starting::inverters_on(reader, reader.build(), battery);
    if super::starting::inverters_fill_gently(reader, &inverters, case) == Ok(true) {
        return Ok(Fact::Flag(true));
    }
    match block(reader, battery, kind::MANAGEMENT)? {
        Some(block) => Ok(Fact::Flag(reader.need_flag(block, f::management::PRE_CHARGE, case)?)),
        None => Err(Gaps::one(Gap::Absent(battery, kind::MANAGEMENT))),
    }
}

/// The standard to which lithium cells for other than vehicle drives are tested.
const CELL_STANDARD: &str = "62619";

/// Whether its maker names IEC 62619.
pub fn tested_as_cell(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    match reader.fact(battery, b::TESTED_TO, case)? {
        Fact::Text(text) => Ok(Fact::Flag(text.contains(CELL_STANDARD))),
        _ => no_solution(battery, b::TESTED_AS_CELL),
    }
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (b::CHARGE_LIMIT, Each(charge_limit)),
        (b::CHARGE_LIMIT_STATED, Each(charge_limit_stated)),
        (b::DISCHARGE_LIMIT, Each(discharge_limit)),
        (b::DISCHARGE_LIMIT_STATED, Each(discharge_limit_stated)),
        (b::USUAL_CHARGE_CURRENT, Each(usual_charge_current)),
        (b::COLDEST_IN_USE, Each(coldest_in_use)),
        (b::HOTTEST_IN_USE, Each(hottest_in_use)),
        (b::CHARGE_ABOVE, Each(charge_above)),
        (b::CHARGE_BELOW, Each(charge_below)),
        (b::STOPS_CHARGE_COLD, Each(stops_charge_cold)),
        (b::MANAGED, Each(managed)),
        (b::CUTS_CHARGE, Each(cuts_charge)),
        (b::PRE_CHARGES, Each(pre_charges)),
        (b::TESTED_AS_CELL, Each(tested_as_cell)),
    ]
}
