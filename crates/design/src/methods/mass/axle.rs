//! What each axle and the coupling carry, their tyres, and what helps them most.

use super::burden::{ANY, Sort};
use super::fills::FILLS;
use super::layout::measured;
use super::loads::{Loads, Sum};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{battery::both, no_solution, show};
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use std::sync::Arc;
use vocabulary::{FactId, fact as f, kind};

/// Kilograms.
pub fn kilograms(value: f64) -> String {
    show(value, Dimension::MASS)
}

/// The loads in the fill of a case.
pub fn loads(reader: &mut Reader<'_>, case: CaseId) -> Arc<Loads> {
    let fill = reader.cases().fill(case);
    reader.loads(fill)
}

/// A sum as a fact: when something is missing, what is known of it counts where that alone is above the limit.
pub fn judged(sum: &Sum, limit: Outcome<f64>) -> Outcome<f64> {
    match (&sum.value, sum.at_least, limit) {
        (Ok(known), ..) => Ok(known.value),
        (Err(_), Some(least), Ok(limit)) if least > limit => Ok(least),
        (Err(gaps), ..) => Err(gaps.clone()),
    }
}

/// The place of a support among all.
fn place(reader: &mut Reader<'_>, support: PartId) -> Outcome<usize> {
    let burdens = reader.burdens();
    match burdens.supports.iter().position(|own| *own == support) {
        Some(place) => Ok(place),
        None => match &burdens.layout {
            Err(gaps) => Err(gaps.clone()),
            Ok(_) => no_solution(support, f::axle::LOAD),
        },
    }
}

fn of_support(reader: &mut Reader<'_>, support: PartId, case: CaseId) -> Outcome<(Arc<Loads>, usize)> {
    let place = place(reader, support)?;
    Ok((loads(reader, case), place))
}

fn sum_of(loads: &Loads, place: usize, support: PartId) -> Outcome<&Sum> {
    loads.supports.get(place).ok_or_else(|| Gaps::one(Gap::NoSolution(support, f::axle::LOAD)))
}

/// What a support carries, kg.
fn load(reader: &mut Reader<'_>, support: PartId, limit: FactId, case: CaseId) -> Outcome<f64> {
    let (loads, place) = of_support(reader, support, case)?;
    steps(reader, &loads, place, case);
    let limit = reader.need(support, limit, case);
    judged(sum_of(&loads, place, support)?, limit)
}

