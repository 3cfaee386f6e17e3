//! What can be asked for.

use crate::commands::completions::Completions;
use crate::commands::manual::Manual;
use crate::commands::report_problem::ReportProblem;
use crate::commands::start::Start;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, Parser, Subcommand, ValueEnum};
use jiff::civil::Date;
use rules::Signal;
use std::path::PathBuf;

/// Checks the build specification of a vehicle conversion for what would hurt someone, break, or cost a day in the shop.
#[derive(Debug, Parser)]
#[command(name = "coachwright", version, after_help = report::CAUTION)]
pub struct CommandLine {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
    /// Whether to colour what is shown.
    #[arg(long, global = true, value_enum, default_value = "auto", alias = "color", value_name = "WHEN")]
    pub colour: Colour,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Show what the rules find in specifications
    #[command(
        after_help = "Exit status: 0 nothing holds the build; 1 it is held; 2 a specification could not be read."
    )]
    Review(Review),
    /// Explain a rule, its sources and its examples; without a name, list the rules by domain
    Why(Why),
    /// Show the facts of a part and how they were worked out
    Working(Working),
    /// Lay out the text of specifications, keeping every comment
    Tidy(Tidy),
    /// Serve an editor: the Language Server Protocol over standard input and output
    LanguageServer,
    /// Prove rule packs by their examples; without a name, those that come with the tool
    Prove(Prove),
    /// Begin a specification: asks a few questions, or takes the answers as options, and writes a draft
    Start(Box<Start>),
    /// Write what a report of a problem with this tool needs, the specification blanked; nothing is sent
    ReportProblem(ReportProblem),
    /// Print what a shell needs to complete commands and options
    Completions(Completions),
    /// Write the manual pages of the commands into a folder
    Manual(Manual),
}

/// `review`
#[derive(Debug, Args)]
pub struct Review {
    /// The specifications
    #[arg(required = true, value_name = "SPEC")]
    pub specs: Vec<PathBuf>,
    /// For whom: a terminal, a listener, or a program (one JSON document a line for each specification)
    #[arg(long = "as", value_enum, default_value = "terminal", value_name = "FORM")]
    pub form: ReviewForm,
    /// The least signal word at which a failed check holds the build
    #[arg(long, default_value = "warning", value_name = "WORD", value_parser = signal())]
    pub hold_at: Signal,
    /// Treat the build as a draft: undecided checks do not hold it
    #[arg(long)]
    pub draft: bool,
    /// The day on which waivers are judged, as 2026-03-14; without it, today
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
}

/// `why`
#[derive(Debug, Args)]
pub struct Why {
    /// The rule's name, as findings give it; or a domain, the first half of such a name
    #[arg(value_name = "RULE")]
    pub rule: Option<String>,
    /// For whom
    #[arg(long = "as", value_enum, default_value = "terminal", value_name = "FORM")]
    pub form: Form,
}

/// `working`
#[derive(Debug, Args)]
pub struct Working {
    /// The specification
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,
    /// The part: its name, or its kind when there is one of it, or both: 'circuit "house main"'
    #[arg(value_name = "PART")]
    pub part: String,
    /// One fact only
    #[arg(value_name = "FACT")]
    pub fact: Option<String>,
    /// For whom
    #[arg(long = "as", value_enum, default_value = "terminal", value_name = "FORM")]
    pub form: Form,
}

/// `tidy`
#[derive(Debug, Args)]
pub struct Tidy {
    /// The specifications
    #[arg(required = true, value_name = "SPEC")]
    pub specs: Vec<PathBuf>,
    /// Change nothing; exit with 1 when something would be changed
    #[arg(long)]
    pub check: bool,
    /// For whom
    #[arg(long = "as", value_enum, default_value = "terminal", value_name = "FORM")]
    pub form: Form,
}

/// `prove`
#[derive(Debug, Args)]
pub struct Prove {
    /// Rule files, or folders of them
    #[arg(value_name = "PACK")]
    pub packs: Vec<PathBuf>,
    /// Also try slightly wrong versions of every rule: an example must notice each
    #[arg(long)]
    pub hard: bool,
    /// For whom
    #[arg(long = "as", value_enum, default_value = "terminal", value_name = "FORM")]
    pub form: Form,
}

/// For whom a review is written.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub enum ReviewForm {
    /// Someone at a terminal
    Terminal,
    /// Someone who listens, or a file
    Plain,
    /// A program
    Json,
}

/// For whom a text is written.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub enum Form {
    /// Someone at a terminal
    Terminal,
    /// Someone who listens, or a file
    Plain,
}

/// When to colour.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub enum Colour {
    /// On a terminal, unless NO_COLOR is set
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

fn signal() -> impl TypedValueParser<Value = Signal> {
    PossibleValuesParser::new(Signal::ALL.iter().rev().map(|signal| signal.word()))
        .try_map(|word| Signal::from_word(&word).ok_or("no signal word"))
}

/// Length of a day written as 2026-03-14.
const DATE_LENGTH: usize = 10;

fn date(text: &str) -> Result<Date, String> {
    // The library also reads times and shorter forms; a day in a command is written in one way only.
    if text.len() != DATE_LENGTH || !text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'-') {
        return Err(String::from("write the day as year-month-day, 2026-03-14"));
    }
    text.parse().map_err(|_| String::from("there is no such day: write it as year-month-day, 2026-03-14"))
}
