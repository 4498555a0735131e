//! Many joints loaded to failure, on several threads, with the same answers on any number of them.

use std::num::NonZeroUsize;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use super::{Control, Joint, Outcome, Walker};
use crate::failure::Failure;

/// Loads `count` joints to failure and gives what `keep` takes of each outcome, in their order.
///
/// `joint` makes the joint of a number from 0 on; it must depend on nothing else. Each thread has one
/// [`Walker`] and takes the next joint when it is done with one. An outcome does not depend on what the walker
/// loaded before, so the answers are the same, to the last bit, on any number of threads.
#[must_use]
pub fn many<T: Send>(
    count: usize,
    threads: NonZeroUsize,
    control: &Control,
    joint: impl Fn(usize) -> Joint + Sync,
    keep: impl Fn(&Outcome) -> T + Sync,
) -> Vec<Result<T, Failure>> {
    let next = AtomicUsize::new(0);
    let work = || {
        let mut walker = Walker::new();
        let mut done = Vec::new();
        loop {
            let number = next.fetch_add(1, Ordering::Relaxed);
            if number >= count {
                return done;
            }
            done.push((number, walker.run(&joint(number), control).map(&keep)));
        }
    };
    let mut all: Vec<(usize, Result<T, Failure>)> = thread::scope(|scope| {
        let others: Vec<_> = (1..threads.get()).map(|_| scope.spawn(work)).collect();
        let own = work();
        let theirs = others.into_iter().map(|thread| match thread.join() {
            Ok(done) => done,
            Err(panic) => std::panic::resume_unwind(panic),
        });
        std::iter::once(own).chain(theirs).flatten().collect()
    });
    all.sort_unstable_by_key(|(number, _)| *number);
    all.into_iter().map(|(_, answer)| answer).collect()
}
