//! What editors are told in files of their own: it reads, and it starts the language server.

use std::path::Path;

use serde_json::Value;

fn text(file: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("editors").join(file);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn toml(file: &str) -> toml::Table {
    text(file).parse().unwrap_or_else(|error| panic!("{file}: {error}"))
}

#[test]
fn helix_starts_the_server_for_the_language() {
    let settings = toml("helix/languages.toml");
    let language = &settings["language"][0];
    let server = language["language-servers"][0].as_str().expect("a server");
    let server = &settings["language-server"][server];
    assert_eq!(server["command"].as_str(), Some("dwell"));
    assert_eq!(server["args"][0].as_str(), Some("lsp"));
    assert_eq!(language["file-types"][0].as_str(), Some("dwell"));
    assert_eq!(language["name"], settings["grammar"][0]["name"]);
}

#[test]
fn zed_names_one_grammar_and_one_language_throughout() {
    let extension = toml("zed/extension.toml");
    let language = toml("zed/languages/dwell/config.toml");
    let grammar = language["grammar"].as_str().expect("a grammar");
    let path = extension["grammars"][grammar]["path"].as_str().expect("where it is");
    assert_eq!(path, "editors/tree-sitter-dwell");
    assert_eq!(extension["language_servers"]["dwell"]["languages"][0], language["name"]);
    assert!(toml("zed/Cargo.toml")["dependencies"].get("zed_extension_api").is_some());
}

#[test]
fn the_grammar_finds_its_queries() {
    let grammar: Value = serde_json::from_str(&text("tree-sitter-dwell/tree-sitter.json")).unwrap();
    let queries = grammar["grammars"][0]["highlights"].as_array().expect("queries");
    assert!(!queries.is_empty());
    for query in queries {
        text(&format!("tree-sitter-dwell/{}", query.as_str().expect("a path")));
    }
}

#[test]
fn all_carry_the_version_of_the_program() {
    let version = env!("CARGO_PKG_VERSION");
    for file in
        ["vscode/package.json", "tree-sitter-dwell/tree-sitter.json", "zed/extension.toml", "zed/Cargo.toml"]
    {
        assert!(text(file).contains(&format!("\"{version}\"")), "{file} is not of {version}");
    }
    assert!(text("emacs/dwell-mode.el").contains(&format!(";; Version: {version}")));
}
