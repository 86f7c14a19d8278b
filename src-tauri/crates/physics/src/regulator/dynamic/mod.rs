//! Reducing regulator in motion: what it makes of ripple, steps and a sticking bore.
//!
//! ```text
//! spool     m dv/dt = P_F A_r - P_C A_c - F_0 - k x + F_supply - F_exhaust - b v - dry friction
//!           dx/dt = v, between two stops without rebound
//! feed      V_S / B(P_S) dP_S/dt = supply + leaks in - exhaust - demand - relief - balance orifice
//! reaction  (V_F + A_r x) / B(P_F) dP_F/dt = balance orifice + leaks in - A_r v
//! chamber   (V_C + A_c (s - x)) / B(P_C) dP_C/dt = leaks in - drain + A_c v
//! ```
//!
//! (Merritt, *Hydraulic Control Systems*, ch. 3, 5 and 9.) Every law is that of the static
//! [`Regulator`](super::Regulator), so that its state of rest is the static balance; B is the
//! bulk modulus with entrained air ([`OilStiffness`]). Without a balance orifice feed and reaction
//! are one volume; with an open drain P_C is 0.
//!
//! **Dry friction** is a state machine of sliding and standing with break-away friction F_s and
//! sliding friction F_c: no smoothing, changes located within the step (to 1e-10 of it).
//! **Stops** take all of the spool's speed. **Left out**: waves in the passages (each volume has
//! one pressure; fair below some kilohertz over 10 cm), the unsteady flow force (its length is
//! that of passages nobody measures; at 15 mm it is some 1 N s/m), the mass of the relief's ball.
//!
//! Describe a [`MovingRegulator`], bring it to one oil with [`MovingRegulator::circuit`], and ask
//! the [`MovingCircuit`] for a [`Transient`], its [`Stability`] or, with [`sweep`], for the same
//! with other parts.

mod course;
mod description;
mod error;
mod event;
mod integrate;
mod measure;
mod motion;
mod oscillation;
mod plant;
mod result;
mod run;
mod stability;
mod sweep;

pub use course::{Course, DemandCourse, Line, MAX_TRACE, Ripple};
pub use description::{MovingRegulator, OilStiffness, ViscousDamping, film_damping};
pub use error::DynamicError;
pub use oscillation::Oscillation;
pub use result::{SolverStatistics, Trace, Transient};
pub use run::{MovingCircuit, Scenario, Start, StartState};
pub use stability::{Mode, Stability};
pub use sweep::{SweepOf, SweepPoint, sweep};
