//! What is missing, in words and with the place where it can be written.

use super::slips::place;
use crate::finding::{Missing, Place};
use design::{Build, Gap, Gaps, Part};

/// Each thing that is missing, with its alternatives.
pub fn missing(build: &Build, gaps: &Gaps) -> Vec<Missing> {
    gaps.0
        .iter()
        .filter_map(|any| {
            let first = any.0.first()?;
            Some(Missing {
                alternatives: any.0.iter().map(|gap| words(build, gap)).collect(),
                place: where_to_write(build, first),
                entry: entry(build, first),
            })
        })
        .collect()
}

/// A property that is not written yet, with the place where it can be.
fn entry(build: &Build, gap: &Gap) -> Option<(&'static str, Place)> {
    let Gap::Entry(part, fact) = gap else { return None };
    let (part, spec) = (build.part(*part), vocabulary::fact_spec(*fact));
    if !spec.given || part.given(*fact).is_some() || part.unread {
        return None;
    }
    Some((spec.name, place(&part.room)))
}

/// A gap in words.
pub fn words(build: &Build, gap: &Gap) -> String {
    match gap {
        Gap::Entry(part, fact) => {
            format!("{} of {}", vocabulary::fact_spec(*fact).name, build.part(*part).title)
        }
        Gap::Absent(part, kind) if *part == Build::ROOT => {
            format!("a {} in the build", vocabulary::part(*kind).word)
        }
        Gap::Absent(part, kind) => format!("a {} in {}", vocabulary::part(*kind).word, build.part(*part).title),
        Gap::Unread(part) if *part == Build::ROOT => "what could not be read in this text".to_owned(),
        Gap::Unread(part) if names_nothing(build.part(*part)) => {
            format!("the thing that {} is joined to", build.part(*part).title)
        }
        Gap::Unread(part) => format!("the text of {}, which could not be read", build.part(*part).title),
        Gap::Circular(part, fact) => {
            format!("{} of {} depends on itself", vocabulary::fact_spec(*fact).name, build.part(*part).title)
        }
        Gap::NoSolution(part, fact) => {
            format!(
                "{} of {} has no solution with what is given",
                vocabulary::fact_spec(*fact).name,
                build.part(*part).title
            )
        }
    }
}

/// Whether a part that was read well says of the thing that it refers to that it is not known: `way 1 unknown`.
fn names_nothing(part: &Part) -> bool {
    !part.unread && part.name.is_none() && vocabulary::part(part.kind).naming == vocabulary::Naming::Refers
}

/// Where a gap can be filled.
pub fn where_to_write(build: &Build, gap: &Gap) -> Place {
    match gap {
        Gap::Entry(part, fact) => {
            let part = build.part(*part);
            // An entry that says `unknown` is filled where it stands.
            place(part.given(*fact).map_or(&part.head, |given| &given.at))
        }
        Gap::Absent(part, _) | Gap::Unread(part) | Gap::Circular(part, _) | Gap::NoSolution(part, _) => {
            place(&build.part(*part).head)
        }
    }
}
