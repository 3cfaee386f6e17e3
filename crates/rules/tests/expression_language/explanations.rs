//! What would settle an open check, by how much a failed one misses, and which parts it points at.

use crate::table::{CASE, FIGURES, Run, Value, compiled, fact, run};
use design::{AnyOf, Gap, Gaps, PartId};

/// Each clause as `part.fact` alternatives joined by `or`; lists that could not be read as `unread part`.
fn words(gaps: &Gaps) -> Vec<String> {
    let gap = |gap: &Gap| match gap {
        Gap::Entry(part, fact) => format!("{}.{}", part.0, vocabulary::fact_spec(*fact).name),
        Gap::NoSolution(part, fact) => {
            format!("no {}.{}", part.0, vocabulary::fact_spec(*fact).name)
        }
        Gap::Unread(part) => format!("unread {}", part.0),
        other => format!("{other:?}"),
    };
    gaps.0.iter().map(|AnyOf(any)| any.iter().map(gap).collect::<Vec<_>>().join(" or ")).collect()
}

fn gaps(build: &mut Run, word: &str, text: &str) -> Vec<String> {
    let about = build.about(word);
    words(&compiled(word, text).gaps(&mut build.table, about, CASE, FIGURES))
}

#[test]
fn gaps_say_what_would_settle_it() {
    // The run is part 0, its ends 3 and 4, its conductors 5 to 7, its device 8.
    let rows: &[(&str, &str, &[&str])] = &[
        ("device", "rating <= protected_ampacity", &[]),
        ("device", "voltage <= circuit_voltage", &["8.voltage", "8.circuit-voltage"]),
        ("device", "voltage <= 12 * V && interrupting >= 1 * kA", &["8.voltage", "8.interrupting"]),
        ("device", "voltage <= 12 * V || interrupting >= 1 * kA", &["8.voltage or 8.interrupting"]),
        ("device", "!(voltage <= 12 * V && interrupting >= 1 * kA)", &["8.voltage or 8.interrupting"]),
        ("device", "!(voltage <= 12 * V || interrupting >= 1 * kA)", &["8.voltage", "8.interrupting"]),
        ("device", "protects && interrupting >= 1 * kA", &["8.interrupting"]),
        ("device", "!protects || interrupting >= 1 * kA", &["8.interrupting"]),
        ("device", "!protects && interrupting >= 1 * kA", &[]),
        (
            "device",
            "voltage <= circuit_voltage || interrupting >= 1 * kA",
            &["8.voltage or 8.interrupting", "8.circuit-voltage or 8.interrupting"],
        ),
        ("device", "voltage <= 12 * V || (voltage <= 24 * V && interrupting >= 1 * kA)", &["8.voltage"]),
        ("device", "interrupting >= 1 * kA ? protects : !protects", &["8.interrupting"]),
        ("device", "interrupting >= 1 * kA ? voltage > 12 * V : voltage > 24 * V", &["8.interrupting", "8.voltage"]),
        ("device", "current_kind == direct", &["8.current-kind"]),
        ("device", "rating <= run.design_current", &["0.design-current"]),
        ("device", "rating / (rating - 80 * A) <= 1", &["no 8.rating"]),
        ("run-end", "run.ends.all(e, e.enclosed)", &["3.enclosed", "4.enclosed"]),
        ("run-end", "run.ends.exists(e, e.enclosed)", &["3.enclosed or 4.enclosed"]),
        ("run-end", "!run.ends.exists(e, e.enclosed)", &["3.enclosed", "4.enclosed"]),
        ("run-end", "run.ends.filter(e, e.fed).all(e, e.enclosed)", &["3.enclosed"]),
        ("run-end", "run.ends.filter(e, e.enclosed).all(e, e.fed)", &["4.enclosed"]),
        ("run-end", "run.ends.filter(e, e.enclosed).exists(e, e.fed)", &["3.enclosed"]),
        ("run-end", "run.ends.filter(e, e.enclosed).size() >= 1", &["3.enclosed", "4.enclosed"]),
        ("run", "conductors.map(c, c.resistance).sum() <= 1 * ohm", &["5.resistance", "6.resistance", "7.resistance"]),
        ("run", "conductors.filter(c, false).map(c, c.one_way).max() <= 1 * m", &["no 0.conductors"]),
    ];
    let mut wrong = Vec::new();
    for (word, text, expected) in rows {
        let found = gaps(&mut run(), word, text);
        if found != *expected {
            wrong.push((text, found));
        }
    }
    assert_eq!(wrong, []);
}

#[test]
fn gaps_of_an_unknown_part_and_of_an_unread_list() {
    let mut build = run();
    build.table.forget(build.device, "run");
    assert_eq!(gaps(&mut build, "device", "rating <= run.ampacity"), ["8.run"]);
    assert_eq!(gaps(&mut build, "device", "run.ends.all(e, e.fed)"), ["8.run"]);
    let mut build = run();
    build.table.set(build.run, "ends", Value::Parts(build.ends.to_vec(), false));
    assert_eq!(gaps(&mut build, "run", "ends.all(e, e.has_device)"), ["unread 0"]);
    assert_eq!(gaps(&mut build, "run", "ends.all(e, e.enclosed)"), ["unread 0", "3.enclosed", "4.enclosed"]);
    assert_eq!(gaps(&mut build, "run", "ends.exists(e, e.enclosed)"), ["3.enclosed or 4.enclosed or unread 0"]);
    assert_eq!(gaps(&mut build, "run", "ends.size() >= 2"), ["unread 0"]);
}

