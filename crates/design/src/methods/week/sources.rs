//! What charges the fitted batteries in the week: sun, driving, shore, generator; what costs nothing first.

use super::sky::{self, Sky};
use super::told::{Known, Sort, belongs, from_hour, of_brief};
use crate::circuitry::{Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, Gap, Gaps, PartId};
use crate::methods::battery::both;
use crate::methods::{amperes, charging, fact_of, no_solution, solar};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::week::{
    DAYS, DayProfile, Driving, Entry, Limit, Link, Mains, MainsKind, STEPS_PER_DAY, Source, SourceEntry, Sun,
    WeekProfile,
};
use vocabulary::{FactId, PartKind, fact as f, kind};

/// The sources as entries, with the sort of each.
#[derive(Default)]
pub(super) struct Brought {
    pub sources: Vec<Source>,
    pub sorts: Vec<Sort>,
    /// The most of the sources of the sun, by place.
    pub most: Vec<(usize, DayProfile)>,
    /// What would settle how much sun there is.
    pub range: Gaps,
    /// What would settle whether these are all.
    pub doubt: Gaps,
}

/// When it is driven, h after midnight: from nine in the morning on (chosen).
const SETS_OUT: f64 = 9.0;
/// From when to when it hangs on the shore, h after midnight (chosen: after arrival, before departure).
const NIGHT: [f64; 2] = [18.0, 8.0];
/// When a generator is started, h after midnight (chosen: before quiet hours, when the sun has gone).
const GENERATOR_STARTS: f64 = 17.0;
/// Output over input power of chargers (fact of the trade: 85 to 92 %, from memory).
const CHARGER_EFFICIENCY: f64 = 0.88;

/// What a source was made from, before its place is known.
struct Found {
    terminal: Terminal,
    battery: PartId,
}

/// Gathers what charges the batteries; `volts` is the nominal voltage of the store. Currents count at this voltage, since a battery stores
/// charge and gives it back at about its nominal voltage.
pub(super) fn gather(reader: &mut Reader<'_>, batteries: &[PartId], volts: Option<f64>, known: &mut Known) -> Brought {
    let build = reader.build();
    let mut brought = Brought::default();
    let mut found: Vec<Found> = Vec::new();
    let mut doubt = Gaps::default();
    for &battery in batteries {
        let (sources, gaps) = charging::sources(reader, battery);
        doubt.add(&gaps);
        for terminal in sources {
            // Behind a relay a source belongs to one bank alone.
            if !build
                .circuitry()
                .node_of(terminal.thing, terminal.side)
                .is_some_and(|at| belongs(reader, at, known.week))
            {
                continue;
            }
            if found.iter().all(|other| other.terminal.thing != terminal.thing) {
                found.push(Found { terminal, battery });
            }
        }
    }
    found.retain(|found| {
        // Of which sort a charger is decides when it works.
        let charger = found.terminal.thing;
        let is_charger = build.part(charger).kind == kind::CHARGER;
        match is_charger.then(|| reader.need_word(charger, f::charger::KIND, known.case)) {
            Some(Err(gaps)) => {
                doubt.add(&gaps);
                false
            }
            _ => true,
        }
    });
    let of_kind = |kind: PartKind| found.iter().filter(move |found| build.part(found.terminal.thing).kind == kind);
    let mut sky: Option<Outcome<Sky>> = None;
    for found in of_kind(kind::SOLAR_CONTROLLER) {
        let controller = found.terminal.thing;
        let (modules, gaps) = solar::modules_of(reader, controller);
        if modules.is_empty() && gaps.is_empty() {
            continue;
        }
        let limit = reader.need(controller, f::solar_controller::OUTPUT, known.case);
        add_sun(reader, &modules, &gaps, Some((limit, volts)), &mut sky, known, &mut brought);
    }
    for found in of_kind(kind::SOLAR) {
        add_sun(reader, &[found.terminal.thing], &Gaps::default(), None, &mut sky, known, &mut brought);
    }
    let driven: Vec<&Found> = found.iter().filter(|found| by_driving(reader, found.terminal.thing, known)).collect();
    for found in &driven {
        add_driving(reader, found, volts, &driven, known, &mut brought);
    }
    for found in &found {
        match build.part(found.terminal.thing).kind {
            kind::INVERTER_CHARGER => add_mains(reader, found, volts, known, &mut brought),
            kind::CHARGER if !driven.iter().any(|other| other.terminal == found.terminal) => {
                add_mains(reader, found, volts, known, &mut brought);
            }
            _ => {}
        }
    }
    brought.doubt = doubt.clone();
    if !doubt.is_empty() {
        // There may be another source that the text leaves open.
        let at = brought.sources.len();
        known.take::<()>(Err(doubt), Entry::Source(at, SourceEntry::Power));
        brought.sources.push(Source::Sun(Box::new(Sun {
            watts: None,
            by_day: Some([1.0; DAYS]),
            controller: Limit::None,
        })));
        brought.sorts.push(Sort::Sun);
    }
    brought
}

