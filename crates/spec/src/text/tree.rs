//! The tree that a text is read into: nodes, entries and values, each with the bytes where it is written.
//!
//! The tree knows no vocabulary. It says what is written and where, and how much of it could be read.

/// Byte offsets in the file's text, from the first byte to behind the last one.
pub type Bytes = std::ops::Range<u32>;

/// A word (a name, a key or a type annotation) and where it is written, quotes included.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    /// The word's meaning, with quotes removed and escapes resolved.
    pub text: Box<str>,
    /// Where it is written, including its quotes.
    pub at: Bytes,
}

/// A value as KDL knows it.
#[derive(Clone, Debug, PartialEq)]
pub enum Scalar {
    /// A text in quotes or a bare word.
    Text(Box<str>),
    /// A whole number.
    Whole(i128),
    /// A number with a fraction or an exponent, and `#inf`, `#-inf` and `#nan`.
    Real(f64),
    /// `#true` or `#false`.
    Flag(bool),
    /// `#null`.
    Null,
}

/// An argument (`"12 V"`) or a property (`voltage="12 V"`) of a node.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The property's name; none for an argument.
    pub key: Option<Word>,
    /// The type annotation before the value, without its parentheses.
    pub annotation: Option<Word>,
    /// The value, with quotes removed and escapes resolved.
    pub value: Scalar,
    /// Where the value is written, including its quotes and without its annotation.
    pub value_at: Bytes,
    /// The whole entry, from key or annotation to the end of the value.
    pub at: Bytes,
    /// Whether the value is written as a string in quotes, as opposed to a bare word or number.
    pub quoted: bool,
    /// The value as it is written.
    pub written: Box<str>,
}

/// How much of a node could not be read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Unread {
    /// Everything was read.
    #[default]
    No,
    /// The node's own line could not be read: only its name, and its first argument where that is certain, are known.
    /// Its children were read as far as possible, and their list may be incomplete.
    Itself,
    /// The node's line was read, but some of what stands inside its braces was not: lists of its parts are incomplete.
    Inside,
}

/// One node: its name, its entries, and the nodes in its braces.
#[derive(Clone, Debug, PartialEq)]
pub struct Node {
    /// The first word of the node. Empty only where `unread` is [`Unread::Itself`] and the name could not be told.
    pub name: Word,
    /// The type annotation before the name, without its parentheses.
    pub annotation: Option<Word>,
    /// Arguments and properties in the order of the text. A property that is written twice is kept twice.
    pub entries: Vec<Entry>,
    /// The nodes within the braces.
    pub children: Vec<Node>,
    /// Whether the node has braces, even if nothing stands in them.
    pub has_block: bool,
    /// The whole node to its closing brace, without the blanks and comments before it.
    pub at: Bytes,
    /// From the opening to behind the closing brace.
    pub block_at: Option<Bytes>,
    /// How much of the node could not be read.
    pub unread: Unread,
}

impl Node {
    /// Moves every span of the node and of all within it by `shift` bytes.
    pub(crate) fn shift(&mut self, shift: i64) {
        shift_bytes(&mut self.at, shift);
        shift_bytes(&mut self.name.at, shift);
        if let Some(annotation) = &mut self.annotation {
            shift_bytes(&mut annotation.at, shift);
        }
        if let Some(block) = &mut self.block_at {
            shift_bytes(block, shift);
        }
        for entry in &mut self.entries {
            shift_bytes(&mut entry.at, shift);
            shift_bytes(&mut entry.value_at, shift);
            if let Some(key) = &mut entry.key {
                shift_bytes(&mut key.at, shift);
            }
            if let Some(annotation) = &mut entry.annotation {
                shift_bytes(&mut annotation.at, shift);
            }
        }
        // The depth of a tree is bounded by `DEEPEST`, so this recursion is too.
        for child in &mut self.children {
            child.shift(shift);
        }
    }
}

/// Moves a span; offsets stay within a file of at most `LARGEST` bytes, so the sum fits.
pub(crate) fn shift_bytes(at: &mut Bytes, shift: i64) {
    let moved = |offset: u32| u32::try_from(i64::from(offset) + shift).unwrap_or(offset);
    *at = moved(at.start)..moved(at.end);
}
