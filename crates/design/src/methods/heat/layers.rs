//! The layers of a face: what they are made of, and how well they hold heat and vapour.

use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::methods::{no_solution, show};
use crate::reader::Reader;
use crate::working::Step;
use calc::Interval;
use calc::heat::{HeatFlow, Material, Pressing};
use quantity::Dimension;
use vocabulary::{fact as f, fact::layer as l, kind};

/// One layer as it is laid.
#[derive(Clone, Debug)]
pub struct Laid {
    /// Thickness, m.
    pub thickness: f64,
    /// Conductivity as laid, W/(m·K): pressed wools and cold polyisocyanurate counted.
    pub conductivity: Interval,
    /// The thickness of still air that would hold back as much vapour, m, where it is known.
    pub vapour: Option<Interval>,
    /// Whether it holds heat.
    pub insulates: bool,
    /// Whether it is of metal.
    pub metal: bool,
    /// Whether it is a wool.
    pub fibrous: bool,
}

impl Laid {
    /// Thermal resistance, m²·K/W.
    pub fn resistance(&self) -> Result<Interval, calc::InputError> {
        calc::heat::layer_resistance(self.thickness, self.conductivity)
    }
}

/// Other words for the materials of the table.
const ALSO: [(&str, &str); 30] = [
    ("aluminium", "aluminium-alloy"),
    ("aluminum", "aluminium-alloy"),
    ("galvanised-steel", "steel"),
    ("grp", "glass-fibre-polyester"),
    ("fibreglass", "glass-fibre-polyester"),
    ("fiberglass", "glass-fibre-polyester"),
    ("pir", "polyisocyanurate"),
    ("polyiso", "polyisocyanurate"),
    ("pur", "polyurethane-board"),
    ("polyurethane", "polyurethane-board"),
    ("spray-foam", "polyurethane-spray"),
    ("xps", "extruded-polystyrene"),
    ("eps", "expanded-polystyrene"),
    ("polyethylene", "polyethylene-foam"),
    ("closed-cell-foam", "elastomeric-foam"),
    ("rubber-foam", "elastomeric-foam"),
    ("rock-wool", "mineral-wool"),
    ("stone-wool", "mineral-wool"),
    ("glass-wool", "mineral-wool"),
    ("wool", "sheep-wool"),
    ("cork", "expanded-cork"),
    ("ply", "plywood"),
    ("birch-plywood", "plywood"),
    ("poplar-plywood", "plywood"),
    ("spruce", "softwood"),
    ("pine", "softwood"),
    ("oak", "hardwood"),
    ("beech", "hardwood"),
    ("vinyl", "pvc"),
    ("pmma", "acrylic"),
];

/// The word for still air between layers.
const AIR: &str = "air";

/// What counts as insulation, W/(m·K), and what as metal.
const INSULATION_BELOW: f64 = 0.1;
const METAL_ABOVE: f64 = 10.0;

/// The material of that word.
fn known(word: &str) -> Option<&'static Material> {
    calc::heat::material(word).or_else(|| {
        let (_, name) = ALSO.iter().find(|(also, _)| *also == word)?;
        calc::heat::material(name)
    })
}

/// The conductivity of a material by its word, W/(m·K).
pub fn conductivity(word: &str) -> Option<Interval> {
    known(&word.trim().to_lowercase().replace([' ', '_'], "-")).map(|material| material.conductivity)
}

/// The material's word in small letters with hyphens.
fn word(reader: &mut Reader<'_>, layer: PartId, case: CaseId) -> Outcome<String> {
    match reader.fact(layer, l::MATERIAL, case)? {
        Fact::Text(text) => Ok(text.trim().to_lowercase().replace([' ', '_'], "-")),
        _ => no_solution(layer, l::MATERIAL),
    }
}

