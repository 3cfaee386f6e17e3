//! Hints behind what is written: the current of a circuit and what is lost on its way, the largest fault current at a
//! protective device, how long the batteries last, how much of an inverter is asked for.
//!
//! A hint keeps its width whatever its value, so that the text behind it stands still while values change. What is not known
//! gives no hint.

use crate::check::Checked;
use crate::position::{Encoding, Lines};
use crate::settings::Hints;
use crate::state::State;
use crate::unchanged::Unchanged;
use design::{Build, CaseId, PartId, Reader, Tri};
use rules::review::fact_used;
use spec::{Span, Via};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;
use tower_lsp::lsp_types::{InlayHint, InlayHintLabel, InlayHintTooltip, Range, Url};
use vocabulary::{FactId, fact as f, kind};

/// The case that always exists.
const CASE: CaseId = CaseId(0);

/// The blank that is as wide as a figure.
const FIGURE_SPACE: char = '\u{2007}';

/// Figures before the point: what they cannot hold is shown as more than all nines (chosen; each is beyond what is built).
const AMPERE_FIGURES: usize = 4;
const FAULT_FIGURES: usize = 5;
const VOLT_FIGURES: usize = 2;
const PERCENT_FIGURES: usize = 2;
const LOAD_FIGURES: usize = 3;
const DAY_FIGURES: usize = 3;

/// Hundredths of a whole.
const PERCENT: f64 = 100.0;

/// What a hint tells.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Sort {
    /// Current and drop of a circuit or way.
    Circuit,
    /// The fault current at a device.
    Device,
    /// How long the batteries last.
    Battery,
    /// The load of an inverter.
    Inverter,
}

impl Sort {
    fn shown(self, hints: Hints) -> bool {
        match self {
            Self::Circuit => hints.circuits,
            Self::Device => hints.devices,
            Self::Battery => hints.batteries,
            Self::Inverter => hints.inverters,
        }
    }
}

/// A hint where it stood in the text that was checked.
#[derive(Debug)]
pub struct Kept {
    file: usize,
    line: u32,
    /// The bytes of the line before it.
    before: usize,
    sort: Sort,
    label: String,
    /// What it shows.
    facts: Vec<(PartId, FactId)>,
    /// How that was worked out, once somebody looked at it.
    working: OnceLock<String>,
}

/// The hints of a text within a range: of the last check, as far as their lines still stand in the text.
pub fn hints(state: &State, url: &Url, range: Range) -> Option<Vec<InlayHint>> {
    let document = state.documents.get(url).filter(|document| document.sound)?;
    let shown = state.client.hints;
    let checked = state.newest(url)?;
    let file = checked.file(url)?;
    let unchanged = Unchanged::between(&checked.review.files.get(file)?.text, &document.text);
    let own = checked.hints().iter().filter(|kept| kept.file == file && kept.sort.shown(shown));
    let mut reader = None;
    let hints = own.filter_map(|kept| {
        let line = unchanged.line(kept.line).filter(|line| range.start.line <= *line && *line <= range.end.line)?;
        let line = document.lines.line(&document.text, line as usize)?;
        let position =
            document.lines.position(&document.text, (line.start + kept.before).min(line.end), state.client.encoding);
        if position < range.start || range.end < position {
            return None;
        }
        // The working is made for what is looked at only: of a large build it is most of the text.
        let working = kept.working.get_or_init(|| {
            let reader = reader.get_or_insert_with(|| Reader::new(&checked.build));
            working(reader, &kept.facts, checked)
        });
        Some(InlayHint {
            position,
            label: InlayHintLabel::String(kept.label.clone()),
            kind: None,
            text_edits: None,
            tooltip: Some(InlayHintTooltip::String(working.clone())),
            padding_left: Some(true),
            padding_right: Some(true),
            data: None,
        })
    });
    Some(hints.collect())
}

/// The facts with how each was worked out, one a line; a step that several of them rest on is told once.
fn working(reader: &mut Reader<'_>, facts: &[(PartId, FactId)], checked: &Checked) -> String {
    let mut lines: Vec<String> = Vec::new();
    let mut told: BTreeSet<String> = BTreeSet::new();
    for (part, fact) in facts {
        let used = fact_used(reader, *part, *fact, CASE, checked.review.units);
        let value = used.value.as_deref().unwrap_or("unknown");
        lines.push(report::visible(&format!("{} of {}: {value}", used.fact, used.part)).into_owned());
        for step in used.working {
            let source = step.source.map_or(String::new(), |source| format!(" [{source}]"));
            let text = report::visible(&format!("{}{source}", step.text)).into_owned();
            if told.insert(text.clone()) {
                lines.push(format!("{}{text}", "  ".repeat(step.depth + 1)));
            }
        }
    }
    lines.join("\n")
}

