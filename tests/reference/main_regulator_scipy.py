#!/usr/bin/env python3
"""Independent solution of the bypass main regulator, alone and with the feed regulator and the
pressure-control solenoid, for checking the Rust core against.

The equations are those of the core's documentation, written afresh and solved in another order: the
spool position of the main regulator is the outermost unknown (brentq on the force that is left
over), line pressure the next (brentq on the oil that line gains); the feed regulator is solved by
regulator_scipy.py, which has its own spool position outermost. Each answer is put back into the
whole system, and the residuals are stored beside it.

    python3 -m venv /tmp/v && /tmp/v/bin/pip install numpy==2.4.6 scipy==1.17.1
    /tmp/v/bin/python tests/reference/main_regulator_scipy.py   # rewrites main_regulator_scipy.json

SI units throughout; pressures over sump.
"""
import copy
import json
import math
import pathlib

import numpy as np
import scipy
from scipy.optimize import brentq

import regulator_scipy as r

TIGHT = r.TIGHT
PSI, LPM = r.PSI, r.LPM
TOP = 1e7


class Feed(r.Valve):
    """The feed regulator, with something more taken from feed."""
    extra = 0.0

    def feed_gain(self, x, s):
        return super().feed_gain(x, s) - self.extra

    def hydraulics(self, x):
        base = {"line": self.v["line_pa"], "sump": 0.0, "chamber": 0.0, "reaction": 0.0}
        f = lambda p: self.feed_gain(x, self.reaction({**base, "feed": p}))
        lo, hi = f(0.0), f(self.top)
        feed = 0.0 if lo <= 0 else self.top if hi >= 0 else brentq(f, 0.0, self.top, **TIGHT)
        return self.reaction({**base, "feed": feed})

    def solve(self):
        stroke = self.v["stroke_m"]
        f = lambda x: self.push(x, self.hydraulics(x))
        lo, hi = f(0.0), f(stroke)
        x = 0.0 if lo <= 0 else stroke if hi >= 0 else brentq(f, 0.0, stroke, **TIGHT)
        s = self.hydraulics(x)
        taken = self.supply(x, s["line"] - s["feed"]) - self.net("line", s)
        return s, x, taken, self.feed_gain(x, s)


