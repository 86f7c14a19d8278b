#!/usr/bin/env python3
"""Independent solution of the moving reducing regulator, for checking the Rust core against.

The equations are those of the core's documentation (regulator/dynamic), written afresh here on the
flow laws of regulator_scipy.py, and integrated by SciPy's Radau (implicit, order 5) with a
relative tolerance of 1e-10. Stops and dry friction are terminal events of solve_ivp, each followed
by a fresh start. The state of rest at the start is found by regulator_scipy.py's own brentq.

    python3 -m venv /tmp/v && /tmp/v/bin/pip install numpy==2.4.6 scipy==1.17.1
    /tmp/v/bin/python tests/reference/regulator_dynamic_scipy.py   # rewrites the .json beside it
    ... regulator_dynamic_scipy.py holes notches                   # only cases of these names

SI units throughout; pressures over sump.
"""
import json
import math
import pathlib
import sys
from concurrent.futures import ProcessPoolExecutor

import numpy as np
import scipy
from scipy.integrate import solve_ivp

from regulator_scipy import LPM, PSI, Valve, annulus, jet_force, random_valve, windowed

RTOL = 1e-10
ATOL = np.array([1e-13, 1e-10, 1e-4, 1e-4, 1e-4])
POINTS = 61


# ---- what happens outside ------------------------------------------------------------------
class Course:
    """(time, value) knots, straight between them, held beyond; equal times are a jump."""

    def __init__(self, knots):
        self.knots = knots

    def at(self, t, side):
        """Value just after (side=+1) or before (side=-1) t."""
        ts = [k[0] for k in self.knots]
        i = int(np.searchsorted(ts, t, side="right" if side > 0 else "left"))
        if i == 0:
            return self.knots[0][1]
        if i == len(ts):
            return self.knots[-1][1]
        (t0, a), (t1, b) = self.knots[i - 1], self.knots[i]
        return a + (b - a) * (t - t0) / (t1 - t0)


def free_air_modulus(stiffness, gauge):
    """1/B = 1/B_oil + phi/(n p) with phi the share of the volume that is air at p."""
    p = gauge + stiffness["barometer_pa"]
    n, a = stiffness["exponent_ratio"], stiffness["entrained_air_ratio"]
    air = a * (stiffness["barometer_pa"] / p) ** (1 / n)
    share = air / (air + 1 - a)
    return 1 / (1 / stiffness["liquid_pa"] + share / (n * p))


