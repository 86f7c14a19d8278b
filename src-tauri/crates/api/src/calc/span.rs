//! Clearance from a leak of oil or air over all that is unknown, and from two valves.

use model::Finite;
use physics::air::Air;
use physics::clearance_span::{self, ClearanceSpan};
use physics::gap::Land;
use physics::gap_air::Seal;
use physics::quantity::{hose_resistance, throughput};
use physics::two_valves::{self, StandKnown, TwoValves};
use physics::vacuum_stand::{DeadHead, VacuumStand};

use super::assumed;
use super::si::{at_most, bounds, k, m, m3_s, oil, one, pa};
use crate::App;
use crate::dto::{
    AirSpanArgs, ClearanceSpanAnswer, OilSpanArgs, TwoValveStand, TwoValvesAnswer, TwoValvesArgs,
};
use crate::error::{ApiError, finite};

/// Most lands side by side.
const LANDS: usize = 16;

fn answer(span: &ClearanceSpan) -> Result<ClearanceSpanAnswer, ApiError> {
    Ok(ClearanceSpanAnswer {
        centred_m: finite(span.centred.value)?,
        touching_m: finite(span.touching.value)?,
        span_m: bounds(span.span)?,
        assumptions: assumed(&span.assumptions),
    })
}

fn land(diameter: Finite, length: Finite) -> Result<Land, ApiError> {
    Ok(Land::new(m(diameter), m(length))?)
}

/// Clearance behind a leak of oil.
pub(crate) fn oil_span(_: &App, args: OilSpanArgs) -> Result<ClearanceSpanAnswer, ApiError> {
    at_most("lands", &args.lands, LANDS)?;
    let lands = args
        .lands
        .iter()
        .map(|each| land(each.mean_diameter_m, each.engaged_length_m))
        .collect::<Result<Vec<_>, _>>()?;
    let oil = oil(args.viscosity_pa_s, args.density_kg_m3);
    answer(&clearance_span::oil_span(
        m3_s(args.flow_m3_s),
        &lands,
        &oil,
        pa(args.drop_pa),
        one(args.length_tolerance_ratio),
    )?)
}

/// Clearance behind a leak of air.
pub(crate) fn air_span(_: &App, args: AirSpanArgs) -> Result<ClearanceSpanAnswer, ApiError> {
    at_most("lands", &args.lands, LANDS)?;
    let seals = args
        .lands
        .iter()
        .map(|each| {
            Ok(Seal {
                land: land(each.mean_diameter_m, each.engaged_length_m)?,
                far_side: pa(each.far_side_pa),
            })
        })
        .collect::<Result<Vec<_>, ApiError>>()?;
    answer(&clearance_span::air_span(
        throughput(*args.throughput_w),
        &seals,
        &Air::at(k(args.air_temperature_k))?,
        pa(args.chamber_pa),
        one(args.length_tolerance_ratio),
    )?)
}

/// Clearance of a bore from two valves of known difference.
pub(crate) fn two_valves(_: &App, args: TwoValvesArgs) -> Result<TwoValvesAnswer, ApiError> {
    let barometer = pa(args.barometer_pa);
    let dead_head =
        |vacuum: Finite, follows: bool| DeadHead::from_reading(pa(vacuum), barometer, follows);
    let (stand, diameter);
    let dead;
    let known = match args.stand {
        TwoValveStand::DeadHead {
            vacuum_pa,
            follows_barometer,
        } => {
            dead = dead_head(vacuum_pa, follows_barometer)?;
            StandKnown::DeadHead(&dead)
        }
        TwoValveStand::Calibrated {
            dead_head_vacuum_pa,
            follows_barometer,
            pull_m3_s,
            hose_resistance_pa_s_m3,
            mean_diameter_m,
        } => {
            stand = VacuumStand {
                pull: m3_s(pull_m3_s),
                dead_head: dead_head(dead_head_vacuum_pa, follows_barometer)?,
                hose_resistance: hose_resistance(*hose_resistance_pa_s_m3),
            };
            diameter = m(mean_diameter_m);
            StandKnown::Calibrated(&stand, diameter)
        }
    };
    let found = two_valves::clearance(&TwoValves {
        larger_reading: pa(args.larger_vacuum_pa),
        smaller_reading: pa(args.smaller_vacuum_pa),
        reading_tolerance: pa(args.reading_tolerance_pa),
        diameter_difference: m(args.diameter_difference_m),
        difference_tolerance: args.difference_tolerance_ratio.map(one),
        stand: known,
        barometer,
        air: Air::at(k(args.air_temperature_k))?,
    })?;
    Ok(TwoValvesAnswer {
        radial_clearance_m: finite(found.radial_clearance.value)?,
        low_m: finite(found.low.value)?,
        high_m: found.high.map(|high| finite(high.value)).transpose()?,
        assumptions: assumed(&found.assumptions),
    })
}
