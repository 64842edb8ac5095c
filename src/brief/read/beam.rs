//! `[centre_beam]` and the legs under it.

use super::posts::TOPS;
use super::stick::{note_unread_size, stick};
use super::support::ends;
use crate::brief::fields::Fields;
use crate::brief::keys::{BeamKeys, LegKeys};
use crate::brief::mistake::Mistakes;

const WOOD: &str = "write wood = \"douglas fir-larch no2\"; `slatwright timber` lists woods";

pub(super) fn centre_beam(mut f: Fields<'_, '_>, m: &mut Mistakes) -> BeamKeys {
    let mut keys = BeamKeys {
        stick: stick(&mut f, m),
        at: f.length("at", m),
        ends: f.table("ends", m).map(|e| ends(e, m)),
        legs: f.table("legs", m).map(|l| legs(l, m)),
        fixed: f.flag("fixed", m),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, WOOD);
    f.missing("ends", m, "write ends = { joint = \"bearing\", bearing = \"1-1/2 in\" }, or as for [rails]");
    f.finish(m);
    keys
}

fn legs(mut f: Fields<'_, '_>, m: &mut Mistakes) -> LegKeys {
    let mut keys = LegKeys {
        stick: stick(&mut f, m),
        count: f.count("count", m),
        at: f.lengths("at", m),
        length: f.length("length", m),
        top: f.choice("top", m, &TOPS),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, WOOD);
    if f.has("count") {
        let help = "write count = 1 for legs evenly spaced, or at = [\"40 in\"] for each one's place";
        f.idle(&["at"], "`count`", m, help);
    } else if keys.at.is_none() && !f.unread("at", &keys.at) {
        f.missing("count", m, "write count = 1, or at = [\"40 in\"], from the head to each leg");
    }
    f.finish(m);
    keys
}
