//! A client for tests: it speaks the protocol over a pipe in memory, keeps what the server says, and records every message.
#![allow(dead_code, reason = "each test file uses a part of this")]
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on has failed")]

use language_server::position::{Encoding, Lines};
use language_server::{Surroundings, serve_observed};
use serde_json::{Value, json};
use spec::LoadFault;
use std::collections::BTreeMap;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;
use tokio::io::{AsyncReadExt, AsyncWriteExt, DuplexStream};
use tokio::sync::watch;
use tokio::task::JoinHandle;
use tower_lsp::lsp_types::Range;

/// How long anything may take before a test is called stuck.
const STUCK: Duration = Duration::from_secs(60);

/// The pipe's size: larger than any message of the tests.
const PIPE: usize = 1 << 24;

/// A server and the client's end of its line.
pub struct Client {
    input: DuplexStream,
    output: DuplexStream,
    buffer: Vec<u8>,
    next: u64,
    /// What came from the server and was not asked for, in order.
    pub told: Vec<Value>,
    /// The newest diagnostics of each text.
    pub shown: BTreeMap<String, Value>,
    settled: watch::Receiver<u64>,
    /// How many changes of texts were sent.
    pub changes: u64,
    server: JoinHandle<()>,
    record: std::fs::File,
}

/// The surroundings of a test: the shipped rules, a day of its own, and the files of the disk.
pub fn surroundings() -> Surroundings {
    Surroundings {
        packs: packs::shipped().expect("the shipped packs are sound"),
        today: rules::Today::Is(jiff::civil::date(2026, 11, 25)),
        read: Arc::new(|path: &Path| {
            std::fs::read_to_string(path).map_err(|fault| LoadFault::Refused(fault.to_string()))
        }),
        resolve: Arc::new(|path: &Path| path.canonicalize().ok()),
        page: Arc::new(|rule: &str| Some(Path::new("/pages").join(rule))),
    }
}

/// The folder of the demo builds.
pub fn builds() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/builds").canonicalize().unwrap()
}

/// The address of a demo build.
pub fn url(name: &str) -> String {
    format!("file://{}", builds().join(name).display())
}

/// The text of a demo build.
pub fn text(name: &str) -> String {
    std::fs::read_to_string(builds().join(name)).unwrap()
}

/// What a client sends: messages as the protocol has them, or odd ones on purpose.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Manners {
    Good,
    Odd,
}

/// The file of a session. Of the odd ones only what the server says is held against the protocol.
fn record(manners: Manners) -> std::fs::File {
    static NUMBER: AtomicU64 = AtomicU64::new(0);
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("protocol");
    std::fs::create_dir_all(&folder).unwrap();
    let number = NUMBER.fetch_add(1, Ordering::Relaxed);
    let odd = if manners == Manners::Odd { "odd-" } else { "" };
    std::fs::File::create(folder.join(format!("{odd}{}-{number}.jsonl", std::process::id()))).unwrap()
}

impl Client {
    /// A server that is initialized for a client with these capabilities.
    pub async fn with(capabilities: Value) -> Self {
        Self::started(surroundings(), Manners::Good, capabilities, Value::Null).await
    }

    /// A server in surroundings of the test's own, initialized with capabilities and options.
    pub async fn started(surroundings: Surroundings, manners: Manners, capabilities: Value, options: Value) -> Self {
        let mut client = Self::raw(surroundings, manners);
        let mut params = json!({ "processId": null, "rootUri": null, "capabilities": capabilities });
        if !options.is_null() {
            params["initializationOptions"] = options;
        }
        client.request("initialize", params).await;
        client.notify("initialized", json!({})).await;
        client
    }

    /// A server for a client that announces nothing.
    pub async fn plain() -> Self {
        Self::with(json!({})).await
    }

