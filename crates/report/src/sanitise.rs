//! Keeps what a builder typed from steering a terminal or deceiving a reader.

use std::borrow::Cow;

/// Characters that act on a terminal, reorder a line or hide in it.
///
/// Control characters: Unicode general category Cc. Bidirectional controls: Unicode Standard Annex 9, section 2. The rest
/// are characters that are drawn with no width and could make two names look alike: Unicode Standard Annex 31, section
/// 2.3 (default ignorable code points).
fn is_hidden(character: char) -> bool {
    character.is_control()
        || matches!(
            character,
            '\u{ad}'
                | '\u{34f}'
                | '\u{61c}'
                | '\u{115f}'..='\u{1160}'
                | '\u{17b4}'..='\u{17b5}'
                | '\u{180b}'..='\u{180f}'
                | '\u{200b}'..='\u{200f}'
                | '\u{2028}'..='\u{202e}'
                | '\u{2060}'..='\u{206f}'
                | '\u{3164}'
                | '\u{fe00}'..='\u{fe0f}'
                | '\u{feff}'
                | '\u{ffa0}'
                | '\u{fff0}'..='\u{fffb}'
                | '\u{1bca0}'..='\u{1bca3}'
                | '\u{1d173}'..='\u{1d17a}'
                | '\u{e0000}'..='\u{e0fff}'
        )
}

/// One character as it may be shown: itself, or an escape such as `\u{1b}`.
pub(crate) fn push_visible(shown: &mut String, character: char) {
    if is_hidden(character) {
        shown.extend(character.escape_unicode());
    } else {
        shown.push(character);
    }
}

/// A text as it may be shown on one line: every control, reordering or hidden character becomes an escape such as
/// `\u{1b}`.
pub fn visible(text: &str) -> Cow<'_, str> {
    if !text.chars().any(is_hidden) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len() + 16);
    for character in text.chars() {
        push_visible(&mut shown, character);
    }
    Cow::Owned(shown)
}

/// The longest text that is shown in full, in bytes: longer than any rule's, shorter than what buries a report.
const LONGEST: usize = 2_000;
/// The longest text of a builder that is repeated inside a line, in characters.
const LONGEST_QUOTE: usize = 80;

/// A text of a builder, short enough to stand in a line.
pub(crate) fn quoted(text: &str) -> String {
    let text = text.trim();
    match text.char_indices().nth(LONGEST_QUOTE) {
        Some((end, _)) => format!("{}...", visible(text.get(..end).unwrap_or_default())),
        None => visible(text).into_owned(),
    }
}

/// Sentences as they may be shown: as [`visible`], and line breaks and tabs, which an author of rules may use to lay out
/// long texts, count as blanks.
pub(crate) fn prose(text: &str) -> String {
    if text.len() > LONGEST {
        let end = text.floor_char_boundary(LONGEST);
        return format!("{}...", prose(text.get(..end).unwrap_or_default()));
    }
    let mut words = text.split([' ', '\t', '\n', '\r']).filter(|word| !word.is_empty());
    let mut shown = String::with_capacity(text.len());
    if let Some(first) = words.next() {
        shown.push_str(&visible(first));
    }
    for word in words {
        shown.push(' ');
        shown.push_str(&visible(word));
    }
    shown
}

/// Sentences that begin with a capital and end with a full stop, for a listener. A first word that is no plain word,
/// such as `berths=`, stays as it is written.
pub fn sentence(text: &str) -> String {
    sentence_start(&ended(text))
}

/// The text with a capital in front, where its first word is a plain one.
pub fn sentence_start(text: &str) -> String {
    let mut shown = text.to_owned();
    let plain = shown.split(' ').next().is_some_and(|word| word.chars().all(|letter| letter.is_ascii_lowercase()));
    if plain && let Some(first) = shown.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    shown
}

/// What stands behind a label, ended with a full stop.
pub(crate) fn ended(text: &str) -> String {
    let mut shown = prose(text);
    if !shown.is_empty() && !shown.ends_with(['.', '!', '?', ':', '…']) {
        shown.push('.');
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_acts_on_a_terminal_is_left() {
        let cases = [
            ("\u{1b}[31mred", "\\u{1b}[31mred"),
            ("\u{1b}]8;;http://x\u{1b}\\y", "\\u{1b}]8;;http://x\\u{1b}\\y"),
            ("\u{9b}2J", "\\u{9b}2J"),
            ("a\u{202e}b", "a\\u{202e}b"),
            ("a\u{2066}b", "a\\u{2066}b"),
            ("fu\u{200b}se", "fu\\u{200b}se"),
            ("\u{feff}fuse", "\\u{feff}fuse"),
            ("bell\u{7}\u{7f}", "bell\\u{7}\\u{7f}"),
            ("two\nlines\tand\r", "two\\u{a}lines\\u{9}and\\u{d}"),
            ("größe 35 mm² 日本 🚐", "größe 35 mm² 日本 🚐"),
        ];
        for (typed, shown) in cases {
            assert_eq!(visible(typed), shown, "{typed:?}");
        }
    }

    #[test]
    fn laid_out_sentences_become_one_line() {
        assert_eq!(prose("  A fuse\n    blows.\r\n\tThen \u{1b}[2J\u{a0}x "), "A fuse blows. Then \\u{1b}[2J\u{a0}x");
        assert_eq!(sentence("fit a fuse"), "Fit a fuse.");
        assert_eq!(sentence("size= of wire"), "size= of wire.");
        assert_eq!(sentence("Fit a fuse."), "Fit a fuse.");
        assert_eq!(sentence(""), "");
    }
}
