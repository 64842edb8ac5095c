//! slatwright
pub mod derivation;
pub mod quantity;
pub mod rules;
pub mod source;
pub mod statics;
pub mod tables;
