#!/usr/bin/env python3
"""Independent solution of the static reducing regulator, for checking the Rust core against.

The equations are those of the core's documentation, written afresh here in other variables and
solved in another order: the spool position is the outermost unknown (brentq on the force that is
left over), the feed pressure the next (brentq on the oil that feed gains), reaction and chamber
pressure the innermost. Each answer is then put back into the whole system, and the residuals are
stored beside it.

    python3 -m venv /tmp/v && /tmp/v/bin/pip install numpy==2.4.6 scipy==1.17.1
    /tmp/v/bin/python tests/reference/regulator_scipy.py        # rewrites regulator_scipy.json

The area of holes and notches is integrated from the chord of the window at the edge (quad), where
the core has closed forms; how a covered window leaks follows the core's documentation, and is
itself held against Laplace's equation by covered_windows.py.

SI units throughout; pressures over sump.
"""
import json
import math
import pathlib

import numpy as np
import scipy
from scipy.integrate import quad
from scipy.optimize import brentq

COS69 = math.cos(math.radians(69.0))
C_EDGE = math.pi / (math.pi + 2.0)
TIGHT = dict(xtol=1e-300, rtol=8.9e-16, maxiter=500)


# ---- oil -----------------------------------------------------------------------------------
def oil(celsius, nu40=30e-6, nu100=6.5e-6, rho15=852.0):
    """ASTM D341 in its Z = nu + 0.7 form (enough above 2 mm2/s) and D1250 table 54D."""
    w = lambda nu: math.log10(math.log10(nu * 1e6 + 0.7))
    t = celsius + 273.15
    b = (w(nu40) - w(nu100)) / math.log10(373.15 / 313.15)
    nu = (10 ** 10 ** (w(nu40) - b * math.log10(t / 313.15)) - 0.7) * 1e-6
    a = 0.6278 / rho15
    dt = celsius - 15.0
    rho = rho15 * math.exp(-a * dt * (1 + 0.8 * a * dt))
    return {"viscosity_pa_s": nu * rho, "density_kg_per_m3": rho}


# ---- losses --------------------------------------------------------------------------------
def signed(flow_of_positive_drop):
    def flow(dp):
        return math.copysign(flow_of_positive_drop(abs(dp)), dp) if dp else 0.0
    return flow


def sum_of_losses(r, i):
    """Flow with r q + i q^2 = dp."""
    return signed(lambda dp: dp / (r / 2 + math.hypot(r / 2, math.sqrt(i * dp))))


def root_sum_of_losses(r, i):
    """Flow with (r q)^2 + (i q^2)^2 = dp^2: quadratic in q^2."""
    def flow(dp):
        y = 2 * dp * dp / (r * r + math.hypot(r * r, 2 * i * dp))
        return math.sqrt(y)
    return signed(flow)


def drilled(d, length, mu, rho):
    slender, area = length / d, math.pi * d * d / 4
    creep = mu * (24 / d**3 + 128 * length / (math.pi * d**4))
    if slender <= 10:
        c = 0.827 - 0.0085 * slender
    else:
        c10 = 0.827 - 0.085
        c = 1 / math.sqrt(1 / c10**2 + 2 * 0.0085 / c10**3 * (slender - 10))
    t = min(max(slender - 0.5, 0.0), 1.0)
    share = 3 * t**2 - 2 * t**3
    edge = root_sum_of_losses(creep, rho / 2 / (C_EDGE * area) ** 2)
    bore = sum_of_losses(creep, rho / 2 / (c * area) ** 2)
    return lambda dp: (1 - share) * edge(dp) + share * bore(dp)


def film(gap, mu, rho):
    d, c, length, e = (gap[k] for k in ("mean_diameter_m", "radial_clearance_m", "length_m",
                                        "eccentricity_ratio"))
    k = d * c**3 * (1 + 1.5 * e * e) / length
    return sum_of_losses(12 * mu / (math.pi * k), 1.5 * rho / 2 / (math.pi * d * c) ** 2)


