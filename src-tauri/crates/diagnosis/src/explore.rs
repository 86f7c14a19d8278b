//! A valve tried out: the profile with some of its parts set otherwise, through the same physics as
//! a judgement. For teaching, and for "what if".

use model::limits::Check;
use model::unit::{BoreProfile, Node, OpeningRole, Relief};
use model::what_if::Setting;
use model::{Finding, Finite, Severity};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uom::si::length::meter;

use crate::assumed::Assumed;
use crate::error::DiagnosisError;
use crate::judgement::{BandSource, ConsequenceAnswer, ConsequenceRefusal, Span};
use crate::pressure::{self, MeasuredBore, SealEvidence};
use crate::valve;

/// What a valve does as it is set.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Explored {
    /// The pressure, "as measured" being as set; or why it can't be told.
    pub consequence: ConsequenceAnswer,
    /// What can't be true of the setting, at its fields, and what the profile lacks.
    pub findings: Vec<Finding>,
    /// What was assumed.
    pub assumptions: Vec<Assumed>,
}

/// The profile with its parts as set. `relief`: the one that is to be added, where the profile has
/// none. What the setting doesn't name stays.
#[must_use]
pub fn set(profile: &BoreProfile, setting: &Setting, relief: Option<&Relief>) -> BoreProfile {
    let mut other = profile.clone();
    if let Some(spring) = &mut other.spring {
        spring.load_regulating_n = setting.spring_load_n.or(spring.load_regulating_n);
        spring.rate_n_per_m = setting.spring_rate_n_per_m.or(spring.rate_n_per_m);
    }
    if let (Some(orifice), Some(diameter)) = (&mut other.balance_orifice, setting.orifice_m) {
        orifice.diameter_m = diameter;
    }
    other.circuit.demand_m3_s = setting.demand_m3_s.or(other.circuit.demand_m3_s);
    other.bore.spool.friction_n = setting.friction_n.or(other.bore.spool.friction_n);
    if setting.exhaust == Some(false) {
        let stays = |role| role != OpeningRole::Exhaust;
        other.openings.retain(|opening| stays(opening.role));
    }
    match setting.relief {
        Some(false) => other.relief = None,
        Some(true) if other.relief.is_none() => {
            other.relief = relief.map(|relief| Relief {
                circuit: other.bore.circuit,
                ..relief.clone()
            });
        }
        _ => {}
    }
    other
}

/// The clearance that a setting begins from, on the diameter at 20 °C, m: the likely one that was
/// measured, or else the mean of the lands as new; none where the profile doesn't know it.
#[must_use]
pub fn clearance(profile: &BoreProfile, measured: Option<&SealEvidence>) -> Option<f64> {
    if let Some(seals) = measured {
        return Some(2.0 * seals.centred[1].get::<meter>());
    }
    let lands: Option<Vec<f64>> = profile
        .lands
        .iter()
        .map(|land| Some(2.0 * valve::new_clearance(profile, land)?.get::<meter>()))
        .collect();
    let lands = lands.filter(|lands| !lands.is_empty())?;
    let count = u32::try_from(lands.len()).map_or(f64::INFINITY, f64::from);
    Some(lands.iter().sum::<f64>() / count)
}

/// The seals as a setting has them: of one clearance that it names, or else as they were measured,
/// or else as new; none where the profile doesn't know its lands.
#[must_use]
pub fn seals(
    profile: &BoreProfile,
    setting: &Setting,
    measured: Option<&SealEvidence>,
) -> Option<SealEvidence> {
    let of_all = |clearance_m: f64| SealEvidence::measured(profile, [clearance_m; 3]);
    match (setting.clearance_m, measured) {
        (Some(set), _) => Some(of_all(*set)),
        (None, Some(measured)) => Some(measured.clone()),
        (None, None) => clearance(profile, None).map(of_all),
    }
}

/// Where a valve stands under one line pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    /// Stroke of the spool, m.
    pub stroke_m: Finite,
    /// What it holds there, with all that the curve's band holds, Pa.
    pub feed_pa: Span,
}

