//! Which lines of a checked text still stand in the text as it is now, and where.

use crate::position::{Lines, number};

/// The lines that two texts share at their top and at their bottom. What lies between was edited.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Unchanged {
    top: usize,
    bottom: usize,
    before: usize,
    now: usize,
}

impl Unchanged {
    /// Between a text as it was checked and as it is now.
    pub fn between(before: &str, now: &str) -> Self {
        if before == now {
            return Self { top: usize::MAX, bottom: 0, before: 0, now: 0 };
        }
        let (old, new) = (Lines::of(before), Lines::of(now));
        let same = |one: usize, other: usize| {
            let one = old.line(before, one).and_then(|at| before.get(at));
            one == new.line(now, other).and_then(|at| now.get(at))
        };
        let least = old.count().min(new.count());
        let top = (0..least).take_while(|line| same(*line, *line)).count();
        let bottom = (0..least - top).take_while(|line| same(old.count() - 1 - line, new.count() - 1 - line)).count();
        Self { top, bottom, before: old.count(), now: new.count() }
    }

    /// Where a line stands now, if it was not edited.
    pub fn line(&self, line: u32) -> Option<u32> {
        let line = usize::try_from(line).ok()?;
        if line < self.top {
            return Some(number(line));
        }
        let from_below = self.before.checked_sub(line + 1)?;
        (from_below < self.bottom).then(|| number(self.now - 1 - from_below))
    }

    /// Where a line stands now; an edited one where it most likely is: as many lines were put in as were taken out.
    pub fn place(&self, line: u32) -> Option<u32> {
        self.line(line).or_else(|| (self.before == self.now && (line as usize) < self.now).then_some(line))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_above_and_below_an_edit_are_found_again() {
        for (before, now, found) in [
            ("a\nb\nc", "a\nb\nc", vec![Some(0), Some(1), Some(2)]),
            ("a\nb\nc", "a\nx\ny\nb\nc", vec![Some(0), Some(3), Some(4)]),
            ("a\nb\nc", "a\nB\nc", vec![Some(0), None, Some(2)]),
            ("a\nb\nc", "a\nc", vec![Some(0), None, Some(1)]),
            ("a\na\na", "a\na", vec![Some(0), Some(1), None]),
            ("a\r\nb", "a\nb", vec![Some(0), Some(1)]),
            ("a", "", vec![None]),
            ("", "größe\n", vec![Some(1)]),
        ] {
            let unchanged = Unchanged::between(before, now);
            let lines: Vec<Option<u32>> = (0..found.len()).map(|line| unchanged.line(number(line))).collect();
            assert_eq!(lines, found, "{before:?} {now:?}");
        }
    }

    #[test]
    fn a_line_that_is_edited_in_its_place_stays_there() {
        let unchanged = Unchanged::between("a\nb\nc", "a\nB\nc");
        assert_eq!(unchanged.place(1), Some(1));
        assert_eq!(unchanged.place(3), None);
        assert_eq!(Unchanged::between("a\nb\nc", "a\nB\nx\nc").place(1), None);
    }
}
