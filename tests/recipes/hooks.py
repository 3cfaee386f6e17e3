"""The recipes that git runs itself: a hook, and pre-commit."""

import json

from workshop import CLEAN, FAULTY, OTHER, PIECE, must

FINDING = "    Rule "  # Each finding that is shown in full names its rule so.


def pre_push(shop, text):
    shop.has_program()
    repository, remote = shop.repository("builds", CLEAN), shop.folder / "remote.git"
    shop.git("init", "--quiet", "--bare", str(remote), at=shop.folder)
    shop.git("remote", "add", "origin", str(remote), at=repository)
    hook = repository / ".git/hooks/pre-push"
    hook.write_text(text)
    hook.chmod(0o755)
    sarif = repository / "coachwright.sarif"

    status, said = shop.run(str(hook), at=repository)
    must(status == 0, f"the hook ends with {status} on clean builds: {said[-500:]}")
    status, said = shop.run("git", "push", "origin", "main", at=repository)
    must(status == 0 and "main" in shop.git("branch", "--list", at=remote), f"clean builds are not pushed: {said[-500:]}")
    must(sarif.is_file() and not json.loads(sarif.read_text())["runs"][0]["results"], "there is no SARIF without results")
    yield "clean builds are pushed"

    shop.add(repository, FAULTY)
    shop.git("commit", "--quiet", "--message", "A faulty build", at=repository)
    status, said = shop.run(str(hook), at=repository)
    must(status == 1, f"the hook ends with {status}, not 1, on a faulty build: {said[-500:]}")
    before = shop.git("rev-parse", "main", at=remote)
    status, said = shop.run("git", "push", "origin", "main", at=repository)
    must(status != 0 and shop.git("rev-parse", "main", at=remote) == before, "a faulty build is pushed")
    must(FINDING in said and FAULTY in said, f"the finding is not shown: {said[-500:]}")
    must(json.loads(sarif.read_text())["runs"][0]["results"], "the SARIF has no results")
    yield "a faulty build is not"

    # What git tells the hooks of a linked work tree must not lead astray what is compared.
    linked = shop.folder / "linked"
    shop.git("worktree", "add", "--quiet", "-b", "other", str(linked), at=repository)
    hook.rename(hook.with_name("pre-commit"))
    hook.with_name("pre-commit").write_text(text.replace("review .", "review vans --only-new-since main"))
    for place in (repository, linked):
        status, said = shop.run("git", "commit", "--quiet", "--allow-empty", "--message", "Nothing new", at=place)
        must(status == 0, f"a commit in {place.name} without anything new since main is refused: {said[-500:]}")
    yield "with --only-new-since, also in a linked work tree, only what is new counts"


def pre_commit(shop, text):
    shop.has_program()
    repository = shop.repository("builds", OTHER)
    (repository / ".pre-commit-config.yaml").write_text(text)
    status, said = shop.run("pre-commit", "validate-config", at=repository)
    must(status == 0 and "WARNING" not in said, f"pre-commit does not take it: {said[-500:]}")
    shop.git("add", "--all", at=repository)
    status, said = shop.run("pre-commit", "install", at=repository)
    must(status == 0, f"pre-commit cannot be installed: {said[-500:]}")

    def commit(words):
        before = shop.git("rev-parse", "HEAD", at=repository)
        status, said = shop.run("git", "commit", "--message", words, at=repository)
        after = shop.git("rev-parse", "HEAD", at=repository)
        must((status == 0) == (before != after), f"git ends with {status}: {said[-500:]}")
        return status == 0, said

    shop.add(repository, CLEAN)
    done, said = commit("A clean build")
    must(done and "Passed" in said, f"a clean build is refused, or not looked at: {said[-900:]}")
    with (repository / "vans" / PIECE).open("a") as piece:
        piece.write("// A word more.\n")
    shop.git("add", "--all", at=repository)
    done, said = commit("A piece of a build")
    must(done and "Passed" in said, f"a change to a piece is refused, or not looked at: {said[-900:]}")
    yield "a clean build is committed, and a piece of one"

    (repository / "vans" / PIECE).write_text("circuit {\n")
    shop.git("add", "--all", at=repository)
    done, said = commit("A broken piece of a build")
    must(not done and PIECE in said, f"a piece that spoils a build is committed: {said[-900:]}")
    shop.git("checkout", "--quiet", "HEAD", "--", ".", at=repository)
    shop.add(repository, FAULTY)
    done, said = commit("A faulty build")
    must(not done and FINDING in said and FAULTY in said, f"a faulty build is committed, or not told of: {said[-900:]}")
    yield "a piece that spoils a build, and a faulty build, are refused"
