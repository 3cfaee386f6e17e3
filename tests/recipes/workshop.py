"""A folder to work in: repositories with demo builds, and programs that are run in them as nobody's machine."""

import os
import pathlib
import shutil
import subprocess
import sys

# A demo build with faults that hold it, and two without; the parts file is a piece of one of them.
FAULTY, CLEAN, OTHER, PIECE = "lupin-faulty.build.kdl", "bramble.build.kdl", "lupin.build.kdl", "shop.parts.kdl"
LONGEST = 300  # seconds that a command may take (chosen: each takes a few)


class Fault(Exception):
    """What a recipe does and should not."""


def must(held, words):
    if not held:
        raise Fault(words)


# Reads the command of cargo by cargo itself, and puts the program where it would put it.
CARGO = """#!/bin/bash
set -euo pipefail
[[ $1 = +* ]] && { [ "$1" = "+$RUST_VERSION" ] || { echo "the toolchain is not $RUST_VERSION: $1" >&2; exit 1; }; shift; }
env -u CARGO_INSTALL_ROOT HOME="$REAL_HOME" "$REAL_CARGO" "$@" --list >/dev/null
while [ $# -gt 0 ]; do
    case $1 in
    --git) repository=${2#file://}; git -C "$repository" cat-file -e HEAD; shift ;;
    --rev) git -C "$repository" cat-file -e "$2:crates/coachwright/Cargo.toml"; found=yes; shift ;;
    install) install=yes ;;
    --locked) locked=yes ;;
    coachwright) package=yes ;;
    *) echo "cargo: not looked for here: $1" >&2; exit 1 ;;
    esac
    shift
done
[ "${install-}${locked-}${package-}${found-}" = yesyesyesyes ] || { echo "cargo would not install it" >&2; exit 1; }
mkdir -p "${CARGO_INSTALL_ROOT:-$HOME/.cargo}/bin"
ln -sf "$PROGRAM" "${CARGO_INSTALL_ROOT:-$HOME/.cargo}/bin/coachwright"
"""
RUSTUP = """#!/bin/bash
[ "$*" = "toolchain install $RUST_VERSION --profile minimal" ] || { echo "rustup would not install $RUST_VERSION: $*" >&2; exit 1; }
"""


class Shop:
    """A folder of its own for one recipe."""

    def __init__(self, root, program, folder):
        self.root, self.program, self.folder = root, program, folder
        shutil.rmtree(folder, ignore_errors=True)
        (folder / "bin").mkdir(parents=True)
        (folder / "home").mkdir()
        for name, text in [("cargo", CARGO), ("rustup", RUSTUP)]:
            (folder / "bin" / name).write_text(text)
            (folder / "bin" / name).chmod(0o755)
        (folder / "home/.gitconfig").write_text(
            "[user]\nname = Builder\nemail = builder@example.org\n[init]\ndefaultBranch = main\n[gc]\nauto = 0\n"
        )
        kept = {key: value for key, value in os.environ.items() if not key.startswith(("GIT", "CI", "COACHWRIGHT", "PRE_COMMIT", "PIP"))}
        tools = pathlib.Path(sys.executable).parent
        version = next(line for line in (root / "Cargo.toml").read_text().splitlines() if line.startswith("rust-version"))
        self.rust = version.split('"')[1]
        self.environment = kept | {
            "HOME": str(folder / "home"), "XDG_CACHE_HOME": str(folder / "home/.cache"), "GIT_CONFIG_NOSYSTEM": "1", "LC_ALL": "C.UTF-8",
            "PATH": f"{folder / 'bin'}:{folder / 'home/.cargo/bin'}:{tools}:{os.environ['PATH']}",
            "REAL_HOME": os.environ.get("HOME", ""), "REAL_CARGO": shutil.which("cargo") or "", "RUST_VERSION": self.rust,
            "PROGRAM": str(program),
        }

    def has_program(self):
        """The program is installed, as a recipe takes for granted that does not install it."""
        (self.folder / "bin/coachwright").symlink_to(self.program)

    def run(self, *command, at, **environment):
        """Runs a command; its status, and what it said."""
        ran = subprocess.run(
            command, cwd=at, env=self.environment | environment, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT, text=True, encoding="utf-8", timeout=LONGEST, check=False,
        )
        return ran.returncode, ran.stdout

    def git(self, *arguments, at):
        status, said = self.run("git", *arguments, at=at)
        if status:
            sys.exit(f"git {' '.join(arguments)}: {said}")
        return said.strip()

    def add(self, repository, *builds, folder="vans"):
        """Copies demo builds, each with its piece, and stages them."""
        (repository / folder).mkdir(exist_ok=True)
        for build in builds:
            shutil.copy(self.root / "tests/builds" / build, repository / folder)
        self.git("add", "--all", at=repository)

    def repository(self, name, *builds):
        """A repository with one commit of demo builds on its branch main."""
        repository = self.folder / name
        repository.mkdir()
        self.git("init", "--quiet", at=repository)
        self.add(repository, PIECE, *builds)
        self.git("commit", "--quiet", "--no-verify", "--message", "Builds", at=repository)
        return repository
