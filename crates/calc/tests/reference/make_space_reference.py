"""Reference values for the tests of calc::space, by well-known libraries; writes space.json beside this file.

* boxes: distance by bounded least squares (scipy.optimize.lsq_linear); overlap and distance in plan by shapely; the corners of the
  shared space by trimesh (bounds of the boxes).
* openings: distance from a point, by shapely polygons of 4,096 sides in the plane of the opening.
* skin: the shortest way over a box, without unfolding: for each row of faces the crossing points on the edges are moved until the line
  is shortest (scipy.optimize.minimize, SLSQP); the least of all rows. To a point and to a rectangle.
* swings: a leaf turned in 20,000 steps until it meets a box (shapely).
* fits: the largest scale of one outline in another, by turning in 7,200 steps and, for rounded outlines, 3,600 directions (numpy).
* ways: floors with random furniture. The widest way by halving the width: the obstacles are grown by half of it (shapely buffer, 64 sides
  a quarter) and the floor that is left must join the place with the outside. The shortest way over cells whose centres keep that
  clearance, by networkx.

Run: python make_space_reference.py
"""

import itertools
import json
import math
import pathlib

import networkx as nx
import numpy as np
import shapely
import trimesh
from scipy.optimize import lsq_linear, minimize
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import unary_union

random = np.random.default_rng(20260718)


def some(low, high, digits=3):
    return round(float(random.uniform(low, high)), digits)


def random_box(span=3.0, largest=1.5):
    return [[some(-span, span) for _ in range(3)], [some(0.0, largest) for _ in range(3)]]


def plan_of(thing):
    (x, y, _), (length, width, _) = thing
    return box(x, y, x + length, y + width)


def boxes():
    cases = []
    for index in range(80):
        one, other = random_box(1.5), random_box(1.5)
        if index % 8 == 0:
            other[1] = [0.0, 0.0, 0.0]
        a, b = np.array(one), np.array(other)
        # One point in each box; their difference as small as can be.
        found = lsq_linear(np.hstack([np.eye(3), -np.eye(3)]), np.zeros(3), (np.concatenate([a[0], b[0]]), np.concatenate([a[0] + a[1], b[0] + b[1]]) + 1e-12), tol=1e-14)
        distance = math.sqrt(2 * found.cost)
        meshes = [trimesh.creation.box(bounds=[c[0], c[0] + c[1]]) for c in (a, b)] if (b[1] > 0).all() else None
        shared = None
        if meshes:
            least = np.maximum(meshes[0].bounds[0], meshes[1].bounds[0])
            most = np.minimum(meshes[0].bounds[1], meshes[1].bounds[1])
            shared = [least.tolist(), most.tolist()] if (least < most).all() else []
        cases.append(dict(one=one, other=other, distance=distance, plan_overlap=plan_of(one).intersection(plan_of(other)).area,
                          plan_distance=plan_of(one).distance(plan_of(other)), shared=shared))
    return cases


SIDES = {"front": (0, -1), "rear": (0, 1), "left": (1, -1), "right": (1, 1), "roof": (2, 1), "under": (2, -1)}
AXES = {"front": (1, 2), "rear": (1, 2), "left": (0, 2), "right": (0, 2), "roof": (1, 0), "under": (1, 0)}


