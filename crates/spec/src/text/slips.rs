//! The slips that builders make within one word or string, found before the parser sees them and worded for builders.

use super::fault::{FaultKind, Mend, TextFault};
use super::lexer::{Token, TokenKind, blank_length, newline_length};
use super::tree::Bytes;

/// Where a token stands in its node.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    /// The name of a node.
    Name,
    /// The name of a property, before `=`.
    Key,
    /// Within the parentheses of an annotation.
    Annotation,
    /// An argument or the value of a property.
    Value,
}

/// Why a line that cannot be read matters; the same for all slips within a line.
pub(super) const LINE_UNREAD: &str = "What this line says is not checked until it can be read.";

/// Makes a fault. Offsets are those of texts up to `LARGEST`, so they fit.
pub(super) fn fault(
    kind: FaultKind,
    at: std::ops::Range<usize>,
    message: String,
    why: &str,
    help: String,
) -> TextFault {
    TextFault { kind, at: bytes(at), message, why: why.to_owned(), instead: None, help }
}

/// The fault with a mend.
pub(super) fn with_mend(mut fault: TextFault, at: std::ops::Range<usize>, text: String) -> TextFault {
    fault.instead = Some(Mend { at: bytes(at), text });
    fault
}

/// A range of offsets as it is kept in trees.
pub(super) fn bytes(at: std::ops::Range<usize>) -> Bytes {
    let narrow = |offset: usize| u32::try_from(offset).unwrap_or(u32::MAX);
    narrow(at.start)..narrow(at.end)
}

/// Looks for a slip in a token of kind `Word`, `Quoted` or a faulty string.
pub(super) fn check(text: &str, token: Token, place: Place) -> Option<TextFault> {
    let at = token.start..token.end;
    let written = text.get(at.clone()).unwrap_or_default();
    match token.kind {
        TokenKind::Quoted => check_string(written, token.start),
        TokenKind::TripleOnOneLine => {
            let found = fault(
                FaultKind::Unreadable,
                at.clone(),
                "Three quotation marks begin a text of several lines, and this one ends on the same line".to_owned(),
                LINE_UNREAD,
                "Write one quotation mark at each end.".to_owned(),
            );
            let inner = written.trim_matches('"');
            if inner.contains(['"', '\\']) { Some(found) } else { Some(with_mend(found, at, format!("\"{inner}\""))) }
        }
        TokenKind::UnclosedString => Some(unclosed_string(written, at)),
        _ => check_word(written, token.start, place),
    }
}

/// The fault of a string without an end.
pub(super) fn unclosed_string(written: &str, at: std::ops::Range<usize>) -> TextFault {
    let several_lines = written.ends_with("\"\"\"");
    let (message, help) = if several_lines {
        (
            "This text of several lines has no end",
            "Write the same three quotation marks (and the same number of #) on a line of their own behind its last line.",
        )
    } else {
        (
            "A quotation mark is missing: this text has no end on its line",
            "Put a quotation mark at each end of the text, as in name=\"12 V\".",
        )
    };
    fault(FaultKind::UnclosedString, at, message.to_owned(), LINE_UNREAD, help.to_owned())
}

/// The fault of a line on which the quotation marks do not pair up, at the first place where that shows.
pub(super) fn unpaired_quotes(at: std::ops::Range<usize>) -> TextFault {
    fault(
        FaultKind::UnclosedString,
        at,
        "A quotation mark is missing on this line, most likely just before this".to_owned(),
        LINE_UNREAD,
        "Put a quotation mark at each end of each text, as in name=\"12 V\".".to_owned(),
    )
}

fn check_word(word: &str, start: usize, place: Place) -> Option<TextFault> {
    let at = start..start + word.len();
    if let Some(found) = curly_quotes(word, start) {
        return Some(found);
    }
    if let Some((index, bad)) = word.char_indices().find(|(_, c)| is_disallowed(*c)) {
        return Some(invisible(bad, start + index));
    }
    if matches!(word, "true" | "false" | "null") {
        return Some(old_keyword(word, at, place));
    }
    if matches!(word, "inf" | "-inf" | "nan") {
        return Some(fault(
            FaultKind::Unreadable,
            at.clone(),
            format!("'{word}' cannot stand here as a bare word"),
            LINE_UNREAD,
            format!("Put it in quotes if it is a name: \"{word}\"."),
        ));
    }
    if word.starts_with('#') && place == Place::Value && is_keyword(word) {
        return None;
    }
    if let Some(number) = leading_number(word) {
        return check_number(word, number, at, place);
    }
    let bad = word.char_indices().find(|(_, c)| matches!(c, '[' | ']' | '/' | '\\' | '#'));
    let (index, bad) = bad?;
    let found = fault(
        FaultKind::ForbiddenCharacter,
        start + index..start + index + bad.len_utf8(),
        format!("'{bad}' cannot stand in a word without quotes"),
        LINE_UNREAD,
        format!("Put the whole in quotes: \"{}\".", escaped(word)),
    );
    if place == Place::Value && !word.contains('\\') {
        Some(with_mend(found, at, format!("\"{word}\"")))
    } else {
        Some(found)
    }
}

