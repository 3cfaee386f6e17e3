//! Energy of a day: what the loads take, what the batteries hold, what sun and driving bring.

use super::bank::{fitted, is_base};
use super::battery::both;
use super::{doubt, fact_of, no_solution, show};
use crate::circuitry::Side;
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::{Reader, either};
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{fact as f, fact::battery as b, fact::brief, kind};

/// The energy that a battery gives from full, J.
pub fn of_battery(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let chemistry = super::battery::chemistry(reader, battery, case);
    let (nominal, capacity) = both(reader.need(battery, b::VOLTAGE, case), reader.need(battery, b::CAPACITY, case))?;
    let chemistry = chemistry?;
    let usable = if reader.silent(battery, b::USABLE) {
        match calc::usable_fraction(chemistry) {
            Some((usable, citation)) => {
                reader.step(|| Step {
                    assumed: true,
                    ..Step::cited(format!("usable: {}", show(usable, Dimension::RATIO)), citation)
                });
                usable
            }
            None => return Err(Gaps::one(Gap::Entry(battery, b::USABLE))),
        }
    } else {
        reader.need(battery, b::USABLE, case)?
    };
    let coldest = reader.need(battery, b::COLDEST_IN_USE, case)?;
    let Some((efficiency, efficiency_from)) = calc::discharge_efficiency(chemistry) else {
        return no_solution(battery, b::USABLE_ENERGY);
    };
    // Colder than the published rows nothing is known; a battery that is kept warmer can say so.
    let Some((cold, cold_from)) = calc::cold_capacity_factor(chemistry, coldest) else {
        return Err(Gaps::one(Gap::Entry(battery, b::COLDEST)));
    };
    let Some(energy) = calc::usable_energy(nominal, capacity, usable, efficiency, cold) else {
        return no_solution(battery, b::USABLE_ENERGY);
    };
    reader.step(|| {
        Step::cited(format!("efficiency of discharge: {}", show(efficiency, Dimension::RATIO)), efficiency_from)
    });
    reader.step(|| {
        let text = format!("at {} it gives {}", super::celsius(coldest), show(cold, Dimension::RATIO));
        Step::cited(text, cold_from)
    });
    Ok(Fact::Number(energy))
}

/// The energy of all fitted batteries, J.
pub fn usable(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let (batteries, mut gaps) = fitted(reader, case);
    let each: Vec<_> = batteries.iter().map(|battery| reader.need(*battery, b::USABLE_ENERGY, case)).collect();
    match super::sum(each) {
        Ok(sum) if gaps.is_empty() => Ok(Fact::Number(sum)),
        Ok(_) => Err(gaps),
        Err(more) => {
            gaps.add(&more);
            Err(gaps)
        }
    }
}