# ---- the moving valve ----------------------------------------------------------------------
class Moving:
    def __init__(self, case):
        self.case, v = case, case["valve"]
        self.v, self.law = v, Valve(v)
        self.line = Course(case["line"]["knots"])
        self.demand = Course(case["demand"]["knots"])
        self.ripple = case["line"]["ripple"]
        self.mode = None
        self.segment = None
        self.sliding = v["friction_n"]
        self.breakaway = v["friction_n"] * case["breakaway_ratio"]
        self.direct = v["balance_orifice"] is None
        self.open = v["drain"] == "open"

    def outside(self, t):
        """Line and demand within the present segment of time."""
        t0, t1 = self.segment
        s = (t - t0) / (t1 - t0)
        mix = lambda c: c.at(t0, 1) * (1 - s) + c.at(t1, -1) * s
        line = mix(self.line)
        if self.ripple:
            line += self.ripple["amplitude_pa"] * math.sin(
                2 * math.pi * self.ripple["frequency_hz"] * t)
        return line, mix(self.demand)

    def nodes(self, t, y):
        line, share = self.outside(t)
        return {"line": line, "sump": 0.0, "feed": y[2],
                "reaction": y[2] if self.direct else y[3],
                "chamber": 0.0 if self.open else y[4]}, share

    def force(self, t, y):
        """Toward +x, without friction and damping."""
        s, _ = self.nodes(t, y)
        v, law = self.v, self.law
        drop = s["line"] - s["feed"]
        f = s["reaction"] * v["reaction_area_m2"] - s["chamber"] * v["chamber_area_m2"]
        f -= v["spring_load_n"] + v["spring_rate_n_per_m"] * y[0]
        f += jet_force(law.supply(y[0], drop), drop, law.rho)
        if law.exhaust:
            f -= jet_force(law.exhaust(y[0], s["feed"]), s["feed"], law.rho)
        return f

    def rates(self, t, y):
        s, share = self.nodes(t, y)
        v, law, c = self.v, self.law, self.case
        x = y[0]
        speed = 0.0 if self.mode in ("stuck", "open", "closed") else y[1]
        acceleration = 0.0
        if self.mode in ("free", 1, -1):
            friction = 0.0 if self.mode == "free" else self.mode * self.sliding
            acceleration = (self.force(t, y) - c["damping_n_s_per_m"] * speed - friction) / c[
                "spool_mass_kg"]
        gain = law.supply(x, s["line"] - s["feed"]) - share * law.demand(s["feed"])
        gain -= law.relief(s["feed"])
        if law.exhaust:
            gain -= law.exhaust(x, s["feed"])
        gain += law.net("feed", s)
        into_reaction = law.net("reaction", s) - v["reaction_area_m2"] * speed
        space = c["reaction_volume_m3"] + v["reaction_area_m2"] * x
        b = lambda p: free_air_modulus(c["stiffness"], p)
        if self.direct:
            d_feed = b(s["feed"]) * (gain + into_reaction) / (c["feed_volume_m3"] + space)
            d_reaction = d_feed
        else:
            q = law.orifice(s["feed"] - s["reaction"])
            d_feed = b(s["feed"]) * (gain - q) / c["feed_volume_m3"]
            d_reaction = b(s["reaction"]) * (q + into_reaction) / space
        d_chamber = 0.0
        if not self.open:
            out = law.drain(s["chamber"]) if callable(law.drain) else 0.0
            room = c["chamber_volume_m3"] + v["chamber_area_m2"] * (v["stroke_m"] - x)
            d_chamber = b(s["chamber"]) * (
                law.net("chamber", s) - out + v["chamber_area_m2"] * speed) / room
        return [speed, acceleration, d_feed, d_reaction, d_chamber]

    def jacobian(self, t, y):
        """By central differences: Radau's iteration needs no more (and its own differences blow up
        where a state has no influence at all)."""
        out = np.empty((5, 5))
        for j, size in enumerate((1e-3, 0.1, 1e5, 1e5, 1e5)):
            e = 1e-6 * max(abs(y[j]), size)
            up, down = y.copy(), y.copy()
            up[j] += e
            down[j] -= e
            out[:, j] = (np.array(self.rates(t, up)) - self.rates(t, down)) / (2 * e)
        return out

    # Events: each crosses zero downward when it happens.
    def events(self):
        stroke = self.v["stroke_m"]
        if self.mode in ("free", 1, -1):
            out = [("open", lambda t, y: y[0]), ("closed", lambda t, y: stroke - y[0])]
            if self.mode != "free":
                out.append(("halt", lambda t, y, way=self.mode: way * y[1]))
        else:
            driving = {"open": lambda f: f, "closed": lambda f: -f, "stuck": abs}[self.mode]
            out = [("go", lambda t, y: self.breakaway - driving(self.force(t, y)))]
        for _, f in out:
            f.terminal, f.direction = True, -1
        return out

    def moving(self, force):
        return "free" if self.breakaway == 0 else (1 if force > 0 else -1)

    def settle(self, t, y, what):
        """Mode after an event, or where the outside has jumped."""
        stroke = self.v["stroke_m"]
        if what in ("open", "closed"):
            y[0], y[1] = (0.0 if what == "open" else stroke), 0.0
            f = self.force(t, y)
            away = f if what == "open" else -f
            return what if away <= self.breakaway else self.moving(f)
        if what == "go":
            return self.moving(self.force(t, y))
        if what == "halt":
            y[1] = 0.0
            f = self.force(t, y)
            return "stuck" if abs(f) <= self.breakaway else self.moving(f)
        # A jump of the outside may set a standing spool free.
        if self.mode in ("open", "closed", "stuck"):
            f = self.force(t, y)
            driving = {"open": f, "closed": -f, "stuck": abs(f)}[self.mode]
            if driving > self.breakaway:
                return self.moving(f)
        return self.mode

    def run(self):
        c, end = self.case, self.case["duration_s"]
        cuts = sorted({0.0, end, *(k[0] for k in self.line.knots + self.demand.knots
                                   if 0 < k[0] < end)})
        y = self.start()
        stroke = self.v["stroke_m"]
        self.mode = ("open" if y[0] <= 0 else "closed" if y[0] >= stroke
                     else "stuck" if self.breakaway > 0 else "free")
        times = np.linspace(0, end, POINTS)
        rows, evaluations, happened = [y.copy()], 0, 0
        step = end / 50
        if self.ripple:
            step = min(step, 1 / (20 * self.ripple["frequency_hz"]))
        for t0, t1 in zip(cuts, cuts[1:]):
            self.segment = (t0, t1)
            self.mode = self.settle(t0, y, None)
            t = t0
            while t < t1:
                events = self.events()
                sol = solve_ivp(self.rates, (t, t1), y, method="Radau", jac=self.jacobian,
                                rtol=RTOL, atol=ATOL,
                                events=[f for _, f in events], dense_output=True, max_step=step)
                evaluations += sol.nfev
                assert sol.status >= 0, sol.message
                stop = sol.t[-1]
                for want in times[len(rows):]:
                    if want > stop * (1 + 1e-15):
                        break
                    rows.append(sol.sol(min(want, stop)))
                y, t = sol.y[:, -1].copy(), stop
                if sol.status == 1:
                    which = next(i for i, e in enumerate(sol.t_events) if len(e))
                    y = sol.y_events[which][-1].copy()
                    self.mode = self.settle(t, y, events[which][0])
                    happened += 1
                    assert happened < 2000, "too many events"
        assert len(rows) == POINTS
        rows = np.array(rows)
        clean = lambda col: [float(f"{x:.12e}") for x in rows[:, col]]
        return {"evaluations": evaluations, "events": happened, "position_m": clean(0),
                "feed_pa": clean(2), "reaction_pa": clean(3),
                "chamber_pa": clean(4)}

    def start(self):
        if self.case["start"] == "empty":
            return np.zeros(5)
        v = {**self.v, "line_pa": self.line.at(0.0, -1)}
        assert self.demand.at(0.0, -1) == 1.0
        rest = Valve(v).solve()
        if rest is None:
            raise ValueError("several balances")
        return np.array([rest["position_m"], 0.0, rest["feed_pa"], rest["reaction_pa"],
                         rest["chamber_pa"]])


