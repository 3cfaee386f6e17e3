//! Findings as an editor sees them.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, builds, text, url};
use serde_json::json;

const RULE: &str = "protection/none-at-source";

fn line_of(text: &str, wanted: &str) -> u64 {
    u64::try_from(text.lines().position(|line| line.contains(wanted)).unwrap()).unwrap()
}

#[tokio::test(flavor = "multi_thread")]
async fn the_unfused_circuit_is_shown_while_it_is_typed_and_gone_when_it_is_mended() {
    let mut client = Client::plain().await;
    let (uri, clean) = (url("bramble.build.kdl"), text("bramble.build.kdl"));
    client.open(&uri, &clean).await;
    client.settle().await;
    assert_eq!(client.found(&uri), []);
    let fuse = "    fuse rating=\"3 A\" class=cylindrical voltage=\"60 V\" interrupting=\"10 kA\"\n";
    let unfused = clean.replace(fuse, "");
    assert_ne!(unfused, clean);
    client.replace(&uri, 2, &unfused).await;
    client.settle().await;
    let line = line_of(&unfused, "circuit \"bench lamp\"");
    assert_eq!(client.found(&uri), [(RULE.to_owned(), line)]);
    let at = json!({ "line": line, "character": 0 });
    let actions = client
        .request(
            "textDocument/codeAction",
            json!({ "textDocument": { "uri": uri }, "range": { "start": at, "end": at }, "context": { "diagnostics": [] } }),
        )
        .await;
    let titles: Vec<&str> = actions.as_array().unwrap().iter().map(|own| own["title"].as_str().unwrap()).collect();
    assert!(titles.iter().any(|title| title.starts_with("Put a ")), "{titles:?}");
    assert!(titles.contains(&"Waive it with a reason"), "{titles:?}");
    let edit = &actions[0]["edit"]["changes"][&uri][0];
    client.edit(&uri, 3, json!([{ "range": edit["range"], "text": edit["newText"] }])).await;
    client.settle().await;
    assert!(!client.found(&uri).iter().any(|(rule, _)| rule == RULE), "{:?}", client.found(&uri));
    // The fault has the newest version in its news.
    let news = client.told.iter().rfind(|own| own["method"] == "textDocument/publishDiagnostics").unwrap();
    assert_eq!(news["params"]["version"], 3);
    client.replace(&uri, 4, &clean).await;
    client.settle().await;
    assert_eq!(client.found(&uri), []);
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn findings_of_an_included_file_are_shown_there_and_vanish_with_it() {
    let folder = tempfile::tempdir().unwrap();
    let root = format!("file://{}", folder.path().join("a.build.kdl").display());
    let parts = format!("file://{}", folder.path().join("p.parts.kdl").display());
    let mut client = Client::plain().await;
    client.open(&root, "build A { basis eu; include \"p.parts.kdl\" }\n").await;
    client.settle().await;
    assert!(client.found(&root).iter().any(|(rule, _)| rule == "text/include-missing"));
    // The file comes to be in the editor before it is on disk.
    client.open(&parts, "battery house chemistri=AGM\n").await;
    client.settle().await;
    assert!(!client.found(&root).iter().any(|(rule, _)| rule == "text/include-missing"));
    assert_eq!(client.found(&parts).iter().filter(|(rule, _)| rule == "text/unknown-property").count(), 1);
    client.replace(&parts, 2, "battery house chemistry=AGM\n").await;
    client.settle().await;
    assert!(!client.found(&parts).iter().any(|(rule, _)| rule == "text/unknown-property"));
    client.close(&root).await;
    client.close(&parts).await;
    client.settle().await;
    assert_eq!((client.found(&root), client.found(&parts)), (vec![], vec![]));
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn equal_findings_are_not_published_again() {
    let mut client = Client::plain().await;
    let (uri, faulty) = (url("bramble-faulty.build.kdl"), text("bramble-faulty.build.kdl"));
    client.open(&uri, &faulty).await;
    client.settle().await;
    let before = client.told.len();
    for version in 2..6 {
        client.replace(&uri, version, &format!("{faulty}\n// {version}\n")).await;
        client.settle().await;
    }
    assert_eq!(client.told.len(), before, "a comment at the end changes nothing");
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn other_places_are_told_apart_or_in_the_message_as_the_client_can() {
    let unfused = text("bramble.build.kdl")
        .replace("    fuse rating=\"3 A\" class=cylindrical voltage=\"60 V\" interrupting=\"10 kA\"\n", "");
    for (capable, capabilities) in [
        (true, json!({ "textDocument": { "publishDiagnostics": { "relatedInformation": true } } })),
        (false, json!({})),
    ] {
        let mut client = Client::with(capabilities).await;
        let uri = url("bramble.build.kdl");
        client.open(&uri, &unfused).await;
        client.settle().await;
        let shown = client.shown[&uri][0].clone();
        assert_eq!(shown["relatedInformation"].is_array(), capable);
        assert_eq!(shown["message"].as_str().unwrap().contains("See line"), !capable);
        assert_eq!(shown["severity"], 1, "a danger is an error");
        assert_eq!(shown["data"]["signal"], "danger");
        client.finish().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_rule_pack_shows_its_own_faults_only() {
    let mut client = Client::plain().await;
    let packs = builds().join("../../rules").canonicalize().unwrap();
    for entry in ["any/wiring.rules.kdl", "any/in-line.rules.kdl", "us/wiring.rules.kdl"] {
        let path = packs.join(entry);
        let uri = format!("file://{}", path.display());
        let text = std::fs::read_to_string(&path).unwrap();
        client.open(&uri, &text).await;
        client.settle().await;
        assert_eq!(client.shown.get(&uri).unwrap_or(&json!([])), &json!([]), "{entry}");
        client.replace(&uri, 2, &text.replacen("    must \"", "    must \"not_a_fact_of_it && ", 1)).await;
        client.settle().await;
        let line = line_of(&text, "    must \"");
        let shown = &client.shown[&uri];
        assert_eq!(shown.as_array().unwrap().len(), 1, "{shown}");
        assert_eq!((&shown[0]["range"]["start"]["line"], &shown[0]["severity"]), (&json!(line), &json!(1)), "{shown}");
    }
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn undecided_checks_are_told_one_by_one_or_folded() {
    let uri = "file:///nowhere/a.build.kdl";
    let text = "build A { stage draft; basis eu; }\nbattery house chemistry=LFP voltage=\"12.8 V\"\n";
    let mut client = Client::plain().await;
    client.open(uri, text).await;
    client.settle().await;
    let undecided = |client: &Client| -> Vec<serde_json::Value> {
        let shown = client.shown[uri].as_array().unwrap().iter();
        shown.filter(|own| own["data"]["undecided"] == true).cloned().collect()
    };
    let each = undecided(&client);
    assert!(each.len() > 5, "{}", each.len());
    for (setting, folded) in [("folded", true), ("perhaps", true), ("each", false)] {
        let before = undecided(&client).len();
        let changes = (setting == "folded" && before == each.len()) || (setting == "each" && before < each.len());
        client.changes += u64::from(changes);
        client.notify("workspace/didChangeConfiguration", json!({ "settings": { "undecided": setting } })).await;
        client.settle().await;
        let now = undecided(&client);
        if !folded {
            assert_eq!(now, each);
            continue;
        }
        let mut places: Vec<String> = now.iter().map(|own| own["range"].to_string()).collect();
        places.sort();
        places.dedup();
        assert_eq!(places.len(), now.len(), "one for each place");
        let told: u64 = now.iter().map(|own| own["data"]["count"].as_u64().unwrap_or(1)).sum();
        assert_eq!(told, each.len() as u64, "none is lost");
        // What can be done about each is still offered.
        let at = now.iter().max_by_key(|own| own["data"]["count"].as_u64()).unwrap()["range"].clone();
        let params = json!({ "textDocument": { "uri": uri }, "range": at, "context": { "diagnostics": [] } });
        let actions = client.request("textDocument/codeAction", params).await;
        let of_folded =
            actions.as_array().unwrap().iter().filter(|own| own["diagnostics"][0]["data"]["count"].is_u64());
        assert!(of_folded.count() > 3, "{actions}");
    }
    client.finish().await;
}
