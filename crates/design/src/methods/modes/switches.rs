//! How each switch stands in a mode, and which sources feed.

use super::{Islands, ModeState};
use crate::circuitry::{Piece, Run};
use crate::known::{CaseId, Gap, Gaps, PartId, Tri};
use crate::methods::fact_of;
use crate::modes::{Mode, Sort};
use crate::reader::Reader;
use rustc_hash::FxHashMap;
use vocabulary::{fact as f, kind};

/// How often relays that go by voltage may close one another: chosen, more than any vehicle has in a row.
const MOST_ROUNDS: usize = 8;

/// The case in which what a builder writes is read: it does not differ by mode.
const CASE: CaseId = CaseId(0);

/// The state of a mode, by its number.
pub fn state(reader: &mut Reader<'_>, mode: usize) -> ModeState {
    let build = reader.build();
    let circuitry = build.circuitry();
    let fallback = Mode {
        name: "".into(),
        part: crate::part::Build::ROOT,
        written: None,
        sort: Sort::Parked,
        feeding: Vec::new(),
        not_feeding: Vec::new(),
        open: Vec::new(),
        closed: Vec::new(),
        gaps: Gaps::default(),
    };
    let mode = build.modes().get(mode).unwrap_or(&fallback);
    let mut unknown: FxHashMap<Option<usize>, Gaps> = FxHashMap::default();
    if !mode.gaps.is_empty() {
        unknown.insert(None, mode.gaps.clone());
    }
    let mut switches = FxHashMap::default();
    let mut by_voltage = Vec::new();
    for (index, run) in circuitry.runs.iter().enumerate() {
        let group = run.nodes.iter().flatten().next().and_then(|node| circuitry.group.get(*node).copied());
        if !run.complete {
            unknown.entry(group).or_default().add(&Gaps::one(Gap::Unread(run.written)));
        }
        for piece in &run.pieces {
            let Piece::Switch(switch) = piece else { continue };
            match stands(reader, mode, *switch, run) {
                Stands::Said(closed) => {
                    switches.insert(*switch, closed);
                }
                Stands::ByVoltage => by_voltage.push((index, *switch)),
                Stands::Unsaid(gaps) => {
                    switches.insert(*switch, Tri::Unknown);
                    unknown.entry(group).or_default().add(&gaps);
                }
            }
        }
    }
    let mut feeds = FxHashMap::default();
    for terminals in &circuitry.attached {
        for terminal in terminals {
            if feeds.contains_key(&terminal.thing) {
                continue;
            }
            let does = does_feed(reader, mode, terminal.thing).unwrap_or_else(|gaps| {
                let node = circuitry.node_at.get(terminal).and_then(|node| circuitry.group.get(*node).copied());
                unknown.entry(node).or_default().add(&gaps);
                Tri::Unknown
            });
            feeds.insert(terminal.thing, does);
        }
    }
    let walks = reader.walks();
    let bound = |least: Tri, by_voltage: &mut FxHashMap<PartId, bool>, relays: &[(usize, PartId)]| {
        // A bound takes what is certain alone, or all that is possible.
        let admits = |value: Tri| value == Tri::Yes || value == least;
        let mut islands;
        let mut round = 0;
        loop {
            let closed = |run: usize| {
                circuitry.runs.get(run).is_some_and(|run| {
                    (run.complete || least == Tri::Unknown)
                        && run.pieces.iter().all(|piece| match piece {
                            Piece::Switch(switch) => match by_voltage.get(switch) {
                                Some(closed) => *closed,
                                None => admits(switches.get(switch).copied().unwrap_or(Tri::Yes)),
                            },
                            _ => true,
                        })
                })
            };
            let does = |thing: PartId| admits(feeds.get(&thing).copied().unwrap_or(Tri::No));
            islands = Islands::of(build, &walks, closed, does);
            let mut changed = false;
            for (run, relay) in relays {
                let nodes = circuitry.runs.get(*run).map(|run| run.nodes).into_iter().flatten().flatten();
                if !by_voltage.get(relay).copied().unwrap_or(true)
                    && nodes.into_iter().any(|node| islands.charges(build, node))
                {
                    by_voltage.insert(*relay, true);
                    changed = true;
                }
            }
            round += 1;
            if !changed || round > MOST_ROUNDS {
                break;
            }
        }
        islands
    };
    let open = || by_voltage.iter().map(|(_, relay)| (*relay, false)).collect::<FxHashMap<_, _>>();
    let (mut certainly, mut possibly) = (open(), open());
    let certain = bound(Tri::Yes, &mut certainly, &by_voltage);
    let possible = bound(Tri::Unknown, &mut possibly, &by_voltage);
    for (_, relay) in &by_voltage {
        let (certainly, possibly) = (certainly.get(relay) == Some(&true), possibly.get(relay) == Some(&true));
        let closed = if certainly {
            Tri::Yes
        } else if possibly {
            Tri::Unknown
        } else {
            Tri::No
        };
        switches.insert(*relay, closed);
    }
    ModeState { switches, feeds, certain, possible, unknown }
}

/// How a switch stands.
enum Stands {
    /// Closed, open, or either at times.
    Said(Tri),
    /// It closes when something charges one of its sides.
    ByVoltage,
    /// It is not said.
    Unsaid(Gaps),
}