/// The hints of a check, in the order of the text.
pub fn of_check(checked: &Checked) -> Vec<Kept> {
    let lines = checked.review.files.iter().map(|file| Lines::of(&file.text)).collect();
    let mut found = Found { checked, lines, reader: Reader::new(&checked.build), hints: Vec::new() };
    found.circuits();
    found.devices();
    found.batteries();
    found.inverters();
    let mut hints = found.hints;
    hints.sort_by_key(|kept| (kept.file, kept.line, kept.before));
    hints
}

struct Found<'a> {
    checked: &'a Checked,
    lines: Vec<Lines>,
    reader: Reader<'a>,
    hints: Vec<Kept>,
}

impl<'a> Found<'a> {
    fn build(&self) -> &'a Build {
        &self.checked.build
    }

    /// A known number; nothing when it is not known.
    fn known(&mut self, part: PartId, fact: FactId) -> Option<f64> {
        Some(self.reader.number(part, fact, CASE)).filter(|value| value.is_finite())
    }

    /// Whether a part stands in the text itself: what was taken over from a pattern stands there once for many parts.
    fn stands_here(&self, part: PartId) -> bool {
        !self.build().part(part).via.iter().any(|via| matches!(via, Via::Like(_)))
    }

    /// Puts a hint behind a place.
    fn put(&mut self, sort: Sort, at: &Span, label: String, facts: &[(PartId, FactId)]) {
        let file = at.file as usize;
        let (Some(lines), Some(text)) = (self.lines.get(file), self.checked.review.files.get(file)) else { return };
        let position = lines.position(&text.text, at.bytes.end as usize, Encoding::Utf8);
        let (line, before) = (position.line, position.character as usize);
        let (facts, working) = (facts.to_vec(), OnceLock::new());
        self.hints.push(Kept { file, line, before, sort, label, facts, working });
    }

    fn circuits(&mut self) {
        let build = self.build();
        for run in &build.circuitry().runs {
            let written = build.part(run.written);
            if !matches!(written.kind, kind::CIRCUIT | kind::WAY) || !self.stands_here(run.written) {
                continue;
            }
            let Some(current) = self.known(run.part, f::run::DESIGN_CURRENT) else { continue };
            let mut label = format!("{} A", figures(current, AMPERE_FIGURES, 1));
            let mut facts = vec![(run.part, f::run::DESIGN_CURRENT)];
            let drop = self.known(run.part, f::run::DROP);
            let nominal = self.known(run.part, f::run::NOMINAL_VOLTAGE).filter(|nominal| *nominal > 0.0);
            if let Some((drop, nominal)) = drop.zip(nominal) {
                let share = figures(drop / nominal * PERCENT, PERCENT_FIGURES, 1);
                label.push_str(&format!(", {} V, {share} %", figures(drop, VOLT_FIGURES, 2)));
                facts.extend([(run.part, f::run::DROP), (run.part, f::run::NOMINAL_VOLTAGE)]);
            }
            self.put(Sort::Circuit, &written.room, label, &facts);
        }
    }

    fn devices(&mut self) {
        let build = self.build();
        for &device in build.of_kind(kind::DEVICE).members.iter() {
            let written = build.circuitry().written(device);
            if !self.stands_here(written) {
                continue;
            }
            let Some(current) = self.known(device, f::device::FAULT_CURRENT) else { continue };
            // The device of a way or a board is a property, and the hint stands behind its value.
            let own = build.part(written);
            let of_its_own = matches!(own.kind, kind::FUSE | kind::BREAKER);
            let at = if of_its_own { &own.room } else { &build.part(device).head };
            let label = format!("fault {} A", figures(current, FAULT_FIGURES, 0));
            self.put(Sort::Device, at, label, &[(device, f::device::FAULT_CURRENT)]);
        }
    }

    /// How long the batteries that the conversion fits last together: at the first of them.
    fn batteries(&mut self) {
        let build = self.build();
        let Some(week) = build.only(kind::WEEK) else { return };
        let Some(autonomy) = self.known(week, f::week::AUTONOMY) else { return };
        let fitted = self.reader.parts(Build::ROOT, f::build::FITTED_BATTERIES, CASE);
        let Some(first) = fitted.members.first().copied() else { return };
        let whose = if fitted.members.len() > 1 { "all last" } else { "lasts" };
        let label = format!("{whose} {} d", figures(autonomy / calc::DAY_SECONDS, DAY_FIGURES, 1));
        let facts = [f::week::AUTONOMY, f::week::USABLE_ENERGY, f::week::ENERGY_A_DAY];
        self.put(Sort::Battery, &build.part(first).room, label, &facts.map(|fact| (week, fact)));
    }

    /// The largest share of its rating that a set of things that run together takes from an inverter. A set that may load an
    /// inverter by an unknown power leaves every inverter's load unknown.
    fn inverters(&mut self) {
        let build = self.build();
        let mut loads: BTreeMap<PartId, (f64, PartId)> = BTreeMap::new();
        for &set in build.of_kind(kind::TOGETHER).members.iter() {
            match self.reader.flag(set, f::together::ON_INVERTER, CASE) {
                Tri::No => continue,
                Tri::Unknown => return,
                Tri::Yes => {}
            }
            let power = self.known(set, f::together::INVERTER_POWER);
            let rating = self.known(set, f::together::INVERTER_RATING).filter(|rating| *rating > 0.0);
            let Some((power, rating)) = power.zip(rating) else { return };
            let Some(inverter) = self.inverter_of(set, rating) else { continue };
            let share = power / rating;
            if loads.get(&inverter).is_none_or(|(most, _)| share > *most) {
                loads.insert(inverter, (share, set));
            }
        }
        for (inverter, (share, set)) in loads {
            let label = format!("load {} %", figures(share * PERCENT, LOAD_FIGURES, 0));
            let facts = [(set, f::together::INVERTER_POWER), (set, f::together::INVERTER_RATING)];
            self.put(Sort::Inverter, &build.part(inverter).room, label, &facts);
        }
    }

    /// The inverter that a set loads most: the only one with the rating that the set is measured by.
    fn inverter_of(&mut self, set: PartId, rating: f64) -> Option<PartId> {
        let read = self.reader.working(set, f::together::INVERTER_RATING, CASE).read;
        let mut inverters: Vec<PartId> = Vec::new();
        for (part, fact) in read {
            let is_power = fact == f::inverter::POWER || fact == f::inverter_charger::POWER;
            if is_power && self.known(part, fact) == Some(rating) && !inverters.contains(&part) {
                inverters.push(part);
            }
        }
        match inverters.as_slice() {
            [only] => Some(*only),
            _ => None,
        }
    }
}

