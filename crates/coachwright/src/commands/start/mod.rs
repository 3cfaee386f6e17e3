//! `start`: a draft specification from a few answers.

mod answers;
mod draft;
mod mains;
mod sizes;
#[cfg(test)]
mod tests;

use super::shown;
use crate::engine;
use crate::files;
use crate::output::Output;
use crate::status::Status;
use answers::{Answers, QUESTIONS, Question};
use clap::Args;
use spec::SingleText;
use std::io::{BufRead, IsTerminal};
use std::path::{Path, PathBuf};

/// `start`
#[derive(Debug, Args)]
#[command(after_help = "On a terminal it asks for what no option answers. It overwrites nothing.")]
pub struct Start {
    /// The file to write; its name ends in .build.kdl
    #[arg(long, value_name = "FILE")]
    pub to: Option<PathBuf>,
    /// Ask even where there is no terminal: the answers are read from standard input, one a line
    #[arg(long)]
    pub ask: bool,
    /// The build's name
    #[arg(long, value_name = "TEXT")]
    pub name: Option<String>,
    /// Its class: van, motor-caravan, trailer, bus, work-vehicle or commercial-unit
    #[arg(long, value_name = "CLASS")]
    pub vehicle: Option<String>,
    /// By whose rules it is built: us, eu, uk or au-nz; or "eu uk"
    #[arg(long, value_name = "REGION")]
    pub region: Option<String>,
    /// The voltage of its battery and loads: "12 V", "24 V" or "48 V"
    #[arg(long, value_name = "VOLTAGE")]
    pub voltage: Option<String>,
    /// The battery: LFP, AGM, gel or flooded
    #[arg(long, value_name = "CHEMISTRY")]
    pub chemistry: Option<String>,
    /// The battery's capacity: "200 Ah"
    #[arg(long, value_name = "CHARGE")]
    pub capacity: Option<String>,
    /// Whether it is charged while driving: yes or no
    #[arg(long, value_name = "YES-OR-NO")]
    pub driving: Option<String>,
    /// Whether it is charged by solar modules: yes or no
    #[arg(long, value_name = "YES-OR-NO")]
    pub solar: Option<String>,
    /// The inverter: no, or its power, "1000 VA"
    #[arg(long, value_name = "POWER")]
    pub inverter: Option<String>,
    /// Whether it is connected to the mains of a site: yes or no
    #[arg(long, value_name = "YES-OR-NO")]
    pub shore: Option<String>,
    /// Whether gas is carried: yes or no
    #[arg(long, value_name = "YES-OR-NO")]
    pub gas: Option<String>,
    /// Whether there is water aboard: yes or no
    #[arg(long, value_name = "YES-OR-NO")]
    pub water: Option<String>,
    /// The heater: no, diesel, petrol or gas
    #[arg(long, value_name = "FUEL")]
    pub heater: Option<String>,
    /// The hob: no, gas, electric or alcohol
    #[arg(long, value_name = "FUEL")]
    pub cooking: Option<String>,
    /// How many people sleep aboard: 0 when nobody does
    #[arg(long, value_name = "COUNT")]
    pub sleeps: Option<String>,
    /// Whether there is a toilet: yes or no
    #[arg(long, value_name = "YES-OR-NO")]
    pub toilet: Option<String>,
    /// Whether seats for travelling are fitted or changed: yes or no
    #[arg(long, value_name = "YES-OR-NO")]
    pub seats: Option<String>,
}

impl Start {
    /// The options in the order of the questions.
    fn given(&self) -> [Option<&str>; 17] {
        [
            &self.name,
            &self.vehicle,
            &self.region,
            &self.voltage,
            &self.chemistry,
            &self.capacity,
            &self.driving,
            &self.solar,
            &self.inverter,
            &self.shore,
            &self.gas,
            &self.water,
            &self.heater,
            &self.cooking,
            &self.sleeps,
            &self.toilet,
            &self.seats,
        ]
        .map(Option::as_deref)
    }
}

/// Asks what is not given, writes the draft, and says what is to be filled in.
pub fn run(arguments: &Start, output: &mut Output) -> Status {
    let asks = arguments.ask || std::io::stdin().is_terminal();
    let mut lines = std::io::stdin().lock();
    match begin(arguments, asks.then_some(&mut lines as &mut dyn BufRead), output) {
        Ok(()) => Status::Done,
        Err(reason) => {
            output.complain(&reason);
            Status::Unable
        }
    }
}

fn begin(arguments: &Start, mut lines: Option<&mut dyn BufRead>, output: &mut Output) -> Result<(), String> {
    let lacking: Vec<&Question> =
        QUESTIONS.iter().zip(arguments.given()).filter(|(_, given)| given.is_none()).map(|(known, _)| known).collect();
    // A place that cannot be written to is told first: nobody answers in vain.
    let to = arguments.to.as_deref().map(place).transpose()?;
    if lines.is_none() && (to.is_none() || !lacking.is_empty()) {
        return Err(which_options(to.is_none(), &lacking));
    }
    let path = match to {
        Some(path) => path,
        None => loop {
            let name = asked("Into which file? (its name ends in .build.kdl, as my.build.kdl)", &mut lines, output)?;
            match place(Path::new(&name)) {
                Ok(path) => break path,
                Err(reason) => output.print(&format!("  {reason}\n")),
            }
        },
    };
    let mut answers = Answers::default();
    for (question, given) in QUESTIONS.iter().zip(arguments.given()) {
        match given {
            Some(text) => (question.take)(text.trim(), &mut answers).map_err(|reason| {
                format!("--{} cannot be \"{}\": {}.", question.option, report::visible(text), report::visible(&reason))
            })?,
            None => ask(question, &mut answers, &mut lines, output)?,
        }
    }
    let text = draft::write(&answers);
    files::create(&path, &text).map_err(|reason| format!("{} cannot be written: {reason}.", shown(&path)))?;
    output.print(&afterwards(&path, &text)?);
    Ok(())
}

