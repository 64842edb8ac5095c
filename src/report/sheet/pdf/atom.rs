//! Words and formulas as small boxes that a line is made of.

use pdf_writer::{Content, Str};

use super::font::{Fonts, Glyphs, Style};
use crate::report::fraction::{Run, runs};
use crate::report::sheet::formula::{Formula, Symbol};

/// Ink of a box, from its left end on the base line, upwards positive.
enum Ink {
    Glyphs {
        x: f32,
        y: f32,
        size: f32,
        glyphs: Glyphs,
    },
    /// A filled bar.
    Bar {
        x: f32,
        y: f32,
        width: f32,
        height: f32,
    },
    /// A root's hook and roof.
    Root {
        x: f32,
        top: f32,
        bottom: f32,
        width: f32,
    },
}

/// A box that is not broken.
#[derive(Default)]
pub(super) struct Atom {
    pub(super) width: f32,
    pub(super) ascent: f32,
    pub(super) descent: f32,
    ink: Vec<Ink>,
}

/// How text is set.
#[derive(Clone, Copy)]
pub(super) struct Face {
    pub(super) style: Style,
    pub(super) size: f32,
}

impl Atom {
    /// Puts another box after this one, raised.
    fn add(&mut self, other: Atom, raised: f32) {
        let at = self.width;
        self.put(other, at, raised);
    }

    /// Puts another box at a place.
    fn put(&mut self, other: Atom, at: f32, raised: f32) {
        self.width = self.width.max(at + other.width);
        self.ascent = self.ascent.max(other.ascent + raised);
        self.descent = self.descent.max(other.descent - raised);
        self.ink.extend(other.ink.into_iter().map(|i| match i {
            Ink::Glyphs { x, y, size, glyphs } => Ink::Glyphs { x: x + at, y: y + raised, size, glyphs },
            Ink::Bar { x, y, width, height } => Ink::Bar { x: x + at, y: y + raised, width, height },
            Ink::Root { x, top, bottom, width } => {
                Ink::Root { x: x + at, top: top + raised, bottom: bottom + raised, width }
            }
        }));
    }

    /// Text without fractions.
    fn plain(text: &str, face: Face, fonts: &mut Fonts) -> Atom {
        let mut out = Atom { ascent: 0.72 * face.size, descent: 0.22 * face.size, ..Atom::default() };
        for glyphs in fonts.glyphs(text, face.style) {
            let width = glyphs.width * face.size / 1000.0;
            out.ink.push(Ink::Glyphs { x: out.width, y: 0.0, size: face.size, glyphs });
            out.width += width;
        }
        out
    }

    /// A word, its fractions set as fractions; what is kept as typed stays so.
    pub(super) fn word(text: &str, face: Face, fonts: &mut Fonts) -> Atom {
        if face.style == Style::Mono {
            return Atom::plain(text, face, fonts);
        }
        let mut out = Atom::default();
        let small = Face { size: 0.68 * face.size, ..face };
        for run in runs(text) {
            match run {
                Run::Plain(s) => out.add(Atom::plain(s, face, fonts), 0.0),
                // Too narrow to see, but copied as a space.
                Run::Joint => out.add(Atom::plain(" ", Face { size: 0.3 * face.size, ..face }, fonts), 0.0),
                Run::Top(s) => out.add(Atom::plain(s, small, fonts), 0.3 * face.size),
                Run::Bar => out.add(Atom::plain("\u{2044}", face, fonts), 0.0),
                Run::Bottom(s) => out.add(Atom::plain(s, small, fonts), -0.04 * face.size),
            }
        }
        out
    }

    /// Words with their spaces.
    pub(super) fn phrase(text: &str, face: Face, fonts: &mut Fonts) -> Atom {
        let mut out = Atom::default();
        for (i, word) in text.split(' ').enumerate() {
            if i > 0 {
                out.add(Atom::space(face, fonts), 0.0);
            }
            out.add(Atom::word(word, face, fonts), 0.0);
        }
        out
    }

    /// A space.
    pub(super) fn space(face: Face, fonts: &mut Fonts) -> Atom {
        Atom::plain(" ", face, fonts)
    }

    /// Draws it with its base line's left end at a place.
    pub(super) fn draw(&self, at: [f32; 2], c: &mut Content) {
        for ink in &self.ink {
            match ink {
                Ink::Glyphs { x, y, size, glyphs } => {
                    c.begin_text().set_font(glyphs.style.name(), *size);
                    c.set_text_matrix([1.0, 0.0, 0.0, 1.0, at[0] + x, at[1] + y]);
                    c.show(Str(&glyphs.bytes)).end_text();
                }
                Ink::Bar { x, y, width, height } => {
                    c.rect(at[0] + x, at[1] + y, *width, *height).fill_nonzero();
                }
                Ink::Root { x, top, bottom, width } => {
                    let (x, top, bottom) = (at[0] + x, at[1] + top, at[1] + bottom);
                    let high = top - bottom;
                    c.set_line_width(0.5).move_to(x, bottom + 0.4 * high).line_to(x + 1.2, bottom + 0.46 * high);
                    c.line_to(x + 3.0, bottom).line_to(x + 4.8, top).line_to(x + 5.0 + width, top).stroke();
                }
            }
        }
    }

