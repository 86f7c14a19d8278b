//! A way foreseen: clearance, reading, pressure hot and cold, motion.

use model::Finite;
use uom::si::length::meter;

use super::answer::{
    Feasibility, MotionAhead, Obstacle, OptionWarning, ReadingAhead, ReadingRefusal, ReadingStands,
    RepairOutlook, Standing, Unmeasured, Way,
};
use super::draft::Draft;
use super::{Case, motion};
use crate::assumed::Assumed;
use crate::error::DiagnosisError;
use crate::judgement::{ConsequenceAnswer, ConsequenceRefusal, Span};
use crate::pressure::SealEvidence;
use crate::reading_ahead::{NoReading, predicted_reading};
use crate::repair::{Foreseen, added, forecast_at};
use crate::valve::{BENCH_TEMPERATURE_K, clearance_between};
use model::unit::BoreProfile;

/// Everything that one way would do. Its rank comes later.
pub(super) fn outlook(case: &Case<'_>, mut draft: Draft) -> Result<RepairOutlook, DiagnosisError> {
    let at = |temperature: f64| {
        forecast_at(
            &draft.profile,
            &draft.work,
            draft.before.as_ref(),
            draft.relief.as_ref(),
            temperature,
        )
    };
    let hot = at(case.hot_k())?;
    let cold = at(case.cold_k())?.told.prediction;
    let Foreseen { told, after, seals } = hot;
    let clearance_hot_m = match &seals {
        Some(seals) => warm_clearance(&after, seals, case.hot_k())?,
        None => None,
    };
    if let Some(warm) = &clearance_hot_m {
        if *warm.likely <= 0.0 {
            draft.obstacles.push(Obstacle::SeizesHot);
        } else if *warm.low <= 0.0 {
            draft.warnings.push(OptionWarning::MayBindHot);
        }
    }
    let reading = reading(case, &draft, &after, seals.as_ref())?;
    let motion = motion::motion(&draft, seals.as_ref(), [case.hot_k(), case.cold_k()])?;
    let mut assumptions = draft.assumptions;
    assumptions.extend(told.assumptions);
    if matches!(motion, MotionAhead::Known { .. }) {
        assumptions.push(Assumed::MotionTypical);
    }
    assumptions.sort_unstable();
    assumptions.dedup();
    if let ConsequenceAnswer::Withheld {
        reason: ConsequenceRefusal::ProfileIncomplete,
    } = &told.prediction
    {
        draft.missing.push(Unmeasured::Profile);
    }
    draft.obstacles.sort_unstable();
    draft.obstacles.dedup();
    draft.missing.sort_unstable();
    draft.missing.dedup();
    draft.warnings.sort_unstable();
    draft.warnings.dedup();
    draft.checks.sort_unstable();
    draft.checks.dedup();
    draft.risks.sort_unstable();
    draft.risks.dedup();
    let feasibility = if !draft.obstacles.is_empty() {
        Feasibility::Infeasible {
            obstacles: draft.obstacles,
        }
    } else if !draft.missing.is_empty() {
        Feasibility::Untold {
            missing: draft.missing,
        }
    } else {
        Feasibility::Feasible
    };
    Ok(RepairOutlook {
        way: draft.way,
        rank: 0,
        standing: Standing::Unknown,
        reasons: Vec::new(),
        feasibility,
        work: (draft.way != Way::Leave).then_some(draft.work),
        needs: draft.needs,
        clearance_cold_m: told.clearance_m,
        clearance_hot_m,
        reading,
        hot: told.prediction,
        cold,
        motion,
        effort: draft.effort,
        risks: draft.risks,
        checks: draft.checks,
        warnings: draft.warnings,
        findings: told.findings,
        assumptions,
    })
}

/// Clearance on the diameter at a temperature; the low end that the laws don't take closes.
fn warm_clearance(
    after: &BoreProfile,
    seals: &SealEvidence,
    temperature_k: f64,
) -> Result<Option<Span>, DiagnosisError> {
    let least = physics::range::RADIAL_CLEARANCE;
    let warm = |cold: uom::si::f64::Length| -> Result<f64, DiagnosisError> {
        let cold = cold.get::<meter>().clamp(least.low, least.high);
        let warm = clearance_between(
            &after.bore,
            crate::valve::metres(cold),
            BENCH_TEMPERATURE_K,
            temperature_k,
        )?;
        Ok(2.0 * warm.get::<meter>())
    };
    let ends = [seals.off_centre[0], seals.centred[1], seals.centred[2]].map(warm);
    let [low, likely, high] = match ends {
        [Ok(low), Ok(likely), Ok(high)] => [low, likely, high],
        ends => {
            // A figure that no law takes has its own finding.
            for end in ends {
                match end {
                    Ok(_) | Err(DiagnosisError::Physics(_)) => {}
                    Err(other) => return Err(other),
                }
            }
            return Ok(None);
        }
    };
    Ok(Some(Span {
        low: Finite::try_from(low)?,
        likely: Finite::try_from(likely)?,
        high: Finite::try_from(high)?,
    }))
}

fn reading(
    case: &Case<'_>,
    draft: &Draft,
    after: &BoreProfile,
    seals: Option<&SealEvidence>,
) -> Result<ReadingAhead, DiagnosisError> {
    let refused = |reason| Ok(ReadingAhead::Refused { reason });
    let Some(test) = case.evidence.test else {
        return refused(ReadingRefusal::NoTest);
    };
    let Some(seals) = seals else {
        return refused(ReadingRefusal::NoClearance);
    };
    let added = added(&draft.profile, &draft.work);
    let told = match predicted_reading(test.evidence, after, seals, &added)? {
        Ok(told) => told,
        Err(none) => {
            return refused(match none {
                NoReading::NoCalibratedStand => ReadingRefusal::NoCalibratedStand,
                NoReading::NoSetup => ReadingRefusal::NoSetup,
                NoReading::OtherSetup => ReadingRefusal::OtherSetup,
                NoReading::ProfileIncomplete => ReadingRefusal::ProfileIncomplete,
                NoReading::OutsideModel => ReadingRefusal::OutsideModel,
            });
        }
    };
    let [low, likely, high] = told;
    // The limit holds for a bore that is set up as it asks.
    let applies = !test.evidence.setup_differs();
    let limit = test.judgement.limit.as_ref().filter(|_| applies);
    let limit_pa = limit.map(|limit| limit.today_vacuum_pa);
    let against_limit = limit_pa.map(|limit| {
        if low >= *limit {
            ReadingStands::Meets
        } else if likely >= *limit {
            ReadingStands::LikelyMeets
        } else if high >= *limit {
            ReadingStands::LikelyMisses
        } else {
            ReadingStands::Misses
        }
    });
    Ok(ReadingAhead::Foreseen {
        vacuum_pa: Span {
            low: Finite::try_from(low)?,
            likely: Finite::try_from(likely)?,
            high: Finite::try_from(high)?,
        },
        limit_pa,
        against_limit,
    })
}
