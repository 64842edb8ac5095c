//! The names of the columns every row may have. The build script, which packs the tables, divides rows by them too.

pub(crate) const ORIGIN: [&str; 7] = ["source", "locator", "edition", "seen", "note", "units", "replaces"];
