//! A relief checked within a job: the relief's figures, what the parts stand, and the clearance
//! that its capacity has to hold. Limits are entered with their source; none comes with the app.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, Range, in_range, join};
use crate::unit::Relief;
use crate::{Finding, Finite, Id};

/// A relief check of one bore's circuit in one job. Kind `relief_check`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReliefCheck {
    /// The job.
    pub job: Id,
    /// The bore that holds the circuit's pressure.
    pub bore: Id,
    /// What was entered.
    pub figures: ReliefFigures,
}

/// Whether the relief is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ReliefPresence {
    /// In the unit.
    #[default]
    Fitted,
    /// One that is to be added.
    ToBeAdded,
}

/// What is known of a relief and of what it guards. Every figure may be missing; a finding says
/// what that costs.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct ReliefFigures {
    /// Whether it is there or is to be added.
    pub presence: ReliefPresence,
    /// Ball diameter, m.
    pub ball_diameter_m: Option<Finite>,
    /// Bore of the sharp-edged seat, m.
    pub seat_diameter_m: Option<Finite>,
    /// Spring load on the seated ball, N.
    pub load_seated_n: Option<Finite>,
    /// Spring rate, N/m.
    pub rate_n_per_m: Option<Finite>,
    /// How far the ball can lift, m.
    pub lift_stop_m: Option<Finite>,
    /// Where the relief's figures come from.
    pub source: String,
    /// Highest pressure that the parts on the circuit stand, Pa above ambient.
    pub limit_pa: Option<Finite>,
    /// Who says so.
    pub limit_source: String,
    /// Clearance of the supply land on the diameter, m; none: that of the last judged test.
    pub clearance_m: Option<Finite>,
}

impl ReliefFigures {
    /// The figures of a relief that the profile holds.
    #[must_use]
    pub fn of(relief: &Relief) -> Self {
        Self {
            presence: ReliefPresence::Fitted,
            ball_diameter_m: Some(relief.ball_diameter_m),
            seat_diameter_m: Some(relief.seat_diameter_m),
            load_seated_n: Some(relief.load_seated_n),
            rate_n_per_m: Some(relief.rate_n_per_m),
            lift_stop_m: Some(relief.lift_stop_m),
            source: relief.source.clone(),
            ..Self::default()
        }
    }

    /// The relief of a circuit, once every dimension is known.
    #[must_use]
    pub fn relief(&self, circuit: Id) -> Option<Relief> {
        Some(Relief {
            circuit,
            ball_diameter_m: self.ball_diameter_m?,
            seat_diameter_m: self.seat_diameter_m?,
            load_seated_n: self.load_seated_n?,
            rate_n_per_m: self.rate_n_per_m?,
            lift_stop_m: self.lift_stop_m?,
            source: self.source.clone(),
        })
    }
}

impl Check for ReliefFigures {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        let needed: [(&str, Option<Finite>, Range); 5] = [
            ("ball_diameter_m", self.ball_diameter_m, limits::DIAMETER_M),
            ("seat_diameter_m", self.seat_diameter_m, limits::SEAT_M),
            ("load_seated_n", self.load_seated_n, limits::SPRING_LOAD_N),
            (
                "rate_n_per_m",
                self.rate_n_per_m,
                limits::SPRING_RATE_N_PER_M,
            ),
            ("lift_stop_m", self.lift_stop_m, limits::LIFT_M),
        ];
        for (field, value, range) in needed {
            match value {
                Some(value) => in_range(*value, range, at, field, findings),
                None => findings.push(Finding::at(
                    Severity::Wrong,
                    FindingCode::Missing,
                    join(at, field),
                )),
            }
        }
        if let (Some(seat), Some(ball)) = (self.seat_diameter_m, self.ball_diameter_m)
            && *seat >= *ball
        {
            findings.push(
                Finding::at(
                    Severity::Wrong,
                    FindingCode::SeatLargerThanBall,
                    join(at, "seat_diameter_m"),
                )
                .with_bounds(*seat, *ball),
            );
        }
        match self.limit_pa {
            Some(limit) => {
                in_range(*limit, limits::PRESSURE_PA, at, "limit_pa", findings);
                if self.limit_source.trim().is_empty() {
                    findings.push(Finding::at(
                        Severity::Doubt,
                        FindingCode::SourceMissing,
                        join(at, "limit_source"),
                    ));
                }
            }
            None => findings.push(Finding::at(
                Severity::Doubt,
                FindingCode::ReliefLimitMissing,
                join(at, "limit_pa"),
            )),
        }
        if let Some(clearance) = self.clearance_m {
            let range = limits::DIAMETRAL_CLEARANCE_M;
            in_range(*clearance, range, at, "clearance_m", findings);
        }
    }
}
