//! All circuits solved at one line pressure, and what they say together.

use model::Finite;
use physics::regulator::{OperatingPoint as Balance, RegulatorState};
use uom::si::volume_rate::cubic_meter_per_second;

use super::deviations::Deviations;
use crate::error::DiagnosisError;
use crate::judgement::{
    BandSource, CurvePoint, OperatingPoint, RegulationState, Span, SpecificationAnswer,
};

/// All circuits at one line pressure.
pub(super) struct AtLine {
    pub line_pa: f64,
    /// As new, by each orifice law.
    pub new: Vec<Balance>,
    /// Feed as new with friction either way.
    pub new_friction: Option<[f64; 2]>,
    pub likely: Balance,
    /// Tested and untested seals both leaking most.
    pub worst: Balance,
    /// Feed as measured with friction either way.
    pub friction: Option<[f64; 2]>,
    /// Each unknown at its ends, with the orifice law that it belongs to.
    pub unknowns: Vec<(BandSource, [(Balance, usize); 2])>,
}

impl AtLine {
    fn new_state(&self) -> RegulationState {
        self.new.first().map_or(RegulationState::LostControl, state)
    }

    fn new_feed(&self) -> Result<Span, DiagnosisError> {
        let likely = self.new.first().map_or(f64::NAN, |new| new.feed.value);
        let mut spread = Deviations::default();
        self.new_friction
            .iter()
            .for_each(|ends| spread.add(ends.map(|feed| feed - likely)));
        spread.around(likely, 0.0, self.line_pa)
    }

    fn measured_feed(&self) -> Result<Span, DiagnosisError> {
        let likely = self.likely.feed.value;
        let mut spread = Deviations::default();
        for (_, ends) in &self.unknowns {
            spread.add([0, 1].map(|end| ends[end].0.feed.value - likely));
        }
        self.friction
            .iter()
            .for_each(|ends| spread.add(ends.map(|feed| feed - likely)));
        spread.around(likely, 0.0, self.line_pa)
    }

    /// How far a measured balance lies above the new valve by the same orifice law.
    fn above_new(&self, measured: &Balance, law: usize) -> f64 {
        self.new
            .get(law)
            .map_or(f64::NAN, |new| measured.feed.value - new.feed.value)
    }

    /// Shift against the new valve; friction is left out, for it is in both. None where either
    /// isn't regulating.
    fn shift(&self) -> Result<Option<Span>, DiagnosisError> {
        let regulates = RegulationState::Regulating;
        if self.new_state() != regulates || state(&self.likely) != regulates {
            return Ok(None);
        }
        let likely = self.above_new(&self.likely, 0);
        let mut spread = Deviations::default();
        for (_, ends) in &self.unknowns {
            spread.add(self.shift_deviations(ends, likely));
        }
        let headroom = self.line_pa - self.new.first().map_or(0.0, |new| new.feed.value);
        spread.around(likely, f64::MIN, headroom).map(Some)
    }

    fn shift_deviations(&self, ends: &[(Balance, usize); 2], likely: f64) -> [f64; 2] {
        [0, 1].map(|end| self.above_new(&ends[end].0, ends[end].1) - likely)
    }

    /// What makes the band wide, widest first.
    pub fn band_from(&self) -> Vec<BandSource> {
        let likely = self.likely.feed.value;
        let width = |[low, high]: [f64; 2]| low.abs().max(high.abs());
        let mut sources: Vec<(BandSource, f64)> = self
            .unknowns
            .iter()
            .map(|(source, ends)| {
                (
                    *source,
                    width([0, 1].map(|i| ends[i].0.feed.value - likely)),
                )
            })
            .collect();
        if let Some(ends) = self.friction {
            sources.push((BandSource::Friction, width(ends.map(|feed| feed - likely))));
        }
        // A pascal is beneath notice.
        sources.retain(|(_, width)| *width > 1.0);
        sources.sort_by(|a, b| b.1.total_cmp(&a.1));
        sources.into_iter().map(|(source, _)| source).collect()
    }

    fn worst_state(&self) -> RegulationState {
        let ends = self.unknowns.iter().flat_map(|(_, ends)| ends);
        let rank = |state: &RegulationState| match state {
            RegulationState::Regulating => 0,
            RegulationState::FollowsLine => 1,
            RegulationState::LostControl => 2,
        };
        let states = ends
            .map(|(balance, _)| state(balance))
            .chain([state(&self.likely), state(&self.worst)]);
        states
            .max_by_key(rank)
            .unwrap_or(RegulationState::LostControl)
    }

    pub fn curve_point(&self) -> Result<CurvePoint, DiagnosisError> {
        Ok(CurvePoint {
            line_pa: Finite::try_from(self.line_pa)?,
            new_feed_pa: self.new_feed()?,
            new_state: self.new_state(),
            measured_feed_pa: self.measured_feed()?,
            measured_state: state(&self.likely),
        })
    }

    /// The answer at this line pressure, held against a specified band, Pa.
    pub fn operating_point(&self, band: (f64, f64)) -> Result<OperatingPoint, DiagnosisError> {
        let measured = self.measured_feed()?;
        let shift = self.shift()?;
        let specified = |pa: f64| (band.0..=band.1).contains(&pa);
        let against_specification = shift.map(|_| {
            let ends = [*measured.low, *measured.high].map(specified);
            match (specified(*measured.likely), ends) {
                (true, [true, true]) => SpecificationAnswer::Inside,
                (true, _) => SpecificationAnswer::LikelyInside,
                (false, _) if overlaps(&measured, band) => SpecificationAnswer::LikelyOutside,
                (false, _) => SpecificationAnswer::Outside,
            }
        });
        Ok(OperatingPoint {
            line_pa: Finite::try_from(self.line_pa)?,
            new_feed_pa: self.new_feed()?,
            new_state: self.new_state(),
            measured_feed_pa: measured,
            measured_state: state(&self.likely),
            worst_state: self.worst_state(),
            shift_pa: shift,
            against_specification,
        })
    }

    /// Oil through the tested seals, all directions counted alike.
    pub fn leak_flow(&self, tested: &[usize]) -> Result<Span, DiagnosisError> {
        let total = |balance: &Balance| -> f64 {
            let flows = balance.flows.leaks.as_slice();
            let each = tested.iter().filter_map(|&i| flows.get(i));
            each.map(|flow| flow.get::<cubic_meter_per_second>().abs())
                .sum()
        };
        let likely = total(&self.likely);
        let mut spread = Deviations::default();
        for (_, ends) in &self.unknowns {
            spread.add([0, 1].map(|end| total(&ends[end].0) - likely));
        }
        spread.around(likely, 0.0, f64::MAX)
    }
}

fn overlaps(measured: &Span, (low, high): (f64, f64)) -> bool {
    *measured.low <= high && *measured.high >= low
}

/// What the valve does at a balance, in the three words that matter to a person.
#[must_use]
pub fn state(balance: &Balance) -> RegulationState {
    match balance.state {
        RegulatorState::Regulating => RegulationState::Regulating,
        RegulatorState::FullyOpen => RegulationState::FollowsLine,
        RegulatorState::LostControl | RegulatorState::FullyExhausting => {
            RegulationState::LostControl
        }
    }
}
