//! What holds a rail up: `ends` and `studs`.

use super::stick::wood;
use crate::brief::fields::Fields;
use crate::brief::keys::{EndKeys, JointWord, StudKeys};
use crate::brief::mistake::Mistakes;

pub(super) fn ends(mut f: Fields<'_, '_>, m: &mut Mistakes) -> EndKeys {
    let joints = [
        ("screws", JointWord::Screws),
        ("lags", JointWord::Lags),
        ("bearing", JointWord::Bearing),
        ("pocket screws", JointWord::PocketScrews),
        ("glue", JointWord::Glue),
    ];
    let keys = EndKeys {
        span: f.span().clone(),
        joint: f.choice("joint", m, &joints),
        screw: f.text("screw", m),
        lag: f.text("lag", m),
        count: f.count("count", m),
        into_end_grain: f.choice("into", m, &[("side grain", false), ("end grain", true)]),
        through: f.length("through", m),
        edge: f.length("edge", m),
        end: f.length("end", m),
        bearing: f.length("bearing", m),
        post: wood(&mut f, "post", m),
    };
    f.missing("joint", m, "write joint = \"screws\", \"lags\", \"bearing\", \"pocket screws\" or \"glue\"");
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
        Some(JointWord::PocketScrews) => &[("screw", "write screw = \"#8 x 2-1/2 in\""), ("count", "write count = 3")],
        Some(JointWord::Bearing) => &[("bearing", "write bearing = \"1-1/2 in\", the length of rail that rests")],
        Some(JointWord::Glue) | None => &[],
    };
    for (key, help) in needs {
        f.missing(key, m, help);
    }
    if keys.into_end_grain.as_ref().is_some_and(|t| t.value) && bites(&keys) {
        let help = "write through = \"3-1/2 in\", the thickness of the post the screws pass through";
        f.missing("through", m, help);
    }
    f.finish(m);
    keys
}

/// Whether screws run straight into a grain that the brief has to name.
fn bites(keys: &EndKeys) -> bool {
    matches!(keys.joint.as_ref().map(|j| j.value), Some(JointWord::Screws | JointWord::Lags))
}

pub(super) fn studs(mut f: Fields<'_, '_>, m: &mut Mistakes) -> StudKeys {
    let keys = StudKeys {
        span: f.span().clone(),
        lag: f.text("lag", m),
        screw: f.text("screw", m),
        pitch: f.length("pitch", m),
        first: f.length("first", m),
        count: f.count("count", m),
        wood: wood(&mut f, "wood", m),
    };
    if keys.screw.is_none() && !f.unread("screw", &keys.screw) {
        f.missing("lag", m, "write lag = \"1/4 x 5 in\"");
    }
    f.missing("pitch", m, "write pitch = \"16 in\", from stud to stud");
    f.finish(m);
    keys
}
