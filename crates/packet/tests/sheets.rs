//! What stands in the sheets of the demo builds.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use design::{Build, Fact, Reader};
use packet::{RowKind, Value};
use vocabulary::{Axes, Family, Naming, PartSpec, fact, kind};
use workshop::{DEMOS, cell, demo, demo_build, of_build, row, sheet, shown, text};

#[test]
fn schedules_say_what_the_text_and_the_facts_say() {
    let packet = demo("bramble");
    // Sheet, part of the row, column, what it shows.
    let cases = [
        ("circuits", "circuit \"inverter feed\"", "conductor", "35 mm²"),
        ("circuits", "circuit \"inverter feed\"", "devices", "fuse 125 A, T"),
        ("circuits", "circuit \"inverter feed\"", "length", "700 mm"),
        ("circuits", "circuit \"inverter feed\"", "to", "inverter \"bench inverter\""),
        ("circuits", "circuit \"house main\"", "in-line", "disconnect \"house isolator\""),
        ("materials", "battery \"house\"", "mass", "46 kg"),
        ("materials", "battery \"house\"", "mass-from", "data-sheet"),
        ("energy", "lamp \"bench lamp\"", "power", "18 W"),
        ("energy", "lamp \"bench lamp\"", "on-in-a-day", "4 h"),
        ("hazards", "battery \"house\"", "held-by", "management that cuts both; restraint steel frame, two straps"),
    ];
    for (id, part, column, expected) in cases {
        let sheet = sheet(&packet, id);
        assert_eq!(shown(&packet, sheet, row(sheet, part), column), expected, "{id}, {part}, {column}");
    }
}

#[test]
fn the_energy_sums_are_the_facts_and_the_rows_add_up_to_them() {
    let mut seen = 0;
    for name in DEMOS {
        let build = demo_build(name, "");
        let packet = of_build(&build);
        let Some(sheet) = packet.sheets.iter().find(|sheet| sheet.id == "energy") else { continue };
        let week = build.of_kind(kind::WEEK).members[0];
        let mut reader = Reader::new(&build);
        for case in reader.cases_among(Axes::CLIMATE) {
            let season = reader.cases().climate(case).to_owned();
            let rows: Vec<_> = sheet.rows.iter().filter(|row| row.group.to_lowercase().starts_with(&season)).collect();
            let mut sum = 0.0;
            let mut known = true;
            for row in rows.iter().filter(|row| row.kind == RowKind::Item) {
                match &cell(sheet, row, "taken-in-a-day").value {
                    Value::Quantity(energy) => sum += energy.value,
                    _ => known = false,
                }
            }
            let fact = reader.fact(week, fact::week::ENERGY_A_DAY, case);
            let total = rows.iter().find(|row| row.kind == RowKind::Total).expect("a sum");
            match (&cell(sheet, total, "taken-in-a-day").value, fact) {
                (Value::Quantity(told), Ok(Fact::Number(fact))) => {
                    assert!(known, "{name}: a sum of what is not known");
                    assert!((told.value - fact).abs() <= 1e-9 * fact, "{name}: {} and {fact}", told.value);
                    assert!((sum - fact).abs() <= 1e-9 * fact, "{name}: the rows add up to {sum}, the fact is {fact}");
                    seen += 1;
                }
                (Value::Unknown { settle }, Err(_)) => assert!(!settle.is_empty(), "{name}"),
                (told, fact) => panic!("{name}: {told:?} and {fact:?}"),
            }
        }
    }
    assert!(seen >= 6, "{seen} sums are known");
}

#[test]
fn what_things_load_adds_up_to_the_axles_and_these_to_the_whole() {
    let mut seen = 0;
    for name in DEMOS {
        let packet = demo(name);
        let Some(sheet) = packet.sheets.iter().find(|sheet| sheet.id == "masses") else { continue };
        let total = sheet.rows.iter().find(|row| row.kind == RowKind::Total).expect("a sum");
        for column in ["mass", "on-the-front", "on-the-rear"] {
            let Value::Quantity(told) = &cell(sheet, total, column).value else { continue };
            let sum: f64 = sheet
                .rows
                .iter()
                .filter(|row| row.kind == RowKind::Item)
                .map(|row| match &cell(sheet, row, column).value {
                    Value::Quantity(mass) => mass.value,
                    other => panic!("{name}: {other:?} in a sum that is known"),
                })
                .sum();
            assert!((sum - told.value).abs() <= 1e-6 * told.value.abs(), "{name}, {column}: {sum} and {}", told.value);
            seen += 1;
        }
    }
    assert!(seen >= 9, "{seen} sums are known");
}

