//! Random cooks as text, and random ways that each of them may go.

use dwell::cook::Medium;
use dwell::heat::conduction::shape::{Form, Likeness};
use dwell::tables::{KitClass, Tables};

use super::common::dice::Dice;
use super::witness::{
    Around, CONDUCTIVITY_W_MK, DENSITY_KG_M3, SPECIFIC_HEAT_J_KGK, humidity_ratio, saturation_pa,
};

/// A room that no kit tells the temperature of, its humidity, and stock from the fridge: what the engine assumes.
const ROOM_C: Range = Range { low: 16.0, high: 26.0 };
const ROOM_MOISTURE: Range = Range { low: 0.2, high: 0.9 };
const CHILLED_C: Range = Range { low: 1.0, high: 7.0 };
const ICE_C: Range = Range { low: 0.0, high: 2.0 };
const THICKNESS_OFF: f64 = 0.1;
const EMISSIVITY: f64 = 0.9;

#[derive(Debug, Clone, Copy)]
pub struct Range {
    pub low: f64,
    pub high: f64,
}

impl Range {
    fn exact(value: f64) -> Self {
        Self { low: value, high: value }
    }

    fn around(middle: f64, by: f64) -> Self {
        Self { low: middle - by, high: middle + by }
    }

    /// An end as often as not: that is where bounds break.
    fn draw(self, dice: &mut Dice) -> f64 {
        match dice.roll(0, 3) {
            0 => self.low,
            1 => self.high,
            _ => self.low + (self.high - self.low) * dice.roll(0, 1000) as f64 / 1000.0,
        }
    }
}

#[derive(Debug, Clone, Copy)]
pub enum End {
    /// `for` one length or the middle of a choice, s.
    For(f64, f64),
    Takes(f64, f64),
    Until {
        target_c: f64,
        takes: Option<(f64, f64)>,
    },
}

#[derive(Debug, Clone, Copy)]
pub struct Step {
    pub kit: &'static str,
    pub setting: Option<(f64, Option<f64>)>,
    cover: Option<&'static str>,
    pub end: End,
}

impl Step {
    /// Whether an end is waited for from below: never by what is cooled, always by what is cooked in something hotter,
    /// else by food that comes in colder.
    pub fn heats(&self, before_c: f64, target_c: f64) -> bool {
        let purpose = KITS.iter().find(|(kit, ..)| *kit == self.kit).map(|(_, purpose, _)| *purpose);
        match purpose {
            Some("cool" | "cold hold") => false,
            Some("cook") if self.setting.is_some_and(|(at, _)| at > target_c) => true,
            _ => before_c < target_c,
        }
    }
}

#[derive(Debug, Clone)]
pub struct Written {
    thickness_m: f64,
    thickness_off_m: Option<f64>,
    shape: Option<&'static str>,
    kg: f64,
    starts_c: Option<f64>,
    pub steps: Vec<Step>,
}

const KITS: [(&str, &str, &str); 9] = [
    ("oven", "cook", "air"),
    ("fan oven", "cook", "air"),
    ("smoking cabinet", "cook", "air"),
    ("holding cabinet", "hot hold", "air"),
    ("water bath", "cook", "water"),
    ("fridge", "cold hold", "air"),
    ("ice bath", "cool", "water"),
    ("bench", "rest", "air"),
    ("blast chiller", "cool", "air"),
];
/// What may be set, in whole degrees.
fn settings(kit: &str) -> Option<(i64, i64)> {
    Some(match kit {
        "oven" | "fan oven" => (90, 180),
        "smoking cabinet" => (80, 140),
        "holding cabinet" => (55, 80),
        "water bath" => (50, 85),
        "fridge" => (1, 5),
        "blast chiller" => (-2, 3),
        _ => return None,
    })
}

