//! What is closed and what feeds in a case: the one place at which operating modes decide over the solved network.

use crate::circuitry::{Side, Terminal};
use crate::known::{CaseId, Gaps, PartId, Tri};
use crate::methods::drop::holds_voltage;
use crate::methods::fact_of;
use crate::reader::Reader;
use vocabulary::{PartKind, kind};

/// Whether a disconnect, switch or relay is closed, all the time or at times.
pub fn is_closed(reader: &mut Reader<'_>, switch: PartId, case: CaseId) -> bool {
    reader.mode_state(case).closed(switch) != Tri::No
}

/// Whether a source gives current, all the time or at times.
pub fn gives(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> bool {
    reader.mode_state(case).feeds(terminal.thing) != Tri::No
}

/// Whether a source holds up a voltage.
pub fn feeds(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> bool {
    can_feed(reader.build().part(terminal.thing).kind, terminal.side) && gives(reader, terminal, case)
}

fn can_feed(kind: PartKind, side: Side) -> bool {
    holds_voltage(kind, side)
}

/// What is written of a charger or a plug as unknown, and decides when it is on.
pub fn unsaid(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Gaps {
    let decides = ["enable", "switched"].into_iter().filter_map(|name| fact_of(reader.build(), terminal.thing, name));
    let mut gaps = Gaps::default();
    for fact in decides.collect::<Vec<_>>() {
        if !reader.silent(terminal.thing, fact)
            && let Err(more) = reader.fact(terminal.thing, fact, case)
        {
            gaps.add(&more);
        }
    }
    gaps
}

/// Whether a thing takes current: a charger that is off takes none.
pub fn takes(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> bool {
    reader.build().part(terminal.thing).kind != kind::CHARGER || gives(reader, terminal, case)
}
