//! The card of a bore: what all its checks say together, what that does to the pressure, where
//! they agree or contradict each other, what would settle it, and what to do next.
//!
//! No bore is passed on a vacuum reading alone: it must also move freely, its spring must hold the
//! pressure, and its orifice must be known, or somebody must have left that check out on purpose
//! (and then the card says so).

mod accord;

use std::collections::BTreeMap;

use chrono::NaiveDate;
use model::bench::{Instrument, Verdict};
use model::finding::{Finding, FindingCode, Severity};
use model::inspection::{CheckName, Movement, Outcome};
use model::unit::BoreProfile;
use model::{Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use accord::Accord;

use crate::assumed::Assumed;
use crate::error::DiagnosisError;
use crate::inspected::{self, Inspected, MeasuredParts};
use crate::judgement::{
    BandSource, Consequence, ConsequenceAnswer, ConsequenceRefusal, Judgement, LeakAnswer,
    RegulationState, SpecificationAnswer, UncertaintySource,
};
use crate::pressure::{self, SealEvidence};

/// Everything known of a bore in one job.
#[derive(Debug, Clone, Copy)]
pub struct BoreEvidence<'a> {
    /// The bore, as the last repair left it.
    pub profile: &'a BoreProfile,
    /// All its checks, oldest first.
    pub checks: &'a [Inspected<'a>],
    /// Instruments by their subject.
    pub instruments: &'a BTreeMap<Id, Instrument>,
    /// The last vacuum test of each test point, judged, with what it says of the seals.
    pub tests: &'a [TestEvidence<'a>],
    /// Checks that somebody left out on purpose.
    pub left_out: &'a [CheckName],
    /// The day, to tell overdue calibrations; none: not told.
    pub today: Option<NaiveDate>,
}

