//! A small hole in air: ISO 6358.
//!
//! Mass flow is C rho0 p1 sqrt(T0/T1), times sqrt(1 - ((p2/p1 - b)/(1 - b))^2) above the critical
//! pressure ratio b (ISO 6358-1:2013 eqs. 1 and 2, `from memory`). The ellipse is an empirical fit.

use std::f64::consts::PI;

use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, MassRate, Pressure, Ratio};
use uom::si::length::meter;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::ratio::ratio;

use crate::air::{Air, Gas};
use crate::error::PhysicsError;
use crate::nozzle;
use crate::quantity::{SonicConductance, Throughput, pascals, sonic_conductance, throughput};
use crate::range::{self, within};

/// Reference density of ISO 6358 and ISO 8778, kg/m3. A definition: humid air at the reference
/// state really has 1.182.
const REFERENCE_DENSITY: f64 = 1.185;
/// Reference temperature of ISO 6358, K.
const REFERENCE_TEMPERATURE_K: f64 = 293.15;

/// Discharge coefficient taken for a drilled hole about as deep as wide when none is given
/// (`from memory`: 0.75 to 0.85 near choking; sharp thin plates 0.6 to 0.85 with pressure ratio).
pub const DRILLED_DISCHARGE: f64 = 0.8;
/// Relative standard uncertainty to carry for [`DRILLED_DISCHARGE`].
pub const DRILLED_DISCHARGE_UNCERTAINTY: f64 = 0.05;
/// Critical ratio taken when none is given: the ideal nozzle's for k = 1.4. Published values of
/// real restrictions run from 0.2 to 0.5 (`from memory`), which leaks less between.
pub const NOZZLE_CRITICAL_RATIO: f64 = 0.528_281_787_717_174_2;

/// A hole by its sonic conductance C and critical ratio b.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hole {
    pub(crate) conductance: f64,
    pub(crate) critical: f64,
}

impl Hole {
    /// A hole of known C (1e-14 to 1e-6 m3/(s Pa)) and b (0 to 0.6).
    ///
    /// # Errors
    /// [`PhysicsError`] naming `sonic_conductance_m3_per_s_pa` or `critical_ratio`.
    pub fn new(conductance: SonicConductance, critical: Ratio) -> Result<Self, PhysicsError> {
        Ok(Self {
            conductance: range::SONIC_CONDUCTANCE.check(conductance.value)?,
            critical: range::CRITICAL_RATIO.check(critical.get::<ratio>())?,
        })
    }

    /// A drilled hole of a diameter (10 µm to 10 mm) and discharge coefficient (0.1 to 1, else
    /// [`DRILLED_DISCHARGE`]), with the ideal nozzle's critical ratio.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `hole_diameter_m` or `discharge_coefficient_ratio`.
    pub fn drilled(diameter: Length, discharge: Option<Ratio>) -> Result<Self, PhysicsError> {
        let d = range::HOLE_DIAMETER.check(diameter.value)?;
        let cd = discharge_or_drilled(discharge)?;
        let conductance = conductance_of(cd * PI / 4.0 * d * d, Gas::DRY_AIR);
        Ok(Self {
            conductance,
            critical: NOZZLE_CRITICAL_RATIO,
        })
    }

    /// The hole that passes `flow` from `upstream` to `downstream`, with the ideal nozzle's
    /// critical ratio.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `throughput_w`, `air_pressure_pa`, or
    /// `sonic_conductance_m3_per_s_pa` when the hole would be absurd (also when there is no
    /// pressure drop to drive it).
    pub fn passing(
        flow: Throughput,
        air: &Air,
        upstream: Pressure,
        downstream: Pressure,
    ) -> Result<Self, PhysicsError> {
        let q = range::THROUGHPUT.check(flow.value)?;
        let p1 = range::AIR_PRESSURE.check(upstream.value)?;
        let p2 = range::AIR_PRESSURE.check(downstream.value)?;
        let unit = Self {
            conductance: 1.0,
            critical: NOZZLE_CRITICAL_RATIO,
        };
        let per_conductance = unit.throughput_si(air, p1, p2);
        if per_conductance <= 0.0 {
            return Err(PhysicsError::NoSolution {
                what: "sonic_conductance_m3_per_s_pa",
            });
        }
        let conductance = range::SONIC_CONDUCTANCE.check(q / per_conductance)?;
        Ok(Self {
            conductance,
            ..unit
        })
    }

