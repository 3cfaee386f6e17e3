//! What is wrong in a rule file is told at its narrowest place, with what to write instead.

use rules::pack::{PackFault, compile};

const FILE: &str = "rules/any/wiring.rules.kdl";

const RULE: &str = r##"fixture "24 V van" #"""
    battery house chemistry=LFP voltage="25.6 V"
    circuit main from=house to=bar {
        fuse rating="80 A"
    }
    """#
rule "wiring/device-above-ampacity" danger about=device {
    title "Protective device larger than the conductor it protects"
    value allowance any="1.0" us="1.5" help="how far the device may exceed the ampacity"
    when "protects"
    must "rating <= allowance * protected_ampacity"
    tell "{title} protects a conductor that carries only {protected_ampacity}."
    why "The conductor burns before the device opens."
    remedy "Fit a smaller device."
    caution "A fire starts behind the lining."
    source "a rule of the trade" place="(c)" edition="2023" mark=read regions="us"
    example "larger" fails on="24 V van" { change "80 A" to="125 A" }
    example "as large" holds on="24 V van"
    example "a little larger" fails on="24 V van" { change "80 A" to="81 A" }
    example "no size" open on="24 V van" missing="size" { change "80 A" to="70 A"; }
}
"##;

const FOUND: &str = r##"rule "text/unclosed-block" warning found=reading {
    title "A block without an end"
    why "What stands in it is not checked."
    remedy "Write the closing brace."
    caution "What is not read is not checked."
    source "our own" mark=chosen
    example "no brace" fails { add #"zone cabin {"# }
}
"##;

/// The text without the marks `«` and `»`, and the bytes that stood between them.
fn marked(text: &str) -> (String, std::ops::Range<usize>) {
    let start = text.find('«').unwrap_or_default();
    let end = text.find('»').unwrap_or_default() - '«'.len_utf8();
    (text.replace(['«', '»'], ""), start..end)
}

fn faults(path: &str, text: &str) -> Vec<PackFault> {
    compile(&[(path, text)]).err().unwrap_or_default()
}

/// Puts `to` in place of `from` and expects exactly one fault, at the mark, with these words in message and help.
fn check(path: &str, whole: &str, from: &str, to: &str, message: &str, help: &str) {
    assert_eq!(whole.matches(from).count(), 1, "`{from}` stands once in the rule");
    let (text, at) = marked(&whole.replacen(from, to, 1));
    let found = faults(path, &text);
    let shown: Vec<String> = found.iter().map(|fault| fault.show(&text)).collect();
    assert_eq!(found.len(), 1, "{to}: {shown:#?}");
    for fault in found {
        assert_eq!(text.get(fault.at.clone()), text.get(at.clone()), "{to}: {}", fault.message);
        assert_eq!(fault.at, at, "{to}: {}", fault.message);
        assert!(fault.message.contains(message), "{to}: {}", fault.message);
        assert!(fault.help.contains(help), "{to}: {}", fault.help);
        assert_eq!(fault.file, path);
    }
}

#[test]
fn the_rules_themselves_have_no_fault() {
    assert_eq!(faults(FILE, RULE), []);
    assert_eq!(faults("rules/any/text.rules.kdl", FOUND), []);
}

#[test]
fn what_is_misspelt_or_missing_is_told_at_its_place() {
    for (from, to, message, help) in [
        // Names.
        ("\"wiring/device-above-ampacity\"", "«\"device-above\"»", "no rule name", "wiring/what-is-wrong"),
        ("\"wiring/device-above-ampacity\"", "«\"wiring/Device\"»", "no rule name", "small letters"),
        ("\"wiring/device-above-ampacity\"", "«\"water/leak\"»", "stands in the file of `wiring`", "wiring/leak"),
        // Words with the nearest one known.
        ("danger about", "«dangr» about", "no signal word", "`danger`"),
        ("about=device", "about=«devise»", "no part kind", "`device`"),
        ("    why \"", "    «wy» \"", "no word of a rule file", "`why`"),
        ("    why \"", "    «wy» \"x\"\n    why \"", "no word of a rule file", "`why`"),
        ("place=\"(c)\"", "«plase»=\"(c)\"", "no property of `source`", "`place`"),
        ("mark=read", "mark=«red»", "no evidence mark", "`read`"),
        ("regions=\"us\"", "regions=\"eu «uss»\"", "no region", "`us`"),
        ("\"larger\" fails", "\"larger\" «fail»", "no verdict", "`fails`"),
        ("\"as large\" holds on=\"24 V van\"", "\"as large\" holds on=«\"24 V vna\"»", "no fixture", "24 V van"),
        ("missing=\"size\"", "missing=«\"sise\"»", "called `sise`", "`size`"),
        // What is missing.
        ("    title \"Protective device larger than the conductor it protects\"\n", "", "no `title`", "title"),
        ("    caution \"A fire starts behind the lining.\"\n", "", "no `caution`", "caution"),
        ("    must \"rating <= allowance * protected_ampacity\"\n", "", "no `must`", "must"),
        ("about=device ", "", "does not say what it is about", "about="),
        (" mark=read", "", "how well it is known", "mark="),
        (" edition=\"2023\"", "", "no edition", "edition="),
        (" help=\"how far the device may exceed the ampacity\"", "", "does not say what it is", "help="),
        (
            "    source \"a rule of the trade\" place=\"(c)\" edition=\"2023\" mark=read regions=\"us\"\n",
            "",
            "no source",
            "source",
        ),
        ("any=\"1.0\" us=\"1.5\" ", "", "no figure", "any="),
        ("{ change \"80 A\" to=\"125 A\" }", "{ «change» \"80 A\" }", "does not say what to", "to="),
        ("\"as large\" holds on=\"24 V van\"", "«\"as large\"» holds", "has no text", "on="),
        (
            "    when \"protects\"",
            "    value «least» any=\"1 A\" help=\"x\"\n    when \"protects\"",
            "never used",
            "`must`",
        ),
        // What stands twice or too much.
        ("    why \"", "    why \"x\"\n    «why» \"", "stands twice", "Keep one"),
        ("mark=read", "mark=read «mark»=read", "stands twice", "Keep one"),
        ("mark=read", "mark=read «\"more\"»", "a value too many", "source"),
        ("title \"Protective", "title («text»)\"Protective", "annotation", "away"),
        ("title \"Protective device larger than the conductor it protects\"", "title «5»", "no text", "\"5\""),
        ("\"a little larger\"", "«\"larger\"»", "stands twice", "differs"),
        // Values.
        ("us=\"1.5\"", "us=«\"1.5 A\"»", "differ in kind", "one dimension"),
        ("us=\"1.5\"", "us=«\"much\"»", "no quantity", "unit"),
        ("us=\"1.5\"", "us=\"1.5\" «nz»=\"1.0\"", "no property of `value`", "au-nz"),
        ("value allowance", "value «mm»", "is a unit", "limits"),
        ("value allowance", "value «rating»", "a fact of a device", "limits"),
        ("value allowance", "value «\"most amps\"»", "no name of a value", "`_`"),
    ] {
        let missing = !to.contains('«');
        // What is missing is told at the rule's name, or at the line that lacks it.
        let marked_whole = match (missing, message) {
            (true, "how well it is known" | "no edition") => {
                RULE.replace("\"a rule of the trade\"", "«\"a rule of the trade\"»")
            }
            (true, "does not say what it is" | "no figure") => RULE.replace("value allowance", "value «allowance»"),
            (true, _) => RULE.replace("\"wiring/device-above-ampacity\"", "«\"wiring/device-above-ampacity\"»"),
            (false, _) => RULE.to_owned(),
        };
        // The expressions of a rule that lacks what they name, or names it otherwise, are not what is looked at here.
        let whole = match to.contains("«mm»") || to.contains("«rating»") || to.contains("most amps") {
            true => marked_whole.replace("allowance * protected", "protected"),
            false => marked_whole,
        };
        check(FILE, &whole, from, to, message, help);
    }
}

#[test]
fn a_rule_needs_examples_enough() {
    let name = "«\"wiring/device-above-ampacity\"»";
    let whole = RULE.replace("\"wiring/device-above-ampacity\"", name);
    for (line, message) in [
        (
            "    example \"no size\" open on=\"24 V van\" missing=\"size\" { change \"80 A\" to=\"70 A\"; }\n",
            "is: open",
        ),
        ("    example \"as large\" holds on=\"24 V van\"\n", "is: holds"),
        ("    example \"a little larger\" fails on=\"24 V van\" { change \"80 A\" to=\"81 A\" }\n", "both sides"),
    ] {
        check(FILE, &whole, line, "", message, "xample");
    }
}

#[test]
fn a_rule_that_is_found_while_reading_has_no_expressions() {
    let path = "rules/any/text.rules.kdl";
    for (from, to, message) in [
        ("    why", "    «must» \"protects\"\n    why", "has no `must`"),
        ("    why", "    «tell» \"so\"\n    why", "has no `tell`"),
        ("found=reading", "found=«linking»", "no way to find something"),
        ("found=reading", "found=reading about=«device»", "about no part kind"),
        ("fails {", "«holds» {", "no example that is: fails"),
        ("    example", "    example «\"half\"» open { add \"zone cabin\" }\n    example", "either fails or holds"),
    ] {
        let (to, whole) = match message {
            "no example that is: fails" => {
                (to.replace(['«', '»'], ""), FOUND.replace("\"text/unclosed-block\"", "«\"text/unclosed-block\"»"))
            }
            _ => (to.to_owned(), FOUND.to_owned()),
        };
        check(path, &whole, from, &to, message, "");
    }
}

#[test]
fn faults_of_expressions_and_templates_point_into_the_file() {
    let must = "must \"rating <= allowance * protected_ampacity\"";
    let tell = "tell \"{title} protects a conductor that carries only {protected_ampacity}.\"";
    for (from, to, message) in [
        // A name that is unknown, in strings of every kind.
        (must, "must \"rating <= allowance * «protected_ampcity»\"", "protected_ampcity"),
        (must, "must #\"rating <= allowance * «protected_ampcity»\"#", "protected_ampcity"),
        (
            must,
            "must ##\"\"\"\n        rating <=\n            allowance * «protected_ampcity»\n        \"\"\"##",
            "protected_ampcity",
        ),
        (must, "must \"\"\"\n  rating <= allowance *\n\n  «protected_ampcity»\n  \"\"\"", "protected_ampcity"),
        // An escape in an ordinary string: the whole string is the place.
        (must, "must «\"rating <= allowance \\u{2A} protected_ampcity\"»", "protected_ampcity"),
        // Dimensions.
        (must, "must \"rating «<=» circuit_voltage\"", "voltage"),
        (tell, "tell \"größer: {«titel»} {protected_ampacity}.\"", "titel"),
        ("remedy \"Fit a smaller device.\"", "remedy \"Fit a device of {«protected»}.\"", "protected"),
    ] {
        check(FILE, RULE, from, to, message, "");
    }
}

#[test]
fn a_text_that_cannot_be_read_is_a_fault_and_not_a_flood_of_them() {
    check(
        FILE,
        RULE,
        "title \"Protective device larger than the conductor it protects\"",
        "title «2.5mm2»",
        "quotes",
        "",
    );
}

#[test]
fn no_text_brings_the_reader_down() {
    // Many beginnings of a rule file, and files that lack one character, are read to their end.
    for (at, character) in RULE.char_indices().step_by(7) {
        let (before, behind) = RULE.split_at(at);
        for text in [before.to_owned(), format!("{before}{}", behind.get(character.len_utf8()..).unwrap_or_default())] {
            for fault in faults(FILE, &text) {
                assert!(text.get(fault.at.clone()).is_some(), "{}", fault.message);
                assert!(!fault.message.is_empty());
            }
        }
    }
    for path in ["", "/", "rules.kdl", ".rules.kdl", "../x.rules.kdl"] {
        faults(path, RULE);
    }
}

#[test]
fn names_are_taken_over_all_packs() {
    let found = compile(&[(FILE, RULE), ("rules/us/wiring.rules.kdl", RULE)]).err().unwrap_or_default();
    assert_eq!(found.len(), 1);
    for fault in found {
        assert_eq!(fault.file, "rules/us/wiring.rules.kdl");
        assert_eq!(RULE.get(fault.at), Some("\"wiring/device-above-ampacity\""));
        assert!(fault.message.contains(FILE));
    }
}

#[test]
fn a_rule_follows_one_that_exists() {
    for (to, message) in
        [("«\"wiring/device-abov-ampacity\"»", "no rule is called"), ("«\"wiring/device-above-ampacity\"»", "itself")]
    {
        check(FILE, RULE, "    when", &format!("    follows {to}\n    when"), message, "");
    }
}

#[test]
fn a_fault_is_shown_as_a_compiler_shows_it() {
    let text = RULE.replace("danger about", "dangr about");
    let shown: Vec<String> = faults(FILE, &text).iter().map(|fault| fault.show(&text)).collect();
    assert_eq!(shown, ["rules/any/wiring.rules.kdl:7:37: `dangr` is no signal word\n    Did you mean `danger`?"]);
}
