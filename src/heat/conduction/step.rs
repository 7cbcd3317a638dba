//! One step in time: TR-BDF2, second order and L-stable, on the heat content of each node.
//!
//! Bank et al. 1985 in the one-step form of Hosea and Shampine 1996 (from memory), with their embedded
//! third-order error estimate. The first step after a jump is the two-stage L-stable SDIRK with the same
//! diagonal (Alexander 1977, from memory): it never uses the flux before the jump, so nothing rings.
//! The heat content is the state; temperatures follow. What leaves one node enters the next, to rounding.

use std::f64::consts::SQRT_2;

use super::field::Field;
use super::material::Material;
use super::mesh::Mesh;
use super::surface::Surface;
use super::tridiagonal::Tridiagonal;

/// The implicit share of a step in either stage, 1 − √2/2.
const D: f64 = 1.0 - SQRT_2 / 2.0;
/// Weight of the first two slopes in TR-BDF2's second stage.
const W: f64 = SQRT_2 / 4.0;
/// Embedded third-order weights less those of the method.
const E: [f64; 3] = [(1.0 - W) / 3.0 - W, (3.0 * W + 1.0) / 3.0 - W, D / 3.0 - D];
/// A linearised stage is accepted when no temperature moved further than this from its guess, K. What the
/// linearisation leaves over is of second order in it, below 1e-6 K for an unfrozen food.
const CLOSE_K: f64 = 0.1;
/// Below freezing the enthalpy is crooked: there the linearised and the true temperature must agree, K.
const CLOSE_FROZEN_K: f64 = 1e-4;
const MOST_ITERATIONS: usize = 30;

/// A point in time: temperature °C, enthalpy J/m³ and its rate W/m³ at every node.
#[derive(Debug, Clone)]
pub struct Point {
    pub t: Vec<f64>,
    pub h: Vec<f64>,
    pub rate: Vec<f64>,
}

impl Point {
    fn new(nodes: usize) -> Self {
        Self { t: vec![0.0; nodes], h: vec![0.0; nodes], rate: vec![0.0; nodes] }
    }
}

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

/// The same with all three to be written.
fn zip3<'b>(
    a: &'b mut [f64],
    b: &'b mut [f64],
    c: &'b mut [f64],
) -> impl Iterator<Item = (&'b mut f64, &'b mut f64, &'b mut f64)> {
    a.iter_mut().zip(b).zip(c).map(|((a, b), c)| (a, b, c))
}

/// The state and all the room a step needs; nothing is allocated while stepping.
#[derive(Debug)]
pub struct Stepper<'a> {
    material: &'a Material,
    mesh: Mesh,
    pub now: Point,
    middle: Point,
    pub next: Point,
    /// Heat capacity, and the enthalpy less capacity times temperature, about which a stage is linearised.
    capacity: Vec<f64>,
    offset: Vec<f64>,
    conductivity: Vec<f64>,
    own: Vec<f64>,
    links: Vec<f64>,
    known: Vec<f64>,
    work: Vec<f64>,
    system: Tridiagonal,
    /// Slope of the surface law at the end of the step, W/(m² K).
    surface_slope: f64,
    /// The step the system is factored for, where it can be kept: constant properties.
    factored_for: f64,
}

impl<'a> Stepper<'a> {
    pub fn new(material: &'a Material, mesh: Mesh, field: &Field) -> Self {
        let n = mesh.nodes();
        let mut now = Point::new(n);
        field.onto(&mesh, &mut now.h);
        for (t, h) in now.t.iter_mut().zip(&now.h) {
            *t = material.temperature_c(*h);
        }
        let mut stepper = Self {
            material,
            now,
            middle: Point::new(n),
            next: Point::new(n),
            capacity: vec![0.0; n],
            offset: vec![0.0; n],
            conductivity: vec![0.0; n],
            own: vec![0.0; n],
            links: vec![0.0; n - 1],
            known: vec![0.0; n],
            work: vec![0.0; n],
            system: Tridiagonal::new(n),
            surface_slope: 0.0,
            factored_for: f64::NAN,
            mesh,
        };
        stepper.next.t.copy_from_slice(&stepper.now.t);
        stepper.linearise_about_next();
        stepper
    }

    pub fn mesh(&self) -> &Mesh {
        &self.mesh
    }

