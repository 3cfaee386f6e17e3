//! How conductors are made and laid, and which currents share a route.

use super::conductor::{conductor_size, said, stranding};
use super::run::run;
use super::{amperes, no_solution};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use calc::{ConductorSize, Stranding};
use quantity::WireSize;
use vocabulary::{fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::conductor::STRANDS, Each(strands)),
        (f::conductor::MATERIAL, Each(material)),
        (f::conductor::CORED, Each(cored)),
        (f::conductor::SPLICES, Each(splices)),
        (f::conductor::BATTERY_CABLE, Each(battery_cable)),
        (f::run::SIZE_FOR_LOAD, Each(size_for_load)),
        (f::route::SUPPORTS_SAID, Each(route_supports_said)),
        (f::wire::SUPPORTS_SAID, Each(wire_supports_said)),
        (f::route::MIXED, Each(mixed)),
        (f::route::SEPARATED, Each(separated)),
        (f::build::INSULATION_NAMED, Each(insulation_named)),
    ]
}

/// How a conductor is made, by the order of the words of its fact.
fn strands(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Choice(match stranding(reader, part, case)? {
        Stranding::Solid => 0,
        Stranding::Stranded => 1,
        Stranding::Flexible => 2,
    }))
}

/// What a conductor is made of: as said, else copper, which is what the trade means by a size alone.
fn material(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    match said(reader, part, "material") {
        Some((written, fact)) => reader.fact(written, fact, case),
        None => Ok(Fact::Choice(0)),
    }
}

/// Whether a conductor lies with others in the sheath of one cable; ways and shore wires do not say it.
fn cored(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let written = reader.build().circuitry().written(part);
    match said(reader, part, "sheath") {
        Some((written, fact)) => reader.fact(written, fact, case),
        None => Ok(Fact::Flag(reader.build().part(written).kind == kind::CORD)),
    }
}

fn splices(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    match said(reader, part, "splices") {
        Some((written, fact)) => reader.fact(written, fact, case),
        None => Ok(Fact::Number(0.0)),
    }
}

/// Whether a conductor lies in a run that ends at a battery.
fn battery_cable(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let mut gaps = Gaps::default();
    for end in run(reader, part, f::conductor::BATTERY_CABLE)?.ends {
        match reader.need_flag(end, f::run_end::BATTERY_ADJACENT, case) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// The metric sizes of IEC 60228, m².
const METRIC: [f64; 17] = [
    0.75e-6, 1e-6, 1.5e-6, 2.5e-6, 4e-6, 6e-6, 10e-6, 16e-6, 25e-6, 35e-6, 50e-6, 70e-6, 95e-6, 120e-6, 150e-6, 185e-6,
    240e-6,
];

/// The gauges that are sold for vehicles, thinnest first; 0 is 1/0, −3 is 4/0.
const GAUGES: [i8; 12] = [18, 16, 14, 12, 10, 8, 6, 4, 2, 0, -1, -3];

/// The smallest standard size that carries the run's largest current where its weakest conductor lies, m².
fn size_for_load(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::run::SIZE_FOR_LOAD;
    let current = reader.need(part, f::run::DESIGN_CURRENT, case)?;
    let weakest = reader.need(part, f::run::AMPACITY, case)?;
    for conductor in run(reader, part, fact)?.conductors() {
        if reader.number(conductor, f::conductor::AMPACITY, case) > weakest {
            continue;
        }
        let gauge = matches!(super::conductor::size(reader, conductor)?, WireSize::Awg(_));
        let sizes: Vec<ConductorSize> = if gauge {
            GAUGES.into_iter().map(ConductorSize::Awg).collect()
        } else {
            METRIC.into_iter().map(ConductorSize::Area).collect()
        };
        for size in sizes {
            if let Ok(carries) = super::ampacity::of_size(reader, conductor, size, case)
                && carries >= current
            {
                reader.step(|| Step::of(format!("that size carries {} where it lies", amperes(carries))));
                return Ok(Fact::Number(size.area()));
            }
        }
        let own = conductor_size(super::conductor::size(reader, conductor)?);
        reader.step(|| Step::of(format!("no standard size carries it where {:.2e} m² lies", own.area())));
    }
    no_solution(part, fact)
}

/// Whether direct and alternating current share a route: as said, and by the runs that use it.
fn mixed(reader: &mut Reader<'_>, route: PartId, case: CaseId) -> Outcome {
    if !reader.silent(route, f::route::CARRIES)
        && matches!(reader.need_word(route, f::route::CARRIES, case)?, "both" | "separated")
    {
        return Ok(Fact::Flag(true));
    }
    let Fact::Parts(runs) = reader.fact(route, f::route::RUNS, case)? else {
        return no_solution(route, f::route::MIXED);
    };
    let mut kinds = [false; 2];
    for run in runs.members.iter().filter_map(|run| reader.build().circuitry().run(*run)) {
        kinds[usize::from(run.alternating)] = true;
    }
    if kinds == [true; 2] {
        return Ok(Fact::Flag(true));
    }
    if runs.complete { Ok(Fact::Flag(false)) } else { Err(Gaps::one(Gap::Unread(reader.unread_part(route)))) }
}

/// Whether the two are kept apart along a route.
fn separated(reader: &mut Reader<'_>, route: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(reader.need_word(route, f::route::CARRIES, case)? == "separated"))
}

/// Whether every wire of direct current names the standard of its insulation.
fn insulation_named(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    let direct = build.circuitry().runs.iter().filter(|run| !run.alternating);
    let wires = direct.flat_map(|run| run.conductors()).map(|conductor| build.circuitry().written(conductor));
    let mut gaps = Gaps::default();
    for wire in wires.filter(|wire| build.part(*wire).kind == kind::WIRE).collect::<Vec<_>>() {
        if reader.silent(wire, f::wire::STANDARD) {
            let title = build.part(wire).title.clone();
            reader.step(|| Step::of(format!("{title} does not name it")));
            return Ok(Fact::Flag(false));
        }
        if let Err(more) = reader.fact(wire, f::wire::STANDARD, CaseId(0)) {
            gaps.add(&more);
        }
    }
    if !super::complete(reader, &[kind::CIRCUIT, kind::WIRE]) {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(crate::part::Build::ROOT))));
    }
    if gaps.is_empty() { Ok(Fact::Flag(true)) } else { Err(gaps) }
}

fn route_supports_said(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(super::is_said(reader, part, f::route::SUPPORTS)?))
}

fn wire_supports_said(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(super::is_said(reader, part, f::wire::SUPPORTS)?))
}
