//! One review of many builds: what a second core saves, and whether memory grows with their number.
//!
//! The builds are copies of all demo builds, clean and faulty, in nested folders. Every copy has names and numbers of its
//! own, so that nothing learnt from one build could serve the next.

use crate::pairs::{Effort, Pairs, Who, pairs, pairs_at_once};
use crate::table::Table;
use crate::{Outcome, builds, generate};
use std::cell::RefCell;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::time::Duration;
use tempfile::TempDir;

/// The builds in all. At some 5 ms of processor time each, one run takes most of a minute on one core.
const MANY: usize = 10_000;
/// The builds in each of the uppermost folders: the smaller number, with which the larger one is compared.
const FEW: usize = 1_000;
/// The builds in each of the lower folders (chosen: as many as a workshop keeps in one).
const IN_FOLDER: usize = 50;
/// The threads that are compared with one: the goal speaks of two cores, however many there are.
const THREADS: usize = 2;
/// 1.8 times the speed of one core: 1 / 1.8, rounded.
const GOAL: f64 = 0.56;
/// How long to measure the smaller number. Its runs warm what the larger number needs, too.
const FEW_EFFORT: Effort = Effort { least: 5, most: 20, time: Duration::from_secs(60) };
/// So few because of the length of a run: some 75 s a pair.
const MANY_EFFORT: Effort = Effort { least: 2, most: 2, time: Duration::ZERO };
/// How often a run is asked for its memory. The system keeps the peak, so that only the very end could be missed.
const ASKED_EVERY: Duration = Duration::from_millis(5);

/// Where chance begins: the same copies each time.
const SEED: u64 = 20_261_125;
/// The first copy's number, so that all names are equally long.
const FIRST: usize = 10_001;
/// The properties whose numbers change, and by which factors. Wires become shorter and stores larger: what was clean stays so.
const CHANGED: [(&str, Range<f64>); 2] = [("one-way", 0.97..1.0), ("capacity", 1.0..1.03)];
const MEBIBYTE: f64 = 1024.0;

/// Measures whole processes.
pub fn measure(binary: &Path, table: &mut Table) -> Outcome<()> {
    let folder = Folder::write()?;
    let few = told(FEW, &folder, table, |folder, peaks| {
        pairs(
            FEW_EFFORT,
            Who::Children,
            || folder.run(binary, FEW, THREADS, peaks),
            || folder.run(binary, FEW, 1, peaks),
        )
    })?;
    let many = told(MANY, &folder, table, |folder, peaks| {
        let several = || folder.run(binary, MANY, THREADS, peaks);
        pairs_at_once(MANY_EFFORT, Who::Children, several, || folder.run(binary, MANY, 1, peaks))
    })?;
    match few.zip(many) {
        Some((few, many)) => table.note(format!(
            "memory at most, {MANY} builds / {FEW}, {THREADS} threads: {:.2} ({:.1} / {:.1} MiB); goal: about 1",
            many as f64 / few as f64,
            many as f64 / MEBIBYTE,
            few as f64 / MEBIBYTE
        )),
        None => table.note("memory of many builds: this system does not tell it".to_owned()),
    }
    Ok(())
}

/// What runs with [`THREADS`] threads held in memory at most, in kibibytes, one after the other.
type Peaks = RefCell<Vec<u64>>;

/// Measures so many builds and tells of it; says the largest peak of memory.
fn told(
    count: usize,
    folder: &Folder,
    table: &mut Table,
    measured: impl FnOnce(&Folder, &Peaks) -> Outcome<Pairs>,
) -> Outcome<Option<u64>> {
    let peaks = Peaks::default();
    let measured = measured(folder, &peaks)?;
    let what = format!("review of {count} builds, {THREADS} threads / 1 thread");
    let names = (&*format!("{THREADS} threads"), "1 thread");
    table.add(&what, names, &measured, 1, (count == MANY).then_some(GOAL));
    if let Some((several, one)) = measured.busy() {
        // Less than one core for one thread means that others had it, and then they had the second core all the more.
        table.note(format!("cores that {count} builds kept busy: {several:.2} by {THREADS} threads, {one:.2} by 1"));
    }
    let (sarif, junit) = folder.written()?;
    table.note(format!("{count} builds: {sarif} bytes of SARIF, {junit} of JUnit"));
    Ok(peaks.take().into_iter().max())
}

/// The builds, and beside them what is written of them.
struct Folder {
    folder: TempDir,
    builds: PathBuf,
}

