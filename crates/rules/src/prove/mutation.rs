//! Rules made a little wrong: each must change the verdict of at least one example, or the examples do not pin the rule
//! down.

use super::bench::Linked;
use super::verdict::judge;
use crate::pack::figure::stepped;
use crate::pack::{Expected, PackFault, RuleSheet};
use crate::rule::Rule;
use crate::signal::Region;
use std::ops::Range;

/// An example that is read and judged.
pub(super) struct Ready<L> {
    pub(super) linked: L,
    pub(super) regions: Vec<Region>,
    pub(super) kind: Expected,
}

/// How many wrong rules were tried and how many no example noticed.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Mutation {
    /// Wrong rules that were tried.
    pub tried: usize,
    /// Those that changed no verdict.
    pub survived: usize,
}

struct Wrong {
    rule: Rule,
    at: Range<usize>,
    what: String,
}

/// Tries every wrong rule; one that changes no verdict is a fault.
pub(super) fn mutate<L: Linked>(
    sheet: &RuleSheet,
    file: &str,
    examples: &mut [Ready<L>],
    faults: &mut Vec<PackFault>,
) -> Mutation {
    let mut mutation = Mutation::default();
    for wrong in expressions(sheet).chain(figures(sheet)) {
        mutation.tried += 1;
        let noticed =
            examples.iter_mut().any(|ready| judge(&mut ready.linked, &wrong.rule, &ready.regions).kind != ready.kind);
        if !noticed {
            mutation.survived += 1;
            faults.push(PackFault {
                file: file.to_owned(),
                at: wrong.at,
                message: format!("no example notices when {}", wrong.what),
                help: "Add an example whose verdict hangs on it.".to_owned(),
            });
        }
    }
    mutation
}

/// The rule with each mutant of its expressions.
fn expressions(sheet: &RuleSheet) -> impl Iterator<Item = Wrong> {
    let when = sheet.rule.when.iter().flat_map(|when| when.mutants()).map(|mutant| {
        let rule = Rule { when: Some(mutant.expression), ..sheet.rule.clone() };
        (sheet.when.as_ref(), mutant.at, mutant.what, rule)
    });
    let must = sheet.rule.must.iter().flat_map(|must| must.mutants()).map(|mutant| {
        let rule = Rule { must: Some(mutant.expression), ..sheet.rule.clone() };
        (sheet.must.as_ref(), mutant.at, mutant.what, rule)
    });
    when.chain(must).map(|(embedded, at, what, rule)| Wrong {
        rule,
        at: embedded.map_or_else(|| sheet.name_at.clone(), |embedded| embedded.place(&at)),
        what,
    })
}

/// The rule with each figure of its named values one step up and down.
fn figures(sheet: &RuleSheet) -> impl Iterator<Item = Wrong> {
    let values = sheet.rule.values.iter().zip(&sheet.figures).enumerate();
    values.flat_map(move |(number, (value, places))| {
        value.figures.iter().zip(&places.at).enumerate().flat_map(move |(figure, ((_, _, text), at))| {
            [true, false].into_iter().filter_map(move |up| {
                let (moved, si) = stepped(text, places.dimension, up)?;
                let mut rule = sheet.rule.clone();
                let place = rule.values.get_mut(number)?.figures.get_mut(figure)?;
                place.1 = si;
                Some(Wrong { rule, at: at.clone(), what: format!("{} is {moved} instead of {text}", value.name) })
            })
        })
    })
}
