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

#[tokio::test(flavor = "multi_thread")]
async fn house_rules_that_change_judge_anew() {
    const RULES: &str = r##"
fixture "lamp" #"""
    build Test { stage review; basis eu; }
    battery house
    lamp bench
    circuit feed from=house to=bench { wire size="1.5 mm2"; }
    """#
rule "wiring/shop-thin" caution about=wire {
    title "Thinner than this shop wires"
    value least any="2.5 mm2" help="the thinnest conductor that this shop fits"
    must "size >= least"
    tell "The wire is {size}."
    why "One size on the shelf is never mixed up."
    remedy "Take {least}."
    source "House rule" place="sheet 4" edition="2026" mark=chosen
    example "thinner" fails on="lamp"
    example "as thin as may be" holds on="lamp" { change "1.5 mm2" to="2.5 mm2" }
    example "a size thicker" holds on="lamp" { change "1.5 mm2" to="4 mm2" }
    example "nobody says how thin" open on="lamp" missing="size" { change #"size="1.5 mm2""# to="" }
}
"##;
    let folder = tempfile::tempdir().unwrap();
    let address = |name: &str| format!("file://{}", folder.path().join(name).display());
    let (root, rules) = (address("a.build.kdl"), address("shop/wiring.rules.kdl"));
    std::fs::create_dir(folder.path().join("shop")).unwrap();
    let write = |text: &str| std::fs::write(folder.path().join("shop/wiring.rules.kdl"), text).unwrap();
    let count = |client: &Client, rule: &str| client.found(&root).iter().filter(|(own, _)| own == rule).count();
    let mut client = Client::started(surroundings(), Manners::Good, json!({}), Value::Null).await;
    let text = "build A { basis eu; house-rules \"shop/wiring.rules.kdl\"; }\nbattery house\nlamp bench\n\
        circuit feed from=house to=bench { wire size=\"1.5 mm2\"; }\n";
    client.open(&root, text).await;
    client.settle().await;
    assert_eq!(
        (count(&client, "wiring/shop-thin"), count(&client, "text/house-rules-unread")),
        (0, 1),
        "not there yet"
    );
    // On disk: there, with another figure, broken, and taken away.
    let other = RULES.replace("any=\"2.5 mm2\"", "any=\"1 mm2\"");
    let broken = RULES.replace("size >=", "siz >=");
    for (change, text, thin, unread) in [
        (1, Some(RULES), 1, 0),
        (2, Some(&*other), 0, 0),
        (2, Some(&*broken), 0, 1),
        (3, None, 0, 1),
        (1, Some(RULES), 1, 0),
    ] {
        match text {
            Some(text) => write(text),
            None => std::fs::remove_file(folder.path().join("shop/wiring.rules.kdl")).unwrap(),
        }
        client.changes += 1;
        let changes = json!({ "changes": [{ "uri": rules, "type": change }] });
        client.notify("workspace/didChangeWatchedFiles", changes).await;
        client.settle().await;
        assert_eq!(
            (count(&client, "wiring/shop-thin"), count(&client, "text/house-rules-unread")),
            (thin, unread),
            "{text:?}"
        );
    }
    // In the editor, unsaved.
    client.open(&rules, &other).await;
    client.settle().await;
    assert_eq!(count(&client, "wiring/shop-thin"), 0);
    client.close(&rules).await;
    client.settle().await;
    assert_eq!(count(&client, "wiring/shop-thin"), 1);
    client.finish().await;
}
