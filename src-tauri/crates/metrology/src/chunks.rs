//! Work in numbered chunks on all cores, its results in the order of the numbers.

use std::num::NonZeroUsize;
use std::sync::atomic::{AtomicUsize, Ordering};

/// Does chunks `from..to`, each by one of the workers that `worker` makes (one a thread, so that
/// each may keep scratch space of its own). The results come back in the order of the chunks,
/// whichever thread did which.
pub(crate) fn in_chunks<T, W>(
    from: usize,
    to: usize,
    threads: Option<NonZeroUsize>,
    worker: impl Fn() -> W + Sync,
) -> Vec<T>
where
    T: Send,
    W: FnMut(usize) -> T,
{
    let count = to.saturating_sub(from);
    let cores = || std::thread::available_parallelism().ok();
    let threads = threads
        .or_else(cores)
        .map_or(1, NonZeroUsize::get)
        .min(count);
    if threads <= 1 {
        let mut work = worker();
        return (from..to).map(&mut work).collect();
    }
    let next = AtomicUsize::new(from);
    let run = || {
        let mut work = worker();
        let mut done = Vec::new();
        loop {
            let chunk = next.fetch_add(1, Ordering::Relaxed);
            if chunk >= to {
                return done;
            }
            done.push((chunk, work(chunk)));
        }
    };
    let mut all: Vec<(usize, T)> = Vec::with_capacity(count);
    std::thread::scope(|scope| {
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(run)).collect();
        all.extend(run());
        for other in others {
            match other.join() {
                Ok(done) => all.extend(done),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
    });
    all.sort_by_key(|(chunk, _)| *chunk);
    all.into_iter().map(|(_, result)| result).collect()
}
