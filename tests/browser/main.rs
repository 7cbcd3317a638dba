//! Sheets in Chromium, as large as a telephone, a tablet and a page of paper: nothing runs over an edge or is cut, letters
//! can be told from the paper, everything is reached by the keyboard, and nothing is asked of the network.
//!
//! Where there is no Chromium these tests say so and pass; with `DWELL_BROWSER=required` they fail.

#[path = "../common/mod.rs"]
mod common;

use std::fs::File;
use std::io::Read;
use std::net::TcpListener;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;

use common::chromium::chromium;
use common::paper::{dense, heads, orphans, told};
use common::sheets::{example_with_outlook as example, of_text, part as html};
use dwell::compile::Compiled;
use dwell::output::sheet::Part;

/// What it writes to standard output, with a profile of its own and no network. A page that waits for ever is ended.
fn run(chromium: &Path, folder: &Path, words: &[&str]) -> String {
    let profile = format!("--user-data-dir={}", folder.join("profile").display());
    let written = folder.join("written");
    let mut ran = Command::new(chromium)
        .args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--no-first-run",
            "--disable-background-networking",
        ])
        .args(["--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1", "--hide-scrollbars"])
        .args(["--virtual-time-budget=20000", &profile])
        .args(words)
        .stdout(File::create(&written).expect("a file"))
        .stderr(Stdio::null())
        .spawn()
        .expect("Chromium starts");
    let mut tries = 0;
    let status = loop {
        if let Some(status) = ran.try_wait().expect("a status") {
            break status;
        }
        tries += 1;
        if tries > 1200 {
            ran.kill().expect("it ends");
            panic!("Chromium did not come to an end: {words:?}");
        }
        std::thread::sleep(Duration::from_millis(100));
    };
    assert!(status.success(), "{words:?}");
    std::fs::read_to_string(&written).expect("text")
}

fn attribute(text: &str) -> String {
    text.replace('&', "&amp;").replace('"', "&quot;")
}

/// The width of the text on A4 paper, less the margins of 12 mm, at 96 to the inch.
const PAPER: f64 = (210.0 - 24.0) / 25.4 * 96.0;

/// A page with the sheet in frames beside each other; what is for paper is for every screen in the last one.
fn frames(sheet: &str) -> String {
    let paper =
        sheet.replace("@media print{", "@media all{").replace("@media screen and", "@media speech and");
    let frame = |title: &str, width: f64, sheet: &str| {
        format!(
            "<iframe title=\"{title}\" width=\"{width:.0}\" height=\"900\" srcdoc=\"{}\"></iframe>\n",
            attribute(sheet)
        )
    };
    let frames = [
        frame("phone", 360.0, sheet),
        frame("small phone", 320.0, sheet),
        frame("tablet", 768.0, sheet),
        frame("paper", PAPER, &paper),
    ];
    let style = "iframe{border:0;color-scheme:normal}";
    format!(
        "<!DOCTYPE html><meta charset=\"utf-8\"><style>{style}</style><body>{}<script>{}</script></body>",
        frames.concat(),
        include_str!("look.js")
    )
}

/// Everything that is wrong with a sheet, by the light of day or at night.
fn look(chromium: &Path, sheet: &str, dark: bool) -> Vec<String> {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("frames.html");
    std::fs::write(&file, frames(sheet)).expect("the page");
    let scheme = format!("--blink-settings=preferredColorScheme={}", u8::from(!dark));
    let address = format!("file://{}", file.display());
    let dom = run(chromium, folder.path(), &[&scheme, "--window-size=1400,1000", "--dump-dom", &address]);
    let said = dom.split_once("LOOKED ").unwrap_or_else(|| panic!("it looked: {dom:.2000}")).1;
    let (head, rest) = said.split_once('\n').expect("a line");
    assert_eq!(head, if dark { "4 dark" } else { "4 light" });
    let wrong = rest.split_once("DONE").expect("an end").0;
    wrong.lines().filter(|line| !line.is_empty()).map(str::to_owned).collect()
}

