//! From a name to where it is defined and used, and another name for it, over all files of a build.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, applied};
use language_server::position::{Encoding, Lines};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use tower_lsp::lsp_types::Range;

const BUILD: (&str, &str) = (
    "file:///nowhere/a.build.kdl",
    "build A { stage review; basis eu; include \"more.build.kdl\"; include \"p.parts.kdl\"; }\n\
     battery \"größe 🔋\" like=\"shop battery\"                 // the größe 🔋 of the van, called house elsewhere\n\
     circuit main from=\"größe 🔋\" to=bar { wire size=\"16 mm2\" one-way=\"1 m\"; }\n\
     busbar bar rating=\"100 A\"\n\
     shore { inlet rating=\"16 A\" voltage=\"230 V\"; to board wire=\"2.5 mm2\" one-way=\"1 m\"; }\n\
     inverter bench power=\"500 VA\" voltage=\"230 V\"\n\
     ac-board board main=\"16 A\" { way 1 sockets breaker=\"10 A\" fed-by=\"shore, bench\"; }\n\
     outlets sockets count=1 voltage=\"230 V\" evidence=\"bench and bar\"\n",
);
const MORE: (&str, &str) = (
    "file:///nowhere/more.build.kdl",
    "circuit lamp from=bar to=\"e\u{301}te\" { fuse rating=\"5 A\"; wire size=\"1.5 mm2\" one-way=\"1 m\"; }\n\
     lamp \"e\u{301}te\" power=\"5 W\"\n\
     circuit bench-feed from=bar to=bench { wire size=\"16 mm2\" one-way=\"1 m\"; }\n",
);
const PARTS: (&str, &str) =
    ("file:///nowhere/p.parts.kdl", "battery \"shop battery\" chemistry=LFP voltage=\"12.8 V\"\n");
const FILES: [(&str, &str); 3] = [BUILD, MORE, PARTS];

async fn opened() -> Client {
    let mut client = Client::plain().await;
    for (uri, text) in FILES {
        client.open(uri, text).await;
    }
    client.settle().await;
    client
}

/// The position of the n-th mention of a word in a file.
fn at(file: (&str, &str), word: &str, number: usize) -> Value {
    let byte = file.1.match_indices(word).nth(number).unwrap().0 + 1;
    let position = Lines::of(file.1).position(file.1, byte, Encoding::Utf16);
    json!({ "textDocument": { "uri": file.0 }, "position": position })
}

fn text_of(uri: &str) -> &'static str {
    FILES.iter().find(|(own, _)| *own == uri).unwrap().1
}

/// What stands at each place, by file.
fn written(places: &Value) -> Vec<(String, String)> {
    let places = places.as_array().cloned().unwrap_or_else(|| vec![places.clone()]);
    let mut written: Vec<(String, String)> = places
        .iter()
        .map(|place| {
            let uri = place["uri"].as_str().unwrap();
            let range: Range = serde_json::from_value(place["range"].clone()).unwrap();
            let bytes = Lines::of(text_of(uri)).bytes(text_of(uri), range, Encoding::Utf16).unwrap();
            (uri.rsplit('/').next().unwrap().to_owned(), text_of(uri)[bytes].to_owned())
        })
        .collect();
    written.sort();
    written
}

