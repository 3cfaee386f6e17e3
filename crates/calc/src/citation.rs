//! Where a value comes from, and how well it is known.

/// How well a value is known. It says nothing of how bad a breach would be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Mark {
    /// Seen in the text of the document itself or in an official copy.
    Read,
    /// Seen quoted or paraphrased elsewhere.
    SecondHand,
    /// Follows from physics by a named formula.
    Computed,
    /// Not seen in any text for this project: unverified.
    Memory,
    /// A habit of the trade without a source.
    CommonPractice,
    /// A threshold of this project where no text gives one.
    Chosen,
}

impl Mark {
    /// The mark as a reader sees it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Mark::Read => "read",
            Mark::SecondHand => "second-hand",
            Mark::Computed => "computed",
            Mark::Memory => "memory",
            Mark::CommonPractice => "common practice",
            Mark::Chosen => "chosen",
        }
    }
}

/// One published place, with its evidence mark. An address that is not to be printed is empty.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Citation {
    /// The document, for example "33 CFR 183.425".
    pub document: &'static str,
    /// The place in it, for example "Table 5".
    pub place: &'static str,
    /// The edition or the date of the text that was seen.
    pub edition: &'static str,
    /// How well the value is known.
    pub mark: Mark,
    /// Where a copy can be read; empty where there is none to give.
    pub address: &'static str,
}
