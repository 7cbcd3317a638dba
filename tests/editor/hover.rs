//! What stands under the cursor.

use std::collections::BTreeSet;

use dwell::editor::{View, hover};
use dwell::findings;
use dwell::syntax::parse;
use dwell::text::FileId;

use crate::common::examples;
use crate::support::{Written, declared};

fn of(view: &View<'_>, at: usize) -> String {
    hover(view, at).map_or(String::new(), |hover| hover.said.join("\n"))
}

/// What is said of the place of the cursor.
fn said(marked: &str) -> String {
    let written = Written::one(marked);
    of(&written.view(), written.at)
}

/// The same in an example, behind this stretch of its text.
fn in_example(name: &str, before: &str) -> String {
    let written = Written::example(name, before);
    of(&written.view(), written.at)
}

#[test]
fn a_temperature_is_said_in_the_other_scale() {
    assert_eq!(said("phase x is cook\n  air 11¦0 °C"), "`110 °C` is 230 °F.");
    assert_eq!(said("phase x is cook\n  air 11¦0 °C (230 °F)"), "`110 °C` is 230 °F.");
    assert_eq!(said("phase x is cook\n  air 250 °¦F"), "`250 °F` is 121.1 °C.");
    assert_eq!(said("phase x is cook\n  expect core 60 to 72¦ °C"), "`60 to 72 °C` is 140 °F to 161.6 °F.");
    // A difference of 5 °C is 9 °F, not 41.
    assert_eq!(said("kit x is oven\n  swing ± 5¦ °C"), "`± 5 °C` is 9 °F of difference.");
    assert_eq!(said("phase x is cook\n  air 110 °C ± 5¦ °C"), "`110 °C ± 5 °C` is 230 °F ± 9 °F.");
}

#[test]
fn an_amount_is_said_in_other_units() {
    assert_eq!(
        said("food x is milk\n  2 pieces of 3.2¦ kg"),
        "`3.2 kg` is 3200 g, about 113 oz or about 7.05 lb."
    );
    assert_eq!(said("food x is milk\n  7¦ lb"), "`7 lb` is about 3175 g, about 3.18 kg or 112 oz.");
    assert_eq!(said("phase x is cook\n  depth 6¦ cm"), "`6 cm` is 60 mm or about 2.36 in.");
    assert_eq!(said("phase x is cook\n  with 1.5¦ l of water"), "`1.5 l` is 1500 ml.");
    assert_eq!(
        said("cook \"x\"\n  measures metric\nphase x is cook\n  with 500¦ ml of water"),
        "`500 ml` is 0.5 l, 100 tsp, about 33.3 tbsp or 2 cup."
    );
    assert_eq!(said("phase x is cook\n  for 90¦ min"), "`90 min` is 1 h 30 min.");
    assert_eq!(said("phase x is cook\n  for 1 h 30¦ min"), "`1 h 30 min` is 90 min.");
    assert_eq!(said("phase x is cook\n  for 3¦ days"), "`3 days` is 72 h.");
}

#[test]
fn words_of_the_language_are_told_by_their_block() {
    assert!(said("phase x is cook\n  unatt¦ended").starts_with("Nobody has to be there"));
    assert!(said("food x is milk\n  star¦ts at 4 °C").starts_with("How warm the food is"));
    assert!(said("phase x is cook\n  star¦ts at 08:00").starts_with("It begins at this time"));
    assert!(said("kit x is oven\n  air¦ 50 °C to 250 °C").starts_with("The lowest and the highest"));
    assert!(said("phase x is cook\n  takes 3 min to 5 min e¦ach").contains("each of its pieces"));
    assert!(said("phase x is cook\n  vacuum bag¦ged").contains("without air"));
    assert!(said("cr¦ew\n").starts_with("The people"));
    assert!(said("phase x is hot h¦old").starts_with("The food is kept hot"));
    assert!(said("kit x is fan ov¦en").starts_with("Hot air that a fan blows about."));
    assert_eq!(said("phase x is cook // to¦day"), "");
    assert_eq!(said("phase x is cook\n  do \"Salt¦ it.\""), "What the cook does as this phase starts.");
}

#[test]
fn ids_are_told_by_their_full_names() {
    let rules = said("cook \"x\"\n  rules uk¦");
    assert!(rules.starts_with("UK law and Food Standards Agency advice"), "{rules}");
    let code = said("phase x is cook\n  allow hold-too-c¦ool because \"x\"");
    assert!(code.lines().count() >= 2 && code.contains("hold"), "{code}");
    assert_eq!(said("cook \"x\"\n  rules mine¦"), "The set of rules that judges the cook.");
}

