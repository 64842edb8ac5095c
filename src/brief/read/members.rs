//! `[slats]`, `[cleats]` and `[rails]`.

use super::stick::{note_unread_size, stick};
use super::support::{declared, ends, studs};
use crate::brief::fields::Fields;
use crate::brief::keys::{CleatKeys, LayWord, RailKeys, ScrewRowKeys, SlatKeys};
use crate::brief::mistake::Mistakes;

pub(super) fn slats(mut f: Fields<'_, '_>, m: &mut Mistakes) -> SlatKeys {
    let mut keys = SlatKeys {
        stick: stick(&mut f, m),
        lay: f.choice("lay", m, &[("flat", LayWord::Flat), ("edge", LayWord::Edge)]),
        count: f.count("count", m),
        gap: f.length("gap", m),
        fixed: f.flag("fixed", m),
        bearing: f.length("bearing", m),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, "write wood = \"spruce-pine-fir no2\"; `slatwright timber` lists woods");
    if !f.unread("gap", &keys.gap) && keys.gap.is_none() {
        f.missing("count", m, "write count = 14, or gap = \"2-1/2 in\"");
    }
    f.finish(m);
    keys
}

pub(super) fn cleats(mut f: Fields<'_, '_>, m: &mut Mistakes) -> CleatKeys {
    let mut keys = CleatKeys {
        stick: stick(&mut f, m),
        rise: f.length("rise", m),
        screws: f.table("screws", m).map(|s| screw_row(s, m)),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, "write wood = \"spruce-pine-fir no2\"; `slatwright timber` lists woods");
    f.missing("screws", m, "write screws = { screw = \"#10 x 3 in\", pitch = \"8 in\", first = \"3 in\" }");
    f.finish(m);
    keys
}

fn screw_row(mut f: Fields<'_, '_>, m: &mut Mistakes) -> ScrewRowKeys {
    let keys = ScrewRowKeys {
        span: f.span().clone(),
        screw: f.text("screw", m),
        lag: f.text("lag", m),
        pitch: f.length("pitch", m),
        first: f.length("first", m),
        up: f.length("up", m),
        declared: f.table("declared", m).map(|d| declared(d, m)),
    };
    if keys.lag.is_none() && !f.unread("lag", &keys.lag) {
        f.missing("screw", m, "write screw = \"#10 x 3 in\", or lag = \"1/4 x 3 in\"");
    }
    f.missing("pitch", m, "write pitch = \"8 in\", from screw to screw");
    f.finish(m);
    keys
}

pub(super) fn rails(mut f: Fields<'_, '_>, m: &mut Mistakes, base: bool) -> RailKeys {
    let mut stick = stick(&mut f, m);
    let ends = f.table("ends", m).map(|e| ends(e, m));
    let studs = f.table("studs", m).map(|s| studs(s, m));
    let (mut left, mut right) = (None, None);
    if base {
        left = f.table("left", m).map(|t| Box::new(rails(t, m, false)));
        right = f.table("right", m).map(|t| Box::new(rails(t, m, false)));
        f.missing("wood", m, "write wood = \"spruce-pine-fir no2\"; `slatwright timber` lists woods");
        let held = |side: &Option<Box<RailKeys>>| side.as_ref().is_some_and(|s| s.ends.is_some() || s.studs.is_some());
        if !(held(&left) && held(&right)) && studs.is_none() && !f.unread("studs", &studs) {
            f.missing(
                "ends",
                m,
                "write ends = { joint = \"screws\", screw = \"#14 x 3 in\", count = 3, into = \"side grain\" }, \
                 or studs = { … } for a rail on a wall",
            );
        }
    }
    note_unread_size(&f, &mut stick);
    f.finish(m);
    RailKeys { stick, ends, studs, left, right }
}
