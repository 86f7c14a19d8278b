//! What a repair should do to the pressure, from the dimensions that it left: the profile with
//! the new diameters, areas and spring, through the same physics as a judgement.

use model::finding::{Finding, FindingCode, Severity};
use model::limits::Check;
use model::repair::{RepairOption, RepairWork};
use model::unit::{BoreProfile, Relief};
use model::{Finite, bench::Verdict};
use physics::spring::{face_area, load_for_pressure};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uom::si::area::square_meter;
use uom::si::f64::{Force, Length, Pressure};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;

use crate::assumed::Assumed;
use crate::error::DiagnosisError;
use crate::inspected::{self, MeasuredParts};
use crate::judgement::{
    BandSource, ConsequenceAnswer, ConsequenceRefusal, Judgement, RegulationState, Span,
    SpecificationAnswer,
};
use crate::pressure::{self, Added, SealEvidence, SleeveSeat};
use crate::valve::metres;

/// How far a diameter may be off when nobody says: a ten-thousandth of an inch, what a micrometer
/// and a bore gauge of a workshop promise (from memory).
const USUAL_UNCERTAINTY_M: f64 = 2.54e-6;

/// What a repair is predicted to do.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RepairForecast {
    /// The pressure, "as measured" being as repaired; or why it can't be told.
    pub prediction: ConsequenceAnswer,
    /// Clearance on the diameter after the repair, m; none while it isn't known.
    pub clearance_m: Option<Span>,
    /// Reaction area, m².
    pub reaction_area_m2: Option<Finite>,
    /// Spring load at the regulating position that holds the circuit's pressure on that area, N.
    pub fitting_load_n: Option<Finite>,
    /// Pressure that the spring holds on that area by P = F / A, Pa.
    pub spring_holds_pa: Option<Finite>,
    /// What is odd, and what missing dimensions cost, at the fields of the work.
    pub findings: Vec<Finding>,
    /// What was assumed.
    pub assumptions: Vec<Assumed>,
}

/// What a repair leaves open.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OpenPoint {
    /// No judged test before the repair to compare with.
    NoTestBefore,
    /// Nothing could be predicted.
    NotPredicted,
    /// The prediction reaches outside the specified band.
    PredictedOutsideSpecification,
    /// No test since.
    NotTestedAgain,
    /// The test since gives no pressure.
    AfterNotJudged,
    /// The reading since is outside its limit, or too close to call.
    AfterLimitNotMet,
    /// The pressure since lies outside the specified band, or may.
    AfterOutsideSpecification,
    /// The pressure since lies outside what was predicted.
    AfterOutsidePrediction,
    /// The decision on the test since isn't on record.
    AfterNotDecided,
    /// A relief contains: the leak and the lost pump flow remain.
    LeakRemains,
    /// The last hot-oil check says that the circuit doesn't hold.
    OilCheckOutside,
    /// The last hot-oil check leaves open whether it does.
    OilCheckOpen,
}

/// The profile as a repair left it. `relief`: the one that was added, if the repair added one.
#[must_use]
pub fn repaired(profile: &BoreProfile, work: &RepairWork, relief: Option<&Relief>) -> BoreProfile {
    let mut after = profile.clone();
    if let Some(bore) = work.bore_diameter_m {
        after.bore.diameter_m = bore;
    }
    if let Some(sleeve) = work.sleeve_material {
        // The valve now runs in the sleeve.
        after.bore.material = sleeve;
    }
    if let Some(valve) = work.valve_material {
        after.bore.spool.material = valve;
    }
    after.bore.spool.stroke_m = work.stroke_m.or(after.bore.spool.stroke_m);
    if let (Some(orifice), Some(fitted)) = (&mut after.balance_orifice, work.orifice_m) {
        orifice.diameter_m = fitted;
    }
    if let (Some(valve), Some(reaction)) = (work.valve_diameter_m, profile.reaction_land()) {
        // The other lands step with the measured one; where nobody knows them, they stay unknown.
        let step = reaction.diameter_m.map(|old| *valve - *old);
        let name = reaction.name.clone();
        for land in &mut after.lands {
            land.diameter_m = match (land.diameter_m, step) {
                (Some(old), Some(step)) => Finite::new(*old + step).or(Some(old)),
                _ if land.name == name => Some(valve),
                (old, _) => old,
            };
        }
    }
    if let Some(spring) = &mut after.spring {
        spring.load_regulating_n = work.spring_load_n.or(spring.load_regulating_n);
        spring.rate_n_per_m = work.spring_rate_n_per_m.or(spring.rate_n_per_m);
    }
    if work.option == RepairOption::ReliefAdded
        && let Some(relief) = relief
    {
        after.relief = Some(Relief {
            circuit: profile.bore.circuit,
            ..relief.clone()
        });
    }
    after
}

