//! One rule file: from its text to a sheet, with every fault at its narrowest place.

use super::embedded::Embedded;
use super::examples;
use super::fault::PackFault;
use super::form::{self, Reader, all, argument, one, place, property_text, text_of};
use super::language::Language;
use super::sheet::{Fixture, RuleSheet, Sheet};
use super::values;
use crate::rule::{Rule, RuleMend, RuleSource};
use crate::signal::{Mark, Region, Signal};
use spec::text::{BlockCache, Node, Unread};
use std::ops::Range;
use vocabulary::{FactKind, PartKind, nearest};

/// The end of a rule file's name.
pub const ENDING: &str = ".rules.kdl";
/// The pack of a rule file that stands in no folder.
const OWN_PACK: &str = "own";

/// Reads one rule file. `path` names its pack and domain: `rules/<pack>/<domain>.rules.kdl`.
pub fn read_sheet(path: &str, text: &str) -> (Sheet, Vec<PackFault>) {
    let (pack, domain) = pack_and_domain(path);
    let mut sheet =
        Sheet { file: path.to_owned(), pack, domain, names: Vec::new(), fixtures: Vec::new(), rules: Vec::new() };
    let mut reader = Reader { file: path, text, faults: Vec::new() };
    let document = spec::text::read(text, &mut BlockCache::new());
    for fault in &document.faults {
        reader.fault(place(&fault.at), fault.message.as_str(), fault.help.as_str());
    }
    reader.block(&document.nodes, form::TOP);
    for node in document.nodes.iter().filter(|node| node.unread != Unread::Itself) {
        match &*node.name.text {
            "fixture" => fixture(&mut reader, node, &mut sheet),
            "rule" => {
                sheet.names.extend(argument(node, 0).map(|(name, at)| (name.to_owned(), at)));
                if let Some(rule) = rule(&mut reader, node, &sheet) {
                    sheet.rules.push(rule);
                }
            }
            _ => {}
        }
    }
    examples::check_fixtures(&mut reader, &document.nodes, &sheet);
    reader.faults.sort_by_key(|fault| (fault.at.start, fault.at.end));
    (sheet, reader.faults)
}

/// The pack and the domain that a path names.
fn pack_and_domain(path: &str) -> (String, String) {
    let mut folders = path.rsplit(['/', '\\']);
    let name = folders.next().unwrap_or(path);
    let pack = folders.next().filter(|folder| !matches!(*folder, "" | "." | "..")).unwrap_or(OWN_PACK);
    (pack.to_owned(), name.strip_suffix(ENDING).unwrap_or(name).to_owned())
}

fn fixture(reader: &mut Reader, node: &Node, sheet: &mut Sheet) {
    let (Some((name, name_at)), Some((text, at))) = (argument(node, 0), argument(node, 1)) else {
        return;
    };
    if sheet.fixtures.iter().any(|fixture| fixture.name == name) {
        reader.fault(name_at, format!("the fixture \"{name}\" stands twice"), "Give one of them another name.");
        return;
    }
    let text = Embedded::new(reader.text, at, text);
    sheet.fixtures.push(Fixture { name: name.to_owned(), text });
}