/// A sum of days' courses.
fn add_up(sum: &DayProfile, more: &DayProfile) -> DayProfile {
    let mut steps = [0.0; STEPS_PER_DAY];
    for ((step, one), other) in steps.iter_mut().zip(sum.steps()).zip(more.steps()) {
        *step = one + other;
    }
    DayProfile::by_step(steps)
}

fn add_sun(
    reader: &mut Reader<'_>,
    modules: &[PartId],
    doubt: &Gaps,
    controller: Option<(Outcome<f64>, Option<f64>)>,
    sky: &mut Option<Outcome<Sky>>,
    known: &mut Known,
    brought: &mut Brought,
) {
    let at = brought.sources.len();
    let sky = &*sky.get_or_insert_with(|| sky::sky(reader, known));
    let mut days = Ok([DayProfile::constant(0.0), DayProfile::constant(0.0)]);
    for &part in modules {
        let more = match sky {
            Ok(sky) => sky::modules(reader, part, sky, known),
            Err(gaps) => Err(gaps.clone()),
        };
        days = both(days, more)
            .map(|([least, most], [more_least, more_most])| [add_up(&least, &more_least), add_up(&most, &more_most)]);
    }
    if !doubt.is_empty() {
        days = Err(doubt.clone());
    }
    if let Ok(sky) = sky {
        brought.range.add(&sky.open);
    }
    let watts = known.take(days, Entry::Source(at, SourceEntry::Power));
    let (least, most) = watts.map_or((None, None), |[least, most]| (Some(least), Some(most)));
    let limit = match controller {
        None => Limit::None,
        Some((output, volts)) => {
            let output = known.take(output, Entry::Source(at, SourceEntry::Controller));
            output.zip(volts).map_or(Limit::Unknown, |(output, volts)| Limit::Known(output * volts))
        }
    };
    brought.most.extend(most.map(|most| (at, most)));
    brought.sources.push(Source::Sun(Box::new(Sun { watts: least, by_day: Some([1.0; DAYS]), controller: limit })));
    brought.sorts.push(Sort::Sun);
}

/// Whether a source works by the engine.
fn by_driving(reader: &mut Reader<'_>, thing: PartId, known: &Known) -> bool {
    match reader.build().part(thing).kind {
        kind::ALTERNATOR | kind::TRAILER_PLUG => true,
        kind::CHARGER => reader.need_word(thing, f::charger::KIND, known.case) == Ok("dc-to-dc"),
        _ => false,
    }
}

