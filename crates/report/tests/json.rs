//! A review as a program reads it, by the published schema.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod fixture;

use fixture::{BUILD, clean, review};
use rules::Signal;
use rules::finding::{Outcome, Review};
use serde_json::Value;

fn json(review: &Review, hold_at: Signal) -> Value {
    serde_json::to_value(report::json(review, hold_at)).expect("JSON")
}

fn valid(review: &Review) -> Value {
    let schema: Value = serde_json::from_str(include_str!("../schema/review.schema.json")).expect("the schema is JSON");
    let validator = jsonschema::draft202012::new(&schema).expect("the schema is a schema");
    let value = json(review, Signal::Warning);
    let faults: Vec<String> =
        validator.iter_errors(&value).map(|fault| format!("{}: {fault}", fault.instance_path())).collect();
    assert!(faults.is_empty(), "{faults:#?}");
    value
}

#[test]
fn reviews_follow_the_schema() {
    let full = valid(&review());
    assert_eq!(full["version"], 1);
    assert_eq!(full["held"]["held"], true);
    assert_eq!(full["counts"]["failed"]["danger"], 1);
    assert_eq!(full["undecided"][0]["missing"][0]["any-of"][1], "a berth in build Wren");
    assert_eq!(full["waived"][0]["waived"]["reason"], "unlined by choice, wiped daily");
    assert_eq!(full["waived"][0]["waived"]["until"], "2028-04-01");
    assert_eq!(full["settle"][0]["checks"], 1);
    assert!(full["caution"].as_str().expect("a caution").contains("not an approval"));
    assert_eq!(valid(&clean())["held"]["held"], false);
    let mut nowhere = review();
    nowhere.files.clear();
    assert_eq!(valid(&nowhere)["findings"][0]["start"], Value::Null);
}

#[test]
fn the_schema_is_hand_kept_with_descriptions_and_refuses_what_it_does_not_know() {
    let schema: Value = serde_json::from_str(include_str!("../schema/review.schema.json")).expect("the schema is JSON");
    let validator = jsonschema::draft202012::new(&schema).expect("the schema is a schema");
    let whole = json(&review(), Signal::Warning);
    for (pointer, key) in [("", "findings"), ("/findings/0", "fingerprint"), ("/undecided/0", "missing")] {
        let mut broken = whole.clone();
        let object = broken.pointer_mut(pointer).and_then(Value::as_object_mut).expect("an object");
        assert!(object.remove(key).is_some());
        assert!(!validator.is_valid(&broken), "{pointer}/{key} is required");
        let mut more = whole.clone();
        let object = more.pointer_mut(pointer).and_then(Value::as_object_mut).expect("an object");
        object.insert(String::from("else"), Value::Null);
        assert!(!validator.is_valid(&more), "{pointer} takes nothing that the schema does not describe");
    }
    for (name, property) in schema["$defs"]["finding"]["properties"].as_object().expect("properties") {
        let described = property.get("description").is_some() || property.get("$ref").is_some();
        assert!(described, "{name} is described");
    }
}

#[test]
fn places_are_lines_columns_and_bytes_of_the_file() {
    let value = json(&review(), Signal::Warning);
    let finding = &value["findings"][0];
    assert_eq!(finding["file"], "wren.build.kdl");
    let byte = BUILD.find("wire size").expect("it is there");
    assert_eq!(finding["start"], serde_json::json!({ "line": 7, "column": 2, "byte": byte }));
    assert_eq!(finding["end"], serde_json::json!({ "line": 7, "column": 36, "byte": byte + 34 }));
    assert_eq!(finding["related"][1]["file"], "shop.parts.kdl");
    assert_eq!(finding["sources"][0]["mark"], "second-hand");
    assert_eq!(finding["facts"][0]["number"], 412.0);
    assert_eq!(finding["facts"][1]["value"], Value::Null);
    assert_eq!(finding["margin"], 0.25);
    assert_eq!(finding["follow"][0]["rule"], "electrical/voltage-drop");
    assert_eq!(finding["mend"]["text"], "    fuse rating=\"5 A\"\n");
}

#[test]
fn numbers_that_json_cannot_write_become_null() {
    let mut review = review();
    review.failed[0].outcome = Outcome::Fails { margin: Some(f64::INFINITY) };
    review.failed[0].facts[0].number = Some(f64::NAN);
    let value = valid(&review);
    assert_eq!(value["findings"][0]["margin"], Value::Null);
    assert_eq!(value["findings"][0]["facts"][0]["number"], Value::Null);
}
