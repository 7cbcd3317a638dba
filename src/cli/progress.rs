//! How far long work has got: a line on a terminal, gone when the work is done.

use std::sync::Once;
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use super::cooks::can_be_drawn_on;

/// What is over sooner shows nothing.
const LONG: Duration = Duration::from_secs(1);
/// Without colour, whoever reads it.
const LINE: &str = "{pos} of {len} files checked [{wide_bar}] {eta} left";

/// Counts files; draws on standard error where that is a terminal, and takes the line away when dropped.
#[derive(Debug)]
pub struct Progress {
    bar: ProgressBar,
    since: Instant,
    shown: Once,
}

impl Progress {
    pub fn over(files: usize) -> Self {
        let bar = ProgressBar::with_draw_target(Some(files as u64), ProgressDrawTarget::hidden());
        let style = ProgressStyle::with_template(LINE).unwrap_or_else(|_| ProgressStyle::default_bar());
        Self { bar: bar.with_style(style.progress_chars("=> ")), since: Instant::now(), shown: Once::new() }
    }

    pub fn one_more(&self) {
        if self.since.elapsed() >= LONG {
            self.shown.call_once(|| {
                if can_be_drawn_on() {
                    self.bar.set_draw_target(ProgressDrawTarget::stderr());
                }
            });
        }
        self.bar.inc(1);
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}
