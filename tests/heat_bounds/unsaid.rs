//! What a file leaves unsaid: how hot a pan is, what became of the juices, how long each piece waits.

use dwell::heat::{Curves, FoodCurve};

use super::common::dice::Dice;
use super::curves;
use super::witness::{Around, Body};

/// As the table of kit has it: the least and the most of an unset pan, °C, and how well metal passes heat on, W/m² K.
const PAN_C: (f64, f64) = (20.0, 260.0);
const PLATE_W_M2K: (f64, f64) = (200.0, 1200.0);
const HALF_M: f64 = 0.02;
const OFF_K: f64 = 0.3;

fn cook(stock: &str, phases: &str) -> Curves {
    curves(&format!(
        "cook \"Unsaid\"\n  rules us-food-code\n\ncrew\n  2 people\n\nkit pan is hob\nkit hot is oven\nkit board is bench\n\
         kit fridge is fridge\n  air 3 °C\n\n{stock}\n{phases}"
    ))
}

/// Dry on its outside, so that the witness needs no steam.
fn sear(starts_c: f64, end: &str) -> Curves {
    cook(
        &format!(
            "food joint is test slab\n  1 piece of 2 kg\n  thickness 4 cm ± 1 mm\n  shape slab\n  starts at {starts_c} °C\n  \
             wrapped in foil"
        ),
        &format!(
            "phase sear is cook\n  joint in pan\n  {end}\n\nphase stand is rest\n  joint on board\n  for 20 min\n\n\
             serve joint\n  at 19:00\n"
        ),
    )
}

fn pan(medium_c: f64, film_w_m2k: f64) -> Around {
    Around {
        from_c: medium_c,
        medium_c,
        rate_k_s: f64::INFINITY,
        film_w_m2k,
        emissivity: 0.0,
        wetness: 0.0,
        humidity: 0.0,
    }
}

fn food<'c>(curves: &'c Curves, name: &str) -> &'c FoodCurve {
    curves
        .foods
        .iter()
        .find(|food| food.name == name)
        .unwrap_or_else(|| panic!("{name}: {:?}", curves.unpredicted))
}

fn lost<'c>(curves: &'c Curves, name: &str) -> &'c str {
    let lost = curves.unpredicted.iter().find(|lost| lost.name == name);
    &lost.unwrap_or_else(|| panic!("{name} is followed")).because
}

/// An end as often as not.
fn between(dice: &mut Dice, (low, high): (f64, f64)) -> f64 {
    low + (high - low) * (dice.roll(-500, 1500) as f64 / 1000.0).clamp(0.0, 1.0)
}

#[test]
fn a_pan_may_be_anything_between_off_and_smoking() {
    let curves = sear(4.0, "for 15 min");
    assert!(curves.unpredicted.is_empty(), "{:?}", curves.unpredicted);
    let joint = food(&curves, "joint");
    let said = "the plate of `pan` in `sear` at 180 °C, where it may be at 20 to 260 °C";
    assert!(joint.assumed.iter().any(|assumed| assumed == said), "{:?}", joint.assumed);
    let mut dice = Dice(0x9A4);
    for _ in 0..40 {
        let around = pan(between(&mut dice, PAN_C), between(&mut dice, PLATE_W_M2K));
        let mut body = Body::new(HALF_M, 0.0, 4.0);
        let mut seen = Vec::new();
        body.stay(&around, 900.0, |_| false, |t_s, core_c| seen.push((t_s, core_c)));
        for sample in joint.samples.iter().take_while(|sample| sample.t_s < 900.0) {
            let (_, core_c) = seen[seen.partition_point(|(t_s, _)| *t_s < sample.t_s)];
            let bounds = sample.core_low_c - OFF_K..=sample.core_high_c + OFF_K;
            assert!(bounds.contains(&core_c), "{core_c} °C at {} s, {bounds:?}: {around:?}", sample.t_s);
        }
    }
}

#[test]
fn a_core_that_an_unset_pan_waits_for_comes() {
    let curves = sear(4.0, "until core 52 °C");
    assert!(curves.unpredicted.is_empty(), "{:?}", curves.unpredicted);
    let sear = curves.phases.iter().find(|phase| phase.name == "sear").expect("the phase");
    assert!(sear.end_predicted && sear.least_s < sear.end_s - sear.start_s);
    for (medium_c, film) in [(260.0, 1200.0), (180.0, 500.0), (120.0, 500.0)] {
        let mut body = Body::new(HALF_M, 0.0, 4.0);
        assert!(body.stay(&pan(medium_c, film), 7200.0, |core_c| core_c >= 52.0, |_, _| {}));
        let promised = 0.97 * sear.least_s..=1.03 * sear.most_s;
        assert!(promised.contains(&body.t_s), "{medium_c} °C: {} s, {promised:?}", body.t_s);
    }
    // A pan that was off would have cooled what comes warm into it, and never have brought it there.
    let from_warm = self::sear(45.0, "until core 52 °C");
    let (_, warm) = food(&from_warm, "joint").exits[0];
    assert!((warm.low - 52.0).abs() < 0.5 && (warm.high - 52.0).abs() < 0.5, "{warm:?}");
    // Whoever takes it out has seen 52 °C, whatever the pan was.
    let (_, exit) = food(&curves, "joint").exits[0];
    assert!((exit.low - 52.0).abs() < 0.5 && (exit.high - 52.0).abs() < 0.5, "{exit:?}");
    let last = food(&curves, "joint").samples.last().expect("the rest is followed");
    assert!(last.core_low_c < last.core_c && last.core_c < last.core_high_c);
}

