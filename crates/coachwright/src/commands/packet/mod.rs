//! `packet`: the papers of a build, as a folder.

mod folder;
mod print;
mod progress;
mod units;

pub use units::{Units, in_units};

use super::{complain_unread, shown};
use crate::commands::review::{date, signal};
use crate::engine;
use crate::files::Files;
use crate::output::Output;
use crate::status::Status;
use crate::surroundings::today;
use clap::Args;
use jiff::civil::Date;
use packet::Given;
use packet::write::{FILE_PAGE, FILE_PDF, files};
use progress::Progress;
use rules::{ReviewOptions, Signal, Today};
use spec::Loader;
use spec::text::BlockCache;
use std::path::PathBuf;

/// `packet`
#[derive(Debug, Args)]
#[command(
    after_help = "Exit status: 0 the packet is written and nothing holds the build; 1 it is written, and the build is held; 2 there is no \
        packet.\n\nThe folder holds packet.html, which opens in any browser without a network, a table file for each sheet, a drawing \
        file for each drawing, and packet.json. A folder that is a packet already is replaced as a whole; any other is left alone."
)]
pub struct Packet {
    /// The specification
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,
    /// The folder to write
    #[arg(long, value_name = "FOLDER")]
    pub to: PathBuf,
    /// Also print the page into packet.pdf, by a Chromium on this computer ($CHROMIUM, else the usual names)
    #[arg(long)]
    pub pdf: bool,
    /// The least signal word at which a failed check holds the build
    #[arg(long, default_value = "warning", value_name = "WORD", value_parser = signal())]
    pub hold_at: Signal,
    /// Treat the build as a draft: undecided checks do not hold it
    #[arg(long)]
    pub draft: bool,
    /// The day of the packet, on which waivers are judged, as 2026-03-14; without it, today
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
    /// The units of every document; without it, those that the build names
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<Units>,
}

/// Writes the packet of one specification.
pub fn run(arguments: &Packet, output: &mut Output) -> Status {
    match written(arguments, output) {
        Ok(status) => status,
        Err(Some(fault)) => {
            output.complain(&fault);
            Status::Unable
        }
        Err(None) => Status::Unable,
    }
}

/// Nothing in the error: it was told already.
fn written(arguments: &Packet, output: &mut Output) -> Result<Status, Option<String>> {
    let packs = engine::shipped().map_err(Some)?;
    let (loader, name) = Files::of(&arguments.spec);
    if let Err(fault) = loader.load(None, &name) {
        complain_unread(&arguments.spec, &fault, output);
        return Err(None);
    }
    // What cannot be written is told before the work, not after it.
    let place = folder::Place::of(&arguments.to).map_err(|fault| told(arguments, &fault))?;
    let printer = if arguments.pdf { Some(print::Printer::found().map_err(Some)?) } else { None };
    let mut progress = Progress::new(STAGES);
    progress.step("reading");
    let mut build = design::link(spec::read(&loader, &name, &mut BlockCache::new()));
    if let Some(units) = arguments.units {
        build = in_units(build, units.system());
    }
    let day = arguments.today.unwrap_or_else(today);
    let options = ReviewOptions { today: Today::Is(day), draft: arguments.draft };
    progress.step("reviewing");
    let review = rules::review::review_build(&build, packs, options);
    progress.step("making sheets and drawings");
    let given = given(&review, day, arguments.hold_at);
    let packet = packet::packet(&build, review.into(), &given);
    progress.step("writing");
    let files = files(&packet).map_err(|fault| told(arguments, &fault))?;
    let mut new = place.begin().map_err(|fault| told(arguments, &fault))?;
    for file in &files {
        new.write(&file.name, file.text.as_bytes()).map_err(|fault| told(arguments, &fault))?;
    }
    if let Some(printer) = printer {
        progress.step("printing");
        printer.print(&new.path(FILE_PAGE), &new.path(FILE_PDF)).map_err(Some)?;
    }
    new.put().map_err(|fault| told(arguments, &fault))?;
    progress.finish();
    let held = packet.head.held.held;
    let mut text = format!(
        "{}: {} sheets, {} drawings.\n",
        shown(&arguments.to.join(FILE_PAGE)),
        packet.sheets.len(),
        packet.drawings.len()
    );
    text.push_str(&report::visible(&packet.head.held.reason));
    text.push('\n');
    if packet.head.not_for_construction {
        text.push_str("Dangers are open: every sheet says NOT FOR CONSTRUCTION.\n");
    }
    output.print(&text);
    Ok(if held { Status::Held } else { Status::Done })
}

/// Reading, reviewing, sheets, writing, printing.
const STAGES: u64 = 5;

/// What a packet is given besides the build and its review.
pub fn given(review: &rules::Review, today: Date, hold_at: Signal) -> Given {
    Given { today, program: format!("coachwright {}", env!("CARGO_PKG_VERSION")), packs: packs_of(review), hold_at }
}

fn told(arguments: &Packet, fault: &str) -> Option<String> {
    Some(format!("The packet cannot be written to {}: {fault}.", shown(&arguments.to)))
}

/// The packs by which a build is reviewed: those for everywhere, those of its regions, the practice of the trade.
fn packs_of(review: &rules::Review) -> Vec<packet::Pack> {
    let region = |name: &str| review.regions.iter().any(|region| region.word() == name);
    packs::editions()
        .into_iter()
        .filter(|pack| matches!(pack.name, "any" | "practice") || region(pack.name))
        .map(|pack| packet::Pack { name: pack.name.to_owned(), edition: pack.edition })
        .collect()
}
