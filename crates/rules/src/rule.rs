//! One rule, compiled: what a pack holds at run time, without its examples.

use crate::expression::{Expression, Template};
use crate::signal::{Mark, Region, Signal};
use serde::{Deserialize, Serialize};

/// One rule of a pack.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Rule {
    /// `domain/what-is-wrong`.
    pub name: String,
    /// The folder of its pack: any, us, eu, uk, au-nz or practice; or the name of a shop's own pack.
    pub pack: String,
    /// How bad the harm is.
    pub signal: Signal,
    /// The number of the part kind that it is about.
    pub about: u16,
    /// The words of the vehicle classes that it is for; empty: all.
    pub classes: Vec<String>,
    /// Whether the text layer or the linker finds it, so that it holds no expressions.
    pub found_while_reading: bool,
    /// What is wrong, in a few words.
    pub title: String,
    /// Named values that its expressions use, by region.
    pub values: Vec<RuleValue>,
    /// When it applies.
    pub when: Option<Expression>,
    /// What must hold.
    pub must: Option<Expression>,
    /// What to tell the builder.
    pub tell: Template,
    /// Why it matters.
    pub why: String,
    /// The cheapest sufficient remedy.
    pub remedy: Template,
    /// An edit that mends it, if one is certain enough to offer.
    pub mend: Option<RuleMend>,
    /// The caution shown with it; every rule of signal word danger or warning has one.
    pub caution: Option<String>,
    /// The rules from which this one only follows when both fail on the same part, its run or its network; then it folds
    /// under the first of them that failed.
    pub follows: Vec<String>,
    /// The number of the fact that names the part a builder would mend: of several failures with the same such part one is
    /// shown and the others fold under it.
    pub once_per: Option<u16>,
    /// Where it comes from.
    pub sources: Vec<RuleSource>,
}

/// A named value of a rule with its figures by region.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct RuleValue {
    /// Its name as the expressions write it.
    pub name: String,
    /// What it is.
    pub help: String,
    /// Its figure in each region: SI value and the text as the rule's author wrote it. A region that is not listed takes
    /// the figure of [`Region::Any`]; without that the rule does not apply there.
    pub figures: Vec<(Region, f64, String)>,
}

/// An edit that a rule offers.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub enum RuleMend {
    /// Write this property with this value on the part that the rule is about.
    Write {
        /// The property's name.
        property: String,
        /// The value, as a builder would write it.
        value: String,
    },
}

/// A source of a rule or of its value in some regions.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct RuleSource {
    /// The document.
    pub document: String,
    /// The clause or table.
    pub place: String,
    /// The edition.
    pub edition: String,
    /// How well it is known.
    pub mark: Mark,
    /// Where it can be read, if openly.
    pub address: Option<String>,
    /// What else to know: 'boat law, by analogy'.
    pub note: Option<String>,
    /// The regions it speaks for; empty: all.
    pub regions: Vec<Region>,
}
