//! Things that need a run and have none.

use crate::circuitry::Side;
use crate::known::PartId;
use crate::part::{Build, Part};
use spec::text::write_name;
use spec::{Incomplete, Slip};
use vocabulary::{PartKind, kind};

/// What is of no use unless current comes to it, whatever else is said of it.
const ALWAYS: [PartKind; 7] =
    [kind::LAMP, kind::OUTLETS, kind::PANEL, kind::AC_BOARD, kind::TRANSFER_SWITCH, kind::MONITOR, kind::BREAKAWAY];

/// What takes current at one side to give it at another.
const CONVERTERS: [PartKind; 6] = [
    kind::CHARGER,
    kind::CONVERTER,
    kind::INVERTER,
    kind::INVERTER_CHARGER,
    kind::SOLAR_CONTROLLER,
    kind::ISOLATING_TRANSFORMER,
];

/// Reports things that need a run and have none.
pub fn find_unfed(build: &mut Build, incomplete: &Incomplete) {
    if incomplete.is_any() {
        // The run may stand in what could not be read.
        return;
    }
    let mut slips = Vec::new();
    for (number, part) in build.parts() {
        let slip = match part.kind {
            kind::SOLAR if !joined(build, number, &Side::ALL) => {
                let from = write_name(part.name.as_deref().unwrap_or("…"));
                Slip::new("names/thing-without-run", part.head.clone(), format!("{} feeds nothing", part.title))
                    .help(format!("write a circuit from={from}"))
            }
            own if CONVERTERS.contains(&own) && !joined(build, number, &[Side::Input]) => unfed(part),
            own if (ALWAYS.contains(&own) || says_load(part)) && !joined(build, number, &Side::ALL) => unfed(part),
            _ => continue,
        };
        slips.push(slip);
    }
    build.slips.append(&mut slips);
}

fn unfed(part: &Part) -> Slip {
    let to = write_name(part.name.as_deref().unwrap_or("…"));
    Slip::new("names/thing-without-run", part.head.clone(), format!("nothing feeds {}", part.title))
        .help(format!("name it on a way of a panel, or write a circuit to={to}"))
}

/// Whether a run meets a thing on one of these sides.
fn joined(build: &Build, thing: PartId, sides: &[Side]) -> bool {
    let circuitry = build.circuitry();
    let meets = |node: usize| circuitry.meeting.get(node).is_some_and(|runs| !runs.is_empty());
    sides.iter().filter_map(|side| circuitry.node_of(thing, *side)).any(meets)
}

/// Whether a part says that it takes current.
fn says_load(part: &Part) -> bool {
    let spec = vocabulary::part(part.kind);
    let says = |name: &str| spec.fact(name).is_some_and(|fact| fact.given && part.given(fact.id).is_some());
    spec.fact("load-current").is_some() && (says("power") || says("current"))
}
