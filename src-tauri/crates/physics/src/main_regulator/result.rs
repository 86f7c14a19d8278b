//! What the static balance of a main regulator comes to.

use std::sync::Arc;

use uom::si::f64::{Force, Length, Pressure, VolumeRate};

use crate::assumption::Assumption;
use crate::regulator::Branch;

/// What the spool is doing at the solution.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MainState {
    /// The spool is off its stops and lets oil go by: line is held by spring and boost.
    Regulating,
    /// The spool rests on its shut stop: demand and leaks take all that the pump delivers, and line
    /// is below what spring and boost ask for.
    PumpStarved,
    /// The spool rests on its open stop with the edges as wide as they get, and more is delivered
    /// than they let go at the setting: line follows the pump's flow upward.
    EdgesTooSmall,
}

impl MainState {
    /// Whether line is held by the spool.
    #[must_use]
    pub fn regulates(self) -> bool {
        matches!(self, Self::Regulating)
    }
}

/// Every flow of the main regulator, m3/s.
#[derive(Debug, Clone, PartialEq)]
pub struct MainFlows {
    /// The pump into line, its slip taken off.
    pub pump: VolumeRate,
    /// Line back to suction, past the edge. With `overflow`, what is left to regulate with.
    pub dump: VolumeRate,
    /// Line into the overflow passage.
    pub overflow: VolumeRate,
    /// Line to all that takes from it.
    pub demand: VolumeRate,
    /// Line to sump, through the relief.
    pub relief: VolumeRate,
    /// Line to the reaction chamber.
    pub balance: VolumeRate,
    /// The solenoid's output to the boost chamber; negative when oil is pushed back.
    pub boost: VolumeRate,
    /// Line to the feed regulator; 0 where it isn't part of the circuit.
    pub feed_regulator: VolumeRate,
    /// Each land leak, in the order of the description, positive from its `from` to its `to`.
    pub leaks: Vec<VolumeRate>,
    /// What the flows into line fail to sum to zero by.
    pub mass_balance_residual: VolumeRate,
}

/// The main regulator at rest.
#[derive(Debug, Clone, PartialEq)]
pub struct MainPoint {
    /// Line pressure.
    pub line: Pressure,
    /// The pressure on the reaction area.
    pub reaction: Pressure,
    /// The pressure in the boost chamber.
    pub boost: Pressure,
    /// Spool position x, from 0 to the stroke.
    pub spool_position: Length,
    /// What the spool is doing.
    pub state: MainState,
    /// Which way it was last moving.
    pub branch: Branch,
    /// Every flow.
    pub flows: MainFlows,
    /// Steady flow force of the edges, toward closing them.
    pub flow_force: Force,
    /// What was assumed.
    pub assumptions: Arc<[Assumption]>,
}
