//! Worked examples that a test writes out itself.

use std::collections::BTreeMap;

use crate::record::{Check, Evidence, record};

/// A worked example of a standard or a handbook.
#[derive(Debug, Clone, Copy)]
pub struct Example<'a> {
    /// Names this example alone, such as "g.iso286.it7.10".
    pub id: &'a str,
    /// The area's letter, as the files of points have it.
    pub area: &'a str,
    /// What is computed; examples of one quantity make one line of the table.
    pub quantity: &'a str,
    /// Standard with number and table, or handbook with edition and page; say when it is from
    /// memory.
    pub source: &'a str,
    /// The value that the source gives.
    pub expected: f64,
    /// How far the computed value may be off, relative: no more than the source's last digit.
    pub tolerance: f64,
    /// The inputs with their units, as far as the table should tell its range.
    pub inputs: &'a [(&'a str, f64, &'a str)],
}

impl Example<'_> {
    /// The computed value is the source's.
    ///
    /// # Panics
    /// When it isn't.
    pub fn holds(&self, got: f64) {
        let deviation = if self.expected == 0.0 {
            got.abs()
        } else {
            ((got - self.expected) / self.expected).abs()
        };
        assert!(
            deviation <= self.tolerance,
            "{}: {got}, not {} (off by {deviation:.2e}, allowed {:.0e}); {}",
            self.id,
            self.expected,
            self.tolerance,
            self.source
        );
        let inputs = self
            .inputs
            .iter()
            .map(|(name, value, unit)| ((*name).to_owned(), (*value, (*unit).to_owned())))
            .collect::<BTreeMap<_, _>>();
        record(&Check {
            id: self.id,
            area: self.area,
            quantity: self.quantity,
            source: self.source,
            computed_by: "published value",
            evidence: Evidence::Published,
            inputs,
            deviation,
            allowed: self.tolerance,
        });
    }
}
