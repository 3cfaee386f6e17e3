//! `report-problem`
use crate::output::Output;
use crate::status::Status;
use clap::Args;
/// `report-problem`
#[derive(Debug, Args)]
pub struct ReportProblem {
    /// The specification that shows the problem
    #[arg(value_name = "SPEC")]
    pub spec: Option<std::path::PathBuf>,
    /// The file to write; nothing is overwritten
    #[arg(long, value_name = "FILE")]
    pub to: std::path::PathBuf,
}
/// Runs.
pub fn run(_: &ReportProblem, _: &mut Output) -> Status {
    Status::Done
}
