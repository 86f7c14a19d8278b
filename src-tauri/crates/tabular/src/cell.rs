//! Text that a spreadsheet would take for a formula, and back.
//!
//! A cell that begins with `=`, `+`, `-`, `@`, a tab or a line end is run as a formula by common
//! spreadsheets, quoted or not (OWASP, CSV Injection). An apostrophe before it stops that. It is
//! put before any text that begins so after any number of apostrophes, and one is taken away
//! again, so that every text comes back as it was.

/// True for what begins a formula; the wide forms count too, where East Asian input is usual.
fn starts_formula(c: char) -> bool {
    matches!(
        c,
        '=' | '+' | '-' | '@' | '\t' | '\r' | '\n' | '＝' | '＋' | '－' | '＠'
    )
}

fn is_risky(text: &str) -> bool {
    text.trim_start_matches('\'').starts_with(starts_formula)
}

/// The text as a cell that no spreadsheet runs.
#[must_use]
pub fn guarded(text: &str) -> String {
    if is_risky(text) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

/// The text of such a cell.
#[must_use]
pub fn unguarded(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(text) if is_risky(text) => text,
        _ => cell,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_formula_is_stopped_and_a_name_is_left_alone() {
        assert_eq!(guarded("=1+1"), "'=1+1");
        assert_eq!(guarded("@SUM(A1)"), "'@SUM(A1)");
        assert_eq!(guarded("\t=1"), "'\t=1");
        assert_eq!(guarded("O'Hara"), "O'Hara");
        assert_eq!(guarded("'Tis"), "'Tis");
    }

    proptest! {
        #[test]
        fn every_text_comes_back(text in "'{0,3}[=+@a-c\t\r\n-]?.{0,6}") {
            let cell = guarded(&text);
            prop_assert!(!cell.starts_with(starts_formula));
            prop_assert_eq!(unguarded(&cell), text);
        }
    }
}
