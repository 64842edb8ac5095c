//! Two beds worked by hand from closed forms, without the rules, the statics or the load sweep, and
//! compared with the report.
//!
//! Closed forms: simple span with a centred partial uniform load, `M = W (L/4 − c/8)` and
//! `Δ = W (8 L³ − 4 c² L + c³) / (384 E I)` (AWC Design Aid No. 6, figure 3, gives the loading; the
//! deflection is its integral and becomes `5 W L³ / 384 E I` for `c = L`); three equal spans under a
//! uniform load, `M = −0.100 w l²` and `R = 1.10 w l` at the inner supports (same booklet), all from
//! memory. Yield equations, factors and reference values: NDS 2018, from memory.

mod support;

use slatwright::check::Limit;
use slatwright::load::CaseKind;
use support::{INCH, POUND, PSI, built, found, same};

/// 60 by 80 in; 14 slats 2x4 of spruce-pine-fir No. 2 flat on 2x4 cleats; a sleeper of 220 lb on an
/// 8 in mattress of 70 lb; 2x8 rails that bear 1-1/2 in at their ends.
const BED: &str = r##"
[platform]
length = "80 in"
width = "60 in"
[mattress]
thickness = "8 in"
weight = "70 lb"
[[sleeper]]
weight = "220 lb"
[slats]
wood = "spruce-pine-fir no2"
size = "2x4"
count = 14
fixed = true
[cleats]
wood = "spruce-pine-fir no2"
size = "2x4"
screws = { screw = "#10 x 3 in", pitch = "6 in", first = "4 in" }
[rails]
wood = "spruce-pine-fir no2"
size = "2x8"
ends = { joint = "bearing", bearing = "1-1/2 in" }
"##;

/// The bed above in numbers of its own, SI.
struct Hand {
    length: f64,
    /// Slats' span, between the middles of 1-1/2 in bearings.
    span: f64,
    /// From the middle of a bearing to the slat's end.
    beyond: f64,
    pitch: f64,
    first_strip: f64,
    spread: f64,
    weight: f64,
    section: f64,
    inertia: f64,
    /// Dead load of an inner slat, N/m: cover and own weight.
    dead: f64,
    /// Weight per volume of spruce-pine-fir, G 0.42, at 15 %, N/m³.
    timber: f64,
}

fn hand() -> Hand {
    let (b, d) = (3.5 * INCH, 1.5 * INCH);
    let (length, width) = (80.0 * INCH, 60.0 * INCH);
    let pitch = b + (length - 14.0 * b) / 13.0;
    // NDS Supplement 3.1.3.
    let water = 62.4 * 0.453_592_37 / (12.0 * INCH).powi(3);
    let timber = water * 0.42 / (1.0 + 0.42 * 0.009 * 15.0) * 1.15 * 9.806_65;
    let cover = 70.0 * POUND / (length * width) + 40.0;
    Hand {
        length,
        span: width - 1.5 * INCH,
        beyond: 0.75 * INCH,
        pitch,
        first_strip: b / 2.0 + pitch / 2.0,
        spread: 2.0 * INCH,
        weight: 220.0 * POUND,
        section: b * d * d / 6.0,
        inertia: b * d * d * d / 12.0,
        dead: cover * pitch + timber * b * d,
        timber,
    }
}

impl Hand {
    /// Moment at midspan of a slat under dead load, its ends reaching beyond the supports.
    fn dead_moment(&self, q: f64) -> f64 {
        q * self.span * self.span / 8.0 - q * self.beyond * self.beyond / 2.0
    }

    fn end_dead(&self) -> f64 {
        let own = self.timber * 3.5 * 1.5 * INCH * INCH;
        (self.dead - own) / self.pitch * self.first_strip + own
    }
}

/// Kneeling across at midspan: 100 by 250 mm, spread 2 in to each side. An inner slat takes the part
/// of the patch over its strip; the first one, with the patch against the head, the part of a patch
/// that cannot spread over the end. `fb = M/S`; `Fb' = 875 psi · 1.25 · 1.5 · 1.1`.
#[test]
fn bending_of_a_slat_under_a_knee() {
    let (h, (_, a)) = (hand(), built(BED));
    let c = 0.25 + 2.0 * h.spread;
    let inner = h.pitch / (0.1 + 2.0 * h.spread);
    let first = h.first_strip / (0.1 + h.spread);
    for (id, share, dead) in [("slat 7", inner, h.dead), ("slat 1", first, h.end_dead())] {
        let moment = h.weight * share * (h.span / 4.0 - c / 8.0) + h.dead_moment(dead);
        let allowed = 875.0 * PSI * 1.25 * 1.5 * 1.1;
        let check = found(&a, id, Limit::Bending);
        assert_eq!(check.case, CaseKind::Kneeling);
        same(id, check.demand.si, moment / h.section);
        same(id, check.capacity.si, allowed);
        same(id, check.ratio, moment / h.section / allowed);
    }
}

