//! Loads against what this project did not write: the density formula and a published list of
//! weights, the code's uniform load in SI, and brute force in place of every shortcut of the sweep.

mod support;

use slatwright::load::{CaseKind, Felt, Patch, Place, Position, Strips, cases, timber_density};
use slatwright::platform::{Platform, Posture};
use slatwright::quantity::unit::{metre, millimetre, newton, psf};
use slatwright::quantity::{Force, Length};
use slatwright::statics::{Crossbeam, Grillage, Line, Link, Load, Model, On, Placed, Span, Spring, Workspace};
use support::platform;

/// A bed of graded wood; every number that the sweep depends on can be chosen.
struct Bed {
    length: f64,
    width: f64,
    mattress: f64,
    sleepers: &'static [f64],
    breadth: f64,
    gap: f64,
    bearing: f64,
    studs: bool,
}

const COUPLE: Bed = Bed {
    length: 2032.0,
    width: 1524.0,
    mattress: 203.0,
    sleepers: &[100.0, 91.0],
    breadth: 89.0,
    gap: 63.0,
    bearing: 38.0,
    studs: false,
};

impl Bed {
    fn built(&self) -> Platform {
        let sleepers: String = self.sleepers.iter().map(|m| format!("[[sleeper]]\nweight = \"{m} kg\"\n")).collect();
        let held = if self.studs {
            "studs = { lag = \"1/4 x 5 in\", pitch = \"400 mm\" }"
        } else {
            "ends = { joint = \"bearing\", bearing = \"38 mm\" }"
        };
        let text = format!(
            "units = \"metric\"\n[platform]\nlength = \"{} mm\"\nwidth = \"{} mm\"\n[mattress]\nthickness = \"{} mm\"\n\
             weight = \"20 kg\"\n{sleepers}[slats]\nwood = \"spruce-pine-fir no2\"\nthickness = \"38 mm\"\n\
             width = \"{} mm\"\ngap = \"{} mm\"\nfixed = true\nbearing = \"{} mm\"\n[cleats]\nwood = \
             \"spruce-pine-fir no2\"\nthickness = \"38 mm\"\nwidth = \"89 mm\"\nscrews = {{ screw = \"#10 x 3 in\", \
             pitch = \"203 mm\", first = \"76 mm\" }}\n[rails]\nwood = \"spruce-pine-fir no2\"\nthickness = \"38 mm\"\n\
             width = \"184 mm\"\n{held}\n",
            self.length, self.width, self.mattress, self.breadth, self.gap, self.bearing
        );
        platform(&text)
    }
}

/// Statics of a bed, put together here with stiffnesses of its own: what the sweep promises must
/// hold whatever they are.
struct Frame {
    grillage: Grillage,
    span: Span,
    strips: Strips,
    slats: usize,
    links: usize,
    springs: usize,
    dead: Vec<Placed>,
}

const SLAT_EI: f64 = 4.0e3;
const CLEAT_EI: f64 = 2.0e4;
const RAIL_EI: f64 = 2.0e5;
const SCREW: f64 = 1.5e6;

impl Frame {
    fn of(p: &Platform) -> Frame {
        let supports = p.bearing_lines().map(|y| y.value);
        let [start, end] = p.slat_ends().map(|y| y.value);
        let mut m = Model::default();
        let l = p.length.value;
        for (y, ei) in [(0.0, RAIL_EI), (supports[0], CLEAT_EI), (supports[1], CLEAT_EI), (p.width.value, RAIL_EI)] {
            m.lines.push(Line { y, ei, from: 0.0, to: l });
        }
        for i in 0..p.slats.count {
            let x = p.slats.centre(i).value;
            let kga = f64::INFINITY;
            m.crossbeams.push(Crossbeam { x, ei: SLAT_EI, kga, start, end, rests_on: vec![1, 2], held_down: true });
        }
        for (s, side) in p.sides.iter().enumerate() {
            let [rail, cleat] = [[0, 1], [3, 2]][s];
            for x in &side.screws.positions {
                m.links.push(Link { lines: [cleat, rail], x: x.value, stiffness: SCREW });
            }
            let held: Vec<f64> = match &side.rail.studs {
                Some(studs) => studs.positions.iter().map(|x| x.value).collect(),
                None => vec![0.0, l],
            };
            m.springs.extend(held.into_iter().map(|x| Spring { line: rail, x, stiffness: f64::INFINITY }));
        }
        let dead = (0..p.slats.count)
            .map(|i| Placed {
                on: On::Crossbeam(i),
                load: Load::Spread { from: start, to: end, start: 60.0, end: 60.0 },
            })
            .collect();
        Frame {
            span: Span { start, end, supports, ei: SLAT_EI, kga: f64::INFINITY },
            strips: Strips::of(p),
            slats: p.slats.count,
            links: m.links.len(),
            springs: m.springs.len(),
            grillage: m.factor().expect("a bed is held"),
            dead,
        }
    }

