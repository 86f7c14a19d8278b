//! The worked examples of JCGM 101:2008, clause 9, and the Monte Carlo engine against laws known in
//! closed form. Printed values are from memory of the document unless a closed form stands beside
//! them; the tolerance is the numerical one that so many trials deserve.

#![allow(
    clippy::unwrap_used,
    reason = "test helpers, which clippy takes for library code"
)]

use metrology::correlation::Correlation;
use metrology::law::Law;
use metrology::monte_carlo::{MonteCarlo, Plan, Stop, UncertainInput, monte_carlo};
use metrology::propagate::{Input, propagate};

const TRIALS: usize = 400_000;

fn input(name: &'static str, law: Law) -> UncertainInput {
    UncertainInput { name, law }
}

fn normal(name: &'static str, mean: f64, deviation: f64) -> UncertainInput {
    input(name, Law::Normal { mean, deviation })
}

fn rectangular(name: &'static str, low: f64, high: f64) -> UncertainInput {
    input(name, Law::Rectangular { low, high })
}

fn run(
    inputs: &[UncertainInput],
    correlations: &[Correlation],
    f: impl Fn(&[f64]) -> f64 + Copy + Send + Sync,
) -> MonteCarlo<()> {
    let plan = Plan::fixed(101, TRIALS);
    let r = monte_carlo(inputs, correlations, &plan, || move |x: &[f64]| Ok(f(x))).unwrap();
    assert_eq!(r.failures.count(), 0);
    r
}

fn near(what: &str, got: f64, want: f64, within: f64) {
    assert!(
        (got - want).abs() <= within,
        "{what}: {got}, expected {want} +/- {within}"
    );
}

fn sum(x: &[f64]) -> f64 {
    x.iter().sum()
}

#[test]
fn additive_normal_9_2_2() {
    // Table 2: y = 0, u = 2.00, [-3.92, 3.92]; exact: normal with deviation 2.
    let r = run(&[normal("x", 0.0, 1.0); 4], &[], sum);
    near("mean", r.mean, 0.0, 0.015);
    near("deviation", r.deviation, 2.0, 0.01);
    for interval in [r.symmetric(0.95).unwrap(), r.shortest(0.95).unwrap()] {
        near("low", interval.low, -3.92, 0.05);
        near("high", interval.high, 3.92, 0.05);
    }
    near("skewness", r.skewness.unwrap(), 0.0, 0.02);
}

#[test]
fn additive_rectangular_9_2_3() {
    // Table 3: u = 2.00, [-3.88, 3.88]; exact end 3.87941 (Irwin-Hall, point i.rect_sum_quantile).
    let a = 3f64.sqrt();
    let r = run(&[rectangular("x", -a, a); 4], &[], sum);
    near("deviation", r.deviation, 2.0, 0.01);
    let interval = r.symmetric(0.95).unwrap();
    near("low", interval.low, -3.879_406_741, 0.03);
    near("high", interval.high, 3.879_406_741, 0.03);
}

#[test]
fn sum_of_two_rectangular_quantities() {
    // Triangular: point i.rect_sum_quantile.02, 2.689505 (mpmath 1.3.0).
    let a = 3f64.sqrt();
    let interval = run(&[rectangular("x", -a, a); 2], &[], sum)
        .symmetric(0.95)
        .unwrap();
    near("low", interval.low, -2.689_504_946, 0.01);
    near("high", interval.high, 2.689_504_946, 0.01);
}

#[test]
fn one_dominant_rectangular_9_2_4() {
    // Table 4: u = 10.1, [-17.0, 17.0], where first order gives 19.9.
    let (a, b) = (3f64.sqrt(), 10.0 * 3f64.sqrt());
    let x = rectangular("x", -a, a);
    let r = run(&[x, x, x, rectangular("large", -b, b)], &[], sum);
    near("deviation", r.deviation, 103f64.sqrt(), 0.05);
    let interval = r.symmetric(0.95).unwrap();
    near("low", interval.low, -17.0, 0.1);
    near("high", interval.high, 17.0, 0.1);
    let inputs = [1.0, 1.0, 1.0, 10.0].map(|uncertainty| Input {
        name: "x",
        estimate: 0.0,
        uncertainty,
        degrees_of_freedom: None,
    });
    let first = propagate(&inputs, &[], |x| Ok::<_, ()>(sum(x))).unwrap();
    near(
        "1.96 u to first order",
        1.96 * first.uncertainty,
        19.9,
        0.05,
    );
    near(
        "the large one's share",
        first.contributions[0].share,
        100.0 / 103.0,
        1e-9,
    );
}

