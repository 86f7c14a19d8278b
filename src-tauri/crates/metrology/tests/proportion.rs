//! The interval of a share, against a worked case and against the sums that define it.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use metrology::proportion::clopper_pearson;
use proptest::prelude::*;

/// So many hits or fewer, by the binomial's own sum; term by term in logarithms, since the first
/// ones are smaller than any number otherwise.
fn at_most(hits: u32, cases: u32, share: f64) -> f64 {
    let n = f64::from(cases);
    let mut term = n * (-share).ln_1p();
    let mut sum = 0.0;
    for k in 0..=hits {
        sum += term.exp();
        let k = f64::from(k);
        term += ((n - k) / (k + 1.0)).ln() + share.ln() - (-share).ln_1p();
    }
    sum
}

/// NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.2: four of twenty are defective, at
/// 90 %. Its equations, solved with exact binomial sums by bisection in Python, give
/// 0.0713539 and 0.4010281. (The handbook prints 0.071354 and 0.401029: from memory, within
/// the tolerance of the spreadsheet's solver that it uses.)
#[test]
fn four_of_twenty_at_ninety_percent_as_the_handbook_has_it() {
    let found = clopper_pearson(4, 20, 0.90).unwrap();
    assert!((found.low - 0.071_353_9).abs() < 1e-7, "{found:?}");
    assert!((found.high - 0.401_028_1).abs() < 1e-7, "{found:?}");
    assert!((found.share - 0.2).abs() < 1e-15);
}

/// With no hit the upper end is 1 - (tail)^(1/n), by hand from (1 - p)^n = tail.
#[test]
fn no_hit_among_five_still_allows_a_half() {
    let found = clopper_pearson(0, 5, 0.95).unwrap();
    assert!(found.low.abs() < 1e-15);
    assert!((found.high - (1.0 - 0.025_f64.powf(0.2))).abs() < 1e-9);
    assert!((clopper_pearson(5, 5, 0.95).unwrap().high - 1.0).abs() < 1e-15);
}

#[test]
fn nothing_is_said_of_no_cases() {
    assert!(clopper_pearson(0, 0, 0.95).is_err());
    assert!(clopper_pearson(2, 1, 0.95).is_err());
    assert!(clopper_pearson(1, 2, 1.0).is_err());
}

proptest! {
    /// The equations that define the limits, solved the other way round.
    #[test]
    fn the_ends_solve_the_binomial_sums(cases in 1_u32..400, part in 0.0..1.0_f64) {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let hits = (part * f64::from(cases)).round() as u32;
        let found = clopper_pearson(hits, cases, 0.95).unwrap();
        prop_assert!(found.low <= found.share && found.share <= found.high);
        if hits < cases {
            prop_assert!((at_most(hits, cases, found.high) - 0.025).abs() < 1e-6);
        }
        if hits > 0 {
            prop_assert!((1.0 - at_most(hits - 1, cases, found.low) - 0.025).abs() < 1e-6);
        }
    }
}
