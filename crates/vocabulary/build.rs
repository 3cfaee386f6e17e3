//! Reads `parts/*.vocabulary.kdl` and writes the static tables of the vocabulary as Rust source.
//! A fault in the data stops the build with the file, the part and what is wrong.

use kdl::{KdlDocument, KdlNode, KdlValue};
use std::collections::{BTreeMap, BTreeSet};
use std::error::Error;
use std::fmt::Write as _;
use std::path::Path;

type Outcome<T> = Result<T, Box<dyn Error>>;

/// One part kind as the data files say it.
struct Part {
    word: String,
    node: KdlNode,
    facts: Vec<KdlNode>,
}

fn main() -> Outcome<()> {
    println!("cargo::rerun-if-changed=parts");
    println!("cargo::rerun-if-changed=build.rs");
    let mut files: Vec<_> = std::fs::read_dir("parts")?.collect::<Result<_, _>>()?;
    files.sort_by_key(|file| file.file_name());
    let mut groups: BTreeMap<String, Vec<KdlNode>> = BTreeMap::new();
    let mut parts: Vec<Part> = Vec::new();
    let mut systems: Vec<KdlNode> = Vec::new();
    let mut above_zero: BTreeSet<(String, String)> = BTreeSet::new();
    let mut at_most_whole: BTreeSet<(String, String)> = BTreeSet::new();
    for file in files {
        let path = file.path();
        let text = std::fs::read_to_string(&path)?;
        let document: KdlDocument = text
            .parse()
            .map_err(|fault: kdl::KdlError| format!("{}: {:?}", path.display(), fault.diagnostics.first()))?;
        for node in document.nodes() {
            match node.name().value() {
                "group" => {
                    groups.insert(argument(node, 0)?, lines(node).cloned().collect());
                }
                "part" => parts.push(Part {
                    word: argument(node, 0)?,
                    facts: lines(node).cloned().collect(),
                    node: node.clone(),
                }),
                "system" => systems.push(node.clone()),
                "above-zero" => above_zero.extend(named_facts(node)?),
                "at-most-whole" => at_most_whole.extend(named_facts(node)?),
                other => return Err(format!("{}: unknown word {other}", path.display()).into()),
            }
        }
    }
    for part in &mut parts {
        part.facts = expand(std::mem::take(&mut part.facts), &groups, 0)
            .map_err(|fault| format!("part {}: {fault}", part.word))?;
    }
    let source = Writer::new(&parts, above_zero, at_most_whole)?.write(&parts, &systems)?;
    let target = Path::new(&std::env::var("OUT_DIR")?).join("tables.rs");
    std::fs::write(target, source)?;
    Ok(())
}

/// The deepest that groups may use groups.
const DEEPEST_GROUP: usize = 4;

/// Puts the lines of a group where `like GROUP` stands.
fn expand(facts: Vec<KdlNode>, groups: &BTreeMap<String, Vec<KdlNode>>, depth: usize) -> Outcome<Vec<KdlNode>> {
    if depth > DEEPEST_GROUP {
        return Err("groups use each other in a circle".into());
    }
    let mut expanded = Vec::new();
    for fact in facts {
        if fact.name().value() == "like" {
            let group = argument(&fact, 0)?;
            let shared = groups.get(&group).ok_or_else(|| format!("unknown group {group}"))?;
            expanded.extend(expand(shared.clone(), groups, depth + 1)?);
        } else {
            expanded.push(fact);
        }
    }
    Ok(expanded)
}

/// Turns the parts into Rust source; knows the number of each kind and fact.
struct Writer {
    kinds: BTreeMap<String, usize>,
    facts: BTreeMap<(String, String), usize>,
    /// Part and fact of what cannot be zero.
    above_zero: BTreeSet<(String, String)>,
    /// Part and fact of what is a part of a whole, so that it is 100 % at most.
    at_most_whole: BTreeSet<(String, String)>,
}

