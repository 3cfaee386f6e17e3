//! What expressions answer.

use crate::table::{CASE, FIGURES, Value, compiled, run};
use design::Tri::{self, No, Unknown, Yes};

#[test]
fn answers_on_a_known_run() {
    let cases: &[(&str, &str, Tri)] = &[
        ("device", "rating <= protected_ampacity", Yes),
        ("device", "rating > protected_ampacity", No),
        ("device", "rating <= run.ampacity * share_allowed", Yes),
        ("device", "rating <= 79 * A", No),
        ("device", "rating <= 0.08 * kA", Yes),
        ("device", "rating + 1 * A > 80.5 * A && !(rating < 80 * A)", Yes),
        ("device", "protects ? rating <= 80 * A : rating <= 1 * A", Yes),
        ("device", "rating <= (protects ? 80 * A : 1 * A)", Yes),
        ("device", "self == self && self in run.devices", Yes),
        ("device", "run.devices.all(x, x == self)", Yes),
        ("device", "title == \"80 A\" && title != '70 A' && title in ['80 A', 'x']", Yes),
        ("device", "has(rating) && has(run.ampacity) && !has(voltage) && !has(run.design_current)", Yes),
        ("device", "1 / 2 >= 0.5 && 1 == 1.0 && 7 / 2 > 3", Yes),
        ("device", "-rating < -79 * A && abs(-3) == 3", Yes),
        ("device", "min(rating, protected_ampacity, 90 * A) >= 80 * A && max(rating, 90 * A) <= 90 * A", Yes),
        ("conductor", "passes == metal", Yes),
        ("conductor", "metal == passes", Yes),
        ("conductor", "passes != metal", No),
        ("conductor", "edge in [grommet, gland]", Yes),
        ("conductor", "edge in [bushing, 'gland']", No),
        ("conductor", "ambient <= degC(30) && ambient >= degF(86) && ambient - degC(20) >= 10 * K", Yes),
        ("conductor", "ambient + 5 * K <= degC(-35)", No),
        ("conductor", "area >= 16 * mm2 && sqrt(area) >= 4 * mm", Yes),
        ("conductor", "one_way <= 1000 * mm && one_way >= 39.3 * inch", Yes),
        ("conductor", "bundled == 2 && bundled != 3 && bundled * 2 == 4", Yes),
        ("conductor", "run.conductors.map(c, c.one_way).sum() >= 6 * m", Yes),
        ("run", "ends.all(e, e.has_device)", Yes),
        ("run", "ends.exists_one(e, e.fed)", Yes),
        ("run", "ends.filter(e, e.fed).size() == 1 && size(ends) == 2 && ends.count() == 2", Yes),
        ("run", "conductors.map(c, c.ambient).max() <= degC(30) && conductors.map(c, c.one_way).min() <= 1 * m", Yes),
        ("run", "conductors.filter(c, c.one_way > 1 * m).map(c, c.one_way).sum() <= 5 * m", Yes),
        ("run", "ends.exists(e, e.sources.exists(x, is(x, battery)))", Yes),
        ("run", "ends.all(e, e.sources.all(x, is(x, battery)))", No),
        ("run", "ends.all(e, e.run == self) && ends.map(e, 1).count() == 2", Yes),
        ("run", "current_kind == direct", Yes),
        ("run", "ends.filter(e, e.fed).all(e, e.distance_to_device <= 178 * mm)", Yes),
        ("run", "ends.all(e, conductors.exists(c, c.one_way > e.distance_to_device))", Yes),
    ];
    let mut wrong = Vec::new();
    for (word, text, expected) in cases {
        let answer = run().test(word, text);
        if answer != *expected {
            wrong.push((text, answer));
        }
    }
    assert_eq!(wrong, []);
}

