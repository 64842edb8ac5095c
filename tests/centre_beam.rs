//! A centre beam under the slats: worked by hand where it hardly yields, against brute force, in
//! equilibrium, and what must hold of any.

mod support;

use slatwright::check::{Assessment, Framing, Limit, Role};
use slatwright::load::{Case, CaseKind, Dead, Felt, Patch, Place, Position, Strips, cases};
use slatwright::platform::Platform;
use slatwright::quantity::unit::{metre, newton};
use slatwright::statics::{Load, On, Placed, Response};
use support::{INCH, POUND, PSI, built, found, off_axis};

const BED: &str = r##"
[platform]
length = "80 in"
width = "60 in"
height = "20 in"
[mattress]
thickness = "8 in"
weight = "70 lb"
[[sleeper]]
weight = "220 lb"
[[sleeper]]
weight = "200 lb"
[slats]
wood = { species = "yellow-poplar", grade = "ungraded", knot = "1/2 in", slope_of_grain = "1:12" }
thickness = "3/4 in"
width = "3-1/2 in"
count = 14
fixed = true
[cleats]
wood = "spruce-pine-fir no2"
size = "2x4"
rise = "2 in"
screws = { screw = "#14 x 3 in", pitch = "4 in", first = "4 in" }
[rails]
wood = "spruce-pine-fir no2"
size = "2x8"
ends = { joint = "bearing", bearing = "1-1/2 in" }
[centre_beam]
wood = "douglas fir-larch no2"
size = "2x6"
ends = { joint = "bearing", bearing = "1-1/2 in" }
legs = { wood = "douglas fir-larch no2", size = "4x4", count = 1 }
"##;

