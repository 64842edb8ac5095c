//! What holds a rail up: `ends` and `studs`.

use super::stick::wood;
use crate::brief::fields::Fields;
use crate::brief::keys::{DeclaredKeys, EndKeys, JointWord, StudKeys, WasherKeys};
use crate::brief::mistake::Mistakes;

pub(super) fn ends(mut f: Fields<'_, '_>, m: &mut Mistakes) -> EndKeys {
    let joints = [
        ("screws", JointWord::Screws),
        ("lags", JointWord::Lags),
        ("bolts", JointWord::Bolts),
        ("bearing", JointWord::Bearing),
        ("notch", JointWord::Notch),
        ("pocket screws", JointWord::PocketScrews),
        ("glue", JointWord::Glue),
    ];
    let keys = EndKeys {
        span: f.span().clone(),
        joint: f.choice("joint", m, &joints),
        screw: f.text("screw", m),
        lag: f.text("lag", m),
        bolt: f.text("bolt", m),
        washer: f.table("washer", m).map(|w| washer(w, m)),
        count: f.count("count", m),
        into_end_grain: f.choice("into", m, &[("side grain", false), ("end grain", true)]),
        through: f.length("through", m),
        edge: f.length("edge", m),
        end: f.length("end", m),
        bearing: f.length("bearing", m),
        depth: f.length("depth", m),
        cut: f.length("cut", m),
        post: wood(&mut f, "post", m),
        declared: f.table("declared", m).map(|d| declared(d, m)),
    };
    f.missing(
        "joint",
        m,
        "write joint = \"screws\", \"lags\", \"bolts\", \"bearing\", \"notch\", \"pocket screws\" or \"glue\"",
    );
    let needs: &[(&str, &str)] = match keys.joint.as_ref().map(|j| j.value) {
        Some(JointWord::Screws) => &[
            ("screw", "write screw = \"#14 x 3 in\""),
            ("count", "write count = 3"),
            ("into", "write into = \"side grain\" when the threads cross the grain of the piece they hold in"),
        ],
        Some(JointWord::Lags) => &[
            ("lag", "write lag = \"1/4 x 3 in\""),
            ("count", "write count = 2"),
            ("into", "write into = \"side grain\" when the threads cross the grain of the piece they hold in"),
        ],
        Some(JointWord::Bolts) => &[("bolt", "write bolt = \"3/8 x 6 in\""), ("count", "write count = 2")],
        Some(JointWord::PocketScrews) => &[("screw", "write screw = \"#8 x 2-1/2 in\""), ("count", "write count = 3")],
        Some(JointWord::Bearing) => &[("bearing", "write bearing = \"1-1/2 in\", the length of rail that rests")],
        Some(JointWord::Notch | JointWord::Glue) | None => &[],
    };
    for (key, help) in needs {
        f.missing(key, m, help);
    }
    idle(&f, &keys, m);
    f.finish(m);
    keys
}

/// The keys that mean nothing for the joint named, and `through`, which goes with end grain only.
fn idle(f: &Fields<'_, '_>, keys: &EndKeys, m: &mut Mistakes) {
    match keys.joint.as_ref().map(|j| j.value) {
        Some(JointWord::Screws | JointWord::Lags) => {
            let help = "take it out, or write joint = \"bearing\" with `bearing` alone";
            f.idle(&["bearing"], "a joint of screws", m, help);
            f.idle(&BOLT_KEYS, "a joint of screws", m, "take it out, or write joint = \"bolts\"");
            f.idle(&NOTCH_KEYS, "a joint of screws", m, "take it out, or write joint = \"notch\"");
            match keys.into_end_grain.as_ref().map(|into| into.value) {
                Some(true) => {
                    let help = "write through = \"3-1/2 in\", the thickness of the post the screws pass through";
                    f.missing("through", m, help);
                }
                Some(false) => {
                    let help = "take it out: these screws pass through the rail, whose thickness is known";
                    f.idle(&["through"], "into = \"side grain\"", m, help);
                }
                None => {}
            }
        }
        Some(JointWord::PocketScrews) => {
            let help = "pockets have a model of their own: take it out";
            let idle = [&["into", "through", "bearing", "declared"][..], &BOLT_KEYS, &NOTCH_KEYS].concat();
            f.idle(&idle, "joint = \"pocket screws\"", m, help);
        }
        Some(JointWord::Bolts) => {
            let help = "bolts pass through the rail's face and the side of the post: take it out";
            let idle = [&["screw", "lag", "into", "bearing", "declared"][..], &NOTCH_KEYS].concat();
            f.idle(&idle, "joint = \"bolts\"", m, help);
        }
        Some(JointWord::Bearing) => {
            let help = "a rail that rests needs `bearing` alone; screws that hold it up are joint = \"screws\"";
            f.idle(&[&SCREW_KEYS[..], &BOLT_KEYS].concat(), "joint = \"bearing\"", m, help);
            f.idle(&["depth"], "joint = \"bearing\"", m, "take it out, or write joint = \"notch\"");
        }
        Some(JointWord::Notch) => {
            let help = "a rail in a notch rests; a bolt, screw or lag and its `count` only keep it there: take it out";
            f.idle(&["into", "through", "edge", "end", "post", "declared", "washer"], "joint = \"notch\"", m, help);
            if f.has("bolt") || f.has("screw") || f.has("lag") {
                f.missing("count", m, "write count = 2, in each post");
            } else {
                f.idle(&["count"], "joint = \"notch\" without a fastener", m, "write bolt = \"3/8 x 5 in\" too");
            }
        }
        Some(JointWord::Glue) => {
            let help = "glue counts as nothing; screws that hold the rail up are joint = \"screws\"";
            f.idle(&[&SCREW_KEYS[..], &BOLT_KEYS, &NOTCH_KEYS, &["bearing"]].concat(), "joint = \"glue\"", m, help);
        }
        None => {}
    }
}

