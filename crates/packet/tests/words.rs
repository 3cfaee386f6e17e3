//! The papers speak as the country does whose rules a build is judged by.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use packet::{Packet, Value};
use workshop::{demo, text};

/// Words that the United States spell or call otherwise (common practice, no source).
const ELSEWHERE: [&str; 12] = [
    "tyre",
    "centre",
    "mould",
    "grey tank",
    "windscreen",
    "petrol",
    "colour",
    "licence",
    "mains board",
    "mains inlet",
    "residual-current",
    "earth b",
];

/// The sheets whose cells are texts of ours.
const OURS: [&str; 7] = ["owner", "rescue", "labels", "tests", "service", "hazards", "evidence"];

/// Every text of ours in a packet.
fn texts(packet: &Packet) -> Vec<String> {
    let mut texts = Vec::new();
    for sheet in &packet.sheets {
        texts.extend([sheet.title.to_owned(), sheet.purpose.to_owned()]);
        texts.extend(sheet.columns.iter().map(|column| column.title.to_owned()));
        texts.extend(sheet.notes.iter().cloned());
        if OURS.contains(&sheet.id) {
            let cells = sheet.rows.iter().flat_map(|row| &row.cells);
            texts.extend(cells.filter_map(|cell| match &cell.value {
                Value::Text(text) => Some(text.clone()),
                _ => None,
            }));
        }
    }
    texts.extend(packet.drawings.iter().flat_map(|drawing| [drawing.title.to_owned(), drawing.purpose.to_owned()]));
    texts
}

fn foreign(packet: &Packet) -> Vec<String> {
    let has = |text: &String| ELSEWHERE.iter().any(|word| text.to_lowercase().contains(word));
    texts(packet).into_iter().filter(has).collect()
}

#[test]
fn american_builds_have_american_papers() {
    assert_eq!(foreign(&demo("teasel")), [""; 0]);
    for name in ["juniper", "yarrow"] {
        let packet = demo(name);
        assert_eq!(foreign(&packet), [""; 0], "{name}");
        assert!(texts(&packet).iter().any(|text| text == "Tires carry"), "{name}");
    }
    for name in ["bramble", "lupin", "tansy"] {
        assert!(!foreign(&demo(name)).is_empty(), "{name}");
    }
}

#[test]
fn what_the_builder_wrote_stays() {
    let packet = text(
        "build Own { stage draft; basis us; }\nvehicle class=van\ntank \"grey tank\" holds=grey volume=\"20 l\"\n",
    );
    let cells = packet.sheets.iter().flat_map(|sheet| &sheet.rows).flat_map(|row| &row.cells);
    let mut names = cells.filter_map(|cell| match &cell.value {
        Value::Parts { parts, .. } => parts.first().map(|part| part.name.clone()),
        _ => None,
    });
    assert!(names.any(|name| name == "grey tank"));
}