#[test]
fn a_boundary_holds_when_it_is_made_of_two_lengths() {
    let mut build = run();
    // 0.1 + 0.078 is not 0.178 in doubles.
    for (left, text, expected) in [
        (0.1 + 0.078, "distance_to_device <= 178 * mm", Yes),
        (0.1 + 0.078, "distance_to_device >= 178 * mm", Yes),
        (0.1 + 0.078, "distance_to_device < 178 * mm", No),
        (0.1 + 0.078, "distance_to_device > 178 * mm", No),
        (0.178 * (1.0 + 1e-8), "distance_to_device <= 178 * mm", No),
        (0.178 * (1.0 + 1e-8), "distance_to_device > 178 * mm", Yes),
        (0.178 * (1.0 - 1e-8), "distance_to_device >= 178 * mm", No),
        (0.178 * (1.0 - 1e-8), "distance_to_device < 178 * mm", Yes),
        (0.178, "distance_to_device <= 100 * mm + 78 * mm && distance_to_device <= 7.007874015748031 * inch", Yes),
    ] {
        build.table.set(build.ends[0], "distance-to-device", Value::Number(left));
        assert_eq!(build.test("run-end", text), expected, "{left:e} {text}");
    }
}

#[test]
fn kleene_tables() {
    let value = |tri| match tri {
        Yes => "has_device",
        No => "!has_device",
        Unknown => "enclosed",
    };
    let all = [No, Unknown, Yes];
    for left in all {
        assert_eq!(run().test("run-end", &format!("!({})", value(left))), left.negate());
        for right in all {
            let (one, other) = (value(left), value(right));
            assert_eq!(run().test("run-end", &format!("{one} && {other}")), left.and(right), "{one} && {other}");
            assert_eq!(run().test("run-end", &format!("{one} || {other}")), left.or(right), "{one} || {other}");
            for test in all {
                let expected = match test {
                    Yes => left,
                    No => right,
                    Unknown if left == right => left,
                    Unknown => Unknown,
                };
                let text = format!("{} ? {one} : {other}", value(test));
                assert_eq!(run().test("run-end", &text), expected, "{text}");
            }
        }
    }
}

#[test]
fn unknown_numbers_words_and_parts_decide_nothing() {
    for (word, text, expected) in [
        ("device", "voltage <= circuit_voltage", Unknown),
        ("device", "voltage > 12 * V", Unknown),
        ("device", "min(rating, interrupting) <= 1000 * kA", Unknown),
        ("device", "max(interrupting, rating) >= 0 * A", Unknown),
        ("device", "interrupting * 0 <= 1 * A", Unknown),
        ("device", "rating / (rating - 80 * A) <= 1", Unknown),
        ("device", "0 / 0 >= 0", Unknown),
        ("device", "rating <= 1 / (1 / (1 / 0)) * A", Unknown),
        ("device", "sqrt(-1) >= 0", Unknown),
        ("device", "current_kind == direct", Unknown),
        ("device", "current_kind != direct", Unknown),
        ("device", "current_kind in [direct, alternating]", Unknown),
        ("device", "rating <= (protects || fault_current > 1 * A ? 80 * A : 1 * A)", Yes),
        ("device", "rating <= (fault_current > 1 * A ? 80 * A : 1 * A)", Unknown),
        ("device", "rating <= (fault_current > 1 * A ? 90 * A : 90 * A)", Yes),
        ("run", "conductors.map(c, c.resistance).sum() <= 1 * ohm", Unknown),
        ("run", "conductors.filter(c, false).map(c, c.one_way).sum() <= 0 * m", Yes),
        ("run", "conductors.filter(c, false).map(c, c.one_way).min() <= 0 * m", Unknown),
        ("run", "ends.filter(e, e.enclosed).size() >= 0", Unknown),
        ("run", "ends.exists_one(e, e.enclosed)", Unknown),
    ] {
        assert_eq!(run().test(word, text), expected, "{text}");
    }
    // Nothing is asked of a part that is not known, and nothing is presumed of it.
    let mut build = run();
    build.table.forget(build.device, "run");
    for (text, expected) in [
        ("rating <= run.ampacity", Unknown),
        ("run == run", Unknown),
        ("has(run)", No),
        ("has(run.ampacity)", No),
        ("run.ends.all(e, e.fed)", Unknown),
        ("run.ends.exists(e, e.fed)", Unknown),
        ("run.ends.size() >= 0", Unknown),
        ("is(run, run)", Unknown),
        ("run.current_kind == direct || protects", Yes),
    ] {
        assert_eq!(build.test("device", text), expected, "{text}");
    }
}