    /// Draws it reading upwards.
    pub(super) fn draw_upwards(&self, at: [f32; 2], c: &mut Content) {
        c.save_state().transform([0.0, 1.0, -1.0, 0.0, at[0], at[1]]);
        self.draw([0.0, 0.0], c);
        c.restore_state();
    }
}

/// A formula as boxes between which a line may be broken.
pub(super) fn formula(f: &Formula, size: f32, fonts: &mut Fonts) -> Vec<Atom> {
    f.pieces().iter().map(|p| set(p, size, fonts)).collect()
}

fn text(t: &str, style: Style, size: f32, fonts: &mut Fonts) -> Atom {
    Atom::plain(t, Face { style, size }, fonts)
}

/// A symbol with its index.
fn symbol(s: &Symbol, size: f32, fonts: &mut Fonts) -> Atom {
    let letter = s.base.chars().count() == 1;
    let mut out = text(&s.base, if letter { Style::Italic } else { Style::Regular }, size, fonts);
    if !s.index.is_empty() {
        out.add(text(&s.index, Style::Regular, 0.7 * size, fonts), -0.18 * size);
    }
    if !s.mark.is_empty() {
        out.add(text(&s.mark, Style::Regular, size, fonts), 0.0);
    }
    out
}

fn set(f: &Formula, size: f32, fonts: &mut Fonts) -> Atom {
    let axis = 0.24 * size;
    match f {
        Formula::Symbol(s) => symbol(s, size, fonts),
        Formula::Value(v) => text(v, Style::Regular, size, fonts),
        Formula::Row(parts) => joined(parts, size, fonts),
        Formula::Operator(o) => text(o, Style::Regular, size, fonts),
        Formula::Mark(m) => text(m, Style::Regular, size, fonts),
        Formula::Fraction(a, b) => {
            let (top, bottom) = (set(a, 0.92 * size, fonts), set(b, 0.92 * size, fonts));
            let width = top.width.max(bottom.width) + 0.3 * size;
            let (raised, lowered) = (axis + top.descent + 0.12 * size, axis - bottom.ascent - 0.14 * size);
            let mut out = Atom { width, ..Atom::default() };
            let (x, y) = (0.5 * (width - top.width), 0.5 * (width - bottom.width));
            out.put(top, x, raised);
            out.put(bottom, y, lowered);
            out.ink.push(Ink::Bar { x: 0.06 * size, y: axis - 0.25, width: width - 0.12 * size, height: 0.5 });
            out
        }
        Formula::Power(a, exponent) => {
            let mut out = set(a, size, fonts);
            let raised = (out.ascent - 0.3 * size).max(0.34 * size);
            out.add(text(exponent, Style::Regular, 0.7 * size, fonts), raised);
            out
        }
        Formula::Root(a) => {
            let inner = set(a, size, fonts);
            let (width, top, bottom) = (inner.width, inner.ascent + 1.5, -inner.descent);
            let mut out = Atom { width: 5.6, ascent: top + 1.0, descent: inner.descent, ink: Vec::new() };
            out.ink.push(Ink::Root { x: 0.0, top, bottom, width: width + 0.6 });
            out.add(inner, 0.0);
            out.width += 0.8;
            out
        }
        Formula::Of(name, parts) => {
            let mut out = text(name, Style::Regular, size, fonts);
            out.width += 0.05 * size;
            let mut inner = Atom::default();
            for (i, p) in parts.iter().enumerate() {
                if i > 0 {
                    inner.add(text(", ", Style::Regular, size, fonts), 0.0);
                }
                inner.add(set(p, size, fonts), 0.0);
            }
            out.add(bracketed(inner, size, fonts), 0.0);
            out
        }
        Formula::Bracketed(a) => {
            let inner = set(a, size, fonts);
            bracketed(inner, size, fonts)
        }
    }
}

fn joined(parts: &[Formula], size: f32, fonts: &mut Fonts) -> Atom {
    let mut out = Atom::default();
    for p in parts {
        if let Formula::Operator(sign) = p {
            // At the beginning of a piece the line's own space stands before the sign.
            out.width += if out.width > 0.0 { 0.22 * size } else { 0.0 };
            out.add(text(sign, Style::Regular, size, fonts), 0.0);
            out.width += 0.22 * size;
        } else {
            out.add(set(p, size, fonts), 0.0);
        }
    }
    out
}

/// In brackets as high as what they hold.
fn bracketed(inner: Atom, size: f32, fonts: &mut Fonts) -> Atom {
    let high = inner.ascent + inner.descent;
    let grown = (high / (0.94 * size)).max(1.0) * size;
    // The bracket's own middle goes to the middle of what it holds.
    let raised = 0.5 * (inner.ascent - inner.descent) - 0.25 * grown;
    let mut out = Atom::default();
    let [open, close] = ["(", ")"].map(|b| text(b, Style::Regular, grown, fonts));
    out.add(open, raised);
    out.add(inner, 0.0);
    out.add(close, raised);
    out
}