/// A plan of more than forty lines, a title of 120 letters without a blank, German and Arabic, fractions.
fn long() -> Compiled {
    let word = "Donauschifffahrtsgesellschaftsbetriebsküchenmeister";
    let title: String = word.repeat(3).chars().take(120).collect();
    let mut text = format!(
        "cook \"{title}\"\n  about \"½ Süßkartoffel, ⅔ Rübe; كتف مدخن طوال الليل\"\n  serves 12\n  rules us-food-code\n\
         kit Arbeitsflächenabschnitt is bench\nfood apples is apple\n  600 g\n  from \"{word}{word}\"\n"
    );
    for n in 1..=42 {
        text += &format!(
            "phase {word}-{n} is prep\n  apples on Arbeitsflächenabschnitt\n  takes 5 min to 10 min\n\
             \x20 do \"قطّع التفاح إلى شرائح رقيقة؛ {word}, 1½ × ⅔\"\n  note \"{word}{word}\"\n"
        );
    }
    text += "serve apples\n  at 20:00, up to 30 min late\n";
    of_text(&text)
}

#[test]
fn sheets_stay_whole_and_legible_at_every_size() {
    let Some(chromium) = chromium() else { return };
    let long = long();
    let (shoulder, supper) = (example("overnight-shoulder.dwell"), example("club-supper.dwell"));
    for (what, sheet, dark) in [
        ("long", html(&long, Part::Full), false),
        ("shoulder", html(&shoulder, Part::Full), false),
        ("shoulder at night", html(&shoulder, Part::Full), true),
        ("supper", html(&supper, Part::Full), false),
        ("stations", html(&supper, Part::Station), true),
        ("errors", html(&example("too-cool.dwell"), Part::Full), false),
    ] {
        let wrong = look(&chromium, &sheet, dark);
        assert!(wrong.is_empty(), "{what}: {wrong:#?}");
    }
}

/// The eye itself: what is wrong is seen.
#[test]
fn what_is_wrong_is_seen() {
    let Some(chromium) = chromium() else { return };
    let sheet = html(&example("overnight-shoulder.dwell"), Part::Wall);
    for (what, from, to) in [
        (
            "over the edge",
            "<main>",
            "<main><p style=\"white-space:nowrap\">a line that is much too long for the screen of any telephone there is</p>",
        ),
        (
            "cut",
            "<main>",
            "<main><p style=\"width:5rem;overflow:hidden;white-space:nowrap\">a line that is cut off</p>",
        ),
        ("contrast", "<main>", "<main><p style=\"color:#999\">grey on white</p>"),
        ("not reached", "<main>", "<main><input type=\"checkbox\" aria-label=\"x\" disabled>"),
        ("without a name", "<main>", "<main><input type=\"checkbox\">"),
    ] {
        let wrong = look(&chromium, &sheet.replacen(from, to, 1), false);
        assert!(wrong.iter().any(|line| line.contains(what)), "{what}: {wrong:#?}");
    }
}

/// How often something is asked here. Browsers open connections ahead of need; what counts is what goes over them.
fn listen(listener: TcpListener) -> Arc<AtomicUsize> {
    let asked = Arc::new(AtomicUsize::new(0));
    let count = Arc::clone(&asked);
    std::thread::spawn(move || {
        for mut stream in listener.incoming().flatten() {
            let count = Arc::clone(&count);
            std::thread::spawn(move || {
                let waits = stream.set_read_timeout(Some(Duration::from_secs(20))).is_ok();
                if waits && stream.read(&mut [0; 64]).is_ok_and(|bytes| bytes > 0) {
                    count.fetch_add(1, Ordering::SeqCst);
                }
            });
        }
    });
    asked
}

fn show(chromium: &Path, page: &str) {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("sheet.html");
    std::fs::write(&file, page).expect("the page");
    run(chromium, folder.path(), &["--dump-dom", &format!("file://{}", file.display())]);
}

/// Should foreign marks ever get into a sheet, its policy keeps them from the network and from running.
#[test]
fn no_request_leaves_the_page() {
    let Some(chromium) = chromium() else { return };
    let listener = TcpListener::bind("127.0.0.1:0").expect("a port");
    let there = listener.local_addr().expect("an address");
    let asked = listen(listener);
    let sheet = html(&example("overnight-shoulder.dwell"), Part::Full);
    let foreign = format!(
        "<main><img src=\"http://{there}/x.png\"><link rel=\"stylesheet\" href=\"http://{there}/x.css\">\
         <iframe src=\"http://{there}/\"></iframe><script>fetch(\"http://{there}/y\")</script>"
    );
    let sheet = sheet.replacen("<main>", &foreign, 1);
    show(&chromium, &sheet);
    assert_eq!(asked.load(Ordering::SeqCst), 0);
    // What is asked where no policy forbids it is heard.
    let (before, after) = sheet.split_once("<meta http-equiv").expect("the policy");
    show(&chromium, &format!("{before}{}", after.split_once('>').expect("its end").1));
    assert!(asked.load(Ordering::SeqCst) > 0);
}

