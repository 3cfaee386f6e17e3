"""Reference values of heat, moisture, water and mass for the tests of crates/calc, by well-known libraries; writes
building_reference.json beside this file, with the versions that made it.

* saturation, dew_point: psychrolib.
* air, water, heating: CoolProp (density times specific heat; properties between the rows of the table; difference of enthalpy).
* pane_gap: correlation of EN 673 with the air of CoolProp.
* ribs: heat conduction in two dimensions by finite volumes (scipy.sparse), half a spacing, nodes finer towards the rib.
* glaser: greatest convex line below the saturation pressures as a linear programme (scipy.optimize.linprog).
* cooling_down, warming: ordinary differential equations (scipy.integrate.solve_ivp).
* friction: fluids (Swamee and Jain; Colebrook and White). pump: root search (scipy.optimize.brentq) on fluids' friction.
* compartment: root search on the balance of walls and stack flow.
* axles: equations of equilibrium by numpy.linalg.lstsq. gravity_centre: least and greatest mean as linear programmes.
* combustion: chemicals (stoichiometry and heat of combustion from heats of formation).

Run: python make_building_reference.py
"""

import importlib.metadata as metadata
import json
import math
import pathlib
import platform

import chemicals
import CoolProp.CoolProp as CP
import fluids
import numpy as np
import psychrolib
import scipy.sparse as sparse
from chemicals.combustion import combustion_data
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, linprog
from scipy.sparse.linalg import spsolve

ZERO = 273.15
cases = {}
random = np.random.default_rng(20260412)


def put(kind, inputs, outputs):
    cases.setdefault(kind, []).append({"in": [float(value) for value in inputs], "out": [float(value) for value in outputs]})


psychrolib.SetUnitSystem(psychrolib.SI)
for celsius in [-20, -15, -10, -5, -1, 0, 1, 5, 10, 15, 20, 25, 30, 35, 45]:
    put("saturation", [celsius + ZERO], [psychrolib.GetSatVapPres(celsius)])
for celsius in [-5, 5, 10, 15, 18, 20, 25, 30]:
    for humidity in [0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.95]:
        dew = psychrolib.GetTDewPointFromRelHum(celsius, humidity)
        # Within a few hundredths of 0 degC the library's search may end on either side of its two formulae.
        if abs(dew) > 0.1:
            put("dew_point", [celsius + ZERO, humidity], [dew + ZERO])

for celsius in [-30, -15, 0, 10, 20, 35]:
    kelvin = celsius + ZERO
    put("air", [kelvin], [CP.PropsSI("D", "T", kelvin, "P", 101325, "Air") * CP.PropsSI("C", "T", kelvin, "P", 101325, "Air")])
for celsius in [0.5, 2, 7, 12, 18, 26, 37, 44, 58, 67, 85, 97]:
    kelvin = celsius + ZERO
    put("water", [kelvin], [CP.PropsSI(what, "T", kelvin, "P", 101325, "Water") for what in ("D", "V", "C")])
for litres, cold, hot in [(10, 10, 60), (10, 15, 60), (6, 5, 70), (25, 12, 40)]:
    mass = litres / 1000 * CP.PropsSI("D", "T", cold + ZERO, "P", 101325, "Water")
    rise = CP.PropsSI("H", "T", hot + ZERO, "P", 101325, "Water") - CP.PropsSI("H", "T", cold + ZERO, "P", 101325, "Water")
    put("heating", [litres / 1000, cold + ZERO, hot + ZERO], [mass * rise])

for gap, warm, cold, emissivity in [(0.016, 12.5, -2.5, 0.86), (0.008, 12.5, -2.5, 0.86), (0.025, 12.5, -2.5, 0.86), (0.016, 15, -15, 0.9), (0.020, 25, 33, 0.837)]:
    mean = (warm + cold) / 2 + ZERO
    conductivity, heat, viscosity, density = (CP.PropsSI(what, "T", mean, "P", 101325, "Air") for what in ("L", "C", "V", "D"))
    rayleigh = 9.80665 / mean * abs(warm - cold) * gap**3 * (density / viscosity) ** 2 * heat * viscosity / conductivity
    convective = max(1, 0.035 * rayleigh**0.38) * conductivity / gap
    put("pane_gap", [gap, warm + ZERO, cold + ZERO, emissivity], [convective + 4 * 5.670374419e-8 * mean**3 / (2 / emissivity - 1)])


