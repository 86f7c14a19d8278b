//! A pressure that was read, with the uncertainty of its gauges, against a window: three answers.

use chrono::NaiveDate;
use metrology::decide::{DEFAULT_CONFIDENCE, conformity_between, decide_with};
use metrology::instrument::MaxError;
use metrology::{Combined, Component, InstrumentSpec, Side, combine};
use model::Finite;
use model::bench::{Instrument, InstrumentKind, Verdict};
use model::finding::{Finding, FindingCode, Severity};
use model::limits::Check;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::error::DiagnosisError;
use crate::judgement::Span;

/// Limits of error and step of a pressure gauge that nobody entered: a workshop gauge to 300 psi of
/// 3 % at the ends of its scale, in steps of 5 psi (ASME B40.100 grade B; from memory).
const UNKNOWN_ERROR_PA: f64 = 9.0 * 6_894.757;
const UNKNOWN_STEP_PA: f64 = 5.0 * 6_894.757;
/// Limits of error of a thermometer that nobody entered, K (from memory).
const UNKNOWN_TEMPERATURE_ERROR_K: f64 = 3.0;

/// Where the uncertainty of a pressure that was read comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PressureSource {
    /// Limits of error of the gauge.
    GaugeError,
    /// The smallest step that it shows.
    GaugeStep,
    /// The gauge of line, by as much as the pressure goes with line.
    LineGauge,
    /// The thermometer, by as much as the pressure goes with the oil's temperature.
    Temperature,
}

/// A share of an uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PressureShare {
    /// From what.
    pub source: PressureSource,
    /// Its share of the variance, 0 to 1.
    pub share: Finite,
}

/// What is known of the instruments of a reading, Pa and K; standard uncertainties.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Trust {
    error: f64,
    step: f64,
}

impl Trust {
    /// Of a pressure gauge by its entry, or a wide guess. Says at `field` what is odd.
    pub fn of_gauge(
        gauge: Option<&Instrument>,
        field: &str,
        today: Option<NaiveDate>,
        findings: &mut Vec<Finding>,
    ) -> Result<Self, DiagnosisError> {
        let usual = (UNKNOWN_ERROR_PA, UNKNOWN_STEP_PA);
        let kind = InstrumentKind::PressureGauge;
        Self::of(gauge, kind, usual, field, today, findings)
    }

    /// Of a thermometer, likewise.
    pub fn of_thermometer(
        thermometer: Option<&Instrument>,
        field: &str,
        today: Option<NaiveDate>,
        findings: &mut Vec<Finding>,
    ) -> Result<Self, DiagnosisError> {
        let usual = (UNKNOWN_TEMPERATURE_ERROR_K, 1.0);
        let kind = InstrumentKind::Thermometer;
        Self::of(thermometer, kind, usual, field, today, findings)
    }

    fn of(
        instrument: Option<&Instrument>,
        kind: InstrumentKind,
        (error, step): (f64, f64),
        field: &str,
        today: Option<NaiveDate>,
        findings: &mut Vec<Finding>,
    ) -> Result<Self, DiagnosisError> {
        let sound = |it: &&Instrument| it.kind == kind && it.findings().is_empty();
        let mut odd = |code| findings.push(Finding::at(Severity::Doubt, code, field));
        let (error, step) = match instrument.filter(sound) {
            Some(it) => {
                let overdue = |due: NaiveDate| today.is_some_and(|today| due < today);
                if it.calibration_due.is_some_and(overdue) {
                    odd(FindingCode::CalibrationOverdue);
                }
                (*it.limits_of_error_si, *it.resolution_si)
            }
            None => {
                odd(FindingCode::InstrumentUnknown);
                (error, step)
            }
        };
        let alone = |spec: InstrumentSpec| Ok::<_, DiagnosisError>(spec.standard_uncertainty(0.0)?);
        let limits = InstrumentSpec {
            max_error: Some(MaxError::PlusMinus(error)),
            ..InstrumentSpec::default()
        };
        let smallest = InstrumentSpec {
            resolution: Some(step),
            ..InstrumentSpec::default()
        };
        Ok(Self {
            error: alone(limits)?.uncertainty,
            step: alone(smallest)?.uncertainty,
        })
    }

    /// Standard uncertainty of one reading.
    pub fn whole(&self) -> f64 {
        self.error.hypot(self.step)
    }

    /// That of the difference of two readings, where the gauge's own error falls out.
    pub fn of_difference(&self) -> f64 {
        std::f64::consts::SQRT_2 * self.step
    }

    /// That of the difference between a reading while the pressure rises and one while it falls: a
    /// gauge lags by itself, by up to its largest error (EN 837-1, hysteresis, `from memory`), which
    /// doesn't fall out.
    pub fn of_directions(&self) -> f64 {
        self.of_difference().hypot(self.error)
    }
}

