//! What to do before the heat goes on, in order, with amounts.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::buy::ForCook;
use super::deadlines::{self, DeadlineRow};
use super::measure::{Measure, tidy};
use crate::compile::CompiledCook;
use crate::cook::{
    Amount, Call, Cook, CoverKind, ItemId, Lasts, Origin, Part, Phase, PhaseId, Placing, Purpose, Stock,
};
use crate::ledger::{Drawn, Ledger, Weight};
use crate::quantity::Scale;
use crate::safety;

mod paper;

pub(super) use paper::READ_THE_LABELS;
pub use paper::text;

/// The prep of one cook or several.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PrepList {
    /// `dwell.prep/1`.
    pub format: String,
    pub cooks: Vec<CookPrep>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CookPrep {
    #[serde(flatten)]
    pub cook: ForCook,
    /// What can be done before any of its food has been heated.
    pub before: Vec<Step>,
    /// What the phases with heat draw on: to be weighed and put ready.
    pub to_hand: Vec<Step>,
    /// Bench work on food that has been heated.
    pub later: Vec<Step>,
    /// Until when at the latest, by the rules of the cook, and what then.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub deadlines: Vec<DeadlineRow>,
    /// What each serving holds.
    pub served: Vec<ServedFood>,
    /// What applies to this cook, whatever the rules say of it.
    pub cautions: Vec<String>,
}

/// A food as it is served, and the allergens in it by the file or by what its stock is called.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ServedFood {
    pub serving: String,
    pub food: String,
    pub allergens: Vec<AllergenIn>,
}

/// An allergen and what contains it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct AllergenIn {
    pub allergen: String,
    pub items: Vec<String>,
}

/// One phase, as the hands see it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Step {
    pub phase: String,
    pub purpose: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kit: Option<String>,
    /// Food stands on this kit, not in it.
    #[serde(skip)]
    on: bool,
    pub foods: Vec<StepFood>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub becomes: Option<String>,
    pub draws: Vec<StepDraw>,
    /// "wrapped in paper".
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub covers: Vec<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_least_s: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_most_s: Option<f64>,
    pub jobs: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StepFood {
    pub name: String,
    /// What comes into the step, before it is trimmed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Measure>,
    /// How many pieces it is in from the start of the step.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pieces: Option<Measure>,
    /// The step divides it: into pieces of this.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub divided_into_each: Option<Measure>,
    /// What trimming leaves of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trimmed_kg: Option<f64>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StepDraw {
    pub name: String,
    /// "coarse sea salt".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub description: Option<String>,
    /// `None` for what is added to taste, or of an amount that is not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount: Option<Measure>,
    /// Made or collected on the way, not bought.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub made: bool,
    /// The food lies in it; it does not become part of the food.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub lies_in: bool,
}

