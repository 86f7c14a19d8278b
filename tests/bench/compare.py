#!/usr/bin/env python3
"""SciPy and CVODES (through CasADi) on the valve of valve.py, each row with its error.

    compare.py reference FILE   writes the cases with tight references (Radau, 1e-11)
    compare.py rows FILE        prints one JSON row a solver

Each error is the largest difference of feed from the reference over the 2,000 points, Pa.
"""
import json
import math
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp

import casadi as ca
from valve import DURATION, POINTS, UNITS, Scaled, Valve, case, outlet_diameter

TIMES = np.linspace(0.0, DURATION, POINTS)
ORIFICES = [0.5, 0.8, 1.2]


def reference(path):
    out = []
    for orifice in ORIFICES:
        c = case(orifice)
        s = Scaled(c)
        sol = solve_ivp(s.rates, (0, DURATION), s.y0, method="Radau", jac=s.jacobian, rtol=1e-11,
                        atol=1e-11, t_eval=TIMES, max_step=1 / 3000)
        assert sol.status == 0
        out.append({**c, "id": f"{orifice} mm", "y0": (s.y0 * UNITS).tolist(),
                    "outlet_diameter_m": outlet_diameter(c["valve"]["demand"]),
                    "feed_pa": (sol.y[2] * UNITS[2]).tolist()})
    with open(path, "w") as f:
        json.dump(out, f)


def symbolic(c):
    """The same right-hand side as one CasADi expression, compiled into CasADi's own machine."""
    v = c["valve"]
    mu, rho = v["oil"]["viscosity_pa_s"], v["oil"]["density_kg_per_m3"]
    y, t = ca.SX.sym("y", 4), ca.SX.sym("t")
    x, speed, feed, reaction = (y[i] * UNITS[i] for i in range(4))
    ripple = c["line"]["ripple"]
    line = c["line"]["knots"][0][1] + ripple["amplitude_pa"] * ca.sin(
        2 * math.pi * ripple["frequency_hz"] * t)
    series = lambda a, b, dp: 2 * dp / (a + ca.sqrt(a * a + 4 * b * ca.fabs(dp)))

    def edge(o, sign, dp):
        b = math.pi * o["land_diameter_m"] * o["circumference_fraction_ratio"]
        k = o["radial_clearance_m"]
        w = o["width_at_rest_m"] + sign * x
        s = ca.sqrt(w * w + k * k)
        # Each half of w and s without cancellation.
        u = ca.if_else(w > 0, (w + s) / 2, k * k / 2 / (s - w))
        h = ca.sqrt(u * u + k * k)
        a = mu * (32 / (math.pi * b * h**2) + 12 * (k * k / 4 / u) / (b * h**3))
        cd = math.pi / (math.pi + 2)
        return series(a, rho / 2 / (cd * b * h) ** 2, dp)

    def hole(d, dp):
        area, cd = math.pi * d * d / 4, math.pi / (math.pi + 2)
        a2, b = (24 * mu / d**3) ** 2, rho / 2 / (cd * area) ** 2
        return dp * ca.sqrt(2 / (a2 + ca.sqrt(a2 * a2 + (2 * b * dp) ** 2)))

    def film(gap, dp):
        d, k, length, e = (gap[n] for n in ("mean_diameter_m", "radial_clearance_m", "length_m",
                                            "eccentricity_ratio"))
        factor = d * k**3 * (1 + 1.5 * e * e) / length
        return series(12 * mu / (math.pi * factor), 1.5 * rho / 2 / (math.pi * d * k) ** 2, dp)

    def modulus(p):
        z = c["stiffness"]
        a = z["entrained_air_ratio"]
        air = a * z["barometer_pa"] / (p + z["barometer_pa"])
        return 1 / (1 / z["liquid_pa"] + air / (air + 1 - a) / (p + z["barometer_pa"]))

    drop = line - feed
    supply, exhaust = edge(v["supply"], -1, drop), edge(v["exhaust"], +1, feed)
    jet = lambda q, dp: 0.98 * math.cos(math.radians(69)) * ca.fabs(q) * ca.sqrt(
        2 * rho * ca.fabs(dp))
    balance = hole(v["balance_orifice"]["diameter_m"], feed - reaction)
    demand = v["demand"]["outlets"] * hole(c["outlet_diameter_m"], feed)
    area = v["reaction_area_m2"]
    force = (reaction * area - v["spring_load_n"] - v["spring_rate_n_per_m"] * x
             + jet(supply, drop) - jet(exhaust, feed) - c["damping_n_s_per_m"] * speed)
    rates = ca.vertcat(
        speed, force / c["spool_mass_kg"],
        modulus(feed) * (supply - exhaust - demand - balance) / c["feed_volume_m3"],
        modulus(reaction) * (balance - film(v["leaks"][0]["annulus"], reaction) - area * speed)
        / (c["reaction_volume_m3"] + area * x))
    return {"x": y, "t": t, "ode": rates / UNITS}


def timed(run, least=5, seconds=4.0):
    spent = []
    while len(spent) < least and sum(spent) < seconds or not spent:
        begun = time.perf_counter()
        feed = run()
        spent.append(time.perf_counter() - begun)
    return feed, min(spent)


def rows(path):
    with open(path) as f:
        cases = json.load(f)
    for c in cases:
        want = np.array(c["feed_pa"])
        y0 = np.array(c["y0"]) / UNITS
        s = Scaled(c)
        dae = symbolic(c)
        # The two right-hand sides must be the same equations.
        f = ca.Function("f", [dae["t"], dae["x"]], [dae["ode"]])
        df = ca.Function("df", [dae["t"], dae["x"]], [ca.jacobian(dae["ode"], dae["x"])])
        compiled = lambda t, y: np.array(f(t, y)).ravel()
        slopes = lambda t, y: np.array(df(t, y))
        a, b = compiled(0.001, y0), s.rates(0.001, y0)
        assert np.all(np.abs(a - b) <= 1e-6 * (np.abs(b) + 1)), (a, b)

        # The static balance, by brentq in brentq to the last bit, in plain Python. It is the
        # reference of the static rows, so its own error is none.
        valve = Valve(c["valve"])
        rest, seconds = timed(lambda: valve.solve()["feed_pa"])
        print(json.dumps({"case": f"{c['id']}, static", "solver": "SciPy brentq", "tolerance": 0,
                          "ms": 1e3 * seconds, "error_pa": abs(rest - c["y0"][2])}), flush=True)

        def report(name, tolerance, feed, seconds):
            print(json.dumps({"case": c["id"], "solver": name, "tolerance": tolerance,
                              "ms": 1e3 * seconds,
                              "error_pa": float(np.max(np.abs(feed - want)))}), flush=True)

        for method in ("BDF", "Radau"):
            # With the compiled right-hand side and its exact Jacobian: several times faster than
            # in plain Python.
            run = lambda: solve_ivp(compiled, (0, DURATION), y0, method=method, jac=slopes,
                                    rtol=1e-6, atol=1e-6, t_eval=TIMES).y[2] * UNITS[2]
            report(f"SciPy {method}", 1e-6, *timed(run))
        for tolerance in (1e-6, 1e-8):
            solver = ca.integrator("i", "cvodes", dae, 0.0, list(TIMES), {
                "reltol": tolerance, "abstol": tolerance, "max_num_steps": 1_000_000})
            run = lambda: np.array(solver(x0=y0)["xf"])[2] * UNITS[2]
            report("CVODES (CasADi)", tolerance, *timed(run, least=15))


if __name__ == "__main__":
    {"reference": reference, "rows": rows}[sys.argv[1]](sys.argv[2])
