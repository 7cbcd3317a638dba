//! Cooks that a checker of settings and end points gets wrong, each as a whole cook with its predicted curves.

mod common;

use dwell::compile::{Compiled, Options, compile};
use dwell::findings::{Finding, Severity};
use dwell::quantity::Scale;
use dwell::safety::{Judged, Verdict};

fn compiled(text: &str) -> Compiled {
    let options = Options { outline: true, ..Options::default() };
    let compiled = compile(&common::Memory(&[]), "test.dwell".into(), text.into(), &options);
    assert!(compiled.understood(), "{:#?}\n{text}", said(&compiled));
    compiled
}

fn by(rules: &str, text: &str) -> Compiled {
    compiled(&text.replace("rules RULES", &format!("rules {rules}")))
}

fn said(compiled: &Compiled) -> Vec<String> {
    let one = |f: &Finding| {
        format!("{} {}: {}", f.code.name(), f.severity.name(), f.message.render(Scale::Celsius))
    };
    compiled.findings.iter().map(one).collect()
}

/// `code severity` of each error and warning.
fn faults(compiled: &Compiled) -> Vec<String> {
    let grave = compiled.findings.iter().filter(|finding| finding.severity != Severity::Note);
    grave.map(|finding| format!("{} {}", finding.code.name(), finding.severity.name())).collect()
}

fn rows(compiled: &Compiled, rule: &str) -> Vec<Judged> {
    let cooks = compiled.cooks();
    cooks.iter().flat_map(|cook| cook.judged).filter(|judged| judged.rule == rule).cloned().collect()
}

fn verdicts(compiled: &Compiled, rule: &str) -> Vec<Verdict> {
    rows(compiled, rule).iter().map(|judged| judged.verdict).collect()
}

const NONE: [&str; 0] = [];

/// The only finding with this code.
#[track_caller]
fn one<'c>(compiled: &'c Compiled, code: &str) -> &'c Finding {
    let of: Vec<&Finding> = compiled.findings.iter().filter(|finding| finding.code.name() == code).collect();
    let [finding] = of[..] else { panic!("{code} in {:#?}", said(compiled)) };
    finding
}

fn message(finding: &Finding) -> String {
    finding.message.render(Scale::Celsius)
}

/// FDA Food Code 2022, 3-501.14: 2 h to 21 °C and 6 h in all. Food Standards Code, Standard 3.2.2, clause 7(3), and the
/// Canadian code: 2 h, and then 4 h more. Where the first step is quick, the second has more time by the one than by the
/// other, and a limit on the whole does not show it.
#[test]
fn half_an_hour_and_then_five_and_a_quarter_passes_one_code_and_fails_another() {
    let text = "cook \"Soup in two steps\"\n  serves 20\n  rules RULES\nkit hob is hob\nkit chiller is blast chiller\n  air -15 °C\n\
        kit fridge is fridge\n  air 3 °C ± 1 °C\nkit probe is probe thermometer\n\
        food stew is meat stew\n  5 kg, depth 2 cm ± 1 mm\n  starts at 3 °C\n\
        phase simmer is cook\n  stew on hob\n  liquid 95 °C\n  until core 75 °C, takes 20 min to 40 min\n\
        phase quick is cool\n  stew in chiller\n  sealed in foil\n  until core 21 °C\n\
        phase slow is cool\n  stew in fridge\n  depth 3.2 cm ± 1 mm\n  until core 4 °C\n\
        serve stew\n  at Saturday 12:00, up to 3 h late\n";
    let food_code = by("us-food-code", text);
    assert_eq!(verdicts(&food_code, "us-fc.cool.stage1"), [Verdict::Met]);
    // 24 min and 5 h 22 min; only the warm end of the prediction is too long.
    let doubt = one(&food_code, "cool-too-slow");
    assert_eq!(doubt.severity, Severity::Warning);
    assert!(message(doubt).ends_with("Only that end of the prediction falls short."), "{}", message(doubt));
    for (rules, first, second) in [("au-nz", "au.cool.1", "au.cool.2"), ("ca", "ca.cool.1", "ca.cool.2")] {
        let found = by(rules, text);
        assert_eq!(verdicts(&found, first), [Verdict::Met], "{rules}");
        assert_eq!(verdicts(&found, second), [Verdict::Broken], "{rules}");
        assert_eq!(one(&found, "cool-too-slow").severity, Severity::Error, "{rules}");
    }
    assert!(
        message(one(&by("au-nz", text), "cool-too-slow")).contains("takes 5 h 22 min from 21 °C to 5 °C")
    );
}

