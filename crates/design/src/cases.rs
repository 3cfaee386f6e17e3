//! The cases of a build: every mode, climate and fill that its facts may differ by.

use crate::known::CaseId;
use std::sync::Arc;
use vocabulary::Axes;

/// The cases: the product of modes, climates and fills. Case 0 is the first of each.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Cases {
    modes: Arc<[String]>,
    climates: Arc<[String]>,
    fills: Arc<[String]>,
}

impl Default for Cases {
    fn default() -> Self {
        Self::new(Vec::new(), Vec::new(), Vec::new())
    }
}

impl Cases {
    /// From the names along each axis; an empty axis counts as one without a name.
    pub fn new(modes: Vec<String>, climates: Vec<String>, fills: Vec<String>) -> Self {
        let or_one = |names: Vec<String>| if names.is_empty() { vec![String::new()] } else { names };
        Self { modes: or_one(modes).into(), climates: or_one(climates).into(), fills: or_one(fills).into() }
    }

    /// How many cases there are.
    pub fn count(&self) -> usize {
        self.modes.len() * self.climates.len() * self.fills.len()
    }

    /// How many cases facts of these axes differ among.
    pub fn count_among(&self, axes: Axes) -> usize {
        let span = |axis: Axes, names: &[String]| if axes.covers(axis) { names.len() } else { 1 };
        span(Axes::MODE, &self.modes) * span(Axes::CLIMATE, &self.climates) * span(Axes::FILL, &self.fills)
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

    /// The place of a case among those that facts of these axes differ among, from 0 to below [`Self::count_among`].
    pub fn place(&self, case: CaseId, axes: Axes) -> usize {
        if axes == Axes::NONE || self.count() == 1 {
            return 0;
        }
        let (mode, climate, fill) = self.coordinates(case);
        let step = |axis: Axes, names: &[String], index: usize, so_far: usize| {
            if axes.covers(axis) { so_far * names.len() + index } else { so_far }
        };
        let place = step(Axes::MODE, &self.modes, mode, 0);
        step(Axes::FILL, &self.fills, fill, step(Axes::CLIMATE, &self.climates, climate, place))
    }

    /// The case that stands for `case` among facts of these axes.
    pub fn project(&self, case: CaseId, axes: Axes) -> CaseId {
        if case == CaseId(0) || self.count() == 1 {
            return CaseId(0);
        }
        let (mode, climate, fill) = self.coordinates(case);
        let keep = |axis: Axes, index: usize| if axes.covers(axis) { index } else { 0 };
        self.number(keep(Axes::MODE, mode), keep(Axes::CLIMATE, climate), keep(Axes::FILL, fill))
    }

    /// The number of a case's mode.
    pub fn mode(&self, case: CaseId) -> usize {
        self.coordinates(case).0
    }

    /// The case of a mode in the first climate and fill.
    pub fn of_mode(&self, mode: usize) -> CaseId {
        self.number(mode.min(self.modes.len() - 1), 0, 0)
    }

    /// The fill of a case, counted from 0.
    pub fn fill(&self, case: CaseId) -> usize {
        self.coordinates(case).2
    }

    /// The climate of a case; empty where the build has only one.
    pub fn climate(&self, case: CaseId) -> &str {
        self.climates.get(self.coordinates(case).1).map_or("", String::as_str)
    }

    /// The case in words, as far as these axes go; empty where nothing differs.
    pub fn title(&self, case: CaseId, axes: Axes) -> String {
        let (mode, climate, fill) = self.coordinates(case);
        let named = |axis: Axes, names: &[String], index: usize| {
            names.get(index).filter(|name| axes.covers(axis) && !name.is_empty()).cloned()
        };
        let mode = named(Axes::MODE, &self.modes, mode).map(|name| format!("in mode \"{name}\""));
        let others = [named(Axes::CLIMATE, &self.climates, climate), named(Axes::FILL, &self.fills, fill)];
        mode.into_iter().chain(others.into_iter().flatten()).collect::<Vec<_>>().join(", ")
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
        let both = Axes::MODE.and(Axes::CLIMATE);
        assert_eq!(cases.among(both).len(), 4);
        let last = CaseId(3);
        assert_eq!(cases.title(last, both), "in mode \"driving\", summer day");
        assert_eq!(cases.title(last, Axes::CLIMATE), "summer day");
        assert_eq!(cases.title(last, Axes::NONE), "");
    }

    #[test]
    fn each_case_has_a_place_of_its_own_among_those_of_its_axes() {
        let cases = Cases::new(names(&["parked", "driving", "shore"]), names(&["winter", "summer"]), names(&["full"]));
        for axes in [Axes::NONE, Axes::MODE, Axes::CLIMATE, Axes::MODE.and(Axes::CLIMATE)] {
            let places: Vec<usize> = cases.among(axes).into_iter().map(|case| cases.place(case, axes)).collect();
            assert_eq!(cases.count_among(axes), places.len());
            assert_eq!(places, (0..cases.count_among(axes)).collect::<Vec<_>>());
        }
    }
}
