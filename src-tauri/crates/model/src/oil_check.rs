//! A circuit fed with hot oil under pressure on the bench: line raised and lowered step by step,
//! the regulated pressure read at each.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, in_range, join};
use crate::{Finding, Finite, Id};

/// A hot-oil check of a bore's circuit in one job. Kind `oil_check`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilCheck {
    /// The job.
    pub job: Id,
    /// The bore that holds the circuit's pressure.
    pub bore: Id,
    /// The last repair of the bore that was known when the check was recorded: the one that it
    /// proves. None: the circuit as it was found.
    #[serde(default)]
    pub repair: Option<Id>,
    /// What was read.
    pub figures: OilCheckFigures,
}

/// Which way line pressure was going before a point was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LineDirection {
    /// Line came up to it.
    Rising,
    /// Line came down to it.
    Falling,
}

/// One step of a hot-oil check.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OilPoint {
    /// Line pressure, Pa above ambient.
    pub line_pa: Finite,
    /// Regulated pressure, Pa above ambient.
    pub feed_pa: Finite,
    /// Which way line was going.
    pub direction: LineDirection,
}

/// What a hot-oil check read.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct OilCheckFigures {
    /// Temperature of the oil, K.
    pub oil_temperature_k: Option<Finite>,
    /// True when it was another oil than the unit's own.
    pub other_oil: bool,
    /// Which, in words.
    pub fluid: String,
    /// The gauge of the regulated pressure.
    pub feed_gauge: Option<Id>,
    /// The gauge of the line pressure; it may be the same.
    pub line_gauge: Option<Id>,
    /// The thermometer.
    pub thermometer: Option<Id>,
    /// The points in the order in which they were read.
    pub points: Vec<OilPoint>,
    /// Anything worth keeping.
    pub note: String,
}

/// More points than a person reads.
const MOST_POINTS: usize = 200;

impl Check for OilCheckFigures {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        let mut wrong = |code, field: &str| {
            findings.push(Finding::at(Severity::Wrong, code, join(at, field)));
        };
        match self.oil_temperature_k {
            None => wrong(FindingCode::Missing, "oil_temperature_k"),
            Some(temperature) => in_range(
                *temperature,
                limits::OIL_TEMPERATURE_K,
                at,
                "oil_temperature_k",
                findings,
            ),
        }
        if self.points.is_empty() {
            let code = FindingCode::Missing;
            findings.push(Finding::at(Severity::Wrong, code, join(at, "points")));
        }
        if self.points.len() > MOST_POINTS {
            let code = FindingCode::OutOfRange;
            findings.push(Finding::at(Severity::Wrong, code, join(at, "points")));
        }
        for (i, point) in self.points.iter().enumerate() {
            let here = join(at, &format!("points[{i}]"));
            let range = limits::TAP_PRESSURE_PA;
            in_range(*point.line_pa, range, &here, "line_pa", findings);
            in_range(*point.feed_pa, range, &here, "feed_pa", findings);
        }
    }
}
