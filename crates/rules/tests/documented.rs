//! Every finding can be looked up: each name under which the reader, the linker and the waiver check find something is a
//! rule of `rules/`, and each such rule is found by something.

use rules::pack::{Action, Example, Packs, Sheet, compile, read_sheets};
use rules::prove::{Bench as _, Workshop};
use rules::review::{ReviewOptions, Today, review, review_build};
use rules::signal::Signal;
use spec::text::{FaultKind, LARGEST, read_bytes};
use spec::{LoadFault, Loaded, Loader};
use std::collections::{BTreeMap, BTreeSet};
use std::error::Error;
use std::path::{Path, PathBuf};

type Outcome<T = ()> = Result<T, Box<dyn Error>>;

/// The folders whose sources find things while they read, link and weigh waivers; from this crate's folder.
const SOURCES: [&str; 3] = ["../spec/src", "../design/src", "src"];
/// The rule files, from this crate's folder.
const RULES: &str = "../../rules";
/// How a source begins to say that it found something.
const FOUND: &str = "Slip::new(";
/// The day on which examples of waivers are read: their own days lie decades off to either side.
const TODAY: jiff::civil::Date = jiff::civil::date(2026, 1, 1);

#[test]
fn every_finding_of_the_reader_is_documented() -> Outcome {
    let documented = documented()?;
    let lacking: Vec<String> = named_in_sources()?
        .into_iter()
        .filter(|(name, _)| !documented.contains(name))
        .map(|(name, file)| format!("{name} ({})", file.display()))
        .collect();
    assert!(lacking.is_empty(), "no rule found=reading documents: {}", lacking.join(", "));
    Ok(())
}

#[test]
fn every_documented_finding_is_found_by_something() -> Outcome {
    let named = named_in_sources()?;
    let idle: Vec<String> = documented()?.into_iter().filter(|name| !named.contains_key(name)).collect();
    assert!(idle.is_empty(), "no source finds: {}", idle.join(", "));
    Ok(())
}

