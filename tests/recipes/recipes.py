"""Runs the recipes of the README as they stand there, then broken: recipes.py ROOT PROGRAM WORK"""

import concurrent.futures
import os
import pathlib
import re
import sys

import forges
import hooks
import known
from workshop import Fault, Shop

RECIPES = {
    ".git/hooks/pre-push": hooks.pre_push,
    ".pre-commit-config.yaml": hooks.pre_commit,
    ".github/workflows/review.yml": forges.github,
    ".gitlab-ci.yml": forges.gitlab,
    "known findings": known.findings,
    "house rules": known.house_rules,
}

# What somebody could get wrong in each recipe, and must be told of: the words, and what stands in their place.
BROKEN = [
    (".git/hooks/pre-push", "--as sarif", "--as sarf"),
    (".git/hooks/pre-push", "--to coachwright", "--too coachwright"),
    (".git/hooks/pre-push", "coachwright review", "coachwright reviews"),
    (".git/hooks/pre-push", "coachwright review .", "coachwright review . --hold-at never"),
    (".git/hooks/pre-push", "--to coachwright.sarif", "--to coachwright.sarif || true"),
    (".pre-commit-config.yaml", "coachwright review .", "coachwright review . --onlynew"),
    (".pre-commit-config.yaml", "pass_filenames: false", "pass_filename: false"),
    (".pre-commit-config.yaml", "pass_filenames: false", "pass_filenames: true"),
    (".pre-commit-config.yaml", "language: system", "language: sytem"),
    (".pre-commit-config.yaml", r"files: \.kdl$", r"files: \.kld$"),
    (".pre-commit-config.yaml", r"files: \.kdl$", r"files: \.build\.kdl$"),
    (".github/workflows/review.yml", "runs-on", "run-on"),
    (".github/workflows/review.yml", "security-events: write", "security-event: write"),
    (".github/workflows/review.yml", "fetch-depth", "fetch-deep"),
    (".github/workflows/review.yml", "        with:\n          fetch-depth: 0\n", ""),
    (".github/workflows/review.yml", "        share: [", "        shares: ["),
    (".github/workflows/review.yml", "/3", "/2"),
    (".github/workflows/review.yml", "--only-new-since", "--only-new-sinse"),
    (".github/workflows/review.yml", "GITHUB_BASE_REF", "GITHUB_BASE_REFERENCE"),
    (".github/workflows/review.yml", "--as markdown", "--as md"),
    (".github/workflows/review.yml", "--to summary.md", "--to sumary.md"),
    (".github/workflows/review.yml", "$GITHUB_STEP_SUMMARY", "$GITHUB_SUMMARY"),
    (".github/workflows/review.yml", "sarif_file: coachwright", "sarif_file: coachwrihgt"),
    (".github/workflows/review.yml", "always() && steps", "steps"),
    (".github/workflows/review.yml", "cargo +1.95 install --locked", "cargo +1.95 install --lock"),
    (".github/workflows/review.yml", "$COACHWRIGHT\"", "$COACHRIGHT\""),
    (".github/workflows/review.yml", "toolchain install 1.95", "toolchain install 1.90"),
    (".gitlab-ci.yml", "before_script", "beforescript"),
    (".gitlab-ci.yml", "codequality: code", "codequalty: code"),
    (".gitlab-ci.yml", "rust:1.95", "rust:1.90"),
    (".gitlab-ci.yml", "when: always", "when: alway"),
    (".gitlab-ci.yml", "    when: always\n", ""),
    (".gitlab-ci.yml", "--as junit", "--as junt"),
    (".gitlab-ci.yml", "--as gitlab --to codequality.json", "--as gitlab --to quality.json"),
    (".gitlab-ci.yml", "/bin:$PATH", "/bins:$PATH"),
    (".gitlab-ci.yml", "--rev", "--revision"),
    ("known findings", "--write-known", "--write-know"),
    ("known findings", "--known known", "--known knwon"),
    ("house rules", "house-rules ", "house-rule "),
    ("house rules", "coachwright prove", "coachwright proof"),
]


def recipes_of(readme):
    """The text of each recipe: fenced blocks whose first lines name a file, and the commands under two headings in bold."""
    found = {}
    for block in re.findall(r"^```\w+\n(.*?)^```$", readme, re.DOTALL | re.MULTILINE):
        named = [re.fullmatch(r"# file: (\S+)", line) for line in block.splitlines()[:2]]
        for name in filter(None, named):
            found[name[1]] = block
    section = re.search(r"^## On every saved specification\n(.*?)^## ", readme, re.DOTALL | re.MULTILINE)
    for heading, name in [("With builds that exist already", "known findings"), ("House rules", "house rules")]:
        text = section and re.search(rf"^\*\*{heading}\.\*\*(.*?)(?=^\*\*|\Z)", section[1], re.DOTALL | re.MULTILINE)
        if text:
            found[name] = text[1]
    if set(found) != set(RECIPES):
        raise Fault(f"the README has the recipes {sorted(found)}, and {sorted(RECIPES)} are tried here")
    return found


def main():
    root, program, work = map(pathlib.Path, sys.argv[1:])
    try:
        found = recipes_of((root / "README.md").read_text(encoding="utf-8"))
        for number, (name, check) in enumerate(RECIPES.items()):
            print(f"== {name}", flush=True)
            for line in check(Shop(root, program, work / str(number)), found[name]):
                print(f"   {line}", flush=True)
    except Fault as fault:
        sys.exit(f"{fault}")
    print("== broken recipes are refused", flush=True)
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as at_once:
        ran = [at_once.submit(refused, Shop(root, program, work / f"broken-{number}"), found, *broken) for number, broken in enumerate(BROKEN)]
        faults = [one.exception() for one in concurrent.futures.as_completed(ran) if one.exception()]
    for fault in faults:
        print(repr(fault) if not isinstance(fault, Fault) else fault)
    sys.exit(bool(faults))


def refused(shop, found, name, words, others):
    """Whether the check of a recipe notices that it is broken."""
    if words not in found[name]:
        raise Fault(f"{name} does not say {words!r}: mend the list of broken recipes")
    try:
        for _ in RECIPES[name](shop, found[name].replace(words, others)):
            pass
    except Fault as fault:
        print(f"   refused: {name}, {others!r} for {words!r} ({str(fault).splitlines()[0][:90]})", flush=True)
    else:
        raise Fault(f"{name} passes with {others!r} in place of {words!r}")


main()
