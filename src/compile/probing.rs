//! A log of what really happened, put beside a compiled cook.

use chrono::{Datelike, TimeDelta};

use super::Compiled;
use super::since::Start;
use crate::cook::{Cook, Day, Happened, Item, ItemId, PhaseId};
use crate::findings::{Code, Finding, Text};
use crate::log::{self, Log};
use crate::probe::{self, Logged, Probed};
use crate::say;
use crate::text::{FileId, Span};

/// A log, and what whoever was there says of it.
#[derive(Debug, Clone, Default)]
pub struct Probing {
    /// By the name it has in the file; without one, the first food that goes through heat or cold.
    pub food: Option<String>,
    /// How the log is called, and its bytes.
    pub log: (String, Vec<u8>),
    pub started: Option<Happened>,
    /// Phases, and when they were over.
    pub done: Vec<(String, Happened)>,
    /// The phase that the whole log is of.
    pub phase: Option<String>,
}

impl Compiled {
    /// Judges a log instead of the plan: the findings are then those of the log and of what it shows. `None` where the
    /// log could not be read, which a finding says.
    ///
    /// # Errors
    /// Names that are not in the cook, and times that cannot be placed.
    pub fn probe(&mut self, asked: &Probing) -> Result<Option<Probed>, Text> {
        let (path, bytes) = asked.log.clone();
        let (log, told) = log::read(&mut self.sources, path, bytes);
        let file = FileId(self.sources.len() as u16 - 1);
        let end = self.sources.get(file).text.len();
        let end = Span::new(file, end, end);
        let (found, probed) = self.probed(&log, end, asked)?;
        // What is declared is no longer the question; that the rules were only assumed still counts.
        self.findings.retain(|finding| finding.code == Code::RulesAssumed);
        self.findings.splice(0..0, told);
        self.findings.extend(found);
        if let Some(probed) = &probed {
            self.findings.extend(probed.findings.iter().cloned());
        }
        Ok(probed)
    }

    fn probed(&self, log: &Log, end: Span, asked: &Probing) -> Result<(Vec<Finding>, Option<Probed>), Text> {
        let cooks = self.cooks();
        let [worked] = cooks.as_slice() else {
            return Err(say!["a probe reads one dish; name the file of that dish"]);
        };
        let cook = worked.cook;
        let item = food(cook, asked.food.as_deref())?;
        let only = asked.phase.as_deref().map(|name| phase(cook, name)).transpose()?;
        if log.rows.is_empty() {
            return Ok((Vec::new(), None));
        }
        if log.rows.iter().all(|row| row.core_c.is_none()) {
            let finding = Finding::new(
                Code::LogUnreadable,
                end,
                say!["There is no reading of the core in this log; nothing was judged."],
                say!["Measure in the middle of the food, and name that column `core_c` or `core_f`."],
            );
            return Ok((vec![finding], None));
        }
        let start = match worked.timeline {
            Some(plan) => Start::of(cook, asked.started, plan).map_err(|finding| finding.message),
            None => Err(say!["no plan says when the cook started"]),
        };
        let cook_starts_s = match log.began {
            None => Some(0.0),
            Some(began) => {
                let began_s = start.as_ref().ok().and_then(|start| start.since_s(Happened::Instant(began)));
                began_s.map(|began_s| -began_s)
            }
        };
        let mut done = Vec::new();
        for (name, happened) in &asked.done {
            let since = match &start {
                Ok(start) => {
                    start.since_s(*happened).zip(cook_starts_s).map(|(since, starts)| since + starts)
                }
                Err(_) => None,
            };
            let at_s = match (happened, cook_starts_s) {
                (Happened::Since(since), Some(starts)) => Some(since.seconds() + starts),
                _ => since.or_else(|| on_the_logs_clock(log, *happened)),
            };
            let at_s = at_s.ok_or_else(|| {
                say![format!("when `{name}` was done cannot be placed; say when the cook started, with its day: `--started \"Fri 22:03\"`")]
            })?;
            done.push((phase(cook, name)?, at_s));
        }
        let logged = Logged { log, end, cook_starts_s, done: &done, only, planned: &worked.curves.phases };
        Ok((Vec::new(), Some(probe::judge(cook, item, worked.sets, &logged))))
    }
}

/// A time as the clock said that wrote the log, the first such after its start.
fn on_the_logs_clock(log: &Log, happened: Happened) -> Option<f64> {
    let began = log.began?;
    let after_s = |at: chrono::DateTime<chrono::FixedOffset>| (at - began).num_milliseconds() as f64 / 1000.0;
    match happened {
        Happened::Instant(instant) => Some(after_s(instant)),
        Happened::Since(_) => None,
        Happened::At(when) => {
            let minutes = i64::from(when.time.minutes());
            let midnight = began.date_naive().and_hms_opt(0, 0, 0)?;
            let days = (0..8).map(|day| midnight + TimeDelta::days(day));
            let fits = |at: &chrono::NaiveDateTime| match when.day {
                None => true,
                Some(Day::Date(date)) => at.date() == date,
                Some(Day::Weekday(weekday)) => at.weekday() == weekday,
            };
            let times = days.filter(fits).map(|day| day + TimeDelta::minutes(minutes));
            times
                .filter_map(|at| at.and_local_timezone(*began.offset()).single())
                .map(after_s)
                .find(|s| *s >= 0.0)
        }
    }
}

fn food(cook: &Cook, name: Option<&str>) -> Result<ItemId, Text> {
    let placed = |id: ItemId| cook.phases.iter().any(|phase| phase.placings.iter().any(|it| it.item == id));
    let mut items = cook.items().filter(|(id, _)| placed(*id));
    let Some(name) = name else {
        let judged = |(id, _): &(ItemId, &Item)| probe::can_judge(cook, *id);
        return items.find(judged).map(|(id, _)| id).ok_or_else(|| {
            say!["no food of this cook goes through a phase that a temperature judges: a cook, hold, cool, thaw or reheat"]
        });
    };
    items.find(|(_, item)| item.name.eq_ignore_ascii_case(name)).map(|(id, _)| id).ok_or_else(|| {
        let names: Vec<String> =
            cook.items().filter(|(id, _)| placed(*id)).map(|(_, item)| format!("`{}`", item.name)).collect();
        say![format!("--food: no food `{name}` is put anywhere in this cook; there are {}", names.join(", "))]
    })
}

fn phase(cook: &Cook, name: &str) -> Result<PhaseId, Text> {
    let found = cook.phases().find(|(_, phase)| phase.name.eq_ignore_ascii_case(name.trim()));
    found.map(|(id, _)| id).ok_or_else(|| {
        let names: Vec<String> = cook.phases.iter().map(|phase| format!("`{}`", phase.name)).collect();
        say![format!("no phase is called `{}`; there are {}", name.trim(), names.join(", "))]
    })
}
