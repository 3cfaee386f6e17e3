//! Which rules a build is judged by, and with which figures.

use super::Packs;
use crate::rule::{Rule, RuleValue};
use crate::signal::Region;

/// A rule with the figures that it takes in a region.
pub type Selected<'p> = (&'p Rule, Region, Vec<f64>);

impl Packs {
    /// The rules for a build, by name; a rule stands once for each distinct set of figures of the build's regions.
    ///
    /// `regions` are those of the build's basis. A rule of a pack that is no region's (any, practice, a shop's own) applies
    /// in each of them, and with none of them by its figures for everywhere; the pack of a region applies only where the
    /// basis has that region. `classes` are the words of the vehicle's class; with none the class is not known, and the
    /// rules of every class apply rather than none. The region of a rule is the first that has its figures, [`Region::Any`] where its figures
    /// are alike everywhere. A named value without a figure for a region leaves the rule out there.
    pub fn for_build(&self, regions: &[Region], classes: &[&str]) -> Vec<Selected<'_>> {
        let mut selected = Vec::new();
        for rule in &self.rules {
            if !rule.found_while_reading && for_classes(rule, classes) {
                selected.extend(select(rule, regions));
            }
        }
        selected
    }
}

/// Whether a rule is for a vehicle of these classes; one whose class is not known gets every rule.
pub fn for_classes(rule: &Rule, classes: &[&str]) -> bool {
    rule.classes.is_empty() || classes.is_empty() || rule.classes.iter().any(|class| classes.contains(&class.as_str()))
}

/// One rule with each distinct set of figures of these regions.
pub fn select<'p>(rule: &'p Rule, regions: &[Region]) -> Vec<Selected<'p>> {
    let places: Vec<Region> = match pack_region(rule) {
        Some(own) => regions.iter().copied().filter(|region| *region == own).collect(),
        None if regions.is_empty() => vec![Region::Any],
        None => regions.to_vec(),
    };
    let differs = pack_region(rule).is_some()
        || rule.values.iter().any(|value| value.figures.iter().any(|(region, ..)| *region != Region::Any));
    let mut selected: Vec<Selected> = Vec::new();
    for region in places {
        let Some(figures) = figures(rule, region) else {
            continue;
        };
        if selected.iter().any(|(_, _, others)| same(others, &figures)) {
            continue;
        }
        selected.push((rule, if differs { region } else { Region::Any }, figures));
    }
    selected
}

/// The region of the rule's pack, if its pack is one of a region.
pub fn pack_region(rule: &Rule) -> Option<Region> {
    Region::from_word(&rule.pack).filter(|region| *region != Region::Any)
}

/// The figure of each named value of a rule in a region; nothing where a value has none there.
pub fn figures(rule: &Rule, region: Region) -> Option<Vec<f64>> {
    rule.values.iter().map(|value| figure(value, region).map(|(_, value, _)| *value)).collect()
}

/// The figure of a named value in a region: its own, else that for everywhere.
pub fn figure(value: &RuleValue, region: Region) -> Option<&(Region, f64, String)> {
    let of = |wanted: Region| value.figures.iter().find(|(region, ..)| *region == wanted);
    of(region).or_else(|| of(Region::Any))
}

/// Figures are written, never worked out: equal ones are equal bit by bit.
fn same(some: &[f64], others: &[f64]) -> bool {
    some.len() == others.len() && some.iter().zip(others).all(|(one, other)| one.to_bits() == other.to_bits())
}
