//! The files of a packet: whole, typed, and harmless whatever the names in the text hold.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use packet::write::{files, html};
use packet::{Packet, Value};
use workshop::{DEMOS, demo, sheet, text};

fn json(packet: &Packet) -> serde_json::Value {
    serde_json::to_value(packet::write::json(packet)).expect("JSON")
}

fn file(packet: &Packet, name: &str) -> String {
    files(packet).expect("files").into_iter().find(|file| file.name == name).expect("a file of that name").text
}

/// Whether a tag has an attribute that acts. Text has no `<` of its own, so that tags are what stands between the signs.
fn acts(text: &str) -> bool {
    let mut tags = text.split('<').skip(1).filter_map(|rest| rest.split('>').next());
    // What stands in quotes is a value, and no attribute.
    let outside = |tag: &str| tag.split('"').step_by(2).collect::<String>();
    tags.any(|tag| [" onload", " onerror", " onclick"].iter().any(|name| outside(tag).contains(name)))
        || text.contains("href=\"javascript:")
}

fn records(text: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
    reader.records().map(|record| record.expect("a record").iter().map(str::to_owned).collect()).collect()
}

#[test]
fn packets_follow_the_schema() {
    let schema: serde_json::Value =
        serde_json::from_str(include_str!("../schema/packet.schema.json")).expect("the schema is JSON");
    let validator = jsonschema::draft202012::new(&schema).expect("the schema is a schema");
    for name in DEMOS {
        for twin in [name.to_owned(), format!("{name}-faulty")] {
            let value = json(&demo(&twin));
            let faults: Vec<String> =
                validator.iter_errors(&value).map(|fault| format!("{}: {fault}", fault.instance_path())).collect();
            assert!(faults.is_empty(), "{twin}: {faults:#?}");
        }
    }
    // What the schema does not know is refused.
    let mut value = json(&demo("bramble"));
    value["head"]["colour"] = "red".into();
    assert!(!validator.is_valid(&value));
    let mut value = json(&demo("bramble"));
    value["sheets"][0]["rows"][0]["cells"][0] = serde_json::json!({ "type": "number", "text": "1" });
    assert!(!validator.is_valid(&value));
}

#[test]
fn numbers_stay_numbers_in_table_files() {
    let packet = demo("bramble");
    for sheet in &packet.sheets {
        let records = records(&file(&packet, &format!("tables/{}.csv", sheet.id)));
        assert_eq!(records.len(), sheet.rows.len() + 1, "{}", sheet.id);
        for (row, record) in sheet.rows.iter().zip(&records[1..]) {
            for ((cell, column), field) in row.cells.iter().zip(&sheet.columns).zip(record) {
                let is_number = match (&cell.value, column.kind) {
                    (Value::Quantity(quantity), packet::Kind::Quantity(dimension)) => {
                        quantity.dimension == dimension && quantity.value < f64::MAX
                    }
                    (Value::Size { .. }, packet::Kind::Size) | (Value::Count(_), _) => true,
                    _ => continue,
                };
                assert_eq!(field.parse::<f64>().is_ok(), is_number, "{}, {}: {field}", sheet.id, column.key);
            }
        }
    }
    let devices = records(&file(&packet, "tables/devices.csv"));
    assert!(devices[0].contains(&"rating [A]".to_owned()), "{:?}", devices[0]);
    assert!(devices.iter().any(|record| record.contains(&"125".to_owned())));
}

#[test]
fn no_cell_of_a_table_file_is_taken_for_a_formula() {
    for name in ["=1+1", "+1", "-1", "@SUM(A1)", "|cmd", "＝1+1", "  =1+1"] {
        let packet = text(&format!(
            "build \"{name}\" {{ stage draft; revision \"{name}\" by=\"{name}\"; }}\nlamp \"{name}\" power=\"18 W\" note=\"{name}\" supplier=\"{name}\"\n"
        ));
        for file in files(&packet).expect("files").into_iter().filter(|file| file.name.ends_with(".csv")) {
            for field in records(&file.text).iter().flatten() {
                let first = field.trim_start().chars().next();
                let is_number = field.parse::<f64>().is_ok();
                assert!(
                    is_number || !first.is_some_and(|first| "=+-@|＝＋－＠".contains(first)),
                    "{name} in {}: {field}",
                    file.name
                );
            }
        }
    }
}

