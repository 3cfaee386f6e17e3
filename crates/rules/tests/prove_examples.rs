//! What examples prove: verdicts, masking MC/DC and, when asked, that slightly wrong rules are noticed.
//!
//! The bench of these tests takes facts as they are written in the examples, numbers in SI units: a node is a part, its
//! properties are facts, and nodes inside it are the members of its lists.

use design::{AnyOf, CaseId, Gap, Gaps, PartId, Parts, Tri};
use rules::facts::Facts;
use rules::pack::Packs;
use rules::prove::{Bench, Clause, Found, Linked, Proof, RuleProof, Side, run_on};
use spec::text::{BlockCache, Node, Scalar, read};
use std::collections::HashMap;
use std::sync::Arc;
use vocabulary::{Axes, FactId, FactKind, PartKind};

struct Table;

#[derive(Clone, Default)]
struct Written {
    kinds: Vec<PartKind>,
    facts: HashMap<(PartId, FactId), Scalar>,
    lists: HashMap<(PartId, PartKind), Vec<PartId>>,
    found: Vec<Found>,
}

impl Written {
    fn add(&mut self, node: &Node) -> Option<PartId> {
        let spec = vocabulary::part_by_word(&node.name.text)?;
        let part = PartId(u32::try_from(self.kinds.len()).ok()?);
        self.kinds.push(spec.kind);
        for entry in &node.entries {
            if let Some(fact) = entry.key.as_ref().and_then(|key| spec.fact(&key.text)) {
                self.facts.insert((part, fact.id), entry.value.clone());
            }
        }
        for child in &node.children {
            if let Some(member) = self.add(child) {
                let kind = self.kind(member);
                self.lists.entry((part, kind)).or_default().push(member);
            }
        }
        Some(part)
    }

    fn value(&self, part: PartId, fact: FactId) -> Option<&Scalar> {
        self.facts.get(&(part, fact))
    }
}

impl Facts for Written {
    fn number(&mut self, part: PartId, fact: FactId, _: CaseId) -> f64 {
        match self.value(part, fact) {
            Some(Scalar::Whole(number)) => number.to_string().parse().unwrap_or(f64::NAN),
            Some(Scalar::Real(number)) => *number,
            _ => f64::NAN,
        }
    }

    fn flag(&mut self, part: PartId, fact: FactId, _: CaseId) -> Tri {
        match self.value(part, fact) {
            Some(Scalar::Flag(flag)) => Tri::from_bool(*flag),
            _ => Tri::Unknown,
        }
    }

    fn choice(&mut self, part: PartId, fact: FactId, _: CaseId) -> Option<u16> {
        let word = match self.value(part, fact)? {
            Scalar::Text(word) => word,
            _ => return None,
        };
        let at = vocabulary::fact_spec(fact).choices().iter().position(|choice| *choice == &**word)?;
        u16::try_from(at).ok()
    }

    fn choice_set(&mut self, _: PartId, _: FactId, _: CaseId) -> Option<u64> {
        None
    }

    fn text(&mut self, part: PartId, fact: FactId, _: CaseId) -> Option<Arc<str>> {
        match self.value(part, fact)? {
            Scalar::Text(text) => Some((&**text).into()),
            _ => None,
        }
    }

    fn part(&mut self, _: PartId, _: FactId, _: CaseId) -> Option<PartId> {
        None
    }

    fn parts(&mut self, part: PartId, fact: FactId, _: CaseId) -> Parts {
        let FactKind::Parts(kinds) = vocabulary::fact_spec(fact).kind else {
            return Parts { members: Arc::new([]), complete: false };
        };
        let members = kinds.iter().filter_map(|kind| self.lists.get(&(part, *kind))).flatten().copied().collect();
        Parts { members, complete: true }
    }

    fn kind(&self, part: PartId) -> PartKind {
        self.kinds.get(part.0 as usize).copied().unwrap_or(vocabulary::kind::BUILD)
    }

    fn gaps(&mut self, part: PartId, fact: FactId, _: CaseId) -> Gaps {
        match self.value(part, fact) {
            Some(_) => Gaps::default(),
            None => Gaps(vec![AnyOf(vec![Gap::Entry(part, fact)])]),
        }
    }

    fn cases(&self, _: Axes) -> Vec<CaseId> {
        vec![CaseId(0)]
    }
}

impl Linked for Written {
    fn parts_of(&self, kind: PartKind) -> Parts {
        let all = (0..).map(PartId).zip(&self.kinds);
        let members = all.filter(|(_, of)| **of == kind).map(|(part, _)| part).collect();
        Parts { members, complete: true }
    }

