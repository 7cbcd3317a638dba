//! Food that waits to be placed or used is on the clock: beside its parent, or in the room.

mod common;

use common::judge::{NONE, codes, judged, run, verdict};
use dwell::safety::Verdict;

const ROAST: &str = "phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 71 °C, takes 1 h to 2 h\n  collect 100 ml of juices\n";
const SERVE: &str = "serve joint\n  at Saturday 19:00\n";

/// Juices stand beside the joint while it goes through this phase, and are cooked on to it after.
fn beside(stands: &str) -> String {
    let glaze = "phase glaze is cook\n  joint in oven\n  air 200 °C\n  use all juices\n  until core 75 °C, takes 10 min to 15 min\n";
    run("pork loin", &format!("{ROAST}{stands}{glaze}{SERVE}"))
}

fn stand(time: &str) -> String {
    format!("phase stand is rest\n  joint on bench\n  for {time}\n")
}

/// `food severity text` of each finding.
fn told(text: &str) -> Vec<String> {
    let (sources, verdicts) = judged(text);
    let told = verdicts.findings.iter();
    told.map(|f| {
        let food = f.food.as_deref().unwrap_or("-");
        format!("{food} {} {}", f.severity.name(), sources.slice(f.span))
    })
    .collect()
}

fn about(text: &str, rule: &str, phase: &str, food: &str) -> Vec<Verdict> {
    let (_, verdicts) = judged(text);
    let all = verdicts.judged.iter().filter(|j| j.rule == rule && j.phase.as_deref() == Some(phase));
    all.filter(|j| j.food.as_deref() == Some(food)).map(|j| j.verdict).collect()
}

#[test]
fn juices_that_stand_beside_the_joint_are_told_apart_from_it() {
    // FDA Food Code 2022, 3-501.19: 4 h in all.
    assert_eq!(
        told(&beside(&stand("9 h"))),
        ["joint error for 9 h", "juices error collect 100 ml of juices"]
    );
    assert_eq!(codes(&beside(&stand("4 h"))), NONE);
    assert_eq!(about(&beside(&stand("4 h")), "us-fc.tphc.4h", "stand", "juices"), [Verdict::Met]);
    // Two short waits are one long one.
    let twice = format!("{}{}", stand("3 h"), stand("3 h").replace("phase stand", "phase linger"));
    assert!(told(&beside(&twice)).contains(&"juices error collect 100 ml of juices".to_string()));
    // A new name of the joint does not end it.
    let carved = "phase carve is prep\n  joint on bench\n  becomes slices\n  for 5 h\n";
    let carved = beside(carved).replace("joint in oven\n  air 200", "slices in oven\n  air 200");
    let carved = carved.replace("serve joint", "serve slices");
    assert!(
        told(&carved).contains(&"juices error collect 100 ml of juices".to_string()),
        "{:?}",
        told(&carved)
    );
}

#[test]
fn juices_beside_a_joint_that_is_held_are_held() {
    let hold = |place: &str| beside(&format!("phase keep is {place}\n  for 9 h\n"));
    let hot = hold("hot hold\n  joint in oven\n  air 70 °C");
    assert_eq!(codes(&hot), NONE);
    assert!(about(&hot, "us-fc.hold.hot", "keep", "juices").contains(&Verdict::Met));
    // FDA Food Code 2022, 3-501.16: 57 °C or above, 5 °C or below.
    let cool = hold("hot hold\n  joint in oven\n  air 48 °C");
    assert_eq!(about(&cool, "us-fc.hold.hot", "keep", "juices"), [Verdict::Broken]);
    let cold = format!(
        "phase ice-up is cool\n  joint in ice\n  until core 4 °C, takes 1 h to 2 h, within 2 h\n{}",
        "phase keep is cold hold\n  joint in fridge\n  for 9 h\n"
    );
    assert_eq!(codes(&beside(&cold)), NONE);
    let warm = beside(&cold).replace("  air 3 °C", "  air 12 °C");
    assert_eq!(about(&warm, "us-fc.hold.cold", "keep", "juices"), [Verdict::Broken]);
    // Days count for them too: 3-501.17.
    let days = beside(&cold).replace("for 9 h", "for 8 days");
    assert_eq!(about(&days, "us-fc.date.7d", "keep", "juices"), [Verdict::Broken]);
    assert_eq!(about(&beside(&cold), "us-fc.date.7d", "keep", "juices"), [Verdict::Met]);
}

#[test]
fn juices_that_may_be_taken_up_sooner_are_a_warning() {
    let text = run(
        "pork loin",
        &format!(
            "{ROAST}{}phase thicken is cook\n  juices on hob\n  until core 90 °C, takes 10 min to 15 min\n\
             phase dress is prep\n  joint on bench\n  use all juices\n  takes 5 min to 10 min\n{SERVE}",
            stand("5 h")
        ),
    );
    // Nothing says that the joint has stood its time before the juices go on the hob.
    assert_eq!(told(&text), ["joint error for 5 h", "juices warning collect 100 ml of juices"]);
    // And how long the sauce waits after that is for the plan to say.
    assert_eq!(about(&text, "us-fc.tphc.4h", "dress", "juices"), [Verdict::NotJudged]);
}

/// Rice stands beside a joint, which is then roasted and filled with it.
fn filled(rice: &str, takes: &str) -> String {
    run(
        "pork loin",
        &format!(
            "food filling is {rice}\n  1 kg\n  depth 4 cm\n  starts at 4 °C\n\
             phase gather is prep\n  joint and filling on bench\n  for 10 min\n\
             phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 71 °C, takes {takes}\n\
             phase fill is prep\n  joint on bench\n  use all filling\n  for 10 min\n{SERVE}"
        ),
    )
}

#[test]
fn other_food_waits_in_the_room() {
    assert_eq!(told(&filled("cooked rice", "5 h to 6 h")), ["filling error all filling"]);
    assert_eq!(codes(&filled("cooked rice", "1 h to 2 h")), NONE);
    assert_eq!(
        about(&filled("cooked rice", "1 h to 2 h"), "us-fc.tphc.4h", "fill", "filling"),
        [Verdict::Met]
    );
    // It may be too long, if nature is slow.
    assert_eq!(told(&filled("cooked rice", "3 h to 5 h")), ["filling warning all filling"]);
    assert_eq!(codes(&filled("white bread", "5 h to 6 h")), NONE, "it keeps in a cupboard");
    assert_eq!(verdict(&filled("white bread", "5 h to 6 h"), "us-fc.tphc.4h", "gather"), [Verdict::Met]);
}
