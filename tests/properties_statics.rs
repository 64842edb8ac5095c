//! Laws that any linear-elastic beam or grillage obeys, on random ones: equilibrium, superposition,
//! Maxwell–Betti reciprocity, mirror symmetry, complementarity of contacts, and that no sampled
//! value lies beyond an extreme. No source beyond the textbooks' theorems is needed.

use proptest::prelude::*;
use slatwright::statics::{
    Crossbeam, Grillage, Line, Link, Load, Loaded, Model, On, Placed, Span, Spring, StaticsError,
};

const LENGTH: f64 = 2.0;
const WIDTH: f64 = 1.4;

fn loads(length: f64) -> impl Strategy<Value = Vec<Load>> {
    let point = (0.0..=1.0f64, -500.0..800.0f64).prop_map(move |(at, force)| Load::Point { at: at * length, force });
    let spread = (0.0..1.0f64, 0.0..1.0f64, -300.0..900.0f64, -300.0..900.0f64).prop_map(move |(a, b, start, end)| {
        Load::Spread { from: a.min(b) * length, to: a.max(b) * length, start, end }
    });
    prop::collection::vec(prop_oneof![point, spread], 1..5)
}

fn spans() -> impl Strategy<Value = Span> {
    let shear = prop_oneof![Just(f64::INFINITY), 1.0e4..1.0e6f64];
    (0.0..0.4f64, 0.6..1.0f64, 100.0..5000.0f64, shear).prop_map(|(a, b, ei, kga)| Span {
        start: 0.0,
        end: LENGTH,
        supports: [a * LENGTH, b * LENGTH],
        ei,
        kga,
    })
}

fn total(loads: &[Load]) -> f64 {
    loads.iter().map(Load::force).sum()
}

fn size(loads: &[Load]) -> f64 {
    loads
        .iter()
        .map(|load| match *load {
            Load::Point { force, .. } => force.abs(),
            Load::Spread { from, to, start, end } => (to - from) * start.abs().max(end.abs()),
        })
        .sum::<f64>()
        + 1.0
}

fn mirror(load: &Load, length: f64) -> Load {
    match *load {
        Load::Point { at, force } => Load::Point { at: length - at, force },
        Load::Spread { from, to, start, end } => {
            Load::Spread { from: length - to, to: length - from, start: end, end: start }
        }
    }
}

/// No sampled value may lie beyond an extreme, and every extreme must be attained where it says.
fn extremes_hold(beam: &Loaded<'_>, scale: f64) -> Result<(), TestCaseError> {
    let ((xm, most), (xl, least)) = beam.extreme_moment();
    let ((xd, down), (xu, up)) = beam.extreme_deflection();
    let (xv, shear) = beam.extreme_shear();
    // The softest beam drawn scales the tolerance on deflections.
    let w = scale * LENGTH.powi(3) / 100.0;
    let tiny = 1e-11;
    prop_assert!((beam.moment(xm) - most).abs() <= tiny * scale);
    prop_assert!((beam.moment(xl) - least).abs() <= tiny * scale);
    prop_assert!((beam.deflection(xd) - down).abs() <= tiny * w);
    prop_assert!((beam.deflection(xu) - up).abs() <= tiny * w);
    let (left, right) = beam.shear(xv);
    prop_assert!((left - shear).abs().min((right - shear).abs()) <= tiny * scale);
    for k in 0..=200 {
        let x = LENGTH * f64::from(k) / 200.0;
        let (m, d, (v1, v2)) = (beam.moment(x), beam.deflection(x), beam.shear(x));
        prop_assert!(least - tiny * scale <= m && m <= most + tiny * scale);
        prop_assert!(up - tiny * w <= d && d <= down + tiny * w);
        prop_assert!(v1.abs().max(v2.abs()) <= shear.abs() + tiny * scale);
    }
    Ok(())
}

