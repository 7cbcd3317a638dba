//! `dwell.toml`: where it is looked for.

use crate::findings::{Code, Finding};
use crate::load;
use crate::say;
use crate::tables::{Project, RuleSets};
use crate::text::{FileProblem, Files, Sources};

/// What the `dwell.toml` beside the file `from` says, or the one in the nearest folder above it that
/// may be read; nothing where there is none.
pub fn read(files: &dyn Files, sources: &mut Sources, from: &str, findings: &mut Vec<Finding>) -> Project {
    let mut path = String::from("dwell.toml");
    // No folder is this deep; a `Files` that never says `Outside` must not keep us here.
    for _ in 0..64 {
        match files.read(from, &path) {
            Err(FileProblem::Missing) => path.insert_str(0, "../"),
            Err(FileProblem::Outside | FileProblem::Unreadable(_)) => break,
            Ok((found, bytes)) => return admit(sources, found, path, bytes, findings),
        }
    }
    Project::default()
}

fn admit(
    sources: &mut Sources,
    path: String,
    name: String,
    bytes: Vec<u8>,
    findings: &mut Vec<Finding>,
) -> Project {
    // Nothing in it, nothing laid over the tables.
    if bytes.trim_ascii().is_empty() {
        return Project::default();
    }
    let file = match load::admit(sources, path, name, bytes) {
        Ok(file) => file,
        Err(finding) => {
            findings.push(*finding);
            return Project::default();
        }
    };
    let (project, found) = Project::read(file, &sources.get(file).text);
    findings.extend(found);
    let known = RuleSets::built_in();
    if let Some(rules) = project.rules.as_ref().filter(|rules| known.find(&rules.value).is_none()) {
        findings.push(Finding::new(
            Code::RulesUnknown,
            rules.span,
            say![format!("There is no set of rules called `{}`.", rules.value)],
            say![format!("There are: {}.", known.names().collect::<Vec<_>>().join(", "))],
        ));
    }
    project
}
