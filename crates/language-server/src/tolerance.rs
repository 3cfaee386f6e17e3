//! What clients say besides the protocol, brought into its form before it is read strictly: an odd member of `initialize` must
//! not keep the server from starting.

use serde_json::{Map, Value};
use tower_lsp::jsonrpc::Request;
use tower_lsp::lsp_types::InitializeParams;

/// The request as the transport can read it.
pub fn tolerated(request: Request) -> Request {
    let Some(params) = request.params() else { return request };
    let mended = match request.method() {
        // Some editors write `null` where the protocol has no parameters, or an empty object.
        "shutdown" | "exit" => None,
        "initialize" => Some(readable(params.clone())),
        _ if params.is_null() => None,
        _ => return request,
    };
    let mut again = Request::build(request.method().to_owned());
    if let Some(params) = mended {
        again = again.params(params);
    }
    match request.id() {
        Some(id) => again.id(id.clone()).finish(),
        None => again.finish(),
    }
}

/// The parameters of `initialize` without what cannot be read: the smallest members that are in the way.
fn readable(mut params: Value) -> Value {
    without_nulls(&mut params);
    if !params.is_object() {
        params = Value::Object(Map::new());
    }
    if let Some(params) = params.as_object_mut() {
        params.entry("capabilities").or_insert_with(|| Value::Object(Map::new()));
    }
    // The protocol's name of this member is not the one by which the types of the transport know it.
    if let Some(workspace) = params.pointer_mut("/capabilities/workspace").and_then(Value::as_object_mut)
        && let Some(diagnostics) = workspace.remove("diagnostics")
    {
        workspace.insert("diagnostic".to_owned(), diagnostics);
    }
    if can_be_read(&params) {
        return params;
    }
    // Members are put in one by one, those of the capabilities a level deeper, and left out where they cannot be read.
    let mut kept = serde_json::json!({ "capabilities": {} });
    for (path, value) in members(&params) {
        let mut with = kept.clone();
        put(&mut with, &path, value);
        if can_be_read(&with) {
            kept = with;
        }
    }
    kept
}

fn can_be_read(params: &Value) -> bool {
    serde_json::from_value::<InitializeParams>(params.clone()).is_ok()
}

/// How deep capabilities are taken apart: `capabilities.textDocument.hover.contentFormat`.
const DEEPEST: usize = 4;

/// The members of the parameters with where they stand, as small as they can be left out.
fn members(params: &Value) -> Vec<(Vec<String>, Value)> {
    let mut members = Vec::new();
    let mut open = vec![(Vec::new(), params.clone())];
    while let Some((path, value)) = open.pop() {
        let apart =
            path.is_empty() || path.first().is_some_and(|first| first == "capabilities") && path.len() < DEEPEST;
        match value {
            Value::Object(inner) if apart && !inner.is_empty() => {
                for (name, value) in inner {
                    let mut path = path.clone();
                    path.push(name);
                    open.push((path, value));
                }
            }
            other if !path.is_empty() => members.push((path, other)),
            _ => {}
        }
    }
    members
}

fn put(into: &mut Value, path: &[String], value: Value) {
    let mut at = into;
    for name in path {
        if !at.is_object() {
            *at = Value::Object(Map::new());
        }
        let Some(object) = at.as_object_mut() else { return };
        at = object.entry(name.clone()).or_insert(Value::Null);
    }
    *at = value;
}

/// Takes out members that say nothing.
fn without_nulls(value: &mut Value) {
    match value {
        Value::Object(members) => {
            members.retain(|_, member| !member.is_null());
            members.values_mut().for_each(without_nulls);
        }
        Value::Array(items) => items.iter_mut().for_each(without_nulls),
        _ => {}
    }
}
