//! Clauses that start with a name or a figure, or with a small word.

use super::Slot::{Amount, Content, Food, Kit, Number};
use super::{Form, clause};

pub const FORMS: &[Form] = &[
    clause(
        "",
        "[shoulder] in [oven]",
        &[Food, Kit],
        &["phase"],
        "Which food this phase is about, and where it is.",
    ),
    clause(
        "",
        "[shoulder] on [bench]",
        &[Food, Kit],
        &["phase"],
        "Which food this phase is about, and where it is.",
    ),
    clause(
        "",
        "half of [stew] in [fridge]",
        &[Food, Kit],
        &["phase"],
        "A half goes its own way. It needs a name of its own (`becomes`); the old name is what is left.",
    ),
    clause(
        "",
        "the rest of [ham] in [fridge]",
        &[Food, Kit],
        &["phase"],
        "What is left of the food, and where it is.",
    ),
    clause(
        "",
        "in [oven]",
        &[Kit],
        &["phase", "serve"],
        "Where it is: a phase that is made from stock alone, or a meal that is kept in its kit.",
    ),
    clause(
        "",
        "[6 kg]",
        &[Content],
        &["food", "phase"],
        "How much there is. In a phase that makes a food: what all of it weighs at the end.",
    ),
    clause(
        "",
        "[2 pieces] of [3.2 kg]",
        &[Amount, Content],
        &["food", "phase"],
        "How many there are and how much each of them weighs or holds.",
    ),
    clause("", "[2] people", &[Number], &["crew"], "How many people cook."),
];
