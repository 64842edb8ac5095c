//! A position of people as the slats feel it: each patch pressed on the slats under it.
//!
//! Positions come by the thousand and differ little: the same stretch across the slats, or the same
//! lengths over their strips, comes back in the next. What was worked out for either is kept.

use super::envelope::exceeds;
use super::probe::{Most, Probe};
use crate::load::{Patch, Position, Strips};
use crate::statics::{Load, Span};
use std::ops::Range;

/// A stretch across the slats and what 1 N/m on it does to one.
struct Stretch {
    ends: [f64; 2],
    unit: Probe,
    most: Most,
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

/// The slats under one patch, and where among all intensities theirs begin.
struct Under {
    slats: Range<usize>,
    stretch: usize,
    /// N/m².
    pressure: f64,
    first: usize,
}

/// Those who are told what people do to a slat.
pub(super) trait Bearing {
    /// Whether a slat on which people press with these effects at the most must be looked at.
    fn may_govern(&self, slat: usize, people: &Most) -> bool;
    /// What people do to a slat.
    fn bear(&mut self, slat: usize, people: &Probe);
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
    under: Vec<Under>,
    /// On each slat under each patch, N/m.
    intensities: Vec<f64>,
    /// The most that more than two patches do together to each slat.
    most: Vec<Most>,
    touched: Range<usize>,
    /// The heaviest that each slat bore alone on each stretch, and the heaviest two on each two.
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
            under: Vec::new(),
            intensities: Vec::new(),
            most: vec![Most::default(); slats],
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
        self.under.clear();
        self.intensities.clear();
        self.touched = self.most.len()..0;
        for (j, patch) in position.patches.iter().enumerate() {
            let stretch = self.stretch(self.strips.across(patch));
            let pressure = Strips::pressure(patch, self.stretches[stretch].ends);
            if j == self.along.len() {
                self.along.push(Along::default());
            }
            let along = &mut self.along[j];
            along.put(&self.strips, patch);
            let slats = along.first..along.first + along.over.len();
            self.touched = self.touched.start.min(slats.start)..self.touched.end.max(slats.end);
            self.under.push(Under { slats, stretch, pressure, first: self.intensities.len() });
            self.intensities.extend(along.over.iter().map(|over| pressure * over));
        }
        if position.patches.is_empty() {
            self.touched = 0..0;
        }
    }

    /// What end `e` of each slat presses down with, from the first slat that people press on.
    pub(super) fn reactions(&self, e: usize, out: &mut Vec<f64>) -> usize {
        let first = self.touched.start;
        out.clear();
        out.resize(self.touched.len(), 0.0);
        for under in &self.under {
            let unit = self.stretches[under.stretch].unit.reactions()[e];
            let slats = &mut out[under.slats.start - first..under.slats.end - first];
            for (sum, intensity) in slats.iter_mut().zip(&self.intensities[under.first..]) {
                *sum += intensity * unit;
            }
        }
        first
    }

    /// Tells `slats` of every slat that people press on as no lighter position of this case did. On the same
    /// stretches a slat's demands grow with the load; of many loads, only those that may govern are told.
    pub(super) fn heavier(&mut self, slats: &mut impl Bearing) {
        self.alone.resize(self.stretches.len() * self.most.len(), 0.0);
        match self.under.len() {
            0 => {}
            1 => self.heavier_alone(0, &(0..0), slats),
            2 => {
                let [a, b] = [0, 1].map(|j| &self.under[j].slats);
                let both = a.start.max(b.start)..a.end.min(b.end);
                self.heavier_alone(0, &both, slats);
                self.heavier_alone(1, &both, slats);
                self.heavier_two(both, slats);
            }
            _ => self.heavier_many(slats),
        }
    }

    /// The slats under one patch, but for those that are under another as well.
    fn heavier_alone(&mut self, patch: usize, both: &Range<usize>, slats: &mut impl Bearing) {
        let Under { slats: under, stretch, first, .. } = &self.under[patch];
        let row = stretch * self.most.len();
        let heaviest = &mut self.alone[row + under.start..row + under.end];
        for ((slat, heaviest), intensity) in under.clone().zip(heaviest).zip(&self.intensities[*first..]) {
            if exceeds(*intensity, *heaviest) && !both.contains(&slat) {
                *heaviest = *intensity;
                slats.bear(slat, &self.stretches[*stretch].unit.times(*intensity));
            }
        }
    }

    /// The slats under two patches: those whose two loads are not both lighter than two on the same stretches before.
    fn heavier_two(&mut self, both: Range<usize>, slats: &mut impl Bearing) {
        if both.is_empty() {
            return;
        }
        // The heavier first, so that two who change places are told apart.
        let heavier = usize::from(self.under[1].pressure > self.under[0].pressure);
        let [a, b] = [heavier, 1 - heavier].map(|j| &self.under[j]);
        let pair = [a.stretch, b.stretch];
        // The same two stretches come back soon.
        let place = self.twos.iter().rposition(|t| *t == pair).unwrap_or_else(|| {
            self.twos.push(pair);
            self.two.resize(self.twos.len() * self.most.len(), [0.0; 2]);
            self.twos.len() - 1
        });
        let row = place * self.most.len();
        let before = &mut self.two[row + both.start..row + both.end];
        let of = |under: &Under| &self.intensities[under.first + both.start - under.slats.start..];
        for (((slat, before), a), b) in both.clone().zip(before).zip(of(a)).zip(of(b)) {
            if !exceeds(*a, before[0]) && !exceeds(*b, before[1]) {
                continue;
            }
            if !exceeds(before[0], *a) && !exceeds(before[1], *b) {
                *before = [*a, *b];
            }
            let mut probe = self.stretches[pair[0]].unit.times(*a);
            probe.add(*b, &self.stretches[pair[1]].unit);
            slats.bear(slat, &probe);
        }
    }

    /// The slats under many patches.
    fn heavier_many(&mut self, slats: &mut impl Bearing) {
        self.most[self.touched.clone()].fill(Most::default());
        for under in &self.under {
            let unit = &self.stretches[under.stretch].most;
            for (most, intensity) in self.most[under.slats.clone()].iter_mut().zip(&self.intensities[under.first..]) {
                most.add(*intensity, unit);
            }
        }
        for slat in self.touched.clone() {
            let most = &self.most[slat];
            if most.reactions() != [0.0; 2] && slats.may_govern(slat, most) {
                slats.bear(slat, &self.probe(slat));
            }
        }
    }

    /// What people do to a slat.
    fn probe(&self, slat: usize) -> Probe {
        let mut out = Probe::default();
        for under in self.under.iter().filter(|under| under.slats.contains(&slat)) {
            let intensity = self.intensities[under.first + slat - under.slats.start];
            out.add(intensity, &self.stretches[under.stretch].unit);
        }
        out
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
            self.stretches.push(Stretch { ends, most: unit.most(&self.span), unit });
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
