//! The plan as people see it: how it may go, and the picture in letters.

mod common;

use dwell::cook::{Cook, Document};
use dwell::output::timeline::text;
use dwell::quantity::Scale;
use dwell::timing::{Options, Timeline, plan};
use unicode_width::UnicodeWidthStr;

fn cook(name: &str, edit: impl Fn(&str) -> String) -> Cook {
    let all = common::examples();
    let of = |wanted: &str| &all.iter().find(|(name, _)| name == wanted).expect("an example").1;
    let (text, kit) = (edit(of(name)), of("clubhouse.dwell"));
    match common::resolve_files(&[("test.dwell", &text), ("clubhouse.dwell", kit)]) {
        (_, Some(Document::Cook(cook)), _) => *cook,
        (_, _, findings) => panic!("{name}: {findings:#?}"),
    }
}

fn timeline(name: &str) -> Timeline {
    plan(&cook(name, str::to_owned), &outlook()).0
}

fn outlook() -> Options {
    Options { outlook: true, ..Options::default() }
}

/// The rows of the picture: the name, and its cells.
fn rows(page: &str) -> Vec<(String, String)> {
    let picture = page.split("At a glance\n").nth(1).expect("a picture");
    let row = |line: &str| {
        let name: String = line.chars().take(22).collect();
        (name.trim().to_owned(), line.chars().skip(22).collect())
    };
    picture.lines().skip(2).map(row).collect()
}

/// By hand: the start between 22:00 and 22:05, 30 to 50 min of bench, 6 h of smoke; what the hold takes up is what is left
/// between the wrapping (10 to 20 min) and the pulling at 16:45 to 17:50.
#[test]
fn what_nature_stretches_is_taken_up_by_the_hold() {
    let page = text(&timeline("overnight-shoulder.dwell"), Scale::Celsius);
    let words = page.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "If set-crust takes 2 h, it ends 06:30 to 06:55, and wait then lasts 9 h 30 min to 11 h 10 min.",
        "If it takes 4 h, it ends 08:30 to 08:55, and wait then lasts 8 h to 9 h 10 min.",
        // 8 h of `wait`, 30 min of `keep` and the longest of the work make 9 h 15 min up to 18:45.
        "08:55 set-crust: up to 35 min more than its 4 h, 09:30 at the latest, dinner is still on time, with a shorter wait.",
    ] {
        assert!(words.contains(said), "{said}\n{page}");
    }
}

#[test]
fn nothing_is_branched_where_nothing_is_promised_or_little_varies() {
    let tight = |text: &str| text.replace("takes 2 h to 4 h", "takes 2 h to 2 h 20 min");
    let cook = cook("overnight-shoulder.dwell", tight);
    let tight = plan(&cook, &outlook()).0;
    assert!(tight.branches.is_empty() && !tight.overruns.is_empty());
    let late = plan(&cook, &Options { serve: None, ..Options::default() }).0;
    assert!(late.branches.is_empty() && late.overruns.is_empty(), "it was not asked for");
}

#[test]
fn the_picture_fits_the_page_and_has_a_row_for_each_phase() {
    for name in [
        "overnight-shoulder.dwell",
        "turkey-crown.dwell",
        "chilli.dwell",
        "baked-beans.dwell",
        "short-rib.dwell",
    ] {
        let timeline = timeline(name);
        let page = text(&timeline, Scale::Celsius);
        let rows = rows(&page);
        assert_eq!(rows.len(), timeline.phases.len(), "{name}\n{page}");
        for (row, phase) in rows.iter().zip(&timeline.phases) {
            assert!(phase.name.starts_with(&row.0), "{name}: {} in the row of {}", row.0, phase.name);
            assert!(row.1.contains(['█', '▒']), "{name}: nothing in the row of {}", phase.name);
        }
        assert!(page.lines().all(|line| line.width() <= 80), "{name}\n{page}");
    }
}

/// Each column is half an hour from 22:00 on: what is drawn has to agree with the windows of the plan.
#[test]
fn the_cells_are_where_the_windows_are() {
    let timeline = timeline("overnight-shoulder.dwell");
    let page = text(&timeline, Scale::Celsius);
    let first =
        timeline.phases.iter().filter_map(|phase| phase.start).map(|start| start.earliest).min().unwrap();
    assert_eq!(timeline.clock.time_of_day(first), "22:00");
    for ((name, cells), phase) in rows(&page).iter().zip(&timeline.phases) {
        let (start, end) = (phase.start.unwrap(), phase.end.unwrap());
        for (column, cell) in cells.chars().enumerate() {
            let (left, right) = (first + 30 * column as i64, first + 30 * (column as i64 + 1));
            let sure = start.latest < right && left < end.earliest && start.latest < end.earliest;
            let perhaps = start.earliest < right && left < end.latest.max(start.latest + 1);
            let expected = if sure {
                '█'
            } else if perhaps {
                '▒'
            } else {
                cell
            };
            assert_eq!(cell, expected, "{name}, column {column}\n{page}");
            let asleep = timeline.asleep.iter().any(|&(a, b)| a <= left && right <= b + 1);
            if !perhaps {
                assert_eq!(cell, if asleep { '·' } else { ' ' }, "{name}, column {column}\n{page}");
            }
        }
    }
}
