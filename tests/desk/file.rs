//! What is answered of a text, and what becomes of the file.

use super::support::{COOK, Desk, command};

#[test]
fn findings_point_to_where_a_browser_finds_them() {
    let desk = Desk::of(COOK);
    // The boat takes two UTF-16 units, the é one.
    let text = COOK.replace("serves 4", "about \"🚣é\", serves 4, air 110");
    let found = desk.ask("POST", "findings", text.as_bytes()).json();
    let air = found["findings"]
        .as_array()
        .expect("findings")
        .iter()
        .find(|one| one["message"].as_str().expect("words").contains("110"));
    let air = air.expect("a finding about the figure without a scale");
    let line = text.lines().nth(1).expect("a line");
    let before = &line[..line.find("air").expect("the clause")];
    assert_eq!(air["start"]["line"], 1);
    let unit = air["start"]["unit"].as_u64().expect("a number") as usize;
    let units: Vec<u16> = line.encode_utf16().collect();
    assert!(unit >= before.encode_utf16().count());
    assert!(String::from_utf16_lossy(&units[unit..]).contains("110"), "{air}");
}

#[test]
fn a_text_comes_to_a_plan_a_picture_and_a_sheet_that_agree_with_the_command_line() {
    let desk = Desk::of(COOK);
    let views = desk.ask("POST", "views", COOK.as_bytes()).json();
    let run = std::process::Command::new(env!("CARGO_BIN_EXE_dwell"))
        .args(["timeline"])
        .arg(desk.file())
        .output()
        .expect("dwell runs");
    let timeline = String::from_utf8(run.stdout).expect("text");
    assert_eq!(views["plan_in_words"].as_str().expect("a plan").trim(), timeline.trim());
    assert!(views["plan"].as_str().expect("a picture").starts_with("<svg"));
    let sheet = desk.ask("GET", &format!("sheet/{}", views["sheet"].as_str().expect("a name")), b"");
    assert_eq!(sheet.status, 200);
    assert!(sheet.body.contains("Apples for the crew"));
    assert!(sheet.head.contains("frame-ancestors 'self'"), "{}", sheet.head);
    let lost = desk.ask("POST", "views", COOK.replace("takes", "tales").as_bytes()).json();
    assert!(lost["plan"].is_null() && lost["sheet"].is_null(), "no plan of half a cook");
    assert!(lost["nothing"].as_str().expect("a reason").contains("every line"));
    let why = desk.ask("GET", "explain/hold-too-cool", b"");
    assert!(why.body.contains("SOURCE"), "{why:?}");
}

#[test]
fn what_is_saved_is_the_text_and_the_rest_of_the_file_stays_as_it_was() {
    let crlf = format!("\u{feff}{}", COOK.replace('\n', "\r\n"));
    let desk = Desk::of(&crlf);
    let (text, mark) = desk.text();
    assert_eq!(text, COOK, "as a box of a browser holds it");
    assert_eq!(desk.save(&text, &mark).status, 200);
    assert_eq!(desk.read(), crlf.as_bytes(), "what was not touched stays byte for byte");
    let answer = desk.save(&COOK.replace("13:00", "14:00"), &mark).json();
    assert_eq!(desk.read(), crlf.replace("13:00", "14:00").as_bytes());
    assert_ne!(answer["mark"].as_str(), Some(mark.as_str()));
    let laid_out = desk.ask("POST", "laid-out", COOK.replace("  serves", "serves").as_bytes());
    assert_eq!(laid_out.body, COOK);
}

#[test]
fn two_on_one_desk_never_write_over_each_other() {
    let desk = Desk::of(COOK);
    let (_, mark) = desk.text();
    let (first, second) = (COOK.replace("13:00", "14:00"), COOK.replace("13:00", "15:00"));
    assert_eq!(desk.save(&first, &mark).status, 200);
    let refused = desk.save(&second, &mark);
    assert_eq!(refused.status, 409);
    assert!(refused.body.contains("changed by somebody else"), "{refused:?}");
    assert_eq!(desk.read(), first.as_bytes());
    // What was typed is not lost: it goes beside the file, under a name that is free.
    assert_eq!(desk.ask("POST", "copy", second.as_bytes()).json()["name"], "apples-2.dwell");
    assert_eq!(desk.ask("POST", "copy", second.as_bytes()).json()["name"], "apples-3.dwell");
    assert_eq!(
        std::fs::read(desk.folder.path().join("apples-2.dwell")).expect("the copy"),
        second.as_bytes()
    );
    // What stands there already needs no writing, and nobody is blamed for it.
    assert_eq!(desk.save(&first, &mark).status, 200);
    // Many at once: one of them is written, whole.
    let (_, mark) = desk.text();
    let texts: Vec<String> = (0..8).map(|n| COOK.replace("13:00", &format!("1{n}:30"))).collect();
    let written = std::thread::scope(|scope| {
        let saves: Vec<_> = texts.iter().map(|text| scope.spawn(|| desk.save(text, &mark).status)).collect();
        saves.into_iter().map(|save| save.join().expect("an answer")).filter(|status| *status == 200).count()
    });
    assert_eq!(written, 1);
    assert!(texts.iter().any(|text| text.as_bytes() == desk.read()));
}

#[test]
fn a_file_that_cannot_be_worked_on_is_refused_before_anything_is_served() {
    let folder = tempfile::tempdir().expect("a folder");
    let at = |name: &str| folder.path().join(name);
    std::fs::write(at("latin.dwell"), b"cook \"caf\xe9\"\n").expect("a file");
    for (path, words) in [
        (at("none.dwell"), "there is no such file"),
        (folder.path().to_owned(), "not a folder"),
        (at("latin.dwell"), "not plain text"),
    ] {
        let ran = command(&path).output().expect("dwell runs");
        assert_eq!(ran.status.code(), Some(2));
        assert!(String::from_utf8_lossy(&ran.stderr).contains(words), "{ran:?}");
        assert!(ran.stdout.is_empty());
    }
}