/// Mass calibration: deviation from nominal, mg.
fn mass(x: &[f64]) -> f64 {
    (x[0] + x[1]) * (1.0 + (x[2] - 1.2) * (1.0 / x[3] - 1.0 / x[4])) - 100_000.0
}

#[test]
fn mass_calibration_9_3() {
    // Table 8: Monte Carlo 1.2341 mg, u 0.0754 mg, shortest 95 % [1.0834, 1.3825] mg; first order
    // u 0.0539 mg, for the sensitivity to the air's density vanishes at the estimates.
    let inputs = [
        normal("reference weight", 100_000.000, 0.050),
        normal("added weight", 1.234, 0.020),
        rectangular("density of air", 1.10, 1.30),
        rectangular("density of the weight", 7_000.0, 9_000.0),
        rectangular("density of the reference", 7_950.0, 8_050.0),
    ];
    let r = run(&inputs, &[], mass);
    near("mean", r.mean, 1.2341, 0.0005);
    near("deviation", r.deviation, 0.0754, 0.0003);
    let interval = r.shortest(0.95).unwrap();
    near("low", interval.low, 1.0834, 0.004);
    near("high", interval.high, 1.3825, 0.004);

    let third = 1.0 / 3f64.sqrt();
    let known = [
        (100_000.0, 0.050),
        (1.234, 0.020),
        (1.2, 0.1 * third),
        (8_000.0, 1_000.0 * third),
        (8_000.0, 50.0 * third),
    ]
    .map(|(estimate, uncertainty)| Input {
        name: "x",
        estimate,
        uncertainty,
        degrees_of_freedom: None,
    });
    let first = propagate(&known, &[], |x| Ok::<_, ()>(mass(x))).unwrap();
    near("first order", first.uncertainty, 0.0539, 0.00005);
}

#[test]
fn mass_calibration_9_3_adaptively() {
    // 9.3.2.2 finds stability to one digit after some 10^5 trials.
    let inputs = [
        normal("reference weight", 100_000.000, 0.050),
        normal("added weight", 1.234, 0.020),
        rectangular("density of air", 1.10, 1.30),
        rectangular("density of the weight", 7_000.0, 9_000.0),
        rectangular("density of the reference", 7_950.0, 8_050.0),
    ];
    let stop = Stop::Stable {
        digits: 1,
        coverage: 0.95,
        at_most: 2_000_000,
    };
    let plan = Plan {
        seed: 7,
        stop,
        threads: None,
    };
    let r = monte_carlo(&inputs, &[], &plan, || |x: &[f64]| Ok::<_, ()>(mass(x))).unwrap();
    let settled = r.settled.unwrap();
    assert!(
        settled.stable && settled.reached <= settled.tolerance,
        "{settled:?}"
    );
    near("tolerance", settled.tolerance, 0.005, 1e-12);
    near("deviation", r.deviation, 0.0754, 2.0 * settled.tolerance);
}

