//! The drawing of cooks. Most of them are aimed near some limit: what is far off on either side tells little.

use super::common::dice::Dice;
use super::cooks::{End, Flesh, Purpose, Step, Written};

const SETS: [&str; 9] =
    ["us-food-code", "us-fsis", "au-nz", "ca", "ca-nb", "fr", "uk", "uk-scotland", "eu-ie"];

const RED: [&str; 8] = [
    "beef brisket",
    "beef topside",
    "beef chuck",
    "pork shoulder",
    "pork loin",
    "pork leg",
    "lamb leg",
    "lamb shoulder",
];
const POULTRY: [&str; 3] = ["chicken breast", "turkey breast", "chicken thigh"];
const MINCE: [&str; 4] = ["beef mince", "pork mince", "meatloaf mix", "lamb mince"];
const PLANTS: [&str; 3] = ["potato", "carrot", "celeriac"];
const POTS: [&str; 7] =
    ["meat stew", "chilli con carne", "bolognese", "cooked rice", "mashed potato", "pea soup", "pulled pork"];

/// What a cook is aimed at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Aim {
    Hold,
    Cooling,
    ComeUp,
    /// From the raw to a hold on the second day.
    Whole,
}

/// Pulled once it is cooked, or cooked with beans into a stew.
fn turn(dice: &mut Dice, food: &Food, steps: &mut [Step]) -> Option<(usize, &'static str, &'static str)> {
    let depth = format!("depth {} mm", dice.roll(25, 120));
    if food.flesh != Flesh::None && dice.one_in(2) {
        let cut = steps.iter().position(|step| step.purpose == Purpose::Prep)?;
        steps[cut].clauses = vec![depth];
        return Some((cut, "becomes supper is pulled pork", ""));
    }
    let first = &mut steps[0];
    let mince = food.mince && first.purpose == Purpose::Cook && first.kit != "water bath";
    if !mince || !dice.one_in(2) {
        return None;
    }
    first.clauses.push(depth);
    Some((0, "becomes supper is meat stew", " and beans"))
}

fn one_of<T: Copy>(dice: &mut Dice, all: &[T]) -> T {
    all[dice.roll(0, all.len() as i64 - 1) as usize]
}

struct Food {
    lines: Vec<String>,
    flesh: Flesh,
    red: bool,
    pot: bool,
    mince: bool,
    /// Of a pot.
    kg: i64,
    mm: i64,
}

fn food(dice: &mut Dice, aim: Aim) -> Food {
    let pot = aim != Aim::ComeUp && dice.one_in(3);
    let off = |dice: &mut Dice| match dice.roll(0, 3) {
        0 => " ± 5 mm".to_string(),
        1 => " ± 3 mm".to_string(),
        _ => String::new(),
    };
    let mut lines = Vec::new();
    if pot {
        let name = one_of(dice, &POTS);
        let deep = dice.one_in(2);
        let mm = dice.roll(20, if deep { 260 } else { 80 });
        let kg = dice.roll(2, 20);
        lines.push(format!("{name}\n  {kg} kg\n  depth {mm} mm{}", off(dice)));
        lines.push(format!("starts at {} °C", dice.roll(1, 3)));
        return Food { lines, flesh: Flesh::None, red: false, pot, mince: false, kg, mm };
    }
    let (name, flesh, red, extra) = match dice.roll(if aim == Aim::ComeUp { 3 } else { 0 }, 9) {
        0..=3 => (one_of(dice, &RED), Flesh::Whole, true, None),
        4 | 5 => (one_of(dice, &RED), Flesh::Opened, true, Some(one_of(dice, &["injected", "tenderised"]))),
        6 => (one_of(dice, &POULTRY), Flesh::Whole, false, None),
        7 => (one_of(dice, &POULTRY), Flesh::Opened, false, Some("injected")),
        8 => (one_of(dice, &MINCE), Flesh::Opened, true, None),
        _ if aim == Aim::ComeUp => (one_of(dice, &MINCE), Flesh::Opened, true, None),
        _ => (one_of(dice, &PLANTS), Flesh::None, false, None),
    };
    let thick = aim == Aim::ComeUp || dice.one_in(3);
    let mm = if thick { dice.roll(80, 200) } else { dice.roll(20, 90) };
    let grams = (mm * mm * mm / 1000) * dice.roll(11, 45) / 10;
    lines.push(format!("{name}\n  1 piece of {} g\n  thickness {mm} mm{}", grams.max(60), off(dice)));
    lines.extend(extra.map(str::to_string));
    if dice.one_in(3) {
        lines.push(format!("shape {}", one_of(dice, &["slab", "cylinder", "ball"])));
    }
    if !dice.one_in(6) {
        lines.push(format!("starts at {} °C", dice.roll(1, 3)));
    }
    Food { lines, flesh, red, pot, mince: MINCE.contains(&name), kg: 0, mm }
}

