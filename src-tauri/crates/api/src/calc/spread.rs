//! Monte Carlo through one of the calculations: its distribution, and what makes it wide.

use diagnosis::judgement::Span;
use metrology::monte_carlo::{Plan, monte_carlo};
use metrology::shares::variance_shares;
use metrology::{Law, UncertainInput};
use model::Finite;
use physics::PhysicsError;
use physics::air::Air;
use physics::fluid::OilState;
use physics::gap::Land;
use physics::gap_air::{self, Seal};
use physics::gap_oil;
use physics::orifice::Orifice;
use physics::quantity::throughput;
use physics::spring::pressure_for_load;
use uom::si::area::square_meter;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    Area, DynamicViscosity, Force, Length, MassDensity, Pressure, Ratio, ThermodynamicTemperature,
};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

use super::band::{MOST_TRIALS, seed, share_trials};
use super::valve;
use crate::App;
use crate::dto::{InputShare, MonteCarloAnswer, MonteCarloArgs, SpreadLaw, SpreadModel};
use crate::error::{ApiError, ErrorCode, finite};
use crate::tasks::Watch;

/// Carries uncertain figures through a calculation.
pub(crate) fn monte_carlo_through(
    _: &App,
    args: MonteCarloArgs,
) -> Result<MonteCarloAnswer, ApiError> {
    drawn(&args, &Watch::default())
}

type Model = fn(&[f64]) -> Result<f64, PhysicsError>;

/// As [`monte_carlo_through`], given up when the watch says so.
pub(crate) fn drawn(args: &MonteCarloArgs, watch: &Watch) -> Result<MonteCarloAnswer, ApiError> {
    let trials = valve::count("trials", args.trials, 20_000, (100, MOST_TRIALS))?;
    let share_trials = share_trials(args.share_trials, 2_000)?;
    let coverage = args.coverage.map_or(0.95, Finite::get);
    if !(0.5..=0.999).contains(&coverage) {
        return Err(ApiError::new(ErrorCode::OutOfRange)
            .at("coverage")
            .with("low", 0.5)
            .with("high", 0.999));
    }
    let seed = seed(args.seed);
    let (inputs, model) = taken_apart(&args.model);
    let ranking = share_trials.map_or(0, |n| n as usize * (inputs.len() + 2));
    watch.expect(trials as usize + ranking);
    let watched = || {
        |x: &[f64]| {
            if watch.step() {
                model(x)
            } else {
                Err(PhysicsError::NoSolution { what: "cancelled" })
            }
        }
    };
    let plan = Plan::fixed(u64::from(seed), trials as usize);
    let run = monte_carlo(&inputs, &[], &plan, watched)?;
    let mut shares = Vec::new();
    if let Some(trials) = share_trials {
        let found = variance_shares(&inputs, u64::from(seed), trials as usize, None, watched)?;
        for share in &found.shares {
            shares.push(InputShare {
                input: share.name.to_owned(),
                alone: finite(share.alone)?,
                total: finite(share.total)?,
                alone_error: finite(share.alone_error)?,
                total_error: finite(share.total_error)?,
            });
        }
    }
    let (even, shortest) = (run.symmetric(coverage)?, run.shortest(coverage)?);
    Ok(MonteCarloAnswer {
        mean: finite(run.mean)?,
        mean_error: finite(run.mean_error())?,
        deviation: finite(run.deviation)?,
        skewness: run.skewness.map(finite).transpose()?,
        symmetric: Span {
            low: finite(even.low)?,
            likely: finite(run.quantile(0.5)?)?,
            high: finite(even.high)?,
        },
        shortest: [finite(shortest.low)?, finite(shortest.high)?],
        failed_share: finite(run.failure_share())?,
        shares,
        trials,
        seed,
    })
}

fn law(told: SpreadLaw) -> Law {
    match told {
        SpreadLaw::Exactly(value) => Law::Exactly(*value),
        SpreadLaw::Normal { mean, deviation } => Law::Normal {
            mean: *mean,
            deviation: *deviation,
        },
        SpreadLaw::Student {
            mean,
            scale,
            degrees_of_freedom,
        } => Law::Student {
            mean: *mean,
            scale: *scale,
            degrees_of_freedom: *degrees_of_freedom,
        },
        SpreadLaw::Rectangular { low, high } => Law::Rectangular {
            low: *low,
            high: *high,
        },
        SpreadLaw::Triangular { low, high } => Law::Triangular {
            low: *low,
            high: *high,
        },
        SpreadLaw::UShaped { low, high } => Law::UShaped {
            low: *low,
            high: *high,
        },
        SpreadLaw::LogUniform { low, high } => Law::LogUniform {
            low: *low,
            high: *high,
        },
    }
}

