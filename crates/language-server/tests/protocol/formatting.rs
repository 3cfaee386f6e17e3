//! Layout from within the editor.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, applied, builds};
use serde_json::{Value, json};
use spec::text::tidy;

const URI: &str = "file:///nowhere/test.build.kdl";

/// A plain sequence of numbers that looks random (Knuth's multiplier of 64 bits).
struct Dice(u64);

impl Dice {
    fn below(&mut self, bound: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % bound.max(1)
    }
}

/// The text with its spaces in disorder, line by line.
fn disordered(text: &str, dice: &mut Dice, ending: &str) -> String {
    let mut disordered = String::new();
    for line in text.lines() {
        let spaces = ["", " ", "   ", "\t", "     "][dice.below(5)];
        match dice.below(4) {
            0 => disordered.push_str(&format!("{spaces}{line}")),
            1 => disordered.push_str(&format!("{line}{spaces}")),
            2 => disordered.push_str(&line.replacen(' ', &format!(" {spaces}"), 1)),
            _ => disordered.push_str(line),
        }
        disordered.push_str(ending);
    }
    disordered
}

async fn asked(client: &mut Client, range: Option<Value>) -> Value {
    let options = json!({ "tabSize": 4, "insertSpaces": true });
    let document = json!({ "uri": URI });
    match range {
        None => {
            client.request("textDocument/formatting", json!({ "textDocument": document, "options": options })).await
        }
        Some(range) => {
            let params = json!({ "textDocument": document, "range": range, "options": options });
            client.request("textDocument/rangeFormatting", params).await
        }
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_disordered_text_is_laid_out_as_the_command_does_it() {
    let mut client = Client::plain().await;
    let mut dice = Dice(3);
    client.open(URI, "").await;
    let mut version = 1;
    for entry in std::fs::read_dir(builds()).unwrap() {
        let path = entry.unwrap().path();
        if !path.to_string_lossy().ends_with(".build.kdl") {
            continue;
        }
        let text = std::fs::read_to_string(path).unwrap();
        for ending in ["\n", "\r\n"] {
            let disordered = disordered(&text, &mut dice, ending);
            version += 1;
            client.replace(URI, version, &disordered).await;
            let edits = asked(&mut client, None).await;
            let after = applied(&disordered, &edits);
            assert_eq!(after, tidy(&disordered).unwrap());
            assert_eq!(after.contains('\r'), ending == "\r\n", "line ends stay as they are");
            version += 1;
            client.replace(URI, version, &after).await;
            assert_eq!(asked(&mut client, None).await, json!([]), "what is laid out stays");
        }
    }
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_laid_out_in_part_changes_in_that_part_only() {
    let text = "build  A {\n  stage review\n  basis eu\n}\nzone   größe kind=living\nzone   b kind=locker\n\n\n\nzone  🚐 kind=locker";
    let mut client = Client::plain().await;
    client.open(URI, text).await;
    let lines: Vec<&str> = text.split('\n').collect();
    for first in 0..lines.len() {
        for last in first..lines.len() {
            let end = lines[last].encode_utf16().count();
            let range =
                json!({ "start": { "line": first, "character": 0 }, "end": { "line": last, "character": end } });
            let edits = asked(&mut client, Some(range)).await;
            let after = applied(text, &edits);
            let before: Vec<&str> = lines[..first].to_vec();
            let behind = lines[last + 1..].join("\n");
            assert!(after.starts_with(&before.join("\n")), "{first}..={last}: {after}");
            assert!(after.ends_with(&behind), "{first}..={last}: {after}");
        }
    }
    let whole = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": lines.len() - 1, "character": 99 } });
    assert_eq!(applied(text, &asked(&mut client, Some(whole)).await), tidy(text).unwrap());
    // A line of its own is laid out alone.
    let line = json!({ "start": { "line": 1, "character": 2 }, "end": { "line": 1, "character": 3 } });
    let after = applied(text, &asked(&mut client, Some(line)).await);
    assert!(after.contains("\n    stage review\n  basis eu\n"), "{after}");
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_text_that_cannot_be_read_is_left_alone() {
    let mut client = Client::plain().await;
    client.open(URI, "build A {\n  stage review\n").await;
    assert_eq!(asked(&mut client, None).await, Value::Null);
    client.settle().await;
    client.finish().await;
}