    /// Sonic conductance C.
    #[must_use]
    pub fn conductance(&self) -> SonicConductance {
        sonic_conductance(self.conductance)
    }

    /// Diameter of the drilled hole of this conductance, for the discharge coefficient given (else
    /// [`DRILLED_DISCHARGE`]).
    ///
    /// # Errors
    /// [`PhysicsError`] naming `discharge_coefficient_ratio`.
    pub fn diameter(&self, discharge: Option<Ratio>) -> Result<Length, PhysicsError> {
        let cd = discharge_or_drilled(discharge)?;
        let area = self.conductance / conductance_of(1.0, Gas::DRY_AIR) / cd;
        Ok(Length::new::<meter>((4.0 * area / PI).sqrt()))
    }

    /// Mass flow from `upstream` to `downstream` (absolute), gas at `air`'s temperature; zero when
    /// `downstream` is not below `upstream`.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `air_pressure_pa`.
    pub fn mass_flow(
        &self,
        air: &Air,
        upstream: Pressure,
        downstream: Pressure,
    ) -> Result<MassRate, PhysicsError> {
        let q = self.throughput(air, upstream, downstream)?;
        Ok(MassRate::new::<kilogram_per_second>(q.value / air.rt()))
    }

    /// As [`Hole::mass_flow`], as pV throughput at `air`'s temperature.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `air_pressure_pa`.
    pub fn throughput(
        &self,
        air: &Air,
        upstream: Pressure,
        downstream: Pressure,
    ) -> Result<Throughput, PhysicsError> {
        let p1 = range::AIR_PRESSURE.check(upstream.value)?;
        let p2 = range::AIR_PRESSURE.check(downstream.value)?;
        Ok(throughput(self.throughput_si(air, p1, p2)))
    }

    /// The upstream pressure that drives `flow` to `downstream`: closed form, the root of a
    /// quadratic above choking.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `throughput_w` or `air_pressure_pa`.
    pub fn upstream_pressure(
        &self,
        flow: Throughput,
        air: &Air,
        downstream: Pressure,
    ) -> Result<Pressure, PhysicsError> {
        let q = range::THROUGHPUT.check(flow.value)?;
        let p2 = range::AIR_PRESSURE.check(downstream.value)?;
        Ok(pascals(self.upstream_si(air, q, p2)))
    }

    pub(crate) fn throughput_si(&self, air: &Air, p1: f64, p2: f64) -> f64 {
        if p2 >= p1 {
            return 0.0;
        }
        let beyond = ((p2 / p1 - self.critical) / (1.0 - self.critical)).max(0.0);
        self.sonic_per_pascal(air) * p1 * (1.0 - beyond * beyond).sqrt()
    }

    pub(crate) fn upstream_si(&self, air: &Air, q: f64, p2: f64) -> f64 {
        let sonic = q / self.sonic_per_pascal(air);
        if p2 <= self.critical * sonic {
            return sonic;
        }
        // (1 - 2b) p1^2 + 2 b p2 p1 - (p2^2 + M^2) = 0, solved without cancellation near b = 1/2.
        let b = self.critical;
        let m = sonic * (1.0 - b);
        let c = p2 * p2 + m * m;
        c / (b * p2 + (b * b * p2 * p2 + (1.0 - 2.0 * b) * c).max(0.0).sqrt())
    }

    /// Choked throughput per pascal upstream, m3/s.
    fn sonic_per_pascal(&self, air: &Air) -> f64 {
        let cold = (REFERENCE_TEMPERATURE_K / air.temperature_k).sqrt();
        self.conductance * REFERENCE_DENSITY * cold * air.rt()
    }
}