impl Writer {
    fn new(
        parts: &[Part],
        above_zero: BTreeSet<(String, String)>,
        at_most_whole: BTreeSet<(String, String)>,
    ) -> Outcome<Self> {
        let mut writer = Self { kinds: BTreeMap::new(), facts: BTreeMap::new(), above_zero, at_most_whole };
        let mut number = 0;
        for (index, part) in parts.iter().enumerate() {
            if writer.kinds.insert(part.word.clone(), index).is_some() {
                return Err(format!("part {} stands twice", part.word).into());
            }
            for fact in &part.facts {
                let name = argument(fact, 0)?;
                if writer.facts.insert((part.word.clone(), name.clone()), number).is_some() {
                    return Err(format!("part {}: fact {name} stands twice", part.word).into());
                }
                number += 1;
            }
        }
        let mut named = writer.above_zero.iter().chain(&writer.at_most_whole);
        if let Some((part, name)) = named.find(|named| !writer.facts.contains_key(named)) {
            return Err(format!("above-zero or at-most-whole: no fact {part}.{name}").into());
        }
        Ok(writer)
    }

    fn kind(&self, word: &str) -> Outcome<usize> {
        Ok(*self.kinds.get(word).ok_or_else(|| format!("no part is called {word}"))?)
    }

    fn kind_list(&self, words: &str) -> Outcome<String> {
        let numbers: Vec<String> = words
            .split_whitespace()
            .map(|word| self.kind(word).map(|kind| format!("PartKind({kind})")))
            .collect::<Outcome<_>>()?;
        Ok(format!("&[{}]", numbers.join(", ")))
    }

    fn write(&self, parts: &[Part], systems: &[KdlNode]) -> Outcome<String> {
        let mut out = String::new();
        let mut part_rows = String::new();
        let mut fact_rows = String::new();
        let mut kind_names = String::new();
        let mut fact_names = String::new();
        let mut number = 0;
        for (index, part) in parts.iter().enumerate() {
            let first = number;
            writeln!(kind_names, "pub const {}: PartKind = PartKind({index});", constant(&part.word))?;
            writeln!(
                fact_names,
                "pub mod {} {{ #[allow(unused_imports)] use super::super::super::model::FactId;",
                module(&part.word)
            )?;
            for fact in &part.facts {
                let name = argument(fact, 0)?;
                writeln!(fact_names, "pub const {}: FactId = FactId({number});", constant(&name))?;
                fact_rows.push_str(
                    &self
                        .fact_row(fact, &part.word, index, number)
                        .map_err(|fault| format!("part {}, {name}: {fault}", part.word))?,
                );
                number += 1;
            }
            fact_names.push_str("}\n");
            part_rows.push_str(
                &self
                    .part_row(part, parts, index, first, number - first)
                    .map_err(|fault| format!("part {}: {fault}", part.word))?,
            );
        }
        writeln!(out, "pub static PARTS: &[PartSpec] = &[\n{part_rows}];")?;
        writeln!(out, "pub static FACTS: &[FactSpec] = &[\n{fact_rows}];")?;
        writeln!(out, "pub static SYSTEMS: &[SystemSpec] = &[")?;
        for system in systems {
            let mut described = Vec::new();
            for line in lines(system) {
                let word = argument(line, 0)?;
                let when = match line.entries().iter().find(|entry| entry.name().is_some()) {
                    Some(entry) => {
                        let name = entry.name().map(|name| name.value().to_owned()).unwrap_or_default();
                        let fact = self
                            .facts
                            .get(&(word.clone(), name.clone()))
                            .ok_or_else(|| format!("system: no fact {word}.{name}"))?;
                        format!("Some((FactId({fact}), {}))", words(&text_of(entry.value())?))
                    }
                    None => "None".to_owned(),
                };
                described.push(format!("DescribedBy {{ kind: PartKind({}), when: {when} }}", self.kind(&word)?));
            }
            writeln!(
                out,
                "SystemSpec {{ word: {:?}, help: {:?}, described_by: &[{}] }},",
                argument(system, 0)?,
                property(system, "help").ok_or("a system needs help=")?,
                described.join(", ")
            )?;
        }
        writeln!(out, "];")?;
        writeln!(
            out,
            "/// The number of each part kind by its word.\npub mod kind {{ use super::super::model::PartKind;\n{kind_names}}}"
        )?;
        writeln!(out, "/// The number of each fact by part kind and name.\npub mod fact {{\n{fact_names}}}")?;
        Ok(out)
    }

