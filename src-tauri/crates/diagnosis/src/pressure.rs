//! What a leak does: regulated pressure against line pressure, as measured beside as new.
//!
//! A gap found with air serves oil only within a band: nobody knows how far off-centre the valve
//! lay in the test, nor lies in service (a factor of 2.5 either way), nor how worn the seals are
//! that the test doesn't reach. So the valve is solved at the corners of what is unknown, and the
//! answer is the span between them, never a bare ±.

use model::Finite;
use model::geometry;
use model::unit::{BoreProfile, OpeningRole};
use physics::Assumption;
use physics::fluid::OilState;
use physics::regulator::{Branch, Circuit, OperatingPoint as Balance, RegulatorState};
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::error::DiagnosisError;
use crate::judgement::{
    BandSource, Consequence, CurvePoint, OperatingPoint, RegulationState, Span, SpecificationAnswer,
};
use crate::valve::{self, SealState, Wear, metres};

/// How many line pressures a curve has.
const CURVE_POINTS: u32 = 41;

/// What a test says of the seals that it isolates: radial clearances at 20 °C, each from the
/// reading's low, likely and high value.
#[derive(Debug, Clone, PartialEq)]
pub struct SealEvidence {
    /// Names of the tested lands.
    pub tested_lands: Vec<String>,
    /// If the valve lay centred.
    pub centred: [Length; 3],
    /// If it lay against one side.
    pub off_centre: [Length; 3],
}

/// Solves the valve as new and as measured, from below the setpoint to the highest line pressure.
/// Also answers with the assumptions of the physics.
///
/// # Errors
/// [`DiagnosisError`] when the profile lacks a part or the physics refuses a figure.
pub fn consequence(
    profile: &BoreProfile,
    evidence: &SealEvidence,
    oil_temperature_k: f64,
) -> Result<(Consequence, Vec<Assumption>), DiagnosisError> {
    let oil = valve::oil_at(&profile.unit.oil, oil_temperature_k)?;
    let valves = Valves::new(profile, evidence, oil_temperature_k, &oil)?;
    let highest = *profile.unit.line_highest_pa;
    let idle = *profile.unit.line_idle_pa;
    let lowest = 0.6 * idle.min(*profile.circuit.setpoint_pa);
    let mut curve = Vec::new();
    for i in 0..CURVE_POINTS {
        let share = f64::from(i) / f64::from(CURVE_POINTS - 1);
        curve.push(
            valves
                .at(lowest + share * (highest - lowest))?
                .curve_point()?,
        );
    }
    let at_highest = valves.at(highest)?;
    let consequence = Consequence {
        oil_temperature_k: Finite::try_from(oil_temperature_k)?,
        oil_viscosity_pa_s: Finite::try_from(oil.viscosity.get::<pascal_second>())?,
        setpoint_pa: profile.circuit.setpoint_pa,
        specified_low_pa: profile.circuit.specified_low_pa,
        specified_high_pa: profile.circuit.specified_high_pa,
        curve,
        idle: valves.at(idle)?.operating_point(profile)?,
        highest_line: at_highest.operating_point(profile)?,
        band_from: valves.band_from(profile),
        stroke_m: Finite::try_from(at_highest.likely().spool_position.get::<meter>())?,
        leak_flow_m3_s: at_highest.leak_flow(&valves.tested_leaks)?,
    };
    Ok((consequence, valves.likely.assumptions().to_vec()))
}

/// The circuits to solve: as new and as measured, at each corner of what is unknown.
struct Valves {
    /// As new, by the orifice laws that pass least, as ours does, and most.
    new: Vec<Circuit>,
    /// As measured, likely.
    likely: Circuit,
    /// As measured, the corners; each names which of `new` it shares its orifice law with.
    corners: Vec<(Circuit, usize)>,
    tested_leaks: Vec<usize>,
    orifice_law_matters: bool,
}

impl Valves {
    fn new(
        profile: &BoreProfile,
        evidence: &SealEvidence,
        oil_temperature_k: f64,
        oil: &OilState,
    ) -> Result<Self, DiagnosisError> {
        let (as_new, worn) = seal_states(profile, evidence)?;
        let circuit = |tested: SealState, untested: SealState| {
            let wear = Wear {
                tested_lands: &evidence.tested_lands,
                tested,
                untested,
            };
            let regulator = valve::regulator(profile, &wear, oil_temperature_k)?;
            Ok::<_, DiagnosisError>((regulator.circuit(oil)?, regulator))
        };
        let (new, description) = circuit(as_new, as_new)?;
        let (likely, _) = circuit(worn.likely, worn.untested_likely)?;

        // The spread of the orifice laws is taken at the drop that the leak makes.
        let highest = Pressure::new::<pascal>(*profile.unit.line_highest_pa);
        let balance = likely.solve(highest, Branch::Frictionless)?;
        let mut scales = vec![1.0];
        if let Some(orifice) = description.balance_orifice {
            let discharge = orifice.flow(balance.feed - balance.reaction, oil)?;
            let share = |flow| ratio_of(flow, discharge.flow);
            scales.extend(
                [share(discharge.flow_low), share(discharge.flow_high)]
                    .into_iter()
                    .flatten(),
            );
        }
        let scaled = |circuit: &Circuit, scale: f64| {
            circuit
                .clone()
                .with_orifice_scale(Ratio::new::<ratio>(scale))
        };
        let mut corners = Vec::new();
        for tested in [worn.tested_low, worn.tested_high] {
            for untested in [as_new, worn.untested_high] {
                let (corner, _) = circuit(tested, untested)?;
                for (i, &scale) in scales.iter().enumerate() {
                    corners.push((scaled(&corner, scale)?, i));
                }
            }
        }
        let new = scales
            .iter()
            .map(|&scale| scaled(&new, scale))
            .collect::<Result<_, _>>()?;
        let tested = |land: &str| evidence.tested_lands.iter().any(|name| name == land);
        let tested_leaks = valve::seals(profile)
            .enumerate()
            .filter(|(_, (land, _))| tested(&land.name))
            .map(|(i, _)| i)
            .collect();
        let orifice_law_matters = scales.iter().any(|scale| (scale - 1.0).abs() > 0.02);
        Ok(Self {
            new,
            likely,
            corners,
            tested_leaks,
            orifice_law_matters,
        })
    }

