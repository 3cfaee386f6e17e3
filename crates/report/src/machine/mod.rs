//! Reviews for other programs: forms that a continuous integration reads, written build by build.
//!
//! A document is a head, one fragment for each build, and a tail. A fragment depends on nothing but its build, so that builds
//! can be reviewed side by side and nothing needs to be kept; [`Totals`] gathers what only the tail can say.

mod common;
mod github;
mod gitlab;
mod junit;
mod markdown;
mod sarif;

use rules::finding::{Finding, Place, Review};
use rules::rule::RuleSource;
use rules::{Rule, Signal};
use std::fmt;

/// A form that other programs read.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum MachineForm {
    /// Static Analysis Results Interchange Format 2.1.0, an OASIS standard.
    Sarif,
    /// The XML of test results that most continuous integrations read.
    Junit,
    /// GitLab's report of code quality.
    Gitlab,
    /// Workflow commands of GitHub, which become annotations of the changed lines.
    Github,
    /// A summary in Markdown for a merge or pull request.
    Markdown,
}

/// What a document says of the tool and of how it judged.
#[derive(Clone, Debug)]
pub struct Context {
    tool_version: String,
    hold_at: Signal,
    packs: Vec<PackName>,
    /// Sorted by name.
    rules: Vec<RuleAbout>,
}

impl Context {
    /// `tool_version` by Semantic Versioning; `hold_at`: the signal word at which a failed check holds a build.
    pub fn new(tool_version: String, hold_at: Signal, packs: Vec<PackName>, mut rules: Vec<RuleAbout>) -> Self {
        rules.sort_by(|one, other| one.name.cmp(&other.name));
        Self { tool_version, hold_at, packs, rules }
    }
}

/// A rule pack that took part.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PackName {
    /// Its name.
    pub name: String,
    /// Its edition, if it states one.
    pub edition: Option<String>,
}

/// What a document says of a rule.
#[derive(Clone, PartialEq, Debug)]
pub struct RuleAbout {
    /// `domain/what-is-wrong`.
    pub name: String,
    /// What is wrong, in a few words.
    pub title: String,
    /// Why it matters.
    pub why: String,
    /// The remedy, as its pack writes it; may be empty.
    pub remedy: String,
    /// The caution.
    pub caution: Option<String>,
    /// How bad the harm is.
    pub signal: Signal,
    /// Where it comes from.
    pub sources: Vec<RuleSource>,
}

impl RuleAbout {
    /// Of a compiled rule, which does not keep its remedy as it is written.
    pub fn new(rule: &Rule, remedy: String) -> Self {
        Self {
            name: rule.name.clone(),
            title: rule.title.clone(),
            why: rule.why.clone(),
            remedy,
            caution: rule.caution.clone(),
            signal: rule.signal,
            sources: rule.sources.clone(),
        }
    }
}

/// An edit that would mend a finding.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fix {
    /// What it does.
    pub title: String,
    /// What it replaces, and by which text.
    pub changes: Vec<(Place, String)>,
    /// Whether it is what a builder would do first.
    pub preferred: bool,
}

/// A build that was reviewed.
#[derive(Clone, Copy)]
pub struct Build<'a> {
    /// The outcome.
    pub review: &'a Review,
    /// Its file as the caller named it.
    pub path: &'a str,
    /// The edits that mend a finding, beside the finding's own mend.
    pub fixes: &'a dyn Fn(&Finding) -> Vec<Fix>,
}

impl fmt::Debug for Build<'_> {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.debug_struct("Build").field("path", &self.path).finish_non_exhaustive()
    }
}

/// A build that could not be read, so that nothing of it was checked.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Unread {
    /// Its file as the caller named it.
    pub path: String,
    /// Why it could not be read, and what to do.
    pub message: String,
}

/// The most builds of which the tail speaks one by one; the rest is counted. A run may have any number of builds, and its
/// tail must fit into memory. Chosen: more than anybody reads.
const MOST_LISTED: usize = 500;

/// What only the tail can say, gathered over the builds.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Totals {
    /// The builds that were reviewed.
    pub builds: usize,
    /// Those of them that are held.
    pub held: usize,
    /// The builds that could not be read.
    pub unread: usize,
    /// Failed checks that are not waived, by signal word from notice to danger.
    pub failed: [usize; 4],
    /// Undecided checks that are not waived, likewise.
    pub undecided: [usize; 4],
    /// Waived checks.
    pub waived: usize,
    /// The first builds that could not be read.
    unread_listed: Vec<Unread>,
    /// The counts of the first builds.
    rows: Vec<Row>,
}

/// The counts of one build.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Row {
    path: String,
    held: bool,
    failed: [usize; 4],
    undecided: usize,
    waived: usize,
}

