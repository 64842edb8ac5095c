//! The cleat on each rail and its row of screws.

use super::Builder;
use crate::brief::{CleatKeys, ScrewRowKeys, Side};
use crate::platform::{LongSide, Rail, ScrewRow, Stick};
use crate::quantity::unit::inch;
use crate::quantity::{Length, fraction_of_inch};
use crate::tables::fasteners::Screw;

impl Builder<'_> {
    pub(super) fn side(
        &mut self,
        side: Side,
        k: &CleatKeys,
        cleat: &Stick,
        screw: &Screw,
        rail: Rail,
        length: Length,
    ) -> Option<LongSide> {
        let keys = k.screws.as_ref()?;
        let row = self.row(keys, cleat, screw, length)?;
        let spare = rail.stick.width - cleat.width;
        let rise = match &k.rise {
            Some(r) if r.value < Length::default() || r.value > spare => {
                let help = format!("write something from 0 in to {}", fraction_of_inch(spare));
                self.m.add(&r.span, "the cleat must lie on the face of the rail", "", help);
                return None;
            }
            Some(r) => r.value,
            None if spare < Length::default() => {
                self.m.add(
                    &k.stick.span,
                    "the cleat is deeper than the rail",
                    "",
                    "use a deeper rail or a smaller cleat",
                );
                return None;
            }
            None => {
                if side == Side::Left {
                    self.assume("cleats are set half-way up the rail".into());
                }
                spare / 2.0
            }
        };
        let typed = keys.screw.as_ref().or(keys.lag.as_ref()).map_or(&keys.span, |s| &s.span);
        self.reaches(screw, typed, cleat.thickness, "cleat")?;
        Some(LongSide { side, cleat: cleat.clone(), rise, screws: row, rail })
    }

    fn row(&mut self, k: &ScrewRowKeys, cleat: &Stick, screw: &Screw, length: Length) -> Option<ScrewRow> {
        let pitch = k.pitch.as_ref()?;
        if pitch.value < inch(1.0) || pitch.value > length {
            let help = format!("write something from 1 in to {}, the cleat's length", fraction_of_inch(length));
            self.m.add(&pitch.span, "this `pitch` does not fit the cleat", "", help);
            return None;
        }
        let first = k.first.as_ref().map_or(inch(2.0), |f| f.value);
        if k.first.is_none() {
            self.assume("the first cleat screw is 2 in from each end".into());
        }
        if let Some(f) = &k.first
            && (f.value <= Length::default() || f.value * 2.0 >= length)
        {
            self.m.add(
                &f.span,
                "this `first` is not on the first half of the cleat",
                "",
                "write something like first = \"2 in\"",
            );
            return None;
        }
        let up = k.up.as_ref().map_or(cleat.width / 2.0, |u| u.value);
        if let Some(u) = &k.up
            && (u.value <= Length::default() || u.value >= cleat.width)
        {
            let help = format!("write something between 0 in and {}", fraction_of_inch(cleat.width));
            self.m.add(&u.span, "this `up` does not lie on the cleat", "", help);
            return None;
        }
        Some(ScrewRow::over(length, screw.clone(), pitch.value, first, up))
    }
}
