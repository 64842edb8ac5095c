//! Continuous, propped and clamped beams, and slats that lift, by the grillage.
//!
//! Coefficients of equal spans: reactions and moments of uniformly loaded beams, *Civil
//! Engineering Formulas* (T. G. Hicks), Table 2.1, p. 50, read; partly loaded spans and
//! deflections: AISC *Manual of Steel Construction* and AWC *Design Aid No. 6* figures as carried
//! in summaries, and values recomputed by an independent finite-element program. Tolerance: half a
//! unit in the last printed digit.

use std::error::Error;

use slatwright::statics::{Crossbeam, Grillage, Line, Link, Load, Model, On, Placed, Response, Spring, StaticsError};

type Outcome = Result<(), Box<dyn Error>>;

const RIGID: f64 = f64::INFINITY;

fn printed(what: &str, got: f64, value: f64, decimals: i32) {
    let half = 0.5 * 10f64.powi(-decimals) * (1.0 + 1e-9);
    assert!((got - value).abs() <= half, "{what}: {got} instead of {value}");
}

fn same(what: &str, got: f64, formula: f64) {
    assert!((got - formula).abs() <= 1e-10 * formula.abs().max(1e-6), "{what}: {got} {formula}");
}

/// A line of unit stiffness over unit spans.
fn continuous(spans: usize) -> Result<Grillage, StaticsError> {
    let to = spans as f64;
    let springs = (0..=spans).map(|k| Spring { line: 0, x: k as f64, stiffness: RIGID });
    let lines = vec![Line { y: 0.0, ei: 1.0, from: 0.0, to }];
    Model { lines, springs: springs.collect(), ..Model::default() }.factor()
}

/// The same beam laid across rigid lines, as a slat; the first lies at `from`.
fn crossing(spans: usize, from: f64) -> Result<Grillage, StaticsError> {
    let lines = (0..=spans).map(|k| Line { y: from + k as f64, ei: 1.0, from: 0.0, to: 1.0 });
    let at = |x: f64| (0..=spans).map(move |line| Spring { line, x, stiffness: RIGID });
    let slat = Crossbeam {
        x: 0.0,
        ei: 1.0,
        kga: RIGID,
        start: from,
        end: from + spans as f64,
        rests_on: (0..=spans).rev().collect(),
        held_down: true,
    };
    Model {
        lines: lines.collect(),
        crossbeams: vec![slat],
        springs: at(0.0).chain(at(1.0)).collect(),
        links: Vec::new(),
        held_at_ends: false,
    }
    .factor()
}

enum Kind {
    Uniform,
    Midspan,
}

