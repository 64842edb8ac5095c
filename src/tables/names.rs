//! How a name is recognised: case, punctuation, hyphens and the join between letters and digits do not
//! matter, so `SPF #2`, `spf no.2` and `Spf-No2` are one name.

use std::fmt;

/// The words of a name, lower case. Letters and digits part, `#` reads as `no`, `&` as nothing.
pub(crate) fn words(text: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    let mut last = Kind::Gap;
    for c in text.chars() {
        let kind = match c {
            '#' => Kind::Gap,
            _ if c.is_ascii_digit() => Kind::Digit,
            _ if c.is_alphanumeric() => Kind::Letter,
            _ => Kind::Gap,
        };
        if c == '#' {
            out.push("no".into());
        }
        match (kind, out.last_mut()) {
            (Kind::Gap, _) => {}
            (_, Some(word)) if kind == last => word.extend(c.to_lowercase()),
            _ => out.push(c.to_lowercase().collect()),
        }
        last = kind;
    }
    out
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Gap,
    Letter,
    Digit,
}

/// The words run together: what two spellings of one name share.
pub(crate) fn joined(text: &str) -> String {
    words(text).concat()
}

/// The words joined by hyphens, for a key that can be typed.
pub(crate) fn hyphened(text: &str) -> String {
    words(text).join("-")
}

/// The words as a set: the same for `maple, sugar` and `sugar maple`.
pub(crate) fn set(mut words: Vec<String>) -> Vec<String> {
    words.sort_unstable();
    words.dedup();
    words
}

/// Up to three names most like the asked one, best first.
pub(crate) fn nearest<'a>(asked: &str, names: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    nearest_spelled(asked, names.into_iter().map(|n| (n, n)))
}

/// Up to three names of which some spelling is most like the asked one, best first.
pub(crate) fn nearest_spelled<'a>(asked: &str, spelled: impl IntoIterator<Item = (&'a str, &'a str)>) -> Vec<String> {
    let likeness = |(spelling, name)| (likeness(asked, spelling), name);
    let mut ranked: Vec<((f64, f64), &str)> = spelled.into_iter().map(likeness).filter(|r| r.0.0 > NEAR).collect();
    ranked.sort_by(|(a, _), (b, _)| b.0.total_cmp(&a.0).then(b.1.total_cmp(&a.1)));
    let mut out: Vec<String> = Vec::new();
    for (_, name) in ranked {
        if !out.iter().any(|n| n == name) && out.len() < 3 {
            out.push(name.to_owned());
        }
    }
    out
}

/// Below this likeness a name was not meant: of three letters one may be wrong. A choice, no source.
const NEAR: f64 = 0.66;

/// How alike two words are. A short one begins with the letter that was meant: `mdf` is no `df`.
fn alike(asked: &str, word: &str) -> f64 {
    if asked.chars().count() <= 3 && asked.chars().next() != word.chars().next() {
        return 0.0;
    }
    strsim::normalized_damerau_levenshtein(asked, word)
}

/// How alike two names are, from 0 to 1, by the letters to be changed, left out, added or swapped: word by word
/// or run together, whichever is more; and, to part equals, run together.
fn likeness(asked: &str, name: &str) -> (f64, f64) {
    let (own, others) = (words(asked), words(name));
    let letters = |w: &String| w.chars().count() as f64;
    let best = |w: &String| others.iter().map(|o| alike(w, o)).fold(0.0, f64::max);
    let total: f64 = own.iter().map(letters).sum();
    if total == 0.0 {
        return (0.0, 0.0);
    }
    let by_word = own.iter().map(|w| best(w) * letters(w)).sum::<f64>() / total;
    let whole = alike(&own.concat(), &others.concat());
    (by_word.max(whole), whole)
}

/// A name that no table has, or not for this size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotFound {
    /// The name as asked for.
    pub asked: String,
    /// Which part of it is unknown.
    pub missing: Missing,
    /// Names that do exist, likest first.
    pub nearest: Vec<String>,
}

