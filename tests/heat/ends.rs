//! How phases end: to the second, at once when they cannot, and never by looping.

use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::history::{Ending, History};
use dwell::heat::conduction::material::Material;
use dwell::heat::conduction::phase::{End, Goal, PhaseHeat, Place, Until};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::shape::Form;
use dwell::heat::conduction::solve::{Accuracy, solve};
use dwell::heat::conduction::surface::Humidity;

fn body(start_c: f64) -> Body {
    let material = Material::constant(0.45, 1040.0, 3300.0).expect("material");
    Body::uniform(Form::new(0.03, 0.7).expect("form"), material, start_c).expect("body")
}

fn until(place: Place, goal: Goal, target_c: f64, longest_s: Option<f64>) -> End {
    End { duration_s: longest_s, until: Some(Until { place, goal, target_c }) }
}

fn lasting(duration_s: f64) -> End {
    End { duration_s: Some(duration_s), until: None }
}

fn run(start_c: f64, phases: &[PhaseHeat]) -> History {
    solve(&body(start_c), phases, Accuracy::FULL).expect("solved")
}

#[test]
fn a_phase_ends_to_the_second_when_its_temperature_comes() {
    for (place, goal, start_c, medium_c, target_c) in [
        (Place::Core, Goal::AtLeast, 5.0, 80.0, 60.0),
        (Place::Core, Goal::AtMost, 80.0, 2.0, 20.0),
        (Place::Surface, Goal::AtLeast, 5.0, 80.0, 60.0),
        (Place::Surface, Goal::AtMost, 80.0, 2.0, 20.0),
    ] {
        let phase = PhaseHeat::convective(Ramp::constant(medium_c), 60.0, until(place, goal, target_c, None));
        let history = run(start_c, std::slice::from_ref(&phase));
        assert_eq!(history.ends[0].ending, Ending::Reached);
        let last = history.samples.last().expect("last");
        let c = if place == Place::Core { last.core_c } else { last.surface_c };
        assert!((c - target_c).abs() < 1e-4, "{c}");
        // A much finer run ends within a second of it, and a fixed one shows both sides of the target.
        let fine = Accuracy { cells: 200, step_error_k: 1e-4, longest_step_s: 30.0 };
        let finer = solve(&body(start_c), &[phase], fine).expect("solved");
        assert!(
            (finer.ends[0].at_s - history.ends[0].at_s).abs() < 1.0,
            "{:?} {:?}",
            finer.ends,
            history.ends
        );
    }
}

#[test]
fn already_there_ends_at_once() {
    let phase =
        PhaseHeat::convective(Ramp::constant(80.0), 60.0, until(Place::Core, Goal::AtLeast, 4.0, None));
    let history = run(5.0, &[phase]);
    assert_eq!((history.ends[0].at_s, history.ends[0].ending), (0.0, Ending::Reached));
}

#[test]
fn carry_over_reaches_a_target_that_the_medium_alone_would_not() {
    let sear = PhaseHeat::convective(Ramp::constant(200.0), 60.0, lasting(900.0));
    let rest =
        PhaseHeat::convective(Ramp::constant(22.0), 6.0, until(Place::Core, Goal::AtLeast, 50.0, None));
    let history = run(5.0, &[sear.clone(), rest.clone()]);
    assert_eq!(history.ends[1].ending, Ending::Reached);
    // Asked for too much, it says how far the rest carries: what a plain hour of the same rest shows.
    let too_far = PhaseHeat { end: until(Place::Core, Goal::AtLeast, 85.0, None), ..rest.clone() };
    let history = run(5.0, &[sear.clone(), too_far]);
    let hour = run(5.0, &[sear, PhaseHeat { end: lasting(7200.0), ..rest }]);
    let Ending::OutOfReach { limit_c } = history.ends[1].ending else { panic!("{:?}", history.ends) };
    assert!((limit_c - hour.core_highest.value_c).abs() < 0.05, "{limit_c} {:?}", hour.core_highest);
}

