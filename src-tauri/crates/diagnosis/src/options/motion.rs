//! Whether a valve would swing: the eigenvalues of its small motions, for what is typical and with
//! each unmeasured figure at either end, at hot idle and at the highest line, hot and cold.

use model::Finite;
use physics::PhysicsError;
use physics::regulator::Regulator;
use physics::regulator::dynamic::{MovingRegulator, OilStiffness, ViscousDamping, film_damping};
use uom::si::f64::{Mass, Pressure, Ratio, Volume};
use uom::si::frequency::hertz;
use uom::si::mass::kilogram;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume::cubic_meter;

use super::answer::{MotionAhead, MotionStands};
use super::draft::Draft;
use crate::error::DiagnosisError;
use crate::pressure::{self, SealEvidence};
use crate::repair::{added, repaired};
use crate::valve::{self, need};

/// One set of figures that nobody measured (common practice, no source).
#[derive(Clone, Copy)]
struct Unmeasured {
    /// Valve with a third of its spring, kg.
    mass_kg: f64,
    /// Oil between valve and solenoids, m³.
    feed_m3: f64,
    /// Reaction chamber, m³.
    reaction_m3: f64,
    /// Free air by volume at the barometer.
    air: f64,
}

const TYPICAL: Unmeasured = Unmeasured {
    mass_kg: 0.02,
    feed_m3: 3.0e-5,
    reaction_m3: 4.0e-7,
    air: 0.01,
};

/// What is tried: what is typical, and each figure at either end.
fn tried() -> [Unmeasured; 7] {
    [
        TYPICAL,
        Unmeasured {
            mass_kg: 0.005,
            ..TYPICAL
        },
        Unmeasured {
            mass_kg: 0.04,
            ..TYPICAL
        },
        Unmeasured {
            feed_m3: 1.0e-5,
            ..TYPICAL
        },
        Unmeasured {
            feed_m3: 1.0e-4,
            ..TYPICAL
        },
        Unmeasured {
            air: 0.002,
            ..TYPICAL
        },
        Unmeasured {
            air: 0.05,
            ..TYPICAL
        },
    ]
}

/// The motion of a way; withheld where nothing can be solved.
pub(super) fn motion(
    draft: &Draft,
    seals: Option<&SealEvidence>,
    temperatures_k: [f64; 2],
) -> Result<MotionAhead, DiagnosisError> {
    let Some(seals) = seals else {
        return Ok(MotionAhead::Withheld);
    };
    match modes(draft, seals, temperatures_k) {
        Ok(found) => Ok(found),
        Err(DiagnosisError::ProfileIncomplete { .. } | DiagnosisError::Physics(_)) => {
            Ok(MotionAhead::Withheld)
        }
        Err(other) => Err(other),
    }
}

fn modes(
    draft: &Draft,
    seals: &SealEvidence,
    temperatures_k: [f64; 2],
) -> Result<MotionAhead, DiagnosisError> {
    let after = repaired(&draft.profile, &draft.work, draft.relief.as_ref());
    let added = added(&draft.profile, &draft.work);
    let lines = [
        need(after.unit.line_idle_pa, "unit.line_idle_pa")?,
        need(after.unit.line_highest_pa, "unit.line_highest_pa")?,
    ];
    let (mut stable, mut unstable) = (0, 0);
    let mut least: Option<(f64, f64)> = None;
    for temperature in temperatures_k {
        let oil = valve::oil_at(valve::unit_oil(&after)?, temperature)?;
        let regulator = pressure::likely_regulator(&after, seals, &added, temperature)?;
        let mut films = ViscousDamping::new::<kilogram_per_second>(0.0);
        for leak in &regulator.leaks {
            films += film_damping(&leak.annulus, &oil)?;
        }
        for unmeasured in tried() {
            let circuit = moving(&regulator, films, unmeasured).circuit(&oil)?;
            for line in lines {
                let line = Pressure::new::<pascal>(*line);
                let found = match circuit.stability(line, Ratio::new::<ratio>(1.0)) {
                    Ok(found) => found,
                    Err(PhysicsError::NoSolution { .. }) => continue,
                    Err(other) => return Err(other.into()),
                };
                if found.stable {
                    stable += 1;
                } else {
                    unstable += 1;
                }
                for mode in &found.modes {
                    let damping = mode.damping_ratio.get::<ratio>();
                    let frequency = mode.frequency.get::<hertz>();
                    if least.is_none_or(|(known, _)| damping < known) {
                        least = Some((damping, frequency));
                    }
                }
            }
        }
    }
    let Some((damping, frequency)) = least else {
        return Ok(MotionAhead::Withheld);
    };
    Ok(MotionAhead::Known {
        stands: match (stable, unstable) {
            (_, 0) => MotionStands::Settles,
            (0, _) => MotionStands::Hunts,
            _ => MotionStands::MayHunt,
        },
        least_damping_ratio: Finite::try_from(damping)?,
        frequency_hz: Finite::try_from(frequency)?,
    })
}

fn moving(regulator: &Regulator, films: ViscousDamping, figures: Unmeasured) -> MovingRegulator {
    let volume = Volume::new::<cubic_meter>;
    let one = Ratio::new::<ratio>;
    MovingRegulator {
        regulator: regulator.clone(),
        spool_mass: Mass::new::<kilogram>(figures.mass_kg),
        damping: films,
        breakaway: one(1.3),
        feed_volume: volume(figures.feed_m3),
        reaction_volume: volume(figures.reaction_m3),
        chamber_volume: volume(6.0e-7),
        oil_stiffness: OilStiffness {
            liquid: Pressure::new::<pascal>(1.4e9),
            entrained_air: one(figures.air),
            exponent: one(1.0),
            barometer: Pressure::new::<pascal>(101_325.0),
        },
    }
}
