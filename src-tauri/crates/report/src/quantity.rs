//! Numbers as the shop reads them: its units, its decimal sign, and digits that say no more than
//! is known. The same rules as the interface's (`ui/src/lib/quantity/format.ts`).

mod unit;

pub use unit::{Force, Length, Pressure, Temperature, Units, Vacuum};
pub(crate) use unit::{Quantity, Unit};

/// Keeps number and unit on one line.
const SPACE: char = '\u{a0}';
/// Groups thousands: a small space, which no reader takes for a decimal sign (ISO 80000-1).
const GROUP: char = '\u{202f}';
/// Rounding noise that must not push an end outward by a whole last digit.
const NOISE: f64 = 1e-6;

/// How numbers are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Shown {
    /// Units.
    pub units: Units,
    /// A comma before the decimals, not a point.
    pub decimal_comma: bool,
}

/// Two ends as written, rounded outward so that an interval never looks narrower than it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Ends {
    pub low: String,
    pub high: String,
    pub unit: &'static str,
}

impl Shown {
    /// A plain number.
    pub(crate) fn number(&self, value: f64, decimals: i32) -> String {
        let step = if decimals < 0 {
            10f64.powi(-decimals)
        } else {
            1.0
        };
        let rounded = (value / step).round() * step;
        let value = if decimals < 0 { rounded } else { value };
        let digits = usize::try_from(decimals).unwrap_or(0);
        let written = format!("{:.*}", digits, value.abs());
        let (whole, part) = written.split_once('.').unwrap_or((&written, ""));
        let mut text = String::new();
        let is_zero = written.chars().all(|c| c == '0' || c == '.');
        if value < 0.0 && !is_zero {
            text.push('\u{2212}');
        }
        let grouped = whole.len() > 4;
        for (i, digit) in whole.chars().enumerate() {
            if grouped && i > 0 && (whole.len() - i).is_multiple_of(3) {
                text.push(GROUP);
            }
            text.push(digit);
        }
        if !part.is_empty() {
            text.push(if self.decimal_comma { ',' } else { '.' });
            text.push_str(part);
        }
        text
    }

    /// The unit that the shop reads a quantity in.
    pub(crate) fn unit(&self, quantity: Quantity) -> Unit {
        quantity.shown(&self.units)
    }

    /// An SI value with its unit.
    pub(crate) fn value(&self, si: f64, quantity: Quantity) -> String {
        self.in_unit(si, self.unit(quantity))
    }

    /// The same with a sign: a shift, a difference.
    pub(crate) fn signed(&self, si: f64, quantity: Quantity) -> String {
        let unit = self.unit(quantity);
        let number = self.number(unit.of_si(si), unit.decimals);
        let zero = number.chars().all(|c| matches!(c, '0' | '.' | ','));
        let plus = if si > 0.0 && !zero { "+" } else { "" };
        format!("{plus}{number}{SPACE}{}", unit.symbol)
    }

    fn in_unit(&self, si: f64, unit: Unit) -> String {
        format!(
            "{}{SPACE}{}",
            self.number(unit.of_si(si), unit.decimals),
            unit.symbol
        )
    }

    /// The SI value beside, in brackets; nothing when the shop reads SI anyway.
    pub(crate) fn beside(&self, si: f64, quantity: Quantity) -> String {
        let metric = quantity.shown(&Units::SI);
        if metric == self.unit(quantity) {
            return String::new();
        }
        format!(" ({})", self.in_unit(si, metric))
    }

    /// A value with its SI value beside.
    pub(crate) fn both(&self, si: f64, quantity: Quantity) -> String {
        self.value(si, quantity) + &self.beside(si, quantity)
    }

    /// "15.9 ± 0.4 inHg", digits matched. `u` is in SI, as a difference.
    pub(crate) fn with_uncertainty(&self, si: f64, u: f64, quantity: Quantity) -> String {
        let unit = self.unit(quantity);
        let spread = (u / unit.factor).abs();
        let decimals = if spread > 0.0 {
            uncertainty_decimals(spread).min(unit.decimals + 2)
        } else {
            unit.decimals
        };
        format!(
            "{}{SPACE}±{SPACE}{}{SPACE}{}",
            self.number(unit.of_si(si), decimals),
            self.number(spread, decimals),
            unit.symbol
        )
    }

    /// An uncertainty by itself. `u` is in SI, as a difference.
    pub(crate) fn spread(&self, u: f64, quantity: Quantity) -> String {
        let unit = self.unit(quantity);
        let spread = (u / unit.factor).abs();
        let decimals = uncertainty_decimals(spread).clamp(0, unit.decimals + 2);
        format!("{}{SPACE}{}", self.number(spread, decimals), unit.symbol)
    }

    /// The ends of an interval.
    pub(crate) fn ends(&self, low: f64, high: f64, quantity: Quantity) -> Ends {
        let unit = self.unit(quantity);
        let (low, high) = (unit.of_si(low.min(high)), unit.of_si(low.max(high)));
        let width = high - low;
        let decimals = if width > 0.0 {
            let decimals = uncertainty_decimals(width);
            // Up to a width of a thousand the ones stay: outward to the tens would blow 1 to 43
            // up to 0 to 50.
            let decimals = if width < 1000.0 {
                decimals.max(0)
            } else {
                decimals
            };
            decimals.min(unit.decimals + 1)
        } else {
            unit.decimals
        };
        let step = 10f64.powi(-decimals);
        Ends {
            low: self.number((low / step + NOISE).floor() * step, decimals),
            high: self.number((high / step - NOISE).ceil() * step, decimals),
            unit: unit.symbol,
        }
    }

