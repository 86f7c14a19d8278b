//! From the reading on a bore to the leak of its gap.

use std::f64::consts::PI;

use uom::si::f64::{Force, Length, Pressure, Ratio, Volume};
use uom::si::force::newton;
use uom::si::ratio::ratio;
use uom::si::volume::cubic_meter;

use super::refusal::{Refusal, blank_refusal, reading_refusal};
use super::{
    BalanceOrifice, Blank, Leak, MOST_CORRECTABLE_DROP, NEGLIGIBLE_DROP, TestLand, VacuumStand,
};
use crate::air::Air;
use crate::assumption::{Assumption, note};
use crate::error::PhysicsError;
use crate::gap_air::{self, Seal};
use crate::hole::Hole;
use crate::quantity::{Interval, Throughput, pascals, throughput};
use crate::range::{self, within};

/// Whether there is oil in the gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BoreCondition {
    /// Cleaned and dry.
    Dry,
    /// Oiled: the film fills part of the gap, and the leak goes with its cube.
    Oiled,
}

/// Where the valve is during the test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ValvePlacement {
    /// On its stop, spring in.
    AtRest,
    /// Held at the regulating position.
    HeldRegulating,
    /// Spring out.
    SpringOut,
    /// Not in the bore.
    Absent,
}

/// A vacuum test of one bore with its whole set-up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoreTest<'a> {
    /// The gauge's reading below ambient (the mean, where repeated).
    pub reading: Pressure,
    /// Barometer (station pressure) during the test.
    pub barometer: Pressure,
    /// Air in the shop.
    pub air: Air,
    /// The stand; `None` when it was never calibrated.
    pub stand: Option<&'a VacuumStand>,
    /// Dry or oiled.
    pub condition: BoreCondition,
    /// Where the valve is.
    pub placement: ValvePlacement,
    /// The balance orifice.
    pub orifice: BalanceOrifice,
    /// Plug and plate; `None` when no blank test was made.
    pub blank: Option<Blank>,
    /// The lands that seal the tested chamber, as engaged in the test.
    pub lands: &'a [TestLand],
    /// xi of entry and exit; `None` for [`gap_air::ENTRY_EXIT_LOSS`].
    pub entry_exit_loss: Option<Ratio>,
}

