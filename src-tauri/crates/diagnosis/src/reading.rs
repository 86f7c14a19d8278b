//! Mean, spread and uncertainty of a test's readings, and the decision against the limit.

use metrology::decide::{DEFAULT_CONFIDENCE, decide_with};
use metrology::instrument::MaxError;
use metrology::{Component, InstrumentSpec, MetrologyError, Repeats, Side, combine};
use model::Finite;
use model::bench::{Instrument, Verdict};

use crate::error::DiagnosisError;
use crate::evidence::Evidence;
use crate::judgement::{Contribution, LimitDecision, ReadingSummary, UncertaintySource};

/// Limits of error and step of a gauge that nobody entered: wide for a bench gauge (trade figures
/// run to ±0.75 inHg with half-inch steps; general trade knowledge, no source).
const UNKNOWN_GAUGE_ERROR_PA: f64 = 0.75 * 3_386.39;
const UNKNOWN_GAUGE_STEP_PA: f64 = 0.5 * 3_386.39;

/// Confidence of an expanded uncertainty.
const CONFIDENCE: f64 = 0.95;

/// How far the gauge can be trusted, Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct GaugeTrust {
    /// ± limits of error.
    pub limits_of_error_pa: f64,
    /// Standard uncertainty from the step.
    pub resolution_uncertainty_pa: f64,
    spec: InstrumentSpec,
}

impl GaugeTrust {
    /// By its entry, or a wide guess for a gauge that nobody entered (a finding says so).
    pub(crate) fn of(gauge: Option<&Instrument>) -> Self {
        let error = gauge.map_or(UNKNOWN_GAUGE_ERROR_PA, |gauge| *gauge.limits_of_error_si);
        let step = gauge.map_or(UNKNOWN_GAUGE_STEP_PA, |gauge| *gauge.resolution_si);
        Self {
            limits_of_error_pa: error,
            resolution_uncertainty_pa: step / 12f64.sqrt(),
            spec: InstrumentSpec {
                max_error: Some(MaxError::PlusMinus(error)),
                resolution: Some(step),
                certificate: None,
            },
        }
    }

    /// How far two readings of one pressure may lie apart: a step either way.
    pub(crate) fn scatter_pa(&self) -> f64 {
        2.0 * self.resolution_uncertainty_pa * 12f64.sqrt()
    }

    /// Its parts as contributions to a reading.
    fn components(&self, reading_pa: f64) -> Result<Vec<Component>, MetrologyError> {
        let whole = self.spec.standard_uncertainty(reading_pa)?;
        let part = |&(name, share): &(&'static str, f64)| Component {
            name,
            uncertainty: whole.uncertainty * share.sqrt(),
            degrees_of_freedom: None,
        };
        Ok(whole.shares.iter().map(part).collect())
    }
}

/// The readings summed up, and how well their uncertainty itself is known.
pub(crate) struct Summary {
    pub told: ReadingSummary,
    degrees_of_freedom: Option<f64>,
}

/// Sums the readings up; none without any. Only readings that count as repeats enter the mean.
pub(crate) fn summarise(
    evidence: &Evidence<'_>,
    trust: &GaugeTrust,
) -> Result<Option<Summary>, DiagnosisError> {
    let values: Vec<f64> = evidence
        .independent()
        .iter()
        .map(|reading| *reading.vacuum_pa)
        .collect();
    if values.is_empty() {
        return Ok(None);
    }
    let repeats = Repeats::of(&values)?;
    let mut components = trust.components(repeats.mean)?;
    // One reading says nothing of its own scatter, so it adds no component; the finding
    // `single_reading` says that the uncertainty is then the gauge's alone.
    if let Some(component) = repeats.of_mean() {
        components.push(component);
    }
    let combined = combine(&components)?;
    let contributions = combined
        .shares
        .iter()
        .map(|&(name, share)| {
            Ok(Contribution {
                source: source(name),
                share: Finite::try_from(share)?,
            })
        })
        .collect::<Result<_, DiagnosisError>>()?;
    let told = ReadingSummary {
        count: count(evidence.readings.len()),
        independent_count: count(values.len()),
        mean_vacuum_pa: Finite::try_from(repeats.mean)?,
        spread_pa: Finite::try_from(repeats.range)?,
        standard_uncertainty_pa: Finite::try_from(combined.uncertainty)?,
        expanded_uncertainty_pa: Finite::try_from(combined.expanded(CONFIDENCE)?)?,
        contributions,
    };
    Ok(Some(Summary {
        told,
        degrees_of_freedom: combined.degrees_of_freedom,
    }))
}

fn source(name: &str) -> UncertaintySource {
    match name {
        "repeats" => UncertaintySource::Repeats,
        "resolution" => UncertaintySource::GaugeResolution,
        _ => UncertaintySource::GaugeError,
    }
}

/// Decides a mean reading against the least vacuum that is accepted on the day, whose own
/// uncertainty comes from the barometer.
pub(crate) fn decide(
    summary: &Summary,
    limit_pa: f64,
    barometer_share_pa: f64,
) -> Result<LimitDecision, DiagnosisError> {
    let part = |name, uncertainty, degrees_of_freedom| Component {
        name,
        uncertainty,
        degrees_of_freedom,
    };
    let reading = *summary.told.standard_uncertainty_pa;
    let combined = combine(&[
        part("reading", reading, summary.degrees_of_freedom),
        part("barometer", barometer_share_pa, None),
    ])?;
    let decision = decide_with(
        *summary.told.mean_vacuum_pa,
        combined.uncertainty,
        combined.degrees_of_freedom,
        limit_pa,
        Side::AtLeast,
        DEFAULT_CONFIDENCE,
    )?;
    Ok(LimitDecision {
        verdict: match decision.verdict {
            metrology::Verdict::WithinLimit => Verdict::WithinLimit,
            metrology::Verdict::TooCloseToCall => Verdict::TooCloseToCall,
            metrology::Verdict::OutsideLimit => Verdict::OutsideLimit,
        },
        conformity_probability: Finite::try_from(decision.probability_of_conformity)?,
        standard_uncertainty_pa: Finite::try_from(combined.uncertainty)?,
    })
}

fn count(length: usize) -> u32 {
    u32::try_from(length).unwrap_or(u32::MAX)
}
