//! Grillages and bodies on them, of any size, and what is asked of each.

use slatwright::statics::{Crossbeam, Grillage, Line, Load, Model, On, Placed, Response, Spring, Workspace};

const SPAN: f64 = 1.45;
/// Start along the body, length, width across, weight in N of each part of a body lying down.
const BODY: [(f64, f64, f64, f64); 6] = [
    (0.0, 0.2, 0.16, 70.0),
    (0.2, 0.3, 0.38, 250.0),
    (0.5, 0.2, 0.30, 100.0),
    (0.7, 0.3, 0.36, 330.0),
    (1.0, 0.35, 0.30, 130.0),
    (1.35, 0.35, 0.25, 120.0),
];

/// Slats every 100 mm on two cleats with screws every 300 mm, and a centre beam if wanted.
pub(crate) fn platform(slats: usize, centre: bool) -> Model {
    let length = 0.1 * slats as f64;
    let e = 9.65e9;
    let line = |y, ei| Line { y, ei, from: 0.0, to: length };
    let cleat = e * 0.038f64.powi(4) / 12.0;
    let mut model = Model {
        lines: vec![line(0.0, cleat), line(SPAN, cleat)],
        crossbeams: (0..slats)
            .map(|i| Crossbeam {
                x: 0.1 * i as f64 + 0.05,
                ei: e * 0.089 * 0.038f64.powi(3) / 12.0,
                kga: f64::INFINITY,
                start: 0.0,
                end: SPAN,
                rests_on: if centre { vec![0, 1, 2] } else { vec![0, 1] },
                held_down: true,
            })
            .collect(),
        ..Model::default()
    };
    let screws = ((length - 0.1) / 0.3 + 1e-9).floor() as usize + 1;
    for line in 0..2 {
        for k in 0..screws {
            model.springs.push(Spring { line, x: 0.1 + 0.3 * k as f64, stiffness: 1.5e6 });
        }
    }
    if centre {
        model.lines.push(line(SPAN / 2.0, e * 0.038 * 0.089f64.powi(3) / 12.0));
        for k in 0..slats / 20 {
            for x in [0.2, 1.0, 1.8] {
                model.springs.push(Spring { line: 2, x: 2.0 * k as f64 + x, stiffness: 1e7 });
            }
        }
    }
    model
}

/// A body at three places across and `positions / 3` along.
pub(crate) fn bodies(slats: usize, positions: usize) -> Vec<Vec<Placed>> {
    let (pitch, along) = (0.1, positions / 3);
    let mut cases = Vec::new();
    for across in [0.5, 0.375, 0.25] {
        for step in 0..along {
            let x0 = (0.1 * slats as f64 - 1.7) * step as f64 / (along - 1) as f64;
            let mut case = Vec::new();
            for (start, length, width, weight) in BODY {
                let (x1, x2) = (x0 + start, x0 + start + length);
                for i in (x1 / pitch) as usize..((x2 / pitch).ceil() as usize).min(slats) {
                    let share = x2.min(pitch * (i + 1) as f64) - x1.max(pitch * i as f64);
                    if share > 1e-12 {
                        let q = weight / (length * width) * share;
                        let (from, to) = (across * SPAN - width / 2.0, across * SPAN + width / 2.0);
                        let load = Load::Spread { from, to, start: q, end: q };
                        case.push(Placed { on: On::Crossbeam(i), load });
                    }
                }
            }
            cases.push(case);
        }
    }
    cases
}

/// Eliminates, solves every case and recovers what governs: largest midspan deflection and moment of any slat,
/// moment of any cleat, and screw force.
pub(crate) fn whole(model: &Model, cases: &[&[Placed]]) -> [f64; 4] {
    let Ok(grillage) = model.factor() else { return [f64::NAN; 4] };
    solve(&grillage, model, cases, &mut grillage.workspace())
}

fn solve(grillage: &Grillage, model: &Model, cases: &[&[Placed]], work: &mut Workspace) -> [f64; 4] {
    let mut largest = [f64::NEG_INFINITY; 4];
    grillage.solve_each(cases, work, &mut |_, r| {
        for (most, here) in largest.iter_mut().zip(govern(model, r)) {
            *most = most.max(here);
        }
    });
    largest
}

/// The same four of one case.
fn govern(model: &Model, r: &Response<'_>) -> [f64; 4] {
    let centre = model.lines.len() > 2;
    let (mut sag, mut bent, mut cleat) = (f64::NEG_INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    for (i, slat) in model.crossbeams.iter().enumerate() {
        let beam = r.crossbeam(i);
        let mid = 0.5 * (slat.start + slat.end);
        sag = sag.max(if centre { r.sunk(i, 2) } else { beam.deflection(mid) });
        bent = bent.max(beam.extreme_moment().0.1);
    }
    for line in [r.line(0), r.line(1)] {
        cleat = (0..line.len()).fold(cleat, |most, i| most.max(line.moment_at(i).abs()));
    }
    let screw = (0..model.springs.len()).fold(f64::NEG_INFINITY, |most, k| most.max(r.spring_force(k)));
    [sag, bent, cleat, screw]
}