    /// Every effect the check asks for: slats' moments and shears, screws' forces, rails' and cleats'
    /// moments, support forces. Slats alone when `slats_only`.
    fn effects(&self, q: &Position, slats_only: bool, work: &mut Workspace) -> Vec<f64> {
        let mut all = self.dead.clone();
        for patch in &q.patches {
            self.strips.share(patch, &mut |i, load| all.push(Placed { on: On::Crossbeam(i), load }));
        }
        let mut out = Vec::new();
        for i in 0..self.slats {
            let own: Vec<Load> = all.iter().filter(|l| l.on == On::Crossbeam(i)).map(|l| l.load).collect();
            let bent = self.span.under(&own).expect("loads lie on the slat");
            let ((_, most), (_, least)) = bent.extreme_moment();
            out.extend([most.max(-least), bent.extreme_shear().1.abs()]);
            out.extend(bent.reactions());
        }
        if !slats_only {
            let r = self.grillage.solve(&all, work);
            out.extend((0..self.links).map(|k| r.link_force(k).abs()));
            out.extend((0..self.springs).map(|k| r.spring_force(k)));
            for line in 0..4 {
                let ((_, most), (_, least)) = r.line(line).extreme_moment();
                out.push(most.max(-least));
            }
        }
        out
    }

    fn envelope<'a>(&self, at: impl IntoIterator<Item = &'a Position>, slats_only: bool) -> Vec<f64> {
        let mut work = self.grillage.workspace();
        let mut out: Vec<f64> = Vec::new();
        for q in at {
            let e = self.effects(q, slats_only, &mut work);
            if out.is_empty() {
                out = e;
            } else {
                out.iter_mut().zip(e).for_each(|(a, b)| *a = a.max(b));
            }
        }
        out
    }

    fn kind_of(&self, k: usize) -> &'static str {
        let s = 4 * self.slats;
        match k {
            k if k < s => ["slat moment", "slat shear", "reaction", "reaction"][k % 4],
            k if k < s + self.links => "screw",
            k if k < s + self.links + self.springs => "support",
            _ => "line moment",
        }
    }

    /// How far brute force exceeds the sweep, relative to the greatest effect of its kind.
    fn excess(&self, sweep: &[f64], brute: &[f64]) -> Vec<(&'static str, f64)> {
        let kinds = ["slat moment", "slat shear", "reaction", "screw", "support", "line moment"];
        kinds
            .into_iter()
            .filter_map(|kind| {
                let of: Vec<usize> = (0..sweep.len()).filter(|k| self.kind_of(*k) == kind).collect();
                let scale = of.iter().map(|k| sweep[*k]).fold(0.0, f64::max);
                let over = of.iter().map(|k| (brute[*k] - sweep[*k]) / scale).fold(f64::NEG_INFINITY, f64::max);
                (!of.is_empty()).then_some((kind, over))
            })
            .collect()
    }
}

fn steps(from: Length, to: Length, by: f64) -> Vec<Length> {
    let n = ((to - from).value / by).ceil().max(1.0) as usize;
    (0..=n).map(|k| from + (to - from) * (k as f64 / n as f64)).collect()
}