/// [`BED`] with the beam held, half held or with loose slats.
fn beds() -> [(&'static str, String); 4] {
    let beam = "[centre_beam]\n";
    [
        ("screwed at the ends", BED.to_owned()),
        ("screwed everywhere", BED.replace(beam, "[centre_beam]\nfixed = true\n")),
        ("loose", BED.replace("fixed = true", "fixed = false")),
        (
            "aside, two legs, in C24",
            BED.replace(beam, "[centre_beam]\nat = \"26 in\"\n")
                .replace("count = 1 }", "count = 2 }")
                .replace("[platform]", "rules = \"ec5\"\n[platform]")
                .replace("{ species = \"yellow-poplar\", grade = \"ungraded\", knot = \"1/2 in\", slope_of_grain = \"1:12\" }", "\"C24\"")
                .replace("\"spruce-pine-fir no2\"", "\"C24\"")
                .replace("\"douglas fir-larch no2\"", "\"C24\"")
                .replace("screw = \"#14 x 3 in\"", "lag = \"1/4 x 3 in\""),
        ),
    ]
}

/// Dead load as it lies on slats and lines.
fn still(p: &Platform) -> Vec<Placed> {
    let dead = Dead::of(p);
    let [from, to] = p.slat_ends().map(|y| y.value);
    let spread = |q: f64, from: f64, to: f64| Load::Spread { from, to, start: q, end: q };
    let slats = (0..p.slats.count).map(|i| {
        let [a, b] = p.strip(i);
        let q = (dead.cover * (b - a)).value * p.width.value / (to - from) + dead.slat.value;
        Placed { on: On::Crossbeam(i), load: spread(q, from, to) }
    });
    let lines = [dead.rail[0], dead.cleat[0], dead.cleat[1], dead.rail[1], dead.centre_beam];
    let lines = lines.into_iter().enumerate();
    let lines = lines.map(|(l, q)| Placed { on: On::Line(l), load: spread(q.value, 0.0, p.length.value) });
    slats.chain(lines).collect()
}

fn people(p: &Platform, q: &Position, factor: f64) -> Vec<Placed> {
    let mut out = Vec::new();
    for patch in &q.patches {
        Strips::of(p).share(patch, &mut |i, load| {
            let Load::Spread { from, to, start, end } = load else { panic!("a patch is spread") };
            let load = Load::Spread { from, to, start: factor * start, end: factor * end };
            out.push(Placed { on: On::Crossbeam(i), load });
        });
    }
    out
}

/// What the five lines' supports give is what stands on the platform, wherever people are, loose or not.
#[test]
fn supports_carry_everything() {
    for (name, text) in beds() {
        let (p, _) = built(&text);
        let frame = Framing::of(&p).expect("held");
        let (dead, mut work) = (still(&p), frame.grillage().workspace());
        let held = 4 + 2 + p.centre_beam.as_ref().and_then(|b| b.legs.as_ref()).map_or(0, |l| l.positions.len());
        let weight: f64 = dead.iter().map(|d| d.load.force()).sum();
        for case in cases(&p) {
            for q in case.positions.iter().step_by(11) {
                let live = people(&p, q, 1.0);
                let down = weight + q.patches.iter().map(|p| p.force.value).sum::<f64>();
                let r = frame.grillage().solve_lifting(&dead, &live, &mut work).expect("stands");
                let up: f64 = (0..held).map(|k| r.spring_force(k)).sum();
                assert!((up - down).abs() < 1e-7 * down, "{name}, {:?}: {up} {down}", case.kind);
                for i in 0..p.slats.count {
                    let on: f64 =
                        dead.iter().chain(&live).filter(|l| l.on == On::Crossbeam(i)).map(|l| l.load.force()).sum();
                    let under: f64 = (0..3).map(|j| r.crossbeam_reaction(i, j)).sum();
                    assert!((under - on).abs() < 1e-7 * down, "{name}, slat {i}: {under} {on}");
                }
            }
        }
    }
}

/// A slat of two spans `L` under `w`, its middle support `δ` below its ends: `R = 10/8 wL − 6EIδ/L³` and
/// `M = −wL²/8 + 3EIδ/L²` (AISC and AWC Design Aid No. 6, two equal spans; a simple span's `PL³/48EI`; from
/// memory). Under dead load, whatever the beam does, for each slat.
#[test]
fn a_slat_is_a_beam_of_two_spans_over_a_support_that_yields() {
    let text = BED.replace("[centre_beam]\n", "[centre_beam]\nfixed = true\n");
    for beam in ["2x6", "2x12", "2x2"] {
        let (p, _) = built(&text.replace("size = \"2x6\"", &format!("size = \"{beam}\"")));
        let frame = Framing::of(&p).expect("held");
        let (dead, mut work) = (still(&p), frame.grillage().workspace());
        let r = frame.grillage().solve(&dead, &mut work);
        let [a, b] = p.bearing_lines().map(|y| y.value);
        let (l, beyond) = ((b - a) / 2.0, a);
        // Clear-wood modulus after D245; the program's own value enters here by way of the assessment.
        let (_, assessed) = built(&text);
        let modulus = assessed.members[0].checks.iter().flat_map(|c| c.steps()).find(|s| s.symbol == "E'");
        let e = modulus.map_or_else(|| stiffness(&p), |s| s.value.si);
        let ei = e * 3.5 * 0.75f64.powi(3) / 12.0 * INCH.powi(4);
        for i in 0..p.slats.count {
            let x = p.slats.centre(i).value;
            let w = dead.iter().find(|d| d.on == On::Crossbeam(i)).map_or(0.0, |d| match d.load {
                Load::Spread { start, .. } => start,
                Load::Point { .. } => f64::NAN,
            });
            let sunk = r.line(4).deflection(x) - (r.line(1).deflection(x) + r.line(2).deflection(x)) / 2.0;
            // The ends beyond the supports: a moment `wa²/2` at each outer support.
            let tipped = w * beyond * beyond / 2.0;
            let moment = -w * l * l / 8.0 + tipped / 2.0 + 3.0 * ei * sunk / (l * l);
            let middle = 1.25 * w * l - 3.0 * tipped / l - 6.0 * ei * sunk / l.powi(3);
            let got = r.crossbeam(i);
            assert!(
                (r.crossbeam_reaction(i, 2) - middle).abs() < 1e-6 * w,
                "{beam}, slat {i}: {} {middle}",
                r.crossbeam_reaction(i, 2)
            );
            assert!((got.moment(a + l) - moment).abs() < 1e-6 * w, "{beam}, slat {i}: {} {moment}", got.moment(a + l));
        }
    }
}

/// `E` of the slats, from how a slat on two supports sags in the bed without the beam: `5wL⁴/384EI` under 30 psf,
/// less the bow of its ends (as in the hand checks of the simple bed).
fn stiffness(p: &Platform) -> f64 {
    let (_, a) = built(&BED[..BED.find("[centre_beam]").expect("a beam")]);
    let check = found(&a, "slat 7", Limit::Deflection);
    assert_eq!(check.case, CaseKind::CodeUniform);
    let [from, to] = p.bearing_lines().map(|y| y.value);
    let (l, w) = (to - from, 30.0 * PSI / 144.0 * p.slats.pitch().value);
    let inertia = 3.5 * 0.75f64.powi(3) / 12.0 * INCH.powi(4);
    (5.0 * w * l.powi(4) / 384.0 - w * from * from * l * l / 16.0) / (check.demand.si * inertia)
}

/// The effects of one solution that the report is about, in a fixed order.
fn effects(p: &Platform, r: &Response<'_>) -> Vec<f64> {
    let mut out = Vec::new();
    for i in 0..p.slats.count {
        let slat = r.crossbeam(i);
        let ((_, most), (_, least)) = slat.extreme_moment();
        let ends = [slat.support_reactions()[0].1, slat.support_reactions()[2].1];
        out.extend([
            most.max(-least),
            slat.extreme_shear().1.abs(),
            ends[0].max(ends[1]),
            slat.support_reactions()[1].1,
        ]);
    }
    for line in 0..5 {
        let ((_, most), (_, least)) = r.line(line).extreme_moment();
        out.extend([most.max(-least), r.line(line).extreme_shear().1.abs()]);
    }
    let screws = p.sides.iter().map(|s| s.screws.positions.len()).sum();
    out.extend((0..screws).map(|k| r.link_force(k).abs()));
    let legs = p.centre_beam.as_ref().and_then(|b| b.legs.as_ref()).map_or(0, |l| l.positions.len());
    out.extend((0..6 + legs).map(|k| r.spring_force(k).abs()));
    out
}

fn envelope<'a>(p: &Platform, at: impl IntoIterator<Item = &'a Position>) -> Vec<f64> {
    let frame = Framing::of(p).expect("held");
    let (dead, mut work) = (still(p), frame.grillage().workspace());
    let mut out: Vec<f64> = Vec::new();
    for q in at {
        let r = frame.grillage().solve_lifting(&dead, &people(p, q, 1.0), &mut work).expect("stands");
        let one = effects(p, &r);
        out = if out.is_empty() { one } else { out.iter().zip(one).map(|(a, b)| a.max(b)).collect() };
    }
    out
}

