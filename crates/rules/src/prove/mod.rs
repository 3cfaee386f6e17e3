//! The proof of rule packs by their examples.
//!
//! Every example is a small specification: its fixture with the example's changes, read and linked as any other, and judged
//! on its own rule only. Over the examples of a rule, masking MC/DC is measured; with `hard`, every slightly wrong version of
//! the rule must be noticed by an example.

mod bench;
mod compose;
mod coverage;
mod mutation;
mod verdict;

pub use bench::{Bench, Found, Linked, Workshop};
pub use coverage::{Clause, ConditionProof, Side};
pub use mutation::Mutation;

use crate::pack::{Example, Expected, PackFault, Packs, RuleSheet, Sheet, pack_region, read_sheets};
use crate::signal::Region;
use coverage::Coverage;
use mutation::Ready;
use std::ops::Range;
use verdict::ExampleVerdict;

/// What the examples of rule files prove.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Proof {
    /// Each rule, in the order of the files and of their texts.
    pub rules: Vec<RuleProof>,
    /// What is wrong, in the same order. None: the packs are proved.
    pub faults: Vec<PackFault>,
}

/// What the examples of one rule prove.
#[derive(Clone, PartialEq, Debug)]
pub struct RuleProof {
    /// The rule's name.
    pub name: String,
    /// The file.
    pub file: String,
    /// How many examples it has.
    pub examples: usize,
    /// How many of them have the verdict that they must have.
    pub right: usize,
    /// What is shown of each condition, those of `when` first.
    pub conditions: Vec<ConditionProof>,
    /// What became of slightly wrong versions of the rule; nothing unless these were asked for.
    pub mutation: Option<Mutation>,
}

impl RuleProof {
    /// The sides of conditions that are shown, and all that can be.
    pub fn sides(&self) -> (usize, usize) {
        let sides = self.conditions.iter().flat_map(|condition| [condition.yes, condition.no]);
        sides.fold((0, 0), |(shown, all), side| match side {
            Side::Shown => (shown + 1, all + 1),
            Side::Missing => (shown, all + 1),
            Side::Impossible => (shown, all),
        })
    }

    /// Masking MC/DC in percent; 100 for a rule without conditions.
    pub fn percent(&self) -> f64 {
        percent(self.sides())
    }
}

impl Proof {
    /// Masking MC/DC over all rules in percent.
    pub fn percent(&self) -> f64 {
        let sides = self.rules.iter().map(RuleProof::sides);
        percent(sides.fold((0, 0), |(shown, all), (more, of)| (shown + more, all + of)))
    }
}

fn percent((shown, all): (usize, usize)) -> f64 {
    /// A hundred of a hundred.
    const WHOLE: f64 = 100.0;
    match all {
        0 => WHOLE,
        // Sides are counted in thousands at most; f64 holds them exactly.
        _ => WHOLE * shown as f64 / all as f64,
    }
}

/// Proves rule files, each a path, which names its pack and domain, and its text. With `hard`, slightly wrong versions of every
/// rule are tried too.
pub fn run(files: &[(&str, &str)], hard: bool) -> Proof {
    run_beside(files, &Packs::default(), hard)
}

/// Proves rule files that stand beside compiled packs, as a shop's own stand beside the shipped ones.
pub fn run_beside(files: &[(&str, &str)], beside: &Packs, hard: bool) -> Proof {
    let (sheets, _) = read_sheets(files, beside);
    let rules = sheets.into_iter().flat_map(|sheet| sheet.rules).map(|sheet| sheet.rule).collect();
    let packs = Packs { rules }.and(beside.clone());
    run_on(&Workshop::with(packs), files, beside, hard)
}

/// Proves rule files on a bench that reads and links. `beside` are compiled packs that the files stand beside.
pub fn run_on<B: Bench>(bench: &B, files: &[(&str, &str)], beside: &Packs, hard: bool) -> Proof {
    let (sheets, faults) = read_sheets(files, beside);
    let mut proof = Proof { rules: Vec::new(), faults };
    for sheet in &sheets {
        for rule in &sheet.rules {
            let before = proof.faults.len();
            proof.rules.push(prove_rule(bench, sheet, rule, hard, &mut proof.faults));
            if let Some(own) = proof.faults.get_mut(before..) {
                own.sort_by_key(|fault| (fault.at.start, fault.at.end));
            }
        }
    }
    proof
}

