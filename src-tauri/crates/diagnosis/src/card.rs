//! The card of a bore: what all its checks say together, what that does to the pressure, where
//! they agree or contradict each other, what would settle it, and what to do next.
//!
//! No bore is passed on a vacuum reading alone: it must also move freely, its spring must hold the
//! pressure, and its orifice must be known, or somebody must have left that check out on purpose
//! (and then the card says so).

mod accord;
mod at_tap;
mod clutch;
mod settle;
mod verdict;

pub(crate) use settle::settles_the_reading;

use std::collections::BTreeMap;

use chrono::NaiveDate;
use model::bench::Instrument;
use model::finding::{Finding, FindingCode, Severity};
use model::inspection::{CheckName, Movement, Outcome};
use model::unit::{BoreProfile, Clutch};
use model::{Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use accord::{Accord, TapBeside};
pub use clutch::{ClutchAt, ClutchEffect, ClutchTorque};

use crate::assumed::Assumed;
use crate::error::DiagnosisError;
use crate::inspected::{self, Inspected, MeasuredClearance, MeasuredParts};
use crate::judgement::{
    BandSource, Consequence, ConsequenceAnswer, ConsequenceRefusal, Judgement, LeakAnswer,
};
use crate::pressure::{self, SealEvidence};
use crate::tap::TapEvidence;

/// Everything known of a bore in one job.
#[derive(Debug, Clone, Copy)]
pub struct BoreEvidence<'a> {
    /// The bore, as the last repair left it.
    pub profile: &'a BoreProfile,
    /// All its checks, oldest first.
    pub checks: &'a [Inspected<'a>],
    /// Instruments by their subject.
    pub instruments: &'a BTreeMap<Id, Instrument>,
    /// The clutches and brakes of its circuit.
    pub clutches: &'a [Clutch],
    /// The last vacuum test of each test point, judged, with what it says of the seals.
    pub tests: &'a [TestEvidence<'a>],
    /// Checks that somebody left out on purpose.
    pub left_out: &'a [CheckName],
    /// The day, to tell overdue calibrations; none: not told.
    pub today: Option<NaiveDate>,
    /// The last reading at each tap of its circuit since the last repair.
    pub taps: &'a [TapEvidence<'a>],
}

/// A vacuum test judged.
#[derive(Debug, Clone, Copy)]
pub struct TestEvidence<'a> {
    /// What it said.
    pub judgement: &'a Judgement,
    /// What it says of the seals.
    pub seals: Option<&'a SealEvidence>,
    /// Names of the lands whose leak its reading shows.
    pub isolates: &'a [String],
}

/// What all checks of a bore say together.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoreCard {
    /// In one word.
    pub conclusion: Conclusion,
    /// Every check of a bore: done, left out, or open.
    pub checks: Vec<CheckLine>,
    /// What was measured.
    pub measured: MeasuredParts,
    /// What the bore does as it was measured; none while no clearance is known.
    pub consequence: Option<ConsequenceAnswer>,
    /// From what its clearance was taken.
    pub clearance_from: Option<GapSource>,
    /// What that does to each clutch of the circuit; empty while no pressure is known.
    pub clutches: Vec<ClutchEffect>,
    /// Where the checks agree, and where they don't.
    pub accord: Vec<Accord>,
    /// What would settle it, the best first; empty when nothing is unsettled.
    pub settle: Vec<Settle>,
    /// What to do next, first one first.
    pub next: Vec<NextStep>,
    /// What is odd about the checks, at `check.field`.
    pub findings: Vec<Finding>,
    /// What was assumed.
    pub assumptions: Vec<Assumed>,
}

/// A bore in one word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Conclusion {
    /// Checks that decide are still open.
    Unfinished,
    /// Everything that decides is done, and it holds the pressure.
    Sound,
    /// The checks contradict each other, or something is too close to call.
    Unsettled,
    /// It doesn't hold the pressure, or a part is broken.
    Faulty,
}

/// One check of the bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CheckLine {
    /// Which.
    pub check: CheckName,
    /// How it stands.
    pub state: CheckState,
    /// What it says by itself; none while open.
    pub outcome: Option<Outcome>,
    /// True when the bore can't be passed without it.
    pub decides: bool,
}

