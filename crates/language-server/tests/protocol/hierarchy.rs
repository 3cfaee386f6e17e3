//! The path of a circuit, step by step, as an editor asks for it.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, Manners, surroundings, text, url};
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// The item at the first place of a text, by characters behind its start.
async fn prepare(client: &mut Client, uri: &str, text: &str, place: &str, behind: usize) -> Option<Value> {
    let at = text.find(place).unwrap() + behind;
    let line = text[..at].matches('\n').count();
    let character = text[..at].rsplit('\n').next().unwrap().encode_utf16().count();
    let params = json!({ "textDocument": { "uri": uri }, "position": { "line": line, "character": character } });
    let items = client.request("textDocument/prepareCallHierarchy", params).await;
    items.as_array().map(|items| items[0].clone())
}

async fn step(client: &mut Client, item: &Value, onward: bool) -> Vec<(Value, Value)> {
    let (method, other) =
        if onward { ("callHierarchy/outgoingCalls", "to") } else { ("callHierarchy/incomingCalls", "from") };
    let calls = client.request(method, json!({ "item": item })).await;
    calls.as_array().unwrap().iter().map(|call| (call[other].clone(), call["fromRanges"][0].clone())).collect()
}

/// What stands one step away, as editors name it.
async fn names(client: &mut Client, item: &Value, onward: bool) -> Vec<String> {
    step(client, item, onward).await.iter().map(|(item, _)| item["detail"].as_str().unwrap().to_owned()).collect()
}

/// The text of a range.
fn at(text: &str, range: &Value) -> String {
    let number = |value: &Value| usize::try_from(value.as_u64().unwrap()).unwrap();
    let line: Vec<u16> = text.lines().nth(number(&range["start"]["line"])).unwrap().encode_utf16().collect();
    let end =
        if range["end"]["line"] == range["start"]["line"] { number(&range["end"]["character"]) } else { line.len() };
    String::from_utf16(&line[number(&range["start"]["character"])..end]).unwrap()
}