    /// "2.1 to 2.8 thou".
    pub(crate) fn interval(&self, low: f64, high: f64, quantity: Quantity) -> String {
        let Ends { low, high, unit } = self.ends(low, high, quantity);
        format!("{low} to {high}{SPACE}{unit}")
    }

    /// An interval of a shift: both ends carry their sign.
    pub(crate) fn signed_interval(&self, low: f64, high: f64, quantity: Quantity) -> String {
        let Ends { low, high, unit } = self.ends(low, high, quantity);
        let sign = |text: String| {
            let zero = text.chars().all(|c| matches!(c, '0' | '.' | ','));
            if zero || text.starts_with('\u{2212}') {
                text
            } else {
                format!("+{text}")
            }
        };
        format!("{} to {}{SPACE}{unit}", sign(low), sign(high))
    }

    /// A share: "97 %", never a certainty that no measurement gives.
    pub(crate) fn share(&self, share: f64) -> String {
        let percent = |share: f64| format!("{}{SPACE}%", self.number(share * 100.0, 0));
        if share > 0.99 && share < 1.0 {
            format!("over {}", percent(0.99))
        } else if share < 0.01 && share > 0.0 {
            format!("under {}", percent(0.01))
        } else {
            percent(share)
        }
    }

    /// A probability: as a share, and never certain.
    pub(crate) fn chance(&self, probability: f64) -> String {
        self.share(probability.clamp(0.001, 0.999))
    }
}

/// Decimals for an uncertainty, and so for the value beside it: two digits while the three highest
/// are below 355, else one (Particle Data Group, Review of Particle Physics, introduction).
fn uncertainty_decimals(u: f64) -> i32 {
    let size = u.abs();
    if !(size > 0.0 && size.is_finite()) {
        return 0;
    }
    let mut exponent = size.log10().floor();
    let mut head = (size / 10f64.powf(exponent) * 100.0).round();
    if head >= 1000.0 {
        head = 100.0;
        exponent += 1.0;
    }
    let digits = if head <= 354.0 { 1.0 } else { 0.0 };
    // A double's exponent fits by far.
    (digits - exponent).clamp(-300.0, 300.0) as i32
}

#[cfg(test)]
mod tests {
    use super::*;

    const PSI: f64 = 6_894.757_293_168_361;
    const INHG: f64 = 3_386.388_640_341;

    fn inch() -> Shown {
        Shown::default()
    }

    fn metric() -> Shown {
        Shown {
            units: Units::SI,
            decimal_comma: true,
        }
    }

    #[test]
    fn values_come_in_the_shops_units_and_decimal_sign() {
        assert_eq!(
            inch().value(17.13 * INHG, Quantity::Vacuum),
            "17.1\u{a0}inHg"
        );
        assert_eq!(
            metric().value(17.13 * INHG, Quantity::Vacuum),
            "58,0\u{a0}kPa"
        );
        assert_eq!(
            inch().both(65.0 * PSI, Quantity::Pressure),
            "65.0\u{a0}psi (448\u{a0}kPa)"
        );
        assert_eq!(
            metric().both(65.0 * PSI, Quantity::Pressure),
            "448\u{a0}kPa"
        );
        assert_eq!(inch().value(363.15, Quantity::Temperature), "194\u{a0}°F");
        assert_eq!(
            inch().value(168_400_000.0, Quantity::Distance),
            "104\u{202f}639\u{a0}mi"
        );
    }

    #[test]
    fn an_uncertainty_sets_the_digits() {
        // Two digits up to 354, one from 355, two again from 950 (PDG).
        for (u, decimals) in [(0.354, 2), (0.355, 1), (0.96, 1), (12.0, 0), (340.0, -1)] {
            assert_eq!(uncertainty_decimals(u), decimals, "{u}");
        }
        let told = inch().with_uncertainty(17.133 * INHG, 0.41 * INHG, Quantity::Vacuum);
        assert_eq!(told, "17.1\u{a0}±\u{a0}0.4\u{a0}inHg");
    }

    #[test]
    fn an_interval_never_looks_narrower() {
        let told = inch().signed_interval(-0.02 * PSI, 27.31 * PSI, Quantity::Pressure);
        assert_eq!(told, "\u{2212}1 to +28\u{a0}psi");
        let told = inch().interval(2.14 * 25.4e-6, 2.81 * 25.4e-6, Quantity::Clearance);
        assert_eq!(told, "2.1 to 2.9\u{a0}thou");
    }

    #[test]
    fn nothing_is_certain() {
        assert_eq!(inch().chance(1.0), "over 99\u{a0}%");
        assert_eq!(inch().chance(0.0), "under 1\u{a0}%");
        assert_eq!(inch().chance(0.97), "97\u{a0}%");
    }
}
