//! The JSON-LD of a sheet, held against the vocabulary of schema.org as it is published, and against what search engines ask
//! for (`tests/reference/schema_org.toml` says what is from where); durations are read by a crate of others.

mod common;

use std::collections::{BTreeMap, BTreeSet};

use common::sheets::{example, of_text, page};
use dwell::compile::Compiled;
use dwell::findings::Severity;
use dwell::output::sheet::{self, Wanted};
use dwell::output::timelines;
use serde::Deserialize;
use serde_json::Value;

#[derive(Deserialize)]
struct Reference {
    types: BTreeMap<String, Kind>,
    search: Search,
}

#[derive(Deserialize)]
struct Kind {
    parents: Vec<String>,
    properties: BTreeMap<String, Vec<String>>,
}

#[derive(Deserialize)]
struct Search {
    required: Vec<String>,
    recommended: Vec<String>,
    never_said: BTreeMap<String, String>,
}

fn reference() -> Reference {
    toml::from_str(include_str!("reference/schema_org.toml")).expect("the reference can be read")
}

impl Reference {
    fn kind(&self, name: &str) -> &Kind {
        self.types.get(name).unwrap_or_else(|| panic!("{name} is no type that was looked up"))
    }

    /// What a property of this type expects; those of its parents are its own.
    fn expected(&self, name: &str, property: &str) -> Option<&[String]> {
        let kind = self.kind(name);
        let own = kind.properties.get(property).map(Vec::as_slice);
        own.or_else(|| kind.parents.iter().find_map(|parent| self.expected(parent, property)))
    }

    fn is_a(&self, name: &str, ancestor: &str) -> bool {
        name == ancestor || self.kind(name).parents.iter().any(|parent| self.is_a(parent, ancestor))
    }

    /// Every property is one of the type, and holds what is expected of it; a list holds it in each of its items.
    fn assert_keeps(&self, value: &Value) {
        let kind = value["@type"].as_str().unwrap_or_else(|| panic!("no type: {value}"));
        let properties = value.as_object().expect("an object").iter();
        for (property, held) in properties.filter(|(name, _)| *name != "@type") {
            let expected =
                self.expected(kind, property).unwrap_or_else(|| panic!("{kind} has no {property}"));
            match held {
                Value::Array(all) => all.iter().for_each(|one| self.assert_expected(one, expected, property)),
                one => self.assert_expected(one, expected, property),
            }
        }
    }

    fn assert_expected(&self, held: &Value, expected: &[String], property: &str) {
        let takes = |name: &str| expected.iter().any(|kind| kind == name);
        match held {
            Value::String(text) if takes("Duration") => assert!(minutes(text) > 0, "{property}: {text}"),
            Value::String(text) => assert!(takes("Text") && !text.trim().is_empty(), "{property}: {text}"),
            Value::Object(_) => {
                let kind = held["@type"].as_str().unwrap_or_else(|| panic!("{property} has no type: {held}"));
                let known = expected.iter().filter(|name| self.types.contains_key(*name));
                assert!(known.into_iter().any(|name| self.is_a(kind, name)), "{property}: {held}");
                self.assert_keeps(held);
            }
            other => panic!("{property}: {other}"),
        }
    }
}

/// The recipes of a page, as a reader of HTML finds them.
fn recipes(page: &str) -> Vec<Value> {
    let parts: Vec<&str> = page.split("<script type=\"application/ld+json\">").collect();
    let [_, part] = parts.as_slice() else { panic!("one block: {}", parts.len()) };
    let data = part.split_once("</script>").expect("its end").0;
    assert!(!data.contains(['<', '>', '&']), "{data}");
    let data: Value = serde_json::from_str(data).expect("JSON");
    assert_eq!(data["@context"], "https://schema.org");
    data["@graph"].as_array().expect("a graph").clone()
}

fn of(file: &Compiled) -> Vec<Value> {
    recipes(&page(file))
}

/// A duration as another crate reads it, in minutes.
fn minutes(text: &str) -> u64 {
    let read = iso8601::duration(text).unwrap_or_else(|why| panic!("{text}: {why}"));
    let seconds = std::time::Duration::from(read).as_secs();
    assert!(seconds > 0 && seconds % 60 == 0, "{text}");
    seconds / 60
}

