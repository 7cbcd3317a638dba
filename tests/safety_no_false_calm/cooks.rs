//! A cook as a test has it in hand, and as text.

use std::fmt::Write;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    Cook,
    Reheat,
    HotHold,
    Cool,
    ColdHold,
    Rest,
    Prep,
}

impl Purpose {
    fn words(self) -> &'static str {
        match self {
            Self::Cook => "cook",
            Self::Reheat => "reheat",
            Self::HotHold => "hot hold",
            Self::Cool => "cool",
            Self::ColdHold => "cold hold",
            Self::Rest => "rest",
            Self::Prep => "prep",
        }
    }

    pub fn heats(self) -> bool {
        matches!(self, Self::Cook | Self::Reheat | Self::HotHold)
    }

    pub fn chills(self) -> bool {
        matches!(self, Self::Cool | Self::ColdHold)
    }
}

/// Minutes, or °C and minutes.
#[derive(Debug, Clone, Copy)]
pub enum End {
    For(i64),
    /// The cook chooses.
    Choice(i64, i64),
    Takes(i64, i64),
    Until(i64),
    UntilWithin(i64, i64),
}

/// Which end of every choice that the cook has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Choice {
    Left,
    Least,
    Most,
}

#[derive(Debug, Clone)]
pub struct Step {
    pub purpose: Purpose,
    pub kit: &'static str,
    pub setting: Option<(i64, Option<i64>)>,
    /// A cover, other pieces, a new name.
    pub clauses: Vec<String>,
    pub end: End,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flesh {
    /// A whole piece that nothing was stuck into.
    Whole,
    /// Injected, tenderised or minced.
    Opened,
    /// A vegetable, or something cooked before: no rule of the way up is about it.
    None,
}

#[derive(Debug, Clone)]
pub struct Written {
    pub rules: &'static str,
    pub food: Vec<String>,
    pub flesh: Flesh,
    /// Beef, pork or lamb.
    pub red: bool,
    /// The phase from which on it is another food, how that is written, and what joins it.
    pub turns: Option<(usize, &'static str, &'static str)>,
    pub steps: Vec<Step>,
}
impl Written {
    pub fn leaves_a_choice(&self) -> bool {
        self.steps.iter().any(|step| matches!(step.end, End::Choice(..)))
    }

    /// The lowest setting of a hot hold, °C.
    pub fn coolest_hold(&self) -> f64 {
        let holds = self.steps.iter().filter(|step| step.purpose == Purpose::HotHold);
        let settings = holds.filter_map(|step| step.setting.map(|(at, _)| at as f64));
        settings.fold(f64::INFINITY, f64::min)
    }

    /// The longest that cooling is allowed to take, minutes.
    pub fn longest_within(&self) -> i64 {
        let within = |step: &Step| match step.end {
            End::UntilWithin(_, within) => within,
            _ => 0,
        };
        self.steps.iter().map(within).max().unwrap_or(0)
    }

    pub fn text(&self, choice: Choice) -> String {
        let mut text = format!("cook \"Draw\"\n  rules {}\n\ncrew\n  2 people\n\n", self.rules);
        let mut kits: Vec<_> = self.steps.iter().map(|step| step.kit).collect();
        kits.sort_unstable();
        kits.dedup();
        for kit in kits {
            let _ = writeln!(text, "kit our-{} is {kit}", kit.replace(' ', "-"));
        }
        text += "kit probe is probe thermometer\n\n";
        let _ = writeln!(text, "food joint is {}", self.food.join("\n  "));
        if self.turns.is_some_and(|(.., joined)| !joined.is_empty()) {
            text += "food beans is cooked beans\n  1 kg\n  starts at 3 °C\n";
        }
        let mut name = "joint".to_string();
        for (nth, step) in self.steps.iter().enumerate() {
            let turns = self.turns.filter(|(at, ..)| *at == nth);
            let (becomes, joined) = turns.map_or(("", ""), |(_, becomes, joined)| (becomes, joined));
            text += &step.text(nth, &format!("{name}{joined}"), becomes, choice);
            if turns.is_some() {
                name = "supper".to_string();
            }
        }
        text + "\nserve " + &name + "\n  at 19:00\n"
    }
}

impl Step {
    fn text(&self, nth: usize, foods: &str, becomes: &str, choice: Choice) -> String {
        let kit = self.kit.replace(' ', "-");
        let mut text = format!("\nphase p{nth} is {}\n  {foods} in our-{kit}\n", self.purpose.words());
        if !becomes.is_empty() {
            let _ = writeln!(text, "  {becomes}");
        }
        if let Some((at, off)) = self.setting {
            let off = off.map_or(String::new(), |off| format!(" ± {off} °C"));
            let _ = writeln!(text, "  {} {at} °C{off}", medium(self.kit));
        }
        for clause in &self.clauses {
            let _ = writeln!(text, "  {clause}");
        }
        let end = match (self.end, choice) {
            (End::For(minutes), _)
            | (End::Choice(minutes, _), Choice::Least)
            | (End::Choice(_, minutes), Choice::Most) => format!("for {minutes} min"),
            (End::Choice(low, high), Choice::Left) => format!("for {low} min to {high} min"),
            (End::Takes(low, high), _) => format!("takes {low} min to {high} min"),
            (End::Until(core), _) => format!("until core {core} °C"),
            (End::UntilWithin(core, within), _) => format!("until core {core} °C, within {within} min"),
        };
        text + "  " + &end + "\n"
    }
}

fn medium(kit: &str) -> &'static str {
    match kit {
        "water bath" => "water",
        "hob" | "slow cooker" => "liquid",
        _ => "air",
    }
}
