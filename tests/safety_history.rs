//! What the judge of a history says beside its verdict: figures, margins, moments, and what may be relied on.

use dwell::quantity::{Duration, Temperature};
use dwell::safety::Verdict;
use dwell::safety::history::{Figure, Food, History, Margin, Outcome, judge, overall};
use dwell::tables::{Aim, Demand, FoodState, RuleSet, RuleSets, Species};
use proptest::prelude::*;

fn history(readings: &[(f64, f64)]) -> History {
    let readings = readings.iter().map(|(m, c)| (Duration::from_minutes(*m), Temperature::from_celsius(*c)));
    History::new(readings.collect()).expect("a history")
}

fn set(id: &str) -> &'static RuleSet {
    RuleSets::built_in().find(id).expect("a set")
}

fn outcome<'o, 'r>(outcomes: &'o [Outcome<'r>], id: &str) -> &'o Outcome<'r> {
    outcomes.iter().find(|outcome| outcome.rule.id == id).expect("an outcome")
}

/// Reached, required and margin in minutes or °C, and the moment in minutes.
fn figures(outcome: &Outcome) -> [f64; 4] {
    let measured = outcome.measured.expect("figures");
    let plain = |figure| match figure {
        Figure::Temperature(t) => t.celsius(),
        Figure::Time(t) => t.minutes(),
    };
    let margin = match measured.margin {
        Margin::Temperature(t) => t.kelvin(),
        Margin::Time(t) => t.minutes(),
    };
    [plain(measured.reached), plain(measured.required), margin, outcome.moment.expect("a moment").minutes()]
}

fn near(found: [f64; 4], expected: [f64; 4]) {
    let off = found.iter().zip(expected).any(|(a, b)| (a - b).abs() > 1e-4);
    assert!(!off, "{found:?} instead of {expected:?}");
}

const BEEF: (Species, FoodState) = (Species::Beef, FoodState::Intact);
const LEFTOVER: (Species, FoodState) = (Species::Beef, FoodState::Cooked);

fn food((species, state): (Species, FoodState)) -> Food {
    Food::new(species, state)
}

#[test]
fn figures_margins_and_moments_are_exact() {
    // 70 °C falls to 50 °C in 100 min: below 57 °C after 65 min.
    let dip = history(&[(0.0, 70.0), (100.0, 50.0)]);
    let held = judge(&dip, &food(LEFTOVER), Aim::HotHold, set("us-food-code"));
    near(figures(outcome(&held, "us-fc.hold.hot")), [50.0, 57.0, -7.0, 65.0]);

    // 60 °C to 21 °C in 130 min: ten too many, and broken at the 120th.
    let slow = history(&[(0.0, 60.0), (130.0, 21.0), (200.0, 5.0)]);
    let cooled = judge(&slow, &food(LEFTOVER), Aim::Cool, set("au-nz"));
    near(figures(outcome(&cooled, "au.cool.1")), [130.0, 120.0, -10.0, 120.0]);
    near(figures(outcome(&cooled, "au.cool.2")), [70.0, 240.0, 170.0, 200.0]);

    // The row of 56.1 °C is reached after 60 min and done 56 min later, before any other row.
    let roast = history(&[(0.0, 4.0), (60.0, 50.0), (60.0, 56.1), (120.0, 56.1)]);
    let cooked = judge(&roast, &food(BEEF), Aim::Cook, set("us-food-code"));
    let roast = outcome(&cooked, "us-fc.roast");
    assert_eq!(roast.row.as_deref(), Some("us-fc.roast.133"));
    near(figures(roast), [60.0, 56.0, 4.0, 116.0]);

    // 5 °C to 65 °C in 600 min is 44.4 °C in 444 min between the two edges of the come-up: passed 6 h at 50 + 360.
    let joint = history(&[(0.0, 5.0), (600.0, 65.0), (620.0, 65.0)]);
    let came_up = judge(&joint, &food(BEEF), Aim::ComeUp, set("us-fsis"));
    near(figures(outcome(&came_up, "us-fsis.comeup")), [444.0, 360.0, -84.0, 410.0]);
}

/// A closed form and its worked examples: computed apart with the same line (D 1.846 min at 60 °C, z 5.56 °C) and
/// nothing counted below 54.4 °C. 50 to 65 °C in 60 min is 40.9777 log, so 75.6448 min at 60 °C; 45 min at 57 °C are
/// 12.991.
#[test]
fn heat_adds_up_along_a_ramp() {
    let reached = |readings: &[(f64, f64)]| {
        let outcomes = judge(&history(readings), &food(BEEF), Aim::Cook, set("us-fsis"));
        figures(outcome(&outcomes, "us-fsis.heat.meat"))
    };
    let [ramp, _, _, moment] = reached(&[(0.0, 50.0), (60.0, 65.0)]);
    assert!((ramp - 40.9777 * 1.846).abs() < 0.01, "{ramp}");
    // Minute by minute, which is coarse.
    let rate = |t: f64| 10f64.powf((t - 60.0) / 5.56);
    let mut sum = 0.0;
    let crude = (0..6000).find(|step| {
        let t = 50.0 + 15.0 * (f64::from(*step) + 0.5) / 6000.0;
        sum += if t >= 54.4 { 0.01 * rate(t) } else { 0.0 };
        sum >= 12.0
    });
    assert!((moment - f64::from(crude.unwrap()) * 0.01).abs() < 0.05, "{moment}");
    let [hold, ..] = reached(&[(0.0, 57.0), (45.0, 57.0)]);
    assert!((hold - 12.991).abs() < 0.001, "{hold}");
}

