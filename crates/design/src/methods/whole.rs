//! Facts of the build as a whole.

use super::system::says_none;
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId, Parts};
use crate::part::Build;
use crate::reader::Reader;
use vocabulary::{PartKind, fact as f, kind};

fn every(reader: &Reader<'_>, kinds: &[PartKind]) -> Parts {
    let mut members: Vec<PartId> =
        kinds.iter().flat_map(|kind| reader.build().of_kind(*kind).members.iter().copied()).collect();
    members.sort_unstable();
    Parts { members: members.into(), complete: super::complete(reader, kinds) }
}

/// Every alarm.
pub fn alarms(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Parts(every(reader, &[kind::ALARM])))
}

/// Every berth.
pub fn berths(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Parts(every(reader, &[kind::BERTH])))
}

/// Every system.
pub fn systems(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(super::all(reader.build().of_kind(kind::SYSTEM).members.iter().copied()))
}

/// The systems about which nothing is said, in words; those of which it cannot be told are not among them.
pub fn silent_systems(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let mut silent: Vec<&str> = Vec::new();
    for (number, &system) in reader.build().of_kind(kind::SYSTEM).members.iter().enumerate() {
        let said = [f::system::DESCRIBED, f::system::DECLARED_ABSENT].map(|fact| reader.need_flag(system, fact, case));
        if said.iter().all(|said| said == &Ok(false)) {
            silent.extend(vocabulary::systems().get(number).map(|system| system.word));
        }
    }
    Ok(Fact::Text(silent.join(", ").into()))
}

/// Every heater.
pub fn heaters(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Parts(every(reader, &[kind::HEATER])))
}

/// The kinds that may burn fuel.
const FLAMES: [PartKind; 4] = [kind::HEATER, kind::COOKER, kind::GENERATOR, kind::ABSORPTION_FRIDGE];

/// Everything aboard that burns fuel.
pub fn burners(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let all = every(reader, &FLAMES);
    let mut burning = Vec::new();
    let mut gaps = Gaps::default();
    for &part in all.members.iter() {
        match burns(reader, part, case) {
            Ok(true) => burning.push(part),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    Ok(super::parts(burning, all.complete && gaps.is_empty()))
}

/// Whether one of these burns fuel.
fn burns(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<bool> {
    match reader.build().part(part).kind {
        kind::HEATER => Ok(reader.need_word(part, f::heater::FUEL, case)? != "none"),
        kind::COOKER => Ok(reader.need_word(part, f::cooker::FUEL, case)? != "none"),
        kind::ABSORPTION_FRIDGE => Ok(reader.need_word(part, f::absorption_fridge::FUEL, case)? != "none"),
        _ => Ok(true),
    }
}

/// Whether anything aboard burns fuel.
pub fn burns_fuel(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let all = every(reader, &FLAMES);
    let mut gaps = Gaps::default();
    for &part in all.members.iter() {
        match burns(reader, part, case) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !all.complete {
        gaps.add(&Gaps::one(Gap::Unread(Build::ROOT)));
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// How many people sleep aboard: the brief's berths or the described ones, whichever is more.
pub fn sleepers(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let berths = build.of_kind(kind::BERTH);
    let places: Vec<_> = berths.members.iter().map(|berth| reader.need(*berth, f::berth::SLEEPS, case)).collect();
    let described = super::sum(places);
    let asked = build.only(kind::BRIEF).map(|brief| (brief, reader.need(brief, f::brief::BERTHS, case)));
    match (described, asked) {
        (Ok(described), Some((_, Ok(asked)))) => Ok(Fact::Number(described.max(asked))),
        (Ok(described), _) if described > 0.0 => Ok(Fact::Number(described)),
        (_, Some((_, Ok(asked)))) if asked > 0.0 => Ok(Fact::Number(asked)),
        (Ok(_), _) if says_none(build, "sleeping") => Ok(Fact::Number(0.0)),
        (Err(gaps), _) => Err(gaps),
        (Ok(_), asked) => {
            let mut settles = vec![Gap::Absent(Build::ROOT, kind::BERTH)];
            settles.insert(
                0,
                match asked {
                    Some((brief, _)) => Gap::Entry(brief, f::brief::BERTHS),
                    None => Gap::Absent(Build::ROOT, kind::BRIEF),
                },
            );
            Err(Gaps(vec![AnyOf(settles)]))
        }
    }
}
