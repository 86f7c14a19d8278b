//! A pressure read at a tap: against the window that the service information gives, and against
//! what the bore's leak predicts there.

use chrono::NaiveDate;
use model::Finite;
use model::bench::{Instrument, Verdict};
use model::finding::{Finding, FindingCode, Severity};
use model::limits::Check;
use model::tap_reading::TapFigures;
use model::unit::{BoreProfile, Tap};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::error::DiagnosisError;
use crate::judgement::Span;
use crate::pressure::{self, MeasuredBore, SealEvidence};
use crate::window::{PressureShare, Trust, combined, in_span, in_window};

/// A reading at a tap with its instruments.
#[derive(Debug, Clone, Copy)]
pub struct TapEvidence<'a> {
    /// The tap.
    pub tap: &'a Tap,
    /// What was read.
    pub figures: &'a TapFigures,
    /// The gauge at the tap; none: not entered.
    pub gauge: Option<&'a Instrument>,
    /// The gauge of the line pressure.
    pub line_gauge: Option<&'a Instrument>,
    /// The day, to tell overdue calibrations; none: not told.
    pub today: Option<NaiveDate>,
}

/// What a reading says of its tap's window.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TapAnswer {
    /// Inside its window, outside, or too close to call; none: the profile has no window there.
    pub verdict: Option<Verdict>,
    /// Probability that the true pressure lies inside.
    pub within_probability: Option<Finite>,
    /// Standard uncertainty of the reading, Pa.
    pub standard_uncertainty_pa: Finite,
    /// Expanded to 95 %, Pa.
    pub expanded_uncertainty_pa: Finite,
    /// Where it comes from, largest first.
    pub shares: Vec<PressureShare>,
    /// What is odd, at the fields of the reading.
    pub findings: Vec<Finding>,
}

/// Judges a reading against its tap's window.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program.
pub fn against_window(evidence: &TapEvidence<'_>) -> Result<TapAnswer, DiagnosisError> {
    let figures = evidence.figures;
    let mut findings = figures.findings();
    let wrong = findings.iter().any(|it| it.severity == Severity::Wrong);
    let trust = Trust::of_gauge(evidence.gauge, "gauge", evidence.today, &mut findings)?;
    let uncertainty = combined(&trust, None, None)?;
    if let Some(gauge) = evidence.gauge
        && gauge.is_beyond(*figures.pressure_pa)
    {
        let code = FindingCode::OutsideInstrument;
        findings.push(Finding::at(Severity::Doubt, code, "pressure_pa"));
    }
    if figures.line_pa.is_none() && model_knows(evidence.tap) {
        let code = FindingCode::LineNotNoted;
        findings.push(Finding::at(Severity::Note, code, "line_pa"));
    }
    if figures.oil_temperature_k.is_none() {
        let code = FindingCode::OilTemperatureNotNoted;
        findings.push(Finding::at(Severity::Doubt, code, "oil_temperature_k"));
    }
    let window = [evidence.tap.low_pa, evidence.tap.high_pa].map(|end| end.map(Finite::get));
    let told = if wrong {
        None
    } else {
        in_window(*figures.pressure_pa, uncertainty.standard(), window)?
    };
    Ok(TapAnswer {
        verdict: told.map(|told| told.verdict),
        within_probability: told
            .map(|told| Finite::try_from(told.probability))
            .transpose()?,
        standard_uncertainty_pa: Finite::try_from(uncertainty.standard())?,
        expanded_uncertainty_pa: Finite::try_from(uncertainty.expanded()?)?,
        shares: uncertainty.shares()?,
        findings,
    })
}

/// Whether the model of a bore says anything of a tap's place.
fn model_knows(tap: &Tap) -> bool {
    matches!(
        tap.node,
        model::unit::Node::Feed | model::unit::Node::Reaction
    )
}

/// A reading beside what the bore's leak predicts at that line pressure and oil temperature.
#[derive(Debug, Clone, PartialEq)]
pub struct AgainstLeak {
    /// Fits the predicted band, lies outside it, or neither can be said.
    pub verdict: Verdict,
    /// As predicted, whichever way line was going, Pa.
    pub predicted_pa: Span,
    /// Uncertainty of the reading and of the line pressure beside it, expanded to 95 %, Pa.
    pub expanded_uncertainty_pa: Finite,
}

/// Holds a reading against the bore's leak. None where the model can't say: a tap at a place that
/// isn't the valve's, no line pressure or oil temperature noted, a profile that lacks a part, or
/// no balance.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program.
pub fn against_leak(
    evidence: &TapEvidence<'_>,
    profile: &BoreProfile,
    measured: &MeasuredBore,
    seals: &SealEvidence,
) -> Result<Option<AgainstLeak>, DiagnosisError> {
    let figures = evidence.figures;
    let wrong = |it: &Finding| it.severity == Severity::Wrong;
    let (Some(line), Some(temperature)) = (figures.line_pa, figures.oil_temperature_k) else {
        return Ok(None);
    };
    if !model_knows(evidence.tap) || *line <= 0.0 || figures.findings().iter().any(wrong) {
        return Ok(None);
    }
    let place = evidence.tap.node;
    let predicted = match pressure::points(profile, measured, seals, place, *temperature, &[*line])
    {
        Ok(predicted) => predicted,
        Err(DiagnosisError::ProfileIncomplete { .. } | DiagnosisError::Physics(_)) => None,
        Err(other) => return Err(other),
    };
    let Some(at) = predicted.as_ref().and_then(|points| points.at.first()) else {
        return Ok(None);
    };
    let mut told_elsewhere = Vec::new();
    let gauge = Trust::of_gauge(evidence.gauge, "", None, &mut told_elsewhere)?;
    let line_gauge = Trust::of_gauge(evidence.line_gauge, "", None, &mut told_elsewhere)?;
    let thermometer = Trust::of_thermometer(None, "", None, &mut told_elsewhere)?;
    let uncertainty = combined(
        &gauge,
        Some((&line_gauge, at.per_line)),
        Some((&thermometer, at.per_kelvin)),
    )?;
    Ok(Some(AgainstLeak {
        verdict: in_span(*figures.pressure_pa, &uncertainty, &at.either)?,
        predicted_pa: at.either,
        expanded_uncertainty_pa: Finite::try_from(uncertainty.expanded()?)?,
    }))
}
