//! The heat inside a body, layer by layer, in a form that any shape can take up.

use super::material::Material;
use super::mesh::Mesh;

/// A layer's share of the whole volume and its enthalpy, J/m³.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    pub share: f64,
    pub enthalpy_j_m3: f64,
}

/// Layers from the core outwards; the shares sum to 1.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    layers: Vec<Layer>,
}

impl Field {
    pub fn uniform(material: &Material, t_c: f64) -> Self {
        Self { layers: vec![Layer { share: 1.0, enthalpy_j_m3: material.state(t_c).h }] }
    }

    pub fn from_nodes(mesh: &Mesh, enthalpy: &[f64]) -> Self {
        let layer = |(v, h): (&f64, &f64)| Layer { share: v / mesh.total, enthalpy_j_m3: *h };
        Self { layers: mesh.volume.iter().zip(enthalpy).map(layer).collect() }
    }

    pub fn layers(&self) -> &[Layer] {
        &self.layers
    }

    /// J/m³ over the whole.
    pub fn mean_enthalpy_j_m3(&self) -> f64 {
        self.layers.iter().map(|l| l.share * l.enthalpy_j_m3).sum()
    }

    /// Stirred, cut small or laid out anew so that no layer stays where it was.
    pub fn mixed(&self) -> Self {
        Self { layers: vec![Layer { share: 1.0, enthalpy_j_m3: self.mean_enthalpy_j_m3() }] }
    }

    /// Layer by layer the lesser heat of two fields; they have the same layers, or are mixed to have.
    pub fn least(&self, other: &Self) -> Self {
        self.pairwise(other, f64::min)
    }

    /// Layer by layer the greater heat of two fields.
    pub fn most(&self, other: &Self) -> Self {
        self.pairwise(other, f64::max)
    }

    fn pairwise(&self, other: &Self, pick: fn(f64, f64) -> f64) -> Self {
        // A body that starts even is one layer: as even as every layer of the other.
        let even = |field: &Self| (field.layers.len() == 1).then(|| field.layers[0].enthalpy_j_m3);
        let (coarse, fine) =
            if self.layers.len() < other.layers.len() { (self, other) } else { (other, self) };
        let layers = fine.layers.iter().enumerate().map(|(nth, layer)| {
            let twin = even(coarse).or_else(|| coarse.layers.get(nth).map(|layer| layer.enthalpy_j_m3));
            Layer {
                enthalpy_j_m3: twin.map_or(layer.enthalpy_j_m3, |twin| pick(layer.enthalpy_j_m3, twin)),
                ..*layer
            }
        });
        Self { layers: layers.collect() }
    }

    /// Hands the layers to a new mesh: the innermost share of the old volume becomes the innermost share
    /// of the new one. Each node takes the exact integral of the old field over its share, the old field
    /// running in straight pieces (limited, so that nothing gets hotter or colder than its neighbours).
    pub fn onto(&self, mesh: &Mesh, enthalpy: &mut [f64]) {
        let slopes = self.slopes();
        let mut layer = 0;
        let mut begin = 0.0; // where the old layer begins, as a share of the volume
        let mut below = 0.0;
        let last = mesh.nodes() - 1;
        for (i, (volume, out)) in mesh.volume.iter().zip(enthalpy.iter_mut()).enumerate() {
            let above = if i == last { 1.0 } else { below + volume / mesh.total };
            let mut heat = 0.0;
            let mut from = below;
            loop {
                let old = self.layers[layer];
                let end = if layer + 1 == self.layers.len() { 1.0 } else { begin + old.share };
                let to = end.min(above);
                // Deviation of the piece's middle from the layer's middle, where its mean sits.
                let offset = 0.5 * (from + to) - (begin + 0.5 * old.share);
                heat += (to - from) * (old.enthalpy_j_m3 + slopes[layer] * offset);
                from = to;
                if end > above || layer + 1 == self.layers.len() {
                    break;
                }
                layer += 1;
                begin = end;
            }
            *out = heat / (above - below);
            below = above;
        }
    }

    /// Slope of the enthalpy by volume share in each layer: the gentler of the two sides, none at a peak.
    fn slopes(&self) -> Vec<f64> {
        let side = |a: Layer, b: Layer| (b.enthalpy_j_m3 - a.enthalpy_j_m3) / (0.5 * (a.share + b.share));
        let gentler = |x: f64, y: f64| {
            if x * y <= 0.0 { 0.0 } else { x.signum() * x.abs().min(y.abs()) }
        };
        let layers = &self.layers;
        (0..layers.len())
            .map(|i| {
                if i == 0 || i + 1 == layers.len() {
                    return 0.0;
                }
                gentler(side(layers[i - 1], layers[i]), side(layers[i], layers[i + 1]))
            })
            .collect()
    }
}
