//! Lists of things that a text asks about, each with how it is told, and what of them is so.

use super::{no_solution, one_holds};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::FactId;

/// Whether one of the things is so.
pub type Asked = fn(&mut Reader<'_>, CaseId) -> Outcome<bool>;

/// A list, and how its working is told.
pub struct Checklist {
    /// Each thing in words, and how it is told.
    pub items: &'static [(&'static str, Asked)],
    /// What the working says of what is so, and of what is not.
    pub answers: [&'static str; 2],
    /// A step of the working with the source of the list.
    pub step: fn(String) -> Step,
}

impl Checklist {
    fn told(&self, reader: &mut Reader<'_>, case: CaseId) -> Vec<(&'static str, Outcome<bool>)> {
        let of = |(words, asked): &(&'static str, Asked)| {
            let is = asked(reader, case);
            reader.step(|| {
                let [yes, no] = self.answers;
                let answer = match is {
                    Ok(true) => yes,
                    Ok(false) => no,
                    Err(_) => "not known",
                };
                (self.step)(format!("{words}: {answer}"))
            });
            (*words, is)
        };
        self.items.iter().map(of).collect()
    }

    /// Whether anything of the list is as `wanted`.
    pub fn any(&self, reader: &mut Reader<'_>, wanted: bool, case: CaseId) -> Outcome<bool> {
        one_holds(self.told(reader, case).into_iter().map(|(_, is)| is.map(|is| is == wanted)))
    }

    /// What of the list is certainly as `wanted`, in words; where nothing is, what would settle it, and else that `fact` has no answer.
    pub fn those(
        &self,
        reader: &mut Reader<'_>,
        wanted: bool,
        (part, fact): (PartId, FactId),
        case: CaseId,
    ) -> Outcome {
        let told = self.told(reader, case);
        let met: Vec<&str> = told.iter().filter(|(_, is)| *is == Ok(wanted)).map(|(words, _)| *words).collect();
        if met.is_empty() {
            one_holds(told.into_iter().map(|(_, is)| is.map(|is| is == wanted)))?;
            return no_solution(part, fact);
        }
        Ok(Fact::Text(met.join("; ").into()))
    }
}
