//! Small cooks built around a few lines, and what is said of them.

use dwell::cook::{Cook, ItemId, Phase};
use dwell::findings::Finding;

/// A cook with one phase, `roast`, that holds these lines.
pub fn roast(lines: &str) -> String {
    with_stock("", lines)
}

/// The same with further stock or kit blocks.
pub fn with_stock(stock: &str, lines: &str) -> String {
    format!(
        "cook \"Leg of lamb\"\n  serves 8\n  rules uk\n\
         kit oven is oven\nkit fridge is fridge\nkit hob is hob\nkit bench is bench\n\
         kit probe is probe thermometer\n{stock}\n\
         food lamb is lamb leg\n  2.4 kg\n  thickness 9 cm\n  starts at 5 °C\n\
         phase roast is cook\n{lines}\n\
         serve lamb\n  at 19:00\n"
    )
}

/// A cook whose `food lamb` block holds these lines after its amount.
pub fn lamb(lines: &str) -> String {
    format!(
        "cook \"Leg of lamb\"\nkit oven is oven\nfood lamb is lamb leg\n{lines}\n\
         phase roast is cook\n  lamb in oven\n  air 140 °C\n  for 2 h\nserve lamb\n  at 19:00\n"
    )
}

/// A cook that uses up one ingredient, whose line reads on like this.
pub fn ingredient(line: &str) -> String {
    with_stock(
        &format!("ingredient thing is {line}"),
        "  lamb in oven\n  air 140 °C\n  use all thing\n  for 2 h",
    )
}

/// Code and text of each finding.
pub fn told(text: &str, findings: &[Finding]) -> Vec<(String, String)> {
    findings.iter().map(|f| (f.code.name().to_string(), text[f.span.range()].to_string())).collect()
}

/// What reading and naming say of a text: code, and the text it points at.
pub fn said(text: &str) -> Vec<(String, String)> {
    let (_, _, findings) = super::cook(text);
    told(text, &findings)
}

/// The cook; nothing may be said of it.
pub fn clean(text: &str) -> Cook {
    let (_, cook, findings) = super::cook(text);
    assert!(findings.is_empty(), "{:#?}\n{text}", told(text, &findings));
    cook.expect("a cook")
}

/// The one phase of [`roast`], of which nothing may be said.
pub fn phase(lines: &str) -> Phase {
    clean(&roast(lines)).phases.remove(0)
}

/// Exactly these findings: code and the text pointed at.
#[track_caller]
pub fn says(text: &str, expected: &[(&str, &str)]) {
    let found = said(text);
    let found: Vec<(&str, &str)> = found.iter().map(|(code, at)| (code.as_str(), at.as_str())).collect();
    assert_eq!(found, expected, "\n{text}");
}

/// What to type instead, of the one finding there is.
#[track_caller]
pub fn remedy(text: &str) -> String {
    let (_, _, findings) = super::cook(text);
    assert_eq!(findings.len(), 1, "{:#?}\n{text}", told(text, &findings));
    findings[0].remedy.render(Default::default())
}

pub fn item(cook: &Cook, name: &str) -> ItemId {
    cook.items().find(|(_, item)| item.name == name).map(|(id, _)| id).expect("such an item")
}

pub fn named<'c>(cook: &'c Cook, name: &str) -> &'c Phase {
    cook.phases.iter().find(|phase| phase.name == name).expect("such a phase")
}

/// Code and text of everything that the whole compiler says.
pub fn compiled(text: &str) -> Vec<(String, String)> {
    let files = super::Memory(&[]);
    let options = dwell::compile::Options::default();
    let compiled = dwell::compile::compile(&files, "test.dwell".into(), text.as_bytes().to_vec(), &options);
    told(text, &compiled.findings)
}

/// A cook with nothing to find fault with.
pub const GOOD: &str = r#"cook "Apples for the crew"
  serves 4
  rules us-food-code

kit bench is bench

food apples is apple
  4 pieces of 150 g
  starts at 18 °C

phase slice is prep
  apples on bench
  takes 5 min to 10 min

serve apples
  at 13:00, up to 15 min late
"#;

/// A hot hold at 48 °C; the Food Code 2022, 3-501.16 (A)(1), asks for 57 °C (135 °F).
pub const TOO_COOL: &str = r#"cook "Lamb left to wait"
  serves 6
  rules us-food-code

kit oven is oven
  air 40 °C to 250 °C
kit probe is probe thermometer

food lamb is lamb leg
  1 piece of 2.4 kg
  thickness 9 cm
  starts at 5 °C

phase roast is cook
  lamb in oven
  air 140 °C
  until core 63 °C, takes 1 h 45 min to 3 h

phase wait is hot hold
  lamb in oven
  air 48 °C
  covered
  for 1 h to 3 h

serve lamb
  at 19:00
"#;
