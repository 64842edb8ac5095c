//! The fonts of the PDF: measured for setting, cut down to the glyphs in use, embedded with their text.

use std::collections::BTreeMap;

use super::pages::pressed;
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Str};
use subsetter::GlyphRemapper;
use ttf_parser::{Face, GlyphId};

/// A font of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Style {
    Regular,
    Bold,
    Italic,
    Mono,
}

const STYLES: [Style; 4] = [Style::Regular, Style::Bold, Style::Italic, Style::Mono];

impl Style {
    /// Its name in the pages' resources.
    pub(super) fn name(self) -> Name<'static> {
        Name(match self {
            Style::Regular => b"R",
            Style::Bold => b"B",
            Style::Italic => b"I",
            Style::Mono => b"M",
        })
    }

    fn family(self) -> &'static str {
        if self == Style::Mono { "DejaVu Sans Mono" } else { "Libertinus Serif" }
    }
}

struct Font {
    data: &'static [u8],
    face: Face<'static>,
    remapper: GlyphRemapper,
    /// New glyph numbers with their text and their width in thousandths of the size.
    used: BTreeMap<u16, (char, f32)>,
}

/// The four fonts.
pub(super) struct Fonts {
    fonts: Vec<Font>,
    /// Whether a letter was set as a square because no font has it.
    lacking: bool,
}

/// What stands for a letter that no font has.
const SQUARE: char = '\u{25a1}';

/// A stretch of text in one font.
pub(super) struct Glyphs {
    pub(super) style: Style,
    /// Two bytes a glyph.
    pub(super) bytes: Vec<u8>,
    /// Thousandths of the size.
    pub(super) width: f32,
}

impl Fonts {
    /// The fonts that the program comes with (SIL Open Font License, Bitstream Vera licence).
    ///
    /// `None` when one cannot be read, which a test rules out.
    pub(super) fn load() -> Option<Fonts> {
        let fonts = STYLES.iter().map(|style| {
            typst_assets::fonts().find_map(|data| {
                let face = Face::parse(data, 0).ok()?;
                let family =
                    face.names().into_iter().find(|n| n.name_id == ttf_parser::name_id::FAMILY && n.is_unicode());
                let fits = family.and_then(|n| n.to_string()).is_some_and(|f| f == style.family())
                    && face.is_bold() == (*style == Style::Bold)
                    && (face.is_italic() || face.is_oblique()) == (*style == Style::Italic);
                fits.then(|| Font { data, face, remapper: GlyphRemapper::new(), used: BTreeMap::new() })
            })
        });
        Some(Fonts { fonts: fonts.collect::<Option<_>>()?, lacking: false })
    }

