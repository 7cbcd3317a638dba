//! What the foods of a phase have to agree on, and what nothing ever uses.

use super::super::builder::Builder;
use super::Flow;
use crate::cook::{Origin, Part, Phase};
use crate::findings::{Code, Finding};
use crate::say;

impl Flow {
    pub(super) fn check_placings(&mut self, builder: &mut Builder<'_>, phase: &mut Phase) {
        for placing in &phase.placings {
            let item = self.item(placing.item);
            let name = item.name.clone();
            let stock = matches!(item.origin, Origin::Ingredient(_) | Origin::OnTap);
            // Said once; a name that is there twice may have meant the food.
            if stock && !builder.stands_in_a_bad_line(&name) {
                builder.forgive(item.span);
                builder.report(
                    Finding::new(
                        Code::IngredientPlaced,
                        placing.span,
                        say![format!("`{name}` is an ingredient, and an ingredient is only used, never placed.")],
                        say![format!("Write `use all {name}`, or declare it as `food {name} is …` if its temperature matters.")],
                    )
                    .in_phase(phase.name.clone()),
                );
            }
            let whole = matches!(placing.part, Part::Whole | Part::Rest);
            if !whole && phase.becomes.is_none() && phase.service.is_none() && !phase.damaged {
                builder.report(
                    Finding::new(
                        Code::PartUnnamed,
                        placing.span,
                        say![format!("A part of `{name}` goes its own way here and has no name of its own.")],
                        say![format!(
                            "Add `becomes first-{name}` or another name. `{name}` is then what is left."
                        )],
                    )
                    .in_phase(phase.name.clone()),
                );
            }
        }
    }

    /// With several foods side by side, a new shape could be that of any of them.
    pub(super) fn refuse_shape(&self, builder: &mut Builder<'_>, phase: &Phase) {
        let shape = &phase.shape;
        let spans = [
            shape.pieces.as_ref().map(|pieces| pieces.span),
            shape.amount.as_ref().map(|amount| amount.span),
            shape.thickness.map(|thickness| thickness.span),
            shape.depth.map(|depth| depth.span),
            shape.form.map(|form| form.span),
        ];
        if let Some(span) = spans.into_iter().flatten().next() {
            builder.report(
                Finding::new(
                    Code::FoodUnclear,
                    span,
                    say![
                        "There are several foods in this phase, and it is not said which one has this shape."
                    ],
                    say!["Give each its own phase, or say what they become together."],
                )
                .in_phase(phase.name.clone()),
            );
        }
    }

    /// Reports what is never used; `damped` says of a name whether a bad line may have used it.
    pub fn idle(&self, builder: &mut Builder<'_>) {
        for (item, state) in self.items.iter().zip(&self.states) {
            if state.touched || builder.stands_in_a_bad_line(&item.name) {
                continue;
            }
            let (message, remedy) = match item.origin {
                Origin::Made(_) => continue,
                Origin::Collected { .. } => (
                    say![format!("`{}` is collected and then forgotten.", item.name)],
                    say!["Use it, place it in a phase, or do not collect it."],
                ),
                _ => (
                    say![format!("`{}` is bought and never used.", item.name)],
                    say!["Use it or place it in a phase, or take the line away."],
                ),
            };
            builder.report(Finding::new(Code::NameIdle, item.span, message, remedy));
        }
    }
}
