"""The conformance check notices what is wrong: a sound session, and what comes of it by one change each.

Run: python conformance_test.py
"""

import contextlib
import copy
import importlib.machinery
import importlib.util
import io
import pathlib
import sys
import tempfile

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
        {"direction": "client", "message": {"jsonrpc": "2.0", "id": 1, "method": "initialize", "params": {"capabilities": {}, "processId": None, "rootUri": None}}},
        {"direction": "server", "message": {"jsonrpc": "2.0", "id": 1, "result": {"capabilities": {"hoverProvider": True, "textDocumentSync": 2, "positionEncoding": "utf-8", "codeActionProvider": {"codeActionKinds": ["quickfix", "quickfix.waive"]}}}}},
        {"direction": "client", "message": {"jsonrpc": "2.0", "method": "initialized", "params": {}}},
        {"direction": "server", "message": {"jsonrpc": "2.0", "method": "textDocument/publishDiagnostics", "params": {"uri": URI, "version": 1, "diagnostics": [copy.deepcopy(DIAGNOSTIC)]}}},
        {"direction": "client", "message": {"jsonrpc": "2.0", "id": 2, "method": "textDocument/codeAction", "params": {"textDocument": {"uri": URI}, "range": RANGE, "context": {"diagnostics": []}}}},
        {"direction": "server", "message": {"jsonrpc": "2.0", "id": 2, "result": [{"title": "Fit a fuse", "kind": "quickfix", "edit": {"changes": {URI: [{"range": RANGE, "newText": "x"}]}}}]}},
        {"direction": "client", "message": {"jsonrpc": "2.0", "id": 3, "method": "textDocument/hover", "params": {"textDocument": {"uri": URI}, "position": RANGE["start"]}}},
        {"direction": "server", "message": {"jsonrpc": "2.0", "id": 3, "result": None}},
        {"direction": "server", "message": {"jsonrpc": "2.0", "method": "textDocument/publishDiagnostics", "params": {"uri": URI, "version": 2, "diagnostics": []}}},
        {"direction": "client", "message": {"jsonrpc": "2.0", "id": 4, "method": "shutdown"}},
        {"direction": "server", "message": {"jsonrpc": "2.0", "id": 4, "result": None}},
    ]


def diagnostic(session):
    return session[3]["message"]["params"]["diagnostics"][0]


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
    ("an older version", lambda s: put(s[8]["message"]["params"], "version", 0), "after 1"),
    ("an unknown capability", lambda s: put(s[1]["message"]["result"]["capabilities"], "hover", True), "has no hover"),
    ("an action without a title", lambda s: s[5]["message"]["result"][0].pop("title"), "lacks title"),
    ("an answer missing", lambda s: s.pop(7), "never answered"),
    ("an answer twice", lambda s: s.append(copy.deepcopy(s[7])), "no open request"),
    ("an answer to nothing", lambda s: put(s[7]["message"], "id", 77), "no open request"),
    ("result and error", lambda s: put(s[7]["message"], "error", {"code": 1, "message": "x"}), "either"),
    ("neither result nor error", lambda s: s[7]["message"].pop("result"), "either"),
    ("an error without a code", lambda s: put(s, 7, {"direction": "server", "message": {"jsonrpc": "2.0", "id": 3, "error": {"message": "x"}}}), "lacks code"),
    ("a method of the client from the server", lambda s: put(s[3]["message"], "method", "textDocument/didSave"), "only the other side"),
    ("a method that is none", lambda s: put(s[3]["message"], "method", "textDocument/findings"), "no method"),
    ("too early", lambda s: s.insert(1, s.pop(3)), "before initialize"),
    ("no version of the envelope", lambda s: s[3]["message"].pop("jsonrpc") and put(s[3]["message"], "jsonrpc", 2), "jsonrpc"),
    ("a request of the client without its place", lambda s: s[6]["message"]["params"].pop("position"), "lacks position"),
    ("an unknown word of the client", lambda s: put(s[0]["message"]["params"], "trace", "loud"), "TraceValue"),
    ("a method of the client that is none", lambda s: put(s[6]["message"], "method", "textDocument/over"), "no method"),
    ("a method of the server from the client", lambda s: put(s[2]["message"], "method", "textDocument/publishDiagnostics"), "only the other side"),
    ("an id that is still in use", lambda s: put(s[6]["message"], "id", 2) or s.insert(5, s.pop(6)), "still in use"),
    ("a message that is no object", lambda s: put(s[3], "message", []), "no object"),
    ("bytes that are no message", lambda s: s.append({"direction": "server", "fault": "12 bytes"}), "12 bytes"),
]
CHANGES_BY_NAME = {name: change for name, change, _ in CHANGES}


def say(session, sender, **message):
    session.append({"direction": sender, "message": {"jsonrpc": "2.0", **message}})


