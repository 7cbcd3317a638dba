//! A sheet carries the texts it was made from: from text to page to text no byte is lost, and everything that is said of
//! the one is said of the other.

mod common;

use dwell::carried::{CLOSES, OPENS, Opened, Page, open};
use dwell::compile::{Compiled, Options, compile};
use dwell::findings::Code;
use dwell::output::sheet::Wanted;
use dwell::output::{buy, curve, export, json, prep, sarif, sheet, timelines};
use dwell::text::{FileProblem, Files};

/// No file is beside a page.
const NONE: common::Memory<'_> = common::Memory(&[]);

fn compiled(files: &dyn Files, path: &str, bytes: &[u8]) -> Compiled {
    compile(files, path.into(), bytes.to_vec(), &Options { cures: true, ..Options::default() })
}

fn page_of(file: &Compiled) -> Option<String> {
    sheet::html(file, &Wanted::default())
}

fn opened(page: &str) -> Page {
    match open("shared.html", page.as_bytes().to_vec()) {
        Opened::Page(page) => page,
        other => panic!("a page: {other:?}"),
    }
}

/// All that is said of a file, in every form.
fn everything(file: &Compiled) -> Vec<String> {
    let cooks = file.cooks();
    let mut findings = json::Report::default();
    findings.add(file);
    let mut collected = sarif::Report::default();
    collected.add(file);
    let curves = cooks.iter().map(|worked| (worked.cook.title.value.as_str(), worked.curves));
    vec![
        findings.text(),
        collected.text(),
        timelines::text(file),
        timelines::json(file),
        timelines::ics(file, Vec::new()).unwrap_or_default(),
        buy::text(&buy::list(&cooks.iter().map(|worked| worked.cook).collect::<Vec<_>>())),
        prep::text(&prep::list(&cooks.iter().map(|worked| (worked.cook, worked.ledger)).collect::<Vec<_>>())),
        curve::csv(&curve::together(curves)),
        export::json(file).unwrap_or_default(),
        page_of(file).unwrap_or_default(),
    ]
}

#[test]
fn every_command_says_the_same_of_a_page_and_of_its_text() {
    let examples = common::examples();
    let files: Vec<(&str, &str)> =
        examples.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let mut pages = 0;
    for (name, text) in &files {
        let file = compiled(&common::Memory(&files), name, text.as_bytes());
        let Some(page) = page_of(&file) else { continue };
        assert_eq!(opened(&page).bytes(), text.as_bytes(), "{name}");
        // Whatever the file is called.
        let back = compiled(&NONE, "a b/shared.txt", page.as_bytes());
        assert_eq!(back.path, format!("a b/shared.txt#{name}"));
        // The same but for where it lies; in URIs that is written with percent signs.
        let shown = |said: String| said.replace("a b/shared.txt#", "").replace("a%20b/shared.txt%23", "");
        for (of_text, of_page) in everything(&file).into_iter().zip(everything(&back)) {
            assert!(of_text == shown(of_page.clone()), "{name}:\n{of_text}\n{of_page}");
        }
        pages += 1;
    }
    assert!(pages >= 8, "{pages}");
}

/// A cook whose comment and title take any text.
fn cook_with(text: &str, title: &str) -> String {
    format!(
        "cook \"{title}\"\n  serves 1\n  rules us-food-code\nkit bench is bench // {text}\nfood pear is apple\n  100 g\n\
         phase cut is prep\n  pear on bench\n  takes 5 min\nserve pear\n  at 13:00\n"
    )
}

#[test]
fn no_byte_is_lost() {
    let plain = cook_with("x", "Pears");
    let mut texts = vec![
        plain.replace('\n', "\r\n"),
        plain.replace('\n', "\r"),
        plain.replace("  serves", "\tserves"),
        plain.replace('\n', "  \t\n"),
        plain.trim_end().to_owned(),
        format!("{plain}\n\n\n"),
        format!("\u{feff}{plain}"),
        plain.replace('\n', "\n\u{a0}\n"),
        cook_with("a\\n\\u003c \\\" &lt; &amp; &#0; %3C", "&lt;b&gt; & \\u003c"),
        cook_with("</script><script>alert(1)</script><!-- --> ]]> <![CDATA[", "</script><!--<script>"),
        cook_with(&format!("{OPENS}{{}}{CLOSES}"), "<!DOCTYPE html>"),
    ];
    // Each character that acts on what is around it, and some of every plane.
    let acting = ('\0'..=char::MAX).filter(|&c| dwell::output::clean::acts(c) && c != '\n' && c != '\r');
    texts.extend(acting.map(|c| cook_with(&format!("a{c}b"), "Pears")));
    let every = ('\0'..=char::MAX).step_by(977).filter(|&c| c != '\n' && c != '\r').collect::<String>();
    texts.push(cook_with(&every, "Pears"));
    let mut carried = 0;
    for text in &texts {
        let file = compiled(&NONE, "pears.dwell", text.as_bytes());
        // What is not understood has no sheet.
        let Some(page) = page_of(&file) else { continue };
        carried += 1;
        assert_eq!(page.matches(OPENS).count(), 1);
        let back = opened(&page);
        assert_eq!(back.bytes(), text.as_bytes());
        assert_eq!(page_of(&compiled(&NONE, "x.html", page.as_bytes())), Some(page));
    }
    assert!(carried > texts.len() / 2, "{carried} of {}", texts.len());
}

