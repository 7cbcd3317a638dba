//! The promise of the heat curves: whatever happens inside the tolerances, the core stays inside the bounds.
//!
//! Random cooks are compiled, then gone through many times with every uncertain figure made exact at random, by a solver
//! of the test's own. `DWELL_DRAWS=10000` goes through more of them than the few of every run,
//! `DWELL_SEED=7` through others.

#[path = "../common/mod.rs"]
mod common;
mod conserved;
mod cooks;
mod extremes;
mod returning;
mod unsaid;
mod witness;

use std::collections::BTreeMap;

use common::dice::Dice;
use cooks::{Drawn, End, Left, Written};
use dwell::compile::{Options, compile};
use dwell::heat::{Curves, PhaseTimes};
use witness::{Body, CONDUCTIVITY_W_MK, DENSITY_KG_M3, SPECIFIC_HEAT_J_KGK};

/// What two solvers may differ by, K, and by s or the share of a phase's end.
const OFF_K: f64 = 0.3;
const OFF_S: f64 = 60.0;
const OFF_SHARE: f64 = 0.01;
const DRAWS_OF_A_COOK: usize = 12;
const USUAL_DRAWS: usize = 600;
/// A phase that may never end is given this many times its usual length.
const GIVES_UP: f64 = 3.0;

fn curves(text: &str) -> Curves {
    let own = format!(
        "[foods.\"test slab\"]\nspecies = \"beef\"\nstate = \"intact\"\nconductivity_w_mk = {CONDUCTIVITY_W_MK}\n\
         density_kg_m3 = {DENSITY_KG_M3:.1}\nspecific_heat_j_kgk = {SPECIFIC_HEAT_J_KGK:.1}\n"
    );
    let files = [("draw.dwell", text), ("dwell.toml", own.as_str())];
    let memory = common::Memory(&files);
    let compiled = compile(&memory, "draw.dwell".into(), text.as_bytes().to_vec(), &Options::default());
    assert!(compiled.understood(), "{text}\n{:#?}", compiled.findings);
    compiled.cooks()[0].curves.clone()
}

fn times(curves: &Curves, nth: usize) -> &PhaseTimes {
    curves.phases.iter().find(|times| times.name == format!("p{nth}")).expect("every phase has its times")
}

/// Phases that are predicted to their end.
fn followed(curves: &Curves, written: &Written) -> usize {
    let lost = curves.unpredicted.first().map(|lost| lost.phase.0 as usize);
    lost.unwrap_or(written.steps.len()).min(written.steps.len())
}

/// Where the file says how long an end takes: about what is predicted, more or less.
fn with_takes(written: &mut Written, curves: &Curves, dice: &mut Dice) -> bool {
    let mut changed = false;
    for nth in 0..followed(curves, written) {
        let times = times(curves, nth);
        if let End::Until { takes, .. } = &mut written.steps[nth].end
            && dice.one_in(3)
        {
            let whole = |seconds: f64| (seconds / 60.0).round().max(1.0) * 60.0;
            let low = whole(times.least_s * dice.roll(70, 130) as f64 / 100.0);
            *takes = Some((low, whole(times.most_s * dice.roll(70, 120) as f64 / 100.0).max(low + 300.0)));
            changed = true;
        }
    }
    changed
}

/// From which side an end is waited for, by the usual food as it comes in.
fn heats(written: &Written, curves: &Curves, nth: usize, target_c: f64) -> bool {
    let exits = &curves.foods[0].exits;
    let before_c = nth.checked_sub(1).map_or(f64::NEG_INFINITY, |before| exits[before].1.typical);
    written.steps[nth].heats(before_c, target_c)
}

/// What the witness saw.
#[derive(Default)]
struct Seen {
    ends_s: Vec<f64>,
    core: Vec<(f64, f64)>,
    /// What was drawn is not what the file says: an end outside `takes`, or one that nobody waits for.
    set_aside: bool,
}

/// Takes a drawn food through the phases.
fn witness(written: &Written, drawn: &Drawn, curves: &Curves) -> Seen {
    let mut seen = Seen::default();
    let mut body = Body::new(drawn.half_thickness_m, written.beta(), drawn.start_c);
    let mut left: BTreeMap<&str, Left> = BTreeMap::new();
    for nth in 0..followed(curves, written) {
        let (step, drawn) = (&written.steps[nth], &drawn.steps[nth]);
        let setting_c = step.setting.map(|(at_c, _)| at_c);
        let around = &drawn.meets(left.get(step.kit), setting_c, body.t_s);
        let (began_s, began) = (body.t_s, seen.core.len());
        let mut note = |t_s: f64, core_c: f64| seen.core.push((t_s, core_c));
        let mut leave = |at_s: f64| {
            let kit_c = around.medium(at_s - began_s);
            let arrived = kit_c == around.medium_c;
            setting_c.map(|setting_c| left.insert(step.kit, Left { at_s, kit_c, arrived, setting_c }));
        };
        let End::Until { target_c, takes } = written.steps[nth].end else {
            body.stay(around, drawn.length_s, |_| false, &mut note);
            leave(body.t_s);
            seen.ends_s.push(body.t_s);
            continue;
        };
        let times = times(curves, nth);
        let gives_up_s = GIVES_UP * (times.end_s - times.start_s);
        let may_never_end = times.end_predicted && takes.is_none() && times.most_s >= gives_up_s - 1.0;
        let waits_s = match takes {
            Some((_, high)) => high,
            None if may_never_end => times.most_s,
            None => 1.2 * times.most_s + 600.0,
        };
        let heat = heats(written, curves, nth, target_c);
        let there = |core_c: f64| if heat { core_c >= target_c } else { core_c <= target_c };
        let reached = body.stay(around, waits_s, there, &mut note);
        let too_soon = takes.is_some_and(|(low, _)| body.t_s - began_s < low);
        if too_soon || (!reached && (may_never_end || takes.is_some())) {
            seen.core.truncate(began);
            seen.set_aside = true;
            return seen;
        }
        leave(body.t_s);
        seen.ends_s.push(body.t_s);
    }
    seen
}

