//! A balance orifice of another size. The shift of a leak goes with its square over the fourth
//! power of the orifice while that is turbulent, so a larger one lets a leak matter less and the
//! valve swing more; one that is smaller than the profile says is put back. Both are worked out
//! for the orifice that is there and for the other.

use model::Finite;
use model::limits;
use model::repair::RepairOption;

use super::answer::{
    Effort, MotionAhead, NamedCheck, Obstacle, OrificeNeeds, OrificeStands, Risk, Standing,
    Unmeasured, Way,
};
use super::draft::Draft;
use super::{Case, motion, rank};
use crate::assumed::Assumed;
use crate::error::DiagnosisError;
use crate::judgement::{ConsequenceAnswer, Span};
use crate::repair::forecast_at;

/// Larger sizes that are tried, as parts of the one that is there (common practice, no source): the
/// least that holds is proposed, or the largest where none does.
const LARGER: [f64; 4] = [1.15, 1.35, 1.6, 2.0];
/// Sizes that differ by less than a pin of a set are one size, m (common practice, no source).
const SAME_M: f64 = 20e-6;

/// The way with the size that serves best.
pub(super) fn change(case: &Case<'_>) -> Result<Draft, DiagnosisError> {
    let way = (Way::ChangeOrifice, RepairOption::OrificeChanged);
    let mut draft = Draft::new(case, way.0, way.1, Effort::ChangeParts);
    draft.before.clone_from(&case.seals);
    draft.risks.push(Risk::WearGoesOn);
    draft
        .checks
        .extend([NamedCheck::OrificeByPins, NamedCheck::TestAgain]);
    draft.assumptions.retain(|it| *it != Assumed::OrificeKept);
    let there = draft.profile.balance_orifice.as_ref();
    let Some(there) = there.map(|orifice| orifice.diameter_m) else {
        draft.obstacles.push(Obstacle::NoOrifice);
        return Ok(draft);
    };
    let as_new = case.evidence.as_new.balance_orifice.as_ref();
    let restored = as_new
        .map(|orifice| orifice.diameter_m)
        .filter(|size| is_other(case, *size, there));
    if case.seals.is_none() {
        draft.missing.push(Unmeasured::Clearance);
    }
    let size = match restored {
        Some(size) => Some(size),
        None => larger(case, &draft, there)?,
    };
    let Some(size) = size else {
        return Ok(draft);
    };
    if *size > *there {
        draft.risks.push(Risk::LessDamping);
    }
    if restored.is_none() {
        // Drilled out, and the leak is still there.
        draft.risks.extend([Risk::FaultRemains, Risk::CantBeUndone]);
    }
    let kept = stands(case, &draft, there)?;
    draft.work.orifice_m = Some(size);
    draft.needs.orifice = Some(OrificeNeeds {
        restores: restored.is_some(),
        kept,
        changed: stands(case, &draft, size)?,
    });
    Ok(draft)
}

/// True where the orifice that is there is known to be another than the profile's.
fn is_other(case: &Case<'_>, profile: Finite, there: Finite) -> bool {
    let measured = case.evidence.measured.orifice.as_ref();
    let outside =
        measured.is_none_or(|it| !(*it.diameter_m.low..=*it.diameter_m.high).contains(&*profile));
    outside && (*profile - *there).abs() > SAME_M
}

/// The least of the larger sizes that holds, or else the largest of those that stand best.
fn larger(case: &Case<'_>, draft: &Draft, there: Finite) -> Result<Option<Finite>, DiagnosisError> {
    if draft.before.is_none() {
        return Ok(None);
    }
    let mut best: Option<(Standing, Finite)> = None;
    for part in LARGER {
        let Some(size) = Finite::new(*there * part).filter(|it| **it <= limits::ORIFICE_M.high)
        else {
            continue;
        };
        let standing = match consequence(case, draft, size)? {
            ConsequenceAnswer::Computed(computed) => rank::held(&computed).0,
            ConsequenceAnswer::Withheld { .. } => Standing::LikelyNot,
        };
        let better = |known: Standing| {
            standing < known || (standing == known && standing > Standing::LikelyHolds)
        };
        if best.as_ref().is_none_or(|(known, _)| better(*known)) {
            best = Some((standing, size));
        }
    }
    Ok(best.map(|(_, size)| size))
}

fn with(draft: &Draft, size: Finite) -> Draft {
    let mut with = draft.clone();
    with.work.orifice_m = Some(size);
    with
}

fn consequence(
    case: &Case<'_>,
    draft: &Draft,
    size: Finite,
) -> Result<ConsequenceAnswer, DiagnosisError> {
    let draft = with(draft, size);
    let before = draft.before.as_ref();
    let foreseen = forecast_at(&draft.profile, &draft.work, before, None, case.hot_k())?;
    Ok(foreseen.told.prediction)
}

fn stands(case: &Case<'_>, draft: &Draft, size: Finite) -> Result<OrificeStands, DiagnosisError> {
    let shift_pa: Option<Span> = match consequence(case, draft, size)? {
        ConsequenceAnswer::Computed(computed) => computed.highest_line.shift_pa,
        ConsequenceAnswer::Withheld { .. } => None,
    };
    let motion: MotionAhead = motion::motion(
        &with(draft, size),
        draft.before.as_ref(),
        [case.hot_k(), case.cold_k()],
    )?;
    Ok(OrificeStands {
        diameter_m: size,
        shift_pa,
        motion,
    })
}
