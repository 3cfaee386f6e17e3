//! The words that every form of a report shares.

use rules::finding::{Finding, Missing, Outcome, Review, Stage};
use rules::rule::RuleSource;
use rules::{Mark, Region, Signal};

/// The caution that ends every report.
pub const CAUTION: &str = "This check does not replace local codes, the makers' instructions (which may override a rule) \
or licensed practice. It sees only what the specification says. A review without findings is not an approval.";

/// The signal words from the worst to the least.
pub(crate) const WORST_FIRST: [Signal; 4] = [Signal::Danger, Signal::Warning, Signal::Caution, Signal::Notice];

/// What a signal word says about the harm; meanings after ANSI Z535.6 and ISO 3864.
pub(crate) const fn meaning(signal: Signal) -> &'static str {
    match signal {
        Signal::Danger => "will kill or seriously injure if it is not avoided",
        Signal::Warning => "could kill or seriously injure",
        Signal::Caution => "could injure slightly or moderately",
        Signal::Notice => "injures nobody, but breaks something, costs time or leaves a gap in the record",
    }
}

/// How well a threshold is known, in words.
pub(crate) const fn mark_words(mark: Mark) -> &'static str {
    match mark {
        Mark::Read => "seen in the document itself",
        Mark::SecondHand => "seen quoted elsewhere",
        Mark::Computed => "follows from physics",
        Mark::Memory => "not verified",
        Mark::CommonPractice => "a habit of the trade, no published source",
        Mark::Chosen => "our own threshold, where no text gives one",
    }
}

/// A region's name.
pub(crate) const fn region_words(region: Region) -> &'static str {
    match region {
        Region::Any => "every region",
        Region::Us => "the United States",
        Region::Eu => "the European Union",
        Region::Uk => "the United Kingdom",
        Region::AuNz => "Australia and New Zealand",
    }
}

/// The regions by whose rules a build was judged; the rules for every region always count among them.
pub(crate) fn basis(review: &Review) -> String {
    let regions: Vec<String> = review
        .regions
        .iter()
        .filter(|region| **region != Region::Any)
        .map(|region| region_words(*region).to_owned())
        .collect();
    if regions.is_empty() { region_words(Region::Any).to_owned() } else { joined(&regions, "and") }
}

/// The stage's word in a specification.
pub(crate) const fn stage_word(stage: Stage) -> &'static str {
    match stage {
        Stage::Draft => "draft",
        Stage::Review => "review",
        Stage::Issued => "issued",
    }
}

/// `1 finding`, `2 findings`.
pub(crate) fn counted(number: usize, one: &str, many: &str) -> String {
    if number == 1 { format!("1 {one}") } else { format!("{number} {many}") }
}

/// 'a, b and c'.
pub(crate) fn joined(parts: &[String], last: &str) -> String {
    match parts {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., end] => format!("{} {last} {end}", first.join(", ")),
    }
}

/// How far a finding is beyond its limit, in words; nothing when no comparison decided.
pub(crate) fn margin(finding: &Finding) -> Option<String> {
    let Outcome::Fails { margin: Some(margin) } = finding.outcome else { return None };
    // What stands at a limit that it must be beyond, as one of which there must be more than none, misses it by nothing.
    if !margin.is_finite() || margin == 0.0 {
        return None;
    }
    let percent = margin.abs() * 100.0;
    let share = if percent < 0.1 {
        String::from("less than 0.1 %")
    } else if percent < 10.0 {
        format!("{percent:.1} %")
    } else {
        format!("{percent:.0} %")
    };
    Some(format!("misses its limit by {share} of that limit"))
}

/// Where a rule comes from: 'ISO 13297, clause 5, edition 2020, boat law by analogy'.
pub fn source(source: &RuleSource) -> String {
    let mut text = crate::sanitise::prose(&source.document);
    for (before, part) in [(", ", &source.place), (", edition ", &source.edition)] {
        if !part.is_empty() {
            text.push_str(before);
            text.push_str(&crate::sanitise::prose(part));
        }
    }
    text
}

/// Whether and why a build is held.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Held {
    /// Whether it is held.
    pub held: bool,
    /// Why, or why not, in a sentence.
    pub reason: String,
}

/// Whether the build is held by findings at or above a signal word, and why.
pub fn held(review: &Review, hold_at: Signal) -> Held {
    let held = review.held_at(hold_at);
    let failed = review.failed.iter().filter(|finding| finding.signal >= hold_at).count();
    let undecided = review.undecided.iter().filter(|finding| finding.signal >= Signal::Warning).count();
    let at = match hold_at {
        Signal::Danger => String::from("of signal word danger"),
        word => format!("of signal word {} or worse", word.word()),
    };
    let mut causes = Vec::new();
    if failed > 0 {
        causes.push(format!("{} {at} failed", counted(failed, "check", "checks")));
    }
    if undecided > 0 && review.stage != Stage::Draft {
        let are = counted(undecided, "check is undecided", "checks are undecided");
        causes.push(format!("{are} where the harm could be grave (danger or warning)"));
    }
    let reason = if held {
        format!("The build is held: {}.", joined(&causes, "and"))
    } else if undecided > 0 {
        format!(
            "Nothing holds the build: no check {at} failed, and in a draft undecided checks do not hold it. Outside a \
             draft {} would.",
            counted(undecided, "undecided check", "undecided checks")
        )
    } else {
        format!("Nothing holds the build: no check {at} failed, and none of danger or warning is undecided.")
    };
    Held { held, reason }
}

/// The counts as sentences: failed, undecided and the rest.
pub(crate) fn counts(review: &Review) -> Vec<(&'static str, String)> {
    let by_word = |counts: [usize; 4]| {
        let total: usize = counts.iter().sum();
        if total == 0 {
            return String::from("none");
        }
        let mut parts = Vec::new();
        for signal in WORST_FIRST {
            // The counts stand from notice to danger, as the signal words are ordered.
            let count = counts.get(signal as usize).copied().unwrap_or(0);
            if count > 0 {
                parts.push(format!("{count} {}", signal.word()));
            }
        }
        format!("{total} ({})", parts.join(", "))
    };
    let counts = review.counts;
    let known = (counts.known > 0)
        .then(|| ("Known", format!("{} (from before: not shown, and holding nothing)", counts.known)));
    let mut lines = vec![
        ("Failed", by_word(counts.failed)),
        ("Undecided", by_word(counts.undecided)),
        ("Held", format!("{} (what the rule asks is so)", counts.held)),
        ("Waived", counts.waived.to_string()),
        ("Not applicable", counts.not_applicable.to_string()),
    ];
    lines.splice(2..2, known);
    lines
}

/// What would settle an undecided finding: each entry with its alternatives.
pub(crate) fn missing(finding: &Finding) -> Vec<String> {
    let Outcome::Undecided { missing } = &finding.outcome else { return Vec::new() };
    missing.iter().map(alternatives).collect()
}

fn alternatives(missing: &Missing) -> String {
    let parts: Vec<String> = missing.alternatives.iter().map(|entry| crate::sanitise::prose(entry)).collect();
    joined(&parts, "or")
}
