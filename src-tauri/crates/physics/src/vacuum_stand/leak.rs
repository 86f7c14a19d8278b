//! What lets air into the tested chamber.

use uom::si::f64::{Length, Pressure, Ratio, Volume};
use uom::si::ratio::ratio;

use crate::air::Air;
use crate::error::PhysicsError;
use crate::gap::Land;
use crate::gap_air::{self, Seal};
use crate::hole::Hole;
use crate::quantity::pascals;
use crate::range::{self, within};

/// The far side of a land in a vacuum test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FarSide {
    /// Open to the shop: whatever the barometer is.
    Ambient,
    /// Closed, at an absolute pressure of its own.
    Absolute(Pressure),
}

/// A land that seals the tested chamber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TestLand {
    /// Its diameter and engaged length in the test.
    pub land: Land,
    /// What is on its other side.
    pub far_side: FarSide,
}

impl TestLand {
    pub(crate) fn seal(&self, ambient: f64) -> Seal {
        let far_side = match self.far_side {
            FarSide::Ambient => pascals(ambient),
            FarSide::Absolute(p) => p,
        };
        Seal {
            land: self.land,
            far_side,
        }
    }
}

/// A leak into the tested chamber, as a law of the pressures.
#[derive(Debug, Clone, PartialEq)]
pub enum Leak {
    /// Lands that share one clearance, with slip, entry and exit loss and choking.
    Lands {
        /// The lands.
        lands: Vec<TestLand>,
        /// Their radial clearance.
        radial_clearance: Length,
        /// Their relative eccentricity.
        eccentricity: Ratio,
        /// xi of entry and exit; `None` for [`gap_air::ENTRY_EXIT_LOSS`].
        entry_exit_loss: Option<Ratio>,
    },
    /// A laminar film to ambient of which only the gap factor K is known: no slip, no loss.
    Film(Volume),
    /// A hole to ambient.
    Hole(Hole),
    /// Several at once: bore and blank. Empty is no leak.
    Sum(Vec<Leak>),
}

impl Leak {
    /// Nothing leaks.
    #[must_use]
    pub fn none() -> Self {
        Self::Sum(Vec::new())
    }

    /// Checks every number of the leak.
    pub(crate) fn check(&self) -> Result<(), PhysicsError> {
        match self {
            Self::Lands {
                lands,
                radial_clearance,
                eccentricity,
                entry_exit_loss,
            } => {
                range::RADIAL_CLEARANCE.check(radial_clearance.value)?;
                range::ECCENTRICITY.check(eccentricity.get::<ratio>())?;
                gap_air::loss_or_default(*entry_exit_loss)?;
                for land in lands {
                    if let FarSide::Absolute(p) = land.far_side {
                        range::AIR_PRESSURE.check_as("far_side_pressure_pa", p.value)?;
                    }
                }
                Ok(())
            }
            Self::Film(k) => within("gap_factor_m3", k.value, 0.0, 1.0e-8, "m3").map(|_| ()),
            Self::Hole(_) => Ok(()),
            Self::Sum(parts) => parts.iter().try_for_each(|part| part.check()),
        }
    }

    /// Throughput into a chamber; SI, inputs checked before.
    pub(crate) fn throughput_si(&self, air: &Air, ambient: f64, chamber: f64) -> f64 {
        match self {
            Self::Lands {
                lands,
                radial_clearance,
                eccentricity,
                entry_exit_loss,
            } => {
                let xi = entry_exit_loss.map_or(gap_air::ENTRY_EXIT_LOSS, |xi| xi.get::<ratio>());
                let (c, e) = (radial_clearance.value, eccentricity.get::<ratio>());
                lands
                    .iter()
                    .map(|land| {
                        let far = land.seal(ambient).far_side.value;
                        gap_air::seal_si(land.land, c, e, air, far, chamber, xi)
                    })
                    .sum()
            }
            Self::Film(k) => gap_air::laminar_si(k.value, air, ambient, chamber),
            Self::Hole(hole) => hole.throughput_si(air, ambient, chamber),
            Self::Sum(parts) => parts
                .iter()
                .map(|part| part.throughput_si(air, ambient, chamber))
                .sum(),
        }
    }
}
