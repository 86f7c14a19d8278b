//! What was measured on the way: carried to 20 °C, with the uncertainty of its instrument and of
//! the expansion, and judged three ways.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use metrology::decide::conformity_between;
use metrology::{Side, decide};
use model::bench::{Instrument, Verdict};
use model::finding::{Finding, FindingCode, Severity};
use model::limits::Check;
use model::machining::{MachinedSize, MachiningMeasurement, MachiningSheet, MachiningWay};
use model::unit::{BoreProfile, Material};
use model::{Finite, Id};
use physics::fit::temperature::{EXPANSION_SPREAD, REFERENCE_K, at_20c};
use uom::si::f64::{TemperatureCoefficient, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::temperature_coefficient::per_kelvin;
use uom::si::thermodynamic_temperature::kelvin;

use super::{Known, MeasurementAnswer, SizeLimits, sizes};
use crate::error::DiagnosisError;
use crate::inspected::{USUAL_LENGTH_ERROR_M, outside};
use crate::valve::{expansion_per_k, metres};

/// What measurements are judged with.
pub(super) struct Bench<'a> {
    pub profile: &'a BoreProfile,
    pub sheet: &'a MachiningSheet,
    pub instruments: &'a BTreeMap<Id, Instrument>,
    pub today: Option<NaiveDate>,
    pub finished: Option<&'a SizeLimits>,
}