def window_area(win, v):
    """Area of one window that the edge has passed by v, and its greatest width so far."""
    kind = win["kind"]
    if kind == "holes":
        r = win["diameter_m"] / 2
        end = math.acos(max(1 - v / r, -1.0)) if v < r else math.pi - math.acos(
            max(1 - (2 * r - v) / r, -1.0)) if v < 2 * r else math.pi
        if v < 1e-3 * r:
            end = 2 * math.asin(math.sqrt(v / (2 * r)))  # the same angle, without cancellation
        area = quad(lambda t: 2 * (r * math.sin(t)) ** 2, 0, end, epsabs=0, epsrel=3e-14)[0]
        return area, 2 * r * (math.sin(end) if v < r else 1.0)
    v = min(v, win["length_m"])
    if kind == "slots":
        return win["width_m"] * v, win["width_m"]
    slope = math.tan(win["half_angle_rad"])
    return quad(lambda t: 2 * t * slope, 0, v, epsabs=0, epsrel=3e-14)[0], 2 * slope * v


def window_film(win, l):
    """Shape factor of one covered window (core: opening/film.rs)."""
    kind = win["kind"]
    if kind == "holes":
        t = 2 * l / win["diameter_m"]
        return 2 * math.pi / math.asinh(math.sqrt(t * (t + 2)))
    big = win["length_m"]
    if kind == "slots":
        w = win["width_m"]
        return w / l + 4 / math.pi * (math.log((l + big) / l) + math.log(math.pi / 2) + 1
                                      + math.log1p(w / 2 / (l + big)))
    a = win["half_angle_rad"]
    ends = math.log(4) + math.log1p(big * math.tan(a) / (l + big))
    return 2 * math.log1p(0.9 * big / l) / (math.pi / 2 - a) + 4 / math.pi * ends


def windowed_edge(o, sign, mu, rho):
    """Jet through what is open, in quadrature with the film past the land."""
    c, win = o["radial_clearance_m"], o["window"]
    n = win["count"]
    full = win["diameter_m"] if win["kind"] == "holes" else win["length_m"]
    widest = n * window_area(win, full)[1]

    def flow(x, dp):
        w = o["width_at_rest_m"] + sign * x
        u = (w + math.hypot(w, c)) / 2 if w >= 0 else c * c / 2 / (math.hypot(w, c) - w)
        area, width = (n * part for part in window_area(win, u))
        jet = sum_of_losses(32 * mu * width / math.pi / area**2, rho / 2 / (C_EDGE * area) ** 2)
        past = sum_of_losses(
            mu * (32 / (math.pi * widest * c**2) + 12 / (c**3 * n * window_film(win, c * c / 4 / u))),
            rho / 2 / (C_EDGE * c * widest) ** 2)
        return math.copysign(math.hypot(jet(dp), past(dp)), dp)
    return flow


def metering_edge(o, sign, mu, rho):
    if o.get("window"):
        return windowed_edge(o, sign, mu, rho)
    b = math.pi * o["land_diameter_m"] * o["circumference_fraction_ratio"]
    c = o["radial_clearance_m"]

    def flow(x, dp):
        w = o["width_at_rest_m"] + sign * x
        u = (w + math.hypot(w, c)) / 2 if w >= 0 else c * c / 2 / (math.hypot(w, c) - w)
        overlap = c * c / 4 / u  # u (u - w) = c^2 / 4
        h = math.hypot(u, c)
        r = mu * (32 / (math.pi * b * h**2) + 12 * overlap / (b * h**3))
        return sum_of_losses(r, rho / 2 / (C_EDGE * b * h) ** 2)(dp)
    return flow


def jet_force(q, dp, rho):
    return rho * abs(q) * 0.98 * math.sqrt(2 * abs(dp) / rho) * COS69


