//! Every command of the README works as it stands there.
//!
//! Each line of a ```` ```sh ```` block is run in a copy of the examples. `# exit 1` at the end of a
//! line says that the command fails in that way; without it, it must succeed.

use std::path::Path;
use std::process::Command;

/// One command and the exit status that the README promises.
#[derive(Debug, PartialEq)]
struct Shown {
    command: String,
    status: i32,
}

/// The commands of all `sh` blocks, in order. A line that ends in a backslash goes on.
fn commands(readme: &str) -> Vec<Shown> {
    let mut shown = Vec::new();
    let mut inside = false;
    let joined = readme.replace("\\\n", " ");
    for line in joined.lines() {
        match line.trim() {
            "```sh" => inside = true,
            fence if fence.starts_with("```") => inside = false,
            line if inside && !line.is_empty() && !line.starts_with('#') => {
                let (command, status) = match line.rsplit_once("# exit ") {
                    Some((command, status)) => (command, status.trim().parse().expect("a number after exit")),
                    None => (line, 0),
                };
                shown.push(Shown { command: command.trim().to_owned(), status });
            }
            _ => {}
        }
    }
    shown
}

/// The command with the binary that was built for this test in place of building another; `None`
/// where running it would run this test again.
fn runnable(command: &str) -> Option<String> {
    let dwell = format!("\"{}\"", env!("CARGO_BIN_EXE_dwell"));
    if let Some(words) = command.strip_prefix("cargo test") {
        let known = words.split_whitespace().all(|word| ["--release", "--all-targets"].contains(&word));
        assert!(known, "not a plain cargo test: {command}");
        return None;
    }
    if ["cargo install ", "cargo bench", "git clone ", ".ci/run"]
        .iter()
        .any(|known| command.starts_with(known))
    {
        return None;
    }
    for run in ["cargo run --release -- ", "cargo run -- ", "dwell "] {
        if let Some(arguments) = command.strip_prefix(run) {
            return Some(format!("{dwell} {arguments}"));
        }
    }
    panic!("the README shows a command that this test does not know: {command}");
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy(&entry.path(), &target);
        } else {
            std::fs::copy(entry.path(), target).unwrap();
        }
    }
}

#[test]
fn every_command_of_the_readme_works() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let readme = std::fs::read_to_string(root.join("README.md")).expect("the README");
    let shown = commands(&readme);
    assert!(!shown.is_empty(), "the README shows no command");
    let folder = tempfile::tempdir().unwrap();
    copy(&root.join("examples"), &folder.path().join("examples"));
    for Shown { command, status } in shown {
        let Some(line) = runnable(&command) else { continue };
        let done = Command::new("sh").arg("-c").arg(&line).current_dir(folder.path()).output().unwrap();
        assert_eq!(
            done.status.code(),
            Some(status),
            "{command}\n{}{}",
            String::from_utf8_lossy(&done.stdout),
            String::from_utf8_lossy(&done.stderr)
        );
    }
}

#[test]
fn commands_are_found_and_put_into_a_form_that_runs() {
    let readme = "# Title\n```sh\n# first\ncargo run --release -- check \\\n  a.dwell # exit 1\ncargo test\n```\n\
                  ```text\nnot a command\n```\n```sh\ndwell kit\n```\n";
    let found = commands(readme);
    let words: Vec<(String, i32)> = found
        .iter()
        .map(|shown| (shown.command.split_whitespace().collect::<Vec<_>>().join(" "), shown.status))
        .collect();
    let expected = [("cargo run --release -- check a.dwell", 1), ("cargo test", 0), ("dwell kit", 0)];
    assert_eq!(words, expected.map(|(command, status)| (command.to_owned(), status)));
    assert_eq!(runnable("cargo test"), None);
    assert!(runnable("dwell kit").is_some_and(|line| line.ends_with("dwell\" kit")));
}
