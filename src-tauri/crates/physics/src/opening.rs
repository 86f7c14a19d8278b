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
use crate::loss::SeriesLoss;
use crate::range;

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
    /// Part of the circumference that opens, 0.005 to 1.
    pub circumference_fraction: Ratio,
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
    /// [`PhysicsError::OutOfRange`].
    pub fn width_at(&self, position: Length) -> Result<Length, PhysicsError> {
        let law = self.law(0.0, 0.0)?;
        let x = range::SPRING_TRAVEL.check_as("spool_position_m", position.get::<meter>())?;
        Ok(Length::new::<meter>(law.width(x)))
    }

    /// Area that oil passes with the spool at `position`: circumference times the gap h of the
    /// module's text. Never zero, for the clearance stays.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`].
    pub fn area_at(&self, position: Length) -> Result<Area, PhysicsError> {
        let law = self.law(0.0, 0.0)?;
        let x = range::SPRING_TRAVEL.check_as("spool_position_m", position.get::<meter>())?;
        let (gap, _) = law.gap_and_film(x);
        Ok(Area::new::<square_meter>(law.perimeter * gap))
    }

    /// Flow with the spool at `position` under `drop` (up to 10 MPa either way); its sign is that
    /// of `drop`.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`].
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
        let perimeter = PI * diameter * fraction;
        Ok(OpeningLaw {
            rest,
            slope: match self.travel {
                Travel::Closes => -1.0,
                Travel::Opens => 1.0,
            },
            clearance2: clearance * clearance,
            perimeter,
            slit: 32.0 * mu / (PI * perimeter),
            film: 12.0 * mu / perimeter,
            jet: rho / (2.0 * (EDGE_DISCHARGE * perimeter).powi(2)),
        })
    }
}

/// A metering edge in plain SI, for one oil.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OpeningLaw {
    rest: f64,
    slope: f64,
    pub clearance2: f64,
    perimeter: f64,
    slit: f64,
    film: f64,
    jet: f64,
}

impl OpeningLaw {
    #[inline]
    pub fn width(&self, x: f64) -> f64 {
        self.rest + self.slope * x
    }

    #[inline]
    fn gap_and_film(&self, x: f64) -> (f64, f64) {
        let (open, film, _) = self.shape(x);
        ((open * open + self.clearance2).sqrt(), film)
    }

    /// Open part u, film l and sqrt(w^2 + c^2).
    #[inline]
    fn shape(&self, x: f64) -> (f64, f64, f64) {
        let w = self.width(x);
        let s = (w * w + self.clearance2).sqrt();
        // Each half without cancellation.
        if w > 0.0 {
            (0.5 * (w + s), 0.5 * self.clearance2 / (w + s), s)
        } else {
            (0.5 * self.clearance2 / (s - w), 0.5 * (s - w), s)
        }
    }

    #[inline]
    pub fn flow(&self, x: f64, dp: f64) -> f64 {
        let (h, film) = self.gap_and_film(x);
        let r = 1.0 / h;
        let r2 = r * r;
        SeriesLoss {
            linear: self.slit * r2 + self.film * film * r2 * r,
            quadratic: self.jet * r2,
        }
        .flow(dp)
    }

    /// Flow and how it grows with x.
    #[inline]
    pub fn flow_and_slope(&self, x: f64, dp: f64) -> (f64, f64) {
        let (q, with_x, _) = self.flow_and_slopes(x, dp);
        (q, with_x)
    }

    /// Flow, how it grows with x, and how it grows with the drop.
    #[inline]
    pub fn flow_and_slopes(&self, x: f64, dp: f64) -> (f64, f64, f64) {
        let (open, film, s) = self.shape(x);
        let h = (open * open + self.clearance2).sqrt();
        // du/dw = u / s and dl/dw = -l / s.
        let gap_slope = open * open / (s * h);
        let film_slope = -film / s;
        let r = 1.0 / h;
        let (r2, r3) = (r * r, r * r * r);
        let loss = SeriesLoss {
            linear: self.slit * r2 + self.film * film * r3,
            quadratic: self.jet * r2,
        };
        let q = loss.flow(dp);
        let linear_slope = -2.0 * self.slit * r3 * gap_slope
            + self.film * (film_slope * r3 - 3.0 * film * r3 * r * gap_slope);
        let quadratic_slope = -2.0 * self.jet * r3 * gap_slope;
        let size = q.abs();
        let with_drop = loss.slope(q);
        let slope = -(linear_slope + quadratic_slope * size) * q * with_drop;
        (q, slope * self.slope, with_drop)
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
