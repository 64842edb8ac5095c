//! A position of people as the slats feel it: each patch pressed on the slats under it.
//!
//! Positions come by the thousand and differ little: the same stretch across the slats, or the same
//! lengths over their strips, comes back in the next. What was worked out for either is kept.

use super::envelope::exceeds;
use super::probe::Probe;
use crate::load::{Patch, Position, Strips};
use crate::statics::{Load, Span};
use std::ops::Range;

/// A stretch across the slats and what 1 N/m on it does to one.
struct Stretch {
    ends: [f64; 2],
    unit: Probe,
}

/// The lengths of a patch over the strips, from the first it lies over.
#[derive(Default)]
struct Along {
    x: [f64; 2],
    first: usize,
    over: Vec<f64>,
}

impl Along {
    fn put(&mut self, strips: &Strips, patch: &Patch) {
        let x = patch.x.map(|x| x.value);
        if self.x == x && !self.over.is_empty() {
            return;
        }
        self.x = x;
        self.over.clear();
        strips.along(patch, |i, over| {
            if self.over.is_empty() {
                self.first = i;
            }
            self.over.push(over);
        });
    }
}

/// One patch's part on one slat.
#[derive(Clone, Copy)]
struct Part {
    slat: usize,
    stretch: usize,
    /// N/m.
    intensity: f64,
}

/// The slats under one position after another.
pub(super) struct Press {
    strips: Strips,
    span: Span,
    stretches: Vec<Stretch>,
    /// Where in `stretches` one was last seen, by a number made from its ends.
    seen: Vec<usize>,
    /// Of each patch of the position before.
    along: Vec<Along>,
    parts: Vec<Part>,
    /// How many parts each slat bears, and what they do together.
    count: Vec<usize>,
    probes: Vec<Probe>,
    touched: Range<usize>,
    /// The heaviest part that each slat bore alone on each stretch, and the heaviest two on each two.
    alone: Vec<f64>,
    two: Vec<[f64; 2]>,
    twos: Vec<[usize; 2]>,
}

/// A power of two.
const SLOTS: usize = 4096;

impl Press {
    pub(super) fn new(strips: Strips, span: Span, slats: usize) -> Press {
        Press {
            strips,
            span,
            stretches: Vec::new(),
            seen: vec![0; SLOTS],
            along: Vec::new(),
            parts: Vec::new(),
            count: vec![0; slats],
            probes: vec![Probe::default(); slats],
            touched: 0..0,
            alone: Vec::new(),
            two: Vec::new(),
            twos: Vec::new(),
        }
    }

    /// Forgets what was heaviest.
    pub(super) fn clear(&mut self) {
        self.alone.fill(0.0);
        self.two.clear();
        self.twos.clear();
    }

    /// Puts the slats under a position.
    pub(super) fn put(&mut self, position: &Position) {
        self.count[self.touched.clone()].fill(0);
        self.parts.clear();
        self.touched = self.count.len()..0;
        for (j, patch) in position.patches.iter().enumerate() {
            let stretch = self.stretch(self.strips.across(patch));
            let pressure = Strips::pressure(patch, self.stretches[stretch].ends);
            if j == self.along.len() {
                self.along.push(Along::default());
            }
            let along = &mut self.along[j];
            along.put(&self.strips, patch);
            for (i, over) in along.over.iter().enumerate() {
                let slat = along.first + i;
                self.parts.push(Part { slat, stretch, intensity: pressure * over });
                self.count[slat] += 1;
            }
            self.touched = self.touched.start.min(along.first)..self.touched.end.max(along.first + along.over.len());
        }
        if position.patches.is_empty() {
            self.touched = 0..0;
        }
    }

    /// What end `e` of each slat presses down with, from the first slat that people press on.
    pub(super) fn reactions(&self, e: usize, out: &mut Vec<f64>) -> usize {
        out.clear();
        out.resize(self.touched.len(), 0.0);
        for part in &self.parts {
            out[part.slat - self.touched.start] += part.intensity * self.stretches[part.stretch].unit.reactions()[e];
        }
        self.touched.start
    }