#[test]
fn a_target_that_cannot_come_is_said_at_once_with_the_highest_it_can() {
    let wet = PhaseHeat {
        wetness: Ramp::constant(1.0),
        humidity: Humidity::Ratio(0.02),
        ..PhaseHeat::convective(Ramp::constant(100.0), 20.0, until(Place::Core, Goal::AtLeast, 93.0, None))
    };
    // The wet bulb of air at 100 °C with 0.02 kg/kg is 39.083 °C (tests/reference/heat/air.toml).
    let history = run(5.0, std::slice::from_ref(&wet));
    let Ending::OutOfReach { limit_c } = history.ends[0].ending else { panic!("{:?}", history.ends) };
    assert!((limit_c - 39.083).abs() < 0.01, "{limit_c}");
    assert!(history.steps == 0, "{} steps", history.steps);
    // What comes after such a phase is not run.
    let history = run(5.0, &[wet.clone(), wet]);
    assert_eq!(history.ends.len(), 1);
    // A target equal to the bath is only ever approached; a thousandth below is reached.
    let bath =
        |c| PhaseHeat::convective(Ramp::constant(58.0), 95.0, until(Place::Core, Goal::AtLeast, c, None));
    assert!(matches!(run(5.0, &[bath(58.0)]).ends[0].ending, Ending::OutOfReach { .. }));
    assert_eq!(run(5.0, &[bath(57.999)]).ends[0].ending, Ending::Reached);
    // From above, too.
    let cold = PhaseHeat::convective(Ramp::constant(3.0), 8.0, until(Place::Core, Goal::AtMost, 2.0, None));
    let Ending::OutOfReach { limit_c } = run(60.0, &[cold]).ends[0].ending else { panic!("cannot") };
    assert!((limit_c - 3.0).abs() < 0.01);
    // Shut away from any heat.
    let shut =
        PhaseHeat::convective(Ramp::constant(90.0), 0.0, until(Place::Core, Goal::AtLeast, 60.0, None));
    assert!(matches!(run(20.0, &[shut]).ends[0].ending, Ending::OutOfReach { .. }));
}

#[test]
fn a_wait_with_a_longest_time_gives_up_then() {
    let phase = |target_c| {
        PhaseHeat::convective(
            Ramp::constant(80.0),
            20.0,
            until(Place::Core, Goal::AtLeast, target_c, Some(3600.0)),
        )
    };
    let history = run(5.0, &[phase(90.0)]);
    assert_eq!((history.ends[0].ending, history.ends[0].at_s), (Ending::GaveUp, 3600.0));
    let history = run(5.0, &[phase(20.0)]);
    assert_eq!(history.ends[0].ending, Ending::Reached);
    assert!(history.ends[0].at_s < 3600.0);
}

#[test]
fn a_ramp_may_bring_what_its_beginning_does_not() {
    let ramp = Ramp::new("medium", vec![(0.0, 20.0), (7200.0, 20.0), (9000.0, 90.0)]).expect("ramp");
    let phase = PhaseHeat::convective(ramp, 30.0, until(Place::Core, Goal::AtLeast, 60.0, None));
    assert_eq!(run(5.0, &[phase]).ends[0].ending, Ending::Reached);
    // Hot for a while and then not: whether that was enough has to be seen.
    let ramp = Ramp::new("medium", vec![(0.0, 90.0), (600.0, 90.0), (600.0, 20.0)]).expect("ramp");
    let phase = PhaseHeat::convective(ramp, 30.0, until(Place::Core, Goal::AtLeast, 60.0, None));
    let history = run(5.0, &[phase]);
    let Ending::OutOfReach { limit_c } = history.ends[0].ending else { panic!("{:?}", history.ends) };
    assert!(limit_c < 25.0 && limit_c > 15.0, "{limit_c}");
}

#[test]
fn nothing_rings_after_a_jump() {
    // From 90 °C into ice water with a hard film: no temperature may leave the range of the two.
    for beta in [0.0, 1.0, 2.0] {
        let material = Material::constant(0.45, 1040.0, 3300.0).expect("material");
        let body = Body::uniform(Form::new(0.03, beta).expect("form"), material, 90.0).expect("body");
        let phase = PhaseHeat::convective(Ramp::constant(0.0), 1e6, lasting(7200.0));
        let history = solve(&body, &[phase], Accuracy::FULL).expect("solved");
        let mut before_c = f64::INFINITY;
        for s in &history.samples {
            assert!(s.core_c <= 90.01 && s.surface_c >= -0.01 && s.surface_c <= before_c + 0.01, "{s:?}");
            before_c = s.surface_c;
        }
    }
}

#[test]
fn a_jump_inside_a_phase_is_the_same_as_two_phases() {
    let ramp = Ramp::new("medium", vec![(0.0, 90.0), (1800.0, 90.0), (1800.0, 10.0)]).expect("ramp");
    let one = run(5.0, &[PhaseHeat::convective(ramp, 30.0, lasting(3600.0))]);
    let flat = |c| PhaseHeat::convective(Ramp::constant(c), 30.0, lasting(1800.0));
    let two = run(5.0, &[flat(90.0), flat(10.0)]);
    let (a, b) = (one.samples.last().expect("a"), two.samples.last().expect("b"));
    assert!((a.core_c - b.core_c).abs() < 0.01 && (a.surface_c - b.surface_c).abs() < 0.01, "{a:?} {b:?}");
}