#[test]
fn a_phase_has_its_times_and_its_predicted_core_with_bounds() {
    let roast = in_example("turkey-crown.dwell", "phase roas");
    let lines: Vec<&str> = roast.lines().collect();
    assert!(lines[0].starts_with("Phase `roast`, cook: "), "{roast}");
    assert!(lines[1].starts_with("By the plan it starts between 11:20 and 11:35"), "{roast}");
    assert!(lines[1].contains("ends between 13:00 and 13:55"), "{roast}");
    assert_eq!(lines[2], "Core of `crown` at its end: predicted 72 °C (71 to 73 °C).");
    assert!(!lines[1].contains("as predicted"), "its length is said: {roast}");
    let text = Written::example("turkey-crown.dwell", "phase roas").view().text().to_owned();
    let open = text.replace("until core 72 °C, takes 1 h 40 min to 2 h 20 min", "until core 72 °C");
    let open = said(&open.replace("phase roast", "phase roas¦t"));
    assert!(
        open.lines().any(|line| line.starts_with("By the plan") && line.contains(", as predicted.")),
        "{open}"
    );
    // A use of its name tells the same, and where it is declared.
    let used = in_example("turkey-crown.dwell", "starts after roa");
    assert!(used.starts_with(&roast) && used.ends_with("Declared on line 36."), "{used}");
    let serving = in_example("turkey-crown.dwell", "serv");
    assert!(!serving.is_empty());
}

#[test]
fn food_has_its_row_and_what_is_predicted_of_it() {
    let crown = in_example("turkey-crown.dwell", "food cro");
    assert!(
        crown
            .starts_with("`crown` is food: 3 kg of turkey crown.\n`turkey crown` in the food table: poultry"),
        "{crown}"
    );
    assert!(crown.contains("`roast` 72 °C (71 to 73 °C)"), "{crown}");
    let salt = in_example("overnight-shoulder.dwell", "use all sa");
    assert_eq!(salt, "`salt` is an ingredient: 70 g of coarse sea salt.\nDeclared on line 20.");
    // Why nothing is predicted is said, where it is so.
    let mince = in_example("chilli.dwell", "food mi");
    assert!(mince.contains("cannot be predicted from `brown` on: say what `kettle` is set to."), "{mince}");
}

#[test]
fn kit_has_its_class_its_settings_and_its_file() {
    let cabinet = in_example("overnight-shoulder.dwell", "shoulder in cabin");
    assert!(cabinet.starts_with("`cabinet` is a smoking cabinet."), "{cabinet}");
    assert!(
        cabinet.contains("air 30 °C to 150 °C, swing ± 5 °C, preheats in 30 min, shelves 4"),
        "{cabinet}"
    );
    assert!(cabinet.ends_with("Declared on line 2 of clubhouse.dwell."), "{cabinet}");
}

#[test]
fn a_file_is_told_by_what_it_brings() {
    let dish = in_example("club-supper.dwell", "dish \"baked-be");
    let lines: Vec<&str> = dish.lines().collect();
    assert_eq!(lines[0], "\"Baked beans\" is a dish of this menu.");
    assert!(lines[1].starts_with("Start ") && lines[1].contains("Serve pot"), "{dish}");
    let kitchen = in_example("overnight-shoulder.dwell", "kit from \"club");
    assert!(kitchen.starts_with("It brings `cabinet`, `oven`, "), "{kitchen}");
    assert!(in_example("overnight-shoulder.dwell", "kit fr").starts_with("Takes the kit of another file"));
}

#[test]
fn nothing_is_told_that_is_not_worked_out() {
    let written = Written::example("turkey-crown.dwell", "phase roas");
    let compiled = declared(written.view().text());
    let view = View { compiled: &compiled, ..written.view() };
    let early = of(&view, written.at);
    assert!(early.ends_with("Its times and temperatures are not worked out yet."), "{early}");
    let broken = written
        .view()
        .text()
        .replace("phase roas", "phase roas¦")
        .replace("  fills 2 shelves", "  fills and fills");
    let broken = said(&broken);
    assert!(broken.ends_with("while there is a line that is not understood."), "{broken}");
    assert!(!broken.contains("By the plan") && !broken.contains("°C"), "{broken}");
}

/// The examples, what findings show as good, and every line of the page of the language.
fn good_texts() -> Vec<String> {
    let of_findings = findings::ALL.iter().flat_map(|code| code.explained().good);
    let of_findings = of_findings.map(|example| example.text.to_owned());
    let page = include_str!("../../grammar/README.md");
    let of_page =
        page.split("```dwell").skip(1).filter_map(|fence| fence.split("```").next()?.split_once('\n'));
    let of_page = of_page.map(|(kind, lines)| match kind.trim() {
        "clauses" => format!("phase x is cook\n{lines}"),
        "serving" => format!("serve x\n{lines}"),
        "cook" => format!("cook \"x\"\n{lines}"),
        _ => lines.to_owned(),
    });
    examples().into_iter().map(|(_, text)| text).chain(of_findings).chain(of_page).collect()
}

#[test]
fn every_clause_and_every_head_has_something_to_tell() {
    let mut silent = BTreeSet::new();
    for text in good_texts() {
        let (tree, _) = parse(FileId(0), &text);
        let compiled = declared(&text);
        let view = View { tree: &tree, compiled: &compiled, file: FileId(0) };
        let heads = tree.heads.iter().map(|head| head.span);
        for span in tree.clauses.iter().map(|clause| clause.span).chain(heads) {
            if of(&view, span.start as usize).is_empty() {
                silent.insert(text[span.range()].to_owned());
            }
        }
    }
    assert!(silent.is_empty(), "{silent:#?}");
}
