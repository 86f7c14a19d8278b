//! A vacuum test: how it was set up, what the stand showed, what the bore showed. The parts are
//! record kinds of their own on the test's subject; readings only ever add.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, in_range, join};
use crate::unit::{OrificePath, ValvePosition};
use crate::{Finding, Finite, Id};

/// One vacuum test of one bore in one job. Kind `test`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct VacuumTest {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// The test point.
    pub test_point: Id,
    /// The stand; none: a reading from a stand that nobody entered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stand: Option<Id>,
}

/// What the air was.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "by", rename_all = "snake_case")]
pub enum Ambient {
    /// A barometer read at the bench: station pressure, not corrected to sea level.
    Barometer {
        /// Station pressure, Pa absolute.
        pressure_pa: Finite,
    },
    /// The altitude of the bench: standard atmosphere.
    Altitude {
        /// Geometric altitude, m.
        altitude_m: Finite,
    },
}

/// What was on the surfaces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Surface {
    /// Washed and blown dry.
    Dry,
    /// Oil on the lands: it seals, so the reading says nothing about the gap.
    Oiled,
}

/// How the bore was set up. Kind `test.setup`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Setup {
    /// Where the valve stood.
    pub valve_position: ValvePosition,
    /// How the balance orifice stood to the test.
    pub orifice: OrificePath,
    /// Dry or oiled.
    pub surface: Surface,
    /// The air.
    pub ambient: Ambient,
    /// Temperature at the bench, K.
    pub air_temperature_k: Finite,
}

/// The stand's reading on one of its calibrated orifices.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OrificeReading {
    /// The orifice's label on the stand.
    pub label: String,
    /// Reading, Pa below ambient.
    pub vacuum_pa: Finite,
    /// As typed, with its unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub as_typed: Option<String>,
}

/// The stand checked on the day. Kind `test.stand_check`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StandCheck {
    /// Reading with the hose closed, Pa below ambient.
    pub dead_head_vacuum_pa: Finite,
    /// As typed, with its unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub as_typed: Option<String>,
    /// Readings on the calibrated orifices.
    pub orifices: Vec<OrificeReading>,
}

/// The blank: plug and plate without the bore. Kind `test.blank`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Blank {
    /// Reading, Pa below ambient; none: no blank was taken, said on purpose.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub vacuum_pa: Option<Finite>,
    /// As typed, with its unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub as_typed: Option<String>,
}

/// One reading of the bore. Kind `test.reading`; a correction supersedes it and both are kept.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Reading {
    /// Reading, Pa below ambient.
    pub vacuum_pa: Finite,
    /// True when the valve was turned and the plug seated anew before it: only such readings
    /// count as repeats. The first of a test needs neither.
    pub reseated: bool,
    /// As typed, with its unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub as_typed: Option<String>,
}

/// A three-way decision.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Conforms with enough probability.
    WithinLimit,
    /// The uncertainty reaches across the limit.
    TooCloseToCall,
    /// Fails with enough probability.
    OutsideLimit,
}

/// A decision that somebody put on record. Kind `test.decision`. It pins what it was made from, so
/// that a later change of a limit never rewrites it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Decision {
    /// The verdict.
    pub verdict: Verdict,
    /// Probability that the bore conforms.
    pub conformity_probability: Finite,
    /// Mean reading, Pa below ambient.
    pub mean_vacuum_pa: Finite,
    /// Its standard uncertainty, Pa.
    pub standard_uncertainty_pa: Finite,
    /// Limit carried to the day's barometer, Pa below ambient.
    pub limit_vacuum_pa: Finite,
    /// Shift of the regulated pressure at hot idle, Pa: low, likely, high; none where it was not
    /// computed or does not regulate.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shift_idle_pa: Option<[Finite; 3]>,
    /// The same at the highest line pressure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shift_highest_line_pa: Option<[Finite; 3]>,
    /// Gap factor K = D c³ (1 + 1.5 e²) / L of the tested seals, m³: low, likely, high; none where
    /// the reading didn't tell it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gap_factor_m3: Option<[Finite; 3]>,
    /// The reading that this bore would give at sea level on the reference stand, Pa below ambient;
    /// none where the gap isn't known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reference_vacuum_pa: Option<Finite>,
    /// The records that it used.
    pub inputs: Vec<Id>,
    /// Digest of the bore's profile.
    pub profile_digest: String,
    /// Version of the physics.
    pub physics_version: String,
    /// The person's own words.
    #[serde(default)]
    pub note: String,
}

