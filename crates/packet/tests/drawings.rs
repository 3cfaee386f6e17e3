//! Drawings: nothing lies over anything, nothing is missing, and what is added moves nothing far.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use packet::{Drawing, Label, Packet};
use std::collections::HashMap;
use workshop::{DEMOS, demo, demo_build, of_build, text};

/// Every label of a drawing with what it belongs to.
fn labels(drawing: &Drawing) -> Vec<&Label> {
    drawing.elements.iter().flat_map(|element| &element.labels).collect()
}

fn overlaps(packet: &Packet) -> Vec<String> {
    let mut found = Vec::new();
    for drawing in &packet.drawings {
        let labels = labels(drawing);
        for (index, one) in labels.iter().enumerate() {
            let bounds = one.bounds();
            if bounds.x < 0.0
                || bounds.y < 0.0
                || bounds.x + bounds.width > drawing.width
                || bounds.y + bounds.height > drawing.height
            {
                found.push(format!("{}: {:?} leaves the sheet", drawing.id, one.text));
            }
            for other in &labels[index + 1..] {
                if bounds.overlaps(&other.bounds()) {
                    found.push(format!("{}: {:?} lies over {:?}", drawing.id, one.text, other.text));
                }
            }
        }
    }
    found
}

#[test]
fn no_text_lies_over_another_or_leaves_the_sheet() {
    for name in DEMOS {
        for twin in [name.to_owned(), format!("{name}-faulty")] {
            let found = overlaps(&demo(&twin));
            assert!(found.is_empty(), "{twin}: {found:#?}");
        }
    }
}

#[test]
fn long_and_foreign_names_stay_in_their_cells() {
    let long = "W".repeat(300);
    for name in [
        long.as_str(),
        "مصباح القراءة فوق السرير",
        "読書灯読書灯読書灯読書灯読書灯",
        "🚐🚐🚐🚐🚐🚐🚐🚐🚐🚐🚐🚐",
        "<b>&amp;\\\"</b>",
    ] {
        let packet = text(&format!(
            "build Wren {{ stage draft; }}\nbattery \"{name}\" chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\" at=\"0, 0, 0 mm\"\nbusbar bus\n\
             lamp \"l{name}\" power=\"18 W\" at=\"10, 0, 0 mm\"\ncircuit \"c{name}\" from=\"{name}\" to=bus {{ wire size=\"1.5 mm2\" one-way=\"2 m\"; }}\n\
             circuit \"d{name}\" from=bus to=\"l{name}\" {{ wire size=\"1.5 mm2\" one-way=\"2 m\"; }}\n"
        ));
        assert!(packet.drawings.len() >= 2, "{name}");
        let found = overlaps(&packet);
        assert!(found.is_empty(), "{name}: {found:#?}");
    }
}

#[test]
fn every_run_and_every_piece_of_it_is_drawn_once() {
    for name in DEMOS {
        let build = demo_build(name, "");
        let packet = of_build(&build);
        let mut drawn: HashMap<u32, usize> = HashMap::new();
        for element in
            packet.drawings.iter().filter(|drawing| drawing.step.is_some()).flat_map(|drawing| &drawing.elements)
        {
            if let Some(part) = &element.part {
                *drawn.entry(part.number).or_insert(0) += 1;
            }
        }
        for run in &build.circuitry().runs {
            assert!(drawn.contains_key(&run.written.0), "{name}: {} is not drawn", build.part(run.written).title);
            for piece in &run.pieces {
                let written = build.circuitry().written(piece.part());
                assert!(drawn.contains_key(&written.0), "{name}: {} is not drawn", build.part(written).title);
            }
        }
    }
}

/// The least and the greatest place on the grid of each part in each block, by key: what stands for several things (a way is
/// run, device and wire) has several.
fn places(packet: &Packet) -> HashMap<(String, String, usize), (usize, usize)> {
    let mut places = HashMap::new();
    for drawing in packet.drawings.iter().filter(|drawing| drawing.step.is_some()) {
        let mut seen: HashMap<&str, usize> = HashMap::new();
        for element in &drawing.elements {
            if let (Some(part), Some(grid)) = (&element.part, element.grid) {
                let times = seen.entry(&part.key).or_insert(0);
                places.insert((drawing.part_title.clone(), part.key.clone(), *times), grid);
                *times += 1;
            }
        }
    }
    places
}