/// The leak of the gap alone.
#[derive(Debug, Clone, PartialEq)]
pub struct BoreLeak {
    /// Throughput through the gap, orifice and blank taken off.
    pub throughput: Throughput,
    /// Throughput of plug and plate at the chamber's pressure.
    pub blank_throughput: Throughput,
    /// Absolute pressure in the tested chamber.
    pub chamber_pressure: Pressure,
    /// Absolute pressure at the port.
    pub port_pressure: Pressure,
    /// Share of the drop from ambient to port that the orifice in series takes; 0 without one.
    pub orifice_drop_fraction: Ratio,
    /// Radial clearance, from touching (low) to centred (high).
    pub radial_clearance: Interval<Length>,
    /// Sum of K over the lands. Both eccentricities give nearly the same.
    pub gap_factor: Interval<Volume>,
    /// Diameter of the drilled hole with the same throughput here.
    pub equivalent_hole: Length,
    /// Largest Reynolds number among the lands, centred.
    pub reynolds: Ratio,
    /// Largest slip correction 6 l/c among the lands, touching.
    pub slip_fraction: Ratio,
    /// Largest share of entry and exit loss among the lands, touching.
    pub inertia_fraction: Ratio,
    /// Whether any land is choked, for either eccentricity.
    pub choked: bool,
    /// The gap alone as a leak, centred: for the reading it would give elsewhere.
    pub leak: Leak,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// Turns a reading into the leak of the bore's gap.
///
/// Blank and parallel orifice come off as flows at the chamber's actual pressure. An orifice in
/// series is left out when it takes under [`NEGLIGIBLE_DROP`] of the drop, and corrected up to
/// [`MOST_CORRECTABLE_DROP`].
///
/// # Errors
/// A [`Refusal`]: what the set-up can't carry, or the input that is out of range.
pub fn bore_leak(test: &BoreTest) -> Result<BoreLeak, Refusal> {
    let p_a = range::BAROMETER.check(test.barometer.value)?;
    within("vacuum_reading_pa", test.reading.value, 0.0, p_a, "Pa")?;
    if test.placement == ValvePlacement::Absent {
        return Err(Refusal::ValveAbsent);
    }
    if test.condition == BoreCondition::Oiled {
        return Err(Refusal::Oiled);
    }
    let stand = test.stand.ok_or(Refusal::NoCalibratedStand)?;
    let port = stand
        .interpret(test.reading, test.barometer)
        .map_err(reading_refusal)?;
    let mut assumptions = stand.assumptions();

    let (p_port, q) = (port.port_pressure.value, port.throughput.value);
    let (p_f, drop) = chamber(test, q, p_port, p_a, &mut assumptions)?;
    let background = match &test.blank {
        Some(blank) => {
            note(&mut assumptions, blank.assumption());
            let leak = blank.leak(stand, &test.air).map_err(blank_refusal)?;
            leak.throughput_si(&test.air, p_a, p_f)
        }
        None => {
            note(&mut assumptions, Assumption::BlankNeglected);
            0.0
        }
    };
    let beside = test.orifice.parallel_si(&test.air, p_a, p_f);
    let net = q - background - beside;
    if net <= 0.0 {
        return Err(if q - beside <= 0.0 && beside > 0.0 {
            Refusal::ParallelOrificeExceedsReading
        } else if background > 0.0 {
            Refusal::BlankExceedsReading
        } else {
            Refusal::NoClearanceFits
        });
    }

    let seals: Vec<Seal> = test.lands.iter().map(|land| land.seal(p_a)).collect();
    let centred = Shape::of(test, &seals, net, p_f, 0.0)?;
    let touching = Shape::of(test, &seals, net, p_f, 1.0)?;
    for extra in centred.assumptions.iter().chain(&touching.assumptions) {
        note(&mut assumptions, *extra);
    }
    note(&mut assumptions, Assumption::EccentricityUnknown);
    if seals.len() > 1 {
        note(&mut assumptions, Assumption::SharedClearance);
    }
    let hole = Hole::passing(throughput(net), &test.air, test.barometer, pascals(p_f))?;
    Ok(BoreLeak {
        throughput: throughput(net),
        blank_throughput: throughput(background),
        chamber_pressure: pascals(p_f),
        port_pressure: port.port_pressure,
        orifice_drop_fraction: Ratio::new::<ratio>(drop),
        radial_clearance: Interval::between(touching.clearance, centred.clearance),
        gap_factor: Interval::between(touching.gap_factor, centred.gap_factor),
        equivalent_hole: hole.diameter(None)?,
        reynolds: Ratio::new::<ratio>(centred.reynolds),
        slip_fraction: Ratio::new::<ratio>(touching.slip),
        inertia_fraction: Ratio::new::<ratio>(touching.inertia),
        choked: centred.choked || touching.choked,
        leak: Leak::Lands {
            lands: test.lands.to_vec(),
            radial_clearance: centred.clearance,
            eccentricity: Ratio::new::<ratio>(0.0),
            entry_exit_loss: test.entry_exit_loss,
        },
        assumptions,
    })
}

/// Force with which the vacuum pulls on a spool's end, (p_a - p) pi D^2 / 4: enough to move it off
/// its stop (4 N on 8 mm), so the placement is asked for.
///
/// # Errors
/// [`PhysicsError`] naming `vacuum_reading_pa` or `bore_diameter_m`.
pub fn vacuum_force(reading: Pressure, diameter: Length) -> Result<Force, PhysicsError> {
    let vacuum = range::VACUUM_READING.check(reading.value)?;
    let d = range::BORE_DIAMETER.check(diameter.value)?;
    Ok(Force::new::<newton>(vacuum * PI / 4.0 * d * d))
}

/// Chamber pressure and the series orifice's share of the drop.
fn chamber(
    test: &BoreTest,
    q: f64,
    p_port: f64,
    p_a: f64,
    assumptions: &mut Vec<Assumption>,
) -> Result<(f64, f64), Refusal> {
    match test.orifice {
        BalanceOrifice::Blocked => Ok((p_port, 0.0)),
        BalanceOrifice::InParallel(_) => {
            note(assumptions, Assumption::ParallelOrificeSubtracted);
            Ok((p_port, 0.0))
        }
        BalanceOrifice::InSeries(_) => {
            let upstream = test.orifice.chamber_si(&test.air, q, p_port);
            let fraction = (upstream - p_port) / (p_a - p_port).max(f64::MIN_POSITIVE);
            if fraction > MOST_CORRECTABLE_DROP {
                return Err(Refusal::OrificeTakesDrop { fraction });
            }
            if fraction < NEGLIGIBLE_DROP {
                note(assumptions, Assumption::SeriesOrificeNeglected);
                return Ok((p_port, fraction));
            }
            note(assumptions, Assumption::SeriesOrificeCorrected);
            Ok((upstream, fraction))
        }
    }
}

/// The gap that passes the flow, for one eccentricity.
struct Shape {
    clearance: Length,
    gap_factor: Volume,
    reynolds: f64,
    slip: f64,
    inertia: f64,
    choked: bool,
    assumptions: Vec<Assumption>,
}

impl Shape {
    fn of(test: &BoreTest, seals: &[Seal], q: f64, p_f: f64, e: f64) -> Result<Self, Refusal> {
        let e = Ratio::new::<ratio>(e);
        let (xi, p_f) = (test.entry_exit_loss, pascals(p_f));
        let clearance =
            gap_air::clearance(throughput(q), seals, &test.air, p_f, e, xi).map_err(|error| {
                match error {
                    PhysicsError::NoSolution {
                        what: "radial_clearance_m",
                    } => Refusal::NoClearanceFits,
                    other => Refusal::Input(other),
                }
            })?;
        let mut shape = Self {
            clearance,
            gap_factor: Volume::new::<cubic_meter>(0.0),
            reynolds: 0.0,
            slip: 0.0,
            inertia: 0.0,
            choked: false,
            assumptions: Vec::new(),
        };
        for seal in seals {
            let gap = seal.land.gap(clearance, e)?;
            let flow = gap_air::flow(&gap, &test.air, seal.far_side, p_f, xi)?;
            shape.gap_factor += gap.gap_factor();
            shape.reynolds = shape.reynolds.max(flow.reynolds.get::<ratio>());
            shape.slip = shape.slip.max(flow.slip_fraction.get::<ratio>());
            shape.inertia = shape.inertia.max(flow.inertia_fraction.get::<ratio>());
            shape.choked |= flow.choked;
            for extra in flow.assumptions {
                note(&mut shape.assumptions, extra);
            }
        }
        Ok(shape)
    }
}
