//! The sheet for the wall: it says what the other outputs say, needs nothing but itself, and stays a page whatever
//! stands in the file.

mod common;

use std::collections::BTreeSet;

use common::sheets::{example, example_with_outlook, of_text, outlook, page, part};
use dwell::compile::{Options, compile};
use dwell::output::sheet::{Part, Wanted};
use dwell::output::{buy, prep, sheet, timelines};

/// A tag as it stands: its name (with / where it closes) and what follows the name.
struct Tag<'p> {
    name: &'p str,
    rest: &'p str,
    at: usize,
}

/// What stands inside is no text of the page.
const INSIDE: [(&str, &str); 2] = [("style", "</style>"), ("script", "</script>")];

/// All tags of a page, but for what stands inside `style` and data.
fn tags(page: &str) -> Vec<Tag<'_>> {
    let mut tags: Vec<Tag<'_>> = Vec::new();
    let mut at = 0;
    while let Some(found) = page[at..].find('<') {
        let start = at + found;
        let end = start + page[start..].find('>').expect("a tag ends");
        let inside = page[start + 1..end].trim_end_matches('/');
        let name = inside.split(char::is_whitespace).next().unwrap_or_default();
        tags.push(Tag { name, rest: &inside[name.len()..], at: start });
        let inside = INSIDE.iter().find(|(opening, _)| *opening == name);
        at = inside.map_or(end + 1, |(_, closing)| end + page[end..].find(closing).expect("its end"));
    }
    tags
}

/// Names and values of the attributes of a tag.
fn attributes<'p>(tag: &Tag<'p>) -> Vec<(&'p str, &'p str)> {
    let mut attributes = Vec::new();
    let mut rest = tag.rest.trim();
    while !rest.is_empty() {
        let (name, after) = rest.split_once('=').expect("every attribute has a value");
        let (value, after) = after.strip_prefix('"').expect("in quotes").split_once('"').expect("closed");
        attributes.push((name.trim(), value));
        rest = after.trim();
    }
    attributes
}

