//! A long side cut across: rail, cleat, screw, and the end of a slat.

use super::dimension::Dimensions;
use super::paper::{At, Band, Drawing, Fill, Line, Shape, Text, banded, weakest};
use crate::brief::Side;
use crate::check::{Assessment, Check, Role, Verdict};
use crate::platform::{LongSide, Platform};
use crate::quantity::{Length, length_for_builder};
use crate::report::Report;

/// How much of a slat is drawn.
const STUB: f64 = 0.11;

/// The section at each side, or at one when both are alike.
pub(in crate::report) fn sections(r: &Report<'_>) -> Vec<Drawing> {
    let p = r.platform;
    let look = |s: &LongSide| {
        let made = [&s.rail.stick, &s.cleat].map(|k| (k.size_text(p.units), k.wood.name()));
        (made, s.rise, s.screws.up, s.screws.screw.designation.clone())
    };
    let alike = look(&p.sides[0]) == look(&p.sides[1]);
    let shown = if alike { 1 } else { 2 };
    (0..shown).map(|s| section(r, s, if alike { "either" } else { side_name(&p.sides[s]) })).collect()
}

fn side_name(side: &LongSide) -> &'static str {
    match side.side {
        Side::Left => "the left",
        Side::Right => "the right",
    }
}

/// The band of the worst member of a role, of one side or of both.
fn band(a: &Assessment, role: Role, side: Option<&str>) -> Band {
    let of_role = a.members.iter().filter(|m| m.role == role && side.is_none_or(|s| m.id.starts_with(s)));
    let worst = of_role.filter_map(|m| m.worst().map(|c: &Check| (m.verdict(), c.ratio)));
    worst
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map_or(Band::Unknown, |(v, ratio)| if v == Verdict::Fail { Band::Over } else { Band::of_ratio(ratio) })
}

struct Cut<'a> {
    p: &'a Platform,
    side: &'a LongSide,
    scale: f64,
    origin: At,
    shapes: Vec<Shape>,
}

impl Cut<'_> {
    /// A place: inwards from the rail's outer face, up from its lower edge.
    fn at(&self, inwards: Length, up: Length) -> At {
        [self.origin[0] + inwards.value * self.scale, self.origin[1] - up.value * self.scale]
    }
}

fn section(r: &Report<'_>, s: usize, name: &str) -> Drawing {
    let (p, a) = (r.platform, r.assessment);
    let side = &p.sides[s];
    let (rail, cleat) = (&side.rail.stick, &side.cleat);
    let slat_top = side.rise + cleat.width + p.slats.depth();
    let high = slat_top.max(rail.width).value;
    let wide = (rail.thickness + cleat.thickness).value + STUB;
    let scale = (116.0 / wide).min(220.0 / high);
    let origin = [108.0, 34.0 + high * scale];
    let mut cut = Cut { p, side, scale, origin, shapes: Vec::new() };
    let zero = Length::default();
    let only = (name != "either").then(|| name.trim_start_matches("the "));
    let parts = [
        (Role::Rail, cut.at(zero, rail.width), cut.at(rail.thickness, zero)),
        (
            Role::Cleat,
            cut.at(rail.thickness, side.rise + cleat.width),
            cut.at(rail.thickness + cleat.thickness, side.rise),
        ),
    ];
    for (role, upper, lower) in parts {
        banded(upper, lower, band(a, role, only), &mut cut.shapes);
    }
    let slat_from = rail.thickness + cleat.thickness - p.slats.bearing;
    let upper = cut.at(slat_from, slat_top);
    let y1 = cut.at(slat_from, slat_top - p.slats.depth())[1];
    let end = cut.at(rail.thickness + cleat.thickness, zero)[0] + STUB * scale;
    banded(upper, [end, y1], band(a, Role::Slat, None), &mut cut.shapes);
    broken(end, [upper[1], y1], &mut cut.shapes);
    cut.screw(a, only);
    cut.labels(end, slat_top);
    let bottom = cut.measures(slat_top);
    if let Some((id, words)) = weakest(a) {
        cut.shapes.push(Text::new([8.0, 14.0], format!("weakest: {id}, {words}")).size(9.5).bold().into());
    }
    Drawing {
        title: format!("Section at {name} side"),
        description: format!(
            "The rail on edge, {} deep; the cleat on its inner face, {} above the rail's lower edge; the slat's end \
             resting {} on the cleat; a screw from cleat into rail.",
            length_for_builder(rail.width, p.units),
            length_for_builder(side.rise, p.units),
            length_for_builder(p.slats.bearing, p.units),
        ),
        height: bottom,
        shapes: cut.shapes,
    }
}

