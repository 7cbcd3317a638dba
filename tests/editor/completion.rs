//! What may come next.

use std::collections::BTreeMap;

use dwell::editor::{Around, Offer, View, completion};
use dwell::findings::{Code, Stage};
use dwell::syntax::parse;
use dwell::tables::Tables;
use dwell::text::FileId;

use crate::common::examples;
use crate::support::{Written, declared};

fn of(view: &View<'_>, at: usize) -> Vec<Offer> {
    let files = ["clubhouse.dwell".to_owned(), "beans.dwell".to_owned()];
    completion(view, at, &Around { tables: Tables::built_in(), files: &files })
}

/// What is offered at the cursor.
fn offers(marked: &str) -> Vec<Offer> {
    let written = Written::one(marked);
    of(&written.view(), written.at)
}

/// Its labels, behind the start of a small cook.
fn labels(marked: &str) -> Vec<String> {
    offers(&format!("{LAMB}{marked}")).into_iter().map(|offer| offer.label).collect()
}

/// The text with an offer taken.
fn taken(text: &str, offer: &Offer) -> String {
    let mut text = text.to_owned();
    text.replace_range(offer.replace.range(), &offer.text);
    text
}

const LAMB: &str = "cook \"Leg of lamb\"\n  serves 8\n\
    kit oven is oven\nkit bench is bench\nkit probe is probe thermometer\n\
    food lamb is lamb leg\n  2.4 kg\n\
    ingredient salt is 40 g sea salt\ningredient paper is 2 m butcher paper\n\
    phase season is prep\n  lamb on bench\n  use 20 g of salt\n  takes 5 min\n";

#[test]
fn a_line_may_begin_with_what_its_block_may_say() {
    let phase = labels("phase roast is cook\n  ¦");
    for expected in ["lamb in oven", "air 110 °C", "for 5 h", "until core 84 °C", "serve lamb", "crew"] {
        assert!(phase.iter().any(|label| label == expected), "{expected}: {phase:#?}");
    }
    for wrong in
        ["serves 16", "preheat 20 min", "trim loss 8 %", "up to 15 min late", "cook \"Title\"", "dwell 1"]
    {
        assert!(!phase.iter().any(|label| label == wrong), "{wrong}");
    }
    let kit = labels("kit hob is hob\n  ¦");
    assert!(kit.contains(&"preheat 20 min".to_owned()) && !kit.contains(&"for 5 h".to_owned()), "{kit:#?}");
    let dish = offers("menu \"Supper\"\n¦").into_iter().map(|offer| offer.label).collect::<Vec<_>>();
    assert!(dish.contains(&"dish \"beans.dwell\" for 40".to_owned()), "{dish:#?}");
    assert!(!dish.iter().any(|label| label.starts_with("phase") || label.starts_with("food")), "{dish:#?}");
}

#[test]
fn what_was_said_already_is_not_offered_again() {
    let open = labels("phase roast is cook\n  ¦\n  lamb in oven\n");
    assert!(open.contains(&"for 5 h".to_owned()) && !open.contains(&"lamb in oven".to_owned()), "{open:#?}");
    let ended = labels("phase roast is cook\n  lamb in oven\n  for 5 h\n  ¦");
    for once in ["for 5 h", "takes 15 min to 25 min", "until core 84 °C", "lamb in oven"] {
        assert!(!ended.contains(&once.to_owned()), "{once}: {ended:#?}");
    }
    assert!(ended.contains(&"do \"Salt every face.\"".to_owned()), "{ended:#?}");
}

#[test]
fn a_block_is_offered_only_where_what_follows_still_fits() {
    let above = labels("phase roast is cook\n  ¦\n  lamb in oven\n");
    assert!(!above.contains(&"crew".to_owned()), "{above:#?}");
    assert!(labels("phase roast is cook\n  lamb in oven\n¦").contains(&"crew".to_owned()));
}

