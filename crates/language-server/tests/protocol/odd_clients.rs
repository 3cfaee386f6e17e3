//! Clients as they are: what real editors say when they start, and what they leave out when they end.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, Manners, surroundings, text, url};
use serde_json::{Value, json};
use std::path::Path;

/// What editors said to start a server, as recorded.
fn recorded() -> Vec<(String, Value)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/clients");
    let mut recorded: Vec<(String, Value)> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| {
            let path = entry.unwrap().path();
            let params = serde_json::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
            (path.file_stem().unwrap().to_string_lossy().into_owned(), params)
        })
        .collect();
    recorded.sort_by(|one, other| one.0.cmp(&other.0));
    assert_eq!(recorded.len(), 7, "the editors that were recorded");
    recorded
}

async fn begun(params: &Value) -> (Client, Value) {
    let mut client = Client::raw(surroundings(), Manners::Odd);
    let result = client.request("initialize", params.clone()).await;
    client.notify("initialized", json!({})).await;
    (client, result)
}

async fn sees_the_unfused_circuit(client: &mut Client, of: &str) {
    let fuse = "    fuse rating=\"3 A\" class=cylindrical voltage=\"60 V\" interrupting=\"10 kA\"\n";
    let (uri, unfused) = (url("bramble.build.kdl"), text("bramble.build.kdl").replace(fuse, ""));
    client.open(&uri, &unfused).await;
    client.settle().await;
    let rules: Vec<String> = client.found(&uri).into_iter().map(|(rule, _)| rule).collect();
    assert_eq!(rules, ["protection/none-at-source"], "{of}");
}

