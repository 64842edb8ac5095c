//! Shear, moment and sag of a member, to scale along it.

use super::paper::{At, Drawing, Fill, Line, Shape, Text, WIDTH};
use crate::check::{Diagram, Effect, MemberDiagrams, Ordinate};
use crate::quantity::{Length, UnitSystem};
use crate::report::say;

const HIGH: f64 = 64.0;
const FROM: f64 = 14.0;
const TO: f64 = WIDTH - 14.0;

/// The diagrams of one member, one below the other.
pub(in crate::report) fn courses(m: &MemberDiagrams, units: UnitSystem) -> Drawing {
    let mut shapes = Vec::new();
    let mut y = 0.0;
    let mut said = vec![format!("Along {}:", m.member)];
    for d in &m.diagrams {
        course(m, d, units, y, &mut shapes);
        y += HIGH + 48.0;
        let g = d.greatest();
        said.push(format!("{} reaches {} at {}.", d.effect.name(), g.value.show(units), say::about(g.at, units)));
    }
    let title = format!("Shear, moment and sag along {}", m.member);
    Drawing { title, description: said.join(" "), height: y, shapes }
}

fn course(m: &MemberDiagrams, d: &Diagram, units: UnitSystem, top: f64, out: &mut Vec<Shape>) {
    let [start, end] = m.ends;
    let x = |l: Length| FROM + (TO - FROM) * ((l - start) / (end - start)).value;
    let most = d.course.iter().map(|o| o.value.si).fold(0.0, f64::max);
    let least = d.course.iter().map(|o| o.value.si).fold(0.0, f64::min);
    // Shear upwards where it is positive; moment and sag on the side that is stretched, downwards.
    let sign = if d.effect == Effect::Shear { -1.0 } else { 1.0 };
    let scale = HIGH / (most - least).max(f64::MIN_POSITIVE);
    let (above, title) = (top + 16.0, top + 11.0);
    let axis = above + 12.0 + if sign < 0.0 { most * scale } else { -least * scale };
    let greatest = d.greatest();
    let place = |o: &Ordinate| -> At { [x(o.at), axis + sign * o.value.si * scale] };
    let name = format!("{} ({})", d.effect.name(), d.case.name());
    out.push(Text::new([FROM, title], name).bold().into());
    let mut points: Vec<At> = vec![[FROM, axis]];
    points.extend(d.course.iter().map(&place));
    points.push([TO, axis]);
    out.push(Shape::Path { points: points.clone(), closed: true, fill: Fill::Shade, line: Line::None });
    out.push(Shape::Path { points, closed: false, fill: Fill::None, line: Line::Outline });
    out.push(Shape::Segments { lines: vec![[[FROM, axis], [TO, axis]]], line: Line::Outline });
    for s in &m.supports {
        let at = x(*s);
        let triangle = vec![[at, axis], [at - 3.0, axis + 5.0], [at + 3.0, axis + 5.0]];
        out.push(Shape::Path { points: triangle, closed: true, fill: Fill::Paper, line: Line::Outline });
    }
    // A course may be level at its greatest: then the place that the check names.
    let named =
        |o: &Ordinate| if (o.value.si - greatest.value.si).abs() < 1e-9 * scale.recip() { greatest } else { *o };
    let extremes = [
        d.course.iter().max_by(|a, b| a.value.si.total_cmp(&b.value.si)),
        d.course.iter().min_by(|a, b| a.value.si.total_cmp(&b.value.si)),
    ];
    for o in extremes.into_iter().flatten().map(named) {
        let o = &o;
        if o.value.si.abs() * scale < 0.04 * HIGH {
            continue;
        }
        let [px, py] = place(o);
        out.push(Shape::Circle { centre: [px, py], radius: 1.8, fill: Fill::Ink, line: Line::None });
        let beyond = if py < axis { -4.0 } else { 11.0 };
        let text =
            Text::new([px, py + beyond], format!("{} at {}", o.value.show(units), say::about(o.at, units))).size(9.5);
        let half = 0.5 * text.reach();
        let text = if px - half < 4.0 {
            Text { at: [4.0, py + beyond], ..text }
        } else if px + half > WIDTH - 4.0 {
            Text { at: [WIDTH - 4.0, py + beyond], ..text }.end()
        } else {
            text.middle()
        };
        out.push(text.into());
    }
}
