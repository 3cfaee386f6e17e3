//! Whether each system of the vocabulary is described or declared absent.

use super::no_solution;
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use spec::Value;
use vocabulary::{SystemSpec, fact as f, kind};

fn system(reader: &Reader<'_>, part: PartId) -> Outcome<&'static SystemSpec> {
    match reader.build().system(part).and_then(|number| vocabulary::systems().get(number)) {
        Some(system) => Ok(system),
        None => no_solution(part, f::system::TITLE),
    }
}

/// The word behind `none`.
pub fn title(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Text(system(reader, part)?.word.into()))
}

/// Whether a part of it is described.
pub fn described(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let system = system(reader, part)?;
    let mut gaps = Gaps::default();
    for by in system.described_by {
        let list = reader.build().of_kind(by.kind);
        if !list.complete {
            gaps.add(&Gaps::one(Gap::Unread(Build::ROOT)));
        }
        for &member in list.members.iter() {
            let Some((choice, words)) = by.when else { return Ok(Fact::Flag(true)) };
            match reader.need_word(member, choice, case) {
                Ok(word) if words.contains(&word) => return Ok(Fact::Flag(true)),
                Ok(_) => {}
                Err(more) => gaps.add(&more),
            }
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// Whether the build says `none` of it.
pub fn declared_absent(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let word = system(reader, part)?.word;
    if says_none(reader.build(), word) {
        return Ok(Fact::Flag(true));
    }
    for &none in reader.build().of_kind(kind::NONE).members.iter() {
        // Something is declared absent, and it is not known what.
        reader.fact(none, f::none::SYSTEMS, case)?;
    }
    if reader.build().of_kind(kind::NONE).complete {
        Ok(Fact::Flag(false))
    } else {
        Err(Gaps::one(Gap::Unread(Build::ROOT)))
    }
}

/// Whether a `none` of the build names this system.
pub fn says_none(build: &Build, word: &str) -> bool {
    build.of_kind(kind::NONE).members.iter().any(|none| {
        build.part(*none).given(f::none::SYSTEMS).is_some_and(|given| match &given.value {
            Value::Names(names) => names.iter().any(|(name, _)| &**name == word),
            Value::Text(text) => &**text == word,
            _ => false,
        })
    })
}
