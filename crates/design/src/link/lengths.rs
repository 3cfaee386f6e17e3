//! A length that is given one way and out and back: the two must agree.

use spec::{Given, Part, Slip, Value};
use vocabulary::{FactId, fact, kind};

/// How far twice the length one way may lie from the length out and back, as a part of it: rounding of inches (chosen).
const ROUNDING: f64 = 0.02;

/// Brings the two lengths of a wire to agree: what it says itself goes before what it takes over, and of two that
/// contradict each other neither counts.
pub fn agree(part: &mut Part) -> Option<Slip> {
    if part.kind != kind::WIRE {
        return None;
    }
    let [one_way, around] = [fact::wire::ONE_WAY, fact::wire::LOOP].map(|fact| part.given(fact).cloned());
    let (one_way, around) = (one_way?, around?);
    match (&one_way.via, &around.via) {
        (None, Some(_)) => part.given.retain(|given| given.fact != fact::wire::LOOP),
        (Some(_), None) => part.given.retain(|given| given.fact != fact::wire::ONE_WAY),
        _ => {
            let (Some(once), Some(both)) = (number(&one_way), number(&around)) else { return None };
            if (2.0 * once - both).abs() > ROUNDING * both {
                for fact in [fact::wire::ONE_WAY, fact::wire::LOOP] {
                    forget(part, fact);
                }
                return Some(
                    Slip::new(
                        "names/lengths-differ",
                        around.at.clone(),
                        "the length out and back is not twice the length one way",
                    )
                    .help("keep the one that was measured, and take the other out; until then neither counts")
                    .related(one_way.at.clone(), "said one way here"),
                );
            }
        }
    }
    None
}

fn number(given: &Given) -> Option<f64> {
    match &given.value {
        Value::Quantity(length) => Some(length.value),
        _ => None,
    }
}

fn forget(part: &mut Part, fact: FactId) {
    if let Some(given) = part.given.iter_mut().find(|given| given.fact == fact) {
        given.value = Value::Unknown;
    }
}
