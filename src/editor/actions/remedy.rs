//! What the words of a remedy come to in the text.

use super::places::{before, below, block, clause, line, replaced, said, without};
use super::trial::Offer;
use super::typed::exactly;
use crate::editor::View;
use crate::findings::{Code, Finding};
use crate::syntax::{ClauseKind, DrawPart, HeadKind};
use crate::text::Span;

/// How a remedy of a code is meant. Codes that stand nowhere ask for something only the cook can know.
enum Way {
    /// What it says is written instead of what the finding points at.
    Instead,
    /// The same, but of several only what is spelt much alike.
    Alike,
    /// It is a fact of its own, below.
    Below,
    /// It is a fact about the whole cook.
    InCook,
    /// It is a piece of kit.
    Kit,
    /// What the finding points at is one too many.
    Out,
    /// A quote is closed at the end of the line.
    Closed,
    /// A further word of what stands before it.
    Joined,
}

fn way(code: Code) -> Option<Way> {
    use Code::*;
    Some(match code {
        EditionUnknown | LineUnreadable | BlockUnreadable | CommaMissing | DecimalComma | NumberSpaced
        | UnitMissing | UnitUnknown | UnitMismatch | TemperatureOfWhat | TwinDisagrees | RangeBackwards
        | ClockTimeForm | ZoneUnknown | KitClassUnknown | PurposeUnknown | PurposeMissing
        | AllergenUnknown | AllowUnknown | SettingOutOfRange | StockOverdrawn => Way::Instead,
        NameUnknown | FoodKindUnknown | RulesUnknown => Way::Alike,
        CoverNotDrawn | PartUnnamed | BagMissing | BagTooHot | IngredientPlaced => Way::Below,
        MeasuresUnsaid => Way::InCook,
        ProbeMissing => Way::Kit,
        AllowUnused | ClauseTwice | LossNeverTaken | SmokeNotHad => Way::Out,
        QuoteUnclosed => Way::Closed,
        NameAlone => Way::Joined,
        _ => return None,
    })
}

/// What a title says of a mend that is tried on what is declared alone, unless heat and times stay as they are with it.
pub fn reservation(code: Code) -> &'static str {
    use Code::*;
    match code {
        EditionUnknown | CommaMissing | QuoteUnclosed | NameAlone | AllergenUnknown | AllowUnknown
        | AllowUnused | PartUnnamed | CoverNotDrawn | LossNeverTaken | ProbeMissing => "",
        _ => " (heat and times not predicted)",
    }
}

/// Rows of offers: in each the same thing, done in one place or another.
pub fn offers(view: &View<'_>, finding: &Finding) -> Vec<Vec<Offer>> {
    let (Some(way), Some(line)) = (way(finding.code), line(view, finding.span)) else { return Vec::new() };
    let remedy = finding.remedy.render(view.compiled.scale);
    let pointed = view.text().get(finding.span.range()).unwrap_or("");
    let typed = exactly(&remedy);
    match way {
        Way::Instead => typed.into_iter().map(|typed| instead(view, finding, typed)).collect(),
        Way::Alike => {
            let alike =
                |typed: &&str| strsim::osa_distance(typed, pointed) <= pointed.chars().count().div_ceil(3);
            let near = typed.into_iter().filter(alike).map(|typed| instead(view, finding, typed));
            near.chain(declared(view, finding, pointed).map(|offer| vec![offer])).collect()
        }
        Way::Below => typed.into_iter().map(|typed| vec![added(typed, below(view, line, typed))]).collect(),
        Way::InCook => {
            let cook = view.tree.lines.iter().find(|line| {
                view.tree.head_of(line).is_some_and(|head| matches!(head.kind, HeadKind::Cook { .. }))
            });
            let Some(cook) = cook else { return Vec::new() };
            typed.into_iter().map(|typed| vec![added(typed, below(view, cook, typed))]).collect()
        }
        Way::Kit => {
            let later = |kind: &HeadKind| {
                use HeadKind::{Food, Ingredient, Phase, Serve};
                matches!(kind, Food { .. } | Ingredient { .. } | Phase { .. } | Serve { .. })
            };
            let kit =
                typed.into_iter().filter_map(|typed| Some(vec![added(typed, before(view, typed, later)?)]));
            kit.collect()
        }
        Way::Out => {
            let fact = clause(view, finding.span).map_or(finding.span, |clause| clause.span);
            let title = format!("Take out `{}`", view.text().get(fact.range()).unwrap_or(""));
            vec![vec![(title, without(view, line, fact))]]
        }
        Way::Closed => {
            let end = said(view, line).end as usize;
            vec![vec![(
                "Close the quote at the end of the line".to_owned(),
                replaced(Span::new(view.file, end, end), "\""),
            )]]
        }
        Way::Joined => joined(view, finding).into_iter().collect(),
    }
}

