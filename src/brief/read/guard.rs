//! `[guard]` and `[ladder]`.

use super::stick::{note_unread_size, stick};
use crate::brief::fields::Fields;
use crate::brief::guard::{
    Edge, FixingKeys, GuardKeys, GuardPostKeys, HeadsOn, InfillKeys, LadderKeys, OpeningKeys, RungEndKeys,
    RungJointWord, RungKeys, Spot,
};
use crate::brief::keys::{Side, StickKeys};
use crate::brief::mistake::Mistakes;

/// The sides of a platform.
pub(super) const EDGES: [(&str, Edge); 4] =
    [("left", Edge::Left), ("right", Edge::Right), ("head", Edge::Head), ("foot", Edge::Foot)];
const WOOD: &str = "write wood = \"spruce-pine-fir no2\"; `slatwright timber` lists woods";

pub(super) fn guard(mut f: Fields<'_, '_>, m: &mut Mistakes) -> GuardKeys {
    let span = f.span().clone();
    let sides = f.choices("sides", m, &EDGES);
    let top = f.length("top", m);
    let (rail, rail_screws) = match f.table("rail", m) {
        Some(r) => top_rail(r, m),
        None => (None, None),
    };
    let keys = GuardKeys {
        span,
        sides,
        top,
        rail,
        rail_screws,
        lower: f.table("lower", m).map(|l| infill(l, m, true)),
        bars: f.table("bars", m).map(|b| infill(b, m, false)),
        posts: f.table("posts", m).map(|p| posts(p, m)),
        opening: f.table("opening", m).map(|o| opening(o, m)),
        furniture_test: f.flag("furniture_test", m),
    };
    f.missing("sides", m, "write sides = [\"left\", \"right\", \"head\", \"foot\"], those that have a guard");
    f.missing("top", m, "write top = \"16 in\", the guard's top above the slats");
    f.missing("rail", m, "write rail = { wood = \"…\", size = \"2x4\", screws = { … } }");
    f.missing("posts", m, "write posts = { wood = \"…\", size = \"2x4\", pitch = \"30 in\", screws = { … } }");
    f.finish(m);
    keys
}

fn top_rail(mut f: Fields<'_, '_>, m: &mut Mistakes) -> (Option<StickKeys>, Option<FixingKeys>) {
    let mut stick = stick(&mut f, m);
    let screws = f.table("screws", m).map(|s| fixing(s, m, Fixing::RailToPost));
    note_unread_size(&f, &mut stick);
    f.missing("wood", m, WOOD);
    f.missing("screws", m, "write screws = { screw = \"#10 x 3 in\", count = 2 }, those in each post");
    f.finish(m);
    (Some(stick), screws)
}

fn infill(mut f: Fields<'_, '_>, m: &mut Mistakes, lower: bool) -> InfillKeys {
    let mut keys = InfillKeys {
        stick: stick(&mut f, m),
        count: if lower { f.count("count", m) } else { None },
        gap: f.length("gap", m),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, WOOD);
    if lower {
        f.missing("count", m, "write count = 2, the rails below the top one");
        f.missing("gap", m, "write gap = \"2-1/2 in\", the clear gap above each of them");
    } else {
        f.missing("gap", m, "write gap = \"2-1/2 in\", the clear gap from bar to bar");
    }
    f.finish(m);
    keys
}

fn posts(mut f: Fields<'_, '_>, m: &mut Mistakes) -> GuardPostKeys {
    let mut keys = GuardPostKeys {
        stick: stick(&mut f, m),
        pitch: f.length("pitch", m),
        first: f.length("first", m),
        screws: f.table("screws", m).map(|s| fixing(s, m, Fixing::Post)),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, WOOD);
    f.missing("pitch", m, "write pitch = \"30 in\", the largest distance from post to post");
    f.missing("screws", m, "write screws = { lag = \"3/8 x 4 in\", count = 2, spacing = \"4 in\" }");
    f.finish(m);
    keys
}

fn opening(mut f: Fields<'_, '_>, m: &mut Mistakes) -> OpeningKeys {
    let keys = OpeningKeys {
        span: f.span().clone(),
        width: f.length("width", m),
        side: f.choice("side", m, &[("left", Side::Left), ("right", Side::Right)]),
        at: f.choice("at", m, &[("head", Spot::Head), ("foot", Spot::Foot), ("middle", Spot::Middle)]),
    };
    f.missing("width", m, "write width = \"15 in\", the clear way in");
    f.missing("side", m, "write side = \"left\" or \"right\", seen from the foot");
    f.missing("at", m, "write at = \"head\", \"foot\" or \"middle\"");
    f.finish(m);
    keys
}

/// What screws hold together, which decides what must be known of them.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Fixing {
    /// The guard's top rail to a post.
    RailToPost,
    /// A guard's post to the bed's rail.
    Post,
    /// A stringer's top to the bed's rail.
    Stringer,
    /// A brace's end.
    Brace,
}

