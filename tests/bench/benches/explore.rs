//! What one move of a slider costs when a valve is tried out: the static curve with its band and
//! where the valve stands, as `regulator.explore` works them out, each time with another clearance.
//!
//! Aim: a median under 50 ms on two cores.

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use diagnosis::explore::{explore, stand};
use diagnosis::pressure::SealEvidence;
use model::Finite;
use model::unit::BoreProfile;
use model::what_if::Setting;

/// One of the demo's invented bores, as JSON.
const PROFILE: &str = include_str!("../data/larkmoor_l6.json");

fn slider(c: &mut Criterion) {
    let profile: BoreProfile = serde_json::from_str(PROFILE).expect("the demo's bore");
    let worn = SealEvidence {
        tested_lands: vec!["reaction land".into()],
        ..SealEvidence::measured(&profile, [80e-6, 82e-6, 84e-6])
    };
    let mut group = c.benchmark_group("trying out");
    group.measurement_time(Duration::from_secs(6));
    // The orifice moves and the seals stay as tested: the untested ones are one more unknown.
    let mut step = 0u32;
    group.bench_function("one move of a slider, curve with band", |b| {
        b.iter(|| {
            step = (step + 1) % 100;
            let setting = Setting {
                orifice_m: Finite::new(0.5e-3 + 5e-6 * f64::from(step)),
                ..Setting::default()
            };
            let told = explore(&profile, black_box(&setting), Some(&worn), None);
            let stands = stand(&profile, &setting, Some(&worn), None);
            (told.expect("an answer"), stands.expect("an answer"))
        });
    });
    group.finish();
}

criterion_group!(benches, slider);
criterion_main!(benches);
