//! What readings speak for that fit nothing the file allows.

use super::Reading;
use super::fit::{Bench, OFFSET_K, Tried};
use super::trial::Trial;
use crate::cook::{Origin, Phase};
use crate::findings::{Code, Finding, Piece, Text};
use crate::heat::lines::Detail;
use crate::quantity::{Duration, Length, Temperature};
use crate::say;

/// How much thicker or thinner a piece is tried, as a share.
const THICKER: f64 = 0.4;
/// How much warmer or cooler the kit is tried, K.
const WARMER_K: f64 = 40.0;
/// Points that are tried between the least and the most, and then about the best of them.
const POINTS: u32 = 8;
/// What explains the readings comes as close as this to each of them, K.
const EXPLAINS_K: f64 = 2.0;

/// `best` is the trial that came nearest.
pub fn finding<'l>(bench: &Bench<'l>, best: Option<&Tried<'l>>) -> Finding {
    let food = bench.cook.item(bench.item);
    let found = |message: Text, remedy: Text| Finding {
        food: Some(food.name.clone()),
        ..Finding::new(Code::ReadingContradicts, food.span, message, remedy)
    };
    let near = best.and_then(|best| nearest(bench, best));
    let Some((worst, nearest_c)) = near else {
        let last = bench.readings.last().map_or(0.0, |reading| reading.t_s);
        return found(
            say![
                format!(
                    "A reading was taken when `{}` is in no phase that is predicted, the last one after ",
                    food.name
                ),
                after(last),
                "."
            ],
            say!["Check the times, and when the cook started: `--started \"Fri 22:03\"`."],
        );
    };
    let message = say![
        "After ",
        after(worst.t_s),
        format!(" the probe in `{}` read ", food.name),
        Temperature::from_celsius(worst.core_c),
        "; the nearest that the file allows is ",
        Temperature::from_celsius(nearest_c),
        "."
    ];
    let causes = [thickness(bench, best), setting(bench, best, worst), place(bench, worst)];
    let causes = causes.into_iter().flatten().fold(Text::default(), Text::followed_by);
    let causes = if causes.is_empty() { say!["No one figure explains it by itself. "] } else { causes };
    let measure =
        say!["Measure the piece, and the air or water beside it, and read again in the thickest part."];
    found(message, causes.followed_by(measure))
}

fn after(t_s: f64) -> Piece {
    Duration::from_minutes((t_s / 60.0).round()).into()
}

/// The reading that is furthest from the trial, and what the trial says for that moment.
fn nearest(bench: &Bench<'_>, best: &Tried<'_>) -> Option<(Reading, f64)> {
    let near =
        bench.readings.iter().map(|reading| Some((*reading, bench.core_c(&best.curves, reading.t_s)?)));
    let near = near.collect::<Option<Vec<_>>>()?;
    let miss = |(reading, core_c): &(Reading, f64)| (reading.core_c - core_c).abs();
    near.into_iter().max_by(|a, b| miss(a).total_cmp(&miss(b)))
}

/// Another thickness that explains it.
fn thickness<'l>(bench: &Bench<'l>, best: Option<&Tried<'l>>) -> Option<Text> {
    let written = written_thickness(bench)?;
    let change = |trial, share| Trial { thicker: 1.0 + share, ..trial };
    let share = explains(bench, best, THICKER, change)?;
    Some(say![
        "A piece of ",
        Length::from_metres((written.metres() * (1.0 + share) * 1000.0).round() / 1000.0),
        " would fit; the file says ",
        written,
        ". "
    ])
}

fn written_thickness(bench: &Bench<'_>) -> Option<Length> {
    let kin =
        |phase: &&Phase| phase.placings.iter().any(|placing| bench.layout.kin(placing.item, bench.item));
    let stock = match &bench.cook.item(bench.item).origin {
        Origin::Food(stock) => Some(&stock.shape),
        _ => None,
    };
    let mut shapes = stock.into_iter().chain(bench.cook.phases.iter().filter(kin).map(|phase| &phase.shape));
    shapes.find_map(|shape| shape.thickness.as_ref().or(shape.depth.as_ref())).map(|written| written.value)
}

