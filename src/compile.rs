//! The stages in order: from the text of a file to everything that can be said about it.

mod allow;
mod changed;
mod choices;
mod lengths;
mod lived;
mod meal;
mod own;
mod probing;
mod rules;
mod since;
mod spared;
mod stages;

use std::collections::BTreeSet;

use crate::carried::{self, Opened};
use crate::cook::{Cook, Document, Happened};
use crate::cures::Found;
use crate::findings::{Code, Finding, Severity, Stage};
use crate::heat::Curves;
use crate::ledger::Ledger;
use crate::quantity::{Scale, Temperature};
use crate::safety::{Deadline, Judged};
use crate::tables::{Project, RuleSet, RuleSets};
use crate::text::{FileId, Files, Source, Sources};
use crate::timing::{self, Timeline};
use crate::{kit, load, log, resolve};

/// What a thread that compiles needs: what the first one of a program usually has, bytes. The search for a plan goes deep.
pub const STACK: usize = 8 << 20;

/// What whoever runs the compiler may decide.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// The rule set to judge by, whatever the file says.
    pub rules: Option<String>,
    /// The people to scale the cook to.
    pub serves: Option<u32>,
    /// Only what a file declares is judged: nothing is predicted and nothing planned, which takes the time.
    pub declared_only: bool,
    /// The curves are not shown, and left out: findings and the plan need only the ends of phases.
    pub outline: bool,
    /// Changes that would cure a finding are tried, each by compiling again, and told in its remedy.
    pub cures: bool,
    /// What a probe has read so far.
    pub readings: Readings,
    /// Where the first serving moves to, and the zone of dates without one.
    pub timing: timing::Options,
}

/// Probe readings of one food.
#[derive(Debug, Clone, Default)]
pub struct Readings {
    /// By the name it has in the file; without one, the first food that has a curve.
    pub food: Option<String>,
    /// When each was taken, and the core.
    pub all: Vec<(Happened, Temperature)>,
    /// A log of more: how it is called, and its bytes.
    pub log: Option<(String, Vec<u8>)>,
    /// When the cook started, where the plan leaves that open or was not kept to.
    pub started: Option<Happened>,
}

/// A file and all that was found out about it.
#[derive(Debug)]
pub struct Compiled {
    /// As it was named.
    pub path: String,
    pub sources: Sources,
    /// `None` where the file could not be read at all.
    pub document: Option<Document>,
    /// One for each of [`cooks`](Self::cooks), in their order.
    worked: Vec<Worked>,
    /// The plan of all dishes of a menu together.
    meal: Option<Timeline>,
    /// The scale that people see: that of the file, unless somebody asks for another.
    pub scale: Scale,
    /// In the order of files and places; none twice.
    pub findings: Vec<Finding>,
}

/// What the stages made of one cook.
#[derive(Debug, Default)]
struct Worked {
    ledger: Ledger,
    curves: Curves,
    judged: Vec<Judged>,
    deadlines: Vec<Deadline>,
    sets: Vec<&'static RuleSet>,
    timeline: Option<Timeline>,
}

/// A cook and what the stages made of it.
#[derive(Debug, Clone, Copy)]
pub struct CompiledCook<'c> {
    pub cook: &'c Cook,
    pub ledger: &'c Ledger,
    /// Predicted temperatures; empty where a line was not understood.
    pub curves: &'c Curves,
    pub judged: &'c [Judged],
    /// What its rules say has to have come about by when.
    pub deadlines: &'c [Deadline],
    /// The sets that judge it.
    pub sets: &'c [&'static RuleSet],
    /// `None` where a line was not understood: its times would be those of another cook.
    pub timeline: Option<&'c Timeline>,
}

impl Compiled {
    /// The cook, or the dishes of the menu.
    pub fn cooks(&self) -> Vec<CompiledCook<'_>> {
        let cooks: Vec<&Cook> = match &self.document {
            Some(Document::Cook(cook)) => vec![cook],
            Some(Document::Menu(menu)) => menu.dishes.iter().map(|dish| &dish.cook).collect(),
            Some(Document::Kitchen(_)) | None => Vec::new(),
        };
        let both = cooks.into_iter().zip(&self.worked);
        both.map(|(cook, worked)| {
            let Worked { ledger, curves, judged, deadlines, sets, timeline } = worked;
            CompiledCook { cook, ledger, curves, judged, deadlines, sets, timeline: timeline.as_ref() }
        })
        .collect()
    }

    /// The one plan for all dishes of a menu; `None` where it is no menu or a line was not understood.
    pub fn meal(&self) -> Option<&Timeline> {
        self.meal.as_ref()
    }

    /// When the cook that a reading is of started, on the clock of its plan, where that was said and is near the plan.
    pub fn started(&self, said: Option<Happened>) -> Option<(timing::Clock, timing::Minute)> {
        let cooks = self.cooks();
        let [only] = cooks.as_slice() else { return None };
        let start = since::Start::of(only.cook, Some(said?), only.timeline?).ok()?;
        Some((start.clock, start.minute.round() as timing::Minute))
    }

    /// The text of the file that was named.
    fn main_text(&self) -> &str {
        if self.sources.is_empty() { "" } else { &self.sources.get(FileId(0)).text }
    }

    /// Whether every line was understood. What follows from half a cook is not worth having, and may
    /// be dangerous.
    pub fn understood(&self) -> bool {
        self.document.is_some() && !self.findings.iter().any(unclear)
    }
}

