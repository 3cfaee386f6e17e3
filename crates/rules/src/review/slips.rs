//! What the reader and the linker find, as findings under their documented rules.

use super::Item;
use crate::finding::{Finding, Mend, Outcome, Place, Related};
use crate::pack::Packs;
use crate::signal::Signal;
use design::{Build, Gaps, PartId};
use spec::{Slip, Span};

/// A place of the review from a span of the reader.
pub fn place(span: &Span) -> Place {
    let byte = |offset: u32| usize::try_from(offset).unwrap_or(usize::MAX);
    Place { file: byte(span.file), bytes: byte(span.bytes.start)..byte(span.bytes.end) }
}

/// The finding for something wrong in the text.
pub fn item(build: &Build, packs: &Packs, slip: &Slip) -> Item {
    let part = innermost(build, &slip.at);
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

/// The innermost written part that holds a span.
fn innermost(build: &Build, span: &Span) -> Option<PartId> {
    build
        .parts()
        .filter(|(_, part)| {
            part.whole.file == span.file
                && part.whole.bytes.start <= span.bytes.start
                && span.bytes.end <= part.whole.bytes.end
                && vocabulary::part(part.kind).family != vocabulary::Family::Worked
        })
        .min_by_key(|(_, part)| part.whole.bytes.end - part.whole.bytes.start)
        .map(|(number, _)| number)
}
