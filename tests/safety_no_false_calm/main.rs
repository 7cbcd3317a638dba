//! No false calm: whole cooks that a crude judge calls unsafe are refused, each by an error about that very rule.
//!
//! Cooks are drawn at random and compiled. `crude.rs` judges the predicted core from minute to minute by three rules: hot
//! holding, cooling after the heat, and the way up. What is unsafe as usually predicted has to be an error. What is so
//! only on the bound, or by no more than a coarse run may be off, has to be a warning at least, or to be refused for
//! something else. At the ends of what the cook may choose the same holds, or it is refused for something else.
//!
//! Counted besides is what is said of cooks that are comfortably inside every limit (`comfort.rs`). Nothing is said of them
//! by these three rules on account of a prediction. A few alarms come of what is written, which is judged before any
//! curve: a hold whose tolerance dips below the limit, though the food is hotter all through it.
//!
//! Run so far: 35,000 cooks in the release build (`DWELL_DRAWS=35000 DWELL_SEED=7 cargo test --release --test
//! safety_no_false_calm -- --nocapture`, 2 min on two cores). 11,816 were unsafe as usually predicted (holds 3,968,
//! cooling 5,016, ways up 3,241, some by more than one), and all were refused, each by its own rule. Of some 14,000 that are
//! unsafe only on the bound, one had no warning of its own (a way up that ends out of reach, of which another warning
//! tells), and of the ends of choices one hold was doubted where it is to be refused: that run fails by these two. 3,073
//! cooks were comfortable: 42 of them with an alarm by these rules, 41 of what is written and one of a prediction, and 12 by
//! another rule. Of 7,302 that are comfortable as usually predicted, 2,357 are warned of, since the bounds are not.

mod comfort;
#[path = "../common/mod.rs"]
mod common;
mod cooks;
mod crude;
mod drawing;
mod found;

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicU64, Ordering};

use common::dice::Dice;
use cooks::{Choice, Written};
use crude::{Grade, Part};
use dwell::compile::{Compiled, Options, compile};
use dwell::findings::{Finding, Severity, Stage};
use dwell::quantity::Scale;

/// Cooks of every run.
const USUAL_DRAWS: u64 = 2_000;

fn number(name: &str, usual: u64) -> u64 {
    std::env::var(name).ok().map_or(usual, |said| said.parse().expect("a number"))
}

/// One number from two (splitmix64, Steele, Lea and Flood 2014), so that each cook has dice of its own.
fn mixed(seed: u64, nth: u64) -> u64 {
    let mut z = (seed << 40 | nth).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    (z ^ (z >> 31)) | 1
}

fn compiled(text: &str) -> Compiled {
    let files = common::Memory(&[]);
    let compiled = compile(&files, "draw.dwell".into(), text.into(), &Options::default());
    assert!(compiled.understood(), "{text}\n{}", said(&compiled));
    compiled
}

fn said(compiled: &Compiled) -> String {
    let line = |f: &Finding| {
        let phase = f.phase.as_deref().unwrap_or("-");
        format!("{} {} {phase}: {}\n", f.code.name(), f.severity.name(), f.message.render(Scale::Celsius))
    };
    compiled.findings.iter().map(line).collect()
}

/// The gravest that is said with one of these codes, of one phase or of any.
fn answer(compiled: &Compiled, codes: &[&str], phase: Option<usize>) -> Grade {
    let name = phase.map(|nth| format!("p{nth}"));
    let about = |f: &&Finding| {
        codes.contains(&f.code.name()) && (name.is_none() || f.phase.as_deref() == name.as_deref())
    };
    let grade = |f: &Finding| match f.severity {
        Severity::Error => Grade::Unsafe,
        Severity::Warning => Grade::Doubt,
        _ => Grade::Calm,
    };
    compiled.findings.iter().filter(about).map(grade).max().unwrap_or(Grade::Calm)
}