    /// A server that has been told nothing yet.
    pub fn raw(surroundings: Surroundings, manners: Manners) -> Self {
        let (input, server_input) = tokio::io::duplex(PIPE);
        let (server_output, output) = tokio::io::duplex(PIPE);
        let (told, settled) = watch::channel(0);
        let observed = Box::new(move |revision| {
            let _ = told.send(revision);
        });
        let server = tokio::spawn(serve_observed(server_input, server_output, surroundings, observed));
        Self {
            input,
            output,
            buffer: Vec::new(),
            next: 0,
            told: Vec::new(),
            shown: BTreeMap::new(),
            settled,
            changes: 0,
            server,
            record: record(manners),
        }
    }

    fn note(&mut self, direction: &str, message: &Value) {
        writeln!(self.record, "{}", json!({ "direction": direction, "message": message })).unwrap();
    }

    /// What the server told by a method and no test has looked at yet.
    pub fn heard(&mut self, method: &str) -> Vec<Value> {
        let (heard, rest) = std::mem::take(&mut self.told).into_iter().partition(|own| own["method"] == method);
        self.told = rest;
        heard
    }

    /// Waits until the server has told something by a method.
    pub async fn hear(&mut self, method: &str) -> Value {
        loop {
            if let Some(at) = self.told.iter().position(|own| own["method"] == method) {
                return self.told.remove(at);
            }
            let message = self.receive().await;
            self.keep(message);
        }
    }

    /// Closes the client's end of the line, and waits for the server to end.
    pub async fn hang_up(self) {
        let Self { input, server, output, .. } = self;
        drop(input);
        tokio::time::timeout(STUCK, server).await.expect("the server ends").unwrap();
        drop(output);
    }

    /// Waits for the server to end, while the line stays open.
    pub async fn ended(mut self) {
        tokio::time::timeout(STUCK, &mut self.server).await.expect("the server ends").unwrap();
    }

    /// Sends any message.
    pub async fn send(&mut self, message: Value) {
        self.note("client", &message);
        let body = message.to_string();
        let frame = format!("Content-Length: {}\r\n\r\n{body}", body.len());
        self.input.write_all(frame.as_bytes()).await.unwrap();
    }

    /// Sends a notification.
    pub async fn notify(&mut self, method: &str, params: Value) {
        self.send(json!({ "jsonrpc": "2.0", "method": method, "params": params })).await;
    }