/// How the fitted batteries feed a node: the voltage there, V, and the part of the energy that arrives; nothing when they do
/// not.
fn fed(reader: &mut Reader<'_>, node: usize, case: CaseId) -> Outcome<Option<(Outcome<f64>, f64)>> {
    let build = reader.build();
    let mut gaps = doubt::of_sources(reader, node);
    let mut found = None;
    for source in build.circuitry().sources_joined(&[Some(node)]) {
        let way = match (build.part(source.thing).kind, source.side) {
            (kind::BATTERY, _) => match is_base(reader, source.thing, case) {
                Ok(true) => continue,
                Ok(false) => Ok((f::battery::VOLTAGE, None)),
                Err(more) => Err(more),
            },
            (kind::CONVERTER, Side::Output) => Ok((f::converter::VOLTAGE, Some(f::converter::EFFICIENCY))),
            (kind::INVERTER, Side::Output) => Ok((f::inverter::MAINS_VOLTAGE, Some(f::inverter::EFFICIENCY))),
            (kind::INVERTER_CHARGER, Side::Output) => {
                Ok((f::inverter_charger::VOLTAGE, Some(f::inverter_charger::EFFICIENCY)))
            }
            _ => continue,
        };
        let arrives = way.and_then(|(voltage, efficiency)| {
            let efficiency = efficiency.map_or(Ok(1.0), |fact| reader.need(source.thing, fact, case))?;
            Ok((reader.need(source.thing, voltage, case), efficiency))
        });
        match arrives {
            Ok(way) => found = found.or(Some(way)),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(found) } else { Err(gaps) }
}

/// What a load takes from the fitted batteries in a day, J; nothing when they do not feed it.
fn of_load(reader: &mut Reader<'_>, load: PartId, case: CaseId) -> Outcome<Option<f64>> {
    let build = reader.build();
    let facts = ["power", "current", "duty"].map(|name| fact_of(build, load, name));
    let [Some(power), Some(current), Some(duty)] = facts else { return Ok(None) };
    let Some(node) = build.circuitry().node_of(load, Side::Input) else { return Ok(None) };
    let Some((voltage, efficiency)) = fed(reader, node, case)? else { return Ok(None) };
    let watts = if !reader.silent(load, power) {
        reader.need(load, power, case)
    } else if !reader.silent(load, current) {
        both(reader.need(load, current, case), voltage).map(|(current, voltage)| current * voltage)
    } else {
        Err(either((load, power), (load, current)))
    };
    let (watts, share) = both(watts, reader.need(load, duty, case))?;
    let Some(energy) = calc::energy_per_day(watts, calc::DAY_SECONDS, share) else {
        return Err(Gaps::one(Gap::NoSolution(load, duty)));
    };
    let taken = energy / efficiency;
    let title = build.part(load).title.clone();
    reader.step(|| {
        let through = if efficiency < 1.0 { format!(" ÷ {:.0} %", efficiency * 100.0) } else { String::new() };
        Step::of(format!(
            "{title}: {} × {:.1} h a day{through} = {}",
            show(watts, Dimension::POWER),
            share * HOURS_OF_DAY,
            show(taken, Dimension::ENERGY)
        ))
    });
    Ok(Some(taken))
}

/// Hours of a day.
const HOURS_OF_DAY: f64 = 24.0;

/// What one inverter takes in a day for being switched on, J.
fn idle_of(reader: &mut Reader<'_>, inverter: PartId, case: CaseId) -> Outcome<f64> {
    let build = reader.build();
    let facts = ["idle", "on", "power"].map(|name| fact_of(build, inverter, name));
    let [Some(idle), Some(on), Some(power)] = facts else { return Ok(0.0) };
    let watts = if reader.silent(inverter, idle) {
        match calc::inverter_idle_power(reader.need(inverter, power, case)?) {
            Some((watts, citation)) => {
                reader.step(|| Step {
                    assumed: true,
                    ..Step::cited(format!("idle power not said: {}", show(watts, Dimension::POWER)), citation)
                });
                watts
            }
            None => return no_solution(inverter, idle),
        }
    } else {
        reader.need(inverter, idle, case)?
    };
    let share = reader.need(inverter, on, case)?;
    match calc::energy_per_day(watts, calc::DAY_SECONDS, share) {
        Some(energy) => {
            let title = build.part(inverter).title.clone();
            reader.step(|| {
                Step::of(format!(
                    "{title}, idle: {} × {:.1} h a day = {}",
                    show(watts, Dimension::POWER),
                    share * HOURS_OF_DAY,
                    show(energy, Dimension::ENERGY)
                ))
            });
            Ok(energy)
        }
        None => no_solution(inverter, on),
    }
}

/// What the inverters that fitted batteries feed take in a day for being switched on, J.
fn idle_sum(reader: &mut Reader<'_>, case: CaseId) -> Outcome<f64> {
    let build = reader.build();
    let mut each = Vec::new();
    for kind in [kind::INVERTER, kind::INVERTER_CHARGER] {
        let inverters = build.of_kind(kind);
        if !inverters.complete {
            each.push(Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))));
        }
        for &inverter in inverters.members.iter() {
            let Some(node) = build.circuitry().node_of(inverter, Side::Input) else { continue };
            match fed(reader, node, case) {
                Ok(Some(_)) => each.push(idle_of(reader, inverter, case)),
                Ok(None) => {}
                Err(more) => each.push(Err(more)),
            }
        }
    }
    super::sum(each)
}

/// What inverters take in a day for being switched on.
pub fn idle_a_day(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(idle_sum(reader, case)?))
}

/// What the loads take from the fitted batteries in a day, J.
pub fn a_day(reader: &mut Reader<'_>, root: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let mut each = Vec::new();
    for spec in vocabulary::parts().iter().filter(|spec| spec.fact("duty").is_some()) {
        let things = build.of_kind(spec.kind);
        if !things.complete {
            each.push(Err(Gaps::one(Gap::Unread(reader.unread_part(root)))));
        }
        for &thing in things.members.iter() {
            if let Some(taken) = of_load(reader, thing, case).transpose() {
                each.push(taken);
            }
        }
    }
    each.push(idle_sum(reader, case));
    Ok(Fact::Number(super::sum(each)?))
}

/// The shares of [`a_day`]: what each load takes from the fitted batteries, and each inverter for being switched on, J.
pub fn shares(reader: &mut Reader<'_>, case: CaseId) -> Vec<(PartId, bool, Outcome<f64>)> {
    let build = reader.build();
    let mut shares = Vec::new();
    for spec in vocabulary::parts().iter().filter(|spec| spec.fact("duty").is_some()) {
        for &thing in build.of_kind(spec.kind).members.iter() {
            if let Some(taken) = of_load(reader, thing, case).transpose() {
                shares.push((thing, false, taken));
            }
        }
    }
    for kind in [kind::INVERTER, kind::INVERTER_CHARGER] {
        for &inverter in build.of_kind(kind).members.iter() {
            let Some(node) = build.circuitry().node_of(inverter, Side::Input) else { continue };
            match fed(reader, node, case) {
                Ok(Some(_)) => shares.push((inverter, true, idle_of(reader, inverter, case))),
                Ok(None) => {}
                Err(more) => shares.push((inverter, true, Err(more))),
            }
        }
    }
    shares
}

