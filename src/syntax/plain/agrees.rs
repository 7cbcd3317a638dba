//! What is read here is what the grammar reads, on every line there is and on many that there are not.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use crate::syntax::reader::{self, Base};
use crate::text::{FileId, plain_blanks};

const BASE: Base = Base { file: FileId(3), offset: 1000 };

/// Lines of the examples, good and wrong, and of the language reference.
fn lines() -> Vec<String> {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut texts = vec![std::fs::read_to_string(root.join("tests/mistakes.toml")).unwrap()];
    for folder in ["examples", "examples/wrong", "examples/unsafe", "grammar"] {
        for entry in std::fs::read_dir(root.join(folder)).unwrap() {
            let path = entry.unwrap().path();
            if path.is_file() {
                texts.push(std::fs::read_to_string(path).unwrap());
            }
        }
    }
    texts.iter().flat_map(|text| text.lines()).map(str::to_string).collect()
}

/// For one of the common lines: does the grammar say the same of it?
fn compared(line: &str) -> Option<bool> {
    let plain = plain_blanks(line);
    let quick = super::read_line(&plain, BASE)?;
    let grammar = reader::read_line(&plain, BASE);
    Some(grammar.is_ok_and(|grammar| format!("{quick:?}") == format!("{grammar:?}")))
}

/// Was the line one of the common ones? If so, the grammar says the same of it.
fn agrees(line: &str) -> bool {
    let compared = compared(line);
    assert_ne!(compared, Some(false), "the grammar does not read this so: {line}");
    compared.is_some()
}

#[test]
fn on_every_line_of_the_examples_which_are_mostly_common_ones() {
    let all = lines();
    let read = all.iter().filter(|line| agrees(line)).count();
    assert!(read > 300, "{read} lines were compared");
    for name in ["chilli", "overnight-shoulder", "turkey-crown"] {
        let path = format!("{}/examples/{name}.dwell", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).unwrap();
        let inked: Vec<&str> = text.lines().filter(|line| !line.trim().is_empty()).collect();
        let common = inked.iter().filter(|line| agrees(line)).count();
        assert!(
            common * 10 >= inked.len() * 8,
            "{name}: {common} of {} lines are quick to read",
            inked.len()
        );
    }
}

/// Every clause word with what may follow one, up to three things of it.
#[test]
fn on_every_clause_word_with_whatever_follows_it() {
    let joints = [
        "of", "to", "is", "or", "half", "rest", "each", "at", "from", "with", "up", "least", "end", "loss",
        "bagged", "do", "late", "salt", "core", "on", "the", "all", "and", "in", "noon", "Saturday",
        "starts", "ends", "\"x\"", "5 min", "4 am", "4 °C", "18:30", ",",
    ];
    let last = &joints[joints.len() - 14..];
    let mut lines = Vec::new();
    for word in super::super::forms::words().chain(["beech", "5 g"]) {
        for first in joints {
            lines.push(format!("{word} {first}"));
            for second in joints {
                lines.push(format!("{word} {first} {second}"));
                lines.extend(last.iter().map(|third| format!("{word} {first} {second} {third}")));
            }
        }
    }
    let common: Vec<(&String, bool)> =
        lines.iter().filter_map(|line| Some((line, compared(line)?))).collect();
    let otherwise: Vec<&String> = common.iter().filter(|(_, same)| !same).map(|(line, _)| *line).collect();
    assert!(otherwise.is_empty(), "the grammar reads these otherwise: {otherwise:#?}");
    assert!(common.len() > 3_000, "{} lines were compared", common.len());
}

/// Words of the language and of its lines, in any order.
fn scrambled() -> impl Strategy<Value = String> {
    let mut words: Vec<String> = lines()
        .iter()
        .flat_map(|line| line.split_inclusive([' ', ',', '"']).map(str::to_string).collect::<Vec<_>>())
        .collect();
    words.extend(super::super::forms::words().map(|word| format!("{word} ")));
    let signs =
        ["in ", "on ", "and ", "the ", "of ", "to ", "is ", "or ", "each", ",", ", ", "\"", "//", "(", ")"];
    words.extend(signs.map(String::from));
    words.extend(
        ["½", "±", "– ", "-", "°C ", "° C", "1/2 ", "5 ", ".5", "in", "fl oz ", "é", "Saturday"]
            .map(String::from),
    );
    prop::collection::vec(prop::sample::select(words), 1..7).prop_map(|words| words.concat())
}

/// A line of the examples with something put in, taken out or doubled.
fn bent() -> impl Strategy<Value = String> {
    let put = [
        "",
        " ",
        ",",
        ", ",
        "\"",
        " // remark",
        " and ",
        " the ",
        "½",
        "1 ",
        " in ",
        " on ",
        " or above",
        "é",
        ".",
        "(",
        ")",
        "-",
        "–",
        "%",
        "±",
        " each",
        "of ",
        "is ",
        "5 min ",
        "°",
        "all ",
        "half ",
        "0",
        "/",
    ];
    (
        prop::sample::select(lines()),
        prop::sample::select(put.to_vec()),
        any::<prop::sample::Index>(),
        0..9_usize,
    )
        .prop_map(|(line, put, at, drop)| {
            let boundaries: Vec<usize> = (0..=line.len()).filter(|&at| line.is_char_boundary(at)).collect();
            let nth = at.index(boundaries.len());
            let resume = (nth + drop.saturating_sub(5)).min(boundaries.len() - 1);
            format!("{}{put}{}", &line[..boundaries[nth]], &line[boundaries[resume]..])
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 20_000, rng_seed: RngSeed::Fixed(1), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn on_words_in_any_order(line in scrambled()) {
        agrees(&line);
    }

    #[test]
    fn on_lines_bent_out_of_shape(line in bent()) {
        agrees(&line);
    }

    #[test]
    fn on_two_facts_put_on_one_line(one in bent(), two in bent()) {
        agrees(&format!("{one}, {}", two.trim_start()));
    }
}
