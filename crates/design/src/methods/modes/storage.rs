//! What keeps drawing while a build is laid up.

use super::draw::{idle_of, of_load};
use crate::circuitry::Side;
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gaps, PartId};
use crate::methods::bank::members;
use crate::methods::{fact_of, no_solution, show};
use crate::modes::Sort;
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{fact as f, kind};

/// The part of the day from which a thing counts as always on: in storage nobody switches the others on. Chosen, a little
/// less than the whole day against rounding.
const ALWAYS_ON: f64 = 0.999;

/// A thing that is always on and not cut off in storage.
#[derive(Debug)]
pub struct AlwaysOn {
    /// The thing.
    thing: PartId,
    /// Whether it is an inverter that idles.
    inverter: bool,
    /// The sources that feed it.
    sources: Vec<PartId>,
    /// What is not known of how long it runs.
    gaps: Gaps,
}

/// The things that are always on and not cut off in storage.
pub fn always_on(reader: &mut Reader<'_>) -> Vec<AlwaysOn> {
    let build = reader.build();
    let Some(storage) = build.modes().iter().position(|mode| mode.sort == Sort::Storage) else { return Vec::new() };
    let state = reader.mode_state(reader.cases().of_mode(storage));
    let mut found = Vec::new();
    for (node, terminals) in build.circuitry().attached.iter().enumerate() {
        for terminal in terminals.iter().filter(|terminal| terminal.side == Side::Input) {
            let thing = terminal.thing;
            let inverter = matches!(build.part(thing).kind, kind::INVERTER | kind::INVERTER_CHARGER);
            let Some(share) = fact_of(build, thing, if inverter { "on" } else { "duty" }) else { continue };
            // Of what does not say how long it runs the rules of energy ask.
            if reader.silent(thing, share) || !state.possible().is_live(node) {
                continue;
            }
            let gaps = match reader.need(thing, share, CaseId(0)) {
                Ok(share) if share < ALWAYS_ON => continue,
                Ok(_) => Gaps::default(),
                Err(gaps) => gaps,
            };
            found.push(AlwaysOn { thing, inverter, sources: state.possible().sources(build, node), gaps });
        }
    }
    found
}

/// What draws from the bank of a battery in storage, W.
pub fn power(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let storage = build.modes().iter().position(|mode| mode.sort == Sort::Storage);
    let (Some(node), Some(storage)) = (build.circuitry().node_of(battery, Side::Input), storage) else {
        return Ok(Fact::Number(0.0));
    };
    let state = reader.mode_state(reader.cases().of_mode(storage));
    let mut gaps = state.doubt(reader, node);
    let mut joules = 0.0;
    for on in reader.always_on().iter().filter(|on| on.sources.contains(&battery)) {
        gaps.add(&on.gaps);
        if !on.gaps.is_empty() {
            continue;
        }
        let taken = if on.inverter {
            idle_of(reader, on.thing, case)
        } else {
            of_load(reader, on.thing, case).map(|taken| taken.unwrap_or(0.0))
        };
        match taken {
            Ok(taken) => joules += taken,
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Number(joules / calc::DAY_SECONDS)) } else { Err(gaps) }
}

/// How long the bank of a battery feeds that from full, s.
pub fn time(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let power = reader.need(battery, f::battery::STORAGE_POWER, case)?;
    if power <= 0.0 {
        return no_solution(battery, f::battery::STORAGE_TIME);
    }
    let (bank, mut gaps) = members(reader, battery);
    let mut joules = 0.0;
    for one in bank {
        match reader.need(one, f::battery::USABLE_ENERGY, case) {
            Ok(usable) => joules += usable,
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    reader.step(|| Step::of(format!("{} ÷ {}", show(joules, Dimension::ENERGY), show(power, Dimension::POWER))));
    Ok(Fact::Number(joules / power))
}
