//! From the outline to the tree: the parser reads the names and values of the outline's lines.
//!
//! The parser (kdl 6.7) gets the lines without what stands between them: no braces, comments or `/-`. It recurses on all
//! three (a comment of ten thousand asterisks overflows its stack), and takes twice as long for each level of switched-off
//! blocks. It gives no spans for values, and none of use for errors; the outline knows where everything stands.
//!
//! Nor does it get lines that mean just what is written: words, texts in quotes without a backslash, numbers of digits
//! alone. It makes eight allocations for each character of a text, so that reading such lines would take nearly all of the
//! time. That both ways agree is a test (`valid_texts_read_like_the_parser_reads_them_whole`).

use kdl::{KdlDocument, KdlEntry, KdlNode, KdlValue};

use super::fault::{FaultKind, TextFault};
use super::outline::{Outline, Part, Slot};
use super::slips::{LINE_UNREAD, fault};
use super::tree::{Bytes, Entry, Node, Scalar, Unread, Word};

/// How many lines the parser gets at once. Few, so that it never sees a long text; many, so that calls do not count.
const LINES_AT_ONCE: usize = 64;

/// Lines that the parser refuses are read entry by entry, up to this number of faults.
const MOST_BISECTED: usize = 200;

/// The tree of some parts of an outline (a whole block or several), with the faults found on the way and whether a
/// top-level node had to be left out.
pub(super) struct Trees {
    pub(super) nodes: Vec<Node>,
    pub(super) faults: Vec<TextFault>,
    pub(super) incomplete: bool,
    /// Faults that were found and are not kept.
    pub(super) hidden_faults: usize,
}

/// What the parser read of one line.
struct Line {
    name: Word,
    annotation: Option<Word>,
    entries: Vec<Entry>,
    unread: bool,
}

/// Builds the tree of the parts in a range; the first one must be at the top level.
pub(super) fn trees(text: &str, outline: &Outline, range: std::ops::Range<usize>) -> Trees {
    let mut trees = Trees { nodes: Vec::new(), faults: Vec::new(), incomplete: false, hidden_faults: 0 };
    let mut open: Vec<(Node, usize, bool)> = Vec::new();
    let parts = outline.parts.get(range).unwrap_or_default();
    for batch in parts.chunks(LINES_AT_ONCE) {
        let lines = read_batch(text, outline, batch, &mut trees.faults);
        for (part, line) in batch.iter().zip(lines) {
            while open.last().is_some_and(|(_, depth, _)| *depth >= part.depth) {
                close_last(&mut open, &mut trees);
            }
            let named = line.is_some();
            open.push((node(part, line), part.depth, named));
        }
    }
    while !open.is_empty() {
        close_last(&mut open, &mut trees);
    }
    trees
}

/// Puts the last open node into its parent, or at the top. A node without a name is left out, and leaves a mark.
fn close_last(open: &mut Vec<(Node, usize, bool)>, trees: &mut Trees) {
    let Some((node, _, named)) = open.pop() else {
        return;
    };
    match open.last_mut() {
        Some((parent, _, _)) => {
            if (node.unread != Unread::No || !named) && parent.unread == Unread::No {
                parent.unread = Unread::Inside;
            }
            if named {
                parent.children.push(node);
            }
        }
        None if named => trees.nodes.push(node),
        None => trees.incomplete = true,
    }
}

fn node(part: &Part, line: Option<Line>) -> Node {
    let line = line.unwrap_or_else(|| Line {
        name: Word { text: "".into(), at: part.at.start..part.at.start },
        annotation: None,
        entries: Vec::new(),
        unread: true,
    });
    let unread = if part.unread || line.unread {
        Unread::Itself
    } else if part.lost_inside {
        Unread::Inside
    } else {
        Unread::No
    };
    Node {
        name: line.name,
        annotation: line.annotation,
        entries: line.entries,
        children: Vec::new(),
        has_block: part.block.is_some(),
        at: part.at.clone(),
        block_at: part.block.clone(),
        unread,
    }
}

fn slice<'t>(text: &'t str, at: &Bytes) -> &'t str {
    text.get(at.start as usize..at.end as usize).unwrap_or_default()
}

fn write_name(out: &mut String, text: &str, part: &Part, name: &Bytes) {
    write_annotation(out, text, part.annotation.as_ref());
    out.push_str(slice(text, name));
}

