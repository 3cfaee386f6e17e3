//! `report-problem`: what a report of a problem with this tool needs, and nothing that is private.

mod blank;
#[cfg(test)]
mod tests;

use super::{complain_unread, shown};
use crate::engine;
use crate::files::{self, Files};
use crate::output::Output;
use crate::status::Status;
use blank::Blank;
use clap::Args;
use rules::ReviewOptions;
use rules::finding::{Finding, Review};
use rules::pack::Packs;
use spec::Loader;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::PathBuf;

/// `report-problem`
#[derive(Debug, Args)]
#[command(after_help = "Nothing is sent anywhere. Read the file before you give it to anyone.")]
pub struct ReportProblem {
    /// The specification that shows the problem; its names, texts, comments and numbers are blanked
    #[arg(value_name = "SPEC")]
    pub spec: Option<PathBuf>,
    /// The file to write; nothing is overwritten
    #[arg(long, value_name = "FILE")]
    pub to: PathBuf,
}

/// Writes the report, shows it, and asks to read it.
pub fn run(arguments: &ReportProblem, output: &mut Output) -> Status {
    let packs = match engine::shipped() {
        Ok(packs) => packs,
        Err(fault) => {
            output.complain(&fault);
            return Status::Unable;
        }
    };
    let mut report = about(packs);
    if let Some(path) = &arguments.spec {
        let (loader, name) = Files::of(path);
        if let Err(fault) = loader.load(None, &name) {
            complain_unread(path, &fault, output);
            return Status::Unable;
        }
        let options = ReviewOptions { today: rules::Today::Asked(crate::surroundings::today), draft: false };
        report.push_str(&of_review(&rules::review(&loader, &name, packs, options), packs));
    }
    if let Err(reason) = files::create(&arguments.to, &report) {
        output.complain(&format!("{} cannot be written: {reason}.", shown(&arguments.to)));
        return Status::Unable;
    }
    output.print(&report);
    output.print(&format!(
        "\nThis stands in {}; nothing was sent anywhere. Read it before you send it: whatever you would not tell, take out.\n\
         Say in your own words what you did, what you expected, and what happened instead.\n",
        shown(&arguments.to)
    ));
    Status::Done
}

/// The program, the machine, and the packs with a mark of their text.
fn about(packs: &Packs) -> String {
    let mut text = format!(
        "A problem with coachwright {}\nSystem: {} on {}\nRules: {}\nRule packs, with a mark of their text:\n",
        env!("CARGO_PKG_VERSION"),
        std::env::consts::OS,
        std::env::consts::ARCH,
        packs.rules.len()
    );
    for pack in packs::editions() {
        line(&mut text, &format!("  {}: {}", pack.name, pack.edition));
    }
    text
}

/// What a review found, by the names of the rules alone, and the blanked texts.
fn of_review(review: &Review, packs: &Packs) -> String {
    let mut text = String::new();
    for (heading, findings) in
        [("Failed", &review.failed), ("Undecided", &review.undecided), ("Waived", &review.waived)]
    {
        line(&mut text, &format!("{heading} checks, by rule:"));
        for (rule, count) in by_rule(findings, packs) {
            line(&mut text, &format!("  {rule}: {count}"));
        }
    }
    let mut blank = Blank::new(packs);
    for (index, file) in review.files.iter().enumerate() {
        line(
            &mut text,
            &format!("\nFile {}, blanked: names, texts and numbers are not those of the file.\n", index + 1),
        );
        text.push_str(&blank.text(&file.text));
    }
    text
}

fn by_rule<'a>(findings: &'a [Finding], packs: &Packs) -> BTreeMap<&'a str, usize> {
    let mut counts = BTreeMap::new();
    // A name that no pack has would be what someone wrote.
    for finding in findings.iter().filter(|finding| packs.rule(&finding.rule).is_some()) {
        *counts.entry(&*finding.rule).or_default() += 1;
    }
    counts
}

fn line(text: &mut String, line: &str) {
    // Writing to a text cannot fail.
    let _ = writeln!(text, "{line}");
}