/// One printed row. Every value carries the decimals it was printed with.
struct Row {
    spans: usize,
    kind: Kind,
    loaded: &'static [usize],
    reactions: (&'static [f64], i32),
    supports: (&'static [f64], i32),
    /// Span index, moment at the place where it is extreme within that span.
    moments: (&'static [(usize, f64)], i32),
    /// Span index, deflection farthest from zero within that span; and its printed decimals.
    deflections: (&'static [(usize, f64)], i32),
    /// Where the largest deflection is, in spans.
    at: Option<(f64, i32)>,
}

#[rustfmt::skip]
const ROWS: [Row; 12] = [
    // Read in Table 2.1: reactions and moments. 0.005416 at 0.4215 finite elements, AISC 0.0054.
    Row { spans: 2, kind: Kind::Uniform, loaded: &[0, 1], reactions: (&[0.375, 1.25, 0.375], 4), supports: (&[-0.125], 4), moments: (&[(0, 0.07031), (1, 0.07031)], 5), deflections: (&[(0, 0.005416)], 6), at: Some((0.4215, 4)) },
    // AISC 0.0092.
    Row { spans: 2, kind: Kind::Uniform, loaded: &[0], reactions: (&[0.4375, 0.625, -0.0625], 4), supports: (&[-0.0625], 4), moments: (&[(0, 0.0957)], 4), deflections: (&[(0, 0.009151), (1, -0.004009)], 6), at: Some((0.4725, 4)) },
    Row { spans: 2, kind: Kind::Midspan, loaded: &[0, 1], reactions: (&[0.3125, 1.375, 0.3125], 4), supports: (&[-0.1875], 4), moments: (&[(0, 0.15625)], 5), deflections: (&[(0, 0.009317)], 6), at: Some((0.447, 3)) },
    // AISC 0.015.
    Row { spans: 2, kind: Kind::Midspan, loaded: &[0], reactions: (&[0.40625, 0.6875, -0.09375], 5), supports: (&[-0.09375], 5), moments: (&[(0, 0.20313)], 5), deflections: (&[(0, 0.015012)], 6), at: Some((0.4805, 4)) },
    // Read in Table 2.1: reactions and moments. AISC 0.0069.
    Row { spans: 3, kind: Kind::Uniform, loaded: &[0, 1, 2], reactions: (&[0.4, 1.1, 1.1, 0.4], 4), supports: (&[-0.1, -0.1], 4), moments: (&[(0, 0.08), (1, 0.025)], 4), deflections: (&[(0, 0.006884), (1, 0.000521)], 6), at: Some((0.446, 3)) },
    // AISC 0.0099.
    Row { spans: 3, kind: Kind::Uniform, loaded: &[0, 2], reactions: (&[0.45, 0.55, 0.55, 0.45], 4), supports: (&[-0.05, -0.05], 4), moments: (&[(0, 0.10125), (1, -0.05)], 5), deflections: (&[(0, 0.009917), (1, -0.00625)], 6), at: Some((0.4795, 4)) },
    // AISC 0.0059.
    Row { spans: 3, kind: Kind::Uniform, loaded: &[0, 1], reactions: (&[0.3833, 1.2, 0.45, -0.0333], 4), supports: (&[-0.11667, -0.03333], 5), moments: (&[(0, 0.07347), (1, 0.05347)], 5), deflections: (&[(0, 0.005900)], 6), at: Some((0.4305, 4)) },
    Row { spans: 3, kind: Kind::Uniform, loaded: &[1], reactions: (&[-0.05, 0.55, 0.55, -0.05], 4), supports: (&[-0.05, -0.05], 4), moments: (&[(1, 0.075)], 4), deflections: (&[(1, 0.006771), (0, -0.003208)], 6), at: None },
    Row { spans: 3, kind: Kind::Uniform, loaded: &[0], reactions: (&[0.4333, 0.65, -0.1, 0.0167], 4), supports: (&[-0.06667, 0.01667], 5), moments: (&[(0, 0.09389)], 5), deflections: (&[(0, 0.008896)], 6), at: Some((0.47, 2)) },
    Row { spans: 3, kind: Kind::Midspan, loaded: &[0, 1, 2], reactions: (&[0.35, 1.15, 1.15, 0.35], 4), supports: (&[-0.15, -0.15], 4), moments: (&[(0, 0.175), (1, 0.1)], 4), deflections: (&[(0, 0.011573)], 6), at: Some((0.463, 3)) },
    Row { spans: 3, kind: Kind::Midspan, loaded: &[0], reactions: (&[0.4, 0.725, -0.15, 0.025], 4), supports: (&[-0.1, 0.025], 4), moments: (&[(0, 0.2)], 4), deflections: (&[(0, 0.014627)], 6), at: Some((0.4785, 4)) },
    // Fractions 11/28, 32/28, 26/28 and 3/28, 2/28 read in Table 2.1.
    Row { spans: 4, kind: Kind::Uniform, loaded: &[0, 1, 2, 3], reactions: (&[0.3929, 1.1429, 0.9286, 1.1429, 0.3929], 4), supports: (&[-0.10714, -0.07143, -0.10714], 5), moments: (&[(0, 0.07717), (1, 0.03635)], 5), deflections: (&[(0, 0.006460)], 6), at: Some((0.4395, 4)) },
];

fn loads(row: &Row) -> Vec<Load> {
    row.loaded
        .iter()
        .map(|span| match row.kind {
            Kind::Uniform => Load::Spread { from: *span as f64, to: *span as f64 + 1.0, start: 1.0, end: 1.0 },
            Kind::Midspan => Load::Point { at: *span as f64 + 0.5, force: 1.0 },
        })
        .collect()
}

/// Extreme value of a smooth function within a span by successive refinement of a grid: the test
/// looks for extremes in its own way, not in the library's.
fn farthest(span: usize, value: impl Fn(f64) -> f64) -> (f64, f64) {
    let (mut low, mut high) = (span as f64, span as f64 + 1.0);
    let mut best = low;
    for _ in 0..8 {
        let step = (high - low) / 40.0;
        for k in 0..=40 {
            let x = low + step * f64::from(k);
            if value(x).abs() > value(best).abs() {
                best = x;
            }
        }
        (low, high) = ((best - step).max(low), (best + step).min(high));
    }
    (best, value(best))
}

fn check_row(row: &Row, reactions: &[f64], moment: &dyn Fn(f64) -> f64, w: &dyn Fn(f64) -> f64) {
    let (expected, decimals) = row.reactions;
    for (got, value) in reactions.iter().zip(expected) {
        printed("reaction", *got, *value, decimals);
    }
    for (k, value) in row.supports.0.iter().enumerate() {
        printed("support moment", moment(k as f64 + 1.0), *value, row.supports.1);
    }
    for &(span, value) in row.moments.0 {
        // Where the span moment is smaller than that over a support, look for sagging only.
        let got = if value > 0.0 { farthest(span, |x| moment(x).max(0.0)).1 } else { farthest(span, moment).1 };
        printed("span moment", got, value, row.moments.1);
    }
    for &(span, value) in row.deflections.0 {
        printed("deflection", farthest(span, w).1, value, row.deflections.1);
    }
}

#[test]
fn equal_spans_as_a_line_on_rigid_supports() -> Outcome {
    for row in &ROWS {
        let grillage = continuous(row.spans)?;
        let placed: Vec<Placed> = loads(row).into_iter().map(|load| Placed { on: On::Line(0), load }).collect();
        let mut work = grillage.workspace();
        let response = grillage.solve(&placed, &mut work);
        let reactions: Vec<f64> = (0..=row.spans).map(|k| response.spring_force(k)).collect();
        let line = response.line(0);
        check_row(row, &reactions, &|x| line.moment(x), &|x| line.deflection(x));
        if let Some((at, decimals)) = row.at {
            // The printed place was read off a fine grid of 1/2000 span, hence the whole unit.
            let (x, _) = line.extreme_deflection().0;
            let x = x.min(row.spans as f64 - x);
            assert!((x - at).abs() <= 0.5 * 10f64.powi(-decimals) + 0.0005, "{x} instead of {at}");
        }
    }
    Ok(())
}

#[test]
fn equal_spans_as_a_crossbeam_on_rigid_lines() -> Outcome {
    // Where the first line lies makes no difference.
    for (row, first) in ROWS.iter().flat_map(|row| [(row, 0.0), (row, 0.75), (row, -2.0)]) {
        let grillage = crossing(row.spans, first)?;
        let there = |load| match load {
            Load::Point { at, force } => Load::Point { at: first + at, force },
            Load::Spread { from, to, start, end } => Load::Spread { from: first + from, to: first + to, start, end },
        };
        let on = On::Crossbeam(0);
        let placed: Vec<Placed> = loads(row).into_iter().map(|load| Placed { on, load: there(load) }).collect();
        let mut work = grillage.workspace();
        let response = grillage.solve(&placed, &mut work);
        let reactions: Vec<f64> = (0..=row.spans).rev().map(|j| response.crossbeam_reaction(0, j)).collect();
        let slat = response.crossbeam(0);
        check_row(row, &reactions, &|x| slat.moment(first + x), &|x| slat.deflection(first + x));
    }
    Ok(())
}

/// Simple beam, concentrated load: the shear falls by it, from `P b/L` to `−P a/L` (AWC Design Aid No. 6).
#[test]
fn the_shear_of_a_line_falls_by_the_load_at_its_place() -> Outcome {
    let grillage = continuous(1)?;
    let mut work = grillage.workspace();
    for at in [0.25, 0.5, 0.8] {
        let load = [Placed { on: On::Line(0), load: Load::Point { at, force: 3.0 } }];
        let (left, right) = grillage.solve(&load, &mut work).line(0).shear(at);
        same("left", left, 3.0 * (1.0 - at));
        same("right", right, -3.0 * at);
    }
    Ok(())
}

/// Two simple beams, one above the other, joined at midspan by a screw of stiffness `k`: each is a spring of
/// `48 EI/L³`, so the screw passes on `P / (1 + K₁/k + K₁/K₂)`.
#[test]
fn two_lines_joined_by_a_screw_share_the_load() -> Outcome {
    for (ei, k) in [(1.0, 48.0), (2.5, 10.0), (0.1, 1e6)] {
        let line = |ei| Line { y: 0.0, ei, from: 0.0, to: 1.0 };
        let at = |line, x| Spring { line, x, stiffness: RIGID };
        let model = Model {
            lines: vec![line(1.0), line(ei)],
            springs: vec![at(0, 0.0), at(0, 1.0), at(1, 0.0), at(1, 1.0)],
            links: vec![Link { lines: [0, 1], x: 0.5, stiffness: k }],
            ..Model::default()
        };
        let grillage = model.factor()?;
        let mut work = grillage.workspace();
        let load = [Placed { on: On::Line(0), load: Load::Point { at: 0.5, force: 3.0 } }];
        let response = grillage.solve(&load, &mut work);
        let passed = 3.0 / (1.0 + 48.0 / k + 1.0 / ei);
        same("F", response.link_force(0), passed);
        same("w below", response.line(1).deflection(0.5), passed / (48.0 * ei));
        same("w above", response.line(0).deflection(0.5), (3.0 - passed) / 48.0);
    }
    Ok(())
}

/// Beam overhanging one support, load at its end: `P a² (L + a)/3EI` there, the most of all (same tables).
#[test]
fn the_free_end_of_a_line_sags_most_under_a_load_there() -> Outcome {
    let line = Line { y: 0.0, ei: 1.0, from: -0.5, to: 1.0 };
    let springs = [0.0, 1.0].map(|x| Spring { line: 0, x, stiffness: RIGID });
    let grillage = Model { lines: vec![line], springs: springs.to_vec(), ..Model::default() }.factor()?;
    let mut work = grillage.workspace();
    let load = [Placed { on: On::Line(0), load: Load::Point { at: -0.5, force: 2.0 } }];
    let (x, sag) = grillage.solve(&load, &mut work).line(0).extreme_deflection().0;
    same("at", x, -0.5);
    same("w", sag, 2.0 * 0.25 * 1.5 / 3.0);
    Ok(())
}

/// A line from `-length` to `length` with supports mirrored about its middle: under a mirrored load
/// the middle does not turn, so each half is a beam clamped there.
fn mirrored(length: f64, ei: f64) -> Result<Grillage, StaticsError> {
    let lines = vec![Line { y: 0.0, ei, from: -length, to: length }];
    let springs = [0.0, length, -length].map(|x| Spring { line: 0, x, stiffness: RIGID }).to_vec();
    Model { lines, springs, ..Model::default() }.factor()
}

fn both_sides(loads: &[Load]) -> Vec<Placed> {
    let mirror = |load: &Load| match *load {
        Load::Point { at, force } => Load::Point { at: -at, force },
        Load::Spread { from, to, start, end } => Load::Spread { from: -to, to: -from, start: end, end: start },
    };
    let all = loads.iter().copied().chain(loads.iter().map(mirror));
    all.map(|load| Placed { on: On::Line(0), load }).collect()
}

#[test]
fn propped_cantilever_by_symmetry() -> Outcome {
    // AWC Design Aid No. 6, beam fixed at one end, supported at the other. The middle support of
    // two equal, equally loaded spans is clamped by symmetry. Distance x from the clamped end.
    let (l, ei, w, p) = (2.0f64, 540.0, 1500.0, 800.0);
    let grillage = mirrored(l, ei)?;
    let mut work = grillage.workspace();
    let uniform = both_sides(&[Load::Spread { from: 0.0, to: l, start: w, end: w }]);
    let response = grillage.solve(&uniform, &mut work);
    same("R", response.spring_force(1), 3.0 * w * l / 8.0);
    let (most, least) = response.line(0).extreme_moment();
    same("M fixed", least.1, -w * l * l / 8.0);
    same("M", most.1, 9.0 * w * l * l / 128.0);
    let (at, sag) = response.line(0).extreme_deflection().0;
    // The figure prints wL⁴/185EI at 0.4215 L from the prop: three and four digits.
    printed("w", w * l.powi(4) / (ei * sag), 185.0, 0);
    printed("at", 1.0 - at.abs() / l, 0.4215, 4);

    let centre = both_sides(&[Load::Point { at: l / 2.0, force: p }]);
    let response = grillage.solve(&centre, &mut work);
    same("R", response.spring_force(1), 5.0 * p / 16.0);
    let line = response.line(0);
    let (most, least) = line.extreme_moment();
    same("M fixed", least.1, -3.0 * p * l / 16.0);
    same("M", most.1, 5.0 * p * l / 32.0);
    same("w at load", line.deflection(l / 2.0), 7.0 * p * l.powi(3) / (768.0 * ei));
    same("w", line.extreme_deflection().0.1, p * l.powi(3) / (48.0 * 5f64.sqrt() * ei));
    Ok(())
}

#[test]
fn cantilever_and_clamped_span_by_symmetry() -> Outcome {
    // AWC Design Aid No. 6: cantilever; beam fixed at both ends. A cantilever is half of a balance.
    // A clamped span is a span with overhangs whose tip forces apply the printed end moments: if
    // those are right the ends stay level, and the printed deflection follows.
    let (l, ei, w, p) = (2.0f64, 540.0, 1500.0, 800.0);
    let lines = vec![Line { y: 0.0, ei, from: -l, to: l }];
    let springs = vec![
        Spring { line: 0, x: 0.0, stiffness: RIGID },
        // Holds the balance upright and carries nothing under symmetric load.
        Spring { line: 0, x: l, stiffness: 1.0e-3 },
        Spring { line: 0, x: -l, stiffness: 1.0e-3 },
    ];
    let balance = Model { lines, springs, ..Model::default() }.factor()?;
    let mut work = balance.workspace();
    let tips = both_sides(&[Load::Point { at: l, force: p }]);
    let soft = 1.0 + 1.0e-3 * l.powi(3) / (3.0 * ei);
    let tip = balance.solve(&tips, &mut work).line(0).deflection(l);
    same("w tip", tip, p * l.powi(3) / (3.0 * ei) / soft);
    let all = both_sides(&[Load::Spread { from: 0.0, to: l, start: w, end: w }]);
    let tip = balance.solve(&all, &mut work).line(0).deflection(l);
    same("w tip", tip, w * l.powi(4) / (8.0 * ei) / soft);

    // Clamped span from 0 to l: overhangs of length b carry tip forces that level the supports.
    let b = 0.5;
    let lines = vec![Line { y: 0.0, ei, from: -b, to: l + b }];
    let springs = vec![Spring { line: 0, x: 0.0, stiffness: RIGID }, Spring { line: 0, x: l, stiffness: RIGID }];
    let grillage = Model { lines, springs, ..Model::default() }.factor()?;
    let mut work = grillage.workspace();
    let a: f64 = 0.7;
    let c = l - a;
    // Load, clamping moments at both ends, moment and deflection at a place.
    let uniform = Load::Spread { from: 0.0, to: l, start: w, end: w };
    let central = Load::Point { at: l / 2.0, force: p };
    let aside = Load::Point { at: a, force: p };
    let fixed = w * l * l / 12.0;
    let rows = [
        (uniform, fixed, fixed, l / 2.0, w * l * l / 24.0, w * l.powi(4) / (384.0 * ei)),
        (central, p * l / 8.0, p * l / 8.0, l / 2.0, p * l / 8.0, p * l.powi(3) / (192.0 * ei)),
        (
            aside,
            p * a * c * c / (l * l),
            p * a * a * c / (l * l),
            a,
            2.0 * p * a * a * c * c / l.powi(3),
            p * a.powi(3) * c.powi(3) / (3.0 * ei * l.powi(3)),
        ),
    ];
    for (load, left, right, x, moment, deflection) in rows {
        let tip = |at, moment: f64| Load::Point { at, force: moment / b };
        let placed = [load, tip(-b, left), tip(l + b, right)].map(|load| Placed { on: On::Line(0), load });
        let response = grillage.solve(&placed, &mut work);
        let line = response.line(0);
        assert!(line.rotation(0.0).abs() < 1e-14 && line.rotation(l).abs() < 1e-14);
        same("M", line.moment(x), moment);
        same("w", line.deflection(x), deflection);
        same("M left", line.moment(0.0), -left);
    }
    Ok(())
}

#[test]
fn beam_on_an_elastic_foundation_of_many_springs() -> Outcome {
    // M. Hetényi, *Beams on Elastic Foundation* (1946), infinite beam under a point load; formulas
    // from memory. Springs every h stand for the foundation, which is an approximation of order
    // (λh)²; halving h must bring the answer four times nearer.
    let (k, ei, p) = (50_000.0f64, 540.0f64, 800.0);
    let lambda = (k / (4.0 * ei)).powf(0.25);
    let formula = p * lambda / (2.0 * k);
    let error = |h: f64| -> Result<f64, StaticsError> {
        let count = (16.0 / lambda / h).round() as i32;
        let reach = h * f64::from(count);
        let lines = vec![Line { y: 0.0, ei, from: -reach, to: reach }];
        let springs = (-count..=count).map(|i| Spring { line: 0, x: h * f64::from(i), stiffness: k * h }).collect();
        let grillage = Model { lines, springs, ..Model::default() }.factor()?;
        let mut work = grillage.workspace();
        let load = [Placed { on: On::Line(0), load: Load::Point { at: 0.0, force: p } }];
        Ok(grillage.solve(&load, &mut work).line(0).deflection(0.0) / formula - 1.0)
    };
    let (coarse, fine) = (error(0.04)?, error(0.02)?);
    assert!(coarse.abs() < 1e-3 && fine.abs() < coarse.abs() / 3.5, "{coarse} {fine}");
    Ok(())
}

/// A slat over three rigid lines at 0, 1 and 2.
fn loose(end: f64, held_down: bool) -> Result<Grillage, StaticsError> {
    let lines = [0.0, 1.0, 2.0].map(|y| Line { y, ei: 1.0, from: 0.0, to: 1.0 });
    let at = |x: f64| (0..3).map(move |line| Spring { line, x, stiffness: RIGID });
    let slat = Crossbeam { x: 0.0, ei: 1.0, kga: RIGID, start: 0.0, end, rests_on: vec![0, 1, 2], held_down };
    Model {
        lines: lines.to_vec(),
        crossbeams: vec![slat],
        springs: at(0.0).chain(at(1.0)).collect(),
        links: Vec::new(),
        held_at_ends: false,
    }
    .factor()
}

fn on_slat(load: Load) -> [Placed; 1] {
    [Placed { on: On::Crossbeam(0), load }]
}

#[test]
fn the_empty_end_of_a_loose_slat_lifts() -> Outcome {
    // One span loaded: held down, the far reaction is −wL/16 (AISC, two spans, one loaded); loose,
    // it is a simple beam with an unloaded overhang, whose end rises by wL³/24EI times its length
    // (AWC Design Aid No. 6, simple beam, end slope).
    let load = on_slat(Load::Spread { from: 0.0, to: 1.0, start: 1.0, end: 1.0 });
    let grillage = loose(2.0, false)?;
    let mut work = grillage.workspace();
    same("held", grillage.solve(&load, &mut work).crossbeam_reaction(0, 2), -1.0 / 16.0);
    let response = grillage.solve_lifting(&[], &load, &mut work)?;
    same("R1", response.crossbeam_reaction(0, 0), 0.5);
    same("R2", response.crossbeam_reaction(0, 1), 0.5);
    assert!(response.crossbeam_reaction(0, 2).abs() < 1e-12);
    same("gap", response.gap(0, 2), 1.0 / 24.0);
    same("M", response.crossbeam(0).extreme_moment().0.1, 1.0 / 8.0);
    same("w", response.crossbeam(0).deflection(0.5), 5.0 / 384.0);
    same("end", response.crossbeam(0).deflection(2.0), -1.0 / 24.0);

    // Fastened down it keeps pulling; the answer is the linear one.
    let fastened = loose(2.0, true)?;
    let mut work = fastened.workspace();
    let response = fastened.solve_lifting(&[], &load, &mut work)?;
    same("pull", response.crossbeam_reaction(0, 2), -1.0 / 16.0);
    Ok(())
}

#[test]
fn its_own_weight_keeps_a_loose_slat_down() -> Outcome {
    // Uniform weight g on both spans gives 3gL/8 at the end (Table 2.1, read), against w L/16.
    let grillage = loose(2.0, false)?;
    let mut work = grillage.workspace();
    let load = on_slat(Load::Spread { from: 0.0, to: 1.0, start: 1.0, end: 1.0 });
    let weight = |g: f64| on_slat(Load::Spread { from: 0.0, to: 2.0, start: g, end: g });
    let response = grillage.solve_lifting(&weight(0.2), &load, &mut work)?;
    same("stays", response.crossbeam_reaction(0, 2), 0.375 * 0.2 - 0.0625);
    let response = grillage.solve_lifting(&weight(0.1), &load, &mut work)?;
    assert!(response.crossbeam_reaction(0, 2).abs() < 1e-12 && response.gap(0, 2) > 0.0);
    // Simple span with a loaded overhang of length 1: R1 = (1.1/2) − 0.1·1²/2.
    same("R1", response.crossbeam_reaction(0, 0), 0.55 - 0.05);
    Ok(())
}

#[test]
fn a_loose_slat_loaded_beyond_its_last_support_pivots_on_two() -> Outcome {
    // A weight over the middle keeps it from tipping; the overhang bends it up off the middle
    // support and the outer two carry it (AWC Design Aid No. 6, beam overhanging one support):
    // R1 = −Pa/L and R2 = P(L + a)/L, and half the weight each.
    let grillage = loose(2.5, false)?;
    let mut work = grillage.workspace();
    let tip = on_slat(Load::Point { at: 2.5, force: 1.0 });
    assert_eq!(grillage.solve_lifting(&[], &tip, &mut work).map(|_| ()), Err(StaticsError::Tips { crossbeam: 0 }));
    let middle = on_slat(Load::Point { at: 1.0, force: 0.6 });
    let response = grillage.solve_lifting(&middle, &tip, &mut work)?;
    assert!(response.gap(0, 1) > 0.0);
    same("R1", response.crossbeam_reaction(0, 0), 0.3 - 0.25);
    same("R2", response.crossbeam_reaction(0, 2), 0.3 + 1.25);
    Ok(())
}

#[test]
fn impossible_grillages_are_refused() {
    let line = |y| Line { y, ei: 1.0, from: 0.0, to: 2.0 };
    let spring = |line, x| Spring { line, x, stiffness: 1.0 };
    let slat = |rests_on| Crossbeam { x: 1.0, ei: 1.0, kga: RIGID, start: 0.0, end: 2.0, rests_on, held_down: true };
    let good = Model {
        lines: vec![line(0.0), line(2.0)],
        crossbeams: vec![slat(vec![0, 1])],
        springs: vec![spring(0, 0.0), spring(0, 2.0), spring(1, 0.5), spring(1, 1.5)],
        links: vec![],
        held_at_ends: false,
    };
    assert!(good.factor().is_ok());
    let refused = |change: &dyn Fn(&mut Model)| {
        let mut model = good.clone();
        change(&mut model);
        model.factor().err()
    };
    // Held at one point only, or at one point twice.
    let floats = |line| Some(StaticsError::Floats { line });
    assert_eq!(refused(&|m| m.springs.truncate(3)), floats(1));
    assert_eq!(refused(&|m| m.springs[1].x = 0.0), floats(0));
    // A third line held only by links to a line that is held: both or nothing.
    let link = |x| Link { lines: [0, 2], x, stiffness: 1.0 };
    let third = |m: &mut Model| m.lines.push(line(0.0));
    assert_eq!(
        refused(&|m| {
            third(m);
            m.links.push(link(1.0))
        }),
        floats(2)
    );
    assert_eq!(
        refused(&|m| {
            third(m);
            m.links.extend([link(0.5), link(1.5)])
        }),
        None
    );
    assert!(matches!(refused(&|m| m.lines.clear()), Some(StaticsError::Lines { count: 0 })));
    let wrong: [&dyn Fn(&mut Model); 13] = [
        &|m| m.lines[0].ei = f64::NAN,
        &|m| m.lines[0].to = 0.0,
        &|m| m.springs[0].stiffness = 0.0,
        &|m| m.springs[0].stiffness = f64::NAN,
        &|m| m.springs[0].x = 2.1,
        &|m| m.springs[0].line = 9,
        &|m| m.crossbeams[0].rests_on = vec![0],
        &|m| m.crossbeams[0].rests_on = vec![0, 0],
        &|m| m.crossbeams[0].rests_on = vec![0, 9],
        &|m| m.crossbeams[0].x = -0.5,
        &|m| m.crossbeams[0].end = 1.5,
        &|m| m.links.push(Link { lines: [0, 0], x: 1.0, stiffness: 1.0 }),
        &|m| m.links.push(Link { lines: [0, 1], x: 1.0, stiffness: RIGID }),
    ];
    for (i, change) in wrong.iter().enumerate() {
        assert!(refused(*change).is_some(), "change {i}");
    }
}

#[test]
fn a_load_that_no_beam_carries_is_refused_and_never_lost() -> Outcome {
    let grillage = loose(2.0, true)?;
    let mut work = grillage.workspace();
    let load = Load::Point { at: 0.5, force: 1.0 };
    let off = Load::Point { at: 3.0, force: 1.0 };
    for placed in [
        Placed { on: On::Crossbeam(7), load },
        Placed { on: On::Line(7), load },
        Placed { on: On::Line(0), load: off },
        Placed { on: On::Crossbeam(0), load: off },
    ] {
        assert!(grillage.admit(&[placed]).is_err());
        let response: Response<'_> = grillage.solve(&[placed], &mut work);
        assert!(response.crossbeam_reaction(0, 1).is_nan());
        assert!(response.line(0).moment(0.5).is_nan());
        assert!(response.spring_force(0).is_nan());
    }
    Ok(())
}

/// A slat over three lines at 0, 1 and 2 whose middle one is a beam of stiffness 1 from −1 to 1, loaded by 1
/// at its middle: it sinks by 2³/48 unless the slat holds it. Held everywhere, the slat is a spring of 48/2³
/// and takes half; held at its ends only, it lets the beam go and stays straight.
#[test]
fn a_slat_held_at_its_ends_parts_from_what_sinks_between() -> Outcome {
    let grillage = |held_at_ends| {
        let line = |y, from, to| Line { y, ei: 1.0, from, to };
        let at = |line, x| Spring { line, x, stiffness: RIGID };
        let slat =
            Crossbeam { x: 0.0, ei: 1.0, kga: RIGID, start: 0.0, end: 2.0, rests_on: vec![2, 0, 1], held_down: true };
        Model {
            lines: vec![line(0.0, 0.0, 1.0), line(2.0, 0.0, 1.0), line(1.0, -1.0, 1.0)],
            crossbeams: vec![slat],
            springs: vec![at(0, 0.0), at(0, 1.0), at(1, 0.0), at(1, 1.0), at(2, -1.0), at(2, 1.0)],
            links: Vec::new(),
            held_at_ends,
        }
        .factor()
    };
    let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-12, "{a} {b}");
    let sinks = 8.0 / 48.0;
    let push = [Placed { on: On::Line(2), load: Load::Point { at: 0.0, force: 1.0 } }];
    for (ends_only, taken) in [(false, 0.5), (true, 0.0)] {
        let g = grillage(ends_only)?;
        let mut work = g.workspace();
        let r = g.solve_lifting(&[], &push, &mut work)?;
        close(r.line(2).deflection(0.0), sinks * (1.0 - taken));
        close(r.sunk(0, 0), sinks * (1.0 - taken));
        // `rests_on` names the middle line first.
        close(r.crossbeam_reaction(0, 0), -taken);
        close(r.crossbeam_reaction(0, 1), taken / 2.0);
        close(r.gap(0, 0), if ends_only { sinks } else { 0.0 });
        close(r.crossbeam(0).extreme_moment().0.1, taken / 2.0);
        // A force on the slat as well: it sinks by the same amount for the same force, so half of 1 comes to
        // rest on the beam once the gap is shut, which takes a force of 1.
        let press = |force| [Placed { on: On::Crossbeam(0), load: Load::Point { at: 1.0, force } }];
        let r = g.solve_lifting(&push, &press(0.5), &mut work)?;
        close(r.crossbeam_reaction(0, 0), if ends_only { 0.0 } else { -0.25 });
        let r = g.solve_lifting(&push, &press(3.0), &mut work)?;
        close(r.crossbeam_reaction(0, 0), 1.0);
        close(r.gap(0, 0), 0.0);
    }
    Ok(())
}

/// Two spans of 1 under `w`, the middle support sunk by `δ` more than the mean of the others: below the chord of a span lies the propped
/// span's `w x (1 − 3x² + 2x³)/48` (AISC, beam fixed at one end, from memory) and, for the moment `3δ` that the
/// settlement brings, `δ/2 · x (1 − x²)` (beam with an end moment, same tables).
#[test]
fn sag_is_measured_from_the_line_between_two_supports() -> Outcome {
    let line = |y, ei| Line { y, ei, from: 0.0, to: 1.0 };
    let at = |line, stiffness| Spring { line, x: 0.0, stiffness };
    for (first, yielding) in [(RIGID, RIGID), (RIGID, 10.0), (RIGID, 1.0), (5.0, RIGID), (8.0, 3.0)] {
        let slat =
            Crossbeam { x: 0.0, ei: 1.0, kga: RIGID, start: 0.0, end: 2.0, rests_on: vec![0, 1, 2], held_down: true };
        let ends = (0..3).map(|line| Spring { line, x: 1.0, stiffness: RIGID });
        let model = Model {
            lines: vec![line(0.0, 1.0), line(1.0, 1e-9), line(2.0, 1.0)],
            crossbeams: vec![slat],
            springs: [at(0, first), at(1, yielding), at(2, RIGID)].into_iter().chain(ends).collect(),
            ..Model::default()
        };
        let g = model.factor()?;
        let mut work = g.workspace();
        let load = [Placed { on: On::Crossbeam(0), load: Load::Spread { from: 0.0, to: 2.0, start: 8.0, end: 8.0 } }];
        let r = g.solve(&load, &mut work);
        let at = |line| r.line(line).deflection(0.0);
        let sunk = at(1) - (at(0) + at(2)) / 2.0;
        let curve = |x: f64| 8.0 * x * (1.0 - 3.0 * x * x + 2.0 * x.powi(3)) / 48.0 + sunk / 2.0 * x * (1.0 - x * x);
        let beam = r.crossbeam(0);
        for x in [0.0, 0.1, 0.4, 0.7, 1.0] {
            assert!((beam.sag_at(0, x) - curve(x)).abs() < 1e-9, "{x}: {} {}", beam.sag_at(0, x), curve(x));
            assert!((beam.sag_at(1, 2.0 - x) - curve(x)).abs() < 1e-9);
        }
        let most = (0..=10_000).map(|k| curve(f64::from(k) / 1e4)).fold(0.0, f64::max);
        for span in 0..2 {
            let (at, sag) = beam.extreme_sag(span);
            assert!((sag - most).abs() < 1e-8 * most.max(1.0), "{sag} {most}");
            assert!((beam.sag_at(span, at) - sag).abs() < 1e-12);
        }
    }
    Ok(())
}
