//! The mend of a conductor without protection: a fuse at the source, as large as the conductor carries.

use crate::{Aim, Edit, Subject, bytes};
use design::{CaseId, End, PartId, Reader, Run, Tri};
use rules::finding::Finding;
use vocabulary::{fact, kind};

/// The rule about conductors without protection.
const NONE_AT_SOURCE: &str = "protection/none-at-source";

/// The fuses that are missing from the run of a finding.
pub fn at_the_source(subject: &Subject<'_>, finding: &Finding) -> Vec<Edit> {
    if &*finding.rule != NONE_AT_SOURCE {
        return Vec::new();
    }
    let build = subject.build;
    let found = build.parts().find(|(_, part)| *part.key == *finding.part_key);
    let Some(run) = found.and_then(|(part, _)| build.circuitry().run(part)) else { return Vec::new() };
    let mut reader = Reader::new(build);
    let ampacity = reader.number(run.part, fact::run::AMPACITY, CaseId(0));
    let load = reader.number(run.part, fact::run::DESIGN_CURRENT, CaseId(0));
    let nec = build.regions.us;
    let Some(rating) = calc::largest_rating_within(nec, ampacity) else { return Vec::new() };
    // Nothing is offered where no size both carries the load and spares the conductor. Of a load that is not known the
    // conductor is spared all the same.
    if load.is_finite() && calc::smallest_rating_for_load(nec, load, false).is_none_or(|least| least > rating) {
        return Vec::new();
    }
    let lacking = End::BOTH.into_iter().zip(run.ends).filter(|(_, end)| lacks(&mut reader, *end, ampacity));
    lacking.filter_map(|(end, _)| fuse(subject, run, end, rating)).collect()
}

/// Whether an end of a run has no device, and a source behind it that drives more than the conductor carries.
fn lacks(reader: &mut Reader<'_>, end: PartId, ampacity: f64) -> bool {
    let spared = reader.flag(end, fact::run_end::LIMITED_UPSTREAM, CaseId(0)) == Tri::Yes
        && reader.number(end, fact::run_end::UPSTREAM_RATING, CaseId(0)) <= ampacity;
    !spared
        && reader.flag(end, fact::run_end::FED, CaseId(0)) == Tri::Yes
        && reader.flag(end, fact::run_end::HAS_DEVICE, CaseId(0)) == Tri::No
}

/// The fuse at an end: the first or the last line of a circuit, or the property of a way.
fn fuse(subject: &Subject<'_>, run: &Run, end: End, rating: f64) -> Option<Edit> {
    let build = subject.build;
    let written = build.part(run.written);
    let file = written.head.file as usize;
    // A way has its source at one end only; of a circuit it matters which end is meant.
    let into = if written.kind == kind::WAY { run.written } else { run.ends[usize::from(end == End::Finish)] };
    let title = format!("put a {rating} A fuse into {}", build.part(into).title);
    let mut edit = if written.kind == kind::WAY {
        Edit::insertion(Aim::Mend, title, file, bytes(&written.room).end, format!(" fuse=\"{rating} A\""))
    } else if written.kind == kind::CIRCUIT {
        let line = format!("fuse rating=\"{rating} A\"");
        let text = &subject.review.files.get(file)?.text;
        let mut inside =
            written.inside.iter().map(|inner| build.part(*inner)).filter(|inner| inner.whole.file as usize == file);
        match (end, inside.clone().next(), inside.next_back()) {
            (End::Start, Some(first), _) => {
                let at = first.whole.bytes.start as usize;
                Edit::insertion(Aim::Mend, title, file, at, format!("{line}{}", separator(text, at)))
            }
            (End::Finish, _, Some(last)) => {
                let between = separator(text, last.whole.bytes.start as usize);
                Edit::insertion(Aim::Mend, title, file, last.whole.bytes.end as usize, format!("{between}{line}"))
            }
            _ => Edit::insertion(Aim::Mend, title, file, bytes(&written.room).end, format!(" {{ {line}; }}")),
        }
    } else {
        return None;
    };
    edit.preferred = true;
    Some(edit)
}

/// What parts two lines as those around them are parted: a line break with the same indentation, or a semicolon.
fn separator(text: &str, at: usize) -> String {
    let before = text.get(..at).unwrap_or("");
    let line = before.get(before.rfind('\n').map_or(0, |at| at + 1)..).unwrap_or("");
    if line.trim().is_empty() { format!("\n{line}") } else { "; ".to_owned() }
}
