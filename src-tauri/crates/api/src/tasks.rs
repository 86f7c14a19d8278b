//! Long work on threads of its own: how far it is, and how it is told to stop.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread;

use crate::dto::{LongResult, TaskState, TaskView};
use crate::error::{ApiError, ErrorCode};

/// Tasks held at once; the oldest that has ended goes when another begins.
pub(crate) const HELD: usize = 16;

/// Tasks that run at once; one more is refused.
pub(crate) const RUNNING: usize = 4;

/// What work is watched by: it says how far it is, and is told to stop.
#[derive(Debug, Default)]
pub(crate) struct Watch {
    cancel: AtomicBool,
    past: AtomicBool,
    done: AtomicUsize,
    total: AtomicUsize,
}

impl Watch {
    /// True once the work shall stop.
    pub fn cancel(&self) -> &AtomicBool {
        &self.cancel
    }

    /// So many steps are to be done.
    pub fn expect(&self, total: usize) {
        self.total.store(total, Ordering::Relaxed);
    }

    /// So many are done; less than before says nothing.
    pub fn reached(&self, done: usize) {
        self.done.fetch_max(done, Ordering::Relaxed);
    }

    /// One more is done; true while the work shall go on.
    pub fn step(&self) -> bool {
        self.done.fetch_add(1, Ordering::Relaxed);
        !self.stopping()
    }

    /// So many more are done.
    pub fn add(&self, done: usize) {
        self.done.fetch_add(done, Ordering::Relaxed);
    }

    /// What was to be done is done, and what is left only tidies up: from now on it can't be
    /// stopped, so that nothing is ever called cancelled that has come to pass.
    pub fn past_stopping(&self) {
        self.past.store(true, Ordering::Relaxed);
    }

    /// True while the work shall stop and still can.
    pub fn stopping(&self) -> bool {
        self.cancel.load(Ordering::Relaxed) && !self.past.load(Ordering::Relaxed)
    }

    fn stop(&self) {
        self.cancel.store(true, Ordering::Relaxed);
    }
}

type Outcome = Result<LongResult, ApiError>;

/// One task. Its thread holds it too, so it outlives its place in the list.
#[derive(Debug, Default)]
struct Task {
    watch: Arc<Watch>,
    ended: Mutex<Option<Ended>>,
}

#[derive(Debug, Clone)]
enum Ended {
    Cancelled,
    With(Box<Outcome>),
}

impl Task {
    fn ended(&self) -> MutexGuard<'_, Option<Ended>> {
        // Only whole values are ever put in.
        self.ended.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn runs(&self) -> bool {
        self.ended().is_none()
    }

    fn view(&self, id: u32) -> TaskView {
        let state = match &*self.ended() {
            None if self.watch.stopping() => TaskState::Cancelling,
            None => TaskState::Running,
            Some(Ended::Cancelled) => TaskState::Cancelled,
            Some(Ended::With(outcome)) => match &**outcome {
                Ok(result) => TaskState::Finished(result.clone()),
                Err(error) => TaskState::Failed(error.clone()),
            },
        };
        let count = |n: &AtomicUsize| u32::try_from(n.load(Ordering::Relaxed)).unwrap_or(u32::MAX);
        let total = count(&self.watch.total);
        TaskView {
            task: id,
            done: count(&self.watch.done).min(total),
            total,
            state,
        }
    }
}

/// The tasks of an app. They are told to stop when it goes.
#[derive(Default)]
pub(crate) struct Tasks {
    last: u32,
    held: BTreeMap<u32, Arc<Task>>,
}

impl Tasks {
    /// Begins work on a thread of its own.
    pub fn begin(
        &mut self,
        work: impl FnOnce(&Arc<Watch>) -> Outcome + Send + 'static,
    ) -> Result<u32, ApiError> {
        let running = self.held.values().filter(|task| task.runs()).count();
        if running >= RUNNING {
            return Err(ApiError::new(ErrorCode::TooManyTasks).with("most", RUNNING));
        }
        while self.held.len() >= HELD {
            let ended = self.held.iter().find(|(_, task)| !task.runs());
            // There is one: fewer run than are held.
            let Some((&oldest, _)) = ended else { break };
            self.held.remove(&oldest);
        }
        let task = Arc::new(Task::default());
        let own = Arc::clone(&task);
        thread::Builder::new()
            .name("long work".to_owned())
            .spawn(move || {
                let outcome = catch_unwind(AssertUnwindSafe(|| work(&own.watch)))
                    .unwrap_or_else(|_| Err(ApiError::internal("panic")));
                let watch = &own.watch;
                let ended = if watch.stopping() && outcome.is_err() {
                    Ended::Cancelled
                } else {
                    if outcome.is_ok() {
                        watch.reached(watch.total.load(Ordering::Relaxed));
                    }
                    Ended::With(Box::new(outcome))
                };
                *own.ended() = Some(ended);
            })
            .map_err(ApiError::internal)?;
        self.last += 1;
        self.held.insert(self.last, task);
        Ok(self.last)
    }