class Main:
    def __init__(self, v):
        self.v = v
        mu, rho = v["oil"]["viscosity_pa_s"], v["oil"]["density_kg_per_m3"]
        self.mu, self.rho = mu, rho
        self.dump = r.metering_edge(v["dump"], +1, mu, rho)
        self.over = r.metering_edge(v["overflow"]["edge"], +1, mu, rho) if v["overflow"] else None
        hole = lambda o: r.drilled(o["diameter_m"], o["length_m"], mu, rho) if o else None
        self.balance, self.boost = hole(v["balance_orifice"]), hole(v["boost_orifice"])
        self.leaks = [(r.film(l["annulus"], mu, rho), l["from"], l["to"]) for l in v["leaks"]]
        self.demand = r.solenoids(v["demand"], mu, rho)
        self.relief = r.ball_relief(v["relief"], mu, rho) if v["relief"] else (lambda p: 0.0)
        pump = v["pump"]
        slip = pump["slip_m3_per_s"] / pump["at_pressure_pa"] * (
            pump["stated_in"]["viscosity_pa_s"] / mu)
        self.pump = lambda line: pump["ideal_flow_m3_per_s"] - slip * line

    def pressure(self, node, s):
        return node["fixed_pa"] if isinstance(node, dict) else s[node]

    def net(self, node, s):
        total = 0.0
        for law, a, b in self.leaks:
            if node in (a, b):
                q = law(self.pressure(a, s) - self.pressure(b, s))
                total += q if b == node else -q
        return total

    def chambers(self, line, supply):
        """Reaction and boost pressure: the boost chamber is solved within the reaction chamber."""
        base = {"line": line, "sump": 0.0, "supply": supply}
        top = max([line, supply] + [e["fixed_pa"] for _, a, b in self.leaks for e in (a, b)
                                    if isinstance(e, dict)])

        def with_boost(s):
            if self.boost is None:
                return {**s, "boost": supply}
            f = lambda p: self.boost(supply - p) + self.net("boost", {**s, "boost": p})
            lo, hi = f(0.0), f(top)
            p = 0.0 if lo <= 0 else top if hi >= 0 else brentq(f, 0.0, top, **TIGHT)
            return {**s, "boost": p}

        if self.balance is None:
            return with_boost({**base, "reaction": line})
        g = lambda p: self.balance(line - p) + self.net(
            "reaction", with_boost({**base, "reaction": p}))
        lo, hi = g(0.0), g(top)
        p = 0.0 if lo <= 0 else top if hi >= 0 else brentq(g, 0.0, top, **TIGHT)
        return with_boost({**base, "reaction": p})

    def boost_needs(self, line, supply):
        return -self.net("boost", self.chambers(line, supply))

    def edges(self, x, line):
        held = self.v["overflow"]["pressure_pa"] if self.over else 0.0
        return self.dump(x, line), self.over(x, line - held) if self.over else 0.0, held

    def gain(self, x, s, taken):
        d, o, _ = self.edges(x, s["line"])
        return (self.pump(s["line"]) - d - o - self.demand(s["line"]) - self.relief(s["line"])
                + self.net("reaction", s) + self.net("line", s) - taken)

    def push(self, x, s):
        v = self.v
        sign = {"frictionless": 0, "rising": -1, "falling": 1}[v["branch"]]
        d, o, held = self.edges(x, s["line"])
        jets = r.jet_force(d, s["line"], self.rho) + r.jet_force(o, s["line"] - held, self.rho)
        return (s["reaction"] * v["reaction_area_m2"] - s["boost"] * v["boost_area_m2"]
                - v["spring_load_n"] - v["spring_rate_n_per_m"] * x - jets
                + sign * v["friction_n"])

    def solve(self, beside, look=0):
        """`beside(line)` gives (solenoid output, taken from line). Line leaking into a boost
        chamber feeds back on itself and may allow several balances; `look` so many places for
        them along the stroke, and refuse such a case."""
        def at(x):
            def f(line):
                supply, taken = beside(line)
                return self.gain(x, self.chambers(line, supply), taken)
            # With the edges shut the line may lie beyond the range: then the spool is pushed open.
            line = TOP if f(TOP) > 0 else brentq(f, 0.0, TOP, **TIGHT)
            return self.chambers(line, beside(line)[0])
        stroke = self.v["stroke_m"]
        f = lambda x: self.push(x, at(x))
        lo, hi = f(0.0), f(stroke)
        signs = [lo > 0] + [f(x) > 0 for x in np.linspace(0, stroke, look + 2)[1:-1]] + [hi > 0]
        if any(b and not a for a, b in zip(signs, signs[1:])):
            raise ValueError("several balances")
        x = 0.0 if lo <= 0 else stroke if hi >= 0 else brentq(f, 0.0, stroke, **TIGHT)
        s = at(x)
        if s["line"] >= TOP:
            raise ValueError("no line within the range")
        return x, s

    def answer(self, x, s, taken):
        d, o, _ = self.edges(x, s["line"])
        stopped = x in (0.0, self.v["stroke_m"])
        return {"line_pa": s["line"], "reaction_pa": s["reaction"], "boost_pa": s["boost"],
                "position_m": x, "state": "starved" if x == 0.0 else "too_small" if stopped
                else "regulating",
                "dump_m3_per_s": d, "overflow_m3_per_s": o, "pump_m3_per_s": self.pump(s["line"]),
                "residual_line_m3_per_s": self.gain(x, s, taken),
                "residual_force_n": 0.0 if stopped else self.push(x, s)}


def together(main, feed_valve, solenoid):
    """The whole circuit: what stands beside line is the feed regulator and the solenoid."""
    def output(feed):
        if "command_pa" in solenoid:
            return min(solenoid["command_pa"], feed)
        return solenoid["share_ratio"] * feed

    def side(line):
        feed = Feed({**copy.deepcopy(feed_valve), "line_pa": line})

        def with_draw(q):
            feed.extra = q
            s, x, taken, residual = feed.solve()
            return s, x, taken, output(s["feed"]), residual
        idle = with_draw(0.0)
        most = max(main.boost_needs(line, idle[3]), 0.0)
        if most == 0.0:
            return idle, 0.0
        f = lambda q: q - max(main.boost_needs(line, with_draw(q)[3]), 0.0)
        q = brentq(f, 0.0, most, xtol=1e-300, rtol=8.9e-16) if f(most) > 0 else most
        return with_draw(q), q

    def beside(line):
        (_, _, taken, out, _), _ = side(line)
        return out, taken
    x, s = main.solve(beside)
    (feed, feed_x, taken, out, residual), draw = side(s["line"])
    return {**main.answer(x, s, taken), "feed_pa": feed["feed"], "feed_position_m": feed_x,
            "solenoid_output_pa": out, "solenoid_draw_m3_per_s": draw,
            "feed_takes_m3_per_s": taken, "residual_feed_m3_per_s": residual}


