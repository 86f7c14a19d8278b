//! Long work of the table: each kind is a calculation that is watched.

use super::{band, motion, spread};
use crate::App;
use crate::dto::{LongResult, LongWork, TaskBegin, TaskRef, TaskView};
use crate::error::ApiError;
use crate::tasks::Watch;

/// Begins long work.
pub(crate) fn begin(app: &App, args: TaskBegin) -> Result<TaskRef, ApiError> {
    let task = app.tasks().begin(move |watch| run(args.work, watch))?;
    Ok(TaskRef { task })
}

fn run(work: LongWork, watch: &Watch) -> Result<LongResult, ApiError> {
    Ok(match work {
        LongWork::Transient(args) => LongResult::Transient(Box::new(motion::follow(&args, watch)?)),
        LongWork::Sweep(args) => LongResult::Sweep(Box::new(motion::swept(&args, watch)?)),
        LongWork::Band(args) => LongResult::Band(Box::new(band::drawn(&args, watch)?)),
        LongWork::MonteCarlo(args) => {
            LongResult::MonteCarlo(Box::new(spread::drawn(&args, watch)?))
        }
    })
}

/// How far a task is, and its result.
pub(crate) fn state(app: &App, args: TaskRef) -> Result<TaskView, ApiError> {
    app.tasks().view(args.task)
}

/// Tells a task to stop.
pub(crate) fn cancel(app: &App, args: TaskRef) -> Result<TaskView, ApiError> {
    app.tasks().cancel(args.task)
}
