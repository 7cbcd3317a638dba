//! Which of the ways that a cook may go fit what a probe has read.
//!
//! Every figure that is not known exactly is drawn inside its range, each value as likely as any other, and the cook is
//! worked out along the usual line. A crowd of such draws then walks: each step is along the difference between two others,
//! so that figures which make up for each other (a thick piece in strong air, a thin one in weak air) change together, and
//! is taken as often as the readings make it likely (differential evolution Markov chain: ter Braak, Statistics and
//! Computing 16 (2006) 239, from memory). Where the crowd has been, the cook may be going.

use super::Reading;
use super::trial::{Layout, Trial};
use crate::cook::{Cook, ItemId};
use crate::heat::curves::Curves;
use crate::heat::lines::{Detail, LINES, USUAL};
use crate::heat::predict::curves;
use crate::heat::walk::{Run, walk};
use crate::ledger::Ledger;

/// Draws everywhere; the nearest of them are the crowd.
const FIRST: usize = 60;
const CROWD: usize = 20;
/// How often all of the crowd try a step, and how many of these it takes until they have forgotten where they began.
const ROUNDS: usize = 16;
const SETTLES: usize = 5;
/// A step of the whole difference leads from one valley to the next; it is tried each time after so many shorter ones.
const LEAPS: usize = 5;
/// What a step may miss the difference by, as a share of the range.
const STIR: f64 = 0.02;
/// A probe may be off by so much all the time, K. Common practice, no source: a kitchen probe is good to 1 K.
pub const OFFSET_K: f64 = 1.0;
/// One reading differs from the next by so much for no reason, K: the probe's last digit, and air that comes and goes. More
/// than that of most probes, so that a crowd of a few hundred draws leaves room for what it has not met: held to its worth
/// in `tests/heat_readings`.
pub const NOISE_K: f64 = 0.8;
/// A draw is no longer on its way to the others when its sum of squared misses, in units of the noise, is worse than the
/// best by less than this: with the two or three figures that readings tell apart, one of a thousand is worse (the
/// chi-squared distribution).
const WORSE: f64 = 14.0;
/// More readings than this say no more: what is wrong about the model does not average out.
const MOST_READINGS: usize = 16;

/// A trial, and what came of it.
pub struct Tried<'l> {
    pub trial: Trial<'l>,
    pub curves: Curves,
    pub runs: Vec<Run>,
    pub misfit: Misfit,
}

/// How far a curve is from the readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Misfit {
    /// Of squares, K², less what a probe that is always off by the same may account for.
    pub sum: f64,
    /// The greatest miss of all, K, less the same; infinite where the curve has no such moment.
    pub worst_k: f64,
}

/// What is worked out again and again.
pub struct Bench<'b> {
    pub cook: &'b Cook,
    pub ledger: &'b Ledger,
    pub layout: &'b Layout,
    pub item: ItemId,
    /// Thinned out, in the order of time.
    pub readings: Vec<Reading>,
}

impl<'b> Bench<'b> {
    pub fn try_out(&self, trial: Trial<'b>, detail: Detail) -> Tried<'b> {
        let lines = &LINES[..=USUAL];
        let mut walked = walk(self.cook, self.ledger, Some(&trial), lines, detail, self.cook.phases.len());
        let curves = curves(self.cook, &mut walked, detail);
        let misfit = self.misfit(&curves);
        Tried { trial, curves, runs: walked.runs, misfit }
    }

    fn misfit(&self, curves: &Curves) -> Misfit {
        let misses =
            self.readings.iter().map(|reading| Some(reading.core_c - self.core_c(curves, reading.t_s)?));
        let Some(misses) = misses.collect::<Option<Vec<f64>>>() else {
            return Misfit { sum: f64::INFINITY, worst_k: f64::INFINITY };
        };
        let mean = misses.iter().sum::<f64>() / misses.len().max(1) as f64;
        let offset = mean.clamp(-OFFSET_K, OFFSET_K);
        Misfit {
            sum: misses.iter().map(|miss| (miss - offset).powi(2)).sum(),
            worst_k: misses.iter().map(|miss| (miss - offset).abs()).fold(0.0, f64::max),
        }
    }

    /// The core at `t_s`, under whatever name the food goes by then.
    pub fn core_c(&self, curves: &Curves, t_s: f64) -> Option<f64> {
        self.at(curves, t_s).map(|(core_c, _)| core_c)
    }

    /// Core and surface at `t_s`; after the last phase, as the food came out of it.
    pub fn at(&self, curves: &Curves, t_s: f64) -> Option<(f64, f64)> {
        let kin = || curves.foods.iter().filter(|food| self.layout.kin(food.item, self.item));
        let within = kin().find_map(|food| food.at(t_s, |sample| [sample.core_c, sample.surface_c]));
        let within = within.map(|[core_c, surface_c]| (core_c, surface_c));
        let last = kin().filter_map(|food| food.samples.last()).max_by(|a, b| a.t_s.total_cmp(&b.t_s));
        within.or_else(|| last.filter(|last| last.t_s < t_s).map(|last| (last.core_c, last.surface_c)))
    }

    /// Trials that the readings leave, the nearest first; none where no trial has a curve at each reading.
    pub fn fitting(&self) -> Vec<Tried<'b>> {
        let mut dice = Dice(1);
        let mut crowd = self.nearest(&mut dice);
        let mut been = Vec::new();
        for round in 0..ROUNDS {
            for nth in 0..crowd.len() {
                let shares = step(&crowd, nth, round % LEAPS == LEAPS - 1, &mut dice);
                let next = self.try_out(Trial { shares, ..Trial::usual(self.layout) }, Detail::Trial);
                let worse = (next.misfit.sum - crowd[nth].misfit.sum) / (2.0 * self.noise(&crowd));
                if dice.share() < (-worse).exp() {
                    let left = std::mem::replace(&mut crowd[nth], next);
                    been.extend((round > SETTLES).then_some(left));
                }
            }
        }
        been.extend(crowd);
        been.sort_by(|a, b| a.misfit.sum.total_cmp(&b.misfit.sum));
        let most = been.first().map_or(0.0, |best| best.misfit.sum + WORSE * self.noise(&been));
        been.retain(|tried| tried.misfit.sum <= most);
        been
    }