fn stands(reader: &mut Reader<'_>, mode: &Mode, switch: PartId, run: &Run) -> Stands {
    if mode.open.contains(&switch) {
        return Stands::Said(Tri::No);
    }
    if mode.closed.contains(&switch) {
        return Stands::Said(Tri::Yes);
    }
    match reader.build().part(switch).kind {
        kind::DISCONNECT => match &mode.sort {
            Sort::Opened(open) if *open == switch => Stands::Said(Tri::No),
            Sort::Storage if opened_in_storage(reader, switch, run) => Stands::Said(Tri::No),
            _ => Stands::Said(Tri::Yes),
        },
        kind::RELAY => relay(reader, mode, switch),
        _ => Stands::Said(Tri::Yes),
    }
}

/// Whether a disconnect is opened when the build is laid up: those for service are, but the one of the modules, which then
/// keep the batteries charged.
fn opened_in_storage(reader: &mut Reader<'_>, switch: PartId, run: &Run) -> bool {
    let build = reader.build();
    let nodes: Vec<usize> = run.nodes.into_iter().flatten().collect();
    let of_modules = build.circuitry().terminals(&nodes).any(|terminal| build.part(terminal.thing).kind == kind::SOLAR);
    !of_modules && reader.need_word(switch, f::disconnect::USE, CASE) != Ok("emergency")
}

fn relay(reader: &mut Reader<'_>, mode: &Mode, relay: PartId) -> Stands {
    let word = match reader.need_word(relay, f::relay::WORKED_BY, CASE) {
        Ok(word) => word,
        Err(gaps) => return Stands::Unsaid(gaps),
    };
    let rests_closed = match reader.need_word(relay, f::relay::RESTS, CASE) {
        Ok(word) => word == "closed",
        Err(gaps) => return Stands::Unsaid(gaps),
    };
    let works = match word {
        "ignition" => runs(mode),
        "voltage" if !rests_closed => return Stands::ByVoltage,
        _ => Tri::Unknown,
    };
    Stands::Said(if rests_closed { works.negate() } else { works })
}

/// Whether the engine runs.
fn runs(mode: &Mode) -> Tri {
    match mode.sort {
        Sort::Driving => Tri::Yes,
        Sort::Opened(_) | Sort::Tripped(_) => Tri::Unknown,
        _ => Tri::No,
    }
}

/// Whether something may feed whatever happens: while a disconnect is opened or management trips.
fn at_any_time(mode: &Mode) -> Tri {
    if matches!(mode.sort, Sort::Opened(_) | Sort::Tripped(_)) { Tri::Unknown } else { Tri::No }
}

/// Whether a source feeds, or a thing passes on what it is given; a load neither does nor is asked.
fn does_feed(reader: &mut Reader<'_>, mode: &Mode, thing: PartId) -> Result<Tri, Gaps> {
    if mode.not_feeding.contains(&thing) {
        return Ok(Tri::No);
    }
    if mode.feeding.contains(&thing) {
        return Ok(Tri::Yes);
    }
    Ok(match reader.build().part(thing).kind {
        kind::BATTERY => match &mode.sort {
            Sort::Tripped(batteries) if batteries.contains(&thing) => cut_off(reader, thing, "discharge")?.negate(),
            _ => Tri::Yes,
        },
        kind::ALTERNATOR => runs(mode),
        kind::TRAILER_PLUG => match runs(mode) {
            Tri::No if switched(reader, thing) => Tri::No,
            Tri::No => Tri::Unknown,
            runs => runs,
        },
        kind::SHORE if mode.sort == Sort::Shore => Tri::Yes,
        kind::SHORE => at_any_time(mode),
        kind::GENERATOR => match &mode.sort {
            Sort::Generator(Some(own)) if *own == thing => Tri::Yes,
            Sort::Generator(None) => Tri::Yes,
            // A generator that is fitted can run on the road too.
            Sort::Driving => Tri::Unknown,
            _ => at_any_time(mode),
        },
        kind::SOLAR => match mode.sort {
            Sort::Solar => Tri::Yes,
            Sort::Parked => Tri::No,
            _ => Tri::Unknown,
        },
        kind::CHARGER => match fact_of(reader.build(), thing, "enable") {
            Some(enable) if !reader.silent(thing, enable) => match reader.need_word(thing, enable, CASE)? {
                "ignition" => runs(mode),
                "hand" => Tri::Unknown,
                _ => Tri::Yes,
            },
            _ => Tri::Yes,
        },
        kind::CONVERTER
        | kind::INVERTER
        | kind::INVERTER_CHARGER
        | kind::SOLAR_CONTROLLER
        | kind::ISOLATING_TRANSFORMER
        | kind::TRANSFER_SWITCH => Tri::Yes,
        _ => Tri::No,
    })
}

/// Whether a towing vehicle feeds its plug only while its engine runs; one of which it is not said may feed it always.
fn switched(reader: &mut Reader<'_>, plug: PartId) -> bool {
    reader.need_flag(plug, f::trailer_plug::SWITCHED, CASE) == Ok(true)
}

/// Whether the management of a battery cuts off its `discharge` or its `charge`.
pub fn cut_off(reader: &mut Reader<'_>, battery: PartId, what: &str) -> Result<Tri, Gaps> {
    let mut cuts = Tri::No;
    for &management in reader.build().inside(battery, kind::MANAGEMENT).members.iter() {
        let word = reader.need_word(management, f::management::CUTS, CASE)?;
        cuts = cuts.or(Tri::from_bool(word == "both" || word == what));
    }
    Ok(cuts)
}
