//! Screw sizes and lag threads as rows of the table.

use serde::Deserialize;

use super::declared::{Declared, PrintedDeclared};
use crate::quantity::{Length, Stress, fraction_of_inch};
use crate::source::Provenance;
use crate::tables::row::{Row, Units, Wrong};

/// The two kinds of screw the NDS has rules for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum ScrewKind {
    /// Wood screw, driven.
    Wood,
    /// Lag screw, turned into a pilot hole with a wrench.
    Lag,
}

impl ScrewKind {
    pub(super) fn name(self) -> &'static str {
        match self {
            ScrewKind::Wood => "wood screw",
            ScrewKind::Lag => "lag screw",
        }
    }
}

/// One screw size, of any length.
#[derive(Clone, Debug, PartialEq)]
pub struct ScrewSize {
    /// `#8`, `1/4 in`, `5 mm`.
    pub name: String,
    /// Wood screw or lag screw.
    pub kind: ScrewKind,
    /// `D`: diameter of the shank.
    pub diameter: Length,
    /// `Dr`: diameter under the thread.
    pub root: Length,
    /// `E`: length of the tapered tip, where the standard gives it.
    pub tip: Option<Length>,
    /// `Fyb`: bending yield strength.
    pub bending_yield: Stress,
    /// Threaded part of the length (numerator, denominator); lag screws have a table instead.
    pub thread_of_length: Option<(u8, u8)>,
    /// What its maker declares of it.
    pub declared: Declared,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedScrew {
    name: String,
    kind: ScrewKind,
    diameter: f64,
    root: f64,
    tip: Option<f64>,
    bending_yield: f64,
    thread_of_length: Option<(u8, u8)>,
    declared: Option<PrintedDeclared>,
}

impl Row for ScrewSize {
    const ARRAY: &'static str = "screw";
    type Printed = PrintedScrew;

    fn new(p: PrintedScrew, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        if p.root >= p.diameter {
            return Err(Wrong::new(
                "root is not below diameter",
                "root is the diameter under the thread, about 0.65 to 0.8 D",
            ));
        }
        match (p.kind, p.thread_of_length) {
            (ScrewKind::Wood, Some((part, whole))) if part > 0 && part <= whole => {}
            (ScrewKind::Lag, None) => {}
            (ScrewKind::Wood, _) => {
                let help = "for a thread on two thirds of the length write thread_of_length = [2, 3]";
                return Err(Wrong::new("a wood screw needs its thread as a part of its length", help));
            }
            (ScrewKind::Lag, Some(_)) => {
                let help = "take thread_of_length out, or make the screw kind = \"wood\"";
                return Err(Wrong::new("the thread of lag screws is in [[lag_thread]]", help));
            }
        }
        Ok(ScrewSize {
            name: p.name,
            kind: p.kind,
            diameter: units.length("diameter", p.diameter, (0.05, 1.5))?,
            root: units.length("root", p.root, (0.03, 1.4))?,
            tip: p.tip.map(|t| units.length("tip", t, (0.05, 2.0))).transpose()?,
            bending_yield: units.stress("bending_yield", p.bending_yield, (30_000.0, 250_000.0))?,
            thread_of_length: p.thread_of_length,
            declared: p.declared.map(PrintedDeclared::checked).transpose()?.unwrap_or_default(),
            provenance,
        })
    }

    fn key(&self) -> String {
        self.name.clone()
    }
}

/// Thread of a lag screw of one length, any diameter.
#[derive(Clone, Debug, PartialEq)]
pub struct LagThread {
    /// Length under the head.
    pub length: Length,
    /// Length of thread, tip included.
    pub thread: Length,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedThread {
    length: f64,
    thread: f64,
}

impl Row for LagThread {
    const ARRAY: &'static str = "lag_thread";
    type Printed = PrintedThread;

    fn new(p: PrintedThread, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        if p.thread > p.length {
            return Err(Wrong::new("the thread is longer than the screw", "thread is a part of length"));
        }
        let length = units.length("length", p.length, (0.5, 40.0))?;
        Ok(LagThread { length, thread: units.length("thread", p.thread, (0.25, 20.0))?, provenance })
    }

    fn key(&self) -> String {
        format!("lag screw {}", fraction_of_inch(self.length))
    }
}
