//! The annular gap between a valve's land and its bore.

use uom::si::f64::{Length, Ratio, TemperatureCoefficient, ThermodynamicTemperature, Volume};
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::volume::cubic_meter;

use crate::error::PhysicsError;
use crate::range::{self, within};

/// How much more a gap leaks when the valve touches one side: 1 + 1.5 e^2 at e = 1.
pub const TOUCHING_FACTOR: f64 = 2.5;

/// What the drawing and the calliper say of one land: everything but the clearance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Land {
    pub(crate) diameter: f64,
    pub(crate) length: f64,
}

impl Land {
    /// A land of mean diameter (2 to 100 mm) and engaged length (0.1 to 100 mm).
    ///
    /// # Errors
    /// [`PhysicsError`] naming `bore_diameter_m` or `engaged_length_m`.
    pub fn new(mean_diameter: Length, length: Length) -> Result<Self, PhysicsError> {
        Ok(Self {
            diameter: range::BORE_DIAMETER.check(mean_diameter.value)?,
            length: range::ENGAGED_LENGTH.check(length.value)?,
        })
    }

    /// The gap of this land at a radial clearance and relative eccentricity.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `radial_clearance_m` or `eccentricity_ratio`.
    pub fn gap(&self, clearance: Length, eccentricity: Ratio) -> Result<Annulus, PhysicsError> {
        Ok(self.gap_si(
            range::RADIAL_CLEARANCE.check(clearance.value)?,
            range::ECCENTRICITY.check(eccentricity.get::<ratio>())?,
        ))
    }

    pub(crate) fn gap_si(&self, clearance: f64, eccentricity: f64) -> Annulus {
        let Self { diameter, length } = *self;
        Annulus {
            diameter,
            clearance,
            length,
            eccentricity,
        }
    }
}

/// An annular gap: mean diameter D, radial clearance c, engaged length L, relative eccentricity e
/// (0 centred, 1 touching).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Annulus {
    pub(crate) diameter: f64,
    pub(crate) clearance: f64,
    pub(crate) length: f64,
    pub(crate) eccentricity: f64,
}

impl Annulus {
    /// A gap of mean diameter 2 to 100 mm, radial clearance 0.1 µm to 1 mm, length 0.1 to 100 mm
    /// and eccentricity 0 to 1.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `bore_diameter_m`, `radial_clearance_m`, `engaged_length_m` or
    /// `eccentricity_ratio`.
    pub fn new(
        mean_diameter: Length,
        radial_clearance: Length,
        length: Length,
        eccentricity: Ratio,
    ) -> Result<Self, PhysicsError> {
        Land::new(mean_diameter, length)?.gap(radial_clearance, eccentricity)
    }

    /// Mean diameter of bore and land. With the mean (not the bore's) diameter the thin-film
    /// formula is within 2e-7 of the exact annulus at 5 to 20 µm.
    #[must_use]
    pub fn mean_diameter(&self) -> Length {
        Length::new::<meter>(self.diameter)
    }

    /// Radial clearance: half the difference of the diameters.
    #[must_use]
    pub fn radial_clearance(&self) -> Length {
        Length::new::<meter>(self.clearance)
    }

    /// Engaged length.
    #[must_use]
    pub fn length(&self) -> Length {
        Length::new::<meter>(self.length)
    }

    /// Eccentricity over the clearance.
    #[must_use]
    pub fn eccentricity(&self) -> Ratio {
        Ratio::new::<ratio>(self.eccentricity)
    }

    /// K = D c^3 (1 + 1.5 e^2) / L, m3: all that a laminar film knows of its gap. Liquid flow is
    /// pi K dp / (12 mu) (Merritt, Hydraulic Control Systems, ch. 3; White, Viscous Fluid Flow,
    /// eccentric annulus; equation numbers `from memory`).
    #[must_use]
    pub fn gap_factor(&self) -> Volume {
        Volume::new::<cubic_meter>(self.gap_factor_si())
    }

