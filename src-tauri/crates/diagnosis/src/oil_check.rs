//! A circuit fed with hot oil on the bench, point by point, beside what the static model says at
//! that temperature: inside the predicted band, outside, or too close to call; what friction makes
//! between line rising and falling; and in three ways whether the circuit holds. It is never said to
//! hold while a point is missing where it matters.

mod hysteresis;

use chrono::NaiveDate;
use model::bench::{Instrument, Verdict};
use model::finding::{Finding, FindingCode, Severity};
use model::limits::{Check, PRESSURE_PA};
use model::oil_check::{LineDirection, OilCheckFigures};
use model::unit::{BoreProfile, Node};
use model::{Finite, limits};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use hysteresis::Hysteresis;

use crate::assumed::Assumed;
use crate::error::DiagnosisError;
use crate::judgement::{BandSource, ConsequenceRefusal, RegulationState, Span};
use crate::pressure::{self, MeasuredBore, PredictedAt, PredictedPoints, SealEvidence};
use crate::window::{PressureShare, Trust, Uncertainty, combined, in_span, in_window, worst};

/// How near to the highest line pressure a point must lie to stand for it, as a part of it (our
/// choice: about what a bench gauge is good for).
const AT_HIGHEST: f64 = 0.03;
/// How far above hot idle the lowest point may lie, as a part of it (our choice).
const AT_IDLE: f64 = 0.1;
/// How much colder than the unit runs hot the oil may be, K (our choice: some 30 % in viscosity).
const COLDER_K: f64 = 15.0;
/// How many line pressures the predicted curve has.
const CURVE_POINTS: u32 = 25;

/// Everything that a hot-oil check is judged by.
#[derive(Debug, Clone, Copy)]
pub struct OilEvidence<'a> {
    /// What was read.
    pub figures: &'a OilCheckFigures,
    /// The bore as it is now, with its specification.
    pub profile: &'a BoreProfile,
    /// Its parts as measured.
    pub measured: &'a MeasuredBore,
    /// Its seals, and from what they are known; none: not known, so nothing is predicted.
    pub seals: Option<(&'a SealEvidence, OilBasis)>,
    /// The gauge of the regulated pressure.
    pub feed_gauge: Option<&'a Instrument>,
    /// The gauge of line.
    pub line_gauge: Option<&'a Instrument>,
    /// The thermometer.
    pub thermometer: Option<&'a Instrument>,
    /// The day, to tell overdue calibrations; none: not told.
    pub today: Option<NaiveDate>,
}

/// From what the prediction was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OilBasis {
    /// The repair's forecast.
    Repair,
    /// What was measured of the bore: its leak, its diameters.
    Measured,
    /// The profile as new: nothing was measured.
    AsNew,
}

/// What a hot-oil check says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilCheckAnswer {
    /// Whether the circuit holds: as predicted and as specified, with nothing missing that decides.
    pub verdict: Verdict,
    /// The points against what the model predicts; none: no prediction.
    pub against_prediction: Option<Verdict>,
    /// The points where the valve regulates against what is specified; none: not entered, or no
    /// such point.
    pub against_specification: Option<Verdict>,
    /// What would settle it, the first first; empty when nothing is open.
    pub settle: Vec<OilSettle>,
    /// Each point, in the order in which they were read.
    pub points: Vec<OilPointAnswer>,
    /// Between line rising and falling; none without a point that has its counterpart.
    pub hysteresis: Option<Hysteresis>,
    /// From what the prediction was made; none: there is none.
    pub basis: Option<OilBasis>,
    /// Why nothing is predicted.
    pub withheld: Option<ConsequenceRefusal>,
    /// The predicted curve at this temperature; empty without a prediction.
    pub curve: Vec<OilCurvePoint>,
    /// What makes its band wide at the highest line, widest first.
    pub band_from: Vec<BandSource>,
    /// What is odd, at the fields of the check.
    pub findings: Vec<Finding>,
    /// What was assumed.
    pub assumptions: Vec<Assumed>,
}

/// What a point says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilPointAnswer {
    /// As predicted with line going that way, Pa; none: no prediction.
    pub predicted_pa: Option<Span>,
    /// Fits that band, lies outside, or neither can be said.
    pub against_prediction: Option<Verdict>,
    /// Against what is specified; none where the valve doesn't regulate yet.
    pub against_specification: Option<Verdict>,
    /// Standard uncertainty, gauges and thermometer together, Pa.
    pub standard_uncertainty_pa: Finite,
    /// Expanded to 95 %, Pa.
    pub expanded_uncertainty_pa: Finite,
    /// Where it comes from, largest first.
    pub shares: Vec<PressureShare>,
}

