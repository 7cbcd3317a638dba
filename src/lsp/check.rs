//! Checks: what a file declares at once, and what follows from it on a thread of its own, which gives up as soon as nobody
//! wants its result.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::thread;

use crossbeam_channel::{Receiver, Sender, unbounded};

use super::documents::Checked;
use super::fault::Fault;
use super::overlay::Overlay;
use crate::compile::{self, Compiled, Options};
use crate::cures::Found;
use crate::stop::{self, Stop};
use crate::text::Source;

/// What a file declares.
pub fn declared(overlay: Overlay, source: &Source) -> Checked {
    #[cfg(test)]
    Fault::Declared.make(source);
    let options = Options { declared_only: true, ..Options::default() };
    let compiled = compiled(&overlay, source, &options);
    Checked::new(compiled, overlay.asked())
}

fn compiled(overlay: &Overlay, source: &Source, options: &Options) -> Compiled {
    compile::compile(overlay, source.path.clone(), source.text.clone().into_bytes(), options)
}

/// A full check to be made.
pub struct Job {
    pub uri: String,
    pub stop: Stop,
    pub overlay: Overlay,
    pub source: Arc<Source>,
}

/// What came of a full check.
pub struct Done {
    pub uri: String,
    /// That of the job: once it is asked, this is of a text that is no more.
    pub stop: Stop,
    pub result: Outcome,
}

pub enum Outcome {
    Planned(Arc<Checked>),
    /// Cures of what was found there, which may take many times as long.
    Cured(Vec<Found>),
    Failed(Fault),
}

/// The thread that makes full checks, one after the other. It ends with this.
pub struct Worker {
    jobs: Sender<Job>,
    pub done: Receiver<Done>,
}

impl Worker {
    /// # Errors
    /// The machine gives out no more threads.
    pub fn start() -> std::io::Result<Self> {
        let (jobs, todo) = unbounded();
        let (sender, done) = unbounded();
        let work = move || {
            for job in todo {
                run(job, &sender);
            }
        };
        thread::Builder::new().name("dwell-check".into()).stack_size(compile::STACK).spawn(work)?;
        Ok(Self { jobs, done })
    }

    pub fn check(&self, job: Job) {
        // The thread only ends with this.
        let _ = self.jobs.send(job);
    }
}

fn run(job: Job, done: &Sender<Done>) {
    let Job { uri, stop, overlay, source } = job;
    let tell = |result| {
        // Nobody is left to hear of it where the server has ended.
        let _ = done.send(Done { uri: uri.clone(), stop: stop.clone(), result });
    };
    let options = Options::default();
    let plan = || {
        #[cfg(test)]
        Fault::Predicted.make(&source);
        let compiled = compiled(&overlay, &source, &options);
        Arc::new(Checked::new(compiled, overlay.asked()))
    };
    let Some(checked) = unless_fault(&stop, plan, || tell(Outcome::Failed(Fault::Predicted))) else {
        return;
    };
    tell(Outcome::Planned(checked.clone()));
    // Whoever puts them down has what was checked alone: this ends before.
    let cures = move || {
        #[cfg(test)]
        Fault::Cures.make(&source);
        compile::cures(&checked.compiled, &overlay, &options)
    };
    if let Some(cures) = unless_fault(&stop, cures, || tell(Outcome::Failed(Fault::Cures))) {
        tell(Outcome::Cured(cures));
    }
}

/// What work comes to; `None` if nobody waits for it any more, and after a fault.
fn unless_fault<T>(stop: &Stop, work: impl FnOnce() -> T, fault: impl FnOnce()) -> Option<T> {
    let done = catch_unwind(AssertUnwindSafe(|| stop::unless_asked(stop, work)));
    done.unwrap_or_else(|_| {
        fault();
        None
    })
}