/// Sonic conductance of an ideal nozzle of effective area (discharge coefficient times area; 1e-12
/// to 0.01 m2): choked isentropic flow at the reference state over rho0 p1 (ISO 6358-1).
///
/// # Errors
/// [`PhysicsError`] naming `area_m2`.
pub fn conductance_of_area(area: Area, gas: Gas) -> Result<SonicConductance, PhysicsError> {
    let a = within("area_m2", area.get::<square_meter>(), 1.0e-12, 0.01, "m2")?;
    Ok(sonic_conductance(conductance_of(a, gas)))
}

/// Critical ratio from one subsonic test: the flow at pressure ratio `r` is `fraction` of the
/// choked flow, b = 1 - (1 - r)/(1 - sqrt(1 - fraction^2)) (ISO 6358-1).
///
/// # Errors
/// [`PhysicsError`] naming `pressure_ratio`, `flow_ratio` (each 0.001 to 0.999), or
/// `critical_ratio` when the two don't fit a hole.
pub fn critical_ratio_from_test(r: Ratio, fraction: Ratio) -> Result<Ratio, PhysicsError> {
    let r = within("pressure_ratio", r.get::<ratio>(), 0.001, 0.999, "1")?;
    let f = within("flow_ratio", fraction.get::<ratio>(), 0.001, 0.999, "1")?;
    let b = 1.0 - (1.0 - r) / (1.0 - (1.0 - f * f).sqrt());
    Ok(Ratio::new::<ratio>(range::CRITICAL_RATIO.check(b)?))
}

fn conductance_of(area: f64, gas: Gas) -> f64 {
    let choked = nozzle::flow_function(gas, 0.0);
    area * choked / (gas.constant * REFERENCE_TEMPERATURE_K).sqrt() / REFERENCE_DENSITY
}

fn discharge_or_drilled(discharge: Option<Ratio>) -> Result<f64, PhysicsError> {
    discharge.map_or(Ok(DRILLED_DISCHARGE), |cd| {
        range::DISCHARGE_COEFFICIENT.check(cd.get::<ratio>())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use uom::si::f64::ThermodynamicTemperature;
    use uom::si::thermodynamic_temperature::kelvin;

    fn air() -> Air {
        Air::at(ThermodynamicTemperature::new::<kelvin>(295.0)).unwrap()
    }

    proptest! {
        #[test]
        fn upstream_pressure_undoes_throughput(
            d in 1.0e-4..5.0e-3f64, b in 0.0..0.6f64, p1 in 2.0e4..1.1e5f64, r in 0.0..0.98f64,
        ) {
            let c = Hole::drilled(Length::new::<meter>(d), None).unwrap().conductance();
            let hole = Hole::new(c, Ratio::new::<ratio>(b)).unwrap();
            let p2 = pascals((r * p1).max(10.0));
            let q = hole.throughput(&air(), pascals(p1), p2).unwrap();
            let back = hole.upstream_pressure(q, &air(), p2).unwrap().value;
            prop_assert!((back / p1 - 1.0).abs() < 1e-9, "{p1} came back as {back}");
        }

        #[test]
        fn the_equivalent_hole_has_its_own_diameter(d in 1.0e-4..5.0e-3f64, p2 in 1.0e3..9.0e4f64) {
            let hole = Hole::drilled(Length::new::<meter>(d), None).unwrap();
            let q = hole.throughput(&air(), pascals(1.0e5), pascals(p2)).unwrap();
            let same = Hole::passing(q, &air(), pascals(1.0e5), pascals(p2)).unwrap();
            prop_assert!((same.diameter(None).unwrap().value / d - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn a_hole_without_a_drop_passes_nothing_and_fits_no_flow() {
        let hole = Hole::drilled(Length::new::<meter>(1e-3), None).unwrap();
        let p = pascals(9.0e4);
        assert_eq!(hole.throughput(&air(), p, p).unwrap().value, 0.0);
        let e = Hole::passing(throughput(1.0), &air(), p, p).unwrap_err();
        assert!(matches!(e, PhysicsError::NoSolution { .. }));
    }
}
