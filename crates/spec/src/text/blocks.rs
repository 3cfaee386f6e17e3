//! Reading a text block by block: splits it into its top-level blocks, reads those that were not read before, and keeps
//! what was read by the block's text.

use std::collections::HashMap;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};

use super::fault::{FaultKind, TextFault};
use super::lexer::{Lexer, TokenKind};
use super::outline::{Outline, outline, outline_of_block};
use super::parse::{Trees, trees};
use super::slips::{bytes, fault};
use super::tree::Node;
use super::{Document, LARGEST};

/// Faults beyond this number are counted, not shown: they would hide what matters.
const MOST_FAULTS: usize = 200;

/// Texts with at least this many bytes to read are read by several threads; below it, starting them costs more.
const WORTH_THREADS: usize = 32_768;
/// More threads than this do not help a text of ordinary size.
const MOST_THREADS: usize = 8;
/// The stack of a reading thread: far more than the 32 KiB that were measured, for nothing recurses on the text.
const THREAD_STACK: usize = 1 << 20;

/// Blocks that were read, by their text. Spans within are relative to the block and rebased on use.
///
/// Bounded: it holds the blocks of the last reading only, which may be of several files.
#[derive(Debug, Default)]
pub struct BlockCache {
    blocks: HashMap<Box<str>, Kept>,
    reading: u64,
    /// How many readings have begun and not ended: those of single files lie within that of their build.
    begun: usize,
    off: bool,
}

#[derive(Debug)]
struct Kept {
    nodes: Vec<Node>,
    faults: Vec<TextFault>,
    incomplete: bool,
    hidden_faults: usize,
    /// The reading in which it was last used.
    used: u64,
}

impl BlockCache {
    /// An empty cache.
    pub fn new() -> Self {
        Self::default()
    }

    /// A cache that keeps nothing, for texts that are read once.
    pub fn off() -> Self {
        Self { off: true, ..Self::default() }
    }

    /// The number of blocks in the cache.
    pub fn len(&self) -> usize {
        self.blocks.len()
    }

    /// Whether the cache is empty.
    pub fn is_empty(&self) -> bool {
        self.blocks.is_empty()
    }

    /// Begins a reading. What is read until it ends is kept together.
    pub(crate) fn begin(&mut self) {
        if self.begun == 0 {
            self.reading += 1;
        }
        self.begun += 1;
    }

    /// Ends a reading, and lets go of the blocks that it did not meet.
    pub(crate) fn end(&mut self) {
        self.begun = self.begun.saturating_sub(1);
        if self.begun == 0 {
            let reading = self.reading;
            self.blocks.retain(|_, kept| kept.used == reading);
        }
    }

    fn find(&mut self, block: &str) -> Option<&Kept> {
        let reading = self.reading;
        let kept = self.blocks.get_mut(block)?;
        kept.used = reading;
        Some(kept)
    }
}

/// What is to be read: a block of the text by itself, or the parts of an outline that was made of the whole text.
struct Job {
    at: std::ops::Range<usize>,
    parts: Option<std::ops::Range<usize>>,
    /// Whether what was read depends on nothing but the block's own text.
    alone: bool,
}

/// Reads a text. Never fails: what cannot be read is a fault, and everything else is read.
pub fn read(text: &str, cache: &mut BlockCache) -> Document {
    if text.len() > LARGEST {
        return Document { nodes: Vec::new(), faults: vec![too_large(text.len())], incomplete: true };
    }
    cache.begin();
    let mut document = Document::default();
    let (whole, jobs) = match split(text) {
        Some(blocks) => {
            let jobs = blocks.into_iter().map(|at| Job { at, parts: None, alone: true }).collect();
            (None, jobs)
        }
        None => {
            let whole = outline(text);
            document.faults.clone_from(&whole.faults);
            document.incomplete = whole.incomplete;
            let jobs = jobs_of(&whole);
            (Some(whole), jobs)
        }
    };
    let hidden = whole.as_ref().map_or(0, |whole| whole.hidden_faults)
        + read_jobs(text, whole.as_ref(), &jobs, cache, &mut document);
    cache.end();
    old_version(text, &mut document.faults);
    document.faults.sort_by_key(|fault| (fault.at.start, fault.at.end));
    limit(&mut document.faults, hidden);
    document
}

/// The fault of a text that is too large.
pub(super) fn too_large(length: usize) -> TextFault {
    fault(
        FaultKind::TooLarge,
        0..0,
        format!("The file has {length} bytes; at most {LARGEST} are read"),
        "Nothing in it is checked.",
        "Split it with include, or check that it is a specification.".to_owned(),
    )
}

fn limit(faults: &mut Vec<TextFault>, hidden: usize) {
    let rest = faults.len().saturating_sub(MOST_FAULTS) + hidden;
    if rest == 0 {
        return;
    }
    let next = faults.get(MOST_FAULTS).map_or(0..0, |fault| fault.at.start as usize..fault.at.end as usize);
    faults.truncate(MOST_FAULTS);
    faults.push(fault(
        FaultKind::ManyMore,
        next,
        format!("{rest} more faults follow from here on"),
        "They are not shown one by one; the lines that they stand on are not checked.",
        "Mend those above first; a single missing quotation mark or brace often explains many.".to_owned(),
    ));
}

