//! Time to eliminate a platform and to solve body positions on it, exact extremes included.

#[path = "grown.rs"]
mod grown;

use divan::Bencher;
use grown::{bodies, platform, whole};
use slatwright::statics::Placed;

fn main() {
    divan::main();
}

fn cases(bodies: &[Vec<Placed>]) -> Vec<&[Placed]> {
    bodies.iter().map(Vec::as_slice).collect()
}

/// Slats, positions, centre beam.
const SIZES: [(usize, usize, bool); 11] = [
    (20, 12, false),
    (20, 12, true),
    (20, 120, false),
    (20, 1200, false),
    (20, 1200, true),
    (200, 12, false),
    (200, 120, false),
    (200, 1200, false),
    (2000, 12, false),
    (2000, 120, false),
    (200, 12, true),
];

#[divan::bench(args = SIZES.map(Size))]
fn eliminate_solve_and_recover(bencher: Bencher, Size((slats, positions, centre)): Size) {
    let (model, bodies) = (platform(slats, centre), bodies(slats, positions));
    let cases = cases(&bodies);
    bencher.bench(|| whole(divan::black_box(&model), divan::black_box(&cases)));
}

#[divan::bench(args = [false, true])]
fn eliminate(bencher: Bencher, centre: bool) {
    let model = platform(20, centre);
    bencher.bench(|| divan::black_box(&model).factor());
}

#[divan::bench(args = [false, true])]
fn solve_twelve_positions(bencher: Bencher, centre: bool) {
    let (model, bodies) = (platform(20, centre), bodies(20, 12));
    let cases = cases(&bodies);
    let Ok(grillage) = model.factor() else { return };
    let mut work = grillage.workspace();
    bencher.bench_local(|| {
        grillage.solve_each(divan::black_box(&cases), &mut work, &mut |_, r| {
            divan::black_box(r);
        })
    });
}

#[derive(Clone, Copy, Debug)]
struct Size((usize, usize, bool));

impl std::fmt::Display for Size {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Size((slats, positions, centre)) = self;
        write!(f, "{slats} slats, {positions} positions{}", if *centre { ", centre" } else { "" })
    }
}