/// What a repair adds that no profile has: oil around its sleeve, its spring's tolerance.
#[must_use]
pub fn added(profile: &BoreProfile, work: &RepairWork) -> Added {
    let force = Force::new::<newton>;
    let tolerance = work.spring_tolerance_n.map(Finite::get);
    let seat = work.sleeve_outer_m.zip(work.seat_gap_m);
    Added {
        seat: seat.map(|(outer, gap)| {
            let off = work.seat_gap_uncertainty_m.map_or(0.0, Finite::get);
            SleeveSeat {
                outer_diameter: metres(*outer),
                radial: [*gap - off, *gap, *gap + off].map(|gap| metres(0.5 * gap)),
                sleeve: work.sleeve_material.unwrap_or(profile.bore.material),
                body: profile.bore.material,
            }
        }),
        spring_load: tolerance
            .filter(|tolerance| *tolerance > 0.0)
            .map(|tolerance| [force(-tolerance), force(tolerance)]),
    }
}

/// The bore that a way out starts from: spring, orifice and friction as the inspection measured
/// them. Cleaned or new, a valve slides with the friction of the profile; another body is as new.
#[must_use]
pub fn ground(
    as_new: &BoreProfile,
    now: &BoreProfile,
    measured: &MeasuredParts,
    option: RepairOption,
) -> BoreProfile {
    let mut ground = match option {
        RepairOption::BodyReplaced => return as_new.clone(),
        _ => inspected::as_measured(now, measured).profile,
    };
    let slides_again = matches!(
        option,
        RepairOption::Cleaned
            | RepairOption::NewValve
            | RepairOption::SleeveSmallerValve
            | RepairOption::ReamedOversize
    );
    if slides_again {
        ground.bore.spool.friction_n = now.bore.spool.friction_n;
    }
    ground
}

/// Predicts the pressure after a repair. `before`: what the last judged test before it says of the
/// seals; `relief`: the one that the job's relief check says is to be added.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program; what the work lacks is a finding.
pub fn forecast(
    profile: &BoreProfile,
    work: &RepairWork,
    before: Option<&SealEvidence>,
    relief: Option<&Relief>,
) -> Result<RepairForecast, DiagnosisError> {
    let hot = *profile.unit.hot_oil_temperature_k;
    Ok(forecast_at(profile, work, before, relief, hot)?.told)
}

/// A forecast with the profile and the seals that it was worked out from.
pub(crate) struct Foreseen {
    pub told: RepairForecast,
    pub after: BoreProfile,
    pub seals: Option<SealEvidence>,
}

/// As [`forecast`], at any oil temperature.
pub(crate) fn forecast_at(
    profile: &BoreProfile,
    work: &RepairWork,
    before: Option<&SealEvidence>,
    relief: Option<&Relief>,
    oil_temperature_k: f64,
) -> Result<Foreseen, DiagnosisError> {
    let mut findings = work.findings();
    let wrong = findings
        .iter()
        .any(|found| found.severity == Severity::Wrong);
    let after = repaired(profile, work, relief);
    let added = &added(profile, work);
    let mut assumptions = Vec::new();
    if added.seat.is_some() {
        assumptions.push(Assumed::SleeveSeatCentred);
    }
    if work.orifice_m.is_some() && profile.balance_orifice.is_none() {
        let code = FindingCode::NoOrificeToChange;
        findings.push(Finding::at(Severity::Doubt, code, "orifice_m"));
    }
    let seals = if wrong {
        None
    } else {
        seals(profile, work, before, &mut findings, &mut assumptions)
    };
    if work.option == RepairOption::ReliefAdded && relief.is_none() {
        let code = FindingCode::ReliefNotChecked;
        findings.push(Finding::at(Severity::Doubt, code, "option"));
    }
    let spring = if wrong {
        SpringAnswer::default()
    } else {
        spring(&after, work, &mut findings)?
    };
    let clearance_m = seals.as_ref().map(clearance).transpose()?;
    let prediction = match &seals {
        None => ConsequenceAnswer::Withheld {
            reason: ConsequenceRefusal::NoDimensions,
        },
        Some(seals) => {
            let at = (added, oil_temperature_k);
            predict(&after, seals, at, &mut findings, &mut assumptions)?
        }
    };
    assumptions.sort_unstable();
    assumptions.dedup();
    let told = RepairForecast {
        prediction,
        clearance_m,
        reaction_area_m2: spring.area_m2,
        fitting_load_n: spring.fitting_load_n,
        spring_holds_pa: spring.holds_pa,
        findings,
        assumptions,
    };
    Ok(Foreseen { told, after, seals })
}

