//! Wood screws, lag screws and bolts: dimensions and bending yield strength.

mod bolt;
mod declared;
mod error;
mod size;

pub use bolt::{Bolt, BoltSize, Washer};
pub use declared::{Declared, DeclaredStrength};
pub use error::FastenerError;
pub use size::{LagThread, ScrewKind, ScrewSize};

use super::Table;
use super::entry::Entry;
use super::names::{Missing, NotFound, nearest};
use super::row::Rows;
use crate::quantity::{Length, Stress, length as read_length};
use crate::source::Provenance;

/// A screw of a size and length.
#[derive(Clone, Debug, PartialEq)]
pub struct Screw {
    /// Size and length, such as `#8 x 2 in`.
    pub designation: String,
    /// Wood screw or lag screw.
    pub kind: ScrewKind,
    /// `D`: diameter of the shank.
    pub diameter: Length,
    /// `Dr`: diameter under the thread.
    pub root: Length,
    /// Length under the head.
    pub length: Length,
    /// Length of thread, tip included.
    pub thread: Length,
    /// `E`: length of the tapered tip, where the standard gives it.
    pub tip: Option<Length>,
    /// `Fyb`: bending yield strength.
    pub bending_yield: Stress,
    /// What its maker declares of it.
    pub declared: Box<Declared>,
    /// Where its size comes from.
    pub provenance: Provenance,
}

/// Screws and bolts: NDS 2018 Appendix L, and metric sizes.
#[derive(Clone, Debug, Default)]
pub struct Fasteners {
    sizes: Vec<ScrewSize>,
    lag_threads: Vec<LagThread>,
    bolts: Vec<BoltSize>,
}

impl Fasteners {
    /// Every size.
    pub fn sizes(&self) -> &[ScrewSize] {
        &self.sizes
    }

    /// Lag thread lengths by screw length, shortest first.
    pub fn lag_threads(&self) -> &[LagThread] {
        &self.lag_threads
    }

    /// A wood screw such as `#8 x 2 in` or `5 x 60 mm`.
    ///
    /// # Errors
    ///
    /// [`FastenerError`]: unknown size, no length, a length that cannot be read, or one no screw has
    /// (outside 3 to 60 diameters; a choice, no source).
    pub fn screw(&self, text: &str) -> Result<Screw, FastenerError> {
        self.find(text, ScrewKind::Wood)
    }

    /// A lag screw such as `1/4 x 5 in`.
    ///
    /// # Errors
    ///
    /// As [`screw`](Self::screw).
    pub fn lag(&self, text: &str) -> Result<Screw, FastenerError> {
        self.find(text, ScrewKind::Lag)
    }

    fn find(&self, text: &str, kind: ScrewKind) -> Result<Screw, FastenerError> {
        let (size, length) = cut(text);
        let metric = length.is_some_and(|l| l.ends_with("mm"));
        let row = self.size(size, metric, kind)?;
        let Some(length) = length else {
            let example = match kind {
                ScrewKind::Wood if row.name.ends_with("mm") => {
                    format!("\"{} x 60 mm\"", row.name.trim_end_matches(" mm"))
                }
                ScrewKind::Wood => format!("\"{} x 2 in\"", row.name),
                ScrewKind::Lag => format!("\"{} x 4 in\"", row.name.trim_end_matches(" in")),
            };
            return Err(FastenerError::MissingLength { size: row.name.clone(), example });
        };
        let under_head = read_length(length).map_err(FastenerError::Length)?;
        let (shortest, longest) = (row.diameter * 3.0, row.diameter * 60.0);
        if under_head < shortest || under_head > longest {
            return Err(FastenerError::Absurd { asked: format!("{} x {length}", row.name), shortest, longest });
        }
        Ok(Screw {
            designation: format!("{} x {length}", row.name.trim_end_matches(if metric { " mm" } else { " in" })),
            kind,
            diameter: row.diameter,
            root: row.root,
            length: under_head,
            thread: self.thread(row, under_head),
            tip: row.tip,
            bending_yield: row.bending_yield,
            declared: Box::new(row.declared),
            provenance: row.provenance.clone(),
        })
    }

