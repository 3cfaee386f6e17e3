"""The conformance check notices what is wrong: a sound session, and what comes of it by one change each.

Run: python conformance_test.py
"""

import copy
import importlib.machinery
import importlib.util
import pathlib
import sys

here = pathlib.Path(__file__).parent
sys.dont_write_bytecode = True
loader = importlib.machinery.SourceFileLoader("conformance", str(here / "conformance"))
specification = importlib.util.spec_from_loader("conformance", loader)
conformance = importlib.util.module_from_spec(specification)
loader.exec_module(conformance)

URI = "file:///van.build.kdl"
RANGE = {"start": {"line": 0, "character": 0}, "end": {"line": 0, "character": 7}}
DIAGNOSTIC = {"range": RANGE, "severity": 1, "code": "a/b", "source": "x", "message": "No fuse.", "data": {"signal": "danger"}}


def sound():
    """A session without a fault."""
    return [
        {"way": "in", "msg": {"jsonrpc": "2.0", "id": 1, "method": "initialize", "params": {"capabilities": {}, "processId": None, "rootUri": None}}},
        {"way": "out", "msg": {"jsonrpc": "2.0", "id": 1, "result": {"capabilities": {"hoverProvider": True, "textDocumentSync": 2, "positionEncoding": "utf-8", "codeActionProvider": {"codeActionKinds": ["quickfix", "quickfix.waive"]}}}}},
        {"way": "in", "msg": {"jsonrpc": "2.0", "method": "initialized", "params": {}}},
        {"way": "out", "msg": {"jsonrpc": "2.0", "method": "textDocument/publishDiagnostics", "params": {"uri": URI, "version": 1, "diagnostics": [copy.deepcopy(DIAGNOSTIC)]}}},
        {"way": "in", "msg": {"jsonrpc": "2.0", "id": 2, "method": "textDocument/codeAction", "params": {}}},
        {"way": "out", "msg": {"jsonrpc": "2.0", "id": 2, "result": [{"title": "Fit a fuse", "kind": "quickfix", "edit": {"changes": {URI: [{"range": RANGE, "newText": "x"}]}}}]}},
        {"way": "in", "msg": {"jsonrpc": "2.0", "id": 3, "method": "textDocument/hover", "params": {}}},
        {"way": "out", "msg": {"jsonrpc": "2.0", "id": 3, "result": None}},
        {"way": "out", "msg": {"jsonrpc": "2.0", "method": "textDocument/publishDiagnostics", "params": {"uri": URI, "version": 2, "diagnostics": []}}},
        {"way": "in", "msg": {"jsonrpc": "2.0", "id": 4, "method": "shutdown"}},
        {"way": "out", "msg": {"jsonrpc": "2.0", "id": 4, "result": None}},
    ]


def diagnostic(session):
    return session[3]["msg"]["params"]["diagnostics"][0]


def put(container, key, value):
    container[key] = value


# What is changed in the sound session, and a word of the fault that must be reported.
CHANGES = [
    ("a property is missing", lambda s: diagnostic(s).pop("message"), "lacks message"),
    ("a property is not known", lambda s: put(diagnostic(s), "signal", "danger"), "has no signal"),
    ("null where it must be left out", lambda s: put(diagnostic(s), "code", None), "null"),
    ("a word that no list has", lambda s: put(diagnostic(s), "severity", 5), "DiagnosticSeverity"),
    ("text for a number", lambda s: put(diagnostic(s)["range"]["start"], "line", "0"), "not of type int"),
    ("a flag for a number", lambda s: put(diagnostic(s)["range"]["start"], "line", True), "not of type int"),
    ("a line below zero", lambda s: put(diagnostic(s)["range"]["start"], "line", -1), "-1"),
    ("a range turned round", lambda s: put(diagnostic(s)["range"]["start"], "line", 9), "before it starts"),
    ("an older version", lambda s: put(s[8]["msg"]["params"], "version", 0), "after 1"),
    ("an unknown capability", lambda s: put(s[1]["msg"]["result"]["capabilities"], "hover", True), "has no hover"),
    ("an action without a title", lambda s: s[5]["msg"]["result"][0].pop("title"), "lacks title"),
    ("an answer missing", lambda s: s.pop(7), "never answered"),
    ("an answer twice", lambda s: s.append(copy.deepcopy(s[7])), "no open request"),
    ("an answer to nothing", lambda s: put(s[7]["msg"], "id", 77), "no open request"),
    ("result and error", lambda s: put(s[7]["msg"], "error", {"code": 1, "message": "x"}), "either"),
    ("neither result nor error", lambda s: s[7]["msg"].pop("result"), "either"),
    ("an error without a code", lambda s: put(s, 7, {"way": "out", "msg": {"jsonrpc": "2.0", "id": 3, "error": {"message": "x"}}}), "lacks code"),
    ("a method of the editor", lambda s: put(s[3]["msg"], "method", "textDocument/didSave"), "only an editor"),
    ("a method that is none", lambda s: put(s[3]["msg"], "method", "textDocument/findings"), "no method"),
    ("too early", lambda s: s.insert(1, s.pop(3)), "before initialize"),
    ("no version of the envelope", lambda s: s[3]["msg"].pop("jsonrpc") and put(s[3]["msg"], "jsonrpc", 2), "jsonrpc"),
    ("bytes that are no message", lambda s: s.append({"way": "out", "fault": "12 bytes"}), "12 bytes"),
]


def main():
    failed = 0
    faults, checked = conformance.faults_of_recording(map(conformance.json.dumps, sound()))
    if faults or checked != 6:
        failed += 1
        print(f"the sound session: {checked} checked, {faults}")
    for name, change, word in CHANGES:
        session = sound()
        change(session)
        faults, _ = conformance.faults_of_recording(map(conformance.json.dumps, session))
        if not any(word in fault for fault in faults):
            failed += 1
            print(f"{name}: not noticed, but {faults}")
    print(f"conformance_test: {len(CHANGES) + 1} sessions, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
