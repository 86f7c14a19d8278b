//! A drilled orifice in oil, from creeping to inertial flow.
//!
//! **Creeping limit**, exact for a round hole in a thin plate (Sampson 1891; Happel & Brenner
//! ch. 4) with the bore's own friction in series (Hagen-Poiseuille; the sum is within 1 % of the
//! exact solution for any length, Dagan, Weinbaum & Pfeffer 1982, from memory):
//! `dp = (24 mu / d^3 + 128 mu L / (pi d^4)) Q`.
//!
//! **Inertial limit**: `Q = C A sqrt(2 dp / rho)`. A knife edge, L/d up to 0.5, has
//! C = pi / (pi + 2) = 0.611, for the jet leaves freely. In a short bore, L/d from 1.5, the jet
//! re-attaches and C = 0.827 - 0.0085 L/d (Lichtarowicz, Duggins & Markland 1965, L/d 2 to 10;
//! beyond, friction grows on with the same slope). Between, the two are blended (the bounds 0.5
//! and 1.5 are from memory).
//!
//! **Between the limits** the losses of a bore add, `dp = a Q + b Q^2`, which keeps within 5 % of
//! the 1965 correlation from Re_h 200 to 20 000; toward Re_h 10 it falls to 30 % below, where the
//! correlation leaves the exact creeping limit. At a knife edge the change is quicker,
//! `dp^2 = (a Q)^2 + (b Q^2)^2`. Both are smooth, odd and strictly monotonic.
//!
//! Published laws differ by half to double in cold oil and more if misapplied; each result
//! carries the band from the lowest to the highest law that claims the geometry.

use std::f64::consts::{FRAC_PI_4, PI};

use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{Length, Pressure, Ratio, VolumeRate};
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::loss::{EdgeLoss, SeriesLoss};
use crate::opening::EDGE_DISCHARGE;
use crate::range;
use crate::root::bracketed;

mod published;

/// A drilled hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Orifice {
    /// Diameter of the bore, 0.05 to 10 mm.
    pub diameter: Length,
    /// Length of the bore, 0 (knife edge) to 50 mm. A plate chamfered to an edge counts as its
    /// edge, not as its thickness.
    pub length: Length,
}

/// What an orifice passes.
#[derive(Debug, Clone, PartialEq)]
pub struct Discharge {
    /// The flow; its sign is that of the drop.
    pub flow: VolumeRate,
    /// The flow by the published law that gives least.
    pub flow_low: VolumeRate,
    /// The flow by the published law that gives most.
    pub flow_high: VolumeRate,
    /// Flow over area times ideal speed.
    pub coefficient: Ratio,
    /// Mean speed times diameter over kinematic viscosity.
    pub reynolds: Ratio,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

impl Orifice {
    /// Flow under `drop` (up to 10 MPa either way).
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`].
    pub fn flow(&self, drop: Pressure, oil: &OilState) -> Result<Discharge, PhysicsError> {
        let (mu, rho) = oil.si()?;
        let law = self.law(mu, rho)?;
        let dp = range::PRESSURE_DROP.check(drop.get::<pascal>())?;
        let d = self.diameter.get::<meter>();
        let area = FRAC_PI_4 * d * d;
        let q = law.flow(dp);
        let ideal = area * (2.0 * dp.abs() / rho).sqrt();
        // At no drop the coefficient has no value but its creeping limit, zero.
        let coefficient = if ideal > 0.0 { q.abs() / ideal } else { 0.0 };
        let re_h = d * (2.0 * dp.abs() / rho).sqrt() * rho / mu;
        let (low, high) = published::band(coefficient, re_h, self.length.get::<meter>() / d);
        let mut assumptions = vec![Assumption::OrificeLaw];
        if high > 1.2 * low {
            assumptions.push(Assumption::OrificeLawsDiffer);
        }
        if oil.extrapolated {
            assumptions.push(Assumption::ViscosityExtrapolated);
        }
        let scaled = |c: f64| {
            VolumeRate::new::<cubic_meter_per_second>(if coefficient > 0.0 {
                q * c / coefficient
            } else {
                0.0
            })
        };
        Ok(Discharge {
            flow: VolumeRate::new::<cubic_meter_per_second>(q),
            flow_low: scaled(low),
            flow_high: scaled(high),
            coefficient: Ratio::new::<ratio>(coefficient),
            reynolds: Ratio::new::<ratio>(q.abs() * d / area * rho / mu),
            assumptions,
        })
    }

    /// Pressure drop at `flow` (up to 3000 L/min either way); the inverse of [`Orifice::flow`].
    /// The answer may exceed the drop that `flow` accepts.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`].
    pub fn pressure_drop(
        &self,
        flow: VolumeRate,
        oil: &OilState,
    ) -> Result<Pressure, PhysicsError> {
        let (mu, rho) = oil.si()?;
        let law = self.law(mu, rho)?;
        let q = range::OIL_FLOW.check(flow.get::<cubic_meter_per_second>())?;
        Ok(Pressure::new::<pascal>(law.drop(q)))
    }

