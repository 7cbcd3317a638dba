//! Examples and texts as they are compiled, and their sheets.

use dwell::compile::{Compiled, Options, compile};
use dwell::output::sheet::{self, Part, Wanted};

use super::{Memory, examples};

/// An example with the files that it names.
pub fn example(name: &str) -> Compiled {
    example_with(name, &Options::default())
}

/// The same with what its plan may come to, as `dwell sheet` and `dwell timeline` compile it.
pub fn example_with_outlook(name: &str) -> Compiled {
    example_with(name, &outlook())
}

pub fn outlook() -> Options {
    let timing = dwell::timing::Options { outlook: true, ..Default::default() };
    Options { timing, ..Options::default() }
}

fn example_with(name: &str, options: &Options) -> Compiled {
    let all = examples();
    let files: Vec<(&str, &str)> = all.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let text = files.iter().find(|(known, _)| *known == name).expect("an example").1;
    compile(&Memory(&files), name.into(), text.into(), options)
}

pub fn of_text(text: &str) -> Compiled {
    compile(&Memory(&[]), "test.dwell".into(), text.into(), &Options::default())
}

/// The whole sheet.
pub fn page(file: &Compiled) -> String {
    part(file, Part::Full)
}

pub fn part(file: &Compiled, part: Part) -> String {
    let wanted = Wanted { part, options: Vec::new() };
    sheet::html(file, &wanted).unwrap_or_else(|| panic!("a sheet; there was {:#?}", file.findings))
}
