//! Judgements and facts as text for a terminal, as plain sentences and as JSON.
//!
//! This crate knows the types that `rules` brings out. It knows nothing of how anything was found, and has no input, no
//! output, no environment and no clock: the same review always gives the same text. Text that a builder wrote passes
//! through [`visible`] before it is shown, so that no control character of a specification reaches a terminal.

mod changes;
mod excerpt;
mod finding_plain;
mod finding_terminal;
mod json;
mod machine;
mod modes;
mod places;
mod plain;
mod proof;
mod rule_page;
mod sanitise;
mod sheet;
mod terminal;
mod unread;
mod window;
mod words;
mod working;

pub use changes::{ChangeGroup, ChangeItem, ChangeSheet, changes};
pub use json::{ByWord, ReviewJson, VERSION, json};
pub use machine::{Build, Context, Fix, MachineForm, PackName, RuleAbout, Stream, Totals, Unread};
pub use modes::{FedRow, LiveTable, ModeRow, ModeSheet, modes};
pub use plain::plain;
pub use proof::{pack_faults, proof};
pub use rule_page::{RulePage, why};
pub use sanitise::{sentence, sentence_start, visible};
pub use terminal::terminal;
pub use unread::unread;
pub use words::source;
pub use words::{CAUTION, Held, held};
pub use working::{FactOrigin, FactRow, PartWorking, working};

/// How text for a terminal is drawn.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TerminalOptions {
    /// Whether to colour it.
    pub colour: bool,
    /// The columns that the terminal shows.
    pub width: usize,
    /// Whether the terminal shows line-drawing characters; else they are drawn in ASCII.
    pub unicode: bool,
    /// Whether the terminal follows hyperlinks.
    pub links: bool,
}

/// For whom a text is drawn.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Style {
    /// Someone who looks at a terminal.
    Terminal(TerminalOptions),
    /// Someone who listens to it, or a file: whole sentences, no colour, no lines drawn.
    Plain,
}
