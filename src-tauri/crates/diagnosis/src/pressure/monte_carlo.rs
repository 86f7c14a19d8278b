//! The band of the regulated pressure by Monte Carlo, beside the one by quadrature.
//!
//! The quadrature of [`super`] moves one unknown at a time and adds what it does; this draws all of
//! them together, so it sees what they do in company (a wide gap and a short land and the valve on
//! one side), and it gives the share of cases in which the valve no longer regulates. It states a
//! 95 % coverage interval, where the quadrature states the ends that each unknown may reach: so the
//! two don't mean the same, and this one is the narrower as a rule. Always with the same seed, so
//! the same evidence gives the same band.
//!
//! The judgement keeps the quadrature: eccentricity is unknown rather than spread, so its ends are
//! what may be, and a curve of 41 line pressures costs some ten solutions each, not thousands. Where
//! the bore is worn the quadrature's band is the wider one; in a good bore this one is, for the
//! quadrature doesn't move the spring.
//!
//! | unknown | drawn as |
//! | --- | --- |
//! | eccentricity in the test | evenly 0 to 1 |
//! | eccentricity in service, tested and untested seals each | evenly 0 to 1 |
//! | the reading | normal, its low and high ends two deviations out, in the logarithm |
//! | the blank | evenly within what [`Spreads`] says of the flow subtracted |
//! | clearance of untested seals | each factor between new and as worn as the tested alike |
//! | engaged lengths, orifice, spring | evenly within what [`Spreads`] says |
//! | laws of small orifices | evenly from the least to the most that the published ones pass |
//! | entry and exit loss of gaps | evenly 1.5 to 2 |
//! | friction | evenly between both ways |

use std::sync::atomic::{AtomicUsize, Ordering};

use metrology::Law;
use metrology::monte_carlo::{MonteCarlo, Plan, UncertainInput, monte_carlo};
use metrology::shares::{VarianceShares, variance_shares};
use model::Finite;
use model::geometry;
use model::unit::{BoreProfile, OpeningRole};
use physics::PhysicsError;
use physics::fluid::OilState;
use physics::gap::Annulus;
use physics::regulator::{Branch, Circuit, Regulator, RegulatorState, Variation};
use physics::spring::Spring;
use uom::si::f64::{Force, Length, Pressure, Ratio};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

use super::SealEvidence;
use super::worn::WornStates;
use crate::error::DiagnosisError;
use crate::judgement::Span;
use crate::valve::{self, BENCH_TEMPERATURE_K, Wear, clearance_between, metres};

/// The seed of every band.
pub const SEED: u64 = 20_261_125;

/// Share of the distribution that the band holds.
pub const COVERAGE: f64 = 0.95;

/// How far the smaller unknowns may be off, each as a half-width around what the profile or the law
/// says. The numbers are our own choice (`common practice, no source`): what a calliper, a plug
/// gauge and a spring tester leave open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spreads {
    /// Engaged lengths, tested and untested seals each together.
    pub engaged_length_ratio: f64,
    /// What the balance orifice passes, its bore and its edge not being as drawn.
    pub orifice_flow_ratio: f64,
    /// Load of the spring at the regulating position.
    pub spring_load_ratio: f64,
    /// Flow of the tested leak, for want of knowing the blank that was subtracted.
    pub blank_flow_ratio: f64,
    /// Dynamic pressures lost at entry and exit of a gap, from and to.
    pub entry_exit_loss: [f64; 2],
}

impl Default for Spreads {
    fn default() -> Self {
        Self {
            engaged_length_ratio: 0.10,
            orifice_flow_ratio: 0.05,
            spring_load_ratio: 0.02,
            blank_flow_ratio: 0.0,
            entry_exit_loss: [1.5, 2.0],
        }
    }
}

impl Spreads {
    /// With a blank that took `share` (0 to under 1) of the whole flow and is itself good to a
    /// fifth.
    #[must_use]
    pub fn with_blank(self, share: f64) -> Self {
        let share = share.clamp(0.0, 0.9);
        Self {
            blank_flow_ratio: 0.2 * share / (1.0 - share),
            ..self
        }
    }
}

/// The regulated pressure at one line pressure, as measured.
#[derive(Debug, Clone, PartialEq)]
pub struct FeedBand {
    /// Line pressure, Pa.
    pub line_pa: Finite,
    /// Feed, Pa: the probabilistically symmetric 95 % interval about the median.
    pub feed_pa: Span,
    /// The ends of the shortest 95 % interval, Pa.
    pub shortest_pa: [Finite; 2],
    /// Mean, Pa.
    pub mean_pa: Finite,
    /// Standard uncertainty, Pa.
    pub deviation_pa: Finite,
    /// Skewness; none when nothing varies.
    pub skewness: Option<Finite>,
    /// Share of the trials in which the spool regulates, 0 to 1.
    pub regulating_share: Finite,
    /// Share of the trials that had no answer (the valve seizes, a number leaves its range), 0 to
    /// 1; the rest is of the others.
    pub failed_share: Finite,
}

