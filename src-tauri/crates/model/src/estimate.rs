//! What the work will cost, as the shop writes it. Amounts are whole numbers of a currency's
//! smallest unit ("minor unit" in ISO 4217), quantities whole thousandths: no sum is ever rounded
//! twice, and none depends on a machine's floating point.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::Finding;
use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, in_range, join, text_required};

/// More lines than this are not an estimate.
pub const MOST_LINES: usize = 100;
/// The largest whole number that every reader of JSON keeps exactly (RFC 8259, section 6).
const EXACT: i128 = (1 << 53) - 1;
const THOUSAND: i128 = 1_000;
const MILLION: i128 = 1_000_000;

/// The estimate of a job. Kind `job.estimate`.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Estimate {
    /// The currency as the shop writes it.
    pub currency: String,
    /// Decimals of an amount: how many smallest units make one, as a power of ten.
    pub decimals: u8,
    /// What is to be paid for.
    pub lines: Vec<EstimateLine>,
    /// Tax; none: the shop writes none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tax: Option<Tax>,
    /// Anything worth keeping.
    #[serde(default)]
    pub note: String,
}

/// One line of an estimate.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EstimateLine {
    /// What.
    pub what: String,
    /// What its quantity counts.
    pub counted: Counted,
    /// Quantity, thousandths.
    pub quantity_thousandths: i64,
    /// Price of one hour or piece, smallest units; below zero for something taken off.
    pub price_minor: i64,
    /// Whether tax is on it.
    #[serde(default = "yes")]
    pub taxed: bool,
}

const fn yes() -> bool {
    true
}

/// What a quantity counts.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Counted {
    /// Hours of work.
    Hours,
    /// Pieces.
    Pieces,
}

/// A tax as the shop writes it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Tax {
    /// Its name.
    pub name: String,
    /// Its rate, millionths: 200000 is a fifth.
    pub rate_millionths: i64,
    /// True when the prices hold it already.
    pub included: bool,
}

/// The sums of an estimate, smallest units.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Sums {
    /// Each line, rounded to the smallest unit.
    pub lines_minor: Vec<i64>,
    /// All without tax.
    pub net_minor: i64,
    /// Tax, worked out once on the sum of what is taxed.
    pub tax_minor: i64,
    /// What is to be paid.
    pub total_minor: i64,
}

impl Estimate {
    /// Each line rounded to the smallest unit, then added; tax on the sum, rounded once. A half
    /// is rounded away from zero (common practice, no source; where the law rounds otherwise, the
    /// shop's accounts decide). Exact for every estimate without findings; a stranger's absurd
    /// figures are held at the largest number that JSON carries exactly.
    #[must_use]
    pub fn sums(&self) -> Sums {
        let of_line = |line: &EstimateLine| {
            let product = i128::from(line.quantity_thousandths) * i128::from(line.price_minor);
            divided(product, THOUSAND)
        };
        let lines: Vec<i128> = self.lines.iter().map(of_line).collect();
        let sum: i128 = lines.iter().sum();
        let pairs = self.lines.iter().zip(&lines);
        let taxed: i128 = pairs
            .filter(|(line, _)| line.taxed)
            .map(|(_, it)| *it)
            .sum();
        let (net, tax) = match &self.tax {
            None => (sum, 0),
            Some(tax) => {
                let rate = i128::from(tax.rate_millionths.max(0));
                if tax.included {
                    let held = divided(taxed.saturating_mul(rate), MILLION + rate);
                    (sum - held, held)
                } else {
                    (sum, divided(taxed.saturating_mul(rate), MILLION))
                }
            }
        };
        Sums {
            lines_minor: lines.into_iter().map(held).collect(),
            net_minor: held(net),
            tax_minor: held(tax),
            total_minor: held(net + tax),
        }
    }
}

/// Divided by a positive number, to the nearest whole one, a half away from zero.
fn divided(of: i128, by: i128) -> i128 {
    let (whole, rest) = (of / by, of % by);
    whole + if 2 * rest.abs() >= by { of.signum() } else { 0 }
}

fn held(amount: i128) -> i64 {
    i64::try_from(amount.clamp(-EXACT, EXACT)).unwrap_or(i64::MAX)
}

#[allow(
    clippy::cast_precision_loss,
    reason = "only compared with a range far below 2^53"
)]
pub(crate) fn whole_in_range(
    value: i64,
    range: limits::Range,
    at: &str,
    field: &str,
    findings: &mut Vec<Finding>,
) {
    in_range(value as f64, range, at, field, findings);
}

pub(crate) fn currency(currency: &str, decimals: u8, at: &str, findings: &mut Vec<Finding>) {
    text_required(currency, at, "currency", findings);
    in_range(
        decimals.into(),
        limits::CURRENCY_DECIMALS,
        at,
        "decimals",
        findings,
    );
}

impl Check for Tax {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.name, at, "name", findings);
        whole_in_range(
            self.rate_millionths,
            limits::TAX_MILLIONTHS,
            at,
            "rate_millionths",
            findings,
        );
    }
}

impl Check for Estimate {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        currency(&self.currency, self.decimals, at, findings);
        if self.lines.is_empty() {
            findings.push(Finding::at(
                Severity::Wrong,
                FindingCode::Missing,
                join(at, "lines"),
            ));
        } else if self.lines.len() > MOST_LINES {
            findings.push(Finding::at(
                Severity::Wrong,
                FindingCode::OutOfRange,
                join(at, "lines"),
            ));
        }
        for (i, line) in self.lines.iter().enumerate() {
            let at = &join(at, &format!("lines[{i}]"));
            text_required(&line.what, at, "what", findings);
            whole_in_range(
                line.quantity_thousandths,
                limits::QUANTITY_THOUSANDTHS,
                at,
                "quantity_thousandths",
                findings,
            );
            whole_in_range(
                line.price_minor,
                limits::AMOUNT_MINOR,
                at,
                "price_minor",
                findings,
            );
        }
        if let Some(tax) = &self.tax {
            tax.check(&join(at, "tax"), findings);
        }
    }
}
