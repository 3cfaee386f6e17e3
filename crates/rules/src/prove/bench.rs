//! What the proof needs of the design side: a text read and linked, and its facts.

use crate::facts::Facts;
use crate::finding::Finding;
use crate::pack::Packs;
use crate::review::{ReviewOptions, Today, review_build};
use design::{Build, CaseId, Parts, Reader};
use spec::SingleText;
use spec::text::BlockCache;
use vocabulary::{PartKind, fact, kind};

/// Reads and links the specifications of examples.
pub trait Bench {
    /// A specification that was read.
    type Build;
    /// Its facts.
    type Linked<'b>: Linked
    where
        Self: 'b;

    /// Reads and links a text. What is wrong with the text is told by [`Bench::found`], never by a refusal.
    fn read(&self, text: &str) -> Self::Build;

    /// What reading and linking found.
    fn found(&self, build: &Self::Build) -> Vec<Found>;

    /// The facts of a specification.
    fn link<'b>(&'b self, build: &'b Self::Build) -> Self::Linked<'b>;
}

/// The facts of a specification that was read and linked.
pub trait Linked: Facts {
    /// The parts of a kind.
    fn parts_of(&self, kind: PartKind) -> Parts;

    /// The words of the vehicle's class; none when it is not known.
    fn classes(&mut self) -> Vec<&'static str>;
}

/// Something that reading or linking found.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Found {
    /// The rule that documents it.
    pub rule: String,
    /// What is wrong.
    pub message: String,
}

/// The reader, the linker and the waivers that a review uses. Waivers need the rules whose findings they accept.
#[derive(Clone, Debug, Default)]
pub struct Workshop {
    packs: Packs,
}

impl Workshop {
    /// A bench on which waivers can speak of these rules.
    pub fn with(packs: Packs) -> Self {
        Self { packs }
    }
}

/// How the text of an example is called in what the reader finds.
const EXAMPLE: &str = "example.build.kdl";

/// The domain of the rules on waivers, which are found when all others are judged.
const WAIVER_DOMAIN: &str = "waiver/";

/// The rule on house rules, which is found when they are joined to the others.
const HOUSE_RULES: &str = "text/house-rules-unread";

/// The day on which examples are judged: a fixed one, so that the outcome does not change with the calendar.
const EXAMPLE_DAY: jiff::civil::Date = jiff::civil::date(2026, 1, 1);

impl Bench for Workshop {
    type Build = Build;
    type Linked<'b> = Reader<'b>;

    fn read(&self, text: &str) -> Build {
        design::link(spec::read(&SingleText(text), EXAMPLE, &mut BlockCache::new()))
    }

    fn found(&self, build: &Build) -> Vec<Found> {
        let slips = build.slips.iter().map(|slip| Found { rule: slip.rule.to_owned(), message: slip.message.clone() });
        if build.of_kind(kind::WAIVE).members.is_empty() && build.rule_files.is_empty() {
            return slips.collect();
        }
        let review = review_build(build, &self.packs, ReviewOptions { today: Today::Is(EXAMPLE_DAY), draft: false });
        let while_judging =
            |finding: &Finding| finding.rule.starts_with(WAIVER_DOMAIN) || &*finding.rule == HOUSE_RULES;
        let judged = review.failed.into_iter().filter(while_judging);
        slips.chain(judged.map(|finding| Found { rule: finding.rule.to_string(), message: finding.message })).collect()
    }

    fn link<'b>(&'b self, build: &'b Build) -> Reader<'b> {
        Reader::new(build)
    }
}

impl Linked for Reader<'_> {
    fn parts_of(&self, kind: PartKind) -> Parts {
        self.build().of_kind(kind).clone()
    }

    fn classes(&mut self) -> Vec<&'static str> {
        let Some(vehicle) = self.build().only(kind::VEHICLE) else {
            return Vec::new();
        };
        let chosen = self.choice(vehicle, fact::vehicle::CLASS, CaseId(0));
        let words = vocabulary::fact_spec(fact::vehicle::CLASS).choices();
        chosen.and_then(|chosen| words.get(usize::from(chosen)).copied()).into_iter().collect()
    }
}
