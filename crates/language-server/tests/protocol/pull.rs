//! Findings for a client that wants to ask for them.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, Manners, surroundings, text, url};
use serde_json::{Value, json};

const PULL: &str = "textDocument/diagnostic";

fn capabilities(refreshes: bool) -> Value {
    json!({
        "textDocument": { "diagnostic": { "relatedDocumentSupport": true } },
        "workspace": { "diagnostics": { "refreshSupport": refreshes } },
    })
}

async fn asking() -> Client {
    Client::started(surroundings(), Manners::Good, capabilities(false), json!({ "diagnostics": "pull" })).await
}

fn of(uri: &str) -> Value {
    json!({ "textDocument": { "uri": uri } })
}

fn rules(items: &Value) -> Vec<&str> {
    items.as_array().unwrap().iter().map(|own| own["code"].as_str().unwrap()).collect()
}

#[tokio::test(flavor = "multi_thread")]
async fn a_client_that_wants_to_ask_is_answered_for_the_newest_text_and_told_nothing() {
    let mut client = asking().await;
    let fuse = "    fuse rating=\"3 A\" class=cylindrical voltage=\"60 V\" interrupting=\"10 kA\"\n";
    let (uri, clean) = (url("bramble.build.kdl"), text("bramble.build.kdl"));
    client.open(&uri, &clean).await;
    client.replace(&uri, 2, &clean.replace(fuse, "")).await;
    // Asked at once: the answer waits for the check of what was sent before.
    let report = client.request(PULL, of(&uri)).await;
    assert_eq!(report["kind"], "full");
    assert_eq!(rules(&report["items"]), ["protection/none-at-source"]);
    // What stands in included files comes with it.
    assert_eq!(report["relatedDocuments"][url("shop.parts.kdl")]["items"], json!([]));
    let mut again = of(&uri);
    again["previousResultId"] = report["resultId"].clone();
    client.replace(&uri, 3, &format!("{}// a comment\n", clean.replace(fuse, ""))).await;
    assert_eq!(client.request(PULL, again.clone()).await["kind"], "unchanged");
    client.replace(&uri, 4, &clean).await;
    let report = client.request(PULL, again).await;
    assert_eq!((&report["kind"], &report["items"]), (&json!("full"), &json!([])));
    client.settle().await;
    assert_eq!(client.told, Vec::<Value>::new(), "asked for and told are never mixed");
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_client_that_only_could_ask_is_told() {
    let mut client = Client::with(capabilities(true)).await;
    let (uri, faulty) = (url("bramble-faulty.build.kdl"), text("bramble-faulty.build.kdl"));
    client.open(&uri, &faulty).await;
    client.settle().await;
    assert!(!client.found(&uri).is_empty());
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_client_that_asks_is_told_to_ask_again_when_something_changed() {
    let mut client =
        Client::started(surroundings(), Manners::Odd, capabilities(true), json!({ "diagnostics": "pull" })).await;
    let (uri, faulty) = (url("bramble-faulty.build.kdl"), text("bramble-faulty.build.kdl"));
    client.open(&uri, &faulty).await;
    client.hear("workspace/diagnostic/refresh").await;
    assert!(rules(&client.request(PULL, of(&uri)).await["items"]).contains(&"protection/none-at-source"));
    client.finish().await;
}
