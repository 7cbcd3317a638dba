//! How fast a typed cook becomes a timeline, findings and all.
//!
//! Run with `cargo bench --bench planning`. The targets: 1 ms for one cook, 100 ms for the club supper, 2 s
//! for twelve dishes, whether they can be on time or not, and 10 s for thirty.

#[path = "../common/regatta.rs"]
mod regatta;

use dwell::compile::{Compiled, compile};
use dwell::cook::{Cook, Document};
use dwell::resolve::{Context, resolve_text};
use dwell::tables::Tables;
use dwell::text::{FileProblem, Files};
use dwell::timing::{Dish, OnTime, Options, Planned, plan, plan_menu};

/// The club's kit, which the examples name.
struct Kitchen;

impl Files for Kitchen {
    fn read(&self, _from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        let kit = include_bytes!("../../examples/clubhouse.dwell");
        if path == "clubhouse.dwell" { Ok((path.into(), kit.to_vec())) } else { Err(FileProblem::Missing) }
    }
}

fn main() {
    divan::main();
}

fn typed(text: &str) -> Cook {
    let rule_sets = ["us-food-code".to_string(), "uk".to_string()];
    let context = Context { files: &Kitchen, tables: Tables::built_in(), rule_sets: &rule_sets };
    match resolve_text(&context, "cook.dwell", text) {
        (_, Some(Document::Cook(cook)), findings) if findings.is_empty() => *cook,
        (_, _, findings) => panic!("{findings:#?}"),
    }
}

const SHOULDER: &str = include_str!("../../examples/overnight-shoulder.dwell");

#[divan::bench]
fn overnight_shoulder(bencher: divan::Bencher<'_, '_>) {
    let cook = typed(SHOULDER);
    bencher.bench_local(|| {
        let (timeline, findings) = plan(divan::black_box(&cook), &Options::default());
        assert!(timeline.on_time == OnTime::Always && findings.is_empty());
        timeline
    });
}

/// The same with an hour less of smoke: it is never on time, and cures are looked for.
#[divan::bench]
fn overnight_shoulder_too_short(bencher: divan::Bencher<'_, '_>) {
    let cook = typed(&SHOULDER.replace("for 6 h", "for 5 h"));
    bencher.bench_local(|| {
        let (timeline, findings) = plan(divan::black_box(&cook), &Options::default());
        assert!(timeline.on_time == OnTime::Never && findings.len() == 1);
        timeline
    });
}

/// Two food lines.
#[divan::bench]
fn turkey_crown(bencher: divan::Bencher<'_, '_>) {
    let cook = typed(include_str!("../../examples/turkey-crown.dwell"));
    bencher.bench_local(|| plan(divan::black_box(&cook), &Options::default()));
}

/// Files at hand.
struct Texts(Vec<(String, String)>);

impl Files for Texts {
    fn read(&self, _from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        let found = self.0.iter().find(|(name, _)| name == path);
        found.map(|(name, text)| (name.clone(), text.clone().into_bytes())).ok_or(FileProblem::Missing)
    }
}

fn menu(files: Vec<(String, String)>) -> Compiled {
    let (name, text) = files[0].clone();
    compile(&Texts(files), name, text.into_bytes(), &dwell::compile::Options::default())
}

fn planned(compiled: &Compiled) -> Planned {
    let Some(Document::Menu(menu)) = &compiled.document else { panic!("a menu") };
    let cooks = compiled.cooks();
    let dishes: Vec<Dish<'_>> = cooks.iter().map(|one| Dish { cook: one.cook, ledger: one.ledger }).collect();
    let options = Options { serve: menu.serve.as_ref().map(|serve| serve.value), ..Options::default() };
    plan_menu(&menu.title, &dishes, &vec![options; dishes.len()])
}

fn always(compiled: &Compiled) -> Planned {
    let planned = planned(compiled);
    assert_eq!(planned.whole.on_time, OnTime::Always);
    planned
}

/// Three dishes for forty, one of them overnight.
#[divan::bench]
fn club_supper(bencher: divan::Bencher<'_, '_>) {
    let files = [
        ("club-supper.dwell", include_str!("../../examples/club-supper.dwell")),
        ("clubhouse.dwell", include_str!("../../examples/clubhouse.dwell")),
        ("overnight-shoulder.dwell", SHOULDER),
        ("baked-beans.dwell", include_str!("../../examples/baked-beans.dwell")),
        ("roast-celeriac.dwell", include_str!("../../examples/roast-celeriac.dwell")),
    ];
    let compiled = menu(files.map(|(name, text)| (name.to_owned(), text.to_owned())).to_vec());
    bencher.bench_local(|| always(divan::black_box(&compiled)));
}

/// How the cost grows with the dishes of a menu.
#[divan::bench(args = [2, 4, 8, 12, 18, 24, 30], max_time = 10)]
fn regatta_dishes(bencher: divan::Bencher<'_, '_>, dishes: usize) {
    let compiled = menu(regatta::files(dishes));
    bencher.bench_local(|| always(divan::black_box(&compiled)));
}

/// Menus that cannot be: the verdict, the dishes that clash, and what was tried as a cure.
#[divan::bench(args = regatta::IMPOSSIBLE, sample_count = 1, sample_size = 1)]
fn regatta_that_cannot_be(bencher: divan::Bencher<'_, '_>, which: &regatta::Impossible) {
    let compiled = menu(which.files());
    bencher.bench_local(|| {
        let planned = planned(divan::black_box(&compiled));
        assert_ne!(planned.whole.on_time, OnTime::Always);
        planned
    });
}
