//! The people who travel.

use super::burden::{ANY, Burden, Sort, centre};
use super::layout;
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::battery::both;
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::mass::{EU_PASSENGER, Evidence, Filling, Mass, US_OCCUPANT};
use vocabulary::{fact as f, fact::persons as p, kind};

/// What the regions count a person with, kg: the most of them.
pub fn least_each(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(by_region(reader, case)?))
}

fn by_region(reader: &mut Reader<'_>, case: CaseId) -> Outcome<f64> {
    let regions = crate::methods::regions(reader, case)?;
    let each = if regions.outside_us() { EU_PASSENGER } else { US_OCCUPANT };
    reader.step(|| {
        let source = if regions.outside_us() {
            "1230/2012 Annex I part A 2.6.2.1 (read); elsewhere by analogy"
        } else {
            "49 CFR 567.4(g)(3): 150 lb (read)"
        };
        Step { source: Some(source.to_owned()), ..Step::of(format!("{each} kg for each person")) }
    });
    Ok(each)
}

/// What each of them is counted with, kg.
pub fn counted_each(reader: &mut Reader<'_>, persons: PartId, case: CaseId) -> Outcome {
    if reader.silent(persons, p::EACH) {
        return Ok(Fact::Number(by_region(reader, case)?));
    }
    reader.fact(persons, p::EACH, case)
}

/// How many people travel: those who are described, else the brief's seats.
pub fn travellers(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let described = build.of_kind(kind::PERSONS);
    if !described.complete {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    if !described.members.is_empty() {
        let counts: Vec<_> = described.members.iter().map(|part| reader.need(*part, p::COUNT, case)).collect();
        return Ok(Fact::Number(crate::methods::sum(counts)?));
    }
    match build.only(kind::BRIEF) {
        Some(brief) => reader.fact(brief, f::brief::SEATS, case),
        None => Err(Gaps::one(Gap::Absent(Build::ROOT, kind::PERSONS))),
    }
}

/// The people as burdens; the driver, who sits foremost, apart from the others, and left out when he was weighed with the vehicle.
pub fn burdens(reader: &mut Reader<'_>) -> Vec<Burden> {
    let build = reader.build();
    let vehicle = build.only(kind::VEHICLE);
    if vehicle.is_none_or(|vehicle| layout::is_trailer(reader, vehicle) == Ok(true)) {
        return Vec::new();
    }
    if !build.of_kind(kind::PERSONS).complete {
        return vec![unknown(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))))];
    }
    let described = build.of_kind(kind::PERSONS).members.clone();
    if described.is_empty() {
        return nobody_described(reader);
    }
    let driver_weighed = layout::driver_when_weighed(reader);
    let places: Vec<(PartId, Outcome<[f64; 3]>)> =
        described.iter().map(|part| (*part, centre(reader, *part))).collect();
    let x = |at: &Outcome<[f64; 3]>| at.as_ref().map_or(f64::INFINITY, |at| at[0]);
    let foremost = places.iter().min_by(|one, other| x(&one.1).total_cmp(&x(&other.1))).map(|(part, _)| *part);
    let mut all = Vec::new();
    for (part, at) in places {
        let title = build.part(part).title.clone();
        let known = both(reader.need(part, p::COUNT, ANY), reader.need(part, p::COUNTED_EACH, ANY));
        let mut push = |title: std::sync::Arc<str>, mass: Outcome<f64>, driver: bool| {
            let mass = mass.and_then(|mass| {
                Mass::new(mass, Some(0.0), Evidence::Estimated).map_err(|_| Gaps::one(Gap::Entry(part, p::EACH)))
            });
            let at = at.clone();
            all.push(Burden {
                part,
                title,
                sort: Sort::Person,
                mass,
                at,
                filling: Filling::Person,
                driver,
                assumed: None,
            });
        };
        match known {
            Ok((count, each)) if Some(part) == foremost && count >= 1.0 => {
                match &driver_weighed {
                    Ok(true) => {}
                    Ok(false) => push("the driver".into(), Ok(each), true),
                    Err(gaps) => push("the driver".into(), Err(gaps.clone()), true),
                }
                if count > 1.0 {
                    push(title, Ok((count - 1.0) * each), false);
                }
            }
            Ok((count, each)) => push(title, Ok(count * each), false),
            // The driver is among them, as far as is known.
            Err(gaps) => push(title, Err(gaps), Some(part) == foremost && driver_weighed != Ok(true)),
        }
    }
    all
}

/// Nobody is described: where the brief has seats, people who travel are missing.
fn nobody_described(reader: &mut Reader<'_>) -> Vec<Burden> {
    let build = reader.build();
    if let Some(brief) = build.only(kind::BRIEF)
        && reader.need(brief, f::brief::SEATS, ANY) == Ok(0.0)
    {
        return Vec::new();
    }
    vec![unknown(&Gaps::one(Gap::Absent(Build::ROOT, kind::PERSONS)))]
}

fn unknown(gaps: &Gaps) -> Burden {
    Burden {
        part: Build::ROOT,
        title: "the people who travel".into(),
        sort: Sort::Person,
        mass: Err(gaps.clone()),
        at: Err(gaps.clone()),
        filling: Filling::Person,
        driver: true,
        assumed: None,
    }
}
