//! Calculations that need no store.

use diagnosis::evidence::Evidence;
use diagnosis::judgement::Judgement;
use model::Finite;
use model::limits::Check;
use physics::atmosphere;
use uom::si::f64::Pressure;
use uom::si::pressure::pascal;

use crate::App;
use crate::dto::{BarometerAnswer, BarometerArgs, JudgeArgs};
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

/// Station pressure of an air, and the altitude that the standard atmosphere gives it.
pub(crate) fn barometer(_: &App, args: BarometerArgs) -> Result<BarometerAnswer, ApiError> {
    let out_of_range = || ApiError::new(ErrorCode::OutOfRange).at("ambient");
    if !args.ambient.findings().is_empty() {
        return Err(out_of_range());
    }
    let pressure_pa = diagnosis::evidence::barometer_pa(&args.ambient).ok_or_else(out_of_range)?;
    let altitude =
        atmosphere::altitude(Pressure::new::<pascal>(pressure_pa)).map_err(|_| out_of_range())?;
    Ok(BarometerAnswer {
        pressure_pa: Finite::try_from(pressure_pa).map_err(ApiError::internal)?,
        standard_altitude_m: Finite::try_from(altitude.value).map_err(ApiError::internal)?,
    })
}
