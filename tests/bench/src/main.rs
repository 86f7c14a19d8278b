//! Our solver and diffsol on the cases that `compare.py reference FILE` wrote: a row each, with
//! its time and its largest error of feed against the reference.

// A program for the developer's eye may fail loudly.
#![allow(clippy::unwrap_used)]

use std::time::Instant;

use bench::equations::{Along, Equations, UNITS};
use bench::{described, support::one};
use diffsol::{NalgebraLU, NalgebraMat, OdeBuilder, OdeSolverMethod};
use serde_json::{Value, json};

type Matrix = NalgebraMat<f64>;

fn numbers(v: &Value) -> Vec<f64> {
    let list = v.as_array().unwrap();
    list.iter().map(|x| x.as_f64().unwrap()).collect()
}

/// The middle of 31 runs, ms, and the last answer.
fn timed(mut run: impl FnMut() -> Result<Vec<f64>, String>) -> Result<(f64, Vec<f64>), String> {
    let mut spent = Vec::new();
    let mut feed = run()?;
    for _ in 0..31 {
        let begun = Instant::now();
        feed = run()?;
        spent.push(begun.elapsed().as_secs_f64() * 1e3);
    }
    spent.sort_by(f64::total_cmp);
    Ok((spent[15], feed))
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

fn with_diffsol(case: &Value, tolerance: f64, sdirk: bool) -> Result<Vec<f64>, String> {
    let equations = Equations::new(case);
    let y0 = numbers(&case["y0"]);
    let times: Vec<f64> = (0..2000).map(|i| 0.2 * f64::from(i) / 1999.0).collect();
    let problem = OdeBuilder::<Matrix>::new()
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
    let told = |e: diffsol::error::DiffsolError| e.to_string();
    let columns = if sdirk {
        let mut solver = problem.esdirk34::<NalgebraLU<f64>>().map_err(told)?;
        solver.solve_dense(&times).map_err(told)?
    } else {
        let mut solver = problem.bdf::<NalgebraLU<f64>>().map_err(told)?;
        solver.solve_dense(&times).map_err(told)?
    };
    Ok((0..2000)
        .map(|i| columns.inner()[(2, i)] * UNITS[2])
        .collect())
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
        for tolerance in [1e-6, 1e-8] {
            report(case, "diffsol BDF", tolerance, || {
                with_diffsol(case, tolerance, false)
            });
            report(case, "diffsol ESDIRK34", tolerance, || {
                with_diffsol(case, tolerance, true)
            });
        }
    }
}
