//! Clauses: each rule of the grammar and what it states.

use pest::iterators::{Pair, Pairs};

use super::draw::{draw, draw_of, part, test};
use super::measure::{bare_measure, measure};
use super::order::{order, when};
use super::words::{checked, cover_kind, kind_and_parent, medium, text_of, words_span};
use super::{Base, Rule};
use crate::cook::Structure;
use crate::syntax::tree::{Bound, ClauseKind};

pub fn clause(rule: Rule, pair: &Pair<'_, Rule>, base: Base) -> Option<ClauseKind> {
    use ClauseKind as K;
    let mut inner = pair.clone().into_inner();
    let one_measure = |inner: &mut Pairs<'_, Rule>| inner.next().map(|pair| measure(pair, base));
    let one_span = |inner: &mut Pairs<'_, Rule>| inner.next().map(|pair| base.span(&pair));
    let one_text = |inner: &mut Pairs<'_, Rule>| inner.next().map(|pair| text_of(pair, base));
    Some(match rule {
        Rule::setting => {
            K::Setting { medium: medium(inner.next()?.as_str())?, measure: one_measure(&mut inner)? }
        }
        Rule::placing => {
            let mut parts: Vec<_> = inner.collect();
            let place = base.span(&parts.pop()?);
            K::Place { parts: parts.into_iter().filter_map(|pair| part(pair, base)).collect(), place }
        }
        Rule::only_place => K::Place { parts: Vec::new(), place: one_span(&mut inner)? },
        Rule::serves => K::Serves { people: one_measure(&mut inner)?, each: one_measure(&mut inner) },
        Rule::rules => K::Rules(one_span(&mut inner)?),
        Rule::about => K::About(one_text(&mut inner)?),
        Rule::by => K::By(one_text(&mut inner)?),
        Rule::adapted_from => K::AdaptedFrom(one_text(&mut inner)?),
        Rule::measures => K::Measures(one_span(&mut inner)?),
        Rule::elevation => K::Elevation(one_measure(&mut inner)?),
        Rule::for_clause => {
            let first = inner.next()?;
            match first.as_rule() {
                Rule::vulnerable => K::VulnerableGuests,
                Rule::up_to => K::ForUpTo(one_measure(&mut inner)?),
                Rule::at_least => K::ForAtLeast(one_measure(&mut inner)?),
                _ => K::For(measure(first, base)),
            }
        }
        Rule::swing => K::Swing(bare_measure(pair.clone(), base)),
        Rule::preheat => K::Preheat(one_measure(&mut inner)?),
        Rule::cools_down => K::CoolsDown(one_measure(&mut inner)?),
        Rule::shelves => K::Shelves(one_measure(&mut inner)?),
        Rule::holds => K::Holds(one_measure(&mut inner)?),
        Rule::moisture => K::Moisture(one_measure(&mut inner)?),
        Rule::room => K::Room(one_measure(&mut inner)?),
        Rule::flag_vented => K::Vented,
        Rule::flag_programmable => K::Programmable,
        Rule::flag_fan => K::Fan,
        Rule::flag_still => K::Still,
        Rule::amount => {
            let amount = one_measure(&mut inner)?;
            let (mut of, mut each) = (None, false);
            for part in inner {
                match part.as_rule() {
                    Rule::measure => of = Some(measure(part, base)),
                    _ => each = true,
                }
            }
            K::Amount { measure: amount, of, each }
        }
        Rule::thickness => K::Thickness(one_measure(&mut inner)?),
        Rule::depth => K::Depth(one_measure(&mut inner)?),
        Rule::shape => K::Shape(one_span(&mut inner)?),
        Rule::starts_at => K::StartsAt(one_measure(&mut inner)?),
        Rule::flag_frozen => K::Frozen,
        Rule::flag_cooked => K::Cooked,
        Rule::trim_loss => K::TrimLoss(one_measure(&mut inner)?),
        Rule::cooked_yield => K::CookedYield(one_measure(&mut inner)?),
        Rule::flag_intact => K::Structure(Structure::Intact),
        Rule::flag_ground => K::Structure(Structure::Ground),
        Rule::flag_tenderised => K::Structure(Structure::Tenderised),
        Rule::flag_injected => K::Structure(Structure::Injected),
        Rule::contains => K::Contains(inner.map(|pair| base.span(&pair)).collect()),
        Rule::from_text => K::Supplier(one_text(&mut inner)?),
        Rule::on_hand => K::OnHand(one_measure(&mut inner)?),
        Rule::flag_same => K::SameForAnyNumber,
        Rule::flag_taste => K::ToTaste,
        Rule::nitrite => K::Nitrite(one_measure(&mut inner)?),
        Rule::becomes => {
            K::Becomes { name: one_span(&mut inner)?, kind: inner.next().map(|pair| words_span(&pair, base)) }
        }
        Rule::cover => K::Cover { kind: cover_kind(inner.next()?.as_str()), stuff: one_span(&mut inner) },
        Rule::with => K::With { measure: one_measure(&mut inner)?, name: one_span(&mut inner)? },
        Rule::smoke => K::Smoke(draw_of(inner.next()?, base)?),
        Rule::takes => K::Takes { measure: one_measure(&mut inner)?, each: inner.next().is_some() },
        Rule::until => K::Until(inner.filter_map(|pair| test(pair, base)).collect()),
        Rule::within => K::Within(one_measure(&mut inner)?),
        Rule::check => {
            let what = checked(inner.next()?.as_str())?;
            let measure = one_measure(&mut inner)?;
            let bound = inner.next().map(|pair| match pair.as_str().as_bytes()[0].to_ascii_lowercase() {
                b'a' | b'm' => Bound::OrMore,
                _ => Bound::OrLess,
            });
            let expect = pair.as_str().as_bytes().first().is_some_and(|b| b.eq_ignore_ascii_case(&b'e'));
            K::Check { what, measure, bound, expect }
        }
        Rule::r#use => K::Use(inner.filter_map(|pair| draw(pair, base)).collect()),
        Rule::collect => {
            let measure = one_measure(&mut inner)?;
            let name = one_span(&mut inner)?;
            let (kind, from) = match inner.next() {
                None => (None, None),
                Some(part) if part.as_rule() == Rule::words => kind_and_parent(&part, base),
                Some(part) => (None, Some(base.span(&part))),
            };
            K::Collect { measure, name, kind, from }
        }
        Rule::do_job => K::Do(one_text(&mut inner)?),
        Rule::at_job => {
            let first = inner.next()?;
            match first.as_rule() {
                Rule::at_end => K::AtEndDo(one_text(&mut inner)?),
                _ => K::AtCoreDo { core: measure(first, base), text: one_text(&mut inner)? },
            }
        }
        Rule::every_job => K::EveryDo { every: one_measure(&mut inner)?, text: one_text(&mut inner)? },
        Rule::hands_on => K::HandsOn(one_measure(&mut inner)),
        Rule::look_in => K::LookIn(one_measure(&mut inner)?),
        Rule::flag_unattended => K::Unattended,
        Rule::order => order(inner, base)?,
        Rule::fills => K::Fills(one_measure(&mut inner)?),
        Rule::note => K::Note(one_text(&mut inner)?),
        Rule::allow => K::Allow { code: one_span(&mut inner)?, because: one_text(&mut inner) },
        Rule::at_when | Rule::on_when => K::At(when(inner.next()?, base)),
        Rule::up_to_late => K::UpToLate(one_measure(&mut inner)?),
        Rule::from_to => {
            let from = when(inner.next()?, base);
            inner.next()?;
            K::FromTo(from, when(inner.next()?, base))
        }
        Rule::guests => K::Guests(when(inner.next()?, base), when(inner.next()?, base)),
        Rule::asleep | Rule::away => {
            let from = one_span(&mut inner)?;
            inner.next()?;
            let to = one_span(&mut inner)?;
            if rule == Rule::asleep { K::Asleep(from, to) } else { K::Away(from, to) }
        }
        _ => return None,
    })
}