def cells(limits, near, growth=1.25, least=1e-4, most=6e-3):
    """Edges of cells between limits, finest at every limit."""
    edges = [limits[0]]
    for start, end in zip(limits, limits[1:]):
        length, sizes, size = end - start, [], min(least, (end - start) / 6)
        while sum(sizes) < length / 2:
            sizes.append(size)
            size = min(size * growth, most)
        half = np.array(sizes) * (length / 2) / sum(sizes)
        edges.extend(start + np.cumsum(np.concatenate([half, half[::-1]])))
    return np.array(edges)


def two_dimensional(spacing, inner, outer, layers):
    """Heat transfer of a wall of ribs; layers from outside: thickness, fill, metal width, metal conductivity."""
    heights = np.concatenate([[0], np.cumsum([layer[0] for layer in layers])])
    widths = sorted({0.0, spacing / 2, *[layer[2] / 2 for layer in layers if layer[2] > 0]})
    x, z = cells(widths, 0), cells(list(heights), 0)
    dx, dz = np.diff(x), np.diff(z)
    middle_x, middle_z = (x[1:] + x[:-1]) / 2, (z[1:] + z[:-1]) / 2
    conductivity = np.empty((len(dz), len(dx)))
    for row, place in enumerate(middle_z):
        layer = layers[int(np.searchsorted(heights, place) - 1)]
        conductivity[row] = np.where(middle_x < layer[2] / 2, layer[3], layer[1])
    rows, columns, values = [], [], []
    right = np.zeros(conductivity.size)
    index = np.arange(conductivity.size).reshape(conductivity.shape)

    def link(one, other, conductance):
        rows.extend([one, one, other, other])
        columns.extend([one, other, other, one])
        values.extend([conductance, -conductance, conductance, -conductance])

    for i in range(len(dz)):
        for j in range(len(dx)):
            if j + 1 < len(dx):
                link(index[i, j], index[i, j + 1], dz[i] / (dx[j] / 2 / conductivity[i, j] + dx[j + 1] / 2 / conductivity[i, j + 1]))
            if i + 1 < len(dz):
                link(index[i, j], index[i + 1, j], dx[j] / (dz[i] / 2 / conductivity[i, j] + dz[i + 1] / 2 / conductivity[i + 1, j]))
    into = {}
    for edge, resistance, temperature in ((0, outer, 0.0), (len(dz) - 1, inner, 1.0)):
        for j in range(len(dx)):
            conductance = dx[j] / (resistance + dz[edge] / 2 / conductivity[edge, j])
            rows.append(index[edge, j])
            columns.append(index[edge, j])
            values.append(conductance)
            right[index[edge, j]] += conductance * temperature
            into[index[edge, j]] = (conductance, temperature)
    solution = spsolve(sparse.csr_matrix((values, (rows, columns))), right)
    flow = sum(conductance * (1.0 - solution[cell]) for cell, (conductance, temperature) in into.items() if temperature == 1.0)
    return flow / (spacing / 2)


SKIN = (0.001, 50.0, 0.0, 50.0)
for spacing, layers in [
    (0.5, [SKIN, (0.040, 0.023, 0.0012, 50.0), (0.006, 0.13, 0.0, 50.0)]),
    (0.5, [SKIN, (0.040, 0.023, 0.0012, 50.0), (0.0012, 0.023, 0.040, 50.0), (0.006, 0.13, 0.0, 50.0)]),
    (0.5, [SKIN, (0.040, 0.023, 0.0012, 50.0), (0.0012, 0.023, 0.040, 50.0), (0.010, 0.035, 0.0, 50.0), (0.006, 0.13, 0.0, 50.0)]),
    (0.4, [SKIN, (0.060, 0.036, 0.002, 160.0), (0.002, 0.036, 0.050, 160.0), (0.009, 0.13, 0.0, 160.0)]),
    (0.6, [SKIN, (0.050, 0.034, 0.0, 50.0), (0.012, 0.13, 0.0, 50.0)]),
]:
    numbers = [value for layer in layers for value in layer]
    put("ribs", [spacing, 0.13, 0.04, *numbers], [two_dimensional(spacing, 0.13, 0.04, layers)])


def saturation(kelvin):
    """ISO 13788."""
    celsius = kelvin - ZERO
    slope, offset = (17.269, 237.3) if celsius >= 0 else (21.875, 265.5)
    return 610.5 * math.exp(slope * celsius / (offset + celsius))


