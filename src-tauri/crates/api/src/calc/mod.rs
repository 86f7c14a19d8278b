//! Calculations that need no store: a whole judgement, and the physics piece by piece.

pub(crate) mod air;
mod band;
pub(crate) mod clutch;
mod explore;
pub(crate) mod fit;
pub(crate) mod fluid;
mod line;
mod motion;
mod motion_table;
pub(crate) mod oil;
pub(crate) mod opening;
pub(crate) mod parts_table;
pub(crate) mod relief;
pub(crate) mod repair;
mod si;
pub(crate) mod solenoid;
pub(crate) mod span;
mod spread;
pub(crate) mod spring;
pub(crate) mod table;
mod task;
pub(crate) mod uncertainty;
mod valve;

use diagnosis::evidence::Evidence;
use diagnosis::judgement::Judgement;
use diagnosis::{Assumed, DiagnosisError};
use model::Finite;
use model::limits::Check;
use physics::{Assumption, PhysicsError};

use crate::App;
use crate::dto::JudgeArgs;
use crate::error::{ApiError, ErrorCode};

/// Judges a vacuum test from its parts.
pub(crate) fn judge(app: &App, args: JudgeArgs) -> Result<Judgement, ApiError> {
    let points = &args.profile.test_points;
    let point = usize::try_from(args.test_point_index)
        .ok()
        .and_then(|index| points.get(index));
    let (_, test_point) =
        point.ok_or_else(|| ApiError::not_found("test_point", args.test_point_index))?;
    let mut judgement = judge_evidence(&Evidence {
        profile: &args.profile,
        test_point,
        stand: args.stand.as_ref(),
        gauge: args.gauge.as_ref(),
        setup: args.setup.as_ref(),
        stand_check: args.stand_check.as_ref(),
        blank: args.blank.as_ref(),
        readings: &args.readings,
        oil_temperature_k: args.oil_temperature_k.map(Finite::get),
        today: Some(app.clock().today()),
    })?;
    args.profile.check("profile", &mut judgement.findings);
    Ok(judgement)
}

/// A judgement, its faults as errors of the boundary.
pub(crate) fn judge_evidence(evidence: &Evidence<'_>) -> Result<Judgement, ApiError> {
    diagnosis::judge(evidence).map_err(ApiError::internal)
}

fn assumed(assumptions: &[Assumption]) -> Vec<Assumed> {
    assumptions
        .iter()
        .map(|&assumption| Assumed::from(assumption))
        .collect()
}

impl From<PhysicsError> for ApiError {
    fn from(error: PhysicsError) -> Self {
        let detail = error.to_string();
        match error {
            PhysicsError::OutOfRange {
                field,
                low,
                high,
                unit,
                ..
            } => Self::new(ErrorCode::OutOfRange)
                .at(field)
                .with("low", low)
                .with("high", high)
                .with("unit", unit)
                .with("detail", detail),
            PhysicsError::NotFinite { field }
            | PhysicsError::Contradiction { field, .. }
            | PhysicsError::TooFew { field, .. }
            | PhysicsError::NotTabulated { field } => Self::new(ErrorCode::OutOfRange)
                .at(field)
                .with("detail", detail),
            _ => Self::new(ErrorCode::NoSolution).with("detail", detail),
        }
    }
}

impl From<DiagnosisError> for ApiError {
    fn from(error: DiagnosisError) -> Self {
        match error {
            DiagnosisError::Physics(error) => error.into(),
            DiagnosisError::ProfileIncomplete { part } => Self::new(ErrorCode::OutOfRange)
                .at(part)
                .with("detail", "missing"),
            DiagnosisError::Metrology(error) => error.into(),
            other @ DiagnosisError::NotFinite(_) => Self::internal(other),
        }
    }
}
