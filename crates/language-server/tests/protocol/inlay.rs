//! Inlay hints as an editor sees them: where they stand, what they say, that they keep their width and their lines.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, surroundings, text, url};
use serde_json::{Value, json};
use spec::LoadFault;
use std::path::Path;
use std::sync::{Arc, Condvar, Mutex};

/// The last line that the protocol's numbers reach.
const LAST_LINE: u32 = 2_147_483_647;

/// The hints of a text as lines of it, each hint in brackets where it stands, its blanks made ordinary.
async fn shown(client: &mut Client, uri: &str, text: &str) -> Vec<String> {
    let hints = ask(client, uri, 0, LAST_LINE).await;
    let mut lines: Vec<String> = Vec::new();
    let mut last = None;
    for hint in hints.as_array().unwrap() {
        let line = usize::try_from(hint["position"]["line"].as_u64().unwrap()).unwrap();
        let units = usize::try_from(hint["position"]["character"].as_u64().unwrap()).unwrap();
        let utf16: Vec<u16> = text.lines().nth(line).unwrap().encode_utf16().take(units).collect();
        assert_eq!(utf16.len(), units, "a hint stands within its line");
        let before = String::from_utf16(&utf16).unwrap();
        let label = hint["label"].as_str().unwrap().replace('\u{2007}', " ");
        // A hint behind another one of its line stands behind what lies between them.
        let own = match last {
            Some((of, ended)) if of == line => before.get(ended..).unwrap().trim().to_owned(),
            _ => before.trim().to_owned(),
        };
        last = Some((line, before.len()));
        lines.push(format!("{own} [{label}]"));
    }
    lines
}

async fn ask(client: &mut Client, uri: &str, from: u32, to: u32) -> Value {
    let range = json!({ "start": { "line": from, "character": 0 }, "end": { "line": to, "character": 0 } });
    client.request("textDocument/inlayHint", json!({ "textDocument": { "uri": uri }, "range": range })).await
}

/// A small build: a battery, a panel, a fridge, an inverter with a kettle.
const SMALL: &str = r#"build Small { stage review; basis eu; }
vehicle class=van
brief { winter "5 degC"; summer "35 degC"; driving "0 h/d"; }
battery "🔋 größe" chemistry=LFP voltage="12.8 V" capacity="100 Ah" internal-resistance="4 mohm" coldest="15 degC"
panel board rating="60 A" {
    way 1 fridge fuse="10 A" class=blade wire="2.5 mm2" one-way="3 m" insulation="105 degC" ambient="30 degC"
}
circuit "🔋 feed" from="🔋 größe" to=board { fuse rating="50 A" class=T; wire size="10 mm2" one-way="1 m" insulation="105 degC" ambient="30 degC"; }
circuit strom from="🔋 größe" to=inverter { fuse rating="100 A" class=T; wire size="25 mm2" one-way="1 m" insulation="105 degC"; }
appliance fridge current="4 A" voltage="12 V" duty="6 h/d"
inverter inverter power="1000 VA" voltage="230 V" efficiency="90 %" idle="5 W" on="1 h/d"
circuit out from=inverter to=kettle { breaker rating="6 A" class=mcb; wire size="1.5 mm2" one-way="2 m"; }
appliance kettle current="2 A" voltage="230 V" duty="10 min/d"
together breakfast kettle
"#;