/// `/- kdl-version 1` at the start of a text says that it is not ours to read.
fn old_version(text: &str, faults: &mut Vec<TextFault>) {
    let body = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    let skipped = text.len() - body.len();
    let Some(line) = body.get(..super::lexer::end_of_line(body, 0)) else {
        return;
    };
    let Some(rest) = line.strip_prefix("/-").map(str::trim_start) else {
        return;
    };
    let Some(version) = rest.strip_prefix("kdl-version").map(str::trim) else {
        return;
    };
    if version == "1" {
        let start = skipped + line.trim_end().len() - 1;
        let found = fault(
            FaultKind::OldSyntax,
            start..start + 1,
            "The file says that it is written in KDL version 1".to_owned(),
            "It is read as version 2, in which some texts mean something else.",
            "Write /- kdl-version 2 and mend what is then found.".to_owned(),
        );
        faults.push(super::slips::with_mend(found, start..start + 1, "2".to_owned()));
    }
}

/// The top-level blocks of a text; none if its braces do not match, so that it must be read as a whole.
fn split(text: &str) -> Option<Vec<std::ops::Range<usize>>> {
    let mut lexer = Lexer::new(text, 0);
    let mut blocks = Vec::new();
    let mut depth = 0_usize;
    let mut start = None;
    let mut end = 0;
    // Behind `/-`, line ends and comments do not end a node.
    let mut switch_off = false;
    while let Some(token) = lexer.next() {
        match token.kind {
            TokenKind::Blank | TokenKind::BlockComment | TokenKind::Continuation => continue,
            TokenKind::UnclosedComment => {
                // The fault of the comment is found with the block that it stands in or behind.
                start.get_or_insert(token.start);
            }
            TokenKind::Newline | TokenKind::LineComment | TokenKind::Semicolon => {
                if depth == 0 && (!switch_off || token.kind == TokenKind::Semicolon) {
                    switch_off = false;
                    blocks.extend(start.take().map(|start| start..end));
                }
                continue;
            }
            TokenKind::SwitchOff => {
                switch_off = true;
                start.get_or_insert(token.start);
            }
            TokenKind::Open => {
                depth += 1;
                switch_off = false;
                start.get_or_insert(token.start);
            }
            TokenKind::Close => {
                depth = depth.checked_sub(1)?;
                switch_off = false;
            }
            _ => {
                switch_off = false;
                start.get_or_insert(token.start);
            }
        }
        end = token.end;
    }
    if depth > 0 {
        return None;
    }
    blocks.extend(start.map(|start| start..end));
    Some(blocks)
}

/// The top-level blocks of an outline. Those without any fault read the same by themselves.
fn jobs_of(whole: &Outline) -> Vec<Job> {
    let mut jobs = Vec::with_capacity(whole.tops.len());
    for (position, first) in whole.tops.iter().enumerate() {
        let behind = whole.tops.get(position + 1).copied().unwrap_or(whole.parts.len());
        let Some(part) = whole.parts.get(*first) else {
            continue;
        };
        let group = whole.parts.get(*first..behind).unwrap_or_default();
        let fault_inside = whole.faults.partition_point(|fault| fault.at.start < part.at.start);
        let fault_inside = whole.faults.get(fault_inside).is_some_and(|fault| fault.at.start <= part.at.end);
        let clean = group.iter().all(|part| !part.unread && !part.lost_inside && part.name.is_some());
        jobs.push(Job {
            at: part.at.start as usize..part.at.end as usize,
            parts: Some(*first..behind),
            alone: clean && !fault_inside,
        });
    }
    jobs
}

fn read_jobs(
    text: &str,
    whole: Option<&Outline>,
    jobs: &[Job],
    cache: &mut BlockCache,
    document: &mut Document,
) -> usize {
    // First what is known, so that only the rest is read.
    let mut known: Vec<Option<Trees>> = Vec::with_capacity(jobs.len());
    for job in jobs {
        let block = text.get(job.at.clone()).unwrap_or_default();
        let kept = if job.alone { cache.find(block) } else { None };
        known.push(kept.map(|kept| rebased(kept, job.at.start)));
    }
    let missing: Vec<usize> =
        known.iter().enumerate().filter(|(_, known)| known.is_none()).map(|(index, _)| index).collect();
    let bytes: usize = missing.iter().filter_map(|index| jobs.get(*index)).map(|job| job.at.len()).sum();
    let fresh = read_missing(text, whole, jobs, &missing, bytes);
    for (index, read) in fresh {
        if let (Some(job), Some(place)) = (jobs.get(index), known.get_mut(index)) {
            if job.alone && !cache.off {
                keep(cache, text.get(job.at.clone()).unwrap_or_default(), &read, job.at.start);
            }
            *place = Some(read);
        }
    }
    let mut hidden = 0;
    for read in known.into_iter().flatten() {
        hidden += read.hidden_faults;
        document.nodes.extend(read.nodes);
        document.faults.extend(read.faults);
        document.incomplete |= read.incomplete;
    }
    hidden
}