    fn part_row(&self, part: &Part, parts: &[Part], index: usize, first: usize, count: usize) -> Outcome<String> {
        let node = &part.node;
        let family = match argument(node, 1)?.as_str() {
            "thing" => "Thing",
            "run" => "Run",
            "piece" => "Piece",
            "place" => "Place",
            "setting" => "Setting",
            "worked" => "Worked",
            other => return Err(format!("unknown family {other}").into()),
        };
        let naming = match property(node, "named").as_deref() {
            Some("required") => "Required",
            Some("optional") => "Optional",
            Some("refers") => "Refers",
            Some("never") | None => "Never",
            Some(other) => return Err(format!("unknown naming {other}").into()),
        };
        let inside = property(node, "in").unwrap_or_default();
        let top = inside.split_whitespace().any(|word| word == "file");
        // Each part says where it may stand; the table says what each part may contain.
        let contains: Vec<String> = parts
            .iter()
            .enumerate()
            .filter(|(_, other)| {
                property(&other.node, "in")
                    .is_some_and(|places| places.split_whitespace().any(|place| place == part.word))
            })
            .map(|(other, _)| format!("PartKind({other})"))
            .collect();
        for place in inside.split_whitespace().filter(|place| *place != "file") {
            self.kind(place)?;
        }
        Ok(format!(
            "PartSpec {{ kind: PartKind({index}), word: {:?}, family: Family::{family}, naming: Naming::{naming}, top: {top}, contains: &[{}], first_fact: {first}, fact_count: {count}, fillers: {}, help: {:?}, example: {:?}, also: {} }},\n",
            part.word,
            contains.join(", "),
            words(&property(node, "fillers").unwrap_or_default()),
            property(node, "help").ok_or("a part needs help=")?,
            property(node, "example").unwrap_or_default(),
            other_words(node),
        ))
    }

    fn fact_row(&self, fact: &KdlNode, word: &str, part: usize, number: usize) -> Outcome<String> {
        let name = argument(fact, 0)?;
        let above_zero = self.above_zero.contains(&(word.to_owned(), name.clone()));
        let at_most_whole = self.at_most_whole.contains(&(word.to_owned(), name.clone()));
        let given = match fact.name().value() {
            "property" | "argument" | "arguments" => true,
            "worked" => false,
            other => return Err(format!("unknown word {other}").into()),
        };
        let kind = self.fact_kind(fact)?;
        let written = match fact.name().value() {
            "property" => "Written::Property".to_owned(),
            "argument" => format!("Written::Argument({})", property(fact, "position").unwrap_or("0".to_owned())),
            "arguments" => format!("Written::Rest({})", property(fact, "position").unwrap_or("0".to_owned())),
            _ => "Written::Not".to_owned(),
        };
        let absent = match (property(fact, "absent").as_deref(), property(fact, "means"), property(fact, "assume")) {
            (Some("required"), None, None) => "Absent::Required".to_owned(),
            (None, Some(value), None) => format!("Absent::Means({value:?})"),
            (None, None, Some(value)) => format!(
                "Absent::Assume {{ value: {value:?}, source: {:?}, mark: {:?} }}",
                property(fact, "source").ok_or("an assumed value needs source=")?,
                property(fact, "mark").ok_or("an assumed value needs mark=")?,
            ),
            (None, None, None) => "Absent::Unknown".to_owned(),
            _ => return Err("say one of absent=required, means= and assume=".into()),
        };
        let axes: u8 = property(fact, "axes")
            .unwrap_or_default()
            .split_whitespace()
            .map(|axis| match axis {
                "mode" => Ok(1),
                "climate" => Ok(2),
                "fill" => Ok(4),
                other => Err(format!("unknown axis {other}")),
            })
            .sum::<Result<u8, String>>()?;
        let worst = match property(fact, "worst").as_deref() {
            Some("most") => "Most",
            Some("least") => "Least",
            None => "Neither",
            Some(other) => return Err(format!("unknown worst {other}").into()),
        };
        let example = property(fact, "example").unwrap_or_default();
        if given
            && example.is_empty()
            && !matches!(kind.split_once('('), Some(("FactKind::Choice" | "FactKind::ChoiceSet", _)) | None)
        {
            return Err("a given fact needs example=".into());
        }
        Ok(format!(
            "FactSpec {{ id: FactId({number}), part: PartKind({part}), name: {name:?}, kind: {kind}, given: {given}, written: {written}, absent: {absent}, signed: {}, above_zero: {above_zero}, at_most_whole: {at_most_whole}, axes: Axes({axes}), worst: Worst::{worst}, help: {:?}, example: {example:?}, also: {} }},\n",
            property(fact, "signed").as_deref() == Some("yes"),
            property(fact, "help").ok_or("a fact needs help=")?,
            other_words(fact),
        ))
    }