    pub(crate) fn gap_factor_si(&self) -> f64 {
        self.diameter * self.clearance.powi(3) * (1.0 + 1.5 * self.eccentricity.powi(2))
            / self.length
    }
}

/// The radial clearance that gives a land the factor K at an eccentricity: the inverse of
/// [`Annulus::gap_factor`].
///
/// # Errors
/// [`PhysicsError`] naming `eccentricity_ratio`, or `radial_clearance_m` when the answer lies
/// outside 0.1 µm to 1 mm.
pub fn clearance_of_factor(
    factor: Volume,
    land: Land,
    eccentricity: Ratio,
) -> Result<Length, PhysicsError> {
    let e = range::ECCENTRICITY.check(eccentricity.get::<ratio>())?;
    let cube = factor.get::<cubic_meter>() * land.length / land.diameter / (1.0 + 1.5 * e * e);
    Ok(Length::new::<meter>(
        range::RADIAL_CLEARANCE.check(cube.cbrt())?,
    ))
}

/// Materials and temperatures for [`clearance_at_temperature`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expansion {
    /// Linear expansion of the bore's material.
    pub bore: TemperatureCoefficient,
    /// Linear expansion of the valve's material.
    pub valve: TemperatureCoefficient,
    /// Temperature at which the clearance is known.
    pub from: ThermodynamicTemperature,
    /// Temperature at which it is wanted.
    pub to: ThermodynamicTemperature,
}

/// Radial clearance of the same valve and bore at another temperature. Each diameter grows in
/// proportion to its own size: an aluminium bore opens on a steel valve when hot, and closes on an
/// anodised aluminium one hardly at all.
///
/// May come out at or below zero (the valve seizes); the caller decides what that means.
///
/// # Errors
/// [`PhysicsError`] naming `bore_diameter_m`, `radial_clearance_m`, `thermal_expansion_per_k` or
/// `part_temperature_k`.
pub fn clearance_at_temperature(
    bore_diameter: Length,
    radial_clearance: Length,
    expansion: &Expansion,
) -> Result<Length, PhysicsError> {
    let bore = range::BORE_DIAMETER.check(bore_diameter.value)?;
    let c = range::RADIAL_CLEARANCE.check(radial_clearance.value)?;
    let alpha_bore = range::THERMAL_EXPANSION.check(expansion.bore.value)?;
    let alpha_valve = range::THERMAL_EXPANSION.check(expansion.valve.value)?;
    let from = range::PART_TEMPERATURE.check(expansion.from.value)?;
    let rise = range::PART_TEMPERATURE.check(expansion.to.value)? - from;
    let valve = within("valve_diameter_m", bore - 2.0 * c, 0.0, bore, "m")?;
    let hot_bore = bore * (1.0 + alpha_bore * rise);
    let hot_valve = valve * (1.0 + alpha_valve * rise);
    Ok(Length::new::<meter>((hot_bore - hot_valve) / 2.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn clearance_undoes_the_gap_factor(
            d in 0.004..0.03f64, c in 2.0e-6..1.5e-4f64, l in 1.0e-3..0.02f64, e in 0.0..1.0f64,
        ) {
            let land = Land::new(Length::new::<meter>(d), Length::new::<meter>(l)).unwrap();
            let e = Ratio::new::<ratio>(e);
            let k = land.gap(Length::new::<meter>(c), e).unwrap().gap_factor();
            let back = clearance_of_factor(k, land, e).unwrap().value;
            prop_assert!((back / c - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn a_ten_metre_bore_is_refused_by_name() {
        let m = Length::new::<meter>;
        let e = Annulus::new(m(10.0), m(2e-5), m(5e-3), Ratio::new::<ratio>(0.0)).unwrap_err();
        assert!(
            matches!(
                e,
                PhysicsError::OutOfRange {
                    field: "bore_diameter_m",
                    ..
                }
            ),
            "{e}"
        );
    }
}