    /// Those that come nearest of draws from everywhere.
    fn nearest(&self, dice: &mut Dice) -> Vec<Tried<'b>> {
        let mut all = vec![self.try_out(Trial::usual(self.layout), Detail::Trial)];
        for _ in 0..FIRST {
            let shares = (0..self.layout.len()).map(|_| Some(dice.share())).collect();
            all.push(self.try_out(Trial { shares, ..Trial::usual(self.layout) }, Detail::Trial));
        }
        all.retain(|tried| tried.misfit.sum.is_finite());
        all.sort_by(|a, b| a.misfit.sum.total_cmp(&b.misfit.sum));
        all.truncate(CROWD);
        all
    }

    /// The square of what a reading is usually off by, K². Where not even the nearest comes near, it is that much.
    fn noise(&self, tried: &[Tried<'_>]) -> f64 {
        let best = tried.iter().map(|tried| tried.misfit.sum).fold(f64::INFINITY, f64::min);
        (best / self.readings.len().max(1) as f64).max(NOISE_K * NOISE_K)
    }
}

/// Where one of the crowd tries to go: along the difference between two others.
fn step(crowd: &[Tried<'_>], nth: usize, leap: bool, dice: &mut Dice) -> Vec<Option<f64>> {
    let from = &crowd[nth].trial.shares;
    let [one, other] = [(); 2].map(|()| &crowd[dice.below(crowd.len())].trial.shares);
    let far = if leap { 1.0 } else { 0.3 + 0.7 * dice.share() };
    let known = |share: Option<f64>| share.unwrap_or(0.5);
    let shares = from.iter().zip(one).zip(other).map(|((from, one), other)| {
        let stirred = STIR * (2.0 * dice.share() - 1.0);
        Some(mirrored(known(*from) + far * (known(*one) - known(*other)) + stirred))
    });
    shares.collect()
}

/// Back inside from where it went out.
fn mirrored(share: f64) -> f64 {
    let over = share.abs() % 2.0;
    if over > 1.0 { 2.0 - over } else { over }
}

/// Readings in the order of time, no more of them than tell something. Of many that lie close together the median stands
/// for all, so that a probe pulled out for a minute says nothing.
pub fn thinned(readings: &[Reading]) -> Vec<Reading> {
    let mut all: Vec<Reading> = readings.to_vec();
    all.sort_by(|a, b| a.t_s.total_cmp(&b.t_s));
    if all.len() <= MOST_READINGS {
        return all;
    }
    let (first, last) = (all[0].t_s, all[all.len() - 1].t_s);
    let bin = |reading: &Reading| {
        (((reading.t_s - first) / (last - first).max(1.0)) * MOST_READINGS as f64)
            .min(MOST_READINGS as f64 - 1.0) as usize
    };
    all.chunk_by(|a, b| bin(a) == bin(b)).map(median).collect()
}

fn median(readings: &[Reading]) -> Reading {
    let middle = |pick: fn(&Reading) -> f64| {
        let mut values: Vec<f64> = readings.iter().map(pick).collect();
        values.sort_by(f64::total_cmp);
        let half = values.len() / 2;
        if values.len() % 2 == 1 { values[half] } else { 0.5 * (values[half - 1] + values[half]) }
    };
    Reading { t_s: middle(|reading| reading.t_s), core_c: middle(|reading| reading.core_c) }
}

/// Numbers that are the same on every run (splitmix64, Steele, Lea and Flood 2014, from memory).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// 0 to 1.
    fn share(&mut self) -> f64 {
        (self.roll() >> 11) as f64 / (1u64 << 53) as f64
    }

    fn below(&mut self, count: usize) -> usize {
        ((self.share() * count as f64) as usize).min(count.saturating_sub(1))
    }
}
