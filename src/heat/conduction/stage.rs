//! One implicit stage: the temperatures at which what a body has gained is what has flowed in.
//!
//! Newton on the enthalpy: each round takes the enthalpy as a straight line about the last temperatures and
//! solves a tridiagonal system whose surface row meets the surface law exactly. The heat content that comes
//! out is the line's, so that what leaves one node enters the next to rounding, whatever is left over.

use super::material::Material;
use super::mesh::Mesh;
use super::surface::Surface;
use super::tridiagonal::Tridiagonal;

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
    pub fn new(nodes: usize) -> Self {
        Self { t: vec![0.0; nodes], h: vec![0.0; nodes], rate: vec![0.0; nodes] }
    }
}

/// A body's properties about one set of temperatures, and the room for a solve.
#[derive(Debug, Clone)]
pub struct Stage<'a> {
    pub material: &'a Material,
    pub mesh: Mesh,
    /// Heat capacity J/(m³ K), and the enthalpy less capacity times temperature, at every node.
    pub capacity: Vec<f64>,
    offset: Vec<f64>,
    pub conductivity: Vec<f64>,
    own: Vec<f64>,
    links: Vec<f64>,
    pub work: Vec<f64>,
    system: Tridiagonal,
    /// The weight the system is factored for, where it can be kept: constant properties.
    factored_for: f64,
}

impl<'a> Stage<'a> {
    pub fn new(material: &'a Material, mesh: Mesh, t: &[f64]) -> Self {
        let n = mesh.nodes();
        let mut stage = Self {
            material,
            capacity: vec![0.0; n],
            offset: vec![0.0; n],
            conductivity: vec![0.0; n],
            own: vec![0.0; n],
            links: vec![0.0; n - 1],
            work: vec![0.0; n],
            system: Tridiagonal::new(n),
            factored_for: f64::NAN,
            mesh,
        };
        stage.linearise(t);
        stage
    }

    /// Solves V (H(T) − known) = weight · (net flow at T) for `point`, starting from the guess in `point.t`.
    /// Returns the flux through the surface, W/m²; `None` when it does not settle.
    pub fn solve(
        &mut self,
        weight: f64,
        surface: &Surface,
        known_h: &[f64],
        point: &mut Point,
    ) -> Option<f64> {
        let last = self.mesh.nodes() - 1;
        let constant = matches!(self.material, Material::Constant { .. });
        for _ in 0..MOST_ITERATIONS {
            if !constant {
                self.linearise(&point.t);
            }
            if !constant || self.factored_for != weight {
                self.factor(weight);
            }
            for (((b, v), known), offset) in
                self.work.iter_mut().zip(&self.mesh.volume).zip(known_h).zip(&self.offset)
            {
                *b = v * (known - offset);
            }
            let (slope, known) = self.system.forward(&mut self.work);
            let surface_c = surface.balance(slope, known, weight, point.t[last]);
            self.system.backward(&mut self.work, surface_c);
            if !surface_c.is_finite() {
                return None;
            }
            if self.take_up(point) {
                let per_second = 1.0 / weight;
                for ((rate, h), known) in point.rate.iter_mut().zip(&point.h).zip(known_h) {
                    *rate = (h - known) * per_second;
                }
                return Some((slope * surface_c - known) * per_second);
            }
        }
        None
    }

    /// Moves the solved temperatures from `work` to `point`; true when they are close enough to the guess.
    fn take_up(&self, point: &mut Point) -> bool {
        for (((h, t), c), offset) in point.h.iter_mut().zip(&self.work).zip(&self.capacity).zip(&self.offset)
        {
            *h = c * t + offset;
        }
        let Material::Food { table, .. } = self.material else {
            point.t.copy_from_slice(&self.work);
            return true; // the line was exact
        };
        let freezing_c = table.freezing_c();
        let mut settled = true;
        for ((guess, &solved), &h) in point.t.iter_mut().zip(&self.work).zip(&point.h) {
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

    /// Takes the properties at these temperatures.
    pub fn linearise(&mut self, t: &[f64]) {
        let both = self.capacity.iter_mut().zip(&mut self.offset);
        let properties = both.zip(&mut self.conductivity);
        match self.material {
            Material::Food { table, .. } => {
                for (&t, ((c, offset), k)) in t.iter().zip(properties) {
                    let state = table.state(t);
                    (*c, *offset, *k) = (state.c, state.h - state.c * t, state.k);
                }
            }
            Material::Constant { .. } => {
                let state = self.material.state(0.0);
                for ((c, offset), k) in properties {
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

    /// Solves the last round's linear system for the right-hand side in `work`, the surface law replaced by
    /// its slope, W/(m² K).
    pub fn filter(&mut self, weight: f64, surface_slope: f64) {
        let (slope, known) = self.system.forward(&mut self.work);
        let pull = weight * surface_slope.min(0.0);
        self.system.backward(&mut self.work, known / (slope - pull));
    }
}