/// The contributions to a support, largest first.
fn steps(reader: &mut Reader<'_>, loads: &Loads, place: usize, case: CaseId) {
    if !reader.is_recording() {
        return;
    }
    let burdens = reader.burdens();
    let fill = FILLS.get(reader.cases().fill(case)).map_or("", |fill| fill.name);
    reader.step(|| Step::of(format!("{fill}: each mass × (its distance from the other support ÷ wheelbase)")));
    let mut rows: Vec<(f64, String, Option<&'static str>)> = Vec::new();
    for aboard in &loads.aboard {
        let Some(burden) = burdens.all.get(aboard.burden) else { continue };
        let part = aboard.parts.as_ref().and_then(|parts| parts.get(place)).copied();
        match (aboard.mass, part) {
            (Some(mass), Some(part)) => {
                let carried = mass * part;
                let text = match (part - 1.0).abs() < 1e-9 {
                    true => format!("{}: {}", burden.title, kilograms(mass)),
                    false => format!("{}: {} × {part:.3} = {}", burden.title, kilograms(mass), kilograms(carried)),
                };
                rows.push((carried, text, burden.assumed));
            }
            _ => rows.push((0.0, format!("{}: not known", burden.title), None)),
        }
    }
    rows.retain(|(carried, text, _)| carried.abs() > 1e-9 || text.ends_with("not known"));
    rows.sort_by(|one, other| other.0.total_cmp(&one.0));
    for (_, text, assumed) in rows {
        reader.step(|| match assumed {
            Some(source) => Step::assumed(text, source),
            None => Step::of(text),
        });
    }
}

fn axle_load(reader: &mut Reader<'_>, axle: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(load(reader, axle, f::axle::LIMIT, case)?))
}

fn coupling_load(reader: &mut Reader<'_>, coupling: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(load(reader, coupling, f::coupling::LIMIT, case)?))
}

/// What a support carries when every mass is at the end of its tolerance that loads it most, kg.
fn at_most(reader: &mut Reader<'_>, support: PartId, case: CaseId) -> Outcome {
    let (loads, place) = of_support(reader, support, case)?;
    Ok(Fact::Number(sum_of(&loads, place, support)?.value.clone()?.bounds.most()))
}

fn margin(reader: &mut Reader<'_>, axle: PartId, case: CaseId) -> Outcome {
    let (limit, load) = both(reader.need(axle, f::axle::LIMIT, case), reader.need(axle, f::axle::LOAD, case))?;
    reader.step(|| Step::of(format!("{} − {}", kilograms(limit), kilograms(load))));
    Ok(Fact::Number(limit - load))
}

/// How many moves are told.
const MOVES: usize = 5;

/// The moves that take most off an axle, in words: what could stand elsewhere, how much of it rests here, and what each metre
/// towards the other support takes off.
fn best_moves(reader: &mut Reader<'_>, axle: PartId, case: CaseId) -> Outcome {
    let (loads, place) = of_support(reader, axle, case)?;
    sum_of(&loads, place, axle)?.value.clone()?;
    let burdens = reader.burdens();
    let wheelbase = match super::burden::vehicle(reader.build()) {
        Ok(vehicle) => reader.need(vehicle, f::vehicle::WHEELBASE, case)?,
        Err(gaps) => return Err(gaps),
    };
    let mut moves: Vec<(f64, f64, PartId)> = Vec::new();
    for aboard in &loads.aboard {
        let Some(burden) = burdens.all.get(aboard.burden) else { continue };
        let part = aboard.parts.as_ref().and_then(|parts| parts.get(place)).copied();
        let kind = reader.build().part(burden.part).kind;
        let movable = matches!(burden.sort, Sort::BuiltIn | Sort::Cargo | Sort::Content)
            && !matches!(kind, kind::SHELL | kind::ALLOWANCE | kind::TOW_BAR);
        let (Some(mass), Some(part), true) = (aboard.mass, part, movable) else { continue };
        // A tank and what fills it move together.
        match moves.iter_mut().find(|(.., known)| *known == burden.part) {
            Some((all, here, _)) => {
                *all += mass;
                *here += mass * part;
            }
            None => moves.push((mass, mass * part, burden.part)),
        }
    }
    moves.retain(|(_, here, _)| *here > 0.0);
    moves.sort_by(|one, other| other.1.total_cmp(&one.1));
    let way = if place == 0 { "rearward" } else { "forward" };
    let words: Vec<String> = moves
        .iter()
        .take(MOVES)
        .map(|(mass, here, part)| {
            let title = &reader.build().part(*part).title;
            let less = mass / wheelbase;
            format!(
                "{title} ({} of its {} rest here; each metre {way} takes {} off)",
                kilograms(here.round()),
                kilograms(mass.round()),
                kilograms(less.round())
            )
        })
        .collect();
    Ok(Fact::Text(if words.is_empty() { "nothing that could be moved".into() } else { words.join("; ").into() }))
}

/// The tyres of an axle; nothing where none are described.
fn tyres(reader: &Reader<'_>, axle: PartId) -> Outcome<Option<PartId>> {
    crate::methods::limits::block(reader, axle, kind::TYRES)
}

fn tyres_said(reader: &mut Reader<'_>, axle: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(tyres(reader, axle)?.is_some()))
}

/// What the tyres of an axle carry, kg.
fn tyre_capacity(reader: &mut Reader<'_>, axle: PartId, case: CaseId) -> Outcome {
    let tyres = tyres(reader, axle)?.ok_or_else(|| Gaps::one(Gap::Absent(axle, kind::TYRES)))?;
    let (index, count) =
        both(reader.need(tyres, f::tyres::LOAD_INDEX, case), reader.need(tyres, f::tyres::COUNT, case))?;
    let small = |value: f64, most: f64| (0.0..=most).contains(&value).then_some(value);
    let (Some(index), Some(count)) = (small(index, f64::from(u16::MAX)), small(count, f64::from(u8::MAX))) else {
        return no_solution(axle, f::axle::TYRE_CAPACITY);
    };
    let (each, count) = (index as u16, count as u8);
    let capacity =
        calc::mass::axle_tyre_capacity(each, count).map_err(|_| Gaps::one(Gap::Entry(tyres, f::tyres::LOAD_INDEX)))?;
    if let Ok((load, citation)) = calc::mass::tyre_load(each) {
        reader.step(|| Step::cited(format!("{count} tyres of load index {each}: {} each", kilograms(load)), citation));
    }
    Ok(Fact::Number(capacity))
}

/// Whether a scale has shown the mass of an axle.
fn weighed_on_scale(reader: &mut Reader<'_>, axle: PartId, _: CaseId) -> Outcome {
    let said = crate::methods::is_said(reader, axle, measured(reader.build(), axle))?;
    let scales = reader.build().of_kind(kind::WEIGHED);
    if scales.members.is_empty() && !scales.complete {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(axle))));
    }
    match scales.members.first() {
        // Without a day it may be anybody's number.
        Some(scale) if said && reader.silent(*scale, f::weighed::DATE) => {
            Err(Gaps::one(Gap::Entry(*scale, f::weighed::DATE)))
        }
        Some(_) => Ok(Fact::Flag(said)),
        None => Ok(Fact::Flag(false)),
    }
}

