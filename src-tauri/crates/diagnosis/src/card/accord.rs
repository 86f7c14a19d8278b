//! Where the checks of a bore agree, and where they contradict each other.

use model::Finite;
use model::bench::Verdict;
use model::inspection::{Condition, Found, LightSeen, MarkDepth, Occasion};
use physics::spring::face_area;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uom::si::area::square_meter;

use super::at_tap;
use super::{BoreEvidence, Settle, TestEvidence, clearance_by_vacuum, moves_badly};
use crate::error::DiagnosisError;
use crate::inspected::{Inspected, MeasuredParts, MeasuredSpring};
use crate::judgement::Span;
use crate::valve::metres;

/// How far off an unknown spring tester may be, as a part of the load (from memory).
const POOR_TESTER_ERROR: f64 = 0.1;

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
        /// True when it was measured on a cleaned valve: what is left is no dirt.
        cleaned: bool,
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
    /// Light or a deep mark, and yet a reading within its limit, and no diameter to say which is
    /// right.
    SeenButTight,
    /// A clear gap in the light at lands that neither a reading nor a diameter tells of.
    SeenUntested {
        /// Their names.
        lands: Vec<String>,
    },
    /// The plug or its seal is bad, so a poor reading may be theirs.
    PlugInTheReading,
    /// The pressure read at a tap is what the leak predicts at that line pressure and oil
    /// temperature.
    TapFitsLeak {
        /// The reading and the prediction.
        tap: TapBeside,
    },
    /// It isn't: something else moves the pressure (spring, friction, orifice, another leak), or
    /// the leak isn't what was measured.
    TapContradictsLeak {
        /// The reading and the prediction.
        tap: TapBeside,
    },
    /// Gauge and prediction leave it open.
    TapTooClose {
        /// The reading and the prediction.
        tap: TapBeside,
    },
}

/// A reading at a tap beside what is predicted there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TapBeside {
    /// The tap's name.
    pub name: String,
    /// As read, Pa.
    pub read_pa: Finite,
    /// How far that may be off, gauges of tap and line together (95 %), Pa.
    pub expanded_uncertainty_pa: Finite,
    /// Line pressure at that moment, Pa.
    pub line_pa: Finite,
    /// Temperature of the oil, K.
    pub oil_temperature_k: Finite,
    /// As predicted, Pa.
    pub predicted_pa: Span,
    /// True when the spring's load was measured, so that another cause comes first.
    pub spring_measured: bool,
}

impl Accord {
    /// True when it alone condemns the bore. `predicted`: the pressure was solved with the parts
    /// as measured, flow force and the spread of the spring's load included.
    pub(super) fn condemns(&self, predicted: bool) -> bool {
        match self {
            // P = F / A leaves the flow force out: where the whole balance was solved, that says.
            Self::SpringCannotHold { .. } => !predicted,
            // Dirt and varnish wash off.
            Self::FrictionSwings {
                beyond_band,
                cleaned,
                ..
            } => *beyond_band && *cleaned,
            _ => false,
        }
    }

    /// True when the checks can't all be right, or leave open what decides.
    pub(super) fn contradicts(&self, predicted: bool) -> bool {
        match self {
            Self::LeakBeyondDiameters { .. }
            | Self::TighterThanDiameters { .. }
            | Self::SpringMayNotHold { .. }
            | Self::SpringCannotHold { .. }
            | Self::MovesBadly
            | Self::SeenButTight
            | Self::SeenUntested { .. }
            | Self::PlugInTheReading
            | Self::TapContradictsLeak { .. } => true,
            Self::FrictionSwings { beyond_band, .. } => *beyond_band,
            // Where the pressure is known, it was solved with the orifice as measured.
            Self::OrificeOff { .. } => !predicted,
            Self::LeakFitsDiameters { .. }
            | Self::SpringHolds { .. }
            | Self::OrificeAsProfile
            | Self::TapFitsLeak { .. }
            | Self::TapTooClose { .. } => false,
        }
    }

    /// True when it says that the gap behind a prediction may not be the bore's.
    pub(super) fn doubts_the_gap(&self) -> bool {
        matches!(
            self,
            Self::LeakBeyondDiameters { .. }
                | Self::TighterThanDiameters { .. }
                | Self::PlugInTheReading
        )
    }

