//! A specification without what is private in it: its structure, part kinds, property names, choices and units stay; names,
//! texts and numbers are replaced, the same name always by the same word; comments are left out.

use rules::pack::Packs;
use spec::text::{BlockCache, Entry, Node, Scalar, Unread, write_name};
use std::collections::HashMap;
use vocabulary::{FactKind, FactSpec, Naming, PartSpec, Written};

/// Names that the vocabulary itself gives a meaning.
const OWN_NAMES: &[&str] = &["outside", "unknown"];

/// The number of the first way of a panel: ways keep numbers of their own, which tell nothing.
const FIRST_WAY: u32 = 901;

/// Replaces what is private; the same names in several files get the same words.
pub struct Blank<'a> {
    packs: &'a Packs,
    names: HashMap<String, usize>,
    texts: HashMap<String, usize>,
    ways: u32,
}

impl<'a> Blank<'a> {
    /// Begins with nothing replaced.
    pub fn new(packs: &'a Packs) -> Self {
        Self { packs, names: HashMap::new(), texts: HashMap::new(), ways: FIRST_WAY }
    }

    /// A text with everything private replaced. What could not be read in it keeps only its signs and the lengths of its words.
    pub fn text(&mut self, text: &str) -> String {
        let document = spec::text::read(text, &mut BlockCache::off());
        let mut out = String::new();
        for node in &document.nodes {
            self.node(node, None, 0, text, &mut out);
        }
        out
    }

    fn node(&mut self, node: &Node, outer: Option<&'static PartSpec>, depth: usize, text: &str, out: &mut String) {
        let indent = "    ".repeat(depth);
        if node.unread == Unread::Itself {
            let at = node.at.start as usize..node.at.end as usize;
            out.push_str(&format!("{indent}{}\n", scrambled(text.get(at).unwrap_or_default())));
            return;
        }
        let word = &*node.name.text;
        let property = outer.and_then(|outer| outer.properties().find(|fact| fact.name == word));
        let spec = if property.is_some() { None } else { vocabulary::part_by_word(word) };
        let word =
            if property.is_some() || spec.is_some() || known_word(word) { write_name(word) } else { self.name(word) };
        out.push_str(&format!("{indent}{word}"));
        let mut arguments = Arguments::of(spec);
        for entry in &node.entries {
            let value = match (&entry.key, property) {
                (Some(key), _) => {
                    let fact = spec.and_then(|spec| spec.properties().find(|fact| *fact.name == *key.text));
                    let key = if known_word(&key.text) { key.text.to_string() } else { self.name(&key.text) };
                    format!("{key}={}", self.value(fact, entry))
                }
                (None, Some(fact)) => self.value(Some(fact), entry),
                (None, None) => self.argument(spec, &mut arguments, entry),
            };
            out.push_str(&format!(" {value}"));
        }
        if node.has_block {
            out.push_str(" {\n");
            for child in &node.children {
                self.node(child, spec, depth + 1, text, out);
            }
            out.push_str(&format!("{indent}}}"));
        }
        out.push('\n');
    }

    /// An argument: the number of a way, the name, or a value by its position.
    fn argument(&mut self, spec: Option<&'static PartSpec>, arguments: &mut Arguments, entry: &Entry) -> String {
        let count = arguments.facts.first().is_some_and(|fact| fact.kind == FactKind::Count);
        if count && matches!(entry.value, Scalar::Whole(_)) {
            arguments.facts.remove(0);
            self.ways += 1;
            return (self.ways - 1).to_string();
        }
        let text = as_text(entry);
        if std::mem::take(&mut arguments.name) {
            return if text == spec::UNKNOWN && !entry.quoted { text } else { self.name(&text) };
        }
        if !entry.quoted && spec.is_some_and(|spec| spec.fillers.contains(&text.as_str())) {
            return text;
        }
        let fact = if arguments.facts.is_empty() { arguments.rest } else { Some(arguments.facts.remove(0)) };
        self.value(fact, entry)
    }

