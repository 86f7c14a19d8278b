//! The spring that a valve of another area needs: load and rate re-rated by area, and the one of
//! the shop's list that comes nearest, with its shim.

use model::unit::BoreProfile;
use physics::spring::rerate::spring_for_new_area;
use physics::spring::{Spring, face_area, load_for_pressure};
use uom::si::area::square_meter;
use uom::si::f64::{Force, Pressure, SurfaceTension};
use uom::si::force::newton;
use uom::si::pressure::pascal;
use uom::si::surface_tension::newton_per_meter;

use super::Case;
use super::answer::PartUse;
use crate::error::DiagnosisError;
use crate::valve::metres;

/// The thickest shim that is taken when nobody says: a millimetre (common practice, no source).
const USUAL_SHIM_M: f64 = 1.0e-3;

/// The spring of a way.
#[derive(Debug, Clone, Default)]
pub(super) struct SpringPlan {
    /// Reaction area, m².
    pub area_m2: f64,
    /// Load that keeps the pressure, N.
    pub load_n: Option<f64>,
    /// Rate that keeps the droop, N/m.
    pub rate_n_per_m: Option<f64>,
    pub chosen: Chosen,
    /// A spring of the list states its load at a height that nobody measured here.
    pub height_missing: bool,
}

/// What is done about it.
#[derive(Debug, Clone, Default)]
pub(super) enum Chosen {
    /// The spring that is there stays.
    #[default]
    Kept,
    /// One of the list.
    FromList {
        used: PartUse,
        load_n: f64,
        load_off_n: f64,
        rate_n_per_m: f64,
        shim_m: Option<f64>,
    },
    /// None fits: the prediction is for the one that would.
    Needed,
    /// Nothing is known to re-rate.
    Unknown,
}

/// The spring for a reaction land of `diameter_m`.
pub(super) fn plan(case: &Case<'_>, diameter_m: f64) -> Result<SpringPlan, DiagnosisError> {
    let area = face_area(metres(diameter_m))?;
    let area_m2 = area.get::<square_meter>();
    let (load_n, rate_n_per_m) = rerated(case.evidence.as_new, diameter_m)?;
    let holds = |load: f64| held_within(case.evidence.as_new, load / area_m2);
    let there = case.measured.spring.as_ref();
    let stays = there
        .and_then(|spring| spring.load_regulating_n)
        .is_some_and(|load| holds(*load));
    let mut plan = SpringPlan {
        area_m2,
        load_n,
        rate_n_per_m,
        ..SpringPlan::default()
    };
    if stays {
        return Ok(plan);
    }
    let Some(load) = load_n else {
        plan.chosen = Chosen::Unknown;
        return Ok(plan);
    };
    let most_shim = case
        .figures
        .most_shim_m
        .map_or(USUAL_SHIM_M, model::Finite::get);
    let mut best: Option<((f64, f64), Chosen)> = None;
    for spring in case.shelf.springs() {
        let height = case.evidence.spring_height_m.map(model::Finite::get);
        let here = match (spring.height, height) {
            (None, _) => spring.load,
            (Some(stated), Some(here)) => spring.load + spring.rate * (stated - here),
            (Some(_), None) => {
                plan.height_missing = true;
                continue;
            }
        };
        let shim = (load - here) / spring.rate;
        // A shim brings the load up to what is needed; a load that holds as it is needs none.
        let (carried, shim) = if holds(here) {
            (here, None)
        } else if shim > 0.0 && shim <= most_shim {
            (load, Some(shim))
        } else {
            continue;
        };
        // The droop first, then the load.
        let off_rate = rate_n_per_m.map_or(0.0, |rate| (spring.rate / rate).ln().abs());
        let off_load = (here / load).ln().abs();
        let key = (off_rate, off_load);
        if best.as_ref().is_none_or(|(known, _)| key < *known) {
            let chosen = Chosen::FromList {
                used: spring.used,
                load_n: carried,
                load_off_n: spring.load_off,
                rate_n_per_m: spring.rate,
                shim_m: shim,
            };
            best = Some((key, chosen));
        }
    }
    plan.chosen = best.map_or(Chosen::Needed, |(_, chosen)| chosen);
    Ok(plan)
}

/// Load where the valve regulates, and rate, that give a reaction land of `diameter_m` the pressure
/// and the droop of the bore as new: P = F / A, and dP/dx = k / A.
fn rerated(
    as_new: &BoreProfile,
    diameter_m: f64,
) -> Result<(Option<f64>, Option<f64>), DiagnosisError> {
    let area = face_area(metres(diameter_m))?;
    let old = as_new
        .reaction_land()
        .and_then(|land| land.diameter_m)
        .map(|diameter| face_area(metres(*diameter)))
        .transpose()?;
    let spring = as_new.spring.as_ref();
    let load = spring.and_then(|spring| spring.load_regulating_n);
    let rate = spring.and_then(|spring| spring.rate_n_per_m);
    if let (Some(load), Some(rate), Some(old)) = (load, rate, old) {
        let there = Spring {
            load_at_rest: Force::new::<newton>(*load),
            rate: SurfaceTension::new::<newton_per_meter>(*rate),
        };
        let Ok(new) = spring_for_new_area(&there, old, area) else {
            return Ok((None, None));
        };
        return Ok((
            Some(new.load_at_rest.get::<newton>()),
            Some(new.rate.get::<newton_per_meter>()),
        ));
    }
    let load = as_new
        .circuit
        .setpoint_pa
        .map(|setpoint| load_for_pressure(Pressure::new::<pascal>(*setpoint), area))
        .transpose()?;
    Ok((load.map(|load| load.get::<newton>()), None))
}

/// True where a pressure lies within what is specified.
fn held_within(as_new: &BoreProfile, pressure: f64) -> bool {
    let circuit = &as_new.circuit;
    match (circuit.specified_low_pa, circuit.specified_high_pa) {
        (Some(low), Some(high)) => (*low..=*high).contains(&pressure),
        _ => false,
    }
}
