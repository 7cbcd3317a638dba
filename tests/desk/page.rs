//! The page in Chromium, worked as a person works it.
//!
//! With `DWELL_LOOK=FOLDER` it leaves pictures there of what it saw.

use std::sync::Arc;
use std::time::{Duration, Instant};

use headless_chrome::protocol::cdp::Page::CaptureScreenshotFormatOption::Png;
use headless_chrome::{Browser, LaunchOptionsBuilder, Tab};

use super::common::chromium::chromium;
use super::support::{COOK, Desk};

struct Page {
    _browser: Browser,
    tab: Arc<Tab>,
}

impl Page {
    fn open(chromium: std::path::PathBuf, desk: &Desk) -> Self {
        let options = LaunchOptionsBuilder::default()
            .path(Some(chromium))
            .sandbox(false)
            .window_size(Some((1400, 1000)))
            .idle_browser_timeout(Duration::from_secs(120))
            .build()
            .expect("options");
        let browser = Browser::new(options).expect("Chromium starts");
        let tab = browser.new_tab().expect("a tab");
        tab.set_default_timeout(Duration::from_secs(60));
        tab.navigate_to(&desk.address).and_then(|tab| tab.wait_until_navigated()).expect("the page");
        Self { _browser: browser, tab }
    }

    fn value(&self, expression: &str) -> serde_json::Value {
        let answer = self.tab.evaluate(expression, true).unwrap_or_else(|why| panic!("{expression}: {why}"));
        answer.value.unwrap_or_default()
    }

    fn words(&self, id: &str) -> String {
        let shown = format!("document.getElementById('{id}').innerText");
        self.value(&shown).as_str().unwrap_or_default().to_owned()
    }

