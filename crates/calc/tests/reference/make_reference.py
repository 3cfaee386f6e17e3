"""Reference values for the tests of crates/calc, by well-known libraries; writes reference.csv beside this file.

* cord: a single-phase cord as a balanced three-phase equivalent in a power-flow program (pandapower), 230 V, 3,000 W, 25 m,
  IEC 60228 class 5 at 20 degC, with the usual 0.08 ohm/km of reactance.
* constant_power: current of an inverter behind a battery's resistance, by root search (scipy.optimize.brentq).
* ladder: equal batteries in ladder wiring with the load at the first, as linear equations (numpy.linalg.solve).
* bar: equal batteries on one bar with leads of their own, as linear equations.
* mesh: fault current at a node of a meshed network of batteries, nodal equations (numpy.linalg.solve); only networks in which
  every battery gives current, so that none is to be left out.

Run: python make_reference.py
"""

import csv
import pathlib

import numpy as np
import pandapower as pp
from scipy.optimize import brentq

CLASS_5_OHM_PER_KM = {1.5: 13.3, 2.5: 7.98, 4: 4.95}
rows = []


def put(kind, inputs, outputs):
    """One row: the numbers of each list with blanks between them; the outputs to twelve figures."""
    rows.append([kind, " ".join(repr(number) for number in inputs), " ".join(f"{number:.12g}" for number in outputs)])


# A load at the end of a cord. The go-and-return resistance of one phase stands in each phase of the three-phase equivalent.
for mm2, ohm_per_km in CLASS_5_OHM_PER_KM.items():
    net = pp.create_empty_network()
    volts = 0.230 * np.sqrt(3)
    here, there = pp.create_bus(net, volts), pp.create_bus(net, volts)
    pp.create_ext_grid(net, here)
    pp.create_line_from_parameters(net, here, there, 0.025, 2 * ohm_per_km, 2 * 0.08, 0.0, 1.0)
    pp.create_load(net, there, p_mw=3 * 3_000e-6)
    pp.runpp(net, tolerance_mva=1e-12, numba=False)
    at_load = net.res_bus.vm_pu[there] * 230.0
    amperes = net.res_line.i_ka.iloc[0] * 1e3
    put("cord", [mm2, ohm_per_km, 25.0, 230.0, 3_000.0], [at_load, amperes, net.res_line.pl_mw.iloc[0] * 1e6 / 3])

for watts, volts, ohms in [
    (3_000 / 0.9, 12.8, 3.2945e-3),
    (3_000 / 0.9, 25.6, 4.1e-3),
    (800.0, 11.4, 15e-3),
    (60.0, 12.0, 0.5),
    (5_000.0, 51.2, 8e-3),
]:
    current = brentq(lambda i: (volts - i * ohms) * i - watts, 0, volts / (2 * ohms), xtol=1e-12, rtol=1e-14)
    put("constant_power", [watts, volts, ohms], [current])

for count, internal, link, total in [(4, 3e-3, 0.2e-3, 400.0), (2, 5e-3, 0.5e-3, 150.0), (6, 1.5e-3, 1e-3, 300.0), (3, 4e-3, 0.0, 90.0)]:
    # Unknowns: the batteries' currents and the voltage at the first; E is taken as zero, only differences count.
    equations, right = np.zeros((count + 1, count + 1)), np.zeros(count + 1)
    for k in range(count):
        # E - Ri*i_k = V1 + link * sum over the links j = 2..k of the currents that come through each.
        equations[k, k] -= internal
        equations[k, count] -= 1.0
        for j in range(1, k + 1):
            for m in range(j, count):
                equations[k, m] -= link
    equations[count, :count] = 1.0
    right[count] = total
    put("ladder", [count, internal, link, total], np.linalg.solve(equations, right)[:count])

for internal, leads, total in [(3e-3, [0.5e-3, 0.5e-3, 0.5e-3], 300.0), (3e-3, [0.2e-3, 0.6e-3, 1.0e-3, 1.4e-3], 400.0)]:
    count = len(leads)
    equations, right = np.zeros((count + 1, count + 1)), np.zeros(count + 1)
    for k, lead in enumerate(leads):
        equations[k, k] = internal + lead
        equations[k, count] = 1.0
    equations[count, :count] = 1.0
    right[count] = total
    put("bar", [internal, total, *leads], np.linalg.solve(equations, right)[:count])

random = np.random.default_rng(20260314)
made = 0
while made < 40:
    nodes = int(random.integers(3, 9))
    branches = [[int(random.integers(0, node)), node, round(float(random.uniform(1e-3, 0.2)), 6)] for node in range(1, nodes)]
    for _ in range(int(random.integers(0, 6))):
        one, other = (int(node) for node in random.choice(nodes, 2, replace=False))
        branches.append([one, other, round(float(random.uniform(1e-3, 0.2)), 6)])
    sources = [
        [int(random.integers(0, nodes)), round(float(random.uniform(12.0, 14.0)), 3), round(float(random.uniform(2e-3, 2e-2)), 6)]
        for _ in range(int(random.integers(1, 4)))
    ]
    siemens, injected = np.zeros((nodes, nodes)), np.zeros(nodes)
    for one, other, ohms in branches:
        for a, b in ((one, other), (other, one)):
            siemens[a, a] += 1 / ohms
            siemens[a, b] -= 1 / ohms
    for node, volts, ohms in sources:
        siemens[node, node] += 1 / ohms
        injected[node] += volts / ohms
    # Node 0 is shorted: its voltage is zero, the others follow.
    rest = np.arange(1, nodes)
    voltages = np.zeros(nodes)
    voltages[rest] = np.linalg.solve(siemens[np.ix_(rest, rest)], injected[rest])
    if any(volts < voltages[node] for node, volts, _ in sources):
        continue
    put("mesh", [len(branches), *sum(branches, []), *sum(sources, [])], [injected[0] - siemens[0] @ voltages])
    made += 1

with open(pathlib.Path(__file__).with_name("reference.csv"), "w", newline="") as file:
    writer = csv.writer(file, lineterminator="\n")
    writer.writerow(["kind", "inputs", "outputs"])
    writer.writerows(rows)
