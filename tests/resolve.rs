//! The typed cook from text.

mod common;

#[test]
fn every_example_resolves_without_a_finding() {
    let all = common::examples();
    for (name, text) in &all {
        let mut files = vec![(name.as_str(), text.as_str())];
        files.extend(all.iter().map(|(name, text)| (name.as_str(), text.as_str())));
        let (_, document, findings) = common::resolve_files(&files);
        assert!(document.is_some(), "{name}");
        let said: Vec<_> = findings
            .iter()
            .map(|f| format!("{} {}", f.code.name(), f.message.render(Default::default())))
            .collect();
        assert!(said.is_empty(), "{name}: {said:#?}");
    }
}
