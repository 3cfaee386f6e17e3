//! Lenses as an editor shows them above their lines.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, text, url};
use serde_json::{Value, json};

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
    for (name, expected) in [
        (
            "bramble.build.kdl",
            vec![
                ("build Bramble", "danger 0, warning 0, caution 0, notice 0, undecided 0"),
                ("build Bramble", "1.4 kWh a day, batteries last 2.3 d"),
                ("panel \"dc", "design current 16.1 A of 100 A"),
                ("ac-board \"ac", "design current 13.5 A of 16 A"),
            ],
        ),
        (
            "juniper.build.kdl",
            vec![
                ("build Juniper", "danger 0, warning 0, caution 0, notice 0, undecided 0"),
                ("build Juniper", "1.85 kWh a day, batteries last 4.0 d"),
                ("panel \"dc", "design current 25.0 A of 100 A"),
                ("ac-board \"main", "leg one 45.5 A, leg two 27.5 A of 50 A"),
                ("ac-board \"inverter", "design current 14.0 A of 30 A"),
                ("together \"clinic", "shore 29.5 A of 50 A"),
                ("together \"clinic", "generator 29.5 A of 30 A"),
                ("together \"clinic", "inverter 1.68 kW of 3 kW"),
            ],
        ),
    ] {
        let mut client = Client::plain().await;
        let (uri, text) = (url(name), text(name));
        client.open(&uri, &text).await;
        client.settle().await;
        assert_eq!(lenses(&mut client, &uri, &text).await, owned(&expected));
        client.finish().await;
    }
}

/// A panel with two ways.
const SMALL: &str = "build Größe { basis eu; }
// 🚐
battery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\" internal-resistance=\"4 mohm\"
circuit feed from=house to=board { fuse rating=\"50 A\" class=T; wire size=\"10 mm2\" one-way=\"1 m\"; }
panel board rating=\"60 A\" {
    way 1 fridge fuse=\"10 A\" wire=\"2.5 mm2\" one-way=\"3 m\"
    way 2 lamp fuse=\"10 A\" wire=\"2.5 mm2\" one-way=\"3 m\"
}
appliance fridge current=\"4 A\" voltage=\"12 V\"
lamp lamp current=\"1 A\" voltage=\"12 V\"
";

#[tokio::test(flavor = "multi_thread")]
async fn what_is_not_known_is_told_apart_or_left_out() {
    for (from, to, expected) in [
        ("", "", Some("design current 5.0 A of 60 A")),
        (" rating=\"60 A\"", "", Some("design current 5.0 A")),
        ("lamp lamp current=\"1 A\"", "lamp lamp", Some("design current at least 4.0 A of 60 A")),
        // What stands at a way that is unknown may be a source: then nothing is known of any way.
        ("lamp fuse", "unknown fuse", None),
        ("current=\"4 A\"", "current=unknown", Some("design current at least 1.0 A of 60 A")),
        ("panel board rating=\"60 A\" {", "panel board rating=\"60 A {", None),
    ] {
        let mut client = Client::plain().await;
        let uri = url("small.build.kdl");
        let text = SMALL.replacen(from, to, 1);
        client.open(&uri, &text).await;
        client.settle().await;
        let found = lenses(&mut client, &uri, &text).await;
        let panel = found.iter().find(|(line, _)| line == "panel board").map(|(_, title)| title.as_str());
        assert_eq!(panel, expected, "{from} → {to}");
        client.finish().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn the_counts_are_those_of_the_review_and_stay_with_their_line() {
    let mut client = Client::plain().await;
    let (uri, faulty) = (url("bramble-faulty.build.kdl"), text("bramble-faulty.build.kdl"));
    client.open(&uri, &faulty).await;
    client.settle().await;
    let before = lenses(&mut client, &uri, &faulty).await;
    let severity =
        |number| client.shown[&uri].as_array().unwrap().iter().filter(|own| own["data"]["signal"] == number).count();
    let (danger, caution) = (severity("danger"), severity("caution"));
    assert!(danger > 0 && caution > 0);
    assert!(before[0].1.starts_with(&format!("danger {danger}, warning ")), "{}", before[0].1);
    assert!(before[0].1.contains(&format!("caution {caution}, ")), "{}", before[0].1);
    // The answer may come before or after the next check: the lenses stand above the same lines.
    let edited = format!("// 🚐\n\n{faulty}");
    client.replace(&uri, 2, &edited).await;
    assert_eq!(lenses(&mut client, &uri, &edited).await, before);
    client.settle().await;
    assert_eq!(lenses(&mut client, &uri, &edited).await, before);
    let params = json!({ "textDocument": { "uri": "file:///none.build.kdl" } });
    assert_eq!(client.request("textDocument/codeLens", params).await, Value::Null);
    client.finish().await;
}