/// What is written alike in every rule, found while reading or judged.
fn rule(reader: &mut Reader, node: &Node, sheet: &Sheet) -> Option<RuleSheet> {
    let before = reader.faults.len();
    let (name, name_at) = argument(node, 0)?;
    check_name(reader, name, &name_at, &sheet.domain);
    let signal = signal(reader, node);
    let found = found_while_reading(reader, node);
    let about = about(reader, node, &name_at, found);
    let title = reader.required(node, "title", &name_at).map(|(text, _)| text.to_owned());
    let why = reader.required(node, "why", &name_at).map(|(text, _)| text.to_owned());
    let remedy = reader.required(node, "remedy", &name_at);
    let caution = caution(reader, node, signal, &name_at);
    let sources = sources(reader, node, &name_at);
    let classes = classes(reader, node);
    let once_per = about.and_then(|about| once_per(reader, node, about));
    let leaders = one(node, "follows").into_iter().flat_map(form::arguments);
    let follows: Vec<(String, Range<usize>)> =
        leaders.filter_map(|entry| Some((text_of(entry)?.to_owned(), place(&entry.value_at)))).collect();

    // A kind that is unknown leaves nothing to check the expressions against.
    let compile = about.is_some();
    let kind = about.unwrap_or(vocabulary::kind::BUILD);
    let (values, figures) = values::read(reader, node, kind, &sheet.pack);
    let language = Language::new(kind, &values, &figures);
    let embed = |reader: &Reader, (text, at): (&str, Range<usize>)| Embedded::new(reader.text, at, text);
    let remedy = remedy.map(|found| embed(reader, found));
    let remedy = remedy.and_then(|remedy| compile.then(|| language.template(reader, &remedy)).flatten());

    let (mut when, mut must, mut tell) = (None, None, language.empty_template());
    let (mut when_text, mut must_text) = (None, None);
    if found {
        for word in ["value", "when", "must", "tell", "impossible", "mend", "follows", "once-per"] {
            if let Some(line) = one(node, word) {
                let message = format!("a rule that is found while reading has no `{word}`");
                reader.fault(place(&line.name.at), message, "Take it away, or take `found=reading` away.");
            }
        }
    } else {
        when_text = one(node, "when").and_then(|line| argument(line, 0)).map(|found| embed(reader, found));
        must_text = reader.required(node, "must", &name_at).map(|found| embed(reader, found));
        let tell_text = reader.required(node, "tell", &name_at).map(|found| embed(reader, found));
        tell = None;
        if compile {
            when = when_text.as_ref().and_then(|text| language.expression(reader, text));
            must = must_text.as_ref().and_then(|text| language.expression(reader, text));
            tell = tell_text.as_ref().and_then(|text| language.template(reader, text));
        }
        // A fault may be all that keeps a value from being used: its own name, or a name in an expression.
        if reader.faults.len() == before {
            let expressions = [&when, &must].into_iter().flatten();
            let used: Vec<_> = expressions.flat_map(|expression| expression.value_uses()).cloned().collect();
            values::check_used(reader, &values, &figures, &used);
        }
    }
    let mend = about.and_then(|about| mend(reader, node, about));
    let impossible = examples::impossible(reader, node);
    let examples = examples::read(reader, node);
    let shown_by_test = examples::shown_by_test(reader, node, found, &examples);
    examples::check_changes(reader, node);
    if found {
        examples::check_found(reader, &examples);
    }
    // A test that is named wrongly is a fault of its own; it does not ask for an example as well.
    if node.unread == Unread::No
        && examples.len() == all(node, "example").count()
        && one(node, "shown-by-test").is_none()
    {
        let threshold = [&when_text, &must_text].into_iter().flatten().any(|text| text.text.contains(['<', '>']));
        examples::check_enough(reader, &examples, &name_at, found, threshold);
    }
    // A rule with a fault is left out; what is wrong with it is told, and the pack is refused as a whole.
    if reader.faults.len() > before {
        return None;
    }
    let rule = Rule {
        name: name.to_owned(),
        pack: sheet.pack.clone(),
        signal: signal?,
        about: about?.0,
        classes,
        found_while_reading: found,
        title: title?,
        values,
        when,
        must,
        tell: tell?,
        why: why?,
        remedy: remedy?,
        mend,
        caution,
        follows: follows.iter().map(|(name, _)| name.clone()).collect(),
        once_per,
        sources,
    };
    Some(RuleSheet {
        rule,
        name_at,
        follows,
        figures,
        when: when_text,
        must: must_text,
        impossible,
        examples,
        shown_by_test,
    })
}

/// The fact that names the part a builder would mend.
fn once_per(reader: &mut Reader, rule: &Node, about: PartKind) -> Option<u16> {
    let (name, at) = one(rule, "once-per").and_then(|line| argument(line, 0))?;
    let spec = vocabulary::part(about);
    let parts = || spec.facts().iter().filter(|fact| matches!(fact.kind, FactKind::Part(_)));
    match parts().find(|fact| fact.name.replace('-', "_") == name) {
        Some(fact) => Some(fact.id.0),
        None => {
            let known: Vec<String> = parts().map(|fact| fact.name.replace('-', "_")).collect();
            let known: Vec<&str> = known.iter().map(String::as_str).collect();
            reader.unknown(at, &format!("part that a {} names", spec.word), name, &known);
            None
        }
    }
}

