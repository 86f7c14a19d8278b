//! Where the checks of a bore agree, and where they contradict each other.

use model::Finite;
use model::bench::Verdict;
use model::inspection::{Condition, Found, LightSeen, MarkDepth};
use physics::spring::face_area;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uom::si::area::square_meter;

use super::{BoreEvidence, Settle, TestEvidence, clearance_by_vacuum, moves_badly};
use crate::error::DiagnosisError;
use crate::inspected::{Inspected, MeasuredParts};
use crate::judgement::Span;
use crate::valve::metres;

/// One thing that two checks say together.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "says", rename_all = "snake_case")]
pub enum Accord {
    /// The vacuum test and the diameters give one clearance.
    LeakFitsDiameters {
        /// By vacuum, narrowest to widest, on the diameter, m.
        by_vacuum_m: [Finite; 2],
        /// By diameters, m.
        by_diameters_m: Span,
    },
    /// More air leaks than the diameters can let through: it goes another way (plug, seal, a
    /// porous or cracked casting, a scratch along the bore).
    LeakBeyondDiameters {
        /// By vacuum, narrowest to widest, on the diameter, m.
        by_vacuum_m: [Finite; 2],
        /// By diameters, m.
        by_diameters_m: Span,
    },
    /// Less air leaks than the diameters must let through: an oil film, varnish, or a valve that
    /// was pulled against its seat.
    TighterThanDiameters {
        /// By vacuum, narrowest to widest, on the diameter, m.
        by_vacuum_m: [Finite; 2],
        /// By diameters, m.
        by_diameters_m: Span,
    },
    /// The spring holds a pressure within what is specified.
    SpringHolds {
        /// By P = F / A, Pa.
        holds_pa: Span,
    },
    /// The spring may hold a pressure outside what is specified.
    SpringMayNotHold {
        /// By P = F / A, Pa.
        holds_pa: Span,
    },
    /// The spring can't give a pressure within what is specified.
    SpringCannotHold {
        /// By P = F / A, Pa.
        holds_pa: Span,
    },
    /// The valve drags or sticks, whatever its reading; how far that moves the pressure isn't
    /// measured.
    MovesBadly,
    /// The friction, as measured, makes the pressure depend on where the valve came from.
    FrictionSwings {
        /// Between line rising and falling, 2 F / A, Pa.
        swing_pa: Finite,
        /// True when that is more than the specified band is wide.
        beyond_band: bool,
    },
    /// The orifice is as the profile has it.
    OrificeAsProfile,
    /// The orifice isn't: the shift goes with the fourth power of its bore.
    OrificeOff {
        /// As measured, m.
        measured_m: Span,
        /// By the profile, m.
        profile_m: Finite,
    },
    /// Light or a deep mark, and yet a reading within its limit.
    SeenButTight,
    /// The plug or its seal is bad, so a poor reading may be theirs.
    PlugInTheReading,
}

impl Accord {
    /// True when it alone condemns the bore.
    pub(super) fn condemns(&self) -> bool {
        matches!(
            self,
            Self::SpringCannotHold { .. }
                | Self::FrictionSwings {
                    beyond_band: true,
                    ..
                }
        )
    }

    /// True when the checks can't all be right, or leave open what decides.
    pub(super) fn contradicts(&self) -> bool {
        matches!(
            self,
            Self::LeakBeyondDiameters { .. }
                | Self::TighterThanDiameters { .. }
                | Self::SpringMayNotHold { .. }
                | Self::MovesBadly
                | Self::SeenButTight
                | Self::PlugInTheReading
        )
    }

    /// What would settle it.
    pub(super) fn settled_by(&self) -> Option<Settle> {
        match self {
            Self::LeakBeyondDiameters { .. } => Some(Settle::FindOtherLeak),
            Self::TighterThanDiameters { .. } => Some(Settle::CleanAndTestAgain),
            Self::MovesBadly => Some(Settle::MeasureFriction),
            Self::SeenButTight => Some(Settle::MeasureDiameters),
            Self::PlugInTheReading => Some(Settle::Repeat),
            _ => None,
        }
    }
}