pub(super) fn fixing(mut f: Fields<'_, '_>, m: &mut Mistakes, what: Fixing) -> FixingKeys {
    let post = what == Fixing::Post;
    let keys = FixingKeys {
        span: f.span().clone(),
        screw: f.text("screw", m),
        lag: f.text("lag", m),
        count: f.count("count", m),
        spacing: if post { f.length("spacing", m) } else { None },
        up: if post { f.length("up", m) } else { None },
        heads: match what {
            Fixing::Post => f.choice("heads", m, &[("post", HeadsOn::Post), ("rail", HeadsOn::Rail)]),
            Fixing::RailToPost | Fixing::Stringer | Fixing::Brace => None,
        },
    };
    if keys.lag.is_none() && !f.unread("lag", &keys.lag) {
        f.missing("screw", m, "write screw = \"#10 x 3 in\", or lag = \"3/8 x 4 in\"");
    }
    f.missing("count", m, "write count = 2");
    if post {
        f.missing("spacing", m, "write spacing = \"4 in\", from the lower screws up to the upper");
    }
    f.finish(m);
    keys
}

pub(super) fn ladder(mut f: Fields<'_, '_>, m: &mut Mistakes) -> LadderKeys {
    let keys = LadderKeys {
        span: f.span().clone(),
        side: f.choice("side", m, &EDGES),
        rungs: f.table("rungs", m).map(|r| rungs(r, m)),
        width: f.length("width", m),
        pitch: f.length("pitch", m),
        first: f.length("first", m),
        out: f.length("out", m),
        stringers: f.table("stringers", m).map(|s| stringers(s, m)),
        ends: f.table("ends", m).map(|e| rung_ends(e, m)),
        top: f.table("top", m).map(|t| fixing(t, m, Fixing::Stringer)),
    };
    for (key, help) in [
        ("side", "write side = \"left\", \"right\", \"head\" or \"foot\""),
        ("rungs", "write rungs = { wood = \"…\", size = \"2x4\" }, or pipe = \"1 in schedule 40\""),
        ("width", "write width = \"16 in\", clear between the stringers"),
        ("pitch", "write pitch = \"10 in\", from rung to rung, upright"),
        ("first", "write first = \"10 in\", from the floor to the top of the first rung"),
        ("stringers", "write stringers = { wood = \"…\", size = \"2x4\" }"),
        ("ends", "write ends = { joint = \"housed\", depth = \"3/4 in\" }"),
        ("top", "write top = { lag = \"1/4 x 3 in\", count = 2 }, those in each stringer"),
    ] {
        f.missing(key, m, help);
    }
    f.finish(m);
    keys
}

fn stringers(mut f: Fields<'_, '_>, m: &mut Mistakes) -> StickKeys {
    let mut keys = stick(&mut f, m);
    note_unread_size(&f, &mut keys);
    f.missing("wood", m, WOOD);
    f.finish(m);
    keys
}

fn rungs(mut f: Fields<'_, '_>, m: &mut Mistakes) -> RungKeys {
    let mut tread = stick(&mut f, m);
    let (diameter, pipe) = (f.length("diameter", m), f.text("pipe", m));
    note_unread_size(&f, &mut tread);
    const TREAD: [&str; 5] = ["size", "thickness", "width", "ripped", "incised"];
    if f.has("pipe") {
        let help = "a pipe is known by its size alone: take the rest out";
        f.idle(&[&TREAD[..], &["wood", "diameter"]].concat(), "`pipe`", m, help);
    } else {
        f.missing("wood", m, WOOD);
        if f.has("diameter") {
            f.idle(&TREAD, "`diameter`", m, "a round rung is known by its diameter: take the rest out");
        }
    }
    let keys = RungKeys { span: f.span().clone(), wood: tread.wood.clone(), diameter, pipe, tread };
    f.finish(m);
    keys
}

fn rung_ends(mut f: Fields<'_, '_>, m: &mut Mistakes) -> RungEndKeys {
    let joints = [("housed", RungJointWord::Housed), ("screws", RungJointWord::Screws)];
    let keys = RungEndKeys {
        span: f.span().clone(),
        joint: f.choice("joint", m, &joints),
        depth: f.length("depth", m),
        screw: f.text("screw", m),
        count: f.count("count", m),
    };
    f.missing("joint", m, "write joint = \"housed\" or \"screws\"");
    match keys.joint.as_ref().map(|j| j.value) {
        Some(RungJointWord::Housed) => {
            f.missing("depth", m, "write depth = \"3/4 in\", how far each end is let into its stringer");
            let help = "an end let into its stringer rests there: take them out";
            f.idle(&["screw", "count"], "joint = \"housed\"", m, help);
        }
        Some(RungJointWord::Screws) => {
            f.missing("screw", m, "write screw = \"#14 x 4 in\"");
            f.missing("count", m, "write count = 2, at each end");
            f.idle(&["depth"], "joint = \"screws\"", m, "take it out, or write joint = \"housed\"");
        }
        None => {}
    }
    f.finish(m);
    keys
}