/// The same, with the limits in time of each cook.
pub fn judged(cooks: &[CompiledCook<'_>]) -> PrepList {
    let mut list = list(&cooks.iter().map(|worked| (worked.cook, worked.ledger)).collect::<Vec<_>>());
    for (prep, worked) in list.cooks.iter_mut().zip(cooks) {
        prep.deadlines =
            worked.deadlines.iter().map(|deadline| deadlines::row(deadline, worked.cook)).collect();
    }
    list
}

/// The prep of several cooks, one below the other.
pub fn list(cooks: &[(&Cook, &Ledger)]) -> PrepList {
    let cooks = cooks.iter().map(|(cook, ledger)| cook_prep(cook, ledger)).collect();
    PrepList { format: "dwell.prep/1".into(), cooks }
}

fn cook_prep(cook: &Cook, ledger: &Ledger) -> CookPrep {
    let mut heated = vec![false; cook.items.len()];
    let (mut before, mut to_hand, mut later) = (Vec::new(), Vec::new(), Vec::new());
    for (id, phase) in cook.phases() {
        let parents = phase.placings.iter().map(|placing| placing.item);
        let was_heated = parents.clone().any(|item| heated[item.0 as usize]);
        let heats = matches!(phase.purpose, Purpose::Cook | Purpose::HotHold | Purpose::Reheat);
        if heats || was_heated {
            let becomes = phase.becomes.as_ref().map(|becomes| becomes.item);
            let collects = phase.collects.iter().map(|collect| collect.item);
            for item in parents.chain(becomes).chain(collects) {
                heated[item.0 as usize] = true;
            }
        }
        let list = match phase.purpose {
            Purpose::Serve => continue,
            _ if heats => &mut to_hand,
            Purpose::Prep if was_heated => &mut later,
            _ if was_heated => continue,
            _ => &mut before,
        };
        let mut step = step(cook, ledger, id, phase);
        if heats {
            // What is made on the way cannot be weighed before.
            step.draws.retain(|draw| !draw.made);
        }
        if !heats || !step.draws.is_empty() {
            list.push(step);
        }
    }
    let serves = cook.serves.as_ref().map(|serves| serves.people);
    let cautions = safety::cautions::cautions(cook).iter().map(|caution| caution.text.clone()).collect();
    let cook_of = ForCook { title: cook.title.value.clone(), serves };
    CookPrep { cook: cook_of, before, to_hand, later, deadlines: Vec::new(), served: served(cook), cautions }
}

/// What is needed as a phase begins, and what to do as it ends, in a sentence: "take 70 g of salt; wrapped in paper";
/// `None` where that is nothing.
pub(super) fn at_hand(worked: &CompiledCook<'_>, id: PhaseId) -> Option<String> {
    let CompiledCook { cook, ledger, .. } = *worked;
    let phase = cook.phase(id);
    let mut step = step(cook, ledger, id, phase);
    // What food there is, where it comes from the shop or is divided; else it is what it was.
    let is_new = |name: &str| {
        phase.placings.iter().any(|placing| placing.before.is_none() && cook.item(placing.item).name == name)
    };
    step.foods.retain(|food| food.divided_into_each.is_some() || is_new(&food.name));
    let parts = phase.placings.iter().filter_map(|placing| part(cook, placing)).collect();
    let collected = ledger.phase(id).collected.iter().map(|drawn| {
        let amount = drawn.amount.as_ref().map(|amount| format!("{} of ", Measure::from(amount).show()));
        format!("{}{}", amount.unwrap_or_default(), cook.item(drawn.item).name)
    });
    step.at_hand(parts, collected.collect())
}

/// "3 trays of chilli", where not all of it is taken.
fn part(cook: &Cook, placing: &Placing) -> Option<String> {
    let name = &cook.item(placing.item).name;
    Some(match &placing.part {
        Part::Whole => return None,
        Part::Fraction(share) if *share == 0.5 => format!("half of {name}"),
        Part::Fraction(share) => format!("{} % of {name}", tidy(share * 100.0)),
        Part::Rest => format!("the rest of {name}"),
        Part::Amount(amount) => format!("{} of {name}", Measure::from(amount).show()),
    })
}

fn step(cook: &Cook, ledger: &Ledger, id: PhaseId, phase: &Phase) -> Step {
    let (at_least, at_most) = match phase.lasts {
        Lasts::Fixed(time) => (Some(time), Some(time)),
        Lasts::Chosen { low, high } => (Some(low), high),
        Lasts::Nature { low, high, .. } => (Some(low), Some(high)),
        Lasts::Open | Lasts::Serving | Lasts::Unsaid => (None, None),
    };
    Step {
        phase: phase.name.clone(),
        purpose: phase.purpose.words().into(),
        kit: phase.place.as_ref().map(|place| cook.kit(place.value).name.value.clone()),
        on: phase.place.as_ref().is_some_and(|place| {
            matches!(cook.kit(place.value).class.base_name(), "bench" | "hob" | "griddle")
        }),
        foods: foods(cook, ledger, id, phase),
        becomes: phase.becomes.as_ref().map(|becomes| cook.item(becomes.item).name.clone()),
        draws: draws(cook, ledger, id, phase),
        covers: phase
            .shape
            .covers
            .iter()
            .map(|cover| cover_words(cover.kind, cover.stuff.as_ref().map(|stuff| stuff.value.as_str())))
            .collect(),
        at_least_s: at_least.map(|time| tidy(time.seconds())),
        at_most_s: at_most.map(|time| tidy(time.seconds())),
        jobs: phase.jobs.iter().map(|job| job_words(job.call, &job.text.value, cook.scale)).collect(),
        notes: phase.notes.iter().map(|note| note.value.clone()).collect(),
    }
}

fn foods(cook: &Cook, ledger: &Ledger, id: PhaseId, phase: &Phase) -> Vec<StepFood> {
    let account = ledger.phase(id);
    let mut foods = Vec::new();
    for placed in &account.placed {
        let going_on = account.foods.iter().find(|food| food.item == placed.item);
        let one = account.foods.first().filter(|_| account.foods.len() == 1);
        let shape = going_on.or(one);
        let divides = shape.is_some() && phase.shape.pieces.is_some();
        let off = account.trimmed.iter().find(|(item, _)| *item == placed.item).map(|(_, mass)| *mass);
        let before =
            placed.weight.map(|weight| Weight { mass: weight.mass + off.unwrap_or_default(), ..weight });
        foods.push(StepFood {
            name: cook.item(placed.item).name.clone(),
            mass: before.map(Measure::from),
            pieces: shape.and_then(|food| food.pieces.clone()).map(|(count, word)| Measure {
                count: Some(tidy(count)),
                counted: Some(word),
                ..Measure::default()
            }),
            divided_into_each: phase
                .shape
                .pieces
                .as_ref()
                .filter(|_| divides)
                .map(|pieces| Measure::from(&pieces.each)),
            trimmed_kg: off.and(placed.weight).map(|weight| tidy(weight.mass.kg())),
        });
    }
    foods
}

fn draws(cook: &Cook, ledger: &Ledger, id: PhaseId, phase: &Phase) -> Vec<StepDraw> {
    let lies_in = phase.lie_in.as_ref();
    let draw = |drawn: &Drawn| StepDraw {
        name: cook.item(drawn.item).name.clone(),
        description: description(cook, drawn),
        amount: drawn.amount.as_ref().map(Measure::from),
        made: matches!(cook.item(drawn.item).origin, Origin::Made(_) | Origin::Collected { .. }),
        lies_in: lies_in.is_some_and(|lie_in| lie_in.item == Some(drawn.item)),
    };
    let mut draws: Vec<StepDraw> = ledger.phase(id).drawn.iter().map(draw).collect();
    if let Some(lie_in) = lies_in.filter(|lie_in| lie_in.item.is_none()) {
        draws.push(StepDraw {
            name: "water".into(),
            description: None,
            amount: Some(Measure::from(&lie_in.amount)),
            made: false,
            lies_in: true,
        });
    }
    draws
}

fn stock(cook: &Cook, item: ItemId) -> Option<&Stock> {
    match &cook.item(item).origin {
        Origin::Food(stock) | Origin::Ingredient(stock) => Some(stock),
        Origin::Made(_) | Origin::Collected { .. } | Origin::OnTap => None,
    }
}

/// The words of the shop, where they say more than the name and what is counted.
fn description(cook: &Cook, drawn: &Drawn) -> Option<String> {
    let mut said = stock(cook, drawn.item)?.description.as_str();
    if let Some(Amount::Count { word, .. }) = &drawn.amount {
        said = said.strip_prefix(word.as_str()).unwrap_or(said).trim_start_matches([',', ' ']);
    }
    let more = !said.is_empty() && !said.eq_ignore_ascii_case(&cook.item(drawn.item).name);
    more.then(|| said.to_owned())
}

fn cover_words(kind: CoverKind, stuff: Option<&str>) -> String {
    let word = match kind {
        CoverKind::Uncovered => "uncovered",
        CoverKind::Covered => "covered",
        CoverKind::Wrapped => "wrapped",
        CoverKind::Sealed => "sealed",
        CoverKind::Bagged => "bagged",
        CoverKind::VacuumBagged => "vacuum bagged",
    };
    stuff.map_or_else(|| word.to_owned(), |stuff| format!("{word} in {stuff}"))
}

fn job_words(call: Call, text: &str, scale: Scale) -> String {
    match call {
        Call::Start => text.to_owned(),
        Call::End => format!("At the end: {text}"),
        Call::AtCore(core) => format!("When the core is at {}: {text}", core.show(scale)),
        Call::Every(every) => format!("Every {}: {text}", every.show()),
    }
}

fn served(cook: &Cook) -> Vec<ServedFood> {
    let all = safety::allergens::served(cook).into_iter().map(|served| ServedFood {
        serving: cook.phase(served.phase).name.clone(),
        food: cook.item(served.food).name.clone(),
        allergens: allergens(cook, &served.holds),
    });
    all.collect()
}

fn allergens(cook: &Cook, carried: &safety::allergens::Carried) -> Vec<AllergenIn> {
    let name = |item: &ItemId| cook.item(*item).name.clone();
    let each = carried.iter().map(|(allergen, items)| AllergenIn {
        allergen: allergen.word().into(),
        items: items.iter().map(name).collect(),
    });
    each.collect()
}
