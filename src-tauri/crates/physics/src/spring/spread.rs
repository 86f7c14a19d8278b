//! How far rate and load of a spring may be off when they come from its dimensions alone.
//!
//! First order (JCGM 100, eq. 10), all errors independent: with `k = G d^4 / (8 D^3 N)` and
//! `F = k (L0 - L)`,
//!
//! `(dk/k)^2 = (4 dd/d)^2 + (3 dD/D)^2 + (dN/N)^2 + (dG/G)^2` and
//! `dF^2 = ((L0 - L) dk)^2 + (k dL0)^2`.
//!
//! The fourth power makes the wire's own error count most: 0.01 mm on a wire of 1 mm is 4 % of rate.

use uom::si::f64::{Force, Length, Ratio};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;

use crate::error::PhysicsError;
use crate::range::within;
use crate::spring::SpringRate;
use crate::spring::geometry::SpringGeometry;

/// How far each dimension may be off: half-widths, all meant alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoilErrors {
    /// Of the wire, 0 to 1 mm.
    pub wire: Length,
    /// Of the mean coil diameter, 0 to 10 mm.
    pub mean_diameter: Length,
    /// Of the active coils, 0 to 5: where a closed coil begins to work is hard to see.
    pub active_coils: Ratio,
    /// Of the height without load, 0 to 50 mm.
    pub free_height: Length,
    /// Of the shear modulus, as a share of it, 0 to 0.5.
    pub shear_modulus: Ratio,
}

/// Half-widths of what follows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoilSpread {
    /// Of the rate.
    pub rate: SpringRate,
    /// Of the load at the height.
    pub load: Force,
}

impl SpringGeometry {
    /// How far rate, and load at `height` (solid to free height), may be off. Good while each error
    /// is small beside its dimension: at a tenth of the wire the rate's is a third too small.
    ///
    /// # Errors
    /// As [`SpringGeometry::at_height`]; [`PhysicsError::OutOfRange`] for an error.
    pub fn spread(&self, height: Length, off: &CoilErrors) -> Result<CoilSpread, PhysicsError> {
        let rate = self.form()?.rate.get::<newton_per_meter>();
        let load = self.at_height(height)?.load.get::<newton>();
        let part = |field, error: Length, high: f64, of: Length| {
            within(field, error.get::<meter>(), 0.0, high, "m").map(|e| e / of.get::<meter>())
        };
        let coils = off.active_coils.get::<ratio>();
        let coils = within("active_coils_error_ratio", coils, 0.0, 5.0, "1")?;
        let modulus = off.shear_modulus.get::<ratio>();
        let shares = [
            4.0 * part("wire_error_m", off.wire, 1e-3, self.wire)?,
            3.0 * part(
                "mean_diameter_error_m",
                off.mean_diameter,
                0.01,
                self.mean_diameter,
            )?,
            coils / self.active_coils.get::<ratio>(),
            within("shear_modulus_error_ratio", modulus, 0.0, 0.5, "1")?,
        ];
        let share = shares.iter().map(|s| s * s).sum::<f64>().sqrt();
        let free = off.free_height.get::<meter>();
        let free = within("free_height_error_m", free, 0.0, 0.05, "m")?;
        Ok(CoilSpread {
            rate: SpringRate::new::<newton_per_meter>(share * rate),
            load: Force::new::<newton>((share * load).hypot(rate * free)),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::spring::geometry::Ends;
    use proptest::prelude::*;
    use uom::si::f64::{MassDensity, Pressure};
    use uom::si::mass_density::kilogram_per_cubic_meter;
    use uom::si::pressure::pascal;

    fn m(x: f64) -> Length {
        Length::new::<meter>(x)
    }

    fn coil(d: f64, mean: f64, coils: f64, free: f64, g: f64) -> SpringGeometry {
        SpringGeometry {
            wire: m(d),
            mean_diameter: m(mean),
            active_coils: Ratio::new::<ratio>(coils),
            free_height: m(free),
            ends: Ends::ClosedGround,
            shear_modulus: Pressure::new::<pascal>(g),
            young_modulus: Pressure::new::<pascal>(2.07e11),
            density: MassDensity::new::<kilogram_per_cubic_meter>(7850.0),
        }
    }

    proptest! {
        /// The linear sum is what each dimension does when it is really moved.
        #[test]
        fn the_spread_is_that_of_moved_dimensions(
            d in 0.6e-3..2e-3f64, index in 5.0..12.0f64, coils in 5.0..15.0f64,
            squeeze in 0.2..0.7f64, [ed, em, en, ef, eg] in prop::array::uniform5(0.0..1e-4f64),
        ) {
            let (mean, g) = (index * d, 7.93e10);
            let solid = (coils + 2.0) * d;
            let free = 2.0 * solid;
            let height = free - squeeze * (free - solid);
            let load = |s: SpringGeometry| s.at_height(m(height)).unwrap().load.get::<newton>();
            let here = load(coil(d, mean, coils, free, g));
            let moved = [
                load(coil(d * (1.0 + ed), mean, coils, free, g)),
                load(coil(d, mean * (1.0 + em), coils, free, g)),
                load(coil(d, mean, coils * (1.0 + en), free, g)),
                load(coil(d, mean, coils, free * (1.0 + ef), g)),
                load(coil(d, mean, coils, free, g * (1.0 + eg))),
            ];
            let whole = moved.iter().map(|l| (l - here).powi(2)).sum::<f64>().sqrt();
            let told = coil(d, mean, coils, free, g).spread(m(height), &CoilErrors {
                wire: m(ed * d),
                mean_diameter: m(em * mean),
                active_coils: Ratio::new::<ratio>(en * coils),
                free_height: m(ef * free),
                shear_modulus: Ratio::new::<ratio>(eg),
            }).unwrap();
            prop_assert!((told.load.get::<newton>() - whole).abs() <= 2e-3 * whole + 1e-12);
        }
    }
}
