//! Lenses for budgets: what a build comes to, above its first line; what a panel, a board or an inverter is asked for against
//! what it can give, above each of them. They tell and do nothing: their command has no name.

use crate::check::Checked;
use crate::position::{Encoding, Lines};
use crate::state::State;
use crate::unchanged::Unchanged;
use design::{Build, CaseId, PartId, Reader, Tri};
use rules::Signal;
use rules::review::fact_used;
use spec::{Span, Via};
use tower_lsp::lsp_types::{CodeLens, Command, Position, Range, Url};
use vocabulary::{FactId, fact as f, kind};

/// The case that always exists.
const CASE: CaseId = CaseId(0);

/// A lens where it stood in the text that was checked.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Kept {
    file: usize,
    line: u32,
    title: String,
}

/// The lenses of a text: of the last check. One whose line is being edited stays where it is, so that the lines below do not
/// jump with each key.
pub fn lenses(state: &State, url: &Url) -> Option<Vec<CodeLens>> {
    let document = state.documents.get(url).filter(|document| document.sound)?;
    let checked = state.newest(url)?;
    let file = checked.file(url)?;
    let unchanged = Unchanged::between(&checked.review.files.get(file)?.text, &document.text);
    let own = checked.lenses().iter().filter(|kept| kept.file == file);
    let lenses = own.filter_map(|kept| {
        let at = Position::new(unchanged.place(kept.line)?, 0);
        let command = Command { title: kept.title.clone(), command: String::new(), arguments: None };
        Some(CodeLens { range: Range::new(at, at), command: Some(command), data: None })
    });
    Some(lenses.collect())
}

/// The lenses of a check, in the order of the text.
pub fn of_check(checked: &Checked) -> Vec<Kept> {
    let lines = checked.review.files.iter().map(|file| Lines::of(&file.text)).collect();
    let mut found = Found { checked, lines, reader: Reader::new(&checked.build), lenses: Vec::new() };
    found.whole();
    for &panel in checked.build.of_kind(kind::PANEL).members.iter() {
        found.panel(panel);
    }
    for &board in checked.build.of_kind(kind::AC_BOARD).members.iter() {
        found.board(board);
    }
    for &set in checked.build.of_kind(kind::TOGETHER).members.iter() {
        found.set(set);
    }
    let mut lenses = found.lenses;
    lenses.sort_by_key(|kept| (kept.file, kept.line));
    lenses
}

/// A sum of currents, A, as far as they are known.
#[derive(Clone, Copy, Default)]
struct Sum {
    known: f64,
    unknown: usize,
    counted: usize,
}

impl Sum {
    fn add(&mut self, current: Option<f64>) {
        match current {
            Some(current) => {
                self.known += current;
                self.counted += 1;
            }
            None => self.unknown += 1,
        }
    }

    /// In words: what is not known may only add to it.
    fn words(self) -> String {
        let least = if self.unknown > 0 { "at least " } else { "" };
        format!("{least}{:.1} A", self.known)
    }
}

struct Found<'a> {
    checked: &'a Checked,
    lines: Vec<Lines>,
    reader: Reader<'a>,
    lenses: Vec<Kept>,
}

