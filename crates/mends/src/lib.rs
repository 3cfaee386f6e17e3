//! What can be done about a finding: edits of the text. An editor offers them, a machine output carries them; nothing is
//! changed here.

mod declare;
mod protect;
mod thicker;

use design::Build;
use rules::finding::{Finding, Outcome, Place};
use rules::pack::Packs;
use rules::{Review, Today};
use std::ops::Range;

/// An edit that does something about a finding.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Edit {
    /// What it does.
    pub title: String,
    /// What it replaces, and by which text.
    pub changes: Vec<(Place, String)>,
    /// What it is for.
    pub aim: Aim,
    /// Whether it is what a builder would do first.
    pub preferred: bool,
}

/// What an edit is for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Aim {
    /// It takes away what is wrong.
    Mend,
    /// It says something more, which is to be filled in: an entry that a check needs, a system that the build does without.
    Say,
    /// It accepts the finding.
    Accept,
}

/// A reviewed build, whose findings are to be mended.
#[derive(Clone, Copy)]
pub struct Subject<'a> {
    /// The build.
    pub build: &'a Build,
    /// What was found of it.
    pub review: &'a Review,
    /// The rules by which it was found.
    pub packs: &'a Packs,
    /// The day of the review.
    pub today: Today,
}

impl Subject<'_> {
    /// What can be done about a finding, the best first.
    pub fn edits(&self, finding: &Finding) -> Vec<Edit> {
        let mut edits = self.mends(finding);
        if matches!(finding.outcome, Outcome::Fails { .. }) {
            edits.extend(declare::system_absent(self, finding));
        }
        edits.extend(declare::entries(self, finding));
        edits.extend(declare::waiver(self, finding));
        edits
    }

    /// The edits that take away what is wrong, the best first.
    pub fn mends(&self, finding: &Finding) -> Vec<Edit> {
        let own = finding.mend.iter().map(|mend| Edit {
            title: mend.title.clone(),
            changes: vec![(mend.place.clone(), mend.text.clone())],
            aim: Aim::Mend,
            preferred: true,
        });
        let mut edits: Vec<Edit> = own.collect();
        if matches!(finding.outcome, Outcome::Fails { .. }) {
            edits.extend(protect::at_the_source(self, finding));
            edits.extend(thicker::conductor(self, finding));
        }
        edits
    }
}

impl Edit {
    /// An insertion at a byte of a file.
    fn insertion(aim: Aim, title: impl Into<String>, file: usize, at: usize, text: impl Into<String>) -> Self {
        let changes = vec![(Place { file, bytes: at..at }, text.into())];
        Self { title: title.into(), changes, aim, preferred: false }
    }
}

/// The bytes of a place.
fn bytes(at: &spec::Span) -> Range<usize> {
    at.bytes.start as usize..at.bytes.end as usize
}
