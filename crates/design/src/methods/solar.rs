//! What follows from the data of solar modules.

use super::{amperes, celsius, no_solution, volts};
use crate::circuitry::Side;
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{FactId, fact as f, fact::solar as s, fact::solar_controller as c, kind};

/// The lowest temperature in daylight, K: as said, else the brief's winter.
pub fn coldest(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<f64> {
    super::brief::own_or_said(reader, part, f::solar::COLDEST, f::brief::COLDEST_NIGHT, case)
}

/// A whole number of things.
fn whole(value: f64) -> Option<u32> {
    let fits = value.fract() == 0.0 && (1.0..=MOST_MODULES).contains(&value);
    // Evaluated only within the range checked above, where the conversion is exact.
    fits.then_some(value as u32)
}

/// More modules than any vehicle carries. Chosen, so that nonsense gets no answer.
const MOST_MODULES: f64 = 10_000.0;

/// How many strings the modules make.
fn strings(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<u32> {
    let (modules, series) =
        super::battery::both(reader.need(part, s::MODULES, case), reader.need(part, s::SERIES, case))?;
    match whole(modules / series) {
        Some(strings) => Ok(strings),
        None => no_solution(part, s::PARALLEL_STRINGS),
    }
}

/// The highest voltage of a string, V: open, on the coldest day; by the maker's coefficient, else by the table of the code.
pub fn highest_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let open = reader.need(part, s::OPEN_VOLTAGE, case);
    let per_kelvin = if reader.silent(part, s::VOLTAGE_PER_KELVIN) {
        Ok(None)
    } else {
        reader.need(part, s::VOLTAGE_PER_KELVIN, case).map(Some)
    };
    let (open, per_kelvin) = super::battery::both(open, per_kelvin)?;
    let (series, coldest) = super::battery::both(reader.need(part, s::SERIES, case), coldest(reader, part, case))?;
    let found = whole(series).and_then(|series| calc::string_cold_voltage(open, series, per_kelvin, coldest));
    let Some(cold) = found else { return no_solution(part, s::HIGHEST_VOLTAGE) };
    reader.step(|| Step {
        assumed: per_kelvin.is_none(),
        ..Step::cited(
            format!("{series} × {} × {:.3} at {} = {}", volts(open), cold.factor, celsius(coldest), volts(cold.volts)),
            cold.citation,
        )
    });
    Ok(Fact::Number(cold.volts))
}

/// The most current that it gives, A: every string, in a sun brighter than the test's.
pub fn short_circuit_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (strings, one) = super::battery::both(strings(reader, part, case), reader.need(part, s::SHORT_CURRENT, case))?;
    let Some(most) = calc::source_circuit_current(one, strings) else {
        return no_solution(part, s::SHORT_CIRCUIT_CURRENT);
    };
    reader.step(|| {
        Step::cited(
            format!("{strings} strings × {} × 1.25 for a brighter sun = {}", amperes(one), amperes(most)),
            &calc::CURRENT_FACTORS,
        )
    });
    Ok(Fact::Number(most))
}

/// The modules on a node, with what would settle whether that is all.
fn on_node(reader: &Reader<'_>, thing: PartId) -> (Vec<PartId>, Gaps) {
    let build = reader.build();
    let circuitry = build.circuitry();
    let Some(node) = circuitry.node_of(thing, Side::Input) else { return (Vec::new(), Gaps::default()) };
    let at = [Some(node)];
    let modules = circuitry
        .sources_joined(&at)
        .map(|terminal| terminal.thing)
        .filter(|thing| build.part(*thing).kind == kind::SOLAR);
    (modules.collect(), super::doubt::of_sources(reader, node))
}

/// How many strings are joined in parallel.
pub fn parallel_strings(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (mut modules, mut gaps) = on_node(reader, part);
    if modules.is_empty() {
        modules.push(part);
    }
    let mut sum = 0;
    for modules in modules {
        match strings(reader, modules, case) {
            Ok(strings) => sum += strings,
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Number(f64::from(sum))) } else { Err(gaps) }
}

/// Whether each string is said to have a fuse.
pub fn string_fuse_said(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if reader.silent(part, s::STRING_FUSE) {
        return Ok(Fact::Flag(false));
    }
    reader.need(part, s::STRING_FUSE, case).map(|_| Fact::Flag(true))
}

/// The least rating of a fuse in each string, A.
pub fn needed_string_fuse(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let one = reader.need(part, s::SHORT_CURRENT, case)?;
    match calc::source_circuit_rating(one, 1) {
        Some(rating) => {
            reader.step(|| {
                Step::cited(format!("{} × 1.25 × 1.25 = {}", amperes(one), amperes(rating)), &calc::CURRENT_FACTORS)
            });
            Ok(Fact::Number(rating))
        }
        None => no_solution(part, s::NEEDED_STRING_FUSE),
    }
}

