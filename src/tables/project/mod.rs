//! `dwell.toml`: what one kitchen lays over the built-in tables, foods and kit of its own.
//!
//! Every key that cannot be read is a finding with its place. A row with a fault is left out: half a
//! row would be judged by the wrong rules.

mod rows;

use std::borrow::Cow;

use rows::Figure;
use toml::Spanned as Placed;
use toml::de::{DeTable, DeValue};

use super::names::nearest;
use super::{FoodKind, KitClass, Tables};
use crate::findings::{Code, Finding, Text};
use crate::say;
use crate::text::{FileId, Span, Spanned};

/// What a `dwell.toml` says.
#[derive(Debug, Default)]
pub struct Project {
    /// The rule set of cooks that name none.
    pub rules: Option<Spanned<String>>,
    pub foods: Vec<FoodKind>,
    pub kit: Vec<KitClass>,
    /// Names of rows with a fault, which are left out: a cook that names one is not told so again.
    pub left_out: LeftOut,
}

/// Names under `[foods]` and `[kit]` whose rows could not be used.
#[derive(Debug, Clone, Default)]
pub struct LeftOut {
    pub foods: Vec<String>,
    pub kit: Vec<String>,
}

impl LeftOut {
    fn is_empty(&self) -> bool {
        self.foods.is_empty() && self.kit.is_empty()
    }
}

impl Project {
    /// The text of a `dwell.toml`.
    pub fn read(file: FileId, text: &str) -> (Self, Vec<Finding>) {
        let (table, problems) = DeTable::parse_recoverable(text);
        let mut reader = Reader { file, project: Self::default(), findings: Vec::new() };
        for problem in &problems {
            reader.unreadable(text, problem);
        }
        reader.document(table.get_ref());
        reader.findings.sort_by_key(|finding| finding.span);
        (reader.project, reader.findings)
    }

    /// The built-in tables with these rows laid over them.
    pub fn tables(&self) -> Cow<'static, Tables> {
        let Self { foods, kit, left_out, .. } = self;
        if foods.is_empty() && kit.is_empty() && left_out.is_empty() {
            return Cow::Borrowed(Tables::built_in());
        }
        Cow::Owned(Tables::with(foods.clone(), kit.clone(), left_out))
    }
}

type Value<'i> = Placed<DeValue<'i>>;

struct Reader {
    file: FileId,
    project: Project,
    findings: Vec<Finding>,
}

impl Reader {
    fn span<T>(&self, placed: &Placed<T>) -> Span {
        Span::new(self.file, placed.span().start, placed.span().end)
    }

    fn unreadable(&mut self, text: &str, problem: &toml::de::Error) {
        let range = problem.span().unwrap_or(0..0);
        let start = floor(text, range.start);
        let span = Span::new(self.file, start, floor(text, range.end).max(start));
        self.findings.push(Finding::new(
            Code::OwnFileUnreadable,
            span,
            say!["This line of `dwell.toml` cannot be read: ", problem.message().to_owned(), "."],
            say!["Each line is `key = value`, text stands in \"quotes\", and a block opens with `[foods.\"name\"]` or `[kit.\"name\"]`."],
        ));
    }

    fn document(&mut self, table: &DeTable) {
        for (key, value) in table {
            match key.get_ref().as_ref() {
                "rules" => {
                    if let Some(name) = self.text("rules", value) {
                        let span = self.span(value);
                        self.project.rules = Some(Spanned::new(name.to_owned(), span));
                    }
                }
                "foods" => self.blocks("foods", value, Self::food),
                "kit" => self.blocks("kit", value, Self::kit),
                other => self.unknown(other, self.span(key), &["rules", "foods", "kit"]),
            }
        }
    }

    /// `[foods."NAME"]` or `[kit."NAME"]`, each read by `read`.
    fn blocks(&mut self, heading: &'static str, value: &Value, read: fn(&mut Self, &str, Span, &DeTable)) {
        let blocks = value.get_ref().as_table();
        for (name, block) in blocks.into_iter().flatten() {
            let rows = self.rows();
            match block.get_ref().as_table() {
                Some(table) if !name.get_ref().trim().is_empty() => {
                    read(self, name.get_ref(), self.span(name), table);
                }
                _ => self.not_a_block(heading, self.span(name)),
            }
            if self.rows() == rows {
                let LeftOut { foods, kit } = &mut self.project.left_out;
                let names = if heading == "foods" { foods } else { kit };
                names.push(name.get_ref().to_string());
            }
        }
        if blocks.is_none() {
            self.not_a_block(heading, self.span(value));
        }
    }

