//! Alarms, extinguishers and linings.

use super::{no_solution, space};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::{Reader, either};
use vocabulary::{fact as f, fact::alarm as a, kind};

/// How high an alarm hangs above the floor of its space, m. Heights count from the living floor; a space that says where it begins has
/// its own.
fn above_floor(reader: &mut Reader<'_>, alarm: PartId, case: CaseId) -> Outcome {
    let Some([corner, _]) = space::extent(reader, alarm, case)? else {
        return Err(either((alarm, a::AT), (alarm, a::FROM)));
    };
    let floor = match reader.fact(alarm, a::STANDING_ZONE, case)? {
        Fact::Part(zone) if !reader.silent(zone, f::zone::FROM) => match reader.fact(zone, f::zone::FROM, case)? {
            Fact::Lengths(from) => from[2],
            _ => return no_solution(alarm, a::ABOVE_FLOOR),
        },
        _ => 0.0,
    };
    Ok(Fact::Number(corner[2] - floor))
}

fn past_its_date(reader: &mut Reader<'_>, alarm: PartId, case: CaseId) -> Outcome {
    super::gas::pieces::past(reader, alarm, a::REPLACE_BY, case)
}

/// What the labels of carbon monoxide alarms for leisure vehicles name: EN 50291-2, and UL 2034 in North America.
const VEHICLE_STANDARDS: [&str; 2] = ["50291-2", "2034"];

fn made_for_vehicles(reader: &mut Reader<'_>, alarm: PartId, case: CaseId) -> Outcome {
    match reader.fact(alarm, a::TESTED_TO, case)? {
        Fact::Text(label) => Ok(Fact::Flag(VEHICLE_STANDARDS.iter().any(|standard| label.contains(standard)))),
        _ => no_solution(alarm, a::MADE_FOR_VEHICLES),
    }
}

/// The number before a letter of a fire rating: `34` of `8A 34B`, `10` of `2-A:10-B:C`; 0 where the letter is not there.
fn number_before(rating: &str, letter: char) -> f64 {
    let text = rating.to_ascii_uppercase();
    let mut number = String::new();
    for character in text.chars() {
        match character {
            digit if digit.is_ascii_digit() => number.push(digit),
            '-' | ' ' if !number.is_empty() => {}
            found if found == letter && !number.is_empty() => return number.parse().unwrap_or(0.0),
            _ => number.clear(),
        }
    }
    0.0
}

fn rating(reader: &mut Reader<'_>, extinguisher: PartId, letter: char, case: CaseId) -> Outcome {
    match reader.fact(extinguisher, f::extinguisher::RATING, case)? {
        Fact::Text(rating) => {
            let [solids, liquids] = ['A', 'B'].map(|letter| number_before(&rating, letter));
            if solids == 0.0 && liquids == 0.0 {
                return Err(Gaps::one(Gap::Entry(extinguisher, f::extinguisher::RATING)));
            }
            Ok(Fact::Number(if letter == 'A' { solids } else { liquids }))
        }
        _ => no_solution(extinguisher, f::extinguisher::RATING),
    }
}

fn rating_a(reader: &mut Reader<'_>, extinguisher: PartId, case: CaseId) -> Outcome {
    rating(reader, extinguisher, 'A', case)
}

fn rating_b(reader: &mut Reader<'_>, extinguisher: PartId, case: CaseId) -> Outcome {
    rating(reader, extinguisher, 'B', case)
}

/// Words in the names of foams that burn fast and give off poisonous smoke.
const FOAMS: [&str; 9] = [
    "isocyanurate",
    "polystyrene",
    "polyurethane",
    "polyethylene",
    "phenolic",
    "melamine",
    "elastomeric",
    "foam",
    "rubber",
];

/// Whether a material is a foam, by its word.
pub fn is_foam(material: &str) -> bool {
    let material = material.to_lowercase();
    FOAMS.iter().any(|foam| material.contains(foam)) && !material.contains("glass")
}

/// Whether the innermost layer of a shell is a foam.
fn bare_foam(reader: &mut Reader<'_>, shell: PartId, case: CaseId) -> Outcome {
    let layers = reader.build().inside(shell, kind::LAYER);
    if !layers.complete {
        return Err(Gaps::one(Gap::Unread(shell)));
    }
    // Layers are written from the outside in.
    let Some(innermost) = layers.members.last() else {
        return Err(Gaps(vec![AnyOf(vec![Gap::Absent(shell, kind::LAYER)])]));
    };
    match reader.fact(*innermost, f::layer::MATERIAL, case)? {
        Fact::Text(material) => Ok(Fact::Flag(is_foam(&material))),
        _ => no_solution(shell, f::shell::BARE_FOAM),
    }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (a::ABOVE_FLOOR, Each(above_floor)),
        (a::PAST_ITS_DATE, Each(past_its_date)),
        (a::MADE_FOR_VEHICLES, Each(made_for_vehicles)),
        (f::extinguisher::RATING_A, Each(rating_a)),
        (f::extinguisher::RATING_B, Each(rating_b)),
        (f::shell::BARE_FOAM, Each(bare_foam)),
    ]
}

#[cfg(test)]
mod tests {
    use super::number_before;

    #[test]
    fn ratings_as_labels_print_them() {
        for (rating, solids, liquids) in [
            ("8A 34B", 8.0, 34.0),
            ("2-A:10-B:C", 2.0, 10.0),
            ("10-B:C", 0.0, 10.0),
            ("2A 10BC", 2.0, 10.0),
            ("1A 10BE", 1.0, 10.0),
            ("4-A:60-B:C", 4.0, 60.0),
            ("5 A 34 B C", 5.0, 34.0),
            ("powder, 1 kg", 0.0, 0.0),
            ("ABC", 0.0, 0.0),
        ] {
            assert_eq!((number_before(rating, 'A'), number_before(rating, 'B')), (solids, liquids), "{rating}");
        }
    }
}