def ball_relief(r, mu, rho):
    big, small = r["ball_diameter_m"] / 2, r["seat_diameter_m"] / 2
    seat = math.pi * small**2

    def flow(p):
        lift = min((p * seat - r["load_n"]) / r["rate_n_per_m"], r["lift_stop_m"])
        if lift <= 0:
            return 0.0
        dist = math.hypot(small, math.sqrt(big**2 - small**2) + lift)
        area = min(math.pi * small * dist * (1 - (big / dist) ** 2), seat)
        h = area / (2 * math.pi * small)
        creep = 32 * mu / (math.pi * h**2 * 2 * math.pi * small)
        return sum_of_losses(creep, rho / 2 / (r["discharge_ratio"] * area) ** 2)(p)
    return flow


def solenoids(d, mu, rho):
    if d["flow_m3_per_s"] == 0:
        return lambda p: 0.0
    n, each = d["outlets"], d["flow_m3_per_s"] / d["outlets"]
    s = d["stated_in"]
    size = brentq(lambda a: drilled(a, 0.0, s["viscosity_pa_s"], s["density_kg_per_m3"])(
        d["at_pressure_pa"]) - each, 1e-6, 0.05, **TIGHT)
    one = drilled(size, 0.0, mu, rho)
    return lambda p: n * one(p)


# ---- the regulator -------------------------------------------------------------------------
class Valve:
    def __init__(self, v):
        self.v = v
        mu, rho = v["oil"]["viscosity_pa_s"], v["oil"]["density_kg_per_m3"]
        self.rho = rho
        self.supply = metering_edge(v["supply"], -1, mu, rho)
        self.exhaust = metering_edge(v["exhaust"], +1, mu, rho) if v["exhaust"] else None
        o = v["balance_orifice"]
        self.orifice = drilled(o["diameter_m"], o["length_m"], mu, rho) if o else None
        self.leaks = [(film(l["annulus"], mu, rho), l["from"], l["to"]) for l in v["leaks"]]
        dr = v["drain"]
        self.drain = drilled(dr["diameter_m"], dr["length_m"], mu, rho) if isinstance(
            dr, dict) else dr
        self.demand = solenoids(v["demand"], mu, rho)
        self.relief = ball_relief(v["relief"], mu, rho) if v["relief"] else (lambda p: 0.0)
        self.top = max([v["line_pa"]] + [e["fixed_pa"] for l in v["leaks"]
                                          for e in (l["from"], l["to"]) if isinstance(e, dict)])

    def pressure(self, node, s):
        return node["fixed_pa"] if isinstance(node, dict) else s[node]

    def net(self, node, s):
        """Net leak into a node."""
        total = 0.0
        for law, a, b in self.leaks:
            if node in (a, b):
                q = law(self.pressure(a, s) - self.pressure(b, s))
                total += q if b == node else -q
        return total

    def chamber(self, s):
        if self.drain == "open":
            return 0.0
        out = self.drain if callable(self.drain) else (lambda p: 0.0)
        f = lambda p: self.net("chamber", {**s, "chamber": p}) - out(p)
        if f(0.0) <= 0:
            return 0.0
        return brentq(f, 0.0, self.top, **TIGHT)

    def reaction(self, s):
        """Sets reaction and chamber pressure for a feed pressure."""
        if self.orifice is None:
            s = {**s, "reaction": s["feed"]}
            return {**s, "chamber": self.chamber(s)}
        coupled = any({"reaction", "chamber"} == {a, b} for _, a, b in self.leaks
                      if not isinstance(a, dict) and not isinstance(b, dict))

        def gain(p):
            t = {**s, "reaction": p}
            if coupled:
                t["chamber"] = self.chamber(t)
            return self.orifice(s["feed"] - p) + self.net("reaction", t)
        lo, hi = gain(0.0), gain(self.top)
        p = 0.0 if lo <= 0 else self.top if hi >= 0 else brentq(gain, 0.0, self.top, **TIGHT)
        s = {**s, "reaction": p}
        return {**s, "chamber": self.chamber(s)}

    def feed_gain(self, x, s):
        q = self.supply(x, s["line"] - s["feed"]) - self.demand(s["feed"]) - self.relief(s["feed"])
        if self.exhaust:
            q -= self.exhaust(x, s["feed"])
        out = -self.net("reaction", s) if self.orifice is None else self.orifice(
            s["feed"] - s["reaction"])
        return q - out + self.net("feed", s)

    def hydraulics(self, x):
        """All pressures with the spool held at x."""
        base = {"line": self.v["line_pa"], "sump": 0.0, "chamber": 0.0, "reaction": 0.0}
        f = lambda p: self.feed_gain(x, self.reaction({**base, "feed": p}))
        lo, hi = f(0.0), f(self.top)
        feed = 0.0 if lo <= 0 else self.top if hi >= 0 else brentq(f, 0.0, self.top, **TIGHT)
        return self.reaction({**base, "feed": feed})

    def push(self, x, s):
        """Force toward +x."""
        v = self.v
        sign = {"frictionless": 0, "rising": -1, "falling": 1}[v["branch"]]
        dp = s["line"] - s["feed"]
        f = jet_force(self.supply(x, dp), dp, self.rho)
        if self.exhaust:
            f -= jet_force(self.exhaust(x, s["feed"]), s["feed"], self.rho)
        return (s["reaction"] * v["reaction_area_m2"] - s["chamber"] * v["chamber_area_m2"]
                - v["spring_load_n"] - v["spring_rate_n_per_m"] * x + f + sign * v["friction_n"])

    def solve(self):
        stroke = self.v["stroke_m"]
        f = lambda x: self.push(x, self.hydraulics(x))
        # More than one balance? Look along the stroke; the case generator avoids such cases.
        signs = [f(x) > 0 for x in np.linspace(0, stroke, 25)]
        changes = sum(a != b for a, b in zip(signs, signs[1:]))
        if not signs[0] and changes == 0:
            x = 0.0
        elif signs[-1] and changes == 0:
            x = stroke
        elif changes == 1 and signs[0]:
            x = brentq(f, 0.0, stroke, **TIGHT)
        else:
            return None
        s = self.hydraulics(x)
        q = {"supply": self.supply(x, s["line"] - s["feed"]),
             "exhaust": self.exhaust(x, s["feed"]) if self.exhaust else 0.0,
             "demand": self.demand(s["feed"]), "relief": self.relief(s["feed"])}
        on_stop = x in (0.0, stroke)
        return {"feed_pa": s["feed"], "reaction_pa": s["reaction"], "chamber_pa": s["chamber"],
                "position_m": x, "on_stop": on_stop,
                **{f"{k}_m3_per_s": val for k, val in q.items()},
                "residual_feed_m3_per_s": self.feed_gain(x, s),
                "residual_force_n": 0.0 if on_stop else self.push(x, s)}


