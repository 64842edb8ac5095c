//! Typed, validated handbook tables, one module a table, each matching a file under `tables/`.
//!
//! Every row has a [`Provenance`](crate::source::Provenance). A table is read when it is first asked for. A user's own file in the same
//! row formats extends the tables: see [`Tables::extended_by`].

pub mod clear_wood;
pub mod durations;
mod embedded;
mod entry;
pub mod fasteners;
mod file;
pub mod loads;
pub mod lumber;
pub mod mattresses;
mod names;
pub mod occupants;
pub mod openings;
mod origin;
pub mod pipes;
mod row;
pub mod stock;
pub mod strength_classes;
pub mod tolerance;

use std::sync::OnceLock;

pub use entry::{Entry, Fact};
pub use file::TableError;
pub use names::{Missing, NotFound};

use clear_wood::ClearWood;
use durations::Durations;
use embedded::Embedded;
use fasteners::Fasteners;
use file::Document;
use loads::Loads;
use lumber::Lumber;
use mattresses::Mattresses;
use names::{joined, nearest_spelled, words};
use occupants::Occupants;
use openings::Openings;
use pipes::Pipes;
use row::Rows;
use stock::Stock;
use strength_classes::StrengthClasses;
use tolerance::Tolerance;

/// A table: what it was packed into, and how rows are added to it.
trait Table: Clone + Default {
    /// Its file under `tables/`, packed.
    const PACKED: &'static [u8];
    /// What the file may hold beside `[meta]`.
    const ARRAYS: &'static [&'static str];
    /// Takes its rows out of a file.
    fn add(&mut self, from: &mut impl Rows);
    /// Its rows for a listing.
    fn entries(&self) -> Vec<Entry>;

    /// The table this program comes with.
    fn embedded() -> Self {
        let mut table = Self::default();
        table.add(&mut Embedded::of(Self::PACKED));
        table
    }
}

/// All tables, each read when it is first asked for.
#[derive(Clone, Debug, Default)]
pub struct Tables {
    lumber: OnceLock<Lumber>,
    clear_wood: OnceLock<ClearWood>,
    stock: OnceLock<Stock>,
    fasteners: OnceLock<Fasteners>,
    occupants: OnceLock<Occupants>,
    mattresses: OnceLock<Mattresses>,
    durations: OnceLock<Durations>,
    strength_classes: OnceLock<StrengthClasses>,
    loads: OnceLock<Loads>,
    openings: OnceLock<Openings>,
    pipes: OnceLock<Pipes>,
    tolerance: OnceLock<Tolerance>,
}

