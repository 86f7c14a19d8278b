//! One vacuum test judged: reading, limit, decision, leak, consequence.

use model::Finite;
use model::finding::{Finding, FindingCode, Severity};
use model::limits::DIAMETRAL_CLEARANCE_M;
use model::unit::LeakLaw;
use physics::Assumption;
use physics::atmosphere::sea_level_pressure;
use physics::vacuum_stand::{Calibration, LeakLaw as CarryLaw};

use crate::assumed::Assumed;
use crate::error::DiagnosisError;
use crate::evidence::Evidence;
use crate::judgement::{
    ConsequenceAnswer, ConsequenceRefusal, Judgement, LeakAnswer, LeakRefusal, LimitDecision,
    LimitOfTheDay, ReadingSummary,
};
use crate::leak::{self, FittedStand, FoundLeak, LEAST_ORIFICES, pa};
use crate::pressure::{self, SealEvidence};
use crate::reading::{self, GaugeTrust, Summary};

/// Version of the physics and of how it is put together; rises whenever a number may change.
pub const PHYSICS_VERSION: &str = "1";

/// Standard uncertainty of a barometer read at the bench, Pa (a phone's or an aneroid's; from
/// memory).
const BAROMETER_UNCERTAINTY_PA: f64 = 100.0;
/// Standard uncertainty of a barometer taken from the altitude: weather (from memory, the spread
/// of sea-level pressure in middle latitudes).
const WEATHER_UNCERTAINTY_PA: f64 = 1_000.0;

/// Judges a test as far as its evidence carries. What can't be told is withheld with its reason;
/// what is odd is a finding.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program: every shortcoming of the evidence is part of
/// the answer.
pub fn judge(evidence: &Evidence<'_>) -> Result<Judgement, DiagnosisError> {
    judge_with_seals(evidence).map(|(judgement, _)| judgement)
}

/// What a reading says against its limit, and nothing of what follows from it.
#[derive(Debug, Clone, PartialEq)]
pub struct AgainstLimit {
    /// The air of the day, Pa.
    pub barometer_pa: Option<Finite>,
    /// The readings summed up.
    pub readings: Option<ReadingSummary>,
    /// The limit of the day.
    pub limit: Option<LimitOfTheDay>,
    /// The decision, where the limit applies.
    pub decision: Option<LimitDecision>,
}

/// As far as [`judge`] goes without the leak: for lists of many tests.
///
/// # Errors
/// As [`judge`].
pub fn against_limit(evidence: &Evidence<'_>) -> Result<AgainstLimit, DiagnosisError> {
    let (_, barometer, readings, limit, decision) = Case::begin(evidence)?;
    Ok(AgainstLimit {
        barometer_pa: barometer.map(Finite::try_from).transpose()?,
        readings: readings.map(|summary| summary.told),
        limit: limit.map(|limit| limit.told),
        decision,
    })
}

/// As [`judge`], with what the test says of the seals at 20 °C; none while the leak isn't known.
///
/// # Errors
/// As [`judge`].
pub fn judge_with_seals(
    evidence: &Evidence<'_>,
) -> Result<(Judgement, Option<SealEvidence>), DiagnosisError> {
    let (mut case, barometer, readings, limit, decision) = Case::begin(evidence)?;
    let calibration = match barometer {
        Some(pa) if !case.contradicts() => case.calibrate(pa)?,
        _ => None,
    };
    let (leak, found) = match &readings {
        Some(summary) => case.leak(
            &summary.told,
            barometer,
            calibration.as_ref().map(|fit| &fit.calibration),
        )?,
        None => (None, None),
    };
    let consequence = match (&readings, &found) {
        (None, _) => None,
        (Some(_), None) => Some(withheld(ConsequenceRefusal::NoLeak)),
        (Some(_), Some(found)) => Some(case.consequence(found)?),
    };
    case.assumptions.sort_unstable();
    case.assumptions.dedup();
    case.findings.dedup();
    let judgement = Judgement {
        barometer_pa: barometer.map(Finite::try_from).transpose()?,
        readings: readings.map(|summary| summary.told),
        limit: limit.map(|limit| limit.told),
        decision,
        stand: calibration.map(|fit| fit.told),
        leak,
        consequence,
        findings: case.findings,
        assumptions: case.assumptions,
        profile_digest: evidence.profile.digest(),
        physics_version: PHYSICS_VERSION.to_owned(),
    };
    Ok((judgement, found.map(|found| found.seals)))
}

fn withheld(reason: ConsequenceRefusal) -> ConsequenceAnswer {
    ConsequenceAnswer::Withheld { reason }
}

/// The limit of the day, and how it moves with the barometer.
struct Limit {
    told: LimitOfTheDay,
    /// Standard uncertainty from the barometer, Pa.
    barometer_share_pa: f64,
}

struct Case<'a> {
    evidence: &'a Evidence<'a>,
    findings: Vec<Finding>,
    assumptions: Vec<Assumed>,
    trust: GaugeTrust,
}

type Begun<'a> = (
    Case<'a>,
    Option<f64>,
    Option<Summary>,
    Option<Limit>,
    Option<LimitDecision>,
);

