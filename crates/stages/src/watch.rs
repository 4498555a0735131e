//! How far long work has come, and the wish to end it.

use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError};

/// Shared between the core, which does the work, and a face, which shows how far it has come and may end it.
///
/// The core knows nothing of who looks: a face asks when it likes, from any thread.
#[derive(Debug, Default)]
pub struct Watch {
    stopped: AtomicBool,
    done: AtomicU64,
    whole: AtomicU64,
    doing: Mutex<String>,
}

/// How far long work has come.
#[derive(Debug, Clone, PartialEq)]
pub struct Progress {
    /// Share of the work that is done, 0 to 1. It may leap where a part ends early.
    pub share: f64,
    /// What is being done, in words.
    pub doing: String,
}

impl Watch {
    /// Asks the work to end with what is known.
    pub fn stop(&self) {
        self.stopped.store(true, Ordering::Relaxed);
    }

    /// Whether it was asked to.
    #[must_use]
    pub fn is_stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }

    /// How far it has come; nothing while there is no long work.
    #[must_use]
    pub fn progress(&self) -> Option<Progress> {
        let whole = self.whole.load(Ordering::Relaxed);
        if whole == 0 {
            return None;
        }
        let done = self.done.load(Ordering::Relaxed).min(whole);
        #[expect(clippy::cast_precision_loss, reason = "a share to be looked at")]
        let share = done as f64 / whole as f64;
        let doing = self.doing.lock().unwrap_or_else(PoisonError::into_inner).clone();
        Some(Progress { share, doing })
    }

    /// Long work begins: so many steps, of any kind.
    pub(crate) fn begin(&self, steps: u64) {
        self.done.store(0, Ordering::Relaxed);
        self.whole.store(steps, Ordering::Relaxed);
    }

    /// What is being done now, in words.
    pub(crate) fn doing(&self, words: String) {
        *self.doing.lock().unwrap_or_else(PoisonError::into_inner) = words;
    }

    /// Steps done since it began.
    pub(crate) fn done(&self) -> u64 {
        self.done.load(Ordering::Relaxed)
    }

    /// Some more steps are done.
    pub(crate) fn advance(&self, steps: u64) {
        self.done.fetch_add(steps, Ordering::Relaxed);
    }

    /// So many are done as if all steps until here had been needed.
    pub(crate) fn reach(&self, steps: u64) {
        self.done.fetch_max(steps, Ordering::Relaxed);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_share_rises_to_the_whole_and_no_further() {
        let watch = Watch::default();
        assert_eq!(watch.progress(), None);
        watch.begin(8);
        watch.doing("a strip".to_owned());
        let share = || watch.progress().expect("begun").share;
        assert!(share().abs() < 1e-12);
        watch.advance(2);
        assert!((share() - 0.25).abs() < 1e-12);
        watch.reach(4);
        watch.reach(3);
        assert!((share() - 0.5).abs() < 1e-12);
        watch.advance(20);
        assert!((share() - 1.0).abs() < 1e-12);
        assert_eq!(watch.progress().expect("begun").doing, "a strip");
        assert!(!watch.is_stopped());
        watch.stop();
        assert!(watch.is_stopped());
    }
}
