//! Openings: area and flow over the stroke of the spool.

use model::Finite;
use physics::opening::port::Port;
use physics::opening::window::Window;
use physics::range;
use uom::si::f64::Length;
use uom::si::length::meter;

use super::assumed;
use super::si::{m, oil, one, pa, rad, some_of};
use crate::App;
use crate::dto::{
    OpeningAreaAnswer, OpeningAreaArgs, OpeningAtStroke, OpeningFlowAnswer, OpeningFlowArgs,
    OpeningFlowAtStroke, WindowEdge, WindowShape, WindowTravel,
};
use crate::error::{ApiError, finite};

/// Most strokes in one call.
const STROKES: usize = 200;

pub(super) fn window(shape: WindowShape) -> Window {
    match shape {
        WindowShape::AnnularSlot {
            land_diameter_m,
            circumference_ratio,
        } => Window::AnnularSlot {
            land_diameter: m(land_diameter_m),
            circumference_fraction: one(circumference_ratio),
        },
        WindowShape::RoundHoles { count, diameter_m } => Window::RoundHoles {
            count,
            diameter: m(diameter_m),
        },
        WindowShape::Slots {
            count,
            width_m,
            length_m,
        } => Window::Slots {
            count,
            width: m(width_m),
            length: m(length_m),
        },
        WindowShape::RoundEndedSlots {
            count,
            width_m,
            length_m,
        } => Window::RoundEndedSlots {
            count,
            width: m(width_m),
            length: m(length_m),
        },
        WindowShape::VNotches {
            count,
            half_angle_rad,
            length_m,
        } => Window::VNotches {
            count,
            half_angle: rad(half_angle_rad),
            length: m(length_m),
        },
    }
}

fn port(edge: &WindowEdge) -> Port {
    Port {
        window: window(edge.window),
        radial_clearance: m(edge.radial_clearance_m),
        edge_radius: m(edge.edge_radius_m),
    }
}

/// Signed width at a stroke.
fn width(edge: &WindowEdge, stroke: Finite) -> Result<Length, ApiError> {
    let rest = range::OPENING_WIDTH.check_as("width_at_rest_m", *edge.width_at_rest_m)?;
    let stroke = range::SPRING_TRAVEL.check_as("spool_position_m", *stroke)?;
    Ok(Length::new::<meter>(match edge.travel {
        WindowTravel::Closes => rest - stroke,
        WindowTravel::Opens => rest + stroke,
    }))
}

/// Area over the stroke.
pub(crate) fn area(_: &App, args: OpeningAreaArgs) -> Result<OpeningAreaAnswer, ApiError> {
    some_of("strokes_m", &args.strokes_m, STROKES)?;
    let port = port(&args.opening);
    let mut points = Vec::with_capacity(args.strokes_m.len());
    let mut assumptions = Vec::new();
    for &stroke in &args.strokes_m {
        let width = width(&args.opening, stroke)?;
        let at = port.area_at(width)?;
        points.push(OpeningAtStroke {
            stroke_m: stroke,
            width_m: finite(width.value)?,
            area_m2: finite(at.area.value)?,
            slope_m: finite(at.slope.value)?,
            gap_m: finite(at.gap.value)?,
        });
        assumptions.extend(at.assumptions);
    }
    Ok(OpeningAreaAnswer {
        points,
        full_area_m2: port
            .full_area()?
            .map(|area| finite(area.value))
            .transpose()?,
        assumptions: each_once(assumptions),
    })
}

/// Flow over the stroke.
pub(crate) fn flow(_: &App, args: OpeningFlowArgs) -> Result<OpeningFlowAnswer, ApiError> {
    some_of("strokes_m", &args.strokes_m, STROKES)?;
    let port = port(&args.opening);
    let oil = oil(args.viscosity_pa_s, args.density_kg_m3);
    let mut points = Vec::with_capacity(args.strokes_m.len());
    let mut assumptions = Vec::new();
    for &stroke in &args.strokes_m {
        let passed = port.flow(width(&args.opening, stroke)?, pa(args.drop_pa), &oil)?;
        points.push(OpeningFlowAtStroke {
            stroke_m: stroke,
            flow_m3_s: finite(passed.flow.value)?,
            film_m3_s: finite(passed.film.value)?,
        });
        assumptions.extend(passed.assumptions);
    }
    Ok(OpeningFlowAnswer {
        points,
        assumptions: each_once(assumptions),
    })
}

fn each_once(mut list: Vec<physics::Assumption>) -> Vec<diagnosis::Assumed> {
    list.sort_unstable();
    list.dedup();
    assumed(&list)
}