# ---- cases ---------------------------------------------------------------------------------
def edge(rng, d, width, clearance):
    return {"land_diameter_m": d, "circumference_fraction_ratio": rng.uniform(0.3, 1.0),
            "width_at_rest_m": width, "radial_clearance_m": clearance}


def random_main(rng, celsius, pump_lpm=None):
    d = rng.uniform(12e-3, 20e-3)
    area = math.pi * d * d / 4
    low_line = rng.uniform(50, 80) * PSI
    clearance = rng.uniform(10e-6, 30e-6)
    return {
        "oil": r.oil(celsius), "branch": "frictionless",
        "reaction_area_m2": area, "boost_area_m2": area * rng.uniform(1.2, 2.2),
        "spring_load_n": low_line * area, "spring_rate_n_per_m": rng.uniform(2e3, 10e3),
        "stroke_m": rng.uniform(3e-3, 6e-3),
        "dump": edge(rng, d, -rng.uniform(0.2e-3, 1.2e-3), clearance),
        "overflow": {"edge": edge(rng, d, -rng.uniform(0.05e-3, 0.2e-3), clearance) | {
            "circumference_fraction_ratio": rng.uniform(0.02, 0.1)},
            "pressure_pa": rng.uniform(20, 50) * PSI} if rng.random() < 0.5 else None,
        "balance_orifice": {"diameter_m": rng.uniform(0.8e-3, 2e-3), "length_m": float(
            rng.choice([0.0, 1.0e-3]))},
        "boost_orifice": {"diameter_m": rng.uniform(0.8e-3, 2e-3), "length_m": float(
            rng.choice([0.0, 1.0e-3]))},
        "leaks": [{"annulus": r.annulus(d, rng.uniform(10, 50), rng.uniform(2, 6),
                                        rng.uniform(0, 1)), "from": "line", "to": "sump"}],
        "friction_n": 0.0,
        "demand": {"flow_m3_per_s": rng.uniform(1, 5) * LPM, "at_pressure_pa": 100 * PSI,
                   "outlets": int(rng.integers(1, 8)), "stated_in": r.oil(90.0)},
        "relief": None,
        "pump": {"ideal_flow_m3_per_s": (pump_lpm or rng.uniform(10, 60)) * LPM,
                 "slip_m3_per_s": rng.uniform(0.5, 3) * LPM, "at_pressure_pa": 100 * PSI,
                 "stated_in": r.oil(90.0)},
    }


def leak(rng, v, c_um, a, b):
    d = math.sqrt(4 * v["reaction_area_m2"] / math.pi)
    v["leaks"].append({"annulus": r.annulus(d, c_um, rng.uniform(2, 5), 0.5), "from": a, "to": b})
    return v


def alone(rng):
    hot = lambda: rng.uniform(75, 130)

    def relieved():
        v = random_main(rng, hot(), 60)
        v["dump"]["circumference_fraction_ratio"] = 0.02
        v["overflow"] = None
        seat = rng.uniform(5e-3, 8e-3)
        v["relief"] = {"ball_diameter_m": 1.4 * seat, "seat_diameter_m": seat,
                       "load_n": 250 * PSI * math.pi * seat**2 / 4, "rate_n_per_m": 8000.0,
                       "lift_stop_m": 3e-3, "discharge_ratio": 0.65}
        return v

    def plain(key):
        v = random_main(rng, hot())
        v[key] = None
        return v

    def rubbing(branch):
        v = random_main(rng, hot())
        v["friction_n"], v["branch"] = rng.uniform(1, 10), branch
        return v
    yield from (("hot", random_main(rng, hot())) for _ in range(6))
    yield from (("cold_m20", random_main(rng, -20.0)) for _ in range(2))
    yield from (("hot_140", random_main(rng, 140.0)) for _ in range(2))
    yield from (("starved", random_main(rng, 120.0, rng.uniform(2, 5))) for _ in range(4))
    yield from (("relief", relieved()) for _ in range(2))
    for name, a, b in (("reaction_to_sump", "reaction", "sump"), ("boost_to_sump", "boost", "sump"),
                       ("line_to_boost", "line", "boost"), ("line_to_reaction", "line", "reaction"),
                       ("reaction_to_boost", "reaction", "boost"),
                       ("into_boost", {"fixed_pa": 200 * PSI}, "boost")):
        yield from ((name, leak(rng, random_main(rng, hot(), 40), rng.uniform(30, 80), a, b))
                    for _ in range(3))
    yield "no_balance_orifice", plain("balance_orifice")
    yield "no_boost_orifice", leak(rng, plain("boost_orifice"), 50, "boost", "sump")
    yield "friction_rising", rubbing("rising")
    yield "friction_falling", rubbing("falling")


