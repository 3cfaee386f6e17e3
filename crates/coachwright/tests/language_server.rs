//! The program as an editor starts it: it finds what the command `review` finds, and its links lead to pages that are there.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test that cannot go on stops")]

use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::{Path, PathBuf};
use std::process::{ChildStdin, ChildStdout, Command, Stdio};

const PROGRAM: &str = env!("CARGO_BIN_EXE_coachwright");

fn builds() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/builds").canonicalize().unwrap()
}

fn say(input: &mut ChildStdin, mut message: Value) {
    message["jsonrpc"] = json!("2.0");
    let body = message.to_string();
    write!(input, "Content-Length: {}\r\n\r\n{body}", body.len()).unwrap();
    input.flush().unwrap();
}

fn hear(output: &mut BufReader<ChildStdout>) -> Value {
    let mut length = 0;
    loop {
        let mut line = String::new();
        assert!(output.read_line(&mut line).unwrap() > 0, "the server closed the line");
        match line.trim() {
            "" => break,
            header => {
                if let Some(own) = header.strip_prefix("Content-Length: ") {
                    length = own.parse().unwrap();
                }
            }
        }
    }
    let mut body = vec![0; length];
    output.read_exact(&mut body).unwrap();
    serde_json::from_slice(&body).unwrap()
}

/// What an editor is shown of a build: the first news of it.
fn shown(path: &Path, caches: &Path) -> Vec<Value> {
    let mut server = Command::new(PROGRAM)
        .arg("language-server")
        .env("XDG_CACHE_HOME", caches)
        .env("HOME", caches)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let (mut input, mut output) = (server.stdin.take().unwrap(), BufReader::new(server.stdout.take().unwrap()));
    let capabilities = json!({ "textDocument": { "publishDiagnostics": { "codeDescriptionSupport": true } } });
    say(&mut input, json!({ "id": 1, "method": "initialize", "params": { "capabilities": capabilities } }));
    assert_eq!(hear(&mut output)["id"], 1);
    say(&mut input, json!({ "method": "initialized", "params": {} }));
    let uri = format!("file://{}", path.display());
    let text = std::fs::read_to_string(path).unwrap();
    let document = json!({ "uri": uri, "languageId": "kdl", "version": 1, "text": text });
    say(&mut input, json!({ "method": "textDocument/didOpen", "params": { "textDocument": document } }));
    let news = loop {
        let message = hear(&mut output);
        assert_eq!(message["method"], "textDocument/publishDiagnostics");
        if message["params"]["uri"] == uri {
            break message["params"]["diagnostics"].as_array().unwrap().clone();
        }
    };
    say(&mut input, json!({ "id": 2, "method": "shutdown" }));
    say(&mut input, json!({ "method": "exit" }));
    assert!(server.wait().unwrap().success());
    news
}

#[test]
fn an_editor_is_shown_what_the_command_finds() {
    let caches = tempfile::tempdir().unwrap();
    let mut faulty = 0;
    for entry in std::fs::read_dir(builds()).unwrap() {
        let path = entry.unwrap().path();
        if !path.to_string_lossy().ends_with("-faulty.build.kdl") {
            continue;
        }
        faulty += 1;
        let review = Command::new(PROGRAM).args(["review", "--as", "json"]).arg(&path).output().unwrap();
        let review: Value = serde_json::from_slice(&review.stdout).unwrap();
        let of_build = |list: &str| {
            let all = review[list].as_array().unwrap().clone();
            all.into_iter().filter(|own| Path::new(own["file"].as_str().unwrap()) == path)
        };
        let wanted: BTreeSet<(String, String, u64)> = of_build("findings")
            .chain(of_build("undecided"))
            .map(|own| {
                let text = |name: &str| own[name].as_str().unwrap().to_owned();
                (text("fingerprint"), text("rule"), own["start"]["line"].as_u64().unwrap() - 1)
            })
            .collect();
        let news = shown(&path, caches.path());
        let told: BTreeSet<(String, String, u64)> = news
            .iter()
            .map(|own| {
                let print = own["data"]["fingerprint"].as_str().unwrap().to_owned();
                (print, own["code"].as_str().unwrap().to_owned(), own["range"]["start"]["line"].as_u64().unwrap())
            })
            .collect();
        assert_eq!(told, wanted, "{}", path.display());
        for own in &news {
            let page = own["codeDescription"]["href"].as_str().unwrap().strip_prefix("file://").unwrap();
            let page = std::fs::read_to_string(page).unwrap();
            assert!(page.starts_with(own["code"].as_str().unwrap()), "{page}");
        }
    }
    assert!(faulty >= 3, "{faulty} faulty builds");
}
