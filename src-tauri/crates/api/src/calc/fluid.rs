//! Oil by itself: viscosity line, viscosity index, stiffness with air.

use model::Finite;
use physics::fluid::ViscosityPoint;
use physics::fluid::aerated::AeratedOil;
use physics::fluid::chart::{ChartReading, ViscosityChart};
use physics::fluid::viscosity_index::viscosity_index;
use uom::si::f64::KinematicViscosity;
use uom::si::kinematic_viscosity::square_meter_per_second;

use super::assumed;
use super::si::{at_most, k, one, pa};
use crate::App;
use crate::dto::{
    OilChartAnswer, OilChartArgs, OilChartReading, OilStiffnessAnswer, OilStiffnessArgs,
    ViscosityIndexAnswer, ViscosityIndexArgs,
};
use crate::error::{ApiError, finite};

fn nu(value: Finite) -> KinematicViscosity {
    KinematicViscosity::new::<square_meter_per_second>(*value)
}

fn reading(read: &ChartReading) -> Result<OilChartReading, ApiError> {
    Ok(OilChartReading {
        temperature_k: finite(read.temperature.value)?,
        viscosity_m2_s: finite(read.viscosity.value)?,
        extrapolated: read.extrapolated,
    })
}

/// The viscosity line read both ways.
pub(crate) fn chart(_: &App, args: OilChartArgs) -> Result<OilChartAnswer, ApiError> {
    at_most("viscosity_points", &args.points, 50)?;
    at_most("temperatures_k", &args.temperatures_k, 200)?;
    at_most("viscosities_m2_s", &args.viscosities_m2_s, 200)?;
    let points: Vec<_> = args
        .points
        .iter()
        .map(|point| ViscosityPoint {
            temperature: k(point.temperature_k),
            viscosity: nu(point.viscosity_m2_s),
        })
        .collect();
    let line = ViscosityChart::new(&points)?;
    let mut assumptions = Vec::new();
    let mut read = |read: ChartReading| {
        assumptions.extend_from_slice(&read.assumptions);
        reading(&read)
    };
    let mut at_temperatures = Vec::with_capacity(args.temperatures_k.len());
    for &temperature in &args.temperatures_k {
        at_temperatures.push(read(line.at(k(temperature))?)?);
    }
    let mut at_viscosities = Vec::with_capacity(args.viscosities_m2_s.len());
    for &viscosity in &args.viscosities_m2_s {
        at_viscosities.push(read(line.temperature_of(nu(viscosity))?)?);
    }
    assumptions.sort_unstable();
    assumptions.dedup();
    Ok(OilChartAnswer {
        a: finite(line.a().value)?,
        b: finite(line.b().value)?,
        misfit_ratio: finite(line.misfit().value)?,
        at_temperatures,
        at_viscosities,
        assumptions: assumed(&assumptions),
    })
}

/// Viscosity index.
pub(crate) fn index(_: &App, args: ViscosityIndexArgs) -> Result<ViscosityIndexAnswer, ApiError> {
    let index = viscosity_index(nu(args.viscosity_40c_m2_s), nu(args.viscosity_100c_m2_s))?;
    Ok(ViscosityIndexAnswer {
        viscosity_index: finite(index.value)?,
        assumptions: Vec::new(),
    })
}

/// Stiffness with air.
pub(crate) fn stiffness(_: &App, args: OilStiffnessArgs) -> Result<OilStiffnessAnswer, ApiError> {
    let stiff = AeratedOil {
        oil_bulk_modulus: pa(args.oil_bulk_modulus_pa),
        air_ratio: one(args.air_ratio),
        reference_pressure: pa(args.reference_pressure_pa),
        polytropic_exponent: one(args.polytropic_exponent),
        wall_bulk_modulus: args.wall_bulk_modulus_pa.map(pa),
    }
    .at(pa(args.pressure_pa))?;
    Ok(OilStiffnessAnswer {
        bulk_modulus_pa: finite(stiff.bulk_modulus.value)?,
        air_ratio: finite(stiff.air_fraction.value)?,
        assumptions: assumed(&stiff.assumptions),
    })
}