impl<'a> Case<'a> {
    /// The case, the barometer, the readings, the limit, and the decision against it.
    fn begin(evidence: &'a Evidence<'a>) -> Result<Begun<'a>, DiagnosisError> {
        let mut case = Case {
            evidence,
            findings: evidence.findings(),
            assumptions: Vec::new(),
            trust: GaugeTrust::of(evidence.usable_gauge()),
        };
        let barometer = evidence.barometer_pa();
        let readings = case.summary()?;
        let limit = match barometer.map(|pa| case.limit(pa)).transpose() {
            // A figure that no law takes has its own finding; nothing can be carried with it.
            Err(DiagnosisError::Physics(_)) => None,
            limit => limit?.flatten(),
        };
        let decision = match (&readings, &limit) {
            (Some(summary), Some(limit)) if case.limit_applies() => {
                let today = *limit.told.today_vacuum_pa;
                let decision = reading::decide(summary, today, limit.barometer_share_pa)?;
                case.unless_oil_hides_it(decision)
            }
            _ => None,
        };
        Ok((case, barometer, readings, limit, decision))
    }
}

impl Case<'_> {
    fn contradicts(&self) -> bool {
        self.findings
            .iter()
            .any(|finding| finding.severity == Severity::Wrong)
    }

    fn found(&mut self, severity: Severity, code: FindingCode, field: &str) {
        self.findings.push(Finding::at(severity, code, field));
    }

    fn assume(&mut self, assumptions: &[Assumption]) {
        self.assumptions.extend(
            assumptions
                .iter()
                .map(|&assumption| Assumed::from(assumption)),
        );
    }

    fn summary(&mut self) -> Result<Option<Summary>, DiagnosisError> {
        // A reading that can't be true has no mean worth showing.
        let wrong = |finding: &Finding| {
            finding.severity == Severity::Wrong && finding.field.starts_with("readings[")
        };
        if self.findings.iter().any(wrong) {
            return Ok(None);
        }
        let summary = reading::summarise(self.evidence, &self.trust)?;
        if let Some(summary) = &summary
            && *summary.told.spread_pa > 2.0 * self.trust.limits_of_error_pa
        {
            self.found(Severity::Doubt, FindingCode::ReadingsScatter, "readings");
        }
        Ok(summary)
    }

    /// Oil seals, so an oiled bore reads deeper than its gap: outside the limit it is so all the
    /// more, but within it nothing is proved.
    fn unless_oil_hides_it(&mut self, decision: LimitDecision) -> Option<LimitDecision> {
        use model::bench::{Surface, Verdict};
        let oiled = self
            .evidence
            .setup
            .is_some_and(|setup| setup.surface == Surface::Oiled);
        if !oiled {
            return Some(decision);
        }
        self.found(
            Severity::Doubt,
            FindingCode::OiledReadsDeeper,
            "setup.surface",
        );
        (decision.verdict == Verdict::OutsideLimit).then_some(decision)
    }

    /// The limit holds with the valve in the bore and set up as the limit asks: through an orifice
    /// any bore reads deep.
    fn limit_applies(&self) -> bool {
        use model::unit::ValvePosition::ValveAbsent;
        self.evidence
            .setup
            .is_some_and(|setup| setup.valve_position != ValveAbsent)
            && !self.evidence.setup_differs()
    }

    fn limit(&mut self, barometer_pa: f64) -> Result<Option<Limit>, DiagnosisError> {
        let Some(limit) = &self.evidence.test_point.limit else {
            return Ok(None);
        };
        let Some(setup) = self.evidence.setup else {
            return Ok(None);
        };
        // Without a stand check the dead head isn't known, and nothing can be carried.
        let Ok(Some(dead_head)) = leak::dead_head(self.evidence, barometer_pa) else {
            return Ok(None);
        };
        let air = leak::air(*setup.air_temperature_k)?;
        let law = match limit.law {
            LeakLaw::Gap => CarryLaw::Gap,
            LeakLaw::Hole => CarryLaw::Hole,
        };
        let sea_level = sea_level_pressure();
        let carry = |to_pa: f64| {
            dead_head.carry_limit(pa(*limit.vacuum_pa), sea_level, pa(to_pa), law, &air)
        };
        let Ok(carried) = carry(barometer_pa) else {
            // The limit is deeper than this stand can pull at sea level: it can't be met here.
            self.found(
                Severity::Doubt,
                FindingCode::DimensionsContradict,
                "test_point.limit",
            );
            return Ok(None);
        };
        self.assume(&carried.assumptions);
        self.assumptions.push(Assumed::LimitForThisStand);
        let u = match setup.ambient {
            model::bench::Ambient::Barometer { .. } => BAROMETER_UNCERTAINTY_PA,
            model::bench::Ambient::Altitude { .. } => {
                self.assumptions.push(Assumed::BarometerFromAltitude);
                WEATHER_UNCERTAINTY_PA
            }
        };
        let at =
            |to_pa: f64| carry(to_pa).map_or(carried.reading.value, |limit| limit.reading.value);
        let barometer_share_pa = (at(barometer_pa + u) - at(barometer_pa - u)).abs() / 2.0;
        Ok(Some(Limit {
            told: LimitOfTheDay {
                sea_level_vacuum_pa: limit.vacuum_pa,
                today_vacuum_pa: Finite::try_from(carried.reading.value)?,
                law: limit.law,
                source: limit.source.clone(),
            },
            barometer_share_pa,
        }))
    }

    fn calibrate(&mut self, barometer_pa: f64) -> Result<Option<FittedStand>, DiagnosisError> {
        // A calibration takes the chance part of a reading only; the gauge's own error is common
        // to all its readings.
        let chance = self.trust.resolution_uncertainty_pa.max(1.0);
        let Ok(fit) = leak::fit_stand(self.evidence, barometer_pa, chance) else {
            self.found(
                Severity::Doubt,
                FindingCode::StandFitPoor,
                "stand_check.orifices",
            );
            return Ok(None);
        };
        let Some(fit) = fit else {
            return Ok(None);
        };
        if fit.orifices < LEAST_ORIFICES {
            self.found(
                Severity::Doubt,
                FindingCode::OneOrificeOnly,
                "stand_check.orifices",
            );
            return Ok(None);
        }
        let bad = |residual: &crate::judgement::StandResidual| {
            residual.residual_pa.abs() > self.trust.limits_of_error_pa
        };
        if fit.told.residuals.iter().any(bad) {
            self.found(
                Severity::Doubt,
                FindingCode::StandFitPoor,
                "stand_check.orifices",
            );
        }
        self.assume(&fit.calibration.assumptions);
        Ok(Some(fit))
    }

    fn leak(
        &mut self,
        summary: &ReadingSummary,
        barometer_pa: Option<f64>,
        calibration: Option<&Calibration>,
    ) -> Result<(Option<LeakAnswer>, Option<FoundLeak>), DiagnosisError> {
        let refused = |reason| (Some(LeakAnswer::Refused { reason }), None);
        let Some(barometer_pa) = barometer_pa else {
            let reason = match self.evidence.setup {
                None => LeakRefusal::NoSetup,
                Some(_) => LeakRefusal::NoBarometer,
            };
            return Ok(refused(reason));
        };
        if self.contradicts() {
            return Ok(refused(LeakRefusal::ReadingContradicts));
        }
        let (mean, expanded) = (*summary.mean_vacuum_pa, *summary.expanded_uncertainty_pa);
        let found = match leak::find(self.evidence, barometer_pa, mean, expanded, calibration) {
            Ok(Ok(found)) => found,
            Ok(Err(reason)) => return Ok(refused(reason)),
            Err(DiagnosisError::Physics(_)) => return Ok(refused(LeakRefusal::OutsideModel)),
            Err(other) => return Err(other),
        };
        self.assumptions
            .extend([Assumed::GaugeErrorOnReadingAlone, Assumed::FarSideOpen]);
        if *found.leak.orifice_drop_share > 0.5 {
            self.found(
                Severity::Doubt,
                FindingCode::OrificeShareLarge,
                "setup.orifice",
            );
        }
        if *found.leak.clearance_centred_m.likely > DIAMETRAL_CLEARANCE_M.high
            || found
                .assumptions
                .contains(&Assumption::PossiblyTurbulentFilm)
        {
            self.found(
                Severity::Doubt,
                FindingCode::ClearanceOutsideModel,
                "readings",
            );
        }
        let assumptions = found.assumptions.clone();
        self.assume(&assumptions);
        Ok((Some(LeakAnswer::Known(found.leak.clone())), Some(found)))
    }

    fn consequence(&mut self, found: &FoundLeak) -> Result<ConsequenceAnswer, DiagnosisError> {
        let profile = self.evidence.profile;
        let temperature = self
            .evidence
            .oil_temperature_k
            .unwrap_or(*profile.unit.hot_oil_temperature_k);
        match pressure::consequence(profile, &found.seals, temperature) {
            Ok((consequence, assumptions)) => {
                self.assume(&assumptions);
                self.assumptions.extend([
                    Assumed::EngagedAtRegulating,
                    Assumed::ThermalExpansion,
                    Assumed::AreasAsNew,
                ]);
                if consequence
                    .band_from
                    .contains(&crate::judgement::BandSource::UntestedSeals)
                {
                    self.assumptions.push(Assumed::UntestedSealsBand);
                    self.found(
                        Severity::Note,
                        FindingCode::UntestedSeal,
                        "test_point.isolates",
                    );
                }
                if self.assumptions.contains(&Assumed::ViscosityExtrapolated) {
                    let field = "oil_temperature_k";
                    self.found(Severity::Note, FindingCode::ViscosityExtrapolated, field);
                }
                Ok(ConsequenceAnswer::Computed(Box::new(consequence)))
            }
            Err(DiagnosisError::ProfileIncomplete { part }) => {
                self.found(Severity::Doubt, FindingCode::ProfileIncomplete, part);
                Ok(withheld(ConsequenceRefusal::ProfileIncomplete))
            }
            Err(DiagnosisError::Physics(_)) => Ok(withheld(ConsequenceRefusal::NoBalance)),
            Err(other) => Err(other),
        }
    }
}
