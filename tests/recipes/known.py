"""The list of known findings, and house rules."""

import re
import shlex

from workshop import CLEAN, FAULTY, must

def commands(text, form):
    """The commands that a paragraph names in one form."""
    return [shlex.split(command) for command in re.findall(form, text, re.MULTILINE)]


def findings(shop, text):
    shop.has_program()
    repository = shop.repository("builds", FAULTY)
    listing, later = commands(text, r"^    (coachwright .*)$")
    status, said = shop.run(*later[:3], at=repository)
    must(status == 1, f"the builds that exist are not held: {said[-500:]}")
    status, said = shop.run(*listing, at=repository)
    must(status == 0, f"the findings are not listed: {said[-500:]}")
    status, said = shop.run(*later, at=repository)
    must(status == 0, f"what is listed holds the build: {said[-500:]}")
    yield "what is listed holds nothing"
    build = repository / "vans" / FAULTY
    build.write_text(build.read_text() + '\nlamp "late lamp" power="18 W"\nbattery spare chemistry=LFP voltage="12.8 V" capacity="90 Ah"\n')
    status, said = shop.run(*later, at=repository)
    must(status == 1 and 'battery "spare"' in said, f"what is new does not hold the build: {said[-500:]}")
    yield "what is new does"


def house_rules(shop, text):
    shop.has_program()
    repository = shop.repository("builds", CLEAN)
    line = re.search(r"`(house-rules? \"(\S+)\")`", text)
    must(line, "there is no line house-rules")
    rules = repository / "vans" / line[2]
    rules.parent.mkdir()
    rules.write_text((shop.root / "tests/recipes/shop.rules.kdl").read_text())
    status, said = shop.run("coachwright", "review", ".", at=repository)
    must(status == 0, f"rules that no build names judge it: {said[-500:]}")
    build = repository / "vans" / CLEAN
    build.write_text(re.sub(r"^(    basis .*)$", rf"\1\n    {line[1]}", build.read_text(), count=1, flags=re.MULTILINE))
    status, said = shop.run("coachwright", "review", ".", at=repository)
    must(status == 1 and "wiring/shop-thin" in said, f"the rules do not judge the build that names them: {said[-500:]}")
    yield "they judge the build that names them"
    (prove,) = commands(text, r"`(coachwright [^`]*)`")
    status, said = shop.run(*prove, at=repository / "vans")
    must(status == 0, f"their examples cannot be run: {said[-500:]}")
    yield "their examples are run"
