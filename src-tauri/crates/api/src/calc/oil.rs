//! Oil: its state, springs against its pressure, orifices, gaps, and the regulator.

use model::Finite;
use physics::fluid::OilState;
use physics::gap::Annulus;
use physics::gap_oil;
use physics::orifice::Orifice;
use physics::spring::{load_for_pressure, pressure_for_load};
use uom::si::area::square_meter;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{Area, DynamicViscosity, Force, Length, MassDensity, Pressure, Ratio};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

use super::{assumed, valve};
use crate::App;
use crate::dto::{
    GapOilAnswer, GapOilArgs, GapShape, OilAnswer, OilArgs, OrificeAnswer, OrificeArgs,
    RegulatorAnswer, RegulatorArgs, SpringAnswer, SpringArgs, SpringKnown,
};
use crate::error::{ApiError, finite};
use diagnosis::judgement::Span;

/// Viscosity and density of an oil.
pub(crate) fn state(_: &App, args: OilArgs) -> Result<OilAnswer, ApiError> {
    let oil = diagnosis::valve::oil_at(&args.oil, *args.temperature_k)?;
    Ok(OilAnswer {
        viscosity_pa_s: finite(oil.viscosity.value)?,
        density_kg_m3: finite(oil.density.value)?,
        extrapolated: oil.extrapolated,
    })
}

/// P = F / A, either way.
pub(crate) fn spring(_: &App, args: SpringArgs) -> Result<SpringAnswer, ApiError> {
    let area = Area::new::<square_meter>(*args.area_m2);
    let (load, pressure) = match args.known {
        SpringKnown::LoadN(load) => {
            let load = Force::new::<newton>(*load);
            (load, pressure_for_load(load, area)?)
        }
        SpringKnown::PressurePa(pressure) => {
            let pressure = Pressure::new::<pascal>(*pressure);
            (load_for_pressure(pressure, area)?, pressure)
        }
    };
    Ok(SpringAnswer {
        load_n: finite(load.value)?,
        pressure_pa: finite(pressure.value)?,
    })
}

fn oil_of(viscosity_pa_s: Finite, density_kg_m3: Finite) -> OilState {
    OilState {
        density: MassDensity::new::<kilogram_per_cubic_meter>(*density_kg_m3),
        viscosity: DynamicViscosity::new::<pascal_second>(*viscosity_pa_s),
        extrapolated: false,
    }
}

/// Flow through an orifice.
pub(crate) fn orifice(_: &App, args: OrificeArgs) -> Result<OrificeAnswer, ApiError> {
    let orifice = Orifice {
        diameter: Length::new::<meter>(*args.diameter_m),
        length: Length::new::<meter>(*args.length_m),
    };
    let oil = oil_of(args.viscosity_pa_s, args.density_kg_m3);
    let passed = orifice.flow(Pressure::new::<pascal>(*args.drop_pa), &oil)?;
    Ok(OrificeAnswer {
        flow_m3_s: Span {
            low: finite(passed.flow_low.value)?,
            likely: finite(passed.flow.value)?,
            high: finite(passed.flow_high.value)?,
        },
        coefficient: finite(passed.coefficient.get::<ratio>())?,
        reynolds: finite(passed.reynolds.get::<ratio>())?,
        assumptions: assumed(&passed.assumptions),
    })
}

/// The physics' gap of a shape.
pub(super) fn annulus(shape: &GapShape) -> Result<Annulus, ApiError> {
    Ok(Annulus::new(
        Length::new::<meter>(*shape.mean_diameter_m),
        Length::new::<meter>(*shape.radial_clearance_m),
        Length::new::<meter>(*shape.engaged_length_m),
        Ratio::new::<ratio>(*shape.eccentricity),
    )?)
}

/// Oil through a gap.
pub(crate) fn gap(_: &App, args: GapOilArgs) -> Result<GapOilAnswer, ApiError> {
    let gap = annulus(&args.gap)?;
    let oil = oil_of(args.viscosity_pa_s, args.density_kg_m3);
    let leak = gap_oil::leak(&gap, Pressure::new::<pascal>(*args.drop_pa), &oil)?;
    Ok(GapOilAnswer {
        flow_m3_s: finite(leak.flow.value)?,
        laminar_flow_m3_s: finite(leak.laminar_flow.value)?,
        reynolds: finite(leak.reynolds.get::<ratio>())?,
        gap_factor_m3: finite(gap.gap_factor().value)?,
        assumptions: assumed(&leak.assumptions),
    })
}

/// The regulator of a profile at one line pressure.
pub(crate) fn regulator(_: &App, args: RegulatorArgs) -> Result<RegulatorAnswer, ApiError> {
    let (regulator, oil) = valve::of_profile(
        &args.profile,
        args.oil_temperature_k,
        args.radial_clearance_m,
        None,
        args.eccentricity,
    )?;
    let circuit = regulator.circuit(&oil)?;
    let branch = valve::branch(args.branch);
    let point = circuit.solve(Pressure::new::<pascal>(*args.line_pa), branch)?;
    let leaks = point.flows.leaks.as_slice().iter();
    Ok(RegulatorAnswer {
        bore: args.profile.id,
        feed_pa: finite(point.feed.value)?,
        reaction_pa: finite(point.reaction.value)?,
        spring_chamber_pa: finite(point.spring_chamber.value)?,
        stroke_m: finite(point.spool_position.value)?,
        state: diagnosis::pressure::state(&point),
        supply_m3_s: finite(point.flows.supply.value)?,
        exhaust_m3_s: finite(point.flows.exhaust.value)?,
        demand_m3_s: finite(point.flows.demand.value)?,
        relief_m3_s: finite(point.flows.relief.value)?,
        leaks_m3_s: leaks
            .map(|flow| finite(flow.value))
            .collect::<Result<_, _>>()?,
        flow_force_n: finite(point.flow_force.value)?,
        assumptions: assumed(&point.assumptions),
    })
}
