//! Points as the files of `tests/reference/` hold them.

use std::collections::BTreeMap;
use std::path::Path;

use serde_json::Value;

use crate::record::{Check, Evidence, record};

/// One point: inputs, the value expected, where it comes from.
#[derive(Debug, Clone)]
pub struct Point {
    file: String,
    value: Value,
}

/// The points of `tests/reference/<file>.json` whose id begins with `prefix`. There must be `count`
/// of them: a point that was added or lost is looked at, not overlooked.
///
/// # Panics
/// When the file can't be read or holds another number of them.
#[must_use]
pub fn points(file: &str, prefix: &str, count: usize) -> Vec<Point> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../../tests/reference")
        .join(file)
        .with_extension("json");
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path:?}: {error}"));
    let all: Vec<Value> = serde_json::from_str(&text).expect("a list of points");
    let found: Vec<Point> = all
        .into_iter()
        .map(|value| Point {
            file: file.to_owned(),
            value,
        })
        .filter(|point| point.id().starts_with(prefix))
        .collect();
    assert_eq!(found.len(), count, "{file} {prefix}: look at the points");
    found
}

impl Point {
    fn text_of(&self, key: &str) -> &str {
        self.value[key].as_str().expect("a text")
    }

    /// Its id, such as "d.nozzle_m.03".
    #[must_use]
    pub fn id(&self) -> &str {
        self.text_of("id")
    }

    /// What it is a point of: its id without the number; a published value keeps its full name.
    #[must_use]
    pub fn family(&self) -> &str {
        let id = self.id();
        if id.contains(".book.") || id.contains(".published.") {
            return id;
        }
        id.rsplit_once('.').map_or(id, |(family, _)| family)
    }

    /// Standard, handbook or law that it comes from.
    #[must_use]
    pub fn source(&self) -> &str {
        self.text_of("source")
    }

    /// Whether it has such an input.
    #[must_use]
    pub fn has(&self, name: &str) -> bool {
        self.value["inputs"].get(name).is_some()
    }

    /// An input, in the unit that the file names.
    ///
    /// # Panics
    /// When it has no such number.
    #[must_use]
    pub fn input(&self, name: &str) -> f64 {
        self.value["inputs"][name]["value"]
            .as_f64()
            .unwrap_or_else(|| panic!("{}: no number {name}", self.id()))
    }

    /// An input that may be left out.
    #[must_use]
    pub fn input_or(&self, name: &str, otherwise: f64) -> f64 {
        self.value["inputs"][name]["value"]
            .as_f64()
            .unwrap_or(otherwise)
    }

    /// An input in words, such as a grade.
    ///
    /// # Panics
    /// When it has no such words.
    #[must_use]
    pub fn words(&self, name: &str) -> &str {
        self.value["inputs"][name]["value"]
            .as_str()
            .unwrap_or_else(|| panic!("{}: no words {name}", self.id()))
    }

    /// The value expected.
    #[must_use]
    pub fn expected(&self) -> f64 {
        self.value["output"]["value"]
            .as_f64()
            .expect("a number expected")
    }

    /// The tolerance that the source deserves, relative.
    #[must_use]
    pub fn tolerance(&self) -> f64 {
        self.value["rel_tol"].as_f64().expect("a tolerance")
    }

    /// The computed value lies within the point's own tolerance.
    ///
    /// # Panics
    /// When it doesn't.
    pub fn holds(&self, got: f64) {
        self.holds_within(got, self.tolerance());
    }

    /// The same with a tolerance that the test gives, with its reason beside it.
    ///
    /// # Panics
    /// When it doesn't hold.
    pub fn holds_within(&self, got: f64, tolerance: f64) {
        let expected = self.expected();
        let deviation = (got - expected).abs() / expected.abs().max(f64::MIN_POSITIVE);
        assert!(
            deviation <= tolerance,
            "{}: {got}, not {expected} (off by {deviation:.2e}, allowed {tolerance:.0e}); {}",
            self.id(),
            self.source()
        );
        let inputs: BTreeMap<String, (f64, String)> = self.value["inputs"]
            .as_object()
            .into_iter()
            .flatten()
            .filter_map(|(name, input)| {
                let unit = input["unit"].as_str().unwrap_or("").to_owned();
                Some((name.clone(), (input["value"].as_f64()?, unit)))
            })
            .collect();
        let package = self.text_of("package");
        record(&Check {
            id: self.id(),
            area: self.file.split('_').next().unwrap_or(&self.file),
            quantity: self.family(),
            source: self.source(),
            computed_by: package,
            evidence: if package.starts_with("published") {
                Evidence::Published
            } else {
                Evidence::Library
            },
            inputs,
            deviation,
            allowed: tolerance,
        });
    }
}
