//! `phase` and `serve` blocks.

use super::blocks::Block;
use super::builder::Builder;
use super::flow::{Flow, Named};
use super::stock::{find_kind, ph, shape};
use super::units::Ranged;
use crate::cook::{
    Amount, Call, Check, Collect, Draw, Hands, Job, Kit, Lasts, LieIn, Part, Phase, PhaseId, Placing,
    Purpose, Room, Service, Setting, Smoke, Test, Until,
};
use crate::findings::{Code, Finding};
use crate::quantity::{Dimension, Duration};
use crate::say;
use crate::syntax::{
    Bound, Checked, Clause, ClauseKind as K, Draw as TypedDraw, DrawPart, HeadKind, Measure,
    Test as TypedTest,
};
use crate::text::{Span, Spanned};

/// Hands for as long as the phase lasts.
const THROUGHOUT: Duration = Duration::from_seconds(f64::INFINITY);

/// Types one block. `flow` knows where each food has been so far, and is moved on.
pub fn build(
    builder: &mut Builder<'_>,
    flow: &mut Flow,
    block: &Block<'_>,
    id: PhaseId,
    kit: &[Kit],
) -> Phase {
    let mut phase = header(builder, block);
    // What is placed and used comes first: the other clauses speak about it.
    if let HeadKind::Serve { parts } = &block.head.kind {
        for part in parts {
            place_part(builder, flow, part, id, &mut phase);
        }
    }
    let mut placed: Option<&Clause> = None;
    for clause in &block.clauses {
        if let K::Place { parts, place } = &clause.kind {
            if placed.is_some() {
                // `keep in fridge` looks like a second place, of a food called `keep`.
                let unknown = parts.iter().filter_map(|part| part.name);
                let unknown: Vec<_> =
                    unknown.filter(|name| builder.items.find(builder.units.slice(*name)).is_none()).collect();
                if unknown.is_empty() {
                    builder.twice(clause, "where the food is");
                }
                for name in unknown {
                    builder.find_item(name);
                }
                continue;
            }
            placed = Some(clause);
            phase.place = builder.find_kit(*place).map(|kit| Spanned::new(kit, *place));
            if phase.place.is_none() {
                phase.damaged = true;
            }
            for part in parts {
                place_part(builder, flow, part, id, &mut phase);
            }
        }
    }
    for clause in &block.clauses {
        if let K::Becomes { name, kind } = &clause.kind {
            if phase.becomes.is_some() {
                builder.twice(clause, "what the food becomes");
                continue;
            }
            let kind = kind.map(|kind| builder.text(kind)).and_then(|typed| find_kind(builder, &typed));
            phase.becomes = flow.make(builder, Named { name: *name, kind, span: clause.span }, id);
        }
    }
    let mut ends = Ends::default();
    // How late a serving may be is said of its time, on whichever line that stands.
    let is_late = |clause: &&&Clause| matches!(clause.kind, K::UpToLate(_));
    let in_order = block.clauses.iter().filter(|clause| !is_late(clause));
    for clause in in_order.chain(block.clauses.iter().filter(is_late)) {
        let alone = match &clause.kind {
            K::Amount { measure, of: None, .. } => Some(measure),
            _ => None,
        };
        if alone.is_some_and(|measure| builder.units.is(measure, Dimension::Duration)) {
            who_decides(builder, clause, &phase.name);
            ends.lost = true;
        } else if let Some(measure) =
            alone.filter(|measure| builder.units.is(measure, Dimension::Temperature))
        {
            builder.temperature_of_what(clause, measure);
            phase.damaged = true;
        } else if shape(builder, clause, &mut phase.shape) {
            if let K::Cover { stuff: Some(stuff), .. } = clause.kind {
                phase.damaged |= stuff_of(builder, flow, stuff, id).is_none();
            }
        } else {
            one(builder, flow, block, clause, id, &mut phase, &mut ends);
        }
    }
    ends.settle(builder, block, &mut phase);
    if placed.is_none() && phase.service.is_none() && !block.damaged {
        builder.report(Finding::new(
            Code::PlaceMissing,
            block.head.span,
            say![format!("It is not said which food `{}` is about, or where it is.", phase.name)],
            say!["Write it below: `shoulder in oven`, or `on hob` if it is made from stock alone."],
        ));
        phase.damaged = true;
    }
    flow.settle(builder, block, id, &mut phase);
    hands(&mut phase, kit);
    phase
}

