//! What can be done about a finding from within the editor: applied to the text, the finding is gone and nothing else stands
//! there.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on has failed")]

use crate::support::Client;
use language_server::position::{Encoding, Lines};
use serde_json::{Value, json};
use std::collections::BTreeSet;

const URI: &str = "file:///nowhere/test.build.kdl";

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
    fuse rating="60 A" class=T
    wire size="16 mm2" one-way="1 m"
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

/// The actions for the first finding of a rule that is shown.
async fn actions(client: &mut Client, uri: &str, rule: &str) -> Vec<Value> {
    let shown = client.shown[uri].as_array().unwrap();
    let finding = shown.iter().find(|own| own["code"] == rule).unwrap().clone();
    let at = json!({ "start": finding["range"]["start"], "end": finding["range"]["start"] });
    let params = json!({ "textDocument": { "uri": uri }, "range": at, "context": { "diagnostics": [finding] } });
    client.request("textDocument/codeAction", params).await.as_array().unwrap().clone()
}

fn titles(actions: &[Value]) -> Vec<&str> {
    actions.iter().map(|own| own["title"].as_str().unwrap()).collect()
}

/// The text after the action of this title; its edits stand in it.
fn applied(text: &str, uri: &str, actions: &[Value], title: &str) -> String {
    let action = actions.iter().find(|own| own["title"] == title);
    let action = action.unwrap_or_else(|| panic!("no action `{title}` among {:?}", titles(actions)));
    crate::support::applied(text, &action["edit"]["changes"][uri])
}

fn rules(client: &Client, uri: &str) -> BTreeSet<String> {
    client.found(uri).into_iter().map(|(rule, _)| rule).collect()
}

