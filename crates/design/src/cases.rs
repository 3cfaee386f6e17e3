//! The cases of a build: every mode, climate and fill that its facts may differ by.

use crate::known::CaseId;
use vocabulary::Axes;

/// The cases: the product of modes, climates and fills. Case 0 is the first of each.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Cases {
    modes: Vec<String>,
    climates: Vec<String>,
    fills: Vec<String>,
}

impl Default for Cases {
    fn default() -> Self {
        Self::new(vec![String::new()], vec![String::new()], vec![String::new()])
    }
}

impl Cases {
    /// From the names along each axis; an empty axis counts as one without a name.
    pub fn new(modes: Vec<String>, climates: Vec<String>, fills: Vec<String>) -> Self {
        let or_one = |names: Vec<String>| if names.is_empty() { vec![String::new()] } else { names };
        Self { modes: or_one(modes), climates: or_one(climates), fills: or_one(fills) }
    }

    /// How many cases there are.
    pub fn count(&self) -> usize {
        self.modes.len() * self.climates.len() * self.fills.len()
    }

    /// The representative cases among which facts of these axes differ: the first case of every other axis.
    pub fn among(&self, axes: Axes) -> Vec<CaseId> {
        let span = |axis: Axes, names: &[String]| if axes.covers(axis) { names.len() } else { 1 };
        let mut cases = Vec::new();
        for mode in 0..span(Axes::MODE, &self.modes) {
            for climate in 0..span(Axes::CLIMATE, &self.climates) {
                for fill in 0..span(Axes::FILL, &self.fills) {
                    cases.push(self.number(mode, climate, fill));
                }
            }
        }
        cases
    }

    /// The case that stands for `case` among facts of these axes.
    pub fn project(&self, case: CaseId, axes: Axes) -> CaseId {
        if self.count() == 1 {
            return CaseId(0);
        }
        let (mode, climate, fill) = self.coordinates(case);
        let keep = |axis: Axes, index: usize| if axes.covers(axis) { index } else { 0 };
        self.number(keep(Axes::MODE, mode), keep(Axes::CLIMATE, climate), keep(Axes::FILL, fill))
    }

    /// The climate of a case; empty where the build has only one.
    pub fn climate(&self, case: CaseId) -> &str {
        self.climates.get(self.coordinates(case).1).map_or("", String::as_str)
    }

    /// The case in words, along these axes alone: what does not differ by an axis is not of a case of it.
    pub fn title_among(&self, case: CaseId, axes: Axes) -> String {
        let (mode, climate, fill) = self.coordinates(case);
        [
            (Axes::MODE, self.modes.get(mode)),
            (Axes::CLIMATE, self.climates.get(climate)),
            (Axes::FILL, self.fills.get(fill)),
        ]
        .into_iter()
        .filter(|(axis, _)| axes.covers(*axis))
        .filter_map(|(_, name)| name.filter(|name| !name.is_empty()).cloned())
        .collect::<Vec<_>>()
        .join(", ")
    }

    /// The case in words; empty while only one exists.
    pub fn title(&self, case: CaseId) -> String {
        let (mode, climate, fill) = self.coordinates(case);
        [self.modes.get(mode), self.climates.get(climate), self.fills.get(fill)]
            .into_iter()
            .flatten()
            .filter(|name| !name.is_empty())
            .cloned()
            .collect::<Vec<_>>()
            .join(", ")
    }

    fn number(&self, mode: usize, climate: usize, fill: usize) -> CaseId {
        let number = (mode * self.climates.len() + climate) * self.fills.len() + fill;
        CaseId(u16::try_from(number).unwrap_or(0))
    }

    fn coordinates(&self, case: CaseId) -> (usize, usize, usize) {
        let number = usize::from(case.0);
        let fill = number % self.fills.len();
        let rest = number / self.fills.len();
        (rest / self.climates.len(), rest % self.climates.len(), fill)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(list: &[&str]) -> Vec<String> {
        list.iter().map(|name| (*name).to_owned()).collect()
    }

    #[test]
    fn a_fact_without_axes_has_one_case_and_one_with_two_axes_has_their_product() {
        let cases = Cases::new(names(&["parked", "driving"]), names(&["winter night", "summer day"]), Vec::new());
        assert_eq!(cases.count(), 4);
        assert_eq!(cases.among(Axes::NONE), [CaseId(0)]);
        assert_eq!(cases.among(Axes::MODE).len(), 2);
        assert_eq!(cases.among(Axes::MODE.and(Axes::CLIMATE)).len(), 4);
        let last = CaseId(3);
        assert_eq!(cases.title(last), "driving, summer day");
        assert_eq!(cases.title(cases.project(last, Axes::CLIMATE)), "parked, summer day");
    }
}
