//! What bodies press on: patches, and people in numbers.

use serde::Deserialize;

use crate::quantity::unit::newton_per_metre;
use crate::quantity::{Length, LineLoad, Mass, Ratio};
use crate::source::Provenance;
use crate::tables::row::{Band, Row, Units, Wrong, ratio};

/// The total mass of several adults.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// How many.
    pub adults: u32,
    /// Median, 95th and 99th percentile of both sexes mixed.
    pub mixed: [Mass; 3],
    /// 95th percentile of men only.
    pub men_95: Mass,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedGroup {
    adults: u32,
    p50: f64,
    p95: f64,
    p99: f64,
    p95_men: f64,
}

impl Row for Group {
    const ARRAY: &'static str = "group";
    type Printed = PrintedGroup;

    fn new(p: PrintedGroup, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        let n = f64::from(p.adults);
        let band: Band = (60.0 * n, 500.0 * n);
        let mass = |printed| units.mass("group mass", printed, band);
        Ok(Group {
            adults: p.adults,
            mixed: [mass(p.p50)?, mass(p.p95)?, mass(p.p99)?],
            men_95: mass(p.p95_men)?,
            provenance,
        })
    }

    fn key(&self) -> String {
        format!("{} adults", self.adults)
    }
}

/// The shape a body part presses on the mattress.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Contact {
    /// Two sides.
    Rectangle(Length, Length),
    /// A round pad's diameter.
    Disc(Length),
}

/// A contact patch: what presses, and with what share of the body's weight.
#[derive(Clone, Debug, PartialEq)]
pub struct Patch {
    /// Such as `standing on one foot`.
    pub name: String,
    /// Its shape.
    pub contact: Contact,
    /// Share of body weight.
    pub share: Ratio,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedPatch {
    name: String,
    size: Option<(f64, f64)>,
    diameter: Option<f64>,
    share: f64,
}

impl Row for Patch {
    const ARRAY: &'static str = "patch";
    type Printed = PrintedPatch;

    fn new(p: PrintedPatch, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        let side = |name, printed| units.length(name, printed, (0.5, 40.0));
        let contact = match (p.size, p.diameter) {
            (Some((a, b)), None) => Contact::Rectangle(side("size", a)?, side("size", b)?),
            (None, Some(d)) => Contact::Disc(side("diameter", d)?),
            _ => {
                return Err(Wrong::new(
                    "a patch has a size or a diameter",
                    "write size = [380, 300] or diameter = 200",
                ));
            }
        };
        Ok(Patch { name: p.name, contact, share: ratio("share", p.share, (0.05, 1.0))?, provenance })
    }

    fn key(&self) -> String {
        self.name.clone()
    }
}

/// People in a row on one edge.
#[derive(Clone, Debug, PartialEq)]
pub struct EdgeSitting {
    /// Width each, with room.
    pub comfortable: Length,
    /// Width each, packed.
    pub packed: Length,
    /// Weight per length of edge.
    pub line_load: LineLoad,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedEdge {
    comfortable: f64,
    packed: f64,
    line_load: f64,
}

impl Row for EdgeSitting {
    const ARRAY: &'static str = "edge_sitting";
    type Printed = PrintedEdge;

    fn new(p: PrintedEdge, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        let width = |name, printed| units.length(name, printed, (10.0, 40.0));
        ratio("line_load", p.line_load, (0.2, 10.0))?;
        Ok(EdgeSitting {
            comfortable: width("comfortable", p.comfortable)?,
            packed: width("packed", p.packed)?,
            line_load: newton_per_metre(p.line_load * 1e3),
            provenance,
        })
    }

    fn key(&self) -> String {
        "people in a row on an edge".into()
    }
}