/// The valve as the profile says it is, and how its unknowns are spread: ready to be drawn.
#[derive(Debug, Clone)]
pub struct SampledValve {
    circuit: Circuit,
    seals: Vec<SampledSeal>,
    inputs: [UncertainInput; INPUTS],
    clearances: Clearances,
    spring: Spring,
    /// Load of the spring at the regulating position.
    load_regulating: Force,
    friction: f64,
    supply: EdgeLand,
    exhaust: EdgeLand,
}

#[derive(Debug, Clone, Copy)]
struct SampledSeal {
    tested: bool,
    diameter: f64,
    length: f64,
    new: f64,
}

/// The land of a metering edge.
#[derive(Debug, Clone, Copy)]
struct EdgeLand {
    tested: bool,
    new: f64,
}

/// Radial clearances of the evidence, and what heat makes of one: a straight line.
#[derive(Debug, Clone, Copy)]
struct Clearances {
    centred: [f64; 3],
    off_centre: [f64; 3],
    hot_offset: f64,
    hot_slope: f64,
}

impl Clearances {
    /// Of the tested seals at 20 °C, from the eccentricity in the test and the reading's normal
    /// number.
    fn tested(&self, eccentricity: f64, z: f64) -> f64 {
        let likely = power_between(self.centred[1], self.off_centre[1], eccentricity);
        let end = usize::from(z > 0.0) * 2;
        let out = power_between(self.centred[end], self.off_centre[end], eccentricity);
        likely * (out / likely).powf(0.5 * z.abs())
    }

    fn hot(&self, cold: f64) -> f64 {
        self.hot_offset + self.hot_slope * cold
    }
}

/// Between the clearance found centred and that found off-centre: both leak alike, so the cube
/// goes with 1 / (1 + 1.5 e^2), from 1 to 1 / 2.5.
fn power_between(centred: f64, off_centre: f64, e: f64) -> f64 {
    centred * (off_centre / centred).powf((1.5 * e * e).ln_1p() / 2.5f64.ln())
}

impl SampledValve {
    /// # Errors
    /// [`DiagnosisError`] when the profile lacks a part or the physics or the metrology refuses a
    /// figure.
    pub fn new(
        profile: &BoreProfile,
        evidence: &SealEvidence,
        oil_temperature_k: f64,
        spreads: &Spreads,
    ) -> Result<Self, DiagnosisError> {
        let missing = |part| DiagnosisError::ProfileIncomplete { part };
        let oil = valve::oil_at(valve::unit_oil(profile)?, oil_temperature_k)?;
        let states = WornStates::of(evidence);
        let wear = Wear {
            tested_lands: &evidence.tested_lands,
            tested: states.tested,
            untested: states.untested,
        };
        let regulator = valve::regulator(profile, &wear, oil_temperature_k)?;
        let stroke = geometry::regulating_stroke(profile).ok_or(missing("openings"))?;
        let is_tested = |land: &str| evidence.tested_lands.iter().any(|name| name == land);
        let seals = valve::seals(profile)
            .map(|(land, seal)| {
                Ok(SampledSeal {
                    tested: is_tested(&land.name),
                    diameter: *valve::need(land.diameter_m, "lands.diameter_m")?,
                    length: geometry::engaged_length(profile, land, seal, stroke),
                    new: valve::needed_clearance(profile, land)?.get::<meter>(),
                })
            })
            .collect::<Result<_, DiagnosisError>>()?;
        let edge = |role| {
            let land = profile
                .opening(role)
                .and_then(|opening| profile.land(&opening.land));
            land.map(|land| {
                Ok::<_, DiagnosisError>(EdgeLand {
                    tested: is_tested(&land.name),
                    new: valve::needed_clearance(profile, land)?.get::<meter>(),
                })
            })
            .transpose()
        };
        let supply = edge(OpeningRole::Supply)?.ok_or(missing("openings"))?;
        let hot = |cold: f64| {
            clearance_between(
                &profile.bore,
                metres(cold),
                BENCH_TEMPERATURE_K,
                oil_temperature_k,
            )
            .map(|hot| hot.get::<meter>())
        };
        let (low, high) = (hot(10e-6)?, hot(60e-6)?);
        let hot_slope = (high - low) / 50e-6;
        let metres_of = |ends: [Length; 3]| ends.map(|c| c.get::<meter>());
        let circuit = regulator.circuit(&oil)?;
        let highest = *valve::need(profile.unit.line_highest_pa, "unit.line_highest_pa")?;
        let laws = orifice_laws(&regulator, &circuit, highest, &oil)?;
        Ok(Self {
            seals,
            inputs: inputs(spreads, laws),
            clearances: Clearances {
                centred: metres_of(evidence.centred),
                off_centre: metres_of(evidence.off_centre),
                hot_offset: low - hot_slope * 10e-6,
                hot_slope,
            },
            spring: regulator.spring,
            load_regulating: Force::new::<newton>(
                profile
                    .spring
                    .as_ref()
                    .and_then(|spring| spring.load_regulating_n)
                    .map_or(0.0, |load| *load),
            ),
            friction: *valve::need(profile.bore.spool.friction_n, "bore.spool.friction_n")?,
            supply,
            exhaust: edge(OpeningRole::Exhaust)?.unwrap_or(supply),
            circuit,
        })
    }