/// A pot is brought to the boil only if the file says so; and nobody keeps food hot, or lets it rest, in a searing pan.
#[test]
fn only_solid_food_that_is_cooked_has_a_usual_pan() {
    let set = "say what `pan` is set to";
    let solid = "food it is test slab\n  1 piece of 2 kg\n  thickness 4 cm";
    let soup = "food it is baked beans\n  2 kg\n  depth 6 cm";
    let serve = "serve it\n  at 19:00\n";
    for (stock, phase, followed) in [
        (solid, "phase p is cook\n  it in pan\n  for 10 min\n", true),
        (solid, "phase p is reheat\n  it in pan\n  for 10 min\n", true),
        (solid, "phase p is hot hold\n  it in pan\n  for 10 min\n", false),
        (solid, "phase p is cook\n  it in pan\n  with 2 l of water\n  for 10 min\n", false),
        (soup, "phase p is cook\n  it in pan\n  for 10 min\n", false),
    ] {
        let curves = cook(stock, &format!("{phase}\n{serve}"));
        let because = curves.unpredicted.first().map(|lost| lost.because.as_str());
        assert_eq!(because, (!followed).then_some(set), "{stock}\n{phase}");
    }
    // What is set is what counts.
    let set = cook(solid, &format!("phase p is cook\n  it in pan\n  plate 120 °C\n  for 10 min\n\n{serve}"));
    assert_eq!(food(&set, "it").samples[0].medium_c, 120.0);
}

/// Juices are no `food` and are not followed. As much water from the tap goes with them: 4 to 25 °C, usually 15.
fn gravy(meanwhile: &str) -> Curves {
    cook(
        "food joint is test slab\n  1 piece of 2 kg\n  thickness 6 cm\n  starts at 4 °C",
        &format!(
            "phase roast is cook\n  joint in hot\n  air 160 °C\n  until core 70 °C\n  collect 500 ml of juices from joint\n\n\
             {meanwhile}phase gravy is cook\n  on board\n  becomes gravy is gravy, depth 4 cm\n  use all juices\n  \
             use 500 ml of water\n  for 1 min\n\nserve joint and gravy\n  at 19:00\n"
        ),
    )
}

#[test]
fn hot_juices_go_in_hot_or_cold() {
    let curves = gravy("");
    let gravy = food(&curves, "gravy");
    let first = gravy.samples[0];
    // Half of it at 4 to 100 °C (nothing watery is hotter), half at 4 to 25 °C.
    assert!((3.0..5.0).contains(&first.core_low_c), "{first:?}");
    assert!((61.5..66.0).contains(&first.core_high_c), "{first:?}");
    // Usually as hot as the joint that they ran from: (70 + 15) / 2.
    assert!((41.0..44.0).contains(&first.core_c), "{first:?}");
    let said =
        "`juices` at 70 °C as it goes into `gravy`, where it may be at 4 to 100 °C: it is not followed";
    assert!(gravy.assumed.iter().any(|assumed| assumed == said), "{:?}", gravy.assumed);
    let water = "what goes into `gravy` from the store at 15 °C";
    assert!(gravy.assumed.iter().any(|assumed| assumed == water), "{:?}", gravy.assumed);
}

#[test]
fn juices_out_of_the_fridge_may_be_cold_and_need_not_be() {
    let cooled = gravy("phase chill is cool\n  juices in fridge\n  for 30 min\n\n");
    let first = food(&cooled, "gravy").samples[0];
    // The fridge may be at 1 °C. Half an hour in it proves nothing.
    assert!(first.core_low_c < 3.0 && first.core_high_c > 61.5, "{first:?}");
    assert!((8.0..10.0).contains(&first.core_c), "usually as cold as the fridge: {first:?}");
}

const EIGHT: &str = "food steak is test slab\n  8 pieces of 250 g\n  thickness 3 cm\n  starts at 4 °C";
const ONE: &str = "food steak is test slab\n  1 piece of 250 g\n  thickness 3 cm\n  starts at 4 °C";

#[test]
fn pieces_that_take_turns_are_not_followed() {
    let serve = "\nserve steak\n  at 19:00\n";
    let sear = |end: &str| format!("phase sear is cook\n  steak in pan\n  plate 250 °C\n  {end}\n");
    let turns =
        "the pieces go through `sear` one after another, and how long each waits, and where, is not known";
    let curves = cook(EIGHT, &format!("{}{serve}", sear("takes 3 min to 5 min each")));
    assert_eq!(lost(&curves, "steak"), turns);
    assert_eq!(curves.phases[0].most_s, 8.0 * 300.0, "the phase is as long as all of them");
    // What comes out first is no longer at 52 °C when the last is.
    let until = cook(EIGHT, &format!("{}{serve}", sear("until core 52 °C, takes 3 min to 5 min each")));
    assert!(lost(&until, "steak") == turns && until.foods.is_empty(), "{:?}", until.foods);
    // All at once, or one alone, they are.
    for (stock, end) in [(EIGHT, "takes 3 min to 5 min"), (ONE, "takes 3 min to 5 min each")] {
        let curves = cook(stock, &format!("{}{serve}", sear(end)));
        assert!(curves.unpredicted.is_empty(), "{end}: {:?}", curves.unpredicted);
        assert_eq!(curves.phases[0].most_s, 300.0);
    }
    // On the bench they lie in the same air, in hand or waiting.
    let trim = "phase trim is prep\n  steak on board\n  takes 3 min to 5 min each\n";
    assert!(cook(EIGHT, &format!("{trim}{serve}")).unpredicted.is_empty());
}