fn predict(
    after: &BoreProfile,
    seals: &SealEvidence,
    (added, oil_temperature_k): (&Added, f64),
    findings: &mut Vec<Finding>,
    assumptions: &mut Vec<Assumed>,
) -> Result<ConsequenceAnswer, DiagnosisError> {
    let withheld = |reason| Ok(ConsequenceAnswer::Withheld { reason });
    match pressure::consequence_with(after, seals, added, oil_temperature_k) {
        Ok((consequence, assumed)) => {
            assumptions.extend(assumed.into_iter().map(Assumed::from));
            assumptions.extend([Assumed::EngagedAtRegulating, Assumed::ThermalExpansion]);
            if consequence.band_from.contains(&BandSource::UntestedSeals) {
                assumptions.push(Assumed::UntestedSealsBand);
            }
            Ok(ConsequenceAnswer::Computed(Box::new(consequence)))
        }
        Err(DiagnosisError::ProfileIncomplete { part }) => {
            let code = FindingCode::ProfileIncomplete;
            findings.push(Finding::at(Severity::Doubt, code, part));
            withheld(ConsequenceRefusal::ProfileIncomplete)
        }
        Err(DiagnosisError::Physics(_)) => withheld(ConsequenceRefusal::NoBalance),
        Err(other) => Err(other),
    }
}

/// What the seals are after the repair; none when the work doesn't say enough.
fn seals(
    profile: &BoreProfile,
    work: &RepairWork,
    before: Option<&SealEvidence>,
    findings: &mut Vec<Finding>,
    assumptions: &mut Vec<Assumed>,
) -> Option<SealEvidence> {
    let land = profile.reaction_land()?;
    let mut doubt = |code, field: &str| findings.push(Finding::at(Severity::Doubt, code, field));
    let needs_both = matches!(
        work.option,
        RepairOption::SleeveSmallerValve | RepairOption::ReamedOversize
    );
    match (work.bore_diameter_m, work.valve_diameter_m) {
        (Some(bore), Some(valve)) => {
            let u = uncertainty(work, true, true, findings);
            assumptions.extend([Assumed::RepairExpandsAlike, Assumed::LandsShareClearance]);
            Some(SealEvidence::measured(profile, around(*bore - *valve, u)))
        }
        // Another valve in the bore as the test found it.
        (None, Some(valve)) if !needs_both => {
            let Some(before) = before else {
                doubt(FindingCode::DimensionMissing, "bore_diameter_m");
                return None;
            };
            let Some(old) = land.diameter_m else {
                doubt(FindingCode::ProfileIncomplete, "lands.diameter_m");
                return None;
            };
            doubt(FindingCode::BoreFromTest, "bore_diameter_m");
            let u = uncertainty(work, false, true, findings);
            assumptions.push(Assumed::RepairExpandsAlike);
            let shift = (*old - *valve) / 2.0;
            let least = physics::range::RADIAL_CLEARANCE.low;
            let moved = |[low, likely, high]: [Length; 3]| {
                [(low, -u / 2.0), (likely, 0.0), (high, u / 2.0)]
                    .map(|(c, u)| metres((c.get::<meter>() + shift + u).max(least)))
            };
            if before.centred[1].get::<meter>() + shift <= 0.0 {
                let code = FindingCode::ValveLargerThanBore;
                findings.push(Finding::at(Severity::Doubt, code, "valve_diameter_m"));
                return None;
            }
            Some(SealEvidence {
                tested_lands: before.tested_lands.clone(),
                centred: moved(before.centred),
                off_centre: moved(before.off_centre),
            })
        }
        (bore, valve) => match work.option {
            RepairOption::SleeveSmallerValve
            | RepairOption::ReamedOversize
            | RepairOption::NewValve => {
                if bore.is_none() && needs_both {
                    doubt(FindingCode::DimensionMissing, "bore_diameter_m");
                }
                if valve.is_none() {
                    doubt(FindingCode::DimensionMissing, "valve_diameter_m");
                }
                None
            }
            RepairOption::BodyReplaced if bore.is_none() => {
                let Some(valve) = land.diameter_m else {
                    doubt(FindingCode::ProfileIncomplete, "lands.diameter_m");
                    return None;
                };
                findings.push(Finding::at(
                    Severity::Note,
                    FindingCode::BodyAsNew,
                    "bore_diameter_m",
                ));
                let new = *profile.bore.diameter_m - *valve;
                let u = uncertainty(work, true, true, findings);
                Some(SealEvidence::measured(profile, around(new, u)))
            }
            _ if bore.is_some() => {
                doubt(FindingCode::DimensionMissing, "valve_diameter_m");
                None
            }
            // Cleaning, a relief or a spring leaves the seals as the test found them.
            _ => {
                if before.is_none() {
                    doubt(FindingCode::NoTestBefore, "");
                }
                // A surface that gives way by so much opens the radial gap by as much.
                let off = metres(work.polished_off_m.map_or(0.0, Finite::get));
                before.map(|seals| SealEvidence {
                    tested_lands: seals.tested_lands.clone(),
                    centred: seals.centred.map(|gap| gap + off),
                    off_centre: seals.off_centre.map(|gap| gap + off),
                })
            }
        },
    }
}