impl Folder {
    /// Writes the builds.
    fn write() -> Outcome<Self> {
        let folder = TempDir::new()?;
        let top = folder.path().join("builds");
        std::fs::create_dir(&top)?;
        let mut demos = Vec::new();
        let mut pieces = Vec::new();
        let mut there: Vec<PathBuf> =
            std::fs::read_dir(builds())?.map(|entry| Ok(entry?.path())).collect::<Outcome<_>>()?;
        there.sort();
        for path in there {
            let Some(name) = path.file_name().and_then(|name| name.to_str()) else { continue };
            if let Some(name) = name.strip_suffix(".build.kdl") {
                demos.push((name.to_owned(), std::fs::read_to_string(&path)?));
            } else if name.ends_with(".kdl") {
                std::fs::copy(&path, top.join(name))?;
                pieces.push(name.to_owned());
            }
        }
        let mut chance = fastrand::Rng::with_seed(SEED);
        for (place, (name, demo)) in demos.iter().cycle().take(MANY).enumerate() {
            let number = FIRST + place;
            let lower =
                top.join(format!("fleet {:02}", place / FEW)).join(format!("series {:02}", place % FEW / IN_FOLDER));
            std::fs::create_dir_all(&lower)?;
            let mut text = changed(&generate::copy(demo, number), &mut chance);
            for piece in &pieces {
                text = text.replace(&format!("include \"{piece}\""), &format!("include \"../../{piece}\""));
            }
            std::fs::write(lower.join(format!("{name}-{number}.build.kdl")), text)?;
        }
        Ok(Self { folder, builds: top })
    }

    /// Reviews so many builds, and keeps what memory that took.
    fn run(&self, binary: &Path, count: usize, threads: usize, peaks: &Peaks) -> Outcome<()> {
        let specs = if count == FEW { self.builds.join("fleet 00") } else { self.builds.clone() };
        let peak = self.review(binary, &specs, threads)?;
        if threads == THREADS {
            peaks.borrow_mut().extend(peak);
        }
        Ok(())
    }

    fn sarif(&self) -> PathBuf {
        self.folder.path().join("review.sarif")
    }

    fn junit(&self) -> PathBuf {
        self.folder.path().join("review.xml")
    }

    /// Reviews what a folder holds; says how much memory that took at most, in kibibytes, where the system tells it.
    fn review(&self, binary: &Path, specs: &Path, threads: usize) -> Outcome<Option<u64>> {
        let mut command = Command::new(binary);
        command.arg("review").arg(specs);
        command.args(["--as", "sarif", "--to"]).arg(self.sarif()).args(["--as", "junit", "--to"]).arg(self.junit());
        command.env("RAYON_NUM_THREADS", threads.to_string());
        command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
        let (status, peak) = watched(command.spawn()?)?;
        // The faulty builds hold the review.
        if status.code() == Some(1) { Ok(peak) } else { Err(format!("{command:?} ended with {status}").into()) }
    }

    /// The bytes of what was written last.
    fn written(&self) -> Outcome<(u64, u64)> {
        Ok((std::fs::metadata(self.sarif())?.len(), std::fs::metadata(self.junit())?.len()))
    }
}

/// Waits for a process; says how much memory it held at most, in kibibytes.
fn watched(mut child: Child) -> Outcome<(ExitStatus, Option<u64>)> {
    let told = format!("/proc/{}/status", child.id());
    let mut peak = None;
    loop {
        if let Some(status) = child.try_wait()? {
            return Ok((status, peak));
        }
        peak = high_water(&told).max(peak);
        std::thread::sleep(ASKED_EVERY);
    }
}

fn high_water(told: &str) -> Option<u64> {
    let text = std::fs::read_to_string(told).ok()?;
    text.lines().find_map(|line| line.strip_prefix("VmHWM:"))?.trim().strip_suffix(" kB")?.parse().ok()
}

/// A text whose numbers are others by a little.
fn changed(text: &str, chance: &mut fastrand::Rng) -> String {
    let mut text = text.to_owned();
    for (property, factors) in CHANGED {
        let before = format!("{property}=\"");
        let mut parts = text.split(&before);
        let mut out = parts.next().unwrap_or_default().to_owned();
        for part in parts {
            out.push_str(&before);
            let number = part.split_once(' ').and_then(|(number, rest)| Some((number.parse::<f64>().ok()?, rest)));
            match number {
                Some((number, rest)) => {
                    let factor = factors.start + (factors.end - factors.start) * chance.f64();
                    out.push_str(&format!("{:.4} {rest}", number * factor));
                }
                None => out.push_str(part),
            }
        }
        text = out;
    }
    text
}
