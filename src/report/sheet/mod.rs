//! The client's sheet: what is handed over, for the client, the workshop and the engineer.

mod client;
mod document;
mod engineer;
mod formula;
mod html;
mod markdown;
mod pdf;
mod workshop;

use sha2::{Digest, Sha256};

use super::Report;
use crate::check::{CheckError, MemberDiagrams, Schedule, diagrams};
use crate::choose::Heaviest;
use crate::tables::Tables;
use document::Block;

/// Everything the sheet says, once for every face.
#[derive(Debug)]
pub struct Sheet<'a> {
    /// What the check found.
    pub report: Report<'a>,
    /// The brief as typed.
    pub brief: &'a str,
    /// SHA-256 of the brief's bytes, in hexadecimal.
    pub checksum: String,
    /// Shear, moment and sag of the governing members.
    pub diagrams: Vec<MemberDiagrams>,
    /// What to cut, buy and drill.
    pub schedule: Schedule,
    /// SHA-256 of the file with the user's own table rows, if there is one.
    pub own_tables: Option<String>,
    /// The heaviest sleeper who may lie in every place, if it was asked for.
    pub rating: Option<Heaviest>,
    /// The tables the values came from.
    tables: &'a Tables,
}

impl<'a> Sheet<'a> {
    /// The sheet of a report on a brief, with tables that may hold a user's own rows, whose text is then
    /// given too.
    ///
    /// # Errors
    ///
    /// As [`check`](crate::check::check): the frame cannot be analysed.
    pub fn of(
        report: Report<'a>,
        brief: &'a str,
        tables: &'a Tables,
        own_rows: Option<&str>,
    ) -> Result<Sheet<'a>, CheckError> {
        let (checksum, own_tables) = (sha256(brief), own_rows.map(sha256));
        let diagrams = diagrams(report.platform, report.assessment)?;
        let schedule = Schedule::of(report.platform);
        Ok(Sheet { report, brief, checksum, diagrams, schedule, own_tables, rating: None, tables })
    }

    /// The sheet with a load rating.
    pub fn rated(self, rating: Heaviest) -> Sheet<'a> {
        Sheet { rating: Some(rating), ..self }
    }

    /// The sheet as one self-contained HTML page.
    pub fn html(&self) -> String {
        html::write(self)
    }

    /// The sheet as Markdown.
    pub fn markdown(&self) -> String {
        markdown::write(self)
    }

    /// The sheet as a PDF, on Letter or A4 by the brief's units; `None` if the fonts that come with the
    /// program cannot be read.
    pub fn pdf(&self) -> Option<Vec<u8>> {
        pdf::write(self)
    }

    /// What is on it, from top to bottom, below the title.
    fn blocks(&self) -> Vec<Block> {
        let mut out = client::blocks(self);
        out.extend(workshop::blocks(self));
        out.extend(engineer::blocks(self));
        out
    }

    fn title(&self) -> String {
        super::say::printable(&self.report.platform.title)
    }
}

fn sha256(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|b| format!("{b:02x}")).collect()
}

/// How this program signs.
fn program() -> String {
    format!("slatwright {}", env!("CARGO_PKG_VERSION"))
}
