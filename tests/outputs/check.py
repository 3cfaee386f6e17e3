"""Reads the machine forms of reviews by programs that others wrote.

    check.py FOLDER TOOLS [SOURCES ...]

FOLDER holds NAME.sarif, NAME.junit.xml, NAME.gitlab.json, NAME.github.txt, NAME.md and, where counts are to be compared,
NAME.jsonl (the reviews of `--as json`, one a line). TOOLS holds node_modules. The files that were reviewed are looked for by
their paths below each of SOURCES; regions are checked against them. Exit status 1 and a line for each fault.
"""

import html.parser
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import urllib.parse

import jsonschema
import junitparser
import markdown_it

HERE = pathlib.Path(__file__).parent
faults = []


def fault(path, words):
    faults.append(f"{path}: {words}")


def reviews(path, ending):
    """Our own JSON of the same run, if it is there."""
    own = path.with_name(path.name.removesuffix(ending) + ".jsonl")
    return [json.loads(line) for line in own.read_text(encoding="utf-8").splitlines() if line] if own.exists() else None


# SARIF: Microsoft's multitool validates; the regions are counted again here.


def multitool(paths, tools):
    program = tools / "node_modules/@microsoft/sarif-multitool-linux/Sarif.Multitool"
    program.chmod(0o755)
    environment = os.environ | {"DOTNET_SYSTEM_GLOBALIZATION_INVARIANT": "1"}
    with tempfile.TemporaryDirectory() as folder:
        out = pathlib.Path(folder) / "out.sarif"
        command = [program, "validate", *paths, "--output", out, "--log", "ForceOverwrite"]
        run = subprocess.run(command, capture_output=True, text=True, env=environment, check=False)
        if not out.exists():
            return fault(paths[0].parent, f"the multitool says nothing: {run.stdout[-500:]}{run.stderr[-500:]}")
        run = json.loads(out.read_text(encoding="utf-8-sig"))["runs"][0]
    if len(run.get("artifacts", [])) < len(paths) and run["invocations"][0].get("toolExecutionNotifications"):
        fault(paths[0].parent, f"the multitool could not look at every file: {run['invocations'][0]['toolExecutionNotifications'][:2]}")
    for result in run.get("results", []):
        if result.get("level", "warning") == "error":
            uri = result["locations"][0]["physicalLocation"]["artifactLocation"].get("uri", "?")
            fault(uri, f"{result['ruleId']}: {json.dumps(result['message'])[:300]}")


def regions(node):
    """Every location with a region, and every replacement."""
    if isinstance(node, dict):
        if "region" in node and "artifactLocation" in node:
            yield node["artifactLocation"]["uri"], node["region"]
        if "replacements" in node:
            for replacement in node["replacements"]:
                yield node["artifactLocation"]["uri"], replacement["deletedRegion"]
        for value in node.values():
            yield from regions(value)
    elif isinstance(node, list):
        for value in node:
            yield from regions(value)


def sarif(path, sources, read):
    document = json.loads(path.read_text(encoding="utf-8"))
    (run,) = document["runs"]
    if (run["columnKind"], run["newlineSequences"]) != ("unicodeCodePoints", ["\r\n", "\n", "\r"]):
        fault(path, "columns are not counted in code points")
    ends = re.compile("\r\n|\n|\r")
    for uri, region in regions(run["results"]):
        name = urllib.parse.unquote(uri)
        if name not in read:
            found = [source / name for source in sources if (source / name).exists()]
            text = found[0].read_bytes().decode("utf-8-sig") if found else None
            read[name] = text, text is not None and [0] + [end.end() for end in ends.finditer(text)]
        text, starts = read[name]
        if text is None:
            fault(path, f"{uri} leads to no file that was reviewed")
            continue
        start = starts[region["startLine"] - 1] + region["startColumn"] - 1
        end = starts[region["endLine"] - 1] + region["endColumn"] - 1
        if (start, end - start) != (region["charOffset"], region["charLength"]) or not 0 <= start <= end <= len(text):
            fault(path, f"a region of {uri} contradicts itself: {region}")
    names = [result["partialFingerprints"]["buildRulePart/v1"] for result in run["results"]]
    builds = {result["properties"]["build"] for result in run["results"]}
    if len(builds) > 1 and len({name[:16] for name in names}) != len(builds):
        fault(path, "fingerprints do not tell the builds apart")
    for result in run["results"]:
        if (result["kind"] == "open") != (result["level"] == "none"):
            fault(path, f"kind and level contradict each other: {result['ruleId']}")
    own = reviews(path, ".sarif")
    if own is not None:
        waived = sum(1 for result in run["results"] if result.get("suppressions"))
        kinds = [result["kind"] for result in run["results"] if not result.get("suppressions")]
        mine = kinds.count("fail"), kinds.count("open"), waived
        theirs = tuple(sum(len(review[key]) for review in own) for key in ("findings", "undecided", "waived"))
        if mine != theirs:
            fault(path, f"{mine} failed, undecided and waived, and {theirs} in our JSON")


