//! What a review brings out: findings as data, without a word of how they are shown.

use crate::rule::RuleSource;
use crate::signal::{Region, Signal};
use std::ops::Range;
use std::sync::Arc;

/// A place in a text: the file's number in [`Review::files`] and bytes in it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Place {
    /// The file's number.
    pub file: usize,
    /// The bytes.
    pub bytes: Range<usize>,
}

/// Another place that a finding points to.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Related {
    /// Where.
    pub place: Place,
    /// What is there: 'the battery house', 'the pattern that this was taken from'.
    pub label: String,
}

/// A fact that a judgement read.
#[derive(Clone, PartialEq, Debug)]
pub struct FactUsed {
    /// The part's title: `circuit "house main"`.
    pub part: String,
    /// The fact's name: `protected-ampacity`.
    pub fact: String,
    /// Its value in the reader's units; nothing when unknown.
    pub value: Option<String>,
    /// A number's value in coherent SI units.
    pub number: Option<f64>,
    /// The name of its dimension, for numbers.
    pub dimension: Option<String>,
    /// How the value was worked out, as an engineer writes it; empty for given values.
    pub working: Vec<WorkingStep>,
}

/// One step of a working.
#[derive(Clone, PartialEq, Debug)]
pub struct WorkingStep {
    /// The step: 'table value 210 A × 0.8 for 4 conductors bundled = 168 A'.
    pub text: String,
    /// The document it rests on with its evidence mark, if any: '33 CFR 183.425 Table 5 (read)'.
    pub source: Option<String>,
    /// Whether the step rests on an assumed value.
    pub assumed: bool,
    /// How deep it stands below the fact that was asked for.
    pub depth: usize,
}

/// What a rule found on a part.
#[derive(Clone, PartialEq, Debug)]
pub enum Outcome {
    /// It fails.
    Fails {
        /// By how much, as a share of the limit (0.25: a quarter over it), where a comparison decided.
        margin: Option<f64>,
    },
    /// It cannot be told.
    Undecided {
        /// What would settle it: all of these, each with alternatives.
        missing: Vec<Missing>,
    },
}

/// One thing that is missing.
#[derive(Clone, PartialEq, Debug)]
pub struct Missing {
    /// The alternatives in words: 'size= of wire in circuit "x"'.
    pub alternatives: Vec<String>,
    /// Where the first alternative can be written.
    pub place: Place,
    /// The property that the first alternative is, and where it can be written, when nothing is written of it yet.
    pub entry: Option<(&'static str, Place)>,
}

/// One finding.
#[derive(Clone, PartialEq, Debug)]
pub struct Finding {
    /// The rule's name.
    pub rule: Arc<str>,
    /// The rule's title.
    pub title: String,
    /// How bad the harm is.
    pub signal: Signal,
    /// What was found.
    pub outcome: Outcome,
    /// The part's title: `circuit "house main"`.
    pub part: String,
    /// The part's key, stable against edits elsewhere.
    pub part_key: String,
    /// Where.
    pub place: Place,
    /// Other places.
    pub related: Vec<Related>,
    /// What is wrong, in one sentence.
    pub message: String,
    /// Why it matters.
    pub why: String,
    /// The cheapest sufficient remedy.
    pub remedy: String,
    /// The caution.
    pub caution: Option<String>,
    /// The facts that were read, with their values and working.
    pub facts: Vec<FactUsed>,
    /// Both ends and every source, where current is concerned; one line each.
    pub circumstances: Vec<String>,
    /// The region whose values decided, when the rule has values by region.
    pub region: Option<Region>,
    /// The case in which it is worst; empty while only one exists.
    pub case: String,
    /// Where the rule comes from.
    pub sources: Vec<RuleSource>,
    /// An edit that mends it.
    pub mend: Option<Mend>,
    /// Who accepts it and why, when it is waived.
    pub waived: Option<Waived>,
    /// Findings that only follow from this one.
    pub follow: Vec<Finding>,
    /// Rule and part key, hashed: the same finding has the same fingerprint in the next revision.
    pub fingerprint: String,
}

/// An edit.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Mend {
    /// What it does.
    pub title: String,
    /// The bytes that are replaced.
    pub place: Place,
    /// The new text.
    pub text: String,
}

/// A waiver that matched.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Waived {
    /// Why.
    pub reason: String,
    /// By whom.
    pub by: String,
    /// The last day it holds.
    pub until: Option<String>,
    /// The paper behind it.
    pub evidence: Option<String>,
    /// Where the waiver stands.
    pub place: Place,
}

/// How many checks came out how, by signal word from notice to danger.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Counts {
    /// Failed and not waived.
    pub failed: [usize; 4],
    /// Undecided and not waived.
    pub undecided: [usize; 4],
    /// Held.
    pub held: usize,
    /// Waived.
    pub waived: usize,
    /// Failed or undecided, and known from before.
    pub known: usize,
    /// Not applicable.
    pub not_applicable: usize,
}

/// An entry that would settle undecided checks.
#[derive(Clone, PartialEq, Debug)]
pub struct Settles {
    /// What to write, in words: 'size= of wire in circuit "x"'.
    pub entry: String,
    /// Where.
    pub place: Place,
    /// How many undecided checks it would settle or bring nearer.
    pub checks: usize,
}

/// How far a design is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stage {
    /// Undecided checks do not hold it.
    Draft,
    /// Undecided checks of signal word danger or warning hold it.
    Review,
    /// As review.
    Issued,
}

/// A file that was read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct FileText {
    /// Its name as the caller gave it, or as the include said it.
    pub name: String,
    /// Its text.
    pub text: Arc<str>,
}

/// The whole outcome of one review.
#[derive(Clone, PartialEq, Debug)]
pub struct Review {
    /// The build's name, if it has one.
    pub build: Option<String>,
    /// How far the design is.
    pub stage: Stage,
    /// The regions whose rules applied.
    pub regions: Vec<Region>,
    /// The files read; the first is the build itself.
    pub files: Vec<FileText>,
    /// What fails, worst signal word first, then in text order.
    pub failed: Vec<Finding>,
    /// What cannot be told, in the same order.
    pub undecided: Vec<Finding>,
    /// What is waived.
    pub waived: Vec<Finding>,
    /// What fails or cannot be told and was known before the review: it holds nothing.
    pub known: Vec<Finding>,
    /// The counts.
    pub counts: Counts,
    /// The few entries that would settle most.
    pub settle: Vec<Settles>,
    /// The units that the builder wants to read.
    pub units: quantity::System,
}

impl Review {
    /// Takes aside what was known before. It is counted, and holds the build no longer.
    pub fn take_known_aside(&mut self, is_known: &dyn Fn(&Finding) -> bool) {
        for (findings, counts) in
            [(&mut self.failed, &mut self.counts.failed), (&mut self.undecided, &mut self.counts.undecided)]
        {
            for finding in findings.extract_if(.., |finding| is_known(finding)) {
                if let Some(count) = counts.get_mut(finding.signal as usize) {
                    *count -= 1;
                }
                self.known.push(finding);
            }
        }
        self.counts.known = self.known.len();
    }

    /// Whether the build is held: a failed finding at or above `word`, or outside a draft an undecided check of signal
    /// word warning or danger.
    pub fn held_at(&self, word: Signal) -> bool {
        self.failed.iter().any(|finding| finding.signal >= word)
            || self.stage != Stage::Draft && self.undecided.iter().any(|finding| finding.signal >= Signal::Warning)
    }
}
