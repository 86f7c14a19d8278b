use super::*;
use crate::risk::Limits;
use proptest::prelude::*;

fn input(name: &'static str, law: Law) -> UncertainInput {
    UncertainInput { name, law }
}

fn normal(mean: f64, deviation: f64) -> UncertainInput {
    input("x", Law::Normal { mean, deviation })
}

fn on(threads: usize, plan: Plan) -> Plan {
    Plan {
        threads: NonZeroUsize::new(threads),
        ..plan
    }
}

#[test]
fn the_answer_is_the_same_on_one_core_and_on_many() {
    let inputs = [
        normal(1.0, 0.1),
        input(
            "y",
            Law::LogUniform {
                low: 1.0,
                high: 9.0,
            },
        ),
    ];
    let model = || {
        |x: &[f64]| {
            if x[1] > 8.9 {
                Err("too large")
            } else {
                Ok(x[0] / x[1])
            }
        }
    };
    let stable = Stop::Stable {
        digits: 2,
        coverage: 0.95,
        at_most: 300_000,
    };
    for plan in [
        Plan::fixed(5, 10_007),
        Plan {
            seed: 5,
            stop: stable,
            threads: None,
        },
    ] {
        let one = monte_carlo(&inputs, &[], &on(1, plan), model).unwrap();
        for threads in [2, 3, 7] {
            assert_eq!(
                monte_carlo(&inputs, &[], &on(threads, plan), model).unwrap(),
                one
            );
        }
        let other = Plan { seed: 6, ..plan };
        assert_ne!(
            monte_carlo(&inputs, &[], &other, model).unwrap().mean,
            one.mean
        );
    }
}

#[test]
fn failures_are_counted_and_told_and_widen_the_probability_of_conformity() {
    let inputs = [input(
        "x",
        Law::Rectangular {
            low: 0.0,
            high: 1.0,
        },
    )];
    let r = monte_carlo(&inputs, &[], &Plan::fixed(3, 50_000), || {
        |x: &[f64]| match x[0] {
            x if x > 0.9 => Err("seized"),
            x if x < 0.02 => Ok(f64::NAN),
            x => Ok(x),
        }
    })
    .unwrap();
    assert_eq!(r.trials, 50_000);
    assert_eq!(r.values().len() + r.failures.count(), r.trials);
    assert!(
        (r.failure_share() - 0.12).abs() < 0.005,
        "{}",
        r.failure_share()
    );
    assert!((r.failures.refused as f64 / 5000.0 - 1.0).abs() < 0.05);
    assert_eq!(r.failures.first, Some("seized"));
    let pc = r.conformity(Limits {
        lower: None,
        upper: Some(0.5),
    });
    assert!(
        (pc.low - 0.48).abs() < 0.01 && (pc.high - 0.60).abs() < 0.01,
        "{pc:?}"
    );
}

#[test]
fn a_calculation_that_mostly_fails_has_no_result() {
    let inputs = [input(
        "x",
        Law::Rectangular {
            low: 0.0,
            high: 1.0,
        },
    )];
    let e = monte_carlo(&inputs, &[], &Plan::fixed(3, 1000), || {
        |x: &[f64]| if x[0] > 0.3 { Err(()) } else { Ok(1.0) }
    })
    .unwrap_err();
    assert!(matches!(
        e,
        MetrologyError::TooFew {
            field: "successful_trials",
            least: 500,
            ..
        }
    ));
}

#[test]
fn nothing_uncertain_is_certain() {
    let r = monte_carlo(
        &[input("x", Law::Exactly(2.0))],
        &[],
        &Plan::fixed(3, 1000),
        || |x: &[f64]| Ok::<_, ()>(3.0 * x[0]),
    )
    .unwrap();
    assert_eq!((r.mean, r.deviation, r.skewness), (6.0, 0.0, None));
    assert_eq!(
        r.shortest(0.95).unwrap(),
        CoverageInterval {
            low: 6.0,
            high: 6.0
        }
    );
}

#[test]
fn the_adaptive_run_says_when_it_ran_out_of_trials() {
    let stop = Stop::Stable {
        digits: 3,
        coverage: 0.99,
        at_most: 40_000,
    };
    let plan = Plan {
        seed: 1,
        stop,
        threads: None,
    };
    let r = monte_carlo(&[normal(0.0, 1.0)], &[], &plan, || {
        |x: &[f64]| Ok::<_, ()>(x[0])
    })
    .unwrap();
    let settled = r.settled.unwrap();
    assert!(
        !settled.stable && settled.reached > settled.tolerance,
        "{settled:?}"
    );
    assert_eq!(r.trials, 40_000);
}

#[test]
fn correlated_normals_have_the_correlation_asked_for() {
    // x - y has variance 2 u2 (1 - r), x + y 2 u2 (1 + r) (JCGM 100:2008, eq. 13).
    let r = [Correlation {
        first: 0,
        second: 1,
        coefficient: 0.8,
    }];
    let deviation = |sign: f64| {
        let plan = Plan::fixed(11, 200_000);
        let model = || move |x: &[f64]| Ok::<_, ()>(x[0] + sign * x[1]);
        monte_carlo(&[normal(5.0, 1.0), normal(3.0, 1.0)], &r, &plan, model)
            .unwrap()
            .deviation
    };
    assert!((deviation(-1.0) / 0.4f64.sqrt() - 1.0).abs() < 0.01);
    assert!((deviation(1.0) / 3.6f64.sqrt() - 1.0).abs() < 0.01);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn the_shortest_interval_is_never_longer_and_both_hold_their_share(
        shape in 0.5..5.0f64, coverage in 0.5..0.99f64, seed in any::<u64>(),
    ) {
        let inputs = [input("x", Law::Gamma { shape, rate: 1.0 })];
        let plan = on(1, Plan::fixed(seed, 2000));
        let r = monte_carlo(&inputs, &[], &plan, || |x: &[f64]| Ok::<_, ()>(x[0])).unwrap();
        let (even, short) = (r.symmetric(coverage).unwrap(), r.shortest(coverage).unwrap());
        prop_assert!(short.high - short.low <= even.high - even.low);
        for i in [even, short] {
            let held = r.conformity(Limits { lower: Some(i.low), upper: Some(i.high) }).low;
            prop_assert!((held - coverage).abs() < 2.0 / 2000.0, "{held}");
        }
        prop_assert!(r.skewness.unwrap() > 0.0);
        let (a, b) = (r.quantile(0.3).unwrap(), r.quantile(0.6).unwrap());
        prop_assert!(a <= b);
    }
}
