//! Line, feed and boost solved together: the circle that one worn bore closes.
//!
//! The main regulator makes line from spring and boost; the feed regulator makes feed from line;
//! the pressure-control solenoid makes boost from feed, at most feed; and boost makes line. So a
//! feed that is off moves line, and a line too low starves feed.
//!
//! Solved without a bare Newton step: line is the one outer root, bracketed; for each trial of line
//! the feed regulator's own bracketed balance tells feed, and where the boost chamber leaks, what
//! the solenoid draws from feed for it is a bracketed root in between (more drawn, lower feed,
//! less needed: one answer).

use std::sync::Arc;

use uom::si::f64::{Pressure, Ratio, VolumeRate};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::assumption::{Assumption, note};
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::main_regulator::{MainCircuit, MainPoint, MainRegulator, MainState, Pump, PumpLaw};
use crate::range;
use crate::regulator::{Branch, Circuit, OperatingPoint, Regulator, RegulatorState};
use crate::root::bracketed;

/// How the pressure-control solenoid makes its output.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PressureSolenoid {
    /// A spool with its own feedback: gives what it is commanded (0 to 10 MPa), as long as feed is
    /// above.
    ClosedLoop {
        /// The pressure asked for.
        command: Pressure,
    },
    /// A bleed between two restrictions: gives a share (0 to 1) of feed, and passes every shift of
    /// feed on in proportion.
    Bleed {
        /// The share.
        share: Ratio,
    },
}

/// Pump, main regulator, feed regulator and pressure-control solenoid.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplyCircuit {
    /// The pump at its speed.
    pub pump: Pump,
    /// What makes line.
    pub main: MainRegulator,
    /// What makes feed from line.
    pub feed: Regulator,
    /// What makes boost from feed.
    pub solenoid: PressureSolenoid,
}

/// Where control is lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LostControl {
    /// Demand and leaks take all that the pump delivers: line is below what spring and boost ask
    /// for.
    PumpStarved,
    /// The main regulator's edges are as wide as they get: line follows the pump's flow.
    MainEdgesTooSmall,
    /// The feed regulator is wide open: feed follows line.
    FeedFollowsLine,
    /// The feed regulator has shut its supply and feed is set by leaks.
    FeedByLeaks,
    /// The feed regulator's exhaust is as wide as it gets: line can drive feed up.
    FeedExhaustTooSmall,
    /// The solenoid is commanded to feed or above: it gives feed, whatever it is told.
    SolenoidGivesFeed,
}

impl LostControl {
    /// Stable name in snake_case, for records and for the interface's words.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::PumpStarved => "pump_starved",
            Self::MainEdgesTooSmall => "main_edges_too_small",
            Self::FeedFollowsLine => "feed_follows_line",
            Self::FeedByLeaks => "feed_by_leaks",
            Self::FeedExhaustTooSmall => "feed_exhaust_too_small",
            Self::SolenoidGivesFeed => "solenoid_gives_feed",
        }
    }
}

/// The whole circuit at rest.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplyPoint {
    /// Line, boost and the main regulator's flows.
    pub main: MainPoint,
    /// Feed and the feed regulator's flows; what the solenoid draws is in its mass balance.
    pub feed: OperatingPoint,
    /// What the solenoid gives.
    pub solenoid_output: Pressure,
    /// What it draws from feed for the boost chamber's leaks.
    pub solenoid_draw: VolumeRate,
    /// What it lets out to sump of oil that is pushed back from the boost chamber.
    pub solenoid_exhaust: VolumeRate,
    /// Where control is lost; empty when all is held.
    pub lost: Vec<LostControl>,
    /// What was assumed by all of it.
    pub assumptions: Arc<[Assumption]>,
}

/// A supply circuit in one oil, checked and ready to be solved.
#[derive(Debug, Clone)]
pub struct SupplyLaws {
    pump: PumpLaw,
    main: MainCircuit,
    feed: Circuit,
    solenoid: SolenoidLaw,
}

#[derive(Debug, Clone, Copy)]
enum SolenoidLaw {
    Command(f64),
    Share(f64),
}

impl SolenoidLaw {
    fn output(self, feed: f64) -> f64 {
        match self {
            Self::Command(command) => command.min(feed.max(0.0)),
            Self::Share(share) => share * feed.max(0.0),
        }
    }
}