    /// Calls `each` with every slat that people press on as no lighter position of this case did, and what
    /// they do to it. On the same stretches a slat's demands grow with the load.
    pub(super) fn heavier(&mut self, mut each: impl FnMut(usize, &Probe)) {
        let slats = self.count.len();
        self.alone.resize(self.stretches.len() * slats, 0.0);
        for part in &self.parts {
            let unit = &self.stretches[part.stretch].unit;
            if self.count[part.slat] > 1 {
                self.probes[part.slat].add(part.intensity, unit);
                continue;
            }
            let heaviest = &mut self.alone[part.stretch * slats + part.slat];
            if exceeds(part.intensity, *heaviest) {
                *heaviest = part.intensity;
                let mut probe = Probe::default();
                probe.add(part.intensity, unit);
                each(part.slat, &probe);
            }
        }
        for slat in self.touched.clone() {
            if self.count[slat] > 1 {
                if self.count[slat] > 2 || self.heavier_two(slat) {
                    each(slat, &self.probes[slat]);
                }
                self.probes[slat] = Probe::default();
            }
        }
    }

    /// Whether a slat's two parts are not both lighter than two on the same stretches before.
    fn heavier_two(&mut self, slat: usize) -> bool {
        let mut own = self.parts.iter().filter(|p| p.slat == slat);
        let (Some(a), Some(b)) = (own.next(), own.next()) else { return true };
        let now = [a.intensity, b.intensity];
        let pair = [a.stretch, b.stretch];
        // Slat by slat and position by position, the same two stretches come back soon.
        let place = self.twos.iter().rposition(|t| *t == pair).unwrap_or_else(|| {
            self.twos.push(pair);
            self.two.resize(self.twos.len() * self.count.len(), [0.0; 2]);
            self.twos.len() - 1
        });
        let before = &mut self.two[place * self.count.len() + slat];
        if !exceeds(now[0], before[0]) && !exceeds(now[1], before[1]) {
            return false;
        }
        if !exceeds(before[0], now[0]) && !exceeds(before[1], now[1]) {
            *before = now;
        }
        true
    }

    /// Which stretch has these ends.
    fn stretch(&mut self, ends: [f64; 2]) -> usize {
        let mixed = ends.iter().fold(0u64, |sum, y| (sum ^ y.to_bits()).wrapping_mul(0x9E37_79B9_7F4A_7C15));
        let slot = &mut self.seen[(mixed >> 52) as usize % SLOTS];
        if self.stretches.get(*slot).is_none_or(|s| s.ends != ends) {
            *slot = self.stretches.iter().position(|s| s.ends == ends).unwrap_or(self.stretches.len());
        }
        if *slot == self.stretches.len() {
            let [from, to] = ends;
            // A patch is put on the slat whatever its size, so a load of one on it is always admitted.
            let unit = Probe::of(&self.span, &[Load::Spread { from, to, start: 1.0, end: 1.0 }]).unwrap_or_default();
            self.stretches.push(Stretch { ends, unit });
        }
        *slot
    }

    /// The loads of a position on one slat; those on the same stretch as one.
    pub(super) fn on(&self, i: usize, patches: &[Patch], loads: &mut Vec<Load>) {
        loads.clear();
        for patch in patches {
            let over = self.strips.over(i, patch);
            if over <= 0.0 {
                continue;
            }
            let ends = self.strips.across(patch);
            let q = Strips::pressure(patch, ends) * over;
            let same = loads.iter_mut().find(|l| l.extent() == (ends[0], ends[1]));
            if let Some(Load::Spread { start, end, .. }) = same {
                *start += q;
                *end += q;
            } else {
                loads.push(Load::Spread { from: ends[0], to: ends[1], start: q, end: q });
            }
        }
    }
}
