//! Nothing comes from nowhere and nothing vanishes unsaid: a property over random cooks.

mod common;

use dwell::cook::{ItemId, Origin};
use dwell::ledger::{Ledger, balance};
use proptest::prelude::*;

/// What happens to the food in one phase of a random cook.
#[derive(Debug, Clone)]
enum Step {
    Cook,
    Bench,
    Collect { grams: u32 },
    Season { grams: u32 },
    Mix { grams: u32 },
    Becomes { grams: u32 },
    PartOff { percent: u32 },
    Divide { pieces: u32, grams: u32 },
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        Just(Step::Cook),
        Just(Step::Bench),
        (1u32..400).prop_map(|grams| Step::Collect { grams }),
        (1u32..400).prop_map(|grams| Step::Season { grams }),
        (1u32..400).prop_map(|grams| Step::Mix { grams }),
        (500u32..9000).prop_map(|grams| Step::Becomes { grams }),
        (1u32..60).prop_map(|percent| Step::PartOff { percent }),
        (1u32..9, 50u32..900).prop_map(|(pieces, grams)| Step::Divide { pieces, grams }),
    ]
}

/// A cook of these steps. Every amount is a mass, so that everything can be added up.
fn text(kg: u32, trim: u32, cooked: u32, steps: &[Step]) -> String {
    let mut stock = format!(
        "cook \"Test\"\n kit bench is bench\n kit oven is oven\n kit cold is fridge\n\
         food f0 is beef mince, {kg} kg, trim loss {trim} %, cooked yield {cooked} %\n"
    );
    let mut phases = String::new();
    let mut food = 0;
    for (n, step) in steps.iter().enumerate() {
        let mut head = format!("phase p{n} is prep\n f{food} on bench, for 5 min\n ");
        match step {
            Step::Cook => head = format!("phase p{n} is cook\n f{food} in oven, air 110 °C, for 1 h\n"),
            Step::Bench => {}
            Step::Collect { grams } => head += &format!("collect {grams} g of c{n}\n"),
            Step::Season { grams } | Step::Mix { grams } => {
                stock += &format!("ingredient i{n} is {} g salt\n", grams * 2);
                head += &format!("use {grams} g of i{n}\n");
                if matches!(step, Step::Mix { .. }) {
                    food = n + 1;
                    head += &format!("becomes f{food}\n");
                }
            }
            Step::Becomes { grams } => {
                food = n + 1;
                head += &format!("becomes f{food}, {grams} g\n");
            }
            Step::PartOff { percent } => {
                head = format!(
                    "phase p{n} is cold hold\n {percent} % of f{food} in cold, air 3 °C, becomes s{n}, for 1 h\n"
                );
            }
            Step::Divide { pieces, grams } => {
                head += &format!("{pieces} pieces of {grams} g, thickness 3 cm\n");
            }
        }
        phases += &head;
    }
    format!("{stock}{phases}serve f{food}, at 18:30\n")
}

fn kg(weight: Option<dwell::ledger::Weight>) -> f64 {
    weight.map_or(0.0, |weight| weight.mass.kg())
}

/// What came into the kitchen, and where all of it is in the end.
fn in_and_out(ledger: &Ledger, bought: impl Fn(ItemId) -> bool) -> (f64, f64) {
    let items = || ledger.items.iter().enumerate().map(|(n, item)| (ItemId(n as u32), item));
    let came: f64 = items().filter(|(id, _)| bought(*id)).map(|(_, item)| kg(item.came.mass)).sum();
    let left: f64 = items().map(|(_, item)| kg(item.left.mass)).sum();
    let beside: f64 = items().map(|(_, item)| item.beside.kg()).sum();
    let mut out = left + beside;
    for phase in &ledger.phases {
        out += phase.trimmed.iter().map(|(_, mass)| mass.kg()).sum::<f64>();
        out += phase.foods.iter().map(|food| food.lost.kg()).sum::<f64>();
        out += phase.drawn.iter().filter(|drawn| !drawn.joins).map(|drawn| kg(drawn.weight)).sum::<f64>();
        out +=
            phase.served.iter().flat_map(|served| &served.foods).map(|(_, weight)| kg(*weight)).sum::<f64>();
    }
    (came, out)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, rng_seed: proptest::test_runner::RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn what_comes_in_goes_out(
        kg in 1u32..30,
        trim in 0u32..30,
        cooked in 40u32..101,
        steps in proptest::collection::vec(step(), 0..9),
    ) {
        let text = text(kg, trim, cooked, &steps);
        let (_, cook, found) = common::cook(&text);
        let misread = found.iter().find(|finding| finding.severity == dwell::findings::Severity::Error);
        prop_assert!(misread.is_none(), "{misread:?}\n{text}");
        let cook = cook.expect("a cook");
        let (ledger, findings) = balance(&cook);
        // Where more was wanted than there is, what was wanted is not what was had.
        prop_assume!(!findings.iter().any(|finding| finding.code.name() == "stock-overdrawn"));
        let bought = |id: ItemId| matches!(cook.item(id).origin, Origin::Food(_) | Origin::Ingredient(_));
        let (came, out) = in_and_out(&ledger, bought);
        prop_assert!((came - out).abs() < 1e-6 * came, "{came} kg in, {out} kg out\n{text}\n{ledger:#?}");
    }
}
