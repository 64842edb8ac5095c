//! Lines of boxes: broken to a width, drawn on a base line.

use super::atom::{Atom, Face};
use super::font::Fonts;

/// A line of boxes with a space between each two.
#[derive(Default)]
pub(super) struct Line {
    pub(super) atoms: Vec<Atom>,
    pub(super) width: f32,
    pub(super) ascent: f32,
    pub(super) descent: f32,
}

impl Line {
    fn add(&mut self, atom: Atom, space: f32) {
        self.width += if self.atoms.is_empty() { 0.0 } else { space } + atom.width;
        self.ascent = self.ascent.max(atom.ascent);
        self.descent = self.descent.max(atom.descent);
        self.atoms.push(atom);
    }

    /// From its top to the next line's.
    pub(super) fn height(&self, size: f32) -> f32 {
        (1.3 * size).max(self.ascent + self.descent + 0.3 * size)
    }
}

/// Boxes in lines of at most this width.
pub(super) fn broken(atoms: impl IntoIterator<Item = Atom>, width: f32, space: f32) -> Vec<Line> {
    let mut lines = vec![Line::default()];
    for atom in atoms {
        let line = lines.len() - 1;
        let full = !lines[line].atoms.is_empty() && lines[line].width + space + atom.width > width;
        if full {
            lines.push(Line::default());
        }
        let line = lines.len() - 1;
        lines[line].add(atom, space);
    }
    lines
}

/// The words of a text, none wider than a line. Between two spaces stands an empty one.
pub(super) fn words(text: &str, face: Face, width: f32, fonts: &mut Fonts) -> Vec<Atom> {
    let mut out = Vec::new();
    for word in text.split(' ') {
        chop(word, face, width, fonts, &mut out);
    }
    out
}

/// A word, cut in two and again until each part fits.
fn chop(word: &str, face: Face, width: f32, fonts: &mut Fonts, out: &mut Vec<Atom>) {
    let atom = Atom::word(word, face, fonts);
    let count = word.chars().count();
    if atom.width <= width || count < 2 {
        out.push(atom);
        return;
    }
    let fits = ((count as f32 * width / atom.width * 0.9) as usize).clamp(1, count - 1);
    let cut = word.char_indices().nth(fits).map_or(word.len(), |(i, _)| i);
    chop(&word[..cut], face, width, fonts, out);
    chop(&word[cut..], face, width, fonts, out);
}
