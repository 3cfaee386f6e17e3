//! Hostile texts, and a check of the three-valued logic against all completions.

use crate::table::{CASE, FIGURES, Table, Value, compiled, kind, refused, scope};
use design::Tri;
use rules::expression::{compile, compile_template};

#[test]
fn deep_and_long_texts_are_refused_with_a_fault() {
    const N: usize = 10_000;
    let deep = |open: &str, close: &str| format!("{}fed{}", open.repeat(N), close.repeat(N));
    for text in [
        deep("(", ")"),
        deep("!(", ")"),
        deep("[", "]"),
        deep("has(", ")"),
        deep("!", ""),
        deep("", "&&fed"),
        deep("", ".run"),
        deep("", "?fed:fed"),
        deep("fed?", ":fed"),
        "(".repeat(N),
        "\"".repeat(N),
        "é".repeat(N),
        "1e".repeat(N),
    ] {
        let faults = refused("run-end", &text);
        assert_eq!(faults.len(), 1, "{}", &text[..8]);
        assert!(faults[0].at.end <= text.len());
    }
    for (text, message) in [
        (format!("{}fed{}", "(".repeat(100), ")".repeat(100)), "nested deeper"),
        (format!("fed{}", "||fed".repeat(400)), "words and signs"),
        ("a".repeat(5000), "longer than"),
    ] {
        let faults = refused("run-end", &text);
        assert!(faults[0].message.contains(message), "{faults:?}");
    }
}

/// As deep and long as is let through, on a thread with the small stack that a build script or an editor may have.
#[test]
fn what_is_let_through_needs_little_stack() {
    let texts = [
        format!("{}fed{}", "(".repeat(24), ")".repeat(24)),
        format!("{}fed{}", "!(".repeat(24), ")".repeat(24)),
        format!("fed{}", "||fed".repeat(299)),
        format!("{}fed", "!".repeat(590)),
        format!("distance_to_device{} <= 1*m", "+1*m".repeat(140)),
        format!("fed{}", "?fed:fed".repeat(24)),
        format!("1{} >= 1", "*1".repeat(290)),
    ];
    let answers = std::thread::Builder::new()
        .stack_size(1 << 20)
        .spawn(move || {
            let mut table = Table::default();
            let end = table.part("run-end", &[("fed", Value::Flag(true)), ("distance-to-device", Value::Number(1.0))]);
            texts.map(|text| compiled("run-end", &text).test(&mut table, end, CASE, FIGURES))
        })
        .unwrap()
        .join()
        .unwrap();
    assert_eq!(answers, [Tri::Yes, Tri::Yes, Tri::Yes, Tri::Yes, Tri::No, Tri::Yes, Tri::Yes]);
}

/// A small linear congruential generator (Knuth's MMIX constants, from memory): the tests must not differ from run to run.
struct Random(u64);

impl Random {
    fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % limit
    }
}

/// The flags of a run's end, as the vocabulary has them; the first five keep the completions few.
fn flags() -> Vec<&'static str> {
    let facts = vocabulary::part(kind("run-end")).facts().iter();
    let flags = facts.filter(|fact| fact.kind == vocabulary::FactKind::Flag);
    flags.map(|fact| fact.name).take(5).collect()
}

fn random_expression(random: &mut Random, names: &[&str], depth: usize) -> String {
    if depth == 0 || random.below(5) == 0 {
        return names[random.below(names.len())].replace('-', "_");
    }
    let mut part = || random_expression(random, names, depth - 1);
    let (one, two, three) = (part(), part(), part());
    match random.below(4) {
        0 => format!("({one} && {two})"),
        1 => format!("({one} || {two})"),
        2 => format!("!({one})"),
        _ => format!("({one} ? {two} : {three})"),
    }
}

/// A yes or a no must hold however the unknown flags turn out.
#[test]
fn nothing_is_answered_that_a_completion_contradicts() {
    let mut random = Random(7);
    let names = flags();
    assert!(names.len() >= 3);
    let mut answered = 0;
    for _ in 0..300 {
        let text = random_expression(&mut random, &names, 3);
        let expression = compiled("run-end", &text);
        let known: Vec<Tri> = names.iter().map(|_| [Tri::No, Tri::Unknown, Tri::Yes][random.below(3)]).collect();
        let mut table = Table::default();
        let end = table.part("run-end", &[]);
        let set = |table: &mut Table, flags: &[Tri]| {
            for (name, flag) in names.iter().zip(flags) {
                match flag {
                    Tri::Unknown => table.forget(end, name),
                    flag => table.set(end, name, Value::Flag(*flag == Tri::Yes)),
                }
            }
        };
        set(&mut table, &known);
        let answer = expression.test(&mut table, end, CASE, FIGURES);
        assert_eq!(expression.trace(&mut table, end, CASE, FIGURES).outcome, answer, "{text}");
        assert_eq!(expression.gaps(&mut table, end, CASE, FIGURES).is_empty(), answer != Tri::Unknown, "{text}");
        if answer == Tri::Unknown {
            continue;
        }
        answered += 1;
        let open: Vec<usize> = (0..names.len()).filter(|index| known[*index] == Tri::Unknown).collect();
        for completion in 0..1usize << open.len() {
            let mut flags = known.clone();
            for (bit, index) in open.iter().enumerate() {
                flags[*index] = Tri::from_bool(completion >> bit & 1 == 1);
            }
            set(&mut table, &flags);
            assert_eq!(expression.test(&mut table, end, CASE, FIGURES), answer, "{text} with {flags:?}");
        }
    }
    assert!(answered > 100, "only {answered} were answered");
}

/// Pieces of expressions thrown together: whatever comes of them is an expression or a fault inside the text.
#[test]
fn no_text_crashes_the_compiler() {
    const PIECES: &[&str] = &[
        "fed",
        "run",
        "ends",
        ".",
        "(",
        ")",
        "[",
        "]",
        "all",
        "e",
        ",",
        "&&",
        "||",
        "!",
        "-",
        "+",
        "*",
        "/",
        "<=",
        "==",
        "in",
        "?",
        ":",
        "1",
        "1e999",
        "0x1F",
        "5u",
        "mm",
        "degC",
        "\"x\"",
        "'",
        " ",
        "é",
        "has",
        "map",
        "sum",
        "filter",
        "is",
        "battery",
        "{",
        "}",
        "sources",
        "distance_to_device",
        "null",
        "9999999999999999999",
        "b'x'",
        "r\"x\"",
        "//",
        "\n",
        "@",
        "`",
        "%",
        "=",
        "self",
        "true",
        "_",
        "\\",
        "min",
        "sqrt",
        ".5",
    ];
    let mut random = Random(11);
    for _ in 0..1500 {
        let count = 1 + random.below(9);
        let text: String = (0..count).map(|_| PIECES[random.below(PIECES.len())]).collect();
        let of_expression = compile(&text, &scope("run-end")).err().unwrap_or_default();
        let of_template = compile_template(&text, &scope("run-end")).err().unwrap_or_default();
        for fault in of_expression.iter().chain(&of_template) {
            assert!(text.get(fault.at.clone()).is_some(), "{text:?}: {fault:?}");
            assert!(!fault.message.is_empty());
        }
    }
}

#[test]
fn no_fact_bears_the_name_of_a_unit() {
    for fact in vocabulary::facts() {
        let name = fact.name.replace('-', "_");
        assert!(
            quantity::unit_by_identifier(&name).is_none(),
            "{name} of {} hides a unit",
            vocabulary::part(fact.part).word
        );
    }
}
