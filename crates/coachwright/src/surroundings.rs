//! The terminal, the environment and the clock.

use crate::command_line::Colour;
use jiff::civil::Date;
use report::TerminalOptions;
use std::io::IsTerminal;

/// Columns when no terminal says otherwise.
const WIDTH: usize = 100;

/// How text is to be drawn for whoever reads standard output.
pub fn terminal_options(colour: Colour) -> TerminalOptions {
    let is_terminal = std::io::stdout().is_terminal();
    let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    let dumb = std::env::var_os("TERM").is_some_and(|value| value == "dumb");
    let colour = match colour {
        Colour::Always => true,
        Colour::Never => false,
        // https://no-color.org: any value but the empty one switches colour off.
        Colour::Auto => is_terminal && !dumb && !set("NO_COLOR"),
    };
    TerminalOptions {
        colour,
        width: terminal_size::terminal_size().map_or(WIDTH, |(width, _)| usize::from(width.0)),
        unicode: supports_unicode::on(supports_unicode::Stream::Stdout),
        links: is_terminal && colour && supports_hyperlinks::on(supports_hyperlinks::Stream::Stdout),
    }
}

/// The day by the clock, where this computer is.
pub fn today() -> Date {
    jiff::ZonedDateTime::now().date()
}
