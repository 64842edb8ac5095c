//! The paper: shapes in units of which 360 make the width of a drawing, from its upper left corner.

use crate::check::{Assessment, Check, Verdict};
use crate::report::say;

/// Width of every drawing.
pub(in crate::report) const WIDTH: f64 = 360.0;

/// A place on the paper.
pub(in crate::report) type At = [f64; 2];

/// A finished drawing.
#[derive(Clone, Debug)]
pub(in crate::report) struct Drawing {
    pub(in crate::report) title: String,
    /// What it shows, for somebody who cannot see it.
    pub(in crate::report) description: String,
    pub(in crate::report) height: f64,
    pub(in crate::report) shapes: Vec<Shape>,
}

/// How much of its capacity a part uses, in steps that can be told apart in black and white.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::report) enum Band {
    /// At most half.
    Easy,
    /// At most four fifths.
    Working,
    /// At most all.
    Full,
    /// More than all.
    Over,
    /// No check speaks of it.
    Unknown,
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::report) enum Line {
    None,
    /// Hatching.
    Hatch,
    /// Hatching of what fails, on its dark ground.
    HatchOver,
    /// Dimensions and leaders.
    Fine,
    /// Outlines.
    Outline,
    /// What lies beneath.
    Hidden,
    /// What the reader must see first.
    Mark,
}

/// What a closed shape is filled with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::report) enum Fill {
    None,
    Paper,
    Ink,
    /// Under a curve.
    Shade,
    Band(Band),
}

/// Which end of a text is at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::report) enum Anchor {
    Start,
    Middle,
    End,
}

/// Lettering.
#[derive(Clone, Debug)]
pub(in crate::report) struct Text {
    pub(in crate::report) at: At,
    pub(in crate::report) text: String,
    pub(in crate::report) size: f64,
    pub(in crate::report) anchor: Anchor,
    /// Reads upwards.
    pub(in crate::report) upwards: bool,
    pub(in crate::report) bold: bool,
}

/// One thing on the paper.
#[derive(Clone, Debug)]
pub(in crate::report) enum Shape {
    Path { points: Vec<At>, closed: bool, fill: Fill, line: Line },
    Segments { lines: Vec<[At; 2]>, line: Line },
    Circle { centre: At, radius: f64, fill: Fill, line: Line },
    Text(Text),
}

impl Band {
    /// In the order of a legend.
    pub(in crate::report) const ALL: [Band; 4] = [Band::Easy, Band::Working, Band::Full, Band::Over];

    /// The band of a member: of its worst check.
    pub(in crate::report) fn of(a: &Assessment, id: &str) -> Band {
        match a.member(id).and_then(|m| m.worst().map(|c| (m, c))) {
            None => Band::Unknown,
            Some((m, _)) if m.verdict() == Verdict::Fail => Band::Over,
            Some((_, c)) => Band::of_ratio(c.ratio),
        }
    }

    pub(in crate::report) fn of_ratio(ratio: f64) -> Band {
        match ratio {
            r if r <= 0.5 => Band::Easy,
            r if r <= 0.8 => Band::Working,
            r if r <= 1.0 => Band::Full,
            _ => Band::Over,
        }
    }

    pub(in crate::report) fn words(self) -> &'static str {
        match self {
            Band::Easy => "to 0.50",
            Band::Working => "to 0.80",
            Band::Full => "to 1.00",
            Band::Over => "fails",
            Band::Unknown => "not checked",
        }
    }

    /// Distance between the lines of its hatching, and whether they cross.
    fn hatching(self) -> Option<(f64, bool)> {
        match self {
            Band::Easy | Band::Unknown => None,
            Band::Working => Some((7.0, false)),
            Band::Full => Some((3.5, false)),
            Band::Over => Some((4.0, true)),
        }
    }

    fn ink(self) -> Line {
        if self == Band::Over { Line::HatchOver } else { Line::Hatch }
    }
}

impl Text {
    pub(in crate::report) fn new(at: At, text: impl Into<String>) -> Text {
        Text { at, text: text.into(), size: 10.0, anchor: Anchor::Start, upwards: false, bold: false }
    }
    pub(in crate::report) fn size(mut self, size: f64) -> Text {
        self.size = size;
        self
    }
    pub(in crate::report) fn middle(mut self) -> Text {
        self.anchor = Anchor::Middle;
        self
    }
    pub(in crate::report) fn end(mut self) -> Text {
        self.anchor = Anchor::End;
        self
    }
    pub(in crate::report) fn upwards(mut self) -> Text {
        self.upwards = true;
        self
    }
    pub(in crate::report) fn bold(mut self) -> Text {
        self.bold = true;
        self
    }
    /// Roughly how wide it will be: lettering differs between readers' machines.
    pub(in crate::report) fn reach(&self) -> f64 {
        self.text.chars().count() as f64 * self.size * 0.56
    }
}