#[test]
fn every_state_has_every_axle_and_the_limits_are_those_of_the_plate() {
    let packet = demo("bramble");
    let axles = sheet(&packet, "axles");
    let states: std::collections::HashSet<&str> = axles.rows.iter().map(|row| row.group.as_str()).collect();
    assert!(states.len() >= 8 && states.contains("as built") && states.contains("filled worst for the rear"));
    for state in states {
        let rows: Vec<_> = axles.rows.iter().filter(|row| row.group == state).collect();
        assert_eq!(rows.len(), 3, "{state}: two axles and the whole vehicle");
        let limits: Vec<String> = rows.iter().map(|row| shown(&packet, axles, row, "limit")).collect();
        assert_eq!(limits, ["1850 kg", "2400 kg", "3500 kg"], "{state}");
    }
}

#[test]
fn what_stays_live_with_a_switch_off_is_told_with_its_source() {
    let packet = demo("bramble");
    let live = sheet(&packet, "live-when-off");
    let told = |state: &str, column: &str| -> String {
        let rows = live.rows.iter().filter(|row| shown(&packet, live, row, "state") == state);
        rows.map(|row| shown(&packet, live, row, column)).collect::<Vec<_>>().join("; ")
    };
    // The heater is fed straight from the battery, the panel through the switch.
    assert!(told("live", "things").contains("cabin heater"), "{}", told("live", "things"));
    assert!(told("live", "always").contains("battery \"house\""), "{}", told("live", "always"));
    // The engine's charger feeds the panel on the far side of the switch.
    let at_times = told("live at times", "things");
    assert!(at_times.contains("bench lamp") && !at_times.contains("cabin heater"), "{at_times}");
    assert!(told("live at times", "at-times").contains("alternator \"engine\""));
    let modes = sheet(&packet, "modes");
    let names: Vec<String> = modes.rows.iter().map(|row| shown(&packet, modes, row, "mode")).collect();
    for name in ["parked", "driving", "shore"] {
        assert!(names.iter().any(|one| one == name), "{name} is not among {names:?}");
    }
}

#[test]
fn gas_sheets_give_loads_pressures_and_the_test_of_tightness() {
    let gassy: Vec<_> = DEMOS
        .into_iter()
        .map(demo)
        .filter(|packet| packet.sheets.iter().any(|sheet| sheet.id == "gas-lines"))
        .collect();
    assert!(!gassy.is_empty());
    for packet in gassy {
        let lines = sheet(&packet, "gas-lines");
        for row in &lines.rows {
            for column in ["connected-load", "tightness-test", "longest"] {
                assert!(!shown(&packet, lines, row, column).is_empty(), "{}: {column}", packet.head.build);
            }
        }
        let pipes = sheet(&packet, "gas-pipes");
        assert!(pipes.rows.iter().all(|row| row.group.starts_with("gas line") || row.group.starts_with("gas-line")));
    }
}

#[test]
fn every_written_part_of_every_demo_build_has_a_row() {
    for name in DEMOS {
        let build = demo_build(name, "");
        let packet = of_build(&build);
        for (number, part) in build.parts() {
            if number == Build::ROOT || vocabulary::part(part.kind).family == Family::Worked {
                continue;
            }
            let found = packet
                .sheets
                .iter()
                .flat_map(|sheet| &sheet.rows)
                .any(|row| row.part.as_ref().is_some_and(|own| own.number == number.0));
            assert!(found, "{name}: {} is in no sheet", part.title);
        }
    }
}

/// The part's text within the parts that it may stand in, up to the top of a file.
fn surrounded(spec: &PartSpec, text: &str) -> String {
    if spec.top {
        return text.to_owned();
    }
    let mut outers: Vec<&PartSpec> =
        vocabulary::parts().iter().filter(|outer| outer.kind != spec.kind && outer.may_contain(spec.kind)).collect();
    outers.sort_by_key(|outer| !outer.top);
    let outer = outers.first().expect("a part stands somewhere");
    let name = if outer.naming == Naming::Never { "" } else { " outer" };
    surrounded(outer, &format!("{}{name} {{\n    {text}\n}}", outer.word))
}

