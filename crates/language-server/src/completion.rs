//! What can be written at a position: parts, properties, choices, names and units.

use crate::check::Surroundings;
use crate::reading::Reading;
use crate::snippets::snippet;
use crate::state::State;
use crate::units;
use spec::Part;
use spec::text::write_name;
use std::collections::BTreeSet;
use tower_lsp::lsp_types::{
    CompletionItem, CompletionItemKind, CompletionResponse, CompletionTextEdit, Documentation, InsertTextFormat,
    MarkupContent, MarkupKind, Position, Range, TextEdit, Url,
};
use vocabulary::{FactKind, FactSpec, Family, Naming, PartSpec, Written};

/// The completions at a position.
pub fn complete(
    state: &State,
    surroundings: &Surroundings,
    url: &Url,
    position: Position,
) -> Option<CompletionResponse> {
    let reading = Reading::of(state, surroundings, url)?;
    let byte = reading.byte(state, position)? as usize;
    let text = &reading.spec.files.get(reading.file as usize)?.text;
    let (before, behind) = (text.get(..byte)?, text.get(byte..)?);
    let line = Line::before(before)?;
    let outer = reading.around(u32::try_from(byte).ok()?).into_iter().rev().find(|part| {
        // What the line itself is does not hold it: that is what is being written.
        (part.word.bytes.start as usize) < line.start && opened_before(text, part, line.start)
    });
    let place = line.place(outer)?;
    let from = place.from(before);
    // Quotes that the editor closed are taken up, since what is written brings its own.
    let closed = before.get(from..)?.starts_with('"') && behind.starts_with('"');
    let mut at = Writing {
        client: state.client,
        range: Range::new(reading.position(state, from)?, reading.position(state, byte + usize::from(closed))?),
        quoted: before.get(from..)?.starts_with('"'),
    };
    let items = match place {
        Place::Start { .. } => at.starts(outer),
        Place::Property { spec, .. } => at.properties(spec, line.text),
        Place::Value { fact, .. } => at.values(&reading, fact),
        Place::Unit { fact, .. } => {
            at.range = Range::new(reading.position(state, from)?, position);
            at.units(fact, before.get(..from)?.ends_with(' '))
        }
        Place::Name { .. } => at.defined(&reading, is_thing),
    };
    Some(CompletionResponse::Array(items))
}

/// Whether a part's block was opened before a byte.
fn opened_before(text: &str, part: &Part, byte: usize) -> bool {
    text.get(part.head.bytes.start as usize..byte).is_some_and(|written| written.contains('{'))
}

/// Whether a part is something that others can be joined to or stand at.
fn is_thing(part: &Part) -> bool {
    vocabulary::part(part.kind).family == Family::Thing
}

/// What stands before the cursor of the line that is being written.
struct Line<'t> {
    text: &'t str,
    start: usize,
}