impl Totals {
    /// Counts a build.
    pub fn add(&mut self, context: &Context, build: &Build) {
        let review = build.review;
        let row = Row {
            path: build.path.to_owned(),
            held: review.held_at(context.hold_at),
            failed: common::by_word(&review.failed),
            undecided: review.undecided.len(),
            waived: review.waived.len(),
        };
        self.builds += 1;
        self.held += usize::from(row.held);
        self.waived += row.waived;
        plus(&mut self.failed, row.failed);
        plus(&mut self.undecided, common::by_word(&review.undecided));
        if self.rows.len() < MOST_LISTED {
            self.rows.push(row);
        }
    }

    /// Counts a build that could not be read.
    pub fn add_unread(&mut self, unread: &Unread) {
        self.unread += 1;
        if self.unread_listed.len() < MOST_LISTED {
            self.unread_listed.push(unread.clone());
        }
    }

    /// Adds the totals of the builds that follow.
    pub fn merge(&mut self, following: Self) {
        self.builds += following.builds;
        self.held += following.held;
        self.unread += following.unread;
        self.waived += following.waived;
        plus(&mut self.failed, following.failed);
        plus(&mut self.undecided, following.undecided);
        self.unread_listed.extend(following.unread_listed);
        self.unread_listed.truncate(MOST_LISTED);
        self.rows.extend(following.rows);
        self.rows.truncate(MOST_LISTED);
    }
}

fn plus(counts: &mut [usize; 4], more: [usize; 4]) {
    counts.iter_mut().zip(more).for_each(|(count, more)| *count += more);
}

impl MachineForm {
    /// What stands between two fragments that are not empty; an empty one is left out together with its separator.
    pub const fn separator(self) -> &'static str {
        match self {
            Self::Sarif | Self::Gitlab => ",\n",
            Self::Junit | Self::Github | Self::Markdown => "",
        }
    }

    /// The begin of a document.
    pub fn head(self, context: &Context) -> String {
        match self {
            Self::Sarif => sarif::head(context),
            Self::Junit => junit::head(),
            Self::Gitlab => gitlab::head(),
            Self::Github => String::new(),
            Self::Markdown => markdown::head(),
        }
    }

    /// The fragment of a build.
    pub fn build(self, context: &Context, build: &Build) -> String {
        match self {
            Self::Sarif => sarif::build(context, build),
            Self::Junit => junit::build(context, build),
            Self::Gitlab => gitlab::build(build),
            Self::Github => github::build(build),
            Self::Markdown => markdown::build(context, build),
        }
    }

    /// The fragment of a build that could not be read.
    pub fn unread(self, unread: &Unread) -> String {
        match self {
            // It stands among the notifications of the tail.
            Self::Sarif => String::new(),
            Self::Junit => junit::unread(unread),
            Self::Gitlab => gitlab::unread(unread),
            Self::Github => github::unread(unread),
            Self::Markdown => markdown::unread(unread),
        }
    }

    /// The end of a document.
    pub fn tail(self, context: &Context, totals: &Totals) -> String {
        match self {
            Self::Sarif => sarif::tail(context, totals),
            Self::Junit => junit::tail(),
            Self::Gitlab => gitlab::tail(),
            Self::Github => github::tail(totals),
            Self::Markdown => markdown::tail(totals),
        }
    }
}

/// A document while it is written: says what to write next and keeps the totals.
#[derive(Debug)]
pub struct Stream<'c> {
    form: MachineForm,
    context: &'c Context,
    totals: Totals,
    begun: bool,
}

impl<'c> Stream<'c> {
    /// A document and its head, which is written first.
    pub fn new(form: MachineForm, context: &'c Context) -> (Self, String) {
        (Self { form, context, totals: Totals::default(), begun: false }, form.head(context))
    }

    /// What to write for a build.
    pub fn build(&mut self, build: &Build) -> String {
        self.totals.add(self.context, build);
        self.joined(self.form.build(self.context, build))
    }

    /// What to write for a build that could not be read.
    pub fn unread(&mut self, unread: &Unread) -> String {
        self.totals.add_unread(unread);
        self.joined(self.form.unread(unread))
    }

    /// What to write for fragments that were made elsewhere, already joined, and their totals.
    pub fn fragments(&mut self, fragments: String, totals: Totals) -> String {
        self.totals.merge(totals);
        self.joined(fragments)
    }

    /// The tail, which is written last.
    pub fn finish(self) -> String {
        self.form.tail(self.context, &self.totals)
    }

    fn joined(&mut self, fragment: String) -> String {
        if fragment.is_empty() || !self.begun {
            self.begun |= !fragment.is_empty();
            return fragment;
        }
        format!("{}{fragment}", self.form.separator())
    }
}
