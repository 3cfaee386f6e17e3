"""Whether the shares of a review hold together what the whole holds, no more and no less.

    shares.py WHOLE SHARES TOOLS

WHOLE and SHARES are folders with files of each form; each is merged as its readers do: JUnit XML by junitparser, SARIF by its
multitool, GitLab's report and our JSON by putting them one behind another. Exit status 1 and a line for each difference.
"""

import collections
import json
import os
import pathlib
import subprocess
import sys

import junitparser


def lines(paths):
    return [json.dumps(json.loads(line), sort_keys=True) for path in paths for line in path.read_text(encoding="utf-8").splitlines()]


def entries(paths):
    return [json.dumps(entry, sort_keys=True) for path in paths for entry in json.loads(path.read_text(encoding="utf-8"))]


def cases(paths):
    merged = junitparser.JUnitXml()
    for path in paths:
        merged += junitparser.JUnitXml.fromfile(str(path))
    merged.update_statistics()
    told = [(suite.name, case.classname, case.name, [(type(one).__name__, one.message) for one in case.result])
            for suite in merged for case in suite]
    if merged.tests != len(told):
        sys.exit(f"junitparser counts {merged.tests} tests, and there are {len(told)}")
    return [json.dumps(one) for one in told]


def results(paths, tools):
    program = tools / "node_modules/@microsoft/sarif-multitool-linux/Sarif.Multitool"
    program.chmod(0o755)
    folder = paths[0].parent / "merged"
    folder.mkdir(exist_ok=True)
    command = [program, "merge", *paths, "--output-directory", folder, "--output-file", "merged.sarif", "--log", "ForceOverwrite"]
    environment = os.environ | {"DOTNET_SYSTEM_GLOBALIZATION_INVARIANT": "1"}
    run = subprocess.run(command, capture_output=True, text=True, env=environment, check=False)
    if run.returncode or not (folder / "merged.sarif").exists():
        sys.exit(f"the multitool cannot merge: {run.stdout[-500:]}{run.stderr[-500:]}")
    apart = [result for path in paths for result in told(path)]
    # The multitool drops what is there twice.
    if set(told(folder / "merged.sarif")) != set(apart):
        sys.exit("the multitool merges other results than the files hold")
    return apart


def told(path):
    """What is told by each result of a SARIF file, whatever the places of rules and artifacts in it."""
    document = json.loads(path.read_text(encoding="utf-8-sig"))
    return [
        json.dumps([
            result["ruleId"] if "ruleId" in result else result["rule"]["id"],
            result.get("kind", "fail"), result.get("level", "warning"), result["partialFingerprints"]["buildRulePart/v1"],
            result["locations"][0]["physicalLocation"]["artifactLocation"].get("uri"), result["message"].get("text"),
            bool(result.get("suppressions")),
        ])
        for run in document["runs"] for result in run["results"]
    ]


def main():
    whole, shares, tools = map(pathlib.Path, sys.argv[1:])
    merging = {".jsonl": lines, ".gitlab.json": entries, ".junit.xml": cases, ".sarif": lambda paths: results(paths, tools)}
    different = 0
    for ending, merged in merging.items():
        files = {folder: sorted(folder.glob(f"*{ending}")) for folder in (whole, shares)}
        if not all(files.values()):
            sys.exit(f"there are no files {ending}")
        mine, theirs = (collections.Counter(merged(files[folder])) for folder in (whole, shares))
        for sign, left in (("only in the whole", mine - theirs), ("only in the shares", theirs - mine)):
            for one in list(left)[:3]:
                print(f"{ending}, {sign}: {one[:200]}")
            different += sum(left.values())
        print(f"{ending}: {len(files[shares])} shares hold {sum(theirs.values())}, the whole {sum(mine.values())}")
        if not mine:
            sys.exit(f"{ending}: the whole holds nothing, and shows nothing")
    sys.exit(bool(different))


main()
