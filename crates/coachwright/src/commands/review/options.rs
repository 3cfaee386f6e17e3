//! What a review can be asked for.

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{ArgMatches, Args, ValueEnum};
use jiff::civil::Date;
use report::MachineForm;
use rules::Signal;
use std::path::PathBuf;

/// `review`
#[derive(Debug, Args)]
#[command(
    after_help = "Exit status: 0 nothing holds a build; 1 one is held; 2 the tool could not do all of its work.\n\n\
        Of a folder every file that ends in .build.kdl and describes a build is reviewed, but for what .gitignore and .ignore \
        files leave out."
)]
pub struct Review {
    /// The specifications: files, folders, or patterns in quotes such as 'vans/**/*.build.kdl'
    #[arg(required = true, value_name = "SPEC")]
    pub specs: Vec<PathBuf>,
    /// For whom: a terminal, a listener, or a program; several are written in one run, each with its own --to
    #[arg(long = "as", value_enum, value_name = "FORM")]
    pub forms: Vec<ReviewForm>,
    /// The file for the form before it; one form may go without, to standard output
    #[arg(long = "to", value_name = "FILE")]
    pub targets: Vec<PathBuf>,
    /// The least signal word at which a failed check holds the build
    #[arg(long, default_value = "warning", value_name = "WORD", value_parser = signal())]
    pub hold_at: Signal,
    /// Treat the build as a draft: undecided checks do not hold it
    #[arg(long)]
    pub draft: bool,
    /// The day on which waivers are judged, as 2026-03-14; without it, today
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
    /// Take aside what was found at an earlier revision of git already: a branch, a tag or a commit
    #[arg(long, value_name = "REV", conflicts_with_all = ["known", "write_known"])]
    pub only_new_since: Option<String>,
    /// Take aside what a file of known findings lists
    #[arg(long, value_name = "FILE", conflicts_with = "write_known")]
    pub known: Option<PathBuf>,
    /// Write every finding into a file of known findings, for --known to take aside later
    #[arg(long, value_name = "FILE", conflicts_with_all = ["share", "watching"])]
    pub write_known: Option<PathBuf>,
    /// Review one share of the builds only, as 3/8: the third of eight
    #[arg(long, value_name = "N/M", value_parser = share)]
    pub share: Option<Share>,
    /// Go on, and review again what is saved, until stopped
    #[arg(long, conflicts_with = "targets")]
    pub watching: bool,
    /// The forms with their files, in order.
    #[arg(skip)]
    pub asked: Vec<Asked>,
}

/// One form that is asked for, and where it goes: standard output without a file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Asked {
    /// The form.
    pub form: ReviewForm,
    /// The file.
    pub to: Option<PathBuf>,
}

impl Review {
    /// Joins each form with the file behind it.
    ///
    /// # Errors
    /// In words: a file without a form, or two forms for standard output.
    pub fn join(&mut self, matches: &ArgMatches) -> Result<(), String> {
        let places = |name: &str| matches.indices_of(name).into_iter().flatten();
        let forms = places("forms").zip(self.forms.iter().map(|form| Word::Form(*form)));
        let targets = places("targets").zip(self.targets.iter().cloned().map(Word::To));
        let mut words: Vec<(usize, Word)> = forms.chain(targets).collect();
        words.sort_by_key(|(place, _)| *place);
        let mut asked: Vec<Asked> = Vec::new();
        for (_, word) in words {
            match word {
                Word::Form(form) => asked.push(Asked { form, to: None }),
                Word::To(to) => match asked.last_mut() {
                    Some(last @ Asked { to: None, .. }) => last.to = Some(to),
                    _ => {
                        return Err(format!(
                            "--to {} has no form: write it behind one, --as sarif --to {0}.",
                            to.display()
                        ));
                    }
                },
            }
        }
        if asked.is_empty() {
            asked.push(Asked { form: ReviewForm::Terminal, to: None });
        }
        let mut shown = asked.iter().filter(|one| one.to.is_none());
        if let (Some(one), Some(other)) = (shown.next(), shown.next()) {
            return Err(format!(
                "Only one form can go to standard output: say into which file {} or {} is to be written, --as {1} --to FILE.",
                one.form.word(),
                other.form.word()
            ));
        }
        self.asked = asked;
        Ok(())
    }
}

enum Word {
    Form(ReviewForm),
    To(PathBuf),
}

/// For whom a review is written.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub enum ReviewForm {
    /// Someone at a terminal
    Terminal,
    /// Someone who listens, or a file
    Plain,
    /// A program: one JSON document a line for each specification
    Json,
    /// A program: SARIF 2.1.0
    Sarif,
    /// A program: JUnit XML, the tests of a continuous integration
    Junit,
    /// GitLab: its report of code quality
    Gitlab,
    /// GitHub: annotations of a workflow
    Github,
    /// A summary in Markdown for a merge or pull request
    Markdown,
}

impl ReviewForm {
    /// The word by which it is asked for.
    pub fn word(self) -> String {
        self.to_possible_value().map(|value| value.get_name().to_owned()).unwrap_or_default()
    }

    /// The form of one document for all builds, if it is one.
    pub fn machine(self) -> Option<MachineForm> {
        match self {
            Self::Terminal | Self::Plain | Self::Json => None,
            Self::Sarif => Some(MachineForm::Sarif),
            Self::Junit => Some(MachineForm::Junit),
            Self::Gitlab => Some(MachineForm::Gitlab),
            Self::Github => Some(MachineForm::Github),
            Self::Markdown => Some(MachineForm::Markdown),
        }
    }
}

/// One share of the builds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Share {
    number: usize,
    of: usize,
}

impl Share {
    /// Whether the build at a place of the list, counted from 0, belongs to it.
    pub fn holds(self, place: usize) -> bool {
        place % self.of == self.number - 1
    }
}

fn share(text: &str) -> Result<Share, String> {
    let read = || {
        let (number, of) = text.split_once('/')?;
        let share = Share { number: number.parse().ok()?, of: of.parse().ok()? };
        (1..=share.of).contains(&share.number).then_some(share)
    };
    read().ok_or_else(|| String::from("write which share and of how many, the third of eight as 3/8"))
}

/// Reads a signal word.
pub fn signal() -> impl TypedValueParser<Value = Signal> {
    PossibleValuesParser::new(Signal::ALL.iter().rev().map(|signal| signal.word()))
        .try_map(|word| Signal::from_word(&word).ok_or("no signal word"))
}

/// Length of a day written as 2026-03-14.
const DATE_LENGTH: usize = 10;

/// Reads a day.
///
/// # Errors
/// In words: how to write it.
pub fn date(text: &str) -> Result<Date, String> {
    // The library also reads times and shorter forms; a day in a command is written in one way only.
    if text.len() != DATE_LENGTH || !text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'-') {
        return Err(String::from("write the day as year-month-day, 2026-03-14"));
    }
    text.parse().map_err(|_| String::from("there is no such day: write it as year-month-day, 2026-03-14"))
}