    fn at(&self, line_pa: f64) -> Result<AtLine, DiagnosisError> {
        let line = Pressure::new::<pascal>(line_pa);
        let solve = |circuit: &Circuit| {
            Ok::<_, DiagnosisError>(Branches {
                rising: circuit.solve(line, Branch::Rising)?,
                middle: circuit.solve(line, Branch::Frictionless)?,
                falling: circuit.solve(line, Branch::Falling)?,
            })
        };
        let corner = |(circuit, law): &(Circuit, usize)| Ok((solve(circuit)?, *law));
        Ok(AtLine {
            line_pa,
            new: self.new.iter().map(solve).collect::<Result<_, _>>()?,
            likely: solve(&self.likely)?,
            corners: self
                .corners
                .iter()
                .map(corner)
                .collect::<Result<_, DiagnosisError>>()?,
        })
    }

    fn band_from(&self, profile: &BoreProfile) -> Vec<BandSource> {
        let mut sources = vec![BandSource::Eccentricity, BandSource::Reading];
        if self.tested_leaks.len() < valve::seals(profile).count() {
            sources.push(BandSource::UntestedSeals);
        }
        if *profile.bore.spool.friction_n > 0.0 {
            sources.push(BandSource::Friction);
        }
        if self.orifice_law_matters {
            sources.push(BandSource::OrificeModel);
        }
        sources
    }
}

/// States of the seals between which the truth lies.
struct WornStates {
    likely: SealState,
    tested_low: SealState,
    tested_high: SealState,
    untested_likely: SealState,
    untested_high: SealState,
}

fn seal_states(
    profile: &BoreProfile,
    evidence: &SealEvidence,
) -> Result<(SealState, WornStates), DiagnosisError> {
    let land = profile
        .lands
        .first()
        .ok_or(DiagnosisError::ProfileIncomplete { part: "lands" })?;
    let centred = |radial_clearance| SealState {
        radial_clearance,
        eccentricity: Ratio::new::<ratio>(0.0),
    };
    let touching = |radial_clearance| SealState {
        radial_clearance,
        eccentricity: Ratio::new::<ratio>(1.0),
    };
    let new = valve::new_clearance(profile, land);
    let [_, likely, high] = evidence.centred;
    // The least leak in service: the valve lay against one side in the test and lies centred now.
    let lowest = evidence.off_centre[0];
    // An untested seal may be as new or as worn as the tested ones. A tested one that came out
    // tighter than new says nothing about the others.
    let worn = if high > new { high } else { new };
    let between = metres((new.get::<meter>() * likely.get::<meter>()).sqrt());
    let untested_likely = if between > new { between } else { new };
    let states = WornStates {
        likely: centred(likely),
        tested_low: centred(lowest),
        tested_high: touching(high),
        untested_likely: centred(untested_likely),
        untested_high: touching(worn),
    };
    Ok((centred(new), states))
}

fn ratio_of(part: uom::si::f64::VolumeRate, whole: uom::si::f64::VolumeRate) -> Option<f64> {
    let whole = whole.get::<cubic_meter_per_second>();
    (whole.abs() > 0.0).then(|| part.get::<cubic_meter_per_second>() / whole)
}

/// One circuit at one line pressure: with friction either way, and without.
struct Branches {
    rising: Balance,
    middle: Balance,
    falling: Balance,
}

impl Branches {
    fn feeds(&self) -> [f64; 3] {
        [&self.falling, &self.middle, &self.rising].map(|balance| balance.feed.get::<pascal>())
    }
}

/// All circuits at one line pressure.
struct AtLine {
    line_pa: f64,
    new: Vec<Branches>,
    likely: Branches,
    corners: Vec<(Branches, usize)>,
}

impl AtLine {
    fn likely(&self) -> &Balance {
        &self.likely.middle
    }

    fn new_feed(&self) -> Result<Span, DiagnosisError> {
        let likely = self.new.first().map_or(f64::NAN, |new| new.feeds()[1]);
        span(likely, self.new.iter().flat_map(Branches::feeds))
    }

