//! The results that take long, computed one after the other on a thread of their own.

use std::collections::VecDeque;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError, Weak};
use std::time::Duration;

use assessment::Assessment;
use stages::size::{Bounds, Refusal, Request, Sizing, size};
use stages::{Ask, Progress, Sampling, Watch};

use super::desk::{Desk, Read};
use super::folder::Folder;

/// How long nothing new is asked before the work begins: whoever changes something may change more, and the page that he
/// waits for comes first.
const QUIET: Duration = Duration::from_millis(250);

/// What takes long.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Long {
    /// The whole assessment, bonds loaded until they give way.
    Whole,
    /// The same with the chances of failure.
    Chances,
    /// The sizes of a joint for a reserve factor.
    Sizes { joint: String, target: f64 },
}

/// What came of it.
#[derive(Debug, Clone)]
pub(super) enum Found {
    Assessment(Arc<Assessment>),
    Sizing(Arc<Result<Sizing, String>>),
}

/// Long work on the text of a job.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Task {
    /// The job's name.
    pub(super) name: String,
    /// Its text.
    pub(super) text: String,
    /// What is asked.
    pub(super) long: Long,
}

/// What is to be computed; of each job only the text that was asked for last.
#[derive(Default)]
pub(super) struct Worker {
    tasks: Mutex<VecDeque<Task>>,
    come: Condvar,
    /// What is being done, and how far it has come.
    now: Mutex<Option<(Task, Arc<Watch>)>>,
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

    fn tasks(&self) -> MutexGuard<'_, VecDeque<Task>> {
        self.tasks.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Asks for some work on one text of a job, in this order and before that on others; work on its other texts ends.
    pub(super) fn ask(&self, asked: Vec<Task>) {
        let Some(Task { name, text, .. }) = asked.first().cloned() else { return };
        let mut tasks = self.tasks();
        tasks.retain(|other| other.name != name);
        for task in asked.into_iter().rev() {
            tasks.push_front(task);
        }
        if let Some((task, watch)) = &*self.now.lock().unwrap_or_else(PoisonError::into_inner)
            && task.name == name
            && task.text != text
        {
            watch.stop();
        }
        self.come.notify_one();
    }

    /// Ends the work on a job with what is known.
    pub(super) fn stop(&self, name: &str) {
        self.tasks().retain(|task| task.name != name);
        if let Some((task, watch)) = &*self.now.lock().unwrap_or_else(PoisonError::into_inner)
            && task.name == name
        {
            watch.stop();
        }
    }

    /// How far the work on a job has come, where something is being done for it that can tell.
    pub(super) fn progress(&self, name: &str) -> Option<Progress> {
        let now = self.now.lock().unwrap_or_else(PoisonError::into_inner);
        now.as_ref().filter(|(task, _)| task.name == name).and_then(|(_, watch)| watch.progress())
    }

    fn set(&self, now: Option<(Task, Arc<Watch>)>) {
        *self.now.lock().unwrap_or_else(PoisonError::into_inner) = now;
    }

    /// Waits a while for a task and does it.
    fn one(&self, desk: &Desk) {
        let waited =
            self.come.wait_timeout_while(self.tasks(), Duration::from_millis(500), |tasks| tasks.is_empty());
        let task = waited.unwrap_or_else(PoisonError::into_inner).0.front().cloned();
        let Some(task) = task else { return };
        std::thread::sleep(QUIET);
        if self.tasks().front() != Some(&task) {
            return;
        }
        let watch = Arc::new(Watch::default());
        self.set(Some((task.clone(), Arc::clone(&watch))));
        // A panic would be a defect of the core; the bench goes on, and says that there is no result.
        let found = catch_unwind(AssertUnwindSafe(|| done(&task, &desk.folder, &watch)));
        self.set(None);
        self.tasks().retain(|other| *other != task);
        match found {
            Ok(Some(found)) => desk.done(&task, found),
            Ok(None) => {}
            Err(_) => desk.stop(&task.name, true),
        }
    }
}

fn done(task: &Task, folder: &Folder, watch: &Arc<Watch>) -> Option<Found> {
    let assessed = |probability: Option<Sampling>| {
        let job = job::read(&task.name, &task.text, folder).ok()?;
        let ask = Ask { probability, watch: Arc::clone(watch), ..Ask::default() };
        Some(Found::Assessment(Arc::new(stages::assess(&job, &ask))))
    };
    match &task.long {
        Long::Whole => assessed(None),
        Long::Chances => assessed(Some(Sampling::default())),
        Long::Sizes { joint, target } => {
            let request = Request { joint, target: *target, bounds: Bounds::default() };
            let sizing = size(&task.name, &task.text, folder, &request, watch);
            let sizing = sizing.map_err(|refusal| match refusal {
                Refusal::Problems(problems) => {
                    problems.iter().map(super::desk::in_words).collect::<Vec<_>>().join(" ")
                }
                Refusal::Cannot(why) => why,
            });
            Some(Found::Sizing(Arc::new(sizing)))
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
