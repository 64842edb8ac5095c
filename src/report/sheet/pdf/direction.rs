//! Text that is written from right to left, put into its order on paper (Unicode Annex 9).

use std::ops::Range;

use unicode_bidi::{BidiClass, BidiInfo, bidi_class};

/// A paragraph of which some is written from right to left.
pub(super) struct Mixed {
    /// On one line: what would separate paragraphs is a space.
    text: String,
    /// Whether the paragraph itself begins at the right.
    pub(super) from_right: bool,
}

impl Mixed {
    /// `None` for text that reads from left to right throughout, as nearly all does.
    pub(super) fn of(text: &str) -> Option<Mixed> {
        let rightwards = |c| !matches!(bidi_class(c), BidiClass::R | BidiClass::AL);
        if text.is_ascii() || text.chars().all(rightwards) {
            return None;
        }
        let text: String = text.chars().filter_map(kept).collect();
        let from_right = BidiInfo::new(&text, None).paragraphs.first().is_some_and(|p| p.level.is_rtl());
        Some(Mixed { text, from_right })
    }

    /// The paragraph as it is read.
    pub(super) fn text(&self) -> &str {
        &self.text
    }

    /// One line of it as it stands on paper, from left to right.
    pub(super) fn on_paper(&self, line: Range<usize>) -> String {
        let info = BidiInfo::new(&self.text, None);
        let Some(paragraph) = info.paragraphs.first() else { return String::new() };
        let (levels, runs) = info.visual_runs(paragraph, line);
        let mut out = String::new();
        for run in runs {
            let part = &self.text[run.clone()];
            if levels[run.start].is_rtl() { turned(part, &mut out) } else { out.push_str(part) }
        }
        out
    }
}

/// A character as it is set: what would separate paragraphs is a space; marks that steer the direction are left
/// out, which have no glyph and could make a word say something else than it does.
fn kept(c: char) -> Option<char> {
    use BidiClass::{B, FSI, LRE, LRI, LRO, PDF, PDI, RLE, RLI, RLO};
    match bidi_class(c) {
        B => Some(' '),
        FSI | LRE | LRI | LRO | PDF | PDI | RLE | RLI | RLO => None,
        _ => Some(c),
    }
}

/// A stretch from right to left, its marks still after the letter that they stand on, its brackets mirrored.
fn turned(part: &str, out: &mut String) {
    let mut letters: Vec<String> = Vec::new();
    for c in part.chars() {
        match letters.last_mut().filter(|_| bidi_class(c) == BidiClass::NSM) {
            Some(letter) => letter.push(c),
            None => letters.push(mirrored(c).to_string()),
        }
    }
    out.extend(letters.into_iter().rev());
}

fn mirrored(c: char) -> char {
    const PAIRS: [(char, char); 6] = [('(', ')'), ('[', ']'), ('{', '}'), ('<', '>'), ('«', '»'), ('‹', '›')];
    let other = |(a, b): &(char, char)| if c == *a { Some(*b) } else { (c == *b).then_some(*a) };
    PAIRS.iter().find_map(other).unwrap_or(c)
}