    fn value(&mut self, fact: Option<&'static FactSpec>, entry: &Entry) -> String {
        let text = as_text(entry);
        if !entry.quoted && text == spec::UNKNOWN || matches!(entry.value, Scalar::Flag(_) | Scalar::Null) {
            return entry.written.to_string();
        }
        let written = |text: String| if entry.quoted { quoted(&text) } else { text };
        let Some(fact) = fact else { return self.anything(entry) };
        match fact.kind {
            FactKind::Quantity(_)
            | FactKind::Count
            | FactKind::WireSize
            | FactKind::Cores
            | FactKind::Point
            | FactKind::Box
            | FactKind::Opening
            | FactKind::Date => written(number(fact, &text)),
            FactKind::Flag => {
                if matches!(&*text, "yes" | "no") {
                    written(text)
                } else {
                    self.anything(entry)
                }
            }
            FactKind::Choice(words) | FactKind::ChoiceSet(words) => {
                let known = text.split([',', ' ']).all(|word| word.is_empty() || words.contains(&word));
                if known { written(text) } else { self.anything(entry) }
            }
            FactKind::Part(_) | FactKind::Parts(_) => self.name(&text),
            FactKind::Text => self.free_text(fact, &text),
        }
    }

    /// A value whose meaning is not known.
    fn anything(&mut self, entry: &Entry) -> String {
        match entry.value {
            Scalar::Whole(_) | Scalar::Real(_) => digits(&entry.written, '9'),
            _ => self.name(&as_text(entry)),
        }
    }

    fn free_text(&mut self, fact: &FactSpec, text: &str) -> String {
        let system = vocabulary::systems().iter().any(|system| system.word == text);
        if system || self.packs.rule(text).is_some() {
            return write_name(text);
        }
        // These are names, though they are read as texts.
        if matches!(fact.name, "fed-by" | "on") {
            let names: Vec<String> =
                text.split(',').map(|name| self.name(name.trim())).map(|name| name.replace('"', "")).collect();
            return quoted(&names.join(", "));
        }
        let next = self.texts.len() + 1;
        let number = *self.texts.entry(text.to_owned()).or_insert(next);
        // The ending of a file says what is read from it.
        let ending =
            [".build.kdl", ".parts.kdl", ".rules.kdl", ".kdl"].into_iter().find(|ending| text.ends_with(ending));
        quoted(&format!("text-{number}{}", ending.unwrap_or_default()))
    }

    fn name(&mut self, name: &str) -> String {
        if OWN_NAMES.contains(&name) || vocabulary::part_by_word(name).is_some_and(|part| part.naming == Naming::Never)
        {
            return write_name(name);
        }
        let next = self.names.len() + 1;
        format!("name-{}", self.names.entry(name.to_owned()).or_insert(next))
    }
}

/// The arguments that a part still takes.
struct Arguments {
    name: bool,
    facts: Vec<&'static FactSpec>,
    rest: Option<&'static FactSpec>,
}