def solved(case):
    try:
        return case, Moving(case).run()
    except ValueError as e:
        return case, str(e)


# ---- cases ---------------------------------------------------------------------------------
def described(rng, name, valve, line, duration, demand=((0.0, 1.0),), ripple=None, start="rest",
              **more):
    area = valve["reaction_area_m2"]
    case = {
        "id": name, "valve": valve, "duration_s": duration, "start": start,
        "line": {"knots": [[t, p * PSI] for t, p in line], "ripple": ripple and {
            "amplitude_pa": ripple[0] * PSI, "frequency_hz": ripple[1]}},
        "demand": {"knots": [list(k) for k in demand]},
        "spool_mass_kg": rng.uniform(5e-3, 40e-3),
        "damping_n_s_per_m": rng.uniform(1.0, 20.0),
        "breakaway_ratio": rng.uniform(1.0, 1.6),
        "feed_volume_m3": rng.uniform(5e-6, 60e-6),
        "reaction_volume_m3": area * rng.uniform(3e-3, 15e-3),
        "chamber_volume_m3": area * rng.uniform(3e-3, 15e-3),
        "stiffness": {"liquid_pa": rng.uniform(1.2e9, 1.7e9),
                      "entrained_air_ratio": rng.uniform(0.003, 0.05),
                      "exponent_ratio": float(rng.choice([1.0, 1.2, 1.4])),
                      "barometer_pa": rng.uniform(80e3, 103e3)},
    }
    case.update(more)
    return case


