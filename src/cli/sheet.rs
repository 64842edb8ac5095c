//! `slatwright sheet`

use std::path::Path;

use super::{FAILS, NOT_COMPUTED, PASSES, SheetArguments, Streams, file, input};
use crate::brief::Brief;
use crate::check::{Verdict, check_with_remedies};
use crate::choose::{Design, heaviest};
use crate::platform::Platform;
use crate::report::{Report, Sheet};

/// What a sheet can be written as, by the ending of its file.
#[derive(Clone, Copy)]
enum Face {
    Html,
    Markdown,
    Pdf,
}

pub(super) fn run(a: &SheetArguments, streams: &mut Streams<'_>) -> u8 {
    match written(a, streams) {
        Ok(status) | Err(status) => status,
    }
}

fn written(a: &SheetArguments, streams: &mut Streams<'_>) -> Result<u8, u8> {
    let face = face(&a.out).map_err(|m| streams.fail(&m))?;
    file::free(&a.out, a.force, streams)?;
    let (tables, own_rows) = input::tables_and_rows(a.tables.as_deref(), streams)?;
    let source = input::read(&a.brief, streams)?;
    let brief = Brief::read(&source.text);
    let platform = Platform::build(&brief, &tables).map_err(|m| input::explain(&m, &source, streams))?;
    let (assessment, remedies) = check_with_remedies(&platform).map_err(|e| streams.fail(&e.to_string()))?;
    let report = Report { platform: &platform, assessment: &assessment, remedies: &remedies };
    let sheet =
        Sheet::of(report, &source.text, &tables, own_rows.as_deref()).map_err(|e| streams.fail(&e.to_string()))?;
    let rating = heaviest(&Design::new(&brief, &tables)).map_err(|m| input::explain(&m, &source, streams))?;
    let sheet = sheet.rated(rating);
    let bytes = match face {
        Face::Html => sheet.html().into_bytes(),
        Face::Markdown => sheet.markdown().into_bytes(),
        Face::Pdf => sheet.pdf().ok_or_else(|| streams.fail("the program's own fonts cannot be read"))?,
    };
    file::write(&a.out, &bytes, a.force, streams)?;
    let verdict = assessment.verdict();
    let status = match verdict {
        Verdict::Pass => PASSES,
        Verdict::Fail => FAILS,
        Verdict::NotChecked => NOT_COMPUTED,
    };
    Ok(streams.print(&format!("{}: {}\n", a.out.display(), verdict.word()), status))
}

fn face(path: &Path) -> Result<Face, String> {
    let ending = path.extension().and_then(|e| e.to_str()).unwrap_or_default().to_lowercase();
    match ending.as_str() {
        "html" | "htm" => Ok(Face::Html),
        "md" => Ok(Face::Markdown),
        "pdf" => Ok(Face::Pdf),
        _ => Err(format!("{}: a sheet's file ends in .html, .pdf or .md", path.display())),
    }
}