/// Asks until the answer can be taken.
fn ask(
    question: &Question,
    answers: &mut Answers,
    lines: &mut Option<&mut dyn BufRead>,
    output: &mut Output,
) -> Result<(), String> {
    loop {
        let text = asked(&format!("{} ({})", question.words, question.choices), lines, output)?;
        match (question.take)(&text, answers) {
            Ok(()) => return Ok(()),
            Err(reason) => output.print(&format!("  That cannot be: {}.\n", report::visible(&reason))),
        }
    }
}

/// One line from whoever answers.
fn asked(words: &str, lines: &mut Option<&mut dyn BufRead>, output: &mut Output) -> Result<String, String> {
    output.print(&format!("{words}\n> "));
    let mut line = Vec::new();
    let ended = || format!("The answers ended at the question: {words} Nothing was written.");
    let lines = lines.as_mut().ok_or_else(ended)?;
    // A line that never ends would fill the memory.
    let read = std::io::Read::take(&mut **lines, LONGEST_LINE).read_until(b'\n', &mut line);
    match read {
        Ok(0) | Err(_) => {
            output.print("\n");
            Err(ended())
        }
        Ok(_) => Ok(String::from_utf8_lossy(&line).trim().to_owned()),
    }
}

/// The longest line that is read as one answer, bytes.
const LONGEST_LINE: u64 = 1000;

/// Which options to give where nobody can be asked.
fn which_options(to: bool, lacking: &[&Question]) -> String {
    let mut text = String::from(
        "There is no terminal to ask on. Give these options too (or --ask, to read answers from standard input):\n",
    );
    if to {
        text.push_str("  --to FILE: the file to write, as my.build.kdl\n");
    }
    for question in lacking {
        text.push_str(&format!("  --{}: {} {}\n", question.option, question.words, question.choices));
    }
    text.push_str("For example: coachwright start --to my.build.kdl");
    for question in QUESTIONS {
        let quote = if question.example.contains(' ') { "\"" } else { "" };
        text.push_str(&format!(" --{} {quote}{}{quote}", question.option, question.example));
    }
    text
}

/// The path of a file that can be written: looked at before the questions, so that nobody answers them in vain.
fn place(path: &Path) -> Result<PathBuf, String> {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    if !name.ends_with(".build.kdl") || name == ".build.kdl" {
        return Err(format!("{} cannot be written: end its name in .build.kdl, as my.build.kdl.", shown(path)));
    }
    match files::can_be_created(path) {
        Ok(()) => Ok(path.to_owned()),
        Err(reason) => Err(format!("{} cannot be written: {reason}.", shown(path))),
    }
}

/// What was written, what is to be filled in, and what to do next.
fn afterwards(path: &Path, text: &str) -> Result<String, String> {
    let name = path.to_string_lossy();
    let today = rules::Today::Asked(crate::surroundings::today);
    let options = rules::ReviewOptions { today, draft: false };
    let review = rules::review(&SingleText(text), &name, engine::shipped()?, options);
    let mut said = format!(
        "{} is written. It is a draft: {} checks are undecided until you fill in what is not known yet.\n\n",
        shown(path),
        review.undecided.len()
    );
    said.push_str("Fill in, where the text says `unknown`:\n");
    for (line, what) in open_entries(text) {
        said.push_str(&format!("  line {line:<4} {what}\n"));
    }
    said.push_str("\nOf these, the following settle most checks:\n");
    for entry in &review.settle {
        said.push_str(&format!("  {} ({} checks)\n", report::visible(&entry.entry), entry.checks));
    }
    said.push_str(&format!("\nNext: coachwright review {}\n\n{}\n", shown(path), report::CAUTION));
    Ok(said)
}

/// The lines that hold an unknown entry, counted from 1, with what is unknown and the comment that says where to find it.
fn open_entries(text: &str) -> Vec<(usize, String)> {
    text.lines()
        .enumerate()
        .filter_map(|(index, line)| {
            let (entries, comment) = line.split_once("// ")?;
            let unknown = unknown_entries(entries);
            (!unknown.is_empty()).then(|| (index + 1, format!("{unknown}: {comment}")))
        })
        .collect()
}

/// What is unknown in a line: the part, unless the entry stands on a line of its own, and the names of the entries.
fn unknown_entries(line: &str) -> String {
    let line = line.trim().trim_end_matches('{').trim();
    if let Some(name) = line.strip_suffix(" unknown") {
        return name.to_owned();
    }
    let names: Vec<&str> = line.split(' ').filter_map(|word| word.strip_suffix("=unknown")).collect();
    if names.is_empty() {
        return String::new();
    }
    // The head of a line ends where its first property begins.
    let head = line.find('=').and_then(|equals| line.get(..equals)).and_then(|head| head.rsplit_once(' '));
    format!("{} {}", head.map_or("", |(head, _)| head), names.join(", "))
}
