//! `slatwright sheet`

use std::io::Write;
use std::path::Path;

use super::{FAILS, NOT_COMPUTED, PASSES, SheetArguments, Streams, input};
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
    if a.out.exists() && !a.force {
        return Err(streams.fail(&format!("{} exists: name another file, or add --force", a.out.display())));
    }
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
    replace(&a.out, &bytes, a.force).map_err(|e| {
        streams.fail(&format!("{} could not be written: {e}", a.out.display()));
        NOT_COMPUTED
    })?;
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

/// Writes beside the file and renames, so that there is never half a file; without `force` a file that
/// came to be in the meantime stays.
pub(super) fn replace(path: &Path, bytes: &[u8], force: bool) -> std::io::Result<()> {
    let folder = match path.parent() {
        Some(p) if !p.as_os_str().is_empty() => p,
        _ => Path::new("."),
    };
    let mut file = tempfile::Builder::new().prefix(".sheet").tempfile_in(folder)?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        file.as_file().set_permissions(std::fs::Permissions::from_mode(0o644))?;
    }
    if force { file.persist(path) } else { file.persist_noclobber(path) }.map(|_| ()).map_err(|e| e.error)
}
