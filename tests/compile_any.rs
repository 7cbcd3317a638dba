//! Whatever becomes of a cook on its way here, the whole compiler answers calmly: lines lost, doubled,
//! swapped and cut short in real cooks give findings that point into the text, and never a panic.

use dwell::compile::{Options, compile};
use dwell::output::{export, human, json, sarif, timelines, verdicts};
use dwell::quantity::Scale;
use proptest::prelude::*;

mod common;

#[derive(Debug, Clone)]
enum Slip {
    Drop(usize),
    Double(usize),
    Swap(usize, usize),
    /// Keeps this many characters of the line.
    Cut(usize, usize),
    /// Puts a line of the first place after the second.
    Move(usize, usize),
}

fn slip() -> impl Strategy<Value = Slip> {
    let line = 0..400_usize;
    prop_oneof![
        line.clone().prop_map(Slip::Drop),
        line.clone().prop_map(Slip::Double),
        (line.clone(), line.clone()).prop_map(|(a, b)| Slip::Swap(a, b)),
        (line.clone(), 0..40_usize).prop_map(|(at, keep)| Slip::Cut(at, keep)),
        (line.clone(), line).prop_map(|(a, b)| Slip::Move(a, b)),
    ]
}

fn apply(lines: &mut Vec<String>, slip: &Slip) {
    let count = lines.len().max(1);
    match *slip {
        _ if lines.is_empty() => {}
        Slip::Drop(at) => drop(lines.remove(at % count)),
        Slip::Double(at) => lines.insert(at % count, lines[at % count].clone()),
        Slip::Swap(a, b) => lines.swap(a % count, b % count),
        Slip::Cut(at, keep) => lines[at % count] = lines[at % count].chars().take(keep).collect(),
        Slip::Move(a, b) => {
            let line = lines.remove(a % count);
            let to = b % (lines.len() + 1);
            lines.insert(to, line);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, rng_seed: proptest::test_runner::RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn a_cook_with_slips_gives_findings_and_no_panic(
        which in 0..100_usize,
        slips in prop::collection::vec(slip(), 0..12),
        people in prop::option::of(1..500_u32),
    ) {
        let examples = common::examples();
        let files: Vec<(&str, &str)> =
            examples.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        let (name, text) = files[which % files.len()];
        let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
        for slip in &slips {
            apply(&mut lines, slip);
        }
        let text = lines.join("\n");
        // Where little is wrong, what may cure it is tried as well.
        let options = Options { serves: people, cures: slips.len() < 3, ..Options::default() };
        let compiled = compile(&common::Memory(&files), name.to_owned(), text.into_bytes(), &options);
        for finding in &compiled.findings {
            for span in std::iter::once(&finding.span).chain(finding.also.iter().map(|(span, _)| span)) {
                let text = &compiled.sources.get(span.file).text;
                prop_assert!(text.get(span.range()).is_some(), "{:?} of {:?}", span, finding.code);
            }
            prop_assert!(!finding.message.render(Scale::Celsius).trim().is_empty(), "{:?}", finding.code);
            prop_assert!(!finding.remedy.render(Scale::Celsius).trim().is_empty(), "{:?}", finding.code);
        }
        // Whoever shows it stays calm as well.
        for layout in [human::Layout::Plain, human::Layout::Graphical] {
            human::findings(&compiled.sources, &compiled.findings, compiled.scale, layout);
        }
        verdicts::table(&compiled);
        export::json(&compiled);
        timelines::text(&compiled);
        timelines::json(&compiled);
        // Most have no date, and so no calendar.
        let _ = timelines::ics(&compiled, Vec::new());
        let (mut json, mut sarif) = (json::Report::default(), sarif::Report::default());
        json.add(&compiled);
        json.text();
        sarif.add(&compiled);
        sarif.text();
    }
}
