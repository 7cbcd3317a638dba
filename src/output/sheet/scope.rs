//! What a page is about: all that is cooked, one dish, or one place of work.

use crate::compile::CompiledCook;
use crate::cook::{KitId, Phase};

/// Which phases it takes in.
#[derive(Debug, Clone, PartialEq)]
pub struct Scope<'s> {
    title: &'s str,
    cook: Option<&'s str>,
    /// The kit; `Some(None)` is the table, where food is served.
    place: Option<Option<KitId>>,
    phases: Vec<&'s str>,
    /// Tells the ids of one page from those of another.
    key: String,
    /// The rest of the sheet comes after it.
    followed: bool,
}

impl<'s> Scope<'s> {
    pub fn all(title: &'s str) -> Self {
        Self { title, cook: None, place: None, phases: Vec::new(), key: String::new(), followed: true }
    }

    /// The same with nothing to come.
    pub fn alone(title: &'s str) -> Self {
        Self { followed: false, ..Self::all(title) }
    }

    /// One for each dish of a menu, or for each place of work of one cook.
    pub fn stations(cooks: &[CompiledCook<'s>]) -> Vec<Self> {
        match cooks {
            [only] => Self::places(only),
            dishes => Self::dishes(dishes),
        }
    }

    /// Those of a menu.
    pub fn dishes(cooks: &[CompiledCook<'s>]) -> Vec<Self> {
        cooks.iter().enumerate().map(|(n, worked)| Self::dish(n, worked)).collect()
    }

    fn dish(n: usize, worked: &CompiledCook<'s>) -> Self {
        let title = &worked.cook.title.value;
        Self {
            title,
            cook: Some(title),
            place: None,
            phases: Vec::new(),
            key: format!("dish{}-", n + 1),
            followed: false,
        }
    }

    /// In the order in which the food comes to them.
    fn places(worked: &CompiledCook<'s>) -> Vec<Self> {
        let cook = worked.cook;
        let mut scopes: Vec<Self> = Vec::new();
        for phase in &cook.phases {
            let place = place_of(phase);
            let known = scopes.iter().position(|scope| scope.place == Some(place));
            let at = known.unwrap_or_else(|| {
                let title = place.map_or("At the table", |kit| cook.kit(kit).name.value.as_str());
                let key = format!("place{}-", scopes.len() + 1);
                scopes.push(Self {
                    title,
                    cook: None,
                    place: Some(place),
                    phases: Vec::new(),
                    key,
                    followed: false,
                });
                scopes.len() - 1
            });
            scopes[at].phases.push(&phase.name);
        }
        scopes
    }

    pub fn title(&self) -> &'s str {
        self.title
    }

    /// It is one place of work of a cook.
    pub fn is_place(&self) -> bool {
        self.place.is_some()
    }

    /// It is not all that is cooked.
    pub fn is_part(&self) -> bool {
        self.cook.is_some() || self.is_place()
    }

    /// The rest of the sheet comes after it.
    pub fn is_followed(&self) -> bool {
        self.followed
    }

    pub fn holds_cook(&self, cook: &str) -> bool {
        self.cook.is_none_or(|own| own == cook)
    }

    pub fn holds(&self, cook: &str, phase: &str) -> bool {
        self.holds_cook(cook) && (self.place.is_none() || self.phases.contains(&phase))
    }

    pub fn holds_kit(&self, kit: KitId) -> bool {
        self.place.is_none_or(|place| place == Some(kit))
    }

    /// An id that no other page has.
    pub fn id(&self, what: &str, n: usize) -> String {
        format!("{}{what}{}", self.key, n + 1)
    }
}

fn place_of(phase: &Phase) -> Option<KitId> {
    phase.place.as_ref().map(|place| place.value)
}