    /// Waits until an expression of the page holds.
    fn until(&self, expression: &str) {
        let started = Instant::now();
        while self.value(expression) != serde_json::Value::Bool(true) {
            assert!(
                started.elapsed() < Duration::from_secs(60),
                "never: {expression}\n{}",
                self.words("summary")
            );
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    fn click(&self, selector: &str) {
        self.tab.find_element(selector).and_then(|found| found.click().map(|_| ())).expect(selector);
    }

    /// Marks a piece of the text, as with the mouse, and types over it.
    fn type_over(&self, old: &str, new: &str) {
        let found = format!(
            "(() => {{ const box = document.getElementById('text'); const start = box.value.indexOf({old:?}); \
             box.focus(); box.setSelectionRange(start, start + {:?}.length); return start >= 0; }})()",
            old
        );
        assert_eq!(self.value(&found), true, "{old}");
        self.tab.send_character(new).expect("it types");
    }

    fn look(&self, name: &str) {
        let Some(folder) = std::env::var_os("DWELL_LOOK") else { return };
        let picture = self.tab.capture_screenshot(Png, None, None, true).expect("a picture");
        std::fs::write(std::path::Path::new(&folder).join(name).with_extension("png"), picture)
            .expect("the picture");
    }
}

/// The plan and everything else of the text as it stands has come.
const DONE: &str = "document.getElementById('working').textContent.startsWith('All of this') && \
                    !document.getElementById('plan').classList.contains('old')";

#[test]
fn a_mistake_is_typed_seen_mended_and_saved() {
    let Some(chromium) = chromium() else { return };
    let desk = Desk::of(COOK);
    let page = Page::open(chromium, &desk);
    page.until(DONE);
    let before = page.words("plan-words");
    assert!(before.contains("13:00"), "{before}");
    page.look("desk-at-first");

    page.type_over("takes 5 min", "tales 5 min");
    page.until("document.querySelector('#findings .error') !== null");
    let findings = page.words("findings");
    assert!(findings.contains("Line 13") && findings.contains("takes"), "{findings}");
    page.until("document.querySelector('#marks .error') !== null");
    assert!(
        page.value("document.querySelector('#marks .error').textContent")
            .as_str()
            .expect("text")
            .contains("tales")
    );
    page.until("!document.getElementById('nothing').hidden");
    assert_eq!(page.words("plan-words"), "", "no plan of a text that is not understood");
    page.look("desk-mistake");

    page.click("#findings .place");
    let selected = "(() => { const b = document.getElementById('text'); return b.value.slice(b.selectionStart, b.selectionEnd); })()";
    assert!(page.value(selected).as_str().expect("text").contains("tales"));
    page.type_over("tales 5 min", "takes 5 min");
    page.type_over("at 13:00", "at 19:30");
    page.until(DONE);
    let after = page.words("plan-words");
    assert!(after.contains("19:30") && !after.contains("13:00"), "{after}");
    page.until("document.getElementById('plan-picture').naturalWidth > 0");
    page.look("desk-mended");

    assert_eq!(desk.read(), COOK.as_bytes(), "nothing is written before somebody saves");
    page.click("#save");
    page.until("document.getElementById('state').textContent === 'Saved'");
    assert_eq!(desk.read(), COOK.replace("13:00", "19:30").as_bytes());

    page.click("[data-view=sheet]");
    page.until("!document.getElementById('sheet-page').hidden && document.getElementById('plan').hidden");
    std::thread::sleep(Duration::from_millis(500));
    page.look("desk-sheet");
    let fetched = page.value(
        "performance.getEntriesByType('resource').every((one) => /^(blob:|data:)?(http:..127.0.0.1:[0-9]+.|,)/.test(one.name))",
    );
    assert_eq!(fetched, true, "nothing is asked of anybody else");
}

#[test]
fn what_is_shown_is_of_the_text_that_stands_there() {
    let Some(chromium) = chromium() else { return };
    let desk = Desk::of(include_str!("../../examples/too-cool.dwell"));
    let page = Page::open(chromium, &desk);
    page.until(DONE);
    let (errors, plan) = (page.words("summary"), page.words("plan-words"));
    assert!(errors.contains("2 errors"), "{errors}");
    // Another text for as long as it takes to hear what it declares, but not its plan; then the first one again.
    page.type_over("air 48 °C", "air 70 °C");
    page.until("document.getElementById('plan').classList.contains('old')");
    std::thread::sleep(Duration::from_millis(300));
    page.type_over("air 70 °C", "air 48 °C");
    page.until(DONE);
    assert_eq!((page.words("summary"), page.words("plan-words")), (errors, plan));
    std::thread::sleep(Duration::from_millis(1500));
    page.until(DONE);
    assert!(page.words("summary").contains("2 errors"), "{}", page.words("summary"));
}

#[test]
fn a_file_changed_meanwhile_is_not_written_over_and_nothing_typed_is_lost() {
    let Some(chromium) = chromium() else { return };
    let desk = Desk::of(COOK);
    let page = Page::open(chromium, &desk);
    page.until(DONE);
    let elsewhere = COOK.replace("serves 4", "serves 8");
    std::fs::write(desk.file(), &elsewhere).expect("somebody else");
    page.type_over("at 13:00", "at 14:00");
    page.click("#save");
    page.until("!document.getElementById('changed').hidden");
    assert_eq!(desk.read(), elsewhere.as_bytes());
    page.look("desk-changed-meanwhile");
    page.click("#take-file");
    page.until("document.getElementById('text').value.includes('serves 8')");
    assert!(
        page.value("document.getElementById('kept-text').value").as_str().expect("text").contains("14:00")
    );
    page.type_over("at 13:00", "at 14:00");
    page.click("#save");
    page.until("document.getElementById('state').textContent === 'Saved'");
    assert_eq!(desk.read(), elsewhere.replace("13:00", "14:00").as_bytes());
}

#[test]
fn a_cure_is_written_by_a_button_and_hostile_text_stays_text() {
    let Some(chromium) = chromium() else { return };
    let text = include_str!("../../examples/too-cool.dwell");
    let title = text.lines().find(|line| line.starts_with("cook")).expect("a title");
    let desk = Desk::of(text.replace(title, "cook \"<img src=x onerror=alert(1)>\""));
    let page = Page::open(chromium, &desk);
    page.until(DONE);
    let wrong = "document.querySelectorAll('#findings .error').length";
    let before = page.value(wrong).as_u64().expect("a number");
    assert!(before > 0);
    page.look("desk-cure");
    page.click("#findings li > button");
    page.until("document.getElementById('state').textContent.startsWith('Changed')");
    page.until(DONE);
    assert!(page.value(wrong).as_u64().expect("a number") < before, "{}", page.words("findings"));
    assert_eq!(page.value("document.querySelectorAll('#findings img, #marks img').length"), 0);
    // What a button wrote can be taken back like what was typed.
    page.value("document.getElementById('text').focus(); document.execCommand('undo'); document.execCommand('undo'); true");
    page.until(DONE);
    assert_eq!(
        page.value("document.getElementById('text').value").as_str().expect("text").as_bytes(),
        desk.read()
    );
}
