//! What a clutch pack or band holds, and what a shift of its pressure does to that.
//!
//! `F = p A + F_c - F_s`: piston area, head of the oil that turns with the drum, return spring.
//! Torque of N faces between radii ri and ro: uniform wear (a run-in face, the lower one)
//! `T = N mu F (ro + ri) / 2`, uniform pressure (a new one)
//! `T = (2/3) N mu F (ro^3 - ri^3) / (ro^2 - ri^2)`; band `T = (T1 - T2) r`, `T1 / T2 = exp(mu a)`
//! (Shigley, *Mechanical Engineering Design*, ch. 16; Bhandari, *Design of Machine Elements*,
//! ch. 11). Oil that turns with the drum from radius r0 outwards stands at
//! `p = rho w^2 (r^2 - r0^2) / 2` (hydrostatics of a rotating liquid; White, *Fluid Mechanics*).

use std::f64::consts::PI;

use uom::si::angle::radian;
use uom::si::angular_velocity::radian_per_second;
use uom::si::f64::{Angle, AngularVelocity, Force, Length, MassDensity, Pressure, Ratio, Torque};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::torque::newton_meter;

use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::range;

/// A ring between two radii: a piston, a friction face, a balance chamber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Annulus {
    /// Inner radius, 0 to 500 mm.
    pub inner: Length,
    /// Outer radius, above the inner one.
    pub outer: Length,
}

/// A clutch pack.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClutchPack {
    /// The piston.
    pub piston: Annulus,
    /// The friction faces.
    pub face: Annulus,
    /// How many faces rub, 1 to 40: two for each lined plate.
    pub faces: u32,
    /// Coefficient of friction, 0.01 to 0.6; 0.08 to 0.15 in oil (from memory).
    pub friction: Ratio,
    /// Load of the return springs with the pack closed, 0 to 100 kN.
    pub return_spring: Force,
}

/// Oil that turns with the drum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurningOil {
    /// Speed of the drum, up to 1500 rad/s either way.
    pub speed: AngularVelocity,
    /// Density of the oil.
    pub density: MassDensity,
    /// Radius from which oil stands behind the piston: where it comes in, or drains.
    pub from_radius: Length,
    /// A chamber on the other side of the piston that turns too, and the radius from which oil
    /// stands in it.
    pub balance: Option<(Annulus, Length)>,
}

/// What a pack holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Capacity {
    /// Force that closes the pack; zero while the return spring holds it open.
    pub apply_force: Force,
    /// Of that, what the turning oil adds.
    pub centrifugal_force: Force,
    /// Torque by uniform wear: the one to count on.
    pub uniform_wear: Torque,
    /// Torque by uniform pressure.
    pub uniform_pressure: Torque,
    /// Mean pressure on the faces.
    pub face_pressure: Pressure,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// What a shift of the pressure does.
#[derive(Debug, Clone, PartialEq)]
pub struct CapacityShift {
    /// Before.
    pub before: Capacity,
    /// After.
    pub after: Capacity,
    /// Change of the torque by uniform wear.
    pub torque: Torque,
    /// The same as a part of that before; none when there was none.
    pub fraction: Option<Ratio>,
}

struct Si {
    area: f64,
    spring: f64,
    wear: f64,
    pressure: f64,
    face: f64,
}

impl ClutchPack {
    /// Force and torque at `pressure` over sump (0 to 10 MPa).
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]; [`PhysicsError::Contradiction`] for a ring whose outer radius
    /// isn't the larger.
    pub fn capacity(
        &self,
        pressure: Pressure,
        turning: Option<&TurningOil>,
    ) -> Result<Capacity, PhysicsError> {
        let si = self.si()?;
        let p = range::OIL_PRESSURE.check(pressure.get::<pascal>())?;
        let head = turning.map_or(Ok(0.0), |t| t.force(self.piston))?;
        let mut assumptions = vec![Assumption::FrictionConstant, Assumption::FacesShareForce];
        if turning.is_some() {
            assumptions.push(Assumption::OilTurnsWithDrum);
        }
        let force = (p * si.area + head - si.spring).max(0.0);
        Ok(Capacity {
            apply_force: Force::new::<newton>(force),
            centrifugal_force: Force::new::<newton>(head),
            uniform_wear: Torque::new::<newton_meter>(si.wear * force),
            uniform_pressure: Torque::new::<newton_meter>(si.pressure * force),
            face_pressure: Pressure::new::<pascal>(force / si.face),
            assumptions,
        })
    }

    /// What a `shift` of the pressure does to the torque. A pressure that would fall below the
    /// sump's counts as none.
    ///
    /// # Errors
    /// As [`ClutchPack::capacity`].
    pub fn shift(
        &self,
        pressure: Pressure,
        shift: Pressure,
        turning: Option<&TurningOil>,
    ) -> Result<CapacityShift, PhysicsError> {
        let by = range::PRESSURE_SHIFT.check(shift.get::<pascal>())?;
        let before = self.capacity(pressure, turning)?;
        let shifted = (pressure.get::<pascal>() + by).max(0.0);
        let after = self.capacity(Pressure::new::<pascal>(shifted), turning)?;
        let torque = after.uniform_wear - before.uniform_wear;
        let base = before.uniform_wear.get::<newton_meter>();
        let fraction = torque.get::<newton_meter>() / base;
        Ok(CapacityShift {
            fraction: fraction.is_finite().then(|| Ratio::new::<ratio>(fraction)),
            before,
            after,
            torque,
        })
    }

    /// The pressure that holds `torque` by uniform wear.
    ///
    /// # Errors
    /// As [`ClutchPack::capacity`]; [`PhysicsError::OutOfRange`] for a torque beyond 0 to 1 MN m,
    /// or a pressure beyond 10 MPa.
    pub fn pressure_for(
        &self,
        torque: Torque,
        turning: Option<&TurningOil>,
    ) -> Result<Pressure, PhysicsError> {
        let si = self.si()?;
        let t = range::within("torque_n_m", torque.get::<newton_meter>(), 0.0, 1e6, "N m")?;
        let head = turning.map_or(Ok(0.0), |t| t.force(self.piston))?;
        let p = ((t / si.wear + si.spring - head) / si.area).max(0.0);
        Ok(Pressure::new::<pascal>(range::OIL_PRESSURE.check(p)?))
    }

    fn si(&self) -> Result<Si, PhysicsError> {
        let (pi, po) = self.piston.radii("piston_outer_m", "piston_inner_m")?;
        let (ri, ro) = self.face.radii("face_outer_m", "face_inner_m")?;
        let n = range::FRICTION_FACES.check(f64::from(self.faces))?;
        let mu = range::FRICTION_COEFFICIENT.check(self.friction.get::<ratio>())?;
        let (ri2, ro2) = (ri * ri, ro * ro);
        Ok(Si {
            area: PI * (po * po - pi * pi),
            spring: range::CLUTCH_FORCE.check(self.return_spring.get::<newton>())?,
            wear: n * mu * 0.5 * (ro + ri),
            // (ro^3 - ri^3) / (ro^2 - ri^2) without cancellation.
            pressure: n * mu * (2.0 / 3.0) * (ro2 + ro * ri + ri2) / (ro + ri),
            face: PI * (ro2 - ri2),
        })
    }
}

