"""The workflow of GitHub and the job of GitLab: held to their published schemas, their scripts run as the forges run them."""

import itertools
import json
import re

import yaml

from workshop import CLEAN, FAULTY, OTHER, must

# The inputs of the actions that the workflow uses, by name: what it gives them must be among these (from memory).
ACTIONS = {
    "actions/checkout": {"fetch-depth", "ref", "path", "submodules", "persist-credentials"},
    "actions/cache": {"path", "key", "restore-keys"},
    "github/codeql-action/upload-sarif": {"sarif_file", "category", "checkout_path", "wait-for-processing"},
}
# What the steps may depend on: whether they run, by the job so far. Nothing is cached here.
CONDITIONS = {
    None: lambda job: not job.failed,
    "steps.cached.outputs.cache-hit != 'true'": lambda job: not job.failed,
    "always() && steps.review.outcome != 'skipped'": lambda job: "review" in job.status,
    "steps.review.outcome != 'skipped'": lambda job: not job.failed,
}


def valid(shop, schema, name, text):
    path = shop.folder / name
    path.write_text(text)
    status, said = shop.run("check-jsonschema", "--builtin-schema", schema, str(path), at=shop.folder)
    must(status == 0, f"not by its schema: {said[-900:]}")
    return yaml.safe_load(text)


def tool(shop):
    """A repository that stands for ours, and its commit: what a recipe installs from."""
    repository = shop.folder / "tool"
    (repository / "crates/coachwright").mkdir(parents=True)
    (repository / "crates/coachwright/Cargo.toml").write_bytes((shop.root / "crates/coachwright/Cargo.toml").read_bytes())
    shop.git("init", "--quiet", at=repository)
    shop.git("add", "--all", at=repository)
    shop.git("commit", "--quiet", "--message", "The tool", at=repository)
    return f"file://{repository}", shop.git("rev-parse", "HEAD", at=repository)


def filled(value, given):
    """A text with its expressions filled in."""

    def one(expression):
        must(expression[1] in given, f"there is no value for {expression[0]}")
        return str(given[expression[1]])

    return re.sub(r"\$\{\{ *(.*?) *\}\}", one, str(value))


class Job:
    """One job of the workflow in one checkout, for one place of its matrix."""

    def __init__(self, shop, checkout, given, environment):
        self.shop, self.checkout, self.given, self.environment = shop, checkout, given, environment
        self.failed, self.said, self.status = False, "", {}

    def run(self, steps):
        for step in steps:
            condition = step.get("if")
            must(condition in CONDITIONS, f"a condition that is not tried here: {condition}")
            if not CONDITIONS[condition](self):
                continue
            with_ = {key: filled(value, self.given) for key, value in step.get("with", {}).items()}
            if "uses" in step:
                self.use(step["uses"], with_)
            else:
                own = {key: filled(value, self.given) for key, value in step.get("env", {}).items()}
                must("${{" not in step["run"], f"an expression in a script: {step['run']}")
                script = self.shop.folder / "step.sh"
                script.write_text(step["run"])
                status, said = self.shop.run("bash", "-e", str(script), at=self.checkout, **self.environment, **own)
                self.status[step.get("id")] = status
                self.failed |= status != 0
                self.said += said
        return self

    def use(self, action, with_):
        name, _, version = action.partition("@")
        must(name in ACTIONS and version, f"an action that is not known here: {action}")
        must(set(with_) <= ACTIONS[name], f"{name} has no inputs {sorted(set(with_) - ACTIONS[name])}")
        if "sarif_file" in with_:
            document = self.checkout / with_["sarif_file"]
            must(document.is_file(), f"there is no file {document.name} to upload")
            self.results = json.loads(document.read_text())["runs"][0]["results"]
            self.category = with_["category"]


def jobs(shop, workflow, installed, checkout, base=""):
    """Runs the one job of a workflow at every place of its matrix."""
    (job,) = workflow["jobs"].values()
    matrix = job["strategy"]["matrix"]
    address, commit = installed
    ran = []
    for place in itertools.product(*matrix.values()):
        given = {f"matrix.{key}": value for key, value in zip(matrix, place)}
        given |= {"vars.COACHWRIGHT": address, "vars.COACHWRIGHT_COMMIT": commit, "runner.os": "Linux"}
        summary = shop.folder / "summary"
        summary.write_text("")
        for left in ("coachwright.sarif", "summary.md"):
            (checkout / left).unlink(missing_ok=True)
        environment = {"GITHUB_STEP_SUMMARY": str(summary), "GITHUB_BASE_REF": base, "GITHUB_ACTIONS": "true", "CI": "true"}
        one = Job(shop, checkout, given, environment).run(job["steps"])
        must("review" in one.status, f"the review was not reached: {one.said[-900:]}")
        must(one.status["review"] in (0, 1), f"the review could not do its work: {one.said[-900:]}")
        must(one.failed == (one.status["review"] == 1), f"another step failed than the review: {one.said[-900:]}")
        must("builds reviewed" in summary.read_text() or "build reviewed" in summary.read_text(), "there is no summary")
        must(hasattr(one, "results"), "no SARIF is uploaded")
        one.summary = summary.read_text()
        ran.append(one)
    must(len({one.category for one in ran}) == len(ran), "the uploads take each other's place")
    return ran