    fn measured_feed(&self) -> Result<Span, DiagnosisError> {
        let corners = self.corners.iter().flat_map(|(corner, _)| corner.feeds());
        span(self.likely.feeds()[1], corners.chain(self.likely.feeds()))
    }

    fn new_state(&self) -> RegulationState {
        self.new
            .first()
            .map_or(RegulationState::LostControl, |new| state(&new.middle))
    }

    /// Shift of each corner against the new valve by the same orifice law, friction left out: it
    /// is in both.
    fn shift(&self) -> Result<Option<Span>, DiagnosisError> {
        let regulates = |balance: &Balance| state(balance) == RegulationState::Regulating;
        let Some(new) = self.new.first() else {
            return Ok(None);
        };
        if !regulates(&new.middle) || !regulates(&self.likely.middle) {
            return Ok(None);
        }
        let against = |corner: &Branches, law: usize| {
            let new = self.new.get(law).unwrap_or(new);
            corner.feeds()[1] - new.feeds()[1]
        };
        let shifts = self
            .corners
            .iter()
            .map(|(corner, law)| against(corner, *law));
        span(against(&self.likely, 0), shifts).map(Some)
    }

    fn worst_state(&self) -> RegulationState {
        let states = self.corners.iter().map(|(corner, _)| state(&corner.middle));
        let rank = |state: &RegulationState| match state {
            RegulationState::Regulating => 0,
            RegulationState::FollowsLine => 1,
            RegulationState::LostControl => 2,
        };
        states
            .chain([state(&self.likely.middle)])
            .max_by_key(rank)
            .unwrap_or(RegulationState::LostControl)
    }

    fn curve_point(&self) -> Result<CurvePoint, DiagnosisError> {
        Ok(CurvePoint {
            line_pa: Finite::try_from(self.line_pa)?,
            new_feed_pa: self.new_feed()?,
            new_state: self.new_state(),
            measured_feed_pa: self.measured_feed()?,
            measured_state: state(&self.likely.middle),
        })
    }

    fn operating_point(&self, profile: &BoreProfile) -> Result<OperatingPoint, DiagnosisError> {
        let measured = self.measured_feed()?;
        let shift = self.shift()?;
        let circuit = &profile.circuit;
        let specified =
            |pa: f64| (*circuit.specified_low_pa..=*circuit.specified_high_pa).contains(&pa);
        let against_specification = shift.map(|_| {
            let ends = [*measured.low, *measured.high].map(specified);
            match (specified(*measured.likely), ends) {
                (true, [true, true]) => SpecificationAnswer::Inside,
                (true, _) => SpecificationAnswer::LikelyInside,
                (false, _) if overlaps(&measured, profile) => SpecificationAnswer::LikelyOutside,
                (false, _) => SpecificationAnswer::Outside,
            }
        });
        Ok(OperatingPoint {
            line_pa: Finite::try_from(self.line_pa)?,
            new_feed_pa: self.new_feed()?,
            new_state: self.new_state(),
            measured_feed_pa: measured,
            measured_state: state(&self.likely.middle),
            worst_state: self.worst_state(),
            shift_pa: shift,
            against_specification,
        })
    }

    /// Oil through the tested seals, all directions counted alike.
    fn leak_flow(&self, tested: &[usize]) -> Result<Span, DiagnosisError> {
        let total = |balance: &Balance| -> f64 {
            let flows = balance.flows.leaks.as_slice();
            let each = tested.iter().filter_map(|&i| flows.get(i));
            each.map(|flow| flow.get::<cubic_meter_per_second>().abs())
                .sum()
        };
        let corners = self.corners.iter().map(|(corner, _)| total(&corner.middle));
        span(total(&self.likely.middle), corners)
    }
}

fn overlaps(measured: &Span, profile: &BoreProfile) -> bool {
    *measured.low <= *profile.circuit.specified_high_pa
        && *measured.high >= *profile.circuit.specified_low_pa
}

fn state(balance: &Balance) -> RegulationState {
    match balance.state {
        RegulatorState::Regulating => RegulationState::Regulating,
        RegulatorState::FullyOpen => RegulationState::FollowsLine,
        RegulatorState::LostControl | RegulatorState::FullyExhausting => {
            RegulationState::LostControl
        }
    }
}

fn span(likely: f64, others: impl Iterator<Item = f64>) -> Result<Span, DiagnosisError> {
    let (low, high) = others.fold((likely, likely), |(low, high), x| (low.min(x), high.max(x)));
    Ok(Span {
        low: Finite::try_from(low)?,
        likely: Finite::try_from(likely)?,
        high: Finite::try_from(high)?,
    })
}

/// The stroke at which a bore is drawn: where it regulates, or at rest when the profile can't tell.
#[must_use]
pub fn drawn_stroke_m(profile: &BoreProfile) -> f64 {
    let stroke = geometry::regulating_stroke(profile).unwrap_or(0.0);
    if profile.opening(OpeningRole::Supply).is_some() {
        stroke
    } else {
        0.0
    }
}