/// The alternators and plugs of a towing vehicle that feed a charger: joined to its input, or to a battery there.
fn engines(reader: &mut Reader<'_>, thing: PartId, known: &Known) -> Vec<PartId> {
    let build = reader.build();
    if build.part(thing).kind != kind::CHARGER {
        return vec![thing];
    }
    let circuitry = build.circuitry();
    let Some(node) = circuitry.node_of(thing, Side::Input) else { return Vec::new() };
    let nodes = circuitry.reached(node);
    let joined: Vec<PartId> = circuitry.terminals(&nodes).map(|terminal| terminal.thing).collect();
    let mut engines: Vec<PartId> = joined
        .iter()
        .copied()
        .filter(|thing| matches!(build.part(*thing).kind, kind::ALTERNATOR | kind::TRAILER_PLUG))
        .collect();
    for &alternator in build.of_kind(kind::ALTERNATOR).members.iter() {
        if engines.contains(&alternator) || reader.silent(alternator, f::alternator::FROM) {
            continue;
        }
        if let Ok(Fact::Part(named)) = reader.fact(alternator, f::alternator::FROM, known.case)
            && joined.contains(&named)
        {
            engines.push(alternator);
        }
    }
    engines
}

/// What an engine leaves for charging while driving and at idle, and its voltage.
fn spare(reader: &mut Reader<'_>, engine: PartId, known: &Known) -> Outcome<[f64; 2]> {
    let case = known.case;
    if reader.build().part(engine).kind == kind::TRAILER_PLUG {
        // A towing vehicle gives what its fuse lets through, idling as driving.
        let fuse = reader.need(engine, f::trailer_plug::FUSE, case)?;
        return Ok([fuse, fuse]);
    }
    let leaves = reader.need(engine, f::alternator::LEAVES, case)?;
    let output = reader.need(engine, f::alternator::OUTPUT, case);
    let idle = if reader.silent(engine, f::alternator::IDLE) {
        output.clone().map(|output| calc::alternator_idle_output(output).unwrap_or(0.0))
    } else {
        reader.need(engine, f::alternator::IDLE, case)
    };
    let (output, idle) = both(output, idle)?;
    // Hot, it gives less than its label says, and the vehicle takes the same at idle as while driving.
    let hot = calc::alternator_hot_output(output).unwrap_or(output).max(leaves);
    let vehicle = hot - leaves;
    Ok([leaves, (idle - vehicle).max(0.0)])
}

