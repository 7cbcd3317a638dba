//! What lies between the food and the water, the fat or the plate.

use super::{placed, quoted, range};
use crate::cook::{Cook, Cover, CoverKind, Kit, Medium, Origin, Phase, PhaseId, Pieces, Placing, Setting};
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
    placed(cook)
        .filter(|(_, phase, _)| !phase.damaged)
        .flat_map(|(id, phase, kit)| {
            phase.placings.iter().filter_map(move |placing| {
                let around = Around::of(cook, id, placing);
                bare_in_water(cook, phase, kit, placing, &around)
                    .or_else(|| too_hot(cook, phase, kit, placing, &around))
            })
        })
        .collect()
}

/// What is around a food in a phase.
struct Around<'a> {
    covers: &'a [Cover],
    pieces: Option<&'a Pieces>,
}

impl<'a> Around<'a> {
    /// The covers and the pieces last named before or in the phase. A new count starts uncovered.
    fn of(cook: &'a Cook, id: PhaseId, placing: &Placing) -> Self {
        let mut around = Self { covers: &[], pieces: None };
        let (mut at, mut item, mut before) = (id, placing.item, placing.before);
        loop {
            let phase = cook.phase(at);
            if around.take(&phase.shape.covers, phase.shape.pieces.as_ref()) {
                return around;
            }
            match before {
                // Only ever back, so that this ends.
                Some(earlier) if earlier < at => {
                    at = earlier;
                    let placings = &cook.phase(at).placings;
                    let Some(parent) = placings.iter().find(|p| p.item == item).or(placings.first()) else {
                        return around;
                    };
                    (item, before) = (parent.item, parent.before);
                }
                _ => break,
            }
        }
        if let Origin::Food(stock) = &cook.item(item).origin {
            around.take(&stock.shape.covers, stock.shape.pieces.as_ref());
        }
        around
    }

    /// `true` once nothing earlier matters.
    fn take(&mut self, covers: &'a [Cover], pieces: Option<&'a Pieces>) -> bool {
        if self.covers.is_empty() {
            self.covers = covers;
        }
        self.pieces = self.pieces.or(pieces);
        self.pieces.is_some()
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
