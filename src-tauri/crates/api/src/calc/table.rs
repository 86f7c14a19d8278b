//! The calculations of the command table: no store, no clock.

use crate::table::{Command, calculation};

/// Each with arguments that show how it is asked, from `examples/`.
pub(crate) fn commands() -> Vec<Command> {
    [
        calculation(
            "judgement.compute",
            "Judge a vacuum test from its parts",
            super::judge,
            include_str!("../../examples/judgement.compute.json"),
        ),
        calculation(
            "relief.compute",
            "Check a relief from its figures",
            super::repair::relief,
            include_str!("../../examples/relief.compute.json"),
        ),
        calculation(
            "repair.compute",
            "Predict a repair from its dimensions",
            super::repair::forecast,
            include_str!("../../examples/repair.compute.json"),
        ),
        calculation(
            "air.barometer",
            "Barometer from altitude, or the altitude of a barometer",
            super::air::barometer,
            include_str!("../../examples/air.barometer.json"),
        ),
        calculation(
            "air.gap",
            "Air through an annular gap",
            super::air::gap,
            include_str!("../../examples/air.gap.json"),
        ),
        calculation(
            "air.clearance",
            "The clearance behind a flow of air",
            super::air::clearance,
            include_str!("../../examples/air.clearance.json"),
        ),
        calculation(
            "air.hole",
            "Air through a hole (ISO 6358)",
            super::air::hole,
            include_str!("../../examples/air.hole.json"),
        ),
        calculation(
            "air.limit",
            "A vacuum limit carried to another barometer",
            super::air::limit,
            include_str!("../../examples/air.limit.json"),
        ),
        calculation(
            "oil.state",
            "Viscosity and density of an oil",
            super::oil::state,
            include_str!("../../examples/oil.state.json"),
        ),
        calculation(
            "oil.spring",
            "P = F / A, either way",
            super::oil::spring,
            include_str!("../../examples/oil.spring.json"),
        ),
        calculation(
            "oil.orifice",
            "Oil through a drilled orifice",
            super::oil::orifice,
            include_str!("../../examples/oil.orifice.json"),
        ),
        calculation(
            "oil.gap",
            "Oil through an annular gap",
            super::oil::gap,
            include_str!("../../examples/oil.gap.json"),
        ),
        calculation(
            "oil.regulator",
            "A reducing regulator at one line pressure",
            super::oil::regulator,
            include_str!("../../examples/oil.regulator.json"),
        ),
    ]
    .into_iter()
    .chain(super::parts_table::commands())
    .chain(super::motion_table::commands())
    .collect()
}
