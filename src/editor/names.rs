//! Names across the files of a folder: where one is declared, where it is used, and another name for it.
//!
//! A phase and stock belong to their file. Kit may come from another one (`kit from`), and a file may itself be named
//! (`kit from`, `dish`).

use std::collections::BTreeSet;

use super::pieces::{Piece, Sort, Space, pieces};
use crate::cook::Purpose;
use crate::findings::Edit;
use crate::resolve::{folded, is_reserved};
use crate::syntax::{self, Head, HeadKind, LineKind, Tree};
use crate::text::{FileId, Span};

/// The texts of a folder. The file of a [`Span`] counts them.
pub struct Texts<'t>(Vec<Written<'t>>);

struct Written<'t> {
    text: &'t str,
    pieces: Vec<Piece>,
    bad_lines: usize,
    /// Where a file is named, and which one.
    files: Vec<(Span, usize)>,
    /// Those of them whose kit is this file's too.
    kit_from: Vec<usize>,
    /// Phases that are named after their purpose.
    purposes: Vec<(Span, Purpose)>,
}

/// One thing that has a name, whatever it is called where.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Meant {
    /// The file that declares it.
    home: usize,
    space: Space,
    /// As names are compared.
    name: String,
}

/// Why something cannot be called otherwise, as a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoName(pub String);

/// What a text names other files by, in the order of its lines.
pub fn files_named(text: &str) -> Vec<String> {
    let file = |head: &Head| match head.kind {
        HeadKind::KitFrom { file } | HeadKind::Dish { file, .. } => Some(unquoted(text, file).to_owned()),
        _ => None,
    };
    parsed(0, text).heads.iter().filter_map(file).collect()
}

impl<'t> Texts<'t> {
    /// `leads` says which text it is that another one names.
    pub fn new(texts: &[&'t str], leads: impl Fn(usize, &str) -> Option<usize>) -> Self {
        let written = texts.iter().enumerate().map(|(n, text)| {
            let tree = parsed(n, text);
            let named = |span: Span| leads(n, unquoted(text, span));
            let (mut files, mut kit_from, mut purposes) = (Vec::new(), Vec::new(), Vec::new());
            for head in &tree.heads {
                match head.kind {
                    HeadKind::KitFrom { file } => {
                        files.extend(named(file).map(|other| (file, other)));
                        kit_from.extend(named(file));
                    }
                    HeadKind::Dish { file, .. } => files.extend(named(file).map(|other| (file, other))),
                    HeadKind::Phase { name, purpose: None } => {
                        purposes.extend(Purpose::named(&text[name.range()]).map(|purpose| (name, purpose)));
                    }
                    _ => {}
                }
            }
            Written {
                text,
                pieces: pieces(&tree, text),
                bad_lines: bad_lines(&tree),
                files,
                kit_from,
                purposes,
            }
        });
        Self(written.collect())
    }

    /// Where what stands at a place is declared; of a file, its start.
    pub fn definition(&self, file: usize, offset: usize) -> Option<Span> {
        let written = self.0.get(file)?;
        let is_here = |span: Span| span.start as usize <= offset && offset <= span.end as usize;
        if let Some(&(_, other)) = written.files.iter().find(|(span, _)| is_here(*span)) {
            return Some(Span::new(FileId(other as u16), 0, 0));
        }
        let (_, meant) = self.meant_at(file, offset)?;
        let declared = self.declared(&meant);
        let before = declared.iter().rev().find(|span| meant.home == file && span.start as usize <= offset);
        before.or(declared.first()).copied()
    }

    /// Everywhere that what stands at a place has its name, in the order of files and places.
    pub fn references(&self, file: usize, offset: usize, with_declaration: bool) -> Vec<Span> {
        let Some((_, meant)) = self.meant_at(file, offset) else { return Vec::new() };
        let mut all = self.named(&meant);
        if !with_declaration {
            let declared = self.declared(&meant);
            all.retain(|span| !declared.contains(span));
        }
        all
    }

    /// The name at a place, where it can be another one.
    pub fn renamed_at(&self, file: usize, offset: usize) -> Option<Span> {
        self.meant_at(file, offset).map(|(span, _)| span)
    }

    /// What to write so that what stands at a place is called `new` wherever it is named.
    ///
    /// # Errors
    /// There is no name there, or the new one would change what a line means.
    pub fn rename(&self, file: usize, offset: usize, new: &str) -> Result<Vec<Edit>, NoName> {
        let (_, meant) = self
            .meant_at(file, offset)
            .ok_or_else(|| NoName("Nothing stands here that has a name.".into()))?;
        let no = |why: &str| Err(NoName(format!("`{new}` {why}")));
        if is_reserved(new) {
            return no("is a word of the language, and never a name.");
        }
        let places = self.named(&meant);
        let within: BTreeSet<usize> = places.iter().map(|span| usize::from(span.file.0)).collect();
        let taken = |&file: &usize| self.meant(file, meant.space, new).is_some_and(|other| other != meant);
        if within.iter().chain([&meant.home]).any(taken) {
            return no("is the name of something else already.");
        }
        let edits: Vec<Edit> =
            places.into_iter().map(|span| Edit { span, text: self.called(span, new) }).collect();
        let texts: Vec<String> = (0..self.0.len()).map(|n| self.edited(n, &edits)).collect();
        let after = self.with_texts(&texts);
        let renamed = Meant { name: folded(new).into_owned(), ..meant.clone() };
        for (n, (before, written)) in self.0.iter().zip(&after.0).enumerate() {
            // Read again, every line has to be what it was, but for purposes that have to be written now …
            let sorts = |written: &Written<'_>| {
                let sorts = written.pieces.iter().map(|piece| piece.sort).filter(|sort| *sort != Sort::Kind);
                sorts.collect::<Vec<_>>()
            };
            if before.bad_lines != written.bad_lines || sorts(before) != sorts(written) {
                return no(
                    "would change what a line says. A name is one word of letters, digits and hyphens.",
                );
            }
            // … and every name has to mean what it meant: kit that comes from several files takes the first of a name.
            let expected = self.all_meant(n).into_iter().map(|one| match one {
                Some(one) if one == meant => Some(renamed.clone()),
                other => other,
            });
            if !expected.eq(after.all_meant(n)) {
                return no("would be taken for something else in a file that uses both.");
            }
        }
        Ok(edits)
    }

