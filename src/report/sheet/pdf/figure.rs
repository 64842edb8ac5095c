//! Drawings of the PDF, from the same shapes as every other face's.

use pdf_writer::Content;
use pdf_writer::types::{LineJoinStyle, StructRole};

use super::atom::{Atom, Face};
use super::font::Style;
use super::{Colour, MARGIN, Setter, fill};
use crate::report::drawing::{Anchor, Band, Drawing, Fill, Line, Shape, Text, WIDTH};

/// Width of a drawing on paper.
const WIDE: f32 = 320.0;
/// Height that a drawing may take of a page.
const HIGH: f32 = 430.0;

fn colour(fill: Fill) -> Option<Colour> {
    Some(match fill {
        Fill::None | Fill::Band(Band::Unknown) => return None,
        Fill::Paper => [1.0, 1.0, 1.0],
        Fill::Ink => super::INK,
        Fill::Shade => super::SHADE,
        Fill::Band(Band::Easy) => [0.985, 0.97, 0.925],
        Fill::Band(Band::Working) => [0.90, 0.83, 0.675],
        Fill::Band(Band::Full) => [0.755, 0.54, 0.28],
        Fill::Band(Band::Over) => [0.43, 0.12, 0.10],
    })
}

/// Colour, thickness and dashes of a line.
fn pen(line: Line) -> Option<(Colour, f32, bool)> {
    Some(match line {
        Line::None => return None,
        Line::Hatch => ([0.23, 0.17, 0.09], 0.4, false),
        Line::HatchOver => ([0.965, 0.915, 0.885], 0.6, false),
        Line::Fine => (super::SOFT, 0.5, false),
        Line::Outline => (super::INK, 0.7, false),
        Line::Hidden => (super::INK, 0.6, true),
        Line::Mark => ([0.08, 0.27, 0.42], 1.5, false),
    })
}

fn scale_of(d: &Drawing) -> f32 {
    (WIDE / WIDTH as f32).min(HIGH / d.height as f32)
}

/// What a drawing takes of a page.
pub(super) fn height_on_paper(d: &Drawing) -> f32 {
    d.height as f32 * scale_of(d)
}

impl Setter {
    pub(super) fn figure(&mut self, drawings: &[Drawing], caption: &str) {
        for d in drawings {
            self.drawing(d);
        }
        let face = Face { style: Style::Italic, size: 9.5 };
        self.paragraph(StructRole::Caption, caption, face, 0.0, super::SOFT);
        self.gap(8.0);
    }

    fn drawing(&mut self, d: &Drawing) {
        let scale = scale_of(d);
        let high = height_on_paper(d);
        // The caption's first lines stay with it.
        self.need(high + 30.0);
        let top = self.y;
        let at = |[x, y]: [f64; 2]| [MARGIN + x as f32 * scale, top - y as f32 * scale];
        let set: Vec<(&Text, Atom)> = d
            .shapes
            .iter()
            .filter_map(|s| if let Shape::Text(t) = s { Some(t) } else { None })
            .map(|t| (t, self.lettering(t, scale)))
            .collect();
        self.pages.open(StructRole::Figure, Some(format!("{}. {}", d.title, d.description)));
        self.pages.draw(|c| {
            c.save_state().set_line_join(LineJoinStyle::RoundJoin);
            let mut lettering = set.iter();
            for shape in &d.shapes {
                match shape {
                    Shape::Path { points, closed, fill, line } => {
                        let path = |c: &mut Content| {
                            for (i, p) in points.iter().enumerate() {
                                let [x, y] = at(*p);
                                if i == 0 {
                                    c.move_to(x, y)
                                } else {
                                    c.line_to(x, y)
                                };
                            }
                            if *closed {
                                c.close_path();
                            }
                        };
                        paint(*fill, *line, scale, &path, c);
                    }
                    Shape::Segments { lines, line } => {
                        let path = |c: &mut Content| {
                            for [a, b] in lines {
                                let (a, b) = (at(*a), at(*b));
                                c.move_to(a[0], a[1]).line_to(b[0], b[1]);
                            }
                        };
                        paint(Fill::None, *line, scale, &path, c);
                    }
                    Shape::Circle { centre, radius, fill, line } => {
                        let (centre, radius) = (at(*centre), *radius as f32 * scale);
                        paint(*fill, *line, scale, &|c: &mut Content| circle(centre, radius, c), c);
                    }
                    Shape::Text(_) => {
                        let Some((t, atom)) = lettering.next() else { continue };
                        let [x, y] = at(t.at);
                        let back = match t.anchor {
                            Anchor::Start => 0.0,
                            Anchor::Middle => 0.5 * atom.width,
                            Anchor::End => atom.width,
                        };
                        self::fill(c, super::INK);
                        if t.upwards {
                            atom.draw_upwards([x, y - back], c);
                        } else {
                            atom.draw([x - back, y], c);
                        }
                    }
                }
            }
            c.restore_state();
        });
        self.pages.close();
        self.y -= high + 4.0;
    }

    /// A text on one line.
    fn lettering(&mut self, t: &Text, scale: f32) -> Atom {
        let face = Face { style: if t.bold { Style::Bold } else { Style::Regular }, size: t.size as f32 * scale };
        Atom::phrase(&t.text, face, &mut self.fonts)
    }
}

fn paint(inside: Fill, line: Line, scale: f32, path: &dyn Fn(&mut Content), c: &mut Content) {
    if let Some(colour) = colour(inside) {
        fill(c, colour);
        path(c);
        c.fill_nonzero();
    }
    if let Some((colour, thick, dashed)) = pen(line) {
        fill(c, colour);
        c.set_line_width(thick * scale);
        c.set_dash_pattern(if dashed { vec![3.0, 2.0] } else { Vec::new() }, 0.0);
        path(c);
        c.stroke();
    }
}

/// Four curves; 0.5523 brings a cubic within 0.03 % of a quarter circle.
fn circle([x, y]: [f32; 2], r: f32, c: &mut Content) {
    let k = 0.5523 * r;
    c.move_to(x + r, y);
    c.cubic_to(x + r, y + k, x + k, y + r, x, y + r);
    c.cubic_to(x - k, y + r, x - r, y + k, x - r, y);
    c.cubic_to(x - r, y - k, x - k, y - r, x, y - r);
    c.cubic_to(x + k, y - r, x + r, y - k, x + r, y);
    c.close_path();
}
