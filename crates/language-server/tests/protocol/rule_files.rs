//! Rule files in the editor.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::Client;
use serde_json::{Value, json};
use std::path::Path;

fn shipped() -> (String, String) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../rules/any/drop.rules.kdl").canonicalize().unwrap();
    (format!("file://{}", path.display()), std::fs::read_to_string(path).unwrap())
}

/// A position some characters behind the start of a place in a text.
fn position(text: &str, place: &str, behind: usize) -> Value {
    let at = text.find(place).unwrap() + behind;
    let character = text[..at].rsplit('\n').next().unwrap().encode_utf16().count();
    json!({ "line": text[..at].matches('\n').count(), "character": character })
}

async fn ask(client: &mut Client, method: &str, uri: &str, at: Value) -> Value {
    client.request(method, json!({ "textDocument": { "uri": uri }, "position": at })).await
}

#[tokio::test(flavor = "multi_thread")]
async fn rules_and_their_examples_are_the_outline_and_fold() {
    let (uri, text) = shipped();
    let mut client =
        Client::with(json!({ "textDocument": { "documentSymbol": { "hierarchicalDocumentSymbolSupport": true } } }))
            .await;
    client.open(&uri, &text).await;
    client.settle().await;
    let symbols = client.request("textDocument/documentSymbol", json!({ "textDocument": { "uri": uri } })).await;
    let rules: Vec<&Value> = symbols.as_array().unwrap().iter().filter(|own| own["detail"] != "fixture").collect();
    let written: Vec<&str> = text.lines().filter_map(|line| line.strip_prefix("rule \"")?.split('"').next()).collect();
    let names: Vec<&str> = rules.iter().map(|own| own["name"].as_str().unwrap()).collect();
    assert_eq!(names, written);
    assert_eq!(rules[0]["detail"], "Voltage drop to a thing that matters");
    assert_eq!(rules[0]["children"][1]["name"], "a little too long");
    assert_eq!(rules[0]["children"][1]["detail"], "fails");
    let folds = client.request("textDocument/foldingRange", json!({ "textDocument": { "uri": uri } })).await;
    let starts: Vec<u64> = folds.as_array().unwrap().iter().map(|own| own["startLine"].as_u64().unwrap()).collect();
    for (line, written) in (0..).zip(text.lines()) {
        assert!(!written.starts_with("rule ") || starts.contains(&line), "{written}");
    }
    assert!(starts.contains(&3), "a fixture folds");
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_rule_shows_its_page() {
    let (uri, text) = shipped();
    for (capabilities, markdown) in
        [(json!({}), false), (json!({ "textDocument": { "hover": { "contentFormat": ["markdown"] } } }), true)]
    {
        let mut client = Client::with(capabilities).await;
        client.open(&uri, &text).await;
        for at in
            [position(&text, "rule \"drop/too-large\"", 8), position(&text, "follows \"drop/critical-too-large\"", 12)]
        {
            let hover = ask(&mut client, "textDocument/hover", &uri, at).await;
            let page = hover["contents"]["value"].as_str().unwrap();
            assert_eq!(hover["contents"]["kind"], if markdown { "markdown" } else { "plaintext" });
            assert_eq!(page.starts_with("```text\n"), markdown);
            for part in [
                "Voltage drop to a",
                "Signal word",
                "supply_drop <= share * nominal_voltage",
                "Small-craft practice (E-11)",
                "{share} may be lost",
                "fridge",
            ] {
                assert!(page.contains(part), "{part} is not in {page}");
            }
        }
        // Elsewhere there is none.
        assert_eq!(ask(&mut client, "textDocument/hover", &uri, position(&text, "why \"", 8)).await, Value::Null);
        client.settle().await;
        client.finish().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_rule_that_does_not_compile_shows_what_it_says() {
    let text = "// 🚐\nrule \"x/größe\" warning about=run {\n  title \"Too much\"\n  must \"nothing <= \"\n  why \"It \\u{1b}[31mharms.\"\n  follows \"drop/too-large\"\n}\nrule \"broken\n";
    let mut client = Client::plain().await;
    let uri = "file:///rules/x.rules.kdl";
    client.open(uri, text).await;
    let hover = ask(&mut client, "textDocument/hover", uri, position(text, "x/größe", 3)).await;
    let page = hover["contents"]["value"].as_str().unwrap();
    assert!(page.starts_with("x/größe\nToo much\nIt ") && !page.contains('\u{1b}'), "{page:?}");
    // Of a shipped rule that is not in this file, what it is about.
    let hover = ask(&mut client, "textDocument/hover", uri, position(text, "drop/too-large", 3)).await;
    assert!(hover["contents"]["value"].as_str().unwrap().starts_with("drop/too-large, notice: Voltage drop to a load"));
    client.settle().await;
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn values_fixtures_and_rules_are_found_where_they_are_written() {
    let (uri, text) = shipped();
    let mut client = Client::plain().await;
    client.open(&uri, &text).await;
    let second = text.find("rule \"drop/too-large\"").unwrap();
    let (start, end) = (&text[..second], &text[second..]);
    for (place, behind, expected) in [
        ("must \"supply_drop <= share", 22, Some(position(&text, "value share any=\"3 %\"", 6))),
        ("no more than {share}", 15, Some(position(&text, "value share any=\"3 %\"", 6))),
        ("holds on=\"fridge\"", 12, Some(position(&text, "fixture \"fridge\"", 8))),
        ("follows \"drop/critical-too-large\"", 12, Some(position(&text, "rule \"drop/critical-too-large\"", 5))),
        ("must \"supply_drop", 8, None),
        ("title \"Voltage", 9, None),
    ] {
        let location = ask(&mut client, "textDocument/definition", &uri, position(&text, place, behind)).await;
        assert_eq!(location.get("range").map(|range| range["start"].clone()), expected, "{place}");
    }
    // The value of the rule itself, and not one of the same name elsewhere.
    let own = position(&text, &end[end.find("value share").unwrap()..][..40], 6);
    let at = position(end, "must \"supply_drop <= share", 22);
    let line = at["line"].as_u64().unwrap() + u64::try_from(start.matches('\n').count()).unwrap();
    let at = json!({ "line": line, "character": at["character"] });
    assert_eq!(ask(&mut client, "textDocument/definition", &uri, at).await["range"]["start"], own);
    client.settle().await;
    client.finish().await;
}
