//! Beams against closed forms and printed coefficients.
//!
//! Closed forms: AF&PA/AWC, *Design Aid No. 6, Beam Formulas with Shear and Moment Diagrams*
//! (2005/2007); its list of figures was read, the algebra is standard theory from memory. Shear
//! deflections: S. P. Timoshenko, *Strength of Materials*, from memory. The formulas are evaluated
//! here, so the tolerance is that of double precision arithmetic, relative 1e-11.

use std::error::Error;

use slatwright::statics::{Crossbeam, Line, Load, Loaded, Model, Span, Spring, StaticsError};

type Outcome = Result<(), Box<dyn Error>>;

const L: f64 = 2.0;
const EI: f64 = 540.0;
const W: f64 = 1500.0;
const P: f64 = 800.0;
const STIFF: f64 = f64::INFINITY;

fn same(what: &str, got: f64, formula: f64) {
    let tolerance = 1e-11 * formula.abs().max(1e-9);
    assert!((got - formula).abs() <= tolerance, "{what}: {got} instead of {formula}");
}

/// Half a unit in the last of the printed decimals.
fn printed(what: &str, got: f64, value: f64, decimals: i32) {
    let half = 0.5 * 10f64.powi(-decimals) * (1.0 + 1e-9);
    assert!((got - value).abs() <= half, "{what}: {got} instead of {value}");
}

fn simple() -> Span {
    Span { start: 0.0, end: L, supports: [0.0, L], ei: EI, kga: STIFF }
}

fn overhang(a: f64) -> Span {
    Span { end: L + a, ..simple() }
}

fn spread(from: f64, to: f64) -> Load {
    Load::Spread { from, to, start: W, end: W }
}

fn sagging(beam: &Loaded<'_>) -> (f64, f64) {
    beam.extreme_moment().0
}

fn sag(beam: &Loaded<'_>) -> (f64, f64) {
    beam.extreme_deflection().0
}

#[test]
fn simple_beam_under_many_equal_forces() -> Outcome {
    // n spaces between equal forces, n even: V = (n − 1)P/2 at the ends, M = nPL/8 at midspan (by equilibrium).
    let n = 24.0;
    let force = |i: i32| Load::Point { at: f64::from(i) * L / n, force: P };
    let loads: Vec<Load> = (1..24).rev().map(force).collect();
    let beam = simple().under(&loads)?;
    same("V", beam.extreme_shear().1, (n - 1.0) * P / 2.0);
    same("M", sagging(&beam).1, n * P * L / 8.0);
    same("at", sagging(&beam).0, L / 2.0);
    Ok(())
}

#[test]
fn simple_beam_under_uniform_load() -> Outcome {
    // AWC Design Aid No. 6, simple beam, uniformly distributed load.
    let loads = [spread(0.0, L)];
    let beam = simple().under(&loads)?;
    same("R", beam.reactions()[0], W * L / 2.0);
    same("M", sagging(&beam).1, W * L * L / 8.0);
    same("at", sagging(&beam).0, L / 2.0);
    same("w", sag(&beam).1, 5.0 * W * L.powi(4) / (384.0 * EI));
    same("V", beam.extreme_shear().1, W * L / 2.0);
    Ok(())
}

#[test]
fn simple_beam_under_a_partial_uniform_load() -> Outcome {
    // AWC Design Aid No. 6, uniform load partially distributed.
    let (a, b, c) = (0.4, 0.8, 0.8);
    let loads = [spread(a, a + b)];
    let beam = simple().under(&loads)?;
    let r1 = W * b * (2.0 * c + b) / (2.0 * L);
    same("R1", beam.reactions()[0], r1);
    same("R2", beam.reactions()[1], W * b * (2.0 * a + b) / (2.0 * L));
    same("at", sagging(&beam).0, a + r1 / W);
    same("M", sagging(&beam).1, r1 * (a + r1 / (2.0 * W)));
    Ok(())
}

#[test]
fn simple_beam_under_a_central_patch() -> Outcome {
    // Standard theory, from memory.
    let b = 0.8;
    let loads = [spread(L / 2.0 - b / 2.0, L / 2.0 + b / 2.0)];
    let beam = simple().under(&loads)?;
    let total = W * b;
    same("M", sagging(&beam).1, total * (2.0 * L - b) / 8.0);
    let formula = total * (8.0 * L.powi(3) - 4.0 * L * b * b + b.powi(3)) / (384.0 * EI);
    same("w", sag(&beam).1, formula);
    Ok(())
}

#[test]
fn simple_beam_under_a_point_load() -> Outcome {
    // AWC Design Aid No. 6, concentrated load at centre and at any point.
    let centre = [Load::Point { at: L / 2.0, force: P }];
    let beam = simple().under(&centre)?;
    same("M", sagging(&beam).1, P * L / 4.0);
    same("w", sag(&beam).1, P * L.powi(3) / (48.0 * EI));

    let a: f64 = 0.7;
    let b = L - a;
    let aside = [Load::Point { at: a, force: P }];
    let beam = simple().under(&aside)?;
    same("M", sagging(&beam).1, P * a * b / L);
    same("w at load", beam.deflection(a), P * a * a * b * b / (3.0 * EI * L));
    let (at, w) = sag(&beam);
    same("w", w, P * a * (L * L - a * a).powf(1.5) / (9.0 * 3f64.sqrt() * EI * L));
    same("at", at, L - ((L * L - a * a) / 3.0).sqrt());
    Ok(())
}