    fn classes(&mut self) -> Vec<&'static str> {
        Vec::new()
    }
}

impl Bench for Table {
    type Build = Written;
    type Linked<'b> = Written;

    fn read(&self, text: &str) -> Written {
        let document = read(text, &mut BlockCache::new());
        let mut written = Written::default();
        for node in &document.nodes {
            written.add(node);
        }
        let found = document.faults.iter();
        written.found =
            found.map(|fault| Found { rule: fault.kind.rule().to_owned(), message: fault.message.clone() }).collect();
        written
    }

    fn found(&self, build: &Written) -> Vec<Found> {
        build.found.clone()
    }

    fn link(&self, build: &Written) -> Written {
        build.clone()
    }
}

/// A rule file with one rule: what it asks, and its examples.
fn file(about: &str, asks: &str, examples: &str) -> String {
    format!(
        r##"fixture "device" #"device rating=60 protected-ampacity=60 protects=#true current-kind=direct"#
rule "wiring/wrong" notice about={about} {{
    title "Wrong"
    {asks}
    tell "Told."
    why "Why."
    remedy "Remedy."
    source "our own" mark=chosen
{examples}
}}
"##
    )
}

const FILE: &str = "rules/any/wiring.rules.kdl";

fn prove(text: &str, hard: bool) -> Proof {
    run_on(&Table, &[(FILE, text)], &Packs::default(), hard)
}

/// The faults as message and the text that they point to.
fn told(proof: &Proof, text: &str) -> Vec<(String, String)> {
    let place = |fault: &rules::pack::PackFault| text.get(fault.at.clone()).unwrap_or("?").to_owned();
    proof.faults.iter().map(|fault| (fault.message.clone(), place(fault))).collect()
}

fn the_rule(proof: &Proof) -> Option<&RuleProof> {
    proof.rules.first()
}

fn side(proof: &Proof, condition: &str, yes: bool) -> Option<Side> {
    let found = the_rule(proof)?.conditions.iter().find(|each| each.text == condition)?;
    Some(if yes { found.yes } else { found.no })
}

const DEVICE: &str = r#"value allowance any="1.0" us="1.5" help="how far it may exceed"
    when "current_kind == direct && protects"
    must "rating <= allowance * protected_ampacity""#;

const EXAMPLES: &str = r#"    example "as large" holds on="device"
    example "larger" fails on="device" { change "rating=60" to="rating=61" }
    example "just larger than nine tenths" holds on="device" { change "rating=60" to="rating=55" }
    example "larger than a tenth more" fails on="device" { change "rating=60" to="rating=65" }
    example "no rating" open on="device" missing="rating" { remove "rating=60" }
    example "protects nothing" not-applicable on="device" { change "protects=#true" to="protects=#false" }
    example "alternating" not-applicable on="device" { change "direct" to="alternating" }
    example "American, as large" holds on="device" basis=us { change "rating=60" to="rating=90" }
    example "American, larger" fails on="device" basis=us { change "rating=60" to="rating=91" }"#;

#[test]
fn examples_that_pin_a_rule_down_prove_it() {
    let text = file("device", DEVICE, EXAMPLES);
    let proof = prove(&text, true);
    assert_eq!(told(&proof, &text), []);
    assert_eq!(proof.percent(), 100.0);
    let rule = the_rule(&proof);
    assert_eq!(rule.map(|rule| (rule.examples, rule.right, rule.sides())), Some((9, 9, (6, 6))));
    let clauses: Vec<Clause> = rule.iter().flat_map(|rule| rule.conditions.iter().map(|each| each.clause)).collect();
    assert_eq!(clauses, [Clause::When, Clause::When, Clause::Must]);
    assert!(rule.and_then(|rule| rule.mutation).is_some_and(|mutation| mutation.tried > 8 && mutation.survived == 0));
}

#[test]
fn a_side_that_no_example_shows_is_told_at_the_condition() {
    let examples: String =
        EXAMPLES.lines().filter(|line| !line.contains("protects nothing")).map(|line| format!("{line}\n")).collect();
    let text = file("device", DEVICE, &examples);
    let proof = prove(&text, false);
    let expected = ("no example shows `protects` false while it alone decides".to_owned(), "protects".to_owned());
    assert_eq!(told(&proof, &text), [expected]);
    assert_eq!(side(&proof, "protects", false), Some(Side::Missing));
    assert_eq!(the_rule(&proof).map(RuleProof::sides), Some((5, 6)));
    assert!((proof.percent() - 500.0 / 6.0).abs() < 1e-9);
}

