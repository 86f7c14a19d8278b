//! The calculations of single parts, fits, oil and uncertainty.

use crate::table::{Command, calculation};

/// Each with arguments that show how it is asked, from `examples/`.
pub(crate) fn commands() -> Vec<Command> {
    vec![
        calculation(
            "opening.area",
            "Area of an opening over the spool's stroke",
            super::opening::area,
            include_str!("../../examples/opening.area.json"),
        ),
        calculation(
            "opening.flow",
            "Oil through an opening over the spool's stroke",
            super::opening::flow,
            include_str!("../../examples/opening.flow.json"),
        ),
        calculation(
            "spring.geometry",
            "Rate, stress factors and buckling of a coil spring",
            super::spring::geometry,
            include_str!("../../examples/spring.geometry.json"),
        ),
        calculation(
            "spring.at_height",
            "Load and stress of a coil spring at a height",
            super::spring::at_height,
            include_str!("../../examples/spring.at_height.json"),
        ),
        calculation(
            "spring.fit",
            "A spring by its measured loads, and its sag",
            super::spring::fit,
            include_str!("../../examples/spring.fit.json"),
        ),
        calculation(
            "spring.shim",
            "The shim for a pressure, or the pressure with a shim",
            super::spring::shim,
            include_str!("../../examples/spring.shim.json"),
        ),
        calculation(
            "spring.rerate",
            "The spring for a valve of another area",
            super::spring::rerated,
            include_str!("../../examples/spring.rerate.json"),
        ),
        calculation(
            "fit.clearance",
            "Clearance, taper and out-of-round from measured diameters",
            super::fit::clearance,
            include_str!("../../examples/fit.clearance.json"),
        ),
        calculation(
            "fit.temperature",
            "Clearance of a valve in its bore away from 20 °C",
            super::fit::temperature,
            include_str!("../../examples/fit.temperature.json"),
        ),
        calculation(
            "fit.iso286",
            "Limits of a tolerance class, and the fit of two (ISO 286)",
            super::fit::iso286,
            include_str!("../../examples/fit.iso286.json"),
        ),
        calculation(
            "fit.sleeve",
            "Whether a sleeve has room in a reamed bore",
            super::fit::sleeve,
            include_str!("../../examples/fit.sleeve.json"),
        ),
        calculation(
            "relief.override",
            "Pressure of a relief against its flow, and where it reseats",
            super::relief::override_curve,
            include_str!("../../examples/relief.override.json"),
        ),
        calculation(
            "relief.spring_for",
            "The spring with which a relief keeps its setpoint",
            super::relief::spring_for,
            include_str!("../../examples/relief.spring_for.json"),
        ),
        calculation(
            "oil.chart",
            "The viscosity line of an oil, read both ways",
            super::fluid::chart,
            include_str!("../../examples/oil.chart.json"),
        ),
        calculation(
            "oil.viscosity_index",
            "Viscosity index of an oil (ASTM D2270)",
            super::fluid::index,
            include_str!("../../examples/oil.viscosity_index.json"),
        ),
        calculation(
            "oil.stiffness",
            "Stiffness of oil with air in it",
            super::fluid::stiffness,
            include_str!("../../examples/oil.stiffness.json"),
        ),
        calculation(
            "clutch.capacity",
            "Torque that a clutch pack holds",
            super::clutch::capacity,
            include_str!("../../examples/clutch.capacity.json"),
        ),
        calculation(
            "clutch.shift",
            "What a shift of the pressure does to a clutch's torque",
            super::clutch::shift,
            include_str!("../../examples/clutch.shift.json"),
        ),
        calculation(
            "clutch.pressure",
            "The pressure with which a clutch holds a torque",
            super::clutch::pressure,
            include_str!("../../examples/clutch.pressure.json"),
        ),
        calculation(
            "solenoid.resistance",
            "Resistance and current of a winding at a temperature",
            super::solenoid::resistance,
            include_str!("../../examples/solenoid.resistance.json"),
        ),
        calculation(
            "solenoid.temperature",
            "Temperature of a winding from its resistance",
            super::solenoid::temperature,
            include_str!("../../examples/solenoid.temperature.json"),
        ),
        calculation(
            "solenoid.passed_shift",
            "The shift of its feed that a solenoid passes on",
            super::solenoid::passed_shift,
            include_str!("../../examples/solenoid.passed_shift.json"),
        ),
        calculation(
            "gap.oil_span",
            "The clearances that explain a leak of oil",
            super::span::oil_span,
            include_str!("../../examples/gap.oil_span.json"),
        ),
        calculation(
            "gap.air_span",
            "The clearances that explain a leak of air",
            super::span::air_span,
            include_str!("../../examples/gap.air_span.json"),
        ),
        calculation(
            "air.two_valves",
            "The clearance of a bore from tests with two valves",
            super::span::two_valves,
            include_str!("../../examples/air.two_valves.json"),
        ),
        calculation(
            "uncertainty.combine",
            "Independent contributions combined",
            super::uncertainty::combine,
            include_str!("../../examples/uncertainty.combine.json"),
        ),
        calculation(
            "uncertainty.repeats",
            "Mean and spread of repeated readings",
            super::uncertainty::repeats,
            include_str!("../../examples/uncertainty.repeats.json"),
        ),
        calculation(
            "uncertainty.decide",
            "A measured value against a limit: within, too close, outside",
            super::uncertainty::decide,
            include_str!("../../examples/uncertainty.decide.json"),
        ),
        calculation(
            "uncertainty.instrument",
            "An instrument's uncertainty, with drift since its calibration",
            super::uncertainty::instrument,
            include_str!("../../examples/uncertainty.instrument.json"),
        ),
        calculation(
            "uncertainty.guard_band",
            "Limits of acceptance for a tolerance",
            super::uncertainty::guard_band,
            include_str!("../../examples/uncertainty.guard_band.json"),
        ),
    ]
}