def glaser(layers, outer, inner, outside, inside):
    total = outer + inner + sum(resistance for resistance, _ in layers)
    temperature = lambda behind: outside[0] + (inside[0] - outside[0]) * behind / total
    places, temperatures = [0.0], [temperature(outer)]
    heat, vapour = outer, 0.0
    for resistance, thickness in layers:
        parts = max(1, math.ceil(resistance / 0.25))
        for part in range(1, parts + 1):
            places.append(vapour + thickness * part / parts)
            temperatures.append(temperature(heat + resistance * part / parts))
        heat, vapour = heat + resistance, vapour + thickness
    pressures = [saturation(value) for value in temperatures]
    count = len(places)
    bounds = [(0, pressure) for pressure in pressures]
    bounds[0] = (outside[1], outside[1])
    bounds[-1] = (inside[1], inside[1])
    convex = np.zeros((count - 2, count))
    for k in range(1, count - 1):
        before, after = places[k] - places[k - 1], places[k + 1] - places[k]
        # The slope does not fall; scaled to the size of the pressures.
        convex[k - 1, k - 1 : k + 2] = np.array([-1 / before, 1 / before + 1 / after, -1 / after]) * min(before, after)
    found = linprog(-np.ones(count), A_ub=convex, b_ub=np.zeros(count - 2), bounds=bounds, method="highs")
    assert found.status == 0, found.message
    slopes = np.diff(found.x) / np.diff(places)
    return 2e-10 * (slopes[-1] - slopes[0])


for layers in [
    # Tight skin, wool, plywood; then the same with a retarder inside; foam on the skin; wool between plywood; order turned round.
    [(0.001 / 50, 1000.0), (0.05 / 0.04, 0.075), (0.006 / 0.13, 0.6)],
    [(0.001 / 50, 1000.0), (0.05 / 0.04, 0.075), (0.0001, 50.0), (0.006 / 0.13, 0.6)],
    [(0.001 / 50, 1000.0), (0.05 / 0.034, 7.5), (0.006 / 0.13, 0.6)],
    [(0.012 / 0.13, 1.2), (0.08 / 0.04, 0.12), (0.004 / 0.13, 0.4)],
    [(0.004 / 0.13, 0.4), (0.08 / 0.04, 0.12), (0.012 / 0.13, 1.2)],
]:
    for celsius in (-10, 5):
        outside = (celsius + ZERO, 0.85 * saturation(celsius + ZERO))
        inside = (18 + ZERO, 0.6 * saturation(18 + ZERO))
        numbers = [value for layer in layers for value in layer]
        put("glaser", [0.04, 0.13, *outside, *inside, *numbers], [glaser(layers, 0.04, 0.13, outside, inside)])

for capacity, loss, start, outside in [(419000.0, 1.1617 * 1.5, 10, -10), (419000.0, 12.0, 10, -20), (573.0, 1.05, 10, -5)]:
    cold = lambda t, y: [-loss * (y[0] - outside) / capacity]
    zero = lambda t, y: y[0]
    zero.terminal = True
    solution = solve_ivp(cold, (0, 3e6), [start], events=zero, rtol=1e-10, atol=1e-10)
    put("cooling_down", [capacity, loss, start + ZERO, outside + ZERO], [solution.t_events[0][0]])
for power, loss, capacity, seconds in [(2073.0, 39.9, 513e3, 14400), (4000.0, 60.0, 900e3, 3600), (1500.0, 25.0, 1.5e6, 7200)]:
    warm = lambda t, y: [(power - loss * y[0]) / capacity]
    solution = solve_ivp(warm, (0, seconds), [0.0], rtol=1e-11, atol=1e-11)
    put("warming", [power, loss, capacity, seconds], [solution.y[0][-1]])

for reynolds in [800, 2000, 4500, 6e3, 1e4, 3e4, 1e5, 4e5]:
    for roughness in [0.0, 1e-5, 5.5e-4, 5e-3]:
        exact = 64 / reynolds if reynolds < 2300 else fluids.Colebrook(reynolds, roughness)
        ours = 64 / reynolds if reynolds < 2300 else fluids.friction.Swamee_Jain_1976(reynolds, roughness)
        put("friction", [reynolds, roughness], [ours, exact])

