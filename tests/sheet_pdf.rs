//! The sheet as a PDF: it says what the page says, all of it within the paper, and stays a sheet whatever stands in the
//! file. It is read by tools that know nothing of how it was made (poppler-utils).
#![cfg(feature = "pdf")]

mod common;

use std::path::Path;
use std::process::Command;

use common::paper::{dense, heads, orphans, plain, told};
use common::sheets::{example_with_outlook as example, of_text, page};
use dwell::output::pdf::{Paper, Printed, print};
use dwell::output::sheet::{self, Part, Wanted};
use dwell::output::timelines;

fn printed(page: &str, paper: Paper) -> Printed {
    print(page, paper).expect("a PDF")
}

/// The text of each page in the order in which it is drawn, without its number.
fn pages(pdf: &[u8]) -> Vec<String> {
    let text = told(pdf, "pdftotext", &["-raw"]);
    let pages: Vec<&str> = text.split_terminator('\u{c}').collect();
    let numbered = pages.iter().enumerate().map(|(n, page)| {
        let number = format!("{} of {}", n + 1, pages.len());
        let rest = page.trim_end().strip_suffix(&number).unwrap_or_else(|| panic!("no {number}: {page}"));
        rest.trim_end().to_owned()
    });
    numbered.collect()
}

/// Pieces of text of an HTML page, each with the tag before it; without what is not meant for paper.
fn pieces(page: &str) -> Vec<(String, String)> {
    let mut rest = page.split_once("<body>").expect("a body").1;
    let mut pieces = Vec::new();
    while let Some((tag, after)) = rest.split_once('>') {
        let tag = tag.trim_start_matches('<');
        let name = tag.split(' ').next().unwrap_or_default();
        let unseen = ["svg", "script"].contains(&name)
            || ["span class=\"unseen\"", "span class=\"as-a-file\""].contains(&tag);
        let (piece, following) = if unseen {
            ("", after.split_once(&format!("</{name}>")).expect("its end").1)
        } else {
            after.split_at(after.find('<').unwrap_or(after.len()))
        };
        let piece = plain(piece);
        if !piece.trim().is_empty() {
            pieces.push((tag.to_owned(), piece));
        }
        rest = following;
    }
    pieces
}

/// Everything on the page is in the PDF, in its order.
fn assert_says_all(page: &str, pdf: &[u8]) {
    let said = dense(&pages(pdf).join("\n"));
    let mut at = 0;
    for (tag, piece) in pieces(page) {
        // A line of the source by itself, since the page may end in between.
        for line in piece.lines().filter(|line| !line.trim().is_empty()) {
            // The first letter may have been made a capital.
            let line = dense(line);
            let rest = line.chars().next().map_or("", |first| &line[first.len_utf8()..]);
            let found = said[at..].find(rest);
            let found = found.unwrap_or_else(|| panic!("{line} (after {tag}) is not in {}", &said[at..]));
            at += found + rest.len();
        }
    }
}

/// Nothing reaches over the margins.
fn assert_within_the_paper(pdf: &[u8]) {
    let boxes = told(pdf, "pdftotext", &["-bbox"]);
    let figure = |line: &str, name: &str| -> f64 {
        let value = line.split_once(&format!("{name}=\"")).expect("a figure").1.split('"').next();
        value.expect("its end").parse().expect("a number")
    };
    let (mut width, mut height) = (0.0, 0.0);
    for line in boxes.lines().map(str::trim) {
        if line.starts_with("<page") {
            (width, height) = (figure(line, "width"), figure(line, "height"));
        } else if line.starts_with("<word") {
            // 12 mm, and less below, where the number stands; the box of a word is a little larger than its letters.
            let inside = figure(line, "xMin") > 33.0
                && figure(line, "xMax") < width - 33.0
                && figure(line, "yMin") > 25.0
                && figure(line, "yMax") < height - 15.0;
            assert!(inside, "{line} on {width} × {height}");
        }
    }
}

#[test]
fn every_example_says_on_paper_what_its_page_says() {
    for (name, _) in common::examples() {
        let Some(page) = sheet::html(&example(&name), &Wanted::default()) else { continue };
        let printed = printed(&page, Paper::A4);
        assert!(printed.unshown.is_empty(), "{:?}", printed.unshown);
        assert_says_all(&page, &printed.bytes);
        assert_within_the_paper(&printed.bytes);
    }
}