#[test]
fn names_are_those_in_scope() {
    assert_eq!(labels("phase roast is cook\n  lamb in ¦"), ["oven", "bench"]);
    assert_eq!(labels("phase roast is cook\n  lamb in o¦"), ["oven"]);
    assert_eq!(
        labels("phase roast is cook\n  use 5 g of ¦"),
        ["lamb", "salt", "paper", "water", "ice", "foil"]
    );
    assert_eq!(labels("phase roast is cook\n  sealed in ¦"), ["salt", "paper", "foil"]);
    assert_eq!(labels("phase roast is cook\n  ends when ¦"), ["season"]);
    assert_eq!(labels("phase roast is cook\n  lamb and ¦"), [""; 0]);
    // What a phase makes is there from the next one on, and what it was made of is no more.
    let made = "phase slice is prep\n  lamb on bench\n  becomes slices\n  takes 5 min\nphase roast is cook\n  ¦ in oven\n";
    assert_eq!(labels(made), ["slices"]);
    assert!(
        labels(&made.replace("¦ in oven", "").replace("  lamb on", "  ¦ on")).contains(&"lamb".to_owned())
    );
}

#[test]
fn a_name_brings_the_rest_of_its_clause() {
    let written = Written::one(&format!("{LAMB}phase roast is cook\n  starts after ¦"));
    let offers = of(&written.view(), written.at);
    assert_eq!((offers[0].label.as_str(), offers[0].text.as_str()), ("season", "season ends"));
    // Nothing is put in twice where it stands already.
    let written = Written::one(&format!("{LAMB}phase roast is cook\n  starts after s¦ ends"));
    let offers = of(&written.view(), written.at);
    assert_eq!(offers[0].text, "season");
}

#[test]
fn rows_of_the_tables_are_found_by_any_of_their_words() {
    assert_eq!(labels("food bun is shoulder po¦")[0], "pork shoulder");
    assert_eq!(labels("food bun is prok shoulder¦")[0], "pork shoulder");
    assert!(labels("food bun is ¦").len() > 150);
    assert!(labels("food bun is defrosted whatever¦").is_empty());
    assert!(labels("kit x is ¦").contains(&"smoking cabinet".to_owned()));
    assert_eq!(labels("kit x is conv¦"), ["oven", "fan oven"]);
    assert_eq!(labels("phase hold is hot¦"), ["hot hold"]);
    assert_eq!(labels("phase hold is c¦"), ["cure", "cook", "cool", "cold hold"]);
    assert_eq!(labels("food bun is pork shoulder\n  contains m¦"), ["milk", "mustard", "molluscs"]);
    assert_eq!(labels("food bun is pork shoulder\n  contains milk and e¦"), ["egg"]);
    assert_eq!(labels("food bun is pork shoulder\n  shape c¦"), ["cylinder"]);
    assert!(
        offers("cook \"x\"\n  rules u¦").iter().any(|offer| offer.label == "uk" && !offer.detail.is_empty())
    );
}

#[test]
fn a_figure_is_offered_the_units_of_its_clause() {
    let phase = |line: &str| labels(&format!("phase roast is cook\n  {line}"));
    assert_eq!(phase("air 110 ¦"), ["°C", "°F"]);
    assert_eq!(phase("until core 84¦"), ["°C", "°F"]);
    assert_eq!(phase("takes 15 m¦"), ["min"]);
    assert_eq!(phase("for 8 h to 14 ¦"), ["s", "min", "h", "days", "weeks"]);
    assert_eq!(phase("thickness 4 ¦"), ["mm", "cm", "m", "in", "ft"]);
    assert_eq!(phase("moisture 40 ¦"), ["%"]);
    assert_eq!(phase("with 2 ¦"), ["mg", "g", "kg", "oz", "lb", "ml", "cl", "dl", "l"]);
    assert_eq!(phase("takes 15 min ¦"), ["to 25 min", "to 5 min each"]);
    assert_eq!(phase("until core ¦")[..2], ["84 °C", "183 °F"]);
    // A figure that is put in as an example is called one.
    let examples = offers(&format!("{LAMB}phase roast is cook\n  until core ¦"));
    assert!(examples.iter().all(|offer| offer.detail.starts_with("an example")), "{examples:#?}");
    // Cups are of use only where it is said whose they are.
    let cups = offers("cook \"x\"\n  measures us\nphase mix is prep\n  with 2 c¦");
    assert!(cups.iter().any(|offer| offer.label == "cup"), "{cups:#?}");
    let fahrenheit =
        offers("cook \"x\"\nkit oven is oven\n  air 100 °F to 500 °F\nphase roast is cook\n  air 2¦");
    assert_eq!(fahrenheit[0].label, "°F");
}

