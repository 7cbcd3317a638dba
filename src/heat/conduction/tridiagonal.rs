//! A symmetric tridiagonal system, eliminated from the centre outwards up to the surface row.
//!
//! Row i: (own_i + g_{i-1} + g_i) T_i − g_{i-1} T_{i-1} − g_i T_{i+1} = b_i. The surface row is left open,
//! because its right-hand side may depend on the surface temperature in a curved way: elimination turns
//! the whole food into one straight line `slope · T_surface = known` that the surface law is solved with.

/// The factors, and room for one right-hand side.
#[derive(Debug, Clone)]
pub struct Tridiagonal {
    inverse: Vec<f64>,
    /// g_i times the inverse pivot of row i.
    ratio: Vec<f64>,
    surface_pivot: f64,
}

impl Tridiagonal {
    pub fn new(nodes: usize) -> Self {
        Self { inverse: vec![0.0; nodes], ratio: vec![0.0; nodes], surface_pivot: 0.0 }
    }

    /// `own`: diagonal without the conductances, `links`: g_i between nodes i and i+1 (one fewer).
    pub fn factor(&mut self, own: &[f64], links: &[f64]) {
        let last = own.len() - 1;
        // What is left of the link to the inner neighbour after its elimination. Every term is positive:
        // nothing cancels, however long the step.
        let mut carried = 0.0;
        let rows = self.inverse.iter_mut().zip(&mut self.ratio);
        for ((inverse, ratio), (own, link)) in rows.zip(own.iter().zip(links)) {
            let inner = own + carried;
            *inverse = 1.0 / (inner + link);
            *ratio = link * *inverse;
            carried = link * inner * *inverse;
        }
        self.surface_pivot = own[last] + carried;
    }

    /// Eliminates `b` in place; returns (slope, known) of the surface row.
    pub fn forward(&self, b: &mut [f64]) -> (f64, f64) {
        let last = b.len() - 1;
        let mut carried = 0.0;
        for (value, ratio) in b[..last].iter_mut().zip(&self.ratio) {
            *value += carried;
            carried = *value * ratio;
        }
        b[last] += carried;
        (self.surface_pivot, b[last])
    }

    /// Fills in the inner temperatures from the surface inwards, over the eliminated `b`.
    pub fn backward(&self, b: &mut [f64], surface: f64) {
        let last = b.len() - 1;
        b[last] = surface;
        let mut outer = surface;
        let rows = b[..last].iter_mut().zip(&self.inverse[..last]).zip(&self.ratio[..last]);
        for ((value, inverse), ratio) in rows.rev() {
            outer = *value * inverse + ratio * outer;
            *value = outer;
        }
    }
}
