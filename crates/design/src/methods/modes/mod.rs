//! What is closed, what feeds and what is live in each mode, within two bounds: what is certain all the time, and what is
//! possible at times. A switch worked by hand may stand either way; an alternator may run while somebody opens a disconnect.

mod draw;
mod facts;
mod islands;
mod overview;
mod storage;
mod switches;

pub(super) use draw::power_factor;

pub use facts::{bindings, fed};
pub use islands::Islands;
pub use overview::{Fed, ModeOverview};
pub use storage::{AlwaysOn, always_on};

use super::doubt;
use crate::known::{Gaps, PartId, Tri};
use crate::reader::Reader;
use rustc_hash::FxHashMap;

/// One mode with all that follows from it.
#[derive(Debug)]
pub struct ModeState {
    /// Whether each switch is closed; those that may stand either way are unknown.
    switches: FxHashMap<PartId, Tri>,
    /// Whether each source feeds, and whether what passes current on does; those that do at times are unknown.
    feeds: FxHashMap<PartId, Tri>,
    /// What is live all the time.
    certain: Islands,
    /// What is live at times.
    possible: Islands,
    /// What is not said, by the group of nodes in which it decides; under none what concerns all of them.
    unknown: FxHashMap<Option<usize>, Gaps>,
}

impl ModeState {
    /// The state of a mode, by its number.
    pub fn of(reader: &mut Reader<'_>, mode: usize) -> Self {
        switches::state(reader, mode)
    }

    /// Whether a disconnect, switch or relay is closed: yes all the time, no never, unknown at times.
    pub fn closed(&self, switch: PartId) -> Tri {
        self.switches.get(&switch).copied().unwrap_or(Tri::Yes)
    }

    /// Whether a source feeds, or a thing that passes current on does: yes all the time, no never, unknown at times.
    pub fn feeds(&self, thing: PartId) -> Tri {
        self.feeds.get(&thing).copied().unwrap_or(Tri::Yes)
    }

    /// Whether current reaches a node: yes all the time, no never, unknown at times.
    pub fn live(&self, node: usize) -> Tri {
        match (self.certain.is_live(node), self.possible.is_live(node)) {
            (true, _) => Tri::Yes,
            (false, true) => Tri::Unknown,
            (false, false) => Tri::No,
        }
    }

    /// What is live all the time.
    pub fn certain(&self) -> &Islands {
        &self.certain
    }

    /// What is live at times.
    pub fn possible(&self) -> &Islands {
        &self.possible
    }

    /// What is not said and may change what reaches a node in this mode, besides what may be joined to it.
    pub fn unsaid(&self, reader: &Reader<'_>, node: usize) -> Gaps {
        let mut gaps = self.unknown.get(&None).cloned().unwrap_or_default();
        let group = reader.build().circuitry().group.get(node).copied();
        if let Some(more) = self.unknown.get(&group).filter(|_| group.is_some()) {
            gaps.add(more);
        }
        gaps
    }

    /// What would settle whether anything more reaches a node in this mode.
    pub fn doubt(&self, reader: &Reader<'_>, node: usize) -> Gaps {
        let mut gaps = self.unsaid(reader, node);
        gaps.add(&doubt::of_anything(reader, node));
        gaps
    }
}
