//! What is wrong with a rule file or with what it claims, in words for the rule's author.

use spec::text::Lines;
use std::ops::Range;

/// One thing that is wrong with a rule file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PackFault {
    /// The file, as the caller named it.
    pub file: String,
    /// The narrowest place of the fault: bytes in the file's text.
    pub at: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// What to write instead, or where to look.
    pub help: String,
}

impl PackFault {
    /// The fault as a compiler prints it: `file:line:column: message`, with the help on the next line. `text` is the text
    /// of the fault's file; lines and columns count from 1, columns in characters.
    pub fn show(&self, text: &str) -> String {
        let offset = u32::try_from(self.at.start).unwrap_or(u32::MAX);
        let (line, column) = Lines::new(text).line_and_column(text, offset);
        let mut shown = format!("{}:{line}:{column}: {}", self.file, self.message);
        if !self.help.is_empty() {
            shown.push_str("\n    ");
            shown.push_str(&self.help);
        }
        shown
    }
}
