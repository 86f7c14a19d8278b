//! The viscosity line of an oil, read both ways, and laid through more than two points.
//!
//! ASTM D341: `log10(log10(Z)) = A - B log10(T)`. Two points give the line exactly; more give it by
//! least squares in those coordinates, and the largest distance of a point tells whether the points
//! are of one oil.

use uom::si::f64::{KinematicViscosity, Ratio, ThermodynamicTemperature};
use uom::si::kinematic_viscosity::square_meter_per_second;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

use super::{ViscosityPoint, Walther, double_log};
use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::range;

/// The line of one oil.
#[derive(Debug, Clone, PartialEq)]
pub struct ViscosityChart {
    a: f64,
    b: f64,
    coldest: f64,
    hottest: f64,
    misfit: f64,
}

/// A viscosity or a temperature read off the line.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartReading {
    /// Temperature.
    pub temperature: ThermodynamicTemperature,
    /// Viscosity there.
    pub viscosity: KinematicViscosity,
    /// Whether the temperature lies beyond the points: [`Assumption::ViscosityExtrapolated`].
    pub extrapolated: bool,
    /// The same, as an assumption.
    pub assumptions: Vec<Assumption>,
}

impl ViscosityChart {
    /// The line through `points`, two or more that span at least 5 K.
    ///
    /// # Errors
    /// [`PhysicsError::TooFew`]; [`PhysicsError::OutOfRange`]; [`PhysicsError::Contradiction`] when
    /// the points span less than 5 K or the oil doesn't thin as it warms.
    pub fn new(points: &[ViscosityPoint]) -> Result<Self, PhysicsError> {
        if points.len() < 2 {
            return Err(PhysicsError::TooFew {
                field: "viscosity_points",
                count: points.len(),
                least: 2,
            });
        }
        let mut list = Vec::with_capacity(points.len());
        for p in points {
            let t = range::OIL_TEMPERATURE.check(p.temperature.get::<kelvin>())?;
            let nu =
                range::KINEMATIC_VISCOSITY.check(p.viscosity.get::<square_meter_per_second>())?;
            list.push((t, nu));
        }
        let coldest = list.iter().map(|p| p.0).fold(f64::INFINITY, f64::min);
        let hottest = list.iter().map(|p| p.0).fold(0.0, f64::max);
        if hottest - coldest < 5.0 {
            return Err(PhysicsError::Contradiction {
                field: "hot_temperature_k",
                other: "cold_temperature_k",
            });
        }
        #[allow(clippy::cast_precision_loss)] // A count of points.
        let n = list.len() as f64;
        let x = |t: f64| t.log10();
        let middle = list.iter().map(|p| x(p.0)).sum::<f64>() / n;
        let level = list.iter().map(|p| double_log(p.1)).sum::<f64>() / n;
        let spread: f64 = list.iter().map(|p| (x(p.0) - middle).powi(2)).sum();
        let cross: f64 = list
            .iter()
            .map(|p| (x(p.0) - middle) * (double_log(p.1) - level))
            .sum();
        let b = -cross / spread;
        if !(b.is_finite() && b > 0.0) {
            return Err(PhysicsError::Contradiction {
                field: "hot_viscosity_m2_per_s",
                other: "cold_viscosity_m2_per_s",
            });
        }
        let mut chart = Self {
            a: level + b * middle,
            b,
            coldest,
            hottest,
            misfit: 0.0,
        };
        for (t, nu) in list {
            chart.misfit = chart.misfit.max((chart.viscosity_si(t)? / nu - 1.0).abs());
        }
        Ok(chart)
    }

    /// A of the line, viscosity in mm2/s and temperature in kelvin.
    #[must_use]
    pub fn a(&self) -> Ratio {
        Ratio::new::<ratio>(self.a)
    }

    /// B of the line: the steeper, the more the oil thins.
    #[must_use]
    pub fn b(&self) -> Ratio {
        Ratio::new::<ratio>(self.b)
    }

    /// The largest distance of a point from the line, as a part of its viscosity; zero with two
    /// points, save for the 1e-5 by which the standard's inverse misses.
    #[must_use]
    pub fn misfit(&self) -> Ratio {
        Ratio::new::<ratio>(self.misfit)
    }

    /// Viscosity at `temperature`, 223.15 to 453.15 K.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]: the temperature, or a viscosity beyond the standard's range.
    pub fn at(&self, temperature: ThermodynamicTemperature) -> Result<ChartReading, PhysicsError> {
        let t = range::OIL_TEMPERATURE.check(temperature.get::<kelvin>())?;
        Ok(self.reading(t, self.viscosity_si(t)?))
    }

    /// Temperature at which the oil has `viscosity`.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]: the viscosity, or a temperature beyond 223.15 to 453.15 K.
    pub fn temperature_of(
        &self,
        viscosity: KinematicViscosity,
    ) -> Result<ChartReading, PhysicsError> {
        let nu = range::KINEMATIC_VISCOSITY.check(viscosity.get::<square_meter_per_second>())?;
        let t = 10f64.powf((self.a - double_log(nu)) / self.b);
        Ok(self.reading(range::OIL_TEMPERATURE.check(t)?, nu))
    }

    fn viscosity_si(&self, t: f64) -> Result<f64, PhysicsError> {
        Walther {
            a: self.a,
            b: self.b,
        }
        .viscosity(t)
    }

    fn reading(&self, t: f64, nu: f64) -> ChartReading {
        let extrapolated = t < self.coldest || t > self.hottest;
        ChartReading {
            temperature: ThermodynamicTemperature::new::<kelvin>(t),
            viscosity: KinematicViscosity::new::<square_meter_per_second>(nu),
            extrapolated,
            assumptions: if extrapolated {
                vec![Assumption::ViscosityExtrapolated]
            } else {
                Vec::new()
            },
        }
    }
}