fn write_annotation(out: &mut String, text: &str, annotation: Option<&Bytes>) {
    if let Some(annotation) = annotation {
        out.push('(');
        out.push_str(slice(text, annotation));
        out.push(')');
    }
}

fn write_slot(out: &mut String, text: &str, slot: &Slot) {
    out.push(' ');
    if let Some(key) = &slot.key {
        out.push_str(slice(text, key));
        out.push('=');
    }
    write_annotation(out, text, slot.annotation.as_ref());
    out.push_str(slice(text, &slot.value));
}

fn slots<'o>(outline: &'o Outline, part: &Part) -> &'o [Slot] {
    outline.slots.get(part.slots.clone()).unwrap_or_default()
}

/// Reads the lines of some parts; none for those without a name.
fn read_batch(text: &str, outline: &Outline, batch: &[Part], faults: &mut Vec<TextFault>) -> Vec<Option<Line>> {
    let lines: Vec<Option<Line>> = batch.iter().map(|part| literal_line(text, part, slots(outline, part))).collect();
    let asked = |(part, literal): &(&Part, &Option<Line>)| part.name.is_some() && literal.is_none();
    let mut written = String::new();
    let mut count = 0;
    for (part, _) in batch.iter().zip(&lines).filter(asked) {
        let Some(name) = &part.name else { continue };
        count += 1;
        write_name(&mut written, text, part, name);
        for slot in slots(outline, part) {
            write_slot(&mut written, text, slot);
        }
        written.push('\n');
    }
    if count == 0 {
        return lines;
    }
    let mut read = Vec::with_capacity(count);
    if let Ok(document) = KdlDocument::parse(&written)
        && document.nodes().len() == count
    {
        let parts = batch.iter().zip(&lines).filter(asked);
        for ((part, _), node) in parts.zip(document.nodes()) {
            let Some(name) = &part.name else { continue };
            read.extend(line(text, part, name, slots(outline, part), node));
        }
    }
    if read.len() == count {
        let mut read = read.into_iter();
        let filled = batch.iter().zip(lines).map(|(part, literal)| match part.name {
            Some(_) => literal.or_else(|| read.next()),
            None => None,
        });
        return filled.collect();
    }
    if faults.len() > MOST_BISECTED {
        // Enough is known to be wrong: the other lines of these only say that they are not read.
        let mut unread = |part: &Part| {
            let name = part.name.as_ref()?;
            faults.push(unreadable(text, &part.at));
            let name = Word { text: literal(slice(text, name))?.into(), at: name.clone() };
            Some(Line { name, annotation: None, entries: Vec::new(), unread: true })
        };
        return batch.iter().zip(lines).map(|(part, literal)| literal.or_else(|| unread(part))).collect();
    }
    batch.iter().zip(lines).map(|(part, literal)| literal.or_else(|| read_alone(text, outline, part, faults))).collect()
}

/// The line, if every word and value of it means just what is written: the parser would take most of its time to copy such
/// texts character by character (see the head of this file).
fn literal_line(text: &str, part: &Part, slots: &[Slot]) -> Option<Line> {
    let literal_word = |at: &Bytes| Some(Word { text: literal(slice(text, at))?.into(), at: at.clone() });
    let name = literal_word(part.name.as_ref()?)?;
    let annotation = match &part.annotation {
        Some(at) => Some(literal_word(at)?),
        None => None,
    };
    let mut entries = Vec::with_capacity(slots.len());
    for slot in slots {
        let written = slice(text, &slot.value);
        let value = match literal(written) {
            Some(literal) => Scalar::Text(literal.into()),
            None => Scalar::Whole(plain_number(written)?),
        };
        let key = match &slot.key {
            Some(at) => Some(literal_word(at)?),
            None => None,
        };
        let annotation = match &slot.annotation {
            Some(at) => Some(literal_word(at)?),
            None => None,
        };
        entries.push(Entry {
            key,
            annotation,
            value,
            value_at: slot.value.clone(),
            at: slot.at.clone(),
            quoted: slot.quoted,
            written: written.into(),
        });
    }
    Some(Line { name, annotation, entries, unread: false })
}