#[tokio::test(flavor = "multi_thread")]
async fn every_recorded_editor_is_served_as_it_can_be() {
    // The encoding, whether hovers are Markdown, whether rules are linked, whether other places stand by themselves.
    let wanted = [
        ("emacs-28-eglot-1.9", "utf-16", "plaintext", false, false),
        ("emacs-28-lsp-mode-8.0", "utf-16", "markdown", false, true),
        ("kakoune-2022-kak-lsp-22", "utf-8", "markdown", false, true),
        ("kate-22.12", "utf-16", "markdown", false, true),
        ("neovim-0.11.4", "utf-8", "markdown", false, true),
        ("vim-9-ale-3.3", "utf-16", "plaintext", false, true),
        ("vscode-1.100-languageclient-9", "utf-16", "markdown", true, true),
    ];
    for ((name, params), (wanted_name, encoding, hover, linked, related)) in recorded().into_iter().zip(wanted) {
        assert_eq!(name, wanted_name);
        let (mut client, result) = begun(&params).await;
        assert_eq!(result["capabilities"]["positionEncoding"], encoding, "{name}");
        // All of them are told; none said that it wants to ask.
        assert_eq!(result["capabilities"].get("diagnosticProvider"), None, "{name}");
        sees_the_unfused_circuit(&mut client, &name).await;
        let uri = url("bramble.build.kdl");
        let shown = client.shown[&uri][0].clone();
        assert_eq!(shown["codeDescription"]["href"].is_string(), linked, "{name}");
        assert_eq!(shown["relatedInformation"].is_array(), related, "{name}");
        let at = json!({ "textDocument": { "uri": uri }, "position": shown["range"]["start"] });
        let page = client.request("textDocument/hover", at).await;
        assert_eq!(page["contents"]["kind"], hover, "{name}");
        client.heard("client/registerCapability");
        client.finish_while_refreshed().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn members_that_are_null_unknown_or_wrong_do_not_keep_the_server_from_starting() {
    let cases = [
        json!({}),
        json!({ "capabilities": null }),
        json!({ "processId": "none", "rootUri": 7, "capabilities": [] }),
        json!({ "capabilities": { "textDocument": null, "general": null, "workspace": { "workspaceEdit": null } } }),
        json!({ "capabilities": { "textDocument": { "hover": { "contentFormat": null } } }, "trace": "loudly" }),
        json!({ "capabilities": { "textDocument": { "hover": { "contentFormat": ["poetry"] }, "synchronization": 5 } } }),
        json!({ "capabilities": { "textDocument": { "codeAction": { "codeActionLiteralSupport": "yes" } } } }),
        json!({ "capabilities": { "offsetEncoding": ["utf-8"], "experimental": { "anything": [1, null] } }, "odd": {} }),
        json!({ "capabilities": {}, "initializationOptions": "nothing that we know", "workspaceFolders": "none" }),
        json!({ "capabilities": {}, "initializationOptions": { "diagnostics": "now and then", "inlayHints": "some" } }),
    ];
    for params in cases {
        let (mut client, _) = begun(&params).await;
        sees_the_unfused_circuit(&mut client, &params.to_string()).await;
        client.finish().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_right_beside_a_wrong_member_still_holds() {
    let params = json!({
        "rootUri": 7,
        "capabilities": {
            "general": { "positionEncodings": ["utf-8"] },
            "textDocument": {
                "hover": { "contentFormat": ["markdown"], "dynamicRegistration": "perhaps" },
                "publishDiagnostics": { "relatedInformation": true },
            },
        },
    });
    let (mut client, result) = begun(&params).await;
    assert_eq!(result["capabilities"]["positionEncoding"], "utf-8");
    sees_the_unfused_circuit(&mut client, "wrong members").await;
    assert!(client.shown[&url("bramble.build.kdl")][0]["relatedInformation"].is_array());
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn the_server_ends_however_the_client_takes_its_leave() {
    let exit = json!({ "jsonrpc": "2.0", "method": "exit" });
    let ways: [(&str, Vec<Value>); 5] = [
        (
            "a shutdown without a number",
            vec![json!({ "jsonrpc": "2.0", "method": "shutdown", "params": {} }), exit.clone()],
        ),
        ("exit without shutdown", vec![json!({ "jsonrpc": "2.0", "method": "exit", "params": null })]),
        (
            "a shutdown with null",
            vec![json!({ "jsonrpc": "2.0", "id": 99, "method": "shutdown", "params": null }), exit.clone()],
        ),
        (
            "a shutdown with an empty object",
            vec![json!({ "jsonrpc": "2.0", "id": 99, "method": "shutdown", "params": {} }), exit],
        ),
        ("the end of the line", vec![]),
    ];
    for (way, last) in ways {
        let (mut client, _) = begun(&json!({ "capabilities": {} })).await;
        sees_the_unfused_circuit(&mut client, way).await;
        let exits = !last.is_empty();
        for message in last {
            client.send(message).await;
        }
        if exits {
            client.ended().await;
        } else {
            client.hang_up().await;
        }
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_asked_after_shutdown_or_is_not_offered_is_refused_and_not_more() {
    let (mut client, _) = begun(&json!({ "capabilities": {} })).await;
    sees_the_unfused_circuit(&mut client, "before").await;
    let id = client
        .ask(
            "textDocument/moniker",
            json!({ "textDocument": { "uri": "file:///a" }, "position": { "line": 0, "character": 0 } }),
        )
        .await;
    assert!(client.answer(id).await["error"].is_object());
    // Texts that are not open, and files of other kinds, are answered with nothing.
    for uri in ["file:///not/open.build.kdl", "untitled:Untitled-1", "file:///a/config.kdl", "git:/a.build.kdl?x"] {
        let at = json!({ "textDocument": { "uri": uri }, "position": { "line": 3, "character": 99 } });
        assert_eq!(client.request("textDocument/hover", at.clone()).await, Value::Null, "{uri}");
        client.open(uri, "node {\n").await;
        client.settle().await;
        client.request("textDocument/hover", at).await;
        client.edit(uri, 2, json!([{ "text": "x" }])).await;
        client.close(uri).await;
        client.close(uri).await;
    }
    client.settle().await;
    client.request("shutdown", Value::Null).await;
    let id = client
        .ask(
            "textDocument/hover",
            json!({ "textDocument": { "uri": "file:///a" }, "position": { "line": 0, "character": 0 } }),
        )
        .await;
    assert!(client.answer(id).await["error"].is_object());
    client.hang_up().await;
}