# ---- cases ---------------------------------------------------------------------------------
PSI = 6894.757293168361
LPM = 1 / 60000


def annulus(d, c_um, length_mm, e):
    return {"mean_diameter_m": d, "radial_clearance_m": c_um * 1e-6, "length_m": length_mm * 1e-3,
            "eccentricity_ratio": e}


def random_valve(rng, celsius, line_psi, exhaust=True):
    d = rng.choice([8e-3, 10e-3, 14.3e-3, 20e-3])
    area = math.pi * d * d / 4
    rate = rng.uniform(1e3, 8e3)
    opening = rng.uniform(0.8e-3, 2e-3)
    stroke = opening + rng.uniform(1e-3, 2.5e-3)
    setpoint = rng.uniform(60, 135) * PSI
    clearance = rng.uniform(10e-6, 30e-6)
    edge = lambda w: {"land_diameter_m": d, "circumference_fraction_ratio": rng.uniform(0.3, 1.0),
                      "width_at_rest_m": w, "radial_clearance_m": clearance}
    return {
        "oil": oil(celsius), "line_pa": line_psi * PSI, "branch": "frictionless",
        "reaction_area_m2": area, "chamber_area_m2": area,
        "spring_load_n": setpoint * area - rate * opening, "spring_rate_n_per_m": rate,
        "stroke_m": stroke,
        "supply": edge(opening),
        "exhaust": edge(-opening - rng.uniform(0.1e-3, 0.5e-3)) if exhaust else None,
        "balance_orifice": {"diameter_m": rng.uniform(0.5e-3, 2e-3),
                            "length_m": float(rng.choice([0.0, 0.9e-3, 1.2e-3, 1.5e-3]))},
        "leaks": [{"annulus": annulus(d, rng.uniform(10, 60), rng.uniform(1.5, 6),
                                      rng.uniform(0, 1)), "from": "reaction", "to": "sump"}],
        "drain": "open", "friction_n": 0.0,
        "demand": {"flow_m3_per_s": rng.uniform(0.5, 4) * LPM, "at_pressure_pa": setpoint,
                   "outlets": int(rng.integers(1, 8)), "stated_in": oil(90.0)},
        "relief": None,
    }


