//! Clauses that start with a name or a figure, or with a small word.

use super::Form;
use super::Slot::{Amount, Content, Food, Kit, Number};

pub const FORMS: &[Form] = &[
    Form {
        word: "",
        pattern: "[shoulder] in [oven]",
        slots: &[Food, Kit],
        blocks: &["phase"],
        means: "Which food this phase is about, and where it is.",
    },
    Form {
        word: "",
        pattern: "[shoulder] on [bench]",
        slots: &[Food, Kit],
        blocks: &["phase"],
        means: "Which food this phase is about, and where it is.",
    },
    Form {
        word: "",
        pattern: "half of [stew] in [fridge]",
        slots: &[Food, Kit],
        blocks: &["phase"],
        means: "A half goes its own way. It needs a name of its own (`becomes`); the old name is what is left.",
    },
    Form {
        word: "",
        pattern: "the rest of [ham] in [fridge]",
        slots: &[Food, Kit],
        blocks: &["phase"],
        means: "What is left of the food, and where it is.",
    },
    Form {
        word: "",
        pattern: "in [oven]",
        slots: &[Kit],
        blocks: &["phase", "serve"],
        means: "Where it is: a phase that is made from stock alone, or a meal that is kept in its kit.",
    },
    Form {
        word: "",
        pattern: "[6 kg]",
        slots: &[Content],
        blocks: &["food", "phase"],
        means: "How much there is. In a phase that makes a food: what all of it weighs at the end.",
    },
    Form {
        word: "",
        pattern: "[2 pieces] of [3.2 kg]",
        slots: &[Amount, Content],
        blocks: &["food", "phase"],
        means: "How many there are and how much each of them weighs or holds.",
    },
    Form {
        word: "",
        pattern: "[2] people",
        slots: &[Number],
        blocks: &["crew"],
        means: "How many people cook.",
    },
];
