//! Every name that the food table offers can be typed after `is`.

mod common;

use dwell::tables::Tables;

#[test]
fn every_kind_can_be_typed_in_a_cook() {
    for kind in Tables::built_in().foods.kinds() {
        for name in kind.also.iter().chain([&kind.name]) {
            let text = format!(
                "cook \"x\"\nkit bench is bench\nfood it is {name}\n  2 kg\n\
                 phase prep\n  it on bench\n  for 5 min\nserve it\n  at 19:00\n"
            );
            let (_, cook, _) = common::cook(&text);
            let found = cook.unwrap().items[0].kind.clone().map(|kind| kind.value.name.clone());
            assert_eq!(found.as_deref(), Some(kind.name.as_str()), "{name}");
        }
    }
}