#[test]
fn a_unit_right_behind_its_figure_gets_a_blank() {
    let text = format!("{LAMB}phase roast is cook\n  until core 84");
    let written = Written::one(&format!("{text}¦"));
    let offers = of(&written.view(), written.at);
    assert!(taken(&text, &offers[0]).ends_with("until core 84 °C"));
}

#[test]
fn what_can_be_allowed_comes_with_a_reason_to_fill_in() {
    let text = format!("{LAMB}phase roast is cook\n  lamb in oven\n  air 140 °C\n  for 2 h\n  allow rules-¦");
    let offers = offers(&text);
    let assumed = offers.iter().find(|offer| offer.label == "rules-assumed").expect("the code");
    assert_eq!(assumed.text, "rules-assumed because \"your reason\"");
    assert_eq!(
        assumed.blanks.iter().map(|blank| &assumed.text[blank.clone()]).collect::<Vec<_>>(),
        ["your reason"]
    );
    assert_eq!(assumed.without_examples(), "rules-assumed because \"");
    // A line that nobody understood cannot be allowed.
    assert!(!offers.iter().any(|offer| offer.label == Code::LineUnreadable.name()));
}

#[test]
fn files_of_the_folder_stand_in_quotes() {
    assert_eq!(labels("kit from ¦"), ["\"clubhouse.dwell\"", "\"beans.dwell\""]);
    let text = format!("{LAMB}kit from \"cl\"\n");
    let written = Written::one(&text.replace("cl\"", "cl¦\""));
    let offers = of(&written.view(), written.at);
    assert!(taken(&text, &offers[0]).ends_with("kit from \"clubhouse.dwell\"\n"));
}

#[test]
fn nothing_is_offered_in_a_text_or_a_remark() {
    assert!(labels("phase roast is cook\n  do \"Salt it, ¦").is_empty());
    assert!(labels("phase roast is cook\n  do \"Salt ¦ it.\"").is_empty());
    assert!(labels("phase roast is cook // air ¦").is_empty());
}

/// Codes of the findings about the form of the line that holds this place.
fn of_form(text: &str, at: usize) -> BTreeMap<Code, usize> {
    let start = text[..at].rfind('\n').map_or(0, |end| end + 1);
    let end = text[at..].find('\n').map_or(text.len(), |end| at + end);
    let mut codes = BTreeMap::new();
    for finding in declared(text).findings {
        let place = finding.span.start as usize;
        if finding.code.stage() == Stage::Syntax
            && finding.span.file == FileId(0)
            && (start..=end).contains(&place)
        {
            *codes.entry(finding.code).or_default() += 1;
        }
    }
    codes
}

/// Texts that somebody has on the way to an example: each line cut off behind some of its words.
fn on_the_way(text: &str) -> Vec<(String, usize)> {
    let mut states = Vec::new();
    let mut start = 0;
    for (nth, line) in text.split_inclusive('\n').enumerate() {
        let line = line.trim_end();
        let indent = line.len() - line.trim_start().len();
        let blanks = line.match_indices(' ').map(|(at, _)| at + 1).filter(|at| *at > indent);
        let words = std::iter::once(indent).chain(blanks).chain([line.len()]);
        // Every seventh of them: together they are at all kinds of places.
        for (_, cut) in words.enumerate().filter(|(word, _)| (word + nth) % 7 == 0) {
            let state = format!("{}{}", &text[..start + cut], &text[start + line.len()..]);
            states.push((state, start + cut));
        }
        start += line.len() + 1;
    }
    states
}

#[test]
fn every_offer_reads_where_it_is_taken() {
    let mut taken_ones = 0;
    for (name, text) in examples() {
        for (state, at) in on_the_way(&text) {
            let (tree, _) = parse(FileId(0), &state);
            let compiled = declared(&state);
            let view = View { tree: &tree, compiled: &compiled, file: FileId(0) };
            let before = of_form(&state, at);
            // Rows of one table differ in nothing that matters here.
            for offer in of(&view, at).iter().step_by(5) {
                let after = taken(&state, offer);
                let found = of_form(&after, offer.replace.start as usize);
                let new = found.iter().find(|(code, count)| before.get(code).is_none_or(|had| had < count));
                assert!(
                    new.is_none(),
                    "{name}: {new:?} of {offer:?} in\n{}",
                    &after[..at + offer.text.len()]
                );
                taken_ones += 1;
            }
        }
    }
    assert!(taken_ones > 1_000, "{taken_ones} offers were taken");
}
