//! What was checked, written down.

use std::collections::BTreeMap;
use std::fs::{OpenOptions, create_dir_all};
use std::io::Write;
use std::path::PathBuf;

use serde_json::json;

/// What a check rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Evidence {
    /// A value that a standard or a handbook prints.
    Published,
    /// A law of a standard or a handbook, computed by a general-purpose library.
    Library,
    /// Our own equations, solved by another program: it checks the solving, not the equations, and
    /// is counted apart.
    SameEquations,
}

/// One check that held.
#[derive(Debug, Clone)]
pub struct Check<'a> {
    /// Names it alone.
    pub id: &'a str,
    /// The area's letter.
    pub area: &'a str,
    /// What was computed.
    pub quantity: &'a str,
    /// Where the value expected comes from.
    pub source: &'a str,
    /// What computed it, with its version.
    pub computed_by: &'a str,
    /// What it rests on.
    pub evidence: Evidence,
    /// Inputs with their units.
    pub inputs: BTreeMap<String, (f64, String)>,
    /// How far off the computed value was, relative.
    pub deviation: f64,
    /// How far it might have been.
    pub allowed: f64,
}

/// Writes a check down in `verified/` of the folder that Cargo builds in: one line a check, whole,
/// so that tests at the same time don't mix theirs.
///
/// # Panics
/// When it can't be written, lest the table lack it.
pub fn record(check: &Check<'_>) {
    let line = json!({
        "id": check.id,
        "area": check.area,
        "quantity": check.quantity,
        "source": check.source,
        "computed_by": check.computed_by,
        "evidence": match check.evidence {
            Evidence::Published => "published",
            Evidence::Library => "library",
            Evidence::SameEquations => "same_equations",
        },
        "inputs": check.inputs,
        "deviation": check.deviation,
        "allowed": check.allowed,
    });
    let folder = folder();
    create_dir_all(&folder).expect("a folder for the record");
    let program = std::env::current_exe().expect("this test's name");
    let name = program.file_stem().expect("a name").to_string_lossy();
    let mut file = OpenOptions::new()
        .create(true)
        .append(true)
        .open(folder.join(format!("{name}.ndjson")))
        .expect("the record");
    file.write_all(format!("{line}\n").as_bytes())
        .expect("a line of the record");
}

/// Tests run from `<target>/<profile>/deps/`.
fn folder() -> PathBuf {
    let program = std::env::current_exe().expect("this test's place");
    let target = program.ancestors().nth(3).expect("the target folder");
    target.join("verified")
}

#[cfg(test)]
mod tests {
    use crate::{Example, points};

    #[test]
    fn a_point_is_read_with_its_inputs() {
        let found = points("h_expansion", "h.clearance_at_T", 4);
        assert_eq!(found[0].family(), "h.clearance_at_T");
        assert!(found[0].has("alpha_bore") && !found[0].has("beta"));
    }

    #[test]
    #[should_panic(expected = "look at the points")]
    fn a_lost_point_is_noticed() {
        let _ = points("h_expansion", "h.", 3);
    }

    #[test]
    #[should_panic(expected = "off by")]
    fn a_value_beside_its_tolerance_fails() {
        let example = Example {
            id: "test.example",
            area: "test",
            quantity: "nothing",
            source: "none",
            expected: 2.0,
            tolerance: 1e-3,
            inputs: &[],
        };
        example.holds(2.003);
    }
}
