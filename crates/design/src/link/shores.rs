//! Shore cables as runs from the site to a board.

use super::names;
use super::runs::{Draft, Draught, Wiring, open};
use super::terminals::Joined;
use crate::known::{Gap, PartId};
use vocabulary::{fact, kind};

const OUT: Joined = Joined { from: true, alternating: true };
const IN: Joined = Joined { from: false, alternating: true };

impl Wiring<'_> {
    pub(super) fn shores(&mut self) {
        for &shore in self.members(kind::SHORE).iter() {
            let mut pieces = Vec::new();
            let mut finish = None;
            let part = self.build.part(shore);
            let mut complete = !part.leaves_open();
            for inner in part.inside.clone() {
                let piece = self.build.part(inner);
                let (kind, at, title) = (piece.kind, piece.head.clone(), piece.title.to_string());
                if kind == kind::CORD {
                    pieces.push(Draught { kind: kind::CONDUCTOR, written: inner, at, title, suffix: String::new() });
                } else if kind == kind::TO {
                    pieces.extend(self.inlet_device(inner));
                    pieces.push(Draught {
                        kind: kind::CONDUCTOR,
                        written: inner,
                        at: at.clone(),
                        title,
                        suffix: String::new(),
                    });
                    let Some(name) = piece.name.clone() else {
                        let node = self.node(shore, OUT);
                        complete = false;
                        self.open_end(Some(node), Gap::Unread(inner), true);
                        continue;
                    };
                    match self.things.get(&name).copied() {
                        Some(board) => {
                            finish = Some(self.node(board, IN));
                            // A board whose line could not be read may say its main breaker there.
                            complete &= !self.build.part(board).unread;
                            pieces.extend(self.main_device(board));
                        }
                        None => {
                            let node = self.node(shore, OUT);
                            complete = false;
                            self.open_end(Some(node), Gap::Unread(inner), true);
                            self.slips.extend(names::unknown_thing(self.build, &name, &at, &open(self.build)));
                        }
                    }
                }
            }
            let start = Some(self.node(shore, OUT));
            self.run(Draft { written: shore, pieces, complete, alternating: true, nodes: [start, finish] });
        }
    }

    /// The breaker at the inlet, where it is described.
    fn inlet_device(&self, to: PartId) -> Option<Draught> {
        let part = self.build.part(to);
        let given = part.given(fact::to::BREAKER)?;
        Some(Draught {
            kind: kind::DEVICE,
            written: to,
            at: given.at.clone(),
            title: format!("breaker at the inlet, {}", part.title),
            suffix: "breaker".to_owned(),
        })
    }

    /// The main breaker of a board, where it is described. A board that several runs feed has it in each of them.
    pub(super) fn main_device(&mut self, board: PartId) -> Option<Draught> {
        let part = self.build.part(board);
        let given = part.given(fact::ac_board::MAIN)?;
        let at = given.at.clone();
        let title = format!("main breaker of {}", part.title);
        let feeds = self.feeds.entry(board).or_insert(0);
        *feeds += 1;
        let suffix = if *feeds == 1 { "main".to_owned() } else { format!("main, feed {feeds}") };
        Some(Draught { kind: kind::DEVICE, written: board, at, title, suffix })
    }
}
