//! Calm under bad input: each of these gives a finding, quickly, and never a panic.

use std::time::{Duration, Instant};

use crate::support::{Folder, GOOD, TOO_COOL, json};

/// The codes for a file with these bytes.
fn codes(bytes: impl AsRef<[u8]>) -> Vec<String> {
    let folder = Folder::with("cook.dwell", bytes);
    let start = Instant::now();
    let (codes, status) = folder.codes("cook.dwell");
    assert_eq!(status, Some(1), "{codes:?}");
    // Generous, for a build without optimisation on a busy machine.
    assert!(start.elapsed() < Duration::from_secs(120), "{:?}", start.elapsed());
    codes
}

fn good_with(from: &str, to: &str) -> String {
    assert!(GOOD.contains(from));
    GOOD.replace(from, to)
}

#[test]
fn not_utf8() {
    assert_eq!(codes(b"cook \"caf\xe9\"\n  serves 4\n"), ["file-unreadable"]);
    assert_eq!(codes([0u8, 159, 146, 150]), ["file-unreadable"]);
}

#[test]
fn empty() {
    for text in ["", "\n\n", "\u{feff}", "  \t\r\n"] {
        assert_eq!(codes(text), ["file-empty"]);
    }
}

#[test]
fn ten_mebibytes() {
    let mut text = GOOD.to_owned();
    while text.len() < 10 * 1024 * 1024 {
        text.push_str("// one more comment that says nothing\n");
    }
    assert_eq!(codes(text), ["file-too-long"]);
}

#[test]
fn one_mebibyte_on_a_line() {
    assert_eq!(codes(format!("{GOOD}note \"{}\"\n", "x".repeat(1 << 20))), ["file-too-long"]);
    assert_eq!(codes("(".repeat(1 << 20)), ["file-too-long"]);
}

#[test]
fn circular_kit() {
    let folder = Folder::with("cook.dwell", good_with("kit bench is bench", "kit from \"a.dwell\""));
    folder.file("a.dwell", "kit from \"b.dwell\"\nkit bench is bench\n");
    folder.file("b.dwell", "kit from \"a.dwell\"\nkit hob is hob\n");
    let (codes, status) = folder.codes("cook.dwell");
    assert_eq!((codes, status), (vec!["file-circular".to_owned()], Some(1)));
    // Each alone, and a file that names itself.
    assert_eq!(folder.codes("a.dwell").0, ["file-circular"]);
    folder.file("self.dwell", "kit from \"self.dwell\"\nkit hob is hob\n");
    assert_eq!(folder.codes("self.dwell").0, ["file-circular"]);
}

#[test]
fn nested_kit() {
    let folder = Folder::with("cook.dwell", good_with("kit bench is bench", "kit from \"k0.dwell\""));
    for n in 0..600 {
        folder.file(&format!("k{n}.dwell"), format!("kit from \"k{}.dwell\"\nkit hob{n} is hob\n", n + 1));
    }
    folder.file("k600.dwell", "kit bench is bench\n");
    let (codes, status) = folder.codes("cook.dwell");
    assert_eq!(status, Some(1));
    assert!(codes.contains(&"file-unreadable".to_owned()), "{codes:?}");
}

#[test]
fn files_outside_the_folder_are_not_read() {
    let folder = Folder::with("outside.dwell", "kit bench is bench\n");
    let outside = folder.path("outside.dwell");
    let absolute = outside.to_string_lossy().into_owned();
    for path in ["../outside.dwell", "sub/../../outside.dwell", "../no-such-file.dwell", &absolute] {
        folder.file("in/cook.dwell", good_with("kit bench is bench", &format!("kit from \"{path}\"")));
        let (codes, status) = folder.codes("in/cook.dwell");
        assert_eq!((codes, status), (vec!["file-outside".to_owned()], Some(1)), "{path}");
    }
    // A wider folder can be named, and then they are.
    folder.file("in/cook.dwell", good_with("kit bench is bench", "kit from \"../outside.dwell\""));
    assert_eq!(folder.run(&["check", "--root", ".", "in/cook.dwell"]).status, Some(0));
    assert_eq!(folder.run(&["check", "."]).status, Some(0), "the folder that was named counts");
    // A file that itself lies outside that folder cannot be used at all.
    assert_eq!(folder.run(&["check", "--root", "in", "outside.dwell"]).status, Some(2));
}