/// What a reader sees, without pictures, with single blanks.
fn text(page: &str) -> String {
    let mut text = String::new();
    let body = page.split_once("<body>").expect("a body").1;
    let mut rest = body;
    while let Some((before, after)) = rest.split_once('<') {
        text.push_str(before);
        let skipped = match after.split([' ', '>']).next() {
            Some("svg") => "</svg>",
            Some("script") => "</script>",
            _ => ">",
        };
        let inline = ["bdi", "/bdi", "code", "/code", "time", "/time", "span", "/span", "strong", "/strong"];
        let name = after.split(['>', ' ']).next().unwrap_or_default();
        if !inline.contains(&name) {
            text.push(' ');
        }
        rest = after.split_once(skipped).expect("it ends").1;
    }
    text.push_str(rest);
    common::paper::plain(&text).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Headings and captions, in order.
fn headings(page: &str) -> Vec<String> {
    let heads = ["h1", "h2", "h3", "caption"];
    let tags = tags(page);
    let opening = tags.iter().filter(|tag| heads.contains(&tag.name));
    opening
        .map(|tag| {
            let inside = &page[tag.at..];
            let end = inside.find(&format!("</{}>", tag.name)).expect("it closes");
            format!("{} {}", tag.name, text(&format!("<body>{}", &inside[..end])))
        })
        .collect()
}

const VOID: [&str; 4] = ["meta", "br", "input", "!DOCTYPE"];
const HTML: [&str; 32] = [
    "html", "head", "title", "style", "script", "body", "main", "footer", "section", "div", "h1", "h2", "h3",
    "p", "ul", "ol", "li", "table", "caption", "thead", "tbody", "tr", "th", "td", "span", "strong", "code",
    "bdi", "time", "pre", "svg", "desc",
];
const SVG: [&str; 5] = ["text", "line", "rect", "polyline", "polygon"];
/// None of them fetches, runs or leads anywhere.
const ATTRIBUTES: [&str; 36] = [
    "lang",
    "charset",
    "name",
    "content",
    "http-equiv",
    "class",
    "id",
    "dir",
    "scope",
    "colspan",
    "start",
    "datetime",
    "type",
    "autocomplete",
    "aria-label",
    "aria-labelledby",
    "aria-describedby",
    "role",
    "tabindex",
    "xmlns",
    "viewBox",
    "width",
    "height",
    "x",
    "y",
    "x1",
    "y1",
    "x2",
    "y2",
    "points",
    "text-anchor",
    "html",
    "rx",
    "d",
    "transform",
    "fill",
];

/// Known tags and attributes alone, everything closed in its order, no id twice, and every reference meets its id.
fn assert_sound(page: &str) {
    let mut open: Vec<&str> = Vec::new();
    let (mut ids, mut named) = (BTreeSet::new(), Vec::new());
    for tag in tags(page) {
        let around = page[tag.at..].chars().take(120).collect::<String>();
        if let Some(closed) = tag.name.strip_prefix('/') {
            assert_eq!(open.pop(), Some(closed), "{around}");
            continue;
        }
        let known = [&VOID[..], &HTML, &SVG].iter().any(|known| known.contains(&tag.name));
        assert!(known, "{around}");
        if tag.name == "!DOCTYPE" {
            continue;
        }
        // What no browser runs.
        if tag.name == "script" {
            let data = ["application/json", "application/ld+json"];
            assert!(
                attributes(&tag).iter().any(|(name, kind)| *name == "type" && data.contains(kind)),
                "{around}"
            );
        }
        for (name, value) in attributes(&tag) {
            assert!(ATTRIBUTES.contains(&name), "{name} in {around}");
            match name {
                "id" => assert!(ids.insert(value), "{value} twice"),
                "aria-labelledby" | "aria-describedby" => named.push(value),
                _ => {}
            }
        }
        let drawn = SVG.contains(&tag.name) && tag.name != "text";
        if !VOID.contains(&tag.name) && !drawn && !page[tag.at..].split('>').next().unwrap().ends_with('/') {
            open.push(tag.name);
        }
    }
    assert!(open.is_empty(), "{open:?}");
    assert!(named.iter().all(|name| ids.contains(name)), "{named:?}");
    assert!(!page.chars().any(|c| c != '\n' && dwell::output::clean::acts(c)));
}

const OF_ONE: [&str; 21] = [
    "h1 Overnight smoked shoulder",
    "caption What to do",
    "caption What to read",
    "h2 If it gets late",
    "h2 The plan at a glance",
    "h2 To buy",
    "h3 From butcher",
    "h3 From dry store",
    "h2 Prep: before the heat goes on",
    "h2 To have ready, weighed",
    "h2 Prep: later, when it has been hot",
    "h2 Phases by the clock",
    "h2 Kit",
    "h2 Predicted temperatures",
    "h2 Rules that were judged",
    "h2 Cautions",
    "h2 Allergens in what is served",
    "h2 What the check found",
    "h2 What the forecast is worth",
    "h2 The text of this sheet",
    "h3 overnight-shoulder.dwell",
];

#[test]
fn the_parts_of_one_cook_stand_in_their_order() {
    let page = page(&example("overnight-shoulder.dwell"));
    assert_sound(&page);
    let mut headings = headings(&page);
    // The caption of the verdicts names the set in full.
    let set =
        headings.iter().position(|heading| heading.starts_with("caption FDA Food Code, 2022, United States"));
    headings.remove(set.expect("the rule set by its full name"));
    assert_eq!(headings[..21], OF_ONE);
    assert_eq!(headings[21..], ["h3 clubhouse.dwell"]);
}

#[test]
fn a_menu_has_one_plan_and_then_its_dishes() {
    let page = page(&example("club-supper.dwell"));
    assert_sound(&page);
    let headings = headings(&page);
    assert_eq!(headings[0], "h1 Midwinter supper after the head race");
    // Of all, and of each dish.
    assert_eq!(headings.iter().filter(|heading| *heading == "caption What to do").count(), 4);
    let tops: Vec<&str> = headings.iter().filter_map(|heading| heading.strip_prefix("h2 ")).collect();
    assert_eq!(
        tops,
        [
            "If it gets late",
            "The plan at a glance",
            "To buy",
            "Overnight smoked shoulder",
            "Baked beans",
            "Celeriac, roasted whole",
            "What the check found",
            "What the forecast is worth",
            "The text of this sheet"
        ]
    );
}

/// The rows of the plan: the machine-readable times of each, and its text.
fn plan_rows(page: &str) -> Vec<(Vec<&str>, String)> {
    let table = page
        .split_once("<table class=\"plan\">")
        .expect("a plan")
        .1
        .split_once("</table>")
        .expect("its end")
        .0;
    let rows = table.split("<tr").skip(1).filter(|row| row.contains("<time"));
    rows.map(|row| {
        let times = row.split("datetime=\"").skip(1).map(|time| time.split('"').next().expect("a time"));
        (times.collect(), text(&format!("<body><tr{row}")))
    })
    .collect()
}

#[test]
fn the_times_on_the_wall_are_those_of_the_timeline() {
    for name in ["club-supper.dwell", "chilli.dwell", "overnight-shoulder.dwell"] {
        let file = example(name);
        let page = page(&file);
        let timeline: serde_json::Value = serde_json::from_str(&timelines::json(&file)).expect("JSON");
        let jobs = timeline["jobs"].as_array().expect("jobs");
        let rows = plan_rows(&page);
        assert_eq!(rows.len(), jobs.len(), "{name}");
        for (job, (times, said)) in jobs.iter().zip(&rows) {
            assert!(said.contains(job["text"].as_str().unwrap()), "{said}: {job}");
            assert!(said.contains(job["phase"].as_str().unwrap()), "{said}: {job}");
            assert_eq!(said.contains("left out"), job["dropped"].as_bool().unwrap(), "{said}");
            let stamps = [&job["at"], &job["at_latest"]];
            let last = if job["at"] == job["at_latest"] { 1 } else { 2 };
            for (stamp, time) in stamps[..last].iter().zip(times) {
                match stamp.as_str() {
                    Some(stamp) => assert_eq!(stamp, *time, "{said}"),
                    // Seconds from the start; it starts at 22:00 there.
                    None if name == "overnight-shoulder.dwell" => {
                        let minutes = (22 * 60 + stamp.as_i64().unwrap() / 60) % (24 * 60);
                        assert_eq!(format!("{:02}:{:02}", minutes / 60, minutes % 60), *time, "{said}");
                    }
                    None => {}
                }
            }
            assert_eq!(times.len(), last, "{said}");
        }
        // A box for each job that is done.
        let boxes = page.matches("type=\"checkbox\" aria-labelledby=\"job").count();
        assert_eq!(boxes, jobs.iter().filter(|job| job["dropped"] == false).count(), "{name}");
    }
}

#[test]
fn it_says_what_the_other_outputs_say() {
    for name in ["club-supper.dwell", "overnight-shoulder.dwell", "chilli.dwell", "turkey-crown.dwell"] {
        let file = example(name);
        let said = text(&page(&file)).replace('`', "");
        let words =
            |paragraph: &str| paragraph.split_whitespace().collect::<Vec<_>>().join(" ").replace('`', "");
        let cooks = file.cooks();
        let mut lists = buy::text(&buy::list(&cooks.iter().map(|worked| worked.cook).collect::<Vec<_>>()));
        lists += &prep::text(&prep::list(
            &cooks.iter().map(|worked| (worked.cook, worked.ledger)).collect::<Vec<_>>(),
        ));
        // All but the headings. A line that goes on below is a part of what the sheet says without a break.
        for line in lists.lines().filter(|line| line.starts_with("  ")) {
            // The sheet counts steps and dishes itself.
            let numbered = line.trim().trim_start_matches('[').split_once(['.', ']']);
            let counted = numbered
                .filter(|(number, _)| number.parse::<u32>().is_ok())
                .filter(|(_, rest)| rest.starts_with(' '));
            let fact = words(counted.map_or(line, |(_, rest)| rest));
            assert!(said.contains(&fact), "{name}: {fact}");
        }
        for worked in &cooks {
            assert!(!worked.judged.is_empty());
            for judged in worked.judged {
                let why = judged.why.render(file.scale);
                assert!(said.contains(&words(&why)), "{name}: {why}");
                let set = worked.sets.iter().find(|set| set.id == judged.set).expect("the set");
                assert!(said.contains(&format!("{}, {}", set.title, set.edition)), "{}", set.title);
            }
        }
        for finding in &file.findings {
            let message = finding.message.render(file.scale);
            assert!(said.contains(&words(&message)), "{name}: {message}");
        }
    }
}

#[test]
fn errors_stand_on_top_in_words_and_nothing_is_called_safe() {
    let file = example("too-cool.dwell");
    let said = text(&page(&file));
    let caution = said.find("CAUTION: too-cool.dwell has").expect("a caution");
    let error = said.find("Hot food is kept at 57 °C").expect("the error");
    let plan = said.find("What to do").expect("the plan");
    assert!(caution < error && error < plan, "{said}");
    for (name, _) in common::examples() {
        let file = example(&name);
        let Some(page) = sheet::html(&file, &Wanted::default()) else { continue };
        assert_sound(&page);
        let said = text(&page).to_lowercase();
        assert!(!said.split(|c: char| !c.is_alphabetic()).any(|word| word == "safe"), "{name}");
    }
}

#[test]
fn what_is_not_understood_has_no_sheet() {
    for text in ["", "kit oven is oven\n", "cook \"x\"\n  serves many\n"] {
        assert_eq!(sheet::html(&of_text(text), &Wanted::default()), None, "{text}");
    }
}

#[test]
fn it_needs_nothing_but_itself_and_is_the_same_every_time() {
    for name in ["club-supper.dwell", "overnight-shoulder.dwell"] {
        let page = page(&example(name));
        // Attributes that fetch are not among those that `assert_sound` knows.
        let policy =
            "content=\"default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\"";
        assert!(page.contains(policy));
        for fetching in ["url(", "@import", "src=", "href", "<script", "<link", "//"] {
            let own =
                page.replace("http://www.w3.org/2000/svg", "").replace("// The kit in the rowing club", "");
            let own = own.split_once("The text of this sheet").expect("the source").0.to_owned();
            assert!(!own.contains(fetching), "{name}: {fetching}");
        }
        assert_eq!(page, common::sheets::page(&example(name)));
    }
}

/// Marks of HTML, a way out of every element that text stands in, and a mark that turns the reading direction round.
const HOSTILE: &str = "</title></style></pre></svg><script>alert(1)</script><img src=x onerror=alert(1)>&amp;' onload=x &lt;\u{202e}";

#[test]
fn hostile_text_in_every_field_stays_text() {
    // A quote of the language ends its text; what names a thing takes words alone, and words may hold marks.
    let text = format!(
        "cook \"T{HOSTILE}\"\n  about \"A{HOSTILE}\"\n  by \"B{HOSTILE}\"\n  adapted from \"C{HOSTILE}\"\n  serves 6\n\
         \x20 rules us-food-code\n  note \"N{HOSTILE}\"\n\
         kit oven is oven\nkit probe is probe thermometer\nkit bench is bench\n\
         food lamb is lamb leg\n  1 piece of 2.4 kg\n  thickness 9 cm\n  starts at 5 °C\n  from \"S{HOSTILE}\"\n\
         ingredient rub is 70 g \"D{HOSTILE}\", from \"U{HOSTILE}\"\n\
         phase season is prep\n  lamb on bench\n  takes 5 min to 10 min\n  use all rub\n  do \"J{HOSTILE}\"\n  note \"M{HOSTILE}\"\n\
         phase roast is cook\n  lamb in oven\n  air 140 °C\n  until core 63 °C and \"O{HOSTILE}\", takes 1 h 45 min to 3 h\n\
         phase wait is hot hold\n  lamb in oven\n  air 48 °C\n  covered\n  for 1 h to 3 h\n\
         \x20 allow hold-too-cool because \"W{HOSTILE}\"\n\
         serve lamb\n  at 19:00\n"
    );
    let file = of_text(&text);
    let page = page(&file);
    assert_sound(&page);
    // Each of them is on the page, and can be read; the last of the fields that show on page one.
    for field in "TABCNSDUJMOW".chars() {
        let shown =
            format!("{field}&lt;/title&gt;&lt;/style&gt;&lt;/pre&gt;&lt;/svg&gt;&lt;script&gt;alert(1)");
        assert!(page.contains(&shown), "{field}");
    }
    // The same as a name of a phase and of kit, where the language takes it.
    for (from, to) in [
        ("phase season", "phase <b>x</b>"),
        ("kit bench is", "kit <i>y</i> is"),
        ("lamb on bench", "lamb on <i>y</i>"),
    ] {
        let other = text.replace(from, to);
        if let Some(page) = sheet::html(&of_text(&other), &Wanted::default()) {
            assert_sound(&page);
        }
    }
}

#[test]
fn the_path_is_text_as_well() {
    let text = "cook \"x\"\n  serves 1\n  rules us-food-code\nkit bench is bench\nfood pear is apple\n  100 g\n\
                phase cut is prep\n  pear on bench\n  takes 5 min\nserve pear\n  at 13:00\n";
    let file = compile(&common::Memory(&[]), HOSTILE.into(), text.into(), &Options::default());
    assert_sound(&page(&file));
}

#[test]
fn long_titles_and_other_scripts_stay_whole() {
    let long =
        "Donauschifffahrtsgesellschaftsbetriebsküchenmeister".repeat(3).chars().take(120).collect::<String>();
    for title in [long.as_str(), "كتف مدخن طوال الليل", "Überbackener Blumenkohl mit Süßkartoffeln, 1½ × ⅔"]
    {
        let text = format!(
            "cook \"{title}\"\n  serves 4\n  rules us-food-code\nkit bench is bench\nfood apples is apple\n  600 g\n\
             phase slice is prep\n  apples on bench\n  takes 5 min to 10 min\n  do \"قطّع التفاح; dünn schneiden\"\n\
             serve apples\n  at 13:00\n"
        );
        let page = page(&of_text(&text));
        assert_sound(&page);
        assert!(page.contains(&format!("<h1 dir=\"auto\">{title}</h1>")), "{title}");
        assert!(page.contains("قطّع التفاح; dünn schneiden"));
    }
}

/// WCAG 2.2, 1.4.3: 4.5 to 1 for text; the formula of relative luminance is its own.
#[test]
fn every_pair_of_ink_and_paper_has_enough_contrast() {
    let page = page(&example("overnight-shoulder.dwell"));
    let style = page.split_once("<style>").expect("a style").1.split_once("</style>").expect("its end").0;
    let mut colours = std::collections::BTreeMap::new();
    let roots: Vec<&str> = style.split(":root{").skip(1).collect();
    assert_eq!(roots.len(), 3, "light, dark and paper");
    for (n, root) in roots.iter().enumerate() {
        if n == 2 {
            // Paper begins with the light ones.
            colours = colours_of(roots[0]);
        }
        colours.extend(colours_of(root));
        for ink in ["--ink", "--soft"] {
            for paper in ["--paper", "--shade"] {
                let (a, b) = (common::luminance(&colours[ink]), common::luminance(&colours[paper]));
                let contrast = (a.max(b) + 0.05) / (a.min(b) + 0.05);
                assert!(contrast >= 4.5, "{ink} on {paper}, {n}: {contrast:.2}");
            }
        }
    }
}

fn colours_of(root: &str) -> std::collections::BTreeMap<String, String> {
    let inside = root.split('}').next().expect("its end");
    let pairs = inside.split(';').filter_map(|one| one.split_once(':'));
    pairs.map(|(name, value)| (name.to_owned(), value.to_owned())).collect()
}

/// The sheet that hangs on the wall alone is page one of the whole, with the text of it still inside.
#[test]
fn the_wall_sheet_is_page_one() {
    for name in ["overnight-shoulder.dwell", "club-supper.dwell", "too-cool.dwell"] {
        let file = example(name);
        let (wall, full) = (part(&file, Part::Wall), page(&file));
        assert_sound(&wall);
        let first = |page: &str| {
            let section = page.split_once("<section").expect("page one").1;
            section.split_once("</section>").expect("its end").0.to_owned()
        };
        let there = |page: &str| text(&format!("<body><section{}", first(page)));
        let same = |said: String| said.replace("What to do about it: see “What the check found”. ", "");
        assert_eq!(same(there(&wall)), same(there(&full)), "{name}");
        assert_eq!(wall.matches("<section").count(), 1);
        assert!(wall.contains("id=\"dwell-page\""));
    }
}

/// Every job and reading is at exactly one station, and every limit of a dish at all of its stations.
#[test]
fn stations_share_all_that_is_to_be_done() {
    for (name, stations) in [("overnight-shoulder.dwell", 3), ("club-supper.dwell", 3), ("chilli.dwell", 0)] {
        let file = example(name);
        let (shared, full) = (part(&file, Part::Station), page(&file));
        assert_sound(&shared);
        let walls = shared.matches("<section class=\"wall").count();
        assert!(walls == stations || stations == 0, "{name}: {walls}");
        for what in ["job", "reading", "limit"] {
            let ids = |page: &str| {
                let all = page.split(" id=\"").skip(1).filter_map(|id| id.split('"').next());
                all.filter(|id| id.rsplit('-').next().is_some_and(|last| last.starts_with(what))).count()
            };
            // The food comes to one place of work after the other before the time is up.
            let times = if what == "limit" && file.cooks().len() == 1 { walls } else { 1 };
            // On the whole sheet of a menu it stands on page one, and again with its dish.
            let whole = if file.cooks().len() == 1 { 1 } else { 2 };
            assert_eq!(ids(&shared) * whole, ids(&full) * times, "{name}: {what}");
        }
        let boxes = |page: &str| page.matches("type=\"checkbox\" aria-labelledby").count();
        let bought = full.matches("aria-labelledby=\"buy").count();
        let whole = if file.cooks().len() == 1 { 1 } else { 2 };
        assert_eq!(boxes(&shared) * whole, boxes(&full) - bought, "{name}");
    }
    let menu = part(&example("club-supper.dwell"), Part::Station);
    let heads: Vec<String> = headings(&menu).into_iter().filter(|head| head.starts_with("h1")).collect();
    assert_eq!(heads, ["h1 Overnight smoked shoulder", "h1 Baked beans", "h1 Celeriac, roasted whole"]);
}

#[test]
fn limits_in_time_stand_on_page_one() {
    let said = text(&part(&example("overnight-shoulder.dwell"), Part::Wall));
    assert!(said.contains("Not so by then: throw it away."), "{said}");
    assert!(said.contains("4 h after trim starts"), "{said}");
}

#[test]
fn a_station_says_only_of_its_own_how_it_may_go_on() {
    let menu = example_with_outlook("club-supper.dwell");
    let plan = menu.meal().expect("a plan");
    let dishes: Vec<&str> = menu.cooks().iter().map(|worked| worked.cook.title.value.as_str()).collect();
    let stations = part(&menu, Part::Station);
    let pages: Vec<String> =
        stations.split("<section class=\"wall").skip(1).map(|page| text(&format!("<body>{page}"))).collect();
    assert_eq!(pages.len(), dishes.len());
    let over: Vec<&str> = plan.overruns.iter().map(|overrun| overrun.cook.as_str()).collect();
    assert!(
        over.iter().any(|cook| *cook != over[0]) || plan.branches.iter().any(|one| one.cook != over[0]),
        "{over:?}"
    );
    for (page, dish) in pages.iter().zip(&dishes) {
        let late = late(page);
        for overrun in &plan.overruns {
            let named = format!("{}: {}", overrun.cook, overrun.phase);
            assert!(overrun.cook == *dish || !late.contains(&named), "{dish}: {late}");
        }
        for branch in plan.branches.iter().filter(|branch| branch.cook != *dish) {
            assert!(!late.contains(&format!("{}: if {}", branch.cook, branch.phase)), "{dish}: {late}");
        }
    }
}

/// The list below this heading of a page.
fn late(page: &str) -> &str {
    let late = page.split_once("If it gets late").expect("what to do then").1;
    late.split_once("Later than the last time").expect("its end").0
}

#[test]
fn what_to_do_if_late_is_what_the_timeline_says() {
    let lines = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").replace('`', "");
    for name in ["overnight-shoulder.dwell", "club-supper.dwell", "chilli.dwell"] {
        let file = example_with_outlook(name);
        let timeline = lines(&timelines::text(&file));
        let above = timeline.split_once("Not over by then?").expect("a paragraph").1;
        // On paper there is nobody to ask; its last line says who can.
        let (above, _) = above.split_once("Ask for a new plan").expect("its end");
        assert!(above.contains("for dinner alone"), "{above}");
        for part in [Part::Wall, Part::Full] {
            let said = text(&self::part(&file, part));
            assert!(late(&said).contains(above.trim()), "{name}: {}", late(&said));
        }
    }
    // Nothing is said of what is not there.
    let said = text(&part(&example("overnight-shoulder.dwell"), Part::Wall));
    assert!(!late(&said).contains("dinner alone"), "{said}");
}

/// Apples, and more phases that nature ends than are looked at one by one.
#[test]
fn that_too_much_may_last_longer_to_be_listed_is_said() {
    let phases: String = (1..=61)
        .map(|n| format!("phase cut-{n} is prep\n  apples on bench\n  takes 5 min to 6 min\n"))
        .collect();
    let text_of_it = format!(
        "cook \"Apples\"\n  serves 4\n  rules us-food-code\nkit bench is bench\nfood apples is apple\n  600 g\n\
         {phases}serve apples\n  at 20:00, up to 3 h late\n"
    );
    let file = compile(&common::Memory(&[]), "test.dwell".into(), text_of_it.into(), &outlook());
    let said = text(&part(&file, Part::Wall));
    let notice = "Nature ends 61 phases of this plan.";
    assert!(timelines::text(&file).contains(notice) && late(&said).contains(notice), "{said}");
    let rest = "how it may go, and when it is too late for what, is not told";
    assert!(late(&said).contains(rest), "{said}");
}

/// What would mend the plan of one dish stands on the page of that dish alone.
#[test]
fn a_station_says_only_of_its_own_how_to_mend_the_plan() {
    let dish = |title: &str, food: &str, lasts: &str| {
        format!(
            "cook \"{title}\"\n  serves 4\n  rules us-food-code\nkit bench is bench\nfood {food} is apple\n  600 g\n\
             phase cut-{food} is prep\n  {food} on bench\n  {lasts}\nserve {food}\n  at 13:00\n"
        )
    };
    let (plain, lucky) =
        (dish("Plain", "russet", "takes 10 min"), dish("Lucky", "bramley", "takes 10 min to 40 min"));
    let menu = "menu \"Fruit\"\n  serve at 13:00\ndish \"plain.dwell\" for 4\ndish \"lucky.dwell\" for 4\n";
    let files = [("plain.dwell", plain.as_str()), ("lucky.dwell", lucky.as_str())];
    let file = compile(&common::Memory(&files), "menu.dwell".into(), menu.into(), &outlook());
    let stations = part(&file, Part::Station);
    let pages: Vec<String> =
        stations.split("<section class=\"wall").skip(1).map(|page| text(&format!("<body>{page}"))).collect();
    let [plain, lucky] = pages.as_slice() else { panic!("{}: {:#?}", pages.len(), file.findings) };
    let whole = text(&part(&file, Part::Wall));
    assert!(late(&whole).contains("cut-bramley") && late(lucky).contains("cut-bramley"), "{whole}");
    assert!(!late(plain).contains("bramley"), "{}", late(plain));
}
