//! Files on disk that open builds read: what changes there is seen.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, Manners, surroundings};
use serde_json::{Value, json};

fn misspelt(client: &Client, uri: &str) -> usize {
    client.found(uri).iter().filter(|(rule, _)| rule == "text/unknown-property").count()
}

#[tokio::test(flavor = "multi_thread")]
async fn an_included_file_that_changes_on_disk_is_read_again() {
    let folder = tempfile::tempdir().unwrap();
    let address = |name: &str| format!("file://{}", folder.path().join(name).display());
    let (root, more) = (address("a.build.kdl"), address("more.build.kdl"));
    let write = |text: &str| std::fs::write(folder.path().join("more.build.kdl"), text).unwrap();
    write("battery house chemistri=AGM\n");
    let capabilities = json!({ "workspace": { "didChangeWatchedFiles": { "dynamicRegistration": true } } });
    let mut client = Client::started(surroundings(), Manners::Odd, capabilities, Value::Null).await;
    let registered = client.hear("client/registerCapability").await;
    assert_eq!(registered["params"]["registrations"][0]["registerOptions"]["watchers"][0]["globPattern"], "**/*.kdl");
    client.open(&root, "build A { basis eu; include \"more.build.kdl\"; }\n").await;
    client.settle().await;
    assert_eq!(misspelt(&client, &more), 1, "the file is not open, and yet it is told of");
    // Changed, taken away, and there again.
    for (change, text) in
        [(2, Some("battery house chemistry=AGM\n")), (3, None), (1, Some("battery house chemistri=AGM\n"))]
    {
        match text {
            Some(text) => write(text),
            None => std::fs::remove_file(folder.path().join("more.build.kdl")).unwrap(),
        }
        client.changes += 1;
        let changes = json!({ "changes": [{ "uri": more, "type": change }] });
        client.notify("workspace/didChangeWatchedFiles", changes).await;
        client.settle().await;
        assert_eq!(misspelt(&client, &more), usize::from(change == 1), "{change}");
        let missing = client.found(&root).iter().any(|(rule, _)| rule == "text/include-missing");
        assert_eq!(missing, change == 3);
    }
    // What is open in the editor stands above what is on disk.
    client.open(&more, "battery house chemistry=AGM\n").await;
    client.settle().await;
    assert_eq!(misspelt(&client, &more), 0);
    client.close(&more).await;
    client.settle().await;
    assert_eq!(misspelt(&client, &more), 1, "closed unsaved, the disk holds again");
    // A build in another folder does not care.
    let before = client.told.len();
    client
        .notify("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": address("notes.txt"), "type": 2 }] }))
        .await;
    client
        .request(
            "textDocument/hover",
            json!({ "textDocument": { "uri": root }, "position": { "line": 0, "character": 0 } }),
        )
        .await;
    assert_eq!(client.told.len(), before);
    client.finish().await;
}
