//! `[posts]`.

use super::stick::{note_unread_size, stick};
use crate::brief::fields::Fields;
use crate::brief::keys::{PostKeys, TopWord};
use crate::brief::mistake::Mistakes;

pub(super) fn posts(mut f: Fields<'_, '_>, m: &mut Mistakes) -> PostKeys {
    let mut keys = PostKeys {
        stick: stick(&mut f, m),
        length: f.length("length", m),
        top: f.choice("top", m, &[("free", TopWord::Free), ("braced", TopWord::Braced), ("wall", TopWord::Wall)]),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, "write wood = \"douglas fir-larch no2\"; `slatwright timber` lists woods");
    f.finish(m);
    keys
}