#[cfg(unix)]
#[test]
fn links_are_followed_before_they_are_judged() {
    let folder = Folder::with("secret.dwell", "kit bench is bench\n");
    folder.file("in/cook.dwell", good_with("kit bench is bench", "kit from \"kit.dwell\""));
    std::os::unix::fs::symlink(folder.path("secret.dwell"), folder.path("in/kit.dwell")).unwrap();
    assert_eq!(folder.codes("in/cook.dwell").0, ["file-outside"]);
    // Nor does walking the folder read it.
    let ran = folder.run(&["check", "in"]);
    assert_eq!(ran.status, Some(2), "{ran:?}");

    // A folder that holds itself does not lead in circles.
    let folder = Folder::with("in/cook.dwell", GOOD);
    std::os::unix::fs::symlink(folder.path("in"), folder.path("in/again")).unwrap();
    assert_eq!(folder.run(&["check", "in"]).status, Some(0));
}

#[test]
fn a_kit_file_that_is_a_folder_or_missing() {
    let folder = Folder::with("cook.dwell", good_with("kit bench is bench", "kit from \"sub\""));
    std::fs::create_dir(folder.path("sub")).unwrap();
    assert_eq!(folder.codes("cook.dwell").0, ["file-unreadable"]);
    folder.file("cook.dwell", good_with("kit bench is bench", "kit from \"absent.dwell\""));
    assert_eq!(folder.codes("cook.dwell").0, ["file-missing"]);
}

#[test]
fn numbers_of_four_hundred_digits() {
    let digits = "9".repeat(400);
    for (from, to) in [
        ("serves 4", format!("serves {digits}")),
        ("4 pieces of 150 g", format!("{digits} pieces of 150 g")),
        ("4 pieces of 150 g", format!("4 pieces of {digits} g")),
        ("4 pieces of 150 g", format!("4 pieces of 0.{digits}e{digits} g")),
        ("starts at 18 °C", format!("starts at {digits} °C")),
        ("starts at 18 °C", format!("starts at -{digits} °C")),
        ("takes 5 min to 10 min", format!("takes 5 min to {digits} min")),
        ("at 13:00", format!("at {digits}:00")),
        ("at 13:00", format!("at {digits}-12-12 13:00")),
    ] {
        let found = codes(good_with(from, &to));
        assert!(!found.is_empty(), "{to}");
    }
}

#[test]
fn ten_thousand_phases() {
    let mut text = GOOD.replace("serve apples\n  at 13:00, up to 15 min late\n", "");
    for n in 0..10_000 {
        text.push_str(&format!("\nphase step{n} is prep\n  apples on bench\n  takes 1 min to 2 min\n"));
    }
    text.push_str("\nserve apples\n  at 13:00, up to 15 min late\n");
    assert_eq!(codes(text), ["file-too-long"]);
}

#[test]
fn nothing_and_less_than_nothing() {
    for (from, to) in [
        ("serves 4", "serves 0"),
        ("serves 4", "serves -4"),
        ("4 pieces of 150 g", "0 pieces of 150 g"),
        ("4 pieces of 150 g", "4 pieces of 0 g"),
        ("4 pieces of 150 g", "4 pieces of -150 g"),
        ("takes 5 min to 10 min", "takes 10 min to 5 min"),
        ("takes 5 min to 10 min", "takes -5 min to 10 min"),
        ("takes 5 min to 10 min", "takes 0 min to 0 min"),
        ("starts at 18 °C", "starts at -300 °C"),
    ] {
        let found = codes(good_with(from, to));
        assert_eq!(found.len(), 1, "{to}: {found:?}");
    }
}

#[test]
fn a_phase_with_no_end() {
    assert_eq!(codes(good_with("  takes 5 min to 10 min\n", "")), ["end-missing"]);
}

