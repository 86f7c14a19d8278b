//! What a leak does: regulated pressure against line pressure, as measured beside as new.
//!
//! A gap found with air serves oil only within a band: nobody knows how far off-centre the valve
//! lay in the test, nor lies in service (a factor of 2.5 either way), nor how worn the seals are
//! that the test doesn't reach. So the valve is solved again with each unknown at either end, one
//! at a time, and the deviations of each side are added in quadrature: an asymmetric span, never a
//! bare ±. That is the first-order rule (JCGM 100:2008, eq. 10) taken for each side by itself; what
//! two unknowns do together beyond the sum of their parts is left out.

use model::Finite;
use model::geometry;
use model::unit::{BoreProfile, OpeningRole};
use physics::Assumption;
use physics::fluid::OilState;
use physics::regulator::{Branch, Circuit, Regulator};
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::error::DiagnosisError;
use crate::judgement::{BandSource, Consequence};
use crate::valve::{self, SealState, Wear, metres, need};

mod added;
mod at_line;
pub(crate) mod deviations;
pub mod monte_carlo;
mod points;
mod worn;

pub use added::{Added, SleeveSeat};
pub(crate) use added::{covers_ports, reach, stretches};
use at_line::AtLine;
pub use at_line::state;
pub use points::{PredictedAt, PredictedPoints, points};
use worn::WornStates;

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

impl SealEvidence {
    /// All lands with one diametral clearance that was measured, low, likely and high.
    #[must_use]
    pub fn measured(profile: &BoreProfile, diametral_m: [f64; 3]) -> Self {
        let all = profile.lands.iter().map(|land| land.name.clone()).collect();
        Self::of_lands(all, diametral_m)
    }

    /// These lands with one diametral clearance that was measured; of the others nothing is known.
    #[must_use]
    pub fn of_lands(lands: Vec<String>, diametral_m: [f64; 3]) -> Self {
        let radial = diametral_m.map(|c| metres(c / 2.0));
        Self {
            tested_lands: lands,
            centred: radial,
            off_centre: radial,
        }
    }
}

/// A bore with its parts as they were measured, and how far each may be off (95 %).
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredBore {
    /// The profile with the likely figures.
    pub profile: BoreProfile,
    /// Spring load at the regulating position, low and high, N; none: not measured.
    pub spring_load_n: Option<[Finite; 2]>,
    /// Bore of the balance orifice, low and high, m; none: not measured.
    pub orifice_m: Option<[Finite; 2]>,
}

impl MeasuredBore {
    /// A bore of which no part was measured.
    #[must_use]
    pub fn as_profile(profile: &BoreProfile) -> Self {
        Self {
            profile: profile.clone(),
            spring_load_n: None,
            orifice_m: None,
        }
    }

    fn with_spring_load(&self, load: Finite) -> BoreProfile {
        let mut profile = self.profile.clone();
        if let Some(spring) = &mut profile.spring {
            spring.load_regulating_n = Some(load);
        }
        profile
    }

    fn with_orifice(&self, diameter: Finite) -> BoreProfile {
        let mut profile = self.profile.clone();
        if let Some(orifice) = &mut profile.balance_orifice {
            orifice.diameter_m = diameter;
        }
        profile
    }
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
    let measured = MeasuredBore::as_profile(profile);
    consequence_of(
        profile,
        &measured,
        evidence,
        &Added::default(),
        oil_temperature_k,
    )
}

/// As [`consequence`], with the parts as they were measured held against the profile as new: the
/// shift is that of wear and parts together.
///
/// # Errors
/// As [`consequence`].
pub fn consequence_of_parts(
    profile: &BoreProfile,
    measured: &MeasuredBore,
    evidence: &SealEvidence,
    oil_temperature_k: f64,
) -> Result<(Consequence, Vec<Assumption>), DiagnosisError> {
    let added = Added::default();
    consequence_of(profile, measured, evidence, &added, oil_temperature_k)
}

/// As [`consequence`], with what a repair adds to the valve: a sleeve that leaks around its outside,
/// a spring with a tolerance. The valve as new has neither.
///
/// # Errors
/// As [`consequence`].
pub fn consequence_with(
    profile: &BoreProfile,
    evidence: &SealEvidence,
    added: &Added,
    oil_temperature_k: f64,
) -> Result<(Consequence, Vec<Assumption>), DiagnosisError> {
    let measured = MeasuredBore::as_profile(profile);
    consequence_of(profile, &measured, evidence, added, oil_temperature_k)
}

