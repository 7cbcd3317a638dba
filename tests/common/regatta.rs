//! The supper after the long-distance regatta: twelve dishes, three people, and as much more of the same
//! as a test asks for. Figures invented.

/// A dish: its title, its food, and its phases: name and purpose, and their lines.
type Recipe = (&'static str, &'static str, &'static [(&'static str, &'static str)]);

const KIT: &str = "kit bench is bench\nkit hob is hob\nkit chest is insulated box\nkit fridge is fridge\n  air 3 °C\n\
    kit cabinet is smoking cabinet\n  preheat 30 min\n  shelves 4\n  programmable\n\
    kit oven is fan oven\n  preheat 15 min\n  cools down 20 min\n  shelves 3\n\
    kit range is oven\n  preheat 20 min\n  cools down 30 min\n  shelves 2\n";

const RECIPES: [Recipe; 12] = [
    (
        "Smoked shoulder",
        "pork shoulder",
        &[
            ("trim is prep", "on bench, takes 20 min to 30 min"),
            ("smoke is cook", "in cabinet, air 110 °C, fills 2 shelves, takes 9 h to 11 h"),
            ("wait is rest", "in chest, for 1 h to 9 h"),
            ("pull is prep", "on bench, takes 15 min to 25 min"),
            ("keep is hot hold", "in cabinet, air 85 °C, for up to 90 min"),
        ],
    ),
    (
        "Baked beans",
        "cooked haricot beans",
        &[
            ("mix is prep", "on bench, takes 10 min to 20 min"),
            ("bake is cook", "in oven, air 150 °C, fills 1 shelf, takes 2 h to 3 h"),
            ("keep is hot hold", "on hob, liquid 85 °C, for up to 6 h"),
        ],
    ),
    (
        "Roast celeriac",
        "celeriac",
        &[
            ("scrub is prep", "on bench, takes 20 min to 30 min"),
            ("roast is cook", "in oven, air 180 °C, fills 2 shelves, takes 2 h to 2 h 45 min"),
            ("stand is rest", "in chest, for 10 min to 2 h"),
            ("carve is prep", "on bench, takes 10 min to 15 min"),
        ],
    ),
    (
        "Jacket potatoes",
        "potato",
        &[
            ("wash is prep", "on bench, takes 10 min to 15 min"),
            ("bake is cook", "in range, air 200 °C, fills 1 shelf, takes 60 min to 80 min"),
            ("keep is rest", "in chest, for 5 min to 2 h"),
        ],
    ),
    (
        "Glazed carrots",
        "carrot",
        &[
            ("peel is prep", "on bench, takes 15 min to 25 min"),
            ("glaze is cook", "on hob, liquid 95 °C, takes 15 min to 25 min"),
            ("keep is hot hold", "on hob, liquid 80 °C, for up to 90 min"),
        ],
    ),
    (
        "Braised cabbage",
        "cabbage",
        &[
            ("shred is prep", "on bench, takes 15 min to 20 min"),
            ("braise is cook", "in range, air 160 °C, fills 1 shelf, takes 2 h to 2 h 30 min"),
            ("keep is rest", "in chest, for up to 4 h"),
        ],
    ),
    (
        "Onion gravy",
        "onion",
        &[
            ("slice is prep", "on bench, takes 15 min to 20 min"),
            ("simmer is cook", "on hob, liquid 98 °C, takes 40 min to 60 min"),
            ("keep is hot hold", "on hob, liquid 85 °C, for up to 3 h"),
        ],
    ),
    (
        "Lentil soup",
        "cooked lentils",
        &[
            ("chop is prep", "on bench, takes 15 min to 20 min"),
            ("simmer is cook", "on hob, liquid 98 °C, takes 60 min to 80 min"),
            ("keep is hot hold", "on hob, liquid 85 °C, for up to 4 h"),
        ],
    ),
    (
        "Slaw",
        "cabbage",
        &[
            ("grate is prep", "on bench, takes 20 min to 30 min"),
            ("chill is cold hold", "in fridge, for 1 h to 8 h"),
        ],
    ),
    (
        "Rice salad",
        "cooked rice",
        &[
            ("fold is prep", "on bench, takes 10 min to 20 min"),
            ("chill is cold hold", "in fridge, for 2 h to 10 h"),
        ],
    ),
    (
        "Bread pudding",
        "white bread",
        &[
            ("soak is prep", "on bench, takes 15 min to 20 min"),
            ("bake is cook", "in range, air 160 °C, fills 1 shelf, takes 50 min to 60 min"),
            ("stand is rest", "on bench, for 10 min to 3 h"),
        ],
    ),
    (
        "Poached pears",
        "pear",
        &[
            ("peel is prep", "on bench, takes 20 min to 30 min"),
            ("poach is cook", "on hob, liquid 90 °C, takes 30 min to 45 min"),
            ("chill is cool", "in fridge, for 1 h to 10 h"),
        ],
    ),
];

/// A menu that cannot be: so many dishes, and what is written otherwise.
#[derive(Debug, Clone, Copy)]
pub struct Impossible {
    pub name: &'static str,
    pub dishes: usize,
    from: &'static str,
    to: &'static str,
}

/// Too few people, nothing that waits for the oven, a sleep that goes on until noon.
pub const IMPOSSIBLE: [Impossible; 4] = [
    Impossible { name: "twelve dishes, one person", dishes: 12, from: "3 people", to: "1 person" },
    Impossible {
        name: "twelve dishes at once",
        dishes: 12,
        from: "up to 30 min late",
        to: "up to 5 min late",
    },
    Impossible { name: "twelve dishes, asleep till noon", dishes: 12, from: "to 06:30", to: "to 12:00" },
    Impossible { name: "thirty dishes, five people", dishes: 30, from: "10 people", to: "5 people" },
];

impl std::fmt::Display for Impossible {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.name)
    }
}

