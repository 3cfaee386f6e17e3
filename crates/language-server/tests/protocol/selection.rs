//! Growing selections as an editor makes them.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, text, url};
use serde_json::{Value, json};

/// The byte of a position in units of UTF-16; a text's line ends are line feeds here.
fn byte(text: &str, position: &Value) -> usize {
    let line = usize::try_from(position["line"].as_u64().unwrap()).unwrap();
    let units = position["character"].as_u64().unwrap();
    let start: usize = text.split_inclusive('\n').take(line).map(str::len).sum();
    let mut passed = 0;
    for (at, letter) in text[start..].char_indices() {
        if passed >= units {
            return start + at;
        }
        passed += u64::try_from(letter.len_utf16()).unwrap();
    }
    text.len()
}

/// The stretches of a selection, from the inside out.
fn stretches(text: &str, selection: &Value) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut here = selection;
    while !here.is_null() {
        found.push((byte(text, &here["range"]["start"]), byte(text, &here["range"]["end"])));
        here = &here["parent"];
    }
    found
}

async fn select(client: &mut Client, uri: &str, positions: &[Value]) -> Vec<Value> {
    let params = json!({ "textDocument": { "uri": uri }, "positions": positions });
    client.request("textDocument/selectionRange", params).await.as_array().unwrap().clone()
}

#[tokio::test(flavor = "multi_thread")]
async fn a_selection_grows_from_the_word_to_the_whole_text() {
    let text = "// 🚐\npanel \"große 🔋\" rating=\"100 A\" {\n    way 1 \"water pump\" fuse=\"7.5 A\"\n}\n";
    let way = "way 1 \"water pump\" fuse=\"7.5 A\"";
    let panel = text.split_once('\n').unwrap().1.trim_end();
    let block = panel.split_once(" {").map(|(_, rest)| format!("{{{rest}")).unwrap();
    let mut client = Client::plain().await;
    let uri = "file:///selection/a.build.kdl";
    client.open(uri, text).await;
    for (line, character, expected) in [
        (2, 13, vec!["water", "water pump", "\"water pump\"", way, &block, panel, text]),
        (2, 30, vec!["7", "7.5 A", "\"7.5 A\"", "fuse=\"7.5 A\"", way, &block, panel, text]),
        (2, 24, vec!["fuse", "fuse=\"7.5 A\"", way, &block, panel, text]),
        (2, 5, vec!["way", way, &block, panel, text]),
        (2, 1, vec![&block, panel, text]),
        (1, 14, vec!["große 🔋", "\"große 🔋\"", "panel \"große 🔋\" rating=\"100 A\"", panel, text]),
        (0, 1, vec![text]),
        // Beyond the end of a line is its end.
        (2, 999, vec!["\"7.5 A\"", "fuse=\"7.5 A\"", way, &block, panel, text]),
    ] {
        let position = json!({ "line": line, "character": character });
        let selection = select(&mut client, uri, &[position]).await.remove(0);
        let found: Vec<&str> = stretches(text, &selection).into_iter().map(|(start, end)| &text[start..end]).collect();
        assert_eq!(found, expected, "{line}:{character}");
    }
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn whatever_the_text_selections_are_nested_and_hold_the_cursor() {
    let faulty = text("bramble-faulty.build.kdl");
    let broken = faulty.replace("class=T", "class=\"T").replacen("circuit", "circuit { {", 3);
    let cut = faulty.chars().take(4321).collect::<String>();
    let rule = "rule \"x/y\" warning about=run {\n  must #\"\"\"\n    größe 🚐 < 3\n    \"\"\"#\n  source \"a\n}\n";
    let mut client = Client::plain().await;
    for (number, text) in [faulty.as_str(), &broken, &cut, rule, "", "\n\n", "\"", "{{{", "}"].into_iter().enumerate() {
        for name in ["a.build.kdl", "a.rules.kdl"] {
            let uri = format!("file:///selection/{number}/{name}");
            client.open(&uri, text).await;
            let lines: Vec<&str> = text.split('\n').collect();
            let mut positions = Vec::new();
            for (line, own) in lines.iter().enumerate().step_by(1 + lines.len() / 60) {
                for character in [0, 1, 5, 17, own.encode_utf16().count()] {
                    positions.push(json!({ "line": line, "character": character.min(own.encode_utf16().count()) }));
                }
            }
            let selections = select(&mut client, &uri, &positions).await;
            assert_eq!(selections.len(), positions.len());
            for (selection, position) in selections.iter().zip(&positions) {
                let at = byte(text, position);
                let found = stretches(text, selection);
                assert!(found[0].0 <= at && at <= found[0].1, "{position} {found:?} {text:?}");
                for pair in found.windows(2) {
                    let nested = pair[1].0 <= pair[0].0 && pair[0].1 <= pair[1].1 && pair[0] != pair[1];
                    assert!(nested, "{position} {found:?} {text:?}");
                }
                assert_eq!(found.last(), Some(&(0, text.len())));
            }
        }
    }
    // A line that the text does not have gets an answer all the same, and an unknown text none.
    let nowhere = json!({ "line": 99_999, "character": 3 });
    let selection =
        select(&mut client, "file:///selection/0/a.build.kdl", std::slice::from_ref(&nowhere)).await.remove(0);
    assert_eq!(selection["range"], json!({ "start": nowhere, "end": nowhere }));
    let params = json!({ "textDocument": { "uri": url("never.build.kdl") }, "positions": [nowhere] });
    assert_eq!(client.request("textDocument/selectionRange", params).await, Value::Null);
    client.settle().await;
    client.finish().await;
}