    pub fn field(&self) -> Field {
        Field::from_nodes(&self.mesh, &self.now.h)
    }

    /// Temperature change of a node of `point`, K/s, with the capacities of the last linearisation.
    pub fn rate_k_s(&self, point: &Point, node: usize) -> f64 {
        point.rate[node] / self.capacity[node]
    }

    /// Rate of the mean temperature, K/s.
    pub fn mean_rate_k_s(&self, point: &Point) -> f64 {
        let rates = point.rate.iter().zip(&self.capacity).zip(&self.mesh.volume);
        rates.map(|((r, c), v)| v * r / c).sum::<f64>() / self.mesh.total
    }

    /// Hottest temperature inside for `sign` +1, coldest for −1.
    pub fn foremost_c(&self, sign: f64) -> f64 {
        sign * self.now.t.iter().fold(f64::NEG_INFINITY, |best: f64, t| best.max(sign * t))
    }

    /// The temperature this heat would settle at if it stayed inside.
    pub fn even_c(&self) -> f64 {
        self.material.temperature_c(self.mesh.mean(&self.now.h))
    }

    /// The time, s, in which the surface node follows what surrounds it.
    pub fn surface_time_s(&self, surface: &Surface) -> f64 {
        let last = self.mesh.nodes() - 1;
        let link = if last > 0 { self.mesh.link[last - 1] * self.conductivity[last] } else { 0.0 };
        let pull = link - surface.flux(self.now.t[last]).1.min(0.0);
        self.mesh.volume[last] * self.capacity[last] / pull.max(1e-12)
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
        for ((guess, t, rate), c) in zip(&mut next.t, &now.t, &now.rate).zip(&self.capacity) {
            *guess = t + 2.0 * ahead * rate / c;
        }
        let first = self.stage(weight, at_middle)?;
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
        let second = self.stage(weight, at_end)?;
        // The heat that came in over the step, by the same weights; W/m² now from the rates themselves.
        let now_flux = if w0 > 0.0 {
            self.mesh.volume.iter().zip(&self.now.rate).map(|(v, r)| v * r).sum()
        } else {
            0.0
        };
        let mut heat_j_m2 = dt * (w0 * now_flux + w1 * first + D * second);
        let last = self.mesh.nodes() - 1;
        self.surface_slope = at_end.flux(self.next.t[last]).1;
        let error_k = self.error(dt, after_jump);
        if !after_jump && !self.touches_ice() {
            heat_j_m2 += self.extrapolate(weight);
        }
        Some(Trial { error_k, heat_j_m2 })
    }

    /// Makes `next` the present.
    pub fn accept(&mut self) {
        std::mem::swap(&mut self.now, &mut self.next);
    }

    /// Solves V (H(T) − known) = weight · (net flow at T) for `next`, starting from the guess in `next.t`.
    /// Returns the flux through the surface, W/m².
    fn stage(&mut self, weight: f64, surface: &Surface) -> Option<f64> {
        let last = self.mesh.nodes() - 1;
        let constant = matches!(self.material, Material::Constant { .. });
        for _ in 0..MOST_ITERATIONS {
            if !constant {
                self.linearise_about_next();
            }
            if !constant || self.factored_for != weight {
                self.factor(weight);
            }
            for (((b, v), known), offset) in
                self.work.iter_mut().zip(&self.mesh.volume).zip(&self.known).zip(&self.offset)
            {
                *b = v * (known - offset);
            }
            let (slope, known) = self.system.forward(&mut self.work);
            let surface_c = surface.balance(slope, known, weight, self.next.t[last]);
            self.system.backward(&mut self.work, surface_c);
            if !surface_c.is_finite() {
                return None;
            }
            if self.take_up(constant) {
                let per_second = 1.0 / weight;
                for ((rate, h), known) in self.next.rate.iter_mut().zip(&self.next.h).zip(&self.known) {
                    *rate = (h - known) * per_second;
                }
                return Some((slope * surface_c - known) * per_second);
            }
        }
        None
    }