fn add_driving(
    reader: &mut Reader<'_>,
    found: &Found,
    volts: Option<f64>,
    driven: &[&Found],
    known: &mut Known,
    brought: &mut Brought,
) {
    let at = brought.sources.len();
    let entry = |entry| Entry::Source(at, entry);
    let thing = found.terminal.thing;
    let case = known.case;
    let engines = engines(reader, thing, known);
    let spare = match engines.first() {
        Some(engine) => spare(reader, *engine, known).map(|spare| {
            // Chargers on one engine share what it leaves.
            let sharing = driven.iter().filter(|other| {
                other.terminal.thing == thing || self::engines(reader, other.terminal.thing, known).contains(engine)
            });
            let share = sharing.count().max(1) as f64;
            spare.map(|amperes| amperes / share)
        }),
        None => Err(Gaps::one(Gap::Absent(Build::ROOT, kind::ALTERNATOR))),
    };
    let spare = known.take(spare, entry(SourceEntry::Amperes));
    if spare.is_none() {
        let again = known.gaps_of(entry(SourceEntry::Amperes));
        known.take::<()>(Err(again), entry(SourceEntry::IdleAmperes));
    }
    let driving = of_brief(reader, f::brief::DRIVING, case);
    let idling = of_brief(reader, f::brief::IDLING, case);
    let course = |hour: f64, share: f64| from_hour(hour, share).map(|day| WeekProfile::every_day(&day));
    let share_driving = driving.as_ref().ok().copied();
    let driving =
        driving.and_then(|share| course(SETS_OUT, share).map_or_else(|| no_solution(thing, f::brief::DRIVING), Ok));
    let idling = both(idling, Ok(share_driving)).and_then(|(share, driving)| {
        let after = SETS_OUT + driving.unwrap_or(0.0) * 24.0;
        course(after.rem_euclid(24.0), share).map_or_else(|| no_solution(thing, f::brief::IDLING), Ok)
    });
    let is_charger = reader.build().part(thing).kind == kind::CHARGER;
    let engine_volts = engines.first().map(|engine| match fact_of(reader.build(), *engine, "voltage") {
        Some(fact) => reader.need(*engine, fact, case),
        None => no_solution(*engine, f::alternator::VOLTAGE),
    });
    let engine_volts = engine_volts.unwrap_or_else(|| Err(Gaps::one(Gap::Absent(Build::ROOT, kind::ALTERNATOR))));
    let output = if is_charger { reader.need(thing, f::charger::OUTPUT, case) } else { Ok(0.0) };
    let title = reader.build().part(thing).title.clone();
    let battery = reader.build().part(found.battery).title.clone();
    reader.step(|| {
        let known = |value: Option<f64>| value.map_or("an unknown current".to_owned(), amperes);
        let through =
            if is_charger { format!(", passing {} on", known(output.as_ref().ok().copied())) } else { String::new() };
        Step::assumed(
            format!(
                "{title} into {battery}{through}: the engine leaves {} hot, {} at idle; {} of driving from nine",
                known(spare.map(|[hot, _]| hot)),
                known(spare.map(|[_, idle]| idle)),
                share_driving.map_or("unknown hours".to_owned(), super::loads::hours),
            ),
            "output of hot alternators (memory, weak)",
        )
    });
    let link = if is_charger {
        Link::Converter {
            output_amperes: known.take(output, entry(SourceEntry::OutputAmperes)),
            output_volts: volts,
            efficiency: Some(CHARGER_EFFICIENCY),
        }
    } else {
        Link::SplitCharge(Limit::None)
    };
    // A current that flows straight into the battery counts at the battery's voltage.
    let engine_volts = if is_charger { known.take(engine_volts, entry(SourceEntry::Volts)) } else { volts };
    brought.sources.push(Source::Driving(Driving {
        amperes: spare.map(|[hot, _]| hot),
        idle_amperes: spare.map(|[_, idle]| idle),
        vehicle_amperes: Some(0.0),
        volts: engine_volts,
        link,
        driving: known.take(driving, entry(SourceEntry::Driving)),
        idling: known.take(idling, entry(SourceEntry::Idling)),
    }));
    brought.sorts.push(Sort::Driving);
}

/// The days with a night on the shore, of so many a week: spread evenly, the last day among them.
fn nights(count: f64) -> [bool; DAYS] {
    let days = DAYS as f64;
    let count = count.clamp(0.0, days);
    let mut marked = [false; DAYS];
    for (day, marked) in marked.iter_mut().enumerate() {
        let until = |day: usize| (day as f64 * count / days + NIGHT_ROUNDING).floor();
        *marked = until(day + 1) > until(day);
    }
    marked
}

/// What keeps a whole number of nights from falling below itself.
const NIGHT_ROUNDING: f64 = 1e-9;