/// One piece in a bath, and then eaten.
fn bath(food: &str, water: &str, time: &str) -> String {
    format!(
        "cook \"From the bath\"\n  serves 20\n  rules RULES\nkit bath is water bath\nkit bench is bench\n\
         food joint is {food}\n  starts at 4 °C\ningredient bags is 1 vacuum bag\n\
         phase bag-up is prep\n  joint on bench\n  use all bags\n  vacuum bagged\n  takes 5 min to 10 min, hands-on\n\
         phase bath is cook\n  joint in bath\n  water {water}\n  for {time}\nserve joint\n  at Saturday 18:30, up to 20 min late\n"
    )
}

/// FDA Food Code 2022, 3-401.11(B)(1): 54.4 °C (130 °F) for 112 min is for whole, untouched roasts; of injected meat it
/// asks 68 °C (155 °F) for 17 s or its chart from 63 °C on (3-401.11(A)(2)). FSIS has one table for both (December 2021).
#[test]
fn an_injected_roast_on_the_table_for_whole_ones() {
    let roast = |clause: &str| bath(&format!("pork loin\n  2 kg\n{clause}  thickness 7 cm"), "57 °C", "24 h");
    assert_eq!(faults(&by("us-food-code", &roast(""))), NONE);
    assert_eq!(verdicts(&by("us-food-code", &roast("")), "us-fc.roast"), [Verdict::Met]);
    let shop = by("us-food-code", &roast("  injected\n"));
    assert_eq!(faults(&shop), ["cook-end-too-cool error"]);
    assert_eq!(verdicts(&shop, "us-fc.roast"), []);
    let plant = by("us-fsis", &roast("  injected\n"));
    assert_eq!(verdicts(&plant, "us-fsis.meat"), [Verdict::Met], "{:#?}", said(&plant));
    assert!(!faults(&plant).contains(&"cook-end-too-cool error".into()));
}

/// FSIS Cooking Guideline (Revised Appendix A), December 2021: 10 °C to 54.4 °C (50 °F to 130 °F) in no more than 6 h.
#[test]
fn a_thick_injected_joint_meets_every_end_point_and_comes_up_too_slowly() {
    let joint = |clause: &str, cm: u32| {
        bath(&format!("pork shoulder\n  9 kg\n{clause}  thickness {cm} cm"), "60 °C", "24 h")
    };
    let thick = by("us-fsis", &joint("  injected\n", 18));
    // 12 min at 60 °C or 112 min at 54.4 °C, after a day in the bath.
    assert_eq!(verdicts(&thick, "us-fsis.meat"), [Verdict::Met], "{:#?}", said(&thick));
    let finding = one(&thick, "come-up-too-slow");
    assert_eq!((finding.severity, finding.phase.as_deref()), (Severity::Error, Some("bath")));
    assert!(message(finding).starts_with("As predicted, "), "{}", message(finding));
    assert!(message(finding).contains("6 h are allowed"), "{}", message(finding));
    assert_eq!(verdicts(&thick, "us-fsis.comeup"), [Verdict::Broken]);
    // The guideline lets a whole, untouched piece be timed at its surface, which a bath heats in minutes.
    let whole = by("us-fsis", &joint("", 18));
    assert_eq!(one(&whole, "come-up-too-slow").severity, Severity::Warning);
    let thin = by("us-fsis", &joint("  injected\n", 5));
    assert_eq!(verdicts(&thin, "us-fsis.comeup"), [Verdict::Met], "{:#?}", said(&thin));
    assert!(faults(&thin).iter().all(|fault| !fault.starts_with("come-up")), "{:#?}", said(&thin));
}

/// 57 °C is too warm to keep food cold and, in UK law, too cool to keep it hot (63 °C, schedule 4). FDA Food Code 2022,
/// 3-401.11(B)(1): 56.7 °C (134 °F) for 45 min.
#[test]
fn a_bath_of_36_hours_at_57_degrees_is_a_cook_and_no_hold() {
    let rib = |time: &str| bath("beef short rib\n  2 kg\n  thickness 4.5 cm", "57 °C", time);
    let long = by("us-food-code", &rib("36 h"));
    assert_eq!(faults(&long), NONE, "{:#?}", said(&long));
    assert_eq!(verdicts(&long, "us-fc.roast"), [Verdict::Met]);
    for hold in ["us-fc.hold.hot", "us-fc.hold.hot.roast", "us-fc.hold.cold"] {
        assert_eq!(verdicts(&long, hold), [], "{hold}");
    }
    // As warm, and not for long enough: most of it goes on getting there.
    assert_eq!(faults(&by("us-food-code", &rib("90 min"))), ["cook-end-too-cool error"]);
}

