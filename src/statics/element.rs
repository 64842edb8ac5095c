//! The exact beam element between two stations (Euler–Bernoulli, cubic between its ends).
//!
//! Freedoms are deflection w and rotation θ = dw/dx at the left, then at the right end.
//! Source: J. S. Przemieniecki, *Theory of Matrix Structural Analysis* (1968), from memory.

use super::load::Load;

/// Stiffness of the element, split by its ends: near–near, near–far and far–far.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stiffness {
    pub(super) near: [[f64; 2]; 2],
    pub(super) across: [[f64; 2]; 2],
    pub(super) far: [[f64; 2]; 2],
}

impl Stiffness {
    pub(super) fn of(ei: f64, length: f64) -> Self {
        let (a, b, c) = (12.0 * ei / length.powi(3), 6.0 * ei / length.powi(2), 2.0 * ei / length);
        Stiffness { near: [[a, b], [b, 2.0 * c]], across: [[-a, b], [-b, c]], far: [[a, -b], [-b, 2.0 * c]] }
    }
}

/// Forces and moments that a load within the element `[from, from + length]` puts on the clamped
/// ends (down and in the sense of θ): left force, left moment, right force, right moment.
pub(super) fn fixed_end(load: &Load, from: f64, length: f64) -> [f64; 4] {
    let part = load.resultant();
    let (t, h) = ((part.at - from) / length, length);
    // Hermite's cubics and their derivatives with respect to x at the middle of the load.
    let shapes = [
        [1.0 - t * t * (3.0 - 2.0 * t), 6.0 * t * (t - 1.0), 12.0 * t - 6.0, 12.0],
        [h * t * (1.0 - t) * (1.0 - t), h * (1.0 - t * (4.0 - 3.0 * t)), h * (6.0 * t - 4.0), 6.0 * h],
        [t * t * (3.0 - 2.0 * t), 6.0 * t * (1.0 - t), 6.0 - 12.0 * t, -12.0],
        [h * t * t * (t - 1.0), h * t * (3.0 * t - 2.0), h * (6.0 * t - 2.0), 6.0 * h],
    ];
    shapes.map(|[n, n1, n2, n3]| part.against([n, n1 / h, n2 / (h * h), n3 / (h * h * h)]))
}
