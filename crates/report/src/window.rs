//! The few lines around a place, made fit to be drawn: cut to a width, tabs as blanks, nothing hidden.
//!
//! Drawing works on this small text instead of the whole one, so that a place at the end of five megabytes costs no more
//! than one at the start, and so that line numbers and columns still are those of the whole text.

use crate::sanitise::push_visible;
use spec::text::Lines;
use std::ops::Range;
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// Columns to which a tab reaches on.
const TAB: usize = 4;
/// Columns that stay in sight before a place when a line is cut at its front.
const LEAD: usize = 20;
/// Lines shown before and after those with a marked place.
const AROUND: u32 = 1;
/// Lines between two marked places that are still shown in one window.
const APART: u32 = 2 * AROUND + 2;

/// A place to be marked, in bytes of the whole text.
#[derive(Clone, Debug)]
pub(crate) struct Mark {
    pub(crate) bytes: Range<usize>,
    pub(crate) label: Option<String>,
    pub(crate) main: bool,
}

/// Neighbouring lines with the places that are marked in them.
#[derive(Debug)]
pub(crate) struct Window {
    /// The lines, each ended by a line feed.
    pub(crate) text: String,
    /// The number of the first line, from 1.
    pub(crate) first_line: u32,
    /// The marked places, in bytes of `text`; each lies on one line and is at least one character long.
    pub(crate) marks: Vec<Mark>,
}

/// The windows that show all marks: first the one with the main place, then the others in text order.
pub(crate) fn windows(text: &str, lines: &Lines, mut marks: Vec<Mark>, width: usize, cut: &str) -> Vec<Window> {
    marks.sort_by_key(|mark| (mark.bytes.start, mark.bytes.end));
    let line_of = |mark: &Mark| lines.line(u32::try_from(mark.bytes.start).unwrap_or(u32::MAX));
    let mut groups: Vec<Vec<Mark>> = Vec::new();
    for mark in marks {
        match groups.last_mut() {
            Some(group) if group.last().is_some_and(|last| line_of(&mark) - line_of(last) <= APART) => group.push(mark),
            _ => groups.push(vec![mark]),
        }
    }
    groups.sort_by_key(|group| !group.iter().any(|mark| mark.main));
    groups.iter().map(|group| window(text, lines, group, width, cut)).collect()
}

fn window(text: &str, lines: &Lines, marks: &[Mark], width: usize, cut: &str) -> Window {
    let line_of = |mark: &Mark| lines.line(u32::try_from(mark.bytes.start).unwrap_or(u32::MAX));
    let first_marked = marks.iter().map(line_of).min().unwrap_or(1);
    let last_marked = marks.iter().map(line_of).max().unwrap_or(1);
    let written = |line: u32| {
        let bytes = lines.bytes(text, line)?;
        let range = bytes.start as usize..bytes.end as usize;
        Some((range.clone(), text.get(range)?))
    };
    let is_empty = |line: u32| written(line).is_none_or(|(_, line)| line.trim().is_empty());
    // An empty line beside the marked ones tells nothing.
    let first_line = (first_marked.saturating_sub(AROUND).max(1)..first_marked)
        .find(|line| !is_empty(*line))
        .unwrap_or(first_marked);
    let last_line = (last_marked + 1..=last_marked + AROUND).rev().find(|line| !is_empty(*line)).unwrap_or(last_marked);
    let mut made = Window { text: String::new(), first_line, marks: Vec::new() };
    for line in first_line..=last_line {
        let Some((range, written)) = written(line) else { break };
        let here: Vec<&Mark> = marks.iter().filter(|mark| line_of(mark) == line).collect();
        let local: Vec<Range<usize>> = here
            .iter()
            .map(|mark| {
                // A place that goes on over more lines is marked to the end of its first.
                let end = mark.bytes.end.min(range.end).max(mark.bytes.start);
                mark.bytes.start.min(range.end) - range.start..end.min(range.end) - range.start
            })
            .collect();
        let main = here.iter().position(|mark| mark.main).unwrap_or(0);
        let (shown, placed) = fit(written, &local, main, width, cut);
        let offset = made.text.len();
        made.text.push_str(&shown);
        made.text.push('\n');
        for (mark, place) in here.iter().zip(placed) {
            made.marks.push(Mark {
                bytes: place.start + offset..place.end + offset,
                label: mark.label.clone(),
                main: mark.main,
            });
        }
    }
    made
}

