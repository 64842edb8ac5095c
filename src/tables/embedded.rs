//! The tables this program comes with, packed when it was built: `tables/build.rs` says how.

use std::collections::BTreeMap;
use std::fmt::Display;

use serde::de::DeserializeOwned;

use super::row::{Origin, Row, Rows};

/// An embedded table being read. What is wrong with it is a mistake of whoever built the program, found by its tests:
/// they read each file as a user's is read, place by place.
pub(super) struct Embedded {
    sections: BTreeMap<&'static str, &'static [u8]>,
    meta: Origin,
}

impl Embedded {
    pub(super) fn of(packed: &'static [u8]) -> Embedded {
        let sections = rmp_serde::from_slice(packed).unwrap_or_else(|e| wrong("a file", e));
        let mut embedded = Embedded { sections, meta: Origin::default() };
        embedded.meta = embedded.section("meta");
        embedded
    }
}

impl Rows for Embedded {
    fn section<T: DeserializeOwned + Default>(&mut self, name: &str) -> T {
        let Some(packed) = self.sections.get(name) else { return T::default() };
        rmp_serde::from_slice(packed).unwrap_or_else(|e| wrong(name, e))
    }

    fn add_to<R: Row>(&mut self, rows: &mut Vec<R>) {
        let printed: Vec<(Origin, R::Printed)> = self.section(R::ARRAY);
        rows.extend(printed.into_iter().map(|(own, printed)| {
            let (provenance, units) = own
                .completed(&self.meta, R::HAS_UNITS)
                .unwrap_or_else(|missing| wrong(R::ARRAY, format!("a row does not give its {}", missing.join(", "))));
            R::new(printed, units, provenance).unwrap_or_else(|e| wrong(R::ARRAY, e.message))
        }));
    }
}

fn wrong(place: &str, message: impl Display) -> ! {
    unreachable!("an embedded table is wrong, in {place}: {message}")
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::super::file::Document;
    use super::super::{
        Table, TableError, clear_wood, durations, fasteners, loads, lumber, mattresses, occupants, openings, pipes,
        stock, strength_classes, tolerance,
    };

    /// Whether the file reads without a mistake, as a user's would, and gives what was packed.
    fn packed<T: Table + std::fmt::Debug>(name: &str) {
        let path = format!("{}/tables/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        let text = fs::read_to_string(path).expect(name);
        let mut file = Document::parse(&text);
        let mut table = T::default();
        table.add(&mut file);
        if let Err(errors) = file.finish(T::ARRAYS) {
            let line = |e: &TableError| text[..e.span.as_ref().map_or(0, |s| s.start)].matches('\n').count() + 1;
            let said = errors.iter().map(|e| format!("\ntables/{name}.toml:{}: {e}; {}", line(e), e.help));
            panic!("{}", said.collect::<String>());
        }
        assert_eq!(format!("{table:?}"), format!("{:?}", T::embedded()), "{name}");
    }

    #[test]
    fn what_was_packed_is_what_the_files_say() {
        packed::<lumber::Lumber>("lumber");
        packed::<clear_wood::ClearWood>("clear_wood");
        packed::<stock::Stock>("stock");
        packed::<fasteners::Fasteners>("fasteners");
        packed::<occupants::Occupants>("occupants");
        packed::<mattresses::Mattresses>("mattresses");
        packed::<durations::Durations>("durations");
        packed::<strength_classes::StrengthClasses>("strength_classes");
        packed::<loads::Loads>("loads");
        packed::<openings::Openings>("openings");
        packed::<pipes::Pipes>("pipes");
        packed::<tolerance::Tolerance>("tolerance");
        let files = fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/tables")).expect("tables");
        let files = files.filter(|f| f.as_ref().is_ok_and(|f| f.path().extension().is_some_and(|e| e == "toml")));
        assert_eq!(files.count(), 12, "a file of tables/ is not compared here");
    }
}