/// What the food lies in or is wrapped in: out of the store, like all that is used.
fn stuff_of(
    builder: &mut Builder<'_>,
    flow: &mut Flow,
    name: Span,
    id: PhaseId,
) -> Option<crate::cook::ItemId> {
    flow.on_tap(builder, name);
    let item = builder.find_item(name)?;
    flow.before(builder, item, name, id)?;
    Some(item)
}

/// `20 minutes` alone.
fn who_decides(builder: &mut Builder<'_>, clause: &Clause, phase: &str) {
    let typed = builder.text(clause.span).value;
    builder.report(
        Finding::new(
            Code::EndMissing,
            clause.span,
            say![format!("`{typed}` does not say who decides when this ends.")],
            say![format!(
                "Write `for {typed}` if you decide, or `takes` with the shortest and the longest if the work or the food decides: `takes 15 min to 25 min`."
            )],
        )
        .in_phase(phase),
    );
}

fn header(builder: &mut Builder<'_>, block: &Block<'_>) -> Phase {
    let (name_span, purpose, service) = match &block.head.kind {
        HeadKind::Serve { .. } => (block.head.span, Purpose::Serve, Some(Service::Unsaid)),
        HeadKind::Phase { name, purpose } => (*name, self::purpose(builder, block, *name, *purpose), None),
        _ => (block.head.span, Purpose::Prep, None),
    };
    Phase {
        name: builder.text(name_span).value,
        name_span,
        span: block.head.span,
        block: block.span,
        purpose,
        service,
        placings: Vec::new(),
        place: None,
        becomes: None,
        shape: Default::default(),
        setting: None,
        lie_in: None,
        moisture: None,
        fan: None,
        smoke: None,
        lasts: Lasts::Unsaid,
        lasts_span: block.head.span,
        until: None,
        within: None,
        checks: Vec::new(),
        uses: Vec::new(),
        collects: Vec::new(),
        jobs: Vec::new(),
        hands: Hands::default(),
        orders: Vec::new(),
        fills: None,
        notes: Vec::new(),
        damaged: block.damaged,
    }
}

/// A phase named after a purpose has it.
fn purpose(builder: &mut Builder<'_>, block: &Block<'_>, name: Span, typed: Option<Span>) -> Purpose {
    let words = builder.text(typed.unwrap_or(name)).value;
    let known = Purpose::WRITTEN.into_iter().find(|purpose| {
        purpose.words().eq_ignore_ascii_case(&words)
            || purpose.words().replace(' ', "-").eq_ignore_ascii_case(&words)
    });
    if let Some(purpose) = known {
        return purpose;
    }
    let all: Vec<&str> = Purpose::WRITTEN.iter().map(|purpose| purpose.words()).collect();
    match typed {
        Some(span) => {
            let near = purpose_of(&words.to_lowercase()).map(|purpose| (0, purpose.words())).or_else(|| {
                all.iter()
                    .map(|known| (strsim::osa_distance(known, &words.to_lowercase()), *known))
                    .min_by_key(|(distance, _)| *distance)
                    .filter(|(distance, _)| *distance <= 2)
            });
            builder.report(Finding::new(
                Code::PurposeUnknown,
                span,
                say![format!("`{words}` is not a purpose that a phase can have.")],
                match near {
                    Some((_, near)) => say![format!("Did you mean `{near}`?")],
                    None => say![format!("The purposes are {}.", all.join(", "))],
                },
            ));
        }
        None => builder.report(Finding::new(
            Code::PurposeMissing,
            block.head.span,
            say![format!("It is not said what `{words}` is for, and that decides which rules judge it.")],
            say![format!(
                "Write `phase {words} is {}`, or another of {}.",
                purpose_of(&words.to_lowercase()).unwrap_or(Purpose::Cook).words(),
                all.join(", ")
            )],
        )),
    }
    Purpose::Prep
}

