//! Air of a space where people are: its open flames, its fixed openings, and what flows.

use super::battery::both;
use super::gas::{appliances, locker};
use super::space::{self, Space};
use super::{no_solution, parts, show, sum};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{PartKind, fact as f, fact::zone as z, kind};

/// How deep zones stand in one another: as deep as a text may nest.
const DEEPEST: usize = 32;

/// What may burn with the air of its space.
const FLAMES: [PartKind; 3] = [kind::HEATER, kind::COOKER, kind::ABSORPTION_FRIDGE];

/// Warmer inside than outside for the stack, K, and inside in K: 10 K and 20 °C (chosen: a mild evening with the hob on).
const WARMER: f64 = 10.0;
const INSIDE: f64 = 293.15;
/// Flames burn with twice the least air.
const EXCESS: f64 = 1.0;
const HOUR: f64 = 3_600.0;

/// The zone that a zone is part of.
pub(super) fn outer(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<Option<PartId>> {
    if reader.silent(zone, z::INSIDE) {
        return Ok(None);
    }
    match space::named(reader, zone, z::INSIDE, case)? {
        Space::Zone(outer) => Ok(Some(outer)),
        Space::Outside => Ok(None),
    }
}

/// Whether a zone is another or part of it.
pub(super) fn within(reader: &mut Reader<'_>, zone: PartId, whole: PartId, case: CaseId) -> Outcome<bool> {
    let mut at = zone;
    for _ in 0..DEEPEST {
        if at == whole {
            return Ok(true);
        }
        match outer(reader, at, case)? {
            Some(next) => at = next,
            None => return Ok(false),
        }
    }
    Ok(false)
}

fn whole_living_space(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    if reader.need_word(zone, z::KIND, case)? != "living" {
        return Ok(Fact::Flag(false));
    }
    let mut at = zone;
    for _ in 0..DEEPEST {
        let Some(next) = outer(reader, at, case)? else { return Ok(Fact::Flag(true)) };
        if next == zone || reader.need_word(next, z::KIND, case)? == "living" {
            return Ok(Fact::Flag(false));
        }
        at = next;
    }
    Ok(Fact::Flag(false))
}

/// Whether something burns with the air of the space around it.
fn burns_open(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<bool> {
    if appliances::fuel(reader, part, case)? == "none" {
        return Ok(false);
    }
    match super::fact_of(reader.build(), part, "combustion") {
        Some(fact) => Ok(reader.need_word(part, fact, case)? == "open"),
        None => Ok(true),
    }
}

/// The members of some kinds that stand in a zone or in a part of it and for which something holds.
fn those_in(
    reader: &mut Reader<'_>,
    zone: PartId,
    kinds: &[PartKind],
    case: CaseId,
    holds: fn(&mut Reader<'_>, PartId, CaseId) -> Outcome<bool>,
) -> (Vec<PartId>, Gaps) {
    let build = reader.build();
    let mut found = Vec::new();
    let mut gaps = Gaps::default();
    if !super::complete(reader, kinds) {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    for &part in kinds.iter().flat_map(|kind| build.of_kind(*kind).members.iter()) {
        let held = holds(reader, part, case);
        if held == Ok(false) {
            continue;
        }
        let here = match space::of(reader, part, case) {
            Ok(Space::Zone(own)) => within(reader, own, zone, case),
            Ok(Space::Outside) => Ok(false),
            Err(more) => Err(more),
        };
        match (here, held) {
            (Ok(false), _) => {}
            (Ok(true), Ok(_)) => found.push(part),
            (Ok(true), Err(more)) | (Err(more), _) => gaps.add(&more),
        }
    }
    found.sort_unstable();
    (found, gaps)
}

fn open_flames(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = those_in(reader, zone, &FLAMES, case, burns_open);
    Ok(parts(found, gaps.is_empty()))
}

fn open_flue(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome<bool> {
    if !burns_open(reader, heater, case)? {
        return Ok(false);
    }
    let exhausts = reader.build().inside(heater, kind::EXHAUST);
    if exhausts.members.is_empty() && !exhausts.complete {
        return Err(Gaps::one(Gap::Unread(heater)));
    }
    Ok(!exhausts.members.is_empty())
}

fn open_flues(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = those_in(reader, zone, &[kind::HEATER], case, open_flue);
    Ok(parts(found, gaps.is_empty()))
}

const LOW: &[&str] = &["low"];
const WALL: &[&str] = &["high"];
const ROOF: &[&str] = &["roof"];
const ANY: &[&str] = &["low", "high", "roof"];

fn fixed_low(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(locker::fixed(reader, zone, LOW, case)?))
}

/// Roof openings in full and wall openings by half: EN 721 asks twice the area of a wall.
fn fixed_high(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (roof, wall) = both(locker::fixed(reader, zone, ROOF, case), locker::fixed(reader, zone, WALL, case))?;
    reader.step(|| {
        let text =
            format!("{} in the roof + half of {} in walls", show(roof, Dimension::AREA), show(wall, Dimension::AREA));
        Step::cited(text, &calc::air::EN_721_OPEN)
    });
    Ok(Fact::Number(roof + wall / 2.0))
}

fn fixed_total(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(locker::fixed(reader, zone, ANY, case)?))
}

/// The row of EN 721 for the vehicle.
fn en_721(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<calc::air::FixedOpenings> {
    let plan = reader.need(Build::ROOT, f::build::PLAN_AREA, case)?;
    let Some(row) = calc::air::en_721_open(plan) else { return no_solution(zone, z::HIGH_NEEDED) };
    reader.step(|| {
        let text = format!(
            "plan area {}: high {} in the roof (or {} in a wall), low {}",
            show(plan, Dimension::AREA),
            show(row.roof, Dimension::AREA),
            show(row.wall, Dimension::AREA),
            show(row.low, Dimension::AREA)
        );
        Step::cited(text, &calc::air::EN_721_OPEN)
    });
    Ok(row)
}

fn low_needed(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(en_721(reader, zone, case)?.low))
}

fn high_needed(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(en_721(reader, zone, case)?.roof))
}

/// The opening m² that is due where nothing burns openly, as far as that decides: the least where the fixed openings are smaller, the most where
/// they are not. What lies between is settled by a proof alone.
fn due_for_people(
    reader: &mut Reader<'_>,
    zone: PartId,
    fixed: vocabulary::FactId,
    of: fn(&calc::air::FixedOpenings) -> f64,
    case: CaseId,
) -> Outcome {
    let fixed = reader.need(zone, fixed, case)?;
    let least = of(&calc::air::EN_721_SEALED_TO_10);
    let told = |reader: &mut Reader<'_>, text: String| reader.step(|| Step::cited(text, &calc::air::EN_721_SEALED));
    if fixed < least {
        told(reader, format!("{} are due in a vehicle of any size", show(least, Dimension::AREA)));
        return Ok(Fact::Number(least));
    }
    let plan = reader.need(Build::ROOT, f::build::PLAN_AREA, case)?;
    let Some([_, most]) = calc::air::en_721_sealed(plan) else { return no_solution(zone, z::LOW_DUE) };
    let most = of(&most);
    let [plan, shown] = [plan, most].map(|area| show(area, Dimension::AREA));
    told(reader, format!("plan area {plan}: no more than {shown} is due"));
    if fixed >= most { Ok(Fact::Number(most)) } else { Err(Gaps::one(Gap::Entry(zone, z::AIR_PROOF))) }
}

fn low_due(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    due_for_people(reader, zone, z::FIXED_LOW, |openings| openings.low, case)
}

fn high_due(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    due_for_people(reader, zone, z::FIXED_HIGH, |openings| openings.roof, case)
}

fn slept_aboard(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(reader.need(Build::ROOT, f::build::SLEEPERS, case)? > 0.0))
}

/// The gross heat that the open flames of a zone take, W; of gas alone where that is asked.
fn flames_input(reader: &mut Reader<'_>, zone: PartId, gas_alone: bool, case: CaseId) -> Outcome<f64> {
    let (found, gaps) = those_in(reader, zone, &FLAMES, case, burns_open);
    let mut inputs = Vec::new();
    if !gaps.is_empty() {
        inputs.push(Err(gaps));
    }
    for flame in found {
        match appliances::fuel(reader, flame, case) {
            Ok(fuel) if gas_alone && fuel != "gas" => {}
            Ok(_) => inputs.push(appliances::input(reader, flame, case)),
            Err(more) => inputs.push(Err(more)),
        }
    }
    sum(inputs)
}

/// Joules in a megajoule.
const MEGAJOULE: f64 = 1e6;

fn total_needed(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let input = flames_input(reader, zone, true, case);
    let (input, sleepers) = both(input, reader.need(Build::ROOT, f::build::SLEEPERS, case))?;
    let Some(area) = calc::air::australian_openings(input, sleepers) else {
        return no_solution(zone, z::TOTAL_NEEDED);
    };
    reader.step(|| {
        let text = format!(
            "610 mm² × {:.1} MJ/h + 650 mm² × {sleepers:.0} sleeping, at least 4,000 mm²: {}",
            input * HOUR / MEGAJOULE,
            show(area, Dimension::AREA)
        );
        Step::cited(text, &calc::air::AUSTRALIAN_OPENINGS)
    });
    Ok(Fact::Number(area))
}

fn flame_air(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let input = flames_input(reader, zone, false, case)?;
    let Some(flow) = calc::air::combustion_air(input, EXCESS) else { return no_solution(zone, z::FLAME_AIR) };
    reader.step(|| {
        let text = format!("{} with 100 % excess air: {}", show(input, Dimension::POWER), show(flow, Dimension::FLOW));
        Step::cited(text, &calc::air::COMBUSTION_AIR)
    });
    Ok(Fact::Number(flow))
}

/// Length, width and height of a zone, m.
fn size(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<[f64; 3]> {
    match reader.fact(zone, z::SIZE, case)? {
        Fact::Lengths(size) => Ok(size),
        _ => no_solution(zone, z::STACK_AIR),
    }
}

fn stack_air(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let high = both(locker::fixed(reader, zone, ROOF, case), locker::fixed(reader, zone, WALL, case));
    let low = locker::fixed(reader, zone, LOW, case);
    let (roof, wall) = high?;
    let low = low?;
    let height = size(reader, zone, case)?[2];
    let flow = calc::air::stack_flow(low, roof + wall, height, INSIDE, INSIDE - WARMER);
    let Some(flow) = flow else { return no_solution(zone, z::STACK_AIR) };
    reader.step(|| Step {
        assumed: true,
        ..Step::cited(
            format!(
                "{} low and {} high, {} apart, {WARMER:.0} K warmer inside: {}",
                show(low, Dimension::AREA),
                show(roof + wall, Dimension::AREA),
                show(height, Dimension::LENGTH),
                show(flow, Dimension::FLOW)
            ),
            &calc::air::OPENING_FLOW,
        )
    });
    Ok(Fact::Number(flow))
}

fn carbon_monoxide(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let input = flames_input(reader, zone, false, case);
    let (input, fresh) = both(input, reader.need(zone, z::STACK_AIR, case))?;
    let room: f64 = size(reader, zone, case)?.iter().product();
    let found = calc::air::carbon_monoxide_of_flame(input, calc::air::FAULT_SHARE)
        .and_then(|production| calc::air::carbon_monoxide_after(production, fresh, room, HOUR));
    let Some(share) = found else { return no_solution(zone, z::CARBON_MONOXIDE_IN_AN_HOUR) };
    reader.step(|| Step {
        assumed: true,
        ..Step::cited(
            format!(
                "{} burning badly for an hour in {} with {} of fresh air: {:.0} ppm",
                show(input, Dimension::POWER),
                show(room, Dimension::VOLUME),
                show(fresh, Dimension::FLOW),
                share * 1e6
            ),
            &calc::air::FAULT_RATIO,
        )
    });
    Ok(Fact::Number(share))
}

fn fan_flow(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (fans, gaps) = those_in(reader, zone, &[kind::FAN], case, |_, _, _| Ok(true));
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let flows: Vec<_> = fans.into_iter().map(|fan| reader.need(fan, f::fan::FLOW, case)).collect();
    Ok(Fact::Number(sum(flows)?))
}

fn fan_suction(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (flow, area) = both(reader.need(zone, z::FAN_FLOW, case), reader.need(zone, z::FIXED_TOTAL, case))?;
    if flow == 0.0 {
        return Ok(Fact::Number(0.0));
    }
    match calc::air::fan_suction(flow, area) {
        Some(suction) => {
            reader.step(|| {
                let text = format!(
                    "{} in through {}: {}",
                    show(flow, Dimension::FLOW),
                    show(area, Dimension::AREA),
                    show(suction, Dimension::PRESSURE)
                );
                Step::cited(text, &calc::air::OPENING_FLOW)
            });
            Ok(Fact::Number(suction))
        }
        // Without an opening the suction is the fan's own, which nobody says.
        None => Err(Gaps(vec![AnyOf(vec![Gap::Absent(zone, kind::VENT)])])),
    }
}

/// Whether a vent leads from a space with open flames to the open air.
fn airs_flames(reader: &mut Reader<'_>, vent: PartId, case: CaseId) -> Outcome {
    let Some(zone) = reader.build().part(vent).outer else { return Ok(Fact::Flag(false)) };
    if !reader.need_flag(zone, z::WHOLE_LIVING_SPACE, case)? {
        return Ok(Fact::Flag(false));
    }
    let flames = reader.parts(zone, z::OPEN_FLAMES, case);
    if flames.members.is_empty() {
        return if flames.complete { Ok(Fact::Flag(false)) } else { Err(reader.gaps(zone, z::OPEN_FLAMES, case)) };
    }
    Ok(Fact::Flag(locker::counts(reader, vent, ANY, case)?))
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (z::WHOLE_LIVING_SPACE, Each(whole_living_space)),
        (z::OPEN_FLAMES, Each(open_flames)),
        (z::OPEN_FLUES, Each(open_flues)),
        (z::FIXED_LOW, Each(fixed_low)),
        (z::FIXED_HIGH, Each(fixed_high)),
        (z::FIXED_TOTAL, Each(fixed_total)),
        (z::LOW_NEEDED, Each(low_needed)),
        (z::HIGH_NEEDED, Each(high_needed)),
        (z::SLEPT_ABOARD, Each(slept_aboard)),
        (z::LOW_DUE, Each(low_due)),
        (z::HIGH_DUE, Each(high_due)),
        (z::TOTAL_NEEDED, Each(total_needed)),
        (z::FLAME_AIR, Each(flame_air)),
        (z::STACK_AIR, Each(stack_air)),
        (z::CARBON_MONOXIDE_IN_AN_HOUR, Each(carbon_monoxide)),
        (z::FAN_FLOW, Each(fan_flow)),
        (z::FAN_SUCTION, Each(fan_suction)),
        (f::vent::AIRS_FLAMES, Each(airs_flames)),
    ]
}