#[test]
fn every_example_keeps_to_the_vocabulary() {
    let (mut dishes, mut failing) = (0, Vec::new());
    let reference = reference();
    for (name, _) in common::examples() {
        let file = example(&name);
        let Some(page) = sheet::html(&file, &Wanted::default()) else { continue };
        if file.findings.iter().any(|finding| finding.severity == Severity::Error) {
            failing.push(name);
            continue;
        }
        for recipe in recipes(&page) {
            assert_eq!(recipe["@type"], "Recipe", "{name}");
            reference.assert_keeps(&recipe);
            assert!(recipe["recipeYield"].is_string(), "{name}");
            for list in ["recipeIngredient", "recipeInstructions", "tool"] {
                assert!(!recipe[list].as_array().expect(list).is_empty(), "{name}: {list}");
            }
            dishes += 1;
        }
    }
    // The one that shows what is too cool hands nothing on.
    assert!(dishes >= 9, "{dishes}");
    assert_eq!(failing, ["too-cool.dwell"]);
}

/// What search engines ask for is said, or there is a reason why it is not.
#[test]
fn what_search_engines_ask_for_is_said_where_it_is_known() {
    let Search { required, recommended, never_said } = reference().search;
    let recipes = of(&example("overnight-shoulder.dwell"));
    let has: BTreeSet<&String> = recipes[0].as_object().expect("an object").keys().collect();
    for asked in required.iter().chain(&recommended) {
        assert_ne!(has.contains(asked), never_said.contains_key(asked), "{asked}");
    }
    assert!(never_said.keys().all(|name| required.contains(name) || recommended.contains(name)));
}

/// The eye itself: what the vocabulary does not know, or expects to be something else, is seen.
#[test]
fn what_does_not_keep_to_the_vocabulary_is_seen() {
    let recipe = of(&example("overnight-shoulder.dwell")).remove(0);
    let breaks = |property: &str, value: Value| {
        let mut other = recipe.clone();
        other[property] = value;
        std::panic::catch_unwind(|| reference().assert_keeps(&other)).is_err()
    };
    assert!(!breaks("name", "x".into()));
    assert!(breaks("cookingTime", "PT5M".into()));
    assert!(breaks("cookTime", "5 min".into()));
    assert!(breaks("isBasedOn", "x".into()));
    assert!(breaks("tool", serde_json::json!([{"@type": "HowToSupply", "name": "x"}])));
    assert!(breaks("recipeInstructions", serde_json::json!([{"@type": "HowToTool", "name": "x"}])));
}

#[test]
fn the_times_are_those_of_the_plan() {
    let file = example("overnight-shoulder.dwell");
    let recipes = of(&file);
    let [recipe] = recipes.as_slice() else { panic!("one") };
    let timeline: Value = serde_json::from_str(&timelines::json(&file)).expect("JSON");
    let seconds = |stamp: &Value| stamp.as_u64().expect("seconds from the start");
    let total = seconds(&timeline["servings"][0]["from"]) - seconds(&timeline["start_earliest"]);
    assert_eq!(minutes(recipe["totalTime"].as_str().unwrap()) * 60, total);
    // Half an hour at most to trim and season it, 6 h of smoke and up to 4 h of crust: none longer than the whole.
    let cook = minutes(recipe["cookTime"].as_str().unwrap());
    assert!((600..=total / 60).contains(&cook), "{cook}");
    assert!(minutes(recipe["prepTime"].as_str().unwrap()) < 120);
}