def cases():
    rng = np.random.default_rng(20261126)
    out = []

    def many(name, count, make):
        out.extend(make(f"{name}.{i + 1:02}") for i in range(count))

    def leak(v, c_um, a, b, length=2.0, e=0.5):
        d = math.sqrt(4 * v["reaction_area_m2"] / math.pi)
        v["leaks"].append({"annulus": annulus(d, c_um, length, e), "from": a, "to": b})
        return v

    def valve(celsius=90.0, line=200.0, **k):
        v = random_valve(rng, celsius, line, **k)
        v["line_pa"] = 300 * PSI  # the static solver's bound on any pressure
        return v

    u = rng.uniform
    step = lambda a, b, at=0.002: [(at, a), (at, b)]
    many("step_up", 4, lambda i: described(rng, i, valve(u(75, 130)), step(u(60, 150), u(180, 300)), 0.03))
    many("step_down", 3, lambda i: described(rng, i, valve(u(75, 130)), step(u(200, 300), u(60, 150)), 0.03))
    many("fill_from_empty", 3, lambda i: described(rng, i, valve(), [(0, u(150, 250))], 0.04, start="empty"))
    many("ripple", 4, lambda i: described(rng, i, valve(u(80, 120)), [(0, u(130, 250))], 0.03,
                                          ripple=(u(3, 15), u(100, 600))))
    many("ramp", 3, lambda i: described(rng, i, valve(), [(0.003, 50.0), (0.02, u(200, 300))], 0.03))
    many("recorded", 2, lambda i: described(rng, i, valve(), [(k * 0.003, u(60, 280)) for k in range(10)], 0.03))
    many("demand", 3, lambda i: described(rng, i, valve(), [(0, u(150, 250))], 0.03,
                                          demand=[(0.002, 1.0), (0.002, u(0, 0.4)), (0.015, u(1.5, 3)),
                                                  (0.015, 1.0)]))
    many("cold_m20", 3, lambda i: described(rng, i, valve(-20.0), step(60.0, u(150, 300)), 0.06,
                                            damping_n_s_per_m=u(100, 1000)))
    many("hot_140", 3, lambda i: described(rng, i, valve(140.0), step(u(100, 160), u(180, 300)), 0.03))
    many("unsaturated", 2, lambda i: described(rng, i, valve(), [(0, u(30, 50))], 0.03, ripple=(5, 200)))
    many("no_exhaust", 3, lambda i: described(rng, i, valve(exhaust=False), step(u(60, 120), u(150, 300)), 0.03))
    many("line_into_reaction", 2, lambda i: described(
        rng, i, leak(valve(), u(20, 60), "line", "reaction"), step(100.0, u(150, 300)), 0.03))

    def relieved(i):
        v = leak(valve(exhaust=False), u(100, 200), "line", "feed")
        v["demand"]["flow_m3_per_s"] = 0.5 * LPM
        crack, seat = 1.2 * v["demand"]["at_pressure_pa"], u(2.5e-3, 4e-3)
        v["relief"] = {"ball_diameter_m": 1.4 * seat, "seat_diameter_m": seat,
                       "load_n": crack * math.pi * seat**2 / 4, "rate_n_per_m": 2000.0,
                       "lift_stop_m": 1.5e-3, "discharge_ratio": 0.65}
        return described(rng, i, v, step(100.0, u(220, 300)), 0.03)
    many("relief", 3, relieved)

    def rubbing(i):
        v = valve()
        v["friction_n"] = u(1, 12)
        return described(rng, i, v, step(u(80, 150), u(180, 300)), 0.04, ripple=(u(0, 20), u(60, 200)))
    many("friction", 4, rubbing)

    def direct(i):
        v = valve()
        v["balance_orifice"] = None
        return described(rng, i, v, step(100.0, u(150, 300)), 0.02)
    many("no_orifice", 2, direct)

    def drained(i):
        v = leak(valve(), 25.0, "line", "chamber")
        v["chamber_area_m2"] *= u(0.8, 1.0)
        v["drain"] = {"diameter_m": u(0.6e-3, 2e-3), "length_m": 1e-3}
        return described(rng, i, v, step(120.0, u(180, 300)), 0.03)
    many("drain_orifice", 3, drained)

    def blocked(i):
        v = leak(leak(valve(), 25.0, "line", "chamber"), 40.0, "chamber", "sump")
        v["drain"] = "blocked"
        return described(rng, i, v, step(120.0, u(180, 300)), 0.03)
    many("drain_blocked", 2, blocked)
    many("higher_neighbour", 2, lambda i: described(
        rng, i, leak(valve(), u(40, 80), {"fixed_pa": 250 * PSI}, "reaction"), step(100.0, 200.0), 0.03))

    rng = np.random.default_rng(20261130)
    u = rng.uniform
    many("holes_step", 3, lambda i: described(
        rng, i, windowed(rng, valve(u(75, 130)), "holes"), step(u(60, 150), u(180, 300)), 0.03))
    many("notches_ripple", 2, lambda i: described(
        rng, i, windowed(rng, valve(u(80, 120)), "slots"), [(0, u(130, 250))], 0.03,
        ripple=(u(3, 15), u(100, 600))))
    return out


if __name__ == "__main__":
    with ProcessPoolExecutor(2) as pool:
        names = tuple(sys.argv[1:])
        path = pathlib.Path(__file__).with_suffix(".json")
        kept = json.loads(path.read_text())["cases"] if names else []
        done = [c for c in kept if not c["id"].startswith(names)]
        for case, answer in pool.map(solved, [c for c in cases() if c["id"].startswith(names or "")]):
            if isinstance(answer, str):
                print(case["id"], "left out:", answer, file=sys.stderr)
                continue
            print(case["id"], answer["evaluations"], answer["events"], flush=True)
            done.append({**case, "answer": answer})
    result = {
        "about": "Moving reducing regulator integrated by tests/reference/regulator_dynamic_scipy.py",
        "package": f"scipy {scipy.__version__}", "method": "Radau", "rtol": RTOL,
        "cases": done,
    }
    print(f"{len(done)} cases")
    path.write_text(json.dumps(result, separators=(",", ":")).replace('{"id"', '\n{"id"') + "\n")
