//! `review`: what the rules find in specifications, however many.

mod gather;
mod known;
mod one;
mod options;
pub mod revision;
mod target;
mod watch;

pub use options::{Review, date, signal};

use super::shown;
use crate::command_line::Colour;
use crate::engine;
use crate::files;
use crate::output::Output;
use crate::status::Status;
use crate::surroundings::{terminal_options, today};
use gather::{Gathered, Named, gather};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use known::Known;
use one::{Bench, Outcome, Reviewed};
use options::ReviewForm;
use rayon::prelude::*;
use report::{Context, PackName, RuleAbout, Stream};
use revision::Revision;
use std::io::IsTerminal;
use std::path::Path;
use target::Target;

/// How many builds are reviewed before their texts are written, for each thread: enough that no thread waits long, few enough
/// that the texts take little memory however many builds there are (chosen).
const AT_ONCE: usize = 16;

/// Reviews what is named.
pub fn run(arguments: &Review, colour: Colour, output: &mut Output) -> Status {
    let bench = match bench(arguments, colour) {
        Ok(bench) => bench,
        Err(fault) => {
            output.complain(&fault);
            return Status::Unable;
        }
    };
    if arguments.watching {
        return watch::run(&bench, output);
    }
    let mut gathered = gather(&arguments.specs);
    let status = told(&gathered, output);
    if let Some(share) = arguments.share {
        let mut place = 0..;
        gathered.specs.retain(|_| place.next().is_some_and(|place| share.holds(place)));
    }
    all(&bench, &gathered.specs, output).and(status)
}

/// Tells what could not be looked through.
fn told(gathered: &Gathered, output: &mut Output) -> Status {
    gathered.notes.iter().chain(&gathered.faults).for_each(|said| output.complain(said));
    if gathered.faults.is_empty() { Status::Done } else { Status::Unable }
}

fn bench(options: &Review, colour: Colour) -> Result<Bench<'_>, String> {
    let packs = engine::shipped()?;
    let known = match &options.known {
        Some(path) => Some(Known::read(path).map_err(|fault| format!("{} cannot be used: {fault}.", shown(path)))?),
        None => None,
    };
    let revision = match &options.only_new_since {
        Some(revision) => {
            let first = options.specs.first().map_or(Path::new("."), |spec| spec);
            let folder = if first.is_dir() { first } else { first.parent().unwrap_or(Path::new("")) };
            let folder = if folder.is_dir() { folder } else { Path::new(".") };
            Some(Revision::open(folder, revision).map_err(|fault| {
                format!("The revision {} cannot be compared with: {fault}.", report::visible(revision))
            })?)
        }
        None => None,
    };
    let editions = packs::editions();
    let pack =
        |edition: &packs::Edition| PackName { name: edition.name.to_owned(), edition: Some(edition.edition.clone()) };
    // Only documents about rules need what the texts of the packs say.
    let remedies = if options.asked.iter().any(|asked| asked.form == ReviewForm::Sarif) {
        engine::remedies()
    } else {
        std::collections::HashMap::new()
    };
    let about =
        |rule: &rules::Rule| RuleAbout::new(rule, remedies.get(rule.name.as_str()).cloned().unwrap_or_default());
    let context = Context::new(
        env!("CARGO_PKG_VERSION").to_owned(),
        options.hold_at,
        editions.iter().map(pack).collect(),
        packs.rules.iter().map(about).collect(),
    );
    let today = options.today.map_or(rules::Today::Asked(today), rules::Today::Is);
    let judging = rules::ReviewOptions { today, draft: options.draft };
    Ok(Bench { options, packs, judging, terminal: terminal_options(colour), context, known, revision })
}

/// What is gathered over a run.
#[derive(Default)]
struct Sums {
    reviewed: usize,
    held: usize,
    unread: usize,
    pieces: usize,
    gone: usize,
}

