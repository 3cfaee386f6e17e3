//! What can be asked for.

use crate::commands::changes::Changes;
use crate::commands::completions::Completions;
use crate::commands::manual::Manual;
use crate::commands::packet::Packet;
use crate::commands::report_problem::ReportProblem;
use crate::commands::review::Review;
use crate::commands::start::Start;
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Checks the build specification of a vehicle conversion for what would hurt someone, break, or cost a day in the shop.
#[derive(Debug, Parser)]
#[command(name = "coachwright", version, long_version = long_version(), after_help = report::CAUTION)]
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
    Review(Box<Review>),
    /// Explain a rule, its sources and its examples; without a name, list the rules by domain
    Why(Why),
    /// Show the facts of a part and how they were worked out
    Working(Working),
    /// Write the papers of a build: drawings, schedules, budgets, test sheets, the owner's sheet
    Packet(Packet),
    /// Show what differs between two revisions of a build: parts, masses, energy, cost, findings, documents to issue again
    Changes(Changes),
    /// Show the modes of a build: what stays live when a disconnect opens, what dies when a battery's management cuts off
    Modes(Modes),
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

/// `modes`
#[derive(Debug, Args)]
pub struct Modes {
    /// The specification
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,
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

/// The version, with the rule packs inside and their editions.
fn long_version() -> &'static str {
    static TEXT: std::sync::OnceLock<String> = std::sync::OnceLock::new();
    TEXT.get_or_init(|| {
        let mut text = format!("{}\nRule packs:", env!("CARGO_PKG_VERSION"));
        for pack in packs::editions() {
            text.push_str(&format!("\n  {:<6} {} ({} rules)", pack.name, pack.edition, pack.rules));
        }
        text
    })
}
