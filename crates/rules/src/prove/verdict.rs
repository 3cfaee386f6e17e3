//! The verdict on an example as a whole.

use super::bench::{Judged, Linked};
use crate::pack::{Expected, select};
use crate::rule::Rule;
use crate::signal::Region;
use design::{Gap, Gaps};

/// The verdict on an example, and what would settle what is open in it.
pub(super) struct Verdict {
    pub(super) kind: Expected,
    pub(super) gaps: Gaps,
}

/// Judges a rule on an example, with every distinct set of figures of its regions: fails outrank open, open outranks holds.
pub(super) fn judge<L: Linked>(linked: &mut L, rule: &Rule, regions: &[Region]) -> Verdict {
    let mut gaps = Gaps::default();
    let (mut fails, mut open, mut holds) = (false, false, false);
    for (_, _, values) in select(rule, regions) {
        for judged in linked.judge(rule, &values) {
            match judged {
                Judged::NotApplicable => {}
                Judged::Holds => holds = true,
                Judged::Fails => fails = true,
                Judged::Open(missing) => {
                    open = true;
                    gaps.add(&missing);
                }
            }
        }
    }
    let kind = match (fails, open, holds) {
        (true, ..) => Expected::Fails,
        (_, true, _) => Expected::Open,
        (.., true) => Expected::Holds,
        _ => Expected::NotApplicable,
    };
    Verdict { kind, gaps }
}

/// What a gap would be filled with: the name of a property or of a part kind.
pub(super) fn gap_name(gap: &Gap) -> Option<&'static str> {
    match gap {
        Gap::Entry(_, fact) | Gap::Circular(_, fact) | Gap::NoSolution(_, fact) => {
            vocabulary::facts().get(usize::from(fact.0)).map(|fact| fact.name)
        }
        Gap::Absent(_, kind) => vocabulary::parts().get(usize::from(kind.0)).map(|part| part.word),
        Gap::Unread(_) => None,
    }
}
