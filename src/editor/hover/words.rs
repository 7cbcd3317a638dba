//! Words of the language and ids from its tables.

use super::{At, Hover, View, typed};
use crate::cook::Purpose;
use crate::editor::typing::form_of;
use crate::findings::Code;
use crate::syntax::forms::{self, Form};
use crate::syntax::{Clause, Head};
use crate::tables::RuleSets;
use crate::text::Span;

/// What a clause says, by the block that it stands in.
pub fn clause(view: &View<'_>, at: &At, clause: &Clause) -> Option<Hover> {
    let block = at.block.as_ref().map_or("", |block| block.word.as_str());
    let text = typed(view, clause.span);
    let all = || forms::clauses().iter().copied().chain(forms::WORDLESS);
    let form =
        form_of(all().filter(|form| form.blocks.contains(&block)), text).or_else(|| form_of(all(), text));
    Some(Hover { span: clause.span, said: vec![form?.means.to_owned()] })
}

pub fn head(view: &View<'_>, head: &Head) -> Option<Hover> {
    let form: &Form = form_of(forms::BLOCKS.iter(), typed(view, head.span))?;
    let mut said = vec![form.means.to_owned()];
    said.extend(super::names::serving(view, head.span));
    Some(Hover { span: head.span, said })
}

pub fn purpose(view: &View<'_>, word: Span) -> Option<Vec<String>> {
    let word = typed(view, word);
    let purpose = Purpose::WRITTEN.into_iter().find(|known| known.words().eq_ignore_ascii_case(word))?;
    Some(vec![purpose.means().to_owned()])
}

/// The full name of a set of rules.
pub fn rule_set(view: &View<'_>, name: Span) -> Option<Vec<String>> {
    let set = RuleSets::built_in().find(typed(view, name))?;
    Some(vec![format!("{}, {} ({}).", set.title, set.edition, set.place)])
}

/// What a finding is about.
pub fn code(view: &View<'_>, name: Span) -> Option<Vec<String>> {
    let explained = Code::find(typed(view, name))?.explained();
    Some(vec![format!("{}.", explained.title), explained.checks.to_owned()])
}
