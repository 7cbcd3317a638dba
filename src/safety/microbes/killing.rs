//! How far heat kills: the general method (Bigelow 1921; Stumbo 1973, Thermobacteriology in Food Processing), without
//! any step.

use super::super::history::History;
use super::super::lethal::mean_rate;
use super::piece::Piece;
use crate::tables::microbes::DeathLine;

/// What the way of a figure through kelvin and back may cost it.
const ROUNDING_C: f64 = 1e-9;

/// log10 reduction over a history: ∫ 10^((T − T_ref)/z) dt / D_ref over all time at `credit_min_c` (°C) or above.
///
/// `lines` in rising order of where they start; each counts up to the next. Exact for straight pieces.
pub fn reduction_log10(lines: &[DeathLine], history: &History, credit_min_c: f64) -> f64 {
    let starts = lines.iter().enumerate().map(|(nth, line)| match (nth, line.from_c) {
        (1.., Some(from_c)) => from_c.max(credit_min_c) - ROUNDING_C,
        _ => credit_min_c - ROUNDING_C,
    });
    let ends = lines
        .iter()
        .skip(1)
        .map(|line| line.from_c.map_or(f64::INFINITY, |from_c| from_c - ROUNDING_C))
        .chain([f64::INFINITY]);
    let ranges: Vec<(&DeathLine, f64, f64)> =
        lines.iter().zip(starts.zip(ends)).map(|(line, (start, end))| (line, start, end)).collect();
    let of_piece = |piece: Piece| {
        let parts = ranges.iter().filter_map(|(line, start, end)| {
            piece.within(*start, *end).map(|part| equivalent_min(line, part) / line.d_ref_min)
        });
        parts.sum::<f64>()
    };
    Piece::all(history).map(of_piece).sum()
}

/// Minutes at the reference temperature that kill as much as a straight piece does.
fn equivalent_min(line: &DeathLine, piece: Piece) -> f64 {
    let mean = mean_rate(piece.from_c - line.t_ref_c, piece.to_c - line.t_ref_c, line.z_c);
    piece.lasts_s / 60.0 * mean
}