#[test]
fn a_condition_that_is_masked_shows_nothing() {
    // Nothing protected and alternating current: neither alone keeps the rule from applying.
    let masked = EXAMPLES.replace(
        "{ change \"protects=#true\" to=\"protects=#false\" }",
        "{ change \"protects=#true\" to=\"protects=#false\"; change \"direct\" to=\"alternating\" }",
    );
    let proof = prove(&file("device", DEVICE, &masked), false);
    assert_eq!(side(&proof, "protects", false), Some(Side::Missing));
    assert_eq!(side(&proof, "current_kind == direct", false), Some(Side::Shown));

    // A comparison that fails where the rule does not apply decides nothing.
    let never = EXAMPLES.replace(
        "on=\"device\" { change \"rating=60\" to=\"rating=61\" }",
        "on=\"device\" { change \"rating=60\" to=\"rating=61\"; change \"direct\" to=\"alternating\" }",
    );
    let never: String = never
        .lines()
        .filter(|line| !line.contains("a tenth more") && !line.contains("American, larger"))
        .map(|line| format!("{line}\n"))
        .collect();
    let proof = prove(&file("device", DEVICE, &never), false);
    assert_eq!(side(&proof, "rating <= allowance * protected_ampacity", false), Some(Side::Missing));
}

#[test]
fn conditions_inside_a_quantifier_are_seen_element_by_element() {
    let asks = r#"must "devices.all(it, it.protects || it.rating <= ampacity)""#;
    let good = r#"    example "small and protecting" holds { add "run ampacity=10 { device rating=9 protects=#false; device rating=11 protects=#true }" }
    example "large" fails { add "run ampacity=10 { device rating=11 protects=#false; device rating=9 protects=#false }" }
    example "unknown" open { add "run ampacity=10 { device protects=#false }" }
    example "none" holds { add "run ampacity=10" }"#;
    let proof = prove(&file("run", asks, good), false);
    assert_eq!(proof.faults, []);
    assert_eq!(proof.percent(), 100.0);

    // Two elements that fail: neither alone decides, whatever one of its conditions were.
    let masked = good.replace(
        "device rating=9 protects=#false }\" }\n    example \"unk",
        "device rating=12 protects=#false }\" }\n    example \"unk",
    );
    assert_ne!(masked, good);
    let proof = prove(&file("run", asks, &masked), false);
    assert_eq!(side(&proof, "it.protects", false), Some(Side::Missing));
    assert_eq!(side(&proof, "it.protects", true), Some(Side::Shown));
}

#[test]
fn what_is_impossible_needs_no_example_and_must_not_occur() {
    let without: String =
        EXAMPLES.lines().filter(|line| !line.contains("protects nothing")).map(|line| format!("{line}\n")).collect();
    let declared =
        |condition: &str| format!("{DEVICE}\n    impossible \"{condition}\" side=no reason=\"every device protects\"");
    let proof = prove(&file("device", &declared("protects"), &without), false);
    assert_eq!(proof.faults, []);
    assert_eq!(proof.percent(), 100.0);
    assert_eq!(side(&proof, "protects", false), Some(Side::Impossible));

    let text = file("device", &declared("protects"), EXAMPLES);
    let proof = prove(&text, false);
    assert_eq!(
        told(&proof, &text),
        [("`protects` is declared impossible, and an example shows it".to_owned(), "\"protects\"".to_owned())]
    );

    let text = file("device", &declared("protect"), EXAMPLES);
    let proof = prove(&text, false);
    assert_eq!(told(&proof, &text), [("`protect` is no condition of the rule".to_owned(), "\"protect\"".to_owned())]);
    assert!(proof.faults.iter().all(|fault| fault.help.contains("`protects`")));
}