#[tokio::test(flavor = "multi_thread")]
async fn a_name_leads_to_its_definition_and_its_uses_in_every_file() {
    let mut client = opened().await;
    let definition = client.request("textDocument/definition", at(MORE, "bar", 0)).await;
    assert_eq!(definition["uri"], BUILD.0);
    assert_eq!(definition["range"]["start"]["line"], 3);
    let definition = client.request("textDocument/definition", at(BUILD, "shop battery", 0)).await;
    assert_eq!((&definition["uri"], &definition["range"]["start"]["line"]), (&json!(PARTS.0), &json!(0)));
    for (place, expected) in [
        (at(BUILD, "busbar bar", 0), vec![]),
        (
            at(BUILD, "bench power", 0),
            vec![("a.build.kdl", "bench"), ("a.build.kdl", "bench"), ("more.build.kdl", "bench")],
        ),
        (at(MORE, "e\u{301}te", 0), vec![("more.build.kdl", "\"e\u{301}te\""); 2]),
        (at(BUILD, "größe", 0), vec![("a.build.kdl", "\"größe 🔋\""); 2]),
    ] {
        let mut ask = place;
        ask["context"] = json!({ "includeDeclaration": true });
        let places = client.request("textDocument/references", ask).await;
        let found = if places.is_null() { vec![] } else { written(&places) };
        let expected: Vec<(String, String)> =
            expected.into_iter().map(|(file, text)| (file.to_owned(), text.to_owned())).collect();
        assert_eq!(found, expected);
    }
    let highlights = client.request("textDocument/documentHighlight", at(BUILD, "bench power", 0)).await;
    let kinds: Vec<u64> = highlights.as_array().unwrap().iter().map(|own| own["kind"].as_u64().unwrap()).collect();
    assert_eq!(kinds.iter().filter(|kind| **kind == 3).count(), 1, "where it is defined is marked as such");
    assert_eq!(kinds.len(), 2);
    client.finish().await;
}

/// All texts after a rename.
fn renamed(edit: &Value) -> BTreeMap<String, String> {
    let mut texts: BTreeMap<String, String> =
        FILES.iter().map(|(uri, text)| ((*uri).to_owned(), (*text).to_owned())).collect();
    for (uri, edits) in edit["changes"].as_object().unwrap() {
        let text = texts.get_mut(uri).unwrap();
        *text = applied(text, edits);
    }
    texts
}

#[tokio::test(flavor = "multi_thread")]
async fn another_name_is_written_everywhere_and_nothing_else_changes() {
    for (file, word, new_name) in [
        (BUILD, "größe", "house"),
        (BUILD, "größe", "Träger 2 🚐"),
        (BUILD, "bench power", "desk"),
        (MORE, "e\u{301}te", "unknown"),
        (MORE, "bar", "main positive"),
        (BUILD, "shop battery", "usual"),
    ] {
        let mut client = opened().await;
        let unknown = |client: &Client| -> usize {
            let all = FILES.iter().flat_map(|(uri, _)| client.found(uri));
            all.filter(|(rule, _)| rule.starts_with("names/") || rule.starts_with("text/")).count()
        };
        let before = unknown(&client);
        let mut ask = at(file, word, 0);
        ask["newName"] = json!(new_name);
        let texts = renamed(&client.request("textDocument/rename", ask).await);
        // Comments and texts about other things stay.
        assert!(texts[BUILD.0].contains("// the größe 🔋 of the van, called house elsewhere"));
        assert!(texts[BUILD.0].contains("evidence=\"bench and bar\""));
        for (uri, text) in &texts {
            client.replace(uri, 2, text).await;
        }
        client.settle().await;
        assert_eq!(unknown(&client), before, "{word} → {new_name}: {texts:#?}");
        client.finish().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_name_that_cannot_be_given_is_refused_in_words() {
    let mut client = opened().await;
    for (new_name, reason) in [("", "is not empty"), ("bar", "another thing is called `bar`"), ("a, b", "commas")] {
        let mut ask = at(BUILD, "bench power", 0);
        ask["newName"] = json!(new_name);
        let id = client.ask("textDocument/rename", ask).await;
        let answer = client.answer(id).await;
        assert!(answer["error"]["message"].as_str().unwrap().contains(reason), "{answer}");
    }
    // What is no name cannot be renamed.
    assert_eq!(client.request("textDocument/prepareRename", at(BUILD, "review", 0)).await, Value::Null);
    let range = client.request("textDocument/prepareRename", at(BUILD, "größe", 0)).await;
    assert_eq!(range["placeholder"], "größe 🔋");
    client.finish().await;
}
