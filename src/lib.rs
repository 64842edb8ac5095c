//! slatwright
pub mod derivation;
pub mod quantity;
pub mod source;
pub mod statics;
pub mod tables;
