//! One finding per cause: the same check over several regions is one, and what only follows from another folds under it.

use super::{Item, written};
use crate::finding::{Finding, Outcome};
use crate::pack::Packs;
use design::{Build, PartId};
use std::collections::{HashMap, HashSet};
use std::sync::Arc;
use vocabulary::kind;

/// Keeps one finding for each rule and part: the worst of the regions, and a failure rather than an open check.
pub fn one_per_check(failed: &mut Vec<Item>, open: &mut Vec<Item>) {
    keep_worst(failed);
    keep_worst(open);
    if !open.is_empty() {
        let known: HashSet<Check> = failed.iter().map(check).collect();
        open.retain(|item| !known.contains(&check(item)));
    }
}

/// What makes two findings the same check.
type Check = (Option<PartId>, Arc<str>, Option<String>);

fn check(item: &Item) -> Check {
    (item.part, item.finding.rule.clone(), item.finding.message_key().map(str::to_owned))
}

fn keep_worst(items: &mut Vec<Item>) {
    let mut kept: Vec<Item> = Vec::with_capacity(items.len());
    let mut places: HashMap<Check, usize> = HashMap::new();
    for item in items.drain(..) {
        let place = *places.entry(check(&item)).or_insert(kept.len());
        match kept.get_mut(place) {
            Some(other) if margin(&item.finding) > margin(&other.finding) => *other = item,
            Some(_) => {}
            None => kept.push(item),
        }
    }
    *items = kept;
}

fn margin(finding: &Finding) -> f64 {
    match finding.outcome {
        Outcome::Fails { margin } => margin.unwrap_or(0.0),
        Outcome::Undecided { .. } => 0.0,
    }
}

impl Finding {
    /// What tells two findings of one rule on one part apart: nothing for judged rules, the sentence for what the reader
    /// finds, which may be several on one part.
    fn message_key(&self) -> Option<&str> {
        self.part_key.split_once('\n').map(|(_, message)| message)
    }
}

/// Folds what follows under what it follows from: at the same part, or parts of the same run or network.
pub fn fold(build: &Build, packs: &Packs, failed: &mut Vec<Item>) {
    let mut by_rule: HashMap<Arc<str>, Vec<usize>> = HashMap::new();
    for (index, item) in failed.iter().enumerate() {
        by_rule.entry(item.finding.rule.clone()).or_default().push(index);
    }
    let leader_of = |failed: &[Option<Item>], by_rule: &HashMap<Arc<str>, Vec<usize>>, follower: &Item| {
        let leaders = packs.rule(&follower.finding.rule).map_or(&[][..], |rule| &rule.follows);
        leaders.iter().find_map(|leading| {
            let leads = |index: &&usize| {
                let leader = failed.get(**index).and_then(Option::as_ref);
                leader.is_some_and(|leader| same_place(build, leader.part, follower.part))
            };
            by_rule.get(leading.as_str())?.iter().find(leads).copied()
        })
    };
    let mut left: Vec<Option<Item>> = failed.drain(..).map(Some).collect();
    let mut followers = Vec::new();
    for index in 0..left.len() {
        // Taken out while its own leader is looked for: nothing leads itself.
        let Some(item) = left.get_mut(index).and_then(Option::take) else { continue };
        if leader_of(&left, &by_rule, &item).is_some() {
            followers.push(item);
        } else if let Some(place) = left.get_mut(index) {
            *place = Some(item);
        }
    }
    for follower in followers {
        match leader_of(&left, &by_rule, &follower).and_then(|leader| left.get_mut(leader)?.as_mut()) {
            Some(leader) => leader.finding.follow.push(follower.finding),
            // Its leader follows from something else and was folded away: then it stands by itself.
            None => {
                by_rule.entry(follower.finding.rule.clone()).or_default().push(left.len());
                left.push(Some(follower));
            }
        }
    }
    failed.extend(left.into_iter().flatten());
}

/// Folds the failures of one rule that a builder would mend at one part under the worst of them.
pub fn fold_by_cause(failed: &mut Vec<Item>) {
    let mut kept: Vec<Item> = Vec::new();
    for mut item in failed.drain(..) {
        if item.cause.is_none() {
            kept.push(item);
            continue;
        }
        let same = |other: &&mut Item| other.cause == item.cause && other.finding.rule == item.finding.rule;
        match kept.iter_mut().find(same) {
            Some(first) => {
                if margin(&item.finding) > margin(&first.finding) {
                    std::mem::swap(first, &mut item);
                    first.finding.follow.append(&mut item.finding.follow);
                }
                first.finding.follow.push(item.finding);
            }
            None => kept.push(item),
        }
    }
    *failed = kept;
}

/// Whether two parts are the same, or belong to the same run or network.
fn same_place(build: &Build, one: Option<PartId>, other: Option<PartId>) -> bool {
    let (Some(one), Some(other)) = (one, other) else { return false };
    let circuitry = build.circuitry();
    let run = |part: PartId| circuitry.run(part).map(|run| run.part);
    let joined = |network: PartId, thing: PartId| {
        build.part(network).kind == kind::NETWORK && circuitry.is_joined(network, thing)
    };
    written(build, one) == written(build, other)
        || run(one).is_some() && run(one) == run(other)
        || joined(one, other)
        || joined(other, one)
}
