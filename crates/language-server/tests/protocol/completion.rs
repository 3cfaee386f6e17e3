//! What is offered while one types.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::Client;
use language_server::position::{Encoding, Lines};
use serde_json::{Value, json};
use tower_lsp::lsp_types::Range;

const URI: &str = "file:///nowhere/test.build.kdl";
/// What stands around the line that is being typed; `größe 🔋` makes bytes, units of UTF-16 and characters differ.
const ABOVE: &str = "build A { stage review; basis eu; }\nbattery \"größe 🔋\" chemistry=LFP voltage=\"12.8 V\"\nbusbar bar rating=\"100 A\"\npanel board rating=\"20 A\" { way 1 lamp fuse=\"5 A\"; }\nlamp lamp power=\"5 W\"\n";

/// The text and the position of the mark `|` in the line behind [`ABOVE`].
fn marked(line: &str, ending: &str) -> (String, Value) {
    let text = format!("{ABOVE}{line}\nzone last kind=locker\n").replace('\n', ending);
    let byte = text.rfind('|').unwrap();
    let text = format!("{}{}", &text[..byte], &text[byte + 1..]);
    let position = Lines::of(&text).position(&text, byte, Encoding::Utf16);
    (text, json!({ "textDocument": { "uri": URI }, "position": position }))
}

fn labels(items: &Value) -> Vec<&str> {
    items.as_array().into_iter().flatten().map(|item| item["label"].as_str().unwrap()).collect()
}

/// The text with an item put in, snippets with their own words in every place.
fn with(text: &str, item: &Value) -> String {
    let range: Range = serde_json::from_value(item["textEdit"]["range"].clone()).unwrap();
    let mut new = item["textEdit"]["newText"].as_str().unwrap().to_owned();
    if item["insertTextFormat"] == 2 {
        while let Some(start) = new.find("${") {
            let colon = start + new[start..].find(':').unwrap();
            let end = colon + new[colon..].find('}').unwrap();
            new = format!("{}{}{}", &new[..start], &new[colon + 1..end], &new[end + 1..]);
        }
        new = new.replace("$0", "").replace("\\}", "}").replace("\\$", "$");
    }
    let bytes = Lines::of(text).bytes(text, range, Encoding::Utf16).unwrap();
    let mut after = text.to_owned();
    after.replace_range(bytes, &new);
    after
}

