//! Excerpts of a text with marked places, drawn by miette. No other module knows miette.

use crate::TerminalOptions;
use crate::places::Places;
use crate::sanitise::prose;
use crate::window::{Mark, Window, windows};
use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteError, MietteSpanContents, SourceCode,
    SourceSpan, SpanContents, ThemeCharacters, ThemeStyles,
};
use owo_colors::Style;
use rules::Signal;
use rules::finding::{Place, Related};
use std::fmt;

/// Columns that the line numbers and the frame take up at most, beside the indent.
const FRAME: usize = 14;

/// The excerpt that shows a place and the related ones, indented; the file of every excerpt but the first is named.
pub(crate) fn excerpt(
    places: &Places,
    place: &Place,
    related: &[Related],
    signal: Signal,
    options: TerminalOptions,
    indent: &str,
) -> String {
    let mut drawn = String::new();
    let mut files = vec![place.file];
    for other in related {
        if !files.contains(&other.place.file) {
            files.push(other.place.file);
        }
    }
    let mut first = true;
    for file in files {
        let (Some(text), Some(lines)) = (places.file(&Place { file, bytes: 0..0 }), places.lines(file)) else {
            continue;
        };
        let mut marks = Vec::new();
        if file == place.file {
            marks.push(Mark { bytes: places.bytes(place), label: None, main: true });
        }
        for other in related.iter().filter(|other| other.place.file == file) {
            let bytes = places.bytes(&other.place);
            marks.push(Mark { bytes, label: Some(prose(&other.label)), main: false });
        }
        let width = options.width.saturating_sub(FRAME + indent.len()).max(20);
        let cut = if options.unicode { "…" } else { "..." };
        for window in windows(&text.text, lines, marks, width, cut) {
            if !first && let Some(mark) = window.marks.first() {
                let line = window.first_line + line_breaks_before(&window, mark.bytes.start);
                drawn.push_str(&format!("{indent}{}:{line}\n", crate::visible(&text.name)));
            }
            first = false;
            for line in draw(window, signal, options).lines() {
                drawn.push_str(indent);
                drawn.push_str(line.trim_end());
                drawn.push('\n');
            }
        }
    }
    drawn
}

fn line_breaks_before(window: &Window, byte: usize) -> u32 {
    let before = window.text.get(..byte).unwrap_or_default();
    u32::try_from(before.matches('\n').count()).unwrap_or(0)
}

/// Draws one window. miette heads every report with a line for its message; that line is ours to write, so it is cut off.
fn draw(window: Window, signal: Signal, options: TerminalOptions) -> String {
    let theme =
        GraphicalTheme { characters: characters(options.unicode), styles: styles(&window, signal, options.colour) };
    let handler = GraphicalReportHandler::new_themed(theme)
        .with_width(options.width)
        .with_context_lines(usize::MAX)
        .with_links(false)
        .without_primary_span_start()
        .without_syntax_highlighting();
    let mut report = String::new();
    if handler.render_report(&mut report, &Marked(window)).is_err() {
        return String::new();
    }
    report.split_once('\n').map(|(_, drawing)| drawing.to_owned()).unwrap_or_default()
}

/// Our own frame: square corners, so that it reads as a cutting from the text.
fn characters(unicode: bool) -> ThemeCharacters {
    if unicode {
        ThemeCharacters {
            ltop: '┌',
            lbot: '└',
            vbar_break: '┆',
            uarrow: '┴',
            underline: '═',
            underbar: '╤',
            ..ThemeCharacters::unicode()
        }
    } else {
        ThemeCharacters {
            ltop: '+',
            lbot: '+',
            vbar_break: '.',
            underline: '~',
            underbar: '~',
            ..ThemeCharacters::ascii()
        }
    }
}

/// miette takes the styles of marks in turn, in text order; so the list has one for each mark.
fn styles(window: &Window, signal: Signal, colour: bool) -> ThemeStyles {
    if !colour {
        return ThemeStyles::none();
    }
    let mut marks: Vec<&Mark> = window.marks.iter().collect();
    marks.sort_by_key(|mark| mark.bytes.start);
    let highlights =
        marks.iter().map(|mark| if mark.main { crate::sheet::signal_style(signal) } else { Style::new().cyan() });
    ThemeStyles { highlights: highlights.collect(), linum: Style::new().dimmed(), ..ThemeStyles::none() }
}

/// A window as miette wants to see it.
#[derive(Debug)]
struct Marked(Window);

impl fmt::Display for Marked {
    fn fmt(&self, _: &mut fmt::Formatter<'_>) -> fmt::Result {
        Ok(())
    }
}

impl std::error::Error for Marked {}

impl Diagnostic for Marked {
    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&self.0)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        Some(Box::new(
            self.0.marks.iter().map(|mark| LabeledSpan::new(mark.label.clone(), mark.bytes.start, mark.bytes.len())),
        ))
    }
}

impl SourceCode for Window {
    /// Always the whole window: its lines were chosen already.
    fn read_span<'a>(
        &'a self,
        _: &SourceSpan,
        _: usize,
        _: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let first = self.first_line.saturating_sub(1) as usize;
        let span = SourceSpan::from(0..self.text.len());
        let count = self.text.lines().count();
        Ok(Box::new(MietteSpanContents::new(self.text.as_bytes(), span, first, 0, count)))
    }
}
