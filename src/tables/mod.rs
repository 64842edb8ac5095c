//! Typed, validated handbook tables, one module a table, each matching a file under `tables/`.

pub mod clear_wood;
pub mod lumber;
