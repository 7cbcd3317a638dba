//! The heat engine against exact solutions, an independent solver and published figures.

mod air;
mod analytic;
mod coarse;
mod ends;
mod heat_kept;
mod order;
mod properties;
mod refusals;
mod shape;
mod sooner;
mod support;
mod trajectories;
mod witness;
