//! What is known of what stands under the pointer.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on has failed")]

use crate::support::{Client, text, url};
use language_server::position::{Encoding, Lines};
use serde_json::{Value, json};

/// The longest hover that an editor shows without much scrolling.
const LONGEST: usize = 2_600;

async fn hover(client: &mut Client, uri: &str, text: &str, at: &str) -> Value {
    assert!(text.contains(at), "{at}");
    let byte = text.find(at).unwrap() + 1;
    let position = Lines::of(text).position(text, byte, Encoding::Utf16);
    client.request("textDocument/hover", json!({ "textDocument": { "uri": uri }, "position": position })).await
}

fn markdown(yes: bool) -> Value {
    let formats = if yes { json!(["markdown", "plaintext"]) } else { json!(["plaintext"]) };
    json!({ "textDocument": { "hover": { "contentFormat": formats } } })
}

#[tokio::test(flavor = "multi_thread")]
async fn a_finding_tells_why_with_its_working_sources_and_caution() {
    for form in [true, false] {
        let mut client = Client::with(markdown(form)).await;
        let (uri, faulty) = (url("bramble-faulty.build.kdl"), text("bramble-faulty.build.kdl"));
        client.open(&uri, &faulty).await;
        client.settle().await;
        let page = hover(&mut client, &uri, &faulty, "circuit \"bench lamp\"").await;
        let value = page["contents"]["value"].as_str().unwrap();
        assert_eq!(page["contents"]["kind"], if form { "markdown" } else { "plaintext" });
        for told in ["DANGER", "Do this: Put a fuse or breaker", "33 CFR 183.455", ", edition ", "Caution: ", "18.2 A"]
        {
            assert!(value.contains(told), "{told} in\n{value}");
        }
        assert_eq!(value.starts_with("**DANGER**"), form, "{value}");
        // The diagnostic above it has said what is wrong; no limit is no number; no line stands twice.
        assert!(!value.contains("has no fuse or breaker against a source at one of its ends"), "{value}");
        assert!(!value.contains("e305"), "{value}");
        let mut lines: Vec<&str> = value.lines().map(str::trim).filter(|line| line.len() > 20).collect();
        lines.sort_unstable();
        assert!(lines.windows(2).all(|pair| pair[0] != pair[1]), "{value}");
        assert!(value.len() < LONGEST, "{} bytes\n{value}", value.len());
        client.finish().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn every_hover_of_the_demo_builds_is_short_and_says_something() {
    let mut client = Client::with(markdown(true)).await;
    for name in ["bramble.build.kdl", "juniper-faulty.build.kdl"] {
        let (uri, text) = (url(name), text(name));
        client.open(&uri, &text).await;
        client.settle().await;
        let parts =
            ["battery ", "circuit ", "panel ", "busbar ", "inverter", "way 1", "fuse rating", "shore {", "alarm "];
        for part in parts {
            let Some(at) = text.find(&format!("\n{part}")).map(|at| at + 1).or_else(|| text.find(part)) else {
                continue;
            };
            let position = Lines::of(&text).position(&text, at + 1, Encoding::Utf16);
            let ask = json!({ "textDocument": { "uri": uri }, "position": position });
            let page = client.request("textDocument/hover", ask).await;
            let value = page["contents"]["value"].as_str().unwrap();
            assert!(value.len() > 40 && value.len() < 2 * LONGEST, "{name} {part}: {} bytes\n{value}", value.len());
            assert!(!value.contains("e305") && !value.contains("NaN"), "{name} {part}\n{value}");
        }
    }
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_property_tells_its_help_units_example_and_what_its_absence_means() {
    let uri = "file:///nowhere/test.build.kdl";
    let text = "build A { stage review; basis eu; }\r\nbattery \"größe 🔋\" chemistry=LFP voltage=\"12.8 V\"\r\nthis line is } broken\r\nlamp lamp power=\"5 W\"\r\n";
    for (at, told) in [
        ("voltage=", &["voltage", "In: ", "Example: ", "Left out"][..]),
        ("\"12.8 V\"", &["voltage", "mV"]),
        ("LFP", &["chemistry", "One of: ", "AGM"]),
        ("battery \"gr", &["battery"]),
        ("power=", &["power", "W"]),
    ] {
        let mut client = Client::plain().await;
        client.open(uri, text).await;
        client.settle().await;
        let page = hover(&mut client, uri, text, at).await;
        let value = page["contents"]["value"].as_str().unwrap_or_else(|| panic!("{at}: {page}"));
        for told in told {
            assert!(value.contains(told), "{at}: {told} in\n{value}");
        }
        if at == "\"12.8 V\"" {
            // The range is counted as the client counts: the battery's name has an emoji.
            let column = u64::try_from("battery \"größe 🔋\" chemistry=LFP voltage=".encode_utf16().count()).unwrap();
            assert_eq!(page["range"]["start"], json!({ "line": 1, "character": column }));
        }
        client.finish().await;
    }
}
