//! Packets of demo builds and of texts made to break them.
#![allow(dead_code, reason = "each test binary uses its own part of this")]
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

use packet::{Cell, Given, Pack, Packet, Row, Sheet};
use rules::{ReviewOptions, Signal, Today};
use spec::text::BlockCache;
use spec::{LoadFault, Loaded, Loader, SingleText};
use std::path::{Path, PathBuf};

/// The demo builds.
pub const DEMOS: [&str; 9] = ["bramble", "clover", "hazel", "juniper", "lupin", "sorrel", "tansy", "teasel", "yarrow"];

/// The folder of the demo builds.
pub fn demos() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/builds")
}

struct Below(PathBuf);

impl Loader for Below {
    fn load(&self, _: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        match std::fs::read_to_string(self.0.join(name)) {
            Ok(text) => Ok(Loaded { name: name.to_owned(), text }),
            Err(fault) => Err(LoadFault::Refused(fault.to_string())),
        }
    }
}

fn given() -> Given {
    Given {
        today: "2026-06-01".parse().expect("a day"),
        program: "coachwright 0.0.0".to_owned(),
        packs: vec![Pack { name: "any".to_owned(), edition: "0+0".to_owned() }],
        hold_at: Signal::Warning,
    }
}

/// A linked build.
pub fn build(loader: &dyn Loader, name: &str) -> design::Build {
    design::link(spec::read(loader, name, &mut BlockCache::new()))
}

/// The packet of a linked build.
pub fn of_build(build: &design::Build) -> Packet {
    let packs = packs::shipped().expect("the packs are whole");
    let options = ReviewOptions { today: Today::Is(given().today), draft: false };
    let review = rules::review::review_build(build, packs, options);
    packet::packet(build, review.into(), &given())
}

/// A linked demo build, with lines added behind its text.
pub fn demo_build(name: &str, more: &str) -> design::Build {
    let name = format!("{name}.build.kdl");
    if more.is_empty() {
        return build(&Below(demos()), &name);
    }
    struct With<'a>(Below, &'a str);
    impl Loader for With<'_> {
        fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
            let mut loaded = self.0.load(from, name)?;
            if from.is_none() {
                loaded.text.push_str(self.1);
            }
            Ok(loaded)
        }
    }
    build(&With(Below(demos()), more), &name)
}

/// The packet of a demo build.
pub fn demo(name: &str) -> Packet {
    of_build(&demo_build(name, ""))
}

/// The packet of a text.
pub fn text(text: &str) -> Packet {
    of_build(&build(&SingleText(text), "test.build.kdl"))
}

/// A sheet by its name.
pub fn sheet<'a>(packet: &'a Packet, id: &str) -> &'a Sheet {
    packet.sheets.iter().find(|sheet| sheet.id == id).expect("a sheet of that name")
}

/// The cell of a row in a column.
pub fn cell<'a>(sheet: &Sheet, row: &'a Row, key: &str) -> &'a Cell {
    let place = sheet.columns.iter().position(|column| column.key == key).expect("a column of that name");
    &row.cells[place]
}

/// What a cell shows.
pub fn shown(packet: &Packet, sheet: &Sheet, row: &Row, key: &str) -> String {
    packet::shown(cell(sheet, row, key), packet.head.units)
}

/// The row of a sheet that is about a part, by its title.
pub fn row<'a>(sheet: &'a Sheet, title: &str) -> &'a Row {
    sheet.rows.iter().find(|row| row.part.as_ref().is_some_and(|part| part.title == title)).expect("a row of that part")
}