/// A vacuum test judged.
#[derive(Debug, Clone, Copy)]
pub struct TestEvidence<'a> {
    /// What it said.
    pub judgement: &'a Judgement,
    /// What it says of the seals.
    pub seals: Option<&'a SealEvidence>,
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
    let mut case = Case {
        evidence,
        latest: &latest,
        measured: &measured,
        findings,
        assumptions: Vec::new(),
    };
    let (consequence, clearance_from) = case.consequence()?;
    let accord = accord::accord(evidence, &latest, &measured)?;
    let checks = case.lines();
    let computed = match &consequence {
        Some(ConsequenceAnswer::Computed(computed)) => Some(computed.as_ref()),
        _ => None,
    };
    let conclusion = case.conclusion(&checks, computed, &accord);
    let settle = if conclusion == Conclusion::Unsettled {
        case.settle(computed, &accord)
    } else {
        Vec::new()
    };
    let next = next(conclusion, &checks, &settle);
    let Case {
        findings,
        mut assumptions,
        ..
    } = case;
    assumptions.sort_unstable();
    assumptions.dedup();
    Ok(BoreCard {
        conclusion,
        checks,
        consequence,
        clearance_from,
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
    findings: Vec<Finding>,
    assumptions: Vec<Assumed>,
}

impl Case<'_> {
    /// What the bore does with its parts as they were measured.
    fn consequence(
        &mut self,
    ) -> Result<(Option<ConsequenceAnswer>, Option<GapSource>), DiagnosisError> {
        let profile = inspected::as_measured(self.evidence.profile, self.measured);
        let by_vacuum = self.evidence.tests.iter().find_map(|test| test.seals);
        let by_diameters = self.measured.clearance.as_ref().map(|clearance| {
            let span = clearance.diametral_m;
            // A gap can't be less than nothing, whatever the instruments allow.
            let ends = [span.low, span.likely, span.high].map(|end| end.max(1e-6));
            SealEvidence::measured(&profile, ends)
        });
        let (seals, from) = match (by_vacuum, &by_diameters) {
            (Some(seals), _) => (seals, GapSource::Vacuum),
            (None, Some(seals)) => (seals, GapSource::Diameters),
            (None, None) => return Ok((None, None)),
        };
        let temperature = *profile.unit.hot_oil_temperature_k;
        let answer = match pressure::consequence(&profile, seals, temperature) {
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
                ConsequenceAnswer::Computed(Box::new(computed))
            }
            Err(DiagnosisError::ProfileIncomplete { part }) => {
                let code = FindingCode::ProfileIncomplete;
                self.findings.push(Finding::at(Severity::Doubt, code, part));
                ConsequenceAnswer::Withheld {
                    reason: ConsequenceRefusal::ProfileIncomplete,
                }
            }
            Err(DiagnosisError::Physics(_)) => ConsequenceAnswer::Withheld {
                reason: ConsequenceRefusal::NoBalance,
            },
            Err(other) => return Err(other),
        };
        Ok((Some(answer), Some(from)))
    }

    fn lines(&self) -> Vec<CheckLine> {
        let line = |check: CheckName| {
            let outcome = match check {
                CheckName::Vacuum => self.vacuum(),
                _ => self
                    .latest
                    .iter()
                    .find(|done| done.found.name() == check)
                    .map(|done| done.found.outcome()),
            };
            let state = match outcome {
                Some(_) => CheckState::Done,
                None if self.evidence.left_out.contains(&check) => CheckState::LeftOut,
                None => CheckState::Open,
            };
            CheckLine {
                check,
                state,
                outcome,
                decides: self.decides(check),
            }
        };
        CheckName::OF_A_BORE.into_iter().map(line).collect()
    }

    /// Without these a bore isn't passed.
    fn decides(&self, check: CheckName) -> bool {
        match check {
            CheckName::Vacuum | CheckName::FreeMovement | CheckName::Spring => true,
            // The shift goes with the fourth power of its bore.
            CheckName::OrificeBore => self.evidence.profile.balance_orifice.is_some(),
            _ => false,
        }
    }

    /// The worst that the vacuum tests say; none without a reading.
    fn vacuum(&self) -> Option<Outcome> {
        let of = |judgement: &Judgement| {
            judgement.readings.as_ref()?;
            Some(match judgement.decision.as_ref().map(|told| told.verdict) {
                Some(Verdict::WithinLimit) => Outcome::Good,
                Some(Verdict::TooCloseToCall) => Outcome::Doubtful,
                Some(Verdict::OutsideLimit) => Outcome::Bad,
                None => Outcome::Measured,
            })
        };
        self.evidence
            .tests
            .iter()
            .filter_map(|test| of(test.judgement))
            .max()
    }

    fn conclusion(
        &self,
        checks: &[CheckLine],
        computed: Option<&Consequence>,
        accord: &[Accord],
    ) -> Conclusion {
        let broken = checks
            .iter()
            .any(|line| line.check != CheckName::Vacuum && line.outcome == Some(Outcome::Bad))
            || accord.iter().any(Accord::condemns);
        let pressure = computed.map(worst_of);
        if broken || pressure == Some(Pressure::Lost) {
            return Conclusion::Faulty;
        }
        if accord.iter().any(Accord::contradicts) {
            return Conclusion::Unsettled;
        }
        let vacuum = self.vacuum();
        match (vacuum, pressure) {
            // A poor reading in a circuit where it does no harm is no fault of the bore; where
            // nothing says what it does, the limit stands.
            (Some(Outcome::Bad), Some(Pressure::Open)) => return Conclusion::Unsettled,
            (Some(Outcome::Bad), None) => return Conclusion::Faulty,
            (Some(Outcome::Doubtful), None | Some(Pressure::Open)) | (_, Some(Pressure::Open)) => {
                return Conclusion::Unsettled;
            }
            _ => {}
        }
        let open = |line: &CheckLine| line.decides && line.state == CheckState::Open;
        if checks.iter().any(open) || pressure.is_none() && vacuum != Some(Outcome::Good) {
            return Conclusion::Unfinished;
        }
        Conclusion::Sound
    }

    fn settle(&self, computed: Option<&Consequence>, accord: &[Accord]) -> Vec<Settle> {
        let mut ways: Vec<Settle> = accord.iter().filter_map(Accord::settled_by).collect();
        for test in self.evidence.tests {
            if let Some(Verdict::TooCloseToCall) =
                test.judgement.decision.as_ref().map(|told| told.verdict)
            {
                ways.extend(settles_the_reading(test.judgement));
            }
        }
        if let Some(computed) = computed
            && worst_of(computed) == Pressure::Open
        {
            for source in &computed.band_from {
                match source {
                    // How far off-centre the valve lay drops out when the gap itself is measured.
                    BandSource::Eccentricity if self.measured.clearance.is_none() => {
                        ways.push(Settle::MeasureDiameters);
                    }
                    BandSource::UntestedSeals => ways.push(Settle::TestOtherSeals),
                    BandSource::Reading => ways.push(Settle::Repeat),
                    BandSource::Friction if self.measured.friction_n.is_none() => {
                        ways.push(Settle::MeasureFriction);
                    }
                    _ => {}
                }
            }
        }
        let mut seen = Vec::new();
        ways.retain(|way| {
            let new = !seen.contains(way);
            seen.push(*way);
            new
        });
        ways
    }
}