/// Kitchen words, by the purpose they most often have.
const PURPOSE_WORDS: &[(&str, Purpose)] = &[
    ("prepare preparation prepping mise trim season slice cut chop carve wrap mix", Purpose::Prep),
    ("defrost thawing", Purpose::Thaw),
    ("brine marinate pickle salting", Purpose::Cure),
    ("prove proof rise", Purpose::Ferment),
    ("cooking bake boil braise fry grill poach roast sear simmer smoke steam stew", Purpose::Cook),
    ("resting stand", Purpose::Rest),
    ("hold holding warm keep", Purpose::HotHold),
    ("chill cooling", Purpose::Cool),
    ("refrigerate store fridge", Purpose::ColdHold),
    ("freezing", Purpose::Freeze),
    ("rewarm reheating", Purpose::Reheat),
];

/// The purpose of a phase that somebody calls `roasting`.
fn purpose_of(word: &str) -> Option<Purpose> {
    let stem = word.trim_end_matches("ing");
    let same = |known: &str| known == word || known.trim_end_matches(['e']) == stem;
    PURPOSE_WORDS.iter().find(|(words, _)| words.split(' ').any(same)).map(|(_, purpose)| *purpose)
}

/// A food, or a part of it, put in its place.
fn place_part(builder: &mut Builder<'_>, flow: &mut Flow, typed: &TypedDraw, id: PhaseId, phase: &mut Phase) {
    let Some((item, part)) = part(builder, typed, true) else {
        phase.damaged = true;
        return;
    };
    let Some(before) = flow.before(builder, item, typed.span, id) else {
        phase.damaged = true;
        return;
    };
    if phase.placings.iter().any(|placing| placing.item == item) {
        let name = builder.text(typed.name.unwrap_or(typed.span)).value;
        builder.report(Finding::new(
            Code::ClauseTwice,
            typed.span,
            say![format!("`{name}` is placed twice in this phase.")],
            say!["A part that goes its own way needs a phase and a name of its own (`becomes`)."],
        ));
        return;
    }
    phase.placings.push(Placing { item, part, span: typed.span, before: before.phase });
}

/// The item and how much of it. Where only the amount is wrong, the item was meant to be used.
fn part(
    builder: &mut Builder<'_>,
    typed: &TypedDraw,
    bare_is_all: bool,
) -> Option<(crate::cook::ItemId, Part)> {
    let found = read_part(builder, typed, bare_is_all);
    if let (None, Some(name)) = (&found, typed.name)
        && builder.items.find(builder.units.slice(name)).is_some()
    {
        builder.forgive(name);
    }
    found
}

fn read_part(
    builder: &mut Builder<'_>,
    typed: &TypedDraw,
    bare_is_all: bool,
) -> Option<(crate::cook::ItemId, Part)> {
    match (&typed.part, typed.name) {
        (DrawPart::Measure(measure), _) => counted(builder, measure, typed.span),
        (DrawPart::Amount(measure), Some(name)) => {
            let item = builder.find_item(name)?;
            Some((item, fraction_or_amount(builder, measure)?))
        }
        (kind, Some(name)) => {
            let item = builder.find_item(name)?;
            let part = match kind {
                DrawPart::Half => Part::Fraction(0.5),
                DrawPart::Rest => Part::Rest,
                DrawPart::Plain if !bare_is_all => {
                    let word = builder.units.slice(name).to_string();
                    builder.units.report(
                        Code::UnitMissing,
                        typed.span,
                        say![format!("It is not said how much `{word}` is used.")],
                        say![format!("Write `use all {word}`, or an amount: `use 40 g of {word}`.")],
                    );
                    return None;
                }
                _ => Part::Whole,
            };
            Some((item, part))
        }
        _ => None,
    }
}