def junit(path):
    raw = path.read_text(encoding="utf-8")
    try:
        suites = list(junitparser.JUnitXml.fromstring(raw.encode()))
    except Exception as error:  # Whatever the reader raises, the file cannot be read.
        return fault(path, f"junitparser: {error}")
    read = []
    for suite in suites:
        cases = list(suite)
        results = [result for case in cases for result in case.result]
        count = lambda kind: sum(isinstance(result, kind) for result in results)
        counted = count(junitparser.Failure), count(junitparser.Error), count(junitparser.Skipped)
        if not cases or (suite.tests, suite.failures, suite.errors, suite.skipped) != (len(cases), *counted):
            fault(path, f"the counts of suite {suite.name!r} are not those of its cases")
        if not counted[1]:
            read.append((suite.name, counted[0], counted[2]))
    own = reviews(path, ".junit.xml")
    if own is not None:
        mine = [
            (review["files"][0].removeprefix("./"), sum(review["counts"]["failed"].values()),
             sum(review["counts"]["undecided"].values()) + review["counts"]["waived"])
            for review in own
        ]
        if sorted(read) != sorted(mine):
            fault(path, f"suites {sorted(set(read) ^ set(mine))[:4]} differ from our JSON")


def gitlab(path):
    entries = json.loads(path.read_text(encoding="utf-8"))
    schema = json.loads((HERE / "gitlab-code-quality.schema.json").read_text(encoding="utf-8"))
    for error in list(jsonschema.Draft202012Validator(schema).iter_errors(entries))[:5]:
        fault(path, f"{error.json_path}: {error.message[:200]}")
    prints = [entry.get("fingerprint") for entry in entries]
    if len(set(prints)) != len(prints):
        fault(path, "two entries have the same fingerprint")
    own = reviews(path, ".gitlab.json")
    if own is not None:
        mine = sum(entry.get("check_name") != "unread" for entry in entries)
        theirs = sum(len(review["findings"]) + len(review["undecided"]) for review in own)
        if mine != theirs:
            fault(path, f"{mine} entries, and {theirs} in our JSON")


COMMAND = re.compile(r"::(error|warning|notice) ([^:]*)::(.*)")
TOOLKIT = {"title": "title", "file": "file", "line": "startLine", "endLine": "endLine", "col": "startColumn", "endColumn": "endColumn"}
LAST = re.compile(r"(\d+ builds? reviewed, \d+ held(, \d+ builds? not read)?\.|CAUTION: [A-Za-z ,.()']+)")


def unescaped(text, more=()):
    for escape, character in [*more, ("%0D", "\r"), ("%0A", "\n"), ("%25", "%")]:
        text = text.replace(escape, character)
    return text


def github(path, tools):
    commands, written = [], []
    # Only a line feed ends a line of ours; every other control character is one too many.
    lines = path.read_text(encoding="utf-8").split("\n")
    for number, line in enumerate(lines, 1):
        if re.search(r"[\x00-\x1f\x7f-\x9f\u2028\u2029]", line):
            fault(path, f"line {number} has a control character")
        if not line or LAST.fullmatch(line):
            continue
        match = COMMAND.fullmatch(line)
        if not match:
            fault(path, f"line {number} is neither an annotation nor ours: {line[:80]!r}")
            continue
        properties = dict(part.split("=", 1) for part in match[2].split(","))
        if not set(properties) <= set(TOOLKIT) or not properties.get("file"):
            fault(path, f"line {number} has other properties: {sorted(properties)}")
            continue
        plain = {TOOLKIT[key]: unescaped(value, [("%3A", ":"), ("%2C", ",")]) for key, value in properties.items()}
        commands.append({"name": match[1], "message": unescaped(match[3]), "properties": plain})
        written.append((match[1], properties, match[3]))
    text = "".join(json.dumps(command) + "\n" for command in commands)
    run = subprocess.run(["node", HERE / "reissue.cjs", tools], input=text, capture_output=True, text=True, check=False)
    again = [COMMAND.fullmatch(line) for line in run.stdout.split("\n") if line]
    again = [match and (match[1], dict(part.split("=", 1) for part in match[2].split(",")), match[3]) for match in again]
    if run.returncode or again != written:
        fault(path, f"GitHub's toolkit writes the annotations otherwise {run.stderr[:200]}")


