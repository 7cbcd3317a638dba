//! `dwell check` over many files: side by side, and still the same as one after the other; how far it is, on a terminal only.

mod common;

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use common::draws;
use dwell::cli::files::{Named, named};
use dwell::compile::{Compiled, Options, compile};
use dwell::folder::Folder;
use dwell::output::human::{self, Layout};
use dwell::output::json;
use std::collections::BTreeSet;

fn dwell(words: &[&str], threads: &str) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_dwell"));
    command.args(words).env("RAYON_NUM_THREADS", threads).env_remove("NO_COLOR").env("TERM", "xterm");
    command
}

fn run(words: &[&str], threads: &str) -> Output {
    dwell(words, threads).output().expect("the program runs")
}

/// Different cooks in three folders, in one of them with kit that all find the same fault in, and what is no cook between
/// them.
fn folder_of(count: usize) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: PathBuf, bytes: &[u8]| {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("the folder");
        fs::write(path, bytes).expect("the file");
    };
    for (nth, (name, text)) in draws::cooks(count, 0xC0_0C).into_iter().enumerate() {
        let part = ["a", "b", "b", "a", "a", "b", "b", "a", "faulty"][nth % 9];
        write(Path::new(part).join(name), text.as_bytes());
    }
    for (part, more) in [("a", ""), ("b", ""), ("faulty", "\nkit spare is spoon\n")] {
        let (name, kit) = draws::SHARED_KIT;
        write(Path::new(part).join(name), format!("{kit}{more}").as_bytes());
    }
    write("b/0010-empty.dwell".into(), b"");
    write("b/0011-bytes.dwell".into(), b"cook \"x\"\n  serves 4 \xff\n");
    folder
}

/// What the library says of each file in turn.
fn one_by_one(folder: &Path) -> Vec<Compiled> {
    let mut said = BTreeSet::new();
    let files = named(&[folder.to_owned()]).expect("files");
    let each = files.iter().map(|file| {
        let Named::File { path, folder, .. } = file else { panic!("only files") };
        let options = Options { outline: true, cures: true, ..Options::default() };
        let bytes = fs::read(path).expect("the file");
        let shown = path.to_string_lossy().into_owned();
        let mut compiled = compile(&Folder::new(folder).expect("the folder"), shown, bytes, &options);
        compiled.say_once(&mut said);
        compiled
    });
    each.collect()
}

#[test]
fn any_number_of_threads_says_what_one_file_after_the_other_does() {
    let folder = folder_of(20);
    let path = folder.path().to_str().expect("a plain path");
    let files = one_by_one(folder.path());
    assert_eq!(files.len(), 25);
    let predicted = files.iter().filter(|file| file.cooks().iter().any(|cook| !cook.curves.foods.is_empty()));
    assert!(predicted.count() >= 15, "the cooks are read, and predicted");
    let findings = files.iter().map(|f| human::findings(&f.sources, &f.findings, f.scale, Layout::Plain));
    let findings: String = findings.collect();
    let summary: String = files.iter().map(human::summary).collect();
    assert_eq!(findings.matches("[kit-class-unknown]").count(), 1, "what several find is said once");
    for threads in ["1", "2", "8"] {
        let ran = run(&["check", path], threads);
        assert_eq!(ran.status.code(), Some(1), "{threads} threads");
        assert!(ran.stderr == findings.as_bytes(), "{threads} threads: other findings");
        assert!(ran.stdout == summary.as_bytes(), "{threads} threads: another summary");
    }
    let ran = run(&["check", "--format", "json", path], "8");
    let mut report = json::Report::default();
    files.iter().for_each(|file| report.add(file));
    assert!(ran.stdout == report.text().as_bytes() && ran.stderr.is_empty());
}

#[cfg(unix)]
#[test]
fn a_linked_folder_is_not_followed_and_a_linked_file_outside_not_read() {
    let outside = folder_of(2);
    let folder = folder_of(2);
    std::os::unix::fs::symlink(outside.path(), folder.path().join("a/elsewhere")).expect("a link");
    std::os::unix::fs::symlink(folder.path(), folder.path().join("b/round")).expect("a link");
    let file = outside.path().join("a/0000-beans.dwell");
    std::os::unix::fs::symlink(file, folder.path().join("a/0001-linked.dwell")).expect("a link");
    let ran = run(&["check", folder.path().to_str().expect("a plain path")], "2");
    let (out, err) = (String::from_utf8_lossy(&ran.stdout), String::from_utf8_lossy(&ran.stderr));
    assert_eq!(ran.status.code(), Some(2));
    assert!(err.contains("0001-linked.dwell: the file really lies outside the folder"), "{err}");
    assert!(
        !out.contains("/elsewhere/") && !out.contains("/round/") && out.contains("0000-beans.dwell: "),
        "{out}"
    );
}

