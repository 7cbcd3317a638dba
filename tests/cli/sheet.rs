//! `dwell sheet` from outside.

use crate::support::{Folder, GOOD, TOO_COOL};

#[test]
fn the_page_is_whole_in_its_file_and_the_same_on_standard_output() {
    let folder = Folder::with("apples.dwell", GOOD);
    let ran = folder.run(&["sheet", "apples.dwell", "-o", "apples.html"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(0), ""), "{ran:?}");
    assert_eq!(folder.names(), ["apples.dwell", "apples.html"]);
    let page = std::fs::read_to_string(folder.path("apples.html")).expect("the page");
    assert!(page.starts_with("<!DOCTYPE html>") && page.ends_with("</html>\n"), "{page}");
    assert_eq!(folder.run(&["sheet", "apples.dwell"]).out, page);
}

#[test]
fn a_pdf_is_refused_before_anything_is_read_and_the_way_round_is_named() {
    let folder = Folder::with("apples.dwell", GOOD);
    for name in ["apples.pdf", "APPLES.PDF"] {
        let ran = folder.run(&["sheet", "apples.dwell", "-o", name]);
        assert_eq!(ran.status, Some(2), "{ran:?}");
        assert!(ran.err.contains("no PDF") && ran.err.contains("-o NAME.html"), "{}", ran.err);
    }
    assert_eq!(folder.names(), ["apples.dwell"]);
}

#[test]
fn a_cook_with_errors_still_gets_its_sheet_and_the_status_says_so() {
    let folder = Folder::with("lamb.dwell", TOO_COOL);
    let ran = folder.run(&["sheet", "lamb.dwell", "-o", "lamb.html"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.err.contains("[hold-too-cool]"), "{}", ran.err);
    let page = std::fs::read_to_string(folder.path("lamb.html")).expect("the page").replace('\u{a0}', " ");
    assert!(page.contains("CAUTION: lamb.dwell has 1 error."), "{page}");
}

#[test]
fn nothing_is_written_of_what_is_not_understood_or_is_no_cook() {
    let folder = Folder::with("apples.dwell", GOOD.replace("is apple", "is appel"));
    folder.file("kitchen.dwell", "kit oven is oven\n");
    assert_eq!(folder.run(&["sheet", "apples.dwell", "-o", "apples.html"]).status, Some(1));
    let ran = folder.run(&["sheet", "kitchen.dwell", "-o", "kitchen.html"]);
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert!(ran.err.contains("no cook"), "{}", ran.err);
    assert_eq!(folder.names(), ["apples.dwell", "kitchen.dwell"]);
}

#[test]
fn another_serving_time_moves_the_plan_on_the_wall() {
    let folder = Folder::with("apples.dwell", GOOD);
    let page = folder.run(&["sheet", "apples.dwell", "--serve", "19:30"]).out.replace('\u{a0}', " ");
    assert!(page.contains("Serve apples between 19:30 and 19:45"), "{page}");
}
