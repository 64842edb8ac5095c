//! Rails that rest in notched posts, and rails notched where they rest: worked by hand in both families, and both sides
//! of every limit. Clauses of the NDS 2018 and EN 1995-1-1: from memory.

mod support;

use slatwright::check::{Limit, Schedule, Verdict};
use slatwright::load::CaseKind;
use support::{INCH, POUND, all, assessed, found, platform, same};

/// Under the code's uniform load alone, ten years by the NDS and medium term by Eurocode 5.
const BED: &str = r##"
rules = "asd"
[platform]
length = "80 in"
width = "60 in"
height = "20 in"
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
rise = "2 in"
screws = { lag = "1/4 x 3 in", pitch = "4 in", first = "4 in" }
[rails]
wood = "spruce-pine-fir no2"
size = "2x10"
ends = { joint = "bearing", bearing = "3 in", cut = "1-1/2 in" }
[posts]
wood = "douglas fir-larch no2"
size = "4x4"
top = "braced"
[cases]
lying = { drop = true }
sitting = { drop = true }
row = { drop = true }
kneeling = { drop = true }
climbing = { drop = true }
dropping = { drop = true }
bare = { drop = true }
racking = { drop = true }
tipping = { drop = true }
"##;

const ENDS: &str = "{ joint = \"bearing\", bearing = \"3 in\", cut = \"1-1/2 in\" }";
const END: &str = "left rail, head end";

/// `Vr' = 2/3 Fv' b dn (dn/d)²` with 7-3/4 in left of 9-1/4 in, against the force that the bearing carries.
#[test]
fn a_notched_rail_by_the_nds() {
    let a = assessed(BED);
    let [deep, shear] = all(&a, END, Limit::Notch)[..] else { panic!("two checks of the notch") };
    same("d/4", deep.ratio, 1.5 / (9.25 / 4.0));
    assert_eq!(shear.case, CaseKind::CodeUniform);
    let resists = 2.0 / 3.0 * 135.0 * 1.5 * 7.75 * (7.75f64 / 9.25).powi(2);
    same("Vr'", shear.capacity.si, resists * POUND);
    same("V", shear.demand.si, found(&a, END, Limit::Bearing).demand.si * 1.5 * 3.0 * INCH * INCH);
}

/// A quarter of the depth is the deepest notch; below that there is no shear to speak of.
#[test]
fn the_deepest_notch_by_the_nds() {
    let with = |cut: &str| assessed(&BED.replace("cut = \"1-1/2 in\"", &format!("cut = \"{cut}\"")));
    let a = with("2-5/16 in");
    assert_eq!(all(&a, END, Limit::Notch).len(), 2);
    assert_eq!(all(&a, END, Limit::Notch)[0].verdict, Verdict::Pass);
    let a = with("2-3/8 in");
    assert_eq!(found(&a, END, Limit::Notch).verdict, Verdict::Fail);
    assert!(
        assessed(&BED.replace(", cut = \"1-1/2 in\"", ""))
            .members
            .iter()
            .all(|m| { m.checks.iter().all(|c| c.limit != Limit::Notch) })
    );
}

/// `kv` of (6.62) for 40 mm out of 195 mm, the reaction 30 mm from the corner, and `τd = 1.5 V/(kcr b hef)`.
#[test]
fn a_notched_rail_by_eurocode_5() {
    let text = BED
        .replace("\"asd\"", "\"ec5\"")
        .replace("\"spruce-pine-fir no2\"", "\"C24\"")
        .replace("\"douglas fir-larch no2\"\nsize = \"4x4\"", "\"C24\"\nthickness = \"100 mm\"\nwidth = \"120 mm\"")
        .replace("size = \"2x10\"", "thickness = \"45 mm\"\nwidth = \"195 mm\"")
        .replace(ENDS, "{ joint = \"bearing\", bearing = \"60 mm\", cut = \"40 mm\" }");
    let a = assessed(&text);
    let check = found(&a, END, Limit::Notch);
    let (h, left, x) = (195.0f64, 155.0f64, 30.0f64);
    let alpha = left / h;
    let kv = 5.0 / (h.sqrt() * ((alpha * (1.0 - alpha)).sqrt() + 0.8 * x / h * (1.0 / alpha - alpha * alpha).sqrt()));
    assert!(kv < 1.0, "{kv} would show nothing");
    same("kv fv,d", check.capacity.si, kv * 0.8 * 4.0e6 / 1.3);
    // The rail bears on 60 mm and 30 mm more on the side of the span.
    let force = found(&a, END, Limit::Bearing).demand.si * 0.045 * 0.090;
    same("τd", check.demand.si, 1.5 * force / (0.67 * 0.045 * 0.155));
}

/// A shoulder 1 in deep and 3 in long carries what a rail resting on all of its thickness does, on two thirds of the
/// area; it presses on the post 3/4 in and 1-1/4 in off its axis.
#[test]
fn a_notched_post() {
    let whole = assessed(&BED.replace(", cut = \"1-1/2 in\"", ""));
    let notch = "{ joint = \"notch\", depth = \"1 in\", bearing = \"3 in\", bolt = \"3/8 x 5 in\", count = 1 }";
    let text = BED.replace(ENDS, notch);
    let a = assessed(&text);
    let [wide, narrow] = [&whole, &a].map(|a| found(a, END, Limit::Bearing).demand.si);
    same("bearing in the rail", narrow, 1.5 * wide);
    let below = found(&a, "left post, head end", Limit::Bearing);
    same("bearing on the shoulder", below.demand.si, narrow);
    let steps = found(&a, "left post, head end", Limit::Buckling).steps();
    let of = |symbol: &str| steps.iter().find(|s| s.symbol == symbol).expect("a step").value.si;
    same("along", of("6 e1/d1"), 6.0 * 0.75 / 3.5);
    same("across", of("6 e2/d2"), 6.0 * 1.25 / 3.5);
    assert!(a.not_checked.iter().any(|n| n.what.contains("above their notches") && !n.carries_load));
    let list = Schedule::of(&platform(&text));
    assert!(list.hardware.iter().any(|h| h.screw.starts_with("bolts 3/8 x 5 in") && h.count == 4));
    // 20 in less slat, cleat and rise are 13 in to the rail's lower edge; the post stands up beside its 9-1/4 in.
    let post = list.pieces.iter().find(|p| p.what == "post").expect("posts");
    same("post", post.length.value, (13.0 + 9.25) * INCH);
}
