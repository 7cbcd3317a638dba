//! Lists the rule sets in their folder with their ids, so that a further set is a further file and no code.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

const FOLDER: &str = "src/tables/data/rules";

fn main() -> Result<(), Box<dyn std::error::Error>> {
    println!("cargo:rerun-if-changed={FOLDER}");
    println!("cargo:rerun-if-changed=src/tables/build.rs");
    let folder = Path::new(&std::env::var("CARGO_MANIFEST_DIR")?).join(FOLDER);
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(folder)?.map(|entry| entry.map(|entry| entry.path())).collect::<Result<_, _>>()?;
    files.retain(|file| file.extension().is_some_and(|ending| ending == "toml"));
    files.sort_by_key(|file| file.file_stem().map(std::ffi::OsStr::to_owned));
    let mut list = String::from("[\n");
    for file in files {
        let id = file.file_stem().and_then(std::ffi::OsStr::to_str).ok_or("a rule set without a name")?;
        writeln!(list, "    ({id:?}, include_str!({file:?})),")?;
    }
    list.push_str("]\n");
    std::fs::write(Path::new(&std::env::var("OUT_DIR")?).join("rule_sets.rs"), list)?;
    Ok(())
}