impl Tables {
    /// The tables this program comes with.
    pub fn embedded() -> &'static Tables {
        static TABLES: OnceLock<Tables> = OnceLock::new();
        TABLES.get_or_init(Tables::default)
    }

    /// The tables with a user's rows added.
    ///
    /// The text is TOML with rows under `[[lumber]]`, `[[clear_wood]]`, `[[stock]]`, `[[screw]]`, `[[occupant]]`,
    /// `[[mattress]]` and the other arrays of the embedded files, in the same columns. Each row gives `source`,
    /// `locator`, `edition`, `seen` and `units` (`us` or `metric`), or leaves them to `[meta]`. A row whose name
    /// exists must say `replaces = true`.
    ///
    /// # Errors
    ///
    /// Every mistake in the text, in its order.
    pub fn extended_by(text: &str) -> Result<Tables, Vec<TableError>> {
        let mut document = Document::parse(text);
        let tables = Tables {
            lumber: extended(&mut document),
            clear_wood: extended(&mut document),
            stock: extended(&mut document),
            fasteners: extended(&mut document),
            occupants: extended(&mut document),
            mattresses: extended(&mut document),
            durations: extended(&mut document),
            strength_classes: extended(&mut document),
            loads: extended(&mut document),
            openings: extended(&mut document),
            pipes: extended(&mut document),
            tolerance: extended(&mut document),
        };
        let known = [
            Lumber::ARRAYS,
            ClearWood::ARRAYS,
            Stock::ARRAYS,
            Fasteners::ARRAYS,
            Occupants::ARRAYS,
            Mattresses::ARRAYS,
            Durations::ARRAYS,
            StrengthClasses::ARRAYS,
            Loads::ARRAYS,
            Openings::ARRAYS,
            Pipes::ARRAYS,
            Tolerance::ARRAYS,
        ];
        document.finish(&known.concat())?;
        Ok(tables)
    }

    /// Rules for guards, openings and heights.
    pub fn openings(&self) -> &Openings {
        self.openings.get_or_init(Openings::embedded)
    }

    /// Code loads by nation, and loads of furniture tests.
    pub fn loads(&self) -> &Loads {
        self.loads.get_or_init(Loads::embedded)
    }

    /// Reference design values of graded lumber.
    pub fn lumber(&self) -> &Lumber {
        self.lumber.get_or_init(Lumber::embedded)
    }

    /// Clear-wood averages of species.
    pub fn clear_wood(&self) -> &ClearWood {
        self.clear_wood.get_or_init(ClearWood::embedded)
    }

    /// Stock sizes.
    pub fn stock(&self) -> &Stock {
        self.stock.get_or_init(Stock::embedded)
    }

    /// Wood screws and lag screws.
    pub fn fasteners(&self) -> &Fasteners {
        self.fasteners.get_or_init(Fasteners::embedded)
    }

    /// Bodies: mass, stature, segments, contact patches.
    pub fn occupants(&self) -> &Occupants {
        self.occupants.get_or_init(Occupants::embedded)
    }

    /// Mattress sizes and masses.
    pub fn mattresses(&self) -> &Mattresses {
        self.mattresses.get_or_init(Mattresses::embedded)
    }

    /// Load duration factors.
    pub fn durations(&self) -> &Durations {
        self.durations.get_or_init(Durations::embedded)
    }

    /// Strength classes of structural timber and the visual grades assigned to them.
    pub fn strength_classes(&self) -> &StrengthClasses {
        self.strength_classes.get_or_init(StrengthClasses::embedded)
    }

    /// Steel pipe.
    pub fn pipes(&self) -> &Pipes {
        self.pipes.get_or_init(Pipes::embedded)
    }

    /// Factors for a lower estimate from few boards.
    pub fn tolerance(&self) -> &Tolerance {
        self.tolerance.get_or_init(Tolerance::embedded)
    }

    /// Every entry that has all the words, each at the beginning of a word of its name, its other spellings or
    /// its table; every entry when no words are given.
    pub fn search(&self, asked: &str) -> Vec<Entry> {
        let asked = words(asked);
        self.entries().into_iter().filter(|e| e.has_words(&asked)).collect()
    }

    /// One entry by its name, in any spelling that finds it in its own table.
    ///
    /// # Errors
    ///
    /// [`NotFound`] with the nearest names of all tables.
    pub fn entry(&self, name: &str) -> Result<Entry, NotFound> {
        let entries = self.entries();
        let canonical = |name: &str| entries.iter().find(|e| joined(&e.name) == joined(name));
        let by_part = || self.clear_wood().find(name).ok().and_then(|r| canonical(&r.name));
        let by_size = || self.stock().find(name).ok().and_then(|r| canonical(&r.name));
        let by_grade = || {
            let found = self.strength_classes().find(name).ok()?;
            canonical(&found.grade.map_or_else(|| found.class.name.clone(), |g| g.name()))
        };
        let listed = || {
            canonical(name)
                .or_else(|| entries.iter().find(|e| e.is_named(name)))
                .or_else(by_part)
                .or_else(by_size)
                .or_else(by_grade)
        };
        let made = || self.fasteners().entry_of(name).or_else(|| self.occupants().entry_of(name));
        let graded = self.lumber().entry_of(name);
        graded.or_else(|| listed().cloned()).or_else(made).ok_or_else(|| NotFound {
            asked: name.to_owned(),
            missing: Missing::Name("entry"),
            nearest: nearest_spelled(name, entries.iter().flat_map(Entry::spelled)),
        })
    }

    fn entries(&self) -> Vec<Entry> {
        [
            self.lumber().entries(),
            self.clear_wood().entries(),
            self.stock().entries(),
            self.fasteners().entries(),
            self.occupants().entries(),
            self.mattresses().entries(),
            self.durations().entries(),
            self.strength_classes().entries(),
            self.pipes().entries(),
        ]
        .concat()
    }
}

/// The embedded table with the rows a file has for it; left unread when it has none.
fn extended<T: Table>(document: &mut Document<'_>) -> OnceLock<T> {
    if !document.mentions(T::ARRAYS) {
        return OnceLock::new();
    }
    let mut table = T::embedded();
    table.add(document);
    OnceLock::from(table)
}
