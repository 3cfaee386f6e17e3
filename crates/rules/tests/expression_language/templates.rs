//! Sentences with facts in them.

use crate::table::{CASE, FIGURES, Table, Value, run, scope};
use rules::expression::{Shown, Template, UNKNOWN, compile_template};

fn show(shown: Shown) -> String {
    match shown {
        Shown::Count(value) => value.to_string(),
        Shown::Number { value, dimension } => format!("{value} [{}]", dimension.name()),
        Shown::WireSize { area, .. } => format!("{} mm²", (area * 1e6).round()),
        Shown::Choice(word) => word.to_owned(),
        Shown::Choices(words) => words.join("+"),
        Shown::Flag(flag) => if flag { "yes" } else { "no" }.to_owned(),
        Shown::Text(text) => text.to_string(),
        Shown::Part(part) => format!("part {}", part.0),
        Shown::Parts(parts) => format!("{} parts", parts.len()),
        Shown::Unknown => UNKNOWN.to_owned(),
    }
}

#[test]
fn sentences_show_facts_of_every_type() {
    for (word, text, expected) in [
        (
            "device",
            "The {rating} fuse in {run.title} protects {protected_ampacity} of wire.",
            "The 80 [current] fuse in circuit \"house main\" protects 100 [current] of wire.",
        ),
        ("device", "{{not a fact}} {run} {self} {run.ends} {protects}", "{not a fact} part 0 part 8 2 parts yes"),
        (
            "device",
            "{voltage}, {current_kind}, {run.design_current}: é {share_allowed}",
            "unknown, unknown, unknown: é 0.8 [ratio]",
        ),
        ("conductor", "{passes} {bundled}{edge}", "metal 2grommet"),
        ("device", "", ""),
        ("device", "no facts", "no facts"),
    ] {
        let template = compile_template(text, &scope(word)).expect(text);
        let written = postcard::to_allocvec(&template).unwrap();
        let template: Template = postcard::from_bytes(&written).unwrap();
        let mut build = run();
        let about = build.about(word);
        assert_eq!(template.render(&mut build.table, about, CASE, FIGURES, &show), expected);
    }
}

#[test]
fn wire_sizes_and_sets_of_words_keep_their_type() {
    let mut table = Table::default();
    let alarm = table.part("alarm", &[("senses", Value::Words(&["smoke", "gas"]))]);
    let template = compile_template("senses {senses}", &scope("alarm")).unwrap();
    assert_eq!(template.render(&mut table, alarm, CASE, FIGURES, &show), "senses smoke+gas");
    let board = table.part("ac-board", &[("earth-bond", Value::Number(4e-6))]);
    let template = compile_template("bond {earth_bond}", &scope("ac-board")).unwrap();
    assert_eq!(template.render(&mut table, board, CASE, FIGURES, &show), "bond 4 mm²");
}
