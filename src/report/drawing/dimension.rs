//! Dimension lines as the trade draws them: a line with a slanting tick at each end, the measure above.

use super::paper::{At, Line, Shape, Text};
use crate::quantity::{Length, UnitSystem, length_for_builder};

/// Writes dimensions in one system of units.
#[derive(Clone, Copy)]
pub(super) struct Dimensions {
    pub(super) units: UnitSystem,
}

/// A tick across the end of a dimension line.
fn tick([x, y]: At) -> [At; 2] {
    [[x - 2.5, y + 2.5], [x + 2.5, y - 2.5]]
}

impl Dimensions {
    /// Across: from `x0` to `x1` at height `y`, with lines out to `edge`, where the thing itself is.
    pub(super) fn across(self, [x0, x1]: [f64; 2], y: f64, edge: f64, length: Length, out: &mut Vec<Shape>) {
        let beyond = if y > edge { 3.0 } else { -3.0 };
        let reach = |x: f64| [[x, edge + beyond], [x, y + beyond]];
        let lines = vec![[[x0, y], [x1, y]], reach(x0), reach(x1), tick([x0, y]), tick([x1, y])];
        out.push(Shape::Segments { lines, line: Line::Fine });
        let text = Text::new([0.5 * (x0 + x1), y - 3.0], length_for_builder(length, self.units)).middle();
        // A measure that does not fit between the ticks stands beside them: below a thing at the left, where
        // no other's lines come down, above it at the right.
        let wide = text.reach();
        out.push(Shape::Text(match (wide + 4.0 < x1 - x0, y > edge) {
            (true, _) => text,
            (false, true) => Text { at: [x0 - 6.0, y + 3.5], ..text }.end(),
            (false, false) => Text { at: [x1 + 6.0 + wide / 2.0, y + 3.5], ..text },
        }));
    }

    /// Down: from `y0` to `y1` at `x`, with lines out to `edge`.
    pub(super) fn down(self, [y0, y1]: [f64; 2], x: f64, edge: f64, length: Length, out: &mut Vec<Shape>) {
        let beyond = if x > edge { 3.0 } else { -3.0 };
        let reach = |y: f64| [[edge + beyond, y], [x + beyond, y]];
        let lines = vec![[[x, y0], [x, y1]], reach(y0), reach(y1), tick([x, y0]), tick([x, y1])];
        out.push(Shape::Segments { lines, line: Line::Fine });
        let text = Text::new([x - 3.0, 0.5 * (y0 + y1)], length_for_builder(length, self.units)).middle();
        let text = if text.reach() + 4.0 > y1 - y0 {
            Text { at: [x - 5.0, 0.5 * (y0 + y1) + 3.5], ..text }.end()
        } else {
            text.upwards()
        };
        out.push(text.into());
    }
}
