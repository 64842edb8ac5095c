//! Lines of boxes: broken to a width, drawn on a base line.

use std::ops::Range;

use super::atom::{Atom, Face};
use super::direction::Mixed;
use super::font::Fonts;

/// A line of boxes with a space between each two.
#[derive(Default)]
pub(super) struct Line {
    pub(super) atoms: Vec<Atom>,
    /// How far from the left edge of its column it begins.
    pub(super) indent: f32,
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

/// Lines of a paragraph of which some is written from right to left: broken as it is read, each then put into
/// its order on paper.
pub(super) fn reordered(paragraph: &Mixed, face: Face, width: f32, fonts: &mut Fonts) -> Vec<Line> {
    let space = Atom::space(face, fonts).width;
    let text = paragraph.text();
    let mut ranges: Vec<(Range<usize>, f32)> = Vec::new();
    let mut from = 0;
    for word in text.split(' ') {
        let mut pieces = Vec::new();
        chop(word, face, width, fonts, &mut |piece, atom| pieces.push((piece.len(), atom.width)));
        for (k, (length, wide)) in pieces.into_iter().enumerate() {
            let piece = from..from + length;
            from += length;
            match ranges.last_mut().filter(|(_, so_far)| k == 0 && so_far.to_owned() + space + wide <= width) {
                Some((line, so_far)) => {
                    line.end = piece.end;
                    *so_far += space + wide;
                }
                None => ranges.push((piece, wide)),
            }
        }
        from += 1;
    }
    let set = ranges.into_iter().map(|(range, _)| {
        let mut line = Line::default();
        for word in paragraph.on_paper(range).split(' ') {
            line.add(Atom::word(word, face, fonts), space);
        }
        line.indent = if paragraph.from_right { (width - line.width).max(0.0) } else { 0.0 };
        line
    });
    set.collect()
}

/// The words of a text, none wider than a line. Between two spaces stands an empty one.
pub(super) fn words(text: &str, face: Face, width: f32, fonts: &mut Fonts) -> Vec<Atom> {
    let mut out = Vec::new();
    for word in text.split(' ') {
        chop(word, face, width, fonts, &mut |_, atom| out.push(atom));
    }
    out
}

/// A word, cut in two and again until each part fits; each part is handed on with its box.
fn chop(word: &str, face: Face, width: f32, fonts: &mut Fonts, out: &mut dyn FnMut(&str, Atom)) {
    let atom = Atom::word(word, face, fonts);
    let count = word.chars().count();
    if atom.width <= width || count < 2 {
        out(word, atom);
        return;
    }
    let fits = ((count as f32 * width / atom.width * 0.9) as usize).clamp(1, count - 1);
    let cut = word.char_indices().nth(fits).map_or(word.len(), |(i, _)| i);
    chop(&word[..cut], face, width, fonts, out);
    chop(&word[cut..], face, width, fonts, out);
}
