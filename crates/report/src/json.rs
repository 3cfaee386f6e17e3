//! A review as JSON by our own schema, `schema/review.schema.json`: what is written is borrowed from the review, and goes
//! into the text once.

use crate::places::{Places, Position};
use crate::words;
use rules::finding::{FactUsed, Finding, Mend, Missing, Outcome, Place, Review, WorkingStep};
use rules::rule::RuleSource;
use rules::{Region, Signal};
use serde::Serialize;
use std::fmt;

/// The version of the schema. A new number when a reader of the old one could be misled.
pub const VERSION: u32 = 1;

/// A review as JSON. `hold_at` is the signal word at which a failed check holds the build.
pub fn json(review: &Review, hold_at: Signal) -> ReviewJson<'_> {
    let places = Places::new(&review.files);
    let held = words::held(review, hold_at);
    ReviewJson {
        version: VERSION,
        build: review.build.as_deref(),
        stage: words::stage_word(review.stage),
        regions: words_of(&review.regions),
        files: review.files.iter().map(|file| file.name.as_str()).collect(),
        held: HeldJson { held: held.held, hold_at: hold_at.word(), reason: held.reason },
        counts: CountsJson {
            failed: ByWord::of(review.counts.failed),
            undecided: ByWord::of(review.counts.undecided),
            held: review.counts.held,
            waived: review.counts.waived,
            known: review.counts.known,
            not_applicable: review.counts.not_applicable,
        },
        findings: findings(&places, &review.failed),
        undecided: findings(&places, &review.undecided),
        waived: findings(&places, &review.waived),
        settle: review
            .settle
            .iter()
            .map(|entry| SettlesJson {
                entry: &entry.entry,
                checks: entry.checks,
                place: PlaceJson::of(&places, &entry.place),
            })
            .collect(),
        caution: words::CAUTION,
    }
}

/// A review as it is written; made by [`json`].
#[derive(Serialize, Debug)]
#[serde(rename_all = "kebab-case")]
pub struct ReviewJson<'a> {
    version: u32,
    build: Option<&'a str>,
    stage: &'static str,
    regions: Vec<&'static str>,
    files: Vec<&'a str>,
    held: HeldJson,
    counts: CountsJson,
    findings: Vec<FindingJson<'a>>,
    undecided: Vec<FindingJson<'a>>,
    waived: Vec<FindingJson<'a>>,
    settle: Vec<SettlesJson<'a>>,
    caution: &'static str,
}

/// The text, on one line.
impl fmt::Display for ReviewJson<'_> {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = serde_json::to_string(self).map_err(|_| fmt::Error)?;
        formatter.write_str(&text)
    }
}

#[derive(Serialize, Debug)]
#[serde(rename_all = "kebab-case")]
struct HeldJson {
    held: bool,
    hold_at: &'static str,
    reason: String,
}

#[derive(Serialize, Debug)]
#[serde(rename_all = "kebab-case")]
struct CountsJson {
    failed: ByWord,
    undecided: ByWord,
    held: usize,
    waived: usize,
    known: usize,
    not_applicable: usize,
}

/// How many of something there are, by signal word.
#[derive(Clone, Copy, Serialize, Debug)]
pub struct ByWord {
    danger: usize,
    warning: usize,
    caution: usize,
    notice: usize,
}

impl ByWord {
    /// Counts from notice to danger.
    pub const fn of([notice, caution, warning, danger]: [usize; 4]) -> Self {
        Self { danger, warning, caution, notice }
    }
}

#[derive(Serialize, Debug)]
struct SettlesJson<'a> {
    entry: &'a str,
    checks: usize,
    #[serde(flatten)]
    place: PlaceJson<'a>,
}

#[derive(Serialize, Debug)]
#[serde(rename_all = "kebab-case")]
struct FindingJson<'a> {
    rule: &'a str,
    title: &'a str,
    signal: &'static str,
    part: &'a str,
    part_key: &'a str,
    message: &'a str,
    why: &'a str,
    remedy: &'a str,
    caution: Option<&'a str>,
    facts: Vec<FactJson<'a>>,
    circumstances: &'a [String],
    region: Option<&'static str>,
    case: &'a str,
    sources: Vec<SourceJson<'a>>,
    related: Vec<RelatedJson<'a>>,
    mend: Option<MendJson<'a>>,
    follow: Vec<FindingJson<'a>>,
    fingerprint: &'a str,
    #[serde(flatten)]
    place: PlaceJson<'a>,
    #[serde(flatten)]
    outcome: OutcomeJson<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    waived: Option<WaivedJson<'a>>,
}

fn findings<'a>(places: &Places<'a>, findings: &'a [Finding]) -> Vec<FindingJson<'a>> {
    findings.iter().map(|finding| FindingJson::of(places, finding)).collect()
}

