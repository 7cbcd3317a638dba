//! What people write from habit, and what to type instead.
//!
//! Each habit looks at a piece of a line that cannot be read. Where it can, it mends the piece, reads
//! the result to be sure, and offers just that.

use super::reader::reads_as_clause;

/// Longer pieces are no slip of the pen, and trying to mend them would take its time.
const LONGEST: usize = 160;

/// Words for heating, whose setting is what the language wants to know.
const HEATING: &str = "\
    bake boil braise broil cook fry grill heat oven poach roast set simmer smoke steam temp \
    temperature turn warm";

/// Words for work, which belongs in `do "…"`.
const WORK: &str = "\
    add baste carve check chill chop cool cover cut drain flip fold let mix place pour pull put \
    remove rest rinse rub season shred slice sprinkle stir take toss trim turn wash wrap";

/// Words for what goes into a food and has to come from the store.
const ADDING: &str = "add drizzle fold mix pour rub sprinkle stir";

/// Words that can be left out where the rest then reads.
const IDLE: &str = "\
    a about and approximately around at bake be cook heat hold internal is keep leave let now of \
    place poach put rest roast roughly set simmer smoke temp temperature the then to";

const NUMBERS: &str = "zero one two three four five six seven eight nine ten eleven twelve";

/// Is `word` one of a list of words?
fn listed(list: &str, word: &str) -> bool {
    list.split(' ').any(|known| known == word)
}

const DAYS: &[&str] = &["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

/// Gas marks 1 to 9 in °C (common practice, no source; makers differ by 10 °C).
const GAS_MARKS: [u32; 9] = [140, 150, 160, 180, 190, 200, 220, 230, 240];

/// A piece of a line, and its words.
struct Piece<'p> {
    text: &'p str,
    words: Vec<&'p str>,
    lower: Vec<String>,
}

impl Piece<'_> {
    fn first(&self) -> &str {
        self.word(0)
    }

    /// In lower case; nothing past the end.
    fn word(&self, nth: usize) -> &str {
        self.lower.get(nth).map_or("", String::as_str)
    }

    fn rest(&self, from: usize) -> String {
        self.words.get(from..).unwrap_or(&[]).join(" ")
    }

    /// The first word that starts with a digit.
    fn figure(&self) -> Option<usize> {
        self.words.iter().position(|word| word.starts_with(|c: char| c.is_ascii_digit()))
    }

    /// The figure and what follows it; both scales where it has no unit.
    fn temperature(&self) -> Option<(String, String)> {
        let at = self.figure()?;
        let typed = self.rest(at);
        if typed.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.') {
            return Some((format!("{typed} °C"), format!("{typed} °F")));
        }
        Some((typed.clone(), typed))
    }
}