fn check_name(reader: &mut Reader, name: &str, at: &Range<usize>, domain: &str) {
    let is_word = |word: &str| {
        word.starts_with(|first: char| first.is_ascii_lowercase())
            && !word.ends_with('-')
            && !word.contains("--")
            && word.chars().all(|letter| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-')
    };
    match name.split_once('/') {
        Some((own, what)) if is_word(own) && is_word(what) => {
            if own != domain {
                let message = format!("the rule stands in the file of `{domain}`, its name says `{own}`");
                reader.fault(at.clone(), message, format!("Name it \"{domain}/{what}\", or move it to {own}{ENDING}."));
            }
        }
        _ => reader.fault(
            at.clone(),
            format!("\"{name}\" is no rule name"),
            format!("A name says domain and what is wrong, in small letters: \"{domain}/what-is-wrong\"."),
        ),
    }
}

fn words<T: Copy>(all: &[T], word: impl Fn(T) -> &'static str) -> Vec<&'static str> {
    all.iter().map(|each| word(*each)).collect()
}

fn signal(reader: &mut Reader, node: &Node) -> Option<Signal> {
    let (word, at) = argument(node, 1)?;
    let signal = Signal::from_word(word);
    if signal.is_none() {
        reader.unknown(at, "signal word", word, &words(Signal::ALL, Signal::word));
    }
    signal
}

fn found_while_reading(reader: &mut Reader, node: &Node) -> bool {
    let Some((word, at)) = property_text(node, "found") else {
        return false;
    };
    if word != "reading" {
        reader.unknown(at, "way to find something", word, &["reading"]);
    }
    true
}

/// The kind of part that the rule is about; the build itself for what is found while reading.
fn about(reader: &mut Reader, node: &Node, name_at: &Range<usize>, found: bool) -> Option<PartKind> {
    let Some((word, at)) = property_text(node, "about") else {
        if !found {
            reader.fault(name_at.clone(), "the rule does not say what it is about", "Add `about=` and a part kind.");
            return None;
        }
        return Some(vocabulary::kind::BUILD);
    };
    if found {
        reader.fault(at, "a rule that is found while reading is about no part kind", "Take `about=` away.");
        return None;
    }
    match vocabulary::part_by_word(word) {
        Some(part) => Some(part.kind),
        None => {
            let known: Vec<&str> = vocabulary::parts().iter().map(|part| part.word).collect();
            let near = nearest(word, known.iter().copied())
                .or_else(|| vocabulary::part_by_other_word(word).map(|part| part.word));
            let help = match near {
                Some(near) => format!("Did you mean `{near}`?"),
                None => "The vocabulary lists the part kinds.".to_owned(),
            };
            reader.fault(at, format!("no part kind is called `{word}`"), help);
            None
        }
    }
}

fn caution(reader: &mut Reader, node: &Node, signal: Option<Signal>, at: &Range<usize>) -> Option<String> {
    if one(node, "caution").is_none() && signal.is_none_or(|signal| signal < Signal::Warning) {
        return None;
    }
    reader.required(node, "caution", at).map(|(text, _)| text.to_owned())
}

fn classes(reader: &mut Reader, node: &Node) -> Vec<String> {
    let known = vocabulary::fact_spec(vocabulary::fact::vehicle::CLASS).choices();
    let mut classes: Vec<String> = Vec::new();
    for entry in one(node, "classes").into_iter().flat_map(form::arguments) {
        let Some(word) = text_of(entry) else { continue };
        if !known.contains(&word) {
            reader.unknown(place(&entry.value_at), "vehicle class", word, known);
        } else if classes.iter().any(|class| class == word) {
            reader.fault(place(&entry.value_at), format!("`{word}` stands twice"), "Keep one of the two.");
        } else {
            classes.push(word.to_owned());
        }
    }
    classes
}

fn sources(reader: &mut Reader, node: &Node, name_at: &Range<usize>) -> Vec<RuleSource> {
    let mut sources = Vec::new();
    for line in all(node, "source") {
        let Some((document, at)) = argument(line, 0) else {
            continue;
        };
        let mark = match property_text(line, "mark") {
            None => {
                let known = words(Mark::ALL, Mark::word).join(", ");
                let help = format!("Add `mark=`: {known}.");
                reader.fault(at.clone(), "the source does not say how well it is known", help);
                None
            }
            Some((word, at)) => {
                let mark = Mark::from_word(word);
                if mark.is_none() {
                    reader.unknown(at, "evidence mark", word, &words(Mark::ALL, Mark::word));
                }
                mark
            }
        };
        // A habit of the trade and a threshold of our own have no edition.
        let has_edition = !matches!(mark, None | Some(Mark::CommonPractice | Mark::Chosen | Mark::Computed));
        if has_edition && property_text(line, "edition").is_none() {
            reader.fault(at, "the source has no edition", "Add `edition=`: a year, an amendment, the day it was read.");
        }
        let regions = regions(reader, line);
        let text = |key| property_text(line, key).map(|(text, _)| text.to_owned());
        sources.extend(mark.map(|mark| RuleSource {
            document: document.to_owned(),
            place: text("place").unwrap_or_default(),
            edition: text("edition").unwrap_or_default(),
            mark,
            address: text("address"),
            note: text("note"),
            regions,
        }));
    }
    if one(node, "source").is_none() && node.unread == Unread::No {
        let help = "Add `source \"document\" place=\"clause\" edition=\"edition\" mark=read`.";
        reader.fault(name_at.clone(), "the rule has no source", help);
    }
    sources
}

/// The regions that a source speaks for: `regions="us eu"`.
fn regions(reader: &mut Reader, line: &Node) -> Vec<Region> {
    let Some((list, at)) = property_text(line, "regions") else {
        return Vec::new();
    };
    let list = Embedded::new(reader.text, at, list);
    let mut regions = Vec::new();
    let mut offset = 0;
    for word in list.text.split(' ') {
        let bytes = offset..offset + word.len();
        offset = bytes.end + 1;
        match Region::from_word(word) {
            Some(region) => regions.push(region),
            None if word.is_empty() => {}
            None => reader.unknown(list.place(&bytes), "region", word, &words(Region::ALL, Region::word)),
        }
    }
    regions
}

fn mend(reader: &mut Reader, node: &Node, about: PartKind) -> Option<RuleMend> {
    let line = one(node, "mend")?;
    let written = "It is written `mend write edge=grommet`.";
    let mut keyed = line.entries.iter().filter(|entry| entry.key.is_some());
    let (Some(entry), None) = (keyed.next(), keyed.next()) else {
        reader.fault(place(&line.at), "a mend writes exactly one property", written);
        return None;
    };
    let key = entry.key.as_ref()?;
    let spec = vocabulary::part(about);
    // Rules are often about what the linker makes of a part: then the property is one of the part as it is written, which
    // is known only where a finding stands.
    let known: Vec<&vocabulary::FactSpec> = match spec.family {
        vocabulary::Family::Worked => vocabulary::facts().iter().filter(|fact| fact.given).collect(),
        _ => spec.properties().collect(),
    };
    let named: Vec<_> = known.iter().filter(|fact| fact.name == &*key.text).collect();
    if named.is_empty() {
        let near = nearest(&key.text, known.iter().map(|fact| fact.name));
        let help = near.map_or_else(|| written.to_owned(), |near| format!("Did you mean `{near}`?"));
        reader.fault(place(&key.at), format!("`{}` is no property that can be written", key.text), help);
        return None;
    }
    let value = text_of(entry)?;
    let choices: Vec<&str> = named.iter().flat_map(|fact| fact.choices()).copied().collect();
    if !choices.is_empty() && !choices.contains(&value) {
        reader.unknown(place(&entry.value_at), &format!("value of `{}`", key.text), value, &choices);
    }
    Some(RuleMend::Write { property: key.text.to_string(), value: value.to_owned() })
}
