//! Closed forms of a simple beam, solved for the unknown.

use approx::assert_relative_eq;

use super::support::json;

/// A bed whose slats are its weakest part. They run from rail to rail, over cleats 1-1/2 in thick.
const BED: &str = r#"
[platform]
length = "78 in"
width = "40 in"
[[sleeper]]
weight = "150 lb"
[visitor]
weight = "none"
[slats]
wood = "spruce-pine-fir no2"
size = "2x4"
gap = "2-1/2 in"
fixed = true
[cleats]
wood = "douglas fir-larch select structural"
size = "2x4"
screws = { lag = "3/8 x 5 in", pitch = "4 in", first = "3 in" }
[rails]
wood = "douglas fir-larch select structural"
size = "4x12"
ends = { joint = "bearing", bearing = "6 in" }
[cases]
lying = { drop = true }
row = { drop = true }
climbing = { drop = true }
dropping = { drop = true }
jumping = { drop = true }
bare = { drop = true }
"#;

const INCH: f64 = 0.0254;
const POUND_FORCE: f64 = 4.448_221_615_260_5;

/// Slats of the bed: 2x4 spruce-pine-fir No.2 laid flat, dressed 1-1/2 by 3-1/2 in (PS 20); E = 1.4e6 psi
/// and Fb = 875 psi with CF = 1.5, Cfu = 1.1 (NDS supplement, from memory; the span tables confirm them).
struct Slat {
    ei: f64,
    section_modulus: f64,
    bending: f64,
    pitch: f64,
}

fn slat() -> Slat {
    let (b, d) = (3.5 * INCH, 1.5 * INCH);
    let psi = POUND_FORCE / INCH / INCH;
    // 14 slats and 13 gaps of no more than 2-1/2 in make 78 in.
    let gap = (78.0 - 14.0 * 3.5) / 13.0;
    Slat {
        ei: 1.4e6 * psi * b * d.powi(3) / 12.0,
        section_modulus: b * d * d / 6.0,
        bending: 875.0 * 1.5 * 1.1 * psi,
        pitch: (3.5 + gap) * INCH,
    }
}

fn metres(v: &serde_json::Value) -> f64 {
    assert_eq!(v["unit"], "m");
    v["value"].as_f64().unwrap()
}

/// A beam that reaches past its supports by `a` on both sides sags `w L² (5 L² - 24 a²) / (384 EI)` in the
/// middle (statics). Under 30 psf on a slat's strip that is at most `L / 360` at the answer, and more a
/// sixteenth of an inch on.
#[test]
fn the_widest_under_an_even_load() {
    let dropped = "[cases]\nsitting = { drop = true }\nkneeling = { drop = true }";
    let (_folder, path) = super::support::file(&BED.replace("[cases]", dropped));
    let s = slat();
    let (w, a) = (30.0 * POUND_FORCE / (12.0 * INCH).powi(2) * s.pitch, 0.75 * INCH);
    let ratio = |l: f64| w * l * (5.0 * l * l - 24.0 * a * a) / (384.0 * s.ei) * 360.0;
    let answer = json(&["span", &path]);
    let slats = &answer["parts"][0];
    assert_eq!(slats["role"], "slat");
    assert_eq!(slats["stopped_by"]["limit"], "deflection");
    let span = metres(&slats["slat_span"]);
    assert!(ratio(span) <= 1.0 + 1e-6 && ratio(span + INCH / 16.0) > 1.0 + 1e-6, "{span}: {}", ratio(span));
    // The bearings' middles are half a cleat from each rail.
    assert_relative_eq!(metres(&slats["width"]), span + 1.5 * INCH, epsilon = 1e-6);
}

/// One knee of 100 by 250 mm, no mattress, in the middle of a slat: `M = P (2 L − c) / 8`, together with
/// the dead load's `w (L² / 8 - a² / 2)`, against `Fb' S` with `CD = 1.25`.
#[test]
fn the_heaviest_who_may_kneel() {
    let (_folder, path) = super::support::file(BED);
    let s = slat();
    // Between the middles of the bearings, 40 in less half a cleat at each end.
    let (span, past) = (38.5 * INCH, 0.75 * INCH);
    // Timber at 15 % moisture content, G = 0.42 (NDS supplement 3.1.3); bedding 40 Pa.
    let density = 62.4 * 0.453_592_37 / (12.0 * INCH).powi(3) * (0.42 / (1.0 + 0.42 * 0.009 * 15.0) * 1.15);
    let dead = density * 9.806_65 * (3.5 * INCH) * (1.5 * INCH) + 40.0 * s.pitch;
    let moment = 1.25 * s.bending * s.section_modulus - dead * (span * span / 8.0 - past * past / 2.0);
    let force = 8.0 * moment / (2.0 * span - 0.25);
    let pounds = force / POUND_FORCE;
    let answer = json(&["rate", &path]);
    let kneeling = answer["cases"].as_array().unwrap().iter().find(|c| c["case"] == "kneeling").unwrap();
    assert_eq!(kneeling["each"]["beyond"]["limit"], "bending");
    let got = kneeling["each"]["mass"]["value"].as_f64().unwrap() / 0.453_592_37;
    assert!((got - pounds.floor()).abs() < 0.01, "{got} {pounds}");
}
