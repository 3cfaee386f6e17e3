//! One plain spelling for the many ways to write the same unit: m² and m2, µ and u, Ω and ohm, °C and degC.

/// The plain spelling of a unit's text. Spaces inside stay as single spaces, except around "/" and "·".
pub(crate) fn canonical(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '²' => plain.push('2'),
            '³' => plain.push('3'),
            '⁴' => plain.push('4'),
            '\u{00B5}' | '\u{03BC}' => plain.push('u'),
            '\u{03A9}' | '\u{2126}' => plain.push_str("ohm"),
            '°' | 'º' => plain.push_str("deg"),
            '℃' => plain.push_str("degC"),
            '℉' => plain.push_str("degF"),
            '€' => plain.push_str("EUR"),
            '\'' | '’' | '′' => plain.push('\''),
            '"' | '”' | '″' => plain.push('"'),
            '·' | '⋅' | '∙' | '•' | '*' => push_joint(&mut plain, '·'),
            '/' | '∕' | '⁄' => push_joint(&mut plain, '/'),
            '^' | '(' | ')' => {}
            _ if is_space(character) => {
                if !plain.ends_with([' ', '·', '/']) && !plain.is_empty() {
                    plain.push(' ');
                }
            }
            _ => plain.push(character),
        }
    }
    plain.truncate(plain.trim_end().len());
    plain
}

fn push_joint(plain: &mut String, joint: char) {
    plain.truncate(plain.trim_end().len());
    plain.push(joint);
}

/// White space, with the no-break, thin and zero-width ones.
pub(crate) fn is_space(character: char) -> bool {
    character.is_whitespace() || matches!(character, '\u{200B}' | '\u{2060}' | '\u{FEFF}')
}

/// The marks of feet and inches.
pub(crate) fn is_prime(character: char) -> bool {
    matches!(character, '\'' | '’' | '′' | '"' | '”' | '″')
}

pub(crate) fn is_minus(character: char) -> bool {
    matches!(character, '-' | '\u{2212}')
}

/// The sign between the numbers of a box.
pub(crate) fn is_times(character: char) -> bool {
    matches!(character, 'x' | 'X' | '×' | '✕' | '⨯')
}

/// Steps from one word to the other: the Levenshtein distance, or `limit` + 1 when it is more than `limit`.
pub(crate) fn distance(one: &str, other: &str, limit: usize) -> usize {
    let other: Vec<char> = other.chars().collect();
    let mut row: Vec<usize> = (0..=other.len()).collect();
    for (line, character) in one.chars().enumerate() {
        let mut next = vec![line + 1];
        for ((candidate, diagonal), above) in other.iter().zip(&row).zip(row.iter().skip(1)) {
            let left = next.last().copied().unwrap_or(line);
            let change = diagonal + usize::from(*candidate != character);
            next.push(change.min(above + 1).min(left + 1));
        }
        row = next;
    }
    row.last().copied().unwrap_or(0).min(limit + 1)
}