/// FDA Food Code 2022, 3-501.16: 57 °C (135 °F) or above. The heap was cooked right, and the cabinet is set right.
#[test]
fn pulled_meat_in_a_thin_heap_goes_into_the_hold_too_cold() {
    let pulled = |depth: &str, wait: &str| {
        format!(
            "cook \"Pulled\"\n  serves 10\n  rules us-food-code\nkit oven is oven\nkit cabinet is holding cabinet\nkit bench is bench\n\
             kit probe is probe thermometer\nfood shoulder is pork shoulder\n  3 kg\n  thickness 11 cm\n  starts at 4 °C\n\
             phase roast is cook\n  shoulder in oven\n  air 150 °C\n  covered\n  until core 90 °C\n\
             phase pull is prep\n  shoulder on bench\n  becomes heap is pulled pork\n  2 trays of 1.5 kg, depth {depth}\n  for {wait}\n\
             phase keep is hot hold\n  heap in cabinet\n  covered\n  air 75 °C\n  for 1 h\nserve heap\n  at Saturday 18:30, up to 1 h late\n"
        )
    };
    let thin = compiled(&pulled("1.5 cm", "30 min"));
    let finding = one(&thin, "hold-entered-cold");
    assert_eq!((finding.severity, finding.phase.as_deref()), (Severity::Error, Some("keep")));
    assert!(
        message(finding).starts_with("As predicted, the core of `heap` is as cold as "),
        "{}",
        message(finding)
    );
    let thick = compiled(&pulled("8 cm", "10 min"));
    assert!(thick.findings.iter().all(|finding| finding.severity != Severity::Error), "{:#?}", said(&thick));
}

#[test]
fn raw_marinade_is_no_sauce() {
    let cook = |collect: &str, places: &str, serves: &str| {
        compiled(&format!(
            "cook \"Thighs\"\n  serves 8\n  rules us-food-code\nkit oven is oven\nkit fridge is fridge\n  air 2 °C\nkit probe is probe thermometer\n\
             food joint is chicken thigh\n  2 kg\n  thickness 3 cm\n  starts at 2 °C\nfood yog is yoghurt\n  300 ml\n  starts at 2 °C\n\
             phase soak is cold hold\n  joint in fridge\n  with 300 ml of yog\n  for 8 h to 12 h\n  {collect}\n\
             phase bake is cook\n  {places} in oven\n  air 180 °C\n  until core 76 °C, takes 35 min to 45 min\n\
             serve {serves}\n  at Saturday 19:00, up to 15 min late\n"
        ))
    };
    let warned = ["raw-into-cooked warning"];
    let named = "collect 200 ml of sauce is yoghurt";
    assert_eq!(faults(&cook(named, "joint", "joint and sauce")), warned);
    assert_eq!(faults(&cook("collect 200 ml of sauce", "joint", "joint and sauce")), warned);
    assert_eq!(faults(&cook(named, "joint and sauce", "joint and sauce")), NONE);
}

/// FDA Food Code 2022, 3-501.14: 57 °C to 21 °C within 2 h, to 5 °C within 6 h in all.
#[test]
fn chilli_chilled_30_cm_deep_and_6_cm_deep() {
    let chilli = |depth: &str, cool: &str| {
        compiled(&format!(
            "cook \"Chilli\"\n  serves 60\n  rules us-food-code\nkit oven is steam oven\nkit chiller is blast chiller\n  air -20 °C to 5 °C\n\
             kit fridge is fridge\n  air 2 °C\nkit probe is probe thermometer\n\
             food chilli is chilli con carne\n  20 kg\n  depth {depth}\n  starts at 2 °C\n\
             phase simmer is cook\n  chilli in oven\n  covered\n  air 110 °C, moisture 90 %\n  until core 85 °C\n\
             phase chill is cool\n  chilli in chiller\n  air -15 °C\n  {cool}\n\
             phase keep is cold hold\n  chilli in fridge\n  for 1 day\nserve chilli\n  at Saturday 12:00, up to 1 h late\n"
        ))
    };
    let deep = chilli("30 cm", "until core 5 °C");
    let finding = one(&deep, "cool-too-slow");
    assert_eq!((finding.severity, finding.phase.as_deref()), (Severity::Error, Some("chill")));
    assert!(message(finding).starts_with("As predicted, `chilli` takes "), "{}", message(finding));
    assert!(finding.remedy.render(Scale::Celsius).contains("half as deep"));
    // A time that is only written cools nothing.
    let hopeful = chilli("30 cm", "until core 5 °C, takes 4 h to 5 h, within 6 h");
    assert_eq!(one(&hopeful, "cool-too-slow").severity, Severity::Error, "{:#?}", said(&hopeful));
    let flat = chilli("6 cm", "until core 5 °C");
    assert!(faults(&flat).iter().all(|fault| fault != "cool-too-slow error"), "{:#?}", said(&flat));
    assert!(!verdicts(&flat, "us-fc.cool.total").contains(&Verdict::Broken));
}