/// What was counted, by what it was.
type Tally = BTreeMap<String, u64>;

#[derive(Default)]
struct Seen {
    tally: Tally,
    calm: Vec<String>,
    alarms: Vec<String>,
}

impl Seen {
    fn count(&mut self, what: impl Into<String>) {
        *self.tally.entry(what.into()).or_default() += 1;
    }

    fn of(&self, what: &str) -> u64 {
        self.tally.get(what).copied().unwrap_or(0)
    }

    fn starting(&self, with: &str) -> u64 {
        self.tally.iter().filter(|(what, _)| what.starts_with(with)).map(|(_, n)| n).sum()
    }

    fn take_in(&mut self, other: Self) {
        other.tally.into_iter().for_each(|(what, n)| *self.tally.entry(what).or_default() += n);
        self.calm.extend(other.calm);
        self.alarms.extend(other.alarms);
    }
}

const HOLD: &[&str] = &["hold-too-cool", "hold-entered-cold"];
const COOL: &[&str] = &["cool-too-slow"];
const WAY_UP: &[&str] = &["come-up-too-slow"];

/// What the crude judge says of each rule, and what was said.
fn graded(written: &Written, curves: &Compiled, answers: &Compiled) -> Vec<(&'static str, Grade, Grade)> {
    let parts = crude::parts(written, curves.cooks()[0].curves);
    let mut all: Vec<(&'static str, Grade, Grade)> = Vec::new();
    for (nth, grade) in crude::holds(written, &parts) {
        all.push(("hold", grade, answer(answers, HOLD, Some(nth))));
    }
    let cooling = crude::coolings(written, &parts).into_iter().max().unwrap_or(Grade::Calm);
    all.push(("cooling", cooling, answer(answers, COOL, None)));
    all.push(("way up", crude::way_up(written, &parts), answer(answers, WAY_UP, None)));
    all
}

fn refused(found: &Compiled) -> bool {
    found.findings.iter().any(|f| f.severity == Severity::Error && f.code.stage() == Stage::Safety)
}

fn draw(seed: u64, nth: u64, seen: &mut Seen) {
    let written = Written::random(&mut Dice(mixed(seed, nth)));
    let text = written.text(Choice::Left);
    let found = compiled(&text);
    seen.count("cooks");
    if !found.cooks()[0].curves.unpredicted.is_empty() {
        seen.count("cooks, not predicted to the end");
    }
    let mut worst = Grade::Calm;
    let mut judge = |curves: &Compiled, which: &str, seen: &mut Seen| {
        for (rule, grade, answer) in graded(&written, curves, &found) {
            if grade == Grade::Calm {
                continue;
            }
            // What it is refused for besides is answer enough where it is only a doubt, or hangs on a choice.
            let besides = answer < grade && refused(&found) && (grade == Grade::Doubt || !which.is_empty());
            let answered = if besides { "besides" } else { answer.name() };
            seen.count(format!("{rule}{which}: {}, answered {answered}", grade.name()));
            if which.is_empty() {
                worst = worst.max(grade);
            }
            if answer < grade && !besides {
                seen.calm.push(format!(
                    "{rule}{which}: {} is answered by {answered}, seed {seed} cook {nth}\n{text}\n{}",
                    grade.name(),
                    said(&found)
                ));
            }
        }
    };
    judge(&found, "", seen);
    let mut ways = vec![crude::parts(&written, found.cooks()[0].curves)];
    if written.leaves_a_choice() {
        for (choice, which) in [(Choice::Least, " at the least"), (Choice::Most, " at the most")] {
            let end = compiled(&written.text(choice));
            judge(&end, which, seen);
            ways.push(crude::parts(&written, end.cooks()[0].curves));
        }
    }
    if worst == Grade::Unsafe {
        seen.count("unsafe cooks");
        seen.count(if refused(&found) { "unsafe cooks, refused" } else { "unsafe cooks, let pass" });
    }
    if ways.iter().all(|parts| parts.len() == written.steps.len()) {
        alarms(&written, &found, &ways, &format!("seed {seed} cook {nth}\n{text}"), seen);
    }
}

/// What is said of cooks that are comfortably inside every limit, whatever is chosen.
fn alarms(written: &Written, found: &Compiled, ways: &[Vec<Part>], text: &str, seen: &mut Seen) {
    let three = |f: &Finding| [HOLD, COOL, WAY_UP].concat().contains(&f.code.name());
    let usual: Vec<Vec<Part>> = ways.iter().map(|way| way.iter().map(Part::as_usual).collect()).collect();
    if usual.iter().all(|way| comfort::comfortable(written, way)) {
        seen.count("comfortable cooks, by the usual prediction");
        let gravest = found.findings.iter().filter(|f| three(f)).map(|f| f.severity).min();
        if let Some(gravest) = gravest {
            seen.count(format!(
                "comfortable cooks, by the usual prediction, {} all the same",
                gravest.name()
            ));
        }
    }
    if !ways.iter().all(|way| comfort::comfortable(written, way)) {
        return;
    }
    seen.count("comfortable cooks");
    let roomy = ways.iter().all(|way| comfort::roomy(written, way));
    if roomy {
        seen.count("comfortable cooks, by the other rules too");
    }
    for finding in &found.findings {
        let graver = finding.code.stage() == Stage::Safety && finding.severity != Severity::Note;
        if !graver || !(roomy || three(finding)) {
            continue;
        }
        let message = finding.message.render(Scale::Celsius);
        let predicted = message.starts_with("As predicted") || message.starts_with("At the ");
        let by = if predicted { "predicted" } else { "written" };
        let other = if three(finding) { "" } else { " by another rule" };
        let what = format!("false alarm{other}, {by}: {} {}", finding.code.name(), finding.severity.name());
        seen.alarms.push(format!("{what}, {text}\n{}", said(found)));
        seen.count(what);
    }
}

fn drawn() -> Seen {
    let (seed, draws) = (number("DWELL_SEED", 5), number("DWELL_DRAWS", USUAL_DRAWS));
    let next = AtomicU64::new(0);
    let work = || {
        let mut seen = Seen::default();
        loop {
            let nth = next.fetch_add(1, Ordering::Relaxed);
            if nth >= draws {
                return seen;
            }
            draw(seed, nth, &mut seen);
        }
    };
    let mut seen = Seen::default();
    std::thread::scope(|scope| {
        let workers = [scope.spawn(work), scope.spawn(work)];
        workers.into_iter().for_each(|worker| seen.take_in(worker.join().expect("a worker")));
    });
    seen
}

#[test]
fn what_the_crude_judge_refuses_is_refused_and_what_is_comfortable_is_hardly_ever() {
    let seen = drawn();
    for (what, n) in &seen.tally {
        println!("{n:7} {what}");
    }
    for told in seen.alarms.iter().chain(&seen.calm) {
        println!("{told}");
    }
    assert!(seen.calm.is_empty(), "{} false calms", seen.calm.len());
    let cooks = seen.of("cooks");
    assert_eq!(seen.of("unsafe cooks"), seen.of("unsafe cooks, refused"));
    // Enough of each, or the test says nothing.
    for rule in ["hold", "cooling", "way up"] {
        assert!(seen.of(&format!("{rule}: unsafe, answered unsafe")) > cooks / 20, "{rule}");
    }
    let comfortable = seen.of("comfortable cooks");
    assert!(comfortable > cooks / 50 && seen.of("comfortable cooks, by the other rules too") > cooks / 150);
    assert_eq!(seen.starting("false alarm, predicted"), 0);
    assert!(
        seen.starting("false alarm") <= comfortable / 10,
        "{} of {comfortable}",
        seen.starting("false alarm")
    );
}