impl Check for Ambient {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        match self {
            Self::Barometer { pressure_pa } => {
                in_range(
                    **pressure_pa,
                    limits::BAROMETER_PA,
                    at,
                    "pressure_pa",
                    findings,
                );
            }
            Self::Altitude { altitude_m } => {
                in_range(**altitude_m, limits::ALTITUDE_M, at, "altitude_m", findings);
            }
        }
    }
}

impl Check for Setup {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        self.ambient.check(&join(at, "ambient"), findings);
        in_range(
            *self.air_temperature_k,
            limits::AIR_TEMPERATURE_K,
            at,
            "air_temperature_k",
            findings,
        );
    }
}

impl Check for StandCheck {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        in_range(
            *self.dead_head_vacuum_pa,
            limits::VACUUM_PA,
            at,
            "dead_head_vacuum_pa",
            findings,
        );
        for (i, orifice) in self.orifices.iter().enumerate() {
            let here = join(at, &format!("orifices[{i}]"));
            in_range(
                *orifice.vacuum_pa,
                limits::VACUUM_PA,
                &here,
                "vacuum_pa",
                findings,
            );
            if *orifice.vacuum_pa > *self.dead_head_vacuum_pa {
                let code = FindingCode::OrificeBetterThanDeadHead;
                findings.push(Finding::at(Severity::Wrong, code, join(&here, "vacuum_pa")));
            }
        }
    }
}

impl Check for Blank {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        if let Some(vacuum) = self.vacuum_pa {
            in_range(*vacuum, limits::VACUUM_PA, at, "vacuum_pa", findings);
        }
    }
}

impl Check for Reading {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        in_range(
            *self.vacuum_pa,
            limits::VACUUM_PA,
            at,
            "vacuum_pa",
            findings,
        );
    }
}

/// What the readings contradict once the barometer, the stand check and the blank are known.
/// `barometer_pa` is the day's; `scatter_pa` is how far two readings of one pressure may lie apart
/// on this gauge: a tight bore reads as deep as the blank, and by chance a step deeper.
#[must_use]
pub fn check_readings(
    barometer_pa: f64,
    scatter_pa: f64,
    stand: Option<&StandCheck>,
    blank: Option<&Blank>,
    readings: &[Reading],
) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut too_deep = |vacuum: f64, field: String| {
        if vacuum >= barometer_pa {
            findings.push(
                Finding::at(Severity::Wrong, FindingCode::DeeperThanBarometer, field)
                    .with_bounds(0.0, barometer_pa),
            );
        }
    };
    if let Some(stand) = stand {
        too_deep(
            *stand.dead_head_vacuum_pa,
            "stand_check.dead_head_vacuum_pa".into(),
        );
        for (i, orifice) in stand.orifices.iter().enumerate() {
            too_deep(
                *orifice.vacuum_pa,
                format!("stand_check.orifices[{i}].vacuum_pa"),
            );
        }
    }
    let blank_vacuum = blank.and_then(|blank| blank.vacuum_pa);
    if let Some(vacuum) = blank_vacuum {
        too_deep(*vacuum, "blank.vacuum_pa".into());
    }
    for (i, reading) in readings.iter().enumerate() {
        too_deep(*reading.vacuum_pa, format!("readings[{i}].vacuum_pa"));
    }
    for (i, reading) in readings.iter().enumerate() {
        let field = format!("readings[{i}].vacuum_pa");
        let dead_head = stand.map(|stand| *stand.dead_head_vacuum_pa);
        let blank = blank_vacuum.map(|blank| *blank);
        let deeper_than =
            |bound: Option<f64>| bound.map_or(f64::MIN, |bound| *reading.vacuum_pa - bound);
        let (over_dead_head, over_blank) = (deeper_than(dead_head), deeper_than(blank));
        let found = if over_dead_head > scatter_pa {
            (Severity::Wrong, FindingCode::DeadHeadWorseThanReading)
        } else if over_blank > scatter_pa {
            (Severity::Wrong, FindingCode::BlankWorseThanReading)
        } else if over_dead_head > 0.0 || over_blank > 0.0 {
            (Severity::Note, FindingCode::AsTightAsBlank)
        } else {
            continue;
        };
        findings.push(Finding::at(found.0, found.1, field));
    }
    findings
}