    /// What would settle it.
    pub(super) fn settled_by(&self, predicted: bool) -> Option<Settle> {
        match self {
            Self::LeakBeyondDiameters { .. } => Some(Settle::FindOtherLeak),
            Self::TighterThanDiameters { .. } => Some(Settle::CleanAndTestAgain),
            Self::SpringMayNotHold { .. } | Self::SpringCannotHold { .. } => {
                Some(Settle::MeasureSpring)
            }
            Self::MovesBadly => Some(Settle::MeasureFriction),
            Self::FrictionSwings {
                beyond_band,
                cleaned,
                ..
            } => (*beyond_band && !*cleaned).then_some(Settle::CleanAndMoveAgain),
            Self::SeenButTight => Some(Settle::MeasureDiameters),
            Self::SeenUntested { .. } => Some(Settle::TestOtherSeals),
            Self::OrificeOff { .. } => (!predicted).then_some(Settle::MeasureDiameters),
            Self::PlugInTheReading => Some(Settle::Repeat),
            Self::TapContradictsLeak { tap } => Some(if tap.spring_measured {
                Settle::FindOtherLeak
            } else {
                Settle::MeasureSpring
            }),
            Self::LeakFitsDiameters { .. }
            | Self::SpringHolds { .. }
            | Self::OrificeAsProfile
            | Self::TapFitsLeak { .. }
            | Self::TapTooClose { .. } => None,
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
    says.extend(evidence.tests.iter().find_map(|test| leak(test, measured)));
    if let Some(spring) = &measured.spring {
        says.extend(spring_says(evidence, spring));
    }
    says.extend(friction(evidence, latest, measured)?);
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
    says.extend(seen(evidence, latest, measured));
    let poor = evidence.tests.iter().any(verdicts(Verdict::OutsideLimit));
    if poor && latest.iter().any(plug_is_bad) {
        says.push(Accord::PlugInTheReading);
    }
    says.extend(at_tap::at_taps(evidence, measured)?);
    Ok(says)
}

/// What the spring holds, beside what is specified; nothing where that isn't entered.
fn spring_says(evidence: &BoreEvidence<'_>, spring: &MeasuredSpring) -> Option<Accord> {
    let holds_pa = spring.holds_pa;
    let circuit = &evidence.profile.circuit;
    let (low, high) = (*circuit.specified_low_pa?, *circuit.specified_high_pa?);
    // A tester that nobody knows may be a poor one: what it says must lie outside all the same.
    let doubt = if spring.tester_known {
        0.0
    } else {
        POOR_TESTER_ERROR * *holds_pa.likely
    };
    Some(
        if *holds_pa.high + doubt < low || *holds_pa.low - doubt > high {
            Accord::SpringCannotHold { holds_pa }
        } else if *holds_pa.low < low || *holds_pa.high > high {
            Accord::SpringMayNotHold { holds_pa }
        } else {
            Accord::SpringHolds { holds_pa }
        },
    )
}

/// Static friction F holds the spool between P - F/A and P + F/A: the pressure differs by 2 F / A
/// between line rising and line falling.
fn friction(
    evidence: &BoreEvidence<'_>,
    latest: &[Inspected<'_>],
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
        cleaned: latest
            .iter()
            .find(|check| matches!(check.found, Found::FreeMovement(_)))
            .is_some_and(|check| check.occasion >= Occasion::AfterCleaning),
    }))
}

/// The clearance by vacuum beside that by diameters, on the lands that the reading shows. Nothing
/// where one of these wasn't measured: the air may go past that one.
fn leak(test: &TestEvidence<'_>, measured: &MeasuredParts) -> Option<Accord> {
    let by_vacuum_m = clearance_by_vacuum(test.judgement)?;
    let mut by_diameters: Option<Span> = None;
    for name in test.isolates {
        let land = measured.lands.iter().find(|land| land.land == *name)?;
        let of = land.diametral_m;
        // The narrowest and widest readings bound it, too: a bore isn't round.
        let (low, high) = (lower(of.low, land.least_m), higher(of.high, land.most_m));
        by_diameters = Some(match by_diameters {
            None => Span { low, high, ..of },
            Some(known) => Span {
                low: lower(known.low, low),
                likely: higher(known.likely, of.likely),
                high: higher(known.high, high),
            },
        });
    }
    let by_diameters_m = by_diameters?;
    Some(if *by_vacuum_m[0] > *by_diameters_m.high {
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
    })
}

/// What the eye and the nail say beside the readings. A diameter answers either, so where it was
/// measured nothing is left open.
fn seen(
    evidence: &BoreEvidence<'_>,
    latest: &[Inspected<'_>],
    measured: &MeasuredParts,
) -> Vec<Accord> {
    let is_measured = |land: &str| measured.lands.iter().any(|known| known.land == land);
    let within = |test: &&TestEvidence<'_>| {
        let told = test.judgement.decision.as_ref();
        told.map(|told| told.verdict) == Some(Verdict::WithinLimit)
    };
    let read = |test: &&TestEvidence<'_>| test.judgement.readings.is_some();
    let reaches = |test: &TestEvidence<'_>, land: &str| {
        test.isolates.iter().any(|name| name.as_str() == land)
    };
    let (mut tight, mut untested) = (false, Vec::new());
    for check in latest {
        match check.found {
            Found::Light(light) => {
                for land in &light.lands {
                    if land.seen != LightSeen::Clear || is_measured(&land.land) {
                        continue;
                    }
                    let mut tests = evidence.tests.iter().filter(read).peekable();
                    if tests.peek().is_none() && measured.lands.is_empty() {
                        // Nothing was measured yet: the checks that are open say so.
                        continue;
                    }
                    let reaching: Vec<_> = tests.filter(|test| reaches(test, &land.land)).collect();
                    if reaching.is_empty() {
                        untested.push(land.land.clone());
                    }
                    tight |= reaching.iter().any(within);
                }
            }
            Found::WearMarks(wear) => {
                let caught = wear
                    .marks
                    .iter()
                    .any(|mark| mark.depth == MarkDepth::Caught);
                // A mark doesn't say on which land.
                tight |= caught
                    && measured.lands.is_empty()
                    && evidence.tests.iter().any(|test| within(&test));
            }
            _ => {}
        }
    }
    let mut says = Vec::new();
    if tight {
        says.push(Accord::SeenButTight);
    }
    if !untested.is_empty() {
        says.push(Accord::SeenUntested { lands: untested });
    }
    says
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
