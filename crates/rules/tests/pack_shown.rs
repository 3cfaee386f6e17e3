//! A rule whose finding no example can hold names the test that shows it instead.

use rules::pack::{Packs, compile, read_sheets};

const FILE: &str = "rules/any/text.rules.kdl";

/// A rule of the reader with this line in place of its example.
fn rule(line: &str) -> String {
    format!(
        r##"rule "text/too-large" warning found=reading {{
    title "A file that is too large"
    why "Nothing in it is checked."
    remedy "Split it."
    caution "Nothing in it is checked."
    source "our own" mark=chosen
    {line}
}}
"##
    )
}

#[test]
fn a_rule_that_names_its_test_needs_no_example() {
    let text = rule("shown-by-test \"a_large_file\" in=\"crates/spec/tests/text.rs\"");
    let (sheets, faults) = read_sheets(&[(FILE, &text)], &Packs::default());
    assert_eq!(faults, []);
    let shown = sheets.iter().flat_map(|sheet| &sheet.rules).find_map(|rule| rule.shown_by_test.as_ref());
    let said = shown.map(|shown| (shown.test.as_str(), shown.file.as_str(), text.get(shown.at.clone())));
    assert_eq!(said, Some(("a_large_file", "crates/spec/tests/text.rs", Some("\"a_large_file\""))));
}

#[test]
fn a_test_stands_in_only_where_no_example_can() {
    let judged = rule("must \"true\"; tell \"Told.\"; shown-by-test \"a_large_file\" in=\"x.rs\"")
        .replace("found=reading", "about=device");
    let beside = "shown-by-test \"a_large_file\" in=\"x.rs\"\n    example \"no brace\" fails { add \"zone cabin {\" }";
    for (text, message, at) in [
        (rule("shown-by-test \"a_large_file\""), "does not say where the test is", "shown-by-test"),
        (rule("shown-by-test"), "one value is missing", "shown-by-test"),
        (rule(beside), "needs no test to show it", "shown-by-test"),
        (judged, "only what is found while reading", "shown-by-test"),
        (rule(""), "no example that is: fails", "\"text/too-large\""),
    ] {
        let faults = compile(&[(FILE, &text)]).err().unwrap_or_default();
        let told: Vec<(&str, Option<&str>)> =
            faults.iter().map(|fault| (fault.message.as_str(), text.get(fault.at.clone()))).collect();
        assert!(
            told.iter().any(|(told, place)| told.contains(message) && *place == Some(at)),
            "{message} at {at}: {told:?}"
        );
    }
}
