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

#[test]
fn a_length_may_not_be_off_by_all_of_itself() {
    let codes = |thickness: &str| {
        let text = format!(
            "cook \"Loin\"\n  rules us-food-code\nkit oven is oven\nfood loin is pork loin\n  2 kg\n  {thickness}\nphase roast is cook\n  loin in oven\n  air 140 °C\n  for 2 h\nserve loin\n  at 18:30\n"
        );
        let (_, _, findings) = common::cook(&text);
        findings.iter().map(|finding| finding.code.name()).collect::<Vec<_>>()
    };
    assert_eq!(codes("thickness 4 in ± 1 in"), Vec::<&str>::new());
    assert_eq!(codes("thickness 4 in ± 4 in"), ["figure-impossible"]);
    assert_eq!(codes("thickness 4 cm ± 2 in"), ["figure-impossible"]);
}