    /// Sends a request, and gives its number.
    pub async fn ask(&mut self, method: &str, params: Value) -> u64 {
        self.next += 1;
        let id = self.next;
        self.send(json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": params })).await;
        id
    }

    /// Waits for the answer to a request: the whole message.
    pub async fn answer(&mut self, id: u64) -> Value {
        loop {
            let message = self.receive().await;
            if message.get("method").is_none() && message["id"] == id {
                return message;
            }
            self.keep(message);
        }
    }

    /// Asks and waits; an error fails the test.
    pub async fn request(&mut self, method: &str, params: Value) -> Value {
        let id = self.ask(method, params).await;
        let answer = self.answer(id).await;
        assert!(answer.get("error").is_none(), "{method}: {answer}");
        answer["result"].clone()
    }

    fn keep(&mut self, message: Value) {
        if message["method"] == "textDocument/publishDiagnostics" {
            let uri = message["params"]["uri"].as_str().unwrap().to_owned();
            self.shown.insert(uri, message["params"]["diagnostics"].clone());
        }
        self.told.push(message);
    }

    /// The next message of the server.
    pub async fn receive(&mut self) -> Value {
        let message = tokio::time::timeout(STUCK, self.read()).await.expect("the server answers");
        self.note("server", &message);
        message
    }

    async fn read(&mut self) -> Value {
        loop {
            if let Some(head) = self.buffer.windows(4).position(|window| window == b"\r\n\r\n") {
                let header = String::from_utf8(self.buffer[..head].to_vec()).unwrap();
                let length: usize = header
                    .lines()
                    .find_map(|line| line.strip_prefix("Content-Length: "))
                    .and_then(|length| length.trim().parse().ok())
                    .unwrap();
                let end = head + 4 + length;
                if self.buffer.len() >= end {
                    let body = self.buffer[head + 4..end].to_vec();
                    self.buffer.drain(..end);
                    return serde_json::from_slice(&body).unwrap();
                }
            }
            let mut more = vec![0; 1 << 16];
            let read = self.output.read(&mut more).await.unwrap();
            assert!(read > 0, "the server closed the line");
            self.buffer.extend_from_slice(&more[..read]);
        }
    }

    /// Opens a text.
    pub async fn open(&mut self, uri: &str, text: &str) {
        self.changes += 1;
        let document = json!({ "uri": uri, "languageId": "kdl", "version": 1, "text": text });
        self.notify("textDocument/didOpen", json!({ "textDocument": document })).await;
    }

    /// Replaces a whole text.
    pub async fn replace(&mut self, uri: &str, version: i64, text: &str) {
        self.edit(uri, version, json!([{ "text": text }])).await;
    }

    /// Sends edits.
    pub async fn edit(&mut self, uri: &str, version: i64, changes: Value) {
        self.changes += 1;
        let document = json!({ "uri": uri, "version": version });
        self.notify("textDocument/didChange", json!({ "textDocument": document, "contentChanges": changes })).await;
    }

    /// Closes a text.
    pub async fn close(&mut self, uri: &str) {
        self.changes += 1;
        self.notify("textDocument/didClose", json!({ "textDocument": { "uri": uri } })).await;
    }

    /// Waits until everything that was sent has been checked and published.
    pub async fn settle(&mut self) {
        let wanted = self.changes;
        tokio::time::timeout(STUCK, self.settled.wait_for(|settled| *settled >= wanted))
            .await
            .expect("the checks come to an end")
            .expect("the server lives");
        // What was published stands in the line before the second answer from here: answers and news take turns.
        for _ in 0..2 {
            let id =
                self.ask("textDocument/foldingRange", json!({ "textDocument": { "uri": "file:///none.kdl" } })).await;
            self.answer(id).await;
        }
    }

    /// What is shown of a text: rule and line of each diagnostic.
    pub fn found(&self, uri: &str) -> Vec<(String, u64)> {
        let diagnostics = self.shown.get(uri).and_then(Value::as_array).cloned().unwrap_or_default();
        diagnostics
            .iter()
            .map(|own| (own["code"].as_str().unwrap_or("").to_owned(), own["range"]["start"]["line"].as_u64().unwrap()))
            .collect()
    }

    /// Ends the server in good order, and fails if it said anything that no test looked at.
    pub async fn finish(self) {
        assert_eq!(self.end().await, Vec::<Value>::new(), "nobody looked at this");
    }

    /// Ends like [`Client::finish`], where the server may still ask the client to ask again: such a request is its own task's, and
    /// comes when it comes.
    pub async fn finish_while_refreshed(self) {
        let mut unread = self.end().await;
        unread.retain(|message| !message["method"].as_str().unwrap_or_default().ends_with("/refresh"));
        assert_eq!(unread, Vec::<Value>::new(), "nobody looked at this");
    }

    /// Ends the server in good order; gives what it said and no test looked at.
    async fn end(mut self) -> Vec<Value> {
        self.settle().await;
        self.request("shutdown", Value::Null).await;
        self.send(json!({ "jsonrpc": "2.0", "method": "exit" })).await;
        // The line stays open: the server must end all the same.
        tokio::time::timeout(STUCK, &mut self.server).await.expect("the server ends").unwrap();
        self.told.retain(|message| message["method"] != "textDocument/publishDiagnostics");
        self.told
    }
}

/// A text after the edits of an answer, which is counted in UTF-16 and whose edits must not overlap.
pub fn applied(text: &str, edits: &Value) -> String {
    let lines = Lines::of(text);
    let mut edits: Vec<_> = edits
        .as_array()
        .unwrap()
        .iter()
        .map(|edit| {
            let range: Range = serde_json::from_value(edit["range"].clone()).unwrap();
            (lines.bytes(text, range, Encoding::Utf16).unwrap(), edit["newText"].as_str().unwrap())
        })
        .collect();
    edits.sort_by_key(|(bytes, _)| bytes.start);
    assert!(edits.windows(2).all(|pair| pair[0].0.end <= pair[1].0.start), "{edits:?}");
    let mut after = text.to_owned();
    for (bytes, new) in edits.into_iter().rev() {
        after.replace_range(bytes, new);
    }
    after
}