/// Longer than the program waits before it shows how far it is.
const LONG: std::time::Duration = std::time::Duration::from_millis(1500);
const KITCHEN: &[u8] = b"kit bench is bench\n";

/// Checks three kitchens, the first of which is long in coming, with standard error to `err`.
fn slowly(folder: &Path, err: impl Into<Stdio>, environment: &[(&str, &str)], words: &[&str]) -> Output {
    for name in ["a.dwell", "b.dwell"] {
        fs::write(folder.join(name), KITCHEN).expect("the file");
    }
    let mut child = dwell(&[words, &["check", "-", "a.dwell", "b.dwell"]].concat(), "1")
        .current_dir(folder)
        .envs(environment.iter().copied())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(err)
        .spawn()
        .expect("the program starts");
    std::thread::sleep(LONG);
    child.stdin.take().expect("its input").write_all(KITCHEN).expect("it reads");
    child.wait_with_output().expect("the program ends")
}

#[test]
fn nothing_of_how_far_it_is_goes_into_a_pipe() {
    let folder = tempfile::tempdir().expect("a folder");
    let ran = slowly(folder.path(), Stdio::piped(), &[], &[]);
    assert_eq!((ran.status.code(), ran.stderr.as_slice()), (Some(0), &b""[..]));
}

#[cfg(unix)]
mod terminal {
    use std::fs::File;
    use std::io::Read;

    use rustix::pty::{OpenptFlags, grantpt, openpt, ptsname, unlockpt};

    use super::*;

    /// What a person would see of standard error, with all that moves the cursor.
    fn seen(run: impl FnOnce(File) -> Output) -> (String, Output) {
        let ours = openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY).expect("a terminal");
        grantpt(&ours).and_then(|()| unlockpt(&ours)).expect("its other end");
        let name = ptsname(&ours, Vec::new()).expect("its name").into_string().expect("a plain name");
        let theirs = File::options().read(true).write(true).open(name).expect("its other end");
        let reading = std::thread::spawn(move || {
            let mut bytes = Vec::new();
            // A terminal that nobody has open any more ends with an error.
            let _ = File::from(ours).read_to_end(&mut bytes);
            String::from_utf8_lossy(&bytes).into_owned()
        });
        let ran = run(theirs);
        (reading.join().expect("what was seen"), ran)
    }

    #[test]
    fn long_work_shows_how_far_it_is_and_takes_that_away_again() {
        let folder = tempfile::tempdir().expect("a folder");
        let (seen, ran) = seen(|terminal| slowly(folder.path(), terminal, &[], &[]));
        assert_eq!(ran.status.code(), Some(0));
        assert!(seen.contains("of 3 files checked"), "{seen:?}");
        // The last thing is that the line is cleared.
        assert!(seen.ends_with("\r\u{1b}[2K"), "{seen:?}");
        assert!(ran.stdout.starts_with(b"<standard input>: no errors"), "{ran:?}");
    }

    #[test]
    fn how_far_it_is_has_no_colour() {
        let folder = tempfile::tempdir().expect("a folder");
        for (environment, words) in [(&[("NO_COLOR", "1")][..], &[][..]), (&[], &["--color", "always"])] {
            let (seen, _) = seen(|terminal| slowly(folder.path(), terminal, environment, words));
            let sequences = seen.split("\u{1b}[").skip(1);
            let coloured = sequences
                .filter(|rest| rest.trim_start_matches(|c: char| !c.is_alphabetic()).starts_with('m'));
            assert!(seen.contains("files checked") && coloured.count() == 0, "{seen:?}");
        }
    }

    #[test]
    fn a_terminal_that_cannot_be_drawn_on_shows_nothing_and_short_work_neither() {
        let folder = tempfile::tempdir().expect("a folder");
        let (dumb, _) = seen(|terminal| slowly(folder.path(), terminal, &[("TERM", "dumb")], &[]));
        assert_eq!(dumb, "");
        let words = ["check", "a.dwell", "b.dwell"];
        let quick = |terminal: File| dwell(&words, "2").current_dir(folder.path()).stderr(terminal).output();
        let (short, _) = seen(|terminal| quick(terminal).expect("the program runs"));
        assert_eq!(short, "");
    }
}
