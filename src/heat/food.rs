//! A food on its way: what it is made of, its shape by now, and the heat in it.

use std::cell::Cell;
use std::collections::BTreeMap;

use super::band::Band;
use super::conduction::composition::Composition;
use super::conduction::error::HeatError;
use super::conduction::field::Field;
use super::conduction::freezing::{Food as Matter, USUAL_FREEZING_C};
use super::conduction::material::Material;
use super::conduction::shape::{Form, Likeness};
use super::following::LeftKit;
use super::lines::{LINES, Side};
use super::piece::Piece;
use super::readings::Trial;
use crate::cook::{Form as Word, Item, ItemId, KitId, Origin};
use crate::tables::{FoodKind, FoodState, Properties, Species};

/// Stock that is kept in a fridge, where nothing says how cold it is, °C. Common practice, no source.
const CHILLED_C: Band = Band::new(1.0, 4.0, 7.0);
/// Stock from the shelf, °C. Common practice, no source.
const SHELF_C: Band = Band::new(15.0, 20.0, 25.0);
/// Frozen stock, °C. Common practice, no source.
pub const FROZEN_C: Band = Band::new(-22.0, -18.0, -15.0);

/// Conduction alone makes hours of what bakes in minutes. Common knowledge of bakers; no source.
const RISES: &str = "dough bakes by the steam in its bubbles, which is not predicted; a probe or a clock says when it is done";

#[derive(Debug, Clone)]
pub struct Food {
    pub item: ItemId,
    pub material: Material,
    pub state: FoodState,
    pub piece: Piece,
    /// One piece of it.
    pub piece_kg: Option<f64>,
    /// The heat in it along each of [`LINES`].
    pub fields: Vec<Field>,
    /// How long its surface has been drying, s in air of 110 °C that would do the same.
    pub dried_s: f64,
    /// The kit with a setting that it has been in.
    pub kits: BTreeMap<KitId, LeftKit>,
    pub assumed: Vec<String>,
    /// Thickness and volume of the piece whose shape factor was worked out last, and that factor.
    worked_out: Cell<Option<(f64, f64, f64)>>,
}

impl Food {
    /// Fresh from nowhere: no kit has seen it, and its surface has not dried.
    pub fn new(
        item: ItemId,
        material: Material,
        state: FoodState,
        piece: Piece,
        fields: Vec<Field>,
        assumed: Vec<String>,
    ) -> Self {
        let (kits, worked_out) = Default::default();
        Self { item, material, state, piece, piece_kg: None, fields, dried_s: 0.0, kits, assumed, worked_out }
    }

    /// The same under another name.
    pub fn called(&self, item: ItemId, state: FoodState) -> Self {
        Self { item, state, ..self.clone() }
    }

    /// As it is bought; `start_share` of the way from the coldest that it may be to the warmest, where that is tried.
    ///
    /// # Errors
    /// What is missing, in a cook's words.
    pub fn bought(id: ItemId, item: &Item, start_share: Option<f64>) -> Result<Self, String> {
        let Origin::Food(stock) = &item.origin else {
            return Err("only a `food` has a temperature that is followed".to_string());
        };
        let Some(kind) = &item.kind else {
            return Err(format!("say what kind of food `{}` is, as the food table calls it", item.name));
        };
        let material = material(&kind.value)?;
        let mut assumed = Vec::new();
        let start = match (&stock.starts_at, stock.frozen) {
            (Some(at), _) => Band::exact(at.value.celsius()),
            (None, Some(_)) => FROZEN_C,
            (None, None) if is_chilled(&kind.value) => CHILLED_C,
            (None, None) => SHELF_C,
        };
        if stock.starts_at.is_none() {
            assumed.push(format!("`{}` at {} °C as it comes out of the store", item.name, start.typical));
        }
        let mut piece = Piece::default();
        piece.take(&stock.shape);
        let fields = LINES
            .iter()
            .map(|line| {
                Field::uniform(
                    &material,
                    match (line.side, start_share) {
                        (Side::Usual, Some(share)) => start.at(share),
                        (side, _) => side.of(start),
                    },
                )
            })
            .collect();
        Ok(Self::new(id, material, kind.value.state, piece, fields, assumed))
    }

    /// Found at `core_c` °C throughout, wherever it came from.
    ///
    /// # Errors
    /// What is missing, in a cook's words.
    pub fn at(id: ItemId, item: &Item, core_c: f64) -> Result<Self, String> {
        let Some(kind) = &item.kind else {
            return Err(format!("say what kind of food `{}` is, as the food table calls it", item.name));
        };
        let material = material(&kind.value)?;
        let fields = LINES.iter().map(|_| Field::uniform(&material, core_c)).collect();
        let assumed = vec![format!("`{}` at {core_c:.0} °C throughout when it is first followed", item.name)];
        Ok(Self::new(id, material, kind.value.state, Piece::default(), fields, assumed))
    }