/// A line with the cursor, what is offered among others, what is not, and the line with the first of these taken.
type Case = (&'static str, &'static [&'static str], &'static [&'static str], &'static str);

const CASES: [Case; 22] = [
    ("|", &["circuit", "battery"], &["way", "fuse", "chemistry"], "circuit "),
    ("cir|", &["circuit"], &["way"], "circuit "),
    (
        "circuit a from=bar { fu|; }",
        &["fuse", "wire", "breaker"],
        &["battery", "circuit"],
        "circuit a from=bar { fuse ; }",
    ),
    (
        "panel p { way 2 lamp fu|; }",
        &["fuse", "wire", "one-way"],
        &["rating", "chemistry"],
        "panel p { way 2 lamp fuse=; }",
    ),
    ("battery \"größe 2 🔋\" chem|", &["chemistry", "voltage"], &["one-way"], "battery \"größe 2 🔋\" chemistry="),
    ("battery b chemistry=LFP |", &["voltage", "capacity"], &["chemistry"], "battery b chemistry=LFP voltage="),
    ("battery b chemistry=|", &["AGM", "LFP"], &["yes"], "battery b chemistry=AGM"),
    ("battery b chemistry=\"A|\"", &["AGM", "LFP"], &["yes"], "battery b chemistry=\"AGM\""),
    ("battery b cover=|", &["yes", "no"], &["LFP"], "battery b cover=yes"),
    ("circuit c from=|", &["größe 🔋", "bar", "board", "lamp"], &["A", "c", "last"], "circuit c from=\"größe 🔋\""),
    ("circuit c from=b|", &["bar", "board"], &[], "circuit c from=bar"),
    ("circuit c from=\"b|\" to=lamp", &["bar", "board"], &[], "circuit c from=\"bar\" to=lamp"),
    ("circuit c from=\"größe 🔋\" to=|", &["lamp"], &[], "circuit c from=\"größe 🔋\" to=lamp"),
    ("panel p { way 2 la|; }", &["lamp"], &[], "panel p { way 2 lamp; }"),
    ("circuit c { wire size=\"2.5|\"; }", &["mm2", "AWG"], &["A"], "circuit c { wire size=\"2.5 mm2\"; }"),
    ("circuit c { wire size=\"2.5 m|\"; }", &["mm2", "AWG"], &["A"], "circuit c { wire size=\"2.5 mm2\"; }"),
    ("battery b voltage=\"12 |\"", &["V"], &["A", "mm2"], "battery b voltage=\"12 V\""),
    ("battery b capacity=|", &["\"200 Ah\""], &["yes"], "battery b capacity=\"200 Ah\""),
    ("// bat|", &[], &["battery"], ""),
    ("battery b // che|", &[], &["chemistry"], ""),
    ("build B purpose=\"a ba|\"", &[], &["battery", "bar"], ""),
    ("nonsense |", &[], &["chemistry"], ""),
];

#[tokio::test(flavor = "multi_thread")]
async fn what_fits_at_the_cursor_is_offered_and_nothing_typed_is_doubled() {
    for ending in ["\n", "\r\n"] {
        let mut client = Client::plain().await;
        client.open(URI, "").await;
        for (version, (line, wanted, unwanted, taken)) in (2..).zip(CASES) {
            let (text, ask) = marked(line, ending);
            client.replace(URI, version, &text).await;
            let items = client.request("textDocument/completion", ask).await;
            let offered = labels(&items);
            for label in wanted {
                assert!(offered.contains(label), "{line}: {label} in {offered:?}");
            }
            for label in unwanted {
                assert!(!offered.contains(label), "{line}: no {label} in {offered:?}");
            }
            if let Some(first) = wanted.first() {
                let item = items.as_array().unwrap().iter().find(|item| item["label"] == *first).unwrap();
                let after = with(&text, item);
                assert!(after.contains(&format!("{ending}{taken}{ending}zone last")), "{line}: {after}");
            }
        }
        client.settle().await;
        client.finish().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn every_part_is_offered_with_its_usual_entries_and_they_read_well() {
    let capabilities = json!({ "textDocument": { "completion": { "completionItem": {
        "snippetSupport": true, "documentationFormat": ["markdown", "plaintext"],
    } } } });
    let mut client = Client::with(capabilities).await;
    client.open(URI, "").await;
    let mut version = 1;
    let mut parts = 0;
    for line in ["|", "circuit c from=bar to=lamp { | }", "panel p { | }", "water-line w { | }", "shore { | }"] {
        let (text, ask) = marked(line, "\n");
        version += 1;
        client.replace(URI, version, &text).await;
        let items = client.request("textDocument/completion", ask).await;
        for item in items.as_array().unwrap().iter().filter(|item| item["kind"] == 7) {
            assert_eq!(item["insertTextFormat"], 2, "{item}");
            assert_eq!(item["documentation"]["kind"], "markdown", "{item}");
            let after = with(&text, item);
            version += 1;
            client.replace(URI, version, &after).await;
            client.settle().await;
            let first = ABOVE.lines().count() as u64;
            let behind = after.lines().position(|line| line == "zone last kind=locker").unwrap() as u64;
            // The example names things that this build does not have; what it says must be read.
            let shown = client.shown.get(URI).and_then(Value::as_array).cloned().unwrap_or_default();
            let slips: Vec<&Value> = shown
                .iter()
                .filter(|own| {
                    let line = own["range"]["start"]["line"].as_u64().unwrap();
                    let rule = own["code"].as_str().unwrap();
                    let elsewhere = ["text/include-missing", "text/house-rules-unread"].contains(&rule);
                    (first..behind).contains(&line) && rule.starts_with("text/") && !elsewhere
                })
                .collect();
            assert_eq!(slips, Vec::<&Value>::new(), "{after}");
            parts += 1;
        }
    }
    assert!(parts > 60, "{parts} parts");
    client.finish().await;
}