    /// What to write in the place of a name. A phase that is named after its purpose keeps that.
    fn called(&self, span: Span, new: &str) -> String {
        let purposes = self.0.get(usize::from(span.file.0)).map_or(&[][..], |written| &written.purposes);
        match purposes.iter().find(|(name, _)| *name == span) {
            Some((_, purpose)) if Purpose::named(new) != Some(*purpose) => {
                format!("{new} is {}", purpose.words())
            }
            _ => new.to_owned(),
        }
    }

    fn edited(&self, n: usize, edits: &[Edit]) -> String {
        let own: Vec<Edit> =
            edits.iter().filter(|edit| usize::from(edit.span.file.0) == n).cloned().collect();
        Edit::apply(self.0[n].text, &own)
    }

    /// Other texts that name each other as these do.
    fn with_texts<'o>(&self, texts: &'o [String]) -> Texts<'o> {
        let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
        Texts::new(&texts, |from, named| {
            let Written { text, files, .. } = &self.0[from];
            files.iter().find(|(span, _)| unquoted(text, *span) == named).map(|(_, other)| *other)
        })
    }

    /// What each name of a file stands for, in the order of their places.
    fn all_meant(&self, n: usize) -> Vec<Option<Meant>> {
        let written = &self.0[n];
        let names = written.pieces.iter().filter_map(|piece| match piece.sort {
            Sort::Name { space, .. } => Some(self.meant(n, space, &written.text[piece.span.range()])),
            _ => None,
        });
        names.collect()
    }

    fn meant_at(&self, file: usize, offset: usize) -> Option<(Span, Meant)> {
        let written = self.0.get(file)?;
        let is_here =
            |piece: &&Piece| piece.span.start as usize <= offset && offset <= piece.span.end as usize;
        written.pieces.iter().filter(is_here).find_map(|piece| {
            let Sort::Name { space, .. } = piece.sort else { return None };
            Some((piece.span, self.meant(file, space, &written.text[piece.span.range()])?))
        })
    }

    /// What a name in a file stands for.
    fn meant(&self, file: usize, space: Space, name: &str) -> Option<Meant> {
        let name = folded(name).into_owned();
        let with_s = match name.strip_suffix('s') {
            Some(shorter) => shorter.to_owned(),
            None => format!("{name}s"),
        };
        [name, with_s].into_iter().find_map(|name| {
            let home = self.home(file, space, &name, &mut BTreeSet::new())?;
            Some(Meant { home, space, name })
        })
    }

    /// The file that declares a name which is used in `file`; files may name each other in a circle.
    fn home(&self, file: usize, space: Space, name: &str, seen: &mut BTreeSet<usize>) -> Option<usize> {
        if !seen.insert(file) {
            return None;
        }
        let written = self.0.get(file)?;
        let declares = Sort::Name { space, declares: true };
        let is_it =
            |piece: &Piece| piece.sort == declares && folded(&written.text[piece.span.range()]) == name;
        if written.pieces.iter().any(is_it) {
            return Some(file);
        }
        let others = written.kit_from.iter().filter(|_| space == Space::Kit);
        others.into_iter().find_map(|&other| self.home(other, space, name, seen))
    }

    fn declared(&self, meant: &Meant) -> Vec<Span> {
        let written = &self.0[meant.home];
        let declares = Sort::Name { space: meant.space, declares: true };
        let all = written.pieces.iter().filter(|piece| piece.sort == declares).map(|piece| piece.span);
        all.filter(|span| folded(&written.text[span.range()]) == meant.name).collect()
    }

    fn named(&self, meant: &Meant) -> Vec<Span> {
        let mut all = Vec::new();
        for (n, written) in self.0.iter().enumerate() {
            for piece in &written.pieces {
                let Sort::Name { space, .. } = piece.sort else { continue };
                let is_it = space == meant.space
                    && self.meant(n, space, &written.text[piece.span.range()]).as_ref() == Some(meant);
                if is_it {
                    all.push(piece.span);
                }
            }
        }
        all
    }
}

fn unquoted(text: &str, span: Span) -> &str {
    text[span.range()].trim_matches(['"', '“', '”'])
}

fn parsed(n: usize, text: &str) -> Tree {
    syntax::parse(FileId(n as u16), text).0
}

fn bad_lines(tree: &Tree) -> usize {
    tree.lines.iter().filter(|line| matches!(line.kind, LineKind::Bad { .. })).count()
}