#[test]
fn every_part_of_the_vocabulary_appears_in_the_documents() {
    // What says how the text is read, and no part of a build.
    const READING: [&str; 6] = ["include", "house-rules", "defaults", "none", "pattern", "like"];
    let written = vocabulary::parts().iter().filter(|spec| spec.family != Family::Worked);
    let mut seen = 0;
    for spec in written.filter(|spec| !READING.contains(&spec.word) && spec.kind != kind::BUILD) {
        let text = format!("{}\nlamp other\n", surrounded(spec, spec.example));
        let build = workshop::build(&spec::SingleText(&text), "test.build.kdl");
        let members = &build.of_kind(spec.kind).members;
        assert!(!members.is_empty(), "{text}");
        let packet = of_build(&build);
        for part in members.iter() {
            let rows = packet.sheets.iter().flat_map(|sheet| sheet.rows.iter().map(move |row| (sheet.id, row)));
            let homes: Vec<&str> = rows
                .filter(|(_, row)| row.part.as_ref().is_some_and(|own| own.number == part.0))
                .map(|(id, _)| id)
                .collect();
            assert!(!homes.is_empty(), "{} is in no document: {text}", spec.word);
            // Every entry of its example stands in one of them.
            let parts = sheet(&packet, "parts");
            let said = parts.rows.iter().find(|row| row.part.as_ref().is_some_and(|own| own.number == part.0));
            let said = said.map(|row| shown(&packet, parts, row, "says")).expect("its row in the register");
            for given in &build.part(*part).given {
                let name = vocabulary::fact_spec(given.fact).name;
                assert!(said.contains(name), "{}: {name} is not in {said:?}", spec.word);
            }
        }
        seen += 1;
    }
    assert!(seen > 80, "{seen} parts");
}

#[test]
fn what_has_a_sheet_of_its_own_stands_in_it() {
    // The word of a part, and the sheets of which one at least shows its example.
    let cases: [(&str, &[&str]); 29] = [
        ("battery", &["materials", "hazards"]),
        ("circuit", &["circuits"]),
        ("cylinder", &["gas-stores"]),
        ("cartridge", &["gas-stores"]),
        ("gas-line", &["gas-lines"]),
        ("regulator", &["gas-pipes"]),
        ("hose", &["gas-pipes"]),
        ("valve", &["gas-pipes"]),
        ("feeds", &["gas-appliances"]),
        ("union", &["gas-pipes"]),
        ("solenoid", &["gas-pipes"]),
        ("certificate", &["evidence"]),
        ("zone", &["spaces"]),
        ("vent", &["vents"]),
        ("hood", &["vents"]),
        ("exhaust", &["terminals"]),
        ("intake", &["terminals"]),
        ("alarm", &["alarms"]),
        ("fire-blanket", &["alarms"]),
        ("exit", &["exits"]),
        ("seat", &["ways-out"]),
        ("board", &["cut-list"]),
        ("job", &["jobs"]),
        ("hold", &["jobs"]),
        ("shell", &["faces"]),
        ("boiler", &["water-stores", "frost"]),
        ("tap", &["water-lines"]),
        ("pressure-vessel", &["water-lines"]),
        ("waste-line", &["waste-lines", "frost"]),
    ];
    for (word, ids) in cases {
        let spec = vocabulary::parts().iter().find(|spec| spec.word == word).expect("a part of that word");
        let build = workshop::build(&spec::SingleText(&surrounded(spec, spec.example)), "test.build.kdl");
        let part = build.of_kind(spec.kind).members[0];
        let packet = of_build(&build);
        for id in ids {
            let own = packet.sheets.iter().find(|sheet| sheet.id == *id).unwrap_or_else(|| panic!("{word}: no {id}"));
            let there = own.rows.iter().any(|row| row.part.as_ref().is_some_and(|own| own.number == part.0));
            assert!(there, "{word} is not in {id}");
        }
    }
}

#[test]
fn runs_conductors_and_devices_stand_in_their_schedules_once_each() {
    for name in DEMOS {
        let build = demo_build(name, "");
        let packet = of_build(&build);
        let runs = &build.circuitry().runs;
        let conductors: usize = runs.iter().map(|run| run.conductors().count()).sum();
        let devices: usize = runs.iter().map(|run| run.devices().count()).sum();
        for (id, count) in [("circuits", runs.len()), ("conductors", conductors), ("devices", devices)] {
            assert_eq!(sheet(&packet, id).rows.len(), count, "{name}, {id}");
        }
    }
}

