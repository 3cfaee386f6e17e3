//! Use that goes wrong: the server lives on, shows nothing that is out of date, and takes nothing away too early.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, Manners, surroundings, text, url};
use language_server::Surroundings;
use serde_json::{Value, json};
use spec::LoadFault;
use spec::text::LARGEST;
use std::path::Path;
use std::sync::{Arc, Condvar, Mutex};

const PUBLISH: &str = "textDocument/publishDiagnostics";
const SHOW: &str = "window/showMessage";
/// The protocol's number for a request that was cancelled.
const CANCELLED: i64 = -32800;

/// A build whose one file is read through a gate.
const GATED: &str = "build A { basis eu; include \"gate.parts.kdl\" }\nbattery house chemistri=AGM\n";
const GATED_URL: &str = "file:///nowhere/a.build.kdl";

/// Holds readers of a file up until it is opened.
#[derive(Default)]
struct Gate {
    open: Mutex<bool>,
    changed: Condvar,
    reached: Mutex<usize>,
}

impl Gate {
    fn pass(&self) {
        *self.reached.lock().unwrap() += 1;
        self.changed.notify_all();
        let open = self.open.lock().unwrap();
        drop(self.changed.wait_while(open, |open| !*open).unwrap());
    }

    fn open(&self) {
        *self.open.lock().unwrap() = true;
        self.changed.notify_all();
    }

    /// Waits until so many have come to the gate.
    async fn reached(self: &Arc<Self>, count: usize) {
        let gate = self.clone();
        tokio::task::spawn_blocking(move || {
            let reached = gate.reached.lock().unwrap();
            drop(gate.changed.wait_while(reached, |reached| *reached < count).unwrap());
        })
        .await
        .unwrap();
    }
}

/// Surroundings in which the file `gate.parts.kdl` is read through a gate.
fn gated() -> (Arc<Gate>, Surroundings) {
    let gate = Arc::new(Gate::default());
    let mut gated = surroundings();
    let own = gate.clone();
    gated.read = Arc::new(move |path: &Path| {
        if path.ends_with("gate.parts.kdl") {
            own.pass();
            return Ok(String::new());
        }
        Err(LoadFault::Refused("there is no such file".to_owned()))
    });
    (gate, gated)
}

async fn started(surroundings: Surroundings) -> Client {
    Client::started(surroundings, Manners::Good, json!({}), Value::Null).await
}