/// No place of a knee, a millimetre from the next across the bed, is worse than those tried by more than a
/// thousandth.
#[test]
fn brute_force_finds_no_worse_place_for_a_knee() {
    for (name, text) in beds() {
        let (p, _) = built(&text);
        let tried = cases(&p);
        let kneeling: &Case = tried.iter().find(|c| c.kind == CaseKind::Kneeling).expect("somebody kneels");
        let force = newton(220.0 * POUND);
        let mut all = Vec::new();
        for [along, across] in [[0.1, 0.25], [0.25, 0.1]] {
            let places = |room: f64, size: f64, n: u32| {
                (0..=n).map(move |k| size / 2.0 + (room - size) * f64::from(k) / f64::from(n))
            };
            // Along: the head third only, for the bed repeats itself; an odd number of steps, so that no
            // place is one that the sweep tries.
            let mut xs: Vec<f64> = kneeling.positions.iter().map(|q| q.place.x.value).collect();
            xs.sort_by(f64::total_cmp);
            xs.dedup();
            xs.retain(|x| *x >= along / 2.0 && *x < p.length.value / 3.0);
            for x in places(p.length.value / 3.0, along, 5).chain(xs.into_iter().step_by(2)) {
                for y in places(p.width.value, across, ((p.width.value - across) * 1e3).ceil() as u32) {
                    let place = Place { x: metre(x), y: metre(y) };
                    let patches = vec![Patch::around(place, metre(along), metre(across), force).spread(&p)].into();
                    all.push(Position { patches, place, note: "", felt: Felt::Both });
                }
            }
        }
        let (sweep, brute) = (envelope(&p, &kneeling.positions), envelope(&p, &all));
        for (k, (s, b)) in sweep.iter().zip(&brute).enumerate() {
            assert!(*b <= s * 1.001 + 1e-6, "{name}, effect {k}: {b} by brute force, {s} in the sweep");
        }
    }
}