#[test]
fn a_finding_points_to_the_line_of_the_text() {
    let text =
        cook_with("x", "Pears").replace("  at 13:00\n", "  at 13:00\n  allow stock-left because \"x\"\n");
    let page = page_of(&compiled(&NONE, "pears.dwell", text.as_bytes())).expect("a page");
    let mut report = json::Report::default();
    let back = compiled(&NONE, "shared.html", page.as_bytes());
    report.add(&back);
    assert!(!back.findings.is_empty());
    let report: serde_json::Value = serde_json::from_str(&report.text()).expect("JSON");
    let unused = report.to_string();
    assert!(unused.contains("\"path\":\"shared.html#pears.dwell\""), "{unused}");
    let line = text.lines().position(|line| line.contains("allow")).expect("the line") + 1;
    assert!(unused.contains(&format!("\"line\":{line},")), "{unused}");
}

/// A folder in memory, whose files name each other by where they lie.
struct Tree<'t>(&'t [(&'t str, &'t str)]);

impl Files for Tree<'_> {
    fn read(&self, from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        let name = dwell::carried::name_from(from, path);
        let found = self.0.iter().find(|(known, _)| *known == name);
        found.map(|(name, text)| (name.to_string(), text.as_bytes().to_vec())).ok_or(FileProblem::Missing)
    }
}

#[test]
fn a_menu_carries_its_dishes_the_kit_they_share_and_the_tables_of_its_folder() {
    let dish = |title: &str| {
        cook_with("x", title).replace("kit bench is bench // x\n", "kit from \"../kit/club.dwell\"\n")
    };
    let (one, two) = (dish("Pears"), dish("More pears"));
    let menu = "menu \"Two\"\n  serve at 13:00\ndish \"dishes/one.dwell\"\ndish \"./dishes/two.dwell\"\n";
    let files = [
        ("club/evening/menu.dwell", menu),
        ("club/evening/dishes/one.dwell", one.as_str()),
        ("club/evening/dishes/two.dwell", two.as_str()),
        ("club/evening/kit/club.dwell", "kit bench is bench\n"),
        ("club/dwell.toml", "rules = \"uk\"\n"),
    ];
    let file = compiled(&Tree(&files), "club/evening/menu.dwell", menu.as_bytes());
    let page = page_of(&file).unwrap_or_else(|| panic!("{:#?}", file.findings));
    // Not where they lie: that is nobody's business.
    assert!(!page.contains("club/evening"));
    let back = opened(&page);
    let names: Vec<&str> = back.names().collect();
    assert_eq!(
        names,
        ["menu.dwell", "../dwell.toml", "dishes/one.dwell", "kit/club.dwell", "dishes/two.dwell"]
    );
    assert_eq!(back.text("dishes/two.dwell"), Some(two.as_str()));
    // The tables beside the page are not those of the page.
    let beside = [("dwell.toml", "rules = \"us-food-code\"\n")];
    let again = compiled(&Tree(&beside), "shared.html", page.as_bytes());
    assert_eq!(page_of(&again), Some(page));
}

fn fault(page: &str) -> (Code, String, usize) {
    let file = compiled(&NONE, "shared.html", page.as_bytes());
    assert!(!file.understood());
    let [finding] = file.findings.as_slice() else { panic!("{:#?}", file.findings) };
    let (line, _) = file.sources.get(finding.span.file).line_column(finding.span.start as usize);
    (finding.code, finding.message.render(file.scale), line)
}

#[test]
fn a_page_that_was_changed_or_is_another_is_told_and_never_half_read() {
    let page = page_of(&compiled(&NONE, "pears.dwell", cook_with("x", "Pears").as_bytes())).expect("a page");
    let block =
        page.split_once(OPENS).expect("the block").1.split_once(CLOSES).expect("its end").0.to_owned();
    let at = page.split(OPENS).next().unwrap().lines().count();
    for (from, to) in [
        ("takes 5 min", "takes 6 min"),
        ("\\n", "\\r\\n"),
        ("\"files\"", "\"file\""),
        ("pears.dwell", "plums.dwell"),
        ("\"sha256\": \"", "\"sha256\": \"0"),
        ("{", ""),
        ("]", ""),
    ] {
        assert!(block.contains(from), "{from}");
        let (code, said, line) = fault(&page.replace(&block, &block.replacen(from, to, 1)));
        assert_eq!((code, line), (Code::FileUnreadable, at), "{from}");
        assert!(said.contains("damaged or changed"), "{said}");
    }
    let twice = page.replace("</body>", &format!("{OPENS}{block}{CLOSES}</body>"));
    assert!(fault(&twice).1.contains("damaged or changed"));
    let cut = page.split_once("takes 5 min").expect("the text").0;
    assert!(fault(cut).1.contains("carries no cook") || fault(cut).1.contains("damaged"));
    let cut = &page[..page.find(OPENS).unwrap() + OPENS.len() + 40];
    assert!(fault(cut).1.contains("damaged or changed"));
    let newer = page.replace("dwell.page/1", "dwell.page/9");
    assert!(fault(&newer).1.contains("another version"));
    for other in ["<!DOCTYPE html><html><body>cook \"x\"</body></html>", "<HTML>\n<p>Pears"] {
        assert!(fault(other).1.contains("carries no cook"), "{other}");
    }
    // No browser's way of ending lines harms it.
    assert_eq!(opened(&page.replace('\n', "\r\n")).bytes(), cook_with("x", "Pears").as_bytes());
}

#[test]
fn a_dish_is_named_by_its_text_not_by_a_page() {
    let page = page_of(&compiled(&NONE, "pears.dwell", cook_with("x", "Pears").as_bytes())).expect("a page");
    let menu = "menu \"Two\"\n  serve at 13:00\ndish \"pears.html\"\n";
    let file = compiled(&common::Memory(&[("pears.html", &page)]), "menu.dwell", menu.as_bytes());
    let finding =
        file.findings.iter().find(|finding| finding.code == Code::FileUnreadable).expect("a finding");
    assert!(finding.message.render(file.scale).contains("page of HTML"));
    assert!(finding.remedy.render(file.scale).contains("dwell source"));
}
