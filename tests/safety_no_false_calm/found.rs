//! What the drawing of cooks has found, each in the smallest cook that shows it.

use dwell::compile::Compiled;
use dwell::findings::{Finding, Severity};
use dwell::quantity::Scale;
use dwell::safety::Verdict;

use super::{compiled, said};

fn of<'c>(compiled: &'c Compiled, code: &str) -> Vec<&'c Finding> {
    compiled.findings.iter().filter(|finding| finding.code.name() == code).collect()
}

fn severities(text: &str, code: &str) -> Vec<Severity> {
    of(&compiled(text), code).iter().map(|finding| finding.severity).collect()
}

/// FSIS Revised Appendix A, 2021: 6 h between 10 and 54.4 °C. As it usually goes it is out of the bath before that, and
/// not through; a slow one has had more than 6 h of it by then.
#[test]
fn a_way_up_that_usually_ends_too_soon_to_tell_is_in_doubt_where_the_slow_one_is_too_slow() {
    let text = "cook \"Chuck\"\n  rules us-fsis\nkit bath is water bath\nkit probe is probe thermometer\n\
                food joint is beef chuck\n  1 piece of 3403 g\n  thickness 94 mm\n  injected\n  starts at 4 °C\n\
                phase warm is cook\n  joint in bath\n  water 50 °C ± 1 °C\n  bagged\n  until core 48 °C\n\
                serve joint\n  at 19:00\n";
    let found = compiled(text);
    let [finding] = of(&found, "come-up-too-slow")[..] else { panic!("{}", said(&found)) };
    assert_eq!(finding.severity, Severity::Warning);
    let message = finding.message.render(Scale::Celsius);
    assert!(message.starts_with("At the cold end of what is predicted, "), "{message}");
    assert!(!message.contains("it is enough"), "{message}");
}

/// What comes after is not predicted, since it never ends; the way up was too slow before.
#[test]
fn a_way_up_is_judged_as_far_as_it_is_predicted() {
    let text = "cook \"Chuck\"\n  rules us-fsis\nkit oven is oven\nkit cabinet is holding cabinet\n\
                kit probe is probe thermometer\n\
                food joint is beef chuck\n  6 kg\n  thickness 17 cm\n  injected\n  starts at 4 °C\n\
                phase warm is cook\n  joint in oven\n  air 80 °C\n  uncovered\n  until core 60 °C\n\
                phase finish is cook\n  joint in cabinet\n  air 67 °C\n  until core 66 °C\n\
                serve joint\n  at 19:00\n";
    assert_eq!(severities(text, "come-up-too-slow"), [Severity::Error], "{}", said(&compiled(text)));
}

/// Five hours in ice are no five hours of cooling: it is cold in one.
#[test]
fn food_that_stays_in_the_cold_for_long_was_cold_in_time() {
    let text = "cook \"Brisket\"\n  rules fr\nkit bath is water bath\nkit ice is ice bath\nkit fridge is fridge\n\
                kit probe is probe thermometer\n\
                food joint is beef brisket\n  700 g\n  thickness 4 cm\n  starts at 2 °C\n\
                phase heat is cook\n  joint in bath\n  water 79 °C\n  bagged\n  until core 71 °C\n\
                phase ice is cool\n  joint in ice\n  for 5 h\n\
                phase more is cool\n  joint in ice\n  until core 10 °C\n\
                phase keep is cold hold\n  joint in fridge\n  air 1 °C\n  for 1 day\nserve joint\n  at 19:00\n";
    assert_eq!(severities(text, "cool-too-slow"), [], "{}", said(&compiled(text)));
    // What the file lets pass is another matter.
    let slow = text.replace("for 5 h", "until core 10 °C, within 5 h");
    assert_eq!(severities(&slow, "cool-too-slow"), [Severity::Error], "{}", said(&compiled(&slow)));
}

/// What the cook may choose counts at the end that is worse, here and in what comes after.
fn at_worst(text: impl Fn(&str) -> String, good: &str, choice: &str, bad: &str, code: &str) {
    assert_eq!(severities(&text(good), code), [], "{}", said(&compiled(&text(good))));
    assert_eq!(severities(&text(bad), code), [Severity::Error], "{}", said(&compiled(&text(bad))));
    let found = compiled(&text(choice));
    let [finding] = of(&found, code)[..] else { panic!("{}", said(&found)) };
    assert_eq!(finding.severity, Severity::Error, "{}", said(&found));
    let message = finding.message.render(Scale::Celsius);
    assert!(message.ends_with("as the file leaves the choice."), "{message}");
    let rule = &finding.rule.as_ref().expect("a rule").id;
    let rows: Vec<_> = found.cooks()[0]
        .judged
        .iter()
        .filter(|row| row.rule == *rule && row.phase == finding.phase)
        .map(|row| row.verdict)
        .collect();
    assert_eq!(rows, [Verdict::Broken]);
}

/// FDA Food Code 2022, 3-501.16: 57 °C.
#[test]
fn a_rest_that_may_be_long_lets_food_into_a_hold_cold() {
    let text = |rest: &str| {
        format!(
            "cook \"Loin\"\n  rules us-food-code\nkit oven is oven\nkit bench is bench\n\
             kit cabinet is holding cabinet\nkit probe is probe thermometer\n\
             food joint is pork loin\n  2 kg\n  thickness 9 cm\n  starts at 4 °C\n\
             phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 71 °C\n\
             phase rest\n  joint on bench\n  for {rest}\n\
             phase wait is hot hold\n  joint in cabinet\n  air 78 °C\n  sealed in foil\n  for 30 min\n\
             serve joint\n  at 19:00\n"
        )
    };
    at_worst(text, "10 min", "10 min to 150 min", "150 min", "hold-entered-cold");
}

/// FDA Food Code 2022, 3-501.14: 57 to 21 °C in 2 h, to 5 °C in 6 h.
#[test]
fn a_chill_that_may_be_short_leaves_the_rest_to_the_fridge() {
    let text = |chill: &str| {
        format!(
            "cook \"Leg\"\n  rules us-food-code\nkit oven is oven\nkit chiller is blast chiller\n\
             kit fridge is fridge\nkit probe is probe thermometer\n\
             food joint is lamb leg\n  900 g\n  thickness 5 cm\n  starts at 3 °C\n\
             phase roast is cook\n  joint in oven\n  air 160 °C\n  until core 80 °C\n\
             phase chill is cool\n  joint in chiller\n  air -16 °C\n  uncovered\n  for {chill}\n\
             phase keep is cold hold\n  joint in fridge\n  air 1 °C\n  uncovered\n  for 1 day\n\
             serve joint\n  at 19:00\n"
        )
    };
    at_worst(text, "3 h", "20 min to 3 h", "20 min", "cool-too-slow");
}
