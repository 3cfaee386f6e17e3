//! The review of one specification, in every form that is asked for. Nothing here is shared, so that many run side by side.

use super::gather::Named;
use super::known::{Before, Known};
use super::options::{Review as Options, ReviewForm};
use super::revision::Revision;
use crate::commands::reason;
use crate::files::Files;
use report::{Build, Context, Fix, TerminalOptions, Totals, Unread};
use rules::pack::Packs;
use rules::{Review, ReviewOptions};
use spec::text::BlockCache;
use spec::{LoadFault, Loader};
use std::path::PathBuf;

/// What every review of a run is made with.
pub struct Bench<'a> {
    pub options: &'a Options,
    pub packs: &'static Packs,
    pub judging: ReviewOptions,
    pub terminal: TerminalOptions,
    pub context: Context,
    pub known: Option<Known>,
    pub revision: Option<Revision>,
}

/// What came of one specification.
pub enum Outcome {
    /// It was reviewed.
    Reviewed(Box<Reviewed>),
    /// It could not be read, and why.
    Unread { message: String, fragments: Vec<String>, totals: Totals },
    /// It describes no build: a piece that others include.
    Piece,
}

/// A review in every form.
pub struct Reviewed {
    /// Whether the build is held.
    pub held: bool,
    /// For each form that is asked for, the text.
    pub fragments: Vec<String>,
    /// Its counts.
    pub totals: Totals,
    /// Known findings that are gone.
    pub gone: usize,
    /// The files that were read.
    pub read: Vec<PathBuf>,
    /// What was found, when it is to be kept.
    pub review: Option<Review>,
}

impl Bench<'_> {
    /// Reviews one specification.
    pub fn review(&self, named: &Named) -> Outcome {
        let (files, name) = Files::of(&named.path);
        // The specification is asked for first: without it there is nothing to review.
        let text = match files.load(None, &name) {
            Ok(loaded) => loaded.text,
            Err(fault) => return self.unread(named, &name, &fault),
        };
        if named.found && is_piece(&text) {
            return Outcome::Piece;
        }
        drop(text);
        let build = design::link(spec::read(&files, &name, &mut BlockCache::new()));
        let mut review = rules::review::review_build(&build, self.packs, self.judging);
        // The mends are looked for in the review as it was made: some ask the rules again.
        let mut before = Before::default();
        if let Some(known) = &self.known {
            before = known.of(&named.path);
        } else if let Some(revision) = &self.revision {
            before = self.at(revision, named);
        }
        let keep = self.options.write_known.is_some().then(|| review.clone());
        review.take_known_aside(&|finding| before.knows(finding));
        let gone = before.gone(&review);
        let fixes = |finding: &rules::Finding| {
            let subject =
                mends::Subject { build: &build, review: &review, packs: self.packs, today: self.judging.today };
            let made = subject.mends(finding).into_iter();
            made.map(|edit| Fix { title: edit.title, changes: edit.changes, preferred: edit.preferred }).collect()
        };
        let told = Build { review: &review, path: &name, fixes: &fixes };
        let mut totals = Totals::default();
        totals.add(&self.context, &told);
        let hold_at = self.options.hold_at;
        let form = |form: ReviewForm, to_file: bool| match form {
            ReviewForm::Terminal => {
                // A file has no colours, and any width.
                let plain = TerminalOptions { colour: false, links: false, ..self.terminal };
                report::terminal(&review, hold_at, if to_file { plain } else { self.terminal })
            }
            ReviewForm::Plain => report::plain(&review, hold_at),
            ReviewForm::Json => format!("{}\n", report::json(&review, hold_at)),
            other => other.machine().map_or_else(String::new, |form| form.build(&self.context, &told)),
        };
        let fragments = self.options.asked.iter().map(|asked| form(asked.form, asked.to.is_some())).collect();
        Outcome::Reviewed(Box::new(Reviewed {
            held: review.held_at(hold_at),
            fragments,
            totals,
            gone,
            read: files.read(),
            review: keep,
        }))
    }

    /// What the rules of today find at an earlier revision; nothing where it had no such build.
    fn at(&self, revision: &Revision, named: &Named) -> Before {
        let Some((files, name)) = revision.files(&named.path) else { return Before::default() };
        if files.load(None, &name).is_err() {
            return Before::default();
        }
        Before::of(&rules::review(&files, &name, self.packs, self.judging))
    }

    fn unread(&self, named: &Named, name: &str, fault: &LoadFault) -> Outcome {
        let message = reason(&named.path, fault);
        let unread = Unread { path: name.to_owned(), message: message.clone() };
        let mut totals = Totals::default();
        totals.add_unread(&unread);
        let form = |form: ReviewForm| form.machine().map_or_else(String::new, |form| form.unread(&unread));
        Outcome::Unread {
            message,
            fragments: self.options.asked.iter().map(|asked| form(asked.form)).collect(),
            totals,
        }
    }
}

/// Whether a text describes no build of its own. One with nothing to read in it is reviewed, so that it is told of.
fn is_piece(text: &str) -> bool {
    let document = spec::text::read(text, &mut BlockCache::new());
    document.faults.is_empty()
        && !document.nodes.is_empty()
        && document.nodes.iter().all(|node| &*node.name.text != "build")
}