/// What would do most to settle a reading that is too close to call: the largest source of its
/// uncertainty.
pub(crate) fn settles_the_reading(judgement: &Judgement) -> Option<Settle> {
    let (readings, decision) = (judgement.readings.as_ref()?, judgement.decision.as_ref()?);
    let own = (*readings.standard_uncertainty_pa).powi(2);
    if (*decision.standard_uncertainty_pa).powi(2) > 2.0 * own {
        return Some(Settle::ReadBarometer);
    }
    Some(match readings.contributions.first()?.source {
        UncertaintySource::GaugeError => Settle::BetterGauge,
        UncertaintySource::GaugeResolution => Settle::FinerScale,
        UncertaintySource::Repeats => Settle::Repeat,
        UncertaintySource::Barometer => Settle::ReadBarometer,
    })
}

/// What the prediction says of the pressure at hot idle and at the highest line, the worse of both.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Pressure {
    /// Inside what is specified, whatever the unknowns.
    Held,
    /// Part of the span lies outside.
    Open,
    /// Outside, or control is lost.
    Lost,
}

fn worst_of(computed: &Consequence) -> Pressure {
    let at = |point: &crate::judgement::OperatingPoint| {
        // Line too low to regulate is the engine's doing, not the bore's.
        if point.new_state == RegulationState::FollowsLine {
            return Pressure::Held;
        }
        if point.measured_state == RegulationState::LostControl {
            return Pressure::Lost;
        }
        if point.worst_state == RegulationState::LostControl {
            return Pressure::Open;
        }
        match point.against_specification {
            Some(SpecificationAnswer::Inside) | None => Pressure::Held,
            Some(SpecificationAnswer::LikelyInside | SpecificationAnswer::LikelyOutside) => {
                Pressure::Open
            }
            Some(SpecificationAnswer::Outside) => Pressure::Lost,
        }
    };
    at(&computed.idle).max(at(&computed.highest_line))
}

fn next(conclusion: Conclusion, checks: &[CheckLine], settle: &[Settle]) -> Vec<NextStep> {
    let open = |deciding: bool| {
        checks
            .iter()
            .filter(move |line| line.state == CheckState::Open && line.decides == deciding)
            .map(|line| NextStep::Check { check: line.check })
    };
    match conclusion {
        Conclusion::Unfinished => open(true).chain(open(false)).collect(),
        Conclusion::Unsettled => settle
            .iter()
            .map(|by| NextStep::Settle { by: *by })
            .chain(open(true))
            .collect(),
        Conclusion::Faulty => std::iter::once(NextStep::Repair)
            .chain(open(true))
            .collect(),
        Conclusion::Sound => std::iter::once(NextStep::Decide)
            .chain(open(false))
            .collect(),
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
