//! The table is sound, and every field that an error can name has a human name.

use super::*;
use std::path::Path;

/// The quoted words that follow `marker` in a source text.
fn quoted_after<'a>(text: &'a str, marker: &str) -> Vec<&'a str> {
    text.split(marker)
        .skip(1)
        .filter_map(|rest| rest.trim_start().strip_prefix('"')?.split('"').next())
        .collect()
}

fn visit(folder: &Path, check: &mut impl FnMut(&str)) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() && !path.ends_with("range") {
            visit(&path, check);
        } else if path.extension().is_some_and(|e| e == "rs") && !path.ends_with("range.rs") {
            check(&std::fs::read_to_string(path).unwrap());
        }
    }
}

#[test]
fn every_field_that_an_error_can_name_has_a_human_name() {
    let mut seen = 0;
    let mut nameless = Vec::new();
    visit(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
        &mut |text| {
            for marker in ["within(", "check_as(", "field: ", "other: "] {
                for field in quoted_after(text, marker) {
                    seen += 1;
                    let mut names = NAMES.iter().chain(parts::NAMES);
                    let known = find(field).is_some() || names.any(|(f, _)| *f == field);
                    if !known && !nameless.contains(&field.to_owned()) {
                        nameless.push(field.to_owned());
                    }
                }
            }
        },
    );
    assert!(seen > 40, "the search found only {seen} fields");
    assert!(nameless.is_empty(), "without a name: {nameless:?}");
}

#[test]
fn rows_are_sound_and_unique() {
    let rows: Vec<_> = all().collect();
    for (i, r) in rows.iter().enumerate() {
        assert!(r.low < r.high, "{}", r.field);
        assert!(
            rows[..i].iter().all(|o| o.field != r.field),
            "{} twice",
            r.field
        );
        assert_eq!(r.check(r.low), Ok(r.low));
        assert!(
            r.check(r.high * (1.0 + 1e-9) + 1e-300).is_err(),
            "{}",
            r.field
        );
    }
}

#[test]
fn the_message_speaks_of_the_human_name() {
    let e = BORE_DIAMETER.check(10.0).unwrap_err();
    assert_eq!(
        e.to_string(),
        "bore diameter is 10 m; it must lie between 0.002 and 0.1 m"
    );
}