def outline_polygon(outline, sides=4096):
    kind, width, height, radius = outline
    if kind == "ellipse":
        angles = np.arange(sides) * 2 * math.pi / sides
        return Polygon(np.column_stack([np.cos(angles) * width / 2, np.sin(angles) * height / 2]))
    if radius == 0.0:
        return box(-width / 2, -height / 2, width / 2, height / 2)
    inner = box(radius - width / 2, radius - height / 2, width / 2 - radius, height / 2 - radius)
    return inner.buffer(radius, quad_segs=sides // 4)


def random_outline(kind=None):
    kind = kind or str(random.choice(["rectangle", "rounded", "ellipse"]))
    width, height = some(0.2, 1.5), some(0.2, 1.5)
    return [kind, width, height, round(some(0.05, 0.45) * min(width, height), 4) if kind == "rounded" else 0.0]


def openings():
    cases = []
    for side, (axis, _) in SIDES.items():
        for kind in ("rectangle", "rounded", "ellipse"):
            for _ in range(4):
                outline = random_outline(kind)
                centre, point = [some(-1, 1) for _ in range(3)], [some(-2, 2) for _ in range(3)]
                first, second = AXES[side]
                in_plane = Point(point[first] - centre[first], point[second] - centre[second]).distance(outline_polygon(outline))
                cases.append(dict(side=side, centre=centre, outline=outline, point=point, distance=math.hypot(in_plane, point[axis] - centre[axis])))
    return cases


def rows_of_faces(start, end, faces):
    """All rows of faces that follow each other over an edge, each face once."""
    if start == end:
        yield [start]
        return
    stack = [[start]]
    while stack:
        row = stack.pop()
        for face in faces:
            if face in row or SIDES[face][0] == SIDES[row[-1]][0]:
                continue
            if face == end:
                yield row + [face]
            else:
                stack.append(row + [face])


def shortest_over(row, start, end, least, most):
    """The shortest line that crosses the edges of the row; `end` is a point, or a rectangle as (least, most) on its face."""
    edges = []
    for one, other in itertools.pairwise(row):
        fixed = {SIDES[face][0]: (most if SIDES[face][1] > 0 else least)[SIDES[face][0]] for face in (one, other)}
        free = ({0, 1, 2} - set(fixed)).pop()
        edges.append((fixed, free))
    ends = [] if end[0] is None else [axis for axis in range(3) if end[0][axis] < end[1][axis]]

    def points(values):
        line = [np.array(start)]
        for (fixed, free), value in zip(edges, values):
            point = np.zeros(3)
            for axis, at in fixed.items():
                point[axis] = at
            point[free] = value
            line.append(point)
        last = np.array(end[0], dtype=float)
        for axis, value in zip(ends, values[len(edges):]):
            last[axis] = value
        return line + [last]

    def length(values):
        line = points(values)
        return sum(math.sqrt(((b - a) ** 2).sum() + 1e-24) for a, b in itertools.pairwise(line))

    bounds = [(least[free], most[free]) for _, free in edges] + [(end[0][axis], end[1][axis]) for axis in ends]
    if not bounds:
        return length([])
    # The length is convex in the crossing points, so that one start would do; three guard against a stalled search.
    best = math.inf
    for share in (0.5, 0.2, 0.8):
        found = minimize(length, [low + share * (high - low) for low, high in bounds], bounds=bounds, method="SLSQP", options=dict(ftol=1e-15, maxiter=500))
        best = min(best, found.fun)
    return best


def skin():
    cases = []
    for index in range(60):
        size = [some(1.0, 6.0), some(1.0, 2.2), some(0.5, 2.2)]
        least = np.array([some(-1, 1), -size[1] / 2, some(-0.5, 0.5)])
        most = least + size
        underside = index % 2 == 0
        faces = [face for face in SIDES if underside or face != "under"]

        def on(face):
            axis, sign = SIDES[face]
            point = [float(random.uniform(least[i], most[i])) for i in range(3)]
            point[axis] = float((most if sign > 0 else least)[axis])
            return point

        start_face, end_face = str(random.choice(faces)), str(random.choice(faces))
        start, end = on(start_face), on(end_face)
        axis, _ = SIDES[end_face]
        rectangle = [[0.0, 0.0, 0.0], [0.0, 0.0, 0.0]]
        for i in range(3):
            low, high = sorted(float(random.uniform(least[i], most[i])) for _ in range(2))
            rectangle[0][i], rectangle[1][i] = (end[axis], end[axis]) if i == axis else (low, high)
        rows = list(rows_of_faces(start_face, end_face, faces))
        cases.append(dict(
            least=least.tolist(), size=size, underside=underside, start=start, end=end, opening_side=end_face, opening=rectangle,
            distance=min(shortest_over(row, start, (end, end), least, most) for row in rows),
            to_opening=min(shortest_over(row, start, rectangle, least, most) for row in rows),
        ))
    return cases


def swings():
    cases, steps = [], 20_000
    for _ in range(40):
        hinge, radius, closed = [some(-1, 1), some(-1, 1)], some(0.4, 1.0), some(-math.pi, math.pi, 6)
        edge = [hinge[0] + radius * math.cos(closed), hinge[1] + radius * math.sin(closed)]
        angle = some(0.5, 3.0) * (1 if random.random() < 0.5 else -1)
        away, toward = some(0.1, 1.1), closed + angle * some(-0.1, 1.0)
        x, y = hinge[0] + away * math.cos(toward), hinge[1] + away * math.sin(toward)
        thing = box(x, y, x + some(0.1, 0.6), y + some(0.1, 0.6))
        leaf = LineString([hinge, edge])
        first = None
        for step in range(steps + 1):
            turn = angle * step / steps
            if affinity.rotate(leaf, turn, origin=tuple(hinge), use_radians=True).intersects(thing):
                first = abs(turn)
                break
        cases.append(dict(hinge=hinge, edge=edge, angle=angle, thing=list(thing.bounds), first=first, step=abs(angle) / steps))
    return cases


def support(outline, angles):
    kind, width, height, radius = outline
    cos, sin = np.abs(np.cos(angles)), np.abs(np.sin(angles))
    if kind == "ellipse":
        return np.hypot(cos * width / 2, sin * height / 2)
    return (width / 2 - radius) * cos + (height / 2 - radius) * sin + radius


def scale_by_turning(body, opening, turnings, directions):
    angles = np.arange(directions) * math.pi / directions
    room = support(opening, angles)
    return max(float(np.min(room / support(body, angles - turn))) for turn in turnings)


def fits():
    cases = []
    kinds = ["rectangle", "rounded", "ellipse"]
    for body_kind, opening_kind in itertools.product(kinds, kinds):
        for _ in range(8):
            body, opening = random_outline(body_kind), random_outline(opening_kind)
            turnings = np.arange(1801) * (math.pi / 2 / 1800)
            coarse = [scale_by_turning(body, opening, [turn], 720) for turn in turnings[::10]]
            best = int(np.argmax(coarse)) * 10
            near = np.linspace(turnings[max(best - 20, 0)], turnings[min(best + 20, 1800)], 401)
            cases.append(dict(body=body, opening=opening, any=scale_by_turning(body, opening, near, 14_400), level=scale_by_turning(body, opening, [0.0], 14_400)))
    # Rectangles near the limit, by the reach of the turned corners.
    for _ in range(40):
        body, opening = random_outline("rectangle"), random_outline("rectangle")
        theta = np.linspace(0, math.pi / 2, 200_001)
        reach_x = body[1] * np.cos(theta) + body[2] * np.sin(theta)
        reach_y = body[1] * np.sin(theta) + body[2] * np.cos(theta)
        best = float(np.max(np.minimum(opening[1] / reach_x, opening[2] / reach_y)))
        cases.append(dict(body=body, opening=opening, any=best, level=min(opening[1] / body[1], opening[2] / body[2])))
    return cases


CELL = 0.025


def ways():
    cases = []
    while len(cases) < 48:
        # Every fourth floor has no way at all.
        shut = len(cases) % 4 == 3
        length, width = some(3.0, 5.5), some(1.6, 2.1)
        floor = box(0, 0, length, width)
        door = some(0.45, 0.9)
        side = str(random.choice(["right", "rear"]))
        if side == "right":
            at = some(door / 2 + 0.05, length - door / 2 - 0.05)
            gap = LineString([(at - door / 2, width), (at + door / 2, width)])
            outside = box(-1, width, length + 1, width + 0.3)
        else:
            at = some(door / 2 + 0.05, width - door / 2 - 0.05)
            gap = LineString([(length, at - door / 2), (length, at + door / 2)])
            outside = box(length, -1, length + 0.3, width + 1)
        walls = floor.exterior.difference(gap.buffer(1e-9, cap_style="flat"))
        pieces = []
        for _ in range(int(random.integers(9, 14) if shut else random.integers(3, 9))):
            x, y = some(0, length - 0.2), some(0, width - 0.2)
            # Tall ones are also in the way above the berth; low ones that reach below it are what it stands on.
            tall = bool(random.random() < 0.5)
            pieces.append([x, y, min(x + some(0.2, 1.6), length), min(y + some(0.15, 0.8), width), tall])
        berth = [some(0, 1.0), some(0, width - 0.7)]
        berth += [round(berth[0] + 1.2, 3), round(berth[1] + 0.65, 3)]
        furniture = [box(*piece[:4]) for piece in pieces if piece[4] or not box(*piece[:4]).intersection(box(*berth)).area > 0]
        place = box(*berth).intersection(floor).difference(unary_union([box(*piece[:4]) for piece in pieces if piece[4]]))
        if place.area < 0.1:
            continue
        obstacles = unary_union([walls, *furniture])
        around = unary_union([floor, outside])

        def joined(clear):
            grown = obstacles.buffer(clear / 2, quad_segs=64)
            free = unary_union([around.difference(grown), place])
            parts = list(free.geoms) if hasattr(free, "geoms") else [free]
            return any(part.intersection(place).area > 1e-6 and part.intersection(outside).area > 1e-6 for part in parts)

        if joined(0.005):
            low, high = 0.005, 4.0
            for _ in range(24):
                middle = (low + high) / 2
                low, high = (middle, high) if joined(middle) else (low, middle)
            widest = low
        else:
            widest = 0.0
        if shut != (widest == 0.0):
            continue
        # The shortest way over cells at 0.3 m clear width.
        asked, shortest = 0.3, None
        columns, rows = math.ceil(length / CELL) + 4, math.ceil(width / CELL) + 4
        xs, ys = (np.arange(columns) - 1.5) * CELL, (np.arange(rows) - 1.5) * CELL
        grid_x, grid_y = np.meshgrid(xs, ys)
        centres = shapely.points(grid_x.ravel(), grid_y.ravel())
        clear = shapely.distance(centres, obstacles).reshape(rows, columns)
        in_place = shapely.contains(place, centres).reshape(rows, columns)
        in_floor = shapely.contains(floor, centres).reshape(rows, columns)
        graph = nx.Graph()
        passable = (2 * clear >= asked + 1e-9) | (in_place & in_floor)
        for row, column in np.argwhere(passable):
            for d_row, d_column in ((0, 1), (1, 0), (1, 1), (1, -1)):
                to = (row + d_row, column + d_column)
                if 0 <= to[0] < rows and 0 <= to[1] < columns and passable[to]:
                    inside_both = in_place[row, column] and in_place[to]
                    graph.add_edge((int(row), int(column)), (int(to[0]), int(to[1])), weight=0.0 if inside_both else CELL * math.hypot(d_row, d_column))
        starts = [tuple(map(int, cell)) for cell in np.argwhere(in_place & in_floor)]
        goals = [tuple(map(int, cell)) for cell in np.argwhere(passable & ~in_floor)]
        starts, goals = [cell for cell in starts if cell in graph], [cell for cell in goals if cell in graph]
        if starts and goals:
            lengths = nx.multi_source_dijkstra_path_length(graph, set(starts))
            reached = [lengths[goal] for goal in goals if goal in lengths]
            shortest = min(reached) if reached else None
        if (widest == 0.0) if shut else (widest > 0.1):
            cases.append(dict(length=length, width=width, side=side, at=at, door=door, pieces=pieces, berth=berth, widest=widest, asked=asked, shortest_over_cells=shortest))
    return cases


made = dict(boxes=boxes(), openings=openings(), skin=skin(), swings=swings(), fits=fits(), ways=ways())
made["versions"] = {library.__name__: library.__version__ for library in (np, nx, shapely, trimesh)}
with open(pathlib.Path(__file__).with_name("space.json"), "w") as file:
    json.dump(made, file, indent=None, separators=(",", ":"))
    file.write("\n")
