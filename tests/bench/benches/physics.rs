//! Static solve, transient and small motions, by criterion.

// A program for the developer's eye may fail loudly.
#![allow(clippy::unwrap_used)]

use std::hint::black_box;

use bench::described;
use bench::support::{oil, one, psi, set};
use criterion::{Criterion, criterion_group, criterion_main};
use physics::regulator::Branch;
use serde_json::Value;

fn all(c: &mut Criterion) {
    let still = set().circuit(&oil(90.0)).unwrap();
    c.bench_function("static solve", |b| {
        b.iter(|| still.solve(black_box(psi(200.0)), Branch::Frictionless));
    });
    let path = std::env::var("BENCH_CASES").unwrap();
    let cases: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    for case in cases.as_array().unwrap() {
        let (circuit, scenario) = described(case, 1e-6);
        let name = case["id"].as_str().unwrap();
        c.bench_function(&format!("transient, 0.2 s of ripple, 1e-6, {name}"), |b| {
            b.iter(|| circuit.simulate(black_box(&scenario)));
        });
        c.bench_function(&format!("small motions, {name}"), |b| {
            b.iter(|| circuit.stability(black_box(psi(150.0)), one(1.0)));
        });
    }
}

criterion_group!(benches, all);
criterion_main!(benches);
