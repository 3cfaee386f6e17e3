//! The review of one build: read, linked, judged by every rule that applies, waivers and followers sorted out.

mod assemble;
mod follow;
mod gaps;
mod house;
mod settle;
mod slips;
mod values;
mod waivers;

pub use gaps::words as gap_words;
pub use values::fact_used;

use crate::finding::{Counts, FileText, Finding, Outcome, Review, Stage};
use crate::judge::{self, Verdict};
use crate::pack::Packs;
use crate::rule::Rule;
use crate::signal::{Region, Signal};
use assemble::Assembly;
use design::{Build, CaseId, Gaps, PartId, Reader};
use quantity::System;
use spec::text::BlockCache;
use spec::{Loader, Slip};
use vocabulary::{PartKind, fact, kind};

/// A finding while the review is made: with the part that it is on, and what would settle it.
struct Item {
    finding: Finding,
    part: Option<PartId>,
    /// The part that a builder would mend, where the rule asks for it.
    cause: Option<PartId>,
    gaps: Gaps,
}

/// The findings of a list: worst signal word first, then in text order, each with its fingerprint.
fn in_order(items: Vec<Item>) -> Vec<Finding> {
    let mut findings: Vec<Finding> = items.into_iter().map(|item| item.finding).collect();
    findings.sort_by(|one, other| {
        let place = |finding: &Finding| (finding.place.file, finding.place.bytes.start);
        other.signal.cmp(&one.signal).then(place(one).cmp(&place(other))).then_with(|| one.rule.cmp(&other.rule))
    });
    findings.iter_mut().for_each(settle_fingerprint);
    distinct_fingerprints(&mut findings);
    findings
}

/// The day of a review.
#[derive(Clone, Copy, Debug)]
pub enum Today {
    /// This day.
    Is(jiff::civil::Date),
    /// The day that this tells; asked only when a waiver may run out, since finding the local time zone takes as long as a
    /// small review.
    Asked(fn() -> jiff::civil::Date),
}

impl Today {
    /// The day.
    pub fn date(self) -> jiff::civil::Date {
        match self {
            Self::Is(date) => date,
            Self::Asked(ask) => ask(),
        }
    }
}

/// What a review is told besides the build and the packs.
#[derive(Clone, Copy, Debug)]
pub struct ReviewOptions {
    /// The day of the review: waivers run out by it.
    pub today: Today,
    /// Whether to judge the design as a draft, whatever it says.
    pub draft: bool,
}

/// Reads and reviews the build `name`.
pub fn review(loader: &dyn Loader, name: &str, packs: &Packs, options: ReviewOptions) -> Review {
    review_with(loader, name, packs, options, &mut BlockCache::new())
}

/// As [`review`], with the blocks that were read before.
pub fn review_with(
    loader: &dyn Loader,
    name: &str,
    packs: &Packs,
    options: ReviewOptions,
    cache: &mut BlockCache,
) -> Review {
    let build = design::link(spec::read(loader, name, cache));
    review_build(&build, packs, options)
}

/// Reviews a linked build, by the house rules that it names too.
pub fn review_build(build: &Build, packs: &Packs, options: ReviewOptions) -> Review {
    if build.rule_files.is_empty() {
        return judge_build(build, packs, options);
    }
    let house = house::join(build, packs);
    judge(build, &house.packs, options, &house.slips)
}

/// Reviews a linked build by these rules only.
pub fn judge_build(build: &Build, packs: &Packs, options: ReviewOptions) -> Review {
    judge(build, packs, options, &[])
}