/// Reviews all, side by side, and writes them in their order.
fn all(bench: &Bench<'_>, specs: &[Named], output: &mut Output) -> Status {
    let mut targets: Vec<Target> = Vec::new();
    for asked in &bench.options.asked {
        match asked.to.as_deref().map_or(Ok(Target::Shown), Target::file) {
            Ok(target) => targets.push(target),
            Err(fault) => {
                let name = asked.to.as_deref().map(shown).unwrap_or_default();
                output.complain(&format!("{name} cannot be written: {fault}."));
                return Status::Unable;
            }
        }
    }
    let mut streams: Vec<Option<Stream<'_>>> = Vec::new();
    for (asked, target) in bench.options.asked.iter().zip(&mut targets) {
        let stream = asked.form.machine().map(|form| Stream::new(form, &bench.context));
        streams.push(stream.map(|(stream, head)| {
            target.write(&head, output);
            stream
        }));
    }
    let mut write_known = bench.options.write_known.as_deref().map(|path| (path, already_known(path)));
    if let Some((path, Err(fault))) = &write_known {
        output.complain(&format!("{} cannot be used: {fault}.", shown(path)));
        return Status::Unable;
    }
    let bar = progress(specs.len());
    let mut sums = Sums::default();
    for chunk in specs.chunks(AT_ONCE * rayon::current_num_threads()) {
        let outcomes: Vec<Outcome> = chunk.par_iter().map(|named| bench.review(named)).collect();
        for (named, outcome) in chunk.iter().zip(outcomes) {
            bar.inc(1);
            let (fragments, totals) = match outcome {
                Outcome::Piece => {
                    sums.pieces += 1;
                    continue;
                }
                Outcome::Unread { message, fragments, totals } => {
                    sums.unread += 1;
                    let said = format!("{} cannot be read: {}", shown(&named.path), report::visible(&message));
                    bar.suspend(|| output.complain(&said));
                    (fragments, totals)
                }
                Outcome::Reviewed(reviewed) => {
                    let Reviewed { held, fragments, totals, gone, review, .. } = *reviewed;
                    if let (Some((_, Ok(known))), Some(review)) = (&mut write_known, &review) {
                        known.take(&named.path, review);
                    }
                    sums.held += usize::from(held);
                    sums.gone += gone;
                    sums.reviewed += 1;
                    (fragments, totals)
                }
            };
            let forms = bench.options.asked.iter().zip(&mut targets).zip(&mut streams).zip(fragments);
            for (((asked, target), stream), fragment) in forms {
                let text = match stream {
                    Some(stream) => stream.fragments(fragment, totals.clone()),
                    None if sums.reviewed > 1 && asked.form != ReviewForm::Json && !fragment.is_empty() => {
                        format!("\n{fragment}")
                    }
                    None => fragment,
                };
                bar.suspend(|| target.write(&text, output));
            }
        }
    }
    bar.finish_and_clear();
    // What is written down as known is accepted by that.
    let accepted = bench.options.write_known.is_some();
    let mut status = match (sums.unread, sums.held) {
        (0, held) if held == 0 || accepted => Status::Done,
        (0, _) => Status::Held,
        _ => Status::Unable,
    };
    for ((asked, mut target), stream) in bench.options.asked.iter().zip(targets).zip(streams) {
        let end = match stream {
            Some(stream) => stream.finish(),
            None if asked.form != ReviewForm::Json && sums.reviewed + sums.unread > 1 => closing(&sums),
            None => String::new(),
        };
        target.write(&end, output);
        if let Err(fault) = target.finish() {
            output.complain(&fault);
            status = Status::Unable;
        }
    }
    status = status.and(known_told(bench, &sums, write_known, output));
    if sums.pieces > 0 {
        let them = if sums.pieces == 1 { "1 file describes" } else { &*format!("{} files describe", sums.pieces) };
        output.complain(&format!("{them} no build and can only be reviewed with the builds that include it."));
    }
    status
}

/// Tells what became of known findings, and writes their file.
fn known_told(
    bench: &Bench<'_>,
    sums: &Sums,
    write_known: Option<(&Path, Result<Known, String>)>,
    output: &mut Output,
) -> Status {
    if let (Some(known), Some(path)) = (&bench.known, &bench.options.known) {
        let away = known.gone();
        if sums.gone > 0 || !away.is_empty() {
            let path = shown(path);
            let mut text = format!("{path} is older than the builds: {} known findings are mended", sums.gone);
            if !away.is_empty() {
                let names: Vec<_> = away.iter().map(|name| report::visible(name)).collect();
                text.push_str(&format!(", and these builds are gone: {}", names.join(", ")));
            }
            output.complain(&format!(
                "{text}. So that they are noticed when they come back, write it anew: coachwright review --write-known {path} SPEC..."
            ));
        }
    }
    if let Some((path, Ok(mut known))) = write_known {
        known.forget_gone();
        if let Err(fault) = files::write(path, &known.text()) {
            output.complain(&format!("{} cannot be written: {fault}.", shown(path)));
            return Status::Unable;
        }
        output.complain(&format!(
            "{} lists what was found. It still stands, and a danger stays a danger: mend it, or waive it with a reason.",
            shown(path)
        ));
    }
    Status::Done
}

/// What a file of known findings says of builds that are not reviewed now.
fn already_known(path: &Path) -> Result<Known, String> {
    if path.to_string_lossy().to_lowercase().ends_with(".kdl") {
        return Err(String::from("it is named like a specification, and would take its place: give another name"));
    }
    if path.exists() { Known::read(path) } else { Ok(Known::beside(path)) }
}

/// The last lines of a review of several builds.
fn closing(sums: &Sums) -> String {
    let builds =
        if sums.reviewed == 1 { String::from("1 build was") } else { format!("{} builds were", sums.reviewed) };
    let mut text = format!("\n{builds} reviewed, {} held", sums.held);
    if sums.unread > 0 {
        text.push_str(&format!("; {} could not be read", sums.unread));
    }
    text.push_str(".\n");
    text
}

/// A bar on a terminal, when there is something to wait for.
fn progress(builds: usize) -> ProgressBar {
    if builds < 2 || !std::io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::with_draw_target(Some(builds as u64), ProgressDrawTarget::stderr());
    let style = ProgressStyle::with_template("{wide_bar} {pos} of {len} builds");
    if let Ok(style) = style {
        bar.set_style(style);
    }
    bar
}
