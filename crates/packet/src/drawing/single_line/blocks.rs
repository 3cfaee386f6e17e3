//! Which circuits stand in which block, and the tree of each.
//!
//! All that runs join is one block, drawn from its first fitted battery, else its first source. A panel or board that stands
//! behind another bar begins a block of its own, so that each fits on a page.

use crate::desk::Desk;
use crate::sheet::Value;
use crate::words::drawings as words;
use design::{Build, PartId};
use std::collections::{HashMap, HashSet, VecDeque};
use vocabulary::{PartKind, fact, kind};

/// What hangs on a node of a tree.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Branch {
    /// A run that leads to a node which is drawn behind it.
    Run {
        /// The run.
        run: usize,
        /// Whether it is drawn from its finish to its start.
        reversed: bool,
        /// The place in the block of the node behind it.
        to: usize,
    },
    /// A run that leads to a node which is drawn elsewhere, or to nowhere that is described.
    Loose {
        /// The run.
        run: usize,
        /// Whether it is drawn from its finish to its start.
        reversed: bool,
        /// The node.
        to: Option<usize>,
    },
    /// A thing on the node, beside the one that is drawn in its place.
    Thing(PartId),
}

/// A node of a tree.
#[derive(Clone, PartialEq, Debug)]
pub struct Node {
    /// The thing that is drawn in its place; nothing for a joint.
    pub thing: Option<PartId>,
    /// Whether that is a bar: a busbar, a panel, a board.
    pub bar: bool,
    /// What hangs on it, in the order of the text.
    pub branches: Vec<Branch>,
    /// Whether it is only named here and drawn as a block of its own.
    pub elsewhere: bool,
}

/// A block: its nodes, each before those that hang on it.
#[derive(Clone, PartialEq, Debug)]
pub struct Block {
    /// What it shows.
    pub title: String,
    /// The nodes; the first is the root.
    pub nodes: Vec<Node>,
}

const BARS: [PartKind; 4] = [kind::BUSBAR, kind::PANEL, kind::AC_BOARD, kind::TRANSFER_SWITCH];

/// The blocks, in the order of what they are drawn from.
pub fn blocks(desk: &mut Desk<'_, '_>) -> Vec<Block> {
    let circuitry = desk.circuitry();
    let mut blocks = Vec::new();
    let mut drawn = vec![false; circuitry.runs.len()];
    for root in roots(desk) {
        let mut waiting = VecDeque::from([(root, false)]);
        let mut seen: HashSet<usize> = HashSet::from([root]);
        while let Some((root, cut)) = waiting.pop_front() {
            let (block, more) = block(desk, root, cut, &mut drawn, &mut seen);
            if block.nodes.first().is_some_and(|node| !node.branches.is_empty()) {
                blocks.push(block);
            }
            waiting.extend(more.into_iter().map(|node| (node, true)));
        }
    }
    blocks
}

/// The node from which each group is drawn: that of its first fitted battery, else of shore, else of its first source, else
/// its first node.
fn roots(desk: &mut Desk<'_, '_>) -> Vec<usize> {
    let circuitry = desk.circuitry();
    let mut best: HashMap<usize, (u8, PartId, usize)> = HashMap::new();
    for (node, terminal) in &circuitry.sources {
        let Some(&group) = circuitry.group.get(*node) else { continue };
        let of = desk.build.part(terminal.thing).kind;
        let is_base = of == kind::BATTERY
            && matches!(desk.fact(terminal.thing, fact::battery::BASE_VEHICLE).value, Value::Flag(true));
        let rank = match of {
            kind::BATTERY if !is_base => 0,
            kind::SHORE => 1,
            kind::BATTERY => 2,
            kind::GENERATOR => 3,
            _ => 4,
        };
        let candidate = (rank, terminal.thing, *node);
        let known = best.entry(group).or_insert(candidate);
        if (candidate.0, candidate.1) < (known.0, known.1) {
            *known = candidate;
        }
    }
    // A group without a source comes last, by the first of its runs.
    for (index, run) in circuitry.runs.iter().enumerate() {
        let Some(node) = run.nodes.into_iter().flatten().next() else { continue };
        if let Some(&group) = circuitry.group.get(node) {
            let place = PartId(u32::try_from(index).unwrap_or(u32::MAX));
            best.entry(group).or_insert((u8::MAX, place, node));
        }
    }
    let mut roots: Vec<(u8, PartId, usize)> = best.into_values().collect();
    roots.sort_unstable();
    roots.into_iter().map(|(_, _, node)| node).collect()
}

