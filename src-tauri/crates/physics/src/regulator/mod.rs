//! Reducing regulator at rest: what a spool valve makes of line pressure, and what wear does to it.
//!
//! ```text
//! spool     P_F A_r + F_supply - F_exhaust - P_C A_c = F_0 + k x  (± friction)
//! feed      supply(x) + leaks in = exhaust(x) + demand + relief + balance orifice + leaks out
//! reaction  balance orifice (P_S - P_F) = leaks out
//! chamber   leaks in = drain
//! ```
//!
//! (Merritt, *Hydraulic Control Systems*, ch. 9, for the balance of a reducing valve.) Every land
//! leaks toward its own neighbour, and so **the sign of a fault follows the neighbour**: leak from
//! the reaction chamber to sump raises feed while regulating, leak into it from line lowers feed.
//!
//! Describe a valve as a [`Regulator`], bring it to one oil with [`Regulator::circuit`], and ask
//! the [`Circuit`] for an [`OperatingPoint`] or a [`Curve`].

mod calibrate;
mod circuit;
mod curve;
mod description;
pub mod dynamic;
mod finding;
mod result;
mod solve;
mod spool;
mod vary;

pub use circuit::Circuit;
pub(crate) use circuit::{DemandLaw, demand_law};
pub use curve::{DemandPoint, against_demand};
pub use description::{Demand, Drain, LandLeak, MAX_LEAKS, Node, Regulator};
pub use finding::RegulatorFinding;
pub use result::{Branch, Curve, CurvePoint, Flows, LeakFlows, OperatingPoint, RegulatorState};
pub use vary::{Variation, Varied};
