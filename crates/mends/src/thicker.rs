//! The mend of a conductor that is too thin: the next standard size with which the finding is gone, found by asking the rule
//! again with each size.

use crate::{Aim, Edit, Subject, bytes};
use design::{Build, PartId};
use quantity::{Cores, WireSize, larger_sizes, write_wire_size};
use rules::ReviewOptions;
use rules::finding::{Finding, Place};
use rules::pack::Packs;
use rules::review::judge_build;
use spec::Value;
use vocabulary::{FactId, fact};

/// The rules whose findings more copper can cure.
const CURED_BY_COPPER: [&str; 16] = [
    "device/above-park-trailer-table",
    "device/fault-too-small",
    "drop/charging-line",
    "drop/critical-too-large",
    "drop/too-large",
    "drop/too-low-to-start",
    "protection/above-ampacity",
    "shock/inlet-protective-conductor-too-small",
    "shock/metal-not-bonded",
    "shock/protective-conductor-too-small",
    "shore/cord-too-thin",
    "wiring/bond-below-code",
    "wiring/bond-below-lead",
    "wiring/conductor-below-load",
    "wiring/mains-too-thin",
    "wiring/too-thin",
];

/// The facts that are sizes of conductors, in the groups that are changed together: lines, protective conductors, bonds.
const GROUPS: [&[FactId]; 3] = [
    &[fact::wire::SIZE, fact::way::WIRE, fact::to::WIRE, fact::cord::CORES],
    &[fact::way::EARTH, fact::to::EARTH],
    &[fact::busbar::BOND, fact::ac_board::EARTH_BOND],
];

/// A size as it is given on a part.
#[derive(Clone, Copy)]
struct Written {
    part: PartId,
    fact: FactId,
    /// How many conductors of it lie in one cable, where that is written with it.
    count: Option<u16>,
    size: WireSize,
}

impl Written {
    fn with(self, size: WireSize) -> Value {
        match self.count {
            Some(count) => Value::Cores(Cores { count, size }),
            None => Value::WireSize(size),
        }
    }

    fn text(self, size: WireSize) -> String {
        let size = write_wire_size(size);
        match self.count {
            Some(count) => format!("\"{count} x {size}\""),
            None => format!("\"{size}\""),
        }
    }
}

/// The next size of the conductors of a finding that cures it.
pub fn conductor(subject: &Subject<'_>, finding: &Finding) -> Option<Edit> {
    if !CURED_BY_COPPER.contains(&&*finding.rule) {
        return None;
    }
    let build = subject.build;
    let own = build.parts().find(|(_, part)| *part.key == *finding.part_key).map(|(id, _)| id)?;
    let rule = subject.packs.rule(&finding.rule)?.clone();
    let rule = Packs { rules: vec![rule] };
    let options = ReviewOptions { today: subject.today, draft: false };
    let gone = |build: &Build| {
        let review = judge_build(build, &rule, options);
        let same = |other: &Finding| other.rule == finding.rule && other.part_key == finding.part_key;
        let mut all = review.failed.iter().chain(&review.undecided);
        !all.any(|other| same(other) || other.follow.iter().any(same))
    };
    GROUPS.iter().find_map(|group| {
        let written = sizes(build, own, group);
        let thinnest = written.iter().map(|own| own.size).min_by(|one, other| one.compare(*other))?;
        let candidates: Vec<WireSize> = larger_sizes(thinnest).collect();
        let thinner = |size: WireSize| written.iter().filter(move |own| own.size.compare(size).is_lt());
        // More copper never brings such a finding back, so the size is found by halving.
        let cures = |size: &WireSize| {
            let values: Vec<(PartId, FactId, Value)> =
                thinner(*size).map(|own| (own.part, own.fact, own.with(*size))).collect();
            gone(&build.with(&values))
        };
        let size = *candidates.get(candidates.partition_point(|size| !cures(size)))?;
        let changes: Option<Vec<(Place, String)>> = thinner(size).map(|own| change(build, *own, size)).collect();
        let title = format!("make the conductor of {} {}", called(build, own), write_wire_size(size));
        Some(Edit { title, changes: changes?, aim: Aim::Mend, preferred: true })
    })
}

/// The sizes that are given on what a part is written by: the circuit or way of its run, with what stands in it.
fn sizes(build: &Build, own: PartId, group: &[FactId]) -> Vec<Written> {
    let circuitry = build.circuitry();
    let single = circuitry.written(own);
    // A finding about one wire is mended at that wire, one about a run at all of its wires that are too thin.
    let at = |part: PartId| {
        group.iter().filter_map(move |fact| {
            let written = |count, size| Written { part, fact: *fact, count, size };
            match &build.part(part).given(*fact)?.value {
                Value::WireSize(size) => Some(written(None, *size)),
                Value::Cores(cores) => Some(written(Some(cores.count), cores.size)),
                _ => None,
            }
        })
    };
    let alone: Vec<Written> = at(single).collect();
    if !alone.is_empty() {
        return alone;
    }
    let run = circuitry.run(own).map_or(single, |run| run.written);
    at(run).chain(build.part(run).inside.iter().flat_map(|inner| at(*inner))).collect()
}

/// Where a size is written, and what is to stand there: its value; or, where it comes from elsewhere, a property of its own.
fn change(build: &Build, own: Written, size: WireSize) -> Option<(Place, String)> {
    let part = build.part(own.part);
    let given = part.given(own.fact)?;
    let own_text = own.text(size);
    if given.via.is_none() {
        return Some((Place { file: given.at.file as usize, bytes: bytes(&given.at) }, own_text));
    }
    let end = bytes(&part.room).end;
    let name = vocabulary::fact_spec(own.fact).name;
    Some((Place { file: part.room.file as usize, bytes: end..end }, format!(" {name}={own_text}")))
}

/// How a finding's part is called: by the run that it belongs to.
fn called(build: &Build, own: PartId) -> String {
    let run = build.circuitry().run(own).map_or(build.circuitry().written(own), |run| run.written);
    build.part(run).title.to_string()
}