#[test]
fn the_wall_of_the_flagship_is_one_page() {
    let page = page(&example("overnight-shoulder.dwell"));
    for paper in [Paper::A4, Paper::Letter] {
        let printed = printed(&page, paper).bytes;
        assert_within_the_paper(&printed);
        let pages = pages(&printed);
        let first = dense(&pages[0]);
        assert!(first.starts_with("Overnightsmokedshoulder"), "{first}");
        assert!(first.ends_with("Temperaturesandlimitsstayastheyare."), "{first}");
        assert!(pages[1].starts_with("The plan at a glance"), "{}", pages[1]);
    }
}

/// The club supper has more to do and to write down than fits one page in type that is read standing; of one cook each
/// place of work has its page.
#[test]
fn what_hangs_on_a_wall_is_on_few_pages() {
    for (name, part, count) in [
        ("overnight-shoulder.dwell", Part::Wall, 1),
        ("club-supper.dwell", Part::Wall, 2),
        ("roast-celeriac.dwell", Part::Station, 3),
        ("baked-beans.dwell", Part::Station, 4),
    ] {
        let page = sheet::html(&example(name), &Wanted { part, ..Wanted::default() }).expect("a sheet");
        for paper in [Paper::A4, Paper::Letter] {
            let printed = printed(&page, paper).bytes;
            assert_says_all(&page, &printed);
            assert_within_the_paper(&printed);
            assert_eq!(pages(&printed).len(), count, "{name} {part:?} {paper:?}");
        }
    }
}

#[test]
fn the_times_on_paper_are_those_of_the_timeline() {
    // Where the date is open, times are seconds from the start: 22:00 and 07:15 there.
    for (name, start) in [("club-supper.dwell", 0), ("chilli.dwell", 435), ("overnight-shoulder.dwell", 1320)]
    {
        let file = example(name);
        let pages = pages(&printed(&page(&file), Paper::A4).bytes);
        let timeline: serde_json::Value = serde_json::from_str(&timelines::json(&file)).expect("JSON");
        let said = dense(&pages.join("\n"));
        let plan = said.split_once("Whattodo").expect("a plan").1;
        let mut rest = plan.split_once("Ifitgetslate").expect("its end").0;
        for job in timeline["jobs"].as_array().expect("jobs") {
            let phase = dense(&format!("{}: ", job["phase"].as_str().expect("a phase")));
            let (before, after) = rest.split_once(&phase).unwrap_or_else(|| panic!("{job} in {rest}"));
            for stamp in [&job["at"], &job["at_latest"]] {
                let time = match stamp.as_i64() {
                    None => stamp.as_str().expect("a moment")[11..16].to_owned(),
                    Some(seconds) => {
                        let minutes = (start + seconds / 60) % (24 * 60);
                        format!("{:02}:{:02}", minutes / 60, minutes % 60)
                    }
                };
                assert!(before.contains(&time), "{time} of {job} in {before}");
            }
            let text = dense(job["text"].as_str().expect("what to do"));
            rest = after.strip_prefix(text.as_str()).unwrap_or_else(|| panic!("{text} in {after}"));
        }
    }
}

#[test]
fn the_same_bytes_on_every_run_with_no_time_of_writing() {
    for name in ["club-supper.dwell", "overnight-shoulder.dwell"] {
        let page = page(&example(name));
        let first = printed(&page, Paper::A4).bytes;
        assert!(first.starts_with(b"%PDF-"));
        assert_eq!(first, printed(&page, Paper::A4).bytes);
        let info = told(&first, "pdfinfo", &[]);
        assert!(!info.contains("Date"), "{info}");
    }
}

#[test]
fn fonts_are_embedded_and_the_paper_is_the_one_asked_for() {
    let page = page(&example("overnight-shoulder.dwell"));
    for (paper, size) in [(Paper::A4, "595.276 x 841.89 pts (A4)"), (Paper::Letter, "612 x 792 pts (letter)")]
    {
        let printed = printed(&page, paper).bytes;
        let info = told(&printed, "pdfinfo", &[]);
        assert!(info.contains(size), "{info}");
        assert!(info.contains("Title:           Overnight smoked shoulder"), "{info}");
        assert!(info.contains("Tagged:          yes") && info.contains("JavaScript:      no"), "{info}");
        let fonts = told(&printed, "pdffonts", &[]);
        let fonts: Vec<&str> = fonts.lines().skip(2).collect();
        // Text and bold of the sheet, and what a cook types.
        assert!(fonts.len() >= 3, "{fonts:?}");
        for font in fonts {
            let columns: Vec<&str> = font.split_whitespace().rev().collect();
            // From the right: generation and number of the object, in Unicode, a part of the font, embedded.
            assert_eq!(columns[2..5], ["yes", "yes", "yes"], "{font}");
        }
    }
}