impl Bench<'_> {
    /// Each measurement; what is odd about it stands at its fields.
    pub fn answers(
        &self,
        findings: &mut Vec<Finding>,
    ) -> Result<Vec<MeasurementAnswer>, DiagnosisError> {
        let wrong: Vec<String> = findings
            .iter()
            .filter(|found| found.severity == Severity::Wrong)
            .map(|found| found.field.clone())
            .collect();
        let mut answers = Vec::new();
        for (i, measured) in self.sheet.measurements.iter().enumerate() {
            let at = format!("measurements[{i}]");
            let is_wrong = wrong
                .iter()
                .any(|field| field.starts_with(&format!("{at}.")));
            answers.push(if is_wrong {
                MeasurementAnswer {
                    at_20c_m: None,
                    standard_uncertainty_m: None,
                    low_m: None,
                    high_m: None,
                    verdict: None,
                    conformity_probability: None,
                }
            } else {
                self.one(measured, &at, findings)?
            });
        }
        Ok(answers)
    }

    fn one(
        &self,
        measured: &MachiningMeasurement,
        at: &str,
        findings: &mut Vec<Finding>,
    ) -> Result<MeasurementAnswer, DiagnosisError> {
        let (error, step) = self.instrument(measured, at, findings);
        let (cold, by_expansion) = if measured.size.is_diameter() {
            self.at_20c(measured, at, findings)?
        } else {
            // Along the bore a few kelvins move nothing that matters.
            (*measured.read_m, 0.0)
        };
        // JCGM 100:2008, 4.3.7 and F.2.2.1: limits ±a count as a/sqrt 3, a step s as s/sqrt 12.
        let u = (error / 3f64.sqrt())
            .hypot(step / 12f64.sqrt())
            .hypot(by_expansion);
        let (low, high) = self.limits(measured);
        let (verdict, probability) = judged(cold, u, low, high)?;
        let bounds = (low.unwrap_or(cold), high.unwrap_or(cold));
        let found = match verdict {
            Some(Verdict::OutsideLimit) => Some(FindingCode::SizeOutsideLimits),
            Some(Verdict::TooCloseToCall) => Some(FindingCode::SizeTooCloseToCall),
            Some(Verdict::WithinLimit) | None => None,
        };
        if let Some(code) = found {
            let field = format!("{at}.read_m");
            findings
                .push(Finding::at(Severity::Doubt, code, field).with_bounds(bounds.0, bounds.1));
        }
        Ok(MeasurementAnswer {
            at_20c_m: Finite::new(cold),
            standard_uncertainty_m: Finite::new(u),
            low_m: low.and_then(Finite::new),
            high_m: high.and_then(Finite::new),
            verdict,
            conformity_probability: probability.and_then(Finite::new),
        })
    }

    /// Limits of error and step of what it was measured with, m.
    fn instrument(
        &self,
        measured: &MachiningMeasurement,
        at: &str,
        findings: &mut Vec<Finding>,
    ) -> (f64, f64) {
        let field = format!("{at}.instrument");
        let found = measured.instrument.and_then(|id| self.instruments.get(&id));
        let sound = found.filter(|it| {
            let wrong = |finding: &Finding| finding.severity == Severity::Wrong;
            !it.findings().iter().any(wrong)
        });
        let Some(instrument) = sound else {
            let code = FindingCode::InstrumentUnknown;
            findings.push(Finding::at(Severity::Doubt, code, field));
            return (USUAL_LENGTH_ERROR_M, USUAL_LENGTH_ERROR_M);
        };
        let overdue = |due: NaiveDate| self.today.is_some_and(|today| due < today);
        if instrument.calibration_due.is_some_and(overdue) {
            let code = FindingCode::CalibrationOverdue;
            findings.push(Finding::at(Severity::Doubt, code, field));
        }
        findings.extend(outside(
            instrument,
            *measured.read_m,
            format!("{at}.read_m"),
        ));
        (*instrument.limits_of_error_si, *instrument.resolution_si)
    }

    /// The size at 20 °C, and the standard uncertainty that the coefficient of expansion leaves, m.
    fn at_20c(
        &self,
        measured: &MachiningMeasurement,
        at: &str,
        findings: &mut Vec<Finding>,
    ) -> Result<(f64, f64), DiagnosisError> {
        let read = *measured.read_m;
        let Some(temperature) = measured.temperature_k else {
            let code = FindingCode::TemperatureMissing;
            let field = format!("{at}.temperature_k");
            findings.push(Finding::at(Severity::Note, code, field));
            return Ok((read, 0.0));
        };
        let alpha = expansion_per_k(self.material(measured.size));
        let cold = at_20c(
            metres(read),
            TemperatureCoefficient::new::<per_kelvin>(alpha),
            ThermodynamicTemperature::new::<kelvin>(*temperature),
        )?;
        let moved = (alpha * read * (*temperature - REFERENCE_K)).abs();
        Ok((cold.get::<meter>(), EXPANSION_SPREAD * moved / 3f64.sqrt()))
    }

    fn material(&self, size: MachinedSize) -> Material {
        let body = self.profile.bore.material;
        let planned = self.sheet.planned.as_ref();
        match size {
            MachinedSize::SleeveOuter | MachinedSize::SleeveInner => {
                self.sheet.sleeve_material.unwrap_or(body)
            }
            MachinedSize::Valve => planned
                .and_then(|work| work.valve_material)
                .unwrap_or(self.profile.bore.spool.material),
            _ => body,
        }
    }

    /// What a size may be, m.
    fn limits(&self, measured: &MachiningMeasurement) -> (Option<f64>, Option<f64>) {
        let sheet = self.sheet;
        let around = |size: Option<Finite>, off: Option<Finite>| match (size, off) {
            (Some(size), Some(off)) => (Some(*size - *off), Some(*size + *off)),
            _ => (None, None),
        };
        match measured.size {
            MachinedSize::FinishedBore => match (self.finished, sheet.way, sheet.cuts.is_empty()) {
                (Some(limits), ..) => (Some(*limits.low_m), Some(*limits.high_m)),
                (None, MachiningWay::Sleeve, true) => (None, None),
                (None, ..) => sheet.cuts.last().map_or((None, None), |last| {
                    around(Some(last.diameter_m), Some(last.tolerance_m))
                }),
            },
            MachinedSize::AfterCut => {
                let cut = sheet.cut_of(measured);
                cut.map_or((None, None), |cut| {
                    around(Some(cut.diameter_m), Some(cut.tolerance_m))
                })
            }
            MachinedSize::SleeveOuter => {
                around(sheet.sleeve_outer_m, sheet.sleeve_outer_tolerance_m)
            }
            MachinedSize::SleeveInner => {
                around(sheet.sleeve_inner_m, sheet.sleeve_inner_tolerance_m)
            }
            MachinedSize::Valve => around(sheet.valve_m, sheet.valve_tolerance_m),
            MachinedSize::Depth => (sizes::depth_needed(self.profile), None),
            MachinedSize::StartBore | MachinedSize::UnwornBore | MachinedSize::PortOffset => {
                (None, None)
            }
        }
    }
}

