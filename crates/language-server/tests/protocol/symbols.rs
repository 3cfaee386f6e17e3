//! Names found over all open builds, as an editor lists them.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, text, url};
use serde_json::{Value, json};

/// What a query finds: name, where it belongs, the end of the file's name and the line.
async fn found(client: &mut Client, query: &str) -> Vec<(String, String, String, u64)> {
    let symbols = client.request("workspace/symbol", json!({ "query": query })).await;
    let text = |value: &Value| value.as_str().unwrap_or("").to_owned();
    let symbols = symbols.as_array().unwrap().iter().map(|own| {
        let file = text(&own["location"]["uri"]).rsplit('/').next().unwrap().to_owned();
        let line = own["location"]["range"]["start"]["line"].as_u64().unwrap();
        (text(&own["name"]), text(&own["containerName"]), file, line)
    });
    symbols.collect()
}

fn own(name: &str, container: &str, file: &str, line: u64) -> (String, String, String, u64) {
    (name.to_owned(), container.to_owned(), file.to_owned(), line)
}

#[tokio::test(flavor = "multi_thread")]
async fn names_are_found_by_a_few_letters_over_all_builds_and_their_files() {
    let folder = tempfile::tempdir().unwrap();
    let uri = |name: &str| format!("file://{}", folder.path().join(name).display());
    std::fs::write(folder.path().join("p.parts.kdl"), "// 🚐\nbattery \"Große Bank\" voltage=\"12 V\"\n").unwrap();
    std::fs::write(folder.path().join("rest.kdl"), "lamp \"🚐 great bench\" power=\"5 W\"\n").unwrap();
    let mut client = Client::plain().await;
    let root = "build A { include \"p.parts.kdl\"; include \"rest.kdl\"; }\nzone cabin kind=living { vent low to=outside; }\nbattery house like=\"Große Bank\"\nwater-line cold { pump \"water pump\"; }\n";
    client.open(&uri("a.build.kdl"), root).await;
    client
        .open(&uri("b.build.kdl"), "build B { include \"rest.kdl\"; }\nlamp banker power=\"5 W\"\nfan \"broken\n")
        .await;
    client.settle().await;
    for (query, expected) in [
        ("GRBA", vec![own("Große Bank", "build A", "p.parts.kdl", 1)]),
        ("wtrpmp", vec![own("water pump", "water-line cold", "a.build.kdl", 3)]),
        ("b n k", vec![own("Große Bank", "build A", "p.parts.kdl", 1), own("banker", "build B", "b.build.kdl", 1)]),
        // It is included twice and listed once.
        ("great bench", vec![own("🚐 great bench", "build A", "rest.kdl", 0)]),
        ("hosue", vec![]),
    ] {
        assert_eq!(found(&mut client, query).await, expected, "{query}");
    }
    let all = found(&mut client, "").await;
    assert!(all.contains(&own("A", "build A", "a.build.kdl", 0)), "{all:?}");
    assert!(!all.iter().any(|(name, ..)| name.contains("broken")));
    // What is no longer open is no longer listed, nor is what only it included.
    client.close(&uri("a.build.kdl")).await;
    client.settle().await;
    assert_eq!(found(&mut client, "grba").await, vec![]);
    assert_eq!(found(&mut client, "great").await, vec![own("🚐 great bench", "build B", "rest.kdl", 0)]);
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_name_is_where_it_stands_now() {
    let mut client = Client::plain().await;
    assert_eq!(found(&mut client, "house").await, vec![]);
    let (uri, text) = (url("bramble.build.kdl"), text("bramble.build.kdl"));
    client.open(&uri, &text).await;
    client.settle().await;
    let before = found(&mut client, "bench lamp").await;
    client.replace(&uri, 2, &format!("// one\n// two\n{text}")).await;
    let after = found(&mut client, "bench lamp").await;
    assert!(!before.is_empty());
    for (before, after) in before.iter().zip(&after) {
        assert_eq!((&before.0, before.3 + 2), (&after.0, after.3));
    }
    client.settle().await;
    client.finish().await;
}