/// A sheet on such paper, as a PDF.
fn printed(chromium: &Path, sheet: &str, paper: &str) -> Vec<u8> {
    let folder = tempfile::tempdir().expect("a folder");
    let (page, pdf) = (folder.path().join("sheet.html"), folder.path().join("sheet.pdf"));
    assert!(sheet.contains("@page{"));
    std::fs::write(&page, sheet.replace("@page{", &format!("@page{{size:{paper};"))).expect("the page");
    let target = format!("--print-to-pdf={}", pdf.display());
    let address = format!("file://{}", page.display());
    run(chromium, folder.path(), &[&target, "--no-pdf-header-footer", &address]);
    std::fs::read(&pdf).expect("a PDF")
}

/// The text of each page of paper, line by line as it is read across, without its number.
fn pages(pdf: &[u8]) -> Vec<String> {
    let text = told(pdf, "pdftotext", &["-layout"]);
    let pages: Vec<&str> = text.split_terminator('\u{c}').collect();
    let numbered = pages.iter().enumerate().map(|(n, page)| {
        let (rest, number) = page.trim_end().rsplit_once('\n').expect("more than a number");
        assert_eq!(dense(number), format!("{}/{}", n + 1, pages.len()), "{page}");
        rest.trim_end().to_owned()
    });
    numbered.collect()
}

#[test]
fn the_wall_sheet_of_the_overnight_shoulder_is_one_page_of_paper() {
    let Some(chromium) = chromium() else { return };
    let file = example("overnight-shoulder.dwell");
    for paper in ["A4", "letter"] {
        assert_eq!(pages(&printed(&chromium, &html(&file, Part::Wall), paper)).len(), 1, "{paper}");
    }
    // What comes after page one of the whole begins a page.
    assert!(pages(&printed(&chromium, &html(&file, Part::Full), "A4")).len() > 4);
}

/// Several sheets one behind the other, each from a page of its own on.
fn together(sheets: &[String]) -> String {
    let (head, _) = sheets[0].split_once("<body>").expect("a body");
    let bodies = sheets.iter().map(|sheet| {
        let body = sheet.split_once("<body>").expect("a body").1.split_once("</body>").expect("its end").0;
        format!("<div style=\"break-before:page\">{body}</div>")
    });
    format!("{head}<body>{}</body></html>", bodies.collect::<String>())
}

/// Neither a heading nor the head of a table is the last on a page.
#[test]
fn no_heading_is_left_behind_on_paper() {
    let Some(chromium) = chromium() else { return };
    let mut sheets = vec![html(&long(), Part::Full)];
    for (name, _) in common::examples() {
        let file = example(&name);
        if file.understood() && !file.cooks().is_empty() {
            sheets.extend([Part::Full, Part::Station].map(|part| html(&file, part)));
        }
    }
    let all = together(&sheets);
    let heads = heads(&all);
    for paper in ["A4", "letter"] {
        let pages = pages(&printed(&chromium, &all, paper));
        assert!(pages.len() > 3 * sheets.len(), "{}", pages.len());
        let orphans = orphans(&pages, &heads);
        assert!(orphans.is_empty(), "{paper}: {orphans:#?}");
    }
}

/// A page that a browser has written anew still gives its text back.
#[test]
fn a_page_saved_by_a_browser_still_carries_its_text() {
    let Some(chromium) = chromium() else { return };
    let folder = tempfile::tempdir().expect("a folder");
    for name in ["overnight-shoulder.dwell", "club-supper.dwell"] {
        let file = example(name);
        let page = folder.path().join("sheet.html");
        std::fs::write(&page, html(&file, Part::Full)).expect("the page");
        let saved = run(&chromium, folder.path(), &["--dump-dom", &format!("file://{}", page.display())]);
        let dwell::carried::Opened::Page(back) = dwell::carried::open("saved.html", saved.into_bytes())
        else {
            panic!("{name}: no page");
        };
        assert_eq!(back.text(name), Some(file.sources.all()[0].text.as_str()));
    }
}
