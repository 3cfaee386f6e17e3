//! The signal words, the evidence marks and the regions that rules speak of.

use serde::{Deserialize, Serialize};

/// How bad the harm is, by the signal words of ANSI Z535.6 and ISO 3864; ordered from the least to the worst.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Signal {
    /// No injury: property, function or a record.
    Notice,
    /// Could cause minor or moderate injury.
    Caution,
    /// Could kill or seriously injure.
    Warning,
    /// Will kill or seriously injure if it is not avoided.
    Danger,
}

/// How well a threshold is known; shown beside the signal word and never mixed into it.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mark {
    /// Seen in the document itself or an official copy.
    Read,
    /// Seen quoted or paraphrased elsewhere.
    SecondHand,
    /// Follows from physics by a named formula or library.
    Computed,
    /// Not seen; unverified.
    Memory,
    /// A habit of the trade with no source.
    CommonPractice,
    /// A threshold of our own where no text gives one.
    Chosen,
}

/// Where a rule or a value applies.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Region {
    /// Everywhere.
    Any,
    /// The United States.
    Us,
    /// The European Union and the EFTA states.
    Eu,
    /// The United Kingdom.
    Uk,
    /// Australia and New Zealand.
    AuNz,
}

/// Gives an enum its word and the way back.
macro_rules! words {
    ($type:ident { $($variant:ident = $word:literal),+ $(,)? }) => {
        impl $type {
            /// Every one, in order.
            pub const ALL: &[Self] = &[$(Self::$variant),+];

            /// The word for it.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }

            /// The one that this word names.
            pub fn from_word(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)+ _ => None }
            }
        }
    };
}

words!(Signal { Notice = "notice", Caution = "caution", Warning = "warning", Danger = "danger" });
words!(Mark {
    Read = "read",
    SecondHand = "second-hand",
    Computed = "computed",
    Memory = "memory",
    CommonPractice = "common-practice",
    Chosen = "chosen",
});
words!(Region { Any = "any", Us = "us", Eu = "eu", Uk = "uk", AuNz = "au-nz" });
