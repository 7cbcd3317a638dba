//! One step in time: TR-BDF2, L-stable, on the heat content of each node.
//!
//! Bank et al. 1985 in the one-step form of Hosea and Shampine 1996 (from memory), second order, with their
//! embedded third-order error estimate. The estimate is added to the step (twice filtered, which keeps it
//! A- and L-stable), so that an unfrozen food is stepped to third order; with ice it stays at second. The
//! first step after a jump is the two-stage L-stable SDIRK with the same diagonal (Alexander 1977, from
//! memory): it never uses the flux before the jump, so nothing rings. The heat content is the state;
//! temperatures follow. What leaves one node enters the next, to rounding.

use std::f64::consts::SQRT_2;

use super::field::Field;
use super::material::Material;
use super::mesh::Mesh;
use super::stage::{Point, Stage};
use super::surface::Surface;

/// The implicit share of a step in either stage, 1 − √2/2.
const D: f64 = 1.0 - SQRT_2 / 2.0;
/// Weight of the first two slopes in TR-BDF2's second stage.
const W: f64 = SQRT_2 / 4.0;
/// Embedded third-order weights less those of the method.
const E: [f64; 3] = [(1.0 - W) / 3.0 - W, (3.0 * W + 1.0) / 3.0 - W, D / 3.0 - D];
/// What a tried step gives besides [`Stepper::next`].
#[derive(Debug, Clone, Copy)]
pub struct Trial {
    /// Estimated error of the step, K, at the worst node.
    pub error_k: f64,
    /// Heat taken in through the surface, J/m².
    pub heat_j_m2: f64,
}

/// Walks three lists side by side, the first to be written.
fn zip<'b>(
    a: &'b mut [f64],
    b: &'b [f64],
    c: &'b [f64],
) -> impl Iterator<Item = (&'b mut f64, &'b f64, &'b f64)> {
    a.iter_mut().zip(b).zip(c).map(|((a, b), c)| (a, b, c))
}

/// The state and all the room that a step needs; nothing is allocated while stepping.
#[derive(Debug, Clone)]
pub struct Stepper<'a> {
    stage: Stage<'a>,
    pub now: Point,
    middle: Point,
    pub next: Point,
    known: Vec<f64>,
}

impl<'a> Stepper<'a> {
    pub fn new(material: &'a Material, mesh: Mesh, field: &Field) -> Self {
        let n = mesh.nodes();
        let mut now = Point::new(n);
        field.onto(&mesh, &mut now.h);
        for (t, h) in now.t.iter_mut().zip(&now.h) {
            *t = material.temperature_c(*h);
        }
        let stage = Stage::new(material, mesh, &now.t);
        Self { stage, now, middle: Point::new(n), next: Point::new(n), known: vec![0.0; n] }
    }

    pub fn mesh(&self) -> &Mesh {
        &self.stage.mesh
    }

    pub fn field(&self) -> Field {
        Field::from_nodes(&self.stage.mesh, &self.now.h)
    }

    /// Temperature change of a node of `point`, K/s, with the capacities of the last linearisation.
    pub fn rate_k_s(&self, point: &Point, node: usize) -> f64 {
        point.rate[node] / self.stage.capacity[node]
    }

    /// Rate of the mean temperature, K/s.
    pub fn mean_rate_k_s(&self, point: &Point) -> f64 {
        let rates = point.rate.iter().zip(&self.stage.capacity).zip(&self.stage.mesh.volume);
        rates.map(|((r, c), v)| v * r / c).sum::<f64>() / self.stage.mesh.total
    }

    /// Hottest temperature inside for `sign` +1, coldest for −1.
    pub fn foremost_c(&self, sign: f64) -> f64 {
        sign * self.now.t.iter().fold(f64::NEG_INFINITY, |best: f64, t| best.max(sign * t))
    }

    /// The temperature this heat would settle at if it stayed inside.
    pub fn even_c(&self) -> f64 {
        self.stage.material.temperature_c(self.stage.mesh.mean(&self.now.h))
    }

    /// The time, s, in which the surface node follows what surrounds it.
    pub fn surface_time_s(&self, surface: &Surface) -> f64 {
        let last = self.stage.mesh.nodes() - 1;
        let link =
            if last > 0 { self.stage.mesh.link[last - 1] * self.stage.conductivity[last] } else { 0.0 };
        let pull = link - surface.flux(self.now.t[last]).1.min(0.0);
        self.stage.mesh.volume[last] * self.stage.capacity[last] / pull.max(1e-12)
    }

    /// Where in a step the first stage lies, as a share of it.
    pub fn middle_share(after_jump: bool) -> f64 {
        if after_jump { D } else { 2.0 * D }
    }

