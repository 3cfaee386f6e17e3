//! What keeps drawing while a build is laid up.

use crate::circuitry::Side;
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, PartId};
use crate::methods::bank::members;
use crate::methods::energy::{idle_of, of_load};
use crate::methods::{fact_of, no_solution, show};
use crate::modes::Sort;
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{fact as f, kind};

/// The part of the day from which a thing counts as always on: in storage nobody switches the others on. Chosen, a little
/// less than the whole day against rounding.
const ALWAYS_ON: f64 = 0.999;

/// What draws from the bank of a battery in storage, W.
pub fn power(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let storage = build.modes().iter().position(|mode| mode.sort == Sort::Storage);
    let (Some(node), Some(storage)) = (build.circuitry().node_of(battery, Side::Input), storage) else {
        return Ok(Fact::Number(0.0));
    };
    let state = reader.mode_state(reader.cases().of_mode(storage));
    let mut joules = 0.0;
    let mut gaps = state.doubt(reader, node);
    for (at, terminals) in build.circuitry().attached.iter().enumerate() {
        if terminals.iter().all(|terminal| terminal.side != Side::Input) || !state.possible().is_live(at) {
            continue;
        }
        if !state.possible().sources(build, at).contains(&battery) {
            continue;
        }
        for terminal in terminals.iter().filter(|terminal| terminal.side == Side::Input) {
            let inverter = matches!(build.part(terminal.thing).kind, kind::INVERTER | kind::INVERTER_CHARGER);
            let name = if inverter { "on" } else { "duty" };
            let Some(duty) = fact_of(build, terminal.thing, name) else { continue };
            // Of what does not say how long it runs the rules of energy ask.
            if reader.silent(terminal.thing, duty) {
                continue;
            }
            match reader.need(terminal.thing, duty, case) {
                Ok(share) if share < ALWAYS_ON => continue,
                Ok(_) => {}
                Err(more) => {
                    gaps.add(&more);
                    continue;
                }
            }
            let taken = if inverter {
                idle_of(reader, terminal.thing, case)
            } else {
                of_load(reader, terminal.thing, case).map(|taken| taken.unwrap_or(0.0))
            };
            match taken {
                Ok(taken) => joules += taken,
                Err(more) => gaps.add(&more),
            }
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