fn consequence_of(
    profile: &BoreProfile,
    measured: &MeasuredBore,
    evidence: &SealEvidence,
    added: &Added,
    oil_temperature_k: f64,
) -> Result<(Consequence, Vec<Assumption>), DiagnosisError> {
    let oil = valve::oil_at(valve::unit_oil(profile)?, oil_temperature_k)?;
    let valves = Valves::new(profile, measured, evidence, added, oil_temperature_k, &oil)?;
    let highest = *need(profile.unit.line_highest_pa, "unit.line_highest_pa")?;
    let idle = *need(profile.unit.line_idle_pa, "unit.line_idle_pa")?;
    let setpoint = need(profile.circuit.setpoint_pa, "circuit.setpoint_pa")?;
    let specified_low = need(profile.circuit.specified_low_pa, "circuit.specified_low_pa")?;
    let specified_high = need(
        profile.circuit.specified_high_pa,
        "circuit.specified_high_pa",
    )?;
    let specified = (*specified_low, *specified_high);
    let lowest = 0.6 * idle.min(*setpoint);
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
        setpoint_pa: setpoint,
        specified_low_pa: specified_low,
        specified_high_pa: specified_high,
        curve,
        idle: valves.at(idle)?.operating_point(specified)?,
        highest_line: at_highest.operating_point(specified)?,
        band_from: at_highest.band_from(),
        stroke_m: Finite::try_from(at_highest.likely.spool_position.get::<meter>())?,
        leak_flow_m3_s: at_highest.leak_flow(&valves.tested_leaks)?,
    };
    Ok((consequence, valves.likely.assumptions().to_vec()))
}

/// One unknown at its two ends, as measured; each end names which of the new valves it is held
/// against.
struct Unknown {
    source: BandSource,
    ends: [(Circuit, usize); 2],
}

/// The circuits to solve: as new and as measured, and with each unknown at either end.
struct Valves {
    /// As new, by the orifice law as it is and by those that pass least and most.
    new: Vec<Circuit>,
    /// As measured, likely.
    likely: Circuit,
    unknowns: Vec<Unknown>,
    /// Tested and untested seals both leaking most: only to tell whether control may be lost.
    worst: Circuit,
    tested_leaks: Vec<usize>,
    friction: bool,
}

impl Valves {
    fn new(
        as_specified: &BoreProfile,
        measured: &MeasuredBore,
        evidence: &SealEvidence,
        added: &Added,
        oil_temperature_k: f64,
        oil: &OilState,
    ) -> Result<Self, DiagnosisError> {
        let profile = &measured.profile;
        let states = WornStates::of(evidence);
        let describe = |parts: &BoreProfile, tested: SealState, untested: SealState| {
            let wear = Wear {
                tested_lands: &evidence.tested_lands,
                tested,
                untested,
            };
            valve::regulator(parts, &wear, oil_temperature_k)
        };
        // With what the repair adds: the seat as likely, the spring as stated.
        let circuit_of = |parts: &BoreProfile, tested: SealState, untested: SealState| {
            let mut regulator = describe(parts, tested, untested)?;
            added.put_seat(parts, &mut regulator, 1, oil_temperature_k)?;
            Ok::<_, DiagnosisError>((regulator.circuit(oil)?, regulator))
        };
        let circuit = |tested, untested| circuit_of(profile, tested, untested);
        let as_new = describe(as_specified, states.new, states.new)?.circuit(oil)?;
        let (likely, description) = circuit(states.tested, states.untested)?;
        let with_tested = |[low, high]: [SealState; 2]| {
            let low = (circuit(low, states.untested)?.0, 0);
            Ok::<_, DiagnosisError>([low, (circuit(high, states.untested)?.0, 0)])
        };
        let (worst, _) = circuit(states.tested_by_eccentricity[1], states.untested_ends[1])?;
        let mut unknowns = vec![
            Unknown {
                source: BandSource::Eccentricity,
                ends: with_tested(states.tested_by_eccentricity)?,
            },
            Unknown {
                source: BandSource::Reading,
                ends: with_tested(states.tested_by_reading)?,
            },
        ];
        if added.seat.is_some() {
            let seated = |end: usize| {
                let mut regulator = describe(profile, states.tested, states.untested)?;
                added.put_seat(profile, &mut regulator, end, oil_temperature_k)?;
                Ok::<_, DiagnosisError>((regulator.circuit(oil)?, 0))
            };
            unknowns.push(Unknown {
                source: BandSource::SleeveSeat,
                ends: [seated(0)?, seated(2)?],
            });
        }
        if let Some(ends) = added.spring_load {
            let sprung = |by: uom::si::f64::Force| {
                let (_, mut regulator) = circuit(states.tested, states.untested)?;
                regulator.spring.load_at_rest += by;
                Ok::<_, DiagnosisError>((regulator.circuit(oil)?, 0))
            };
            unknowns.push(Unknown {
                source: BandSource::SpringLoad,
                ends: [sprung(ends[0])?, sprung(ends[1])?],
            });
        }
        let is_tested = |land: &str| evidence.tested_lands.iter().any(|name| name == land);
        let tested_leaks: Vec<usize> = valve::seals(profile)
            .enumerate()
            .filter(|(_, (land, _))| is_tested(&land.name))
            .map(|(i, _)| i)
            .collect();
        if tested_leaks.len() < valve::seals(profile).count() {
            let [low, high] = states.untested_ends;
            let ends = [
                (circuit(states.tested, low)?.0, 0),
                (circuit(states.tested, high)?.0, 0),
            ];
            unknowns.push(Unknown {
                source: BandSource::UntestedSeals,
                ends,
            });
        }
        let mut part = |source, ends: Option<[BoreProfile; 2]>| -> Result<(), DiagnosisError> {
            if let Some([low, high]) = ends {
                let of = |parts: &BoreProfile| circuit_of(parts, states.tested, states.untested);
                let ends = [(of(&low)?.0, 0), (of(&high)?.0, 0)];
                unknowns.push(Unknown { source, ends });
            }
            Ok(())
        };
        let loads = measured.spring_load_n;
        part(
            BandSource::SpringLoad,
            loads.map(|ends| ends.map(|load| measured.with_spring_load(load))),
        )?;
        let bores = measured.orifice_m;
        part(
            BandSource::OrificeBore,
            bores.map(|ends| ends.map(|bore| measured.with_orifice(bore))),
        )?;
        let mut new = vec![as_new];
        if let Some(orifice) = description.balance_orifice {
            // The spread of the orifice laws, at the drop that the leak makes.
            let highest = need(profile.unit.line_highest_pa, "unit.line_highest_pa")?;
            let highest = Pressure::new::<pascal>(*highest);
            let balance = likely.solve(highest, Branch::Frictionless)?;
            let discharge = orifice.flow(balance.feed - balance.reaction, oil)?;
            let share = |flow| ratio_of(flow, discharge.flow);
            if let (Some(low), Some(high)) = (share(discharge.flow_low), share(discharge.flow_high))
            {
                let scaled = |circuit: &Circuit, scale: f64| {
                    circuit
                        .clone()
                        .with_orifice_scale(Ratio::new::<ratio>(scale))
                };
                let ends = [(scaled(&likely, low)?, 1), (scaled(&likely, high)?, 2)];
                new.extend([scaled(&new[0], low)?, scaled(&new[0], high)?]);
                unknowns.push(Unknown {
                    source: BandSource::OrificeModel,
                    ends,
                });
            }
        }
        let friction = *need(profile.bore.spool.friction_n, "bore.spool.friction_n")? > 0.0;
        Ok(Self {
            new,
            likely,
            unknowns,
            worst,
            tested_leaks,
            friction,
        })
    }