/// `65 buns`: the word after the figure is the name.
fn counted(builder: &mut Builder<'_>, measure: &Measure, span: Span) -> Option<(crate::cook::ItemId, Part)> {
    let last = measure.low().last()?;
    let amount = builder.units.amount(measure)?;
    match (amount, last.unit) {
        (Amount::Count { number, .. }, Some(name)) => {
            let item = builder.find_item(name)?;
            Some((item, Part::Amount(Amount::Count { number, word: builder.units.slice(name).to_string() })))
        }
        _ => {
            let typed = builder.text(span).value;
            builder.units.report(
                Code::UnitMissing,
                span,
                say![format!("It is not said of what `{typed}` is used.")],
                say![format!("Write `use {typed} of salt`.")],
            );
            None
        }
    }
}

/// `1/3 of` and `40 % of` are shares; everything else is an amount.
fn fraction_or_amount(builder: &mut Builder<'_>, measure: &Measure) -> Option<Part> {
    if let [figure] = measure.low() {
        let word = figure.unit.map(|unit| builder.units.slice(unit));
        if word.is_none() && figure.value > 0.0 && figure.value <= 1.0 && measure.high().is_empty() {
            return Some(Part::Fraction(figure.value));
        }
        if word == Some("%") {
            let share = builder.units.share(measure)?;
            return Some(Part::Fraction(share.fraction()));
        }
    }
    builder.units.amount(measure).map(Part::Amount)
}

/// What ends a phase, gathered over its clauses; it may have one end.
#[derive(Default)]
struct Ends<'c> {
    clock: Option<(&'c Clause, Lasts)>,
    takes: Option<(&'c Clause, Lasts)>,
    until: Option<&'c Clause>,
    /// An end was written that could not be typed.
    lost: bool,
}

impl Ends<'_> {
    fn settle(&self, builder: &mut Builder<'_>, block: &Block<'_>, phase: &mut Phase) {
        if phase.service.is_some() {
            phase.lasts = Lasts::Serving;
            return;
        }
        let spoken = phase
            .until
            .as_ref()
            .is_some_and(|until| until.tests.iter().any(|test| matches!(test.value, Test::Spoken(_))));
        if let (Some((clause, _)), true) = (self.clock, self.takes.is_some() || self.until.is_some()) {
            builder.twice(clause, "when the phase ends");
        }
        if let Some((clause, lasts)) = self.takes.or(self.clock) {
            phase.lasts = lasts;
            phase.lasts_span = clause.span;
        } else if let Some(clause) = self.until {
            phase.lasts = if spoken { Lasts::Unsaid } else { Lasts::Open };
            phase.lasts_span = clause.span;
            if spoken && !self.lost && !block.damaged {
                builder.report(
                    Finding::new(
                        Code::EndMissing,
                        clause.span,
                        say!["It is not said how long this takes, and nobody can work that out from words."],
                        say!["Add the shortest and the longest you have seen: `takes 1 h to 2 h`."],
                    )
                    .in_phase(phase.name.clone()),
                );
            }
        } else if !self.lost && !block.damaged {
            builder.report(
                Finding::new(
                    Code::EndMissing,
                    phase.span,
                    say![format!("It is not said when `{}` ends.", phase.name)],
                    say![
                        "Write `for 5 h` if you decide, `takes 20 min to 30 min` if the work or the food decides, or `until core 84 °C`."
                    ],
                )
                .in_phase(phase.name.clone()),
            );
        }
    }
}