/// Where the valve stands as it is set, under the line pressure that is set or else the highest: the
/// curve's own valve, untested seals included. None where the profile lacks a part or there is no
/// balance.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program.
pub fn stand(
    profile: &BoreProfile,
    setting: &Setting,
    measured: Option<&SealEvidence>,
    relief: Option<&Relief>,
) -> Result<Option<Stand>, DiagnosisError> {
    let line = setting.line_pa.or(profile.unit.line_highest_pa);
    let (Some(line), Some(seals)) = (line, seals(profile, setting, measured)) else {
        return Ok(None);
    };
    let parts = MeasuredBore::as_profile(&set(profile, setting, relief));
    let temperature = setting
        .oil_temperature_k
        .unwrap_or(profile.unit.hot_oil_temperature_k);
    let of = &parts.profile;
    match pressure::points(of, &parts, &seals, Node::Feed, *temperature, &[*line]) {
        Ok(points) => points
            .as_ref()
            .and_then(|points| points.at.first())
            .map(|at| {
                Ok(Stand {
                    stroke_m: Finite::try_from(at.stroke_m)?,
                    feed_pa: at.either,
                })
            })
            .transpose(),
        Err(DiagnosisError::ProfileIncomplete { .. } | DiagnosisError::Physics(_)) => Ok(None),
        Err(other) => Err(other),
    }
}

/// What the valve does as it is set. `measured`: what a test or the diameters say of the seals,
/// used as long as the setting names no clearance of its own; without either they are as new.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program; a setting that can't be is a finding.
pub fn explore(
    profile: &BoreProfile,
    setting: &Setting,
    measured: Option<&SealEvidence>,
    relief: Option<&Relief>,
) -> Result<Explored, DiagnosisError> {
    let mut findings = setting.findings();
    let withheld = |reason| ConsequenceAnswer::Withheld { reason };
    if findings.iter().any(|it| it.severity == Severity::Wrong) {
        return Ok(Explored {
            consequence: withheld(ConsequenceRefusal::NoDimensions),
            findings,
            assumptions: Vec::new(),
        });
    }
    let Some(seals) = seals(profile, setting, measured) else {
        let code = model::finding::FindingCode::ProfileIncomplete;
        findings.push(Finding::at(Severity::Doubt, code, "lands.diameter_m"));
        return Ok(Explored {
            consequence: withheld(ConsequenceRefusal::ProfileIncomplete),
            findings,
            assumptions: Vec::new(),
        });
    };
    let other = set(profile, setting, relief);
    let temperature = setting
        .oil_temperature_k
        .unwrap_or(profile.unit.hot_oil_temperature_k);
    let mut assumptions = Vec::new();
    let consequence = match pressure::consequence(&other, &seals, *temperature) {
        Ok((computed, assumed)) => {
            assumptions.extend(assumed.into_iter().map(Assumed::from));
            assumptions.extend([
                Assumed::EngagedAtRegulating,
                Assumed::ThermalExpansion,
                Assumed::AreasAsNew,
            ]);
            if setting.clearance_m.is_some() {
                assumptions.push(Assumed::LandsShareClearance);
            }
            if computed.band_from.contains(&BandSource::UntestedSeals) {
                assumptions.push(Assumed::UntestedSealsBand);
            }
            ConsequenceAnswer::Computed(Box::new(computed))
        }
        Err(DiagnosisError::ProfileIncomplete { part }) => {
            let code = model::finding::FindingCode::ProfileIncomplete;
            findings.push(Finding::at(Severity::Doubt, code, part));
            withheld(ConsequenceRefusal::ProfileIncomplete)
        }
        Err(DiagnosisError::Physics(_)) => withheld(ConsequenceRefusal::NoBalance),
        Err(other) => return Err(other),
    };
    assumptions.sort_unstable();
    assumptions.dedup();
    Ok(Explored {
        consequence,
        findings,
        assumptions,
    })
}

/// From where to where a figure is worth trying: a third to three times of what it is, within what
/// can be true; from nothing where nothing can be.
#[must_use]
pub fn reach(now: f64, range: model::limits::Range) -> Option<[Finite; 2]> {
    let low = if range.low == 0.0 { 0.0 } else { now / 3.0 };
    let ends = [low.max(range.low), (now * 3.0).min(range.high)];
    let [low, high] = ends;
    (low < high).then_some(())?;
    Some([Finite::new(low)?, Finite::new(high)?])
}
