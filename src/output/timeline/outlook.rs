//! The sentences of what a plan may come to: one wording for the terminal and for paper.

use super::page::day_name;
use super::words;
use crate::quantity::Duration;
use crate::timing::{Branch, Case, Clock, Deadline, Minute, OnTime, Then, Timeline, Window};

/// Stands above the moments by which things are over.
pub fn above_deadlines(timeline: &Timeline) -> &'static str {
    match timeline.on_time {
        OnTime::Always => {
            "By then each of these is over, if it lasts no longer than the file says. If one is not, this is what is left; \
             ask for a new plan with `--now`."
        }
        _ => {
            "By then each of these has to be over. If one is not, this is what is left; ask for a new plan with `--now`."
        }
    }
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
pub fn deadline(timeline: &Timeline, deadline: &Deadline) -> (Minute, String) {
    let Deadline { cook, phase, longest, most, spare, sure, lost, taken_up, gives } = deadline;
    let named = words::named(cook, phase, timeline.is_menu());
    let moment = match (spare, sure, lost) {
        (None, Some(sure), _) => *sure,
        (None, None, Some(lost)) => *lost,
        _ => *longest,
    };
    let of = |other: &str, dish: &str| match dish == cook {
        true => other.to_owned(),
        false => format!("{other} ({dish})"),
    };
    let late = match lost {
        Some(lost) if *lost > moment + spare.unwrap_or(0) => {
            format!("dinner may be late; after {} it is", time(&timeline.clock, *lost, moment))
        }
        Some(_) => "dinner is late".to_owned(),
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
                "{named}: up to {} more than its {}, {} at the latest, all is still on time{shorter}. Later, {late}.",
                length(*spare),
                length(*most),
                time(&timeline.clock, longest + spare, moment)
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
pub fn not_over_by(timeline: &Timeline, one: &Deadline) -> String {
    let (moment, text) = deadline(timeline, one);
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
