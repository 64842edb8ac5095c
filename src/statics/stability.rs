//! Whether every line is held, decided from geometry alone before any number is eliminated.

use super::MOST_LINES;
use super::error::StaticsError;
use super::model::Model;

/// The rigid movements of all lines: two for each (a lift and a turn).
type Movement = [f64; 2 * MOST_LINES];

/// An orthonormal basis of the movements that something resists.
#[derive(Default)]
struct Resisted {
    basis: Vec<Movement>,
}

/// What is left of a unit movement below which it counts as resisted.
const ROUNDING: f64 = 1e-9;

impl Resisted {
    /// The part of a movement that nothing resists yet. Twice, as once leaves rounding behind.
    fn remainder(&self, mut movement: Movement) -> (Movement, f64) {
        for _ in 0..2 {
            for resisted in &self.basis {
                let along: f64 = movement.iter().zip(resisted).map(|(a, b)| a * b).sum();
                movement.iter_mut().zip(resisted).for_each(|(a, b)| *a -= along * b);
            }
        }
        (movement, movement.iter().map(|a| a * a).sum::<f64>().sqrt())
    }

    fn resist(&mut self, movement: Movement) {
        let size = movement.iter().map(|a| a * a).sum::<f64>().sqrt();
        let (rest, length) = self.remainder(movement);
        if length > ROUNDING * size {
            self.basis.push(rest.map(|a| a / length));
        }
    }
}

/// Names the first line that can lift or turn without straining anything.
pub(super) fn check(model: &Model) -> Result<(), StaticsError> {
    let mut resisted = Resisted::default();
    let all = 2 * model.lines.len();
    let add = |movement: &mut Movement, line: usize, x: f64, share: f64| {
        let beam = &model.lines[line];
        movement[2 * line] += share;
        movement[2 * line + 1] += share * (x - beam.from) / (beam.to - beam.from);
    };
    for (line, _) in model.lines.iter().enumerate() {
        // Two that stand apart resist both movements of a line.
        let before = resisted.basis.len();
        for spring in model.springs.iter().filter(|spring| spring.line == line) {
            if resisted.basis.len() == before + 2 {
                break;
            }
            let mut movement = [0.0; 2 * MOST_LINES];
            add(&mut movement, line, spring.x, 1.0);
            resisted.resist(movement);
        }
    }
    if resisted.basis.len() == all {
        return Ok(());
    }
    for link in &model.links {
        let mut movement = [0.0; 2 * MOST_LINES];
        add(&mut movement, link.lines[0], link.x, 1.0);
        add(&mut movement, link.lines[1], link.x, -1.0);
        resisted.resist(movement);
    }
    for beam in &model.crossbeams {
        if resisted.basis.len() == all {
            break;
        }
        // Two supports follow any movement; each further one resists leaving their straight line.
        let [a, b] = [beam.rests_on[0], beam.rests_on[1]];
        for &c in &beam.rests_on[2..] {
            let y = |line: usize| model.lines[line].y;
            let lever = (y(c) - y(a)) / (y(b) - y(a));
            let mut movement = [0.0; 2 * MOST_LINES];
            add(&mut movement, a, beam.x, lever - 1.0);
            add(&mut movement, b, beam.x, -lever);
            add(&mut movement, c, beam.x, 1.0);
            resisted.resist(movement);
        }
    }
    for free in 0..all {
        let mut movement = [0.0; 2 * MOST_LINES];
        movement[free] = 1.0;
        if resisted.remainder(movement).1 > ROUNDING {
            return Err(StaticsError::Floats { line: free / 2 });
        }
    }
    Ok(())
}
