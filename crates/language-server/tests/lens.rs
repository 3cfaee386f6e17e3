//! Lenses as an editor shows them above their lines.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod support;

use serde_json::{Value, json};
use support::{Client, text, url};

/// The lenses of a text: the line above which each stands, and its title.
async fn lenses(client: &mut Client, uri: &str, text: &str) -> Vec<(String, String)> {
    let lenses = client.request("textDocument/codeLens", json!({ "textDocument": { "uri": uri } })).await;
    let shown = lenses.as_array().unwrap().iter().map(|lens| {
        assert_eq!(lens["command"]["command"], "", "a lens tells and does nothing");
        let line = usize::try_from(lens["range"]["start"]["line"].as_u64().unwrap()).unwrap();
        let first: Vec<&str> = text.lines().nth(line).unwrap().split_whitespace().take(2).collect();
        (first.join(" "), lens["command"]["title"].as_str().unwrap().to_owned())
    });
    shown.collect()
}

fn owned(pairs: &[(&str, &str)]) -> Vec<(String, String)> {
    pairs.iter().map(|(line, title)| ((*line).to_owned(), (*title).to_owned())).collect()
}

#[tokio::test(flavor = "multi_thread")]
async fn budgets_stand_above_what_has_them() {
    for (name, expected) in [("bramble.build.kdl", vec![("", "")]), ("juniper.build.kdl", vec![("", "")])] {
        let mut client = Client::plain().await;
        let (uri, text) = (url(name), text(name));
        client.open(&uri, &text).await;
        client.settle().await;
        assert_eq!(lenses(&mut client, &uri, &text).await, owned(&expected));
        client.finish().await;
    }
}
