//! A hundred thousand samples of the regulated pressure of a worn valve, as the app makes them.
//!
//! Aim: at most 0.3 s on two cores.

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use diagnosis::pressure::SealEvidence;
use diagnosis::pressure::monte_carlo::{SampledValve, Spreads};
use metrology::law::Law;
use metrology::monte_carlo::{Plan, UncertainInput, monte_carlo};
use model::unit::BoreProfile;
use uom::si::f64::Length;
use uom::si::length::micrometer;

/// One of the demo's invented bores, as JSON.
const PROFILE: &str = include_str!("../data/larkmoor_l6.json");

fn evidence(diametral_um: f64) -> SealEvidence {
    let radial = |um: f64| Length::new::<micrometer>(um / 2.0);
    let off = 1.0 / 2.5_f64.cbrt();
    SealEvidence {
        tested_lands: vec!["reaction land".into()],
        centred: [0.97, 1.0, 1.03].map(|share| radial(diametral_um * share)),
        off_centre: [0.97, 1.0, 1.03].map(|share| radial(diametral_um * share * off)),
    }
}

fn samples(c: &mut Criterion) {
    let profile: BoreProfile = serde_json::from_str(PROFILE).expect("the demo's bore");
    let valve = SampledValve::new(&profile, &evidence(82.0), 363.15, &Spreads::default())
        .expect("a sound valve");
    let line = *profile
        .unit
        .line_highest_pa
        .expect("the demo's line pressure");
    let mut group = c.benchmark_group("monte carlo");
    group
        .sample_size(20)
        .measurement_time(Duration::from_secs(6));
    group.bench_function("regulated pressure, 100 000", |b| {
        b.iter(|| valve.feed_band(black_box(line), 100_000));
    });
    // What drawing, sorting and summing cost by themselves: thirteen inputs, one sum.
    let law = Law::Rectangular {
        low: 0.0,
        high: 1.0,
    };
    let inputs = [UncertainInput { name: "x", law }; 13];
    group.bench_function("a sum of thirteen, 100 000", |b| {
        b.iter(|| {
            monte_carlo(&inputs, &[], &Plan::fixed(1, 100_000), || {
                |x: &[f64]| Ok::<_, ()>(x.iter().sum())
            })
        });
    });
    group.finish();
}

criterion_group!(benches, samples);
criterion_main!(benches);