/// What a screw's maker declares of it.
pub(super) fn declared(mut f: Fields<'_, '_>, m: &mut Mistakes) -> DeclaredKeys {
    let keys = DeclaredKeys {
        span: f.span().clone(),
        withdrawal: f.pressure("withdrawal", m),
        head: f.pressure("head", m),
        head_diameter: f.length("head_diameter", m),
        density: f.density("density", m),
        tension: f.force("tension", m),
        yield_moment: f.moment("yield_moment", m),
    };
    let strength = f.has("withdrawal") || f.has("head");
    if strength {
        f.missing("density", m, "write density = \"350 kg/m3\", the one the strengths were found at");
    }
    if f.has("head") {
        f.missing("head_diameter", m, "write head_diameter = \"10 mm\"");
    }
    if f.all_known() {
        if let (Some(d), false) = (&keys.head_diameter, f.has("head")) {
            let help = "write head = \"12 N/mm2\" too, or take it out";
            m.add(&d.span, "`head_diameter` does nothing without `head`", "", help);
        }
        if let (Some(d), false) = (&keys.density, strength) {
            let help = "write withdrawal = \"12 N/mm2\" or head = \"12 N/mm2\" too, or take it out";
            m.add(&d.span, "`density` does nothing without `withdrawal` or `head`", "", help);
        }
    }
    f.finish(m);
    keys
}

/// What only a rail that rests may have.
const NOTCH_KEYS: [&str; 2] = ["depth", "cut"];

/// What only a joint of bolts needs.
const BOLT_KEYS: [&str; 2] = ["bolt", "washer"];

fn washer(mut f: Fields<'_, '_>, m: &mut Mistakes) -> WasherKeys {
    let keys =
        WasherKeys { span: f.span().clone(), across: f.length("across", m), thickness: f.length("thickness", m) };
    f.missing("across", m, "write across = \"1-1/2 in\", the washer's diameter");
    f.missing("thickness", m, "write thickness = \"1/8 in\"");
    f.finish(m);
    keys
}

/// What only a joint of screws needs.
const SCREW_KEYS: [&str; 9] = ["screw", "lag", "count", "into", "through", "edge", "end", "post", "declared"];

pub(super) fn studs(mut f: Fields<'_, '_>, m: &mut Mistakes) -> StudKeys {
    let keys = StudKeys {
        span: f.span().clone(),
        lag: f.text("lag", m),
        screw: f.text("screw", m),
        pitch: f.length("pitch", m),
        first: f.length("first", m),
        count: f.count("count", m),
        wood: wood(&mut f, "wood", m),
        declared: f.table("declared", m).map(|d| declared(d, m)),
        gap: f.length("gap", m),
        into_plate: f.choice("into", m, &[("stud", false), ("plate", true)]),
        up: f.length("up", m),
    };
    if keys.screw.is_none() && !f.unread("screw", &keys.screw) {
        f.missing("lag", m, "write lag = \"1/4 x 5 in\"");
    }
    f.missing("pitch", m, "write pitch = \"16 in\", from stud to stud");
    f.finish(m);
    keys
}
