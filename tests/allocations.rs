//! What a position costs in memory: nothing. Counted by a global allocator that counts.

mod support;

use allocation_counter::measure;
use slatwright::check::check;
use slatwright::load::cases;
use slatwright::platform::Platform;
use slatwright::statics::{Crossbeam, Line, Load, Model, On, Placed, Spring};
use support::platform;

/// Allocations of a check without those that make its positions, and how many positions there are.
fn of_a_check(p: &Platform) -> (u64, usize) {
    let mut positions = 0;
    let made = measure(|| positions = cases(p).iter().map(|c| c.positions.len()).sum());
    let all = measure(|| assert!(check(p).is_ok()));
    (all.count_total - made.count_total, positions)
}

/// With two children there are two thousand positions more than with one. Buffers may double a few times
/// more; nothing is allocated for each position.
#[test]
fn a_position_of_a_check_allocates_nothing() {
    let text = include_str!("speed/twenty_slats.toml");
    let one = platform(&text.replace("\"90 lb\"", "\"180 lb\""));
    let two = platform(text);
    // Allocations are counted on the thread that counts, so all the work must be done on it.
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap_or_else(|e| panic!("{e}"));
    let ((few, fewer), (many, more)) = pool.install(|| {
        // Tables are read once, whoever comes first.
        assert!(check(&one).is_ok());
        (of_a_check(&one), of_a_check(&two))
    });
    assert!(more > fewer + 1500, "{more} and {fewer} positions");
    assert!(many < few + 100, "{few} allocations for {fewer} positions, {many} for {more}");
}

/// A frame of twenty slats, solved again and again in one workspace.
#[test]
fn a_solution_allocates_nothing() {
    let line = |y: f64| Line { y, ei: 1700.0, from: 0.0, to: 2.0 };
    let slat = |i: usize| Crossbeam {
        x: 0.05 + 0.1 * i as f64,
        ei: 3900.0,
        kga: f64::INFINITY,
        start: 0.0,
        end: 1.45,
        rests_on: vec![0, 1],
        held_down: true,
    };
    let spring = |k: usize| Spring { line: k % 2, x: 0.1 + 0.3 * (k / 2) as f64, stiffness: 1.5e6 };
    let model = Model {
        lines: vec![line(0.0), line(1.45)],
        crossbeams: (0..20).map(slat).collect(),
        springs: (0..14).map(spring).collect(),
        links: Vec::new(),
        held_at_ends: false,
    };
    let grillage = model.factor().unwrap_or_else(|e| panic!("{e}"));
    let load =
        |i: usize| Placed { on: On::Crossbeam(i), load: Load::Spread { from: 0.5, to: 0.9, start: 200.0, end: 200.0 } };
    let cases: Vec<[Placed; 2]> = (0..19).map(|i| [load(i), load(i + 1)]).collect();
    let slices: Vec<&[Placed]> = cases.iter().map(|c| c.as_slice()).collect();
    let mut work = grillage.workspace();
    let mut moment = 0.0f64;
    let mut solve = || {
        grillage.solve_each(&slices, &mut work, &mut |_, r| {
            for i in 0..20 {
                moment = moment.max(r.crossbeam(i).extreme_moment().0.1);
            }
        });
    };
    solve();
    let again = measure(&mut solve);
    assert_eq!(again.count_total, 0);
    assert!(moment > 0.0);
}
