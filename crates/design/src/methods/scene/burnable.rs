//! What can burn.

use super::{every, filtered};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, PartId};
use crate::reader::Reader;
use vocabulary::{PartKind, fact as f, kind};

/// What can catch fire from a flame or a hot surface beside it.
const KINDS: [PartKind; 4] = [kind::FURNISHING, kind::BERTH, kind::CURTAIN, kind::TABLE];

/// Furniture, berths, curtains and tables, but for furniture of what does not burn.
pub fn burnables(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<PartId>> {
    let all = every(reader, &KINDS)?;
    filtered(all, |part| {
        if reader.build().part(part).kind != kind::FURNISHING {
            return Ok(true);
        }
        match reader.fact(part, f::furnishing::MATERIAL, case)? {
            Fact::Text(material) => Ok(!calc::does_not_burn(&material)),
            _ => Ok(true),
        }
    })
}
