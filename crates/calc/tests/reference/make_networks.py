"""Solved direct-current networks for the tests of calc::nodal, by well-known libraries; writes networks.json beside this file.

* linear networks: modified nodal analysis, sources as equations of their own, scipy.sparse.linalg.spsolve;
* constant power: the same equations with the loads' currents as unknowns, scipy.optimize.root from the voltages without load;
* "power flow": the same in a power-flow program (pandapower). A balanced three-phase network of resistances alone, with loads of
  power factor one, has the equations of a direct-current network: line voltage for volts, W for W, ohm for ohm.

Elements: ["conductor", from, to, ohm], ["source", plus, minus, V, ohm], ["resistance" | "current" | "power", plus, minus, value].
Run: python make_networks.py (versions in requirements.txt)
"""

import json
import pathlib
import platform

import numpy as np
import pandapower as pp
import scipy
from scipy.optimize import root
from scipy.sparse import lil_matrix
from scipy.sparse.linalg import spsolve

cases = []


def linear(elements, currents):
    """Node voltages against node 0 and the sources' currents; `currents` are those that the loads draw."""
    nodes = max(max(one[1], one[2]) for one in elements)
    sources = [one for one in elements if one[0] == "source"]
    size = nodes + len(sources)
    matrix, right = lil_matrix((size, size)), np.zeros(size)

    def add(row, column, value):
        if row > 0 and column > 0:
            matrix[row - 1, column - 1] += value

    for one in elements:
        if one[0] in ("conductor", "resistance"):
            a, b, siemens = one[1], one[2], 1 / one[3]
            for row, column, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
                add(row, column, sign * siemens)
    for row, (_, plus, minus, volts, ohms) in enumerate(sources, start=nodes + 1):
        # v(plus) - v(minus) + ohms * given = volts; what is given enters at plus and leaves at minus.
        for node, sign in ((plus, 1), (minus, -1)):
            add(row, node, sign)
            add(node, row, -sign)
        add(row, row, ohms)
        right[row - 1] = volts
    loads = [one for one in elements if one[0] in ("current", "power")]
    for (_, plus, minus, _), amperes in zip(loads, currents):
        for node, sign in ((plus, 1), (minus, -1)):
            if node > 0:
                right[node - 1] -= sign * amperes
    found = spsolve(matrix.tocsc(), right)
    return np.concatenate([[0.0], found[:nodes]]), found[nodes:]


def put(name, elements, by="scipy.sparse"):
    loads = [one for one in elements if one[0] in ("current", "power")]

    def wrong(currents):
        volts, _ = linear(elements, currents)
        return [
            amperes * (volts[one[1]] - volts[one[2]]) / one[3] - 1 if one[0] == "power" else amperes / one[3] - 1
            for one, amperes in zip(loads, currents)
        ]

    without, _ = linear(elements, np.zeros(len(loads)))
    first = [one[3] / (without[one[1]] - without[one[2]]) if one[0] == "power" else one[3] for one in loads]
    currents = np.array(first)
    if any(one[0] == "power" for one in loads):
        answer = root(wrong, first, tol=1e-13)
        assert np.abs(answer.fun).max() < 1e-10, (name, answer)
        currents = answer.x
    volts, given = linear(elements, currents)
    assert all(volts[one[1]] > volts[one[2]] for one in loads), name
    cases.append({"name": name, "by": by, "elements": elements, "volts": list(volts), "source_amperes": list(given)})
    return volts


def power_flow(name, elements):
    """The same by pandapower: one source at node 0 (minus) with its resistance as a line, power loads to node 0."""
    net = pp.create_empty_network(sn_mva=1e-4)
    nodes = max(max(one[1], one[2]) for one in elements)
    source = next(one for one in elements if one[0] == "source")
    level = source[3] / 1e3
    buses = [pp.create_bus(net, level) for _ in range(nodes + 1)]
    pp.create_ext_grid(net, buses[0])

    def line(a, b, ohms):
        pp.create_line_from_parameters(net, buses[a], buses[b], 1.0, ohms, 1e-12, 0.0, 1.0)

    # Bus 0 stands for the inner plus of the source: the return is ideal in these networks.
    line(0, source[1], source[4])
    for one in elements:
        if one[0] == "conductor":
            line(one[1], one[2], one[3])
        elif one[0] == "power":
            pp.create_load(net, buses[one[1]], p_mw=one[3] / 1e6)
    pp.runpp(net, tolerance_mva=1e-13, max_iteration=50, numba=False)
    found = [float(net.res_bus.vm_pu[bus]) * source[3] for bus in buses]
    ours = put(name, elements, "pandapower")
    assert np.allclose(found[1:], ours[1:], rtol=1e-7), (found, ours)
    cases[-1]["volts"] = [0.0, *found[1:]]
    # Its branches end at about ten digits, and a reactance of a billionth of an ohm is in them.
    cases[-1]["tolerance"] = 1e-7