fn added(typed: &str, edits: Vec<crate::findings::Edit>) -> Offer {
    (format!("Add `{typed}`"), edits)
}

/// Instead of just what the finding points at, of the clause around it, or of the line.
fn instead(view: &View<'_>, finding: &Finding, typed: &str) -> Vec<Offer> {
    let text = view.text();
    let pointed = finding.span;
    // Of a twin the finding points at the figures alone.
    let bracket = text[pointed.end as usize..].starts_with(')') && typed.ends_with(')');
    let whole = if bracket { Span { end: pointed.end + 1, ..pointed } } else { pointed };
    let around = clause(view, pointed).map(|clause| clause.span);
    let line = line(view, pointed).map(|line| said(view, line));
    let mut spans = vec![whole];
    spans.extend(around);
    spans.extend(line);
    spans.dedup();
    let keeps = |span: &Span| keeps_figures(&text[span.range()], typed, finding.code);
    let offers = spans.into_iter().filter(keeps);
    offers.map(|span| (format!("Write `{typed}`"), replaced(span, typed))).collect()
}

/// Nothing that was measured gets lost. How a figure or a time of day is spelt may change where that is at fault.
fn keeps_figures(old: &str, new: &str, code: Code) -> bool {
    let figures = |text: &str| -> Vec<String> {
        let runs = text.split(|c: char| !c.is_ascii_digit() && c != '.');
        runs.filter(|run| run.starts_with(|c: char| c.is_ascii_digit())).map(str::to_owned).collect()
    };
    let respelt = matches!(
        code,
        Code::ClockTimeForm
            | Code::DecimalComma
            | Code::NumberSpaced
            | Code::TwinDisagrees
            | Code::EditionUnknown
            | Code::StockOverdrawn
    );
    let kept = figures(new);
    respelt || figures(old).iter().all(|figure| kept.contains(figure))
}

/// Stock that is used by its amount before it was declared: just so much of it.
fn declared(view: &View<'_>, finding: &Finding, name: &str) -> Option<Offer> {
    let ClauseKind::Use(draws) = &clause(view, finding.span)?.kind else { return None };
    let draw = draws.iter().find(|draw| draw.name == Some(finding.span))?;
    let DrawPart::Amount(amount) = &draw.part else { return None };
    let amount = view.text().get(amount.span.range())?;
    let line = format!("ingredient {name} is {amount} {name}");
    let edits = before(view, &line, |kind| matches!(kind, HeadKind::Phase { .. }))?;
    Some((format!("Declare it: `{line}`"), edits))
}

/// `300 g onions, sliced`: with `and`, or in quotes.
fn joined(view: &View<'_>, finding: &Finding) -> Option<Vec<Offer>> {
    block(view, finding.span)?;
    let text = view.text();
    let before = text[..finding.span.start as usize].trim_end_matches([' ', '\t', ',']).len();
    let word = &text[finding.span.range()];
    let span = Span::new(view.file, before, finding.span.end as usize);
    Some(vec![(format!("Write `and {word}`"), replaced(span, &format!(" and {word}")))])
}