#[test]
fn incomplete_lists_can_only_fail_all_and_only_hold_exists() {
    let mut build = run();
    build.table.set(build.run, "ends", Value::Parts(build.ends.to_vec(), false));
    build.table.set(build.run, "devices", Value::Parts(vec![], false));
    for (text, expected) in [
        ("ends.all(e, e.has_device)", Unknown),
        ("ends.all(e, e.fed)", No),
        ("ends.all(e, e.enclosed)", Unknown),
        ("ends.exists(e, e.fed)", Yes),
        ("ends.exists(e, !e.has_device)", Unknown),
        ("ends.exists_one(e, e.fed)", Unknown),
        ("ends.exists_one(e, e.has_device)", No),
        ("ends.size() >= 1", Unknown),
        ("ends.map(e, e.distance_to_device).sum() <= 1 * m", Unknown),
        ("ends.filter(e, e.fed).all(e, e.fed)", Unknown),
        ("ends.filter(e, e.fed).exists(e, e.fed)", Yes),
        ("devices.all(x, x.protects)", Unknown),
        ("devices.exists(x, x.protects)", Unknown),
        ("has(ends)", No),
        ("has(conductors)", Yes),
    ] {
        assert_eq!(build.test("run", text), expected, "{text}");
    }
    assert_eq!(build.test("device", "self in run.devices"), Unknown);
}

#[test]
fn only_the_facts_that_are_needed_are_read_and_each_once() {
    for (text, expected) in [
        ("rating <= protected_ampacity && rating >= 1 * A", vec!["rating", "protected-ampacity"]),
        ("!protects && rating <= protected_ampacity", vec!["protects"]),
        ("protects || rating <= protected_ampacity", vec!["protects"]),
        ("voltage <= 12 * V && rating <= 1 * A", vec!["voltage", "rating"]),
        ("rating <= run.ampacity", vec!["rating", "run", "ampacity"]),
        ("run.ends.all(e, !e.fed)", vec!["run", "ends", "fed"]),
    ] {
        let mut build = run();
        let reads = compiled("device", text).reads(&mut build.table, build.device, CASE, FIGURES);
        let names: Vec<&str> = reads.iter().map(|(_, fact)| vocabulary::fact_spec(*fact).name).collect();
        assert_eq!(names, expected, "{text}");
    }
}

#[test]
fn values_of_a_rule_are_read_by_number() {
    let mut build = run();
    let expression = compiled("run-end", "distance_to_device <= 3 * least_cover && share_allowed <= 1");
    assert_eq!(expression.test(&mut build.table, build.ends[0], CASE, &[0.05, 1.0]), Yes);
    assert_eq!(expression.test(&mut build.table, build.ends[0], CASE, &[0.04, 1.0]), No);
    assert_eq!(expression.test(&mut build.table, build.ends[0], CASE, &[f64::NAN, 1.0]), Unknown);
    assert_eq!(expression.test(&mut build.table, build.ends[0], CASE, &[]), Unknown);
    let uses: Vec<(u16, &str)> =
        expression.value_uses().iter().map(|use_| (use_.value, &expression.text()[use_.at.clone()])).collect();
    assert_eq!(uses, [(0, "least_cover"), (1, "share_allowed")]);
}

#[test]
fn axes_are_those_of_every_fact_that_may_be_read() {
    assert_eq!(compiled("run", "ampacity >= 1 * A").axes(), vocabulary::Axes::NONE);
    assert_eq!(compiled("run", "ampacity >= 1 * A || solved_current <= ampacity").axes(), vocabulary::Axes::MODE);
    assert_eq!(compiled("device", "protects || run.solved_current <= rating").axes(), vocabulary::Axes::MODE);
}

#[test]
fn a_compiled_expression_survives_writing_and_reading() {
    let mut build = run();
    for text in [
        "rating <= run.ampacity * share_allowed",
        "run.ends.all(e, e.sources.exists(x, is(x, battery)) || e.run == run)",
        "title in ['a', 'b'] || rating <= 178 * A",
    ] {
        let expression = compiled("device", text);
        let written = postcard::to_allocvec(&expression).unwrap();
        assert!(written.len() <= 4 * text.len() + 40, "{text}: {} bytes", written.len());
        let read: rules::expression::Expression = postcard::from_bytes(&written).unwrap();
        assert_eq!(read, expression);
        assert_eq!(
            read.test(&mut build.table, build.device, CASE, FIGURES),
            expression.test(&mut build.table, build.device, CASE, FIGURES)
        );
    }
}