/// A text as it is written between quotes.
fn escaped(word: &str) -> String {
    word.replace('\\', "\\\\")
}

fn is_keyword(word: &str) -> bool {
    matches!(word, "#true" | "#false" | "#null" | "#inf" | "#-inf" | "#nan")
}

fn old_keyword(word: &str, at: std::ops::Range<usize>, place: Place) -> TextFault {
    let choice = match word {
        "true" => Some("yes"),
        "false" => Some("no"),
        _ => None,
    };
    let help = match choice {
        Some(choice) => format!("Write {choice}, as a bare word; where KDL's own value is meant, write #{word}."),
        None => "Leave the entry out where nothing is known; where KDL's own value is meant, write #null.".to_owned(),
    };
    let found = fault(
        FaultKind::OldSyntax,
        at.clone(),
        format!("'{word}' is KDL version 1; in version 2 it cannot stand as a bare word"),
        LINE_UNREAD,
        help,
    );
    match choice {
        Some(choice) if place == Place::Value => with_mend(found, at, choice.to_owned()),
        _ => found,
    }
}

/// The length of the number that a word begins with (digits, sign, fraction, decimal comma), if it begins with one.
fn leading_number(word: &str) -> Option<usize> {
    let unsigned = word.strip_prefix(['+', '-']).unwrap_or(word);
    let digits = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
    let whole = digits(unsigned);
    let behind = unsigned.get(whole..).unwrap_or_default();
    let fraction = match behind.strip_prefix(['.', ',']) {
        Some(rest) if digits(rest) > 0 => 1 + digits(rest),
        _ => 0,
    };
    if whole == 0 && (fraction == 0 || behind.starts_with(',')) {
        return None;
    }
    Some(word.len() - unsigned.len() + whole + fraction)
}

fn check_number(word: &str, number: usize, at: std::ops::Range<usize>, place: Place) -> Option<TextFault> {
    if place != Place::Value {
        let what = match place {
            Place::Name => "A line begins with the name of a part or property, not with a number",
            _ => "A number cannot stand here",
        };
        let kind = if place == Place::Name { FaultKind::MissingName } else { FaultKind::Unreadable };
        let help = "Write the name first; put it in quotes if it begins with a digit.".to_owned();
        return Some(fault(kind, at, what.to_owned(), LINE_UNREAD, help));
    }
    if is_number(word) {
        return None;
    }
    let (written, rest) = word.split_at_checked(number).unwrap_or((word, ""));
    let comma = written.contains(',');
    // Three digits behind a comma may as well be thousands: then no mend is certain.
    let thousands = written.rsplit(',').next().is_some_and(|fraction| comma && fraction.len() == 3);
    let with_point = written.replace(',', ".");
    if rest.is_empty() && comma {
        let found = fault(
            FaultKind::DecimalComma,
            at.clone(),
            format!("'{word}' has a decimal comma"),
            LINE_UNREAD,
            if thousands {
                format!("Write a decimal point ({with_point}), or leave the comma out if it groups thousands.")
            } else {
                format!("Write a decimal point: {with_point}. A comma separates coordinates only, within quotes.")
            },
        );
        return Some(if thousands { found } else { with_mend(found, at, with_point) });
    }
    if rest.is_empty() {
        return Some(fault(
            FaultKind::Unreadable,
            at,
            format!("The number '{}' cannot be read", shortened(word)),
            LINE_UNREAD,
            "Write it as digits with a decimal point, such as 12.5, or put it in quotes.".to_owned(),
        ));
    }
    let quantity = if is_unit(rest) { format!("{with_point} {rest}") } else { escaped(word) };
    let (message, help) = if is_unit(rest) {
        (
            format!("The quantity {} stands without quotes", shortened(word)),
            format!("Write number and unit with a blank between them, in quotes: \"{}\".", shortened(&quantity)),
        )
    } else {
        (
            format!("'{}' begins with a digit and stands without quotes", shortened(word)),
            format!("Put it in quotes: \"{}\".", shortened(&quantity)),
        )
    };
    let found = fault(FaultKind::MissingQuotes, at.clone(), message, LINE_UNREAD, help);
    Some(if thousands { found } else { with_mend(found, at, format!("\"{quantity}\"")) })
}