fn prove_rule<B: Bench>(
    bench: &B,
    sheet: &Sheet,
    rule: &RuleSheet,
    hard: bool,
    faults: &mut Vec<PackFault>,
) -> RuleProof {
    let basis_of_pack = pack_region(&rule.rule);
    let mut read = Vec::new();
    for example in &rule.examples {
        let basis = example.basis.or(basis_of_pack);
        match compose::compose(sheet, example, basis) {
            Ok(text) => read.push((example, regions(basis, &text), bench.read(&text))),
            Err(fault) => faults.push(fault),
        }
    }
    let mut right = 0;
    let mut coverage = Coverage::of(&rule.rule);
    let mut ready = Vec::new();
    for (example, regions, build) in &read {
        let found = bench.found(build);
        if rule.rule.found_while_reading {
            let is_found = found.iter().any(|found| found.rule == rule.rule.name);
            let kind = if is_found { Expected::Fails } else { Expected::Holds };
            let told: Vec<&str> = found.iter().map(|found| found.rule.as_str()).collect();
            let context = format!("Found while reading: {}.", listed(&told));
            right += usize::from(check(sheet, example, kind, &context, faults));
            continue;
        }
        let mut linked = bench.link(build);
        let verdict = verdict::judge(&mut linked, &rule.rule, regions);
        let told: Vec<&str> = found.iter().map(|found| found.message.as_str()).collect();
        let is_clear = check_text(sheet, example, &found, faults);
        let is_right = check_verdict(sheet, example, &verdict, &told, faults);
        right += usize::from(is_clear && is_right);
        for (_, _, values) in verdict::selected(&mut linked, &rule.rule, regions) {
            coverage.add(&mut linked, &rule.rule, &values);
        }
        ready.push(Ready { linked, regions: regions.clone(), kind: verdict.kind });
    }
    let conditions = coverage::conclude(&coverage, rule, &sheet.file, faults);
    let mutation =
        (hard && !rule.rule.found_while_reading).then(|| mutation::mutate(rule, &sheet.file, &mut ready, faults));
    RuleProof {
        name: rule.rule.name.clone(),
        file: sheet.file.clone(),
        examples: rule.examples.len(),
        right,
        conditions,
        mutation,
    }
}

/// The regions that an example is judged for: as it or its rule's pack says, else those of its text.
fn regions(basis: Option<Region>, text: &str) -> Vec<Region> {
    match basis {
        Some(Region::Any) => Vec::new(),
        Some(region) => vec![region],
        None => compose::basis_of(text),
    }
}

/// Whether the text of an example says what its author meant. A slip of the pen in it would prove something else; only an
/// example that stays open may hold what cannot be read. What the linker finds missing around a small example is no slip.
fn check_text(sheet: &Sheet, example: &Example, found: &[Found], faults: &mut Vec<PackFault>) -> bool {
    let is_slip = |found: &&Found| found.rule.starts_with("text/") || found.rule == "names/unknown-name";
    let slips: Vec<&Found> = match example.expected {
        Expected::Open => Vec::new(),
        _ => found.iter().filter(is_slip).collect(),
    };
    for slip in &slips {
        let message = format!("the text of \"{}\" has a slip: {}", example.title, slip.message);
        let help = format!("Only an open example may hold one ({}).", slip.rule);
        faults.push(fault(sheet, &example.at, message, help));
    }
    slips.is_empty()
}

fn check_verdict(
    sheet: &Sheet,
    example: &Example,
    verdict: &ExampleVerdict,
    found: &[&str],
    faults: &mut Vec<PackFault>,
) -> bool {
    let missing: Vec<&str> = verdict.gaps.0.iter().flat_map(|any| &any.0).filter_map(verdict::gap_name).collect();
    let mut context = format!("Found while reading: {}.", listed(found));
    if verdict.kind == Expected::Open {
        context = format!("Missing: {}. {context}", listed(&missing));
    }
    if !check(sheet, example, verdict.kind, &context, faults) {
        return false;
    }
    match &example.missing {
        Some((name, at)) if !missing.contains(&name.as_str()) => {
            let message = format!("`{name}` is not among what would settle \"{}\"", example.title);
            faults.push(fault(sheet, at, message, format!("Missing: {}.", listed(&missing))));
            false
        }
        _ => true,
    }
}

fn check(sheet: &Sheet, example: &Example, kind: Expected, context: &str, faults: &mut Vec<PackFault>) -> bool {
    if kind == example.expected {
        return true;
    }
    let message = format!("\"{}\" is {}, not {}", example.title, said(kind), said(example.expected));
    faults.push(fault(sheet, &example.at, message, context.to_owned()));
    false
}

fn said(kind: Expected) -> &'static str {
    match kind {
        Expected::Fails => "failing",
        Expected::Holds => "holding",
        Expected::Open => "open",
        Expected::NotApplicable => "not applicable",
    }
}

fn listed(all: &[&str]) -> String {
    if all.is_empty() { "nothing".to_owned() } else { all.join(", ") }
}

fn fault(sheet: &Sheet, at: &Range<usize>, message: String, help: String) -> PackFault {
    PackFault { file: sheet.file.clone(), at: at.clone(), message, help }
}
