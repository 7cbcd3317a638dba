//! Times as written, put on the axis: days of servings and orders, `--serve`, sleep, clock changes.

use chrono::{Datelike, NaiveDate, Weekday};
use chrono_tz::Tz;

use super::Options;
use super::clock::{Clock, DAY, Minute, Reading, Wall};
use super::sets::Set;
use crate::cook::{Cook, Crew, Day, PhaseId, Service, When};
use crate::findings::{Code, Finding};
use crate::quantity::weekday_name;
use crate::say;
use crate::text::{Span, Spanned};

/// The clock of a cook and the start and end of each serving on it.
#[derive(Debug)]
pub struct Times {
    pub clock: Clock,
    /// By phase: when a serving starts or guests come, first and last minute; `None` where nothing says.
    pub servings: Vec<Option<(Minute, Minute)>>,
    /// Clock face of each serving's start, before the shift.
    written: Vec<Option<Wall>>,
    /// What `--serve` adds to every written time.
    shift: Wall,
    /// The day that written days are counted from: that of the first serving in the file.
    base: Base,
    pub findings: Vec<Finding>,
}

/// What is written of one serving.
#[derive(Clone, Copy)]
struct Written {
    from: Spanned<When>,
    to: Option<Spanned<When>>,
}

fn written(service: &Service) -> Option<Written> {
    match service {
        Service::At { at, .. } => Some(Written { from: *at, to: None }),
        Service::Throughout { from, to } | Service::Guests { from, to, .. } => {
            Some(Written { from: *from, to: Some(*to) })
        }
        Service::Unsaid => None,
    }
}

impl Times {
    pub fn of(cook: &Cook, options: &Options) -> Self {
        let mut times = Self {
            clock: Clock::default(),
            servings: vec![None; cook.phases.len()],
            written: vec![None; cook.phases.len()],
            shift: 0,
            base: Base::of(None),
            findings: Vec::new(),
        };
        let services: Vec<(usize, Option<Written>, Span)> = cook
            .phases
            .iter()
            .enumerate()
            .filter_map(|(n, phase)| Some((n, written(phase.service.as_ref()?), phase.name_span)))
            .collect();
        let Some(&(first, words, _)) =
            services.iter().find(|(_, words, _)| words.is_some()).or_else(|| services.first())
        else {
            return times;
        };
        let in_file = words.map(|words| words.from);
        times.clock = start_clock(in_file.map(|from| from.value), options.serve, options.zone);
        times.base = Base::of(in_file.and_then(|from| from.value.day));
        if times.base.weekday.is_none() {
            times.base = Base { date: times.clock.date(), weekday: times.clock.weekday() };
        }
        times.place(first, in_file, &services);
        times.shift_to(in_file, options);
        for &(n, words, span) in &services {
            let said = options.serve.filter(|_| n == first && words.is_none());
            times.put(n, words, span, said.map(|said| (said, options.course)));
        }
        times
    }

    /// The written clock face of each serving, counted from the day of the first.
    fn place(
        &mut self,
        first: usize,
        from: Option<Spanned<When>>,
        services: &[(usize, Option<Written>, Span)],
    ) {
        let Some(from) = from else { return };
        let mut above = Wall::from(from.value.time.minutes());
        let base = self.base;
        for &(n, words, _) in services {
            let Some(words) = words else { continue };
            let time = Wall::from(words.from.value.time.minutes());
            let day = match words.from.value.day {
                _ if n == first => Some(0),
                None => Some(above.div_euclid(DAY)),
                Some(Day::Date(date)) => base.days_to(date),
                Some(Day::Weekday(weekday)) => base.next(weekday, above.div_euclid(DAY)),
            };
            match day {
                Some(day) => above = day * DAY + time,
                None => self.findings.push(weekday_missing(words.from.span, from.span, "the first serving")),
            }
            self.written[n] = day.map(|day| day * DAY + time);
        }
    }