/// The report's demands are those of every position of every case solved as a whole: bending of slats and of
/// the beam, and what stands on a leg.
#[test]
fn the_report_is_what_every_position_gives() {
    for (name, text) in beds() {
        let (p, a) = built(&text);
        let ec5 = name.ends_with("C24");
        let (permanent, variable) = if ec5 { (1.35, 1.5) } else { (1.0, 1.0) };
        let frame = Framing::of(&p).expect("held");
        let mut work = frame.grillage().workspace();
        let dead: Vec<Placed> = still(&p)
            .into_iter()
            .map(|d| match d.load {
                Load::Spread { from, to, start, end } => {
                    Placed { on: d.on, load: Load::Spread { from, to, start: permanent * start, end: permanent * end } }
                }
                Load::Point { .. } => d,
            })
            .collect();
        let (slat, beam) = (3.5 * 0.75f64.powi(2) / 6.0 * INCH.powi(3), 1.5 * 5.5f64.powi(2) / 6.0 * INCH.powi(3));
        let reported = [("slat 1", slat, true), ("slat 7", slat, true), ("centre beam", beam, false)];
        for (id, modulus, is_slat) in reported {
            let check = found(&a, id, Limit::Bending);
            let of_case = cases(&p).into_iter().find(|c| c.kind == check.case).expect("the case was run");
            let mut worst = 0.0f64;
            for q in &of_case.positions {
                let r = frame.grillage().solve_lifting(&dead, &people(&p, q, variable), &mut work).expect("stands");
                let ((_, most), (_, least)) = if is_slat {
                    r.crossbeam(id[5..].parse::<usize>().expect("a number") - 1).extreme_moment()
                } else {
                    r.line(4).extreme_moment()
                };
                worst = worst.max(most).max(-least);
            }
            let demand = check.demand.si * modulus;
            assert!((demand - worst).abs() < 1e-6 * worst, "{name}, {id}: reported {demand}, found {worst}");
        }
    }
}

/// A bed for a hand calculation: rails on studs 8 in apart, many screws, a 4x12 beam on three legs, so that
/// nothing under the slats yields by much, and a load that is the same everywhere. Then a slat presses `10/8 w L`
/// on the beam, and the beam is one of four equal spans under `q = 10/8 · L · p`. Under the whole, the middle leg
/// takes 0.928 `q l` (AISC, four equal spans, from memory). With people on the head half alone, the equation of
/// three moments, `4 M1 + M2 = −q l²/2`, `M1 + 4 M2 + M3 = −q l²/4`, `M2 + 4 M3 = 0`, gives `M1 = −0.1161 q l²` over
/// the first leg and 1.1964 `q l` on it, where the dead load gives 0.1071 and 1.1429. What yields moves a few
/// hundredths of it.
#[test]
fn a_stiff_bed_by_hand() {
    let text = BED
        .replace("size = \"2x6\"", "size = \"4x12\"")
        .replace("height = \"20 in\"", "height = \"30 in\"")
        .replace("count = 1 }", "count = 3 }")
        .replace("pitch = \"4 in\", first = \"4 in\"", "pitch = \"2 in\", first = \"2 in\"")
        .replace(
            "size = \"2x8\"\nends = { joint = \"bearing\", bearing = \"1-1/2 in\" }",
            "size = \"4x12\"\nstuds = { lag = \"1/4 x 5 in\", pitch = \"8 in\" }",
        );
    let drop = ["lying", "sitting", "row", "kneeling", "climbing", "dropping", "bare"];
    let cases = drop.map(|c| format!("{c} = {{ drop = true }}\n")).concat();
    let (p, a) = built(&format!("{text}[cases]\nuniform = {{ load = \"200 psf\" }}\n{cases}"));
    let close = |what: &str, ours: f64, theirs: f64, within: f64| {
        assert!((ours / theirs - 1.0).abs() < within, "{what}: by hand {theirs}, reported {ours}");
    };
    let l = (p.width.value - 1.5 * INCH) / 2.0;
    let cover = 200.0 * PSI / 144.0 + 70.0 * POUND / (80.0 * 60.0 * INCH * INCH) + 40.0;
    let water = 62.4 * 0.453_592_37 / (12.0 * INCH).powi(3) * 9.806_65;
    // The slat is a twentieth of the load: G 0.40 on the green volume.
    let timber = water * 0.40 / (1.0 + 0.40 * 0.009 * 15.0) * 1.15;
    let dead = cover - 200.0 * PSI / 144.0 + timber * 3.5 * 0.75 * INCH * INCH / p.slats.pitch().value;
    let area = cover + timber * 3.5 * 0.75 * INCH * INCH / p.slats.pitch().value;
    let bearing = found(&a, "centre beam", Limit::Bearing);
    close(
        "slat on the beam",
        bearing.demand.si * 3.5 * 3.5 * INCH * INCH,
        1.25 * area * p.slats.pitch().value * l,
        0.04,
    );
    let span = (80.0 + 1.5) * INCH / 4.0;
    let q = 1.25 * area * l;
    let leg = |n: &str| found(&a, n, Limit::Bearing).demand.si * 3.5 * 3.5 * INCH * INCH;
    let of_dead = 1.25 * dead * l;
    close("leg 1", leg("leg 1"), (1.1964 * (q - of_dead) + 1.1429 * of_dead) * span, 0.03);
    close("leg 2", leg("leg 2"), 0.928 * q * span, 0.03);
    let moment = found(&a, "centre beam", Limit::Bending).demand.si * (3.5 * 11.25f64.powi(2) / 6.0) * INCH.powi(3);
    close("beam", moment, (0.1161 * (q - of_dead) + 0.1071 * of_dead) * span * span, 0.06);
    // The slat itself, over the beam: wL²/8 less half of the ends' `wa²/2`.
    let w = area * p.slats.pitch().value;
    let hogging = w * l * l / 8.0 - w * (0.75 * INCH).powi(2) / 4.0;
    let slat = found(&a, "slat 7", Limit::Bending).demand.si * (3.5 * 0.75f64.powi(2) / 6.0) * INCH.powi(3);
    close("slat over the beam", slat, hogging, 0.06);
}

