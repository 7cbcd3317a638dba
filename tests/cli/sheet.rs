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

/// One with the feature is looked at in `tests/sheet_pdf.rs`.
#[cfg(not(feature = "pdf"))]
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

#[test]
fn a_page_is_taken_instead_of_its_text_and_gives_it_back() {
    let folder = Folder::with("apples.dwell", GOOD);
    folder.run(&["sheet", "apples.dwell", "-o", "shared.html"]);
    let page = std::fs::read(folder.path("shared.html")).expect("the page");
    std::fs::remove_file(folder.path("apples.dwell")).expect("it was there");
    for command in ["timeline", "curve", "buy", "prep", "export", "sheet"] {
        let of_page = folder.run(&[command, "shared.html"]);
        folder.file("apples.dwell", GOOD);
        let of_text = folder.run(&[command, "apples.dwell"]);
        std::fs::remove_file(folder.path("apples.dwell")).expect("it was there");
        assert_eq!(of_page.status, Some(0), "{of_page:?}");
        assert_eq!(of_page.out.replace("shared.html#", ""), of_text.out, "{command}");
    }
    let ran = folder.run(&["check", "shared.html"]);
    assert!(ran.out.starts_with("shared.html#apples.dwell: no errors"), "{ran:?}");
    assert_eq!(folder.run(&["fmt", "--check", "shared.html"]).status, Some(0));
    assert_eq!(folder.run(&["source", "shared.html"]).out, GOOD);
    assert_eq!(folder.run(&["source", "shared.html", "-o", "back.dwell"]).status, Some(0));
    assert_eq!(std::fs::read_to_string(folder.path("back.dwell")).expect("the text"), GOOD);
    assert_eq!(std::fs::read(folder.path("shared.html")).expect("the page"), page);
}

#[test]
fn nothing_writes_text_over_a_page() {
    let folder = Folder::with("apples.dwell", GOOD.replace("  serves", "    serves"));
    folder.run(&["sheet", "apples.dwell", "-o", "shared.html"]);
    let page = std::fs::read(folder.path("shared.html")).expect("the page");
    let ran = folder.run(&["fmt", "shared.html"]);
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert!(ran.err.contains("dwell source"), "{}", ran.err);
    let ran = folder.run(&["fmt", "--check", "shared.html"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(1), "shared.html\n"), "{ran:?}");
    let ran = folder.run(&["source", "shared.html", "-o", "./shared.html"]);
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert_eq!(std::fs::read(folder.path("shared.html")).expect("the page"), page);
}

#[test]
fn what_carries_no_text_is_named() {
    let folder = Folder::with("other.html", "<!DOCTYPE html><title>x</title>");
    folder.file("apples.dwell", GOOD);
    let ran = folder.run(&["check", "other.html"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.err.contains("[file-unreadable]") && ran.err.contains("carries no cook"), "{}", ran.err);
    assert_eq!(folder.run(&["source", "other.html"]).status, Some(2));
    assert_eq!(folder.run(&["source", "apples.dwell"]).status, Some(2));
    folder.run(&["sheet", "apples.dwell", "-o", "shared.html"]);
    let ran = folder.run(&["source", "shared.html", "pears.dwell"]);
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert!(ran.err.contains("there are: apples.dwell"), "{}", ran.err);
}

#[test]
fn the_options_of_a_sheet_stand_beside_its_text() {
    let folder = Folder::with("apples.dwell", GOOD);
    let page = folder.run(&["sheet", "apples.dwell", "--serves", "8", "--fahrenheit"]).out;
    assert!(page.contains("<code>--serves 8 --fahrenheit</code>"), "{page}");
}