/// What is made wrong, the rule that sees it, the action, and what the action must write.
type Case = (&'static str, &'static str, &'static str, &'static str, &'static str);

#[tokio::test(flavor = "multi_thread")]
async fn a_mend_takes_its_finding_away_and_brings_no_other() {
    let cases: Vec<Case> = vec![
        // Protection, of a size inside its window, at the source's side.
        (
            "    fuse rating=\"5 A\" class=T\n    wire size=\"1.5 mm2\" one-way=\"3 m\"",
            "    wire size=\"1.5 mm2\" one-way=\"3 m\"",
            "protection/none-at-source",
            "Put a 25 A fuse into circuit \"lamp\", at busbar \"bar\"",
            "    fuse rating=\"25 A\"\n    wire size=\"1.5 mm2\" one-way=\"3 m\"\n}",
        ),
        (
            "way 2 pump   fuse=\"5 A\" wire",
            "way 2 pump   wire",
            "protection/none-at-source",
            "Put a 25 A fuse into way \"pump\" in panel \"panel\"",
            "way 2 pump   wire=\"1.5 mm2\" one-way=\"2 m\" fuse=\"25 A\"\n",
        ),
        // The next size of wire that cures it, in the system in which it is written.
        (
            "way 1 fridge fuse=\"10 A\" wire=\"2.5 mm2\"",
            "way 1 fridge fuse=\"40 A\" wire=\"2.5 mm2\"",
            "protection/above-ampacity",
            "Make the conductor of way \"fridge\" in panel \"panel\" 4 mm2",
            "way 1 fridge fuse=\"40 A\" wire=\"4 mm2\"",
        ),
        (
            "wire=\"1.5 mm2\" one-way=\"2 m\"\n}",
            "wire=\"20 AWG\" one-way=\"2 m\"\n}",
            "wiring/too-thin",
            "Make the conductor of way \"pump\" in panel \"panel\" 16 AWG",
            "wire=\"16 AWG\" one-way=\"2 m\"\n}",
        ),
        (
            "wire size=\"1.5 mm2\" one-way=\"3 m\"",
            "wire size=\"1.5 mm2\" one-way=\"20 m\"",
            "drop/too-large",
            "Make the conductor of circuit \"lamp\" 2.5 mm2",
            "wire size=\"2.5 mm2\" one-way=\"20 m\"",
        ),
        // Quotes and units.
        (
            "wire size=\"1.5 mm2\" one-way=\"3 m\"",
            "wire size=1.5mm2 one-way=\"3 m\"",
            "text/missing-quotes",
            "Write \"1.5 mm2\"",
            "wire size=\"1.5 mm2\" one-way=\"3 m\"",
        ),
        // Misspelt words.
        ("chemistry=LFP", "chemistri=LFP", "text/unknown-property", "Write chemistry", "chemistry=LFP"),
        ("chemistry=LFP", "chemistry=LPF", "text/not-a-choice", "Write LFP", "chemistry=LFP"),
        ("lamp lamp power", "lmap lamp power", "text/unknown-part", "Write lamp", "lamp lamp power"),
        ("from=bar to=lamp", "from=barr to=lamp", "names/unknown-name", "Write bar", "from=bar to=lamp"),
    ];
    for (from, to, rule, title, after) in cases {
        offset(BUILD, from);
        let wrong = BUILD.replacen(from, to, 1);
        let mut client = opened(BUILD).await;
        let in_order = rules(&client, URI);
        client.replace(URI, 2, &wrong).await;
        client.settle().await;
        assert!(rules(&client, URI).contains(rule), "{to}: {:?}", rules(&client, URI));
        let offered = actions(&mut client, URI, rule).await;
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

/// Opens a text, takes an action for a rule's finding, and gives the client with the text after it.
async fn after(text: &str, rule: &str, title: &str) -> (Client, String) {
    let mut client = opened(text).await;
    let offered = actions(&mut client, URI, rule).await;
    let mended = applied(text, URI, &offered, title);
    client.replace(URI, 2, &mended).await;
    client.settle().await;
    (client, mended)
}

#[tokio::test(flavor = "multi_thread")]
async fn an_entry_that_an_undecided_check_needs_is_offered_word_by_word_or_to_be_filled_in() {
    let cover = "Write cover=yes on battery \"größte 🔋\"";
    let (client, mended) = after(BUILD, "battery/bare-terminals", cover).await;
    assert!(mended.contains("capacity=\"200 Ah\" cover=yes {"), "{mended}");
    assert!(!rules(&client, URI).contains("battery/bare-terminals"));
    client.finish().await;
    // Nobody can guess a temperature: the entry is opened, and the tool says there what is to be written.
    let hottest = "Write hottest= on battery \"größte 🔋\", to be filled in";
    let (client, mended) = after(BUILD, "charging/too-hot", hottest).await;
    let line = u64::try_from(mended.lines().position(|line| line.contains("hottest=\"\"")).unwrap()).unwrap();
    assert!(client.found(URI).contains(&("text/value-not-understood".to_owned(), line)));
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_system_is_declared_absent_and_a_finding_is_accepted() {
    let (client, mended) = after(BUILD, "system/not-described", "Declare absent: none gas").await;
    assert!(mended.contains("build Test {\n    none gas\n"), "{mended}");
    let message =
        client.shown[URI].as_array().unwrap().iter().find(|own| own["code"] == "system/not-described").unwrap();
    assert!(!message["message"].as_str().unwrap().contains("gas"), "{message}");
    client.finish().await;
    // A waiver is written at once; until its reason is, the tool says so.
    let (mut client, mended) = after(BUILD, "battery/not-restrained", "Waive it with a reason").await;
    assert!(
        mended.ends_with(
            "waive \"battery/not-restrained\" on=\"größte 🔋\" reason=unknown by=unknown evidence=unknown\n"
        ),
        "{mended}"
    );
    assert!(rules(&client, URI).iter().any(|rule| rule.starts_with("waiver/")), "{:?}", rules(&client, URI));
    let reasoned = mended
        .replace("reason=unknown by=unknown evidence=unknown", "reason=\"a net\" by=\"the owner\" evidence=\"test 4\"");
    client.replace(URI, 3, &reasoned).await;
    client.settle().await;
    assert!(!rules(&client, URI).contains("battery/not-restrained"), "{:?}", rules(&client, URI));
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn nothing_is_offered_for_a_text_that_is_newer_than_its_check() {
    let mut client = opened(BUILD).await;
    let wrong = BUILD.replacen("chemistry=LFP", "chemistri=LFP", 1);
    let line = u64::try_from(wrong.lines().position(|line| line.contains("chemistri")).unwrap()).unwrap();
    let range = json!({ "start": { "line": line, "character": 0 }, "end": { "line": line, "character": 80 } });
    let ask = json!({ "textDocument": { "uri": URI }, "range": range, "context": { "diagnostics": [] } });
    for version in 2..30 {
        let text = if version % 2 == 0 { wrong.clone() } else { format!("\n\n{wrong}") };
        client.replace(URI, version, &text).await;
        // The check may be done or not: what is offered fits the text, or nothing is.
        let offered = client.request("textDocument/codeAction", ask.clone()).await;
        for own in offered.as_array().unwrap().iter().filter(|own| own["title"] == "Write chemistry") {
            let edit = &own["edit"]["changes"][URI][0];
            let bytes = Lines::of(&text)
                .bytes(&text, serde_json::from_value(edit["range"].clone()).unwrap(), Encoding::Utf16)
                .unwrap();
            assert_eq!(&text[bytes], "chemistri");
        }
    }
    client.settle().await;
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn edits_carry_the_version_where_the_client_reads_it_and_other_kinds_are_not_offered() {
    let wrong = BUILD.replacen("chemistry=LFP", "chemistri=LFP", 1);
    let mut client = Client::with(json!({ "workspace": { "workspaceEdit": { "documentChanges": true } } })).await;
    client.open(URI, &wrong).await;
    client.replace(URI, 7, &wrong).await;
    client.settle().await;
    let offered = actions(&mut client, URI, "text/unknown-property").await;
    let changes = &offered[0]["edit"]["documentChanges"][0];
    assert_eq!(changes["textDocument"], json!({ "uri": URI, "version": 7 }));
    assert_eq!(changes["edits"][0]["newText"], "chemistry");
    let at = client.shown[URI][0]["range"].clone();
    for (only, some) in [("refactor", false), ("source.fixAll", false), ("quickfix", true), ("", true)] {
        let context = json!({ "diagnostics": [], "only": [only] });
        let params = json!({ "textDocument": { "uri": URI }, "range": at, "context": context });
        let offered = client.request("textDocument/codeAction", params).await;
        assert_eq!(!offered.as_array().unwrap().is_empty(), some, "{only}");
    }
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_circuit_of_an_included_file_is_mended_there_and_at_its_far_end_where_the_source_is() {
    let circuit =
        "circuit charge from=charger to=house {\n    wire size=\"6 mm2\" one-way=\"1 m\" insulation=\"105 degC\"\n}\n";
    let (root, more) = ("file:///nowhere/a.build.kdl", "file:///nowhere/more.build.kdl");
    let build = "build A { stage review; basis eu; include \"more.build.kdl\"; }\n\
        battery house chemistry=LFP voltage=\"12.8 V\" capacity=\"200 Ah\"\n\
        charger charger kind=mains output=\"20 A\" voltage=\"14.2 V\" draw=\"300 W\"\n";
    let mut client = Client::plain().await;
    client.open(more, circuit).await;
    client.open(root, build).await;
    client.settle().await;
    assert!(rules(&client, more).contains("protection/none-at-source"), "{:?}", client.shown);
    let offered = actions(&mut client, more, "protection/none-at-source").await;
    let title =
        offered.iter().find(|own| own["title"].as_str().unwrap().starts_with("Put a ")).unwrap()["title"].clone();
    let title = title.as_str().unwrap();
    assert!(title.ends_with("A fuse into circuit \"charge\", at battery \"house\""), "{title}");
    let mended = applied(circuit, more, &offered, title);
    // The charger limits its own current; the battery does not, so the fuse stands at the battery.
    assert!(mended.trim_end().ends_with("A\"\n}") && mended.contains("degC\"\n    fuse"), "{mended}");
    client.replace(more, 2, &mended).await;
    client.settle().await;
    assert!(!rules(&client, more).contains("protection/none-at-source"));
    client.finish().await;
}
