//! Clutches.

use physics::clutch::{Annulus, Capacity, ClutchPack, TurningOil};
use uom::si::angular_velocity::radian_per_second;
use uom::si::f64::{AngularVelocity, MassDensity, Torque};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::torque::newton_meter;

use super::assumed;
use super::si::{m, n, one, pa};
use crate::App;
use crate::dto::{
    ClutchCapacityAnswer, ClutchCapacityArgs, ClutchPackParts, ClutchPressureAnswer,
    ClutchPressureArgs, ClutchShiftAnswer, ClutchShiftArgs, RingFace, TurningDrum,
};
use crate::error::{ApiError, finite};

fn ring(ring: RingFace) -> Annulus {
    Annulus {
        inner: m(ring.inner_radius_m),
        outer: m(ring.outer_radius_m),
    }
}

fn pack(parts: &ClutchPackParts) -> ClutchPack {
    ClutchPack {
        piston: ring(parts.piston),
        face: ring(parts.face),
        faces: parts.faces,
        friction: one(parts.friction_coefficient),
        return_spring: n(parts.return_spring_n),
    }
}

fn turning(drum: TurningDrum) -> TurningOil {
    TurningOil {
        speed: AngularVelocity::new::<radian_per_second>(*drum.speed_rad_s),
        density: MassDensity::new::<kilogram_per_cubic_meter>(*drum.density_kg_m3),
        from_radius: m(drum.from_radius_m),
        balance: drum
            .balance
            .map(|balance| (ring(balance.ring), m(balance.from_radius_m))),
    }
}

fn answer(capacity: &Capacity) -> Result<ClutchCapacityAnswer, ApiError> {
    Ok(ClutchCapacityAnswer {
        apply_force_n: finite(capacity.apply_force.value)?,
        centrifugal_force_n: finite(capacity.centrifugal_force.value)?,
        uniform_wear_n_m: finite(capacity.uniform_wear.value)?,
        uniform_pressure_n_m: finite(capacity.uniform_pressure.value)?,
        face_pressure_pa: finite(capacity.face_pressure.value)?,
        assumptions: assumed(&capacity.assumptions),
    })
}

/// Torque at a pressure.
pub(crate) fn capacity(
    _: &App,
    args: ClutchCapacityArgs,
) -> Result<ClutchCapacityAnswer, ApiError> {
    let turning = args.turning.map(turning);
    answer(&pack(&args.pack).capacity(pa(args.pressure_pa), turning.as_ref())?)
}

/// What a shift of the pressure does to the torque.
pub(crate) fn shift(_: &App, args: ClutchShiftArgs) -> Result<ClutchShiftAnswer, ApiError> {
    let turning = args.turning.map(turning);
    let (pressure, shift) = (pa(args.pressure_pa), pa(args.shift_pa));
    let shifted = pack(&args.pack).shift(pressure, shift, turning.as_ref())?;
    Ok(ClutchShiftAnswer {
        before: answer(&shifted.before)?,
        after: answer(&shifted.after)?,
        torque_n_m: finite(shifted.torque.value)?,
        torque_ratio: shifted
            .fraction
            .map(|fraction| finite(fraction.value))
            .transpose()?,
    })
}

/// The pressure for a torque.
pub(crate) fn pressure(
    _: &App,
    args: ClutchPressureArgs,
) -> Result<ClutchPressureAnswer, ApiError> {
    let turning = args.turning.map(turning);
    let pack = pack(&args.pack);
    let torque = Torque::new::<newton_meter>(*args.torque_n_m);
    let pressure = pack.pressure_for(torque, turning.as_ref())?;
    let held = pack.capacity(pressure, turning.as_ref())?;
    Ok(ClutchPressureAnswer {
        pressure_pa: finite(pressure.value)?,
        assumptions: assumed(&held.assumptions),
    })
}