/// Shear under the same knee just clear of the bearing's middle: `V = W (1 − c/2L)` and half the dead
/// load of the span; `fv = 3V/2bd`; `Fv' = 135 psi · 1.25`.
#[test]
fn shear_of_a_slat_beside_its_bearing() {
    let (h, (_, a)) = (hand(), built(BED));
    let (c, share) = (0.25 + 2.0 * h.spread, h.pitch / (0.1 + 2.0 * h.spread));
    let shear = h.weight * share * (1.0 - c / (2.0 * h.span)) + h.dead * h.span / 2.0;
    let check = found(&a, "slat 7", Limit::Shear);
    assert_eq!(check.case, CaseKind::Kneeling);
    same("fv", check.demand.si, 1.5 * shear / (3.5 * 1.5 * INCH * INCH));
    same("Fv'", check.capacity.si, 135.0 * PSI * 1.25);
}

/// Bearing under a foot that climbs in over the rail: 1.2 of the weight on 100 by 100 mm against the
/// edge, where it spreads inwards only. `Fc⊥' = 425 psi`: no duration, no length.
#[test]
fn bearing_of_a_slat_under_a_foot() {
    let (h, (_, a)) = (hand(), built(BED));
    let share = h.pitch / (0.1 + 2.0 * h.spread);
    let (middle, support) = ((0.1 + h.spread) / 2.0, h.beyond);
    let live = 1.2 * h.weight * share * (1.0 - (middle - support) / h.span);
    let reaction = live + h.dead * (h.span + 2.0 * h.beyond) / 2.0;
    let check = found(&a, "slat 7", Limit::Bearing);
    assert_eq!(check.case, CaseKind::ClimbingIn);
    same("fc⊥", check.demand.si, reaction / (3.5 * 1.5 * INCH * INCH));
    same("Fc⊥'", check.capacity.si, 425.0 * PSI);
}

/// 30 psf on one slat: `5wL⁴/384EI`, less the upward bow `wa²L²/16EI` of the ends beyond the
/// supports. `E = 1 400 000 psi`, limit `L/360`.
#[test]
fn sag_of_a_slat_under_the_codes_uniform_load() {
    let (h, (_, a)) = (hand(), built(BED));
    let w = 30.0 * PSI / 144.0 * h.pitch;
    let ei = 1.4e6 * PSI * h.inertia;
    let l = h.span;
    let sag = 5.0 * w * l.powi(4) / (384.0 * ei) - w * h.beyond.powi(2) * l * l / (16.0 * ei);
    let check = found(&a, "slat 7", Limit::Deflection);
    assert_eq!(check.case, CaseKind::CodeUniform);
    same("Δ", check.demand.si, sag);
    same("L/360", check.capacity.si, l / 360.0);
}

/// Creep of a slat under one person in the middle of the bed: every segment is a centred partial
/// load; Kcr 1.5 on all of it; limit `L/150` eased by half. Segments: the program's own table, which
/// is tested beside its source.
#[test]
fn creep_of_a_slat_under_a_sleeper() {
    let (h, (p, a)) = (hand(), built(BED));
    let ei = 1.4e6 * PSI * h.inertia;
    let l = h.span;
    let bow = |w: f64, c: f64| w * (8.0 * l.powi(3) - 4.0 * c * c * l + c.powi(3)) / (384.0 * ei);
    let dead = 5.0 * h.dead * l.powi(4) / (384.0 * ei) - h.dead * h.beyond.powi(2) * l * l / (16.0 * ei);
    let stature = 1.757;
    let strip = [6.5, 7.5].map(|k| 1.75 * INCH + (k - 1.0) * h.pitch);
    let mut worst = 0.0f64;
    for turned in [false, true] {
        // The program slides a sleeper by a quarter of a pitch at most.
        let steps = ((h.length - stature) / (h.pitch / 4.0)).ceil() as u32;
        for step in 0..=steps {
            let start = (h.length - stature) * f64::from(step) / f64::from(steps);
            let mut sag = dead;
            for s in &p.sleepers[0].segments {
                let (a, b) = (start + stature * s.from.value, start + stature * s.to.value);
                let [a, b] = if turned { [h.length - b, h.length - a] } else { [a, b] };
                let (a, b) = ((a - h.spread).max(0.0), (b + h.spread).min(h.length));
                let over = (b.min(strip[1]) - a.max(strip[0])).max(0.0) / (b - a);
                sag += bow(h.weight * s.mass.value * over, s.width.value + 2.0 * h.spread);
            }
            worst = worst.max(sag);
        }
    }
    let check = found(&a, "slat 7", Limit::Creep);
    assert_eq!(check.case, CaseKind::Lying);
    same("ΔT", check.demand.si, 1.5 * worst);
    same("L/100", check.capacity.si, l / 100.0);
}