/// What the typesetter would read, if it were to read any of this; its parts say which of them is lost.
const HOSTILE: &str =
    "#panic() $x$ @a *b* _c_ `d` \\\\e // f /* g */ [h] <i> ~ = j - k + l #let m = 1; #read(n) https://o";

#[test]
fn what_stands_in_a_file_is_text_whatever_it_is() {
    let text = format!(
        "cook \"T{HOSTILE}\"\n  about \"A{HOSTILE}\"\n  serves 6\n  rules us-food-code\n  by \"B{HOSTILE}\"\n\
         \x20 adapted from \"C{HOSTILE}\"\n  note \"N{HOSTILE}\u{1b}[31m\u{202e}\u{200f}\"\n\
         kit oven is oven\nkit probe is probe thermometer\nkit bench is bench\n\
         food lamb is lamb leg\n  1 piece of 2.4 kg\n  thickness 9 cm\n  starts at 5 °C\n  from \"S{HOSTILE}\"\n\
         phase season is prep\n  lamb on bench\n  takes 5 min\n  do \"D{HOSTILE}\"\n\
         phase roast is cook\n  lamb in oven\n  air 140 °C\n  until core 63 °C and \"O{HOSTILE}\", takes 1 h 45 min to 3 h\n\
         serve lamb\n  at 19:00\n"
    );
    let page = page(&of_text(&text));
    let printed = printed(&page, Paper::A4).bytes;
    assert_says_all(&page, &printed);
    assert_within_the_paper(&printed);
    let said = dense(&pages(&printed).join("\n"));
    for field in "TABCNSDO".chars() {
        let shown = dense(&format!("{field}#panic() $x$ @a *b* _c_"));
        assert!(said.contains(&shown), "{field}: {said}");
    }
    assert!(said.contains("<U+001B>[31m<U+202E><U+200F>"), "{said}");
}

/// A cook of apples with this title and this to do.
fn apples(title: &str, to_do: &str) -> String {
    format!(
        "cook \"{title}\"\n  serves 4\n  rules us-food-code\nkit bench is bench\nfood apples is apple\n  600 g\n\
         phase slice is prep\n  apples on bench\n  takes 5 min to 10 min\n  do \"{to_do}\"\n\
         serve apples\n  at 13:00\n"
    )
}

#[test]
fn a_cook_that_says_neither_for_whom_nor_what_is_drawn() {
    let text = apples("Apples", "Cut them.").replace("  serves 4\n", "");
    let page = page(&of_text(&text));
    assert!(!page.contains("class=\"about\""), "{page}");
    printed(&page, Paper::A4);
    // Nor does a page without those words stop it.
    let bare = page.replacen("</h1>", "</h1><p class=\"about\"></p>", 1);
    printed(&bare, Paper::A4);
}

#[test]
fn long_titles_and_other_scripts_stay_whole() {
    let long: String =
        "Donauschifffahrtsgesellschaftsbetriebsküchenmeister".repeat(3).chars().take(120).collect();
    let titles = [
        long.as_str(),
        "Überbackener Blumenkohl mit Süßkartoffeln, 1½ × ⅔",
        "Cœur d’agneau, crème brûlée, żurek, smørrebrød, bánh mì",
        "Παστίτσιο и щи",
    ];
    for title in titles {
        let page = page(&of_text(&apples(title, &long)));
        let printed = printed(&page, Paper::A4);
        assert!(printed.unshown.is_empty(), "{:?}", printed.unshown);
        assert_says_all(&page, &printed.bytes);
        assert_within_the_paper(&printed.bytes);
        let info = told(&printed.bytes, "pdfinfo", &[]);
        assert!(info.contains(title), "{info}");
    }
}

