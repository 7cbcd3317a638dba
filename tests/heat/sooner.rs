//! A phase that is over sooner leaves what it would leave by itself, to the last bit.

use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::phase::{End, PhaseHeat};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::solve::{Accuracy, solve, solve_with_sooner};

use crate::support::cooks;

/// Runs the phase once with all ends, and once for each of them; gives how many steps the latter took.
fn compare(body: &Body, phase: &PhaseHeat, ends_s: &[f64], accuracy: Accuracy) -> usize {
    let lasting =
        |seconds: f64| PhaseHeat { end: End { duration_s: Some(seconds), until: None }, ..phase.clone() };
    let (&longest, sooner) = ends_s.split_last().expect("an end");
    let (history, fields) = solve_with_sooner(body, &lasting(longest), accuracy, sooner).expect("solved");
    assert_eq!(history, solve(body, &[lasting(longest)], accuracy).expect("solved"));
    assert_eq!(fields.len(), sooner.len());
    let mut steps = 0;
    for (end_s, field) in sooner.iter().zip(fields) {
        let alone = solve(body, &[lasting(*end_s)], accuracy).expect("solved");
        assert!(alone.field == field, "{end_s} s: {:?} and {field:?}", alone.field);
        steps += alone.steps;
    }
    steps
}

#[test]
fn ends_before_the_longest_are_those_of_runs_of_their_own() {
    let mut steps = 0;
    for (_, cook) in cooks() {
        for phase in cook.phases() {
            for accuracy in [Accuracy::COARSE, Accuracy::FULL] {
                // Some close together, the first at once, the last close to the longest.
                let ends_s = [0.5, 30.0, 900.0, 901.0, 3600.0, 5400.0, 20_000.0, 20_000.5, 20_003.0];
                steps += compare(&cook.body(), &phase, &ends_s, accuracy);
            }
        }
    }
    assert!(steps > 1_000, "the phases are worth comparing: {steps} steps");
}

#[test]
fn so_are_those_before_at_and_behind_a_corner_and_a_jump() {
    let (_, cook) = cooks().into_iter().next().expect("a cook");
    let points =
        vec![(0.0, 60.0), (1800.0, 120.0), (3600.0, 120.0), (3600.0, 40.0), (9000.0, 40.0), (9060.0, 80.0)];
    let medium_c = Ramp::new("medium", points).expect("a ramp");
    let wetness = Ramp::new("wetness", vec![(0.0, 0.3), (2700.0, 0.0)]).expect("a ramp");
    let phase = PhaseHeat { medium_c, wetness, ..cook.phases()[0].clone() };
    let ends_s =
        [1799.0, 1800.0, 1800.5, 2700.0, 3599.9, 3600.0, 3600.1, 3700.0, 9000.0, 9030.0, 12_000.0, 20_000.0];
    compare(&cook.body(), &phase, &ends_s, Accuracy::COARSE);
    compare(&cook.body(), &phase, &ends_s, Accuracy::FULL);
}