impl SupplyCircuit {
    /// Checks every number and brings the circuit to one oil.
    ///
    /// # Errors
    /// As [`MainRegulator::circuit`] and [`Regulator::circuit`]; [`PhysicsError::OutOfRange`] for
    /// the pump or the solenoid.
    pub fn at(&self, oil: &OilState) -> Result<SupplyLaws, PhysicsError> {
        let main = self.main.circuit(oil)?;
        Ok(SupplyLaws {
            pump: main.pump_law(&self.pump)?,
            main,
            feed: self.feed.circuit(oil)?,
            solenoid: match self.solenoid {
                PressureSolenoid::ClosedLoop { command } => SolenoidLaw::Command(
                    range::OIL_PRESSURE.check_as("solenoid_command_pa", command.get::<pascal>())?,
                ),
                PressureSolenoid::Bleed { share } => {
                    SolenoidLaw::Share(range::SOLENOID_SHARE.check(share.get::<ratio>())?)
                }
            },
        })
    }
}

/// The feed regulator at one line pressure, and what the solenoid draws from it.
#[derive(Debug, Clone, Copy)]
struct FeedSide {
    feed: f64,
    /// From line.
    taken: f64,
    output: f64,
    draw: f64,
}

impl SupplyLaws {
    /// The circuit at rest, both spools last moved the same way.
    ///
    /// Lost control is an answer, not an error: see [`LostControl`].
    ///
    /// # Errors
    /// [`PhysicsError::NoSolution`] naming `line_pressure_pa` when nothing lets the pump's flow go
    /// below 10 MPa.
    pub fn solve(&self, branch: Branch) -> Result<SupplyPoint, PhysicsError> {
        let beside = |line: f64| {
            let side = self.feed_side(line, branch);
            (side.output, side.taken)
        };
        let trial = self.main.balance(&self.pump, branch, beside)?;
        let main = self.main.report(&trial, &self.pump, branch);
        let side = self.feed_side(trial.p.line, branch);
        let feed = self.feed.solve_drawn(trial.p.line, side.draw, branch);
        let boost = main.flows.boost.get::<cubic_meter_per_second>();
        let rate = VolumeRate::new::<cubic_meter_per_second>;
        let mut assumptions = main.assumptions.to_vec();
        feed.assumptions
            .iter()
            .for_each(|a| note(&mut assumptions, *a));
        note(&mut assumptions, Assumption::SolenoidAtMostFeed);
        Ok(SupplyPoint {
            lost: self.lost(&main, &feed),
            solenoid_output: Pressure::new::<pascal>(side.output),
            solenoid_draw: rate(side.draw),
            solenoid_exhaust: rate((-boost).max(0.0)),
            main,
            feed,
            assumptions: assumptions.into(),
        })
    }

    fn feed_side(&self, line: f64, branch: Branch) -> FeedSide {
        let with = |draw: f64| {
            let (feed, taken) = self.feed.feed_and_taken(line, draw, branch);
            FeedSide {
                feed,
                taken,
                output: self.solenoid.output(feed),
                draw,
            }
        };
        let needed = |side: &FeedSide| self.main.boost_needs(line, side.output).max(0.0);
        let idle = with(0.0);
        let most = needed(&idle);
        if most == 0.0 || idle.feed <= 0.0 {
            return idle;
        }
        let short = |draw: f64| draw - needed(&with(draw));
        let draw = bracketed(short, 0.0, -most, most, short(most), 0.0);
        with(draw)
    }

    fn lost(&self, main: &MainPoint, feed: &OperatingPoint) -> Vec<LostControl> {
        let mut lost = Vec::new();
        match main.state {
            MainState::Regulating => {}
            MainState::PumpStarved => lost.push(LostControl::PumpStarved),
            MainState::EdgesTooSmall => lost.push(LostControl::MainEdgesTooSmall),
        }
        match feed.state {
            RegulatorState::Regulating => {}
            RegulatorState::FullyOpen => lost.push(LostControl::FeedFollowsLine),
            RegulatorState::LostControl => lost.push(LostControl::FeedByLeaks),
            RegulatorState::FullyExhausting => lost.push(LostControl::FeedExhaustTooSmall),
        }
        if let SolenoidLaw::Command(command) = self.solenoid
            && command >= feed.feed.get::<pascal>()
        {
            lost.push(LostControl::SolenoidGivesFeed);
        }
        lost
    }
}