type Habit = fn(&Piece<'_>) -> Option<String>;

/// In the order in which they are tried: what is sure of itself first.
const HABITS: &[Habit] = &[
    sign_first,
    gas_mark,
    about,
    overnight,
    taste,
    heating,
    time_of_day,
    until,
    quotes,
    every,
    vague,
    of_missing,
    drawing,
    joined,
    spelt_out,
    idle_word,
    two_facts,
    dimension,
    hyphen,
    between,
    starts,
    title,
    work,
];

/// The remedy for a piece of a line that cannot be read, where it is a common one.
pub fn remedy(text: &str) -> Option<String> {
    if text.len() > LONGEST {
        return None;
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let lower = words.iter().map(|word| word.to_lowercase()).collect();
    let piece = Piece { text, words, lower };
    HABITS.iter().find_map(|habit| habit(&piece))
}

/// `fixed`, if it reads.
fn reading(fixed: String) -> Option<String> {
    reads_as_clause(&fixed).then_some(fixed)
}

/// `# remark`, `- bread in oven`, `1. bread in oven`.
fn sign_first(piece: &Piece<'_>) -> Option<String> {
    let sign = piece.first().trim_end_matches(['.', ')']);
    if piece.text.starts_with(['#', ';']) {
        let remark = piece.text.trim_start_matches(['#', ';']).trim();
        return Some(format!("A private remark starts with two strokes: `// {remark}`."));
    }
    let number = sign != piece.first() && sign.bytes().all(|byte| byte.is_ascii_digit());
    if !(number || matches!(sign, "-" | "*" | "•" | "–")) {
        return None;
    }
    let rest = reading(piece.rest(1))?;
    Some(format!("Lines have no sign before them. Write `{rest}`."))
}

fn gas_mark(piece: &Piece<'_>) -> Option<String> {
    if piece.first() != "gas" {
        return None;
    }
    let mark: usize = piece.lower.last()?.parse().ok()?;
    let celsius = GAS_MARKS.get(mark.checked_sub(1)?)?;
    Some(format!("Gas mark {mark} is about {celsius} °C: write `air {celsius} °C`."))
}

/// `takes about 2 hours`, `for about 2 hours`.
fn about(piece: &Piece<'_>) -> Option<String> {
    if !matches!(piece.word(1), "about" | "around" | "approximately" | "roughly" | "ca" | "circa") {
        return None;
    }
    let typed = piece.rest(2);
    match piece.first() {
        "takes" => {
            Some("Write the shortest and the longest you have seen: `takes 1 h 30 min to 2 h`.".into())
        }
        "for" => Some(format!(
            "`for` is a time that you set, so it is exact: `for {typed}`. If the food or the work decides, write the shortest and the longest: `takes 1 h 30 min to 2 h`."
        )),
        _ => None,
    }
}

fn overnight(piece: &Piece<'_>) -> Option<String> {
    piece
        .lower
        .iter()
        .any(|word| word == "overnight")
        .then(|| "Say how long the night may be: `for 8 h to 12 h`.".into())
}

/// `salt to taste` in a phase.
fn taste(piece: &Piece<'_>) -> Option<String> {
    let [name, "to", "taste"] = piece.lower.iter().map(String::as_str).collect::<Vec<_>>()[..] else {
        return None;
    };
    Some(format!(
        "Write `use all {name}` here, and where it is bought that the amount does not matter: `ingredient {name} is {name}, to taste`."
    ))
}

/// `bake at 180`, `oven to 180 °C`, `preheat oven to 180`.
fn heating(piece: &Piece<'_>) -> Option<String> {
    let preheat = piece.first() == "preheat" && piece.figure() != Some(1);
    let heating = listed(HEATING, piece.first()) && !piece.text.contains('"');
    let bare = piece.figure() == Some(1);
    if !(preheat || heating) || !bare && reading(piece.rest(1)).is_some() {
        return None;
    }
    let (celsius, fahrenheit) = piece.temperature()?;
    reading(format!("air {celsius}"))?;
    let setting = if celsius == fahrenheit {
        format!("`air {celsius}`")
    } else {
        format!("`air {celsius}` or `air {fahrenheit}`")
    };
    Some(if preheat {
        format!("Write the setting, {setting}. When to switch it on is worked out for you.")
    } else {
        format!(
            "Write the setting and what it is the temperature of: {setting}; in a bath `water`, in a pot `liquid`."
        )
    })
}

/// `at half past six`, `at 1830`, `at Saterday 18:30`, `at 31/12/2026 18:30`.
fn time_of_day(piece: &Piece<'_>) -> Option<String> {
    if piece.first() != "at" || piece.lower.iter().any(|word| word == "do") {
        return None;
    }
    let typed = piece.word(1);
    let near = DAYS.iter().find(|day| strsim::osa_distance(&day.to_lowercase(), typed) <= 2);
    if let Some(fixed) = near.and_then(|day| reading(format!("at {day} {}", piece.rest(2)))) {
        return Some(format!("Did you mean `{fixed}`?"));
    }
    if typed.contains('/') || typed.matches(['.', '-']).count() == 2 {
        return Some("Write the date as year, month and day: `at 2026-12-31 18:30`.".into());
    }
    let digits = piece.words.get(1).filter(|word| word.bytes().all(|byte| byte.is_ascii_digit()));
    let clock = digits.filter(|_| piece.words.len() == 2).and_then(|digits| {
        let (hour, minute) = digits.split_at_checked(digits.len().saturating_sub(2))?;
        reading(if digits.len() < 3 { format!("at {digits}:00") } else { format!("at {hour}:{minute}") })
    });
    Some(match clock {
        Some(clock) => format!("Write hours and minutes with a colon between: `{clock}`."),
        None => "Write hours and minutes of 24 hours with a colon between: `at 18:30`.".into(),
    })
}

/// `until 84`, `until tender`.
fn until(piece: &Piece<'_>) -> Option<String> {
    if piece.first() != "until" || piece.text.contains('"') {
        return None;
    }
    if let Some((celsius, fahrenheit)) = piece.temperature() {
        let core = reading(format!("until core {celsius}"))?;
        return Some(if celsius == fahrenheit {
            format!("Say of what it is the temperature; of the middle of the food, `{core}`.")
        } else {
            format!("For the middle of the food write `{core}` or `until core {fahrenheit}`.")
        });
    }
    Some(format!(
        "What eyes or a fork tell stands in quotes, with the shortest and the longest it takes: `until \"{}\", takes 1 h to 2 h`.",
        piece.rest(1)
    ))
}

/// `do stir well`, `note turn the tray`, `from butcher`, `every 20 min do stir`, `do 'stir'`.
fn quotes(piece: &Piece<'_>) -> Option<String> {
    let starts = piece
        .lower
        .iter()
        .position(|word| matches!(word.as_str(), "do" | "note" | "about" | "by" | "from"))?;
    let bare = piece.rest(starts + 1);
    let bare = bare.trim_matches(['\'', '‘', '’', '"', '`']);
    if bare.is_empty() || bare.contains('"') {
        return None;
    }
    let fixed = reading(format!("{} \"{bare}\"", piece.words.get(..=starts)?.join(" ")))?;
    Some(format!("What follows `{}` stands in quotes: `{fixed}`.", piece.word(starts)))
}

/// `stir every 20 minutes`, `every 20 minutes stir`.
fn every(piece: &Piece<'_>) -> Option<String> {
    let at = piece.lower.iter().position(|word| word == "every")?;
    let (often, work) = if at == 0 {
        (piece.words.get(..3)?.join(" "), piece.rest(3))
    } else {
        (piece.rest(at), piece.words.get(..at)?.join(" "))
    };
    let fixed = reading(format!("{often} do \"{}\"", work.trim_matches(['"', '\''])))?;
    Some(format!("Write how often first, then the work in quotes: `{fixed}`."))
}

/// `use some butter`, `use a knob of butter`.
fn vague(piece: &Piece<'_>) -> Option<String> {
    if piece.first() != "use" || piece.figure().is_some() {
        return None;
    }
    let name = piece.words.last()?;
    reading(format!("use all {name}"))?;
    Some(format!("Say how much: `use 40 g of {name}`, or `use all {name}`."))
}

/// `use 50 g butter`, `collect 250 ml juices`.
fn of_missing(piece: &Piece<'_>) -> Option<String> {
    if !matches!(piece.first(), "use" | "collect" | "with") {
        return None;
    }
    let fixed = (2..piece.words.len())
        .find_map(|at| reading(format!("{} of {}", piece.words.get(..at)?.join(" "), piece.rest(at))))?;
    Some(format!("Put `of` before the name: `{fixed}`."))
}

/// `add 50 g of butter`.
fn drawing(piece: &Piece<'_>) -> Option<String> {
    if !listed(ADDING, piece.first()) {
        return None;
    }
    let skip = if piece.word(1) == "in" { 2 } else { 1 };
    let fixed = reading(format!("use {}", piece.rest(skip)))?;
    Some(format!("What goes into the food is drawn from stock: `{fixed}`."))
}

/// `wrapped with foil`.
fn joined(piece: &Piece<'_>) -> Option<String> {
    if !matches!(piece.word(1), "with" | "by") {
        return None;
    }
    reading(format!("{} in {}", piece.words.first()?, piece.rest(2))).map(|fixed| format!("Write `{fixed}`."))
}

/// `serves four`, `for two hours`.
fn spelt_out(piece: &Piece<'_>) -> Option<String> {
    let at = piece.lower.iter().position(|word| listed(NUMBERS, word.as_str()))?;
    let number = NUMBERS.split(' ').position(|number| number == piece.word(at))?;
    let mut words: Vec<String> = piece.words.iter().map(|word| word.to_string()).collect();
    *words.get_mut(at)? = number.to_string();
    reading(words.join(" ")).map(|fixed| format!("Write the number in figures: `{fixed}`."))
}

/// `put bread in oven`, `thickness of 4 cm`, `air: 110 °C`.
fn idle_word(piece: &Piece<'_>) -> Option<String> {
    if piece.text.contains([':', '=']) {
        let fixed = piece.text.replacen([':', '='], " ", 1);
        let fixed: Vec<&str> = fixed.split_whitespace().collect();
        if let Some(fixed) = reading(fixed.join(" ")) {
            return Some(format!("Write it without a sign: `{fixed}`."));
        }
    }
    (0..piece.words.len()).filter(|&at| listed(IDLE, piece.word(at))).find_map(|at| {
        let mut words = piece.words.clone();
        let idle = words.remove(at);
        reading(words.join(" ")).map(|fixed| format!("Leave out `{idle}`: `{fixed}`."))
    })
}

/// `bread in oven at 180 °C`, `uncovered for 2 h`.
fn two_facts(piece: &Piece<'_>) -> Option<String> {
    (1..piece.words.len()).rev().find_map(|at| {
        let one = reading(piece.words.get(..at)?.join(" "))?;
        let rest = piece.rest(at);
        let setting = rest.strip_prefix("at ").map(|temperature| format!("air {temperature}"));
        let two = reading(rest).or_else(|| reading(setting?))?;
        Some(format!("These are two facts. Write a comma between them: `{one}, {two}`."))
    })
}

/// `12 cm thick`, `6 cm deep`.
fn dimension(piece: &Piece<'_>) -> Option<String> {
    let clause = match piece.lower.last()?.as_str() {
        "thick" => "thickness",
        "deep" => "depth",
        _ => return None,
    };
    let length = piece.words.get(..piece.words.len() - 1)?.join(" ");
    reading(format!("{clause} {length}")).map(|fixed| format!("Write `{fixed}`."))
}

fn hyphen(piece: &Piece<'_>) -> Option<String> {
    (piece.first() == "hands" && piece.word(1) == "on").then(|| {
        let rest = piece.rest(2);
        format!("It is one word with a hyphen: `{}`.", format!("hands-on {rest}").trim_end())
    })
}

/// `between 12:00 and 14:00`.
fn between(piece: &Piece<'_>) -> Option<String> {
    if piece.first() != "between" {
        return None;
    }
    let guests = reading(format!("guests {}", piece.text))?;
    let through = format!("from {} to {}", piece.words.get(1)?, piece.words.last()?);
    Some(format!("Write `{guests}` if they come when they like, or `{through}` if you serve all the while."))
}

fn starts(piece: &Piece<'_>) -> Option<String> {
    (piece.first() == "starts" && piece.word(1) == "at").then(|| {
        "For a time of day write `starts at 08:00`, for the food's temperature `starts at 4 °C`.".into()
    })
}

/// `cook Bread for the crew`.
fn title(piece: &Piece<'_>) -> Option<String> {
    (piece.first() == "cook" && piece.words.len() > 1)
        .then(|| format!("A title stands in quotes: `cook \"{}\"`.", piece.rest(1).replace('"', "")))
}

fn work(piece: &Piece<'_>) -> Option<String> {
    listed(WORK, piece.first()).then(|| {
        format!("What the cook does goes in quotes after `do`: `do \"{}\"`.", piece.text.replace('"', ""))
    })
}
