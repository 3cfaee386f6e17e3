//! The networks of direct current: all that runs join without a converter between, each as a worked part that stands where a
//! builder looks for it, at its first busbar, else its first panel, else its first battery.

use super::loose::is_end_use;
use crate::circuitry::Network;
use crate::known::PartId;
use crate::part::Build;
use vocabulary::{PartKind, kind};

/// Where a network is shown, the best place first.
const SHOWN_AT: [PartKind; 3] = [kind::BUSBAR, kind::PANEL, kind::BATTERY];

/// Adds a part for each network. A load is the end of a path: what feeds it from two networks joins them no more than the
/// lamp of a trailer joins two vehicles.
pub fn add(build: &mut Build) {
    let circuitry = &build.circuitry;
    let mut leader: Vec<usize> = (0..circuitry.attached.len()).collect();
    let mut carries = vec![false; leader.len()];
    for run in circuitry.runs.iter().filter(|run| !run.alternating) {
        let [Some(start), Some(finish)] = run.nodes else { continue };
        if is_end_use(build, circuitry, start) || is_end_use(build, circuitry, finish) {
            continue;
        }
        carries[start] = true;
        carries[finish] = true;
        let (one, other) = (lead(&mut leader, start), lead(&mut leader, finish));
        leader[other] = one;
    }
    let mut networks: Vec<(usize, Vec<usize>)> = Vec::new();
    for node in (0..leader.len()).filter(|node| carries[*node]) {
        let own = lead(&mut leader, node);
        match networks.iter_mut().find(|(leader, _)| *leader == own) {
            Some((_, nodes)) => nodes.push(node),
            None => networks.push((own, vec![node])),
        }
    }
    for (_, nodes) in networks {
        let Some(place) = place(build, &nodes) else { continue };
        let number = super::stand_in(build, place, kind::NETWORK, "network");
        let title = format!("what is joined to {}", build.part(place).title);
        build.parts[number.0 as usize].title = title.into();
        build.circuitry.networks.push(Network { part: number, nodes });
    }
}

fn lead(leader: &mut [usize], mut node: usize) -> usize {
    while leader[node] != node {
        leader[node] = leader[leader[node]];
        node = leader[node];
    }
    node
}

fn place(build: &Build, nodes: &[usize]) -> Option<PartId> {
    let things = || build.circuitry.terminals(nodes).map(|terminal| terminal.thing);
    SHOWN_AT.iter().find_map(|kind| things().filter(|thing| build.part(*thing).kind == *kind).min()).or(things().min())
}