fn beds() -> Vec<(&'static str, Bed)> {
    let child = Bed {
        length: 1524.0,
        width: 762.0,
        mattress: 305.0,
        sleepers: &[30.0, 25.0],
        bearing: 20.0,
        gap: 40.0,
        ..COUPLE
    };
    vec![
        ("a couple", COUPLE),
        ("no mattress", Bed { mattress: 0.0, ..COUPLE }),
        ("on studs", Bed { studs: true, ..COUPLE }),
        ("two children", child),
        ("a deck for six", Bed { length: 3100.0, width: 1900.0, sleepers: &[90.0; 6], ..COUPLE }),
    ]
}

/// A patch of this size at every step along the platform, at these rows, spread by the mattress.
fn patches_at(p: &Platform, xs: &[Length], ys: &[Length], size: [f64; 2], force: Force) -> Vec<Position> {
    let mut out = Vec::new();
    for x in xs {
        for y in ys {
            let place = Place { x: *x, y: *y };
            let patch = Patch::around(place, millimetre(size[0]), millimetre(size[1]), force).spread(p);
            out.push(Position { patches: vec![patch].into(), place, note: "", felt: Felt::Both });
        }
    }
    out
}

/// No excess over the sweep beyond rounding: sums of some hundred terms in double precision.
const ROUNDING: f64 = 1e-11;

#[track_caller]
fn covered(name: &str, f: &Frame, sweep: &[Position], brute: &[Position]) {
    let (swept, dense) = (f.envelope(sweep, false), f.envelope(brute, false));
    for (kind, over) in f.excess(&swept, &dense) {
        assert!(over <= ROUNDING, "{name}: a {kind} exceeds the sweep by {over:e} of the greatest");
    }
}

/// Between two stops every share is linear in the place, or, where the platform's end cuts the
/// spread short, constant over the patch's length: either way no effect peaks between stops. Brute
/// force at 1 mm along the platform and 5 mm across it finds nothing the stops missed.
#[test]
fn brute_force_finds_no_worse_place_for_one_patch() {
    for (name, bed) in beds() {
        let p = bed.built();
        let f = Frame::of(&p);
        for case in cases(&p) {
            let sizes: &[[f64; 2]] = match case.kind {
                CaseKind::Sitting => &[[380.0, 300.0], [300.0, 380.0]],
                CaseKind::Kneeling => &[[100.0, 250.0], [250.0, 100.0]],
                _ => continue,
            };
            let force = case.positions[0].patches[0].force;
            let mut brute = Vec::new();
            for [a, c] in sizes {
                let (half_x, half_y) = (millimetre(a / 2.0), millimetre(c / 2.0));
                let fits_x = |x: &Length| *x >= half_x && *x <= p.length - half_x;
                let fits_y = |y: &Length| *y >= half_y && *y <= p.width - half_y;
                let xs: Vec<Length> = case.positions.iter().map(|q| q.place.x).filter(fits_x).collect();
                let ys = [half_y, p.width / 3.0, p.width / 2.0, p.width - half_y];
                let ys: Vec<Length> = ys.into_iter().filter(fits_y).collect();
                brute.extend(patches_at(&p, &steps(half_x, p.length - half_x, 0.001), &ys, [*a, *c], force));
                let every_third: Vec<Length> = xs.into_iter().step_by(3).collect();
                brute.extend(patches_at(&p, &every_third, &steps(half_y, p.width - half_y, 0.005), [*a, *c], force));
            }
            covered(&format!("{name}, {}", case.kind.name()), &f, &case.positions, &brute);
        }
    }
}

/// As above within the strip along each edge that people climb in from.
#[test]
fn brute_force_finds_no_worse_place_for_a_foot() {
    for (name, bed) in beds() {
        let p = bed.built();
        let f = Frame::of(&p);
        let all = cases(&p);
        let case = all.iter().find(|c| c.kind == CaseKind::ClimbingIn).expect("somebody climbs in");
        let force = case.positions[0].patches[0].force;
        let (half, far) = (millimetre(50.0), millimetre(250.0));
        let mut ys = steps(half, far, 0.01);
        ys.extend(steps(p.width - far, p.width - half, 0.01));
        let brute = patches_at(&p, &steps(half, p.length - half, 0.004), &ys, [100.0, 100.0], force);
        covered(name, &f, &case.positions, &brute);
    }
}

