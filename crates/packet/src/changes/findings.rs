//! Findings that came, went or turned.

use crate::marks::{Standing, in_order};
use rules::finding::Finding;
use rules::{Review, Signal};
use std::collections::HashMap;

/// How a finding turned.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Turn {
    /// It was not open before.
    Gained,
    /// It could not be told and fails now, or the other way round.
    Turned,
    /// It is no longer open.
    Lost,
}

impl Turn {
    /// Every one, in order.
    pub const ALL: [Self; 3] = [Self::Gained, Self::Turned, Self::Lost];

    /// Its word in data.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Gained => "gained",
            Self::Turned => "turned",
            Self::Lost => "lost",
        }
    }
}

/// A finding that turned.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Turned {
    /// How.
    pub turn: Turn,
    /// Its signal word.
    pub signal: Signal,
    /// The rule.
    pub rule: String,
    /// The part.
    pub part: String,
    /// What is or was wrong.
    pub message: String,
    /// What became of it before; nothing where it was not there.
    pub was: Option<Standing>,
    /// What became of it now.
    pub is: Option<Standing>,
    /// The same finding has the same fingerprint in every revision.
    pub fingerprint: String,
}

/// Every finding that turned: the gained ones first, each list by signal word.
pub fn turned(old: &Review, new: &Review) -> Vec<Turned> {
    let by_print = |review| -> HashMap<String, Standing> {
        in_order(review).map(|(standing, finding)| (finding.fingerprint.clone(), standing)).collect()
    };
    let (before, after) = (by_print(old), by_print(new));
    let open = |standing: Option<Standing>| standing.is_some_and(|standing| standing != Standing::Waived);
    let mut turned = Vec::new();
    for (standing, finding) in in_order(new) {
        let (was, is) = (before.get(&finding.fingerprint).copied(), Some(standing));
        let turn = match (open(was), open(is)) {
            (false, true) => Turn::Gained,
            (true, true) if was != is => Turn::Turned,
            (true, false) => Turn::Lost,
            _ => continue,
        };
        turned.push(of(finding, turn, was, is));
    }
    for (standing, finding) in in_order(old) {
        if open(Some(standing)) && !after.contains_key(&finding.fingerprint) {
            turned.push(of(finding, Turn::Lost, Some(standing), None));
        }
    }
    turned.sort_by(|one, other| one.turn.cmp(&other.turn).then(other.signal.cmp(&one.signal)));
    turned
}

fn of(finding: &Finding, turn: Turn, was: Option<Standing>, is: Option<Standing>) -> Turned {
    Turned {
        turn,
        signal: finding.signal,
        rule: finding.rule.to_string(),
        part: finding.part.clone(),
        message: finding.message.clone(),
        was,
        is,
        fingerprint: finding.fingerprint.clone(),
    }
}
