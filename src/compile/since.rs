//! When readings were taken, in time since the start of the cook.

use super::Readings;
use crate::cook::{Cook, Day, Happened, When};
use crate::findings::{Code, Finding, Text};
use crate::heat::Reading;
use crate::log::Log;
use crate::quantity::{Duration, weekday_name};
use crate::say;
use crate::timing::{Clock, Minute, Timeline};

/// Is a time of day among them, so that the start of the cook has to be known?
pub fn needs_start(asked: &Readings, log: &Log) -> bool {
    log.began.is_some() || asked.all.iter().any(|(happened, _)| !matches!(happened, Happened::Since(_)))
}

/// All readings of the core; `plan` where one of them [needs the start](needs_start).
///
/// # Errors
/// The finding that says what is missing.
pub fn readings(
    cook: &Cook,
    asked: &Readings,
    log: &Log,
    plan: Option<&Timeline>,
) -> Result<Vec<Reading>, Box<Finding>> {
    if !log.rows.is_empty() && log.rows.iter().all(|row| row.core_c.is_none()) {
        return Err(unplaced(
            cook,
            say!["The log has no temperature of the core, and nothing else sharpens a forecast."],
            say!["Call the column of the probe in the food `core_c` or `core_f`."],
        ));
    }
    let start = plan.map(|plan| Start::of(cook, asked.started, plan)).transpose()?;
    let mut all = Vec::new();
    for (happened, core) in &asked.all {
        let t_s = match (happened, &start) {
            (Happened::Since(since), _) => since.seconds(),
            (_, Some(start)) => {
                start.since_s(*happened).ok_or_else(|| unplaced(cook, far_off(), say![ADD]))?
            }
            (_, None) => continue,
        };
        if t_s < 0.0 {
            let message =
                say!["A reading was taken ", Duration::from_seconds(-t_s), " before the cook started."];
            return Err(unplaced(cook, message, say![ADD]));
        }
        all.push(Reading { t_s, core_c: core.celsius() });
    }
    let began_s = match (log.began, &start) {
        (Some(began), Some(start)) => {
            start.since_s(Happened::Instant(began)).ok_or_else(|| unplaced(cook, far_off(), say![ADD]))?
        }
        _ => 0.0,
    };
    let rows = log.rows.iter().filter_map(|row| Some((row.t_s + began_s, row.core_c?)));
    // A thermometer may well have been on before the food was in.
    all.extend(rows.filter(|(t_s, _)| *t_s >= 0.0).map(|(t_s, core_c)| Reading { t_s, core_c }));
    Ok(all)
}

const ADD: &str = "Say when the cook started, with its day: `--started \"Fri 22:03\"`.";

fn far_off() -> Text {
    say!["A reading was taken on a day that is not near the plan."]
}

/// Nothing that readings could sharpen.
pub fn of_nothing(cook: &Cook) -> Finding {
    *unplaced(
        cook,
        say![
            "There are readings, but no food of this cook has a predicted temperature that they could sharpen."
        ],
        say!["Say how thick the food is and what kind it is, or name another with `--food`."],
    )
}

fn unplaced(cook: &Cook, message: Text, remedy: Text) -> Box<Finding> {
    Box::new(Finding::new(Code::ReadingUnplaced, cook.title.span, message, remedy))
}

/// When the cook started, on the plan's clock.
pub struct Start {
    pub clock: Clock,
    pub minute: f64,
}

impl Start {
    pub fn of(cook: &Cook, started: Option<Happened>, plan: &Timeline) -> Result<Self, Box<Finding>> {
        let planned = plan.start;
        let around = planned.map_or(0, |window| window.earliest);
        let clock = plan.clock;
        match (started, planned) {
            (Some(started), _) => {
                let minute = match started {
                    Happened::Instant(instant) => clock.minute_of(instant, around),
                    other => clock.nearest(other, around).map(|minute| minute as f64),
                };
                let minute = minute.ok_or_else(|| {
                    let message =
                        say!["The start of the cook that was given is on a day that is not near the plan."];
                    unplaced(cook, message, say![ADD])
                })?;
                let day = clock.day(minute as Minute);
                Ok(Self {
                    clock: weekday(started).map_or(clock, |weekday| clock.knowing(day, weekday)),
                    minute,
                })
            }
            (None, Some(window)) if window.earliest == window.latest => {
                Ok(Self { clock, minute: window.earliest as f64 })
            }
            (None, Some(window)) => {
                let shown = |minute: Minute| {
                    let day = clock.weekday_of(clock.day(minute)).map(weekday_name);
                    let time = clock.time_of_day(minute);
                    day.map_or(time.clone(), |day| format!("{day} {time}"))
                };
                let (earliest, latest) = (shown(window.earliest), shown(window.latest));
                Err(unplaced(
                    cook,
                    say![format!(
                        "A reading has a time of day, and the plan starts at any time from {earliest} to {latest}; readings were not used."
                    )],
                    say![format!("Say when the cook really started: `--started \"{earliest}\"`.")],
                ))
            }
            (None, None) => Err(unplaced(
                cook,
                say![
                    "A reading has a time of day, and no plan says when the cook started; readings were not used."
                ],
                say![ADD],
            )),
        }
    }

    /// Seconds from the start; of a time of day the first after it.
    pub fn since_s(&self, happened: Happened) -> Option<f64> {
        let minute = match happened {
            Happened::Since(since) => return Some(since.seconds()),
            Happened::Instant(instant) => self.clock.minute_of(instant, self.minute as Minute)?,
            Happened::At(when) => {
                let meant = self.clock.meant(when, self.minute as Minute);
                let after = meant.iter().copied().find(|minute| *minute as f64 >= self.minute);
                // A date is that day, even before the start.
                let day = || meant.last().copied().filter(|_| matches!(when.day, Some(Day::Date(_))));
                after.or_else(day)? as f64
            }
        };
        Some(60.0 * (minute - self.minute))
    }
}

fn weekday(started: Happened) -> Option<chrono::Weekday> {
    use chrono::Datelike;
    match started {
        Happened::At(When { day: Some(Day::Weekday(weekday)), .. }) => Some(weekday),
        Happened::At(When { day: Some(Day::Date(date)), .. }) => Some(date.weekday()),
        Happened::Instant(instant) => Some(instant.weekday()),
        Happened::At(When { day: None, .. }) | Happened::Since(_) => None,
    }
}