/// Four people of 220 lb at 0.5 m along one edge, slid to the head. Lever rule twice: across the
/// slats to the cleat's line of bearing, along the rail to its supports, 3/4 in beyond the platform.
/// Rail 2x8 and cleat 2x4 weigh as the slats do. `fc⊥ = R / (1-1/2 in)²`.
#[test]
fn reaction_of_a_rail_under_a_row_of_people() {
    let (h, (_, a)) = (hand(), built(BED));
    let total = 4.0 * 220.0 * POUND;
    let depth = 0.3 + h.spread;
    let to_left = 1.0 - (depth / 2.0 - h.beyond) / h.span;
    let support = 0.75 * INCH;
    let lever = |x: f64| (h.length + support - x) / (h.length + 2.0 * support);
    // The strips are not all alike: the load enters at each slat's middle.
    let patch = (2.0 + h.spread).min(h.length);
    let mut reaction = 0.0;
    for i in 0..14 {
        let x = 1.75 * INCH + i as f64 * h.pitch;
        let from = if i == 0 { 0.0 } else { x - h.pitch / 2.0 };
        let to = if i == 13 { h.length } else { x + h.pitch / 2.0 };
        let live = total * (to.min(patch) - from).max(0.0) / patch * to_left;
        let dead = if i == 0 || i == 13 { h.end_dead() } else { h.dead };
        reaction += (live + dead * (h.span + 2.0 * h.beyond) / 2.0) * lever(x);
    }
    reaction += h.timber * 1.5 * (7.25 + 3.5) * INCH * INCH * h.length / 2.0;
    let check = found(&a, "left rail, head end", Limit::Bearing);
    assert_eq!(check.case, CaseKind::RowOnTheEdge);
    same("fc⊥", check.demand.si, reaction / (1.5 * 1.5 * INCH * INCH));
}

/// One cleat screw, #10 x 3 in, through 1-1/2 in of cleat into 1-1/2 in of rail, G 0.42 in both.
///
/// D 0.190, Dr 0.152 in, Fyb 80 000 psi, thread two thirds of the length (NDS appendix L);
/// `Fe = 16600 G^1.84`; KD 2.2; `ℓm = p − E` since p < 10 D, `E = 2 D`; `W = 2850 G² D` lb per inch
/// of thread. The slat's reaction stands a third of the bearing from the cleat's inner edge and
/// turns the cleat about its lower edge: `k = e / (2/3 · 1-3/4 in)`; `Zα' = W'Z'/(W' cos²α + Z' sin²α)`.
#[test]
fn capacity_of_a_cleat_screw() {
    let (_, a) = built(BED);
    let (dr, d, fyb, g) = (0.152f64, 0.190f64, 80_000.0f64, 0.42f64);
    let fe = 16_600.0 * g.powf(1.84);
    let (ls, lm) = (1.5f64, 1.5 - 2.0 * d);
    let (re, rt) = (1.0f64, lm / ls);
    let k1 = ((re + 2.0 * re * re * (1.0 + rt + rt * rt) + rt * rt * re.powi(3)).sqrt() - re * (1.0 + rt)) / (1.0 + re);
    let k2 = -1.0 + (2.0 * (1.0 + re) + 2.0 * fyb * (1.0 + 2.0 * re) * dr * dr / (3.0 * fe * lm * lm)).sqrt();
    let k3 = -1.0 + (2.0 * (1.0 + re) / re + 2.0 * fyb * (2.0 + re) * dr * dr / (3.0 * fe * ls * ls)).sqrt();
    let modes = [
        dr * lm * fe,
        dr * ls * fe,
        k1 * dr * ls * fe,
        k2 * dr * lm * fe / (1.0 + 2.0 * re),
        k3 * dr * ls * fe / (2.0 + re),
        dr * dr * (2.0 * fe * fyb / (3.0 * (1.0 + re))).sqrt(),
    ];
    let z = modes.into_iter().fold(f64::INFINITY, f64::min) / 2.2;
    let w = 2850.0 * g * g * d * 1.5;
    let k: f64 = (1.5 - 1.5 / 3.0) / (2.0 / 3.0 * 1.75);
    let (sine, cosine) = (k.atan().sin(), k.atan().cos());
    let alone = w * z / (w * cosine * cosine + z * sine * sine) * 4.448_221_615_260_5;
    for j in 1..=13 {
        let check = found(&a, &format!("left cleat screw {j}"), Limit::Screw);
        let duration = match check.case {
            CaseKind::Lying | CaseKind::Sitting | CaseKind::CodeUniform => 1.0,
            CaseKind::RowOnTheEdge => 1.15,
            CaseKind::Kneeling => 1.25,
            CaseKind::ClimbingIn | CaseKind::Dropping => 1.6,
            other => panic!("{other:?} does not load screws most"),
        };
        same(&format!("screw {j}"), check.capacity.si, alone * duration);
    }
}

