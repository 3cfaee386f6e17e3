"""Reference values of ducts and compartments for the tests of crates/calc, by well-known libraries; writes warmth_reference.json beside
this file, with the versions that made it.

* blower: root search (scipy.optimize.brentq) on the blower's line against the losses of fluids (K_from_f, dP_from_K), ducts side by side with
  a search for the pressure that they share.
* duct: heat along the duct as an ordinary differential equation (scipy.integrate.solve_ivp), film and insulation in series.
* settled: root search on the derated output within a root search on the balance of walls and stack flow.

Run: python make_warmth_reference.py
"""

import importlib.metadata as metadata
import json
import math
import pathlib
import platform

import fluids
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

ZERO = 273.15
cases = {}


def put(kind, inputs, outputs):
    cases.setdefault(kind, []).append({"in": [float(value) for value in inputs], "out": [float(value) for value in outputs]})


DENSITY = 1.2


def flow_at(pressure, duct):
    """Flow through one duct at a pressure, m³/s."""
    diameter, length, friction, losses = duct
    area = math.pi / 4 * diameter**2
    coefficient = fluids.K_from_f(fd=friction, L=length, D=diameter) + losses
    missing = lambda flow: fluids.dP_from_K(coefficient, rho=DENSITY, V=flow / area) - pressure
    return brentq(missing, 0, 10, xtol=1e-16, rtol=1e-14)


for open_flow, shut_off, ducts in [
    (90 / 3600, 200.0, [(0.075, 4.0, 0.06, 2.1)]),
    (90 / 3600, 200.0, [(0.05, 4.0, 0.06, 2.1)]),
    (75 / 3600, 180.0, [(0.025, 0.2, 0.06, 1.5), (0.035, 6.0, 0.06, 2.7), (0.035, 3.0, 0.06, 2.1)]),
    (150 / 3600, 320.0, [(0.09, 2.0, 0.02, 1.8), (0.06, 5.0, 0.08, 3.0)]),
]:
    balance = lambda pressure: sum(flow_at(pressure, duct) for duct in ducts) - open_flow * (1 - pressure / shut_off)
    pressure = brentq(balance, 1e-9, shut_off, xtol=1e-13, rtol=1e-14)
    flows = [flow_at(pressure, duct) for duct in ducts]
    numbers = [value for duct in ducts for value in duct]
    put("blower", [open_flow, shut_off, *numbers], [sum(flows), *[flow / sum(flows) for flow in flows]])

for diameter, insulation, conductivity, film, inlet, around, length, flow in [
    (0.075, 0.02, 0.04, 20.0, 110, -10, 4.0, 0.028),
    (0.075, 0.0, 0.04, 20.0, 90, -15, 3.0, 0.024),
    (0.06, 0.01, 0.04, 8.0, 70, 20, 6.0, 0.012),
]:
    inlet, around = inlet + ZERO, around + ZERO
    outside = diameter + 2 * insulation
    resistance = 1 / (math.pi * outside * film) + (math.log(outside / diameter) / (2 * math.pi * conductivity) if insulation else 0)
    carried = flow * 352.99 / inlet * 1006
    cool = lambda x, y: [-(y[0] - around) / (resistance * carried)]
    solution = solve_ivp(cool, (0, length), [inlet], rtol=1e-12, atol=1e-10)
    put("duct", [diameter, insulation, conductivity, film, inlet, around, length, flow], [1 / resistance, solution.y[0][-1]])


def warmth(losses, walls, opening, height, around):
    """Temperature in a compartment, K."""
    if losses <= 0:
        return around

    def kept(rise):
        mean = around + rise / 2
        return walls * rise + 352.99 / mean * 1006 * 0.6 * opening * math.sqrt(2 * 9.80665 * height * rise / mean) * rise - losses

    return around + brentq(kept, 0, 1800, xtol=1e-12, rtol=1e-14)


for full, beside, asked, walls, opening, height, around, until, share, at in [
    (222.0, 0.0, 0.5, 4.15, 0.00283, 0.32, 35, 40, 0.5, 65),
    (222.0, 0.0, 1.0, 4.15, 0.00283, 0.32, 35, 40, 0.5, 65),
    (400.0, 60.0, 0.9, 3.0, 0.001, 0.3, 30, 40, 0.6, 60),
    (150.0, 20.0, 1.0, 2.5, 0.0, 0.3, 25, 45, 0.8, 70),
]:
    around, until, at = around + ZERO, until + ZERO, at + ZERO

    def left(kelvin):
        if kelvin <= until:
            return 1.0
        return 0.0 if kelvin > at else 1 + (share - 1) * (kelvin - until) / (at - until)

    at_share = lambda given: warmth(given * full + beside, walls, opening, height, around)
    short = lambda given: left(at_share(given)) - given
    given = asked if short(asked) >= 0 else brentq(short, 0, asked, xtol=1e-14, rtol=1e-13)
    put("settled", [full, beside, asked, walls, opening, height, around, until, share, at], [given, at_share(given)])

packages = ["fluids", "scipy"]
made = {"python": platform.python_version(), "versions": {name: metadata.version(name) for name in packages}, "cases": cases}
with open(pathlib.Path(__file__).with_name("warmth_reference.json"), "w") as file:
    json.dump(made, file, indent=None, separators=(",", ":"))
    file.write("\n")
