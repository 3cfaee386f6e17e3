//! What is wrong with a text, said for the builder who wrote it.

use std::ops::Range;

/// A text that could not be read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Misread {
    /// The bytes of the given text that are wrong, as narrow as possible.
    pub at: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// Why it matters, where that is not plain.
    pub why: Option<String>,
    /// The whole text to write instead, when exactly one is certain. It always reads without error.
    pub instead: Option<String>,
}

impl Misread {
    pub(crate) fn new(at: Range<usize>, message: impl Into<String>) -> Self {
        Self { at, message: message.into(), why: None, instead: None }
    }

    pub(crate) fn why(mut self, why: impl Into<String>) -> Self {
        self.why = Some(why.into());
        self
    }

    /// The mend that puts `replacement` in place of the bytes at fault.
    pub(crate) fn mend(self, text: &str, replacement: &str) -> Self {
        let at = self.at.clone();
        self.mend_at(text, at, replacement)
    }

    /// The mend that puts `replacement` in place of the given bytes of the text.
    pub(crate) fn mend_at(mut self, text: &str, at: Range<usize>, replacement: &str) -> Self {
        if let (Some(before), Some(after)) = (text.get(..at.start), text.get(at.end..)) {
            self.instead = Some(format!("{before}{replacement}{after}"));
        }
        self
    }

    /// The mend that replaces the whole text.
    pub(crate) fn write(mut self, whole: impl Into<String>) -> Self {
        self.instead = Some(whole.into());
        self
    }
}

/// Slips that a text may hold at once before its mend is no longer called certain.
const LONGEST_CHAIN: usize = 6;

/// Follows a mend to a text that reads, because one text may hold several slips; a mend that does not get there is no
/// certain one and is dropped. `read` gives the next fault of a text, if it has one.
pub(crate) fn settle(mut misread: Misread, read: impl Fn(&str) -> Option<Misread>) -> Misread {
    for _ in 0..LONGEST_CHAIN {
        let Some(candidate) = misread.instead.take() else {
            return misread;
        };
        match read(&candidate) {
            None => {
                misread.instead = Some(candidate);
                return misread;
            }
            Some(next) => misread.instead = next.instead,
        }
    }
    misread.instead = None;
    misread
}
