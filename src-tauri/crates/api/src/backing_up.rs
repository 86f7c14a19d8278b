//! Backups that nobody asked for, made while people go on working.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use journal::WallTime;
use store::{Attachments, Backups, Reason, StoreError};

use crate::error::ApiError;
use crate::projector::ModelProjector;

const AN_HOUR: Duration = Duration::from_secs(60 * 60);

/// Looks once an hour while the app is in use, so that a bench PC that is never switched off gets
/// its backup too. Whether one is due is the store's own question.
pub(crate) struct BackingUp {
    state: Mutex<State>,
    problem: Arc<Mutex<Option<ApiError>>>,
}

struct State {
    next_look: Instant,
    running: Option<JoinHandle<()>>,
}

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl BackingUp {
    /// A store that is made now holds nothing of anybody's yet, so the first look can wait.
    pub fn new(fresh: bool) -> Self {
        let wait = if fresh { AN_HOUR } else { Duration::ZERO };
        Self {
            state: Mutex::new(State {
                next_look: Instant::now() + wait,
                running: None,
            }),
            problem: Arc::default(),
        }
    }

    /// True once an hour.
    pub fn is_time_to_look(&self) -> bool {
        let mut state = locked(&self.state);
        let due = Instant::now() >= state.next_look;
        if due {
            state.next_look = Instant::now() + AN_HOUR;
        }
        due
    }

    /// Makes a backup if one is due, and sweeps pictures that nobody names, on a thread of its own with a handle of its own.
    pub fn start(&self, backups: Backups, attachments: Attachments, now: WallTime) {
        let problem = Arc::clone(&self.problem);
        let work = move || {
            let made = backups.is_due(now).and_then(|due| {
                if due {
                    backups.make(Reason::Daily, now)?;
                }
                // Best effort: what is left over does no harm, and the next hour comes.
                if let Err(error) = attachments.sweep(&ModelProjector) {
                    tracing::debug!(?error, "no pictures were swept");
                }
                Ok(())
            });
            *locked(&problem) = match made {
                // Another process is at it.
                Ok(()) | Err(StoreError::Locked) => None,
                Err(error) => {
                    tracing::warn!(?error, "no backup was made");
                    Some(error.into())
                }
            };
        };
        let before = locked(&self.state)
            .running
            .replace(std::thread::spawn(work));
        join(before);
    }

    /// Waits for the one that is being made.
    pub fn wait(&self) {
        let running = locked(&self.state).running.take();
        join(running);
    }

    /// Why the last one could not be made.
    pub fn problem(&self) -> Option<ApiError> {
        locked(&self.problem).clone()
    }
}

impl Drop for BackingUp {
    fn drop(&mut self) {
        self.wait();
    }
}

fn join(running: Option<JoinHandle<()>>) {
    // One that panicked made no backup; the store is none the worse for it.
    if running.is_some_and(|thread| thread.join().is_err()) {
        tracing::warn!("the backup's thread was lost");
    }
}
