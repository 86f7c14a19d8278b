//! Our solver and diffsol on the cases that `compare.py reference FILE` wrote: a row each, with
//! its time and its largest error of feed against the reference. diffsol's defaults give up after
//! 50 failures of its iteration; "patient" rows allow it any number.

// A program for the developer's eye may fail loudly.
#![allow(clippy::unwrap_used)]

use std::hint::black_box;
use std::time::Instant;

use bench::described;
use bench::equations::{Along, Equations, UNITS};
use bench::support::described::{f, oil_of, regulator};
use bench::support::{one, pa};
use diffsol::{MatrixCommon, NalgebraLU, NalgebraMat, OdeBuilder, OdeSolverMethod};
use physics::regulator::Branch;
use serde_json::{Value, json};

type Matrix = NalgebraMat<f64>;

fn numbers(v: &Value) -> Vec<f64> {
    let list = v.as_array().unwrap();
    list.iter().map(|x| x.as_f64().unwrap()).collect()
}

/// The shortest of 31 runs, ms (others' work on the machine only ever adds), and the last answer.
fn timed(mut run: impl FnMut() -> Result<Vec<f64>, String>) -> Result<(f64, Vec<f64>), String> {
    let mut shortest = f64::INFINITY;
    let mut feed = run()?;
    for _ in 0..31 {
        let begun = Instant::now();
        feed = run()?;
        shortest = shortest.min(begun.elapsed().as_secs_f64() * 1e3);
    }
    Ok((shortest, feed))
}

fn report(
    case: &Value,
    solver: &str,
    tolerance: f64,
    run: impl FnMut() -> Result<Vec<f64>, String>,
) {
    let want = numbers(&case["feed_pa"]);
    let row = match timed(run) {
        Ok((ms, feed)) => {
            let off = feed.iter().zip(&want).map(|(a, b)| (a - b).abs());
            json!({"case": case["id"], "solver": solver, "tolerance": tolerance, "ms": ms,
                   "error_pa": off.fold(0.0, f64::max)})
        }
        Err(e) => json!({"case": case["id"], "solver": solver, "tolerance": tolerance,
                         "failed": e}),
    };
    println!("{row}");
}

fn with_diffsol(
    case: &Value,
    tolerance: f64,
    sdirk: bool,
    patient: bool,
) -> Result<Vec<f64>, String> {
    let equations = Equations::new(case);
    let y0 = numbers(&case["y0"]);
    let times: Vec<f64> = (0..2000).map(|i| 0.2 * f64::from(i) / 1999.0).collect();
    let mut problem = OdeBuilder::<Matrix>::new()
        .rtol(tolerance)
        .atol([tolerance; 4])
        .h0(1e-6)
        .rhs_implicit(
            move |x, _p, t, y| {
                let r = equations.rates(t, [x[0], x[1], x[2], x[3]]);
                (0..4).for_each(|i| y[i] = r[i]);
            },
            move |x, _p, t, v, y| {
                let state = std::array::from_fn(|i| Along(x[i], v[i]));
                let r = equations.rates(t, state);
                (0..4).for_each(|i| y[i] = r[i].1);
            },
        )
        .init(
            move |_p, _t, y| (0..4).for_each(|i| y[i] = y0[i] / UNITS[i]),
            4,
        )
        .build()
        .map_err(|e| e.to_string())?;
    if patient {
        problem.ode_options.max_nonlinear_solver_failures = 100_000;
        problem.ode_options.max_error_test_failures = 100_000;
    }
    let told = |e: diffsol::error::DiffsolError| e.to_string();
    let columns = if sdirk {
        let mut solver = problem.esdirk34::<NalgebraLU<f64>>().map_err(told)?;
        solver.solve_dense(&times).map_err(told)?.0
    } else {
        let mut solver = problem.bdf::<NalgebraLU<f64>>().map_err(told)?;
        solver.solve_dense(&times).map_err(told)?.0
    };
    Ok((0..2000)
        .map(|i| columns.inner()[(2, i)] * UNITS[2])
        .collect())
}

/// The static balance, a thousand at a time, since one is over before a clock has ticked.
fn at_rest(case: &Value) {
    let valve = &case["valve"];
    let circuit = regulator(valve).circuit(&oil_of(&valve["oil"])).unwrap();
    let line = pa(f(valve, "line_pa"));
    let (mut shortest, mut feed) = (f64::INFINITY, 0.0);
    for _ in 0..31 {
        let begun = Instant::now();
        for _ in 0..1000 {
            feed = circuit
                .solve(black_box(line), Branch::Frictionless)
                .unwrap()
                .feed
                .value;
        }
        shortest = shortest.min(begun.elapsed().as_secs_f64());
    }
    let off = (feed - numbers(&case["y0"])[2]).abs();
    let name = format!("{}, static", case["id"].as_str().unwrap());
    let row = json!({"case": name, "solver": "Valvewright", "tolerance": 0, "ms": shortest,
                     "error_pa": off});
    println!("{row}");
}

fn main() {
    let path = std::env::args().nth(1).unwrap();
    let cases: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    for case in cases.as_array().unwrap() {
        for tolerance in [1e-6, 1e-7, 1e-8] {
            let (circuit, scenario) = described(case, tolerance);
            assert_eq!(scenario.relative_tolerance, one(tolerance));
            report(case, "Valvewright", tolerance, || {
                let got = circuit.simulate(&scenario).map_err(|e| e.to_string())?;
                Ok(got.trace.feed_pa)
            });
        }
        at_rest(case);
        for tolerance in [1e-6, 1e-8] {
            for (name, sdirk, patient) in [
                ("diffsol BDF", false, false),
                ("diffsol BDF, patient", false, true),
                ("diffsol ESDIRK34", true, false),
                ("diffsol ESDIRK34, patient", true, true),
            ] {
                report(case, name, tolerance, || {
                    with_diffsol(case, tolerance, sdirk, patient)
                });
            }
        }
    }
}
