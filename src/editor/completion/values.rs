//! What may stand in one place of a form.

use std::ops::Range;

use super::{Around, At, OfferKind, View, inside};
use crate::compile::can_be_allowed;
use crate::cook::{Allergen, Form as Shape, Item, Kit, Origin, Purpose};
use crate::editor::scope::{Scope, in_words};
use crate::findings::{self, Code};
use crate::quantity::KitchenMeasures;
use crate::resolve::ON_TAP;
use crate::syntax::forms::Slot;
use crate::tables::{FoodKind, RuleSets};

mod measures;

/// One of them.
#[derive(Debug, Clone, Default)]
pub struct Value {
    pub kind: OfferKind,
    pub text: String,
    pub blanks: Vec<Range<usize>>,
    pub detail: String,
    /// Empty where the form says enough.
    pub means: String,
    /// The rest of the form may follow at once.
    pub appends: bool,
    /// How many bytes of what is typed stay.
    pub skip: usize,
    pub is_near: bool,
}

impl Value {
    /// A word of the language.
    pub fn of_word(word: &str) -> Self {
        Self { text: word.to_owned(), appends: true, ..Self::default() }
    }

    fn new(kind: OfferKind, text: impl Into<String>, detail: impl Into<String>) -> Self {
        Self { kind, text: text.into(), detail: detail.into(), appends: true, ..Self::default() }
    }

    /// An example, for the cook to write over.
    fn example(text: String) -> Self {
        Self { blanks: vec![inside(&text, 0)], text, appends: true, ..Self::default() }
    }

    fn meaning(self, means: impl Into<String>) -> Self {
        Self { means: means.into(), ..self }
    }
}

/// What there is to choose from at one place of a file.
pub struct Values<'v> {
    view: &'v View<'v>,
    around: &'v Around<'v>,
    scope: Scope<'v>,
    /// What there is as the block begins.
    store: Vec<&'v Item>,
    /// The block that is being written.
    block: Range<usize>,
}

impl<'v> Values<'v> {
    pub fn new(view: &'v View<'v>, at: &At, around: &'v Around<'v>) -> Self {
        let block = at.block.as_ref().map_or(at.line.clone(), |block| block.range.clone());
        let scope = Scope::of(view);
        Self { view, around, scope, store: scope.store(block.start), block }
    }

    /// Those that what is typed may become.
    pub fn of(&self, slot: Slot, example: &str, typed: &str) -> Vec<Value> {
        let all = match slot {
            Slot::NewName | Slot::Text | Slot::Words if typed.is_empty() => {
                vec![Value::example(example.to_owned())]
            }
            Slot::NewName | Slot::Text | Slot::Words => Vec::new(),
            Slot::Kit => self.kit().map(|kit| name(&kit.name.value, &kit.class.name)).collect(),
            Slot::Food => self.names(|origin| !matches!(origin, Origin::Ingredient(_)), &[]),
            Slot::Stock => self.names(|_| true, &ON_TAP),
            Slot::Wrap => self.names(|origin| matches!(origin, Origin::Ingredient(_)), &["foil"]),
            Slot::Wood => self.names(|origin| matches!(origin, Origin::Ingredient(_)), &[]),
            Slot::Phase => self.phases(),
            Slot::KitClass => return self.classes(typed),
            Slot::FoodKind => return self.kinds(typed),
            Slot::Purpose => Purpose::WRITTEN.map(|purpose| row(purpose.words(), "", purpose.means())).into(),
            Slot::RuleSet => RuleSets::built_in().sets().map(|set| row(&set.id, &set.title, "")).collect(),
            Slot::Code => self.codes(),
            Slot::Allergen => Allergen::ALL.map(|(_, word)| row(word, "", "")).into(),
            Slot::Shape => Shape::ALL.map(|(_, word)| row(word, "", "")).into(),
            Slot::KitchenMeasures => KitchenMeasures::ALL.map(|(_, word)| row(word, "", "")).into(),
            Slot::File => self.files(),
            measure => return self.measures(measure, example, typed),
        };
        let fits = |value: &Value| begins(&value.text, typed);
        all.into_iter().filter(fits).collect()
    }

    /// What of the file most likely stands there; `None` where an example does as well.
    pub fn default(&self, slot: Slot, example: &str) -> Option<String> {
        match slot {
            Slot::Kit => {
                let like = |kit: &&Kit| kit.name.value == example || kit.class.base_name().ends_with(example);
                self.kit().find(like).map(|kit| kit.name.value.clone())
            }
            Slot::Food | Slot::Phase | Slot::Stock | Slot::Wrap | Slot::Wood => {
                let all = self.of(slot, example, "");
                let same = all.iter().find(|value| value.text == example || value.detail.contains(example));
                let first = all.first().filter(|_| matches!(slot, Slot::Food | Slot::Phase));
                same.or(first).map(|value| value.text.clone())
            }
            _ => None,
        }
    }

