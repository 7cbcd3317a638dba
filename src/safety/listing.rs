//! The rules in force as rows, for `dwell rules`.

use crate::tables::{Aim, Band, Count, Course, Demand, Limit, Rule, RuleSet};

/// One row: a rule, or one point of a rule that is a chart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuleRow {
    pub id: String,
    /// What it asks, in words.
    pub asks: String,
    /// Its figures as published; empty where it has none.
    pub figures: String,
    pub clause: String,
    /// Where the figure stands, whole.
    pub source: String,
    pub edition: String,
    /// `verified`, `secondary`, `computed` or `memory`.
    pub status: &'static str,
    /// What no cook file says, and has to be so for the rule to count.
    pub condition: Option<String>,
    /// What it would take to judge it; `None` where it is judged.
    pub needs: Option<String>,
    /// It is judged along the temperature of the food, predicted or logged, and not on declared figures.
    pub along_curve: bool,
    /// Of several options that stand side by side.
    pub option: Option<String>,
    /// Advice, and no law.
    pub advice: bool,
}

/// Every rule of a set, in the set's order.
pub fn listing(set: &RuleSet) -> Vec<RuleRow> {
    set.rules.iter().flat_map(|rule| rows(set, rule)).collect()
}

fn rows(set: &RuleSet, rule: &Rule) -> Vec<RuleRow> {
    let along_curve = is_predicted(rule);
    let row = |id: &str, figures: String, status| RuleRow {
        id: id.into(),
        asks: rule.asks.clone(),
        figures,
        clause: rule.clause.clone(),
        source: set.cite(rule),
        edition: set.edition.clone(),
        status,
        condition: rule.condition.clone(),
        needs: match &rule.demand {
            Demand::Listed { .. } if along_curve => None,
            Demand::Listed { needs, .. } if rule.on_curve.is_some() => {
                Some(format!("{needs}; `dwell probe` judges a log by it"))
            }
            Demand::Listed { needs, .. } => Some(needs.clone()),
            _ => None,
        },
        along_curve,
        option: rule.option.clone(),
        advice: rule.advice,
    };
    match &rule.demand {
        Demand::Cook { points, .. } | Demand::Reheat { points, .. } if !points.is_empty() => points
            .iter()
            .map(|point| {
                let status = point.status.unwrap_or(rule.status).word();
                row(point.id.as_deref().unwrap_or(&rule.id), format!("{point}{}", window(rule)), status)
            })
            .collect(),
        _ => vec![row(&rule.id, figures(rule), rule.status.word())],
    }
}

/// Is a cook judged by it along the predicted temperature?
fn is_predicted(rule: &Rule) -> bool {
    let predicted = |aim: &Aim| matches!(aim, Aim::Cook | Aim::ComeUp | Aim::HotHold | Aim::Cool);
    rule.on_curve.is_some() && rule.aims.iter().flatten().any(predicted)
}

fn window(rule: &Rule) -> String {
    match rule.demand {
        Demand::Reheat { window_s: Some(s), .. } => format!(", within {}", hours(s)),
        _ => String::new(),
    }
}

fn figures(rule: &Rule) -> String {
    match &rule.demand {
        Demand::CookSurface { surface: Some(limit) } => format!("surface {limit}"),
        Demand::HotHold { min, .. } if rule.strict => format!("above {min}"),
        Demand::HotHold { min, .. } => format!("{min} or above"),
        Demand::ColdHold { max } if rule.strict => format!("below {max}"),
        Demand::ColdHold { max } | Demand::Thaw { max, .. } => format!("{max} or below"),
        Demand::TimeAlone { max_s, out, .. } => between(out, *max_s, rule.strict),
        Demand::Cool { from: Some(from), to: Some(to), max_s, further } => {
            let more = if *further { "a further " } else { "" };
            format!("{from} to {to} within {more}{}", hours(*max_s))
        }
        Demand::Cool { max_s, .. } => format!("within {}", hours(*max_s)),
        Demand::ReheatOnce {} => "once".into(),
        Demand::Nitrite { max_ppm, .. } => format!("{max_ppm} ppm"),
        Demand::Keep { max_days } | Demand::KeepBagged { max_days } | Demand::KeepUnderOil { max_days } => {
            format!("{max_days} days")
        }
        Demand::FermentEnd { ph_max } => format!("pH {ph_max} or below"),
        Demand::NeedsNoControl { ph_below } => format!("pH below {ph_below}"),
        Demand::Reheat { points_of: Some(of), .. } => format!("as {of}"),
        Demand::FreezeFish { points, .. } => {
            let each =
                points.iter().map(|point| format!("{} or below for {}", point.limit(), hours(point.hold_s)));
            each.collect::<Vec<_>>().join("; or ")
        }
        Demand::Listed { .. } => {
            rule.on_curve.as_ref().map_or_else(String::new, |course| curve(course, rule.strict))
        }
        Demand::Cook { .. } | Demand::Reheat { .. } | Demand::CookSurface { .. } => String::new(),
    }
}

/// What is asked of a history, in figures.
fn curve(course: &Course, strict: bool) -> String {
    match course {
        Course::Heat { at, hold_s, z_k, credit } => {
            format!("as much heat as {at} for {}, z {z_k} °C, from {credit} up", hours(*hold_s))
        }
        Course::Between { band, max_s } => between(band, *max_s, strict),
        Course::Fall { from, to, max_s, further } => {
            let from = from.map_or_else(|| "from the start".to_string(), |from| from.to_string());
            let more = if *further { "a further " } else { "" };
            format!("{from} to {to} within {more}{}", hours(*max_s))
        }
        Course::Anything {} => "any temperature".into(),
    }
}

/// How the time out of the heat and the cold is counted, which is where publishers differ.
fn between(band: &Band, max_s: f64, strict: bool) -> String {
    let time = if strict { format!("less than {}", hours(max_s)) } else { hours(max_s) };
    let place = |above: Option<Limit>, below: Option<Limit>| match (above, below) {
        (Some(above), Some(below)) => format!("between {above} and {below}"),
        (Some(above), None) => format!("above {above}"),
        (None, Some(below)) => format!("below {below}"),
        (None, None) => "at any temperature".into(),
    };
    let count = match band.count {
        Count::Total => "every time added up",
        Count::Once => "once only",
        Count::SinceLeaving => "from leaving it to the end",
    };
    let mut figures = format!("{time} {}, {count}", place(band.above, band.below));
    if band.until_cooked {
        figures.push_str(", until it is cooked");
    }
    if let Some(ceiling) = band.ceiling {
        figures.push_str(&format!(", never above {ceiling}"));
    }
    if let Some(back) = band.back_within_s {
        figures.push_str(&format!(", not put back after {}", hours(back)));
    }
    figures
}

fn hours(seconds: f64) -> String {
    crate::quantity::Duration::from_seconds(seconds).show()
}
