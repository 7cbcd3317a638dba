//! What a plan may come to, held against what it says: branches are played, and every moment until which something
//! may take is tried on both sides, by planning anew from there.

mod common;

use common::Memory;
use common::dice::Dice;
use dwell::compile::{Compiled, Options, compile};
use dwell::cook::{Document, Happened};
use dwell::timing::lines::{Pace, Strategy};
use dwell::timing::{
    Case, Clock, Dish, OnTime, Overrun, Progress, Timeline, Window, courses, menu_strategy, plan_menu,
};

#[derive(Debug, Clone, Copy, PartialEq)]
enum Who {
    Cook,
    Nature,
}

#[derive(Debug, Clone)]
struct Phase {
    who: Who,
    low: i64,
    high: i64,
    lines: String,
}

/// The phases of each dish, and the minutes after 18:30 by which it is served.
#[derive(Debug, Clone)]
struct Supper {
    dishes: Vec<(Vec<Phase>, i64)>,
    people: i64,
    /// Nobody is awake from 23:00 to 06:30.
    sleep: bool,
}

const KIT: &str = "kit bench is bench\nkit chest is insulated box\nkit oven is oven\n  preheat 15 min\n  cools down 30 min\n  \
    programmable\n";

impl Supper {
    fn draw(dice: &mut Dice, dishes: i64) -> Self {
        let dish = |dice: &mut Dice| {
            let mut phases = Vec::new();
            if dice.one_in(2) {
                let low = 5 * dice.roll(2, 4);
                phases.push(Phase::new(Who::Nature, low, low + 5 * dice.roll(1, 4), "on bench"));
            }
            if dishes == 1 && !dice.one_in(3) {
                // Overnight: in before people go to bed, which leaves time in the morning.
                let low = 60 * dice.roll(10, 11);
                phases.push(Phase::new(
                    Who::Nature,
                    low,
                    low + 30 * dice.roll(1, 4),
                    "in oven\n  air 110 °C",
                ));
                phases.push(Phase::new(Who::Cook, 60, 60 * dice.roll(11, 13), "in chest"));
                phases.push(Phase::new(Who::Nature, 15, 15 + 5 * dice.roll(1, 4), "on bench"));
                phases.push(Phase::new(Who::Cook, 0, 30, "in chest"));
                return (phases, 15 * dice.roll(1, 4));
            }
            let low = 10 * dice.roll(3, 9);
            let place = if dice.one_in(2) { "in oven\n  air 160 °C" } else { "in chest" };
            phases.push(Phase::new(Who::Nature, low, low + 10 * dice.roll(3, 9), place));
            let low = 10 * dice.roll(0, 4);
            phases.push(Phase::new(Who::Cook, low, low + 30 * dice.roll(2, 12), "in chest"));
            if dice.one_in(3) {
                let low = 5 * dice.roll(1, 3);
                phases.push(Phase::new(Who::Nature, low, low + 5 * dice.roll(1, 3), "on bench"));
                phases.push(Phase::new(Who::Cook, 0, 30, "in chest"));
            }
            (phases, 15 * dice.roll(1, 4))
        };
        Self {
            dishes: (0..dishes).map(|_| dish(dice)).collect(),
            people: dice.roll(1, 2),
            sleep: !dice.one_in(3),
        }
    }

    fn files(&self) -> Vec<(String, String)> {
        let asleep = if self.sleep { "  asleep 23:00 to 06:30\n" } else { "" };
        let mut menu =
            format!("menu \"Supper\"\n  rules us-food-code\ncrew\n  {} people\n{asleep}", self.people);
        let mut files = Vec::new();
        for (n, (phases, late)) in self.dishes.iter().enumerate() {
            menu += &format!("dish \"dish-{n}.dwell\"\n");
            let mut text = format!(
                "cook \"Dish {n}\"\n  rules us-food-code\n{KIT}food roots is potato\n  2 kg\n  thickness 4 cm\n"
            );
            for (nth, phase) in phases.iter().enumerate() {
                let (low, high) = (phase.low, phase.high);
                let purpose = match (phase.who, phase.lines.as_str()) {
                    (_, "on bench") => "prep",
                    (Who::Nature, _) => "cook",
                    (Who::Cook, _) => "rest",
                };
                let lasts = if phase.who == Who::Nature { "takes" } else { "for" };
                text += &format!(
                    "phase step-{nth} is {purpose}\n  roots {}\n  {lasts} {low} min to {high} min\n",
                    phase.lines
                );
            }
            text += &format!("serve roots\n  at 2026-12-12 18:30 in UTC, up to {late} min late\n");
            files.push((format!("dish-{n}.dwell"), text));
        }
        files.insert(0, ("menu.dwell".into(), menu));
        files
    }

