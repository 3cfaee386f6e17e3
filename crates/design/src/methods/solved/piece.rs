//! The resistance of each piece of a run: of conductors by size and length, of devices, contacts and plugs as said, else what is usual for
//! their class and rating.

use crate::circuitry::{Piece, Run};
use crate::fact::Outcome;
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{device, fact_of, ohms, window};
use crate::reader::Reader;
use crate::working::Step;
use calc::AssumedResistance;
use vocabulary::{fact as f, kind};

/// Which end of what an assumed resistance can be is taken.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Bound {
    /// What is usual.
    Usual,
    /// The most.
    Most,
}

impl Bound {
    fn of(self, assumed: AssumedResistance) -> f64 {
        match self {
            Self::Usual => assumed.usual,
            Self::Most => assumed.most,
        }
    }
}

/// The resistance of a run, out and back, Ω: hot conductors, devices and contacts.
///
/// # Errors
/// What is not known of its conductors.
pub fn resistance_of_run(reader: &mut Reader<'_>, run: &Run, bound: Bound, case: CaseId) -> Outcome<f64> {
    if !run.complete {
        return Err(Gaps::one(Gap::Unread(run.written)));
    }
    let mut sum = 0.0;
    let mut gaps = Gaps::default();
    for piece in &run.pieces {
        let resistance = match *piece {
            Piece::Conductor(conductor) => reader.need(conductor, f::conductor::HOT_RESISTANCE, case),
            Piece::Device(part) => of_device(reader, part, bound, case),
            Piece::Switch(part) | Piece::Through(part) => of_contact(reader, part, bound, case),
        };
        match resistance {
            Ok(resistance) => sum += resistance,
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(sum) } else { Err(gaps) }
}

/// What is said of the resistance of a part, Ω.
fn said(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Option<Outcome<f64>> {
    let fact = fact_of(reader.build(), part, "resistance")?;
    if reader.silent(part, fact) { None } else { Some(reader.need(part, fact, case)) }
}

fn assume(reader: &mut Reader<'_>, title: &str, assumed: AssumedResistance, bound: Bound) -> f64 {
    let resistance = bound.of(assumed);
    reader.step(|| Step {
        assumed: true,
        ..Step::cited(format!("{title}: {} assumed", ohms(resistance)), assumed.citation)
    });
    resistance
}

fn of_device(reader: &mut Reader<'_>, part: PartId, bound: Bound, case: CaseId) -> Outcome<f64> {
    let written = device::written(reader, part);
    if let Some(said) = said(reader, written, case) {
        return said;
    }
    let rating = reader.need(part, f::device::RATING, case)?;
    let class = window::class(reader, part, case)?;
    let title = reader.build().part(part).title.clone();
    // A rating beyond those of its class has no usual value: then a contact stands for it.
    let assumed =
        calc::device_resistance(class, rating).unwrap_or_else(|| calc::closed_contact_resistance(Some(rating)));
    Ok(assume(reader, &title, assumed, bound))
}

fn of_contact(reader: &mut Reader<'_>, part: PartId, bound: Bound, case: CaseId) -> Outcome<f64> {
    if let Some(said) = said(reader, part, case) {
        return said;
    }
    let rating = match fact_of(reader.build(), part, "rating") {
        Some(rating) if !reader.silent(part, rating) => Some(reader.need(part, rating, case)?),
        // Of which nothing is said: the value for a contact without a rating stands.
        _ => None,
    };
    let assumed = if reader.build().part(part).kind == kind::SHUNT {
        calc::shunt_resistance(rating)
    } else {
        calc::closed_contact_resistance(rating)
    };
    let title = reader.build().part(part).title.clone();
    Ok(assume(reader, &title, assumed, bound))
}