/// One line fit to be drawn in `width` columns, and where its marks came to lie.
fn fit(line: &str, marks: &[Range<usize>], main: usize, width: usize, cut: &str) -> (String, Vec<Range<usize>>) {
    // Every character of the line as it is shown, with the byte where it stood.
    let mut cells: Vec<(usize, String, usize)> = Vec::new();
    let mut column = 0;
    for (byte, character) in line.char_indices() {
        let mut shown = String::new();
        if character == '\t' {
            shown.push_str(&" ".repeat(TAB - column % TAB));
        } else {
            push_visible(&mut shown, character);
        }
        let wide = shown.chars().map(|character| character.width().unwrap_or(0)).sum();
        column += wide;
        cells.push((byte, shown, wide));
    }
    // Trailing blanks are not worth a column unless a mark stands there.
    let last_mark = marks.iter().map(|mark| mark.end).max().unwrap_or(0);
    while cells.last().is_some_and(|(byte, shown, _)| *byte >= last_mark && shown.trim().is_empty()) {
        cells.pop();
    }
    let total: usize = cells.iter().map(|(_, _, wide)| wide).sum();
    let cell_at = |byte: usize| cells.partition_point(|(start, _, _)| *start < byte);
    let (mut from, mut to) = (0, cells.len());
    if total > width {
        let before = |cell: usize| cells.iter().take(cell).map(|(_, _, wide)| wide).sum::<usize>();
        let room = width.saturating_sub(2 * cut.width()).max(1);
        let start = marks.get(main).map_or(0, |mark| cell_at(mark.start));
        let end = marks.get(main).map_or(0, |mark| cell_at(mark.end));
        if before(end) > room {
            let keep = before(start).saturating_sub(LEAD.min(room / 2));
            from = (0..cells.len()).find(|cell| before(*cell) >= keep).unwrap_or(0);
        }
        let mut used = 0;
        to = from;
        for (_, _, wide) in cells.iter().skip(from) {
            if used + wide > room {
                break;
            }
            used += wide;
            to += 1;
        }
    }
    let mut shown = String::new();
    let mut starts = vec![0; cells.len() + 1];
    if from > 0 {
        shown.push_str(cut);
    }
    for (index, (_, cell, _)) in cells.iter().enumerate() {
        if let Some(start) = starts.get_mut(index) {
            *start = shown.len();
        }
        if (from..to).contains(&index) {
            shown.push_str(cell);
        }
    }
    let end_of_cells = shown.len();
    if let Some(start) = starts.last_mut() {
        *start = end_of_cells;
    }
    if to < cells.len() {
        shown.push_str(cut);
    }
    let mut placed = Vec::with_capacity(marks.len());
    for mark in marks {
        let start = starts.get(cell_at(mark.start)).copied().unwrap_or(end_of_cells);
        let mut end = starts.get(cell_at(mark.end)).copied().unwrap_or(end_of_cells);
        if end <= start {
            // A place without a length, at the end of its line or behind the cut, is marked on one column.
            if start >= shown.len() {
                shown.push(' ');
            }
            let next = shown.get(start..).and_then(|rest| rest.chars().next()).map_or(1, char::len_utf8);
            end = start + next;
        }
        placed.push(start..end);
    }
    (shown, placed)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn marked(text: &str, bytes: Range<usize>, width: usize) -> Vec<(String, u32, String)> {
        let marks = vec![Mark { bytes, label: None, main: true }];
        windows(text, &Lines::new(text), marks, width, "…")
            .into_iter()
            .map(|window| {
                let at = window.marks[0].bytes.clone();
                (window.text.clone(), window.first_line, window.text[at].to_owned())
            })
            .collect()
    }

    #[test]
    fn a_place_is_marked_on_its_own_line() {
        let text = "one\ntwo\n\tfuse \"5 A\"\nfour\nfive\n";
        let start = text.find("\"5").unwrap();
        assert_eq!(
            marked(text, start..start + 5, 80),
            [(String::from("two\n    fuse \"5 A\"\nfour\n"), 2, String::from("\"5 A\""))]
        );
    }

    #[test]
    fn places_at_odd_spots_are_still_marked() {
        // The empty text, the end of a text, an empty line, behind the end of a text, and a span over several lines.
        for (text, bytes, shown, marked_text) in [
            ("", 0..0, " \n", " "),
            ("fuse", 4..4, "fuse \n", " "),
            ("a\n", 2..2, "a\n \n", " "),
            ("a\n\nb", 2..2, "a\n \nb\n", " "),
            ("a {\n b\n}\n", 0..8, "a {\n b\n", "a {"),
            ("a\r\nb\r\n", 0..1, "a\nb\n", "a"),
        ] {
            let got = marked(text, bytes.clone(), 80);
            assert_eq!((got[0].0.as_str(), got[0].2.as_str()), (shown, marked_text), "{text:?} {bytes:?}");
        }
    }

    #[test]
    fn a_very_long_line_is_cut_around_its_place() {
        let text = format!("{}HERE{}", "x".repeat(5000), "y".repeat(5000));
        let got = marked(&text, 5000..5004, 60);
        let (shown, _, mark) = &got[0];
        assert_eq!(mark, "HERE");
        assert!(shown.starts_with("…xxx") && shown.trim_end().ends_with("y…"), "{shown}");
        assert!(shown.trim_end().width() <= 60, "{} columns", shown.trim_end().width());
    }

    #[test]
    fn hidden_characters_do_not_move_the_mark() {
        let text = "a \u{1b}[31m \u{202e}fuse";
        let start = text.find("fuse").unwrap();
        let got = marked(text, start..start + 4, 80);
        assert_eq!(got[0].0, "a \\u{1b}[31m \\u{202e}fuse\n");
        assert_eq!(got[0].2, "fuse");
    }

    #[test]
    fn distant_places_get_windows_of_their_own_and_the_main_one_comes_first() {
        let text = (1..=40).map(|line| format!("line {line}\n")).collect::<String>();
        let at = |word: &str| text.find(word).map(|start| start..start + word.len()).unwrap();
        let marks = vec![
            Mark { bytes: at("line 2\n"), label: Some(String::from("the source")), main: false },
            Mark { bytes: at("line 30"), label: None, main: true },
            Mark { bytes: at("line 32"), label: Some(String::from("the load")), main: false },
        ];
        let made = windows(&text, &Lines::new(&text), marks, 80, "…");
        assert_eq!(made.iter().map(|window| window.first_line).collect::<Vec<_>>(), [29, 1]);
        assert_eq!(made[0].text, "line 29\nline 30\nline 31\nline 32\nline 33\n");
    }
}
