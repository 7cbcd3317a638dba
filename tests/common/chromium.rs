//! Where Chromium is, for tests that look at pages as people see them.

use std::path::PathBuf;

/// `None` where there is none, which is said; with `DWELL_BROWSER=required` it has to be there.
pub fn chromium() -> Option<PathBuf> {
    let paths = std::env::var_os("PATH").unwrap_or_default();
    let found = std::env::split_paths(&paths)
        .flat_map(|folder| ["chromium", "chromium-browser"].map(|name| folder.join(name)))
        .find(|file| file.is_file());
    let required = std::env::var_os("DWELL_BROWSER").is_some_and(|value| value == "required");
    assert!(found.is_some() || !required, "Chromium is not installed");
    if found.is_none() {
        eprintln!("no Chromium here: not looked at");
    }
    found
}