    fn plan(&self, progress: Progress, outlook: bool) -> Compiled {
        let files = self.files();
        let named: Vec<(&str, &str)> =
            files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        let timing = dwell::timing::Options { progress, outlook, ..Default::default() };
        let options = Options { timing, outline: true, ..Options::default() };
        compile(&Memory(&named), named[0].0.into(), named[0].1.into(), &options)
    }

    /// Dish and phase by the names that the plan gives them.
    fn place(&self, cook: &str, phase: &str) -> (usize, usize) {
        let number = |name: &str| name.split([' ', '-']).nth(1).and_then(|n| n.parse().ok());
        let dish: usize = number(cook).expect("a dish");
        let nth = if phase.starts_with("step") { number(phase) } else { Some(self.dishes[dish].0.len()) };
        (dish, nth.expect("a phase"))
    }
}

impl Phase {
    fn new(who: Who, low: i64, high: i64, lines: &str) -> Self {
        Self { who, low, high, lines: lines.into() }
    }
}

/// When each phase of each dish started and ended, as far as it got; servings last.
type Times = Vec<Vec<[Option<i64>; 2]>>;

/// Plays the plan, with these lengths of what nature decides, at any of these paces; up to the end of one phase.
fn play(
    supper: &Supper,
    (strategy, first): &(Strategy, Vec<usize>),
    lengths: &dyn Fn(usize, usize) -> i64,
    until: Option<(usize, usize)>,
    paces: &[Pace],
    dice: &mut Dice,
) -> Times {
    let mut play = strategy.play();
    let mut now = -10 * 24 * 60;
    loop {
        let mut ends: Option<(i64, usize, usize)> = None;
        for (n, (phases, _)) in supper.dishes.iter().enumerate() {
            for (nth, _) in phases.iter().enumerate().filter(|(_, phase)| phase.who == Who::Nature) {
                let step = first[n] + nth;
                if let (Some(start), None) = (play.when(step, false), play.when(step, true)) {
                    let end = (start + lengths(n, nth), n, nth);
                    ends = Some(ends.map_or(end, |other| other.min(end)));
                }
            }
        }
        let pace = paces[dice.roll(0, paces.len() as i64 - 1) as usize];
        let acts = play.next(now, pace);
        let Some(next) = ends.map(|end| end.0).into_iter().chain(acts).min() else { break };
        now = next;
        match ends.filter(|end| end.0 == now) {
            Some((at, n, nth)) => {
                play.ended(first[n] + nth, at);
                if until == Some((n, nth)) {
                    break;
                }
            }
            None => play.act(now, pace),
        }
    }
    let dish = |(n, (phases, _)): (usize, &(Vec<Phase>, i64))| {
        (0..=phases.len())
            .map(|nth| [false, true].map(|end| play.when(first[n] + nth, end).filter(|at| *at <= now)))
            .collect()
    };
    supper.dishes.iter().enumerate().map(dish).collect()
}

fn strategy(compiled: &Compiled) -> (Strategy, Vec<usize>) {
    let cooks = compiled.cooks();
    let dishes: Vec<Dish<'_>> = cooks.iter().map(|one| Dish { cook: one.cook, ledger: one.ledger }).collect();
    let Some(Document::Menu(menu)) = &compiled.document else { panic!("a menu") };
    let at: Vec<_> = menu.dishes.iter().map(|dish| dish.at).collect();
    let (options, _) = courses(&Default::default(), menu.serve, &at, &[]);
    menu_strategy(&dishes, &options).expect("what is proved can be played")
}