    pub(crate) fn law(&self, mu: f64, rho: f64) -> Result<OrificeLaw, PhysicsError> {
        let d = range::ORIFICE_DIAMETER.check(self.diameter.get::<meter>())?;
        let length = range::ORIFICE_LENGTH.check(self.length.get::<meter>())?;
        Ok(OrificeLaw::new(d, length, mu, rho))
    }
}

/// An orifice in plain SI, for one oil.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OrificeLaw {
    edge: EdgeLoss,
    bore: SeriesLoss,
    /// 0 for a knife edge, 1 for a bore.
    share: f64,
}

impl OrificeLaw {
    pub fn new(d: f64, length: f64, mu: f64, rho: f64) -> Self {
        let slender = length / d;
        let area = FRAC_PI_4 * d * d;
        let linear = mu * (24.0 / d.powi(3) + 128.0 * length / (PI * d.powi(4)));
        let inertia = |c: f64| rho / (2.0 * (c * area).powi(2));
        Self {
            edge: EdgeLoss {
                linear,
                quadratic: inertia(EDGE_DISCHARGE),
            },
            bore: SeriesLoss {
                linear,
                quadratic: inertia(bore_discharge(slender)),
            },
            share: bore_share(slender),
        }
    }

    /// The same hole, passing `scale` times as much.
    pub fn scaled(self, scale: f64) -> Self {
        let s2 = scale * scale;
        Self {
            edge: EdgeLoss {
                linear: self.edge.linear / scale,
                quadratic: self.edge.quadratic / s2,
            },
            bore: SeriesLoss {
                linear: self.bore.linear / scale,
                quadratic: self.bore.quadratic / s2,
            },
            share: self.share,
        }
    }

    /// The most that the drop grows with the flow anywhere below `dp`.
    pub fn steepest(&self, dp: f64) -> f64 {
        let inertia = self.edge.quadratic.max(self.bore.quadratic);
        self.edge.linear + 2.0 * (inertia * dp).sqrt()
    }

    #[inline]
    pub fn flow(&self, dp: f64) -> f64 {
        if self.share >= 1.0 {
            self.bore.flow(dp)
        } else if self.share <= 0.0 {
            self.edge.flow(dp)
        } else {
            (1.0 - self.share) * self.edge.flow(dp) + self.share * self.bore.flow(dp)
        }
    }

    /// How the flow grows with the drop, at `dp`.
    #[inline]
    pub fn slope(&self, dp: f64) -> f64 {
        if self.share >= 1.0 {
            self.bore.slope(self.bore.flow(dp))
        } else if self.share <= 0.0 {
            self.edge.slope(self.edge.flow(dp))
        } else {
            (1.0 - self.share) * self.edge.slope(self.edge.flow(dp))
                + self.share * self.bore.slope(self.bore.flow(dp))
        }
    }

    #[inline]
    pub fn drop(&self, q: f64) -> f64 {
        if self.share >= 1.0 {
            return self.bore.drop(q);
        }
        if self.share <= 0.0 {
            return self.edge.drop(q);
        }
        // The blend of two flows lies between them, so the drop lies between the two drops.
        let (a, b) = (self.edge.drop(q), self.bore.drop(q));
        let f = |dp: f64| self.flow(dp) - q;
        bracketed(f, a, f(a), b, f(b), 0.0)
    }
}

/// Coefficient of a short bore at high Reynolds number.
fn bore_discharge(slender: f64) -> f64 {
    if slender <= 10.0 {
        0.827 - 0.0085 * slender
    } else {
        // The slope of 1/C^2 at 10 bore lengths, 0.042 a diameter, is the friction of a pipe.
        let c: f64 = 0.827 - 0.085;
        let slope = 2.0 * 0.0085 / c.powi(3);
        (1.0 / (c * c) + slope * (slender - 10.0)).sqrt().recip()
    }
}

/// Smooth step from a knife edge (L/d 0.5) to a bore (L/d 1.5).
fn bore_share(slender: f64) -> f64 {
    let t = (slender - 0.5).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

/// Reynolds number of an orifice with the ideal speed, `d sqrt(2 dp / rho) / nu`: the one in
/// which the 1965 correlation is written.
///
/// # Errors
/// [`PhysicsError::OutOfRange`].
pub fn ideal_reynolds(
    orifice: &Orifice,
    drop: Pressure,
    oil: &OilState,
) -> Result<Ratio, PhysicsError> {
    let d = range::ORIFICE_DIAMETER.check(orifice.diameter.get::<meter>())?;
    let dp = range::PRESSURE_DROP.check(drop.get::<pascal>())?.abs();
    oil.si()?;
    let mu = oil.viscosity.get::<pascal_second>();
    let rho = oil.density.get::<kilogram_per_cubic_meter>();
    Ok(Ratio::new::<ratio>(d * (2.0 * dp * rho).sqrt() / mu))
}
