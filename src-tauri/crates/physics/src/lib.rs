//! The physics of a worn spool bore: air through it on the bench, oil through it in the car.
//!
//! Pure functions, one file per phenomenon. Inside everything is SI (pascals are absolute unless
//! a name says otherwise); quantities at the public face carry their dimension ([`uom`]). Nothing
//! here reads a file, a clock or a random number.
//!
//! Every input is checked against the one table in [`range`]; what falls outside comes back as a
//! [`PhysicsError`] that names the field. No function panics or returns NaN.

#![deny(missing_docs)]

pub mod assumption;
pub mod error;
pub mod quantity;
pub mod range;

// Air and the vacuum bench.
pub mod air;
pub mod atmosphere;
pub mod gap;
pub mod gap_air;
pub mod hole;
pub mod nozzle;
pub mod two_valves;
pub mod vacuum_stand;

// Oil and the regulator (one `pub mod` line each below this one).
pub mod flow_force;
pub mod fluid;
pub mod gap_oil;
mod loss;
pub mod main_regulator;
pub mod opening;
pub mod orifice;
pub mod regulator;
pub mod relief;
mod root;
mod rosenbrock;
pub mod spring;
pub mod supply_circuit;

// Parts, their fits, and what the pressure works on.
pub mod clearance_span;
pub mod clutch;
pub mod fit;
pub mod solenoid;

pub use assumption::Assumption;
pub use error::PhysicsError;
pub use quantity::Interval;
