//! What every sheet and drawing carries: vehicle, revision, day, packs, the mark of the text, counts, the caution.

use crate::desk::Desk;
use crate::sheet::Value;
use crate::show;
use crate::words;
use design::Build;
use jiff::civil::Date;
use quantity::{Dimension, System};
use rules::finding::Stage;
use rules::{Review, Signal};
use sha2::{Digest, Sha256};
use vocabulary::{fact, kind};

/// A rule pack and its edition.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Pack {
    /// Its name.
    pub name: String,
    /// Its edition.
    pub edition: String,
}

/// What is handed in besides the build and its review.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Given {
    /// The day of the packet.
    pub today: Date,
    /// The program with its version.
    pub program: String,
    /// The rule packs by which the build was reviewed.
    pub packs: Vec<Pack>,
    /// The least signal word at which a failed check holds the build.
    pub hold_at: Signal,
}

/// Whether a build is held.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Held {
    /// Whether it is.
    pub held: bool,
    /// The least signal word at which a failed check holds it.
    pub at: Signal,
    /// Why, or why not, in a sentence.
    pub reason: String,
}

/// A packet that was approved, as the text names it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Approved {
    /// The mark of the text that was approved.
    pub mark: String,
    /// When, and by whom, in a line.
    pub told: String,
    /// The git revision that was approved.
    pub commit: String,
    /// Whether this text is the one.
    pub stands: bool,
}

/// What every sheet and drawing carries.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Head {
    /// The build's name.
    pub build: String,
    /// What the vehicle is for.
    pub purpose: String,
    /// The vehicle in a line.
    pub vehicle: String,
    /// Revision, its day and who made it, in a line.
    pub revision: String,
    /// How far the design is.
    pub stage: &'static str,
    /// The day of the packet.
    pub date: Date,
    /// The program with its version.
    pub program: String,
    /// The rule packs.
    pub packs: Vec<Pack>,
    /// SHA-256 over the names and texts of all files but for what is said of approvals, in hexadecimal digits.
    pub hash: String,
    /// The packet that was approved; nothing where none is named.
    pub approved: Option<Approved>,
    /// Checks that failed, from notice to danger.
    pub failed: [usize; 4],
    /// Checks that cannot be told, from notice to danger.
    pub undecided: [usize; 4],
    /// Findings that are accepted.
    pub waived: usize,
    /// Whether the build is held.
    pub held: Held,
    /// Whether a danger is open, so that nothing may be built from these papers.
    pub not_for_construction: bool,
    /// The units that everything is printed in.
    pub units: System,
}

impl Head {
    /// The head of a build's papers.
    pub fn of(desk: &mut Desk<'_, '_>, given: &Given) -> Self {
        let review = desk.review;
        let held = report::held(review, given.hold_at);
        let hash = hash(desk.build, review);
        Self {
            build: desk.build.part(Build::ROOT).name.as_deref().unwrap_or(words::UNNAMED_BUILD).to_owned(),
            purpose: text(desk, Build::ROOT, fact::build::PURPOSE),
            vehicle: vehicle(desk),
            revision: revision(desk),
            stage: stage(review.stage),
            date: given.today,
            program: given.program.clone(),
            packs: given.packs.clone(),
            approved: approved(desk, &hash),
            hash,
            failed: review.counts.failed,
            undecided: review.counts.undecided,
            waived: review.counts.waived,
            held: Held { held: held.held, at: given.hold_at, reason: held.reason },
            not_for_construction: dangers(review) > 0,
            units: review.units,
        }
    }

    /// The first digits of the text's mark, enough to tell two texts apart at a glance.
    pub fn short_hash(&self) -> &str {
        const DIGITS: usize = 12;
        self.hash.get(..DIGITS).unwrap_or(&self.hash)
    }

    /// How many checks failed.
    pub fn failed_in_all(&self) -> usize {
        self.failed.iter().sum()
    }

    /// How many checks cannot be told.
    pub fn undecided_in_all(&self) -> usize {
        self.undecided.iter().sum()
    }

    /// The packs in a line.
    pub fn packs_in_a_line(&self) -> String {
        self.packs.iter().map(|pack| format!("{} {}", pack.name, pack.edition)).collect::<Vec<_>>().join(", ")
    }
}

/// The open findings of signal word danger: those that fail, and those that cannot be told where that holds a build.
pub fn dangers(review: &Review) -> usize {
    let failed = review.failed.iter().filter(|finding| finding.signal == Signal::Danger).count();
    let open = review.undecided.iter().filter(|finding| finding.signal == Signal::Danger).count();
    failed + if review.stage == Stage::Draft { 0 } else { open }
}

const fn stage(stage: Stage) -> &'static str {
    match stage {
        Stage::Draft => words::stage::DRAFT,
        Stage::Review => words::stage::REVIEW,
        Stage::Issued => words::stage::ISSUED,
    }
}

