#!/usr/bin/env python3
"""Independent solution of the film that a covered window leaks through, for checking the Rust core.

Laplace's equation around a window at potential 1 that a land covers up to its straight edge at
potential 0, by finite differences on half the plane (mirror lines at the axis and six window
lengths away), solved directly. S is the flow over film conductance and potential. Lengths are in
window lengths, 40 cells each. The coarse grid takes 2 to 6 % off: the round hole, whose S is known
exactly, shows it.

    python3 -m venv /tmp/v && /tmp/v/bin/pip install numpy scipy
    /tmp/v/bin/python tests/reference/covered_windows.py        # rewrites covered_windows.json
"""
import json
import pathlib
from math import tan

import numpy as np
import scipy
import scipy.sparse as sp
import scipy.sparse.linalg as sl

CELLS = 40
EXTENT = 6


def shape_factor(window):
    ny, nx = window.shape
    free = ~window
    free[0, :] = False
    number = -np.ones((ny, nx), int)
    number[free] = np.arange(free.sum())
    y, x = np.where(free)
    me = number[y, x]
    rows, cols, vals = [me], [me], [np.full(len(me), 4.0)]
    right = np.zeros(len(me))
    neighbours = [
        (np.where(y + 1 < ny, y + 1, y - 1), x),
        (y - 1, x),
        (y, np.where(x + 1 < nx, x + 1, x - 1)),
        (y, np.where(x > 0, x - 1, x + 1)),
    ]
    for ny2, nx2 in neighbours:
        other = number[ny2, nx2]
        inside = other >= 0
        rows.append(me[inside])
        cols.append(other[inside])
        vals.append(np.full(inside.sum(), -1.0))
        right[~inside & window[ny2, nx2]] += 1.0
    matrix = sp.csc_matrix(
        (np.concatenate(vals), (np.concatenate(rows), np.concatenate(cols)))
    )
    u = np.zeros((ny, nx))
    u[window] = 1.0
    u[free] = sl.spsolve(matrix, right)
    out = u[1] - u[0]
    return 2.0 * (out[1:].sum() + 0.5 * out[0])


def mask(kind, size, cover):
    n = EXTENT * CELLS
    y, x = np.mgrid[0:n, 0:n] / CELLS
    e = 1e-9
    inside = (y >= cover - e) & (y <= cover + 1.0 + e)
    if kind == "slot":  # size: width
        return inside & (x <= size / 2 + e)
    if kind == "v":  # size: half angle
        return inside & (x <= (y - cover) * tan(size) + e)
    # u: radius of the end; a round hole is a U of radius one half.
    end = x**2 + (y - cover - size) ** 2 <= size**2 + e
    if kind == "hole":
        return end
    return inside & (end | ((x <= size) & (y >= cover + size)))


cases = (
    [("hole", 0.5)]
    + [("slot", w) for w in (0.5, 1.0, 2.0)]
    + [("v", a) for a in (0.3, 0.785, 1.2)]
    + [("u", r) for r in (0.15, 0.25, 0.5)]
)
rows = [
    {"kind": kind, "size": size, "cover": cover, "S": round(shape_factor(mask(kind, size, cover)), 4)}
    for kind, size in cases
    for cover in (0.1, 0.25, 0.5, 1.0)
]
out = {
    "source": "finite differences, numpy %s, scipy %s" % (np.__version__, scipy.__version__),
    "rows": rows,
}
path = pathlib.Path(__file__).with_suffix(".json")
path.write_text(json.dumps(out, indent=1) + "\n")
