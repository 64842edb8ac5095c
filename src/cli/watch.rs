//! `slatwright check --watch`: the check again whenever the brief is saved.
//!
//! The files are read ten times a second and compared with what was read before. That needs no help from the system,
//! follows editors that save under another name and rename, and sees a file that comes back after it was gone. A text
//! counts once it has stood for two readings, none or an empty one for five: an editor may be in the middle of saving.

use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::Duration;

use super::check::{Checked, checked_on, options};
use super::{CheckArguments, Families, Format, NOT_COMPUTED, PASSES, Streams, input};
use crate::report::change::{self, Standing};
use crate::report::{Report, text};

/// From one reading to the next.
const PAUSE: Duration = Duration::from_millis(100);

/// What was read: each file's text, or why there is none.
type Seen = Vec<Result<Vec<u8>, String>>;

/// What is known of the brief so far.
#[derive(Default)]
struct Known {
    /// Where it stood last, through mistakes.
    standing: Option<Standing>,
    /// There is none now.
    troubled: bool,
}

pub(super) fn run(a: &CheckArguments, streams: &mut Streams<'_>) -> u8 {
    let Some(path) = &a.brief else { return streams.fail("no brief was named") };
    if path == Path::new("-") {
        return streams.fail("standard input cannot be watched; name a file");
    }
    if matches!(a.format, Format::Json) || a.rules == Some(Families::Both) {
        return streams.fail("--watch prints text, by one family of rules");
    }
    let files: Vec<&PathBuf> = [Some(path), a.tables.as_ref()].into_iter().flatten().collect();
    let name = input::shown(path);
    let mut known = Known::default();
    let mut shown = read(&files);
    loop {
        let mut said = known.news(a, &name, &shown);
        said.push_str(&format!("\nWaiting for {name} to change; Ctrl-C ends it.\n"));
        if let Err(e) = streams.out.write_all(said.as_bytes()).and_then(|()| streams.out.flush()) {
            // A reader who stops reading ends it; a full disk is an error.
            return if e.kind() == std::io::ErrorKind::BrokenPipe { PASSES } else { NOT_COMPUTED };
        }
        shown = next(&files, &shown);
    }
}

fn read(files: &[&PathBuf]) -> Seen {
    files.iter().map(|f| input::bytes(f).map_err(|e| e.to_string())).collect()
}

/// Waits for another text that stands still.
fn next(files: &[&PathBuf], shown: &Seen) -> Seen {
    let mut found = shown.clone();
    let mut stood = 0;
    loop {
        sleep(PAUSE);
        let now = read(files);
        stood = if now == found { stood + 1 } else { 1 };
        found = now;
        let there = found.iter().all(|f| f.as_ref().is_ok_and(|bytes| !bytes.is_empty()));
        if found != *shown && stood >= if there { 2 } else { 5 } {
            return found;
        }
    }
}

/// The check of a reading; what is wrong with it goes into `told`.
fn checked(a: &CheckArguments, name: &str, seen: &Seen, told: &mut Vec<u8>) -> Option<Checked> {
    let mut quiet = Streams { out: &mut std::io::sink(), err: told };
    let source = match &seen[0] {
        Ok(bytes) => input::source(name.to_owned(), bytes.clone()),
        Err(e) => Err(format!("{name} cannot be read: {e}")),
    };
    let source = source.map_err(|e| quiet.fail(&e)).ok()?;
    let tables = input::tables(a.tables.as_deref(), &mut quiet).ok()?;
    checked_on(a, &source, &tables, &mut quiet).ok()
}

impl Known {
    /// What is to be said of a reading.
    fn news(&mut self, a: &CheckArguments, name: &str, seen: &Seen) -> String {
        let mut told = Vec::new();
        let Some(Checked { platform, assessment, remedies }) = checked(a, name, seen, &mut told) else {
            self.troubled = true;
            return String::from_utf8_lossy(&told).into_owned();
        };
        let standing = Standing::of(&assessment);
        let cured = std::mem::take(&mut self.troubled);
        match self.standing.replace(standing.clone()) {
            None => {
                let report = Report { platform: &platform, assessment: &assessment, remedies: &remedies };
                text::write(&report, options(a))
            }
            Some(before) => change::text(&before, &standing, cured),
        }
    }
}
