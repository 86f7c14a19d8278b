//! Fits: measured, hot, by ISO 286, and with a sleeve.

use physics::fit::iso286::{self, FitKind, Limits, ToleranceClass};
use physics::fit::sleeve::Sleeve;
use physics::fit::stations::{self, Diameter, DiameterGauge, Measured, Shape};
use physics::fit::temperature::{Metal, running_clearance};

use super::assumed;
use super::si::{at_most, bounds, k, m, rad};
use crate::App;
use crate::dto::{
    ClassFit, ClassFitKind, ClassLimits, DiameterInstrument, DiameterReading, FitClearanceAnswer,
    FitClearanceArgs, FitIsoAnswer, FitIsoArgs, FitSleeveAnswer, FitSleeveArgs,
    FitTemperatureAnswer, FitTemperatureArgs, MeasuredValue, PartMetal, PartShape, RoundnessFound,
    TaperFound,
};
use crate::error::{ApiError, finite};

/// Most readings of one part.
const READINGS: usize = 200;

fn measured(value: &Measured) -> Result<MeasuredValue, ApiError> {
    Ok(MeasuredValue {
        value: finite(value.value.value)?,
        standard_uncertainty: finite(value.uncertainty.value)?,
    })
}

fn gauge(instrument: &DiameterInstrument) -> DiameterGauge {
    DiameterGauge {
        shared: m(instrument.shared_m),
        each: m(instrument.each_m),
    }
}

fn shape(list: &[DiameterReading], gauge: &DiameterGauge) -> Result<Shape, ApiError> {
    at_most("bore_readings", list, READINGS)?;
    let readings: Vec<_> = list
        .iter()
        .map(|reading| Diameter {
            station: m(reading.station_m),
            direction: rad(reading.direction_rad),
            value: m(reading.diameter_m),
        })
        .collect();
    Ok(stations::shape(&readings, gauge)?)
}

fn shown(shape: &Shape) -> Result<PartShape, ApiError> {
    let round = |found: &stations::OutOfRound| {
        Ok::<_, ApiError>(RoundnessFound {
            difference_m: measured(&found.difference)?,
            station_m: finite(found.station.value)?,
            by_chance_m: finite(found.by_chance.value)?,
        })
    };
    let taper = |found: &stations::Taper| {
        Ok::<_, ApiError>(TaperFound {
            slope_ratio: MeasuredValue {
                value: finite(found.slope.value)?,
                standard_uncertainty: finite(found.slope_uncertainty.value)?,
            },
            over_span_m: measured(&found.over_span)?,
        })
    };
    Ok(PartShape {
        mean_m: measured(&shape.mean)?,
        smallest_m: finite(shape.smallest.value)?,
        largest_m: finite(shape.largest.value)?,
        out_of_round: shape.out_of_round.as_ref().map(round).transpose()?,
        taper: shape.taper.as_ref().map(taper).transpose()?,
    })
}

/// Clearance, taper and out-of-round from diameters at stations and directions.
pub(crate) fn clearance(_: &App, args: FitClearanceArgs) -> Result<FitClearanceAnswer, ApiError> {
    let gauges = (gauge(&args.bore_instrument), gauge(&args.valve_instrument));
    // Both lists are named alike in the physics; say which part is at fault.
    let of = |part: &'static str| move |error: ApiError| error.with("part", part);
    let bore = shape(&args.bore, &gauges.0).map_err(of("bore"))?;
    let valve = shape(&args.valve, &gauges.1).map_err(of("valve"))?;
    let radial = stations::clearance(&bore, &valve, (&gauges.0, &gauges.1), args.same_instrument)?;
    Ok(FitClearanceAnswer {
        bore: shown(&bore)?,
        valve: shown(&valve)?,
        radial_clearance_m: measured(&radial.mean)?,
        least_clearance_m: finite(radial.least.value)?,
        most_clearance_m: finite(radial.most.value)?,
        assumptions: assumed(&radial.assumptions),
    })
}