#[test]
fn one_more_load_moves_no_symbol_by_more_than_one_step() {
    // Build, and what is added: a circuit from a bar, from a panel, from a battery, behind a load, joined to nothing.
    let cases = [
        (
            "bramble",
            "lamp \"step lamp\" power=\"5 W\"\ncircuit \"step\" from=\"main positive\" to=\"step lamp\" { fuse rating=\"3 A\"; wire size=\"1 mm2\" one-way=\"2 m\"; }\n",
        ),
        (
            "bramble",
            "lamp \"step lamp\" power=\"5 W\"\ncircuit \"step\" from=\"dc panel\" to=\"step lamp\" { fuse rating=\"3 A\"; wire size=\"1 mm2\" one-way=\"2 m\"; }\n",
        ),
        (
            "bramble",
            "lamp \"step lamp\" power=\"5 W\"\ncircuit \"step\" from=house to=\"step lamp\" { wire size=\"1 mm2\" one-way=\"2 m\"; }\n",
        ),
        (
            "bramble",
            "lamp \"step lamp\" power=\"5 W\"\ncircuit \"step\" from=\"bench lamp\" to=\"step lamp\" { wire size=\"1 mm2\" one-way=\"2 m\"; }\n",
        ),
        ("bramble", "lamp \"step lamp\" power=\"5 W\"\nswitch \"s\"\n"),
        ("tansy", "lamp \"step lamp\" power=\"5 W\"\n"),
    ];
    for (name, more) in cases {
        let before = places(&of_build(&demo_build(name, "")));
        let after = places(&of_build(&demo_build(name, more)));
        assert!(!before.is_empty());
        for (key, (column, row)) in &before {
            let Some((new_column, new_row)) = after.get(key) else { panic!("{name}: {key:?} is gone after {more}") };
            assert!(
                column.abs_diff(*new_column) <= 1 && row.abs_diff(*new_row) <= 1,
                "{name}: {key:?} moved from {column}, {row} to {new_column}, {new_row} after {more}"
            );
        }
    }
}

#[test]
fn a_load_may_be_added_to_any_bar_of_any_demo_build() {
    for name in DEMOS {
        let build = demo_build(name, "");
        let before = places(&of_build(&build));
        for kind in [vocabulary::kind::BUSBAR, vocabulary::kind::PANEL] {
            for bar in build.of_kind(kind).members.iter() {
                let Some(bar) = &build.part(*bar).name else { continue };
                let more = format!(
                    "lamp \"step lamp\" power=\"5 W\"\ncircuit \"step\" from=\"{bar}\" to=\"step lamp\" {{ wire size=\"1 mm2\" one-way=\"2 m\"; }}\n"
                );
                let after = places(&of_build(&demo_build(name, &more)));
                for (key, (column, row)) in &before {
                    let Some((new_column, new_row)) = after.get(key) else { panic!("{name}, {bar}: {key:?} is gone") };
                    assert!(
                        column.abs_diff(*new_column) <= 1 && row.abs_diff(*new_row) <= 1,
                        "{name}, {bar}: {key:?} moved from {column}, {row} to {new_column}, {new_row}"
                    );
                }
            }
        }
    }
}

#[test]
fn no_two_symbols_share_a_cell() {
    for name in DEMOS {
        let packet = demo(name);
        for drawing in packet.drawings.iter().filter(|drawing| drawing.step.is_some()) {
            let mut cells: HashMap<(usize, usize), usize> = HashMap::new();
            for element in drawing.elements.iter().filter(|element| !element.shapes.is_empty()) {
                // The name of a run stands with its line above the first of its pieces.
                let is_name = element.labels.len() == 1 && element.shapes.len() == 1;
                if let (Some(grid), false) = (element.grid, is_name) {
                    *cells.entry(grid).or_insert(0) += 1;
                }
            }
            let crowded: Vec<_> = cells.iter().filter(|(_, count)| **count > 1).collect();
            assert!(crowded.is_empty(), "{name}, {}: {crowded:?}", drawing.id);
        }
    }
}

#[test]
fn plan_and_sides_show_whatever_has_a_position() {
    let packet = demo("bramble");
    let titles = |id: &str| -> Vec<String> {
        let drawing = packet.drawings.iter().find(|drawing| drawing.id == id).expect("a drawing");
        drawing.elements.iter().filter_map(|element| Some(element.part.as_ref()?.title.clone())).collect()
    };
    for (id, there, elsewhere) in [
        (
            "floor-plan",
            vec!["battery \"house\"", "alarm \"smoke alarm\"", "furnishing \"workbench\"", "exit \"sliding door\""],
            "",
        ),
        ("left-side", vec!["battery \"house\"", "window \"bench window\""], "exit \"sliding door\""),
        ("right-side", vec!["exit \"sliding door\"", "alarm \"co alarm\""], "battery \"house\""),
    ] {
        let titles = titles(id);
        for title in there {
            assert!(titles.iter().any(|one| one == title), "{id}: {title} is not among {titles:?}");
        }
        assert!(!titles.iter().any(|one| one == elsewhere), "{id}: {elsewhere}");
    }
}

#[test]
fn a_chain_as_long_as_a_text_is_drawn() {
    let mut long = String::from("build Wren { stage draft; }\nbattery house chemistry=LFP voltage=\"12.8 V\"\n");
    let mut before = "house".to_owned();
    for number in 0..2000 {
        long.push_str(&format!(
            "busbar b{number}\ncircuit c{number} from={before} to=b{number} {{ wire size=\"10 mm2\" one-way=\"1 m\"; }}\n"
        ));
        before = format!("b{number}");
    }
    assert_eq!(text(&long).drawings.len(), 1);
}