/// What the cursor stands at, each with the bytes before it that belong to it.
enum Place {
    /// The first word of a line.
    Start { typed: usize },
    /// A property's name.
    Property { spec: &'static PartSpec, typed: usize },
    /// A property's value, an opening quote included.
    Value { fact: &'static FactSpec, typed: usize },
    /// The unit behind a number.
    Unit { fact: &'static FactSpec, typed: usize },
    /// The name of a thing that a part refers to.
    Name { typed: usize },
}

impl Place {
    /// The byte from which what is typed is replaced.
    fn from(&self, before: &str) -> usize {
        let (Self::Start { typed }
        | Self::Property { typed, .. }
        | Self::Value { typed, .. }
        | Self::Unit { typed, .. }
        | Self::Name { typed }) = self;
        before.len() - typed
    }
}

impl<'t> Line<'t> {
    /// The line that ends at the cursor; nothing within a comment.
    fn before(before: &'t str) -> Option<Self> {
        // A line of the specification begins behind a line end, a semicolon or a brace that stands in no quotes.
        let (mut start, mut quoted, mut comment) = (0, false, false);
        let mut letters = before.char_indices().peekable();
        while let Some((at, letter)) = letters.next() {
            match letter {
                '\n' | '\r' => (start, quoted, comment) = (at + 1, false, false),
                _ if comment => {}
                '\\' if quoted => {
                    letters.next();
                }
                '"' => quoted = !quoted,
                ';' | '{' | '}' if !quoted => start = at + 1,
                '/' if !quoted && letters.peek().is_some_and(|(_, next)| *next == '/') => comment = true,
                _ => {}
            }
        }
        if comment { None } else { Some(Self { text: before.get(start..)?, start }) }
    }

    fn place(&self, outer: Option<&Part>) -> Option<Place> {
        let words = self.text.trim_start();
        let first = words.split_whitespace().next().unwrap_or("");
        if words.is_empty() || (first == words && !words.contains(['=', '"'])) {
            return Some(Place::Start { typed: words.len() });
        }
        let spec = vocabulary::part_by_word(first)?;
        let fits = outer.map_or(spec.top, |outer| vocabulary::part(outer.kind).may_contain(spec.kind));
        if !fits {
            return None;
        }
        let word = self.last_word();
        let Some((name, value)) = word.split_once('=') else {
            if word.starts_with('"') {
                // A text in quotes that is no value is a name.
                return (spec.naming == Naming::Refers).then_some(Place::Name { typed: word.len() });
            }
            // `way 2 pump`: the name comes behind what goes by its position.
            let between = words.get(first.len()..words.len() - word.len())?;
            let positions = spec.properties().filter(|fact| matches!(fact.written, Written::Argument(_))).count();
            let is_name = between.split_whitespace().count() == positions && !between.contains('=');
            if is_name && spec.naming == Naming::Refers {
                return Some(Place::Name { typed: word.len() });
            }
            return Some(Place::Property { spec, typed: word.len() });
        };
        let fact = spec.fact(name).filter(|fact| fact.given)?;
        let number = value.trim_start_matches('"');
        let digits = number.len()
            - number.trim_start_matches(|letter: char| letter.is_ascii_digit() || ".,/-".contains(letter)).len();
        if value.starts_with('"') && digits > 0 && !units::of(fact.kind).is_empty() {
            let unit = number.get(digits..)?;
            let plain = unit.trim_start().chars().all(|letter| letter.is_alphanumeric() || "/²³°%".contains(letter));
            return plain.then(|| Place::Unit { fact, typed: unit.trim_start().len() });
        }
        Some(Place::Value { fact, typed: value.len() })
    }

    /// The word that the cursor stands in or behind, with the text in quotes that it ends with.
    fn last_word(&self) -> &'t str {
        let mut start = 0;
        let mut quoted = false;
        for (at, letter) in self.text.char_indices() {
            match letter {
                '"' => quoted = !quoted,
                _ if letter.is_whitespace() && !quoted => start = at + letter.len_utf8(),
                _ => {}
            }
        }
        self.text.get(start..).unwrap_or("")
    }
}

/// Where something is written, and for whom.
struct Writing {
    client: crate::client::Client,
    range: Range,
    quoted: bool,
}

impl Writing {
    fn item(&self, label: &str, kind: CompletionItemKind, new_text: String) -> CompletionItem {
        CompletionItem {
            label: label.to_owned(),
            kind: Some(kind),
            filter_text: Some(new_text.clone()),
            text_edit: Some(CompletionTextEdit::Edit(TextEdit { range: self.range, new_text })),
            ..CompletionItem::default()
        }
    }

    /// Help with an example below it.
    fn documentation(&self, help: &str, example: &str) -> Option<Documentation> {
        Some(match (self.client.markdown_documentation, example.is_empty()) {
            (_, true) => Documentation::String(help.to_owned()),
            (false, false) => Documentation::String(format!("{help}\n{example}")),
            (true, false) => Documentation::MarkupContent(MarkupContent {
                kind: MarkupKind::Markdown,
                value: format!("{help}\n\n```kdl\n{example}\n```"),
            }),
        })
    }

    /// The parts that may stand here, and the lines that are properties of the part around.
    fn starts(&self, outer: Option<&Part>) -> Vec<CompletionItem> {
        let fits =
            |spec: &&PartSpec| outer.map_or(spec.top, |outer| vocabulary::part(outer.kind).may_contain(spec.kind));
        let part = |spec: &PartSpec| {
            let snippet = self.client.snippets.then(|| snippet(spec.example)).flatten();
            let format = snippet.is_some().then_some(InsertTextFormat::SNIPPET);
            CompletionItem {
                filter_text: Some(format!("{} {}", spec.word, spec.also.join(" "))),
                documentation: self.documentation(spec.help, spec.example),
                insert_text_format: format,
                ..self.item(spec.word, CompletionItemKind::CLASS, snippet.unwrap_or_else(|| format!("{} ", spec.word)))
            }
        };
        let mut items: Vec<CompletionItem> = vocabulary::parts().iter().filter(fits).map(part).collect();
        if let Some(outer) = outer {
            let missing = vocabulary::part(outer.kind).properties().filter(|fact| outer.given(fact.id).is_none());
            items.extend(missing.map(|fact| self.property(fact, " ")));
        }
        items
    }

    fn properties(&self, spec: &'static PartSpec, line: &str) -> Vec<CompletionItem> {
        let known: BTreeSet<&str> =
            line.split_whitespace().filter_map(|word| word.split_once('=').map(|(name, _)| name)).collect();
        let open = spec.properties().filter(|fact| fact.written == Written::Property);
        open.filter(|fact| !known.contains(fact.name)).map(|fact| self.property(fact, "=")).collect()
    }

    fn property(&self, fact: &FactSpec, sign: &str) -> CompletionItem {
        CompletionItem {
            detail: Some(fact.example.to_owned()).filter(|example| !example.is_empty()),
            documentation: self.documentation(fact.help, ""),
            ..self.item(fact.name, CompletionItemKind::PROPERTY, format!("{}{sign}", fact.name))
        }
    }

    fn values(&self, reading: &Reading, fact: &FactSpec) -> Vec<CompletionItem> {
        match fact.kind {
            FactKind::Flag => self.words(&["yes", "no"], CompletionItemKind::VALUE),
            FactKind::Choice(words) | FactKind::ChoiceSet(words) => self.words(words, CompletionItemKind::ENUM_MEMBER),
            FactKind::Part(kinds) | FactKind::Parts(kinds) => {
                self.defined(reading, |part| if kinds.is_empty() { is_thing(part) } else { kinds.contains(&part.kind) })
            }
            _ if fact.example.is_empty() => Vec::new(),
            _ => vec![self.item(
                &format!("\"{}\"", fact.example),
                CompletionItemKind::VALUE,
                format!("\"{}\"", fact.example),
            )],
        }
    }

    fn words(&self, words: &[&str], kind: CompletionItemKind) -> Vec<CompletionItem> {
        let written = |word: &str| if self.quoted { format!("\"{word}\"") } else { word.to_owned() };
        words.iter().map(|word| self.item(word, kind, written(word))).collect()
    }

    /// The units of a property, with the space that parts them from the number.
    fn units(&self, fact: &FactSpec, spaced: bool) -> Vec<CompletionItem> {
        let space = if spaced { "" } else { " " };
        let item = |unit: String| CompletionItem {
            filter_text: Some(unit.clone()),
            ..self.item(&unit, CompletionItemKind::UNIT, format!("{space}{unit}"))
        };
        units::of(fact.kind).into_iter().map(item).collect()
    }

    /// The names that are defined in the build.
    fn defined(&self, reading: &Reading, wanted: impl Fn(&Part) -> bool) -> Vec<CompletionItem> {
        let mut open: Vec<&Part> = reading.spec.parts.iter().collect();
        let mut names = BTreeSet::new();
        while let Some(part) = open.pop() {
            open.extend(&part.inside);
            let spec = vocabulary::part(part.kind);
            let defines = matches!(spec.naming, Naming::Required | Naming::Optional);
            if let Some(name) = part.name.as_ref().filter(|_| defines && wanted(part)) {
                names.insert((name.text.to_string(), spec.word));
            }
        }
        let item = |(name, word): (String, &str)| {
            let written = write_name(&name);
            let quoted = if self.quoted && !written.starts_with('"') { format!("\"{written}\"") } else { written };
            CompletionItem { detail: Some(word.to_owned()), ..self.item(&name, CompletionItemKind::REFERENCE, quoted) }
        };
        names.into_iter().map(item).collect()
    }
}
