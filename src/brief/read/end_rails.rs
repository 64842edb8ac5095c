//! `[end_rails]`.

use super::stick::{note_unread_size, stick};
use super::support::ends;
use crate::brief::fields::Fields;
use crate::brief::keys::EndRailKeys;
use crate::brief::mistake::Mistakes;

pub(super) fn end_rails(mut f: Fields<'_, '_>, m: &mut Mistakes) -> EndRailKeys {
    let mut keys = EndRailKeys {
        stick: stick(&mut f, m),
        ends: f.table("ends", m).map(|e| ends(e, m)),
        inset: f.length("inset", m),
        rise: f.length("rise", m),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, "write wood = \"douglas fir-larch no2\"; `slatwright timber` lists woods");
    f.missing("ends", m, "write ends = { joint = \"bearing\", bearing = \"3-1/2 in\" }, or as for [rails]");
    f.finish(m);
    keys
}
