//! One finding per cause: the same check over several regions is one, and what only follows from another folds under it.

use super::{Item, written};
use crate::finding::{Finding, Outcome};
use crate::pack::Packs;
use design::{Build, PartId};
use vocabulary::kind;

/// Keeps one finding for each rule and part: the worst of the regions, and a failure rather than an open check.
pub fn one_per_check(failed: &mut Vec<Item>, open: &mut Vec<Item>) {
    keep_worst(failed);
    keep_worst(open);
    open.retain(|item| !failed.iter().any(|other| same_check(other, item)));
}

fn same_check(one: &Item, other: &Item) -> bool {
    one.part == other.part
        && one.finding.rule == other.finding.rule
        && one.finding.message_key() == other.finding.message_key()
}

fn keep_worst(items: &mut Vec<Item>) {
    let mut kept: Vec<Item> = Vec::new();
    for item in items.drain(..) {
        match kept.iter_mut().find(|other| same_check(other, &item)) {
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
    let leader_of = |failed: &[Item], follower: &Item| {
        let leaders = packs.rule(&follower.finding.rule).map_or(&[][..], |rule| &rule.follows);
        leaders.iter().find_map(|leading| {
            failed
                .iter()
                .position(|other| *other.finding.rule == **leading && same_place(build, other.part, follower.part))
        })
    };
    let mut followers = Vec::new();
    let mut index = 0;
    while index < failed.len() {
        match leader_of(failed, &failed[index]) {
            Some(_) => followers.push(failed.remove(index)),
            None => index += 1,
        }
    }
    for follower in followers {
        match leader_of(failed, &follower) {
            Some(leader) => failed[leader].finding.follow.push(follower.finding),
            // Its leader follows from something else and was folded away: then it stands by itself.
            None => failed.push(follower),
        }
    }
}

/// Folds the failures of one rule that a builder would mend at one part under the worst of them.
pub fn fold_by_cause(failed: &mut Vec<Item>) {
    let mut kept: Vec<Item> = Vec::new();
    for mut item in failed.drain(..) {
        let same = |other: &&mut Item| {
            item.cause.is_some() && other.cause == item.cause && other.finding.rule == item.finding.rule
        };
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
