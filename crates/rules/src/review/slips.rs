//! What the reader and the linker find, as findings under their documented rules.

use super::Item;
use crate::finding::{Finding, Mend, Outcome, Place, Related};
use crate::pack::Packs;
use crate::signal::Signal;
use design::{Build, Gaps, PartId};
use spec::{Slip, Span};
use std::cmp::Reverse;

/// A place of the review from a span of the reader.
pub fn place(span: &Span) -> Place {
    let byte = |offset: u32| usize::try_from(offset).unwrap_or(usize::MAX);
    Place { file: byte(span.file), bytes: byte(span.bytes.start)..byte(span.bytes.end) }
}

/// The finding for something wrong in the text.
pub fn item(build: &Build, places: &Places, packs: &Packs, slip: &Slip) -> Item {
    let part = places.innermost(&slip.at);
    let about = part.map(|part| build.part(part));
    let rule = packs.rule(slip.rule);
    let help = slip.help.clone().unwrap_or_default();
    let finding = Finding {
        rule: slip.rule.into(),
        title: rule.map_or_else(|| slip.rule.to_owned(), |rule| rule.title.clone()),
        // An undocumented finding must not be taken lightly; a test sees to it that there is none.
        signal: rule.map_or(Signal::Warning, |rule| rule.signal),
        outcome: Outcome::Fails { margin: None },
        part: about.map_or_else(|| "the text".to_owned(), |part| part.title.to_string()),
        part_key: format!("{}\n{}", about.map_or("", |part| &*part.key), slip.message),
        place: place(&slip.at),
        related: slip
            .related
            .iter()
            .map(|(span, label)| Related { place: place(span), label: label.clone() })
            .collect(),
        message: slip.message.clone(),
        why: rule.map(|rule| rule.why.clone()).unwrap_or_default(),
        remedy: help,
        caution: rule.and_then(|rule| rule.caution.clone()),
        facts: Vec::new(),
        circumstances: Vec::new(),
        region: None,
        case: String::new(),
        sources: rule.map(|rule| rule.sources.clone()).unwrap_or_default(),
        mend: slip.mend.as_ref().map(|mend| Mend {
            title: mend.title.clone(),
            place: place(&mend.at),
            text: mend.text.clone(),
        }),
        waived: None,
        follow: Vec::new(),
        fingerprint: String::new(),
    };
    Item { finding, part, cause: None, gaps: Gaps::default() }
}

/// The written parts of a build by their places, to find the innermost that holds a span.
pub struct Places {
    /// By file and begin, what holds before what is held.
    parts: Vec<Held>,
}

struct Held {
    file: u32,
    start: u32,
    end: u32,
    part: PartId,
    /// The entry of the part around it.
    around: Option<usize>,
}

impl Places {
    /// The places of a build's parts.
    pub fn of(build: &Build) -> Self {
        let written =
            build.parts().filter(|(_, part)| vocabulary::part(part.kind).family != vocabulary::Family::Worked);
        let held = written.map(|(number, part)| {
            let Span { file, bytes } = &part.whole;
            Held { file: *file, start: bytes.start, end: bytes.end, part: number, around: None }
        });
        let mut parts: Vec<Held> = held.collect();
        // Of parts at one place the first counts: it comes last, as the innermost.
        parts.sort_by_key(|held| (held.file, held.start, Reverse(held.end), Reverse(held.part.0)));
        let mut open: Vec<usize> = Vec::new();
        for index in 0..parts.len() {
            let Some((file, end)) = parts.get(index).map(|held| (held.file, held.end)) else { break };
            let around = |other: &usize| parts.get(*other).is_some_and(|other| other.file == file && other.end >= end);
            while open.last().is_some_and(|last| !around(last)) {
                open.pop();
            }
            if let Some(held) = parts.get_mut(index) {
                held.around = open.last().copied();
            }
            open.push(index);
        }
        Self { parts }
    }

    /// The innermost part that holds a span.
    fn innermost(&self, span: &Span) -> Option<PartId> {
        let behind = self.parts.partition_point(|held| (held.file, held.start) <= (span.file, span.bytes.start));
        let mut next = behind.checked_sub(1);
        while let Some(held) = next.and_then(|index| self.parts.get(index)) {
            if held.file != span.file {
                return None;
            }
            if held.end >= span.bytes.end {
                return Some(held.part);
            }
            next = held.around;
        }
        None
    }
}