    /// The band at one line pressure from `trials` (100 to 20 million) on all cores.
    ///
    /// # Errors
    /// [`DiagnosisError::Metrology`] when most trials have no answer; [`DiagnosisError::Physics`]
    /// for a line pressure out of range.
    pub fn feed_band(&self, line_pa: f64, trials: usize) -> Result<FeedBand, DiagnosisError> {
        self.feed_band_while(line_pa, &Plan::fixed(SEED, trials), &|| true)
    }

    /// As [`SampledValve::feed_band`] by a plan of the caller's. `go_on` is asked before each trial,
    /// from any thread; once it says no, all that is left fails at once.
    ///
    /// # Errors
    /// As there.
    pub fn feed_band_while(
        &self,
        line_pa: f64,
        plan: &Plan,
        go_on: &(dyn Fn() -> bool + Sync),
    ) -> Result<FeedBand, DiagnosisError> {
        let line = checked(line_pa)?;
        let regulating = AtomicUsize::new(0);
        let run = monte_carlo(&self.inputs, &[], plan, || {
            let mut gaps = Vec::with_capacity(self.seals.len());
            let regulating = &regulating;
            move |x: &[f64]| {
                let (feed, state) = self.feed_while(&mut gaps, x, line, go_on)?;
                if state.regulates() {
                    regulating.fetch_add(1, Ordering::Relaxed);
                }
                Ok(feed)
            }
        })?;
        band(line_pa, &run, regulating.into_inner())
    }

    /// What brings the spread of feed at one line pressure, widest first: Sobol's indices by the
    /// names of the inputs, from `trials` of fifteen solutions each.
    ///
    /// # Errors
    /// As [`SampledValve::feed_band`].
    pub fn feed_shares(
        &self,
        line_pa: f64,
        trials: usize,
    ) -> Result<VarianceShares<PhysicsError>, DiagnosisError> {
        self.feed_shares_while(line_pa, SEED, trials, &|| true)
    }

    /// As [`SampledValve::feed_shares`] with a seed of the caller's; `go_on` as in
    /// [`SampledValve::feed_band_while`], asked before each solution.
    ///
    /// # Errors
    /// As there.
    pub fn feed_shares_while(
        &self,
        line_pa: f64,
        seed: u64,
        trials: usize,
        go_on: &(dyn Fn() -> bool + Sync),
    ) -> Result<VarianceShares<PhysicsError>, DiagnosisError> {
        let line = checked(line_pa)?;
        Ok(variance_shares(&self.inputs, seed, trials, None, || {
            let mut gaps = Vec::with_capacity(self.seals.len());
            move |x: &[f64]| {
                self.feed_while(&mut gaps, x, line, go_on)
                    .map(|(feed, _)| feed)
            }
        })?)
    }

    fn feed_while(
        &self,
        gaps: &mut Vec<Annulus>,
        x: &[f64],
        line: Pressure,
        go_on: &(dyn Fn() -> bool + Sync),
    ) -> Result<(f64, RegulatorState), PhysicsError> {
        if !go_on() {
            return Err(PhysicsError::NoSolution { what: "cancelled" });
        }
        self.feed(gaps, x, line)
    }

