//! What can be done about a finding from within the editor: applied to the text, the finding is gone and nothing else stands
//! there.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod support;

use language_server::position::{Encoding, Lines};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use support::{Client, text};
use tower_lsp::lsp_types::Range;

const URI: &str = "file:///nowhere/test.build.kdl";
const PARTS: &str = "file:///nowhere/test.parts.kdl";

/// A small build without faults of wiring, for one thing to be made wrong.
const BUILD: &str = r#"build Test {
    stage review
    basis eu
    units metric
}
vehicle class=van
battery "größte 🔋" chemistry=LFP voltage="12.8 V" capacity="200 Ah" {
    internal-resistance "4 mohm"
}
defaults {
    wire insulation="105 degC" strands=flexible return=pair standard="ISO 6722-1"
}
busbar bar rating="300 A" cover=yes
busbar negative rating="300 A"
circuit main from="größte 🔋" to=bar {
    wire size="35 mm2" one-way="0.2 m"
    fuse rating="125 A" class=T
    wire size="35 mm2" one-way="1 m"
}
circuit lamp from=bar to=lamp {
    fuse rating="5 A" class=T
    wire size="1.5 mm2" one-way="3 m"
}
circuit "panel feed" from=bar to=panel {
    fuse rating="40 A" class=T
    wire size="10 mm2" one-way="1 m"
}
panel panel rating="60 A" negative=negative fuse-class=cylindrical device-voltage="60 V" interrupting="10 kA" {
    way 1 fridge fuse="10 A" wire="2.5 mm2" one-way="2 m"
    way 2 pump   fuse="5 A" wire="1.5 mm2" one-way="2 m"
}
lamp lamp power="20 W"
appliance fridge current="5 A"
appliance pump current="3 A"
"#;

fn offset(text: &str, wanted: &str) -> usize {
    assert_eq!(text.matches(wanted).count(), 1, "{wanted} stands once");
    text.find(wanted).unwrap()
}

async fn opened(text: &str) -> Client {
    let mut client = Client::plain().await;
    client.open(URI, text).await;
    client.settle().await;
    client
}

/// The actions at a place of the text.
async fn actions(client: &mut Client, uri: &str, text: &str, at: &str) -> Vec<Value> {
    let byte = offset(text, at);
    let range = Lines::of(text).range(text, &(byte..byte), Encoding::Utf16);
    let params = json!({ "textDocument": { "uri": uri }, "range": range, "context": { "diagnostics": [] } });
    client.request("textDocument/codeAction", params).await.as_array().unwrap().clone()
}

fn titles(actions: &[Value]) -> Vec<&str> {
    actions.iter().map(|own| own["title"].as_str().unwrap()).collect()
}

/// The text after the action of this title; its edits stand in it.
fn applied(text: &str, uri: &str, actions: &[Value], title: &str) -> String {
    let action = actions.iter().find(|own| own["title"] == title);
    let action = action.unwrap_or_else(|| panic!("no action `{title}` among {:?}", titles(actions)));
    let lines = Lines::of(text);
    let edits: Vec<(Range, String)> = action["edit"]["changes"][uri]
        .as_array()
        .unwrap()
        .iter()
        .map(|edit| {
            (serde_json::from_value(edit["range"].clone()).unwrap(), edit["newText"].as_str().unwrap().to_owned())
        })
        .collect();
    let mut edits: Vec<_> =
        edits.into_iter().map(|(range, new)| (lines.bytes(text, range, Encoding::Utf16).unwrap(), new)).collect();
    edits.sort_by_key(|(bytes, _)| std::cmp::Reverse(bytes.start));
    let mut after = text.to_owned();
    for (bytes, new) in edits {
        after.replace_range(bytes, &new);
    }
    after
}

fn rules(client: &Client, uri: &str) -> BTreeSet<String> {
    client.found(uri).into_iter().map(|(rule, _)| rule).collect()
}

/// What is made wrong, the rule that sees it, where the cursor stands, the action, and what the action must write.
type Case = (&'static str, &'static str, &'static str, &'static str, &'static str, &'static str);