#[test]
fn many_alternatives_stay_few_clauses() {
    let mut build = run();
    let text = "conductors.exists(c, c.resistance <= 1 * ohm && c.insulation >= degC(90))";
    let conductors: Vec<PartId> = (0..60).map(|_| build.table.part("conductor", &[])).collect();
    build.table.set(build.run, "conductors", Value::Parts(conductors, true));
    let found = gaps(&mut build, "run", text);
    assert!(!found.is_empty() && found.len() <= 48, "{}", found.len());
}

#[test]
fn margins_are_shares_of_the_limit() {
    type Row = (&'static str, &'static str, Option<(f64, &'static str)>);
    let rows: &[Row] = &[
        ("device", "rating <= protected_ampacity", None),
        ("device", "rating <= 64 * A", Some((0.25, "rating <= 64 * A"))),
        ("device", "rating >= 100 * A", Some((0.2, "rating >= 100 * A"))),
        ("device", "64 * A >= rating", Some((0.25, "64 * A >= rating"))),
        ("device", "!(rating > 64 * A)", Some((0.25, "rating > 64 * A"))),
        ("device", "rating <= 64 * A && rating <= 40 * A", Some((1.0, "rating <= 40 * A"))),
        ("device", "rating <= 64 * A || rating <= 40 * A", Some((1.0, "rating <= 40 * A"))),
        ("device", "rating <= 64 * A && rating <= 90 * A", Some((0.25, "rating <= 64 * A"))),
        ("device", "rating <= 0 * A", Some((1.0, "rating <= 0 * A"))),
        ("device", "rating < 80 * A", Some((0.0, "rating < 80 * A"))),
        ("device", "protects ? rating <= 64 * A : rating <= 1 * A", Some((0.25, "rating <= 64 * A"))),
        ("device", "rating <= 80 * A * share_allowed", Some((0.25, "rating <= 80 * A * share_allowed"))),
        ("device", "!protects", None),
        ("device", "voltage <= 1 * V", None),
        ("conductor", "bundled == 4", Some((0.5, "bundled == 4"))),
        ("run", "conductors.all(c, c.one_way <= 2 * m)", Some((0.5, "c.one_way <= 2 * m"))),
        ("run", "conductors.exists(c, c.one_way >= 6 * m)", Some((5.0 / 6.0, "c.one_way >= 6 * m"))),
        ("run", "!conductors.exists(c, c.one_way > 2 * m)", Some((0.5, "c.one_way > 2 * m"))),
        (
            "run",
            "(1 * m + conductors.map(c, c.one_way).sum()) * 2 <= 7 * m",
            Some((1.0, "(1 * m + conductors.map(c, c.one_way).sum()) * 2 <= 7 * m")),
        ),
    ];
    for (word, text, expected) in rows {
        let mut build = run();
        let about = build.about(word);
        let expression = compiled(word, text);
        let margin = expression.margin(&mut build.table, about, CASE, FIGURES);
        let found = margin.map(|margin| {
            ((margin.share * 1e9).round() / 1e9, expression.condition_text(&expression.conditions()[margin.condition]))
        });
        let expected = expected.map(|(share, condition): (f64, &str)| ((share * 1e9).round() / 1e9, condition));
        assert_eq!(found, expected, "{text}");
    }
    let mut build = run();
    let margin = compiled("device", "rating <= 64 * A").margin(&mut build.table, build.device, CASE, FIGURES).unwrap();
    assert_eq!((margin.left, margin.right, margin.dimension), (80.0, 64.0, quantity::Dimension::CURRENT));
}

#[test]
fn witnesses_are_the_members_that_decide() {
    let rows: &[(&str, &[u32])] = &[
        ("conductors.all(c, c.one_way <= 1.5 * m)", &[6, 7]),
        ("conductors.all(c, c.one_way <= 5 * m)", &[]),
        ("!conductors.exists(c, c.one_way > 2.5 * m)", &[7]),
        ("conductors.filter(c, c.one_way > 2 * m).all(c, false)", &[7]),
        ("conductors.exists(c, c.one_way > 9 * m)", &[]),
        ("ends.all(e, conductors.all(c, c.one_way <= 2 * m || !e.fed))", &[3, 7]),
        ("ampacity > 1 * A && ends.all(e, e.fed)", &[4]),
        ("ends.all(e, e.enclosed)", &[]),
    ];
    for (text, expected) in rows {
        let mut build = run();
        let found = compiled("run", text).witnesses(&mut build.table, build.run, CASE, FIGURES);
        assert_eq!(found.iter().map(|part| part.0).collect::<Vec<_>>(), *expected, "{text}");
    }
}

#[test]
fn a_fact_of_a_kind_is_asked_of_parts_of_that_kind_only() {
    let mut build = run();
    build.table.set(build.battery, "capacity", Value::Number(360_000.0));
    let text = "sources.filter(x, is(x, battery)).all(x, x.capacity >= 100 * Ah)";
    let expression = compiled("run-end", text);
    let end = build.ends[0];
    assert_eq!(expression.test(&mut build.table, end, CASE, FIGURES), design::Tri::Yes);
    assert_eq!(expression.trace(&mut build.table, end, CASE, FIGURES).outcome, design::Tri::Yes);
    assert!(
        expression.reads(&mut build.table, end, CASE, FIGURES).contains(&(build.battery, fact("battery", "capacity")))
    );
    build.table.set(end, "sources", Value::Parts(vec![build.alternator], true));
    assert_eq!(expression.test(&mut build.table, end, CASE, FIGURES), design::Tri::Yes);
}