    /// Tries a step of `dt` seconds from `now` into `next`; `None` when the stages do not settle.
    pub fn attempt(
        &mut self,
        dt: f64,
        after_jump: bool,
        at_middle: &Surface,
        at_end: &Surface,
    ) -> Option<Trial> {
        let weight = D * dt;
        // First stage: a guess along the present slope, what is known from the present slope.
        let ahead = if after_jump { 0.0 } else { weight };
        let (now, next) = (&self.now, &mut self.next);
        for (known, h, rate) in zip(&mut self.known, &now.h, &now.rate) {
            *known = h + ahead * rate;
        }
        for ((guess, t, rate), c) in zip(&mut next.t, &now.t, &now.rate).zip(&self.stage.capacity) {
            *guess = t + 2.0 * ahead * rate / c;
        }
        let first = self.stage.solve(weight, at_middle, &self.known, &mut self.next)?;
        std::mem::swap(&mut self.middle, &mut self.next);
        // Second stage, at the end of the step.
        let (w0, w1) = if after_jump { (0.0, 1.0 - D) } else { (W, W) };
        let ahead = 1.0 / Self::middle_share(after_jump);
        let (now, middle) = (&self.now, &self.middle);
        for ((known, h, r0), r1) in zip(&mut self.known, &now.h, &now.rate).zip(&middle.rate) {
            *known = h + dt * (w0 * r0 + w1 * r1);
        }
        for (guess, t0, t1) in zip(&mut self.next.t, &now.t, &middle.t) {
            *guess = t0 + ahead * (t1 - t0);
        }
        let second = self.stage.solve(weight, at_end, &self.known, &mut self.next)?;
        // The heat that came in over the step, by the same weights; W/m² now from the rates themselves.
        let now_flux = if w0 > 0.0 {
            self.stage.mesh.volume.iter().zip(&self.now.rate).map(|(v, r)| v * r).sum()
        } else {
            0.0
        };
        let mut heat_j_m2 = dt * (w0 * now_flux + w1 * first + D * second);
        let last = self.stage.mesh.nodes() - 1;
        let surface_slope = at_end.flux(self.next.t[last]).1;
        let error_k = self.error(dt, after_jump, surface_slope);
        if !after_jump && !self.touches_ice() {
            heat_j_m2 += self.extrapolate(weight, surface_slope);
        }
        Some(Trial { error_k, heat_j_m2 })
    }

    /// Makes `next` the present.
    pub fn accept(&mut self) {
        std::mem::swap(&mut self.now, &mut self.next);
    }

    /// The embedded estimate, K, filtered through the stage's own system so that stiff parts do not count.
    /// Left in `work`; returns the worst.
    fn error(&mut self, dt: f64, after_jump: bool, surface_slope: f64) -> f64 {
        let [e0, e1, e2] = if after_jump { [0.0, D - 1.0, 1.0 - D] } else { E };
        let rates = self.now.rate.iter().zip(&self.middle.rate).zip(&self.next.rate);
        for ((b, v), ((r0, r1), r2)) in self.stage.work.iter_mut().zip(&self.stage.mesh.volume).zip(rates) {
            *b = v * dt * (e0 * r0 + e1 * r1 + e2 * r2);
        }
        self.stage.filter(D * dt, surface_slope);
        self.stage.work.iter().fold(0.0, |worst: f64, e| worst.max(e.abs()))
    }

    /// Adds the estimated error to `next`, filtered once more: the step keeps its damping of stiff parts
    /// (it would lose it with one filter) and gains an order. Returns the heat that this brings in, J/m².
    fn extrapolate(&mut self, weight: f64, surface_slope: f64) -> f64 {
        self.known.copy_from_slice(&self.stage.work);
        for ((b, v), c) in self.stage.work.iter_mut().zip(&self.stage.mesh.volume).zip(&self.stage.capacity) {
            *b *= v * c;
        }
        self.stage.filter(weight, surface_slope);
        let per_second = 1.0 / weight;
        let next = &mut self.next;
        let nodes = next.t.iter_mut().zip(&mut next.h).zip(&mut next.rate);
        let errors = self.stage.work.iter().zip(&self.known).zip(&self.stage.capacity);
        for (((t, h), rate), ((twice, once), c)) in nodes.zip(errors) {
            *t += twice;
            *h += c * twice;
            *rate += c * (twice - once) * per_second;
        }
        self.stage
            .mesh
            .volume
            .iter()
            .zip(&self.stage.capacity)
            .zip(&self.stage.work)
            .map(|((v, c), e)| v * c * e)
            .sum()
    }

    /// True when part of the food is below its freezing point.
    fn touches_ice(&self) -> bool {
        match self.stage.material {
            Material::Constant { .. } => false,
            Material::Food { table, .. } => self.next.t.iter().any(|t| *t < table.freezing_c()),
        }
    }
}