proptest! {
    #[test]
    fn a_span_is_in_equilibrium_and_its_extremes_are_extremes(span in spans(), loads in loads(LENGTH)) {
        let beam = span.under(&loads).unwrap();
        let scale = size(&loads);
        let [left, right] = beam.reactions();
        prop_assert!((left + right - total(&loads)).abs() <= 1e-12 * scale * 10.0);
        // Nothing is left over at the free right end.
        prop_assert!(beam.moment(LENGTH).abs() <= 1e-11 * scale);
        prop_assert!(beam.shear(LENGTH).1.abs() <= 1e-11 * scale);
        for support in span.supports {
            prop_assert!(beam.deflection(support).abs() <= 1e-10 * scale / span.ei);
        }
        extremes_hold(&beam, scale)?;
    }

    #[test]
    fn a_span_superposes_and_mirrors(span in spans(), a in loads(LENGTH), b in loads(LENGTH), x in 0.0..LENGTH) {
        let both: Vec<Load> = a.iter().chain(&b).copied().collect();
        let scale = size(&both);
        let flipped: Vec<Load> = both.iter().map(|load| mirror(load, LENGTH)).collect();
        let image = Span { supports: [LENGTH - span.supports[1], LENGTH - span.supports[0]], ..span };
        let (one, two) = (span.under(&a).unwrap(), span.under(&b).unwrap());
        let (sum, other) = (span.under(&both).unwrap(), image.under(&flipped).unwrap());
        let w = scale * LENGTH.powi(3) / span.ei;
        prop_assert!((one.moment(x) + two.moment(x) - sum.moment(x)).abs() <= 1e-12 * scale * 10.0);
        prop_assert!((one.deflection(x) + two.deflection(x) - sum.deflection(x)).abs() <= 1e-11 * w);
        prop_assert!((sum.moment(x) - other.moment(LENGTH - x)).abs() <= 1e-11 * scale);
        prop_assert!((sum.deflection(x) - other.deflection(LENGTH - x)).abs() <= 1e-11 * w);
        prop_assert!((sum.rotation(x) + other.rotation(LENGTH - x)).abs() <= 1e-11 * w);
    }

    #[test]
    fn a_span_and_a_line_on_rigid_supports_agree(span in spans(), loads in loads(LENGTH), x in 0.0..LENGTH) {
        let span = Span { kga: f64::INFINITY, ..span };
        let beam = span.under(&loads).unwrap();
        let lines = vec![Line { y: 0.0, ei: span.ei, from: 0.0, to: LENGTH }];
        let springs = span.supports.map(|x| Spring { line: 0, x, stiffness: f64::INFINITY });
        let model = Model { lines, springs: springs.to_vec(), ..Model::default() };
        let grillage = model.factor().unwrap();
        let mut work = grillage.workspace();
        let placed: Vec<Placed> =
            loads.iter().map(|load| Placed { on: On::Line(0), load: *load }).collect();
        let response = grillage.solve(&placed, &mut work);
        let line = response.line(0);
        let scale = size(&loads);
        // An overhang of a hundredth of the beam makes an element a million times as stiff.
        let (force, w) = (1e-8 * scale, 1e-9 * scale * LENGTH.powi(3) / span.ei);
        for k in 0..2 {
            prop_assert!((response.spring_force(k) - beam.reactions()[k]).abs() <= force);
        }
        prop_assert!((line.moment(x) - beam.moment(x)).abs() <= force);
        prop_assert!((line.shear(x).1 - beam.shear(x).1).abs() <= force);
        prop_assert!((line.deflection(x) - beam.deflection(x)).abs() <= w);
        prop_assert!((line.rotation(x) - beam.rotation(x)).abs() <= w);
        let (ours, theirs) = (line.extreme_moment(), beam.extreme_moment());
        prop_assert!((ours.0.1 - theirs.0.1).abs() <= force);
        prop_assert!((ours.1.1 - theirs.1.1).abs() <= force);
        let (ours, theirs) = (line.extreme_deflection(), beam.extreme_deflection());
        prop_assert!((ours.0.1 - theirs.0.1).abs() <= w);
        prop_assert!((ours.1.1 - theirs.1.1).abs() <= w);
        prop_assert!((line.extreme_shear().1.abs() - beam.extreme_shear().1.abs()).abs() <= force);
    }
}

/// A bed: two cleats on two rails, a centre beam, slats of two kinds, and loads on anything.
#[derive(Debug, Clone)]
struct Bed {
    model: Model,
    loads: Vec<Placed>,
}

