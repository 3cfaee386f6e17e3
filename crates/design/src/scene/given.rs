//! What is written of a place, without asking any method.

use crate::known::{Gap, Gaps, PartId};
use crate::part::{Build, Reference};
use spec::Value;
use std::sync::OnceLock;
use vocabulary::{FactId, FactSpec, PartKind};

/// The properties of a kind that say where it stands.
#[derive(Clone, Copy, Debug, Default)]
pub struct Places {
    pub zone: Option<FactId>,
    pub at: Option<FactId>,
    pub from: Option<FactId>,
    pub size: Option<FactId>,
    pub beside: Option<FactId>,
    pub toward: Option<FactId>,
    pub wall: Option<FactId>,
    pub along: Option<FactId>,
    pub raised: Option<FactId>,
    pub below_ceiling: Option<FactId>,
}

/// The properties of a kind that say where it stands; nothing for what has no place of its own.
pub fn places(kind: PartKind) -> Option<&'static Places> {
    static ALL: OnceLock<Vec<Option<Places>>> = OnceLock::new();
    let all = ALL.get_or_init(|| {
        let of = |spec: &vocabulary::PartSpec| {
            let point = |name: &str| {
                let is_place = |fact: &&FactSpec| matches!(fact.kind, vocabulary::FactKind::Point);
                spec.fact(name).filter(is_place).map(|fact| fact.id)
            };
            let given = |name: &str| spec.fact(name).filter(|fact| fact.given).map(|fact| fact.id);
            let (at, from) = (point("at"), point("from"));
            (at.is_some() || from.is_some()).then(|| Places {
                zone: given("zone"),
                at,
                from,
                size: given("size").filter(|_| from.is_some()),
                beside: given("beside"),
                toward: given("toward").filter(|_| from.is_some()),
                wall: given("wall"),
                along: given("along"),
                raised: given("raised"),
                below_ceiling: given("below-ceiling"),
            })
        };
        vocabulary::parts().iter().map(of).collect()
    });
    all.get(usize::from(kind.0)).and_then(Option::as_ref)
}

/// What is written: nothing, a value, or something that is not known.
pub type Written<T> = Result<Option<T>, Gaps>;

/// What is written of a property, as `read` understands it.
fn written<T>(build: &Build, part: PartId, fact: Option<FactId>, read: impl Fn(&Value) -> Option<T>) -> Written<T> {
    let Some(fact) = fact else { return Ok(None) };
    let held = build.part(part);
    match held.given(fact) {
        None if held.unread => Err(Gaps::one(Gap::Unread(part))),
        None => Ok(None),
        Some(given) => read(&given.value).map(Some).ok_or_else(|| Gaps::one(Gap::Entry(part, fact))),
    }
}

/// Three lengths, m.
pub fn lengths(build: &Build, part: PartId, fact: Option<FactId>) -> Written<[f64; 3]> {
    written(build, part, fact, |value| match value {
        Value::Point(lengths) | Value::Box(lengths) => Some(*lengths),
        _ => None,
    })
}

/// An opening's width and height, m.
pub fn opening(build: &Build, part: PartId, fact: FactId) -> Written<[f64; 2]> {
    written(build, part, Some(fact), |value| match value {
        Value::Opening(opening) => Some(*opening),
        _ => None,
    })
}

/// A number in SI units.
pub fn number(build: &Build, part: PartId, fact: Option<FactId>) -> Written<f64> {
    written(build, part, fact, |value| match value {
        Value::Quantity(quantity) => Some(quantity.value),
        _ => None,
    })
}

/// A flag.
pub fn flag(build: &Build, part: PartId, fact: FactId) -> Written<bool> {
    written(build, part, Some(fact), |value| match value {
        Value::Flag(flag) => Some(*flag),
        _ => None,
    })
}

/// A word of a closed list.
pub fn word(build: &Build, part: PartId, fact: Option<FactId>) -> Written<&'static str> {
    let Some(fact) = fact else { return Ok(None) };
    written(build, part, Some(fact), |value| match value {
        Value::Choice(index) => vocabulary::fact_spec(fact).choices().get(usize::from(*index)).copied(),
        _ => None,
    })
}

/// Another part.
pub fn part(build: &Build, part: PartId, fact: Option<FactId>) -> Written<PartId> {
    let Some(fact) = fact else { return Ok(None) };
    written(build, part, Some(fact), |value| match value {
        Value::Name(_) => match build.references.get(&(part, fact)) {
            Some(Reference::To(other)) => Some(*other),
            _ => None,
        },
        _ => None,
    })
}
