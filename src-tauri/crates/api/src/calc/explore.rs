//! A profile's valve with some of its parts set otherwise.

use diagnosis::explore;
use diagnosis::pressure::SealEvidence;
use diagnosis::valve::{Gap, SealState, Wear, oil_at, regulator, unit_oil};
use model::unit::BoreProfile;
use model::what_if::Setting;
use model::{Finite, Severity};
use physics::regulator::Branch;
use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

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
        profile
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
        stand(&other, radial, &setting)
    };
    Ok(ExploreAnswer {
        explored,
        drawing: stands
            .map(|(stroke, _)| drawing::draw(&other, Some(stroke), &[]))
            .transpose()?,
        feed_pa: stands.map(|(_, feed)| finite(feed)).transpose()?,
        profile: other,
        radial_clearance_m: radial,
    })
}

/// Where the spool stands under the line pressure that is set, m, and the pressure that it holds
/// there, Pa; none where the profile lacks a part or there is no balance.
fn stand(profile: &BoreProfile, radial: Option<Finite>, setting: &Setting) -> Option<(f64, f64)> {
    let temperature = setting
        .oil_temperature_k
        .unwrap_or(profile.unit.hot_oil_temperature_k);
    let line = setting.line_pa.or(profile.unit.line_highest_pa)?;
    let state = SealState {
        gap: radial.map_or(Gap::AsNew, |c| Gap::Of(Length::new::<meter>(*c))),
        eccentricity: Ratio::new::<ratio>(0.0),
    };
    let wear = Wear {
        tested_lands: &[],
        tested: state,
        untested: state,
    };
    let oil = oil_at(unit_oil(profile).ok()?, *temperature).ok()?;
    let circuit = regulator(profile, &wear, *temperature)
        .ok()?
        .circuit(&oil)
        .ok()?;
    let line = Pressure::new::<pascal>(*line);
    let at = circuit.solve(line, Branch::Frictionless).ok()?;
    Some((at.spool_position.get::<meter>(), at.feed.get::<pascal>()))
}
