//! A kitchen as the players of timing tests see it: what the language says of kit, hands, sleep and looks, and
//! nothing of how a plan is made. All times are minutes.

/// Who decides how long a phase lasts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Who {
    Fixed,
    Cook,
    Nature,
}

impl Who {
    /// The clause that says so.
    pub fn clause(self, low: i64, high: i64) -> String {
        match self {
            Self::Fixed => format!("  for {low} min\n"),
            Self::Cook => format!("  for {low} min to {high} min\n"),
            Self::Nature => format!("  takes {low} min to {high} min\n"),
        }
    }
}

/// What the clauses of a piece of kit say.
#[derive(Debug, Clone, Copy)]
pub struct Kit {
    pub heats: i64,
    pub cools: i64,
    pub shelves: Option<i64>,
    pub programmable: bool,
}

impl Kit {
    pub fn clauses(self) -> String {
        let shelves = self.shelves.map_or(String::new(), |shelves| format!("  shelves {shelves}\n"));
        let programmable = if self.programmable { "  programmable\n" } else { "" };
        format!("  preheat {} min\n  cools down {} min\n{shelves}{programmable}", self.heats, self.cools)
    }

    /// How long it takes from one setting to another.
    pub fn change(self, from: i64, to: i64) -> i64 {
        match to - from {
            0 => 0,
            more if more > 0 => self.heats,
            _ => self.cools,
        }
    }
}

/// How an end that somebody has to see is seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Seen {
    /// It ends by itself.
    Not,
    /// Somebody is there from the shortest length on.
    Watched,
    /// At looks, so often, which are a duty all along.
    LookIn(i64),
    /// When somebody is at it anyway, so often; that sleeps until it may be done.
    Every(i64),
}

impl Seen {
    pub fn clause(self) -> String {
        match self {
            Self::Not => String::new(),
            Self::Watched => "  until \"soft\"\n".into(),
            Self::LookIn(every) => format!("  until \"soft\"\n  look in every {every} min\n"),
            Self::Every(every) => format!("  until \"soft\"\n  every {every} min do \"Turn them.\"\n"),
        }
    }

    /// The lengths that nature has between these two, of which a look sees no others.
    pub fn lengths(self, low: i64, high: i64) -> Vec<i64> {
        match self {
            Self::Not | Self::Watched => (low..=high).collect(),
            Self::LookIn(every) | Self::Every(every) => {
                (low..=high).filter(|length| length % every == 0 || *length == high).collect()
            }
        }
    }

    /// The minutes after the start at which somebody has to be awake if it lasts so long and may end from `low` on.
    pub fn awake(self, low: i64, length: i64) -> Vec<i64> {
        match self {
            Self::Not => Vec::new(),
            Self::Watched if low == length => vec![length],
            Self::Watched => (low..length).collect(),
            Self::LookIn(every) => (every..length).step_by(every as usize).chain([length]).collect(),
            Self::Every(every) => {
                (every..length).step_by(every as usize).filter(|at| *at >= low).chain([length]).collect()
            }
        }
    }
}

/// Food in a piece of kit.
#[derive(Debug, Clone, Copy)]
pub struct Use {
    pub kit: usize,
    pub start: i64,
    pub end: i64,
    pub air: i64,
    pub shelves: i64,
}

/// What is wrong with the kit; nothing where it holds all that is in it and was at each setting in time.
pub fn overfull(kit: &[Kit], uses: &[Use]) -> Option<String> {
    uses.iter().find_map(|one| {
        let Use { kit: n, start, end, air, .. } = *one;
        let beside = || uses.iter().filter(|other| other.kit == n);
        let there = beside().filter(|other| other.start <= start && start < other.end);
        let full: i64 = there.map(|other| other.shelves).sum();
        if kit[n].shelves.is_some_and(|shelves| full > shelves) {
            return Some(format!("{full} shelves of kit {n} at {start}"));
        }
        beside().filter(|other| other.air != air).find_map(|other| {
            if other.start < end && start < other.end {
                return Some(format!("kit {n} at two settings at {start}"));
            }
            let gap = start - other.end;
            (gap >= 0 && gap < kit[n].change(other.air, air))
                .then(|| format!("kit {n} has {gap} min to change"))
        })
    })
}