#[test]
fn comparison_loss_9_4_without_and_with_correlation() {
    // 9.4.2.2 at x1 = x2 = 0 (in 10^-6, u = 5 x 10^-3): exponential, mean and deviation 50,
    // shortest 95 % [0, 150]: -50 ln 0.05 = 149.8.
    let loss = |x: &[f64]| 1e6 * (x[0] * x[0] + x[1] * x[1]);
    let at = |x1: f64, r: f64| {
        let inputs = [normal("x1", x1, 0.005), normal("x2", 0.0, 0.005)];
        let correlation = Correlation {
            first: 0,
            second: 1,
            coefficient: r,
        };
        run(&inputs, &[correlation], loss)
    };
    let r = at(0.0, 0.0);
    near("mean", r.mean, 50.0, 0.4);
    near("deviation", r.deviation, 50.0, 0.4);
    let interval = r.shortest(0.95).unwrap();
    near("low", interval.low, 0.0, 0.3);
    near("high", interval.high, 149.8, 1.5);
    // Skewness of an exponential quantity.
    near("skewness", r.skewness.unwrap(), 2.0, 0.06);
    // 9.4.3, r = 0.9: deviation 67 (exact: 50 sqrt(1 + r^2) = 67.27).
    let r = at(0.0, 0.9);
    near("mean", r.mean, 50.0, 0.6);
    near("deviation", r.deviation, 67.27, 0.7);
    // At x1 = 0.050: 2 550 and, to first order, 500 (9.4.2.4).
    let r = at(0.050, 0.0);
    near("mean", r.mean, 2_550.0, 4.0);
    near("deviation", r.deviation, 502.0, 4.0);
}

#[test]
fn end_gauge_9_5() {
    // Table 11: 838 nm, u 36 nm (first order 32 nm), all inputs as in table 10. An interval with
    // inexact limits (the two coefficients of difference) is drawn in two steps, 6.4.3.
    let t = |name, mean, scale, degrees_of_freedom| {
        input(
            name,
            Law::Student {
                mean,
                scale,
                degrees_of_freedom,
            },
        )
    };
    let inputs = [
        t("standard", 50_000_623.0, 25.0, 18.0),
        t("mean difference", 215.0, 6.0, 24.0),
        t("comparator, random", 0.0, 4.0, 5.0),
        t("comparator, systematic", 0.0, 7.0, 8.0),
        rectangular("expansion", 9.5e-6, 13.5e-6),
        normal("mean temperature", -0.1, 0.2),
        input(
            "cycle",
            Law::UShaped {
                low: -0.5,
                high: 0.5,
            },
        ),
        rectangular("difference of expansion", -1.0, 1.0),
        rectangular("its limit", 0.9e-6, 1.1e-6),
        rectangular("difference of temperature", -1.0, 1.0),
        rectangular("its limit", 0.025, 0.075),
    ];
    let length = |x: &[f64]| {
        let (d_alpha, d_theta) = (x[7] * x[8], x[9] * x[10]);
        let theta = x[5] + x[6];
        (x[0] * (1.0 + (x[4] + d_alpha) * (theta + d_theta)) + x[1] + x[2] + x[3])
            / (1.0 + x[4] * theta)
            - 50_000_000.0
    };
    let r = run(&inputs, &[], length);
    near("mean", r.mean, 838.0, 0.6);
    near("deviation", r.deviation, 36.0, 0.7);
    // The same inputs drawn by NumPy 2.4.6 with a generator of its own, 4 000 000 trials:
    // deviation 35.816, shortest 99 % [744.3, 931.6].
    near("deviation (NumPy)", r.deviation, 35.816, 0.15);
    let interval = r.shortest(0.99).unwrap();
    near("low", interval.low, 744.3, 2.5);
    near("high", interval.high, 931.6, 2.5);
}

#[test]
fn shortest_intervals_of_skewed_laws() {
    // SciPy 1.17.1: scipy.stats.gamma(4), the narrowest 95 % by scipy.optimize.
    let r = run(
        &[input(
            "x",
            Law::Gamma {
                shape: 4.0,
                rate: 1.0,
            },
        )],
        &[],
        sum,
    );
    let interval = r.shortest(0.95).unwrap();
    near("low", interval.low, 0.712_501, 0.05);
    near("high", interval.high, 7.948_296, 0.08);
    near("skewness", r.skewness.unwrap(), 1.0, 0.03);
    // Log-normal of shape 0.5.
    let r = run(&[normal("x", 0.0, 0.5)], &[], |x| x[0].exp());
    let interval = r.shortest(0.95).unwrap();
    near("low", interval.low, 0.261_652, 0.01);
    near("high", interval.high, 2.318_079, 0.02);
    near("deviation", r.deviation, 0.603_901, 0.005);
}