fn beds(held_down: bool) -> impl Strategy<Value = Bed> {
    let slats = prop::collection::vec((0.0..=1.0f64, any::<bool>(), 50.0..4000.0f64), 1..7);
    let screws = prop::collection::vec(0.0..=1.0f64, 2..6);
    let placed = prop::collection::vec((0..12usize, loads(1.0)), 1..5);
    (slats, screws, placed, 1.0e5..1.0e8f64, prop_oneof![Just(f64::INFINITY), Just(3.0e5)])
        .prop_filter("screws apart", |(_, s, ..)| {
            s.iter().enumerate().any(|(i, a)| s[..i].iter().any(|b| (a - b).abs() > 0.05))
        })
        .prop_map(move |(slats, screws, placed, stiffness, kga)| {
            bed(&slats, &screws, &placed, stiffness, kga, held_down)
        })
}

fn bed(
    slats: &[(f64, bool, f64)],
    screws: &[f64],
    placed: &[(usize, Vec<Load>)],
    stiffness: f64,
    kga: f64,
    held_down: bool,
) -> Bed {
    let line = |y, ei| Line { y, ei, from: 0.0, to: LENGTH };
    let crossbeam = |&(x, three, ei): &(f64, bool, f64)| Crossbeam {
        x: x * LENGTH,
        ei,
        kga,
        start: -0.1,
        end: WIDTH + 0.1,
        rests_on: if three || !held_down { vec![0, 1, 4] } else { vec![0, 1] },
        held_down,
    };
    let link = |side: usize| screws.iter().map(move |x| Link { lines: [side, side + 2], x: x * LENGTH, stiffness });
    let spring = |line, x, stiffness| Spring { line, x: x * LENGTH, stiffness };
    let model = Model {
        lines: vec![
            line(0.0, 1700.0),
            line(WIDTH, 1700.0),
            line(0.0, 30_000.0),
            line(WIDTH, 30_000.0),
            line(WIDTH / 2.0, 20_000.0),
        ],
        crossbeams: slats.iter().map(crossbeam).collect(),
        springs: vec![
            spring(2, 0.0, f64::INFINITY),
            spring(2, 1.0, 1.0e6),
            spring(3, 0.0, 1.0e6),
            spring(3, 1.0, f64::INFINITY),
            spring(4, 0.1, 1.0e7),
            spring(4, 0.5, 1.0e5),
            spring(4, 0.9, 1.0e7),
        ],
        links: link(0).chain(link(1)).collect(),
        held_at_ends: false,
    };
    let loads = placed.iter().flat_map(|(target, loads)| {
        let target = target % (slats.len() + 5);
        let crossbeam = target < slats.len();
        loads.iter().map(move |load| {
            let (on, length, shift) = if crossbeam {
                (On::Crossbeam(target), WIDTH + 0.2, -0.1)
            } else {
                (On::Line(target - slats.len()), LENGTH, 0.0)
            };
            let place = |t: f64| t * length + shift;
            let load = match *load {
                Load::Point { at, force } => Load::Point { at: place(at), force },
                Load::Spread { from, to, start, end } => Load::Spread { from: place(from), to: place(to), start, end },
            };
            Placed { on, load }
        })
    });
    Bed { model, loads: loads.collect() }
}

fn all(placed: &[Placed]) -> Vec<Load> {
    placed.iter().map(|p| p.load).collect()
}

fn factored(bed: &Bed) -> Result<Grillage, StaticsError> {
    bed.model.factor()
}

/// Deflection of the beam that a load acts on, at the load's middle.
fn work_of(loads: &[Placed], moved: &dyn Fn(&Placed) -> f64) -> f64 {
    loads.iter().map(|p| p.load.force() * moved(p)).sum()
}

