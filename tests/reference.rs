//! Every example of the language reference is tried.

mod common;

use dwell::cook::Document;
use dwell::findings::Severity;

const REFERENCE: &str = include_str!("../grammar/README.md");

/// The examples with what they are: `dwell` alone is a whole file.
fn examples() -> Vec<(&'static str, &'static str)> {
    REFERENCE
        .split("```")
        .skip(1)
        .step_by(2)
        .map(|fenced| fenced.split_once('\n').expect("a fence and its lines"))
        .filter_map(|(info, lines)| Some((info.strip_prefix("dwell")?.trim(), lines)))
        .collect()
}

fn of(kind: &str) -> Vec<&'static str> {
    let found: Vec<_> =
        examples().into_iter().filter(|(info, _)| *info == kind).map(|(_, lines)| lines).collect();
    assert!(!found.is_empty(), "{kind}");
    found
}

/// The small cook that pieces of the reference stand in.
fn around(cook: &str, blocks: &str, phase: &str, serving: &str) -> String {
    format!(
        "cook \"Around\"\n{cook}\n\
         kit oven is fan oven\nkit bath is water bath\nkit hut is smoking cabinet\n  vented\nkit hob is hob\n\
         kit fridge is fridge\nkit bench is bench\nkit probe is probe thermometer\n\
         food lamb is lamb leg\n  4 pieces of 600 g\n  thickness 6 cm\n\
         food ham is cooked ham\n  3 kg\nfood stew is meat stew\n  6 trays of 1 kg, depth 6 cm\n\
         ingredient salt is 90 g salt\ningredient pepper is 9 g pepper\ningredient buns is 65 buns\n\
         ingredient paper is 2 m paper\ningredient oil is 2 l oil\ningredient beech is 200 g beech chips\n{blocks}\n\
         phase season is prep\n  lamb on bench\n  for 10 min\n\
         phase try is cook\n{phase}\n\
         serve lamb\n{serving}\n"
    )
}

fn errors(text: &str) -> Vec<String> {
    let (_, _, findings) = common::cook(text);
    let grave = findings.iter().filter(|finding| finding.severity == Severity::Error);
    grave.map(|f| format!("{}: {}", f.code.name(), &text[f.span.range()])).collect()
}

#[test]
fn every_example_is_of_a_known_sort() {
    for (kind, _) in examples() {
        assert!(["", "cook", "blocks", "clauses", "serving", "menu"].contains(&kind), "{kind}");
    }
}

#[test]
fn whole_files_check_without_a_finding() {
    for text in of("") {
        assert_eq!(common::texts::compiled(text), [], "{text}");
        let (tree, _) = dwell::syntax::parse(dwell::text::FileId(0), text);
        assert_eq!(dwell::syntax::format(&tree, text), text);
    }
}

#[test]
fn lines_of_the_cook_block() {
    for lines in of("cook") {
        assert_eq!(errors(&around(lines, "", "  lamb in oven\n  for 2 h", "  at 19:00")), [""; 0], "{lines}");
    }
}

#[test]
fn blocks_stand_beside_others() {
    for blocks in of("blocks") {
        assert_eq!(
            errors(&around("", blocks, "  lamb in oven\n  for 2 h", "  at 19:00")),
            [""; 0],
            "{blocks}"
        );
    }
}

/// Each line is a phase of its own: what it leaves unsaid, the place or the end, is added.
#[test]
fn every_line_of_a_phase_can_be_written() {
    for line in of("clauses").into_iter().flat_map(str::lines) {
        let tries = [(true, true), (true, false), (false, true), (false, false)].map(|(placed, ended)| {
            let place = if placed { "  lamb in oven\n" } else { "" };
            let end = if ended { "  for 2 h\n" } else { "" };
            errors(&around("", "", &format!("{place}  {line}\n{end}"), "  at Saturday 19:00"))
        });
        assert!(tries.iter().any(Vec::is_empty), "{line}: {tries:#?}");
    }
}

#[test]
fn every_line_of_a_serving_can_be_written() {
    for line in of("serving").into_iter().flat_map(str::lines) {
        assert_eq!(
            errors(&around("", "", "  lamb in oven\n  for 2 h", &format!("  {line}"))),
            [""; 0],
            "{line}"
        );
    }
}

#[test]
fn menus_name_their_dishes() {
    let dish = around("", "", "  lamb in oven\n  for 2 h", "  at 19:00");
    for menu in of("menu") {
        let files = [("menu.dwell", menu), ("lamb.dwell", &dish), ("pudding.dwell", &dish)];
        let (_, document, findings) = common::resolve_files(&files);
        assert!(findings.iter().all(|finding| finding.severity != Severity::Error), "{findings:#?}");
        assert!(matches!(document, Some(Document::Menu(menu)) if menu.dishes.len() == 2));
    }
}

#[test]
fn every_allergen_and_purpose_is_in_the_reference() {
    for (_, word) in dwell::cook::Allergen::ALL {
        assert!(REFERENCE.contains(&format!("`{word}`")), "{word}");
    }
    for purpose in dwell::cook::Purpose::WRITTEN {
        assert!(REFERENCE.contains(&format!("`{}`", purpose.words())), "{}", purpose.words());
    }
}