/// The inputs of a model in their order, and the calculation of them.
fn taken_apart(model: &SpreadModel) -> (Vec<UncertainInput>, Model) {
    let input = |name: &'static str, told: &SpreadLaw| UncertainInput {
        name,
        law: law(*told),
    };
    match model {
        SpreadModel::SpringPressure { load_n, area_m2 } => (
            vec![input("load_n", load_n), input("area_m2", area_m2)],
            spring_pressure,
        ),
        SpreadModel::OilOrifice {
            diameter_m,
            length_m,
            drop_pa,
            viscosity_pa_s,
            density_kg_m3,
        } => (
            vec![
                input("diameter_m", diameter_m),
                input("length_m", length_m),
                input("drop_pa", drop_pa),
                input("viscosity_pa_s", viscosity_pa_s),
                input("density_kg_m3", density_kg_m3),
            ],
            oil_orifice,
        ),
        SpreadModel::OilGap {
            mean_diameter_m,
            radial_clearance_m,
            engaged_length_m,
            eccentricity,
            drop_pa,
            viscosity_pa_s,
            density_kg_m3,
        } => (
            vec![
                input("mean_diameter_m", mean_diameter_m),
                input("radial_clearance_m", radial_clearance_m),
                input("engaged_length_m", engaged_length_m),
                input("eccentricity", eccentricity),
                input("drop_pa", drop_pa),
                input("viscosity_pa_s", viscosity_pa_s),
                input("density_kg_m3", density_kg_m3),
            ],
            oil_gap,
        ),
        SpreadModel::AirClearance {
            throughput_w,
            mean_diameter_m,
            engaged_length_m,
            eccentricity,
            upstream_pa,
            downstream_pa,
            air_temperature_k,
        } => (
            vec![
                input("throughput_w", throughput_w),
                input("mean_diameter_m", mean_diameter_m),
                input("engaged_length_m", engaged_length_m),
                input("eccentricity", eccentricity),
                input("upstream_pa", upstream_pa),
                input("downstream_pa", downstream_pa),
                input("air_temperature_k", air_temperature_k),
            ],
            air_clearance,
        ),
    }
}

/// What a model says to a list that isn't its own: never, for both come from [`taken_apart`].
fn other_list(x: &[f64]) -> PhysicsError {
    PhysicsError::TooFew {
        field: "inputs",
        count: x.len(),
        least: x.len() + 1,
    }
}

fn spring_pressure(x: &[f64]) -> Result<f64, PhysicsError> {
    let &[load, area] = x else {
        return Err(other_list(x));
    };
    let area = Area::new::<square_meter>(area);
    pressure_for_load(Force::new::<newton>(load), area).map(|p| p.get::<pascal>())
}

fn oil_of(viscosity: f64, density: f64) -> OilState {
    OilState {
        density: MassDensity::new::<kilogram_per_cubic_meter>(density),
        viscosity: DynamicViscosity::new::<pascal_second>(viscosity),
        extrapolated: false,
    }
}

fn oil_orifice(x: &[f64]) -> Result<f64, PhysicsError> {
    let &[diameter, length, drop, viscosity, density] = x else {
        return Err(other_list(x));
    };
    let orifice = Orifice {
        diameter: Length::new::<meter>(diameter),
        length: Length::new::<meter>(length),
    };
    let oil = oil_of(viscosity, density);
    let passed = orifice.flow(Pressure::new::<pascal>(drop), &oil)?;
    Ok(passed.flow.value)
}

fn oil_gap(x: &[f64]) -> Result<f64, PhysicsError> {
    let &[
        diameter,
        clearance,
        length,
        eccentricity,
        drop,
        viscosity,
        density,
    ] = x
    else {
        return Err(other_list(x));
    };
    let gap = valve::gap(diameter, clearance, length, eccentricity)?;
    let oil = oil_of(viscosity, density);
    Ok(gap_oil::leak(&gap, Pressure::new::<pascal>(drop), &oil)?
        .flow
        .value)
}

fn air_clearance(x: &[f64]) -> Result<f64, PhysicsError> {
    let &[
        passed,
        diameter,
        length,
        eccentricity,
        upstream,
        downstream,
        temperature,
    ] = x
    else {
        return Err(other_list(x));
    };
    let land = Land::new(Length::new::<meter>(diameter), Length::new::<meter>(length))?;
    let seal = Seal {
        land,
        far_side: Pressure::new::<pascal>(upstream),
    };
    let air = Air::at(ThermodynamicTemperature::new::<kelvin>(temperature))?;
    gap_air::clearance(
        throughput(passed),
        &[seal],
        &air,
        Pressure::new::<pascal>(downstream),
        Ratio::new::<ratio>(eccentricity),
        None,
    )
    .map(|clearance| clearance.get::<meter>())
}
