//! Reading files the user names.

use std::borrow::Cow;
use std::io::Read;
use std::path::Path;

use annotate_snippets::Renderer;

use super::Streams;
use crate::brief::{MOST_MISTAKES, Mistake, Mistakes, render};
use crate::tables::Tables;

/// Largest file read: a brief is a page, a table a few hundred rows.
const MOST_BYTES: u64 = 1 << 20;

/// A file's text and its name for messages.
pub(super) struct Source {
    pub(super) name: String,
    pub(super) text: String,
}

/// Reads a file, or standard input for `-`.
pub(super) fn read(path: &Path, streams: &mut Streams<'_>) -> Result<Source, u8> {
    let name = if path == Path::new("-") { "standard input".to_owned() } else { shown(path) };
    let bytes = match bytes(path) {
        Ok(b) => b,
        Err(e) => return Err(streams.fail(&format!("{name} cannot be read: {e}"))),
    };
    source(name, bytes).map_err(|message| streams.fail(&message))
}

/// What was read as text, or why it is none.
pub(super) fn source(name: String, bytes: Vec<u8>) -> Result<Source, String> {
    if bytes.len() as u64 > MOST_BYTES {
        return Err(format!("{name} is larger than 1 MiB; a brief is a page of text"));
    }
    String::from_utf8(bytes).map(|text| Source { name: name.clone(), text }).map_err(|e| {
        let good = &e.as_bytes()[..e.utf8_error().valid_up_to()];
        let line = good.iter().filter(|b| **b == b'\n').count() + 1;
        let column = good.iter().rev().take_while(|b| **b != b'\n').count() + 1;
        format!("{name}:{line}:{column}: this is not UTF-8 text; save the brief as plain text")
    })
}

/// A path as one line of text: a file's name may hold anything, even what a terminal would obey.
pub(super) fn shown(path: &Path) -> String {
    let visible = |c: char| if c.is_control() { char::REPLACEMENT_CHARACTER } else { c };
    path.display().to_string().chars().map(visible).collect()
}

pub(super) fn bytes(path: &Path) -> std::io::Result<Vec<u8>> {
    let mut out = Vec::new();
    if path == Path::new("-") {
        std::io::stdin().lock().take(MOST_BYTES + 1).read_to_end(&mut out)?;
    } else {
        std::fs::File::open(path)?.take(MOST_BYTES + 1).read_to_end(&mut out)?;
    }
    Ok(out)
}

/// Prints mistakes with file, line, column and caret.
pub(super) fn explain(mistakes: &[Mistake], source: &Source, streams: &mut Streams<'_>) -> u8 {
    let renderer = Renderer::plain();
    let mut text = render(mistakes, &source.name, &source.text, &renderer);
    let count = match mistakes.len() {
        1 => "1 mistake".to_owned(),
        n if n < MOST_MISTAKES => format!("{n} mistakes"),
        n => format!("{n} mistakes or more"),
    };
    text.push_str(&format!("{count} in {}; nothing was checked\n", source.name));
    streams.diagnose(&text)
}

/// The tables this program comes with, or those with the user's own rows.
pub(super) type Known = Cow<'static, Tables>;

/// The tables, with the user's own rows if a file was named.
pub(super) fn tables(path: Option<&Path>, streams: &mut Streams<'_>) -> Result<Known, u8> {
    tables_and_rows(path, streams).map(|(tables, _)| tables)
}

/// As [`tables`], with the text of the user's file.
pub(super) fn tables_and_rows(path: Option<&Path>, streams: &mut Streams<'_>) -> Result<(Known, Option<String>), u8> {
    let Some(path) = path else { return Ok((Cow::Borrowed(Tables::embedded()), None)) };
    let source = read(path, streams)?;
    let tables = Tables::extended_by(&source.text).map_err(|errors| {
        let mut mistakes = Mistakes::default();
        for e in errors {
            mistakes.add(&e.span.unwrap_or(0..0), e.message, "", e.help);
        }
        explain(&mistakes.in_order(), &source, streams)
    })?;
    Ok((Cow::Owned(tables), Some(source.text)))
}