#[test]
fn what_is_not_known_says_what_would_settle_it_and_what_is_assumed_says_so() {
    let packet = text(
        "build Wren { stage review; }\nbattery house chemistry=LFP voltage=\"12.8 V\"\nlamp bench power=\"18 W\"\n\
         circuit feed from=house to=bench { wire size=\"1.5 mm2\" insulation=\"105 degC\"; }\n",
    );
    let conductors = sheet(&packet, "conductors");
    let only = &conductors.rows[0];
    match &cell(conductors, only, "one-way").value {
        Value::Unknown { settle } => assert!(settle.iter().any(|one| one.contains("one-way of wire")), "{settle:?}"),
        other => panic!("{other:?}"),
    }
    assert!(cell(conductors, only, "ampacity").assumed, "the air temperature is assumed");
    assert!(!cell(conductors, only, "size").assumed, "the size is written");
}

#[test]
fn sheets_of_systems_that_are_not_there_are_left_out_and_listed_never_empty() {
    let packet = text("build Wren { stage draft; none power gas; }\n");
    assert!(packet.sheets.iter().all(|sheet| !sheet.rows.is_empty()));
    let left: Vec<&str> = packet.left_out.iter().map(|out| out.title.as_str()).collect();
    for title in ["Circuit schedule", "Single-line diagram", "Floor plan", "Mass and axles"] {
        assert!(left.contains(&title), "{title} is not among {left:?}");
    }
    assert!(packet.drawings.is_empty());
}

#[test]
fn dangers_stop_construction_and_waivers_are_registered() {
    let faulty = demo("bramble-faulty");
    assert!(faulty.head.not_for_construction && faulty.head.held.held);
    let findings = sheet(&faulty, "findings");
    assert_eq!(findings.rows.len(), faulty.head.failed_in_all() + faulty.head.undecided_in_all() + faulty.head.waived);
    let clean = demo("bramble");
    assert!(!clean.head.not_for_construction);
    let waived = text(
        "build Wren { stage review; none shore gas water heat cooking toilet sleeping travel-seats; }\n\
         battery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\"\nlamp bench power=\"18 W\"\n\
         circuit feed from=house to=bench { wire size=\"1.5 mm2\" one-way=\"2 m\"; }\n\
         waive \"protection/none-at-source\" on=\"feed\" reason=\"bench trial\" by=\"workshop office\" until=\"2026-12-01\" evidence=\"test report 7\"\n",
    );
    let findings = sheet(&waived, "findings");
    let row = findings.rows.iter().find(|row| row.group == "Accepted").expect("an accepted finding");
    for (column, expected) in
        [("reason", "bench trial"), ("by", "workshop office"), ("until", "2026-12-01"), ("evidence", "test report 7")]
    {
        assert_eq!(shown(&waived, findings, row, column), expected, "{column}");
    }
    let service = sheet(&waived, "service");
    assert!(service.rows.iter().any(|row| shown(&waived, service, row, "due") == "2026-12-01"), "it runs out");
}

#[test]
fn certificates_and_marks_stand_in_the_evidence_and_their_days_in_the_calendar() {
    let packet = text(
        "build Wren { stage draft; }\n\
         cooker hob fuel=gas approval=\"data plate E0-0201\"\n\
         heater furnace fuel=gas tested-to=\"EN 624\"\n\
         berth bunk mattress-label=one-off\n\
         gas-line main tested=\"2026-05-02\" test-due=\"2028-05-31\" { hose replace-by=\"2034-05-01\"; feeds hob; }\n\
         certificate \"gas work\" proves=gas date=\"2026-05-02\" due=\"2028-05-02\" by=\"gas fitter\" number=\"G-0417\"\n",
    );
    let evidence = sheet(&packet, "evidence");
    let row = evidence.rows.iter().find(|row| row.group == "Certificates").expect("the certificate");
    assert_eq!(shown(&packet, evidence, row, "paper"), "gas work, No. G-0417, 2026-05-02, gas fitter");
    assert_eq!(shown(&packet, evidence, row, "proves"), "the gas system, as licensed gas work");
    assert_eq!(shown(&packet, evidence, row, "due"), "2028-05-02");
    for paper in ["data plate E0-0201", "EN 624", "one-off"] {
        let named = evidence.rows.iter().any(|row| shown(&packet, evidence, row, "paper") == paper);
        assert!(named, "{paper} is not in the index");
    }
    let service = sheet(&packet, "service");
    for due in ["2028-05-02", "2028-05-31", "2034-05-01"] {
        assert!(
            service.rows.iter().any(|row| shown(&packet, service, row, "due") == due),
            "{due} is not in the calendar"
        );
    }
}

