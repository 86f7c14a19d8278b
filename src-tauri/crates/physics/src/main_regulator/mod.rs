//! Main regulator of the bypass kind, at rest: what the pump, the spring and boost make of line.
//!
//! The pump delivers into line; the spool lets what nobody takes go by, first into a passage that
//! is fed with what is left over (converter, cooler), then back to suction:
//!
//! ```text
//! spool     P_R A_r = F_0 + k x + A_b P_B + F_edges  (± friction)
//! line      pump = edges(x) + demand + relief + balance orifice + leaks out
//! reaction  balance orifice (P_L - P_R) = leaks out
//! boost     boost orifice (P_PC - P_B) = leaks out
//! ```
//!
//! So line is `(F + A_b P_B) / A_r` as long as there is oil left to let go by (Merritt, *Hydraulic
//! Control Systems*, ch. 9, for the balance of a relief-like spool; steady flow force ch. 5).
//! When demand and leaks take all that the pump delivers, the spool sits on its stop and line is
//! whatever that flow can hold up: control is lost at **low** pump flow. Each land leaks toward its
//! own neighbour, and **the sign follows the neighbour**: from the reaction chamber to sump raises
//! line, from boost to sump lowers it, from line to boost raises it, from line to sump costs only
//! pump flow as long as some is left over.
//!
//! Pump: `Q = Q_0 - c P`, its slip laminar and so in inverse proportion to viscosity (Merritt ch.
//! 4, leakage of pumps).
//!
//! Describe a valve as a [`MainRegulator`], bring it to one oil with [`MainRegulator::circuit`],
//! and ask the [`MainCircuit`] for a [`MainPoint`]. With the feed regulator and the
//! pressure-control solenoid it makes a [`crate::supply_circuit::SupplyCircuit`].

mod description;
mod effects;
mod finding;
mod laws;
mod result;
mod solve;

pub use description::{MainLeak, MainNode, MainRegulator, Overflow, Pump};
pub use effects::LeakEffect;
pub use finding::MainRegulatorFinding;
pub use laws::MainCircuit;
pub(crate) use laws::PumpLaw;
pub use result::{MainFlows, MainPoint, MainState};
