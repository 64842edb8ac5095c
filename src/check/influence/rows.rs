//! Influence lines as rows of numbers, one for each slat, and their sums.

/// Influence of each slat's unit reaction in a row of numbers, slat by slat, the numbers for the dead load,
/// and those for the position at hand.
pub(super) struct Rows {
    /// Each row filled up with nothing to a multiple of four, as is `filled`, for whole vectors at a time.
    pub(super) units: Vec<f64>,
    pub(super) dead: Vec<f64>,
    pub(super) filled: Vec<f64>,
}

impl Rows {
    pub(super) fn of_dead(fill: impl FnOnce(&mut Vec<f64>)) -> Rows {
        let mut dead = Vec::new();
        fill(&mut dead);
        Rows { units: Vec::new(), filled: vec![0.0; dead.len().next_multiple_of(4)], dead }
    }

    /// Adds the row of the next slat.
    pub(super) fn push_unit(&mut self, fill: impl FnOnce(&mut Vec<f64>)) {
        fill(&mut self.units);
        self.units.resize(self.units.len().next_multiple_of(4), 0.0);
    }

    /// The rows of the slats from `first` on, each times its reaction.
    pub(super) fn sum(&mut self, first: usize, reactions: &[f64]) {
        self.filled.fill(0.0);
        let width = self.filled.len();
        for (unit, force) in self.units[first * width..].chunks_exact(width).zip(reactions) {
            if *force != 0.0 {
                for (sum, unit) in self.filled.iter_mut().zip(unit) {
                    *sum += force * unit;
                }
            }
        }
    }

    /// The numbers for the position at hand.
    pub(super) fn now(&self) -> &[f64] {
        &self.filled[..self.dead.len()]
    }
}