/// One line pressure of the predicted curve.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilCurvePoint {
    /// Line pressure, Pa.
    pub line_pa: Finite,
    /// Line rising, Pa.
    pub rising_pa: Span,
    /// Line falling, Pa.
    pub falling_pa: Span,
    /// What the valve does there.
    pub state: RegulationState,
}

/// What would settle a hot-oil check.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum OilSettle {
    /// Read at the highest line pressure of the service information.
    MeasureHighestLine,
    /// Read at the line pressure of hot idle.
    MeasureIdleLine,
    /// Read with line rising.
    MeasureRising,
    /// Read with line falling.
    MeasureFalling,
    /// Heat the oil to what the unit runs at.
    HeatOil,
    /// Use the unit's own oil.
    UseUnitOil,
    /// Test the bore, or enter the lacking dimensions: nothing could be predicted.
    EnterDimensions,
    /// Enter what the service information allows.
    EnterSpecification,
    /// Use a gauge with smaller limits of error, or enter what it has.
    BetterGauge,
    /// Free the valve: it drags more than was measured.
    FreeValve,
    /// Look again at what the repair left, and test the bore again.
    TestAgain,
}

/// Judges a hot-oil check.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program; what is missing or odd is part of the answer.
pub fn judge(evidence: &OilEvidence<'_>) -> Result<OilCheckAnswer, DiagnosisError> {
    let mut case = Case::of(evidence)?;
    let predicted = case.predicted()?;
    let points = case.points(predicted.as_ref())?;
    let at = |i: usize| predicted.as_ref().and_then(|all| all.at.get(i));
    let gauges = (&case.feed, &case.line);
    let hysteresis = hysteresis::between(&evidence.figures.points, at, gauges)?;
    let told = |pick: fn(&OilPointAnswer) -> Option<Verdict>| worst(points.iter().filter_map(pick));
    let against_prediction = worst(
        told(|point| point.against_prediction)
            .into_iter()
            .chain(hysteresis.as_ref().and_then(|it| it.verdict)),
    )
    .filter(|_| predicted.is_some());
    let against_specification = told(|point| point.against_specification);
    case.gaps(predicted.is_some(), against_specification.is_some());
    if hysteresis.as_ref().is_some_and(|it| it.looks_swapped) {
        let code = FindingCode::DirectionsLookSwapped;
        case.doubt(code, "points");
        case.settle
            .extend([OilSettle::MeasureRising, OilSettle::MeasureFalling]);
    }
    if case.feed_above_line {
        case.settle.push(OilSettle::BetterGauge);
    }
    let both = [against_prediction, against_specification];
    let worst_of_both = worst(both.into_iter().flatten());
    let drags = hysteresis.as_ref().and_then(|it| it.verdict) == Some(Verdict::OutsideLimit);
    match worst_of_both {
        Some(Verdict::OutsideLimit) => case.settle.push(if drags {
            OilSettle::FreeValve
        } else {
            OilSettle::TestAgain
        }),
        Some(Verdict::TooCloseToCall) => case.settle.push(OilSettle::BetterGauge),
        Some(Verdict::WithinLimit) | None => {}
    }
    case.settle.sort_unstable();
    case.settle.dedup();
    let verdict = match worst_of_both {
        Some(Verdict::WithinLimit) if !case.settle.is_empty() => Verdict::TooCloseToCall,
        Some(verdict) => verdict,
        None => Verdict::TooCloseToCall,
    };
    let curve = predicted
        .as_ref()
        .map_or(&[][..], |all| all.at.get(points.len()..).unwrap_or(&[]));
    Ok(OilCheckAnswer {
        verdict,
        against_prediction,
        against_specification,
        curve: curve.iter().map(curve_point).collect::<Result<_, _>>()?,
        hysteresis,
        points,
        basis: evidence
            .seals
            .map(|(_, basis)| basis)
            .filter(|_| predicted.is_some()),
        withheld: case.withheld,
        band_from: predicted.map_or(Vec::new(), |all| all.band_from),
        settle: case.settle,
        findings: case.findings,
        assumptions: case.assumptions,
    })
}

fn curve_point(at: &PredictedAt) -> Result<OilCurvePoint, DiagnosisError> {
    Ok(OilCurvePoint {
        line_pa: Finite::try_from(at.line_pa)?,
        rising_pa: at.rising,
        falling_pa: at.falling,
        state: at.state,
    })
}

struct Case<'a> {
    evidence: &'a OilEvidence<'a>,
    feed: Trust,
    line: Trust,
    temperature: Trust,
    /// Its figures can be used at all.
    usable: bool,
    feed_above_line: bool,
    withheld: Option<ConsequenceRefusal>,
    settle: Vec<OilSettle>,
    findings: Vec<Finding>,
    assumptions: Vec<Assumed>,
}