/// One clause of a phase or serving.
fn one<'c>(
    builder: &mut Builder<'_>,
    flow: &mut Flow,
    block: &Block<'_>,
    clause: &'c Clause,
    id: PhaseId,
    phase: &mut Phase,
    ends: &mut Ends<'c>,
) {
    let span = clause.span;
    match &clause.kind {
        K::Place { .. } | K::Becomes { .. } => {}
        K::Setting { medium, measure } => {
            let scale = builder.units.typed_scale(measure);
            let setting = builder.units.temperature(measure).map(|(temperature, tolerance)| Setting {
                medium: *medium,
                temperature,
                tolerance,
                scale,
                span,
                kept: false,
            });
            if setting.is_none() {
                phase.damaged = true;
            }
            builder.set(&mut phase.setting, setting, clause, "the setting");
        }
        K::With { measure, name } => {
            let amount = builder.units.volume_or_mass(measure);
            let typed = builder.units.slice(*name).to_lowercase();
            let known = builder.items.find(&typed).is_some();
            let item = if !known && typed == "water" {
                Some(None)
            } else {
                stuff_of(builder, flow, *name, id).map(Some)
            };
            let value = amount.zip(item).map(|(amount, item)| LieIn { amount, item, span });
            builder.set(&mut phase.lie_in, value, clause, "what the food lies in");
        }
        K::Moisture(measure) => {
            let value = builder.units.share(measure).map(|share| Spanned::new(share, span));
            builder.set(&mut phase.moisture, value, clause, "the moisture");
        }
        K::Fan | K::Still => {
            let fan = Some(Spanned::new(matches!(clause.kind, K::Fan), span));
            builder.set(&mut phase.fan, fan, clause, "how the air moves");
        }
        K::Smoke(typed) => {
            let draw = draw(builder, flow, typed, id, true);
            builder.set(&mut phase.smoke, Some(Smoke { draw, span }), clause, "the smoke");
        }
        K::For(measure) => {
            let lasts = builder.units.duration_range(measure).map(|range| match range.high {
                None => Lasts::Fixed(range.low),
                high => Lasts::Chosen { low: range.low, high },
            });
            clock(builder, clause, lasts, ends);
        }
        K::ForUpTo(measure) => {
            let high = builder.units.duration(measure);
            let lasts = high.map(|high| Lasts::Chosen { low: Duration::ZERO, high: Some(high) });
            clock(builder, clause, lasts, ends);
        }
        K::ForAtLeast(measure) => {
            let low = builder.units.duration(measure);
            clock(builder, clause, low.map(|low| Lasts::Chosen { low, high: None }), ends);
        }
        K::Takes { measure, each } => {
            let lasts = builder.units.duration_range(measure).map(|range| Lasts::Nature {
                low: range.low,
                high: range.high.unwrap_or(range.low),
                each: *each,
            });
            ends.lost |= lasts.is_none();
            if ends.takes.is_some() {
                builder.twice(clause, "how long it takes");
            } else {
                ends.takes = lasts.map(|lasts| (clause, lasts));
            }
        }
        K::Until(typed) => {
            if ends.until.is_some() {
                builder.twice(clause, "until when");
                return;
            }
            let tests: Vec<_> = typed.iter().filter_map(|test| self::test(builder, test, span)).collect();
            if tests.len() < typed.len() {
                ends.lost = true;
                return;
            }
            ends.until = Some(clause);
            phase.until = Some(Until { tests, span });
        }
        K::Within(measure) => {
            let value = builder.units.duration(measure).map(|limit| Spanned::new(limit, span));
            builder.set(&mut phase.within, value, clause, "the limit");
        }
        K::Check { what, expect: false, .. } if phase.service.is_none() => {
            two_readings(builder, clause, *what);
            ends.lost = true;
        }
        K::Check { what, measure, bound, .. } => {
            if let Some(check) = check(builder, *what, measure, *bound) {
                phase.checks.push(Spanned::new(check, span));
            }
        }
        K::Use(draws) => uses(builder, flow, draws, id, phase),
        K::Collect { measure, name, kind, from } => {
            let amount = builder.units.amount(measure);
            let kind = kind.map(|kind| builder.text(kind)).and_then(|typed| find_kind(builder, &typed));
            let from = from.map(|from| builder.find_item(from));
            let from = match from {
                Some(None) => return,
                Some(from) => from,
                None => None,
            };
            let collected = flow.collect(builder, Named { name: *name, kind, span }, id, from, phase);
            if let (Some(amount), Some((item, from))) = (amount, collected) {
                phase.collects.push(Collect { item, amount, from, span });
            }
        }
        K::Do(text) => job(builder, phase, Call::Start, *text, span),
        K::AtEndDo(text) => job(builder, phase, Call::End, *text, span),
        K::AtCoreDo { core, text } => {
            if let Some((core, _)) = builder.units.temperature(core) {
                job(builder, phase, Call::AtCore(core), *text, span);
            }
        }
        K::EveryDo { every, text } => {
            if let Some(every) = builder.units.duration(every) {
                job(builder, phase, Call::Every(every), *text, span);
            }
        }
        K::HandsOn(measure) => {
            let on = match measure {
                None => Some(THROUGHOUT),
                Some(measure) => builder.units.duration(measure),
            };
            said_hands(builder, phase, clause, on);
        }
        K::Unattended => said_hands(builder, phase, clause, Some(Duration::ZERO)),
        K::LookIn(measure) => {
            let every = builder.units.duration(measure);
            builder.set(&mut phase.hands.look_in, every, clause, "how often somebody looks in");
        }
        K::Order { edge, nearness, moment } => {
            if let Some(order) = super::order::order(builder, id, *edge, nearness, moment, span) {
                phase.orders.push(order);
            }
        }
        K::Fills(measure) => {
            let shelf =
                measure.low().last().and_then(|figure| figure.unit).map(|unit| builder.units.slice(unit));
            let room =
                if shelf.is_some_and(|word| matches!(word.to_lowercase().as_str(), "shelf" | "shelves")) {
                    builder
                        .units
                        .number_range(measure, &["shelf", "shelves"])
                        .map(|count| Room::Shelves(count.low))
                } else {
                    builder.units.volume_or_mass(measure).map(Room::Amount)
                };
            builder.set(
                &mut phase.fills,
                room.map(|room| Spanned::new(room, span)),
                clause,
                "how much room it fills",
            );
        }
        K::Note(text) => {
            let note = builder.text(*text);
            phase.notes.push(note);
        }
        K::Allow { code, because } => builder.allow(clause, *code, *because, block.span, Some(id)),
        _ if phase.service.is_some() => super::serve::clause(builder, block, clause, phase),
        _ => builder.out_of_place(clause, block),
    }
}

