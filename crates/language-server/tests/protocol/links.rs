//! Links as an editor follows them.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::Client;
use serde_json::{Value, json};

/// The links of a text: what is underlined, and where it leads.
async fn links(client: &mut Client, uri: &str, text: &str) -> Vec<(String, String)> {
    let links = client.request("textDocument/documentLink", json!({ "textDocument": { "uri": uri } })).await;
    let shown = links.as_array().unwrap().iter().map(|link| {
        let number = |value: &Value| usize::try_from(value.as_u64().unwrap()).unwrap();
        let (start, end) = (&link["range"]["start"], &link["range"]["end"]);
        let line: Vec<u16> = text.lines().nth(number(&start["line"])).unwrap().encode_utf16().collect();
        let shown = String::from_utf16(&line[number(&start["character"])..number(&end["character"])]).unwrap();
        (shown, link["target"].as_str().unwrap().to_owned())
    });
    shown.collect()
}

#[tokio::test(flavor = "multi_thread")]
async fn includes_and_addresses_can_be_followed() {
    for (name, text, expected) in [
        (
            "a.build.kdl",
            "/* größe 🚐 */ build A { include \"shop.parts.kdl\"; include \"../up/./x.kdl\"; }\ninclude more.kdl",
            vec![
                ("shop.parts.kdl", "file:///links/van/shop.parts.kdl"),
                ("../up/./x.kdl", "file:///links/up/x.kdl"),
                ("more.kdl", "file:///links/van/more.kdl"),
            ],
        ),
        // What is no specification is not read, and not led to; nor is what cannot be read.
        (
            "b.build.kdl",
            "include \"/etc/passwd\"\ninclude\ninclude \"open.kdl\ninclude \"a.kdl\" \"b.kdl\"",
            vec![("a.kdl", "file:///links/van/a.kdl")],
        ),
        (
            "c.build.kdl",
            "lamp one about=\"🚐 see https://example.org/a_(b)?c=d#e, or (http://example.com/x). ftp://example.org http:// https://\" // https://example.net",
            vec![
                ("https://example.org/a_(b)?c=d#e", "https://example.org/a_(b)?c=d#e"),
                ("http://example.com/x", "http://example.com/x"),
            ],
        ),
        (
            "r.rules.kdl",
            "rule \"r/x\" notice about=run {\n  source \"größe\" address=\"https://example.org/größe\"\n  why #\"\"\"\n    See\n    https://example.org/two.\n    \"\"\"#\n  include \"no.kdl\"\n}",
            vec![
                ("https://example.org/größe", "https://example.org/gr%C3%B6%C3%9Fe"),
                ("https://example.org/two", "https://example.org/two"),
            ],
        ),
    ] {
        let mut client = Client::plain().await;
        let uri = format!("file:///links/van/{name}");
        client.open(&uri, text).await;
        let expected: Vec<(String, String)> =
            expected.iter().map(|(shown, target)| ((*shown).to_owned(), (*target).to_owned())).collect();
        assert_eq!(links(&mut client, &uri, text).await, expected, "{text}");
        let params = json!({ "textDocument": { "uri": "file:///links/none.build.kdl" } });
        assert_eq!(client.request("textDocument/documentLink", params).await, Value::Null);
        client.settle().await;
        client.finish().await;
    }
}