    /// Its shape along each of [`LINES`]; `stirred` where it is one pot of liquid that moves, `trial` where one thickness is
    /// tried.
    ///
    /// # Errors
    /// What is missing, in a cook's words.
    pub fn forms(&self, name: &str, stirred: bool, trial: Option<&Trial<'_>>) -> Result<Vec<Form>, String> {
        let Some(thickness) = self.piece.thickness_m else {
            return Err(if matches!(self.state, FoodState::Liquid | FoodState::Thick) {
                format!("say how deep `{name}` lies: `depth 6 cm`")
            } else {
                format!("say how thick `{name}` is at its thickest: `thickness 8 cm`")
            });
        };
        let beta = self.beta(thickness.typical);
        LINES
            .iter()
            .map(|line| {
                let through = match line.thick {
                    Side::Usual => {
                        trial.map_or(thickness.typical, |trial| trial.thickness_m(thickness, self.item))
                    }
                    Side::Cold => thickness.high,
                    Side::Warm => thickness.low,
                };
                // A stirred pot is heated from below, a still layer from both faces.
                let reach = if stirred { through } else { through / 2.0 };
                let form = Form::new(reach, beta).map_err(|_| out_of_reach(name, through, stirred))?;
                Ok(if stirred { form.stirred() } else { form })
            })
            .collect()
    }

    /// The usual core, °C.
    pub fn core_c(&self) -> f64 {
        let innermost = self.fields.first().and_then(|field| field.layers().first());
        innermost.map_or(f64::NAN, |layer| self.material.temperature_c(layer.enthalpy_j_m3))
    }

    /// Says so where the piece is lighter than a ball as thick as it: then the thickness, or the weight, is not its own.
    pub fn doubt_thickness(&mut self) {
        let (None, Some(thickness), Some(kg)) = (self.piece.form, self.piece.thickness_m, self.piece_kg)
        else {
            return;
        };
        let volume = kg / self.material.density_kg_m3(20.0);
        if let Err(HeatError::TooLightForThickness { .. }) = Form::from_thickness(thickness.typical, volume) {
            let doubt = format!(
                "a roll, long for its thickness: a piece of {:.1} kg can hardly be {:.0} cm thick all through; measure again",
                kg,
                100.0 * thickness.typical
            );
            if !self.assumed.contains(&doubt) {
                self.assumed.push(doubt);
            }
        }
    }

    /// The shape factor: from a word, else from how wide a piece of that weight and thickness has to be.
    fn beta(&self, thickness_m: f64) -> f64 {
        match self.piece.form {
            Some(Word::Slab) => return 0.0,
            Some(Word::Cylinder) => return Likeness::CylinderLike.beta(),
            Some(Word::Ball) => return Likeness::SphereLike.beta(),
            None => {}
        }
        let Some(volume) = self.piece_kg.map(|kg| kg / self.material.density_kg_m3(20.0)) else {
            return Likeness::CylinderLike.beta();
        };
        // The same piece is asked about in every phase.
        if let Some((thickness, known, beta)) = self.worked_out.get()
            && (thickness, known) == (thickness_m, volume)
        {
            return beta;
        }
        // Lighter than a ball of that thickness: it is flat somewhere, or the thickness is only one end's.
        let like = Form::from_thickness(thickness_m, volume);
        let beta = like.map_or(Likeness::CylinderLike.beta(), |form| form.beta);
        self.worked_out.set(Some((thickness_m, volume, beta)));
        beta
    }
}

/// A piece that the solver has no form for.
fn out_of_reach(name: &str, through_m: f64, stirred: bool) -> String {
    match (through_m > 0.1, stirred) {
        (false, _) => {
            format!("`{name}` is thinner than can be followed: it is as warm as what surrounds it at once")
        }
        (true, false) => format!("`{name}` is thicker than a metre, with what its thickness may be off"),
        (true, true) => format!("`{name}` lies deeper than half a metre, with what its depth may be off"),
    }
}

fn is_chilled(kind: &FoodKind) -> bool {
    !matches!(kind.state, FoodState::Baked | FoodState::Fat | FoodState::Dough)
        && !matches!(kind.species, Species::Vegetable | Species::Grain | Species::Other)
}

/// What a kind of food is to heat.
///
/// # Errors
/// Figures that no food has, and dough.
pub fn material(kind: &FoodKind) -> Result<Material, String> {
    if kind.state == FoodState::Dough {
        return Err(RISES.to_string());
    }
    let made = match kind.properties {
        Properties::Measured { conductivity_w_mk, density_kg_m3, specific_heat_j_kgk } => {
            Material::constant(conductivity_w_mk, density_kg_m3, specific_heat_j_kgk)
        }
        Properties::Composition(parts) => Composition::from_parts(Composition {
            water: parts.water_percent,
            protein: parts.protein_percent,
            fat: parts.fat_percent,
            // The table counts fibre among the carbohydrates, the correlations do not.
            carbohydrate: (parts.carbohydrate_percent - parts.fibre_percent).max(0.0),
            fibre: parts.fibre_percent,
            ash: parts.ash_percent,
        })
        .and_then(|parts| Matter::new(parts, USUAL_FREEZING_C))
        .map(Material::food),
    };
    made.map_err(|error| error.to_string())
}