/// Each keeps for a reason of its own, and needs no `allow`: nothing is wrong, and nothing is doubted.
#[track_caller]
fn right(text: &str) {
    assert!(!text.contains("allow"));
    let compiled = compiled(text);
    assert_eq!(faults(&compiled), NONE, "{:#?}", said(&compiled));
}

#[test]
fn yoghurt_is_right_for_its_own_reason() {
    right(
        "cook \"Yoghurt\"\n  serves 8\n  rules us-food-code\nkit hob is hob\nkit bath is water bath\nkit fridge is fridge\n  air 2 °C\n\
         kit probe is probe thermometer\nfood milk is milk\n  2 kg\n  starts at 4 °C\ningredient starter is 60 g live yoghurt\ningredient jars is 8 jars\n\
         phase scald is cook\n  milk on hob\n  until core 85 °C, takes 20 min to 30 min\n\
         phase down is cool\n  milk on hob\n  until core 43 °C, takes 30 min to 1 h\n\
         phase set is ferment\n  milk in bath\n  becomes yoghurt is yoghurt, depth 10 cm\n  use all starter, use all jars\n  sealed in jars\n  water 42 °C\n  until pH 4.6, takes 5 h to 8 h\n\
         phase keep is cold hold\n  yoghurt in fridge\n  for 1 day to 3 days\nserve yoghurt\n  at Saturday 10:00, up to 4 h late\n",
    );
}

#[test]
fn dough_is_right_for_its_own_reason() {
    right(
        "cook \"Bread\"\n  serves 8\n  rules us-food-code\nkit oven is oven\nkit bench is bench\nkit probe is probe thermometer\n\
         ingredient flour is 1 kg strong white flour\ningredient milk is 300 ml milk\ningredient eggs is 2 eggs\ningredient yeast is 10 g dried yeast\n\
         phase mix is prep\n  on bench\n  becomes dough is enriched dough, depth 8 cm\n  use all flour, use all milk, use all eggs, use all yeast\n  takes 15 min to 20 min, hands-on\n\
         phase prove is ferment\n  dough on bench\n  for 8 h to 12 h\n\
         phase bake is cook\n  dough in oven\n  becomes loaf is white bread\n  air 200 °C\n  until core 94 °C, takes 45 min to 60 min\n\
         phase stand is rest\n  loaf on bench\n  for 2 h to 12 h\nserve loaf\n  at Saturday 10:00, up to 1 h late\n",
    );
}

#[test]
fn cured_ham_is_right_for_its_own_reason() {
    right(
        "cook \"Ham\"\n  serves 12\n  rules us-food-code\nkit hob is hob\nkit fridge is fridge\n  air 2 °C\nkit probe is probe thermometer\n\
         food joint is pork leg\n  2 kg\n  thickness 9 cm\n  starts at 2 °C\ningredient pink is 20 g curing salt\n  nitrite 6.25 %\ningredient salt is 50 g salt\n\
         phase salt is cure\n  joint in fridge\n  use all pink, use all salt\n  for 5 days\n\
         phase simmer is cook\n  joint on hob\n  liquid 80 °C\n  until core 70 °C, takes 2 h 30 min to 4 h\n\
         phase cool is rest\n  joint on bench\n  for 30 min\nserve joint\n  at Saturday 19:00, up to 2 h late\n"
            .replace("kit hob is hob\n", "kit hob is hob\nkit bench is bench\n")
            .as_str(),
    );
}

