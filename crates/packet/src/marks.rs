//! Which findings are on which part, so that a row and a symbol can show them.

use design::{Build, PartId};
use rules::finding::Finding;
use rules::{Review, Signal};
use std::collections::{BTreeMap, HashMap};

/// What became of a finding.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Standing {
    /// It fails.
    Failed,
    /// It cannot be told.
    Undecided,
    /// It is accepted.
    Waived,
}

/// One finding on a part.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct FindingMark {
    /// Its number in the packet, from 1, in the order of the register.
    pub number: usize,
    /// Its signal word.
    pub signal: Signal,
    /// What became of it.
    pub standing: Standing,
}

/// The findings by part, open ones first.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Marks {
    by_part: BTreeMap<u32, Vec<FindingMark>>,
}

/// Every finding of a review in the order of the register: failed, undecided, waived; each with what became of it.
pub fn in_order(review: &Review) -> impl Iterator<Item = (Standing, &Finding)> {
    let failed = review.failed.iter().map(|finding| (Standing::Failed, finding));
    let open = review.undecided.iter().map(|finding| (Standing::Undecided, finding));
    failed.chain(open).chain(review.waived.iter().map(|finding| (Standing::Waived, finding)))
}

impl Marks {
    /// Sorts the findings of a review by part. A finding on a worked part is on the part by which that is written too.
    pub fn of(build: &Build, review: &Review) -> Self {
        let mut by_key: HashMap<&str, Vec<PartId>> = HashMap::new();
        for (number, part) in build.parts() {
            by_key.entry(&part.key).or_default().push(number);
        }
        let mut marks = Self::default();
        for (index, (standing, finding)) in in_order(review).enumerate() {
            let mark = FindingMark { number: index + 1, signal: finding.signal, standing };
            for &part in by_key.get(finding.part_key.as_str()).into_iter().flatten() {
                marks.add(part, mark);
                marks.add(build.circuitry().written(part), mark);
            }
        }
        marks
    }

    fn add(&mut self, part: PartId, mark: FindingMark) {
        // What is found on the build as a whole is no mark of a part.
        if part == Build::ROOT {
            return;
        }
        let list = self.by_part.entry(part.0).or_default();
        if !list.contains(&mark) {
            list.push(mark);
        }
    }

    /// The findings on a part.
    pub fn on(&self, part: u32) -> &[FindingMark] {
        self.by_part.get(&part).map_or(&[], Vec::as_slice)
    }

    /// The worst signal word of what fails or cannot be told on a part.
    pub fn worst_open(&self, part: u32) -> Option<Signal> {
        self.on(part).iter().filter(|mark| mark.standing != Standing::Waived).map(|mark| mark.signal).max()
    }
}
