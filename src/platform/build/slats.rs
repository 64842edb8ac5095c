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
            self.assume("slats are taken as not fixed down".into());
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
            None => self.assume("slat ends bear on the whole thickness of the cleat".into()),
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
        let gap = gap_between(count, b, length);
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
            let (message, help) = no_room(k, count, b, length);
            self.m.add(span, message, "", help);
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

/// The gap between slats of this breadth, the first and the last flush with the ends; negative when they overlap.
fn gap_between(count: usize, breadth: Length, length: Length) -> Length {
    (length - breadth * count as f64) / (count as f64 - 1.0)
}

/// A gap with its millimetres: sixteenths are too coarse to tell one count from the next.
fn fine(gap: Length) -> String {
    format!("{} ({:.1} mm)", fraction_of_inch(gap), gap.value * 1e3)
}

/// Why so many slats are not possible, and what is.
fn no_room(k: &SlatKeys, count: usize, breadth: Length, length: Length) -> (String, String) {
    let fit = (length.value / breadth.value + 1e-9).floor() as usize;
    let (of, within) = (fraction_of_inch(breadth), fraction_of_inch(length));
    match &k.gap {
        Some(g) if k.count.is_none() && fit >= 2 => {
            let gaps = |n: usize| format!("count = {n} for gaps of {}", fine(gap_between(n, breadth, length)));
            let fewer = if fit > 2 { format!(", or {}", gaps(fit - 1)) } else { String::new() };
            let message = format!("whole slats of {of} cannot leave gaps as small as {}", fine(g.value));
            (message, format!("write {}{fewer}", gaps(fit)))
        }
        _ => (format!("{count} slats of {of} do not fit in {within}"), format!("at most {fit} fit edge to edge")),
    }
}
