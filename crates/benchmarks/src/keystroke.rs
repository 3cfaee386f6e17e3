//! From a key to findings that are ready, through the protocol, beside the parse of the whole text by the kdl crate; and what
//! memory many edits leave behind.

use crate::pairs::{Effort, Who, pairs};
use crate::review::{files, specification};
use crate::table::Table;
use crate::{Outcome, SMALLEST_DEMO};
use language_server::{Surroundings, serve_observed};
use rules::Today;
use serde_json::{Value, json};
use spec::LoadFault;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;
use tokio::io::{AsyncReadExt, AsyncWriteExt, DuplexStream, duplex};
use tokio::runtime::Runtime;
use tokio::sync::watch;

/// Lines and how long to measure them.
const SIZES: [(usize, Effort); 3] = [
    (200, Effort { least: 30, most: 400, time: Duration::from_secs(8) }),
    (2_000, Effort { least: 15, most: 200, time: Duration::from_secs(20) }),
    (20_000, Effort { least: 7, most: 30, time: Duration::from_secs(40) }),
];
/// The edits of which the memory is told, and those that come before the first look: until then every cache has filled.
const EDITS: usize = 10_000;
const WARM: usize = 200;
/// What each key changes: a letter within a property, so that findings come and go.
const WORD: &str = "chemistry";
const PIPE: usize = 1 << 24;

/// A server in this process and an editor at the other end of the line.
struct Editor {
    runtime: Runtime,
    input: DuplexStream,
    settled: watch::Receiver<u64>,
    uri: String,
    line: usize,
    column: usize,
    version: u64,
}

impl Editor {
    /// An editor in which a text was opened and checked.
    fn open(text: &str) -> Outcome<Self> {
        let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build()?;
        let (input, server_input) = duplex(PIPE);
        let (server_output, mut output) = duplex(PIPE);
        let (told, settled) = watch::channel(0);
        let folder = Path::new("/benchmark");
        let included = files()?;
        let surroundings = Surroundings {
            packs: packs::shipped()?,
            today: Today::Is(jiff::civil::date(2026, 11, 25)),
            read: Arc::new(move |path: &Path| {
                let name = path.file_name().and_then(|name| name.to_str()).unwrap_or("");
                included.get(name).cloned().ok_or_else(|| LoadFault::Refused("there is no such file".to_owned()))
            }),
            resolve: Arc::new(|path: &Path| Some(PathBuf::from(path))),
            page: Arc::new(|_| None),
        };
        runtime.spawn(async move {
            let observed = Box::new(move |revision| {
                let _ = told.send(revision);
            });
            serve_observed(server_input, server_output, surroundings, observed).await;
        });
        // What the server says is read and dropped: an editor that is slow to read is not what is measured.
        let (answered, mut answers) = watch::channel(false);
        runtime.spawn(async move {
            let mut dropped = vec![0; 1 << 16];
            while output.read(&mut dropped).await.is_ok_and(|read| read > 0) {
                answered.send_replace(true);
            }
        });
        let before = text.split(WORD).next().ok_or("nothing to change")?;
        let mut editor = Self {
            runtime,
            input,
            settled,
            uri: format!("file://{}", folder.join(SMALLEST_DEMO).display()),
            line: before.matches('\n').count(),
            column: before.rsplit('\n').next().map_or(0, str::len) + WORD.len() - 1,
            version: 1,
        };
        editor.send(json!({ "id": 1, "method": "initialize", "params": { "capabilities": {} } }))?;
        // Nothing may be said before the server has answered.
        editor.runtime.block_on(answers.wait_for(|answered| *answered))?;
        editor.send(json!({ "method": "initialized", "params": {} }))?;
        let document = json!({ "uri": editor.uri, "languageId": "kdl", "version": 1, "text": text });
        editor.send(json!({ "method": "textDocument/didOpen", "params": { "textDocument": document } }))?;
        editor.settle()?;
        Ok(editor)
    }

    fn send(&mut self, mut message: Value) -> Outcome<()> {
        message["jsonrpc"] = json!("2.0");
        let body = message.to_string();
        let frame = format!("Content-Length: {}\r\n\r\n{body}", body.len());
        Ok(self.runtime.block_on(self.input.write_all(frame.as_bytes()))?)
    }

    fn settle(&mut self) -> Outcome<()> {
        let wanted = self.version;
        self.runtime.block_on(self.settled.wait_for(|settled| *settled >= wanted))?;
        Ok(())
    }

    /// One key: the last letter of a word is replaced, every other time by the right one.
    fn key(&mut self) -> Outcome<()> {
        self.version += 1;
        let letter = if self.version.is_multiple_of(2) { "i" } else { "y" };
        let range = json!({
            "start": { "line": self.line, "character": self.column },
            "end": { "line": self.line, "character": self.column + 1 },
        });
        let document = json!({ "uri": self.uri, "version": self.version });
        let changes = json!([{ "range": range, "text": letter }]);
        self.send(json!({
            "method": "textDocument/didChange",
            "params": { "textDocument": document, "contentChanges": changes },
        }))?;
        self.settle()
    }
}

/// Measures at each size.
pub fn measure(table: &mut Table) -> Outcome<()> {
    for (lines, effort) in SIZES {
        let text = specification(lines)?;
        let mut editor = Editor::open(&text)?;
        let what = format!("key to findings / kdl's parse, {lines} lines");
        let pairs = pairs(effort, Who::Own, || editor.key(), || Ok(kdl::KdlDocument::parse_v2(&text)?))?;
        table.add(&what, ("key", "parse"), &pairs, 1, None);
    }
    Ok(())
}

/// Tells what memory many edits leave behind.
pub fn memory(table: &mut Table) -> Outcome<()> {
    let mut editor = Editor::open(&specification(200)?)?;
    for _ in 0..WARM {
        editor.key()?;
    }
    let Some(before) = resident() else {
        table.note("memory after edits: this system does not tell it".to_owned());
        return Ok(());
    };
    for _ in WARM..EDITS {
        editor.key()?;
    }
    let after = resident().ok_or("the memory is not told any more")?;
    table.note(format!(
        "memory after {EDITS} edits / after {WARM}: {:.2} ({after} / {before} pages)",
        after as f64 / before as f64
    ));
    Ok(())
}

/// The pages of memory that this process holds.
fn resident() -> Option<u64> {
    std::fs::read_to_string("/proc/self/statm").ok()?.split(' ').nth(1)?.parse().ok()
}