/// The least load that a coupling has to carry, kg: by the law of Germany for the European Union, else as a share of the trailer.
fn least_load(reader: &mut Reader<'_>, coupling: PartId, case: CaseId) -> Outcome {
    let mass = reader.need(coupling, f::coupling::TRAILER_MASS, case)?;
    let regions = crate::methods::regions(reader, case)?;
    // Shares of the trailer's mass: 10 % in manuals of the United States, 8 to 10 % in Australia, 5 to 7 % in the United Kingdom (all
    // second-hand).
    const SHARES: [(&str, f64); 3] = [("us", 0.10), ("au-nz", 0.08), ("uk", 0.05)];
    let mut least = 0.0_f64;
    for region in regions.words() {
        let own = match SHARES.iter().find(|(word, _)| *word == region) {
            Some((_, share)) => share * mass,
            None => calc::mass::least_coupling_load_germany(mass)
                .map_err(|_| Gaps::one(Gap::NoSolution(coupling, f::coupling::LEAST_LOAD)))?,
        };
        reader.step(|| Step::of(format!("{region}: at least {} of a trailer of {}", kilograms(own), kilograms(mass))));
        least = least.max(own);
    }
    Ok(Fact::Number(least))
}

fn trailer_mass(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let vehicle = super::burden::vehicle(reader.build())?;
    reader.fact(vehicle, f::vehicle::LADEN, case)
}

/// The part of each kilogram of a thing that rests on the rear axles.
pub fn rear_share(reader: &mut Reader<'_>, thing: PartId, _: CaseId) -> Outcome {
    let burdens = reader.burdens();
    let at = super::burden::centre(reader, thing);
    let (at, layout) = both(at, burdens.layout.clone())?;
    match super::loads::parts(&layout, at[0]) {
        Some(parts) => Ok(Fact::Number(parts.iter().skip(1).sum())),
        None => no_solution(thing, f::axle::LOAD),
    }
}

/// Where the mass of a thing is reckoned.
pub fn mass_centre(reader: &mut Reader<'_>, thing: PartId, _: CaseId) -> Outcome {
    let at = super::burden::centre(reader, thing)?;
    let assumed = crate::methods::space::extent(reader, thing, ANY).ok().flatten().is_none();
    if assumed {
        reader.step(|| Step::assumed("the middle of its zone", "assumption of this project: no position is said"));
    }
    Ok(Fact::Lengths(at))
}

/// The methods of axles and couplings.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (f::axle::LOAD, Each(axle_load)),
        (f::axle::LOAD_AT_MOST, Each(at_most)),
        (f::axle::MARGIN, Each(margin)),
        (f::axle::BEST_MOVES, Each(best_moves)),
        (f::axle::TYRES_SAID, Each(tyres_said)),
        (f::axle::TYRE_CAPACITY, Each(tyre_capacity)),
        (f::axle::WEIGHED_ON_SCALE, Each(weighed_on_scale)),
        (f::coupling::LOAD, Each(coupling_load)),
        (f::coupling::LOAD_AT_MOST, Each(at_most)),
        (f::coupling::LEAST_LOAD, Each(least_load)),
        (f::coupling::TRAILER_MASS, Each(trailer_mass)),
        (f::persons::COUNTED_EACH, Each(super::people::counted_each)),
        (f::persons::LEAST_EACH, Each(super::people::least_each)),
    ]
}