impl<'a> Case<'a> {
    fn of(evidence: &'a OilEvidence<'a>) -> Result<Self, DiagnosisError> {
        let mut findings = evidence.figures.findings();
        // Without a point yet the prediction can be told all the same.
        let unread = |it: &Finding| it.code == FindingCode::Missing && it.field == "points";
        let usable = findings
            .iter()
            .all(|it| it.severity != Severity::Wrong || unread(it));
        let today = evidence.today;
        let feed = Trust::of_gauge(evidence.feed_gauge, "feed_gauge", today, &mut findings)?;
        let line = Trust::of_gauge(evidence.line_gauge, "line_gauge", today, &mut findings)?;
        let thermometer = evidence.thermometer;
        let temperature = Trust::of_thermometer(thermometer, "thermometer", today, &mut findings)?;
        Ok(Self {
            evidence,
            feed,
            line,
            temperature,
            usable,
            feed_above_line: false,
            withheld: None,
            settle: Vec::new(),
            findings,
            assumptions: Vec::new(),
        })
    }

    fn doubt(&mut self, code: FindingCode, field: impl Into<String>) {
        self.findings
            .push(Finding::at(Severity::Doubt, code, field));
    }

    /// The prediction at each point, then along the curve.
    fn predicted(&mut self) -> Result<Option<PredictedPoints>, DiagnosisError> {
        let evidence = self.evidence;
        let withhold = |reason| Ok::<_, DiagnosisError>((None, Some(reason)));
        let (predicted, withheld) = match (evidence.seals, evidence.figures.oil_temperature_k) {
            (None, _) => withhold(ConsequenceRefusal::NoLeak)?,
            _ if !self.usable => withhold(ConsequenceRefusal::NoDimensions)?,
            (_, None) => withhold(ConsequenceRefusal::NoDimensions)?,
            (Some((seals, _)), Some(temperature)) => {
                let (profile, measured) = (evidence.profile, evidence.measured);
                let lines = self.lines();
                match pressure::points(profile, measured, seals, Node::Feed, *temperature, &lines) {
                    Ok(points) => (points, None),
                    Err(DiagnosisError::ProfileIncomplete { part }) => {
                        self.doubt(FindingCode::ProfileIncomplete, part);
                        withhold(ConsequenceRefusal::ProfileIncomplete)?
                    }
                    Err(DiagnosisError::Physics(_)) => withhold(ConsequenceRefusal::NoBalance)?,
                    Err(other) => return Err(other),
                }
            }
        };
        self.withheld = withheld;
        if let Some(points) = &predicted {
            let physics = points.assumptions.iter().copied().map(Assumed::from);
            self.assumptions.extend(physics);
            self.assumptions
                .extend([Assumed::EngagedAtRegulating, Assumed::ThermalExpansion]);
            if points.band_from.contains(&BandSource::UntestedSeals) {
                self.assumptions.push(Assumed::UntestedSealsBand);
            }
            self.assumptions.sort_unstable();
            self.assumptions.dedup();
        }
        Ok(predicted)
    }

    /// Line pressures of the points, then of the curve: from the lowest that was read, or hot idle,
    /// to the highest that was read or is specified.
    fn lines(&self) -> Vec<f64> {
        let read = self.evidence.figures.points.iter();
        // Below a thousandth of a bar nothing is solved; such a point says that the pump is off.
        let mut lines: Vec<f64> = read.map(|it| it.line_pa.max(PRESSURE_PA.low)).collect();
        let unit = &self.evidence.profile.unit;
        let ends = [unit.line_idle_pa, unit.line_highest_pa].map(|end| end.map(Finite::get));
        let all = lines.iter().copied().chain(ends.into_iter().flatten());
        let (low, high) = all.fold((f64::INFINITY, 0.0f64), |(low, high), line| {
            (low.min(line), high.max(line))
        });
        if low < high {
            lines.extend((0..CURVE_POINTS).map(|i| {
                let share = f64::from(i) / f64::from(CURVE_POINTS - 1);
                low + share * (high - low)
            }));
        }
        lines
    }