/// Words for what comes in sheets.
const SHEETS: [&str; 7] = ["plywood", "osb", "mdf", "chipboard", "particleboard", "hardboard", "blockboard"];

/// Which part of a name is unknown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Missing {
    /// The whole name; what it should have been, such as `stock size`.
    Name(&'static str),
    /// The name fits several rows, which are the nearest names.
    Choice(&'static str),
    /// The species of graded lumber.
    Species,
    /// The grade; the species is known.
    Grade {
        /// The species.
        species: String,
    },
    /// Species and grade are known, but have no row for this size.
    Size {
        /// Species and grade.
        name: String,
        /// The nominal size asked for.
        size: String,
        /// The sizes there are.
        sizes: Vec<String>,
    },
}

impl fmt::Display for NotFound {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let asked = &self.asked;
        match &self.missing {
            Missing::Name(what) => write!(f, "there is no {what} `{asked}`"),
            Missing::Choice(what) => write!(f, "`{asked}` fits more than one {what}"),
            Missing::Species => write!(f, "there is no species of graded lumber in `{asked}`"),
            Missing::Grade { species } if asked.is_empty() => write!(f, "{species} needs its grade too"),
            Missing::Grade { species } => write!(f, "{species} has no grade `{asked}`"),
            Missing::Size { name, size, .. } => {
                write!(f, "{name} has no design values for a nominal {size}")
            }
        }
    }
}

impl std::error::Error for NotFound {}

impl NotFound {
    /// What would be right.
    pub fn help(&self) -> String {
        if let Missing::Size { sizes, .. } = &self.missing {
            return format!("there are values for {}", sizes.join("; "));
        }
        if words(&self.asked).iter().any(|word| SHEETS.contains(&word.as_str())) {
            return "no table here has the strength of sheets: describe slats of lumber, and add the weight of a sheet \
                    that lies on them to the mattress's"
                .into();
        }
        match self.nearest.as_slice() {
            [] => "list what there is with `slatwright timber`".into(),
            [one] => format!("did you mean `{one}`?"),
            [most @ .., last] => {
                let most: Vec<String> = most.iter().map(|n| format!("`{n}`")).collect();
                let names = format!("{} or `{last}`", most.join(", "));
                // Three near names are a guess at what was meant; more are all there is.
                if most.len() < 3 { format!("did you mean {names}?") } else { format!("write {names}") }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_of_one_name_agree() {
        assert_eq!(words("SPF #2"), ["spf", "no", "2"]);
        assert_eq!(joined("Spruce-Pine-Fir No.2"), joined("spruce pine fir NO2"));
        assert_eq!(set(words("Maple, sugar")), set(words("sugar maple")));
        assert_eq!(words(""), Vec::<String>::new());
    }

    #[test]
    fn near_names_are_offered() {
        let names = ["walnut, black", "yellow-poplar", "hackberry"];
        assert_eq!(nearest("yelow poplar", names), ["yellow-poplar"]);
        assert_eq!(nearest("black wallnut", names), ["walnut, black"]);
        assert_eq!(nearest("yellowpoplar", names), ["yellow-poplar"]);
        for far in ["", "unobtainium", "plywood", "mdf", "steel"] {
            assert!(nearest(far, names).is_empty(), "{far}");
        }
    }

    #[test]
    fn a_spelling_stands_for_its_name() {
        let spelled =
            [("SPF", "Spruce-Pine-Fir"), ("Spruce-Pine-Fir", "Spruce-Pine-Fir"), ("DF-L", "Douglas Fir-Larch")];
        assert_eq!(nearest_spelled("spurce-pine-fir", spelled), ["Spruce-Pine-Fir"]);
        assert_eq!(nearest_spelled("dfll", spelled), ["Douglas Fir-Larch"]);
    }
}
