//! The pages of the PDF, with the structure that says what each part of them is.

use pdf_writer::types::StructRole;
use pdf_writer::writers::StructTreeRoot;
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, TextStr};

use super::font::Fonts;

/// Points in a millimetre.
pub(super) const MM: f32 = 72.0 / 25.4;

/// A part of the document's structure.
struct Tag {
    role: StructRole,
    parent: Option<usize>,
    kids: Vec<Kid>,
    alt: Option<String>,
}

enum Kid {
    Tag(usize),
    /// Marked content on a page.
    Marked(usize, i32),
}

struct Page {
    content: Content,
    /// The tag of each marked stretch.
    marked: Vec<usize>,
}

/// Pages under way.
pub(super) struct Pages {
    pub(super) size: [f32; 2],
    pages: Vec<Page>,
    tags: Vec<Tag>,
    open: Vec<usize>,
    /// Headings that a reader can jump to.
    outline: Vec<Entry>,
}

/// A heading, its page, and its top upwards from the page's foot.
struct Entry {
    text: String,
    page: usize,
    top: f32,
}

impl Pages {
    pub(super) fn new(size: [f32; 2]) -> Pages {
        let document = Tag { role: StructRole::Document, parent: None, kids: Vec::new(), alt: None };
        Pages { size, pages: vec![Page::new()], tags: vec![document], open: vec![0], outline: Vec::new() }
    }

    pub(super) fn turn(&mut self) {
        self.pages.push(Page::new());
    }

    pub(super) fn count(&self) -> usize {
        self.pages.len()
    }

    /// Enters what stands next on this page into the file's outline.
    pub(super) fn enter(&mut self, text: &str, top: f32) {
        let page = self.pages.len() - 1;
        self.outline.push(Entry { text: text.into(), page, top });
    }

    fn current(&self) -> usize {
        self.open.last().copied().unwrap_or(0)
    }

    /// Opens a part of the structure; every one is closed again.
    pub(super) fn open(&mut self, role: StructRole, alt: Option<String>) {
        let (id, parent) = (self.tags.len(), self.current());
        self.tags.push(Tag { role, parent: Some(parent), kids: Vec::new(), alt });
        self.tags[parent].kids.push(Kid::Tag(id));
        self.open.push(id);
    }

    pub(super) fn close(&mut self) {
        self.open.pop();
    }

    /// Draws something that belongs to the open part.
    pub(super) fn draw(&mut self, draw: impl FnOnce(&mut Content)) {
        let (tag, number) = (self.current(), self.pages.len() - 1);
        let Some(page) = self.pages.last_mut() else { return };
        let id = page.marked.len() as i32;
        page.marked.push(tag);
        let name = self.tags[tag].role.to_name();
        page.content.begin_marked_content_with_properties(name).properties().identify(id);
        draw(&mut page.content);
        page.content.end_marked_content();
        self.tags[tag].kids.push(Kid::Marked(number, id));
    }

    /// Draws something that says nothing: a rule, a page number.
    pub(super) fn decorate(&mut self, page: usize, draw: impl FnOnce(&mut Content)) {
        let Some(page) = self.pages.get_mut(page) else { return };
        page.content.begin_marked_content(Name(b"Artifact"));
        draw(&mut page.content);
        page.content.end_marked_content();
    }

    /// The finished file.
    pub(super) fn write(self, fonts: &Fonts, title: &str, program: &str) -> Vec<u8> {
        let mut pdf = Pdf::new();
        let mut last = 0;
        let mut next = || {
            last += 1;
            Ref::new(last)
        };
        let [catalog, tree, info, root, parents, outline] = [(); 6].map(|()| next());
        let pages: Vec<(Ref, Ref)> = self.pages.iter().map(|_| (next(), next())).collect();
        let tags: Vec<Ref> = self.tags.iter().map(|_| next()).collect();
        let entries: Vec<Ref> = self.outline.iter().map(|_| next()).collect();
        let embedded = fonts.embed(&mut pdf, &mut next);
        let mut c = pdf.catalog(catalog);
        c.pages(tree).lang(TextStr("en"));
        c.viewer_preferences().display_doc_title(true);
        c.mark_info().marked(true);
        c.outlines(outline);
        c.pair(Name(b"StructTreeRoot"), root);
        c.finish();
        let mut structure = pdf.indirect(root).start::<StructTreeRoot<'_>>();
        structure.child(tags[0]);
        structure.pair(Name(b"ParentTree"), parents);
        structure.parent_tree_next_key(pages.len() as i32);
        structure.finish();
        pdf.document_info(info).title(TextStr(title)).producer(TextStr(program)).creator(TextStr(program));
        pdf.pages(tree).kids(pages.iter().map(|p| p.0)).count(pages.len() as i32);
        write_outline(&mut pdf, outline, &self.outline, &entries, &pages);
        let [width, height] = self.size;
        let mut numbers = pdf.indirect(parents).dict();
        let mut all = numbers.insert(Name(b"Nums")).array();
        for (i, page) in self.pages.iter().enumerate() {
            all.item(i as i32);
            all.push().array().items(page.marked.iter().map(|t| tags[*t]));
        }
        all.finish();
        numbers.finish();
        for (i, page) in self.pages.into_iter().enumerate() {
            let (id, content) = pages[i];
            let mut p = pdf.page(id);
            p.media_box(Rect::new(0.0, 0.0, width, height)).parent(tree).contents(content).struct_parents(i as i32);
            let mut resources = p.resources();
            let mut names = resources.fonts();
            for (style, font) in &embedded {
                names.pair(style.name(), *font);
            }
            names.finish();
            resources.finish();
            p.finish();
            pdf.stream(content, &pressed(&page.content.finish())).filter(Filter::FlateDecode);
        }
        for (tag, id) in self.tags.iter().zip(&tags) {
            let mut element = pdf.struct_element(*id);
            element.kind(tag.role).parent(tag.parent.map_or(root, |p| tags[p]));
            if let Some(alt) = &tag.alt {
                element.alt(TextStr(alt));
            }
            let mut children = element.children();
            for kid in &tag.kids {
                match kid {
                    Kid::Tag(t) => {
                        children.struct_element(tags[*t]);
                    }
                    Kid::Marked(page, id) => {
                        children.marked_content_ref().page(pages[*page].0).marked_content_id(*id);
                    }
                }
            }
            children.finish();
            element.finish();
        }
        pdf.finish()
    }
}

/// The outline: one level, in the order of the pages.
fn write_outline(pdf: &mut Pdf, root: Ref, entries: &[Entry], ids: &[Ref], pages: &[(Ref, Ref)]) {
    let mut whole = pdf.outline(root);
    if let (Some(first), Some(last)) = (ids.first(), ids.last()) {
        whole.first(*first).last(*last).count(ids.len() as i32);
    }
    whole.finish();
    for (i, (entry, id)) in entries.iter().zip(ids).enumerate() {
        let mut item = pdf.outline_item(*id);
        item.title(TextStr(&entry.text)).parent(root);
        if i > 0 {
            item.prev(ids[i - 1]);
        }
        if let Some(next) = ids.get(i + 1) {
            item.next(*next);
        }
        item.dest().page(pages[entry.page].0).xyz(0.0, entry.top, None);
    }
}

impl Page {
    fn new() -> Page {
        Page { content: Content::new(), marked: Vec::new() }
    }
}

/// Without what a file can do without.
pub(super) fn pressed(bytes: &[u8]) -> Vec<u8> {
    miniz_oxide::deflate::compress_to_vec_zlib(bytes, 6)
}
