//! Sums of money are exact: they add up to the last smallest unit, whatever the figures.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use model::estimate::{Counted, Estimate, EstimateLine, Sums, Tax};
use model::limits::Check;
use proptest::prelude::*;

fn line() -> impl Strategy<Value = EstimateLine> {
    (
        0_i64..=1_000_000,
        -10_000_000_000_i64..=10_000_000_000,
        any::<bool>(),
    )
        .prop_map(|(quantity_thousandths, price_minor, taxed)| EstimateLine {
            what: "Work".into(),
            counted: Counted::Pieces,
            quantity_thousandths,
            price_minor,
            taxed,
        })
}

fn estimate() -> impl Strategy<Value = Estimate> {
    let tax = proptest::option::of((0_i64..=1_000_000, any::<bool>()));
    (prop::collection::vec(line(), 1..100), tax, 0_u8..=4).prop_map(|(lines, tax, decimals)| {
        Estimate {
            currency: "EUR".into(),
            decimals,
            lines,
            tax: tax.map(|(rate_millionths, included)| Tax {
                name: "VAT".into(),
                rate_millionths,
                included,
            }),
            note: String::new(),
        }
    })
}

proptest! {
    #[test]
    fn net_and_tax_are_the_total_and_the_lines_are_the_net(of in estimate()) {
        prop_assert!(of.findings().is_empty());
        let sums = of.sums();
        prop_assert_eq!(sums.net_minor + sums.tax_minor, sums.total_minor);
        let lines: i64 = sums.lines_minor.iter().sum();
        let included = of.tax.as_ref().is_some_and(|tax| tax.included);
        prop_assert_eq!(lines, if included { sums.total_minor } else { sums.net_minor });
        // Each line is within half a smallest unit of what it is.
        for (line, minor) in of.lines.iter().zip(&sums.lines_minor) {
            let exact = i128::from(line.quantity_thousandths) * i128::from(line.price_minor);
            prop_assert!((2 * (exact - 1_000 * i128::from(*minor))).abs() <= 1_000);
        }
    }

    /// Tax is that share of what is taxed, to half a smallest unit.
    #[test]
    fn tax_is_its_share(of in estimate()) {
        let sums = of.sums();
        let Some(tax) = &of.tax else { return Ok(()); };
        let pairs = of.lines.iter().zip(&sums.lines_minor);
        let taxed: i128 = pairs.filter(|(line, _)| line.taxed).map(|(_, it)| i128::from(*it)).sum();
        let rate = i128::from(tax.rate_millionths);
        let whole = if tax.included { 1_000_000 + rate } else { 1_000_000 };
        let off = 2 * (taxed * rate - i128::from(sums.tax_minor) * whole);
        prop_assert!(off.abs() <= whole);
    }

    #[test]
    fn the_order_of_the_lines_changes_no_sum(of in estimate()) {
        let mut turned = of.clone();
        turned.lines.reverse();
        let (a, b) = (of.sums(), turned.sums());
        prop_assert_eq!((a.net_minor, a.tax_minor, a.total_minor), (b.net_minor, b.tax_minor, b.total_minor));
    }

    /// JSON carries them to any reader and back.
    #[test]
    fn they_come_through_json_whole(of in estimate()) {
        let sums = of.sums();
        let read: f64 = serde_json::from_str(&sums.total_minor.to_string()).unwrap();
        #[allow(clippy::cast_possible_truncation)]
        let back = read as i64;
        prop_assert_eq!(back, sums.total_minor);
    }
}

const EXACT: i128 = (1 << 53) - 1;

fn written(lines: &[(i64, i64, bool)], tax: Option<(i64, bool)>) -> Estimate {
    Estimate {
        currency: "EUR".into(),
        decimals: 2,
        lines: lines
            .iter()
            .map(|&(quantity_thousandths, price_minor, taxed)| EstimateLine {
                what: "Work".into(),
                counted: Counted::Hours,
                quantity_thousandths,
                price_minor,
                taxed,
            })
            .collect(),
        tax: tax.map(|(rate_millionths, included)| Tax {
            name: "VAT".into(),
            rate_millionths,
            included,
        }),
        note: String::new(),
    }
}

/// By hand: 1.75 h at 92.50 are 161.875, so 161.88; one part at 48.30; together 210.18. A
/// fifth of that is 42.036, so 42.04.
#[test]
fn an_estimate_adds_up_as_by_hand() {
    let of = written(
        &[(1_750, 9_250, true), (1_000, 4_830, true)],
        Some((200_000, false)),
    );
    assert_eq!(
        of.sums(),
        Sums {
            lines_minor: vec![16_188, 4_830],
            net_minor: 21_018,
            tax_minor: 4_204,
            total_minor: 25_222,
        }
    );
}

/// By hand: of 119.00 that hold 19 %, 119 · 19 / 119 = 19.00 are tax.
#[test]
fn a_price_that_holds_its_tax_stays_the_price() {
    let sums = written(&[(1_000, 11_900, true)], Some((190_000, true))).sums();
    assert_eq!(
        (sums.net_minor, sums.tax_minor, sums.total_minor),
        (10_000, 1_900, 11_900)
    );
}

#[test]
fn a_half_goes_away_from_zero_on_either_side() {
    for (price, line) in [(1, 1), (-1, -1), (3, 2), (-3, -2)] {
        assert_eq!(
            written(&[(500, price, true)], None).sums().lines_minor,
            [line]
        );
    }
}

#[test]
fn absurd_figures_are_held_and_nothing_overflows() {
    let worst = (i64::MAX, i64::MAX, true);
    let sums = written(&vec![worst; 1_000], Some((i64::MAX, false))).sums();
    assert_eq!(i128::from(sums.total_minor), EXACT);
    let low = (i64::MIN, i64::MAX, true);
    let sums = written(&vec![low; 1_000], Some((i64::MAX, true))).sums();
    assert!(i128::from(sums.total_minor) >= -EXACT);
}

#[test]
fn what_is_missing_is_told_at_its_line() {
    let mut of = written(&[(1_000, 100, true), (-1, 100, true)], None);
    of.lines[0].what.clear();
    of.currency.clear();
    let found: Vec<_> = of.findings().into_iter().map(|it| it.field).collect();
    assert_eq!(
        found,
        ["currency", "lines[0].what", "lines[1].quantity_thousandths"]
    );
}
