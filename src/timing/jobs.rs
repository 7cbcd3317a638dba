//! Everything that somebody has to do, with its window on the clock.

use super::clock::Minute;
use super::heat;
use super::needs::{self, Start, minutes};
use super::network::Network;
use super::sets::Set;
use super::timeline::{JobLine, Window};
use crate::cook::{Call, Cook, KitId, Phase, PhaseId, Setting, Test};
use crate::findings::Text;
use crate::quantity::Duration;
use crate::say;

/// Calls that come oftener than this, or more often than [`MANY`] times, share one line.
const OFTEN: Minute = 5;
const MANY: Minute = 24;

/// The jobs of all phases that have a window, in the order of the clock. Kit that is not `lit` here is
/// switched on for another dish.
pub fn list(
    cook: &Cook,
    network: &Network,
    windows: &[Option<(Window, Window)>],
    lit: impl Fn(KitId) -> bool,
) -> Vec<JobLine> {
    let mut jobs = Vec::new();
    let slack = windows.iter().flatten().map(|(start, _)| *start).min_by_key(|start| start.earliest);
    let slack = slack.map_or(0, |start| start.latest - start.earliest);
    let first = |kit: KitId| {
        let users = cook.phases.iter().zip(windows).enumerate().filter_map(|(n, (phase, window))| {
            let here = phase.place.is_some_and(|place| place.value == kit) && phase.setting.is_some();
            Some((window.filter(|_| here)?.0.earliest, n))
        });
        users.min().map(|(_, n)| n)
    };
    for (id, phase) in cook.phases() {
        let Some(&Some((start, end))) = windows.get(id.0 as usize) else { continue };
        let mut lister = Lister { cook: &cook.title.value, phase, network, start, end, jobs: &mut jobs };
        let here = phase.place.map(|place| place.value);
        if let Some(kit) = here.filter(|&kit| first(kit) == Some(id.0 as usize) && lit(kit)) {
            lister.light(cook, kit, slack);
        }
        lister.start(cook, id);
        for job in &phase.jobs {
            let text = || say![job.text.value.clone()];
            match job.call {
                // Told with the start.
                Call::Start => {}
                Call::End => lister.push(end, text(), 1, None),
                Call::AtCore(core) => lister.push(
                    Window { earliest: start.earliest, latest: end.latest },
                    say!["When the core reaches ", core, ": ", job.text.value.clone()],
                    1,
                    None,
                ),
                Call::Every(every) => lister.every(every, &job.text.value, false),
            }
        }
        if let Some(every) = phase.hands.look_in {
            lister.every(every, "Look in.", true);
        }
        lister.test();
    }
    jobs.sort_by_key(|job: &JobLine| (job.at.earliest, job.at.latest));
    jobs
}

struct Lister<'a> {
    cook: &'a str,
    phase: &'a Phase,
    network: &'a Network,
    start: Window,
    end: Window,
    jobs: &'a mut Vec<JobLine>,
}