fn shift(offset: usize) -> i64 {
    i64::try_from(offset).unwrap_or(0)
}

fn rebased(kept: &Kept, start: usize) -> Trees {
    let mut nodes = kept.nodes.clone();
    let mut faults = kept.faults.clone();
    nodes.iter_mut().for_each(|node| node.shift(shift(start)));
    faults.iter_mut().for_each(|fault| fault.shift(shift(start)));
    Trees { nodes, faults, incomplete: kept.incomplete, hidden_faults: kept.hidden_faults }
}

fn keep(cache: &mut BlockCache, block: &str, read: &Trees, start: usize) {
    let mut nodes = read.nodes.clone();
    let mut faults = read.faults.clone();
    nodes.iter_mut().for_each(|node| node.shift(-shift(start)));
    faults.iter_mut().for_each(|fault| fault.shift(-shift(start)));
    let kept =
        Kept { nodes, faults, incomplete: read.incomplete, hidden_faults: read.hidden_faults, used: cache.reading };
    cache.blocks.insert(block.into(), kept);
}

fn read_job(text: &str, whole: Option<&Outline>, job: &Job) -> Trees {
    if let (Some(whole), Some(parts)) = (whole, &job.parts) {
        return trees(text, whole, parts.clone());
    }
    let block = text.get(..job.at.end).unwrap_or_default();
    let outline = outline_of_block(block, job.at.start);
    let mut read = trees(block, &outline, 0..outline.parts.len());
    read.faults.extend(outline.faults);
    read.incomplete |= outline.incomplete;
    read.hidden_faults += outline.hidden_faults;
    read
}

/// Reads the missing blocks, on several threads if there is enough to read.
fn read_missing(
    text: &str,
    whole: Option<&Outline>,
    jobs: &[Job],
    missing: &[usize],
    bytes: usize,
) -> Vec<(usize, Trees)> {
    let read_one = |index: &usize| jobs.get(*index).map(|job| (*index, read_job(text, whole, job)));
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(MOST_THREADS);
    if bytes < WORTH_THREADS || threads < 2 || missing.len() < 2 {
        return missing.iter().filter_map(read_one).collect();
    }
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::with_capacity(missing.len()));
    // Each thread takes a few blocks at a time; a thread that cannot be started leaves its share to the others.
    let step = (missing.len() / (threads * 8)).max(1);
    let work = || {
        loop {
            let from = next.fetch_add(step, Ordering::Relaxed);
            let Some(rest) = missing.get(from..).filter(|rest| !rest.is_empty()) else {
                return;
            };
            let read: Vec<_> = rest.iter().take(step).filter_map(read_one).collect();
            done.lock().unwrap_or_else(PoisonError::into_inner).extend(read);
        }
    };
    std::thread::scope(|scope| {
        for _ in 1..threads {
            let builder = std::thread::Builder::new().stack_size(THREAD_STACK);
            if builder.spawn_scoped(scope, work).is_err() {
                break;
            }
        }
        work();
    });
    done.into_inner().unwrap_or_else(PoisonError::into_inner)
}

/// Where the text has a byte that is not UTF-8, if it has one; the text otherwise. A byte order mark is allowed.
///
/// # Errors
///
/// A fault of kind `NotUtf8` or `TooLarge`. Its span counts bytes of the file.
pub fn read_bytes(file: &[u8]) -> Result<&str, TextFault> {
    if file.len() > LARGEST {
        return Err(too_large(file.len()));
    }
    let error = match std::str::from_utf8(file) {
        Ok(text) => return Ok(text),
        Err(error) => error,
    };
    let at = error.valid_up_to();
    let before = file.get(..at).unwrap_or_default();
    let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
    let byte = file.get(at).copied().unwrap_or(0);
    let help = match file {
        [0xFF, 0xFE, ..] | [0xFE, 0xFF, ..] => "It looks like UTF-16: save it as UTF-8 in your editor.",
        _ if file.iter().take(64).filter(|byte| **byte == 0).count() > 8 => {
            "It looks like UTF-16: save it as UTF-8 in your editor."
        }
        _ if file.contains(&0) => "It looks like no text at all: check that it is the right file.",
        _ => "It looks like Latin-1 or Windows-1252: save it as UTF-8 in your editor.",
    };
    Err(TextFault {
        kind: FaultKind::NotUtf8,
        at: bytes(at..at + 1),
        message: format!(
            "The file is not UTF-8: byte {} (0x{byte:02X}), in line {line}, belongs to no character",
            at + 1
        ),
        why: "Nothing in it is checked.".to_owned(),
        instead: None,
        help: help.to_owned(),
    })
}