/// As above for a row of people slid along either edge.
#[test]
fn brute_force_finds_no_worse_place_for_a_row() {
    for (name, bed) in beds() {
        let p = Bed { length: bed.length + 200.0, ..bed }.built();
        let f = Frame::of(&p);
        let all = cases(&p);
        let case = all.iter().find(|c| c.kind == CaseKind::RowOnTheEdge).expect("a row fits");
        let long = (p.length.value / 0.5).floor() * 500.0;
        let force = case.positions[0].patches[0].force;
        let (half, deep) = (millimetre(long / 2.0), millimetre(150.0));
        let xs = steps(half, p.length - half, 0.001);
        let brute = patches_at(&p, &xs, &[deep, p.width - deep], [long, 300.0], force);
        covered(name, &f, &case.positions, &brute);
    }
}

/// Two children jumping 400 mm apart. Along the platform both patches have their stops; across it they
/// are tried in eight steps, and while the platform's end cuts one spread short and the other slides
/// freely their sum may bow a little. 1 % of the greatest effect is allowed for both.
#[test]
fn brute_force_finds_little_worse_for_two_children() {
    for (name, bed) in [
        ("a narrow bed", beds().remove(3).1),
        ("a wide bed", Bed { sleepers: &[30.0, 25.0], ..COUPLE }),
        ("one much lighter", Bed { sleepers: &[50.0, 15.0], ..COUPLE }),
    ] {
        two_children(name, &bed);
    }
}

fn two_children(name: &str, bed: &Bed) {
    let p = bed.built();
    let f = Frame::of(&p);
    let all = cases(&p);
    let case = all.iter().find(|c| c.kind == CaseKind::Jumping).expect("children jump");
    let pair = case.positions.iter().find(|q| q.patches.len() == 2).expect("two fit");
    let forces = [pair.patches[0].force, pair.patches[1].force];
    let half = millimetre(100.0);
    let mut brute = Vec::new();
    for (ahead, aside) in [(400.0, 0.0), (-400.0, 0.0), (0.0, 400.0), (0.0, -400.0)] {
        for x in steps(half, p.length - half, 0.004) {
            for y in steps(half, p.width - half, 0.01) {
                let other = Place { x: x + millimetre(ahead), y: y + millimetre(aside) };
                let fits = |v: Length, end: Length| v >= half && v <= end - half;
                if fits(other.x, p.length) && fits(other.y, p.width) {
                    let place = Place { x, y };
                    let patch = |at, force| Patch::around(at, half * 2.0, half * 2.0, force).spread(&p);
                    let patches = vec![patch(place, forces[0]), patch(other, forces[1])];
                    brute.push(Position { patches: patches.into(), place, note: "", felt: Felt::Both });
                }
            }
        }
    }
    let (swept, dense) = (f.envelope(&case.positions, false), f.envelope(&brute, false));
    for (kind, over) in f.excess(&swept, &dense) {
        assert!(over <= 0.01, "{name}: a {kind} exceeds the sweep by {over:e} of the greatest");
    }
}

/// One arrangement of everybody lying, put together here.
fn laid(p: &Platform, slide: f64, shift: &dyn Fn(usize) -> f64, turned: bool) -> Position {
    let along = p.posture == Posture::AlongRails;
    let (run, cross) = if along { (p.length, p.width) } else { (p.width, p.length) };
    let lane_width = cross / p.sleepers.len() as f64;
    let mut patches = Vec::new();
    for (lane, person) in p.sleepers.iter().enumerate() {
        let stature = metre(person.stature.value.min(run.value));
        let widest = person.segments.iter().map(|s| s.width.value).fold(0.0, f64::max).min(lane_width.value);
        let centre = lane_width.value * lane as f64 + widest / 2.0 + (lane_width.value - widest) * shift(lane);
        for s in &person.segments {
            let start = (run - stature) * slide;
            let (a, b) = (start + stature * s.from.value, start + stature * s.to.value);
            let [a, b] = if turned { [run - b, run - a] } else { [a, b] };
            let side = |w: f64| metre((centre + w * s.width.value / 2.0).clamp(0.0, cross.value));
            let across = [side(-1.0), side(1.0)];
            let (x, y) = if along { ([a, b], across) } else { (across, [a, b]) };
            patches.push(Patch { x, y, force: person.weight() * s.mass.value }.spread(p));
        }
    }
    Position {
        patches: patches.into(),
        place: Place { x: p.length / 2.0, y: p.width / 2.0 },
        note: "",
        felt: Felt::Both,
    }
}