#[tokio::test(flavor = "multi_thread")]
async fn each_part_knows_what_feeds_it_and_what_it_feeds() {
    let mut client = Client::plain().await;
    let (uri, text) = (url("bramble.build.kdl"), text("bramble.build.kdl"));
    client.open(&uri, &text).await;
    client.settle().await;
    for (place, behind, title, fed_by, feeds) in [
        (
            "way 1 \"water pump\"",
            0,
            "way \"water pump\" in panel \"dc panel\"",
            vec!["panel \"dc panel\""],
            vec!["pump \"water pump\""],
        ),
        // On a name it is the thing of that name.
        ("way 1 \"water pump\"", 8, "pump \"water pump\"", vec!["way \"water pump\" in panel \"dc panel\""], vec![]),
        (
            "to=\"dc panel\"",
            5,
            "panel \"dc panel\"",
            vec!["circuit \"panel feed\""],
            vec!["way \"water pump\" in panel \"dc panel\"", "way \"roof fan\" in panel \"dc panel\""],
        ),
        (
            "fuse rating=\"80 A\" class=T\n    wire size=\"25 mm2\" one-way=\"0.8 m\"",
            3,
            "circuit \"panel feed\"",
            vec!["busbar \"main positive\""],
            vec!["panel \"dc panel\""],
        ),
        (
            "circuit \"charge in\"",
            3,
            "circuit \"charge in\"",
            vec!["battery \"starter\""],
            vec!["charger \"engine charger\""],
        ),
        (
            "charger \"engine charger\"",
            10,
            "charger \"engine charger\"",
            vec!["circuit \"charge in\""],
            vec!["circuit \"charge out\""],
        ),
        ("battery house", 10, "battery \"house\"", vec![], vec!["circuit \"house main\""]),
    ] {
        let item = prepare(&mut client, &uri, &text, place, behind).await.unwrap();
        assert_eq!(item["detail"], title, "{place}");
        assert_eq!(item["uri"], uri);
        // The first ones, in the order of the text.
        let named = |names: Vec<String>, expected: Vec<&str>| {
            assert_eq!(names.is_empty(), expected.is_empty(), "{place}: {names:?}");
            let first: Vec<&str> = names.iter().map(String::as_str).take(expected.len()).collect();
            assert_eq!(first, expected, "{place}");
        };
        named(names(&mut client, &item, false).await, fed_by);
        named(names(&mut client, &item, true).await, feeds);
    }
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_step_is_shown_where_it_is_written() {
    let mut client = Client::plain().await;
    let uri = "file:///hierarchy/a.build.kdl";
    let text = "build A { basis eu; }\n/* 🚐 größe */ battery \"größe 🔋\" voltage=\"12 V\"\npanel p rating=\"60 A\" { way 1 \"lamp 🚐\" fuse=\"5 A\"; }\n/* 🚐 */ circuit main to=\"größe 🔋\" from=p { fuse rating=\"50 A\"; }\nlamp \"lamp 🚐\" power=\"5 W\"\n";
    client.open(uri, text).await;
    client.settle().await;
    // Written from the panel to the battery, it leads the other way all the same.
    let battery = prepare(&mut client, uri, text, "größe 🔋", 2).await.unwrap();
    assert_eq!(battery["name"], "größe 🔋");
    assert_eq!(at(text, &battery["selectionRange"]), "battery \"größe 🔋\"");
    let steps = step(&mut client, &battery, true).await;
    assert_eq!((&steps[0].0["name"], at(text, &steps[0].1).as_str()), (&json!("main"), "battery \"größe 🔋\""));
    let main = steps[0].0.clone();
    let steps = step(&mut client, &main, true).await;
    assert_eq!((&steps[0].0["name"], at(text, &steps[0].1).as_str()), (&json!("p"), "p"));
    let steps = step(&mut client, &main, false).await;
    assert_eq!((&steps[0].0["name"], at(text, &steps[0].1).as_str()), (&json!("größe 🔋"), "battery \"größe 🔋\""));
    let way = prepare(&mut client, uri, text, "way 1", 1).await.unwrap();
    let steps = step(&mut client, &way, true).await;
    assert_eq!((&steps[0].0["name"], at(text, &steps[0].1).as_str()), (&json!("lamp 🚐"), "\"lamp 🚐\""));
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_ring_of_circuits_is_walked_to_its_end() {
    let mut client = Client::plain().await;
    let uri = "file:///hierarchy/ring.build.kdl";
    let text = "build A { basis eu; }\nbattery house voltage=\"12 V\"\nbusbar one\nbusbar two\nbusbar three\ncircuit main from=house to=one { fuse rating=\"50 A\"; }\ncircuit a from=one to=two\ncircuit b from=two to=three\ncircuit c from=three to=one\ncircuit self from=one to=one\nlamp l power=\"5 W\"\ncircuit last from=three to=l\n";
    client.open(uri, text).await;
    client.settle().await;
    for onward in [true, false] {
        let first = prepare(&mut client, uri, text, if onward { "battery house" } else { "lamp l" }, 1).await.unwrap();
        let (mut open, mut seen) = (vec![first], BTreeSet::new());
        while let Some(item) = open.pop() {
            if seen.insert(item["detail"].as_str().unwrap().to_owned()) {
                open.extend(step(&mut client, &item, onward).await.into_iter().map(|(item, _)| item));
            }
        }
        for name in ["battery \"house\"", "circuit \"a\"", "circuit \"b\"", "busbar \"three\"", "lamp \"l\""] {
            assert!(seen.contains(name), "{onward}: {name} is not among {seen:?}");
        }
    }
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn the_path_goes_through_included_files() {
    let folder = tempfile::tempdir().unwrap();
    let uri = |name: &str| format!("file://{}", folder.path().join(name).display());
    let (root, rest) = (uri("a.build.kdl"), uri("rest.kdl"));
    let root_text = "build A { basis eu; include \"rest.kdl\"; }\nbattery house voltage=\"12 V\"\ncircuit main from=house to=panel\n";
    let rest_text = "panel panel { way 1 lamp fuse=\"5 A\"; }\nlamp lamp power=\"5 W\"\n";
    // On disk only.
    std::fs::write(folder.path().join("rest.kdl"), rest_text).unwrap();
    let mut client = Client::plain().await;
    client.open(&root, root_text).await;
    client.settle().await;
    let main = prepare(&mut client, &root, root_text, "circuit main", 1).await.unwrap();
    let (panel, _) = step(&mut client, &main, true).await.remove(0);
    assert_eq!((&panel["name"], &panel["uri"]), (&json!("panel"), &json!(rest)));
    // And from there on, the included file open.
    client.open(&rest, rest_text).await;
    client.settle().await;
    let lamp = prepare(&mut client, &rest, rest_text, "lamp lamp", 6).await.unwrap();
    let (way, _) = step(&mut client, &lamp, false).await.remove(0);
    let (panel, _) = step(&mut client, &way, false).await.remove(0);
    let (main, _) = step(&mut client, &panel, false).await.remove(0);
    assert_eq!((&main["name"], &main["uri"]), (&json!("main"), &json!(root)));
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn outside_the_network_there_is_no_path() {
    let mut client = Client::started(surroundings(), Manners::Odd, json!({}), Value::Null).await;
    let (uri, text) = (url("bramble.build.kdl"), text("bramble.build.kdl"));
    client.open(&uri, &text).await;
    client.settle().await;
    assert_eq!(prepare(&mut client, &uri, &text, "vehicle class", 2).await, None);
    assert_eq!(prepare(&mut client, &uri, &text, "// ----", 2).await, None);
    let item = prepare(&mut client, &uri, &text, "battery house", 2).await.unwrap();
    let mut lost = item.clone();
    for data in
        [json!(null), json!(7), json!({ "build": "no address", "part": "x" }), json!({ "build": uri, "part": "x" })]
    {
        lost["data"] = data;
        assert_eq!(client.request("callHierarchy/incomingCalls", json!({ "item": lost })).await, Value::Null);
        assert_eq!(client.request("callHierarchy/outgoingCalls", json!({ "item": lost })).await, Value::Null);
    }
    // A line that cannot be read does not take the others away.
    let broken = text.replacen("vehicle class=van", "vehicle class=\"van", 1);
    client.replace(&uri, 2, &broken).await;
    client.settle().await;
    assert_eq!(names(&mut client, &item, true).await, ["circuit \"house main\"", "circuit \"heater feed\""]);
    let params =
        json!({ "textDocument": { "uri": "file:///none.build.kdl" }, "position": { "line": 0, "character": 0 } });
    assert_eq!(client.request("textDocument/prepareCallHierarchy", params).await, Value::Null);
    client.finish().await;
}