#[test]
fn arabic_can_be_read_out_again_and_runs_from_the_right() {
    let title = "كتف مدخن طوال الليل";
    let page = page(&of_text(&apples(title, "قطّع التفاح ½ كغ; dünn schneiden")));
    let printed = printed(&page, Paper::A4);
    assert!(printed.unshown.is_empty(), "{:?}", printed.unshown);
    assert_within_the_paper(&printed.bytes);
    let first = &pages(&printed.bytes)[0];
    for word in title.split(' ').chain(["التفاح", "½", "كغ", "dünn", "schneiden"]) {
        assert!(first.contains(word), "{word} in {first}");
    }
    // The first word of the title is the one farthest to the right; here letters come from left to right.
    let boxes = told(&printed.bytes, "pdftotext", &["-bbox"]);
    let right = |word: &str| -> f64 {
        let seen: String = word.chars().rev().collect();
        let line = boxes.lines().find(|line| line.contains(&seen)).expect("the word");
        let place = line.split_once("xMax=\"").expect("a place").1.split('"').next().expect("its end");
        place.parse().expect("a number")
    };
    assert!(right("كتف") > 550.0 && right("كتف") > right("مدخن"), "{boxes}");
}

#[test]
fn what_no_font_has_is_named_and_told() {
    let page = page(&of_text(&apples("燻製 apples 🔥", "切る")));
    let printed = printed(&page, Paper::A4);
    assert_eq!(printed.unshown, ['る', '切', '燻', '製', '🔥']);
    let said = dense(&pages(&printed.bytes).join("\n"));
    assert!(said.starts_with("<U+71FB><U+88FD>apples<U+1F525>"), "{said}");
    assert!(said.contains("<U+5207><U+308B>"), "{said}");
    // Whoever has the paper alone is told as well, on each sheet of it.
    for page in pages(&printed.bytes) {
        let foot = "<U+308B> and the like stand for signs that this PDF cannot show";
        assert!(page.contains(foot), "{page}");
    }
    assert_within_the_paper(&printed.bytes);
}

/// So many things to do that the pages end at other lines with each.
fn long_plan(jobs: usize) -> String {
    let phase = |n: usize| {
        format!(
            "phase step-{n} is prep\n  apples on bench\n  takes 5 min, hands-on\n  do \"Number {n} of the things to do.\"\n"
        )
    };
    let phases: String = (1..=jobs).map(phase).collect();
    format!(
        "cook \"Many small things\"\n  serves 4\n  rules us-food-code\nkit bench is bench\nfood apples is apple\n  600 g\n\
         {phases}serve apples\n  at 13:00\n"
    )
}

#[test]
fn no_heading_stands_at_the_end_of_a_page() {
    for jobs in [1, 17, 25, 33, 40] {
        let page = page(&of_text(&long_plan(jobs)));
        let printed = printed(&page, Paper::A4).bytes;
        assert_says_all(&page, &printed);
        assert_within_the_paper(&printed);
        let pages = pages(&printed);
        let orphans = orphans(&pages, &heads(&page));
        assert!(orphans.is_empty(), "{jobs}: {orphans:#?}");
    }
}

fn dwell(folder: &Path, arguments: &[&str]) -> (Option<i32>, String) {
    let ran = Command::new(env!("CARGO_BIN_EXE_dwell"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .expect("it runs");
    (ran.status.code(), String::from_utf8_lossy(&ran.stderr).into_owned())
}

#[test]
fn the_command_writes_the_pdf_and_tells_what_it_cannot_show() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("apples.dwell"), apples("Apples", "Slice.")).expect("written");
    std::fs::write(folder.path().join("smoked.dwell"), apples("燻 apples", "Slice.")).expect("written");
    for (options, paper) in
        [(&["-o", "a.PDF"][..], "(A4)"), (&["--paper", "letter", "-o", "a.PDF"], "(letter)")]
    {
        let (status, said) = dwell(folder.path(), &[&["sheet", "apples.dwell"], options].concat());
        assert!(status == Some(0) && !said.contains("fonts"), "{said}");
        let bytes = std::fs::read(folder.path().join("a.PDF")).expect("a PDF");
        assert!(told(&bytes, "pdfinfo", &[]).contains(paper));
    }
    let (status, said) = dwell(folder.path(), &["sheet", "smoked.dwell", "-o", "smoked.pdf"]);
    assert_eq!(status, Some(0), "{said}");
    assert!(said.contains("燻 as <U+71FB>") && said.contains("-o NAME.html"), "{said}");
    let (status, said) =
        dwell(folder.path(), &["sheet", "apples.dwell", "--paper", "letter", "-o", "a.html"]);
    assert_eq!(status, Some(2), "{said}");
    assert!(said.contains("--paper"), "{said}");
}
