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

    /// How many values a fact of these axes has.
    pub fn width(&self, axes: Axes) -> usize {
        let span = |axis: Axes, names: &[String]| if axes.covers(axis) { names.len() } else { 1 };
        span(Axes::MODE, &self.modes) * span(Axes::CLIMATE, &self.climates) * span(Axes::FILL, &self.fills)
    }

    /// Which of the values of a fact of these axes a case asks for, from 0.
    pub fn place(&self, case: CaseId, axes: Axes) -> usize {
        if axes == Axes::NONE || self.count() == 1 {
            return 0;
        }
        let (mode, climate, fill) = self.coordinates(case);
        let mut place = 0;
        for (axis, names, index) in
            [(Axes::MODE, &self.modes, mode), (Axes::CLIMATE, &self.climates, climate), (Axes::FILL, &self.fills, fill)]
        {
            if axes.covers(axis) {
                place = place * names.len() + index;
            }
        }
        place
    }

    /// The fill of a case, counted from 0.
    pub fn fill(&self, case: CaseId) -> usize {
        self.coordinates(case).2
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
        // A fact keeps as many values as it has of its own.
        assert_eq!((cases.width(Axes::CLIMATE), cases.place(last, Axes::CLIMATE)), (2, 1));
        assert_eq!((cases.width(Axes::NONE), cases.place(last, Axes::NONE)), (1, 0));
    }
}
