//! Predicts the temperature in a food through all its phases by transient conduction.
//!
//! One space dimension with a shape factor β between 0 (slab) and 2 (ball):
//! ρc ∂T/∂t = ∂(r^β k ∂T/∂r)/∂r / r^β. Plain SI inside, temperatures in °C.
//! [`solve::solve`] is the door: a [`body::Body`], its [`phase::PhaseHeat`]s, a [`history::History`].

pub mod air;
pub mod body;
pub mod check;
pub mod composition;
pub mod error;
pub mod field;
pub mod freezing;
pub mod history;
pub mod march;
pub mod material;
pub mod merge;
pub mod mesh;
pub mod phase;
pub mod ramp;
pub mod reach;
pub mod shape;
pub mod solve;
pub mod stage;
pub mod step;
pub mod surface;
pub mod table;
pub mod tridiagonal;