def windowed(rng, v, kind):
    """Holes or notches on both edges instead of grooves, side by side round the land at most."""
    for edge in (v["supply"], v["exhaust"]):
        if not edge:
            continue
        n, around = int(rng.integers(2, 9)), math.pi * edge["land_diameter_m"]
        size = min(rng.uniform(0.8e-3, 3e-3), 0.8 * around / n)
        edge["window"] = {
            "holes": lambda: {"kind": kind, "count": n, "diameter_m": size},
            "slots": lambda: {"kind": kind, "count": n, "width_m": size,
                              "length_m": rng.uniform(0.3e-3, 3e-3)},
            "vs": lambda: {"kind": kind, "count": n, "length_m": (long := rng.uniform(1e-3, 3e-3)),
                           "half_angle_rad": math.atan(size / 2 / long)},
        }[kind]()
    return v


def cases():
    rng = np.random.default_rng(20261125)
    out = []

    def add(name, v):
        answer = Valve(v).solve()
        if answer is None:  # several balances: no reference
            return False
        out.append({"id": name, "valve": v, "answer": answer})
        return True

    def many(name, count, make):
        made = 0
        for _ in range(10 * count):
            if made < count and add(f"{name}.{made + 1:02}", make()):
                made += 1
        assert made == count, name

    def leak(v, c_um, a, b, length=2.0, e=0.5):
        d = math.sqrt(4 * v["reaction_area_m2"] / math.pi)
        v["leaks"].append({"annulus": annulus(d, c_um, length, e), "from": a, "to": b})
        return v

    line = lambda: rng.uniform(140, 300)
    many("hot", 8, lambda: random_valve(rng, rng.uniform(75, 130), line()))
    many("cold_m20", 4, lambda: random_valve(rng, -20.0, line()))
    many("hot_140", 4, lambda: random_valve(rng, 140.0, line()))
    many("below_setpoint", 4, lambda: random_valve(rng, 90.0, rng.uniform(5, 60)))
    many("no_exhaust", 4, lambda: random_valve(rng, 90.0, line(), exhaust=False))
    many("line_into_reaction", 3,
         lambda: leak(random_valve(rng, 95.0, line()), rng.uniform(20, 60), "line", "reaction"))
    many("cross_leak_exhausted", 3,
         lambda: leak(random_valve(rng, 95.0, line()), rng.uniform(80, 150), "line", "feed"))

    def overrun():
        v = leak(random_valve(rng, 95.0, line()), rng.uniform(150, 250), "line", "feed")
        v["exhaust"]["circumference_fraction_ratio"] = 0.02
        return v
    many("cross_leak_beats_exhaust", 2, overrun)

    def uncontrolled():
        v = leak(random_valve(rng, 95.0, line(), exhaust=False), rng.uniform(100, 200), "line",
                 "feed")
        v["demand"]["flow_m3_per_s"] = 0.5 * LPM
        return v
    many("cross_leak_no_exhaust", 3, uncontrolled)

    def relieved():
        v = uncontrolled()
        crack = 1.2 * v["demand"]["at_pressure_pa"]
        seat = rng.uniform(2.5e-3, 4e-3)
        v["relief"] = {"ball_diameter_m": 1.4 * seat, "seat_diameter_m": seat,
                       "load_n": crack * math.pi * seat**2 / 4, "rate_n_per_m": 2000.0,
                       "lift_stop_m": 1.5e-3, "discharge_ratio": 0.65}
        return v
    many("relief", 4, relieved)
    many("higher_neighbour_into_feed", 3,
         lambda: leak(random_valve(rng, 90.0, rng.uniform(20, 80)), rng.uniform(60, 120),
                      {"fixed_pa": 250 * PSI}, "feed"))
    many("feed_into_neighbour", 2,
         lambda: leak(random_valve(rng, 90.0, line()), rng.uniform(30, 80), "feed",
                      {"fixed_pa": 20 * PSI}))

    def friction(branch):
        v = random_valve(rng, 90.0, line())
        v["friction_n"], v["branch"] = rng.uniform(1, 10), branch
        return v
    many("friction_rising", 2, lambda: friction("rising"))
    many("friction_falling", 2, lambda: friction("falling"))

    def direct():
        v = random_valve(rng, 90.0, line())
        v["balance_orifice"] = None
        return v
    many("no_orifice", 2, direct)

    def drained(drain):
        v = leak(random_valve(rng, 90.0, line()), 25.0, "line", "chamber")
        v["chamber_area_m2"] *= rng.uniform(0.8, 1.0)
        v["drain"] = drain
        return v
    many("drain_orifice", 2, lambda: drained({"diameter_m": rng.uniform(0.6e-3, 2e-3),
                                               "length_m": 1e-3}))

    def blocked():
        v = drained("blocked")
        return leak(v, 20.0, "chamber", "sump")
    many("drain_blocked", 2, blocked)
    many("reaction_meets_feed", 2,
         lambda: leak(random_valve(rng, 90.0, line()), 40.0, "feed", "reaction"))

    def met():
        v = drained({"diameter_m": 1.5e-3, "length_m": 1e-3})
        return leak(v, 30.0, "reaction", "chamber")
    many("reaction_meets_chamber", 2, met)

    rng = np.random.default_rng(20261130)
    many("holes_hot", 5,
         lambda: windowed(rng, random_valve(rng, rng.uniform(75, 130), line()), "holes"))
    many("holes_cold_m20", 3, lambda: windowed(rng, random_valve(rng, -20.0, line()), "holes"))
    many("holes_below_setpoint", 2,
         lambda: windowed(rng, random_valve(rng, 90.0, rng.uniform(20, 60)), "holes"))
    many("holes_cross_leak_exhausted", 3, lambda: windowed(
        rng, leak(random_valve(rng, 95.0, line()), rng.uniform(80, 150), "line", "feed"), "holes"))
    many("holes_friction", 2, lambda: windowed(rng, friction("rising"), "holes"))
    many("notches_hot", 4,
         lambda: windowed(rng, random_valve(rng, rng.uniform(75, 130), line()), "slots"))
    many("notches_no_exhaust", 2,
         lambda: windowed(rng, random_valve(rng, 90.0, line(), exhaust=False), "slots"))
    many("v_notches", 3, lambda: windowed(rng, random_valve(rng, 95.0, line()), "vs"))
    return out


if __name__ == "__main__":
    result = {
        "about": "Static reducing regulator solved by tests/reference/regulator_scipy.py",
        "package": f"scipy {scipy.__version__}",
        "cases": cases(),
    }
    worst_q = max(abs(c["answer"]["residual_feed_m3_per_s"]) for c in result["cases"])
    worst_f = max(abs(c["answer"]["residual_force_n"]) for c in result["cases"])
    print(f"{len(result['cases'])} cases, worst residuals {worst_q:.1e} m3/s, {worst_f:.1e} N")
    path = pathlib.Path(__file__).with_suffix(".json")
    path.write_text(json.dumps(result, indent=1) + "\n")