impl Annulus {
    fn radii(self, outer: &'static str, inner: &'static str) -> Result<(f64, f64), PhysicsError> {
        let ri = range::CLUTCH_RADIUS.check_as(inner, self.inner.get::<meter>())?;
        let ro = range::CLUTCH_RADIUS.check_as(outer, self.outer.get::<meter>())?;
        // A ring of less than a tenth of a millimetre is a slip.
        if ro - ri < 1e-4 {
            return Err(PhysicsError::Contradiction {
                field: outer,
                other: inner,
            });
        }
        Ok((ri, ro))
    }
}

impl TurningOil {
    /// Force of the turning oil on the piston, less that of the balance chamber.
    fn force(&self, piston: Annulus) -> Result<f64, PhysicsError> {
        let w = range::ROTATION.check(self.speed.get::<radian_per_second>())?;
        let rho = range::OIL_DENSITY.check(self.density.get::<kilogram_per_cubic_meter>())?;
        let head = |ring: (f64, f64), from: Length| -> Result<f64, PhysicsError> {
            let r0 = range::CLUTCH_RADIUS.check_as("oil_radius_m", from.get::<meter>())?;
            let (ro, ri) = (ring.1, ring.0.max(r0).min(ring.1));
            // The integral of rho w^2 (r^2 - r0^2) / 2 over the ring that oil covers.
            let (o2, i2, s2) = (ro * ro, ri * ri, r0 * r0);
            Ok(0.25 * PI * rho * w * w * (o2 - i2) * (o2 + i2 - 2.0 * s2).max(0.0))
        };
        let on = head(
            piston.radii("piston_outer_m", "piston_inner_m")?,
            self.from_radius,
        )?;
        let against = match self.balance {
            Some((ring, from)) => head(ring.radii("balance_outer_m", "balance_inner_m")?, from)?,
            None => 0.0,
        };
        Ok(on - against)
    }
}

/// The force at which a face wears at `pressure` at its inner edge, where uniform wear puts the
/// most: `F = 2 pi p ri (ro - ri)`.
///
/// # Errors
/// As [`ClutchPack::capacity`].
pub fn force_by_uniform_wear(face: Annulus, pressure: Pressure) -> Result<Force, PhysicsError> {
    let (ri, ro) = face.radii("face_outer_m", "face_inner_m")?;
    let p = range::OIL_PRESSURE.check_as("face_pressure_pa", pressure.get::<pascal>())?;
    Ok(Force::new::<newton>(2.0 * PI * p * ri * (ro - ri)))
}

/// Torque that a band holds on a drum of `radius`, its tight end pulled with `pull` (0 to 100 kN).
///
/// # Errors
/// [`PhysicsError::OutOfRange`].
pub fn band_torque(
    pull: Force,
    friction: Ratio,
    wrap: Angle,
    radius: Length,
) -> Result<Torque, PhysicsError> {
    let t1 = range::CLUTCH_FORCE.check(pull.get::<newton>())?;
    let mu = range::FRICTION_COEFFICIENT.check(friction.get::<ratio>())?;
    let a = range::WRAP_ANGLE.check(wrap.get::<radian>())?;
    let r = range::CLUTCH_RADIUS.check(radius.get::<meter>())?;
    Ok(Torque::new::<newton_meter>(-t1 * r * (-mu * a).exp_m1()))
}
