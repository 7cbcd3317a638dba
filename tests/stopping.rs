//! A check that nobody waits for any more ends at once, wherever it is.

mod common;

use std::sync::mpsc;
use std::thread;
use std::time::{Duration, Instant};

use common::Memory;
use dwell::compile::{Options, compile};
use dwell::findings::Finding;
use dwell::stop::{Stop, unless_asked};

/// What a file comes to with all that a full check does, unless it is stopped.
fn check(files: &[(&str, &str)], stop: &Stop) -> Option<Vec<Finding>> {
    let options = Options { cures: true, ..Options::default() };
    let (name, text) = files[0];
    unless_asked(stop, || compile(&Memory(files), name.into(), text.into(), &options).findings)
}

/// How long a check goes on after it was asked to stop at this moment; `None` if it was over before.
fn goes_on(files: &[(&str, &str)], moment: Duration) -> Option<Duration> {
    let (stop, (sender, done)) = (Stop::default(), mpsc::channel());
    let (asked, files) = (stop.clone(), files.to_vec());
    thread::scope(|scope| {
        let work = move || sender.send((check(&files, &asked).is_some(), Instant::now()));
        thread::Builder::new().stack_size(8 << 20).spawn_scoped(scope, work).expect("a thread");
        thread::sleep(moment);
        stop.ask();
        let begin = Instant::now();
        let (is_whole, end) = done.recv().expect("it ends");
        (!is_whole).then(|| end.saturating_duration_since(begin))
    })
}

/// The best of some tries: what does not stop is as late every time, and a busy machine only now and then.
fn goes_on_at_best(files: &[(&str, &str)], moment: Duration) -> Option<Duration> {
    let mut best = goes_on(files, moment);
    for _ in 0..4 {
        if best < Some(AT_ONCE) {
            break;
        }
        best = best.min(goes_on(files, moment));
    }
    best
}

/// Nobody notices it; a whole check of these takes up to half a minute where the compiler is not optimized.
const AT_ONCE: Duration = Duration::from_millis(300);

#[test]
fn a_cook_stops_wherever_it_is() {
    let examples = common::examples();
    for at in 0..examples.len() {
        let mut files: Vec<_> = examples.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        files.swap(0, at);
        let begin = Instant::now();
        assert!(check(&files, &Stop::default()).is_some());
        let takes = begin.elapsed();
        for nth in 0..8 {
            let after = goes_on_at_best(&files, takes * nth / 8);
            assert!(after < Some(AT_ONCE), "{}: {after:?}", files[0].0);
        }
    }
}

#[test]
fn a_large_menu_stops_wherever_it_is() {
    let impossible = &common::regatta::IMPOSSIBLE;
    for files in [common::regatta::files(12), impossible[0].files(), impossible[3].files()] {
        let files: Vec<_> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        for moment in [100, 700, 1900, 3100] {
            let after = goes_on_at_best(&files, Duration::from_millis(moment));
            assert!(after.is_some() && after < Some(AT_ONCE), "{after:?} after {moment} ms");
        }
    }
}
