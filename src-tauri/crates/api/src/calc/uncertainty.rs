//! Uncertainty: contributions, repeats, instruments, decisions and guard bands.

use metrology::calibration::{CalibrationHistory, Due};
use metrology::decide::{DEFAULT_CONFIDENCE, decide_with};
use metrology::distribution::coverage_factor;
use metrology::gauge_grade::AsmeGrade;
use metrology::guard_band::{self, Guard};
use metrology::instrument::{Certificate, MaxError};
use metrology::risk::Limits;
use metrology::{Component, InstrumentSpec, MetrologyError, Repeats, Side, Verdict};
use model::Finite;

use super::si::some_of;
use crate::App;
use crate::dto::{
    CalibrationStanding, CombineAnswer, CombineArgs, DecideAnswer, DecideArgs, DialGrade,
    GuardBandAnswer, GuardBandArgs, GuardWanted, InstrumentAnswer, InstrumentArgs, LimitSide,
    OpenBounds, PartShare, RepeatsAnswer, RepeatsArgs, StatedError, ThreeWay,
};
use crate::error::{ApiError, ErrorCode, finite};

impl From<MetrologyError> for ApiError {
    fn from(error: MetrologyError) -> Self {
        let detail = error.to_string();
        let outside = |field: &str| Self::new(ErrorCode::OutOfRange).at(field);
        match error {
            MetrologyError::OutOfRange {
                field, low, high, ..
            } => outside(field).with("low", low).with("high", high),
            // Most trials were refused: no one figure is at fault.
            MetrologyError::TooFew {
                field: "successful_trials",
                ..
            } => Self::new(ErrorCode::NoSolution),
            MetrologyError::NotFinite { field } | MetrologyError::TooFew { field, .. } => {
                outside(field)
            }
            MetrologyError::NothingStated => outside("max_error"),
            MetrologyError::ImpossibleCorrelations => outside("correlations"),
            _ => Self::new(ErrorCode::NoSolution),
        }
        .with("detail", detail)
    }
}

/// Places of the contributions, by which their shares are known again: the core names a
/// contribution by a fixed word, people by their own.
const PLACES: [&str; 32] = [
    "0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "15", "16",
    "17", "18", "19", "20", "21", "22", "23", "24", "25", "26", "27", "28", "29", "30", "31",
];

fn maybe(value: Option<Finite>) -> Option<f64> {
    value.map(Finite::get)
}

fn maybe_finite(value: Option<f64>) -> Result<Option<Finite>, ApiError> {
    value.map(finite).transpose()
}

/// Independent contributions in quadrature.
pub(crate) fn combine(_: &App, args: CombineArgs) -> Result<CombineAnswer, ApiError> {
    some_of("components", &args.components, PLACES.len())?;
    let parts: Vec<_> = args
        .components
        .iter()
        .zip(PLACES)
        .map(|(part, name)| Component {
            name,
            uncertainty: *part.standard_uncertainty,
            degrees_of_freedom: maybe(part.degrees_of_freedom),
        })
        .collect();
    let combined = metrology::combine(&parts)?;
    let mut shares = Vec::with_capacity(parts.len());
    for (place, share) in &combined.shares {
        let place = PLACES.iter().position(|known| known == place);
        let part = place.and_then(|place| args.components.get(place));
        shares.extend(part.map(|part| (part.name.clone(), *share)));
    }
    Ok(CombineAnswer {
        standard_uncertainty: finite(combined.uncertainty)?,
        degrees_of_freedom: maybe_finite(combined.degrees_of_freedom)?,
        expanded_uncertainty: finite(combined.expanded(*args.confidence_ratio)?)?,
        shares: shown(shares)?,
    })
}

fn shown(shares: Vec<(String, f64)>) -> Result<Vec<PartShare>, ApiError> {
    shares
        .into_iter()
        .map(|(name, share)| {
            Ok(PartShare {
                name,
                share_ratio: finite(share)?,
            })
        })
        .collect()
}

/// Mean and spread of repeated readings.
pub(crate) fn repeats(_: &App, args: RepeatsArgs) -> Result<RepeatsAnswer, ApiError> {
    some_of("readings", &args.readings, 1000)?;
    let readings: Vec<f64> = args.readings.iter().map(|reading| **reading).collect();
    let repeats = Repeats::of(&readings)?;
    let of_mean = match args.pooled {
        Some(pooled) => {
            Some(repeats.of_mean_pooled(*pooled.standard_deviation, *pooled.degrees_of_freedom)?)
        }
        None => repeats.of_mean(),
    };
    let factor =
        |part: &Component| coverage_factor(*args.confidence_ratio, part.degrees_of_freedom);
    let half_width = of_mean
        .as_ref()
        .map(|part| finite(factor(part)? * part.uncertainty))
        .transpose()?;
    Ok(RepeatsAnswer {
        count: u32::try_from(repeats.count).map_err(ApiError::internal)?,
        mean: finite(repeats.mean)?,
        range: finite(repeats.range)?,
        standard_deviation: maybe_finite(repeats.deviation)?,
        standard_uncertainty: maybe_finite(of_mean.as_ref().map(|part| part.uncertainty))?,
        degrees_of_freedom: maybe_finite(of_mean.and_then(|part| part.degrees_of_freedom))?,
        half_width,
    })
}