/// How far the clearance may be off, m.
fn uncertainty(work: &RepairWork, bore: bool, valve: bool, findings: &mut Vec<Finding>) -> f64 {
    let entered = [
        (bore, work.bore_uncertainty_m, "bore_uncertainty_m"),
        (valve, work.valve_uncertainty_m, "valve_uncertainty_m"),
    ];
    let mut sum = 0.0;
    for (counts, entered, field) in entered {
        if !counts {
            continue;
        }
        let u = entered.map_or(USUAL_UNCERTAINTY_M, Finite::get);
        if entered.is_none() {
            let code = FindingCode::DiameterUncertaintyUnknown;
            findings.push(Finding::at(Severity::Note, code, field).with_bounds(u, u));
        }
        sum += u * u;
    }
    sum.sqrt()
}

fn around(clearance: f64, u: f64) -> [f64; 3] {
    let least = 2.0 * physics::range::RADIAL_CLEARANCE.low;
    [
        (clearance - u).max(least).min(clearance),
        clearance,
        clearance + u,
    ]
}

fn clearance(seals: &SealEvidence) -> Result<Span, DiagnosisError> {
    let diametral = |c: Length| Finite::try_from(2.0 * c.get::<meter>());
    Ok(Span {
        low: diametral(seals.off_centre[0])?,
        likely: diametral(seals.centred[1])?,
        high: diametral(seals.centred[2])?,
    })
}

#[derive(Default)]
struct SpringAnswer {
    area_m2: Option<Finite>,
    fitting_load_n: Option<Finite>,
    holds_pa: Option<Finite>,
}

/// P = F / A on the new reaction area, both ways.
fn spring(
    after: &BoreProfile,
    work: &RepairWork,
    findings: &mut Vec<Finding>,
) -> Result<SpringAnswer, DiagnosisError> {
    let diameter = after.reaction_land().and_then(|land| land.diameter_m);
    let Some(Ok(area)) = diameter.map(|diameter| face_area(metres(*diameter))) else {
        return Ok(SpringAnswer::default());
    };
    let Some(setpoint) = after.circuit.setpoint_pa else {
        let code = FindingCode::ProfileIncomplete;
        findings.push(Finding::at(Severity::Doubt, code, "circuit.setpoint_pa"));
        return Ok(SpringAnswer::default());
    };
    let setpoint = Pressure::new::<pascal>(*setpoint);
    let fitting = load_for_pressure(setpoint, area)?.get::<newton>();
    let area_m2 = area.get::<square_meter>();
    let holds = after
        .spring
        .as_ref()
        .and_then(|spring| spring.load_regulating_n)
        .map(|load| *load / area_m2);
    let circuit = &after.circuit;
    if let (Some(holds), Some(low), Some(high)) =
        (holds, circuit.specified_low_pa, circuit.specified_high_pa)
        && !(*low..=*high).contains(&holds)
    {
        let code = FindingCode::SpringDoesNotFit;
        let found = Finding::at(Severity::Doubt, code, "spring_load_n");
        findings.push(found.with_bounds(fitting, holds));
    }
    if work.has_new_dimensions() || work.spring_load_n.is_some() {
        for (entered, field) in [
            (work.spring_load_n, "spring_load_n"),
            (work.spring_rate_n_per_m, "spring_rate_n_per_m"),
        ] {
            if entered.is_none() {
                let code = FindingCode::SpringAsBefore;
                findings.push(Finding::at(Severity::Note, code, field));
            }
        }
    }
    Ok(SpringAnswer {
        area_m2: Finite::new(area_m2),
        fitting_load_n: Finite::new(fitting),
        holds_pa: holds.and_then(Finite::new),
    })
}