#[test]
fn simple_beam_under_two_symmetric_point_loads() -> Outcome {
    // AWC Design Aid No. 6, two equal concentrated loads symmetrically placed.
    let a = 0.5;
    let loads = [a, L - a].map(|at| Load::Point { at, force: P });
    let beam = simple().under(&loads)?;
    same("M", sagging(&beam).1, P * a);
    same("w", sag(&beam).1, P * a * (3.0 * L * L - 4.0 * a * a) / (24.0 * EI));
    same("w at load", beam.deflection(a), P * a * a * (3.0 * L - 4.0 * a) / (6.0 * EI));
    Ok(())
}

#[test]
fn simple_beam_under_a_triangular_load() -> Outcome {
    // AWC Design Aid No. 6, load increasing uniformly to one end; total load T.
    let loads = [Load::Spread { from: 0.0, to: L, start: 0.0, end: W }];
    let beam = simple().under(&loads)?;
    let total = W * L / 2.0;
    same("R1", beam.reactions()[0], total / 3.0);
    same("at", sagging(&beam).0, L / 3f64.sqrt());
    same("M", sagging(&beam).1, 2.0 * total * L / (9.0 * 3f64.sqrt()));
    // The figure prints 0.01304 at 0.5193 L, four and three significant digits.
    let (at, w) = sag(&beam);
    printed("w", w * EI / (total * L.powi(3)), 0.01304, 5);
    printed("at", at / L, 0.5193, 4);
    Ok(())
}

#[test]
fn beam_overhanging_one_support() -> Outcome {
    // AWC Design Aid No. 6, beam overhanging one support: three loadings.
    let a: f64 = 0.5;
    let span = overhang(a);
    let all = [spread(0.0, L + a)];
    let beam = span.under(&all)?;
    let [r1, r2] = beam.reactions();
    same("R1", r1, W * (L * L - a * a) / (2.0 * L));
    same("R2", r2, W * (L + a).powi(2) / (2.0 * L));
    let (up, down) = beam.extreme_moment();
    same("M-", down.1, -W * a * a / 2.0);
    same("M+", up.1, W * (L + a).powi(2) * (L - a).powi(2) / (8.0 * L * L));
    let end = W * a * (4.0 * a * a * L - L.powi(3) + 3.0 * a.powi(3)) / (24.0 * EI);
    same("end", beam.deflection(L + a), end);

    let tip = [spread(L, L + a)];
    let beam = span.under(&tip)?;
    same("R1", beam.reactions()[0], -W * a * a / (2.0 * L));
    let ((end, w), (_, between)) = beam.extreme_deflection();
    same("at", end, L + a);
    same("end", w, W * a.powi(3) * (4.0 * L + 3.0 * a) / (24.0 * EI));
    same("between", between, -W * a * a * L * L / (18.0 * 3f64.sqrt() * EI));

    let force = [Load::Point { at: L + a, force: P }];
    let beam = span.under(&force)?;
    let [r1, r2] = beam.reactions();
    same("R1", r1, -P * a / L);
    same("R2", r2, P * (L + a) / L);
    let ((_, w), (_, between)) = beam.extreme_deflection();
    same("end", w, P * a * a * (L + a) / (3.0 * EI));
    same("between", between, -P * a * L * L / (9.0 * 3f64.sqrt() * EI));
    same("V", beam.extreme_shear().1, P);
    Ok(())
}

#[test]
fn cantilever_as_half_of_a_symmetric_balance() -> Outcome {
    // AWC Design Aid No. 6, cantilever beam: uniform load, load at free end. By symmetry the
    // middle of a beam on one central seat is clamped. The seat is two supports a small distance
    // 2e apart, between which the beam adds its own curvature: exact in e.
    let e = 0.25;
    let span = Span { start: 0.0, end: 2.0 * (L + e), supports: [L, L + 2.0 * e], ..simple() };
    let between = |moment: f64| moment * e / EI; // rotation over a support, uniform moment
    let all = [spread(0.0, L), spread(L + 2.0 * e, 2.0 * (L + e))];
    let beam = span.under(&all)?;
    let moment = W * L * L / 2.0;
    same("M", beam.extreme_moment().1.1, -moment);
    same("w", beam.deflection(0.0), W * L.powi(4) / (8.0 * EI) + between(moment) * L);
    let tips = [0.0, 2.0 * (L + e)].map(|at| Load::Point { at, force: P });
    let beam = span.under(&tips)?;
    same("M", beam.extreme_moment().1.1, -P * L);
    same("w", beam.deflection(0.0), P * L.powi(3) / (3.0 * EI) + between(P * L) * L);
    Ok(())
}