/// The uncertainty of a pressure that is held against what the model says at a line pressure and a
/// temperature that were themselves read. JCGM 100:2008, eq. 10: the pressure gauge counts once,
/// line's by the slope of the pressure against line, the thermometer by that against temperature.
pub(crate) fn combined(
    gauge: &Trust,
    line: Option<(&Trust, f64)>,
    temperature: Option<(&Trust, f64)>,
) -> Result<Uncertainty, DiagnosisError> {
    let part = |name, uncertainty| Component {
        name,
        uncertainty,
        degrees_of_freedom: None,
    };
    let mut parts = vec![part("gauge", gauge.error), part("step", gauge.step)];
    if let Some((trust, per_line)) = line {
        parts.push(part("line", per_line.abs() * trust.whole()));
    }
    if let Some((trust, per_kelvin)) = temperature {
        parts.push(part("temperature", per_kelvin.abs() * trust.whole()));
    }
    Ok(Uncertainty(combine(&parts)?))
}

/// A combined standard uncertainty.
pub(crate) struct Uncertainty(Combined);

impl Uncertainty {
    pub fn standard(&self) -> f64 {
        self.0.uncertainty
    }

    pub fn expanded(&self) -> Result<f64, DiagnosisError> {
        Ok(self.0.expanded(DEFAULT_CONFIDENCE)?)
    }

    pub fn shares(&self) -> Result<Vec<PressureShare>, DiagnosisError> {
        let shares = self.0.shares.iter();
        shares
            .map(|&(name, share)| {
                Ok(PressureShare {
                    source: match name {
                        "step" => PressureSource::GaugeStep,
                        "line" => PressureSource::LineGauge,
                        "temperature" => PressureSource::Temperature,
                        _ => PressureSource::GaugeError,
                    },
                    share: Finite::try_from(share)?,
                })
            })
            .collect()
    }
}

/// A reading against a window that may be open at one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct InWindow {
    pub verdict: Verdict,
    /// Probability that the true value lies inside (JCGM 106:2012, eq. 7).
    pub probability: f64,
}

/// Three answers (ISO 14253-1): inside with enough probability, outside one end with enough
/// probability, or neither. None for a window without ends.
pub(crate) fn in_window(
    measured: f64,
    standard_uncertainty: f64,
    [low, high]: [Option<f64>; 2],
) -> Result<Option<InWindow>, DiagnosisError> {
    let against = |limit: f64, side| {
        let confidence = DEFAULT_CONFIDENCE;
        decide_with(
            measured,
            standard_uncertainty,
            None,
            limit,
            side,
            confidence,
        )
    };
    let lower = low.map(|limit| against(limit, Side::AtLeast)).transpose()?;
    let upper = high.map(|limit| against(limit, Side::AtMost)).transpose()?;
    let probability = match (low, high, &lower, &upper) {
        (Some(low), Some(high), ..) if low <= high => {
            conformity_between(measured, standard_uncertainty, None, low, high)?
        }
        (_, _, Some(one), None) | (_, _, None, Some(one)) => one.probability_of_conformity,
        // Its ends are the wrong way round, so nothing lies inside; the profile says so.
        (_, _, Some(_), Some(_)) => 0.0,
        (_, _, None, None) => return Ok(None),
    };
    let beyond = [&lower, &upper]
        .into_iter()
        .flatten()
        .any(|it| it.verdict == metrology::Verdict::OutsideLimit);
    Ok(Some(InWindow {
        verdict: if beyond {
            Verdict::OutsideLimit
        } else if probability >= DEFAULT_CONFIDENCE {
            Verdict::WithinLimit
        } else {
            Verdict::TooCloseToCall
        },
        probability,
    }))
}

/// How far a reading may be off (95 %), as a part of what is predicted, for its agreement to say
/// anything (our choice: a twentieth).
const OF_USE: f64 = 0.05;

/// A reading beside a predicted span, which holds 95 %. It fits when the two differ by no more than
/// their expanded uncertainties together, E_n = |x - X| / sqrt(U_x² + U_X²) <= 1 (ISO/IEC 17043, ISO
/// 13528; from memory), U_X being the span's on that side. It lies outside when the true pressure is
/// beyond the span's end with enough probability (ISO 14253-1). Between the two, or where the reading
/// may be off by so much that agreeing says nothing, nothing can be said.
pub(crate) fn in_span(
    measured: f64,
    uncertainty: &Uncertainty,
    span: &Span,
) -> Result<Verdict, DiagnosisError> {
    let ends = [Some(*span.low), Some(*span.high)];
    let beyond = in_window(measured, uncertainty.standard(), ends)?;
    let expanded = uncertainty.expanded()?;
    let difference = measured - *span.likely;
    let side = if difference < 0.0 {
        *span.likely - *span.low
    } else {
        *span.high - *span.likely
    };
    let fits = difference.abs() <= expanded.hypot(side);
    let outside = beyond.is_some_and(|told| told.verdict == Verdict::OutsideLimit);
    Ok(if fits && expanded <= OF_USE * *span.likely {
        Verdict::WithinLimit
    } else if outside && !fits {
        Verdict::OutsideLimit
    } else {
        Verdict::TooCloseToCall
    })
}