    fn at(&self, line_pa: f64) -> Result<AtLine, DiagnosisError> {
        let line = Pressure::new::<pascal>(line_pa);
        let solve = |circuit: &Circuit| circuit.solve(line, Branch::Frictionless);
        let mut unknowns = Vec::new();
        for unknown in &self.unknowns {
            let [(low, law_low), (high, law_high)] = &unknown.ends;
            let ends = [(solve(low)?, *law_low), (solve(high)?, *law_high)];
            unknowns.push((unknown.source, ends));
        }
        let friction = |circuit: &Circuit| -> Result<Option<[f64; 2]>, DiagnosisError> {
            if !self.friction {
                return Ok(None);
            }
            let feed = |branch| {
                circuit
                    .solve(line, branch)
                    .map(|balance| balance.feed.value)
            };
            Ok(Some([feed(Branch::Falling)?, feed(Branch::Rising)?]))
        };
        Ok(AtLine {
            line_pa,
            new: self.new.iter().map(solve).collect::<Result<_, _>>()?,
            new_friction: self.new.first().map(friction).transpose()?.flatten(),
            likely: solve(&self.likely)?,
            worst: solve(&self.worst)?,
            friction: friction(&self.likely)?,
            unknowns,
        })
    }
}

/// The regulator with its seals as they likely are, and what a repair adds.
///
/// # Errors
/// As [`consequence`].
pub(crate) fn likely_regulator(
    profile: &BoreProfile,
    evidence: &SealEvidence,
    added: &Added,
    oil_temperature_k: f64,
) -> Result<Regulator, DiagnosisError> {
    let states = WornStates::of(evidence);
    let wear = Wear {
        tested_lands: &evidence.tested_lands,
        tested: states.tested,
        untested: states.untested,
    };
    let mut regulator = valve::regulator(profile, &wear, oil_temperature_k)?;
    added.put_seat(profile, &mut regulator, 1, oil_temperature_k)?;
    Ok(regulator)
}

fn ratio_of(part: uom::si::f64::VolumeRate, whole: uom::si::f64::VolumeRate) -> Option<f64> {
    let whole = whole.get::<cubic_meter_per_second>();
    (whole.abs() > 0.0).then(|| part.get::<cubic_meter_per_second>() / whole)
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