/// The first thing that is not as promised.
fn broken(seen: &Seen, curves: &Curves) -> Option<String> {
    for (nth, end_s) in seen.ends_s.iter().enumerate() {
        let times = times(curves, nth);
        let off = |end: f64| OFF_S.max(OFF_SHARE * end);
        let (soonest, latest) = (times.end_earliest_s, times.end_latest_s);
        if *end_s < soonest - off(soonest) || *end_s > latest + off(latest) {
            return Some(format!("p{nth} ends at {end_s:.0} s, promised {soonest:.0} to {latest:.0} s"));
        }
    }
    let last_s = seen.core.last()?.0;
    for sample in curves.foods[0].samples.iter().filter(|sample| sample.t_s <= last_s) {
        let after = seen.core.partition_point(|(t_s, _)| *t_s < sample.t_s);
        let (t1, c1) = seen.core[after];
        let (t0, c0) = seen.core[after.saturating_sub(1)];
        let core_c = if t1 > t0 { c0 + (c1 - c0) * (sample.t_s - t0) / (t1 - t0) } else { c1 };
        if core_c < sample.core_low_c - OFF_K || core_c > sample.core_high_c + OFF_K {
            return Some(format!(
                "core {core_c:.2} °C at {:.0} s (usual phase {}), promised {:.2} to {:.2} °C, usual {:.2} °C",
                sample.t_s, sample.phase.0, sample.core_low_c, sample.core_high_c, sample.core_c
            ));
        }
    }
    None
}

#[test]
fn every_draw_stays_inside() {
    let asked = std::env::var("DWELL_DRAWS").ok().and_then(|draws| draws.parse().ok());
    let draws: usize = asked.unwrap_or(USUAL_DRAWS);
    let seed = std::env::var("DWELL_SEED").ok().and_then(|seed| seed.parse().ok());
    let mut dice = Dice(seed.unwrap_or(0x5EED_1234_ABCD));
    let (mut done, mut set_aside, mut phases, mut followed_phases) = (0, 0, 0, 0);
    let mut escapes = Vec::new();
    while done < draws {
        let mut written = Written::random(&mut dice);
        let mut predicted = curves(&written.text());
        if with_takes(&mut written, &predicted, &mut dice) {
            predicted = curves(&written.text());
        }
        phases += written.steps.len();
        followed_phases += followed(&predicted, &written);
        for _ in 0..DRAWS_OF_A_COOK {
            let drawn = written.drawn(&mut dice);
            let seen = witness(&written, &drawn, &predicted);
            done += 1;
            set_aside += usize::from(seen.set_aside);
            if let Some(what) = broken(&seen, &predicted) {
                escapes.push(format!("{what}\n{drawn:?}\n{}", written.text()));
            }
        }
    }
    println!(
        "{done} draws, {set_aside} set aside, {} escaped; {followed_phases} of {phases} phases",
        escapes.len()
    );
    assert!(
        escapes.is_empty(),
        "{} of {done} escaped, such as\n{}",
        escapes.len(),
        escapes[..escapes.len().min(4)].join("\n")
    );
    assert!(2 * followed_phases > phases && 2 * set_aside < done, "the draws say little");
}

/// Nobody says when a kit is turned while the food is elsewhere: at any moment until it is back.
#[test]
fn a_bath_may_be_turned_at_any_moment_until_the_food_is_back() {
    let mut dice = Dice(0xBA7A);
    let stays = [End::For(1200.0, 1200.0), End::Takes(300.0, 1500.0)];
    for (first_c, then_c) in [(52.0, 80.0), (80.0, 52.0)] {
        for stands in stays {
            let written = Written::back_to_a_bath(first_c, then_c, stands);
            let predicted = curves(&written.text());
            for _ in 0..40 {
                let drawn = written.drawn(&mut dice);
                let seen = witness(&written, &drawn, &predicted);
                assert_eq!(broken(&seen, &predicted), None, "{drawn:?}\n{}", written.text());
            }
        }
    }
}

/// The witness alone: a slab between two sudden baths against the first terms of the exact series.
#[test]
fn the_witness_solves_the_equation() {
    let (half_m, film) = (0.03, 1e5);
    let around = witness::Around {
        from_c: 60.0,
        medium_c: 60.0,
        rate_k_s: f64::INFINITY,
        film_w_m2k: film,
        emissivity: 0.0,
        wetness: 0.0,
        humidity: 0.0,
    };
    let mut body = Body::new(half_m, 0.0, 0.0);
    body.stay(&around, 3600.0, |_| false, |_, _| {});
    let fourier = CONDUCTIVITY_W_MK * 3600.0 / (DENSITY_KG_M3 * SPECIFIC_HEAT_J_KGK * half_m * half_m);
    let pi = std::f64::consts::PI;
    let term = |n: i32| {
        let odd = f64::from(2 * n + 1);
        f64::from(1 - 2 * (n % 2)) * 4.0 / (pi * odd) * (-0.25 * pi * pi * odd * odd * fourier).exp()
    };
    let exact_c = 60.0 * (1.0 - (0..6).map(term).sum::<f64>());
    assert!((body.core_c() - exact_c).abs() < 0.05, "{} against {exact_c}", body.core_c());
}