    /// Is there nothing in the file that could stand there?
    pub fn lacks(&self, slot: Slot) -> bool {
        matches!(slot, Slot::Food | Slot::Phase) && self.of(slot, "", "").is_empty()
    }

    /// Is there food of this name?
    pub fn knows(&self, name: &str) -> bool {
        self.of(Slot::Food, "", name).iter().any(|food| food.text.eq_ignore_ascii_case(name))
    }

    fn kit(&self) -> impl Iterator<Item = &'v Kit> + use<'v> {
        self.scope.kit.iter().filter(|kit| kit.class.holds_food)
    }

    /// What is in the store and comes from where is wanted, and what needs no line there.
    fn names(&self, wanted: fn(&Origin) -> bool, tap: &[&str]) -> Vec<Value> {
        let Some(cook) = self.scope.cook else { return Vec::new() };
        let items = self.store.iter().filter(|item| wanted(&item.origin));
        let items = items.map(|item| name(&item.name, &in_words(cook, item)));
        items.chain(tap.iter().map(|word| name(word, "needs no line of its own"))).collect()
    }

    fn phases(&self) -> Vec<Value> {
        let other =
            self.scope.phases().map(|(_, phase)| phase).filter(|phase| {
                phase.service.is_none() && !self.block.contains(&(phase.span.start as usize))
            });
        other.map(|phase| name(&phase.name, phase.purpose.words())).collect()
    }

    fn classes(&self, typed: &str) -> Vec<Value> {
        let classes = self.around.tables.kit.classes();
        let fits = classes.iter().filter(|class| is_meant(typed, &class.name, &class.also));
        fits.map(|class| {
            let is_near = !begins(&class.name, typed);
            Value { is_near, ..row(&class.name, &class.also.join(", "), &class.means) }
        })
        .collect()
    }

    fn kinds(&self, typed: &str) -> Vec<Value> {
        let foods = &self.around.tables.foods;
        let kinds = foods.kinds();
        let value = |kind: &FoodKind| {
            let detail = format!("{}, {}", kind.species.word(), kind.state.word());
            Value { is_near: !begins(&kind.name, typed), ..row(&kind.name, &detail, "") }
        };
        let mut fits: Vec<Value> = kinds
            .iter()
            .filter(|kind| is_meant(typed, &kind.name, &kind.also))
            .map(|kind| value(kind))
            .collect();
        fits.sort_by_key(|value| value.is_near);
        if fits.is_empty() {
            // Nothing begins so: the nearest, as a finding would offer them.
            fits = foods
                .suggest(typed)
                .into_iter()
                .filter_map(|name| Some(value(&*foods.find(name)?)))
                .collect();
        }
        fits
    }

    /// What is found in this block comes first.
    fn codes(&self) -> Vec<Value> {
        let here = |code: &Code| {
            self.view.compiled.findings.iter().any(|finding| {
                let start = finding.span.start as usize;
                finding.code == *code && finding.span.file == self.view.file && self.block.contains(&start)
            })
        };
        let mut codes: Vec<Code> =
            findings::ALL.iter().copied().filter(|code| can_be_allowed(*code)).collect();
        codes.sort_by_key(|code| !here(code));
        codes
            .into_iter()
            .map(|code| row(code.name(), code.explained().title, code.explained().checks))
            .collect()
    }

    fn files(&self) -> Vec<Value> {
        let quoted = self.around.files.iter().map(|file| format!("\"{file}\""));
        quoted.map(|file| Value::new(OfferKind::File, file, "")).collect()
    }
}

fn name(name: &str, detail: &str) -> Value {
    Value::new(OfferKind::Name, name, detail)
}

fn row(name: &str, detail: &str, means: &str) -> Value {
    Value::new(OfferKind::Row, name, detail).meaning(means)
}

/// Does this begin as it is typed?
fn begins(text: &str, typed: &str) -> bool {
    let folded = |text: &str| text.to_lowercase();
    folded(text).starts_with(&folded(typed))
}

/// Does each word that is typed begin one of the words of one of these names?
fn is_meant(typed: &str, name: &str, also: &[String]) -> bool {
    let typed = typed.to_lowercase();
    let meant = |name: &str| {
        let name = name.to_lowercase();
        typed.split_whitespace().all(|start| name.split([' ', '-']).any(|word| word.starts_with(start)))
    };
    meant(name) || also.iter().any(|name| meant(name))
}