/// People lying are slid by steps, not by stops: a body's segments have a hundred edges. Brute force,
/// with every sleeper at either side of their own lane whatever the others do, exceeds the steps by
/// less than 2 % of the greatest effect.
#[test]
fn brute_force_finds_little_worse_for_people_lying() {
    for (name, bed) in beds() {
        let p = bed.built();
        let f = Frame::of(&p);
        let all = cases(&p);
        let case = all.iter().find(|c| c.kind == CaseKind::Lying).expect("people lie");
        let mut brute = Vec::new();
        for turned in [false, true] {
            for k in 0..=100 {
                for sides in 0..(1usize << p.sleepers.len()) {
                    let shift = |lane: usize| ((sides >> lane) & 1) as f64;
                    brute.push(laid(&p, f64::from(k) / 100.0, &shift, turned));
                }
            }
        }
        let (swept, dense) = (f.envelope(&case.positions, false), f.envelope(&brute, false));
        for (kind, over) in f.excess(&swept, &dense) {
            assert!(over <= 0.02, "{name}: a {kind} exceeds the sweep by {over:e} of the greatest");
        }
    }
}

fn sum(forces: impl Iterator<Item = f64>) -> f64 {
    forces.sum()
}

/// Every position of every case carries the whole of what the case promises, before and after the
/// slats have shared it out.
#[test]
fn no_weight_is_lost_on_the_way_to_the_slats() {
    let g = 9.806_65;
    for (name, bed) in beds() {
        let p = bed.built();
        let strips = Strips::of(&p);
        let heaviest = bed.sleepers.iter().fold(0.0f64, |a, b| a.max(*b));
        let visitor = 180.0 * 0.453_592_37;
        let people: f64 = bed.sleepers.iter().sum();
        let area = bed.length * bed.width / 1e6;
        for case in cases(&p) {
            for q in &case.positions {
                let children = q.patches.len() as f64;
                let expected = match case.kind {
                    CaseKind::Dead | CaseKind::Racking | CaseKind::Tipping => 0.0,
                    // These beds have neither guard nor ladder, and what loads those loads no slat.
                    kind if kind.beside_the_frame() => panic!("{name} has no {}", kind.name()),
                    CaseKind::Lying => people * g,
                    CaseKind::Sitting => 1.3 * heaviest.max(visitor) * g,
                    CaseKind::RowOnTheEdge => {
                        let seats = (bed.length / 500.0).floor();
                        let mean = people / bed.sleepers.len() as f64 * g;
                        seats * (heaviest.max(visitor) * g).min(1000.0).max(mean)
                    }
                    CaseKind::Kneeling | CaseKind::BareSlat => heaviest * g,
                    CaseKind::ClimbingIn => 1.2 * heaviest * g,
                    CaseKind::Dropping => 2.0 * heaviest * g,
                    CaseKind::Jumping if children == 1.0 => 3.5 * heaviest * g,
                    CaseKind::Jumping => 3.5 * 0.85 * people * g,
                    // 30 lbf/ft²: 1 lbf = 4.4482216152605 N, 1 ft = 0.3048 m (NIST SP 811, B.8).
                    CaseKind::CodeUniform => {
                        let part = if q.note == "on the whole" { 1.0 } else { 0.5 };
                        30.0 * 4.448_221_615_260_5 / 0.3048f64.powi(2) * area * part
                    }
                    kind => panic!("{name}: {}", kind.name()),
                };
                let patches = sum(q.patches.iter().map(|p| p.force.value));
                assert!(
                    (patches - expected).abs() <= 1e-9 * (1.0 + expected),
                    "{name} {:?}: {patches} {expected}",
                    case.kind
                );
                let mut shared = 0.0;
                for patch in &q.patches {
                    strips.share(patch, &mut |_, load| shared += load.force());
                }
                assert!(
                    (shared - expected).abs() <= 1e-9 * (1.0 + expected),
                    "{name} {:?}: {shared} {expected}",
                    case.kind
                );
            }
        }
    }
}

