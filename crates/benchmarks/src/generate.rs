//! Specifications of any length: the blocks of a demo build, repeated with changed names.
//!
//! Every copy brings its own sources, circuits, panels, loads, heat and water, wired as in the demo build. What a build has once
//! (the vehicle, the brief, the places, the people, the furniture, the skin, the defaults) stays once: eleven vans of furniture in one
//! van would be judged as no build is.

use std::collections::BTreeSet;

/// What a build has once.
const ONCE: [&str; 14] = [
    "build",
    "vehicle",
    "brief",
    "zone",
    "exit",
    "defaults",
    "persons",
    "allowance",
    "cargo",
    "furnishing",
    "berth",
    "tank",
    "shell",
    "window",
];
/// The properties whose value is a name.
const NAMING: [&str; 5] = ["from", "to", "for", "route", "fed-by"];
/// The pieces that define or use a name as their first argument.
const NAMED_PIECES: [&str; 4] = ["disconnect", "pump", "serves", "to"];
/// The blocks that fill up what is left below a whole copy: a lamp on its own circuit of a panel.
const FILLERS: [&str; 2] = ["circuit \"bench lamp\"", "lamp \"bench lamp\""];
const FILLER_NAME: &str = "bench lamp";

/// A specification of exactly this number of lines, or of the demo build's own when that is more.
pub fn specification(demo: &str, lines: usize) -> String {
    let blocks = blocks(demo);
    let repeated: Vec<&str> = blocks.iter().copied().filter(|block| !ONCE.contains(&kind(block))).collect();
    let names: BTreeSet<&str> = repeated.iter().flat_map(|block| names(block)).collect();
    let fillers: Vec<&str> =
        repeated.iter().copied().filter(|block| FILLERS.iter().any(|filler| block.starts_with(filler))).collect();

    let mut text = blocks.concat();
    let copy_lines: usize = repeated.iter().map(|block| block.lines().count()).sum();
    let filler_lines: usize = fillers.iter().map(|block| block.lines().count()).sum();
    let mut left = lines.saturating_sub(text.lines().count());
    let mut copies = 1;
    while copy_lines > 0 && left >= copy_lines {
        copies += 1;
        left -= copy_lines;
        for block in &repeated {
            rename(block, &names, &|_| copies, &mut text);
        }
    }
    let mut lamp = copies;
    while filler_lines > 0 && left >= filler_lines {
        lamp += 1;
        left -= filler_lines;
        // One lamp more on each panel in turn; the first panel's names have no number.
        let panel = (lamp - copies - 1) % copies + 1;
        for block in &fillers {
            rename(block, &names, &|name| if name == FILLER_NAME { lamp } else { panel }, &mut text);
        }
    }
    for line in 0..left {
        text.push_str(&format!("// a note of the workshop, {line}\n"));
    }
    text
}

/// A copy of a demo build under other names: every one that it gives, but for its places, bears this number.
pub fn copy(demo: &str, number: usize) -> String {
    let blocks = blocks(demo);
    let renamed = |block: &str| kind(block) == "build" || !ONCE.contains(&kind(block));
    let names: BTreeSet<&str> = blocks.iter().filter(|block| renamed(block)).flat_map(|block| names(block)).collect();
    let mut text = String::new();
    for block in blocks {
        if renamed(block) {
            rename(block, &names, &|_| number, &mut text);
        } else {
            text.push_str(block);
        }
    }
    text
}

/// The top-level blocks, each with its line ends; comments and empty lines are blocks of their own.
fn blocks(text: &str) -> Vec<&str> {
    let mut blocks = Vec::new();
    let (mut start, mut end, mut depth) = (0, 0, 0_i32);
    for line in text.split_inclusive('\n') {
        end += line.len();
        depth += braces(line);
        if depth == 0 {
            blocks.extend(text.get(start..end));
            start = end;
        }
    }
    blocks
}

