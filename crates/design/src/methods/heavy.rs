//! What holds heavy things that are no batteries, and what a crash or the wind asks of that.

use super::mass::own_mass;
use super::restraint::{self, STANDARD_GRAVITY};
use super::{battery::both, limits, no_solution, show, space};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{FactId, fact as f, fact::fixings as x, fact::heavy_thing as h, fact::restraint as r, kind};

/// The thing that a worked part stands for.
pub(super) fn thing(reader: &Reader<'_>, heavy: PartId) -> PartId {
    reader.build().circuitry().written(heavy)
}

pub(super) fn itself(reader: &mut Reader<'_>, heavy: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Part(thing(reader, heavy)))
}

/// What fills a tank, kg: of what tanks hold, water is the heaviest.
pub(super) fn filling(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome<f64> {
    const WATER: f64 = 1_000.0;
    Ok(reader.need(tank, f::tank::VOLUME, case)? * WATER)
}

/// The mass that is held: the upper end of its tolerance, of a tank the full one.
fn counted_mass(reader: &mut Reader<'_>, heavy: PartId, case: CaseId) -> Outcome {
    let thing = thing(reader, heavy);
    let own = own_mass(reader, thing).0?.bounds().most();
    if reader.build().part(thing).kind != kind::TANK {
        return Ok(Fact::Number(own));
    }
    let held = filling(reader, thing, case)?;
    reader.step(|| Step::of(format!("{} and what fills it", show(own, Dimension::MASS))));
    Ok(Fact::Number(own + held))
}

/// Whether it stands in a space with people in it or open to them.
fn inside(reader: &mut Reader<'_>, heavy: PartId, case: CaseId) -> Outcome {
    let thing = thing(reader, heavy);
    let space = space::of(reader, thing, case)?;
    let word = space::word(reader, space, case)?;
    Ok(Fact::Flag(matches!(word, "living" | "cab" | "battery" | "garage" | "locker")))
}

/// The word for what its crash is reckoned by.
fn word(reader: &Reader<'_>, heavy: PartId) -> &'static str {
    match reader.build().part(thing(reader, heavy)).kind {
        kind::TANK => "tank",
        kind::CARGO => "cargo",
        _ => "other",
    }
}

fn kind_held(reader: &mut Reader<'_>, heavy: PartId, _: CaseId) -> Outcome {
    let own = word(reader, heavy);
    let words = vocabulary::fact_spec(h::KIND_HELD).choices();
    match words.iter().position(|known| *known == own).and_then(|index| u16::try_from(index).ok()) {
        Some(index) => Ok(Fact::Choice(index)),
        None => no_solution(heavy, h::KIND_HELD),
    }
}

fn fixings(reader: &Reader<'_>, thing: PartId) -> Outcome<Option<PartId>> {
    limits::block(reader, thing, kind::FIXINGS)
}

fn restrained(reader: &mut Reader<'_>, heavy: PartId, _: CaseId) -> Outcome {
    let thing = thing(reader, heavy);
    Ok(Fact::Flag(restraint::restraint(reader, thing)?.is_some() || fixings(reader, thing)?.is_some()))
}

/// The force that all fixings hold together, N.
fn capacity(reader: &mut Reader<'_>, fixings: PartId, case: CaseId) -> Outcome<f64> {
    let (count, each) = both(reader.need(fixings, x::COUNT, case), reader.need(fixings, x::CAPACITY, case))?;
    reader.step(|| Step::of(format!("{count} fixings of {}", show(each, Dimension::FORCE))));
    Ok(count * each)
}

/// The acceleration that holds it in a direction: of its restraint, else of its fixings.
fn holds(reader: &mut Reader<'_>, heavy: PartId, direction: FactId, case: CaseId) -> Outcome<f64> {
    let thing = thing(reader, heavy);
    let block = restraint::restraint(reader, thing)?;
    let force = match (block, fixings(reader, thing)?) {
        (Some(block), _) if reader.silent(block, direction) && !reader.silent(block, r::PULL) => {
            reader.need(block, r::PULL, case)
        }
        (Some(block), _) if !reader.silent(block, direction) => return reader.need(block, direction, case),
        (_, Some(fixings)) => capacity(reader, fixings, case),
        (Some(block), None) => return reader.need(block, direction, case),
        (None, None) => {
            Err(Gaps(vec![AnyOf(vec![Gap::Absent(thing, kind::RESTRAINT), Gap::Absent(thing, kind::FIXINGS)])]))
        }
    };
    let (force, mass) = both(force, reader.need(heavy, h::COUNTED_MASS, case))?;
    reader.step(|| Step::of(format!("{} ÷ {}", show(force, Dimension::FORCE), show(mass, Dimension::MASS))));
    if mass > 0.0 { Ok(force / mass) } else { no_solution(heavy, h::HOLDS_FORWARD) }
}

fn holds_forward(reader: &mut Reader<'_>, heavy: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(holds(reader, heavy, r::FORWARD, case)?))
}

fn holds_sideways(reader: &mut Reader<'_>, heavy: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(holds(reader, heavy, r::SIDEWAYS, case)?))
}

/// What equipment in ambulances is held for in every direction, in g (EN 1789, from memory): by analogy for furniture and appliances.
const EQUIPMENT: f64 = 10.0;

/// Cargo, forward and sideways, in g: breaking strength of 49 CFR 393.102(a)(1) (read), the same as in European practice (read).
const CARGO: [f64; 2] = [0.8, 0.5];

/// The accelerations for which it is to be held, in g, along and across.
fn need(reader: &mut Reader<'_>, heavy: PartId, case: CaseId) -> Outcome<[f64; 2]> {
    match word(reader, heavy) {
        "cargo" => {
            reader.step(|| Step {
                source: Some("49 CFR 393.102(a)(1) (read)".to_owned()),
                ..Step::of(format!("cargo: {} g along, {} g across", CARGO[0], CARGO[1]))
            });
            Ok(CARGO)
        }
        "tank" => restraint::crash(reader, heavy, case),
        _ => {
            let crash = restraint::crash(reader, heavy, case)?;
            reader.step(|| Step {
                source: Some("EN 1789, by analogy (memory)".to_owned()),
                ..Step::of(format!(
                    "equipment and furniture: {EQUIPMENT} g in every direction, and no more than a tank"
                ))
            });
            Ok(crash.map(|acceleration| acceleration.min(EQUIPMENT)))
        }
    }
}

fn need_forward(reader: &mut Reader<'_>, heavy: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(need(reader, heavy, case)?[0] * STANDARD_GRAVITY))
}

fn need_sideways(reader: &mut Reader<'_>, heavy: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(need(reader, heavy, case)?[1] * STANDARD_GRAVITY))
}

fn height(reader: &mut Reader<'_>, heavy: PartId, _: CaseId) -> Outcome {
    let thing = thing(reader, heavy);
    Ok(Fact::Number(super::mass::vehicle::height(reader, thing)?))
}

/// Board thinner than this holds no wood screw in a crash, m (common practice).
const THIN_BOARD: f64 = 0.012;

/// Whether it hangs on screws in thin board or bare sheet alone.
fn screws_alone(reader: &mut Reader<'_>, heavy: PartId, case: CaseId) -> Outcome {
    let thing = thing(reader, heavy);
    if restraint::restraint(reader, thing)?.is_some() {
        return Ok(Fact::Flag(false));
    }
    let Some(fixings) = fixings(reader, thing)? else { return Ok(Fact::Flag(false)) };
    // Tested or calculated fixings are what their paper says.
    if !reader.silent(fixings, x::CAPACITY) && !reader.silent(fixings, x::EVIDENCE) {
        return Ok(Fact::Flag(false));
    }
    if !matches!(reader.need_word(fixings, x::KIND, case)?, "wood-screw" | "self-tapping-screw") {
        return Ok(Fact::Flag(false));
    }
    let weak = match reader.need_word(fixings, x::INTO, case)? {
        "board" => reader.need(fixings, x::THICKNESS, case)? < THIN_BOARD,
        "sheet" => !reader.need_flag(fixings, x::SPREADER, case)?,
        _ => false,
    };
    Ok(Fact::Flag(weak))
}

fn on_roof(reader: &mut Reader<'_>, heavy: PartId, _: CaseId) -> Outcome {
    let thing = thing(reader, heavy);
    Ok(Fact::Flag(super::mass::vehicle::on_roof(reader, thing)?))
}

/// The pull of the wind on it, N: at 130 km/h, with a lift coefficient of 0.8 and twice for gusts (chosen).
fn uplift(reader: &mut Reader<'_>, heavy: PartId, case: CaseId) -> Outcome {
    /// Driving speed, m/s.
    const SPEED: f64 = 130.0 / 3.6;
    const LIFT: f64 = 0.8;
    const GUSTS: f64 = 2.0;
    let thing = thing(reader, heavy);
    let Some(size) = super::fact_of(reader.build(), thing, "size") else { return no_solution(heavy, h::UPLIFT) };
    let Fact::Lengths(size) = reader.fact(thing, size, case)? else { return no_solution(heavy, h::UPLIFT) };
    let area = size[0] * size[1];
    let force = calc::mass::wind_uplift(area, SPEED, LIFT).or_else(|_| no_solution(heavy, h::UPLIFT))?;
    reader.step(|| {
        let text =
            format!("½ρv²·{LIFT}·{} at 130 km/h: {}", show(area, Dimension::AREA), show(force, Dimension::FORCE));
        Step { source: Some("lift coefficient and speed chosen; density of air ISO 2533".to_owned()), ..Step::of(text) }
    });
    Ok(Fact::Number(force * GUSTS))
}

/// The pull upwards that holds it, N.
fn held_up(reader: &mut Reader<'_>, heavy: PartId, case: CaseId) -> Outcome {
    let thing = thing(reader, heavy);
    match (restraint::restraint(reader, thing)?, fixings(reader, thing)?) {
        (_, Some(fixings)) => Ok(Fact::Number(capacity(reader, fixings, case)?)),
        (Some(block), None) if !reader.silent(block, r::PULL) => Ok(Fact::Number(reader.need(block, r::PULL, case)?)),
        (Some(block), None) => {
            let (up, mass) = both(reader.need(block, r::UP, case), reader.need(heavy, h::COUNTED_MASS, case))?;
            Ok(Fact::Number(up * mass))
        }
        (None, None) => {
            Err(Gaps(vec![AnyOf(vec![Gap::Absent(thing, kind::FIXINGS), Gap::Absent(thing, kind::RESTRAINT)])]))
        }
    }
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (h::THING, Each(itself)),
        (h::COUNTED_MASS, Each(counted_mass)),
        (h::INSIDE, Each(inside)),
        (h::KIND_HELD, Each(kind_held)),
        (h::RESTRAINED, Each(restrained)),
        (h::HOLDS_FORWARD, Each(holds_forward)),
        (h::HOLDS_SIDEWAYS, Each(holds_sideways)),
        (h::NEED_FORWARD, Each(need_forward)),
        (h::NEED_SIDEWAYS, Each(need_sideways)),
        (h::HEIGHT, Each(height)),
        (h::SCREWS_ALONE, Each(screws_alone)),
        (h::ON_ROOF, Each(on_roof)),
        (h::UPLIFT, Each(uplift)),
        (h::HELD_UP, Each(held_up)),
    ]
}