impl Written {
    pub fn random(dice: &mut Dice) -> Self {
        let thickness_m = dice.roll(35, 130) as f64 / 1000.0;
        let off = match dice.roll(0, 3) {
            0 => Some(0.005),
            1 => Some((thickness_m * 200.0).round() / 1000.0),
            _ => None,
        };
        let kg = (thickness_m.powi(3) * 1050.0 * dice.roll(12, 60) as f64).round() / 10.0;
        let mut written = Self {
            thickness_m,
            thickness_off_m: off,
            shape: [None, Some("slab"), Some("cylinder"), Some("ball")][dice.roll(0, 3) as usize],
            kg: kg.max(0.1),
            starts_c: (!dice.one_in(3)).then(|| dice.roll(1, 12) as f64),
            steps: Vec::new(),
        };
        let time_s = (0.5 * thickness_m).powi(2) * DENSITY_KG_M3 * SPECIFIC_HEAT_J_KGK / CONDUCTIVITY_W_MK;
        let minutes = |share: f64| (share * time_s / 60.0).round().max(2.0) * 60.0;
        // Where the core may be by now, roughly: ends that can be waited for lie on the way.
        let mut core_c = written.starts_c.unwrap_or(4.0);
        for nth in 0..dice.roll(1, 4) {
            let hot = nth == 0 || dice.one_in(2);
            let again = match written.steps.as_slice() {
                [.., last] if dice.one_in(4) => Some(last.kit),
                [first, ..] if dice.one_in(4) => Some(first.kit),
                _ => None,
            };
            let kit = again.unwrap_or(KITS[if hot { dice.roll(0, 4) } else { dice.roll(5, 8) } as usize].0);
            let setting = settings(kit).map(|(low, high)| {
                let off = [None, None, Some(2.0), Some(6.0), Some(10.0)]
                    [dice.roll(0, if hot { 4 } else { 1 }) as usize];
                (dice.roll(low, high) as f64, off)
            });
            let medium_c = setting.map_or(if kit == "bench" { 20.0 } else { 0.5 }, |(at, _)| at);
            let covers = [
                None,
                Some("uncovered"),
                Some("covered"),
                Some("wrapped in foil"),
                Some("sealed in foil"),
                Some("bagged"),
            ];
            let aims_c = if medium_c > core_c {
                (core_c + 8.0 + (medium_c.min(95.0) - core_c) * dice.roll(0, 85) as f64 / 100.0)
                    .min(medium_c - 4.0)
            } else {
                (core_c - 3.0 - (core_c - medium_c) * dice.roll(0, 80) as f64 / 100.0).max(medium_c + 4.0)
            };
            let room = (medium_c - core_c).abs() > 15.0;
            let end = match dice.roll(0, 5) {
                0 | 1 if kit == "bench" => {
                    let low = dice.roll(5, 40) as f64 * 60.0;
                    End::Takes(low, low + dice.roll(5, 90) as f64 * 60.0)
                }
                0..=2 if room => End::Until { target_c: aims_c.round(), takes: None },
                3 => {
                    let low = minutes(dice.roll(10, 80) as f64 / 100.0);
                    End::For(low, low + dice.roll(10, 120) as f64 * 60.0)
                }
                _ => {
                    let length = minutes(dice.roll(10, 150) as f64 / 100.0);
                    End::For(length, length)
                }
            };
            core_c = match end {
                End::Until { target_c, .. } => target_c,
                End::For(low, high) => {
                    medium_c.min(95.0) + (core_c - medium_c.min(95.0)) * (-1.5 * (low + high) / time_s).exp()
                }
                End::Takes(..) => core_c,
            };
            written.steps.push(Step { kit, setting, cover: covers[dice.roll(0, 5) as usize], end });
        }
        written
    }

    /// In a bath, on the bench, and in the bath again at another setting: a bath takes long to follow, and little else
    /// about it is uncertain.
    pub fn back_to_a_bath(first_c: f64, then_c: f64, bench: End) -> Self {
        let bath = |at_c, minutes| Step {
            kit: "water bath",
            setting: Some((at_c, Some(0.5))),
            cover: Some("bagged"),
            end: End::For(minutes * 60.0, minutes * 60.0),
        };
        let stand = Step { kit: "bench", setting: None, cover: None, end: bench };
        let steps = vec![bath(first_c, 90.0), stand, bath(then_c, 20.0)];
        let thickness_off_m = Some(0.0005);
        Self { thickness_m: 0.04, thickness_off_m, shape: Some("slab"), kg: 1.0, starts_c: Some(4.0), steps }
    }

    pub fn text(&self) -> String {
        let mut text = String::from("cook \"Draw\"\n  rules us-food-code\n\ncrew\n  2 people\n\n");
        for (kit, ..) in KITS {
            if self.steps.iter().any(|step| step.kit == kit) {
                text += &format!("kit our-{} is {kit}\n", kit.replace(' ', "-"));
            }
        }
        text += &format!("\nfood joint is test slab\n  1 piece of {:.1} kg\n", self.kg);
        text += &format!("  thickness {:.1} mm", self.thickness_m * 1000.0);
        text += &self.thickness_off_m.map_or("\n".into(), |off| format!(" ± {:.1} mm\n", off * 1000.0));
        if let Some(shape) = self.shape {
            text += &format!("  shape {shape}\n");
        }
        if let Some(at) = self.starts_c {
            text += &format!("  starts at {at} °C\n");
        }
        for (nth, step) in self.steps.iter().enumerate() {
            let (kit, purpose, medium) = KITS.iter().find(|(kit, ..)| *kit == step.kit).expect("a kit");
            text += &format!("\nphase p{nth} is {purpose}\n  joint in our-{}\n", kit.replace(' ', "-"));
            if let Some((at, off)) = step.setting {
                text += &format!("  {medium} {at} °C");
                text += &off.map_or("\n".into(), |off| format!(" ± {off} °C\n"));
            }
            if let Some(cover) = step.cover {
                text += &format!("  {cover}\n");
            }
            let minutes = |seconds: f64| (seconds / 60.0).round();
            let takes =
                |(low, high): (f64, f64)| format!("takes {} min to {} min", minutes(low), minutes(high));
            text += &match step.end {
                End::For(low, high) if low == high => format!("  for {} min\n", minutes(low)),
                End::For(low, high) => format!("  for {} min to {} min\n", minutes(low), minutes(high)),
                End::Takes(low, high) => format!("  {}\n", takes((low, high))),
                End::Until { target_c, takes: None } => format!("  until core {target_c} °C\n"),
                End::Until { target_c, takes: Some(range) } => {
                    format!("  until core {target_c} °C, {}\n", takes(range))
                }
            };
        }
        text + "\nserve joint\n  at 19:00\n"
    }