    /// `--serve` moves the first serving there, and everything written with it.
    fn shift_to(&mut self, in_file: Option<Spanned<When>>, options: &Options) {
        let (Some(from), Some(serve)) = (in_file, options.serve) else { return };
        let to = Wall::from(serve.time.minutes()) + options.course;
        self.shift = to - Wall::from(from.value.time.minutes());
        let (Some(Day::Weekday(said)), Some(now)) = (from.value.day, self.clock.weekday()) else { return };
        // Midnight of the day is still that day's, as `24:00`.
        let days = if options.course == 0 { 0 } else { to.div_euclid(DAY) };
        let now = (0..days.rem_euclid(7)).fold(now, |day, _| day.succ());
        if said != now {
            self.findings.push(Finding::new(
                Code::WeekdayMoved,
                from.span,
                say![format!(
                    "The file says {}, and the serving is now on {}.",
                    weekday_name(said),
                    weekday_name(now)
                )],
                say![format!(
                    "Every day that is written moves by as much. Choose a {}, or change the day in the file.",
                    weekday_name(said)
                )],
            ));
        }
    }

    /// Puts one serving on the axis.
    fn put(&mut self, n: usize, words: Option<Written>, span: Span, said: Option<(When, Wall)>) {
        if let Some((said, course)) = said {
            let at = self.read(Wall::from(said.time.minutes()) + course, said.zone, span);
            self.servings[n] = Some((at, at));
            return;
        }
        let (Some(words), Some(wall)) = (words, self.written[n]) else { return };
        let from = self.read(wall + self.shift, words.from.value.zone, words.from.span);
        let to = words.to.map_or(from, |to| {
            let mut end = wall.div_euclid(DAY) * DAY + Wall::from(to.value.time.minutes());
            let base = self.base;
            match to.value.day {
                Some(Day::Date(date)) => {
                    end = base.days_to(date).map_or(end, |day| day * DAY + end.rem_euclid(DAY));
                }
                Some(Day::Weekday(weekday)) => {
                    let day = base.next(weekday, wall.div_euclid(DAY));
                    end = day.map_or(end, |day| day * DAY + end.rem_euclid(DAY));
                }
                None if end < wall => end += DAY,
                None => {}
            }
            self.read(end + self.shift, to.value.zone.or(words.from.value.zone), to.span)
        });
        self.servings[n] = Some((from, to.max(from)));
    }

    /// A time that an order clause of phase `id` names: the last one before the next serving.
    pub fn moment(&mut self, cook: &Cook, id: PhaseId, when: When, span: Span) -> Option<Minute> {
        let serving = self.next_serving(cook, id)?;
        let time = Wall::from(when.time.minutes());
        let day = match when.day {
            None => {
                let day = serving.div_euclid(DAY);
                if day * DAY + time > serving { day - 1 } else { day }
            }
            Some(day) => self.day_before(serving, day, time, span)?,
        };
        Some(self.read(day * DAY + time + self.shift, when.zone, span))
    }

    /// All minutes of a day that an order clause of phase `id` names.
    pub fn whole_day(&mut self, cook: &Cook, id: PhaseId, day: Day, span: Span) -> Option<Set> {
        let serving = self.next_serving(cook, id)?;
        let day = self.day_before(serving, day, 0, span)?;
        Some(Set::range(self.clock.read(day * DAY).first(), self.clock.read((day + 1) * DAY).first() - 1))
    }

    /// The written clock face of the first serving below; above where none is below.
    fn next_serving(&self, cook: &Cook, id: PhaseId) -> Option<Wall> {
        let at = (id.0 as usize).min(cook.phases.len());
        let below = self.written[at..].iter().flatten().next();
        below.or_else(|| self.written[..at].iter().flatten().last()).copied()
    }

    fn day_before(&mut self, serving: Wall, day: Day, time: Wall, span: Span) -> Option<Wall> {
        let base = self.base;
        let last = serving.div_euclid(DAY);
        let found = match day {
            Day::Date(date) => base.days_to(date),
            Day::Weekday(weekday) => base.weekday.map(|zero| {
                let here = i64::from(zero.num_days_from_monday()) + last;
                let back = (here - i64::from(weekday.num_days_from_monday())).rem_euclid(7);
                let day = last - back;
                // `24:00` ends the day it belongs to.
                if time < DAY && day * DAY + time > serving { day - 7 } else { day }
            }),
        };
        if found.is_none() {
            self.findings.push(weekday_missing(span, span, "the next serving"));
        }
        found
    }