/// The plan by the clock alone, with all that it would leave to spare.
fn by_the_clock(compiled: &Compiled) -> Timeline {
    let cooks = compiled.cooks();
    let dishes: Vec<Dish<'_>> = cooks.iter().map(|one| Dish { cook: one.cook, ledger: one.ledger }).collect();
    let Some(Document::Menu(menu)) = &compiled.document else { panic!("a menu") };
    let at: Vec<_> = menu.dishes.iter().map(|dish| dish.at).collect();
    let asked = dwell::timing::Options { outlook: true, ..Default::default() };
    let (options, _) = courses(&asked, menu.serve, &at, &[]);
    plan_menu(&menu.title, &dishes, &options).whole
}

/// Suppers of so many dishes that are always on time, with their plans.
fn proved(dice: &mut Dice, count: usize, (least, most): (i64, i64)) -> Vec<(Supper, Compiled)> {
    let mut found = Vec::new();
    while found.len() < count {
        let dishes = dice.roll(least, most);
        let supper = Supper::draw(dice, dishes);
        let compiled = supper.plan(Progress::default(), true);
        if compiled.meal().expect("a plan").on_time == OnTime::Always {
            found.push((supper, compiled));
        }
    }
    found
}

fn within(window: Window, minute: i64) -> bool {
    (window.earliest..=window.latest).contains(&minute)
}

/// Nothing is late, too short or too long, and no work is done in sleep.
fn went_well(supper: &Supper, times: &Times) {
    for ((phases, late), times) in supper.dishes.iter().zip(times) {
        let served = times[phases.len()][0].expect("it is served");
        assert!((0..=*late).contains(&(served - SERVE)), "served {} late", served - SERVE);
        let mut before = "store";
        for (phase, times) in phases.iter().zip(times) {
            let (start, end) = (times[0].expect("a start"), times[1].expect("an end"));
            assert!((phase.low..=phase.high).contains(&(end - start)), "{phase:?} lasts {}", end - start);
            let moved = if phase.lines == before { start } else { start + 5 };
            let hands = if phase.lines == "on bench" && phase.who == Who::Nature { end } else { moved };
            before = &phase.lines;
            let night = |day: i64| start < day + 6 * 60 + 30 && hands > day - 60 && start < hands;
            assert!(!supper.sleep || !(-2..2).any(|day| night(day * 24 * 60)), "{phase:?} in sleep");
        }
    }
}

/// 18:30 on the axis, which counts from the midnight before.
const SERVE: i64 = 18 * 60 + 30;

fn goes_as_told(supper: &Supper, times: &Times, case: &Case, at: (usize, usize)) {
    let end = times[at.0][at.1][1].expect("it ended");
    assert!(within(case.ends, end), "{case:?} ends {end}");
    for then in &case.then {
        let (dish, nth) = supper.place(&then.cook, &then.phase);
        let [start, end] = times[dish][nth].map(|time| time.expect("it was done"));
        assert!(within(then.starts, start), "{then:?} starts {start}");
        assert!(then.lasts.is_none_or(|lasts| within(lasts, end - start)), "{then:?} lasts {}", end - start);
    }
}

#[test]
fn what_a_branch_tells_is_what_happens() {
    let mut dice = Dice(0x5eed_0301);
    let (mut told, mut others) = (0, 0);
    for (supper, compiled) in proved(&mut dice, 16, (2, 3)) {
        let strategy = strategy(&compiled);
        for branch in &compiled.meal().expect("a plan").branches {
            let at = supper.place(&branch.cook, &branch.phase);
            for case in [&branch.quick, &branch.slow] {
                told += 1;
                others += case.then.iter().filter(|then| then.cook != branch.cook).count();
                for _ in 0..10 {
                    let share = dice.roll(0, 4);
                    let any = |n: usize, nth: usize| {
                        let phase = &supper.dishes[n].0[nth];
                        // Shortest, longest, or between, in turn from phase to phase.
                        let share = (share + (3 * n + 2 * nth) as i64) % 5;
                        if (n, nth) == at {
                            case.lasts
                        } else {
                            phase.low + (phase.high - phase.low) * share / 4
                        }
                    };
                    let times =
                        play(&supper, &strategy, &any, None, &[Pace::Soonest, Pace::Latest], &mut dice);
                    went_well(&supper, &times);
                    goes_as_told(&supper, &times, case, at);
                }
            }
        }
    }
    println!("{told} cases, {others} of them tell of another dish");
    assert!(told > 50 && others > 0);
}

