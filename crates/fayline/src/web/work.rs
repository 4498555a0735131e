//! The results that take long, computed one after the other on a thread of their own.

use std::collections::VecDeque;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, Condvar, Mutex, PoisonError, Weak};
use std::time::Duration;

use stages::Ask;

use super::desk::{Desk, Read};
use super::folder::Folder;

/// How long nothing new is asked before the work begins: whoever changes something may change more, and the page that he
/// waits for comes first.
const QUIET: Duration = Duration::from_millis(250);

/// A job to be assessed whole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Task {
    /// The job's name.
    pub(super) name: String,
    /// Its text.
    pub(super) text: String,
}

/// What is to be computed; of each job only the last text that was asked for.
#[derive(Default)]
pub(super) struct Worker {
    tasks: Mutex<VecDeque<Task>>,
    come: Condvar,
}

impl Worker {
    /// Starts the thread that works for a desk; it ends with the desk.
    pub(super) fn start(desk: &Arc<Desk>) {
        let desk = Arc::downgrade(desk);
        std::thread::spawn(move || {
            while let Some(desk) = Weak::upgrade(&desk) {
                desk.worker().one(&desk);
            }
        });
    }

    /// Asks for a job, before all others.
    pub(super) fn ask(&self, task: Task) {
        let mut tasks = self.tasks.lock().unwrap_or_else(PoisonError::into_inner);
        if tasks.front() == Some(&task) {
            return;
        }
        tasks.retain(|other| other.name != task.name);
        tasks.push_front(task);
        self.come.notify_one();
    }

    /// Forgets what was asked for a job.
    pub(super) fn forget(&self, name: &str) {
        self.tasks.lock().unwrap_or_else(PoisonError::into_inner).retain(|task| task.name != name);
    }

    /// Waits a while for a task and does it.
    fn one(&self, desk: &Desk) {
        let tasks = self.tasks.lock().unwrap_or_else(PoisonError::into_inner);
        let waited =
            self.come.wait_timeout_while(tasks, Duration::from_millis(500), |tasks| tasks.is_empty());
        let task = waited.unwrap_or_else(PoisonError::into_inner).0.front().cloned();
        let Some(task) = task else { return };
        std::thread::sleep(QUIET);
        if self.tasks.lock().unwrap_or_else(PoisonError::into_inner).front() != Some(&task) {
            return;
        }
        // A panic would be a defect of the core; the bench goes on, and says that there is no result.
        let read = catch_unwind(AssertUnwindSafe(|| assessed(&task.name, &task.text, &desk.folder, true)));
        let mut tasks = self.tasks.lock().unwrap_or_else(PoisonError::into_inner);
        let wanted = tasks.iter().any(|other| *other == task);
        tasks.retain(|other| *other != task);
        drop(tasks);
        match read {
            Ok(Ok(assessment)) if wanted => desk.done(&task, assessment),
            Ok(_) => {}
            Err(_) => desk.stop(&task.name, true),
        }
    }
}

/// Reads a job and assesses it, with or without what takes long.
pub(super) fn assessed(name: &str, text: &str, folder: &Folder, whole: bool) -> Read {
    match job::read(name, text, folder) {
        Ok(job) => Ok(Arc::new(stages::assess(&job, &Ask { to_failure: whole, ..Ask::default() }))),
        Err(problems) => Err(Arc::new(problems)),
    }
}