/// What a word or string means, if that is just what is written: a string on one line without a backslash, or a bare word
/// that begins with a letter.
fn literal(written: &str) -> Option<&str> {
    match written.strip_prefix('"') {
        Some(rest) => {
            let inner = rest.strip_suffix('"')?;
            (!inner.contains(['"', '\\'])).then_some(inner)
        }
        None => written.starts_with(char::is_alphabetic).then_some(written),
    }
}

/// A number of digits alone, as in `way 1`.
fn plain_number(written: &str) -> Option<i128> {
    written.bytes().all(|byte| byte.is_ascii_digit()).then(|| written.parse().ok())?
}

/// Reads one line by itself, and its entries one by one if that fails.
fn read_alone(text: &str, outline: &Outline, part: &Part, faults: &mut Vec<TextFault>) -> Option<Line> {
    let name = part.name.as_ref()?;
    let slots = slots(outline, part);
    let read = |slots: &[Slot]| {
        let mut written = String::new();
        write_name(&mut written, text, part, name);
        for slot in slots {
            write_slot(&mut written, text, slot);
        }
        let document = KdlDocument::parse(&written).ok()?;
        match document.nodes() {
            [node] => line(text, part, name, slots, node),
            _ => None,
        }
    };
    if let Some(line) = read(slots) {
        return Some(line);
    }
    let Some(bare) = read(&[]) else {
        faults.push(unreadable(text, name));
        return None;
    };
    let bad: Vec<&Slot> = slots.iter().filter(|slot| read(std::slice::from_ref(slot)).is_none()).collect();
    if bad.is_empty() {
        faults.push(unreadable(text, &part.at));
    }
    faults.extend(bad.iter().map(|slot| unreadable(text, &slot.at)));
    // The first argument is certain if it can be read.
    let first = slots.first().filter(|slot| slot.key.is_none()).and_then(|slot| read(std::slice::from_ref(slot)));
    Some(Line { unread: true, ..first.unwrap_or(bare) })
}

fn unreadable(text: &str, at: &Bytes) -> TextFault {
    let several_lines = slice(text, at).contains("\"\"\"");
    let help = if several_lines {
        "Indent every line of the text at least as far as its closing quotation marks, which stand on a line of their own."
    } else {
        "Write it as name=\"value\", or as a value in quotes."
    };
    fault(
        FaultKind::Unreadable,
        at.start as usize..at.end as usize,
        "This cannot be read".to_owned(),
        LINE_UNREAD,
        help.to_owned(),
    )
}

/// What the parser read of a line, with the places that the outline knows. None if the two do not agree.
fn line(text: &str, part: &Part, name: &Bytes, slots: &[Slot], node: &KdlNode) -> Option<Line> {
    if node.entries().len() != slots.len() || node.children().is_some() {
        return None;
    }
    let entries: Option<Vec<Entry>> =
        slots.iter().zip(node.entries()).map(|(slot, read)| entry(text, slot, read)).collect();
    Some(Line {
        name: word(node.name().value(), name),
        annotation: annotation(part.annotation.as_ref(), node.ty())?,
        entries: entries?,
        unread: false,
    })
}

fn word(text: &str, at: &Bytes) -> Word {
    Word { text: text.into(), at: at.clone() }
}

/// The annotation, if outline and parser agree that there is one or none.
fn annotation(at: Option<&Bytes>, read: Option<&kdl::KdlIdentifier>) -> Option<Option<Word>> {
    match (at, read) {
        (None, None) => Some(None),
        (Some(at), Some(read)) => Some(Some(word(read.value(), at))),
        _ => None,
    }
}

fn entry(text: &str, slot: &Slot, read: &KdlEntry) -> Option<Entry> {
    let key = match (&slot.key, read.name()) {
        (None, None) => None,
        (Some(at), Some(read)) => Some(word(read.value(), at)),
        _ => return None,
    };
    let value = match read.value() {
        KdlValue::String(text) => Scalar::Text(text.as_str().into()),
        KdlValue::Integer(number) => Scalar::Whole(*number),
        KdlValue::Float(number) => Scalar::Real(*number),
        KdlValue::Bool(flag) => Scalar::Flag(*flag),
        KdlValue::Null => Scalar::Null,
    };
    Some(Entry {
        key,
        annotation: annotation(slot.annotation.as_ref(), read.ty())?,
        value,
        value_at: slot.value.clone(),
        at: slot.at.clone(),
        quoted: slot.quoted,
        written: slice(text, &slot.value).into(),
    })
}
