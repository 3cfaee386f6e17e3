//! Traces and mutants, by which a rule's examples are judged.

use crate::table::{CASE, FIGURES, compiled, run};
use design::Tri::{self, No, Unknown, Yes};

#[test]
fn conditions_are_the_leaves_in_text_order() {
    for (word, text, expected) in [
        (
            "device",
            "protects && rating <= 80 * A || !(rating > 5 * A)",
            vec!["protects", "rating <= 80 * A", "rating > 5 * A"],
        ),
        ("device", "(rating + 5 * A) * 2 <= (90 * A)", vec!["(rating + 5 * A) * 2 <= (90 * A)"]),
        (
            "run",
            "ends.filter(e, e.fed).all(e, e.has_device ? e.enclosed : e.run != self)",
            vec!["e.fed", "e.has_device", "e.enclosed", "e.run != self"],
        ),
        ("run", "ends.filter(e, e.fed).size() >= 1", vec!["ends.filter(e, e.fed).size() >= 1"]),
        (
            "conductor",
            "passes == metal && !has(edge) && edge in [grommet]",
            vec!["passes == metal", "has(edge)", "edge in [grommet]"],
        ),
        ("device", "true", vec![]),
    ] {
        let expression = compiled(word, text);
        let found: Vec<&str> =
            expression.conditions().iter().map(|condition| expression.condition_text(condition)).collect();
        assert_eq!(found, expected, "{text}");
    }
}

#[test]
fn traces_show_which_leaf_decides() {
    type Row = (&'static str, &'static str, Tri, &'static [(usize, Tri, bool)]);
    let rows: &[Row] = &[
        ("device", "protects && rating <= 90 * A", Yes, &[(0, Yes, true), (1, Yes, true)]),
        ("device", "protects && rating <= 70 * A", No, &[(0, Yes, false), (1, No, true)]),
        ("device", "!protects && rating <= 70 * A", No, &[(0, Yes, false), (1, No, false)]),
        ("device", "protects || rating <= 90 * A", Yes, &[(0, Yes, false), (1, Yes, false)]),
        ("device", "protects || rating <= 70 * A", Yes, &[(0, Yes, true), (1, No, false)]),
        ("device", "protects && voltage <= 1 * V", Unknown, &[(0, Yes, false), (1, Unknown, false)]),
        ("device", "protects || voltage <= 1 * V", Yes, &[(0, Yes, false), (1, Unknown, false)]),
        (
            "device",
            "protects ? rating <= 90 * A : rating <= 1 * A",
            Yes,
            &[(0, Yes, true), (1, Yes, true), (2, No, false)],
        ),
        ("run", "ends.all(e, e.has_device)", Yes, &[(0, Yes, true), (0, Yes, true)]),
        ("run", "ends.all(e, e.fed)", No, &[(0, Yes, false), (0, No, true)]),
        ("run", "ends.exists(e, e.fed)", Yes, &[(0, Yes, true), (0, No, false)]),
        ("run", "ends.exists_one(e, e.fed)", Yes, &[(0, Yes, true), (0, No, true)]),
        (
            "run",
            "ends.filter(e, e.fed).all(e, e.has_device)",
            Yes,
            &[(0, Yes, false), (1, Yes, true), (0, No, false), (1, Yes, false)],
        ),
    ];
    for (word, text, outcome, leaves) in rows {
        let mut build = run();
        let about = build.about(word);
        let trace = compiled(word, text).trace(&mut build.table, about, CASE, FIGURES);
        assert_eq!(trace.outcome, *outcome, "{text}");
        let found: Vec<(usize, Tri, bool)> =
            trace.leaves.iter().map(|leaf| (leaf.condition, leaf.value, leaf.unmasked)).collect();
        assert_eq!(found, *leaves, "{text}");
    }
}

#[test]
fn mutants_name_every_slip_and_where() {
    let expression = compiled("device", "protects && rating <= 0.25 * kA");
    let text = expression.text().to_owned();
    let found: Vec<(String, &str)> =
        expression.mutants().into_iter().map(|mutant| (mutant.what, &text[mutant.at])).collect();
    let found: Vec<(&str, &str)> = found.iter().map(|(what, at)| (what.as_str(), *at)).collect();
    assert_eq!(
        found,
        [
            ("`protects` turned round", "protects"),
            ("`rating <= 0.25 * kA` turned round", "rating <= 0.25 * kA"),
            ("|| for &&", "&&"),
            ("< for <=", "<="),
            ("0.25 one step up", "0.25"),
            ("0.25 one step down", "0.25"),
        ]
    );
}

#[test]
fn each_mutant_differs_where_its_slip_shows() {
    // The device is rated 80 A.
    for (text, slip, original, mutated) in [
        ("rating <= 80 * A", "< for <=", Yes, No),
        ("rating < 80 * A", "<= for <", No, Yes),
        ("rating >= 80 * A", "> for >=", Yes, No),
        ("rating > 80 * A", ">= for >", No, Yes),
        ("rating <= 80 * A", "80 one step down", Yes, No),
        ("rating <= 79 * A", "79 one step up", No, Yes),
        ("rating <= 0.08 * kA", "0.08 one step down", Yes, No),
        ("rating <= 79.9 * A", "79.9 one step up", No, Yes),
        ("rating <= 8e1 * A", "8e1 one step down", Yes, No),
        ("rating >= 80 * A && protects", "`protects` turned round", Yes, No),
        ("rating >= 80 * A && !protects", "|| for &&", No, Yes),
        ("rating > 80 * A || protects", "&& for ||", Yes, No),
        ("run.ends.size() == 2", "2 one step up", Yes, No),
        ("run.ends.all(e, e.has_device)", "`e.has_device` turned round", Yes, No),
        ("run.conductors.all(c, c.ambient <= degC(30))", "30 one step down", Yes, No),
        ("run.conductors.all(c, c.ambient >= degC(-5)) && run != run", "`run != run` turned round", No, Yes),
    ] {
        let mut build = run();
        let expression = compiled("device", text);
        let mutant = expression
            .mutants()
            .into_iter()
            .find(|mutant| mutant.what == slip)
            .unwrap_or_else(|| panic!("{text}: no {slip}"));
        assert_eq!(expression.test(&mut build.table, build.device, CASE, FIGURES), original, "{text}");
        assert_eq!(mutant.expression.test(&mut build.table, build.device, CASE, FIGURES), mutated, "{text}: {slip}");
    }
}