    /// Moves the solved temperatures from `work` to `next`; true when they are close enough to the guess.
    fn take_up(&mut self, constant: bool) -> bool {
        for (((h, t), c), offset) in
            self.next.h.iter_mut().zip(&self.work).zip(&self.capacity).zip(&self.offset)
        {
            *h = c * t + offset;
        }
        let Material::Food { table, .. } = self.material else {
            self.next.t.copy_from_slice(&self.work);
            return constant;
        };
        let freezing_c = table.freezing_c();
        let mut settled = true;
        for ((guess, &solved), &h) in self.next.t.iter_mut().zip(&self.work).zip(&self.next.h) {
            if solved.min(*guess) >= freezing_c {
                settled &= (solved - *guess).abs() < CLOSE_K;
                *guess = solved;
            } else {
                // Through the enthalpy, or the iteration would jump to and fro across the freezing point.
                let true_c = table.temperature_c(h);
                settled &= (true_c - solved).abs() < CLOSE_FROZEN_K && (solved - *guess).abs() < CLOSE_K;
                *guess = true_c;
            }
        }
        settled
    }

    fn linearise_about_next(&mut self) {
        let properties = zip3(&mut self.capacity, &mut self.offset, &mut self.conductivity);
        match self.material {
            Material::Food { table, .. } => {
                for (&t, (c, offset, k)) in self.next.t.iter().zip(properties) {
                    let state = table.state(t);
                    (*c, *offset, *k) = (state.c, state.h - state.c * t, state.k);
                }
            }
            Material::Constant { .. } => {
                let state = self.material.state(0.0);
                for (c, offset, k) in properties {
                    (*c, *offset, *k) = (state.c, 0.0, state.k);
                }
            }
        }
    }

    fn factor(&mut self, weight: f64) {
        for ((own, v), c) in self.own.iter_mut().zip(&self.mesh.volume).zip(&self.capacity) {
            *own = v * c;
        }
        let pairs = self.conductivity.iter().zip(&self.conductivity[1..]);
        for ((out, link), (k0, k1)) in self.links.iter_mut().zip(&self.mesh.link).zip(pairs) {
            *out = weight * link * 0.5 * (k0 + k1);
        }
        self.system.factor(&self.own, &self.links);
        self.factored_for = weight;
    }

    /// The embedded estimate, K, filtered through the stage's own system so that stiff parts do not count.
    /// Left in `work`; returns the worst.
    fn error(&mut self, dt: f64, after_jump: bool) -> f64 {
        let [e0, e1, e2] = if after_jump { [0.0, D - 1.0, 1.0 - D] } else { E };
        let rates = self.now.rate.iter().zip(&self.middle.rate).zip(&self.next.rate);
        for ((b, v), ((r0, r1), r2)) in self.work.iter_mut().zip(&self.mesh.volume).zip(rates) {
            *b = v * dt * (e0 * r0 + e1 * r1 + e2 * r2);
        }
        self.filter(D * dt);
        self.work.iter().fold(0.0, |worst: f64, e| worst.max(e.abs()))
    }

    /// Adds the estimated error to `next`, filtered once more: the step keeps its damping of stiff parts
    /// (it would lose it with one filter) and gains an order. Returns the heat that this brings in, J/m².
    fn extrapolate(&mut self, weight: f64) -> f64 {
        self.known.copy_from_slice(&self.work);
        for ((b, v), c) in self.work.iter_mut().zip(&self.mesh.volume).zip(&self.capacity) {
            *b *= v * c;
        }
        self.filter(weight);
        let per_second = 1.0 / weight;
        let next = &mut self.next;
        let nodes = next.t.iter_mut().zip(&mut next.h).zip(&mut next.rate);
        let errors = self.work.iter().zip(&self.known).zip(&self.capacity);
        for (((t, h), rate), ((twice, once), c)) in nodes.zip(errors) {
            *t += twice;
            *h += c * twice;
            *rate += c * (twice - once) * per_second;
        }
        self.mesh.volume.iter().zip(&self.capacity).zip(&self.work).map(|((v, c), e)| v * c * e).sum()
    }

    /// Solves the stage's linear system for the right-hand side in `work`.
    fn filter(&mut self, weight: f64) {
        let (slope, known) = self.system.forward(&mut self.work);
        let pull = weight * self.surface_slope.min(0.0);
        self.system.backward(&mut self.work, known / (slope - pull));
    }

    /// True when part of the food is below its freezing point.
    fn touches_ice(&self) -> bool {
        match self.material {
            Material::Constant { .. } => false,
            Material::Food { table, .. } => self.next.t.iter().any(|t| *t < table.freezing_c()),
        }
    }
}