#[test]
fn names_do_no_harm_to_the_page_and_the_drawings() {
    let long = "x".repeat(300);
    for name in [
        "<script>alert(1)</script>",
        "</title></style></script><img src=x onerror=alert(1)>",
        "a & b < c > d ' e",
        "\\\" onload=\\\"alert(1)",
        "javascript:alert(1)",
        "مصباح \\u{202e} القراءة",
        "]]>--><!--",
        long.as_str(),
    ] {
        let packet = text(&format!(
            "build \"{name}\" purpose=\"{name}\" {{ stage draft; }}\nbattery \"{name}\" chemistry=LFP voltage=\"12.8 V\" at=\"0, 0, 0 mm\" note=\"{name}\"\n\
             lamp \"l {name}\" power=\"18 W\" at=\"100, 0, 0 mm\"\ncircuit \"c {name}\" from=\"{name}\" to=\"l {name}\" {{ wire size=\"1.5 mm2\" one-way=\"2 m\" label=\"{name}\"; }}\n"
        ));
        let page = html(&packet);
        assert_eq!(page.matches("<script").count(), 1, "{name}");
        assert!(!page.contains("<img"), "{name}");
        assert!(!page.contains("\u{202e}"), "{name}");
        assert!(!acts(&page), "{name}");
        for file in files(&packet).expect("files").iter().filter(|file| file.name.ends_with(".svg")) {
            let drawing = svg::read(&file.text).expect("a drawing");
            for event in drawing {
                if let svg::parser::Event::Error(error) = event {
                    panic!("{name} in {}: {error}", file.name);
                }
            }
            assert!(!file.text.contains("<script") && !acts(&file.text), "{name}");
        }
    }
}

#[test]
fn the_page_asks_nothing_of_a_network_and_its_links_lead_somewhere() {
    for name in DEMOS {
        for twin in [name.to_owned(), format!("{name}-faulty")] {
            let page = html(&demo(&twin));
            for address in ["src=", "http-equiv=\"refresh", "@import", "url("] {
                assert!(!page.contains(address), "{twin}: {address}");
            }
            let ids: std::collections::HashSet<&str> =
                page.split(" id=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
            let count = page.matches(" id=\"").count();
            assert_eq!(ids.len(), count, "{twin}: an id stands twice");
            for target in page.split("href=\"#").skip(1).filter_map(|rest| rest.split('"').next()) {
                assert!(ids.contains(target), "{twin}: #{target} leads nowhere");
            }
        }
    }
}

#[test]
fn every_sheet_and_drawing_carries_what_it_must() {
    let packet = demo("bramble-faulty");
    let page = html(&packet);
    let sections: Vec<&str> = page.split("<section class=\"paper ").skip(1).collect();
    assert_eq!(sections.len(), packet.sheets.len() + packet.drawings.len() + 1, "the specification comes last");
    for section in &sections[..sections.len() - 1] {
        for words in [
            "NOT FOR CONSTRUCTION",
            "Bramble",
            "permissible laden mass",
            "2026-06-01",
            "any 0+0",
            packet.head.short_hash(),
            "Open findings: ",
            "Not a certificate.",
            "is not an approval",
            "Checked by, signature, date",
        ] {
            assert!(section.contains(words), "{words} is missing in {:.120}", section);
        }
    }
    for file in files(&packet).expect("files").iter().filter(|file| file.name.ends_with(".svg")) {
        for words in ["NOT FOR CONSTRUCTION", "Bramble", "2026-06-01", packet.head.short_hash(), "Not a certificate."] {
            assert!(file.text.contains(words), "{words} is missing in {}", file.name);
        }
    }
    for sheet in &packet.sheets {
        let table = file(&packet, &format!("tables/{}.csv", sheet.id));
        assert!(
            records(&table)[1..].iter().all(|record| record.last().is_some_and(|last| last == "NOT FOR CONSTRUCTION"))
        );
    }
    let clean = html(&demo("bramble"));
    assert!(!clean.contains("class=\"across\"") && !clean.contains("class=\"stopped\""));
    // The dangers stand on the first page.
    let first = page.split("</section>").next().expect("a first page");
    assert!(
        first.matches("badge danger").count()
            >= sheet(&packet, "findings").rows.iter().filter(|row| row.signal == Some(rules::Signal::Danger)).count()
    );
}

#[test]
fn the_mark_of_the_text_changes_with_the_text_only() {
    let of = |text: &str| workshop::text(text).head.hash;
    let text = "build Wren { stage draft; }\n";
    assert_eq!(of(text), of(text));
    assert_ne!(of(text), of("build Wren { stage draft; } \n"));
    assert_eq!(of(text).len(), 64);
}