    fn get(&self, id: u32) -> Result<&Arc<Task>, ApiError> {
        let found = self.held.get(&id);
        found.ok_or_else(|| ApiError::not_found("task", id))
    }

    /// How far a task is.
    pub fn view(&self, id: u32) -> Result<TaskView, ApiError> {
        Ok(self.get(id)?.view(id))
    }

    /// Tells a task to stop. One that has ended stays as it ended.
    pub fn cancel(&self, id: u32) -> Result<TaskView, ApiError> {
        let task = self.get(id)?;
        task.watch.stop();
        Ok(task.view(id))
    }
}

impl Tasks {
    /// Tells all of them to stop.
    pub fn stop(&self) {
        for task in self.held.values() {
            task.watch.stop();
        }
    }
}

impl Drop for Tasks {
    fn drop(&mut self) {
        self.stop();
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]
mod tests {
    use super::*;
    use std::sync::mpsc::{Receiver, Sender, channel};

    /// Work that does one step for each word of the test, and ends when told to stop.
    fn obedient() -> (
        Sender<()>,
        Receiver<()>,
        impl FnOnce(&Arc<Watch>) -> Outcome + Send,
    ) {
        let (go, told) = channel::<()>();
        let (tell, stepped) = channel::<()>();
        let work = move |watch: &Arc<Watch>| {
            watch.expect(3);
            for () in told {
                let on = watch.step();
                let _ = tell.send(());
                if !on {
                    return Err(ApiError::internal("stopped"));
                }
            }
            Err(ApiError::internal("done"))
        };
        (go, stepped, work)
    }

    fn settled(tasks: &Tasks, id: u32) -> TaskView {
        loop {
            let view = tasks.view(id).unwrap();
            if !matches!(view.state, TaskState::Running | TaskState::Cancelling) {
                return view;
            }
            thread::yield_now();
        }
    }

    #[test]
    fn progress_rises_and_cancel_ends_it() {
        let mut tasks = Tasks::default();
        let (go, stepped, work) = obedient();
        let id = tasks.begin(work).unwrap();
        for step in 1..=2 {
            go.send(()).unwrap();
            stepped.recv().unwrap();
            let view = tasks.view(id).unwrap();
            assert_eq!((view.done, view.total), (step, 3));
            assert_eq!(view.state, TaskState::Running);
        }
        assert_eq!(tasks.cancel(id).unwrap().state, TaskState::Cancelling);
        go.send(()).unwrap();
        assert_eq!(settled(&tasks, id).state, TaskState::Cancelled);
        // Told again, it stays as it is.
        assert_eq!(tasks.cancel(id).unwrap().state, TaskState::Cancelled);
    }

    #[test]
    fn an_error_and_a_panic_are_told_and_no_more_than_some_run() {
        let mut tasks = Tasks::default();
        let failed = tasks.begin(|_| Err(ApiError::not_found("x", 1))).unwrap();
        assert_eq!(
            settled(&tasks, failed).state,
            TaskState::Failed(ApiError::not_found("x", 1))
        );
        let panicked = tasks.begin(|_| panic!("a fault")).unwrap();
        let TaskState::Failed(error) = settled(&tasks, panicked).state else {
            panic!("not failed");
        };
        assert_eq!(error.code, ErrorCode::Internal);

        let mut ends = Vec::new();
        for _ in 0..RUNNING {
            let (go, _, work) = obedient();
            ends.push(go);
            tasks.begin(work).unwrap();
        }
        let refused = tasks.begin(|_| Err(ApiError::internal("x"))).unwrap_err();
        assert_eq!(refused.code, ErrorCode::TooManyTasks);
        assert!(refused.retry);
    }

    #[test]
    fn the_oldest_that_ended_is_dropped_and_one_that_runs_is_not() {
        let mut tasks = Tasks::default();
        let (_go, _, work) = obedient();
        let running = tasks.begin(work).unwrap();
        let mut ended = Vec::new();
        for _ in 0..HELD {
            let id = tasks.begin(|_| Err(ApiError::internal("x"))).unwrap();
            settled(&tasks, id);
            ended.push(id);
        }
        assert_eq!(tasks.held.len(), HELD);
        assert!(tasks.view(running).is_ok());
        assert_eq!(tasks.view(ended[0]).unwrap_err().code, ErrorCode::NotFound);
        assert!(tasks.view(ended[1]).is_ok());
    }

    #[test]
    fn all_stop_when_the_app_goes() {
        let (said, heard) = channel();
        let mut tasks = Tasks::default();
        let work = move |watch: &Arc<Watch>| {
            while watch.step() {
                thread::yield_now();
            }
            said.send(()).unwrap();
            Err(ApiError::internal("stopped"))
        };
        tasks.begin(work).unwrap();
        drop(tasks);
        heard.recv().unwrap();
    }
}
