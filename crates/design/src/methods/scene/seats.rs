//! Seats: ways out, and whether a paper proves their anchorages.

use super::ways;
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, PartId};
use crate::methods::is_said;
use crate::reader::Reader;
use vocabulary::fact::seat as s;

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (s::PROVEN, Each(proven)),
        (s::EXITS_THERE, Each(ways::exits_there)),
        (s::EXITS_REACHED, Each(ways::exits_reached)),
        (s::WAY_WIDTH, Each(ways::way_width)),
        (s::SECOND_WAY_WIDTH, Each(ways::second_way_width)),
        (s::FREE_OF_FIRE, Each(ways::free_of_fire)),
        (s::FIRE_CLEARANCE, Each(ways::fire_clearance)),
    ]
}

fn proven(reader: &mut Reader<'_>, seat: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(is_said(reader, seat, s::EVIDENCE)?))
}