def reviewed(ran):
    return sum(int(re.search(r"(\d+) builds? reviewed", one.summary)[1]) for one in ran)


def github(shop, text):
    workflow = valid(shop, "vendor.github-workflows", "review.yml", text)
    origin, installed = shop.repository("origin", CLEAN, OTHER), tool(shop)

    def checkout(name):
        # With the branches and their history, as long as the recipe asks for it; else with one commit that no branch names.
        deep = any(step.get("with", {}).get("fetch-depth") == 0 for job in workflow["jobs"].values() for step in job["steps"])
        shop.git("clone", "--quiet", *([] if deep else ["--depth", "1"]), f"file://{origin}", name, at=shop.folder)
        if not deep:
            shop.git("remote", "remove", "origin", at=shop.folder / name)
        return shop.folder / name

    ran = jobs(shop, workflow, installed, checkout("clean"))
    must(not any(one.failed or one.results for one in ran), f"clean builds are held: {ran[0].said[-900:]}")
    must(reviewed(ran) == 2, f"{reviewed(ran)} of 2 builds were reviewed")
    yield "clean builds pass, each in one share"

    shop.add(origin, FAULTY)
    shop.git("commit", "--quiet", "--message", "A faulty build", at=origin)
    ran = jobs(shop, workflow, installed, checkout("faulty"))
    must(sorted(one.failed for one in ran) == [False, False, True], "a faulty build does not hold one share of three")
    (held,) = [one for one in ran if one.failed]
    must(re.search(rf"^::(error|warning) [^:]*file=vans/{re.escape(FAULTY)},", held.said, re.MULTILINE), "nothing is annotated")
    must(held.results and FAULTY.removesuffix(".kdl").split(".")[0] in held.summary.replace("\\", ""), "the finding is not in the documents")
    must(reviewed(ran) == 3, f"{reviewed(ran)} of 3 builds were reviewed")
    yield "a faulty build holds its share, with annotations, summary and SARIF"

    # The branch of a pull request: what main has already does not hold it, what it brings does.
    request = checkout("request")
    must(not any(one.failed for one in jobs(shop, workflow, installed, request, base="main")), "a pull request is held by what main has")
    build = request / "vans" / CLEAN
    build.write_text(build.read_text() + '\nbattery spare chemistry=LFP voltage="12.8 V" capacity="90 Ah"\n')
    ran = jobs(shop, workflow, installed, request, base="main")
    must(sum(one.failed for one in ran) == 1, "what a pull request brings does not hold it")
    yield "a pull request is held by what it brings alone"
    must(f"+{shop.rust} " in text and f"install {shop.rust} " in text, f"the toolchain is not {shop.rust}")


def gitlab(shop, text):
    (job,) = valid(shop, "vendor.gitlab-ci", "gitlab-ci.yml", text).values()
    must(job["image"] == f"rust:{shop.rust}", f"the image has not Rust {shop.rust}")
    address, commit = tool(shop)

    def run(name, *builds):
        checkout = shop.repository(name, *builds)
        given = {"CI_PROJECT_DIR": str(checkout), "COACHWRIGHT": address, "COACHWRIGHT_COMMIT": commit, "CI": "true", "GITLAB_CI": "true"}
        # The forge fills variables into variables before a shell sees them.
        for key, value in job.get("variables", {}).items():
            given[key] = re.sub(r"\$(\w+)", lambda found: given.get(found[1], ""), str(value))
        script = shop.folder / "job.sh"
        script.write_text("\n".join([*job.get("before_script", []), *job["script"]]) + "\n")
        status, said = shop.run("bash", "-eo", "pipefail", str(script), at=checkout, **given)
        kept = {}
        if status == 0 or job["artifacts"].get("when") in ("always", "on_failure"):
            for form, path in job["artifacts"]["reports"].items():
                must((checkout / path).is_file(), f"there is no file {path} for the report {form}: {said[-900:]}")
                kept[form] = (checkout / path).read_text()
        cached = [path for path in job["cache"]["paths"] if (checkout / path / "bin/coachwright").exists()]
        must(cached, "the program is not in what is cached")
        return status, said, kept

    status, said, kept = run("clean", CLEAN, OTHER)
    must(status == 0, f"clean builds are held, or the job cannot run: {said[-900:]}")
    must(json.loads(kept["codequality"]) == [] and "<failure" not in kept["junit"], "there are findings in clean builds")
    yield "clean builds pass"
    status, said, kept = run("faulty", CLEAN, FAULTY)
    must(status == 1 and "The build is held" in said, f"the job ends with {status}, not 1, on a faulty build: {said[-900:]}")
    must(set(kept) == {"codequality", "junit"}, f"the reports of a failed job are {sorted(kept)}")
    must(json.loads(kept["codequality"]) and "<failure" in kept["junit"], "the finding is not in the reports")
    yield "a faulty build holds the job, and both reports are kept"
