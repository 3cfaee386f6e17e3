//! What is closed and what feeds in a case: the one place at which operating modes decide over the solved network.

use crate::circuitry::{Side, Terminal};
use crate::known::{CaseId, PartId};
use crate::methods::drop::holds_voltage;
use crate::reader::Reader;
use vocabulary::PartKind;

/// Whether a disconnect, switch or relay is closed. Without modes everything is in use, so every contact is.
pub fn is_closed(_: &Reader<'_>, _: PartId, _: CaseId) -> bool {
    true
}

/// Whether a source holds up a voltage. Without modes each that can does.
pub fn feeds(reader: &Reader<'_>, terminal: Terminal, _: CaseId) -> bool {
    can_feed(reader.build().part(terminal.thing).kind, terminal.side)
}

fn can_feed(kind: PartKind, side: Side) -> bool {
    holds_voltage(kind, side)
}
