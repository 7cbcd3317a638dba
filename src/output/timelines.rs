//! The timeline of a file: of its one cook, or of the dishes of a menu, each timed by itself.

use chrono::{DateTime, FixedOffset};

use super::timeline::{self, JobJson, Stamp, TimelineJson};
use super::{clean, escape};
use crate::compile::Compiled;
use crate::cook::Document;
use crate::heat::Heeded;
use crate::timing::{OnTime, Windows};

/// For people.
pub fn text(file: &Compiled) -> String {
    let cooks = file.cooks();
    let pages = cooks.iter().filter_map(|worked| worked.timeline);
    let mut page = pages.map(|one| timeline::text(one, file.scale)).collect::<Vec<_>>().join("\n\n");
    if let Some(title) = menu_title(file) {
        let note = "Each dish is timed by itself; whether they get in each other's way was not looked at.";
        page = format!("{}\n\n{note}\n\n\n{page}", clean::line(title));
    }
    page
}

/// What stands above a plan that readings had a part in.
pub fn readings(file: &Compiled, started: bool) -> Vec<String> {
    let cooks = file.cooks();
    let foods = cooks.iter().flat_map(|worked| &worked.curves.foods).filter(|food| !food.readings.is_empty());
    let heeded = foods.map(|food| {
        let readings = match food.readings.len() {
            1 => "1 reading".to_owned(),
            more => format!("{more} readings"),
        };
        let name = clean::line(&food.name);
        match food.heeded {
            Heeded::Followed => format!("Sharpened by {readings} of `{name}`."),
            Heeded::TooSoon => {
                format!("Not sharpened: {readings} of `{name}`, whose core has changed too little yet.")
            }
            Heeded::Rejected => format!("Not sharpened: {readings} of `{name}` did not fit the file."),
        }
    });
    let own = "The plan is for its own start, not for the one that was given with `--started`: what it says of being \
               on time is not about the cook that is going on. `dwell curve` counts from the start that was given.";
    heeded.chain(started.then(|| own.to_owned())).collect()
}

/// For tools, in the format "dwell.timeline/1".
pub fn json(file: &Compiled) -> String {
    let cooks = file.cooks();
    let timelines = cooks.iter().filter_map(|worked| worked.timeline);
    let mut all: Vec<TimelineJson> = timelines.map(|one| timeline::json(one, file.scale)).collect();
    match (menu_title(file), all.pop()) {
        (None, Some(only)) => escape::json(&only),
        (title, Some(last)) => {
            all.push(last);
            escape::json(&together(title.unwrap_or_default(), all))
        }
        (_, None) => String::new(),
    }
}

/// What the menu is called, where the file is one.
pub fn menu_title(file: &Compiled) -> Option<&str> {
    match &file.document {
        Some(Document::Menu(menu)) => Some(&menu.title.value),
        _ => None,
    }
}

/// The dishes in one document. What is proved for each alone is not proved for all together.
fn together(title: &str, all: Vec<TimelineJson>) -> TimelineJson {
    let never = all.iter().any(|one| one.on_time == OnTime::Never);
    let mut menu = TimelineJson {
        format: "dwell.timeline/1".into(),
        title: title.to_owned(),
        start_earliest: first(all.iter().map(|one| &one.start_earliest)),
        start_latest: first(all.iter().map(|one| &one.start_latest)),
        on_time: if never { OnTime::Never } else { OnTime::NotProved },
        windows: all.iter().map(|one| one.windows).max().unwrap_or(Windows::OneWay),
        hands_judged: all.iter().all(|one| one.hands_judged),
        servings: Vec::new(),
        phases: Vec::new(),
        jobs: Vec::new(),
    };
    for one in all {
        menu.servings.extend(one.servings);
        menu.phases.extend(one.phases);
        menu.jobs.extend(one.jobs);
    }
    menu.jobs.sort_by_key(|job: &JobJson| job.at.as_ref().and_then(moment));
    menu
}

/// The first of these moments; `None` where one of them has no date, for then they cannot be compared.
fn first<'s>(stamps: impl Iterator<Item = &'s Option<Stamp>>) -> Option<Stamp> {
    let dated = stamps.map(|stamp| {
        let stamp = stamp.as_ref()?;
        Some((moment(stamp)?, stamp.clone()))
    });
    let dated: Option<Vec<_>> = dated.collect();
    dated?.into_iter().min_by_key(|(moment, _)| *moment).map(|(_, stamp)| stamp)
}

fn moment(stamp: &Stamp) -> Option<DateTime<FixedOffset>> {
    match stamp {
        Stamp::Time(time) => DateTime::parse_from_rfc3339(time).ok(),
        Stamp::Seconds(_) => None,
    }
}