fn clock<'c>(builder: &mut Builder<'_>, clause: &'c Clause, lasts: Option<Lasts>, ends: &mut Ends<'c>) {
    ends.lost |= lasts.is_none();
    if ends.clock.is_some() {
        builder.twice(clause, "how long the phase lasts");
    } else {
        ends.clock = lasts.map(|lasts| (clause, lasts));
    }
}

fn said_hands(builder: &mut Builder<'_>, phase: &mut Phase, clause: &Clause, on: Option<Duration>) {
    if phase.hands.written.is_some() {
        builder.twice(clause, "who must be there");
    } else if let Some(on) = on {
        phase.hands.on = on;
        phase.hands.written = Some(clause.span);
    }
}

fn job(builder: &mut Builder<'_>, phase: &mut Phase, call: Call, text: Span, span: Span) {
    let text = builder.text(text);
    phase.jobs.push(Job { call, text, span });
}

/// A bare name after the first is meant like the first: `use all salt and pepper`.
fn uses(builder: &mut Builder<'_>, flow: &mut Flow, draws: &[TypedDraw], id: PhaseId, phase: &mut Phase) {
    let all = matches!(draws.first().map(|draw| &draw.part), Some(DrawPart::All));
    for typed in draws {
        match draw(builder, flow, typed, id, all) {
            Some(draw) => phase.uses.push(draw),
            None => phase.damaged = true,
        }
    }
}

