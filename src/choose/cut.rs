//! What to buy: pieces of one length out of the lengths a yard sells.

use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, UnitSystem};

/// What the saw and square ends take. Common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allowance {
    /// The saw's cut.
    pub kerf: Length,
    /// Cut off each end of a stick.
    pub trim: Length,
}

/// How pieces come out of one length of stock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cutting {
    /// The length.
    pub stock: Length,
    /// Pieces from one stick.
    pub from_one: usize,
    /// Sticks for all pieces, if all are of this length.
    pub sticks: usize,
}

/// What to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Purchase {
    /// How many pieces of what length.
    pub pieces: (usize, Length),
    /// What is cut away.
    pub allowance: Allowance,
    /// Every length of stock that holds at least one piece.
    pub each: Vec<Cutting>,
    /// The least length of stock: how many sticks of which length; the shortest first.
    pub least: Vec<(Length, usize)>,
}

impl Allowance {
    /// 1/8 in or 3 mm for the saw, 1/2 in or 10 mm off each end.
    pub fn usual(units: UnitSystem) -> Allowance {
        match units {
            UnitSystem::Us => Allowance { kerf: inch(0.125), trim: inch(0.5) },
            UnitSystem::Metric => Allowance { kerf: millimetre(3.0), trim: millimetre(10.0) },
        }
    }

    /// How many pieces of a length come out of a stick.
    pub fn pieces(&self, stick: Length, piece: Length) -> usize {
        let clear = stick - self.trim * 2.0 + self.kerf;
        // Seven pieces that fill a stick exactly are seven, whatever the last bit says.
        (clear.value / (piece + self.kerf).value + 1e-9).floor().max(0.0) as usize
    }
}

/// Lengths that yards sell. Common practice, no source.
pub fn usual_lengths(units: UnitSystem) -> Vec<Length> {
    match units {
        UnitSystem::Us => [6.0, 8.0, 10.0, 12.0, 14.0, 16.0].map(|ft| inch(12.0 * ft)).to_vec(),
        UnitSystem::Metric => [2400.0, 3000.0, 3600.0, 4000.0, 4500.0, 5000.0].map(millimetre).to_vec(),
    }
}

/// What to buy for so many pieces of one length; none when no length of stock holds a piece.
pub fn purchase(pieces: (usize, Length), lengths: &[Length], allowance: Allowance) -> Option<Purchase> {
    let (count, piece) = pieces;
    let cutting = |stock: &Length| {
        let from_one = allowance.pieces(*stock, piece);
        (from_one > 0).then(|| Cutting { stock: *stock, from_one, sticks: count.div_ceil(from_one) })
    };
    let each: Vec<Cutting> = lengths.iter().filter_map(cutting).collect();
    if each.is_empty() || count == 0 {
        return None;
    }
    // The least length for the first so many pieces, and the last stick that was added for it.
    let mut best: Vec<(f64, usize, usize)> = vec![(0.0, 0, 0)];
    for n in 1..=count {
        let options = each.iter().enumerate().map(|(k, c)| {
            let (length, sticks, _) = best[n.saturating_sub(c.from_one)];
            (length + c.stock.value, sticks + 1, k)
        });
        // Of equal lengths the fewer sticks; a hair tells rounding from a difference.
        let better = |a: &(f64, usize, usize), b: &(f64, usize, usize)| {
            if (a.0 - b.0).abs() < 1e-6 { a.1.cmp(&b.1) } else { a.0.total_cmp(&b.0) }
        };
        best.push(options.min_by(better).unwrap_or((f64::INFINITY, 0, 0)));
    }
    let mut bought = vec![0; each.len()];
    let mut left = count;
    while left > 0 {
        let k = best[left].2;
        bought[k] += 1;
        left = left.saturating_sub(each[k].from_one);
    }
    let mut least: Vec<(Length, usize)> =
        each.iter().zip(bought).filter(|(_, n)| *n > 0).map(|(c, n)| (c.stock, n)).collect();
    least.sort_by(|a, b| a.0.value.total_cmp(&b.0.value));
    Some(Purchase { pieces, allowance, each, least })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn feet(all: &[f64]) -> Vec<Length> {
        all.iter().map(|ft| inch(12.0 * ft)).collect()
    }

    /// By hand: 96 in less 1 in of trim holds one piece of 57-1/2 in; 12 ft holds two, 143 in against
    /// 2 x 57.5 + 0.125 = 115.125; 16 ft holds three, 191 in against 172.75.
    #[test]
    fn slats_of_a_double_bed_by_hand() {
        let usual = Allowance::usual(UnitSystem::Us);
        let all = purchase((14, inch(57.5)), &feet(&[4.0, 8.0, 12.0, 16.0]), usual).unwrap();
        let from_one: Vec<(usize, usize)> = all.each.iter().map(|c| (c.from_one, c.sticks)).collect();
        assert_eq!(from_one, [(1, 14), (2, 7), (3, 5)]);
        // Four of 16 ft give twelve, one of 12 ft the other two: 76 ft; five of 16 ft are 80, seven of 12 ft 84.
        assert_eq!(all.least, [(inch(144.0), 1), (inch(192.0), 4)]);
        assert_eq!(purchase((2, inch(200.0)), &feet(&[8.0, 16.0]), usual), None);
    }

    #[test]
    fn pieces_that_fill_a_stick_exactly_are_counted() {
        let usual = Allowance::usual(UnitSystem::Metric);
        let three = millimetre(3.0 * 900.0 + 2.0 * 3.0 + 20.0);
        assert_eq!(usual.pieces(three, millimetre(900.0)), 3);
        assert_eq!(usual.pieces(three - millimetre(0.1), millimetre(900.0)), 2);
    }

    /// Against every way to buy up to so many sticks of each length.
    #[test]
    fn no_other_choice_of_sticks_is_shorter() {
        let lengths = feet(&[6.0, 8.0, 10.0]);
        let usual = Allowance::usual(UnitSystem::Us);
        for count in 1..12usize {
            for piece in [17.0, 31.0, 40.0, 58.0] {
                let found = purchase((count, inch(piece)), &lengths, usual).unwrap();
                let per: Vec<usize> = lengths.iter().map(|l| usual.pieces(*l, inch(piece))).collect();
                let mut least = f64::INFINITY;
                for a in 0..=count {
                    for b in 0..=count {
                        for c in 0..=count {
                            if a * per[0] + b * per[1] + c * per[2] >= count {
                                least = least.min(72.0 * a as f64 + 96.0 * b as f64 + 120.0 * c as f64);
                            }
                        }
                    }
                }
                let bought: f64 = found.least.iter().map(|(l, n)| l.value / inch(1.0).value * *n as f64).sum();
                assert!((bought - least).abs() < 1e-6, "{count} of {piece}: {bought} {least}");
            }
        }
    }
}