# What a client may say in an odd recording, or the server about it, without a fault being found.
FORGIVEN = [
    ("a request without its place", CHANGES_BY_NAME["a request of the client without its place"]),
    ("a method that is none, answered by an error", lambda s: say(s, "client", id=9, method="x/y") or say(s, "server", id=9, error={"code": -32601, "message": "x"})),
    ("an id twice, answered twice", lambda s: [say(s, "client", id=9, method="shutdown") for _ in "12"] and [say(s, "server", id=9, result=None) for _ in "12"]),
    ("no answer, since the client is gone", CHANGES_BY_NAME["an answer missing"]),
    ("versions that go back", CHANGES_BY_NAME["an older version"]),
    ("an error about what is no request", lambda s: say(s, "server", id=None, error={"code": -32700, "message": "x"})),
    ("bytes of the client that are no message", lambda s: s.append({"direction": "client", "fault": "12 bytes"})),
]
# What is a fault of the server in an odd recording too, and a word of it.
NOT_FORGIVEN = [
    ("a property is missing", CHANGES_BY_NAME["a property is missing"], "lacks message"),
    ("an answer twice", CHANGES_BY_NAME["an answer twice"], "no open request"),
    ("an error without a code", CHANGES_BY_NAME["an error without a code"], "lacks code"),
    ("a result for a method that is none", lambda s: say(s, "client", id=9, method="x/y") or say(s, "server", id=9, result=None), "method that is none"),
    ("bytes of the server that are no message", CHANGES_BY_NAME["bytes that are no message"], "12 bytes"),
    ("a result about what is no request", lambda s: say(s, "server", id=None, result=None), "no open request"),
]
# What real editors send in good recordings.
CUSTOMARY = [
    ("null for no parameters", lambda s: put(s[9]["message"], "params", None)),
    ("an ability of a later protocol", lambda s: put(s[0]["message"]["params"]["capabilities"], "textDocument", {"telepathy": True})),
]


def faults_after(change, odd):
    session = sound()
    change(session)
    return conformance.faults_of_recording(map(conformance.json.dumps, session), odd)[0]


def judged(files):
    """The status of the whole check for recordings by their names."""
    with tempfile.TemporaryDirectory() as folder, contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        for name, session in files.items():
            text = "".join(said if isinstance(said, str) else conformance.json.dumps(said, ensure_ascii=False) + "\n" for said in session)
            (pathlib.Path(folder) / name).write_bytes(text.encode())
        return conformance.main([folder])


def rude():
    session = sound()
    CHANGES_BY_NAME["a request of the client without its place"](session)
    return session


def foreign():
    """A message with what some take for an end of line."""
    session = sound()
    put(diagnostic(session), "message", "one\u2028two\x85three\rfour")
    return session


# Recordings in a folder, and whether they pass.
FOLDERS = [
    ("a sound one", {"a.jsonl": sound()}, True),
    ("none", {}, False),
    ("other ends of line within a message", {"a.jsonl": foreign()}, True),
    ("a line that was cut off", {"a.jsonl": [*sound(), '{"direction": "ser\n']}, False),
    ("an empty one", {"a.jsonl": []}, False),
    ("a rude client", {"a.jsonl": rude()}, False),
    ("a rude client that is said to be odd", {"odd-a.jsonl": rude()}, True),
    ("one of two is at fault", {"a.jsonl": sound(), "b.jsonl": rude()}, False),
    ("an odd one to which nothing was said, beside a sound one", {"odd-a.jsonl": [], "b.jsonl": sound()}, True),
    ("nothing but an odd one to which nothing was said", {"odd-a.jsonl": []}, False),
]


def main():
    failed = 0
    for name, files, passes in FOLDERS:
        if (judged(files) == 0) != passes:
            failed += 1
            print(f"{name}: {'refused' if passes else 'passed'}")
    faults, checked = conformance.faults_of_recording(map(conformance.json.dumps, sound()))
    if faults or checked != {"client": 5, "server": 6}:
        failed += 1
        print(f"the sound session: {checked} checked, {faults}")
    refused = [(*case, False) for case in CHANGES] + [(*case, True) for case in NOT_FORGIVEN]
    for name, change, word, odd in refused:
        faults = faults_after(change, odd)
        if not any(word in fault for fault in faults):
            failed += 1
            print(f"{name}: not noticed{' in an odd recording' * odd}, but {faults}")
    taken = [(*case, False) for case in CUSTOMARY] + [(*case, True) for case in FORGIVEN]
    for name, change, odd in taken:
        if faults := faults_after(change, odd):
            failed += 1
            print(f"{name}: refused, by {faults}")
    print(f"conformance_test: {len(refused) + len(taken) + len(FOLDERS) + 1} sessions, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