/// A rail on four wall studs 24 in apart under dead load alone, heavy so that it is nearly uniform.
///
/// `M = −0.100 w (l² − a²)` and `R = w (1.10 l + a − …)` of three equal spans whose ends reach `a`
/// beyond the outer studs. The load comes down at screws, `n` to a span: evenly spaced point loads
/// change a fixed-end moment by at most `1/n²` of the uniform load's (`w l²/12 (1 − 1/n²)` with one
/// over each support, `(1 + 1/2n²)` half-way between), and the slats bring it to the cleat in the same
/// way; both parts together are the bound.
#[test]
fn a_rail_on_studs_is_a_continuous_beam() {
    let text = r##"
[platform]
length = "74 in"
width = "60 in"
[mattress]
thickness = "8 in"
weight = "600 lb"
[[sleeper]]
weight = "220 lb"
[slats]
wood = "spruce-pine-fir no2"
size = "2x4"
gap = "1/4 in"
fixed = true
[cleats]
wood = "spruce-pine-fir no2"
size = "2x4"
screws = { screw = "#10 x 3 in", pitch = "3 in", first = "1 in" }
[rails]
wood = "spruce-pine-fir no2"
size = "2x8"
studs = { lag = "1/4 x 5 in", pitch = "24 in", first = "1 in" }
[cases]
lying = { drop = true }
sitting = { drop = true }
row = { drop = true }
kneeling = { drop = true }
climbing = { drop = true }
dropping = { drop = true }
uniform = { drop = true }
bare = { drop = true }
"##;
    let (p, a) = built(text);
    let timber = hand().timber * INCH * INCH;
    let (length, width) = (74.0 * INCH, 60.0 * INCH);
    let slats = p.slats.count as f64 * timber * 3.5 * 1.5 * width;
    let cover = 600.0 * POUND + 40.0 * length * width;
    let w = (slats + cover) / 2.0 / length + timber * 1.5 * (7.25 + 3.5);
    let (l, beyond) = (24.0 * INCH, INCH);
    let bound = {
        let (screws, slats) = (l / p.sides[0].screws.spacing().value, l / p.slats.pitch().value);
        1.0 / screws.powi(2) + 1.0 / slats.powi(2)
    };
    assert!(bound < 0.05, "{bound}");
    let moment = 0.1 * w * (l * l - beyond * beyond);
    let check = found(&a, "left rail", Limit::Bending);
    let reported = check.demand.si * (1.5 * 7.25f64.powi(2) / 6.0 * INCH.powi(3));
    assert!((reported - moment).abs() <= bound * moment, "M: by hand {moment}, reported {reported}");
    assert_eq!(check.case, CaseKind::Dead);

    // Inner support: 0.5 w l from the middle span, and 0.5 w l with the difference of end moments from
    // the outer one. The screw's demand is R with the pull of its eccentricity.
    let outer = w * beyond * beyond / 2.0;
    let inner = w * l + (moment - outer) / l;
    let e: f64 = (1.5 + 1.5 - 0.5) / (2.0 / 3.0 * 3.625);
    for stud in ["left stud 2", "left stud 3"] {
        let check = found(&a, stud, Limit::Screw);
        let reported = check.demand.si / (1.0 + e * e).sqrt();
        assert!((reported - inner).abs() <= bound * inner, "{stud}: by hand {inner}, reported {reported}");
    }
}
