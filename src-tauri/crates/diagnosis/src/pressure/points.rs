//! What the model says at single line pressures, line rising and line falling told apart: what a
//! gauge at a tap, or a hot-oil check on the bench, is held against.

use model::unit::{BoreProfile, Node};
use physics::regulator::{Branch, Circuit, OperatingPoint as Balance};
use uom::si::f64::Pressure;
use uom::si::length::meter;
use uom::si::pressure::pascal;

use super::at_line::state;
use super::deviations::Deviations;
use super::{Added, MeasuredBore, SealEvidence, Valves};
use crate::error::DiagnosisError;
use crate::judgement::{BandSource, RegulationState, Span};
use crate::valve;

/// Half the step by which a slope against line is found, as a part of line.
const SLOPE_STEP: f64 = 0.01;
/// Half the step by which the effect of the oil's temperature is found, K.
const TEMPERATURE_STEP_K: f64 = 1.0;

/// A pressure that the model predicts at one line pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PredictedAt {
    /// Line pressure, Pa.
    pub line_pa: f64,
    /// Whichever way line was going: friction either way is part of the band.
    pub either: Span,
    /// With line rising: between friction holding the spool in full and not at all.
    pub rising: Span,
    /// With line falling, likewise.
    pub falling: Span,
    /// How much it changes with line, Pa per Pa, of the likely valve.
    pub per_line: f64,
    /// How much it changes with the oil's temperature, Pa/K, of the likely valve.
    pub per_kelvin: f64,
    /// What the likely valve does there.
    pub state: RegulationState,
    /// Where its spool stands, m.
    pub stroke_m: f64,
}

/// Predictions of one place, and what they rest on.
#[derive(Debug, Clone, PartialEq)]
pub struct PredictedPoints {
    /// One a line pressure, in the order asked.
    pub at: Vec<PredictedAt>,
    /// What makes the band wide at the last of them, widest first.
    pub band_from: Vec<BandSource>,
    /// What the physics assumed.
    pub assumptions: Vec<physics::Assumption>,
}

/// Predicts the pressure at a place of the valve for line pressures, Pa, in oil of a temperature, K.
/// None for a place whose pressure isn't the valve's: line is what is given, and sump and spring
/// chamber are taken as open.
///
/// # Errors
/// [`DiagnosisError`] when the profile lacks a part or the physics refuses a figure.
pub fn points(
    profile: &BoreProfile,
    measured: &MeasuredBore,
    evidence: &SealEvidence,
    place: Node,
    oil_temperature_k: f64,
    lines_pa: &[f64],
) -> Result<Option<PredictedPoints>, DiagnosisError> {
    let pick: fn(&Balance) -> f64 = match place {
        Node::Feed => |balance| balance.feed.get::<pascal>(),
        Node::Reaction => |balance| balance.reaction.get::<pascal>(),
        Node::Line | Node::SpringChamber | Node::Sump => return Ok(None),
    };
    let valves_at = |temperature_k: f64| {
        let oil = valve::oil_at(valve::unit_oil(profile)?, temperature_k)?;
        let added = Added::default();
        Valves::new(profile, measured, evidence, &added, temperature_k, &oil)
    };
    let valves = valves_at(oil_temperature_k)?;
    let warmer = valves_at(oil_temperature_k + TEMPERATURE_STEP_K)?.likely;
    let colder = valves_at(oil_temperature_k - TEMPERATURE_STEP_K)?.likely;
    let mut at = Vec::with_capacity(lines_pa.len());
    let mut band_from = Vec::new();
    for &line_pa in lines_pa {
        let here = Here { pick, line_pa };
        let (point, sources) = here.predicted(&valves, [&colder, &warmer])?;
        at.push(point);
        band_from = sources;
    }
    Ok(Some(PredictedPoints {
        at,
        band_from,
        assumptions: valves.likely.assumptions().to_vec(),
    }))
}

/// One place at one line pressure.
struct Here {
    pick: fn(&Balance) -> f64,
    line_pa: f64,
}

impl Here {
    fn value(
        &self,
        circuit: &Circuit,
        line_pa: f64,
        branch: Branch,
    ) -> Result<f64, DiagnosisError> {
        let balance = circuit.solve(Pressure::new::<pascal>(line_pa), branch)?;
        Ok((self.pick)(&balance))
    }

    fn predicted(
        &self,
        valves: &Valves,
        [colder, warmer]: [&Circuit; 2],
    ) -> Result<(PredictedAt, Vec<BandSource>), DiagnosisError> {
        let line_pa = self.line_pa;
        let solved = valves
            .likely
            .solve(Pressure::new::<pascal>(line_pa), Branch::Frictionless)?;
        let likely = (self.pick)(&solved);
        let mut others = Vec::new();
        let mut sources = Vec::new();
        for unknown in &valves.unknowns {
            let [(low, _), (high, _)] = &unknown.ends;
            let ends = [
                self.value(low, line_pa, Branch::Frictionless)? - likely,
                self.value(high, line_pa, Branch::Frictionless)? - likely,
            ];
            sources.push((unknown.source, ends[0].abs().max(ends[1].abs())));
            others.push(ends);
        }
        let (rising, falling) = if valves.friction {
            (
                self.value(&valves.likely, line_pa, Branch::Rising)?,
                self.value(&valves.likely, line_pa, Branch::Falling)?,
            )
        } else {
            (likely, likely)
        };
        sources.push((
            BandSource::Friction,
            (rising - likely).abs().max((falling - likely).abs()),
        ));
        let about = |centre: f64, friction: [f64; 2]| {
            let mut spread = Deviations::default();
            for ends in &others {
                spread.add(*ends);
            }
            spread.add(friction.map(|end| end - centre));
            spread.around(centre, 0.0, line_pa)
        };
        let step = SLOPE_STEP * line_pa;
        let slope = |low: f64, high: f64| (high - low) / 2.0;
        let per_line = if step > 0.0 {
            let low = self.value(&valves.likely, line_pa - step, Branch::Frictionless)?;
            let high = self.value(&valves.likely, line_pa + step, Branch::Frictionless)?;
            slope(low, high) / step
        } else {
            1.0
        };
        let per_kelvin = slope(
            self.value(colder, line_pa, Branch::Frictionless)?,
            self.value(warmer, line_pa, Branch::Frictionless)?,
        ) / TEMPERATURE_STEP_K;
        // A pascal is beneath notice.
        sources.retain(|(_, width)| *width > 1.0);
        sources.sort_by(|a, b| b.1.total_cmp(&a.1));
        let point = PredictedAt {
            line_pa,
            either: about(likely, [rising, falling])?,
            rising: about(rising, [rising, likely])?,
            falling: about(falling, [falling, likely])?,
            per_line,
            per_kelvin,
            state: state(&solved),
            stroke_m: solved.spool_position.get::<meter>(),
        };
        Ok((
            point,
            sources.into_iter().map(|(source, _)| source).collect(),
        ))
    }
}
