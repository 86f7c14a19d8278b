//! A relief on its seat.

use physics::relief::seat::Seat;
use physics::relief::seated::SeatedRelief;

use super::assumed;
use super::si::{m, m3_s, n, oil, one, pa, rad, spring, spring_line};
use crate::App;
use crate::dto::{
    ReliefAtFlow, ReliefOverrideAnswer, ReliefOverrideArgs, ReliefSeat, ReliefSpringAnswer,
    ReliefSpringArgs, SeatedReliefParts,
};
use crate::error::{ApiError, finite};

fn relief(parts: &SeatedReliefParts) -> SeatedRelief {
    SeatedRelief {
        seat: match parts.seat {
            ReliefSeat::BallOnEdge {
                ball_diameter_m,
                bore_diameter_m,
            } => Seat::BallOnEdge {
                ball: m(ball_diameter_m),
                bore: m(bore_diameter_m),
            },
            ReliefSeat::BallOnCone {
                ball_diameter_m,
                half_angle_rad,
                bore_diameter_m,
            } => Seat::BallOnCone {
                ball: m(ball_diameter_m),
                half_angle: rad(half_angle_rad),
                bore: m(bore_diameter_m),
            },
            ReliefSeat::ConeOnEdge {
                half_angle_rad,
                bore_diameter_m,
            } => Seat::ConeOnEdge {
                half_angle: rad(half_angle_rad),
                bore: m(bore_diameter_m),
            },
        },
        spring: spring(parts.spring),
        lift_stop: m(parts.lift_stop_m),
        discharge_coefficient: one(parts.discharge_coefficient),
        friction: n(parts.friction_n),
        jet_force: parts.jet_force,
    }
}

/// Pressure against flow, and where it reseats.
pub(crate) fn override_curve(
    _: &App,
    args: ReliefOverrideArgs,
) -> Result<ReliefOverrideAnswer, ApiError> {
    let oil = oil(args.viscosity_pa_s, args.density_kg_m3);
    let curve = relief(&args.relief).override_curve(m3_s(args.flow_m3_s), args.points, &oil)?;
    Ok(ReliefOverrideAnswer {
        cracking_pa: finite(curve.cracking.value)?,
        reseat_pa: finite(curve.reseat.value)?,
        override_pa: finite(curve.override_pressure.value)?,
        points: curve
            .points
            .iter()
            .map(|point| {
                Ok(ReliefAtFlow {
                    flow_m3_s: finite(point.flow.value)?,
                    pressure_pa: finite(point.pressure.value)?,
                    lift_m: finite(point.lift.value)?,
                    area_m2: finite(point.area.value)?,
                    wide_open: point.wide_open,
                })
            })
            .collect::<Result<_, ApiError>>()?,
        assumptions: assumed(&curve.assumptions),
    })
}

/// The spring with which it cracks at a setpoint and passes a flow within an override.
pub(crate) fn spring_for(_: &App, args: ReliefSpringArgs) -> Result<ReliefSpringAnswer, ApiError> {
    let oil = oil(args.viscosity_pa_s, args.density_kg_m3);
    let (relief, flow) = (relief(&args.relief), m3_s(args.flow_m3_s));
    let (setpoint, allowed) = (pa(args.setpoint_pa), pa(args.override_pa));
    let spring = relief.spring_for(setpoint, allowed, flow, &oil)?;
    let new = SeatedRelief { spring, ..relief };
    Ok(ReliefSpringAnswer {
        spring: spring_line(&spring)?,
        assumptions: assumed(&new.override_curve(flow, 2, &oil)?.assumptions),
    })
}