#[test]
fn deep_nesting_and_odd_lines_do_not_hang() {
    for piece in ["(", "\"", "and ", "half of ", "1/", ", ", "- ", "° ", "becomes "] {
        let long = piece.repeat(4000 / piece.len());
        for line in [long.clone(), format!("use {long}"), format!("phase {long}"), format!("takes {long}")] {
            let found = codes(good_with("  apples on bench\n", &format!("  apples on bench\n  {line}\n")));
            assert!(!found.is_empty());
        }
    }
}

/// What is said of the lamb with one figure changed, and what the forecast then says.
fn lamb(changes: &[(&str, &str)]) -> (Vec<(String, String)>, String) {
    let mut text = TOO_COOL.replace("air 48 °C", "air 63 °C");
    for (from, to) in changes {
        assert!(text.contains(from));
        text = text.replace(from, to);
    }
    let folder = Folder::with("lamb.dwell", text);
    let check = json(&folder.run(&["check", "--format", "json", "lamb.dwell"]).out);
    let said = |finding: &serde_json::Value| {
        let words = |key: &str| finding[key].as_str().expect("words").to_owned();
        (words("code"), words("message"))
    };
    let found = check["findings"].as_array().expect("a list").iter().map(said).collect();
    let curve = folder.run(&["curve", "lamb.dwell"]);
    assert!(matches!(curve.status, Some(0 | 1)), "{curve:?}");
    (found, curve.out)
}

#[test]
fn thicknesses_that_nothing_has() {
    let digits = "9".repeat(400);
    for (thickness, code) in [
        ("0 cm", "figure-impossible"),
        ("-3 cm", "figure-impossible"),
        ("3 m", "figure-impossible"),
        ("3000 m", "figure-impossible"),
        ("9 cm ± 9 cm", "figure-impossible"),
        (&format!("{digits} cm"), "figure-impossible"),
        (&format!("9 cm ± {digits} cm"), "figure-impossible"),
        ("NaN cm", "line-unreadable"),
        ("inf cm", "line-unreadable"),
        ("1e400 cm", "unit-unknown"),
    ] {
        let (found, curve) = lamb(&[("thickness 9 cm", &format!("thickness {thickness}"))]);
        let codes: Vec<&str> = found.iter().map(|(code, _)| code.as_str()).collect();
        assert_eq!((codes, curve.as_str()), (vec![code], ""), "{thickness:.40}");
    }
    // What no forecast can follow is said in words.
    let (found, curve) = lamb(&[("thickness 9 cm", "thickness 0.01 mm")]);
    assert!(found.is_empty() && curve.contains("thinner than can be followed"), "{found:?} {curve}");
}

#[test]
fn temperatures_that_nothing_has() {
    let oven = "kit oven is oven\n  air 40 °C to 250 °C";
    let bath = [("air 140 °C", "water 120 °C\n  vacuum bagged"), ("air 63 °C", "water 63 °C")];
    for range in ["", "\n  water 20 °C to 130 °C"] {
        let kit = format!("kit oven is water bath{range}");
        let (found, _) = lamb(&[(oven, kit.as_str()), bath[0], bath[1]]);
        assert!(found.iter().any(|(code, _)| code == "setting-out-of-range"), "{found:?}");
    }
    let (found, curve) = lamb(&[("starts at 5 °C", "frozen\n  starts at 80 °C")]);
    assert!(
        found.iter().any(|(code, said)| code == "figure-impossible" && said.contains("80 °C")),
        "{found:?}"
    );
    assert!(!found.iter().any(|(code, _)| code == "end-out-of-reach"), "only follows: {found:?} {curve}");
    let (found, _) = lamb(&[("starts at 5 °C", "starts at NaN °C")]);
    assert_eq!(found[0].0, "line-unreadable");
    // Air as hot as water boils is hot air.
    let (found, _) = lamb(&[("air 140 °C", "air 100 °C"), ("air 63 °C", "air 75 °C\n  sealed in foil")]);
    assert_eq!(found, []);
    // As hot as it gets is said at once, in figures that a thermometer has.
    let (found, _) = lamb(&[("air 140 °C", "air 58 °C ± 1 °C"), (", takes 1 h 45 min to 3 h", "")]);
    let (_, said) = found.iter().find(|(code, _)| code == "end-out-of-reach").expect("out of reach");
    assert!(said.contains("can never reach 63 °C") && !said.contains("59.98"), "{said}");
}