impl Arguments {
    fn of(spec: Option<&'static PartSpec>) -> Self {
        let Some(spec) = spec else { return Self { name: false, facts: Vec::new(), rest: None } };
        let mut facts: Vec<(u8, &'static FactSpec)> = Vec::new();
        let mut rest = None;
        for fact in spec.properties() {
            match fact.written {
                Written::Argument(position) => facts.push((position, fact)),
                Written::Rest(_) => rest = Some(fact),
                Written::Property | Written::Not => {}
            }
        }
        facts.sort_by_key(|(position, _)| *position);
        let facts = facts.into_iter().map(|(_, fact)| fact).collect();
        Self { name: spec.naming != Naming::Never, facts, rest }
    }
}

fn known_word(word: &str) -> bool {
    word == "like"
        || vocabulary::part_by_word(word).is_some()
        || vocabulary::part_by_other_word(word).is_some()
        || vocabulary::facts().iter().any(|fact| fact.name == word || fact.also.contains(&word))
}

fn as_text(entry: &Entry) -> String {
    match &entry.value {
        Scalar::Text(text) => text.to_string(),
        _ => entry.written.to_string(),
    }
}

fn quoted(text: &str) -> String {
    // A text of KDL escapes these; a name is written in quotes by its own rules.
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', "\\n"))
}

/// Another number of the same form and unit, which reads as the first one did.
fn number(fact: &FactSpec, text: &str) -> String {
    let wires: &[&str] = match (text.contains("AWG"), text.contains('/')) {
        (true, true) => &["2/0 AWG", "1/0 AWG"],
        (true, false) => &["10 AWG", "12 AWG"],
        (false, _) => &["1.5 mm2", "2.5 mm2", "1.0 mm2"],
    };
    // More than the whole would be another mistake.
    let mut other = match text.trim_end().ends_with('%') {
        true => vec![String::from("99 %"), String::from("11 %")],
        false => vec![digits(text, '9'), digits(text, '1')],
    };
    match fact.kind {
        FactKind::WireSize => other.extend(wires.iter().map(|size| (*size).to_owned())),
        FactKind::Cores => other.extend(wires.iter().map(|size| format!("9 x {size}"))),
        FactKind::Date => other.extend([String::from("1999-09-09"), String::from("1911-11-11")]),
        _ => {}
    }
    // What could not be read may hold a word of someone's.
    if !reads(fact, text) {
        return scrambled(text);
    }
    let found = other.iter().find(|other| *other != text && reads(fact, other));
    found.cloned().unwrap_or_else(|| fact.example.to_owned())
}

fn reads(fact: &FactSpec, text: &str) -> bool {
    match fact.kind {
        FactKind::Quantity(dimension) if fact.signed || dimension.absolute => quantity::read(text, dimension).is_ok(),
        FactKind::Quantity(dimension) => quantity::read_non_negative(text, dimension).is_ok(),
        FactKind::WireSize => quantity::read_wire_size(text).is_ok(),
        FactKind::Cores => quantity::read_cores(text).is_ok(),
        FactKind::Point => quantity::read_point(text).is_ok(),
        FactKind::Box => quantity::read_box(text).is_ok(),
        FactKind::Opening => quantity::read_opening(text).is_ok(),
        FactKind::Count => text.trim().parse::<u32>().is_ok(),
        FactKind::Date => text.parse::<jiff::civil::Date>().is_ok(),
        _ => false,
    }
}

/// The text with each digit replaced, but for those that are part of a unit (`mm2`). Where nothing changes, another digit is
/// taken.
fn digits(text: &str, digit: char) -> String {
    let mut before = ' ';
    let mut replaced = String::new();
    for letter in text.chars() {
        let of_unit = before.is_alphabetic();
        replaced.push(if letter.is_ascii_digit() && !of_unit { digit } else { letter });
        // A unit's power is one digit.
        before = letter;
    }
    if replaced == text && digit == '9' { digits(text, '1') } else { replaced }
}

fn unit_word(word: &str) -> bool {
    quantity::units().iter().any(|unit| {
        unit.symbol == word || unit.identifier == word || unit.also.contains(&word) || unit.slips.contains(&word)
    })
}

/// A text of which only its signs, the lengths of its words, and words of the vocabulary and units are left.
fn scrambled(text: &str) -> String {
    let of_word = |letter: char| letter.is_alphanumeric() || matches!(letter, '-' | '_');
    let mut out = String::new();
    let mut rest = text;
    while !rest.is_empty() {
        let (word, after) = rest.split_at(rest.find(|letter| !of_word(letter)).unwrap_or(rest.len()));
        let (digits, name) = word.split_at(word.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(word.len()));
        out.extend(digits.chars().map(|_| '9'));
        if known_word(name) || unit_word(name) {
            out.push_str(name);
        } else {
            out.extend(name.chars().map(|letter| match letter {
                letter if letter.is_alphabetic() => 'x',
                letter if letter.is_numeric() => '9',
                letter => letter,
            }));
        }
        let (signs, after) = after.split_at(after.find(of_word).unwrap_or(after.len()));
        out.push_str(signs);
        rest = after;
    }
    out
}