/// Braces opened less braces closed, outside strings and comments.
fn braces(line: &str) -> i32 {
    let mut difference = 0;
    for piece in pieces(line) {
        match piece {
            Piece::Other("{") => difference += 1,
            Piece::Other("}") => difference -= 1,
            _ => {}
        }
    }
    difference
}

fn kind(block: &str) -> &str {
    block.split([' ', '\n']).next().unwrap_or_default()
}

/// A piece of a line: enough of the syntax for the demo build, which has neither escapes nor block comments.
#[derive(Clone, Copy, PartialEq)]
enum Piece<'a> {
    /// The inside of a quoted string.
    Quoted(&'a str),
    Word(&'a str),
    /// Anything else: a comment as a whole, or one character.
    Other(&'a str),
}

fn pieces(line: &str) -> Vec<Piece<'_>> {
    let mut pieces = Vec::new();
    let mut rest = line;
    while let Some(first) = rest.chars().next() {
        let is_word = |c: char| c.is_alphanumeric() || c == '-' || c == '_' || c == '.';
        let (piece, length) = if rest.starts_with("//") || rest.starts_with("/-") {
            (Piece::Other(rest), rest.len())
        } else if let Some((inside, _)) = rest.strip_prefix('"').and_then(|rest| rest.split_once('"')) {
            (Piece::Quoted(inside), inside.len() + 2)
        } else if is_word(first) {
            let word = rest.split(|c| !is_word(c)).next().unwrap_or(rest);
            (Piece::Word(word), word.len())
        } else {
            let length = first.len_utf8();
            (Piece::Other(rest.get(..length).unwrap_or(rest)), length)
        };
        pieces.push(piece);
        rest = rest.get(length..).unwrap_or_default();
    }
    pieces
}

/// The names that a block defines: its own, and those of its pieces.
fn names(block: &str) -> Vec<&str> {
    let mut names = Vec::new();
    for (number, line) in block.lines().enumerate() {
        let written: Vec<Piece<'_>> = pieces(line).into_iter().filter(|piece| *piece != Piece::Other(" ")).collect();
        let (Some(Piece::Word(kind)), Some(Piece::Quoted(name) | Piece::Word(name))) =
            (written.first(), written.get(1))
        else {
            continue;
        };
        // `rating="8A 34B"` is a property, not a name.
        let is_name = written.get(2) != Some(&Piece::Other("="));
        if is_name && (number == 0 || NAMED_PIECES.contains(kind)) {
            names.push(*name);
        }
    }
    names
}

/// Writes a block with numbered names. The first copy keeps its names as they are.
fn rename(block: &str, names: &BTreeSet<&str>, number: &dyn Fn(&str) -> usize, out: &mut String) {
    for (line_number, line) in block.split_inclusive('\n').enumerate() {
        let pieces = pieces(line);
        let mut words = 0;
        let mut first = "";
        for (at, piece) in pieces.iter().enumerate() {
            let before = |back: usize| at.checked_sub(back).and_then(|at| pieces.get(at)).copied();
            match *piece {
                Piece::Other(text) => out.push_str(text),
                Piece::Quoted(text) => {
                    words += 1;
                    let items: Vec<String> = text.split(", ").map(|item| numbered(item, names, number, " ")).collect();
                    out.push_str(&format!("\"{}\"", items.join(", ")));
                }
                Piece::Word(word) => {
                    words += 1;
                    if words == 1 {
                        first = word;
                    }
                    let own = words == 2 && line_number == 0;
                    let of_way = words == 3 && first == "way";
                    let referred = before(1) == Some(Piece::Other("="))
                        && matches!(before(2), Some(Piece::Word(key)) if NAMING.contains(&key));
                    if own || of_way || referred {
                        out.push_str(&numbered(word, names, number, "-"));
                    } else {
                        out.push_str(word);
                    }
                }
            }
        }
    }
}

fn numbered(name: &str, names: &BTreeSet<&str>, number: &dyn Fn(&str) -> usize, between: &str) -> String {
    match number(name) {
        number if number > 1 && names.contains(name) => format!("{name}{between}{number}"),
        _ => name.to_owned(),
    }
}
