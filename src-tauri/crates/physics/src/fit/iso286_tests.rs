//! The tables against the tolerance unit, and what the standard lacks.

use super::*;

/// IT6 = 10 i, then the steps of the R5 series; the standard's table is rounded, by a tenth at
/// worst, and more coarsely up to 3 mm.
#[test]
fn grades_follow_the_tolerance_unit() {
    let steps = [
        10.0, 16.0, 25.0, 40.0, 64.0, 100.0, 160.0, 250.0, 400.0, 640.0, 1000.0, 1600.0, 2500.0,
    ];
    let ends = [1.0, 3.0, 6.0, 10.0, 18.0, 30.0_f64];
    for column in 0..5 {
        let d = (ends[column] * ends[column + 1]).sqrt();
        let i = 0.45 * d.cbrt() + 0.001 * d;
        for (row, step) in steps.iter().enumerate() {
            let off = table::IT[row + 5][column] / (step * i) - 1.0;
            let most = if column == 0 { 0.16 } else { 0.1 };
            assert!(off.abs() < most, "IT{} in {column}: {off}", row + 6);
        }
    }
}

#[test]
fn what_the_standard_lacks_is_refused() {
    let size = Length::new::<meter>(0.008);
    for text in ["J9", "K9", "j8", "K2"] {
        let class = ToleranceClass::parse(text).unwrap();
        assert_eq!(class.limits(size), Err(NOT_TABULATED), "{text}");
    }
    for text in [
        "", "7", "H", "H0", "H19", "H07", "H+7", "Hg6", "i6", "Js7", "H7.5", "é7",
    ] {
        assert!(ToleranceClass::parse(text).is_err(), "{text}");
    }
}