#[test]
fn a_mended_example_has_no_other_slip() -> Outcome {
    let files = files()?;
    let workshop = Workshop::with(compiled(&files)?);
    let mut wrong = Vec::new();
    for sheet in sheets(&files) {
        for rule in sheet.rules.iter().filter(|rule| rule.rule.found_while_reading) {
            for example in rule.examples.iter().filter(|example| example.expected.word() == "holds") {
                let text = text_of(&sheet, example);
                for found in workshop.found(&workshop.read(&text)) {
                    wrong.push(format!("{}, \"{}\": {}", rule.rule.name, example.title, found.message));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}

#[test]
fn the_examples_of_waivers_are_found_in_a_review() -> Outcome {
    let files = files()?;
    let packs = compiled(&files)?;
    let options = ReviewOptions { today: Today::Is(TODAY), draft: false };
    let (mut wrong, mut examples) = (Vec::new(), 0);
    for sheet in sheets(&files).iter().filter(|sheet| sheet.domain == "waiver") {
        for rule in &sheet.rules {
            for example in &rule.examples {
                examples += 1;
                let review = review_build(&Workshop::default().read(&text_of(sheet, example)), &packs, options);
                let found: Vec<&str> = review
                    .failed
                    .iter()
                    .map(|finding| &*finding.rule)
                    .filter(|rule| rule.starts_with("waiver/"))
                    .collect();
                let expected: &[&str] = if example.expected.word() == "fails" { &[&rule.rule.name] } else { &[] };
                if found != expected {
                    wrong.push(format!("{}, \"{}\": {found:?}", rule.rule.name, example.title));
                }
                // A waiver without fault takes its finding out of the failed ones.
                if expected.is_empty() && review.waived.len() != 1 {
                    wrong.push(format!("{}, \"{}\": accepts {}", rule.rule.name, example.title, review.waived.len()));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(examples > 0, "the waivers have no example");
    Ok(())
}

/// Files by name; a name that stands for no file is refused, and bytes that are no text are told as such.
struct Table(Vec<(&'static str, Vec<u8>)>);

impl Loader for Table {
    fn load(&self, _: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let file = self.0.iter().find(|(known, _)| *known == name);
        let (_, bytes) = file.ok_or_else(|| LoadFault::Refused("there is no such file".to_owned()))?;
        let text = read_bytes(bytes).map_err(LoadFault::NotText)?;
        Ok(Loaded { name: name.to_owned(), text: text.to_owned() })
    }
}

#[test]
fn what_no_example_can_hold_is_found_in_a_review() -> Outcome {
    let packs = compiled(&files()?)?;
    let options = ReviewOptions { today: Today::Is(TODAY), draft: false };
    let build = |end: &str| format!("build Bramble {{ stage draft; basis eu; {end} }}\n").into_bytes();
    let cases = [
        ("text/not-utf8", "bytes of another encoding", vec![("van.kdl", b"zone cabin note=\"caf\xE9\"\n".to_vec())]),
        (
            "text/not-utf8",
            "a file of another encoding is included",
            vec![("van.kdl", build("include galley.kdl")), ("galley.kdl", b"zone cabin note=\"caf\xE9\"\n".to_vec())],
        ),
        ("text/too-large", "a byte too many", vec![("van.kdl", vec![b' '; LARGEST + 1])]),
        ("text/include-in-a-circle", "a file includes itself", vec![("van.kdl", build("include van.kdl"))]),
        (
            "names/build-in-include",
            "an included file describes a build",
            vec![
                ("van.kdl", build("include trailer.build.kdl")),
                ("trailer.build.kdl", b"build Thicket { stage draft; basis us; }\nzone cabin kind=living\n".to_vec()),
            ],
        ),
        (
            "names/build-in-include",
            "a parts file describes a build",
            vec![
                ("van.kdl", build("include shop.parts.kdl")),
                ("shop.parts.kdl", b"build Shop { stage draft; basis us; }\nlamp spot power=\"5 W\"\n".to_vec()),
            ],
        ),
        (
            "text/include-in-a-circle",
            "two files include each other",
            vec![
                ("van.kdl", build("include galley.kdl")),
                ("galley.kdl", b"include van.kdl\nzone cabin kind=living\n".to_vec()),
            ],
        ),
    ];
    let mut shown = BTreeSet::new();
    for (rule, title, files) in cases {
        let review = review(&Table(files), "van.kdl", &packs, options);
        let found: Vec<(&str, Signal)> = review
            .failed
            .iter()
            .filter(|finding| finding.rule.starts_with("text/") || finding.rule.starts_with("names/"))
            .map(|finding| (&*finding.rule, finding.signal))
            .collect();
        let signal = packs.rule(rule).map(|rule| rule.signal);
        assert_eq!(found, [(rule, signal.unwrap_or(Signal::Danger))], "{title}");
        shown.insert(rule.to_owned());
    }
    let named: BTreeSet<String> = sheets(&files()?)
        .into_iter()
        .flat_map(|sheet| sheet.rules)
        .filter(|rule| rule.shown_by_test.is_some())
        .map(|rule| rule.rule.name)
        .collect();
    assert_eq!(named, shown, "the rules that name a test are those that this one shows");
    Ok(())
}

#[test]
fn a_test_that_a_rule_names_is_there() -> Outcome {
    for sheet in sheets(&files()?) {
        for rule in &sheet.rules {
            let Some(shown) = &rule.shown_by_test else {
                continue;
            };
            let source = std::fs::read_to_string(here("../..").join(&shown.file))?;
            let begins = format!("#[test]\nfn {}(", shown.test);
            assert!(source.contains(&begins), "{}: {} holds no test {}", rule.rule.name, shown.file, shown.test);
        }
    }
    Ok(())
}

fn here(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}

/// Every file in a folder and the folders within it whose name ends so.
fn gather(folder: &Path, ending: &str, files: &mut Vec<PathBuf>) -> Outcome {
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            gather(&path, ending, files)?;
        } else if path.to_string_lossy().ends_with(ending) {
            files.push(path);
        }
    }
    files.sort();
    Ok(())
}

/// The rule files: path and text.
fn files() -> Outcome<Vec<(String, String)>> {
    let mut paths = Vec::new();
    gather(&here(RULES), ".rules.kdl", &mut paths)?;
    let read = |path: PathBuf| -> Outcome<(String, String)> {
        Ok((path.to_string_lossy().into_owned(), std::fs::read_to_string(&path)?))
    };
    paths.into_iter().map(read).collect()
}

fn borrowed(files: &[(String, String)]) -> Vec<(&str, &str)> {
    files.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect()
}

fn sheets(files: &[(String, String)]) -> Vec<Sheet> {
    read_sheets(&borrowed(files), &Packs::default()).0
}

fn compiled(files: &[(String, String)]) -> Outcome<Packs> {
    compile(&borrowed(files)).map_err(|faults| {
        let told: Vec<String> = faults.into_iter().map(|fault| format!("{}: {}", fault.file, fault.message)).collect();
        told.join("\n").into()
    })
}

/// The rules that document what is found while reading.
fn documented() -> Outcome<BTreeSet<String>> {
    let packs = compiled(&files()?)?;
    Ok(packs.rules.into_iter().filter(|rule| rule.found_while_reading).map(|rule| rule.name).collect())
}

/// The names under which the sources find something, each with a source that does.
fn named_in_sources() -> Outcome<BTreeMap<String, PathBuf>> {
    let mut named: BTreeMap<String, PathBuf> =
        FaultKind::ALL.iter().map(|kind| (kind.rule().to_owned(), here(SOURCES[0]))).collect();
    let mut paths = Vec::new();
    for folder in SOURCES {
        gather(&here(folder), ".rs", &mut paths)?;
    }
    for path in paths {
        let source = std::fs::read_to_string(&path)?;
        for name in source.split(FOUND).skip(1).filter_map(first_text) {
            named.entry(name.to_owned()).or_insert_with(|| path.clone());
        }
    }
    Ok(named)
}

/// The string that a source begins with, behind blanks and line ends.
fn first_text(source: &str) -> Option<&str> {
    source.trim_start().strip_prefix('"')?.split('"').next()
}

/// The text of an example: its fixture with the example's changes.
fn text_of(sheet: &Sheet, example: &Example) -> String {
    let fixture = sheet.fixtures.iter().find(|fixture| Some(&fixture.name) == example.on.as_ref());
    let mut text = fixture.map(|fixture| fixture.text.text.clone()).unwrap_or_default();
    for step in &example.steps {
        text = match &step.action {
            Action::Change { from, to } => text.replacen(from.as_str(), to, 1),
            Action::Remove(from) => text.replacen(from.as_str(), "", 1),
            Action::Add(added) => format!("{text}\n{added}"),
        };
    }
    text
}