#[test]
fn what_is_not_shown_is_not_judged() {
    let verdict = |readings: &[(f64, f64)], aim, set_id: &str, rule: &str| {
        let outcomes = judge(&history(readings), &food(LEFTOVER), aim, set(set_id));
        outcome(&outcomes, rule).verdict
    };
    // The history ends in time and not yet cold; as late as the limit it is broken all the same.
    let total = "us-fc.cool.total";
    assert_eq!(verdict(&[(0.0, 57.0), (300.0, 9.0)], Aim::Cool, "us-food-code", total), Verdict::NotJudged);
    assert_eq!(verdict(&[(0.0, 57.0), (360.0, 9.0)], Aim::Cool, "us-food-code", total), Verdict::Broken);
    // It never gets to where the clock starts.
    assert_eq!(verdict(&[(0.0, 80.0), (300.0, 70.0)], Aim::Cool, "us-food-code", total), Verdict::NotJudged);
    // A come-up that ends on the way up.
    let come_up = |readings: &[(f64, f64)]| {
        let outcomes = judge(&history(readings), &food(BEEF), Aim::ComeUp, set("us-fsis"));
        outcome(&outcomes, "us-fsis.comeup").verdict
    };
    assert_eq!(come_up(&[(0.0, 5.0), (120.0, 40.0)]), Verdict::NotJudged);
    assert_eq!(come_up(&[(0.0, 5.0), (120.0, 60.0)]), Verdict::Met);
    // The outside of a steak, from its core.
    let steak = judge(&history(&[(0.0, 5.0), (20.0, 50.0)]), &food(BEEF), Aim::Cook, set("us-food-code"));
    assert_eq!(outcome(&steak, "us-fc.cook.steak").verdict, Verdict::NotJudged);
    // A food for which the set has no figure.
    let fish = judge(
        &history(&[(0.0, 5.0), (20.0, 70.0)]),
        &food((Species::Fish, FoodState::Intact)),
        Aim::Cook,
        set("uk"),
    );
    assert!(fish.is_empty());
    assert_eq!(overall(&fish), Verdict::NotJudged);
}

/// A set of nobody, as a file: another count, another start, another way, and no code.
const OWN: &str = r#"
id = "own"
title = "Own"
edition = "1"
place = "A test"
source = "Own"

[[rule]]
id = "cook.sure"
kind = "cook"
clause = "1"
asks = "Cooked."
status = "verified"
points = [{ c = 80.0, hold_s = 0 }]

[[rule]]
id = "cook.if"
kind = "cook"
clause = "1"
asks = "Cooked, on a condition."
status = "verified"
condition = "only on Sundays"
points = [{ c = 70.0, hold_s = 0 }]

[[rule]]
id = "hot"
kind = "hot-hold"
clause = "2"
asks = "Kept hot."
status = "memory"
min = { c = 60.0 }

[[rule]]
id = "cool.from.the.start"
kind = "cool"
clause = "3"
asks = "Cold within 3 h of the end of the heat."
status = "verified"
to = { c = 8.0 }
max_s = 10800

[[rule]]
id = "water"
kind = "listed"
clause = "4"
asks = "Never above 12 °C while it thaws, and above 4 °C for 1 h at most, every time added up."
status = "verified"
purposes = ["thaw"]
needs = "a probe"
aims = ["thaw"]
on_curve = { asks = "between", max_s = 3600, band = { above = { c = 4.0 }, count = "total", ceiling = { c = 12.0 } } }
"#;

