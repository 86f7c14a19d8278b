//! A relief checked and a repair predicted, without a store.

use diagnosis::pressure::SealEvidence;
use diagnosis::relief::ReliefAnswer;
use diagnosis::repair::RepairForecast;

use crate::App;
use crate::dto::{ReliefArgs, RepairArgs};
use crate::error::ApiError;

/// Checks a relief.
pub(crate) fn relief(_: &App, args: ReliefArgs) -> Result<ReliefAnswer, ApiError> {
    Ok(diagnosis::relief::check(
        &args.profile,
        &args.figures,
        None,
    )?)
}

/// Predicts a repair.
pub(crate) fn forecast(_: &App, args: RepairArgs) -> Result<RepairForecast, ApiError> {
    let before = args.before.map(SealEvidence::from);
    Ok(diagnosis::repair::forecast(
        &args.profile,
        &args.work,
        before.as_ref(),
        args.relief.as_ref(),
    )?)
}
