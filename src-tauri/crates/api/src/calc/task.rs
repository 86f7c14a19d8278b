//! Long work of the table: a calculation that is watched, or a command that whoever cancels it
//! leaves as if it had never been given.

use std::sync::Arc;

use super::{band, motion, spread};
use crate::dto::{LongResult, LongWork, TaskBegin, TaskRef, TaskView};
use crate::error::ApiError;
use crate::tasks::Watch;
use crate::{App, usecase};

/// Begins long work.
pub(crate) fn begin(app: &App, args: TaskBegin) -> Result<TaskRef, ApiError> {
    // The app as it is lent to work of its own: a handle on the same store and files.
    let of = app.lent(&Arc::default());
    let task = app
        .tasks()
        .begin(move |watch| run(args.work, &of.lent(watch), watch))?;
    Ok(TaskRef { task })
}

fn run(work: LongWork, app: &App, watch: &Watch) -> Result<LongResult, ApiError> {
    Ok(match work {
        LongWork::BundleMake(args) => {
            LongResult::BundleMake(Box::new(usecase::exchange::make(app, *args)?))
        }
        LongWork::BundleLook(args) => {
            LongResult::BundleLook(Box::new(usecase::exchange::look(app, args)?))
        }
        LongWork::BundleTakeIn(args) => {
            LongResult::BundleTakeIn(Box::new(usecase::exchange::take_in(app, args)?))
        }
        LongWork::StoreCheck(args) => {
            LongResult::StoreCheck(Box::new(usecase::audit::check(app, args)?))
        }
        LongWork::BackupMake => {
            LongResult::BackupMake(Box::new(usecase::backup::make(app, crate::table::DONE)?))
        }
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
