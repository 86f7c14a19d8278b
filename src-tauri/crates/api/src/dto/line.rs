//! The main regulator alone, and line, feed and boost as one circuit.

use diagnosis::Assumed;
use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{
    EdgeParts, GapShape, OilFigures, OrificeParts, OutletDemand, RegulatorParts, ReliefParts,
    SpoolBranch, SpringParts,
};

/// A passage beside a land of a main regulator.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum MainPlace {
    /// Line.
    Line,
    /// The chamber behind the balance orifice.
    Reaction,
    /// The boost chamber.
    Boost,
    /// Sump or suction.
    Sump,
    /// A neighbour held at a pressure, Pa.
    FixedPa(Finite),
}

/// Oil that passes a land of a main regulator.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MainLeakParts {
    /// The gap.
    pub gap: GapShape,
    /// Where flow counts as positive from.
    pub from: MainPlace,
    /// Where to.
    pub to: MainPlace,
}

/// A passage fed with what the pump has left over.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OverflowParts {
    /// The edge to it.
    pub edge: EdgeParts,
    /// At which pressure it stands, Pa.
    pub pressure_pa: Finite,
}

/// A pump of fixed displacement at one speed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PumpParts {
    /// Displacement times speed, m³/s.
    pub ideal_flow_m3_s: Finite,
    /// What slips back, m³/s.
    pub slip_m3_s: Finite,
    /// The pressure at which the slip was stated, Pa.
    pub at_pressure_pa: Finite,
    /// The oil in which it was stated.
    pub stated_in: OilFigures,
}

/// A main regulator of the bypass kind.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MainRegulatorParts {
    /// Area that the reaction chamber acts on, m².
    pub reaction_area_m2: Finite,
    /// Area that boost acts on, m².
    pub boost_area_m2: Finite,
    /// The spring.
    pub spring: SpringParts,
    /// Travel, m.
    pub stroke_m: Finite,
    /// Line back to suction.
    pub dump: EdgeParts,
    /// A passage fed before suction, if there is one.
    #[serde(default)]
    pub overflow: Option<OverflowParts>,
    /// Between line and reaction chamber; none: one space.
    #[serde(default)]
    pub balance_orifice: Option<OrificeParts>,
    /// Between the solenoid's output and the boost chamber; none: one space.
    #[serde(default)]
    pub boost_orifice: Option<OrificeParts>,
    /// Every land that leaks.
    #[serde(default)]
    pub leaks: Vec<MainLeakParts>,
    /// Dry friction, N.
    #[serde(default)]
    pub friction_n: Finite,
    /// What all others take from line.
    pub demand: OutletDemand,
    /// Relief from line to sump, if there is one.
    #[serde(default)]
    pub relief: Option<ReliefParts>,
}

/// A main regulator with its pump, at a pressure of the solenoid.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MainRegulatorArgs {
    /// The regulator.
    pub main: MainRegulatorParts,
    /// The pump.
    pub pump: PumpParts,
    /// The oil at its temperature.
    pub oil: OilFigures,
    /// What the solenoid gives to the boost chamber, Pa.
    pub solenoid_output_pa: Finite,
    /// Which way the spool last moved.
    #[serde(default)]
    pub branch: SpoolBranch,
}

/// How the pressure-control solenoid makes its output.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SolenoidMakes {
    /// Its own feedback: the pressure asked for, Pa, at most feed.
    CommandPa(Finite),
    /// A bleed: a share of feed, 0 to 1.
    ShareRatio(Finite),
}

/// Pump, main regulator, feed regulator and pressure-control solenoid.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SupplyCircuitArgs {
    /// What makes line.
    pub main: MainRegulatorParts,
    /// The pump.
    pub pump: PumpParts,
    /// What makes feed from line.
    pub feed: RegulatorParts,
    /// What makes boost from feed.
    pub solenoid: SolenoidMakes,
    /// The oil at its temperature.
    pub oil: OilFigures,
    /// Which way both spools last moved.
    #[serde(default)]
    pub branch: SpoolBranch,
}

/// What the spool of a main regulator does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum MainSpoolState {
    /// Line is held by spring and boost.
    Regulating,
    /// Demand and leaks take all that the pump delivers.
    PumpStarved,
    /// The edges are as wide as they get: line follows the pump's flow.
    EdgesTooSmall,
}

/// The main regulator at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MainRegulatorAnswer {
    /// Line, Pa.
    pub line_pa: Finite,
    /// Reaction chamber, Pa.
    pub reaction_pa: Finite,
    /// Boost chamber, Pa.
    pub boost_pa: Finite,
    /// Spool position, m.
    pub stroke_m: Finite,
    /// What the spool does.
    pub state: MainSpoolState,
    /// What the pump delivers, m³/s.
    pub pump_m3_s: Finite,
    /// Line back to suction, m³/s.
    pub dump_m3_s: Finite,
    /// Line to the overflow passage, m³/s.
    pub overflow_m3_s: Finite,
    /// Line to what takes from it, m³/s.
    pub demand_m3_s: Finite,
    /// Line to sump through the relief, m³/s.
    pub relief_m3_s: Finite,
    /// Solenoid to boost chamber, m³/s.
    pub boost_m3_s: Finite,
    /// Line to the feed regulator, m³/s; 0 where it isn't in the circuit.
    pub feed_regulator_m3_s: Finite,
    /// Each land's leak in the order asked, m³/s.
    pub leaks_m3_s: Vec<Finite>,
    /// Steady flow force of the edges, N.
    pub flow_force_n: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// Where control is lost. Closed: the interface has words for each.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum ControlLost {
    /// Demand and leaks take all that the pump delivers.
    PumpStarved,
    /// The main regulator's edges are as wide as they get.
    MainEdgesTooSmall,
    /// The feed regulator is wide open: feed follows line.
    FeedFollowsLine,
    /// The feed regulator has shut its supply; leaks set feed.
    FeedByLeaks,
    /// The feed regulator's exhaust is as wide as it gets.
    FeedExhaustTooSmall,
    /// The solenoid is told feed or more and gives feed.
    SolenoidGivesFeed,
}

/// Line, feed and boost at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SupplyCircuitAnswer {
    /// The main regulator.
    pub main: MainRegulatorAnswer,
    /// The feed regulator.
    pub feed: FeedSideAnswer,
    /// What the solenoid gives, Pa.
    pub solenoid_output_pa: Finite,
    /// What it draws from feed, m³/s.
    pub solenoid_draw_m3_s: Finite,
    /// What it lets out of oil pushed back, m³/s.
    pub solenoid_exhaust_m3_s: Finite,
    /// Where control is lost; empty: all is held.
    pub lost: Vec<ControlLost>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// The feed regulator of a circuit, at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FeedSideAnswer {
    /// Feed, Pa.
    pub feed_pa: Finite,
    /// Reaction chamber, Pa.
    pub reaction_pa: Finite,
    /// Spool position, m.
    pub stroke_m: Finite,
    /// Line to feed, m³/s.
    pub supply_m3_s: Finite,
    /// Feed to sump through the exhaust, m³/s.
    pub exhaust_m3_s: Finite,
    /// Feed to the solenoids, m³/s.
    pub demand_m3_s: Finite,
}
