//! What lies between the food and the water, the fat or the plate.

use super::{quoted, range};
use crate::cook::{
    Cook, Cover, CoverKind, Item, Kit, Medium, Origin, Phase, Pieces, Placing, Setting, ShapeClauses,
};
use crate::findings::{Code, Finding};
use crate::say;
use crate::tables::{FoodState, Species};

/// Bags for cooking in water are made for water, so up to about its boiling point.
/// Common practice, no source.
const BAG_LIMIT_C: f64 = 105.0;

/// What holds food that stands in water, when the pieces are counted in it.
const VESSELS: [&str; 15] = [
    "bag",
    "beaker",
    "bottle",
    "box",
    "container",
    "glass",
    "jar",
    "mould",
    "pan",
    "pot",
    "pouch",
    "ramekin",
    "tin",
    "tray",
    "tub",
];

pub(super) fn check(cook: &Cook) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut around: Vec<Around> = cook.items.iter().map(Around::bought).collect();
    for phase in &cook.phases {
        for placing in &phase.placings {
            let now = around[placing.item.0 as usize].then(&phase.shape);
            match phase.becomes {
                // What several foods become is around none of them in particular: the last counts.
                Some(made) => around[made.item.0 as usize] = now,
                None => around[placing.item.0 as usize] = now,
            }
            let kit = phase.place.as_ref().map(|place| cook.kit(place.value));
            if let Some(kit) = kit.filter(|_| !phase.damaged) {
                let bare = bare_in_water(cook, phase, kit, placing, &now);
                findings.extend(bare.or_else(|| too_hot(cook, phase, kit, placing, &now)));
            }
        }
    }
    findings
}

/// What is around a food, and what its pieces are counted in.
#[derive(Clone, Copy, Default)]
struct Around<'a> {
    covers: &'a [Cover],
    pieces: Option<&'a Pieces>,
}

impl<'a> Around<'a> {
    fn bought(item: &'a Item) -> Self {
        match &item.origin {
            Origin::Food(stock) => Self::default().then(&stock.shape),
            _ => Self::default(),
        }
    }

    /// After these clauses. Any cover replaces all covers, and a new count starts uncovered.
    fn then(self, shape: &'a ShapeClauses) -> Self {
        let unpacked = shape.pieces.is_some() || !shape.covers.is_empty();
        Self {
            covers: if unpacked { &shape.covers } else { self.covers },
            pieces: shape.pieces.as_ref().or(self.pieces),
        }
    }

    fn has(&self, kinds: &[CoverKind]) -> Option<&'a Cover> {
        self.covers.iter().find(|cover| kinds.contains(&cover.kind))
    }

    fn in_vessel(&self) -> bool {
        self.pieces.is_some_and(|pieces| {
            let word = pieces.word.to_lowercase();
            VESSELS.iter().any(|vessel| word.split_whitespace().any(|part| part.starts_with(vessel)))
        })
    }
}

fn bare_in_water(
    cook: &Cook,
    phase: &Phase,
    kit: &Kit,
    placing: &Placing,
    around: &Around,
) -> Option<Finding> {
    kit.class.range(Medium::Water)?;
    let kept_dry = around.has(&[CoverKind::Bagged, CoverKind::VacuumBagged, CoverKind::Sealed]).is_some();
    if kept_dry || around.in_vessel() || phase.lie_in.is_some() {
        return None;
    }
    let item = cook.item(placing.item);
    let kind = item.kind.as_ref()?;
    let shelled = kind.value.species == Species::Egg && kind.value.state == FoodState::Intact;
    // Roots, leaves, pasta and shellfish are chilled in iced water as they are.
    let chilled_bare = kit.class.cold
        && matches!(
            kind.value.species,
            Species::Vegetable | Species::Grain | Species::Egg | Species::Shellfish
        );
    if shelled || chilled_bare {
        return None;
    }
    Some(
        Finding::new(
            Code::BagMissing,
            placing.span,
            say![
                quoted(&item.name),
                " lies in the water of ",
                quoted(&kit.name.value),
                " with nothing around it."
            ],
            say!["Put it in a bag first: add `vacuum bagged` or `bagged` before or in this phase."],
        )
        .in_phase(&phase.name)
        .about_food(&item.name),
    )
}

fn too_hot(cook: &Cook, phase: &Phase, kit: &Kit, placing: &Placing, around: &Around) -> Option<Finding> {
    let setting: Setting = phase.setting?;
    range(kit, setting.medium)?;
    let melts: &[CoverKind] = match setting.medium {
        Medium::Plate | Medium::Oil => &[CoverKind::Bagged, CoverKind::VacuumBagged],
        // There are bags for roasting; they are not vacuum bags.
        Medium::Air => &[CoverKind::VacuumBagged],
        Medium::Water | Medium::Steam | Medium::Liquid => return None,
    };
    let bag = around.has(melts).filter(|_| setting.temperature.celsius() > BAG_LIMIT_C)?;
    let food = &cook.item(placing.item).name;
    Some(
        Finding::new(
            Code::BagTooHot,
            setting.span,
            say![
                quoted(food),
                " is still in its bag at ",
                setting.medium.word(),
                " ",
                setting.temperature,
                "."
            ],
            say!["Take it out of the bag before: `uncovered` in this phase or the one before."],
        )
        .also(bag.span, say!["bagged here"])
        .in_phase(&phase.name)
        .about_food(food),
    )
}