#[test]
fn shear_deformation_adds_its_closed_form() -> Outcome {
    // Timoshenko: simple beam wL²/8κGA and PL/4κGA, overhang tip P a (1 + a/L)/κGA.
    let kga = 9.0e3;
    let span = Span { kga, ..simple() };
    let all = [spread(0.0, L)];
    let bending = 5.0 * W * L.powi(4) / (384.0 * EI);
    same("uniform", sag(&span.under(&all)?).1, bending + W * L * L / (8.0 * kga));
    let centre = [Load::Point { at: L / 2.0, force: P }];
    let bending = P * L.powi(3) / (48.0 * EI);
    same("centre", sag(&span.under(&centre)?).1, bending + P * L / (4.0 * kga));
    let a = 0.5;
    let tip = [Load::Point { at: L + a, force: P }];
    let span = Span { kga, ..overhang(a) };
    let bending = P * a * a * (L + a) / (3.0 * EI);
    same("tip", span.under(&tip)?.deflection(L + a), bending + P * a * (1.0 + a / L) / kga);
    Ok(())
}

#[test]
fn settled_supports_move_the_beam_rigidly() -> Outcome {
    let loads = [Load::Point { at: 0.7, force: P }];
    let a = 0.5;
    let still = overhang(a).under(&loads)?;
    let settled = overhang(a).under_with_settlement(&loads, [0.010, 0.002])?;
    for x in [0.0, 0.3, 0.7, 2.0, 2.5] {
        let rigid = 0.010 - 0.008 * x / L;
        assert!((settled.deflection(x) - still.deflection(x) - rigid).abs() < 1e-15);
        assert!((settled.rotation(x) - still.rotation(x) + 0.004).abs() < 1e-15);
        assert_eq!(settled.moment(x), still.moment(x));
    }
    Ok(())
}

#[test]
fn impossible_beams_are_refused() {
    let refused = |span: Span, loads: &[Load]| span.under(loads).err();
    let bad = [
        Span { end: 0.0, ..simple() },
        Span { supports: [1.5, 0.5], ..simple() },
        Span { supports: [1.0, 1.0], ..simple() },
        Span { supports: [0.0, 2.5], ..simple() },
        Span { ei: 0.0, ..simple() },
        Span { ei: f64::INFINITY, ..simple() },
        Span { kga: -1.0, ..simple() },
        Span { start: f64::NAN, ..simple() },
    ];
    for span in bad {
        assert!(refused(span, &[]).is_some(), "{span:?}");
    }
    for load in [
        Load::Point { at: 2.5, force: 1.0 },
        Load::Point { at: f64::NAN, force: 1.0 },
        Load::Point { at: 1.0, force: f64::INFINITY },
        Load::Spread { from: 1.0, to: 0.5, start: 1.0, end: 1.0 },
        Load::Spread { from: -0.1, to: 0.5, start: 1.0, end: 1.0 },
    ] {
        assert!(refused(simple(), &[load]).is_some(), "{load:?}");
    }
    let error = Span { ei: 0.0, ..simple() }.under(&[]).err();
    assert_eq!(error.map(|e: StaticsError| e.to_string()).as_deref(), Some("the beam: EI must be greater than zero"));
}

/// Beams that cross three lines hold each in the straight line through the other two. Four lines at uneven distances,
/// only the first of them held: the rest can roll about it, however many beams cross and wherever the lines begin and
/// end, for the lines stay straight. One more support still leaves the twist, two leave nothing.
#[test]
fn what_lies_across_holds_lines_in_a_plane_and_no_more() {
    let lines = [(0.0, 0.0, 2.0), (0.4, -0.3, 2.2), (1.1, 0.1, 1.7), (1.7, 0.05, 2.6)];
    let lines: Vec<Line> = lines.iter().map(|(y, from, to)| Line { y: *y, ei: EI, from: *from, to: *to }).collect();
    let mut crossbeams = Vec::new();
    for x in [0.2, 0.9, 1.6] {
        for rests_on in [[0, 1, 2], [1, 2, 3], [0, 2, 3], [0, 1, 3]] {
            let (start, end) = (lines[rests_on[0]].y, lines[rests_on[2]].y);
            let rests_on = rests_on.to_vec();
            crossbeams.push(Crossbeam { x, ei: EI, kga: STIFF, start, end, rests_on, held_down: true });
        }
    }
    let held = |more: &[(usize, f64)]| {
        let at = [(0, 0.3), (0, 1.5)].into_iter().chain(more.iter().copied());
        let springs = at.map(|(line, x)| Spring { line, x, stiffness: STIFF }).collect();
        let (lines, crossbeams) = (lines.clone(), crossbeams.clone());
        Model { lines, crossbeams, springs, links: Vec::new(), held_at_ends: false }.factor().map(|_| ())
    };
    for loose in [&[][..], &[(3, 0.7)], &[(1, 1.2)], &[(0, 0.8)]] {
        assert!(matches!(held(loose), Err(StaticsError::Floats { .. })), "{loose:?} leaves nothing loose");
    }
    for firm in [&[(3, 0.7), (3, 1.9)][..], &[(1, 1.2), (2, 0.4)], &[(2, 0.2), (3, 2.0)]] {
        assert_eq!(held(firm), Ok(()), "{firm:?}");
    }
}
