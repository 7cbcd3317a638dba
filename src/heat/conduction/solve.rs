//! The door: a body through its phases.

use super::body::Body;
use super::check::check;
use super::error::HeatError;
use super::field::Field;
use super::history::{Ending, Extreme, History, Sample, between, flat_spots};
use super::march::{March, Sooner};
use super::mesh::Mesh;
use super::phase::PhaseHeat;
use super::step::Stepper;

/// How finely to compute.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Accuracy {
    /// Cells from the core to the surface of a slab, 4 to 2000; rounder bodies take more (see [`Mesh::new`]).
    pub cells: usize,
    /// Largest estimated error of one step, K.
    pub step_error_k: f64,
    /// Longest step, s.
    pub longest_step_s: f64,
}

impl Accuracy {
    /// Held by tests: within 0.05 K in the core, 0.2 K at the surface and 0.2 % or 30 s in the ends of phases
    /// of a solver on 400 cells (measured: 0.012 K, 0.075 K, 0.02 %), and within 1e-4 of the exact series for
    /// a step of 60 K (measured: 8.9e-5, a ball with its surface held; 5e-5 for a slab).
    pub const FULL: Accuracy = Accuracy { cells: 64, step_error_k: 0.02, longest_step_s: f64::INFINITY };

    /// Within 0.2 K in the core of what [`FULL`](Self::FULL) gives, in about a tenth of the time: for bounds.
    pub const COARSE: Accuracy = Accuracy { cells: 16, step_error_k: 0.3, ..Accuracy::FULL };
}

/// Runs the body through its phases. Stops early, with [`Ending::OutOfReach`] in the last of `ends`, at a
/// phase that waits for a temperature that cannot come. Seconds count from the start of the cook.
///
/// # Errors
/// Numbers outside what the model is meant for, no end to a phase, air that would be steam, a curve of
/// settings too rough to follow.
pub fn solve(body: &Body, phases: &[PhaseHeat], accuracy: Accuracy) -> Result<History, HeatError> {
    through(body, phases, accuracy, &mut Sooner::default())
}

/// Runs the body through one phase of known length. Also gives the heat that is in it if the phase is over after each of
/// `sooner_s` already: to the last bit what a run of that length leaves, for the price of its last steps. They rise, and
/// lie between 0 and the length.
///
/// # Errors
/// As [`solve`].
pub fn solve_with_sooner(
    body: &Body,
    phase: &PhaseHeat,
    accuracy: Accuracy,
    sooner_s: &[f64],
) -> Result<(History, Vec<Field>), HeatError> {
    let mut sooner = Sooner::at(sooner_s);
    let history = through(body, std::slice::from_ref(phase), accuracy, &mut sooner)?;
    Ok((history, sooner.fields))
}

fn through(
    body: &Body,
    phases: &[PhaseHeat],
    accuracy: Accuracy,
    sooner: &mut Sooner,
) -> Result<History, HeatError> {
    check(body, phases, &accuracy)?;
    let mut history = History::new(body.field.clone());
    let start = if body.form.stirred { body.field.mixed() } else { body.field.clone() };
    let mut stepper = Stepper::new(&body.material, Mesh::new(&body.form, accuracy.cells), &start);
    let mut start_s = 0.0;
    for (index, phase) in phases.iter().enumerate() {
        let mut march = March::new(index, phase, &accuracy, start_s, &mut history);
        let end = march.run(&mut stepper, sooner)?;
        start_s = end.at_s;
        history.ends.push(end);
        if matches!(end.ending, Ending::OutOfReach { .. }) {
            break;
        }
    }
    history.field = stepper.field();
    find_extremes(&mut history);
    Ok(history)
}

fn find_extremes(history: &mut History) {
    let (mut highest, mut lowest) = (history.core_highest, history.core_lowest);
    let mut consider = |at_s: f64, value_c: f64| {
        if value_c > highest.value_c {
            highest = Extreme { value_c, at_s };
        }
        if value_c < lowest.value_c {
            lowest = Extreme { value_c, at_s };
        }
    };
    for sample in &history.samples {
        consider(sample.t_s, sample.core_c);
    }
    for pair in history.samples.windows(2) {
        let (a, b) = (&pair[0], &pair[1]);
        if b.t_s > a.t_s {
            for x in flat_spots(a, b, Sample::core).into_iter().flatten() {
                consider(a.t_s + x * (b.t_s - a.t_s), between(a, b, Sample::core, x));
            }
        }
    }
    (history.core_highest, history.core_lowest) = (highest, lowest);
}
