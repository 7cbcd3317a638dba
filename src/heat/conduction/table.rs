//! Volumetric enthalpy and conductivity of a food as a function of temperature, tabulated once.
//!
//! Below the freezing point tf the knots are even in √(tf/t), which crowds them where the ice forms; above,
//! they are even in t. Between knots the slope of the enthalpy is a straight line and the
//! enthalpy its exact integral, so that heat counted through the slope and through the enthalpy agree.

use super::freezing::Food;

/// The range of the correlations, °C; beyond it the end slope goes on.
const COLDEST_C: f64 = -45.0;
const HOTTEST_C: f64 = 155.0;
const WARM_STEPS: usize = 100;
const COLD_STEPS: usize = 160;

#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Knot {
    /// Enthalpy at the knot, J/m³, its slope by the coordinate and that slope's change to the next knot.
    h: f64,
    slope: f64,
    bend: f64,
    k: f64,
    k_change: f64,
}

/// Enthalpy J/m³, heat capacity J/(m³ K), conductivity W/(m K) at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    pub h: f64,
    pub c: f64,
    pub k: f64,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    freezing_c: f64,
    warm: Box<[Knot; WARM_STEPS + 1]>,
    warm_per_k: f64,
    /// Coordinate √(tf/t), from its value at the coldest temperature up to 1.
    cold: Box<[Knot; COLD_STEPS + 1]>,
    cold_from: f64,
    cold_per_unit: f64,
}

impl Table {
    pub fn new(food: &Food) -> Self {
        let freezing_c = food.freezing_c();
        let warm_step = (HOTTEST_C - freezing_c) / WARM_STEPS as f64;
        let cold_from = (freezing_c / COLDEST_C).sqrt();
        let cold_step = (1.0 - cold_from) / COLD_STEPS as f64;
        // Slope by the coordinate: heat capacity times dt/d(coordinate).
        let warm = |i: usize| {
            let t = freezing_c + i as f64 * warm_step;
            (capacity(food, t) * warm_step, food.conductivity_w_mk(t))
        };
        let cold = |i: usize| {
            let v = cold_from + i as f64 * cold_step;
            // Just below the freezing point itself, so that the last knot is the frozen side of the corner.
            let t = (freezing_c / (v * v)).min(freezing_c - 1e-9);
            (capacity(food, t) * -2.0 * t / v * cold_step, food.conductivity_w_mk(t))
        };
        let cold_knots = knots(0.0, cold);
        let freezing_h = cold_knots[COLD_STEPS].h;
        Self {
            freezing_c,
            warm: knots(freezing_h, warm),
            warm_per_k: 1.0 / warm_step,
            cold: cold_knots,
            cold_from,
            cold_per_unit: 1.0 / cold_step,
        }
    }

    pub fn freezing_c(&self) -> f64 {
        self.freezing_c
    }

    #[inline]
    pub fn state(&self, t_c: f64) -> State {
        if t_c >= self.freezing_c {
            let x = (t_c - self.freezing_c) * self.warm_per_k;
            read(&self.warm, x, self.warm_per_k)
        } else {
            self.frozen_state(t_c)
        }
    }

    fn frozen_state(&self, t_c: f64) -> State {
        if t_c < COLDEST_C {
            let end = self.frozen_state(COLDEST_C);
            return State { h: end.h + end.c * (t_c - COLDEST_C), ..end };
        }
        let v = (self.freezing_c / t_c).sqrt();
        read(&self.cold, (v - self.cold_from) * self.cold_per_unit, self.cold_per_unit * v / (-2.0 * t_c))
    }

    /// The temperature with this enthalpy, °C.
    pub fn temperature_c(&self, h: f64) -> f64 {
        if h >= self.warm[0].h {
            self.freezing_c + find(&self.warm[..], h) / self.warm_per_k
        } else if h >= 0.0 {
            let v = self.cold_from + find(&self.cold[..], h) / self.cold_per_unit;
            self.freezing_c / (v * v)
        } else {
            COLDEST_C + h / self.frozen_state(COLDEST_C).c
        }
    }
}

fn capacity(food: &Food, t_c: f64) -> f64 {
    food.density_kg_m3(t_c) * food.specific_heat_j_kgk(t_c)
}

/// Knots from (slope, conductivity) at each, the slope per step of the coordinate.
fn knots<const N: usize>(start: f64, at: impl Fn(usize) -> (f64, f64)) -> Box<[Knot; N]> {
    let mut out = Box::new([Knot::default(); N]);
    let mut h = start;
    let mut here = at(0);
    for (i, knot) in out.iter_mut().enumerate() {
        let next = if i + 1 < N { at(i + 1) } else { here };
        *knot = Knot { h, slope: here.0, bend: next.0 - here.0, k: here.1, k_change: next.1 - here.1 };
        h += 0.5 * (here.0 + next.0);
        here = next;
    }
    out
}

/// State at coordinate `x` (in steps); `per_k` is the coordinate's change per degree.
#[inline]
fn read<const N: usize>(knots: &[Knot; N], x: f64, per_k: f64) -> State {
    let i = (x as u32 as usize).min(N - 1);
    let f = x - i as u32 as f64;
    let knot = &knots[i];
    State {
        h: knot.h + f * (knot.slope + 0.5 * f * knot.bend),
        c: (knot.slope + f * knot.bend) * per_k,
        k: knot.k + f * knot.k_change,
    }
}

/// The coordinate (in steps) at which the enthalpy is `h`.
fn find(knots: &[Knot], h: f64) -> f64 {
    let i = knots.partition_point(|k| k.h <= h).saturating_sub(1);
    let knot = &knots[i];
    let rest = h - knot.h;
    // Positive root of bend f²/2 + slope f = rest, in the form that does not cancel.
    let root = (knot.slope * knot.slope + 2.0 * knot.bend * rest).max(0.0).sqrt();
    i as f64 + 2.0 * rest / (knot.slope + root)
}
