//! The forecast that all trials have in common which fit the readings.

use super::fit::{Bench, NOISE_K, Tried};
use super::told::Told;
use super::trial::Trial;
use crate::cook::PhaseId;
use crate::heat::band::Band;
use crate::heat::curves::{Curves, FoodCurve, PhaseTimes, Sample};
use crate::heat::findings::findings;
use crate::heat::lines::{COARSE_K, Detail};
use crate::heat::predict::Prediction;
use crate::heat::walk::{Reach, Run};

/// Between the trials lie others that fit as well: what they leave open is widened by such a share of it, and by s.
const WIDER_SHARE: f64 = 0.05;
const WIDER_S: f64 = 60.0;

/// `tried` are the trials that fit, the best first.
pub fn forecast(bench: &Bench<'_>, plain: Prediction, tried: &[Tried<'_>], told: &Told) -> Prediction {
    let shown = bench.try_out(central(bench, tried, told), Detail::Curves).curves;
    let open_s = open_s(bench, &plain.curves, tried, told);
    let kept = Kept { bench, plain: &plain.curves, tried, open_s };
    let phases = plain.curves.phases.iter().map(|times| kept.times(times, &shown)).collect();
    let foods = shown.foods.iter().map(|food| kept.food(food)).collect();
    let kin = |name: &str| {
        let mut foods = plain.curves.foods.iter().filter(|food| bench.layout.kin(food.item, bench.item));
        foods.any(|food| food.name == name)
    };
    if open_s.is_finite() {
        // What may go wrong from there on is what might have without readings.
        return Prediction { curves: Curves { phases, foods, unpredicted: shown.unpredicted }, ..plain };
    }
    let elsewhere =
        plain.findings.iter().filter(|finding| !finding.food.as_deref().is_some_and(kin)).cloned();
    let findings = elsewhere.chain(findings(bench.cook, &kept.runs())).collect();
    Prediction { curves: Curves { phases, foods, unpredicted: shown.unpredicted }, findings }
}

/// The trial that is drawn: everything as it usually is, where that fits as well as half of what fits. Else the one that is
/// likely and has the least unusual figures; what no reading tells of is usual.
fn central<'l>(bench: &Bench<'l>, tried: &[Tried<'l>], told: &Told) -> Trial<'l> {
    let usual = bench.try_out(Trial::usual(bench.layout), Detail::Trial);
    if tried.get(tried.len() / 2).is_none_or(|half| usual.misfit.sum <= half.misfit.sum) {
        return usual.trial;
    }
    let phases = told.been.iter().map(|id| (*id, bench.cook.phase(*id)));
    let told: Vec<usize> = bench.layout.told(bench.item, phases).collect();
    let unusual = |tried: &&Tried<'_>| {
        let shares = told.iter().filter_map(|place| tried.trial.shares[*place]);
        shares.map(|share| (share - 0.5).powi(2)).sum::<f64>() + 0.5 * tried.misfit.sum / NOISE_K.powi(2)
    };
    let chosen = tried.iter().min_by(|a, b| unusual(a).total_cmp(&unusual(b)));
    let share = |place: usize| chosen?.trial.shares[place].filter(|_| told.contains(&place));
    Trial { shares: (0..bench.layout.len()).map(share).collect(), ..Trial::usual(bench.layout) }
}

/// From when on the readings say too little: the food may be in kit that they do not tell of, or in a phase that lasts until
/// another food is done too.
fn open_s(bench: &Bench<'_>, plain: &Curves, tried: &[Tried<'_>], told: &Told) -> f64 {
    let kin = |run: &&Run| bench.layout.kin(run.item, bench.item);
    let Some(first) = tried.first() else { return f64::INFINITY };
    let others: Vec<PhaseId> = first.runs.iter().filter(|run| !kin(run)).map(|run| run.phase).collect();
    let here: Vec<PhaseId> = first.runs.iter().filter(kin).map(|run| run.phase).collect();
    let open = |times: &&PhaseTimes| {
        let id = times.phase;
        let untold = || told.leaves_open(bench, plain, id, bench.cook.phase(id));
        let after = told.read.iter().all(|read| *read < id);
        here.contains(&id) && (times.end_predicted && others.contains(&id) || after && untold())
    };
    let all = std::iter::once(plain).chain(tried.iter().map(|tried| &tried.curves));
    let starts = all.flat_map(|curves| &curves.phases).filter(open);
    starts.map(|times| times.start_s).fold(f64::INFINITY, f64::min)
}

struct Kept<'k> {
    bench: &'k Bench<'k>,
    plain: &'k Curves,
    tried: &'k [Tried<'k>],
    open_s: f64,
}

/// The least and the most of some figures.
fn ends(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    values.fold(None, |ends, value| {
        let (low, high) = ends.unwrap_or((value, value));
        Some((low.min(value), high.max(value)))
    })
}