    fn size(&self, size: &str, metric: bool, kind: ScrewKind) -> Result<&ScrewSize, FastenerError> {
        let plain = spelling(size);
        let bare = size.starts_with(|c: char| c.is_ascii_digit() || c == 'M' || c == 'm');
        let in_millimetres = (metric && bare && !plain.ends_with("mm")).then(|| format!("{plain}mm"));
        let candidates = in_millimetres.into_iter().chain([plain]);
        let of_kind = || self.sizes.iter().filter(|r| r.kind == kind);
        candidates.into_iter().find_map(|c| of_kind().find(|r| spelling(&r.name) == c)).ok_or_else(|| {
            let names = || of_kind().map(|r| r.name.as_str());
            let mut near = if metric { nearest(&format!("{size} mm"), names()) } else { nearest(size, names()) };
            if near.is_empty() {
                near = self.nearest_number(size, kind);
            }
            let missing = Missing::Name(kind.name());
            FastenerError::UnknownSize(NotFound { asked: size.to_owned(), missing, nearest: near })
        })
    }

    /// For a gauge or diameter that is only a number, the neighbours in the same numbering.
    fn nearest_number(&self, size: &str, kind: ScrewKind) -> Vec<String> {
        let digits = |t: &str| t.trim_matches(|c: char| !c.is_ascii_digit()).parse::<f64>().ok();
        let Some(asked) = digits(size) else {
            return Vec::new();
        };
        let gauges = self.sizes.iter().filter(|r| r.kind == kind && r.name.starts_with('#'));
        let mut ranked: Vec<(f64, &str)> =
            gauges.filter_map(|r| digits(&r.name).map(|n| ((n - asked).abs(), r.name.as_str()))).collect();
        ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
        ranked.into_iter().take(2).map(|(_, n)| n.to_owned()).collect()
    }

    /// Between two lengths of the lag table the thread is interpolated, which agrees with the rule of
    /// half the length plus 1/2 in; above the table it stays at its longest.
    fn thread(&self, row: &ScrewSize, length: Length) -> Length {
        if let Some((part, whole)) = row.thread_of_length {
            return length * f64::from(part) / f64::from(whole);
        }
        let after = self.lag_threads.iter().position(|t| t.length >= length);
        match after.and_then(|i| self.lag_threads.get(i.wrapping_sub(1)).zip(self.lag_threads.get(i))) {
            Some((low, high)) => {
                low.thread + (high.thread - low.thread) * ((length - low.length) / (high.length - low.length)).value
            }
            None => {
                let end = if after == Some(0) { self.lag_threads.first() } else { self.lag_threads.last() };
                end.map_or(length, |t| if t.thread < length { t.thread } else { length })
            }
        }
    }

    /// A screw with its length, for a listing.
    pub(super) fn entry_of(&self, text: &str) -> Option<Entry> {
        let screw = self.screw(text).or_else(|_| self.lag(text)).ok()?;
        Some(with_declared(
            Entry::new("fasteners", &screw.designation, &screw.provenance)
                .text("kind", screw.kind.name())
                .fact("D", screw.diameter)
                .fact("Dr", screw.root)
                .fact("length", screw.length)
                .fact("thread", screw.thread)
                .maybe("tip E", screw.tip)
                .fact("Fyb", screw.bending_yield),
            &screw.declared,
        ))
    }
}

/// Size and length of a fastener, as typed.
fn cut(text: &str) -> (&str, Option<&str>) {
    let text = text.trim();
    let cut = text.rsplit_once(['x', 'X', '×']).or_else(|| text.rsplit_once(" by "));
    cut.map_or((text, None), |(size, length)| (size.trim(), Some(length.trim())))
}