put("radial", [["source", 1, 0, 12.8, 0.004], ["conductor", 1, 2, 0.002], ["conductor", 2, 3, 0.03], ["conductor", 2, 4, 0.05],
               ["resistance", 3, 0, 2.4], ["current", 4, 0, 5.0]])
put("radial with return conductors", [["source", 1, 0, 25.6, 0.006], ["conductor", 1, 2, 0.003], ["conductor", 0, 3, 0.003],
    ["conductor", 2, 4, 0.08], ["conductor", 3, 5, 0.08], ["current", 4, 5, 8.0], ["resistance", 2, 3, 6.0]])
put("two unequal batteries", [["source", 1, 0, 12.9, 0.005], ["source", 2, 0, 12.4, 0.012], ["conductor", 1, 3, 0.001],
    ["conductor", 2, 3, 0.004], ["current", 3, 0, 120.0]])
put("one battery charges the other", [["source", 1, 0, 13.4, 0.008], ["source", 2, 0, 12.1, 0.006], ["conductor", 1, 2, 0.02],
    ["resistance", 2, 0, 3.0]])
put("chassis return", [["source", 1, 0, 12.6, 0.006], ["conductor", 0, 9, 0.0004], ["conductor", 9, 8, 0.0008],
    ["conductor", 8, 7, 0.0005], ["conductor", 1, 2, 0.01], ["conductor", 2, 3, 0.04], ["current", 3, 7, 10.0],
    ["conductor", 2, 4, 0.02], ["resistance", 4, 8, 1.5], ["conductor", 0, 5, 0.005], ["conductor", 5, 6, 0.02],
    ["current", 2, 6, 4.0], ["conductor", 6, 8, 0.003]])
put("bridge", [["source", 1, 0, 24.0, 0.1], ["conductor", 1, 2, 1.0], ["conductor", 1, 3, 2.0], ["conductor", 2, 3, 5.0],
    ["conductor", 2, 0, 3.0], ["conductor", 3, 0, 1.0]])
put("constant power behind a lead", [["source", 1, 0, 12.8, 0.003], ["conductor", 1, 2, 0.002], ["power", 2, 0, 3000.0]])
put("constant power close to the most", [["source", 1, 0, 12.0, 0.01], ["power", 1, 0, 3599.0]])
put("power, current and resistance", [["source", 1, 0, 51.2, 0.01], ["conductor", 1, 2, 0.005], ["conductor", 0, 3, 0.005],
    ["power", 2, 3, 4000.0], ["conductor", 2, 4, 0.1], ["power", 4, 3, 200.0], ["current", 4, 3, 3.0], ["resistance", 2, 3, 20.0]])
put("two banks, constant power", [["source", 1, 0, 13.2, 0.004], ["source", 2, 0, 13.0, 0.006], ["conductor", 1, 3, 0.002],
    ["conductor", 2, 3, 0.001], ["conductor", 3, 4, 0.004], ["power", 4, 0, 1500.0], ["power", 3, 0, 300.0]])
put("two bonds to the chassis, constant power", [["source", 1, 0, 12.8, 0.004], ["conductor", 0, 2, 0.001], ["conductor", 2, 3, 0.002],
    ["conductor", 0, 3, 0.004], ["conductor", 1, 4, 0.006], ["power", 4, 3, 600.0], ["power", 4, 2, 150.0]])

random = np.random.default_rng(20261125)
for number in range(6):
    side = 4 + number
    elements = [["source", 1, 0, 12.8, 0.003], ["source", side * side, 0, 12.6, 0.005]]
    for row in range(side):
        for column in range(side):
            node = 1 + row * side + column
            for other in ([node + 1] if column + 1 < side else []) + ([node + side] if row + 1 < side else []):
                elements.append(["conductor", node, other, round(float(random.uniform(1e-3, 0.05)), 6)])
            if random.uniform() < 0.5:
                kind = "resistance" if number % 2 else "power"
                elements.append([kind, node, 0, round(float(random.uniform(5, 60)), 3)])
    put(f"meshed {side} by {side}", elements)

power_flow("power flow, radial", [["source", 1, 0, 48.0, 0.02], ["conductor", 1, 2, 0.01], ["conductor", 2, 3, 0.05],
    ["power", 2, 0, 1500.0], ["power", 3, 0, 800.0]])
power_flow("power flow, ring", [["source", 1, 0, 24.0, 0.008], ["conductor", 1, 2, 0.01], ["conductor", 2, 3, 0.02],
    ["conductor", 3, 4, 0.015], ["conductor", 4, 1, 0.012], ["power", 2, 0, 300.0], ["power", 3, 0, 450.0], ["power", 4, 0, 120.0]])

versions = {"python": platform.python_version(), "numpy": np.__version__, "scipy": scipy.__version__, "pandapower": pp.__version__}
text = json.dumps({"versions": versions, "cases": cases}, indent=1)
pathlib.Path(__file__).with_name("networks.json").write_text(text + "\n")
