"""The networks of two builds by a well-known library, for the tests of the solved network: writes solved.csv beside this file.

The networks are written down here once more by hand, from the texts of the builds: nothing of the program is used. Resistances of conductors are
the largest of IEC 60228 class 5 at 20 °C, brought to 70 °C with 0.00393 /K, out and back; devices and contacts as the build says, else the usual
values that the program assumes (they are inputs here, not results). Node voltages follow from Kirchhoff's current law, scipy.optimize.root.

Lines: build, run or battery, quantity, value (V, A, or a share).
Run: python make_solved.py (versions in requirements.txt)
"""

import pathlib

import numpy as np
from scipy.optimize import root

CLASS_5 = {0.75: 26.0, 1.5: 13.3, 2.5: 7.98, 4: 4.95, 6: 3.30, 10: 1.91, 16: 1.21, 25: 0.780, 35: 0.554, 70: 0.272}
HOT = 1 + 0.00393 * 50


def wire(mm2, metres, legs=2):
    return CLASS_5[mm2] / 1000 * metres * legs * HOT


def blade(rating):
    return 0.1 / rating


def other_fuse(rating):
    return 0.08 / rating


def contact(rating):
    return 0.05 / rating


class Net:
    def __init__(self):
        self.names, self.branches, self.loads, self.sources = {}, {}, [], {}

    def node(self, name):
        return self.names.setdefault(name, len(self.names))

    def run(self, name, start, finish, *ohms):
        self.branches[name] = (self.node(start), self.node(finish), sum(ohms))

    def load(self, at, law, value, back="ground"):
        self.loads.append((self.node(at), self.node(back), law, value))

    def source(self, name, at, volts, ohms):
        self.sources[name] = (self.node(at), volts, ohms)

    def solve(self):
        ground, count = self.node("ground"), len(self.names)
        start = np.full(count, max(volts for _, volts, _ in self.sources.values()))
        for name, number in self.names.items():
            if name in ("ground", "metal"):
                start[number] = 0.0

        def balance(volts):
            out = np.zeros(count)
            for one, other, ohms in self.branches.values():
                current = (volts[one] - volts[other]) / ohms
                out[one] += current
                out[other] -= current
            for at, back, law, value in self.loads:
                across = volts[at] - volts[back]
                current = {"power": lambda: value / across, "ohms": lambda: across / value, "amperes": lambda: value}[law]()
                out[at] += current
                out[back] -= current
            for at, electromotive, ohms in self.sources.values():
                out[at] -= (electromotive - volts[at]) / ohms
            out[ground] = volts[ground]
            return out

        found = root(balance, start, method="hybr", tol=1e-13)
        assert np.abs(balance(found.x)).max() < 1e-7, found.message
        return found.x


LINES = []


def tell(build, net, ends):
    volts = net.solve()
    for run, node in ends.items():
        back = "metal" if run == "step-line" else "ground"
        LINES.append((build, run, "end-voltage", volts[net.node(node)] - volts[net.node(back)]))
    for run, (one, other, ohms) in net.branches.items():
        if run != "bond":
            LINES.append((build, run, "solved-current", abs(volts[one] - volts[other]) / ohms))
    given = {name: (e - volts[at]) / ohms for name, (at, e, ohms) in net.sources.items()}
    if len(given) > 1:
        for name, current in given.items():
            LINES.append((build, name, "share", current / sum(given.values())))
    return volts


def bramble():
    net = Net()
    net.source("house", "house", 25.6, 8e-3)
    net.run("house main", "house", "bar", wire(70, 0.12), other_fuse(250), contact(300), wire(70, 0.9))
    net.run("inverter feed", "bar", "inverter", other_fuse(125), wire(35, 0.7))
    net.run("panel feed", "bar", "panel", other_fuse(80), wire(25, 0.8))
    ways = [
        ("water pump", 7.5, 1.5, 4.2, "amperes", 3.6),
        ("roof fan", 5, 1.5, 3.1, "amperes", 3.0),
        ("fresh heater", 5, 1.5, 2.2, "ohms", 25.6**2 / 60),
        ("cabin lamps", 3, 1.5, 4.8, "power", 24.0),
        ("tool charger", 10, 2.5, 2.0, "power", 110.0),
    ]
    ends = {"inverter feed": "inverter", "panel feed": "panel", "bench lamp": "bench lamp"}
    for thing, fuse, mm2, metres, law, value in ways:
        net.run(thing, "panel", thing, blade(fuse), wire(mm2, metres))
        net.load(thing, law, value)
        ends[thing] = thing
    net.run("heater feed", "house", "cabin heater", other_fuse(15), wire(4, 2.9))
    net.load("cabin heater", "power", 25.6)
    ends["heater feed"] = "cabin heater"
    net.run("bench lamp", "panel", "bench lamp", blade(3), wire(0.75, 3))
    net.load("bench lamp", "power", 18.0)
    net.load("inverter", "power", 2000 / 0.92)
    tell("bramble", net, ends)


def quarry():
    small = Net()
    small.source("up", "up", 24.5, 1e-6)
    small.run("mast-line", "up", "mast", blade(10), wire(2.5, 6))
    small.load("mast", "power", 100.0)
    volts = tell("quarry", small, {"mast-line": "mast"})
    one, other, ohms = small.branches["mast-line"]
    given = (volts[one] - volts[other]) / ohms * volts[small.node("up")]
    net = Net()
    net.source("left", "left", 12.0, 6e-3)
    net.source("right", "right", 12.0, 6e-3)
    net.run("left-lead", "left", "front", wire(35, 1), other_fuse(125))
    net.run("right-lead", "right", "front", wire(35, 3), other_fuse(125))
    net.run("backbone", "front", "rear", other_fuse(100), 0.5e-3, 0.05 / 100, wire(16, 4))
    net.run("front-feed", "front", "board", other_fuse(50), wire(10, 2))
    net.run("rear-feed", "rear", "board", 6.0 / 32**2 / 2, wire(6, 3), contact(50))
    net.run("converter-in", "rear", "up", 2.5e-3, wire(6, 1))
    net.load("up", "power", given / 0.9)
    net.run("step-line", "rear", "step", blade(5), wire(1.5, 5, legs=1))
    net.load("step", "power", 25.0, back="metal")
    # The bond: half a metre of its size, cold, and a joint.
    net.run("bond", "metal", "ground", CLASS_5[16] / 1000 * 0.5 + 0.2e-3)
    ends = {"front-feed": "board", "converter-in": "up", "step-line": "step"}
    for thing, fuse, mm2, metres, law, value in [
        ("plate", 30, 4, 2, "ohms", 144 / 240),
        ("recorder", 10, 1.5, 3, "power", 60.0),
        ("cooler", 15, 2.5, 4, "power", 75.0),
        ("bench", 5, 1.5, 3, "power", 30.0),
        ("water", 7.5, 1.5, 4, "amperes", 4.0),
    ]:
        net.run(thing, "board", thing, blade(fuse), wire(mm2, metres))
        net.load(thing, law, value)
        ends[thing] = thing
    tell("quarry", net, ends)


bramble()
quarry()
text = "build,part,quantity,value\n" + "".join(f"{build},{part},{what},{value:.9g}\n" for build, part, what, value in LINES)
(pathlib.Path(__file__).parent / "solved.csv").write_text(text)