fn draw(
    builder: &mut Builder<'_>,
    flow: &mut Flow,
    typed: &TypedDraw,
    id: PhaseId,
    bare_is_all: bool,
) -> Option<Draw> {
    if let Some(name) = typed.name {
        flow.on_tap(builder, name);
    }
    let (item, part) = part(builder, typed, bare_is_all)?;
    let before = flow.before(builder, item, typed.span, id)?;
    Some(Draw { item, part, span: typed.span, before: before.phase })
}

fn test(builder: &mut Builder<'_>, typed: &TypedTest, span: Span) -> Option<Spanned<Test>> {
    match typed {
        TypedTest::Spoken(text) => {
            let text = builder.text(*text);
            Some(Spanned::new(Test::Spoken(text.value), text.span))
        }
        TypedTest::Figure { what, measure } => {
            let test = match what {
                Checked::Core => Test::Core(builder.units.temperature(measure)?.0),
                Checked::Surface => Test::Surface(builder.units.temperature(measure)?.0),
                Checked::Ph => Test::Ph(ph(builder, measure)?),
                Checked::Weight | Checked::Salt => {
                    builder.report(Finding::new(
                        Code::LineUnreadable,
                        span,
                        say!["A phase cannot wait for a weight or for salt."],
                        say!["Say how long you have seen it take, `takes 3 weeks to 5 weeks`, and check it at the end: `expect weight 60 % to 65 %`."],
                    ));
                    return None;
                }
            };
            Some(Spanned::new(test, measure.span))
        }
    }
}

/// `core 84 °C` alone.
fn two_readings(builder: &mut Builder<'_>, clause: &Clause, what: Checked) {
    let typed = builder.text(clause.span).value;
    let remedy = match what {
        Checked::Core | Checked::Surface | Checked::Ph => say![format!(
            "If the phase ends then, write `until {typed}`; if it is looked at when the phase ends, `expect {typed}`."
        )],
        Checked::Weight | Checked::Salt => {
            say![format!("If it is looked at when the phase ends, write `expect {typed}`.")]
        }
    };
    builder.report(Finding::new(
        Code::ClauseOutOfPlace,
        clause.span,
        say![format!("`{typed}` alone does not say whether the phase waits for it.")],
        remedy,
    ));
}

fn check(builder: &mut Builder<'_>, what: Checked, measure: &Measure, bound: Option<Bound>) -> Option<Check> {
    fn ends<T>(range: Ranged<T>, bound: Option<Bound>) -> (Option<T>, Option<T>)
    where
        T: Copy,
    {
        match (bound, range.high) {
            (Some(Bound::OrMore), _) => (Some(range.low), None),
            (Some(Bound::OrLess), _) => (None, Some(range.low)),
            (None, high) => (Some(range.low), Some(high.unwrap_or(range.low))),
        }
    }
    Some(match what {
        Checked::Core | Checked::Surface => {
            let (low, high) = ends(builder.units.temperature_range(measure)?, bound);
            if what == Checked::Core { Check::Core { low, high } } else { Check::Surface { low, high } }
        }
        Checked::Weight | Checked::Salt => {
            let range = builder.units.share_range(measure)?;
            let (low, high) = ends(range, bound);
            let low = low.unwrap_or(crate::quantity::Share::ZERO);
            let high = high.unwrap_or(crate::quantity::Share::from_fraction(1.0));
            if what == Checked::Weight { Check::Weight { low, high } } else { Check::Salt { low, high } }
        }
        Checked::Ph => {
            let range = builder.units.number_range(measure, &[])?;
            let (low, high) = ends(range, bound);
            Check::Ph { low: low.unwrap_or(0.0), high: high.unwrap_or(14.0) }
        }
    })
}

/// Prep on a bench is hands-on unless it says otherwise.
fn hands(phase: &mut Phase, kit: &[Kit]) {
    let on_bench = phase
        .place
        .and_then(|place| kit.get(place.value.0 as usize))
        .is_some_and(|kit| kit.class.base_name() == "bench");
    if phase.hands.written.is_none() && phase.purpose == Purpose::Prep && on_bench {
        phase.hands.on = THROUGHOUT;
    }
}