impl<'a> FindingJson<'a> {
    fn of(places: &Places<'a>, finding: &'a Finding) -> Self {
        Self {
            rule: &finding.rule,
            title: &finding.title,
            signal: finding.signal.word(),
            part: &finding.part,
            part_key: &finding.part_key,
            message: &finding.message,
            why: &finding.why,
            remedy: &finding.remedy,
            caution: finding.caution.as_deref(),
            facts: finding.facts.iter().map(FactJson::of).collect(),
            circumstances: &finding.circumstances,
            region: finding.region.map(|region| region.word()),
            case: &finding.case,
            sources: finding.sources.iter().map(SourceJson::of).collect(),
            related: finding
                .related
                .iter()
                .map(|other| RelatedJson { label: &other.label, place: PlaceJson::of(places, &other.place) })
                .collect(),
            mend: finding.mend.as_ref().map(|mend| MendJson::of(places, mend)),
            follow: findings(places, &finding.follow),
            fingerprint: &finding.fingerprint,
            place: PlaceJson::of(places, &finding.place),
            outcome: OutcomeJson::of(places, &finding.outcome),
            waived: finding.waived.as_ref().map(|waiver| WaivedJson {
                reason: &waiver.reason,
                by: &waiver.by,
                until: waiver.until.as_deref(),
                evidence: waiver.evidence.as_deref(),
                place: PlaceJson::of(places, &waiver.place),
            }),
        }
    }
}

#[derive(Serialize, Debug)]
#[serde(tag = "outcome", rename_all = "kebab-case")]
enum OutcomeJson<'a> {
    /// A margin that is no number has no place in JSON, is written as null and says nothing to its reader.
    Fails {
        margin: Option<f64>,
    },
    Undecided {
        missing: Vec<MissingJson<'a>>,
    },
}

impl<'a> OutcomeJson<'a> {
    fn of(places: &Places<'a>, outcome: &'a Outcome) -> Self {
        match outcome {
            Outcome::Fails { margin } => Self::Fails { margin: *margin },
            Outcome::Undecided { missing } => {
                Self::Undecided { missing: missing.iter().map(|one| MissingJson::of(places, one)).collect() }
            }
        }
    }
}

#[derive(Serialize, Debug)]
#[serde(rename_all = "kebab-case")]
struct MissingJson<'a> {
    any_of: &'a [String],
    #[serde(flatten)]
    place: PlaceJson<'a>,
}

impl<'a> MissingJson<'a> {
    fn of(places: &Places<'a>, missing: &'a Missing) -> Self {
        Self { any_of: &missing.alternatives, place: PlaceJson::of(places, &missing.place) }
    }
}

#[derive(Serialize, Debug)]
struct WaivedJson<'a> {
    reason: &'a str,
    by: &'a str,
    until: Option<&'a str>,
    evidence: Option<&'a str>,
    #[serde(flatten)]
    place: PlaceJson<'a>,
}

#[derive(Serialize, Debug)]
struct RelatedJson<'a> {
    label: &'a str,
    #[serde(flatten)]
    place: PlaceJson<'a>,
}

#[derive(Serialize, Debug)]
struct FactJson<'a> {
    part: &'a str,
    fact: &'a str,
    value: Option<&'a str>,
    number: Option<f64>,
    dimension: Option<&'a str>,
    working: Vec<StepJson<'a>>,
}

impl<'a> FactJson<'a> {
    fn of(fact: &'a FactUsed) -> Self {
        Self {
            part: &fact.part,
            fact: &fact.fact,
            value: fact.value.as_deref(),
            number: fact.number,
            dimension: fact.dimension.as_deref(),
            working: fact.working.iter().map(StepJson::of).collect(),
        }
    }
}

#[derive(Serialize, Debug)]
struct StepJson<'a> {
    text: &'a str,
    source: Option<&'a str>,
    assumed: bool,
    depth: usize,
}

impl<'a> StepJson<'a> {
    fn of(step: &'a WorkingStep) -> Self {
        Self { text: &step.text, source: step.source.as_deref(), assumed: step.assumed, depth: step.depth }
    }
}

#[derive(Serialize, Debug)]
struct SourceJson<'a> {
    document: &'a str,
    place: &'a str,
    edition: &'a str,
    mark: &'static str,
    address: Option<&'a str>,
    note: Option<&'a str>,
    regions: Vec<&'static str>,
}

impl<'a> SourceJson<'a> {
    fn of(source: &'a RuleSource) -> Self {
        Self {
            document: &source.document,
            place: &source.place,
            edition: &source.edition,
            mark: source.mark.word(),
            address: source.address.as_deref(),
            note: source.note.as_deref(),
            regions: words_of(&source.regions),
        }
    }
}

#[derive(Serialize, Debug)]
struct MendJson<'a> {
    title: &'a str,
    text: &'a str,
    #[serde(flatten)]
    place: PlaceJson<'a>,
}

impl<'a> MendJson<'a> {
    fn of(places: &Places<'a>, mend: &'a Mend) -> Self {
        Self { title: &mend.title, text: &mend.text, place: PlaceJson::of(places, &mend.place) }
    }
}

/// The file, the start and the end of a place; all null when it lies in no file that was read.
#[derive(Serialize, Debug)]
struct PlaceJson<'a> {
    file: Option<&'a str>,
    start: Option<Position>,
    end: Option<Position>,
}

impl<'a> PlaceJson<'a> {
    fn of(places: &Places<'a>, place: &Place) -> Self {
        let (start, end) = places.ends(place).unzip();
        Self { file: places.file(place).map(|file| file.name.as_str()), start, end }
    }
}

fn words_of(regions: &[Region]) -> Vec<&'static str> {
    regions.iter().map(|region| region.word()).collect()
}