/// A measured value against a limit.
pub(crate) fn decide(_: &App, args: DecideArgs) -> Result<DecideAnswer, ApiError> {
    let decision = decide_with(
        *args.measured,
        *args.standard_uncertainty,
        maybe(args.degrees_of_freedom),
        *args.limit,
        match args.side {
            LimitSide::AtLeast => Side::AtLeast,
            LimitSide::AtMost => Side::AtMost,
        },
        maybe(args.confidence_ratio).unwrap_or(DEFAULT_CONFIDENCE),
    )?;
    Ok(DecideAnswer {
        verdict: match decision.verdict {
            Verdict::WithinLimit => ThreeWay::WithinLimit,
            Verdict::TooCloseToCall => ThreeWay::TooCloseToCall,
            Verdict::OutsideLimit => ThreeWay::OutsideLimit,
        },
        probability_ratio: finite(decision.probability_of_conformity)?,
        guard_band: finite(decision.guard_band)?,
        acceptance_limit: finite(decision.acceptance_limit)?,
        rejection_limit: finite(decision.rejection_limit)?,
        margin: finite(decision.margin)?,
    })
}

fn grade(grade: DialGrade) -> AsmeGrade {
    match grade {
        DialGrade::Grade4A => AsmeGrade::Grade4A,
        DialGrade::Grade3A => AsmeGrade::Grade3A,
        DialGrade::Grade2A => AsmeGrade::Grade2A,
        DialGrade::Grade1A => AsmeGrade::Grade1A,
        DialGrade::A => AsmeGrade::A,
        DialGrade::B => AsmeGrade::B,
        DialGrade::C => AsmeGrade::C,
        DialGrade::D => AsmeGrade::D,
    }
}

fn standing(due: Due) -> Result<CalibrationStanding, ApiError> {
    Ok(match due {
        Due::InTime { days_left } => CalibrationStanding::DaysLeft(finite(days_left)?),
        Due::Overdue { days } => CalibrationStanding::DaysOverdue(finite(days)?),
        Due::NoInterval => CalibrationStanding::NoInterval,
        Due::NeverCalibrated => CalibrationStanding::NeverCalibrated,
    })
}

/// An instrument's standard uncertainty at a reading, with drift since its calibration.
pub(crate) fn instrument(_: &App, args: InstrumentArgs) -> Result<InstrumentAnswer, ApiError> {
    let spec = InstrumentSpec {
        max_error: args.max_error.map(|stated| match stated {
            StatedError::PlusMinus(error) => MaxError::PlusMinus(*error),
            StatedError::ClassOfSpan {
                class_percent,
                span,
            } => MaxError::ClassOfSpan {
                percent: *class_percent,
                span: *span,
            },
            StatedError::Grade { grade: of, span } => MaxError::Grade {
                grade: grade(of),
                span: *span,
            },
        }),
        resolution: maybe(args.resolution),
        certificate: args.certificate.map(|stated| Certificate {
            expanded: *stated.expanded_uncertainty,
            coverage_factor: *stated.coverage_factor,
        }),
    };
    let (combined, when_calibrated, calibration, drift_included) = match args.history {
        Some(history) => {
            let history = CalibrationHistory {
                age_days: maybe(history.age_days),
                interval_days: maybe(history.interval_days),
                drift_per_year: maybe(history.drift_per_year),
            };
            let since = spec.since_calibration(*args.reading, &history)?;
            let calibration = standing(since.due)?;
            (
                since.combined,
                since.when_calibrated,
                Some(calibration),
                since.drift_included,
            )
        }
        None => {
            let combined = spec.standard_uncertainty(*args.reading)?;
            let alone = combined.uncertainty;
            (combined, alone, None, false)
        }
    };
    let shares = combined.shares.iter();
    Ok(InstrumentAnswer {
        standard_uncertainty: finite(combined.uncertainty)?,
        when_calibrated: finite(when_calibrated)?,
        shares: shown(shares.map(|(name, s)| ((*name).to_owned(), *s)).collect())?,
        calibration,
        drift_included,
    })
}

fn open(limits: Limits) -> Result<OpenBounds, ApiError> {
    Ok(OpenBounds {
        lower: maybe_finite(limits.lower)?,
        upper: maybe_finite(limits.upper)?,
    })
}

/// Limits of acceptance and rejection.
pub(crate) fn guard_band(_: &App, args: GuardBandArgs) -> Result<GuardBandAnswer, ApiError> {
    let tolerance = Limits {
        lower: maybe(args.lower),
        upper: maybe(args.upper),
    };
    let (u, nu) = (*args.standard_uncertainty, maybe(args.degrees_of_freedom));
    let guard = match args.guard {
        GuardWanted::None => Guard::None,
        GuardWanted::OfExpandedRatio(factor) => Guard::OfExpanded(*factor),
        GuardWanted::ProbabilityRatio(probability) => Guard::Probability(*probability),
    };
    let acceptance = guard_band::acceptance(tolerance, u, nu, guard)?;
    let capability = match (tolerance.lower, tolerance.upper) {
        (Some(lower), Some(upper)) if u > 0.0 => Some(guard_band::capability(lower, upper, u)?),
        _ => None,
    };
    let band = acceptance.guard_band;
    let risk = (u > 0.0).then(|| guard_band::largest_specific_risk(band, u, nu));
    Ok(GuardBandAnswer {
        accept: acceptance.accept.map(open).transpose()?,
        reject_beyond: open(acceptance.reject_beyond)?,
        guard_band: finite(band)?,
        capability_ratio: maybe_finite(capability)?,
        largest_risk_ratio: maybe_finite(risk.transpose()?)?,
    })
}
