//! What is refused, with its exact place and what to write instead.

use crate::table::{refused, scope};
use rules::expression::{compile_template, name_taken};

/// Each row: kind, text, and for each fault the text at its place, a piece of the message and a piece of the help.
#[test]
fn every_fault_has_the_narrowest_place_and_a_way_out() {
    type Row = (&'static str, &'static str, &'static [(&'static str, &'static str, &'static str)]);
    let rows: &[Row] = &[
        // Names.
        ("device", "ratting <= 5 * A", &[("ratting", "no fact of a device", "did you mean `rating`?")]),
        ("device", "rating <= 5 * Amp", &[("Amp", "no fact", "")]),
        ("device", "rating <= 5 * amps", &[("amps", "no fact", "")]),
        ("device", "rating <= protected-ampacity", &[("protected-ampacity", "underscore", "protected_ampacity")]),
        ("device", "rating <= run.ampacty", &[("ampacty", "a run has no fact", "`ampacity`")]),
        ("device", "rating.title == 'x'", &[("rating", "has no facts of its own", "")]),
        ("run", "ends.fed", &[("ends", "has no facts of its own", "ends.all(x, x.…)")]),
        ("run-end", "sources.all(x, x.capacity >= 1 * Ah)", &[("capacity", "not every", "is(x, battery)")]),
        ("device", "least_cover <= 5 * A", &[("<=", "a length cannot be compared with a current", "")]),
        // Units and dimensions.
        ("device", "rating <= 5", &[("5", "needs a unit", "5 * A")]),
        ("conductor", "ambient <= 45", &[("45", "needs a unit", "degC(45)")]),
        ("conductor", "ambient <= 45 * degC", &[("degC", "no factor", "degC(35)")]),
        ("conductor", "ambient <= 45 * K", &[("<=", "a point on a thermometer cannot be compared", "degC(35)")]),
        ("conductor", "one_way <= mm(178)", &[("mm(178)", "factor, not a function", "178 * mm")]),
        ("conductor", "one_way <= 178 mm", &[("178 mm", "operator is missing", "178 * mm")]),
        ("conductor", "one_way <= 178mm", &[("178mm", "operator is missing", "178 * mm")]),
        ("conductor", "ambient <= 45 degC", &[("45 degC", "operator is missing", "degC(45)")]),
        ("conductor", "one_way <= 7 * in", &[("in", "in a list", "inch")]),
        ("conductor", "one_way + ampacity <= 7 * m", &[("+", "cannot add a current to a length", "")]),
        ("conductor", "one_way - 1 <= 7 * m", &[("-", "cannot take a bare number from a length", "")]),
        ("conductor", "ambient + ambient <= degC(7)", &[("+", "cannot add", "")]),
        ("conductor", "ambient * 2 <= degC(7)", &[("ambient", "cannot be multiplied", "difference")]),
        ("conductor", "-ambient <= degC(7)", &[("-ambient", "turned around", "degC(-12)")]),
        ("conductor", "sqrt(one_way) <= 7", &[("one_way", "the root of a length", "area")]),
        ("conductor", "min(one_way, ampacity) <= 7 * m", &[("ampacity", "one dimension", "")]),
        ("conductor", "run.conductors.map(c, c.ambient).sum() <= degC(7)", &[("c.ambient", "no sum", "")]),
        // Equality.
        ("conductor", "one_way == 7 * m", &[("==", "cannot compare a length", "<= or >=")]),
        ("conductor", "one_way != 7 * m", &[("!=", "cannot compare a length", "<= or >=")]),
        ("conductor", "one_way / (1 * m) == 7", &[("==", "bare number", "<= or >=")]),
        ("conductor", "bundled / 2 == 1", &[("==", "never exactly equal", "")]),
        (
            "conductor",
            "passes == metall",
            &[(
                "metall",
                "no word of this choice",
                "did you mean `metal`? The words are nothing, metal, wood or plastic",
            )],
        ),
        ("conductor", "rubber != edge", &[("rubber", "no word", "none, grommet, bushing, gland or conduit")]),
        (
            "conductor",
            "edge in [grommet, grand, tape]",
            &[("grand", "no word", "`gland`"), ("tape", "no word", "the words are")],
        ),
        ("conductor", "passes == 7", &[("==", "a choice of words cannot be compared with a count", "")]),
        ("conductor", "passes == edge", &[("==", "different words", "")]),
        ("conductor", "passs == metal", &[("passs", "no fact", "`passes`")]),
        ("alarm", "smok in senses", &[("smok", "no word", "`smoke`")]),
        ("alarm", "senses == smoke", &[("==", "set of words", "write smoke in senses")]),
        ("run-end", "fed == true", &[("==", "does not compare flags", "write fed")]),
        ("run-end", "fed == false", &[("==", "does not compare flags", "write !fed")]),
        ("run-end", "7 in sources", &[("7", "only a part", "")]),
        ("run-end", "fed in fed", &[("fed", "asks about a list", "")]),
        ("conductor", "bundled in [1, 2]", &[("bundled", "only a word", "<= and >=")]),
        // Flags.
        ("device", "rating", &[("rating", "asks for a flag", "rating <= …")]),
        ("device", "rating && protects", &[("rating", "`&&` joins flags", "")]),
        ("device", "!rating", &[("rating", "turns a flag around", "")]),
        ("device", "rating ? protects : protects", &[("rating", "asks a flag", "")]),
        ("device", "protects ? protects : rating", &[("rating", "alike", "")]),
        ("device", "protects <= rating", &[("protects", "compares numbers", "")]),
        ("device", "1 <= rating <= 2", &[("1", "needs a unit", "1 * A")]),
        ("run", "ends", &[("ends", "asks for a flag", "ends.all(x, …)")]),
        // Lists and functions.
        ("run", "ends.every(e, e.fed)", &[("every", "nothing can be asked", "lists have all")]),
        ("run", "ends.exist(e, e.fed)", &[("exist", "nothing can be asked", "`exists`")]),
        ("run", "ends.all(e)", &[("ends.all(e)", "a variable and a condition", "list.all(x, condition)")]),
        ("run", "ends.all(7, true)", &[("7", "cannot name", "")]),
        ("run", "ends.all(e, e.ampacity >= 1 * A)", &[("ampacity", "a run-end has no fact", "")]),
        ("run", "ends.all(mm, mm.fed)", &[("mm", "unit of length", "another letter")]),
        ("run", "ends.all(ampacity, true)", &[("ampacity", "fact of a run", "another")]),
        ("run", "ends.all(least_cover, true)", &[("least_cover", "value of this rule", "")]),
        ("run", "ends.all(self, true)", &[("self", "word of the rule language", "")]),
        ("run", "ends.all(e, ends.exists(e, e.fed))", &[("e", "outer variable", "")]),
        (
            "run",
            "ends.all(direct, direct.fed) && current_kind == direct",
            &[("direct", "a word used in this expression", "")],
        ),
        ("run", "ampacity.all(e, true)", &[("ampacity", "not a list", "")]),
        (
            "run",
            "conductors.sum() <= 7 * m",
            &[("conductors", "a number of each member", "conductors.map(x, x.…).sum()")],
        ),
        ("run", "conductors.map(c, c.one_way)", &[("map", "no answer of its own", ".sum()")]),
        ("run", "conductors.map(c, c.passes).sum() <= 7", &[("c.passes", "made of numbers", "")]),
        ("run", "all(ends, e, e.fed)", &[("all", "no function", "behind a list")]),
        ("device", "maxi(rating, 1 * A) <= 1 * A", &[("maxi", "no function", "`max`")]),
        ("device", "max(rating) <= 1 * A", &[("max(rating)", "two numbers or more", "")]),
        ("device", "has(7)", &[("7", "has", "has(name)")]),
        ("device", "has(raating)", &[("raating", "no fact", "`rating`")]),
        ("device", "is(run, battery)", &[("battery", "never a battery", "run")]),
        ("device", "is(run, batery)", &[("batery", "no kind", "`battery`")]),
        ("alarm", "at == at", &[("at", "a point in space", "has(at)"), ("at", "a point in space", "")]),
        // Signs and layout.
        ("device", "", &[("", "empty", "")]),
        ("device", "rating = 5 * A", &[("=", "no sign", "==")]),
        ("device", "rating ≤ 5 * A", &[("≤", "no sign", "<=")]),
        ("device", "protects & protects", &[("&", "no sign", "&&")]),
        ("device", "protects and protects", &[("and", "no operator", "&&"), ("and", "no operator", "&&")]),
        ("device", "not protects", &[("not", "no operator", "!")]),
        ("device", "(protects", &[("(", "never closed", ")")]),
        ("device", "protects)", &[(")", "closes nothing", "")]),
        ("device", "(protects]", &[("]", "another shape", ")")]),
        ("device", "title == 'x", &[("'x", "no closing quote", "'")]),
        ("device", "rating <= 0,5 * A", &[(",", "comma", "decimal point")]),
        ("device", "protects &&", &[("&&", "ends too early", "")]),
        ("device", "protects && && protects", &[("&&", "cannot stand here", "")]),
        ("device", "null == rating", &[("null", "no null", "has(x)")]),
        ("heater", "for == for", &[("for", "keeps for itself", "self.for"), ("for", "keeps for itself", "self.for")]),
        ("device", "[protects]", &[("[protects]", "behind `in`", "")]),
        ("device", "{'a': protects}", &[("{", "no sign", ""), ("}", "no sign", "")]),
        ("device", "run.ends[0].fed", &[("[0]", "element by number", "")]),
        // All faults, not the first only.
        (
            "device",
            "ratting <= 5 * A && rating == 3 * A || protectss",
            &[("ratting", "no fact", ""), ("==", "cannot compare", ""), ("protectss", "no fact", "")],
        ),
        ("device", "protects && é", &[("é", "no sign", "")]),
    ];
    let mut wrong = Vec::new();
    for (word, text, expected) in rows {
        let faults = refused(word, text);
        let found: Vec<_> = faults
            .iter()
            .map(|fault| (&text[fault.at.clone()], fault.message.as_str(), fault.help.as_deref().unwrap_or("")))
            .collect();
        let as_expected = found.len() == expected.len()
            && found.iter().zip(*expected).all(|(found, (place, message, help))| {
                found.0 == *place && found.1.contains(message) && found.2.contains(help)
            });
        if !as_expected {
            wrong.push(format!("{text}\n    {found:?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_second_of_two_equal_names_is_the_one_pointed_at() {
    let faults = refused("run", "ends.all(e, ends.exists(e, e.fed))");
    assert_eq!(faults[0].at, 24..25);
    let faults = refused("run", "ends.all(e, e.fed) && e.fed");
    assert_eq!(faults[0].at, 22..23);
}

#[test]
fn names_of_values_must_be_free() {
    let about = crate::table::kind("device");
    for (name, why) in [("rating", "fact of a device"), ("mm", "unit of length"), ("self", "word"), ("in", "word")] {
        assert!(name_taken(name, about).is_some_and(|reason| reason.contains(why)), "{name}");
    }
    assert_eq!(name_taken("least_cover", about), None);
}

#[test]
fn faults_of_templates() {
    for (text, place, message) in [
        ("The {ratting} fuse", "ratting", "no fact"),
        ("The {rating fuse", "{", "never closed"),
        ("The rating} fuse", "}", "closes nothing"),
        ("The {} fuse", "", "no name"),
        ("The {protected-ampacity} fuse", "protected-ampacity", "no name"),
        ("The {rating + 1} fuse", "rating + 1", "no name"),
        ("The {run.ampacty} fuse", "ampacty", "no fact"),
        ("The {A} fuse", "A", "unit"),
    ] {
        let faults = compile_template(text, &scope("device")).expect_err(text);
        assert_eq!(faults.len(), 1, "{text}: {faults:?}");
        assert_eq!(&text[faults[0].at.clone()], place, "{text}");
        assert!(faults[0].message.contains(message), "{text}: {faults:?}");
    }
    assert!(compile_template("{at}", &scope("alarm")).expect_err("a point")[0].message.contains("cannot be shown"));
}
