//! The grid: nodes from the centre to the surface, each with the volume around it.

use super::shape::Form;

/// Finite volumes around nodes; the first node is the centre and the last the surface. All sizes are per
/// square metre of surface, so a still body has volume R/(β+1).
#[derive(Debug, Clone)]
pub struct Mesh {
    /// Volume around each node, m³ per m² of surface.
    pub volume: Vec<f64>,
    /// Area over distance between neighbours, 1/m per m² of surface; times k it is a conductance.
    pub link: Vec<f64>,
    /// Sum of the volumes.
    pub total: f64,
}

/// How much finer the cells are at the surface than in the middle of the radius: r/R = ξ + a sin(πξ)/π.
const CROWDING: f64 = 0.25;

impl Mesh {
    /// One node when the body is stirred; otherwise `cells` for a slab and more the rounder the body: at
    /// the same count a ball comes out about three times as far off (measured against the exact series).
    pub fn new(form: &Form, cells: usize) -> Self {
        let radius = form.half_thickness_m;
        let beta = form.beta;
        if form.stirred {
            let total = radius / (beta + 1.0);
            return Self { volume: vec![total], link: Vec::new(), total };
        }
        let cells = (cells as f64 * (1.0 + beta / 3.0)).round() as usize;
        let place = |xi: f64| xi + CROWDING * (std::f64::consts::PI * xi).sin() / std::f64::consts::PI;
        let node = |i: usize| {
            if i == cells { 1.0 } else { place(i as f64 / cells as f64) }
        };
        let face = |i: usize| 0.5 * (node(i) + node(i + 1));
        let inside = |x: f64| x.powf(beta + 1.0) / (beta + 1.0) * radius;
        let mut volume = Vec::with_capacity(cells + 1);
        let mut link = Vec::with_capacity(cells);
        let mut below = 0.0;
        for i in 0..=cells {
            let above = if i == cells { inside(1.0) } else { inside(face(i)) };
            volume.push(above - below);
            below = above;
            if i < cells {
                link.push(face(i).powf(beta) / ((node(i + 1) - node(i)) * radius));
            }
        }
        Self { volume, link, total: inside(1.0) }
    }

    pub fn nodes(&self) -> usize {
        self.volume.len()
    }

    /// Volume mean of a value given at the nodes.
    pub fn mean(&self, values: &[f64]) -> f64 {
        self.volume.iter().zip(values).map(|(v, x)| v * x).sum::<f64>() / self.total
    }
}