impl<'a> Found<'a> {
    fn build(&self) -> &'a Build {
        &self.checked.build
    }

    fn known(&mut self, part: PartId, fact: FactId) -> Option<f64> {
        Some(self.reader.number(part, fact, CASE)).filter(|value| value.is_finite())
    }

    /// A known fact in the reader's units.
    fn words(&mut self, part: PartId, fact: FactId) -> Option<String> {
        self.known(part, fact)?;
        fact_used(&mut self.reader, part, fact, CASE, self.checked.review.units).value
    }

    fn put(&mut self, at: &Span, title: String) {
        let file = at.file as usize;
        let (Some(lines), Some(text)) = (self.lines.get(file), self.checked.review.files.get(file)) else { return };
        let line = lines.position(&text.text, at.bytes.start as usize, Encoding::Utf8).line;
        self.lenses.push(Kept { file, line, title: report::visible(&title).into_owned() });
    }

    /// Above the build: the findings by signal word, and what its batteries are asked for.
    fn whole(&mut self) {
        let root = self.build().part(Build::ROOT);
        // A text that describes no build has no line of its own for it.
        if root.head.bytes.is_empty() {
            return;
        }
        let counts = &self.checked.review.counts;
        let mut words: Vec<String> = Signal::ALL
            .iter()
            .zip(counts.failed)
            .map(|(signal, count)| format!("{} {count}", signal.word()))
            .rev()
            .collect();
        words.push(format!("undecided {}", counts.undecided.iter().sum::<usize>()));
        self.put(&root.head, words.join(", "));
        let Some(week) = self.build().only(kind::WEEK) else { return };
        let Some(energy) = self.words(week, f::week::ENERGY_A_DAY) else { return };
        let autonomy = self.known(week, f::week::AUTONOMY);
        let lasts = autonomy.map(|time| format!(", batteries last {:.1} d", time / calc::DAY_SECONDS));
        self.put(&root.head, format!("{energy} a day{}", lasts.unwrap_or_default()));
    }

    /// The design currents of all that a panel or board feeds, each with the part by which it is written.
    fn fed(&mut self, panel: PartId) -> Vec<(PartId, Option<f64>)> {
        let fed = self.checked.feeds().feeds(panel);
        let runs = self.build().circuitry().runs.iter().filter(|run| fed.contains(&run.written));
        let runs: Vec<(PartId, PartId)> = runs.map(|run| (run.written, run.part)).collect();
        runs.into_iter().map(|(written, run)| (written, self.known(run, f::run::DESIGN_CURRENT))).collect()
    }

    /// Whether a part stands in the text itself, and not in a pattern that it was taken from.
    fn stands_here(&self, part: PartId) -> bool {
        !self.build().part(part).via.iter().any(|via| matches!(via, Via::Like(_)))
    }

    fn panel(&mut self, panel: PartId) {
        let mut sum = Sum::default();
        for (_, current) in self.fed(panel) {
            sum.add(current);
        }
        let of = self.words(panel, f::panel::RATING).map_or(String::new(), |rating| format!(" of {rating}"));
        self.currents(panel, &[sum], format!("design current {}{of}", sum.words()));
    }

    /// A board of alternating current: each leg by itself where it has two.
    fn board(&mut self, board: PartId) {
        let Some(legs) = self.known(board, f::ac_board::SUPPLY_LEGS) else { return };
        let most = match self.words(board, f::ac_board::MAIN) {
            Some(main) => Some(main),
            None => self.words(board, f::ac_board::RATING),
        };
        let of = most.map_or(String::new(), |most| format!(" of {most}"));
        let mut sums = [Sum::default(); 2];
        for (written, current) in self.fed(board) {
            match self.leg(written).filter(|_| legs > 1.0) {
                Some("one") => sums[0].add(current),
                Some("two") => sums[1].add(current),
                Some("both") => sums.iter_mut().for_each(|sum| sum.add(current)),
                // What may be on either leg is known of neither; a board of one leg has no other.
                _ if legs > 1.0 => sums.iter_mut().for_each(|sum| sum.add(None)),
                _ => sums[0].add(current),
            }
        }
        let [one, two] = sums;
        if legs > 1.0 {
            let title = format!("leg one {}, leg two {}{of}", one.words(), two.words());
            self.currents(board, &sums, title);
        } else {
            self.currents(board, &[one], format!("design current {}{of}", one.words()));
        }
    }

    fn leg(&mut self, written: PartId) -> Option<&'static str> {
        if self.build().part(written).kind != kind::WAY {
            return None;
        }
        let leg = self.reader.choice(written, f::way::LEG, CASE)?;
        vocabulary::fact_spec(f::way::LEG).choices().get(usize::from(leg)).copied()
    }

    /// A sum of which nothing is known is not shown.
    fn currents(&mut self, part: PartId, sums: &[Sum], title: String) {
        if self.stands_here(part) && sums.iter().any(|sum| sum.counted > 0) {
            self.put(&self.build().part(part).head, title);
        }
    }

    /// What a set takes from each sort of source that feeds it.
    fn set(&mut self, set: PartId) {
        for (on, source, takes, gives) in [
            (f::together::ON_SHORE, "shore", f::together::SHORE_CURRENT, f::together::SHORE_RATING),
            (f::together::ON_GENERATOR, "generator", f::together::GENERATOR_CURRENT, f::together::GENERATOR_RATING),
            (f::together::ON_INVERTER, "inverter", f::together::INVERTER_POWER, f::together::INVERTER_RATING),
        ] {
            if self.reader.flag(set, on, CASE) != Tri::Yes {
                continue;
            }
            let Some(takes) = self.words(set, takes) else { continue };
            let of = self.words(set, gives).map_or(String::new(), |gives| format!(" of {gives}"));
            self.put(&self.build().part(set).head, format!("{source} {takes}{of}"));
        }
    }
}