/// A leg of [`BED`] as a column by NDS 15.4.1 (from memory): 20 in less a slat of 3/4 in and a beam of 5-1/2 in leave
/// 13-3/4 in. A beam may turn on it, so its load is up to a sixth of 3-1/2 in off the axis along the beam; across it
/// the beam, 1-1/2 in thick and flush with a face, is 1 in off. `Ke` 2.4 where the top sways, 1 where it is braced.
///
/// Douglas fir-larch No. 2: `Fb` 900, `Fc` 1350, `Emin` 580 000 psi, `CF` 1.5 and 1.15 for a 4x4; `le = 2.06 lu` for a
/// beam shorter than seven depths.
#[test]
fn a_leg_by_the_nds() {
    let drop = ["lying", "sitting", "row", "kneeling", "climbing", "dropping", "bare"];
    let cases = drop.map(|c| format!("{c} = {{ drop = true }}\n")).concat();
    for (top, ke) in [("free", 2.4), ("braced", 1.0)] {
        let text = BED.replace("count = 1 }", &format!("count = 1, top = \"{top}\" }}"));
        let (_, a) = built(&format!("{text}[cases]\n{cases}"));
        let (length, d) = (13.75f64, 3.5f64);
        let water = 62.4 * POUND / (12.0f64).powi(3);
        let own = water * 0.5 / (1.0 + 0.5 * 0.009 * 15.0) * 1.15 * d * d * length;
        let pressed = found(&a, "leg 1", Limit::Bearing).demand.si * 1.5 * d * INCH * INCH;
        let fc = (pressed + own) / (d * d * INCH * INCH) / PSI;
        let (emin, star) = (580_000.0f64, 1350.0f64 * 1.15);
        let critical = 0.822 * emin / (ke * length / d).powi(2);
        let half = (1.0 + critical / star) / 1.6;
        let cp = half - (half * half - critical / star / 0.8).sqrt();
        let tipping = 1.2 * emin / (2.06 * length * d / (d * d));
        let (fb1, fb2, fb) = (fc * 6.0 * (d / 6.0) / d, fc * 6.0 * 1.0 / d, 900.0 * 1.5);
        let either = |fb1: f64, fb2: f64| off_axis([fc, cp * star, critical], [fb1, fb2, fb, tipping]);
        let by_hand = either(fb1, fb2).max(either(fb2, fb1));
        let buckling = found(&a, "leg 1", Limit::Buckling);
        assert!((buckling.ratio / by_hand - 1.0).abs() < 1e-4, "{top}: by hand {by_hand}, reported {}", buckling.ratio);
        assert!(by_hand > 0.02, "{by_hand} would show nothing");
    }
}

fn worst(a: &Assessment, role: Role, limit: Limit) -> f64 {
    let of = a.members.iter().filter(|m| m.role == role).flat_map(|m| &m.checks).filter(|c| c.limit == limit);
    of.map(|c| c.ratio).fold(0.0, f64::max)
}