fn instant(clock: &Clock, minute: i64) -> Happened {
    let time = clock.rfc3339(minute).expect("a date");
    Happened::Instant(chrono::DateTime::parse_from_rfc3339(&time).expect("a time"))
}

/// Plans anew at the last minute of what has happened.
fn from_there(supper: &Supper, clock: &Clock, times: &Times, now: i64) -> OnTime {
    let mut progress = Progress { now: Some(instant(clock, now)), ..Progress::default() };
    for (n, dish) in times.iter().enumerate() {
        let name = |nth: usize| match nth == supper.dishes[n].0.len() {
            true => format!("dish {n}: serve roots"),
            false => format!("dish {n}: step-{nth}"),
        };
        for (nth, [start, end]) in dish.iter().enumerate() {
            let at = |minute: i64| instant(clock, minute);
            progress.started.extend(start.map(|start| (Some(name(nth)), at(start))));
            progress.done.extend(end.map(|end| (name(nth), at(end))));
        }
    }
    let compiled = supper.plan(progress, false);
    let unclear = compiled.findings.iter().find(|found| found.code.name() == "progress-unclear");
    assert!(unclear.is_none(), "{unclear:#?}");
    compiled.meal().expect("a plan").on_time
}

/// What a phase is known to take when it has taken its longest and is not over: from that moment on the rest is planned
/// anew.
fn if_known(
    supper: &Supper,
    clock: &Clock,
    times: &Times,
    (dish, nth): (usize, usize),
    (low, high): (i64, i64),
) -> OnTime {
    let mut times = times.clone();
    times[dish][nth][1] = None;
    times[dish][nth + 1][0] = None;
    let mut learnt = supper.clone();
    let phase = &mut learnt.dishes[dish].0[nth];
    let now = times[dish][nth][0].expect("it has started") + phase.high;
    (phase.low, phase.high) = (low, high);
    from_there(&learnt, clock, &times, now)
}

#[test]
fn what_may_take_so_long_may_take_no_longer() {
    let mut dice = Dice(0x5eed_0302);
    let [mut all, mut slack, mut tight] = [0; 3];
    for (supper, compiled) in proved(&mut dice, 5, (2, 2)) {
        let strategy = strategy(&compiled);
        let meal = by_the_clock(&compiled);
        for overrun in &meal.overruns {
            let at = supper.place(&overrun.cook, &overrun.phase);
            let Phase { low, high: most, .. } = supper.dishes[at.0].0[at.1];
            let spare = overrun.spare.expect("the plan is proved");
            assert_eq!(overrun.most, most);
            assert!(overrun.lost.is_none_or(|lost| lost >= overrun.longest + spare), "{overrun:?}");
            all += 1;
            slack += usize::from(spare > 0);
            let mut later = false;
            for paces in [&[Pace::Latest][..], &[Pace::Soonest], &[Pace::Soonest, Pace::Latest]] {
                let share = dice.roll(0, 4);
                let lengths = |n: usize, nth: usize| {
                    let phase = &supper.dishes[n].0[nth];
                    let share = (share + (3 * n + 2 * nth) as i64) % 5;
                    if (n, nth) == at { most } else { phase.low + (phase.high - phase.low) * share / 4 }
                };
                let times = play(&supper, &strategy, &lengths, Some(at), paces, &mut dice);
                let known = |range| if_known(&supper, &meal.clock, &times, at, range);
                for longest in [most, most + spare] {
                    let verdict = known((low, longest));
                    assert_eq!(verdict, OnTime::Always, "{longest} {overrun:?}\n{:#?}", supper.files());
                }
                later |= known((low, most + spare + 1)) != OnTime::Always;
            }
            tight += usize::from(later);
        }
    }
    println!("{all} moments, {slack} of them after the longest; a minute later {tight} not");
    // Where another order would do, there is more to spare than the plan knows.
    assert!(slack > 0 && 3 * tight > all);
}