    fn points(
        &mut self,
        predicted: Option<&PredictedPoints>,
    ) -> Result<Vec<OilPointAnswer>, DiagnosisError> {
        let circuit = &self.evidence.profile.circuit;
        let specified = [circuit.specified_low_pa, circuit.specified_high_pa];
        let specified = specified.map(|end| end.map(Finite::get));
        let mut answers = Vec::new();
        for (i, point) in self.evidence.figures.points.iter().enumerate() {
            let at = predicted.and_then(|all| all.at.get(i));
            let span = at.map(|at| match point.direction {
                LineDirection::Rising => at.rising,
                LineDirection::Falling => at.falling,
            });
            let (per_line, per_kelvin) = at.map_or((0.0, 0.0), |at| (at.per_line, at.per_kelvin));
            let uncertainty = combined(
                &self.feed,
                Some((&self.line, per_line)),
                Some((&self.temperature, per_kelvin)),
            )?;
            // What is specified is asked of the reading alone, where the valve can hold it.
            let alone = combined(&self.feed, None, None)?;
            let regulates = match at {
                Some(at) => at.state != RegulationState::FollowsLine,
                None => specified[1].is_some_and(|high| *point.line_pa > high),
            };
            let of = |u: &Uncertainty, ends| -> Result<Option<Verdict>, DiagnosisError> {
                if !self.usable {
                    return Ok(None);
                }
                let told = in_window(*point.feed_pa, u.standard(), ends)?;
                Ok(told.map(|told| told.verdict))
            };
            answers.push(OilPointAnswer {
                predicted_pa: span,
                against_prediction: span
                    .filter(|_| self.usable)
                    .map(|span| in_span(*point.feed_pa, &uncertainty, &span))
                    .transpose()?,
                against_specification: if regulates {
                    of(&alone, specified)?
                } else {
                    None
                },
                standard_uncertainty_pa: Finite::try_from(uncertainty.standard())?,
                expanded_uncertainty_pa: Finite::try_from(uncertainty.expanded()?)?,
                shares: uncertainty.shares()?,
            });
            let apart = self.feed.whole().hypot(self.line.whole());
            if *point.feed_pa - *point.line_pa > 2.0 * apart {
                self.feed_above_line = true;
                let code = FindingCode::FeedAboveLine;
                self.findings.push(Finding::at(
                    Severity::Doubt,
                    code,
                    limits::join(&format!("points[{i}]"), "feed_pa"),
                ));
            }
            self.range(i);
        }
        Ok(answers)
    }

    /// Says of a point what lies outside its gauges and the unit.
    fn range(&mut self, i: usize) {
        let Some(point) = self.evidence.figures.points.get(i) else {
            return;
        };
        let at = |field: &str| limits::join(&format!("points[{i}]"), field);
        let beyond = |gauge: Option<&Instrument>, value: Finite| {
            gauge.is_some_and(|gauge| gauge.is_beyond(*value))
        };
        if beyond(self.evidence.feed_gauge, point.feed_pa) {
            self.doubt(FindingCode::OutsideInstrument, at("feed_pa"));
        }
        if beyond(self.evidence.line_gauge, point.line_pa) {
            self.doubt(FindingCode::OutsideInstrument, at("line_pa"));
        }
        if let Some(highest) = self.evidence.profile.unit.line_highest_pa
            && *point.line_pa > (1.0 + AT_HIGHEST) * *highest
        {
            let code = FindingCode::LineAboveHighest;
            let found = Finding::at(Severity::Doubt, code, at("line_pa"));
            self.findings.push(found.with_bounds(0.0, *highest));
        }
    }

    /// What keeps the circuit from being said to hold, however good the points are.
    fn gaps(&mut self, is_predicted: bool, is_specified: bool) {
        let figures = self.evidence.figures;
        let unit = &self.evidence.profile.unit;
        let lines = || figures.points.iter().map(|point| *point.line_pa);
        let covers_highest =
            |highest: Finite| lines().any(|line| line >= (1.0 - AT_HIGHEST) * *highest);
        let covers_idle = |idle: Finite| lines().any(|line| line <= (1.0 + AT_IDLE) * *idle);
        let goes = |way| figures.points.iter().any(|point| point.direction == way);
        let open = [
            (
                !unit.line_highest_pa.is_some_and(covers_highest),
                OilSettle::MeasureHighestLine,
            ),
            (
                !unit.line_idle_pa.is_some_and(covers_idle),
                OilSettle::MeasureIdleLine,
            ),
            (!goes(LineDirection::Rising), OilSettle::MeasureRising),
            (!goes(LineDirection::Falling), OilSettle::MeasureFalling),
            (figures.other_oil, OilSettle::UseUnitOil),
            (!is_predicted, OilSettle::EnterDimensions),
            (!is_specified, OilSettle::EnterSpecification),
        ];
        let hot = *unit.hot_oil_temperature_k;
        let cold = |temperature: Finite| hot - *temperature > COLDER_K;
        self.settle
            .extend(open.iter().filter(|(is, _)| *is).map(|(_, what)| *what));
        if figures.oil_temperature_k.is_some_and(cold) {
            let code = FindingCode::OilNotHot;
            let found = Finding::at(Severity::Doubt, code, "oil_temperature_k");
            self.findings.push(found.with_bounds(hot, hot));
            self.settle.push(OilSettle::HeatOil);
        }
        if figures.other_oil {
            self.doubt(FindingCode::OtherOil, "other_oil");
        }
    }
}