/// Two orifices that lie no further apart are of one size: what typing a size in inches rounds off.
const SAME_ORIFICE_M: f64 = 5.0e-6;

/// What is still open once before, prediction and after lie side by side. `after_decided`: the
/// decision on the test since is on record.
#[must_use]
pub fn open_points(
    work: &RepairWork,
    before: Option<&Judgement>,
    forecast: &RepairForecast,
    after: Option<&Judgement>,
    after_decided: bool,
    orifice_as_new_m: Option<Finite>,
) -> Vec<OpenPoint> {
    let computed = |answer: &Option<ConsequenceAnswer>| match answer {
        Some(ConsequenceAnswer::Computed(consequence)) => Some(consequence.clone()),
        _ => None,
    };
    let mut open = Vec::new();
    if before
        .and_then(|judgement| computed(&judgement.consequence))
        .is_none()
    {
        open.push(OpenPoint::NoTestBefore);
    }
    let predicted = match &forecast.prediction {
        ConsequenceAnswer::Computed(consequence) => Some(consequence),
        ConsequenceAnswer::Withheld { .. } => None,
    };
    let inside = |consequence: &crate::judgement::Consequence| {
        let point = &consequence.highest_line;
        point.worst_state == RegulationState::Regulating
            && point.against_specification == Some(SpecificationAnswer::Inside)
    };
    match predicted {
        None => open.push(OpenPoint::NotPredicted),
        Some(consequence) if !inside(consequence) => {
            open.push(OpenPoint::PredictedOutsideSpecification);
        }
        Some(_) => {}
    }
    match after {
        None => open.push(OpenPoint::NotTestedAgain),
        Some(judgement) => {
            let met = judgement.decision.as_ref().map(|decision| decision.verdict);
            if met.is_some_and(|verdict| verdict != Verdict::WithinLimit) {
                open.push(OpenPoint::AfterLimitNotMet);
            }
            match computed(&judgement.consequence) {
                None => open.push(OpenPoint::AfterNotJudged),
                Some(measured) => {
                    if !inside(&measured) {
                        open.push(OpenPoint::AfterOutsideSpecification);
                    }
                    let feed = *measured.highest_line.measured_feed_pa.likely;
                    let outside = predicted.is_some_and(|consequence| {
                        let span = consequence.highest_line.measured_feed_pa;
                        !(*span.low..=*span.high).contains(&feed)
                    });
                    if outside {
                        open.push(OpenPoint::AfterOutsidePrediction);
                    }
                }
            }
            if !after_decided {
                open.push(OpenPoint::AfterNotDecided);
            }
        }
    }
    let contains = match work.option {
        RepairOption::ReliefAdded => true,
        // Back at the size of the profile it is as it was meant; a larger one bears a leak.
        RepairOption::OrificeChanged => match (work.orifice_m, orifice_as_new_m) {
            (Some(fitted), Some(as_new)) => *fitted > *as_new + SAME_ORIFICE_M,
            _ => true,
        },
        _ => false,
    };
    if contains {
        open.push(OpenPoint::LeakRemains);
    }
    open
}

/// What its hot-oil checks, oldest first, leave open of a repair. None was made: nothing, since not
/// every shop can.
#[must_use]
pub fn oil_points(verdicts: impl IntoIterator<Item = Verdict>) -> Option<OpenPoint> {
    match verdicts.into_iter().last()? {
        Verdict::OutsideLimit => Some(OpenPoint::OilCheckOutside),
        Verdict::TooCloseToCall => Some(OpenPoint::OilCheckOpen),
        Verdict::WithinLimit => None,
    }
}

/// The bore as a repair left it, and its seals; none while the work doesn't say enough of them.
/// `before` and `relief` as for [`forecast`].
///
/// # Errors
/// As [`forecast`].
pub fn left_by(
    profile: &BoreProfile,
    work: &RepairWork,
    before: Option<&SealEvidence>,
    relief: Option<&Relief>,
) -> Result<(BoreProfile, Option<SealEvidence>), DiagnosisError> {
    let hot = *profile.unit.hot_oil_temperature_k;
    let foreseen = forecast_at(profile, work, before, relief, hot)?;
    Ok((foreseen.after, foreseen.seals))
}