    fn fact_kind(&self, fact: &KdlNode) -> Outcome<String> {
        for entry in fact.entries() {
            let Some(key) = entry.name() else { continue };
            let value = text_of(entry.value())?;
            let kind = match key.value() {
                "quantity" => format!("FactKind::Quantity(Dimension::{})", dimension(&value)?),
                "choice" => format!("FactKind::Choice({})", words(&value)),
                "choices" => format!("FactKind::ChoiceSet({})", words(&value)),
                "part" => format!("FactKind::Part({})", self.kind_list(&value)?),
                "parts" => format!("FactKind::Parts({})", self.kind_list(&value)?),
                "type" => match value.as_str() {
                    "flag" => "FactKind::Flag",
                    "text" => "FactKind::Text",
                    "date" => "FactKind::Date",
                    "count" => "FactKind::Count",
                    "wire-size" => "FactKind::WireSize",
                    "cores" => "FactKind::Cores",
                    "point" => "FactKind::Point",
                    "box" => "FactKind::Box",
                    "opening" => "FactKind::Opening",
                    other => return Err(format!("unknown type {other}").into()),
                }
                .to_owned(),
                _ => continue,
            };
            return Ok(kind);
        }
        Err("a fact needs quantity=, choice=, choices=, part=, parts= or type=".into())
    }
}

/// The constants of `quantity::Dimension`, by the word that the data use.
fn dimension(word: &str) -> Outcome<String> {
    const KNOWN: [&str; 27] = [
        "ratio",
        "length",
        "area",
        "volume",
        "mass",
        "time",
        "current",
        "voltage",
        "power",
        "energy",
        "charge",
        "resistance",
        "temperature",
        "temperature-difference",
        "pressure",
        "flow",
        "force",
        "acceleration",
        "angle",
        "conductivity",
        "u-value",
        "frequency",
        "money",
        "temperature-coefficient",
        "mass-flow",
        "area-mass",
        "speed",
    ];
    if KNOWN.contains(&word) { Ok(constant(word)) } else { Err(format!("unknown dimension {word}").into()) }
}

/// Part and fact of each word behind the first.
fn named_facts(node: &KdlNode) -> Outcome<Vec<(String, String)>> {
    let part = argument(node, 0)?;
    node.entries().iter().skip(1).map(|entry| Ok((part.clone(), text_of(entry.value())?))).collect()
}

fn lines(node: &KdlNode) -> impl Iterator<Item = &KdlNode> {
    node.children().into_iter().flat_map(|children| children.nodes())
}

fn argument(node: &KdlNode, position: usize) -> Outcome<String> {
    node.entries()
        .iter()
        .filter(|entry| entry.name().is_none())
        .nth(position)
        .ok_or_else(|| format!("{} lacks argument {position}", node.name().value()).into())
        .and_then(|entry| text_of(entry.value()))
}

fn property(node: &KdlNode, key: &str) -> Option<String> {
    node.get(key).and_then(|value| text_of(value).ok())
}

fn text_of(value: &KdlValue) -> Outcome<String> {
    match value {
        KdlValue::String(text) => Ok(text.clone()),
        KdlValue::Integer(number) => Ok(number.to_string()),
        other => Err(format!("a word or text is due, not {other}").into()),
    }
}

fn words(list: &str) -> String {
    let quoted: Vec<String> = list.split_whitespace().map(|word| format!("{word:?}")).collect();
    format!("&[{}]", quoted.join(", "))
}

/// The trade's other words, separated by semicolons since they may hold blanks.
fn other_words(node: &KdlNode) -> String {
    let list = property(node, "also").unwrap_or_default();
    let quoted: Vec<String> =
        list.split(';').map(str::trim).filter(|word| !word.is_empty()).map(|word| format!("{word:?}")).collect();
    format!("&[{}]", quoted.join(", "))
}

fn constant(word: &str) -> String {
    word.replace('-', "_").to_uppercase()
}

fn module(word: &str) -> String {
    word.replace('-', "_")
}