#[tokio::test(flavor = "multi_thread")]
async fn a_mend_takes_its_finding_away_and_brings_no_other() {
    let cases: Vec<Case> = vec![
        // Protection, of a size inside its window, at the source's side.
        (
            "    fuse rating=\"5 A\" class=T\n    wire size=\"1.5 mm2\" one-way=\"3 m\"",
            "    wire size=\"1.5 mm2\" one-way=\"3 m\"",
            "protection/none-at-source",
            "circuit lamp",
            "Put a 15 A fuse into circuit \"lamp\", at busbar \"bar\"",
            "    fuse rating=\"15 A\"\n    wire size=\"1.5 mm2\" one-way=\"3 m\"\n}",
        ),
        (
            "way 2 pump   fuse=\"5 A\" wire",
            "way 2 pump   wire",
            "protection/none-at-source",
            "way 2 pump",
            "Put a 15 A fuse into way \"pump\" in panel \"panel\"",
            "way 2 pump   wire=\"1.5 mm2\" one-way=\"2 m\" fuse=\"15 A\"\n",
        ),
        // The next size of wire that cures it, in the system in which it is written.
        (
            "way 1 fridge fuse=\"10 A\" wire=\"2.5 mm2\"",
            "way 1 fridge fuse=\"40 A\" wire=\"2.5 mm2\"",
            "protection/above-ampacity",
            "fuse=\"40 A\"",
            "Make the conductor of way \"fridge\" in panel \"panel\" 6 mm2",
            "way 1 fridge fuse=\"40 A\" wire=\"6 mm2\"",
        ),
        (
            "wire=\"1.5 mm2\" one-way=\"2 m\"\n}",
            "wire=\"20 AWG\" one-way=\"2 m\"\n}",
            "wiring/too-thin",
            "way 2 pump",
            "Make the conductor of way \"pump\" in panel \"panel\" 16 AWG",
            "wire=\"16 AWG\" one-way=\"2 m\"\n}",
        ),
        (
            "wire size=\"1.5 mm2\" one-way=\"3 m\"",
            "wire size=\"1.5 mm2\" one-way=\"11 m\"",
            "drop/too-large",
            "circuit lamp",
            "Make the conductor of circuit \"lamp\" 2.5 mm2",
            "wire size=\"2.5 mm2\" one-way=\"11 m\"",
        ),
        // Quotes and units.
        (
            "wire size=\"1.5 mm2\" one-way=\"3 m\"",
            "wire size=1.5mm2 one-way=\"3 m\"",
            "text/quotes-missing",
            "size=1.5mm2",
            "Write \"1.5 mm2\"",
            "wire size=\"1.5 mm2\" one-way=\"3 m\"",
        ),
        // Misspelt words.
        (
            "chemistry=LFP",
            "chemistri=LFP",
            "text/unknown-property",
            "chemistri=LFP",
            "Write chemistry",
            "chemistry=LFP",
        ),
        ("chemistry=LFP", "chemistry=LPF", "text/not-a-choice", "LPF", "Write LFP", "chemistry=LFP"),
        ("lamp lamp power", "lmap lamp power", "text/unknown-part", "lmap lamp", "Write lamp", "lamp lamp power"),
        ("from=bar to=lamp", "from=barr to=lamp", "names/unknown-name", "barr", "Write bar", "from=bar to=lamp"),
    ];
    for (from, to, rule, at, title, after) in cases {
        offset(BUILD, from);
        let wrong = BUILD.replacen(from, to, 1);
        let mut client = opened(BUILD).await;
        let in_order = rules(&client, URI);
        client.replace(URI, 2, &wrong).await;
        client.settle().await;
        assert!(rules(&client, URI).contains(rule), "{to}: {:?}", client.shown.get(URI));
        let offered = actions(&mut client, URI, &wrong, at).await;
        let mended = applied(&wrong, URI, &offered, title);
        assert!(mended.contains(after), "{title}:\n{mended}");
        client.replace(URI, 3, &mended).await;
        client.settle().await;
        let new: Vec<String> = rules(&client, URI).difference(&in_order).cloned().collect();
        // A fuse of which nothing else is written leaves questions, and no faults.
        assert!(!new.contains(&rule.to_owned()), "{title}: {new:?}\n{mended}");
        assert!(
            !client.shown[URI]
                .as_array()
                .unwrap()
                .iter()
                .any(|own| { own["data"]["undecided"] == false && new.iter().any(|rule| own["code"] == *rule) }),
            "{title}: {new:?}\n{mended}"
        );
        client.finish().await;
    }
}
