//! What was agreed and handed over, in words.

use model::authorisation::AuthorisedHow;
use model::comeback::{FaultAgain, FoundBy};
use model::estimate::Counted;
use model::sign_off::OpenItem;

use super::{check, hazard_title, option};
use crate::quantity::{Quantity, Shown};
use crate::text::line;

/// An amount in smallest units, as it is written.
pub(crate) fn money(minor: i64, decimals: u8, currency: &str, shown: &Shown) -> String {
    let digits = format!(
        "{:0>1$}",
        minor.unsigned_abs(),
        usize::from(decimals).saturating_add(1)
    );
    let cut = digits.len().saturating_sub(decimals.into());
    let (whole, part) = digits.split_at(cut);
    let sign = if minor < 0 { "\u{2212}" } else { "" };
    let mut text = String::new();
    for (i, digit) in whole.chars().enumerate() {
        if whole.len() > 4 && i > 0 && (whole.len() - i).is_multiple_of(3) {
            text.push('\u{202f}');
        }
        text.push(digit);
    }
    if !part.is_empty() {
        text.push(if shown.decimal_comma { ',' } else { '.' });
        text.push_str(part);
    }
    format!("{sign}{text}\u{a0}{}", line(currency))
}

/// A number of so many decimal places, without those at the end that say nothing.
pub(crate) fn part_of(value: i64, places: usize, shown: &Shown) -> String {
    let digits = format!("{:0>1$}", value.unsigned_abs(), places + 1);
    let (whole, part) = digits.split_at(digits.len() - places);
    let sign = if value < 0 { "\u{2212}" } else { "" };
    let part = part.trim_end_matches('0');
    let mark = if shown.decimal_comma { ',' } else { '.' };
    if part.is_empty() {
        format!("{sign}{whole}")
    } else {
        format!("{sign}{whole}{mark}{part}")
    }
}

/// What a quantity counts.
pub(crate) fn counted(counted: Counted) -> &'static str {
    match counted {
        Counted::Hours => "h",
        Counted::Pieces => "×",
    }
}

/// How somebody agreed.
pub(crate) fn how(how: AuthorisedHow) -> &'static str {
    match how {
        AuthorisedHow::InPerson => "in person",
        AuthorisedHow::ByPhone => "by telephone",
        AuthorisedHow::InWriting => "in writing",
    }
}

/// Whether the fault is the same.
pub(crate) fn fault(fault: FaultAgain) -> &'static str {
    match fault {
        FaultAgain::Same => "the same fault",
        FaultAgain::Different => "another fault",
        FaultAgain::NotKnown => "whether the fault is the same isn’t known",
    }
}

/// Who found it.
pub(crate) fn found_by(by: FoundBy) -> &'static str {
    match by {
        FoundBy::Customer => "found by the customer",
        FoundBy::ThisShop => "found by this shop",
        FoundBy::AnotherShop => "found by another shop",
    }
}

/// What is open, without the bore that it is about. Amounts are in the estimate's currency.
pub(crate) fn open_item(item: &OpenItem, shown: &Shown, currency: Option<(&str, u8)>) -> String {
    match item {
        OpenItem::BoreUntested { .. } => "no vacuum reading was taken".to_owned(),
        OpenItem::BoreOutsideLimit { .. } => {
            "the last decision is that it is outside its limit".to_owned()
        }
        OpenItem::RepairUntested { option: way, .. } => format!(
            "not tested after the repair ({}). A repair is proved by a test.",
            option(*way)
        ),
        OpenItem::CheckLeftOut { check: left, .. } => {
            format!("left out on purpose: {}", check(*left))
        }
        OpenItem::CautionUnread { hazard } => {
            format!("Caution not acknowledged: {}", hazard_title(*hazard))
        }
        OpenItem::EstimateUnauthorised => {
            "No authorisation of the estimate is on record.".to_owned()
        }
        OpenItem::AuthorisationNotHere => {
            "The authorisation’s content isn’t on the device that made this report, so the \
             estimate couldn’t be compared with it."
                .to_owned()
        }
        OpenItem::EstimateChanged => "The estimate was changed after it was authorised.".to_owned(),
        OpenItem::AmountExceeded { by_minor } => match currency {
            Some((currency, decimals)) => format!(
                "The estimate is {} more than what was authorised.",
                money(*by_minor, decimals, currency, shown)
            ),
            None => "The estimate is more than what was authorised.".to_owned(),
        },
        OpenItem::OtherCurrency => {
            "The authorisation is in another currency than the estimate.".to_owned()
        }
        OpenItem::MachiningUnsigned { .. } => {
            "nobody has signed its machining sheet as it stands".to_owned()
        }
    }
}

/// Warranty by time and distance; empty where neither is given.
pub(crate) fn warranty(months: Option<u32>, distance_m: Option<f64>, shown: &Shown) -> String {
    let months = months.map(|n| match n {
        1 => "1 month".to_owned(),
        n => format!("{n} months"),
    });
    let distance = distance_m.map(|m| shown.both(m, Quantity::Distance));
    let both: Vec<_> = [months, distance].into_iter().flatten().collect();
    both.join(" or ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_written_from_whole_numbers() {
        let shown = Shown::default();
        let comma = Shown {
            decimal_comma: true,
            ..shown
        };
        assert_eq!(money(5, 2, "EUR", &shown), "0.05\u{a0}EUR");
        assert_eq!(
            money(-1_234_567, 2, "EUR", &comma),
            "\u{2212}12\u{202f}345,67\u{a0}EUR"
        );
        assert_eq!(money(1_500, 0, "JPY", &shown), "1500\u{a0}JPY");
        assert_eq!(part_of(1_750, 3, &comma), "1,75");
        assert_eq!(part_of(88_750, 4, &shown), "8.875");
    }
}
