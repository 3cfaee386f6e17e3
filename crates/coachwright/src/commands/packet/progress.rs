//! A bar for packets that take long.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::io::IsTerminal;
use std::time::{Duration, Instant};

/// Whoever waits shorter than this needs no bar.
const PATIENCE: Duration = Duration::from_secs(1);

/// A bar that is seen once the work takes longer than a second, and only on a terminal.
pub struct Progress {
    bar: ProgressBar,
    started: Instant,
    is_terminal: bool,
}

impl Progress {
    /// A bar of so many stages.
    pub fn new(stages: u64) -> Self {
        let bar = ProgressBar::with_draw_target(Some(stages), ProgressDrawTarget::hidden());
        if let Ok(style) = ProgressStyle::with_template("{wide_bar} {pos} of {len}, {msg}") {
            bar.set_style(style);
        }
        Self { bar, started: Instant::now(), is_terminal: std::io::stderr().is_terminal() }
    }

    /// Goes on to the next stage.
    pub fn step(&mut self, what: &'static str) {
        if self.is_terminal && self.started.elapsed() > PATIENCE {
            self.bar.set_draw_target(ProgressDrawTarget::stderr());
            self.is_terminal = false;
        }
        self.bar.set_message(what);
        self.bar.inc(1);
    }

    /// Takes the bar away.
    pub fn finish(&self) {
        self.bar.finish_and_clear();
    }
}
