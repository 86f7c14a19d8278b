//! Fractional order keys: a part can be put between two others without touching either.

/// A key that sorts after `low` and before `high`, compared as bytes; none: no bound. Keys are
/// digits and small letters. Where the bounds leave no room between them (two devices chose one
/// key), the answer sorts after `low` alone.
#[must_use]
pub fn order_between(low: Option<&str>, high: Option<&str>) -> String {
    const DIGITS: &[u8; 36] = b"0123456789abcdefghijklmnopqrstuvwxyz";
    let digit = |c: u8| DIGITS.iter().position(|d| *d == c);
    let low: Vec<usize> = low.unwrap_or("").bytes().filter_map(digit).collect();
    let high: Option<Vec<usize>> = high.map(|high| high.bytes().filter_map(digit).collect());
    // Bounds that leave no room are as good as no upper bound.
    let high = high.filter(|high| !high.is_empty() && *high > low);
    let mut key = Vec::new();
    let mut bounded = high.is_some();
    for i in 0.. {
        let under = low.get(i).copied().unwrap_or(0);
        let over = match &high {
            Some(high) if bounded && i < high.len() => high[i],
            _ => DIGITS.len(),
        };
        // Half way, unless there is nothing between: then one place further on.
        if over > under + 1 {
            key.push((under + over) / 2);
            break;
        }
        key.push(under);
        bounded = bounded && over == under;
    }
    key.into_iter().map(|i| char::from(DIGITS[i])).collect()
}

#[cfg(test)]
mod tests {
    use super::order_between;
    use proptest::prelude::*;

    #[test]
    fn a_first_part_leaves_room_on_both_sides() {
        let first = order_between(None, None);
        let after = order_between(Some(&first), None);
        let before = order_between(None, Some(&first));
        assert!(before < first && first < after);
    }

    proptest! {
        #[test]
        fn there_is_always_room(turns in proptest::collection::vec(0_usize..100, 1..60)) {
            let mut keys: Vec<String> = Vec::new();
            for turn in turns {
                let at = turn % (keys.len() + 1);
                let low = at.checked_sub(1).map(|i| keys[i].clone());
                let high = keys.get(at).cloned();
                keys.insert(at, order_between(low.as_deref(), high.as_deref()));
            }
            prop_assert!(keys.windows(2).all(|pair| pair[0] < pair[1]), "{keys:?}");
        }
    }
}