proptest! {
    #[test]
    fn a_grillage_is_in_equilibrium(bed in beds(true)) {
        let grillage = factored(&bed).unwrap();
        let mut work = grillage.workspace();
        let response = grillage.solve(&bed.loads, &mut work);
        let loads = all(&bed.loads);
        let tolerance = 1e-8 * size(&loads);
        let carried: f64 = (0..bed.model.springs.len()).map(|k| response.spring_force(k)).sum();
        prop_assert!((carried - total(&loads)).abs() <= tolerance);
        for (i, slat) in bed.model.crossbeams.iter().enumerate() {
            let beam = response.crossbeam(i);
            let own = total(beam.loads());
            let reactions: f64 =
                (0..slat.rests_on.len()).map(|j| response.crossbeam_reaction(i, j)).sum();
            prop_assert!((own - reactions).abs() <= tolerance);
            prop_assert!(beam.moment(slat.end).abs() <= tolerance);
            // The crossbeam touches every line it rests on.
            for line in &slat.rests_on {
                let here = response.line(*line).deflection(slat.x);
                let y = bed.model.lines[*line].y;
                prop_assert!((beam.deflection(y) - here).abs() <= 1e-9 * size(&loads) * 1e-2);
            }
        }
        for l in 0..5 {
            let line = response.line(l);
            let last = line.len() - 1;
            prop_assert!(line.moment_at(last).abs() <= tolerance);
            prop_assert!(line.shear_right_of(last).abs() <= tolerance);
            let (most, least) = line.extreme_moment();
            let (down, up) = line.extreme_deflection();
            let (_, shear) = line.extreme_shear();
            for k in 0..=100 {
                let x = LENGTH * f64::from(k) / 100.0;
                let m = line.moment(x);
                prop_assert!(least.1 - tolerance <= m && m <= most.1 + tolerance);
                let w = line.deflection(x);
                prop_assert!(up.1 - tolerance * 1e-3 <= w && w <= down.1 + tolerance * 1e-3);
                let (a, b) = line.shear(x);
                prop_assert!(a.abs().max(b.abs()) <= shear.abs() + tolerance);
            }
        }
    }

    #[test]
    fn a_grillage_superposes_and_batches_like_single_cases(bed in beds(true), factor in -2.0..2.0f64) {
        let grillage = factored(&bed).unwrap();
        let mut work = grillage.workspace();
        let middle = bed.loads.len() / 2;
        let scaled: Vec<Placed> = bed.loads.iter().map(|p| {
            let load = match p.load {
                Load::Point { at, force } => Load::Point { at, force: factor * force },
                Load::Spread { from, to, start, end } =>
                    Load::Spread { from, to, start: factor * start, end: factor * end },
            };
            Placed { load, ..*p }
        }).collect();
        let cases: [&[Placed]; 11] = std::array::from_fn(|k| match k {
            0 => &bed.loads[..],
            1 => &bed.loads[..middle],
            2 => &bed.loads[middle..],
            9 => &scaled[..],
            _ => &[],
        });
        let mut seen = vec![Vec::new(); cases.len()];
        grillage.solve_each(&cases, &mut work, &mut |k, response| {
            for l in 0..5 {
                seen[k].extend(response.line(l).stations().flat_map(|s| {
                    [s.moment, s.shear_left, s.shear_right, s.deflection * 1e3, s.rotation * 1e3]
                }));
            }
            seen[k].extend((0..bed.model.links.len()).map(|i| response.link_force(i)));
        });
        let tolerance = 1e-8 * size(&all(&bed.loads));
        for (i, whole) in seen[0].iter().enumerate() {
            prop_assert!((whole - seen[1][i] - seen[2][i]).abs() <= tolerance, "{i} {whole} {} {}", seen[1][i], seen[2][i]);
            prop_assert!((factor * whole - seen[9][i]).abs() <= tolerance, "{i} {} {}", factor * whole, seen[9][i]);
            prop_assert_eq!(seen[5][i], 0.0);
        }
        let alone = grillage.solve(&bed.loads, &mut work);
        let moments = (0..5).flat_map(|l| alone.line(l).stations().map(|s| s.moment).collect::<Vec<_>>());
        let batched = seen[0].chunks(5).map(|s| s[0]);
        for (a, b) in moments.zip(batched) {
            prop_assert!((a - b).abs() <= tolerance);
        }
    }

    #[test]
    fn a_grillage_is_reciprocal(bed in beds(true), a in 0.0..1.0f64, b in 0.0..1.0f64, one in 0..12usize, two in 0..12usize) {
        // Maxwell–Betti: the work of force 1 on what force 2 does is that of 2 on what 1 does.
        let grillage = factored(&bed).unwrap();
        let mut work = grillage.workspace();
        let slats = bed.model.crossbeams.len();
        let at = |target: usize, t: f64| {
            let target = target % (slats + 5);
            if target < slats {
                let load = Load::Point { at: t * WIDTH, force: 100.0 };
                Placed { on: On::Crossbeam(target), load }
            } else {
                Placed { on: On::Line(target - slats), load: Load::Point { at: t * LENGTH, force: 100.0 } }
            }
        };
        let (first, second) = ([at(one, a)], [at(two, b)]);
        let mut moved = |load: &[Placed; 1], probe: &[Placed; 1]| {
            let response = grillage.solve(load, &mut work);
            work_of(probe, &|p| {
                let x = p.load.extent().0;
                match p.on {
                    On::Crossbeam(i) => response.crossbeam(i).deflection(x),
                    On::Line(l) => response.line(l).deflection(x),
                }
            })
        };
        let (there, back) = (moved(&first, &second), moved(&second, &first));
        let own = moved(&first, &first) + moved(&second, &second);
        prop_assert!((there - back).abs() <= 1e-8 * own, "{} {}", there, back);
    }

    #[test]
    fn a_loose_grillage_presses_or_gapes(bed in beds(false)) {
        // Dead load of every slat, and live loads downward only.
        let grillage = factored(&bed).unwrap();
        let mut work = grillage.workspace();
        let dead: Vec<Placed> = (0..bed.model.crossbeams.len()).map(|i| Placed {
            on: On::Crossbeam(i),
            load: Load::Spread { from: -0.1, to: WIDTH + 0.1, start: 20.0, end: 20.0 },
        }).collect();
        let live: Vec<Placed> = bed.loads.iter().map(|p| Placed {
            load: match p.load {
                Load::Point { at, force } => Load::Point { at, force: force.abs() },
                Load::Spread { from, to, start, end } =>
                    Load::Spread { from, to, start: start.abs(), end: end.abs() },
            },
            ..*p
        }).collect();
        let scale = size(&all(&live)) + 100.0;
        match grillage.solve_lifting(&dead, &live, &mut work) {
            Err(StaticsError::Tips { .. }) => {}
            Err(other) => prop_assert!(false, "{other}"),
            Ok(response) => {
                for (i, slat) in bed.model.crossbeams.iter().enumerate() {
                    let beam = response.crossbeam(i);
                    let mut carried = 0.0;
                    for (j, line) in slat.rests_on.iter().enumerate() {
                        let (reaction, gap) = (response.crossbeam_reaction(i, j), response.gap(i, j));
                        carried += reaction;
                        prop_assert!(reaction >= -1e-8 * scale && gap >= 0.0);
                        prop_assert!(reaction <= 1e-8 * scale || gap == 0.0);
                        let y = bed.model.lines[*line].y;
                        let under = response.line(*line).deflection(slat.x);
                        let off = under - gap - beam.deflection(y);
                        prop_assert!(off.abs() <= 1e-10 * scale, "{off}");
                    }
                    prop_assert!((carried - total(beam.loads())).abs() <= 1e-8 * scale);
                }
            }
        }
    }

    #[test]
    fn stations_a_hair_apart_do_not_spoil_the_answer(hair in -9.0..-2.0f64, at in 0.1..0.9f64, force in 1.0..900.0f64, rigid in any::<bool>()) {
        // A slat next to a screw, at any distance down to nothing, carries as beside it: the force
        // moves by the hair, so results may move by the hair over the spacing, and no more.
        let hair = 10f64.powf(hair);
        let model = |offset: f64| Model {
            lines: [0.0, WIDTH].map(|y| Line { y, ei: 1700.0, from: 0.0, to: LENGTH }).to_vec(),
            crossbeams: vec![Crossbeam {
                x: 1.0 + offset,
                ei: 4000.0,
                kga: f64::INFINITY,
                start: 0.0,
                end: WIDTH,
                rests_on: vec![0, 1],
                held_down: true,
            }],
            springs: (0..2).flat_map(|line| [0.1, 0.6, 1.0, 1.5, 1.9]
                .map(|x| Spring { line, x, stiffness: if rigid { f64::INFINITY } else { 1.5e6 } })).collect(),
            links: vec![],
            held_at_ends: false,
        };
        let load = [Placed { on: On::Crossbeam(0), load: Load::Point { at: at * WIDTH, force } }];
        let forces = |offset: f64| {
            let grillage = model(offset).factor().unwrap();
            let mut work = grillage.workspace();
            let response = grillage.solve(&load, &mut work);
            (0..10).map(|k| response.spring_force(k)).chain([
                response.line(0).extreme_moment().0.1,
                response.line(1).extreme_moment().0.1,
                response.line(0).extreme_shear().1.abs(),
            ]).take(12).collect::<Vec<_>>()
        };
        for (near, exact) in forces(hair).iter().zip(forces(0.0)) {
            prop_assert!((near - exact).abs() <= force * (20.0 * hair.max(1e-6) + 1e-9), "{} {}", near, exact);
        }
    }
}
