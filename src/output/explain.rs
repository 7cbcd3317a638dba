//! `dwell explain`: the long text of a finding, for reading in a terminal.

use crate::findings::Code;

/// A code's text as `dwell explain` prints it: the code, then the text without Markdown's fences.
pub fn page(code: Code) -> String {
    let mut page = format!("{} ({}, {})\n", code.name(), code.severity().name(), code.stage().name());
    let mut in_example = false;
    for line in code.text().lines() {
        if let Some(language) = line.strip_prefix("```") {
            in_example = !language.is_empty();
            // A second file of an example is named in its fence.
            if let Some(file) = language.strip_prefix("dwell ") {
                page.push_str(&format!("    ({file})\n"));
            }
        } else if in_example {
            page.push_str(&format!("    {line}"));
            page.push('\n');
        } else if let Some(heading) = line.strip_prefix("## ") {
            page.push_str(&format!("{}\n", heading.to_uppercase()));
        } else {
            page.push_str(line.strip_prefix("# ").unwrap_or(line));
            page.push('\n');
        }
    }
    page
}