def circuits(rng):
    def make(celsius, solenoid, pump=None, leaks=(), feed_leaks=()):
        main = random_main(rng, celsius, pump)
        for c, a, b in leaks:
            leak(rng, main, c, a, b)
        feed = r.random_valve(rng, celsius, 0.0)
        for c, a, b in feed_leaks:
            d = math.sqrt(4 * feed["reaction_area_m2"] / math.pi)
            feed["leaks"].append({"annulus": r.annulus(d, c, 2.0, 0.5), "from": a, "to": b})
        return main, feed, solenoid
    command = lambda p: {"command_pa": p * PSI}
    share = lambda: {"share_ratio": rng.uniform(0.2, 0.8)}
    yield from (("command", make(95.0, command(rng.uniform(10, 50)), 40)) for _ in range(4))
    yield from (("command_above_feed", make(95.0, command(200), 40)) for _ in range(2))
    yield from (("bleed", make(95.0, share(), 40)) for _ in range(3))
    yield from (("cold", make(-20.0, share(), 30)) for _ in range(1))
    yield from (("starved", make(120.0, share(), rng.uniform(3, 6))) for _ in range(2))
    yield from (("feed_worn", make(95.0, share(), 40, (), [(60, "reaction", "sump"),
                                                           (40, "line", "feed")]))
                for _ in range(2))
    yield from (("boost_leaks", make(95.0, share(), 40, [(rng.uniform(30, 60), "boost", "sump")]))
                for _ in range(2))
    yield from (("line_into_boost", make(95.0, share(), 40, [(40, "line", "boost")]))
                for _ in range(1))


if __name__ == "__main__":
    rng = np.random.default_rng(20261126)
    out = []

    def add(name, case):
        number = sum(c["id"].startswith(name + ".") for c in out) + 1
        out.append({"id": f"{name}.{number:02}", **case})

    for name, v in alone(rng):
        v["solenoid_output_pa"] = rng.uniform(0, 80) * PSI
        m = Main(v)
        try:
            x, s = m.solve(lambda line: (v["solenoid_output_pa"], 0.0), look=40)
        except ValueError as e:
            print(name, e)
            continue
        add(name, {"main": v, "answer": m.answer(x, s, 0.0)})
    for name, (v, feed, solenoid) in circuits(rng):
        answer = together(Main(v), feed, solenoid)
        add("together_" + name, {"main": v, "feed": feed, "solenoid": solenoid, "answer": answer})
        print(name, {k: answer[k] for k in ("line_pa", "feed_pa", "boost_pa", "state")}, flush=True)
    worst = lambda key: max(abs(c["answer"].get(key, 0.0)) for c in out)
    print(f"{len(out)} cases, worst residuals {worst('residual_line_m3_per_s'):.1e} m3/s in line, "
          f"{worst('residual_feed_m3_per_s'):.1e} m3/s in feed, "
          f"{worst('residual_force_n'):.1e} N; states "
          f"{sorted((c['id'], c['answer']['state']) for c in out if c['answer']['state'] != 'regulating')}")
    result = {
        "about": "Bypass main regulator, alone and in its circuit, solved by "
                 "tests/reference/main_regulator_scipy.py",
        "package": f"scipy {scipy.__version__}",
        "cases": out,
    }
    path = pathlib.Path(__file__).with_suffix(".json")
    path.write_text(json.dumps(result, indent=1) + "\n")