/// Whether a disconnect or a breaker stands in the circuit of the modules.
pub fn isolated(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    let circuitry = build.circuitry();
    let meeting = circuitry.node_of(part, Side::Input).and_then(|node| circuitry.meeting.get(node));
    let Some(meeting) = meeting.filter(|meeting| !meeting.is_empty()) else {
        return Err(Gaps::one(Gap::Absent(part, kind::CIRCUIT)));
    };
    let mut gaps = Gaps::default();
    for run in meeting.iter().filter_map(|run| circuitry.runs.get(*run)) {
        let opens = run
            .pieces
            .iter()
            .any(|piece| matches!(build.part(circuitry.written(piece.part())).kind, kind::DISCONNECT | kind::BREAKER));
        if !opens && run.complete {
            return Ok(Fact::Flag(false));
        }
        if !opens {
            gaps.add(&Gaps::one(Gap::Unread(run.written)));
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(true)) } else { Err(gaps) }
}

/// The modules that feed a controller, with what would settle whether that is all.
pub fn modules_of(reader: &Reader<'_>, controller: PartId) -> (Vec<PartId>, Gaps) {
    on_node(reader, controller)
}

/// The modules that feed a controller, as a list.
pub fn modules(reader: &mut Reader<'_>, controller: PartId, _: CaseId) -> Outcome {
    let (modules, gaps) = modules_of(reader, controller);
    Ok(super::parts(modules, gaps.is_empty()))
}

/// A number of each of the modules of a controller; no solution when it has none.
fn of_modules(
    reader: &mut Reader<'_>,
    controller: PartId,
    fact: FactId,
    own: fn(&mut Reader<'_>, PartId, CaseId) -> Outcome<f64>,
    case: CaseId,
) -> Outcome<Vec<f64>> {
    let (modules, mut gaps) = modules_of(reader, controller);
    let mut values = Vec::new();
    for modules in modules {
        match own(reader, modules, case) {
            Ok(value) => values.push(value),
            Err(more) => gaps.add(&more),
        }
    }
    match values.is_empty() {
        _ if !gaps.is_empty() => Err(gaps),
        true => no_solution(controller, fact),
        false => Ok(values),
    }
}

/// The highest voltage at the input of a controller, V.
pub fn string_voltage(reader: &mut Reader<'_>, controller: PartId, case: CaseId) -> Outcome {
    let own = |reader: &mut Reader<'_>, part, case| reader.need(part, s::HIGHEST_VOLTAGE, case);
    let values = of_modules(reader, controller, c::STRING_VOLTAGE, own, case)?;
    Ok(Fact::Number(values.into_iter().fold(0.0, f64::max)))
}

/// The short-circuit current of all modules of a controller, A, in the sun of the test.
pub fn input_current(reader: &mut Reader<'_>, controller: PartId, case: CaseId) -> Outcome {
    fn own(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<f64> {
        let (strings, one) =
            super::battery::both(strings(reader, part, case), reader.need(part, s::SHORT_CURRENT, case))?;
        Ok(f64::from(strings) * one)
    }
    Ok(Fact::Number(of_modules(reader, controller, c::INPUT_CURRENT, own, case)?.into_iter().sum()))
}

/// The output current that would carry the rated power of the modules, A, at the nominal voltage of the battery.
pub fn needed_output(reader: &mut Reader<'_>, controller: PartId, case: CaseId) -> Outcome {
    fn own(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<f64> {
        let (modules, one) =
            super::battery::both(reader.need(part, s::MODULES, case), reader.need(part, s::POWER, case))?;
        Ok(modules * one)
    }
    let watts: f64 = of_modules(reader, controller, c::NEEDED_OUTPUT, own, case)?.into_iter().sum();
    let circuitry = reader.build().circuitry();
    let node = circuitry.node_of(controller, Side::Output);
    let battery = circuitry
        .sources_joined(&[node])
        .map(|terminal| terminal.thing)
        .find(|thing| reader.build().part(*thing).kind == kind::BATTERY);
    let Some(battery) = battery else { return Err(Gaps::one(Gap::Absent(controller, kind::CIRCUIT))) };
    let nominal = reader.need(battery, f::battery::VOLTAGE, case)?;
    Ok(Fact::Number(watts / nominal))
}

/// Whether it stands in a wet room.
pub fn in_wet_room(reader: &mut Reader<'_>, controller: PartId, case: CaseId) -> Outcome {
    use super::space::{Space, of};
    let zones = reader.build().of_kind(kind::ZONE);
    let wet: Vec<_> = zones.members.iter().map(|zone| reader.need_flag(*zone, f::zone::WET, case)).collect();
    // Where no room is wet, nothing stands in one.
    if zones.complete && wet.iter().all(|wet| wet == &Ok(false)) {
        return Ok(Fact::Flag(false));
    }
    match of(reader, controller, case)? {
        Space::Zone(zone) => Ok(Fact::Flag(reader.need_flag(zone, f::zone::WET, case)?)),
        Space::Outside => Ok(Fact::Flag(false)),
    }
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (s::PARALLEL_STRINGS, Each(parallel_strings)),
        (s::STRING_FUSE_SAID, Each(string_fuse_said)),
        (s::NEEDED_STRING_FUSE, Each(needed_string_fuse)),
        (s::ISOLATED, Each(isolated)),
        (c::MODULES, Each(modules)),
        (c::STRING_VOLTAGE, Each(string_voltage)),
        (c::INPUT_CURRENT, Each(input_current)),
        (c::NEEDED_OUTPUT, Each(needed_output)),
        (c::IN_WET_ROOM, Each(in_wet_room)),
    ]
}