/// A beam in the middle takes from the slats and the rails what it takes; a deeper one sags less and carries
/// more; a leg halves nothing but never adds to its sag.
#[test]
fn a_beam_never_harms_and_a_deeper_one_sags_less() {
    for (name, text) in beds().into_iter().take(3) {
        let (_, without) = built(&text[..text.find("[centre_beam]").expect("a beam")]);
        let mut sag = f64::INFINITY;
        let no_leg = text.replace("legs = { wood = \"douglas fir-larch no2\", size = \"4x4\", count = 1 }", "");
        for size in ["2x4", "2x6", "2x8", "2x12"] {
            let (_, a) = built(&no_leg.replace("size = \"2x6\"", &format!("size = \"{size}\"")));
            let (_, legged) = built(
                &text
                    .replace("size = \"2x6\"", &format!("size = \"{size}\""))
                    .replace("height = \"20 in\"", "height = \"30 in\""),
            );
            let checks = [(Role::Slat, Limit::Bending), (Role::Slat, Limit::Deflection), (Role::Slat, Limit::Creep)];
            for (role, limit) in
                checks.into_iter().chain([(Role::Rail, Limit::Bending), (Role::Rail, Limit::Deflection)])
            {
                let (before, now) = (worst(&without, role, limit), worst(&a, role, limit));
                assert!(now <= before, "{name}, {size}, {role:?} {limit:?}: {before} without, {now} with a beam");
            }
            let now = worst(&a, Role::CentreBeam, Limit::Deflection);
            assert!(now < sag, "{name}, {size}: {now} after {sag}");
            assert!(worst(&legged, Role::CentreBeam, Limit::Deflection) < now);
            sag = now;
        }
    }
}

/// The beam a foot from the left rail and a foot from the right: the same bed mirrored.
#[test]
fn left_and_right_are_alike() {
    for loose in [false, true] {
        let at = |place: &str| {
            let text = BED
                .replace("[centre_beam]\n", &format!("[centre_beam]\nat = \"{place}\"\n"))
                .replace("[[sleeper]]\nweight = \"200 lb\"", "");
            built(&if loose { text.replace("fixed = true", "fixed = false") } else { text }).1
        };
        let (a, b) = (at("22 in"), at("38 in"));
        for m in &a.members {
            let id = if m.id.contains("left") { m.id.replace("left", "right") } else { m.id.replace("right", "left") };
            let twin = b.members.iter().find(|n| n.id == id).unwrap_or_else(|| panic!("no {id}"));
            for (x, y) in m.checks.iter().zip(&twin.checks) {
                assert_eq!(x.limit, y.limit);
                assert!((x.ratio - y.ratio).abs() <= 1e-7 * x.ratio, "{} {:?}: {} {}", m.id, x.limit, x.ratio, y.ratio);
            }
        }
    }
}

/// What is said: where the beam is in sentences, what pulls on the slats' screws, that loose slats see-saw.
#[test]
fn a_reader_is_told_of_lifting_and_of_what_is_not_described() {
    let (_, screwed) = built(BED);
    let note = screwed.not_checked.iter().find(|n| n.what.contains("hold the slats down")).expect("a note");
    assert!(note.why.contains("pulls with up to"), "{}", note.why);
    assert!(screwed.not_checked.iter().any(|n| n.what.contains("centre beam's ends rest on")));
    assert!(screwed.not_checked.iter().any(|n| n.what == "the floor under the legs"));
    let (_, loose) =
        built(&BED.replace("fixed = true", "fixed = false").replace("weight = \"70 lb\"", "weight = \"10 lb\""));
    assert!(loose.cautions.iter().any(|c| c.contains("see-saw on the centre beam")), "{:#?}", loose.cautions);
}

/// A beam of three supports with its leg near the head: a knee in the long span lifts the head end, and nothing
/// holds it down where it only rests. Hung on screws it is held, and a leg in the middle lifts it less than counts.
#[test]
fn an_end_that_lifts_is_no_pass() {
    let open = |text: &str| {
        let (_, a) = built(text);
        a.not_checked.iter().any(|n| n.carries_load && n.what == "the centre beam's head end")
    };
    let legs = "count = 1 }";
    assert!(BED.contains(legs));
    let aside = BED.replace(legs, "at = [\"14 in\"] }");
    assert!(open(&aside), "{aside}");
    let (before, beam) = aside.split_once("[centre_beam]").expect("a beam");
    let hung = beam.replacen(
        "joint = \"bearing\", bearing = \"1-1/2 in\"",
        "joint = \"screws\", screw = \"#14 x 4 in\", count = 2, into = \"side grain\", post = \"douglas fir-larch no2\"",
        1,
    );
    assert_ne!(hung, beam);
    assert!(!open(&format!("{before}[centre_beam]{hung}")));
}