impl Impossible {
    pub fn files(&self) -> Vec<(String, String)> {
        let changed = |(name, text): (String, String)| (name, text.replace(self.from, self.to));
        files(self.dishes).into_iter().map(changed).collect()
    }
}

/// The menu and its dishes as files. Beyond a dozen the same comes again, with kit of its own, and there
/// is one person for every three dishes.
pub fn files(dishes: usize) -> Vec<(String, String)> {
    let people = if dishes <= RECIPES.len() { 3 } else { dishes.div_ceil(3) };
    let mut menu = format!(
        "menu \"Supper after the regatta\"\n  serve at 2026-12-12 18:30 in UTC\n  rules us-food-code\ncrew\n  \
         {people} people\n  asleep 23:00 to 06:30\n"
    );
    let mut files = Vec::new();
    for n in 0..dishes {
        let dozen = n / RECIPES.len();
        let (title, food, phases) = RECIPES[n % RECIPES.len()];
        let name = |kit: &str| if dozen == 0 { kit.to_owned() } else { format!("{kit}-{}", dozen + 1) };
        let mut text = format!(
            "cook \"{}\"\n  rules us-food-code\n{KIT}food piece is {food}\n  2 kg\n  thickness 4 cm\n",
            name(title)
        );
        for (head, lines) in phases {
            text += &format!("phase {head}\n  piece {}\n", lines.replace(", ", "\n  "));
        }
        text += "serve piece\n  at 2026-12-12 18:30 in UTC, up to 30 min late\n";
        for kit in ["cabinet", "oven", "range"] {
            text = text.replace(&format!(" in {kit}\n"), &format!(" in {}\n", name(kit)));
            text = text.replace(&format!("kit {kit} is"), &format!("kit {} is", name(kit)));
        }
        menu += &format!("dish \"dish-{n}.dwell\"\n");
        files.push((format!("dish-{n}.dwell"), text));
    }
    files.insert(0, ("menu.dwell".into(), menu));
    files
}