/// A patch that hangs over the slats' ends, wholly or in part, still rests on them whole.
#[test]
fn nothing_falls_off_the_end_of_a_slat() {
    let p = Bed { bearing: 12.0, ..COUPLE }.built();
    let [start, end] = p.slat_ends();
    assert!((start.value - 0.026).abs() < 1e-12, "the slats end short of the rails here");
    let force = newton(1000.0);
    let strips = Strips::of(&p);
    for (y0, y1) in [(0.0, 20.0), (0.0, 26.0), (0.0, 27.0), (1400.0, 1524.0), (1510.0, 1524.0), (0.0, 1524.0)] {
        let patch = Patch { x: [metre(0.3), metre(0.7)], y: [millimetre(y0), millimetre(y1)], force };
        let mut total = 0.0;
        strips.share(&patch, &mut |_, load| {
            let (from, to) = load.extent();
            assert!(from >= start.value - 1e-12 && to <= end.value + 1e-12, "{y0} to {y1}: {from} {to}");
            total += load.force();
        });
        assert!((total - 1000.0).abs() < 1e-9, "{y0} to {y1}: {total}");
    }
}

/// A body's segments weigh what the body weighs.
#[test]
fn segments_sum_to_the_body() {
    for (_, bed) in beds() {
        for person in bed.built().sleepers {
            let whole = sum(person.segments.iter().map(|s| s.mass.value));
            assert!((whole - 1.0).abs() < 1e-12, "{whole}");
        }
    }
}

/// The spread is a quarter of the mattress on each side, 75 mm at most, and nothing on bare slats.
/// Common practice, no source.
#[test]
fn the_mattress_spreads_no_more_than_it_should() {
    for t in [0.0, 20.0, 100.0, 203.0, 299.0, 300.0, 301.0, 600.0] {
        let p = Bed { mattress: t, ..COUPLE }.built();
        let spread = p.mattress.spread().value * 1e3;
        assert!((spread - (t / 4.0).min(75.0)).abs() < 1e-9, "{t}: {spread}");
        let middle = Place { x: p.length / 2.0, y: p.width / 2.0 };
        let force = newton(1.0);
        let patch = Patch::around(middle, millimetre(100.0), millimetre(250.0), force).spread(&p);
        assert!(((patch.x[1] - patch.x[0]).value * 1e3 - 100.0 - 2.0 * spread).abs() < 1e-9);
        assert!(((patch.y[1] - patch.y[0]).value * 1e3 - 250.0 - 2.0 * spread).abs() < 1e-9);
    }
    let p = COUPLE.built();
    for q in cases(&p).iter().filter(|c| c.kind == CaseKind::BareSlat).flat_map(|c| &c.positions) {
        let [x, y] = [q.patches[0].x, q.patches[0].y].map(|[a, b]| (b - a).value * 1e3);
        assert!((x - 89.0).abs() < 1e-9 && (y - 100.0).abs() < 1e-9, "{x} {y}");
    }
}

/// kg/m³ in one lb/ft³ (NIST SP 811, B.8).
const PCF: f64 = 0.453_592_37 / (0.3048 * 0.3048 * 0.3048);

/// Weights that the AWC printed in 1992 beside its span tables, lb/ft³ to one decimal, read in a
/// summary; specific gravities of the NDS. They are the supplement's formula at 15 %.
#[test]
fn density_is_the_published_one() {
    let list = [
        ("Douglas fir-larch", 0.50, 33.6),
        ("hem-fir", 0.43, 29.2),
        ("spruce-pine-fir", 0.42, 28.5),
        ("southern pine", 0.55, 36.7),
        ("red oak", 0.67, 44.1),
        ("red maple", 0.58, 38.6),
        ("yellow-poplar", 0.43, 29.2),
    ];
    for (name, g, printed) in list {
        let ours = timber_density(g).value / PCF;
        assert!((ours - printed).abs() <= 0.05, "{name}: printed {printed}, {ours}");
    }
}