impl Written {
    pub fn random(dice: &mut Dice) -> Self {
        let aim = one_of(dice, &[Aim::Hold, Aim::Hold, Aim::Cooling, Aim::ComeUp, Aim::ComeUp, Aim::Whole]);
        let rules = match aim {
            Aim::ComeUp if !dice.one_in(6) => "us-fsis",
            _ => one_of(dice, &SETS),
        };
        let food = food(dice, aim);
        let mut steps = Vec::new();
        if aim == Aim::ComeUp {
            if dice.one_in(4) {
                steps.push(rest(dice, 60));
            }
            if dice.one_in(4) {
                steps.push(slow(dice, &food));
                if dice.one_in(2) {
                    steps.push(rest(dice, 90));
                }
            }
            steps.push(slow(dice, &food));
        } else {
            steps.push(cook(dice, &food));
        }
        if dice.one_in(2) || aim == Aim::Hold {
            if dice.one_in(2) {
                steps.push(rest(dice, if aim == Aim::Hold { 150 } else { 40 }));
            }
            if dice.one_in(5) {
                steps.push(cut(dice, &food));
            }
            if aim == Aim::Hold || aim == Aim::Whole {
                steps.push(hold(dice, &food));
            }
        }
        if aim == Aim::Cooling || aim == Aim::Whole {
            chill(dice, &food, &mut steps);
            if dice.one_in(2) || aim == Aim::Whole {
                steps.push(reheat(dice, &food));
                if dice.one_in(2) || aim == Aim::Whole {
                    steps.push(hold(dice, &food));
                }
            }
        }
        let turns = turn(dice, &food, &mut steps);
        Self { rules, food: food.lines, flesh: food.flesh, red: food.red, turns, steps }
    }
}

fn tolerance(dice: &mut Dice) -> Option<i64> {
    one_of(dice, &[None, None, Some(1), Some(3), Some(6)])
}

fn cover(dice: &mut Dice, kit: &str) -> Vec<String> {
    let all: &[&str] = match kit {
        "water bath" => &["bagged", "vacuum bagged"],
        "hob" | "slow cooker" => &["covered"],
        _ => &["", "", "covered", "sealed in foil", "wrapped in foil", "uncovered"],
    };
    let cover = one_of(dice, all);
    (!cover.is_empty()).then(|| cover.to_string()).into_iter().collect()
}

/// How long heat takes into it, minutes, roughly: the square of half the thickness over a conductivity of food.
fn takes(food: &Food, share_percent: i64) -> i64 {
    (food.mm * food.mm / 36 * share_percent / 100).max(10)
}

fn ends(dice: &mut Dice, minutes: i64) -> End {
    let minutes = minutes.max(5);
    match dice.roll(0, 3) {
        0 => End::Choice(minutes, minutes + minutes * dice.roll(10, 150) / 100),
        1 if dice.one_in(2) => End::Takes(minutes, minutes + dice.roll(5, 40)),
        _ => End::For(minutes),
    }
}

fn cook(dice: &mut Dice, food: &Food) -> Step {
    let kits: &[&str] = if food.pot {
        &["hob", "oven", "steam oven"]
    } else {
        &["oven", "fan oven", "steam oven", "smoking cabinet", "water bath"]
    };
    let kit = one_of(dice, kits);
    let at = match kit {
        "hob" => dice.roll(90, 100),
        "water bath" => dice.roll(58, 88),
        "smoking cabinet" => dice.roll(100, 140),
        _ => dice.roll(100, 190),
    };
    let end = match dice.roll(0, 4) {
        0 => {
            let share = dice.roll(100, 250);
            ends(dice, takes(food, share))
        }
        _ => End::Until(dice.roll(66, 90).min(at - 4)),
    };
    Step { purpose: Purpose::Cook, kit, setting: Some((at, tolerance(dice))), clauses: cover(dice, kit), end }
}