/// How a check stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum CheckState {
    /// Not done.
    Open,
    /// Done.
    Done,
    /// Left out on purpose.
    LeftOut,
}

/// From what the clearance of a card was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum GapSource {
    /// The vacuum test's leak.
    Vacuum,
    /// The diameters.
    Diameters,
}

/// What would settle an unsettled bore.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Settle {
    /// Read again, valve turned and plug seated anew.
    Repeat,
    /// A gauge with smaller limits of error.
    BetterGauge,
    /// A gauge with smaller steps.
    FinerScale,
    /// The barometer at the bench.
    ReadBarometer,
    /// Measure the diameters.
    MeasureDiameters,
    /// Measure the force that moves the valve.
    MeasureFriction,
    /// Clean, dry, and test again.
    CleanAndTestAgain,
    /// Test the passages and the plug: air goes another way.
    FindOtherLeak,
    /// Reach the seals that no test reached yet.
    TestOtherSeals,
    /// Clean the valve and its bore, and measure the force that moves it again.
    CleanAndMoveAgain,
    /// Measure the spring's load where it regulates, with a tester whose error is known.
    MeasureSpring,
    /// Measure the orifice with pins that lie closer together.
    MeasureOrifice,
    /// Measure the pressure itself, hot: nothing on the bench narrows it further.
    MeasurePressure,
}

/// What to do next.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "step", rename_all = "snake_case")]
pub enum NextStep {
    /// Do a check.
    Check {
        /// Which.
        check: CheckName,
    },
    /// Settle what is unsettled.
    Settle {
        /// How.
        by: Settle,
    },
    /// Choose a repair.
    Repair,
    /// Put the decision on record.
    Decide,
}

/// Everything that the checks of a bore say together.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program; what is missing or odd is part of the answer.
pub fn card(evidence: &BoreEvidence<'_>) -> Result<BoreCard, DiagnosisError> {
    let latest = inspected::latest(evidence.checks);
    let (measured, findings) = inspected::measured(
        evidence.profile,
        &latest,
        evidence.instruments,
        evidence.today,
    )?;
    let accord = accord::accord(evidence, &latest, &measured)?;
    let mut case = Case {
        evidence,
        latest: &latest,
        measured: &measured,
        accord: &accord,
        findings,
        assumptions: Vec::new(),
    };
    let pressures = case.pressures()?;
    let checks = case.lines();
    let conclusion = case.conclusion(&checks, &pressures);
    let settle = if conclusion == Conclusion::Unsettled {
        case.settle(&pressures)
    } else {
        Vec::new()
    };
    let next = settle::next(conclusion, &checks, &settle);
    let clutches = case.clutches(pressures.computed())?;
    let Case {
        findings,
        mut assumptions,
        ..
    } = case;
    assumptions.sort_unstable();
    assumptions.dedup();
    let (consequence, clearance_from) = pressures.told.unzip();
    Ok(BoreCard {
        conclusion,
        checks,
        consequence,
        clearance_from,
        clutches,
        accord,
        settle,
        next,
        findings,
        assumptions,
        measured,
    })
}

struct Case<'a> {
    evidence: &'a BoreEvidence<'a>,
    latest: &'a [Inspected<'a>],
    measured: &'a MeasuredParts,
    accord: &'a [Accord],
    findings: Vec<Finding>,
    assumptions: Vec<Assumed>,
}

/// What the bore does to the pressure.
struct Pressures {
    /// As it is told, with that from which the clearance was taken.
    told: Option<(ConsequenceAnswer, GapSource)>,
    /// By the other way of knowing the clearance, where there are two.
    otherwise: Option<Consequence>,
}

impl Pressures {
    fn computed(&self) -> Option<&Consequence> {
        match &self.told {
            Some((ConsequenceAnswer::Computed(computed), _)) => Some(computed.as_ref()),
            _ => None,
        }
    }
}

