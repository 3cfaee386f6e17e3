//! The brief of a build, where it has one.

use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
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

/// A number of a part's own entry, else of a fact of the brief.
///
/// # Errors
/// The entry, or what would settle the fact of the brief.
pub fn own_or_said(reader: &mut Reader<'_>, part: PartId, own: FactId, said: FactId, case: CaseId) -> Outcome<f64> {
    if !reader.silent(part, own) {
        return reader.need(part, own, case);
    }
    let gaps = match due(reader).and_then(|brief| reader.need(brief, said, case)) {
        Ok(value) => return Ok(value),
        Err(gaps) => gaps,
    };
    let others = gaps.0.into_iter().flat_map(|any| any.0);
    Err(Gaps(vec![AnyOf(std::iter::once(Gap::Entry(part, own)).chain(others).collect())]))
}