class Rendered(html.parser.HTMLParser):
    """Keeps to the tags that a summary needs, without attributes but the alignment of cells."""

    ALLOWED = {"details", "summary", "code", "strong", "p", "ul", "li", "table", "thead", "tbody", "tr", "th", "td", "h2", "br"}

    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.open, self.rows, self.details, self.wrong = [], 0, 0, []

    def handle_startendtag(self, tag, attributes):
        if tag != "br" or attributes:
            self.wrong.append(f"<{tag} {attributes} />")

    def handle_starttag(self, tag, attributes):
        if tag not in self.ALLOWED or any(not (tag in {"td", "th"} and key == "style") for key, _ in attributes):
            self.wrong.append(f"<{tag} {attributes}>")
        self.rows += tag == "tr"
        self.details += tag == "details"
        self.open.append(tag)

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.wrong.append(f"</{tag}> where it closes nothing")

    def handle_data(self, data):
        # A forge makes mentions, references and links of what stands in one piece of text.
        if re.search(r"(?<!\w)[@#!~$&^%](?=[\w\"{])|https?://|www\.\w|\bGH-\d|\S@\S", data):
            self.wrong.append(f"a mention, a reference or a link in {data[:80]!r}")

    def handle_comment(self, data):
        if data.strip():
            self.wrong.append(f"comment {data!r}")

    def handle_decl(self, decl):
        self.wrong.append(f"declaration {decl!r}")

    def handle_pi(self, data):
        self.wrong.append(f"instruction {data!r}")

    unknown_decl = handle_decl


def markdown(path):
    text = path.read_text(encoding="utf-8")
    if re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]", text):
        fault(path, "it has a control character")
    rendered = markdown_it.MarkdownIt("gfm-like", {"html": True, "linkify": True}).render(text)
    parser = Rendered()
    parser.feed(rendered)
    parser.close()
    for wrong in [*parser.wrong, *parser.open][:5]:
        fault(path, f"rendered: {wrong}")
    if "does not replace local codes" not in text[-400:]:
        fault(path, "it does not end with the caution")
    own = reviews(path, ".md")
    if own is not None:
        unread = text.count("could not be read, and nothing of it was checked:")
        rows = len(own) + unread
        if (parser.rows, parser.details) != (rows + 1 if rows else 0, len(own)):
            fault(path, f"{parser.rows} rows and {parser.details} folded builds for {len(own)} builds and {unread} unread")


def main():
    folder, tools, *sources = map(pathlib.Path, sys.argv[1:])
    found = {ending: sorted(folder.glob(f"*{ending}")) for ending in (".sarif", ".junit.xml", ".gitlab.json", ".github.txt", ".md")}
    if not any(found.values()):
        sys.exit(f"{folder} holds no file of any form")
    read = {}
    checks = {".sarif": lambda path: sarif(path, sources, read), ".junit.xml": junit, ".gitlab.json": gitlab,
              ".github.txt": lambda path: github(path, tools), ".md": markdown}
    if found[".sarif"]:
        multitool(found[".sarif"], tools)
    for ending, paths in found.items():
        for path in paths:
            try:
                checks[ending](path)
            except Exception as error:  # A file that cannot even be taken apart is broken.
                fault(path, f"{type(error).__name__}: {error}")
    for line in faults:
        print(line)
    print(", ".join(f"{len(paths)} {ending}" for ending, paths in found.items()), f"read; {len(faults)} faults")
    sys.exit(bool(faults))


main()