    pub fn thickness(&self) -> Range {
        Range::around(self.thickness_m, self.thickness_off_m.unwrap_or(THICKNESS_OFF * self.thickness_m))
    }

    /// Not a tolerance: the word, or what follows from thickness and weight.
    pub fn beta(&self) -> f64 {
        match self.shape {
            Some("slab") => 0.0,
            Some("cylinder") => Likeness::CylinderLike.beta(),
            Some(_) => Likeness::SphereLike.beta(),
            None => Form::from_thickness(self.thickness_m, self.kg / DENSITY_KG_M3)
                .map_or(Likeness::CylinderLike.beta(), |form| form.beta),
        }
    }

    /// One way that it may go.
    pub fn drawn(&self, dice: &mut Dice) -> Drawn {
        let mut pick = |range: Range| range.draw(dice);
        let thickness_m = pick(self.thickness());
        let start_c = pick(self.starts_c.map_or(CHILLED_C, Range::exact));
        let mut cover = "uncovered";
        let mut steps = Vec::new();
        for step in &self.steps {
            cover = step.cover.unwrap_or(cover);
            let class = Tables::built_in().kit.find(step.kit).expect("a built-in class");
            let around = surroundings(step, &class, cover, &mut pick);
            let length_s = match step.end {
                End::For(low, high) => 0.5 * (low + high),
                End::Takes(low, high) => pick(Range { low, high }),
                End::Until { .. } => f64::NAN,
            };
            let rates_k_s =
                class.heats_k_min.zip(class.cools_k_min).map(|(up, down)| (up / 60.0, down / 60.0));
            let turned = pick(Range { low: 0.0, high: 1.0 });
            steps.push(DrawnStep { around, length_s, rates_k_s, turned });
        }
        Drawn { half_thickness_m: 0.5 * thickness_m, start_c, steps }
    }
}

/// Every figure that was not exact, made exact.
#[derive(Debug, Clone)]
pub struct Drawn {
    pub half_thickness_m: f64,
    pub start_c: f64,
    pub steps: Vec<DrawnStep>,
}

#[derive(Debug, Clone)]
pub struct DrawnStep {
    pub around: Around,
    /// NaN where a temperature ends it.
    pub length_s: f64,
    /// How fast the kit heats and cools, K/s, where it can be set.
    pub rates_k_s: Option<(f64, f64)>,
    /// When it is turned to this setting while the food is elsewhere: 0 as the food leaves, 1 as it is back.
    pub turned: f64,
}

/// A kit as the food left it.
#[derive(Debug, Clone, Copy)]
pub struct Left {
    pub at_s: f64,
    pub kit_c: f64,
    pub arrived: bool,
    pub setting_c: f64,
}

impl DrawnStep {
    /// What the food meets that comes in at `now_s`, where it left the kit like that before.
    pub fn meets(&self, left: Option<&Left>, setting_c: Option<f64>, now_s: f64) -> Around {
        let (Some(left), Some(setting_c), Some((heats, cools))) = (left, setting_c, self.rates_k_s) else {
            return self.around;
        };
        if (left.setting_c - setting_c).abs() <= 0.5 && left.arrived {
            return self.around;
        }
        let rate_k_s = if self.around.medium_c > left.kit_c { heats } else { cools };
        let on_its_way = Around { from_c: left.kit_c, rate_k_s, ..self.around };
        Around { from_c: on_its_way.medium((1.0 - self.turned) * (now_s - left.at_s)), ..on_its_way }
    }
}

fn surroundings(step: &Step, class: &KitClass, cover: &str, pick: &mut impl FnMut(Range) -> f64) -> Around {
    let medium_c = match step.setting {
        Some((at, off)) => Range::around(at, off.or(class.swing_k).expect("a swing")),
        None if step.kit == "bench" => ROOM_C,
        None => ICE_C,
    };
    let film = &class.films[0];
    let in_air = film.medium == Medium::Air;
    let wetness = match cover {
        "uncovered" if in_air => Range { low: 0.0, high: 0.3 },
        "covered" if in_air => Range { low: 0.0, high: 0.1 },
        _ => Range::exact(0.0),
    };
    let moisture = match (class.moisture_percent, class.moisture_range_percent) {
        (Some(_), Some([low, high])) => Range { low: low / 100.0, high: high / 100.0 },
        _ => ROOM_MOISTURE,
    };
    let medium_c = pick(medium_c);
    let vapour_pa = pick(moisture) * saturation_pa(medium_c);
    Around {
        from_c: medium_c,
        medium_c,
        rate_k_s: f64::INFINITY,
        film_w_m2k: pick(Range { low: film.low_w_m2k, high: film.high_w_m2k }),
        emissivity: if film.radiates { EMISSIVITY } else { 0.0 },
        wetness: pick(wetness),
        humidity: humidity_ratio(vapour_pa.min(0.9 * 101_325.0)),
    }
}