/// A line or a name that has no effect because of this finding.
fn unclear(finding: &Finding) -> bool {
    let reading = matches!(finding.code.stage(), Stage::Syntax | Stage::Units | Stage::Names);
    reading && finding.severity == Severity::Error
}

/// Compiles a file whose bytes are at hand; `files` gives the ones that it names. Of a page that carries its texts, those
/// are compiled, and they name each other alone.
pub fn compile(files: &dyn Files, path: String, bytes: Vec<u8>, options: &Options) -> Compiled {
    match carried::open(&path, bytes) {
        Opened::Text(bytes) => {
            let name = Source::file_name(&path);
            compile_text(files, Main { path, name, bytes }, options)
        }
        Opened::Page(page) => {
            let main =
                Main { path: page.shown(page.name()), name: page.name().to_owned(), bytes: page.bytes() };
            compile_text(&page, main, options)
        }
        Opened::Fault(fault) => {
            let mut compiled = Compiled::of_nothing(path.clone());
            let finding = fault.finding(&mut compiled.sources, path);
            compiled.findings.push(finding);
            compiled
        }
    }
}

/// The file that everything starts from.
struct Main {
    path: String,
    name: String,
    bytes: Vec<u8>,
}

fn compile_text(files: &dyn Files, main: Main, options: &Options) -> Compiled {
    let mut compiled = plainly(files, main, options);
    if options.cures {
        let found = cures(&compiled, files, options);
        compiled.cure(found);
    }
    compiled
}

/// Tries changes that would cure what was found in a text; `files` and `options` are those that it was compiled with.
pub fn cures(compiled: &Compiled, files: &dyn Files, options: &Options) -> Vec<Found> {
    changed::cures(compiled, files, options)
}

/// All stages but the one that tries changes.
fn plainly(files: &dyn Files, main: Main, options: &Options) -> Compiled {
    let Main { path, name, bytes } = main;
    let mut compiled = Compiled::of_nothing(path.clone());
    match load::admit(&mut compiled.sources, path, name, bytes) {
        Ok(file) => compiled.read(files, file, options),
        Err(finding) => compiled.findings.push(*finding),
    }
    compiled.findings.sort_by_key(|finding| (finding.span, finding.severity, finding.code));
    compiled.say_once(&mut BTreeSet::new());
    compiled
}

impl Compiled {
    fn of_nothing(path: String) -> Self {
        Self {
            path,
            sources: Sources::default(),
            document: None,
            worked: Vec::new(),
            meal: None,
            scale: Scale::default(),
            findings: Vec::new(),
        }
    }

    fn read(&mut self, files: &dyn Files, file: FileId, options: &Options) {
        let path = self.sources.get(file).path.clone();
        let own = own::read(files, &mut self.sources, &path, &mut self.findings);
        let tables = own.tables();
        let rule_sets: Vec<String> = RuleSets::built_in().names().map(str::to_owned).collect();
        let context = resolve::Context { files, tables: &tables, rule_sets: &rule_sets };
        let (mut document, found) = resolve::resolve(&context, &mut self.sources, file);
        self.findings.extend(found);

        let understood = !self.findings.iter().any(unclear);
        let log = options.readings.log.clone().map(|(path, bytes)| log::read(&mut self.sources, path, bytes));
        let (log, found) = log.unwrap_or_default();
        self.findings.extend(found);
        let work = stages::Work { options, log: &log, own_rules: own.rules.as_ref(), understood };
        match &mut document {
            Some(Document::Cook(cook)) => {
                self.scale = cook.scale;
                self.worked =
                    vec![work.cook(cook, options.serves, None, &options.timing, &mut self.findings)];
            }
            Some(Document::Menu(menu)) => {
                self.scale = menu.dishes.first().map(|dish| dish.cook.scale).unwrap_or_default();
                (self.worked, self.meal) = work.menu(menu, &mut self.findings);
            }
            Some(Document::Kitchen(kit)) => self.findings.extend(kit::check_kitchen(kit)),
            None => {}
        }
        self.document = document;
    }

    /// Puts down the cures of what was found.
    pub fn cure(&mut self, found: Vec<Found>) {
        for found in found {
            let Some(finding) = self.findings.get_mut(found.finding) else { continue };
            finding.remedy = std::mem::take(&mut finding.remedy).followed_by(found.tried);
            finding.cure = Some(found.cure);
        }
    }

    /// Drops what was said before: a fault in shared kit is found again by every cook that uses it.
    pub fn say_once(&mut self, said: &mut BTreeSet<Said>) {
        let Self { sources, findings, scale, .. } = self;
        findings.retain(|finding| {
            let path = sources.get(finding.span.file).path.clone();
            said.insert(Said(path, finding.span.start, finding.code, finding.message.render(*scale)))
        });
    }
}

/// What makes two findings the same for a reader.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Said(String, u32, Code, String);

pub use allow::{can_be_allowed, silences};
pub use probing::Probing;

/// What the `dwell.toml` says that counts for the file `from`, for whoever only wants the tables in force there.
pub fn own_tables(files: &dyn Files, from: &str) -> Project {
    own::read(files, &mut Sources::default(), from, &mut Vec::new())
}
