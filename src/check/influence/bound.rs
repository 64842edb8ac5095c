//! What a side can feel at the most in a case, from the least and the greatest that each slat presses with: each
//! slat as if it were alone in its worst, whoever presses on the others.

use super::super::envelope::{CaseEnvelope, Peak, exceeds};
use super::{Influence, Pair};

/// The least and the greatest of people's effects.
#[derive(Clone, Copy, Default)]
struct Reach {
    least: f64,
    most: f64,
}

impl Reach {
    fn widen(&mut self, effect: f64) {
        self.least += effect.min(0.0);
        self.most += effect.max(0.0);
    }

    /// No less than their magnitude with the dead load's.
    fn with(self, dead: f64) -> f64 {
        (dead + self.most).max(-(dead + self.least))
    }
}

/// Reaches of every force, and of both lines' shears and moments at every station.
struct Reaches {
    forces: Vec<Reach>,
    shear: Vec<[Reach; 2]>,
    moment: Vec<[Reach; 2]>,
}

impl Influence {
    /// Takes note of what the slats press with at a position, from slat `first` on.
    pub(in crate::check) fn reach(&mut self, first: usize, reactions: &[f64]) {
        for ([least, most], force) in self.pressed[first..].iter_mut().zip(reactions) {
            *least = least.min(*force);
            *most = most.max(*force);
        }
    }

    /// Whether some other case exceeds whatever this one can do, at every screw, support and line.
    pub(in crate::check) fn outranked(&mut self, others: &[&CaseEnvelope]) -> bool {
        let reaches = self.reaches();
        let exceeded = |bound: f64, peak: &dyn Fn(&CaseEnvelope) -> Option<Peak>| {
            others.iter().any(|other| peak(other).is_some_and(|p| exceeds(p.value, bound)))
        };
        let (s, dead) = (self.side, &self.forces.dead);
        let bounds: Vec<f64> = reaches.forces.iter().zip(dead).map(|(reach, dead)| reach.with(*dead)).collect();
        let (screws, supports) = bounds.split_at(self.screws);
        let group = |j: usize| {
            let all = self.groups[j].clone();
            let sum = reaches.forces[all.clone()].iter().fold(Reach::default(), |sum, reach| Reach {
                least: sum.least + reach.least,
                most: sum.most + reach.most,
            });
            sum.with(dead[all].iter().sum())
        };
        screws.iter().enumerate().all(|(j, bound)| exceeded(*bound, &|other| other.screws[s][j]))
            && supports.iter().enumerate().all(|(j, bound)| exceeded(*bound, &|other| other.supports[s][j]))
            && (0..self.screws).all(|j| exceeded(group(j), &|other| other.groups[s][j]))
            && (0..2).all(|line| {
                let [shear, moment] = self.line_bounds(&reaches, line);
                exceeded(shear, &|other| other.lines[self.lines[line]].shear)
                    && exceeded(moment, &|other| other.lines[self.lines[line]].moment)
            })
    }

    fn reaches(&mut self) -> Reaches {
        let n = self.stations.len();
        let mut out = Reaches {
            forces: vec![Reach::default(); self.forces.dead.len()],
            shear: vec![[Reach::default(); 2]; n],
            moment: vec![[Reach::default(); 2]; n],
        };
        let widen = |reaches: &mut [[Reach; 2]], effects: &[Pair]| {
            for (reaches, effects) in reaches.iter_mut().zip(effects) {
                reaches.iter_mut().zip(effects).for_each(|(reach, effect)| reach.widen(*effect));
            }
        };
        for slat in 0..self.pressed.len() {
            for force in self.pressed[slat].into_iter().filter(|force| *force != 0.0) {
                self.settle(slat, &[force]);
                out.forces.iter_mut().zip(self.forces.now()).for_each(|(reach, force)| reach.widen(*force));
                widen(&mut out.shear, &self.shear);
                widen(&mut out.moment, &self.live);
            }
        }
        out
    }

    /// Bounds on shear and moment anywhere along a line.
    fn line_bounds(&self, reaches: &Reaches, line: usize) -> [f64; 2] {
        let mut before = Reach::default();
        let (mut shear, mut moment) = (0.0f64, 0.0f64);
        for (i, station) in self.stations.iter().enumerate() {
            let here = reaches.shear[i][line];
            shear = shear.max(before.with(station.left[line])).max(here.with(station.right[line]));
            moment = moment.max(reaches.moment[i][line].with(station.moment[line]));
            before = here;
        }
        [shear, moment + self.bow[line]]
    }
}