/// The layers of a face, from the outside in.
///
/// # Errors
/// What is not known of any of them.
pub fn of(
    reader: &mut Reader<'_>,
    shell: PartId,
    flow: HeatFlow,
    mean: Outcome<f64>,
    case: CaseId,
) -> Outcome<Vec<Laid>> {
    let layers = reader.build().inside(shell, kind::LAYER);
    if !layers.complete {
        return Err(Gaps::one(Gap::Unread(shell)));
    }
    if layers.members.is_empty() {
        return Err(Gaps(vec![AnyOf(vec![Gap::Absent(shell, kind::LAYER), Gap::Entry(shell, f::shell::U)])]));
    }
    let mut laid = Vec::new();
    let mut gaps = Gaps::default();
    for &layer in layers.members.iter() {
        match one(reader, layer, flow, &mean, case) {
            Ok(one) => laid.push(one),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(laid) } else { Err(gaps) }
}

fn one(reader: &mut Reader<'_>, layer: PartId, flow: HeatFlow, mean: &Outcome<f64>, case: CaseId) -> Outcome<Laid> {
    let wrong = |fact| move |_| Gaps::one(Gap::Entry(layer, fact));
    let thickness = reader.need(layer, l::THICKNESS, case)?;
    let said = match reader.silent(layer, l::CONDUCTIVITY) {
        true => None,
        false => Some(reader.need(layer, l::CONDUCTIVITY, case)?),
    };
    let name = word(reader, layer, case)?;
    let (conductivity, material) = if let Some(said) = said {
        (Interval::exact(said).map_err(wrong(l::CONDUCTIVITY))?, known(&name))
    } else if name == AIR {
        let (resistance, source) = calc::heat::still_air_cavity(thickness, flow).map_err(wrong(l::THICKNESS))?;
        reader.step(|| {
            Step::cited(format!("still air, {}: {resistance:.2} m²K/W", show(thickness, Dimension::LENGTH)), source)
        });
        (Interval::exact(thickness / resistance).map_err(wrong(l::THICKNESS))?, None)
    } else if let Some(material) = known(&name) {
        (table(reader, layer, material, thickness, mean, case)?, Some(material))
    } else {
        // What nobody knows may be said.
        return Err(super::any_of([(layer, l::CONDUCTIVITY), (layer, l::MATERIAL)]));
    };
    let vapour = match (reader.silent(layer, l::HOLDS_VAPOUR), material) {
        (false, _) => {
            Some(Interval::exact(reader.need(layer, l::HOLDS_VAPOUR, case)?).map_err(wrong(l::HOLDS_VAPOUR))?)
        }
        (true, Some(material)) => match material.vapour_resistance {
            Some(factor) => Some(factor.times(thickness).map_err(wrong(l::THICKNESS))?),
            None => None,
        },
        (true, None) if name == AIR => Some(Interval::exact(thickness).map_err(wrong(l::THICKNESS))?),
        (true, None) => None,
    };
    Ok(Laid {
        thickness,
        conductivity,
        vapour,
        insulates: conductivity.most() < INSULATION_BELOW,
        metal: conductivity.least() > METAL_ABOVE,
        fibrous: material.is_some_and(|material| material.fibrous),
    })
}

/// The conductivity of a material of the table as it is laid, W/(m·K).
fn table(
    reader: &mut Reader<'_>,
    layer: PartId,
    material: &'static Material,
    thickness: f64,
    mean: &Outcome<f64>,
    case: CaseId,
) -> Outcome<Interval> {
    let wrong = |fact| move |_| Gaps::one(Gap::Entry(layer, fact));
    let mut conductivity = material.conductivity;
    reader.step(|| {
        let range = if conductivity.is_exact() {
            format!("{}", conductivity.least())
        } else {
            format!("{} to {}", conductivity.least(), conductivity.most())
        };
        Step::cited(
            format!("{}, {}: {range} W/mK", material.name, show(thickness, Dimension::LENGTH)),
            material.citation,
        )
    });
    if material.name == "polyisocyanurate" {
        let mean = mean.clone()?;
        let factor = calc::heat::polyisocyanurate_factor_bounds(mean).map_err(wrong(l::MATERIAL))?;
        conductivity = Interval::new(conductivity.least() * factor.least(), conductivity.most() * factor.most())
            .map_err(wrong(l::MATERIAL))?;
        reader.step(|| {
            Step::cited(
                format!(
                    "worse in the cold: × {:.2} to {:.2} at {} in its middle",
                    factor.least(),
                    factor.most(),
                    crate::methods::celsius(mean)
                ),
                &calc::heat::POLYISOCYANURATE_IN_COLD,
            )
        });
    }
    if material.fibrous && !reader.silent(layer, l::NOMINAL) {
        let nominal = reader.need(layer, l::NOMINAL, case)?;
        if nominal > thickness {
            let (kept, source) =
                calc::heat::resistance_kept(thickness / nominal, Pressing::EvenBatt).map_err(wrong(l::NOMINAL))?;
            // What it keeps counts for its full thickness: as laid it conducts so much.
            conductivity = conductivity.times(thickness / nominal / kept).map_err(wrong(l::NOMINAL))?;
            reader.step(|| {
                let text = format!(
                    "pressed from {} to {}: it keeps {} of its resistance",
                    show(nominal, Dimension::LENGTH),
                    show(thickness, Dimension::LENGTH),
                    show(kept, Dimension::RATIO)
                );
                Step::cited(text, source)
            });
        }
    }
    Ok(conductivity)
}

/// Heat that the layers inside of the outermost insulation hold, J/(m²·K): at the least, of what is known; at the most, with their greatest
/// densities. Insulation itself counts for half of its own, since its outside stays cold.
///
/// # Errors
/// What is not known of the thickness of a layer.
pub fn stored(reader: &mut Reader<'_>, shell: PartId, case: CaseId) -> Outcome<(f64, f64)> {
    let layers = reader.build().inside(shell, kind::LAYER);
    if !layers.complete {
        return Err(Gaps::one(Gap::Unread(shell)));
    }
    let mut within = false;
    let mut sum = (0.0, 0.0);
    for &layer in layers.members.iter() {
        let name = word(reader, layer, case)?;
        let Some(material) = known(&name) else { continue };
        let insulates = material.conductivity.most() < INSULATION_BELOW;
        within |= insulates;
        let (true, Some(density), Some(heat)) = (within, material.density, material.specific_heat) else { continue };
        let each = reader.need(layer, l::THICKNESS, case)? * heat * if insulates { 0.5 } else { 1.0 };
        sum.0 += each * density.least();
        sum.1 += each * density.most();
    }
    Ok(sum)
}

/// Whether a material by its word is a metal that rusts.
pub fn rusts(word: &str) -> bool {
    known(&word.trim().to_lowercase().replace([' ', '_'], "-")).is_some_and(|material| material.name == "steel")
}

/// The specific heat of a material by its word, J/(kg·K).
pub fn specific_heat(word: &str) -> Option<f64> {
    known(&word.trim().to_lowercase().replace([' ', '_'], "-"))?.specific_heat
}

#[cfg(test)]
mod tests {
    use super::ALSO;

    #[test]
    fn every_other_word_leads_to_a_material_and_is_none_itself() {
        for (also, name) in ALSO {
            assert!(calc::heat::material(name).is_some(), "{also} leads to {name}");
            assert!(calc::heat::material(also).is_none(), "{also} is in the table itself");
        }
    }
}