for open_flow, cut_out, diameter, length, fittings, rise, outlet in [
    (10 / 60000, 2.8e5, 0.0127, 5.0, 4.0, 1.0, 3e12),
    (7 / 60000, 2.4e5, 0.0095, 8.0, 8.0, 0.5, 0.0),
    (17 / 60000, 3.5e5, 0.0159, 3.0, 3.0, -0.3, 1e12),
]:
    density, viscosity = (CP.PropsSI(what, "T", 10 + ZERO, "P", 101325, "Water") for what in ("D", "V"))

    def missing(flow):
        speed = flow / (math.pi / 4 * diameter**2)
        factor = fluids.friction.Swamee_Jain_1976(speed * diameter * density / viscosity, 7e-6 / diameter)
        lost = (factor * length / diameter + fittings) * density * speed**2 / 2 + density * 9.80665 * rise + outlet * flow**2
        return cut_out * (1 - flow / open_flow) - lost

    flow = brentq(missing, open_flow * 0.05, open_flow, xtol=1e-16, rtol=1e-14)
    assert 4 * flow * density / (math.pi * diameter * viscosity) > 4000
    put("pump", [open_flow, cut_out, diameter, length, fittings, rise, outlet], [flow])

for losses, walls, opening, height, celsius in [(60.0, 1.5, 1.2e-3, 0.4, 25), (200.0, 2.0, 4e-3, 0.5, 30), (30.0, 0.8, 0.0, 0.3, 20), (15.0, 0.0, 1e-3, 0.6, -5)]:
    around = celsius + ZERO

    def kept(rise):
        mean = around + rise / 2
        flow = 0.6 * opening * math.sqrt(2 * 9.80665 * height * rise / mean)
        return walls * rise + 101325 / (287.05 * mean) * 1006 * flow * rise - losses

    put("compartment", [losses, walls, opening, height, around], [around + brentq(kept, 1e-6, 1500, xtol=1e-12, rtol=1e-14)])

for case in range(30):
    count = int(random.integers(1, 12))
    masses = np.round(random.uniform(1, 400, count), 2)
    places = np.round(random.uniform(-1.0, 6.0, count), 3)
    front, first, gap, share = round(float(random.uniform(0, 0.3)), 3), round(float(random.uniform(2.5, 4.0)), 3), round(float(random.uniform(0.6, 1.2)), 3), round(float(random.uniform(0.3, 0.7)), 3)
    # Unknown: three supports. Forces, moments about x = 0, and the tandem's proportion.
    equations = np.array([[1, 1, 1], [front, first, first + gap], [0, 1 - share, -share]])
    loads, *_ = np.linalg.lstsq(equations, np.array([masses.sum(), (masses * places).sum(), 0]), rcond=None)
    put("axles", [front, first, first + gap, share, *np.column_stack([masses, places]).ravel()], loads)

for case in range(20):
    count = int(random.integers(1, 8))
    masses = np.round(random.uniform(1, 400, count), 2)
    tolerances = np.round(random.uniform(0, 0.3, count), 3)
    places = np.round(random.uniform(-1.0, 6.0, count), 3)
    ends = []
    for sign in (1, -1):
        # Charnes and Cooper: y = t·m with the sum of y equal to 1 and t between; the mean is linear in y.
        objective = np.append(sign * places, 0.0)
        upper = np.hstack([np.eye(count), -(masses * (1 + tolerances))[:, None]])
        lower = np.hstack([-np.eye(count), (masses * (1 - tolerances))[:, None]])
        one = np.append(np.ones(count), 0.0)[None, :]
        found = linprog(objective, A_ub=np.vstack([upper, lower]), b_ub=np.zeros(2 * count), A_eq=one, b_eq=[1.0], method="highs")
        assert found.status == 0
        ends.append(sign * found.fun)
    put("gravity_centre", np.column_stack([masses, tolerances, places]).ravel(), ends)

for name, formula, formation in [("propane", {"C": 3, "H": 8}, -104680.0), ("butane", {"C": 4, "H": 10}, -125790.0), ("ethanol", {"C": 2, "H": 6, "O": 1}, -277600.0)]:
    data = combustion_data(formula, Hf=formation)
    kilograms = chemicals.molecular_weight(formula) / 1000
    put(f"combustion_{name}", [], [-data.LHV / kilograms, data.stoichiometry["H2O"] * chemicals.molecular_weight({"H": 2, "O": 1}) / 1000 / kilograms])

packages = ["chemicals", "CoolProp", "fluids", "numpy", "PsychroLib", "scipy"]
made = {"python": platform.python_version(), "versions": {name: metadata.version(name) for name in packages}, "cases": cases}
with open(pathlib.Path(__file__).with_name("building_reference.json"), "w") as file:
    json.dump(made, file, indent=None, separators=(",", ":"))
    file.write("\n")