/// 3-402.11 (from memory): frozen at -20 °C for 7 days first.
#[test]
fn cold_smoked_fish_is_right_for_its_own_reason() {
    let side = |freeze: &str, smoke: &str| {
        format!(
            "cook \"Smoked\"\n  serves 6\n  rules us-food-code\nkit freezer is freezer\nkit fridge is fridge\n  air 2 °C\n\
             kit cabinet is smoking cabinet\n  air 20 °C to 120 °C\n  vented\nkit probe is probe thermometer\n\
             food side is salmon\n  1 kg\n  thickness 3 cm\n  starts at 2 °C\ningredient beech is 200 g beech chips\ningredient salt is 100 g salt\n\
             {freeze}phase salt is cure\n  side in fridge\n  use all salt\n  for 1 day\n\
             phase smoke is cook\n  side in cabinet\n  smoke from beech\n  {smoke}\nserve side\n  at Saturday 19:00, up to 1 h late\n"
        )
    };
    let frozen = "phase ice-up is freeze\n  side in freezer\n  air -20 °C\n  for 8 days\nphase melt is thaw\n  side in fridge\n  for 1 day\n";
    right(&side(frozen, "air 25 °C, for 8 h"));
    assert_eq!(faults(&compiled(&side("", "air 25 °C, for 8 h"))), ["parasites-not-frozen warning"]);
    // Where the smoke is to cook, its end is judged.
    let hot = compiled(&side(frozen, "air 80 °C, until core 50 °C"));
    assert!(faults(&hot).contains(&"cook-end-too-cool error".into()), "{:#?}", said(&hot));
}

/// Food Standards Agency: only once; the Food Code does not say so (3-403.11).
#[test]
fn beef_that_is_reheated_twice() {
    let warm = |name: &str| {
        format!(
            "phase {name} is reheat\n  beef in oven\n  covered\n  air 130 °C, moisture 80 %\n  until core 84 °C, takes 20 min to 40 min\n"
        )
    };
    let chill = "phase ice-up is cool\n  beef in chiller\n  air -3 °C\n  until core 3 °C, takes 50 min to 1 h, within 90 min\n\
                 phase keep is cold hold\n  beef in fridge\n  for 5 h\n";
    let cook = |phases: &str| {
        format!(
            "cook \"Beef\"\n  serves 12\n  rules RULES\nkit oven is steam oven\nkit chiller is blast chiller\n  air -5 °C to 5 °C\n\
             kit fridge is fridge\n  air 2 °C\nkit probe is probe thermometer\nfood beef is braised beef\n  2.4 kg\n  thickness 2 cm\n  starts at 2 °C\n\
             {phases}serve beef\n  at Saturday 19:00, up to 1 h late\n"
        )
    };
    let twice = cook(&format!("{}{chill}{}", warm("lunch"), warm("supper")));
    for rules in ["uk", "uk-scotland", "eu-ie"] {
        assert_eq!(faults(&by(rules, &twice)), ["reheated-twice warning"], "{rules}");
        // In two steps, and not cold between them: that is one reheating.
        let steps = cook(&format!("{}{}", warm("lunch"), warm("supper")));
        assert!(!faults(&by(rules, &steps)).contains(&"reheated-twice warning".into()), "{rules}");
    }
    let code = by("us-food-code", &twice);
    assert_eq!(faults(&code), NONE, "{:#?}", said(&code));
    // And it is listed that the Code does not say.
    let why = |one: &Judged| one.why.render(Scale::Celsius).contains("does not say how often");
    assert!(
        rows(&code, "us-fc.reheat.general").iter().any(|one| one.verdict == Verdict::NotJudged && why(one))
    );
}

/// FSIS, December 2021: the charts go with moisture in the oven, or the surface may stay raw. FDA Food Code 2022,
/// 3-401.11(B)(2): so does the chart for roasts. A core that is hot for long enough does not show the surface.
#[test]
fn the_surface_in_a_low_cabinet_that_holds_no_humidity_is_not_judged() {
    let low = "cook \"Low and slow\"\n  serves 12\n  rules RULES\nkit cabinet is smoking cabinet\n  air 40 °C to 130 °C\n  vented\n\
        kit probe is probe thermometer\nfood joint is beef topside\n  2.5 kg\n  thickness 9 cm\n  starts at 2 °C\ningredient beech is 200 g beech chips\n\
        phase smoke is cook\n  joint in cabinet\n  uncovered\n  smoke from beech\n  air 80 °C\n  until core 60 °C\n\
        phase hold is hot hold\n  joint in cabinet\n  air 70 °C\n  for 1 h\nserve joint\n  at Saturday 19:00, up to 3 h late\n";
    for (rules, about) in
        [("us-fsis", &["us-fsis.rh", "us-fsis.rh.gap"][..]), ("us-food-code", &["us-fc.oven"])]
    {
        let found = by(rules, low);
        for rule in about {
            assert_eq!(verdicts(&found, rule), [Verdict::NotJudged], "{rule}");
            let [row] = &rows(&found, rule)[..] else { panic!("{rule}") };
            assert!(row.why.render(Scale::Celsius).contains("humidity"), "{rule}");
        }
    }
}
