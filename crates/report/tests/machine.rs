//! Reviews as other programs read them: places, escapes, waivers, mends, and documents put together of any number of builds.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod fixture;

use fixture::{at, bare, clean, review};
use report::{Build, Context, Fix, MachineForm, RuleAbout, Stream, Totals, Unread};
use rules::Signal;
use rules::finding::{FileText, Finding, Outcome, Place, Review};
use serde_json::Value;

const ALL: [MachineForm; 5] =
    [MachineForm::Sarif, MachineForm::Junit, MachineForm::Gitlab, MachineForm::Github, MachineForm::Markdown];

fn context() -> Context {
    let rule = |name: &str, signal| RuleAbout {
        name: name.to_owned(),
        title: String::from("a title"),
        why: String::from("it burns [here] {0}"),
        remedy: String::from("fit a fuse"),
        caution: None,
        signal,
        sources: review().failed[0].sources.clone(),
    };
    let rules =
        vec![rule("fire/no-smoke-alarm", Signal::Warning), rule("electrical/unprotected-conductor", Signal::Danger)];
    Context::new(String::from("1.2.3"), Signal::Warning, Vec::new(), rules)
}

fn none(_: &Finding) -> Vec<Fix> {
    Vec::new()
}

fn document(form: MachineForm, builds: &[(&str, &Review)], unread: &[Unread]) -> String {
    let context = context();
    let (mut stream, mut text) = Stream::new(form, &context);
    for (path, review) in builds {
        text.push_str(&stream.build(&Build { review, path, fixes: &none }));
    }
    for one in unread {
        text.push_str(&stream.unread(one));
    }
    text + &stream.finish()
}

fn as_json(text: &str) -> Value {
    serde_json::from_str(text).expect("it is JSON")
}

/// A review with one failed finding where `words` stand in a text.
fn one(text: &str, words: &str) -> Review {
    let place = Place { file: 0, bytes: at(text, words) };
    let finding = bare("a/b", Signal::Danger, Outcome::Fails { margin: None }, "lamp", place);
    let files = vec![FileText { name: String::from("x.build.kdl"), text: text.into() }];
    Review { files, failed: vec![finding], ..clean() }
}