/// Everything that two checks say together.
pub(super) fn accord(
    evidence: &BoreEvidence<'_>,
    latest: &[Inspected<'_>],
    measured: &MeasuredParts,
) -> Result<Vec<Accord>, DiagnosisError> {
    let mut says = Vec::new();
    if let Some(diameters) = &measured.clearance {
        let by_diameters_m = Span {
            // The narrowest and widest readings bound it, too: a bore isn't round.
            low: lower(diameters.diametral_m.low, diameters.least_m),
            likely: diameters.diametral_m.likely,
            high: higher(diameters.diametral_m.high, diameters.most_m),
        };
        let by_vacuum = evidence
            .tests
            .iter()
            .find_map(|test| clearance_by_vacuum(test.judgement));
        if let Some(by_vacuum_m) = by_vacuum {
            says.push(if *by_vacuum_m[0] > *by_diameters_m.high {
                Accord::LeakBeyondDiameters {
                    by_vacuum_m,
                    by_diameters_m,
                }
            } else if *by_vacuum_m[1] < *by_diameters_m.low {
                Accord::TighterThanDiameters {
                    by_vacuum_m,
                    by_diameters_m,
                }
            } else {
                Accord::LeakFitsDiameters {
                    by_vacuum_m,
                    by_diameters_m,
                }
            });
        }
    }
    if let Some(spring) = &measured.spring {
        says.extend(spring_says(evidence, spring.holds_pa));
    }
    says.extend(friction(evidence, measured)?);
    if let Some(orifice) = &measured.orifice
        && let Some(profile_m) = orifice.profile_m
    {
        let span = orifice.diameter_m;
        says.push(if (*span.low..=*span.high).contains(&*profile_m) {
            Accord::OrificeAsProfile
        } else {
            Accord::OrificeOff {
                measured_m: span,
                profile_m,
            }
        });
    }
    let verdicts = |verdict| {
        move |test: &TestEvidence<'_>| {
            test.judgement.decision.as_ref().map(|told| told.verdict) == Some(verdict)
        }
    };
    if latest.iter().any(sees_a_gap) && evidence.tests.iter().any(verdicts(Verdict::WithinLimit)) {
        says.push(Accord::SeenButTight);
    }
    let poor = evidence.tests.iter().any(verdicts(Verdict::OutsideLimit));
    if poor && latest.iter().any(plug_is_bad) {
        says.push(Accord::PlugInTheReading);
    }
    Ok(says)
}

/// What the spring holds, beside what is specified; nothing where that isn't entered.
fn spring_says(evidence: &BoreEvidence<'_>, holds_pa: Span) -> Option<Accord> {
    let circuit = &evidence.profile.circuit;
    let (low, high) = (*circuit.specified_low_pa?, *circuit.specified_high_pa?);
    Some(if *holds_pa.high < low || *holds_pa.low > high {
        Accord::SpringCannotHold { holds_pa }
    } else if *holds_pa.low < low || *holds_pa.high > high {
        Accord::SpringMayNotHold { holds_pa }
    } else {
        Accord::SpringHolds { holds_pa }
    })
}

/// Static friction F holds the spool between P - F/A and P + F/A: the pressure differs by 2 F / A
/// between line rising and line falling.
fn friction(
    evidence: &BoreEvidence<'_>,
    measured: &MeasuredParts,
) -> Result<Option<Accord>, DiagnosisError> {
    let Some(friction) = measured.friction_n else {
        return Ok(moves_badly(measured).then_some(Accord::MovesBadly));
    };
    let land = evidence.profile.reaction_land();
    let Some(diameter) = land.and_then(|land| land.diameter_m) else {
        return Ok(None);
    };
    let area = face_area(metres(*diameter))?.get::<square_meter>();
    let circuit = &evidence.profile.circuit;
    let swing = 2.0 * *friction / area;
    let band = match (circuit.specified_low_pa, circuit.specified_high_pa) {
        (Some(low), Some(high)) => Some(*high - *low),
        _ => None,
    };
    Ok(Some(Accord::FrictionSwings {
        swing_pa: Finite::try_from(swing)?,
        beyond_band: band.is_some_and(|band| swing > band),
    }))
}

fn sees_a_gap(check: &Inspected<'_>) -> bool {
    match check.found {
        Found::Light(light) => light.lands.iter().any(|land| land.seen == LightSeen::Clear),
        Found::WearMarks(wear) => wear
            .marks
            .iter()
            .any(|mark| mark.depth == MarkDepth::Caught),
        _ => false,
    }
}

fn plug_is_bad(check: &Inspected<'_>) -> bool {
    let bad = |condition: Condition| condition != Condition::Good;
    match check.found {
        Found::EndPlug(end) => bad(end.plug) || end.seal.is_some_and(bad),
        _ => false,
    }
}

fn lower(a: Finite, b: Finite) -> Finite {
    if *a <= *b { a } else { b }
}

fn higher(a: Finite, b: Finite) -> Finite {
    if *a >= *b { a } else { b }
}