/// A broken edge: the slat goes on.
fn broken(x: f64, [top, bottom]: [f64; 2], out: &mut Vec<Shape>) {
    let high = bottom - top;
    let points: Vec<At> = [0.0, 0.35, 0.5, 0.65, 1.0]
        .iter()
        .zip([0.0, 0.0, 4.0, 0.0, 0.0])
        .map(|(f, d)| [x + d, top + f * high])
        .collect();
    out.push(Shape::Path {
        points: vec![[x - 1.0, top - 0.6], [x + 1.0, top - 0.6], [x + 1.0, bottom + 0.6], [x - 1.0, bottom + 0.6]],
        closed: true,
        fill: Fill::Paper,
        line: Line::None,
    });
    out.push(Shape::Path { points, closed: false, fill: Fill::None, line: Line::Outline });
}

impl Cut<'_> {
    fn screw(&mut self, a: &Assessment, only: Option<&str>) {
        let (rail, cleat, row) = (&self.side.rail.stick, &self.side.cleat, &self.side.screws);
        let up = self.side.rise + row.up;
        let head = self.at(rail.thickness + cleat.thickness, up);
        let tip = self.at(rail.thickness + cleat.thickness - row.screw.length, up);
        let half = (0.5 * row.screw.diameter.value * self.scale).max(1.2);
        let points = vec![
            [head[0], head[1] - 2.0 * half],
            [head[0] - 2.0 * half, head[1] - half],
            [tip[0] + 3.0 * half, tip[1] - half],
            tip,
            [tip[0] + 3.0 * half, tip[1] + half],
            [head[0] - 2.0 * half, head[1] + half],
            [head[0], head[1] + 2.0 * half],
        ];
        let fill = Fill::Band(band(a, Role::CleatScrew, only));
        self.shapes.push(Shape::Path { points, closed: true, fill, line: Line::Outline });
    }

    /// Names on the right, each led to its part.
    fn labels(&mut self, end: f64, slat_top: Length) {
        let (p, side) = (self.p, self.side);
        let (rail, cleat, row) = (&side.rail.stick, &side.cleat, &side.screws);
        let x = end + 18.0;
        let inwards = rail.thickness + cleat.thickness;
        let size = |what: &str, stick: &crate::platform::Stick| format!("{what} {}", stick.size_text(p.units));
        let slat = [end, self.at(inwards, slat_top - p.slats.depth() / 2.0)[1]];
        let parts = [
            (size("slat", &p.slats.stick), slat),
            (size("cleat", cleat), self.at(inwards - cleat.thickness / 4.0, side.rise + cleat.width / 5.0 * 4.0)),
            (row.screw.designation.clone(), self.at(inwards, side.rise + row.up)),
            (size("rail", rail), self.at(rail.thickness / 2.0, side.rise / 2.0)),
        ];
        let mut last = f64::NEG_INFINITY;
        for (text, at) in parts {
            let y = at[1].max(last + 15.0);
            last = y;
            self.shapes.push(Shape::Segments { lines: vec![[[x - 4.0, y], at]], line: Line::Fine });
            self.shapes.push(Shape::Circle { centre: at, radius: 1.2, fill: Fill::Ink, line: Line::None });
            self.shapes.push(Text::new([x, y + 3.3], text).size(9.5).into());
        }
    }

    fn measures(&mut self, slat_top: Length) -> f64 {
        let (p, side) = (self.p, self.side);
        let d = Dimensions { units: p.units };
        let zero = Length::default();
        let (rail, cleat) = (&side.rail.stick, &side.cleat);
        let edge = self.at(zero, zero)[0];
        let up = |v: Length| self.at(zero, v)[1];
        let chain = [zero, side.rise, side.rise + cleat.width, slat_top];
        let ys = chain.map(up);
        let depth = [up(rail.width), up(zero)];
        let bearing = [rail.thickness + cleat.thickness - p.slats.bearing, rail.thickness + cleat.thickness]
            .map(|v| self.at(v, zero)[0]);
        let top = up(slat_top);
        let base = up(zero);
        let faces = [zero, rail.thickness, rail.thickness + cleat.thickness].map(|v| self.at(v, zero)[0]);
        let out = &mut self.shapes;
        for k in 0..3 {
            if chain[k + 1] > chain[k] {
                d.down([ys[k + 1], ys[k]], edge - 18.0, edge - 1.0, chain[k + 1] - chain[k], out);
            }
        }
        d.down(depth, edge - 82.0, edge - 76.0, rail.width, out);
        d.across(bearing, top - 9.0, top - 1.0, p.slats.bearing, out);
        d.across([faces[0], faces[1]], base + 16.0, base + 2.0, rail.thickness, out);
        d.across([faces[1], faces[2]], base + 32.0, base + 2.0, cleat.thickness, out);
        base + 44.0
    }
}
