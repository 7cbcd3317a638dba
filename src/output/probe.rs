//! `dwell probe`: what a log shows, for people and as the format "dwell.probe/1".

use schemars::JsonSchema;
use serde::Serialize;

use super::layout::paragraph;
use super::{clean, escape, human, json, microbes, verdicts};
use crate::compile::Compiled;
use crate::probe::{Probed, Stretch};
use crate::quantity::Duration;

const FORMAT: &str = "dwell.probe/1";

/// A log held against the rules of a cook: as the report of `check`, and what the log did to microbes.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "dwell probe, edition 1")]
struct Report {
    /// Always "dwell.probe/1".
    #[schemars(extend("const" = FORMAT))]
    format: &'static str,
    files: Vec<json::File>,
    findings: Vec<json::Row>,
    judged: Vec<json::Verdict>,
    /// Empty where the log could not be read.
    foods: Vec<Food>,
}

#[derive(Serialize, JsonSchema)]
struct Food {
    name: String,
    stretches: Vec<StretchJson>,
    /// Phases that were not found in the log, and are not judged.
    not_in_log: Vec<String>,
    /// Stretches of which a set of rules asks nothing.
    unruled: Vec<Unruled>,
    /// Some of the time lies in gaps of the log.
    gaps: bool,
    microbes: Vec<microbes::MicrobeJson>,
}

#[derive(Serialize, JsonSchema)]
struct Unruled {
    set: String,
    phases: String,
}

/// What a part of the log was taken for. Times are those of the log.
#[derive(Serialize, JsonSchema)]
struct StretchJson {
    phases: String,
    aim: &'static str,
    start_s: f64,
    end_s: f64,
    because: &'static str,
    /// The log ends before it does.
    cut_off: bool,
}

/// The JSON Schema of [`json()`].
pub fn schema() -> String {
    escape::json(&schemars::schema_for!(Report))
}

/// For tools.
pub fn json(file: &Compiled, probed: Option<&Probed>) -> String {
    let stretch = |stretch: &Stretch| StretchJson {
        phases: stretch.phases.clone(),
        aim: stretch.kind.words(),
        start_s: stretch.start_s,
        end_s: stretch.end_s,
        because: stretch.because,
        cut_off: stretch.cut_off,
    };
    let food = |probed: &Probed| Food {
        name: name(file, probed),
        stretches: probed.stretches.iter().map(stretch).collect(),
        not_in_log: probed.missing.clone(),
        unruled: probed
            .unruled
            .iter()
            .map(|(set, phases)| Unruled { set: set.clone(), phases: phases.clone() })
            .collect(),
        gaps: probed.gaps,
        microbes: probed.microbes.iter().map(microbes::json).collect(),
    };
    let judged = probed.iter().flat_map(|probed| &probed.judged);
    escape::json(&Report {
        format: FORMAT,
        files: vec![json::file(file)],
        findings: file.findings.iter().map(|finding| json::row(file, finding)).collect(),
        judged: judged.map(|judged| json::verdict(file, judged)).collect(),
        foods: probed.into_iter().map(food).collect(),
    })
}

fn name(file: &Compiled, probed: &Probed) -> String {
    file.cooks().first().map(|worked| worked.cook.item(probed.item).name.clone()).unwrap_or_default()
}

/// For people; findings are shown apart.
pub fn text(file: &Compiled, probed: Option<&Probed>) -> String {
    let mut page = human::counts(file);
    let Some(probed) = probed else { return page };
    page.push_str(&format!("\nWhat the log of `{}` was taken for:\n", clean::line(&name(file, probed))));
    for stretch in &probed.stretches {
        let Stretch { kind, phases, start_s, because, .. } = stretch;
        let from = Duration::from_seconds(*start_s);
        let end = if stretch.cut_off { "until the log ends, before it is over" } else { because };
        let line = format!(
            "- {} ({}): from {} of the log, for {}, {end}.",
            clean::line(phases),
            kind.words(),
            from.show(),
            stretch.lasts().show()
        );
        paragraph(&mut page, 2, 4, &line);
    }
    for missing in &probed.missing {
        paragraph(
            &mut page,
            2,
            4,
            &format!("- {}: not found in the log, and not judged.", clean::line(missing)),
        );
    }
    for (set, phases) in &probed.unruled {
        let line =
            format!("- {}: no rule of {} for such food; not judged.", clean::line(phases), clean::line(set));
        paragraph(&mut page, 2, 4, &line);
    }
    if !probed.placed {
        let line = "Nobody says when the cook started, so the plan was not used to find phases: say `--started WHEN`.";
        paragraph(&mut page, 0, 0, line);
    }
    if probed.gaps {
        paragraph(&mut page, 0, 0, "The log has gaps. What falls into a gap is not known, and not judged.");
    }
    paragraph(
        &mut page,
        0,
        0,
        "If a part was taken for the wrong thing, say what was done when: `--done \"NAME=6 h 5 min\"`, or `--phase NAME` for the whole log.",
    );
    page.push('\n');
    page.push_str(&verdicts::of(&probed.judged, None, file.scale, "probe"));
    page.push('\n');
    microbes::text(&mut page, &probed.microbes);
    page.push('\n');
    paragraph(&mut page, 0, 0, LIMITS);
    page
}

const LIMITS: &str = "One probe sees one place. It may not have been where the food was coldest while it heated, or warmest while it cooled, and nothing here is more exact than the probe. It tells nothing about toxins and spores, which later heat does not undo. A rule that is met is one rule met, and no promise about the food.";
