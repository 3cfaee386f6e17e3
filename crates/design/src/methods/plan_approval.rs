//! What of a unit in which people work has its plans approved before it is built.

use super::checklist::Checklist;
use super::{any_that, floor, gas, is_any, one_holds};
use crate::binding::{Bindings, Method};
use crate::circuitry::End;
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::{Build, Part};
use crate::reader::Reader;
use crate::working::Step;
use calc::{PLAN_APPROVAL, PLAN_LIMITS};
use vocabulary::{FactId, PartKind, fact as f, fact::build as b, kind};

/// What has plans approved, as the finding and the papers say it, and how it is told.
const TRIGGERS: Checklist = Checklist {
    items: &[
        ("gas piping or what burns gas", burns_gas),
        ("a fire of wood or charcoal", burns_solid_fuel),
        ("a hood over a cooker", has_hood),
        ("a supply above 30 A or 120 V, or a source of more than 3,600 VA", exceeds_small_supply),
        ("more than five circuits of alternating current", has_many_circuits),
        ("solar modules", has_solar),
        ("drains that carry bodily waste", drains_bodily_waste),
        ("more than 500 lb on 16 ft² of floor or less", loads_floor),
    ],
    answers: ["yes", "no"],
    step: |text| Step::cited(text, &PLAN_APPROVAL),
};

fn burns_gas(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    let (burning, gaps) = gas::appliances::burning_gas(reader, case);
    let burns = match gaps.is_empty() {
        _ if !burning.is_empty() => Ok(true),
        true => Ok(false),
        false => Err(gaps),
    };
    one_holds([burns, is_any(reader, kind::GAS_LINE)])
}

fn burns_solid_fuel(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    let burns = [(kind::HEATER, f::heater::FUEL), (kind::COOKER, f::cooker::FUEL)].map(|(kind, fuel)| {
        any_that(reader, kind, |reader, part| Ok(matches!(reader.need_word(part, fuel, case)?, "wood" | "charcoal")))
    });
    one_holds(burns)
}

fn has_hood(reader: &mut Reader<'_>, _: CaseId) -> Outcome<bool> {
    is_any(reader, kind::HOOD)
}

fn has_solar(reader: &mut Reader<'_>, _: CaseId) -> Outcome<bool> {
    is_any(reader, kind::SOLAR)
}

fn drains_bodily_waste(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    let tank =
        any_that(reader, kind::TANK, |reader, tank| Ok(reader.need_word(tank, f::tank::HOLDS, case)? == "black"));
    // What a cassette, a portable or a composting toilet takes is carried out by hand.
    let toilet = any_that(reader, kind::TOILET, |reader, toilet| {
        Ok(reader.need_word(toilet, f::toilet::KIND, case)? == "marine")
    });
    one_holds([tank, toilet])
}

/// Supplies from a site by current, voltage and legs; sources aboard by their power.
fn exceeds_small_supply(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    let supplies = any_that(reader, kind::INLET, |reader, inlet| {
        let above =
            [(f::inlet::RATING, PLAN_LIMITS.current), (f::inlet::VOLTAGE, PLAN_LIMITS.voltage), (f::inlet::LEGS, 1.0)];
        one_holds(above.map(|(fact, most)| Ok(reader.need(inlet, fact, case)? > most)))
    });
    const SOURCES: [(PartKind, FactId); 3] = [
        (kind::GENERATOR, f::generator::POWER),
        (kind::INVERTER, f::inverter::POWER),
        (kind::INVERTER_CHARGER, f::inverter_charger::POWER),
    ];
    let sources = SOURCES.map(|(kind, power)| {
        any_that(reader, kind, |reader, source| Ok(reader.need(source, power, case)? > PLAN_LIMITS.power))
    });
    one_holds([supplies].into_iter().chain(sources))
}

/// Whether a way of a board of alternating current feeds another board: it is no circuit of its own.
fn feeds_board(build: &Build, way: PartId) -> bool {
    let circuitry = build.circuitry();
    let ends = circuitry.runs.iter().filter(|run| run.written == way).filter_map(|run| run.node(End::Finish));
    ends.into_iter().any(|end| circuitry.terminals(&[end]).any(|met| build.part(met.thing).kind == kind::AC_BOARD))
}

/// The ways of all boards of alternating current.
fn has_many_circuits(reader: &mut Reader<'_>, _: CaseId) -> Outcome<bool> {
    let build = reader.build();
    let boards = build.of_kind(kind::AC_BOARD);
    let mut circuits = 0.0;
    let mut unread: Vec<Gap> = Vec::new();
    if !boards.complete {
        unread.push(Gap::Unread(reader.unread_part(Build::ROOT)));
    }
    for &board in boards.members.iter() {
        let ways = build.inside(board, kind::WAY);
        circuits += f64::from(
            u32::try_from(ways.members.iter().filter(|way| !feeds_board(build, **way)).count()).unwrap_or(u32::MAX),
        );
        if !ways.complete {
            unread.push(Gap::Unread(board));
        }
    }
    match circuits > PLAN_LIMITS.circuits {
        true => Ok(true),
        false if unread.is_empty() => Ok(false),
        false => Err(Gaps(vec![AnyOf(unread)])),
    }
}

fn loads_floor(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    let known = any_that(reader, kind::FLOOR_THING, |reader, thing| floor::is_concentrated(reader, thing, case));
    // What could not be read may be heavy.
    let build = reader.build();
    let weighs = |part: &Part| vocabulary::part(part.kind).fact("mass").is_some();
    let spoilt = build.parts().find(|(_, part)| part.unread && weighs(part));
    let unread = reader.burdens().unread.clone();
    let listed = if unread.is_empty() { Ok(false) } else { Err(unread) };
    let read = spoilt.map_or(Ok(false), |(part, _)| Err(Gaps::one(Gap::Unread(part))));
    one_holds([known, listed, read])
}

fn plans_due(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    TRIGGERS.any(reader, true, case).map(Fact::Flag)
}

fn plan_triggers(reader: &mut Reader<'_>, root: PartId, case: CaseId) -> Outcome {
    TRIGGERS.those(reader, true, (root, b::PLAN_TRIGGERS_AT_BEST), case)
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    vec![(b::PLANS_DUE, Method::Each(plans_due)), (b::PLAN_TRIGGERS_AT_BEST, Method::Each(plan_triggers))]
}
