//! Many files at once: compiled side by side on all cores, handed on in the order in which they were named.

use rayon::ThreadPoolBuilder;
use rayon::prelude::*;

use super::args::Compiling;
use super::files::Named;
use super::progress::Progress;
use super::{Unusable, cooks};
use crate::compile::{Compiled, STACK};

/// So many are compiled before the first of them is handed on: enough to keep all cores busy, few enough that curves and
/// plans, which nobody shows, are never held for a whole folder.
const AT_ONCE: usize = 128;

/// Compiles each file, with the cures of what is wrong in it, and gives it to `take`, whatever the number of threads in
/// the order of `named`.
pub fn compile(named: &[Named], options: &Compiling, mut take: impl FnMut(Result<Compiled, Unusable>)) {
    let asked = cooks::Asked { cures: true, ..cooks::Asked::default() };
    let compile = |one: &Named| cooks::compile(one, options, &asked);
    if let [only] = named {
        return take(compile(only));
    }
    let progress = Progress::over(named.len());
    let compile = |one: &Named| {
        let compiled = compile(one);
        progress.one_more();
        compiled
    };
    match ThreadPoolBuilder::new().stack_size(STACK).build() {
        Ok(threads) => {
            for some in named.chunks(AT_ONCE) {
                let side_by_side = || some.par_iter().with_max_len(1).map(compile).collect::<Vec<_>>();
                threads.install(side_by_side).into_iter().for_each(&mut take);
            }
        }
        // A machine that gives out no more threads still has this one.
        Err(_) => named.iter().map(compile).for_each(take),
    }
}
