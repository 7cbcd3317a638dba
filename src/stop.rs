//! Work that is given up while it runs, because nobody waits for its result any more.
//!
//! Long loops ask [`here`] on every turn. Once somebody has asked to stop, that never returns: the stack is unwound to
//! [`unless_asked`], as far as that a `return` from each function, and no stage has to know of half a result. What is not
//! run inside of it never stops.

use std::cell::RefCell;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Asks some work to stop, from any thread and for good.
#[derive(Debug, Clone, Default)]
pub struct Stop(Arc<AtomicBool>);

impl Stop {
    pub fn ask(&self) {
        self.0.store(true, Ordering::Release);
    }

    /// Whether both ask the same work.
    pub fn is(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }

    pub fn is_asked(&self) -> bool {
        self.0.load(Ordering::Acquire)
    }
}

thread_local! {
    /// What the work of this thread stops for.
    static STOP: RefCell<Option<Stop>> = const { RefCell::new(None) };
}

/// What unwinds the stack; not a panic, so that no hook hears of it.
struct Stopped;

/// What `work` comes to; `None` if it was asked to stop before it was done.
pub fn unless_asked<T>(stop: &Stop, work: impl FnOnce() -> T) -> Option<T> {
    let before = STOP.replace(Some(stop.clone()));
    let done = catch_unwind(AssertUnwindSafe(work));
    STOP.set(before);
    match done {
        Ok(done) => Some(done),
        Err(why) if why.is::<Stopped>() => None,
        Err(why) => resume_unwind(why),
    }
}

/// A place at which work may be given up. Costs next to nothing.
pub fn here() {
    if STOP.with_borrow(|stop| stop.as_ref().is_some_and(Stop::is_asked)) {
        resume_unwind(Box::new(Stopped));
    }
}

#[cfg(test)]
mod tests {
    use super::{Stop, here, unless_asked};

    #[test]
    fn work_stops_where_it_is_asked_and_not_before() {
        let (stop, mut turns) = (Stop::default(), 0);
        let done = unless_asked(&stop, || {
            for turn in 0..10 {
                here();
                turns += 1;
                if turn == 3 {
                    stop.ask();
                }
            }
        });
        assert_eq!((done, turns), (None, 4));
        here();
        assert_eq!(unless_asked(&Stop::default(), || 7), Some(7));
    }

    #[test]
    fn inner_work_stops_alone() {
        let (inner, outer) = (Stop::default(), Stop::default());
        inner.ask();
        let both = unless_asked(&outer, || (unless_asked(&inner, here), here()));
        assert_eq!(both, Some((None, ())));
    }

    #[test]
    #[should_panic(expected = "a fault")]
    fn a_panic_goes_on() {
        unless_asked(&Stop::default(), || panic!("a fault"));
    }
}
