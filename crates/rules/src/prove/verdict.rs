//! The verdict on an example as a whole.

use super::bench::Linked;
use crate::judge::{Verdict, cases, worst};
use crate::pack::{Expected, Selected, for_classes, select};
use crate::rule::Rule;
use crate::signal::Region;
use design::{Gap, Gaps};
use vocabulary::PartKind;

/// The verdict on an example, and what would settle what is open in it.
pub(super) struct ExampleVerdict {
    pub(super) kind: Expected,
    pub(super) gaps: Gaps,
}

/// The sets of figures by which a rule judges an example; none where it is not for such a vehicle or region.
pub(super) fn selected<'r, L: Linked>(linked: &mut L, rule: &'r Rule, regions: &[Region]) -> Vec<Selected<'r>> {
    if for_classes(rule, &linked.classes()) { select(rule, regions) } else { Vec::new() }
}

/// Judges a rule on every part of an example: fails outrank open, open outranks holds.
pub(super) fn judge<L: Linked>(linked: &mut L, rule: &Rule, regions: &[Region]) -> ExampleVerdict {
    let mut gaps = Gaps::default();
    let (mut fails, mut open, mut holds) = (false, false, false);
    let cases = cases(linked, rule);
    for (_, _, values) in selected(linked, rule, regions) {
        for part in linked.parts_of(PartKind(rule.about)).members.iter() {
            match worst(linked, rule, *part, &cases, &values).1 {
                Verdict::NotApplicable => {}
                Verdict::Holds => holds = true,
                Verdict::Fails(_) => fails = true,
                Verdict::Open(missing) => {
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
    ExampleVerdict { kind, gaps }
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