/// Kit that is warmer or cooler than its setting.
fn setting<'l>(bench: &Bench<'l>, best: Option<&Tried<'l>>, worst: Reading) -> Option<Text> {
    let curves = &best?.curves;
    let kin = curves.foods.iter().filter(|food| bench.layout.kin(food.item, bench.item));
    let mut samples = kin.flat_map(|food| &food.samples);
    let phase = bench.cook.phase(samples.find(|sample| sample.t_s >= worst.t_s)?.phase);
    let (place, setting) = (phase.place.as_ref()?, phase.setting.as_ref()?);
    let change = |trial, warmer_k| Trial { warmer_k, ..trial };
    let warmer_k = explains(bench, best, WARMER_K, change)?;
    Some(say![
        format!("`{}` at ", bench.cook.kit(place.value).name.value),
        Temperature::from_celsius((setting.temperature.celsius() + warmer_k).round()),
        " would fit; it is set to ",
        setting.temperature,
        ". "
    ])
}

/// A probe that is not in the middle, where the readings lie between there and the surface in an even proportion.
fn place(bench: &Bench<'_>, worst: Reading) -> Option<Text> {
    let usual = bench.try_out(Trial::usual(bench.layout), Detail::Trial);
    let predicted =
        bench.readings.iter().map(|reading| Some((*reading, bench.at(&usual.curves, reading.t_s)?)));
    let predicted = predicted.collect::<Option<Vec<_>>>()?;
    let (mut along, mut across) = (0.0, 0.0);
    for (reading, (core_c, surface_c)) in &predicted {
        along += (reading.core_c - core_c) * (surface_c - core_c);
        across += (surface_c - core_c).powi(2);
    }
    let share = along / across;
    let off = |(reading, (core_c, surface_c)): &(Reading, (f64, f64))| {
        (core_c + share * (surface_c - core_c) - reading.core_c).abs()
    };
    let explained =
        share > 0.1 && share <= 1.0 && predicted.iter().map(off).fold(0.0, f64::max) <= EXPLAINS_K + OFFSET_K;
    let (core_c, surface_c) = bench.at(&usual.curves, worst.t_s).filter(|_| explained)?;
    Some(say![
        "A probe nearer the surface than the middle would fit: by then ",
        Temperature::from_celsius(core_c),
        " is predicted in the middle and ",
        Temperature::from_celsius(surface_c),
        " at the surface. "
    ])
}

/// The figure between `-most` and `most` with which the readings are explained, if one does.
fn explains<'l>(
    bench: &Bench<'l>,
    best: Option<&Tried<'l>>,
    most: f64,
    change: impl Fn(Trial<'l>, f64) -> Trial<'l>,
) -> Option<f64> {
    let bases = [Some(Trial::usual(bench.layout)), best.map(|best| best.trial.clone())];
    let mut nearest: Option<(f64, f64)> = None;
    let mut look = |figure: f64| {
        for base in bases.iter().flatten() {
            let off_k = bench.try_out(change(base.clone(), figure), Detail::Trial).misfit.worst_k;
            if nearest.is_none_or(|(_, least)| off_k < least) {
                nearest = Some((figure, off_k));
            }
        }
        nearest
    };
    let step = most / f64::from(POINTS);
    for nth in 0..=2 * POINTS {
        look(f64::from(nth) * step - most);
    }
    let (coarse, _) = look(0.0)?;
    for quarter in [-3.0, -2.0, -1.0, 1.0, 2.0, 3.0] {
        look((coarse + 0.25 * quarter * step).clamp(-most, most));
    }
    nearest.filter(|(figure, off_k)| *off_k <= EXPLAINS_K && *figure != 0.0).map(|(figure, _)| figure)
}
