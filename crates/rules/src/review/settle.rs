//! The few entries that would settle most of the undecided checks.

use super::Item;
use super::gaps;
use crate::finding::Settles;
use design::{Build, Gap};
use std::collections::BTreeMap;

/// The most entries that are named.
const MOST: usize = 5;

/// Greedy: the entry that settles or brings nearer most checks, then the next among what is left; ties in text order.
pub fn settle(build: &Build, open: &[Item]) -> Vec<Settles> {
    // What each check still needs: any of the alternatives of each.
    let mut needs: Vec<Vec<&Vec<Gap>>> =
        open.iter().map(|item| item.gaps.0.iter().map(|any| &any.0).collect()).collect();
    let mut entries = Vec::new();
    while entries.len() < MOST {
        let mut counts: BTreeMap<&Gap, usize> = BTreeMap::new();
        for check in &needs {
            let mut here: Vec<&Gap> = check.iter().flat_map(|any| any.iter()).collect();
            here.sort_unstable();
            here.dedup();
            for gap in here {
                *counts.entry(gap).or_insert(0) += 1;
            }
        }
        let order = |gap: &Gap| {
            let place = gaps::where_to_write(build, gap);
            std::cmp::Reverse((place.file, place.bytes.start))
        };
        let Some((best, checks)) = counts.into_iter().max_by_key(|(gap, checks)| (*checks, order(gap))) else { break };
        let best = best.clone();
        entries.push(Settles { entry: gaps::words(build, &best), place: gaps::where_to_write(build, &best), checks });
        for check in &mut needs {
            check.retain(|any| !any.contains(&best));
        }
    }
    entries
}
