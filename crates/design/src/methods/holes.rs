//! Holes through the skin: what their face is made of.

use super::heat::{layers, shell};
use super::{fire, no_solution};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use vocabulary::{fact as f, fact::hole as h, kind};

/// The face that a hole goes through.
fn face(reader: &Reader<'_>, hole: PartId) -> Outcome<PartId> {
    reader.build().part(hole).outer.ok_or_else(|| Gaps::one(Gap::Unread(hole)))
}

/// The layers of that face by the words of their materials, from the outside in.
fn materials(reader: &mut Reader<'_>, hole: PartId, case: CaseId) -> Outcome<Vec<std::sync::Arc<str>>> {
    let shell = face(reader, hole)?;
    let layers = reader.build().inside(shell, kind::LAYER);
    if !layers.complete {
        return Err(Gaps::one(Gap::Unread(shell)));
    }
    if layers.members.is_empty() {
        return Err(Gaps(vec![AnyOf(vec![Gap::Absent(shell, kind::LAYER)])]));
    }
    let mut words = Vec::new();
    for &layer in layers.members.iter() {
        match reader.fact(layer, f::layer::MATERIAL, case)? {
            Fact::Text(word) => words.push(word),
            _ => return no_solution(hole, h::IN_FOAM),
        }
    }
    Ok(words)
}

fn in_metal(reader: &mut Reader<'_>, hole: PartId, case: CaseId) -> Outcome {
    let words = materials(reader, hole, case)?;
    Ok(Fact::Flag(words.first().is_some_and(|skin| layers::rusts(skin))))
}

fn in_foam(reader: &mut Reader<'_>, hole: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(materials(reader, hole, case)?.iter().any(|word| fire::is_foam(word))))
}

fn in_floor(reader: &mut Reader<'_>, hole: PartId, case: CaseId) -> Outcome {
    let own = face(reader, hole)?;
    Ok(Fact::Flag(shell::face(reader, own, case)? == shell::FaceOf::Floor))
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![(h::IN_METAL, Each(in_metal)), (h::IN_FOAM, Each(in_foam)), (h::IN_FLOOR, Each(in_floor))]
}
