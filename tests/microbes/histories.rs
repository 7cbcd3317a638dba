//! What has to hold of any temperature over time.

use dwell::safety::history::{History, Unusable};
use dwell::safety::microbes::{Sort, exposure, organisms};
use dwell::tables::{FoodState, Species};
use proptest::prelude::*;

const CHICKEN: [Sort; 1] = [Sort { species: Species::Poultry, state: FoodState::Ground }];

/// Seconds and °C.
fn points() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec((0.0..7200.0_f64, -30.0..110.0_f64), 2..30).prop_map(|steps| {
        let mut t_s = 0.0;
        let moment = |(lasts_s, celsius)| {
            t_s += lasts_s;
            (t_s, celsius)
        };
        steps.into_iter().map(moment).collect()
    })
}

/// (reduction, growth) of each organism.
fn figures(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let history = History::from_celsius(points.iter().copied()).expect("a history");
    let figures = |organism| {
        let exposure = exposure(organism, &CHICKEN, &history);
        (exposure.reduction_log10.unwrap_or(0.0), exposure.growth_log10(organism))
    };
    organisms(&CHICKEN).map(figures).collect()
}

proptest! {
    /// More moments on the same straight lines change nothing.
    #[test]
    fn points_between_change_nothing(points in points(), share in 0.0..1.0_f64) {
        let mut finer = Vec::new();
        for pair in points.windows(2) {
            let [(t0, c0), (t1, c1)] = [pair[0], pair[1]];
            finer.extend([(t0, c0), (t0 + share * (t1 - t0), c0 + share * (c1 - c0))]);
        }
        finer.extend(points.last());
        for ((killed, grown), (same_killed, same_grown)) in figures(&points).into_iter().zip(figures(&finer)) {
            prop_assert!((killed - same_killed).abs() <= 1e-9 * killed.max(1.0), "{killed} {same_killed}");
            prop_assert!((grown - same_grown).abs() <= 1e-5, "{grown} {same_grown}");
        }
    }

    /// Going on never takes anything back: heat undoes no growth, and cold no killing.
    #[test]
    fn nothing_is_ever_taken_back(points in points()) {
        let mut before = figures(&points[..2]);
        for count in 3..=points.len() {
            let now = figures(&points[..count]);
            for ((killed, grown), (more_killed, more_grown)) in before.iter().zip(&now) {
                prop_assert!(more_killed >= killed && *more_grown >= grown - 1e-12);
            }
            before = now;
        }
    }

    /// Hotter throughout kills no less.
    #[test]
    fn hotter_kills_no_less(points in points(), by_k in 0.0..20.0_f64) {
        let hotter: Vec<_> = points.iter().map(|(t_s, celsius)| (*t_s, celsius + by_k)).collect();
        for ((killed, _), (more, _)) in figures(&points).into_iter().zip(figures(&hotter)) {
            prop_assert!(more >= killed * (1.0 - 1e-12));
        }
    }

    #[test]
    fn growth_stays_under_its_ceiling(points in points()) {
        for (_, grown) in figures(&points) {
            prop_assert!((0.0..=9.0 + 1e-9).contains(&grown), "{grown}");
        }
    }
}

#[test]
fn killing_counts_from_54_4_degrees_on() {
    let hours = |celsius: f64| figures(&[(0.0, celsius), (36_000.0, celsius)]);
    assert!(hours(54.39).iter().all(|(killed, _)| *killed == 0.0));
    let (killed, _) = hours(54.4)[0];
    assert!(killed > 10.0, "Salmonella, ten hours: {killed}");
}

/// Boiled once, the spores that are left grow on; what grew before is not taken back.
#[test]
fn what_survives_grows_again() {
    let hot = [(0.0, 4.0), (1800.0, 99.0), (5400.0, 99.0)];
    let then_warm = [hot.as_slice(), &[(7200.0, 40.0), (7200.0 + 6.0 * 3600.0, 40.0)]].concat();
    for ((killed, before), (more_killed, after)) in figures(&hot).into_iter().zip(figures(&then_warm)) {
        assert!(more_killed >= killed);
        assert!(after > before + 1.0, "{before} to {after}");
    }
}

#[test]
fn what_is_no_history_is_refused() {
    assert_eq!(History::from_celsius([(0.0, f64::NAN)]), Err(Unusable::NoFigure));
    assert_eq!(History::from_celsius([(f64::INFINITY, 1.0)]), Err(Unusable::NoFigure));
    assert_eq!(History::from_celsius([(1.0, 5.0), (0.0, 5.0)]), Err(Unusable::OutOfOrder));
    assert_eq!(History::from_celsius([]), Err(Unusable::Empty));
    // A jump and a single moment are no faults, and do nothing.
    for points in [vec![(0.0, 5.0), (0.0, 90.0)], vec![(3.0, 60.0)]] {
        assert!(figures(&points).iter().all(|(killed, grown)| *killed == 0.0 && grown.abs() < 1e-12));
    }
}
