//! What charges a battery, with how much, and what it bears.

use super::bank::{fitted, is_base, joined, part_of_bank};
use super::battery::both;
use super::{amperes, doubt, fact_of, no_solution, source, volts};
use crate::circuitry::{Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{FactId, fact as f, fact::battery as b, kind};

/// Whatever charges a battery without another charger between, and what would settle whether that is all.
pub fn sources(reader: &Reader<'_>, battery: PartId) -> (Vec<Terminal>, Gaps) {
    let build = reader.build();
    let circuitry = build.circuitry();
    let Some(node) = circuitry.node_of(battery, Side::Input) else { return (Vec::new(), Gaps::default()) };
    let at = [Some(node)];
    let sources = circuitry.sources_joined(&at).filter(|source| build.part(source.thing).kind != kind::BATTERY);
    (sources.collect(), doubt::of_sources(reader, node))
}

/// The charging sources, as a list.
pub fn charging_sources(reader: &mut Reader<'_>, battery: PartId, _: CaseId) -> Outcome {
    let (sources, gaps) = sources(reader, battery);
    Ok(super::parts(sources.into_iter().map(|source| source.thing), gaps.is_empty()))
}

/// When a source charges: while driving, while parked.
fn times(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<[bool; 2]> {
    Ok(match reader.build().part(thing).kind {
        kind::ALTERNATOR | kind::TRAILER_PLUG => [true, false],
        // A cord is not taken along; only a generator feeds the mains while driving.
        kind::INVERTER_CHARGER => [carried_mains(reader), true],
        kind::CHARGER if reader.need_word(thing, f::charger::KIND, case)? == "mains" => [carried_mains(reader), true],
        kind::CHARGER if !reader.silent(thing, f::charger::ENABLE) => {
            [true, reader.need_word(thing, f::charger::ENABLE, case)? != "ignition"]
        }
        _ => [true, true],
    })
}

/// Whether a generator may feed the mains while driving.
fn carried_mains(reader: &Reader<'_>) -> bool {
    let generators = reader.build().of_kind(kind::GENERATOR);
    !generators.members.is_empty() || !generators.complete
}

/// The largest charging current that can reach the battery at once, A.
pub fn charge_current(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let (sources, mut gaps) = sources(reader, battery);
    let mut sums = [0.0; 2];
    for terminal in sources {
        match both(times(reader, terminal.thing, case), source::gives(reader, terminal, case)) {
            Ok((_, current)) if current.is_infinite() => {
                let fact = fact_of(reader.build(), terminal.thing, "fuse").unwrap_or(b::CHARGE_CURRENT);
                gaps.add(&Gaps::one(Gap::Entry(terminal.thing, fact)));
            }
            Ok((times, current)) => {
                let title = reader.build().part(terminal.thing).title.clone();
                let when = match times {
                    [true, true] => "",
                    [true, false] => " while driving",
                    _ => " while parked",
                };
                reader.step(|| Step::of(format!("{title} gives up to {}{when}", amperes(current))));
                for (sum, charges) in sums.iter_mut().zip(times) {
                    if charges {
                        *sum += current;
                    }
                }
            }
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    Ok(Fact::Number(sums[0].max(sums[1]) * part_of_bank(reader, battery, case)?))
}

/// The highest voltage of whatever charges it, V.
pub fn highest_charge_voltage(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let (sources, mut gaps) = sources(reader, battery);
    let mut highest: Option<f64> = None;
    for terminal in sources {
        match source::highest_voltage(reader, terminal, case) {
            Some(Ok(voltage)) => highest = Some(highest.map_or(voltage, |so_far| so_far.max(voltage))),
            Some(Err(more)) => gaps.add(&more),
            None => {}
        }
    }
    match highest {
        _ if !gaps.is_empty() => Err(gaps),
        Some(highest) => Ok(Fact::Number(highest)),
        None => no_solution(battery, b::HIGHEST_CHARGE_VOLTAGE),
    }
}

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

/// The largest current asked of it, A.
pub fn discharge_current(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let (nodes, mut gaps) = joined(reader, battery);
    let mut sum = 0.0;
    for terminal in reader.build().circuitry().terminals(&nodes) {
        match super::flow::taken(reader, terminal, case) {
            Some(Ok(current)) if current.is_finite() => {
                let title = reader.build().part(terminal.thing).title.clone();
                reader.step(|| Step::of(format!("{title} takes {}", amperes(current))));
                sum += current;
            }
            Some(Err(more)) => gaps.add(&more),
            _ => {}
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    Ok(Fact::Number(sum * part_of_bank(reader, battery, case)?))
}

/// The inverters that a battery feeds.
fn inverters_of(reader: &Reader<'_>, battery: PartId) -> (Vec<PartId>, Gaps) {
    let build = reader.build();
    let (nodes, gaps) = joined(reader, battery);
    let is_inverter = |terminal: &Terminal| {
        terminal.side == Side::Input
            && matches!(build.part(terminal.thing).kind, kind::INVERTER | kind::INVERTER_CHARGER)
    };
    (build.circuitry().terminals(&nodes).filter(is_inverter).map(|terminal| terminal.thing).collect(), gaps)
}

/// The inverters that it feeds.
pub fn inverters(reader: &mut Reader<'_>, battery: PartId, _: CaseId) -> Outcome {
    let (inverters, gaps) = inverters_of(reader, battery);
    Ok(super::parts(inverters, gaps.is_empty()))
}

/// What the inverters take at their surge power, A.
pub fn inverter_surge_current(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let (inverters, mut gaps) = inverters_of(reader, battery);
    let mut sum = 0.0;
    for inverter in inverters {
        let build = reader.build();
        let (Some(surge), Some(efficiency)) =
            (fact_of(build, inverter, "surge"), fact_of(build, inverter, "efficiency"))
        else {
            continue;
        };
        let (surge, efficiency) = (reader.need(inverter, surge, case), reader.need(inverter, efficiency, case));
        match both(both(surge, efficiency), reader.need(battery, b::LOWEST_VOLTAGE, case)) {
            Ok(((surge, efficiency), lowest)) => match calc::inverter_input_current(surge, efficiency, lowest) {
                Some(current) => sum += current,
                None => return no_solution(battery, b::INVERTER_SURGE_CURRENT),
            },
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    Ok(Fact::Number(sum * part_of_bank(reader, battery, case)?))
}

/// An entry of the battery, else an entry of the brief, as the temperature that it reaches, K.
fn reaches(reader: &mut Reader<'_>, battery: PartId, own: FactId, brief: FactId, case: CaseId) -> Outcome {
    if !reader.silent(battery, own) {
        return Ok(Fact::Number(reader.need(battery, own, case)?));
    }
    let other = match reader.build().only(kind::BRIEF) {
        Some(part) => match reader.need(part, brief, case) {
            Ok(kelvin) => return Ok(Fact::Number(kelvin)),
            Err(_) => Gap::Entry(part, brief),
        },
        None => Gap::Absent(Build::ROOT, kind::BRIEF),
    };
    Err(Gaps(vec![AnyOf(vec![Gap::Entry(battery, own), other])]))
}

/// The lowest temperature that it reaches, K. A vehicle that stands unheated gets as cold as the night.
pub fn coldest_in_use(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    reaches(reader, battery, b::COLDEST, f::brief::WINTER, case)
}

/// The highest temperature that it reaches, K.
pub fn hottest_in_use(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    if reader.silent(battery, b::HOTTEST)
        && let Ok(super::space::Space::Zone(zone)) = super::space::of(reader, battery, case)
        && !reader.silent(zone, f::zone::AMBIENT)
    {
        return Ok(Fact::Number(reader.need(zone, f::zone::AMBIENT, case)?));
    }
    reaches(reader, battery, b::HOTTEST, f::brief::SUMMER, case)
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
    match block(reader, battery, kind::MANAGEMENT)? {
        Some(block) => Ok(Fact::Flag(reader.need_flag(block, f::management::PRE_CHARGE, case)?)),
        None => Err(Gaps::one(Gap::Absent(battery, kind::MANAGEMENT))),
    }
}

/// What charges it and is set to another chemistry. A charger of which no setting is said is not among them: its voltage is
/// judged by itself.
pub fn ill_set(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let chemistry = reader.need_word(battery, b::CHEMISTRY, case)?;
    let (sources, gaps) = sources(reader, battery);
    let mut ill = Vec::new();
    let mut complete = gaps.is_empty();
    for source in sources {
        let Some(profile) = fact_of(reader.build(), source.thing, "profile") else { continue };
        if reader.silent(source.thing, profile) {
            continue;
        }
        match reader.need_word(source.thing, profile, case) {
            Ok(word) if word != chemistry => ill.push(source.thing),
            Ok(_) => {}
            Err(_) => complete = false,
        }
    }
    Ok(super::parts(ill, complete))
}

/// Between these parts of the battery's nominal voltage lies what is made for it: 12 V things on 12.0 to 12.8 V. Chosen: half way, and
/// a little more, to the next usual voltage in either direction.
const SAME_VOLTAGE: [f64; 2] = [0.75, 1.4];

/// What is joined to it and made for another voltage. What says no voltage is not among them.
pub fn ill_matched(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let nominal = reader.need(battery, b::VOLTAGE, case)?;
    let (nodes, gaps) = joined(reader, battery);
    let build = reader.build();
    let mut ill = Vec::new();
    let mut complete = gaps.is_empty();
    for terminal in build.circuitry().terminals(&nodes) {
        let name = match (build.part(terminal.thing).kind, terminal.side) {
            (kind::BATTERY | kind::BUSBAR | kind::PANEL | kind::ALTERNATOR | kind::SOLAR | kind::TRAILER_PLUG, _) => {
                continue;
            }
            (kind::INVERTER | kind::INVERTER_CHARGER | kind::CHARGER | kind::CONVERTER, Side::Input) => "input-voltage",
            _ => "voltage",
        };
        let Some(fact) = fact_of(build, terminal.thing, name) else { continue };
        if reader.silent(terminal.thing, fact) {
            continue;
        }
        match reader.need(terminal.thing, fact, case) {
            Ok(voltage) if voltage < nominal * SAME_VOLTAGE[0] || voltage > nominal * SAME_VOLTAGE[1] => {
                let title = build.part(terminal.thing).title.clone();
                reader.step(|| Step::of(format!("{title} is made for {}", volts(voltage))));
                ill.push(terminal.thing);
            }
            Ok(_) => {}
            Err(_) => complete = false,
        }
    }
    Ok(super::parts(ill, complete))
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

/// Whether a mains charger charges a fitted battery.
pub fn mains_charged(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let (fitted, mut gaps) = fitted(reader, case);
    for battery in fitted {
        let (sources, more) = sources(reader, battery);
        for source in sources {
            match reader.build().part(source.thing).kind {
                kind::INVERTER_CHARGER => return Ok(Fact::Flag(true)),
                kind::CHARGER => match reader.need_word(source.thing, f::charger::KIND, case) {
                    Ok("mains") => return Ok(Fact::Flag(true)),
                    Ok(_) => {}
                    Err(more) => gaps.add(&more),
                },
                _ => {}
            }
        }
        gaps.add(&more);
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// Whether a battery is the base vehicle's, with what would settle it gathered apart.
pub fn base_or(reader: &mut Reader<'_>, battery: PartId, gaps: &mut Gaps, case: CaseId) -> bool {
    is_base(reader, battery, case).unwrap_or_else(|more| {
        gaps.add(&more);
        true
    })
}

/// How long it lasts at the largest current asked of it, s.
pub fn runtime(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    /// The time of the rating of a lead battery for vehicles, s: 20 h (EN 1648-2 4.3.2, read in a German copy, 2018 edition).
    const RATED: f64 = 20.0 * HOUR;
    let chemistry = super::battery::chemistry(reader, battery, case);
    let (capacity, current) =
        both(reader.need(battery, b::CAPACITY, case), reader.need(battery, b::DISCHARGE_CURRENT, case))?;
    let chemistry = chemistry?;
    let found = calc::peukert_exponent(chemistry).and_then(|exponent| {
        let seconds = calc::discharge_seconds(RATED, capacity, current, exponent.most)?;
        Some((exponent, seconds))
    });
    let Some((exponent, seconds)) = found else { return no_solution(battery, b::RUNTIME) };
    reader.step(|| {
        Step::cited(format!("20 h × (capacity ÷ (20 h × {}))^{}", amperes(current), exponent.most), exponent.citation)
    });
    Ok(Fact::Number(seconds))
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (b::CHARGING_SOURCES, Each(charging_sources)),
        (b::CHARGE_CURRENT, Each(charge_current)),
        (b::HIGHEST_CHARGE_VOLTAGE, Each(highest_charge_voltage)),
        (b::CHARGE_LIMIT, Each(charge_limit)),
        (b::CHARGE_LIMIT_STATED, Each(charge_limit_stated)),
        (b::DISCHARGE_LIMIT, Each(discharge_limit)),
        (b::DISCHARGE_LIMIT_STATED, Each(discharge_limit_stated)),
        (b::USUAL_CHARGE_CURRENT, Each(usual_charge_current)),
        (b::DISCHARGE_CURRENT, Each(discharge_current)),
        (b::INVERTERS, Each(inverters)),
        (b::INVERTER_SURGE_CURRENT, Each(inverter_surge_current)),
        (b::COLDEST_IN_USE, Each(coldest_in_use)),
        (b::HOTTEST_IN_USE, Each(hottest_in_use)),
        (b::CHARGE_ABOVE, Each(charge_above)),
        (b::CHARGE_BELOW, Each(charge_below)),
        (b::STOPS_CHARGE_COLD, Each(stops_charge_cold)),
        (b::MANAGED, Each(managed)),
        (b::CUTS_CHARGE, Each(cuts_charge)),
        (b::PRE_CHARGES, Each(pre_charges)),
        (b::ILL_SET, Each(ill_set)),
        (b::ILL_MATCHED, Each(ill_matched)),
        (b::TESTED_AS_CELL, Each(tested_as_cell)),
        (b::RUNTIME, Each(runtime)),
        (f::build::MAINS_CHARGED, Each(mains_charged)),
    ]
}