fn text(desk: &mut Desk<'_, '_>, part: design::PartId, fact: vocabulary::FactId) -> String {
    if !desk.is_written(part, fact) {
        return String::new();
    }
    let cell = desk.fact(part, fact);
    show::shown(&cell, desk.review.units)
}

fn vehicle(desk: &mut Desk<'_, '_>) -> String {
    let Some(vehicle) = desk.build.only(kind::VEHICLE) else { return words::VEHICLE_NOT_DESCRIBED.to_owned() };
    let units = desk.review.units;
    let mut parts = vec![text(desk, vehicle, fact::vehicle::CLASS)];
    if let Value::Quantity(mass) = desk.fact(vehicle, fact::vehicle::GROSS_MASS).value {
        parts.push(format!("{} {}", words::GROSS_MASS, show::quantity(mass, units)));
    }
    let sizes = [fact::vehicle::LENGTH, fact::vehicle::WIDTH, fact::vehicle::HEIGHT];
    let sizes: Vec<String> = sizes
        .into_iter()
        .filter_map(|fact| desk.number(vehicle, fact))
        .map(|size| show::number(size, Dimension::LENGTH, units))
        .collect();
    parts.push(sizes.join(" × "));
    parts.retain(|part| !part.is_empty());
    parts.join(", ")
}

fn revision(desk: &mut Desk<'_, '_>) -> String {
    let Some(&revision) = desk.of_kind(kind::REVISION).first() else { return words::NO_REVISION.to_owned() };
    let parts = [fact::revision::REVISION, fact::revision::DATE, fact::revision::BY];
    let parts: Vec<String> =
        parts.into_iter().map(|fact| text(desk, revision, fact)).filter(|part| !part.is_empty()).collect();
    parts.join(", ")
}

/// How many digits of a mark are enough to know a text by.
const ENOUGH: usize = 12;

/// The last approval that is written, and whether this text is what was approved.
fn approved(desk: &mut Desk<'_, '_>, hash: &str) -> Option<Approved> {
    let approval = *desk.of_kind(kind::APPROVED).last()?;
    let parts = [fact::approved::DATE, fact::approved::BY].map(|fact| text(desk, approval, fact));
    let mark = text(desk, approval, fact::approved::MARK).trim().to_lowercase();
    Some(Approved {
        told: parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", "),
        commit: text(desk, approval, fact::approved::COMMIT),
        stands: mark.len() >= ENOUGH && hash.starts_with(&mark),
        mark,
    })
}

/// SHA-256 over every file: its name, a zero byte, the length of what follows in eight bytes, its text without the lines that
/// tell of approvals. The mark changes when any text changes that the packet was made from; to write an approval into the text
/// that was approved changes nothing.
pub fn hash(build: &Build, review: &Review) -> String {
    let mut hasher = Sha256::new();
    for (number, file) in review.files.iter().enumerate() {
        // The folder from which the build was named says nothing of the build.
        let name = file.name.rsplit(['/', '\\']).next().unwrap_or_default();
        let text = without_approvals(build, number, &file.text);
        hasher.update(name.as_bytes());
        hasher.update([0]);
        hasher.update((text.len() as u64).to_be_bytes());
        hasher.update(text.as_bytes());
    }
    hasher.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
}

/// A file's text without what is said of approvals; a line that says nothing else goes as a whole.
fn without_approvals(build: &Build, file: usize, text: &str) -> String {
    let mut spans: Vec<(usize, usize)> = Vec::new();
    for &approval in build.of_kind(kind::APPROVED).members.iter() {
        let whole = &build.part(approval).whole;
        if usize::try_from(whole.file) == Ok(file)
            && let (Ok(start), Ok(end)) = (usize::try_from(whole.bytes.start), usize::try_from(whole.bytes.end))
        {
            spans.push((start, end));
        }
    }
    spans.sort_unstable();
    let mut kept = String::with_capacity(text.len());
    let mut from = 0;
    for (start, end) in spans {
        let (Some(before), Some(after)) = (text.get(from..start), text.get(end..)) else { continue };
        let lead = before.len() - before.trim_end_matches([' ', '\t']).len();
        let tail = after.len() - after.trim_start_matches([' ', '\t', ';']).len();
        let begins = start - lead == 0 || text.get(..start - lead).is_some_and(|text| text.ends_with('\n'));
        let rest = after.get(tail..).unwrap_or_default();
        let line_end = if rest.starts_with("\r\n") { 2 } else { usize::from(rest.starts_with('\n')) };
        let ends = line_end > 0 || rest.is_empty();
        let (cut_from, cut_to) =
            if begins && ends { (start - lead, end + tail + line_end) } else { (start, end + tail) };
        kept.push_str(text.get(from..cut_from.max(from)).unwrap_or_default());
        from = cut_to.max(from);
    }
    kept.push_str(text.get(from..).unwrap_or_default());
    kept
}