    /// A clock face on the axis; says so where clocks skip it or show it twice.
    fn read(&mut self, wall: Wall, zone: Option<Tz>, span: Span) -> Minute {
        let reading = self.clock.read_in(zone, wall);
        let face = wall.rem_euclid(DAY);
        let face = format!("{:02}:{:02}", face / 60, face % 60);
        match reading {
            Reading::One(minute) => minute,
            Reading::Skipped(minute) => {
                self.findings.push(Finding::new(
                    Code::ClockTimeSkipped,
                    span,
                    say![format!("There is no {face} on that day: the clocks go forward over it.")],
                    say![format!(
                        "Write a time that the clock will show, such as {}.",
                        self.clock.time_of_day(minute)
                    )],
                ));
                minute
            }
            Reading::Twice(minute, later) => {
                let between = crate::quantity::Duration::from_minutes((later - minute) as f64);
                self.findings.push(Finding::new(
                    Code::ClockTimeTwice,
                    span,
                    say![format!("The clocks show {face} twice on that day; the first one is taken.")],
                    say!["The second is ", between, " later. Write a time outside that hour to be sure."],
                ));
                minute
            }
        }
    }

    /// The minutes between `first` and `last` in which everybody is asleep or away.
    pub fn absent(&self, crew: &Crew, first: Minute, last: Minute) -> Set {
        let days = self.clock.day(first) - 2..=self.clock.day(last) + 2;
        let mut all = Vec::new();
        for (from, to) in crew.asleep.iter().chain(&crew.away).map(|span| span.value) {
            let (from, mut to) = (Wall::from(from.minutes()), Wall::from(to.minutes()));
            if to <= from {
                to += DAY;
            }
            for day in days.clone() {
                // On a night when the clock shows an hour twice, the longer sleep is assumed.
                let (start, end) =
                    (self.clock.read(day * DAY + from).first(), self.clock.read(day * DAY + to).last());
                all.push((start, end - 1));
            }
        }
        Set::of(all)
    }
}

/// What is known of the day of the first serving.
#[derive(Debug, Clone, Copy)]
pub struct Base {
    date: Option<NaiveDate>,
    weekday: Option<Weekday>,
}

impl Base {
    pub fn of(day: Option<Day>) -> Self {
        match day {
            Some(Day::Date(date)) => Self { date: Some(date), weekday: Some(date.weekday()) },
            Some(Day::Weekday(weekday)) => Self { date: None, weekday: Some(weekday) },
            None => Self { date: None, weekday: None },
        }
    }

    pub fn days_to(&self, date: NaiveDate) -> Option<Wall> {
        Some((date - self.date?).num_days())
    }

    /// The first such day on or after `day`.
    pub fn next(&self, weekday: Weekday, day: Wall) -> Option<Wall> {
        let here = i64::from(self.weekday?.num_days_from_monday()) + day;
        Some(day + (i64::from(weekday.num_days_from_monday()) - here).rem_euclid(7))
    }
}

fn start_clock(in_file: Option<When>, serve: Option<When>, default: Option<Tz>) -> Clock {
    let zone = serve.and_then(|when| when.zone).or(in_file.and_then(|when| when.zone)).or(default);
    let file_day = in_file.and_then(|when| when.day);
    match (serve.and_then(|when| when.day), file_day) {
        (Some(Day::Date(date)), _) | (None, Some(Day::Date(date))) => Clock::dated(date, zone),
        (Some(Day::Weekday(weekday)), Some(Day::Date(date))) => {
            let ahead = Base::of(file_day).next(weekday, 0).unwrap_or(0);
            let moved = date.checked_add_days(chrono::Days::new(ahead.unsigned_abs()));
            Clock::dated(moved.unwrap_or(date), zone)
        }
        (Some(Day::Weekday(weekday)), _) | (None, Some(Day::Weekday(weekday))) => {
            Clock::undated(Some(weekday))
        }
        (None, None) => Clock::undated(None),
    }
}

pub fn weekday_missing(span: Span, serving: Span, which: &str) -> Finding {
    let finding = Finding::new(
        Code::WeekdayMissing,
        span,
        say![format!("This names a day, and {which} has none to count from.")],
        say!["Give the serving its day: `at Saturday 18:30`, or `at 2026-12-12 18:30`."],
    );
    if serving == span { finding } else { finding.also(serving, say!["This is the serving meant."]) }
}