fn metal(metal: PartMetal) -> Metal {
    match metal {
        PartMetal::DieCastAluminium => Metal::DieCastAluminium,
        PartMetal::CastAluminium => Metal::CastAluminium,
        PartMetal::WroughtAluminium => Metal::WroughtAluminium,
        PartMetal::CarbonSteel => Metal::CarbonSteel,
        PartMetal::BearingSteel => Metal::BearingSteel,
        PartMetal::AusteniticSteel => Metal::AusteniticSteel,
        PartMetal::MartensiticSteel => Metal::MartensiticSteel,
        PartMetal::GreyIron => Metal::GreyIron,
    }
}

/// Clearance away from 20 °C.
pub(crate) fn temperature(
    _: &App,
    args: FitTemperatureArgs,
) -> Result<FitTemperatureAnswer, ApiError> {
    let running = running_clearance(
        m(args.bore_20c_m),
        m(args.valve_20c_m),
        (metal(args.bore_metal), metal(args.valve_metal)),
        k(args.temperature_k),
    )?;
    Ok(FitTemperatureAnswer {
        radial_clearance_m: finite(running.radial.value)?,
        span_m: bounds(running.span)?,
        assumptions: assumed(&running.assumptions),
    })
}

fn limits(limits: &Limits) -> Result<ClassLimits, ApiError> {
    Ok(ClassLimits {
        deviations_m: bounds(limits.deviations)?,
        sizes_m: bounds(limits.sizes)?,
    })
}

/// Limits of a class, and the fit of two.
pub(crate) fn iso286(_: &App, args: FitIsoArgs) -> Result<FitIsoAnswer, ApiError> {
    let nominal = m(args.nominal_m);
    let class = ToleranceClass::parse(&args.tolerance_class)?;
    let fit = args
        .shaft_class
        .map(|shaft| {
            let shaft = ToleranceClass::parse(&shaft)
                .map_err(|error| ApiError::from(error).at("shaft_class"))?;
            let fit = iso286::fit(nominal, class, shaft)?;
            Ok::<_, ApiError>(ClassFit {
                shaft: limits(&fit.shaft)?,
                clearance_m: bounds(fit.clearance)?,
                kind: match fit.kind {
                    FitKind::Clearance => ClassFitKind::Clearance,
                    FitKind::Transition => ClassFitKind::Transition,
                    FitKind::Interference => ClassFitKind::Interference,
                },
            })
        })
        .transpose()?;
    Ok(FitIsoAnswer {
        hole: class.is_hole(),
        limits: limits(&class.limits(nominal)?)?,
        fit,
        assumptions: Vec::new(),
    })
}

/// The room that a sleeve has.
pub(crate) fn sleeve(_: &App, args: FitSleeveArgs) -> Result<FitSleeveAnswer, ApiError> {
    let room = Sleeve {
        bore_smallest: m(args.bore_smallest_m),
        bore_largest: m(args.bore_largest_m),
        finished_bore: m(args.finished_bore_m),
        outer_diameter: m(args.outer_diameter_m),
        inner_diameter: m(args.inner_diameter_m),
        valve_diameter: m(args.valve_diameter_m),
        minimum_wall: m(args.minimum_wall_m),
    }
    .room()?;
    Ok(FitSleeveAnswer {
        wall_m: finite(room.wall.value)?,
        wall_margin_m: finite(room.wall_margin.value)?,
        wall_holds: room.wall_holds(),
        largest_inner_diameter_m: finite(room.largest_inner_diameter.value)?,
        ream_stock_m: finite(room.ream_stock.value)?,
        least_stock_m: finite(room.least_stock.value)?,
        cleans_up: room.cleans_up(),
        seat_clearance_m: finite(room.seat_clearance.value)?,
        valve_clearance_m: finite(room.valve_clearance.value)?,
        assumptions: Vec::new(),
    })
}
