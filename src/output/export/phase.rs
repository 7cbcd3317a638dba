//! Phases and servings.

use schemars::JsonSchema;
use serde::Serialize;

use super::Place;
use super::amounts::{Amount, Shape};
use super::parts::{
    Check, Collect, Draw, Hands, Job, Lasts, LiesIn, Order, Placing, Service, Setting, Smoke, Test,
};
use crate::cook::{self, Cook};
use crate::ledger::PhaseAccount;
use crate::text::Sources;

#[derive(Serialize, JsonSchema)]
pub(super) struct Phase {
    name: String,
    /// The purpose as a cook writes it; "serve" for a serving.
    purpose: String,
    service: Option<Service>,
    placed: Vec<Placing>,
    /// What there is of each food in the phase, as far as the amounts tell.
    masses: Vec<FoodMass>,
    kit: Option<String>,
    becomes: Option<String>,
    shape: Shape,
    setting: Option<Setting>,
    lies_in: Option<LiesIn>,
    moisture_fraction: Option<f64>,
    fan: Option<bool>,
    smoke: Option<Smoke>,
    lasts: Lasts,
    /// Any of these ends the phase only together with the others.
    until: Vec<Test>,
    within_s: Option<f64>,
    checks: Vec<Check>,
    uses: Vec<Draw>,
    collects: Vec<Collect>,
    jobs: Vec<Job>,
    hands: Hands,
    orders: Vec<Order>,
    fills_shelves: Option<f64>,
    fills: Option<Amount>,
    notes: Vec<String>,
    place: Place,
}

/// Mass of one food from the start of the phase to its end.
#[derive(Serialize, JsonSchema)]
struct FoodMass {
    food: String,
    start_kg: Option<f64>,
    end_kg: Option<f64>,
    /// A part of it has no known mass, or was measured by volume.
    about: bool,
}

impl Phase {
    pub(super) fn new(
        sources: &Sources,
        cook: &Cook,
        phase: &cook::Phase,
        account: Option<&PhaseAccount>,
    ) -> Self {
        let item = |id| cook.item(id).name.clone();
        let draw = |draw: &cook::Draw| Draw {
            item: item(draw.item),
            part: (&draw.part).into(),
            before: draw.before.map(|before| cook.phase(before).name.clone()),
        };
        let fills = phase.fills.as_ref().map(|room| &room.value);
        Self {
            name: phase.name.clone(),
            purpose: phase.purpose.words().to_owned(),
            service: phase.service.as_ref().map(Service::from),
            placed: phase
                .placings
                .iter()
                .map(|placing| Placing {
                    food: item(placing.item),
                    part: (&placing.part).into(),
                    before: placing.before.map(|before| cook.phase(before).name.clone()),
                })
                .collect(),
            masses: account
                .iter()
                .flat_map(|account| &account.foods)
                .map(|food| FoodMass {
                    food: item(food.item),
                    start_kg: food.start.map(|weight| weight.mass.kg()),
                    end_kg: food.end.map(|weight| weight.mass.kg()),
                    about: food.start.into_iter().chain(food.end).any(|weight| weight.about),
                })
                .collect(),
            kit: phase.place.map(|kit| cook.kit(kit.value).name.value.clone()),
            becomes: phase.becomes.map(|becomes| item(becomes.item)),
            shape: Shape::new(sources, &phase.shape),
            setting: phase.setting.map(|setting| Setting {
                medium: setting.medium.into(),
                temperature_c: setting.temperature.celsius(),
                tolerance_k: setting.tolerance.map(|tolerance| tolerance.kelvin()),
                kept: setting.kept,
            }),
            lies_in: phase
                .lie_in
                .as_ref()
                .map(|lie_in| LiesIn { amount: (&lie_in.amount).into(), item: lie_in.item.map(item) }),
            moisture_fraction: phase.moisture.map(|share| share.value.fraction()),
            fan: phase.fan.map(|fan| fan.value),
            smoke: phase.smoke.as_ref().map(|smoke| Smoke { draw: smoke.draw.as_ref().map(draw) }),
            lasts: phase.lasts.into(),
            until: phase
                .until
                .iter()
                .flat_map(|until| &until.tests)
                .map(|test| (&test.value).into())
                .collect(),
            within_s: phase.within.map(|within| within.value.seconds()),
            checks: phase.checks.iter().map(|check| check.value.into()).collect(),
            uses: phase.uses.iter().map(draw).collect(),
            collects: phase
                .collects
                .iter()
                .map(|collect| Collect {
                    item: item(collect.item),
                    amount: (&collect.amount).into(),
                    from: collect.from.map(item),
                })
                .collect(),
            jobs: phase
                .jobs
                .iter()
                .map(|job| Job { call: job.call.into(), text: job.text.value.clone() })
                .collect(),
            hands: phase.hands.into(),
            orders: phase.orders.iter().map(|order| Order::new(cook, order)).collect(),
            fills_shelves: match fills {
                Some(cook::Room::Shelves(shelves)) => Some(*shelves),
                _ => None,
            },
            fills: match fills {
                Some(cook::Room::Amount(amount)) => Some(amount.into()),
                _ => None,
            },
            notes: phase.notes.iter().map(|note| note.value.clone()).collect(),
            place: Place::new(sources, phase.span),
        }
    }
}