impl Lister<'_> {
    fn push(&mut self, at: Window, text: Text, hands: u32, busy: Option<String>) {
        let (cook, phase) = (self.cook.to_owned(), self.phase.name.clone());
        let breaks_sleep = hands > 0 && self.asleep(at);
        self.jobs.push(JobLine { at, cook, phase, text, hands, busy, dropped: false, breaks_sleep });
    }

    /// Is nobody awake in the whole of a window?
    fn asleep(&self, at: Window) -> bool {
        let mut absences = self.network.absent.intervals().iter();
        absences.any(|&(first, last)| first <= at.earliest && at.latest <= last)
    }

    /// Kit that takes its time to heat is lit so that even the soonest start finds it hot, by somebody
    /// who is awake. Programmable kit comes on by itself where the time falls in sleep.
    fn light(&mut self, cook: &Cook, kit: KitId, slack: Minute) {
        let kit = cook.kit(kit);
        let (Some(preheat), Some(heating)) = (kit.preheat, heat::to_heat(kit)) else { return };
        let awake = self.network.absent.complement();
        let soonest = self.start.earliest - heating;
        let last = soonest + slack.min(self.start.latest - self.start.earliest);
        let times = awake.intersect(&Set::range(soonest, last));
        let by_itself = times.is_empty() && kit.programmable;
        let (earliest, latest) = times.first().zip(times.last()).unwrap_or_else(|| {
            let bedtime = awake.intersect(&Set::up_to(soonest)).last().filter(|_| !by_itself);
            bedtime.map_or((soonest, last), |bedtime| (bedtime, bedtime))
        });
        let name = &kit.name.value;
        let mut text = match (by_itself, kit.class.smokes) {
            (true, _) => say![format!("{} comes on by itself", capital(name))],
            (false, true) => say![format!("Light {name}")],
            (false, false) => say![format!("Switch on {name}")],
        };
        if let Some(setting) = self.phase.setting {
            text.push(": ");
            set(&mut text, setting);
        }
        text.push(", ");
        text.push(preheat);
        text.push(" to heat.");
        self.push(Window { earliest, latest }, text, u32::from(!by_itself), None);
    }

    /// What somebody does as the phase starts.
    fn start(&mut self, cook: &Cook, id: PhaseId) {
        let phase = self.phase;
        let tasks: Vec<&str> = phase
            .jobs
            .iter()
            .filter(|job| job.call == Call::Start)
            .map(|job| job.text.value.as_str())
            .collect();
        let needs = needs::needs(cook, id);
        let told = needs::is_hands_on(&phase.hands) && !tasks.is_empty();
        let mut text = if told { Text::default() } else { self.first_move(cook, id) };
        for task in &tasks {
            if !text.is_empty() {
                text.push(" ");
            }
            text.push((*task).to_string());
        }
        if needs::start(cook, id) == Start::ByItself && needs.busy == 0 {
            self.push(self.start, text, 0, None);
            return;
        }
        if needs.busy == 0 {
            return;
        }
        if text.is_empty() {
            text = say!["Begin."];
        }
        let busy = if needs::is_hands_on(&phase.hands) {
            super::words::lasts(&phase.lasts)
        } else {
            (needs.busy > 1).then(|| Duration::from_minutes(needs.busy as f64).show())
        };
        self.push(self.start, text, 1, busy);
        // Where the one way shown has hands at work from before bedtime on.
        let least = needs.busy.min(self.end.earliest - self.start.latest);
        let at_work = Set::range(self.start.latest, self.start.latest + least - 1);
        if self.start.earliest == self.start.latest
            && least > 0
            && !self.network.absent.intersect(&at_work).is_empty()
            && let Some(job) = self.jobs.last_mut()
        {
            job.breaks_sleep = true;
        }
    }

    /// "Shoulder to cabinet, air 110 °C."
    fn first_move(&self, cook: &Cook, id: PhaseId) -> Text {
        let phase = self.phase;
        let kit = phase.place.map(|place| cook.kit(place.value).name.value.as_str());
        let foods: Vec<&str> =
            phase.placings.iter().map(|placing| cook.item(placing.item).name.as_str()).collect();
        let foods = capital(&foods.join(" and "));
        let to = kit.unwrap_or("the table");
        let mut text = match needs::start(cook, id) {
            Start::Move => say![format!("{foods} to {to}")],
            Start::Set => say![format!("Set {to} to ")],
            Start::ByItself => say![format!("{} goes by itself to ", capital(to))],
            Start::Nothing | Start::Add | Start::Do => return Text::default(),
        };
        if let Some(setting) = phase.setting {
            if needs::start(cook, id) == Start::Move {
                text.push(", ");
            }
            set(&mut text, setting);
        }
        text.push(".");
        text
    }

    /// Calls at every so many minutes, never at or after the end. A duty is done awake; other calls
    /// sleep with the crew.
    fn every(&mut self, every: Duration, text: &str, duty: bool) {
        let step = minutes(every);
        let reach = self.end.latest - self.start.earliest;
        let longest = needs::lasts(self.phase).map_or(reach, |lasts| lasts.high().min(reach));
        if step < OFTEN || longest / step > MANY {
            let text = say![text.to_string(), " Every ", every, "."];
            self.push(Window { earliest: self.start.earliest, latest: self.end.latest }, text, 1, None);
            if let (Some(job), false) = (self.jobs.last_mut(), duty) {
                job.breaks_sleep = false;
            }
            return;
        }
        let mut nth = 1;
        while nth * step < longest {
            let at = Window {
                earliest: self.start.earliest + nth * step,
                latest: (self.start.latest + nth * step).min(self.end.latest - 1),
            };
            let asleep = self.asleep(at);
            self.push(at, say![text.to_string()], 1, None);
            if let (Some(job), true, false) = (self.jobs.last_mut(), asleep, duty) {
                job.dropped = true;
                job.hands = 0;
                job.breaks_sleep = false;
            }
            nth += 1;
        }
    }

    /// A spoken test: from the shortest time on somebody tries it.
    fn test(&mut self) {
        let Some(until) = &self.phase.until else { return };
        let Some(lasts) = needs::lasts(self.phase) else { return };
        for test in &until.tests {
            if let Test::Spoken(words) = &test.value {
                let at = Window { earliest: self.start.earliest + lasts.low(), latest: self.end.latest };
                self.push(at, say![format!("Try it: {words}?")], 1, None);
            }
        }
    }
}

fn set(text: &mut Text, setting: Setting) {
    text.push(setting.medium.word());
    text.push(" ");
    text.push(setting.temperature);
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
