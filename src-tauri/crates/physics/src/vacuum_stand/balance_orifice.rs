//! The balance orifice of the bore under test: plugged, between port and chamber, or beside the
//! gap.

use crate::air::Air;
use crate::hole::Hole;

/// Share of the drop from ambient to port below which an orifice in series is left out.
pub const NEGLIGIBLE_DROP: f64 = 0.05;
/// Share of the drop above which what is left for the gap is too little to tell its size.
pub const MOST_CORRECTABLE_DROP: f64 = 0.90;

/// Where the balance orifice is in the test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BalanceOrifice {
    /// None, or plugged for the test.
    Blocked,
    /// The vacuum is drawn through it.
    InSeries(Hole),
    /// It lets air from the shop into the tested chamber, beside the gap.
    InParallel(Hole),
}

impl BalanceOrifice {
    /// Chamber pressure upstream of the port, for a flow.
    pub(crate) fn chamber_si(&self, air: &Air, q: f64, port: f64) -> f64 {
        match self {
            Self::InSeries(hole) if q > 0.0 => hole.upstream_si(air, q, port),
            _ => port,
        }
    }

    /// Flow that enters the chamber beside the gap.
    pub(crate) fn parallel_si(&self, air: &Air, ambient: f64, chamber: f64) -> f64 {
        match self {
            Self::InParallel(hole) => hole.throughput_si(air, ambient, chamber),
            _ => 0.0,
        }
    }
}
