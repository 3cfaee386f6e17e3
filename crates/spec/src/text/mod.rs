//! The text layer: from text to top-level blocks to a tree with spans, recovering from every error; and `tidy`.
//!
//! It reads KDL version 2 and knows no vocabulary and no engineering. The way of a text:
//!
//! 1. `lexer` makes tokens, without recursion and without failing.
//! 2. `blocks` splits them into top-level blocks and looks each up by its text in the cache.
//! 3. `outline` and `head` find the nodes, entries and faults of a block (`slips` words those within one word or string);
//!    where braces do not match, `recover` makes the best of the indentation.
//! 4. `parse` gives the lines of the outline to the kdl crate, which reads names and values, and builds the tree.

mod blocks;
mod fault;
mod head;
mod lexer;
mod lines;
mod name;
mod outline;
mod parse;
mod recover;
mod slips;
mod tidy;
mod tree;

pub use blocks::{BlockCache, read, read_bytes};
pub use fault::{FaultKind, Mend, TextFault};
pub use lines::Lines;
pub use name::write_name;
pub use tidy::tidy;
pub use tree::{Bytes, Entry, Node, Scalar, Unread, Word};

/// The deepest nesting of braces that is read.
///
/// Only trees recurse, never the reading of a text. Measured in the development profile on a text of this depth: reading it
/// twice and tidying it need less than 32 KiB of stack; the kdl crate by itself would need up to 64 KiB.
pub const DEEPEST: usize = 32;
/// The largest text that is read, in bytes.
pub const LARGEST: usize = 5_000_000;

/// What was read from a text.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Document {
    /// The top-level nodes in the order of the text.
    pub nodes: Vec<Node>,
    /// What could not be read, in the order of the text.
    pub faults: Vec<TextFault>,
    /// A top-level block may be hidden: its name could not be told.
    pub incomplete: bool,
}