    fn rows(&self) -> usize {
        self.project.foods.len() + self.project.kit.len()
    }

    fn text<'v>(&mut self, key: &str, value: &'v Value) -> Option<&'v str> {
        let text = value.get_ref().as_str();
        if text.is_none() {
            let span = self.span(value);
            self.wrong(
                span,
                say!["`", key.to_owned(), "` takes text."],
                say!["Put it in quotes: `", key.to_owned(), " = \"…\"`."],
            );
        }
        text
    }

    /// The one of `choices` that `key` names; `None` with a finding, or where the key is absent.
    fn word<T: Copy>(
        &mut self,
        table: &DeTable,
        key: &'static str,
        choices: &[(T, &'static str)],
    ) -> Option<T> {
        let value = table.get(key)?;
        let typed = self.text(key, value)?;
        let found =
            choices.iter().find(|(_, word)| word.eq_ignore_ascii_case(typed)).map(|(choice, _)| *choice);
        if found.is_none() {
            let words: Vec<&str> = choices.iter().map(|(_, word)| *word).collect();
            let span = self.span(value);
            self.wrong(
                span,
                say!["`", typed.to_owned(), "` is not a ", key, "."],
                say!["It is one of: ", words.join(", "), "."],
            );
        }
        found
    }

    fn figure(&mut self, table: &DeTable, figure: &Figure) -> Option<f64> {
        let value = table.get(figure.key)?;
        let number = match value.get_ref() {
            DeValue::Float(number) => number.as_str().replace('_', "").parse().ok(),
            DeValue::Integer(number) if number.radix() == 10 => number.as_str().replace('_', "").parse().ok(),
            _ => None,
        };
        let within = number.filter(|number| (figure.low..=figure.high).contains(number));
        if within.is_none() {
            let span = self.span(value);
            self.wrong(
                span,
                say!["`", figure.key, "` cannot be that."],
                say![
                    "It takes a number of ",
                    figure.unit,
                    " without quotes, from ",
                    figure.low.to_string(),
                    " to ",
                    figure.high.to_string(),
                    "."
                ],
            );
        }
        within
    }

    fn refuse_unknown(&mut self, table: &DeTable, keys: &[&'static str]) {
        for key in table.keys().filter(|key| !keys.contains(&key.get_ref().as_ref())) {
            self.unknown(key.get_ref(), self.span(key), keys);
        }
    }

    fn unknown(&mut self, key: &str, span: Span, known: &[&'static str]) {
        let near = nearest(key, known.iter().map(|known| (*known, [].as_slice())));
        let list = format!("The keys here are {}.", quoted(known));
        self.findings.push(Finding::new(
            Code::OwnKeyUnknown,
            span,
            say!["`dwell.toml` has no key `", key.to_owned(), "` here."],
            offer(&near, &list),
        ));
    }

    fn not_a_block(&mut self, heading: &'static str, span: Span) {
        self.wrong(
            span,
            say!["`", heading, "` holds blocks, each with the name of one row."],
            say!["Write `[", heading, ".\"name\"]` on a line by itself and the keys below it."],
        );
    }

    fn wrong(&mut self, span: Span, message: Text, remedy: Text) {
        self.findings.push(Finding::new(Code::OwnValueWrong, span, message, remedy));
    }

    fn incomplete(&mut self, span: Span, message: Text, remedy: Text) {
        self.findings.push(Finding::new(Code::OwnRowIncomplete, span, message, remedy));
    }
}

/// "Did you mean …?", else the plain list.
fn offer(near: &[&str], list: &str) -> Text {
    if near.is_empty() {
        say![list.to_owned()]
    } else {
        say!["Did you mean ", quoted(near), "? ", list.to_owned()]
    }
}

fn quoted(words: &[&str]) -> String {
    words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ")
}

/// The nearest character boundary at or before `at`.
fn floor(text: &str, at: usize) -> usize {
    (0..=at.min(text.len())).rev().find(|&at| text.is_char_boundary(at)).unwrap_or(0)
}