/// With one food line nothing else can be chosen: both sides are exact.
#[test]
fn one_line_has_to_the_minute_what_it_may_spare() {
    let mut dice = Dice(0x5eed_0303);
    let (mut all, mut slack) = (0, 0);
    for (supper, compiled) in proved(&mut dice, 18, (1, 1)) {
        let meal = by_the_clock(&compiled);
        for overrun in &meal.overruns {
            let at = supper.place(&overrun.cook, &overrun.phase);
            let Phase { low, high: most, .. } = supper.dishes[at.0].0[at.1];
            let (spare, lost) = (overrun.spare.expect("a proof"), overrun.lost.expect("an end"));
            let start = meal.phases[at.1].start.expect("a start").latest;
            assert_eq!(overrun.longest, start + most);
            let mut times: Times = vec![vec![[None; 2]; supper.dishes[0].0.len() + 1]];
            times[0][at.1][0] = Some(start);
            let known = |range| if_known(&supper, &meal.clock, &times, at, range);
            assert_eq!(known((low, most + spare)), OnTime::Always, "{overrun:?}\n{:#?}", supper.files());
            assert_ne!(known((low, most + spare + 1)), OnTime::Always, "{overrun:?}\n{:#?}", supper.files());
            let too_long = lost + 1 - start;
            assert_eq!(known((too_long, too_long)), OnTime::Never, "{overrun:?}\n{:#?}", supper.files());
            all += 1;
            slack += usize::from(spare > 0);
        }
    }
    println!("{all} moments, {slack} of them after the longest");
    assert!(all > 30 && slack > 5);
}

fn shown(text: &str, kit: &str) -> Timeline {
    let timing = dwell::timing::Options { outlook: true, ..Default::default() };
    let options = Options { timing, outline: true, ..Options::default() };
    let files = Memory(&[("clubhouse.dwell", kit)]);
    let compiled = compile(&files, "test.dwell".into(), text.into(), &options);
    compiled.cooks()[0].timeline.cloned().unwrap_or_else(|| panic!("{:#?}", compiled.findings))
}

fn example(edit: impl Fn(String) -> String) -> Timeline {
    let all = common::examples();
    let of = |wanted: &str| all.iter().find(|(name, _)| name == wanted).expect("an example").1.clone();
    shown(&edit(of("chilli.dwell")), &of("clubhouse.dwell"))
}

fn overrun<'t>(plan: &'t Timeline, phase: &str) -> &'t Overrun {
    plan.overruns.iter().find(|one| one.phase == phase).unwrap_or_else(|| panic!("{:#?}", plan.overruns))
}

/// By the clock each of them has six hours to spare.
#[test]
fn the_clock_gives_no_time_that_the_food_does_not_have() {
    let plan = example(|text| text);
    // In the chiller, `within 90 min`; and cooked, on the bench.
    for phase in ["chill", "tray-up"] {
        let one = overrun(&plan, phase);
        assert!(one.spare.is_none() && one.withheld && one.gives.is_empty(), "{one:?}");
        assert!(one.taken_up.is_empty() && one.lost > Some(one.longest), "{one:?}");
    }
    for phase in ["brown", "simmer"] {
        let one = overrun(&plan, phase);
        assert_eq!(one.spare, Some(one.most), "no more than as long again: {one:?}");
    }
    // In the heat too, where the file says within how long.
    let limited =
        example(|text| text.replace("takes 1 h 30 min to 2 h", "takes 1 h 30 min to 2 h, within 2 h"));
    assert!(overrun(&limited, "simmer").withheld, "{:?}", overrun(&limited, "simmer"));
    let page = dwell::output::timeline::text(&plan, dwell::quantity::Scale::Celsius);
    assert!(page.contains("for dinner alone") && page.contains("thrown away") && !page.contains("6 h 16"));
    let json = dwell::output::timeline::json(&plan, dwell::quantity::Scale::Celsius);
    let chill = json.overruns.iter().find(|one| one.phase == "chill").expect("it is told");
    assert!(chill.spare_s.is_none() && chill.withheld);
}

