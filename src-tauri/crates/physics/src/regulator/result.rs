//! What the static balance of a reducing regulator comes to.

use std::sync::Arc;

use uom::si::f64::{Force, Length, Pressure, VolumeRate};

use super::description::MAX_LEAKS;
use crate::assumption::Assumption;

/// Which way the spool was last moving, for friction always opposes it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Branch {
    /// Friction left out: the middle between the two.
    Frictionless,
    /// The spool came from the open stop, as while line pressure rises: feed is highest.
    Rising,
    /// The spool came from the closed stop, as while line pressure falls: feed is lowest.
    Falling,
}

/// What the spool is doing at the solution.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RegulatorState {
    /// The spool is off its stops and meters: feed is held.
    Regulating,
    /// The spool rests on its open stop, the supply as wide as it gets. Feed follows line, less
    /// what the flow loses on the way. So it is below the setpoint, and at any line pressure when
    /// something other than feed (a filled spring chamber) holds the spool open.
    FullyOpen,
    /// The spool has shut the supply and has no exhaust to open: feed is set by what leaks in and
    /// what the solenoids, the lands and a relief let out. Line can drive feed up.
    LostControl,
    /// The spool is on its closed stop with the exhaust as wide as it gets, and more leaks in
    /// than that can let out at the setpoint. Line can drive feed up.
    FullyExhausting,
}

impl RegulatorState {
    /// Whether feed is held by the spool.
    #[must_use]
    pub fn regulates(self) -> bool {
        matches!(self, Self::Regulating)
    }
}

/// The flow of each land leak, in the order of the description.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeakFlows {
    pub(crate) flows: [VolumeRate; MAX_LEAKS],
    pub(crate) count: usize,
}

impl LeakFlows {
    /// One flow a leak, m3/s, positive from its `from` node to its `to` node.
    #[must_use]
    pub fn as_slice(&self) -> &[VolumeRate] {
        &self.flows[..self.count]
    }
}

/// Every flow of the regulator, m3/s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flows {
    /// Line to feed, through the supply edge (leakage past its overlap included).
    pub supply: VolumeRate,
    /// Feed to sump, through the exhaust edge (leakage past its overlap included).
    pub exhaust: VolumeRate,
    /// Feed to the solenoids.
    pub demand: VolumeRate,
    /// Feed to sump, through the relief valve.
    pub relief: VolumeRate,
    /// Feed to the reaction chamber, through the balance orifice.
    pub balance: VolumeRate,
    /// Spring chamber to sump, through its drain.
    pub drain: VolumeRate,
    /// Each land leak.
    pub leaks: LeakFlows,
    /// What the flows into the feed node fail to sum to zero by.
    pub mass_balance_residual: VolumeRate,
}

/// The regulator at rest under one line pressure.
#[derive(Debug, Clone, PartialEq)]
pub struct OperatingPoint {
    /// The line pressure asked for.
    pub line: Pressure,
    /// The regulated pressure (P_S).
    pub feed: Pressure,
    /// The pressure on the reaction area (P_F).
    pub reaction: Pressure,
    /// The pressure in the spring chamber.
    pub spring_chamber: Pressure,
    /// Spool position x, from 0 to the stroke.
    pub spool_position: Length,
    /// What the spool is doing.
    pub state: RegulatorState,
    /// Which way it was last moving.
    pub branch: Branch,
    /// Every flow.
    pub flows: Flows,
    /// Net steady flow force, positive toward closing the supply.
    pub flow_force: Force,
    /// What was assumed.
    pub assumptions: Arc<[Assumption]>,
}

/// Feed at one line pressure, coming from either side.
#[derive(Debug, Clone, PartialEq)]
pub struct CurvePoint {
    /// The line pressure.
    pub line: Pressure,
    /// The spool last moved to close the supply.
    pub rising: OperatingPoint,
    /// The spool last moved to open the supply. Equal to `rising` without friction.
    pub falling: OperatingPoint,
}

/// Feed against line.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// At least two points, line pressure rising.
    pub points: Vec<CurvePoint>,
    /// The longest run of points, in line pressure, where both branches regulate; none if there
    /// is no such point.
    pub regulating: Option<(Pressure, Pressure)>,
    /// Highest less lowest feed on the rising branch within `regulating`.
    pub droop: Option<Pressure>,
    /// The widest gap between the branches within `regulating`.
    pub hysteresis: Option<Pressure>,
    /// What was assumed.
    pub assumptions: Arc<[Assumption]>,
}