/// Cooked so low that the way up may take too long.
fn slow(dice: &mut Dice, food: &Food) -> Step {
    let kit = one_of(dice, &["water bath", "water bath", "oven", "smoking cabinet", "holding cabinet"]);
    let at = match kit {
        "water bath" => dice.roll(50, 66),
        "holding cabinet" => dice.roll(58, 90),
        _ => dice.roll(65, 115),
    };
    let end = match dice.roll(0, 2) {
        0 => {
            let share = dice.roll(60, 350);
            ends(dice, takes(food, share))
        }
        _ => End::Until(dice.roll(55, 68).min(at - 2)),
    };
    Step { purpose: Purpose::Cook, kit, setting: Some((at, tolerance(dice))), clauses: cover(dice, kit), end }
}

fn rest(dice: &mut Dice, longest: i64) -> Step {
    let minutes = dice.roll(5, longest);
    let end = ends(dice, minutes);
    Step { purpose: Purpose::Rest, kit: "bench", setting: None, clauses: cover(dice, "bench"), end }
}

/// Carved, or laid out in trays.
fn cut(dice: &mut Dice, food: &Food) -> Step {
    let mm = dice.roll(15, 60).min(food.mm);
    let mut clauses = vec![format!("{} {mm} mm", if food.pot { "depth" } else { "thickness" })];
    if food.pot && dice.one_in(2) {
        clauses.insert(0, format!("4 trays of {} g", food.kg * 250));
    }
    Step { purpose: Purpose::Prep, kit: "bench", setting: None, clauses, end: End::For(dice.roll(5, 30)) }
}

fn hold(dice: &mut Dice, food: &Food) -> Step {
    let kits: &[&str] = if food.pot {
        &["holding cabinet", "oven", "hob", "slow cooker"]
    } else {
        &["holding cabinet", "holding cabinet", "oven", "steam oven", "water bath"]
    };
    let kit = one_of(dice, kits);
    let at = match kit {
        "oven" | "steam oven" => dice.roll(58, 110),
        "slow cooker" => dice.roll(60, 85),
        _ => dice.roll(55, 85),
    };
    let minutes = dice.roll(15, 400);
    let end = ends(dice, minutes);
    Step {
        purpose: Purpose::HotHold,
        kit,
        setting: Some((at, tolerance(dice))),
        clauses: cover(dice, kit),
        end,
    }
}

fn chill(dice: &mut Dice, food: &Food, steps: &mut Vec<Step>) {
    if dice.one_in(3) {
        steps.push(cut(dice, food));
    }
    for _ in 0..dice.roll(0, 2) {
        let kit = one_of(dice, &["blast chiller", "blast chiller", "ice bath", "bench", "fridge"]);
        let at = match kit {
            "blast chiller" => Some(dice.roll(-20, 3)),
            "fridge" => Some(dice.roll(1, 4)),
            _ => None,
        };
        let cold = at.unwrap_or(if kit == "bench" { 22 } else { 1 });
        let target = one_of(dice, &[3, 4, 5, 8, 10, 20, 21, 30]).max(cold + 2);
        let end = match dice.roll(0, 3) {
            0 => {
                let share = dice.roll(20, 250);
                ends(dice, takes(food, share))
            }
            1 => End::UntilWithin(target, dice.roll(60, 400)),
            _ => End::Until(target),
        };
        let clauses = if kit == "ice bath" { vec!["bagged".to_string()] } else { cover(dice, kit) };
        steps.push(Step { purpose: Purpose::Cool, kit, setting: at.map(|at| (at, None)), clauses, end });
    }
    let keep = End::For(dice.roll(8, 48) * 60);
    let keep = if dice.one_in(4) { End::Choice(300, 2000) } else { keep };
    steps.push(Step {
        purpose: Purpose::ColdHold,
        kit: "fridge",
        setting: Some((dice.roll(1, 4), one_of(dice, &[None, Some(1)]))),
        clauses: cover(dice, "fridge"),
        end: keep,
    });
}

fn reheat(dice: &mut Dice, food: &Food) -> Step {
    let kit =
        if food.pot { one_of(dice, &["hob", "steam oven"]) } else { one_of(dice, &["oven", "steam oven"]) };
    let at = if kit == "hob" { dice.roll(88, 100) } else { dice.roll(110, 170) };
    let end = End::Until(dice.roll(74, 84));
    Step { purpose: Purpose::Reheat, kit, setting: Some((at, None)), clauses: cover(dice, kit), end }
}
