//! Labels and how wide their text is. Widths are reckoned for a wide sans-serif face, so that whatever face a reader has,
//! the text stays inside its box.

use super::Bounds;

/// Which point of a label stands at its place.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Anchor {
    /// Its start.
    Start,
    /// Its middle.
    Middle,
}

/// A line of text.
#[derive(Clone, PartialEq, Debug)]
pub struct Label {
    /// Where it stands: the anchor's place on the base line, mm.
    pub at: [f64; 2],
    /// The text.
    pub text: String,
    /// Height of the type, mm.
    pub size: f64,
    /// Which of its points stands there.
    pub anchor: Anchor,
    /// Whether it is set bold.
    pub bold: bool,
}

/// How much of the type's height stands above the base line, letters with strokes above included.
const ASCENT: f64 = 0.95;
/// How much stands below it.
const DESCENT: f64 = 0.25;
/// How much wider bold type is.
const BOLD: f64 = 1.12;

impl Label {
    /// A text cut to a width: what does not fit ends in an ellipsis. The whole name stands in the element's title.
    pub fn fitted(text: &str, at: [f64; 2], size: f64, anchor: Anchor, width: f64) -> Self {
        Self { at, text: fit(text, size, width), size, anchor, bold: false }
    }

    /// The same in bold type.
    pub fn bold(text: &str, at: [f64; 2], size: f64, anchor: Anchor, width: f64) -> Self {
        Self { at, text: fit(text, size, width / BOLD), size, anchor, bold: true }
    }

    /// The box that the text fills, at most.
    pub fn bounds(&self) -> Bounds {
        let width = width(&self.text, self.size) * if self.bold { BOLD } else { 1.0 };
        let left = match self.anchor {
            Anchor::Start => self.at[0],
            Anchor::Middle => self.at[0] - width / 2.0,
        };
        Bounds { x: left, y: self.at[1] - ASCENT * self.size, width, height: (ASCENT + DESCENT) * self.size }
    }
}

/// The width of a text, at most, mm. By groups of letters, in shares of the type's height: measured on wide faces and
/// rounded up (chosen).
pub fn width(text: &str, size: f64) -> f64 {
    let share = |letter: char| match letter {
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' => 0.36,
        ' ' | 'f' | 'r' | 't' | '(' | ')' | '-' | '/' => 0.44,
        'm' | 'w' | 'M' | 'W' | '%' | '@' | '…' | '—' => 1.03,
        'a'..='z' | '0'..='9' => 0.66,
        'A'..='Z' => 0.80,
        ' '..='~' => 0.86,
        '\u{a0}'..='\u{2ff}' | '\u{370}'..='\u{5ff}' => 0.90,
        // Ideographs fill the square; pictures and whatever else is wider.
        _ => 1.4,
    };
    text.chars().map(share).sum::<f64>() * size
}

/// The text as it may be shown, cut to a width.
fn fit(text: &str, size: f64, most: f64) -> String {
    let text = report::visible(text);
    if width(&text, size) <= most {
        return text.into_owned();
    }
    let mut kept = String::new();
    let mut used = width("…", size);
    for letter in text.chars() {
        used += width(letter.encode_utf8(&mut [0; 4]), size);
        if used > most {
            break;
        }
        kept.push(letter);
    }
    format!("{}…", kept.trim_end())
}