/// What is declared of a screw, for a listing.
fn with_declared(entry: Entry, d: &Declared) -> Entry {
    entry
        .maybe("declared withdrawal, fax,k", d.withdrawal.map(|w| w.strength))
        .maybe("  at a density of", d.withdrawal.map(|w| w.density))
        .maybe("declared pull-through, fhead,k", d.head.map(|(h, _)| h.strength))
        .maybe("  at a density of", d.head.map(|(h, _)| h.density))
        .maybe("  of a head across", d.head.map(|(_, across)| across))
        .maybe("declared tension, ftens,k", d.tension)
        .maybe("declared yield moment, My,k", d.yield_moment)
}

/// `#8`, `No. 8` and `8` are one spelling; so are `1/4 in`, `1/4"` and `1/4`; so are `5.0 mm`, `M5 mm` and `5mm`.
fn spelling(size: &str) -> String {
    let lower = size.to_lowercase();
    let kept: String = lower.chars().filter(|c| c.is_alphanumeric() || ['/', '.'].contains(c)).collect();
    let is_digit = |c: char| c.is_ascii_digit();
    let mut rest = kept.as_str();
    for prefix in ["number", "no.", "no", "m"] {
        if let Some(r) = rest.strip_prefix(prefix).filter(|r| r.starts_with(is_digit)) {
            rest = r;
            break;
        }
    }
    let (rest, unit) = match rest.strip_suffix("mm") {
        Some(r) => (r, "mm"),
        None => (["inch", "in", "gauge", "ga"].iter().find_map(|s| rest.strip_suffix(s)).unwrap_or(rest), ""),
    };
    let whole = rest.strip_suffix(".0").unwrap_or(rest);
    format!("{whole}{unit}")
}

impl Table for Fasteners {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/fasteners.packed"));
    const ARRAYS: &'static [&'static str] = &["screw", "lag_thread", "bolt"];

    fn add(&mut self, from: &mut impl Rows) {
        from.add_to(&mut self.sizes);
        from.add_to(&mut self.lag_threads);
        from.add_to(&mut self.bolts);
        self.lag_threads.sort_by(|a, b| a.length.value.total_cmp(&b.length.value));
    }

    fn entries(&self) -> Vec<Entry> {
        let entry = |r: &ScrewSize| {
            let entry = Entry::new("fasteners", &r.name, &r.provenance)
                .also(&[format!("{} {}", r.name, r.kind.name())])
                .text("kind", r.kind.name())
                .fact("D", r.diameter)
                .fact("Dr", r.root)
                .maybe("tip E", r.tip)
                .fact("Fyb", r.bending_yield);
            let entry = with_declared(entry, &r.declared);
            match r.thread_of_length {
                Some((part, whole)) => entry.text("thread", format!("{part}/{whole} of the length")),
                None => entry.text("thread", "half the length and 1/2 in, at most 6 in"),
            }
        };
        self.sizes.iter().map(entry).chain(self.bolts.iter().map(bolt::entry)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit::{inch, millimetre};

    #[test]
    fn spellings_of_a_size_agree() {
        for same in ["#8", "No. 8", "no.8", "8", "Number 8", "8 gauge"] {
            assert_eq!(spelling(same), "8", "{same}");
        }
        for same in ["1/4 in", "1/4\"", "1/4", "1/4 inch"] {
            assert_eq!(spelling(same), "1/4", "{same}");
        }
        for same in ["5 mm", "5.0mm", "M5 mm"] {
            assert_eq!(spelling(same), "5mm", "{same}");
        }
    }

    #[test]
    fn a_gauge_with_a_metric_length_stays_a_gauge() {
        let table = Fasteners::embedded();
        assert_eq!(table.screw("#8 x 50 mm").unwrap().diameter, inch(0.164));
        assert_eq!(table.screw("8 x 50 mm").unwrap().diameter, millimetre(8.0));
        assert_eq!(table.screw("8 x 2 in").unwrap().diameter, inch(0.164));
    }
}