/// The tree from a node. Nodes that begin blocks of their own are given back.
fn block(
    desk: &Desk<'_, '_>,
    root: usize,
    cut: bool,
    drawn: &mut [bool],
    seen: &mut HashSet<usize>,
) -> (Block, Vec<usize>) {
    let circuitry = desk.circuitry();
    let mut nodes: Vec<Node> = Vec::new();
    let mut later = Vec::new();
    // Each with its node in the network, and how many bars stand before it.
    let mut order: Vec<(usize, usize)> = vec![(root, usize::from(cut))];
    let mut next = 0;
    while let Some(&(here, bars)) = order.get(next) {
        let mut node = node(desk, here);
        let is_root = next == 0;
        if !is_root && bars > 0 && node.thing.is_some_and(|thing| begins_block(desk.build, thing)) {
            node.elsewhere = true;
            node.branches.clear();
            later.push(here);
            nodes.push(node);
            next += 1;
            continue;
        }
        let bars_behind = bars + usize::from(node.bar);
        for &run in circuitry.meeting.get(here).into_iter().flatten() {
            if drawn.get(run).copied().unwrap_or(true) {
                continue;
            }
            let Some(of) = circuitry.runs.get(run) else { continue };
            drawn[run] = true;
            let reversed = of.nodes[1] == Some(here) && of.nodes[0] != Some(here);
            let to = if reversed { of.nodes[0] } else { of.nodes[1] };
            node.branches.push(match to {
                Some(to) if seen.insert(to) => {
                    order.push((to, bars_behind));
                    Branch::Run { run, reversed, to: order.len() - 1 }
                }
                to => Branch::Loose { run, reversed, to },
            });
        }
        nodes.push(node);
        next += 1;
    }
    // A joint is known by the first thing that is on it.
    let here = nodes.first().and_then(|node| {
        let on_it = node.branches.iter().find_map(|branch| match branch {
            Branch::Thing(thing) => Some(*thing),
            _ => None,
        });
        node.thing.or(on_it)
    });
    let title = here.map(|thing| desk.build.part(thing).title.to_string());
    let alternating = circuitry
        .meeting
        .get(root)
        .into_iter()
        .flatten()
        .any(|run| circuitry.runs.get(*run).is_some_and(|run| run.alternating));
    let sort = if alternating { words::GROUP_ALTERNATING } else { words::GROUP_DIRECT };
    let title = title.map_or_else(|| sort.to_owned(), |title| format!("{sort}: {title}"));
    (Block { title, nodes }, later)
}

fn begins_block(build: &Build, thing: PartId) -> bool {
    matches!(build.part(thing).kind, kind::PANEL | kind::AC_BOARD)
}

/// A node with the things on it.
fn node(desk: &Desk<'_, '_>, here: usize) -> Node {
    let mut things: Vec<PartId> = Vec::new();
    for terminal in desk.circuitry().terminals(&[here]) {
        if !things.contains(&terminal.thing) {
            things.push(terminal.thing);
        }
    }
    let bar = things.iter().position(|thing| BARS.contains(&desk.build.part(*thing).kind));
    let thing = match (bar, things.as_slice()) {
        (Some(place), _) => Some(things.remove(place)),
        (None, [_]) => things.pop(),
        (None, _) => None,
    };
    Node { thing, bar: bar.is_some(), branches: things.into_iter().map(Branch::Thing).collect(), elsewhere: false }
}
