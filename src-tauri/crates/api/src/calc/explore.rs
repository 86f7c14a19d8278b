//! A profile's valve with some of its parts set otherwise.

use diagnosis::explore;
use diagnosis::pressure::SealEvidence;
use model::Severity;
use uom::si::length::meter;

use super::valve;
use crate::dto::{ExploreAnswer, ExploreArgs};
use crate::error::{ApiError, finite};
use crate::{App, drawing};

/// What the valve does as it is set.
pub(crate) fn explore(_: &App, args: ExploreArgs) -> Result<ExploreAnswer, ApiError> {
    let ExploreArgs {
        profile,
        seals,
        relief,
        setting,
    } = args;
    valve::sound(&profile)?;
    let seals = seals.map(SealEvidence::from);
    let explored = explore::explore(&profile, &setting, seals.as_ref(), relief.as_ref())?;
    let wrong = explored
        .findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    let other = if wrong {
        profile.clone()
    } else {
        explore::set(&profile, &setting, relief.as_ref())
    };
    let diametral = match setting.clearance_m.filter(|_| !wrong) {
        Some(set) => Some(*set),
        None => seals
            .as_ref()
            .map(|seals| 2.0 * seals.centred[1].get::<meter>()),
    };
    let radial = diametral.map(|c| finite(c / 2.0)).transpose()?;
    let stands = if wrong {
        None
    } else {
        explore::stand(&profile, &setting, seals.as_ref(), relief.as_ref())?
    };
    Ok(ExploreAnswer {
        explored,
        drawing: stands
            .map(|stand| drawing::draw(&other, Some(*stand.stroke_m), &[]))
            .transpose()?,
        feed_pa: stands.map(|stand| stand.feed_pa),
        profile: other,
        radial_clearance_m: radial,
        tested_lands: seals
            .filter(|_| setting.clearance_m.is_none() || wrong)
            .map(|seals| seals.tested_lands),
    })
}