#[tokio::test(flavor = "multi_thread")]
async fn edits_that_cannot_be_right_leave_the_last_findings_until_the_whole_text_comes() {
    let line = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 0, "character": 0 } });
    let nowhere = json!({ "start": { "line": 9000, "character": 0 }, "end": { "line": 9000, "character": 0 } });
    let backwards = json!({ "start": { "line": 3, "character": 0 }, "end": { "line": 1, "character": 0 } });
    for (version, range) in [(1, &line), (0, &line), (-7, &line), (2, &nowhere), (2, &backwards)] {
        let mut client = Client::started(surroundings(), Manners::Odd, json!({}), Value::Null).await;
        let (uri, faulty) = (url("bramble-faulty.build.kdl"), text("bramble-faulty.build.kdl"));
        client.open(&uri, &faulty).await;
        client.settle().await;
        let before = client.found(&uri);
        assert!(before.len() > 5);
        client.edit(&uri, version, json!([{ "range": range, "text": "nonsense {\n" }])).await;
        client.edit(&uri, 3, json!([{ "range": line, "text": "more nonsense {\n" }])).await;
        client.settle().await;
        assert_eq!(client.found(&uri), before, "{version} {range}");
        assert_eq!(client.heard(SHOW).len(), 1, "it is told once");
        // Nothing is offered for a text that is not the editor's.
        let at = json!({ "textDocument": { "uri": uri }, "position": { "line": 5, "character": 2 } });
        assert_eq!(client.request("textDocument/hover", at).await, Value::Null);
        client.replace(&uri, 4, "").await;
        client.settle().await;
        assert!(client.found(&uri).contains(&("text/nothing-described".to_owned(), 0)), "{version} {range}");
        client.finish().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn changes_are_taken_in_their_order() {
    let mut client = Client::plain().await;
    let uri = url("order.build.kdl");
    client.open(&uri, "").await;
    // Each is right only upon the one before it; a hundred are sent without a pause.
    let whole = "build A { basis eu; }\nbattery house chemistri=AGM\n";
    let mut column = 0;
    let mut line = 0;
    for (number, letter) in whole.chars().enumerate() {
        let at = json!({ "line": line, "character": column });
        let change = json!([{ "range": { "start": at, "end": at }, "text": letter.to_string() }]);
        client.edit(&uri, i64::try_from(number).unwrap() + 2, change).await;
        (line, column) = if letter == '\n' { (line + 1, 0) } else { (line, column + 1) };
    }
    client.settle().await;
    assert!(client.found(&uri).contains(&("text/unknown-property".to_owned(), 1)), "{:?}", client.found(&uri));
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_client_that_never_answers_holds_nothing_up() {
    let capabilities = json!({
        "workspace": {
            "didChangeWatchedFiles": { "dynamicRegistration": true },
            "inlayHint": { "refreshSupport": true },
            "codeLens": { "refreshSupport": true },
            "semanticTokens": { "refreshSupport": true },
            "diagnostics": { "refreshSupport": true },
        },
    });
    let mut client = Client::started(surroundings(), Manners::Odd, capabilities, Value::Null).await;
    let (uri, clean) = (url("bramble.build.kdl"), text("bramble.build.kdl"));
    client.open(&uri, &clean).await;
    for version in 2..40 {
        client
            .replace(&uri, version, &clean.replacen("\nbattery house", "\nbatery house", usize::from(version % 2 == 0)))
            .await;
        if version % 8 == 0 {
            client.settle().await;
            assert!(!client.found(&uri).is_empty(), "version {version}");
        }
    }
    client.settle().await;
    assert_eq!(client.found(&uri), []);
    assert_eq!(client.heard("client/registerCapability").len(), 1);
    client.finish_while_refreshed().await;
}

/// Asks something that needs no check: its answer shows that what was notified before it has been taken in.
async fn everything_said_is_taken_in(client: &mut Client) {
    client
        .request(
            "textDocument/formatting",
            json!({ "textDocument": { "uri": "file:///none" }, "options": { "tabSize": 4, "insertSpaces": true } }),
        )
        .await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_request_is_cancelled_while_its_work_goes_on() {
    let (gate, surroundings) = gated();
    let mut client = started(surroundings).await;
    client.open(GATED_URL, GATED).await;
    gate.reached(1).await;
    let at = json!({ "textDocument": { "uri": GATED_URL }, "position": { "line": 1, "character": 2 } });
    let hover = client.ask("textDocument/hover", at).await;
    gate.reached(2).await;
    client.notify("$/cancelRequest", json!({ "id": hover })).await;
    // The gate is still closed: the answer comes while the work is under way.
    let answer = client.answer(hover).await;
    assert_eq!(answer["error"]["code"], CANCELLED, "{answer}");
    gate.open();
    client.settle().await;
    assert!(client.found(GATED_URL).contains(&("text/unknown-property".to_owned(), 1)));
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_text_that_is_closed_during_its_check_is_not_shown() {
    let (gate, surroundings) = gated();
    let mut client = started(surroundings).await;
    client.open(GATED_URL, GATED).await;
    gate.reached(1).await;
    client.close(GATED_URL).await;
    everything_said_is_taken_in(&mut client).await;
    gate.open();
    client.settle().await;
    assert_eq!(client.heard(PUBLISH), Vec::<Value>::new());
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn what_was_found_of_an_older_text_is_never_shown() {
    let (gate, surroundings) = gated();
    let mut client = started(surroundings).await;
    client.open(GATED_URL, GATED).await;
    gate.reached(1).await;
    client.replace(GATED_URL, 2, &GATED.replace("battery", "\nbattery")).await;
    everything_said_is_taken_in(&mut client).await;
    gate.open();
    client.settle().await;
    let shown = client.heard(PUBLISH);
    assert!(shown.iter().all(|own| own["params"]["version"] == 2), "{shown:?}");
    assert!(client.found(GATED_URL).contains(&("text/unknown-property".to_owned(), 2)));
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_check_that_fails_inside_is_told_once_and_stops_nothing_else() {
    let mut failing = surroundings();
    failing.read = Arc::new(|path: &Path| {
        assert!(!path.ends_with("trap.parts.kdl"), "the trap of this test");
        Err(LoadFault::Refused("there is no such file".to_owned()))
    });
    let mut client = started(failing).await;
    let (good, bad) = ("file:///nowhere/good.build.kdl", "file:///nowhere/bad.build.kdl");
    client.open(good, "build A { basis eu; }\nbattery house chemistri=AGM\n").await;
    client.open(bad, "build B { basis eu; }\nbattery house chemistri=AGM\n").await;
    client.settle().await;
    let before = client.found(bad);
    assert!(before.contains(&("text/unknown-property".to_owned(), 1)));
    for version in 2..5 {
        let text = format!("build B {{ basis eu; include \"trap.parts.kdl\" }}\n// {version}\n");
        client.replace(bad, version, &text).await;
        client.settle().await;
        assert_eq!(client.found(bad), before, "the last findings stay");
    }
    let told = client.heard(SHOW);
    assert_eq!(told.len(), 1, "{told:?}");
    assert_eq!(told[0]["params"]["type"], 1);
    // Requests about it fail by themselves; others are answered.
    let at = |uri: &str| json!({ "textDocument": { "uri": uri }, "position": { "line": 1, "character": 2 } });
    let id = client.ask("textDocument/hover", at(bad)).await;
    assert!(client.answer(id).await["error"].is_object());
    assert!(client.request("textDocument/hover", at(good)).await.is_object());
    client.replace(good, 2, "build A { basis eu; }\nbattery house chemistry=AGM\n").await;
    client.replace(bad, 9, "build B { basis eu; }\nbattery house chemistry=AGM\n").await;
    client.settle().await;
    for uri in [good, bad] {
        assert!(!client.found(uri).iter().any(|(rule, _)| rule == "text/unknown-property"), "{uri}");
    }
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_text_at_the_size_limit_is_read_and_one_above_it_is_refused() {
    let mut client = Client::plain().await;
    let uri = url("large.build.kdl");
    let head = "build A { basis eu; }\nbattery house chemistri=AGM\n";
    // A comment of many lines, so that the length lies in the text and not in its parts.
    let line = "// a line that says nothing and is long enough to be worth its place in a large text\n";
    let mut text = head.to_owned();
    while text.len() + line.len() < LARGEST {
        text.push_str(line);
    }
    text.push_str(&"/".repeat(LARGEST - text.len()));
    client.open(&uri, &text).await;
    client.settle().await;
    assert!(client.found(&uri).contains(&("text/unknown-property".to_owned(), 1)), "{:?}", client.found(&uri));
    let start = json!({ "line": 0, "character": 0 });
    client.edit(&uri, 2, json!([{ "range": { "start": start, "end": start }, "text": " " }])).await;
    client.settle().await;
    assert!(client.found(&uri).contains(&("text/too-large".to_owned(), 0)), "{:?}", client.found(&uri));
    client
        .edit(&uri, 3, json!([{ "range": { "start": start, "end": { "line": 0, "character": 1 } }, "text": "" }]))
        .await;
    client.settle().await;
    assert!(client.found(&uri).contains(&("text/unknown-property".to_owned(), 1)));
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn two_hundred_texts_are_open_at_once() {
    let mut client = Client::plain().await;
    let parts = "file:///nowhere/shared.parts.kdl";
    let of = |number: usize| format!("file:///nowhere/{number}.build.kdl");
    let text = |number: usize, word: &str| {
        let include = if number.is_multiple_of(10) { "include \"shared.parts.kdl\"" } else { "" };
        format!("build A {{ basis eu; {include} }}\nbattery house {word}=AGM\n")
    };
    client.open(parts, "battery pattern chemistri=AGM\n").await;
    for number in 0..200 {
        client.open(&of(number), &text(number, "chemistri")).await;
    }
    client.settle().await;
    let slips = |client: &Client, uri: &str| {
        client.found(uri).iter().filter(|(rule, _)| rule == "text/unknown-property").count()
    };
    for number in 0..200 {
        assert_eq!(slips(&client, &of(number)), 1, "{number}");
    }
    // What twenty builds find in the file that they share is shown once.
    assert_eq!(slips(&client, parts), 1);
    client.heard(PUBLISH);
    client.replace(&of(7), 2, &text(7, "chemistry")).await;
    client.settle().await;
    assert_eq!(slips(&client, &of(7)), 0);
    assert_eq!(client.heard(PUBLISH).len(), 1, "only the text that changed is told of");
    client.replace(parts, 2, "battery pattern chemistry=AGM\n").await;
    client.settle().await;
    assert_eq!(slips(&client, parts), 0);
    for number in 0..200 {
        client.close(&of(number)).await;
    }
    client.close(parts).await;
    client.settle().await;
    for number in 0..200 {
        assert_eq!(client.found(&of(number)), [], "{number}");
    }
    client.finish().await;
}
