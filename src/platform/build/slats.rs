//! How many slats, how far apart, and how they bear on the cleats.

use super::Builder;
use crate::brief::{LayWord, SlatKeys};
use crate::platform::{Slats, Stick};
use crate::quantity::unit::millimetre;
use crate::quantity::{Length, fraction_of_inch};

impl Builder<'_> {
    pub(super) fn slats(
        &mut self,
        k: &SlatKeys,
        stick: Stick,
        length: Length,
        width: Length,
        cleat: &Stick,
    ) -> Option<Slats> {
        let lay = k.lay.as_ref().map_or(LayWord::Flat, |l| l.value);
        let mut s = Slats {
            stick,
            lay,
            count: 0,
            gap: Length::default(),
            fixed: k.fixed.as_ref().is_some_and(|f| f.value),
            bearing: cleat.thickness,
        };
        if k.fixed.is_none() {
            self.assumptions.push("slats are taken as not fixed down".into());
        }
        match &k.bearing {
            Some(b) if b.value > cleat.thickness || b.value <= Length::default() => {
                let t = fraction_of_inch(cleat.thickness);
                self.m.add(
                    &b.span,
                    "the `bearing` must lie on the cleat",
                    "",
                    format!("write {t}, the cleat's thickness, or less"),
                );
            }
            Some(b) => s.bearing = b.value,
            None => self.assumptions.push("slat ends bear on the whole thickness of the cleat".into()),
        }
        let (count, gap) = self.spread(k, &s, length)?;
        s.count = count;
        s.gap = gap;
        if cleat.thickness * 2.0 >= width {
            self.m.add(
                &k.stick.span,
                "the cleats leave no room between them",
                "",
                "make the platform wider than its two cleats",
            );
            return None;
        }
        Some(s)
    }

    /// Number of slats and the gap they leave.
    fn spread(&mut self, k: &SlatKeys, s: &Slats, length: Length) -> Option<(usize, Length)> {
        let b = s.breadth();
        let gap_of = |n: usize| (length - b * n as f64) / (n as f64 - 1.0);
        if let Some(g) = &k.gap
            && (g.value < Length::default() || g.value > length)
        {
            let help = "write something like gap = \"2-1/2 in\"";
            self.m.add(&g.span, "this `gap` is longer than the platform", "", help);
            return None;
        }
        let (count, span) = match (&k.count, &k.gap) {
            (Some(c), _) => (c.value, &c.span),
            (None, Some(g)) => {
                let n = ((length + g.value).value / (b + g.value).value - 1e-9).ceil().max(2.0) as usize;
                (n, &g.span)
            }
            (None, None) => return None,
        };
        if count < 2 {
            self.m.add(span, "one slat is not a platform", "", "write at least count = 2");
            return None;
        }
        let gap = gap_of(count);
        if count > 200 {
            self.m.add(
                span,
                format!("{count} slats are more than can be checked"),
                "",
                "200 at most, by wider slats or gaps",
            );
            return None;
        }
        if gap < Length::default() {
            let fit = (length.value / b.value + 1e-9).floor();
            self.m.add(
                span,
                format!("{count} slats of {} do not fit in {}", fraction_of_inch(b), fraction_of_inch(length)),
                "",
                format!("at most {fit} fit edge to edge"),
            );
            return None;
        }
        if let (Some(_), Some(g)) = (&k.count, &k.gap)
            && gap > g.value + millimetre(2.0)
        {
            self.m.add(
                &g.span,
                format!("{count} slats leave gaps of {}, not this", fraction_of_inch(gap)),
                "",
                "leave out `count` or `gap`, or make them agree",
            );
        }
        Some((count, gap))
    }
}