/// Whether KDL reads the word as a number.
fn is_number(word: &str) -> bool {
    let unsigned = word.strip_prefix(['+', '-']).unwrap_or(word);
    for (prefix, radix) in [("0x", 16), ("0o", 8), ("0b", 2)] {
        if let Some(digits) = unsigned.strip_prefix(prefix) {
            let valid = digits.starts_with(|c: char| c.is_digit(radix));
            return valid && i128::from_str_radix(&digits.replace('_', ""), radix).is_ok();
        }
    }
    let digits_of = |text: &str| {
        text.starts_with(|c: char| c.is_ascii_digit()) && text.chars().all(|c| c.is_ascii_digit() || c == '_')
    };
    // KDL reads each run of digits as a whole number of 128 bits before it makes a fraction of it.
    let fits = |text: &str| digits_of(text) && text.replace('_', "").parse::<i128>().is_ok();
    let (mantissa, exponent) = match unsigned.split_once(['e', 'E']) {
        Some((mantissa, exponent)) => (mantissa, Some(exponent)),
        None => (unsigned, None),
    };
    let (whole, fraction) = match mantissa.split_once('.') {
        Some((whole, fraction)) => (whole, Some(fraction)),
        None => (mantissa, None),
    };
    fits(whole)
        && fraction.is_none_or(fits)
        && exponent.is_none_or(|exponent| fits(exponent.strip_prefix(['+', '-']).unwrap_or(exponent)))
}

/// Whether what stands behind a number looks like a unit: "mm2", "V", "%", "l/100km", "m2".
fn is_unit(rest: &str) -> bool {
    let starts = rest.starts_with(|c: char| c.is_alphabetic() || matches!(c, '%' | '°' | 'µ' | 'Ω'));
    let multiplied =
        rest.strip_prefix(['x', 'X', 'e', 'E']).is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
    let plain = rest.chars().all(|c| c.is_alphanumeric() || matches!(c, '%' | '°' | 'µ' | 'Ω' | '/' | '²' | '³'));
    starts && plain && !multiplied
}

/// A word as it is repeated in a message: never longer than a line can take.
fn shortened(word: &str) -> String {
    const MOST_CHARACTERS: usize = 40;
    if word.chars().nth(MOST_CHARACTERS).is_none() {
        return word.to_owned();
    }
    let start: String = word.chars().take(MOST_CHARACTERS).collect();
    format!("{start}…")
}

fn curly_quotes(word: &str, start: usize) -> Option<TextFault> {
    let is_curly = |c: char| matches!(c, '“' | '”' | '„' | '‟' | '«' | '»' | '‘' | '’' | '‚');
    let (index, mark) = word.char_indices().find(|(_, c)| is_curly(*c))?;
    // An apostrophe within a word is fine for KDL and for us.
    if matches!(mark, '’' | '‘') && index > 0 {
        return None;
    }
    let found = fault(
        FaultKind::CurlyQuotes,
        start + index..start + index + mark.len_utf8(),
        format!("'{mark}' is a typographic quotation mark, which does not begin or end a text"),
        LINE_UNREAD,
        "Write straight quotation marks: \".".to_owned(),
    );
    let inner = word.trim_matches(is_curly);
    let whole = index == 0 && word.ends_with(is_curly) && word.chars().count() > 2;
    if whole && !inner.contains(|c| is_curly(c) || c == '\\') {
        return Some(with_mend(found, start..start + word.len(), format!("\"{inner}\"")));
    }
    Some(found)
}

/// Characters that KDL 2 allows nowhere in a text: control characters and marks that turn the direction of writing.
pub(super) fn is_disallowed(c: char) -> bool {
    matches!(c,
        '\u{0}'..='\u{8}' | '\u{E}'..='\u{1F}' | '\u{7F}' | '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}'
        | '\u{2066}'..='\u{2069}' | '\u{FEFF}')
}

fn invisible(bad: char, at: usize) -> TextFault {
    fault(
        FaultKind::ForbiddenCharacter,
        at..at + bad.len_utf8(),
        format!("An invisible character (U+{:04X}) stands here, which a text may not hold", u32::from(bad)),
        LINE_UNREAD,
        "Delete it; it often comes along when a text is copied from a web page or a PDF.".to_owned(),
    )
}

fn check_string(written: &str, start: usize) -> Option<TextFault> {
    // Nearly all strings hold neither a backslash nor anything beyond printable ASCII.
    let plain = written.bytes().all(|byte| matches!(byte, b' '..=b'[' | b']'..=b'~'));
    let hashes = written.bytes().take_while(|byte| *byte == b'#').count();
    let several_lines =
        written.get(hashes..).is_some_and(|rest| rest.starts_with("\"\"\"") && newline_length(rest, 3) > 0);
    // A raw string of one lone quotation mark looks like the start of a text of several lines.
    if hashes > 0 && written.trim_matches('#') == "\"\"\"" {
        return Some(fault(
            FaultKind::Unreadable,
            start..start + written.len(),
            "A raw text of one quotation mark looks like the start of a text of several lines".to_owned(),
            LINE_UNREAD,
            "Write \"\\\"\" instead.".to_owned(),
        ));
    }
    if plain && !several_lines {
        return None;
    }
    if let Some((index, bad)) = written.char_indices().find(|(_, c)| is_disallowed(*c)) {
        return Some(invisible(bad, start + index));
    }
    if hashes == 0
        && let Some(found) = check_escapes(written, start)
    {
        return Some(found);
    }
    if several_lines {
        return check_indent(written, hashes, start);
    }
    None
}

