//! Packs the tables when the program is built, so that it does not read them as text each time it starts.
//!
//! Every `tables/*.toml` becomes a map of its sections in MessagePack, each packed by itself. A list of rows
//! becomes a list of pairs: what the row says of its origin, and its own columns.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use serde::Serialize;
use toml::{Table, Value};

#[path = "../src/tables/origin.rs"]
mod origin;

fn main() {
    println!("cargo::rerun-if-changed=tables");
    let out = PathBuf::from(std::env::var_os("OUT_DIR").expect("cargo sets OUT_DIR"));
    for entry in std::fs::read_dir("tables").expect("there is a folder `tables`") {
        let path = entry.expect("the folder can be read").path();
        if path.extension().is_some_and(|e| e == "toml") {
            let packed = out.join(path.file_stem().expect("a file has a name")).with_extension("packed");
            std::fs::write(packed, pack(&path)).expect("OUT_DIR can be written");
        }
    }
}

fn pack(path: &Path) -> Vec<u8> {
    let text = std::fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let table: Table = text.parse().unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let sections: BTreeMap<String, Vec<u8>> = table.into_iter().map(|(name, value)| (name, section(value))).collect();
    let mut packed = Vec::new();
    let mut serializer = rmp_serde::Serializer::new(&mut packed).with_bytes(rmp_serde::config::BytesMode::ForceAll);
    sections.serialize(&mut serializer).expect("bytes can be packed");
    packed
}

fn section(value: Value) -> Vec<u8> {
    let packed = match value {
        Value::Array(rows) => rmp_serde::to_vec(&rows.into_iter().map(divided).collect::<Vec<_>>()),
        section => rmp_serde::to_vec(&section),
    };
    packed.expect("what TOML can say can be packed")
}

/// A row as what it says of its origin, and its own columns.
fn divided(row: Value) -> (Table, Table) {
    let Value::Table(row) = row else { panic!("a list outside a section is a list of rows, not {row}") };
    row.into_iter().partition(|(name, _)| origin::ORIGIN.contains(&name.as_str()))
}
