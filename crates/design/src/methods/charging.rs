//! What charges a battery, with how much, and what it bears.

use super::bank::{fitted, is_base, joined, part_of_bank};
use super::battery::both;
use super::{amperes, doubt, fact_of, no_solution, source, volts};
use crate::circuitry::{Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{fact as f, fact::battery as b, kind};

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
pub fn inverters_of(reader: &Reader<'_>, battery: PartId) -> (Vec<PartId>, Gaps) {
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
    const RATED: f64 = 20.0 * 3_600.0;
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
        (b::DISCHARGE_CURRENT, Each(discharge_current)),
        (b::INVERTERS, Each(inverters)),
        (b::INVERTER_SURGE_CURRENT, Each(inverter_surge_current)),
        (b::ILL_SET, Each(ill_set)),
        (b::ILL_MATCHED, Each(ill_matched)),
        (b::RUNTIME, Each(runtime)),
        (f::build::MAINS_CHARGED, Each(mains_charged)),
    ]
}
