//! Names as they are written.

use kdl::KdlValue;

/// A name as a specification has it: bare where it is one plain word, else in quotes, so that it reads back as the same name.
pub fn write_name(name: &str) -> String {
    let plain = name.chars().next().is_some_and(char::is_alphabetic)
        && name.chars().all(|letter| letter.is_alphanumeric() || letter == '-');
    // These mean something else where they stand bare.
    let word = matches!(name, "true" | "false" | "null" | "inf" | "nan" | "unknown");
    if plain && !word {
        return name.to_owned();
    }
    let written = KdlValue::String(name.to_owned()).to_string();
    if written.starts_with('"') { written } else { format!("\"{written}\"") }
}
