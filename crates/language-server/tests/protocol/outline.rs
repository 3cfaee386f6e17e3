//! The parts of a text as an outline, and what of it folds.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::Client;
use serde_json::{Value, json};

const URI: &str = "file:///nowhere/a.build.kdl";
const PARTS: &str = "file:///nowhere/p.parts.kdl";
const BUILD: &str = "build A {\n    stage review\n    include \"p.parts.kdl\"\n}\n// größe 🔋\nbattery \"größe 🔋\" chemistry=LFP {\n    limits charge=\"10 A\"\n}\nthis is } broken\nlamp lamp power=\"5 W\"\n";

/// Names of an outline with their words, each level indented.
fn drawn(symbols: &Value, depth: usize) -> Vec<String> {
    let mut lines = Vec::new();
    for symbol in symbols.as_array().into_iter().flatten() {
        let name = symbol["name"].as_str().unwrap();
        let detail = symbol["detail"].as_str().unwrap_or("");
        lines.push(format!("{}{name} {detail}", "  ".repeat(depth)).trim_end().to_owned());
        lines.extend(drawn(&symbol["children"], depth + 1));
    }
    lines
}

#[tokio::test(flavor = "multi_thread")]
async fn the_outline_names_the_parts_and_what_stands_in_them() {
    let mut client = Client::plain().await;
    client.open(PARTS, "battery \"shop battery\" voltage=\"12 V\"\n").await;
    client.open(URI, BUILD).await;
    client.settle().await;
    let ask = |uri: &str| json!({ "textDocument": { "uri": uri } });
    let symbols = client.request("textDocument/documentSymbol", ask(URI)).await;
    assert_eq!(drawn(&symbols, 0), ["A build", "  include", "größe 🔋 battery", "  limits", "lamp lamp"]);
    // Every name lies within its part.
    let battery = &symbols[1];
    assert_eq!(battery["range"]["start"], json!({ "line": 5, "character": 0 }));
    assert_eq!(battery["range"]["end"], json!({ "line": 7, "character": 1 }));
    // A text of parts has its own outline, also while a build includes it.
    let symbols = client.request("textDocument/documentSymbol", ask(PARTS)).await;
    assert_eq!(drawn(&symbols, 0), ["shop battery battery"]);
    let folds = client.request("textDocument/foldingRange", ask(URI)).await;
    let mut lines: Vec<(u64, u64)> = folds
        .as_array()
        .unwrap()
        .iter()
        .map(|fold| (fold["startLine"].as_u64().unwrap(), fold["endLine"].as_u64().unwrap()))
        .collect();
    lines.sort_unstable();
    assert_eq!(lines, [(0, 2), (5, 6)], "a closing brace stays in sight");
    client.finish().await;
}
