//! A metering edge: the annular slot between a land and the edge of its port.
//!
//! Width along the axis is counted negative while the land overlaps the port. Near null the
//! clearance c takes over: with w the signed width, the open part is
//! `u = (w + sqrt(w^2 + c^2)) / 2`, the gap across which oil passes `h = sqrt(u^2 + c^2)`, and the
//! film that it has passed before `l = u - w`, which tends to the overlap. So flow never stops,
//! never jumps and falls steadily with w. The losses are in series:
//!
//! `dp = mu (32 / (pi b h^2) + 12 l / (b h^3)) Q + rho / (2 (Cd b h)^2) Q^2`
//!
//! with b the open part of the circumference. The first term is creeping flow through a slit
//! (Roscoe 1949; the slit of Merritt ch. 3), the second the film past the overlap, the third the
//! jet with Cd = pi / (pi + 2) = 0.611 (von Mises; Merritt ch. 3). The blend itself is ours.
//!
//! Where the land uncovers holes or notches instead, area, width and film are those of
//! [`port`] with sharp edges.

mod film;
mod law;
pub mod port;
pub mod window;

use std::f64::consts::PI;

use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Pressure, Ratio, VolumeRate};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::range;
use window::Window;

pub(crate) use law::OpeningLaw;

/// Discharge coefficient of a sharp edge, pi / (pi + 2).
pub const EDGE_DISCHARGE: f64 = 0.611_015_470_351_657_1;

/// What an opening does while the spool advances against its spring.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Travel {
    /// Its width falls, as a supply's must.
    Closes,
    /// Its width grows, as an exhaust's must.
    Opens,
}

/// A metering edge and how it moves with the spool.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opening {
    /// Diameter of the land, 2 to 100 mm.
    pub land_diameter: Length,
    /// Part of the circumference that a groove opens, 0.005 to 1; checked, and otherwise ignored,
    /// where there is a window.
    pub circumference_fraction: Ratio,
    /// Holes or notches instead of a groove; side by side they must fit around the bore.
    pub window: Option<Window>,
    /// Width with the spool at rest (x = 0), -50 to 50 mm; negative is overlap.
    pub width_at_rest: Length,
    /// Which way the width goes as the spool advances.
    pub travel: Travel,
    /// Radial clearance of the land in its bore, 0.1 µm to 1 mm.
    pub radial_clearance: Length,
}

impl Opening {
    /// Signed width with the spool at `position` (0 to 50 mm from rest).
    ///
    /// # Errors
    /// As [`Opening::area_at`].
    pub fn width_at(&self, position: Length) -> Result<Length, PhysicsError> {
        let law = self.law(0.0, 0.0)?;
        let x = range::SPRING_TRAVEL.check_as("spool_position_m", position.get::<meter>())?;
        Ok(Length::new::<meter>(law.width(x)))
    }

    /// Area that oil passes with the spool at `position`: circumference times the gap h of the
    /// module's text, or as [`port::Port::area_at`]. Never zero, for the clearance stays.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]; [`PhysicsError::Contradiction`] for windows that don't fit
    /// around the bore, or round-ended slots shorter than their end.
    pub fn area_at(&self, position: Length) -> Result<Area, PhysicsError> {
        let law = self.law(0.0, 0.0)?;
        let x = range::SPRING_TRAVEL.check_as("spool_position_m", position.get::<meter>())?;
        Ok(Area::new::<square_meter>(law.area(x)))
    }

    /// Flow with the spool at `position` under `drop` (up to 10 MPa either way); its sign is that
    /// of `drop`.
    ///
    /// # Errors
    /// As [`Opening::area_at`].
    pub fn flow(
        &self,
        position: Length,
        drop: Pressure,
        oil: &OilState,
    ) -> Result<VolumeRate, PhysicsError> {
        let (mu, rho) = oil.si()?;
        let law = self.law(mu, rho)?;
        let x = range::SPRING_TRAVEL.check_as("spool_position_m", position.get::<meter>())?;
        let dp = range::PRESSURE_DROP.check(drop.get::<pascal>())?;
        Ok(VolumeRate::new::<cubic_meter_per_second>(law.flow(x, dp)))
    }

    pub(crate) fn law(&self, mu: f64, rho: f64) -> Result<OpeningLaw, PhysicsError> {
        let diameter =
            range::BORE_DIAMETER.check_as("land_diameter_m", self.land_diameter.get::<meter>())?;
        let fraction =
            range::CIRCUMFERENCE_FRACTION.check(self.circumference_fraction.get::<ratio>())?;
        let rest = range::OPENING_WIDTH.check(self.width_at_rest.get::<meter>())?;
        let clearance = range::RADIAL_CLEARANCE.check(self.radial_clearance.get::<meter>())?;
        let slope = match self.travel {
            Travel::Closes => -1.0,
            Travel::Opens => 1.0,
        };
        let Some(window) = &self.window else {
            let perimeter = PI * diameter * fraction;
            return Ok(OpeningLaw::groove(
                rest, slope, clearance, perimeter, mu, rho,
            ));
        };
        let shape = window.shape()?;
        // They lie in the wall of the bore. A thousandth more is what heat and rounding make of
        // windows side by side.
        if shape.across() > PI * (diameter + 2.0 * clearance) * 1.001 {
            return Err(PhysicsError::Contradiction {
                field: range::WINDOW_COUNT.field,
                other: "land_diameter_m",
            });
        }
        Ok(OpeningLaw::window(rest, slope, clearance, shape, mu, rho))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Flow falls steadily with the opening, through null and without a jump, and its slope
        /// is that of its values.
        #[test]
        fn a_closing_edge_passes_ever_less(
            c in 2e-6..1e-4f64, x in 0.0..3e-3f64, step in 1e-8..1e-4f64, size in 1.0..2e6f64,
            back in any::<bool>(), mu in 3e-3..1.0f64,
        ) {
            let dp = if back { -size } else { size };
            let edge = Opening {
                land_diameter: Length::new::<meter>(0.01),
                circumference_fraction: Ratio::new::<ratio>(0.5),
                window: None,
                width_at_rest: Length::new::<meter>(1.5e-3),
                travel: Travel::Closes,
                radial_clearance: Length::new::<meter>(c),
            };
            let law = edge.law(mu, 850.0).unwrap();
            let (q, slope) = law.flow_and_slope(x, dp);
            prop_assert!((q / law.flow(x, dp) - 1.0).abs() < 1e-14);
            prop_assert!(law.flow(x + step, dp).abs() < q.abs());
            prop_assert!(q * dp > 0.0);
            let e = 1e-3 * c;
            let numeric = (law.flow(x + e, dp) - law.flow(x - e, dp)) / (2.0 * e);
            prop_assert!((numeric - slope).abs() <= 1e-4 * slope.abs(), "{numeric} {slope}");
        }
    }
}
