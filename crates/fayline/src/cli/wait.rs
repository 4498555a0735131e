//! Waiting for long work: a line that tells how far it has come, and Ctrl-C.

use std::io::{IsTerminal, Write};
use std::process;
use std::sync::Arc;
use std::sync::mpsc::{self, RecvTimeoutError};
use std::thread;
use std::time::Duration;

use stages::{Progress, Watch};

/// The exit status of a program that ended at Ctrl-C: 128 and the number of the signal, as shells have it.
const INTERRUPTED: i32 = 130;

/// Does work that may take long. The first Ctrl-C asks it to end with what is known, the second ends the program. If
/// standard error is a terminal, a line there tells how far it has come.
pub(super) fn watched<T>(watch: &Arc<Watch>, work: impl FnOnce() -> T) -> T {
    let asked = Arc::clone(watch);
    // Where the system has no such signal the work runs to its end.
    let _ = ctrlc::set_handler(move || {
        if asked.is_stopped() {
            process::exit(INTERRUPTED);
        }
        asked.stop();
    });
    if !std::io::stderr().is_terminal() {
        return work();
    }
    let (done, ended) = mpsc::channel::<()>();
    thread::scope(|scope| {
        scope.spawn(move || paint(watch, &ended));
        let made = work();
        drop(done);
        made
    })
}

/// Paints the line until the work has ended, and wipes it.
fn paint(watch: &Watch, ended: &mpsc::Receiver<()>) {
    const EVERY: Duration = Duration::from_millis(100);
    const WIPE: &str = "\r\x1b[K";
    let put = |text: &str| {
        let mut screen = std::io::stderr().lock();
        let _ = screen.write_all(text.as_bytes()).and_then(|()| screen.flush());
    };
    while ended.recv_timeout(EVERY) == Err(RecvTimeoutError::Timeout) {
        if let Some(progress) = watch.progress() {
            put(&format!("{WIPE}{}", line(&progress, watch.is_stopped())));
        }
    }
    put(WIPE);
}

/// How far it has come, in fewer than 80 columns.
fn line(progress: &Progress, stopping: bool) -> String {
    const BARS: u32 = 20;
    const WIDTH: usize = 79;
    let bars = (0..BARS)
        .map(|bar| if (f64::from(bar) + 0.5) / f64::from(BARS) <= progress.share { '#' } else { '-' });
    let words = if stopping { "stopping" } else { progress.doing.as_str() };
    let line = format!("[{}] {:3.0} %  {words}", bars.collect::<String>(), 100.0 * progress.share);
    line.chars().take(WIDTH).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_line_is_short_and_tells_the_share() {
        let progress = |share, doing: &str| Progress { share, doing: doing.to_owned() };
        assert_eq!(line(&progress(0.0, "sizing"), false), "[--------------------]   0 %  sizing");
        assert_eq!(line(&progress(0.5, "sizing"), false), "[##########----------]  50 %  sizing");
        assert_eq!(line(&progress(1.0, "sizing"), true), "[####################] 100 %  stopping");
        assert_eq!(line(&progress(0.5, &"word ".repeat(40)), false).chars().count(), 79);
    }
}