impl Case<'_> {
    /// What the bore does with its parts as they were measured.
    fn pressures(&mut self) -> Result<Pressures, DiagnosisError> {
        let by_vacuum = self.evidence.tests.iter().find_map(|test| test.seals);
        let by_diameters = self.by_diameters();
        let vacuum = by_vacuum
            .map(|seals| self.consequence(seals))
            .transpose()?
            .map(|answer| (answer, GapSource::Vacuum));
        let diameters = by_diameters
            .map(|seals| self.consequence(&seals))
            .transpose()?
            .map(|answer| (answer, GapSource::Diameters));
        let (told, other) = match (vacuum, diameters) {
            // Both say the same gap: the narrower prediction tells more.
            (Some(vacuum), Some(diameters))
                if self.gap_is_agreed() && band(&diameters.0) < band(&vacuum.0) =>
            {
                (Some(diameters), Some(vacuum))
            }
            (Some(vacuum), diameters) => (Some(vacuum), diameters),
            (None, diameters) => (diameters, None),
        };
        let otherwise = match other {
            Some((ConsequenceAnswer::Computed(computed), _)) => Some(*computed),
            _ => None,
        };
        Ok(Pressures { told, otherwise })
    }

    /// The lands that were measured with one clearance that holds for all of them; of the others
    /// nothing is known.
    fn by_diameters(&self) -> Option<SealEvidence> {
        let widest = self.measured.clearance.as_ref()?;
        let lands = &self.measured.lands;
        let ends = |pick: fn(&MeasuredClearance) -> f64| lands.iter().map(pick);
        let low = ends(|land| *land.diametral_m.low).fold(f64::INFINITY, f64::min);
        let high = ends(|land| *land.diametral_m.high).fold(0.0, f64::max);
        // A gap can't be less than nothing, whatever the instruments allow.
        let span = [low, *widest.diametral_m.likely, high].map(|end| end.max(1e-6));
        let names = lands.iter().map(|land| land.land.clone()).collect();
        Some(SealEvidence::of_lands(names, span))
    }

    fn gap_is_agreed(&self) -> bool {
        let agrees = |says: &Accord| matches!(says, Accord::LeakFitsDiameters { .. });
        self.accord.iter().any(agrees)
    }

    fn consequence(&mut self, seals: &SealEvidence) -> Result<ConsequenceAnswer, DiagnosisError> {
        let profile = self.evidence.profile;
        let measured = inspected::as_measured(profile, self.measured);
        let temperature = *profile.unit.hot_oil_temperature_k;
        match pressure::consequence_of_parts(profile, &measured, seals, temperature) {
            Ok((computed, assumed)) => {
                self.assumptions
                    .extend(assumed.into_iter().map(Assumed::from));
                self.assumptions.extend([
                    Assumed::EngagedAtRegulating,
                    Assumed::ThermalExpansion,
                    Assumed::AreasAsNew,
                ]);
                if computed.band_from.contains(&BandSource::UntestedSeals) {
                    self.assumptions.push(Assumed::UntestedSealsBand);
                }
                Ok(ConsequenceAnswer::Computed(Box::new(computed)))
            }
            Err(DiagnosisError::ProfileIncomplete { part }) => {
                let code = FindingCode::ProfileIncomplete;
                let lacks = Finding::at(Severity::Doubt, code, part);
                if !self.findings.contains(&lacks) {
                    self.findings.push(lacks);
                }
                Ok(ConsequenceAnswer::Withheld {
                    reason: ConsequenceRefusal::ProfileIncomplete,
                })
            }
            Err(DiagnosisError::Physics(_)) => Ok(ConsequenceAnswer::Withheld {
                reason: ConsequenceRefusal::NoBalance,
            }),
            Err(other) => Err(other),
        }
    }
}

/// How wide a prediction is at the highest line pressure, Pa.
fn band(answer: &ConsequenceAnswer) -> f64 {
    match answer {
        ConsequenceAnswer::Computed(computed) => {
            let feed = &computed.highest_line.measured_feed_pa;
            *feed.high - *feed.low
        }
        ConsequenceAnswer::Withheld { .. } => f64::INFINITY,
    }
}

/// The leak of a judgement as clearances on the diameter, narrowest to widest, m.
fn clearance_by_vacuum(judgement: &Judgement) -> Option<[Finite; 2]> {
    match &judgement.leak {
        Some(LeakAnswer::Known(leak)) => Some([
            leak.clearance_off_centre_m.low,
            leak.clearance_centred_m.high,
        ]),
        _ => None,
    }
}

/// How a valve moves, as far as it was tried.
fn moves_badly(measured: &MeasuredParts) -> bool {
    measured
        .movement
        .is_some_and(|movement| movement != Movement::Free)
}
