//! The shapes that cross the boundary: arguments in, answers out. SI, finite, named with their
//! unit. The TypeScript types are generated from these.

mod audit;
mod backup;
mod bore_history;
mod calc;
mod calc_clutch;
mod calc_fit;
mod calc_oil;
mod calc_opening;
mod calc_parts;
mod calc_relief;
mod calc_solenoid;
mod calc_span;
mod calc_spring;
mod calc_uncertainty;
mod draft;
mod drawing;
mod erasure;
mod exchange;
mod explore;
mod handover;
mod inspection;
mod instrument;
mod job;
mod job_list;
mod line;
mod look;
mod machining;
mod motion;
mod oil_check;
mod options;
mod photo;
mod profile;
mod readings;
mod repair;
mod report;
mod settings;
mod settle;
mod shop;
mod spread;
mod statistics;
mod tap;
mod task;
mod test;
mod valve;

pub use audit::*;
pub use backup::*;
pub use bore_history::*;
pub use calc::*;
pub use calc_clutch::*;
pub use calc_fit::*;
pub use calc_oil::*;
pub use calc_opening::*;
pub use calc_parts::*;
pub use calc_relief::*;
pub use calc_solenoid::*;
pub use calc_span::*;
pub use calc_spring::*;
pub use calc_uncertainty::*;
pub use draft::*;
pub use drawing::*;
pub use erasure::*;
pub use exchange::*;
pub use explore::*;
pub use handover::*;
pub use inspection::*;
pub use instrument::*;
pub use job::*;
pub use job_list::*;
pub use line::*;
pub use look::*;
pub use machining::*;
pub use motion::*;
pub use oil_check::*;
pub use options::*;
pub use photo::*;
pub use profile::*;
pub use readings::*;
pub use repair::*;
pub use report::*;
pub use settings::*;
pub use settle::*;
pub use shop::*;
pub use spread::*;
pub use statistics::*;
pub use tap::*;
pub use task::*;
pub use test::*;
pub use valve::*;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// No arguments, or nothing to say.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Nothing {}
