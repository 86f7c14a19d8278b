"""The valve of the comparison: 0.2 s of 150 psi with 10 psi of ripple at 150 Hz, from rest.

An invented 10 mm spool with a little leak from its reaction chamber, hot; the equations are those
of tests/reference/regulator_dynamic_scipy.py without events, for the spool stays off its stops.
States in units of 1 mm, 1 m/s and 1 bar, so that one tolerance means the same to each solver.
"""
import math
import pathlib
import sys

import numpy as np

sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "reference"))
from regulator_dynamic_scipy import Moving  # noqa: E402
from regulator_scipy import LPM, PSI, Valve, annulus, drilled, oil  # noqa: E402
from scipy.optimize import brentq  # noqa: E402

UNITS = np.array([1e-3, 1.0, 1e5, 1e5])
DURATION, POINTS = 0.2, 2000


def case(orifice_mm):
    d, setpoint = 10e-3, 100 * PSI
    area = math.pi * d * d / 4
    edge = lambda w: {"land_diameter_m": d, "circumference_fraction_ratio": 0.3,
                      "width_at_rest_m": w, "radial_clearance_m": 15e-6}
    valve = {
        "oil": oil(90.0), "line_pa": 150 * PSI, "branch": "frictionless",
        "reaction_area_m2": area, "chamber_area_m2": area,
        "spring_load_n": setpoint * area - 3000 * 1.2e-3, "spring_rate_n_per_m": 3000.0,
        "stroke_m": 3e-3, "supply": edge(1.2e-3), "exhaust": edge(-1.5e-3),
        "balance_orifice": {"diameter_m": orifice_mm * 1e-3, "length_m": 0.0},
        "leaks": [{"annulus": annulus(d, 20.0, 3.0, 0.5), "from": "reaction", "to": "sump"}],
        "drain": "open", "friction_n": 0.0, "relief": None,
        "demand": {"flow_m3_per_s": 2 * LPM, "at_pressure_pa": setpoint, "outlets": 5,
                   "stated_in": oil(90.0)},
    }
    return {
        "valve": valve, "duration_s": DURATION, "start": "rest",
        "line": {"knots": [[0.0, 150 * PSI]],
                 "ripple": {"amplitude_pa": 10 * PSI, "frequency_hz": 150.0}},
        "demand": {"knots": [[0.0, 1.0]]},
        "spool_mass_kg": 12e-3, "damping_n_s_per_m": 1.0, "breakaway_ratio": 1.0,
        "feed_volume_m3": 25e-6, "reaction_volume_m3": 1e-6, "chamber_volume_m3": 1.5e-6,
        "stiffness": {"liquid_pa": 1.5e9, "entrained_air_ratio": 0.01, "exponent_ratio": 1.0,
                      "barometer_pa": 101325.0},
    }


def outlet_diameter(demand):
    s, each = demand["stated_in"], demand["flow_m3_per_s"] / demand["outlets"]
    law = lambda d: drilled(d, 0.0, s["viscosity_pa_s"], s["density_kg_per_m3"])
    return brentq(lambda d: law(d)(demand["at_pressure_pa"]) - each, 1e-6, 0.05, xtol=1e-300,
                  rtol=8.9e-16)


class Scaled:
    """The plain Python equations in the scaled states."""

    def __init__(self, case):
        self.moving = Moving(case)
        self.moving.segment, self.moving.mode = (0.0, DURATION), "free"
        rest = Valve(case["valve"]).solve()
        self.y0 = np.array([rest["position_m"], 0.0, rest["feed_pa"], rest["reaction_pa"]]) / UNITS

    def rates(self, t, y):
        full = np.append(y * UNITS, 0.0)
        return np.array(self.moving.rates(t, full)[:4]) / UNITS

    def jacobian(self, t, y):
        out = np.empty((4, 4))
        for j in range(4):
            e = 1e-6 * max(abs(y[j]), 1.0)
            up, down = y.copy(), y.copy()
            up[j] += e
            down[j] -= e
            out[:, j] = (self.rates(t, up) - self.rates(t, down)) / (2 * e)
        return out
