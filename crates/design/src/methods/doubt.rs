//! What may be joined to the network besides what is known: a name that is written as unknown or that nothing has may stand
//! for any thing, and a line that could not be read may hold any part.

use crate::known::{Gap, Gaps};
use crate::part::Build;
use crate::reader::Reader;
use rustc_hash::FxHashMap;
use vocabulary::{PartKind, kind};

/// The kinds whose lists decide what the network holds.
const NETWORK: [PartKind; 20] = [
    kind::BATTERY,
    kind::ALTERNATOR,
    kind::CHARGER,
    kind::INVERTER,
    kind::INVERTER_CHARGER,
    kind::CONVERTER,
    kind::SOLAR,
    kind::SOLAR_CONTROLLER,
    kind::GENERATOR,
    kind::TRAILER_PLUG,
    kind::TRANSFER_SWITCH,
    kind::ISOLATING_TRANSFORMER,
    kind::SHORE,
    kind::CIRCUIT,
    kind::SERVES,
    kind::PANEL,
    kind::AC_BOARD,
    kind::WAY,
    kind::TO,
    kind::INLET,
];

/// What would settle whether further sources are joined to a node; nothing when there are certainly none.
pub fn of_sources(reader: &Reader<'_>, node: usize) -> Gaps {
    let mut gaps = of_reading(reader);
    let circuitry = reader.build().circuitry();
    let Some(&group) = circuitry.group.get(node) else { return gaps };
    if circuitry.open_ends.is_empty() {
        return gaps;
    }
    let kinds = kinds_of_groups(reader);
    let same = |alternating: bool, group: usize| kinds.get(&group).is_none_or(|kind| *kind == alternating);
    let source_groups: Vec<usize> =
        circuitry.sources.iter().filter_map(|(node, _)| circuitry.group.get(*node).copied()).collect();
    for end in circuitry.open_ends.iter().filter(|end| same(end.alternating, group)) {
        let own = end.node.and_then(|node| circuitry.group.get(node).copied());
        // It brings sources here when it leads from here to others, or from others to here.
        let brings = match own {
            Some(own) if own != group => source_groups.contains(&own),
            _ => source_groups.iter().any(|other| *other != group && same(end.alternating, *other)),
        };
        if brings {
            gaps.add(&Gaps::one(end.gap.clone()));
        }
    }
    gaps
}

/// What would settle whether anything else is joined to a node, loads among it.
pub fn of_anything(reader: &Reader<'_>, node: usize) -> Gaps {
    let mut gaps = of_reading(reader);
    let circuitry = reader.build().circuitry();
    if circuitry.open_ends.is_empty() {
        return gaps;
    }
    let kind = circuitry.group.get(node).and_then(|group| kinds_of_groups(reader).get(group).copied());
    for end in circuitry.open_ends.iter().filter(|end| kind.is_none_or(|kind| kind == end.alternating)) {
        gaps.add(&Gaps::one(end.gap.clone()));
    }
    gaps
}

/// What would settle whether a run leads to a thing that none is known to reach.
pub fn of_unreached(reader: &Reader<'_>) -> Gaps {
    let mut gaps = of_reading(reader);
    for end in &reader.build().circuitry().open_ends {
        gaps.add(&Gaps::one(end.gap.clone()));
    }
    gaps
}

/// What could not be read and may hold a part of the network.
fn of_reading(reader: &Reader<'_>) -> Gaps {
    if super::complete(reader, &NETWORK) {
        Gaps::default()
    } else {
        Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))
    }
}

/// Whether each group that has a run carries alternating current.
fn kinds_of_groups(reader: &Reader<'_>) -> FxHashMap<usize, bool> {
    let circuitry = reader.build().circuitry();
    let ends =
        circuitry.runs.iter().flat_map(|run| run.nodes.into_iter().flatten().map(|node| (node, run.alternating)));
    ends.filter_map(|(node, alternating)| Some((*circuitry.group.get(node)?, alternating))).collect()
}