fn judge(build: &Build, packs: &Packs, options: ReviewOptions, more: &[Slip]) -> Review {
    let mut reader = Reader::new(build);
    let stage = if options.draft { Stage::Draft } else { stage(&mut reader) };
    let units = units(&mut reader);
    let regions: Vec<Region> = build.regions.words().into_iter().filter_map(Region::from_word).collect();
    let classes = classes(&mut reader);
    let mut counts = Counts::default();
    let mut failed: Vec<Item> = if build.slips.is_empty() && more.is_empty() {
        Vec::new()
    } else {
        let places = slips::Places::of(build);
        build.slips.iter().chain(more).map(|slip| slips::item(build, &places, packs, slip)).collect()
    };
    let mut open: Vec<Item> = Vec::new();
    let mut assembly = Assembly { reader: &mut reader, units };
    for (rule, region, values) in packs.for_build(&regions, &classes) {
        let cases = judge::cases(assembly.reader, rule);
        for &part in build.of_kind(PartKind(rule.about)).members.iter() {
            let (case, verdict) = judge::worst(assembly.reader, rule, part, &cases, &values);
            match verdict {
                Verdict::NotApplicable => counts.not_applicable += 1,
                Verdict::Holds => counts.held += 1,
                Verdict::Fails(margin) => {
                    // A share of a temperature above absolute zero says nothing to anybody, nor does a share of nothing, as where
                    // a list was to be empty.
                    let margin =
                        margin.filter(|margin| !margin.dimension.absolute && margin.left != 0.0 && margin.right != 0.0);
                    let outcome = Outcome::Fails { margin: margin.map(|margin| margin.share) };
                    let finding = assembly.finding(rule, region, &values, part, case, outcome);
                    let cause = cause(assembly.reader, rule, part, case);
                    failed.push(Item { finding, part: Some(part), cause, gaps: Gaps::default() });
                }
                Verdict::Open(gaps) => {
                    let outcome = Outcome::Undecided { missing: gaps::missing(build, &gaps) };
                    let finding = assembly.finding(rule, region, &values, part, case, outcome);
                    open.push(Item { finding, part: Some(part), cause: None, gaps });
                }
            }
        }
    }
    follow::one_per_check(&mut failed, &mut open);
    follow::fold(build, packs, &mut failed);
    follow::fold_by_cause(&mut failed);
    let waived = waivers::apply(build, packs, options.today, &mut failed, &mut open);
    let settle = settle::settle(build, &open);
    let [failed, undecided, waived] = [failed, open, waived].map(in_order);
    for finding in &failed {
        count(&mut counts.failed, finding);
    }
    for finding in &undecided {
        count(&mut counts.undecided, finding);
    }
    counts.waived = waived.len();
    Review {
        build: build.part(Build::ROOT).name.as_deref().map(str::to_owned),
        stage,
        regions,
        files: build
            .files
            .iter()
            .map(|file| FileText { name: file.name.to_string(), text: file.text.clone() })
            .collect(),
        failed,
        undecided,
        waived,
        known: Vec::new(),
        counts,
        settle,
        units,
    }
}

/// Counts a finding and those that follow from it.
fn count(counts: &mut [usize; 4], finding: &Finding) {
    let place = match finding.signal {
        Signal::Notice => 0,
        Signal::Caution => 1,
        Signal::Warning => 2,
        Signal::Danger => 3,
    };
    counts[place] += 1;
}

/// The part that a builder would mend, where the rule names the fact that says it.
fn cause(reader: &mut Reader<'_>, rule: &Rule, part: PartId, case: CaseId) -> Option<PartId> {
    reader.part(part, vocabulary::FactId(rule.once_per?), case)
}

/// The word that a setting of the build says.
fn setting(reader: &mut Reader<'_>, setting: vocabulary::FactId) -> Option<&'static str> {
    let index = reader.choice(Build::ROOT, setting, CaseId(0))?;
    vocabulary::fact_spec(setting).choices().get(usize::from(index)).copied()
}

fn stage(reader: &mut Reader<'_>) -> Stage {
    match setting(reader, fact::build::STAGE) {
        Some("draft") => Stage::Draft,
        Some("issued") => Stage::Issued,
        // A stage that could not be read must not let anything through.
        _ => Stage::Review,
    }
}

fn units(reader: &mut Reader<'_>) -> System {
    if setting(reader, fact::build::UNITS) == Some("us") { System::UsCustomary } else { System::Metric }
}

fn classes(reader: &mut Reader<'_>) -> Vec<&'static str> {
    let Some(vehicle) = reader.build().only(kind::VEHICLE) else { return Vec::new() };
    let index = reader.choice(vehicle, fact::vehicle::CLASS, CaseId(0));
    index
        .and_then(|index| vocabulary::fact_spec(fact::vehicle::CLASS).choices().get(usize::from(index)).copied())
        .into_iter()
        .collect()
}

/// The fingerprint: rule and part key, so that edits elsewhere do not change it.
fn settle_fingerprint(finding: &mut Finding) {
    finding.fingerprint = fingerprint(&finding.rule, &finding.part_key);
    finding.follow.iter_mut().for_each(settle_fingerprint);
}

/// Sixteen hexadecimal digits from the rule's name and the part's key (FNV-1a, 64 bits).
pub fn fingerprint(rule: &str, part_key: &str) -> String {
    use std::hash::Hasher as _;
    let mut hasher = fnv::FnvHasher::default();
    hasher.write(rule.as_bytes());
    hasher.write(b"\n");
    hasher.write(part_key.as_bytes());
    format!("{:016x}", hasher.finish())
}

/// Findings of the same rule on the same key (a name that is taken twice) are told apart by their order.
fn distinct_fingerprints(findings: &mut [Finding]) {
    let mut seen: std::collections::HashMap<String, usize> = std::collections::HashMap::new();
    for finding in findings {
        let times = seen.entry(finding.fingerprint.clone()).or_insert(0);
        *times += 1;
        if *times > 1 {
            finding.fingerprint = fingerprint(&finding.rule, &format!("{}\n{times}", finding.part_key));
        }
    }
}

/// The part that is written for a worked part, for places and names.
fn written(build: &Build, part: PartId) -> PartId {
    build.circuitry().written.get(&part).copied().unwrap_or(part)
}
