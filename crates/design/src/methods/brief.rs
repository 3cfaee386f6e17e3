//! The brief of a build, where it has one.

use crate::fact::{Fact, Outcome};
use crate::known::{Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use vocabulary::{FactId, kind};

/// The brief; nothing where certainly none is written.
pub fn found(reader: &Reader<'_>) -> Outcome<Option<PartId>> {
    let build = reader.build();
    match build.only(kind::BRIEF) {
        Some(brief) => Ok(Some(brief)),
        None if build.of_kind(kind::BRIEF).complete => Ok(None),
        None => Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))),
    }
}

/// The brief, which is missing where none is written.
pub fn due(reader: &Reader<'_>) -> Outcome<PartId> {
    found(reader)?.ok_or_else(|| Gaps::one(Gap::Absent(Build::ROOT, kind::BRIEF)))
}

/// Whether the brief says this; it does not where there is none.
pub fn says(reader: &Reader<'_>, fact: FactId) -> Outcome {
    let said = found(reader)?.map(|brief| super::is_said(reader, brief, fact));
    Ok(Fact::Flag(said.unwrap_or(Ok(false))?))
}