impl Kept<'_> {
    /// When a phase is, and how long it lasts.
    fn times(&self, plain: &PhaseTimes, shown: &Curves) -> PhaseTimes {
        let Some(shown) = shown.phases.iter().find(|times| times.phase == plain.phase) else {
            return plain.clone();
        };
        // Where it may not get there, nothing says how long people wait.
        let lost = self.tried.iter().flat_map(|tried| &tried.curves.unpredicted);
        let lost = lost.clone().any(|food| self.kin(food.item) && food.phase <= plain.phase);
        let range = |figure: fn(&PhaseTimes) -> f64, low: f64, high: f64| {
            let times = self.tried.iter().flat_map(|tried| &tried.curves.phases);
            let kept = ends(times.filter(|times| times.phase == plain.phase).map(figure));
            let Some((least, most)) = kept.filter(|_| shown.start_s < self.open_s) else {
                return (low, high);
            };
            let wider = WIDER_S + WIDER_SHARE * (most - least);
            let usual = figure(shown).clamp(low, high);
            let most = if lost { high } else { (most + wider).min(high) };
            ((least - wider).max(low).min(usual), most.max(usual))
        };
        let (end_earliest_s, end_latest_s) =
            range(|times| times.end_s, plain.end_earliest_s, plain.end_latest_s);
        let (least_s, most_s) = range(|times| times.end_s - times.start_s, plain.least_s, plain.most_s);
        PhaseTimes {
            start_s: shown.start_s,
            end_s: shown.end_s.clamp(end_earliest_s, end_latest_s),
            end_earliest_s,
            end_latest_s,
            least_s,
            most_s,
            ..plain.clone()
        }
    }

    fn kin(&self, item: crate::cook::ItemId) -> bool {
        self.bench.layout.kin(item, self.bench.item)
    }

    fn food(&self, shown: &FoodCurve) -> FoodCurve {
        let plain = self.plain.foods.iter().find(|food| food.item == shown.item);
        let samples = shown.samples.iter().map(|sample| self.sample(shown, sample)).collect();
        let exits =
            shown.exits.iter().map(|(phase, shown_c)| (*phase, self.exit(plain, shown, *phase, *shown_c)));
        FoodCurve {
            exits: exits.collect(),
            samples,
            // Of one trial alone, its bounds would be no bounds.
            stays: plain.map_or_else(Vec::new, |plain| plain.stays.clone()),
            assumed: plain.map_or_else(|| shown.assumed.clone(), |plain| plain.assumed.clone()),
            ..shown.clone()
        }
    }

    fn sample(&self, food: &FoodCurve, shown: &Sample) -> Sample {
        let mut all = self.plain.foods.iter().filter(|other| match self.kin(food.item) {
            true => self.kin(other.item),
            false => other.item == food.item,
        });
        let plain = all.find_map(|food| food.at(shown.t_s, |sample| [sample.core_low_c, sample.core_high_c]));
        let plain = plain.map(|[low, high]| (low, high));
        let cores = self.tried.iter().filter_map(|tried| self.bench.core_c(&tried.curves, shown.t_s));
        let kept = ends(cores).filter(|_| self.kin(food.item) && shown.t_s < self.open_s);
        let (low, high) = match (kept, plain) {
            (Some((low, high)), Some(plain)) => {
                ((low - COARSE_K).max(plain.0), (high + COARSE_K).min(plain.1))
            }
            (Some((low, high)), None) => (low - COARSE_K, high + COARSE_K),
            (None, plain) => plain.unwrap_or((shown.core_c, shown.core_c)),
        };
        Sample { core_low_c: low.min(shown.core_c), core_high_c: high.max(shown.core_c), ..*shown }
    }

    /// The core as a phase ends.
    fn exit(&self, plain: Option<&FoodCurve>, food: &FoodCurve, phase: PhaseId, shown: Band) -> Band {
        let plain =
            plain.and_then(|food| food.exits.iter().find(|(of, _)| *of == phase)).map(|(_, band)| *band);
        let runs = self.tried.iter().flat_map(|tried| &tried.runs);
        let runs = runs.filter(|run| run.item == food.item && run.phase == phase);
        let started =
            self.plain.phases.iter().any(|times| times.phase == phase && times.start_s < self.open_s);
        let kept = ends(runs.map(|run| run.exit_core_c.typical)).filter(|_| self.kin(food.item) && started);
        let (low, high) = match (kept, plain) {
            (Some((low, high)), Some(plain)) => {
                ((low - COARSE_K).max(plain.low), (high + COARSE_K).min(plain.high))
            }
            (Some((low, high)), None) => (low - COARSE_K, high + COARSE_K),
            (None, plain) => plain.map_or((shown.low, shown.high), |plain| (plain.low, plain.high)),
        };
        Band::new(low.min(shown.typical), shown.typical, high.max(shown.typical))
    }

    /// What came of the food in each phase, over all trials.
    fn runs(&self) -> Vec<Run> {
        let Some(best) = self.tried.first() else { return Vec::new() };
        let merged = best.runs.iter().filter(|run| self.kin(run.item)).map(|run| {
            let same = |other: &&Run| other.item == run.item && other.phase == run.phase;
            let all = || self.tried.iter().flat_map(|tried| tried.runs.iter().filter(same));
            let around = |typical: f64, pick: fn(&Run) -> Option<f64>| {
                let (low, high) = ends(all().filter_map(pick)).unwrap_or((typical, typical));
                Band::new(low, typical, high)
            };
            Run {
                item: run.item,
                phase: run.phase,
                instants: Vec::new(),
                tail: Vec::new(),
                exit_core_c: around(run.exit_core_c.typical, |run| Some(run.exit_core_c.typical)),
                reach: match run.reach {
                    Reach::Sure => Reach::Sure,
                    Reach::Short { limit_c, .. } => {
                        Reach::Short { limit_c, possible: all().any(|run| run.reach == Reach::Sure) }
                    }
                },
                alone_s: run
                    .alone_s
                    .map(|usual| around(usual.typical, |run| run.alone_s.map(|band| band.typical))),
            }
        });
        merged.collect()
    }
}
