//! The bench: instruments, vacuum stands, and the vacuum test of a bore.

mod instrument;
mod stand;
mod test;

pub use instrument::{Instrument, InstrumentKind};
pub use stand::{CalibratedOrifice, Stand};
pub use test::{
    Ambient, Blank, Decision, OrificeReading, Reading, Setup, StandCheck, Surface, VacuumTest,
    Verdict, check_readings,
};