#[test]
fn a_recipe_says_what_the_file_says() {
    let recipes = of(&example("overnight-shoulder.dwell"));
    let recipe = &recipes[0];
    assert_eq!(recipe["name"], "Overnight smoked shoulder");
    assert_eq!(recipe["recipeYield"], "16 people, 170 g each");
    let all = recipe.to_string();
    for said in [
        "2 pieces of 3.2 kg (6.4 kg)",
        "coarse sea salt",
        "Until core 84 °C",
        "Look for juice pooling on top.",
        "\"HowToSupply\"",
    ] {
        assert!(all.contains(said), "{said}: {all}");
    }
    let menu = of(&example("club-supper.dwell"));
    let names: Vec<&str> = menu.iter().map(|recipe| recipe["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["Overnight smoked shoulder", "Baked beans", "Celeriac, roasted whole"]);
}

#[test]
fn hostile_text_stays_text() {
    let hostile = "</script><!--<script>alert(1)</script> & x";
    let text = format!(
        "cook \"T{hostile}\"\n  about \"A{hostile}\"\n  by \"B{hostile}\"\n  adapted from \"C{hostile}\"\n  serves 1\n\
         \x20 rules us-food-code\nkit bench is bench\nfood pear is apple\n  100 g\n\
         phase cut is prep\n  pear on bench\n  takes 5 min\n  do \"J{hostile}\"\n  note \"N{hostile}\"\nserve pear\n  at 13:00\n"
    );
    let file = of_text(&text);
    let recipes = of(&file);
    let recipe = &recipes[0];
    reference().assert_keeps(recipe);
    assert_eq!(recipe["name"], format!("T{hostile}"));
    assert_eq!(recipe["description"], format!("A{hostile}"));
    assert_eq!(recipe["creditText"], format!("B{hostile}"));
    assert_eq!(recipe["isBasedOn"]["name"], format!("C{hostile}"));
    let steps = recipe["recipeInstructions"][0]["itemListElement"].as_array().unwrap();
    assert!(steps.iter().any(|step| step["text"] == format!("J{hostile}")), "{steps:?}");
}

#[test]
fn nothing_is_handed_on_that_fails_its_rules() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/unsafe");
    let mut failing = Vec::new();
    for entry in std::fs::read_dir(folder).expect("the examples are in the project") {
        let path = entry.expect("a readable folder").path();
        let text = std::fs::read_to_string(&path).expect("a readable example");
        let file = of_text(&text);
        let errors = file.findings.iter().any(|finding| finding.severity == Severity::Error);
        let Some(page) = sheet::html(&file, &Wanted::default()) else { continue };
        assert_eq!(page.contains("application/ld+json"), !errors, "{path:?}");
        failing.extend(errors.then(|| path.file_stem().expect("a name").to_owned()));
    }
    assert!(failing.contains(&"chilli-cooled-in-its-pot".into()), "{failing:?}");
}

/// A word of the writer makes no error of food safety go away.
#[test]
fn what_the_writer_allows_is_not_handed_on_either() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/unsafe/chilli-cooled-in-its-pot.dwell");
    let text = std::fs::read_to_string(folder).expect("an example");
    let cool = text.lines().find(|line| line.contains(" is cool")).expect("a phase that cools");
    let allowed = text.replace(cool, &format!("{cool}\n  allow cool-too-slow because \"it is a test\""));
    let file = of_text(&allowed);
    assert!(!file.findings.iter().any(|finding| finding.severity == Severity::Error), "{:#?}", file.findings);
    assert!(!page(&file).contains("application/ld+json"));
}

/// An apple that takes from a quarter of an hour to an hour, after a pear and before another apple.
fn pears(stands: &str) -> Compiled {
    let text = format!(
        "cook \"Fruit\"\n  serves 4\n  rules us-food-code\nkit oven is oven\nkit bench is bench\n\
         food russet is apple\n  1 kg\nfood comice is pear\n  1 kg\nfood bramley is apple\n  1 kg\n\
         phase bake is cook\n  russet and comice and bramley in oven\n  becomes fruit\n  air 180 °C\n  \
         until \"soft\", takes 15 min to 1 h\n\
         phase cool is rest\n  fruit on bench\n  {stands}\nserve fruit\n  at 13:00\n"
    );
    let file = of_text(&text);
    assert!(file.understood(), "{:#?}", file.findings);
    assert!(!file.findings.iter().any(|finding| finding.severity == Severity::Error), "{:#?}", file.findings);
    file
}

#[test]
fn whole_times_are_those_of_a_plan_that_always_holds() {
    let of_one = |stands| of(&pears(stands)).remove(0);
    let (always, lucky) = (of_one("for 5 min to 1 h"), of_one("for 5 min"));
    assert!(always.get("totalTime").is_some() && always.get("cookTime").is_some(), "{always}");
    assert!(lucky.get("totalTime").is_none() && lucky.get("cookTime").is_none(), "{lucky}");
}

#[test]
fn each_kind_is_named_once() {
    let recipe = of(&pears("for 5 min to 1 h")).remove(0);
    assert_eq!(recipe["keywords"], "apple, pear");
}