/// How long the fitted batteries feed the loads, s.
pub fn autonomy(reader: &mut Reader<'_>, root: PartId, case: CaseId) -> Outcome {
    let (usable, taken) =
        both(reader.need(root, f::build::USABLE_ENERGY, case), reader.need(root, f::build::ENERGY_A_DAY, case))?;
    match calc::days_of_autonomy(usable, taken) {
        Some(days) => Ok(Fact::Number(days * calc::DAY_SECONDS)),
        None => no_solution(root, f::build::AUTONOMY),
    }
}

/// Whether the brief says how long the build must live on its own stores.
pub fn off_grid_asked(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    Ok(Fact::Flag(build.only(kind::BRIEF).is_some_and(|brief| !reader.silent(brief, brief::OFF_GRID))))
}

/// An entry of the brief.
fn of_brief(reader: &mut Reader<'_>, fact: vocabulary::FactId, case: CaseId) -> Outcome<f64> {
    match reader.build().only(kind::BRIEF) {
        Some(brief) => reader.need(brief, fact, case),
        None => Err(Gaps(vec![AnyOf(vec![Gap::Absent(Build::ROOT, kind::BRIEF)])])),
    }
}

/// How long it must live on its own stores, s.
pub fn off_grid(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(of_brief(reader, brief::OFF_GRID, case)?))
}

/// The part of the modules' power that arrives in a battery: 0.7, for heat, dirt, slope and the controller (common practice, no source; a
/// published worked day uses it).
const SOLAR_ARRIVES: f64 = 0.7;

/// What sun and driving bring into the fitted batteries in a day, J.
pub fn harvest_a_day(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let (batteries, mut gaps) = fitted(reader, case);
    let build = reader.build();
    let mut each: Vec<Outcome<f64>> = Vec::new();
    let mut seen: Vec<PartId> = Vec::new();
    for battery in batteries {
        let (sources, more) = super::charging::sources(reader, battery);
        gaps.add(&more);
        for source in sources {
            if seen.contains(&source.thing) {
                continue;
            }
            seen.push(source.thing);
            match build.part(source.thing).kind {
                kind::SOLAR => each.push(of_sun(reader, source.thing, case)),
                kind::SOLAR_CONTROLLER => {
                    let (modules, more) = super::solar::modules_of(reader, source.thing);
                    gaps.add(&more);
                    each.extend(modules.into_iter().map(|modules| of_sun(reader, modules, case)));
                }
                kind::CHARGER => each.push(of_driving(reader, source.thing, battery, case)),
                _ => {}
            }
        }
    }
    match super::sum(each) {
        Ok(sum) if gaps.is_empty() => Ok(Fact::Number(sum)),
        Ok(_) => Err(gaps),
        Err(more) => {
            gaps.add(&more);
            Err(gaps)
        }
    }
}

fn of_sun(reader: &mut Reader<'_>, modules: PartId, case: CaseId) -> Outcome<f64> {
    let (power, count) =
        both(reader.need(modules, f::solar::POWER, case), reader.need(modules, f::solar::MODULES, case))?;
    let hours = of_brief(reader, brief::SUN, case)?;
    let energy = power * count * hours * calc::DAY_SECONDS * SOLAR_ARRIVES;
    let title = reader.build().part(modules).title.clone();
    reader.step(|| {
        Step::assumed(
            format!(
                "{title}: {:.1} h of full sun × {SOLAR_ARRIVES} = {}",
                hours * HOURS_OF_DAY,
                show(energy, Dimension::ENERGY)
            ),
            "part of the power that arrives in the battery (common practice)",
        )
    });
    Ok(energy)
}

fn of_driving(reader: &mut Reader<'_>, charger: PartId, battery: PartId, case: CaseId) -> Outcome<f64> {
    if reader.need_word(charger, f::charger::KIND, case)? == "mains" {
        return Ok(0.0);
    }
    let (current, voltage) =
        both(reader.need(charger, f::charger::OUTPUT, case), reader.need(battery, b::VOLTAGE, case))?;
    let share = of_brief(reader, brief::DRIVING, case)?;
    let energy = current * voltage * share * calc::DAY_SECONDS;
    let title = reader.build().part(charger).title.clone();
    reader.step(|| {
        Step::of(format!("{title}: {:.1} h of driving = {}", share * HOURS_OF_DAY, show(energy, Dimension::ENERGY)))
    });
    Ok(energy)
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (b::USABLE_ENERGY, Each(of_battery)),
        (f::build::USABLE_ENERGY, Each(usable)),
        (f::build::IDLE_ENERGY_A_DAY, Each(idle_a_day)),
        (f::build::ENERGY_A_DAY, Each(a_day)),
        (f::build::AUTONOMY, Each(autonomy)),
        (f::build::OFF_GRID_ASKED, Each(off_grid_asked)),
        (f::build::OFF_GRID, Each(off_grid)),
        (f::build::HARVEST_A_DAY, Each(harvest_a_day)),
    ]
}