/// A number that always takes the same width: so many figures before the point and behind it, blanks as wide as figures before
/// them. More than that is shown as more than all nines; a sign has room.
fn figures(value: f64, before: usize, behind: usize) -> String {
    let width = before + 1 + behind;
    let text = format!("{value:.behind$}");
    let beyond = || format!("{}{}", if value < 0.0 { '<' } else { '>' }, "9".repeat(before));
    let text = if text.len() <= width && text.split('.').next().is_some_and(|whole| whole.len() <= before) {
        text
    } else {
        beyond()
    };
    let blanks = width.saturating_sub(text.chars().count());
    std::iter::repeat_n(FIGURE_SPACE, blanks).chain(text.chars()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_has_the_same_width_whatever_it_is() {
        for (value, before, behind, shown) in [
            (12.34, 4, 1, "  12.3"),
            (0.0, 4, 1, "   0.0"),
            (9999.94, 4, 1, "9999.9"),
            (9999.96, 4, 1, " >9999"),
            (2.44, 2, 1, " 2.4"),
            (100.0, 2, 1, " >99"),
            (2310.4, 5, 0, "  2310"),
            (123_456.0, 5, 0, ">99999"),
            (-3.2, 4, 1, "  -3.2"),
        ] {
            let shown = shown.replace(' ', "\u{2007}");
            assert_eq!(figures(value, before, behind), shown, "{value}");
            assert_eq!(shown.chars().count(), before + behind + 1, "{value}");
        }
    }
}
