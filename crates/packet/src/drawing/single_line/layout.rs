//! Where everything of a block stands on the grid.

use super::blocks::{Block, Branch, Node};
use crate::desk::Desk;
use design::{PartId, Piece, Run};

/// Something on the grid.
#[derive(Clone, PartialEq, Debug)]
pub struct Placed {
    /// What it is.
    pub what: What,
    /// Its column.
    pub column: usize,
    /// Its row.
    pub row: usize,
}

/// What stands on the grid.
#[derive(Clone, PartialEq, Debug)]
pub enum What {
    /// A node: what is drawn in its place, and the rows that its line spans.
    Node {
        /// The thing; nothing for a joint.
        thing: Option<PartId>,
        /// Whether it is a bar.
        bar: bool,
        /// The last row that hangs on it.
        last: usize,
        /// Whether it is drawn as a block of its own.
        elsewhere: bool,
    },
    /// The name of a run, above the cells of its pieces.
    Name {
        /// The run's part as it is written.
        run: PartId,
        /// How many cells it may fill.
        cells: usize,
        /// Where its line leaves the node before it.
        leaves: Leaves,
        /// Whether nothing but its line stands in its cells.
        bare: bool,
    },
    /// A piece of a run.
    Piece(Piece),
    /// A thing beside a node.
    Thing(PartId),
    /// Where a run goes on: to a node that is drawn elsewhere.
    Onward(Vec<PartId>),
    /// Where the text does not say what is there.
    Nowhere,
}

/// Where a line leaves a node.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Leaves {
    /// In the middle: of a bar or a joint.
    Middle,
    /// At the right of a symbol.
    Symbol,
    /// From the line down beside a symbol.
    Side,
}

/// Everything of a block with its place.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Layout {
    /// What stands where.
    pub placed: Vec<Placed>,
    /// How many columns.
    pub columns: usize,
    /// How many rows.
    pub rows: usize,
}

/// Lays a block out: a node stands in the row of the first thing that hangs on it.
pub fn layout(desk: &Desk<'_, '_>, block: &Block) -> Layout {
    let runs = &desk.circuitry().runs;
    let rows = rows(&block.nodes);
    let mut places: Vec<(usize, usize)> = vec![(0, 0); block.nodes.len()];
    let mut layout = Layout::default();
    // Nodes come before what hangs on them, so that one pass settles all.
    for (index, node) in block.nodes.iter().enumerate() {
        let (column, row) = places.get(index).copied().unwrap_or_default();
        let mut at = row;
        let mut last = row;
        let leaves = |at: usize| match (node.bar || node.thing.is_none(), at == row) {
            (true, _) => Leaves::Middle,
            (false, true) => Leaves::Symbol,
            (false, false) => Leaves::Side,
        };
        for branch in &node.branches {
            last = at;
            match branch {
                Branch::Thing(thing) => {
                    layout.put(What::Thing(*thing), column + 1, at);
                    at += 1;
                }
                Branch::Run { run, reversed, to } => {
                    let end = layout.run(runs.get(*run), *reversed, leaves(at), (column + 1, at));
                    if let Some(place) = places.get_mut(*to) {
                        *place = (end, at);
                    }
                    at += rows.get(*to).copied().unwrap_or(1);
                }
                Branch::Loose { run, reversed, to } => {
                    let end = layout.run(runs.get(*run), *reversed, leaves(at), (column + 1, at));
                    layout.put(to.map_or(What::Nowhere, |to| What::Onward(things(desk, to))), end, at);
                    at += 1;
                }
            }
        }
        layout.put(What::Node { thing: node.thing, bar: node.bar, last, elsewhere: node.elsewhere }, column, row);
    }
    layout
}

fn things(desk: &Desk<'_, '_>, node: usize) -> Vec<PartId> {
    let mut things = Vec::new();
    for terminal in desk.circuitry().terminals(&[node]) {
        if !things.contains(&terminal.thing) {
            things.push(terminal.thing);
        }
    }
    things
}

/// The rows that each node takes with all that hangs on it: those behind come later in the list, so it is walked backwards.
fn rows(nodes: &[Node]) -> Vec<usize> {
    let mut rows = vec![1; nodes.len()];
    for index in (0..nodes.len()).rev() {
        let of = |branch: &Branch| match branch {
            Branch::Run { to, .. } => rows.get(*to).copied().unwrap_or(1),
            Branch::Loose { .. } | Branch::Thing(_) => 1,
        };
        let sum: usize = nodes[index].branches.iter().map(of).sum();
        rows[index] = sum.max(1);
    }
    rows
}

impl Layout {
    fn put(&mut self, what: What, column: usize, row: usize) {
        self.columns = self.columns.max(column + 1);
        self.rows = self.rows.max(row + 1);
        self.placed.push(Placed { what, column, row });
    }

    /// Puts the pieces of a run from a column on; gives the column behind them.
    fn run(&mut self, run: Option<&Run>, reversed: bool, leaves: Leaves, (column, row): (usize, usize)) -> usize {
        let Some(run) = run else { return column };
        let end = if reversed { design::End::Finish } else { design::End::Start };
        let pieces = run.pieces_from(end);
        // A run without pieces keeps a cell for its name.
        let cells = pieces.len().max(1);
        self.put(What::Name { run: run.written, cells, leaves, bare: pieces.is_empty() }, column, row);
        for (place, piece) in pieces.into_iter().enumerate() {
            self.put(What::Piece(piece), column + place, row);
        }
        column + cells
    }
}
