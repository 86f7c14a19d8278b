//! How a valve fits its bore: diameters measured at stations, corrected for temperature, judged
//! against ISO 286, and the room that a sleeve needs.

pub mod iso286;
mod iso286_table;
pub mod sleeve;
pub mod stations;
pub mod temperature;
