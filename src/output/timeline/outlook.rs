//! The sentences of what a plan may come to: one wording for the terminal and for paper.

use super::page::day_name;
use super::words;
use crate::quantity::Duration;
use crate::timing::{Branch, Case, Clock, Minute, OnTime, Overrun, Then, Timeline, Window};

/// Stands above the moments by which things are over.
pub fn above_overruns(timeline: &Timeline) -> String {
    let by_then = match timeline.on_time {
        OnTime::Always => "By then each of these is over, if it lasts no longer than the file says.",
        _ => "By then each of these has to be over.",
    };
    format!(
        "{by_then} If one is not, this is what it means for dinner, and for dinner alone: whether food that took longer may \
         still be eaten, a probe and the rules decide."
    )
}

/// Where there is somebody to ask.
pub const ASK_AGAIN: &str = "Ask for a new plan with `--now`, which is judged by the times that you give.";

/// Stands in place of all that, where nothing of it was looked at.
pub fn too_many(count: usize) -> String {
    format!(
        "Nature ends {count} phases of this plan. That is more than are looked at one by one: how it may go, and when it is too \
         late for what, is not told. Ask for a new plan with `--now` as it goes."
    )
}

/// "If set-crust takes 2 h, …", and "If it takes 4 h, …"; the dish before it where there are several.
pub fn branch(timeline: &Timeline, Branch { cook, phase, quick, slow }: &Branch) -> [String; 2] {
    let clock = &timeline.clock;
    let case = |case: &Case| {
        let mut text = format!("takes {}, it ends {}", length(case.lasts), words::times(clock, case.ends));
        for (n, then) in case.then.iter().enumerate() {
            let joined = if n + 1 == case.then.len() { ", and " } else { ", " };
            text.push_str(joined);
            text.push_str(&follows(clock, then, cook));
        }
        text + "."
    };
    let first = format!("{phase} {}", case(quick));
    let first = if timeline.is_menu() { format!("{cook}: if {first}") } else { format!("If {first}") };
    [first, format!("If it {}", case(slow))]
}

/// "wait then lasts 8 h to 9 h 10 min", "crisp then starts 14:10 to 14:20"; of another dish with its name.
fn follows(clock: &Clock, then: &Then, dish: &str) -> String {
    let other = if then.cook == dish { String::new() } else { format!(" ({})", then.cook) };
    let phase = format!("{}{other}", then.phase);
    match then.lasts {
        Some(Window { earliest, latest }) if earliest == latest => {
            format!("{phase} then lasts {}", length(earliest))
        }
        Some(Window { earliest, latest }) => {
            format!("{phase} then lasts {} to {}", length(earliest), length(latest))
        }
        None if then.served => format!("it is then served{other} {}", words::times(clock, then.starts)),
        None => format!("{phase} then starts {}", words::times(clock, then.starts)),
    }
}

/// The moment by which something is over, and what is left if it is not.
pub fn overrun(timeline: &Timeline, overrun: &Overrun) -> (Minute, String) {
    let Overrun { cook, phase, longest, most, spare, sure, lost, asleep, withheld, taken_up, gives } =
        overrun;
    let named = words::named(cook, phase, timeline.is_menu());
    let moment = match (spare, sure, lost) {
        _ if *withheld => *longest,
        (None, Some(sure), _) => *sure,
        (None, None, Some(lost)) => *lost,
        _ => *longest,
    };
    let of = |other: &str, dish: &str| match dish == cook {
        true => other.to_owned(),
        false => format!("{other} ({dish})"),
    };
    let asleep = if *asleep { ", or somebody is needed while asleep" } else { "" };
    let late = match lost {
        Some(lost) if *lost > moment + spare.unwrap_or(0) => {
            format!("dinner may be late; after {} it is{asleep}", time(&timeline.clock, *lost, moment))
        }
        Some(_) => format!("dinner is late{asleep}"),
        None => "dinner may be late".to_owned(),
    };
    let mut text = match spare {
        Some(spare) if *spare > 0 => {
            let shorter: Vec<String> = taken_up.iter().map(|one| of(&one.phase, &one.cook)).collect();
            let shorter = match shorter.as_slice() {
                [] => String::new(),
                [one] => format!(", with a shorter {one}"),
                several => format!(", with {} shorter", several.join(" and ")),
            };
            format!(
                "{named}: up to {} more than its {}, {} at the latest, dinner is still on time{shorter}. Later, {late}.",
                length(*spare),
                length(*most),
                time(&timeline.clock, longest + spare, moment)
            )
        }
        _ if *withheld => {
            let late = lost.map(|lost| {
                format!(" Dinner is late after {}{asleep}.", time(&timeline.clock, lost, moment))
            });
            format!(
                "{named}: no more than its {}, whatever the clock leaves: the food may then have to be thrown away.{}",
                length(*most),
                late.unwrap_or_default()
            )
        }
        _ => format!("{named}: {late}."),
    };
    if let Some(give) = gives.iter().max_by_key(|give| give.spare) {
        text.push_str(&format!(
            " Only if {} may be shorter than its {} are there {} to spare: change the file, and check it first.",
            of(&give.phase, &give.cook),
            length(give.least),
            length(give.spare)
        ));
    }
    (moment, text)
}

/// The same in one piece: "Not over by 08:55, Saturday? …".
pub fn not_over_by(timeline: &Timeline, one: &Overrun) -> String {
    let (moment, text) = overrun(timeline, one);
    let clock = &timeline.clock;
    format!("Not over by {}, {}? {text}", clock.time_of_day(moment), day_name(clock, clock.day(moment)))
}

fn length(minutes: Minute) -> String {
    Duration::from_minutes(minutes as f64).show()
}

/// A time of day, with its day where that is not the one of `beside`.
fn time(clock: &Clock, minute: Minute, beside: Minute) -> String {
    let time = clock.time_of_day(minute);
    match clock.day(minute) == clock.day(beside) {
        true => time,
        false => format!("{time} ({})", day_name(clock, clock.day(minute))),
    }
}