/// The worst of several verdicts; none of none.
pub(crate) fn worst(verdicts: impl IntoIterator<Item = Verdict>) -> Option<Verdict> {
    verdicts.into_iter().max_by_key(|verdict| match verdict {
        Verdict::WithinLimit => 0,
        Verdict::TooCloseToCall => 1,
        Verdict::OutsideLimit => 2,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const PSI: f64 = 6_894.757_293_168_361;

    fn gauge(error_psi: f64, step_psi: f64) -> Trust {
        // JCGM 100:2008, 4.3.7 and F.2.2.1: a rectangle of half-width a has a/sqrt(3), a step is a
        // rectangle of half a step either way.
        Trust {
            error: error_psi * PSI / 3f64.sqrt(),
            step: step_psi * PSI / 12f64.sqrt(),
        }
    }

    /// By hand, after JCGM 100:2008, 4.3.7, F.2.2.1 and eq. 10: a gauge of ±2 psi read to 1 psi, a
    /// line gauge of ±3 psi read to 2 psi where feed rises by 0.05 psi a psi, a thermometer of ±3 K
    /// read to 1 K where feed falls by 0.02 psi a kelvin:
    ///
    /// u² = 2²/3 + 1²/12 + 0.05² (3²/3 + 2²/12) + 0.02² (3²/3 + 1²/12)
    ///    = 1.333333 + 0.083333 + 0.008333 + 0.001233 = 1.426233 psi², u = 1.194250 psi.
    #[test]
    fn gauges_and_thermometer_combine_as_the_guide_says() {
        let thermometer = Trust {
            error: 3.0 / 3f64.sqrt(),
            step: 1.0 / 12f64.sqrt(),
        };
        let u = combined(
            &gauge(2.0, 1.0),
            Some((&gauge(3.0, 2.0), 0.05)),
            Some((&thermometer, -0.02 * PSI)),
        )
        .unwrap();
        assert!((u.standard() / PSI - 1.194_250).abs() < 1e-6);
        let shares = u.shares().unwrap();
        assert_eq!(shares[0].source, PressureSource::GaugeError);
        assert!((*shares[0].share - 1.333_333 / 1.426_233).abs() < 1e-6);
        // Normal, two-sided 95 %: 1.959964.
        assert!((u.expanded().unwrap() / PSI - 1.959_964 * 1.194_250).abs() < 1e-5);
    }

    /// By hand: U = 1.96 psi and a span of 1.5 psi either way make sqrt(1.96² + 1.5²) = 2.47 psi; the
    /// span's end and the guard band of 1.645 psi together 3.145 psi.
    #[test]
    fn a_reading_fits_a_span_by_both_uncertainties_together() {
        let whole = Trust {
            error: PSI,
            step: 0.0,
        };
        let end = |psi: f64| Finite::new(psi * PSI).unwrap();
        let span = Span {
            low: end(63.5),
            likely: end(65.0),
            high: end(66.5),
        };
        let verdict = |u: &Trust, psi: f64| {
            in_span(psi * PSI, &combined(u, None, None).unwrap(), &span).unwrap()
        };
        assert_eq!(verdict(&whole, 67.4), Verdict::WithinLimit);
        assert_eq!(verdict(&whole, 67.6), Verdict::TooCloseToCall);
        assert_eq!(verdict(&whole, 68.2), Verdict::OutsideLimit);
        assert_eq!(verdict(&whole, 61.8), Verdict::OutsideLimit);
        // A gauge good to ±4 psi agrees with anything, so it says nothing.
        let poor = Trust {
            error: 2.0 * PSI,
            step: 0.0,
        };
        assert_eq!(verdict(&poor, 65.0), Verdict::TooCloseToCall);
    }

    #[test]
    fn a_window_has_two_ends_and_a_reading_three_answers() {
        let verdict =
            |measured: f64, ends| in_window(measured, 1.0, ends).unwrap().unwrap().verdict;
        let both = [Some(50.0), Some(60.0)];
        assert_eq!(verdict(55.0, both), Verdict::WithinLimit);
        assert_eq!(verdict(51.0, both), Verdict::TooCloseToCall);
        assert_eq!(verdict(49.0, both), Verdict::TooCloseToCall);
        assert_eq!(verdict(48.3, both), Verdict::OutsideLimit);
        assert_eq!(verdict(61.7, both), Verdict::OutsideLimit);
        // Between two limits that lie two guard bands apart each end alone is met to 95 %, both
        // together are not.
        let narrow = [Some(55.0 - 1.645), Some(55.0 + 1.645)];
        assert_eq!(verdict(55.0, narrow), Verdict::TooCloseToCall);
        assert_eq!(verdict(48.3, [Some(50.0), None]), Verdict::OutsideLimit);
        assert_eq!(verdict(48.3, [None, Some(60.0)]), Verdict::WithinLimit);
        assert_eq!(in_window(48.3, 1.0, [None, None]).unwrap(), None);
    }
}