/// ASCE 7 prints 30 psf as 1.44 kN/m² (from memory of Table 4-1's SI column).
#[test]
fn thirty_psf_in_si() {
    assert!((psf(30.0).value - 1440.0).abs() <= 5.0);
    assert!((psf(30.0).value - 1436.408).abs() < 5e-4);
}

/// Middles of the places of a case across, each once, in order, mm.
fn rows_of(p: &Platform, kind: CaseKind) -> Vec<f64> {
    let all = cases(p);
    let case = all.iter().find(|c| c.kind == kind).expect("the case is run");
    let mut rows: Vec<f64> = case.positions.iter().map(|at| at.place.y.value * 1e3).collect();
    rows.sort_by(f64::total_cmp);
    rows.dedup_by(|a, b| (*a - *b).abs() < 1e-3);
    rows
}

/// Where people are, by hand, on a bed 1524 mm wide. A climber's foot of 100 mm is within 300 mm of an edge that is
/// climbed: 50 to 250 mm. A bare foot is in the middle of every slat. Four of 100 kg sit along an edge at half a metre
/// each, 300 mm deep. The code's load lies on the whole and on each half.
#[test]
fn where_people_are_by_hand() {
    let p = COUPLE.built();
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-6, "{a} {b}");
    let feet = rows_of(&p, CaseKind::ClimbingIn);
    near(feet[0], 50.0);
    near(feet.iter().copied().filter(|y| *y < 762.0).fold(0.0, f64::max), 250.0);
    near(feet.iter().copied().filter(|y| *y > 762.0).fold(1524.0, f64::min), 1274.0);
    near(feet[feet.len() - 1], 1474.0);

    assert_eq!(rows_of(&p, CaseKind::BareSlat), [762.0]);
    let all = cases(&p);
    let of = |kind: CaseKind| all.iter().find(|c| c.kind == kind).expect("the case is run");
    let bare = of(CaseKind::BareSlat);
    assert_eq!(bare.positions.len(), p.slats.count);
    let foot = bare.positions[0].patches[0];
    near(foot.force.value, 100.0 * 9.806_65);
    near((foot.y[1] - foot.y[0]).value * 1e3, 100.0);

    let row = of(CaseKind::RowOnTheEdge);
    let edge = rows_of(&p, CaseKind::RowOnTheEdge);
    assert_eq!(edge.len(), 2);
    near(edge[0], 150.0);
    near(edge[1], 1374.0);
    near(row.positions[0].patches[0].force.value, 4.0 * 100.0 * 9.806_65);

    let uniform = of(CaseKind::CodeUniform);
    let [length, width] = [2032.0, 1524.0];
    for (note, x, y, part) in [
        ("on the whole", 0.5, 0.5, 1.0),
        ("on the head half", 0.25, 0.5, 0.5),
        ("on the foot half", 0.75, 0.5, 0.5),
        ("on the left half", 0.5, 0.25, 0.5),
        ("on the right half", 0.5, 0.75, 0.5),
    ] {
        let at = uniform.positions.iter().find(|at| at.note == note).expect(note);
        near(at.place.x.value * 1e3, x * length);
        near(at.place.y.value * 1e3, y * width);
        near(at.patches[0].force.value, p.code.uniform.value * length * width * 1e-6 * part);
    }
}

/// A bare foot where slats lie over a beam: in the middle of each span.
#[test]
fn a_bare_foot_in_each_span() {
    let text = include_str!("../demo/hut_double.toml");
    let p = platform(text);
    let beam = p.centre_beam.as_ref().expect("a beam").at.value;
    let [left, right] = p.bearing_lines().map(|y| y.value);
    let rows = rows_of(&p, CaseKind::BareSlat);
    assert_eq!(rows.len(), 2);
    for (row, (a, b)) in rows.iter().zip([(left, beam), (beam, right)]) {
        assert!((row - (a + b) / 2.0 * 1e3).abs() < 1e-6, "{row}");
    }
}
