//! Findings of the kit stage over texts in memory.

use dwell::findings::{Code, Finding};

/// What resolving finds, and what the kit stage finds after it.
pub fn findings(text: &str) -> (Vec<Finding>, Vec<Finding>) {
    let (_, cook, resolved) = super::cook(text);
    let cook = cook.expect("a cook");
    let (ledger, _) = dwell::ledger::balance(&cook);
    (resolved, dwell::kit::check(&cook, &ledger))
}

/// Codes of the kit stage and the text they point at. The text has to resolve without a fault.
pub fn faults(text: &str) -> Vec<(String, String)> {
    let (resolved, kit) = findings(text);
    let grave: Vec<_> = resolved.iter().filter(|f| f.severity == dwell::findings::Severity::Error).collect();
    assert!(grave.is_empty(), "{grave:#?}\n{text}");
    kit.iter().map(|f| (f.code.name().to_string(), text[f.span.range()].to_string())).collect()
}

/// The one finding there is, which has this code.
pub fn one(text: &str, code: Code) -> Finding {
    let (_, mut kit) = findings(text);
    assert_eq!(kit.iter().map(|f| f.code).collect::<Vec<_>>(), [code], "{kit:#?}\n{text}");
    kit.remove(0)
}

/// The classes of kit: the language, edition 1, table of blocks.
pub const CLASSES: [&str; 17] = [
    "oven",
    "fan oven",
    "steam oven",
    "smoking cabinet",
    "holding cabinet",
    "water bath",
    "slow cooker",
    "hob",
    "griddle",
    "fryer",
    "fridge",
    "freezer",
    "blast chiller",
    "ice bath",
    "bench",
    "insulated box",
    "probe thermometer",
];
