//! A dowel by the yield limit equations, written out again.

/// A lag of 3/8 in or a bolt through Douglas fir-larch (G 0.50) into Douglas fir-larch: diameter that bends, `Fyb`, lengths
/// in the piece under the head and in the other, and the load's angle to the grain of each.
pub(crate) struct Dowel {
    pub(crate) d: f64,
    pub(crate) fyb: f64,
    pub(crate) lengths: [f64; 2],
    pub(crate) side: f64,
    pub(crate) main: f64,
}

impl Dowel {
    /// The least of the six yield loads, `Kθ = 1 + 0.25 θ/90` with the greater angle (NDS 12.3.1).
    pub(crate) fn holds(&self) -> f64 {
        let (g, shank) = (0.5f64, if self.d == 0.265 { 0.375 } else { self.d });
        let (along, across) = (11_200.0 * g, 6100.0 * g.powf(1.45) / f64::sqrt(shank));
        let at = |degrees: f64| {
            let (sin, cos) = degrees.to_radians().sin_cos();
            along * across / (along * sin * sin + across * cos * cos)
        };
        let (fes, fem, d, fyb, [ls, lm]) = (at(self.side), at(self.main), self.d, self.fyb, self.lengths);
        let k = 1.0 + 0.25 * self.side.max(self.main) / 90.0;
        let (re, rt) = (fem / fes, lm / ls);
        let k1 =
            ((re + 2.0 * re * re * (1.0 + rt + rt * rt) + rt * rt * re.powi(3)).sqrt() - re * (1.0 + rt)) / (1.0 + re);
        let k2 = (2.0 * (1.0 + re) + 2.0 * fyb * (1.0 + 2.0 * re) * d * d / (3.0 * fem * lm * lm)).sqrt() - 1.0;
        let k3 = (2.0 * (1.0 + re) / re + 2.0 * fyb * (2.0 + re) * d * d / (3.0 * fem * ls * ls)).sqrt() - 1.0;
        [
            d * lm * fem / (4.0 * k),
            d * ls * fes / (4.0 * k),
            k1 * d * ls * fes / (3.6 * k),
            k2 * d * lm * fem / ((1.0 + 2.0 * re) * 3.2 * k),
            k3 * d * ls * fem / ((2.0 + re) * 3.2 * k),
            d * d / (3.2 * k) * (2.0 * fem * fyb / (3.0 * (1.0 + re))).sqrt(),
        ]
        .into_iter()
        .fold(f64::INFINITY, f64::min)
    }
}