/// FDA Food Code 2022, 3-403.11: hot again within 2 h. With 45 min less of the hold it would take 2 h 15 min. The rules of the
/// other set give no time for that.
#[test]
fn what_a_rule_forbids_is_not_offered_even_for_a_change_of_the_file() {
    let gives = |rules: &str| {
        let text = format!(
            "cook \"Stew\"\n  {rules}\nkit pot is hob\nkit fridge is fridge\nkit chiller is blast chiller\n\
             kit oven is oven\nkit probe is probe thermometer\n\
             food stew is meat stew\n  4 kg\n  thickness 5 cm\n\
             phase simmer is cook\n  stew on pot\n  until core 90 °C, takes 90 min to 2 h\n\
             phase chill is cool\n  stew in chiller\n  air -5 °C\n  until core 3 °C, takes 60 min to 80 min, within 90 min\n\
             phase keep is cold hold\n  stew in fridge\n  air 3 °C\n  for 1 day to 2 days\n\
             phase warm is reheat\n  stew in oven\n  air 150 °C\n  until core 82 °C, takes 60 min to 90 min\n\
             phase hold is hot hold\n  stew in oven\n  air 80 °C\n  for 45 min to 60 min\n\
             serve stew\n  at 13:00, up to 15 min late\n"
        );
        let plan = shown(&text, "");
        overrun(&plan, "warm").gives.iter().map(|give| give.spare).collect::<Vec<_>>()
    };
    assert_eq!(gives("rules uk"), [45]);
    assert!(gives("rules us-food-code").is_empty());
}

const LINE: &str = "cook \"Roots\"\n  rules us-food-code\nkit oven is oven\nfood roots is potato\n  2 kg\n  thickness 4 cm\n";

/// They may come at the end of their time, and wait until 19:30.
#[test]
fn dinner_is_not_late_while_guests_may_still_come() {
    let text = format!(
        "{LINE}phase bake is cook\n  roots in oven\n  air 160 °C\n  takes 30 min to 60 min\n\
         phase keep is hot hold\n  roots in oven\n  air 80 °C\n  for up to 2 h\n\
         serve roots\n  guests between 18:00 and 19:00, up to 30 min late\n"
    );
    let plan = shown(&text, "");
    let lost = overrun(&plan, "bake").lost.expect("an end");
    assert_eq!(plan.clock.time_of_day(lost), "19:30");
}

/// Bed at 23:00 with five minutes of work left is another reason than dinner.
#[test]
fn sleep_is_told_apart_from_a_late_dinner() {
    let text = |asleep: &str| {
        format!(
            "{LINE}kit bench is bench\ncrew\n  1 person\n{asleep}phase peel is prep\n  roots on bench\n  \
             takes 20 min to 30 min, hands-on\n\
             phase season is prep\n  roots on bench\n  takes 10 min to 20 min, hands-on\n\
             phase bake is cook\n  roots in oven\n  air 110 °C\n  for 14 h to 18 h\n\
             serve roots\n  at 13:00, up to 15 min late\n"
        )
    };
    let asleep = shown(&text("  asleep 23:00 to 06:30\n"), "");
    let season = overrun(&asleep, "season");
    assert!(season.asleep, "{season:?}");
    assert_eq!(asleep.clock.time_of_day(season.lost.expect("an end")), "22:55");
    let awake = shown(&text(""), "");
    let season = overrun(&awake, "season");
    // 14 h before 13:15.
    assert_eq!(awake.clock.time_of_day(season.lost.expect("an end")), "23:15");
    assert!(!season.asleep, "{season:?}");
}

#[test]
fn too_much_that_nature_ends_is_said_and_not_passed_over() {
    let mut text = format!("{LINE}kit bench is bench\n");
    for n in 0..61 {
        text += &format!("phase turn-{n} is prep\n  roots on bench\n  takes 1 min to 2 min\n");
    }
    text += "serve roots\n  at 18:30, up to 2 h late\n";
    let plan = shown(&text, "");
    assert_eq!((plan.too_many, plan.overruns.len()), (Some(61), 0), "{:?}", plan.on_time);
    let page = dwell::output::timeline::text(&plan, dwell::quantity::Scale::Celsius);
    assert!(page.contains("Nature ends 61 phases"), "{page}");
}
