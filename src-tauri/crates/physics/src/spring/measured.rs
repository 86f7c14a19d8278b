//! A spring from loads measured at heights, and how far it has sagged.
//!
//! A straight line `F = F_m - k (h - h_m)` by weighted least squares (weights 1/u^2), h_m the
//! weighted mean height, so that F_m and k are uncorrelated. Standard uncertainties follow from the
//! weights, and are raised by `sqrt(chi^2 / (n - 2))` when the points scatter more than their
//! uncertainties allow (the Birge ratio; JCGM 100 H.3 has the unweighted line).

use uom::si::f64::{Force, Length, Ratio};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;

use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::range;
use crate::spring::{Spring, SpringRate};

/// One load at one height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadReading {
    /// Compressed height, 1 to 300 mm.
    pub height: Length,
    /// Load, 0.05 N to 5 kN.
    pub load: Force,
    /// Standard uncertainty of the load, with that of the height times the rate in it.
    pub uncertainty: Force,
}

/// A load with its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loaded {
    /// Load.
    pub load: Force,
    /// Standard uncertainty.
    pub uncertainty: Force,
}

/// The line through measured loads.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedSpring {
    /// Rate.
    pub rate: SpringRate,
    /// Standard uncertainty of the rate.
    pub rate_uncertainty: SpringRate,
    /// Readings beyond the two that a line needs.
    pub degrees_of_freedom: usize,
    /// `sqrt(chi^2 / (n - 2))`: near 1 when the readings scatter as their uncertainties say, far
    /// above it when one of them is off or the spring isn't straight. 0 with two readings.
    pub scatter: Ratio,
    /// The largest distance of a reading from the line.
    pub largest_residual: Force,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
    rate_si: f64,
    rate_u: f64,
    middle: f64,
    load: f64,
    load_u: f64,
    heights: (f64, f64),
}

/// How a spring differs from its nominal load at a height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sag {
    /// Load as measured.
    pub measured: Loaded,
    /// Nominal less measured load; positive when the spring has lost load.
    pub lost_load: Force,
    /// The same as a part of the nominal load.
    pub lost_fraction: Ratio,
    /// The height that the spring has lost, lost load over rate: the shim that gives it back.
    pub lost_height: Length,
    /// Standard uncertainty of the lost height.
    pub lost_height_uncertainty: Length,
}

/// The line through `readings`, two or more, at two different heights at least.
///
/// # Errors
/// [`PhysicsError::TooFew`] for fewer than two; [`PhysicsError::OutOfRange`];
/// [`PhysicsError::Contradiction`] when the load doesn't grow as the height falls.
pub fn fit(readings: &[LoadReading]) -> Result<FittedSpring, PhysicsError> {
    if readings.len() < 2 {
        return Err(PhysicsError::TooFew {
            field: "load_readings",
            count: readings.len(),
            least: 2,
        });
    }
    let mut points = Vec::with_capacity(readings.len());
    for r in readings {
        let u = range::LOAD_UNCERTAINTY.check(r.uncertainty.get::<newton>())?;
        points.push((
            range::SPRING_HEIGHT.check(r.height.get::<meter>())?,
            range::SPRING_LOAD.check(r.load.get::<newton>())?,
            1.0 / (u * u),
        ));
    }
    let sum = |f: &dyn Fn(&(f64, f64, f64)) -> f64| points.iter().map(f).sum::<f64>();
    let weight = sum(&|p| p.2);
    let middle = sum(&|p| p.2 * p.0) / weight;
    let load = sum(&|p| p.2 * p.1) / weight;
    let spread = sum(&|p| p.2 * (p.0 - middle).powi(2));
    let cross = sum(&|p| p.2 * (p.0 - middle) * (p.1 - load));
    let rate = -cross / spread;
    if !(rate.is_finite() && rate > 0.0) {
        return Err(PhysicsError::Contradiction {
            field: "load_readings",
            other: range::SPRING_HEIGHT.field,
        });
    }
    let rate = range::SPRING_RATE.check(rate)?;
    let residual = |p: &(f64, f64, f64)| p.1 - load + rate * (p.0 - middle);
    let free = points.len() - 2;
    let chi2 = sum(&|p| p.2 * residual(p).powi(2));
    #[allow(clippy::cast_precision_loss)] // A count of readings.
    let scatter = if free == 0 {
        0.0
    } else {
        (chi2 / free as f64).sqrt()
    };
    let factor = scatter.max(1.0);
    let (rate_u, load_u) = (factor / spread.sqrt(), factor / weight.sqrt());
    let largest = points.iter().map(|p| residual(p).abs()).fold(0.0, f64::max);
    let lowest = points.iter().map(|p| p.0).fold(f64::INFINITY, f64::min);
    let highest = points.iter().map(|p| p.0).fold(0.0, f64::max);
    Ok(FittedSpring {
        rate: SpringRate::new::<newton_per_meter>(rate),
        rate_uncertainty: SpringRate::new::<newton_per_meter>(rate_u),
        degrees_of_freedom: free,
        scatter: Ratio::new::<ratio>(scatter),
        largest_residual: Force::new::<newton>(largest),
        assumptions: vec![Assumption::SpringStraight],
        rate_si: rate,
        rate_u,
        middle,
        load,
        load_u,
        heights: (lowest, highest),
    })
}

impl FittedSpring {
    /// Load at `height`, with its standard uncertainty, which grows away from the readings.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]: the height, or the load that the line has there.
    pub fn load_at(&self, height: Length) -> Result<Loaded, PhysicsError> {
        let h = range::SPRING_HEIGHT.check(height.get::<meter>())?;
        let away = h - self.middle;
        let load = range::SPRING_LOAD.check(self.load - self.rate_si * away)?;
        Ok(Loaded {
            load: Force::new::<newton>(load),
            uncertainty: Force::new::<newton>(self.load_u.hypot(self.rate_u * away)),
        })
    }

    /// Whether `height` lies beyond the readings, so that a load there is extrapolated.
    #[must_use]
    pub fn extrapolates(&self, height: Length) -> bool {
        let h = height.get::<meter>();
        !(self.heights.0 <= h && h <= self.heights.1)
    }

    /// The spring as a valve sees it.
    ///
    /// # Errors
    /// As [`FittedSpring::load_at`].
    pub fn installed(&self, height_at_rest: Length) -> Result<Spring, PhysicsError> {
        Ok(Spring {
            load_at_rest: self.load_at(height_at_rest)?.load,
            rate: self.rate,
        })
    }

    /// What the spring has lost against the nominal load at `height`.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`].
    pub fn sag(&self, height: Length, nominal: Force) -> Result<Sag, PhysicsError> {
        let measured = self.load_at(height)?;
        let nominal = range::SPRING_LOAD.check_as("nominal_load_n", nominal.get::<newton>())?;
        let lost = nominal - measured.load.get::<newton>();
        let height_lost = lost / self.rate_si;
        let by_load = measured.uncertainty.get::<newton>() / self.rate_si;
        let by_rate = height_lost * self.rate_u / self.rate_si;
        Ok(Sag {
            measured,
            lost_load: Force::new::<newton>(lost),
            lost_fraction: Ratio::new::<ratio>(lost / nominal),
            lost_height: Length::new::<meter>(height_lost),
            lost_height_uncertainty: Length::new::<meter>(by_load.hypot(by_rate)),
        })
    }
}