fn check_escapes(written: &str, start: usize) -> Option<TextFault> {
    let mut at = 0;
    while let Some(found) = written.get(at..).and_then(|rest| rest.find('\\')) {
        let backslash = at + found;
        let behind = written.get(backslash + 1..).unwrap_or_default();
        let next = behind.chars().next()?;
        at = backslash + 1 + next.len_utf8();
        let valid = match next {
            '\\' | '"' | 'b' | 'f' | 'n' | 'r' | 't' | 's' => true,
            'u' => is_code_point(behind),
            _ => blank_length(behind, 0) > 0 || newline_length(behind, 0) > 0,
        };
        if !valid {
            let at = start + backslash..start + backslash + 1 + next.len_utf8();
            let found = fault(
                FaultKind::UnknownEscape,
                at.clone(),
                format!("'\\{next}' has no meaning in a text"),
                LINE_UNREAD,
                "Write two backslashes where one is meant.".to_owned(),
            );
            return Some(with_mend(found, at, format!("\\\\{next}")));
        }
    }
    None
}

fn is_code_point(behind: &str) -> bool {
    let inner = behind.strip_prefix("u{").and_then(|rest| rest.split_once('}')).map(|(inner, _)| inner);
    inner.is_some_and(|hex| {
        (1..=6).contains(&hex.len())
            && hex.bytes().all(|byte| byte.is_ascii_hexdigit())
            && u32::from_str_radix(hex, 16).is_ok_and(|code| char::from_u32(code).is_some())
    })
}

/// Every line of a multi-line string begins with the blanks that stand before its closing quotes.
fn check_indent(written: &str, hashes: usize, start: usize) -> Option<TextFault> {
    let lines = lines_of(written);
    let (&(last, last_end), inner) = lines.split_last()?;
    let closing = written.get(last..last_end)?;
    let indent = closing.get(..closing.len().checked_sub(3 + hashes)?)?;
    let blank = |text: &str| {
        let mut at = 0;
        while blank_length(text, at) > 0 {
            at += blank_length(text, at);
        }
        at
    };
    // A backslash at a line's end joins it with the next one, which then needs no indentation.
    let joins = |&(from, to): &(usize, usize)| hashes == 0 && ends_joined(written.get(from..to).unwrap_or_default());
    if inner.last().is_some_and(joins) {
        // So rare that it is left to the parser.
        return None;
    }
    let wrong = if blank(indent) < indent.len() {
        Some((
            last + blank(indent)..last_end,
            "The closing quotation marks of a text of several lines stand on a line of their own",
        ))
    } else {
        inner.windows(2).find_map(|pair| {
            let [before, (from, to)] = pair else {
                return None;
            };
            let line = written.get(*from..*to)?;
            let fine = joins(before) || line.starts_with(indent) || blank(line) == line.len();
            (!fine).then_some((
                *from..from + blank(line),
                "This line is indented less than the end of the text that it belongs to",
            ))
        })
    };
    let (at, message) = wrong?;
    let help = "Indent every line of the text at least as far as its closing quotation marks, with the same blanks."
        .to_owned();
    Some(fault(FaultKind::MultiLineIndent, start + at.start..start + at.end, message.to_owned(), LINE_UNREAD, help))
}

/// Whether a line ends with a backslash that is not itself escaped, and blanks.
fn ends_joined(line: &str) -> bool {
    let mut end = line.len();
    while let Some(last) = line.get(..end).and_then(|line| line.chars().next_back()) {
        let start = end - last.len_utf8();
        if blank_length(line, start) == 0 {
            break;
        }
        end = start;
    }
    let backslashes = line.get(..end).unwrap_or_default().bytes().rev().take_while(|byte| *byte == b'\\').count();
    backslashes % 2 == 1
}

/// The start and end of each line, without line ends.
fn lines_of(written: &str) -> Vec<(usize, usize)> {
    let mut lines = Vec::new();
    let mut from = 0;
    loop {
        let end = super::lexer::end_of_line(written, from);
        lines.push((from, end));
        match newline_length(written, end) {
            0 => return lines,
            length => from = end + length,
        }
    }
}
