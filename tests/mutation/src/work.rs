//! Work for two processors.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

const WORKERS: usize = 2;

/// Does `work` on all `items`, given the worker's number too; what comes of them in the items' order.
pub fn in_parallel<T: Sync, R: Send>(items: &[T], work: impl Fn(&T, usize) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for worker in 0..WORKERS {
            let (next, done, work) = (&next, &done, &work);
            scope.spawn(move || {
                loop {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    let Some(item) = items.get(index) else { return };
                    let result = work(item, worker);
                    done.lock().expect("no worker panics").push((index, result));
                }
            });
        }
    });
    let mut done = done.into_inner().expect("no worker panics");
    done.sort_by_key(|(index, _)| *index);
    done.into_iter().map(|(_, result)| result).collect()
}