#[test]
fn what_has_plans_approved_stands_in_the_evidence() {
    // A unit, and what its plans are approved for; nothing where nothing asks for that.
    let cases: [(&str, &str, Option<&str>); 4] = [
        ("us", "class=work-vehicle", Some("asked for in some states because of: a fire of wood or charcoal")),
        ("us", "class=van", None),
        ("eu", "class=work-vehicle", None),
        ("us", "class=commercial-unit\nheater other fuel=unknown", Some("because of: a fire of wood or charcoal")),
    ];
    for (basis, more, proves) in cases {
        let packet = text(&format!(
            "build Wren {{ stage draft; basis {basis}; }}\nvehicle {more}\nheater stove fuel=wood\nappliance safe mass=\"400 kg\" floor-proof=\"calculation 6\"\n"
        ));
        let evidence = sheet(&packet, "evidence");
        let paper = |row: &&packet::Row| shown(&packet, evidence, row, "paper");
        let row = evidence.rows.iter().find(|row| paper(row).starts_with("Approval of the plans"));
        let said = row.map(|row| shown(&packet, evidence, row, "proves"));
        match (&said, proves) {
            (Some(said), Some(proves)) => assert!(said.contains(proves), "{more}: {said}"),
            (said, proves) => assert_eq!(said.is_some(), proves.is_some(), "{basis} {more}: {said:?}"),
        }
        assert!(evidence.rows.iter().any(|row| paper(&row) == "calculation 6"), "{more}");
    }
}

#[test]
fn costs_are_added_by_currency() {
    let packet = text(
        "build Wren { stage draft; }\nlamp one cost=\"10 EUR\"\nlamp two cost=\"15.5 EUR\"\nlamp three cost=\"7 USD\"\nlamp four\n",
    );
    let sheet = sheet(&packet, "materials");
    let sums: Vec<String> = sheet
        .rows
        .iter()
        .filter(|row| row.group == "Sum of the costs given")
        .map(|row| shown(&packet, sheet, row, "cost"))
        .collect();
    assert_eq!(sums, ["25.50 EUR", "7 USD"]);
    assert!(sheet.notes.iter().any(|note| note.ends_with("without a cost: 1.")), "{:?}", sheet.notes);
}

#[test]
fn quantities_are_shown_in_the_units_of_the_build() {
    let in_units = |units: &str| {
        text(&format!(
            "build Wren {{ stage draft; units {units}; }}\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\" mass=\"10 kg\"\n"
        ))
    };
    for (units, mass) in [("metric", "10 kg"), ("us", "22 lb")] {
        let packet = in_units(units);
        let sheet = sheet(&packet, "materials");
        assert_eq!(shown(&packet, sheet, row(sheet, "battery \"house\""), "mass"), mass, "{units}");
    }
}

#[test]
fn a_mass_label_is_made_of_weighed_values_only() {
    let packet = demo("bramble");
    let labels = sheet(&packet, "labels");
    let texts: Vec<String> = labels.rows.iter().map(|row| shown(&packet, labels, row, "text")).collect();
    assert!(texts.iter().any(|text| text.contains("3500 kg") || text.contains("3.5 t")), "{texts:?}");
    assert!(texts.contains(&"Mass as built: not weighed".to_owned()), "{texts:?}");
}

#[test]
fn each_thing_that_stores_or_gives_energy_is_on_the_rescue_card() {
    let build = demo_build("bramble", "");
    let packet = of_build(&build);
    let card = sheet(&packet, "rescue");
    for kind in [kind::BATTERY, kind::INLET, kind::INVERTER] {
        for part in build.of_kind(kind).members.iter() {
            assert!(
                card.rows.iter().any(|row| row.part.as_ref().is_some_and(|own| own.number == part.0)),
                "{}",
                build.part(*part).title
            );
        }
    }
}