    /// One trial.
    fn feed(
        &self,
        gaps: &mut Vec<Annulus>,
        x: &[f64],
        line: Pressure,
    ) -> Result<(f64, RegulatorState), PhysicsError> {
        let [
            in_test,
            in_service,
            untested_service,
            reading,
            blank,
            untested,
            length_tested,
            length_untested,
            orifice,
            orifice_law,
            loss,
            load,
            rubs,
        ] = *x
        else {
            return Err(PhysicsError::TooFew {
                field: "seals",
                count: x.len(),
                least: INPUTS,
            });
        };
        // Flow goes with the cube of the gap.
        let tested = self.clearances.tested(in_test, reading) * (1.0 + blank).cbrt();
        let worn = self.clearances.centred[1];
        let cold = |is_tested: bool, new: f64| {
            if is_tested {
                tested
            } else {
                // Each factor between new and worn alike; as new where that is the wider.
                new * (worn.max(new) / new).powf(untested)
            }
        };
        gaps.clear();
        for seal in &self.seals {
            let (eccentricity, stretch) = if seal.tested {
                (in_service, length_tested)
            } else {
                (untested_service, length_untested)
            };
            let clearance = self.clearances.hot(cold(seal.tested, seal.new));
            gaps.push(Annulus::new(
                metres(seal.diameter + clearance),
                metres(clearance),
                metres(seal.length * (1.0 + stretch)),
                one(eccentricity),
            )?);
        }
        let edge = |land: EdgeLand| metres(self.clearances.hot(cold(land.tested, land.new)));
        let load_at_rest = self.spring.load_at_rest
            + self.load_regulating * load
            + Force::new::<newton>(self.friction * rubs);
        self.circuit
            .vary(&Variation {
                gaps,
                entry_exit_loss: one(loss),
                orifice_flow: one((1.0 + orifice) * orifice_law),
                spring: Spring {
                    load_at_rest,
                    ..self.spring
                },
                supply_clearance: edge(self.supply),
                exhaust_clearance: edge(self.exhaust),
            })?
            .feed(line, Branch::Frictionless)
            .map(|(feed, state)| (feed.get::<pascal>(), state))
    }
}

/// How many inputs a trial has.
const INPUTS: usize = 13;

/// The inputs, in the order in which [`SampledValve::feed`] takes them apart.
fn inputs(spreads: &Spreads, [law_low, law_high]: [f64; 2]) -> [UncertainInput; INPUTS] {
    let between = |name, low, high| UncertainInput {
        name,
        law: Law::Rectangular { low, high },
    };
    let around = |name, half: f64| between(name, -half, half);
    let [loss_low, loss_high] = spreads.entry_exit_loss;
    [
        between("eccentricity_in_test", 0.0, 1.0),
        between("eccentricity_tested", 0.0, 1.0),
        between("eccentricity_untested", 0.0, 1.0),
        UncertainInput {
            name: "reading",
            law: Law::Normal {
                mean: 0.0,
                deviation: 1.0,
            },
        },
        around("blank", spreads.blank_flow_ratio),
        between("untested_clearance", 0.0, 1.0),
        around("engaged_length_tested", spreads.engaged_length_ratio),
        around("engaged_length_untested", spreads.engaged_length_ratio),
        around("orifice_flow", spreads.orifice_flow_ratio),
        between("orifice_law", law_low, law_high),
        between("entry_exit_loss", loss_low, loss_high),
        around("spring_load", spreads.spring_load_ratio),
        around("friction", 1.0),
    ]
}

/// What the published laws of the balance orifice pass, least and most, over ours, at the drop that
/// the likely leak makes under the highest line pressure.
fn orifice_laws(
    regulator: &Regulator,
    circuit: &Circuit,
    highest_pa: f64,
    oil: &OilState,
) -> Result<[f64; 2], DiagnosisError> {
    let Some(orifice) = regulator.balance_orifice else {
        return Ok([1.0, 1.0]);
    };
    let balance = circuit.solve(Pressure::new::<pascal>(highest_pa), Branch::Frictionless)?;
    let discharge = orifice.flow(balance.feed - balance.reaction, oil)?;
    let share = |flow| super::ratio_of(flow, discharge.flow).unwrap_or(1.0);
    Ok([share(discharge.flow_low), share(discharge.flow_high)])
}

fn checked(line_pa: f64) -> Result<Pressure, DiagnosisError> {
    Ok(Pressure::new::<pascal>(
        physics::range::LINE_PRESSURE.check(line_pa)?,
    ))
}

fn one(share: f64) -> Ratio {
    Ratio::new::<ratio>(share)
}

fn band(
    line_pa: f64,
    run: &MonteCarlo<PhysicsError>,
    regulating: usize,
) -> Result<FeedBand, DiagnosisError> {
    let (even, shortest) = (run.symmetric(COVERAGE)?, run.shortest(COVERAGE)?);
    Ok(FeedBand {
        line_pa: Finite::try_from(line_pa)?,
        feed_pa: Span {
            low: Finite::try_from(even.low)?,
            likely: Finite::try_from(run.quantile(0.5)?)?,
            high: Finite::try_from(even.high)?,
        },
        shortest_pa: [
            Finite::try_from(shortest.low)?,
            Finite::try_from(shortest.high)?,
        ],
        mean_pa: Finite::try_from(run.mean)?,
        deviation_pa: Finite::try_from(run.deviation)?,
        skewness: run.skewness.map(Finite::try_from).transpose()?,
        regulating_share: Finite::try_from(regulating as f64 / run.trials as f64)?,
        failed_share: Finite::try_from(run.failure_share())?,
    })
}
