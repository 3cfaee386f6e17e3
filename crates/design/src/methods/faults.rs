//! The direct-current network for fault currents: every run as its conductors' resistances, every source as what it can
//! drive.

use super::{amperes, ohms, volts};
use crate::circuitry::Piece;
use crate::fact::Outcome;
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::source::{drives, is_source};
use crate::reader::Reader;
use calc::{Branch, Network, PreparedNetwork, Source};
use rustc_hash::FxHashMap;
use vocabulary::{fact as f, kind};

/// The network with what is not known of it.
#[derive(Debug)]
pub struct FaultNetwork {
    network: PreparedNetwork,
    /// Each source's title and voltage.
    sources: Vec<(String, f64)>,
    /// The nodes at both sides of each device.
    sides: FxHashMap<PartId, [u32; 2]>,
    /// What is not known, by the group of joined nodes in which it lies.
    unknown: FxHashMap<u32, Gaps>,
    /// The group of each device.
    groups: FxHashMap<PartId, u32>,
    /// What is only assumed, by group: the internal resistances of batteries.
    assumed: FxHashMap<u32, Gaps>,
}

/// Which fault currents a network is made for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Strength {
    /// The most that can flow.
    Most,
    /// The least that is certain to flow, where a battery's resistance is only assumed.
    Least,
}

/// The tag of branches that are no device; no part has this number.
const NO_DEVICE: u32 = u32::MAX;

impl FaultNetwork {
    /// The network of a build, with copper at 20 °C and full charge.
    pub fn of(reader: &mut Reader<'_>, strength: Strength) -> Self {
        let case = CaseId(0);
        let build = reader.build();
        let circuitry = build.circuitry();
        let mut next = u32::try_from(circuitry.attached.len()).unwrap_or(u32::MAX);
        let mut groups_of_nodes: FxHashMap<usize, u32> = FxHashMap::default();
        let mut network = Network::default();
        let mut this = Self {
            network: Network::default().prepared(),
            sources: Vec::new(),
            sides: FxHashMap::default(),
            unknown: FxHashMap::default(),
            groups: FxHashMap::default(),
            assumed: FxHashMap::default(),
        };
        for (node, &group) in circuitry.group.iter().enumerate() {
            let number = u32::try_from(group).unwrap_or(u32::MAX);
            groups_of_nodes.insert(node, number);
            if node == group {
                let doubt = super::doubt::of_sources(reader, node);
                if !doubt.is_empty() {
                    this.unknown.entry(number).or_default().add(&doubt);
                }
            }
        }
        for run in circuitry.runs.iter().filter(|run| !run.alternating) {
            let group = run.nodes.into_iter().flatten().next().and_then(|node| groups_of_nodes.get(&node).copied());
            let group = group.unwrap_or(u32::MAX);
            if !run.complete {
                this.unknown.entry(group).or_default().add(&Gaps::one(Gap::Unread(run.written)));
            }
            let mut fresh = || {
                next = next.saturating_add(1);
                next
            };
            let number = |node: usize| u32::try_from(node).unwrap_or(u32::MAX);
            let mut here = run.nodes[0].map_or_else(&mut fresh, number);
            for (index, piece) in run.pieces.iter().enumerate() {
                let last = index + 1 == run.pieces.len();
                let there = match run.nodes[1] {
                    Some(node) if last => number(node),
                    _ => fresh(),
                };
                let (resistance, tag) = match piece {
                    Piece::Conductor(conductor) => {
                        let resistance =
                            reader.need(*conductor, f::conductor::RESISTANCE, case).unwrap_or_else(|gaps| {
                                this.unknown.entry(group).or_default().add(&gaps);
                                0.0
                            });
                        (resistance, NO_DEVICE)
                    }
                    Piece::Device(device) => {
                        this.sides.insert(*device, [here, there]);
                        this.groups.insert(*device, group);
                        (0.0, device.0)
                    }
                    Piece::Switch(_) | Piece::Through(_) => (0.0, NO_DEVICE),
                };
                network.branches.push(Branch { from: here, to: there, ohms: resistance, tag });
                here = there;
            }
            if run.pieces.is_empty()
                && let [Some(from), Some(to)] = run.nodes
            {
                network.branches.push(Branch { from: number(from), to: number(to), ohms: 0.0, tag: NO_DEVICE });
            }
        }
        for (node, terminals) in circuitry.attached.iter().enumerate() {
            for terminal in
                terminals.iter().filter(|terminal| is_source(build.part(terminal.thing).kind, terminal.side))
            {
                let group = groups_of_nodes.get(&node).copied().unwrap_or(u32::MAX);
                if build.part(terminal.thing).kind == kind::BATTERY
                    && reader.need(terminal.thing, f::battery::INTERNAL_RESISTANCE, case).is_err()
                {
                    let gap = Gap::Entry(terminal.thing, f::battery::INTERNAL_RESISTANCE);
                    this.assumed.entry(group).or_default().add(&Gaps::one(gap));
                }
                match drives(reader, *terminal, strength, case) {
                    Ok(Some((volts, ohms, limit))) => {
                        let node = u32::try_from(node).unwrap_or(u32::MAX);
                        network.sources.push(Source { node, volts, ohms, limit });
                        this.sources.push((reader.build().part(terminal.thing).title.to_string(), volts));
                    }
                    Ok(None) => {}
                    Err(gaps) => this.unknown.entry(group).or_default().add(&gaps),
                }
            }
        }
        this.network = network.prepared();
        this
    }

    /// What of the network that a device lies in is only assumed.
    pub fn assumed(&self, device: PartId) -> Option<&Gaps> {
        self.groups.get(&device).and_then(|group| self.assumed.get(group))
    }

    /// The largest current through a device, A: a dead short at its one side fed from the other, whichever is more; with a
    /// line for each source that drives it.
    ///
    /// # Errors
    /// What is not known of the network that the device lies in.
    pub fn through(&self, device: PartId) -> Outcome<(f64, Vec<String>)> {
        if let Some(gaps) = self.groups.get(&device).and_then(|group| self.unknown.get(group)) {
            return Err(gaps.clone());
        }
        let mut most = (0.0, Vec::new());
        for &side in self.sides.get(&device).into_iter().flatten() {
            let fault = self.network.largest_fault_current(side, Some(device.0));
            if fault.amperes > most.0 {
                let lines = fault
                    .contributions
                    .iter()
                    .filter_map(|(source, current, path)| {
                        let (title, voltage) = self.sources.get(*source)?;
                        Some(format!("{title}: {} over {} gives {}", volts(*voltage), ohms(*path), amperes(*current)))
                    })
                    .collect();
                most = (fault.amperes, lines);
            }
        }
        Ok(most)
    }
}