/// Adds a charger of the mains once for each sort of supply that feeds it.
fn add_mains(reader: &mut Reader<'_>, found: &Found, volts: Option<f64>, known: &mut Known, brought: &mut Brought) {
    let thing = found.terminal.thing;
    let build = reader.build();
    let case = known.case;
    let is_charger = build.part(thing).kind == kind::CHARGER;
    let (shore, generators, gaps) = supplies(reader, thing);
    let ashore = build.of_kind(kind::NONE).members.iter().any(|none| says_no_shore(reader, *none));
    let mut ways: Vec<(Sort, Outcome<WeekProfile>)> = Vec::new();
    if shore {
        ways.push((Sort::Shore, by_nights(reader, known)));
    }
    for generator in &generators {
        let course = reader.need(*generator, f::generator::RUNS, case).and_then(|share| {
            let day = from_hour(GENERATOR_STARTS, share).map(|day| WeekProfile::every_day(&day));
            day.map_or_else(|| no_solution(*generator, f::generator::RUNS), Ok)
        });
        ways.push((Sort::Generator, course));
    }
    if ways.is_empty() && !(ashore && gaps.is_empty()) {
        let mut open = gaps;
        if open.is_empty() {
            open = Gaps(vec![AnyOf(vec![
                Gap::Absent(Build::ROOT, kind::SHORE),
                Gap::Absent(Build::ROOT, kind::GENERATOR),
            ])]);
        }
        ways.push((Sort::Shore, Err(open)));
    }
    let fact: FactId = if is_charger { f::charger::OUTPUT } else { f::inverter_charger::CHARGE };
    for (sort, connected) in ways {
        let at = brought.sources.len();
        let output = reader.need(thing, fact, case);
        let title = build.part(thing).title.clone();
        reader.step(|| {
            let hours = connected
                .as_ref()
                .ok()
                .map(|week| week.steps().iter().sum::<f64>() / STEPS_PER_DAY as f64 / DAYS as f64);
            Step::of(format!(
                "{title}, by {}: {} for {}",
                sort.word(),
                output.as_ref().ok().map_or("an unknown current".to_owned(), |current| amperes(*current)),
                hours.map_or("unknown hours".to_owned(), |share| format!("{} a day", super::loads::hours(share)))
            ))
        });
        brought.sources.push(Source::Mains(Mains {
            kind: if sort == Sort::Generator { MainsKind::Generator } else { MainsKind::Shore },
            output_amperes: known.take(output, Entry::Source(at, SourceEntry::OutputAmperes)),
            output_volts: volts,
            efficiency: Some(CHARGER_EFFICIENCY),
            supply: Limit::None,
            connected: known.take(connected, Entry::Source(at, SourceEntry::Connected)),
            // An inverter-charger passes its supply on; behind a charger the inverter goes on drawing on the battery.
            feeds_alternating: !is_charger,
        }));
        brought.sorts.push(sort);
    }
}

/// The nights on the shore through the week.
fn by_nights(reader: &mut Reader<'_>, known: &Known) -> Outcome<WeekProfile> {
    let count = of_brief(reader, f::brief::SHORE_NIGHTS, known.case)?;
    let [from, to] = NIGHT.map(|hour| hour * super::told::HOUR);
    match WeekProfile::nights(nights(count), from, to) {
        Some(week) => Ok(week),
        None => no_solution(Build::ROOT, f::brief::SHORE_NIGHTS),
    }
}

/// Whether a line declares that the build has no shore connection.
fn says_no_shore(reader: &Reader<'_>, none: PartId) -> bool {
    let given = reader.build().part(none).given(f::none::SYSTEMS);
    matches!(given.map(|given| &given.value), Some(spec::Value::Names(words)) if words.iter().any(|(word, _)| &**word == "shore"))
}

/// Whether the shore feeds a charger, and which generators; and what would settle whether that is all.
fn supplies(reader: &mut Reader<'_>, thing: PartId) -> (bool, Vec<PartId>, Gaps) {
    let (mut shore, mut generators, mut gaps) = (false, Vec::new(), Gaps::default());
    for walk in reader.walks().iter() {
        let met = [Side::Supply(0), Side::Input].map(|side| walk.stop_at(reader, Terminal { thing, side }));
        let source = walk.supply.source.thing;
        if met.iter().all(Option::is_none) {
            gaps.add(&walk.gaps);
            continue;
        }
        match reader.build().part(source).kind {
            kind::SHORE | kind::ISOLATING_TRANSFORMER => shore = true,
            kind::GENERATOR => generators.push(source),
            _ => {}
        }
    }
    (shore, generators, gaps)
}

#[cfg(test)]
mod tests {
    use super::nights;

    #[test]
    fn nights_on_the_shore_are_spread_and_end_the_week() {
        for (count, expected) in
            [(0.0, "......."), (1.0, "......x"), (2.0, "...x..x"), (3.0, "..x.x.x"), (7.0, "xxxxxxx"), (9.0, "xxxxxxx")]
        {
            let marked: String = nights(count).iter().map(|night| if *night { 'x' } else { '.' }).collect();
            assert_eq!(marked, expected, "{count}");
        }
    }
}