#[test]
fn places_are_counted_in_characters_as_an_editor_counts() {
    let cases = [
        // text, words, line, column, end line, end column, offset, length
        ("lamp x", "lamp", [1, 1, 1, 5, 0, 4]),
        ("größe x", "x", [1, 7, 1, 8, 6, 1]),
        ("🚐 größe x", "größe", [1, 3, 1, 8, 2, 5]),
        ("a\r\nbb x\r\n", "x", [2, 4, 2, 5, 6, 1]),
        ("a\rbb x", "x", [2, 4, 2, 5, 5, 1]),
        ("\u{feff}größe x", "x", [1, 7, 1, 8, 6, 1]),
        ("\u{feff}größe x", "\u{feff}größe", [1, 1, 1, 6, 0, 5]),
        ("\u{feff}a\r\n🚐x", "x", [2, 2, 2, 3, 4, 1]),
        ("ab\ncd\n", "b\nc", [1, 2, 2, 2, 1, 3]),
    ];
    for (text, words, wanted) in cases {
        let review = one(text, words);
        let value = as_json(&document(MachineForm::Sarif, &[("x.build.kdl", &review)], &[]));
        let region = &value["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["region"];
        let keys = ["startLine", "startColumn", "endLine", "endColumn", "charOffset", "charLength"];
        assert_eq!(keys.map(|key| region[key].as_u64().expect("a number")), wanted, "{text:?}");
        let [line, column, end_line, end_column, ..] = wanted;
        let annotation = document(MachineForm::Github, &[("x.build.kdl", &review)], &[]);
        let columns = if line == end_line { format!(",col={column},endColumn={end_column}") } else { String::new() };
        assert!(
            annotation.starts_with(&format!("::error file=x.build.kdl,line={line},endLine={end_line}{columns},title=")),
            "{annotation}"
        );
        let entries = as_json(&document(MachineForm::Gitlab, &[("x.build.kdl", &review)], &[]));
        assert_eq!(entries[0]["location"]["lines"]["begin"], line);
    }
}

#[test]
fn paths_become_uri_references() {
    let cases = [
        ("vans/wren.build.kdl", "vans/wren.build.kdl"),
        ("./vans/a b.kdl", "vans/a%20b.kdl"),
        ("../größe#1?.kdl", "../gr%C3%B6%C3%9Fe%231%3F.kdl"),
        ("c:100%.kdl", "c%3A100%25.kdl"),
        ("/home/x/a.kdl", "file:///home/x/a.kdl"),
        ("a\u{fffd}\n.kdl", "a%EF%BF%BD%0A.kdl"),
    ];
    for (path, uri) in cases {
        let value = as_json(&document(MachineForm::Sarif, &[(path, &one("lamp x", "lamp"))], &[]));
        let location = &value["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"];
        assert_eq!(location["uri"], uri);
    }
}

#[test]
fn what_was_typed_is_escaped_in_each_form() {
    let cases = [
        (MachineForm::Sarif, "A [b](c) {0} \\", r"A \\[b\\](c) {{0}} \\\\"),
        (MachineForm::Junit, "A \"<b>\" & \u{1b}\u{ffff} ]]>", "A &quot;&lt;b&gt;&quot; &amp; \\u{1b}\u{fffd} ]]&gt;"),
        (MachineForm::Gitlab, "A \"b\" \u{7}", r#"A \"b\" \\u{7}"#),
        (MachineForm::Github, "A, b: 100% \u{1b}[31m", "::A, b: 100%25 \\u{1b}[31m"),
        (MachineForm::Markdown, "A | <b> @everyone", "A &#124; &lt;b&gt; @<!-- -->everyone"),
        (MachineForm::Markdown, "A [x](http://y) #12", r"A \[x\]\(http\:<!-- -->//y\) \#<!-- -->12"),
        (MachineForm::Markdown, "A www.x `b` **c**", r"A www\.<!-- -->x \`b\` \*\*c\*\*"),
    ];
    for (form, typed, written) in cases {
        let mut review = one("lamp x", "lamp");
        review.failed[0].message = typed.to_owned();
        let text = document(form, &[("x.build.kdl", &review)], &[]);
        assert!(text.contains(written), "{form:?}: {text}");
    }
    let mut review = one("lamp x", "lamp");
    review.failed[0].title = String::from("a, b: 100%");
    let text = document(MachineForm::Github, &[("a,b:c%\nd.kdl", &review)], &[]);
    assert!(text.contains("file=a%2Cb%3Ac%25%0Ad.kdl,"), "{text}");
    assert!(text.contains("title=DANGER%3A a%2C b%3A 100%25::"), "{text}");
}

#[test]
fn documents_of_any_number_of_builds_are_whole() {
    let (full, empty) = (review(), clean());
    let gone = Unread { path: String::from("gone.kdl"), message: String::from("there is no such file") };
    let many: [(&str, &Review); 3] = [("a.kdl", &empty), ("b.kdl", &full), ("c.kdl", &full)];
    for (builds, unread) in [(&many[..0], 0), (&many[..1], 0), (&many[1..2], 1), (&many[..], 1), (&many[..], 0)] {
        let missing = vec![gone.clone(); unread];
        let with_findings = builds.iter().filter(|(path, _)| *path != "a.kdl").count();
        let sarif = as_json(&document(MachineForm::Sarif, builds, &missing));
        let run = &sarif["runs"][0];
        // One failed, one undecided and one waived.
        assert_eq!(run["results"].as_array().map(Vec::len), Some(3 * with_findings));
        assert_eq!(run["invocations"][0]["executionSuccessful"], missing.is_empty());
        let notified = run["invocations"][0]["toolExecutionNotifications"].as_array().map(Vec::len);
        assert_eq!(notified, Some(missing.len()));
        let gitlab = as_json(&document(MachineForm::Gitlab, builds, &missing));
        let gitlab = gitlab.as_array().expect("a list");
        assert_eq!(gitlab.len(), 2 * with_findings + missing.len());
        let mut prints: Vec<&str> = gitlab.iter().filter_map(|entry| entry["fingerprint"].as_str()).collect();
        prints.sort_unstable();
        prints.dedup();
        assert_eq!(prints.len(), gitlab.len(), "no two entries have the same fingerprint");
        let junit = document(MachineForm::Junit, builds, &missing);
        assert_eq!(junit.matches("<testsuite ").count(), builds.len() + missing.len());
        assert_eq!(junit.matches("<failure ").count(), with_findings);
        assert_eq!(junit.matches("<skipped ").count(), 2 * with_findings);
        assert_eq!(junit.matches("<error ").count(), missing.len());
        assert!(junit.ends_with("</testsuites>\n"));
        let github = document(MachineForm::Github, builds, &missing);
        assert_eq!(github.matches("::error ").count(), with_findings + missing.len());
        let markdown = document(MachineForm::Markdown, builds, &missing);
        assert_eq!(markdown.matches("<details>").count(), builds.len());
        assert!(markdown.trim_end().ends_with("is not an approval\\."), "{markdown}");
    }
}

#[test]
fn shares_of_a_run_make_the_same_document_as_the_whole() {
    let (context, full, empty) = (context(), review(), clean());
    let builds: Vec<Build> = [("a.kdl", &full), ("b.kdl", &empty), ("c.kdl", &full)]
        .into_iter()
        .map(|(path, review)| Build { review, path, fixes: &none })
        .collect();
    for form in ALL {
        let (mut whole, mut wanted) = Stream::new(form, &context);
        builds.iter().for_each(|build| wanted.push_str(&whole.build(build)));
        wanted.push_str(&whole.finish());
        let (mut stream, mut text) = Stream::new(form, &context);
        for share in builds.chunks(2) {
            let mut totals = Totals::default();
            share.iter().for_each(|build| totals.add(&context, build));
            let fragments = share.iter().map(|build| form.build(&context, build)).filter(|text| !text.is_empty());
            text.push_str(&stream.fragments(fragments.collect::<Vec<_>>().join(form.separator()), totals));
        }
        text.push_str(&stream.finish());
        assert_eq!(text, wanted, "{form:?}");
    }
}

#[test]
fn signal_words_undecided_checks_and_waivers_keep_their_meaning() {
    let mut full = review();
    full.failed[0].follow[0].message = String::from("It dims.");
    let value = as_json(&document(MachineForm::Sarif, &[("wren.build.kdl", &full)], &[]));
    let results = &value["runs"][0]["results"];
    let of = |result: usize, key: &str| results[result][key].as_str().unwrap_or_default().to_owned();
    assert_eq!([0, 1, 2].map(|result| of(result, "kind")), ["fail", "open", "fail"]);
    assert_eq!([0, 1, 2].map(|result| of(result, "level")), ["error", "none", "note"]);
    assert_eq!(results[1]["properties"]["holdsBuild"], true, "it is a warning outside a draft");
    assert_eq!(results[2]["properties"]["holdsBuild"], false, "it is waived");
    assert_eq!(results[0]["ruleIndex"], 0);
    assert_eq!(value["runs"][0]["tool"]["driver"]["rules"][0]["id"], "electrical/unprotected-conductor");
    let suppression = &results[2]["suppressions"][0];
    assert_eq!((suppression["kind"].as_str(), suppression["status"].as_str()), (Some("inSource"), Some("accepted")));
    assert_eq!(
        suppression["justification"],
        "Unlined by choice, wiped daily. Accepted by workshop office until 2028-04-01."
    );
    assert_eq!(suppression["location"]["physicalLocation"]["region"]["startLine"], 3);
    assert!(results[0]["suppressions"].is_null());
    let related = results[0]["relatedLocations"].as_array().expect("places");
    assert_eq!(related[1]["physicalLocation"]["artifactLocation"]["uri"], "shop.parts.kdl");
    assert_eq!(related[2]["message"]["text"], "From this follows, for circuit \"bench lamp\": It dims.");
    let undecided = results[1]["message"]["text"].as_str().expect("a text");
    assert!(
        undecided.contains("write berths= of brief or a berth in build Wren; and senses= of alarm."),
        "{undecided}"
    );
    let entries = as_json(&document(MachineForm::Gitlab, &[("wren.build.kdl", &full)], &[]));
    assert_eq!(entries[0]["severity"], "blocker");
    assert_eq!(entries[1]["severity"], "major");
}

/// Applies the replacements of a SARIF fix to a text as a reader of SARIF would: by their offsets, the last first.
fn applied(text: &str, fix: &Value) -> String {
    let mut characters: Vec<char> = text.chars().filter(|character| *character != '\u{feff}').collect();
    let mut replacements = fix["artifactChanges"][0]["replacements"].as_array().expect("replacements").clone();
    replacements.sort_by_key(|one| one["deletedRegion"]["charOffset"].as_u64());
    for one in replacements.iter().rev() {
        let number = |key: &str| one["deletedRegion"][key].as_u64().and_then(|number| usize::try_from(number).ok());
        let (start, length) = (number("charOffset").expect("a start"), number("charLength").expect("a length"));
        let new = one["insertedContent"]["text"].as_str().expect("a text");
        characters.splice(start..start + length, new.chars());
    }
    characters.into_iter().collect()
}

#[test]
fn fixes_mend_the_text_when_they_are_applied() {
    let cases = [
        ("lamp x\n", [("x", "y")].as_slice(), "lamp y\n"),
        ("\u{feff}größe 🚐\r\nlamp x\r\n", &[("x", "größe"), ("🚐", "van")], "größe van\r\nlamp größe\r\n"),
        ("a 🚐 b\rc", &[("c", "d"), ("🚐 b", "")], "a \rd"),
    ];
    for (text, changes, wanted) in cases {
        let review = one(text, "");
        let fixes = |_: &Finding| {
            let changes = changes.iter().map(|(from, to)| (Place { file: 0, bytes: at(text, from) }, (*to).to_owned()));
            vec![Fix { title: String::from("mend it"), changes: changes.collect(), preferred: true }]
        };
        let context = context();
        let build = Build { review: &review, path: "x.build.kdl", fixes: &fixes };
        let result = as_json(&MachineForm::Sarif.build(&context, &build));
        assert_eq!(applied(text, &result["fixes"][0]), wanted);
        assert_eq!(result["fixes"][0]["description"]["text"], "Mend it.");
    }
}
