//! Finds the fractions in a text, so that each face can set them as fractions.

/// A stretch of text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Run<'t> {
    /// As it stands.
    Plain(&'t str),
    /// Between whole inches and the fraction: too narrow to see, but there, or 3 1/2 is copied as 31/2.
    Joint,
    /// Above the bar.
    Top(&'t str),
    /// The bar.
    Bar,
    /// Below the bar.
    Bottom(&'t str),
}

/// A text in runs. A fraction is digits over a power of two up to 64, as tapes and drill bits are marked,
/// alone or joined by a hyphen to the inches before it; the hyphen goes.
pub(super) fn runs(text: &str) -> Vec<Run<'_>> {
    let mut out = Vec::new();
    let mut rest = text;
    let mut searched = 0;
    while let Some(bar) = rest[searched..].find('/').map(|i| i + searched) {
        let digits = |s: &str| s.bytes().take_while(u8::is_ascii_digit).count();
        let top = rest[..bar].bytes().rev().take_while(u8::is_ascii_digit).count();
        let bottom = digits(&rest[bar + 1..]);
        let (start, end) = (bar - top, bar + 1 + bottom);
        let divides = matches!(&rest[bar + 1..end], "2" | "4" | "8" | "16" | "32" | "64");
        let before = rest[..start].chars().next_back();
        let after = rest[end..].chars().next();
        let alone = !before.is_some_and(|c| c.is_alphanumeric() || ".,/·".contains(c))
            && !after.is_some_and(|c| c.is_alphanumeric() || ".,/".contains(c));
        if top == 0 || top > 2 || !divides || !alone {
            searched = bar + 1;
            continue;
        }
        let joined = before == Some('-') && rest[..start - 1].ends_with(|c: char| c.is_ascii_digit());
        let plain = &rest[..if joined { start - 1 } else { start }];
        if !plain.is_empty() {
            out.push(Run::Plain(plain));
        }
        if joined {
            out.push(Run::Joint);
        }
        out.extend([Run::Top(&rest[start..bar]), Run::Bar, Run::Bottom(&rest[bar + 1..end])]);
        rest = &rest[end..];
        searched = 0;
    }
    if !rest.is_empty() {
        out.push(Run::Plain(rest));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::Run::*;
    use super::runs;

    #[test]
    fn inches_and_gauges_have_fractions() {
        let got = runs("3/4 x 3-1/2 in");
        let want = [Top("3"), Bar, Bottom("4"), Plain(" x 3"), Joint, Top("1"), Bar, Bottom("2"), Plain(" in")];
        assert_eq!(got, want);
    }

    #[test]
    fn other_slashes_are_left() {
        for text in ["L / 360", "L/360", "N/mm²", "lb/in", "2018/04/16", "k1/2", "1/3", "a/b", "25/07", "1/2.5", ""] {
            let whole: Vec<_> = if text.is_empty() { vec![] } else { vec![Plain(text)] };
            assert_eq!(runs(text), whole, "{text}");
        }
    }
}