/// A size against its limits: outside where one is surely missed, within where both are surely met.
fn judged(
    size: f64,
    u: f64,
    low: Option<f64>,
    high: Option<f64>,
) -> Result<(Option<Verdict>, Option<f64>), DiagnosisError> {
    let mut worst: Option<Verdict> = None;
    let mut probability = None;
    for (limit, side) in [(low, Side::AtLeast), (high, Side::AtMost)] {
        let Some(limit) = limit else { continue };
        let decided = decide(size, u, limit, side)?;
        probability = Some(decided.probability_of_conformity);
        let verdict = match decided.verdict {
            metrology::Verdict::WithinLimit => Verdict::WithinLimit,
            metrology::Verdict::TooCloseToCall => Verdict::TooCloseToCall,
            metrology::Verdict::OutsideLimit => Verdict::OutsideLimit,
        };
        worst = Some(match (worst, verdict) {
            (Some(Verdict::OutsideLimit), _) | (_, Verdict::OutsideLimit) => Verdict::OutsideLimit,
            (Some(Verdict::TooCloseToCall), _) | (_, Verdict::TooCloseToCall) => {
                Verdict::TooCloseToCall
            }
            _ => Verdict::WithinLimit,
        });
    }
    if let (Some(low), Some(high)) = (low, high)
        && low <= high
    {
        probability = Some(conformity_between(size, u, None, low, high)?);
    }
    Ok((worst, probability))
}

/// The bore after each cut that it was measured after, at 20 °C, m: the mean of its readings.
pub(super) fn after_cuts(
    sheet: &MachiningSheet,
    answers: &[MeasurementAnswer],
) -> BTreeMap<usize, f64> {
    let mut by_cut: BTreeMap<usize, Vec<f64>> = BTreeMap::new();
    for (measured, answer) in sheet.measurements.iter().zip(answers) {
        let after = measured
            .cut
            .filter(|_| measured.size == MachinedSize::AfterCut);
        let at = after.and_then(|cut| usize::try_from(cut).ok());
        if let (Some(at), Some(size)) = (at, answer.at_20c_m) {
            by_cut.entry(at).or_default().push(*size);
        }
    }
    #[allow(clippy::cast_precision_loss)] // A count of readings.
    let mean = |sizes: Vec<f64>| sizes.iter().sum::<f64>() / sizes.len() as f64;
    by_cut
        .into_iter()
        .map(|(at, sizes)| (at, mean(sizes)))
        .collect()
}

/// What the measurements of each size say together. Those after a roughing cut count for none.
pub(super) fn known(
    sheet: &MachiningSheet,
    answers: &[MeasurementAnswer],
) -> BTreeMap<MachinedSize, Known> {
    let mut by_size: BTreeMap<MachinedSize, Vec<(f64, f64)>> = BTreeMap::new();
    for (measured, answer) in sheet.measurements.iter().zip(answers) {
        if let (Some(size), Some(u)) = (answer.at_20c_m, answer.standard_uncertainty_m) {
            by_size.entry(measured.size).or_default().push((*size, *u));
        }
    }
    let together = |readings: Vec<(f64, f64)>| {
        let sizes = || readings.iter().map(|(size, _)| *size);
        #[allow(clippy::cast_precision_loss)] // A count of readings.
        let mean = sizes().sum::<f64>() / readings.len() as f64;
        let range = sizes().fold(f64::MIN, f64::max) - sizes().fold(f64::MAX, f64::min);
        // One instrument's error is shared by all its readings and doesn't average out.
        let u = readings.iter().map(|(_, u)| *u).fold(0.0, f64::max);
        Known {
            mean,
            off: (2.0 * u).hypot(0.5 * range),
        }
    };
    by_size
        .into_iter()
        .filter(|(size, _)| *size != MachinedSize::AfterCut)
        .map(|(size, readings)| (size, together(readings)))
        .collect()
}