#[tokio::test(flavor = "multi_thread")]
async fn what_is_known_is_shown_where_it_is_written() {
    let mut client = Client::plain().await;
    let uri = url("small.build.kdl");
    client.open(&uri, SMALL).await;
    client.settle().await;
    let battery = "battery \"🔋 größe\" chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\" internal-resistance=\"4 mohm\" coldest=\"15 degC\"";
    let hints = shown(&mut client, &uri, SMALL).await;
    for expected in [
        // 4 A × 7.98 mΩ/m × 3 m × 2, at 70 °C 19.65 % more.
        "class=blade wire=\"2.5 mm2\" one-way=\"3 m\" insulation=\"105 degC\" ambient=\"30 degC\" [   4.0 A,  0.23 V,  1.8 %]",
        "circuit \"🔋 feed\" from=\"🔋 größe\" to=board [   4.0 A,  0.02 V,  0.1 %]",
        "{ fuse rating=\"50 A\" class=T [fault   3650 A]",
        "inverter inverter power=\"1000 VA\" voltage=\"230 V\" efficiency=\"90 %\" idle=\"5 W\" on=\"1 h/d\" [load   46 %]",
    ] {
        assert!(hints.contains(&expected.to_owned()), "{expected} is not among {hints:#?}");
    }
    let lasts = hints.iter().find(|hint| hint.starts_with(battery)).unwrap();
    assert!(lasts.contains("[lasts   "), "{lasts}");
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_hint_tells_how_it_was_worked_out() {
    let mut client = Client::plain().await;
    let uri = url("small.build.kdl");
    client.open(&uri, SMALL).await;
    client.settle().await;
    let hints = ask(&mut client, &uri, 5, 6).await;
    let way = hints.as_array().unwrap().iter().find(|hint| hint["label"].as_str().unwrap().contains('%')).unwrap();
    let working = way["tooltip"].as_str().unwrap();
    for part in ["design-current of way \"fridge\" in panel \"board\": 4 A", "4 A", "drop of ", "nominal-voltage of "] {
        assert!(working.contains(part), "{part}: {working}");
    }
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_not_known_gives_no_hint() {
    for (from, to, gone) in [
        // Of a wire of unknown length the current stays, and no drop is shown.
        (" one-way=\"3 m\"", "", "0.23 V"),
        // A battery of which the chemistry could not be read.
        ("chemistry=LFP", "chemistry=", "lasts"),
        ("battery \"🔋 größe\"", "battery \"🔋 andere\"", "fault   3650"),
        ("efficiency=\"90 %\"", "efficiency=unknown", "lasts"),
        ("appliance kettle current=\"2 A\"", "appliance kettle", "load"),
        ("duty=\"6 h/d\"", "", "lasts"),
        // Another set that may load it by nobody knows how much.
        ("together breakfast kettle", "together breakfast kettle\ntogether supper kettle unknown", "load"),
    ] {
        let mut client = Client::plain().await;
        let uri = url("small.build.kdl");
        client.open(&uri, SMALL).await;
        client.settle().await;
        let before = shown(&mut client, &uri, SMALL).await;
        assert!(before.iter().any(|hint| hint.contains(gone)), "{gone}: {before:#?}");
        let less = SMALL.replacen(from, to, 1);
        assert_ne!(less, SMALL, "{from}");
        client.replace(&uri, 2, &less).await;
        client.settle().await;
        let after = shown(&mut client, &uri, &less).await;
        assert!(!after.iter().any(|hint| hint.contains(gone)), "{from}: {after:#?}");
        // The battery's own line is all that feeds: unread, it leaves everything open.
        assert_eq!(after.is_empty(), to == "chemistry=", "{from}: the rest stays");
        client.finish().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn another_value_never_moves_the_text() {
    let mut client = Client::plain().await;
    let uri = url("small.build.kdl");
    let mut widths = Vec::new();
    for (version, (current, length)) in
        (1..).zip([("4 A", "3 m"), ("0.01 A", "2 mm"), ("9.99 A", "30 m"), ("800 A", "3 km")])
    {
        let text =
            SMALL.replace("appliance fridge current=\"4 A\"", &format!("appliance fridge current=\"{current}\""));
        let text = text.replace("one-way=\"3 m\"", &format!("one-way=\"{length}\""));
        match version {
            1 => client.open(&uri, &text).await,
            _ => client.replace(&uri, version, &text).await,
        }
        client.settle().await;
        let hints = ask(&mut client, &uri, 0, LAST_LINE).await;
        let labels = hints.as_array().unwrap().iter().map(|hint| hint["label"].as_str().unwrap().chars().count());
        widths.push(labels.collect::<Vec<_>>());
    }
    assert!(!widths[0].is_empty());
    assert!(widths.iter().all(|own| *own == widths[0]), "{widths:?}");
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn hints_are_given_for_the_lines_that_are_asked_for() {
    let mut client = Client::plain().await;
    let uri = url("bramble.build.kdl");
    client.open(&uri, &text("bramble.build.kdl")).await;
    client.settle().await;
    let all = ask(&mut client, &uri, 0, LAST_LINE).await;
    let some = ask(&mut client, &uri, 60, 100).await;
    let within = |hint: &&Value| (60..100).contains(&hint["position"]["line"].as_u64().unwrap());
    let expected: Vec<&Value> = all.as_array().unwrap().iter().filter(within).collect();
    assert!(expected.len() > 3 && expected.len() < all.as_array().unwrap().len());
    assert_eq!(some.as_array().unwrap().iter().collect::<Vec<_>>(), expected);
    assert_eq!(ask(&mut client, "file:///none.build.kdl", 0, 9).await, Value::Null);
    client.finish().await;
}

/// Sorts of hints that are shown.
async fn sorts(client: &mut Client, uri: &str) -> Vec<&'static str> {
    let hints = ask(client, uri, 0, LAST_LINE).await;
    let labels: Vec<String> =
        hints.as_array().unwrap().iter().map(|hint| hint["label"].as_str().unwrap().to_owned()).collect();
    [("fault ", "devices"), ("last", "batteries"), ("load ", "inverters"), (" V, ", "circuits")]
        .into_iter()
        .filter(|(mark, _)| labels.iter().any(|label| label.contains(mark)))
        .map(|(_, sort)| sort)
        .collect()
}

#[tokio::test(flavor = "multi_thread")]
async fn hints_can_be_switched_off_each_sort_by_itself() {
    let all = ["devices", "batteries", "inverters", "circuits"];
    for (options, expected) in [
        (json!(null), all.to_vec()),
        (json!({ "inlayHints": true }), all.to_vec()),
        (json!({ "inlayHints": "perhaps", "other": [1] }), all.to_vec()),
        (json!({ "inlayHints": false }), vec![]),
        (json!({ "inlayHints": { "devices": false, "inverters": null } }), vec!["batteries", "inverters", "circuits"]),
        (json!({ "coachwright": { "inlayHints": { "circuits": false } } }), vec!["devices", "batteries", "inverters"]),
    ] {
        let mut client = Client::raw(surroundings(), crate::support::Manners::Odd);
        let params =
            json!({ "processId": null, "rootUri": null, "capabilities": {}, "initializationOptions": options });
        client.request("initialize", params).await;
        client.notify("initialized", json!({})).await;
        let uri = url("small.build.kdl");
        client.open(&uri, SMALL).await;
        client.settle().await;
        assert_eq!(sorts(&mut client, &uri).await, expected, "{options}");
        client
            .notify(
                "workspace/didChangeConfiguration",
                json!({ "settings": { "coachwright": { "inlayHints": false } } }),
            )
            .await;
        assert_eq!(sorts(&mut client, &uri).await, Vec::<&str>::new());
        client.notify("workspace/didChangeConfiguration", json!({ "settings": null })).await;
        client
            .notify("workspace/didChangeConfiguration", json!({ "settings": { "inlayHints": { "devices": true } } }))
            .await;
        assert_eq!(sorts(&mut client, &uri).await, ["devices"]);
        client.finish().await;
    }
}

/// The next request of the server to ask again, which is answered if wanted.
async fn refreshed(client: &mut Client, answer: bool) -> String {
    loop {
        if let Some(at) = client.told.iter().position(|own| own["method"].as_str().unwrap().ends_with("/refresh")) {
            let request = client.told.remove(at);
            assert_eq!(request.get("params"), None, "the protocol has no parameters here");
            if answer {
                client.send(json!({ "jsonrpc": "2.0", "id": request["id"], "result": null })).await;
            }
            return request["method"].as_str().unwrap().to_owned();
        }
        let message = client.receive().await;
        client.told.push(message);
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_client_that_can_is_told_to_ask_again_and_never_twice_before_it_answers() {
    for sort in ["inlayHint", "codeLens"] {
        let mut client = Client::with(json!({ "workspace": { sort: { "refreshSupport": true } } })).await;
        let (uri, wanted) = (url("small.build.kdl"), format!("workspace/{sort}/refresh"));
        client.open(&uri, SMALL).await;
        client.settle().await;
        assert_eq!(refreshed(&mut client, true).await, wanted);
        client.replace(&uri, 2, &SMALL.replace("4 A", "5 A")).await;
        client.settle().await;
        // Not answered: further checks ask nothing.
        assert_eq!(refreshed(&mut client, false).await, wanted);
        for version in 3..8 {
            client.replace(&uri, version, &SMALL.replace("4 A", &format!("{version} A"))).await;
            client.settle().await;
        }
        client.finish().await;
    }
}

/// A gate at which reading a file from disk waits while it is shut.
#[derive(Default)]
struct Gate {
    shut: Mutex<bool>,
    moved: Condvar,
}

impl Gate {
    fn set(&self, shut: bool) {
        *self.shut.lock().unwrap() = shut;
        self.moved.notify_all();
    }

    fn pass(&self) {
        drop(self.moved.wait_while(self.shut.lock().unwrap(), |shut| *shut).unwrap());
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn while_a_check_runs_the_last_hints_stay_with_their_lines() {
    let gate = Arc::new(Gate::default());
    let held = gate.clone();
    let read = Arc::new(move |path: &Path| {
        held.pass();
        std::fs::read_to_string(path).map_err(|fault| LoadFault::Refused(fault.to_string()))
    });
    let mut client =
        Client::raw(language_server::Surroundings { read, ..surroundings() }, crate::support::Manners::Good);
    client.request("initialize", json!({ "processId": null, "rootUri": null, "capabilities": {} })).await;
    client.notify("initialized", json!({})).await;
    let (uri, clean) = (url("bramble.build.kdl"), text("bramble.build.kdl"));
    client.open(&uri, &clean).await;
    client.settle().await;
    let before = shown(&mut client, &uri, &clean).await;
    gate.set(true);
    // A comment above, with what takes two units of UTF-16, and a circuit whose line is being typed.
    let head = "circuit \"house main\" from=house to=\"main positive\" {";
    let edited = format!("// größe 🚐\n{}", clean.replace(head, &head.replace("house main", "house mainn")));
    client.replace(&uri, 2, &edited).await;
    let now = shown(&mut client, &uri, &edited).await;
    let expected: Vec<String> =
        before.iter().filter(|hint| !hint.starts_with(head.trim_end_matches(" {"))).cloned().collect();
    assert_eq!(expected.len(), before.len() - 1);
    // The comment above is the first line that differs, the circuit the last: what lies between is not shown.
    let below = edited.lines().skip_while(|line| !line.contains("house mainn")).skip(1).collect::<Vec<_>>().join("\n");
    let expected: Vec<String> =
        expected.into_iter().filter(|hint| below.contains(hint.split(" [").next().unwrap())).collect();
    assert!(expected.len() > 10);
    assert_eq!(now, expected);
    gate.set(false);
    client.settle().await;
    assert_eq!(shown(&mut client, &uri, &edited).await.len(), before.len());
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn included_files_have_hints_of_their_own_and_patterns_none() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| format!("file://{}", folder.path().join(name).display());
    let (lines_before, lines_behind) = SMALL.split_at(SMALL.find("circuit \"🔋 feed\"").unwrap());
    let root = format!(
        "build A {{ basis eu; include \"rest.kdl\"; include \"p.parts.kdl\"; }}\nfan vent like=pattern\ncircuit c from=\"🔋 größe\" to=vent {{ wire size=\"1 mm2\" one-way=\"1 m\"; }}\n{}",
        lines_before.split_once('\n').unwrap().1
    );
    let parts = "fan pattern current=\"3 A\" voltage=\"12 V\"\n";
    let mut client = Client::plain().await;
    client.open(&at("rest.kdl"), lines_behind).await;
    client.open(&at("p.parts.kdl"), parts).await;
    client.open(&at("a.build.kdl"), &root).await;
    client.settle().await;
    let hints = shown(&mut client, &at("rest.kdl"), lines_behind).await;
    assert!(
        hints.contains(&"circuit \"🔋 feed\" from=\"🔋 größe\" to=board [   4.0 A,  0.02 V,  0.1 %]".to_owned()),
        "{hints:#?}"
    );
    let hints = shown(&mut client, &at("a.build.kdl"), &root).await;
    assert!(hints.iter().any(|hint| hint.starts_with("circuit c from=\"🔋 größe\" to=vent [   3.0 A")), "{hints:#?}");
    assert_eq!(shown(&mut client, &at("p.parts.kdl"), parts).await, Vec::<String>::new());
    client.finish().await;
}