impl From<Text> for Shape {
    fn from(t: Text) -> Shape {
        Shape::Text(t)
    }
}

/// The corners of a rectangle between two opposite ones.
pub(in crate::report) fn corners([x0, y0]: At, [x1, y1]: At) -> Vec<At> {
    vec![[x0, y0], [x1, y0], [x1, y1], [x0, y1]]
}

/// The corners of a strip from one place to another, so wide.
pub(in crate::report) fn strip(a: At, b: At, wide: f64) -> Vec<At> {
    let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
    let half = 0.5 * wide / dx.hypot(dy).max(f64::MIN_POSITIVE);
    let (x, y) = (-dy * half, dx * half);
    vec![[a[0] + x, a[1] + y], [b[0] + x, b[1] + y], [b[0] - x, b[1] - y], [a[0] - x, a[1] - y]]
}

/// A rectangle.
pub(in crate::report) fn rectangle(a: At, b: At, fill: Fill, line: Line) -> Shape {
    Shape::Path { points: corners(a, b), closed: true, fill, line }
}

/// A rectangle in a band's colour and hatching.
pub(in crate::report) fn banded(a: At, b: At, band: Band, out: &mut Vec<Shape>) {
    banded_shape(corners(a, b), band, out);
}

/// A convex shape in a band's colour and hatching.
pub(in crate::report) fn banded_shape(points: Vec<At>, band: Band, out: &mut Vec<Shape>) {
    let path = |fill, line| Shape::Path { points: points.clone(), closed: true, fill, line };
    out.push(path(Fill::Band(band), Line::None));
    if let Some((step, crossed)) = band.hatching() {
        let mut lines = hatch(&points, step, 1.0);
        if crossed {
            lines.extend(hatch(&points, step, -1.0));
        }
        out.push(Shape::Segments { lines, line: band.ink() });
    }
    out.push(path(Fill::None, Line::Outline));
}

/// Slanting lines across a convex shape, rising or falling; all hatching on one paper lines up.
fn hatch(points: &[At], step: f64, way: f64) -> Vec<[At; 2]> {
    let slope = step * std::f64::consts::SQRT_2;
    let along = |[x, y]: At| x + way * y;
    let (least, most) = points.iter().fold((f64::MAX, f64::MIN), |(a, b), p| (a.min(along(*p)), b.max(along(*p))));
    let edges = || points.iter().zip(points.iter().cycle().skip(1));
    let (first, last) = ((least / slope).ceil() as i64, (most / slope).floor() as i64);
    let lines = (first..=last).filter_map(|k| {
        let wanted = k as f64 * slope;
        let mut met = edges().filter_map(|(a, b)| {
            let (from, to) = (along(*a), along(*b));
            let part = (wanted - from) / (to - from);
            (0.0..=1.0).contains(&part).then(|| [a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])])
        });
        let start = met.next()?;
        // Through a corner a line meets two edges in one place.
        let end = met.max_by(|a, b| (a[0] - start[0]).abs().total_cmp(&(b[0] - start[0]).abs()))?;
        ((end[0] - start[0]).abs() > 0.3).then_some([start, end])
    });
    lines.collect()
}

/// What the bands mean, in a row.
pub(in crate::report) fn legend(y: f64, out: &mut Vec<Shape>) {
    out.push(Text::new([8.0, y + 9.0], "demand / capacity").size(9.0).into());
    let mut x = 96.0;
    for band in Band::ALL {
        banded([x, y], [x + 20.0, y + 12.0], band, out);
        out.push(Text::new([x + 24.0, y + 9.0], band.words()).size(9.0).into());
        x += 66.0;
    }
}

/// The weakest link, for a note in a drawing: the member, and its limit with the ratio.
pub(in crate::report) fn weakest(a: &Assessment) -> Option<(&str, String)> {
    let words = |c: &Check| match c.ratio.is_finite() {
        true => format!("{} {}", c.limit.name(), say::ratio(c)),
        // Nothing is there where something is asked for: there is no ratio to name.
        false => c.limit.name().to_owned(),
    };
    a.weakest().map(|(m, c)| (m.id.as_str(), words(c)))
}
