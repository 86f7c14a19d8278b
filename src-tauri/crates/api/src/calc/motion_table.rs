//! The rows of what moves, of line, and of what is uncertain; with the tasks that do long work.

use super::{band, explore, line, motion, spread, task};
use crate::table::{Command, calculation, pure};

/// The calculations each with arguments that show how they are asked, from `examples/`.
pub(crate) fn commands() -> Vec<Command> {
    vec![
        calculation(
            "regulator.transient",
            "A reducing regulator followed through time",
            motion::transient,
            include_str!("../../examples/regulator.transient.json"),
        ),
        calculation(
            "regulator.stability",
            "Small motions of a reducing regulator about rest",
            motion::stability,
            include_str!("../../examples/regulator.stability.json"),
        ),
        calculation(
            "regulator.curve",
            "Feed against line at rest, with both branches of friction",
            motion::curve,
            include_str!("../../examples/regulator.curve.json"),
        ),
        calculation(
            "regulator.explore",
            "A profile's valve with some of its parts set otherwise",
            explore::explore,
            include_str!("../../examples/regulator.explore.json"),
        ),
        calculation(
            "regulator.band",
            "The regulated pressure with all that is unknown drawn together",
            band::band,
            include_str!("../../examples/regulator.band.json"),
        ),
        calculation(
            "line.main_regulator",
            "A main regulator of the bypass kind with its pump",
            line::main_regulator,
            include_str!("../../examples/line.main_regulator.json"),
        ),
        calculation(
            "line.circuit",
            "Line, feed, solenoid and boost as one solved circuit",
            line::circuit,
            include_str!("../../examples/line.circuit.json"),
        ),
        calculation(
            "uncertainty.monte_carlo",
            "Uncertain figures carried through a calculation",
            spread::monte_carlo_through,
            include_str!("../../examples/uncertainty.monte_carlo.json"),
        ),
        calculation(
            "task.begin",
            "Begin long work: a transient, a sweep, a band, a Monte Carlo run",
            task::begin,
            include_str!("../../examples/task.begin.json"),
        ),
        pure(
            "task.state",
            "How far a task is, and its result",
            task::state,
        ),
        pure("task.cancel", "Tell a task to stop", task::cancel),
    ]
}
