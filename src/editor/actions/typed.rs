//! What a remedy says to type: a sentence for people keeps it between backticks.

/// The texts that are to be typed as they stand, in their order. What only shows how something reads (`like`, `such as`) is
/// none of them, nor what stands beside such an example.
pub fn exactly(remedy: &str) -> Vec<&str> {
    let mut pieces = remedy.split('`');
    let mut before = pieces.next().unwrap_or("");
    let (mut found, mut example) = (Vec::new(), false);
    while let (Some(typed), Some(after)) = (pieces.next(), pieces.next()) {
        let words = before.trim();
        example = match words {
            "or" | "," | ", or" | "and" => example,
            _ => ["like", "such as", "for example"].iter().any(|mark| words.ends_with(mark)),
        };
        if !example && !typed.contains('…') && !found.contains(&typed) {
            found.push(typed);
        }
        before = after;
    }
    found
}

#[cfg(test)]
#[test]
fn examples_are_not_to_be_typed() {
    assert_eq!(exactly("Write `15 min` or `15 h`."), ["15 min", "15 h"]);
    assert_eq!(exactly("Write it like `kit a is hob` or `kit from \"b\"`. Else `c`."), ["c"]);
    assert_eq!(exactly("Use it (`use the rest of …`)."), [""; 0]);
}