    /// A text in stretches of one font each. What the wanted font lacks is taken from the one with the
    /// widest repertoire; what that lacks too is set as a white square, so that nothing vanishes.
    pub(super) fn glyphs(&mut self, text: &str, wanted: Style) -> Vec<Glyphs> {
        let mut out: Vec<Glyphs> = Vec::new();
        for c in text.chars() {
            // Marks that steer the direction of writing have no glyph.
            if c.is_control()
                || matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}')
            {
                continue;
            }
            let has = |style: Style, c: char| self.fonts[style as usize].face.glyph_index(c).map(|g| (style, g, c));
            let found = has(wanted, c).or_else(|| has(Style::Mono, c));
            self.lacking |= found.is_none() && c != SQUARE;
            let Some((style, glyph, c)) = found.or_else(|| has(Style::Mono, SQUARE)) else { continue };
            let (id, width) = self.use_glyph(style, glyph, c);
            match out.last_mut().filter(|g| g.style == style) {
                Some(g) => {
                    g.bytes.extend(id.to_be_bytes());
                    g.width += width;
                }
                None => out.push(Glyphs { style, bytes: id.to_be_bytes().to_vec(), width }),
            }
        }
        out
    }

    /// Whether a square stands for a letter somewhere.
    pub(super) fn lacking(&self) -> bool {
        self.lacking
    }

    fn use_glyph(&mut self, style: Style, glyph: GlyphId, c: char) -> (u16, f32) {
        let font = &mut self.fonts[style as usize];
        let per_em = f32::from(font.face.units_per_em());
        let width = f32::from(font.face.glyph_hor_advance(glyph).unwrap_or(0)) * 1000.0 / per_em;
        let id = font.remapper.remap(glyph.0);
        font.used.entry(id).or_insert((c, width));
        (id, width)
    }

    /// Writes every font; returns their names and numbers for the pages.
    pub(super) fn embed(&self, pdf: &mut Pdf, next: &mut dyn FnMut() -> Ref) -> Vec<(Style, Ref)> {
        STYLES.into_iter().map(|style| (style, self.embed_one(style, pdf, next))).collect()
    }

    fn embed_one(&self, style: Style, pdf: &mut Pdf, next: &mut dyn FnMut() -> Ref) -> Ref {
        let font = &self.fonts[style as usize];
        let [whole, cid, descriptor, cmap, file] = [(); 5].map(|()| next());
        let face = &font.face;
        let letters =
            face.names().into_iter().find(|n| n.name_id == ttf_parser::name_id::POST_SCRIPT_NAME && n.is_unicode());
        // Six letters before the name say that it is a part of the font.
        let name = format!("SHEETA+{}", letters.and_then(|n| n.to_string()).unwrap_or_else(|| "Font".into()));
        let name = Name(name.as_bytes());
        let outlines = face.tables().cff.is_some();
        let system = SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };
        pdf.type0_font(whole)
            .base_font(name)
            .encoding_predefined(Name(b"Identity-H"))
            .descendant_font(cid)
            .to_unicode(cmap);
        let mut cid_font = pdf.cid_font(cid);
        cid_font.subtype(if outlines { CidFontType::Type0 } else { CidFontType::Type2 });
        cid_font.base_font(name).system_info(system).font_descriptor(descriptor).default_width(0.0);
        if !outlines {
            cid_font.cid_to_gid_map_predefined(Name(b"Identity"));
        }
        let mut widths = cid_font.widths();
        font.used.iter().for_each(|(id, (_, width))| {
            widths.same(*id, *id, *width);
        });
        widths.finish();
        cid_font.finish();
        let scale = |v: i16| f32::from(v) * 1000.0 / f32::from(face.units_per_em());
        let b = face.global_bounding_box();
        let mut described = pdf.font_descriptor(descriptor);
        let mut flags = FontFlags::SYMBOLIC;
        flags.set(FontFlags::SERIF, style != Style::Mono);
        flags.set(FontFlags::FIXED_PITCH, style == Style::Mono);
        flags.set(FontFlags::ITALIC, style == Style::Italic);
        described.name(name).flags(flags);
        described.bbox(Rect::new(scale(b.x_min), scale(b.y_min), scale(b.x_max), scale(b.y_max)));
        described.italic_angle(face.italic_angle()).ascent(scale(face.ascender())).descent(scale(face.descender()));
        described.cap_height(scale(face.capital_height().unwrap_or(face.ascender()))).stem_v(80.0);
        if outlines {
            described.font_file3(file);
        } else {
            described.font_file2(file);
        }
        described.finish();
        let mut map = UnicodeCmap::new(Name(b"Sheet"), system);
        font.used.iter().for_each(|(id, (c, _))| map.pair(*id, *c));
        pdf.cmap(cmap, &map.finish());
        let data = subsetter::subset(font.data, 0, &font.remapper).unwrap_or_else(|_| font.data.to_vec());
        let part = if outlines { compact(&data) } else { data };
        let packed = pressed(&part);
        let mut stream = pdf.stream(file, &packed);
        stream.filter(Filter::FlateDecode);
        if outlines {
            stream.pair(Name(b"Subtype"), Name(b"CIDFontType0C"));
        }
        stream.finish();
        whole
    }
}

/// The outlines' table alone, which is all that a PDF wants of such a font.
fn compact(font: &[u8]) -> Vec<u8> {
    let table = ttf_parser::RawFace::parse(font, 0).ok().and_then(|f| f.table(ttf_parser::Tag::from_bytes(b"CFF ")));
    table.unwrap_or(font).to_vec()
}