#[test]
fn a_wrong_rule_that_no_example_notices_is_told() {
    // Without an example just above the threshold, a figure one step higher goes unnoticed.
    let coarse =
        EXAMPLES.replace("to=\"rating=61\"", "to=\"rating=100\"").replace("to=\"rating=65\"", "to=\"rating=100\"");
    let text = file("device", DEVICE, &coarse);
    assert_eq!(prove(&text, false).faults, []);
    let proof = prove(&text, true);
    let told = told(&proof, &text);
    assert!(
        told.contains(&("no example notices when allowance is 1.1 instead of 1.0".to_owned(), "\"1.0\"".to_owned())),
        "{told:?}"
    );
    let survived = the_rule(&proof).and_then(|rule| rule.mutation).map(|mutation| mutation.survived);
    assert_eq!(survived, Some(told.len()));

    // Without one at the threshold, `<` for `<=` goes unnoticed.
    let beside = EXAMPLES
        .replace(
            "example \"as large\" holds on=\"device\"",
            "example \"as large\" holds on=\"device\" { change \"rating=60\" to=\"rating=59\" }",
        )
        .replace("to=\"rating=90\"", "to=\"rating=89\"");
    let text = file("device", DEVICE, &beside);
    let proof = prove(&text, true);
    assert!(!proof.faults.is_empty());
    assert!(proof.faults.iter().all(|fault| fault.message.starts_with("no example notices when")));
}

#[test]
fn a_wrong_verdict_is_told_at_the_example() {
    for (from, to, message, place) in [
        ("\"as large\" holds", "\"as large\" fails", "\"as large\" is holding, not failing", "\"as large\""),
        ("\"larger\" fails", "\"larger\" open", "\"larger\" is failing, not open", "\"larger\""),
        (
            "\"no rating\" open on=\"device\" missing=\"rating\"",
            "\"no rating\" holds on=\"device\"",
            "is open, not holding",
            "\"no rating\"",
        ),
        (
            "\"alternating\" not-applicable",
            "\"alternating\" holds",
            "is not applicable, not holding",
            "\"alternating\"",
        ),
        ("missing=\"rating\"", "missing=\"protects\"", "`protects` is not among", "\"protects\""),
        ("{ change \"direct\" to", "{ change \"dirext\" to", "does not stand", "\"dirext\""),
        ("remove \"rating=60\"", "remove \"rathing\"", "does not stand", "\"rathing\""),
        ("remove \"rating=60\"", "remove \"60\"", "stands 2 times", "\"60\""),
        // The figure of another region decides.
        (
            "\"American, as large\" holds on=\"device\" basis=us",
            "\"American, as large\" holds on=\"device\"",
            "is failing",
            "\"American, as large\"",
        ),
    ] {
        assert_eq!(EXAMPLES.matches(from).count(), 1, "{from}");
        // A sound example stands in for each kind, so that only the wrong verdict is told.
        let more = r#"
    example "one more that is open" open on="device" { remove "rating=60" }
    example "one more that is alternating" not-applicable on="device" { change "direct" to="alternating" }"#;
        let text = file("device", DEVICE, &format!("{}{more}", EXAMPLES.replace(from, to)));
        let told = told(&prove(&text, false), &text);
        assert!(matches!(told.as_slice(), [(said, at)] if said.contains(message) && at == place), "{to}: {told:?}");
    }
}

#[test]
fn a_slip_in_the_text_of_an_example_is_told() {
    let text = file(
        "device",
        DEVICE,
        &format!("{EXAMPLES}\n    example \"slip\" holds on=\"device\" {{ add \"device rating=60A\" }}"),
    );
    let told = told(&prove(&text, false), &text);
    assert!(told.iter().any(|(said, at)| said.contains("has a slip") && at == "\"slip\""), "{told:?}");
}

#[test]
fn what_the_reader_finds_is_proved_by_its_name() {
    let text = r##"rule "text/unclosed-block" warning found=reading {
    title "A block without an end"
    why "What stands in it is not checked."
    remedy "Write the closing brace."
    caution "What is not read is not checked."
    source "our own" mark=chosen
    example "no brace" fails { add "device {" }
    example "with brace" holds { add "device { }" }
}
"##;
    let prove = |text: &str| run_on(&Table, &[("rules/any/text.rules.kdl", text)], &Packs::default(), true);
    let proof = prove(text);
    assert_eq!(proof.faults, []);
    assert_eq!(the_rule(&proof).map(|rule| (rule.right, rule.mutation)), Some((2, None)));

    let wrong = text.replace("add \"device {\"", "add \"device {}\"");
    let told = told(&prove(&wrong), &wrong);
    assert!(
        matches!(told.as_slice(), [(said, at)] if said.contains("holding, not failing") && at == "\"no brace\""),
        "{told:?}"
    );
}

#[test]
fn faults_of_the_rule_file_are_faults_of_the_proof() {
    let text = file("device", DEVICE, EXAMPLES).replace("mark=chosen", "mark=choosen");
    let proof = prove(&text, false);
    assert_eq!(proof.faults.len(), 1);
    assert_eq!(proof.rules.len(), 0);
}