#[test]
fn a_further_set_is_a_file() {
    let own: RuleSet = toml::from_str(OWN).expect("a rule set");
    let together =
        |readings: &[(f64, f64)], aim| overall(&judge(&history(readings), &food(LEFTOVER), aim, &own));
    // Nothing rests on a condition alone.
    assert_eq!(together(&[(0.0, 5.0), (60.0, 80.0)], Aim::Cook), Verdict::Met);
    assert_eq!(together(&[(0.0, 5.0), (60.0, 79.9)], Aim::Cook), Verdict::NotJudged);
    assert_eq!(together(&[(0.0, 5.0), (60.0, 69.9)], Aim::Cook), Verdict::Broken);
    // From the start of the history, whatever the temperature there.
    assert_eq!(together(&[(0.0, 90.0), (60.0, 60.0), (180.0, 8.0)], Aim::Cool), Verdict::Met);
    assert_eq!(together(&[(0.0, 90.0), (60.0, 60.0), (181.0, 8.0)], Aim::Cool), Verdict::Broken);
    assert_eq!(together(&[(0.0, -5.0), (60.0, 4.0), (120.0, 9.0)], Aim::Thaw), Verdict::Met);
    assert_eq!(together(&[(0.0, -5.0), (60.0, 4.0), (121.0, 9.0)], Aim::Thaw), Verdict::Broken);
    assert_eq!(together(&[(0.0, -5.0), (60.0, 4.0), (80.0, 12.1)], Aim::Thaw), Verdict::Broken);
}

#[test]
fn a_figure_from_memory_neither_passes_nor_refuses() {
    let own: RuleSet = toml::from_str(OWN).expect("a rule set");
    for level in [59.0, 61.0] {
        let held = judge(&history(&[(0.0, level), (60.0, level)]), &food(LEFTOVER), Aim::HotHold, &own);
        assert_ne!(held[0].verdict, Verdict::NotJudged, "its own verdict is said, with its status");
        assert!(!held[0].may_be_an_error());
        assert_eq!(overall(&held), Verdict::NotJudged);
    }
    // Advice is no error either; law is.
    let cold = history(&[(0.0, 50.0), (60.0, 50.0)]);
    let held =
        |id: &str| judge(&cold, &food(LEFTOVER), Aim::HotHold, set(id)).iter().any(Outcome::may_be_an_error);
    assert!(!held("us-fsis-home") && held("us-food-code"));
}

/// Revised Appendix A of 2021: for other birds, and for mixtures, the longer of the times for chicken and turkey.
#[test]
fn the_chart_for_any_bird_is_the_longer_of_the_two() {
    let chart = |id: &str| match &set("us-fsis").rule(id).expect("a chart").demand {
        Demand::Cook { points, .. } => points,
        other => panic!("{other:?}"),
    };
    let (chicken, turkey, any) =
        (chart("us-fsis.chicken"), chart("us-fsis.turkey"), chart("us-fsis.poultry"));
    assert_eq!((chicken.len(), turkey.len(), any.len()), (30, 30, 30));
    for ((one, other), both) in chicken.iter().zip(turkey).zip(any) {
        assert!(
            one.f == both.f && other.f == both.f && one.by_fat_s.len() == 12 && other.by_fat_s.len() == 12
        );
        let longer: Vec<f64> = one.by_fat_s.iter().zip(&other.by_fat_s).map(|(a, b)| a.max(*b)).collect();
        assert_eq!(both.by_fat_s, longer);
        for point in [one, other, both] {
            let longest = point.by_fat_s.iter().copied().fold(0.0, f64::max);
            assert_eq!(point.hold_s, longest, "where the fat is not known: {:?}", point.id);
        }
    }
}

proptest! {
    /// More heat never undoes a cook, and never a hot hold; less never a cold hold.
    #[test]
    fn a_warmer_history_is_at_least_as_cooked(
        readings in prop::collection::vec((1.0..200.0f64, 0.0..90.0f64), 1..8),
        more in 0.0..10.0f64,
    ) {
        let mut at = 0.0;
        let readings: Vec<(f64, f64)> = readings.into_iter().map(|(m, c)| { at += m; (at, c) }).collect();
        let warmer: Vec<(f64, f64)> = readings.iter().map(|(m, c)| (*m, c + more)).collect();
        for (id, meat) in [("us-food-code", BEEF), ("us-fsis", (Species::Poultry, FoodState::Ground)), ("uk", BEEF), ("eu-ie", BEEF)] {
            let judged = |readings: &[(f64, f64)], aim| -> Vec<(String, Verdict)> {
                let outcomes = judge(&history(readings), &food(meat), aim, set(id));
                let plain = |outcome: &&Outcome| !matches!(outcome.rule.demand, Demand::TimeAlone { .. }) && !outcome.rule.besides;
                outcomes.iter().filter(plain).map(|outcome| (outcome.rule.id.clone(), outcome.verdict)).collect()
            };
            for aim in [Aim::Cook, Aim::HotHold] {
                for (before, after) in judged(&readings, aim).into_iter().zip(judged(&warmer, aim)) {
                    prop_assert!(before.1 != Verdict::Met || after.1 == Verdict::Met, "{id} {before:?} {after:?}");
                }
            }
            for (before, after) in judged(&warmer, Aim::ColdHold).into_iter().zip(judged(&readings, Aim::ColdHold)) {
                prop_assert!(before.1 != Verdict::Met || after.1 == Verdict::Met, "{id} {before:?} {after:?}");
            }
        }
    }
}
